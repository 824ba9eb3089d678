/* runoff.h - rain and running water: rational method, open channels, water along a kerb, soakaway.
 *
 * Pure formulas in double; lengths m, areas m2, flows l/s, slopes m per m, intensities mm/h. Every
 * one is estimating practice for small paved areas: local codes and a drainage designer come before
 * it. "HEC-22" is the Urban Drainage Design Manual, Hydraulic Engineering Circular 22, 3rd edition,
 * FHWA, 2009, a US federal publication. */
#ifndef SLABWRIGHT_RUNOFF_H
#define SLABWRIGHT_RUNOFF_H

#include "slabwright/plan.h"

#define GRAVITY_M_S2 9.80665

/* --- rain --- */

/* Rational method: Q = C i A (HEC-22 equation 3-1); 1 mm/h on 1 m2 is 1/3600 l/s. */
double runoff_flow_l_s(double c, double mm_per_h, double area_m2);

/* Mean of the surfaces' coefficients by their areas; 0 without area. */
double runoff_composite_c(const double *c, const double *area_m2, size_t count);

/* Intensity over so many minutes: between two rows on the straight line through them in logarithms
 * of both (rain tables run nearly straight there), beyond the first or last row that row's own. 0
 * without rows. */
double rain_mm_per_h(const struct plan_rain *rain, double minutes);

/* Intensity that flows are worked out with: at the rain's minutes, 0 meaning the first row. */
double rain_design_mm_per_h(const struct plan_rain *rain);

/* What of an intensity runs along a surface: less what a permeable one takes in, not under 0. */
double runoff_mm_per_h(const struct plan_water *water, double mm_per_h);

/* --- open channels --- */

/* Section of flow of a channel with a floor of `width` and sides that lean out by `side` a unit of
 * height (0 upright), filled to `depth`. */
struct flow_section {
	double area_m2, wetted_m;
};
struct flow_section flow_section(double width_m, double side, double depth_m);

/* Manning: V = R^(2/3) S^(1/2) / n, R being area over wetted perimeter. */
double manning_velocity_m_s(double n, double radius_m, double slope);
double manning_flow_l_s(double n, struct flow_section s, double slope);

/* Depth of even flow in a rectangular channel, where Manning gives the flow; 0 without flow,
 * infinite on a level floor. */
double channel_normal_depth_m(double width_m, double n, double slope, double flow_l_s);

/* Depth at which a flow falls over a free end: (q^2 / g)^(1/3), q the flow a metre of width. */
double channel_critical_depth_m(double width_m, double flow_l_s);

/* A run of rectangular channel that takes water evenly along its length and lets it fall freely out
 * of its low end. */
struct channel_run {
	double width_m, depth_m; /* clear inside; the depth at the high end */
	double length_m, slope, n; /* slope of the floor, toward the low end */
	double rim_slope; /* of its rim, the paving beside it; the channel gets deeper by the
	                     difference */
};

struct channel_depths {
	double deepest_m; /* over the floor, anywhere along the run */
	double head_m; /* at the high end */
	double outlet_m; /* at the low end: critical depth */
	double freeboard_m; /* least of what is left to the rim; negative: it runs over */
};

/* Depths for the flow at the outlet. Momentum over the water upstream of a section,
 *
 *     M = Q^2 / (g b y) + b y^2 / 2,   dM/dx = b y (S - Sf),   Sf by Manning,
 *
 * (lateral inflow brings no momentum along the channel) is followed from the outlet, where y is
 * critical, upstream to the head, where Q is 0. Where M is less than the least a flow can have, the
 * water is shooting, and the critical depth of that place stands for its own. Without friction on a
 * level floor this is y_head = sqrt(3) y_critical: there M = 3/2 b yc^2 at the outlet is b y^2 / 2
 * at the head. Derived here, from the momentum equation. */
struct channel_depths channel_run_depths(const struct channel_run *run, double flow_l_s);

/* The same run on a level floor without friction: sqrt(3) y_critical. */
double channel_level_head_m(double width_m, double flow_l_s);

/* Greatest flow out of the run with no freeboard left. */
double channel_run_capacity_l_s(const struct channel_run *run);

#define OUTLETS_MOST 1000

/* Least number of outlets for a channel of that length which takes flow_l_s evenly spread: 1 at its
 * end where that is enough, else so many in the middle of equal parts whose floor falls to them
 * from both sides. 0: not even OUTLETS_MOST would do. */
int channel_least_outlets(const struct channel_run *whole, double flow_l_s);

/* --- water along an upstand --- */

/* The strip of paving along a kerb that water runs in; a depressed gutter of some width beside the
 * kerb is steeper: its floor lies `depressed_m` lower at the kerb than the paving's slope would
 * have it. */
struct gutter {
	double n, across, along; /* across toward the kerb; along the kerb */
	double width_m, depressed_m; /* 0 for none */
};

/* HEC-22 equation 4-2, Q = 0.376 / n Sx^1.67 SL^0.5 T^2.67 in m3/s; of a depressed gutter with the
 * share of equation 4-4. */
double gutter_flow_l_s(const struct gutter *g, double spread_m);

/* Width of the water for a flow; 0 without flow. across and along must be over 0. */
double gutter_spread_m(const struct gutter *g, double flow_l_s);

/* Depth at the kerb. */
double gutter_depth_m(const struct gutter *g, double spread_m);

/* Mean velocity of a spread in an even gutter: 0.752 / n SL^0.5 Sx^0.67 T^0.67. */
double gutter_velocity_m_s(const struct gutter *g, double spread_m);

/* Share of the flow that runs within the gutter's width. */
double gutter_frontal_share(const struct gutter *g, double spread_m);

/* Slope that stands for both sides of a V: Sx1 Sx2 / (Sx1 + Sx2). */
double gutter_v_slope(double across_1, double across_2);

/* --- soakaway --- */

/* Side faces of a pit over half its depth, m2: what drains on average while it empties. The base is
 * not counted; it silts up. As in BRE Digest 365. */
double soakaway_side_m2(double length_m, double width_m, double depth_m);

/* Infiltration rate from a trial pit that fell from three quarters to a quarter of its depth: the
 * volume between over base and sides at half depth and the time. */
double soakaway_test_rate_m_s(double length_m, double width_m, double depth_m, double seconds);

/* Infiltration rate of a percolation value (seconds in which water in the test hole falls by 1 mm):
 * 1 / (2000 Vp), Approved Document H, HM Government; from memory. */
double soakaway_rate_of_percolation_m_s(double s_per_mm);

/* What must be stored of rain over an area for so long: what runs in less what soaks out, m3; may
 * be negative. */
double soakaway_storage_m3(
        double c, double area_m2, double mm_per_h, double minutes, double out_m3_s);

#endif
