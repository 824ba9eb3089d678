/* startline.c - the search for start lines: which way it goes, and what it has found. */
#include "startsearch.h"

#include <string.h>

/* Stocks that the field takes, so that only their cuts are planned anew. */
static const bool *stocks_of_field(struct arena *mem, const struct paving *p)
{
	const struct section *field = &p->sections[0];
	bool *mask = arena_alloc(mem, p->stock_count + 1, sizeof *mask);

	for (int i = 0; mask && i < field->laid.pattern.size_count; i++)
		mask[field->stock[i]] = true;
	return mask;
}

/* How pieces come to fit one slab. */
static void find_rules(struct start_search *s)
{
	const struct paving *p = &s->t->laid;
	const struct section *field = &p->sections[0];
	const struct slab_kind *k = &field->laid.pattern.sizes[0];

	s->by_sums = field->laid.pattern.count == 1 && field->laying.edges == RULE_FINISHED;
	s->pieces_turn = !field->laying.slab.directional && k->length_um == k->width_um;
	for (size_t i = 1; i < p->section_count; i++)
		for (int j = 0; j < p->sections[i].laid.pattern.size_count; j++)
			s->by_sums = s->by_sums && !s->of_field[p->sections[i].stock[j]];
}

/* The plan's own start: always in the running. */
static enum status take_now(struct start_search *s, struct error *err)
{
	struct arena work = { 0 };
	struct trial t;
	enum status st = trial_lay(s, &work, 0, s->now.move, &t, err);

	if (st == STATUS_OK)
		st = trial_plan(s, &work, &t, err);
	if (st == STATUS_OK)
		st = trial_search(s, &work, &t, err);
	s->now.merit = t.merit;
	s->now.searched = true;
	if (st == STATUS_OK)
		list_take(s, &s->now);
	arena_free(&work);
	return st;
}

static enum status begin(struct start_search *s, bool turns, struct error *err)
{
	const struct plan_laying *l = &s->t->laid.sections[0].laying;
	enum status st = STATUS_OK;

	s->exact_way = true;
	find_rules(s);
	s->frame_count = turns && frame_turn_matters(l) ? 2 : 1;
	for (size_t i = 0; i < s->frame_count && st == STATUS_OK; i++) {
		st = frame_make(
		        s, (int64_t)i * 90 * UDEG_PER_DEG, &s->frames[i], &s->exact_way, err);
		s->exact_way = s->exact_way && stretches_fit(&s->frames[i]);
	}
	if (st != STATUS_OK || (st = take_now(s, err)) != STATUS_OK)
		return st;
	if (!s->exact_way)
		sample_begin(s);
	if (!s->frames[0].region.count) /* borders and zones leave no field */
		s->done = s->bounded = s->exact_way = true;
	return STATUS_OK;
}

enum status startline_begin(struct arena *mem, const struct takeoff *t, bool turns,
        struct start_search **out, struct error *err)
{
	struct start_search *s;

	if (!t->ready)
		return error_set(err, STATUS_PLAN, "%s", t->fault.text);
	s = arena_alloc(mem, 1, sizeof *s);
	if (!s)
		return error_memory(err);
	*s = (struct start_search){ .mem = mem, .t = t, .walk.level = -1 };
	s->of_field = stocks_of_field(mem, &t->laid);
	if (!s->of_field)
		return error_memory(err);
	*out = s;
	return begin(s, turns, err);
}

enum status startline_step(struct start_search *s, int64_t work, struct error *err)
{
	enum status st = STATUS_OK;

	for (s->work = work; !s->done && st == STATUS_OK;) {
		s->work--;
		st = s->exact_way ? exact_step(s, err) : sample_step(s, err);
		if (s->work <= 0)
			break;
	}
	if (st != STATUS_OK)
		s->done = s->failed = true;
	return st;
}

bool startline_done(const struct start_search *s)
{
	return s->done;
}

static void show(const struct start_search *s, const struct ranked *r, struct start_row *out)
{
	const struct start_frame *f = &s->frames[r->frame];
	const struct merit *m = &r->merit;

	*out = (struct start_row){ .turn_udeg = f->turn_udeg,
		.slivers = m->slivers,
		.cuts = m->cuts,
		.slabs = m->slabs,
		.smallest_um = m->smallest_um,
		.balance_um = m->balance_um };
	frame_start(f, r->move, &out->x_um, &out->y_um);
	out->present = !r->frame && !r->move.um[0] && !r->move.um[1];
}

void startline_best(const struct start_search *s, struct start_list *out)
{
	*out = (struct start_list){ .count = s->count,
		.done = s->done,
		.exact = s->exact_way && exact_proven(s),
		.least_slabs = s->exact_way ? exact_least_slabs(s) : 0,
		.tried = s->tried,
		.grid_um = s->grid_um,
		.fine_um = s->fine_um };
	for (size_t i = 0; i < s->count; i++)
		show(s, &s->list[i], &out->rows[i]);
	show(s, &s->now, &out->now);
}
