/* drains_report.c - what the result says of water: areas, pieces and ends by receiver. */
#include "drains.h"

#include <stdlib.h>

static const double LEAST_AREA_UM2 = 1e2;

struct report {
	struct drains *d;
	struct endings endings;
	struct surface_result *out;
	size_t end_room, held_room;
	size_t *slots, slot_count; /* receivers in the order of their pieces */
};

static bool add_end(struct report *r, struct water_end end, double area)
{
	struct surface_result *out = r->out;
	struct water_end *grown;

	for (size_t i = 0; i < out->end_count; i++)
		if (out->ends[i].kind == end.kind && out->ends[i].number == end.number) {
			out->ends[i].area_m2 += area;
			return true;
		}
	grown = arena_grow(r->d->mem, out->ends, out->end_count, &r->end_room, sizeof *grown);
	if (!grown)
		return false;
	out->ends = grown;
	end.area_m2 = area;
	grown[out->end_count++] = end;
	return true;
}

static bool add_held(struct report *r, size_t edge, struct water_end end, double area)
{
	struct surface_result *out = r->out;
	struct held_run *grown;

	for (size_t i = 0; i < out->held_count; i++)
		if (out->held[i].edge == edge && out->held[i].end.kind == end.kind &&
		        out->held[i].end.number == end.number) {
			out->held[i].end.area_m2 += area;
			return true;
		}
	grown = arena_grow(r->d->mem, out->held, out->held_count, &r->held_room, sizeof *grown);
	if (!grown)
		return false;
	out->held = grown;
	end.area_m2 = area;
	grown[out->held_count++] = (struct held_run){ edge, end };
	return true;
}

/* Receivers in the order of their pieces: plain edges, each channel's edges and line, gullies,
 * ponds. */
static size_t slot_of(const struct report *r, struct water_end first)
{
	const struct plan_water *w = &r->d->plan->water;
	size_t edges = plan_edge_count(r->d->plan), per = edges + 1,
	       gullies = edges + per * w->channel_count;
	int channel;

	switch (first.kind) {
	case END_EDGE:
		channel = edge_channel(r->d->plan, first.number);
		return channel == NOWHERE ? first.number
		                          : edges + per * (size_t)channel + first.number;
	case END_CHANNEL:
		return edges + per * first.number + edges;
	case END_GULLY:
		return gullies + first.number;
	default:
		return gullies + w->gully_count + first.number;
	}
}

static enum status sort_pieces(struct report *r, const struct water_end *first,
        struct water_piece **sorted, struct error *err)
{
	struct drains *d = r->d;
	size_t sum = 0, *next;

	r->slot_count = slot_of(r, (struct water_end){ END_POND, d->pond_count, 0 });
	r->slots = arena_alloc(d->mem, r->slot_count + 1, sizeof *r->slots);
	next = arena_alloc(d->mem, r->slot_count + 1, sizeof *next);
	*sorted = arena_alloc(d->mem, d->piece_count, sizeof **sorted);
	if (!r->slots || !next || !*sorted)
		return error_memory(err);
	for (size_t i = 0; i < d->piece_count; i++)
		r->slots[slot_of(r, first[d->pieces[i].sink])]++;
	for (size_t i = 0; i <= r->slot_count; i++) {
		size_t n = r->slots[i];

		r->slots[i] = next[i] = sum;
		sum += n;
	}
	for (size_t i = 0; i < d->piece_count; i++)
		(*sorted)[next[slot_of(r, first[d->pieces[i].sink])]++] = d->pieces[i].shape;
	return STATUS_OK;
}

static struct water_area pieces_of(const struct report *r, struct water_piece *sorted,
        struct water_end from, struct water_end to, double area_um2)
{
	size_t a = r->slots[slot_of(r, from)], b = r->slots[slot_of(r, to) + 1];

	return (struct water_area){ area_um2 * 1e-12, sorted + a, b - a };
}

/* Area that comes to each receiver first, by slot. */
static double *first_areas(struct report *r, const struct water_end *first)
{
	double *area = arena_alloc(r->d->mem, r->slot_count + 1, sizeof *area);

	for (size_t i = 0; area && i < r->d->sink_count; i++)
		area[slot_of(r, first[i])] += r->d->sinks[i].area_um2;
	return area;
}

static void put_catchments(struct report *r, const double *area, struct water_piece *sorted)
{
	struct surface_result *out = r->out;
	const struct plan *plan = r->d->plan;

	for (size_t e = 0; e < plan_edge_count(plan); e++) {
		struct water_end end = { END_EDGE, e, 0 };
		double a = area[slot_of(r, end)];
		struct water_area w = pieces_of(r, sorted, end, end, a);
		size_t ring = 0, at = 0;

		out->drained_m2 += a * 1e-12;
		if (a < LEAST_AREA_UM2)
			continue;
		plan_edge_find(plan, e, &ring, &at);
		out->catchments[out->catchment_count++] =
		        (struct catchment){ e, plan->rings[ring].nodes[at].kind, w.area_m2,
			        edge_channel(plan, e) + 1, w.pieces, w.piece_count };
	}
}

static void put_collectors(struct report *r, const double *area, struct water_piece *sorted)
{
	struct surface_result *out = r->out;
	size_t edges = plan_edge_count(r->d->plan);

	for (size_t c = 0; c < out->channel_count; c++) {
		struct water_end line = { END_CHANNEL, c, 0 };
		size_t last = slot_of(r, line), from = last - edges;
		double sum = 0;

		for (size_t i = from; i <= last; i++)
			sum += area[i];
		out->drained_m2 += area[last] * 1e-12;
		out->channels[c].first = (struct water_area){ sum * 1e-12, sorted + r->slots[from],
			r->slots[last + 1] - r->slots[from] };
	}
	for (size_t g = 0; g < out->gully_count; g++) {
		struct water_end end = { END_GULLY, g, 0 };

		out->gullies[g].first = pieces_of(r, sorted, end, end, area[slot_of(r, end)]);
		out->drained_m2 += out->gullies[g].first.area_m2;
	}
	for (size_t p = 0; p < out->pond_count; p++) {
		struct water_end end = { END_POND, p, 0 };

		out->ponds[p].first = pieces_of(r, sorted, end, end, area[slot_of(r, end)]);
		out->standing_m2 += out->ponds[p].first.area_m2;
	}
}

static void put_ends(struct surface_result *out)
{
	for (size_t i = 0; i < out->end_count; i++) {
		const struct water_end *e = &out->ends[i];

		if (e->kind == END_CHANNEL)
			out->channels[e->number].area_m2 = e->area_m2;
		else if (e->kind == END_GULLY)
			out->gullies[e->number].area_m2 = e->area_m2;
		else if (e->kind == END_POND)
			out->ponds[e->number].area_m2 = e->area_m2;
	}
}

static int by_end(const void *a, const void *b)
{
	const struct water_end *e = a, *f = b;

	if (e->kind != f->kind)
		return e->kind < f->kind ? -1 : 1;
	return e->number < f->number ? -1 : e->number > f->number;
}

static int by_held(const void *a, const void *b)
{
	const struct held_run *h = a, *k = b;

	return h->edge != k->edge ? (h->edge < k->edge ? -1 : 1) : by_end(&h->end, &k->end);
}

static bool follow_all(struct report *r, struct water_end *first)
{
	struct drains *d = r->d;

	for (size_t i = 0; i < d->sink_count; i++) {
		struct water_end end;
		double area = d->sinks[i].area_um2;

		first[i] = ending_first(d, i);
		if (area <= 0)
			continue;
		if (!ending_last(&r->endings, d->rim_count + i, &end))
			return false;
		if (!add_end(r, end, area * 1e-12))
			return false;
		if (first[i].kind == END_EDGE && edge_holds(d, (int)first[i].number) &&
		        !add_held(r, first[i].number, end, area * 1e-12))
			return false;
	}
	if (r->out->end_count)
		qsort(r->out->ends, r->out->end_count, sizeof *r->out->ends, by_end);
	if (r->out->held_count)
		qsort(r->out->held, r->out->held_count, sizeof *r->out->held, by_held);
	return true;
}

/* The shape's parts with the plan's edge numbers. */
static enum status give_edges_back(struct drains *d, struct error *err)
{
	for (size_t i = 0; i < d->shape.part_count; i++) {
		struct region *part = &d->shape.parts[i].region;
		struct ring *rings = arena_alloc(d->mem, part->count, sizeof *rings);

		if (!rings)
			return error_memory(err);
		for (size_t k = 0; k < part->count; k++) {
			const struct ring *from = &part->rings[k];

			rings[k] = (struct ring){ from->p, from->n,
				arena_alloc(d->mem, from->n, sizeof *rings[k].edge) };
			if (!rings[k].edge)
				return error_memory(err);
			for (size_t j = 0; j < from->n; j++)
				rings[k].edge[j] = from->edge[j] < 0 ? from->edge[j]
				                                     : d->edge_of[from->edge[j]];
		}
		part->rings = rings;
	}
	return STATUS_OK;
}

enum status drains_report(struct drains *d, struct surface_result *out, struct error *err)
{
	struct report r = { .d = d, .out = out };
	struct water_end *first = arena_alloc(d->mem, d->sink_count, sizeof *first);
	struct water_piece *sorted;
	double *area;
	enum status st;

	out->channel_count = d->plan->water.channel_count;
	out->gully_count = d->plan->water.gully_count;
	out->channels = arena_alloc(d->mem, out->channel_count, sizeof *out->channels);
	out->gullies = arena_alloc(d->mem, out->gully_count, sizeof *out->gullies);
	out->catchments = arena_alloc(d->mem, plan_edge_count(d->plan), sizeof *out->catchments);
	if (!first || !endings_begin(d, &r.endings) || !out->channels || !out->gullies ||
	        !out->catchments || !follow_all(&r, first))
		return error_memory(err);
	out->ponds = d->ponds;
	out->pond_count = d->pond_count;
	if ((st = sort_pieces(&r, first, &sorted, err)) != STATUS_OK)
		return st;
	if (!(area = first_areas(&r, first)))
		return error_memory(err);
	put_catchments(&r, area, sorted);
	put_collectors(&r, area, sorted);
	put_ends(out);
	if ((st = give_edges_back(d, err)) != STATUS_OK)
		return st;
	out->shape = d->shape;
	return STATUS_OK;
}
