/* act_entries.c - what is done with a client, job or variant as a whole: notes, archive, deleting
 * and bringing back, copies. */
#include "actions.h"

#include "slabwright/text.h"

#include <stdio.h>
#include <string.h>

static enum store_level level_here(const struct app *app)
{
	return app->place == AT_CLIENTS ? STORE_CLIENT
	       : app->place == AT_JOBS  ? STORE_JOB
	                                : STORE_VARIANT;
}

static int64_t parent_here(const struct app *app)
{
	return app->place == AT_CLIENTS ? 0 : app->place == AT_JOBS ? app->client : app->job;
}

static const char *const level_words[] = { "client", "job", "variant" };

/* --- notes --- */

static bool noted(struct app *app, const char *text)
{
	const struct list_row *row = row_marked(app);
	struct error err;

	if (!row)
		return true;
	if (store_notes_set(app->store, level_here(app), row->id, text, &err) != STATUS_OK)
		return app_fail(app, &err);
	list_again(app, 0);
	return true;
}

void act_notes(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);
	struct prompt *p;

	(void)key;
	if (!row)
		return;
	p = prompt_open(app, "Notes",
	        "Whatever is worth keeping, 4000 bytes. Typing goes on at "
	        "the end, Delete clears the line.",
	        row->notes ? row->notes : "", noted);
	p->most = NOTES_LONGEST;
	p->offered = false;
}

/* --- archive --- */

void act_archive(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);
	char name[NAME_LONGEST + 1];
	bool archive;
	struct error err;

	(void)key;
	if (!row)
		return;
	archive = !row->archived;
	snprintf(name, sizeof name, "%s", row->words);
	if (store_archive(app->store, level_here(app), row->id, archive, &err) != STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	list_again(app, 0);
	app_say(app,
	        !archive ? "\"%.80s\" is in the list again."
	        : app->archived
	                ? "\"%.80s\" is archived; it stays shown till s hides archived rows."
	                : "\"%.80s\" is archived; s shows archived rows, z takes them out.",
	        name);
}

void act_archived(struct app *app, int key)
{
	(void)key;
	app->archived = !app->archived;
	list_again(app, 0);
}

/* --- deleting --- */

/* The open variant may be gone with what was deleted. */
static void close_if_gone(struct app *app)
{
	struct arena mem = { 0 };
	struct store_place place;

	if (app->variant &&
	        store_place_of(app->store, app->variant, &mem, &place, NULL) == STATUS_PLAN)
		app_close(app);
	arena_free(&mem);
}

enum { KEEP, DELETE };

static void delete_chosen(struct app *app, const struct list_row *choice)
{
	const struct list_row *row = row_marked(app);
	char name[NAME_LONGEST + 1];
	struct error err;

	if (choice->id != DELETE || !row) {
		app_say(app, "Left as it was.");
		return;
	}
	snprintf(name, sizeof name, "%s", row->words);
	if (store_delete(app->store, level_here(app), row->id, &err) != STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	close_if_gone(app);
	list_again(app, 0);
	app_say(app, "\"%.80s\" is deleted. b brings it back.", name);
}

void act_delete(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);
	char title[120];

	(void)key;
	if (!row)
		return;
	snprintf(title, sizeof title, "Delete the %s \"%.60s\"%s?", level_words[level_here(app)],
	        row->words,
	        app->place == AT_CLIENTS ? " with all jobs"
	        : app->place == AT_JOBS  ? " with all variants"
	                                 : "");
	choice_open(app, title, delete_chosen);
	choice_add(app, "No", "all stays as it is", KEEP);
	choice_add(app, "Delete", "b brings it back, until the store is tidied", DELETE);
}

static void back_chosen(struct app *app, const struct list_row *choice)
{
	struct error err;

	if (store_undelete(app->store, level_here(app), choice->id, &err) != STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	list_again(app, choice->id);
	app_say(app, "\"%.80s\" is back.", choice->words);
}

void act_bring_back(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_list gone;
	struct error err;

	(void)key;
	if (store_entries(app->store, level_here(app), parent_here(app), STORE_DELETED, &mem, &gone,
	            &err) != STATUS_OK) {
		app_fail(app, &err);
	} else if (!gone.count) {
		app_refuse(app, "No %s was deleted here.", level_words[level_here(app)]);
	} else {
		choice_open(app, "Bring back", back_chosen);
		for (size_t i = 0; i < gone.count; i++) {
			char note[40];

			snprintf(note, sizeof note, "deleted %.10s", gone.items[i].changed);
			choice_add(app, gone.items[i].name, note, gone.items[i].id);
		}
	}
	arena_free(&mem);
}

/* --- copies --- */

static bool variant_copied(struct app *app, const char *text)
{
	const struct list_row *row = row_marked(app);
	struct error err;
	int64_t id;

	if (!row)
		return true;
	if (!row_named(app, text))
		return false;
	if (store_variant_copy(app->store, row->id, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	if (!app_open(app, id))
		return true;
	app_go(app, AT_VARIANTS);
	app_say(app, "The copy is open. Change it, then come back and press = to compare.");
	return true;
}

static bool job_copied(struct app *app, const char *text)
{
	const struct list_row *row = row_marked(app);
	struct error err;
	int64_t id;

	if (!row)
		return true;
	if (!row_named(app, text))
		return false;
	if (store_job_copy(app->store, row->id, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	list_again(app, id);
	app_say(app, "The copy has all variants of the job.");
	return true;
}

void act_copy(struct app *app, int key)
{
	(void)key;
	if (!row_marked(app))
		return;
	if (app->place == AT_JOBS)
		prompt_open(app, "Title of the copy", "The copy has all variants of this job.", "",
		        job_copied);
	else
		prompt_open(app, "Name of the copy",
		        "The copy is opened; the variant it comes from stays as it is.", "",
		        variant_copied);
}

/* The job was chosen: prompt.number. */
static bool copied_there(struct app *app, const char *text)
{
	const struct list_row *row = row_marked(app);
	int64_t id, job = app->prompt.number;
	struct error err;

	if (!row)
		return true;
	if (!row_named(app, text))
		return false;
	if (store_variant_copy_to(app->store, row->id, job, text, &id, &err) != STATUS_OK)
		return app_fail(app, &err);
	list_again(app, 0);
	app_say(app, "Copied. o goes to the jobs.");
	return true;
}

static void job_chosen(struct app *app, const struct list_row *choice)
{
	const struct list_row *row = row_marked(app);

	if (row)
		prompt_open(app, "Name of the copy there", choice->words, row->words, copied_there)
		        ->number = choice->id;
}

static bool add_jobs_of(struct app *app, const struct store_entry *client, struct arena *mem)
{
	struct store_list jobs;
	struct error err;

	if (store_jobs(app->store, client->id, mem, &jobs, &err) != STATUS_OK)
		return app_fail(app, &err);
	for (size_t i = 0; i < jobs.count; i++) {
		const char *words = arena_print(mem, "%s / %s", client->name, jobs.items[i].name);

		if (words && jobs.items[i].id != app->job)
			choice_add(app, words, "", jobs.items[i].id);
	}
	return true;
}

void act_copy_to(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_list clients;
	struct error err;

	(void)key;
	if (!row_marked(app))
		return;
	if (store_clients(app->store, &mem, &clients, &err) != STATUS_OK) {
		app_fail(app, &err);
	} else {
		choice_open(app, "Copy into the job", job_chosen)->empty =
		        "There is no other job. o and a add one.";
		for (size_t i = 0; i < clients.count; i++)
			if (!add_jobs_of(app, &clients.items[i], &mem))
				break;
	}
	arena_free(&mem);
}
