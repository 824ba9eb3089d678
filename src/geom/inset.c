/* inset.c - a region drawn in along its edges.
 *
 * Every edge moves to its left, into the paving, by its own distance; neighbours meet where their
 * moved lines cross. Where these run so nearly alike that they would cross far away, a short step
 * joins them. Where arcs end in a corner that sticks out, the moved chords of both sides are
 * searched from the corner on for the first two that meet; those before them go. Corners are
 * rounded to whole um, so that the outcome can be checked exactly: an edge that has turned round,
 * or edges that cross, mean that the paving is narrower than what is taken from it. */
#include "inset.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double NEAR_UM = 10; /* lines that meet no farther from an end do not cross */

size_t ring_before(const struct ring *r, size_t i)
{
	return i ? i - 1 : r->n - 1;
}

size_t ring_after(const struct ring *r, size_t i)
{
	return i + 1 < r->n ? i + 1 : 0;
}

static struct moved move_edge(const struct ring *r, size_t i, const double *inward)
{
	struct point a = r->p[i], b = r->p[ring_after(r, i)];
	double l = hypot(b.x - a.x, b.y - a.y), by = r->edge[i] < 0 ? 0 : inward[r->edge[i]];
	struct point way = { (b.x - a.x) / l, (b.y - a.y) / l };

	return (struct moved){ { a.x - way.y * by, a.y + way.x * by },
		{ b.x - way.y * by, b.y + way.x * by }, way, by };
}

struct point whole_um(struct point p)
{
	return (struct point){ round(p.x), round(p.y) };
}

double turn_between(struct point way, struct point other)
{
	return way.x * other.y - way.y * other.x;
}

double meeting_along(struct point a, struct point way, struct point b, struct point other)
{
	double turn = turn_between(way, other);

	if (!(fabs(turn) > 1e-9))
		return INFINITY;
	return turn_between((struct point){ b.x - a.x, b.y - a.y }, other) / turn;
}

bool lines_cross(struct point a, struct point b, struct point c, struct point d)
{
	double l = hypot(b.x - a.x, b.y - a.y), m = hypot(d.x - c.x, d.y - c.y), t, u;
	struct point way = { (b.x - a.x) / l, (b.y - a.y) / l },
	             other = { (d.x - c.x) / m, (d.y - c.y) / m };

	if (!(l > 2 * NEAR_UM) || !(m > 0))
		return false;
	t = meeting_along(a, way, c, other);
	u = meeting_along(c, other, a, way);
	return t > NEAR_UM && t < l - NEAR_UM && u > 0 && u < m;
}

bool line_crosses_ring(struct point a, struct point b, const struct ring *r)
{
	for (size_t i = 0; i < r->n; i++)
		if (lines_cross(a, b, r->p[i], r->p[ring_after(r, i)]))
			return true;
	return false;
}

/* Whether two moved edges would have to grow too far to meet at p; the first ended at `end` and the
 * second began at `begin` before they were moved. */
static bool meet_too_far(const struct moved *first, const struct moved *second, struct point p,
        struct point end, struct point begin)
{
	double most = FARTHEST_MEETING * fmax(first->by, second->by);
	double over = (p.x - first->b.x) * first->way.x + (p.y - first->b.y) * first->way.y;
	double under = (second->a.x - p.x) * second->way.x + (second->a.y - p.y) * second->way.y;

	return (!(over <= 0) && !(hypot(p.x - end.x, p.y - end.y) <= most)) ||
	       (!(under <= 0) && !(hypot(p.x - begin.x, p.y - begin.y) <= most));
}

/* Appends the corner between two edges that are left: one point, or a step of two. */
static void put_corner(struct inset_ring *r, size_t in, size_t out)
{
	const struct moved *first = &r->edges[in], *second = &r->edges[out];
	struct ring *to = &r->to;
	double t = meeting_along(first->b, first->way, second->a, second->way);
	struct point meet = { first->b.x + first->way.x * t, first->b.y + first->way.y * t };

	if (hypot(second->a.x - first->b.x, second->a.y - first->b.y) < 1) {
		meet = first->b;
	} else if (meet_too_far(first, second, meet, r->from->p[ring_after(r->from, in)],
	                   r->from->p[out])) {
		to->p[to->n] = whole_um(first->b);
		to->edge[to->n++] = EDGE_OF_STEP;
		meet = second->a;
	}
	to->p[to->n] = whole_um(meet);
	to->edge[to->n++] = r->from->edge[out];
}

/* Whether an edge that ran along `way` still does between these points. */
static bool runs_on(struct point way, struct point a, struct point b)
{
	return way.x * (b.x - a.x) + way.y * (b.y - a.y) > 0;
}

size_t inset_end(const struct inset_ring *r, size_t k)
{
	return k + 1 < r->count ? r->ends[k + 1] : 0;
}

size_t inset_begin(const struct inset_ring *r, size_t k)
{
	return (k + 1 < r->count ? r->ends[k + 1] : r->to.n) - 1;
}

/* Puts the corners between the edges that are left. */
static void join(struct inset_ring *r)
{
	r->to.n = 0;
	for (size_t k = 0; k < r->count; k++) {
		r->ends[k] = r->to.n;
		put_corner(r, r->kept[k ? k - 1 : r->count - 1], r->kept[k]);
	}
}

/* The first edge left that has turned round, or their count. */
static size_t first_turned(const struct inset_ring *r)
{
	for (size_t k = 0; k < r->count; k++)
		if (!runs_on(r->edges[r->kept[k]].way, r->to.p[inset_begin(r, k)],
		            r->to.p[inset_end(r, k)]))
			return k;
	return r->count;
}

/* How many of a plan edge's chords lie from this one on, forward or back. */
static size_t chords_from(
        const struct ring *r, size_t i, size_t (*next)(const struct ring *, size_t))
{
	size_t n = 1;

	for (size_t j = next(r, i); r->edge[j] == r->edge[i] && j != i; j = next(r, j))
		n++;
	return n;
}

/* Whether two moved edges, of which the first comes in to a corner and the second leaves it, meet
 * there. Those next to the corner are as long as it takes. All edges are joined. */
static bool meet(const struct inset_ring *r, size_t in, bool last, size_t out, bool first)
{
	const struct moved *e = &r->edges[in], *f = &r->edges[out];
	struct point a = r->to.p[inset_begin(r, in)], b = r->to.p[inset_end(r, out)];
	struct point to_a = r->to.p[inset_end(r, in)], to_b = r->to.p[inset_begin(r, out)];
	double t, u;

	if (r->from->edge[ring_before(r->from, in)] != r->from->edge[in])
		a = e->a;
	if (r->from->edge[ring_after(r->from, out)] != r->from->edge[out])
		b = f->b;
	t = meeting_along(a, e->way, b, f->way);
	u = -meeting_along(b, f->way, a, e->way);
	return turn_between(e->way, f->way) > 0 && t >= 0 && u >= 0 &&
	       (last || t <= hypot(to_a.x - a.x, to_a.y - a.y)) &&
	       (first || u <= hypot(to_b.x - b.x, to_b.y - b.y)) && t < INFINITY && u < INFINITY;
}

/* Where a corner sticks out of the paving and an arc leads to it, chords next to the corner may lie
 * wholly in what is taken along the other edge: marks those before the first two that meet. */
static void trim_corner(const struct inset_ring *r, size_t out, bool *gone)
{
	const struct ring *from = r->from;
	size_t in = ring_before(from, out), most_in = chords_from(from, in, ring_before),
	       most_out = chords_from(from, out, ring_after);

	if (from->edge[in] == from->edge[out] || most_in + most_out == 2 ||
	        turn_between(r->edges[in].way, r->edges[out].way) <= 0)
		return;
	for (size_t both = 0; both + 2 <= most_in + most_out; both++)
		for (size_t i = both < most_out ? 0 : both - most_out + 1; i <= both && i < most_in;
		        i++) {
			size_t e = (in + from->n - i) % from->n, f = (out + both - i) % from->n;

			if (!meet(r, e, i == 0, f, i == both))
				continue;
			for (; e != in; e = ring_after(from, e))
				gone[ring_after(from, e)] = true;
			for (; f != out; f = ring_before(from, f))
				gone[ring_before(from, f)] = true;
			return;
		}
}

/* Takes out what is marked. Of a plan edge that would lose all, the last stays; tells which of
 * those that are left it is, or their count. */
static size_t trim(struct inset_ring *r, const bool *gone)
{
	const struct ring *from = r->from;
	size_t start = 0, left = 0, lost = from->n;

	while (start + 1 < from->n && from->edge[start] == from->edge[ring_before(from, start)])
		start++;
	r->count = 0;
	for (size_t i = 0; i < from->n; i++) {
		size_t here = (start + i) % from->n;

		if (from->edge[here] != from->edge[ring_before(from, here)])
			left = 0;
		if (gone[here] && (left || from->edge[ring_after(from, here)] == from->edge[here]))
			continue;
		if (gone[here])
			lost = r->count;
		r->kept[r->count++] = here;
		left++;
	}
	return lost < r->count ? lost : r->count;
}

/* Whether an edge may go: a neighbour that is left comes from the same arc, or it is a step. */
static bool may_go(const struct inset_ring *r, size_t k)
{
	size_t before = r->kept[k ? k - 1 : r->count - 1],
	       after = r->kept[k + 1 < r->count ? k + 1 : 0];
	int edge = r->from->edge[r->kept[k]];

	return r->count > 3 && (edge == EDGE_OF_STEP || r->from->edge[before] == edge ||
	                               r->from->edge[after] == edge);
}

/* Of the neighbours of an edge and itself, the one along which most is taken. */
static size_t most_taken(const struct inset_ring *r, size_t k)
{
	size_t among[] = { r->kept[k ? k - 1 : r->count - 1], r->kept[k + 1 < r->count ? k + 1 : 0],
		r->kept[k] };
	double most = -1;
	int edge = 0;

	for (int i = 0; i < 3; i++)
		if (r->from->edge[among[i]] >= 0 && r->edges[among[i]].by > most) {
			most = r->edges[among[i]].by;
			edge = r->from->edge[among[i]];
		}
	return (size_t)edge;
}

/* Whether edges that went stand in the way of those left, so that these would lead out of the
 * paving. Gives the edge left after which they do, or the count. */
static size_t first_shut_out(const struct inset_ring *r)
{
	const struct ring *from = r->from;

	for (size_t k = 0; k < r->count; k++) {
		size_t i = ring_after(from, r->kept[k]),
		       next = r->kept[k + 1 < r->count ? k + 1 : 0];

		for (; i != next; i = ring_after(from, i))
			if (line_crosses_ring(from->p[i], from->p[ring_after(from, i)], &r->to))
				return k;
	}
	return r->count;
}

/* Takes out chords of arcs and steps that have turned round, and joins what is left. Gives which of
 * that makes it fail, or the count. */
static size_t settle(struct inset_ring *r, const bool *gone)
{
	size_t k = trim(r, gone);

	join(r);
	if (k < r->count)
		return k;
	while ((k = first_turned(r)) < r->count) {
		if (!may_go(r, k))
			return k;
		r->count--;
		memmove(&r->kept[k], &r->kept[k + 1], (r->count - k) * sizeof *r->kept);
		join(r);
	}
	return first_shut_out(r);
}

static enum status draw_ring(struct arena *mem, const struct ring *from, const double *inward,
        struct inset_ring *r, struct inset *out, struct error *err)
{
	bool *gone = arena_alloc(mem, from->n, sizeof *gone);
	size_t k;

	*r = (struct inset_ring){ .from = from,
		.edges = arena_alloc(mem, from->n, sizeof *r->edges),
		.kept = arena_alloc(mem, from->n, sizeof *r->kept),
		.ends = arena_alloc(mem, from->n, sizeof *r->ends),
		.count = from->n,
		.to.p = arena_alloc(mem, 2 * from->n, sizeof *r->to.p),
		.to.edge = arena_alloc(mem, 2 * from->n, sizeof *r->to.edge) };
	if (!gone || !r->edges || !r->kept || !r->ends || !r->to.p || !r->to.edge)
		return error_memory(err);
	for (size_t i = 0; i < from->n; i++) {
		r->edges[i] = move_edge(from, i, inward);
		r->kept[i] = i;
	}
	join(r);
	for (size_t i = 0; i < from->n; i++)
		trim_corner(r, i, gone);
	k = settle(r, gone);
	if (k < r->count) {
		out->too_wide = true;
		out->fault = most_taken(r, k);
	}
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

enum status inset_draw(struct arena *mem, const struct plan *plan, const struct region *from,
        const double *inward, struct inset *out, struct error *err)
{
	struct error why;
	enum status st = STATUS_OK;

	*out = (struct inset){ .rings = arena_alloc(mem, from->count, sizeof *out->rings),
		.to = { arena_alloc(mem, from->count, sizeof *out->to.rings), from->count } };
	if (!out->rings || !out->to.rings)
		return error_memory(err);
	for (size_t i = 0; i < from->count && st == STATUS_OK; i++) {
		st = draw_ring(mem, &from->rings[i], inward, &out->rings[i], out, err);
		out->to.rings[i] = out->rings[i].to;
	}
	if (st != STATUS_OK || out->too_wide)
		return st;
	st = region_check(plan, &out->to, &why);
	if (st == STATUS_MEMORY)
		return error_memory(err);
	out->too_wide = st != STATUS_OK;
	out->fault = widest(plan, inward);
	return STATUS_OK;
}

static enum status refuse_narrow(const struct plan *plan, size_t edge, struct error *err)
{
	char words[64];

	return error_set(err, STATUS_PLAN,
	        "the paving is narrower than what is taken from it along its edges; take less "
	        "along %s, or make the paving wider",
	        plan_edge_words(words, sizeof words, plan, edge));
}

enum status region_inset(struct arena *mem, const struct plan *plan, const struct region *from,
        const double *inward, struct region *out, struct error *err)
{
	struct inset drawn;
	enum status st = inset_draw(mem, plan, from, inward, &drawn, err);

	if (st != STATUS_OK)
		return st;
	*out = drawn.to;
	return drawn.too_wide ? refuse_narrow(plan, drawn.fault, err) : STATUS_OK;
}
