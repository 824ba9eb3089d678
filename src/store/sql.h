/* sql.h - the store's own: the handle, and how its statements are run.
 *
 * Statements are prepared once per handle and found again by the address of their text, so a text
 * must be a constant. Values are always bound. */
#ifndef SLABWRIGHT_STORE_SQL_H
#define SLABWRIGHT_STORE_SQL_H

#include "slabwright/store.h"

#include <sqlite3.h>

#define APPLICATION_ID 0x534C4142 /* "SLAB" */

struct statement {
	const char *sql;
	sqlite3_stmt *q;
};

struct store {
	sqlite3 *db;
	char *path; /* as it was given */
	struct statement *statements;
	size_t count, capacity;
	int64_t seen; /* data_version at the last look for changes by others */
};

enum value_type { VALUE_END, VALUE_INT, VALUE_REAL, VALUE_TEXT };
struct value {
	enum value_type type;
	int64_t i;
	double r;
	const char *t; /* NULL binds NULL */
};
#define INT(x)                                                                                     \
	{                                                                                          \
		.type = VALUE_INT, .i = (x)                                                        \
	}
#define REAL(x)                                                                                    \
	{                                                                                          \
		.type = VALUE_REAL, .r = (x)                                                       \
	}
#define TEXT(x)                                                                                    \
	{                                                                                          \
		.type = VALUE_TEXT, .t = (x)                                                       \
	}
#define END_OF_VALUES                                                                              \
	{                                                                                          \
		.type = VALUE_END                                                                  \
	}
#define VALUES(...)                                                                                \
	(const struct value[])                                                                     \
	{                                                                                          \
		__VA_ARGS__, END_OF_VALUES                                                         \
	}
#define NO_VALUES                                                                                  \
	(const struct value[])                                                                     \
	{                                                                                          \
		END_OF_VALUES                                                                      \
	}

/* Starts a statement. What `values` point to must live until sql_end. */
enum status sql_start(struct store *s, sqlite3_stmt **q, const char *sql,
        const struct value *values, struct error *err);
/* *row tells whether a row has come. */
enum status sql_next(struct store *s, sqlite3_stmt *q, bool *row, struct error *err);
void sql_end(sqlite3_stmt *q); /* NULL is fine */

/* Runs a statement that gives no rows. */
enum status sql_run(
        struct store *s, const char *sql, const struct value *values, struct error *err);
/* The first column of the first row as a number; *found (may be NULL) false and *number 0 when
 * there is none. */
enum status sql_number(struct store *s, const char *sql, const struct value *values,
        int64_t *number, bool *found, struct error *err);
/* The first column of the first row as a text in the arena; NULL when there is none. */
enum status sql_text(struct store *s, const char *sql, const struct value *values,
        struct arena *mem, const char **text, struct error *err);
/* A column of the present row as a text in the arena; NULL when memory is gone. */
const char *sql_column(sqlite3_stmt *q, int column, struct arena *mem);

/* Statements that are run once: several, without values. */
enum status sql_script(struct store *s, const char *sql, struct error *err);

/* A transaction that writes; sql_finish commits it when st is OK, else (or when that fails) takes
 * it back. */
enum status sql_begin(struct store *s, struct error *err);
enum status sql_finish(struct store *s, enum status st, struct error *err);

/* A transaction that only reads, so that several statements see one state. *began is false, and
 * nothing is done, inside another one. */
enum status sql_begin_reading(struct store *s, bool *began, struct error *err);
void sql_end_reading(struct store *s, bool began);

/* What went wrong with the file, in words. */
enum status sql_fault(struct store *s, struct error *err);

#endif
