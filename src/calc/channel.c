/* channel.c - rectangular channels: even flow by Manning, and the depths along a run that takes
 * water all along and lets it fall out of its low end. */
#include "slabwright/runoff.h"

#include <math.h>

static const double L_PER_M3 = 1000, CLOSE_M = 1e-6;

enum { STEPS = 40, PARTS_MOST = 400, TRIES = 60 };

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

/* A place along a run: flow and momentum a metre of width, and the depth that goes with them. */
struct station {
	double q, m, y;
};

/* What changes the momentum on the way down: the floor's fall less friction. */
static double pull_at(const struct channel_run *run, const struct station *s)
{
	return s->y * (run->slope - friction_slope(run, s->q, s->y));
}

/* The next station, dx upstream. First with the pull at the last one, then twice with the mean of
 * both. */
static struct station upstream(
        const struct channel_run *run, const struct station *from, double q, double dx)
{
	double critical = cbrt(q * q / GRAVITY_M_S2), first = pull_at(run, from), pull = first;
	struct station to = { .q = q };

	for (int pass = 0; pass < 3; pass++) {
		to.m = fmax(from->m - pull * dx, 1.5 * critical * critical);
		to.y = tranquil_depth(q, to.m);
		pull = (first + pull_at(run, &to)) / 2;
	}
	return to;
}

/* The same in parts so short that what one gets wrong dies away in the next: the floor rises by a
 * quarter of the depth in them, by less where the water is nearly shooting. Within reason. */
static struct station far_upstream(
        const struct channel_run *run, const struct station *from, double q, double dx)
{
	struct station s = *from;
	double left = dx;

	for (int parts = PARTS_MOST; left > 0; parts--) {
		double tranquil = 1 - s.q * s.q / (GRAVITY_M_S2 * s.y * s.y * s.y), part = left;

		/* Where it shoots the critical depth is all there is to know. */
		if (run->slope > 0 && parts > 1 && tranquil > 1e-3)
			part = fmin(left, fmax(tranquil, 0.1) * s.y / (4 * run->slope));
		left -= part;
		s = upstream(run, &s, q + (from->q - q) * left / dx, part);
	}
	return s;
}

struct channel_depths channel_run_depths(const struct channel_run *run, double flow_l_s)
{
	double q = flow_l_s / L_PER_M3 / run->width_m, done = 0;
	double critical = channel_critical_depth_m(run->width_m, flow_l_s);
	struct station s = { q, 1.5 * critical * critical, critical };
	struct channel_depths d = { .outlet_m = critical, .deepest_m = critical };

	if (flow_l_s <= 0)
		return (struct channel_depths){ .freeboard_m = run->depth_m };
	d.freeboard_m = rim_m(run, run->length_m) - critical;
	/* The water's surface is steepest at the outlet, so steps are shortest there. */
	for (int i = 1; i <= STEPS; i++) {
		double share = (double)i * i / (STEPS * STEPS);

		s = far_upstream(run, &s, q * (1 - share), (share - done) * run->length_m);
		done = share;
		d.deepest_m = fmax(d.deepest_m, s.y);
		d.freeboard_m = fmin(d.freeboard_m, rim_m(run, run->length_m * (1 - share)) - s.y);
	}
	d.head_m = s.y;
	return d;
}

static double freeboard_m(const struct channel_run *run, double root)
{
	return channel_run_depths(run, root * sqrt(root)).freeboard_m;
}

/* Depths go nearly as the flow to the power of 2/3. In that root the freeboard is nearly a straight
 * line, and its zero is found by drawing one between a root that leaves some and one that does not;
 * an end that stays twice running weighs half. */
double channel_run_capacity_l_s(const struct channel_run *run)
{
	double lo = 0, hi = 1, at_lo = freeboard_m(run, 0), at_hi;
	int stays = 0;

	while ((at_hi = freeboard_m(run, hi)) > 0 && hi < 1e6)
		hi *= 2;
	for (int i = 0; i < TRIES && at_lo > CLOSE_M; i++) {
		double root = lo + (hi - lo) * at_lo / (at_lo - at_hi), at = freeboard_m(run, root);

		if (at > 0) {
			stays = stays > 0 ? stays + 1 : 1;
			at_hi = stays > 1 ? at_hi / 2 : at_hi;
			lo = root;
			at_lo = at;
		} else {
			stays = stays < 0 ? stays - 1 : -1;
			at_lo = stays < -1 ? at_lo / 2 : at_lo;
			hi = root;
			at_hi = at;
		}
		if (fabs(at) < CLOSE_M)
			return root * sqrt(root);
	}
	return lo * sqrt(lo);
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
