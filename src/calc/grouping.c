/* grouping.c - groups of pieces that one slab yields, found from the smaller ones.
 *
 * A group can only do where each of its parts does, so threes are made of pairs and fours of
 * threes; and its pieces must be turned so that every two of them get along. A group is placed
 * by trying, with its pieces in every order. Where that fails the group is out if all its pieces
 * are rectangles that do not slide, for then the places tried are all there are; or if rectangles
 * that slide cannot even be set apart by less than the kerf (see may_slant). Skew pieces might
 * still find a place between, and pieces that slide past notches; such a pair or group is kept as
 * one that may do, for the bound. */
#include "grouping.h"

#include <math.h>
#include <string.h>

enum { TRIES = 600, MOST_GROUPINGS = 40000 };

static size_t multiplicity(const struct cover_pattern *p, int class)
{
	size_t n = 0;

	for (int i = 0; i < p->count; i++)
		n += p->item[i] == class;
	return n;
}

/* Whether there are as many pieces, and their areas and corners go on a slab. */
static bool may_do(const struct batch *b, const struct cover_pattern *p)
{
	double area = 0;
	int corners = 0;

	for (int i = 0; i < p->count; i++) {
		const struct class *c = &b->classes[p->item[i]];

		if (c->count < multiplicity(p, p->item[i]))
			return false;
		area += c->shape.area;
		corners += c->shape.corners;
	}
	return corners <= 4 && stock_holds(&b->stock, area);
}

static bool is_rectangle(const struct shape *s)
{
	const struct box *b = &s->pose[0].box;

	return s->pose[0].n == 4 && s->convex &&
	       fabs((b->x1 - b->x0) * (b->y1 - b->y0) - s->area) < 1;
}

static bool all_rectangles(const struct batch *b, const struct cover_pattern *p)
{
	for (int i = 0; i < p->count; i++)
		if (!is_rectangle(&b->classes[p->item[i]].shape))
			return false;
	return true;
}

/* The n-th order of a few things: order[i] is which comes i-th. False when there is no n-th. */
static bool nth_order(int n, int count, int *order)
{
	int left[SOURCE_PIECES], many = 1;

	for (int i = 0; i < count; i++) {
		left[i] = i;
		many *= i + 1;
	}
	if (n >= many)
		return false;
	for (int i = 0; i < count; i++) {
		int at;

		many /= count - i;
		at = n / many;
		n %= many;
		order[i] = left[at];
		memmove(&left[at], &left[at + 1], (size_t)(count - i - at - 1) * sizeof *left);
	}
	return true;
}

static bool any_slides(const struct batch *b, const struct cover_pattern *p)
{
	for (int i = 0; i < p->count; i++) {
		const struct pose *pose = &b->classes[p->item[i]].shape.pose[0];

		if (pose->slides_x || pose->slides_y)
			return true;
	}
	return false;
}

/* The shapes of the n-th order of a group; false when there is no n-th. To pieces that do not slide
 * the order is nothing. */
static bool nth_shapes(const struct batch *b, const struct cover_pattern *p, int n, int *order,
        const struct shape **shapes)
{
	if ((n && !any_slides(b, p)) || !nth_order(n, p->count, order))
		return false;
	for (int i = 0; i < p->count; i++)
		shapes[i] = &b->classes[p->item[order[i]]].shape;
	return true;
}

bool grouping_place(const struct batch *batch, const struct cover_pattern *classes,
        struct cut_place *places, int *tries)
{
	const struct shape *shapes[SOURCE_PIECES];
	int order[SOURCE_PIECES];

	for (int n = 0; *tries > 0 && nth_shapes(batch, classes, n, order, shapes); n++) {
		struct cut_place found[SOURCE_PIECES];

		if (classes->count == 1) {
			places[0] = shape_home(shapes[0]);
			return true;
		}
		if (classes->count == 2
		                ? shapes_fit(
		                          &batch->stock, shapes[0], shapes[1], &found[0], &found[1])
		                : group_fits(&batch->stock, shapes, classes->count, found, tries)) {
			for (int i = 0; i < classes->count; i++)
				places[order[i]] = found[i];
			return true;
		}
		if (classes->count == 2)
			return false;
	}
	return false;
}

/* Whether rectangles that slide, and found no place, might still find one, parted by slanted cuts.
 * There every two lie at least the kerf apart, and so the kerf over root 2 in one direction; so
 * parted they can be pushed together, all to the low ends of their ranges, until each meets another
 * or its end. Those are places that are tried, so where none of them does, no place does. */
static bool may_slant(const struct batch *b, const struct cover_pattern *p, int *tries)
{
	const struct shape *shapes[SOURCE_PIECES];
	struct stock loose = b->stock;
	int order[SOURCE_PIECES];

	loose.kerf /= sqrt(2);
	for (int n = 0; nth_shapes(b, p, n, order, shapes); n++)
		if (*tries <= 0 || group_lies_apart(&loose, shapes, p->count, tries))
			return true;
	return *tries <= 0;
}

static enum status add(
        struct groupings *g, const struct cover_pattern *p, bool sure, struct error *err)
{
	struct grouping *items = arena_grow(g->mem, g->items, g->count, &g->room, sizeof *items);

	if (!items)
		return error_memory(err);
	g->items = items;
	items[g->count++] = (struct grouping){ .classes = *p, .sure = sure };
	g->unsure = g->unsure || !sure;
	return STATUS_OK;
}

static int compare_classes(const struct cover_pattern *a, const struct cover_pattern *b)
{
	for (int i = 0; i < a->count; i++)
		if (a->item[i] != b->item[i])
			return a->item[i] < b->item[i] ? -1 : 1;
	return 0;
}

/* The group of those classes among the items from `lo` up to `hi`, which are in order. */
static struct grouping *find(
        struct groupings *g, size_t lo, size_t hi, const struct cover_pattern *p)
{
	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;
		int c = compare_classes(&g->items[mid].classes, p);

		if (!c)
			return &g->items[mid];
		if (c < 0)
			lo = mid + 1;
		else
			hi = mid;
	}
	return NULL;
}

/* The group without its i-th class. */
static struct grouping *part_without(struct groupings *g, const struct cover_pattern *p, int i)
{
	struct cover_pattern part = { .count = p->count - 1 };

	for (int k = 0, at = 0; k < p->count; k++)
		if (k != i)
			part.item[at++] = p->item[k];
	return p->count == 3 ? find(g, 0, g->pairs, &part) : find(g, g->pairs, g->triples, &part);
}

/* Whether the pieces from the n-th on can be turned so that every two get along, those before as
 * they are. The whole slab may be turned, so the first keeps its own turn. */
static bool turns_agree(const struct groupings *g, const struct cover_pattern *p, int n, int *pose)
{
	size_t classes = g->batch->class_count;

	if (n == p->count)
		return true;
	for (pose[n] = 0; pose[n] < (n ? MOST_POSES : 1); pose[n]++) {
		bool agree = true;

		for (int i = 0; i < n && agree; i++)
			agree = g->turns[(size_t)p->item[i] * classes + (size_t)p->item[n]] >>
			                (MOST_POSES * pose[i] + pose[n]) &
			        1;
		if (agree && turns_agree(g, p, n + 1, pose))
			return true;
	}
	return false;
}

/* Whether a group for which no place was found is sure to have none. */
static bool is_out(const struct batch *b, const struct cover_pattern *p, int64_t *looks)
{
	int tries = TRIES;
	bool out;

	if (!all_rectangles(b, p))
		return false;
	if (!any_slides(b, p))
		return true;
	out = !may_slant(b, p, &tries);
	*looks -= TRIES - tries;
	return out;
}

/* Tries a group of three or four whose parts may all do. */
static enum status try_group(
        struct groupings *g, const struct cover_pattern *p, int64_t *looks, struct error *err)
{
	struct cut_place places[SOURCE_PIECES];
	int tries = TRIES, pose[SOURCE_PIECES];
	bool sure;

	--*looks;
	if (!may_do(g->batch, p))
		return STATUS_OK;
	for (int i = 0; i < p->count; i++)
		if (!part_without(g, p, i))
			return STATUS_OK;
	if (!turns_agree(g, p, 0, pose))
		return STATUS_OK;
	sure = grouping_place(g->batch, p, places, &tries);
	*looks -= TRIES - tries;
	if (!sure && tries > 0 && is_out(g->batch, p, looks))
		return STATUS_OK;
	for (int i = 0; sure && i < p->count; i++) {
		struct grouping *part = part_without(g, p, i);

		part->sure = part->part = true;
	}
	return add(g, p, sure, err);
}

/* In which turns two classes may get along; 0 where they do not fit, and that is sure. */
static uint16_t turns_of(const struct batch *p, size_t a, size_t b)
{
	const struct shape *s = &p->classes[a].shape, *t = &p->classes[b].shape;

	if (!misfit_is_sure(&p->stock, s, t))
		return UINT16_MAX;
	return classes_fit(p, a, b) ? (uint16_t)poses_that_fit(&p->stock, s, t) : 0;
}

static enum status find_pairs(struct groupings *g, int64_t *looks, struct error *err)
{
	size_t n = g->batch->class_count;
	enum status st = STATUS_OK;

	g->turns = arena_alloc(g->mem, n * n, sizeof *g->turns);
	if (!g->turns)
		return error_memory(err);
	for (size_t a = 0; a < n; a++)
		for (size_t b = 0; b < n; b++)
			g->turns[a * n + b] = turns_of(g->batch, a, b);
	for (size_t a = 0; a < n; a++)
		for (size_t b = a; b < n && st == STATUS_OK; b++) {
			struct cover_pattern p = { .item = { (int)a, (int)b }, .count = 2 };

			if (g->turns[a * n + b] && may_do(g->batch, &p))
				st = add(g, &p, classes_fit(g->batch, a, b), err);
		}
	*looks -= (int64_t)(n * n);
	g->pairs = g->triples = g->count;
	return st;
}

/* One three: pair a with a third class d. Pairs are in order, so threes come in order too. */
static enum status next_triple(struct groupings *g, int64_t *looks, struct error *err)
{
	const struct cover_pattern *pair = &g->items[g->a].classes;
	struct cover_pattern p = { .item = { pair->item[0], pair->item[1], (int)g->b },
		.count = 3 };

	if (++g->b >= g->batch->class_count && ++g->a < g->pairs)
		g->b = (size_t)g->items[g->a].classes.item[1];
	return try_group(g, &p, looks, err);
}

static enum status next_four(struct groupings *g, int64_t *looks, struct error *err)
{
	const struct cover_pattern *three = &g->items[g->d].classes;
	struct cover_pattern p = {
		.item = { three->item[0], three->item[1], three->item[2], (int)g->b }, .count = 4
	};

	if (++g->b >= g->batch->class_count && ++g->d < g->triples)
		g->b = (size_t)g->items[g->d].classes.item[2];
	return try_group(g, &p, looks, err);
}

void groupings_begin(struct arena *mem, const struct batch *batch, struct groupings *out)
{
	*out = (struct groupings){ .mem = mem, .batch = batch, .a = SIZE_MAX };
}

bool groupings_step(struct groupings *g, int64_t *looks, enum status *st, struct error *err)
{
	*st = STATUS_OK;
	while (*looks > 0 && *st == STATUS_OK) {
		if (g->a == SIZE_MAX) {
			*st = find_pairs(g, looks, err);
			g->a = 0;
			g->b = g->pairs ? (size_t)g->items[0].classes.item[1] : 0;
		} else if (g->a < g->pairs) {
			*st = next_triple(g, looks, err);
			g->triples = g->count;
			g->d = g->pairs;
			if (g->a == g->pairs && g->triples > g->pairs)
				g->b = (size_t)g->items[g->d].classes.item[2];
		} else if (g->d < g->triples) {
			*st = next_four(g, looks, err);
		} else {
			return false;
		}
		g->cut_short = g->count > MOST_GROUPINGS;
		if (g->cut_short)
			return false;
	}
	return *st == STATUS_OK;
}
