/* edit.h - one change to a plan, with its inverse.
 *
 * An edit is a value. Applying it to a plan in memory gives the edit that takes it back; the store
 * keeps both as a row, so undo and redo outlive the program. */
#ifndef SLABWRIGHT_EDIT_H
#define SLABWRIGHT_EDIT_H

#include "slabwright/plan.h"

enum edit_type {
	EDIT_NODE_INSERT, /* node goes in before position `at` of ring `ring` (at == count: at the
	                     end) */
	EDIT_NODE_DELETE, /* the node at `at` goes */
	EDIT_NODE_SET, /* the node at `at` becomes `node`: moved, bent, or its edge's kind changed
	                */
	EDIT_RING_INSERT, /* `ring_value` becomes ring `ring` (ring == ring_count: the last) */
	EDIT_RING_DELETE, /* ring `ring` goes */
	EDIT_RING_SET, /* ring `ring` becomes `ring_value`: closed, reopened, or reshaped at once */
	EDIT_LAYING, /* laying replaced */
	EDIT_SURFACE, /* surface replaced */
	EDIT_GROUND, /* ground replaced */
	EDIT_EDGING, /* edging[at] becomes `edging` */
	EDIT_RULES, /* rule_set becomes `text` */
	EDIT_BORDERS, /* the list of borders replaced */
	EDIT_ZONES, /* the list of zones replaced */
	EDIT_WATER, /* water replaced */
	EDIT_SITE, /* site replaced */
	EDIT_PLANTERS, /* the list of planters replaced */
	EDIT_STEPS, /* the list of flights of steps replaced */
	EDIT_DRAINS, /* water replaced, and outline and openings by as many `rings`: where channels
	                come or go together with the edges that name them */
	EDIT_COSTS, /* costs replaced */
	EDIT_TYPES,
};

/* Rings are numbered through: the outline 0, then the openings, then the rings of the zones.
 * EDIT_RING_INSERT and EDIT_RING_DELETE are for outline and openings, EDIT_ZONES for zones. */
struct edit {
	enum edit_type type;
	char label[80]; /* what undo will name: "move corner 3" */
	size_t ring, at;
	struct plan_node node;
	struct plan_ring ring_value;
	struct plan_laying laying;
	struct plan_surface surface;
	struct plan_ground ground;
	struct plan_edging edging;
	const char *text;
	struct plan_border *borders;
	size_t border_count;
	struct plan_zone *zones;
	size_t zone_count;
	struct plan_water water;
	struct plan_site site;
	struct plan_planter *planters;
	size_t planter_count;
	struct plan_steps *steps;
	size_t steps_count;
	struct plan_costs costs;
	struct plan_ring *rings; /* of EDIT_DRAINS */
	size_t ring_count;
};

/* Makes *edit the EDIT_DRAINS, without a label, that takes channel `number` (from 1) out of the
 * plan: edges that name it name none, and those that name a later one its new number. What it
 * points to lives in mem and the plan. Refuses a channel that is not there. */
enum status edit_channel_delete(struct arena *mem, const struct plan *plan, int64_t number,
        struct edit *edit, struct error *err);

/* The ring of that number, or NULL; and how many there are. */
const struct plan_ring *plan_ring_at(const struct plan *plan, size_t ring);
size_t plan_ring_total(const struct plan *plan);

/* Applies the edit to the plan, whose arrays are replaced by new ones in `mem` where they change
 * (the old ones are left as they were). *inverse (may be NULL) becomes the edit that takes it back,
 * with the same label. Refuses (STATUS_PLAN) a ring or node that is not there; the plan is then as
 * it was. */
enum status edit_apply(struct arena *mem, struct plan *plan, const struct edit *edit,
        struct edit *inverse, struct error *err);

#endif
