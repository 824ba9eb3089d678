/* inset.c - a region drawn in along its edges.
 *
 * Every edge moves to its left, into the paving, by its own distance; neighbours meet where their
 * moved lines cross. Where these run so nearly alike that they would cross far away, a short step
 * joins them. Corners are rounded to whole um, so that the outcome can be checked exactly: an edge
 * that has turned round, or edges that cross, mean that the paving is narrower than what is taken
 * from it. */
#include "slabwright/geom.h"

#include <math.h>

static const double FARTHEST =
        4; /* of the larger distance: beyond it corners are stepped, not mitred */

struct moved {
	struct point a, b, way; /* the edge after the move, and its unit direction */
	double by;
};

static struct moved move_edge(const struct ring *r, size_t i, const double *inward)
{
	struct point a = r->p[i], b = r->p[i + 1 < r->n ? i + 1 : 0];
	double l = hypot(b.x - a.x, b.y - a.y), by = inward[r->edge[i]];
	struct point way = { (b.x - a.x) / l, (b.y - a.y) / l };

	return (struct moved){ { a.x - way.y * by, a.y + way.x * by },
		{ b.x - way.y * by, b.y + way.x * by }, way, by };
}

static struct point whole_um(struct point p)
{
	return (struct point){ round(p.x), round(p.y) };
}

/* Appends the corner between two moved edges that met at p: one point, or a step of two. */
static void put_corner(struct ring *to, const struct moved *first, const struct moved *second,
        struct point p, int edge)
{
	double cross = first->way.x * second->way.y - first->way.y * second->way.x;
	double dx = second->a.x - first->b.x, dy = second->a.y - first->b.y;
	double t =
	        fabs(cross) > 1e-9 ? (dx * second->way.y - dy * second->way.x) / cross : INFINITY;
	struct point meet = { first->b.x + first->way.x * t, first->b.y + first->way.y * t };

	if (hypot(dx, dy) < 1) {
		meet = first->b;
	} else if (!(hypot(meet.x - p.x, meet.y - p.y) <= FARTHEST * fmax(first->by, second->by))) {
		to->p[to->n] = whole_um(first->b);
		to->edge[to->n++] = edge;
		meet = second->a;
	}
	to->p[to->n] = whole_um(meet);
	to->edge[to->n++] = edge;
}

/* Whether an edge that ran along `way` still does between these points. */
static bool runs_on(struct point way, struct point a, struct point b)
{
	return way.x * (b.x - a.x) + way.y * (b.y - a.y) > 0;
}

static enum status inset_ring(struct arena *mem, const struct ring *from, const double *inward,
        struct ring *to, int *turned, struct error *err)
{
	struct moved *edges = arena_alloc(mem, from->n, sizeof *edges);
	size_t *ends = arena_alloc(mem, from->n, sizeof *ends); /* first point of each corner */

	*to = (struct ring){ .p = arena_alloc(mem, 2 * from->n, sizeof *to->p),
		.edge = arena_alloc(mem, 2 * from->n, sizeof *to->edge) };
	if (!edges || !ends || !to->p || !to->edge)
		return error_memory(err);
	for (size_t i = 0; i < from->n; i++)
		edges[i] = move_edge(from, i, inward);
	for (size_t i = 0; i < from->n; i++) {
		ends[i] = to->n;
		put_corner(
		        to, &edges[i ? i - 1 : from->n - 1], &edges[i], from->p[i], from->edge[i]);
	}
	for (size_t i = 0; i < from->n; i++) {
		size_t next = i + 1 < from->n ? i + 1 : 0;
		size_t start = (next ? ends[next] : to->n) - 1; /* last point of corner i */

		if (!runs_on(edges[i].way, to->p[start], to->p[ends[next]]))
			*turned = from->edge[i];
	}
	return STATUS_OK;
}

enum status region_inset(struct arena *mem, const struct plan *plan, const struct region *from,
        const double *inward, struct region *out, struct error *err)
{
	struct ring *rings = arena_alloc(mem, from->count, sizeof *rings);
	int turned = -1;
	struct error why;
	enum status st = STATUS_OK;

	if (!rings)
		return error_memory(err);
	for (size_t i = 0; i < from->count && st == STATUS_OK; i++)
		st = inset_ring(mem, &from->rings[i], inward, &rings[i], &turned, err);
	if (st != STATUS_OK)
		return st;
	*out = (struct region){ rings, from->count };
	if (turned < 0 && (st = region_check(plan, out, &why)) == STATUS_OK)
		return STATUS_OK;
	if (st == STATUS_MEMORY)
		return error_memory(err);
	return error_set(err, STATUS_PLAN,
	        "the paving is narrower than what is taken from it along its edges; take less "
	        "along edge %zu, or make "
	        "the paving wider",
	        turned < 0 ? (size_t)1 : (size_t)turned + 1);
}
