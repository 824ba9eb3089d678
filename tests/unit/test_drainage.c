/* Drainage of small plans: figures by hand, and each warning at its edge. */
#include "slabwright/drainage.h"

#include "plans.h"
#include "suite.h"

#include <math.h>
#include <string.h>

static struct worked w;
static struct rain_row rows[3];
static struct plan_channel channels[2];
static struct plan_gully gullies[2];
static double channel_m2[2], gully_m2[2];
static struct drainage_areas areas;
static struct drainage d;

/* 10 x 6 m in rain of 60 mm/h, all of it running off; nothing laid yet. */
static void setup(void)
{
	worked_rectangle(&w, 10 * UM_PER_M, 6 * UM_PER_M);
	rows[0] = (struct rain_row){ 10, 60000 };
	w.plan.water.rain.rows = rows;
	w.plan.water.rain.count = 1;
	channel_init(&channels[0]);
	channels[0].x2_um = 10 * UM_PER_M;
	w.plan.water.channels = channels;
	w.plan.water.gullies = gullies;
	gullies[0] = gullies[1] = (struct plan_gully){ .name = "" };
	areas = (struct drainage_areas){
		.paving_m2 = 60, .channel_m2 = channel_m2, .gully_m2 = gully_m2
	};
}

static void teardown(void)
{
	worked_done(&w);
}

static void work_out(void)
{
	struct error err = { 0 };

	ck_assert_msg(drainage_work_out(&w.mem, &w.plan, &areas, &w.rules, &d, &err) == STATUS_OK,
	        "%s", err.text);
}

static const struct drainage_warning *warned(enum drainage_code code)
{
	for (size_t i = 0; i < d.warning_count; i++)
		if (d.warnings[i].code == code)
			return &d.warnings[i];
	return NULL;
}

static void lay_channel(double area_m2)
{
	w.plan.water.channel_count = 1;
	channel_m2[0] = area_m2;
}

START_TEST(a_channel_takes_its_area_over_its_length)
{
	lay_channel(60);
	work_out();
	ck_assert_str_eq(d.channels[0].name, "channel 1");
	ck_assert_double_eq_tol(d.channels[0].length_m, 10, 1e-9);
	ck_assert_double_eq_tol(d.channels[0].flow_l_s, 1.0, 1e-9);
	ck_assert_int_eq(d.channels[0].least_outlets, 1);
	ck_assert_double_gt(d.channels[0].depths.head_m, channel_level_head_m(0.1, 1.0));
	ck_assert_double_eq_tol(d.channels[0].velocity_m_s,
	        0.001 / (0.1 * channel_critical_depth_m(0.1, 1.0)), 1e-9);
	ck_assert_double_eq(d.channels[0].full_l_s, 0);
	ck_assert_ptr_null(warned(DRAINAGE_CHANNEL_OVER));
}
END_TEST

START_TEST(two_outlets_halve_the_run_and_its_flow)
{
	double one;

	lay_channel(60);
	work_out();
	one = d.channels[0].depths.deepest_m;
	channels[0].outlet = OUTLET_BOTH;
	work_out();
	ck_assert_int_eq(d.channels[0].runs, 2);
	ck_assert_double_eq_tol(d.channels[0].run_flow_l_s, 0.5, 1e-9);
	ck_assert_double_lt(d.channels[0].depths.deepest_m, one);
}
END_TEST

START_TEST(a_channel_along_edges_is_as_long_as_they_are)
{
	lay_channel(60);
	w.plan.rings[0].nodes[0].channel = 1;
	w.plan.rings[0].nodes[1].channel = 1;
	work_out();
	ck_assert_double_eq_tol(d.channels[0].length_m, 16, 1e-9);
}
END_TEST

START_TEST(a_fall_gives_even_flow_by_manning)
{
	lay_channel(60);
	channels[0].fall_um_per_m = 10000;
	work_out();
	ck_assert_double_eq_tol(
	        d.channels[0].normal_m, channel_normal_depth_m(0.1, 0.012, 0.01, 1), 1e-12);
	ck_assert_double_eq_tol(d.channels[0].full_l_s,
	        manning_flow_l_s(0.012, flow_section(0.1, 0, 0.1), 0.01), 1e-9);
}
END_TEST

START_TEST(a_channel_that_runs_over_is_told_how_many_outlets_it_needs)
{
	const struct drainage_warning *warning;

	lay_channel(600);
	channels[0].name = "front channel";
	work_out();
	ck_assert_double_lt(d.channels[0].depths.freeboard_m, 0);
	ck_assert_double_lt(d.channels[0].capacity_l_s, 10);
	warning = warned(DRAINAGE_CHANNEL_OVER);
	ck_assert_ptr_nonnull(warning);
	ck_assert_str_eq(warning->place, "front channel");
	ck_assert_ptr_nonnull(strstr(warning->text, "front channel runs over: 10.00 l/s"));
	ck_assert_int_gt(d.channels[0].least_outlets, 1);
	ck_assert_ptr_nonnull(strstr(warning->text, "outlets, each in the middle"));
	ck_assert_str_eq(drainage_code_name(warning->code), "channel-over");
}
END_TEST

START_TEST(a_channel_without_length_is_named)
{
	lay_channel(60);
	channels[0].x2_um = 0;
	work_out();
	ck_assert_ptr_nonnull(warned(DRAINAGE_CHANNEL_NO_LENGTH));
	ck_assert_double_eq(d.channels[0].flow_l_s, 0);
}
END_TEST

START_TEST(a_rim_that_does_not_fall_leaves_more_room)
{
	double rim = 0, as_floor;

	lay_channel(300);
	channels[0].fall_um_per_m = 5000;
	work_out();
	as_floor = d.channels[0].capacity_l_s;
	areas.channel_rim_slope = &rim;
	work_out();
	ck_assert_double_gt(d.channels[0].capacity_l_s, as_floor);
}
END_TEST

START_TEST(a_gully_takes_what_it_can)
{
	w.plan.water.gully_count = 2;
	gully_m2[0] = 60;
	gully_m2[1] = 0;
	gullies[0].capacity_ml_s = 1000;
	work_out();
	ck_assert_double_eq_tol(d.gullies[0].flow_l_s, 1, 1e-9);
	ck_assert_uint_eq(d.warning_count, 0);
	gullies[0].capacity_ml_s = 999;
	work_out();
	ck_assert_str_eq(warned(DRAINAGE_GULLY_OVER)->place, "gully 1");
	gullies[0].capacity_ml_s = 0;
	work_out();
	ck_assert_ptr_null(warned(DRAINAGE_GULLY_OVER));
	ck_assert_ptr_nonnull(warned(DRAINAGE_GULLY_UNKNOWN));
}
END_TEST

START_TEST(water_along_a_kerb_spreads_and_may_top_it)
{
	struct drainage_edge edge = { .edge = 1, .area_m2 = 60, .across = 0.02, .along = 0.01 };
	struct gutter g = { .n = PAVING_ROUGHNESS, .across = 0.02, .along = 0.01 };

	areas.edges = &edge;
	areas.edge_count = 1;
	work_out();
	ck_assert(d.kerbs[0].runs);
	ck_assert_double_eq_tol(d.kerbs[0].spread_m, gutter_spread_m(&g, 1), 1e-12);
	ck_assert_double_eq_tol(d.kerbs[0].depth_m, 0.02 * d.kerbs[0].spread_m, 1e-12);
	ck_assert_ptr_null(warned(DRAINAGE_KERB_OVER)); /* its height is not known */
	edge.upstand_m = d.kerbs[0].depth_m * 1.001;
	work_out();
	ck_assert_ptr_null(warned(DRAINAGE_KERB_OVER));
	edge.upstand_m = d.kerbs[0].depth_m * 0.999;
	work_out();
	ck_assert_str_eq(warned(DRAINAGE_KERB_OVER)->place, "edge 2");
	edge.along = -0.01; /* the other way is the same */
	work_out();
	ck_assert(d.kerbs[0].runs);
	edge.along = 0;
	work_out();
	ck_assert(!d.kerbs[0].runs);
	ck_assert_double_eq(d.kerbs[0].spread_m, 0);
}
END_TEST

START_TEST(without_rain_there_is_no_flow_and_no_storage)
{
	lay_channel(60);
	w.plan.water.rain.count = 0;
	soakaway_init(&w.plan.water.soakaway);
	work_out();
	ck_assert(!d.has_rain);
	ck_assert_double_eq(d.channels[0].flow_l_s, 0);
	ck_assert_double_eq(d.channels[0].area_m2, 60);
	ck_assert_int_eq(d.channels[0].least_outlets, 0);
	ck_assert_double_gt(d.channels[0].capacity_l_s, 0);
	ck_assert_uint_eq(d.soakaway.count, 0);
	ck_assert_double_eq(d.soakaway.needed_m3, 0);
	ck_assert_double_eq_tol(d.soakaway.given_m3, 1.5 * 0.95, 1e-9);
}
END_TEST

/* 60 m2, 10 minutes of 60 mm/h: 0.6 m3; 60 minutes of 15: 0.9 m3; 600 of 1.8: 1.08 m3. Sides of
 * 2.5 m2 at 1e-5 m/s drain 0.015, 0.09 and 0.9 m3. */
static void three_rains(void)
{
	rows[1] = (struct rain_row){ 60, 15000 };
	rows[2] = (struct rain_row){ 600, 1800 };
	w.plan.water.rain.count = 3;
	lay_channel(60);
	soakaway_init(&w.plan.water.soakaway);
	w.plan.water.soakaway.x_um = 100 * UM_PER_M;
}

START_TEST(a_soakaway_is_sized_by_the_worst_duration)
{
	three_rains();
	work_out();
	ck_assert_double_eq_tol(d.soakaway.rows[0].needed_m3, 0.585, 1e-9);
	ck_assert_double_eq_tol(d.soakaway.rows[1].needed_m3, 0.81, 1e-9);
	ck_assert_double_eq_tol(d.soakaway.rows[2].needed_m3, 0.18, 1e-9);
	ck_assert_int_eq(d.soakaway.worst_minutes, 60);
	ck_assert_double_eq_tol(d.soakaway.half_empty_h, 0.405 / 2.5e-5 / 3600, 1e-9);
	ck_assert_uint_eq(d.warning_count, 0);
	w.plan.water.soakaway.voids_ppm = 539000; /* 1.5 m3 of it: 0.8085 m3 */
	work_out();
	ck_assert_ptr_nonnull(
	        strstr(warned(DRAINAGE_SOAKAWAY_SMALL)->text, "60 minutes of rain need 0.81"));
	w.plan.water.soakaway.voids_ppm = 540000;
	work_out();
	ck_assert_ptr_null(warned(DRAINAGE_SOAKAWAY_SMALL));
}
END_TEST

START_TEST(a_table_that_ends_too_soon_is_told)
{
	three_rains();
	w.plan.water.rain.count = 2;
	work_out();
	ck_assert_ptr_nonnull(warned(DRAINAGE_RAIN_SHORT));
}
END_TEST

START_TEST(soil_that_takes_nothing_never_empties_the_soakaway)
{
	struct rule half = { "half_empty", 24000, "h", "a test's own limit" };

	three_rains();
	w.rules.items = &half;
	w.rules.count = 1;
	w.plan.water.soakaway.soil_nm_s = 0;
	work_out();
	ck_assert(isinf(d.soakaway.half_empty_h));
	ck_assert_ptr_nonnull(strstr(warned(DRAINAGE_SOAKAWAY_SLOW)->text, "never empties"));
}
END_TEST

/* The pit is 1.5 m along x and 1 m along y; the house wall runs along y = 0 from 0 to 10 m. */
START_TEST(the_distance_to_the_house_is_that_of_the_nearest_points)
{
	w.plan.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	soakaway_init(&w.plan.water.soakaway);
	w.plan.water.soakaway.x_um = 5 * UM_PER_M;
	w.plan.water.soakaway.y_um = -4 * UM_PER_M;
	work_out();
	ck_assert_double_eq_tol(d.to_house_m, 3.5, 1e-9);
	w.plan.water.soakaway.x_um = 10 * UM_PER_M + 3750 * UM_PER_MM;
	w.plan.water.soakaway.y_um = -4500 * UM_PER_MM;
	work_out();
	ck_assert_double_eq_tol(d.to_house_m, 5, 1e-9); /* 3-4-5 */
	w.plan.water.soakaway.x_um = 5 * UM_PER_M;
	w.plan.water.soakaway.y_um = 200 * UM_PER_MM;
	work_out();
	ck_assert_double_eq(d.to_house_m, 0); /* it lies under the wall */
	w.plan.rings[0].nodes[0].kind = EDGE_OPEN;
	work_out();
	ck_assert(isinf(d.to_house_m));
}
END_TEST

/* 100 mm of sub-base with 30 % of voids stores 30 mm. 60 minutes of 40 mm/h less 3.6 mm/h that the
 * soil takes leave 36.4 mm. */
START_TEST(a_permeable_surface_stores_in_its_sub_base)
{
	struct plan_water *water = &w.plan.water;

	rows[0] = (struct rain_row){ 60, 40000 };
	rows[1] = (struct rain_row){ 1200, 3600 };
	water->rain.count = 2;
	water->permeable = true;
	water->surface_nm_s = 50000;
	water->soil_nm_s = 1000;
	work_out();
	ck_assert_double_eq_tol(d.sub_base.given_m3, 60 * 0.030, 1e-9);
	ck_assert_double_eq_tol(d.sub_base.needed_m3, 60 * 0.0364, 1e-6);
	ck_assert_int_eq(d.sub_base.worst_minutes, 60);
	ck_assert_ptr_nonnull(warned(DRAINAGE_SUB_BASE_SMALL));
	ck_assert_ptr_null(warned(DRAINAGE_SURFACE_SLOW));
	w.plan.ground.sub_base_um = 122 * UM_PER_MM;
	work_out();
	ck_assert_ptr_null(warned(DRAINAGE_SUB_BASE_SMALL));
	water->surface_nm_s = 11111; /* 39.9996 mm/h */
	work_out();
	ck_assert_ptr_nonnull(warned(DRAINAGE_SURFACE_SLOW));
	water->surface_nm_s = 11112;
	work_out();
	ck_assert_ptr_null(warned(DRAINAGE_SURFACE_SLOW));
}
END_TEST

START_TEST(every_code_has_a_name_of_its_own)
{
	for (int i = 0; i <= DRAINAGE_FRONT_GARDEN; i++)
		for (int j = 0; j < i; j++)
			ck_assert_str_ne(drainage_code_name((enum drainage_code)i),
			        drainage_code_name((enum drainage_code)j));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drainage");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, a_channel_takes_its_area_over_its_length);
	tcase_add_test(tc, two_outlets_halve_the_run_and_its_flow);
	tcase_add_test(tc, a_channel_along_edges_is_as_long_as_they_are);
	tcase_add_test(tc, a_fall_gives_even_flow_by_manning);
	tcase_add_test(tc, a_channel_that_runs_over_is_told_how_many_outlets_it_needs);
	tcase_add_test(tc, a_channel_without_length_is_named);
	tcase_add_test(tc, a_rim_that_does_not_fall_leaves_more_room);
	tcase_add_test(tc, a_gully_takes_what_it_can);
	tcase_add_test(tc, water_along_a_kerb_spreads_and_may_top_it);
	tcase_add_test(tc, without_rain_there_is_no_flow_and_no_storage);
	tcase_add_test(tc, a_soakaway_is_sized_by_the_worst_duration);
	tcase_add_test(tc, a_table_that_ends_too_soon_is_told);
	tcase_add_test(tc, soil_that_takes_nothing_never_empties_the_soakaway);
	tcase_add_test(tc, the_distance_to_the_house_is_that_of_the_nearest_points);
	tcase_add_test(tc, a_permeable_surface_stores_in_its_sub_base);
	tcase_add_test(tc, every_code_has_a_name_of_its_own);
	return suite_run("drainage", tc);
}
