/* blank.c - see blank.h. */
#include "blank.h"

#include <math.h>

static const double BEND = 0.35; /* sine of what a curve's chords turn at most, some 20 degrees */
static const double HAIR_UM = 2; /* what is less deep is no bite */

size_t blank_next(const struct blank *b, size_t i)
{
	return i + 1 < b->n ? i + 1 : 0;
}

size_t blank_previous(const struct blank *b, size_t i)
{
	return i ? i - 1 : b->n - 1;
}

double beyond_line(struct point way, double at, struct point p)
{
	return way.x * p.x + way.y * p.y - at;
}

double blank_reach(const struct blank *b, size_t side)
{
	return beyond_line(b->normal[side], 0, b->corner[side]);
}

/* Sine of the turn to the left at a corner. */
static double bend_at(const struct blank *b, size_t corner)
{
	struct point in = b->normal[blank_previous(b, corner)], out = b->normal[corner];

	return in.x * out.y - in.y * out.x;
}

bool blank_is_hollow(const struct blank *b, size_t corner)
{
	return bend_at(b, corner) <= 0;
}

bool blank_bends_little(const struct blank *b, size_t corner)
{
	struct point in = b->normal[blank_previous(b, corner)], out = b->normal[corner];

	return in.x * out.x + in.y * out.y > 0 && fabs(bend_at(b, corner)) < BEND;
}

bool blank_keeps_below(const struct blank *b, struct point way, double at)
{
	for (size_t i = 0; i < b->n; i++)
		if (beyond_line(way, at, b->corner[i]) > 0.01)
			return false;
	return true;
}

/* Three sides and more that bend little one after the other. */
static void mark_curves(struct blank *b)
{
	for (size_t i = 0; i < b->n; i++) {
		size_t last = i;
		size_t count = 1;

		while (count < b->n && b->outer[i] && b->outer[blank_next(b, last)] &&
		        blank_bends_little(b, blank_next(b, last))) {
			last = blank_next(b, last);
			count++;
		}
		for (size_t k = i; count >= CURVE_SIDES; k = blank_next(b, k)) {
			b->curved[k] = true;
			if (k == last)
				break;
		}
	}
}

enum status blank_make(struct arena *mem, const struct piece *piece, const struct cut_place *place,
        struct blank *b, struct error *err)
{
	const struct ring *r = &piece->shape.rings[0];

	*b = (struct blank){ .piece = piece,
		.place = place,
		.corner = arena_alloc(mem, r->n, sizeof *b->corner),
		.normal = arena_alloc(mem, r->n, sizeof *b->normal),
		.n = r->n,
		.done = arena_alloc(mem, r->n, sizeof *b->done),
		.outer = arena_alloc(mem, r->n, sizeof *b->outer),
		.curved = arena_alloc(mem, r->n, sizeof *b->curved) };
	if (!b->corner || !b->normal || !b->done || !b->outer || !b->curved)
		return error_memory(err);
	for (size_t i = 0; i < b->n; i++)
		b->corner[i] = place_point(r->p[i], place);
	for (size_t i = 0; i < b->n; i++) {
		struct point p = b->corner[i], q = b->corner[blank_next(b, i)];
		double l = hypot(q.x - p.x, q.y - p.y);

		b->normal[i] = (struct point){ (q.y - p.y) / l, (p.x - q.x) / l };
	}
	for (size_t i = 0; i < b->n; i++)
		b->outer[i] = blank_keeps_below(b, b->normal[i], blank_reach(b, i));
	mark_curves(b);
	return STATUS_OK;
}

bool blade_bites(const struct point *ring, size_t n, struct point p, struct point q, double kerf_um)
{
	double l = hypot(q.x - p.x, q.y - p.y), near = HAIR_UM, far = kerf_um - near;
	struct point along = { (q.x - p.x) / l, (q.y - p.y) / l };
	struct point out = { along.y * near, -along.x * near };
	struct point wide = { along.y * far, -along.x * far };
	struct point blade[4];

	if (far <= near || l <= 2 * near)
		return false;
	p = (struct point){ p.x + along.x * near, p.y + along.y * near };
	q = (struct point){ q.x - along.x * near, q.y - along.y * near };
	blade[0] = (struct point){ p.x + out.x, p.y + out.y };
	blade[1] = (struct point){ p.x + wide.x, p.y + wide.y };
	blade[2] = (struct point){ q.x + wide.x, q.y + wide.y };
	blade[3] = (struct point){ q.x + out.x, q.y + out.y };
	for (size_t i = 0; i < n; i++) {
		struct point side[2] = { ring[i], ring[i + 1 < n ? i + 1 : 0] };

		if (polygons_distance(blade, 4, side, 2, (struct point){ 0, 0 }) <= 0)
			return true;
	}
	return false;
}
