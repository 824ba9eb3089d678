/* Soakaways and limits on draining: published examples and rules, each row with its source. */
#include "slabwright/drainage.h"
#include "slabwright/store.h"

#include "plans.h"
#include "program.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Approved Document H, as a borough's building control leaflet restates it (scribd.com 433240728):
 * up to 25 m2, 10 mm of rain in 5 minutes. Over 30 % of voids by arithmetic. */
START_TEST(ten_millimetres_in_five_minutes_fill_a_small_soakaway)
{
	ck_assert_double_eq_tol(soakaway_storage_m3(1, 25, 120, 5, 0), 0.25, 1e-12);
	ck_assert_double_eq_tol(soakaway_storage_m3(1, 12, 120, 5, 0), 0.12, 1e-12);
	ck_assert_double_eq_tol(soakaway_storage_m3(1, 25, 120, 5, 0) / 0.3, 0.8333, 1e-4);
	ck_assert_double_eq_tol(runoff_flow_l_s(1, 120, 1), 0.0333, 1e-4);
}
END_TEST

/* Trial pits of two engineers' calculations to BRE Digest 365: scribd.com 121362036 (2008), longest
 * fall 56 minutes, prints 4.461e-5, exactly 4.464e-5; scribd.com 338470131 (2006), 4020 s, 3.24e-5,
 * exactly 3.247e-5. */
START_TEST(a_trial_pit_gives_the_rate_printed)
{
	ck_assert_double_eq_tol(
	        soakaway_test_rate_m_s(1.000, 0.750, 1.000, 56 * 60), 4.461e-5, 0.002 * 4.461e-5);
	ck_assert_double_eq_tol(
	        soakaway_test_rate_m_s(1.60, 0.60, 0.65, 4020), 3.24e-5, 0.005 * 3.24e-5);
	ck_assert_double_eq_tol(3.24e-5 * 3600, 0.116, 0.001);
	/* Approved Document H, section H3: a percolation value of 20 s/mm; from memory. */
	ck_assert_double_eq_tol(soakaway_rate_of_percolation_m_s(20), 2.5e-5, 1e-15);
}
END_TEST

static void set_rows(struct plan_rain *rain, struct rain_row *rows, const double *minutes,
        const double *mm, size_t count)
{
	rain->rows = rows;
	rain->count = count;
	for (size_t i = 0; i < count; i++)
		rows[i] = (struct rain_row){ llround(minutes[i]),
			llround(mm[i] * 1000 * 60 / minutes[i]) };
}

/* An engineer's calculation to BRE Digest 365 (2017), scribd.com 430947366: rain of ten years on
 * 690 m2. Its M10 depths and inflows are printed; the outflow of a trench of 23 x 5 x 0.8 m in soil
 * of 8.5e-6 m/s and what it has to store are derived from its inputs, as its last page was cut off.
 */
START_TEST(each_duration_needs_the_storage_of_the_calculation)
{
	static const double minutes[] = { 10, 15, 30, 60, 120, 240, 360, 600, 1440, 2880, 5760 },
	                    m5[] = { 10.4, 12.6, 16.0, 20.0, 24.2, 29.0, 32.0, 35.8, 44.8, 52.4,
		                    61.0 },
	                    z2[] = { 1.22, 1.23, 1.24, 1.24, 1.24, 1.22, 1.21, 1.20, 1.18, 1.17,
		                    1.15 },
	                    m10[] = { 12.69, 15.50, 19.84, 24.80, 30.01, 35.38, 38.72, 42.96, 52.86,
		                    61.31, 70.15 },
	                    in[] = { 8.75, 10.69, 13.69, 17.11, 20.71, 24.41, 26.72, 29.64, 36.48,
		                    42.30, 48.40 };
	struct rain_row rows[11];
	struct worked w;
	double area = 690, depths[11];
	struct drainage_areas areas = { .channel_m2 = &area };
	struct plan_channel channel;
	struct drainage d;
	const struct storage_result *s = &d.soakaway;

	for (size_t i = 0; i < 11; i++) {
		depths[i] = m5[i] * z2[i];
		ck_assert_double_eq_tol(depths[i], m10[i], 0.0101);
	}
	worked_rectangle(&w, 30 * UM_PER_M, 23 * UM_PER_M);
	channel_init(&channel);
	w.plan.water.channels = &channel;
	w.plan.water.channel_count = 1;
	soakaway_init(&w.plan.water.soakaway);
	w.plan.water.soakaway.length_um = 23 * UM_PER_M;
	w.plan.water.soakaway.width_um = 5 * UM_PER_M;
	w.plan.water.soakaway.depth_um = 800 * UM_PER_MM;
	w.plan.water.soakaway.soil_nm_s = 8500;
	set_rows(&w.plan.water.rain, rows, minutes, depths, 11);
	ck_assert_int_eq(drainage_work_out(&w.mem, &w.plan, &areas, &w.rules, &d, NULL), STATUS_OK);
	ck_assert_double_eq_tol(soakaway_side_m2(23, 5, 0.8), 22.4, 1e-9);
	for (size_t i = 0; i < 11; i++)
		ck_assert_double_eq_tol(s->rows[i].in_m3, in[i], 0.025);
	ck_assert_double_eq_tol(s->rows[0].out_m3, 0.11, 0.005);
	ck_assert_double_eq_tol(s->rows[3].out_m3, 0.69, 0.005);
	ck_assert_double_eq_tol(s->rows[7].out_m3, 6.85, 0.005);
	ck_assert_double_eq_tol(s->rows[8].out_m3, 16.45, 0.005);
	ck_assert_int_eq(s->worst_minutes, 600);
	ck_assert_double_eq_tol(s->needed_m3, 22.79, 0.01);
	ck_assert_double_eq_tol(s->rows[8].needed_m3, 20.02, 0.012);
	ck_assert_double_eq_tol(s->rows[9].needed_m3, 9.40, 0.012);
	ck_assert_double_eq(s->rows[10].needed_m3, 0);
	worked_done(&w);
}
END_TEST

/* The same engineer's calculation as the first trial pit: a pit of 2.0 x 1.5 x 1.5 m with 30 % of
 * voids in soil of 4.46e-5 m/s: As50 5.250 m2, outflow 234.1e-6 m3/s, storage 1.35 m3; half empty
 * in 37 min 1 s, which goes with a storage needed of 1.040 m3 (printed as 1.0). */
START_TEST(a_pit_stores_drains_and_empties_as_calculated)
{
	double out = soakaway_side_m2(2.0, 1.5, 1.5) * 4.46e-5;
	struct rain_row row = { .minutes = 1 };
	struct plan_channel channel;
	struct worked w;
	double area = 1000;
	struct drainage_areas areas = { .channel_m2 = &area };
	struct drainage d;

	ck_assert_double_eq_tol(soakaway_side_m2(2.0, 1.5, 1.5), 5.250, 1e-12);
	ck_assert_double_eq_tol(out, 234.1e-6, 0.001 * 234.1e-6);
	worked_rectangle(&w, 30 * UM_PER_M, 40 * UM_PER_M);
	channel_init(&channel);
	w.plan.water.channels = &channel;
	w.plan.water.channel_count = 1;
	w.plan.water.soakaway = (struct plan_soakaway){ .has = true,
		.length_um = 2000 * UM_PER_MM,
		.width_um = 1500 * UM_PER_MM,
		.depth_um = 1500 * UM_PER_MM,
		.voids_ppm = 300000,
		.soil_nm_s = 44600 };
	/* So much rain in a minute that 1.040 m3 have to be stored. */
	row.um_per_h = llround((1.040 + out * 60) / area * 60 * 1e6);
	w.plan.water.rain.rows = &row;
	w.plan.water.rain.count = 1;
	ck_assert_int_eq(drainage_work_out(&w.mem, &w.plan, &areas, &w.rules, &d, NULL), STATUS_OK);
	ck_assert_double_eq_tol(d.soakaway.given_m3, 1.350, 1e-9);
	ck_assert_double_eq_tol(d.soakaway.out_m3_s, 234.1e-6, 0.001 * 234.1e-6);
	ck_assert_double_eq_tol(d.soakaway.needed_m3, 1.040, 1e-4);
	ck_assert_double_eq_tol(d.soakaway.half_empty_h * 3600, 37 * 60 + 1, 1);
	worked_done(&w);
}
END_TEST

/* The rainfalls of that calculation for r = 0.35 (5 years, mm): between two of them, one up to
 * four times as long as the other, the table is read within 3 % of the third. */
START_TEST(a_rain_table_is_read_between_its_rows)
{
	static const double minutes[] = { 5, 10, 15, 120, 240, 360, 600, 1440 },
	                    mm[] = { 7.1, 10.1, 12.3, 24.5, 29.9, 33.8, 38.9, 49.6 };

	for (size_t i = 1; i + 1 < 8; i++) {
		struct rain_row rows[2];
		struct plan_rain rain = { 0 };
		const double two_minutes[] = { minutes[i - 1], minutes[i + 1] },
		             two_mm[] = { mm[i - 1], mm[i + 1] };

		if (minutes[i + 1] > 4 * minutes[i - 1])
			continue;
		set_rows(&rain, rows, two_minutes, two_mm, 2);
		ck_assert_double_eq_tol(
		        rain_mm_per_h(&rain, minutes[i]) * minutes[i] / 60, mm[i], 0.03 * mm[i]);
	}
}
END_TEST

/* --- rules, from the set that comes with the program --- */

static struct store *store;
static struct worked w;

static void setup(void)
{
	struct error err = { 0 };

	program_folder();
	ck_assert_msg(store_open(&store, program_path("rules.slabs"), STORE_MAY_CREATE,
	                      getenv("SLABWRIGHT_SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
	worked_rectangle(&w, 10 * UM_PER_M, 10 * UM_PER_M);
	ck_assert_int_eq(store_rules(store, "UK guidance", &w.mem, &w.rules, &err), STATUS_OK);
}

static void teardown(void)
{
	worked_done(&w);
	store_close(store);
	store = NULL;
	program_folder_remove();
}

static const char *warned(enum drainage_code code, double paving_m2, double channel_m2)
{
	struct drainage_areas areas = { .paving_m2 = paving_m2, .channel_m2 = &channel_m2 };
	struct drainage d;

	ck_assert_int_eq(drainage_work_out(&w.mem, &w.plan, &areas, &w.rules, &d, NULL), STATUS_OK);
	for (size_t i = 0; i < d.warning_count; i++)
		if (d.warnings[i].code == code)
			return d.warnings[i].text;
	return NULL;
}

/* A pit of 1.5 m along x whose rim is so far from the house wall at x = 0. */
static void put_pit(int64_t from_house_um)
{
	w.plan.rings[0].nodes[3].kind = EDGE_HOUSE_WALL; /* from (0, 10) to (0, 0) */
	soakaway_init(&w.plan.water.soakaway);
	w.plan.water.soakaway.x_um = from_house_um + 750 * UM_PER_MM;
	w.plan.water.soakaway.y_um = 5 * UM_PER_M;
}

/* 5 m from a building: Approved Document H, as the borough's leaflet and Buckinghamshire Council's
 * design standards give it. */
START_TEST(a_soakaway_keeps_five_metres_from_the_house)
{
	const char *text;

	put_pit(5 * UM_PER_M);
	ck_assert_ptr_null(warned(DRAINAGE_SOAKAWAY_NEAR, 0, 0));
	put_pit(5 * UM_PER_M - UM_PER_MM);
	text = warned(DRAINAGE_SOAKAWAY_NEAR, 0, 0);
	ck_assert_ptr_nonnull(text);
	ck_assert_ptr_nonnull(strstr(text, "Approved Document H"));
	ck_assert_ptr_nonnull(strstr(text, "local codes"));
}
END_TEST

/* 1e-6 m/s or more: Buckinghamshire Council, design standards. */
START_TEST(soil_takes_at_least_a_micrometre_a_second)
{
	put_pit(6 * UM_PER_M);
	w.plan.water.soakaway.soil_nm_s = 1000;
	ck_assert_ptr_null(warned(DRAINAGE_SOIL_SLOW, 0, 0));
	w.plan.water.soakaway.soil_nm_s = 999;
	ck_assert_ptr_nonnull(warned(DRAINAGE_SOIL_SLOW, 0, 0));
}
END_TEST

/* Half empty within 24 hours: the same page. A pit with 2.5 m2 of sides in soil of 1e-6 m/s loses
 * 0.216 m3 in that time, so it may need 0.432 m3. */
START_TEST(a_soakaway_is_half_empty_within_a_day)
{
	struct rain_row row = { .minutes = 1 };
	struct plan_channel channel;
	double lost_in_the_minute = 2.5e-6 * 60;

	channel_init(&channel);
	w.plan.water.channels = &channel;
	w.plan.water.channel_count = 1;
	w.plan.water.rain.rows = &row;
	w.plan.water.rain.count = 1;
	put_pit(6 * UM_PER_M);
	w.plan.water.soakaway.soil_nm_s = 1000;
	row.um_per_h = (int64_t)((0.432 + lost_in_the_minute) / 100 * 60e6);
	ck_assert_ptr_null(warned(DRAINAGE_SOAKAWAY_SLOW, 0, 100));
	row.um_per_h += 60;
	ck_assert_ptr_nonnull(warned(DRAINAGE_SOAKAWAY_SLOW, 0, 100));
}
END_TEST

/* General Permitted Development Order 1995 as amended 2008, Class F, condition F.1: over 5 m2 in
 * front of a house, hard paving needs planning permission unless its water stays in the plot
 * (condition quoted in a planning appeal decision). */
START_TEST(hard_paving_in_a_front_garden_is_limited_to_five_square_metres)
{
	ck_assert_ptr_null(warned(DRAINAGE_FRONT_GARDEN, 5.00, 0));
	ck_assert_ptr_nonnull(strstr(warned(DRAINAGE_FRONT_GARDEN, 5.01, 0), "Class F"));
	w.plan.water.permeable = true;
	ck_assert_ptr_null(warned(DRAINAGE_FRONT_GARDEN, 50, 0));
	w.plan.water.permeable = false;
	put_pit(6 * UM_PER_M);
	ck_assert_ptr_null(warned(DRAINAGE_FRONT_GARDEN, 50, 0));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("soakaway"), *rules = tcase_create("rules");
	int failed;

	tcase_add_test(tc, ten_millimetres_in_five_minutes_fill_a_small_soakaway);
	tcase_add_test(tc, a_trial_pit_gives_the_rate_printed);
	tcase_add_test(tc, each_duration_needs_the_storage_of_the_calculation);
	tcase_add_test(tc, a_pit_stores_drains_and_empties_as_calculated);
	tcase_add_test(tc, a_rain_table_is_read_between_its_rows);
	failed = suite_run("published soakaway", tc);
	tcase_add_checked_fixture(rules, setup, teardown);
	tcase_add_test(rules, a_soakaway_keeps_five_metres_from_the_house);
	tcase_add_test(rules, soil_takes_at_least_a_micrometre_a_second);
	tcase_add_test(rules, a_soakaway_is_half_empty_within_a_day);
	tcase_add_test(rules, hard_paving_in_a_front_garden_is_limited_to_five_square_metres);
	return suite_run("published drainage rules", rules) || failed;
}
