/* exchange_write.c - a client, a job, or one variant of it, as a document. */
#include "entries.h"
#include "plan_doc.h"

static void write_owner(struct json *j, const char *title, const struct store_entry *e)
{
	json_text(j, title, e->name);
	json_text(j, "uuid", e->uuid);
	if (*e->notes)
		json_text(j, "notes", e->notes);
	if (e->archived)
		json_bool(j, "archived", true);
}

static enum status write_variants(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        struct json *j, struct error *err)
{
	struct store_list list;
	bool found = variant == 0;
	enum status st = store_entries(s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, mem, &list, err);

	json_array(j, "variants");
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++) {
		const struct store_entry *e = &list.items[i];
		struct variant_doc v = {
			.uuid = e->uuid, .notes = e->notes, .archived = e->archived
		};

		if (variant && e->id != variant)
			continue;
		found = true;
		st = store_plan(s, e->id, mem, &v.plan, err);
		if (st == STATUS_OK)
			variant_doc_write(j, &v);
	}
	json_end(j);
	return st == STATUS_OK && !found ? no_such_id("variant of this job", variant, err) : st;
}

/* The entry of that id under its parent. */
static enum status entry_of(struct store *s, enum store_level level, int64_t id, struct arena *mem,
        struct store_entry *out, struct error *err)
{
	struct store_list list;
	int64_t parent;
	enum status st = parent_of(s, level, id, &parent, err);

	if (st == STATUS_OK)
		st = store_entries(s, level, parent, STORE_WITH_ARCHIVED, mem, &list, err);
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++)
		if (list.items[i].id == id)
			*out = list.items[i];
	return st;
}

static enum status write_head(
        struct store *s, int64_t client, struct arena *mem, struct json *j, struct error *err)
{
	struct store_entry c = { 0 };
	enum status st = entry_of(s, STORE_CLIENT, client, mem, &c, err);

	if (st != STATUS_OK)
		return st;
	json_text(j, "format", "slabwright-plan");
	json_int(j, "version", 1);
	json_object_tight(j, "client");
	write_owner(j, "name", &c);
	json_end(j);
	return STATUS_OK;
}

static enum status write_job(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        struct json *j, struct error *err)
{
	struct store_entry e = { 0 };
	int64_t client;
	enum status st = parent_of(s, STORE_JOB, job, &client, err);

	if (st != STATUS_OK || (st = write_head(s, client, mem, j, err)) != STATUS_OK ||
	        (st = entry_of(s, STORE_JOB, job, mem, &e, err)) != STATUS_OK)
		return st;
	json_object_tight(j, "job");
	write_owner(j, "title", &e);
	json_end(j);
	return write_variants(s, job, variant, mem, j, err);
}

static enum status write_client(
        struct store *s, int64_t client, struct arena *mem, struct json *j, struct error *err)
{
	struct store_list list;
	enum status st = write_head(s, client, mem, j, err);

	if (st == STATUS_OK)
		st = store_entries(s, STORE_JOB, client, STORE_WITH_ARCHIVED, mem, &list, err);
	if (st != STATUS_OK)
		return st;
	json_array(j, "jobs");
	for (size_t i = 0; st == STATUS_OK && i < list.count; i++) {
		json_object(j, NULL);
		write_owner(j, "title", &list.items[i]);
		st = write_variants(s, list.items[i].id, 0, mem, j, err);
		json_end(j);
	}
	json_end(j);
	return st;
}

/* A whole client where job is 0. */
static enum status export(struct store *s, int64_t client, int64_t job, int64_t variant,
        struct arena *mem, const char **json, struct error *err) {
	struct json j = { 0 }; bool began; enum status st = sql_begin_reading(s, &began, err);

	*json = NULL;
	if (st != STATUS_OK) return st;
	json_object(&j, NULL);
	st = client ? write_client(s, client, mem, &j, err)
	            : write_job(s, job, variant, mem, &j, err);
	json_end(&j);
	sql_end_reading(s, began);
	if (st == STATUS_OK && (j.failed || !(*json = arena_text(mem, j.text))))
	        st = error_memory(err);
	json_free(&j);
	return st;
}

enum status store_export(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        const char **json, struct error *err)
{
	return export(s, 0, job, variant, mem, json, err);
}

enum status store_export_client(
        struct store *s, int64_t client, struct arena *mem, const char **json, struct error *err)
{
	return export(s, client, 0, 0, mem, json, err);
}
