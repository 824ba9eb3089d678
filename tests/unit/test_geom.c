/* Outlines by hand: lengths, areas, faults by name, and cutting along lines. */
#include "plans.h"
#include "suite.h"

#include "slabwright/geom.h"

#include <math.h>
#include <stdlib.h>

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

#define PLAN(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })

START_TEST(area_and_perimeter_take_the_opening_off)
{
	struct plan p = PLAN(0, 0, 6200, 0, 6200, 4150, 0, 4150);

	opening_by_hand(&mem, &p, 4, (double[]){ 1000, 1000, 1000, 1450, 1450, 1450, 1450, 1000 });
	ck_assert_double_eq_tol(plan_area_m2(&p), 6.2 * 4.15 - 0.45 * 0.45, 1e-12);
	ck_assert_double_eq_tol(plan_perimeter_m(&p), 2 * (6.2 + 4.15), 1e-12);
	ck_assert_double_eq_tol(plan_opening_edges_m(&p), 1.8, 1e-12);
	ck_assert_uint_eq(plan_edge_count(&p), 8);
	ck_assert_uint_eq(plan_edge_number(&p, 1, 2), 6);
}
END_TEST

START_TEST(two_half_circles_make_a_circle)
{
	struct plan p = PLAN(0, 0, 3000, 0);

	p.rings[0].nodes[0].rise_um = p.rings[0].nodes[1].rise_um = 1500000;
	ck_assert_int_eq(outline_check(&p, NULL), STATUS_OK);
	ck_assert_double_eq_tol(plan_area_m2(&p), M_PI * 2.25, 1e-9);
	ck_assert_double_eq_tol(plan_perimeter_m(&p), M_PI * 3, 1e-9);
}
END_TEST

START_TEST(a_rise_bulges_outward_whichever_way_the_ring_runs)
{
	struct plan p = PLAN(0, 0, 4000, 0, 4000, 3000, 0, 3000),
	            q = PLAN(0, 3000, 4000, 3000, 4000, 0, 0, 0);
	struct region r, s;

	p.rings[0].nodes[1].rise_um = 400000;
	q.rings[0].nodes[1].rise_um = 400000;
	ck_assert_double_eq_tol(plan_area_m2(&p), plan_area_m2(&q), 1e-12);
	ck_assert_double_gt(plan_area_m2(&p), 12);
	region_from_plan(&mem, &p, &r, NULL);
	region_from_plan(&mem, &q, &s, NULL);
	ck_assert_double_eq_tol(region_box(&r).x1, 4400000, ARC_CHORD_ERROR_UM + 1);
	ck_assert_double_eq(region_box(&s).x1, region_box(&r).x1);
	ck_assert_double_eq_tol(region_area_um2(&r), region_area_um2(&s), 1);
	/* Flattened within half a millimetre: the area lacks at most arc length times that. */
	ck_assert_double_lt(plan_area_m2(&p) - region_area_um2(&r) * 1e-12, 3.2 * 0.0005);
	ck_assert_double_gt(plan_area_m2(&p) - region_area_um2(&r) * 1e-12, 0);
}
END_TEST

START_TEST(arc_corners_lie_on_the_arc)
{
	struct plan p = PLAN(0, 0, 4000, 0, 4000, 3000, 0, 3000);
	struct region r;
	double h = 0.35e6, c = 3e6, radius = (c * c / 4 + h * h) / (2 * h), cx = 4e6 + h - radius,
	       cy = 1.5e6;

	p.rings[0].nodes[1].rise_um = 350000;
	region_from_plan(&mem, &p, &r, NULL);
	for (size_t i = 0; i < r.rings[0].n; i++) {
		struct point a = r.rings[0].p[i], b = r.rings[0].p[(i + 1) % r.rings[0].n];

		if (r.rings[0].edge[i] != 1)
			continue;
		ck_assert_double_eq_tol(hypot(a.x - cx, a.y - cy), radius, 2);
		ck_assert_double_gt(hypot((a.x + b.x) / 2 - cx, (a.y + b.y) / 2 - cy),
		        radius - ARC_CHORD_ERROR_UM - 2);
	}
}
END_TEST

struct fault {
	const char *name; /* what the message must name */
	size_t n;
	double mm[16];
	size_t opening_n;
	double opening_mm[8];
	double rise; /* of edge 1 */
};

static const struct fault faults[] = {
	{ "no outline", 0, { 0 }, 0, { 0 }, 0 },
	{ "needs three", 2, { 0, 0, 1000, 0 }, 0, { 0 }, 0 },
	{ "edge 1 (3.606 m) and edge 3 (3.606 m) cross", 4, { 0, 0, 3000, 2000, 3000, 0, 0, 2000 },
	        0, { 0 }, 0 },
	{ "edge 2 (0.000 m) has no length", 4, { 0, 0, 3000, 0, 3000, 0, 0, 2000 }, 0, { 0 }, 0 },
	{ "edge 3 (2.000 m) and edge 5", 5, { 0, 0, 3000, 0, 3000, 2000, 1000, 2000, 2000, 2000 },
	        0, { 0 }, 0 },
	{ "opening 1 leaves the outline", 4, { 0, 0, 3000, 0, 3000, 2000, 0, 2000 }, 4,
	        { 2500, 500, 3500, 500, 3500, 1000, 2500, 1000 }, 0 },
	{ "opening 1 lies outside", 4, { 0, 0, 3000, 0, 3000, 2000, 0, 2000 }, 4,
	        { 4500, 500, 5500, 500, 5500, 1000, 4500, 1000 }, 0 },
	{ "more than 1 km", 3, { 0, 0, 10000000, 0, 0, 2000 }, 0, { 0 }, 0 },
	{ "rises more than", 4, { 0, 0, 3000, 0, 3000, 2000, 0, 2000 }, 0, { 0 }, 3500 },
	{ "inside out", 4, { 0, 0, 3000, 0, 3000, 2000, 0, 2000 }, 0, { 0 }, -2900 },
};

START_TEST(a_broken_outline_is_refused_by_name)
{
	const struct fault *f = &faults[_i];
	struct plan p;
	struct error err = { 0 };

	plan_init(&p);
	if (f->n)
		opening_by_hand(&mem, &p, f->n, f->mm);
	if (f->opening_n)
		opening_by_hand(&mem, &p, f->opening_n, f->opening_mm);
	if (f->rise != 0)
		p.rings[0].nodes[0].rise_um = (int64_t)(f->rise * 1000);
	ck_assert_int_eq(outline_check(&p, &err), STATUS_PLAN);
	ck_assert_msg(
	        strstr(err.text, f->name) != NULL, "\"%s\" does not say \"%s\"", err.text, f->name);
}
END_TEST

START_TEST(an_open_outline_is_not_ready)
{
	struct plan p = PLAN(0, 0, 3000, 0, 3000, 2000);
	struct error err;

	p.rings[0].closed = false;
	ck_assert_int_eq(outline_check(&p, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "not closed yet"));
}
END_TEST

START_TEST(openings_must_not_touch_or_nest)
{
	struct plan p = PLAN(0, 0, 3000, 0, 3000, 2000, 0, 2000);
	struct error err;

	opening_by_hand(&mem, &p, 4, (double[]){ 500, 500, 1500, 500, 1500, 1500, 500, 1500 });
	ck_assert_int_eq(outline_check(&p, &err), STATUS_OK);
	opening_by_hand(&mem, &p, 4, (double[]){ 700, 700, 900, 700, 900, 900, 700, 900 });
	ck_assert_int_eq(outline_check(&p, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "opening 2 lies inside opening 1"));
	p.ring_count = 2;
	opening_by_hand(&mem, &p, 4, (double[]){ 1500, 700, 1900, 700, 1900, 900, 1500, 900 });
	ck_assert_int_eq(outline_check(&p, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "of opening 2"));
}
END_TEST

START_TEST(a_band_keeps_what_lies_strictly_between_its_lines)
{
	struct plan p = PLAN(
	        0, 0, 4000, 0, 4000, 1000, 3000, 1000, 3000, 3000, 1000, 3000, 1000, 1000, 0, 1000);
	struct region r, band;

	region_from_plan(&mem, &p, &r, NULL);
	region_band(&mem, &r, AXIS_Y, 1e6, 3e6, &band, NULL);
	ck_assert_uint_eq(band.count, 1);
	ck_assert_double_eq(region_area_um2(&band), 4e12);
	region_band(&mem, &r, AXIS_Y, 0, 1e6, &band, NULL);
	ck_assert_double_eq(region_area_um2(&band), 4e12);
	region_band(&mem, &r, AXIS_X, 0.5e6, 3.5e6, &band, NULL);
	ck_assert_double_eq(region_area_um2(&band), 7e12);
	region_band(&mem, &r, AXIS_Y, 3e6, 5e6, &band, NULL);
	ck_assert_uint_eq(band.count, 0);
}
END_TEST

START_TEST(a_band_comes_apart_where_only_a_point_joins_it)
{
	/* A wedge from below reaches up to y = 2 m exactly. */
	struct plan p = PLAN(0, 0, 1000, 0, 2000, 2000, 3000, 0, 4000, 0, 4000, 3000, 0, 3000);
	struct region r, band;

	region_from_plan(&mem, &p, &r, NULL);
	region_band(&mem, &r, AXIS_Y, 1e6, 2e6, &band, NULL);
	ck_assert_uint_eq(band.count, 2);
	ck_assert_double_eq(region_area_um2(&band), 3.5e12);
	region_band(&mem, &r, AXIS_Y, 1e6, 2.1e6, &band, NULL);
	ck_assert_uint_eq(band.count, 1);
}
END_TEST

START_TEST(a_hole_inside_a_band_stays_a_hole)
{
	struct plan p = PLAN(0, 0, 3000, 0, 3000, 3000, 0, 3000);
	struct region r, band;

	opening_by_hand(&mem, &p, 4, (double[]){ 1000, 1000, 2000, 1000, 2000, 2000, 1000, 2000 });
	region_from_plan(&mem, &p, &r, NULL);
	region_band(&mem, &r, AXIS_Y, 0.5e6, 2.5e6, &band, NULL);
	ck_assert_uint_eq(band.count, 2);
	ck_assert_double_eq(region_area_um2(&band), 5e12);
	region_band(&mem, &r, AXIS_Y, 1.5e6, 2.5e6, &band, NULL);
	ck_assert_uint_eq(band.count, 1);
	ck_assert_double_eq(region_area_um2(&band), 2.5e12);
}
END_TEST

START_TEST(quarter_turns_are_exact_and_frames_undo_each_other)
{
	struct point p = { 1234567, -7654321 },
	             q = frame_from_plan(p, 1000, 2000, 90 * UDEG_PER_DEG), back;

	ck_assert_double_eq(q.x, -7654321 - 2000);
	ck_assert_double_eq(q.y, -(1234567 - 1000));
	for (int64_t a = -400; a < 400; a += 7) {
		back = plan_from_frame(
		        frame_from_plan(p, 55, 66, a * UDEG_PER_DEG), 55, 66, a * UDEG_PER_DEG);
		ck_assert_double_eq_tol(back.x, p.x, 1e-6);
		ck_assert_double_eq_tol(back.y, p.y, 1e-6);
	}
}
END_TEST

START_TEST(distance_between_polygons)
{
	struct point a[4] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };

	ck_assert_double_eq_tol(polygons_distance(a, 4, a, 4, (struct point){ 13, 14 }), 5, 1e-12);
	ck_assert_double_eq_tol(polygons_distance(a, 4, a, 4, (struct point){ 12, 3 }), 2, 1e-12);
	ck_assert_double_eq(polygons_distance(a, 4, a, 4, (struct point){ 5, 5 }), 0);
	ck_assert_double_eq(polygons_distance(a, 4, a, 4, (struct point){ 10, 0 }), 0);
	/* Two on one slanted line, a gap apart: on which side of it the ends of the other lie is
	 * the rounding's guess. */
	for (int i = 1; i < 2000; i++) {
		double length = 1 + i % 977, gap = (0.1 + i % 13) * 1.1;
		const double along[] = { 0.3 * length, 1.7 * length, 1.7 * length + gap,
			3 * length + gap };
		struct point p[4];

		for (int k = 0; k < 4; k++)
			p[k] = (struct point){ cos(i) * along[k], sin(i) * along[k] };
		ck_assert_double_eq_tol(
		        polygons_distance(p, 2, p + 2, 2, (struct point){ 0, 0 }), gap, 1e-6);
	}
}
END_TEST

START_TEST(an_inset_moves_edges_in_and_mitres_corners)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 2000, 4000, 2000, 3000, 0, 3000);
	struct region r, in;
	double by[10] = { 10000, 0, 20000, 0, 0, 0, 5000, 5000, 5000, 5000 };

	opening_by_hand(&mem, &p, 4, (double[]){ 3000, 1000, 3000, 1500, 3500, 1500, 3500, 1000 });
	region_from_plan(&mem, &p, &r, NULL);
	ck_assert_int_eq(region_inset(&mem, &p, &r, by, &in, NULL), STATUS_OK);
	ck_assert_double_eq(region_box(&in).y0, 10000);
	ck_assert_double_eq(region_box(&in).y1, 3980000);
	ck_assert_double_eq_tol(
	        region_area_um2(&in), (6000.0 * 2990 + 4000 * 980 - 510 * 510) * 1e6, 1);
}
END_TEST

START_TEST(an_inset_that_leaves_nothing_is_refused)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 400, 0, 400);
	struct region r, in;
	double by[4] = { 150000, 0, 260000, 0 };
	struct error err;

	region_from_plan(&mem, &p, &r, NULL);
	ck_assert_int_eq(region_inset(&mem, &p, &r, by, &in, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "narrower"));
	ck_assert_ptr_nonnull(strstr(err.text, "along edge 3,"));
	by[0] = by[2] = 150000;
	ck_assert_int_eq(region_inset(&mem, &p, &r, by, &in, NULL), STATUS_OK);
}
END_TEST

/* Drawn in by the same everywhere, a circle is a smaller circle. */
START_TEST(an_inset_of_a_circle_is_a_circle)
{
	struct plan p = PLAN(0, 0, 3000, 0);
	struct region r, in;
	double by[2] = { 100000, 100000 };

	p.rings[0].nodes[0].rise_um = p.rings[0].nodes[1].rise_um = 1500000;
	region_from_plan(&mem, &p, &r, NULL);
	ck_assert_int_eq(region_inset(&mem, &p, &r, by, &in, NULL), STATUS_OK);
	ck_assert_double_eq_tol(region_area_um2(&in), M_PI * 1.4e6 * 1.4e6, M_PI * 2.8e6 * 600);
}
END_TEST

/* A half circle of radius 1 m against a wall: the gap there swallows the ends of the arc, whatever
 * the length of its chords. What is left is a segment of the circle; with a gap over the radius
 * nothing is. */
START_TEST(a_gap_may_swallow_the_ends_of_an_arc)
{
	struct plan p = PLAN(0, 0, 2000, 0);
	struct region r, in;

	p.rings[0].nodes[1].rise_um = 1000000;
	region_from_plan(&mem, &p, &r, NULL);
	for (double gap = 10000; gap < 900000; gap += 7000) {
		double by[2] = { gap, 0 }, height = gap / 1e6;
		double left = acos(height) - height * sqrt(1 - height * height);

		ck_assert_int_eq(region_inset(&mem, &p, &r, by, &in, NULL), STATUS_OK);
		ck_assert_double_eq(region_box(&in).y0, gap);
		ck_assert_double_eq_tol(region_area_um2(&in) * 1e-12, left, M_PI * 0.0005);
	}
	ck_assert_int_eq(
	        region_inset(&mem, &p, &r, (double[]){ 1000001, 0 }, &in, NULL), STATUS_PLAN);
	ck_assert_int_eq(
	        region_inset(&mem, &p, &r, (double[]){ 0, 1000001 }, &in, NULL), STATUS_PLAN);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("geometry");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, area_and_perimeter_take_the_opening_off);
	tcase_add_test(tc, two_half_circles_make_a_circle);
	tcase_add_test(tc, a_rise_bulges_outward_whichever_way_the_ring_runs);
	tcase_add_test(tc, arc_corners_lie_on_the_arc);
	tcase_add_loop_test(
	        tc, a_broken_outline_is_refused_by_name, 0, sizeof faults / sizeof *faults);
	tcase_add_test(tc, an_open_outline_is_not_ready);
	tcase_add_test(tc, openings_must_not_touch_or_nest);
	tcase_add_test(tc, a_band_keeps_what_lies_strictly_between_its_lines);
	tcase_add_test(tc, a_band_comes_apart_where_only_a_point_joins_it);
	tcase_add_test(tc, a_hole_inside_a_band_stays_a_hole);
	tcase_add_test(tc, quarter_turns_are_exact_and_frames_undo_each_other);
	tcase_add_test(tc, distance_between_polygons);
	tcase_add_test(tc, an_inset_moves_edges_in_and_mitres_corners);
	tcase_add_test(tc, an_inset_that_leaves_nothing_is_refused);
	tcase_add_test(tc, an_inset_of_a_circle_is_a_circle);
	tcase_add_test(tc, a_gap_may_swallow_the_ends_of_an_arc);
	return suite_run("geometry", tc);
}
