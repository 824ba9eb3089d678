/* plans_differ.c - two plans side by side. Written out member by member: a comparison through the
 * store's own writer would not see what that leaves out. */
#include "unit/beside.h"
#include "unit/stores.h"

#include <string.h>

static bool text_differs(const char *a, const char *b)
{
	return strcmp(a ? a : "", b ? b : "") != 0;
}

static bool corners_differ(const struct plan_ring *a, const struct plan_ring *b)
{
	if (a->count != b->count || a->closed != b->closed)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (a->nodes[i].x_um != b->nodes[i].x_um || a->nodes[i].y_um != b->nodes[i].y_um ||
		        a->nodes[i].rise_um != b->nodes[i].rise_um)
			return true;
	return false;
}

static bool ring_differs(const struct plan_ring *a, const struct plan_ring *b)
{
	if (corners_differ(a, b))
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (a->nodes[i].kind != b->nodes[i].kind ||
		        a->nodes[i].border != b->nodes[i].border ||
		        a->nodes[i].channel != b->nodes[i].channel)
			return true;
	return false;
}

static bool slab_differs(const struct plan_slab *a, const struct plan_slab *b)
{
	return text_differs(a->name, b->name) || a->length_um != b->length_um ||
	       a->width_um != b->width_um || a->thickness_um != b->thickness_um ||
	       a->joint_um != b->joint_um || a->size != b->size ||
	       a->directional != b->directional || a->pack != b->pack ||
	       a->density_kg_m3 != b->density_kg_m3 || a->price_minor != b->price_minor;
}

static bool repeat_differs(const struct plan_repeat *a, const struct plan_repeat *b)
{
	if (text_differs(a->name, b->name) || a->step_x_um != b->step_x_um ||
	        a->step_y_um != b->step_y_um || a->slant_um != b->slant_um || a->count != b->count)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (a->slabs[i].x_um != b->slabs[i].x_um || a->slabs[i].y_um != b->slabs[i].y_um ||
		        a->slabs[i].length_um != b->slabs[i].length_um ||
		        a->slabs[i].width_um != b->slabs[i].width_um)
			return true;
	return false;
}

static bool mix_differs(const struct plan_mix *a, const struct plan_mix *b)
{
	if (a->seed != b->seed || a->count != b->count)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (a->sizes[i].length_um != b->sizes[i].length_um ||
		        a->sizes[i].width_um != b->sizes[i].width_um ||
		        a->sizes[i].share != b->sizes[i].share)
			return true;
	return false;
}

static bool edge_joints_differ(const struct plan_laying *a, const struct plan_laying *b)
{
	for (int i = 0; i < EDGE_KINDS; i++)
		if (a->edge_joint_um[i] != b->edge_joint_um[i])
			return true;
	return false;
}

/* What a zone's laying says. */
static bool pattern_differs(const struct plan_laying *a, const struct plan_laying *b)
{
	return slab_differs(&a->slab, &b->slab) || a->bond != b->bond || a->offset != b->offset ||
	       a->along != b->along || a->rotation_udeg != b->rotation_udeg ||
	       a->start_x_um != b->start_x_um || a->start_y_um != b->start_y_um ||
	       repeat_differs(&a->repeat, &b->repeat) || mix_differs(&a->mix, &b->mix);
}

static bool laying_differs(const struct plan_laying *a, const struct plan_laying *b)
{
	return a->kerf_um != b->kerf_um || a->fill_width_um != b->fill_width_um ||
	       a->sliver_width_um != b->sliver_width_um || a->edges != b->edges ||
	       a->breakage_ppm != b->breakage_ppm;
}

static bool borders_differ(const struct plan *a, const struct plan *b)
{
	if (a->border_count != b->border_count)
		return true;
	for (size_t i = 0; i < a->border_count; i++) {
		const struct plan_border *c = &a->borders[i], *d = &b->borders[i];

		if (slab_differs(&c->slab, &d->slab) || c->lay != d->lay || c->deep != d->deep ||
		        c->offset != d->offset || c->corners != d->corners ||
		        c->begin != d->begin || c->widest_joint_um != d->widest_joint_um)
			return true;
	}
	return false;
}

/* Where nothing is paved the laying means nothing. */
static bool zones_differ(const struct plan *a, const struct plan *b)
{
	if (a->zone_count != b->zone_count)
		return true;
	for (size_t i = 0; i < a->zone_count; i++) {
		const struct plan_zone *c = &a->zones[i], *d = &b->zones[i];

		if (text_differs(c->name, d->name) || corners_differ(&c->ring, &d->ring) ||
		        c->paved != d->paved || c->level_um != d->level_um ||
		        (c->paved && pattern_differs(&c->laying, &d->laying)))
			return true;
	}
	return false;
}

static bool surface_differs(const struct plan_surface *a, const struct plan_surface *b)
{
	if (a->has_dpc != b->has_dpc || (a->has_dpc && a->dpc_um != b->dpc_um))
		return true;
	if (a->envelope != b->envelope || a->count != b->count || a->has_fixed != b->has_fixed ||
	        text_differs(a->fixed_name, b->fixed_name) || a->fixed_x_um != b->fixed_x_um ||
	        a->fixed_y_um != b->fixed_y_um || a->fixed_level_um != b->fixed_level_um)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (a->planes[i].x_um != b->planes[i].x_um ||
		        a->planes[i].y_um != b->planes[i].y_um ||
		        a->planes[i].level_um != b->planes[i].level_um ||
		        a->planes[i].toward_udeg != b->planes[i].toward_udeg ||
		        a->planes[i].fall_um_per_m != b->planes[i].fall_um_per_m)
			return true;
	return false;
}

static bool ground_differs(const struct plan_ground *a, const struct plan_ground *b)
{
	return a->bedding_um != b->bedding_um || a->sub_base_um != b->sub_base_um ||
	       a->has_instrument != b->has_instrument || a->benchmark_um != b->benchmark_um ||
	       a->backsight_um != b->backsight_um;
}

static bool edging_differs(const struct plan_edging *a, const struct plan_edging *b)
{
	return text_differs(a->name, b->name) || a->unit_um != b->unit_um ||
	       a->joint_um != b->joint_um || a->depth_um != b->depth_um || a->mitred != b->mitred ||
	       a->least_um != b->least_um || a->corner_um != b->corner_um ||
	       a->profile != b->profile || a->foot_um != b->foot_um ||
	       a->height_um != b->height_um || a->top_um != b->top_um || a->bed != b->bed ||
	       a->cement_kg_m3 != b->cement_kg_m3 || a->strip_um != b->strip_um ||
	       a->strip_beyond_um != b->strip_beyond_um || a->haunch_um != b->haunch_um ||
	       a->held_um != b->held_um || a->haunch_both != b->haunch_both ||
	       a->density_kg_m3 != b->density_kg_m3 || a->price_minor != b->price_minor;
}

const char *plans_differ(const struct plan *a, const struct plan *b)
{
	if (a->ring_count != b->ring_count)
		return "the number of rings";
	for (size_t i = 0; i < a->ring_count; i++)
		if (ring_differs(&a->rings[i], &b->rings[i]))
			return "a ring";
	for (int i = 0; i < EDGE_KINDS; i++)
		if (edging_differs(&a->edging[i], &b->edging[i]))
			return "the edging";
	return pattern_differs(&a->laying, &b->laying)      ? "the slab or bond"
	       : laying_differs(&a->laying, &b->laying)     ? "the laying"
	       : borders_differ(a, b)                       ? "the borders"
	       : zones_differ(a, b)                         ? "the zones"
	       : edge_joints_differ(&a->laying, &b->laying) ? "the joints along edges"
	       : surface_differs(&a->surface, &b->surface)  ? "the surface"
	       : ground_differs(&a->ground, &b->ground)     ? "the ground"
	       : text_differs(a->rule_set, b->rule_set)     ? "the rule set"
	                                                    : beside_differs(a, b);
}
