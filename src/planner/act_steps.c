/* act_steps.c - flights of steps: where they go down, and all their values. */
#include "actions.h"
#include "form.h"

#include <inttypes.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

size_t flight_here(const struct app *app)
{
	return app->item < app->plan.steps_count ? app->item : 0;
}

static bool edit_flights(struct app *app, const char *label, struct plan_steps *list, size_t count)
{
	struct edit e = { .type = EDIT_STEPS, .steps = list, .steps_count = count };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

/* The flights, with room for one more. */
static void flights_list(const struct app *app, struct plan_steps list[PLANTERS + 1])
{
	if (app->plan.steps_count)
		memcpy(list, app->plan.steps, app->plan.steps_count * sizeof *list);
}

static bool put_flight(struct app *app, const struct plan_steps *flight, const char *what)
{
	struct plan_steps list[PLANTERS + 1];
	size_t at = flight_here(app);
	char label[80];

	flights_list(app, list);
	list[at] = *flight;
	snprintf(label, sizeof label, "flight %zu: %s", at + 1, what);
	return edit_flights(app, label, list, app->plan.steps_count);
}

static bool any_flight(struct app *app)
{
	if (app->plan.steps_count)
		return true;
	app_refuse(app, "There is no flight of steps yet: b adds one.");
	return false;
}

/* --- adding --- */

/* Asks for the level at the foot of a new flight that begins there. */
static bool foot_done(struct app *app, const char *text)
{
	struct plan_steps list[PLANTERS + 1], *f;
	size_t n = app->plan.steps_count;
	char label[80];

	if (n >= PLANTERS) {
		app_refuse(app, "A plan has %d flights at most.", PLANTERS);
		return false;
	}
	flights_list(app, list);
	f = &list[n];
	if (n) /* built as the one before */
		*f = list[n - 1];
	else
		steps_init(f);
	f->name = "";
	f->has_top = app->plan.surface.count == 0;
	f->top_um = 0;
	f->risers = 0;
	f->x_um = app->flight.x_um;
	f->y_um = app->flight.y_um;
	f->toward_udeg = app->flight.toward_udeg;
	if (app->flight.width_um)
		f->width_um = app->flight.width_um;
	if (!typed_length(app, text, UNIT_M, &f->bottom_um))
		return false;
	snprintf(label, sizeof label, "flight %zu", n + 1);
	if (!edit_flights(app, label, list, n + 1))
		return false;
	app->item = n;
	app_say(app, "Flight %zu: i has all its values.", n + 1);
	return true;
}

static void ask_foot(struct app *app)
{
	prompt_open(app, "Level at the foot of the steps",
	        "Metres over the datum, of what the flight comes down to: -0,55.", "", foot_done);
}

/* From the middle of the chosen edge, straight out of the paving, as wide as the edge. */
static void from_edge(struct app *app)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	const struct plan_node *a, *b;
	double side, dx, dy;

	if (!r || app->view.at >= r->count) {
		app_refuse(app, "Choose an edge first: n and p.");
		return;
	}
	a = &r->nodes[app->view.at];
	b = &r->nodes[(app->view.at + 1) % r->count];
	if (a->rise_um) {
		app_refuse(app, "That edge is an arc; begin the flight at the cursor.");
		return;
	}
	dx = (double)(b->x_um - a->x_um);
	dy = (double)(b->y_um - a->y_um);
	side = (ring_signed_area2_um2(r) > 0) == (app->view.ring == 0) ? 1 : -1;
	app->flight = (struct flight_place){ .x_um = (a->x_um + b->x_um) / 2,
		.y_um = (a->y_um + b->y_um) / 2,
		.width_um = llround(hypot(dx, dy)),
		.toward_udeg = llround(
		        atan2(-dx * side, dy * side) * 180 / acos(-1) * (double)UDEG_PER_DEG) };
	ask_foot(app);
}

static bool way_arrow(struct app *app, int key, const char *text)
{
	static const int degrees[] = { 180, 0, 90, 270 };

	(void)text;
	app->flight = (struct flight_place){ .x_um = app->view.x_um,
		.y_um = app->view.y_um,
		.toward_udeg = degrees[key - KEY_OF_ARROW_LEFT] * UDEG_PER_DEG };
	ask_foot(app);
	return true;
}

static bool way_done(struct app *app, const char *text)
{
	struct error err;
	int64_t udeg;

	if (angle_parse(text, &udeg, &err) != STATUS_OK)
		return app_fail(app, &err);
	app->flight = (struct flight_place){
		.x_um = app->view.x_um, .y_um = app->view.y_um, .toward_udeg = udeg
	};
	ask_foot(app);
	return true;
}

static void from_cursor(struct app *app)
{
	prompt_open(app, "Which way the steps go down",
	        "An arrow key; or degrees: 0 right, 90 up. The cursor is the middle of the top "
	        "nosing.",
	        "", way_done)
	        ->arrow = way_arrow;
}

/* --- the list --- */

enum { NEW_EDGE = -1, NEW_CURSOR = -2 };

static void flight_chosen(struct app *app, const struct list_row *row)
{
	if (row->id == NEW_EDGE) {
		from_edge(app);
	} else if (row->id == NEW_CURSOR) {
		from_cursor(app);
	} else {
		app->item = (size_t)row->id;
		app->view.x_um = app->plan.steps[app->item].x_um;
		app->view.y_um = app->plan.steps[app->item].y_um;
		view_follow(app);
		app_say(app, "Flight %zu: i has all its values.", app->item + 1);
	}
}

void act_flights(struct app *app, int key)
{
	char words[80], note[80], w[32];

	(void)key;
	choice_open(app, "Flights of steps", flight_chosen);
	for (size_t i = 0; i < app->plan.steps_count; i++) {
		const struct plan_steps *f = &app->plan.steps[i];

		snprintf(words, sizeof words, "Flight %zu%s%.50s", i + 1, *f->name ? ": " : "",
		        f->name);
		snprintf(note, sizeof note, "%s m wide, goes %s on the plan",
		        metres(w, f->width_um), compass_name(f->toward_udeg));
		choice_add(app, words, note, (int64_t)i);
	}
	choice_add(app, "a new flight from the chosen edge", "as wide as that", NEW_EDGE);
	choice_add(app, "a new flight from the cursor", "which way is asked", NEW_CURSOR);
	list_mark(&app->choice, (int64_t)flight_here(app));
}

void act_flight_delete(struct app *app, int key)
{
	struct plan_steps list[PLANTERS + 1];
	size_t at = flight_here(app), n = app->plan.steps_count;
	char label[80];

	(void)key;
	if (!any_flight(app))
		return;
	flights_list(app, list);
	memmove(&list[at], &list[at + 1], (n - at - 1) * sizeof *list);
	snprintf(label, sizeof label, "delete flight %zu", at + 1);
	if (!edit_flights(app, label, list, n - 1))
		return;
	app->item = at ? at - 1 : 0;
	app_say(app, "Flight %zu is gone. u brings it back.", at + 1);
}

/* --- the unit --- */

static void unit_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct store_step_units units;
	struct plan_steps f;
	struct error err;

	if (!app->plan.steps_count)
		return;
	f = app->plan.steps[flight_here(app)];
	if (store_step_units(app->store, &mem, &units, &err) != STATUS_OK) {
		app_fail(app, &err);
	} else if ((size_t)row->id < units.count) {
		const struct store_step_unit *u = &units.items[row->id];

		f.unit_name = u->name;
		f.unit_length_um = u->length_um;
		f.unit_depth_um = u->depth_um;
		f.unit_height_um = u->height_um;
		f.unit_density_kg_m3 = u->density_kg_m3;
		f.unit_price_minor = u->price_minor;
		if (put_flight(app, &f, "unit"))
			app_say(app, "Unit: %s.", f.unit_name);
	}
	arena_free(&mem);
}

void act_step_unit(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_step_units units;
	struct error err;
	char note[160], l[24], d[24], h[24], lift[64];

	(void)key;
	if (!any_flight(app))
		return;
	if (store_step_units(app->store, &mem, &units, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	choice_open(app, "Step unit of the catalogue: length x depth x height", unit_chosen);
	for (size_t i = 0; i < units.count; i++) {
		const struct store_step_unit *u = &units.items[i];

		snprintf(note, sizeof note, "%s x %s x %s mm%s",
		        mm_print(l, sizeof l, u->length_um), mm_print(d, sizeof d, u->depth_um),
		        mm_print(h, sizeof h, u->height_um),
		        lift_note(app, lift, sizeof lift,
		                block_mass_kg(u->length_um, u->depth_um, u->height_um,
		                        u->density_kg_m3)));
		choice_add(app, units.items[i].name, note, (int64_t)i);
	}
	arena_free(&mem);
}

static void choose_unit(struct app *app)
{
	act_step_unit(app, 0);
}

/* --- its values --- */

static bool is_built(const void *thing)
{
	return ((const struct plan_steps *)thing)->build == STEPS_BUILT;
}

static bool own_top(const void *thing)
{
	return ((const struct plan_steps *)thing)->has_top;
}

static const char *const builds[] = { "heavy units, one on another",
	"risers of kerbs or blocks with slabs on them" };
static const char *const tops[] = { "the paving's at the nosing", "typed" };

#define S(member) .offset = offsetof(struct plan_steps, member)
static const struct form_value values[] = {
	{ .name = "Name", .hint = "As it is called on the sheets.", .value = VALUE_TEXT, S(name) },
	{ .name = "Middle of the top nosing",
	        .hint = "Metres across ; up.",
	        .value = VALUE_PLACE,
	        S(x_um) },
	{ .name = "Goes down toward",
	        .hint = "Degrees: 0 right, 90 up, anticlockwise.",
	        .value = VALUE_ANGLE,
	        S(toward_udeg) },
	{ .name = "Width", .hint = "Metres.", .value = VALUE_M, S(width_um) },
	{ .name = "Level at the foot",
	        .hint = "Metres over the datum.",
	        .value = VALUE_M,
	        S(bottom_um) },
	{ .name = "Level at the top is",
	        .value = VALUE_SWITCH,
	        S(has_top),
	        .words = tops,
	        .word_count = 2 },
	{ .name = "Level at the top",
	        .hint = "Metres over the datum.",
	        .value = VALUE_M,
	        S(top_um),
	        .has = own_top },
	{ .name = "Risers",
	        .hint = "How many; 0: as the rule set wants.",
	        .value = VALUE_COUNT,
	        S(risers) },
	{ .name = "Going",
	        .hint = "Millimetres from nosing to nosing.",
	        .value = VALUE_MM,
	        S(going_um) },
	{ .name = "Built of", .value = VALUE_TURN, S(build), .words = builds, .word_count = 2 },
	{ .name = "Unit of the catalogue",
	        .hint = "choose it",
	        .value = VALUE_DO,
	        .run = choose_unit },
	{ .name = "Unit, or riser piece: length",
	        .hint = "Millimetres along the width.",
	        .value = VALUE_MM,
	        S(unit_length_um) },
	{ .name = "its depth",
	        .hint = "Millimetres from front to back.",
	        .value = VALUE_MM,
	        S(unit_depth_um) },
	{ .name = "its height", .hint = "Millimetres.", .value = VALUE_MM, S(unit_height_um) },
	{ .name = "its density",
	        .hint = "Kilograms a cubic metre: 2300; 0 not known.",
	        .value = VALUE_DENSITY,
	        S(unit_density_kg_m3) },
	{ .name = "Price of one",
	        .hint = "In your money; empty: not known.",
	        .value = VALUE_MONEY,
	        S(unit_price_minor) },
	{ .name = "Tread's slab, thickness",
	        .hint = "Millimetres.",
	        .value = VALUE_MM,
	        S(tread_um),
	        .has = is_built },
	{ .name = "Tread over its riser",
	        .hint = "Millimetres of overhang.",
	        .value = VALUE_MM,
	        S(overhang_um),
	        .has = is_built },
	{ .name = "Bed",
	        .hint = "Millimetres under each unit or tread.",
	        .value = VALUE_MM,
	        S(bed_um) },
	{ .name = "Fall of a tread",
	        .hint = "15 (mm a metre), 1,5 % or 1:60, to its front.",
	        .value = VALUE_FALL,
	        S(tread_fall_um_per_m) },
	{ .name = "Landing at the foot",
	        .hint = "Millimetres long; 0 none.",
	        .value = VALUE_MM,
	        S(landing_um) },
	{ .name = "Flank walls",
	        .hint = "Millimetres wide, one on each side; 0 none.",
	        .value = VALUE_MM,
	        S(flank_um) },
};

static bool values_get(struct app *app, void *thing, char title[120])
{
	const struct plan_steps *f;

	if (!any_flight(app))
		return false;
	f = &app->plan.steps[flight_here(app)];
	memcpy(thing, f, sizeof *f);
	snprintf(title, 120, "Flight %zu%s%.80s", flight_here(app) + 1, *f->name ? ": " : "",
	        f->name);
	return true;
}

static bool values_put(struct app *app, const void *thing, const char *what)
{
	return put_flight(app, thing, what);
}

static const struct form flight_form = { values, sizeof values / sizeof values[0],
	sizeof(struct plan_steps), values_get, values_put };

void act_flight_values(struct app *app, int key)
{
	(void)key;
	form_open(app, &flight_form);
}
