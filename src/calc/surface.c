/* surface.c - levels on the surface, and the order in which the rest of it is worked out. */
#include "slabwright/surface.h"

#include "water_warnings.h"

#include <math.h>
#include <stdio.h>

/* --- levels --- */

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

/* Adds a place to what is highest and lowest. */
static bool stretch(struct arena *mem, const struct plan *plan, struct surface_result *out,
        struct point p, double level, bool first)
{
	const char *name = NULL;

	if (first || level > out->highest_um || level < out->lowest_um)
		if (!(name = place_words(mem, plan, p)))
			return false;
	if (first || level > out->highest_um) {
		out->highest_um = level;
		out->highest_at = p;
		out->highest_name = name;
	}
	if (first || level < out->lowest_um) {
		out->lowest_um = level;
		out->lowest_at = p;
		out->lowest_name = name;
	}
	return true;
}

/* The surface is highest and lowest where its planes' parts have corners. Points that differ by
 * less than a hundredth of a um are as high as the corner told before. */
static enum status find_extremes(
        struct arena *mem, const struct drains *d, struct surface_result *out, struct error *err)
{
	const double slack = 0.01;
	bool first = true;

	for (size_t i = 0; i < d->rim_count; i++) {
		const struct rim_point *p = &d->rim[i];

		if (!first && p->level_um <= out->highest_um + slack &&
		        p->level_um >= out->lowest_um - slack)
			continue;
		if (!stretch(mem, d->plan, out, p->p, p->level_um, first))
			return error_memory(err);
		first = false;
	}
	for (size_t i = 0; i < 2 * d->shape.line_count; i++) {
		const struct surface_line *l = &d->shape.lines[i / 2];
		double level = i % 2 ? l->low_um : l->high_um;

		if (level <= out->highest_um + slack && level >= out->lowest_um - slack)
			continue;
		if (!stretch(mem, d->plan, out, i % 2 ? l->low : l->high, level, false))
			return error_memory(err);
	}
	return STATUS_OK;
}

enum status surface_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct surface_result *out, struct error *err)
{
	const struct plan_surface *s = &plan->surface;
	struct drains d;
	enum status st;

	*out = (struct surface_result){ .has_plane = s->count > 0 };
	if (!out->has_plane)
		return STATUS_OK;
	out->fall_um_per_m = s->planes[0].fall_um_per_m;
	out->toward_udeg = s->planes[0].toward_udeg;
	if ((st = find_levels(mem, plan, out, err)) != STATUS_OK ||
	        (st = drains_find(mem, plan, &d, err)) != STATUS_OK ||
	        (st = find_extremes(mem, &d, out, err)) != STATUS_OK ||
	        (st = drains_report(&d, out, err)) != STATUS_OK)
		return st;
	return water_warnings(&d, rules, out, err);
}
