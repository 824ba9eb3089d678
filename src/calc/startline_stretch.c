/* startline_stretch.c - moves along one axis cut into stretches, each with a bound on slivers.
 *
 * Cut the field into strips from corner to corner across the other axis. In a strip the edges run
 * straight through, and the slabs they cut come again with every repeat of the bond along the
 * strip. So of the slabs that lie wholly between the strip's ends at least
 * floor((its length - longest slab) / repeat) repeats are cut alike wherever the other axis starts,
 * and their slivers are counted by laying one repeat. */
#include "startsearch.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_COURSES = 24, MOST_PAIRS = 4000000 };

/* A strip of the field: where it lies across the axis, and how many repeats it is long. */
struct strip_of_field {
	double *edges; /* pairs: from, to */
	size_t count;
	int64_t repeats;
};

struct strips {
	struct arena *mem;
	const struct start_frame *f;
	enum axis axis, other;
	int64_t repeat_um, longest_um; /* along the other axis */
	struct strip_of_field *items;
	size_t count;
};

static double coordinate(struct point p, enum axis axis)
{
	return axis == AXIS_X ? p.x : p.y;
}

static int by_value(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return x < y ? -1 : x > y;
}

/* The move along an axis alone after which the bond is the same; 0 where that is too far. */
static int64_t repeat_along(const struct pattern *p, enum axis axis)
{
	if (axis == (p->along_y ? AXIS_Y : AXIS_X))
		return p->step_x_um;
	for (int64_t k = 1; k <= MOST_COURSES; k++) {
		int64_t shift = p->by_fraction
		                        ? llround((double)k * p->offset * (double)p->step_x_um)
		                        : k * p->slant_um;

		if (shift % p->step_x_um == 0)
			return k * p->step_y_um;
	}
	return 0;
}

static size_t corner_count(const struct region *r)
{
	size_t n = 0;

	for (size_t i = 0; i < r->count; i++)
		n += r->rings[i].n;
	return n;
}

/* Where edges cross the line at `at`, sorted. */
static void cross_strip(const struct strips *s, double at, struct strip_of_field *out)
{
	const struct region *r = &s->f->region;

	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			const struct ring *g = &r->rings[i];
			struct point a = g->p[j], b = g->p[j + 1 < g->n ? j + 1 : 0];

			if ((coordinate(a, s->other) > at) != (coordinate(b, s->other) > at))
				out->edges[out->count++] = coordinate(a, s->axis);
		}
	qsort(out->edges, out->count, sizeof *out->edges, by_value);
}

static enum status find_strips(struct strips *s, struct error *err)
{
	const struct region *r = &s->f->region;
	size_t n = corner_count(r), at = 0;
	double *ends = arena_alloc(s->mem, n, sizeof *ends);

	s->items = arena_alloc(s->mem, n, sizeof *s->items);
	if (!ends || !s->items)
		return error_memory(err);
	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++)
			ends[at++] = coordinate(r->rings[i].p[j], s->other);
	qsort(ends, n, sizeof *ends, by_value);
	for (size_t i = 0; i + 1 < n; i++) {
		double room = ends[i + 1] - ends[i] - (double)s->longest_um;
		struct strip_of_field *strip = &s->items[s->count];

		if (room < (double)s->repeat_um)
			continue;
		strip->repeats = (int64_t)floor(room / (double)s->repeat_um);
		if (!(strip->edges = arena_alloc(s->mem, n, sizeof *strip->edges)))
			return error_memory(err);
		cross_strip(s, (ends[i] + ends[i + 1]) / 2, strip);
		s->count++;
	}
	return STATUS_OK;
}

/* The strip, `length` long, with the bond moved up the axis. */
static enum status strip_region(struct arena *mem, const struct strips *s,
        const struct strip_of_field *strip, int64_t move, double length, struct region *out,
        struct error *err)
{
	size_t n = strip->count / 2;

	*out = (struct region){ arena_alloc(mem, n, sizeof *out->rings), n };
	if (!out->rings)
		return error_memory(err);
	for (size_t i = 0; i < n; i++) {
		double a = strip->edges[2 * i] - (double)move,
		       b = strip->edges[2 * i + 1] - (double)move;
		struct ring *g = &out->rings[i];

		g->n = 4;
		g->p = arena_alloc(mem, 4, sizeof *g->p);
		g->edge = arena_alloc(mem, 4, sizeof *g->edge);
		if (!g->p || !g->edge)
			return error_memory(err);
		g->p[0] = (struct point){ s->axis == AXIS_X ? a : 0, s->axis == AXIS_X ? 0 : a };
		g->p[1] = s->axis == AXIS_X ? (struct point){ b, 0 } : (struct point){ length, a };
		g->p[2] = s->axis == AXIS_X ? (struct point){ b, length }
		                            : (struct point){ length, b };
		g->p[3] = s->axis == AXIS_X ? (struct point){ a, length } : (struct point){ 0, b };
	}
	return STATUS_OK;
}

static enum status strip_slivers(struct arena *work, const struct strips *s,
        const struct strip_of_field *strip, int64_t move, int64_t repeats, int64_t *slivers,
        struct error *err)
{
	struct region region;
	struct laying laid;
	enum status st =
	        strip_region(work, s, strip, move, (double)(repeats * s->repeat_um), &region, err);

	if (st == STATUS_OK)
		st = lay_pattern(work, &region, &s->f->pattern, &s->f->laying, &laid, err);
	*slivers = st == STATUS_OK ? laid.sliver : 0;
	return st;
}

/* What one repeat more adds. */
static enum status bound_stretch(
        struct start_search *search, struct stretch *stretch, struct error *err)
{
	const struct strips *s = search->strips;
	int64_t move = stretch->lo + (stretch->hi - stretch->lo) / 2, few;
	struct arena work = { 0 };
	enum status st = STATUS_OK;

	few = s->repeat_um ? (s->longest_um + s->repeat_um - 1) / s->repeat_um : 0;
	for (size_t i = 0; i < s->count && st == STATUS_OK; i++) {
		int64_t with = 0, without = 0;

		st = strip_slivers(&work, s, &s->items[i], move, few, &without, err);
		if (st == STATUS_OK)
			st = strip_slivers(&work, s, &s->items[i], move, few + 1, &with, err);
		if (with > without)
			stretch->slivers += (with - without) * s->items[i].repeats;
		search->work -= 10;
		arena_reset(&work);
	}
	arena_free(&work);
	return st;
}

/* --- stretches --- */

/* What lies between two places, with the grain left out where there is more; false for nothing. */
static bool between(int64_t lo, int64_t hi, struct stretch *out)
{
	int64_t off = hi - lo > 4 * START_GRAIN_UM ? START_GRAIN_UM : (hi - lo + 3) / 4;

	*out = (struct stretch){ lo + off, hi - off, 0 };
	return out->lo <= out->hi;
}

static int by_slivers(const void *a, const void *b)
{
	const struct stretch *s = a, *t = b;

	if (s->slivers != t->slivers)
		return s->slivers < t->slivers ? -1 : 1;
	return s->lo < t->lo ? -1 : s->lo > t->lo;
}

/* The stretches of an axis, without bounds yet, and the strips that give them. */
static enum status begin_axis(
        struct start_search *s, struct start_frame *f, enum axis axis, struct error *err)
{
	size_t n = f->place_count[axis], count = 0;
	struct stretch *list = arena_alloc(s->mem, 2 * n + 1, sizeof *list);
	struct strips *strips = arena_alloc(s->mem, 1, sizeof *strips);

	if (!list || !strips)
		return error_memory(err);
	for (size_t i = 0; i < n; i++) {
		int64_t next = i + 1 < n ? f->places[axis][i + 1]
		                         : f->places[axis][0] + f->repeat_um[axis];

		list[count++] = (struct stretch){ f->places[axis][i], f->places[axis][i], 0 };
		count += between(f->places[axis][i], next, &list[count]);
	}
	f->stretches[axis] = list;
	f->count[axis] = count;
	*strips = (struct strips){ .mem = s->mem, .f = f, .axis = axis };
	strips->other = axis == AXIS_X ? AXIS_Y : AXIS_X;
	strips->repeat_um = repeat_along(&f->pattern, strips->other);
	strips->longest_um = f->whole_um[strips->other];
	s->strips = strips;
	return strips->repeat_um > 0 ? find_strips(strips, err) : STATUS_OK;
}

bool stretches_fit(const struct start_frame *f)
{
	return 4 * f->place_count[0] * f->place_count[1] <= MOST_PAIRS;
}

enum status stretches_step(struct start_search *s, bool *ready, struct error *err)
{
	struct bounding *b = &s->bounding;
	struct start_frame *f = &s->frames[b->frame];
	enum status st = STATUS_OK;

	*ready = b->frame == s->frame_count;
	if (*ready)
		return STATUS_OK;
	if (!b->at)
		st = begin_axis(s, f, b->axis, err);
	if (st == STATUS_OK && b->at < f->count[b->axis])
		st = bound_stretch(s, &f->stretches[b->axis][b->at++], err);
	if (st != STATUS_OK || b->at < f->count[b->axis])
		return st;
	qsort(f->stretches[b->axis], f->count[b->axis], sizeof(struct stretch), by_slivers);
	b->at = 0;
	b->frame += b->axis == AXIS_Y;
	b->axis = b->axis == AXIS_Y ? AXIS_X : AXIS_Y;
	return STATUS_OK;
}

/* --- pairs --- */

void walk_begin(struct start_search *s)
{
	struct walk *w = &s->walk;

	*w = (struct walk){ .level = -1, .next = -1 };
	for (size_t i = 0; i < s->frame_count; i++) {
		const struct start_frame *f = &s->frames[i];
		int64_t least = f->count[0] && f->count[1]
		                        ? f->stretches[0][0].slivers + f->stretches[1][0].slivers
		                        : -1;

		if (least >= 0 && (w->level < 0 || least < w->level))
			w->level = least;
	}
}

/* The first of a sorted list with at least so many slivers. */
static size_t first_with(const struct stretch *list, size_t count, int64_t slivers)
{
	size_t lo = 0, hi = count;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if (list[mid].slivers < slivers)
			lo = mid + 1;
		else
			hi = mid;
	}
	return lo;
}

/* The stretches of the other axis that make up the level with this one. */
static void enter(struct walk *w, const struct start_frame *f)
{
	int64_t have = f->stretches[0][w->ix].slivers, want = w->level - have;
	const struct stretch *y = f->stretches[1];

	w->iy = first_with(y, f->count[1], want);
	w->iy_end = first_with(y, f->count[1], want + 1);
	if (w->iy_end < f->count[1]) {
		int64_t next = have + y[w->iy_end].slivers;

		if (w->next < 0 || next < w->next)
			w->next = next;
	}
	w->inside = true;
}

bool walk_next(struct start_search *s, size_t *frame, size_t *ix, size_t *iy)
{
	struct walk *w = &s->walk;

	while (w->level >= 0) {
		const struct start_frame *f = &s->frames[w->frame];

		if (w->frame == s->frame_count) {
			*w = (struct walk){ .level = w->next, .next = -1 };
			continue;
		}
		if (w->ix == f->count[0]) {
			w->frame++;
			w->ix = 0;
			continue;
		}
		if (!w->inside)
			enter(w, f);
		if (w->iy < w->iy_end) {
			*frame = w->frame;
			*ix = w->ix;
			*iy = w->iy++;
			return true;
		}
		w->inside = false;
		w->ix++;
	}
	return false;
}
