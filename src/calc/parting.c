/* parting.c - see parting.h. Which line is sawn first is all the same: it takes nothing from the
 * others. Lines along a side of a piece are looked at first, which make that side as well; then
 * those along the slab, then slanted ones. */
#include "parting.h"

#include <math.h>

struct search {
	const struct lying *polygons;
	int *order;
	int count;
	double kerf;
	struct parting_line *line;
};

/* How far a polygon reaches along a direction. */
static void reach(const struct lying *p, struct point way, double *lo, double *hi)
{
	double shift = way.x * p->move.x + way.y * p->move.y;

	*lo = INFINITY;
	*hi = -INFINITY;
	for (size_t i = 0; i < p->n; i++) {
		double d = way.x * p->corner[i].x + way.y * p->corner[i].y + shift;

		*lo = fmin(*lo, d);
		*hi = fmax(*hi, d);
	}
}

/* Brings those that end at the line or below it to the front, the others kept in order. */
static int bring_below(const struct search *s, struct point way, double at)
{
	int below = 0;

	for (int i = 0; i < s->count; i++) {
		int one = s->order[i];
		double lo, hi;

		reach(&s->polygons[one], way, &lo, &hi);
		if (hi > at)
			continue;
		for (int k = i; k > below; k--)
			s->order[k] = s->order[k - 1];
		s->order[below++] = one;
	}
	return below;
}

/* By a line across `way` at the end of a polygon. */
static int split_along(const struct search *s, struct point way)
{
	for (int i = 0; i < s->count; i++) {
		double at, lo, hi;
		int under = 0, over = 0;

		reach(&s->polygons[s->order[i]], way, &lo, &at);
		for (int j = 0; j < s->count && under + over == j; j++) {
			reach(&s->polygons[s->order[j]], way, &lo, &hi);
			under += hi <= at;
			over += hi > at && lo >= at + s->kerf - 1e-3;
		}
		if (over && under + over == s->count) {
			*s->line = (struct parting_line){ way, at };
			return bring_below(s, way, at);
		}
	}
	return 0;
}

static int split_along_slab(const struct search *s)
{
	int below = split_along(s, (struct point){ 1, 0 });

	return below ? below : split_along(s, (struct point){ 0, 1 });
}

static int split_along_sides(const struct search *s)
{
	for (int i = 0; i < s->count; i++) {
		const struct lying *p = &s->polygons[s->order[i]];

		for (size_t k = 0; k < p->n; k++) {
			int below = split_along(s, p->normal[k]);

			if (below)
				return below;
		}
	}
	return 0;
}

static struct point corner_of(const struct search *s, size_t k)
{
	int i = 0;
	const struct lying *p = &s->polygons[s->order[0]];

	while (k >= p->n) {
		k -= p->n;
		p = &s->polygons[s->order[++i]];
	}
	return (struct point){ p->corner[k].x + p->move.x, p->corner[k].y + p->move.y };
}

/* By a slanted line. The widest gap between the pieces on either hand lies along a line through two
 * corners of those on one hand, or across the way from a corner on one hand to one on the other. */
static int split_slanted(const struct search *s, size_t most)
{
	size_t n = 0;
	int below = 0;

	for (int i = 0; i < s->count; i++)
		n += s->polygons[s->order[i]].n;
	for (size_t i = 0; n <= most && i < n; i++)
		for (size_t k = i + 1; k < n && !below; k++) {
			struct point a = corner_of(s, i), b = corner_of(s, k);
			double dx = b.x - a.x, dy = b.y - a.y, l = hypot(dx, dy);

			if (l > 0)
				below = split_along(s, (struct point){ dx / l, dy / l });
			if (l > 0 && !below)
				below = split_along(s, (struct point){ -dy / l, dx / l });
		}
	return below;
}

int parting_find(const struct lying *polygons, int *order, int count, double kerf,
        size_t most_corners, struct parting_line *line)
{
	struct search s = { polygons, order, count, kerf, line };
	int below = split_along_sides(&s);

	if (!below)
		below = split_along_slab(&s);
	return below ? below : split_slanted(&s, most_corners);
}
