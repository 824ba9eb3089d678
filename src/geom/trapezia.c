/* trapezia.c - tracts that overlap, taken apart.
 *
 * Between two neighbouring heights of corners and crossings no two sides change places: there,
 * going from left to right, it is known which tracts a point lies in. What the same two sides
 * bound from one such band to the next is one trapezium. */
#include "slabwright/mesh.h"

#include <math.h>
#include <stdlib.h>

static const double NARROWEST_UM = 1e-3; /* less is noise between sides that coincide */

struct side {
	double y0, y1, x0, x1; /* lower end (x0, y0), upper end (x1, y1) */
	size_t tract;
};

/* A trapezium that grows upward. */
struct growing {
	size_t left, right, tract; /* sides; the tract that counts */
	double y0;
	bool goes_on;
};

struct parting {
	struct arena *mem;
	struct arena scratch;
	const struct tract *tracts;
	struct side *sides;
	size_t side_count;
	double *heights;
	size_t height_count, height_room;
	size_t *active, active_count; /* sides in the band, from left to right */
	size_t *inside, inside_count; /* tracts about the point, in no order */
	struct growing *open;
	size_t open_count, open_room;
	struct trapezium *out;
	size_t out_count, out_room;
};

static double x_at(const struct side *s, double y)
{
	return s->x0 + (s->x1 - s->x0) * ((y - s->y0) / (s->y1 - s->y0));
}

static int by_lower_end(const void *a, const void *b)
{
	const struct side *s = a, *t = b;

	return s->y0 < t->y0 ? -1 : s->y0 > t->y0;
}

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static bool add_height(struct parting *p, double y)
{
	double *grown = arena_grow(
	        &p->scratch, p->heights, p->height_count, &p->height_room, sizeof *grown);

	if (!grown)
		return false;
	p->heights = grown;
	grown[p->height_count++] = y;
	return true;
}

static bool add_sides(struct parting *p, size_t tract, const struct ring *r)
{
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[i + 1 < r->n ? i + 1 : 0];

		if (!add_height(p, a.y))
			return false;
		if (a.y < b.y)
			p->sides[p->side_count++] = (struct side){ a.y, b.y, a.x, b.x, tract };
		else if (a.y > b.y)
			p->sides[p->side_count++] = (struct side){ b.y, a.y, b.x, a.x, tract };
	}
	return true;
}

static bool collect_sides(struct parting *p, size_t count)
{
	size_t n = 0;

	for (size_t i = 0; i < count; i++)
		for (size_t j = 0; j < p->tracts[i].ring_count; j++)
			n += p->tracts[i].rings[j].n;
	p->sides = arena_alloc(&p->scratch, n, sizeof *p->sides);
	p->active = arena_alloc(&p->scratch, n, sizeof *p->active);
	p->inside = arena_alloc(&p->scratch, count, sizeof *p->inside);
	if (!p->sides || !p->active || !p->inside)
		return false;
	for (size_t i = 0; i < count; i++)
		for (size_t j = 0; j < p->tracts[i].ring_count; j++)
			if (!add_sides(p, i, &p->tracts[i].rings[j]))
				return false;
	if (p->side_count)
		qsort(p->sides, p->side_count, sizeof *p->sides, by_lower_end);
	return true;
}

/* Where two sides change places. */
static bool add_crossing(struct parting *p, const struct side *s, const struct side *t)
{
	double y0 = fmax(s->y0, t->y0), y1 = fmin(s->y1, t->y1), low, high;

	if (fmin(s->x0, s->x1) > fmax(t->x0, t->x1) || fmin(t->x0, t->x1) > fmax(s->x0, s->x1))
		return true;
	low = x_at(s, y0) - x_at(t, y0);
	high = x_at(s, y1) - x_at(t, y1);
	if ((low < 0 && high > 0) || (low > 0 && high < 0))
		return add_height(p, y0 + (y1 - y0) * (low / (low - high)));
	return true;
}

static bool find_heights(struct parting *p)
{
	size_t n = 0;

	for (size_t i = 0; i < p->side_count; i++) {
		const struct side *s = &p->sides[i];
		size_t kept = 0;

		for (size_t j = 0; j < n; j++) {
			const struct side *t = &p->sides[p->active[j]];

			if (t->y1 <= s->y0)
				continue;
			p->active[kept++] = p->active[j];
			if (!add_crossing(p, s, t))
				return false;
		}
		n = kept;
		p->active[n++] = i;
	}
	if (p->height_count)
		qsort(p->heights, p->height_count, sizeof *p->heights, by_value);
	return true;
}

static void sort_active(struct parting *p, double middle)
{
	for (size_t i = 1; i < p->active_count; i++) {
		size_t side = p->active[i], j = i;
		double x = x_at(&p->sides[side], middle);

		for (; j && x_at(&p->sides[p->active[j - 1]], middle) > x; j--)
			p->active[j] = p->active[j - 1];
		p->active[j] = side;
	}
}

/* Steps over a side of a tract; gives the first tract that the point beyond lies in. */
static size_t step_over(struct parting *p, size_t tract)
{
	size_t first = SIZE_MAX, at = 0;

	while (at < p->inside_count && p->inside[at] != tract)
		at++;
	if (at < p->inside_count)
		p->inside[at] = p->inside[--p->inside_count];
	else
		p->inside[p->inside_count++] = tract;
	for (size_t i = 0; i < p->inside_count; i++)
		first = p->inside[i] < first ? p->inside[i] : first;
	return first;
}

static bool close_trapezium(struct parting *p, const struct growing *g, double y1)
{
	const struct side *l = &p->sides[g->left], *r = &p->sides[g->right];
	struct trapezium t = { g->y0, y1,
		{ x_at(l, g->y0), x_at(r, g->y0), x_at(l, y1), x_at(r, y1) },
		p->tracts[g->tract].value };
	struct trapezium *grown;

	if (t.x[1] - t.x[0] < NARROWEST_UM && t.x[3] - t.x[2] < NARROWEST_UM)
		return true;
	grown = arena_grow(p->mem, p->out, p->out_count, &p->out_room, sizeof *grown);
	if (!grown)
		return false;
	p->out = grown;
	grown[p->out_count++] = t;
	return true;
}

/* What lies between two sides in a band: goes on from the band below, or begins. */
static bool lie_between(struct parting *p, struct growing g)
{
	struct growing *grown;

	if (g.tract == SIZE_MAX || p->tracts[g.tract].value == TRACT_OF_NONE)
		return true;
	for (size_t i = 0; i < p->open_count; i++) {
		struct growing *o = &p->open[i];

		if (o->left == g.left && o->right == g.right && o->tract == g.tract) {
			o->goes_on = true;
			return true;
		}
	}
	grown = arena_grow(&p->scratch, p->open, p->open_count, &p->open_room, sizeof *grown);
	if (!grown)
		return false;
	p->open = grown;
	grown[p->open_count++] = g;
	return true;
}

/* Closes what does not go on in the band that begins at y. */
static bool close_rest(struct parting *p, double y)
{
	size_t kept = 0;

	for (size_t i = 0; i < p->open_count; i++) {
		if (!p->open[i].goes_on && !close_trapezium(p, &p->open[i], y))
			return false;
		if (p->open[i].goes_on)
			p->open[kept++] = p->open[i];
	}
	p->open_count = kept;
	return true;
}

static bool part_band(struct parting *p, double y0, double y1)
{
	size_t was = SIZE_MAX, left = 0;

	sort_active(p, y0 + (y1 - y0) / 2);
	for (size_t i = 0; i < p->open_count; i++)
		p->open[i].goes_on = false;
	p->inside_count = 0;
	for (size_t i = 0; i < p->active_count; i++) {
		size_t side = p->active[i], is = step_over(p, p->sides[side].tract);

		if (is == was)
			continue;
		if (!lie_between(p, (struct growing){ left, side, was, y0, true }))
			return false;
		was = is;
		left = side;
	}
	return close_rest(p, y0);
}

static bool part_all(struct parting *p)
{
	size_t next = 0;
	double y1 = 0;

	for (size_t h = 0; h + 1 < p->height_count; h++) {
		double y0 = p->heights[h];
		size_t kept = 0;

		y1 = p->heights[h + 1];
		if (y0 == y1)
			continue;
		for (size_t i = 0; i < p->active_count; i++)
			if (p->sides[p->active[i]].y1 > y0)
				p->active[kept++] = p->active[i];
		p->active_count = kept;
		for (; next < p->side_count && p->sides[next].y0 <= y0; next++)
			p->active[p->active_count++] = next;
		if (!part_band(p, y0, y1))
			return false;
	}
	for (size_t i = 0; i < p->open_count; i++)
		p->open[i].goes_on = false;
	return close_rest(p, y1);
}

enum status tracts_take_apart(struct arena *mem, const struct tract *tracts, size_t count,
        struct trapezium **out, size_t *out_count, struct error *err)
{
	struct parting p = { .mem = mem, .tracts = tracts };
	bool done = collect_sides(&p, count) && find_heights(&p) && part_all(&p);

	arena_free(&p.scratch);
	*out = p.out;
	*out_count = p.out_count;
	return done ? STATUS_OK : error_memory(err);
}
