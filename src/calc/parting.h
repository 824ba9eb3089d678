/* parting.h - inside the computation: a straight cut right across that parts pieces. */
#ifndef SLABWRIGHT_CALC_PARTING_H
#define SLABWRIGHT_CALC_PARTING_H

#include "slabwright/geom.h"

/* A polygon where it lies, anticlockwise. */
struct lying {
	const struct point *corner;
	const struct point *normal; /* unit, outward, of the side that leaves each corner */
	size_t n;
	struct point move;
};

/* A line across `way`, a unit vector: way * p == at. */
struct parting_line {
	struct point way;
	double at;
};

/* Finds a line with polygons on both hands, none nearer than the kerf beyond it: of those told by
 * order[0] .. order[count - 1] the ones below come first, and one of them touches the line. Returns
 * how many are below; 0 where there is no such line. Slanted lines that lie along no side are only
 * sought between polygons of most_corners together. */
int parting_find(const struct lying *polygons, int *order, int count, double kerf,
        size_t most_corners, struct parting_line *line);

#endif
