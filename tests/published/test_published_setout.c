/* Squareness and tolerances of what was built: published values, each with its source. */
#include "slabwright/asbuilt.h"
#include "slabwright/setout.h"
#include "slabwright/store.h"

#include "plans.h"
#include "program.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct {
	int64_t a_mm, b_mm, leg_3_mm, leg_4_mm, long_5_mm;
} triples[] = {
	/* 3-4-5, 6-8-10 and 9-12-15: RMIT University, learning lab; smartcivilengineers.com.
	 * 24-32-40: noble.org, raised bed gardening. Legs just as long as the triple, in metres. */
	{ 3000, 4000, 3000, 4000, 5000 },
	{ 8000, 6000, 6000, 8000, 10000 },
	{ 9000, 12000, 9000, 12000, 15000 },
	{ 32000, 24000, 24000, 32000, 40000 },
	/* Constructed: the largest multiple of 100 mm that fits. */
	{ 3620, 6000, 3600, 4800, 6000 },
	{ 350, 5000, 300, 400, 500 },
};

START_TEST(the_largest_3_4_5_is_laid_on_the_legs)
{
	struct worked w;
	struct setout s;

	worked_rectangle(&w, triples[_i].a_mm * UM_PER_MM, triples[_i].b_mm * UM_PER_MM);
	ck_assert_int_eq(setout_work_out(&w.mem, &w.plan, &s, NULL), STATUS_OK);
	ck_assert_uint_eq(s.triple_count, 4);
	for (int i = 0; i < 4; i++) {
		ck_assert_int_eq(s.triples[i].leg_3_um, triples[_i].leg_3_mm * UM_PER_MM);
		ck_assert_int_eq(s.triples[i].leg_4_um, triples[_i].leg_4_mm * UM_PER_MM);
		ck_assert_int_eq(s.triples[i].long_5_um, triples[_i].long_5_mm * UM_PER_MM);
	}
	worked_done(&w);
}
END_TEST

static const struct {
	double a_mm, b_mm, diagonal_m;
} diagonals[] = {
	/* Constructed: arithmetic. */
	{ 4800, 3600, 6.000 },
	{ 5000, 4000, 6.403 },
	{ 6300, 4200, 7.572 },
	{ 3600, 2700, 4.500 },
};

START_TEST(both_diagonals_of_a_rectangle_are_told)
{
	struct worked w;
	struct setout s;

	worked_rectangle(
	        &w, llround(diagonals[_i].a_mm * 1000), llround(diagonals[_i].b_mm * 1000));
	ck_assert_int_eq(setout_work_out(&w.mem, &w.plan, &s, NULL), STATUS_OK);
	ck_assert_uint_eq(s.diagonal_count, 2);
	for (int i = 0; i < 2; i++)
		ck_assert_double_eq_tol(
		        s.diagonals[i].length_um / 1e6, diagonals[_i].diagonal_m, 0.0005);
	ck_assert_uint_eq(s.diagonals[0].to - s.diagonals[0].from, 2);
	ck_assert_uint_eq(s.diagonals[1].to - s.diagonals[1].from, 2);
	ck_assert_uint_ne(s.diagonals[0].from, s.diagonals[1].from);
	worked_done(&w);
}
END_TEST

/* smartcivilengineers.com: 40 and 30 ft on one tape, marks 0, 40, 70, closing at 120 (hypotenuse
 * 50); less than 120 is a corner under 90 degrees, more is over. The sizes are arithmetic. */
START_TEST(a_tape_that_closes_early_shows_a_corner_under_90_degrees)
{
	ck_assert_double_eq(corner_off_square_rad(40, 30, 120 - 70), 0);
	ck_assert_double_lt(corner_off_square_rad(40, 30, 119.9 - 70), 0);
	ck_assert_double_gt(corner_off_square_rad(40, 30, 120.1 - 70), 0);
	ck_assert_double_eq_tol(corner_off_square_rad(1, 1, 1) * 180 / acos(-1), -30, 1e-9);
	ck_assert_double_eq_tol(corner_off_square_rad(1, 1, 2) * 180 / acos(-1), 90, 1e-9);
	ck_assert_double_eq_tol(corner_off_square_rad(1, 1, 3) * 180 / acos(-1), 90, 1e-9);
}
END_TEST

/* Constructed: 4.8 x 3.6 m with diagonals of 6.005 and 5.995 m is 0.0995 degrees or 6.25 mm in 3.6
 * m out of square; and so it is by the angle between the sides of that parallelogram. */
START_TEST(diagonals_tell_how_far_out_of_square)
{
	double rad = out_of_square_rad(4.8, 3.6, 6.005, 5.995),
	       cosine = (6.005 * 6.005 - 5.995 * 5.995) / (4 * 4.8 * 3.6);

	ck_assert_double_eq_tol(rad * 180 / acos(-1), 0.0995, 0.00005);
	ck_assert_double_eq_tol(rad * 3600, 6.25, 0.01);
	ck_assert_double_eq_tol(rad, asin(cosine), 1e-6);
}
END_TEST

/* Equal diagonals prove a rectangle where opposite sides are equal (noble.org); a symmetric
 * trapezium has equal diagonals too and must not pass (constructed). */
START_TEST(equal_diagonals_alone_prove_nothing)
{
	const double square[4] = { 4.8, 3.6, 4.8, 3.6 }, both[2] = { 6.0, 6.0 },
	             skew[2] = { 6.005, 5.995 };
	double leg = hypot(0.4, 3.6), across = hypot(4.4, 3.6);
	const double trapezium[4] = { 4.8, leg, 4.0, leg }, equal[2] = { across, across };

	ck_assert_int_eq(squareness_of(square, both, 0.002), PROVEN_SQUARE);
	ck_assert_int_eq(squareness_of(square, skew, 0.002), DIAGONALS_DIFFER);
	ck_assert_int_eq(squareness_of(trapezium, equal, 0.002), SIDES_DIFFER);
}
END_TEST

/* --- tolerances --- */

static struct store *store;
static struct worked w;

static void setup(void)
{
	struct error err = { 0 };

	program_folder();
	ck_assert_msg(store_open(&store, program_path("rules.slabs"), STORE_MAY_CREATE,
	                      getenv("SLABWRIGHT_SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
	worked_rectangle(&w, 6 * UM_PER_M, 4 * UM_PER_M);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 0);
	ck_assert_int_eq(store_rules(store, "UK guidance", &w.mem, &w.rules, &err), STATUS_OK);
}

static void teardown(void)
{
	worked_done(&w);
	store_close(store);
	store = NULL;
	program_folder_remove();
}

static double level_0(const void *context, double x_um, double y_um)
{
	(void)context;
	(void)x_um;
	(void)y_um;
	return 0;
}

/* Three points along a line of that length, the middle one so much lower. */
static struct asbuilt checked(int64_t length_um, int64_t hollow_um)
{
	static struct plan_measured m[3];
	struct asbuilt a;

	for (int i = 0; i < 3; i++)
		m[i] = (struct plan_measured){ .name = "",
			.x_um = length_um / 2 * i,
			.has_level = true,
			.level_um = i == 1 ? -hollow_um : 0 };
	w.plan.site.measured = m;
	w.plan.site.measured_count = 3;
	ck_assert_int_eq(
	        asbuilt_check(&w.mem, &w.plan, &w.rules, level_0, NULL, &a, NULL), STATUS_OK);
	return a;
}

static bool fails_under(const struct asbuilt *a, double straightedge_um)
{
	for (size_t i = 0; i < a->gap_count; i++)
		if (a->straightedges[a->gaps[i].straightedge].length_um == straightedge_um &&
		        a->gaps[i].over_um > 0)
			return true;
	return false;
}

/* BS 7533 as an architects' specification gives it (clause 635; not seen in the standard): slabs
 * with no more than 3 mm under a 3 m straightedge. */
START_TEST(slabs_are_flat_to_3_mm_under_3_metres)
{
	struct asbuilt a = checked(3 * UM_PER_M, 3000);

	ck_assert_uint_eq(a.gap_count, 1);
	ck_assert(!fails_under(&a, 3e6));
	a = checked(3 * UM_PER_M, 3100);
	ck_assert(fails_under(&a, 3e6));
	ck_assert_double_eq_tol(a.gaps[0].over_um, 100, 1e-6);
	ck_assert_double_eq_tol(a.gaps[0].gap_um, -3100, 1e-6);
	a = checked(3 * UM_PER_M + 10, 50000); /* a longer line is under no straightedge */
	ck_assert_uint_eq(a.gap_count, 0);
}
END_TEST

/* NHBC Standards 9.1.11 (2018): 10 mm up or down under a 2 m straightedge. */
START_TEST(paths_are_flat_to_10_mm_under_2_metres)
{
	struct asbuilt a = checked(2 * UM_PER_M, 10000);

	ck_assert(!fails_under(&a, 2e6));
	a = checked(2 * UM_PER_M, -10000);
	ck_assert(!fails_under(&a, 2e6));
	a = checked(2 * UM_PER_M, 10100);
	ck_assert(fails_under(&a, 2e6));
	a = checked(2 * UM_PER_M, -10100);
	ck_assert(fails_under(&a, 2e6));
}
END_TEST

/* The same clause: an hour after rain no more than 5 mm of water and 1 m2 of it. */
START_TEST(puddles_are_5_mm_deep_and_a_square_metre_at_most)
{
	const struct rule *depth = rules_find(&w.rules, "puddle_depth"),
	                  *area = rules_find(&w.rules, "puddle_area");

	ck_assert_ptr_nonnull(strstr(depth->source, "9.1.11"));
	ck_assert(puddle_passes(5.0, 1.0, depth, area));
	ck_assert(!puddle_passes(5.1, 1.0, depth, area));
	ck_assert(!puddle_passes(5.0, 1.01, depth, area));
	ck_assert(puddle_passes(500, 100, NULL, NULL));
}
END_TEST

/* 6 mm up or down from the planned level: remembered as BS 7533-4's, so the program calls it common
 * practice. */
START_TEST(levels_are_6_mm_off_at_most)
{
	struct asbuilt a = checked(5 * UM_PER_M, 6000);

	ck_assert_str_eq(a.level_rule->source, "common practice (6 mm up or down for slabs)");
	ck_assert_uint_eq(a.level_fails, 0);
	a = checked(5 * UM_PER_M, 6001);
	ck_assert_uint_eq(a.level_fails, 1);
	ck_assert_double_eq_tol(a.points[1].level_over_um, 1, 1e-6);
	a = checked(5 * UM_PER_M, -6001);
	ck_assert_uint_eq(a.level_fails, 1);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("setout"), *rules = tcase_create("tolerances");
	int failed;

	tcase_add_loop_test(tc, the_largest_3_4_5_is_laid_on_the_legs, 0,
	        (int)(sizeof triples / sizeof *triples));
	tcase_add_loop_test(tc, both_diagonals_of_a_rectangle_are_told, 0,
	        (int)(sizeof diagonals / sizeof *diagonals));
	tcase_add_test(tc, a_tape_that_closes_early_shows_a_corner_under_90_degrees);
	tcase_add_test(tc, diagonals_tell_how_far_out_of_square);
	tcase_add_test(tc, equal_diagonals_alone_prove_nothing);
	failed = suite_run("published setting out", tc);
	tcase_add_checked_fixture(rules, setup, teardown);
	tcase_add_test(rules, slabs_are_flat_to_3_mm_under_3_metres);
	tcase_add_test(rules, paths_are_flat_to_10_mm_under_2_metres);
	tcase_add_test(rules, puddles_are_5_mm_deep_and_a_square_metre_at_most);
	tcase_add_test(rules, levels_are_6_mm_off_at_most);
	return suite_run("published tolerances", rules) || failed;
}
