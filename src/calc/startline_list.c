/* startline_list.c - which start is better, and the list of the best. */
#include "startsearch.h"

#include <stdlib.h>
#include <string.h>

static int compare(int64_t a, int64_t b)
{
	return a < b ? -1 : a > b;
}

int merit_compare(const struct merit *a, const struct merit *b)
{
	int c = compare(a->slivers, b->slivers);

	if (!c)
		c = compare(a->slabs, b->slabs);
	if (!c)
		c = compare(a->cuts, b->cuts);
	if (!c)
		c = compare(b->smallest_um, a->smallest_um);
	return c ? c : compare(a->balance_um, b->balance_um);
}

/* Equal ones in the order of the turn, then of how far they are, so that the order is one. */
static int ranked_compare(const struct ranked *a, const struct ranked *b)
{
	int c = merit_compare(&a->merit, &b->merit);

	if (!c)
		c = compare((int64_t)a->frame, (int64_t)b->frame);
	if (!c)
		c = compare(llabs(a->move.um[0]) + llabs(a->move.um[1]),
		        llabs(b->move.um[0]) + llabs(b->move.um[1]));
	if (!c)
		c = compare(a->move.um[0], b->move.um[0]);
	return c ? c : compare(a->move.um[1], b->move.um[1]);
}

/* Too much alike for both to be shown: close by, or with the same counts not far off. */
static bool alike(const struct start_search *s, const struct ranked *a, const struct ranked *b)
{
	const struct start_frame *f = &s->frames[a->frame];
	struct move off = { { a->move.um[0] - b->move.um[0], a->move.um[1] - b->move.um[1] } };
	bool same = a->merit.slivers == b->merit.slivers && a->merit.slabs == b->merit.slabs &&
	            a->merit.cuts == b->merit.cuts;
	int64_t part = same ? 8 : 32;

	if (a->frame != b->frame)
		return false;
	off = frame_nearest(f, off);
	return llabs(off.um[0]) * part <= f->repeat_um[0] &&
	       llabs(off.um[1]) * part <= f->repeat_um[1];
}

bool list_wants(const struct start_search *s, const struct merit *m)
{
	return s->count < START_ROWS || merit_compare(m, &s->list[s->count - 1].merit) < 0;
}

void list_take(struct start_search *s, const struct ranked *row)
{
	size_t kept = 0, at = 0;

	for (size_t i = 0; i < s->count; i++)
		if (alike(s, &s->list[i], row) && ranked_compare(&s->list[i], row) <= 0)
			return;
	for (size_t i = 0; i < s->count; i++)
		if (!alike(s, &s->list[i], row))
			s->list[kept++] = s->list[i];
	s->count = kept;
	while (at < kept && ranked_compare(&s->list[at], row) < 0)
		at++;
	if (at == START_ROWS)
		return;
	if (kept == START_ROWS)
		kept--;
	memmove(s->list + at + 1, s->list + at, (kept - at) * sizeof *s->list);
	s->list[at] = *row;
	s->count = kept + 1;
}

enum status list_try(
        struct start_search *s, size_t frame, struct move m, struct merit *merit, struct error *err)
{
	struct arena work = { 0 };
	struct trial t;
	struct ranked row = { .move = frame_nearest(&s->frames[frame], m), .frame = frame };
	enum status st = trial_lay(s, &work, frame, m, &t, err);

	if (st == STATUS_OK)
		st = trial_least(s, &work, &t, &t.merit.slabs, err);
	if (st == STATUS_OK && list_wants(s, &t.merit)) {
		st = trial_plan(s, &work, &t, err);
		row.merit = t.merit;
		if (st == STATUS_OK)
			list_take(s, &row);
	}
	*merit = t.merit; /* of one left out: no worse than it is */
	arena_free(&work);
	return st;
}

enum status list_search(struct start_search *s, bool *any, struct error *err)
{
	struct arena work = { 0 };
	struct trial t;
	struct ranked row;
	size_t at = 0;
	enum status st;

	while (at < s->count && s->list[at].searched)
		at++;
	*any = at < s->count;
	if (!*any)
		return STATUS_OK;
	row = s->list[at];
	st = trial_lay(s, &work, row.frame, row.move, &t, err);
	if (st == STATUS_OK)
		st = trial_plan(s, &work, &t, err);
	if (st == STATUS_OK)
		st = trial_search(s, &work, &t, err);
	arena_free(&work);
	if (st != STATUS_OK)
		return st;
	memmove(s->list + at, s->list + at + 1, (s->count - at - 1) * sizeof *s->list);
	s->count--;
	row.merit = t.merit;
	row.searched = true;
	list_take(s, &row);
	return STATUS_OK;
}
