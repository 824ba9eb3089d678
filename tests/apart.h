/* apart.h - how far apart two convex polygons lie, for tests. */
#ifndef TESTS_APART_H
#define TESTS_APART_H

#include "slabwright/geom.h"

/* The widest strip between them that runs along a side of either; negative where they overlap. No
 * more than their distance. Corners run anticlockwise. */
double convex_gap(const struct point *a, size_t na, const struct point *b, size_t nb);

#endif
