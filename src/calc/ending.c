/* ending.c - what takes water first, and where it ends up that was followed to an edge.
 *
 * Every rim point and every sink is a node that leads to one other or is an end. Water at a rim
 * point of a holding edge leaves, in this order: into a gully or channel, down over the paving,
 * over an edge that lets it out, along the lower of its edges; else it stands. */
#include "drains.h"

#include <math.h>

static const double INWARD_RAD = 1e-6, PI = 3.14159265358979323846;

static size_t node_of_sink(const struct endings *r, int sink)
{
	return r->d->rim_count + (size_t)sink;
}

/* --- the first that takes water --- */

/* At a corner the edge that lets water out, else the one with the lower number. */
static int edge_at(const struct drains *d, size_t point)
{
	int leaves = d->rim[point].edge, comes = d->rim[d->rim[point].prev].edge;
	bool hold = edge_holds(d, leaves);

	if (hold != edge_holds(d, comes))
		return hold ? comes : leaves;
	return leaves < comes ? leaves : comes;
}

struct water_end ending_first(const struct drains *d, size_t sink)
{
	struct target to = to_node(d->rim_count + sink);

	for (size_t steps = 0; !to.final && steps <= d->sink_count; steps++) {
		size_t behind = to.node - d->rim_count;

		if (to.node < d->rim_count)
			return (struct water_end){ END_EDGE, (size_t)edge_at(d, to.node), 0 };
		if (behind < d->rim_count)
			return (struct water_end){ END_EDGE, (size_t)d->rim[behind].edge, 0 };
		to = d->sinks[behind].to;
	}
	return to.end;
}

/* --- where a node leads to --- */

static double turned_left(struct point from, struct point to)
{
	double a = atan2(from.x * to.y - from.y * to.x, from.x * to.x + from.y * to.y);

	return a < 0 ? a + 2 * PI : a;
}

/* Whether a way from a rim point leads into the paving. */
static bool leads_in(const struct drains *d, size_t at, struct point way)
{
	const struct rim_point *p = &d->rim[at];
	struct point next = d->rim[p->next].p, prev = d->rim[p->prev].p,
	             out = { next.x - p->p.x, next.y - p->p.y },
	             back = { prev.x - p->p.x, prev.y - p->p.y };
	double turn = turned_left(out, way), all = turned_left(out, back);

	return turn > INWARD_RAD && turn < all - INWARD_RAD;
}

static bool take_here(const struct endings *r, size_t at, struct target *to)
{
	const struct drains *d = r->d;
	const struct rim_point *p = &d->rim[at];
	int gully = gully_near(d->plan, p->p), channel = edge_channel(d->plan, (size_t)p->edge);

	if (channel == NOWHERE)
		channel = edge_channel(d->plan, (size_t)d->rim[p->prev].edge);
	if (channel == NOWHERE)
		channel = channel_near(d, p->p);
	if (gully != NOWHERE)
		*to = to_end(END_GULLY, (size_t)gully);
	else if (channel != NOWHERE)
		*to = to_end(END_CHANNEL, (size_t)channel);
	return gully != NOWHERE || channel != NOWHERE;
}

static bool go_over_paving(const struct endings *r, size_t at, struct target *to)
{
	const struct drains *d = r->d;
	struct descent down =
	        descent_at(d->plan->surface.envelope, d->planes, d->plane_count, d->rim[at].p);
	int sink;

	if (!down.planes || !leads_in(d, at, (struct point){ down.x, down.y }))
		return false;
	sink = down.planes == 2 ? valley_from(d, down.a, down.b, d->rim[at].p, NULL)
	                        : ray_sink(d, down.a, d->rim[at].p);
	if (sink == NOWHERE)
		return false;
	*to = to_node(node_of_sink(r, sink));
	return true;
}

static bool let_out(const struct endings *r, size_t at, struct target *to)
{
	const struct drains *d = r->d;
	int edge = edge_at(d, at);

	if (edge_holds(d, edge))
		return false;
	*to = to_end(END_EDGE, (size_t)edge);
	return true;
}

static double fall_to(const struct drains *d, size_t from, size_t to)
{
	return (d->rim[from].level_um - d->rim[to].level_um) /
	       hypot(d->rim[from].p.x - d->rim[to].p.x, d->rim[from].p.y - d->rim[to].p.y);
}

/* Down along the steeper of the two edges, both of which hold. */
static bool run_down(const struct endings *r, size_t at, struct target *to)
{
	const struct drains *d = r->d;
	size_t next = d->rim[at].next, prev = d->rim[at].prev;
	double there = fall_to(d, at, next), back = fall_to(d, at, prev);

	if (fmax(there, back) <= LEVEL_PER_UM)
		return false;
	*to = to_node(d->rim[there > back ? next : prev].group);
	return true;
}

static bool stand_here(struct endings *r, size_t at, struct target *to)
{
	struct drains *d = r->d;
	size_t known = d->pond_count;
	int pond = pond_at(d, d->rim[at].p, true);
	char edge[64];

	if (pond == NOWHERE)
		return false;
	*to = to_end(END_POND, (size_t)pond);
	if (d->rim[at].mate == at || d->pond_count == known)
		return true;
	d->ponds[pond].place = arena_print(d->mem, "%s, which is level",
	        plan_edge_words(edge, sizeof edge, d->plan, (size_t)d->rim[at].edge));
	return d->ponds[pond].place != NULL;
}

/* One point of a group of points at one level is enough to leave by. */
static bool next_of_point(struct endings *r, size_t group, struct target *to)
{
	static bool (*const ways[])(const struct endings *, size_t, struct target *) = { take_here,
		go_over_paving, let_out, run_down };
	const struct drains *d = r->d;
	size_t at;

	for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
		at = group;
		do {
			if (ways[i](r, at, to))
				return true;
			at = d->rim[at].mate;
		} while (at != group);
	}
	return stand_here(r, group, to);
}

static bool next_of_node(struct endings *r, size_t node, struct target *to)
{
	const struct drains *d = r->d;
	size_t sink = node - d->rim_count, low;
	int channel;

	if (node < d->rim_count)
		return next_of_point(r, d->rim[node].group, to);
	if (sink >= d->rim_count) {
		*to = d->sinks[sink].to;
		return true;
	}
	channel = edge_channel(d->plan, (size_t)d->rim[sink].edge);
	low = d->rim[d->rim[sink].next].level_um < d->rim[sink].level_um ? d->rim[sink].next : sink;
	*to = channel != NOWHERE                 ? to_end(END_CHANNEL, (size_t)channel)
	      : edge_holds(d, d->rim[sink].edge) ? to_node(d->rim[low].group)
	                                         : to_end(END_EDGE, (size_t)d->rim[sink].edge);
	return true;
}

bool endings_begin(struct drains *d, struct endings *out)
{
	size_t nodes = d->rim_count + d->sink_count;

	*out = (struct endings){ .d = d,
		.known = arena_alloc(d->mem, nodes, sizeof *out->known),
		.passing = arena_alloc(d->mem, nodes, sizeof *out->passing),
		.ends = arena_alloc(d->mem, nodes, sizeof *out->ends),
		.path = arena_alloc(d->mem, nodes, sizeof *out->path) };
	return out->known && out->passing && out->ends && out->path;
}

/* All nodes on the way then know the end. What comes back to itself stands. */
bool ending_last(struct endings *r, size_t node, struct water_end *end)
{
	size_t n = 0;

	while (!r->known[node]) {
		struct target to;

		if (r->passing[node]) {
			if (!stand_here(r, node < r->d->rim_count ? node : 0, &to))
				return false;
		} else {
			r->passing[node] = true;
			r->path[n++] = node;
			if (!next_of_node(r, node, &to))
				return false;
		}
		if (to.final) {
			r->known[node] = true;
			r->ends[node] = to.end;
		} else {
			node = to.node;
		}
	}
	for (size_t i = 0; i < n; i++) {
		r->known[r->path[i]] = true;
		r->ends[r->path[i]] = r->ends[node];
	}
	*end = r->ends[node];
	return true;
}
