/* Ground and dig: analytic solids, margins, layers, extrapolation, and what is refused. */
#include "slabwright/earth.h"

#include "plans.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM
#define NEAR(a, b) ck_assert_double_eq_tol((a), (b), 1e-9)
/* A corner whose edge is open. */
#define AT(x, y)                                                                                   \
	{                                                                                          \
		.x_um = (x), .y_um = (y), .kind = EDGE_OPEN                                        \
	}
#define COUNT(a) (sizeof(a) / sizeof *(a))

static struct worked w;

/* A level plane at level 0 with 190 mm under it; no over-dig, no topsoil. */
static void begin(const struct plan_node *corners, size_t count)
{
	worked_init(&w, corners, count);
	worked_set_fall(&w, 0, 0, 0);
	w.plan.site.earth.over_dig_um = 0;
}

static void begin_rectangle(int64_t width, int64_t height)
{
	const struct plan_node corners[] = { AT(0, 0), AT(width, 0), AT(width, height),
		AT(0, height) };

	begin(corners, 4);
}

static const struct earth_result *dig(struct plan_spot *levels, size_t count)
{
	w.plan.site.spots = levels;
	w.plan.site.spot_count = count;
	work_out_plan(&w);
	ck_assert_msg(w.t.earth.ready, "%s", w.t.earth.fault.text);
	return &w.t.earth;
}

#define DIG(...)                                                                                   \
	dig((struct plan_spot[]){ __VA_ARGS__ }, COUNT(((struct plan_spot[]){ __VA_ARGS__ })))

static void done(void)
{
	worked_done(&w);
}

START_TEST(level_ground_over_a_level_formation_is_a_prism)
{
	const struct earth_result *e;

	begin_rectangle(4 * M, 3 * M);
	e = DIG({ "", 1 * M, 1 * M, 0 });
	ck_assert_int_eq(e->ground.kind, GROUND_ONE);
	NEAR(e->area_m2, 12);
	NEAR(e->cut_m3, 12 * 0.19);
	NEAR(e->fill_m3, 0);
	NEAR(e->deepest_um, 190e3);
	NEAR(e->extrapolated_m2, 12);
	NEAR(e->farthest_um, hypot(3e6, 2e6));
	NEAR(e->cut_loose_m3, 12 * 0.19 * 1.25);
	NEAR(e->surplus_loose_m3, 12 * 0.19 * 1.25);
	done();
}
END_TEST

/* The surface falls 20 mm/m over 5 m and the ground lies level with the formation's low end: a
 * wedge is filled at the high end. */
START_TEST(level_ground_under_a_slanted_formation_is_a_wedge)
{
	const struct earth_result *e;

	begin_rectangle(5 * M, 3 * M);
	worked_set_fall(&w, 0, 0, 20000);
	e = DIG({ "", 0, 0, -290 * MM });
	NEAR(e->fill_m3, 0.5 * 5 * 0.1 * 3);
	NEAR(e->cut_m3, 0);
	NEAR(e->highest_um, 100e3);
	NEAR(e->fill_loose_m3, 0.75 / 0.9);
	NEAR(e->missing_loose_m3, 0.75 / 0.9);
	done();
}
END_TEST

/* The same with the ground half way up: the two wedges of the halves, parted at 2.5 m. */
START_TEST(cut_and_fill_part_where_ground_and_formation_meet)
{
	const struct earth_result *e;

	begin_rectangle(5 * M, 3 * M);
	worked_set_fall(&w, 0, 0, 20000);
	e = DIG({ "", 0, 0, -240 * MM });
	NEAR(e->fill_m3, 0.5 * 2.5 * 0.05 * 3);
	NEAR(e->cut_m3, 0.5 * 2.5 * 0.05 * 3);
	NEAR(e->deepest_x_um, 5e6);
	NEAR(e->highest_x_um, 0);
	done();
}
END_TEST

START_TEST(a_heap_is_a_pyramid)
{
	const struct earth_result *e;

	begin_rectangle(6 * M, 4 * M);
	e = DIG({ "", 0, 0, -190 * MM }, { "", 6 * M, 0, -190 * MM },
	        { "", 6 * M, 4 * M, -190 * MM }, { "", 0, 4 * M, -190 * MM },
	        { "top", 2 * M, 1 * M, 410 * MM });
	NEAR(e->cut_m3, 6 * 4 * 0.6 / 3);
	NEAR(e->extrapolated_m2, 0);
	NEAR(e->deepest_um, 600e3);
	NEAR(e->deepest_x_um, 2e6);
	NEAR(e->deepest_y_um, 1e6);
	done();
}
END_TEST

static const struct plan_node ell[] = { AT(0, 0), AT(6 * M, 0), AT(6 * M, 2 * M), AT(2 * M, 2 * M),
	AT(2 * M, 5 * M), AT(0, 5 * M) };

/* Ground 0.1 + 0.02 x + 0.03 y over the formation: the volume is area times the height at the
 * centroid, for each of the two rectangles. */
START_TEST(slanted_ground_over_an_l_has_the_closed_volume)
{
	const struct earth_result *e;

	begin(ell, COUNT(ell));
	e = DIG({ "", -1 * M, -1 * M, -140 * MM }, { "", 9 * M, -1 * M, 60 * MM },
	        { "", -1 * M, 9 * M, 160 * MM });
	NEAR(e->area_m2, 18);
	NEAR(e->cut_m3, 12 * (0.1 + 0.02 * 3 + 0.03 * 1) + 6 * (0.1 + 0.02 * 1 + 0.03 * 3.5));
	NEAR(e->extrapolated_m2, 0);
	done();
}
END_TEST

/* Two planes that fall to each other at x = 2 m: the surface lies 0.02 |x - 2| over its valley. */
START_TEST(a_valley_and_a_ridge_are_followed)
{
	struct plan_plane planes[] = { { 2 * M, 0, 0, 0, 20000 },
		{ 2 * M, 0, 0, 180 * UDEG_PER_DEG, 20000 } };
	const double under = 0.02 * (2 * 2 + 3 * 3) / 2 * 3;
	const struct earth_result *e;

	begin_rectangle(5 * M, 3 * M);
	w.plan.surface.planes = planes;
	w.plan.surface.count = 2;
	w.plan.surface.envelope = ENVELOPE_MAX;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->cut_m3, 15 * 0.19 - under);
	w.plan.surface.envelope = ENVELOPE_MIN;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->cut_m3, 15 * 0.19 + under);
	done();
}
END_TEST

START_TEST(a_plane_given_twice_counts_once)
{
	struct plan_plane planes[] = { { 0, 0, 0, 0, 20000 }, { 0, 0, 0, 0, 20000 } };

	begin_rectangle(5 * M, 2 * M);
	w.plan.surface.planes = planes;
	w.plan.surface.count = 2;
	NEAR(DIG({ "", 0, 0, 0 })->area_m2, 10);
	done();
}
END_TEST

/* 100 mm of topsoil come off all over; the ground lies 50 mm over the formation in one half and 190
 * in the other. */
START_TEST(topsoil_is_stripped_first_and_kept_apart)
{
	struct plan_plane planes[] = { { 0, 0, 0, 0, 0 } };
	const struct earth_result *e;

	begin_rectangle(4 * M, 2 * M);
	w.plan.surface.planes = planes;
	w.plan.site.earth.topsoil_um = 100 * MM;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->topsoil_m3, 0.8);
	NEAR(e->cut_m3, 8 * 0.09);
	NEAR(e->topsoil_loose_m3, 1);
	NEAR(e->deepest_um, 190e3);
	e = DIG({ "", 0, 0, -140 * MM });
	NEAR(e->topsoil_m3, 0.8);
	NEAR(e->cut_m3, 0);
	NEAR(e->fill_m3, 8 * 0.05);
	NEAR(e->highest_um, 50e3);
	done();
}
END_TEST

START_TEST(over_dig_goes_round_but_not_behind_walls_and_paving)
{
	const struct earth_result *e;

	begin_rectangle(4 * M, 3 * M);
	w.plan.site.earth.over_dig_um = 150 * MM;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->over_dig_m2, 4.3 * 3.3 - 12);
	NEAR(e->over_dig_m3, 0.19 * (4.3 * 3.3 - 12));
	NEAR(e->cut_m3, 0.19 * 4.3 * 3.3);
	w.plan.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	NEAR(DIG({ "", 0, 0, 0 })->over_dig_m2, 4.3 * 3.15 - 12);
	w.plan.rings[0].nodes[2].kind = EDGE_EXISTING_PAVING;
	NEAR(DIG({ "", 0, 0, 0 })->over_dig_m2, 0.3 * 3);
	done();
}
END_TEST

/* At an inner corner strips overlap and count once; a notch narrower than twice the over-dig is dug
 * whole, once. */
START_TEST(over_dig_counts_once_where_it_overlaps)
{
	const struct plan_node notched[] = { AT(0, 0), AT(4 * M, 0), AT(4 * M, 3 * M),
		AT(2200 * MM, 3 * M), AT(2200 * MM, 1 * M), AT(2 * M, 1 * M), AT(2 * M, 3 * M),
		AT(0, 3 * M) };
	const double over = 0.15;

	begin(ell, COUNT(ell));
	w.plan.site.earth.over_dig_um = 150 * MM;
	NEAR(DIG({ "", 0, 0, 0 })->over_dig_m2, 22 * over + 4 * over * over);
	done();
	begin(notched, COUNT(notched));
	w.plan.site.earth.over_dig_um = 150 * MM;
	NEAR(DIG({ "", 0, 0, 0 })->over_dig_m2, 4.3 * 3.3 - (12 - 0.4));
	done();
}
END_TEST

/* An equilateral triangle's corners are sharper than a right angle: each gets two squares cut off
 * straight, which overlap. Each side's strip then is longer by the over-dig at both ends. */
START_TEST(sharp_corners_are_cut_square)
{
	const struct plan_node corners[] = { AT(0, 0), AT(4 * M, 0), AT(0, 4 * M) };
	const struct earth_result *e;
	/* At each of the two corners of 45 degrees the square ends, u and v wide, overlap in a
	 * kite with the corner, the ends of both being at distance 0.1 from it. */
	double over = 0.1, kite = over * over * tan(M_PI / 8);

	begin(corners, 3);
	w.plan.site.earth.over_dig_um = 100 * MM;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->over_dig_m2, (8 + hypot(4, 4)) * over + over * over + 2 * (2 * over * over - kite));
	done();
}
END_TEST

START_TEST(openings_are_not_dug_and_have_no_over_dig)
{
	const struct plan_node tree[] = { AT(1 * M, 1 * M), AT(2 * M, 1 * M), AT(2 * M, 2 * M),
		AT(1 * M, 2 * M) };
	const struct earth_result *e;

	begin_rectangle(4 * M, 3 * M);
	worked_add_opening(&w, tree, 4);
	w.plan.site.earth.over_dig_um = 200 * MM;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->area_m2, 11);
	NEAR(e->over_dig_m2, 4.4 * 3.4 - 12);
	done();
}
END_TEST

/* A zone 100 mm lower with slabs of 80 mm along the right side, and beyond its edge the margin goes
 * as deep; a border of slabs of 65 mm along the left side. */
START_TEST(zones_and_borders_are_dug_to_their_own_depth)
{
	struct plan_node ring[] = { AT(3 * M, -1 * M), AT(6 * M, -1 * M), AT(6 * M, 5 * M),
		AT(3 * M, 5 * M) };
	struct plan_zone zone;
	struct plan_border border;
	const struct earth_result *e;
	double deep;

	begin_rectangle(5 * M, 4 * M);
	zone_init(&zone);
	zone.paved = true;
	zone.ring = (struct plan_ring){ ring, 4, true };
	zone.level_um = -100 * MM;
	zone.laying.slab.thickness_um = 80 * MM;
	border_init(&border);
	border.slab.thickness_um = 65 * MM;
	deep = (double)border_depth_um(&border) * 1e-6;
	w.plan.zones = &zone;
	w.plan.zone_count = 1;
	w.plan.borders = &border;
	w.plan.border_count = 1;
	w.plan.rings[0].nodes[3].border = 1;
	w.plan.site.earth.over_dig_um = 100 * MM;
	w.plan.rings[0].nodes[0].kind = w.plan.rings[0].nodes[2].kind = EDGE_HOUSE_WALL;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->cut_m3, 4 * ((3 - deep) * 0.19 + (deep + 0.1) * 0.205 + 2.1 * 0.32));
	ck_assert_uint_eq(e->part_count, 5);
	ck_assert_str_eq(e->parts[0].name, "field");
	ck_assert_str_eq(e->parts[3].name, "over-dig beside border along edge 4");
	NEAR(e->parts[4].depth_um, 320e3);
	NEAR(e->bedding.volume_m3, 20 * 0.04);
	NEAR(e->sub_base.volume_m3, 20 * 0.1);
	zone.paved = false;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->bedding.area_m2, 12);
	NEAR(e->sub_base.volume_m3, 1.2);
	NEAR(e->unpaved_m3, 8 * 0.19);
	NEAR(e->parts[4].depth_um, 290e3);
	done();
}
END_TEST

/* Gaps along edges belong to the field; arcs are flattened for the dig, not for the layers. */
START_TEST(gaps_are_dug_and_arcs_fill_the_layers)
{
	const struct earth_result *e;

	begin_rectangle(4 * M, 3 * M);
	w.plan.laying.edge_joint_um[EDGE_OPEN] = 10 * MM;
	w.plan.rings[0].nodes[1].rise_um = 500 * MM;
	e = DIG({ "", 0, 0, 0 });
	NEAR(e->bedding.volume_m3, w.t.area_m2 * 0.04);
	ck_assert_double_eq_tol(e->area_m2, w.t.area_m2, 0.002);
	NEAR(e->area_m2, region_area_um2(&w.t.region) * 1e-12);
	NEAR(e->cut_m3, e->area_m2 * 0.19);
	done();
}
END_TEST

/* Everything moved to the end of reach: nothing changes. */
START_TEST(volumes_do_not_depend_on_where_the_job_lies)
{
	double cut[2], fill[2], over[2];

	for (int i = 0; i < 2; i++) {
		int64_t x = i * 985 * M, y = -i * 985 * M;
		struct plan_spot levels[] = { { "", x + 1 * M, y + 1 * M, -300 * MM },
			{ "", x + 5 * M, y, 50 * MM }, { "", x + 3 * M, y + 6 * M, -150 * MM },
			{ "", x - 1 * M, y + 4 * M, -100 * MM },
			{ "", x + 2 * M, y + 2 * M, -190 * MM } };
		struct plan_plane planes[] = { { x, y, 0, 30 * UDEG_PER_DEG, 25000 },
			{ x + 3 * M, y + M, -20 * MM, 200 * UDEG_PER_DEG, 17000 } };
		struct plan_node moved[COUNT(ell)];

		for (size_t k = 0; k < COUNT(ell); k++) {
			moved[k] = ell[k];
			moved[k].x_um += x;
			moved[k].y_um += y;
		}
		begin(moved, COUNT(ell));
		w.plan.laying.start_x_um = x;
		w.plan.laying.start_y_um = y;
		w.plan.surface.planes = planes;
		w.plan.surface.count = 2;
		w.plan.site.earth.over_dig_um = 150 * MM;
		dig(levels, COUNT(levels));
		cut[i] = w.t.earth.cut_m3;
		fill[i] = w.t.earth.fill_m3;
		over[i] = w.t.earth.over_dig_m3;
		done();
	}
	ck_assert_double_gt(fill[0], 0.01);
	ck_assert_double_eq_tol(cut[0], cut[1], 1e-8);
	ck_assert_double_eq_tol(fill[0], fill[1], 1e-8);
	ck_assert_double_eq_tol(over[0], over[1], 1e-8);
}
END_TEST

static struct arena mem;

static struct ground ground_of(const struct plan_spot *levels, size_t count)
{
	struct ground g;
	struct error err;

	ck_assert_msg(ground_make(&mem, levels, count, &g, &err) == STATUS_OK, "%s", err.text);
	return g;
}

static void level_is(const struct ground *g, double x, double y, double level, double beyond)
{
	double far = -1;

	ck_assert_double_eq_tol(ground_level_um(g, x, y, &far), level, 1e-6);
	ck_assert_double_eq_tol(far, beyond, 1e-6);
	ck_assert_double_eq_tol(ground_level_um(g, x, y, NULL), level, 1e-6);
}

/* A right triangle of 4 by 3 m: within, beyond each side, beyond corners. */
START_TEST(beyond_the_hull_the_nearest_point_s_level_goes_on)
{
	const struct plan_spot levels[] = { { "", 0, 0, 0 }, { "", 4 * M, 0, 400 * MM },
		{ "", 0, 3 * M, 900 * MM } };
	struct ground g = ground_of(levels, 3);

	ck_assert_int_eq(g.kind, GROUND_MESH);
	level_is(&g, 1e6, 1e6, 400e3, 0);
	level_is(&g, 0, 0, 0, 0);
	level_is(&g, 1e6, -2e6, 100e3, 2e6);
	level_is(&g, -5e6, 1e6, 300e3, 5e6);
	level_is(&g, -3e6, -4e6, 0, 5e6);
	level_is(&g, 7e6, -1e6, 400e3, hypot(3e6, 1e6));
	/* Beyond the middle of the long side, 0.6 and 0.8 being its outward direction. */
	level_is(&g, 2e6 + 0.6e6, 1.5e6 + 0.8e6, 650e3, 1e6);
	arena_free(&mem);
}
END_TEST

START_TEST(levels_on_a_line_are_level_across_it)
{
	const struct plan_spot levels[] = { { "", 3 * M, 3 * M, 300 * MM }, { "", 0, 0, 0 },
		{ "", 1 * M, 1 * M, 200 * MM } };
	struct ground g = ground_of(levels, 3);

	ck_assert_int_eq(g.kind, GROUND_LINE);
	level_is(&g, 0.5e6, 0.5e6, 100e3, 0);
	level_is(&g, 0, 1e6, 100e3, hypot(0.5e6, 0.5e6));
	level_is(&g, 2e6, 2e6, 250e3, 0);
	level_is(&g, 3e6, 5e6, 300e3, 2e6);
	level_is(&g, -3e6, 0, 0, 3e6);
	arena_free(&mem);
}
END_TEST

START_TEST(one_level_is_level_and_none_is_nothing)
{
	const struct plan_spot level = { "", 1 * M, 1 * M, 70 * MM };
	struct ground g = ground_of(&level, 1);

	level_is(&g, 4e6, 5e6, 70e3, 5e6);
	g = ground_of(NULL, 0);
	ck_assert_int_eq(g.kind, GROUND_NONE);
	level_is(&g, 1, 1, 0, 0);
	arena_free(&mem);
}
END_TEST

START_TEST(a_level_given_twice_counts_once)
{
	const struct plan_spot levels[] = { { "", 0, 0, 5 }, { "", 9, 9, 6 }, { "", 0, 0, 5 } };
	struct ground g = ground_of(levels, 3);

	ck_assert_uint_eq(g.level_count, 2);
	arena_free(&mem);
}
END_TEST

static void refused(const struct plan_spot *levels, size_t count, const char *words)
{
	struct ground g;
	struct error err = { 0 };

	ck_assert_int_eq(ground_make(&mem, levels, count, &g, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);
	arena_free(&mem);
}

START_TEST(levels_that_cannot_be_are_refused)
{
	const struct plan_spot twice[] = { { "", 5 * M, 0, 0 }, { "tree", 0, 2 * M, 5 * MM },
		{ NULL, 1, 1, 0 }, { "gate", 0, 2 * M, 25 * MM } };
	const struct plan_spot far[] = { { "", 0, 0, 0 }, { "", 1001 * M, 0, 0 } };
	const struct plan_spot high[] = { { "", 0, 0, -1001 * M } };

	refused(twice, 4,
	        "ground level 2 (tree) and ground level 4 (gate) lie at one place, x 0.000 m, y "
	        "2.000 m, but 20 mm apart");
	refused(far, 2, "ground level 2 lies more than 1 km");
	refused(high, 1, "ground level 1 is more than 1 km above or below");
}
END_TEST

static void not_dug(const char *words)
{
	work_out_plan(&w);
	ck_assert(!w.t.earth.ready);
	ck_assert_msg(strstr(w.t.earth.fault.text, words) != NULL, "%s", w.t.earth.fault.text);
	NEAR(w.t.earth.bedding.volume_m3, 12 * 0.04);
}

/* The rest of the take-off stands all the same, and so do the layers. */
START_TEST(what_is_missing_for_a_dig_is_said)
{
	struct plan_spot levels[] = { { "", 0, 0, 0 }, { "", 0, 0, 1 } };

	begin_rectangle(4 * M, 3 * M);
	not_dug("no ground levels");
	w.plan.site.spots = levels;
	w.plan.site.spot_count = 2;
	not_dug("lie at one place");
	w.plan.site.spot_count = 1;
	w.plan.site.earth.compaction_ppm = 1000000;
	not_dug("site.earth.compaction");
	w.plan.site.earth.over_dig_um = -1;
	not_dug("site.earth.over_dig");
	w.plan.surface.count = 0;
	not_dug("no fall is set");
	done();
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("earth");

	tcase_add_test(tc, level_ground_over_a_level_formation_is_a_prism);
	tcase_add_test(tc, level_ground_under_a_slanted_formation_is_a_wedge);
	tcase_add_test(tc, cut_and_fill_part_where_ground_and_formation_meet);
	tcase_add_test(tc, a_heap_is_a_pyramid);
	tcase_add_test(tc, slanted_ground_over_an_l_has_the_closed_volume);
	tcase_add_test(tc, a_valley_and_a_ridge_are_followed);
	tcase_add_test(tc, a_plane_given_twice_counts_once);
	tcase_add_test(tc, topsoil_is_stripped_first_and_kept_apart);
	tcase_add_test(tc, over_dig_goes_round_but_not_behind_walls_and_paving);
	tcase_add_test(tc, over_dig_counts_once_where_it_overlaps);
	tcase_add_test(tc, sharp_corners_are_cut_square);
	tcase_add_test(tc, openings_are_not_dug_and_have_no_over_dig);
	tcase_add_test(tc, zones_and_borders_are_dug_to_their_own_depth);
	tcase_add_test(tc, gaps_are_dug_and_arcs_fill_the_layers);
	tcase_add_test(tc, volumes_do_not_depend_on_where_the_job_lies);
	tcase_add_test(tc, beyond_the_hull_the_nearest_point_s_level_goes_on);
	tcase_add_test(tc, levels_on_a_line_are_level_across_it);
	tcase_add_test(tc, one_level_is_level_and_none_is_nothing);
	tcase_add_test(tc, a_level_given_twice_counts_once);
	tcase_add_test(tc, levels_that_cannot_be_are_refused);
	tcase_add_test(tc, what_is_missing_for_a_dig_is_said);
	return suite_run("earth", tc);
}
