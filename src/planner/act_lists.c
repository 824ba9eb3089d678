/* act_lists.c - clients, jobs and variants; choices and the comparison. */
#include "actions.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* Fills app->list from the store's entries; the row of id `here` is marked. */
static bool fill(struct app *app, const struct store_list *from, const char *unit, int64_t here)
{
	struct list *l = &app->list;
	struct list_row *rows = arena_alloc(&app->list_mem, from->count + 1, sizeof *rows);

	l->rows = rows;
	l->count = 0;
	l->at = 0;
	l->top = 0;
	if (!rows) {
		app_refuse(app, "No memory is left for the list.");
		return false;
	}
	for (size_t i = 0; i < from->count; i++) {
		const struct store_entry *e = &from->items[i];
		const char *note = e->changed && strlen(e->changed) >= 10
		                           ? arena_print(&app->list_mem, "%.10s", e->changed)
		                           : "";

		if (!unit && note && e->id == here)
			note = "open now";
		else if (unit && note)
			note = arena_print(&app->list_mem, "%" PRId64 " %s%s   changed %s",
			        e->children, unit, e->children == 1 ? "" : "s", note);
		rows[i] = (struct list_row){
			.words = e->name, .note = note ? note : "", .id = e->id
		};
		if (e->id == here)
			l->at = i;
		l->count++;
	}
	return true;
}

bool show_clients(struct app *app)
{
	struct store_list found;
	struct error err;

	arena_reset(&app->list_mem);
	app->variants = NULL;
	app->list = (struct list){
		.empty = "No client yet. Press a to add the first one.\n\nA client has jobs, and a "
		         "job has variants: different ideas for the same place, which can be "
		         "compared. You are led from one to the next.\n\nTo look round first, "
		         "leave with q and type: slabwright demo"
	};
	snprintf(app->list.title, sizeof app->list.title, "Clients");
	if (store_clients(app->store, &app->list_mem, &found, &err) != STATUS_OK)
		return app_fail(app, &err);
	return fill(app, &found, "job", app->client);
}

bool show_jobs(struct app *app)
{
	struct store_list found;
	struct error err;

	arena_reset(&app->list_mem);
	app->variants = NULL;
	app->list = (struct list){ .empty = "This client has no job yet. Press a to add one." };
	snprintf(app->list.title, sizeof app->list.title, "Jobs of %.100s", app->client_name);
	if (store_jobs(app->store, app->client, &app->list_mem, &found, &err) != STATUS_OK)
		return app_fail(app, &err);
	return fill(app, &found, "variant", app->job);
}

bool show_variants(struct app *app)
{
	struct store_list found;
	struct error err;

	arena_reset(&app->list_mem);
	app->variants = NULL;
	app->list = (struct list){ .empty = "This job has no variant yet. Press a to add one." };
	snprintf(app->list.title, sizeof app->list.title, "Variants");
	if (store_variants(app->store, app->job, &app->list_mem, &found, &err) != STATUS_OK)
		return app_fail(app, &err);
	if (!fill(app, &found, NULL, app->variant))
		return false;
	app->variants = arena_alloc(&app->list_mem, found.count + 1, sizeof *app->variants);
	if (!app->variants) {
		app->list.count = 0;
		app_refuse(app, "No memory is left for the list.");
		return false;
	}
	for (size_t i = 0; i < found.count; i++)
		app->variants[i].id = found.items[i].id;
	return true;
}

/* Works out one variant for the list. */
static bool work_out(struct app *app, int64_t variant, bool *ready, struct figures *out)
{
	struct arena mem = { 0 };
	struct takeoff t = { 0 };
	struct error err;
	bool done = takeoff_variant(&mem, app->store, variant, &t, &err) == STATUS_OK;

	if (done) {
		while (takeoff_improve(&mem, &t, IDLE_LOOKS))
			;
		figures_of(&t, out);
		*ready = t.ready;
	} else {
		app_fail(app, &err);
	}
	arena_free(&mem);
	return done;
}

bool app_idle(struct app *app)
{
	if (app->starts.search) /* a preview, or help over it, is not the take-off to go on with */
		return app->place == AT_STARTS && starts_idle(app);
	if (takeoff_improve(&app->work, &app->t, IDLE_LOOKS))
		return true;
	if (app->place != AT_VARIANTS || !app->variants)
		return false;
	for (size_t i = 0; i < app->list.count; i++) {
		struct variant_row *v = &app->variants[i];

		if (v->known)
			continue;
		v->known = true;
		if (!work_out(app, v->id, &v->ready, &v->figures))
			v->ready = false;
		return true;
	}
	return false;
}

void act_row(struct app *app, int key)
{
	bool back = key == KEY_OF_ARROW_UP || key == KEY_OF_PAGE_UP || key == KEY_OF_WHEEL_UP ||
	            key == KEY_OF_HOME;
	int step = key == KEY_OF_PAGE_UP || key == KEY_OF_PAGE_DOWN ? app->rows - 6 : 1;

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

static const struct list_row *marked(struct app *app)
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
	const struct list_row *row = marked(app);
	int64_t id;

	(void)key;
	if (!row) {
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

static bool named(struct app *app, const char *text)
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

	if (!named(app, text))
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

	if (!named(app, text))
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

	if (!named(app, text))
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
	const struct list_row *row = marked(app);
	struct error err;
	enum status st;

	if (!row)
		return true;
	if (!named(app, text))
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
	app_go(app, app->place);
	return true;
}

void act_rename(struct app *app, int key)
{
	const struct list_row *row = marked(app);

	(void)key;
	if (row)
		prompt_open(app, "New name",
		        NAME_HINT " Typing replaces it; an arrow key keeps it, to be mended.",
		        row->words, renamed);
}

static bool copied(struct app *app, const char *text)
{
	const struct list_row *row = marked(app);
	struct error err;
	int64_t id;

	if (!row)
		return true;
	if (!named(app, text))
		return false;
	if (store_variant_copy(app->store, row->id, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	if (!app_open(app, id))
		return true;
	app_go(app, AT_VARIANTS);
	app_say(app, "The copy is open. Change it, then come back and press = to compare.");
	return true;
}

void act_copy(struct app *app, int key)
{
	const struct list_row *row = marked(app);

	(void)key;
	if (row)
		prompt_open(app, "Name of the copy",
		        "The copy is opened; the variant it comes from stays as it is.", "",
		        copied);
}

void act_compare(struct app *app, int key)
{
	struct list *l = &app->list;
	size_t open = 0, other = l->at;

	(void)key;
	if (l->count < 2) {
		app_refuse(app, "There is only one variant: c copies it, then change the copy.");
		return;
	}
	for (size_t i = 0; i < l->count; i++)
		if (l->rows[i].id == app->variant)
			open = i;
	if (other == open)
		other = (open + 1) % l->count;
	for (int i = 0; i < 2; i++) {
		const struct list_row *row = &l->rows[i ? other : open];
		bool ready;

		app->compare[i] = row->id;
		app->compare_name[i] = row->words;
		if (!work_out(app, row->id, &ready, &app->compared[i]))
			return;
	}
	app->back = AT_VARIANTS;
	app->place = AT_COMPARE;
	app->help_top = 0;
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
	switch (app->place) {
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

static bool found(struct app *app, const char *text)
{
	struct list *l = list_here(app);

	for (size_t i = 1; i <= l->count; i++) {
		size_t at = (l->at + i) % l->count;

		if (strcasestr(l->rows[at].words, text)) {
			l->at = at;
			return true;
		}
	}
	app_refuse(app, "No row has '%s' in it.", text);
	return false;
}

void act_find(struct app *app, int key)
{
	(void)key;
	prompt_open(
	        app, "Find", "A part of the name; the next row that has it is marked.", "", found);
}
