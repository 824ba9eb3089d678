/* Border courses by hand: where runs end at corners of every kind, curves, gaps, frames, refusals.
 * Strips are given by their corners in mm; areas are worked out beside them. */
#include "plans.h"
#include "suite.h"

#include "slabwright/geom.h"

#include <math.h>
#include <string.h>

static struct arena mem;
static struct plan_border borders[3]; /* of the plan under test */

static void teardown(void)
{
	arena_free(&mem);
}

#define PLAN(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })

/* Border number `number`: one soldier course that takes depth_mm. */
static void border_by_hand(
        struct plan *p, size_t number, double depth_mm, enum border_corner corners)
{
	struct plan_border *b = &borders[number - 1];

	border_init(b);
	b->slab.length_um = llround(depth_mm * 1000);
	b->corners = corners;
	p->borders = borders;
	if (p->border_count < number)
		p->border_count = number;
}

/* One border, the first, along all edges of a ring. */
static void border_all(struct plan *p, size_t ring, double depth_mm, enum border_corner corners)
{
	border_by_hand(p, 1, depth_mm, corners);
	for (size_t i = 0; i < p->rings[ring].count; i++)
		p->rings[ring].nodes[i].border = 1;
}

struct drawn {
	struct region from, field;
	struct strip *strips;
	size_t count;
};

/* Runs and field must add up to what they are drawn out of. */
static struct drawn draw_in(const struct plan *p, const double *gaps)
{
	struct drawn d;
	double area = 0;
	struct error err = { 0 };

	ck_assert_int_eq(outline_check(p, &err), STATUS_OK);
	ck_assert_int_eq(region_from_plan(&mem, p, &d.from, NULL), STATUS_OK);
	if (gaps)
		ck_assert_int_eq(region_inset(&mem, p, &d.from, gaps, &d.from, NULL), STATUS_OK);
	ck_assert_msg(
	        region_borders(&mem, p, &d.from, &d.strips, &d.count, &d.field, &err) == STATUS_OK,
	        "%s", err.text);
	for (size_t i = 0; i < d.count; i++) {
		area += ring_polygon_area(d.strips[i].ring.p, d.strips[i].ring.n);
		ck_assert(!i || d.strips[i].edge > d.strips[i - 1].edge);
	}
	ck_assert_double_eq_tol(area + region_area_um2(&d.field), region_area_um2(&d.from), 2e7);
	return d;
}

static struct drawn draw(const struct plan *p)
{
	return draw_in(p, NULL);
}

static const struct strip *strip_of(const struct drawn *d, size_t edge)
{
	for (size_t i = 0; i < d->count; i++)
		if (d->strips[i].edge == edge)
			return &d->strips[i];
	ck_abort_msg("no strip along edge %zu", edge);
	return NULL;
}

static double area_mm2(const struct ring *r)
{
	return ring_polygon_area(r->p, r->n) * 1e-6;
}

/* The ring has these corners in mm, in order, begun anywhere. */
static void ck_ring(const struct ring *r, size_t n, const double *mm, double tol_um)
{
	size_t start = 0;

	ck_assert_uint_eq(r->n, n);
	while (start < n &&
	        hypot(r->p[start].x - mm[0] * 1000, r->p[start].y - mm[1] * 1000) > tol_um)
		start++;
	ck_assert_msg(start < n, "no corner at %g, %g", mm[0], mm[1]);
	for (size_t i = 0; i < n; i++) {
		struct point p = r->p[(start + i) % n];

		ck_assert_msg(hypot(p.x - mm[2 * i] * 1000, p.y - mm[2 * i + 1] * 1000) <= tol_um,
		        "corner %zu at %.3f, %.3f", i, p.x / 1000, p.y / 1000);
	}
}

#define RING_IS(ring, tol_um, ...)                                                                 \
	ck_ring(ring, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                        \
	        (double[]){ __VA_ARGS__ }, tol_um)

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

static void ck_refused(const struct plan *p, const char *words)
{
	struct region from, field;
	struct strip *strips;
	size_t count;
	struct error err = { 0 };

	region_from_plan(&mem, p, &from, NULL);
	ck_assert_int_eq(
	        region_borders(&mem, p, &from, &strips, &count, &field, &err), STATUS_PLAN);
	ck_assert_msg(
	        strstr(err.text, words) != NULL, "\"%s\" does not say \"%s\"", err.text, words);
}

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

/* Something would have to be left over, or lie outside, where an arc stands in the way of the line
 * along which a run ends. */
START_TEST(a_run_that_ends_beyond_another_edge_is_refused)
{
	struct plan p = PLAN(
	        0, 0, 4000, 0, 4000, 3000, 2000, 3000, 2000, 2000, 1900, 2000, 1900, 1500, 0, 1500);

	p.rings[0].nodes[5].rise_um = -240000;
	ck_assert_int_eq(outline_check(&p, NULL), STATUS_OK);
	border_by_hand(&p, 1, 450, CORNER_MITRED);
	p.rings[0].nodes[4].border = 1;
	ck_refused(&p, "the border along edge 5 is wider");
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
	tcase_add_test(tc, a_curve_that_bulges_out_is_narrow_at_the_field);
	tcase_add_test(tc, a_curve_that_bulges_in_is_narrow_at_the_outline);
	tcase_add_test(tc, a_butted_curve_fills_its_course);
	tcase_add_test(tc, a_round_opening_has_two_runs);
	tcase_add_test(tc, borders_lie_within_the_gaps);
	tcase_add_test(tc, a_step_between_two_gaps_has_no_border);
	tcase_add_test(tc, an_acute_corner_is_mitred_however_far_its_inner_corner);
	tcase_add_test(tc, arcs_that_meet_in_a_point_trim_each_other);
	tcase_add_test(tc, a_border_wider_than_the_paving_is_refused);
	tcase_add_test(tc, a_border_as_wide_as_its_curve_is_refused);
	tcase_add_test(tc, a_run_that_ends_beyond_another_edge_is_refused);
	tcase_add_test(tc, frames_of_strips_undo_each_other);
	tcase_add_test(tc, without_borders_the_field_is_all);
	return suite_run("borders", tc);
}
