/* volumes.c - formulas of earthwork; see earth.h. */
#include "slabwright/earth.h"

#include <math.h>

static const double PPM = 1e6;

double earth_loosened(double in_ground, int64_t bulking_ppm)
{
	return in_ground * (1 + (double)bulking_ppm / PPM);
}

double earth_in_ground(double loose, int64_t bulking_ppm)
{
	return loose / (1 + (double)bulking_ppm / PPM);
}

double earth_loose_for(double compacted, int64_t compaction_ppm)
{
	return compacted / (1 - (double)compaction_ppm / PPM);
}

int64_t earth_compaction_ppm(double loose, double compacted)
{
	return llround((1 - compacted / loose) * PPM);
}

double volume_end_areas(double a1, double a2, double length)
{
	return (a1 + a2) / 2 * length;
}

double volume_pyramid(double area, double length)
{
	return area * length / 3;
}

double volume_tapered(double a1, double a2, double length)
{
	return a1 <= 0 || a2 <= 0 ? volume_pyramid(fmax(a1, a2), length)
	                          : volume_end_areas(a1, a2, length);
}

double volume_prismoid(double a1, double middle, double a2, double length)
{
	return (a1 + 4 * middle + a2) / 6 * length;
}

double trench_section(double base, double depth, double slope)
{
	return base * depth + slope * depth * depth;
}

double volume_grid(
        const double *depth, size_t columns, size_t rows, const bool *dug, double cell_area)
{
	double sum = 0;

	for (size_t r = 0; r < rows; r++)
		for (size_t c = 0; c < columns; c++) {
			const double *low = depth + r * (columns + 1) + c,
			             *high = low + columns + 1;

			if (!dug || dug[r * columns + c])
				sum += low[0] + low[1] + high[0] + high[1];
		}
	return cell_area / 4 * sum;
}
