/* pack_basis.c - the linear program's basis: a dense inverse, changed a column at a time. */
#include "pack1d.h"

#include <math.h>
#include <string.h>

#define TINY 1e-9
#define LEAST_PIVOT 1e-7
static const double UNUSABLE_COST = 3, HELPER_COST = 100;
enum { SURPLUS = -1, HELPER = INT32_MIN };

/* The column enters with coefficients `column` in the basis, in place of row `out`. */
static void pivot(struct price *p, size_t out, int32_t id, double cost, double gain)
{
	size_t m = p->m, n = 0;
	double *row = p->inverse + out * m, by = p->column[out], step = p->x[out] / by;

	for (size_t j = 0; j < m; j++)
		if (row[j] != 0) {
			row[j] /= by;
			p->spot[n++] = (uint32_t)j;
		}
	for (size_t k = 0; k < m; k++) {
		double d = p->column[k], *other = p->inverse + k * m;

		if (k == out || fabs(d) < 1e-12)
			continue;
		p->x[k] -= step * d;
		if (p->x[k] < 0)
			p->x[k] = 0;
		if (n == m)
			for (size_t j = 0; j < m; j++)
				other[j] -= d * row[j];
		else
			for (size_t j = 0; j < n; j++)
				other[p->spot[j]] -= d * row[p->spot[j]];
		p->work += 1 + (int64_t)n;
	}
	for (size_t j = 0; j < n; j++) {
		double less = gain * row[p->spot[j]];

		p->pi[p->spot[j]] -= less;
		p->total -= less * (double)p->left[p->spot[j]];
	}
	p->x[out] = step;
	p->basis[out] = id;
	p->cost[out] = cost;
	p->pivots++;
}

/* Brings the column in where it gains that much a unit of it. Of the rows that stop it at about the
 * same, the one with the largest coefficient leaves, which keeps the inverse sound. */
static bool enter(struct price *p, int32_t id, double cost, double gain)
{
	size_t out = p->m;
	double most = INFINITY;

	for (size_t k = 0; k < p->m; k++)
		if (p->column[k] > LEAST_PIVOT)
			most = fmin(most, (p->x[k] + TINY) / p->column[k]);
	for (size_t k = 0; k < p->m; k++)
		if (p->column[k] > LEAST_PIVOT && p->x[k] <= most * p->column[k] &&
		        (out == p->m || p->column[k] > p->column[out]))
			out = k;
	if (out == p->m)
		return false;
	pivot(p, out, id, cost, gain);
	return true;
}

bool basis_enter_way(struct price *p, size_t at, double gain)
{
	const struct way *w = &p->ways[at];

	for (size_t k = 0; k < p->m; k++) {
		const double *row = p->inverse + k * p->m;
		double sum = 0;

		for (size_t i = 0; i < w->count; i++)
			sum += row[p->shares[w->first + i].kind] * p->shares[w->first + i].count;
		p->column[k] = sum;
	}
	p->work += (int64_t)(p->m * w->count);
	return enter(p, (int32_t)at, 1, gain);
}

/* More than is needed of a kind. */
bool basis_enter_surplus(struct price *p, size_t kind, double gain)
{
	for (size_t k = 0; k < p->m; k++)
		p->column[k] = -p->inverse[k * p->m + kind];
	return enter(p, SURPLUS - (int32_t)kind, 0, gain);
}

/* What the basis comes to for the demand. */
static void anew(struct price *p)
{
	size_t m = p->m;

	memset(p->pi, 0, m * sizeof *p->pi);
	p->total = 0;
	for (size_t k = 0; k < m; k++) {
		const double *row = p->inverse + k * m;
		double sum = 0;

		if (p->basis[k] >= 0)
			p->cost[k] = p->ways[p->basis[k]].usable ? 1 : UNUSABLE_COST;
		for (size_t j = 0; j < m; j++) {
			sum += row[j] * p->demand[j];
			p->pi[j] += p->cost[k] * row[j];
		}
		p->x[k] = sum;
	}
	for (size_t j = 0; j < m; j++)
		p->total += p->pi[j] * (double)p->left[j];
	p->work += 2 * (int64_t)(m * m);
}

/* Where ways of the basis would be used less than nothing, one column that stands for all of these
 * takes the place of the worst. It is dear, so it soon leaves again. */
static void help_out(struct price *p)
{
	size_t worst = 0;
	double price = 0;

	for (size_t k = 0; k < p->m; k++) {
		p->column[k] = p->x[k] < 0 ? p->x[k] : 0;
		price += p->column[k] * p->cost[k];
		if (p->x[k] < p->x[worst])
			worst = k;
	}
	if (p->x[worst] < -TINY)
		pivot(p, worst, HELPER, HELPER_COST, price - HELPER_COST);
	for (size_t k = 0; k < p->m; k++)
		p->x[k] = p->x[k] < 0 ? 0 : p->x[k];
}

void basis_settle(struct price *p)
{
	anew(p);
	help_out(p);
}

bool basis_save_init(struct price *to, const struct price *p, struct arena *mem)
{
	size_t m = p->m;

	*to = (struct price){ 0 };
	to->inverse = arena_alloc(mem, m * m, sizeof(double));
	to->cost = arena_alloc(mem, m, sizeof(double));
	to->x = arena_alloc(mem, m, sizeof(double));
	to->basis = arena_alloc(mem, m, sizeof *to->basis);
	return to->inverse && to->cost && to->basis && to->x;
}

void basis_copy(struct price *to, const struct price *from, size_t m)
{
	memcpy(to->inverse, from->inverse, m * m * sizeof(double));
	memcpy(to->cost, from->cost, m * sizeof(double));
	memcpy(to->x, from->x, m * sizeof(double));
	memcpy(to->basis, from->basis, m * sizeof *to->basis);
}
