/* soakaway.c - pits that store what the soil cannot take at once. */
#include "slabwright/runoff.h"

static const double MM_PER_M = 1000, S_PER_MIN = 60, MIN_PER_H = 60;

double soakaway_side_m2(double length_m, double width_m, double depth_m)
{
	return 2 * (length_m + width_m) * depth_m / 2;
}

double soakaway_test_rate_m_s(double length_m, double width_m, double depth_m, double seconds)
{
	double volume = length_m * width_m * depth_m / 2;
	double faces = length_m * width_m + soakaway_side_m2(length_m, width_m, depth_m);

	return volume / (faces * seconds);
}

double soakaway_rate_of_percolation_m_s(double s_per_mm)
{
	return 1 / (2 * MM_PER_M * s_per_mm);
}

double soakaway_storage_m3(
        double c, double area_m2, double mm_per_h, double minutes, double out_m3_s)
{
	double in_m3 = c * area_m2 * mm_per_h / MM_PER_M * minutes / MIN_PER_H;

	return in_m3 - out_m3_s * minutes * S_PER_MIN;
}
