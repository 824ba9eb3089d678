/* Border courses along straight edges by hand: where runs end at corners of every kind. Strips are
 * given by their corners in mm; areas are worked out beside them. */
#include "test_geom_border.h"

START_TEST(mitred_runs_round_a_rectangle_are_trapezoids)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_MITRED);
	d = draw(&p);
	ck_assert_uint_eq(d.count, 4);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 6000, 0, 5800, 200, 200, 200);
	RING_IS(&strip_of(&d, 1)->ring, 0, 6000, 0, 6000, 4000, 5800, 3800, 5800, 200);
	for (size_t i = 0; i < 4; i++) {
		double l = i % 2 ? 4000 : 6000;

		ck_assert_double_eq(area_mm2(&strip_of(&d, i)->ring), (l + l - 400) / 2 * 200);
		RING_IS(&strip_of(&d, i)->straight, 0, 0, 0, l, 0, l - 200, 200, 200, 200);
	}
	RING_IS(&d.field.rings[0], 0, 200, 200, 5800, 200, 5800, 3800, 200, 3800);
}
END_TEST

START_TEST(a_plan_drawn_clockwise_has_the_same_runs)
{
	struct plan p = PLAN(0, 4000, 6000, 4000, 6000, 0, 0, 0);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_BUTTED);
	d = draw(&p);
	/* Edge 3 runs along y = 0, as the first edge does in the pinwheel. */
	RING_IS(&strip_of(&d, 2)->ring, 0, 200, 0, 6000, 0, 6000, 200, 5800, 200, 200, 200);
}
END_TEST

START_TEST(butted_runs_round_a_rectangle_make_a_pinwheel)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_BUTTED);
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 200, 0, 6000, 0, 6000, 200, 5800, 200, 200, 200);
	for (size_t i = 0; i < 4; i++) {
		double l = i % 2 ? 4000 : 6000;

		ck_assert_double_eq(area_mm2(&strip_of(&d, i)->ring), (l - 200) * 200);
		RING_IS(&strip_of(&d, i)->straight, 0, 200, 0, l, 0, l, 200, l - 200, 200, 200,
		        200);
	}
}
END_TEST

START_TEST(a_run_ends_square_where_the_next_edge_has_none)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_by_hand(&p, 1, 200, CORNER_MITRED);
	p.rings[0].nodes[0].border = p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	ck_assert_uint_eq(d.count, 2);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 6000, 0, 5800, 200, 0, 200);
	RING_IS(&strip_of(&d, 1)->ring, 0, 6000, 0, 6000, 4000, 5800, 4000, 5800, 200);
	p.rings[0].nodes[1].border = 0;
	p.rings[0].nodes[2].border = 1;
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 6000, 0, 6000, 200, 0, 200);
	RING_IS(&strip_of(&d, 2)->straight, 0, 0, 0, 6000, 0, 6000, 200, 0, 200);
}
END_TEST

/* The corner at 3000, 2000 is re-entrant: edge 4 comes in from above, edge 5 leaves to the left. */
START_TEST(a_reentrant_corner_is_mitred_or_butted)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 3000, 4000, 3000, 2000, 0, 2000);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_MITRED);
	d = draw(&p);
	RING_IS(&strip_of(&d, 3)->ring, 0, 3000, 4000, 3000, 2000, 3200, 1800, 3200, 3800);
	RING_IS(&strip_of(&d, 4)->ring, 0, 3000, 2000, 0, 2000, 200, 1800, 3200, 1800);
	RING_IS(&strip_of(&d, 4)->straight, 0, 0, 0, 3000, 0, 2800, 200, -200, 200);
	border_all(&p, 0, 200, CORNER_BUTTED);
	d = draw(&p);
	RING_IS(&strip_of(&d, 3)->ring, 0, 3000, 3800, 3000, 2000, 3000, 1800, 3200, 1800, 3200,
	        3800);
	RING_IS(&strip_of(&d, 4)->ring, 0, 3000, 2000, 0, 2000, 0, 1800, 200, 1800, 3000, 1800);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 3)->ring), 2000 * 200);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 4)->ring), 3000 * 200);
	/* With a border on the edge that comes in alone, its end lies along the other, produced. */
	p.rings[0].nodes[4].border = 0;
	d = draw(&p);
	RING_IS(&strip_of(&d, 3)->ring, 0, 3000, 3800, 3000, 2000, 3200, 2000, 3200, 3800);
}
END_TEST

START_TEST(runs_go_round_an_opening)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 1500, 3000, 1500, 3000, 2000, 2000, 2000 });
	border_all(&p, 1, 100, CORNER_MITRED);
	d = draw(&p);
	ck_assert_uint_eq(d.count, 4);
	for (size_t i = 0; i < 4; i++) {
		double l = i % 2 ? 500 : 1000;

		RING_IS(&strip_of(&d, 4 + i)->straight, 0, 0, 0, l, 0, l + 100, 100, -100, 100);
		ck_assert_double_eq(area_mm2(&strip_of(&d, 4 + i)->ring), (2 * l + 200) / 2 * 100);
	}
	RING_IS(&strip_of(&d, 4)->ring, 0, 3000, 1500, 2000, 1500, 1900, 1400, 3100, 1400);
	RING_IS(&d.field.rings[1], 0, 1900, 1400, 1900, 2100, 3100, 2100, 3100, 1400);
	border_all(&p, 1, 100, CORNER_BUTTED);
	d = draw(&p);
	for (size_t i = 0; i < 4; i++) {
		double l = i % 2 ? 500 : 1000;

		RING_IS(&strip_of(&d, 4 + i)->straight, 0, 0, 0, l, 0, l + 100, 0, l + 100, 100, 0,
		        100);
	}
}
END_TEST

START_TEST(where_two_borders_differ_the_run_that_comes_in_decides)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_by_hand(&p, 1, 200, CORNER_MITRED);
	border_by_hand(&p, 2, 100, CORNER_BUTTED);
	p.rings[0].nodes[0].border = 1;
	p.rings[0].nodes[1].border = 2;
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 6000, 0, 5900, 200, 0, 200);
	RING_IS(&strip_of(&d, 1)->ring, 0, 6000, 0, 6000, 4000, 5900, 4000, 5900, 200);
	borders[0].corners = CORNER_BUTTED;
	borders[1].corners = CORNER_MITRED;
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 6000, 0, 6000, 200, 5900, 200, 0, 200);
	RING_IS(&strip_of(&d, 1)->ring, 0, 6000, 200, 6000, 4000, 5900, 4000, 5900, 200);
}
END_TEST

/* A rhombus with sides of 4 m and corners of 60 and 120 degrees, the first of 60. Half of 60
 * degrees takes depth / tan 30 = 173.205 off the inner line, half of 120 depth / tan 60 = 57.735. A
 * butted run runs on by depth / tan 60 past a corner of 120 and stops short by as much at 60; where
 * it butts it begins depth / sin 60 = 115.470 from the corner. */
START_TEST(corners_that_are_not_square)
{
	double h = 4000 * sin(M_PI / 3), at30 = 100 / tan(M_PI / 6), at60 = 100 / tan(M_PI / 3),
	       aslant = 100 / sin(M_PI / 3);
	struct plan p = PLAN(0, 0, 4000, 0, 6000, h, 2000, h);
	struct drawn d;

	border_all(&p, 0, 100, CORNER_MITRED);
	d = draw(&p);
	for (size_t i = 0; i < 4; i++)
		ck_assert_double_eq_tol(
		        area_mm2(&strip_of(&d, i)->ring), (8000 - at30 - at60) / 2 * 100, 10);
	RING_IS(&strip_of(&d, 0)->straight, 2, 0, 0, 4000, 0, 4000 - at60, 100, at30, 100);
	RING_IS(&strip_of(&d, 1)->straight, 2, 0, 0, 4000, 0, 4000 - at30, 100, at60, 100);
	border_all(&p, 0, 100, CORNER_BUTTED);
	d = draw(&p);
	for (size_t i = 0; i < 4; i++)
		ck_assert_double_eq_tol(
		        area_mm2(&strip_of(&d, i)->ring), (4000 - aslant) * 100, 10);
	RING_IS(&strip_of(&d, 0)->straight, 2, aslant, 0, 4000, 0, 4000 + at60, 100, 4000 - at60,
	        100, at30, 100);
	RING_IS(&strip_of(&d, 1)->straight, 2, aslant, 0, 4000, 0, 4000 - at60, 100, 4000 - at30,
	        100, at60, 100);
}
END_TEST

/* Neither mitre nor butt where two edges run on in one line: the runs end square. */
START_TEST(an_edge_may_be_split_and_bordered_in_part)
{
	struct plan p = PLAN(0, 0, 2500, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_by_hand(&p, 1, 200, CORNER_BUTTED);
	border_by_hand(&p, 2, 300, CORNER_BUTTED);
	p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	RING_IS(&strip_of(&d, 1)->ring, 0, 2500, 0, 6000, 0, 6000, 200, 2500, 200);
	p.rings[0].nodes[0].border = 1;
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 0, 2500, 0, 2500, 200, 0, 200);
	p.rings[0].nodes[0].border = 2;
	d = draw(&p);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 0)->ring), 2500 * 300);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 1)->ring), 3500 * 200);
	p.rings[0].nodes[0].border = 1;
	p.rings[0].nodes[1].border = 2;
	d = draw(&p);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 0)->ring), 2500 * 200);
	ck_assert_double_eq(area_mm2(&strip_of(&d, 1)->ring), 3500 * 300);
}
END_TEST

/* A butt that would run on for more than four depths is mitred instead: a turn of 10 degrees. */
START_TEST(a_corner_that_hardly_turns_is_mitred)
{
	struct plan p = PLAN(0, 0, 3000, 0, 6000, 529, 6000, 4000, 0, 4000);
	struct drawn d;

	border_by_hand(&p, 1, 200, CORNER_BUTTED);
	p.rings[0].nodes[0].border = p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	ck_assert_uint_eq(strip_of(&d, 0)->ring.n, 4);
	RING_IS(&strip_of(&d, 0)->straight, 2, 0, 0, 3000, 0, 3000 - 200 * tan(atan(529 / 3e3) / 2),
	        200, 0, 200);
}
END_TEST

/* Past the end of an edge 100 mm long there is nothing for a butt of 200 to lie along. */
START_TEST(a_butt_that_finds_no_edge_to_lie_along_is_mitred)
{
	struct plan p = PLAN(0, 0, 3000, 0, 3000, 100, 6000, 100, 6000, 4000, 0, 4000);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_BUTTED);
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->ring, 0, 200, 0, 3000, 0, 2800, 200, 200, 200);
}
END_TEST

/* A gap along the first half of a side makes a step, which gets no border. */
START_TEST(a_step_between_two_gaps_has_no_border)
{
	struct plan p = PLAN(0, 0, 2500, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d;

	border_by_hand(&p, 1, 200, CORNER_BUTTED);
	p.rings[0].nodes[0].border = p.rings[0].nodes[1].border = 1;
	d = draw_in(&p, (double[]){ 10000, 0, 0, 0, 0 });
	RING_IS(&strip_of(&d, 0)->ring, 0, 0, 10, 2500, 10, 2500, 210, 0, 210);
	RING_IS(&strip_of(&d, 1)->ring, 0, 2500, 0, 6000, 0, 6000, 200, 2500, 200);
	p.rings[0].nodes[0].border = 0;
	d = draw_in(&p, (double[]){ 10000, 0, 0, 0, 0 });
	ck_assert_double_eq(area_mm2(&strip_of(&d, 1)->ring), 3500 * 200);
	ck_assert_double_eq(region_area_um2(&d.field) * 1e-6, 6000 * 4000 - 2500 * 10 - 3500 * 200);
}
END_TEST

/* The corner at the origin has 20 degrees; the inner corner lies 100 / tan 10 along both edges. */
START_TEST(an_acute_corner_is_mitred_however_far_its_inner_corner)
{
	double a = M_PI / 9, far = 100 / tan(a / 2);
	struct plan p = PLAN(0, 0, 6000, 0, 6000 * cos(a), 6000 * sin(a));
	struct drawn d;

	border_all(&p, 0, 100, CORNER_MITRED);
	d = draw(&p);
	RING_IS(&strip_of(&d, 0)->straight, 10, 0, 0, 6000, 0, 6000 - 100 / tan((M_PI - a) / 4),
	        100, far, 100);
}
END_TEST

START_TEST(a_border_wider_than_the_paving_is_refused)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 400, 0, 400);

	border_by_hand(&p, 1, 450, CORNER_MITRED);
	p.rings[0].nodes[2].border = 1;
	ck_refused(&p, "the border along edge 3 is wider than the paving there; take fewer");
	border_all(&p, 0, 200, CORNER_MITRED);
	ck_refused(&p, "the border along edge 1 is wider");
	border_all(&p, 0, 199, CORNER_MITRED);
	ck_assert_uint_eq(draw(&p).count, 4);
	p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 200, 3000, 200, 3000, 2000, 2000, 2000 });
	border_by_hand(&p, 1, 250, CORNER_MITRED);
	p.rings[1].nodes[0].border = 1;
	ck_refused(&p, "the border along edge 1 of opening 1 is wider");
}
END_TEST

START_TEST(without_borders_the_field_is_all)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct drawn d = draw(&p);

	ck_assert_uint_eq(d.count, 0);
	RING_IS(&d.field.rings[0], 0, 0, 0, 6000, 0, 6000, 4000, 0, 4000);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("borders");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, mitred_runs_round_a_rectangle_are_trapezoids);
	tcase_add_test(tc, a_plan_drawn_clockwise_has_the_same_runs);
	tcase_add_test(tc, butted_runs_round_a_rectangle_make_a_pinwheel);
	tcase_add_test(tc, a_run_ends_square_where_the_next_edge_has_none);
	tcase_add_test(tc, a_reentrant_corner_is_mitred_or_butted);
	tcase_add_test(tc, runs_go_round_an_opening);
	tcase_add_test(tc, where_two_borders_differ_the_run_that_comes_in_decides);
	tcase_add_test(tc, corners_that_are_not_square);
	tcase_add_test(tc, an_edge_may_be_split_and_bordered_in_part);
	tcase_add_test(tc, a_corner_that_hardly_turns_is_mitred);
	tcase_add_test(tc, a_butt_that_finds_no_edge_to_lie_along_is_mitred);
	tcase_add_test(tc, a_step_between_two_gaps_has_no_border);
	tcase_add_test(tc, an_acute_corner_is_mitred_however_far_its_inner_corner);
	tcase_add_test(tc, a_border_wider_than_the_paving_is_refused);
	tcase_add_test(tc, without_borders_the_field_is_all);
	return suite_run("borders", tc);
}
