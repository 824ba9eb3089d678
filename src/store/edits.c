/* edits.c - one edit, one transaction: the plan's rows and the row that takes it back. */
#include "entries.h"
#include "plan_doc.h"
#include "plan_rows.h"

#include <string.h>

/* Keeps the edit and its inverse as the variant's next undo row. */
static enum status keep(struct store *s, int64_t variant, const struct edit *edit,
        const struct edit *inverse, struct error *err)
{
	struct json forward = { 0 }, back = { 0 };
	char label[sizeof edit->label];
	enum status st = sql_run(s, "DELETE FROM edits WHERE variant = ?1 AND undone = 1",
	        VALUES(INT(variant)), err);

	memcpy(label, edit->label, sizeof label);
	label[sizeof label - 1] = '\0';
	edit_write(&forward, edit);
	edit_write(&back, inverse);
	if (st == STATUS_OK && (forward.failed || back.failed))
		st = error_memory(err);
	if (st == STATUS_OK)
		st = sql_run(s,
		        "INSERT INTO edits (variant, seq, label, forward, inverse) VALUES (?1,"
		        " (SELECT ifnull(max(seq), 0) + 1 FROM edits WHERE variant = ?1), ?2, ?3, "
		        "?4)",
		        VALUES(INT(variant), TEXT(label), TEXT(forward.text), TEXT(back.text)),
		        err);
	json_free(&forward);
	json_free(&back);
	return st;
}

/* Applies an edit to the variant's rows, without an undo row. */
static enum status apply(struct store *s, int64_t variant, struct arena *mem,
        const struct edit *edit, struct edit *inverse, struct error *err)
{
	struct plan plan;
	enum status st = store_plan(s, variant, mem, &plan, err);

	if (st == STATUS_OK)
		st = edit_apply(mem, &plan, edit, inverse, err);
	if (st == STATUS_OK)
		st = edit_check(s, &plan, edit, err);
	if (st == STATUS_OK)
		st = plan_update(s, variant, &plan, edit, err);
	return st == STATUS_OK ? variant_touch(s, variant, err) : st;
}

enum status store_edit(struct store *s, int64_t variant, const struct edit *edit, struct error *err)
{
	struct arena mem = { 0 };
	struct edit inverse;
	enum status st = sql_begin(s, err);

	if (st != STATUS_OK)
		return st;
	if ((st = apply(s, variant, &mem, edit, &inverse, err)) == STATUS_OK)
		st = keep(s, variant, edit, &inverse, err);
	st = sql_finish(s, st, err);
	arena_free(&mem);
	return st;
}

/* The row that is next to be taken back or repeated. */
struct row {
	int64_t seq; /* 0: there is none */
	const char *label, *json;
};

static enum status next_row(struct store *s, const char *sql, int64_t variant, struct arena *mem,
        struct row *out, struct error *err)
{
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q, sql, VALUES(INT(variant)), err);

	*out = (struct row){ 0 };
	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (row) {
		*out = (struct row){ sqlite3_column_int64(q, 0), sql_column(q, 1, mem),
			sql_column(q, 2, mem) };
		if (!out->label || !out->json)
			st = error_memory(err);
	}
	sql_end(q);
	return st;
}

static enum status step_row(struct store *s, int64_t variant, const struct row *row, int64_t undone,
        struct arena *mem, struct error *err)
{
	struct error why = { STATUS_OK, "" };
	struct reader r = { .s = s, .mem = mem, .err = &why };
	struct edit edit;
	enum status st = edit_read(&r, row->json, &edit);

	if (st == STATUS_PLAN)
		return error_set(err, STATUS_STORE,
		        "%s: the edit \"%s\" cannot be read (%s); the store is damaged", s->path,
		        row->label, why.text);
	if (st != STATUS_OK)
		return error_set(err, st, "%s", why.text);
	if ((st = apply(s, variant, mem, &edit, NULL, err)) != STATUS_OK)
		return st;
	return sql_run(s, "UPDATE edits SET undone = ?3 WHERE variant = ?1 AND seq = ?2",
	        VALUES(INT(variant), INT(row->seq), INT(undone)), err);
}

static enum status step(struct store *s, int64_t variant, const char *sql, int64_t undone,
        bool *done, char label[80], struct error *err)
{
	struct arena mem = { 0 };
	struct row row;
	enum status st;

	*done = false;
	label[0] = '\0';
	if ((st = sql_begin(s, err)) != STATUS_OK)
		return st;
	st = next_row(s, sql, variant, &mem, &row, err);
	if (st == STATUS_OK && row.seq)
		st = step_row(s, variant, &row, undone, &mem, err);
	st = sql_finish(s, st, err);
	if (st == STATUS_OK && row.seq) {
		*done = true;
		sqlite3_snprintf(80, label, "%s", row.label);
	}
	arena_free(&mem);
	return st;
}

enum status store_undo(
        struct store *s, int64_t variant, bool *done, char label[80], struct error *err)
{
	return step(s, variant,
	        "SELECT seq, label, inverse FROM edits WHERE variant = ?1 AND undone = 0 ORDER BY "
	        "seq DESC LIMIT 1",
	        1, done, label, err);
}

enum status store_redo(
        struct store *s, int64_t variant, bool *done, char label[80], struct error *err)
{
	return step(s, variant,
	        "SELECT seq, label, forward FROM edits WHERE variant = ?1 AND undone = 1 ORDER BY "
	        "seq LIMIT 1",
	        0, done, label, err);
}

enum status store_undo_depth(
        struct store *s, int64_t variant, int64_t *undo, int64_t *redo, struct error *err)
{
	static const char sql[] = "SELECT count(*) FROM edits WHERE variant = ?1 AND undone = ?2";
	enum status st = sql_number(s, sql, VALUES(INT(variant), INT(0)), undo, NULL, err);

	return st == STATUS_OK ? sql_number(s, sql, VALUES(INT(variant), INT(1)), redo, NULL, err)
	                       : st;
}
