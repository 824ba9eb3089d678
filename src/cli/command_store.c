/* command_store.c - what goes in and out of the store: documents, copies of the whole, tidying; and
 * a job's variants side by side. */
#include "command.h"
#include "slabwright/compare.h"

#include <inttypes.h>
#include <string.h>

static void put_place(FILE *to, const char *client, const char *job, const char *variant)
{
	const char *const parts[] = { client, job, variant };

	for (int i = 0; i < 3; i++) {
		if (!parts[i])
			continue;
		if (i)
			fputs(" / ", to);
		sheet_put_text(to, parts[i]);
	}
}

static void say_count(size_t n, const char *what)
{
	if (n)
		printf("  %zu %s\n", n, what);
}

static enum status say_imported(struct run *run, const struct store_merged *m, struct error *err)
{
	struct store_list clients;
	enum status st = store_entries(
	        run->store, STORE_CLIENT, 0, STORE_WITH_ARCHIVED, &run->mem, &clients, err);
	struct store_place at = { 0 };

	if (st == STATUS_OK && m->variant)
		st = store_place_of(run->store, m->variant, &run->mem, &at, err);
	for (size_t i = 0; st == STATUS_OK && i < clients.count; i++)
		if (clients.items[i].id == m->client)
			at.client_name = clients.items[i].name;
	if (st != STATUS_OK)
		return st;
	if (m->added)
		printf("Imported %zu variant%s into ", m->added, m->added == 1 ? "" : "s");
	else
		fputs(m->back || m->joined ? "Brought together with "
		                           : "Nothing new: all of it is there already, in ",
		        stdout);
	put_place(stdout, at.client_name, at.job_title, NULL);
	fputs(".\n", stdout);
	say_count(m->beside, "of them beside those here, named \"... (from other)\"");
	say_count(m->back, "deleted here before, brought back");
	say_count(m->joined, "with notes of both sides, one behind the other");
	return STATUS_OK;
}

/* What clashes, all of it: the error has room for the first only. */
static void tell_clashes(const struct store_merged *m)
{
	for (size_t i = 0; i < m->clash_count; i++) {
		const struct store_clash *c = &m->clashes[i];

		fputs("differs: ", stderr);
		put_place(stderr, c->client, c->job, c->variant);
		fprintf(stderr, "%s: %s\n", c->deleted ? " (deleted here)" : "", c->parts);
	}
}

enum status import_file(struct run *run, const char *text, size_t length,
        enum store_clashes clashes, struct store_merged *out, struct error *err)
{
	return store_merge(
	        run->store, text, length, plan_rings_check, clashes, &run->mem, out, err);
}

enum status command_import(struct run *run, struct error *err)
{
	const struct request *r = run->request;
	const char *text;
	size_t length;
	struct store_merged m = { 0 };
	enum status st = file_read(&run->mem, r->arguments[0], &text, &length, err);

	if (st == STATUS_OK)
		st = open_usual(run, STORE_MAY_CREATE, err);
	if (st != STATUS_OK)
		return st;
	st = error_place(err,
	        import_file(run, text, length,
	                r->beside ? STORE_CLASHES_BESIDE : STORE_CLASHES_REFUSED, &m, err),
	        r->arguments[0]);
	if (st != STATUS_OK)
		tell_clashes(&m);
	return st == STATUS_OK ? say_imported(run, &m, err) : st;
}

enum status command_export(struct run *run, struct error *err)
{
	struct store_place place;
	const char *json;
	enum status st = find_place(run, &place, err);

	if (st != STATUS_OK)
		return st;
	st = place.job ? store_export(run->store, place.job, place.variant, &run->mem, &json, err)
	               : store_export_client(run->store, place.client, &run->mem, &json, err);
	if (st == STATUS_OK)
		fputs(json, stdout);
	return st;
}

/* --- copies --- */

enum status command_backup(struct run *run, struct error *err)
{
	const char *file = run->request->arguments[0];
	enum status st = open_usual(run, STORE_MUST_EXIST, err);

	if (st == STATUS_OK)
		st = store_backup(run->store, file, err);
	if (st != STATUS_OK)
		return st;
	fputs("The whole store is in ", stdout);
	sheet_put_text(stdout, file);
	fputs(".\n", stdout);
	return STATUS_OK;
}

enum status command_restore(struct run *run, struct error *err)
{
	const char *path, *kept;
	enum status st = place_of_store(run, &path, err);

	if (st == STATUS_OK)
		st = store_restore(path, run->request->arguments[0], &run->mem, &kept, err);
	if (st != STATUS_OK)
		return st;
	fputs("The store is that of ", stdout);
	sheet_put_text(stdout, run->request->arguments[0]);
	if (kept) {
		fputs(" now; the one before is kept in ", stdout);
		sheet_put_text(stdout, kept);
	}
	fputs(".\n", stdout);
	return STATUS_OK;
}

enum status command_tidy(struct run *run, struct error *err)
{
	int64_t variants;
	enum status st = open_usual(run, STORE_MUST_EXIST, err);

	if (st == STATUS_OK)
		st = store_tidy(run->store, &variants, err);
	if (st == STATUS_OK)
		printf("Deleted for good: %" PRId64 " variant%s.\n", variants,
		        variants == 1 ? "" : "s");
	return st;
}

/* --- side by side --- */

static enum status column(struct run *run, const struct store_entry *variant,
        struct compare_column *out, struct error *err)
{
	struct arena mem = { 0 };
	struct takeoff t;
	enum status st = takeoff_variant(&mem, run->store, variant->id, &t, err);

	while (st == STATUS_OK && takeoff_improve(&mem, &t, LOOKS))
		;
	if (st == STATUS_OK)
		compare_column_of(&t, out);
	out->name = variant->name;
	arena_free(&mem);
	return st;
}

enum status command_compare(struct run *run, struct error *err)
{
	struct compare_column *columns;
	struct store_place place;
	struct store_list list;
	enum status st = find_place(run, &place, err);

	if (st == STATUS_OK && (!place.job || place.variant))
		st = error_set(err, STATUS_USAGE,
		        "compare: \"%s\" names no job; give CLIENT/JOB, all of whose variants are "
		        "set side by side. `slabwright list` shows them.",
		        run->request->arguments[0]);
	if (st == STATUS_OK)
		st = store_variants(run->store, place.job, &run->mem, &list, err);
	if (st != STATUS_OK)
		return st;
	if (!list.count)
		return error_set(err, STATUS_PLAN,
		        "%s: there is no variant in this job that is not archived; add one in the "
		        "planner",
		        run->request->arguments[0]);
	columns = arena_alloc(&run->mem, list.count, sizeof *columns);
	if (!columns)
		return error_memory(err);
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++)
		st = column(run, &list.items[i], &columns[i], err);
	if (st != STATUS_OK)
		return error_place(err, st, run->request->arguments[0]);
	return sheet_compare(stdout, place.job_title, columns, list.count, run->request->form, err);
}
