/* The surface as an envelope of planes, and its water, by hand. Lengths in mm, falls in mm per m.
 */
#include "plans.h"
#include "suite.h"

#include <math.h>
#include <string.h>

static struct arena mem;
static const struct rules none = { .name = "none" };

static void teardown(void)
{
	arena_free(&mem);
}

static struct plan_plane plane(double x, double y, double level, double toward, double fall)
{
	return (struct plan_plane){ llround(x * 1000), llround(y * 1000), llround(level * 1000),
		llround(toward * 1e6), llround(fall * 1000) };
}

static void set_planes(
        struct plan *p, enum envelope envelope, const struct plan_plane *planes, size_t count)
{
	p->surface.envelope = envelope;
	p->surface.planes = arena_alloc(&mem, count, sizeof *planes);
	p->surface.count = count;
	memcpy(p->surface.planes, planes, count * sizeof *planes);
}

/* 6 x 4 m, edges from the lower left corner anticlockwise. */
static struct plan six_by_four(void)
{
	return plan_by_hand(&mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 4000, 0, 4000 });
}

static struct surface_result work_out_with(const struct plan *p, const struct rules *rules)
{
	struct surface_result out;
	struct error err = { 0 };

	ck_assert_msg(surface_work_out(&mem, p, rules, &out, &err) == STATUS_OK, "%s", err.text);
	return out;
}

static struct surface_result work_out(const struct plan *p)
{
	return work_out_with(p, &none);
}

static double area_of_edge(const struct surface_result *s, size_t edge)
{
	for (size_t i = 0; i < s->catchment_count; i++)
		if (s->catchments[i].edge == edge - 1)
			return s->catchments[i].area_m2;
	return 0;
}

static double ends_at(const struct surface_result *s, enum end_kind kind, size_t number)
{
	for (size_t i = 0; i < s->end_count; i++)
		if (s->ends[i].kind == kind && s->ends[i].number == number - 1)
			return s->ends[i].area_m2;
	return 0;
}

static const char *warned(const struct surface_result *s, enum warning_code code)
{
	for (size_t i = 0; i < s->warning_count; i++)
		if (s->warnings[i].code == code)
			return s->warnings[i].text;
	return NULL;
}

static void put_gully(struct plan *p, double x, double y)
{
	struct plan_gully *g = arena_alloc(&mem, p->water.gully_count + 1, sizeof *g);

	if (p->water.gully_count)
		memcpy(g, p->water.gullies, p->water.gully_count * sizeof *g);
	g[p->water.gully_count++] =
	        (struct plan_gully){ "", llround(x * 1000), llround(y * 1000), 0 };
	p->water.gullies = g;
}

static void put_channel(struct plan *p, double x1, double y1, double x2, double y2)
{
	struct plan_channel *c = arena_alloc(&mem, 1, sizeof *c);

	channel_init(c);
	c->x1_um = llround(x1 * 1000);
	c->y1_um = llround(y1 * 1000);
	c->x2_um = llround(x2 * 1000);
	c->y2_um = llround(y2 * 1000);
	p->water.channels = c;
	p->water.channel_count = 1;
}

#define NEAR(a, b) ck_assert_double_eq_tol((a), (b), 1e-6)

/* Two falls away from x = 2 m: 2 x 4 m to the left edge, 4 x 4 m to the right one. */
START_TEST(a_roof_parts_its_water_at_the_ridge)
{
	struct plan p = six_by_four();
	struct surface_result s;

	set_planes(&p, ENVELOPE_MIN,
	        (struct plan_plane[]){ plane(2000, 0, 0, 180, 15), plane(2000, 0, 0, 0, 25) }, 2);
	s = work_out(&p);
	ck_assert_uint_eq(s.shape.line_count, 1);
	ck_assert_int_eq(s.shape.lines[0].kind, LINE_RIDGE);
	NEAR(s.shape.lines[0].high.x, 2e6);
	NEAR(fabs(s.shape.lines[0].high.y - s.shape.lines[0].low.y), 4e6);
	NEAR(s.shape.parts[0].area_m2, 8);
	NEAR(area_of_edge(&s, 4), 8);
	NEAR(area_of_edge(&s, 2), 16);
	NEAR(s.highest_um, 0);
	NEAR(s.lowest_um, -100000);
	ck_assert_uint_eq(s.warning_count, 0);
}
END_TEST

/* Falls of 20 to x = 3 m from both sides and 10 toward y = 0 along the valley: all 24 m2 leave at
 * the middle of the lower edge; a gully half way takes the upper half. The valley falls 10. */
START_TEST(a_valley_leads_to_what_lies_on_it)
{
	struct plan p = six_by_four();
	double fall = hypot(20, 10), left = atan2(-10, 20) * 180 / M_PI;
	struct surface_result s;
	struct surface_fall f;

	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){
	                plane(3000, 0, 0, left, fall), plane(3000, 0, 0, 180 - left, fall) },
	        2);
	s = work_out(&p);
	ck_assert_uint_eq(s.shape.line_count, 1);
	ck_assert_int_eq(s.shape.lines[0].kind, LINE_VALLEY);
	ck_assert_double_eq_tol(s.shape.lines[0].fall_um_per_m, 10000, 1);
	ck_assert_double_eq_tol(area_of_edge(&s, 1), 24, 1e-4);
	f = surface_fall_at(&p.surface, 3e6, 2e6);
	ck_assert_double_eq_tol(surface_level_um(&p.surface, 1e6, 2e6), 60000, 10);
	ck_assert(f.in_valley);
	ck_assert_double_eq_tol(f.um_per_m, 10000, 1);
	ck_assert_double_eq_tol(f.toward_deg, 270, 0.01);
	f = surface_fall_at(&p.surface, 1e6, 2e6);
	ck_assert_double_eq_tol(f.um_per_m, fall * 1000, 1);
	put_gully(&p, 3040, 2000);
	s = work_out(&p);
	/* Water of the upper half first runs down toward the valley: the border from the gully up
	 * to each side rises 10 in 20, over 3 m by 1.5 m. */
	ck_assert_double_eq_tol(s.gullies[0].first.area_m2, 24 - 12 - 2 * (3 * 1.5 / 2), 1e-3);
	ck_assert_double_eq_tol(s.gullies[0].first.area_m2 + area_of_edge(&s, 1), 24, 1e-5);
	ck_assert_ptr_null(warned(&s, WARN_GULLY_DRY));
}
END_TEST

/* Four falls of 15, 20, 25 and 30 to (2, 1) m. */
START_TEST(four_falls_meet_at_a_gully)
{
	struct plan p = six_by_four();
	struct surface_result s;

	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){ plane(2000, 1000, -50, 0, 15),
	                plane(2000, 1000, -50, 90, 20), plane(2000, 1000, -50, 180, 25),
	                plane(2000, 1000, -50, 270, 30) },
	        4);
	s = work_out(&p);
	ck_assert_uint_eq(s.pond_count, 1);
	NEAR(s.ponds[0].at.x, 2e6);
	NEAR(s.ponds[0].at.y, 1e6);
	NEAR(s.standing_m2, 24);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_LOW_POINT), "24.00 m2"));
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_LOW_POINT), "x 2.00"));
	put_gully(&p, 2000, 1000);
	s = work_out(&p);
	NEAR(s.gullies[0].first.area_m2, 24);
	NEAR(ends_at(&s, END_GULLY, 1), 24);
	ck_assert_uint_eq(s.warning_count, 0);
	ck_assert_double_eq_tol(surface_fall_at(&p.surface, 2e6, 1e6).um_per_m, 0, 1e-9);
	put_gully(&p, 5000, 3000);
	s = work_out(&p);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_GULLY_DRY), "gully 2"));
}
END_TEST

/* Steep, then gentle, the same way: the line between is crossed, and the far edge takes all. */
START_TEST(water_crosses_where_only_the_fall_changes)
{
	struct plan p = six_by_four();
	struct surface_result s;

	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){ plane(2000, 0, 0, 0, 40), plane(2000, 0, 0, 0, 10) }, 2);
	s = work_out(&p);
	ck_assert_int_eq(s.shape.lines[0].kind, LINE_CHANGE);
	ck_assert_uint_eq(s.shape.lines[0].planes[0], 0);
	NEAR(area_of_edge(&s, 2), 24);
	NEAR(surface_level_um(&p.surface, 1e6, 0), 40000);
	NEAR(surface_level_um(&p.surface, 4e6, 0), -20000);
}
END_TEST

/* An L of 6 x 4 m less 4 x 2 m: the roof's ridge at y = 1 m. */
START_TEST(an_l_shape_parts_at_its_ridge)
{
	struct plan p = plan_by_hand(
	        &mem, 6, (double[]){ 0, 0, 6000, 0, 6000, 2000, 2000, 2000, 2000, 4000, 0, 4000 });
	struct surface_result s;

	set_planes(&p, ENVELOPE_MIN,
	        (struct plan_plane[]){ plane(0, 1000, 0, 90, 20), plane(0, 1000, 0, 270, 20) }, 2);
	s = work_out(&p);
	NEAR(area_of_edge(&s, 1), 6);
	NEAR(area_of_edge(&s, 3), 4);
	NEAR(area_of_edge(&s, 5), 2 * 3);
}
END_TEST

/* A planter of 1 x 1 m in the way of water to the right. The strip of 2 m2 behind it runs along its
 * wall, which rises to the left, round its corner and on to the right edge. */
START_TEST(water_held_by_an_opening_runs_round_it)
{
	struct plan p = six_by_four();
	double toward = atan2(-5, 20) * 180 / M_PI;
	struct surface_result s;

	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 1000, 3000, 1000, 3000, 2000, 2000, 2000 });
	set_planes(
	        &p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, 0, toward, hypot(5, 20)) }, 1);
	s = work_out(&p);
	/* The left side takes a parallelogram: 2 m behind it, as high as itself. */
	ck_assert_double_eq_tol(area_of_edge(&s, 8), 2 * 1, 1e-4);
	NEAR(s.drained_m2, 23);
	ck_assert_uint_eq(s.held_count, 0);
	for (int i = 0; i < 4; i++)
		p.rings[1].nodes[i].kind = EDGE_PLANTER;
	s = work_out(&p);
	ck_assert_double_eq_tol(area_of_edge(&s, 8), 2, 1e-4);
	ck_assert_uint_ge(s.held_count, 1);
	for (size_t i = 0; i < s.held_count; i++)
		ck_assert_int_eq(s.held[i].end.kind, END_EDGE);
	NEAR(ends_at(&s, END_EDGE, 1) + ends_at(&s, END_EDGE, 2), 23);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_HELD_BACK), "leaves over edge"));
}
END_TEST

/* Half a disc of radius 2 m that bulges down; its arc takes all of what lies above it. */
START_TEST(an_arc_takes_what_runs_to_it)
{
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 4000, 0, 4000, 1000, 0, 1000 });
	struct surface_result s;

	p.rings[0].nodes[0].rise_um = 2000000;
	set_planes(&p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, 0, 270, 20) }, 1);
	s = work_out(&p);
	ck_assert_double_eq_tol(area_of_edge(&s, 1), 4 + M_PI * 2, 1e-5);
	/* Lowest at the bottom of the arc: 2 m under y = 0. */
	ck_assert_double_eq_tol(s.lowest_um, -40000, 0.1);
	/* Held there, it stands at that point. */
	p.rings[0].nodes[0].kind = EDGE_KERB;
	p.edging[EDGE_KERB].top_um = 60000;
	s = work_out(&p);
	ck_assert_double_eq_tol(ends_at(&s, END_POND, 1), 4 + M_PI * 2, 1e-5);
	ck_assert_double_eq_tol(s.ponds[0].at.x, 2e6, 2000);
}
END_TEST

/* A channel across the fall at x = 4 m from y = 1 to 3 m. */
START_TEST(a_channel_takes_what_reaches_its_line_from_both_sides)
{
	struct plan p = six_by_four();
	struct surface_result s;

	put_channel(&p, 4000, 1000, 4000, 3000);
	set_planes(&p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, 0, 0, 20) }, 1);
	s = work_out(&p);
	NEAR(s.channels[0].first.area_m2, 8);
	NEAR(area_of_edge(&s, 2), 16);
	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){ plane(4000, 0, 0, 0, 20), plane(4000, 0, 0, 180, 20) }, 2);
	s = work_out(&p);
	/* In a level valley it takes all: from both sides, and what comes along. */
	NEAR(s.channels[0].first.area_m2, 24);
}
END_TEST

START_TEST(a_channel_along_an_edge_takes_its_water)
{
	struct plan p = six_by_four();
	struct surface_result s;

	put_channel(&p, 0, 0, 0, 0);
	p.rings[0].nodes[1].channel = 1;
	p.rings[0].nodes[1].kind = EDGE_HOUSE_WALL;
	set_planes(&p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, 0, 0, 20) }, 1);
	s = work_out(&p);
	NEAR(s.channels[0].first.area_m2, 24);
	NEAR(s.channels[0].area_m2, 24);
	NEAR(s.drained_m2, 24);
	ck_assert_int_eq(s.catchments[0].channel, 1);
	ck_assert_uint_eq(s.warning_count, 0);
}
END_TEST

/* Kerbs 50 mm up along the lower and right edge, falls right and a little down. What the kerb on
 * the right holds runs down to corner 2, where both hold it. */
START_TEST(water_stands_where_two_kerbs_meet)
{
	struct plan p = six_by_four();
	struct surface_result s;

	p.rings[0].nodes[0].kind = p.rings[0].nodes[1].kind = EDGE_KERB;
	p.edging[EDGE_KERB].top_um = 50000;
	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){ plane(0, 0, 0, atan2(-5, 20) * 180 / M_PI, hypot(5, 20)) },
	        1);
	s = work_out(&p);
	ck_assert_uint_eq(s.pond_count, 1);
	ck_assert_str_eq(s.ponds[0].place, "corner 2");
	NEAR(s.ponds[0].area_m2, 24);
	NEAR(s.ponds[0].first.area_m2, 0);
	NEAR(s.drained_m2, 24);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_HELD_BACK), "stands 50 mm above the surface"));
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_LOW_POINT), "24.00 m2 stands at corner 2"));
	/* A gully in that corner takes it. */
	put_gully(&p, 5950, 50);
	s = work_out(&p);
	NEAR(s.gullies[0].area_m2, 24);
	NEAR(s.gullies[0].first.area_m2, 0);
	ck_assert_ptr_null(warned(&s, WARN_LOW_POINT));
	/* An open edge below lets it out, and a flush kerb holds nothing. */
	p.water.gully_count = 0;
	p.rings[0].nodes[0].kind = EDGE_OPEN;
	s = work_out(&p);
	NEAR(ends_at(&s, END_EDGE, 1), 24);
	p.edging[EDGE_KERB].top_um = 0;
	s = work_out(&p);
	ck_assert_uint_eq(s.held_count, 0);
}
END_TEST

START_TEST(planes_that_show_nowhere_or_are_level_are_told)
{
	struct plan p = six_by_four();
	struct surface_result s;

	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){
	                plane(0, 0, 0, 0, 20), plane(0, 0, -50, 0, 20), plane(0, 0, 0, 0, 20) },
	        3);
	s = work_out(&p);
	ck_assert_uint_eq(s.shape.part_count, 1);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_PLANE_HIDDEN), "Plane 2 shows nowhere"));
	ck_assert_uint_eq(s.warning_count, 2);
	NEAR(area_of_edge(&s, 2), 24);
	/* Falls 20 to x = 3 m, level beyond: all of it stands. */
	set_planes(&p, ENVELOPE_MAX,
	        (struct plan_plane[]){ plane(3000, 0, 0, 0, 20), plane(0, 0, 0, 0, 0) }, 2);
	s = work_out(&p);
	NEAR(s.standing_m2, 24);
	ck_assert_int_eq(s.shape.lines[0].kind, LINE_CHANGE);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_NO_FALL), "Plane 2 is level"));
	ck_assert_ptr_null(warned(&s, WARN_LOW_POINT));
}
END_TEST

START_TEST(a_gentle_valley_is_warned_of_by_place)
{
	struct rule rule = { "valley_fall_min", 5000, "mm/m", "by hand" };
	struct rules rules = { .name = "by hand", .items = &rule, .count = 1 };
	static const double falls[] = { 4.9, 5.1 };

	for (int i = 0; i < 2; i++) {
		struct plan p = six_by_four();
		double fall = hypot(20, falls[i]), left = atan2(-falls[i], 20) * 180 / M_PI;
		struct surface_result s;

		set_planes(&p, ENVELOPE_MAX,
		        (struct plan_plane[]){ plane(3000, 0, 0, left, fall),
		                plane(3000, 0, 0, 180 - left, fall) },
		        2);
		s = work_out_with(&p, &rules);
		ck_assert_int_eq(warned(&s, WARN_VALLEY_UNDER) != NULL, i == 0);
	}
}
END_TEST

/* A contour each 20 mm on a fall of 20: at every metre, straight across. */
START_TEST(contours_run_across_the_fall)
{
	struct plan p = six_by_four();
	struct region region;
	struct contour *lines;
	size_t count;

	opening_by_hand(&mem, &p, 4, (double[]){ 1500, 1000, 2500, 1000, 2500, 2000, 1500, 2000 });
	set_planes(&p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, -10, 0, 20) }, 1);
	ck_assert_int_eq(region_from_plan(&mem, &p, &region, NULL), STATUS_OK);
	ck_assert_int_eq(surface_contours(&mem, &p.surface, &region, 20000, &lines, &count, NULL),
	        STATUS_OK);
	/* Levels -20 to -120 mm at x = 0.5 to 5.5 m; at 1.5 m the opening begins, at 2.5 m it ends.
	 */
	ck_assert_uint_ge(count, 6);
	for (size_t i = 0; i < count; i++) {
		ck_assert_double_eq_tol(lines[i].a.x, lines[i].b.x, 1e-3);
		NEAR(surface_level_um(&p.surface, lines[i].a.x, lines[i].a.y), lines[i].level_um);
		ck_assert_double_eq_tol(fmod(-lines[i].level_um, 20000), 0, 1e-6);
	}
	ck_assert_int_eq(
	        surface_contours(&mem, &p.surface, &region, 50, &lines, &count, NULL), STATUS_PLAN);
}
END_TEST

/* 150 mm under the damp-proof course at the wall's high end is enough, 149.9 is not. */
START_TEST(paving_stays_under_the_damp_proof_course)
{
	struct rule rule = { "below_dpc_min", 150000, "mm", "by hand" };
	struct rules rules = { .name = "by hand", .items = &rule, .count = 1 };
	struct plan p = six_by_four();
	struct surface_result s;

	p.rings[0].nodes[3].kind = EDGE_HOUSE_WALL;
	set_planes(&p, ENVELOPE_MAX, (struct plan_plane[]){ plane(0, 0, 0, 10, 20) }, 1);
	p.surface.has_dpc = true;
	p.surface.dpc_um = 150000;
	s = work_out_with(&p, &rules);
	ck_assert_ptr_null(warned(&s, WARN_NEAR_DPC));
	p.surface.dpc_um = 149900;
	s = work_out_with(&p, &rules);
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_NEAR_DPC), "At corner 1 on edge 4 (4.00 m)"));
	ck_assert_ptr_nonnull(strstr(warned(&s, WARN_NEAR_DPC), "149.9 mm under"));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("surface");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, a_roof_parts_its_water_at_the_ridge);
	tcase_add_test(tc, a_valley_leads_to_what_lies_on_it);
	tcase_add_test(tc, four_falls_meet_at_a_gully);
	tcase_add_test(tc, water_crosses_where_only_the_fall_changes);
	tcase_add_test(tc, an_l_shape_parts_at_its_ridge);
	tcase_add_test(tc, water_held_by_an_opening_runs_round_it);
	tcase_add_test(tc, an_arc_takes_what_runs_to_it);
	tcase_add_test(tc, a_channel_takes_what_reaches_its_line_from_both_sides);
	tcase_add_test(tc, a_channel_along_an_edge_takes_its_water);
	tcase_add_test(tc, water_stands_where_two_kerbs_meet);
	tcase_add_test(tc, planes_that_show_nowhere_or_are_level_are_told);
	tcase_add_test(tc, a_gentle_valley_is_warned_of_by_place);
	tcase_add_test(tc, contours_run_across_the_fall);
	tcase_add_test(tc, paving_stays_under_the_damp_proof_course);
	return suite_run("surface", tc);
}
