/* Falls and level books: published conversions and readings, each row with its source. */
#include "slabwright/sheet.h"
#include "slabwright/surface_plane.h"

#include "plans.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* --- falls --- */

static const struct {
	const char *ratio;
	double mm_per_m, percent, degrees, drop_3600_mm, drop_4800_mm;
} conversions[] = {
	/* Exact arithmetic of the ratio, constructed; the degrees of 1:60 (0.95) and 1:20 (2.86)
	 * are printed at designingbuildings.co.uk, "Gently sloping". */
	{ "1:12", 83.333, 8.3333, 4.7636, 300, 400 },
	{ "1:20", 50.000, 5.0000, 2.8624, 180, 240 },
	{ "1:40", 25.000, 2.5000, 1.4321, 90, 120 },
	{ "1:48", 20.833, 2.0833, 1.1935, 75, 100 },
	{ "1:50", 20.000, 2.0000, 1.1458, 72, 96 },
	{ "1:60", 16.667, 1.6667, 0.9548, 60, 80 },
	{ "1:80", 12.500, 1.2500, 0.7162, 45, 60 },
	{ "1:100", 10.000, 1.0000, 0.5729, 36, 48 },
	{ "1:120", 8.333, 0.8333, 0.4775, 30, 40 },
	{ "1:200", 5.000, 0.5000, 0.2865, 18, 24 },
};

static double drop_mm(int64_t um_per_m, double over_um)
{
	struct plan_plane plane = { 0, 0, 0, 90 * UDEG_PER_DEG, um_per_m };
	struct plan_surface s = { .planes = &plane, .count = 1 };

	return (surface_level_um(&s, 0, 0) - surface_level_um(&s, 0, over_um)) / 1000;
}

START_TEST(a_ratio_converts_to_mm_per_m_degrees_and_drop)
{
	int64_t fall, again;
	char percent[20], shown[80];

	ck_assert_int_eq(fall_parse(conversions[_i].ratio, &fall, NULL), STATUS_OK);
	ck_assert_double_eq_tol((double)fall / 1000, conversions[_i].mm_per_m, 0.0006);
	snprintf(percent, sizeof percent, "%.4f %%", conversions[_i].percent);
	ck_assert_int_eq(fall_parse(percent, &again, NULL), STATUS_OK);
	ck_assert_int_le(llabs(again - fall), 1);
	ck_assert_double_eq_tol(fall_degrees(fall), conversions[_i].degrees, 0.0001);
	ck_assert_double_eq_tol(drop_mm(fall, 3.6e6), conversions[_i].drop_3600_mm, 0.002);
	ck_assert_double_eq_tol(drop_mm(fall, 4.8e6), conversions[_i].drop_4800_mm, 0.003);
	ck_assert_ptr_nonnull(strstr(fall_print(shown, sizeof shown, fall), conversions[_i].ratio));
}
END_TEST

/* designingbuildings.co.uk, "Gently sloping": 1:60 = 0.95 and 1:20 = 2.86 degrees as printed there.
 */
START_TEST(degrees_agree_with_those_printed)
{
	ck_assert_double_eq_tol(fall_degrees(16667), 0.95, 0.005);
	ck_assert_double_eq_tol(fall_degrees(50000), 2.86, 0.005);
}
END_TEST

/* Constructed traps: 30 and 45 mm over 7 m are 0.429 % (1:233.3) and 0.643 % (1:155.6); a ten-fold
 * slip would print 0.04 %. */
START_TEST(a_small_fall_is_not_printed_ten_times_too_small)
{
	int64_t fall;
	char buf[80];

	ck_assert_int_eq(fall_parse("30:7000", &fall, NULL), STATUS_OK);
	ck_assert_double_eq_tol((double)fall / 1e4, 0.429, 0.001);
	ck_assert_str_eq(fall_print(buf, sizeof buf, fall), "4.3 mm/m (0.43 %, 1:233)");
	ck_assert_int_eq(fall_parse("45:7000", &fall, NULL), STATUS_OK);
	ck_assert_double_eq_tol((double)fall / 1e4, 0.643, 0.001);
	ck_assert_str_eq(fall_print(buf, sizeof buf, fall), "6.4 mm/m (0.64 %, 1:156)");
}
END_TEST

/* Two falls at right angles make one of the root of the sum of their squares. Derived rows: 1:40
 * and 1:80 give 0.027951 or 1:35.78, 1.25 % and 1.0 % give 1.6008 % or 1:62.47. */
static const struct {
	double along, across, fall, ratio;
} resultants[] = { { 0.025, 0.0125, 0.027951, 35.78 }, { 0.0125, 0.01, 0.016008, 62.47 } };

START_TEST(two_falls_at_right_angles_make_one)
{
	double along = resultants[_i].along, across = resultants[_i].across;
	struct plane_level origin = { 0, 0, 0 }, x = { 1000000, 0, -llround(along * 1e6) },
	                   y = { 0, 1000000, -llround(across * 1e6) };
	struct plan_plane plane;
	struct plan_surface s = { .planes = &plane, .count = 1 };
	double fall;

	ck_assert_int_eq(plane_from_three(origin, x, y, &plane, NULL), STATUS_OK);
	fall = surface_fall_at(&s, 300000, 200000).um_per_m * 1e-6;
	ck_assert_double_eq_tol(fall, resultants[_i].fall, 1e-6);
	ck_assert_double_eq_tol(1 / fall, resultants[_i].ratio, 0.01);
}
END_TEST

/* --- level books --- */

struct reading {
	double staff, level;
};

struct set_up {
	double unit_um, benchmark, backsight, instrument;
	size_t count;
	struct reading readings[5];
};

#define METRES 1e6
#define FEET 304800.0

static const struct set_up set_ups[] = {
	/* Collimation method, open teaching sheet (issuu.com/landsurveyor): the six set-ups of its
	   book. */
	{ METRES, 106.366, 1.216, 107.582, 3,
	        { { 0.025, 107.557 }, { 1.555, 106.027 }, { 2.508, 105.074 } } },
	{ METRES, 105.074, 1.386, 106.460, 2, { { 3.625, 102.835 }, { 1.196, 105.264 } } },
	{ METRES, 105.264, 1.235, 106.499, 1, { { 3.566, 102.933 } } },
	{ METRES, 102.933, 3.655, 106.588, 1, { { 0.506, 106.082 } } },
	{ METRES, 106.082, 2.126, 108.208, 3,
	        { { 2.605, 105.603 }, { 1.094, 107.114 }, { 3.628, 104.580 } } },
	{ METRES, 104.580, 1.125, 105.705, 2, { { 1.394, 104.311 }, { 0.484, 105.221 } } },
	/* Level books lecture, Papua New Guinea University of Technology: with a staff held upside
	 * down under a soffit, read as negative. */
	{ METRES, 40.000, 6.482, 46.482, 1, { { 2.159, 44.323 } } },
	{ METRES, 44.323, 5.844, 50.167, 4,
	        { { 3.141, 47.026 }, { -2.956, 53.123 }, { 5.600, 44.567 }, { 7.318, 42.849 } } },
	{ METRES, 42.849, 4.298, 47.147, 2, { { 3.015, 44.132 }, { 4.264, 42.883 } } },
	/* Exercise readings read at askfilo.com, levels derived (the last level printed there,
	 * 149.794, is wrong: the right one is 149.298). */
	{ METRES, 150.250, 2.228, 152.478, 2, { { 1.606, 150.872 }, { 0.988, 151.490 } } },
	{ METRES, 151.490, 2.090, 153.580, 2, { { 2.864, 150.716 }, { 1.262, 152.318 } } },
	{ METRES, 152.318, 0.602, 152.920, 1, { { 1.982, 150.938 } } },
	{ METRES, 150.938, 1.044, 151.982, 1, { { 2.684, 149.298 } } },
	/* Differential levelling, one line (scribd.com 282803623): benchmark, backsight, instrument
	 * and foresight read, the last level derived. */
	{ FEET, 820.00, 8.42, 828.42, 1, { { 1.20, 827.22 } } },
	/* Three-wire example, elevations, chapter G: means of three wires. */
	{ FEET, 853.12, 2.457, 855.577, 1, { { 4.607, 850.970 } } },
};

/* The point's level is set as the surface's; the program must say the reading that was booked. */
START_TEST(the_staff_reading_is_the_one_in_the_book)
{
	const struct set_up *s = &set_ups[_i];
	struct worked w;

	for (size_t i = 0; i < s->count; i++) {
		const struct surface_result *r = &w.t.surface;

		worked_rectangle(&w, 2 * UM_PER_M, 2 * UM_PER_M);
		worked_set_fall(&w, llround(s->readings[i].level * s->unit_um), 0, 0);
		w.plan.ground.has_instrument = true;
		w.plan.ground.benchmark_um = llround(s->benchmark * s->unit_um);
		w.plan.ground.backsight_um = llround(s->backsight * s->unit_um);
		work_out_plan(&w);
		ck_assert(r->points[0].has_staff);
		ck_assert_double_eq_tol(
		        r->points[0].staff_um / s->unit_um, s->readings[i].staff, 1e-5);
		ck_assert_double_eq_tol(
		        (r->points[0].level_um + r->points[0].staff_um) / s->unit_um, s->instrument,
		        1e-5);
		worked_done(&w);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("levels");

	tcase_add_loop_test(tc, a_ratio_converts_to_mm_per_m_degrees_and_drop, 0,
	        (int)(sizeof conversions / sizeof *conversions));
	tcase_add_test(tc, degrees_agree_with_those_printed);
	tcase_add_test(tc, a_small_fall_is_not_printed_ten_times_too_small);
	tcase_add_loop_test(tc, two_falls_at_right_angles_make_one, 0,
	        (int)(sizeof resultants / sizeof *resultants));
	tcase_add_loop_test(tc, the_staff_reading_is_the_one_in_the_book, 0,
	        (int)(sizeof set_ups / sizeof *set_ups));
	return suite_run("published levels", tc);
}
