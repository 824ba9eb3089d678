/* Rain tables, channels and gutters: by hand, at their limits, and against each other. */
#include "slabwright/runoff.h"

#include "chance.h"
#include "suite.h"

#include <math.h>

static struct rain_row rows[] = { { 5, 120000 }, { 20, 60000 }, { 60, 30000 } };
static const struct plan_rain rain = { .rows = rows, .count = 3 };

START_TEST(intensity_is_read_on_and_between_the_rows)
{
	ck_assert_double_eq_tol(rain_mm_per_h(&rain, 5), 120, 1e-9);
	ck_assert_double_eq_tol(rain_mm_per_h(&rain, 20), 60, 1e-9);
	/* Half of it over four times as long: i is as 1 / sqrt(t) there, so 120 / sqrt(2). */
	ck_assert_double_eq_tol(rain_mm_per_h(&rain, 10), 120 / sqrt(2), 1e-9);
	ck_assert_double_eq_tol(rain_mm_per_h(&rain, 1), 120, 1e-9);
	ck_assert_double_eq_tol(rain_mm_per_h(&rain, 1000), 30, 1e-9);
}
END_TEST

START_TEST(no_minutes_mean_the_shortest_row_and_no_rows_no_rain)
{
	struct plan_rain r = rain;

	ck_assert_double_eq(rain_design_mm_per_h(&r), 120);
	r.minutes = 60;
	ck_assert_double_eq(rain_design_mm_per_h(&r), 30);
	r.count = 0;
	ck_assert_double_eq(rain_design_mm_per_h(&r), 0);
}
END_TEST

START_TEST(a_row_without_rain_is_read_in_a_straight_line)
{
	struct rain_row dry[] = { { 10, 60000 }, { 40, 0 } };
	struct plan_rain r = { .rows = dry, .count = 2 };

	ck_assert_double_eq_tol(rain_mm_per_h(&r, 20), 30, 1e-9);
}
END_TEST

START_TEST(a_permeable_surface_lets_run_off_what_it_cannot_take)
{
	struct plan_water w;

	water_init(&w);
	ck_assert_double_eq(runoff_mm_per_h(&w, 50), 50);
	w.permeable = true;
	w.surface_nm_s = 10000; /* 36 mm/h */
	ck_assert_double_eq_tol(runoff_mm_per_h(&w, 50), 14, 1e-9);
	ck_assert_double_eq(runoff_mm_per_h(&w, 30), 0);
}
END_TEST

START_TEST(no_area_has_no_coefficient)
{
	ck_assert_double_eq(runoff_composite_c(NULL, NULL, 0), 0);
}
END_TEST

/* --- channels --- */

START_TEST(a_level_run_without_friction_stands_root_three_critical_at_its_head)
{
	for (double flow = 0.1; flow < 100; flow *= 3) {
		struct channel_run run = { .width_m = 0.1, .depth_m = 0.1, .length_m = 8 };
		struct channel_depths d = channel_run_depths(&run, flow);

		ck_assert_double_eq_tol(d.outlet_m, channel_critical_depth_m(0.1, flow), 1e-12);
		ck_assert_double_eq_tol(d.head_m, channel_level_head_m(0.1, flow), 1e-9 * d.head_m);
		ck_assert_double_eq_tol(d.deepest_m, d.head_m, 1e-12);
		ck_assert_double_eq_tol(d.freeboard_m, 0.1 - d.head_m, 1e-12);
	}
}
END_TEST

/* Critical depth is where the velocity is the root of g y. */
START_TEST(critical_water_runs_as_fast_as_its_waves)
{
	double y = channel_critical_depth_m(0.2, 12), v = 0.012 / (0.2 * y);

	ck_assert_double_eq_tol(v * v, GRAVITY_M_S2 * y, 1e-9);
}
END_TEST

START_TEST(friction_makes_it_deeper_and_a_fall_shallower)
{
	struct channel_run run = { .width_m = 0.1, .depth_m = 0.2, .length_m = 15 };
	double smooth = channel_run_depths(&run, 3).deepest_m, rough;

	run.n = 0.012;
	rough = channel_run_depths(&run, 3).deepest_m;
	ck_assert_double_gt(rough, smooth * 1.01);
	for (run.slope = 0.001; run.slope < 0.05; run.slope *= 2) {
		double falls = channel_run_depths(&run, 3).deepest_m;

		ck_assert_double_le(falls, rough);
		rough = falls;
	}
}
END_TEST

/* A very long run settles to even flow: near its low end, where nearly all the water runs, it is as
 * deep as Manning says. */
START_TEST(a_long_run_is_as_deep_as_even_flow)
{
	for (double slope = 0.001; slope < 0.005; slope *= 2) {
		struct channel_run run = { .width_m = 0.3,
			.depth_m = 1,
			.length_m = 15 / slope,
			.slope = slope,
			.n = 0.015 };
		double normal = channel_normal_depth_m(0.3, 0.015, slope, 20);

		ck_assert_double_eq_tol(
		        channel_run_depths(&run, 20).deepest_m, normal, 0.03 * normal);
	}
}
END_TEST

/* The same equation with many more steps, written out once more in the plainest way. */
static double fine_deepest(const struct channel_run *run, double flow_l_s)
{
	int steps = 20000;
	double q = flow_l_s / 1000 / run->width_m, dx = run->length_m / steps,
	       y = cbrt(q * q / GRAVITY_M_S2), m = 1.5 * y * y, deepest = y;

	for (int i = steps; i > 0; i--) {
		double here = q * i / steps, next = q * (i - 1) / steps, v = here / y,
		       radius = run->width_m * y / (run->width_m + 2 * y),
		       friction = run->n * run->n * v * v / pow(radius, 4.0 / 3), lo, hi;

		m -= y * (run->slope - friction) * dx;
		lo = cbrt(next * next / GRAVITY_M_S2);
		m = fmax(m, 1.5 * lo * lo);
		hi = sqrt(2 * m);
		for (int k = 0; k < 50; k++) {
			double middle = (lo + hi) / 2;
			bool less = next * next / (GRAVITY_M_S2 * middle) + middle * middle / 2 < m;

			*(less ? &lo : &hi) = middle;
		}
		y = hi;
		deepest = fmax(deepest, y);
	}
	return deepest;
}

START_TEST(a_few_steps_are_as_good_as_twenty_thousand)
{
	struct chance c = chance_new(chance_seed("runoff", 5));

	for (int i = 0; i < 60 / ONE_OF; i++) {
		struct channel_run run = { .width_m = chance_real(&c, 0.05, 0.4),
			.depth_m = 1,
			.length_m = chance_real(&c, 1, 40),
			.slope = i % 3 ? chance_real(&c, 0, i % 2 ? 0.03 : 0.002) : 0,
			.n = chance_real(&c, 0.009, 0.02) };
		double flow = chance_real(&c, 0.1, 10), should = fine_deepest(&run, flow);

		ck_assert_double_eq_tol(
		        channel_run_depths(&run, flow).deepest_m, should, 0.005 * should);
	}
}
END_TEST

START_TEST(at_its_capacity_no_freeboard_is_left)
{
	struct chance c = chance_new(chance_seed("capacity", 6));

	for (int i = 0; i < 200 / ONE_OF; i++) {
		struct channel_run run = { .width_m = chance_real(&c, 0.05, 0.3),
			.depth_m = chance_real(&c, 0.04, 0.3),
			.length_m = chance_real(&c, 0.5, 30),
			.slope = i % 3 ? chance_real(&c, 0, 0.02) : 0,
			.n = i % 5 ? 0.012 : 0.03 };
		double most;

		run.rim_slope = i % 2 ? run.slope : 0;
		most = channel_run_capacity_l_s(&run);
		ck_assert_double_gt(most, 0);
		ck_assert_double_eq_tol(channel_run_depths(&run, most).freeboard_m, 0, 1e-5);
		ck_assert_double_lt(channel_run_depths(&run, most * 1.01).freeboard_m, 0);
	}
}
END_TEST

START_TEST(no_flow_leaves_the_channel_empty)
{
	struct channel_run run = { .width_m = 0.1, .depth_m = 0.08, .length_m = 5, .n = 0.012 };
	struct channel_depths d = channel_run_depths(&run, 0);

	ck_assert_double_eq(d.deepest_m, 0);
	ck_assert_double_eq(d.freeboard_m, 0.08);
	ck_assert_double_eq(channel_normal_depth_m(0.1, 0.012, 0.01, 0), 0);
	ck_assert(isinf(channel_normal_depth_m(0.1, 0.012, 0, 1)));
	ck_assert_double_eq(manning_flow_l_s(0.012, flow_section(0.1, 0, 0), 0.01), 0);
}
END_TEST

START_TEST(one_outlet_more_is_needed_only_where_one_less_runs_over)
{
	struct chance c = chance_new(chance_seed("outlets", 7));
	int many = 0;

	for (int i = 0; i < 150 / ONE_OF; i++) {
		struct channel_run whole = { .width_m = 0.1,
			.depth_m = chance_real(&c, 0.05, 0.15),
			.length_m = chance_real(&c, 2, 60),
			.n = 0.012 };
		double flow = chance_real(&c, 0.5, 30);
		int n = channel_least_outlets(&whole, flow);
		struct channel_run part = whole;

		ck_assert_int_gt(n, 0);
		if (n == 1)
			continue;
		many++;
		part.length_m = whole.length_m / (2 * n);
		ck_assert_double_ge(channel_run_depths(&part, flow / (2 * n)).freeboard_m, 0);
		part.length_m = whole.length_m / (2 * n - 2);
		ck_assert_double_lt(channel_run_depths(&part, flow / (2 * n - 2)).freeboard_m, 0);
	}
	ck_assert_int_gt(many, 20 / ONE_OF);
}
END_TEST

START_TEST(a_flood_is_beyond_any_number_of_outlets)
{
	struct channel_run whole = { .width_m = 0.05, .depth_m = 0.001, .length_m = 1, .n = 0.012 };

	ck_assert_int_eq(channel_least_outlets(&whole, 1e6), 0);
}
END_TEST

/* --- gutters --- */

START_TEST(a_spread_gives_back_its_flow)
{
	struct chance c = chance_new(chance_seed("gutter", 8));

	for (int i = 0; i < 500 / ONE_OF; i++) {
		struct gutter g = { .n = chance_real(&c, 0.01, 0.03),
			.across = chance_real(&c, 0.005, 0.05),
			.along = chance_real(&c, 0.001, 0.05) };
		double flow = chance_real(&c, 0.01, 50), spread;

		if (i % 2) {
			g.width_m = chance_real(&c, 0.1, 0.6);
			g.depressed_m = chance_real(&c, 0.005, 0.05);
		}
		spread = gutter_spread_m(&g, flow);
		ck_assert_double_eq_tol(gutter_flow_l_s(&g, spread), flow, 1e-6 * flow);
		ck_assert_double_ge(gutter_depth_m(&g, spread), spread * g.across * (1 - 1e-12));
	}
	ck_assert_double_eq(gutter_spread_m(&(struct gutter){ .n = 0.016 }, 0), 0);
}
END_TEST

/* A gutter that is not depressed is an even one, however wide it is said to be. */
START_TEST(a_gutter_of_no_depth_is_an_even_one)
{
	struct gutter even = { .n = 0.016, .across = 0.02, .along = 0.01 }, wide = even;

	wide.width_m = 0.5;
	ck_assert_double_eq(gutter_flow_l_s(&wide, 2), gutter_flow_l_s(&even, 2));
	ck_assert_double_eq_tol(gutter_frontal_share(&wide, 2), 1 - pow(1 - 0.5 / 2, 2.67), 1e-12);
	ck_assert_double_eq(gutter_frontal_share(&wide, 0.4), 1);
	ck_assert_double_eq(gutter_frontal_share(&even, 2), 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("runoff");

	tcase_add_test(tc, intensity_is_read_on_and_between_the_rows);
	tcase_add_test(tc, no_minutes_mean_the_shortest_row_and_no_rows_no_rain);
	tcase_add_test(tc, a_row_without_rain_is_read_in_a_straight_line);
	tcase_add_test(tc, a_permeable_surface_lets_run_off_what_it_cannot_take);
	tcase_add_test(tc, no_area_has_no_coefficient);
	tcase_add_test(tc, a_level_run_without_friction_stands_root_three_critical_at_its_head);
	tcase_add_test(tc, critical_water_runs_as_fast_as_its_waves);
	tcase_add_test(tc, friction_makes_it_deeper_and_a_fall_shallower);
	tcase_add_test(tc, a_long_run_is_as_deep_as_even_flow);
	tcase_add_test(tc, a_few_steps_are_as_good_as_twenty_thousand);
	tcase_add_test(tc, at_its_capacity_no_freeboard_is_left);
	tcase_add_test(tc, no_flow_leaves_the_channel_empty);
	tcase_add_test(tc, one_outlet_more_is_needed_only_where_one_less_runs_over);
	tcase_add_test(tc, a_flood_is_beyond_any_number_of_outlets);
	tcase_add_test(tc, a_spread_gives_back_its_flow);
	tcase_add_test(tc, a_gutter_of_no_depth_is_an_even_one);
	return suite_run("runoff", tc);
}
