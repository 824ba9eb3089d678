/* entry_state.c - notes, the archive, deleting and bringing back, copies of variants and jobs.
 *
 * What is deleted stays where it is, marked, with all that is below it; only store_tidy removes
 * rows. */
#include "entries.h"
#include "plan_rows.h"

#include <string.h>

enum status entry_mark(struct store *s, enum store_level level, int64_t id, const char *notes,
        bool archived, struct error *err)
{
	enum status st = STATUS_OK;

	if (*notes)
		st = sql_run(s, levels[level].notes, VALUES(INT(id), TEXT(notes)), err);
	if (st == STATUS_OK && archived)
		st = sql_run(s, levels[level].archive, VALUES(INT(id), INT(1)), err);
	return st;
}

/* Runs one statement on an entry that is there. */
static enum status change(struct store *s, enum store_level level, int64_t id, const char *sql,
        const struct value *values, struct error *err)
{
	int64_t parent;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	st = parent_of(s, level, id, &parent, err);
	if (st == STATUS_OK)
		st = sql_run(s, sql, values, err);
	return sql_finish(s, st, err);
}

enum status store_notes_set(
        struct store *s, enum store_level level, int64_t id, const char *notes, struct error *err)
{
	enum status st = notes_check(notes, "notes", err);

	if (st != STATUS_OK)
		return st;
	return change(s, level, id, levels[level].notes, VALUES(INT(id), TEXT(notes)), err);
}

enum status store_archive(
        struct store *s, enum store_level level, int64_t id, bool archived, struct error *err)
{
	return change(
	        s, level, id, levels[level].archive, VALUES(INT(id), INT(archived ? 1 : 0)), err);
}

enum status store_delete(struct store *s, enum store_level level, int64_t id, struct error *err)
{
	return change(s, level, id, levels[level].remove, VALUES(INT(id)), err);
}

/* --- bringing back --- */

static enum status any_parent(
        struct store *s, enum store_level level, int64_t id, int64_t *parent, struct error *err)
{
	static const char job[] = "SELECT client FROM jobs WHERE id = ?1",
	                  variant[] = "SELECT job FROM variants WHERE id = ?1";

	*parent = 0;
	if (level == STORE_CLIENT)
		return STATUS_OK;
	return sql_number(
	        s, level == STORE_JOB ? job : variant, VALUES(INT(id)), parent, NULL, err);
}

enum status entry_back(
        struct store *s, enum store_level level, int64_t id, bool *gone, struct error *err)
{
	struct arena mem = { 0 };
	const char *name;
	int64_t parent;
	enum status st = sql_text(s, levels[level].gone, VALUES(INT(id)), &mem, &name, err);

	*gone = st == STATUS_OK && name;
	if (*gone)
		st = any_parent(s, level, id, &parent, err);
	if (*gone && st == STATUS_OK)
		st = name_numbered(s, level, parent, name, &mem, &name, err);
	if (*gone && st == STATUS_OK)
		st = sql_run(s, levels[level].bring_back, VALUES(INT(id), TEXT(name)), err);
	arena_free(&mem);
	return st;
}

enum status store_undelete(struct store *s, enum store_level level, int64_t id, struct error *err)
{
	bool gone;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	st = entry_back(s, level, id, &gone, err);
	if (st == STATUS_OK && !gone)
		st = error_set(err, STATUS_PLAN, "there is no deleted %s %lld to bring back",
		        levels[level].what, (long long)id);
	return sql_finish(s, st, err);
}

/* --- tidying --- */

#define GONE_JOBS                                                                                  \
	"(SELECT j.id FROM jobs j JOIN clients c ON c.id = j.client"                               \
	" WHERE j.gone IS NOT NULL OR c.gone IS NOT NULL)"
#define GONE_VARIANTS "(SELECT id FROM variants WHERE gone IS NOT NULL OR job IN " GONE_JOBS ")"
#define OF_VARIANTS(table) "DELETE FROM " table " WHERE variant IN " GONE_VARIANTS

/* What refers comes before what is referred to. */
static const char *const tidying[] = {
	OF_VARIANTS("nodes"),
	OF_VARIANTS("rings"),
	OF_VARIANTS("layings"),
	OF_VARIANTS("planes"),
	OF_VARIANTS("surfaces"),
	OF_VARIANTS("grounds"),
	OF_VARIANTS("edgings"),
	OF_VARIANTS("edge_joints"),
	OF_VARIANTS("borders"),
	OF_VARIANTS("repeats"),
	OF_VARIANTS("mixes"),
	OF_VARIANTS("zone_nodes"),
	OF_VARIANTS("zones"),
	OF_VARIANTS("documents"),
	OF_VARIANTS("edits"),
	OF_VARIANTS("view"),
	"DELETE FROM variants WHERE id IN " GONE_VARIANTS,
	"DELETE FROM jobs WHERE id IN " GONE_JOBS,
	"DELETE FROM clients WHERE gone IS NOT NULL",
};

enum status store_tidy(struct store *s, int64_t *variants, struct error *err)
{
	static const char count[] = "SELECT count(*) FROM variants WHERE id IN " GONE_VARIANTS;
	enum status st = sql_begin(s, err);

	*variants = 0;
	if (st != STATUS_OK)
		return st;
	st = sql_number(s, count, NO_VALUES, variants, NULL, err);
	for (size_t i = 0; st == STATUS_OK && i < sizeof tidying / sizeof *tidying; i++)
		st = sql_run(s, tidying[i], NO_VALUES, err);
	return sql_finish(s, st, err);
}

/* --- copies --- */

/* Notes go with the copy, the archive flag as told. */
static enum status copy_variant(struct store *s, int64_t variant, int64_t job, const char *name,
        bool archived, int64_t *id, struct error *err)
{
	static const char notes_sql[] = "SELECT notes FROM variants WHERE id = ?1";
	struct arena mem = { 0 };
	const char *notes;
	struct plan plan;
	enum status st;

	if ((st = sql_text(s, notes_sql, VALUES(INT(variant)), &mem, &notes, err)) == STATUS_OK &&
	        (st = store_plan(s, variant, &mem, &plan, err)) == STATUS_OK &&
	        (st = variant_insert(s, job, NULL, name, &plan, id, err)) == STATUS_OK)
		st = entry_mark(s, STORE_VARIANT, *id, notes, archived, err);
	arena_free(&mem);
	return st;
}

enum status store_variant_copy_to(struct store *s, int64_t variant, int64_t job, const char *name,
        int64_t *id, struct error *err)
{
	int64_t own, client;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = parent_of(s, STORE_VARIANT, variant, &own, err)) == STATUS_OK && !job)
		job = own;
	if (st == STATUS_OK && (st = parent_of(s, STORE_JOB, job, &client, err)) == STATUS_OK &&
	        (st = name_free(s, STORE_VARIANT, job, name, 0, err)) == STATUS_OK)
		st = copy_variant(s, variant, job, name, false, id, err);
	return sql_finish(s, st, err);
}

enum status store_variant_copy(
        struct store *s, int64_t variant, const char *name, int64_t *id, struct error *err)
{
	return store_variant_copy_to(s, variant, 0, name, id, err);
}

static enum status copy_job(struct store *s, int64_t job, int64_t client, const char *title,
        struct arena *mem, int64_t *id, struct error *err)
{
	static const char notes_sql[] = "SELECT notes FROM jobs WHERE id = ?1";
	struct store_list list;
	const char *notes;
	enum status st;

	if ((st = sql_text(s, notes_sql, VALUES(INT(job)), mem, &notes, err)) != STATUS_OK ||
	        (st = store_entries(s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, mem, &list, err)) !=
	                STATUS_OK ||
	        (st = job_insert(s, client, NULL, title, id, err)) != STATUS_OK ||
	        (st = entry_mark(s, STORE_JOB, *id, notes, false, err)) != STATUS_OK)
		return st;
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++) {
		const struct store_entry *e = &list.items[i];
		int64_t copy;

		st = copy_variant(s, e->id, *id, e->name, e->archived, &copy, err);
	}
	return st;
}

enum status store_job_copy(
        struct store *s, int64_t job, const char *title, int64_t *id, struct error *err)
{
	struct arena mem = { 0 };
	int64_t client;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = parent_of(s, STORE_JOB, job, &client, err)) == STATUS_OK &&
	        (st = name_free(s, STORE_JOB, client, title, 0, err)) == STATUS_OK)
		st = copy_job(s, job, client, title, &mem, id, err);
	arena_free(&mem);
	return sql_finish(s, st, err);
}
