/* surface.c - levels on the plane, whose water goes where, and what is wrong with it. */
#include "slabwright/surface.h"

#include "catchment.h"

#include <math.h>
#include <stdio.h>

static const double STEP_TO_SEE_UM = 2000, LEAST_CATCHMENT_M2 = 1e-10;

/* --- levels --- */

double surface_level_um(const struct plan_surface *surface, double x_um, double y_um)
{
	const struct plan_plane *p = surface->planes;
	double c, s;

	if (!surface->count)
		return 0;
	turn_of(p->toward_udeg, &c, &s);
	return (double)p->level_um -
	       (double)p->fall_um_per_m * 1e-6 *
	               ((x_um - (double)p->x_um) * c + (y_um - (double)p->y_um) * s);
}

double formation_level_um(const struct plan *plan, double x_um, double y_um)
{
	return surface_level_um(&plan->surface, x_um, y_um) -
	       (double)(plan->laying.slab.thickness_um + plan->ground.bedding_um +
	                plan->ground.sub_base_um);
}

int64_t instrument_height_um(const struct plan_ground *ground)
{
	return ground->benchmark_um + ground->backsight_um;
}

int compass_octant(int64_t toward_udeg)
{
	const int64_t octant = 45 * UDEG_PER_DEG, full = 8 * octant;

	return (int)(((toward_udeg % full + full + octant / 2) % full) / octant);
}

const char *compass_name(int64_t toward_udeg)
{
	static const char *const names[] = { "right", "up-right", "up", "up-left", "left",
		"down-left", "down", "down-right" };

	return names[compass_octant(toward_udeg)];
}

static void set_point(const struct plan *plan, int64_t x, int64_t y, struct level_point *p)
{
	const struct plan_ground *g = &plan->ground;

	p->x_um = x;
	p->y_um = y;
	p->level_um = surface_level_um(&plan->surface, (double)x, (double)y);
	p->formation_um = formation_level_um(plan, (double)x, (double)y);
	p->has_staff = g->has_instrument;
	if (g->has_instrument)
		p->staff_um = (double)instrument_height_um(g) - p->level_um;
}

/* Whether a corner lies in the paving or on its edge. */
static bool on_paving(const struct region *region, int64_t x, int64_t y)
{
	for (int i = 0; i < 4; i++)
		if (region_contains(region, (struct point){ (double)x + (i & 1 ? 0.5 : -0.5),
		                                    (double)y + (i & 2 ? 0.5 : -0.5) }))
			return true;
	return false;
}

/* Corners of paved zones, at their own level over a formation for their own slab. */
static enum status find_zone_levels(
        struct arena *mem, const struct plan *plan, struct surface_result *out, struct error *err)
{
	struct region region;
	enum status st = region_from_plan(mem, plan, &region, err);

	for (size_t i = 0; i < plan->zone_count && st == STATUS_OK; i++) {
		const struct plan_zone *z = &plan->zones[i];
		double thicker =
		        (double)(z->laying.slab.thickness_um - plan->laying.slab.thickness_um);

		for (size_t j = 0; z->paved && j < z->ring.count; j++) {
			const struct plan_node *n = &z->ring.nodes[j];
			struct level_point *p = &out->points[out->point_count];

			if (!on_paving(&region, n->x_um, n->y_um))
				continue;
			set_point(plan, n->x_um, n->y_um, p);
			p->level_um += (double)z->level_um;
			p->formation_um += (double)z->level_um - thicker;
			p->staff_um -= (double)z->level_um;
			p->name = arena_print(mem, "zone %zu corner %zu", i + 1, j + 1);
			if (!p->name)
				return error_memory(err);
			out->point_count++;
		}
	}
	return st;
}

static enum status find_levels(
        struct arena *mem, const struct plan *plan, struct surface_result *out, struct error *err)
{
	size_t room = plan_edge_count(plan) + 1;

	for (size_t i = 0; i < plan->zone_count; i++)
		room += plan->zones[i].ring.count;
	out->points = arena_alloc(mem, room, sizeof *out->points);
	if (!out->points)
		return error_memory(err);
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++) {
			struct level_point *p = &out->points[out->point_count++];

			set_point(plan, plan->rings[i].nodes[j].x_um, plan->rings[i].nodes[j].y_um,
			        p);
			p->name = i == 0 ? arena_print(mem, "corner %zu", j + 1)
			                 : arena_print(mem, "opening %zu corner %zu", i, j + 1);
			if (!p->name)
				return error_memory(err);
			if (i == 0 && (j == 0 || p->level_um > out->highest_um)) {
				out->highest_um = p->level_um;
				out->highest_name = p->name;
			}
			if (i == 0 && (j == 0 || p->level_um < out->lowest_um)) {
				out->lowest_um = p->level_um;
				out->lowest_name = p->name;
			}
		}
	if (plan->surface.has_fixed) {
		struct level_point *p = &out->points[out->point_count++];

		set_point(plan, plan->surface.fixed_x_um, plan->surface.fixed_y_um, p);
		p->name = plan->surface.fixed_name[0] ? plan->surface.fixed_name : "fixed point";
		out->has_fixed = true;
		out->fixed_difference_um = p->level_um - (double)plan->surface.fixed_level_um;
	}
	return find_zone_levels(mem, plan, out, err);
}

/* --- catchments --- */

/* Arcs are flattened so finely that what they lose of the area is at most half a part in a million
 * of it.
 */
static double chord_error_um(const struct plan *plan)
{
	double edges = plan_perimeter_m(plan) + plan_opening_edges_m(plan);

	return fmin(ARC_CHORD_ERROR_UM, fmax(0.05, plan_area_m2(plan) / edges * 0.5));
}

static enum status find_catchments(
        struct arena *mem, const struct plan *plan, struct surface_result *out, struct error *err)
{
	size_t edges = plan_edge_count(plan);
	double *area = arena_alloc(mem, edges, sizeof *area);
	struct region region, turned;
	enum status st;

	out->catchments = arena_alloc(mem, edges, sizeof *out->catchments);
	if (!area || !out->catchments)
		return error_memory(err);
	st = region_flatten(mem, plan, chord_error_um(plan), &region, err);
	if (st == STATUS_OK)
		st = region_turn(mem, &region, 0, 0, out->toward_udeg, &turned, err);
	if (st == STATUS_OK)
		st = catchment_areas(mem, &turned, area, err);
	if (st != STATUS_OK)
		return st;
	for (size_t e = 0; e < edges; e++) {
		size_t ring = 0, at = 0;

		out->drained_m2 += area[e] * 1e-12;
		if (area[e] * 1e-12 < LEAST_CATCHMENT_M2)
			continue;
		plan_edge_find(plan, e, &ring, &at);
		out->catchments[out->catchment_count++] = (struct catchment){ .edge = e,
			.kind = plan->rings[ring].nodes[at].kind,
			.area_m2 = area[e] * 1e-12 };
	}
	return STATUS_OK;
}

/* --- warnings --- */

static const char *const code_names[] = { "no-fall", "fall-under", "fall-over", "water-to-wall",
	"held-back", "step-to-fixed", "low-point", "plane-hidden", "valley-under", "gully-dry",
	"channel-dry", "near-dpc" };

const char *warning_code_name(enum warning_code code)
{
	return code_names[code];
}

static enum status warn(struct arena *mem, struct surface_result *out, size_t room,
        enum warning_code code, const char *text, struct error *err)
{
	if (!text || (!out->warnings &&
	                     !(out->warnings = arena_alloc(mem, room, sizeof *out->warnings))))
		return error_memory(err);
	out->warnings[out->warning_count++] = (struct warning){ code, text };
	return STATUS_OK;
}

static enum status warn_of_fall(struct arena *mem, const struct rules *rules,
        struct surface_result *out, size_t room, struct error *err)
{
	const struct rule *least = rules_find(rules, "fall_min"),
	                  *most = rules_find(rules, "fall_max");
	char is[80], limit[80];

	if (out->fall_um_per_m == 0)
		return warn(mem, out, room, WARN_NO_FALL,
		        arena_text(
		                mem, "The surface is level: water stands on it. Give it a fall."),
		        err);
	fall_print(is, sizeof is, out->fall_um_per_m);
	if (least && out->fall_um_per_m < least->number)
		return warn(mem, out, room, WARN_FALL_UNDER,
		        arena_print(mem,
		                "The fall of %s is under the least of %s (%s). Make it steeper.",
		                is, fall_print(limit, sizeof limit, least->number), least->source),
		        err);
	if (most && out->fall_um_per_m > most->number)
		return warn(mem, out, room, WARN_FALL_OVER,
		        arena_print(mem,
		                "The fall of %s is over the most of %s (%s). Make it gentler.", is,
		                fall_print(limit, sizeof limit, most->number), most->source),
		        err);
	return STATUS_OK;
}

static enum status warn_of_edges(struct arena *mem, const struct plan *plan,
        struct surface_result *out, size_t room, struct error *err)
{
	for (size_t i = 0; i < out->catchment_count; i++) {
		const struct catchment *c = &out->catchments[i];
		char name[64];
		enum status st = STATUS_OK;

		plan_edge_words(name, sizeof name, plan, c->edge);
		if (c->kind == EDGE_HOUSE_WALL)
			st = warn(mem, out, room, WARN_WATER_TO_WALL,
			        arena_print(mem,
			                "Water from %.2f m2 runs to the house wall along %s. Turn "
			                "the fall away from "
			                "the house, or collect it before the wall.",
			                c->area_m2, name),
			        err);
		else if (c->kind == EDGE_PLANTER)
			st = warn(mem, out, room, WARN_HELD_BACK,
			        arena_print(mem,
			                "The planter along %s holds back water from %.2f m2. Turn "
			                "the fall, or leave "
			                "it a way out.",
			                name, c->area_m2),
			        err);
		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static enum status warn_of_fixed(struct arena *mem, const struct plan *plan,
        struct surface_result *out, size_t room, struct error *err)
{
	double d = out->fixed_difference_um;
	const char *name =
	        plan->surface.fixed_name[0] ? plan->surface.fixed_name : "the fixed point";

	if (!out->has_fixed || fabs(d) <= STEP_TO_SEE_UM)
		return STATUS_OK;
	return warn(mem, out, room, WARN_STEP_TO_FIXED,
	        arena_print(mem,
	                "The paving lies %.0f mm %s %s: a step to trip over. Raise or lower the "
	                "plane.",
	                fabs(d) / 1000, d > 0 ? "above" : "below", name),
	        err);
}

static enum status find_warnings(struct arena *mem, const struct plan *plan,
        const struct rules *rules, struct surface_result *out, struct error *err)
{
	size_t room = out->catchment_count + 4;
	enum status st = warn_of_fall(mem, rules, out, room, err);

	if (st == STATUS_OK)
		st = warn_of_edges(mem, plan, out, room, err);
	if (st == STATUS_OK)
		st = warn_of_fixed(mem, plan, out, room, err);
	return st;
}

enum status surface_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct surface_result *out, struct error *err)
{
	const struct plan_surface *s = &plan->surface;
	enum status st;

	*out = (struct surface_result){ .has_plane = s->count > 0 };
	if (!out->has_plane)
		return STATUS_OK;
	out->fall_um_per_m = s->planes[0].fall_um_per_m;
	out->toward_udeg = s->planes[0].toward_udeg;
	st = find_levels(mem, plan, out, err);
	if (st == STATUS_OK && out->fall_um_per_m > 0)
		st = find_catchments(mem, plan, out, err);
	if (st == STATUS_OK)
		st = find_warnings(mem, plan, rules, out, err);
	return st;
}
