/* Regions split by a ring, by hand: what lies inside and outside, and whose edges they keep. */
#include "plans.h"
#include "suite.h"

#include "slabwright/geom.h"

#include <math.h>

enum { LABEL = 77 };

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

#define PLAN(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })

/* A zone's ring from x, y pairs in mm, flattened. */
#define RING(...) ring_of(&PLAN(__VA_ARGS__).rings[0])

static struct ring ring_of(const struct plan_ring *from)
{
	struct ring r;

	ck_assert_int_eq(ring_flatten(&mem, from, &r, NULL), STATUS_OK);
	return r;
}

struct halves {
	struct region in, out;
};

static struct halves split(const struct region *r, const struct ring *by)
{
	struct halves h;
	struct error err = { 0 };

	ck_assert_msg(
	        region_split(&mem, r, by, LABEL, &h.in, &h.out, &err) == STATUS_OK, "%s", err.text);
	return h;
}

static struct halves split_plan(const struct plan *p, struct ring by)
{
	struct region r;
	struct halves h;

	region_from_plan(&mem, p, &r, NULL);
	h = split(&r, &by);
	/* Rounded crossings move edges of some metres by up to a um. */
	ck_assert_double_eq_tol(
	        region_area_um2(&h.in) + region_area_um2(&h.out), region_area_um2(&r), 1e7);
	return h;
}

static size_t openings(const struct region *r)
{
	size_t n = 0;

	for (size_t i = 0; i < r->count; i++)
		n += ring_polygon_area(r->rings[i].p, r->rings[i].n) < 0;
	return n;
}

/* Length of the edges with a number, mm. */
static double length_of(const struct region *r, int edge)
{
	double sum = 0;

	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			struct point a = r->rings[i].p[j],
			             b = r->rings[i].p[(j + 1) % r->rings[i].n];

			if (r->rings[i].edge[j] == edge)
				sum += hypot(b.x - a.x, b.y - a.y);
		}
	return sum / 1000;
}

/* Rings, openings among them, and area of a part. */
#define CHECK_PART(part, rings, holes, m2)                                                         \
	do {                                                                                       \
		ck_assert_uint_eq((part).count, rings);                                            \
		ck_assert_uint_eq(openings(&(part)), holes);                                       \
		ck_assert_double_eq_tol(region_area_um2(&(part)) * 1e-12, m2, 1e-9);               \
	} while (0)

START_TEST(a_corner_is_taken_off)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct halves h = split_plan(&p, RING(4000, 3000, 7000, 3000, 7000, 5000, 4000, 5000));

	CHECK_PART(h.in, 1, 0, 2);
	CHECK_PART(h.out, 1, 0, 22);
	ck_assert_uint_eq(h.in.rings[0].n, 4);
	ck_assert_uint_eq(h.out.rings[0].n, 6);
	ck_assert_double_eq(length_of(&h.in, LABEL), 3000);
	ck_assert_double_eq(length_of(&h.out, LABEL), 3000);
	ck_assert_double_eq(length_of(&h.in, 1), 1000);
	ck_assert_double_eq(length_of(&h.in, 2), 2000);
	ck_assert_double_eq(length_of(&h.out, 0), 6000);
	ck_assert_double_eq(length_of(&h.out, 1), 3000);
	ck_assert_double_eq(length_of(&h.out, 2), 4000);
}
END_TEST

/* Of a paving of 6 by 4 m: rings, openings among them and area of either part, the length of edges
 * between them, and how much of the lower edge each has. */
struct cut {
	const char *what;
	size_t n;
	double mm[8];
	struct {
		size_t rings, openings;
		double m2, lower;
	} in, out;
	double between;
};

static const struct cut cuts[] = {
	{ "a strip across", 4, { 2000, -500, 3000, -500, 3000, 4500, 2000, 4500 },
	        { 1, 0, 4, 1000 }, { 2, 0, 20, 5000 }, 8000 },
	{ "an edge in common", 4, { 1000, 0, 3000, 0, 3000, 2000, 1000, 2000 }, { 1, 0, 4, 2000 },
	        { 1, 0, 20, 4000 }, 6000 },
	{ "along the outside", 4, { 1000, -2000, 3000, -2000, 3000, 0, 1000, 0 }, { 0, 0, 0, 0 },
	        { 1, 0, 24, 6000 }, 0 },
	{ "round everything", 4, { -1000, -1000, 9000, -1000, 9000, 9000, -1000, 9000 },
	        { 1, 0, 24, 6000 }, { 0, 0, 0, 0 }, 0 },
	{ "elsewhere", 3, { 7000, 0, 9000, 0, 9000, 2000 }, { 0, 0, 0, 0 }, { 1, 0, 24, 6000 }, 0 },
	{ "within", 4, { 1000, 1000, 3000, 1000, 3000, 2000, 1000, 2000 }, { 1, 0, 2, 0 },
	        { 2, 1, 22, 6000 }, 6000 },
	{ "a corner to a corner", 3, { 0, 0, 6000, 4000, 0, 4000 }, { 1, 0, 12, 0 },
	        { 1, 0, 12, 6000 }, 7211.102550928 },
	{ "only a point touches", 3, { 3000, 0, 2000, -1000, 4000, -1000 }, { 0, 0, 0, 0 },
	        { 1, 0, 24, 6000 }, 0 },
};

START_TEST(a_ring_takes_what_lies_in_it)
{
	const struct cut *c = &cuts[_i];
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000),
	            zone = plan_by_hand(&mem, c->n, c->mm);
	struct halves h = split_plan(&p, ring_of(&zone.rings[0]));

	CHECK_PART(h.in, c->in.rings, c->in.openings, c->in.m2);
	CHECK_PART(h.out, c->out.rings, c->out.openings, c->out.m2);
	ck_assert_msg(length_of(&h.in, 0) == c->in.lower && length_of(&h.out, 0) == c->out.lower,
	        "%s: %f and %f of the lower edge", c->what, length_of(&h.in, 0),
	        length_of(&h.out, 0));
	ck_assert_double_eq_tol(length_of(&h.in, LABEL), c->between, 1e-6);
	ck_assert_double_eq_tol(length_of(&h.out, LABEL), c->between, 1e-6);
}
END_TEST

START_TEST(a_ring_may_run_the_other_way_round)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct point c[4] = { { 1e6, 1e6 }, { 1e6, 5e6 }, { 3e6, 5e6 }, { 3e6, 1e6 } };
	struct halves h = split_plan(&p, (struct ring){ .p = c, .n = 4 });

	CHECK_PART(h.in, 1, 0, 6);
	CHECK_PART(h.out, 1, 0, 18);
}
END_TEST

START_TEST(a_ring_equal_to_the_outline_takes_all)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 3000, 5000, 0, 4000);
	struct halves h = split_plan(&p, ring_of(&p.rings[0]));

	CHECK_PART(h.in, 1, 0, 27);
	ck_assert_uint_eq(h.in.rings[0].n, 5);
	ck_assert_uint_eq(h.out.count, 0);
	ck_assert_double_eq(length_of(&h.in, LABEL), 0);
	for (int e = 0; e < 5; e++)
		ck_assert_double_gt(length_of(&h.in, e), 2999);
}
END_TEST

START_TEST(a_ring_over_an_opening_goes_round_it)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct halves h;

	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 1000, 4000, 1000, 4000, 3000, 2000, 3000 });
	h = split_plan(&p, RING(1000, 500, 3000, 500, 3000, 3500, 1000, 3500));
	CHECK_PART(h.in, 1, 0, 4);
	CHECK_PART(h.out, 2, 1, 16);
	ck_assert_double_eq(length_of(&h.in, LABEL), 2000 + 3000 + 2000 + 2 * 500);
	ck_assert_double_eq(length_of(&h.out, LABEL), length_of(&h.in, LABEL));
	/* Of the opening, each side has half of two edges and the whole of one. */
	for (int e = 4; e < 8; e++)
		ck_assert_double_eq(length_of(&h.in, e) + length_of(&h.out, e), 2000);
	h = split_plan(&p, RING(1000, 500, 5000, 500, 5000, 3500, 1000, 3500));
	CHECK_PART(h.in, 2, 1, 8);
	CHECK_PART(h.out, 2, 1, 12);
	h = split_plan(&p, RING(2500, 1500, 3000, 1500, 3000, 2000, 2500, 2000));
	ck_assert_uint_eq(h.in.count, 0);
	CHECK_PART(h.out, 2, 1, 20);
}
END_TEST

/* The ring stands on its point on the lower edge: the opening it makes touches the outline. */
START_TEST(a_corner_that_touches_an_edge_stays_whole)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000);
	struct halves h = split_plan(&p, RING(3000, 0, 4000, 1000, 3000, 2000, 2000, 1000));

	CHECK_PART(h.in, 1, 0, 2);
	CHECK_PART(h.out, 2, 1, 22);
	for (size_t i = 0; i < 2; i++)
		ck_assert(h.out.rings[i].p[0].x != 3e6 || h.out.rings[i].p[0].y != 0);
	ck_assert_double_eq(length_of(&h.out, 0), 6000);
}
END_TEST

/* A diamond from edge to edge: two parts beside it that only its points join. */
START_TEST(parts_joined_at_a_point_come_apart)
{
	struct plan p = PLAN(0, 0, 2000, 0, 2000, 2000, 0, 2000);
	struct halves h = split_plan(&p, RING(1000, 0, 2000, 1000, 1000, 2000, 0, 1000));

	CHECK_PART(h.in, 1, 0, 2);
	CHECK_PART(h.out, 4, 0, 2);
	for (size_t i = 0; i < 4; i++)
		ck_assert_uint_eq(h.out.rings[i].n, 3);
	/* A notch down to where the ring begins. */
	p = PLAN(0, 0, 4000, 0, 4000, 4000, 2000, 2000, 0, 4000);
	h = split_plan(&p, RING(-100, 2000, 4100, 2000, 4100, 5000, -100, 5000));
	CHECK_PART(h.in, 2, 0, 4);
	CHECK_PART(h.out, 1, 0, 8);
}
END_TEST

START_TEST(a_slanted_crossing_is_rounded_and_shared)
{
	struct plan p = PLAN(0, 0, 6000, 100, 5900, 4000, 0, 3900);
	struct halves h = split_plan(&p, RING(1000, -700, 4100, 1300, 3300, 7100, 2900, 2000));

	ck_assert_uint_eq(h.in.count, 1);
	ck_assert_double_eq(length_of(&h.in, LABEL), length_of(&h.out, LABEL));
	for (size_t i = 0; i < h.in.rings[0].n; i++) {
		struct point a = h.in.rings[0].p[i];
		size_t found = 0;

		ck_assert(a.x == round(a.x) && a.y == round(a.y));
		for (size_t j = 0; j < h.out.count; j++)
			for (size_t k = 0; k < h.out.rings[j].n; k++)
				found += h.out.rings[j].p[k].x == a.x &&
				         h.out.rings[j].p[k].y == a.y;
		ck_assert_uint_eq(found, 1);
	}
}
END_TEST

/* Corners of the ring lie on a slanted edge but for the rounding to um: no sliver is left along it.
 */
START_TEST(corners_on_a_slanted_edge_leave_no_sliver)
{
	struct plan p = PLAN(0, 0, 7000, 3000, 7000, 9000, 0, 9000);
	struct point c[4] = { { 1e6, round(3e6 / 7) }, { 5e6, round(15e6 / 7) }, { 5e6, 6e6 },
		{ 1e6, 6e6 } };
	struct halves h = split_plan(&p, (struct ring){ .p = c, .n = 4 });

	ck_assert_uint_eq(h.in.count, 1);
	ck_assert_uint_eq(h.in.rings[0].n, 4);
	ck_assert_uint_eq(h.out.count, 1);
	ck_assert_double_eq(length_of(&h.in, LABEL), length_of(&h.out, LABEL));
	ck_assert_double_eq_tol(length_of(&h.in, 0), hypot(4000, 12000.0 / 7), 0.01);
}
END_TEST

/* A round bed at the edge: half of it lies in the paving. */
START_TEST(arcs_are_split_as_they_are_flattened)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000), bed = PLAN(2000, 0, 4000, 0);
	struct halves h;

	bed.rings[0].nodes[0].rise_um = bed.rings[0].nodes[1].rise_um = 1000000;
	h = split_plan(&p, ring_of(&bed.rings[0]));
	ck_assert_uint_eq(h.in.count, 1);
	ck_assert_double_eq_tol(
	        region_area_um2(&h.in) * 1e-12, M_PI / 2, M_PI * ARC_CHORD_ERROR_UM * 1e-6);
	ck_assert_double_eq_tol(length_of(&h.in, LABEL), M_PI * 1000, 5);
	ck_assert_double_eq(length_of(&h.in, LABEL), length_of(&h.out, LABEL));
	ck_assert_double_eq(length_of(&h.in, 0), 2000);
}
END_TEST

/* A zone that ends in the paving's own arc. */
START_TEST(an_arc_in_common_is_shared)
{
	struct plan p = PLAN(0, 0, 6000, 0, 6000, 4000, 0, 4000),
	            zone = PLAN(4000, 0, 6000, 0, 6000, 4000, 4000, 4000);
	struct halves h;
	struct region r;

	p.rings[0].nodes[1].rise_um = zone.rings[0].nodes[1].rise_um = 700000;
	h = split_plan(&p, ring_of(&zone.rings[0]));
	region_from_plan(&mem, &p, &r, NULL);
	CHECK_PART(h.out, 1, 0, 16);
	ck_assert_uint_eq(h.in.count, 1);
	ck_assert_double_eq(length_of(&h.in, 1), length_of(&r, 1));
	ck_assert_double_eq(length_of(&h.in, LABEL), 4000);
}
END_TEST

START_TEST(several_outer_rings_are_split_each)
{
	struct point a[4] = { { 0, 0 }, { 1e6, 0 }, { 1e6, 1e6 }, { 0, 1e6 } },
	             b[4] = { { 2e6, 0 }, { 3e6, 0 }, { 3e6, 1e6 }, { 2e6, 1e6 } };
	struct ring rings[2] = { { .p = a, .n = 4 }, { .p = b, .n = 4 } },
	            by = RING(500, -100, 2500, -100, 2500, 500, 500, 500);
	struct region r = { rings, 2 };
	struct halves h = split(&r, &by);

	CHECK_PART(h.in, 2, 0, 0.5);
	CHECK_PART(h.out, 2, 0, 1.5);
	/* Without numbers of their own the region's edges have 0. */
	ck_assert_double_eq(length_of(&h.in, 0) + length_of(&h.in, LABEL), 4000);
	ck_assert_double_eq(length_of(&h.in, LABEL), 2000);
}
END_TEST

/* Two parts that meet along an edge are one paving there: only the ring makes an edge of it. */
START_TEST(an_edge_between_two_parts_is_none)
{
	struct point a[4] = { { 0, 0 }, { 1e6, 0 }, { 1e6, 1e6 }, { 0, 1e6 } },
	             b[4] = { { 1e6, 0 }, { 2e6, 0 }, { 2e6, 1e6 }, { 1e6, 1e6 } };
	struct ring rings[2] = { { a, 4, (int[]){ 0, 1, 2, 3 } }, { b, 4, (int[]){ 4, 5, 6, 7 } } },
	            by = RING(1000, 500, 3000, 500, 3000, 2000, 1000, 2000);
	struct region r = { rings, 2 };
	struct halves h = split(&r, &by);

	CHECK_PART(h.in, 1, 0, 0.5);
	CHECK_PART(h.out, 1, 0, 1.5);
	ck_assert_double_eq(length_of(&h.in, 1) + length_of(&h.in, 7), 0);
	ck_assert_double_eq(length_of(&h.out, 1) + length_of(&h.out, 7), 0);
	ck_assert_double_eq(length_of(&h.in, LABEL), 1500);
}
END_TEST

START_TEST(corners_are_taken_to_the_nearest_um)
{
	struct point a[4] = { { 0.2, -0.4 }, { 1e6, 0.3 }, { 1e6 - 0.3, 1e6 }, { 0, 1e6 } },
	             c[4] = { { 5e5, 0 }, { 1e6, 0.1 }, { 1e6, 1e6 }, { 5e5 + 0.4, 1e6 } };
	struct ring ring = { .p = a, .n = 4 }, by = { .p = c, .n = 4 };
	struct region r = { &ring, 1 };
	struct halves h = split(&r, &by);

	CHECK_PART(h.in, 1, 0, 0.5);
	CHECK_PART(h.out, 1, 0, 0.5);
	ck_assert_double_eq(region_area_um2(&h.in), 5e11);
}
END_TEST

/* What rounding leaves no width goes, and what it turns over; nothing stays nothing. */
START_TEST(what_is_too_thin_goes)
{
	struct point a[4] = { { 0, 0 }, { 1e6, 0.2 }, { 1e6, 0.4 }, { 0, 0.3 } };
	struct ring ring = { .p = a, .n = 4 }, by = RING(500, -100, 2500, -100, 2500, 500);
	struct region r = { &ring, 1 }, none = { NULL, 0 };
	struct halves h = split(&r, &by);

	ck_assert_uint_eq(h.in.count + h.out.count, 0);
	a[0] = (struct point){ 0.4, -0.4 };
	a[1] = (struct point){ 10.4, 9.6 };
	a[2] = (struct point){ 5.55, 4.8 };
	ring.n = 3;
	ck_assert_double_gt(ring_polygon_area(ring.p, ring.n), 0);
	h = split(&r, &by);
	ck_assert_uint_eq(h.in.count + h.out.count, 0);
	h = split(&none, &by);
	ck_assert_uint_eq(h.in.count + h.out.count, 0);
}
END_TEST

/* Edges without width between them, there and back, along an edge that stays. */
START_TEST(an_edge_keeps_the_number_of_one_that_runs_its_way)
{
	struct point a[4] = { { 0, 0 }, { 1e6, 0 }, { 1e6, 1e6 }, { 0, 1e6 } },
	             b[3] = { { 1e6, 0 }, { 1e6, 1e6 }, { 1e6 - 0.3, 0 } };
	struct ring rings[2] = { { a, 4, (int[]){ 0, 1, 2, 3 } }, { b, 3, (int[]){ 4, 5, 6 } } },
	            by = RING(-100, 500, 3000, 500, 3000, 2000, -100, 2000);
	struct region r = { rings, 2 };
	struct halves h = split(&r, &by);

	CHECK_PART(h.in, 1, 0, 0.5);
	CHECK_PART(h.out, 1, 0, 0.5);
	ck_assert_double_eq(length_of(&h.in, 1) + length_of(&h.in, 4), 500);
	ck_assert_double_eq(length_of(&h.out, 1) + length_of(&h.out, 4), 500);
}
END_TEST

START_TEST(the_farthest_corners_are_split_exactly)
{
	double far = 1e9;
	struct point a[4] = { { -far, -far }, { far, -far }, { far, far }, { -far, far } },
	             c[3] = { { -far, far }, { -far, -far }, { far, far - 1 } };
	struct ring ring = { .p = a, .n = 4 }, by = { .p = c, .n = 3 };
	struct region r = { &ring, 1 };
	struct halves h = split(&r, &by);

	ck_assert_uint_eq(h.in.count, 1);
	ck_assert_uint_eq(h.out.count, 2);
	ck_assert_double_eq(region_area_um2(&h.in), 2e18);
	ck_assert_double_eq(region_area_um2(&h.out), 2e18);
	ck_assert_double_eq(length_of(&h.out, 0), 6 * far / 1000);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("split");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, a_corner_is_taken_off);
	tcase_add_loop_test(tc, a_ring_takes_what_lies_in_it, 0, sizeof cuts / sizeof *cuts);
	tcase_add_test(tc, a_ring_may_run_the_other_way_round);
	tcase_add_test(tc, a_ring_equal_to_the_outline_takes_all);
	tcase_add_test(tc, a_ring_over_an_opening_goes_round_it);
	tcase_add_test(tc, a_corner_that_touches_an_edge_stays_whole);
	tcase_add_test(tc, parts_joined_at_a_point_come_apart);
	tcase_add_test(tc, a_slanted_crossing_is_rounded_and_shared);
	tcase_add_test(tc, corners_on_a_slanted_edge_leave_no_sliver);
	tcase_add_test(tc, arcs_are_split_as_they_are_flattened);
	tcase_add_test(tc, an_arc_in_common_is_shared);
	tcase_add_test(tc, several_outer_rings_are_split_each);
	tcase_add_test(tc, an_edge_between_two_parts_is_none);
	tcase_add_test(tc, corners_are_taken_to_the_nearest_um);
	tcase_add_test(tc, what_is_too_thin_goes);
	tcase_add_test(tc, an_edge_keeps_the_number_of_one_that_runs_its_way);
	tcase_add_test(tc, the_farthest_corners_are_split_exactly);
	return suite_run("split", tc);
}
