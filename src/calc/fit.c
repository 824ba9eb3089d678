/* fit.c - poses of a piece on its source slab, and two pieces on one slab.
 *
 * A side that faces a joint must lie on the matching edge of the slab, so a pose is a turn, and in
 * each direction either one place or a range to slide in. Two pieces are pushed as far apart as
 * their ranges allow: where both are convex the moves that bring them too close form a convex set,
 * so if all extreme moves fail every other one does. The whole slab may be turned by half a turn,
 * so the first piece keeps its own turn. */
#include "fit.h"

#include <math.h>
#include <string.h>

static const double TOLERANCE = 1e-3; /* um */

struct stock stock_of(const struct plan_laying *laying)
{
	struct slab_size s = slab_size(&laying->slab);

	return (struct stock){
		.length = (double)s.length_um,
		.width = (double)s.width_um,
		.kerf = (double)laying->kerf_um,
		.square = s.length_um == s.width_um,
		.directional = laying->slab.directional,
		.edges = laying->edges,
	};
}

/* The turn about (0, 0) and the move that keeps a slab position on the slab itself. */
static struct point turned(struct point p, int turn, const struct stock *s, struct point *at)
{
	switch (turn) {
	case 90:
		*at = (struct point){ s->width, 0 };
		return (struct point){ s->width - p.y, p.x };
	case 180:
		*at = (struct point){ s->length, s->width };
		return (struct point){ s->length - p.x, s->width - p.y };
	case 270:
		*at = (struct point){ 0, s->length };
		return (struct point){ p.y, s->length - p.x };
	default:
		*at = (struct point){ 0, 0 };
		return p;
	}
}

static enum status pose_make(struct arena *mem, const struct stock *stock,
        const struct piece *piece, int turn, struct pose *out, struct error *err)
{
	const struct ring *r = &piece->shape.rings[0];
	unsigned sides = stock->edges == RULE_ROUGH ? 0 : piece->sides;
	bool free_x = !(sides & (SIDE_LEFT | SIDE_RIGHT)),
	     free_y = !(sides & (SIDE_BOTTOM | SIDE_TOP));
	bool quarter = turn == 90 || turn == 270;

	*out = (struct pose){ .turn = turn, .n = r->n };
	out->corner = arena_alloc(mem, r->n, sizeof *out->corner);
	out->normal = arena_alloc(mem, r->n, sizeof *out->normal);
	out->reach = arena_alloc(mem, r->n, sizeof *out->reach);
	if (!out->corner || !out->normal || !out->reach)
		return error_memory(err);
	for (size_t i = 0; i < r->n; i++)
		out->corner[i] = turned(r->p[i], turn, stock, &out->at);
	for (size_t i = 0; i < r->n; i++) {
		struct point a = out->corner[i], b = out->corner[i + 1 < r->n ? i + 1 : 0];
		double l = hypot(b.x - a.x, b.y - a.y);

		out->normal[i] = (struct point){ (b.y - a.y) / l, (a.x - b.x) / l };
		out->reach[i] = out->normal[i].x * a.x + out->normal[i].y * a.y;
	}
	out->box = points_box(out->corner, r->n);
	out->slides_x = quarter ? free_y : free_x;
	out->slides_y = quarter ? free_x : free_y;
	if (out->slides_x) {
		out->x_lo = -out->box.x0;
		out->x_hi = stock->length - out->box.x1;
	}
	if (out->slides_y) {
		out->y_lo = -out->box.y0;
		out->y_hi = stock->width - out->box.y1;
	}
	return STATUS_OK;
}

static bool is_convex(const struct ring *r)
{
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n], c = r->p[(i + 2) % r->n];

		if ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) < 0)
			return false;
	}
	return true;
}

int piece_corners(const struct piece *piece, const struct stock *s)
{
	const struct ring *r = &piece->shape.rings[0];
	int taken = 0;

	if (s->edges == RULE_ROUGH)
		return 0;
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[(i + r->n - 1) % r->n], p = r->p[i], b = r->p[(i + 1) % r->n];
		bool corner = (p.x == 0 || p.x == s->length) && (p.y == 0 || p.y == s->width);

		taken += corner && ((a.x == p.x && b.y == p.y) || (a.y == p.y && b.x == p.x));
	}
	return taken;
}

enum status shape_make(struct arena *mem, const struct stock *stock, const struct piece *piece,
        struct shape *out, struct error *err)
{
	static const int turns[MOST_POSES] = { 0, 180, 90, 270 };
	int allowed = stock->directional ? 1 : stock->square ? 4 : 2;

	*out = (struct shape){
		.convex = is_convex(&piece->shape.rings[0]),
		.area = piece->area_um2,
		.corners = piece_corners(piece, stock),
	};
	for (int i = 0; i < allowed; i++) {
		enum status st = pose_make(mem, stock, piece, turns[i], &out->pose[i], err);

		if (st != STATUS_OK)
			return st;
		out->poses++;
	}
	return STATUS_OK;
}

/* The widest gap that a line along a side of a leaves between a and b, um; negative where none
 * parts them. */
static double gap_along(
        const struct pose *a, struct point da, const struct pose *b, struct point db)
{
	double widest = -INFINITY;

	for (size_t i = 0; i < a->n; i++) {
		struct point m = a->normal[i];
		double base = a->reach[i] + m.x * (da.x - db.x) + m.y * (da.y - db.y),
		       least = INFINITY;

		for (size_t j = 0; j < b->n; j++)
			least = fmin(least, m.x * b->corner[j].x + m.y * b->corner[j].y - base);
		widest = fmax(widest, least);
	}
	return widest;
}

static bool far_enough(
        const struct pose *a, struct point da, const struct pose *b, struct point db, double kerf)
{
	struct point move = { db.x - da.x, db.y - da.y };

	return polygons_distance(a->corner, a->n, b->corner, b->n, move) >=
	       fmax(kerf, 1) - TOLERANCE;
}

static bool apart(const struct stock *s, const struct pose *a, struct point da,
        const struct pose *b, struct point db, bool convex)
{
	double need = s->kerf - TOLERANCE;
	double dx = fmax(b->box.x0 + db.x - a->box.x1 - da.x, a->box.x0 + da.x - b->box.x1 - db.x);
	double dy = fmax(b->box.y0 + db.y - a->box.y1 - da.y, a->box.y0 + da.y - b->box.y1 - db.y);

	if (dx >= need || dy >= need)
		return true;
	if (convex) {
		double gap = fmax(gap_along(a, da, b, db), gap_along(b, db, a, da));

		if (gap >= need)
			return true;
		if (gap <= 0)
			return false;
	}
	return far_enough(a, da, b, db, s->kerf);
}

struct moves {
	double a[2], b[2];
	int count;
};

/* Moves in one direction that push two pieces apart. */
static struct moves extremes(
        bool a_slides, double a_lo, double a_hi, bool b_slides, double b_lo, double b_hi)
{
	if (!a_slides && !b_slides)
		return (struct moves){ .count = 1 };
	return (struct moves){ { a_lo, a_hi }, { b_hi, b_lo }, 2 };
}

static bool poses_fit(const struct stock *s, const struct pose *a, const struct pose *b,
        bool convex, struct cut_place *pa, struct cut_place *pb)
{
	struct moves x = extremes(a->slides_x, a->x_lo, a->x_hi, b->slides_x, b->x_lo, b->x_hi);
	struct moves y = extremes(a->slides_y, a->y_lo, a->y_hi, b->slides_y, b->y_lo, b->y_hi);

	for (int i = 0; i < x.count; i++)
		for (int j = 0; j < y.count; j++) {
			struct point da = { x.a[i], y.a[j] }, db = { x.b[i], y.b[j] };

			if (!apart(s, a, da, b, db, convex))
				continue;
			if (pa)
				*pa = (struct cut_place){ .turn = a->turn,
					.at = { a->at.x + da.x, a->at.y + da.y } };
			if (pb)
				*pb = (struct cut_place){ .turn = b->turn,
					.at = { b->at.x + db.x, b->at.y + db.y } };
			return true;
		}
	return false;
}

bool shapes_fit(const struct stock *stock, const struct shape *a, const struct shape *b,
        struct cut_place *pa, struct cut_place *pb)
{
	if (a->area + b->area > stock->length * stock->width || a->corners + b->corners > 4)
		return false;
	for (int t = 0; t < b->poses; t++)
		if (poses_fit(stock, &a->pose[0], &b->pose[t], a->convex && b->convex, pa, pb))
			return true;
	return false;
}
