/* setout.c - the baseline, and every point measured from it. */
#include "setout.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static struct point point_of(const struct plan_node *n)
{
	return (struct point){ (double)n->x_um, (double)n->y_um };
}

static const struct plan_node *next_node(const struct plan_ring *r, size_t at)
{
	return &r->nodes[at + 1 < r->count ? at + 1 : 0];
}

static double distance(struct point a, struct point b)
{
	return hypot(b.x - a.x, b.y - a.y);
}

/* --- baseline --- */

/* How well an edge serves: a straight one before an arc, a house wall before others. */
static int rank_of(const struct plan_node *n)
{
	if (n->rise_um)
		return 0;
	return n->kind == EDGE_HOUSE_WALL ? 2 : 1;
}

static void choose_baseline(const struct plan_ring *outline, struct setout *out)
{
	int best = -1;

	for (size_t i = 0; i < outline->count; i++) {
		const struct plan_node *n = &outline->nodes[i];
		struct point a = point_of(n), b = point_of(next_node(outline, i));
		int rank = rank_of(n);

		if (rank < best || (rank == best && distance(a, b) <= out->length_um))
			continue;
		best = rank;
		*out = (struct setout){ .first = a,
			.second = b,
			.length_um = distance(a, b),
			.chosen = true,
			.edge = i,
			.house_wall = rank == 2 };
	}
}

static enum status find_baseline(const struct plan *plan, struct setout *out, struct error *err)
{
	const struct plan_baseline *b = &plan->site.baseline;

	*out = (struct setout){ 0 };
	if (!b->has) {
		choose_baseline(&plan->rings[0], out);
		return STATUS_OK;
	}
	out->first = (struct point){ (double)b->x1_um, (double)b->y1_um };
	out->second = (struct point){ (double)b->x2_um, (double)b->y2_um };
	out->length_um = distance(out->first, out->second);
	if (out->length_um < 1000)
		return error_set(err, STATUS_PLAN,
		        "the baseline is shorter than 1 mm; move one of its ends, or take it away "
		        "so that an edge is chosen");
	return STATUS_OK;
}

/* --- points --- */

struct points {
	struct arena *mem;
	struct setout *out;
	bool failed; /* memory is gone */
};

/* Twice the area of the triangle over the product of the tapes is the sine of their angle. */
static bool is_weak(const struct setout *s, const struct setout_point *p)
{
	double sine = fabs(p->offset_um) * s->length_um / (p->tie_first_um * p->tie_second_um);

	return !(sine >= sin((double)TIE_LEAST_UDEG / UDEG_PER_DEG * acos(-1) / 180));
}

/* name is NULL where memory is gone. */
static void add_point(struct points *to, const char *name, struct point at, bool is_peg)
{
	struct setout *s = to->out;
	struct setout_point *p = &s->points[s->point_count];
	double ux = (s->second.x - s->first.x) / s->length_um,
	       uy = (s->second.y - s->first.y) / s->length_um, dx = at.x - s->first.x,
	       dy = at.y - s->first.y;

	if (!name) {
		to->failed = true;
		return;
	}
	*p = (struct setout_point){ .name = name,
		.x_um = at.x,
		.y_um = at.y,
		.chainage_um = dx * ux + dy * uy,
		.offset_um = dy * ux - dx * uy,
		.tie_first_um = distance(s->first, at),
		.tie_second_um = distance(s->second, at),
		.is_peg = is_peg };
	p->weak_tie = is_weak(s, p);
	s->point_count++;
}

static void add_corners(struct points *to, const struct plan *plan)
{
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++) {
			const char *name =
			        i == 0 ? arena_print(to->mem, "corner %zu", j + 1)
			               : arena_print(to->mem, "opening %zu corner %zu", i, j + 1);

			add_point(to, name, point_of(&plan->rings[i].nodes[j]), false);
		}
}

/* Unit vector out of the paving at one end of an edge; of an arc square to its tangent there. */
static struct point outward_at(const struct plan_ring *r, size_t at, bool far_end, bool clockwise)
{
	const struct plan_node *n = &r->nodes[at];
	struct point a = point_of(n), b = point_of(next_node(r, at));
	double c = distance(a, b), turn = 2 * atan2(2 * (double)n->rise_um, c);
	double ux = (b.x - a.x) / c, uy = (b.y - a.y) / c;
	struct point out = clockwise ? (struct point){ -uy, ux } : (struct point){ uy, -ux };

	/* A bulge leans the way out back toward the end it is at. */
	if (!far_end)
		turn = -turn;
	return (struct point){ out.x * cos(turn) + ux * sin(turn),
		out.y * cos(turn) + uy * sin(turn) };
}

/* The back of a run of kerbs where it begins or ends, at a corner of the outline: that is where its
 * line of pegs goes. */
static void add_kerb_end(struct points *to, const struct plan *plan, size_t edge, bool far_end)
{
	const struct plan_ring *r = &plan->rings[0];
	double depth = (double)plan->edging[EDGE_KERB].depth_um;
	size_t corner = far_end ? (edge + 1) % r->count : edge;
	struct point at = point_of(&r->nodes[corner]), out;

	out = outward_at(r, edge, far_end, ring_signed_area2_um2(r) < 0);
	at.x += out.x * depth;
	at.y += out.y * depth;
	add_point(to, arena_print(to->mem, "kerb end at corner %zu", corner + 1), at, false);
}

static void add_kerb_ends(struct points *to, const struct plan *plan)
{
	const struct plan_ring *r = &plan->rings[0];

	if (plan->edging[EDGE_KERB].depth_um <= 0)
		return;
	for (size_t i = 0; i < r->count; i++) {
		size_t before = (i + r->count - 1) % r->count, after = (i + 1) % r->count;

		if (r->nodes[i].kind != EDGE_KERB)
			continue;
		if (r->nodes[before].kind != EDGE_KERB)
			add_kerb_end(to, plan, i, false);
		if (r->nodes[after].kind != EDGE_KERB)
			add_kerb_end(to, plan, i, true);
	}
}

static const char *named(
        struct arena *mem, const char *own, const char *kind, size_t number, const char *part)
{
	if (own && *own)
		return arena_print(mem, "%s%s", own, part);
	return arena_print(mem, "%s %zu%s", kind, number + 1, part);
}

static void add_planters(struct points *to, const struct plan *plan)
{
	char part[40];

	for (size_t i = 0; i < plan->planter_count; i++)
		for (size_t j = 0; j < plan->planters[i].count; j++) {
			const struct plan_point *p = &plan->planters[i].points[j];

			snprintf(part, sizeof part, " corner %zu", j + 1);
			add_point(to, named(to->mem, plan->planters[i].name, "planter", i, part),
			        (struct point){ (double)p->x_um, (double)p->y_um }, false);
		}
}

/* Both ends of the top nosing, left and right as one goes down. */
static void add_steps(struct points *to, const struct plan *plan)
{
	for (size_t i = 0; i < plan->steps_count; i++) {
		const struct plan_steps *s = &plan->steps[i];
		double c, sine, half = (double)s->width_um / 2, x = (double)s->x_um,
		                y = (double)s->y_um;

		turn_of(s->toward_udeg, &c, &sine);
		add_point(to, named(to->mem, s->name, "steps", i, " left"),
		        (struct point){ x - sine * half, y + c * half }, false);
		add_point(to, named(to->mem, s->name, "steps", i, " right"),
		        (struct point){ x + sine * half, y - c * half }, false);
	}
}

static void add_pegs(struct points *to, const struct plan *plan)
{
	for (size_t i = 0; i < plan->site.peg_count; i++) {
		const struct plan_peg *p = &plan->site.pegs[i];

		add_point(to, named(to->mem, p->name, "peg", i, ""),
		        (struct point){ (double)p->x_um, (double)p->y_um }, true);
	}
}

static size_t room_for(const struct plan *plan)
{
	size_t room = plan_edge_count(plan) + 2 * plan->rings[0].count + 2 * plan->steps_count +
	              plan->site.peg_count;

	for (size_t i = 0; i < plan->planter_count; i++)
		room += plan->planters[i].count;
	return room;
}

static int by_chainage(const void *a, const void *b, void *points)
{
	const size_t *i = a, *j = b;
	const struct setout_point *p = points;
	double d = p[*i].chainage_um - p[*j].chainage_um;

	if (d != 0)
		return d < 0 ? -1 : 1;
	return *i < *j ? -1 : 1;
}

static enum status find_points(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err)
{
	size_t room = room_for(plan);
	struct points to = { .mem = mem, .out = out };

	out->points = arena_alloc(mem, room, sizeof *out->points);
	out->running = arena_alloc(mem, room, sizeof *out->running);
	if (!out->points || !out->running)
		return error_memory(err);
	add_corners(&to, plan);
	add_kerb_ends(&to, plan);
	add_planters(&to, plan);
	add_steps(&to, plan);
	add_pegs(&to, plan);
	if (to.failed)
		return error_memory(err);
	for (size_t i = 0; i < out->point_count; i++)
		out->running[i] = i;
	qsort_r(out->running, out->point_count, sizeof *out->running, by_chainage, out->points);
	return STATUS_OK;
}

enum status setout_work_out(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err)
{
	enum status st = find_baseline(plan, out, err);

	if (st == STATUS_OK)
		st = find_points(mem, plan, out, err);
	if (st == STATUS_OK)
		st = setout_diagonals(mem, &plan->rings[0], out, err);
	if (st == STATUS_OK)
		st = setout_triples(mem, plan, out, err);
	return st == STATUS_OK ? setout_arcs(mem, plan, out, err) : st;
}

double out_of_square_rad(double a, double b, double d1, double d2)
{
	return (d1 - d2) * hypot(a, b) / (2 * a * b);
}

double corner_off_square_rad(double a, double b, double across)
{
	return asin(fmax(-1, fmin(1, (across * across - a * a - b * b) / (2 * a * b))));
}

enum squareness squareness_of(const double sides[4], const double diagonals[2], double tolerance)
{
	if (fabs(sides[0] - sides[2]) > tolerance || fabs(sides[1] - sides[3]) > tolerance)
		return SIDES_DIFFER;
	return fabs(diagonals[0] - diagonals[1]) > tolerance ? DIAGONALS_DIFFER : PROVEN_SQUARE;
}
