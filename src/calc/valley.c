/* valley.c - valleys as sinks, and where their water goes.
 *
 * A valley is cut where a gully or a channel takes what runs along it; the piece above ends there.
 * What is left below runs to the valley's low end: to the rim, into another valley, out on to a
 * plane, or nowhere. */
#include "drains.h"

#include <math.h>
#include <stdlib.h>

static const double SAME_UM = 1e-3;
enum { HALVINGS = 60 };

/* From where to where along a valley, downhill, something takes its water. */
struct taking {
	double from, to;
	struct target by;
};

struct takings {
	struct taking *items;
	size_t count, room;
};

/* A line from its high end, to its low one. */
struct slope_line {
	struct point high, low;
	double length;
};

static struct point point_along(const struct slope_line *l, double u)
{
	double t = u / l->length;

	return (struct point){ l->high.x + t * (l->low.x - l->high.x),
		l->high.y + t * (l->low.y - l->high.y) };
}

static bool add_taking(struct drains *d, struct takings *t, struct taking item)
{
	struct taking *grown = arena_grow(d->mem, t->items, t->count, &t->room, sizeof *grown);

	if (!grown)
		return false;
	t->items = grown;
	grown[t->count++] = item;
	return true;
}

static double away_from(const struct slope_line *l, double u, const struct plan_channel *c)
{
	return distance_to_line(point_along(l, u),
	        (struct point){ (double)c->x1_um, (double)c->y1_um },
	        (struct point){ (double)c->x2_um, (double)c->y2_um }, NULL);
}

/* Where between `in`, which is within reach of a channel, and `out`, which is not, reach ends. */
static double reach_ends(const struct slope_line *l, const struct plan_channel *c, double in,
        double out, double reach)
{
	for (int i = 0; i < HALVINGS; i++) {
		double middle = (in + out) / 2;

		if (away_from(l, middle, c) <= reach)
			in = middle;
		else
			out = middle;
	}
	return in;
}

/* The distance from a channel grows both ways from the nearest point. */
static bool add_channel(
        struct drains *d, const struct slope_line *l, size_t number, struct takings *out)
{
	const struct plan_channel *c = &d->plan->water.channels[number];
	double reach = fmax((double)c->width_um / 2, CORNER_UM), lo = 0, hi = l->length, nearest;

	for (int i = 0; i < 2 * HALVINGS; i++) {
		double a = lo + (hi - lo) / 3, b = hi - (hi - lo) / 3;

		if (away_from(l, a, c) <= away_from(l, b, c))
			hi = b;
		else
			lo = a;
	}
	nearest = (lo + hi) / 2;
	if (away_from(l, nearest, c) > reach)
		return true;
	lo = away_from(l, 0, c) <= reach ? 0 : reach_ends(l, c, nearest, 0, reach);
	hi = away_from(l, l->length, c) <= reach ? l->length
	                                         : reach_ends(l, c, nearest, l->length, reach);
	return add_taking(d, out, (struct taking){ lo, hi, to_end(END_CHANNEL, number) });
}

static int by_begin(const void *a, const void *b)
{
	const struct taking *t = a, *u = b;

	return t->from < u->from ? -1 : t->from > u->from;
}

static bool find_takings(struct drains *d, const struct slope_line *l, struct takings *out)
{
	const struct plan_water *w = &d->plan->water;

	for (size_t i = 0; i < w->gully_count; i++) {
		struct point g = { (double)w->gullies[i].x_um, (double)w->gullies[i].y_um };
		double share;

		/* Beyond the low end the nearest gully counts, when the end is followed. */
		if (distance_to_line(g, l->high, l->low, &share) <= GULLY_REACH_UM && share < 1 &&
		        !add_taking(d, out,
		                (struct taking){ share * l->length, share * l->length,
		                        to_end(END_GULLY, i) }))
			return false;
	}
	for (size_t i = 0; i < w->channel_count; i++)
		if (!d->by_edge[i] && !add_channel(d, l, i, out))
			return false;
	if (out->count > 1)
		qsort(out->items, out->count, sizeof *out->items, by_begin);
	return true;
}

/* A piece of a valley from u0 to u1 as a sink; `to` NULL where its end is not known yet. */
static bool add_piece(struct drains *d, size_t line, const struct slope_line *l, double u0,
        double u1, const struct target *to)
{
	const struct surface_line *of = &d->shape.lines[line];
	size_t track =
	        track_between(d, part_of_plane(d, of->planes[0]), part_of_plane(d, of->planes[1]));
	struct point a = point_along(l, u0), b = point_along(l, u1);
	double from = track_place(&d->tracks[track], a), till = track_place(&d->tracks[track], b);
	int sink = (int)d->sink_count;
	struct valley *v;

	if (u1 - u0 <= SAME_UM)
		return true;
	v = arena_grow(d->mem, d->valleys, d->valley_count, &d->valley_room, sizeof *v);
	if (!v)
		return false;
	d->valleys = v;
	v[d->valley_count++] = (struct valley){ .line = line,
		.sink = sink,
		.high = a,
		.low = b,
		.level = of->high_um - of->low_um <= LEVEL_PER_UM * l->length,
		.known = to != NULL };
	return add_sink(d, to ? *to : to_node(0)) &&
	       add_span(d, track, (struct span){ fmin(from, till), fmax(from, till), sink });
}

/* Water on a level valley finds the nearest way out on it; without one it stands. */
static bool add_level(
        struct drains *d, size_t line, const struct slope_line *l, const struct takings *t)
{
	double from = 0;
	struct target stands;
	int pond;

	for (size_t i = 0; i < t->count; i++) {
		double to =
		        i + 1 < t->count ? (t->items[i].to + t->items[i + 1].from) / 2 : l->length;

		to = fmax(to, from);
		if (!add_piece(d, line, l, from, to, &t->items[i].by))
			return false;
		from = to;
	}
	if (t->count)
		return true;
	pond = pond_at(d, point_along(l, l->length / 2), false);
	stands = to_end(END_POND, (size_t)pond);
	return pond != NOWHERE && add_piece(d, line, l, 0, l->length, &stands);
}

static bool add_falling(
        struct drains *d, size_t line, const struct slope_line *l, const struct takings *t)
{
	double from = 0;

	for (size_t i = 0; i < t->count; i++)
		if (t->items[i].to > from) {
			if (!add_piece(d, line, l, from, t->items[i].to, &t->items[i].by))
				return false;
			from = t->items[i].to;
		}
	return add_piece(d, line, l, from, l->length, NULL);
}

/* Along a level plane's edge the water goes on to that plane, and stands with what is there. */
static bool add_edge_of_level(struct drains *d, const struct surface_line *line, int sink)
{
	size_t track = track_between(
	        d, part_of_plane(d, line->planes[0]), part_of_plane(d, line->planes[1]));
	double from = track_place(&d->tracks[track], line->high),
	       to = track_place(&d->tracks[track], line->low);

	return add_span(d, track, (struct span){ fmin(from, to), fmax(from, to), sink });
}

static bool find_valley(struct drains *d, size_t number)
{
	const struct surface_line *line = &d->shape.lines[number];
	size_t a = part_of_plane(d, line->planes[0]), b = part_of_plane(d, line->planes[1]);
	struct slope_line l = { line->high, line->low,
		hypot(line->low.x - line->high.x, line->low.y - line->high.y) };
	struct takings t = { 0 };

	if (line->kind == LINE_RIDGE || a >= d->shape.part_count || b >= d->shape.part_count)
		return true;
	if (d->parts[a].sink != NOWHERE || d->parts[b].sink != NOWHERE)
		return add_edge_of_level(
		        d, line, d->parts[a].sink != NOWHERE ? d->parts[a].sink : d->parts[b].sink);
	if (line->kind != LINE_VALLEY)
		return true;
	if (!find_takings(d, &l, &t))
		return false;
	if (line->high_um - line->low_um <= LEVEL_PER_UM * l.length)
		return add_level(d, number, &l, &t);
	return add_falling(d, number, &l, &t);
}

enum status valleys_find(struct drains *d, struct error *err)
{
	for (size_t i = 0; i < d->shape.line_count; i++)
		if (!find_valley(d, i))
			return error_memory(err);
	return STATUS_OK;
}

/* --- where they end --- */

int valley_from(
        const struct drains *d, size_t a, size_t b, struct point p, const struct valley * not )
{
	double best = CORNER_UM;
	int found = NOWHERE;

	for (size_t i = 0; i < d->valley_count; i++) {
		const struct valley *v = &d->valleys[i];
		const size_t *of = d->shape.lines[v->line].planes;
		double away = hypot(v->high.x - p.x, v->high.y - p.y);

		if (v->level)
			away = fmin(away, hypot(v->low.x - p.x, v->low.y - p.y));
		if (v != not &&away < best &&
		        ((of[0] == a && of[1] == b) || (of[0] == b && of[1] == a))) {
			best = away;
			found = v->sink;
		}
	}
	return found;
}

/* How far along a ray from p an edge is met; INFINITY where it is not. */
static double meets(struct point p, struct point way, struct point a, struct point b)
{
	double ua = (a.x - p.x) * way.x + (a.y - p.y) * way.y,
	       va = (a.y - p.y) * way.x - (a.x - p.x) * way.y,
	       ub = (b.x - p.x) * way.x + (b.y - p.y) * way.y,
	       vb = (b.y - p.y) * way.x - (b.x - p.x) * way.y, u;

	if ((va > 0) == (vb > 0))
		return INFINITY;
	u = ua + (ub - ua) * (va / (va - vb));
	return u > 1 ? u : INFINITY;
}

int ray_sink(const struct drains *d, size_t plane, struct point from)
{
	const struct plan_water *w = &d->plan->water;
	size_t number = part_of_plane(d, plane);
	const struct drain_part *part = &d->parts[number];
	double best = INFINITY;
	struct point way;
	int sink = NOWHERE;

	if (number >= d->shape.part_count)
		return NOWHERE;
	turn_of(d->plan->surface.planes[plane].toward_udeg, &way.x, &way.y);
	for (size_t i = 0; i < part->count; i++)
		for (size_t j = 0; j < part->rings[i].n; j++) {
			const struct drain_corner *at = &part->rings[i].at[j],
			                          *to = &part->rings[i]
			                                         .at[(j + 1) % part->rings[i].n];
			double u = meets(from, way, at->p, to->p);

			if (u < best && at->sink != NOWHERE) {
				best = u;
				sink = at->sink;
			}
		}
	for (size_t i = 0; i < w->channel_count; i++) {
		const struct plan_channel *c = &w->channels[i];
		double u = meets(from, way, (struct point){ (double)c->x1_um, (double)c->y1_um },
		        (struct point){ (double)c->x2_um, (double)c->y2_um });

		if (!d->by_edge[i] && u < best) {
			best = u;
			sink = (int)(d->rim_count + i);
		}
	}
	return sink;
}

/* The rim point a valley ends at: a corner that is near enough, or the nearest. */
static int rim_at(const struct drains *d, struct point p)
{
	double best = CORNER_UM;
	int found = NOWHERE;
	bool corner = false;

	for (size_t i = 0; i < d->rim_count; i++) {
		const struct rim_point *r = &d->rim[i];
		double away = hypot(r->p.x - p.x, r->p.y - p.y);
		bool is_corner = r->edge != d->rim[r->prev].edge;

		if (away < CORNER_UM &&
		        (is_corner > corner || (is_corner == corner && away < best))) {
			best = away;
			corner = is_corner;
			found = (int)i;
		}
	}
	return found;
}

/* The level plane's sink where one shows at a point, or NOWHERE. */
static int level_sink_at(const struct drains *d, struct point p)
{
	double level = surface_level_um(&d->plan->surface, p.x, p.y);

	for (size_t i = 0; i < d->shape.part_count; i++)
		if (d->parts[i].sink != NOWHERE &&
		        fabs(gradient_level(&d->planes[d->parts[i].of->plane], p) - level) <
		                SAME_UM)
			return d->parts[i].sink;
	return NOWHERE;
}

static int sink_from(const struct drains *d, const struct valley *v)
{
	struct descent down =
	        descent_at(d->plan->surface.envelope, d->planes, d->plane_count, v->low);

	if (down.planes == 2)
		return valley_from(d, down.a, down.b, v->low, v);
	if (down.planes == 1)
		return ray_sink(d, down.a, v->low);
	return level_sink_at(d, v->low);
}

static bool follow(struct drains *d, const struct valley *v)
{
	int gully = gully_near(d->plan, v->low), channel = channel_near(d, v->low),
	    rim = rim_at(d, v->low), sink = NOWHERE, pond;
	struct target *to = &d->sinks[v->sink].to;

	if (gully != NOWHERE)
		*to = to_end(END_GULLY, (size_t)gully);
	else if (channel != NOWHERE)
		*to = to_end(END_CHANNEL, (size_t)channel);
	else if (rim != NOWHERE)
		*to = to_node((size_t)rim);
	else if ((sink = sink_from(d, v)) != NOWHERE)
		*to = to_node(d->rim_count + (size_t)sink);
	else {
		pond = pond_at(d, v->low, false);
		*to = to_end(END_POND, (size_t)pond);
		return pond != NOWHERE;
	}
	return true;
}

enum status valleys_follow(struct drains *d, struct error *err)
{
	for (size_t i = 0; i < d->valley_count; i++)
		if (!d->valleys[i].known && !follow(d, &d->valleys[i]))
			return error_memory(err);
	return STATUS_OK;
}
