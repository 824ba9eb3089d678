/* edit.c - changes to a plan in memory.
 *
 * What changes is replaced by a new array, so the inverse can point at the old values for as long
 * as their arena lives. */
#include "slabwright/edit.h"

#include <string.h>

const struct plan_ring *plan_ring_at(const struct plan *plan, size_t ring)
{
	if (ring < plan->ring_count)
		return &plan->rings[ring];
	return ring < plan_ring_total(plan) ? &plan->zones[ring - plan->ring_count].ring : NULL;
}

size_t plan_ring_total(const struct plan *plan)
{
	return plan->ring_count + plan->zone_count;
}

static enum status no_ring(const struct plan *plan, size_t ring, struct error *err)
{
	return error_set(err, STATUS_PLAN, "there is no ring %zu: the plan has %zu", ring + 1,
	        plan_ring_total(plan));
}

/* Puts another ring in the place of one, in new arrays. */
static enum status replace_ring(struct arena *mem, struct plan *plan, size_t at,
        const struct plan_ring *ring, struct error *err)
{
	struct plan_ring *rings;
	struct plan_zone *zones;

	if (at < plan->ring_count) {
		rings = arena_alloc(mem, plan->ring_count, sizeof *rings);
		if (!rings)
			return error_memory(err);
		memcpy(rings, plan->rings, plan->ring_count * sizeof *rings);
		rings[at] = *ring;
		plan->rings = rings;
		return STATUS_OK;
	}
	zones = arena_alloc(mem, plan->zone_count, sizeof *zones);
	if (!zones)
		return error_memory(err);
	memcpy(zones, plan->zones, plan->zone_count * sizeof *zones);
	zones[at - plan->ring_count].ring = *ring;
	plan->zones = zones;
	return STATUS_OK;
}

/* The ring's nodes with the one at `at` taken out (remove) or room for one more made there. */
static enum status respace_nodes(struct arena *mem, const struct plan_ring *ring, size_t at,
        bool remove, struct plan_ring *out, struct error *err)
{
	size_t count = remove ? ring->count - 1 : ring->count + 1;
	struct plan_node *nodes = arena_alloc(mem, count, sizeof *nodes);

	if (!nodes)
		return error_memory(err);
	if (at)
		memcpy(nodes, ring->nodes, at * sizeof *nodes);
	if (remove && at < count)
		memcpy(nodes + at, ring->nodes + at + 1, (count - at) * sizeof *nodes);
	else if (!remove && at < ring->count)
		memcpy(nodes + at + 1, ring->nodes + at, (ring->count - at) * sizeof *nodes);
	*out = (struct plan_ring){ .nodes = nodes, .count = count, .closed = ring->closed };
	return STATUS_OK;
}

/* A copy of the ring with nodes of its own. */
static enum status copy_ring(
        struct arena *mem, const struct plan_ring *ring, struct plan_ring *out, struct error *err)
{
	*out = *ring;
	out->nodes = arena_alloc(mem, ring->count, sizeof *out->nodes);
	if (!out->nodes)
		return error_memory(err);
	if (ring->count)
		memcpy(out->nodes, ring->nodes, ring->count * sizeof *out->nodes);
	return STATUS_OK;
}

static enum status edit_node(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	const struct plan_ring *ring = plan_ring_at(plan, e->ring);
	struct plan_ring changed;
	enum status st;

	if (!ring)
		return no_ring(plan, e->ring, err);
	if (e->at >= ring->count + (e->type == EDIT_NODE_INSERT ? 1 : 0))
		return error_set(err, STATUS_PLAN, "there is no corner %zu: the ring has %zu",
		        e->at + 1, ring->count);
	st = e->type == EDIT_NODE_SET
	             ? copy_ring(mem, ring, &changed, err)
	             : respace_nodes(mem, ring, e->at, e->type == EDIT_NODE_DELETE, &changed, err);
	if (st != STATUS_OK)
		return st;
	back->type = e->type == EDIT_NODE_INSERT   ? EDIT_NODE_DELETE
	             : e->type == EDIT_NODE_DELETE ? EDIT_NODE_INSERT
	                                           : EDIT_NODE_SET;
	if (e->type != EDIT_NODE_INSERT)
		back->node = ring->nodes[e->at];
	if (e->type != EDIT_NODE_DELETE)
		changed.nodes[e->at] = e->node;
	return replace_ring(mem, plan, e->ring, &changed, err);
}

static enum status edit_ring_set(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	const struct plan_ring *ring = plan_ring_at(plan, e->ring);
	struct plan_ring value;
	enum status st;

	if (!ring)
		return no_ring(plan, e->ring, err);
	if ((st = copy_ring(mem, &e->ring_value, &value, err)) != STATUS_OK)
		return st;
	back->ring_value = *ring;
	return replace_ring(mem, plan, e->ring, &value, err);
}

/* An opening comes or goes, or the outline. */
static enum status edit_ring(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	bool insert = e->type == EDIT_RING_INSERT;
	size_t count = insert ? plan->ring_count + 1 : plan->ring_count - 1, after;
	struct plan_ring *rings, value = { 0 };
	enum status st = STATUS_OK;

	if (e->ring >= plan->ring_count + (insert ? 1 : 0))
		return no_ring(plan, e->ring, err);
	rings = arena_alloc(mem, count, sizeof *rings);
	if (!rings)
		return error_memory(err);
	if (insert && (st = copy_ring(mem, &e->ring_value, &value, err)) != STATUS_OK)
		return st;
	if (e->ring)
		memcpy(rings, plan->rings, e->ring * sizeof *rings);
	if (insert)
		rings[e->ring] = value;
	after = plan->ring_count - e->ring - (insert ? 0 : 1);
	if (after)
		memcpy(rings + e->ring + (insert ? 1 : 0), plan->rings + e->ring + (insert ? 0 : 1),
		        after * sizeof *rings);
	back->type = insert ? EDIT_RING_DELETE : EDIT_RING_INSERT;
	if (!insert)
		back->ring_value = plan->rings[e->ring];
	plan->rings = rings;
	plan->ring_count = count;
	return STATUS_OK;
}

/* A text that must outlive the edit it came with. */
static bool keep(struct arena *mem, const char **text)
{
	*text = arena_text(mem, *text);
	return *text != NULL;
}

static enum status edit_surface(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	struct plan_surface s = e->surface;

	s.planes = arena_alloc(mem, s.count, sizeof *s.planes);
	if (!s.planes || !keep(mem, &s.fixed_name))
		return error_memory(err);
	if (s.count)
		memcpy(s.planes, e->surface.planes, s.count * sizeof *s.planes);
	back->surface = plan->surface;
	plan->surface = s;
	return STATUS_OK;
}

static enum status edit_value(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	struct plan_laying laying = e->laying;
	struct plan_edging edging = e->edging;
	const char *text = e->text;

	switch (e->type) {
	case EDIT_LAYING:
		if (!laying_copy(mem, &e->laying, &laying))
			return error_memory(err);
		back->laying = plan->laying;
		plan->laying = laying;
		return STATUS_OK;
	case EDIT_GROUND:
		back->ground = plan->ground;
		plan->ground = e->ground;
		return STATUS_OK;
	case EDIT_EDGING:
		if (e->at >= EDGE_KINDS)
			return error_set(err, STATUS_PLAN, "there is no such kind of edge");
		if (!keep(mem, &edging.name))
			return error_memory(err);
		back->edging = plan->edging[e->at];
		plan->edging[e->at] = edging;
		return STATUS_OK;
	case EDIT_RULES:
		if (!keep(mem, &text))
			return error_memory(err);
		back->text = plan->rule_set;
		plan->rule_set = text;
		return STATUS_OK;
	default:
		return error_set(err, STATUS_PLAN, "unknown edit");
	}
}

static enum status edit_parts(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	struct plan p = *plan;
	bool good;

	switch (e->type) {
	case EDIT_BORDERS:
		good = borders_copy(mem, e->borders, e->border_count, &p.borders);
		p.border_count = e->border_count;
		back->borders = plan->borders;
		back->border_count = plan->border_count;
		break;
	case EDIT_ZONES:
		good = zones_copy(mem, e->zones, e->zone_count, &p.zones);
		p.zone_count = e->zone_count;
		back->zones = plan->zones;
		back->zone_count = plan->zone_count;
		break;
	case EDIT_PLANTERS:
		good = planters_copy(mem, e->planters, e->planter_count, &p.planters);
		p.planter_count = e->planter_count;
		back->planters = plan->planters;
		back->planter_count = plan->planter_count;
		break;
	default:
		good = steps_copy(mem, e->steps, e->steps_count, &p.steps);
		p.steps_count = e->steps_count;
		back->steps = plan->steps;
		back->steps_count = plan->steps_count;
		break;
	}
	if (!good)
		return error_memory(err);
	*plan = p;
	return STATUS_OK;
}

/* Water, site, costs, and water with the rings whose edges name its channels. */
static enum status edit_beside(struct arena *mem, struct plan *plan, const struct edit *e,
        struct edit *back, struct error *err)
{
	struct plan_ring *rings = NULL;
	enum status st = STATUS_OK;

	back->water = plan->water;
	back->site = plan->site;
	back->costs = plan->costs;
	if (e->type == EDIT_COSTS)
		return costs_copy(mem, &e->costs, &plan->costs) ? STATUS_OK : error_memory(err);
	if (e->type == EDIT_SITE)
		return site_copy(mem, &e->site, &plan->site) ? STATUS_OK : error_memory(err);
	if (e->type == EDIT_DRAINS) {
		if (e->ring_count != plan->ring_count)
			return error_set(err, STATUS_PLAN, "%zu rings: the plan has %zu",
			        e->ring_count, plan->ring_count);
		if (!(rings = arena_alloc(mem, e->ring_count, sizeof *rings)))
			return error_memory(err);
		for (size_t i = 0; st == STATUS_OK && i < e->ring_count; i++)
			st = copy_ring(mem, &e->rings[i], &rings[i], err);
		if (st != STATUS_OK)
			return st;
	}
	if (!water_copy(mem, &e->water, &plan->water))
		return error_memory(err);
	if (rings) {
		back->rings = plan->rings;
		back->ring_count = plan->ring_count;
		plan->rings = rings;
	}
	return STATUS_OK;
}

enum status edit_channel_delete(struct arena *mem, const struct plan *plan, int64_t number,
        struct edit *edit, struct error *err)
{
	struct plan_water w = plan->water;
	size_t at = (size_t)number - 1, count = w.channel_count;
	enum status st = STATUS_OK;

	if (number < 1 || at >= count)
		return error_set(err, STATUS_PLAN, "there is no channel %lld: the plan has %zu",
		        (long long)number, count);
	*edit = (struct edit){ .type = EDIT_DRAINS, .ring_count = plan->ring_count };
	edit->rings = arena_alloc(mem, plan->ring_count, sizeof *edit->rings);
	w.channels = arena_alloc(mem, count - 1, sizeof *w.channels);
	if (!edit->rings || !w.channels)
		return error_memory(err);
	for (size_t i = 0, to = 0; i < count; i++)
		if (i != at)
			w.channels[to++] = plan->water.channels[i];
	w.channel_count = count - 1;
	edit->water = w;
	for (size_t i = 0; st == STATUS_OK && i < plan->ring_count; i++) {
		st = copy_ring(mem, &plan->rings[i], &edit->rings[i], err);
		for (size_t k = 0; st == STATUS_OK && k < edit->rings[i].count; k++) {
			int64_t *channel = &edit->rings[i].nodes[k].channel;

			*channel = *channel == number ? 0 : *channel - (*channel > number);
		}
	}
	return st;
}

enum status edit_apply(struct arena *mem, struct plan *plan, const struct edit *edit,
        struct edit *inverse, struct error *err)
{
	struct edit back = { .type = edit->type, .ring = edit->ring, .at = edit->at };
	enum status st;

	memcpy(back.label, edit->label, sizeof back.label);
	switch (edit->type) {
	case EDIT_NODE_INSERT:
	case EDIT_NODE_DELETE:
	case EDIT_NODE_SET:
		st = edit_node(mem, plan, edit, &back, err);
		break;
	case EDIT_RING_INSERT:
	case EDIT_RING_DELETE:
		st = edit_ring(mem, plan, edit, &back, err);
		break;
	case EDIT_RING_SET:
		st = edit_ring_set(mem, plan, edit, &back, err);
		break;
	case EDIT_SURFACE:
		st = edit_surface(mem, plan, edit, &back, err);
		break;
	case EDIT_BORDERS:
	case EDIT_ZONES:
	case EDIT_PLANTERS:
	case EDIT_STEPS:
		st = edit_parts(mem, plan, edit, &back, err);
		break;
	case EDIT_WATER:
	case EDIT_SITE:
	case EDIT_DRAINS:
	case EDIT_COSTS:
		st = edit_beside(mem, plan, edit, &back, err);
		break;
	default:
		st = edit_value(mem, plan, edit, &back, err);
		break;
	}
	if (st == STATUS_OK && inverse)
		*inverse = back;
	return st;
}
