/* inset.c - a region drawn in along its edges.
 *
 * Every edge moves to its left, into the paving, by its own distance; neighbours meet where their
 * moved lines cross. Where these run so nearly alike that they would cross far away, a short step
 * joins them. Corners are rounded to whole um, so that the outcome can be checked exactly: an edge
 * that has turned round, or edges that cross, mean that the paving is narrower than what is taken
 * from it. */
#include "slabwright/geom.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

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

/* A ring on its way in. */
struct drawing_in {
	const struct ring *from;
	struct moved *edges; /* of all of from's edges */
	size_t *kept; /* those that are left, in order */
	size_t count; /* of them */
	size_t *ends; /* first point of the corner before each */
};

/* Puts the corners between the edges that are left. Gives which of those has turned round, or their
 * count. */
static size_t join(struct drawing_in *d, struct ring *to)
{
	to->n = 0;
	for (size_t k = 0; k < d->count; k++) {
		size_t here = d->kept[k], before = d->kept[k ? k - 1 : d->count - 1];

		d->ends[k] = to->n;
		put_corner(to, &d->edges[before], &d->edges[here], d->from->p[here],
		        d->from->edge[here]);
	}
	for (size_t k = 0; k < d->count; k++) {
		size_t next = k + 1 < d->count ? d->ends[k + 1] : 0;
		size_t start = (k + 1 < d->count ? next : to->n) - 1; /* last point of its corner */

		if (!runs_on(d->edges[d->kept[k]].way, to->p[start], to->p[next]))
			return k;
	}
	return d->count;
}

/* Whether a neighbour that is left comes from the same arc. */
static bool has_more_of_its_arc(const struct drawing_in *d, size_t k)
{
	size_t before = d->kept[k ? k - 1 : d->count - 1],
	       after = d->kept[k + 1 < d->count ? k + 1 : 0];
	int edge = d->from->edge[d->kept[k]];

	return d->count > 3 && (d->from->edge[before] == edge || d->from->edge[after] == edge);
}

/* Of an edge and its neighbours, the one along which most is taken. */
static int most_taken(const struct drawing_in *d, size_t k)
{
	size_t most = d->kept[k], beside[] = { d->kept[k ? k - 1 : d->count - 1],
		d->kept[k + 1 < d->count ? k + 1 : 0] };

	for (int i = 0; i < 2; i++)
		if (d->edges[beside[i]].by > d->edges[most].by)
			most = beside[i];
	return d->from->edge[most];
}

/* Chords at the end of an arc that lie wholly in what is taken along the edge next to it go; any
 * other edge that has turned round is told in *turned, by what was taken too much of. */
static enum status inset_ring(struct arena *mem, const struct ring *from, const double *inward,
        struct ring *to, int *turned, struct error *err)
{
	struct drawing_in d = { .from = from,
		.edges = arena_alloc(mem, from->n, sizeof *d.edges),
		.kept = arena_alloc(mem, from->n, sizeof *d.kept),
		.ends = arena_alloc(mem, from->n, sizeof *d.ends),
		.count = from->n };
	size_t k;

	*to = (struct ring){ .p = arena_alloc(mem, 2 * from->n, sizeof *to->p),
		.edge = arena_alloc(mem, 2 * from->n, sizeof *to->edge) };
	if (!d.edges || !d.kept || !d.ends || !to->p || !to->edge)
		return error_memory(err);
	for (size_t i = 0; i < from->n; i++) {
		d.edges[i] = move_edge(from, i, inward);
		d.kept[i] = i;
	}
	while ((k = join(&d, to)) < d.count && has_more_of_its_arc(&d, k)) {
		d.count--;
		memmove(&d.kept[k], &d.kept[k + 1], (d.count - k) * sizeof *d.kept);
	}
	if (k < d.count)
		*turned = most_taken(&d, k);
	return STATUS_OK;
}

/* The edge along which most is taken. */
static size_t widest(const struct plan *plan, const double *inward)
{
	size_t edge = 0;

	for (size_t e = 1; e < plan_edge_count(plan); e++)
		if (inward[e] > inward[edge])
			edge = e;
	return edge;
}

static enum status refuse_narrow(const struct plan *plan, size_t edge, struct error *err)
{
	size_t ring = 0, at = 0;
	char opening[32] = "";

	if (plan_edge_find(plan, edge, &ring, &at) && ring)
		snprintf(opening, sizeof opening, "opening %zu, ", ring);
	return error_set(err, STATUS_PLAN,
	        "the paving is narrower than what is taken from it along its edges; take less "
	        "along %sedge %zu, or make "
	        "the paving wider",
	        opening, at + 1);
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
	return refuse_narrow(plan, turned < 0 ? widest(plan, inward) : (size_t)turned, err);
}
