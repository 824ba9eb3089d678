/* exchange_write.c - a job, or one variant of it, as a document. */
#include "entries.h"
#include "plan_doc.h"

static enum status write_head(
        struct store *s, int64_t job, struct arena *mem, struct json *j, struct error *err)
{
	const char *client, *client_uuid, *title, *uuid;
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q,
	        "SELECT c.name, c.uuid, j.title, j.uuid FROM jobs j JOIN clients c ON c.id = "
	        "j.client WHERE j.id = ?1",
	        VALUES(INT(job)), err);

	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (st != STATUS_OK || !row) {
		sql_end(q);
		return st == STATUS_OK ? no_such_id("job", job, err) : st;
	}
	client = sql_column(q, 0, mem);
	client_uuid = sql_column(q, 1, mem);
	title = sql_column(q, 2, mem);
	uuid = sql_column(q, 3, mem);
	sql_end(q);
	if (!client || !client_uuid || !title || !uuid)
		return error_memory(err);
	json_text(j, "format", "slabwright-plan");
	json_int(j, "version", 1);
	json_object_tight(j, "client");
	json_text(j, "name", client);
	json_text(j, "uuid", client_uuid);
	json_end(j);
	json_object_tight(j, "job");
	json_text(j, "title", title);
	json_text(j, "uuid", uuid);
	json_end(j);
	return STATUS_OK;
}

static enum status write_variants(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        struct json *j, struct error *err)
{
	struct store_list list;
	bool found = variant == 0;
	enum status st = store_variants(s, job, mem, &list, err);

	json_array(j, "variants");
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++) {
		struct variant_doc v = { .uuid = list.items[i].uuid };

		if (variant && list.items[i].id != variant)
			continue;
		found = true;
		st = store_plan(s, list.items[i].id, mem, &v.plan, err);
		if (st == STATUS_OK)
			variant_doc_write(j, &v);
	}
	json_end(j);
	return st == STATUS_OK && !found ? no_such_id("variant of this job", variant, err) : st;
}

enum status store_export(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        const char **json, struct error *err)
{
	struct json j = { 0 };
	bool began;
	enum status st = sql_begin_reading(s, &began, err);

	*json = NULL;
	if (st != STATUS_OK)
		return st;
	json_object(&j, NULL);
	if ((st = write_head(s, job, mem, &j, err)) == STATUS_OK)
		st = write_variants(s, job, variant, mem, &j, err);
	json_end(&j);
	sql_end_reading(s, began);
	if (st == STATUS_OK && (j.failed || !(*json = arena_text(mem, j.text))))
		st = error_memory(err);
	json_free(&j);
	return st;
}
