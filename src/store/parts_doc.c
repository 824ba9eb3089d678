/* parts_doc.c - border courses and zones as JSON. */
#include "plan_doc.h"

#include <stddef.h>

/* --- borders --- */

static const char *lay_word(int value)
{
	return border_lay_name((enum border_lay)value);
}

static const char *corner_word(int value)
{
	return border_corner_name((enum border_corner)value);
}

static const char *begin_word(int value)
{
	return border_begin_name((enum border_begin)value);
}

static const struct words lay_words = { lay_word, border_lay_parse, 2, "way to lay a border" };
static const struct words corner_words = { corner_word, border_corner_parse, 2,
	"corner of a border" };
static const struct words begin_words = { begin_word, border_begin_parse, 2,
	"beginning of a border" };

#define BORDER(member) .at = offsetof(struct plan_border, member)
static const struct field border_fields[] = {
	{ "slab", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, BORDER(slab), .shape = &slab_shape },
	{ "lay", FIELD_WORD, FIELD_ALWAYS, BORDER(lay), &lay_words },
	{ "deep", FIELD_WHOLE, FIELD_ALWAYS, BORDER(deep) },
	{ "offset", FIELD_FRACTION, FIELD_ALWAYS, BORDER(offset) },
	{ "corners", FIELD_WORD, FIELD_ALWAYS, BORDER(corners), &corner_words },
	{ "begin", FIELD_WORD, FIELD_ALWAYS, BORDER(begin), &begin_words },
	{ "widest_joint", FIELD_MM, FIELD_ALWAYS, BORDER(widest_joint_um) },
};
static const struct shape border_shape = SHAPE(border_fields);

const struct list border_list = LIST(border_shape, struct plan, BORDERS, borders, border_count);

void border_begin(void *item)
{
	border_init(item);
}

/* --- zones --- */

#define ZONE(member) .at = offsetof(struct plan_zone, member)
static const struct field zone_fields[] = {
	{ "name", FIELD_TEXT, 0, ZONE(name) },
	{ "closed", FIELD_BOOL, 0, ZONE(ring.closed) },
	{ "nodes", FIELD_OWN, FIELD_REQUIRED, ZONE(ring), .read = corners_read,
	        .write = corners_write },
	{ "paved", FIELD_BOOL, FIELD_ALWAYS, ZONE(paved) },
	{ "level", FIELD_MM, FIELD_ALWAYS, ZONE(level_um) },
	{ "laying", FIELD_OBJECT, FIELD_ALWAYS, ZONE(laying), .shape = &pattern_shape },
};
static const struct shape zone_shape = SHAPE(zone_fields);
/* One without slabs: all but the laying, the last. */
static const struct shape bare_shape = { zone_fields,
	sizeof zone_fields / sizeof *zone_fields - 1 };

static enum status zone_read(struct reader *r, const struct doc *from, struct plan_zone *z)
{
	enum status st;

	zone_init(z);
	st = doc_read(r, from, &zone_shape, z);
	if (st == STATUS_OK && !z->paved && doc_member(from, "laying"))
		return doc_refuse(r, doc_member(from, "laying"),
		        "a zone that is not paved has none; leave it out, or let \"paved\" be "
		        "true");
	return st;
}

enum status zones_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan *plan = to;
	enum status st = doc_want_array(r, from, ZONES);

	if (st != STATUS_OK)
		return st;
	plan->zones = arena_alloc(r->mem, from->count, sizeof *plan->zones);
	if (!plan->zones)
		return error_memory(r->err);
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next)
		st = zone_read(r, d, &plan->zones[plan->zone_count++]);
	return st;
}

void zones_write(struct json *j, const char *name, const void *from)
{
	const struct plan *plan = from;
	struct plan_zone defaults;

	if (!plan->zone_count)
		return;
	zone_init(&defaults);
	json_array(j, name);
	for (size_t i = 0; i < plan->zone_count; i++) {
		const struct plan_zone *z = &plan->zones[i];

		json_object(j, NULL);
		doc_write(j, z->paved ? &zone_shape : &bare_shape, z, &defaults);
		json_end(j);
	}
	json_end(j);
}
