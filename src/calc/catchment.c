/* catchment.c - what takes the water of each point first.
 *
 * Parts are swept from the last that water comes to up to the first: so where a plane's water
 * crosses on to another plane it is known where it goes from each point of the line between. */
#include "drains.h"

#include <math.h>
#include <stdlib.h>

static const double SAME_UM = 1e-3;

/* Arcs are flattened so finely that what they lose of the area is at most half a part in a million
 * of it.
 */
static double chord_error_um(const struct plan *plan)
{
	double edges = plan_perimeter_m(plan) + plan_opening_edges_m(plan);

	return fmin(ARC_CHORD_ERROR_UM, fmax(0.05, plan_area_m2(plan) / edges * 0.5));
}

/* Numbers the region's edges by track and keeps the plan's numbers. */
static enum status number_edges(struct drains *d, struct error *err)
{
	for (size_t i = 0; i < d->region.count; i++)
		d->edges += d->region.rings[i].n;
	d->edge_of = arena_alloc(d->mem, d->edges, sizeof *d->edge_of);
	if (!d->edge_of)
		return error_memory(err);
	for (size_t i = 0, track = 0; i < d->region.count; i++)
		for (size_t j = 0; j < d->region.rings[i].n; j++, track++) {
			d->edge_of[track] = d->region.rings[i].edge[j];
			d->region.rings[i].edge[j] = (int)track;
		}
	return STATUS_OK;
}

static enum status lay_tracks(struct drains *d, struct error *err)
{
	size_t n = d->shape.part_count;

	d->tracks = arena_alloc(d->mem, d->edges + n * n, sizeof *d->tracks);
	if (!d->tracks)
		return error_memory(err);
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++) {
			struct meeting_line l;

			if (planes_line(d->plan->surface.envelope,
			            &d->planes[d->shape.parts[i].plane],
			            &d->planes[d->shape.parts[j].plane], &l))
				d->tracks[track_between(d, i, j)] =
				        (struct track){ .at = { l.across.x * l.offset_um,
					                        l.across.y * l.offset_um },
					        .along = { -l.across.y, l.across.x } };
		}
	return STATUS_OK;
}

static enum status find_channels(struct drains *d, struct error *err)
{
	size_t n = d->plan->water.channel_count;

	d->by_edge = arena_alloc(d->mem, n, sizeof *d->by_edge);
	if (!d->by_edge)
		return error_memory(err);
	for (size_t e = 0; n && e < plan_edge_count(d->plan); e++) {
		int channel = edge_channel(d->plan, e);

		if (channel != NOWHERE)
			d->by_edge[channel] = true;
	}
	return STATUS_OK;
}

/* All water of a level plane stands, unless there is a gully in it. */
static bool add_level_part(struct drains *d, struct drain_part *part)
{
	const struct plan_water *w = &d->plan->water;
	int pond;

	part->sink = (int)d->sink_count;
	for (size_t i = 0; i < w->gully_count; i++)
		if (region_contains(&part->of->region, (struct point){ (double)w->gullies[i].x_um,
		                                               (double)w->gullies[i].y_um }))
			return add_sink(d, to_end(END_GULLY, i));
	pond = pond_at(d, part->of->region.rings[0].p[0], false);
	if (pond == NOWHERE)
		return false;
	d->ponds[pond].level_plane = true;
	d->ponds[pond].place =
	        arena_print(d->mem, "plane %zu, which is level", part->of->plane + 1);
	return d->ponds[pond].place && add_sink(d, to_end(END_POND, (size_t)pond));
}

static enum status lay_parts(struct drains *d, struct error *err)
{
	d->parts = arena_alloc(d->mem, d->shape.part_count, sizeof *d->parts);
	if (!d->parts)
		return error_memory(err);
	for (size_t i = 0; i < d->plan->water.channel_count; i++)
		if (!add_sink(d, to_end(END_CHANNEL, i)))
			return error_memory(err);
	for (size_t i = 0; i < d->shape.part_count; i++) {
		struct drain_part *p = &d->parts[i];
		const struct gradient *g = &d->planes[d->shape.parts[i].plane];

		*p = (struct drain_part){ .of = &d->shape.parts[i],
			.rings = arena_alloc(
			        d->mem, d->shape.parts[i].region.count, sizeof *p->rings),
			.count = d->shape.parts[i].region.count,
			.steepness = hypot(g->x, g->y),
			.sink = NOWHERE };
		if (!p->rings || (p->steepness == 0 && !add_level_part(d, p)))
			return error_memory(err);
	}
	return STATUS_OK;
}

/* --- edges cut where what takes their water changes --- */

static int by_begin(const void *a, const void *b)
{
	const struct span *s = a, *t = b;

	return s->from < t->from ? -1 : s->from > t->from;
}

/* The sink at a place: of the span there, or the nearest. */
static int sink_at(const struct track *t, double place)
{
	double best = INFINITY;
	int sink = NOWHERE;

	for (size_t i = 0; i < t->count; i++) {
		double away = fmax(t->spans[i].from - place, place - t->spans[i].to);

		if (away < best) {
			best = away;
			sink = t->spans[i].sink;
		}
	}
	return sink;
}

static bool put(struct drains *d, struct drain_ring *r, struct point p, int track, int sink)
{
	struct drain_corner *grown = arena_grow(d->mem, r->at, r->n, &r->room, sizeof *grown);

	if (!grown)
		return false;
	r->at = grown;
	grown[r->n++] = (struct drain_corner){ p, track, sink };
	return true;
}

static bool put_edge(
        struct drains *d, struct drain_ring *r, struct point p, struct point q, int track)
{
	struct track *t = &d->tracks[track];
	double from = track_place(t, p), to = track_place(t, q), at = from;
	bool up = to > from;

	if (t->count == 1)
		return put(d, r, p, track, t->spans[0].sink);
	if (track >= (int)d->edges && t->count)
		qsort(t->spans, t->count, sizeof *t->spans, by_begin);
	for (size_t i = 0; i < t->count; i++) {
		const struct span *s = &t->spans[up ? i : t->count - 1 - i];
		double end = up ? s->to : s->from;

		if (up ? end <= at + SAME_UM : end >= at - SAME_UM)
			continue;
		if (up ? end >= to - SAME_UM : end <= to + SAME_UM)
			break;
		if (!put(d, r, at == from ? p : track_point(t, at), track,
		            sink_at(t, (at + end) / 2)))
			return false;
		at = end;
	}
	return put(d, r, at == from ? p : track_point(t, at), track, sink_at(t, (at + to) / 2));
}

/* Whether water of a part goes over its line with another, or into the valley there. */
static bool leaves_by(const struct drains *d, size_t part, size_t other)
{
	enum meeting meet = planes_meet(d->plan->surface.envelope,
	        &d->planes[d->shape.parts[part].plane], &d->planes[d->shape.parts[other].plane]);

	return meet == MEET_VALLEY || meet == MEET_INTO_SECOND;
}

static bool cut_edge(struct drains *d, size_t part, struct drain_ring *r, struct point p,
        struct point q, int label)
{
	size_t other;

	if (label >= 0)
		return put_edge(d, r, p, q, label);
	other = part_of_plane(d, (size_t)EDGE_OF_PLANE(label));
	if (other == d->shape.part_count)
		return put(d, r, p, NOWHERE, NOWHERE);
	if (!leaves_by(d, part, other))
		return put(d, r, p, (int)track_between(d, part, other), NOWHERE);
	return put_edge(d, r, p, q, (int)track_between(d, part, other));
}

static enum status cut_part(struct drains *d, size_t part, struct error *err)
{
	const struct region *from = &d->shape.parts[part].region;

	for (size_t i = 0; i < from->count; i++) {
		const struct ring *r = &from->rings[i];

		for (size_t j = 0; j < r->n; j++)
			if (!cut_edge(d, part, &d->parts[part].rings[i], r->p[j],
			            r->p[j + 1 < r->n ? j + 1 : 0], r->edge[j]))
				return error_memory(err);
	}
	return STATUS_OK;
}

/* The part to be swept next: water of a max crosses to gentler planes, of a min to steeper ones. */
static size_t next_part(const struct drains *d, const bool *done)
{
	double way = d->plan->surface.envelope == ENVELOPE_MAX ? 1 : -1;
	size_t best = d->shape.part_count;

	for (size_t i = 0; i < d->shape.part_count; i++)
		if (!done[i] &&
		        (best == d->shape.part_count ||
		                way * d->parts[i].steepness < way * d->parts[best].steepness))
			best = i;
	return best;
}

static enum status sweep_all(struct drains *d, struct error *err)
{
	bool *done = arena_alloc(d->mem, d->shape.part_count, sizeof *done);

	if (!done)
		return error_memory(err);
	for (size_t i = 0; i < d->shape.part_count; i++) {
		size_t part = next_part(d, done);
		enum status st = cut_part(d, part, err);

		if (st != STATUS_OK || (st = sweep_part(d, part, err)) != STATUS_OK)
			return st;
		done[part] = true;
	}
	return STATUS_OK;
}

enum status drains_find(
        struct arena *mem, const struct plan *plan, struct drains *d, struct error *err)
{
	enum status st;

	*d = (struct drains){ .mem = mem, .plan = plan, .plane_count = plan->surface.count };
	d->planes = arena_alloc(mem, d->plane_count, sizeof *d->planes);
	if (!d->planes)
		return error_memory(err);
	for (size_t i = 0; i < d->plane_count; i++)
		d->planes[i] = gradient_of(&plan->surface.planes[i]);
	if ((st = region_flatten(mem, plan, chord_error_um(plan), &d->region, err)) != STATUS_OK ||
	        (st = number_edges(d, err)) != STATUS_OK ||
	        (st = surface_split(mem, &plan->surface, &d->region, &d->shape, err)) !=
	                STATUS_OK ||
	        (st = lay_tracks(d, err)) != STATUS_OK ||
	        (st = find_channels(d, err)) != STATUS_OK ||
	        (st = drains_rim(d, err)) != STATUS_OK || (st = lay_parts(d, err)) != STATUS_OK ||
	        (st = valleys_find(d, err)) != STATUS_OK || (st = sweep_all(d, err)) != STATUS_OK)
		return st;
	return valleys_follow(d, err);
}
