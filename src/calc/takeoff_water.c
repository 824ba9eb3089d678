/* takeoff_water.c - from where the water goes to what channels, gullies, kerbs and soakaway take.
 */
#include "takeoff_parts.h"

#include <math.h>

/* The slope of the surface at a point, downhill: its parts across and up the plan, m per m. */
static struct point slope_at(const struct plan_surface *surface, double x, double y)
{
	struct surface_fall f = surface_fall_at(surface, x, y);
	double angle = f.toward_deg * acos(-1) / 180, steep = f.um_per_m / 1e6;
	double across = steep * cos(angle), up = steep * sin(angle);

	return (struct point){ across, up };
}

/* Ends of a channel: of the first edge that names it (its chord), or its own. */
static void channel_ends(const struct plan *plan, size_t number, struct point *a, struct point *b)
{
	const struct plan_channel *c = &plan->water.channels[number];

	*a = (struct point){ (double)c->x1_um, (double)c->y1_um };
	*b = (struct point){ (double)c->x2_um, (double)c->y2_um };
	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++) {
			const struct plan_ring *ring = &plan->rings[r];
			const struct plan_node *to = &ring->nodes[(i + 1) % ring->count];

			if (ring->nodes[i].channel != (int64_t)number + 1)
				continue;
			*a = (struct point){ (double)ring->nodes[i].x_um,
				(double)ring->nodes[i].y_um };
			*b = (struct point){ (double)to->x_um, (double)to->y_um };
			return;
		}
}

/* Fall of the paving along a channel toward its outlet; 0 where it has one at both ends. */
static double rim_slope(const struct plan *plan, size_t number)
{
	enum channel_outlet outlet = plan->water.channels[number].outlet;
	struct point a, b, slope;
	double length, along;

	channel_ends(plan, number, &a, &b);
	length = hypot(b.x - a.x, b.y - a.y);
	if (length <= 0 || outlet == OUTLET_BOTH)
		return 0;
	slope = slope_at(&plan->surface, (a.x + b.x) / 2, (a.y + b.y) / 2);
	along = (slope.x * (b.x - a.x) + slope.y * (b.y - a.y)) / length;
	return outlet == OUTLET_LAST ? along : -along;
}

/* An edge that holds the water which reaches it: how the paving falls toward and along it. */
static struct drainage_edge held_edge(const struct plan *plan, const struct catchment *c)
{
	struct drainage_edge e = { .edge = c->edge, .area_m2 = c->area_m2 };
	const struct plan_ring *ring;
	const struct plan_node *n, *to;
	struct point slope;
	size_t r = 0, at = 0;
	double dx, dy, length, inside;

	plan_edge_find(plan, c->edge, &r, &at);
	ring = &plan->rings[r];
	n = &ring->nodes[at];
	to = &ring->nodes[(at + 1) % ring->count];
	dx = (double)(to->x_um - n->x_um);
	dy = (double)(to->y_um - n->y_um);
	length = hypot(dx, dy);
	if (length <= 0)
		return e;
	slope = slope_at(
	        &plan->surface, (double)(n->x_um + to->x_um) / 2, (double)(n->y_um + to->y_um) / 2);
	inside = (ring_signed_area2_um2(ring) > 0) == (r == 0) ? 1 : -1; /* paving on the left */
	e.across = (slope.x * dy - slope.y * dx) / length * inside;
	e.along = (slope.x * dx + slope.y * dy) / length;
	if (plan->edging[n->kind].top_um > 0)
		e.upstand_m = (double)plan->edging[n->kind].top_um / 1e6;
	return e;
}

static enum status find_edges(
        struct arena *mem, const struct takeoff *t, struct drainage_areas *areas, struct error *err)
{
	const struct surface_result *s = &t->surface;
	struct drainage_edge *edges = arena_alloc(mem, s->catchment_count, sizeof *edges);

	if (!edges)
		return error_memory(err);
	areas->edges = edges;
	for (size_t i = 0; i < s->catchment_count; i++)
		if (!s->catchments[i].channel && edge_holds_water(&t->plan, s->catchments[i].kind))
			edges[areas->edge_count++] = held_edge(&t->plan, &s->catchments[i]);
	return STATUS_OK;
}

enum status takeoff_drainage(struct arena *mem, struct takeoff *t, struct error *err)
{
	const struct surface_result *s = &t->surface;
	const struct plan_water *w = &t->plan.water;
	struct drainage_areas areas = { .paving_m2 = t->area_m2 };
	double *channels = arena_alloc(mem, w->channel_count, sizeof *channels);
	double *gullies = arena_alloc(mem, w->gully_count, sizeof *gullies);
	double *slopes = arena_alloc(mem, w->channel_count, sizeof *slopes);

	if (!channels || !gullies || !slopes)
		return error_memory(err);
	for (size_t i = 0; i < w->channel_count; i++) {
		channels[i] = i < s->channel_count ? s->channels[i].area_m2 : 0;
		slopes[i] = rim_slope(&t->plan, i);
	}
	for (size_t i = 0; i < w->gully_count; i++)
		gullies[i] = i < s->gully_count ? s->gullies[i].area_m2 : 0;
	areas.channel_m2 = channels;
	areas.gully_m2 = gullies;
	areas.channel_rim_slope = slopes;
	if (find_edges(mem, t, &areas, err) != STATUS_OK)
		return STATUS_MEMORY;
	return drainage_work_out(mem, &t->plan, &areas, &t->rules, &t->drainage, err);
}
