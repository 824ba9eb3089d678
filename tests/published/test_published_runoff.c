/* Rain, runoff, channels and gutters: published worked examples, each row with its source.
 *
 * HEC-22 is the Urban Drainage Design Manual, Hydraulic Engineering Circular 22, 3rd edition, FHWA,
 * 2009. Where its printed answer is rounded, the tolerance takes that in. */
#include "slabwright/runoff.h"

#include "suite.h"

#include <math.h>

#define HECTARE 1e4
#define ACRE 4046.8564224
#define FOOT 0.3048
#define CUBIC_FOOT_L 28.316846592
#define MM_PER_INCH 25.4

static void assert_near(double is, double should, double share)
{
	ck_assert_double_eq_tol(is, should, fabs(should) * share);
}

/* HEC-22, example 3-1, page 3-7. */
START_TEST(the_composite_coefficient_is_that_of_the_example)
{
	const double c0[] = { 0.25, 0.22 }, a0[] = { 8.95, 8.60 },
	             c1[] = { 0.90, 0.15, 0.25, 0.22 }, a1[] = { 2.20, 0.66, 7.52, 7.17 };

	ck_assert_double_eq_tol(runoff_composite_c(c0, a0, 2), 0.235, 0.0005);
	ck_assert_double_eq_tol(runoff_composite_c(c1, a1, 4), 0.315, 0.0005);
}
END_TEST

static const struct {
	double c, mm_per_h, area_m2, flow_l_s, tolerance;
} flows[] = {
	/* HEC-22, example 3-3, page 3-15: 0.55 and 0.89 m3/s; in US units 19.3 and 31.4 ft3/s,
	 * where it takes an acre inch an hour for 1 ft3/s, 0.8 % too little. */
	{ 0.235, 48, 17.55 * HECTARE, 550, 0.001 },
	{ 0.315, 58, 17.55 * HECTARE, 890, 0.001 },
	{ 0.235, 1.9 * MM_PER_INCH, 43.3 * ACRE, 19.3 * CUBIC_FOOT_L, 0.0105 },
	{ 0.315, 2.3 * MM_PER_INCH, 43.3 * ACRE, 31.4 * CUBIC_FOOT_L, 0.0105 },
	/* Approved Document H (2015), section 2 of H3: 0.014 l/s a m2 for paved areas, as
	 * labc.co.uk restates it, and 0.021 for roofs, as a supplier does; 20 m2 by arithmetic. */
	{ 1, 50.4, 20, 0.28, 1e-9 },
	{ 1, 75.6, 20, 0.42, 1e-9 },
	/* The same document, 50 mm/h: from memory, the conversion exact. */
	{ 1, 50, 1, 0.013889, 1e-4 },
	/* BS EN 12056-3, 0.016 and 0.03 l/s a m2: from memory, the conversions exact. */
	{ 1, 57.6, 1, 0.016, 1e-9 },
	{ 1, 108, 1, 0.03, 1e-9 },
};

START_TEST(the_flow_is_that_of_the_rational_method)
{
	assert_near(runoff_flow_l_s(flows[_i].c, flows[_i].mm_per_h, flows[_i].area_m2),
	        flows[_i].flow_l_s, flows[_i].tolerance);
}
END_TEST

/* --- gutters --- */

static const struct gutter street = { .n = 0.016, .across = 0.020, .along = 0.010 };
static const struct gutter depressed = {
	.n = 0.016, .across = 0.02, .along = 0.01, .width_m = 0.6, .depressed_m = 0.050
};

/* HEC-22, example 4-1, pages 4-10 and 4-11: 2.7 m (9.0 ft), and 0.039 m3/s at 2.5 m. At 8.2 ft it
 * is 1.4 ft3/s; there Qn is misprinted once as 0.22 for 0.022, which would make it 14. */
START_TEST(an_even_gutter_runs_as_wide_as_in_the_example)
{
	assert_near(gutter_spread_m(&street, 50), 2.735, 0.0015);
	assert_near(gutter_spread_m(&street, 50), 2.7, 0.015);
	assert_near(gutter_spread_m(&street, 1.8 * CUBIC_FOOT_L), 9.0 * FOOT, 0.015);
	assert_near(gutter_flow_l_s(&street, 2.5), 39, 0.015);
	assert_near(gutter_flow_l_s(&street, 8.2 * FOOT), 1.4 * CUBIC_FOOT_L, 0.015);
	ck_assert_double_lt(gutter_flow_l_s(&street, 8.2 * FOOT), 2 * CUBIC_FOOT_L);
	ck_assert_double_eq_tol(gutter_depth_m(&street, 2.5), 0.050, 1e-12);
}
END_TEST

/* HEC-22, example 4-2, pages 4-13 to 4-15: 0.70 of the flow in the gutter, 0.06 m3/s (0.0639 worked
 * again), 2.3 ft3/s; 0.12 m3/s spreads about 3.5 m by chart, 3.417 m by its formula. */
START_TEST(a_depressed_gutter_runs_as_in_the_example)
{
	const struct gutter feet = { .n = 0.016,
		.across = 0.02,
		.along = 0.01,
		.width_m = 2 * FOOT,
		.depressed_m = 2 * MM_PER_INCH / 1000 };

	assert_near(gutter_frontal_share(&depressed, 2.5), 0.70, 0.01);
	assert_near(gutter_flow_l_s(&depressed, 2.5), 63.9, 0.005);
	assert_near(gutter_frontal_share(&feet, 8.2 * FOOT), 0.711, 0.005);
	assert_near(gutter_flow_l_s(&feet, 8.2 * FOOT), 2.3 * CUBIC_FOOT_L, 0.02);
	assert_near(gutter_spread_m(&depressed, 120), 3.417, 0.002);
	assert_near(gutter_spread_m(&depressed, 120), 3.5, 0.03);
}
END_TEST

/* HEC-22, examples 4-3 (pages 4-16 to 4-18) and 4-6 (page 4-28). */
START_TEST(a_v_and_a_mean_velocity_are_those_of_the_examples)
{
	struct gutter v = { .n = 0.016, .across = gutter_v_slope(0.25, 0.04), .along = 0.01 };
	struct gutter steep = { .n = 0.016, .across = 0.02, .along = 0.03 };

	ck_assert_double_eq_tol(v.across, 0.0345, 0.0001);
	assert_near(gutter_spread_m(&v, 50), 1.94, 0.01);
	assert_near(gutter_spread_m(&v, 1.77 * CUBIC_FOOT_L), 6.4 * FOOT, 0.01);
	v.across = 0.0226;
	assert_near(gutter_spread_m(&v, 50), 2.53, 0.01);
	assert_near(gutter_velocity_m_s(&steep, 2.13), 0.98, 0.01);
	assert_near(100 / gutter_velocity_m_s(&steep, 2.13) / 60, 1.7, 0.01);
}
END_TEST

/* --- Manning --- */

static const struct {
	double width_m, side, depth_m, slope, n;
	double area_m2, radius_m, velocity_m_s, flow_l_s, tolerance;
} channels[] = {
	/* HEC-22, example 5-1, page 5-6, in both systems of units. */
	{ 0.8, 3, 0.5, 0.01, 0.030, 1.15, 0.2902, 1.455, 1670, 0.01 },
	{ 2.62 * FOOT, 3, 1.64 * FOOT, 0.01, 0.030, 12.4 * FOOT *FOOT, 0.95 * FOOT,
	        59.7 / 12.4 * FOOT, 59.7 * CUBIC_FOOT_L, 0.01 },
	/* San Diego State University, CIVE 530, midterm solutions of 2008 and 2007. */
	{ 6, 0, 1.6, 0.0025, 0.015, 9.6, 1.043, 3.428, 32910, 0.001 },
	{ 5, 0, 0.8, 0.0025, 0.015, 4.0, 0.606, 2.387, 9548, 0.0005 },
	/* A small channel, constructed: arithmetic of the formula. */
	{ 0.1, 0, 0.075, 0.01, 0.013, 0.0075, 0.030, 0.7427, 5.570, 0.0005 },
};

START_TEST(a_channel_runs_as_manning_says)
{
	struct flow_section s =
	        flow_section(channels[_i].width_m, channels[_i].side, channels[_i].depth_m);
	double radius = s.area_m2 / s.wetted_m, tolerance = channels[_i].tolerance;

	assert_near(s.area_m2, channels[_i].area_m2, fmax(tolerance, 0.005));
	assert_near(radius, channels[_i].radius_m, fmax(tolerance, 0.001));
	assert_near(manning_velocity_m_s(channels[_i].n, radius, channels[_i].slope),
	        channels[_i].velocity_m_s, tolerance);
	assert_near(manning_flow_l_s(channels[_i].n, s, channels[_i].slope), channels[_i].flow_l_s,
	        tolerance);
	if (channels[_i].side > 0)
		return;
	assert_near(channel_normal_depth_m(channels[_i].width_m, channels[_i].n, channels[_i].slope,
	                    channels[_i].flow_l_s),
	        channels[_i].depth_m, tolerance);
}
END_TEST

/* A round pipe running full by the same formula (radius D/4): HEC-22, example 3-2, page 3-11, D
 * 0.38 m, 146 m in 1.4 min (1.431 with its own exponent); example 7-2, D 0.530 m with n 0.013 and
 * 0.610 m with n 0.017 at 0.015: 2.44 and 2.05 m/s; table 7-7, least slopes for 0.9 m/s with n
 * 0.013. */
START_TEST(a_full_pipe_runs_as_in_the_examples)
{
	double v = manning_velocity_m_s(0.011, 0.38 / 4, 0.008);

	assert_near(v, 1.7, 0.02);
	assert_near(146 / v / 60, 1.431, 0.01);
	assert_near(manning_velocity_m_s(0.013, 0.530 / 4, 0.015), 2.44, 0.005);
	assert_near(manning_velocity_m_s(0.017, 0.610 / 4, 0.015), 2.05, 0.005);
	assert_near(manning_velocity_m_s(0.013, 0.200 / 4, 0.0075), 0.9, 0.005);
	assert_near(manning_velocity_m_s(0.013, 0.300 / 4, 0.0044), 0.9, 0.01);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("runoff");

	tcase_add_test(tc, the_composite_coefficient_is_that_of_the_example);
	tcase_add_loop_test(tc, the_flow_is_that_of_the_rational_method, 0,
	        (int)(sizeof flows / sizeof *flows));
	tcase_add_test(tc, an_even_gutter_runs_as_wide_as_in_the_example);
	tcase_add_test(tc, a_depressed_gutter_runs_as_in_the_example);
	tcase_add_test(tc, a_v_and_a_mean_velocity_are_those_of_the_examples);
	tcase_add_loop_test(
	        tc, a_channel_runs_as_manning_says, 0, (int)(sizeof channels / sizeof *channels));
	tcase_add_test(tc, a_full_pipe_runs_as_in_the_examples);
	return suite_run("published runoff", tc);
}
