/* beside_rows.c - what stands beside the paving, as a document for each part. */
#include "plan_doc.h"
#include "plan_rows.h"

#include <string.h>

static enum status insert(struct store *s, int64_t variant, const struct plan *plan,
        const struct shape *part, struct error *err)
{
	struct json j = { 0 };
	struct plan defaults;
	enum status st = STATUS_OK;

	plan_init(&defaults);
	if (doc_is_default(part, plan, &defaults))
		return STATUS_OK;
	json_object_tight(&j, NULL);
	doc_write(&j, part, plan, &defaults);
	json_end(&j);
	st = j.failed
	             ? error_memory(err)
	             : sql_run(s,
	                       "INSERT INTO documents (variant, part, document) VALUES (?1, ?2, "
	                       "?3)",
	                       VALUES(INT(variant), TEXT(part->fields[0].name), TEXT(j.text)), err);
	json_free(&j);
	return st;
}

enum status beside_row_write(
        struct store *s, int64_t variant, const struct plan *plan, int part, struct error *err)
{
	const struct shape shape = beside_part(part);
	enum status st = sql_run(s, "DELETE FROM documents WHERE variant = ?1 AND part = ?2",
	        VALUES(INT(variant), TEXT(shape.fields[0].name)), err);

	return st == STATUS_OK ? insert(s, variant, plan, &shape, err) : st;
}

enum status beside_rows_insert(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err)
{
	enum status st = STATUS_OK;

	for (int i = 0; st == STATUS_OK && i < BESIDE_PARTS; i++) {
		const struct shape part = beside_part(i);

		st = insert(s, variant, plan, &part, err);
	}
	return st;
}

enum status kept_read(struct store *s, const char *text, struct arena *mem,
        const struct shape *shape, void *to, struct error *err)
{
	struct error why = { STATUS_OK, "" };
	struct reader r = { .s = s, .mem = mem, .err = &why };
	struct doc *root;
	enum status st = doc_parse(&r, text, strlen(text), &root);

	if (st == STATUS_OK)
		st = doc_read(&r, root, shape, to);
	if (st == STATUS_PLAN)
		return error_set(err, STATUS_STORE,
		        "%s: a document in it cannot be read (%s); the store is damaged: go back "
		        "to a copy of it",
		        s->path, why.text);
	return st == STATUS_OK ? st : error_set(err, st, "%s", why.text);
}

enum status beside_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q, "SELECT document FROM documents WHERE variant = ?1",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		const char *text = sql_column(q, 0, mem);

		st = text ? kept_read(s, text, mem, &beside_shape, plan, err) : error_memory(err);
	}
	sql_end(q);
	return st;
}
