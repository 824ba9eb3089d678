/* gutter.c - water that runs along an upstand: a triangle of flow between kerb and paving, by the
 * formulas of HEC-22, chapter 4, with the exponents printed there. */
#include "slabwright/runoff.h"

#include <math.h>

static const double KU_FLOW = 0.376, KU_VELOCITY = 0.752, L_PER_M3 = 1000;

static double even_flow_m3_s(double n, double across, double along, double spread_m)
{
	return KU_FLOW / n * pow(across, 1.67) * sqrt(along) * pow(spread_m, 2.67);
}

static bool is_depressed(const struct gutter *g)
{
	return g->width_m > 0 && g->depressed_m > 0;
}

static double steep_across(const struct gutter *g)
{
	return g->across + g->depressed_m / g->width_m;
}

/* Equation 4-4. */
double gutter_frontal_share(const struct gutter *g, double spread_m)
{
	double ratio, beyond;

	if (g->width_m <= 0)
		return 0;
	if (spread_m <= g->width_m)
		return 1;
	if (!is_depressed(g))
		return 1 - pow(1 - g->width_m / spread_m, 2.67);
	ratio = steep_across(g) / g->across;
	beyond = pow(1 + ratio / (spread_m / g->width_m - 1), 2.67) - 1;
	return 1 / (1 + ratio / beyond);
}

double gutter_flow_l_s(const struct gutter *g, double spread_m)
{
	double q;

	if (spread_m <= 0)
		return 0;
	if (!is_depressed(g))
		q = even_flow_m3_s(g->n, g->across, g->along, spread_m);
	else if (spread_m <= g->width_m)
		q = even_flow_m3_s(g->n, steep_across(g), g->along, spread_m);
	else
		q = even_flow_m3_s(g->n, g->across, g->along, spread_m - g->width_m) /
		    (1 - gutter_frontal_share(g, spread_m));
	return q * L_PER_M3;
}

double gutter_spread_m(const struct gutter *g, double flow_l_s)
{
	double lo = 0, hi = 1;

	if (flow_l_s <= 0)
		return 0;
	while (gutter_flow_l_s(g, hi) < flow_l_s && hi < 1e6)
		hi *= 2;
	for (int i = 0; i < 60; i++) {
		double middle = (lo + hi) / 2;

		*(gutter_flow_l_s(g, middle) < flow_l_s ? &lo : &hi) = middle;
	}
	return hi;
}

double gutter_depth_m(const struct gutter *g, double spread_m)
{
	if (!is_depressed(g))
		return spread_m * g->across;
	if (spread_m <= g->width_m)
		return spread_m * steep_across(g);
	return spread_m * g->across + g->depressed_m;
}

double gutter_velocity_m_s(const struct gutter *g, double spread_m)
{
	return KU_VELOCITY / g->n * sqrt(g->along) * pow(g->across, 0.67) * pow(spread_m, 0.67);
}

double gutter_v_slope(double across_1, double across_2)
{
	return across_1 * across_2 / (across_1 + across_2);
}
