/* exchange_read.c - a document read and checked as a whole, before it is merged into the store. */
#include "exchange.h"
#include "plan_rows.h"

#include <stddef.h>
#include <string.h>

enum { MOST_VARIANTS = 10000, MOST_JOBS = 10000 };

#define OWNER(member) .at = offsetof(struct owner, member)
#define OWNER_FIELDS(title)                                                                        \
	{ title, FIELD_TEXT, FIELD_REQUIRED, OWNER(name) },                                        \
	        { "uuid", FIELD_OWN, 0, OWNER(uuid), .read = uuid_read },                          \
	        { "notes", FIELD_OWN, 0, OWNER(notes), .read = notes_read },                       \
	{                                                                                          \
		"archived", FIELD_BOOL, 0, OWNER(archived)                                         \
	}
static const struct field client_fields[] = { OWNER_FIELDS("name") };
static const struct shape client_shape = SHAPE(client_fields);
static const struct field job_fields[] = { OWNER_FIELDS("title") };
static const struct shape job_shape = SHAPE(job_fields);

static enum status variants_read(struct reader *r, const struct doc *from, void *to)
{
	struct job_doc *job = to;
	enum status st = doc_want_array(r, from, MOST_VARIANTS);

	if (st != STATUS_OK)
		return st;
	job->variants = arena_alloc(r->mem, from->count, sizeof *job->variants);
	job->places = arena_alloc(r->mem, from->count, sizeof *job->places);
	if (!job->variants || !job->places)
		return error_memory(r->err);
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next) {
		job->places[job->count] = d;
		variant_doc_init(&job->variants[job->count]);
		st = doc_read(r, d, &variant_shape, &job->variants[job->count++]);
	}
	return st;
}

/* A job of a client's document. */
static const struct field whole_job_fields[] = {
	OWNER_FIELDS("title"),
	{ "variants", FIELD_OWN, FIELD_REQUIRED, 0, .read = variants_read },
};
static const struct shape whole_job_shape = SHAPE(whole_job_fields);
_Static_assert(offsetof(struct job_doc, owner) == 0, "a job is read as its owner too");

static enum status jobs_read(struct reader *r, const struct doc *from, void *to)
{
	struct document *doc = to;
	enum status st = doc_want_array(r, from, MOST_JOBS);

	if (st != STATUS_OK)
		return st;
	doc->jobs = arena_alloc(r->mem, from->count, sizeof *doc->jobs);
	if (!doc->jobs)
		return error_memory(r->err);
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next) {
		struct job_doc *job = &doc->jobs[doc->job_count++];

		job->owner = (struct owner){ .uuid = "", .notes = "" };
		st = doc_read(r, d, &whole_job_shape, job);
	}
	return st;
}

#define DOCUMENT(member) .at = offsetof(struct document, member)
#define HEAD_FIELDS                                                                                \
	{ "format", FIELD_TEXT, FIELD_REQUIRED, DOCUMENT(format) },                                \
	        { "version", FIELD_WHOLE, FIELD_REQUIRED, DOCUMENT(version) },                     \
	{                                                                                          \
		"client", FIELD_OBJECT, FIELD_REQUIRED, DOCUMENT(client), .shape = &client_shape   \
	}
static const struct field document_fields[] = {
	HEAD_FIELDS,
	{ "job", FIELD_OBJECT, FIELD_REQUIRED, DOCUMENT(one.owner), .shape = &job_shape },
	{ "variants", FIELD_OWN, FIELD_REQUIRED, DOCUMENT(one), .read = variants_read },
};
static const struct shape document_shape = SHAPE(document_fields);
static const struct field client_document_fields[] = {
	HEAD_FIELDS,
	{ "jobs", FIELD_OWN, FIELD_REQUIRED, 0, .read = jobs_read },
};
static const struct shape client_document_shape = SHAPE(client_document_fields);

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
static enum status twin_check(
        struct reader *r, const struct variant_doc *const *seen, size_t count, const struct doc *at)
{
	const struct variant_doc *last = seen[count - 1];

	for (size_t i = 0; last->uuid[0] && i + 1 < count; i++)
		if (strcmp(seen[i]->uuid, last->uuid) == 0)
			return doc_refuse(r, doc_member(at, "uuid"),
			        "variants[%zu] has the same UUID; leave it out of one of them", i);
	return STATUS_OK;
}

static enum status jobs_check(struct reader *r, const struct document *doc, plan_sound_fn *sound)
{
	size_t all = 0, count = 0;
	const struct variant_doc **seen;
	enum status st = STATUS_OK;

	for (size_t k = 0; k < doc->job_count; k++)
		all += doc->jobs[k].count;
	if (!(seen = arena_alloc(r->mem, all + 1, sizeof(const struct variant_doc *))))
		return error_memory(r->err);
	for (size_t k = 0; k < doc->job_count; k++) {
		const struct job_doc *job = &doc->jobs[k];

		for (size_t i = 0; st == STATUS_OK && i < job->count; i++) {
			seen[count++] = &job->variants[i];
			st = variant_check(r, job->places[i], &job->variants[i], sound);
			if (st == STATUS_OK)
				st = twin_check(r, seen, count, job->places[i]);
		}
	}
	return st;
}

static enum status document_read(struct reader *r, const char *json, size_t length,
        plan_sound_fn *sound, struct document *doc)
{
	struct doc *root;
	bool whole;
	enum status st;

	*doc = (struct document){ .client = { .uuid = "", .notes = "" },
		.one.owner = { .uuid = "", .notes = "" } };
	if ((st = doc_parse(r, json, length, &root)) != STATUS_OK ||
	        (st = doc_check_head(r, root, "slabwright-plan")) != STATUS_OK)
		return st;
	whole = doc_member(root, "jobs") != NULL;
	st = doc_read(r, root, whole ? &client_document_shape : &document_shape, doc);
	if (!whole) {
		doc->jobs = &doc->one;
		doc->job_count = 1;
	}
	return st == STATUS_OK ? jobs_check(r, doc, sound) : st;
}

enum status store_merge(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        enum store_clashes clashes, struct arena *mem, struct store_merged *out, struct error *err)
{
	struct arena own = { 0 };
	struct reader r = { .s = s, .mem = &own, .err = err };
	struct document doc;
	enum status st;

	*out = (struct store_merged){ 0 };
	st = document_read(&r, json, length, sound, &doc);
	if (st == STATUS_OK && (st = sql_begin(s, err)) == STATUS_OK)
		st = sql_finish(s, document_merge(&r, &doc, clashes, mem, out), err);
	if (st != STATUS_OK) /* nothing was done */
		*out = (struct store_merged){ .clashes = out->clashes,
			.clash_count = out->clash_count };
	arena_free(&own);
	return st;
}

enum status store_import(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        int64_t *first, size_t *added, struct error *err)
{
	struct arena mem = { 0 };
	struct store_merged merged;
	enum status st =
	        store_merge(s, json, length, sound, STORE_CLASHES_REFUSED, &mem, &merged, err);

	*first = merged.variant;
	*added = merged.added;
	arena_free(&mem);
	return st;
}
