/* lay.c - stack and stretcher bond: courses of equal slabs.
 *
 * Course by course, the region is cut to the course's band. Every edge in the band marks the slab
 * positions it runs through; these are clipped. Between them a whole stretch of positions lies
 * inside or outside, which one point tells, and is counted by arithmetic. So the work grows with
 * the courses and the border, not with the slabs. */
#include "slabwright/lay.h"

#include "piece.h"

#include <math.h>
#include <stdlib.h>

static const int64_t MOST_POSITIONS = 100000000, MOST_PIECES = 2000000;

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
	struct slab_size size;
	double offset;
	struct piece_rule rule;
	struct piece_list list; /* of the whole run */
	struct arena work; /* emptied after each course */
	int64_t whole;
};

static double course_shift(double offset, int64_t pitch, int64_t course)
{
	double t = (double)course * offset;

	return (t - floor(t)) * (double)pitch;
}

static struct point corner_of(
        const struct slab_size *size, double offset, int64_t course, int64_t index)
{
	return (struct point){ course_shift(offset, size->pitch_x_um, course) +
		                       (double)(index * size->pitch_x_um),
		(double)(course * size->pitch_y_um) };
}

struct point slab_corner(const struct plan_laying *laying, int64_t course, int64_t index)
{
	struct slab_size size = slab_size(&laying->slab);

	return corner_of(&size, laying->bond == BOND_STACK ? 0 : laying->offset, course, index);
}

bool slab_at(const struct plan_laying *laying, struct point at, int64_t *course, int64_t *index)
{
	struct slab_size size = slab_size(&laying->slab);
	double offset = laying->bond == BOND_STACK ? 0 : laying->offset;
	struct point c;

	*course = (int64_t)floor(at.y / (double)size.pitch_y_um);
	*index = (int64_t)floor(
	        (at.x - course_shift(offset, size.pitch_x_um, *course)) / (double)size.pitch_x_um);
	c = corner_of(&size, offset, *course, *index);
	return at.x - c.x <= (double)size.length_um && at.y - c.y <= (double)size.width_um;
}

static int by_first(const void *a, const void *b)
{
	const struct span *s = a, *t = b;

	return s->first < t->first ? -1 : s->first > t->first;
}

/* The positions whose cells (slab and the joint to its right, both ends in) an edge from x0 to x1
 * touches. */
static struct span cells_touched(
        const struct layer *l, const struct course *c, double x0, double x1)
{
	double pitch = (double)l->size.pitch_x_um;
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
	size_t n = 0, kept = 0;

	for (size_t i = 0; i < c->band.count; i++)
		n += c->band.rings[i].n;
	c->spans = arena_alloc(&l->work, n, sizeof *c->spans);
	if (!c->spans)
		return error_memory(err);
	n = 0;
	for (size_t i = 0; i < c->band.count; i++) {
		const struct ring *r = &c->band.rings[i];

		for (size_t j = 0; j < r->n; j++) {
			double a = r->p[j].x, b = r->p[j + 1 < r->n ? j + 1 : 0].x;

			if (r->edge[j] != EDGE_OF_CUT)
				c->spans[n++] = cells_touched(l, c, fmin(a, b), fmax(a, b));
		}
	}
	qsort(c->spans, n, sizeof *c->spans, by_first);
	for (size_t i = 0; i < n; i++) {
		if (kept && c->spans[i].first <= c->spans[kept - 1].last + 1) {
			if (c->spans[i].last > c->spans[kept - 1].last)
				c->spans[kept - 1].last = c->spans[i].last;
		} else {
			c->spans[kept++] = c->spans[i];
		}
	}
	c->span_count = kept;
	return STATUS_OK;
}

/* Clips one position against a band (or a part of one) and files its pieces; whole ones are only
 * counted. */
static enum status lay_position(struct layer *l, const struct region *band, const struct course *c,
        int64_t index, struct error *err)
{
	double x0 = c->shift + (double)(index * l->size.pitch_x_um),
	       x1 = x0 + (double)l->size.length_um;
	size_t before = l->list.count;
	struct region part;
	enum status st = region_band(&l->work, band, AXIS_X, x0, x1, &part, err);

	if (st == STATUS_OK)
		st = pieces_from(&l->list, &l->rule, &part, (struct point){ x0, c->y0 }, c->number,
		        index, err);
	if (st != STATUS_OK)
		return st;
	if (l->list.count == before + 1 && l->list.items[before].kind == PIECE_WHOLE) {
		l->list.count = before;
		l->whole++;
	}
	if ((int64_t)l->list.count > MOST_PIECES)
		return error_set(err, STATUS_PLAN,
		        "the outline cuts more than %lld slabs; choose a larger slab",
		        (long long)MOST_PIECES);
	return STATUS_OK;
}

/* A stretch of border positions: the band is first cut down to the stretch, so that a course with
 * many stretches does not look at every edge for every slab. */
static enum status lay_span(
        struct layer *l, const struct course *c, const struct span *s, struct error *err)
{
	double pitch = (double)l->size.pitch_x_um;
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

static enum status lay_course(struct layer *l, int64_t number, struct error *err)
{
	struct course c = { .number = number,
		.shift = course_shift(l->offset, l->size.pitch_x_um, number) };
	double pitch = (double)l->size.pitch_x_um;
	enum status st;

	c.y0 = (double)(number * l->size.pitch_y_um);
	c.y1 = c.y0 + (double)l->size.width_um;
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
			l->whole += c.spans[i + 1].first - c.spans[i].last - 1;
	}
	return STATUS_OK;
}

static enum status check_bond(const struct plan_laying *laying, struct error *err)
{
	if (laying->bond == BOND_STACK || laying->bond == BOND_STRETCHER)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "%s bond cannot be laid out yet; choose stack or stretcher",
	        bond_name(laying->bond));
}

static enum status layer_init(struct layer *l, struct arena *mem, const struct region *region,
        const struct plan_laying *laying, struct error *err)
{
	enum status st = check_bond(laying, err);

	if (st != STATUS_OK)
		return st;
	*l = (struct layer){
		.region = region, .size = slab_size(&laying->slab), .rule = piece_rule_of(laying)
	};
	l->offset = laying->bond == BOND_STACK ? 0 : laying->offset;
	l->list.mem = mem;
	return STATUS_OK;
}

static void count_kinds(struct laying *out)
{
	double area = (double)out->whole * (double)out->slab.length_um * (double)out->slab.width_um;

	for (size_t i = 0; i < out->piece_count; i++) {
		enum piece_kind kind = out->pieces[i].kind;

		area += out->pieces[i].area_um2;
		out->made_up += kind == PIECE_MADE_UP;
		out->sliver += kind == PIECE_SLIVER;
		out->cut += kind == PIECE_CUT || kind == PIECE_SLIVER;
	}
	out->pieces_area_m2 = area * 1e-12;
}

enum status lay_region(struct arena *mem, const struct region *region,
        const struct plan_laying *laying, struct laying *out, struct error *err)
{
	struct box box = region_box(region);
	struct layer l;
	int64_t first, last;
	enum status st = layer_init(&l, mem, region, laying, err);

	if (st != STATUS_OK)
		return st;
	*out = (struct laying){ .slab = l.size };
	if (!region->count)
		return STATUS_OK;
	if (region_area_um2(region) / (double)l.size.pitch_x_um / (double)l.size.pitch_y_um >
	        (double)MOST_POSITIONS)
		return error_set(err, STATUS_PLAN,
		        "the outline holds more than %lld slabs; choose a larger slab or a smaller "
		        "outline",
		        (long long)MOST_POSITIONS);
	first = (int64_t)floor(box.y0 / (double)l.size.pitch_y_um) - 1;
	last = (int64_t)floor(box.y1 / (double)l.size.pitch_y_um) + 1;
	for (int64_t k = first; k <= last && st == STATUS_OK; k++) {
		st = lay_course(&l, k, err);
		arena_reset(&l.work);
	}
	arena_free(&l.work);
	out->whole = l.whole;
	out->pieces = l.list.items;
	out->piece_count = l.list.count;
	count_kinds(out);
	return st;
}

enum status lay_one(struct arena *mem, const struct region *frame_region,
        const struct plan_laying *laying, int64_t course, int64_t index, struct piece **pieces,
        size_t *count, struct error *err)
{
	struct point at = slab_corner(laying, course, index);
	struct region band, part;
	struct layer l;
	enum status st = layer_init(&l, mem, frame_region, laying, err);

	if (st != STATUS_OK)
		return st;
	st = region_band(
	        mem, frame_region, AXIS_Y, at.y, at.y + (double)l.size.width_um, &band, err);
	if (st == STATUS_OK)
		st = region_band(
		        mem, &band, AXIS_X, at.x, at.x + (double)l.size.length_um, &part, err);
	if (st == STATUS_OK)
		st = pieces_from(&l.list, &l.rule, &part, at, course, index, err);
	*pieces = l.list.items;
	*count = l.list.count;
	return st;
}

const struct piece *pieces_at(
        const struct laying *laid, int64_t course, int64_t index, size_t *count)
{
	size_t lo = 0, hi = laid->piece_count, end;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;
		const struct piece *p = &laid->pieces[mid];

		if (p->course < course || (p->course == course && p->index < index))
			lo = mid + 1;
		else
			hi = mid;
	}
	for (end = lo; end < laid->piece_count && laid->pieces[end].course == course &&
	               laid->pieces[end].index == index;)
		end++;
	*count = end - lo;
	return end > lo ? &laid->pieces[lo] : NULL;
}
