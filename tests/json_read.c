/* json_read.c - SQLite's JSON functions on an empty database in memory. */
#include "json_read.h"

#include <check.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

/* The one text that the statement gives for a document and a path; NULL for SQL's null. */
static char *ask(const char *sql, const char *json, const char *path)
{
	sqlite3 *db = NULL;
	sqlite3_stmt *statement = NULL;
	char *text = NULL;

	ck_assert_int_eq(sqlite3_open(":memory:", &db), SQLITE_OK);
	ck_assert_int_eq(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
	sqlite3_bind_text(statement, 1, json, -1, SQLITE_STATIC);
	if (path)
		sqlite3_bind_text(statement, 2, path, -1, SQLITE_STATIC);
	if (sqlite3_step(statement) == SQLITE_ROW && sqlite3_column_text(statement, 0)) {
		text = strdup((const char *)sqlite3_column_text(statement, 0));
		ck_assert_ptr_nonnull(text);
	}
	sqlite3_finalize(statement);
	sqlite3_close(db);
	return text;
}

bool json_is_valid(const char *json)
{
	char *answer = ask("SELECT json_valid(?1)", json, NULL);
	bool valid = answer && strcmp(answer, "1") == 0;

	free(answer);
	return valid;
}

double json_number(const char *json, const char *path)
{
	char *type = ask("SELECT json_type(?1, ?2)", json, path);
	char *text = ask("SELECT json_extract(?1, ?2)", json, path);
	double value;

	ck_assert_msg(type && (strcmp(type, "integer") == 0 || strcmp(type, "real") == 0),
	        "%s is %s", path, type ? type : "not there");
	value = strtod(text, NULL);
	free(type);
	free(text);
	return value;
}

char *json_string(const char *json, const char *path)
{
	char *type = ask("SELECT json_type(?1, ?2)", json, path);

	if (!type || strcmp(type, "null") == 0)
		return type;
	free(type);
	return ask("SELECT json_extract(?1, ?2)", json, path);
}

int json_length(const char *json, const char *path)
{
	char *text = ask("SELECT json_array_length(?1, ?2)", json, path);
	int n = text ? atoi(text) : -1;

	free(text);
	return n;
}
