/* Planters whose answers can be worked out on paper. Lengths in mm in the comments. */
#include "apart.h"
#include "json_read.h"
#include "plans.h"
#include "suite.h"

#include "slabwright/planter.h"
#include "slabwright/sheet.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct arena mem;
static struct plan plan;
static struct plan_point points[PLANTER_POINTS + 1];
static struct plan_planter planter;
static struct planters_result out;

static void setup(void)
{
	plan_init(&plan);
	planter_init(&planter);
	planter.points = points;
	planter.block = (struct plan_block){ .name = "",
		.length_um = 390 * MM,
		.width_um = 190 * MM,
		.height_um = 190 * MM,
		.joint_um = 10 * MM,
		.density_kg_m3 = 2000,
		.price_minor = -1 };
	plan.planters = &planter;
	plan.planter_count = 1;
}

static void teardown(void)
{
	arena_free(&mem);
}

static void run(bool closed, size_t n, const double *mm)
{
	planter.closed = closed;
	planter.count = n;
	for (size_t i = 0; i < n; i++)
		points[i] = (struct plan_point){ llround(mm[2 * i] * 1000),
			llround(mm[2 * i + 1] * 1000) };
}

#define RUN_OF(...)                                                                                \
	run(false, sizeof((double[]){ __VA_ARGS__ }) / sizeof(double) / 2,                         \
	        (double[]){ __VA_ARGS__ })
#define BOX_OF(...)                                                                                \
	run(true, sizeof((double[]){ __VA_ARGS__ }) / sizeof(double) / 2, (double[]){ __VA_ARGS__ })

static const struct planter_result *any_result(void)
{
	static const struct rules none = { .name = "none" };

	ck_assert_int_eq(planters_work_out(&mem, &plan, &none, &out, NULL), STATUS_OK);
	return &out.items[0];
}

static const struct planter_result *work_out(void)
{
	const struct planter_result *r = any_result();

	ck_assert_msg(r->ready, "%s", r->fault.text);
	return r;
}

static void ck_near(double got_um, double mm)
{
	ck_assert_double_eq_tol(got_um, mm * 1000, 0.6);
}

/* --- courses --- */

/* 2390 x 1590: 6 and 4 blocks of 400 with their joints. Every course goes round by 18. */
START_TEST(a_box_on_the_block_s_grid_needs_no_cut)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	planter.courses = 3;
	r = work_out();
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
	planter.courses = 3;
	r = work_out();
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
	planter.courses = 4;
	planter.block.has_half = true;
	r = work_out();
	ck_assert_int_eq(r->blocks.half, 2 * 2);
	ck_assert_int_eq(r->blocks.buy_half, 2 * 2);
	ck_assert_int_eq(r->blocks.buy_whole, 2 * 10 + 2 * 9);
	planter.block.has_half = false;
	r = work_out();
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
	planter.block.length_um = 400 * MM;
	planter.block.joint_um = 0;
	planter.courses = 2;
	r = work_out();
	ck_assert_int_eq(plan.laying.kerf_um, 3 * MM);
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
	planter.courses = 2;
	planter.block.has_corner = planter.block.has_half = true;
	r = work_out();
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
	r = work_out();
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
	planter.leaves = 2;
	planter.courses = 2;
	r = work_out();
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
	double w = (double)planter.block.width_um, joint = (double)planter.block.joint_um;

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

	run(mitred[_i].closed, mitred[_i].n, mitred[_i].mm);
	planter.block.width_um = 90 * MM;
	r = work_out();
	check_mitred(r);
}
END_TEST

START_TEST(a_mitre_is_tied_in_every_course)
{
	const struct planter_result *r;

	run(mitred[0].closed, mitred[0].n, mitred[0].mm);
	planter.block.width_um = 90 * MM;
	r = work_out();
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
	r = work_out();
	ck_assert_uint_eq(r->leg_count, 1);
	ck_assert_uint_eq(r->corners[1].point, 2);
	ck_assert_int_eq(r->blocks.whole + r->blocks.half + r->blocks.cut, 10 + 11);
}
END_TEST

/* --- what cannot be built --- */

static void square_block(void)
{
	planter.block.length_um = planter.block.width_um;
}

static void too_much_soil(void)
{
	planter.fill_um = 391 * MM; /* two courses of 190 and a joint: 390 */
}

static void too_much_gravel(void)
{
	planter.gravel_um = planter.fill_um + 1;
}

static void three_leaves(void)
{
	planter.leaves = 3;
}

static void no_course(void)
{
	planter.courses = 0;
}

static void flat_block(void)
{
	planter.block.height_um = 1 * MM;
}

static void wide_joint(void)
{
	planter.block.joint_um = 98 * MM;
}

static void two_leaves(void)
{
	planter.leaves = 2;
}

static void short_block(void)
{
	planter.block.length_um = 250 * MM;
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
	{ "two points or more", false, 1, { 0, 0 }, NULL },
	{ "three corners or more", true, 2, { 0, 0, 3000, 0 }, NULL },
	{ "lies on the corner before", false, 3, { 0, 0, 3000, 0, 3000, 0 }, NULL },
	{ "more than 1 km", false, 2, { 0, 0, 1000001, 0 }, NULL },
	{ "cannot interlock", false, 3, { 0, 0, 3000, 0, 3000, 2000 }, square_block },
	{ "the mitre is too long", false, 3, { 0, 0, 3000, 0, 1200, 2000 }, short_block },
	{ "stand over the top of the wall", false, 2, { 0, 0, 3000, 0 }, too_much_soil },
	{ "less gravel", false, 2, { 0, 0, 3000, 0 }, too_much_gravel },
	{ "the leaves is 3; it goes from 1 to 2", false, 2, { 0, 0, 3000, 0 }, three_leaves },
	{ "the courses is 0", false, 2, { 0, 0, 3000, 0 }, no_course },
	{ "the block's height is 1 mm", false, 2, { 0, 0, 3000, 0 }, flat_block },
	{ "a quarter of the block", false, 2, { 0, 0, 3000, 0 }, wide_joint },
};

START_TEST(what_cannot_be_built_is_named)
{
	const struct planter_result *r;

	run(refused[_i].closed, refused[_i].n, refused[_i].mm);
	planter.name = "Herbs";
	if (refused[_i].change)
		refused[_i].change();
	r = any_result();
	ck_assert(!r->ready);
	ck_assert_msg(strstr(r->fault.text, refused[_i].said) != NULL, "%s", r->fault.text);
	ck_assert_msg(strncmp(r->fault.text, "planter 1 (Herbs): ", 19) == 0, "%s", r->fault.text);
	ck_assert_int_eq(r->fault.status, STATUS_PLAN);
}
END_TEST

START_TEST(too_many_corners_are_refused)
{
	planter.count = PLANTER_POINTS + 1;
	ck_assert_ptr_nonnull(strstr(any_result()->fault.text, "65 corners are too many"));
}
END_TEST

/* Legs that meet at 45 degrees are the sharpest. */
START_TEST(forty_five_degrees_can_be_built)
{
	RUN_OF(0, 0, 3000, 0, 1000, 2000);
	planter.block.width_um = 90 * MM;
	ck_assert(work_out()->ready);
}
END_TEST

/* --- ties, cap, holes --- */

/* Wherever blocks allow it, no two ties of a course stand farther apart than asked. */
START_TEST(ties_stand_at_ends_corners_and_no_farther_apart_than_asked)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 5990, 0, 5990, 3190);
	planter.courses = 2;
	r = work_out();
	ck_assert_double_le(r->tie_um, 900e3);
	for (int k = 0; k < 2; k++) {
		const struct planter_course *c = &r->courses[k];
		int at[3] = { 0, 0, 0 };

		for (size_t i = 0; i < c->tie_count; i++) {
			bool on_joint = false;

			at[c->ties[i].place]++;
			for (size_t j = 0; j < c->joint_count; j++)
				on_joint =
				        on_joint || (c->joints[j].leg == c->ties[i].leg &&
				                            c->joints[j].u_um == c->ties[i].u_um);
			ck_assert(on_joint);
		}
		ck_assert_int_eq(at[TIE_END], 2);
		ck_assert_int_eq(at[TIE_CORNER], 1);
		ck_assert_int_ge(at[TIE_BETWEEN], 5 + 2);
	}
	planter.tie_um = 0;
	ck_assert_int_eq(work_out()->tie_count, 0);
	planter.tie_um = 100 * MM; /* closer than blocks are long: every joint */
	r = work_out();
	ck_assert_uint_eq(r->courses[0].tie_count, r->courses[0].joint_count);
	ck_near(r->tie_um, 400);
}
END_TEST

/* Fixings at 1.8 m, common practice, no source: 3 m has one in the middle, 1.9 m none. */
START_TEST(a_cap_is_fixed_at_its_ends_and_every_eighteen_hundred)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 4900, 0);
	planter.cap_um = 3000 * MM;
	planter.cap_price_minor = 2500;
	r = work_out();
	ck_assert_uint_eq(r->cap.piece_count, 2);
	ck_assert_int_eq(r->cap.whole, 1);
	ck_near((double)r->cap.pieces[1].length_um, 1900);
	ck_assert_uint_eq(r->cap.joints, 1);
	ck_assert_uint_eq(r->cap.fixing_count, 3 + 2);
	ck_near(r->cap.fixings[0].u_um, 50);
	ck_near(r->cap.fixings[1].u_um, 1500);
	ck_near(r->cap.fixings[2].u_um, 2950);
	ck_near(r->cap.fixings[3].u_um, 3050);
	ck_near(r->cap.fixings[4].u_um, 4850);
	ck_near(r->cap.spacing_um, 1800);
	ck_assert_int_eq(r->cap.units, 2);
	ck_assert_int_eq(r->cap.price_minor, 5000);
	RUN_OF(0, 0, 4901, 0);
	r = work_out();
	ck_assert_uint_eq(r->cap.fixing_count, 3 + 3);
}
END_TEST

/* Around a re-entrant corner the inner edge is the longer: 190 more for each leg. */
START_TEST(a_cap_s_mitre_is_measured_on_its_longer_side)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 2000, 0, 2000, -1500);
	planter.cap_um = 3000 * MM;
	r = work_out();
	ck_near((double)r->cap.pieces[0].length_um, 2190);
	ck_near((double)r->cap.pieces[1].length_um, 1690);
	ck_near(r->cap.pieces[1].from_um, -190);
	RUN_OF(0, 0, 2000, 0, 2000, 1500);
	r = work_out();
	ck_near((double)r->cap.pieces[0].length_um, 2000);
	ck_near((double)r->cap.pieces[1].length_um, 1500);
}
END_TEST

START_TEST(offcuts_of_the_cap_are_used)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 590, 0, 590);
	planter.cap_um = 3000 * MM;
	r = work_out();
	/* 2390 + 590 + 3 (kerf) fit 3000, twice. */
	ck_assert_int_eq(r->cap.units, 2);
	ck_assert_int_eq(r->cap.bound, 2);
}
END_TEST

/* Inside 2010 and 1210, holes at 1 m at most: 3 and 2 a leg, half a step from the corners. */
START_TEST(holes_are_spread_along_the_inner_face)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	r = work_out();
	ck_assert_uint_eq(r->fill.weep_count, 10);
	ck_near(r->fill.weeps[0].u_um, 190 + 335);
	ck_near(r->fill.weeps[1].u_um, 190 + 1005);
	ck_near(r->fill.weeps[3].u_um, 190 + 302.5);
}
END_TEST

/* --- volumes, levels, masses --- */

START_TEST(volumes_of_a_box)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	planter.liner = true;
	r = work_out();
	ck_assert_double_eq_tol(r->fill.inside_m2, 2.01 * 1.21, 1e-9);
	ck_assert_double_eq_tol(r->fill.gravel_m3, 2.01 * 1.21 * 0.05, 1e-9);
	ck_assert_double_eq_tol(r->fill.soil_m3, 2.01 * 1.21 * 0.30, 1e-9);
	ck_assert_double_eq_tol(r->fill.soil_loose_m3, 2.01 * 1.21 * 0.30 * 1.25, 1e-9);
	ck_assert_double_eq_tol(r->fill.liner_m2, 2 * (2.01 + 1.21) * 0.35 * 1.1, 1e-9);
	ck_assert_double_eq_tol(r->footing_m3, 7.2 * 0.3 * 0.15, 1e-9);
	ck_assert_double_eq_tol(r->cement_kg, 7.2 * 0.3 * 0.15 * 200, 1e-6);
	/* All of the wall but 36 blocks, and the first course's bed. */
	ck_assert_double_eq_tol(r->mortar_m3, 7.2 * 0.19 * 0.40 - 36 * 0.39 * 0.19 * 0.19, 1e-9);
	ck_assert_double_eq_tol(r->block_kg, 0.39 * 0.19 * 0.19 * 2000, 1e-9);
	ck_assert_double_eq_tol(r->wall_kg, 36 * r->block_kg, 1e-6);
	ck_assert_double_eq_tol(r->wall_kg_m, r->wall_kg / 7.2, 1e-6);
}
END_TEST

/* Top at 390; the terrace lies at 250 at x = 0 and falls 50 mm a metre to the right. */
START_TEST(the_planter_is_level_and_the_terrace_falls)
{
	struct plan_plane plane = { 0, 0, 250 * MM, 0, 50 * MM };
	const struct planter_result *r;

	BOX_OF(0, 0, 2000, 0, 2000, 1200, 0, 1200);
	plan.surface.planes = &plane;
	plan.surface.count = 1;
	plan.ground.has_instrument = true;
	plan.ground.benchmark_um = 100 * MM;
	plan.ground.backsight_um = 1400 * MM;
	r = work_out();
	ck_near((double)r->top_um, 390);
	ck_near(r->corners[0].reveal_um, 140);
	ck_near(r->corners[1].reveal_um, 240);
	ck_near(r->corners[1].surface_um, 150);
	ck_near(r->least_reveal_um, 140);
	ck_near(r->most_reveal_um, 240);
	ck_assert_int_eq(r->corners[0].courses_under, 1); /* its top is at 190 */
	ck_assert_int_eq(r->corners[1].courses_under, 0);
	ck_assert_int_eq(r->courses_under, 0);
	ck_assert_int_eq(r->courses_partly, 2); /* the second begins at 200 */
	ck_near(r->corners[0].staff_um, 1500 - 390);
	/* Soil up to 350 stands 200 over the terrace at its lowest. */
	ck_assert_double_eq_tol(r->wall.fill_m, 0.2, 1e-6);
}
END_TEST

START_TEST(heavy_blocks_are_told_of)
{
	struct rule lift = { "lift_one_person", 28157, "kg", "a test's own" };
	struct rules rules = { .name = "own", .items = &lift, .count = 1 };

	RUN_OF(0, 0, 3990, 0);
	ck_assert_int_eq(planters_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert(out.items[0].heavy); /* 28.158 kg */
	lift.number = 28158;
	ck_assert_int_eq(planters_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert(!out.items[0].heavy);
}
END_TEST

/* --- the soil --- */

/* Two leaves act as one only where ties hold them together. */
START_TEST(untied_leaves_hold_by_themselves)
{
	double tied, untied;

	RUN_OF(0, 0, 3990, 0);
	planter.leaves = 2;
	tied = work_out()->wall.levels[1].forces.fs_overturning;
	ck_assert_double_eq_tol(work_out()->wall.levels[1].width_m, 0.39, 1e-9);
	planter.tie_um = 0;
	untied = work_out()->wall.levels[1].forces.fs_overturning;
	ck_assert_double_eq_tol(work_out()->wall.levels[1].width_m, 0.19, 1e-9);
	ck_assert_double_eq_tol(tied / untied, 0.39 / 0.19, 1e-9);
}
END_TEST

START_TEST(what_is_not_known_is_not_judged)
{
	const struct wall_result *w;

	RUN_OF(0, 0, 3990, 0);
	planter.block.density_kg_m3 = 0;
	w = &work_out()->wall;
	ck_assert_int_eq(w->verdict, WALL_UNKNOWN);
	ck_assert_ptr_nonnull(strstr(w->reason, "density"));
	planter.block.density_kg_m3 = 2000;
	planter.back_slope_udeg = 31 * UDEG_PER_DEG;
	w = &work_out()->wall;
	ck_assert_int_eq(w->verdict, WALL_UNKNOWN);
	ck_assert_ptr_nonnull(strstr(w->reason, "steeper than its angle of friction"));
}
END_TEST

/* --- take-off and sheets --- */

static void write_sheet(const struct takeoff *t, enum sheet_form form, char **text)
{
	size_t size;
	FILE *to = open_memstream(text, &size);

	ck_assert_int_eq(sheet_planters(to, t, form, NULL), STATUS_OK);
	fclose(to);
}

static struct takeoff two_planters(void)
{
	static const struct rules none = { .name = "none" };
	static struct plan_planter both[2];
	static struct plan_point thin[] = { { 0, 0 }, { 3000000, 0 }, { 3000000, 300000 },
		{ 0, 300000 } };
	struct takeoff t;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	planter.name = "Herbs";
	planter.cap_um = 2500 * MM;
	both[0] = both[1] = planter;
	both[1].name = "";
	both[1].points = thin;
	plan.planters = both;
	plan.planter_count = 2;
	ck_assert_int_eq(takeoff_plan(&mem, &plan, &none, &t, NULL), STATUS_OK);
	return t;
}

/* There is no outline, and the second planter is too thin. */
START_TEST(a_planter_breaks_nothing_and_needs_no_outline)
{
	struct takeoff t = two_planters();

	ck_assert(!t.ready);
	ck_assert_ptr_null(strstr(t.fault.text, "planter"));
	ck_assert_uint_eq(t.planters.count, 2);
	ck_assert(t.planters.items[0].ready);
	ck_assert(!t.planters.items[1].ready);
}
END_TEST

START_TEST(the_text_draws_and_lists_and_warns)
{
	struct takeoff t = two_planters();
	char *text;

	write_sheet(&t, SHEET_TEXT, &text);
	ck_assert_ptr_nonnull(strstr(text, "Planter 1: Herbs\n"));
	ck_assert_ptr_nonnull(strstr(text, "  laid: 28 whole, 8 corner, 0 half, 0 cut\n"));
	ck_assert_ptr_nonnull(
	        strstr(text, "Leg 1, corner 1 to corner 2, 2390 mm outside\n    2 |"));
	ck_assert_ptr_nonnull(strstr(text, "no\n    design."));
	ck_assert_ptr_nonnull(strstr(text, "Planter 2\n  It cannot be built: planter 2: the leg"));
	free(text);
}
END_TEST

/* Inside the box of 2390, course 1 goes on at one end and stops at the other. */
START_TEST(json_holds_every_unit)
{
	struct takeoff t = two_planters();
	char *text, *fault;

	write_sheet(&t, SHEET_JSON, &text);
	ck_assert(json_is_valid(text));
	ck_assert_int_eq(json_length(text, "$.planters"), 2);
	ck_assert_int_eq(json_length(text, "$.planters[0].patterns[0].units"), 18);
	ck_assert_int_eq(json_length(text, "$.planters[0].patterns[1].units[17].ring"), 4);
	ck_assert_double_eq(json_number(text, "$.planters[0].blocks.buy_whole"), 36);
	ck_assert_double_eq(json_number(text, "$.planters[0].least_lap"), 200);
	ck_assert_double_eq(json_number(text, "$.planters[0].cap.units"), 4);
	fault = json_string(text, "$.planters[0].held_soil.caution");
	ck_assert_str_eq(fault, WALL_CAUTION);
	free(fault);
	fault = json_string(text, "$.planters[1].fault");
	ck_assert_ptr_nonnull(strstr(fault, "planter 2: the leg"));
	free(fault);
	free(text);
}
END_TEST

static int count_of(const char *text, const char *what)
{
	int n = 0;

	for (const char *at = text; (at = strstr(at, what)); at++)
		n++;
	return n;
}

START_TEST(csv_has_a_row_for_every_unit)
{
	struct takeoff t = two_planters();
	char *text;

	write_sheet(&t, SHEET_CSV, &text);
	ck_assert_int_eq(count_of(text, "\r\n1,unit,"), 36);
	ck_assert_int_eq(
	        count_of(text, "\r\n1,tie,"), (int)(t.planters.items[0].courses[0].tie_count +
	                                              t.planters.items[0].courses[1].tie_count));
	ck_assert_int_eq(count_of(text, "\r\n1,caution,"), 1);
	ck_assert_int_eq(count_of(text, "\r\n2,fault,"), 1);
	free(text);
}
END_TEST

static void add_caution(void *all, const char *text)
{
	strncat(all, text, 3999 - strlen(all));
	strncat(all, "\n", 3999 - strlen(all));
}

START_TEST(cautions_tell_of_the_wall)
{
	struct takeoff t = two_planters();
	char all[4000] = "";

	sheet_cautions(&t, add_caution, all);
	ck_assert_ptr_nonnull(strstr(all, "planter 1 (Herbs)"));
	ck_assert_ptr_nonnull(strstr(all, WALL_CAUTION));
}
END_TEST

#define LOOP(tc, test, cases) tcase_add_loop_test(tc, test, 0, (int)(sizeof cases / sizeof *cases))

int main(void)
{
	TCase *tc = tcase_create("planter");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, a_box_on_the_block_s_grid_needs_no_cut);
	tcase_add_test(tc, a_box_drawn_clockwise_is_the_same_box);
	tcase_add_test(tc, halves_are_bought_where_they_can_be);
	tcase_add_test(tc, two_cut_halves_come_from_one_block_laid_dry);
	tcase_add_test(tc, corner_blocks_are_bought_for_corners_and_ends);
	tcase_add_test(tc, no_piece_is_shorter_than_a_quarter_where_it_can_be_helped);
	tcase_add_test(tc, two_leaves_are_both_laid);
	LOOP(tc, mitred_units_and_their_joints_fill_the_wall, mitred);
	tcase_add_test(tc, a_mitre_is_tied_in_every_course);
	tcase_add_test(tc, a_corner_that_goes_straight_on_is_left_out);
	LOOP(tc, what_cannot_be_built_is_named, refused);
	tcase_add_test(tc, too_many_corners_are_refused);
	tcase_add_test(tc, forty_five_degrees_can_be_built);
	tcase_add_test(tc, ties_stand_at_ends_corners_and_no_farther_apart_than_asked);
	tcase_add_test(tc, a_cap_is_fixed_at_its_ends_and_every_eighteen_hundred);
	tcase_add_test(tc, a_cap_s_mitre_is_measured_on_its_longer_side);
	tcase_add_test(tc, offcuts_of_the_cap_are_used);
	tcase_add_test(tc, holes_are_spread_along_the_inner_face);
	tcase_add_test(tc, volumes_of_a_box);
	tcase_add_test(tc, the_planter_is_level_and_the_terrace_falls);
	tcase_add_test(tc, heavy_blocks_are_told_of);
	tcase_add_test(tc, untied_leaves_hold_by_themselves);
	tcase_add_test(tc, what_is_not_known_is_not_judged);
	tcase_add_test(tc, a_planter_breaks_nothing_and_needs_no_outline);
	tcase_add_test(tc, the_text_draws_and_lists_and_warns);
	tcase_add_test(tc, json_holds_every_unit);
	tcase_add_test(tc, csv_has_a_row_for_every_unit);
	tcase_add_test(tc, cautions_tell_of_the_wall);
	return suite_run("planter", tc);
}
