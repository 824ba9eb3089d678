/* runoff.c - rain, and what of it runs off. */
#include "slabwright/runoff.h"

#include <math.h>

static const double S_PER_H = 3600, UM_PER_MM_REAL = 1000;

double runoff_flow_l_s(double c, double mm_per_h, double area_m2)
{
	return c * mm_per_h * area_m2 / S_PER_H;
}

double runoff_composite_c(const double *c, const double *area_m2, size_t count)
{
	double sum = 0, area = 0;

	for (size_t i = 0; i < count; i++) {
		sum += c[i] * area_m2[i];
		area += area_m2[i];
	}
	return area > 0 ? sum / area : 0;
}

static double row_mm_per_h(const struct rain_row *row)
{
	return (double)row->um_per_h / UM_PER_MM_REAL;
}

static double between(const struct rain_row *a, const struct rain_row *b, double minutes)
{
	double share =
	        log(minutes / (double)a->minutes) / log((double)b->minutes / (double)a->minutes);
	double ia = row_mm_per_h(a), ib = row_mm_per_h(b);

	if (ia <= 0 || ib <= 0)
		return ia + (ib - ia) * share;
	return ia * pow(ib / ia, share);
}

double rain_mm_per_h(const struct plan_rain *rain, double minutes)
{
	const struct rain_row *r = rain->rows;

	if (!rain->count)
		return 0;
	if (minutes <= (double)r[0].minutes)
		return row_mm_per_h(&r[0]);
	for (size_t i = 1; i < rain->count; i++)
		if (minutes < (double)r[i].minutes)
			return between(&r[i - 1], &r[i], minutes);
	return row_mm_per_h(&r[rain->count - 1]);
}

double rain_design_mm_per_h(const struct plan_rain *rain)
{
	return rain_mm_per_h(rain, (double)rain->minutes);
}

double runoff_mm_per_h(const struct plan_water *water, double mm_per_h)
{
	double taken = water->permeable ? (double)water->surface_nm_s * 1e-6 * S_PER_H : 0;

	return fmax(0, mm_per_h - taken);
}
