/* Blocks of a wall, their mortar, mass and footing, against published values. */
#include "suite.h"

#include "slabwright/planter.h"

#define MM UM_PER_MM

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

/* --- blocks by the square foot, and mortar --- */

#define INCH 25400

static struct planter_result laid(struct plan_planter *p)
{
	static const struct rules none = { .name = "none" };
	struct plan *plan = arena_alloc(&mem, 1, sizeof *plan);
	struct planters_result out;

	plan_init(plan);
	plan->planters = p;
	plan->planter_count = 1;
	ck_assert_int_eq(planters_work_out(&mem, plan, &none, &out, NULL), STATUS_OK);
	ck_assert_msg(out.items[0].ready, "%s", out.items[0].fault.text);
	return out.items[0];
}

/* An 8 x 8 x 16 in block: 7 5/8 x 7 5/8 x 15 5/8 in with 3/8 in joints. */
static struct plan_planter of_concrete_blocks(struct plan_point *points, size_t count, bool closed)
{
	struct plan_planter p;

	planter_init(&p);
	p.points = points;
	p.count = count;
	p.closed = closed;
	p.block.joint_um = 3 * INCH / 8;
	p.block.length_um = 16 * INCH - p.block.joint_um;
	p.block.width_um = p.block.height_um = 8 * INCH - p.block.joint_um;
	p.block.has_half = p.block.has_corner = true;
	p.fill_um = p.gravel_um = 0;
	return p;
}

/* US Navy, Builder, NAVEDTRA 14045, chapter 4: 0.75 blocks a foot and course, 1.5 courses a foot. A
 * wall 100 ft by 10 ft: 75 x 15 = 1125. The run ends without its last joint. */
START_TEST(a_straight_wall_takes_the_handbook_s_blocks)
{
	struct plan_point run[] = { { 0, 0 }, { 1200 * INCH - 3 * INCH / 8, 0 } };
	struct plan_planter p = of_concrete_blocks(run, 2, false);
	struct planter_result r;

	p.courses = 15;
	r = laid(&p);
	ck_assert_int_eq(r.blocks.cut, 0);
	ck_assert_int_eq(2 * r.blocks.whole + r.blocks.half, 2 * 1125);
	ck_assert_int_eq(r.height_um, 120 * INCH - 3 * INCH / 8);
	ck_assert_double_eq_tol(r.lap_um, 8 * INCH, 1);
}
END_TEST

/* The same manual: a building of 20 by 8 ft, measured outside, 8 ft high: 56 ft x 0.75 = 42 a
 * course, 504 in 12 courses. Outside measure counts every corner's square twice; the blocks laid
 * are those less half a block for each of the four corners (derived). */
START_TEST(a_box_takes_the_handbook_s_blocks_less_its_corners)
{
	struct plan_point box[] = { { 0, 0 }, { 240 * INCH - 3 * INCH / 8, 0 },
		{ 240 * INCH - 3 * INCH / 8, 96 * INCH - 3 * INCH / 8 },
		{ 0, 96 * INCH - 3 * INCH / 8 } };
	struct plan_planter p = of_concrete_blocks(box, 4, true);
	struct planter_result r;

	p.courses = 12;
	r = laid(&p);
	ck_assert_int_eq(r.blocks.cut, 0);
	ck_assert_int_eq(r.blocks.half, 0);
	ck_assert_int_eq(r.blocks.whole + r.blocks.corner, 504 - 12 * 4 / 2);
	ck_assert_int_eq(r.blocks.corner, 12 * 4);
	ck_assert_int_eq(r.blocks.buy_corner, 12 * 4);
	ck_assert(r.half_bond);
}
END_TEST

/* The same manual: brick with a face of 2 3/4 by 8 1/2 in with its 1/2 in joint takes 11.7 ft3 of
 * mortar a thousand. That the brick is 3 3/4 in wide is from memory (old standard brick). */
START_TEST(brickwork_takes_the_handbook_s_mortar)
{
	struct plan_point run[] = { { 0, 0 }, { 850 * INCH - INCH / 2, 0 } };
	struct plan_planter p = of_concrete_blocks(run, 2, false);
	struct planter_result r;
	double bricks;

	p.block.joint_um = INCH / 2;
	p.block.length_um = 8 * INCH;
	p.block.width_um = 15 * INCH / 4;
	p.block.height_um = 9 * INCH / 4;
	p.courses = 20;
	r = laid(&p);
	bricks = (double)r.blocks.whole + (double)r.blocks.half / 2;
	ck_assert_double_eq_tol(r.mortar_m3 / 0.028316846592 / bricks * 1000, 11.7, 0.06);
	/* 23.38 in2 of face a brick: 6.16 a square foot. */
	ck_assert_double_eq_tol(bricks / (850.0 * 55 / 144), 6.16, 0.01);
}
END_TEST

/* 215 x 102.5 x 65 mm with 10 mm joints: 59.26 bricks a m2 of half-brick wall (geometry; 60 by
 * common practice). */
START_TEST(bricks_by_the_square_metre)
{
	struct plan_point run[] = { { 0, 0 }, { 9 * UM_PER_M - 10 * MM, 0 } };
	struct plan_planter p = of_concrete_blocks(run, 2, false);
	struct planter_result r;

	p.block.joint_um = 10 * MM;
	p.block.length_um = 215 * MM;
	p.block.width_um = 102500;
	p.block.height_um = 65 * MM;
	p.courses = 20;
	r = laid(&p);
	ck_assert_double_eq_tol(
	        ((double)r.blocks.whole + (double)r.blocks.half / 2) / (9 * 20 * 0.075), 59.26,
	        0.01);
}
END_TEST

/* Lean concrete by the dry-volume rule, factor 1.54 and 1440 kg/m3 (common Indian practice): 1:3:6
 * takes 221.8 kg/m3 of cement (derived). 10 m of 300 x 150 mm is 0.45 m3. */
START_TEST(the_footing_s_cement_follows_its_mix)
{
	struct plan_point run[] = { { 0, 0 }, { 10 * UM_PER_M, 0 } };
	struct plan_planter p = of_concrete_blocks(run, 2, false);
	struct planter_result r;

	p.footing_width_um = p.block.width_um; /* flush: it ends with the wall */
	p.footing_depth_um = 150 * MM;
	p.cement_kg_m3 = llround(1.54 / 10 * 1440);
	r = laid(&p);
	ck_assert_double_eq_tol(r.footing_m3, 10 * 0.193675 * 0.15, 1e-9);
	ck_assert_double_eq_tol(r.cement_kg, r.footing_m3 * 221.8, 0.1);
}
END_TEST

/* Concrete of natural aggregate 2307 kg/m3 (a builder's weights sheet); the mass is geometry. */
START_TEST(a_block_weighs_its_volume)
{
	struct plan_point run[] = { { 0, 0 }, { 4 * UM_PER_M, 0 } };
	struct plan_planter p = of_concrete_blocks(run, 2, false);
	struct planter_result r;

	p.block.joint_um = 0;
	p.courses = 1;
	p.block.length_um = 440 * MM;
	p.block.width_um = 100 * MM;
	p.block.height_um = 215 * MM;
	p.block.density_kg_m3 = 2307;
	r = laid(&p);
	ck_assert_double_eq_tol(r.block_kg, 0.44 * 0.1 * 0.215 * 2307, 1e-9);
	ck_assert_double_eq_tol(r.wall_kg, 2307 * 0.1 * 0.215 * 4, 1e-6);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("published blocks");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, a_straight_wall_takes_the_handbook_s_blocks);
	tcase_add_test(tc, a_box_takes_the_handbook_s_blocks_less_its_corners);
	tcase_add_test(tc, brickwork_takes_the_handbook_s_mortar);
	tcase_add_test(tc, bricks_by_the_square_metre);
	tcase_add_test(tc, the_footing_s_cement_follows_its_mix);
	tcase_add_test(tc, a_block_weighs_its_volume);
	return suite_run("published blocks", tc);
}
