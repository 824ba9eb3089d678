/* act_lists.c - clients, jobs and variants: listing, opening, adding, renaming; choices. */
#include "actions.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static const char *note_of(
        struct app *app, const struct store_entry *e, const char *unit, int64_t here)
{
	const char *kept = e->archived ? "archived   " : "";

	if (!unit && e->id == here)
		return arena_print(&app->list_mem, "%sopen now", kept);
	if (!unit)
		return arena_print(&app->list_mem, "%s%.10s", kept, e->changed);
	return arena_print(&app->list_mem, "%s%" PRId64 " %s%s   changed %.10s", kept, e->children,
	        unit, e->children == 1 ? "" : "s", e->changed);
}

/* Fills app->list from the store's entries; the row of id `here` is marked. */
static bool fill(struct app *app, const struct store_list *from, const char *unit, int64_t here)
{
	struct list *l = &app->list;
	struct list_row *rows = arena_alloc(&app->list_mem, from->count + 1, sizeof *rows);

	l->rows = rows;
	if (!rows) {
		app_refuse(app, "No memory is left for the list.");
		return false;
	}
	for (size_t i = 0; i < from->count; i++) {
		const struct store_entry *e = &from->items[i];
		const char *note = note_of(app, e, unit, here);

		rows[i] = (struct list_row){ e->name, note ? note : "", e->id, e->notes,
			e->archived };
		if (e->id == here)
			l->at = i;
		l->count++;
	}
	return true;
}

/* Begins the list anew and reads its entries. */
static bool entries(struct app *app, enum store_level level, int64_t parent, const char *empty,
        struct store_list *found)
{
	struct error err;

	arena_reset(&app->list_mem);
	app->variants = NULL;
	app->variant_count = 0;
	app->list = (struct list){ .empty = empty };
	if (store_entries(app->store, level, parent,
	            app->archived ? STORE_WITH_ARCHIVED : STORE_IN_USE, &app->list_mem, found,
	            &err) != STATUS_OK)
		return app_fail(app, &err);
	return true;
}

static const char *too(const struct app *app)
{
	return app->archived ? ", archived ones too" : "";
}

bool show_clients(struct app *app)
{
	struct store_list found;

	if (!entries(app, STORE_CLIENT, 0,
	            "No client yet. Press a to add the first one.\n\nA client has jobs, and a job "
	            "has variants: different ideas for the same place, which can be compared. You "
	            "are led from one to the next.\n\nTo look round first, leave with q and type: "
	            "slabwright demo",
	            &found))
		return false;
	snprintf(app->list.title, sizeof app->list.title, "Clients%s", too(app));
	return fill(app, &found, "job", app->client);
}

bool show_jobs(struct app *app)
{
	struct store_list found;

	if (!entries(app, STORE_JOB, app->client, "This client has no job yet. Press a to add one.",
	            &found))
		return false;
	snprintf(app->list.title, sizeof app->list.title, "Jobs of %.80s%s", app->client_name,
	        too(app));
	return fill(app, &found, "variant", app->job);
}

bool show_variants(struct app *app)
{
	struct store_list found;

	if (!entries(app, STORE_VARIANT, app->job,
	            "This job has no variant yet. Press a to add one.", &found))
		return false;
	snprintf(app->list.title, sizeof app->list.title, "Variants%s", too(app));
	if (!fill(app, &found, NULL, app->variant))
		return false;
	app->variants = arena_alloc(&app->list_mem, found.count + 1, sizeof *app->variants);
	if (!app->variants) {
		app->list.count = 0;
		app_refuse(app, "No memory is left for the list.");
		return false;
	}
	app->variant_count = found.count;
	for (size_t i = 0; i < found.count; i++) {
		app->variants[i].id = found.items[i].id;
		app->variants[i].column.name = found.items[i].name;
	}
	return true;
}

void act_row(struct app *app, int key)
{
	bool back = key == KEY_OF_ARROW_UP || key == KEY_OF_PAGE_UP || key == KEY_OF_WHEEL_UP ||
	            key == KEY_OF_HOME;
	int step = key == KEY_OF_PAGE_UP || key == KEY_OF_PAGE_DOWN ? app->rows - 6 : 1;

	if (app->place == AT_COMPARE && (key == KEY_OF_ARROW_LEFT || key == KEY_OF_ARROW_RIGHT)) {
		compare_scroll(app, key == KEY_OF_ARROW_RIGHT);
		return;
	}
	if (app->place != AT_HELP && app->place != AT_COMPARE) {
		list_move(app, list_here(app), key);
		return;
	}
	if (key == KEY_OF_HOME || key == KEY_OF_END)
		step = 10000;
	app->help_top += back ? -step : step;
	if (app->help_top < 0)
		app->help_top = 0;
}

const struct list_row *row_marked(struct app *app)
{
	struct list *l = list_here(app);

	return l->at < l->count ? &l->rows[l->at] : NULL;
}

/* Opens a job: the variant open last of it if that is one of its, else its first. */
static void open_job(struct app *app, int64_t job)
{
	struct arena mem = { 0 };
	struct store_list found;
	struct error err;

	app->job = job;
	if (store_variants(app->store, job, &mem, &found, &err) != STATUS_OK)
		app_fail(app, &err);
	else if (found.count)
		app_open(app, found.items[0].id);
	else {
		app->variant = 0;
		app->names = (struct store_place){
			.client_name = "", .job_title = "", .variant_name = ""
		};
		app_go(app, AT_VARIANTS);
	}
	arena_free(&mem);
}

void act_row_enter(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);
	int64_t id;

	(void)key;
	if (!row) {
		if (!list_here(app)->find[0])
			app_refuse(app, "%s", list_here(app)->empty);
		return;
	}
	id = row->id;
	switch (app->place) {
	case AT_CLIENTS:
		app->client = id;
		snprintf(app->client_name, sizeof app->client_name, "%s", row->words);
		app_go(app, AT_JOBS);
		break;
	case AT_JOBS:
		open_job(app, id);
		break;
	case AT_VARIANTS:
		if (app_open(app, id) && app->place == AT_VARIANTS)
			app_go(app, AT_OUTLINE);
		break;
	default:
		app->place = app->back;
		app->choice.chosen(app, row);
	}
}

int row_letter(const struct list_row *row)
{
	const char *w = row->words;

	return w[0] >= 'A' && w[0] <= 'Z' && w[1] == ' ' && w[2] == ' ' ? w[0] - 'A' + 'a' : 0;
}

void act_row_letter(struct app *app, int key)
{
	struct list *l = &app->choice;

	for (size_t i = 0; i < l->count; i++) {
		if (row_letter(&l->rows[i]) != key)
			continue;
		l->at = i;
		act_row_enter(app, key);
		return;
	}
	app_refuse(app, "%s: the arrow keys mark a row, Enter takes it.",
	        l->count && row_letter(&l->rows[0]) ? "No row begins with that letter"
	                                            : "Letters choose nothing here");
}

#define NAME_HINT "200 letters at most."

bool row_named(struct app *app, const char *text)
{
	if (text[strspn(text, " ")])
		return true;
	app_refuse(app, "A name is needed: type one, or leave with Esc.");
	return false;
}

static bool variant_added(struct app *app, const char *text)
{
	struct error err;
	int64_t id;

	if (!row_named(app, text))
		return false;
	if (store_variant_add(app->store, app->job, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	if (app_open(app, id) && app->place == AT_VARIANTS)
		app_go(app, AT_OUTLINE);
	return true;
}

static void ask_variant(struct app *app)
{
	prompt_open(app, "Name of the variant",
	        "One idea for this job; more can be added and compared later.", "A", variant_added);
}

static bool job_added(struct app *app, const char *text)
{
	struct error err;
	int64_t id;

	if (!row_named(app, text))
		return false;
	if (store_job_add(app->store, app->client, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	app->job = id;
	app_go(app, AT_JOBS);
	ask_variant(app);
	return true;
}

static void ask_job(struct app *app)
{
	prompt_open(app, "Title of the job", "What is to be paved: Courtyard, Path to the shed ...",
	        "", job_added);
}

static bool client_added(struct app *app, const char *text)
{
	struct error err;
	int64_t id;

	if (!row_named(app, text))
		return false;
	if (store_client_add(app->store, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	app->client = id;
	snprintf(app->client_name, sizeof app->client_name, "%s", text);
	app->job = 0;
	app_go(app, AT_JOBS);
	ask_job(app);
	return true;
}

void act_add(struct app *app, int key)
{
	(void)key;
	if (app->place == AT_CLIENTS)
		prompt_open(app, "Name of the client", NAME_HINT, "", client_added);
	else if (app->place == AT_JOBS)
		ask_job(app);
	else
		prompt_open(app, "Name of the new variant",
		        "It begins empty; c copies the marked one instead.", "", variant_added);
}

static bool renamed(struct app *app, const char *text)
{
	const struct list_row *row = row_marked(app);
	struct error err;
	enum status st;

	if (!row)
		return true;
	if (!row_named(app, text))
		return false;
	if (app->place == AT_CLIENTS)
		st = store_client_rename(app->store, row->id, text, &err);
	else if (app->place == AT_JOBS)
		st = store_job_rename(app->store, row->id, text, &err);
	else
		st = store_variant_rename(app->store, row->id, text, &err);
	if (st != STATUS_OK)
		return app_fail(app, &err);
	if (app->variant && !app_names_again(app))
		return false;
	list_again(app, 0);
	return true;
}

void act_rename(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);

	(void)key;
	if (row)
		prompt_open(app, "New name",
		        NAME_HINT " Typing replaces it; an arrow key keeps it, to be mended.",
		        row->words, renamed);
}

void act_jobs(struct app *app, int key)
{
	(void)key;
	app_keep_view(app);
	app_go(app, AT_JOBS);
}

void act_back(struct app *app, int key)
{
	(void)key;
	if (app->place != AT_HELP && app->place != AT_COMPARE && list_here(app)->all) {
		list_widen(list_here(app));
		return;
	}
	switch (app->place) {
	case AT_VARIANTS:
		app_say(app, "Tab goes to the stages, o to the jobs.");
		break;
	case AT_HELP:
		app->place = app->help_back;
		break;
	case AT_JOBS:
		app_go(app, AT_CLIENTS);
		break;
	case AT_CLIENTS:
		if (app->variant)
			app_open(app, app->variant);
		else
			app_say(app, "q leaves the planner; a adds a client.");
		break;
	default:
		app->place = app->back;
	}
}

void act_find(struct app *app, int key)
{
	struct list *l = list_here(app);

	(void)key;
	list_find(l, list_mem(app, l), l->find);
	l->typing = l->all != NULL;
}
