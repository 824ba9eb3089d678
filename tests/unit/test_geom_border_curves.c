/* Border courses along curves: their frames, their ends, and arcs that leave them no room. */
#include "test_geom_border.h"

/* Between two circles about one centre and the lines y = -1500 and 1500. */
static double between_circles(double r, double s)
{
	return 1500 * sqrt(r * r - 1500 * 1500) + r * r * asin(1500 / r) -
	       1500 * sqrt(s * s - 1500 * 1500) - s * s * asin(1500 / s);
}

/* An arc over 3 m that rises by 0.4 m: radius (1500 * 1500 + 400 * 400) / 800. */
static const double RADIUS = 3012.5;

static struct plan with_arc(double rise_mm)
{
	struct plan p = PLAN(0, 0, 4000, 0, 4000, 3000, 0, 3000);

	p.rings[0].nodes[1].rise_um = llround(rise_mm * 1000);
	return p;
}

/* Corners of chords stand on the circle, but for rounding and for the little by which those of
 * chords moved in stand off theirs. */
static void ck_curve(const struct strip *s, double outer, double inner, bool clockwise)
{
	ck_assert(s->curved);
	ck_assert_int_eq(s->clockwise, clockwise);
	ck_assert_double_eq_tol(s->outer_um, outer * 1000, 5);
	ck_assert_double_eq_tol(s->inner_um, inner * 1000, 5);
	ck_assert_double_eq(s->radius_um, fmin(s->outer_um, s->inner_um));
}

START_TEST(a_curve_that_bulges_out_is_narrow_at_the_field)
{
	struct plan p = with_arc(400);
	double turn = 4 * atan(400 / 1500.0), r = RADIUS - 200,
	       lean = (asin(1500 / r) - asin(1500 / RADIUS)) * r;
	struct drawn d;
	const struct strip *s;

	border_by_hand(&p, 1, 200, CORNER_MITRED);
	p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	s = strip_of(&d, 1);
	ck_curve(s, RADIUS, r, false);
	ck_assert_double_eq_tol(s->centre.x, (4400 - RADIUS) * 1000, 1);
	ck_assert_double_eq_tol(s->centre.y, 1500000, 1);
	ck_assert_double_eq_tol(s->from_rad, -turn / 2, 1e-6);
	ck_assert_double_eq_tol(area_mm2(&s->ring), between_circles(RADIUS, r), 1600);
	/* The ends lie along the neighbours, so that the narrow side is longer by a lean; there the
	 * last chord is produced, which is some mm off the circle. */
	RING_IS(&s->straight, 4000, 0, 0, turn * r, 0, turn * r + lean, 200, -lean, 200);
	ck_assert_double_eq(s->straight.p[0].x, 0);
	for (size_t i = 0; i < 4; i++)
		ck_assert_double_eq_tol(s->straight.p[i].y, i < 2 ? 0 : 200000, 1e-6);
}
END_TEST

START_TEST(a_curve_that_bulges_in_is_narrow_at_the_outline)
{
	struct plan p = with_arc(-400);
	double turn = 4 * atan(400 / 1500.0), r = RADIUS + 200,
	       lean = (asin(1500 / RADIUS) - asin(1500 / r)) * RADIUS;
	struct drawn d;
	const struct strip *s;

	border_by_hand(&p, 1, 200, CORNER_MITRED);
	p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	s = strip_of(&d, 1);
	ck_curve(s, RADIUS, r, true);
	ck_assert_double_eq_tol(s->centre.x, (3600 + RADIUS) * 1000, 1);
	ck_assert_double_eq_tol(area_mm2(&s->ring), between_circles(r, RADIUS), 1600);
	RING_IS(&s->straight, 1000, 0, 0, turn * RADIUS, 0, turn * RADIUS - lean, 200, lean, 200);
}
END_TEST

/* Where a curve is butted, its ends are straight and square to the course. */
START_TEST(a_butted_curve_fills_its_course)
{
	struct plan p = with_arc(400);
	struct drawn d;
	const struct strip *s;

	border_all(&p, 0, 200, CORNER_BUTTED);
	d = draw(&p);
	s = strip_of(&d, 1);
	ck_assert_uint_eq(s->straight.n, 5);
	for (size_t i = 0; i < 5; i++)
		ck_assert(s->straight.p[i].y == 0 || fabs(s->straight.p[i].y - 200000) < 1e-6);
	/* Edge 1 goes through along the arc's beginning, the arc along the top's. */
	ck_assert_double_gt(s->straight.p[0].x, 150000);
	ck_assert_double_eq(s->straight.p[0].y, 0);
	ck_assert_double_gt(s->straight.p[2].y, 0);
	ck_assert_double_gt(s->straight.p[1].x, s->straight.p[0].x);
}
END_TEST

START_TEST(a_round_opening_has_two_runs)
{
	struct plan p = PLAN(0, 0, 4000, 0, 4000, 3000, 0, 3000);
	struct drawn d;

	opening_by_hand(&mem, &p, 2, (double[]){ 1500, 1500, 2500, 1500 });
	p.rings[1].nodes[0].rise_um = p.rings[1].nodes[1].rise_um = 500000;
	border_all(&p, 1, 100, CORNER_BUTTED);
	d = draw(&p);
	ck_assert_uint_eq(d.count, 2);
	for (size_t i = 0; i < 2; i++) {
		const struct strip *s = &d.strips[i];

		ck_curve(s, 500, 600, true);
		ck_assert_double_eq_tol(s->centre.x, 2000000, 1);
		ck_assert_double_eq_tol(s->centre.y, 1500000, 1);
		ck_assert_double_eq_tol(
		        area_mm2(&s->ring), M_PI / 2 * (600 * 600 - 500 * 500), 400);
		RING_IS(&s->straight, 10, 0, 0, M_PI * 500, 0, M_PI * 500, 100, 0, 100);
	}
}
END_TEST

START_TEST(borders_lie_within_the_gaps)
{
	struct plan p = with_arc(400);
	struct drawn d;

	border_all(&p, 0, 200, CORNER_MITRED);
	d = draw_in(&p, (double[]){ 10000, 20000, 0, 0 });
	ck_assert_double_eq(strip_of(&d, 0)->ring.p[0].y, 10000);
	ck_curve(strip_of(&d, 1), RADIUS - 20, RADIUS - 220, false);
	ck_assert_double_eq(region_box(&d.field).y0, 210000);
	ck_assert_double_eq_tol(region_box(&d.field).x1, 4180000, ARC_CHORD_ERROR_UM + 2);
}
END_TEST

/* Two arcs of one radius meet in the shape of a lens: the border of each swallows chords at the end
 * of the other, and what is left is the lens of the inner circles. */
START_TEST(arcs_that_meet_in_a_point_trim_each_other)
{
	struct plan p = PLAN(0, 0, 3000, 0);
	double r = (1500 * 1500 + 400 * 400) / 800.0, s = r - 150, half;
	struct drawn d;

	p.rings[0].nodes[0].rise_um = p.rings[0].nodes[1].rise_um = 400000;
	border_all(&p, 0, 150, CORNER_MITRED);
	d = draw(&p);
	half = acos((r - 400) / s);
	ck_assert_double_eq_tol(
	        region_area_um2(&d.field) * 1e-6, s * s * (2 * half - sin(2 * half)), 3000);
	ck_assert_double_eq_tol(area_mm2(&d.strips[0].ring), area_mm2(&d.strips[1].ring), 1);
	ck_assert_double_eq_tol(region_box(&d.field).x0, (1500 - s * sin(half)) * 1000, 2000);
}
END_TEST

START_TEST(a_border_as_wide_as_its_curve_is_refused)
{
	struct plan p = PLAN(0, 0, 3000, 0, 3000, 1000, 0, 1000);

	p.rings[0].nodes[1].rise_um = 500000;
	border_by_hand(&p, 1, 500.01, CORNER_MITRED);
	p.rings[0].nodes[1].border = 1;
	ck_refused(&p, "the border along edge 2 does not go round its curve, which has a radius of "
	               "0.500 m");
	borders[0].slab.length_um = 450000;
	ck_assert_uint_eq(draw(&p).count, 1);
}
END_TEST

/* Arcs in narrow corners. Corners in mm with rise, and which of two borders lies along the edge. */
struct tight {
	double depth[2];
	enum border_corner corners[2];
	struct plan_node nodes[4];
};

static struct plan tight_plan(const struct tight *t)
{
	struct plan p;
	struct plan_node nodes[4];
	size_t n = 0;

	plan_init(&p);
	for (; n < 4 && t->nodes[n].x_um; n++) {
		nodes[n] = t->nodes[n];
		nodes[n].x_um *= 1000;
		nodes[n].y_um *= 1000;
		nodes[n].rise_um *= 1000;
	}
	plan_add_ring(&mem, &p, nodes, n);
	for (size_t i = 0; i < 2; i++)
		border_by_hand(&p, i + 1, t->depth[i], t->corners[i]);
	return p;
}

/* In turn: twice, chords of both sides of a sharp corner go, as many as it takes; a butt that would
 * cross an arc, and one that would take all of the next run's outer line, are mitred. */
static const struct tight fitting[] = {
	{ { 150, 400 }, { CORNER_BUTTED, CORNER_BUTTED },
	        { { 2500, 2500, 0, EDGE_OPEN, 1, 0 }, { 800, 600, 0, EDGE_OPEN, 1, 0 },
	                { 1500, 2300, -150, EDGE_OPEN, 1, 0 } } },
	{ { 100, 450 }, { CORNER_BUTTED, CORNER_BUTTED },
	        { { 2800, 1700, -400, EDGE_OPEN, 1, 0 }, { 2900, 200, 700, EDGE_OPEN, 2, 0 },
	                { 1200, 2500, 0, EDGE_OPEN, 1, 0 } } },
	{ { 400, 100 }, { CORNER_BUTTED, CORNER_MITRED },
	        { { 1800, 1600, 300, EDGE_OPEN, 0, 0 }, { 1000, 2200, -400, EDGE_OPEN, 2, 0 },
	                { 1800, 2700, 150, EDGE_OPEN, 1, 0 },
	                { 2700, 2900, 0, EDGE_OPEN, 2, 0 } } },
	{ { 250, 400 }, { CORNER_BUTTED, CORNER_BUTTED },
	        { { 2300, 800, 500, EDGE_OPEN, 2, 0 }, { 1700, 2700, -350, EDGE_OPEN, 1, 0 },
	                { 2600, 2100, 600, EDGE_OPEN, 2, 0 } } },
};

START_TEST(arcs_in_narrow_corners_have_their_borders)
{
	struct plan p = tight_plan(&fitting[_i]);

	ck_assert_uint_eq(draw(&p).count, 3);
}
END_TEST

/* In turn: the line along which a run ends would lead out through an arc; two borders use up all
 * of the arc between them. */
static const struct tight too_tight[] = {
	{ { 100, 250 }, { CORNER_MITRED, CORNER_BUTTED },
	        { { 1800, 2000, 250, EDGE_OPEN, 2, 0 }, { 1500, 2400, 0, EDGE_OPEN, 1, 0 },
	                { 2200, 2100, 0, EDGE_OPEN, 0, 0 } } },
	{ { 450, 350 }, { CORNER_MITRED, CORNER_MITRED },
	        { { 2300, 1500, 0, EDGE_OPEN, 2, 0 }, { 2700, 1800, 100, EDGE_OPEN, 0, 0 },
	                { 2000, 2000, 0, EDGE_OPEN, 1, 0 } } },
};

START_TEST(a_border_that_would_lead_out_of_the_paving_is_refused)
{
	struct plan p = tight_plan(&too_tight[_i]);

	ck_assert_int_eq(outline_check(&p, NULL), STATUS_OK);
	ck_refused(
	        &p, _i ? "the border along edge 3 is wider" : "the border along edge 1 is wider");
}
END_TEST

/* The corner turns by 16 degrees, but the arc it leads to bends away: a butt of 100 mm would meet
 * it 458 mm on; one of 40 mm meets it before 160. */
START_TEST(a_butt_longer_than_four_depths_is_mitred)
{
	struct plan p = PLAN(0, 0, 3000, 0, 4381, 145, 4381, 4000, 0, 4000);
	struct drawn d;

	p.rings[0].nodes[1].rise_um = -60800;
	border_by_hand(&p, 1, 100, CORNER_BUTTED);
	p.rings[0].nodes[0].border = p.rings[0].nodes[1].border = 1;
	d = draw(&p);
	ck_assert_uint_eq(strip_of(&d, 0)->ring.n, 4);
	border_by_hand(&p, 1, 40, CORNER_BUTTED);
	d = draw(&p);
	ck_assert_uint_gt(strip_of(&d, 0)->ring.n, 4);
}
END_TEST

START_TEST(frames_of_strips_undo_each_other)
{
	struct plan p = PLAN(0, 0, 6000, 100, 6500, 4000, 3000, 4100, 3000, 2000, 0, 2000);
	struct drawn d;

	p.rings[0].nodes[1].rise_um = 700000;
	p.rings[0].nodes[4].rise_um = -400000;
	opening_by_hand(&mem, &p, 2, (double[]){ 4000, 1500, 5000, 1300 });
	p.rings[1].nodes[0].rise_um = 900000;
	p.rings[1].nodes[1].rise_um = 100000;
	border_all(&p, 0, 120, CORNER_BUTTED);
	p.rings[1].nodes[0].border = p.rings[1].nodes[1].border = 1;
	d = draw(&p);
	ck_assert_uint_eq(d.count, 8);
	for (size_t i = 0; i < d.count; i++) {
		const struct strip *s = &d.strips[i];
		struct box b = points_box(s->straight.p, s->straight.n);

		for (int j = 0; j <= 100; j++) {
			struct point at = { b.x0 + (b.x1 - b.x0) * j / 100, 1200.0 * j }, back;

			back = strip_from_plan(s, plan_from_strip(s, at));
			ck_assert_double_eq_tol(back.x, at.x, 1e-5);
			ck_assert_double_eq_tol(back.y, at.y, 1e-5);
		}
		for (size_t j = 0; j < s->ring.n; j++) {
			struct point flat = strip_from_plan(s, s->ring.p[j]),
			             back = plan_from_strip(s, flat);

			ck_assert_double_eq_tol(back.x, s->ring.p[j].x, 1e-5);
			ck_assert_double_eq_tol(back.y, s->ring.p[j].y, 1e-5);
			ck_assert_double_ge(flat.y, -5000);
			ck_assert_double_le(flat.y, 125000);
		}
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("borders along curves");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, a_curve_that_bulges_out_is_narrow_at_the_field);
	tcase_add_test(tc, a_curve_that_bulges_in_is_narrow_at_the_outline);
	tcase_add_test(tc, a_butted_curve_fills_its_course);
	tcase_add_test(tc, a_round_opening_has_two_runs);
	tcase_add_test(tc, borders_lie_within_the_gaps);
	tcase_add_test(tc, arcs_that_meet_in_a_point_trim_each_other);
	tcase_add_test(tc, a_border_as_wide_as_its_curve_is_refused);
	tcase_add_loop_test(
	        tc, arcs_in_narrow_corners_have_their_borders, 0, sizeof fitting / sizeof *fitting);
	tcase_add_loop_test(tc, a_border_that_would_lead_out_of_the_paving_is_refused, 0,
	        sizeof too_tight / sizeof *too_tight);
	tcase_add_test(tc, a_butt_longer_than_four_depths_is_mitred);
	tcase_add_test(tc, frames_of_strips_undo_each_other);
	return suite_run("borders along curves", tc);
}
