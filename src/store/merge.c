/* merge.c - a document merged into the store, by UUID.
 *
 * Clashes are gathered to the end, so that all of them can be told; where they are refused the
 * transaction is taken back then. */
#include "exchange.h"

#include <stdio.h>
#include <string.h>

struct merge {
	struct reader *r;
	enum store_clashes clashes;
	struct arena *mem; /* of what is told */
	struct store_merged *out;
	size_t capacity; /* of out->clashes */
	const char *client, *job; /* names here */
	const char *place; /* in the document, of the first clash */
};

static const char from_other[] = " (from other)";

/* --- clashes --- */

static enum status clash_add(struct merge *m, const struct store_clash *clash, const char *place)
{
	struct store_merged *o = m->out;
	struct store_clash *grown =
	        arena_grow(m->mem, o->clashes, o->clash_count, &m->capacity, sizeof *grown);

	if (!grown)
		return error_memory(m->r->err);
	o->clashes = grown;
	o->clashes[o->clash_count] = *clash;
	if (!o->clash_count++)
		m->place = place;
	return STATUS_OK;
}

/* The place of the whole document's member, or of a variant's. */
static const char *place_of(struct merge *m, const struct doc *at, const char *member)
{
	const char *before = at ? doc_prefix(m->r, at) : "";

	return before ? arena_print(m->r->mem, "%s%s", before, member) : NULL;
}

/* All names of where one is, for a clash. */
static enum status names_here(struct merge *m, const char *variant, struct store_clash *c)
{
	c->client = arena_text(m->mem, m->client);
	c->job = c->level == STORE_CLIENT ? NULL : arena_text(m->mem, m->job);
	c->variant = c->level == STORE_VARIANT ? arena_text(m->mem, variant) : NULL;
	if (!c->client || (c->level != STORE_CLIENT && !c->job) ||
	        (c->level == STORE_VARIANT && !c->variant))
		return error_memory(m->r->err);
	return STATUS_OK;
}

static enum status refuse_clashes(struct merge *m)
{
	const struct store_merged *o = m->out;
	const struct store_clash *c = o->clashes;
	char more[64] = "";

	if (o->clash_count > 1)
		snprintf(more, sizeof more, " (and %zu more like this)", o->clash_count - 1);
	if (c->level == STORE_VARIANT && strcmp(c->parts, "notes") != 0)
		return error_set(m->r->err, STATUS_PLAN,
		        "%s: this variant is here already with another plan, as \"%.60s\" of the "
		        "job \"%.60s\"%s: %s differ%s%s; nothing was taken in. Take the other ones "
		        "in "
		        "beside those here (--beside)",
		        m->place, c->variant, c->job, c->deleted ? ", deleted" : "", c->parts,
		        strchr(c->parts, ',') ? "" : "s", more);
	return error_set(m->r->err, STATUS_PLAN,
	        "%s: the notes of the %s \"%.60s\" are not those here%s; nothing was taken in. "
	        "Have both, one behind the other (--beside)",
	        m->place, levels[c->level].what,
	        c->variant ? c->variant
	        : c->job   ? c->job
	                   : c->client,
	        more);
}

/* --- what is here --- */

static enum status name_of(struct merge *m, enum store_level level, int64_t id, const char **name)
{
	static const char *const sql[] = { "SELECT name FROM clients WHERE id = ?1",
		"SELECT title FROM jobs WHERE id = ?1", "SELECT name FROM variants WHERE id = ?1" };

	return sql_text(m->r->s, sql[level], VALUES(INT(id)), m->r->mem, name, m->r->err);
}

static enum status notes_of(struct merge *m, enum store_level level, int64_t id, const char **notes)
{
	static const char *const sql[] = { "SELECT notes FROM clients WHERE id = ?1",
		"SELECT notes FROM jobs WHERE id = ?1",
		"SELECT notes FROM variants WHERE id = ?1" };

	return sql_text(m->r->s, sql[level], VALUES(INT(id)), m->r->mem, notes, m->r->err);
}

static enum status back(struct merge *m, enum store_level level, int64_t id)
{
	bool gone;
	enum status st = entry_back(m->r->s, level, id, &gone, m->r->err);

	m->out->back += st == STATUS_OK && gone;
	return st;
}

static enum status client_of(struct merge *m, int64_t job, int64_t *client)
{
	static const char sql[] = "SELECT client FROM jobs WHERE id = ?1";

	return sql_number(m->r->s, sql, VALUES(INT(job)), client, NULL, m->r->err);
}

/* Takes the names of where one is. */
static enum status stand_at(struct merge *m, int64_t job)
{
	int64_t client;
	enum status st = name_of(m, STORE_JOB, job, &m->job);

	if (st == STATUS_OK)
		st = client_of(m, job, &client);
	return st == STATUS_OK ? name_of(m, STORE_CLIENT, client, &m->client) : st;
}

/* A job that is here, and its client with it. */
static enum status job_back(struct merge *m, int64_t job)
{
	int64_t client;
	enum status st = client_of(m, job, &client);

	if (st == STATUS_OK)
		st = back(m, STORE_CLIENT, client);
	return st == STATUS_OK ? back(m, STORE_JOB, job) : st;
}

/* Both notes, those here first. */
static enum status join(
        struct merge *m, enum store_level level, int64_t id, const char *here, const char *other)
{
	const char *both = arena_print(m->r->mem, "%s\n%s", here, other);

	if (!both)
		return error_memory(m->r->err);
	if (strlen(both) > NOTES_LONGEST)
		return error_set(m->r->err, STATUS_PLAN,
		        "the notes of a %s here and in the document are together longer than %d "
		        "bytes; shorten them on one of the sides",
		        levels[level].what, NOTES_LONGEST);
	m->out->joined++;
	return sql_run(m->r->s, levels[level].notes, VALUES(INT(id), TEXT(both)), m->r->err);
}

/* Whether the text has all lines of the part, one after the other. */
static bool has_lines(const char *text, const char *part)
{
	size_t n = strlen(part);

	for (const char *at = strstr(text, part); at && n; at = strstr(at + 1, part))
		if ((at == text || at[-1] == '\n') && (!at[n] || at[n] == '\n'))
			return true;
	return !n;
}

/* `variant` is the name here, of a variant; `place` where the notes stand in the document. */
static enum status merge_notes(struct merge *m, enum store_level level, int64_t id,
        const char *other, const char *variant, const char *place)
{
	struct store_clash clash = { .level = level, .parts = "notes" };
	const char *here;
	enum status st = notes_of(m, level, id, &here);

	if (st != STATUS_OK || has_lines(here, other))
		return st;
	if (has_lines(other, here))
		return sql_run(
		        m->r->s, levels[level].notes, VALUES(INT(id), TEXT(other)), m->r->err);
	if (m->clashes == STORE_CLASHES_BESIDE)
		return join(m, level, id, here, other);
	st = names_here(m, variant, &clash);
	if (st == STATUS_OK && !place)
		st = error_memory(m->r->err);
	return st == STATUS_OK ? clash_add(m, &clash, place) : st;
}

/* --- variants --- */

/* Whether the job has a variant in use or archived with this plan. */
static enum status plan_is_there(struct merge *m, int64_t job, const struct plan *plan, int64_t *id)
{
	struct arena mem = { 0 };
	struct store_list list;
	enum status st = store_entries(
	        m->r->s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, m->r->mem, &list, m->r->err);

	*id = 0;
	for (size_t i = 0; st == STATUS_OK && !*id && i < list.count; i++) {
		struct plan there;
		bool same = false;

		st = store_plan(m->r->s, list.items[i].id, &mem, &there, m->r->err);
		if (st == STATUS_OK && !store_plans_same(&there, plan, &same))
			st = error_memory(m->r->err);
		if (same)
			*id = list.items[i].id;
		arena_reset(&mem);
	}
	arena_free(&mem);
	return st;
}

static enum status variant_add(struct merge *m, int64_t job, const char *uuid, const char *name,
        const struct variant_doc *v, int64_t *id)
{
	struct store *s = m->r->s;
	enum status st = name_numbered(s, STORE_VARIANT, job, name, m->r->mem, &name, m->r->err);

	if (st == STATUS_OK)
		st = variant_insert(s, job, uuid, name, &v->plan, id, m->r->err);
	if (st == STATUS_OK)
		st = entry_mark(s, STORE_VARIANT, *id, v->notes, v->archived, m->r->err);
	m->out->added += st == STATUS_OK;
	return st;
}

static enum status put_beside(
        struct merge *m, int64_t job, const struct variant_doc *v, int64_t *id)
{
	size_t n = strlen(v->plan.name), most = NAME_LONGEST - 12 - (sizeof from_other - 1);
	const char *name;
	enum status st = plan_is_there(m, job, &v->plan, id);

	if (st != STATUS_OK)
		return st;
	if (*id)
		return merge_notes(m, STORE_VARIANT, *id, v->notes, v->plan.name, "");
	while (n > most || !utf8_valid(v->plan.name, n))
		n--;
	name = arena_print(m->r->mem, "%.*s%s", (int)n, v->plan.name, from_other);
	if (!name)
		return error_memory(m->r->err);
	st = variant_add(m, job, NULL, name, v, id);
	m->out->beside += st == STATUS_OK;
	return st;
}

static enum status clash_variant(
        struct merge *m, const struct doc *at, int64_t id, const char *parts)
{
	struct store_clash clash = { .level = STORE_VARIANT };
	const char *name, *gone, *place = place_of(m, at, "uuid");
	enum status st = name_of(m, STORE_VARIANT, id, &name);

	if (st == STATUS_OK)
		st = sql_text(m->r->s, levels[STORE_VARIANT].gone, VALUES(INT(id)), m->r->mem,
		        &gone, m->r->err);
	if (st != STATUS_OK)
		return st;
	clash.deleted = gone != NULL;
	clash.parts = arena_text(m->mem, parts);
	if (!clash.parts || !place)
		return error_memory(m->r->err);
	st = names_here(m, gone ? gone : name, &clash);
	return st == STATUS_OK ? clash_add(m, &clash, place) : st;
}

/* A variant whose UUID is here already. */
static enum status meet(struct merge *m, int64_t job, const struct doc *at,
        const struct variant_doc *v, int64_t *id)
{
	const char *parts, *name;
	struct plan plan;
	enum status st = store_plan(m->r->s, *id, m->r->mem, &plan, m->r->err);

	if (st != STATUS_OK)
		return st;
	if (!(parts = plan_parts_differ(m->r->mem, &plan, &v->plan)))
		return error_memory(m->r->err);
	if (*parts && m->clashes == STORE_CLASHES_BESIDE)
		return put_beside(m, job, v, id);
	if (*parts)
		return clash_variant(m, at, *id, parts);
	if ((st = back(m, STORE_VARIANT, *id)) != STATUS_OK ||
	        (st = name_of(m, STORE_VARIANT, *id, &name)) != STATUS_OK)
		return st;
	return merge_notes(m, STORE_VARIANT, *id, v->notes, name, place_of(m, at, "notes"));
}

static enum status merge_variant(struct merge *m, int64_t job, const struct doc *at,
        const struct variant_doc *v, int64_t *id)
{
	enum status st = sql_number(
	        m->r->s, levels[STORE_VARIANT].by_uuid, VALUES(TEXT(v->uuid)), id, NULL, m->r->err);
	int64_t home = job;

	if (st != STATUS_OK || !*id)
		return st == STATUS_OK ? variant_add(m, job, v->uuid[0] ? v->uuid : NULL,
		                                 v->plan.name, v, id)
		                       : st;
	/* It may stand in another job here, which comes back with it. */
	st = sql_number(m->r->s, "SELECT job FROM variants WHERE id = ?1", VALUES(INT(*id)), &home,
	        NULL, m->r->err);
	if (st == STATUS_OK)
		st = job_back(m, home);
	if (st == STATUS_OK)
		st = stand_at(m, home);
	return st == STATUS_OK ? meet(m, home, at, v, id) : st;
}

/* --- clients and jobs --- */

static enum status by_uuid(struct merge *m, enum store_level level, const char *uuid, int64_t *id)
{
	*id = 0;
	return *uuid ? sql_number(m->r->s, levels[level].by_uuid, VALUES(TEXT(uuid)), id, NULL,
	                       m->r->err)
	             : STATUS_OK;
}

/* By UUID, else that of a job that is here, else by name, else a new one. */
static enum status resolve_client(struct merge *m, const struct document *doc, int64_t *client)
{
	struct store *s = m->r->s;
	const struct owner *o = &doc->client;
	int64_t job = 0;
	enum status st = by_uuid(m, STORE_CLIENT, o->uuid, client);

	for (size_t i = 0; st == STATUS_OK && !*client && i < doc->job_count; i++) {
		st = by_uuid(m, STORE_JOB, doc->jobs[i].owner.uuid, &job);
		if (st == STATUS_OK && job)
			st = client_of(m, job, client);
	}
	if (st == STATUS_OK && !*client)
		st = entry_by_name(s, STORE_CLIENT, 0, o->name, client, m->r->err);
	if (st == STATUS_OK && *client)
		return back(m, STORE_CLIENT, *client);
	if (st == STATUS_OK)
		st = client_insert(s, *o->uuid ? o->uuid : NULL, o->name, client, m->r->err);
	return st == STATUS_OK
	               ? entry_mark(s, STORE_CLIENT, *client, o->notes, o->archived, m->r->err)
	               : st;
}

static enum status resolve_job(struct merge *m, int64_t client, const struct owner *o, int64_t *job)
{
	struct store *s = m->r->s;
	enum status st = by_uuid(m, STORE_JOB, o->uuid, job);

	if (st == STATUS_OK && *job)
		return job_back(m, *job);
	if (st == STATUS_OK)
		st = entry_by_name(s, STORE_JOB, client, o->name, job, m->r->err);
	if (st != STATUS_OK || *job)
		return st;
	st = job_insert(s, client, *o->uuid ? o->uuid : NULL, o->name, job, m->r->err);
	return st == STATUS_OK ? entry_mark(s, STORE_JOB, *job, o->notes, o->archived, m->r->err)
	                       : st;
}

static enum status merge_job(
        struct merge *m, int64_t client, const struct job_doc *doc, bool alone, size_t at)
{
	const char *place = alone ? "job.notes" : arena_print(m->r->mem, "jobs[%zu].notes", at);
	int64_t job, id;
	enum status st = resolve_job(m, client, &doc->owner, &job);

	if (st == STATUS_OK)
		st = stand_at(m, job);
	if (st == STATUS_OK)
		st = merge_notes(m, STORE_JOB, job, doc->owner.notes, NULL, place);
	if (st == STATUS_OK && !m->out->job)
		m->out->job = job;
	for (size_t i = 0; st == STATUS_OK && i < doc->count; i++) {
		st = merge_variant(m, job, doc->places[i], &doc->variants[i], &id);
		if (!m->out->variant)
			m->out->variant = id;
	}
	return st;
}

enum status document_merge(struct reader *r, const struct document *doc, enum store_clashes clashes,
        struct arena *mem, struct store_merged *out)
{
	struct merge m = { .r = r, .clashes = clashes, .mem = mem, .out = out };
	int64_t client;
	enum status st = resolve_client(&m, doc, &client);

	if (st == STATUS_OK)
		st = name_of(&m, STORE_CLIENT, client, &m.client);
	if (st == STATUS_OK)
		st = merge_notes(&m, STORE_CLIENT, client, doc->client.notes, NULL, "client.notes");
	out->client = client;
	for (size_t i = 0; st == STATUS_OK && i < doc->job_count; i++)
		st = merge_job(&m, client, &doc->jobs[i], doc->jobs == &doc->one, i);
	return st == STATUS_OK && out->clash_count ? refuse_clashes(&m) : st;
}
