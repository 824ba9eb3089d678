#include "oracle/drops.h"

#include <check.h>
#include <math.h>

static const double EPS_UM = 50, TINY_UM = 1e-3, IN_UM = 20;
enum { STEPS = 5000, WAYS = 64 };

/* Where a drop lies on a ring of the region, when it lies on one. */
struct on_ring {
	size_t ring, edge; /* straight edge that leaves corner `edge` */
};

struct way {
	struct point v;
	bool valley;
};

static struct point moved(struct point p, struct point v, double by)
{
	return (struct point){ p.x + v.x * by, p.y + v.y * by };
}

static double level(const struct drops *d, struct point p)
{
	return surface_level_um(&d->plan->surface, p.x, p.y);
}

static double plane_level(const struct drops *d, size_t plane, struct point p)
{
	struct plan_surface one = { .planes = &d->plan->surface.planes[plane], .count = 1 };

	return surface_level_um(&one, p.x, p.y);
}

/* Rise per um going from p along v. */
static double slope(const struct drops *d, struct point p, struct point v)
{
	return (level(d, moved(p, v, EPS_UM)) - level(d, p)) / EPS_UM;
}

static struct point unit(double x, double y)
{
	double n = hypot(x, y);

	return (struct point){ x / n, y / n };
}

static struct point uphill(const struct drops *d, size_t plane)
{
	double c, s, fall = (double)d->plan->surface.planes[plane].fall_um_per_m * 1e-6;

	turn_of(d->plan->surface.planes[plane].toward_udeg, &c, &s);
	return (struct point){ -c * fall, -s * fall };
}

/* Each plane's own way, and both ways along the line of each two. */
static size_t ways_from(const struct drops *d, struct way *ways)
{
	size_t n = 0, planes = d->plan->surface.count;

	for (size_t i = 0; i < planes; i++) {
		struct point g = uphill(d, i);

		if (g.x != 0 || g.y != 0)
			ways[n++] = (struct way){ unit(-g.x, -g.y), false };
	}
	for (size_t i = 0; i < planes; i++)
		for (size_t j = i + 1; j < planes; j++) {
			struct point g = uphill(d, i), h = uphill(d, j);
			struct point v = { -(g.y - h.y), g.x - h.x };

			if (hypot(v.x, v.y) < 1e-9)
				continue;
			ways[n++] = (struct way){ unit(v.x, v.y), true };
			ways[n++] = (struct way){ unit(-v.x, -v.y), true };
		}
	ck_assert_uint_le(n, WAYS);
	return n;
}

/* The steepest way down; false where nothing falls. */
static bool steepest(const struct drops *d, struct point p, struct way *best)
{
	struct way ways[WAYS];
	size_t n = ways_from(d, ways);
	double fall = -1e-9;
	bool found = false;

	for (size_t i = 0; i < n; i++) {
		double s = slope(d, p, ways[i].v);

		if (s < fall - 1e-9) {
			fall = s;
			*best = ways[i];
			found = true;
		}
	}
	return found;
}

/* How far along a ray a segment is crossed. */
static double crosses(struct point p, struct point v, struct point a, struct point b)
{
	double ex = b.x - a.x, ey = b.y - a.y, det = v.x * -ey + v.y * ex, wx = a.x - p.x,
	       wy = a.y - p.y, u, t;

	if (det == 0)
		return INFINITY;
	u = (wx * -ey + wy * ex) / det;
	t = (v.x * wy - v.y * wx) / det;
	return t >= 0 && t < 1 && u > TINY_UM ? u : INFINITY;
}

static double distance(struct point p, struct point a, struct point b)
{
	double ex = b.x - a.x, ey = b.y - a.y,
	       t = ((p.x - a.x) * ex + (p.y - a.y) * ey) / (ex * ex + ey * ey);

	t = fmin(fmax(t, 0), 1);
	return hypot(a.x + t * ex - p.x, a.y + t * ey - p.y);
}

static void channel_ends(const struct plan_channel *c, struct point *a, struct point *b)
{
	*a = (struct point){ (double)c->x1_um, (double)c->y1_um };
	*b = (struct point){ (double)c->x2_um, (double)c->y2_um };
}

static bool is_free(const struct drops *d, size_t channel)
{
	for (size_t r = 0; r < d->plan->ring_count; r++)
		for (size_t i = 0; i < d->plan->rings[r].count; i++)
			if (d->plan->rings[r].nodes[i].channel == (int64_t)channel + 1)
				return false;
	return true;
}

static bool near_channel(const struct drops *d, struct point p, size_t *number)
{
	for (size_t i = 0; i < d->plan->water.channel_count; i++) {
		const struct plan_channel *c = &d->plan->water.channels[i];
		struct point a, b;

		channel_ends(c, &a, &b);
		if (is_free(d, i) && distance(p, a, b) <= (double)c->width_um / 2) {
			*number = i;
			return true;
		}
	}
	return false;
}

static bool near_gully(const struct drops *d, struct point p, size_t *number)
{
	double best = INFINITY;
	bool found = false;

	for (size_t i = 0; i < d->plan->water.gully_count; i++) {
		const struct plan_gully *g = &d->plan->water.gullies[i];
		double away = hypot((double)g->x_um - p.x, (double)g->y_um - p.y);

		if (away <= GULLY_REACH_UM && away < best) {
			best = away;
			*number = i;
			found = true;
		}
	}
	return found;
}

/* What a drop that runs along a line (a valley, an edge) meets within `length`: true for a gully or
 * channel. */
static bool caught(
        const struct drops *d, struct point p, struct point v, double length, struct drop *out)
{
	double best = INFINITY;

	for (size_t i = 0; i < d->plan->water.gully_count; i++) {
		const struct plan_gully *g = &d->plan->water.gullies[i];
		double dx = (double)g->x_um - p.x, dy = (double)g->y_um - p.y,
		       u = dx * v.x + dy * v.y, off = fabs(dy * v.x - dx * v.y);

		if (u >= -TINY_UM && u <= length && off <= GULLY_REACH_UM && u < best) {
			best = u;
			*out = (struct drop){ END_GULLY, i, moved(p, v, u) };
		}
	}
	for (double u = 0; d->plan->water.channel_count && u <= fmin(length, best); u += 500) {
		size_t number;

		if (near_channel(d, moved(p, v, u), &number)) {
			*out = (struct drop){ END_CHANNEL, number, moved(p, v, u) };
			return true;
		}
	}
	return best < INFINITY;
}

/* The first edge on a ray. */
static double first_edge(const struct drops *d, struct point p, struct point v, struct on_ring *hit)
{
	double best = INFINITY;

	for (size_t r = 0; r < d->region.count; r++)
		for (size_t i = 0; i < d->region.rings[r].n; i++) {
			const struct ring *ring = &d->region.rings[r];
			double u = crosses(p, v, ring->p[i], ring->p[(i + 1) % ring->n]);

			if (u < best) {
				best = u;
				*hit = (struct on_ring){ r, i };
			}
		}
	return best;
}

/* How far along a ray another plane begins to show. */
static double next_plane(const struct drops *d, struct point p, struct point v)
{
	const struct plan_surface *s = &d->plan->surface;
	double way = s->envelope == ENVELOPE_MAX ? 1 : -1, best = INFINITY, z0, z1;
	size_t on = 0;

	for (size_t i = 1; i < s->count; i++)
		if (way * plane_level(d, i, moved(p, v, EPS_UM)) >
		        way * plane_level(d, on, moved(p, v, EPS_UM)))
			on = i;
	z0 = plane_level(d, on, p);
	z1 = plane_level(d, on, moved(p, v, UM_PER_M));
	for (size_t i = 0; i < s->count; i++) {
		double a = plane_level(d, i, p), b = plane_level(d, i, moved(p, v, UM_PER_M)),
		       gains = way * ((b - a) - (z1 - z0)) / UM_PER_M, u = way * (z0 - a) / gains;

		if (i != on && gains > 1e-11 && u > TINY_UM)
			best = fmin(best, u);
	}
	return best;
}

static double first_channel(const struct drops *d, struct point p, struct point v, size_t *number)
{
	double best = INFINITY;

	for (size_t i = 0; i < d->plan->water.channel_count; i++) {
		struct point a, b;
		double u;

		channel_ends(&d->plan->water.channels[i], &a, &b);
		u = crosses(p, v, a, b);
		if (is_free(d, i) && u < best) {
			best = u;
			*number = i;
		}
	}
	return best;
}

/* Over the paving to the first thing that takes the drop; *hit tells where on an edge. */
static struct drop over_paving(const struct drops *d, struct point p, struct on_ring *hit)
{
	for (int step = 0; step < STEPS; step++) {
		struct way way;
		struct drop out;
		double edge, plane, channel;
		size_t number = 0;

		if (!steepest(d, p, &way))
			return (struct drop){ END_POND, 0, p };
		edge = first_edge(d, p, way.v, hit);
		plane = next_plane(d, p, way.v);
		channel = first_channel(d, p, way.v, &number);
		if (way.valley && caught(d, p, way.v, fmin(edge, plane), &out))
			return out;
		if (channel < edge && channel < plane)
			return (struct drop){ END_CHANNEL, number, moved(p, way.v, channel) };
		p = moved(p, way.v, fmin(edge, plane));
		if (way.valley && near_gully(d, p, &number))
			return (struct drop){ END_GULLY, number, p };
		if (edge <= plane)
			return (struct drop){ END_EDGE,
				(size_t)d->region.rings[hit->ring].edge[hit->edge], p };
	}
	ck_abort_msg("a drop goes on and on");
	return (struct drop){ 0 };
}

struct drop drop_first(const struct drops *d, struct point from)
{
	struct on_ring hit;

	return over_paving(d, from, &hit);
}

/* --- along edges --- */

static const struct plan_node *node_of(const struct drops *d, size_t edge)
{
	size_t ring = 0, at = 0;

	plan_edge_find(d->plan, edge, &ring, &at);
	return &d->plan->rings[ring].nodes[at];
}

static bool holds(const struct drops *d, size_t edge)
{
	const struct plan_node *n = node_of(d, edge);

	return !n->channel && (n->kind == EDGE_HOUSE_WALL || n->kind == EDGE_PLANTER ||
	                              d->plan->edging[n->kind].top_um > 0);
}

static size_t edge_no(const struct drops *d, struct on_ring at)
{
	return (size_t)d->region.rings[at.ring].edge[at.edge];
}

static struct drop taken_by(const struct drops *d, size_t edge, struct point p)
{
	int64_t channel = node_of(d, edge)->channel;

	return channel ? (struct drop){ END_CHANNEL, (size_t)channel - 1, p }
	               : (struct drop){ END_EDGE, edge, p };
}

static bool leads_in(const struct drops *d, struct point p)
{
	struct way way;

	return steepest(d, p, &way) && region_contains(&d->region, moved(p, way.v, IN_UM));
}

/* At a corner of the flattened ring between two edges. True when the drop has ended; else it goes
 * on over the paving from p, or along `at` if `along`. */
static bool at_corner(
        const struct drops *d, struct on_ring *at, struct point p, bool *along, struct drop *out)
{
	const struct ring *r = &d->region.rings[at->ring];
	struct on_ring to = *at, from = { at->ring, (at->edge + r->n - 1) % r->n };
	struct point next = r->p[(to.edge + 1) % r->n], prev = r->p[from.edge];
	size_t number;
	double there, back;

	if (near_gully(d, p, &number)) {
		*out = (struct drop){ END_GULLY, number, p };
		return true;
	}
	for (int i = 0; i < 2; i++)
		if (node_of(d, edge_no(d, i ? from : to))->channel) {
			*out = taken_by(d, edge_no(d, i ? from : to), p);
			return true;
		}
	if (near_channel(d, p, &number)) {
		*out = (struct drop){ END_CHANNEL, number, p };
		return true;
	}
	*along = false;
	if (leads_in(d, p))
		return false;
	for (int i = 0; i < 2; i++)
		if (!holds(d, edge_no(d, i ? from : to))) {
			*out = taken_by(d, edge_no(d, i ? from : to), p);
			return true;
		}
	there = slope(d, p, unit(next.x - p.x, next.y - p.y));
	back = slope(d, p, unit(prev.x - p.x, prev.y - p.y));
	if (fmin(there, back) > -1e-9) {
		*out = (struct drop){ END_POND, 0, p };
		return true;
	}
	*along = true;
	*at = there < back ? to : from;
	return false;
}

/* Down along a holding edge: to its end, in *p and *at; to where it ends up; or, where another
 * plane begins, off the edge. */
enum run { RUN_TO_CORNER, RUN_ENDED, RUN_OFF };

static enum run along_edge(
        const struct drops *d, struct on_ring *at, struct point *p, struct drop *out)
{
	const struct ring *r = &d->region.rings[at->ring];
	struct point a = r->p[at->edge], b = r->p[(at->edge + 1) % r->n],
	             v = unit(b.x - a.x, b.y - a.y), w = { -v.x, -v.y };
	bool forth = slope(d, *p, v) < slope(d, *p, w);
	struct point end = forth ? b : a;
	double length = hypot(end.x - p->x, end.y - p->y);

	if (!forth)
		v = w;
	while (length > TINY_UM) {
		double plane = fmin(next_plane(d, *p, v), length);

		if (slope(d, *p, v) > -1e-9) {
			*out = (struct drop){ END_POND, 0, *p };
			if (near_gully(d, *p, &out->number))
				out->kind = END_GULLY;
			else if (leads_in(d, *p))
				return RUN_OFF;
			return RUN_ENDED;
		}
		if (caught(d, *p, v, plane, out))
			return RUN_ENDED;
		*p = moved(*p, v, plane);
		length -= plane;
		if (length > TINY_UM && leads_in(d, *p))
			return RUN_OFF;
	}
	*p = end;
	if (forth)
		at->edge = (at->edge + 1) % r->n;
	return RUN_TO_CORNER;
}

struct drop drop_end(const struct drops *d, struct point from)
{
	for (int step = 0; step < STEPS; step++) {
		struct on_ring hit = { 0, 0 };
		struct drop out = over_paving(d, from, &hit);
		bool along = true;

		if (out.kind != END_EDGE)
			return out;
		if (!holds(d, out.number))
			return taken_by(d, out.number, out.at);
		from = out.at;
		while (along) {
			enum run run = along_edge(d, &hit, &from, &out);

			if (run == RUN_OFF)
				break;
			if (run == RUN_ENDED || at_corner(d, &hit, from, &along, &out))
				return out;
		}
	}
	ck_abort_msg("a drop goes on and on");
	return (struct drop){ 0 };
}
