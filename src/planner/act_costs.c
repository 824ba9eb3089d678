/* act_costs.c - how things are bought, what they cost, and how long work takes: tables and a form.
 */
#include "actions.h"
#include "form.h"

#include <inttypes.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static bool edit_costs(struct app *app, const char *label, const struct plan_costs *costs)
{
	struct edit e = { .type = EDIT_COSTS, .costs = *costs };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

/* --- materials --- */

static const char *const no_yes[] = { "no", "yes" };
static const char *const sold_words[] = { "loose, by the t", "bulk bag", "bag", "roll", "can",
	"m3 carted" };

#define M(member) .offset = offsetof(struct plan_material, member)
static const struct form_value material_columns[] = {
	{ .name = "wanted", .value = VALUE_SWITCH, M(used), .words = no_yes, .word_count = 2 },
	{ .name = "bought as", .hint = "Its name as it is ordered.", .value = VALUE_TEXT, M(name) },
	{ .name = "from",
	        .hint = "The supplier's name, or empty.",
	        .value = VALUE_TEXT,
	        M(supplier) },
	{ .name = "by the",
	        .value = VALUE_TURN,
	        M(sold),
	        .words = sold_words,
	        .word_count = SOLD_KINDS },
	{ .name = "price",
	        .hint = "Of one bag, roll or can, a tonne or a cubic metre; empty: not known.",
	        .value = VALUE_MONEY,
	        M(price_minor) },
	{ .name = "wastage",
	        .hint = "Percent on top; of membrane and liner the laps too.",
	        .value = VALUE_PERCENT,
	        M(wastage_ppm) },
};

static size_t material_rows(const struct app *app)
{
	(void)app;
	return MATERIALS;
}

static void material_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.costs.materials[row], sizeof(struct plan_material));
}

static bool material_put(struct app *app, size_t row, const void *thing, const char *what)
{
	struct plan_costs costs = app->plan.costs;
	char label[80];

	memcpy(&costs.materials[row], thing, sizeof costs.materials[row]);
	snprintf(label, sizeof label, "%s: %s", material_name((enum material)row), what);
	return edit_costs(app, label, &costs);
}

static void material_note(const struct app *app, size_t row, int note, char *buf, size_t size)
{
	const struct material_line *l = materials_find(&app->t.materials, (enum material)row);

	if (note == 0)
		snprintf(buf, size, "%s", material_name((enum material)row));
	else
		snprintf(buf, size, "%s", l ? l->buy_words : "");
}

static const struct table material_table = {
	.title = "Materials",
	.empty = "",
	.columns = material_columns,
	.count = sizeof material_columns / sizeof material_columns[0],
	.size = sizeof(struct plan_material),
	.fixed = true,
	.rows = material_rows,
	.get = material_get,
	.put = material_put,
	.notes = { "for", "to buy now" },
	.note = material_note,
};

/* --- labour rates --- */

static const struct form_value rate_columns[] = {
	{ .name = "minutes a unit",
	        .hint = "Of one person, for one unit of the work: 40 or 7,5.",
	        .value = VALUE_MILLI },
};

static size_t rate_rows(const struct app *app)
{
	(void)app;
	return TASKS;
}

static void rate_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.costs.task_minutes_milli[row], sizeof(int64_t));
}

static bool rate_put(struct app *app, size_t row, const void *thing, const char *what)
{
	struct plan_costs costs = app->plan.costs;
	char label[80];

	(void)what;
	memcpy(&costs.task_minutes_milli[row], thing, sizeof(int64_t));
	snprintf(label, sizeof label, "rate of %s", task_name((enum task)row));
	return edit_costs(app, label, &costs);
}

static void rate_note(const struct app *app, size_t row, int note, char *buf, size_t size)
{
	(void)app;
	snprintf(buf, size, "%s", note ? task_unit((enum task)row) : task_name((enum task)row));
}

static const struct table rate_table = {
	.title = "Output rates: how long one person takes for a unit (common practice until you "
	         "change them)",
	.empty = "",
	.columns = rate_columns,
	.count = 1,
	.size = sizeof(int64_t),
	.fixed = true,
	.rows = rate_rows,
	.get = rate_get,
	.put = rate_put,
	.notes = { "work", "unit" },
	.note = rate_note,
};

/* --- hire, and anything else --- */

/* A list with an item put at `at` (== count: one more), or without one (NULL) taken away, in memory
 * of this frame; NULL, with the reason shown. */
static void *changed_list(
        struct app *app, const void *items, size_t count, size_t size, size_t at, const void *item)
{
	char *list;

	if (item && at >= COST_LINES) {
		app_refuse(app, "A list has %d rows at most.", COST_LINES);
		return NULL;
	}
	list = arena_alloc(&app->frame_mem, count + 1, size);
	if (!list) {
		app_refuse(app, "No memory is left.");
		return NULL;
	}
	if (count)
		memcpy(list, items, count * size);
	if (item)
		memcpy(list + at * size, item, size);
	else
		memmove(list + at * size, list + (at + 1) * size, (count - at - 1) * size);
	return list;
}

#define H(member) .offset = offsetof(struct plan_hire, member)
static const struct form_value hire_columns[] = {
	{ .name = "hired",
	        .hint = "Plate compactor, saw, mini digger ...",
	        .value = VALUE_TEXT,
	        H(name) },
	{ .name = "days",
	        .hint = "1 or 0,5; 0: as long as its work takes.",
	        .value = VALUE_MILLI,
	        H(days_milli) },
	{ .name = "price a day",
	        .hint = "Empty: not known.",
	        .value = VALUE_MONEY,
	        H(price_minor) },
};

static size_t hire_rows(const struct app *app)
{
	return app->plan.costs.hire_count;
}

static void hire_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.costs.hire[row], sizeof(struct plan_hire));
}

static void hire_fresh(struct app *app, void *thing)
{
	struct plan_hire h = { "", 1000, TASK_SUB_BASE, -1 };

	(void)app;
	memcpy(thing, &h, sizeof h);
}

static bool put_hire(struct app *app, size_t row, const void *thing, size_t count)
{
	struct plan_costs costs = app->plan.costs;

	costs.hire =
	        changed_list(app, costs.hire, costs.hire_count, sizeof *costs.hire, row, thing);
	costs.hire_count = count;
	return costs.hire && edit_costs(app, thing ? "plant hire" : "no such plant", &costs);
}

static bool hire_put(struct app *app, size_t row, const void *thing, const char *what)
{
	size_t count = app->plan.costs.hire_count;

	(void)what;
	return put_hire(app, row, thing, row < count ? count : count + 1);
}

static bool hire_drop(struct app *app, size_t row)
{
	return put_hire(app, row, NULL, app->plan.costs.hire_count - 1);
}

static const struct table hire_table = {
	.title = "Plant hire",
	.empty = "Nothing is hired. a adds a row: its name, the days and the price of a day.",
	.columns = hire_columns,
	.count = sizeof hire_columns / sizeof hire_columns[0],
	.size = sizeof(struct plan_hire),
	.rows = hire_rows,
	.get = hire_get,
	.fresh = hire_fresh,
	.put = hire_put,
	.drop = hire_drop,
};

#define X(member) .offset = offsetof(struct plan_extra, member)
static const struct form_value extra_columns[] = {
	{ .name = "what", .hint = "Skip, parking, delivery ...", .value = VALUE_TEXT, X(name) },
	{ .name = "quantity", .hint = "1 or 2,5.", .value = VALUE_MILLI, X(quantity_milli) },
	{ .name = "unit", .hint = "piece, day, m2 ...", .value = VALUE_TEXT, X(unit) },
	{ .name = "price of one",
	        .hint = "Empty: not known.",
	        .value = VALUE_MONEY,
	        X(price_minor) },
};

static size_t extra_rows(const struct app *app)
{
	return app->plan.costs.extra_count;
}

static void extra_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.costs.extras[row], sizeof(struct plan_extra));
}

static void extra_fresh(struct app *app, void *thing)
{
	struct plan_extra x = { "", "piece", 1000, -1 };

	(void)app;
	memcpy(thing, &x, sizeof x);
}

static bool put_extra(struct app *app, size_t row, const void *thing, size_t count)
{
	struct plan_costs costs = app->plan.costs;

	costs.extras = changed_list(
	        app, costs.extras, costs.extra_count, sizeof *costs.extras, row, thing);
	costs.extra_count = count;
	return costs.extras && edit_costs(app, thing ? "an extra" : "no such extra", &costs);
}

static bool extra_put(struct app *app, size_t row, const void *thing, const char *what)
{
	size_t count = app->plan.costs.extra_count;

	(void)what;
	return put_extra(app, row, thing, row < count ? count : count + 1);
}

static bool extra_drop(struct app *app, size_t row)
{
	return put_extra(app, row, NULL, app->plan.costs.extra_count - 1);
}

static const struct table extra_table = {
	.title = "Anything else that is charged",
	.empty = "Nothing else. a adds a row: what, how much, and the price of one.",
	.columns = extra_columns,
	.count = sizeof extra_columns / sizeof extra_columns[0],
	.size = sizeof(struct plan_extra),
	.rows = extra_rows,
	.get = extra_get,
	.fresh = extra_fresh,
	.put = extra_put,
	.drop = extra_drop,
};

/* --- wage, margin, dates --- */

#define C(member) .offset = offsetof(struct plan_costs, member)
static const struct form_value cost_values[] = {
	{ .name = "Currency", .hint = "Three letters: EUR.", .value = VALUE_TEXT, C(currency) },
	{ .name = "Prices are of",
	        .hint = "A date like 2026-11-25, or empty.",
	        .value = VALUE_TEXT,
	        C(price_date) },
	{ .name = "and come from",
	        .hint = "A note, or empty.",
	        .value = VALUE_TEXT,
	        C(price_note) },
	{ .name = "Crew", .hint = "People.", .value = VALUE_COUNT, C(crew) },
	{ .name = "Hours a day", .hint = "Of each: 8.", .value = VALUE_HOURS, C(day_minutes) },
	{ .name = "Wage an hour",
	        .hint = "Of one person; empty: not known.",
	        .value = VALUE_MONEY,
	        C(wage_minor) },
	{ .name = "Margin",
	        .hint = "Percent on all costs.",
	        .value = VALUE_PERCENT,
	        C(margin_ppm) },
	{ .name = "Discount",
	        .hint = "Percent off the sum with margin.",
	        .value = VALUE_PERCENT,
	        C(discount_ppm) },
	{ .name = "Tax", .hint = "Percent on the price.", .value = VALUE_PERCENT, C(tax_ppm) },
	{ .name = "Quotation in whole money",
	        .value = VALUE_SWITCH,
	        C(whole_money),
	        .words = no_yes,
	        .word_count = 2 },
	{ .name = "Quotation holds for", .hint = "Days.", .value = VALUE_COUNT, C(valid_days) },
	{ .name = "Work begins on",
	        .hint = "A date like 2026-12-01, or empty.",
	        .value = VALUE_TEXT,
	        C(start_date) },
	{ .name = "A haunch hardens for",
	        .hint = "Hours before it takes a load: 72.",
	        .value = VALUE_HOURS,
	        C(haunch_hold_minutes) },
	{ .name = "A wall hardens for",
	        .hint = "Hours before it is filled behind: 168.",
	        .value = VALUE_HOURS,
	        C(wall_hold_minutes) },
	{ .name = "Joints harden for",
	        .hint = "Hours: 24.",
	        .value = VALUE_HOURS,
	        C(joint_hold_minutes) },
	{ .name = "Joints are filled",
	        .hint = "Percent of the slab's thickness.",
	        .value = VALUE_PERCENT,
	        C(joint_depth_ppm) },
	{ .name = "The vehicle carries",
	        .hint = "Kilograms; empty: not known.",
	        .value = VALUE_MASS,
	        C(payload_g) },
	{ .name = "Width of the way in",
	        .hint = "Millimetres; 0: not narrow.",
	        .value = VALUE_MM,
	        C(access_um) },
};

static bool costs_get(struct app *app, void *thing, char title[120])
{
	struct plan_costs costs = app->plan.costs;

	/* materials and rates have tables of their own: what the form shows fits a thing */
	memcpy(thing, &costs, sizeof costs);
	snprintf(title, 120, "Wage, margin, dates, vehicle");
	return true;
}

static bool costs_put(struct app *app, const void *thing, const char *what)
{
	struct plan_costs costs;
	char label[80];

	memcpy(&costs, thing, sizeof costs);
	snprintf(label, sizeof label, "costs: %s", what);
	return edit_costs(app, label, &costs);
}

static const struct form costs_form = { cost_values, sizeof cost_values / sizeof cost_values[0],
	sizeof(struct plan_costs), costs_get, costs_put };

/* --- the list --- */

static const struct {
	const char *words, *note;
	const struct table *table; /* NULL: the form */
} lists[] = {
	{ "Materials", "how each is bought, and its price", &material_table },
	{ "Output rates", "how long each kind of work takes", &rate_table },
	{ "Plant hire", "what is hired by the day", &hire_table },
	{ "Anything else", "that is charged", &extra_table },
	{ "Wage, margin, dates, vehicle", "", NULL },
};

static void costs_chosen(struct app *app, const struct list_row *row)
{
	if (lists[row->id].table)
		table_open(app, lists[row->id].table);
	else
		form_open(app, &costs_form);
}

void act_costs(struct app *app, int key)
{
	(void)key;
	choice_open(app, "Prices and time", costs_chosen);
	for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
		choice_add(app, lists[i].words, lists[i].note, (int64_t)i);
}
