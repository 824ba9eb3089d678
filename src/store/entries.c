/* entries.c - clients, their jobs, the jobs' variants: listing, adding, renaming, copying.
 *
 * The three levels differ in a few words and statements, which a table holds. */
#include "entries.h"

#include "plan_rows.h"

#include <stdio.h>
#include <string.h>

struct level {
	const char *what; /* "client" */
	const char *among; /* where a name may stand only once */
	const char *list, *find, *rename, *parent;
};

enum { CLIENT, JOB, VARIANT };
static const struct level levels[] = {
	[CLIENT] = {
		"client", "in this store",
		"SELECT id, uuid, name, (SELECT count(*) FROM jobs WHERE client = clients.id), changed"
		" FROM clients WHERE ?1 = 0 ORDER BY name COLLATE NOCASE, name",
		"SELECT id FROM clients WHERE ?1 = 0 AND name = ?2",
		"UPDATE clients SET name = ?2, changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE id = ?1",
		"SELECT 0 FROM clients WHERE id = ?1",
	},
	[JOB] = {
		"job", "for this client",
		"SELECT id, uuid, title, (SELECT count(*) FROM variants WHERE job = jobs.id), changed"
		" FROM jobs WHERE client = ?1 ORDER BY title COLLATE NOCASE, title",
		"SELECT id FROM jobs WHERE client = ?1 AND title = ?2",
		"UPDATE jobs SET title = ?2, changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE id = ?1",
		"SELECT client FROM jobs WHERE id = ?1",
	},
	[VARIANT] = {
		"variant", "in this job",
		"SELECT id, uuid, name, 0, changed"
		" FROM variants WHERE job = ?1 ORDER BY name COLLATE NOCASE, name",
		"SELECT id FROM variants WHERE job = ?1 AND name = ?2",
		"UPDATE variants SET name = ?2, changed = strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE id = ?1",
		"SELECT job FROM variants WHERE id = ?1",
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
	};
	return e->uuid && e->name && e->changed ? STATUS_OK : error_memory(err);
}

static enum status list(struct store *s, int level, int64_t parent, struct arena *mem,
        struct store_list *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q, levels[level].list, VALUES(INT(parent)), err);

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
	return list(s, CLIENT, 0, mem, out, err);
}

enum status store_jobs(struct store *s, int64_t client, struct arena *mem, struct store_list *out,
        struct error *err)
{
	return list(s, JOB, client, mem, out, err);
}

enum status store_variants(
        struct store *s, int64_t job, struct arena *mem, struct store_list *out, struct error *err)
{
	return list(s, VARIANT, job, mem, out, err);
}

/* --- names --- */

static enum status by_name(struct store *s, int level, int64_t parent, const char *name,
        int64_t *id, struct error *err)
{
	return sql_number(s, levels[level].find, VALUES(INT(parent), TEXT(name)), id, NULL, err);
}

enum status client_by_name(struct store *s, const char *name, int64_t *id, struct error *err)
{
	return by_name(s, CLIENT, 0, name, id, err);
}

enum status job_by_title(
        struct store *s, int64_t client, const char *title, int64_t *id, struct error *err)
{
	return by_name(s, JOB, client, title, id, err);
}

enum status variant_by_name(
        struct store *s, int64_t job, const char *name, int64_t *id, struct error *err)
{
	return by_name(s, VARIANT, job, name, id, err);
}

/* Refuses a name that cannot stand, or that another one of the siblings has. */
static enum status name_free(struct store *s, int level, int64_t parent, const char *name,
        int64_t self, struct error *err)
{
	const struct level *l = &levels[level];
	int64_t other;
	enum status st;

	if ((st = text_check(name, 1, level == JOB ? "title" : "name", err)) != STATUS_OK)
		return st;
	if ((st = by_name(s, level, parent, name, &other, err)) != STATUS_OK)
		return st;
	if (other && other != self)
		return error_set(err, STATUS_PLAN,
		        "there is a %s \"%s\" %s already; give another name", l->what, name,
		        l->among);
	return STATUS_OK;
}

static enum status parent_of(
        struct store *s, int level, int64_t id, int64_t *parent, struct error *err)
{
	bool found;
	enum status st = sql_number(s, levels[level].parent, VALUES(INT(id)), parent, &found, err);

	return st == STATUS_OK && !found ? no_such_id(levels[level].what, id, err) : st;
}

static enum status rename_entry(
        struct store *s, int level, int64_t id, const char *name, struct error *err)
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
	return rename_entry(s, CLIENT, client, name, err);
}

enum status store_job_rename(struct store *s, int64_t job, const char *title, struct error *err)
{
	return rename_entry(s, JOB, job, title, err);
}

enum status store_variant_rename(
        struct store *s, int64_t variant, const char *name, struct error *err)
{
	return rename_entry(s, VARIANT, variant, name, err);
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
	if ((st = name_free(s, CLIENT, 0, name, 0, err)) == STATUS_OK)
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
	if ((st = parent_of(s, CLIENT, client, &none, err)) == STATUS_OK &&
	        (st = name_free(s, JOB, client, title, 0, err)) == STATUS_OK)
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
	if ((st = parent_of(s, JOB, job, &client, err)) == STATUS_OK &&
	        (st = name_free(s, VARIANT, job, name, 0, err)) == STATUS_OK)
		st = variant_insert(s, job, NULL, name, &plan, id, err);
	return sql_finish(s, st, err);
}

enum status store_variant_copy(
        struct store *s, int64_t variant, const char *name, int64_t *id, struct error *err)
{
	struct arena mem = { 0 };
	struct plan plan;
	int64_t job;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = parent_of(s, VARIANT, variant, &job, err)) == STATUS_OK &&
	        (st = name_free(s, VARIANT, job, name, 0, err)) == STATUS_OK &&
	        (st = store_plan(s, variant, &mem, &plan, err)) == STATUS_OK)
		st = variant_insert(s, job, NULL, name, &plan, id, err);
	arena_free(&mem);
	return sql_finish(s, st, err);
}
