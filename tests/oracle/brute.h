/* brute.h - counting slabs one by one: every slab position is cut with GEOSIntersection in the
 * plan's own frame (the slabs are turned there, not the outline). */
#ifndef TESTS_ORACLE_BRUTE_H
#define TESTS_ORACLE_BRUTE_H

#include "slabwright/lay.h"

#include <geos_c.h>

struct tally {
	int64_t whole, cut, sliver, made_up;
	double area_mm2;
};

/* Of a region in mm, a polygon or several. The courses of coursed random bond are those of `laid`;
 * what they are cut to is counted here. */
struct tally count_by_geos(GEOSContextHandle_t g, const struct plan_laying *l,
        const GEOSGeometry *region, const struct laying *laid);

/* Of one border course begun at the run's corner: `strip` in mm, along the edge from `from` to `to`
 * (um, paving to the left; the edge less the gap). */
struct tally count_run_by_geos(GEOSContextHandle_t g, const struct plan_border *border,
        struct point from, struct point to, const GEOSGeometry *strip);

#endif
