/* asbuilt.h - what was built against what was planned.
 *
 * Levels and places that were measured are compared with the plan's, and every three measured
 * points in a line stand for a straightedge laid over them. Levels are compared as deviations from
 * the plan, so that a planned fall, valley or ridge is no fault. */
#ifndef SLABWRIGHT_ASBUILT_H
#define SLABWRIGHT_ASBUILT_H

#include "slabwright/geom.h"
#include "slabwright/rules.h"

/* A point farther than this from the straight line between two others is not under the same
 * straightedge. */
#define STRAIGHTEDGE_WIDTH_UM (50 * UM_PER_MM)

/* Planned level of the finished surface, um; context is the caller's. */
typedef double asbuilt_level_fn(const void *context, double x_um, double y_um);

/* The plan's surface as such a function, with the levels of its zones; context is one of these,
 * that asbuilt_surface_init has filled; a zone still being drawn adds nothing. STATUS_MEMORY. */
struct asbuilt_surface {
	const struct plan *plan;
	struct region *zones; /* by the plan's zones */
};
enum status asbuilt_surface_init(
        struct arena *mem, const struct plan *plan, struct asbuilt_surface *out, struct error *err);
asbuilt_level_fn asbuilt_surface_level;

struct asbuilt_point {
	const struct plan_measured *measured;
	const char *name; /* its own, or "point 3" */
	double planned_um; /* level of the surface where it should be */
	double level_off_um; /* measured less planned: positive too high. 0 without level */
	double place_off_um; /* distance between measured and planned place. 0 without place */
	double level_over_um, place_over_um; /* by how much it is out of tolerance; 0 within, or no
	                                        tolerance known */
};

/* The worst a straightedge of that length shows at a point. */
struct asbuilt_gap {
	size_t straightedge; /* number of the straightedge in the result */
	size_t from, at, to; /* measured points: its ends, and the one between */
	double gap_um; /* of `at` over the line through the ends: negative a hollow */
	double over_um; /* by how much it is out of tolerance; 0 within */
};

struct asbuilt_straightedge {
	double length_um;
	const struct rule *rule;
	bool tried; /* three points lie in a line no longer than it */
};

/* Where water may stand: a point that all ways to the rim of the measured points lead up from. */
struct asbuilt_puddle {
	size_t at;
	double depth_um;
	double over_um; /* deeper than the rule allows; 0 within, or no rule */
};

#define STRAIGHTEDGES 2

struct asbuilt {
	struct asbuilt_point *points; /* by the plan's measured points */
	size_t count;
	const struct rule *level_rule, *place_rule; /* NULL: no tolerance */
	size_t with_level, with_place, level_fails, place_fails;
	double worst_level_um, worst_place_um; /* by size */
	struct asbuilt_straightedge straightedges[STRAIGHTEDGES]; /* those the rules name */
	size_t straightedge_count;
	struct asbuilt_gap *gaps; /* the worst one each point has under each straightedge */
	size_t gap_count, gap_fails;
	const struct rule *puddle_rule, *puddle_area_rule;
	struct asbuilt_puddle *puddles;
	size_t puddle_count, puddle_fails;
	/* Where the outline has four corners and all were measured in place: how they were taped.
	 * Sides in order, then the diagonals from corners 1 and 2, um. */
	bool has_four;
	double sides_um[4], diagonals_um[2];
	double planned_sides_um[4], planned_diagonals_um[2];
};

/* Compares the plan's measured points with its surface (NULL: no level is planned, so none is
 * compared) and the tolerances of the rule set, keys "level_tolerance", "place_tolerance",
 * "flatness_3m", "flatness_2m", "puddle_depth", "puddle_area". A figure on the limit passes. The
 * plan, its points and the rules must outlive *out, which lives in mem. STATUS_MEMORY. */
enum status asbuilt_check(struct arena *mem, const struct plan *plan, const struct rules *rules,
        asbuilt_level_fn *level, const void *context, struct asbuilt *out, struct error *err);

/* Whether nothing is out of tolerance. */
bool asbuilt_passes(const struct asbuilt *a);

/* Whether standing water an hour after rain is within a depth and an area (NULL: no limit). */
bool puddle_passes(
        double depth_mm, double area_m2, const struct rule *depth, const struct rule *area);

#endif
