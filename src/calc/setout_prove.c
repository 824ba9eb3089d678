/* setout_prove.c - what proves a shape that has been set out: diagonals, 3-4-5, arcs.
 *
 * The outline's corners, arcs taken as chords, are triangulated by cutting off ears: corners whose
 * triangle lies inside and holds no other corner. Sides and the inner edges of that triangulation
 * fix the shape; the other diagonal of the two triangles at an inner edge proves it where it lies
 * inside as well. */
#include "setout.h"

#include <math.h>
#include <stdlib.h>

__extension__ typedef __int128 wide;

struct triangle {
	size_t corner[3];
};

struct shape {
	const struct plan_node *nodes;
	int way; /* 1 where the corners run anticlockwise, -1 clockwise */
};

/* Twice the area of the triangle, positive anticlockwise. */
static wide turn_at(const struct plan_node *a, const struct plan_node *b, const struct plan_node *c)
{
	return (wide)(b->x_um - a->x_um) * (c->y_um - a->y_um) -
	       (wide)(c->x_um - a->x_um) * (b->y_um - a->y_um);
}

static int sense(const struct shape *s, size_t a, size_t b, size_t c)
{
	wide t = turn_at(&s->nodes[a], &s->nodes[b], &s->nodes[c]) * s->way;

	return (t > 0) - (t < 0);
}

static bool holds(const struct shape *s, const size_t corner[3], size_t p)
{
	return sense(s, corner[0], corner[1], p) >= 0 && sense(s, corner[1], corner[2], p) >= 0 &&
	       sense(s, corner[2], corner[0], p) >= 0;
}

static bool is_ear(const struct shape *s, const size_t *left, size_t n, size_t i)
{
	size_t corner[3] = { left[(i + n - 1) % n], left[i], left[(i + 1) % n] };

	if (sense(s, corner[0], corner[1], corner[2]) <= 0)
		return false;
	for (size_t j = 0; j < n; j++)
		if (left[j] != corner[0] && left[j] != corner[1] && left[j] != corner[2] &&
		        holds(s, corner, left[j]))
			return false;
	return true;
}

/* The ear whose cut is the shortest, so that diagonals are short and triangles stout; n: none. */
static size_t best_ear(const struct shape *s, const size_t *left, size_t n)
{
	size_t best = n;
	double least = INFINITY;

	for (size_t i = 0; i < n; i++) {
		const struct plan_node *a = &s->nodes[left[(i + n - 1) % n]],
		                       *b = &s->nodes[left[(i + 1) % n]];
		double cut = hypot((double)(a->x_um - b->x_um), (double)(a->y_um - b->y_um));

		if (cut < least && is_ear(s, left, n, i)) {
			least = cut;
			best = i;
		}
	}
	return best;
}

/* Cuts ears until a triangle is left. Corners in line with their neighbours are passed over: they
 * make no triangle. Chords of arcs may cross; what can be cut then is cut. Returns how many. */
static size_t triangulate(const struct shape *s, size_t *left, size_t n, struct triangle *out)
{
	size_t count = 0;

	while (n >= 3) {
		size_t i = best_ear(s, left, n);

		if (i == n)
			break;
		out[count++] =
		        (struct triangle){ { left[(i + n - 1) % n], left[i], left[(i + 1) % n] } };
		for (n--; i < n; i++)
			left[i] = left[i + 1];
	}
	return count;
}

static void add_diagonal(
        struct setout *out, const struct shape *s, size_t from, size_t to, bool check)
{
	const struct plan_node *a = &s->nodes[from], *b = &s->nodes[to];

	if (from > to) {
		size_t t = from;

		from = to;
		to = t;
	}
	for (size_t i = 0; i < out->diagonal_count; i++)
		if (out->diagonals[i].from == from && out->diagonals[i].to == to)
			return;
	out->diagonals[out->diagonal_count++] = (struct setout_diagonal){ from, to,
		hypot((double)(a->x_um - b->x_um), (double)(a->y_um - b->y_um)), check };
}

/* The corner of the triangle across its edge a-b, that edge run through the other way; n: not its.
 */
static size_t across(const struct triangle *t, size_t a, size_t b, size_t n)
{
	for (int i = 0; i < 3; i++)
		if (t->corner[i] == b && t->corner[(i + 1) % 3] == a)
			return t->corner[(i + 2) % 3];
	return n;
}

/* Both diagonals of the two triangles at an inner edge of the i-th. */
static void add_pair(struct setout *out, const struct shape *s, const struct triangle *all,
        size_t count, size_t i, int edge)
{
	size_t a = all[i].corner[edge], b = all[i].corner[(edge + 1) % 3],
	       c = all[i].corner[(edge + 2) % 3], none = (size_t)-1, d = none;

	for (size_t j = i + 1; j < count && d == none; j++)
		d = across(&all[j], a, b, none);
	if (d == none)
		return;
	add_diagonal(out, s, a, b, false);
	if (sense(s, c, d, b) > 0 && sense(s, d, c, a) > 0)
		add_diagonal(out, s, c, d, true);
}

enum status setout_diagonals(
        struct arena *mem, const struct plan_ring *outline, struct setout *out, struct error *err)
{
	size_t n = outline->count, *left = arena_alloc(mem, n, sizeof *left), count;
	struct triangle *triangles = arena_alloc(mem, n, sizeof *triangles);
	struct shape s = { outline->nodes, ring_signed_area2_um2(outline) < 0 ? -1 : 1 };

	out->diagonals = arena_alloc(mem, 2 * n, sizeof *out->diagonals);
	if (!left || !triangles || !out->diagonals)
		return error_memory(err);
	for (size_t i = 0; i < n; i++)
		left[i] = i;
	count = triangulate(&s, left, n, triangles);
	for (size_t i = 0; i < count; i++)
		for (int edge = 0; edge < 3; edge++)
			add_pair(out, &s, triangles, count, i, edge);
	return STATUS_OK;
}

/* --- 3-4-5 --- */

static bool is_square(double ax, double ay, double bx, double by)
{
	double cosine = (ax * bx + ay * by) / (hypot(ax, ay) * hypot(bx, by));

	return fabs(cosine) <= sin((double)SQUARE_UDEG / UDEG_PER_DEG * acos(-1) / 180);
}

/* Largest multiple that fits both legs, the longer leg on the longer edge. */
static bool fit_triple(double in_um, double out_um, struct setout_triple *t)
{
	double shorter = fmin(in_um, out_um), longer = fmax(in_um, out_um);
	int64_t unit =
	        (int64_t)(fmin(shorter / 3, longer / 4) / TRIPLE_STEP_UM + 1e-9) * TRIPLE_STEP_UM;

	t->leg_3_um = 3 * unit;
	t->leg_4_um = 4 * unit;
	t->long_5_um = 5 * unit;
	t->leg_4_leads = out_um >= in_um;
	return unit > 0;
}

enum status setout_triples(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err)
{
	if (!(out->triples = arena_alloc(mem, plan_edge_count(plan), sizeof *out->triples)))
		return error_memory(err);
	for (size_t i = 0; i < plan->ring_count; i++) {
		const struct plan_ring *r = &plan->rings[i];

		for (size_t j = 0; j < r->count; j++) {
			const struct plan_node *before = &r->nodes[(j + r->count - 1) % r->count],
			                       *at = &r->nodes[j],
			                       *after = &r->nodes[(j + 1) % r->count];
			double ax = (double)(before->x_um - at->x_um),
			       ay = (double)(before->y_um - at->y_um),
			       bx = (double)(after->x_um - at->x_um),
			       by = (double)(after->y_um - at->y_um);
			struct setout_triple t = { .ring = i, .at = j };

			if (!before->rise_um && !at->rise_um && is_square(ax, ay, bx, by) &&
			        fit_triple(hypot(ax, ay), hypot(bx, by), &t))
				out->triples[out->triple_count++] = t;
		}
	}
	return STATUS_OK;
}

/* --- arcs --- */

/* Even steps on the chord where the arc stands over it; an arc of more than half a circle reaches
 * out beyond its chord and is stepped evenly along itself. */
static struct setout_offset offset_at(const struct setout_arc *a, double share)
{
	double half = a->chord_um / 2, rise = fabs(a->rise_um), sign = a->rise_um < 0 ? -1 : 1;
	double x, angle;

	if (rise <= half) {
		x = a->chord_um * share - half;
		return (struct setout_offset){ half + x,
			sign * (sqrt(a->radius_um * a->radius_um - x * x) + rise - a->radius_um) };
	}
	angle = 2 * atan2(rise, half) * (2 * share - 1);
	return (struct setout_offset){ half + a->radius_um * sin(angle),
		sign * (a->radius_um * cos(angle) + rise - a->radius_um) };
}

static enum status work_out_arc(struct arena *mem, const struct plan_ring *r, size_t at,
        struct setout_arc *a, struct error *err)
{
	const struct plan_node *n = &r->nodes[at], *to = &r->nodes[(at + 1) % r->count];
	size_t parts;

	a->chord_um = hypot((double)(to->x_um - n->x_um), (double)(to->y_um - n->y_um));
	a->rise_um = (double)n->rise_um;
	a->radius_um =
	        (a->chord_um * a->chord_um / 4 + a->rise_um * a->rise_um) / (2 * fabs(a->rise_um));
	parts = (size_t)ceil(a->chord_um / ARC_OFFSET_UM - 1e-9);
	if (parts < ARC_PARTS)
		parts = ARC_PARTS;
	a->count = parts - 1;
	if (!(a->offsets = arena_alloc(mem, a->count, sizeof *a->offsets)))
		return error_memory(err);
	for (size_t i = 0; i < a->count; i++)
		a->offsets[i] = offset_at(a, (double)(i + 1) / (double)parts);
	return STATUS_OK;
}

enum status setout_arcs(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err)
{
	size_t edges = plan_edge_count(plan), ring, at;
	enum status st = STATUS_OK;

	if (!(out->arcs = arena_alloc(mem, edges, sizeof *out->arcs)))
		return error_memory(err);
	for (size_t e = 0; e < edges && st == STATUS_OK; e++) {
		if (!plan_edge_find(plan, e, &ring, &at) || !plan->rings[ring].nodes[at].rise_um)
			continue;
		out->arcs[out->arc_count].edge = e;
		st = work_out_arc(mem, &plan->rings[ring], at, &out->arcs[out->arc_count++], err);
	}
	return st;
}
