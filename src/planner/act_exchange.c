/* act_exchange.c - documents taken in and written at the lists: how two laptops exchange work. */
#include "actions.h"

#include "slabwright/file.h"

#include <stdio.h>
#include <string.h>

#define WHERE "A path is from the folder the planner was started in."

static bool path_given(struct app *app, const char *text)
{
	if (*text && strlen(text) < sizeof app->file) {
		snprintf(app->file, sizeof app->file, "%s", text);
		return true;
	}
	app_refuse(app, *text ? "The name of the file is too long." : "Type the name of a file.");
	return false;
}

/* --- taking in --- */

enum { LEAVE, TAKE };

static void say_merged(struct app *app, const struct store_merged *m)
{
	if (!m->added && !m->back && !m->joined) {
		app_say(app, "Nothing new: all of it is here already.");
		return;
	}
	app_say(app, "Taken in: %zu variant%s%s%s%s.", m->added, m->added == 1 ? "" : "s",
	        m->beside ? ", those that differ as \"... (from other)\"" : "",
	        m->back ? "; what was deleted is back" : "",
	        m->joined ? "; notes of both stand one behind the other" : "");
}

static void clash_chosen(struct app *app, const struct list_row *choice);

/* What differs, and what can be done about it. */
static void show_clashes(struct app *app, const struct store_merged *m)
{
	char title[120];

	snprintf(title, sizeof title, "%zu differ%s from what is here; nothing was taken in yet",
	        m->clash_count, m->clash_count == 1 ? "s" : "");
	choice_open(app, title, clash_chosen);
	choice_add(app, "Leave it", "nothing is taken in", LEAVE);
	choice_add(app, "Have both",
	        "the others beside those here, as \"... (from other)\"; notes joined", TAKE);
	for (size_t i = 0; i < m->clash_count; i++) {
		const struct store_clash *c = &m->clashes[i];
		char note[200];

		snprintf(note, sizeof note, "differs: %.150s%s", c->parts,
		        c->deleted ? " (deleted here)" : "");
		choice_add(app, c->variant ? c->variant : c->job ? c->job : c->client, note, LEAVE);
	}
}

static bool take_in(struct app *app, enum store_clashes clashes)
{
	struct arena mem = { 0 };
	struct store_merged m = { 0 };
	const char *text;
	size_t length;
	struct error err;
	enum status st = file_read(&mem, app->file, &text, &length, &err);

	if (st == STATUS_OK)
		st = store_merge(
		        app->store, text, length, plan_rings_check, clashes, &mem, &m, &err);
	if (st == STATUS_OK) {
		if (m.client && app->place == AT_CLIENTS)
			app->client = m.client;
		list_again(app, app->place == AT_CLIENTS ? m.client : 0);
		say_merged(app, &m);
	} else if (m.clash_count) {
		show_clashes(app, &m);
	} else {
		app_fail(app, &err);
	}
	arena_free(&mem);
	return st == STATUS_OK || m.clash_count;
}

static void clash_chosen(struct app *app, const struct list_row *choice)
{
	if (choice->id == TAKE)
		take_in(app, STORE_CLASHES_BESIDE);
	else
		app_say(app, "Left as it was.");
}

static bool import_given(struct app *app, const char *text)
{
	return path_given(app, text) && take_in(app, STORE_CLASHES_REFUSED);
}

void act_import(struct app *app, int key)
{
	(void)key;
	prompt_open(app, "File to take in",
	        "A document that was exported. What is here already is left as it is. " WHERE,
	        app->file, import_given)
	        ->most = sizeof app->file - 1;
}

/* --- writing --- */

static bool export_marked(struct app *app, bool replace, bool *taken)
{
	const struct list_row *row = row_marked(app);
	struct arena mem = { 0 };
	const char *json;
	struct error err;
	enum status st;

	*taken = false;
	if (!row)
		return true;
	if (app->place == AT_CLIENTS)
		st = store_export_client(app->store, row->id, &mem, &json, &err);
	else
		st = store_export(app->store, app->place == AT_JOBS ? row->id : app->job,
		        app->place == AT_JOBS ? 0 : row->id, &mem, &json, &err);
	if (st == STATUS_OK)
		st = file_write(app->file, json, replace, taken, &err);
	if (st == STATUS_OK)
		app_say(app, "\"%.60s\" is written to %.200s.", row->words, app->file);
	else if (!*taken)
		app_fail(app, &err);
	arena_free(&mem);
	return st == STATUS_OK;
}

static void replace_chosen(struct app *app, const struct list_row *choice)
{
	bool taken;

	if (choice->id == TAKE)
		export_marked(app, true, &taken);
	else
		app_say(app, "Nothing was written.");
}

static bool export_given(struct app *app, const char *text)
{
	bool taken;

	if (!path_given(app, text))
		return false;
	if (export_marked(app, false, &taken))
		return true;
	if (!taken)
		return false;
	choice_open(app, "There is a file of that name", replace_chosen);
	choice_add(app, "No", "it stays as it is, nothing is written", LEAVE);
	choice_add(app, "Replace it", "what is in it is lost", TAKE);
	return true;
}

/* The name of the row, as far as it makes a file's name. */
void act_export(struct app *app, int key)
{
	const struct list_row *row = row_marked(app);
	char name[120];
	size_t n = 0;

	(void)key;
	if (!row)
		return;
	for (const char *c = row->words; *c && n < 100; c++)
		name[n++] = (char)((unsigned char)*c <= ' ' || strchr("/\\", *c) ? '-' : *c);
	while (n && ((unsigned char)row->words[n] & 0xc0) == 0x80)
		n--;
	snprintf(name + n, sizeof name - n, ".json");
	prompt_open(app, "File to write",
	        "For another laptop: it takes the file in with i at Clients. " WHERE, name,
	        export_given)
	        ->most = sizeof app->file - 1;
}
