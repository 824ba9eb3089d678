/* cover_lp.c - the simplex method with a dense inverse of the basis. */
#include "cover_lp.h"

#include <math.h>

static const double EPS = 1e-9;
enum { MOST_PIVOTS = 20000, BLAND_AFTER = 2000 };

static double *row(const struct cover_lp *lp, int i)
{
	return &lp->inverse[(size_t)i * (size_t)lp->classes];
}

/* The duals: costs of the basis times its inverse. */
static void find_duals(struct cover_lp *lp)
{
	for (int j = 0; j < lp->classes; j++)
		lp->y[j] = 0;
	for (int i = 0; i < lp->classes; i++)
		if (lp->basis[i] >= 0)
			for (int j = 0; j < lp->classes; j++)
				lp->y[j] += row(lp, i)[j];
}

double pattern_value(const double *values, const struct cover_pattern *p)
{
	double sum = 0;

	for (int i = 0; i < p->count; i++)
		sum += values[p->item[i]];
	return sum;
}

/* What comes into the basis: the best, or after many pivots the first that helps. False where
 * nothing does. */
static bool find_entering(const struct cover_lp *lp, long *enter)
{
	bool first = lp->pivots > BLAND_AFTER;
	double best = EPS;
	bool found = false;

	for (int j = 0; j < lp->classes && !(first && found); j++)
		if (-lp->y[j] > best) {
			best = first ? EPS : -lp->y[j];
			*enter = -1 - j;
			found = true;
		}
	for (size_t p = 0; p < lp->pattern_count && !(first && found); p++) {
		double gain = pattern_value(lp->y, &lp->patterns[p]) - 1;

		if (gain > best) {
			best = first ? EPS : gain;
			*enter = (long)p;
			found = true;
		}
	}
	return found;
}

static void make_column(struct cover_lp *lp, long enter)
{
	for (int i = 0; i < lp->classes; i++) {
		lp->column[i] = 0;
		if (enter < 0)
			lp->column[i] = -row(lp, i)[-1 - enter];
		else
			for (int k = 0; k < lp->patterns[enter].count; k++)
				lp->column[i] += row(lp, i)[lp->patterns[enter].item[k]];
	}
}

static int find_leaving(const struct cover_lp *lp)
{
	int leave = -1;
	double least = INFINITY;

	for (int i = 0; i < lp->classes; i++) {
		double ratio;

		if (lp->column[i] <= EPS)
			continue;
		ratio = lp->x[i] / lp->column[i];
		if (ratio < least - EPS ||
		        (ratio < least + EPS && leave >= 0 && lp->basis[i] < lp->basis[leave])) {
			least = fmin(least, ratio);
			leave = i;
		}
	}
	return leave;
}

static void pivot(struct cover_lp *lp, long enter, int leave)
{
	double by = lp->column[leave];

	for (int j = 0; j < lp->classes; j++)
		row(lp, leave)[j] /= by;
	lp->x[leave] /= by;
	for (int i = 0; i < lp->classes; i++) {
		double times = lp->column[i];

		if (i == leave || times == 0)
			continue;
		for (int j = 0; j < lp->classes; j++)
			row(lp, i)[j] -= times * row(lp, leave)[j];
		lp->x[i] = fmax(0, lp->x[i] - times * lp->x[leave]);
	}
	lp->basis[leave] = enter;
	lp->pivots++;
}

/* One pivot; false when the program is solved. */
bool cover_lp_step(struct cover_lp *lp)
{
	long enter = 0;
	int leave;

	find_duals(lp);
	if (lp->pivots >= MOST_PIVOTS || !find_entering(lp, &enter))
		return false;
	make_column(lp, enter);
	leave = find_leaving(lp);
	if (leave < 0)
		return false;
	pivot(lp, enter, leave);
	return true;
}

enum status cover_lp_begin(struct arena *mem, struct cover_lp *lp, int classes, const int *demand,
        const struct cover_pattern *patterns, size_t pattern_count, struct error *err)
{
	size_t n = (size_t)classes;

	*lp = (struct cover_lp){ .classes = classes,
		.patterns = patterns,
		.pattern_count = pattern_count,
		.inverse = arena_alloc(mem, n * n, sizeof *lp->inverse),
		.x = arena_alloc(mem, n, sizeof *lp->x),
		.y = arena_alloc(mem, n, sizeof *lp->y),
		.column = arena_alloc(mem, n, sizeof *lp->column),
		.basis = arena_alloc(mem, n, sizeof *lp->basis) };
	if (!lp->inverse || !lp->x || !lp->y || !lp->column || !lp->basis)
		return error_memory(err);
	for (int j = 0; j < classes; j++) {
		lp->basis[j] = j;
		lp->x[j] = demand[j];
		row(lp, j)[j] = 1;
	}
	return STATUS_OK;
}
