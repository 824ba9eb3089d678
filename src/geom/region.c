/* region.c - rings flattened into straight edges, turned, measured, and asked about points.
 *
 * Flattened corners of an arc are rounded to whole um, so that in the plan's own frame every
 * coordinate is a whole number that a double holds exactly; a quarter turn keeps that. */
#include "slabwright/geom.h"

#include <float.h>
#include <math.h>

static const double PI = 3.14159265358979323846;

void turn_of(int64_t udeg, double *cosine, double *sine)
{
	static const double exact[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
	const int64_t quarter = 90 * UDEG_PER_DEG, full = 4 * quarter;
	int64_t a = (udeg % full + full) % full;

	if (a % quarter == 0) {
		*cosine = exact[a / quarter][0];
		*sine = exact[a / quarter][1];
		return;
	}
	*cosine = cos((double)a * 1e-6 * PI / 180);
	*sine = sin((double)a * 1e-6 * PI / 180);
}

struct point frame_from_plan(struct point p, double x, double y, int64_t udeg)
{
	double c, s, dx = p.x - x, dy = p.y - y;

	turn_of(udeg, &c, &s);
	return (struct point){ dx * c + dy * s, dy * c - dx * s };
}

struct point plan_from_frame(struct point p, double x, double y, int64_t udeg)
{
	double c, s;

	turn_of(udeg, &c, &s);
	return (struct point){ p.x * c - p.y * s + x, p.x * s + p.y * c + y };
}

/* How many straight edges an arc takes. */
static size_t arc_steps(double chord, double rise, double error)
{
	double h = fabs(rise), r, theta, steps;

	if (h <= error)
		return h == 0 ? 1 : 2;
	r = (chord * chord / 4 + h * h) / (2 * h);
	theta = 4 * atan2(2 * h, chord);
	steps = ceil(theta / (2 * acos(1 - error / r)));
	return steps < 2 ? 2 : (size_t)steps;
}

/* Appends the corners of an edge from a up to but not including b. `out` is 1 where the ring runs
 * anticlockwise, -1 where clockwise: which hand is outward. */
static size_t flatten_edge(const struct plan_node *a, const struct plan_node *b, double out,
        double error, struct point *to)
{
	double ax = (double)a->x_um, ay = (double)a->y_um, dx = (double)b->x_um - ax,
	       dy = (double)b->y_um - ay;
	double c = hypot(dx, dy), h = (double)a->rise_um, r, theta;
	size_t steps = arc_steps(c, h, error);

	to[0] = (struct point){ ax, ay };
	if (steps == 1)
		return 1;
	r = (c * c / 4 + h * h) / (2 * fabs(h));
	theta = 4 * atan2(2 * fabs(h), c);
	for (size_t i = 1; i < steps; i++) {
		double phi = theta * ((double)i / (double)steps - 0.5);
		double along = c / 2 + r * sin(phi);
		double off = (fabs(h) - r + r * cos(phi)) * (h < 0 ? -out : out);

		to[i] = (struct point){ round(ax + (dx * along + dy * off) / c),
			round(ay + (dy * along - dx * off) / c) };
	}
	return steps;
}

static size_t ring_steps(const struct plan_ring *ring, double error)
{
	size_t n = 0;

	for (size_t i = 0; i < ring->count; i++) {
		const struct plan_node *a = &ring->nodes[i],
		                       *b = &ring->nodes[i + 1 < ring->count ? i + 1 : 0];

		n += arc_steps(hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um)),
		        (double)a->rise_um, error);
	}
	return n;
}

static void reverse_ring(struct ring *r)
{
	for (size_t i = 0; i < r->n / 2; i++) {
		struct point p = r->p[i];

		r->p[i] = r->p[r->n - 1 - i];
		r->p[r->n - 1 - i] = p;
	}
	/* Edge i now runs between what were corners n - 1 - i and n - 2 - i. */
	for (size_t i = 0; i + 1 < r->n - i - 1; i++) {
		int e = r->edge[i];

		r->edge[i] = r->edge[r->n - 2 - i];
		r->edge[r->n - 2 - i] = e;
	}
}

static enum status flatten_ring(struct arena *mem, const struct plan_ring *from, size_t first_edge,
        bool opening, double error, struct ring *out, struct error *err)
{
	double hand = ring_signed_area2_um2(from) < 0 ? -1 : 1;
	size_t room = ring_steps(from, error);

	out->p = arena_alloc(mem, room, sizeof *out->p);
	out->edge = arena_alloc(mem, room, sizeof *out->edge);
	if (!out->p || !out->edge)
		return error_memory(err);
	for (size_t i = 0; i < from->count; i++) {
		size_t n =
		        flatten_edge(&from->nodes[i], &from->nodes[i + 1 < from->count ? i + 1 : 0],
		                hand, error, out->p + out->n);

		for (size_t j = 0; j < n; j++)
			out->edge[out->n + j] = (int)(first_edge + i);
		out->n += n;
	}
	if ((hand < 0) != opening)
		reverse_ring(out);
	return STATUS_OK;
}

enum status ring_flatten(
        struct arena *mem, const struct plan_ring *ring, struct ring *out, struct error *err)
{
	*out = (struct ring){ 0 };
	return flatten_ring(mem, ring, 0, false, ARC_CHORD_ERROR_UM, out, err);
}

enum status region_flatten(struct arena *mem, const struct plan *plan, double chord_error_um,
        struct region *out, struct error *err)
{
	struct ring *rings = arena_alloc(mem, plan->ring_count, sizeof *rings);
	size_t count = 0;

	if (!rings)
		return error_memory(err);
	for (size_t i = 0; i < plan->ring_count; i++) {
		enum status st;

		if (!plan->rings[i].closed)
			continue;
		st = flatten_ring(mem, &plan->rings[i], plan_edge_number(plan, i, 0), i > 0,
		        chord_error_um, &rings[count++], err);
		if (st != STATUS_OK)
			return st;
	}
	*out = (struct region){ rings, count };
	return STATUS_OK;
}

enum status region_from_plan(
        struct arena *mem, const struct plan *plan, struct region *out, struct error *err)
{
	return region_flatten(mem, plan, ARC_CHORD_ERROR_UM, out, err);
}

enum status region_turn(struct arena *mem, const struct region *from, double x, double y,
        int64_t udeg, struct region *out, struct error *err)
{
	struct ring *rings = arena_alloc(mem, from->count, sizeof *rings);

	if (!rings)
		return error_memory(err);
	for (size_t i = 0; i < from->count; i++) {
		rings[i] = from->rings[i];
		rings[i].p = arena_alloc(mem, rings[i].n, sizeof *rings[i].p);
		if (!rings[i].p)
			return error_memory(err);
		for (size_t j = 0; j < rings[i].n; j++)
			rings[i].p[j] = frame_from_plan(from->rings[i].p[j], x, y, udeg);
	}
	*out = (struct region){ rings, from->count };
	return STATUS_OK;
}

double ring_polygon_area(const struct point *p, size_t n)
{
	double sum = 0;

	for (size_t i = 1; i + 1 < n; i++)
		sum += (p[i].x - p[0].x) * (p[i + 1].y - p[0].y) -
		       (p[i + 1].x - p[0].x) * (p[i].y - p[0].y);
	return sum / 2;
}

double region_area_um2(const struct region *r)
{
	double sum = 0;

	for (size_t i = 0; i < r->count; i++)
		sum += ring_polygon_area(r->rings[i].p, r->rings[i].n);
	return sum;
}

struct box points_box(const struct point *p, size_t n)
{
	struct box b = { DBL_MAX, DBL_MAX, -DBL_MAX, -DBL_MAX };

	for (size_t i = 0; i < n; i++) {
		b.x0 = fmin(b.x0, p[i].x);
		b.y0 = fmin(b.y0, p[i].y);
		b.x1 = fmax(b.x1, p[i].x);
		b.y1 = fmax(b.y1, p[i].y);
	}
	return b;
}

struct box region_box(const struct region *r)
{
	struct box all = { DBL_MAX, DBL_MAX, -DBL_MAX, -DBL_MAX };

	for (size_t i = 0; i < r->count; i++) {
		struct box b = points_box(r->rings[i].p, r->rings[i].n);

		all = (struct box){ fmin(all.x0, b.x0), fmin(all.y0, b.y0), fmax(all.x1, b.x1),
			fmax(all.y1, b.y1) };
	}
	return all;
}

bool points_contain(const struct point *p, size_t n, struct point at)
{
	bool in = false;

	for (size_t i = 0, j = n - 1; i < n; j = i++)
		if ((p[i].y > at.y) != (p[j].y > at.y) &&
		        at.x < (p[j].x - p[i].x) * (at.y - p[i].y) / (p[j].y - p[i].y) + p[i].x)
			in = !in;
	return in;
}

bool region_contains(const struct region *r, struct point p)
{
	bool in = false;

	for (size_t i = 0; i < r->count; i++)
		if (points_contain(r->rings[i].p, r->rings[i].n, p))
			in = !in;
	return in;
}

/* Square of the distance from p to the straight edge a-b. */
static double point_edge_distance2(struct point p, struct point a, struct point b)
{
	double dx = b.x - a.x, dy = b.y - a.y, l2 = dx * dx + dy * dy, t = 0;

	if (l2 > 0)
		t = fmin(1, fmax(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / l2));
	dx = a.x + t * dx - p.x;
	dy = a.y + t * dy - p.y;
	return dx * dx + dy * dy;
}

static double side_of(struct point a, struct point b, struct point p)
{
	return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

/* Whether what two edges cover along one axis meets. */
static bool spans_meet(double a, double b, double c, double d)
{
	return fmax(fmin(a, b), fmin(c, d)) <= fmin(fmax(a, b), fmax(c, d));
}

/* Of edges on one line the sides are rounding's guess: these cross only where they meet. */
static bool edges_cross(struct point a, struct point b, struct point c, struct point d)
{
	return spans_meet(a.x, b.x, c.x, d.x) && spans_meet(a.y, b.y, c.y, d.y) &&
	       side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}

static struct point moved(struct point p, struct point by)
{
	return (struct point){ p.x + by.x, p.y + by.y };
}

double polygons_distance(
        const struct point *a, size_t na, const struct point *b, size_t nb, struct point move)
{
	double least = DBL_MAX;

	if (points_contain(a, na, moved(b[0], move)) ||
	        points_contain(b, nb, (struct point){ a[0].x - move.x, a[0].y - move.y }))
		return 0;
	for (size_t i = 0; i < na; i++) {
		struct point a0 = a[i], a1 = a[i + 1 < na ? i + 1 : 0];

		for (size_t j = 0; j < nb; j++) {
			struct point b0 = moved(b[j], move),
			             b1 = moved(b[j + 1 < nb ? j + 1 : 0], move);

			if (edges_cross(a0, a1, b0, b1))
				return 0;
			least = fmin(least, point_edge_distance2(a0, b0, b1));
			least = fmin(least, point_edge_distance2(b0, a0, a1));
		}
	}
	return sqrt(least);
}
