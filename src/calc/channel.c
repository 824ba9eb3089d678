/* channel.c - rectangular channels: even flow by Manning, and the depths along a run that takes
 * water all along and lets it fall out of its low end. */
#include "slabwright/runoff.h"

#include <math.h>

static const double L_PER_M3 = 1000;

enum { STEPS = 60, HALVINGS = 40 };

struct flow_section flow_section(double width_m, double side, double depth_m)
{
	return (struct flow_section){
		.area_m2 = (width_m + side * depth_m) * depth_m,
		.wetted_m = width_m + 2 * depth_m * sqrt(1 + side * side),
	};
}

double manning_velocity_m_s(double n, double radius_m, double slope)
{
	return pow(radius_m, 2.0 / 3) * sqrt(slope) / n;
}

double manning_flow_l_s(double n, struct flow_section s, double slope)
{
	if (s.area_m2 <= 0)
		return 0;
	return s.area_m2 * manning_velocity_m_s(n, s.area_m2 / s.wetted_m, slope) * L_PER_M3;
}

double channel_normal_depth_m(double width_m, double n, double slope, double flow_l_s)
{
	double lo = 0, hi = width_m;

	if (flow_l_s <= 0)
		return 0;
	if (slope <= 0)
		return INFINITY;
	while (manning_flow_l_s(n, flow_section(width_m, 0, hi), slope) < flow_l_s)
		hi *= 2;
	for (int i = 0; i < 60; i++) {
		double middle = (lo + hi) / 2, q;

		q = manning_flow_l_s(n, flow_section(width_m, 0, middle), slope);
		*(q < flow_l_s ? &lo : &hi) = middle;
	}
	return hi;
}

double channel_critical_depth_m(double width_m, double flow_l_s)
{
	double q = flow_l_s / L_PER_M3 / width_m;

	return cbrt(q * q / GRAVITY_M_S2);
}

double channel_level_head_m(double width_m, double flow_l_s)
{
	return sqrt(3) * channel_critical_depth_m(width_m, flow_l_s);
}

/* The tranquil depth whose momentum a metre of width is m, for the flow q a metre of width: the
 * larger root of q^2 / (g y) + y^2 / 2 = m, from above, where Newton's steps cannot miss it. */
static double tranquil_depth(double q, double m)
{
	double y = sqrt(2 * m);

	for (int i = 0; i < 30; i++) {
		double f = q * q / (GRAVITY_M_S2 * y) + y * y / 2 - m;
		double step = f / (y - q * q / (GRAVITY_M_S2 * y * y));

		if (!(step > 1e-12 * y))
			break;
		y -= step;
	}
	return y;
}

/* Slope of the energy line: Manning turned round. */
static double friction_slope(const struct channel_run *run, double q, double y)
{
	double radius = run->width_m * y / (run->width_m + 2 * y), v;

	if (y <= 0)
		return 0;
	v = q / y;
	return run->n * run->n * v * v / (radius * cbrt(radius));
}

static double rim_m(const struct channel_run *run, double from_head_m)
{
	return run->depth_m + (run->slope - run->rim_slope) * from_head_m;
}

struct channel_depths channel_run_depths(const struct channel_run *run, double flow_l_s)
{
	double q_end = flow_l_s / L_PER_M3 / run->width_m, dx = run->length_m / STEPS;
	double y = channel_critical_depth_m(run->width_m, flow_l_s), m = 1.5 * y * y;
	struct channel_depths d = { .outlet_m = y, .deepest_m = y, .head_m = y };

	d.freeboard_m = rim_m(run, run->length_m) - y;
	if (q_end <= 0)
		return (struct channel_depths){ .freeboard_m = run->depth_m };
	for (int i = STEPS - 1; i >= 0; i--) {
		double q_here = q_end * i / STEPS, q_last = q_end * (i + 1) / STEPS;
		double critical = cbrt(q_here * q_here / GRAVITY_M_S2);
		double pull = y * (run->slope - friction_slope(run, q_last, y)), before = y;

		/* Once with the depth of the last place, once with the mean of both. */
		for (int pass = 0; pass < 2; pass++) {
			double at = fmax(m - pull * dx, 1.5 * critical * critical);

			y = tranquil_depth(q_here, at);
			pull = (before * (run->slope - friction_slope(run, q_last, before)) +
			               y * (run->slope - friction_slope(run, q_here, y))) /
			       2;
		}
		m = fmax(m - pull * dx, 1.5 * critical * critical);
		y = tranquil_depth(q_here, m);
		d.deepest_m = fmax(d.deepest_m, y);
		d.freeboard_m = fmin(d.freeboard_m, rim_m(run, dx * i) - y);
	}
	d.head_m = y;
	return d;
}

double channel_run_capacity_l_s(const struct channel_run *run)
{
	double lo = 0, hi = 1;

	while (channel_run_depths(run, hi).freeboard_m > 0 && hi < 1e9)
		hi *= 2;
	for (int i = 0; i < HALVINGS; i++) {
		double middle = (lo + hi) / 2;

		*(channel_run_depths(run, middle).freeboard_m > 0 ? &lo : &hi) = middle;
	}
	return lo;
}

static bool parts_hold(const struct channel_run *whole, double flow_l_s, int parts)
{
	struct channel_run part = *whole;

	part.length_m /= parts;
	return channel_run_depths(&part, flow_l_s / parts).freeboard_m >= 0;
}

int channel_least_outlets(const struct channel_run *whole, double flow_l_s)
{
	int lo = 0, hi = 1;

	if (parts_hold(whole, flow_l_s, 1))
		return 1;
	/* Shorter parts with less water never stand deeper: doubled until they hold, then halved
	 * in. */
	while (!parts_hold(whole, flow_l_s, 2 * hi)) {
		lo = hi;
		if ((hi *= 2) > OUTLETS_MOST)
			return 0;
	}
	while (hi - lo > 1) {
		int middle = (lo + hi) / 2;

		*(parts_hold(whole, flow_l_s, 2 * middle) ? &hi : &lo) = middle;
	}
	return hi;
}
