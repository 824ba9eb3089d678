/* What goes with a planter, worked out on paper: ties, profile, holes, volumes, levels, and the
 * soil it holds. Lengths in mm in the comments. */
#include "one_planter.h"
#include "suite.h"

#include <math.h>
#include <string.h>

/* --- ties, cap, holes --- */

/* Wherever blocks allow it, no two ties of a course stand farther apart than asked. */
START_TEST(ties_stand_at_ends_corners_and_no_farther_apart_than_asked)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 5990, 0, 5990, 3190);
	one.planter.courses = 2;
	r = one_work_out();
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
	one.planter.tie_um = 0;
	ck_assert_int_eq(one_work_out()->tie_count, 0);
	one.planter.tie_um = 100 * MM; /* closer than blocks are long: every joint */
	r = one_work_out();
	ck_assert_uint_eq(r->courses[0].tie_count, r->courses[0].joint_count);
	ck_near(r->tie_um, 400);
}
END_TEST

/* Fixings at 1.8 m, common practice, no source: 3 m has one in the middle, 1.9 m none. */
START_TEST(a_cap_is_fixed_at_its_ends_and_every_eighteen_hundred)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 4900, 0);
	one.planter.cap_um = 3000 * MM;
	one.planter.cap_price_minor = 2500;
	r = one_work_out();
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
	r = one_work_out();
	ck_assert_uint_eq(r->cap.fixing_count, 3 + 3);
}
END_TEST

/* Around a re-entrant corner the inner edge is the longer: 190 more for each leg. */
START_TEST(a_cap_s_mitre_is_measured_on_its_longer_side)
{
	const struct planter_result *r;

	RUN_OF(0, 0, 2000, 0, 2000, -1500);
	one.planter.cap_um = 3000 * MM;
	r = one_work_out();
	ck_near((double)r->cap.pieces[0].length_um, 2190);
	ck_near((double)r->cap.pieces[1].length_um, 1690);
	ck_near(r->cap.pieces[1].from_um, -190);
	RUN_OF(0, 0, 2000, 0, 2000, 1500);
	r = one_work_out();
	ck_near((double)r->cap.pieces[0].length_um, 2000);
	ck_near((double)r->cap.pieces[1].length_um, 1500);
}
END_TEST

START_TEST(offcuts_of_the_cap_are_used)
{
	const struct planter_result *r;

	BOX_OF(0, 0, 2390, 0, 2390, 590, 0, 590);
	one.planter.cap_um = 3000 * MM;
	r = one_work_out();
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
	r = one_work_out();
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
	one.planter.liner = true;
	r = one_work_out();
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
	one.plan.surface.planes = &plane;
	one.plan.surface.count = 1;
	one.plan.ground.has_instrument = true;
	one.plan.ground.benchmark_um = 100 * MM;
	one.plan.ground.backsight_um = 1400 * MM;
	r = one_work_out();
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
	ck_assert_int_eq(planters_work_out(&one.mem, &one.plan, &rules, &one.out, NULL), STATUS_OK);
	ck_assert(one.out.items[0].heavy); /* 28.158 kg */
	lift.number = 28158;
	ck_assert_int_eq(planters_work_out(&one.mem, &one.plan, &rules, &one.out, NULL), STATUS_OK);
	ck_assert(!one.out.items[0].heavy);
}
END_TEST

/* --- the soil --- */

/* Two leaves act as one only where ties hold them together. */
START_TEST(untied_leaves_hold_by_themselves)
{
	double tied, untied;

	RUN_OF(0, 0, 3990, 0);
	one.planter.leaves = 2;
	tied = one_work_out()->wall.levels[1].forces.fs_overturning;
	ck_assert_double_eq_tol(one_work_out()->wall.levels[1].width_m, 0.39, 1e-9);
	one.planter.tie_um = 0;
	untied = one_work_out()->wall.levels[1].forces.fs_overturning;
	ck_assert_double_eq_tol(one_work_out()->wall.levels[1].width_m, 0.19, 1e-9);
	ck_assert_double_eq_tol(tied / untied, 0.39 / 0.19, 1e-9);
}
END_TEST

START_TEST(what_is_not_known_is_not_judged)
{
	const struct wall_result *w;

	RUN_OF(0, 0, 3990, 0);
	one.planter.block.density_kg_m3 = 0;
	w = &one_work_out()->wall;
	ck_assert_int_eq(w->verdict, WALL_UNKNOWN);
	ck_assert_ptr_nonnull(strstr(w->reason, "density"));
	one.planter.block.density_kg_m3 = 2000;
	one.planter.back_slope_udeg = 31 * UDEG_PER_DEG;
	w = &one_work_out()->wall;
	ck_assert_int_eq(w->verdict, WALL_UNKNOWN);
	ck_assert_ptr_nonnull(strstr(w->reason, "steeper than its angle of friction"));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planter parts");

	tcase_add_checked_fixture(tc, one_setup, one_teardown);
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
	return suite_run("planter parts", tc);
}
