/* sawing.c - see sawing.h.
 *
 * A part in hand is told by the lines that bound it: the slab's edges, and the cuts made so far. A
 * side of a piece that lies on one of them needs no cut. A side with all of its piece on one hand
 * is cut right across; what is left of the outline then runs from the part's edge to its edge. */
#include "slabwright/sawing.h"

#include "blank.h"
#include "parting.h"

#include <math.h>
#include <string.h>

static const double SAME_UM = 1; /* nearer is the same line */

enum { OUTWARD = 1000 };

/* The part lies where way * p <= at. */
struct bound {
	struct point way;
	double at;
};

struct sawing {
	struct arena *mem;
	struct error *err;
	double length, width, kerf;
	struct blank *blanks;
	struct lying *lying;
	struct bound *bounds;
	size_t bound_count, bound_room, cut_room;
	struct saw_order *out;
};

static enum status bound_push(struct sawing *s, struct point way, double at)
{
	struct bound *b = arena_grow(s->mem, s->bounds, s->bound_count, &s->bound_room, sizeof *b);

	if (!b)
		return error_memory(s->err);
	s->bounds = b;
	b[s->bound_count++] = (struct bound){ way, at };
	return STATUS_OK;
}

/* A cut, with room for n points of its line; those in hand are list[0] on, first the ones to the
 * left. */
static struct saw_cut *cut_new(
        struct sawing *s, enum saw_kind kind, size_t n, const int *list, int left, int right)
{
	struct saw_cut *cuts =
	        arena_grow(s->mem, s->out->cuts, s->out->count, &s->cut_room, sizeof *cuts);
	struct saw_cut *c;

	if (!cuts)
		return NULL;
	s->out->cuts = cuts;
	c = &cuts[s->out->count];
	*c = (struct saw_cut){ .kind = kind,
		.line = arena_alloc(s->mem, n, sizeof *c->line),
		.n = n,
		.places = arena_alloc(s->mem, (size_t)(left + right), sizeof *c->places),
		.left = left,
		.right = right };
	if (!c->line || !c->places)
		return NULL;
	memcpy(c->places, list, (size_t)(left + right) * sizeof *c->places);
	s->out->count++;
	return c;
}

/* --- what needs no cut --- */

/* Whether a side needs no cut any more. */
static bool is_made(const struct sawing *s, const struct blank *b, size_t side)
{
	struct point p = b->corner[side], q = b->corner[blank_next(b, side)];

	for (size_t i = 0; i < s->bound_count && !b->done[side]; i++) {
		const struct bound *k = &s->bounds[i];

		if (fabs(beyond_line(k->way, k->at, p)) < SAME_UM &&
		        fabs(beyond_line(k->way, k->at, q)) < SAME_UM)
			return true;
	}
	return b->done[side];
}

/* --- straight cuts --- */

/* Where the line across `way`, with what is below it to the left, comes to the slab's edges. */
static void ends_of_line(const struct sawing *s, struct point way, double at, struct point *ends)
{
	struct point along = { -way.y, way.x }, base = { way.x * at, way.y * at };
	double lo = -INFINITY, hi = INFINITY;

	for (int axis = 0; axis < 2; axis++) {
		double d = axis ? along.y : along.x, o = axis ? base.y : base.x;
		double side = axis ? s->width : s->length;

		if (fabs(d) < 1e-12)
			continue;
		lo = fmax(lo, fmin(-o / d, (side - o) / d));
		hi = fmin(hi, fmax(-o / d, (side - o) / d));
	}
	ends[0] = (struct point){ base.x + along.x * lo, base.y + along.y * lo };
	ends[1] = (struct point){ base.x + along.x * hi, base.y + along.y * hi };
}

static enum status cut_across(
        struct sawing *s, struct point way, double at, const int *list, int left, int right)
{
	struct saw_cut *c = cut_new(s, SAW_ACROSS, 2, list, left, right);

	if (!c)
		return error_memory(s->err);
	ends_of_line(s, way, at, c->line);
	return STATUS_OK;
}

/* Cuts waste off along the sides of a piece that leave all in hand on one hand. */
static enum status trim(struct sawing *s, const struct blank *b, const int *list, int count)
{
	for (size_t i = 0; i < b->n; i++) {
		bool clear = b->outer[i] && !b->curved[i] && !is_made(s, b, i);
		enum status st;

		for (int k = 0; k < count && clear; k++)
			clear = blank_keeps_below(
			        &s->blanks[list[k]], b->normal[i], blank_reach(b, i));
		if (!clear)
			continue;
		if ((st = cut_across(s, b->normal[i], blank_reach(b, i), list, count, 0)) !=
		                STATUS_OK ||
		        (st = bound_push(s, b->normal[i], blank_reach(b, i))) != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

/* --- cuts with corners --- */

/* A stretch of a piece's outline still to be cut: `count` sides from `first` on. */
struct stretch {
	size_t first, count;
};

/* The stretch that a side belongs to; all sides where none is made. */
static struct stretch stretch_at(const struct sawing *s, const struct blank *b, size_t side)
{
	struct stretch t = { side, 1 };
	size_t last = side;

	while (t.count < b->n && !is_made(s, b, blank_previous(b, t.first))) {
		t.first = blank_previous(b, t.first);
		t.count++;
	}
	while (t.count < b->n && !is_made(s, b, blank_next(b, last))) {
		last = blank_next(b, last);
		t.count++;
	}
	return t;
}

/* Cuts along a stretch of list[0]'s outline. */
static enum status cut_stretch(struct sawing *s, struct stretch t, const int *list, int right)
{
	struct blank *b = &s->blanks[list[0]];
	struct saw_cut *c = cut_new(s, SAW_CURVE, t.count + 1, list, 1, right);
	size_t at = t.first;

	if (!c)
		return error_memory(s->err);
	if (t.count < CURVE_SIDES)
		c->kind = SAW_NOTCH;
	for (size_t i = 0; i < t.count; i++, at = blank_next(b, at)) {
		c->line[i] = b->corner[at];
		if (i && !blank_bends_little(b, at))
			c->kind = SAW_NOTCH;
		c->ground = c->ground || blade_bites(b->corner, b->n, b->corner[at],
		                                 b->corner[blank_next(b, at)], s->kerf);
		b->done[at] = true;
	}
	c->line[t.count] = b->corner[at];
	return STATUS_OK;
}

/* The stretch is cut out from its ends, which lie on the part's edge. Where no side of the piece
 * does there are none: a line along a side, or over a hollow, makes them. */
static enum status open_outline(struct sawing *s, const struct blank *b, const int *list)
{
	for (size_t i = 0; i < b->n; i++)
		for (size_t k = i + 1; k < b->n; k++) {
			struct point p = b->corner[i], q = b->corner[k];
			double l = hypot(q.x - p.x, q.y - p.y);
			struct point way = { (q.y - p.y) / l, (p.x - q.x) / l };
			double at = beyond_line(way, 0, p);
			enum status st;

			if (!blank_keeps_below(b, way, at))
				continue;
			st = cut_across(s, way, at, list, 1, 0);
			return st == STATUS_OK ? bound_push(s, way, at) : st;
		}
	return STATUS_OK;
}

/* The first side still to be cut; b->n: none. */
static size_t first_open(const struct sawing *s, const struct blank *b)
{
	size_t i = 0;

	while (i < b->n && is_made(s, b, i))
		i++;
	return i;
}

/* Whether a corner lies on the edge of the part in hand; there square to the way, if one is given.
 */
static bool on_edge(const struct sawing *s, struct point p, const struct point *way)
{
	for (size_t i = 0; i < s->bound_count; i++) {
		struct point k = s->bounds[i].way;

		if (fabs(beyond_line(k, s->bounds[i].at, p)) < SAME_UM &&
		        (!way || fabs(k.x * way->x + k.y * way->y) < 1e-6))
			return true;
	}
	return false;
}

/* Lets a stretch that goes all round begin at a corner on the part's edge; false where none is
 * there. */
static bool begin_on_edge(const struct sawing *s, const struct blank *b, struct stretch *t)
{
	for (size_t tries = 0; t->count == b->n && tries < b->n; tries++) {
		if (on_edge(s, b->corner[t->first], NULL))
			return true;
		t->first = blank_next(b, t->first);
	}
	return t->count < b->n;
}

/* Cuts the rest of a piece's outline, stretch by stretch. */
static enum status cut_outline(struct sawing *s, const int *list)
{
	struct blank *b = &s->blanks[list[0]];
	enum status st = STATUS_OK;
	size_t side;

	while (st == STATUS_OK && (side = first_open(s, b)) < b->n) {
		struct stretch t = stretch_at(s, b, side);

		st = begin_on_edge(s, b, &t) ? cut_stretch(s, t, list, 0)
		                             : open_outline(s, b, list);
	}
	return st;
}

static enum status cut_openings(struct sawing *s, const int *list)
{
	struct blank *b = &s->blanks[list[0]];

	for (size_t k = 1; k < b->piece->shape.count; k++) {
		const struct ring *r = &b->piece->shape.rings[k];
		struct saw_cut *c = cut_new(s, SAW_OPENING, r->n, list, 1, 0);

		if (!c)
			return error_memory(s->err);
		for (size_t i = 0; i < r->n; i++)
			c->line[i] = place_point(r->p[i], b->place);
		for (size_t i = 0; i < r->n && !c->ground; i++)
			c->ground = blade_bites(c->line, r->n, c->line[i],
			        c->line[i + 1 < r->n ? i + 1 : 0], s->kerf);
	}
	return STATUS_OK;
}

static enum status finish_piece(struct sawing *s, const int *list)
{
	enum status st = trim(s, &s->blanks[list[0]], list, 1);

	if (st == STATUS_OK)
		st = cut_outline(s, list);
	return st == STATUS_OK ? cut_openings(s, list) : st;
}

/* --- pieces in each other's notches --- */

/* The stretch of a piece's outline that faces another: the side nearest to it is one of it. */
static struct stretch facing(const struct sawing *s, const struct blank *b, const struct blank *o)
{
	double least = INFINITY;
	size_t side = 0;

	for (size_t i = 0; i < b->n; i++) {
		struct point ends[2] = { b->corner[i], b->corner[blank_next(b, i)] };
		double d = polygons_distance(ends, 2, o->corner, o->n, (struct point){ 0, 0 });

		if (is_made(s, b, i) || d >= least)
			continue;
		least = d;
		side = i;
	}
	return stretch_at(s, b, side);
}

/* How badly a stretch is sawn: best one that bends inward only and has few corners. */
static size_t cost_of(const struct blank *b, struct stretch t)
{
	size_t cost = t.count, at = t.first;

	for (size_t i = 1; i < t.count; i++) {
		at = blank_next(b, at);
		cost += blank_is_hollow(b, at) ? 0 : OUTWARD;
	}
	return cost;
}

/* Whether the blade beside a stretch makes the sides of what it takes out: that is all on one hand
 * of each, and the ends are square to the part's edge, so that it leaves nothing there. */
static bool makes_both_sides(const struct sawing *s, const struct blank *b, struct stretch t)
{
	size_t last = (t.first + t.count - 1) % b->n;

	return cost_of(b, t) < OUTWARD && on_edge(s, b->corner[t.first], &b->normal[t.first]) &&
	       on_edge(s, b->corner[blank_next(b, last)], &b->normal[last]);
}

/* The lines beside a notch bound what it takes out. */
static enum status bound_by_notch(struct sawing *s, const struct blank *b, struct stretch t)
{
	size_t at = t.first;
	enum status st = STATUS_OK;

	for (size_t i = 0; i < t.count && st == STATUS_OK; i++, at = blank_next(b, at))
		st = bound_push(s, (struct point){ -b->normal[at].x, -b->normal[at].y },
		        -blank_reach(b, at) - s->kerf);
	return st;
}

/* Which of the two is cut along its outline, 0 or 1, and where; 2 where none can be. */
static int choose_stretch(const struct sawing *s, const int *list, struct stretch *out)
{
	size_t least = SIZE_MAX;
	int best = 2;

	for (int i = 0; i < 2; i++) {
		const struct blank *b = &s->blanks[list[i]];
		struct stretch t = facing(s, b, &s->blanks[list[1 - i]]);

		if (!begin_on_edge(s, b, &t) || cost_of(b, t) >= least)
			continue;
		least = cost_of(b, t);
		best = i;
		*out = t;
	}
	return best;
}

/* Parts one piece from another by a cut along its outline. */
static enum status part_by_notch(struct sawing *s, int *list)
{
	struct stretch t;
	size_t bounds;
	int first, both[2];
	enum status st = trim(s, &s->blanks[list[0]], list, 2);

	if (st == STATUS_OK)
		st = trim(s, &s->blanks[list[1]], list, 2);
	if (st != STATUS_OK)
		return st;
	first = choose_stretch(s, list, &t);
	if (first == 2) {
		s->out->sound = false;
		return STATUS_OK;
	}
	both[0] = list[first];
	both[1] = list[1 - first];
	bounds = s->bound_count;
	st = cut_stretch(s, t, both, 1);
	if (st == STATUS_OK)
		st = finish_piece(s, &both[0]);
	s->bound_count = bounds;
	if (st == STATUS_OK && makes_both_sides(s, &s->blanks[both[0]], t))
		st = bound_by_notch(s, &s->blanks[both[0]], t);
	return st == STATUS_OK ? finish_piece(s, &both[1]) : st;
}

/* --- the slab --- */

/* Cuts the pieces told by the list out of the part in hand, whose bounds it leaves as they were. */
static enum status saw_part(struct sawing *s, int *list, int count)
{
	size_t bounds = s->bound_count;
	struct parting_line line;
	enum status st = STATUS_OK;
	int below = 0;

	if (count > 1)
		below = parting_find(s->lying, list, count, s->kerf, SIZE_MAX, &line);
	if (!below) {
		if (count == 1)
			st = finish_piece(s, list);
		else if (count == 2)
			st = part_by_notch(s, list);
		else
			s->out->sound = false;
		s->bound_count = bounds;
		return st;
	}
	if ((st = cut_across(s, line.way, line.at, list, below, count - below)) != STATUS_OK ||
	        (st = bound_push(s, line.way, line.at)) != STATUS_OK ||
	        (st = saw_part(s, list, below)) != STATUS_OK)
		return st;
	s->bounds[bounds] = (struct bound){ { -line.way.x, -line.way.y }, -line.at - s->kerf };
	st = saw_part(s, list + below, count - below);
	s->bound_count = bounds;
	return st;
}

static enum status bound_slab(struct sawing *s)
{
	const struct bound edges[4] = { { { -1, 0 }, 0 }, { { 1, 0 }, s->length }, { { 0, -1 }, 0 },
		{ { 0, 1 }, s->width } };
	enum status st = STATUS_OK;

	for (int i = 0; i < 4 && st == STATUS_OK; i++)
		st = bound_push(s, edges[i].way, edges[i].at);
	return st;
}

enum status saw_order_make(struct arena *mem, const struct piece *pieces,
        const struct cut_stock *stock, const struct cut_source *source, struct saw_order *out,
        struct error *err)
{
	size_t n = (size_t)source->count;
	struct sawing s = { .mem = mem,
		.err = err,
		.length = (double)stock->length_um,
		.width = (double)stock->width_um,
		.kerf = (double)stock->kerf_um,
		.blanks = arena_alloc(mem, n, sizeof *s.blanks),
		.lying = arena_alloc(mem, n, sizeof *s.lying),
		.out = out };
	int *list = arena_alloc(mem, n, sizeof *list);
	enum status st;

	*out = (struct saw_order){ .sound = true };
	if (!s.blanks || !s.lying || !list)
		return error_memory(err);
	if ((st = bound_slab(&s)) != STATUS_OK)
		return st;
	for (int i = 0; i < source->count; i++) {
		list[i] = i;
		st = blank_make(
		        mem, &pieces[source->place[i].piece], &source->place[i], &s.blanks[i], err);
		if (st != STATUS_OK)
			return st;
		s.lying[i] = (struct lying){ .corner = s.blanks[i].corner,
			.normal = s.blanks[i].normal,
			.n = s.blanks[i].n };
	}
	st = source->count ? saw_part(&s, list, source->count) : STATUS_OK;
	if (!out->sound)
		out->count = 0;
	return st;
}
