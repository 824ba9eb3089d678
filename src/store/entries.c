/* entries.c - clients, their jobs, the jobs' variants: listing, adding, renaming.
 *
 * The three levels differ in a few words and statements, which a table holds. */
#include "entries.h"

#include "plan_rows.h"

#include <stdio.h>
#include <string.h>

#define NOW "strftime('%Y-%m-%dT%H:%M:%SZ', 'now')"
/* ?2: those in use, all with the archived ones, or the deleted ones under the name they had. */
#define LISTED(table, name, children)                                                              \
	"SELECT id, uuid, coalesce(gone, " name "), " children ", changed, notes, archived"        \
	" FROM " table " WHERE CASE ?2 WHEN 0 THEN gone IS NULL AND NOT archived"                  \
	" WHEN 1 THEN gone IS NULL ELSE gone IS NOT NULL END"
#define ORDERED(name) " ORDER BY archived, " name " COLLATE NOCASE, " name
#define COUNTED(table, parent)                                                                     \
	"(SELECT count(*) FROM " table " AS below WHERE below." parent                             \
	" AND below.gone IS NULL AND NOT below.archived)"
#define CHANGES(table, name)                                                                       \
	.rename = "UPDATE " table " SET " name " = ?2, changed = " NOW " WHERE id = ?1",           \
	.notes = "UPDATE " table " SET notes = ?2, changed = " NOW " WHERE id = ?1",               \
	.archive = "UPDATE " table " SET archived = ?2 WHERE id = ?1",                             \
	.remove = "UPDATE " table " SET gone = " name ", " name " = uuid, changed = " NOW          \
	          " WHERE id = ?1 AND gone IS NULL",                                               \
	.bring_back = "UPDATE " table " SET " name " = ?2, gone = NULL WHERE id = ?1",             \
	.gone = "SELECT gone FROM " table " WHERE id = ?1 AND gone IS NOT NULL",                   \
	.by_uuid = "SELECT id FROM " table " WHERE uuid = ?1"

const struct level levels[STORE_LEVELS] = {
	[STORE_CLIENT] = {
		.what = "client", .among = "in this store",
		.list = LISTED("clients", "name", COUNTED("jobs", "client = clients.id"))
		        " AND ?1 = 0" ORDERED("name"),
		.find = "SELECT id FROM clients WHERE ?1 = 0 AND name = ?2 AND gone IS NULL",
		.parent = "SELECT 0 FROM clients WHERE id = ?1 AND gone IS NULL",
		CHANGES("clients", "name"),
	},
	[STORE_JOB] = {
		.what = "job", .among = "for this client",
		.list = LISTED("jobs", "title", COUNTED("variants", "job = jobs.id"))
		        " AND client = ?1" ORDERED("title"),
		.find = "SELECT id FROM jobs WHERE client = ?1 AND title = ?2 AND gone IS NULL",
		.parent = "SELECT client FROM jobs WHERE id = ?1 AND gone IS NULL",
		CHANGES("jobs", "title"),
	},
	[STORE_VARIANT] = {
		.what = "variant", .among = "in this job",
		.list = LISTED("variants", "name", "0") " AND job = ?1" ORDERED("name"),
		.find = "SELECT id FROM variants WHERE job = ?1 AND name = ?2 AND gone IS NULL",
		.parent = "SELECT job FROM variants WHERE id = ?1 AND gone IS NULL",
		CHANGES("variants", "name"),
	},
};

enum status no_such_id(const char *what, int64_t id, struct error *err)
{
	return error_set(err, STATUS_PLAN,
	        "there is no %s %lld in the store; it may have been removed", what, (long long)id);
}

void uuid_make(char uuid[UUID_SIZE])
{
	unsigned char b[16];
	char *at = uuid;

	sqlite3_randomness(sizeof b, b);
	b[6] = (unsigned char)((b[6] & 0x0F) | 0x40);
	b[8] = (unsigned char)((b[8] & 0x3F) | 0x80);
	for (int i = 0; i < 16; i++)
		at += snprintf(
		        at, 4, i == 4 || i == 6 || i == 8 || i == 10 ? "-%02x" : "%02x", b[i]);
}

/* --- lists --- */

static enum status read_entry(
        sqlite3_stmt *q, struct arena *mem, struct store_entry *e, struct error *err)
{
	*e = (struct store_entry){
		.id = sqlite3_column_int64(q, 0),
		.uuid = sql_column(q, 1, mem),
		.name = sql_column(q, 2, mem),
		.children = sqlite3_column_int64(q, 3),
		.changed = sql_column(q, 4, mem),
		.notes = sql_column(q, 5, mem),
		.archived = sqlite3_column_int(q, 6) != 0,
	};
	return e->uuid && e->name && e->changed && e->notes ? STATUS_OK : error_memory(err);
}

enum status store_entries(struct store *s, enum store_level level, int64_t parent,
        enum store_which which, struct arena *mem, struct store_list *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q, levels[level].list, VALUES(INT(parent), INT(which)), err);

	*out = (struct store_list){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct store_entry *grown =
		        arena_grow(mem, out->items, out->count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		out->items = grown;
		st = read_entry(q, mem, &out->items[out->count++], err);
	}
	sql_end(q);
	return st;
}

enum status store_clients(
        struct store *s, struct arena *mem, struct store_list *out, struct error *err)
{
	return store_entries(s, STORE_CLIENT, 0, STORE_IN_USE, mem, out, err);
}

enum status store_jobs(struct store *s, int64_t client, struct arena *mem, struct store_list *out,
        struct error *err)
{
	return store_entries(s, STORE_JOB, client, STORE_IN_USE, mem, out, err);
}

enum status store_variants(
        struct store *s, int64_t job, struct arena *mem, struct store_list *out, struct error *err)
{
	return store_entries(s, STORE_VARIANT, job, STORE_IN_USE, mem, out, err);
}

/* --- names --- */

enum status entry_by_name(struct store *s, enum store_level level, int64_t parent, const char *name,
        int64_t *id, struct error *err)
{
	return sql_number(s, levels[level].find, VALUES(INT(parent), TEXT(name)), id, NULL, err);
}

enum status name_free(struct store *s, enum store_level level, int64_t parent, const char *name,
        int64_t self, struct error *err)
{
	const struct level *l = &levels[level];
	int64_t other;
	enum status st;

	if ((st = text_check(name, 1, level == STORE_JOB ? "title" : "name", err)) != STATUS_OK)
		return st;
	if ((st = entry_by_name(s, level, parent, name, &other, err)) != STATUS_OK)
		return st;
	if (!other || other == self)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "there is a %s \"%s\" %s already, maybe among the archived ones; give another name",
	        l->what, name, l->among);
}

enum status name_numbered(struct store *s, enum store_level level, int64_t parent, const char *name,
        struct arena *mem, const char **out, struct error *err)
{
	size_t n = strlen(name);
	int64_t taken;
	enum status st;

	*out = name;
	/* Room for the number, and no half character. */
	while (n > NAME_LONGEST - 12 || !utf8_valid(name, n))
		n--;
	for (int number = 2;; number++) {
		st = entry_by_name(s, level, parent, *out, &taken, err);
		if (st != STATUS_OK || !taken)
			return st;
		*out = arena_print(mem, "%.*s %d", (int)n, name, number);
		if (!*out)
			return error_memory(err);
	}
}

enum status parent_of(
        struct store *s, enum store_level level, int64_t id, int64_t *parent, struct error *err)
{
	bool found;
	enum status st = sql_number(s, levels[level].parent, VALUES(INT(id)), parent, &found, err);

	return st == STATUS_OK && !found ? no_such_id(levels[level].what, id, err) : st;
}

static enum status rename_entry(
        struct store *s, enum store_level level, int64_t id, const char *name, struct error *err)
{
	int64_t parent;
	enum status st;

	if ((st = sql_begin(s, err)) != STATUS_OK)
		return st;
	if ((st = parent_of(s, level, id, &parent, err)) == STATUS_OK &&
	        (st = name_free(s, level, parent, name, id, err)) == STATUS_OK)
		st = sql_run(s, levels[level].rename, VALUES(INT(id), TEXT(name)), err);
	return sql_finish(s, st, err);
}

enum status store_client_rename(
        struct store *s, int64_t client, const char *name, struct error *err)
{
	return rename_entry(s, STORE_CLIENT, client, name, err);
}

enum status store_job_rename(struct store *s, int64_t job, const char *title, struct error *err)
{
	return rename_entry(s, STORE_JOB, job, title, err);
}

enum status store_variant_rename(
        struct store *s, int64_t variant, const char *name, struct error *err)
{
	return rename_entry(s, STORE_VARIANT, variant, name, err);
}

enum status variant_touch(struct store *s, int64_t variant, struct error *err)
{
	enum status st = sql_run(s,
	        "UPDATE variants SET changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE id = ?1",
	        VALUES(INT(variant)), err);

	if (st == STATUS_OK)
		st = sql_run(s,
		        "UPDATE jobs SET changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now')"
		        " WHERE id = (SELECT job FROM variants WHERE id = ?1)",
		        VALUES(INT(variant)), err);
	if (st == STATUS_OK)
		st = sql_run(s,
		        "UPDATE clients SET changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE "
		        "id ="
		        " (SELECT client FROM jobs WHERE id = (SELECT job FROM variants WHERE id = "
		        "?1))",
		        VALUES(INT(variant)), err);
	return st;
}

/* --- adding --- */

/* Runs an INSERT and tells the new row's id. */
static enum status insert(struct store *s, const char *sql, const struct value *values, int64_t *id,
        struct error *err)
{
	enum status st = sql_run(s, sql, values, err);

	if (st == STATUS_OK)
		*id = sqlite3_last_insert_rowid(s->db);
	return st;
}

enum status client_insert(
        struct store *s, const char *uuid, const char *name, int64_t *id, struct error *err)
{
	char made[UUID_SIZE];

	uuid_make(made);
	return insert(s, "INSERT INTO clients (uuid, name) VALUES (?1, ?2)",
	        VALUES(TEXT(uuid ? uuid : made), TEXT(name)), id, err);
}

enum status job_insert(struct store *s, int64_t client, const char *uuid, const char *title,
        int64_t *id, struct error *err)
{
	char made[UUID_SIZE];

	uuid_make(made);
	return insert(s, "INSERT INTO jobs (uuid, title, client) VALUES (?1, ?2, ?3)",
	        VALUES(TEXT(uuid ? uuid : made), TEXT(title), INT(client)), id, err);
}

enum status variant_insert(struct store *s, int64_t job, const char *uuid, const char *name,
        const struct plan *plan, int64_t *id, struct error *err)
{
	char made[UUID_SIZE];
	enum status st;

	uuid_make(made);
	st = insert(s, "INSERT INTO variants (uuid, name, job, rule_set) VALUES (?1, ?2, ?3, ?4)",
	        VALUES(TEXT(uuid ? uuid : made), TEXT(name), INT(job), TEXT(plan->rule_set)), id,
	        err);
	if (st == STATUS_OK)
		st = plan_insert(s, *id, plan, err);
	return st == STATUS_OK ? variant_touch(s, *id, err) : st;
}

enum status store_client_add(struct store *s, const char *name, int64_t *id, struct error *err)
{
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = name_free(s, STORE_CLIENT, 0, name, 0, err)) == STATUS_OK)
		st = client_insert(s, NULL, name, id, err);
	return sql_finish(s, st, err);
}

enum status store_job_add(
        struct store *s, int64_t client, const char *title, int64_t *id, struct error *err)
{
	int64_t none;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = parent_of(s, STORE_CLIENT, client, &none, err)) == STATUS_OK &&
	        (st = name_free(s, STORE_JOB, client, title, 0, err)) == STATUS_OK)
		st = job_insert(s, client, NULL, title, id, err);
	return sql_finish(s, st, err);
}

enum status store_variant_add(
        struct store *s, int64_t job, const char *name, int64_t *id, struct error *err)
{
	struct plan plan;
	int64_t client;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	plan_init(&plan);
	if ((st = parent_of(s, STORE_JOB, job, &client, err)) == STATUS_OK &&
	        (st = name_free(s, STORE_VARIANT, job, name, 0, err)) == STATUS_OK)
		st = variant_insert(s, job, NULL, name, &plan, id, err);
	return sql_finish(s, st, err);
}
