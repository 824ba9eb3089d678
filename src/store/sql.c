/* sql.c - running statements, and saying why one could not be run. */
#include "sql.h"

#include <stdlib.h>
#include <string.h>

struct fault {
	int code;
	const char *words;
};

static const struct fault faults[] = {
	{ SQLITE_BUSY, "the store is locked by another program; close that one, or try again in a "
	               "moment" },
	{ SQLITE_LOCKED, "the store is locked by another program; close that one, or try again in "
	                 "a moment" },
	{ SQLITE_READONLY, "the store may not be written; give yourself the right to write it and "
	                   "its folder" },
	{ SQLITE_PERM, "the store may not be used; give yourself the right to read and write it" },
	{ SQLITE_CANTOPEN, "the store or the files beside it cannot be opened; see that its folder "
	                   "may be written" },
	{ SQLITE_FULL, "the disk is full; make room and try again" },
	{ SQLITE_CORRUPT, "the store is damaged; go back to a copy of it" },
	{ SQLITE_NOTADB, "the store is damaged; go back to a copy of it" },
};

enum status sql_fault(struct store *s, struct error *err)
{
	int code = sqlite3_errcode(s->db) & 0xFF;

	if (code == SQLITE_NOMEM)
		return error_memory(err);
	for (size_t i = 0; i < sizeof faults / sizeof *faults; i++)
		if (faults[i].code == code)
			return error_set(err, STATUS_STORE, "%s: %s", s->path, faults[i].words);
	return error_set(err, STATUS_STORE, "%s: the store could not be read or written (%s)",
	        s->path, sqlite3_errmsg(s->db));
}

static enum status prepare(struct store *s, sqlite3_stmt **q, const char *sql, struct error *err)
{
	struct statement *grown;

	for (size_t i = 0; i < s->count; i++)
		if (s->statements[i].sql == sql) {
			*q = s->statements[i].q;
			return STATUS_OK;
		}
	if (s->count == s->capacity) {
		size_t room = s->capacity ? s->capacity * 2 : 32;

		grown = realloc(s->statements, room * sizeof *grown);
		if (!grown)
			return error_memory(err);
		s->statements = grown;
		s->capacity = room;
	}
	if (sqlite3_prepare_v3(s->db, sql, -1, SQLITE_PREPARE_PERSISTENT, q, NULL) != SQLITE_OK)
		return sql_fault(s, err);
	s->statements[s->count++] = (struct statement){ sql, *q };
	return STATUS_OK;
}

static int bind(sqlite3_stmt *q, int at, const struct value *v)
{
	switch (v->type) {
	case VALUE_INT:
		return sqlite3_bind_int64(q, at, v->i);
	case VALUE_REAL:
		return sqlite3_bind_double(q, at, v->r);
	default:
		return sqlite3_bind_text(q, at, v->t, -1, SQLITE_STATIC);
	}
}

enum status sql_start(struct store *s, sqlite3_stmt **q, const char *sql,
        const struct value *values, struct error *err)
{
	enum status st = prepare(s, q, sql, err);

	if (st != STATUS_OK) {
		*q = NULL;
		return st;
	}
	sqlite3_reset(*q);
	for (int i = 0; values[i].type != VALUE_END; i++)
		if (bind(*q, i + 1, &values[i]) != SQLITE_OK)
			return sql_fault(s, err);
	return STATUS_OK;
}

enum status sql_next(struct store *s, sqlite3_stmt *q, bool *row, struct error *err)
{
	int rc = sqlite3_step(q);
	enum status st;

	*row = rc == SQLITE_ROW;
	if (rc == SQLITE_ROW || rc == SQLITE_DONE)
		return STATUS_OK;
	st = sql_fault(s, err);
	sqlite3_reset(q);
	return st;
}

void sql_end(sqlite3_stmt *q)
{
	if (!q)
		return;
	sqlite3_reset(q);
	sqlite3_clear_bindings(q);
}

enum status sql_run(struct store *s, const char *sql, const struct value *values, struct error *err)
{
	return sql_number(s, sql, values, NULL, NULL, err);
}

enum status sql_number(struct store *s, const char *sql, const struct value *values,
        int64_t *number, bool *found, struct error *err)
{
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q, sql, values, err);

	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (number)
		*number = row ? sqlite3_column_int64(q, 0) : 0;
	if (found)
		*found = row;
	sql_end(q);
	return st;
}

const char *sql_column(sqlite3_stmt *q, int column, struct arena *mem)
{
	return arena_text(mem, (const char *)sqlite3_column_text(q, column));
}

enum status sql_text(struct store *s, const char *sql, const struct value *values,
        struct arena *mem, const char **text, struct error *err)
{
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q, sql, values, err);

	*text = NULL;
	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (row && !(*text = sql_column(q, 0, mem)))
		st = error_memory(err);
	sql_end(q);
	return st;
}

enum status sql_script(struct store *s, const char *sql, struct error *err)
{
	return sqlite3_exec(s->db, sql, NULL, NULL, NULL) == SQLITE_OK ? STATUS_OK
	                                                               : sql_fault(s, err);
}

static const char commit[] = "COMMIT", rollback[] = "ROLLBACK";

enum status sql_begin(struct store *s, struct error *err)
{
	sqlite3_stmt *q;
	/* The way back is made ready first: when memory has run out it cannot be any more. */
	enum status st = prepare(s, &q, rollback, err);
	int moved = 0;

	/* What is written to a file without a name is gone with the program. */
	sqlite3_file_control(s->db, "main", SQLITE_FCNTL_HAS_MOVED, &moved);
	if (moved)
		return error_set(err, STATUS_STORE,
		        "%s: the store was moved, removed or replaced while it was open, and what "
		        "is changed now would be lost; put it back, or leave and open it again",
		        s->path);

	return st == STATUS_OK ? sql_run(s, "BEGIN IMMEDIATE", NO_VALUES, err) : st;
}

enum status sql_finish(struct store *s, enum status st, struct error *err)
{
	if (st == STATUS_OK)
		st = sql_run(s, commit, NO_VALUES, err);
	if (st != STATUS_OK && !sqlite3_get_autocommit(s->db))
		sql_run(s, rollback, NO_VALUES, NULL);
	return st;
}

enum status sql_begin_reading(struct store *s, bool *began, struct error *err)
{
	sqlite3_stmt *q;
	enum status st = prepare(s, &q, commit, err);

	*began = st == STATUS_OK && sqlite3_get_autocommit(s->db) != 0;
	return *began ? sql_run(s, "BEGIN", NO_VALUES, err) : st;
}

void sql_end_reading(struct store *s, bool began)
{
	if (began && !sqlite3_get_autocommit(s->db))
		sql_run(s, commit, NO_VALUES, NULL);
}
