/* exchange_read.c - a document read, checked as a whole, and merged into the store by UUID. */
#include "entries.h"
#include "plan_doc.h"
#include "plan_rows.h"

#include <stddef.h>
#include <string.h>

enum { MOST_VARIANTS = 10000 };

/* A client (name) or a job (title). */
struct owner {
	const char *name, *uuid;
};

struct document {
	const char *format;
	int64_t version;
	struct owner client, job;
	struct variant_doc *variants;
	const struct doc **places; /* where each variant stands in the document */
	size_t count;
};

#define OWNER(member) .at = offsetof(struct owner, member)
static const struct field client_fields[] = {
	{ "name", FIELD_TEXT, FIELD_REQUIRED, OWNER(name) },
	{ "uuid", FIELD_OWN, 0, OWNER(uuid), .read = uuid_read },
};
static const struct shape client_shape = SHAPE(client_fields);
static const struct field job_fields[] = {
	{ "title", FIELD_TEXT, FIELD_REQUIRED, OWNER(name) },
	{ "uuid", FIELD_OWN, 0, OWNER(uuid), .read = uuid_read },
};
static const struct shape job_shape = SHAPE(job_fields);

static enum status variants_read(struct reader *r, const struct doc *from, void *to)
{
	struct document *doc = to;
	enum status st = doc_want_array(r, from, MOST_VARIANTS);

	if (st != STATUS_OK)
		return st;
	doc->variants = arena_alloc(r->mem, from->count, sizeof *doc->variants);
	doc->places = arena_alloc(r->mem, from->count, sizeof *doc->places);
	if (!doc->variants || !doc->places)
		return error_memory(r->err);
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next) {
		doc->places[doc->count] = d;
		variant_doc_init(&doc->variants[doc->count]);
		st = doc_read(r, d, &variant_shape, &doc->variants[doc->count++]);
	}
	return st;
}

#define DOCUMENT(member) .at = offsetof(struct document, member)
static const struct field document_fields[] = {
	{ "format", FIELD_TEXT, FIELD_REQUIRED, DOCUMENT(format) },
	{ "version", FIELD_WHOLE, FIELD_REQUIRED, DOCUMENT(version) },
	{ "client", FIELD_OBJECT, FIELD_REQUIRED, DOCUMENT(client), .shape = &client_shape },
	{ "job", FIELD_OBJECT, FIELD_REQUIRED, DOCUMENT(job), .shape = &job_shape },
	{ "variants", FIELD_OWN, FIELD_REQUIRED, 0, .read = variants_read },
};
static const struct shape document_shape = SHAPE(document_fields);

/* --- checks of what has been read --- */

/* The outline's soundness; a draft (no outline, or a ring not closed yet) need not be sound, nor
 * need zones of which one is not closed yet. */
static enum status outline_sound(
        struct reader *r, const struct doc *at, const struct plan *plan, plan_sound_fn *sound)
{
	const struct doc *outline = doc_member(at, "outline");
	struct error why = { STATUS_OK, "" };
	struct plan drawn = *plan;
	enum status st;

	if (!sound || !outline)
		return STATUS_OK;
	for (size_t i = 0; i < plan->ring_count; i++)
		if (!plan->rings[i].closed)
			return STATUS_OK;
	for (size_t i = 0; i < plan->zone_count; i++)
		if (!plan->zones[i].ring.closed)
			drawn.zone_count = 0;
	st = sound(&drawn, &why);
	if (st == STATUS_OK || st == STATUS_MEMORY)
		return st == STATUS_OK ? st : error_memory(r->err);
	return doc_refuse(r, outline, "%s", why.text);
}

static enum status beside_check(struct reader *r, const char *place, const struct plan *plan)
{
	const char *water = arena_print(r->mem, "%swater.", place),
	           *site = arena_print(r->mem, "%ssite.", place),
	           *costs = arena_print(r->mem, "%scosts.", place);
	enum status st;

	if (!water || !site || !costs)
		return error_memory(r->err);
	if ((st = water_check(&plan->water, water, r->err)) != STATUS_OK ||
	        (st = site_check(&plan->site, site, r->err)) != STATUS_OK ||
	        (st = costs_check(&plan->costs, costs, r->err)) != STATUS_OK ||
	        (st = planters_check(plan->planters, plan->planter_count, place, r->err)) !=
	                STATUS_OK)
		return st;
	return steps_check(plan->steps, plan->steps_count, place, r->err);
}

/* Borders, the edges that name them, zones, what stands beside the paving, and how many corners all
 * rings have. */
static enum status parts_check(
        struct reader *r, const struct doc *at, const char *place, const struct plan *plan)
{
	struct error why = { STATUS_OK, "" };
	enum status st;

	if ((st = borders_check(plan->borders, plan->border_count, place, r->err)) != STATUS_OK ||
	        (st = zones_check(plan->zones, plan->zone_count, place, r->err)) != STATUS_OK ||
	        (st = beside_check(r, place, plan)) != STATUS_OK)
		return st;
	if (plan_borders_check(plan, &why) != STATUS_OK)
		return doc_refuse(r, doc_member(at, "outline"), "%s", why.text);
	if (plan_channels_check(plan, &why) != STATUS_OK)
		return doc_refuse(r, at, "%s", why.text);
	if (corner_count(plan) > MOST_CORNERS)
		return doc_refuse(
		        r, at, "%zu corners; give at most %d", corner_count(plan), MOST_CORNERS);
	return STATUS_OK;
}

static enum status variant_check(
        struct reader *r, const struct doc *at, const struct variant_doc *v, plan_sound_fn *sound)
{
	const char *place = doc_prefix(r, at), *laying, *surface, *ground, *rule_set;
	enum status st;

	if (!place)
		return error_memory(r->err);
	laying = arena_print(r->mem, "%slaying.", place);
	surface = arena_print(r->mem, "%ssurface.", place);
	ground = arena_print(r->mem, "%sground.", place);
	rule_set = arena_print(r->mem, "%srule_set: ", place);
	if (!laying || !surface || !ground || !rule_set)
		return error_memory(r->err);
	if ((st = laying_check(&v->plan.laying, laying, r->err)) != STATUS_OK ||
	        (st = surface_check(&v->plan.surface, surface, r->err)) != STATUS_OK ||
	        (st = ground_check(&v->plan.ground, ground, r->err)) != STATUS_OK ||
	        (st = rule_set_check(r->s, v->plan.rule_set, rule_set, r->err)) != STATUS_OK ||
	        (st = parts_check(r, at, place, &v->plan)) != STATUS_OK)
		return st;
	return outline_sound(r, at, &v->plan, sound);
}

/* Refuses a UUID that two variants of the document have. */
static enum status twin_check(struct reader *r, const struct document *doc, size_t at)
{
	for (size_t i = 0; i < at; i++)
		if (doc->variants[at].uuid[0] &&
		        strcmp(doc->variants[i].uuid, doc->variants[at].uuid) == 0)
			return doc_refuse(r, doc_member(doc->places[at], "uuid"),
			        "variants[%zu] has the same UUID; leave it out of one of them", i);
	return STATUS_OK;
}

static enum status document_read(struct reader *r, const char *json, size_t length,
        plan_sound_fn *sound, struct document *doc)
{
	struct doc *root;
	enum status st;

	*doc = (struct document){ .client.uuid = "", .job.uuid = "" };
	if ((st = doc_parse(r, json, length, &root)) != STATUS_OK ||
	        (st = doc_check_head(r, root, "slabwright-plan")) != STATUS_OK ||
	        (st = doc_read(r, root, &document_shape, doc)) != STATUS_OK)
		return st;
	for (size_t i = 0; st == STATUS_OK && i < doc->count; i++) {
		st = variant_check(r, doc->places[i], &doc->variants[i], sound);
		if (st == STATUS_OK)
			st = twin_check(r, doc, i);
	}
	return st;
}

/* --- merging --- */

/* The client and job to put the variants under: by UUID, else by name, else new ones. */
static enum status job_resolve(
        struct store *s, const struct document *doc, int64_t *job, struct error *err)
{
	const char *uuid = doc->client.uuid[0] ? doc->client.uuid : NULL;
	int64_t client = 0;
	enum status st = sql_number(s, "SELECT id FROM jobs WHERE uuid = ?1",
	        VALUES(TEXT(doc->job.uuid)), job, NULL, err);

	if (st != STATUS_OK || *job)
		return st;
	if (uuid)
		st = sql_number(s, "SELECT id FROM clients WHERE uuid = ?1", VALUES(TEXT(uuid)),
		        &client, NULL, err);
	if (st == STATUS_OK && !client)
		st = client_by_name(s, doc->client.name, &client, err);
	if (st == STATUS_OK && !client)
		st = client_insert(s, uuid, doc->client.name, &client, err);
	if (st == STATUS_OK)
		st = job_by_title(s, client, doc->job.name, job, err);
	if (st == STATUS_OK && !*job)
		st = job_insert(s, client, doc->job.uuid[0] ? doc->job.uuid : NULL, doc->job.name,
		        job, err);
	return st;
}

bool store_plans_same(const struct plan *a, const struct plan *b, bool *same)
{
	struct json ja = { 0 }, jb = { 0 };
	struct variant_doc va = { "", *a }, vb = { "", *b };

	va.plan.name = vb.plan.name = "";
	variant_doc_write(&ja, &va);
	variant_doc_write(&jb, &vb);
	*same = !ja.failed && !jb.failed && strcmp(ja.text, jb.text) == 0;
	json_free(&ja);
	json_free(&jb);
	return !ja.failed && !jb.failed;
}

/* A variant whose UUID is there already: fine when it is the same plan. */
static enum status meet(
        struct reader *r, const struct doc *at, const struct variant_doc *v, int64_t there)
{
	struct store_place place;
	struct plan plan;
	bool same;
	enum status st = store_plan(r->s, there, r->mem, &plan, r->err);

	if (st != STATUS_OK)
		return st;
	if (!store_plans_same(&plan, &v->plan, &same))
		return error_memory(r->err);
	if (same)
		return STATUS_OK;
	st = store_place_of(r->s, there, r->mem, &place, r->err);
	if (st != STATUS_OK)
		return st;
	return doc_refuse(r, doc_member(at, "uuid"),
	        "this variant is here already with another plan, as \"%.60s\" of the job "
	        "\"%.60s\"; leave its uuid out "
	        "to keep both",
	        place.variant_name, place.job_title);
}

/* The name itself, or with the first number behind it that makes it free: "A 2". */
static enum status free_name(struct reader *r, int64_t job, const char *name, const char **out)
{
	size_t n = strlen(name);
	int64_t taken;
	enum status st;

	*out = name;
	/* Room for the number, and no half character. */
	while (n > NAME_LONGEST - 12 || !utf8_valid(name, n))
		n--;
	for (int number = 2;; number++) {
		st = variant_by_name(r->s, job, *out, &taken, r->err);
		if (st != STATUS_OK || !taken)
			return st;
		*out = arena_print(r->mem, "%.*s %d", (int)n, name, number);
		if (!*out)
			return error_memory(r->err);
	}
}

static enum status merge_variant(struct reader *r, int64_t job, const struct doc *at,
        struct variant_doc *v, int64_t *id, size_t *added)
{
	const char *name;
	enum status st = sql_number(r->s, "SELECT id FROM variants WHERE uuid = ?1",
	        VALUES(TEXT(v->uuid)), id, NULL, r->err);

	if (st != STATUS_OK)
		return st;
	if (*id)
		return meet(r, at, v, *id);
	if ((st = free_name(r, job, v->plan.name, &name)) != STATUS_OK)
		return st;
	st = variant_insert(r->s, job, v->uuid[0] ? v->uuid : NULL, name, &v->plan, id, r->err);
	*added += st == STATUS_OK;
	return st;
}

static enum status merge(
        struct reader *r, const struct document *doc, int64_t *first, size_t *added)
{
	int64_t job, id;
	enum status st = job_resolve(r->s, doc, &job, r->err);

	for (size_t i = 0; st == STATUS_OK && i < doc->count; i++) {
		st = merge_variant(r, job, doc->places[i], &doc->variants[i], &id, added);
		if (i == 0)
			*first = id;
	}
	return st;
}

enum status store_import(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        int64_t *first, size_t *added, struct error *err)
{
	struct arena mem = { 0 };
	struct reader r = { .s = s, .mem = &mem, .err = err };
	struct document doc;
	enum status st;

	*first = 0;
	*added = 0;
	st = document_read(&r, json, length, sound, &doc);
	if (st == STATUS_OK && (st = sql_begin(s, err)) == STATUS_OK)
		st = sql_finish(s, merge(&r, &doc, first, added), err);
	if (st != STATUS_OK) {
		*first = 0;
		*added = 0;
	}
	arena_free(&mem);
	return st;
}
