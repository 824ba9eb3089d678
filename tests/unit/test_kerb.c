/* How the edging stands: sections, volumes and levels that can be worked out on paper; corner
 * pieces and butted corners. */
#include "plans.h"
#include "suite.h"

#include "slabwright/kerb.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct arena mem;
static struct plan plan;
static struct plan_edging *kerb;
static struct edging_result edging;
static const struct rules none = { .name = "none" };

static void teardown(void)
{
	arena_free(&mem);
}

/* A kerb 1000 x 60 x 250 on a strip of 100, haunched outside by 100 x 100. */
static void make_kerbs(size_t n, const double *mm)
{
	plan = plan_by_hand(&mem, n, mm);
	for (size_t i = 0; i < n; i++)
		plan.rings[0].nodes[i].kind = EDGE_KERB;
	kerb = &plan.edging[EDGE_KERB];
	*kerb = (struct plan_edging){ .name = "kerb",
		.unit_um = 1000 * MM,
		.joint_um = 3 * MM,
		.depth_um = 60 * MM,
		.height_um = 250 * MM,
		.top_um = -20 * MM,
		.bed = MIX_LEAN_CONCRETE,
		.cement_kg_m3 = 200,
		.strip_um = 100 * MM,
		.strip_beyond_um = 120 * MM,
		.haunch_um = 100 * MM,
		.held_um = 100 * MM,
		.density_kg_m3 = 2400,
		.price_minor = -1 };
}

static const double FOUR_SIDES[] = { 0, 0, 4000, 0, 4000, 4000, 0, 4000 };

static struct kerb_line work_out(void)
{
	struct kerb_result out;

	ck_assert_int_eq(edging_work_out(&mem, &plan, 3 * MM, &edging, NULL), STATUS_OK);
	ck_assert_int_eq(kerb_work_out(&mem, &plan, &none, &edging, &out, NULL), STATUS_OK);
	for (size_t i = 0; i < out.count; i++)
		if (out.lines[i].kind == EDGE_KERB)
			return out.lines[i];
	ck_abort_msg("no kerb");
}

static struct kerb_line good(void)
{
	struct kerb_line k = work_out();

	ck_assert_msg(!k.fault, "%s", k.fault);
	return k;
}

static struct edging_line units(void)
{
	work_out();
	for (size_t i = 0; i < edging.count; i++)
		if (edging.lines[i].kind == EDGE_KERB)
			return edging.lines[i];
	ck_abort_msg("no kerb");
}

static bool noted(const struct kerb_line *k, const char *words)
{
	for (size_t i = 0; i < k->note_count; i++)
		if (strstr(k->notes[i], words))
			return true;
	return false;
}

/* --- section --- */

START_TEST(the_section_adds_up)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	k = good();
	ck_assert_double_eq_tol(k.section.unit_m2, 0.06 * 0.25, 1e-12);
	ck_assert_int_eq(k.section.strip_width_um, 180 * MM);
	ck_assert_double_eq_tol(k.section.strip_m2, 0.18 * 0.1, 1e-12);
	ck_assert_double_eq_tol(k.section.haunch_m2, 0.1 * 0.1 / 2, 1e-12);
	ck_assert_int_eq(k.section.top_um, -20 * MM);
	ck_assert_int_eq(k.section.underside_um, -270 * MM);
	ck_assert_int_eq(k.section.trench_um, -370 * MM);
	ck_assert_double_eq_tol(k.unit_kg, 0.06 * 0.25 * 2400, 1e-9);
	ck_assert_int_eq(k.cover_um, 1003 * MM);
	/* Both sides. */
	kerb->haunch_both = true;
	k = good();
	ck_assert_int_eq(k.section.strip_width_um, 300 * MM);
	ck_assert_double_eq_tol(k.section.haunch_m2, 0.01, 1e-12);
	/* Without a haunch the strip is as wide as the foot. */
	kerb->haunch_um = 0;
	k = good();
	ck_assert_int_eq(k.section.strip_width_um, 60 * MM);
	ck_assert(noted(&k, "No haunch holds it"));
}
END_TEST

/* 60 at the top, 100 at the foot: (60 + 100) / 2 x 250. */
START_TEST(a_tapered_unit_is_a_trapezoid)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	kerb->profile = PROFILE_TAPERED;
	kerb->foot_um = 100 * MM;
	k = good();
	ck_assert_double_eq_tol(k.section.unit_m2, 0.02, 1e-12);
	ck_assert_double_eq_tol(k.unit_kg, 48, 1e-9);
	ck_assert_int_eq(k.section.strip_width_um, 220 * MM);
	ck_assert_double_eq_tol(k.section.haunch_m2, 0.005, 1e-12);
	kerb->foot_um = 59 * MM;
	k = work_out();
	ck_assert_ptr_nonnull(strstr(k.fault, "wider at its foot"));
}
END_TEST

/* A third of the height is held: common practice, no source. */
START_TEST(a_third_of_the_height_is_held)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	kerb->height_um = 300 * MM;
	k = good();
	ck_assert_int_eq(k.section.least_held_um, 100 * MM);
	ck_assert(k.section.held);
	ck_assert(!noted(&k, "holds too little"));
	kerb->held_um--;
	k = good();
	ck_assert(!k.section.held);
	ck_assert(noted(&k, "holds too little of it: at least 100 mm"));
	kerb->held_um = kerb->height_um;
	ck_assert_ptr_null(work_out().fault);
}
END_TEST

START_TEST(what_cannot_stand_is_explained)
{
	const char *fault;

	make_kerbs(4, FOUR_SIDES);
	kerb->height_um = 99 * MM;
	fault = work_out().fault;
	ck_assert_msg(
	        fault && strstr(fault, "Edging of kerb edges: the unit is 99 mm high, less than "
	                               "the 100 mm that the haunch holds. Take a higher unit"),
	        "%s", fault);
	kerb->height_um = -1;
	ck_assert_ptr_nonnull(strstr(work_out().fault, "less than the 100 mm"));
	kerb->height_um = 250 * MM;
	kerb->depth_um = 0;
	ck_assert_ptr_nonnull(strstr(work_out().fault, "depth across the run is not known"));
	kerb->depth_um = 60 * MM;
	kerb->strip_um = 1001 * MM;
	ck_assert_ptr_nonnull(
	        strstr(work_out().fault, "Edging of kerb edges: strip: 1001 mm is out of reach"));
	kerb->strip_um = 0;
	kerb->cement_kg_m3 = 1001;
	ck_assert_ptr_nonnull(strstr(work_out().fault, "cement: 1001 kg/m3 is out of reach"));
	kerb->cement_kg_m3 = 0;
	ck_assert_ptr_null(work_out().fault);
	/* Without a height there is nothing to tell. */
	kerb->height_um = 0;
	struct kerb_result out;

	ck_assert_int_eq(kerb_work_out(&mem, &plan, &none, &edging, &out, NULL), STATUS_OK);
	ck_assert_uint_eq(out.count, 0);
}
END_TEST

START_TEST(haunches_in_the_way_are_noted)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	kerb->haunch_both = true;
	kerb->held_um = 220 * MM; /* up to 50 mm under the surface, where the slab lies */
	k = good();
	ck_assert(!noted(&k, "inner haunch"));
	kerb->held_um++;
	k = good();
	ck_assert(noted(&k, "The inner haunch ends"));
	kerb->haunch_both = false;
	kerb->top_um = 100 * MM;
	kerb->held_um = 151 * MM;
	k = good();
	ck_assert(noted(&k, "will be seen"));
	kerb->strip_beyond_um = 99 * MM;
	k = good();
	ck_assert(noted(&k, "the strip reaches only 99 mm beyond"));
}
END_TEST

/* --- volumes --- */

/* Round 4 x 4 m: the strip fills the frame from 4.00 to 4.36 m, its corners once. The haunch:
 * slices of height 0.1 - (x - 0.06) at x from 0.06 to 0.16, each 16 + 8x long. */
START_TEST(outer_corners_count_once)
{
	struct kerb_line k;
	double haunch = 0;

	make_kerbs(4, FOUR_SIDES);
	k = good();
	ck_assert_double_eq_tol(k.strip_m3, (4.36 * 4.36 - 16) * 0.1, 1e-9);
	for (int i = 0; i < 1000; i++) {
		double x = (i + 0.5) / 1000 * 0.1;

		haunch += (0.1 - x) * (16 + 8 * (0.06 + x)) * 0.1 / 1000;
	}
	ck_assert_double_eq_tol(k.haunch_m3, haunch, 1e-7);
	ck_assert_double_eq_tol(k.mix.m3, k.strip_m3 + k.haunch_m3, 1e-12);
	ck_assert_double_eq_tol(k.mix.cement_kg, k.mix.m3 * 200, 1e-9);
	/* 0.3010 + 0.0823 m3: 76.7 kg, four bags of 25 kg. */
	ck_assert_int_eq(k.mix.bags, 4);
}
END_TEST

/* An opening of 1 x 1: its kerb stands inside it, between 1 m and 0.64 m. */
START_TEST(inner_corners_count_once)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	for (size_t i = 0; i < 4; i++)
		plan.rings[0].nodes[i].kind = EDGE_OPEN;
	opening_by_hand(
	        &mem, &plan, 4, (double[]){ 1000, 1000, 2000, 1000, 2000, 2000, 1000, 2000 });
	for (size_t i = 0; i < 4; i++)
		plan.rings[1].nodes[i].kind = EDGE_KERB;
	k = good();
	ck_assert_double_eq_tol(k.strip_m3, (1 - 0.64 * 0.64) * 0.1, 1e-9);
}
END_TEST

/* A circle 4 m across, as two half circles: rings by pi (R2 - r2), the haunch as a solid turned
 * round (Pappus and Guldin): area times the way of its centre of area. */
START_TEST(arcs_count_by_the_way_of_their_centre)
{
	struct kerb_line k;

	make_kerbs(2, (double[]){ 0, 0, 4000, 0 });
	plan.rings[0].nodes[0].rise_um = plan.rings[0].nodes[1].rise_um = 2000 * MM;
	k = good();
	ck_assert_double_eq_tol(k.length_m, 4 * M_PI, 1e-6);
	ck_assert_double_eq_tol(k.strip_m3, M_PI * (2.18 * 2.18 - 4) * 0.1, 1e-8);
	ck_assert_double_eq_tol(k.haunch_m3, 0.005 * 2 * M_PI * (2 + 0.06 + 0.1 / 3), 1e-8);
	/* Haunched inside too, a tapered unit: outer face at 100 - 40 x 0.4 = 84 where it ends. */
	kerb->haunch_both = true;
	kerb->profile = PROFILE_TAPERED;
	kerb->foot_um = 100 * MM;
	k = good();
	ck_assert_double_eq_tol(k.strip_m3, M_PI * (2.22 * 2.22 - 1.88 * 1.88) * 0.1, 1e-8);
	ck_assert_double_eq_tol(
	        k.haunch_m3, 0.005 * 2 * M_PI * (2 + (0.1 + 0.2 + 0.084) / 3 + 2 - 0.1 / 3), 1e-8);
}
END_TEST

/* One edge of 5 m: section times length, ends square. By mix: what two kinds need together. */
START_TEST(beds_are_summed_by_mix)
{
	struct kerb_result out;
	struct kerb_line k;

	make_kerbs(4, (double[]){ 0, 0, 5000, 0, 5000, 2000, 0, 2000 });
	plan.rings[0].nodes[1].kind = EDGE_OPEN;
	plan.rings[0].nodes[2].kind = EDGE_HAUNCH;
	plan.rings[0].nodes[3].kind = EDGE_OPEN;
	plan.edging[EDGE_HAUNCH] = (struct plan_edging){ .name = "",
		.height_um = 90 * MM,
		.bed = MIX_LEAN_CONCRETE,
		.cement_kg_m3 = 250,
		.haunch_um = 100 * MM,
		.held_um = 60 * MM,
		.strip_beyond_um = 100 * MM,
		.strip_um = 50 * MM };
	k = good();
	ck_assert_double_eq_tol(k.strip_m3, 5 * 0.018, 1e-9);
	ck_assert_double_eq_tol(k.haunch_m3, 5 * 0.005, 1e-9);
	ck_assert_int_eq(kerb_work_out(&mem, &plan, &none, &edging, &out, NULL), STATUS_OK);
	ck_assert_uint_eq(out.count, 2);
	ck_assert(!out.lines[1].has_unit);
	ck_assert_double_eq_tol(out.lines[1].mix.m3, 5 * (0.1 * 0.05 + 0.003), 1e-9);
	ck_assert_double_eq_tol(out.by_mix[MIX_LEAN_CONCRETE].m3, 5 * 0.023 + 5 * 0.008, 1e-9);
	ck_assert_double_eq_tol(out.by_mix[MIX_LEAN_CONCRETE].cement_kg, 23 + 10, 1e-9);
	ck_assert_int_eq(out.by_mix[MIX_LEAN_CONCRETE].bags, 2); /* not one and one rounded up */
	ck_assert_int_eq(out.by_mix[MIX_STABILISED_SAND].bags, 0);
}
END_TEST

/* --- strings --- */

/* Down in y by 15 mm/m from 540 at y 0; tops 20 under; instrument at 1.5 m. */
static void make_levels(struct plan_plane *plane)
{
	*plane = (struct plan_plane){ 0, 0, 540 * MM, 90 * UDEG_PER_DEG, 15000 };
	plan.surface.planes = plane;
	plan.surface.count = 1;
	plan.ground.has_instrument = true;
	plan.ground.benchmark_um = 100 * MM;
	plan.ground.backsight_um = 1400 * MM;
}

START_TEST(strings_have_levels_falls_and_staff_readings)
{
	struct plan_plane plane;
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	make_levels(&plane);
	k = good();
	ck_assert_uint_eq(k.run_count, 4);
	ck_assert_uint_eq(k.runs[1].edge, 1); /* from (4, 0) to (4, 4) */
	ck_assert_double_eq_tol(k.runs[1].from_um, 520000, 1e-6);
	ck_assert_double_eq_tol(k.runs[1].to_um, 460000, 1e-6);
	ck_assert_double_eq_tol(k.runs[1].fall_um_per_m, 15000, 1e-6);
	ck_assert_double_eq_tol(k.runs[1].from_staff_um, 980000, 1e-6);
	ck_assert_double_eq_tol(k.runs[1].to_staff_um, 1040000, 1e-6);
	ck_assert_double_eq_tol(k.runs[1].from_trench_um, 520000 - 350000, 1e-6);
	ck_assert_double_eq_tol(k.runs[3].fall_um_per_m, -15000, 1e-6);
	ck_assert_double_eq_tol(k.runs[2].fall_um_per_m, 0, 1e-6);
	/* An arc over the last edge: its middle lies 0.5 m farther down. */
	plan.rings[0].nodes[2].rise_um = 500 * MM;
	k = good();
	ck_assert(k.runs[2].curved);
	ck_assert_int_eq(k.runs[2].middle_x_um, 2000 * MM);
	ck_assert_int_eq(k.runs[2].middle_y_um, 4500 * MM);
	ck_assert_double_eq_tol(k.runs[2].middle_um, 460000 - 7500, 1e-6);
	/* No levels, no strings. */
	plan.surface.count = 0;
	ck_assert_uint_eq(good().run_count, 0);
}
END_TEST

START_TEST(a_kerb_dams_where_its_top_is_higher)
{
	struct kerb_line k;

	make_kerbs(4, FOUR_SIDES);
	ck_assert(!kerb_dams(&plan, EDGE_KERB));
	kerb->top_um = 0;
	ck_assert(!kerb_dams(&plan, EDGE_KERB));
	kerb->top_um = 1;
	ck_assert(kerb_dams(&plan, EDGE_KERB));
	k = good();
	ck_assert(noted(&k, "water that reaches it is held"));
	ck_assert(kerb_dams(&plan, EDGE_PLANTER));
	ck_assert(!kerb_dams(&plan, EDGE_OPEN));
}
END_TEST

/* --- corners --- */

/* 4 x 4 m, corner pieces with legs of 500: 440 of them along the edge, and a joint. 4000 - 2 x 443
 * = 3114 is left: 3 units of 1003 and 105; the last unit and it become 772 and 333. */
START_TEST(corner_pieces_come_off_the_runs)
{
	struct edging_line line;

	make_kerbs(4, FOUR_SIDES);
	kerb->corner_um = 500 * MM;
	line = units();
	ck_assert_uint_eq(line.outer_corners, 4);
	ck_assert_uint_eq(line.inner_corners, 0);
	ck_assert_uint_eq(line.corner_pieces, 4);
	ck_assert_int_eq(line.whole, 8);
	ck_assert_int_eq(line.cut, 8);
	ck_assert_int_eq(line.pieces[0].length_um, 1105 * MM - 333333);
	ck_assert_int_eq(line.pieces[1].length_um, 333333);
	ck_assert_uint_eq(line.no_room, 0);
	/* Legs of 1 m in an edge of 1 m do not go. */
	make_kerbs(4, (double[]){ 0, 0, 4000, 0, 4000, 1000, 0, 1000 });
	kerb->corner_um = 600 * MM;
	line = units();
	ck_assert_uint_eq(line.no_room, 2);
	ck_assert_int_eq(line.whole, 4); /* 2914 mm twice: 2 units and pieces */
}
END_TEST

/* An L: five outer corners and an inner one, which takes no piece; nor does one that is not square,
 * lies beside an arc or where another kind begins. */
START_TEST(corner_pieces_are_for_outer_right_angles)
{
	struct edging_line line;

	make_kerbs(6, (double[]){ 0, 0, 6000, 0, 6000, 2000, 3000, 2000, 3000, 5000, 0, 5000 });
	kerb->corner_um = 500 * MM;
	line = units();
	ck_assert_uint_eq(line.outer_corners, 5);
	ck_assert_uint_eq(line.inner_corners, 1);
	ck_assert_uint_eq(line.corner_pieces, 5);
	plan.rings[0].nodes[0].kind = EDGE_OPEN;
	line = units();
	ck_assert_uint_eq(line.outer_corners, 3);
	ck_assert_uint_eq(line.corner_pieces, 3);
	plan.rings[0].nodes[0].kind = EDGE_KERB;
	plan.rings[0].nodes[0].rise_um = 100 * MM;
	ck_assert_uint_eq(units().corner_pieces, 3);
	plan.rings[0].nodes[0].rise_um = 0;
	plan.rings[0].nodes[1].x_um += 100 * MM; /* 92.9 degrees, and 87.1 */
	ck_assert_uint_eq(units().corner_pieces, 3);
}
END_TEST

/* A quarter circle of 2 m that leaves, or comes in, at a right angle by its tangent: rise 2 (1 -
 * cos 45). The other two corners of the ring are square. */
START_TEST(corner_pieces_have_straight_legs)
{
	make_kerbs(4, (double[]){ 0, 0, 4000, 0, 2000, 2000, 0, 2000 });
	plan.rings[0].nodes[1].rise_um = 585786;
	ck_assert_uint_eq(units().outer_corners, 3);
	kerb->corner_um = 500 * MM;
	ck_assert_uint_eq(units().corner_pieces, 2);
	make_kerbs(4, (double[]){ 0, 0, 2000, 0, 4000, 2000, 0, 2000 });
	plan.rings[0].nodes[1].rise_um = 585786;
	kerb->corner_um = 500 * MM;
	ck_assert_uint_eq(units().outer_corners, 3);
	ck_assert_uint_eq(units().corner_pieces, 2);
}
END_TEST

/* Butted: the run that comes in goes on by the depth, whatever leaves stops at it. */
START_TEST(butted_corners_run_through_on_one_side)
{
	struct edging_line line;

	make_kerbs(4, FOUR_SIDES);
	plan.rings[0].nodes[2].kind = plan.rings[0].nodes[3].kind = EDGE_OPEN;
	kerb->unit_um = 5000 * MM;
	kerb->least_um = 1;
	line = units();
	ck_assert_int_eq(line.cut, 2);
	ck_assert_int_eq(line.pieces[0].length_um, 4060 * MM);
	ck_assert_int_eq(line.pieces[1].length_um, 4000 * MM);
	kerb->mitred = true;
	line = units();
	ck_assert_int_eq(line.pieces[0].length_um, 4060 * MM);
	ck_assert_int_eq(line.pieces[1].length_um, 4060 * MM);
	/* A bend of 30 degrees is mitred: 60 x tan 15. */
	make_kerbs(4, (double[]){ 0, 0, 4000, 0, 4000 + 866.025, 500, 0, 4000 });
	plan.rings[0].nodes[2].kind = plan.rings[0].nodes[3].kind = EDGE_OPEN;
	kerb->unit_um = 5000 * MM;
	kerb->least_um = 1;
	line = units();
	ck_assert_int_eq(line.pieces[0].length_um, 4000 * MM + 16077);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("kerb");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, the_section_adds_up);
	tcase_add_test(tc, a_tapered_unit_is_a_trapezoid);
	tcase_add_test(tc, a_third_of_the_height_is_held);
	tcase_add_test(tc, what_cannot_stand_is_explained);
	tcase_add_test(tc, haunches_in_the_way_are_noted);
	tcase_add_test(tc, outer_corners_count_once);
	tcase_add_test(tc, inner_corners_count_once);
	tcase_add_test(tc, arcs_count_by_the_way_of_their_centre);
	tcase_add_test(tc, beds_are_summed_by_mix);
	tcase_add_test(tc, strings_have_levels_falls_and_staff_readings);
	tcase_add_test(tc, a_kerb_dams_where_its_top_is_higher);
	tcase_add_test(tc, corner_pieces_come_off_the_runs);
	tcase_add_test(tc, corner_pieces_are_for_outer_right_angles);
	tcase_add_test(tc, corner_pieces_have_straight_legs);
	tcase_add_test(tc, butted_corners_run_through_on_one_side);
	return suite_run("kerb", tc);
}
