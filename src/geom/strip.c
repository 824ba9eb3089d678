/* strip.c - a run of border courses in the plan, and laid straight.
 *
 * Of a straight edge the straight frame is the plan's, turned. Of a curve it is an angle and a
 * radius about the centre: all chords of the outer line become v = 0, those of the inner line one
 * v, and between them only the corners at the run's ends are left. */
#include "border.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

static double angle_about(struct point centre, struct point p)
{
	return atan2(p.y - centre.y, p.x - centre.x);
}

/* Cosine and sine of a strip's direction; exact for edges along the axes. */
static struct point way_of(double rad)
{
	struct point way = { cos(rad), sin(rad) };

	if (fabs(way.x) < 1e-12 || fabs(way.y) < 1e-12)
		way = (struct point){ round(way.x), round(way.y) };
	return way;
}

/* Turned from a curve's beginning to a point, its way round, within half a turn of `middle`. */
static double turned(const struct strip *s, struct point p, double middle)
{
	double angle = angle_about(s->centre, p) - s->from_rad;

	return middle + remainder((s->clockwise ? -angle : angle) - middle, 2 * PI);
}

static struct point on_curve(const struct strip *s, struct point p, double middle)
{
	double r = hypot(p.x - s->centre.x, p.y - s->centre.y);

	return (struct point){ turned(s, p, middle) * s->radius_um,
		s->clockwise ? r - s->outer_um : s->outer_um - r };
}

struct point strip_from_plan(const struct strip *s, struct point p)
{
	struct point way = way_of(s->from_rad);
	double dx = p.x - s->centre.x, dy = p.y - s->centre.y;

	if (s->curved) {
		struct box b = points_box(s->straight.p, s->straight.n);

		return on_curve(s, p, (b.x0 + b.x1) / 2 / s->radius_um);
	}
	return (struct point){ dx * way.x + dy * way.y, dy * way.x - dx * way.y };
}

struct point plan_from_strip(const struct strip *s, struct point p)
{
	struct point way = way_of(s->from_rad);

	if (s->curved) {
		double angle = p.x / s->radius_um,
		       r = s->clockwise ? s->outer_um + p.y : s->outer_um - p.y;

		angle = s->from_rad + (s->clockwise ? -angle : angle);
		return (struct point){ s->centre.x + r * cos(angle), s->centre.y + r * sin(angle) };
	}
	return (struct point){ s->centre.x + p.x * way.x - p.y * way.y,
		s->centre.y + p.x * way.y + p.y * way.x };
}

/* The plan's centre of an edge's arc. `left` is +1 where the paving lies to the left of it in the
 * order of its ring's corners. */
static struct point arc_centre(const struct plan_ring *ring, size_t at, bool clockwise, double left)
{
	const struct plan_node *a = &ring->nodes[at],
	                       *b = &ring->nodes[at + 1 < ring->count ? at + 1 : 0];
	double dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um),
	       c = hypot(dx, dy), h = fabs((double)a->rise_um);
	double off = ((c * c / 4 + h * h) / (2 * h) - h) / c * (clockwise ? -left : left);

	return (struct point){ (double)a->x_um + dx / 2 - dy * off,
		(double)a->y_um + dy / 2 + dx * off };
}

/* The mean distance from the centre of the corners between an arc's ends; of a single chord's
 * middle where there are none. */
static double mean_radius(struct point centre, const struct ring *ring, size_t begin, size_t end)
{
	struct point a = ring->p[begin], b = ring->p[end];
	double sum = 0;
	int n = 0;

	for (size_t i = (begin + 1) % ring->n; i != end; i = (i + 1) % ring->n, n++)
		sum += hypot(ring->p[i].x - centre.x, ring->p[i].y - centre.y);
	return n ? sum / n : hypot((a.x + b.x) / 2 - centre.x, (a.y + b.y) / 2 - centre.y);
}

bool strip_bend(struct strip *s, const struct plan *plan, const struct ring *ring, size_t begin,
        size_t end, double depth_um)
{
	size_t number = 0, at = 0;
	const struct plan_ring *from;
	bool reversed;

	plan_edge_find(plan, s->edge, &number, &at);
	from = &plan->rings[number];
	s->curved = from->nodes[at].rise_um != 0;
	s->centre = ring->p[begin];
	s->from_rad = angle_about(s->centre, ring->p[end]);
	if (!s->curved)
		return true;
	/* Outlines are made to run anticlockwise, openings clockwise. */
	reversed = (ring_signed_area2_um2(from) < 0) != (number > 0);
	s->clockwise = (from->nodes[at].rise_um > 0) == (number > 0);
	s->centre = arc_centre(from, at, s->clockwise, reversed ? -1 : 1);
	s->from_rad = angle_about(s->centre, ring->p[begin]);
	s->outer_um = mean_radius(s->centre, ring, begin, end);
	s->inner_um = s->outer_um + (s->clockwise ? depth_um : -depth_um);
	s->radius_um = fmin(s->outer_um, s->inner_um);
	return s->inner_um > 0;
}

/* Where a corner of a strip lies in the straight frame of a curve. */
enum level { ON_OUTER, ON_INNER, BETWEEN };

/* A strip on its way. Of a curve, corners of its own chords do not count in the straight frame. */
struct making {
	struct strip *strip;
	const struct run_ring *r;
	const struct run *run;
	double depth, middle; /* middle: of the angles */
};

static void put_point(struct making *m, struct point p, enum level level, bool chord)
{
	struct strip *s = m->strip;
	struct point flat;

	if (s->ring.n && s->ring.p[s->ring.n - 1].x == p.x && s->ring.p[s->ring.n - 1].y == p.y)
		return;
	s->ring.p[s->ring.n++] = p;
	if (s->curved && chord)
		return;
	flat = s->curved ? on_curve(s, p, m->middle) : strip_from_plan(s, p);
	if (s->curved && level != BETWEEN)
		flat.y = level == ON_OUTER ? 0 : m->depth;
	if (s->curved)
		flat.y = fmin(fmax(flat.y, 0), m->depth);
	s->straight.p[s->straight.n++] = flat;
}

static void put_outer(struct making *m, const struct corner *begin, const struct corner *end)
{
	const struct ring *ring = m->r->ring->from;
	const struct run *run = m->run;
	size_t stop = (end->outer.at + end->outer.between) % ring->n;

	put_point(m, begin->outer.p,
	        corner_between(ring, run->begin, begin->outer.at, run->end) ? ON_OUTER : BETWEEN,
	        false);
	for (size_t i = (begin->outer.at + 1) % ring->n; i != stop; i = (i + 1) % ring->n) {
		bool own = corner_between(ring, run->begin, i, run->end);

		put_point(m, ring->p[i], own ? ON_OUTER : BETWEEN,
		        own && i != run->begin && i != run->end);
	}
	put_point(m, end->outer.p,
	        end->parting == PART_ACROSS_OUTER                           ? ON_INNER
	        : corner_between(ring, run->begin, end->outer.at, run->end) ? ON_OUTER
	                                                                    : BETWEEN,
	        false);
}

static void put_inner(struct making *m, const struct corner *begin, const struct corner *end)
{
	const struct inset_ring *in = m->r->ring;
	const struct ring *ring = &in->to;
	size_t first = inset_begin(in, m->run->first), last = inset_end(in, m->run->last),
	       n = ring->n, stop = begin->inner.at;

	put_point(m, end->inner.p,
	        end->parting == PART_ACROSS_INNER                  ? ON_OUTER
	        : corner_between(ring, first, end->inner.at, last) ? ON_INNER
	                                                           : BETWEEN,
	        false);
	for (size_t i = (end->inner.at + n - !end->inner.between) % n; i != stop;
	        i = (i + n - 1) % n) {
		bool own = corner_between(ring, first, i, last);

		put_point(m, ring->p[i], own ? ON_INNER : BETWEEN, own && i != first && i != last);
	}
	put_point(m, begin->inner.p,
	        corner_between(ring, first, begin->inner.at, last) ? ON_INNER : BETWEEN, false);
}

/* The last point may stand on the first. */
static void close_ring(struct ring *r)
{
	if (r->n > 1 && r->p[0].x == r->p[r->n - 1].x && r->p[0].y == r->p[r->n - 1].y)
		r->n--;
}

enum status strip_make(struct arena *mem, const struct plan *plan, const struct run_ring *r,
        size_t at, struct strip *out, struct error *err)
{
	const struct run *run = &r->runs[at];
	const struct corner *begin = &r->corners[at],
	                    *end = &r->corners[at + 1 < r->count ? at + 1 : 0];
	size_t room = r->ring->from->n + r->ring->to.n + 4;
	struct making m = { out, r, run, run->depth_um, 0 };

	*out = (struct strip){ .edge = (size_t)run->edge,
		.ring.p = arena_alloc(mem, room, sizeof *out->ring.p),
		.straight.p = arena_alloc(mem, room, sizeof *out->straight.p) };
	if (!out->ring.p || !out->straight.p)
		return error_memory(err);
	strip_bend(out, plan, r->ring->from, run->begin, run->end, run->depth_um);
	if (out->curved)
		m.middle = turned(out, r->ring->from->p[run->end], PI) / 2;
	put_outer(&m, begin, end);
	put_inner(&m, begin, end);
	close_ring(&out->ring);
	close_ring(&out->straight);
	return STATUS_OK;
}
