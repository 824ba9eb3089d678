/* The computation on plans whose answers can be worked out on paper. */
#include "plans.h"
#include "suite.h"

#include "slabwright/takeoff.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct arena mem;
static const struct rules none = { .name = "none" };

static void teardown(void)
{
	arena_free(&mem);
}

static struct takeoff take_off(const struct plan *plan)
{
	struct takeoff t;

	ck_assert_int_eq(takeoff_plan(&mem, plan, &none, &t, NULL), STATUS_OK);
	return t;
}

/* 6 m by 3 m under 600 x 300 slabs with a 3 mm joint inside: ten courses. */
static struct plan six_by_three(void)
{
	return plan_by_hand(&mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 3000, 0, 3000 });
}

START_TEST(stack_bond_that_comes_out_even_cuts_nothing)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	t = take_off(&p);
	ck_assert(t.ready);
	ck_assert_int_eq(t.laid.whole, 100);
	ck_assert_int_eq(t.laid.cut, 0);
	ck_assert_double_eq_tol(t.laid.pieces_area_m2, 100 * 0.597 * 0.297, 1e-9);
	ck_assert_uint_eq(t.cuts.slabs, 0);
	ck_assert_int_eq(t.order.needed, 100);
	ck_assert_int_eq(t.order.allowance, 2);
	ck_assert_int_eq(t.order.slabs, 102);
	ck_assert_int_eq(t.order.rule_of_thumb, 105);
}
END_TEST

/* Every second course begins half a slab in: 9 whole, at its left the last 297 mm of a slab, at its
 * right the first 300 mm. Two left ends and the kerf are just a slab (297 + 3 + 297); a right end
 * goes with nothing. */
START_TEST(stretcher_bond_pairs_the_ends_that_fit)
{
	struct plan p = six_by_three();
	struct takeoff t = take_off(&p);

	ck_assert_int_eq(t.laid.whole, 95);
	ck_assert_int_eq(t.laid.cut, 10);
	ck_assert_int_eq(t.laid.sliver, 0);
	ck_assert_uint_eq(t.cuts.slabs, 5 + 3);
	ck_assert_uint_eq(t.cuts.bound, 8);
	ck_assert_int_eq(t.order.slabs, 95 + 8 + 3);
	p.laying.kerf_um = 4000;
	t = take_off(&p);
	ck_assert_uint_eq(t.cuts.slabs, 10);
	p.laying.kerf_um = 0;
	t = take_off(&p);
	ck_assert_uint_eq(t.cuts.slabs, 5); /* 297 + 300 is a slab when the blade takes nothing */
	p.laying.slab.directional = true;
	p.laying.kerf_um = 3000;
	t = take_off(&p);
	ck_assert_uint_eq(t.cuts.slabs, 10);
}
END_TEST

/* Moved by 100 mm, ends of 197 and 400 mm, and 497 and 100: the right end of one course and the
 * left of its own add up to 597 less nothing for the blade, but 197 + 3 + 100 and so on fit. */
START_TEST(the_start_moves_the_cuts)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.start_x_um = 100000;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 5 * 9 + 5 * 9);
	ck_assert_int_eq(t.laid.cut, 20);
	p.laying.start_x_um = 200000;
	p.laying.start_y_um = 150000;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 81);
	ck_assert_int_eq(t.laid.cut, 9 * 2 + 2 * 11);
}
END_TEST

START_TEST(thin_ends_are_slivers_or_made_up)
{
	/* 6.040 m: a 40 mm end in every even course; 6.009: made up in the joint. */
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 6040, 0, 6040, 3000, 0, 3000 });
	struct plan q = plan_by_hand(&mem, 4, (double[]){ 0, 0, 6009, 0, 6009, 3000, 0, 3000 });
	struct takeoff t;

	p.laying.bond = q.laying.bond = BOND_STACK;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 100);
	ck_assert_int_eq(t.laid.cut, 10);
	ck_assert_int_eq(t.laid.sliver, 10);
	t = take_off(&q);
	ck_assert_int_eq(t.laid.cut, 0);
	ck_assert_int_eq(t.laid.made_up, 10);
	ck_assert_double_eq_tol(
	        t.laid.pieces_area_m2, 100 * 0.597 * 0.297 + 10 * 0.009 * 0.297, 1e-9);
}
END_TEST

START_TEST(a_drain_cover_inside_one_slab_leaves_a_piece_with_a_hole)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	opening_by_hand(&mem, &p, 4, (double[]){ 700, 700, 900, 700, 900, 850, 700, 850 });
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 99);
	ck_assert_int_eq(t.laid.cut, 1);
	ck_assert_uint_eq(t.laid.pieces[0].shape.count, 2);
	ck_assert_int_eq(t.laid.pieces[0].spot.course, 2);
	ck_assert_int_eq(t.laid.pieces[0].spot.index, 1);
	ck_assert_uint_eq(t.laid.pieces[0].sides, SIDE_LEFT | SIDE_RIGHT | SIDE_TOP | SIDE_BOTTOM);
	ck_assert_double_eq_tol(t.laid.pieces[0].area_um2, 597e3 * 297e3 - 200e3 * 150e3, 1);
}
END_TEST

START_TEST(slabs_are_found_by_place)
{
	struct plan p = six_by_three();
	struct pattern pattern;
	struct slab_spot spot;
	struct point c;

	ck_assert_int_eq(pattern_make(&p.laying, &pattern, NULL), STATUS_OK);
	ck_assert(pattern_at(&pattern, (struct point){ 450000, 400000 }, &spot));
	ck_assert_int_eq(spot.course, 1);
	ck_assert_int_eq(spot.index, 0);
	c = pattern_corner(&pattern, (struct slab_spot){ 0, 1, 0 });
	ck_assert_double_eq(c.x, 300000);
	ck_assert_double_eq(c.y, 300000);
	ck_assert(!pattern_at(&pattern, (struct point){ 450000, 298500 }, &spot));
	ck_assert(pattern_at(&pattern, (struct point){ -10000, -1e6 }, &spot));
	ck_assert_int_eq(spot.course, -4);
	ck_assert_int_eq(spot.index, -1);
}
END_TEST

/* Cells of 600 mm: what lies on the line between two belongs to the upper, right one. */
START_TEST(a_place_between_two_cells_belongs_to_one)
{
	struct plan p = six_by_three();
	struct pattern pattern;
	struct slab_spot spot;

	p.laying.bond = BOND_BASKETWEAVE;
	ck_assert_int_eq(pattern_make(&p.laying, &pattern, NULL), STATUS_OK);
	ck_assert(pattern_at(&pattern, (struct point){ 100000, 600000 }, &spot));
	ck_assert(pattern.parts[spot.part].standing);
	ck_assert(pattern_at(&pattern, (struct point){ 600000, 100000 }, &spot));
	ck_assert(pattern.parts[spot.part].standing);
	ck_assert(pattern_at(&pattern, (struct point){ 600000, 600000 }, &spot));
	ck_assert(!pattern.parts[spot.part].standing);
}
END_TEST

START_TEST(packs_are_not_split)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	p.laying.slab.pack = 20;
	p.laying.slab.price_minor = 850;
	p.laying.slab.density_kg_m3 = 2300;
	t = take_off(&p);
	ck_assert_int_eq(t.order.slabs, 120);
	ck_assert_int_eq(t.order.price_minor, 120 * 850);
	ck_assert_double_eq_tol(t.order.slab_mass_kg, 0.597 * 0.297 * 0.05 * 2300, 1e-9);
}
END_TEST

START_TEST(levels_fall_toward_the_compass)
{
	struct plan p = six_by_three();
	struct plan_plane plane = { .x_um = 0,
		.y_um = 0,
		.level_um = -10000,
		.toward_udeg = 90 * UDEG_PER_DEG,
		.fall_um_per_m = 15000 };
	struct takeoff t;

	p.surface.planes = &plane;
	p.surface.count = 1;
	p.surface.has_fixed = true;
	p.surface.fixed_name = "path";
	p.surface.fixed_x_um = 6000000;
	p.surface.fixed_y_um = 3000000;
	p.surface.fixed_level_um = -60000;
	p.ground = (struct plan_ground){ 40000, 100000, true, 0, 1500000 };
	p.rings[0].nodes[2].kind = EDGE_HOUSE_WALL;
	t = take_off(&p);
	ck_assert_double_eq_tol(t.surface.points[0].level_um, -10000, 1e-6);
	ck_assert_double_eq_tol(t.surface.points[2].level_um, -55000, 1e-6);
	ck_assert_double_eq_tol(t.surface.points[2].formation_um, -55000 - 190000, 1e-6);
	ck_assert_double_eq_tol(t.surface.points[2].staff_um, 1555000, 1e-6);
	ck_assert_double_eq_tol(t.surface.fixed_difference_um, 5000, 1e-6);
	ck_assert_uint_eq(t.surface.catchment_count, 1);
	ck_assert_uint_eq(t.surface.catchments[0].edge, 2);
	ck_assert_double_eq_tol(t.surface.drained_m2, 18, 1e-9);
	ck_assert_uint_eq(t.surface.warning_count, 2);
	ck_assert_int_eq(t.surface.warnings[0].code, WARN_WATER_TO_WALL);
	ck_assert_int_eq(t.surface.warnings[1].code, WARN_STEP_TO_FIXED);
}
END_TEST

/* The opening in the middle takes the water of the strip behind it; the strips beside it pass. */
START_TEST(an_opening_catches_what_runs_into_it)
{
	struct plan p = six_by_three();
	struct plan_plane plane = { .toward_udeg = 0, .fall_um_per_m = 15000 };
	struct takeoff t;

	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 1000, 3000, 1000, 3000, 2000, 2000, 2000 });
	p.surface.planes = &plane;
	p.surface.count = 1;
	t = take_off(&p);
	ck_assert_uint_eq(t.surface.catchment_count, 2);
	ck_assert_uint_eq(t.surface.catchments[0].edge, 1);
	ck_assert_double_eq_tol(t.surface.catchments[0].area_m2, 6 * 2 + 3, 1e-9);
	ck_assert_uint_eq(t.surface.catchments[1].edge, 7);
	ck_assert_double_eq_tol(t.surface.catchments[1].area_m2, 2, 1e-9);
}
END_TEST

START_TEST(a_rule_set_warns_of_too_little_and_too_much)
{
	struct rule items[] = { { "fall_min", 12500, "mm/m", "by hand" },
		{ "fall_max", 25000, "mm/m", "by hand" } };
	struct rules rules = { .name = "by hand", .items = items, .count = 2 };
	static const struct {
		int64_t fall;
		int code; /* -1 none */
	} cases[] = { { 12499, WARN_FALL_UNDER }, { 12500, -1 }, { 25000, -1 },
		{ 25001, WARN_FALL_OVER }, { 0, WARN_NO_FALL } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct plan p = six_by_three();
		struct plan_plane plane = { .fall_um_per_m = cases[i].fall };
		struct takeoff t;

		p.surface.planes = &plane;
		p.surface.count = 1;
		takeoff_plan(&mem, &p, &rules, &t, NULL);
		if (cases[i].code < 0) {
			ck_assert_uint_eq(t.surface.warning_count, 0);
			continue;
		}
		ck_assert_uint_eq(t.surface.warning_count, 1);
		ck_assert_int_eq((int)t.surface.warnings[0].code, cases[i].code);
	}
}
END_TEST

START_TEST(compass_has_eight_points)
{
	ck_assert_str_eq(compass_name(0), "right");
	ck_assert_str_eq(compass_name(90 * UDEG_PER_DEG), "up");
	ck_assert_str_eq(compass_name(-90 * UDEG_PER_DEG), "down");
	ck_assert_str_eq(compass_name(359 * UDEG_PER_DEG), "right");
	ck_assert_str_eq(compass_name(22 * UDEG_PER_DEG), "right");
	ck_assert_str_eq(compass_name(23 * UDEG_PER_DEG), "up-right");
}
END_TEST

/* Kerbs of 1 m with 5 mm joints: 6 m takes 5 whole and 975 mm, 3 m takes 2 and 990. No two ends
 * share a unit. A short side of 0.4 m and one of 0.5 come from one. */
START_TEST(edging_is_counted_in_units)
{
	struct plan p = six_by_three();
	struct takeoff t;

	for (int i = 0; i < 4; i++)
		p.rings[0].nodes[i].kind = EDGE_KERB;
	p.edging[EDGE_KERB] =
	        (struct plan_edging){ .name = "kerb", .unit_um = 1000000, .joint_um = 5000 };
	t = take_off(&p);
	ck_assert_uint_eq(t.edging.count, 1);
	ck_assert_double_eq_tol(t.edging.lines[0].length_m, 18, 1e-9);
	ck_assert_int_eq(t.edging.lines[0].whole, 14);
	ck_assert_int_eq(t.edging.lines[0].cut, 4);
	ck_assert_int_eq(t.edging.lines[0].units, 18);
	ck_assert_int_eq(t.edging.lines[0].bound, 18);
	p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 500, 0, 500, 400, 0, 400 });
	for (int i = 0; i < 4; i++)
		p.rings[0].nodes[i].kind = EDGE_KERB;
	p.edging[EDGE_KERB] =
	        (struct plan_edging){ .name = "kerb", .unit_um = 1000000, .joint_um = 5000 };
	t = take_off(&p);
	ck_assert_int_eq(t.edging.lines[0].whole, 0);
	ck_assert_int_eq(t.edging.lines[0].units, 2);
}
END_TEST

/* 600 x 300 slabs against a house wall with a gap of 10 mm: the first course loses 10 mm, the last
 * is full. */
/* Turned by 45 degrees, an edge lies on a course but for the rounding of the turn, and a corner of
 * the opening touches a slab's side: neither may lengthen a piece nor join two. */
START_TEST(rounding_of_a_turn_makes_no_whiskers_and_no_bridges)
{
	struct plan p = plan_by_hand(&mem, 6,
	        (double[]){ 1240, 561, 1740, 1061, 1440, 1361, 240, 161, 1240, -839, 1940, -139 });
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	p.laying.rotation_udeg = -45 * UDEG_PER_DEG;
	p.laying.start_x_um = 1234000;
	p.laying.start_y_um = 567000;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 3);
	ck_assert_int_eq(t.laid.cut, 12);
	ck_assert_int_eq(t.laid.made_up, 3);
	p = plan_by_hand(&mem, 4, (double[]){ -1000, -1000, 1000, -1000, 1000, 1000, -1000, 1000 });
	opening_by_hand(&mem, &p, 4, (double[]){ 300, 300, 300, 600, 0, 600, 0, 300 });
	p.laying.bond = BOND_STACK;
	p.laying.rotation_udeg = 45 * UDEG_PER_DEG;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.cut, 32);
}
END_TEST

START_TEST(a_gap_at_the_wall_is_left_open)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	p.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	p.laying.edge_joint_um[EDGE_HOUSE_WALL] = 10000;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.whole, 90);
	ck_assert_int_eq(t.laid.cut, 10);
	ck_assert_double_eq_tol(
	        t.laid.pieces_area_m2, 90 * 0.597 * 0.297 + 10 * 0.597 * 0.287, 1e-9);
	ck_assert_double_eq_tol(t.area_m2, 18, 1e-9);
}
END_TEST

/* The paving where four slabs meet: four corner pieces, each with two finished sides. */
static struct takeoff four_corners(double length, double width)
{
	struct plan p = plan_by_hand(&mem, 4,
	        (double[]){ 597 - length, 597 - width, 600 + length, 597 - width, 600 + length,
	                600 + width, 597 - length, 600 + width });

	p.laying.bond = BOND_STACK;
	p.laying.slab.width_um = 600000;
	return take_off(&p);
}

START_TEST(small_corner_pieces_come_from_the_corners_of_one_slab)
{
	struct takeoff t = four_corners(200, 200);

	ck_assert_int_eq(t.laid.cut, 4);
	ck_assert_uint_eq(t.cuts.slabs, 1);
	ck_assert_uint_eq(t.cuts.bound, 1);
	t = four_corners(350, 240);
	ck_assert_uint_eq(t.cuts.slabs, 2);
}
END_TEST

/* Four like corner pieces of 350 x 240 mm fit a square slab of 597 mm only as the sails of a
 * windmill, round a hole in the middle: no cut runs right across between them. So one slab will not
 * do. */
START_TEST(pieces_that_no_saw_can_part_do_not_come_from_one_slab)
{
	struct point corner[4] = { { 0, 0 }, { 350000, 0 }, { 350000, 240000 }, { 0, 240000 } };
	struct ring ring = { .p = corner, .n = 4 };
	struct piece pieces[4];
	struct cut_stock stock = {
		.length_um = 597000, .width_um = 597000, .kerf_um = 3000, .edges = RULE_FINISHED
	};
	struct cutplan cuts;

	for (int i = 0; i < 4; i++)
		pieces[i] = (struct piece){ .spot.index = i,
			.kind = PIECE_CUT,
			.sides = SIDE_LEFT | SIDE_BOTTOM,
			.shape = { &ring, 1 },
			.box = { 0, 0, 350000, 240000 },
			.area_um2 = 350e3 * 240e3 };
	ck_assert_int_eq(cutplan_make(&mem, pieces, 4, &stock, 1, &cuts, NULL), STATUS_OK);
	ck_assert_uint_eq(cuts.slabs, 2);
}
END_TEST

/* An L with 200 mm out of its corner, and the 200 mm square that would fill it: without a kerf both
 * are one slab, which is not found; so nothing may be said of the least. With one of 3 mm they do
 * not fit. */
START_TEST(without_a_kerf_notches_prove_nothing)
{
	struct plan p = plan_by_hand(&mem, 8,
	        (double[]){
	                -200, 0, 600, 0, 600, 400, 400, 400, 400, 600, 0, 600, 0, 200, -200, 200 });
	struct takeoff t;

	p.laying.bond = BOND_STACK;
	p.laying.slab.width_um = 600000;
	p.laying.slab.joint_um = 0;
	p.laying.kerf_um = 0;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.cut, 2);
	ck_assert_uint_le(t.cuts.bound, 1);
	p.laying.kerf_um = 3000;
	t = take_off(&p);
	ck_assert_uint_eq(t.cuts.slabs, 2);
	ck_assert_uint_eq(t.cuts.bound, 2);
}
END_TEST

/* Six of 600 x 600 and twelve of 300 x 300 fill 3.6 m x 0.9 m turn about; each size has its own
 * cuts and order. */
START_TEST(mixed_sizes_are_ordered_size_by_size)
{
	struct repeat_slab slabs[] = { { 0, 0, 600000, 600000 }, { 600000, 0, 300000, 300000 },
		{ 600000, 300000, 300000, 300000 } };
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 3600, 0, 3600, 1200, 0, 1200 });
	struct takeoff t;

	p.laying.bond = BOND_MIXED;
	p.laying.repeat = (struct plan_repeat){ "by hand", 900000, 600000, 0, slabs, 3 };
	t = take_off(&p);
	ck_assert(t.ready);
	ck_assert_uint_eq(t.order.line_count, 2);
	ck_assert_int_eq(t.order.lines[0].length_um, 597000);
	ck_assert_int_eq(t.order.lines[0].needed, 8);
	ck_assert_int_eq(t.order.lines[1].needed, 16);
	ck_assert_int_eq(t.order.lines[0].slabs, 9);
	ck_assert_int_eq(t.order.lines[1].slabs, 17);
	ck_assert_int_eq(t.order.lines[0].rule_of_thumb, 9);
	ck_assert_int_eq(t.order.lines[1].rule_of_thumb, 17);
	ck_assert_int_eq(t.order.slabs, 26);
	ck_assert_int_eq(t.laid.cut, 0);
	/* 200 mm on: the small ones at the left keep 197 mm, those at the right 100, of which two
	 * come from one. */
	p.laying.start_x_um = 200000;
	t = take_off(&p);
	ck_assert_int_eq(t.laid.sections[0].laid.of_size[0].whole, 8);
	ck_assert_int_eq(t.laid.sections[0].laid.of_size[0].cut, 0);
	ck_assert_int_eq(t.laid.sections[0].laid.of_size[1].whole, 12);
	ck_assert_int_eq(t.laid.sections[0].laid.of_size[1].cut, 8);
	ck_assert_uint_eq(t.cuts.of_stock[0].slabs, 0);
	ck_assert_uint_eq(t.cuts.of_stock[1].slabs, 6);
	ck_assert_uint_eq(t.cuts.slabs, 6);
}
END_TEST

START_TEST(a_repeat_that_does_not_tile_is_refused)
{
	struct repeat_slab slabs[] = { { 0, 0, 600000, 600000 }, { 600000, 0, 300000, 300000 },
		{ 600000, 300000, 300000, 300000 } };
	struct plan_repeat r = { "by hand", 900000, 600000, 300000, slabs, 3 };
	struct error err;

	ck_assert_int_eq(repeat_check(&r, "", &err), STATUS_OK);
	slabs[2].y_um = 290000;
	ck_assert_int_eq(repeat_check(&r, "", &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "slabs 2 and 3 overlap"));
	slabs[2].y_um = 300000;
	r.count = 2;
	ck_assert_int_eq(repeat_check(&r, "", &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "leaves gaps"));
	/* The area is right, but moved by its step the slab lies over itself. */
	r = (struct plan_repeat){ "by hand", 500000, 720000, 0, slabs, 1 };
	ck_assert_int_eq(repeat_check(&r, "", &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "slabs 1 and 1 overlap"));
	r = (struct plan_repeat){ "by hand", 900000, 600000, 300000, slabs, 3 };
	r.count = 3;
	r.step_x_um = 880000;
	ck_assert_int_eq(repeat_check(&r, "", &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "overlap"));
}
END_TEST

/* Packs of two sizes, three of one to two of the other. */
START_TEST(a_mix_is_ordered_in_packs)
{
	struct mix_size sizes[] = { { 600000, 300000, 3 }, { 450000, 300000, 2 } };
	struct plan p = six_by_three();
	struct takeoff t;

	p.laying.bond = BOND_COURSED_RANDOM;
	p.laying.mix = (struct plan_mix){ 4, sizes, 2 };
	t = take_off(&p);
	ck_assert_msg(t.ready, "%s", t.fault.text);
	ck_assert_int_gt(t.order.packs, 0);
	ck_assert_int_eq(t.order.lines[0].slabs, 3 * t.order.packs);
	ck_assert_int_eq(t.order.lines[1].slabs, 2 * t.order.packs);
	ck_assert_int_ge(t.order.lines[0].left_over, 0);
	ck_assert_int_ge(t.order.lines[1].left_over, 0);
	ck_assert(t.order.lines[0].left_over < 3 || t.order.lines[1].left_over < 2);
	p.laying.mix.count = 1;
	sizes[0] = (struct mix_size){ 60000, 300000, 1 };
	t = take_off(&p);
	ck_assert_msg(t.ready, "%s", t.fault.text);
}
END_TEST

START_TEST(a_plan_that_is_not_ready_says_why)
{
	struct plan p = six_by_three();
	struct takeoff t;

	p.rings[0].closed = false;
	t = take_off(&p);
	ck_assert(!t.ready);
	ck_assert_ptr_nonnull(strstr(t.fault.text, "not closed"));
	p = six_by_three();
	p.laying.bond = BOND_HERRINGBONE;
	p.laying.slab.length_um = 900000;
	t = take_off(&p);
	ck_assert(!t.ready);
	ck_assert_ptr_nonnull(
	        strstr(t.fault.text, "herringbone wants a slab twice as long as wide"));
	p.laying.bond = BOND_STACK;
	p.laying.slab.length_um = 0;
	t = take_off(&p);
	ck_assert(!t.ready);
	ck_assert_ptr_nonnull(strstr(t.fault.text, "slab.length"));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("computation");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, stack_bond_that_comes_out_even_cuts_nothing);
	tcase_add_test(tc, stretcher_bond_pairs_the_ends_that_fit);
	tcase_add_test(tc, the_start_moves_the_cuts);
	tcase_add_test(tc, thin_ends_are_slivers_or_made_up);
	tcase_add_test(tc, a_drain_cover_inside_one_slab_leaves_a_piece_with_a_hole);
	tcase_add_test(tc, slabs_are_found_by_place);
	tcase_add_test(tc, a_place_between_two_cells_belongs_to_one);
	tcase_add_test(tc, packs_are_not_split);
	tcase_add_test(tc, levels_fall_toward_the_compass);
	tcase_add_test(tc, an_opening_catches_what_runs_into_it);
	tcase_add_test(tc, a_rule_set_warns_of_too_little_and_too_much);
	tcase_add_test(tc, compass_has_eight_points);
	tcase_add_test(tc, edging_is_counted_in_units);
	tcase_add_test(tc, rounding_of_a_turn_makes_no_whiskers_and_no_bridges);
	tcase_add_test(tc, a_gap_at_the_wall_is_left_open);
	tcase_add_test(tc, small_corner_pieces_come_from_the_corners_of_one_slab);
	tcase_add_test(tc, pieces_that_no_saw_can_part_do_not_come_from_one_slab);
	tcase_add_test(tc, without_a_kerf_notches_prove_nothing);
	tcase_add_test(tc, mixed_sizes_are_ordered_size_by_size);
	tcase_add_test(tc, a_repeat_that_does_not_tile_is_refused);
	tcase_add_test(tc, a_mix_is_ordered_in_packs);
	tcase_add_test(tc, a_plan_that_is_not_ready_says_why);
	return suite_run("computation", tc);
}
