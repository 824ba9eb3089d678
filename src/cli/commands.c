/* commands.c - what each command does: open the store, find the place, and let store, computation,
 * sheets or planner do the work. */
#include "command.h"
#include "slabwright/planner.h"

#include <inttypes.h>
#include <string.h>
#include <unistd.h>

/* Units of work for a ranking of start lines, about a minute of them; and of a slice. */
static const int64_t RANKING_WORK = 60000000, RANKING_SLICE = 100000;

/* The demo document's first variant; a UUID finds it whatever it has been renamed to. */
#define DEMO_VARIANT "5d0f3a52-7c1e-4b8a-9a44-0c2f6be1d7a1"

static enum status open_store(
        struct run *run, const char *path, enum store_mode mode, struct error *err)
{
	const char *share;
	enum status st = place_of_share(run, &share, err);

	if (st != STATUS_OK)
		return st;
	return store_open(&run->store, path, mode, share, err);
}

enum status open_usual(struct run *run, enum store_mode mode, struct error *err)
{
	const char *path;
	enum status st = place_of_store(run, &path, err);

	return st == STATUS_OK ? open_store(run, path, mode, err) : st;
}

static bool has_terminal(void)
{
	return isatty(STDIN_FILENO) && isatty(STDOUT_FILENO);
}

static enum status start_planner(struct run *run, int64_t variant, struct error *err)
{
	const struct request *r = run->request;
	struct planner_options options = {
		.variant = variant,
		.ascii = r->ascii,
		.colour = !r->no_colour && !(run->env->no_color && *run->env->no_color),
	};

	return planner_run(run->store, &options, err);
}

static enum status no_terminal(struct error *err)
{
	return error_set(err, STATUS_USAGE,
	        "The planner needs a terminal for both input and output. Without one, `slabwright "
	        "takeoff PATH` prints figures; `slabwright --help` lists what else there is.");
}

enum status command_planner(struct run *run, struct error *err)
{
	enum status st;

	if (!has_terminal())
		return no_terminal(err);
	if ((st = open_usual(run, STORE_MAY_CREATE, err)) != STATUS_OK)
		return st;
	return start_planner(run, 0, err);
}

enum status find_place(struct run *run, struct store_place *place, struct error *err)
{
	enum status st = open_usual(run, STORE_MUST_EXIST, err);

	if (st != STATUS_OK)
		return st;
	return store_find(run->store, run->request->arguments[0], &run->mem, place, err);
}

enum status find_variant(struct run *run, int64_t *variant, struct error *err)
{
	struct store_place place;
	enum status st = find_place(run, &place, err);

	if (st == STATUS_OK && !place.variant)
		st = error_set(err, STATUS_USAGE,
		        "%s: \"%s\" names no variant; give CLIENT/JOB/VARIANT. `slabwright list` "
		        "shows them.",
		        run->request->command->name, run->request->arguments[0]);
	if (st == STATUS_OK)
		*variant = place.variant;
	return st;
}

enum status command_open(struct run *run, struct error *err)
{
	int64_t variant;
	enum status st;

	if (!has_terminal())
		return no_terminal(err);
	st = find_variant(run, &variant, err);
	return st == STATUS_OK ? start_planner(run, variant, err) : st;
}

static enum status print_figures(
        struct run *run, int64_t variant, sheet_fn *sheet, struct error *err)
{
	struct takeoff t;
	enum status st = takeoff_variant(&run->mem, run->store, variant, &t, err);

	while (st == STATUS_OK && takeoff_improve(&run->mem, &t, LOOKS))
		;
	if (st == STATUS_OK)
		st = sheet(stdout, &t, run->request->form, err);
	return run->request->argument_count ? error_place(err, st, run->request->arguments[0]) : st;
}

enum status work_out_place(
        struct run *run, struct store_place *place, struct takeoff *t, struct error *err)
{
	int64_t variant;
	enum status st = find_variant(run, &variant, err);

	if (st == STATUS_OK)
		st = store_place_of(run->store, variant, &run->mem, place, err);
	if (st == STATUS_OK)
		st = takeoff_variant(&run->mem, run->store, variant, t, err);
	while (st == STATUS_OK && takeoff_improve(&run->mem, t, LOOKS))
		;
	return st;
}

enum status command_figures(struct run *run, struct error *err)
{
	int64_t variant;
	enum status st = find_variant(run, &variant, err);

	if (st != STATUS_OK)
		return st;
	return print_figures(run, variant, run->request->command->sheet, err);
}

/* Ranks to the end, or until the work is used up. */
static enum status rank_starts(
        struct run *run, const struct takeoff *t, struct start_list *list, struct error *err)
{
	struct start_search *search;
	enum status st = startline_begin(&run->mem, t, run->request->turned, &search, err);

	for (int64_t left = RANKING_WORK; st == STATUS_OK && left > 0; left -= RANKING_SLICE) {
		if (startline_done(search))
			break;
		st = startline_step(search, RANKING_SLICE, err);
	}
	if (st == STATUS_OK)
		startline_best(search, list);
	return st;
}

enum status command_startlines(struct run *run, struct error *err)
{
	struct start_list list;
	struct takeoff t;
	int64_t variant;
	enum status st = find_variant(run, &variant, err);

	if (st != STATUS_OK)
		return st;
	st = takeoff_variant(&run->mem, run->store, variant, &t, err);
	while (st == STATUS_OK && takeoff_improve(&run->mem, &t, LOOKS))
		;
	if (st == STATUS_OK && (st = rank_starts(run, &t, &list, err)) == STATUS_OK)
		st = sheet_startlines(stdout, &t, &list, run->request->form, err);
	return error_place(err, st, run->request->arguments[0]);
}

/* Called for every place of the store that has no places in it. */
typedef enum status visit_fn(
        struct run *run, const struct store_entry *const path[3], void *context, struct error *err);

static enum store_which which(const struct run *run)
{
	return run->request->archived ? STORE_WITH_ARCHIVED : STORE_IN_USE;
}

static enum status visit_job(struct run *run, const struct store_entry *path[3], visit_fn *visit,
        void *context, struct error *err)
{
	struct store_list variants;
	enum status st = store_entries(
	        run->store, STORE_VARIANT, path[1]->id, which(run), &run->mem, &variants, err);

	path[2] = NULL;
	if (st == STATUS_OK && !variants.count)
		return visit(run, path, context, err);
	for (size_t i = 0; st == STATUS_OK && i < variants.count; i++) {
		path[2] = variants.items + i;
		st = visit(run, path, context, err);
	}
	return st;
}

static enum status visit_client(struct run *run, const struct store_entry *path[3], visit_fn *visit,
        void *context, struct error *err)
{
	struct store_list jobs;
	enum status st = store_entries(
	        run->store, STORE_JOB, path[0]->id, which(run), &run->mem, &jobs, err);

	path[1] = path[2] = NULL;
	if (st == STATUS_OK && !jobs.count)
		return visit(run, path, context, err);
	for (size_t i = 0; st == STATUS_OK && i < jobs.count; i++) {
		path[1] = jobs.items + i;
		st = visit_job(run, path, visit, context, err);
	}
	return st;
}

static enum status visit_store(struct run *run, visit_fn *visit, void *context, struct error *err)
{
	struct store_list clients;
	const struct store_entry *path[3] = { NULL };
	enum status st =
	        store_entries(run->store, STORE_CLIENT, 0, which(run), &run->mem, &clients, err);

	for (size_t i = 0; st == STATUS_OK && i < clients.count; i++) {
		path[0] = clients.items + i;
		st = visit_client(run, path, visit, context, err);
	}
	return st;
}

/* A name as a part of a PATH. */
static enum status put_name(struct run *run, const char *name, struct error *err)
{
	char *escaped = arena_alloc(&run->mem, 2 * strlen(name) + 1, 1), *to = escaped;

	if (!escaped)
		return error_memory(err);
	for (; *name; name++) {
		if (*name == '/' || *name == '\\')
			*to++ = '\\';
		*to++ = *name;
	}
	sheet_put_text(stdout, escaped);
	return STATUS_OK;
}

static enum status print_path(
        struct run *run, const struct store_entry *const path[3], void *context, struct error *err)
{
	enum status st = STATUS_OK;

	(void)context;
	for (int i = 0; i < 3 && path[i] && st == STATUS_OK; i++) {
		if (i)
			putchar('/');
		st = put_name(run, path[i]->name, err);
	}
	putchar('\n');
	return st;
}

enum status command_list(struct run *run, struct error *err)
{
	enum status st = open_usual(run, STORE_MUST_EXIST, err);

	return st == STATUS_OK ? visit_store(run, print_path, NULL, err) : st;
}

static enum status find_demo(
        struct run *run, const struct store_entry *const path[3], void *variant, struct error *err)
{
	(void)run;
	(void)err;
	if (path[2] && strcmp(path[2]->uuid, DEMO_VARIANT) == 0)
		*(int64_t *)variant = path[2]->id;
	return STATUS_OK;
}

static enum status import_demo(struct run *run, int64_t *variant, struct error *err)
{
	const char *share, *path, *text;
	size_t length;
	struct store_merged m;
	enum status st = place_of_share(run, &share, err);

	if (st != STATUS_OK)
		return st;
	if (!(path = arena_print(&run->mem, "%s/demo.json", share)))
		return error_memory(err);
	if ((st = file_read(&run->mem, path, &text, &length, err)) != STATUS_OK)
		return st;
	st = import_file(run, text, length, STORE_CLASHES_REFUSED, &m, err);
	*variant = m.variant;
	return st;
}

enum status command_demo(struct run *run, struct error *err)
{
	const char *path;
	int64_t variant = 0;
	enum status st = place_of_demo_store(run, &path, err);

	if (st == STATUS_OK)
		st = open_store(run, path, STORE_MAY_CREATE, err);
	if (st == STATUS_OK)
		st = visit_store(run, find_demo, &variant, err);
	if (st == STATUS_OK && !variant)
		st = import_demo(run, &variant, err);
	if (st != STATUS_OK)
		return st;
	return has_terminal() ? start_planner(run, variant, err)
	                      : print_figures(run, variant, sheet_takeoff, err);
}
