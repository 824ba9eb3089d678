/* plan_check.c - what must never stand in the store. */
#include "entries.h"
#include "plan_rows.h"

#include <stdio.h>

/* A corner that lies out of reach; `what` it is of: "ring", "zone". */
static enum status corner_check(
        const char *what, size_t of, const struct plan_node *n, size_t at, struct error *err)
{
	const struct {
		const char *name;
		int64_t value;
	} lengths[] = { { "x", n->x_um }, { "y", n->y_um }, { "rise", n->rise_um } };

	for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
		char is[40];

		if (lengths[i].value >= -COORD_LIMIT_UM && lengths[i].value <= COORD_LIMIT_UM)
			continue;
		return error_set(err, STATUS_PLAN,
		        "%s %zu, corner %zu: %s of %s mm is out of reach; stay within 1000000 mm",
		        what, of + 1, at + 1, lengths[i].name,
		        mm_print(is, sizeof is, lengths[i].value));
	}
	return STATUS_OK;
}

static enum status node_check(const struct plan_node *n, size_t ring, size_t at, struct error *err)
{
	enum status st = corner_check("ring", ring, n, at, err);

	if (st == STATUS_OK && (unsigned)n->kind >= EDGE_KINDS)
		return error_set(err, STATUS_PLAN,
		        "ring %zu, corner %zu: there is no such kind of edge", ring + 1, at + 1);
	return st;
}

size_t corner_count(const struct plan *plan)
{
	size_t corners = 0;

	for (size_t i = 0; i < plan->ring_count; i++)
		corners += plan->rings[i].count;
	for (size_t i = 0; i < plan->zone_count; i++)
		corners += plan->zones[i].ring.count;
	return corners;
}

static enum status corners_check(const struct plan *plan, struct error *err)
{
	size_t corners = corner_count(plan);

	if (corners > MOST_CORNERS)
		return error_set(err, STATUS_PLAN,
		        "the plan would have %zu corners; give at most %d", corners, MOST_CORNERS);
	return STATUS_OK;
}

enum status rule_set_check(struct store *s, const char *name, const char *place, struct error *err)
{
	struct arena mem = { 0 };
	const char *names = NULL;
	bool found;
	int64_t one;
	enum status st = sql_number(s, "SELECT 1 FROM rule_sets WHERE name = ?1",
	        VALUES(TEXT(name)), &one, &found, err);

	if (st != STATUS_OK || found)
		return st;
	st = sql_text(s,
	        "SELECT group_concat('\"' || name || '\"', ', ') FROM (SELECT name FROM rule_sets "
	        "ORDER BY name)",
	        NO_VALUES, &mem, &names, err);
	if (st == STATUS_OK)
		st = error_set(err, STATUS_PLAN,
		        "%sno rule set \"%s\" is in this store; there are %s", place, name,
		        names ? names : "none");
	arena_free(&mem);
	return st;
}

static enum status surface_value_check(const struct plan_surface *f, struct error *err)
{
	enum status st = surface_check(f, "", err);

	if ((unsigned)f->envelope > ENVELOPE_MIN)
		return error_set(err, STATUS_PLAN, "envelope: there is no such one");
	return st == STATUS_OK ? text_check(f->fixed_name, 0, "fixed.name", err) : st;
}

/* Words and texts of a laying's slab and bond; laying_check knows its numbers. */
static enum status pattern_check(const struct plan_laying *l, const char *place, struct error *err)
{
	char slab[120], repeat[120];
	enum status st;

	if ((unsigned)l->bond >= BONDS || (unsigned)l->along > ALONG_Y ||
	        (unsigned)l->slab.size > SIZE_WORK)
		return error_set(err, STATUS_PLAN,
		        "%sbond: there is no such bond, direction of its courses or meaning of the "
		        "size",
		        place);
	snprintf(slab, sizeof slab, "%sslab.name", place);
	snprintf(repeat, sizeof repeat, "%srepeat.name", place);
	st = text_check(l->slab.name, 0, slab, err);
	return st == STATUS_OK ? text_check(l->repeat.name, 0, repeat, err) : st;
}

static enum status laying_value_check(const struct plan_laying *l, struct error *err)
{
	enum status st = pattern_check(l, "", err);

	if ((unsigned)l->edges > RULE_ROUGH)
		return error_set(err, STATUS_PLAN, "edges: there is no such edge rule");
	return st == STATUS_OK ? laying_check(l, "", err) : st;
}

static enum status border_value_check(const struct plan_border *b, size_t at, struct error *err)
{
	char place[120];

	if ((unsigned)b->lay > BORDER_STRETCHER || (unsigned)b->corners > CORNER_BUTTED ||
	        (unsigned)b->begin > BEGIN_MIDDLE || (unsigned)b->slab.size > SIZE_WORK)
		return error_set(err, STATUS_PLAN,
		        "borders[%zu]: there is no such way to lay it, corner, beginning or "
		        "meaning of the size",
		        at);
	snprintf(place, sizeof place, "borders[%zu].slab.name", at);
	return text_check(b->slab.name, 0, place, err);
}

static enum status borders_value_check(const struct plan *plan, struct error *err)
{
	enum status st = borders_check(plan->borders, plan->border_count, "", err);

	for (size_t i = 0; st == STATUS_OK && i < plan->border_count; i++)
		st = border_value_check(&plan->borders[i], i, err);
	return st == STATUS_OK ? plan_borders_check(plan, err) : st;
}

static enum status zone_value_check(const struct plan_zone *z, size_t at, struct error *err)
{
	char place[120];
	enum status st;

	snprintf(place, sizeof place, "zones[%zu].name", at);
	st = text_check(z->name, 0, place, err);
	for (size_t i = 0; st == STATUS_OK && i < z->ring.count; i++)
		st = corner_check("zone", at, &z->ring.nodes[i], i, err);
	snprintf(place, sizeof place, "zones[%zu].laying.", at);
	return st == STATUS_OK && z->paved ? pattern_check(&z->laying, place, err) : st;
}

static enum status zones_value_check(const struct plan *plan, struct error *err)
{
	enum status st = zones_check(plan->zones, plan->zone_count, "", err);

	for (size_t i = 0; st == STATUS_OK && i < plan->zone_count; i++)
		st = zone_value_check(&plan->zones[i], i, err);
	return st;
}

/* The borders and channels that edges name, and where channels lie. */
static enum status names_check(const struct plan *plan, struct error *err)
{
	enum status st = plan_borders_check(plan, err);

	return st == STATUS_OK ? plan_channels_check(plan, err) : st;
}

/* What an edit has put into the rings: corners, and what their edges name. */
static enum status nodes_check(const struct plan *plan, const struct edit *e, struct error *err)
{
	bool ring = e->type == EDIT_RING_INSERT || e->type == EDIT_RING_SET;
	enum status st = ring ? STATUS_OK : node_check(&e->node, e->ring, e->at, err);

	for (size_t i = 0; ring && st == STATUS_OK && i < e->ring_value.count; i++)
		st = node_check(&e->ring_value.nodes[i], e->ring, i, err);
	return st == STATUS_OK ? names_check(plan, err) : st;
}

static enum status drains_check(const struct plan *plan, struct error *err)
{
	enum status st = water_check(&plan->water, "water.", err);

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t k = 0; st == STATUS_OK && k < plan->rings[i].count; k++)
			st = node_check(&plan->rings[i].nodes[k], i, k, err);
	return st == STATUS_OK ? names_check(plan, err) : st;
}

enum status edit_check(
        struct store *s, const struct plan *plan, const struct edit *e, struct error *err)
{
	enum status st = corners_check(plan, err);

	if (st != STATUS_OK)
		return st;
	switch (e->type) {
	case EDIT_NODE_INSERT:
	case EDIT_NODE_SET:
	case EDIT_RING_INSERT:
	case EDIT_RING_SET:
		return nodes_check(plan, e, err);
	case EDIT_NODE_DELETE:
	case EDIT_RING_DELETE:
		return plan_channels_check(plan, err);
	case EDIT_LAYING:
		return laying_value_check(&plan->laying, err);
	case EDIT_SURFACE:
		return surface_value_check(&plan->surface, err);
	case EDIT_GROUND:
		return ground_check(&plan->ground, "", err);
	case EDIT_EDGING:
		return edging_check(&plan->edging[e->at], "edging.", err);
	case EDIT_RULES:
		return rule_set_check(s, plan->rule_set, "", err);
	case EDIT_BORDERS:
		return borders_value_check(plan, err);
	case EDIT_ZONES:
		return zones_value_check(plan, err);
	case EDIT_WATER:
	case EDIT_DRAINS:
		return drains_check(plan, err);
	case EDIT_SITE:
		return site_check(&plan->site, "site.", err);
	case EDIT_PLANTERS:
		return planters_check(plan->planters, plan->planter_count, "", err);
	case EDIT_STEPS:
		return steps_check(plan->steps, plan->steps_count, "", err);
	case EDIT_COSTS:
		return costs_check(&plan->costs, "costs.", err);
	default:
		return STATUS_OK;
	}
}
