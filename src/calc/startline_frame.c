/* startline_frame.c - the field in a pattern frame, how the bond repeats, and the moves at which
 * counts change.
 *
 * Across an edge that runs along an axis, a slab whose near side lies u behind it is cut there. Its
 * piece comes to be or goes at u = 0 and at the slab's far side; it is made up, a sliver or an
 * ordinary cut as u, or the slab's side less u, passes fill and sliver width. So with the slab's
 * sides at `side` (modulo the repeat), counts change at the moves edge - side - u. */
#include "startsearch.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_PLACES = 8000, MOST_SHIFTS = 400 };
static const double ALONG_UM = 0.01; /* exact coordinates miss an axis by nothing */
static const double NEARLY_UM = 2; /* those rounded to whole um, turned, by no more */

/* Courses run along this axis. */
static enum axis course_axis(const struct pattern *p)
{
	return p->along_y ? AXIS_Y : AXIS_X;
}

static int64_t shift_of(const struct pattern *p, int64_t course)
{
	return llround(pattern_shift(p, course));
}

static int64_t rounded_ratio(int64_t a, int64_t b)
{
	return (int64_t)llround((double)a / (double)b);
}

static int64_t larger(int64_t a, int64_t b)
{
	return a > b ? a : b;
}

static int64_t modulo(int64_t a, int64_t b)
{
	return ((a % b) + b) % b;
}

int64_t startline_rotation(int64_t rotation_udeg, int64_t turn_udeg)
{
	int64_t sum = rotation_udeg + turn_udeg;

	return turn_udeg && sum > 180 * UDEG_PER_DEG ? sum - 360 * UDEG_PER_DEG : sum;
}

bool frame_turn_matters(const struct plan_laying *l)
{
	struct slab_size s = slab_size(&l->slab);

	if (l->bond == BOND_BASKETWEAVE)
		return false;
	return l->bond != BOND_STACK || s.length_um != s.width_um;
}

/* --- moves and starts --- */

void frame_start(const struct start_frame *f, struct move m, int64_t *x_um, int64_t *y_um)
{
	double c, s, x = (double)m.um[0], y = (double)m.um[1];

	turn_of(f->laying.rotation_udeg, &c, &s);
	*x_um = f->laying.start_x_um + llround(x * c - y * s);
	*y_um = f->laying.start_y_um + llround(x * s + y * c);
}

static bool within_reach(const struct start_frame *f, struct move m)
{
	int64_t x, y;

	frame_start(f, m, &x, &y);
	return llabs(x) <= COORD_LIMIT_UM && llabs(y) <= COORD_LIMIT_UM;
}

static struct move moved_by(
        const struct start_frame *f, struct move m, int64_t across, int64_t along)
{
	enum axis c = course_axis(&f->pattern), o = c == AXIS_X ? AXIS_Y : AXIS_X;

	m.um[c] += along * f->pattern.step_x_um + shift_of(&f->pattern, across);
	m.um[o] += across * f->pattern.step_y_um;
	return m;
}

struct move frame_nearest(const struct start_frame *f, struct move m)
{
	enum axis c = course_axis(&f->pattern), o = c == AXIS_X ? AXIS_Y : AXIS_X;
	struct move near;

	if (!f->pattern.count)
		return m;
	near = moved_by(f, m, -rounded_ratio(m.um[o], f->pattern.step_y_um), 0);
	near = moved_by(f, near, 0, -rounded_ratio(near.um[c], f->pattern.step_x_um));
	for (int i = 0; i < 9 && !within_reach(f, near); i++) {
		struct move other = moved_by(f, near, i / 3 - 1, i % 3 - 1);

		if (within_reach(f, other))
			return other;
	}
	return near;
}

/* --- places where counts change --- */

struct places {
	int64_t *at;
	size_t count;
};

static int by_value(const void *a, const void *b)
{
	int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

	return x < y ? -1 : x > y;
}

static size_t sorted_once(int64_t *list, size_t count)
{
	size_t kept = 0;

	qsort(list, count, sizeof *list, by_value);
	for (size_t i = 0; i < count; i++)
		if (!kept || list[i] != list[kept - 1])
			list[kept++] = list[i];
	return kept;
}

static double coordinate(struct point p, enum axis axis)
{
	return axis == AXIS_X ? p.x : p.y;
}

/* Where edges lie that cross the axis squarely. *along: all edges run along some axis, exactly. */
static enum status find_edges(struct arena *mem, const struct region *r, enum axis axis,
        int64_t **edges, size_t *count, bool *along, struct error *err)
{
	size_t n = 0;

	for (size_t i = 0; i < r->count; i++)
		n += r->rings[i].n;
	*edges = arena_alloc(mem, n + 1, sizeof **edges);
	*count = 0;
	if (!*edges)
		return error_memory(err);
	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			const struct ring *g = &r->rings[i];
			struct point a = g->p[j], b = g->p[j + 1 < g->n ? j + 1 : 0];
			double dx = fabs(a.x - b.x), dy = fabs(a.y - b.y);

			*along = *along && (dx < ALONG_UM || dy < ALONG_UM);
			if ((axis == AXIS_X ? dx : dy) <= NEARLY_UM && dx + dy > 2 * NEARLY_UM)
				(*edges)[(*count)++] = llround(coordinate(a, axis));
		}
	*count = sorted_once(*edges, *count);
	return STATUS_OK;
}

/* How far courses that meet the field can be shifted, modulo the repeat. */
static size_t find_shifts(const struct start_frame *f, int64_t shifts[MOST_SHIFTS])
{
	const struct pattern *p = &f->pattern;
	struct box box = region_box(&f->region);
	bool x = course_axis(p) == AXIS_X;
	double lo = x ? box.y0 : box.x0, hi = x ? box.y1 : box.x1;
	int64_t most = p->step_y_um, first, last;
	size_t n = 0;

	for (int i = 0; i < p->count; i++)
		most = larger(most,
		        llabs(p->parts[i].y_um) + p->parts[i].length_um + p->parts[i].width_um);
	first = (int64_t)floor((lo - (double)most) / (double)p->step_y_um) - 1;
	last = (int64_t)ceil((hi + (double)most) / (double)p->step_y_um) + 1;
	for (int64_t k = first; k <= last; k++) {
		int64_t shift = modulo(shift_of(p, k), p->step_x_um);
		size_t i = 0;

		while (i < n && shifts[i] != shift)
			i++;
		if (i == n && n == MOST_SHIFTS)
			return MOST_SHIFTS;
		if (i == n)
			shifts[n++] = shift;
	}
	return n;
}

/* The places of one edge and one row of slab sides. */
static void add_places(const struct start_frame *f, const struct pattern_part *part, int64_t length,
        int64_t from_side, int64_t repeat, struct places *out)
{
	int64_t fill = f->laying.fill_width_um,
	        sliver = sliver_width_um(&f->laying, part->length_um, part->width_um);
	const int64_t behind[] = { 0, length, fill, sliver, length - fill, length - sliver };

	for (size_t i = 0; i < sizeof behind / sizeof *behind; i++)
		out->at[out->count++] = modulo(from_side - behind[i], repeat);
}

/* *fits becomes false where there are too many. */
static enum status find_places(struct arena *mem, struct start_frame *f, enum axis axis,
        bool *along, bool *fits, struct error *err)
{
	const struct pattern *p = &f->pattern;
	bool by_course = axis == course_axis(p);
	int64_t shifts[MOST_SHIFTS] = { 0 }, repeat = f->repeat_um[axis], *edges;
	size_t edge_count, shift_count = by_course ? find_shifts(f, shifts) : 1, room;
	struct places out = { 0 };
	enum status st = find_edges(mem, &f->region, axis, &edges, &edge_count, along, err);

	if (st != STATUS_OK)
		return st;
	room = edge_count * shift_count * (size_t)p->count * 6;
	*fits = *fits && shift_count < MOST_SHIFTS && room <= 40 * MOST_PLACES;
	if (!*fits)
		return STATUS_OK;
	if (!(out.at = arena_alloc(mem, room + 1, sizeof *out.at)))
		return error_memory(err);
	for (size_t e = 0; e < edge_count; e++)
		for (size_t k = 0; k < shift_count; k++)
			for (int i = 0; i < p->count; i++) {
				const struct pattern_part *part = &p->parts[i];
				int64_t side = (by_course ? part->x_um : part->y_um) + shifts[k];

				add_places(f, part,
				        axis == AXIS_X ? part->length_um : part->width_um,
				        edges[e] - side, repeat, &out);
			}
	f->places[axis] = out.at;
	f->place_count[axis] = sorted_once(out.at, out.count);
	*fits = *fits && f->place_count[axis] <= MOST_PLACES;
	return STATUS_OK;
}

/* A bond without a repeat is drawn anew from its start, upwards and downwards: only how high in the
 * field its courses begin matters. */
static void measure_repeat(struct start_frame *f)
{
	const struct pattern *p = &f->pattern;
	enum axis c = course_axis(p);

	f->repeat_um[c] = p->step_x_um;
	f->repeat_um[c == AXIS_X ? AXIS_Y : AXIS_X] = p->step_y_um;
	for (int i = 0; i < (p->count ? p->count : p->size_count); i++) {
		struct point size = p->count ? pattern_size(p, i)
		                             : (struct point){ (double)p->sizes[i].length_um,
			                               (double)p->sizes[i].width_um };

		f->whole_um[AXIS_X] = larger(f->whole_um[AXIS_X], (int64_t)size.x);
		f->whole_um[AXIS_Y] = larger(f->whole_um[AXIS_Y], (int64_t)size.y);
	}
	if (!p->count && f->region.count) {
		struct box box = region_box(&f->region);

		f->repeat_um[AXIS_X] = 1;
		f->repeat_um[AXIS_Y] = (int64_t)(box.y1 - box.y0) + 1;
		f->from_um[AXIS_Y] = (int64_t)box.y0;
	}
}

enum status frame_make(struct start_search *s, int64_t turn_udeg, struct start_frame *f,
        bool *along, struct error *err)
{
	const struct section *field = &s->t->laid.sections[0];
	struct plan_laying *l = &f->laying;
	bool fits = true;
	enum status st;

	*f = (struct start_frame){ .turn_udeg = turn_udeg, .laying = field->laying };
	l->rotation_udeg = startline_rotation(l->rotation_udeg, turn_udeg);
	if ((st = pattern_make(l, &f->pattern, err)) != STATUS_OK ||
	        (st = region_turn(s->mem, &field->region, (double)l->start_x_um,
	                 (double)l->start_y_um, l->rotation_udeg, &f->region, err)) != STATUS_OK)
		return st;
	measure_repeat(f);
	*along = *along && f->pattern.count && l->rotation_udeg % (90 * UDEG_PER_DEG) == 0;
	if (!f->pattern.count || !f->region.count)
		return STATUS_OK;
	for (int axis = AXIS_X; axis <= AXIS_Y && st == STATUS_OK; axis++)
		st = find_places(s->mem, f, (enum axis)axis, along, &fits, err);
	*along = *along && fits;
	return st;
}
