/* surface.h - the finished surface: levels, falls, and where the water goes.
 *
 * One plane. Its level at (x, y) is level - fall * distance downhill from its fixed point. Every
 * point of the paving drains along the line of steepest descent to the first edge it meets. */
#ifndef SLABWRIGHT_SURFACE_H
#define SLABWRIGHT_SURFACE_H

#include "slabwright/geom.h"
#include "slabwright/rules.h"

/* Level of the finished surface at a point, um. 0 where no plane is set. */
double surface_level_um(const struct plan_surface *surface, double x_um, double y_um);

/* Formation (dug) level under a point: the surface less slab, bedding and sub-base. */
double formation_level_um(const struct plan *plan, double x_um, double y_um);

/* Height of instrument: the level of its line of sight, um; benchmark and backsight together. Means
 * nothing without an instrument. */
int64_t instrument_height_um(const struct plan_ground *ground);

/* Compass word of a direction: "right", "up-right", "up" ... in the plan, eight of them. */
const char *compass_name(int64_t toward_udeg);
int compass_octant(int64_t toward_udeg); /* 0 right, 1 up-right, ... 7 down-right */

struct level_point {
	const char *name; /* "corner 3", "opening 1 corner 2", the fixed point's own name, "zone 1
	                     corner 2" */
	int64_t x_um, y_um;
	double level_um, formation_um;
	bool has_staff;
	double staff_um; /* height of instrument less level */
};

struct catchment {
	size_t edge; /* number over the whole plan, from 0 */
	enum edge_kind kind;
	double area_m2;
};

enum warning_code {
	WARN_NO_FALL, /* level: water stands */
	WARN_FALL_UNDER, /* less than the rule set's least */
	WARN_FALL_OVER, /* more than the rule set's most */
	WARN_WATER_TO_WALL, /* water reaches a house wall */
	WARN_HELD_BACK, /* water reaches a kerb or planter that may stand above the surface */
	WARN_STEP_TO_FIXED, /* surface and fixed point differ by more than 2 mm */
	WARN_MORE_PLANES, /* more than one plane: not worked out yet */
};

struct warning {
	enum warning_code code;
	const char *text; /* place and remedy, in words */
};
const char *warning_code_name(enum warning_code code); /* "water-to-wall" */

struct surface_result {
	bool has_plane;
	int64_t fall_um_per_m, toward_udeg;
	struct level_point *points; /* every node, the fixed point where there is one, corners of
	                               paved zones that lie in the paving */
	size_t point_count;
	double highest_um, lowest_um; /* over the outline's nodes */
	size_t highest_node, lowest_node;
	bool has_fixed;
	double fixed_difference_um; /* surface at the fixed point less its fixed level */
	struct catchment *catchments; /* edges that take water, by edge number */
	size_t catchment_count;
	double drained_m2; /* their sum: the region's area */
	struct warning *warnings;
	size_t warning_count;
};

/* The outline must have passed outline_check. */
enum status surface_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct surface_result *out, struct error *err);

#endif
