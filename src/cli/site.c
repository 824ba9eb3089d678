/* site.c - the commands for work on site: levelling book, setting out, what was built. They need
 * the plan alone, not its take-off. */
#include "command.h"

struct site_plan {
	struct plan plan;
	struct rules rules;
};

static enum status read_plan(struct run *run, struct site_plan *out, struct error *err)
{
	int64_t variant;
	enum status st = find_variant(run, &variant, err);

	if (st == STATUS_OK)
		st = store_plan(run->store, variant, &run->mem, &out->plan, err);
	if (st == STATUS_OK)
		st = store_rules(run->store, out->plan.rule_set, &run->mem, &out->rules, err);
	return st;
}

/* A fault of the plan is told with the variant's PATH. */
static enum status with_path(struct run *run, enum status st, struct error *err)
{
	return error_place(err, st, run->request->arguments[0]);
}

enum status command_book(struct run *run, struct error *err)
{
	struct site_plan s;
	struct book_result book;
	enum status st = read_plan(run, &s, err);

	if (st != STATUS_OK)
		return st;
	st = book_reduce(&run->mem, &s.plan.site.book, &book, err);
	if (st == STATUS_OK)
		st = sheet_book(stdout, &s.plan, &book, run->request->form, err);
	return with_path(run, st, err);
}

enum status command_setout(struct run *run, struct error *err)
{
	struct site_plan s;
	struct setout out;
	enum status st = read_plan(run, &s, err);

	if (st != STATUS_OK)
		return st;
	st = outline_check(&s.plan, err);
	if (st == STATUS_OK)
		st = setout_work_out(&run->mem, &s.plan, &out, err);
	if (st == STATUS_OK)
		st = sheet_setout(stdout, &s.plan, &out, run->request->form, err);
	return with_path(run, st, err);
}

static enum status compare(
        struct run *run, const struct site_plan *s, struct asbuilt *out, struct error *err)
{
	struct asbuilt_surface surface;
	enum status st;

	if (!s->plan.site.measured_count)
		return error_set(err, STATUS_PLAN,
		        "nothing was measured yet, so there is nothing to compare; give the plan's "
		        "site measured points");
	st = asbuilt_surface_init(&run->mem, &s->plan, &surface, err);
	if (st != STATUS_OK)
		return st;
	return asbuilt_check(&run->mem, &s->plan, &s->rules,
	        s->plan.surface.count ? asbuilt_surface_level : NULL, &surface, out, err);
}

enum status command_check(struct run *run, struct error *err)
{
	struct site_plan s;
	struct asbuilt out;
	enum status st = read_plan(run, &s, err);

	if (st != STATUS_OK)
		return st;
	st = compare(run, &s, &out, err);
	if (st == STATUS_OK)
		st = sheet_asbuilt(stdout, &s.plan, &out, run->request->form, err);
	return with_path(run, st, err);
}
