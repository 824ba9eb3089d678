/* random_plan.h - outlines and layings by chance, the same for the same seed. */
#ifndef TESTS_ORACLE_RANDOM_PLAN_H
#define TESTS_ORACLE_RANDOM_PLAN_H

#include "chance.h"
#include "slabwright/geom.h"

#include <geos_c.h>

enum outline_style { STYLE_STAR, STYLE_RECTILINEAR, STYLE_ARCS, STYLE_OPENINGS, STYLES };

/* A sound outline of about 3 to 12 m with the chance's laying; lives in mem. */
struct plan random_plan(struct arena *mem, struct chance *c, enum outline_style style);
struct plan_laying random_laying(struct chance *c, int64_t spread_um);

/* Changes the laying to the bond of choice: 0 leaves stack or stretcher as it is, 1 stretcher along
 * y, 2 herringbone, 3 and 4 basket weave of two and three, 5 mixed sizes, 6 coursed random. */
enum { LATTICE_CHOICES = 6, BOND_CHOICES = 7 };
void random_bond(struct chance *c, struct plan_laying *l, int choice);

/* A ring of n corners anywhere in a box: often crossing itself. */
struct plan random_scribble(struct arena *mem, struct chance *c, size_t n, int64_t size_um);

/* A closed ring that zone_rings_check takes, to split the plan's paving by: a box on corners of the
 * plan; the plan's outline with corners left out, moved, or slid along an edge; a star of odd
 * angles anywhere; the same with arcs. */
enum zone_style { ZONE_BOX, ZONE_OUTLINE, ZONE_STAR, ZONE_ARCS, ZONE_STYLES };
struct plan_ring random_zone(
        struct arena *mem, struct chance *c, const struct plan *plan, enum zone_style style);

/* One more zone, square-cornered or not, somewhere over the plan; half of them on the slabs' grid;
 * one in five without slabs. */
void random_add_zone(struct arena *mem, struct chance *c, struct plan *plan);
/* Two borders, and each edge with one of them or none. */
void random_add_borders(struct arena *mem, struct chance *c, struct plan *plan);

/* Regular work for benches: a wobbly round outline of n corners with the area given. */
struct plan round_plan(struct arena *mem, size_t corners, double area_m2, struct chance *c);

/* The flattened region as a GEOS polygon in millimetres, in the plan's own frame. */
GEOSGeometry *geos_region(GEOSContextHandle_t g, const struct region *region);
/* The same of a region in several parts, or in none. */
GEOSGeometry *geos_parts(GEOSContextHandle_t g, const struct region *region);
/* A closed ring of corners (um) as a GEOS polygon in millimetres. */
GEOSGeometry *geos_polygon(GEOSContextHandle_t g, const struct point *p, size_t n);

#endif
