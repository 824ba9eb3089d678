/* corner.c - where the runs of border courses along a ring part from each other.
 *
 * What is taken from the paving is a band between the ring and the ring drawn in. A line from one
 * to the other at each corner parts it into runs; as long as these lines keep within the band and
 * do not cross, the runs fill it without overlap. The line goes from outer to inner corner, unless
 * a butted corner moves its outer end on along the next run's outer line (where the paving's corner
 * sticks out) or its inner end on along the next run's inner line (where it is re-entrant). Where
 * chords of an arc went the outer corner may be out of sight; then the next one that did not go
 * stands for it. */
#include "border.h"

#include <math.h>

static const double NEAR_UM = 10; /* lines that meet no farther from their ends do not cross */

const struct plan_border *border_of(const struct plan *plan, int edge)
{
	size_t ring, at;
	int64_t number;

	if (edge < 0 || !plan_edge_find(plan, (size_t)edge, &ring, &at))
		return NULL;
	number = plan->rings[ring].nodes[at].border;
	return number > 0 && (size_t)number <= plan->border_count ? &plan->borders[number - 1]
	                                                          : NULL;
}

bool corner_between(const struct ring *r, size_t begin, size_t at, size_t end)
{
	return (at + r->n - begin) % r->n <= (end + r->n - begin) % r->n;
}

static struct run make_run(
        const struct plan *plan, const struct inset_ring *r, size_t first, size_t last)
{
	const struct ring *from = r->from;
	int edge = from->edge[r->kept[first]];
	struct run run = { .edge = edge,
		.begin = r->kept[first],
		.end = ring_after(from, r->kept[last]),
		.first = first,
		.last = last,
		.border = border_of(plan, edge) };

	while (from->edge[ring_before(from, run.begin)] == edge)
		run.begin = ring_before(from, run.begin);
	while (from->edge[run.end] == edge)
		run.end = ring_after(from, run.end);
	run.depth_um = run.border ? (double)border_depth_um(run.border) : 0;
	return run;
}

static int kept_edge(const struct inset_ring *r, size_t k)
{
	return r->from->edge[r->kept[k % r->count]];
}

static void list_runs(const struct plan *plan, struct run_ring *r)
{
	const struct inset_ring *ring = r->ring;
	size_t start = 0;

	while (start + 1 < ring->count &&
	        kept_edge(ring, start) == kept_edge(ring, start + ring->count - 1))
		start++;
	for (size_t i = 0, n; i < ring->count; i += n) {
		for (n = 1; i + n < ring->count &&
		            kept_edge(ring, start + i + n) == kept_edge(ring, start + i);
		        n++)
			continue;
		r->runs[r->count++] = make_run(
		        plan, ring, (start + i) % ring->count, (start + i + n - 1) % ring->count);
	}
}

static struct spot corner_of(const struct ring *r, size_t at)
{
	return (struct spot){ r->p[at], at, false };
}

/* Whether a line may part the runs before and at `at`: within the band and clear of the others. */
static bool clear(const struct run_ring *r, size_t at, const struct corner *c)
{
	struct point a = c->outer.p, b = c->inner.p;

	if (line_crosses_ring(a, b, r->ring->from) || line_crosses_ring(a, b, &r->ring->to))
		return false;
	for (size_t i = 0; i < r->count; i++)
		if (i != at && r->corners[i].drawn &&
		        lines_cross(a, b, r->corners[i].outer.p, r->corners[i].inner.p))
			return false;
	return true;
}

static const struct run *run_before(const struct run_ring *r, size_t at)
{
	return &r->runs[at ? at - 1 : r->count - 1];
}

/* From outer to inner corner; of a stepped corner's two, to that which lies less deep. */
static void part_at_corner(struct run_ring *r, size_t at)
{
	const struct inset_ring *ring = r->ring;
	const struct run *in = run_before(r, at), *out = &r->runs[at];
	size_t last = ring_after(ring->from, ring->kept[in->last]), first = ring->kept[out->first];
	size_t corners[] = { in->end, first, last };
	struct corner *c = &r->corners[at];

	if (!in->border && !out->border)
		return;
	c->inner =
	        corner_of(&ring->to, in->depth_um <= out->depth_um ? inset_end(ring, in->last)
	                                                           : inset_begin(ring, out->first));
	if (!in->border || !out->border) {
		c->outer = corner_of(ring->from, in->border ? first : last);
	} else {
		for (int i = 0; i < 3; i++) {
			c->outer = corner_of(ring->from, corners[i]);
			if (first == last || clear(r, at, c))
				break;
		}
	}
	c->drawn = true;
}

/* Where a line first meets the edges of a ring from one corner to another; false for nowhere. */
static bool first_meeting(struct point from, struct point way, const struct ring *r, size_t begin,
        size_t end, struct spot *out)
{
	double least = INFINITY;

	for (size_t i = begin; i != end; i = ring_after(r, i)) {
		struct point a = r->p[i], b = r->p[ring_after(r, i)];
		double l = hypot(b.x - a.x, b.y - a.y);
		struct point edge = { (b.x - a.x) / l, (b.y - a.y) / l };
		double t = meeting_along(from, way, a, edge), u = meeting_along(a, edge, from, way);

		if (!(t > NEAR_UM) || !(t < least) || !(u >= 0) || !(u <= l))
			continue;
		least = t;
		*out = (struct spot){
			whole_um((struct point){ from.x + way.x * t, from.y + way.y * t }), i, true
		};
	}
	return least < INFINITY;
}

/* Where the paving's corner sticks out: on along the leaving run's outer line, from the inner
 * corner. */
static bool across_outer(const struct run_ring *r, size_t at, struct point way, struct corner *c)
{
	const struct corner *next = &r->corners[at + 1 < r->count ? at + 1 : 0];
	const struct run *out = &r->runs[at];
	size_t end = out->end;

	if (corner_between(r->ring->from, out->begin, next->outer.at, end))
		end = next->outer.at;
	c->parting = PART_ACROSS_OUTER;
	return first_meeting(c->inner.p, way, r->ring->from, out->begin, end, &c->outer);
}

/* Where it is re-entrant: on along its inner line, from the outer corner. */
static bool across_inner(const struct run_ring *r, size_t at, struct corner *c)
{
	const struct inset_ring *ring = r->ring;
	const struct run *in = run_before(r, at), *out = &r->runs[at];

	c->parting = PART_ACROSS_INNER;
	c->outer = corner_of(ring->from, in->end);
	return first_meeting(c->outer.p, ring->edges[ring_before(ring->from, in->end)].way,
	        &ring->to, inset_begin(ring, out->first), inset_end(ring, out->last), &c->inner);
}

static double apart(struct point a, struct point b)
{
	return hypot(a.x - b.x, a.y - b.y);
}

/* The run that comes in goes through, where that does not take it too far. */
static void part_butted(struct run_ring *r, size_t at)
{
	const struct inset_ring *ring = r->ring;
	const struct run *in = run_before(r, at), *out = &r->runs[at];
	struct point way = ring->edges[ring->kept[in->last]].way,
	             next = ring->edges[ring->kept[out->first]].way;
	struct corner c = r->corners[at];
	bool sticks_out = turn_between(way, next) > 0;

	if (!(sticks_out ? across_outer(r, at, way, &c) : across_inner(r, at, &c)))
		return;
	if ((sticks_out ? apart(c.outer.p, ring->from->p[in->end])
	                : apart(c.inner.p, r->corners[at].inner.p)) <=
	                FARTHEST_MEETING * fmax(in->depth_um, out->depth_um) &&
	        clear(r, at, &c))
		r->corners[at] = c;
}

/* Whether two runs are to be butted and the paving's corner turns enough for it. */
static bool is_butted(const struct run_ring *r, size_t at)
{
	const struct inset_ring *ring = r->ring;
	const struct run *in = run_before(r, at), *out = &r->runs[at];
	double turn = turn_between(
	        ring->edges[ring_before(ring->from, in->end)].way, ring->edges[out->begin].way);

	return in->border && out->border && in->border->corners == CORNER_BUTTED &&
	       inset_end(ring, in->last) == inset_begin(ring, out->first) &&
	       fabs(turn) * FARTHEST_MEETING >= 1;
}

enum status runs_find(struct arena *mem, const struct plan *plan, const struct inset_ring *ring,
        struct run_ring *out, struct error *err)
{
	*out = (struct run_ring){ .ring = ring,
		.runs = arena_alloc(mem, ring->count, sizeof *out->runs),
		.corners = arena_alloc(mem, ring->count, sizeof *out->corners) };
	if (!out->runs || !out->corners)
		return error_memory(err);
	list_runs(plan, out);
	for (size_t i = 0; i < out->count; i++)
		part_at_corner(out, i);
	for (size_t i = 0; i < out->count; i++)
		if (is_butted(out, i))
			part_butted(out, i);
	return STATUS_OK;
}
