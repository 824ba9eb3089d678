/* pack_dive.c - whole units out of units in fractions.
 *
 * A dive fixes what ways are used whole, and of the rest the most used ones; the pieces still left
 * are priced again, and so on down. After each fixing the quick plans are tried on what is left,
 * and near the bottom all ways. A dive that cannot come out with fewer units is given up; the next
 * one chooses a little differently. */
#include "pack1d.h"

#include <math.h>
#include <string.h>

#define CLOSE 1e-3

enum { SMALL = 24, BOTTOM_WORK = 400000, FULL_TRIES = 2000 };

bool dive_init(
        struct dive *d, struct arena *mem, struct price *price, struct first *first, size_t pieces)
{
	const struct load *load = first->load;

	*d = (struct dive){ .price = price, .first = first, .load = load };
	d->left = arena_alloc(mem, load->kinds, sizeof *d->left);
	return d->left && filled_init(&d->out, mem, pieces) &&
	       filled_init(&d->tried, mem, pieces) && basis_save_init(&d->top, price, mem) &&
	       search_init(&d->bottom, mem, load, pieces, 4000);
}

void dive_top(struct dive *d)
{
	basis_copy(&d->top, d->price, d->load->kinds);
}

/* Draws 0 up to 1. */
static double draw(struct dive *d)
{
	d->mix = d->mix * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
	return (double)(d->mix >> 40) / (double)(1 << 24);
}

/* Starts on a new dive, from the top. */
void dive_start(struct dive *d, const int64_t *count, size_t aim)
{
	size_t n = d->dives++;

	d->aim = aim;
	memcpy(d->left, count, d->load->kinds * sizeof *d->left);
	filled_clear(&d->out);
	basis_copy(d->price, &d->top, d->load->kinds);
	price_change_demand(d->price, d->left);
	d->mix = n;
	d->noise = n < 2 ? 0 : 0.05 * (double)(n % 8);
	d->enough = n % 3 == 0 ? 0.6 : n % 3 == 1 ? 0.9 : 2;
}

static bool has_pieces(const struct dive *d, const struct way *w)
{
	const struct way_share *s = d->price->shares + w->first;

	for (size_t i = 0; i < w->count; i++)
		if (d->left[s[i].kind] < s[i].count)
			return false;
	return true;
}

/* Cuts that many units in this way, as far as there are pieces; gives how many. */
static size_t fix(struct dive *d, const struct way *w, size_t times)
{
	const struct way_share *s = d->price->shares + w->first;
	size_t done = 0;

	for (; done < times && has_pieces(d, w); done++) {
		for (size_t i = 0; i < w->count; i++) {
			filled_add(&d->out, s[i].kind, s[i].count);
			d->left[s[i].kind] -= s[i].count;
		}
		filled_close(&d->out);
	}
	return done;
}

/* The way of which most is used beyond whole units, with some chance; NULL where there is none. */
static const struct way *most_used(struct dive *d, double *part)
{
	const struct price *p = d->price;
	const struct way *best = NULL;

	*part = 0;
	for (size_t k = 0; k < p->m; k++) {
		double more = p->x[k] - floor(p->x[k] + CLOSE);

		if (p->basis[k] < 0 || more < CLOSE || !has_pieces(d, &p->ways[p->basis[k]]))
			continue;
		more += d->noise * draw(d);
		if (more > *part) {
			*part = more;
			best = &p->ways[p->basis[k]];
		}
	}
	return best;
}

/* Fixes whole uses, or else those fractions that are large enough and the largest in any case. */
static bool fix_some(struct dive *d)
{
	const struct price *p = d->price;
	const struct way *w;
	size_t fixed = 0;
	double part;

	for (size_t k = 0; k < p->m; k++)
		if (p->basis[k] >= 0 && p->x[k] > 1 - CLOSE)
			fixed += fix(d, &p->ways[p->basis[k]], (size_t)(p->x[k] + CLOSE));
	while ((w = most_used(d, &part)) != NULL && (!fixed || part >= d->enough))
		fixed += fix(d, w, 1);
	return fixed > 0;
}

static size_t pieces_left(const struct dive *d)
{
	int64_t n = 0;

	for (size_t k = 0; k < d->load->kinds; k++)
		n += d->left[k];
	return (size_t)n;
}

/* Whether a quick plan for what is left comes out; it is then in d->out. */
static bool finish_quickly(struct dive *d)
{
	for (int kind = 0; kind < 3; kind++) {
		filled_copy(&d->tried, &d->out);
		if (kind == 0)
			first_fit(d->first, d->left, &d->tried);
		else if (kind == 1)
			best_fit(d->first, d->left, &d->tried);
		else
			full_fit(d->first, d->left, FULL_TRIES, &d->tried);
		if (d->tried.units <= d->aim) {
			filled_copy(&d->out, &d->tried);
			return true;
		}
	}
	return false;
}

/* Whether all ways find a plan for the few pieces left. */
static bool finish_by_search(struct dive *d)
{
	struct search *s = &d->bottom;
	bool found;

	search_start(s, d->left, d->aim - d->out.units, NULL, 0);
	found = search_step(s, BOTTOM_WORK) == SEARCH_FOUND;
	if (found)
		search_take(s, &d->out);
	return found;
}

/* When the prices are settled: fixes and looks whether what is left comes out. */
static enum dive_state go_down(struct dive *d)
{
	bool fixed = fix_some(d);

	if (!fixed || d->out.units + bound_by_length(d->load, d->left) > d->aim)
		return DIVE_FAILED;
	if (finish_quickly(d))
		return DIVE_FOUND;
	if (pieces_left(d) <= SMALL)
		return finish_by_search(d) ? DIVE_FOUND : DIVE_FAILED;
	price_change_demand(d->price, d->left);
	return DIVE_GOING;
}

enum dive_state dive_step(struct dive *d)
{
	struct price *p = d->price;
	enum price_state st = price_step(p);

	if (st == PRICE_NO_MEMORY)
		return DIVE_NO_MEMORY;
	if (d->out.units + p->bound > d->aim)
		return DIVE_FAILED;
	/* What is still to be gained would not save a unit. */
	if (st == PRICE_GOING && (double)p->bound < ceil(p->total - CLOSE))
		return DIVE_GOING;
	return go_down(d);
}
