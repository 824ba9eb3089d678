/* split.c - a region split by a ring.
 *
 * The edges of both are cut where they meet (snap.h) and what coincides is laid together into
 * seams. How often region and ring wind about the two sides of a seam tells which parts it bounds;
 * the seams that bound a part, paving to their left, are followed from spot to spot, each into the
 * next one of the same paving, and every loop closed on the way is a ring. */
#include "snap.h"

#include <assert.h>
#include <stdlib.h>

enum { REGION, RING, OWNERS };

/* All that runs between two spots; a stands before b in order. */
struct seam {
	struct spot a, b;
	int along[OWNERS]; /* edges from a to b less those from b to a */
	int edge; /* number for what is made of it */
};

/* Directed, with the paving to its left. */
struct arrow {
	struct spot from, to;
	int edge;
	size_t at; /* the first arrow that leaves where this one does */
	bool used;
	size_t step; /* of the first one: on the path, how many arrows lie before this spot, plus
	                one; 0 not on it */
};

struct arrows {
	struct arrow *items;
	size_t count;
};

static int by_ends(const void *a, const void *b)
{
	const struct stretch *s = a, *t = b;
	int order = spot_order(s->a, t->a);

	return order ? order : spot_order(s->b, t->b);
}

/* An edge of the region that runs as the seam does gives its number; the ring's have the label, all
 * one. */
static void add_to_seam(struct seam *seam, const struct stretch *s)
{
	seam->along[s->of] += s->way;
	if (s->of == REGION && s->way * seam->along[REGION] > 0)
		seam->edge = s->edge;
}

/* Lays together what coincides. */
static enum status make_seams(struct arena *mem, struct stretches *s, int label, struct seam **out,
        size_t *count, struct error *err)
{
	struct seam *seams = arena_alloc(mem, s->count, sizeof *seams);

	if (!seams)
		return error_memory(err);
	*out = seams;
	*count = 0;
	if (s->count)
		qsort(s->items, s->count, sizeof *s->items, by_ends);
	for (size_t i = 0, end = 0; i < s->count; i = end) {
		struct seam *seam = &seams[(*count)++];

		seam->a = s->items[i].a;
		seam->b = s->items[i].b;
		while (end < s->count && by_ends(&s->items[i], &s->items[end]) == 0)
			add_to_seam(seam, &s->items[end++]);
		if (!seam->along[REGION])
			seam->edge = label;
	}
	return STATUS_OK;
}

/* Whether a seam runs above the middle of another, which is given doubled. */
static bool runs_above(const struct seam *s, struct spot middle)
{
	struct spot a = { 2 * s->a.x, 2 * s->a.y }, b = { 2 * s->b.x, 2 * s->b.y };

	if (a.x > middle.x || b.x <= middle.x)
		return false;
	if ((a.y > middle.y) == (b.y > middle.y) && a.y != middle.y && b.y != middle.y)
		return a.y > middle.y;
	return spot_turn(a, b, middle) < 0;
}

/* How often region and ring wind about the left side of a seam. Counted are the seams above a point
 * straight above its middle or, where it stands upright, to the right of that. */
static void wind(const struct seam *seams, size_t count, const struct seam *of, int left[OWNERS])
{
	struct spot middle = { of->a.x + of->b.x, of->a.y + of->b.y };
	bool upright = of->a.x == of->b.x;

	left[REGION] = upright ? of->along[REGION] : 0;
	left[RING] = upright ? of->along[RING] : 0;
	for (size_t i = 0; i < count && 2 * seams[i].a.x <= middle.x; i++)
		if (runs_above(&seams[i], middle)) {
			left[REGION] -= seams[i].along[REGION];
			left[RING] -= seams[i].along[RING];
		}
}

static bool in_part(const int winds[OWNERS], bool inside)
{
	return winds[REGION] > 0 && (winds[RING] > 0) == inside;
}

/* Appends the seam to what bounds a part, if it does. */
static void add_arrow(struct arrows *to, const struct seam *s, const int left[OWNERS], bool inside)
{
	int right[OWNERS] = { left[REGION] - s->along[REGION], left[RING] - s->along[RING] };
	bool l = in_part(left, inside), r = in_part(right, inside);

	if (l != r)
		to->items[to->count++] = (struct arrow){
			.from = l ? s->a : s->b, .to = l ? s->b : s->a, .edge = s->edge
		};
}

static int by_from(const void *a, const void *b)
{
	const struct arrow *s = a, *t = b;
	int order = spot_order(s->from, t->from);

	return order ? order : spot_order(s->to, t->to);
}

/* The first of the arrows, which are in order, that leaves a spot. */
static size_t first_from(const struct arrows *a, struct spot p)
{
	size_t from = 0, to = a->count;

	while (from < to) {
		size_t middle = from + (to - from) / 2;

		if (spot_order(a->items[middle].from, p) < 0)
			from = middle + 1;
		else
			to = middle;
	}
	assert(from < a->count && spot_order(a->items[from].from, p) == 0);
	return from;
}

/* Whether, turning clockwise from the way back at a spot, p comes before q. */
static bool sooner(struct spot back, struct spot at, struct spot p, struct spot q)
{
	bool p_half = spot_turn(at, back, p) < 0, q_half = spot_turn(at, back, q) < 0;

	if (p_half != q_half)
		return p_half;
	return spot_turn(at, p, q) < 0;
}

/* The arrow by which the paving left of one goes on: parts that only a point joins come apart. */
static size_t next_of(const struct arrows *a, size_t i, size_t at)
{
	const struct arrow *in = &a->items[i];
	size_t best = at;

	for (size_t j = at + 1; j < a->count && a->items[j].at == at; j++)
		if (sooner(in->from, in->to, a->items[j].to, a->items[best].to))
			best = j;
	return best;
}

static bool shares_its_spot(const struct arrows *a, size_t i)
{
	size_t at = a->items[i].at;

	return at != i || (i + 1 < a->count && a->items[i + 1].at == at);
}

/* The loop of n arrows as a ring. It begins where it touches no other, if it can: so its first
 * corner tells where it lies. */
static enum status put_ring(struct arena *mem, const struct arrows *a, const size_t *loop, size_t n,
        struct region *out, struct error *err)
{
	struct ring r = { .p = arena_alloc(mem, n, sizeof *r.p),
		.n = n,
		.edge = arena_alloc(mem, n, sizeof *r.edge) };
	size_t first = 0;

	if (!r.p || !r.edge)
		return error_memory(err);
	while (first + 1 < n && shares_its_spot(a, loop[first]))
		first++;
	for (size_t i = 0; i < n; i++) {
		const struct arrow *arrow = &a->items[loop[(first + i) % n]];

		r.p[i] = (struct point){ (double)arrow->from.x, (double)arrow->from.y };
		r.edge[i] = arrow->edge;
	}
	out->rings[out->count++] = r;
	return STATUS_OK;
}

/* Follows the arrows from one until all on the way are used; what closes is taken off the path. */
static enum status follow(struct arena *mem, struct arrows *a, size_t i, size_t *path,
        struct region *out, struct error *err)
{
	size_t depth = 0;

	while (!a->items[i].used) {
		size_t at = first_from(a, a->items[i].to);

		a->items[i].used = true;
		path[depth++] = i;
		a->items[a->items[i].at].step = depth;
		if (a->items[at].step) {
			size_t start = a->items[at].step - 1;
			enum status st = put_ring(mem, a, path + start, depth - start, out, err);

			if (st != STATUS_OK)
				return st;
			while (depth > start)
				a->items[a->items[path[--depth]].at].step = 0;
		}
		i = next_of(a, i, at);
	}
	return STATUS_OK;
}

static enum status make_rings(struct arena *mem, struct arena *scratch, struct arrows *a,
        struct region *out, struct error *err)
{
	size_t *path = arena_alloc(scratch, a->count, sizeof *path);

	*out = (struct region){ arena_alloc(mem, a->count / 3 + 1, sizeof *out->rings), 0 };
	if (!path || !out->rings)
		return error_memory(err);
	if (a->count)
		qsort(a->items, a->count, sizeof *a->items, by_from);
	for (size_t i = 0; i < a->count; i++)
		a->items[i].at = i && spot_order(a->items[i - 1].from, a->items[i].from) == 0
		                         ? a->items[i - 1].at
		                         : i;
	for (size_t i = 0; i < a->count; i++) {
		enum status st = follow(mem, a, i, path, out, err);

		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static enum status split(struct arena *mem, struct arena *scratch, struct stretches *s, int label,
        struct region *inside, struct region *outside, struct error *err)
{
	struct seam *seams = NULL;
	size_t count = 0;
	struct arrows in = { 0 }, out = { 0 };
	enum status st = stretches_cut(scratch, s, err);

	if (st != STATUS_OK ||
	        (st = make_seams(scratch, s, label, &seams, &count, err)) != STATUS_OK)
		return st;
	in.items = arena_alloc(scratch, count, sizeof *in.items);
	out.items = arena_alloc(scratch, count, sizeof *out.items);
	if (!in.items || !out.items)
		return error_memory(err);
	for (size_t i = 0; i < count; i++) {
		int left[OWNERS];

		wind(seams, count, &seams[i], left);
		add_arrow(&in, &seams[i], left, true);
		add_arrow(&out, &seams[i], left, false);
	}
	if ((st = make_rings(mem, scratch, &in, inside, err)) != STATUS_OK)
		return st;
	return make_rings(mem, scratch, &out, outside, err);
}

enum status region_split(struct arena *mem, const struct region *from, const struct ring *by,
        int label, struct region *inside, struct region *outside, struct error *err)
{
	struct arena scratch = { 0 };
	struct stretches s = { 0 };
	int way = ring_polygon_area(by->p, by->n) < 0 ? -1 : 1;
	enum status st = STATUS_OK;

	for (size_t i = 0; i < from->count && st == STATUS_OK; i++)
		st = stretches_add(&scratch, &s, &from->rings[i], 1, REGION, err);
	if (st == STATUS_OK)
		st = stretches_add(&scratch, &s, by, way, RING, err);
	if (st == STATUS_OK)
		st = split(mem, &scratch, &s, label, inside, outside, err);
	arena_free(&scratch);
	return st;
}
