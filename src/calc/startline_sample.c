/* startline_sample.c - starts by a grid, refined round the best, and again by a finer grid. */
#include "startsearch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_POINTS = 256, LAST_POINTS = 5000, MOST_CROSSED = 40 };
static const int64_t FINEST_UM = 1000;

/* The points of a grid along each axis; every cell is about square. */
static void grid_size(const struct start_frame *f, int level, int64_t n[2])
{
	double x = (double)f->repeat_um[0], y = (double)f->repeat_um[1],
	       side = sqrt(x * y / FIRST_POINTS);

	for (int axis = 0; axis < 2; axis++) {
		double points = round((double)f->repeat_um[axis] / side);
		double most = ceil((double)f->repeat_um[axis] / (double)FINEST_UM);

		if (f->repeat_um[axis] <= 1)
			points = 1;
		else if (f->repeat_um[1 - axis] <= 1)
			points = FIRST_POINTS / 8.0;
		else if (points < 4)
			points = 4;
		points = points > most ? most : points;
		n[axis] = (int64_t)points << level;
		if (f->repeat_um[axis] <= 1)
			n[axis] = 1;
	}
}

static int64_t grid_step_um(const struct start_frame *f, int level)
{
	int64_t n[2], x, y;

	grid_size(f, level, n);
	x = f->repeat_um[0] / n[0];
	y = f->repeat_um[1] / n[1];
	return x > y ? x : y;
}

/* On the first level, lines through places where counts change are crossed as well: they matter
 * where some edges run along the axes. */
static size_t crossed(const struct start_search *s, const struct start_frame *f, int axis)
{
	return s->sampling.level == 0 && f->place_count[axis] <= MOST_CROSSED ? f->place_count[axis]
	                                                                      : 0;
}

/* Whole millimetres are what a tape gives. */
static int64_t to_mm(int64_t um)
{
	return llround((double)um / (double)UM_PER_MM) * UM_PER_MM;
}

/* The next point of the grid; false at its end. Points of the grid before are left out. */
static bool next_point(struct start_search *s, size_t *frame, struct move *m)
{
	struct sampling *p = &s->sampling;

	while (p->frame < s->frame_count) {
		const struct start_frame *f = &s->frames[p->frame];
		int64_t n[2], across[2], i[2];

		grid_size(f, p->level, n);
		for (int axis = 0; axis < 2; axis++)
			across[axis] = n[axis] + (int64_t)crossed(s, f, axis);
		if ((int64_t)p->at == across[0] * across[1]) {
			p->frame++;
			p->at = 0;
			continue;
		}
		i[0] = (int64_t)p->at % across[0];
		i[1] = (int64_t)p->at / across[0];
		p->at++;
		if (p->level && (i[0] % 2 == 0 || n[0] == 1) && (i[1] % 2 == 0 || n[1] == 1))
			continue;
		for (int axis = 0; axis < 2; axis++)
			m->um[axis] =
			        i[axis] < n[axis]
			                ? f->from_um[axis] + i[axis] * f->repeat_um[axis] / n[axis]
			                : f->places[axis][i[axis] - n[axis]];
		*frame = p->frame;
		return true;
	}
	return false;
}

static enum status grid_step(struct start_search *s, struct error *err)
{
	struct sampling *p = &s->sampling;
	struct merit merit;
	struct move m;
	size_t frame;

	if (next_point(s, &frame, &m))
		return list_try(s, frame, m, &merit, err);
	s->grid_um = 0;
	for (size_t i = 0; i < s->frame_count; i++) {
		int64_t step = grid_step_um(&s->frames[i], p->level);

		s->grid_um = step > s->grid_um ? step : s->grid_um;
	}
	p->stage = SAMPLE_FINE;
	memcpy(p->rows, s->list, sizeof p->rows);
	p->row_count = s->count;
	p->row = 0;
	p->step_um = 0;
	return STATUS_OK;
}

/* After the rows are refined and their cuts planned: a finer grid, or the end. */
static void next_level(struct start_search *s)
{
	struct sampling *p = &s->sampling;
	int64_t points = 0, n[2];

	for (size_t i = 0; i < s->frame_count; i++) {
		grid_size(&s->frames[i], p->level + 1, n);
		points += n[0] * n[1];
	}
	if (points > LAST_POINTS * (int64_t)s->frame_count || s->grid_um <= FINEST_UM) {
		s->done = true;
		return;
	}
	p->level++;
	p->stage = SAMPLE_GRID;
	p->frame = p->at = 0;
}

static void begin_row(struct start_search *s)
{
	struct sampling *p = &s->sampling;

	p->centre = p->rows[p->row];
	p->step_um = to_mm(s->grid_um / 2 + UM_PER_MM / 2);
	p->way = 0;
	p->moved = false;
}

/* After all ways from the centre: closer, or the next row. */
static void close_in(struct start_search *s)
{
	struct sampling *p = &s->sampling;

	p->way = 0;
	if (p->moved) {
		p->moved = false;
		return;
	}
	if (p->step_um > FINEST_UM) {
		p->step_um = p->step_um / 2 > FINEST_UM ? to_mm(p->step_um / 2) : FINEST_UM;
		return;
	}
	if (!s->fine_um || p->step_um > s->fine_um)
		s->fine_um = p->step_um;
	p->row++;
	p->step_um = 0;
}

/* Tries the neighbours of a row's start, goes on from a better one, and closes in. */
static enum status fine_step(struct start_search *s, struct error *err)
{
	struct sampling *p = &s->sampling;
	struct ranked at;
	enum status st;

	if (p->row == p->row_count) {
		p->stage = SAMPLE_PLANS;
		return STATUS_OK;
	}
	if (!p->step_um)
		begin_row(s);
	at = p->centre;
	at.move.um[0] += (p->way % 3 - 1) * p->step_um;
	at.move.um[1] += (p->way / 3 - 1) * p->step_um;
	if (p->way++ != 4) {
		st = list_try(s, at.frame, at.move, &at.merit, err);
		if (st != STATUS_OK)
			return st;
		if (merit_compare(&at.merit, &p->centre.merit) < 0) {
			p->centre = at;
			p->moved = true;
			p->way = 9;
		}
	}
	if (p->way == 9)
		close_in(s);
	return STATUS_OK;
}

void sample_begin(struct start_search *s)
{
	s->sampling = (struct sampling){ .stage = SAMPLE_GRID };
}

static enum status plans_step(struct start_search *s, struct error *err)
{
	bool any;
	enum status st = list_search(s, &any, err);

	if (st == STATUS_OK && !any)
		next_level(s);
	return st;
}

enum status sample_step(struct start_search *s, struct error *err)
{
	static enum status (*const steps[])(struct start_search *, struct error *) = {
		[SAMPLE_GRID] = grid_step,
		[SAMPLE_FINE] = fine_step,
		[SAMPLE_PLANS] = plans_step,
	};

	return steps[s->sampling.stage](s, err);
}
