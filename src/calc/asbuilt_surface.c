/* asbuilt_surface.c - the planned level at a place: the surface, and what a zone adds to it. */
#include "slabwright/asbuilt.h"

#include "slabwright/surface.h"

enum status asbuilt_surface_init(
        struct arena *mem, const struct plan *plan, struct asbuilt_surface *out, struct error *err)
{
	out->plan = plan;
	if (!(out->zones = arena_alloc(mem, plan->zone_count, sizeof *out->zones)))
		return error_memory(err);
	for (size_t i = 0; i < plan->zone_count; i++) {
		struct plan ring = { .rings = &plan->zones[i].ring, .ring_count = 1 };
		enum status st = STATUS_OK;

		if (plan->zones[i].ring.closed)
			st = region_from_plan(mem, &ring, &out->zones[i], err);
		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

double asbuilt_surface_level(const void *context, double x_um, double y_um)
{
	const struct asbuilt_surface *s = context;
	double level = surface_level_um(&s->plan->surface, x_um, y_um);

	for (size_t i = 0; i < s->plan->zone_count; i++)
		if (region_contains(&s->zones[i], (struct point){ x_um, y_um }))
			return level + (double)s->plan->zones[i].level_um;
	return level;
}
