/* apart.c - see apart.h. */
#include "apart.h"

#include <math.h>

static double gap_along_sides(const struct point *a, size_t na, const struct point *b, size_t nb)
{
	double widest = -INFINITY;

	for (size_t i = 0; i < na; i++) {
		struct point from = a[i], to = a[i + 1 < na ? i + 1 : 0];
		double dx = to.x - from.x, dy = to.y - from.y, nearest = INFINITY;

		for (size_t j = 0; j < nb; j++)
			nearest = fmin(nearest, (b[j].x - from.x) * dy - (b[j].y - from.y) * dx);
		widest = fmax(widest, nearest / hypot(dx, dy));
	}
	return widest;
}

double convex_gap(const struct point *a, size_t na, const struct point *b, size_t nb)
{
	return fmax(gap_along_sides(a, na, b, nb), gap_along_sides(b, nb, a, na));
}
