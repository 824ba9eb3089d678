/* test_screen_zone_parts.c - zones in the planner, without a screen: the order in which corners are
 * chosen, where a name stands, which section is a zone's, and the words of a refusal. */
#include "../../src/planner/zones.h"
#include "plans.h"
#include "suite.h"

#include <check.h>
#include <string.h>

static struct arena mem;
static struct app app;

#define RING(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })                                                         \
	        .rings[0]

/* 6 m by 4 m with an opening and two zones, of which the first is still being drawn. */
static void setup(void)
{
	struct rules *rules = arena_alloc(&mem, 1, sizeof *rules);
	struct plan *closed = arena_alloc(&mem, 1, sizeof *closed);
	struct error err;

	memset(&app, 0, sizeof app);
	app.plan = plan_by_hand(&mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 4000, 0, 4000 });
	opening_by_hand(&mem, &app.plan, 3, (double[]){ 5000, 3000, 5500, 3000, 5500, 3500 });
	app.plan.zones = arena_alloc(&mem, 2, sizeof *app.plan.zones);
	app.plan.zone_count = 2;
	for (int i = 0; i < 2; i++)
		zone_init(&app.plan.zones[i]);
	app.plan.zones[0].ring = RING(3000, 0, 4000, 0);
	app.plan.zones[0].ring.closed = false;
	app.plan.zones[1].name = "bed";
	app.plan.zones[1].ring = RING(0, 0, 2000, 0, 2000, 1000);
	*closed = app.plan;
	closed->zones = &app.plan.zones[1];
	closed->zone_count = 1;
	*rules = (struct rules){ 0 };
	ck_assert_int_eq(takeoff_plan(&mem, closed, rules, &app.t, &err), STATUS_OK);
	ck_assert_msg(app.t.ready, "%s", app.t.fault.text);
}

static void teardown(void)
{
	arena_free(&mem);
	arena_free(&app.frame_mem);
}

START_TEST(corners_follow_each_other_over_outline_openings_and_zones)
{
	static const struct {
		size_t ring, at;
	} way[] = { { 0, 1 }, { 0, 2 }, { 0, 3 }, { 1, 0 }, { 1, 1 }, { 1, 2 }, { 2, 0 }, { 2, 1 },
		{ 3, 0 }, { 3, 1 }, { 3, 2 }, { 0, 0 } };
	size_t n = sizeof way / sizeof *way, ring = 0, at = 0;

	app.stage = AT_OUTLINE;
	for (size_t i = 0; i < n; i++) {
		ck_assert(step_corner(&app, true, &ring, &at));
		ck_assert_uint_eq(ring, way[i].ring);
		ck_assert_uint_eq(at, way[i].at);
	}
	for (size_t i = n - 1; i-- > 0;) {
		ck_assert(step_corner(&app, false, &ring, &at));
		ck_assert_uint_eq(ring, way[i].ring);
		ck_assert_uint_eq(at, way[i].at);
	}
}
END_TEST

START_TEST(corners_of_zones_are_passed_over_elsewhere)
{
	size_t ring = 1, at = 2;

	app.stage = AT_EDGING;
	ck_assert_uint_eq(rings_here(&app), 2);
	ck_assert(step_corner(&app, true, &ring, &at));
	ck_assert_uint_eq(ring, 0);
	ck_assert(step_corner(&app, false, &ring, &at));
	ck_assert_uint_eq(ring, 1);
	ck_assert_uint_eq(at, 2);
}
END_TEST

START_TEST(a_ring_without_corners_is_passed_over)
{
	size_t ring = 1, at = 2;

	app.stage = AT_OUTLINE;
	app.plan.zones[0].ring.count = 0;
	ck_assert(step_corner(&app, true, &ring, &at));
	ck_assert_uint_eq(ring, 3);
	app.plan.zone_count = app.plan.ring_count = 0;
	ck_assert(!step_corner(&app, true, &ring, &at));
}
END_TEST

START_TEST(a_corner_or_part_that_is_gone_is_chosen_no_more)
{
	app.stage = AT_OUTLINE;
	app.view.ring = 3, app.view.at = 7, app.view.part = 2;
	keep_choice_in_range(&app);
	ck_assert_uint_eq(app.view.ring, 3);
	ck_assert_uint_eq(app.view.at, 2);
	ck_assert_uint_eq(zone_here(&app), 1);
	app.stage = AT_LAYING;
	keep_choice_in_range(&app);
	ck_assert_uint_eq(app.view.ring, 0);
	app.view.part = 1; /* it is being drawn */
	keep_choice_in_range(&app);
	ck_assert_uint_eq(app.view.part, 0);
	app.view.part = 9;
	ck_assert_ptr_eq(laying_here(&app), &app.plan.laying);
}
END_TEST

START_TEST(a_zones_section_is_found_beside_one_that_is_being_drawn)
{
	const struct section *s = zone_section(&app, 1);
	struct region region;

	ck_assert_ptr_null(zone_section(&app, 0));
	ck_assert_ptr_nonnull(s);
	ck_assert(s->area_m2 > 0.999 && s->area_m2 < 1.001);
	ck_assert(zone_region(&app, &mem, 1, &region));
	ck_assert_ptr_eq(region.rings, s->region.rings);
	ck_assert(zone_region(&app, &mem, 0, &region));
	ck_assert_uint_eq(region.rings[0].n, 2);
	ck_assert_str_eq(zone_title(&app, 1), "Zone 2, bed");
	ck_assert_str_eq(zone_title(&app, 0), "Zone 1");
	ck_assert_str_eq(zone_title(&app, SIZE_MAX), "Field");
}
END_TEST

static void assert_middle(const struct region *r, double x, double y, double width)
{
	struct point at;
	double across;

	ck_assert(region_middle(&mem, r, &at, &across));
	ck_assert_msg(
	        at.x > x - 1 && at.x < x + 1 && at.y > y - 1 && at.y < y + 1, "%f, %f", at.x, at.y);
	ck_assert_msg(across > width - 1 && across < width + 1, "%f", across);
}

START_TEST(a_name_stands_where_the_region_is_widest)
{
	static const struct point square[] = { { 0, 0 }, { 8000, 0 }, { 8000, 8000 }, { 0, 8000 } };
	/* An L: 8000 across below 2000, 2000 above. */
	static const struct point hook[] = { { 0, 0 }, { 8000, 0 }, { 8000, 2000 }, { 2000, 2000 },
		{ 2000, 8000 }, { 0, 8000 } };
	static const struct point gap[] = { { 1000, 7900 }, { 1000, 100 }, { 3000, 100 },
		{ 3000, 7900 } };
	struct ring rings[2] = { { .p = (struct point *)square, .n = 4 },
		{ .p = (struct point *)gap, .n = 4 } };
	struct region r = { rings, 1 };
	struct point at;
	double width;

	assert_middle(&r, 4000, 4000, 8000);
	r.count = 2; /* with a hole on its left */
	assert_middle(&r, 5500, 4000, 5000);
	rings[0] = (struct ring){ .p = (struct point *)hook, .n = 6 };
	r.count = 1;
	assert_middle(&r, 4000, 1000, 8000);
	rings[0].n = 2; /* a line spans nothing */
	ck_assert(!region_middle(&mem, &r, &at, &width));
	r.count = 0;
	ck_assert(!region_middle(&mem, &r, &at, &width));
}
END_TEST

START_TEST(a_zones_value_is_named_with_its_zone)
{
	char words[200], small[8];

	ck_assert_str_eq(crew_words(words, sizeof words, "zones[0].laying.slab.pack: give from 1"),
	        "Zone 1: Pack: give from 1");
	ck_assert_str_eq(crew_words(words, sizeof words, "zones[11].level: too high"),
	        "Zone 12: Level: too high");
	ck_assert_str_eq(crew_words(words, sizeof words, "zones[0].name: too long"),
	        "Zone 1: name: too long");
	ck_assert_str_eq(crew_words(words, sizeof words, "zones: 33 of them"), "Zones: 33 of them");
	ck_assert_str_eq(crew_words(words, sizeof words, "zone 1 overlaps"), "Zone 1 overlaps");
	ck_assert_str_eq(crew_words(small, sizeof small, "zones[0].level: too high"), "Zone 1:");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("zone parts");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, corners_follow_each_other_over_outline_openings_and_zones);
	tcase_add_test(tc, corners_of_zones_are_passed_over_elsewhere);
	tcase_add_test(tc, a_ring_without_corners_is_passed_over);
	tcase_add_test(tc, a_corner_or_part_that_is_gone_is_chosen_no_more);
	tcase_add_test(tc, a_zones_section_is_found_beside_one_that_is_being_drawn);
	tcase_add_test(tc, a_name_stands_where_the_region_is_widest);
	tcase_add_test(tc, a_zones_value_is_named_with_its_zone);
	return suite_run("screen zone parts", tc);
}
