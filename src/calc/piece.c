/* piece.c - a slab position's share of the region, taken apart into pieces.
 *
 * Anticlockwise rings are pieces, clockwise ones holes in one of them. Coordinates are moved into
 * the slab's own frame and snapped onto its sides, corners that lie on a straight line are dropped,
 * and the piece is named whole, cut, sliver or made up by its area and its bounding box. */
#include "piece.h"

#include <math.h>
#include <string.h>

/* Closer than this (um) is the same place: a thousandth of a micrometre, far above the rounding of
 * a double at 1 km and far below anything a blade can do. */
static const double SAME = 1e-3;

enum { MOST_PIECES = 2000000 };

struct piece_rule piece_rule_of(
        const struct plan_laying *laying, const struct pattern_part *part, struct point size)
{
	return (struct piece_rule){ size.x, size.y, (double)laying->fill_width_um,
		(double)sliver_width_um(laying, part->length_um, part->width_um), part->standing,
		part->size };
}

static double snap(double v, double side)
{
	if (fabs(v) < SAME)
		return 0;
	return fabs(v - side) < SAME ? side : v;
}

static bool needless(struct point a, struct point b, struct point c)
{
	double dx = c.x - a.x, dy = c.y - a.y, l = hypot(dx, dy);

	if (hypot(b.x - a.x, b.y - a.y) < SAME)
		return true;
	return l > 0 && fabs(dx * (b.y - a.y) - dy * (b.x - a.x)) < SAME * l &&
	       (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) >= 0;
}

void start_at_lowest(struct ring *r)
{
	size_t low = 0;
	struct point first;

	for (size_t i = 1; i < r->n; i++)
		if (round(r->p[i].y) < round(r->p[low].y) ||
		        (round(r->p[i].y) == round(r->p[low].y) &&
		                round(r->p[i].x) < round(r->p[low].x)))
			low = i;
	while (low--) {
		first = r->p[0];
		memmove(r->p, r->p + 1, (r->n - 1) * sizeof *r->p);
		r->p[r->n - 1] = first;
	}
}

/* Copies a ring into the slab's frame, snapped and without needless corners. */
static enum status settle_ring(struct arena *mem, const struct piece_rule *rule,
        const struct ring *from, struct point corner, struct ring *to, struct error *err)
{
	struct point *p = arena_alloc(mem, from->n, sizeof *p);
	size_t n = from->n;
	bool dropped = true;

	if (!p)
		return error_memory(err);
	for (size_t i = 0; i < n; i++)
		p[i] = (struct point){ snap(from->p[i].x - corner.x, rule->length),
			snap(from->p[i].y - corner.y, rule->width) };
	while (dropped && n > 3) {
		size_t kept = 0;

		for (size_t i = 0; i < n; i++) {
			struct point before = kept ? p[kept - 1] : p[n - 1],
			             after = i + 1 < n ? p[i + 1] : p[0];

			if (!needless(before, p[i], after) || n - i + kept <= 3)
				p[kept++] = p[i];
		}
		dropped = kept < n;
		n = kept;
	}
	*to = (struct ring){ .p = p, .n = n };
	start_at_lowest(to);
	return STATUS_OK;
}

static unsigned sides_of(const struct piece_rule *rule, const struct region *shape)
{
	unsigned sides = 0;
	const struct ring *r = &shape->rings[0];

	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[i + 1 < r->n ? i + 1 : 0];

		if (hypot(b.x - a.x, b.y - a.y) < 1)
			continue;
		if (a.x == 0 && b.x == 0)
			sides |= SIDE_LEFT;
		if (a.x == rule->length && b.x == rule->length)
			sides |= SIDE_RIGHT;
		if (a.y == 0 && b.y == 0)
			sides |= SIDE_BOTTOM;
		if (a.y == rule->width && b.y == rule->width)
			sides |= SIDE_TOP;
	}
	return sides;
}

static enum piece_kind kind_of(const struct piece_rule *rule, const struct piece *p)
{
	double least = fmin(p->box.x1 - p->box.x0, p->box.y1 - p->box.y0);

	if (p->area_um2 >= rule->length * rule->width - LEAST_PIECE_UM2)
		return PIECE_WHOLE;
	if (least < rule->fill - SAME)
		return PIECE_MADE_UP;
	return least < rule->sliver - SAME ? PIECE_SLIVER : PIECE_CUT;
}

/* The holes of `clipped` that lie in its ring `outer` are counted, and settled when `to` is not
 * NULL. */
static enum status take_holes(struct arena *mem, const struct piece_rule *rule,
        const struct region *clipped, size_t outer, struct point corner, struct ring *to,
        size_t *count, struct error *err)
{
	const struct ring *o = &clipped->rings[outer];

	*count = 0;
	for (size_t i = 0; i < clipped->count; i++) {
		const struct ring *h = &clipped->rings[i];
		enum status st;

		if (i == outer || ring_polygon_area(h->p, h->n) >= 0 ||
		        !points_contain(o->p, o->n, h->p[0]))
			continue;
		if (to && (st = settle_ring(mem, rule, h, corner, &to[*count], err)) != STATUS_OK)
			return st;
		++*count;
	}
	return STATUS_OK;
}

/* Parts of one position follow each other by their first corner, from below and the left. */
static void sort_parts(struct piece *items, size_t count)
{
	for (size_t i = 1; i < count; i++) {
		struct piece p = items[i];
		struct point c = p.shape.rings[0].p[0];
		size_t j = i;

		for (; j; j--) {
			struct point d = items[j - 1].shape.rings[0].p[0];

			if (d.y < c.y || (d.y == c.y && d.x <= c.x))
				break;
			items[j] = items[j - 1];
		}
		items[j] = p;
	}
}

enum status pieces_from(struct piece_list *list, const struct piece_rule *rule,
        const struct region *clipped, struct point corner, struct slab_spot spot, struct error *err)
{
	size_t before = list->count;

	for (size_t i = 0; i < clipped->count; i++) {
		const struct ring *r = &clipped->rings[i];
		struct piece piece = { .spot = spot,
			.standing = rule->standing,
			.size = rule->size },
		             *items;
		struct ring *rings;
		size_t holes = 0;
		enum status st;

		if (ring_polygon_area(r->p, r->n) <= LEAST_PIECE_UM2)
			continue;
		if (clipped->count > 1)
			take_holes(list->mem, rule, clipped, i, corner, NULL, &holes, err);
		rings = arena_alloc(list->mem, holes + 1, sizeof *rings);
		if (!rings)
			return error_memory(err);
		piece.shape = (struct region){ rings, holes + 1 };
		if ((st = settle_ring(list->mem, rule, r, corner, &rings[0], err)) != STATUS_OK ||
		        (holes && (st = take_holes(list->mem, rule, clipped, i, corner, rings + 1,
		                           &holes, err)) != STATUS_OK))
			return st;
		piece.area_um2 = region_area_um2(&piece.shape);
		if (piece.area_um2 <= LEAST_PIECE_UM2)
			continue;
		piece.box = points_box(rings[0].p, rings[0].n);
		piece.sides = sides_of(rule, &piece.shape);
		piece.kind = kind_of(rule, &piece);
		items = arena_grow(
		        list->mem, list->items, list->count, &list->capacity, sizeof *items);
		if (!items)
			return error_memory(err);
		list->items = items;
		items[list->count++] = piece;
	}
	if (list->count > before + 1)
		sort_parts(list->items + before, list->count - before);
	return STATUS_OK;
}

enum status file_pieces(struct piece_list *list, const struct piece_rule *rule,
        const struct region *clipped, struct point corner, struct slab_spot spot,
        struct size_count *of_size, struct error *err)
{
	size_t before = list->count;
	enum status st = pieces_from(list, rule, clipped, corner, spot, err);

	if (st == STATUS_OK && list->count == before + 1 &&
	        list->items[before].kind == PIECE_WHOLE) {
		list->count = before;
		of_size->whole_area_um2 += list->items[before].area_um2;
		of_size->whole++;
	}
	if (st == STATUS_OK && list->count > MOST_PIECES)
		return error_set(err, STATUS_PLAN,
		        "the outline cuts more than %d slabs; choose a larger slab", MOST_PIECES);
	return st;
}
