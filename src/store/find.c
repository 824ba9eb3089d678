/* find.c - from "client/job/variant" to ids, and back. */
#include "entries.h"

#include <string.h>

enum { PARTS = STORE_LEVELS };

/* Cuts the path at each '/' that has no backslash before it. "\/" is a slash of the name and "\\" a
 * backslash. */
static enum status split(
        const char *path, struct arena *mem, char *part[PARTS], int *count, struct error *err)
{
	char *to = arena_text(mem, path);

	if (!to)
		return error_memory(err);
	*count = 1;
	part[0] = to;
	for (const char *from = path; *from; from++) {
		if (*from == '/') {
			*to++ = '\0';
			if (*count == PARTS && from[1])
				return error_set(err, STATUS_USAGE,
				        "the path \"%s\" has more than three parts; write a slash "
				        "inside a name as \\/",
				        path);
			if (*count == PARTS)
				return error_set(err, STATUS_USAGE,
				        "the path \"%s\" ends in a slash; leave it out", path);
			part[(*count)++] = to;
			continue;
		}
		if (from[0] == '\\') {
			if (from[1] != '/' && from[1] != '\\')
				return error_set(err, STATUS_USAGE,
				        "the path \"%s\" has a backslash before neither a slash "
				        "nor a "
				        "backslash; write one of a name as \\\\",
				        path);
			from++;
		}
		*to++ = *from;
	}
	*to = '\0';
	for (int i = 0; i < *count; i++)
		if (!part[i][0])
			return error_set(err, STATUS_USAGE,
			        "the path \"%s\" has an empty part; give CLIENT, CLIENT/JOB or "
			        "CLIENT/JOB/VARIANT",
			        path);
	return STATUS_OK;
}

/* "there is no job "X"; there are "A", "B"". */
static enum status not_found(
        const char *what, const char *name, const struct store_list *there, struct error *err)
{
	enum { SHOWN = 8 };
	char names[400] = "";

	if (!there->count)
		return error_set(
		        err, STATUS_PLAN, "there is no %s \"%s\"; there are none yet", what, name);
	for (size_t i = 0; i < there->count && i < SHOWN; i++) {
		size_t n = strlen(names);

		sqlite3_snprintf((int)(sizeof names - n), names + n, "%s\"%.60s\"", i ? ", " : "",
		        there->items[i].name);
	}
	return error_set(err, STATUS_PLAN, "there is no %s \"%s\"; there %s %s%s", what, name,
	        there->count == 1 ? "is" : "are", names, there->count > SHOWN ? " and others" : "");
}

enum status store_find(struct store *s, const char *path, struct arena *mem,
        struct store_place *out, struct error *err)
{
	char *part[PARTS] = { NULL };
	int64_t id[PARTS] = { 0 };
	struct store_list there;
	int count = 0;
	enum status st = split(path, mem, part, &count, err);

	for (int i = 0; st == STATUS_OK && i < count; i++) {
		st = entry_by_name(s, (enum store_level)i, i ? id[i - 1] : 0, part[i], &id[i], err);
		if (st != STATUS_OK || id[i])
			continue;
		st = store_entries(
		        s, (enum store_level)i, i ? id[i - 1] : 0, STORE_IN_USE, mem, &there, err);
		if (st == STATUS_OK)
			st = not_found(levels[i].what, part[i], &there, err);
	}
	if (st == STATUS_OK)
		*out = (struct store_place){ id[0], id[1], id[2], part[0], part[1], part[2] };
	return st;
}

enum status store_place_of(struct store *s, int64_t variant, struct arena *mem,
        struct store_place *out, struct error *err)
{
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q,
	        "SELECT c.id, j.id, v.id, c.name, j.title, v.name FROM variants v"
	        " JOIN jobs j ON j.id = v.job JOIN clients c ON c.id = j.client WHERE v.id = ?1"
	        " AND v.gone IS NULL AND j.gone IS NULL AND c.gone IS NULL",
	        VALUES(INT(variant)), err);

	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (row)
		*out = (struct store_place){ sqlite3_column_int64(q, 0), sqlite3_column_int64(q, 1),
			sqlite3_column_int64(q, 2), sql_column(q, 3, mem), sql_column(q, 4, mem),
			sql_column(q, 5, mem) };
	sql_end(q);
	if (st == STATUS_OK && !row)
		return no_such_id("variant", variant, err);
	if (st == STATUS_OK && (!out->client_name || !out->job_title || !out->variant_name))
		return error_memory(err);
	return st;
}
