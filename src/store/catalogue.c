/* catalogue.c - the files of the share folder, read into a store. */
#include "catalogue.h"

#include "plan_doc.h"
#include "plan_rows.h"

#include <errno.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

enum { LARGEST_FILE = 16 << 20, MOST_ITEMS = 10000 };

/* Reads the whole file; text in the arena. */
static enum status read_file(
        const char *path, struct arena *mem, char **text, size_t *length, struct error *err)
{
	FILE *f = fopen(path, "rb");
	enum status st = STATUS_OK;
	long size = -1;

	if (f && fseek(f, 0, SEEK_END) == 0)
		size = ftell(f);
	if (!f || size < 0 || size > LARGEST_FILE || fseek(f, 0, SEEK_SET) != 0)
		st = error_set(err, STATUS_STORE,
		        "%s: this file of the program cannot be read (%s); install the program "
		        "again",
		        path, errno ? strerror(errno) : "it is too large");
	else if (!(*text = arena_alloc(mem, (size_t)size + 1, 1)))
		st = error_memory(err);
	else
		*length = fread(*text, 1, (size_t)size, f);
	if (f)
		fclose(f);
	return st;
}

/* --- slabs --- */

static enum status slab_insert(struct reader *r, const struct plan_slab *b)
{
	return sql_run(r->s,
	        "INSERT INTO catalogue_slabs (name, " SLAB_COLUMNS ") VALUES (?, " SLAB_MARKS ")",
	        VALUES(TEXT(b->name), SLAB_VALUES(b)), r->err);
}

static enum status slab_load(struct reader *r, const struct doc *at)
{
	struct plan plan;
	enum status st;

	plan_init(&plan);
	if ((st = doc_read(r, at, &slab_shape, &plan.laying.slab)) != STATUS_OK)
		return st;
	if (!plan.laying.slab.name[0])
		return doc_refuse(r, at, "a slab of the catalogue needs a name");
	if ((st = laying_check(&plan.laying, "", r->err)) != STATUS_OK)
		return doc_refuse(r, at, "a length, width, joint or another value is out of reach");
	return slab_insert(r, &plan.laying.slab);
}

/* --- edging units --- */

static enum status edging_load(struct reader *r, const struct doc *at)
{
	const char *place = doc_prefix(r, at);
	struct edging_doc e = edging_defaults;
	enum status st = doc_read(r, at, &edging_shape, &e);

	if (st == STATUS_OK)
		st = place ? edging_check(&e.edging, place, r->err) : error_memory(r->err);
	if (st != STATUS_OK)
		return st;
	if (!e.edging.name[0] || !e.edging.unit_um)
		return doc_refuse(r, at, "a unit of the catalogue needs a name and a length");
	return sql_run(r->s,
	        "INSERT INTO catalogue_edgings (kind, " EDGING_COLUMNS ") VALUES (?, " EDGING_MARKS
	        ")",
	        VALUES(TEXT(edge_kind_name(e.kind)), EDGING_VALUES(&e.edging)), r->err);
}

/* --- rule sets --- */

static const char *const rule_keys[] = {
	"fall_min",
	"fall_max",
	"valley_fall_min",
	"below_dpc_min",
	"lift_one_person",
	"lift_two_people",
	"riser_min",
	"riser_max",
	"riser_spread_max",
	"going_min",
	"going_max",
	"two_r_plus_g_min",
	"two_r_plus_g_max",
	"pitch_max",
	"flight_rise_max",
	"handrail_risers",
	"guard_drop",
	"guard_risers",
	"step_width_min",
	"landing_min",
	"flatness_2m",
	"flatness_3m",
	"front_garden_area",
	"half_empty",
	"level_tolerance",
	"place_tolerance",
	"puddle_area",
	"puddle_depth",
	"soakaway_distance",
	"soil_rate_min",
	"wall_fill_max",
	"wall_fs_overturning",
	"wall_fs_sliding",
	"wall_height_max",
};

#define RULE(member) .at = offsetof(struct rule, member)
static const struct field rule_fields[] = {
	{ "key", FIELD_TEXT, FIELD_REQUIRED, RULE(key) },
	{ "value", FIELD_THOUSAND, FIELD_REQUIRED | FIELD_POSITIVE, RULE(number) },
	{ "unit", FIELD_TEXT, FIELD_REQUIRED, RULE(unit) },
	{ "source", FIELD_TEXT, FIELD_REQUIRED, RULE(source) },
};
static const struct shape rule_shape = SHAPE(rule_fields);

struct rule_set_file {
	struct rules set;
	const struct doc *rules;
};

static enum status rules_place(struct reader *r, const struct doc *from, void *to)
{
	memcpy(to, &from, sizeof from);
	return doc_want_array(r, from, MOST_ITEMS);
}

#define SET(member) .at = offsetof(struct rule_set_file, member)
static const struct field set_fields[] = {
	{ "name", FIELD_TEXT, FIELD_REQUIRED, SET(set.name) },
	{ "place", FIELD_TEXT, 0, SET(set.place) },
	{ "date", FIELD_TEXT, 0, SET(set.date) },
	{ "rules", FIELD_OWN, FIELD_REQUIRED, SET(rules), .read = rules_place },
};
static const struct shape set_shape = SHAPE(set_fields);

/* Of a set that stands already, only rules it has not. */
static const char add_rule[] =
        "INSERT INTO rules (rule_set, position, key, number, unit, source) VALUES (?1,"
        " (SELECT ifnull(max(position) + 1, 0) FROM rules WHERE rule_set = ?1), ?2, ?3, ?4, ?5)";
static const char add_missing_rule[] =
        "INSERT INTO rules (rule_set, position, key, number, unit, source) SELECT ?1,"
        " (SELECT ifnull(max(position) + 1, 0) FROM rules WHERE rule_set = ?1), ?2, ?3, ?4, ?5"
        " WHERE NOT EXISTS (SELECT 1 FROM rules WHERE rule_set = ?1 AND key = ?2)";

static enum status rule_load(
        struct reader *r, const struct doc *at, const char *set, const char *sql)
{
	struct rule rule = { 0 };
	enum status st = doc_read(r, at, &rule_shape, &rule);
	size_t i = 0;

	if (st != STATUS_OK)
		return st;
	while (i < sizeof rule_keys / sizeof *rule_keys && strcmp(rule_keys[i], rule.key) != 0)
		i++;
	if (i == sizeof rule_keys / sizeof *rule_keys)
		return doc_refuse(r, at,
		        "no such key as \"%.60s\"; keys are those of the rule sets that come "
		        "with the program",
		        rule.key);
	return sql_run(r->s, sql,
	        VALUES(TEXT(set), TEXT(rule.key), INT(rule.number), TEXT(rule.unit),
	                TEXT(rule.source)),
	        r->err);
}

static enum status rules_load(struct reader *r, const struct doc *at, const char *sql)
{
	struct rule_set_file f = { .set = { .place = "", .date = "" } };
	enum status st = doc_read(r, at, &set_shape, &f);

	/* "none" stands in every store; a file may say more of it. */
	if (st == STATUS_OK)
		st = sql_run(r->s,
		        "INSERT INTO rule_sets (name, place, date) VALUES (?1, ?2, ?3)"
		        " ON CONFLICT (name) DO UPDATE SET place = excluded.place, date = "
		        "excluded.date",
		        VALUES(TEXT(f.set.name), TEXT(f.set.place), TEXT(f.set.date)), r->err);
	for (const struct doc *d = st == STATUS_OK ? f.rules->first : NULL; st == STATUS_OK && d;
	        d = d->next)
		st = rule_load(r, d, f.set.name, sql);
	return st;
}

static enum status rule_set_load(struct reader *r, const struct doc *at)
{
	return rules_load(r, at, add_rule);
}

/* For a store from before some rules were there: what it has stays as it is. */
static enum status rule_set_renew(struct reader *r, const struct doc *at)
{
	return rules_load(r, at, add_missing_rule);
}

/* --- repeats and mixes --- */

static enum status repeat_load(struct reader *r, const struct doc *at)
{
	struct plan_repeat repeat = { .name = "" };
	struct error why = { STATUS_OK, "" };
	enum status st = doc_read(r, at, &repeat_shape, &repeat);

	if (st != STATUS_OK)
		return st;
	if (!repeat.name[0])
		return doc_refuse(r, at, "a repeat of the catalogue needs a name");
	if (repeat_check(&repeat, "", &why) != STATUS_OK)
		return doc_refuse(r, at, "%s", why.text);
	return repeat_write(r->s, (struct laying_id){ 0 }, &repeat, r->err);
}

#define MIX(member) .at = offsetof(struct store_mix, member)
static const struct field mix_fields[] = {
	{ "name", FIELD_TEXT, FIELD_REQUIRED, MIX(name) },
	{ "seed", FIELD_WHOLE, 0, MIX(mix.seed) },
	{ "sizes", FIELD_LIST, FIELD_REQUIRED, MIX(mix.sizes), .list = &mix_size_list },
};
static const struct shape mix_shape = SHAPE(mix_fields);

static enum status mix_load(struct reader *r, const struct doc *at)
{
	struct store_mix m = { .name = "" };
	struct error why = { STATUS_OK, "" };
	enum status st = doc_read(r, at, &mix_shape, &m);

	if (st != STATUS_OK)
		return st;
	if (mix_check(&m.mix, "", &why) != STATUS_OK)
		return doc_refuse(r, at, "%s", why.text);
	return mix_write(r->s, (struct laying_id){ 0 }, m.name, &m.mix, r->err);
}

/* --- files --- */

struct file {
	const char *name, *format, *list; /* list: the member that holds the items */
	enum status (*load)(struct reader *r, const struct doc *item);
	int version; /* of the store that brought it */
};

static const struct file files[] = {
	{ "slabs.json", "slabwright-slabs", "slabs", slab_load, 1 },
	{ "edgings.json", "slabwright-edgings", "edgings", edging_load, 1 },
	{ "rulesets.json", "slabwright-rulesets", "rule_sets", rule_set_load, 1 },
	{ "repeats.json", "slabwright-repeats", "repeats", repeat_load, 3 },
	{ "mixes.json", "slabwright-mixes", "mixes", mix_load, 3 },
	{ "rain.json", "slabwright-rain", "rains", rain_load, 5 },
	{ "blocks.json", "slabwright-blocks", "blocks", block_load, 5 },
	{ "rulesets.json", "slabwright-rulesets", "rule_sets", rule_set_renew, 5 },
	{ "step_units.json", "slabwright-step-units", "step_units", step_unit_load, 5 },
};

static enum status load_items(
        struct reader *r, const struct file *file, const char *text, size_t length)
{
	const struct doc *list;
	struct doc *root;
	enum status st;

	if ((st = doc_parse(r, text, length, &root)) != STATUS_OK ||
	        (st = doc_check_head(r, root, file->format)) != STATUS_OK)
		return st;
	list = doc_member(root, file->list);
	if (!list)
		return doc_refuse(r, root, "the member \"%s\" is missing", file->list);
	st = doc_want_array(r, list, MOST_ITEMS);
	for (const struct doc *d = list->first; st == STATUS_OK && d; d = d->next)
		st = file->load(r, d);
	return st;
}

static enum status load_file(
        struct store *s, const char *share_dir, const struct file *file, struct error *err)
{
	struct arena mem = { 0 };
	struct error why = { STATUS_OK, "" };
	struct reader r = { .s = s, .mem = &mem, .err = &why, .notes = true };
	const char *path = arena_print(&mem, "%s/%s", share_dir, file->name);
	size_t length = 0;
	char *text = NULL;
	enum status st = path ? read_file(path, &mem, &text, &length, err) : error_memory(err);

	if (st == STATUS_OK && (st = load_items(&r, file, text, length)) != STATUS_OK) {
		if (st == STATUS_PLAN)
			st = error_set(err, STATUS_STORE, "%s: %s", path, why.text);
		else
			st = error_set(err, st, "%s", why.text);
	}
	arena_free(&mem);
	return st;
}

enum status catalogue_load(struct store *s, const char *share_dir, int version, struct error *err)
{
	enum status st = STATUS_OK;

	for (size_t i = 0; st == STATUS_OK && i < sizeof files / sizeof *files; i++)
		if (files[i].version == version)
			st = load_file(s, share_dir, &files[i], err);
	return st;
}
