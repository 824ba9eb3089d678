/* band.c - cutting a region along a line parallel to an axis.
 *
 * A corner on the line counts as outside, as if the line had been moved inwards by less than any
 * distance: so edges that lie on the line make no trouble, and parts that hang together at a point
 * come apart. Where edges cross the line they are sorted along it (by where they cross, then by
 * where they go next), and neighbours are joined in pairs: between the two of a pair the region
 * lies on the line. */
#include "slabwright/geom.h"

#include <math.h>
#include <stdlib.h>

/* A hundredth of a micrometre: far above the rounding of a double within 1 km, far below a blade.
 */
static const double ON_LINE_UM = 0.01;

/* A stretch of a ring inside, from where it enters over the line to where it leaves. */
struct chain {
	size_t ring, first, count; /* corners inside: ring.p[first], ... round the ring */
};

struct crossing {
	double t, slope; /* place along the line, and drift inwards, for sorting */
	struct point p;
	int edge; /* of the edge that crosses */
	size_t chain;
	bool enters;
};

struct cut {
	enum axis axis;
	double value;
	bool above; /* keep what lies above the value, else below */
};

/* Distance from the line, inwards. What the rounding of a turn leaves of nothing is nothing: so an
 * edge that lies on the line but for it makes no whisker, and a corner that touches the line parts
 * there. */
static double across(const struct cut *c, struct point p)
{
	double d = c->axis == AXIS_X ? p.x - c->value : p.y - c->value;

	if (fabs(d) < ON_LINE_UM)
		return 0;
	return c->above ? d : -d;
}

static double along(const struct cut *c, struct point p)
{
	return c->axis == AXIS_X ? p.y : p.x;
}

/* Where the edge from `out` (on or beyond the line) to `in` meets the line. */
static struct crossing meet(const struct cut *c, struct point out, struct point in, int edge)
{
	double d0 = across(c, out), d1 = across(c, in), t0 = along(c, out), t1 = along(c, in);
	struct crossing x = { .slope = (t1 - t0) / (d1 - d0), .edge = edge };

	x.t = d0 == 0 ? t0 : t0 + (t1 - t0) * (d0 / (d0 - d1));
	x.p = c->axis == AXIS_X ? (struct point){ c->value, x.t } : (struct point){ x.t, c->value };
	return x;
}

static int by_place(const void *a, const void *b)
{
	const struct crossing *x = *(const struct crossing *const *)a,
	                      *y = *(const struct crossing *const *)b;

	if (x->t != y->t)
		return x->t < y->t ? -1 : 1;
	return x->slope < y->slope ? -1 : x->slope > y->slope;
}

/* Rounding can swap two crossings that coincide. Of each pair one must enter and one leave. */
static void mend_pairs(struct crossing **order, size_t n)
{
	for (size_t i = 0; i + 1 < n; i += 2) {
		size_t j = i + 1;

		while (j < n && order[j]->enters == order[i]->enters)
			j++;
		if (j < n && j != i + 1) {
			struct crossing *x = order[i + 1];

			order[i + 1] = order[j];
			order[j] = x;
		}
	}
}

struct work {
	struct arena *mem;
	const struct region *from;
	struct cut cut;
	struct chain *chains;
	struct crossing *ends; /* chain i enters at ends[2i] and leaves at ends[2i + 1] */
	size_t chain_count;
	struct ring *out;
	size_t out_count;
};

static size_t next_of(const struct ring *r, size_t i)
{
	return i + 1 < r->n ? i + 1 : 0;
}

/* Finds the chains of one ring; a ring wholly inside goes straight to the output. */
static void find_chains(struct work *w, size_t ring)
{
	const struct ring *r = &w->from->rings[ring];
	size_t start = r->n, inside = 0;

	for (size_t i = 0; i < r->n; i++) {
		bool in = across(&w->cut, r->p[i]) > 0;

		inside += in;
		if (!in)
			start = i;
	}
	if (inside == 0)
		return;
	if (inside == r->n) {
		w->out[w->out_count++] = *r;
		return;
	}
	for (size_t k = 0, i = start; k < r->n;) {
		size_t next = next_of(r, i), n = 0, last;
		struct crossing *end = &w->ends[2 * w->chain_count];

		if (!(across(&w->cut, r->p[next]) > 0)) {
			i = next;
			k++;
			continue;
		}
		end[0] = meet(&w->cut, r->p[i], r->p[next], r->edge ? r->edge[i] : 0);
		end[0].enters = true;
		w->chains[w->chain_count] = (struct chain){ .ring = ring, .first = next };
		for (last = next, n = 1; across(&w->cut, r->p[next_of(r, last)]) > 0; n++)
			last = next_of(r, last);
		w->chains[w->chain_count].count = n;
		end[1] = meet(
		        &w->cut, r->p[next_of(r, last)], r->p[last], r->edge ? r->edge[last] : 0);
		end[0].chain = end[1].chain = w->chain_count++;
		i = next_of(r, last);
		k += n + 1;
	}
}

static bool same_point(struct point a, struct point b)
{
	return a.x == b.x && a.y == b.y;
}

/* Appends a corner and the number of the edge that leaves it, unless it stands on the one before.
 */
static void put_corner(struct ring *r, struct point p, int edge)
{
	if (r->n && same_point(r->p[r->n - 1], p)) {
		r->edge[r->n - 1] = edge;
		return;
	}
	r->p[r->n] = p;
	r->edge[r->n++] = edge;
}

static void put_chain(const struct work *w, size_t c, struct ring *to)
{
	const struct chain *chain = &w->chains[c];
	const struct ring *r = &w->from->rings[chain->ring];
	size_t i = chain->first;

	put_corner(to, w->ends[2 * c].p, w->ends[2 * c].edge);
	for (size_t k = 0; k < chain->count; k++, i = next_of(r, i))
		put_corner(to, r->p[i], r->edge ? r->edge[i] : 0);
	put_corner(to, w->ends[2 * c + 1].p, EDGE_OF_CUT);
}

/* Joins the chains into rings: from where one leaves along the line to where its pair enters. */
static enum status join_chains(struct work *w, struct error *err)
{
	size_t n = 2 * w->chain_count;
	struct crossing **order = arena_alloc(w->mem, n, sizeof(struct crossing *));
	size_t *next = arena_alloc(w->mem, w->chain_count, sizeof *next);
	bool *used = arena_alloc(w->mem, w->chain_count, sizeof *used);

	if (!order || !next || !used)
		return error_memory(err);
	for (size_t i = 0; i < n; i++)
		order[i] = &w->ends[i];
	if (n == 2) {
		next[0] = 0;
	} else {
		qsort(order, n, sizeof(struct crossing *), by_place);
		mend_pairs(order, n);
		for (size_t i = 0; i + 1 < n; i += 2) {
			const struct crossing *a = order[i], *b = order[i + 1];

			if (a->enters)
				next[b->chain] = a->chain;
			else
				next[a->chain] = b->chain;
		}
	}
	for (size_t c = 0; c < w->chain_count; c++) {
		struct ring *r = &w->out[w->out_count];
		size_t room = 0;

		if (used[c])
			continue;
		for (size_t i = c, first = 1; first || i != c; i = next[i], first = 0)
			room += w->chains[i].count + 2;
		*r = (struct ring){ .p = arena_alloc(w->mem, room, sizeof *r->p),
			.edge = arena_alloc(w->mem, room, sizeof *r->edge) };
		if (!r->p || !r->edge)
			return error_memory(err);
		for (size_t i = c; !used[i]; i = next[i]) {
			used[i] = true;
			put_chain(w, i, r);
		}
		if (r->n > 1 && same_point(r->p[0], r->p[r->n - 1]))
			r->n--;
		if (r->n > 2)
			w->out_count++;
	}
	return STATUS_OK;
}

static enum status cut_region(struct arena *mem, const struct region *from, struct cut cut,
        struct region *out, struct error *err)
{
	struct work w = { .mem = mem, .from = from, .cut = cut };
	size_t corners = 0;
	enum status st;

	for (size_t i = 0; i < from->count; i++)
		corners += from->rings[i].n;
	w.chains = arena_alloc(mem, corners / 2 + 1, sizeof *w.chains);
	w.ends = arena_alloc(mem, 2 * (corners / 2 + 1), sizeof *w.ends);
	w.out = arena_alloc(mem, from->count + corners / 2 + 1, sizeof *w.out);
	if (!w.chains || !w.ends || !w.out)
		return error_memory(err);
	for (size_t i = 0; i < from->count; i++)
		find_chains(&w, i);
	if (w.chain_count && (st = join_chains(&w, err)) != STATUS_OK)
		return st;
	*out = (struct region){ w.out, w.out_count };
	return STATUS_OK;
}

enum status region_band(struct arena *mem, const struct region *from, enum axis axis, double lo,
        double hi, struct region *out, struct error *err)
{
	struct region half;
	enum status st = cut_region(mem, from, (struct cut){ axis, lo, true }, &half, err);

	if (st != STATUS_OK)
		return st;
	return cut_region(mem, &half, (struct cut){ axis, hi, false }, out, err);
}
