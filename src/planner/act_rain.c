/* act_rain.c - the rain that flows are worked out for, and what of it runs off. */
#include "actions.h"
#include "form.h"

#include <inttypes.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static bool edit_rain(struct app *app, const char *label, const struct plan_water *water)
{
	struct edit e = { .type = EDIT_WATER, .water = *water };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

/* --- the table's rows --- */

#define ROW(member) .offset = offsetof(struct rain_row, member)
static const struct form_value rain_columns[] = {
	{ .name = "minutes",
	        .hint = "Whole minutes of rain, growing from row to row.",
	        .value = VALUE_COUNT,
	        ROW(minutes) },
	{ .name = "mm/h",
	        .hint = "Mean intensity over them, millimetres an hour.",
	        .value = VALUE_RAIN,
	        ROW(um_per_h) },
};

static size_t rain_rows(const struct app *app)
{
	return app->plan.water.rain.count;
}

static void rain_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.water.rain.rows[row], sizeof(struct rain_row));
}

static void rain_fresh(struct app *app, void *thing)
{
	const struct plan_rain *r = &app->plan.water.rain;
	struct rain_row next = { 5, 75000 };

	if (r->count) {
		next = r->rows[r->count - 1];
		next.minutes *= 2;
		next.um_per_h = next.um_per_h * 3 / 4;
	}
	memcpy(thing, &next, sizeof next);
}

static bool put_rows(struct app *app, struct rain_row *rows, size_t count, const char *label)
{
	struct plan_water w = app->plan.water;

	w.rain.rows = rows;
	w.rain.count = count;
	w.rain.name = *w.rain.name ? w.rain.name : "Typed rain";
	w.rain.source = *w.rain.source ? w.rain.source : "typed in by the crew";
	return edit_rain(app, label, &w);
}

static bool rain_put(struct app *app, size_t row, const void *thing, const char *what)
{
	const struct plan_rain *r = &app->plan.water.rain;
	struct rain_row rows[RAIN_ROWS];

	(void)what;
	if (row >= RAIN_ROWS) {
		app_refuse(app, "A table has %d rows at most.", RAIN_ROWS);
		return false;
	}
	if (r->count)
		memcpy(rows, r->rows, r->count * sizeof *rows);
	memcpy(&rows[row], thing, sizeof rows[row]);
	return put_rows(app, rows, row < r->count ? r->count : row + 1, "set the rain");
}

static bool rain_drop(struct app *app, size_t row)
{
	const struct plan_rain *r = &app->plan.water.rain;
	struct rain_row rows[RAIN_ROWS];

	memcpy(rows, r->rows, r->count * sizeof *rows);
	memmove(&rows[row], &rows[row + 1], (r->count - row - 1) * sizeof *rows);
	return put_rows(app, rows, r->count - 1, "delete a row of the rain");
}

static void rain_foot(const struct app *app, char *buf, size_t size)
{
	snprintf(buf, size, "%s. Source: %s.", app->plan.water.rain.name,
	        app->plan.water.rain.source);
}

static const struct table rain_table = {
	.title = "Rain: what falls at most, by how long it falls",
	.item = "row",
	.most = RAIN_ROWS,
	.empty = "Type the duration and the intensity of the rain of your place: one row is enough "
	         "for the flow in channels, a soakaway wants several up to a day.",
	.columns = rain_columns,
	.count = sizeof rain_columns / sizeof rain_columns[0],
	.size = sizeof(struct rain_row),
	.rows = rain_rows,
	.get = rain_get,
	.fresh = rain_fresh,
	.put = rain_put,
	.drop = rain_drop,
	.next = table_next_column,
	.foot = rain_foot,
};

/* --- a table of the catalogue --- */

static void rain_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct plan_water w = app->plan.water;
	struct store_rains rains;
	struct error err;

	if (store_rains(app->store, &mem, &rains, &err) != STATUS_OK) {
		app_fail(app, &err);
	} else if (row->id >= 0 && (size_t)row->id < rains.count) {
		w.rain = rains.items[row->id];
		if (edit_rain(app, "choose the rain", &w))
			app_say(app, "Rain: %s. Source: %s.", app->plan.water.rain.name,
			        app->plan.water.rain.source);
	}
	arena_free(&mem);
}

static void choose_rain(struct app *app)
{
	struct arena mem = { 0 };
	struct store_rains rains;
	struct error err;

	if (store_rains(app->store, &mem, &rains, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	choice_open(app, "Rain of the catalogue", rain_chosen);
	app->choice.empty = "The store's catalogue has no rain. Type your own.";
	for (size_t i = 0; i < rains.count; i++)
		choice_add(app, rains.items[i].name, rains.items[i].source, (int64_t)i);
	arena_free(&mem);
}

static void type_rain(struct app *app)
{
	table_open(app, &rain_table);
}

/* --- the form --- */

static bool is_permeable(const void *thing)
{
	return ((const struct plan_water *)thing)->permeable;
}

static const char *const yes_no[] = { "no", "yes: it lets water through into the sub-base" };

#define WATER(member) .offset = offsetof(struct plan_water, member)
static const struct form_value rain_values[] = {
	{ .name = "Choose a table of rain",
	        .hint = "from the catalogue",
	        .value = VALUE_DO,
	        .run = choose_rain },
	{ .name = "Type the rain",
	        .hint = "duration and intensity",
	        .value = VALUE_DO,
	        .run = type_rain },
	{ .name = "Flows are for a rain of",
	        .hint = "Minutes: 15. 0: the shortest of the table.",
	        .value = VALUE_MINUTES,
	        WATER(rain.minutes) },
	{ .name = "Runs off the paving",
	        .hint = "Percent of the rain: 100 to be safe.",
	        .value = VALUE_PERCENT,
	        WATER(runoff_ppm) },
	{ .name = "Permeable surface",
	        .value = VALUE_SWITCH,
	        WATER(permeable),
	        .words = yes_no,
	        .word_count = 2 },
	{ .name = "The surface takes",
	        .hint = "Millimetres an hour over its whole area.",
	        .value = VALUE_SOAK,
	        WATER(surface_nm_s),
	        .has = is_permeable },
	{ .name = "Voids of the sub-base",
	        .hint = "Percent of it that holds water: 30 for open-graded stone.",
	        .value = VALUE_PERCENT,
	        WATER(voids_ppm),
	        .has = is_permeable },
	{ .name = "The soil under it takes",
	        .hint = "Millimetres an hour, from a test on the spot.",
	        .value = VALUE_SOAK,
	        WATER(soil_nm_s),
	        .has = is_permeable },
};

static bool water_get(struct app *app, void *thing, char title[120])
{
	memcpy(thing, &app->plan.water, sizeof app->plan.water);
	snprintf(title, 120, "Rain%s%.80s", app->plan.water.rain.count ? ": " : "",
	        app->plan.water.rain.count ? app->plan.water.rain.name : "");
	return true;
}

static bool water_put(struct app *app, const void *thing, const char *what)
{
	char label[80];

	snprintf(label, sizeof label, "rain: %s", what);
	return edit_rain(app, label, thing);
}

static const struct form rain_form = { rain_values, sizeof rain_values / sizeof rain_values[0],
	sizeof(struct plan_water), water_get, water_put };

void act_rain(struct app *app, int key)
{
	(void)key;
	form_open(app, &rain_form);
}
