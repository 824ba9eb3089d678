/* drains.c - what the parts of the water's computation share. */
#include "drains.h"

#include <math.h>
#include <stdio.h>

size_t track_between(const struct drains *d, size_t a, size_t b)
{
	size_t least = a < b ? a : b, most = a < b ? b : a;

	return d->edges + least * d->shape.part_count + most;
}

size_t part_of_plane(const struct drains *d, size_t plane)
{
	size_t i = 0;

	while (i < d->shape.part_count && d->shape.parts[i].plane != plane)
		i++;
	return i;
}

double track_place(const struct track *t, struct point p)
{
	return (p.x - t->at.x) * t->along.x + (p.y - t->at.y) * t->along.y;
}

struct point track_point(const struct track *t, double place)
{
	return (struct point){ t->at.x + place * t->along.x, t->at.y + place * t->along.y };
}

int edge_channel(const struct plan *plan, size_t edge)
{
	size_t ring, at;
	int64_t channel;

	if (!plan_edge_find(plan, edge, &ring, &at))
		return NOWHERE;
	channel = plan->rings[ring].nodes[at].channel;
	return channel > 0 && (size_t)channel <= plan->water.channel_count ? (int)channel - 1
	                                                                   : NOWHERE;
}

bool edge_holds_water(const struct plan *plan, enum edge_kind kind)
{
	return kind == EDGE_HOUSE_WALL || kind == EDGE_PLANTER || plan->edging[kind].top_um > 0;
}

bool edge_holds(const struct drains *d, int edge)
{
	size_t ring, at;

	return edge >= 0 && edge_channel(d->plan, (size_t)edge) == NOWHERE &&
	       plan_edge_find(d->plan, (size_t)edge, &ring, &at) &&
	       edge_holds_water(d->plan, d->plan->rings[ring].nodes[at].kind);
}

bool add_sink(struct drains *d, struct target to)
{
	struct sink *s = arena_grow(d->mem, d->sinks, d->sink_count, &d->sink_room, sizeof *s);

	if (!s)
		return false;
	d->sinks = s;
	s[d->sink_count++] = (struct sink){ .to = to };
	return true;
}

bool add_span(struct drains *d, size_t track, struct span span)
{
	struct track *t = &d->tracks[track];
	struct span *s = arena_grow(d->mem, t->spans, t->count, &t->room, sizeof *s);

	if (!s)
		return false;
	t->spans = s;
	s[t->count++] = span;
	return true;
}

int pond_at(struct drains *d, struct point p, bool held)
{
	struct pond *pond;

	for (size_t i = 0; i < d->pond_count; i++)
		if (d->ponds[i].held == held &&
		        hypot(d->ponds[i].at.x - p.x, d->ponds[i].at.y - p.y) < CORNER_UM)
			return (int)i;
	pond = arena_grow(d->mem, d->ponds, d->pond_count, &d->pond_room, sizeof *pond);
	if (!pond)
		return NOWHERE;
	d->ponds = pond;
	pond[d->pond_count] = (struct pond){ .at = p,
		.level_um = surface_level_um(&d->plan->surface, p.x, p.y),
		.held = held,
		.place = place_words(d->mem, d->plan, p) };
	return pond[d->pond_count].place ? (int)d->pond_count++ : NOWHERE;
}

struct target to_end(enum end_kind kind, size_t number)
{
	return (struct target){ .final = true, .end = { kind, number, 0 } };
}

struct target to_node(size_t node)
{
	return (struct target){ .node = node };
}

double distance_to_line(struct point p, struct point a, struct point b, double *share)
{
	double dx = b.x - a.x, dy = b.y - a.y, n = dx * dx + dy * dy, t = 0;

	if (n > 0)
		t = fmin(fmax(((p.x - a.x) * dx + (p.y - a.y) * dy) / n, 0), 1);
	if (share)
		*share = t;
	return hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
}

int nearest_rim_edge(const struct drains *d, struct point p)
{
	double best = INFINITY;
	int near = NOWHERE;

	for (size_t i = 0; i < d->rim_count; i++) {
		double away = distance_to_line(p, d->rim[i].p, d->rim[d->rim[i].next].p, NULL);

		if (away < best) {
			best = away;
			near = (int)i;
		}
	}
	return near;
}

int gully_near(const struct plan *plan, struct point p)
{
	double best = INFINITY;
	int near = NOWHERE;

	for (size_t i = 0; i < plan->water.gully_count; i++) {
		const struct plan_gully *g = &plan->water.gullies[i];
		double away = hypot((double)g->x_um - p.x, (double)g->y_um - p.y);

		if (away <= GULLY_REACH_UM && away < best) {
			best = away;
			near = (int)i;
		}
	}
	return near;
}

int channel_near(const struct drains *d, struct point p)
{
	for (size_t i = 0; i < d->plan->water.channel_count; i++) {
		const struct plan_channel *c = &d->plan->water.channels[i];
		struct point a = { (double)c->x1_um, (double)c->y1_um },
		             b = { (double)c->x2_um, (double)c->y2_um };

		if (!d->by_edge[i] &&
		        distance_to_line(p, a, b, NULL) <= fmax((double)c->width_um / 2, CORNER_UM))
			return (int)i;
	}
	return NOWHERE;
}

static const char *corner_words(struct arena *mem, size_t ring, size_t at)
{
	return ring ? arena_print(mem, "opening %zu corner %zu", ring, at + 1)
	            : arena_print(mem, "corner %zu", at + 1);
}

const char *place_words(struct arena *mem, const struct plan *plan, struct point p)
{
	char x[40], y[40];

	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++) {
			const struct plan_node *n = &plan->rings[r].nodes[i];

			if (hypot((double)n->x_um - p.x, (double)n->y_um - p.y) < CORNER_UM)
				return corner_words(mem, r, i);
		}
	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++) {
			const struct plan_node
			        *n = &plan->rings[r].nodes[i],
			        *to = &plan->rings[r].nodes[(i + 1) % plan->rings[r].count];
			struct point a = { (double)n->x_um, (double)n->y_um },
			             b = { (double)to->x_um, (double)to->y_um };
			char edge[64];

			if (n->rise_um == 0 && distance_to_line(p, a, b, NULL) < CORNER_UM)
				return arena_print(mem, "%s, %s from its start",
				        edge_words(edge, sizeof edge, r, i),
				        length_print(x, sizeof x,
				                llround(hypot(p.x - a.x, p.y - a.y) / 1000) * 1000,
				                UNIT_M));
		}
	return arena_print(mem, "x %s, y %s",
	        length_print(x, sizeof x, llround(p.x / 1000) * 1000, UNIT_M),
	        length_print(y, sizeof y, llround(p.y / 1000) * 1000, UNIT_M));
}
