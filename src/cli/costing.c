/* costing.c - the commands for money and time: cost sheet, quotation, day plan. */
#include "command.h"
#include "slabwright/drawing.h"

#include <string.h>

struct costed {
	struct store_place place;
	struct takeoff t;
};

static enum status work_out_price(struct run *run, struct costed *c, struct error *err)
{
	enum status st = work_out_place(run, &c->place, &c->t, err);

	if (st == STATUS_OK && !c->t.costing.has_price)
		st = error_set(err, STATUS_PLAN, "%s", c->t.costing.price_fault.text);
	return st;
}

static enum status with_path(struct run *run, enum status st, struct error *err)
{
	return error_place(err, st, run->request->arguments[0]);
}

/* The head of a letter, with the date given or today's. */
static enum status make_head(
        struct run *run, const struct costed *c, struct letter_head *out, struct error *err)
{
	const char *date = run->request->date ? run->request->date : run->env->date;

	*out = (struct letter_head){ .client = c->place.client_name,
		.job = c->place.job_title,
		.date = date ? date : "",
		.id = c->place.variant_name };
	return date_check(out->date, err);
}

enum status command_price(struct run *run, struct error *err)
{
	struct costed c;
	enum status st = work_out_price(run, &c, err);

	if (st == STATUS_OK)
		st = sheet_price(stdout, &c.t, &c.t.costing.price, run->request->form, err);
	return with_path(run, st, err);
}

enum status command_quotation(struct run *run, struct error *err)
{
	struct costed c;
	struct letter_head head;
	enum status st = work_out_price(run, &c, err);

	if (st == STATUS_OK)
		st = make_head(run, &c, &head, err);
	if (st == STATUS_OK)
		st = sheet_quotation(
		        stdout, &c.t, &c.t.costing.price, &head, run->request->form, err);
	return with_path(run, st, err);
}

/* The variant's UUID, so that events of one calendar are known again in the next. */
static enum status find_id(
        struct run *run, const struct costed *c, struct letter_head *head, struct error *err)
{
	struct store_list variants;
	enum status st = store_variants(run->store, c->place.job, &run->mem, &variants, err);

	for (size_t i = 0; st == STATUS_OK && i < variants.count; i++)
		if (variants.items[i].id == c->place.variant)
			head->id = variants.items[i].uuid;
	return st;
}

static enum status print_calendar(
        struct run *run, const struct costed *c, const struct schedule *schedule, struct error *err)
{
	struct letter_head head;
	enum status st = make_head(run, c, &head, err);

	if (st == STATUS_OK)
		st = find_id(run, c, &head, err);
	return st == STATUS_OK ? sheet_calendar(stdout, &c->t, schedule, &head, err) : st;
}

enum status command_days(struct run *run, struct error *err)
{
	struct costed c;
	const struct schedule *schedule = &c.t.costing.schedule;
	enum status st = work_out_place(run, &c.place, &c.t, err);

	if (st == STATUS_OK && !c.t.costing.has_schedule)
		st = error_set(err, STATUS_PLAN, "%s", c.t.costing.schedule_fault.text);
	if (st == STATUS_OK && run->request->calendar)
		st = print_calendar(run, &c, schedule, err);
	else if (st == STATUS_OK)
		st = sheet_days(stdout, &c.t, schedule, run->request->form, err);
	return with_path(run, st, err);
}
