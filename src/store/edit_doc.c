/* edit_doc.c - an edit as one line of JSON, as the undo rows keep it. */
#include "plan_doc.h"
#include "plan_rows.h"

#include <stddef.h>
#include <string.h>

static const char *const types[EDIT_TYPES] = {
	[EDIT_NODE_INSERT] = "node insert",
	[EDIT_NODE_DELETE] = "node delete",
	[EDIT_NODE_SET] = "node set",
	[EDIT_RING_INSERT] = "ring insert",
	[EDIT_RING_DELETE] = "ring delete",
	[EDIT_RING_SET] = "ring set",
	[EDIT_LAYING] = "laying",
	[EDIT_SURFACE] = "surface",
	[EDIT_GROUND] = "ground",
	[EDIT_EDGING] = "edging",
	[EDIT_RULES] = "rules",
	[EDIT_BORDERS] = "borders",
	[EDIT_ZONES] = "zones",
	[EDIT_WATER] = "water",
	[EDIT_SITE] = "site",
	[EDIT_PLANTERS] = "planters",
	[EDIT_STEPS] = "steps",
	[EDIT_DRAINS] = "drains",
	[EDIT_COSTS] = "costs",
};

static const char *type_word(int value)
{
	return types[value];
}

static int type_parse(const char *word)
{
	for (int i = 0; i < EDIT_TYPES; i++)
		if (strcmp(types[i], word) == 0)
			return i;
	return -1;
}

static const struct words type_words = { type_word, type_parse, EDIT_TYPES, "edit" };

/* The parts of an edit as the members stand; `edging` carries its kind, which the edit calls `at`,
 * and `lists` the borders and zones and what stands beside the paving. */
struct edit_doc {
	int type;
	int64_t ring, at;
	struct edging_doc edging;
	const char *rule_set;
	struct edit parts;
	struct plan lists;
};

static void ring_begin(void *item)
{
	*(struct plan_ring *)item = ring_defaults;
}

static const struct list ring_list = LIST(ring_shape, struct edit, MOST_RINGS, rings, ring_count);

#define EDIT(member) .at = offsetof(struct edit_doc, member)
static const struct field edit_fields[] = {
	{ "type", FIELD_WORD, FIELD_REQUIRED, EDIT(type), &type_words },
	{ "ring", FIELD_WHOLE, FIELD_ALWAYS | FIELD_POSITIVE, EDIT(ring) },
	{ "at", FIELD_WHOLE, FIELD_ALWAYS | FIELD_POSITIVE, EDIT(at) },
	{ "node", FIELD_OBJECT, 0, EDIT(parts.node), .shape = &node_shape },
	{ "shape", FIELD_OBJECT, 0, EDIT(parts.ring_value), .shape = &ring_shape },
	{ "laying", FIELD_OWN, 0, EDIT(parts.laying), .read = laying_read },
	{ "surface", FIELD_OWN, 0, EDIT(parts.surface), .read = surface_read },
	{ "ground", FIELD_OWN, 0, EDIT(parts.ground), .read = ground_read },
	{ "edging", FIELD_OBJECT, 0, EDIT(edging), .shape = &edging_shape },
	{ "rule_set", FIELD_TEXT, 0, EDIT(rule_set) },
	{ "borders", FIELD_LIST, 0, EDIT(lists.borders), .list = &border_list,
	        .init = border_begin },
	{ "zones", FIELD_OWN, 0, EDIT(lists), .read = zones_read },
	{ "rings", FIELD_LIST, 0, EDIT(parts.rings), .list = &ring_list, .init = ring_begin },
	BESIDE_FIELDS(offsetof(struct edit_doc, lists)),
};
static const struct field rings_fields[] = {
	{ "rings", FIELD_LIST, 0, offsetof(struct edit, rings), .list = &ring_list,
	        .init = ring_begin },
};
static const struct shape rings_shape = SHAPE(rings_fields);
static const struct field borders_fields[] = {
	{ "borders", FIELD_LIST, 0, offsetof(struct plan, borders), .list = &border_list,
	        .init = border_begin },
};
static const struct shape borders_shape = SHAPE(borders_fields);
static const struct shape edit_shape = SHAPE(edit_fields);

/* The rings of an edit that has some, and one part of what stands beside the paving. */
static void write_beside(struct json *j, const struct edit *e, int part)
{
	const struct shape shape = beside_part(part);
	struct plan plan, defaults;

	plan_init(&defaults);
	plan = defaults;
	plan.water = e->water;
	plan.site = e->site;
	plan.planters = e->planters;
	plan.planter_count = e->planter_count;
	plan.steps = e->steps;
	plan.steps_count = e->steps_count;
	if (e->type == EDIT_COSTS)
		plan.costs = e->costs;
	if (e->type == EDIT_DRAINS)
		doc_write(j, &rings_shape, e, e);
	doc_write(j, &shape, &plan, &defaults);
}

static void write_value(struct json *j, const struct edit *e)
{
	const struct plan lists = { .borders = e->borders,
		.border_count = e->border_count,
		.zones = e->zones,
		.zone_count = e->zone_count };

	switch (e->type) {
	case EDIT_NODE_INSERT:
	case EDIT_NODE_SET:
		json_object(j, "node");
		doc_write(j, &node_shape, &e->node, &node_defaults);
		json_end(j);
		return;
	case EDIT_RING_INSERT:
	case EDIT_RING_SET:
		json_object(j, "shape");
		doc_write(j, &ring_shape, &e->ring_value, &ring_defaults);
		json_end(j);
		return;
	case EDIT_LAYING:
		laying_write(j, "laying", &e->laying);
		return;
	case EDIT_SURFACE:
		surface_write(j, "surface", &e->surface);
		return;
	case EDIT_GROUND:
		ground_write(j, "ground", &e->ground);
		return;
	case EDIT_EDGING:
		edging_write(j, "edging", (enum edge_kind)e->at, &e->edging);
		return;
	case EDIT_RULES:
		json_text(j, "rule_set", e->text);
		return;
	case EDIT_BORDERS:
		doc_write(j, &borders_shape, &lists, &lists);
		return;
	case EDIT_ZONES:
		zones_write(j, "zones", &lists);
		return;
	case EDIT_WATER:
	case EDIT_DRAINS:
		write_beside(j, e, BESIDE_WATER);
		return;
	case EDIT_SITE:
		write_beside(j, e, BESIDE_SITE);
		return;
	case EDIT_PLANTERS:
		write_beside(j, e, BESIDE_PLANTERS);
		return;
	case EDIT_STEPS:
		write_beside(j, e, BESIDE_STEPS);
		return;
	case EDIT_COSTS:
		write_beside(j, e, BESIDE_COSTS);
		return;
	default: /* what is deleted needs no value */
		return;
	}
}

void edit_write(struct json *j, const struct edit *e)
{
	json_object_tight(j, NULL);
	json_text(j, "type", types[e->type]);
	json_int(j, "ring", (int64_t)e->ring);
	json_int(j, "at", e->type == EDIT_EDGING ? 0 : (int64_t)e->at);
	write_value(j, e);
	json_end(j);
}

enum status edit_read(struct reader *r, const char *text, struct edit *e)
{
	struct edit_doc d = { .edging = edging_defaults, .rule_set = "" };
	struct plan defaults;
	struct doc *root;
	enum status st = doc_parse(r, text, strlen(text), &root);

	if (st != STATUS_OK)
		return st;
	plan_init(&defaults);
	d.parts.node = node_defaults;
	d.parts.ring_value = ring_defaults;
	d.parts.laying = defaults.laying;
	d.parts.surface = defaults.surface;
	d.parts.ground = defaults.ground;
	d.lists = defaults;
	st = doc_read(r, root, &edit_shape, &d);
	*e = d.parts;
	e->type = (enum edit_type)d.type;
	e->ring = (size_t)d.ring;
	e->at = e->type == EDIT_EDGING ? (size_t)d.edging.kind : (size_t)d.at;
	e->edging = d.edging.edging;
	e->text = d.rule_set;
	e->borders = d.lists.borders;
	e->border_count = d.lists.border_count;
	e->zones = d.lists.zones;
	e->zone_count = d.lists.zone_count;
	e->water = d.lists.water;
	e->site = d.lists.site;
	e->planters = d.lists.planters;
	e->planter_count = d.lists.planter_count;
	e->steps = d.lists.steps;
	e->steps_count = d.lists.steps_count;
	e->costs = d.lists.costs;
	return st;
}
