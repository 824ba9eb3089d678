/* margin.c - strips along the outline's edges, outward. */
#include "margin.h"

#include <math.h>

static const double WITHIN_UM = 1000; /* a point beside an edge lies so far within the paving */

struct edge {
	struct point a, b;
	double ux, uy; /* the way it runs; outward is to its right */
	bool dug_beyond;
};

static enum edge_kind kind_of(const struct plan *plan, const struct ring *r, size_t at)
{
	size_t ring = 0, node = 0;

	if (!plan_edge_find(plan, (size_t)r->edge[at], &ring, &node))
		return EDGE_OPEN;
	return plan->rings[ring].nodes[node].kind;
}

static struct edge edge_of(const struct plan *plan, const struct ring *r, size_t at)
{
	struct edge e = { r->p[at], r->p[at + 1 < r->n ? at + 1 : 0], 0, 0, false };
	enum edge_kind kind = kind_of(plan, r, at);
	double length = hypot(e.b.x - e.a.x, e.b.y - e.a.y);

	e.ux = (e.b.x - e.a.x) / length;
	e.uy = (e.b.y - e.a.y) / length;
	e.dug_beyond = kind != EDGE_HOUSE_WALL && kind != EDGE_EXISTING_PAVING;
	return e;
}

size_t margin_section(const struct plan *plan, const struct region *region,
        const struct paving *paving, size_t at)
{
	const struct ring *r = &region->rings[0];
	struct edge e = edge_of(plan, r, at);
	double within = WITHIN_UM + (double)plan->laying.edge_joint_um[kind_of(plan, r, at)];
	struct point p = { (e.a.x + e.b.x) / 2 - e.uy * within,
		(e.a.y + e.b.y) / 2 + e.ux * within };
	const struct section *s = section_at(paving, p);

	return s ? (size_t)(s - paving->sections) : 0;
}

/* How far the strip's outer side runs on beyond the edge's end, where it turns outward into another
 * that is dug beyond: to the mitre, and at corners sharper than a right angle as far as the strip
 * is wide. */
static double run_on(const struct edge *in, const struct edge *out, double width)
{
	double turn = in->ux * out->uy - in->uy * out->ux,
	       cosine = in->ux * out->ux + in->uy * out->uy;

	if (!in->dug_beyond || !out->dug_beyond || turn <= 0)
		return 0;
	return cosine > 0 ? width * turn / (1 + cosine) : width;
}

static struct point beyond(struct point p, const struct edge *e, double along, double out)
{
	return (struct point){ p.x + e->ux * along + e->uy * out,
		p.y + e->uy * along - e->ux * out };
}

/* The end of a strip at a corner, from its outer side to the edge. A mitred one is the mitre. */
static void add_end(
        struct ring *strip, struct point corner, const struct edge *e, double along, double width)
{
	strip->p[strip->n++] = beyond(corner, e, along, width);
	if (fabs(along) >= width)
		strip->p[strip->n++] = beyond(corner, e, along, 0);
	strip->p[strip->n++] = corner;
}

static void turn_round(struct ring *strip)
{
	for (size_t i = 0; i < strip->n / 2; i++) {
		struct point p = strip->p[i];

		strip->p[i] = strip->p[strip->n - 1 - i];
		strip->p[strip->n - 1 - i] = p;
	}
}

enum status margin_strips(struct arena *mem, const struct plan *plan, const struct region *region,
        double width_um, struct ring **strips, size_t **at, size_t *count, struct error *err)
{
	const struct ring *r = &region->rings[0];
	struct ring *made = arena_alloc(mem, r->n, sizeof *made);
	struct point *corners = arena_alloc(mem, 6 * r->n, sizeof *corners);

	*strips = made;
	*count = 0;
	*at = arena_alloc(mem, r->n, sizeof **at);
	if (!made || !corners || !*at)
		return error_memory(err);
	for (size_t i = 0; i < r->n && width_um > 0; i++) {
		struct edge e = edge_of(plan, r, i),
		            before = edge_of(plan, r, i ? i - 1 : r->n - 1),
		            after = edge_of(plan, r, i + 1 < r->n ? i + 1 : 0);
		struct ring strip = { .p = corners + 6 * i };

		if (!e.dug_beyond)
			continue;
		add_end(&strip, e.a, &e, -run_on(&before, &e, width_um), width_um);
		turn_round(&strip);
		add_end(&strip, e.b, &e, run_on(&e, &after, width_um), width_um);
		(*at)[*count] = i;
		made[(*count)++] = strip;
	}
	return STATUS_OK;
}
