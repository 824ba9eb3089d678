/* Planters laid out on paper: courses, mitres, and what cannot be built. Lengths in mm in the
 * comments. */
#include "apart.h"
#include "one_planter.h"
#include "suite.h"

#include <math.h>
#include <string.h>

/* --- courses --- */

/* 2390 x 1590: 6 and 4 blocks of 400 with their joints. Every course goes round by 18. */
START_TEST(a_box_on_the_block_s_grid_needs_no_cut)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	one.planter.courses = 3;
	r = one_work_out();
	ck_assert_int_eq(r->blocks.whole, 3 * 14);
	ck_assert_int_eq(r->blocks.corner, 3 * 4);
	ck_assert_int_eq(r->blocks.cut + r->blocks.half, 0);
	ck_assert_int_eq(r->blocks.buy_whole, 3 * 18);
	ck_near(r->lap_um, 200);
	ck_near(r->inside_x_um, 2010);
	ck_near(r->inside_y_um, 1210);
	ck_assert_double_eq_tol(r->middle_m, 2 * (2.2 + 1.4), 1e-9);
	ck_assert_int_eq(r->height_um, 590 * MM);
}
END_TEST

START_TEST(a_box_drawn_clockwise_is_the_same_box)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 0, 1590, 2390, 1590, 2390, 0);
	one.planter.courses = 3;
	r = one_work_out();
	ck_assert_int_eq(r->blocks.buy_whole, 3 * 18);
	ck_near(r->inside_x_um, 2010);
	ck_assert_uint_eq(r->corners[1].point, 3);
}
END_TEST

/* 3990: 10 blocks; every other course begins and ends with a half. */
START_TEST(halves_are_bought_where_they_can_be)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 3990, 0);
	one.planter.courses = 4;
	one.planter.block.has_half = true;
	r = one_work_out();
	ck_assert_int_eq(r->blocks.half, 2 * 2);
	ck_assert_int_eq(r->blocks.buy_half, 2 * 2);
	ck_assert_int_eq(r->blocks.buy_whole, 2 * 10 + 2 * 9);
	one.planter.block.has_half = false;
	r = one_work_out();
	ck_assert_int_eq(r->blocks.half, 2 * 2);
	ck_assert_int_eq(r->blocks.buy_half, 0);
	ck_assert_int_eq(r->blocks.buy_whole, 2 * 10 + 2 * 9 + 2);
}
END_TEST

/* Laid dry, the blade's 3 mm come off both halves: 198.5 and 198.5 from 400. */
START_TEST(two_cut_halves_come_from_one_block_laid_dry)
{
	const struct planter_result *r;
	int64_t halves = 0;

	RUN_OF(0, 0, 3200, 0);
	one.planter.block.length_um = 400 * MM;
	one.planter.block.joint_um = 0;
	one.planter.courses = 2;
	r = one_work_out();
	ck_assert_int_eq(one.plan.laying.kerf_um, 3 * MM);
	for (size_t i = 0; i < r->courses[1].unit_count; i++)
		halves += r->courses[1].units[i].length_um == 198500;
	ck_assert_int_ge(halves + r->blocks.half, 1);
	ck_assert_int_eq(r->blocks.half, 1);
	ck_assert_int_eq(r->blocks.cut, 1); /* 201.5, which closes the course */
	ck_assert_int_eq(r->blocks.buy_whole, 8 + 7 + 2);
}
END_TEST

/* A corner block is bought for each whole unit on a corner or at an end, and for each cut one. */
START_TEST(corner_blocks_are_bought_for_corners_and_ends)
{
	const struct planter_result *r;
	int64_t finished = 0;

	RUN_OF(0, 0, 2390, 0, 2390, 1590);
	one.planter.courses = 2;
	one.planter.block.has_corner = one.planter.block.has_half = true;
	r = one_work_out();
	for (int k = 0; k < 2; k++)
		for (size_t i = 0; i < r->courses[k].unit_count; i++) {
			const struct planter_unit *u = &r->courses[k].units[i];

			finished += (u->corner || u->end) && !(u->piece == UNIT_HALF && !u->corner);
		}
	ck_assert_int_eq(r->blocks.buy_corner, finished);
	ck_assert_int_ge(r->blocks.buy_corner, 2);
	ck_assert_int_eq(r->blocks.whole + r->blocks.corner + r->blocks.cut,
	        r->blocks.buy_whole + r->blocks.buy_corner);
}
END_TEST

/* 2030 is five blocks and 30: no piece of 30 is laid, the rest is shared out. */
START_TEST(no_piece_is_shorter_than_a_quarter_where_it_can_be_helped)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 2030, 0);
	r = one_work_out();
	ck_assert_int_eq(r->blocks.too_short, 0);
	for (int k = 0; k < 2; k++)
		for (size_t i = 0; i < r->courses[k].unit_count; i++)
			ck_assert_int_ge(r->courses[k].units[i].length_um, 97500);
	ck_assert_double_ge(r->lap_um, 97500);
}
END_TEST

START_TEST(two_leaves_are_both_laid)
{
	const struct planter_result *r;
	int64_t leaf[2] = { 0, 0 };

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	one.planter.leaves = 2;
	one.planter.courses = 2;
	r = one_work_out();
	ck_near((double)r->width_um, 390);
	ck_near(r->inside_x_um, 2390 - 780);
	for (size_t i = 0; i < r->courses[0].unit_count; i++)
		leaf[r->courses[0].units[i].leaf] += r->courses[0].units[i].length_um;
	/* 14 + 4 blocks; the inner leaf goes round by 1590 less joint a corner: 2 (1990 + 1190)
	 * less four corner squares and their joints. */
	ck_assert_int_eq(leaf[0], 18 * 390 * MM);
	ck_assert_double_gt((double)leaf[1], 4700e3);
	/* Joint between the leaves: 10 wide, as long as the line 195 inside the outer face. */
	ck_assert_double_gt(r->mortar_m3, 0.01 * 2 * 0.2 * 2 * (2.0 + 1.2));
}
END_TEST

/* --- mitres --- */

/* Units and joints of an odd-angled run are the leaf, and no two units come closer than a joint. */
static void check_mitred(const struct planter_result *r)
{
	double w = (double)one.planter.block.width_um, joint = (double)one.planter.block.joint_um;

	for (int k = 0; k < 2; k++) {
		const struct planter_course *c = &r->courses[k];
		struct point a[4], b[4];
		double area = 0, line = 0;

		for (size_t i = 0; i < c->unit_count; i++) {
			planter_unit_ring(r, &c->units[i], a);
			area += ring_polygon_area(a, 4);
			for (size_t j = 0; j < i; j++) {
				planter_unit_ring(r, &c->units[j], b);
				ck_assert_double_ge(convex_gap(a, 4, b, 4), joint - 1.5);
			}
		}
		for (size_t i = 0; i < c->joint_count; i++) {
			double t = r->corners[r->legs[c->joints[i].leg].from].half_tan;

			area += joint * w * (c->joints[i].mitre ? sqrt(1 + t * t) : 1);
		}
		for (size_t i = 0; i < r->leg_count; i++)
			line += (double)r->legs[i].length_um;
		for (size_t i = 0; i < r->corner_count; i++)
			line -= r->corners[i].half_tan * w;
		ck_assert_double_eq_tol(area / (line * w), 1, 1e-5);
	}
}

static const struct {
	bool closed;
	size_t n;
	double mm[16];
} mitred[] = {
	{ false, 3, { 0, 0, 2000, 0, 3000, 1000 } },
	{ false, 3, { 0, 0, 2000, 0, 3000, -1000 } },
	{ false, 3, { 0, 0, 2500, 0, 1000, 1700 } },
	{ false, 4, { 0, 0, 2000, 300, 3500, 1500, 3300, 3000 } },
	{ true, 3, { 0, 0, 4000, 0, 2000, 3464 } },
	{ true, 6, { 0, 0, 1500, 0, 2250, 1299, 1500, 2598, 0, 2598, -750, 1299 } },
	{ true, 5, { 0, 0, 3000, 0, 3000, 2000, 1500, 1400, 0, 2000 } },
};

START_TEST(mitred_units_and_their_joints_fill_the_wall)
{
	const struct planter_result *r;

	one_run(mitred[_i].closed, mitred[_i].n, mitred[_i].mm);
	one.planter.block.width_um = 90 * MM;
	r = one_work_out();
	check_mitred(r);
}
END_TEST

START_TEST(a_mitre_is_tied_in_every_course)
{
	const struct planter_result *r;

	one_run(mitred[0].closed, mitred[0].n, mitred[0].mm);
	one.planter.block.width_um = 90 * MM;
	r = one_work_out();
	for (int k = 0; k < 2; k++) {
		int ties = 0;

		for (size_t i = 0; i < r->courses[k].tie_count; i++)
			ties += r->courses[k].ties[i].place == TIE_CORNER;
		ck_assert_int_eq(ties, 1);
	}
}
END_TEST

/* A corner on a straight line is none. */
START_TEST(a_corner_that_goes_straight_on_is_left_out)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 1000, 0, 3990, 0);
	r = one_work_out();
	ck_assert_uint_eq(r->leg_count, 1);
	ck_assert_uint_eq(r->corners[1].point, 2);
	ck_assert_int_eq(r->blocks.whole + r->blocks.half + r->blocks.cut, 10 + 11);
}
END_TEST

/* --- what cannot be built --- */

static void square_block(void)
{
	one.planter.block.length_um = one.planter.block.width_um;
}

static void too_much_soil(void)
{
	one.planter.fill_um = 391 * MM; /* two courses of 190 and a joint: 390 */
}

static void too_much_gravel(void)
{
	one.planter.gravel_um = one.planter.fill_um + 1;
}

static void three_leaves(void)
{
	one.planter.leaves = 3;
}

static void no_course(void)
{
	one.planter.courses = 0;
}

static void flat_block(void)
{
	one.planter.block.height_um = 1 * MM;
}

static void wide_joint(void)
{
	one.planter.block.joint_um = 98 * MM;
}

static void two_leaves(void)
{
	one.planter.leaves = 2;
}

static void tiny_block(void)
{
	one.planter.block.length_um = 100 * MM;
	one.planter.block.width_um = 50 * MM;
}

static void short_block(void)
{
	one.planter.block.length_um = 250 * MM;
}

static const struct {
	const char *said;
	bool closed;
	size_t n;
	double mm[14];
	void (*change)(void);
} refused[] = {
	{ "nothing is left of its inside", true, 4, { 0, 0, 3000, 0, 3000, 380, 0, 380 }, NULL },
	{ "nothing is left of its inside", true, 4, { 0, 0, 3000, 0, 3000, 700, 0, 700 },
	        two_leaves },
	{ "shorter than the wall is wide", false, 3, { 0, 0, 3000, 0, 3000, 189 }, NULL },
	{ "shorter than the wall is wide", false, 2, { 0, 0, 150, 0 }, NULL },
	{ "corner 2: the legs meet at 44.", false, 3, { 0, 0, 3000, 0, 1000, 1950 }, NULL },
	{ "corner 2: the legs meet at 0.0", false, 3, { 0, 0, 3000, 0, 1000, 0 }, NULL },
	{ "cross or touch", false, 5, { 0, 0, 3000, 0, 3000, 2000, 1500, 2000, 1500, -500 }, NULL },
	{ "cross or touch", true, 4, { 0, 0, 3000, 1500, 3000, 0, 0, 1500 }, NULL },
	{ "points: 1 of them; give from 2 to 64", false, 1, { 0, 0 }, NULL },
	{ "points: 2 of them; give from 3 to 64", true, 2, { 0, 0, 3000, 0 }, NULL },
	{ "points[2]: the same as the one before", false, 3, { 0, 0, 3000, 0, 3000, 0 }, NULL },
	{ "points[1].x: 1000001 mm is out of reach", false, 2, { 0, 0, 1000001, 0 }, NULL },
	{ "make it several planters", false, 4,
	        { 0, 0, 999999, 0, 999999, 999999, -999999, 999999, -999999, -999999 },
	        tiny_block },
	{ "cannot interlock", false, 3, { 0, 0, 3000, 0, 3000, 2000 }, square_block },
	{ "the mitre is too long", false, 3, { 0, 0, 3000, 0, 1200, 2000 }, short_block },
	{ "stand over the top of the wall", false, 2, { 0, 0, 3000, 0 }, too_much_soil },
	{ "less gravel", false, 2, { 0, 0, 3000, 0 }, too_much_gravel },
	{ "leaves: 3 is out of reach; give from 1 to 2", false, 2, { 0, 0, 3000, 0 },
	        three_leaves },
	{ "courses: 0 is out of reach", false, 2, { 0, 0, 3000, 0 }, no_course },
	{ "block.height: 1 mm is out of reach", false, 2, { 0, 0, 3000, 0 }, flat_block },
	{ "a quarter of the block", false, 2, { 0, 0, 3000, 0 }, wide_joint },
};

START_TEST(what_cannot_be_built_is_named)
{
	const struct planter_result *r;

	one_run(refused[_i].closed, refused[_i].n, refused[_i].mm);
	one.planter.name = "Herbs";
	if (refused[_i].change)
		refused[_i].change();
	r = one_result();
	ck_assert(!r->ready);
	ck_assert_msg(strstr(r->fault.text, refused[_i].said) != NULL, "%s", r->fault.text);
	ck_assert_msg(strncmp(r->fault.text, "planter 1 (Herbs): ", 19) == 0, "%s", r->fault.text);
	ck_assert_int_eq(r->fault.status, STATUS_PLAN);
}
END_TEST

START_TEST(too_many_corners_are_refused)
{
	one.planter.count = PLANTER_POINTS + 1;
	ck_assert_ptr_nonnull(strstr(one_result()->fault.text, "points: 65 of them"));
}
END_TEST

/* Legs that meet at 45 degrees are the sharpest. */
START_TEST(forty_five_degrees_can_be_built)
{
	RUN_OF(0, 0, 3000, 0, 1000, 2000);
	one.planter.block.width_um = 90 * MM;
	ck_assert(one_work_out()->ready);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planter");

	tcase_add_checked_fixture(tc, one_setup, one_teardown);
	tcase_add_test(tc, a_box_on_the_block_s_grid_needs_no_cut);
	tcase_add_test(tc, a_box_drawn_clockwise_is_the_same_box);
	tcase_add_test(tc, halves_are_bought_where_they_can_be);
	tcase_add_test(tc, two_cut_halves_come_from_one_block_laid_dry);
	tcase_add_test(tc, corner_blocks_are_bought_for_corners_and_ends);
	tcase_add_test(tc, no_piece_is_shorter_than_a_quarter_where_it_can_be_helped);
	tcase_add_test(tc, two_leaves_are_both_laid);
	tcase_add_loop_test(tc, mitred_units_and_their_joints_fill_the_wall, 0,
	        (int)(sizeof mitred / sizeof *mitred));
	tcase_add_test(tc, a_mitre_is_tied_in_every_course);
	tcase_add_test(tc, a_corner_that_goes_straight_on_is_left_out);
	tcase_add_loop_test(
	        tc, what_cannot_be_built_is_named, 0, (int)(sizeof refused / sizeof *refused));
	tcase_add_test(tc, too_many_corners_are_refused);
	tcase_add_test(tc, forty_five_degrees_can_be_built);
	return suite_run("planter", tc);
}
