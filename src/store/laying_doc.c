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

static int along_parse(const char *word)
{
	return strcmp(word, "x") == 0 ? ALONG_X : strcmp(word, "y") == 0 ? ALONG_Y : -1;
}

static const struct words bond_words = { bond_word, bond_parse, BONDS, "bond" };
static const struct words size_words = { size_word, size_parse, 2, "meaning of a size" };
static const struct words along_words = { along_word, along_parse, 2, "direction of the courses" };
static const struct words rule_words = { rule_word, edge_rule_parse, 2, "edge rule" };
_Static_assert(sizeof(enum edge_kind) == sizeof(int), "words are kept as int");

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

static const struct field laying_fields[] = {
	{ "slab", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, LAYING(slab), .shape = &slab_shape },
	{ "bond", FIELD_WORD, FIELD_ALWAYS, LAYING(bond), &bond_words },
	{ "offset", FIELD_FRACTION, FIELD_ALWAYS, LAYING(offset) },
	{ "along", FIELD_WORD, 0, LAYING(along), &along_words },
	{ "rotation", FIELD_DEGREES, FIELD_ALWAYS, LAYING(rotation_udeg) },
	{ "start", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, 0, .shape = &start_shape },
	{ "kerf", FIELD_MM, FIELD_ALWAYS, LAYING(kerf_um) },
	{ "fill_width", FIELD_MM, FIELD_ALWAYS, LAYING(fill_width_um) },
	{ "sliver_width", FIELD_MM, FIELD_POSITIVE, LAYING(sliver_width_um) },
	{ "edges", FIELD_WORD, FIELD_ALWAYS, LAYING(edges), &rule_words },
	{ "breakage", FIELD_SHARE, FIELD_POSITIVE, LAYING(breakage_ppm) },
};
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
