/* pack_price.c - the fewest units when ways may be used in fractions.
 *
 * The linear program of Gilmore and Gomory (Operations Research 9, 1961): each way costs one unit,
 * all pieces must be covered. It is solved by the revised simplex method; ways come from those
 * known already, then from the knapsack.
 *
 * What is proven does not rest on floating point: the prices are rounded to whole values, the most
 * that a unit can hold of those is found exactly, and the pieces' total value over that is a bound
 * (Farley, Operations Research 38, 1990). Sources from memory. */
#include "pack1d.h"

#include <string.h>

#define STIR 1e-3 /* by which demands are stirred, lest many ways tie */
#define ENOUGH 1e-7 /* gain that is worth a step */
#define GOOD_VALUE (PRICE_ONE + (int64_t)(PRICE_ONE * ENOUGH))
enum { KNAPSACK_TRIES = 40000, MORE_TRIES = 4000, MORE_WAYS = 30, ROOT_SETTLE = 40000000 };

/* --- ways --- */

static bool is_usable(const struct price *p, const struct way *w)
{
	for (size_t i = 0; i < w->count; i++)
		if (p->shares[w->first + i].count > p->left[p->shares[w->first + i].kind])
			return false;
	return true;
}

/* Begins a way, to which shares are added. */
static struct way *new_way(struct price *p)
{
	struct way *ways = arena_grow(p->mem, p->ways, p->way_count, &p->way_room, sizeof *ways);

	if (!ways)
		return NULL;
	p->ways = ways;
	ways[p->way_count] = (struct way){ .first = p->share_count };
	return &ways[p->way_count++];
}

static bool add_share(struct price *p, struct way *w, uint32_t kind, int64_t count)
{
	struct way_share *shares =
	        arena_grow(p->mem, p->shares, p->share_count, &p->share_room, sizeof *shares);

	if (!shares)
		return false;
	p->shares = shares;
	shares[p->share_count++] = (struct way_share){ kind, (uint32_t)count };
	w->count++;
	return true;
}

/* Makes a way of what the knapsack has chosen. */
static bool take_way(struct price *p)
{
	struct way *w = new_way(p);

	for (size_t i = 0; w && i < p->sack->count; i++)
		if (p->sack->best_take[i] &&
		        !add_share(p, w, p->sack->item[i].kind, p->sack->best_take[i]))
			return false;
	if (w)
		w->usable = true;
	return w != NULL;
}

bool price_know(struct price *p, const struct filled *f)
{
	for (size_t u = 0; u < f->units; u++) {
		struct way *w = new_way(p);

		if (!w)
			return false;
		for (size_t i = f->first[u], n; i < f->first[u + 1]; i += n) {
			for (n = 1; i + n < f->first[u + 1] && f->kind[i + n] == f->kind[i];)
				n++;
			if (!add_share(p, w, f->kind[i], (int64_t)n))
				return false;
		}
		w->usable = is_usable(p, w);
	}
	return true;
}

/* --- the pieces to cover --- */

bool price_init(struct price *p, struct arena *mem, const struct load *load, struct knapsack *sack)
{
	size_t m = load->kinds;

	*p = (struct price){
		.mem = mem, .load = load, .sack = sack, .m = m, .settle_work = ROOT_SETTLE
	};
	p->inverse = arena_alloc(mem, m * m, sizeof(double));
	p->x = arena_alloc(mem, m, sizeof(double));
	p->pi = arena_alloc(mem, m, sizeof(double));
	p->column = arena_alloc(mem, m, sizeof(double));
	p->demand = arena_alloc(mem, m, sizeof(double));
	p->cost = arena_alloc(mem, m, sizeof(double));
	p->basis = arena_alloc(mem, m, sizeof *p->basis);
	p->value = arena_alloc(mem, m, sizeof *p->value);
	p->proof = arena_alloc(mem, m, sizeof *p->proof);
	p->spot = arena_alloc(mem, m, sizeof *p->spot);
	p->remain = arena_alloc(mem, m, sizeof *p->remain);
	return p->inverse && p->x && p->pi && p->column && p->demand && p->cost && p->basis &&
	       p->value && p->proof && p->spot && p->remain;
}

static void set_demand(struct price *p, const int64_t *left)
{
	uint32_t mix = 12345;

	p->left = left;
	p->settling = false;
	p->bound = 0;
	p->value_limit = 0;
	for (size_t i = 0; i < p->m; i++) {
		mix = mix * 1664525 + 1013904223;
		p->demand[i] = left[i] ? (double)left[i] + STIR * (1 + (mix >> 16) / 65536.0) : 0;
	}
	for (size_t i = 0; i < p->way_count; i++)
		p->ways[i].usable = is_usable(p, &p->ways[i]);
}

bool price_demand(struct price *p, const int64_t *left)
{
	size_t m = p->m;

	memset(p->inverse, 0, m * m * sizeof *p->inverse);
	p->total = 0;
	for (size_t i = 0; i < m; i++) {
		int64_t n = p->load->room / p->load->size[i];
		struct way *w = new_way(p);

		n = n < left[i] ? n : left[i];
		if (!w || !add_share(p, w, (uint32_t)i, n))
			return false;
		p->basis[i] = (int32_t)(p->way_count - 1);
		p->inverse[i * m + i] = p->pi[i] = 1.0 / (double)n;
		p->cost[i] = 1;
	}
	set_demand(p, left);
	for (size_t i = 0; i < m; i++) {
		p->x[i] = p->demand[i] * p->pi[i];
		p->total += p->pi[i] * (double)left[i];
	}
	return true;
}

void price_change_demand(struct price *p, const int64_t *left)
{
	set_demand(p, left);
	basis_settle(p);
}

/* --- a step --- */

static bool find_surplus(const struct price *p, size_t *kind)
{
	double least = -1e-9;

	*kind = p->m;
	for (size_t i = 0; i < p->m; i++)
		if (p->pi[i] < least) {
			least = p->pi[i];
			*kind = i;
		}
	return *kind < p->m;
}

static bool find_way(struct price *p, size_t *way, double *gain)
{
	*gain = ENOUGH;
	*way = p->way_count;
	for (size_t w = 0; w < p->way_count; w++) {
		const struct way_share *s = p->shares + p->ways[w].first;
		double worth = -1;

		if (!p->ways[w].usable)
			continue;
		for (size_t i = 0; i < p->ways[w].count; i++)
			worth += p->pi[s[i].kind] * s[i].count;
		if (worth > *gain) {
			*gain = worth;
			*way = w;
		}
	}
	p->work += (int64_t)p->share_count;
	return *way < p->way_count;
}

/* What whole values prove: no unit holds more than the knapsack's limit of them. */
static void prove(struct price *p)
{
	int64_t total = 0, limit = p->sack->limit;
	size_t bound;

	for (size_t i = 0; i < p->m; i++)
		total += p->left[i] * p->value[i];
	bound = (size_t)((total + limit - 1) / limit);
	if (bound < p->bound ||
	        (bound == p->bound && p->value_limit && (double)total / (double)limit <= p->proven))
		return;
	p->proven = (double)total / (double)limit;
	p->bound = bound;
	p->value_limit = limit;
	memcpy(p->proof, p->value, p->m * sizeof *p->proof);
}

/* Hands the knapsack what a piece of each kind is worth, of what remains of them. */
static void offer_pieces(struct price *p)
{
	knapsack_start(p->sack);
	for (size_t i = 0; i < p->m; i++)
		if (p->value[i])
			knapsack_add(p->sack, i, p->load->size[i], p->value[i], p->remain[i]);
}

/* Adds more good ways, of pieces that those found so far leave, for later steps. */
static bool take_more_ways(struct price *p)
{
	struct knapsack *sack = p->sack;

	memcpy(p->remain, p->left, p->m * sizeof *p->remain);
	for (int i = 0; i < MORE_WAYS; i++) {
		for (size_t k = 0; k < sack->count; k++)
			p->remain[sack->item[k].kind] -= sack->best_take[k];
		offer_pieces(p);
		knapsack_solve(sack, p->load->room, GOOD_VALUE, MORE_TRIES);
		if (sack->best <= GOOD_VALUE)
			return true;
		if (!take_way(p))
			return false;
	}
	return true;
}

/* When the knapsack is solved: what it proves, and the ways it gives. */
static enum price_state conclude(struct price *p)
{
	double gain = (double)p->sack->best / (double)PRICE_ONE - 1;
	size_t at = p->way_count;

	p->settling = false;
	prove(p);
	if (p->sack->best <= GOOD_VALUE)
		return PRICE_BEST;
	if (!take_way(p) || !take_more_ways(p))
		return PRICE_NO_MEMORY;
	return basis_enter_way(p, at, gain) ? PRICE_GOING : PRICE_BEST;
}

/* Looks for a way that is not known yet. */
static enum price_state find_new_way(struct price *p)
{
	struct knapsack *sack = p->sack;

	for (size_t i = 0; i < p->m; i++) {
		double pi = p->pi[i] < 0 || !p->left[i] ? 0 : p->pi[i] > 4 ? 4 : p->pi[i];

		p->value[i] = (int64_t)(pi * (double)PRICE_ONE);
	}
	memcpy(p->remain, p->left, p->m * sizeof *p->remain);
	offer_pieces(p);
	knapsack_solve(sack, p->load->room, GOOD_VALUE, KNAPSACK_TRIES);
	if (sack->best > GOOD_VALUE || sack->limit <= GOOD_VALUE)
		return conclude(p);
	p->settling = true;
	return knapsack_settle(sack, p->load->room, p->settle_work) ? PRICE_GOING : PRICE_NO_MEMORY;
}

enum price_state price_step(struct price *p)
{
	size_t at;
	double gain;

	if (p->settling)
		return knapsack_settle_step(p->sack) ? conclude(p) : PRICE_GOING;
	if (find_surplus(p, &at))
		return basis_enter_surplus(p, at, -p->pi[at]) ? PRICE_GOING : PRICE_BEST;
	if (find_way(p, &at, &gain))
		return basis_enter_way(p, at, gain) ? PRICE_GOING : PRICE_BEST;
	return find_new_way(p);
}
