/* lay.c - laying a bond part by part, each in courses of equal slabs.
 *
 * Course by course, the region is cut to the course's band. Every edge in the band marks the slab
 * positions it runs through; these are clipped. Between them a whole stretch of positions lies
 * inside or outside, which one point tells, and is counted by arithmetic. So the work grows with
 * the courses and the border, not with the slabs. */
#include "slabwright/lay.h"

#include "obstacle.h"
#include "piece.h"
#include "random.h"

#include <math.h>
#include <stdlib.h>

static const int64_t MOST_POSITIONS = 100000000;

struct span {
	int64_t first, last; /* slab indices */
};

struct course {
	int64_t number;
	double y0, y1, shift; /* of the course; x of its slab 0 */
	struct region band;
	struct span *spans;
	size_t span_count;
};

struct layer {
	const struct region *region;
	const struct pattern *pattern;
	int part;
	double length, width,
	        step; /* of the part's slabs along and across the course; slab to slab */
	struct piece_rule rule;
	struct piece_list list; /* of the whole run */
	struct arena work; /* emptied after each course */
	struct size_count *of_size; /* the part's */
};

/* The positions whose cells (slab and the joint to its right, both ends in) an edge from x0 to x1
 * touches. */
static struct span cells_touched(
        const struct layer *l, const struct course *c, double x0, double x1)
{
	double pitch = l->step;
	struct span s = { (int64_t)floor((x0 - c->shift) / pitch),
		(int64_t)floor((x1 - c->shift) / pitch) };

	/* One more where rounding could have put the end on the wrong side of a boundary, or on it.
	 */
	if (x0 - c->shift - (double)s.first * pitch < 1)
		s.first--;
	if (x1 - c->shift - (double)s.last * pitch > pitch - 1)
		s.last++;
	return s;
}

/* Collects and merges the positions that edges run through. */
static enum status find_spans(struct layer *l, struct course *c, struct error *err)
{
	struct obstacle *obstacles;
	size_t n, kept = 0;
	enum status st = find_obstacles(&l->work, &c->band, &obstacles, &n, err);

	if (st != STATUS_OK)
		return st;
	c->spans = arena_alloc(&l->work, n, sizeof *c->spans);
	if (!c->spans)
		return error_memory(err);
	for (size_t i = 0; i < n; i++) {
		struct span s = cells_touched(l, c, obstacles[i].x0, obstacles[i].x1);

		if (kept && s.first <= c->spans[kept - 1].last + 1)
			c->spans[kept - 1].last = s.last;
		else
			c->spans[kept++] = s;
	}
	c->span_count = kept;
	return STATUS_OK;
}

/* Clips one position against a band (or a part of one) and files its pieces; whole ones are only
 * counted. */
static enum status lay_position(struct layer *l, const struct region *band, const struct course *c,
        int64_t index, struct error *err)
{
	double x0 = c->shift + (double)(index * l->pattern->step_x_um), x1 = x0 + l->length;
	struct slab_spot spot = { l->part, c->number, index };
	struct region part;
	enum status st = region_band(&l->work, band, AXIS_X, x0, x1, &part, err);

	return st == STATUS_OK ? file_pieces(&l->list, &l->rule, &part, (struct point){ x0, c->y0 },
	                                 spot, l->of_size, err)
	                       : st;
}

/* A stretch of border positions: the band is first cut down to the stretch, so that a course with
 * many stretches does not look at every edge for every slab. */
static enum status lay_span(
        struct layer *l, const struct course *c, const struct span *s, struct error *err)
{
	double pitch = l->step;
	const struct region *band = &c->band;
	struct region part;

	if (c->span_count > 1) {
		enum status st = region_band(&l->work, &c->band, AXIS_X,
		        c->shift + (double)s->first * pitch - pitch / 2,
		        c->shift + (double)(s->last + 1) * pitch + pitch / 2, &part, err);

		if (st != STATUS_OK)
			return st;
		band = &part;
	}
	for (int64_t i = s->first; i <= s->last; i++) {
		enum status st = lay_position(l, band, c, i, err);

		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static void count_whole(struct layer *l, int64_t slabs)
{
	l->of_size->whole += slabs;
	l->of_size->whole_area_um2 += (double)slabs * l->length * l->width;
}

static enum status lay_course(struct layer *l, int64_t number, struct error *err)
{
	const struct pattern_part *part = &l->pattern->parts[l->part];
	struct course c = { .number = number,
		.shift = (double)part->x_um + pattern_shift(l->pattern, number) };
	double pitch = l->step;
	enum status st;

	c.y0 = (double)(part->y_um + number * l->pattern->step_y_um);
	c.y1 = c.y0 + l->width;
	st = region_band(&l->work, l->region, AXIS_Y, c.y0, c.y1, &c.band, err);
	if (st != STATUS_OK || !c.band.count)
		return st;
	if ((st = find_spans(l, &c, err)) != STATUS_OK)
		return st;
	for (size_t i = 0; i < c.span_count; i++) {
		struct point middle = { c.shift + (double)(c.spans[i].last + 1) * pitch + pitch / 2,
			(c.y0 + c.y1) / 2 };

		if ((st = lay_span(l, &c, &c.spans[i], err)) != STATUS_OK)
			return st;
		if (i + 1 < c.span_count && region_contains(&c.band, middle))
			count_whole(l, c.spans[i + 1].first - c.spans[i].last - 1);
	}
	return STATUS_OK;
}

/* Lays all courses of one part of the pattern. */
static enum status lay_part(struct layer *l, int number, const struct plan_laying *laying,
        const struct box *box, struct error *err)
{
	const struct pattern_part *part = &l->pattern->parts[number];
	struct point size = pattern_size(l->pattern, number);
	double step_y = (double)l->pattern->step_y_um;
	int64_t first, last;
	enum status st = STATUS_OK;

	l->part = number;
	l->length = l->pattern->along_y ? size.y : size.x;
	l->width = l->pattern->along_y ? size.x : size.y;
	l->step = (double)l->pattern->step_x_um;
	l->rule = piece_rule_of(laying, part, (struct point){ l->length, l->width });
	first = (int64_t)floor((box->y0 - (double)part->y_um - l->width) / step_y) - 1;
	last = (int64_t)floor((box->y1 - (double)part->y_um) / step_y) + 1;
	for (int64_t k = first; k <= last && st == STATUS_OK; k++) {
		st = lay_course(l, k, err);
		arena_reset(&l->work);
	}
	return st;
}

/* x and y changed over; rings turned round so that the paving stays to their left. */
static enum status change_over(
        struct arena *mem, const struct region *from, struct region *out, struct error *err)
{
	struct ring *rings = arena_alloc(mem, from->count, sizeof *rings);

	if (!rings)
		return error_memory(err);
	for (size_t i = 0; i < from->count; i++) {
		const struct ring *r = &from->rings[i];

		rings[i] = (struct ring){ .p = arena_alloc(mem, r->n, sizeof *r->p),
			.edge = arena_alloc(mem, r->n, sizeof *r->edge),
			.n = r->n };
		if (!rings[i].p || !rings[i].edge)
			return error_memory(err);
		for (size_t j = 0; j < r->n; j++)
			rings[i].p[j] =
			        (struct point){ r->p[r->n - 1 - j].y, r->p[r->n - 1 - j].x };
	}
	*out = (struct region){ rings, from->count };
	return STATUS_OK;
}

/* A piece laid with x and y changed over, brought back. */
static enum status change_piece_back(struct arena *mem, struct piece *p, struct error *err)
{
	unsigned s = p->sides;
	enum status st = change_over(mem, &p->shape, &p->shape, err);

	p->sides = (s & SIDE_LEFT ? SIDE_BOTTOM : 0U) | (s & SIDE_BOTTOM ? SIDE_LEFT : 0U) |
	           (s & SIDE_RIGHT ? SIDE_TOP : 0U) | (s & SIDE_TOP ? SIDE_RIGHT : 0U);
	p->box = (struct box){ p->box.y0, p->box.x0, p->box.y1, p->box.x1 };
	for (size_t i = 0; i < p->shape.count && st == STATUS_OK; i++)
		start_at_lowest(&p->shape.rings[i]);
	return st;
}

void count_kinds(struct laying *out)
{
	double area = 0;

	for (size_t i = 0; i < out->piece_count; i++) {
		struct size_count *n = &out->of_size[out->pieces[i].size];
		enum piece_kind kind = out->pieces[i].kind;

		area += out->pieces[i].area_um2;
		n->made_up += kind == PIECE_MADE_UP;
		n->sliver += kind == PIECE_SLIVER;
		n->cut += kind == PIECE_CUT || kind == PIECE_SLIVER;
	}
	for (int i = 0; i < out->pattern.size_count; i++) {
		const struct size_count *n = &out->of_size[i];

		area += n->whole_area_um2;
		out->whole += n->whole;
		out->cut += n->cut;
		out->sliver += n->sliver;
		out->made_up += n->made_up;
	}
	out->pieces_area_m2 = area * 1e-12;
}

static int compare(int64_t a, int64_t b)
{
	return a < b ? -1 : a > b;
}

static int compare_spots(struct slab_spot a, struct slab_spot b)
{
	int c = compare(a.course, b.course);

	if (!c)
		c = compare(a.index, b.index);
	return c ? c : compare(a.part, b.part);
}

/* Pieces of one position follow each other by their first corner, as pieces_from leaves them. */
static int by_spot(const void *a, const void *b)
{
	const struct piece *p = a, *q = b;
	struct point c = p->shape.rings[0].p[0], d = q->shape.rings[0].p[0];
	int order = compare_spots(p->spot, q->spot);

	if (order)
		return order;
	if (c.y != d.y)
		return c.y < d.y ? -1 : 1;
	return c.x < d.x ? -1 : c.x > d.x;
}

static enum status check_size(
        const struct region *region, const struct pattern *pattern, struct error *err)
{
	double per_m2 = 0;

	for (int i = 0; i < pattern->size_count; i++)
		per_m2 += pattern->sizes[i].per_m2;
	if (region_area_um2(region) * 1e-12 * per_m2 <= (double)MOST_POSITIONS)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "the outline holds more than %lld slabs; choose a larger slab or a smaller "
	        "outline",
	        (long long)MOST_POSITIONS);
}

/* Bonds with a repeat: part by part. */
static enum status lay_parts(struct layer *l, struct arena *mem, const struct plan_laying *laying,
        struct laying *out, struct error *err)
{
	bool along_y = out->pattern.along_y;
	struct region *changed = arena_alloc(mem, 1, sizeof *changed);
	struct box box;
	enum status st;

	if (!changed)
		return error_memory(err);
	st = along_y ? change_over(mem, l->region, changed, err) : STATUS_OK;
	if (st != STATUS_OK)
		return st;
	if (along_y)
		l->region = changed;
	box = region_box(l->region);
	for (int i = 0; i < out->pattern.count && st == STATUS_OK; i++) {
		l->of_size = &out->of_size[out->pattern.parts[i].size];
		st = lay_part(l, i, laying, &box, err);
	}
	for (size_t i = 0; i < l->list.count && along_y && st == STATUS_OK; i++)
		st = change_piece_back(mem, &l->list.items[i], err);
	return st;
}

enum status lay_pattern(struct arena *mem, const struct region *region,
        const struct pattern *pattern, const struct plan_laying *laying, struct laying *out,
        struct error *err)
{
	struct layer l = { .region = region, .pattern = &out->pattern, .list.mem = mem };
	enum status st;

	*out = (struct laying){ .slab = slab_size(&laying->slab), .pattern = *pattern };
	st = check_size(region, &out->pattern, err);
	if (st != STATUS_OK || !region->count)
		return st;
	if (pattern->count)
		st = lay_parts(&l, mem, laying, out, err);
	else
		st = lay_random(&l.list, region, laying, out, err);
	arena_free(&l.work);
	if (l.list.count && (out->pattern.count != 1 || out->pattern.along_y))
		qsort(l.list.items, l.list.count, sizeof *l.list.items, by_spot);
	out->pieces = l.list.items;
	out->piece_count = l.list.count;
	count_kinds(out);
	return st;
}

enum status lay_region(struct arena *mem, const struct region *region,
        const struct plan_laying *laying, struct laying *out, struct error *err)
{
	struct pattern pattern;
	enum status st = pattern_make(laying, &pattern, err);

	return st == STATUS_OK ? lay_pattern(mem, region, &pattern, laying, out, err) : st;
}

enum status lay_one(struct arena *mem, const struct region *frame_region,
        const struct plan_laying *laying, struct slab_spot spot, struct piece **pieces,
        size_t *count, struct error *err)
{
	struct piece_list list = { .mem = mem };
	struct pattern pattern;
	struct region band, part;
	struct point at, size;
	struct piece_rule rule;
	enum status st = pattern_make(laying, &pattern, err);

	*count = 0;
	if (st != STATUS_OK)
		return st;
	at = pattern_corner(&pattern, spot);
	size = pattern_size(&pattern, spot.part);
	rule = piece_rule_of(laying, &pattern.parts[spot.part], size);
	st = region_band(mem, frame_region, AXIS_Y, at.y, at.y + size.y, &band, err);
	if (st == STATUS_OK)
		st = region_band(mem, &band, AXIS_X, at.x, at.x + size.x, &part, err);
	if (st == STATUS_OK)
		st = pieces_from(&list, &rule, &part, at, spot, err);
	*pieces = list.items;
	*count = list.count;
	return st;
}

const struct piece *pieces_at(const struct laying *laid, struct slab_spot spot, size_t *count)
{
	size_t lo = 0, hi = laid->piece_count, end;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if (compare_spots(laid->pieces[mid].spot, spot) < 0)
			lo = mid + 1;
		else
			hi = mid;
	}
	for (end = lo; end < laid->piece_count && !compare_spots(laid->pieces[end].spot, spot);)
		end++;
	*count = end - lo;
	return end > lo ? &laid->pieces[lo] : NULL;
}
