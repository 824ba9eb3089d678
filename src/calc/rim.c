/* rim.c - the region's rings with a point more wherever what water does along them may change. */
#include "drains.h"

#include <math.h>
#include <stdlib.h>

static const double SAME_UM = 1e-3;

/* Where an edge is to be cut, along it. */
struct cuts {
	double *at;
	size_t count, room;
};

static bool add_cut(struct drains *d, struct cuts *c, double at, double length)
{
	double *grown;

	if (at <= SAME_UM || at >= length - SAME_UM)
		return true;
	grown = arena_grow(d->mem, c->at, c->count, &c->room, sizeof *grown);
	if (!grown)
		return false;
	c->at = grown;
	grown[c->count++] = at;
	return true;
}

static double envelope_level(const struct drains *d, struct point p)
{
	return surface_level_um(&d->plan->surface, p.x, p.y);
}

static bool cut_at_planes(struct drains *d, const struct track *t, double length, struct cuts *c)
{
	struct point a = t->at, b = track_point(t, length);

	for (size_t i = 0; i < d->shape.part_count; i++)
		for (size_t j = i + 1; j < d->shape.part_count; j++) {
			const struct gradient *g = &d->planes[d->shape.parts[i].plane],
			                      *h = &d->planes[d->shape.parts[j].plane];
			double from = gradient_level(g, a) - gradient_level(h, a),
			       to = gradient_level(g, b) - gradient_level(h, b), at;
			struct point p;

			if ((from > 0) == (to > 0))
				continue;
			at = length * from / (from - to);
			p = track_point(t, at);
			if (fabs(gradient_level(g, p) - envelope_level(d, p)) < SAME_UM &&
			        !add_cut(d, c, at, length))
				return false;
		}
	return true;
}

static bool cut_at_gullies(struct drains *d, const struct track *t, double length, struct cuts *c)
{
	for (size_t i = 0; i < d->plan->water.gully_count; i++) {
		const struct plan_gully *g = &d->plan->water.gullies[i];
		struct point p = { (double)g->x_um, (double)g->y_um };
		double at = track_place(t, p);

		if (distance_to_line(p, t->at, track_point(t, length), NULL) <= GULLY_REACH_UM &&
		        !add_cut(d, c, at, length))
			return false;
	}
	return true;
}

static bool cut_at_channels(struct drains *d, const struct track *t, double length, struct cuts *c)
{
	for (size_t i = 0; i < d->plan->water.channel_count; i++) {
		const struct plan_channel *w = &d->plan->water.channels[i];
		struct point e[2] = { { (double)w->x1_um, (double)w->y1_um },
			{ (double)w->x2_um, (double)w->y2_um } };
		double away[2], reach = fmax((double)w->width_um / 2, CORNER_UM);

		if (d->by_edge[i])
			continue;
		for (int k = 0; k < 2; k++) {
			away[k] = (e[k].y - t->at.y) * t->along.x - (e[k].x - t->at.x) * t->along.y;
			if (distance_to_line(e[k], t->at, track_point(t, length), NULL) <= reach &&
			        !add_cut(d, c, track_place(t, e[k]), length))
				return false;
		}
		if ((away[0] > 0) != (away[1] > 0)) {
			double share = away[0] / (away[0] - away[1]), from = track_place(t, e[0]),
			       to = track_place(t, e[1]);

			if (!add_cut(d, c, from + share * (to - from), length))
				return false;
		}
	}
	return true;
}

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static bool find_cuts(struct drains *d, size_t track, double length, struct cuts *c)
{
	const struct track *t = &d->tracks[track];

	c->count = 0;
	if (d->shape.part_count > 1 && !cut_at_planes(d, t, length, c))
		return false;
	if (edge_holds(d, d->edge_of[track]) &&
	        !(cut_at_gullies(d, t, length, c) && cut_at_channels(d, t, length, c)))
		return false;
	if (c->count > 1)
		qsort(c->at, c->count, sizeof *c->at, by_value);
	return true;
}

/* A rim point with its edge's span of the track; its sink has the same number. */
static bool add_rim(struct drains *d, size_t track, size_t *room, double from, double to)
{
	struct rim_point *rim = arena_grow(d->mem, d->rim, d->rim_count, room, sizeof *rim);
	struct point p = track_point(&d->tracks[track], from);

	if (!rim)
		return false;
	d->rim = rim;
	if (from == 0)
		p = d->tracks[track].at;
	rim[d->rim_count] = (struct rim_point){ .p = p,
		.level_um = envelope_level(d, p),
		.next = d->rim_count + 1,
		.prev = d->rim_count - 1,
		.edge = d->edge_of[track],
		.group = d->rim_count,
		.mate = d->rim_count };
	return add_span(d, track, (struct span){ from, to, (int)d->rim_count++ }) &&
	       add_sink(d, to_node(0));
}

static bool add_edge(struct drains *d, size_t track, double length, size_t *room, struct cuts *c)
{
	double from = 0;

	if (!find_cuts(d, track, length, c))
		return false;
	for (size_t i = 0; i < c->count; i++)
		if (c->at[i] - from > SAME_UM) {
			if (!add_rim(d, track, room, from, c->at[i]))
				return false;
			from = c->at[i];
		}
	return add_rim(d, track, room, from, length);
}

/* Joins points whose edge between them holds water and is level: it spreads over them. */
static void join_level(struct drains *d)
{
	for (size_t i = 0; i < d->rim_count; i++) {
		struct rim_point *a = &d->rim[i], *b = &d->rim[a->next];
		double length = hypot(b->p.x - a->p.x, b->p.y - a->p.y);
		size_t mate = a->mate, group = a->group;

		if (group == b->group || !edge_holds(d, a->edge) ||
		        fabs(a->level_um - b->level_um) > LEVEL_PER_UM * length)
			continue;
		a->mate = b->mate;
		b->mate = mate;
		for (size_t k = b->group; d->rim[k].group != group; k = d->rim[k].mate)
			d->rim[k].group = group;
	}
}

enum status drains_rim(struct drains *d, struct error *err)
{
	struct cuts c = { 0 };
	size_t room = 0, track = 0;

	for (size_t i = 0; i < d->region.count; i++) {
		const struct ring *r = &d->region.rings[i];
		size_t first = d->rim_count;

		for (size_t j = 0; j < r->n; j++, track++) {
			struct point a = r->p[j], b = r->p[j + 1 < r->n ? j + 1 : 0];
			double length = hypot(b.x - a.x, b.y - a.y);

			if (length == 0)
				continue;
			d->tracks[track].at = a;
			d->tracks[track].along =
			        (struct point){ (b.x - a.x) / length, (b.y - a.y) / length };
			if (!add_edge(d, track, length, &room, &c))
				return error_memory(err);
		}
		d->rim[first].prev = d->rim_count - 1;
		d->rim[d->rim_count - 1].next = first;
	}
	join_level(d);
	return STATUS_OK;
}
