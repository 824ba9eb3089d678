/* mesh.h - plane geometry of ground and dig: points joined to triangles, and tracts that overlap
 * taken apart into trapezia. */
#ifndef SLABWRIGHT_MESH_H
#define SLABWRIGHT_MESH_H

#include "slabwright/geom.h"

#include <stdint.h>

#define MESH_NONE SIZE_MAX

/* Corners run anticlockwise; beside[k] is the triangle over the side opposite corner[k], MESH_NONE
 * where that side is on the hull. */
struct mesh_triangle {
	size_t corner[3], beside[3];
};

/* Corners are numbers of points. */
struct mesh {
	struct mesh_triangle *triangles;
	size_t triangle_count; /* 0 where all points lie on one line */
	size_t *hull; /* anticlockwise from the leftmost (lowest) point, points on its sides
	                 too; of points on one line all of them, from one end to the other */
	size_t hull_count;
};

/* The Delaunay triangulation: no point lies within the circle about a triangle. Points on one
 * circle with none within are joined to the leftmost of them (the lowest of those), so that the
 * answer does not depend on the order of the points. Decided exactly, in 128 bits: points must be
 * whole um within 1 km of the origin, and no two on one place. STATUS_MEMORY. */
enum status mesh_make(struct arena *mem, const struct plan_point *points, size_t count,
        struct mesh *out, struct error *err);

/* Rings of one tract of the plane: what an odd number of them encloses belongs to it. */
struct tract {
	const struct ring *rings;
	size_t ring_count;
	int value; /* of its trapezia */
};

#define TRACT_OF_NONE (-1) /* a tract of this value takes its part away from those after it */

/* Its left and right sides are straight, the upper and lower ones level. x[0], x[1]: ends of the
 * lower side; x[2], x[3] of the upper one. */
struct trapezium {
	double y0, y1, x[4];
	int value;
};

/* Takes apart what the tracts cover: where several lie over each other the first one counts.
 * Trapezia do not overlap, and fill the tracts to the rounding of doubles. STATUS_MEMORY. */
enum status tracts_take_apart(struct arena *mem, const struct tract *tracts, size_t count,
        struct trapezium **out, size_t *out_count, struct error *err);

#endif
