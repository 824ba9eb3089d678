/* app.c - opening and leaving variants, messages, and where a key goes. */
#include "actions.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void say(struct app *app, bool refused, const char *format, va_list args)
{
	vsnprintf(app->message, sizeof app->message, format, args);
	app->refused = refused;
}

void app_say(struct app *app, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	say(app, false, format, args);
	va_end(args);
}

void app_refuse(struct app *app, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	say(app, true, format, args);
	va_end(args);
}

bool app_fail(struct app *app, const struct error *err)
{
	char words[600];

	app_refuse(app, "%s", crew_words(words, sizeof words, err->text));
	return false;
}

bool app_is_stage(enum place place)
{
	return place < STAGES;
}

bool app_has_sketch(enum place place)
{
	return app_is_stage(place) || place == AT_STARTS;
}

bool app_has_slabs(enum place place)
{
	return place == AT_LAYING || place == AT_ORDER || place == AT_STARTS;
}

const char *metres(char buf[32], int64_t um)
{
	int64_t mm = (um + (um < 0 ? -UM_PER_MM : UM_PER_MM) / 2) / UM_PER_MM;

	return length_print_bare(buf, 32, mm * UM_PER_MM, UNIT_M);
}

const char *metres_exact(char buf[32], int64_t um)
{
	return length_print_bare(buf, 32, um, UNIT_M);
}

void app_keep_view(struct app *app)
{
	const struct view *v = &app->view;
	bool whole = v->fitted || !v->placed ||
	             (app->close_um && app->close_um == v->cell_um); /* found again by itself */
	char text[256];
	struct error err;

	if (!app->variant)
		return;
	snprintf(text, sizeof text,
	        "stage %s cursor %" PRId64 " %" PRId64 " cell %" PRId64 " corner %" PRId64
	        " %" PRId64 " chosen %zu %zu fitted %d part %zu contour %" PRId64 " areas %d",
	        place_name(app->stage), v->x_um, v->y_um, v->cell_um, v->left_um, v->bottom_um,
	        v->ring, v->at, whole ? 1 : 0, v->part, v->contour_um, v->areas ? 1 : 0);
	if (store_view_set(app->store, app->variant, "sketch", text, &err) != STATUS_OK)
		app_fail(app, &err);
}

/* A kept place is only followed near where a plan can be. */
static bool within_reach(int64_t um)
{
	return um >= -2 * COORD_LIMIT_UM && um <= 2 * COORD_LIMIT_UM;
}

/* Outline for a name that is none. */
static enum place stage_named(const char *name)
{
	for (int i = 0; i < STAGES; i++)
		if (strcmp(place_name((enum place)i), name) == 0)
			return (enum place)i;
	return AT_OUTLINE;
}

/* The variant's screen as it was left; where nothing was kept, the whole plan. */
static enum place restore_view(struct app *app, struct arena *mem)
{
	struct view *v = &app->view;
	const char *text = "";
	struct error err;
	char stage[16] = "";
	int fitted = 0, areas = 0;
	bool kept;

	*v = (struct view){ .cell_um = 250000 };
	kept = store_view_get(app->store, app->variant, "sketch", mem, &text, &err) == STATUS_OK &&
	       sscanf(text,
	               "stage %15s cursor %" SCNd64 " %" SCNd64 " cell %" SCNd64 " corner %" SCNd64
	               " %" SCNd64 " chosen %zu %zu fitted %d part %zu contour %" SCNd64
	               " areas %d",
	               stage, &v->x_um, &v->y_um, &v->cell_um, &v->left_um, &v->bottom_um, &v->ring,
	               &v->at, &fitted, &v->part, &v->contour_um, &areas) >= 9 &&
	       v->cell_um >= 20000 && v->cell_um <= 10000000;
	kept = kept && within_reach(v->x_um) && within_reach(v->y_um) && within_reach(v->left_um) &&
	       within_reach(v->bottom_um);
	v->placed = kept && !fitted; /* a whole plan is fitted to the sketch as it is now */
	v->fitted = fitted != 0;
	v->areas = areas != 0;
	if (!kept)
		*v = (struct view){ .cell_um = 250000 };
	return kept ? stage_named(stage) : AT_OUTLINE;
}

/* So that the next start opens it. */
static void keep_variant(struct app *app)
{
	char text[32];
	struct error err;

	snprintf(text, sizeof text, "%" PRId64, app->variant);
	if (store_view_set(app->store, 0, "variant", text, &err) != STATUS_OK)
		app_fail(app, &err);
}

/* Reads the variant and its screen; where that fails, all stays as it was. */
static bool read_variant(struct app *app, int64_t variant, enum place *stage)
{
	struct arena mem = { 0 };
	struct store_place names;
	struct view view = app->view;
	int64_t was = app->variant;
	struct error err;

	if (store_place_of(app->store, variant, &mem, &names, &err) != STATUS_OK) {
		arena_free(&mem);
		return app_fail(app, &err);
	}
	app->variant = variant;
	*stage = restore_view(app, &mem);
	if (!app_reload(app)) {
		app->variant = was;
		app->view = view;
		arena_free(&mem);
		return false;
	}
	arena_free(&app->names_mem);
	app->names_mem = mem;
	app->names = names;
	return true;
}

bool app_open(struct app *app, int64_t variant)
{
	enum place stage;

	app_keep_view(app);
	if (!read_variant(app, variant, &stage))
		return false;
	app->job = app->names.job;
	app->client = app->names.client;
	snprintf(app->client_name, sizeof app->client_name, "%s", app->names.client_name);
	app->mode = MODE_USUAL;
	app->close_um = 0;
	app->stay_whole = false;
	keep_variant(app);
	app_go(app, stage);
	return true;
}

void app_close(struct app *app)
{
	app->variant = 0;
	app->names = (struct store_place){ .client_name = "", .job_title = "", .variant_name = "" };
	app->mode = MODE_USUAL;
	arena_free(&app->work);
	app->t = (struct takeoff){ 0 };
	plan_init(&app->plan);
	keep_variant(app);
}

void app_go(struct app *app, enum place place)
{
	app->mode = MODE_USUAL;
	app->view.pane_top = 0;
	if (app_is_stage(place) && place != app->stage)
		app->item = 0;
	if (place == AT_VARIANTS) {
		if (!show_variants(app))
			return;
	} else if (place == AT_CLIENTS) {
		if (!show_clients(app))
			return;
	} else if (place == AT_JOBS) {
		if (!show_jobs(app))
			return;
	}
	app->place = place;
	if (app_is_stage(place)) {
		app->stage = place;
		keep_choice_in_range(app);
		view_enter(app);
		app_keep_view(app); /* so that even a killed program is found where it was */
	}
}

void app_key(struct app *app, int key)
{
	const struct action *action;
	struct list *list;

	if (key == KEY_OF_NOTHING)
		return;
	app->message[0] = '\0';
	app->refused = false;
	app_catch_up(app); /* what is changed is what is stored now */
	if (app->prompt.on) {
		prompt_key(app, key);
		return;
	}
	if ((list = list_typing(app)) && list_find_key(app, list, key))
		return;
	action = action_find(app->place, key);
	if (action)
		action->run(app, key);
	else if (key > ' ' && key < KEY_OF_ARROW_LEFT)
		app_refuse(app, "That key does nothing here. ? lists the keys of this screen.");
}
