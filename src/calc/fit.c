/* fit.c - poses of a piece on its source slab, and two pieces on one slab.
 *
 * A side that faces a joint must lie on the matching edge of the slab, so a pose is a turn, and in
 * each direction either one place or a range to slide in. Two pieces are pushed as far apart as
 * their ranges allow. Where no line in a direction in which they slide meets one of them in several
 * stretches (they are convex, or their notches open the other way), the moves that bring them too
 * close have no gaps in that direction either, so if all extreme moves fail every other one does.
 * Other pieces with notches are tried in some more places. The whole slab may be turned by half a
 * turn, so the first piece keeps its own turn. */
#include "fit.h"

#include <math.h>
#include <string.h>

static const double TOLERANCE = 1e-3; /* um */

struct stock stock_of(const struct cut_stock *from)
{
	return (struct stock){
		.length = (double)from->length_um,
		.width = (double)from->width_um,
		.kerf = (double)from->kerf_um,
		.square = from->length_um == from->width_um,
		.directional = from->directional,
		.edges = from->edges,
	};
}

bool stock_holds(const struct stock *stock, double area)
{
	return area <= stock->length * stock->width + 1e6;
}

/* The turn about (0, 0) and the move that bring a slab position, of the size given, onto the slab.
 */
static struct point turned(struct point p, int turn, struct point size, struct point *at)
{
	switch (turn) {
	case 90:
		*at = (struct point){ size.y, 0 };
		return (struct point){ size.y - p.y, p.x };
	case 180:
		*at = size;
		return (struct point){ size.x - p.x, size.y - p.y };
	case 270:
		*at = (struct point){ 0, size.x };
		return (struct point){ p.y, size.x - p.x };
	default:
		*at = (struct point){ 0, 0 };
		return p;
	}
}

/* Whether some line along the axis meets the ring in several stretches: then its corners go up and
 * down across it more than once. */
static bool is_bent(const struct point *p, size_t n, enum axis along)
{
	int changes = 0, before = 0;

	for (size_t i = 0; i < 2 * n; i++) {
		struct point a = p[i % n], b = p[(i + 1) % n];
		double up = along == AXIS_X ? b.y - a.y : b.x - a.x;
		int way = (up > 0) - (up < 0);

		if (!way)
			continue;
		changes += before && way != before && i >= n;
		before = way;
	}
	return changes > 2;
}

static enum status pose_make(struct arena *mem, const struct stock *stock,
        const struct piece *piece, struct point size, int turn, struct pose *out, struct error *err)
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
		out->corner[i] = turned(r->p[i], turn, size, &out->at);
	for (size_t i = 0; i < r->n; i++) {
		struct point a = out->corner[i], b = out->corner[i + 1 < r->n ? i + 1 : 0];
		double l = hypot(b.x - a.x, b.y - a.y);

		out->normal[i] = (struct point){ (b.y - a.y) / l, (a.x - b.x) / l };
		out->reach[i] = out->normal[i].x * a.x + out->normal[i].y * a.y;
	}
	out->box = points_box(out->corner, r->n);
	out->bent_x = is_bent(out->corner, r->n, AXIS_X);
	out->bent_y = is_bent(out->corner, r->n, AXIS_Y);
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

int piece_corners(const struct piece *piece, const struct stock *stock)
{
	const struct ring *r = &piece->shape.rings[0];
	double length = piece->standing ? stock->width : stock->length;
	double width = piece->standing ? stock->length : stock->width;
	int taken = 0;

	if (stock->edges == RULE_ROUGH)
		return 0;
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[(i + r->n - 1) % r->n], p = r->p[i], b = r->p[(i + 1) % r->n];
		bool corner = (p.x == 0 || p.x == length) && (p.y == 0 || p.y == width);

		taken += corner && ((a.x == p.x && b.y == p.y) || (a.y == p.y && b.x == p.x));
	}
	return taken;
}

/* The turns that bring a position back onto its slab: half turns, and quarters for a square one; a
 * standing position lies a quarter turned to begin with. */
static int allowed_turns(const struct stock *stock, bool standing, const int **turns)
{
	static const int lying[] = { 0, 180, 90, 270 }, upright[] = { 270, 90, 0, 180 };

	*turns = standing ? upright : lying;
	return stock->directional ? 1 : stock->square ? 4 : 2;
}

enum status shape_make(struct arena *mem, const struct stock *stock, const struct piece *piece,
        struct shape *out, struct error *err)
{
	struct point size = piece->standing ? (struct point){ stock->width, stock->length }
	                                    : (struct point){ stock->length, stock->width };
	const int *turns;
	int allowed = allowed_turns(stock, piece->standing, &turns);

	*out = (struct shape){
		.convex = is_convex(&piece->shape.rings[0]),
		.area = piece->area_um2,
		.corners = piece_corners(piece, stock),
	};
	for (int i = 0; i < allowed; i++) {
		enum status st = pose_make(mem, stock, piece, size, turns[i], &out->pose[i], err);

		if (st != STATUS_OK)
			return st;
		out->poses++;
	}
	return STATUS_OK;
}

struct cut_place shape_home(const struct shape *shape)
{
	return (struct cut_place){ .turn = shape->pose[0].turn, .at = shape->pose[0].at };
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

		for (size_t j = 0; j < b->n && least > widest; j++) {
			double gap = m.x * b->corner[j].x + m.y * b->corner[j].y - base;

			least = gap < least ? gap : least;
		}
		widest = least > widest ? least : widest;
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

bool poses_apart(const struct stock *s, const struct pose *a, struct point da, const struct pose *b,
        struct point db, bool convex)
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

enum { MOST_MOVES = 64, SLIDE_STEPS = 4 };

/* Moves of two pieces in one direction that are worth a try. */
struct moves {
	double a[MOST_MOVES], b[MOST_MOVES];
	int count;
};

/* How one piece may move in one direction: its range, and where it lies before. */
struct slide {
	bool free;
	double lo, hi, box_lo, box_hi;
};

static void add_move(struct moves *m, double a, double b)
{
	if (m->count == MOST_MOVES)
		return;
	m->a[m->count] = a;
	m->b[m->count++] = b;
}

/* Moves that set the slider in the middle between neighbouring corners of a piece with notches, and
 * some along its range. The other piece stays at either end of its own range. */
static void add_notches(struct moves *m, struct slide slider, struct slide other,
        const struct pose *notched, enum axis axis, bool slider_is_a)
{
	double ends[2] = { other.free ? other.lo : 0, other.free ? other.hi : 0 };

	for (int e = 0; e < (other.free ? 2 : 1); e++) {
		for (int i = 1; i < SLIDE_STEPS; i++) {
			double move = slider.lo + (slider.hi - slider.lo) * i / SLIDE_STEPS;

			add_move(m, slider_is_a ? move : ends[e], slider_is_a ? ends[e] : move);
		}
		for (size_t i = 0; i < notched->n; i++) {
			struct point p = notched->corner[i],
			             q = notched->corner[i + 1 < notched->n ? i + 1 : 0];
			double middle = (axis == AXIS_X ? p.x + q.x : p.y + q.y) / 2 + ends[e];
			double move = middle - (slider.box_lo + slider.box_hi) / 2;

			if (move > slider.lo && move < slider.hi)
				add_move(m, slider_is_a ? move : ends[e],
				        slider_is_a ? ends[e] : move);
		}
	}
}

static struct slide slide_of(const struct pose *p, enum axis axis)
{
	if (axis == AXIS_X)
		return (struct slide){ p->slides_x, p->x_lo, p->x_hi, p->box.x0, p->box.x1 };
	return (struct slide){ p->slides_y, p->y_lo, p->y_hi, p->box.y0, p->box.y1 };
}

static void list_moves(
        struct moves *m, const struct pose *a, const struct pose *b, enum axis axis, bool convex)
{
	struct slide sa = slide_of(a, axis), sb = slide_of(b, axis);

	m->count = 0;
	add_move(m, sa.lo, sb.hi);
	if (sa.free || sb.free)
		add_move(m, sa.hi, sb.lo);
	if (convex)
		return;
	if (sb.free)
		add_notches(m, sb, sa, a, axis, false);
	if (sa.free)
		add_notches(m, sa, sb, b, axis, true);
}

static bool poses_fit(const struct stock *s, const struct pose *a, const struct pose *b,
        bool convex, struct cut_place *pa, struct cut_place *pb)
{
	struct moves x, y;

	list_moves(&x, a, b, AXIS_X, convex);
	list_moves(&y, a, b, AXIS_Y, convex);
	for (int i = 0; i < x.count; i++)
		for (int j = 0; j < y.count; j++) {
			struct point da = { x.a[i], y.a[j] }, db = { x.b[i], y.b[j] };

			if (!poses_apart(s, a, da, b, db, convex))
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

static bool extremes_tell(const struct pose *a, const struct pose *b)
{
	return !((a->slides_x || b->slides_x) && (a->bent_x || b->bent_x)) &&
	       !((a->slides_y || b->slides_y) && (a->bent_y || b->bent_y));
}

/* Without a kerf they might touch all along a notch, which is not told from overlapping. */
bool misfit_is_sure(const struct stock *stock, const struct shape *a, const struct shape *b)
{
	if ((a->convex && b->convex) || a->corners + b->corners > 4 ||
	        !stock_holds(stock, a->area + b->area))
		return true;
	for (int i = 0; i < a->poses; i++)
		for (int j = 0; j < b->poses; j++)
			if (!extremes_tell(&a->pose[i], &b->pose[j]))
				return false;
	return stock->kerf >= 1;
}

bool shapes_fit(const struct stock *stock, const struct shape *a, const struct shape *b,
        struct cut_place *pa, struct cut_place *pb)
{
	if (!stock_holds(stock, a->area + b->area) || a->corners + b->corners > 4)
		return false;
	for (int t = 0; t < b->poses; t++)
		if (poses_fit(stock, &a->pose[0], &b->pose[t], a->convex && b->convex, pa, pb))
			return true;
	return false;
}

unsigned poses_that_fit(const struct stock *stock, const struct shape *a, const struct shape *b)
{
	unsigned fit = 0;

	for (int i = 0; i < a->poses; i++)
		for (int j = 0; j < b->poses; j++)
			if (poses_fit(stock, &a->pose[i], &b->pose[j], a->convex && b->convex, NULL,
			            NULL))
				fit |= 1U << (MOST_POSES * i + j);
	return fit;
}
