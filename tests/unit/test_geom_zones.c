/* Rings of zones: which are refused, and in which words. */
#include "plans.h"
#include "suite.h"

#include "slabwright/geom.h"

#include <string.h>

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

#define RING(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })                                                         \
	        .rings[0]

/* A plan of 6 by 4 m with a sound zone, and a second one with this name and ring. */
static struct plan plan_with(const char *name, struct plan_ring ring)
{
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 4000, 0, 4000 });

	p.zones = arena_alloc(&mem, 2, sizeof *p.zones);
	ck_assert_ptr_nonnull(p.zones);
	p.zone_count = 2;
	zone_init(&p.zones[0]);
	p.zones[0].name = "beds";
	p.zones[0].ring = RING(1000, 1000, 2000, 1000, 2000, 2000);
	zone_init(&p.zones[1]);
	p.zones[1].name = name;
	p.zones[1].ring = ring;
	return p;
}

struct fault {
	const char *text;
	size_t n;
	double mm[16];
	double rise; /* of edge 1, mm */
};

static const struct fault faults[] = {
	{ "zone 2 \"gravel\": its ring has 0 corners; it needs three, or two and an arc", 0, { 0 },
	        0 },
	{ "zone 2 \"gravel\": its ring has 2 corners; it needs three", 2, { 0, 0, 1000, 0 }, 0 },
	{ "zone 2 \"gravel\": edge 1 (3.606 m) and edge 3 (3.606 m) cross or touch; move a corner",
	        4, { 0, 0, 3000, 2000, 3000, 0, 0, 2000 }, 0 },
	{ "zone 2 \"gravel\": edge 3 (2.000 m) and edge 5", 5,
	        { 0, 0, 3000, 0, 3000, 2000, 1000, 2000, 2000, 2000 }, 0 },
	{ "zone 2 \"gravel\": edge 2 (0.000 m) has no length", 4,
	        { 0, 0, 3000, 0, 3000, 0, 0, 2000 }, 0 },
	{ "zone 2 \"gravel\": edge 2 of its ring is less than 1 mm long; delete one", 4,
	        { 0, 0, 3000, 0, 3000, 0.999, 0, 2000 }, 0 },
	{ "zone 2 \"gravel\": corner 2 of its ring lies more than 1 km from the origin", 3,
	        { 0, 0, 10000000, 0, 0, 2000 }, 0 },
	{ "zone 2 \"gravel\": edge 1 (9.660 m) rises more than the 3.000 m", 3,
	        { 0, 0, 3000, 0, 3000, 2000 }, 3500 },
	{ "zone 2 \"gravel\": the arcs turn its ring inside out; give them smaller rises", 4,
	        { 0, 0, 3000, 0, 3000, 2000, 0, 2000 }, -2900 },
};

START_TEST(a_broken_ring_is_refused_by_number_and_name)
{
	const struct fault *f = &faults[_i];
	struct plan_ring ring = { .closed = true };
	struct plan p;
	struct error err = { 0 };

	if (f->n) {
		ring = plan_by_hand(&mem, f->n, f->mm).rings[0];
		ring.nodes[0].rise_um = (int64_t)(f->rise * 1000);
	}
	p = plan_with("gravel", ring);
	ck_assert_int_eq(zone_rings_check(&p, &err), STATUS_PLAN);
	ck_assert_int_eq(err.status, STATUS_PLAN);
	ck_assert_msg(strncmp(err.text, f->text, strlen(f->text)) == 0, "\"%s\" is not \"%s\"",
	        err.text, f->text);
	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_PLAN);
}
END_TEST

START_TEST(an_open_ring_is_not_ready)
{
	struct plan p = plan_with("", RING(0, 0, 3000, 0, 3000, 2000));
	struct error err = { 0 };

	p.zones[1].ring.closed = false;
	ck_assert_int_eq(zone_rings_check(&p, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text,
	        "zone 2 \"\": its ring is not closed yet: drop its corners, then close it");
}
END_TEST

START_TEST(a_ring_may_reach_out_and_over_others)
{
	struct plan p = plan_with("gravel", RING(0, 0, 6000, 0, 9000, 9000, -3000, 1500, 0, 500));

	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_OK);
	p.zones[0].ring = p.zones[1].ring;
	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_OK);
	p.ring_count = 0;
	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_OK);
	p.zone_count = 0;
	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_OK);
}
END_TEST

START_TEST(two_corners_and_an_arc_are_enough)
{
	struct plan p = plan_with("gravel", RING(0, 0, 3000, 0));
	struct ring r;

	p.zones[1].ring.nodes[1].rise_um = 1000000;
	ck_assert_int_eq(zone_rings_check(&p, NULL), STATUS_OK);
	ck_assert_int_eq(ring_flatten(&mem, &p.zones[1].ring, &r, NULL), STATUS_OK);
	ck_assert_double_gt(ring_polygon_area(r.p, r.n), 0);
}
END_TEST

START_TEST(a_ring_is_flattened_anticlockwise_with_its_edges_numbered)
{
	struct plan_ring ring = RING(0, 4000, 6000, 4000, 6000, 0, 0, 0);
	struct ring r;
	double right = 0;

	ring.nodes[1].rise_um = 1000000;
	ck_assert_int_eq(ring_flatten(&mem, &ring, &r, NULL), STATUS_OK);
	ck_assert_double_eq_tol(ring_polygon_area(r.p, r.n) * 1e-12, ring_area_m2(&ring),
	        5 * ARC_CHORD_ERROR_UM * 1e-6);
	ck_assert_double_gt(ring_polygon_area(r.p, r.n), 24e12);
	for (size_t i = 0; i < r.n; i++) {
		struct point a = r.p[i], b = r.p[(i + 1) % r.n];

		ck_assert_int_eq(r.edge[i], a.x == b.x && a.x == 0    ? 3
		                            : a.y == b.y && a.y == 0  ? 2
		                            : a.y == b.y && a.x > b.x ? 0
		                                                      : 1);
		right = a.x > right ? a.x : right;
	}
	ck_assert_double_eq_tol(right, 7000000, ARC_CHORD_ERROR_UM + 1);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("zones");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_loop_test(
	        tc, a_broken_ring_is_refused_by_number_and_name, 0, sizeof faults / sizeof *faults);
	tcase_add_test(tc, an_open_ring_is_not_ready);
	tcase_add_test(tc, a_ring_may_reach_out_and_over_others);
	tcase_add_test(tc, two_corners_and_an_arc_are_enough);
	tcase_add_test(tc, a_ring_is_flattened_anticlockwise_with_its_edges_numbered);
	return suite_run("zones", tc);
}
