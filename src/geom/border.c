/* border.c - the paving parted into runs of border courses along its edges and the field. */
#include "border.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static enum status refuse_wide(const struct plan *plan, size_t edge, struct error *err)
{
	char words[64];

	return error_set(err, STATUS_PLAN,
	        "the border along %s is wider than the paving there; take fewer or narrower "
	        "courses, or leave the border off that edge",
	        plan_edge_words(words, sizeof words, plan, edge));
}

static enum status refuse_tight(const struct plan *plan, const struct strip *s, struct error *err)
{
	char words[64], radius[40];

	return error_set(err, STATUS_PLAN,
	        "the border along %s does not go round its curve, which has a radius of %s; take "
	        "fewer or narrower courses, or give the edge less rise",
	        plan_edge_words(words, sizeof words, plan, s->edge),
	        length_print(radius, sizeof radius, llround(s->outer_um / 1000) * 1000, UNIT_M));
}

/* Refuses curves too tight for their borders. */
static enum status check_curves(const struct plan *plan, const struct ring *ring, struct error *err)
{
	for (size_t i = 0; i < ring->n; i++) {
		int edge = ring->edge[i];
		const struct plan_border *border = border_of(plan, edge);
		struct strip s = { .edge = (size_t)edge };
		size_t end = i;

		if (!border || ring->edge[i ? i - 1 : ring->n - 1] == edge)
			continue;
		while (ring->edge[end] == edge)
			end = (end + 1) % ring->n;
		if (!strip_bend(&s, plan, ring, i, end, (double)border_depth_um(border)))
			return refuse_tight(plan, &s, err);
	}
	return STATUS_OK;
}

static enum status take_off(struct arena *mem, const struct plan *plan, const struct region *from,
        struct inset *out, struct error *err)
{
	size_t edges = plan_edge_count(plan);
	double *inward = arena_alloc(mem, edges, sizeof *inward);
	enum status st = STATUS_OK;

	if (!inward)
		return error_memory(err);
	for (size_t i = 0; i < edges; i++) {
		const struct plan_border *border = border_of(plan, (int)i);

		inward[i] = border ? (double)border_depth_um(border) : 0;
	}
	for (size_t i = 0; i < from->count && st == STATUS_OK; i++)
		st = check_curves(plan, &from->rings[i], err);
	if (st == STATUS_OK)
		st = inset_draw(mem, plan, from, inward, out, err);
	if (st == STATUS_OK && out->too_wide)
		return refuse_wide(plan, out->fault, err);
	return st;
}

static enum status ring_borders(struct arena *mem, const struct plan *plan,
        const struct inset_ring *ring, struct strip *strips, size_t *count, struct error *err)
{
	struct run_ring runs;
	enum status st = runs_find(mem, plan, ring, &runs, err);

	for (size_t i = 0; st == STATUS_OK && i < runs.count; i++)
		if (runs.runs[i].border)
			st = strip_make(mem, plan, &runs, i, &strips[(*count)++], err);
	return st;
}

static int by_edge(const void *a, const void *b)
{
	const struct strip *s = a, *t = b;

	return s->edge < t->edge ? -1 : s->edge > t->edge;
}

enum status region_borders(struct arena *mem, const struct plan *plan, const struct region *from,
        struct strip **strips, size_t *count, struct region *field, struct error *err)
{
	struct inset drawn;
	enum status st = take_off(mem, plan, from, &drawn, err);

	*count = 0;
	if (st != STATUS_OK)
		return st;
	*strips = arena_alloc(mem, plan_edge_count(plan), sizeof **strips);
	if (!*strips)
		return error_memory(err);
	for (size_t i = 0; i < from->count && st == STATUS_OK; i++)
		st = ring_borders(mem, plan, &drawn.rings[i], *strips, count, err);
	*field = drawn.to;
	qsort(*strips, *count, sizeof **strips, by_edge);
	return st;
}
