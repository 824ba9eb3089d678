/* view.c - see view.h. */
#include "view.h"

#include <math.h>

static const int64_t usual_scales[] = { 5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10000 };

enum { SCALES = sizeof usual_scales / sizeof *usual_scales };

double scale_mm(int64_t scale, double um)
{
	return um / 1000 / (double)scale;
}

int64_t scale_fitting(const struct box *plan, double width, double height)
{
	for (int i = 0; i < SCALES; i++)
		if (scale_mm(usual_scales[i], plan->x1 - plan->x0) <= width &&
		        scale_mm(usual_scales[i], plan->y1 - plan->y0) <= height)
			return usual_scales[i];
	return usual_scales[SCALES - 1];
}

int64_t scale_after(int64_t scale)
{
	for (int i = 0; i < SCALES; i++)
		if (usual_scales[i] > scale)
			return usual_scales[i];
	return 0;
}

struct view view_centred(int64_t scale, const struct box *plan, const struct box *paper)
{
	return (struct view){ scale, { (plan->x0 + plan->x1) / 2, (plan->y0 + plan->y1) / 2 },
		{ (paper->x0 + paper->x1) / 2, (paper->y0 + paper->y1) / 2 } };
}

struct point view_point(const struct view *v, struct point p)
{
	return (struct point){ v->paper.x + scale_mm(v->scale, p.x - v->plan.x),
		v->paper.y - scale_mm(v->scale, p.y - v->plan.y) };
}

struct point view_back(const struct view *v, struct point p)
{
	double um = 1000 * (double)v->scale;

	return (struct point){ v->plan.x + (p.x - v->paper.x) * um,
		v->plan.y - (p.y - v->paper.y) * um };
}

struct ring view_ring(struct drawing *d, const struct view *v, const struct ring *ring)
{
	struct ring out = { arena_alloc(&d->page_mem, ring->n, sizeof *out.p), ring->n, NULL };

	if (!out.p) {
		page_fail_memory(d);
		out.n = 0;
	}
	for (size_t i = 0; i < out.n; i++)
		out.p[i] = view_point(v, ring->p[i]);
	return out;
}

struct ring *view_region(struct drawing *d, const struct view *v, const struct region *region)
{
	struct ring *out = arena_alloc(&d->page_mem, region->count + 1, sizeof *out);

	if (!out)
		page_fail_memory(d);
	for (size_t i = 0; out && i < region->count; i++)
		out[i] = view_ring(d, v, &region->rings[i]);
	return out;
}

/* Where an edge's straight edges begin in its ring, and how many there are. */
static bool find_edge(const struct ring *r, size_t edge, size_t *first, size_t *count)
{
	size_t i = 0, before = r->n - 1;

	while (i < r->n && !(r->edge[i] == (int)edge && r->edge[(i + before) % r->n] != (int)edge))
		i++;
	if (i == r->n)
		return false;
	*first = i;
	for (*count = 0; *count < r->n && r->edge[(i + *count) % r->n] == (int)edge;)
		++*count;
	return true;
}

struct path view_edge(struct drawing *d, const struct view *v, size_t edge)
{
	const struct region *g = &d->t->region;
	struct path out = { NULL, 0 };
	size_t first, count;

	for (size_t k = 0; k < g->count && !out.n; k++) {
		const struct ring *r = &g->rings[k];

		if (!r->edge || !find_edge(r, edge, &first, &count))
			continue;
		out.p = arena_alloc(&d->page_mem, count + 1, sizeof *out.p);
		if (!out.p) {
			page_fail_memory(d);
			break;
		}
		for (out.n = 0; out.n <= count; out.n++)
			out.p[out.n] = view_point(v, r->p[(first + out.n) % r->n]);
	}
	return out;
}
