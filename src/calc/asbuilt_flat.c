/* asbuilt_flat.c - straightedges and puddles.
 *
 * A straightedge lies over two measured points no farther apart than it is long; a third one
 * between them, and beside the line by no more than its width, shows a gap or a hump. From each
 * point the others in reach are sorted by direction, so that only those ahead and behind a point in
 * nearly the same direction are looked at.
 *
 * Water stands where every way out leads up. Ways go from point to neighbour; two points are
 * neighbours where no third lies in the circle over the line between them. Points on the rim of all
 * let the water out. */
#include "asbuilt.h"

#include <math.h>
#include <stdlib.h>

struct spot {
	double x, y, off, level; /* deviation from the plan, and the measured level */
	size_t number; /* of the measured point */
};

struct ray {
	double angle, length, dx, dy;
	size_t spot;
};

static double place_x(const struct plan_measured *m)
{
	return (double)(m->has_place ? m->at_x_um : m->x_um);
}

static double place_y(const struct plan_measured *m)
{
	return (double)(m->has_place ? m->at_y_um : m->y_um);
}

static struct spot *spots_of(struct arena *mem, const struct asbuilt *a)
{
	struct spot *s = arena_alloc(mem, a->with_level, sizeof *s);
	size_t n = 0;

	for (size_t i = 0; s && i < a->count; i++) {
		const struct plan_measured *m = a->points[i].measured;

		if (m->has_level)
			s[n++] = (struct spot){ place_x(m), place_y(m), a->points[i].level_off_um,
				(double)m->level_um, i };
	}
	return s;
}

static int by_angle(const void *a, const void *b)
{
	const struct ray *r = a, *s = b;

	if (r->angle != s->angle)
		return r->angle < s->angle ? -1 : 1;
	return r->length < s->length ? -1 : r->length > s->length;
}

/* From one spot to all others within reach, sorted by angle, and once more a turn farther on. */
static size_t find_rays(
        const struct spot *spots, size_t n, size_t from, double reach, struct ray *rays)
{
	size_t count = 0;

	for (size_t i = 0; i < n; i++) {
		double dx = spots[i].x - spots[from].x, dy = spots[i].y - spots[from].y,
		       length = hypot(dx, dy);

		if (i != from && length > 0 && length <= reach + ASBUILT_HAIR_UM)
			rays[count++] = (struct ray){ atan2(dy, dx), length, dx, dy, i };
	}
	qsort(rays, count, sizeof *rays, by_angle);
	for (size_t i = 0; i < count; i++) {
		rays[count + i] = rays[i];
		rays[count + i].angle += 2 * acos(-1);
	}
	return count;
}

static void take_gap(struct asbuilt_gap *worst, const struct spot *spots, size_t from, size_t to,
        size_t at, double share)
{
	double line = spots[from].off + (spots[to].off - spots[from].off) * share,
	       gap = spots[at].off - line;

	if (worst->from != worst->to && fabs(gap) <= fabs(worst->gap_um))
		return;
	worst->from = spots[from].number;
	worst->at = spots[at].number;
	worst->to = spots[to].number;
	worst->gap_um = gap;
}

/* A spot between the ray's start and another ray's end. */
static void try_pair(struct asbuilt *a, struct asbuilt_gap *worst, const struct spot *spots,
        size_t from, const struct ray *at, const struct ray *to, size_t n)
{
	double along = (at->dx * to->dx + at->dy * to->dy) / to->length,
	       beside = fabs(at->dx * to->dy - at->dy * to->dx) / to->length;

	if (along <= ASBUILT_HAIR_UM || along >= to->length - ASBUILT_HAIR_UM ||
	        beside > (double)STRAIGHTEDGE_WIDTH_UM)
		return;
	for (size_t i = 0; i < a->straightedge_count; i++)
		if (to->length <= a->straightedges[i].length_um + ASBUILT_HAIR_UM)
			take_gap(&worst[i * n + at->spot], spots, from, to->spot, at->spot,
			        along / to->length);
}

static void try_from(struct asbuilt *a, struct asbuilt_gap *worst, const struct spot *spots,
        size_t n, size_t from, struct ray *rays)
{
	size_t count = find_rays(spots, n, from, a->straightedges[0].length_um, rays);

	for (size_t i = 0; i < count; i++) {
		const struct ray *at = &rays[i];
		double reach = at->length > (double)STRAIGHTEDGE_WIDTH_UM
		                       ? asin((double)STRAIGHTEDGE_WIDTH_UM / at->length) + 1e-9
		                       : acos(-1);

		/* Ahead, then behind by going on from the copy a turn farther on. */
		for (size_t j = i + 1; j < i + count && rays[j].angle - at->angle <= reach; j++)
			try_pair(a, worst, spots, from, at, &rays[j], n);
		for (size_t j = i + count - 1; j > i; j--) {
			if (rays[i + count].angle - rays[j].angle > reach)
				break;
			try_pair(a, worst, spots, from, at, &rays[j], n);
		}
	}
}

static void keep_gaps(struct asbuilt *a, const struct asbuilt_gap *worst, size_t n)
{
	for (size_t i = 0; i < a->straightedge_count; i++)
		for (size_t j = 0; j < n; j++) {
			struct asbuilt_gap g = worst[i * n + j];

			if (g.from == g.to)
				continue;
			g.straightedge = i;
			g.over_um = asbuilt_over_um(g.gap_um, a->straightedges[i].rule);
			a->straightedges[i].tried = true;
			a->gap_fails += g.over_um > 0;
			a->gaps[a->gap_count++] = g;
		}
}

enum status asbuilt_find_gaps(struct arena *mem, struct asbuilt *a, struct error *err)
{
	size_t n = a->with_level;
	struct spot *spots = spots_of(mem, a);
	struct ray *rays = arena_alloc(mem, 2 * n, sizeof *rays);
	struct asbuilt_gap *worst = arena_alloc(mem, STRAIGHTEDGES * n, sizeof *worst);

	a->gaps = arena_alloc(mem, STRAIGHTEDGES * n, sizeof *a->gaps);
	if (!spots || !rays || !worst || !a->gaps)
		return error_memory(err);
	for (size_t i = 0; a->straightedge_count && i < n; i++)
		try_from(a, worst, spots, n, i, rays);
	keep_gaps(a, worst, n);
	return STATUS_OK;
}

/* --- puddles --- */

static bool are_neighbours(const struct spot *s, size_t n, size_t a, size_t b)
{
	double x = (s[a].x + s[b].x) / 2, y = (s[a].y + s[b].y) / 2,
	       r = hypot(s[a].x - s[b].x, s[a].y - s[b].y) / 2;

	for (size_t i = 0; i < n; i++)
		if (i != a && i != b && hypot(s[i].x - x, s[i].y - y) < r * (1 - 1e-9))
			return false;
	return true;
}

static double turn(const struct spot *a, const struct spot *b, const struct spot *c)
{
	return (b->x - a->x) * (c->y - a->y) - (c->x - a->x) * (b->y - a->y);
}

static int by_place(const void *a, const void *b)
{
	const struct spot *s = a, *t = b;

	if (s->x != t->x)
		return s->x < t->x ? -1 : 1;
	return s->y < t->y ? -1 : s->y > t->y;
}

/* Marks the spots on the hull of all, those in line on its edges too. Spots come sorted by place.
 */
static void mark_rim(const struct spot *s, size_t n, size_t *chain, bool *rim)
{
	for (int way = 0; way < 2; way++) {
		size_t count = 0;

		for (size_t k = 0; k < n; k++) {
			size_t i = way ? n - 1 - k : k;

			while (count >= 2 &&
			        turn(&s[chain[count - 2]], &s[chain[count - 1]], &s[i]) < 0)
				count--;
			chain[count++] = i;
		}
		for (size_t k = 0; k < count; k++)
			rim[chain[k]] = true;
	}
}

/* Raises the water at each spot to the lowest level from which it runs out: from the rim inward,
 * always on from the lowest place reached. */
static void flood(const struct spot *s, size_t n, const bool *rim, bool *done, double *water)
{
	for (size_t i = 0; i < n; i++)
		water[i] = rim[i] ? s[i].level : INFINITY;
	for (size_t round = 0; round < n; round++) {
		size_t lowest = n;

		for (size_t i = 0; i < n; i++)
			if (!done[i] && isfinite(water[i]) &&
			        (lowest == n || water[i] < water[lowest]))
				lowest = i;
		if (lowest == n)
			return;
		done[lowest] = true;
		for (size_t i = 0; i < n; i++)
			if (!done[i] && fmax(water[lowest], s[i].level) < water[i] &&
			        are_neighbours(s, n, lowest, i))
				water[i] = fmax(water[lowest], s[i].level);
	}
}

enum status asbuilt_find_puddles(struct arena *mem, struct asbuilt *a, struct error *err)
{
	size_t n = a->with_level, *chain = arena_alloc(mem, n, sizeof *chain);
	struct spot *s = spots_of(mem, a);
	bool *rim = arena_alloc(mem, n, sizeof *rim), *done = arena_alloc(mem, n, sizeof *done);
	double *water = arena_alloc(mem, n, sizeof *water);

	a->puddles = arena_alloc(mem, n, sizeof *a->puddles);
	if (!s || !chain || !rim || !done || !water || !a->puddles)
		return error_memory(err);
	qsort(s, n, sizeof *s, by_place);
	mark_rim(s, n, chain, rim);
	flood(s, n, rim, done, water);
	for (size_t i = 0; i < n; i++) {
		double depth = water[i] - s[i].level;
		struct asbuilt_puddle p = { s[i].number, depth,
			asbuilt_over_um(depth, a->puddle_rule) };

		if (!(depth > ASBUILT_HAIR_UM) || !isfinite(depth))
			continue;
		a->puddles[a->puddle_count++] = p;
		a->puddle_fails += p.over_um > 0;
	}
	return STATUS_OK;
}
