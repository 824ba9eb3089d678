/* random.c - coursed random bond: courses of different heights, filled with slabs of different
 * lengths.
 *
 * Courses go up from y = 0 to the top of the paving, then down from there to its foot. For each,
 * the height that the mix is farthest behind with is taken, and along it slab by slab the size that
 * is farthest behind, both with a little chance, but never so that an upright joint comes within
 * the lap of one in the course before. What is used up is counted as it is laid. The same seed
 * gives the same courses. */
#include "random.h"

#include "obstacle.h"

#include <math.h>
#include <stdlib.h>

enum { TRIES = 40 };
static const int64_t LEAST_LAP_UM = 40000;

struct drawing {
	struct piece_list *list;
	const struct region *region;
	const struct plan_laying *laying;
	struct laying *out;
	struct arena work;
	struct box box;
	uint64_t state;
	int64_t lap_um, longest_um, joint_um;
	double shares, area; /* of the whole mix: sum of shares, and of share times size */
	double drawn[MIX_SIZES]; /* slabs of each size laid so far that meet the paving */
	double drawn_all, drawn_area; /* and of all sizes */
	size_t course_room;
};

static double chance(struct drawing *d)
{
	uint64_t z = d->state += UINT64_C(0x9E3779B97F4A7C15);

	z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
	z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
	return (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

static const struct mix_size *size_of(const struct drawing *d, size_t i)
{
	return &d->laying->mix.sizes[i];
}

static double cell_area(const struct mix_size *s)
{
	return (double)s->length_um * (double)s->width_um;
}

/* The course height that the mix is farthest behind with, by area. */
static int64_t choose_height(struct drawing *d)
{
	const struct plan_mix *m = &d->laying->mix;
	double best = -INFINITY;
	int64_t height = 0;

	for (size_t i = 0; i < m->count; i++) {
		double behind = 0,
		       course = (d->box.x1 - d->box.x0) * (double)size_of(d, i)->width_um;

		for (size_t j = 0; j < m->count; j++)
			if (size_of(d, j)->width_um == size_of(d, i)->width_um)
				behind += (double)size_of(d, j)->share / d->area *
				                  (d->drawn_area + course) *
				                  cell_area(size_of(d, j)) -
				          d->drawn[j] * cell_area(size_of(d, j));
		behind = behind / course + chance(d) * 0.5;
		if (behind > best) {
			best = behind;
			height = size_of(d, i)->width_um;
		}
	}
	return height;
}

/* Whether an upright joint at x keeps the lap from those of the neighbouring course. Its joints are
 * those between its slabs: x_um[1] to x_um[count - 1]. */
static bool clear_of(const struct drawing *d, const struct random_course *below, int64_t x)
{
	size_t lo = 1, hi;

	if (!below)
		return true;
	hi = below->count;
	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if (below->x_um[mid] < x - d->lap_um)
			lo = mid + 1;
		else
			hi = mid;
	}
	return lo >= below->count || below->x_um[lo] > x + d->lap_um;
}

/* The size for the next slab of a course; MIX_SIZES where every one would line up a joint. `ahead`
 * is what this course has drawn already. */
static size_t choose_size(struct drawing *d, const struct random_course *below, int64_t height,
        int64_t x, const double *ahead, double ahead_all)
{
	double best = -INFINITY;
	size_t chosen = MIX_SIZES;

	for (size_t i = 0; i < d->laying->mix.count; i++) {
		const struct mix_size *s = size_of(d, i);
		double behind;

		if (s->width_um != height)
			continue;
		behind = (double)s->share / d->shares * (d->drawn_all + ahead_all + 1) -
		         d->drawn[i] - ahead[i] + chance(d) * 0.6;
		if (behind > best && clear_of(d, below, x + s->length_um)) {
			best = behind;
			chosen = i;
		}
	}
	return chosen;
}

/* Fills the course from left to right over the box. False where it came to a stop. */
static bool fill_course(
        struct drawing *d, const struct random_course *below, struct random_course *c, size_t room)
{
	double ahead[MIX_SIZES] = { 0 }, ahead_all = 0;
	int64_t x = (int64_t)floor(d->box.x0) - (int64_t)(chance(d) * (double)d->longest_um);

	c->count = 0;
	while ((double)x < d->box.x1 && c->count < room) {
		size_t size = choose_size(d, below, c->width_um + d->joint_um, x, ahead, ahead_all);

		if (size == MIX_SIZES)
			return false;
		c->x_um[c->count] = x;
		c->size[c->count++] = (int)size;
		x += size_of(d, size)->length_um;
		if ((double)x > d->box.x0) {
			ahead[size]++;
			ahead_all++;
		}
	}
	return true;
}

static enum status draw_course(struct drawing *d, const struct random_course *below,
        struct random_course *c, struct error *err)
{
	int64_t least = d->longest_um;
	size_t room;

	for (size_t i = 0; i < d->laying->mix.count; i++)
		if (size_of(d, i)->length_um < least)
			least = size_of(d, i)->length_um;
	room = (size_t)((d->box.x1 - d->box.x0 + 2 * (double)d->longest_um) / (double)least) + 2;
	c->x_um = arena_alloc(d->list->mem, room, sizeof *c->x_um);
	c->size = arena_alloc(d->list->mem, room, sizeof *c->size);
	if (!c->x_um || !c->size)
		return error_memory(err);
	for (int i = 0; i < TRIES; i++)
		if (fill_course(d, below, c, room))
			return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "the size mix cannot fill course %lld, %.0f mm high, without lining up a joint "
	        "with the course before; "
	        "add a size of another length and that height",
	        (long long)c->number, (double)(c->width_um + d->joint_um) / 1000);
}

/* A course being laid: the band, and the obstacles, of which those up to `at` lie behind. */
struct progress {
	struct region band;
	struct obstacle *obstacles;
	size_t count, at;
	bool known, inside; /* whether it is known what lies before the obstacle `at`, and what */
};

/* Whether an edge comes within a micrometre of the slab. Where none does, p->inside tells of all of
 * it. */
static bool edges_near(struct progress *p, double x0, double x1, double y)
{
	size_t was = p->at;

	while (p->at < p->count && p->obstacles[p->at].x1 < x0 - 1)
		p->at++;
	if (p->at < p->count && p->obstacles[p->at].x0 <= x1 + 1) {
		p->known = false;
		return true;
	}
	if (p->at != was || !p->known)
		p->inside = region_contains(&p->band, (struct point){ (x0 + x1) / 2, y });
	p->known = true;
	return false;
}

static enum status lay_slab(struct drawing *d, struct progress *p, const struct random_course *c,
        size_t i, struct error *err)
{
	const struct pattern_part *part = &d->out->pattern.parts[c->size[i]];
	struct point corner = { (double)c->x_um[i], (double)c->y_um };
	struct piece_rule rule = piece_rule_of(
	        d->laying, part, (struct point){ (double)part->length_um, (double)part->width_um });
	struct slab_spot spot = { c->size[i], c->number, (int64_t)i };
	struct size_count *n = &d->out->of_size[part->size];
	int64_t before = n->whole;
	size_t pieces = d->list->count;
	struct region clipped;
	enum status st = STATUS_OK;

	if (edges_near(p, corner.x, corner.x + rule.length, corner.y + rule.width / 2)) {
		st = region_band(&d->work, &p->band, AXIS_X, corner.x, corner.x + rule.length,
		        &clipped, err);
		if (st == STATUS_OK && clipped.count)
			st = file_pieces(d->list, &rule, &clipped, corner, spot, n, err);
	} else {
		n->whole += p->inside;
		n->whole_area_um2 += p->inside ? rule.length * rule.width : 0;
	}
	if (n->whole > before || d->list->count > pieces) {
		d->drawn[c->size[i]]++;
		d->drawn_all++;
		d->drawn_area += cell_area(size_of(d, (size_t)c->size[i]));
	}
	return st;
}

static enum status lay_course(struct drawing *d, const struct random_course *below, int64_t number,
        int64_t y, int64_t height, struct error *err)
{
	struct random_course c = { .number = number, .y_um = y, .width_um = height - d->joint_um };
	struct random_course *all;
	struct progress p = { 0 };
	enum status st = draw_course(d, below, &c, err);

	if (st == STATUS_OK)
		st = region_band(&d->work, d->region, AXIS_Y, (double)y, (double)(y + c.width_um),
		        &p.band, err);
	if (st == STATUS_OK)
		st = find_obstacles(&d->work, &p.band, &p.obstacles, &p.count, err);
	for (size_t i = 0; i < c.count && st == STATUS_OK; i++)
		st = lay_slab(d, &p, &c, i, err);
	arena_reset(&d->work);
	all = arena_grow(
	        d->list->mem, d->out->courses, d->out->course_count, &d->course_room, sizeof *all);
	if (!all)
		return error_memory(err);
	d->out->courses = all;
	all[d->out->course_count++] = c;
	return st;
}

static int by_number(const void *a, const void *b)
{
	const struct random_course *c = a, *e = b;

	return c->number < e->number ? -1 : c->number > e->number;
}

/* The course laid last, for the joints of the next; a copy, since the list may move. */
static const struct random_course *last_course(const struct laying *out, struct random_course *copy)
{
	if (!out->course_count)
		return NULL;
	*copy = out->courses[out->course_count - 1];
	return copy;
}

static enum status lay_all(struct drawing *d, struct error *err)
{
	struct random_course before, first;
	int64_t y = 0, number = 0;
	enum status st = STATUS_OK;

	while (((double)y < d->box.y1 || !number) && st == STATUS_OK) {
		int64_t height = choose_height(d);

		st = lay_course(d, last_course(d->out, &before), number++, y, height, err);
		y += height;
	}
	if (st == STATUS_OK)
		first = d->out->courses[0];
	number = -1;
	for (y = 0; (double)y > d->box.y0 && st == STATUS_OK; number--) {
		int64_t height = choose_height(d);

		y -= height;
		st = lay_course(d, number == -1 ? &first : last_course(d->out, &before), number, y,
		        height, err);
	}
	return st;
}

enum status lay_random(struct piece_list *list, const struct region *region,
        const struct plan_laying *laying, struct laying *out, struct error *err)
{
	const struct plan_mix *m = &laying->mix;
	struct drawing d = { .list = list,
		.region = region,
		.laying = laying,
		.out = out,
		.box = region_box(region),
		.state = (uint64_t)m->seed,
		.joint_um = laying->slab.joint_um };
	int64_t shortest = m->sizes[0].length_um;
	enum status st;

	for (size_t i = 0; i < m->count; i++) {
		const struct mix_size *s = &m->sizes[i];

		d.shares += (double)s->share;
		d.area += (double)s->share * cell_area(s);
		shortest = s->length_um < shortest ? s->length_um : shortest;
		d.longest_um = s->length_um > d.longest_um ? s->length_um : d.longest_um;
	}
	d.lap_um = shortest / 5 > LEAST_LAP_UM ? LEAST_LAP_UM : shortest / 5;
	st = lay_all(&d, err);
	arena_free(&d.work);
	if (out->course_count)
		qsort(out->courses, out->course_count, sizeof *out->courses, by_number);
	return st;
}
