/* laying_doc.c - a laying as JSON: its slab, its bond and what the bond needs. */
#include "plan_doc.h"

#include "plan_rows.h"

#include <stddef.h>
#include <string.h>

/* --- words --- */

static const char *bond_word(int value)
{
	return bond_name((enum bond)value);
}

static const char *size_word(int value)
{
	return size_name((enum size_meaning)value);
}

static const char *rule_word(int value)
{
	return edge_rule_name((enum edge_rule)value);
}

static const char *along_word(int value)
{
	return along_name((enum along)value);
}

static const struct words bond_words = { bond_word, bond_parse, BONDS, "bond" };
static const struct words size_words = { size_word, size_parse, 2, "meaning of a size" };
static const struct words along_words = { along_word, along_parse, 2, "direction of the courses" };
static const struct words rule_words = { rule_word, edge_rule_parse, 2, "edge rule" };
_Static_assert(sizeof(enum edge_kind) == sizeof(int), "words are kept as int");

/* --- repeat --- */

#define REPEAT_SLAB(member) .at = offsetof(struct repeat_slab, member)
static const struct field repeat_slab_fields[] = {
	{ "x", FIELD_MM, FIELD_REQUIRED, REPEAT_SLAB(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, REPEAT_SLAB(y_um) },
	{ "length", FIELD_MM, FIELD_REQUIRED, REPEAT_SLAB(length_um) },
	{ "width", FIELD_MM, FIELD_REQUIRED, REPEAT_SLAB(width_um) },
};
static const struct shape repeat_slab_shape = SHAPE(repeat_slab_fields);

static const struct list repeat_slab_list =
        LIST(repeat_slab_shape, struct plan_repeat, REPEAT_SLABS, slabs, count);

#define REPEAT(member) .at = offsetof(struct plan_repeat, member)
static const struct field repeat_fields[] = {
	{ "name", FIELD_TEXT, 0, REPEAT(name) },
	{ "step_x", FIELD_MM, FIELD_REQUIRED, REPEAT(step_x_um) },
	{ "step_y", FIELD_MM, FIELD_REQUIRED, REPEAT(step_y_um) },
	{ "slant", FIELD_MM, FIELD_ALWAYS, REPEAT(slant_um) },
	{ "slabs", FIELD_LIST, FIELD_REQUIRED | FIELD_TIGHT, REPEAT(slabs),
	        .list = &repeat_slab_list },
};
const struct shape repeat_shape = SHAPE(repeat_fields);
static const struct plan_repeat repeat_defaults = { .name = "" };

static enum status repeat_by_name(struct reader *r, const struct doc *from, struct plan_repeat *to)
{
	const char *names = NULL;
	enum status st = repeat_named(r->s, from->text, r->mem, to, r->err);

	if (st != STATUS_OK || to->count)
		return st;
	st = sql_text(r->s,
	        "SELECT group_concat('\"' || name || '\"', ', ') FROM (SELECT name FROM repeats"
	        " WHERE variant IS NULL ORDER BY name)",
	        NO_VALUES, r->mem, &names, r->err);
	if (st != STATUS_OK)
		return st;
	return doc_refuse(r, from,
	        "no repeat \"%.60s\" is in this store's catalogue; give its steps and slabs, or "
	        "the name of one that is: %s",
	        from->text, names[0] ? names : "none");
}

static enum status repeat_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_repeat *repeat = to;
	const char *place = doc_prefix(r, from->parent);
	enum status st;

	if (from->type == DOC_TEXT)
		return repeat_by_name(r, from, repeat);
	*repeat = repeat_defaults;
	st = doc_read(r, from, &repeat_shape, repeat);
	if (st == STATUS_OK && !place)
		return error_memory(r->err);
	return st == STATUS_OK ? repeat_check(repeat, place, r->err) : st;
}

static void repeat_write_doc(struct json *j, const char *name, const void *from)
{
	const struct plan_repeat *repeat = from;

	if (!repeat->count)
		return;
	json_object(j, name);
	doc_write(j, &repeat_shape, repeat, &repeat_defaults);
	json_end(j);
}

/* --- mix --- */

#define MIX_SIZE(member) .at = offsetof(struct mix_size, member)
static const struct field mix_size_fields[] = {
	{ "length", FIELD_MM, FIELD_REQUIRED, MIX_SIZE(length_um) },
	{ "width", FIELD_MM, FIELD_REQUIRED, MIX_SIZE(width_um) },
	{ "share", FIELD_WHOLE, FIELD_REQUIRED, MIX_SIZE(share) },
};
static const struct shape mix_size_shape = SHAPE(mix_size_fields);

const struct list mix_size_list = LIST(mix_size_shape, struct plan_mix, MIX_SIZES, sizes, count);

#define MIX(member) .at = offsetof(struct plan_mix, member)
static const struct field mix_fields[] = {
	{ "seed", FIELD_WHOLE, FIELD_ALWAYS, MIX(seed) },
	{ "sizes", FIELD_LIST, FIELD_REQUIRED | FIELD_TIGHT, MIX(sizes), .list = &mix_size_list },
};
static const struct shape mix_shape = SHAPE(mix_fields);
static const struct plan_mix mix_defaults = { 0 };

static enum status mix_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_mix *mix = to;
	const char *place = doc_prefix(r, from->parent);
	enum status st;

	*mix = mix_defaults;
	st = doc_read(r, from, &mix_shape, mix);
	if (st == STATUS_OK && !place)
		return error_memory(r->err);
	return st == STATUS_OK ? mix_check(mix, place, r->err) : st;
}

static void mix_write_doc(struct json *j, const char *name, const void *from)
{
	const struct plan_mix *mix = from;

	if (!mix->count)
		return;
	json_object(j, name);
	doc_write(j, &mix_shape, mix, &mix_defaults);
	json_end(j);
}

/* --- joints along edges: a member for each kind that has one --- */

static struct shape joints_shape(struct field fields[EDGE_KINDS])
{
	for (int i = 0; i < EDGE_KINDS; i++)
		fields[i] = (struct field){ .name = edge_kind_name((enum edge_kind)i),
			.type = FIELD_MM,
			.at = (size_t)i * sizeof(int64_t) };
	return (struct shape){ fields, EDGE_KINDS };
}

static enum status joints_read(struct reader *r, const struct doc *from, void *to)
{
	struct field fields[EDGE_KINDS];
	struct shape shape = joints_shape(fields);

	return doc_read(r, from, &shape, to);
}

static void joints_write(struct json *j, const char *name, const void *from)
{
	static const int64_t none[EDGE_KINDS];
	struct field fields[EDGE_KINDS];
	struct shape shape = joints_shape(fields);

	if (memcmp(from, none, sizeof none) == 0)
		return;
	json_object_tight(j, name);
	doc_write(j, &shape, from, none);
	json_end(j);
}

/* --- laying --- */

#define SLAB(member) .at = offsetof(struct plan_slab, member)
static const struct field slab_fields[] = {
	{ "name", FIELD_TEXT, 0, SLAB(name) },
	{ "length", FIELD_MM, FIELD_REQUIRED, SLAB(length_um) },
	{ "width", FIELD_MM, FIELD_REQUIRED, SLAB(width_um) },
	{ "thickness", FIELD_MM, FIELD_ALWAYS, SLAB(thickness_um) },
	{ "joint", FIELD_MM, FIELD_ALWAYS, SLAB(joint_um) },
	{ "size", FIELD_WORD, FIELD_ALWAYS, SLAB(size), &size_words },
	{ "directional", FIELD_BOOL, FIELD_ALWAYS, SLAB(directional) },
	{ "pack", FIELD_WHOLE, 0, SLAB(pack) },
	{ "density", FIELD_WHOLE, 0, SLAB(density_kg_m3) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, SLAB(price_minor) },
};
const struct shape slab_shape = SHAPE(slab_fields);

#define LAYING(member) .at = offsetof(struct plan_laying, member)
static const struct field start_fields[] = {
	{ "x", FIELD_MM, FIELD_REQUIRED, LAYING(start_x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, LAYING(start_y_um) },
};
static const struct shape start_shape = SHAPE(start_fields);

enum { PATTERN = 8 }; /* the first fields: slab and bond, which a zone has of its own */
static const struct field laying_fields[] = {
	{ "slab", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, LAYING(slab), .shape = &slab_shape },
	{ "bond", FIELD_WORD, FIELD_ALWAYS, LAYING(bond), &bond_words },
	{ "offset", FIELD_FRACTION, FIELD_ALWAYS, LAYING(offset) },
	{ "along", FIELD_WORD, 0, LAYING(along), &along_words },
	{ "rotation", FIELD_DEGREES, FIELD_ALWAYS, LAYING(rotation_udeg) },
	{ "start", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, 0, .shape = &start_shape },
	{ "repeat", FIELD_OWN, 0, LAYING(repeat), .read = repeat_read, .write = repeat_write_doc },
	{ "mix", FIELD_OWN, 0, LAYING(mix), .read = mix_read, .write = mix_write_doc },
	{ "kerf", FIELD_MM, FIELD_ALWAYS, LAYING(kerf_um) },
	{ "fill_width", FIELD_MM, FIELD_ALWAYS, LAYING(fill_width_um) },
	{ "sliver_width", FIELD_MM, FIELD_POSITIVE, LAYING(sliver_width_um) },
	{ "edges", FIELD_WORD, FIELD_ALWAYS, LAYING(edges), &rule_words },
	{ "breakage", FIELD_SHARE, FIELD_POSITIVE, LAYING(breakage_ppm) },
	{ "edge_joints", FIELD_OWN, 0, LAYING(edge_joint_um), .read = joints_read,
	        .write = joints_write },
};
const struct shape pattern_shape = { laying_fields, PATTERN };
static const struct shape laying_shape = SHAPE(laying_fields);

void laying_write(struct json *j, const char *name, const void *from)
{
	struct plan defaults;

	plan_init(&defaults);
	json_object(j, name);
	doc_write(j, &laying_shape, from, &defaults.laying);
	json_end(j);
}

enum status laying_read(struct reader *r, const struct doc *from, void *to)
{
	return doc_read(r, from, &laying_shape, to);
}
