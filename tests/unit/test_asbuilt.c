/* What was built against the plan: deviations, straightedges and hollows, by hand and against a
 * search over all triples. */
#include "slabwright/asbuilt.h"

#include "chance.h"
#include "plans.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

enum { MOST = 70 };

static struct rule limits[] = { { "level_tolerance", 6000, "mm", "test" },
	{ "place_tolerance", 10000, "mm", "test" }, { "flatness_3m", 3000, "mm", "test" },
	{ "flatness_2m", 2500, "mm", "test" }, { "puddle_depth", 5000, "mm", "test" } };
static struct worked w;
static struct plan_measured measured[MOST];
static struct asbuilt a;

/* 6 x 4 m falling 10 mm a metre along y, under limits of the test's own. */
static void setup(void)
{
	worked_rectangle(&w, 6 * M, 4 * M);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 10000);
	w.rules = (struct rules){
		.name = "test", .items = limits, .count = sizeof limits / sizeof *limits
	};
	w.plan.site.measured = measured;
	w.plan.site.measured_count = 0;
}

static void teardown(void)
{
	worked_done(&w);
}

static struct plan_measured *measure(const char *name, double x_mm, double y_mm)
{
	struct plan_measured *m = &measured[w.plan.site.measured_count++];

	*m = (struct plan_measured){
		.name = name, .x_um = llround(x_mm * 1000), .y_um = llround(y_mm * 1000)
	};
	return m;
}

static void measure_level(const char *name, double x_mm, double y_mm, double level_mm)
{
	struct plan_measured *m = measure(name, x_mm, y_mm);

	m->has_level = true;
	m->level_um = llround(level_mm * 1000);
}

static void check(void)
{
	struct asbuilt_surface surface;

	ck_assert_int_eq(asbuilt_surface_init(&w.mem, &w.plan, &surface, NULL), STATUS_OK);
	ck_assert_int_eq(
	        asbuilt_check(&w.mem, &w.plan, &w.rules, asbuilt_surface_level, &surface, &a, NULL),
	        STATUS_OK);
}

START_TEST(levels_are_compared_with_the_planned_surface)
{
	measure_level("wall", 0, 0, 6);
	measure_level("", 1000, 2000, -26.001);
	measure("not levelled", 5000, 2000);
	check();
	ck_assert_double_eq_tol(a.points[0].level_off_um, 6000, 1e-6);
	ck_assert_double_eq(a.points[0].level_over_um, 0);
	ck_assert_str_eq(a.points[1].name, "point 2");
	ck_assert_double_eq_tol(a.points[1].planned_um, -20000, 1e-6);
	ck_assert_double_eq_tol(a.points[1].level_off_um, -6001, 1e-6);
	ck_assert_double_eq_tol(a.points[1].level_over_um, 1, 1e-6);
	ck_assert_uint_eq(a.with_level, 2);
	ck_assert_uint_eq(a.level_fails, 1);
	ck_assert_double_eq_tol(a.worst_level_um, -6001, 1e-6);
	ck_assert(!asbuilt_passes(&a));
}
END_TEST

START_TEST(a_zone_counts_with_its_own_level)
{
	struct plan_node corners[] = { { 0, 0, 0, EDGE_OPEN, 0, 0 },
		{ 2 * M, 0, 0, EDGE_OPEN, 0, 0 }, { 2 * M, 2 * M, 0, EDGE_OPEN, 0, 0 },
		{ 0, 2 * M, 0, EDGE_OPEN, 0, 0 } };
	struct plan_zone zones[2];

	zone_init(&zones[0]);
	zone_init(&zones[1]); /* still being drawn */
	zones[0].ring = (struct plan_ring){ corners, 4, true };
	zones[0].level_um = 150 * MM;
	zones[1].level_um = 900 * MM;
	w.plan.zones = zones;
	w.plan.zone_count = 2;
	measure_level("in it", 1000, 1000, 140);
	measure_level("beside it", 3000, 1000, -10);
	check();
	ck_assert_double_eq_tol(a.points[0].level_off_um, 0, 1e-6);
	ck_assert_double_eq_tol(a.points[1].level_off_um, 0, 1e-6);
}
END_TEST

START_TEST(places_are_compared_with_the_plan)
{
	struct plan_measured *m = measure("peg", 1000, 1000);

	m->has_place = true;
	m->at_x_um = 1006 * MM;
	m->at_y_um = 1008 * MM;
	check();
	ck_assert_double_eq_tol(a.points[0].place_off_um, 10000, 1e-6);
	ck_assert_uint_eq(a.place_fails, 0);
	m->at_y_um += MM;
	check();
	ck_assert_uint_eq(a.place_fails, 1);
	ck_assert_double_eq_tol(a.points[0].place_over_um, hypot(6000, 9000) - 10000, 1e-6);
	ck_assert_uint_eq(a.with_level, 0);
}
END_TEST

START_TEST(without_rules_nothing_fails_and_without_surface_no_level_is_compared)
{
	measure_level("a", 0, 0, 900);
	w.rules.count = 0;
	check();
	ck_assert(asbuilt_passes(&a));
	ck_assert_double_eq_tol(a.points[0].level_off_um, 900e3, 1e-6);
	ck_assert_int_eq(asbuilt_check(&w.mem, &w.plan, &w.rules, NULL, NULL, &a, NULL), STATUS_OK);
	ck_assert_uint_eq(a.with_level, 0);
	ck_assert_double_eq(a.points[0].level_off_um, 0);
}
END_TEST

START_TEST(nothing_measured_passes)
{
	check();
	ck_assert(asbuilt_passes(&a));
	ck_assert_uint_eq(a.gap_count + a.puddle_count + a.count, 0);
}
END_TEST

/* The planned fall is no gap; a hump of 2.6 mm is one under 2 m, not under 3 m. */
START_TEST(a_straightedge_shows_what_leaves_the_planned_slope)
{
	measure_level("a", 1000, 0, 0);
	measure_level("hump", 1000, 500, -5 + 2.6);
	measure_level("c", 1000, 1500, -15);
	check();
	ck_assert_uint_eq(a.gap_count, 2);
	ck_assert_double_eq_tol(a.gaps[0].gap_um, 2600, 1e-6);
	ck_assert_double_eq(a.gaps[0].over_um, 0);
	ck_assert_double_eq_tol(a.gaps[1].over_um, 100, 1e-6);
	ck_assert_uint_eq(a.gaps[1].at, 1);
	ck_assert_uint_eq(a.gaps[1].from, 0);
	ck_assert_uint_eq(a.gaps[1].to, 2);
	ck_assert_uint_eq(a.gap_fails, 1);
}
END_TEST

START_TEST(a_point_beside_the_line_is_under_no_straightedge)
{
	measure_level("a", 0, 0, 0);
	measure_level("beside", 1000, 50, 100);
	measure_level("c", 2000, 0, 0);
	check();
	ck_assert_uint_eq(a.gap_count, 2);
	measured[1].y_um = 50 * MM + 1;
	check();
	ck_assert_uint_eq(a.gap_count, 0);
	ck_assert(!a.straightedges[0].tried);
}
END_TEST

/* The worst gap at a point, by looking at every three points. */
static double worst_gap(size_t at, double length_um)
{
	double worst = 0;

	for (size_t i = 0; i < a.count; i++)
		for (size_t j = 0; j < a.count; j++) {
			double dx = (double)(measured[j].x_um - measured[i].x_um),
			       dy = (double)(measured[j].y_um - measured[i].y_um),
			       px = (double)(measured[at].x_um - measured[i].x_um),
			       py = (double)(measured[at].y_um - measured[i].y_um),
			       l = hypot(dx, dy), t = (px * dx + py * dy) / (l * l), gap;

			if (i == j || i == at || j == at || l == 0 || l > length_um ||
			        t * l <= 0.5 || t * l >= l - 0.5 ||
			        fabs(px * dy - py * dx) / l > 50000)
				continue;
			gap = a.points[at].level_off_um - a.points[i].level_off_um * (1 - t) -
			      a.points[j].level_off_um * t;
			worst = fmax(worst, fabs(gap));
		}
	return worst;
}

START_TEST(the_worst_of_all_lines_is_found)
{
	struct chance c = chance_new(chance_seed("asbuilt", 21));

	for (int round = 0; round < 15 / ONE_OF; round++) {
		double found[2][MOST] = { { 0 } };

		w.plan.site.measured_count = 0;
		for (int i = 0; i < MOST; i++) /* some on a grid, some anywhere */
			measure_level("",
			        i % 2 ? chance_real(&c, 0, 6000)
			              : (double)chance_int(&c, 0, 8) * 700,
			        i % 3 ? chance_real(&c, 0, 4000)
			              : (double)chance_int(&c, 0, 5) * 700,
			        chance_real(&c, -20, 20));
		check();
		for (size_t i = 0; i < a.gap_count; i++)
			found[a.gaps[i].straightedge][a.gaps[i].at] = fabs(a.gaps[i].gap_um);
		for (size_t i = 0; i < MOST; i++) {
			ck_assert_double_eq_tol(found[0][i], worst_gap(i, 3e6), 1e-3);
			ck_assert_double_eq_tol(found[1][i], worst_gap(i, 2e6), 1e-3);
		}
		teardown();
		setup();
	}
}
END_TEST

/* --- puddles --- */

/* A grid of 5 x 5, level at 0 but for what the test changes; no fall planned. */
static void level_grid(void)
{
	w.plan.surface.count = 0;
	for (int i = 0; i < 25; i++)
		measure_level("", i % 5 * 1000, i / 5 * 1000, 0);
}

static void set_level(int x, int y, double mm)
{
	measured[5 * y + x].level_um = llround(mm * 1000);
}

START_TEST(a_hollow_holds_water_to_its_lowest_rim)
{
	level_grid();
	set_level(2, 2, -5);
	check();
	ck_assert_uint_eq(a.puddle_count, 1);
	ck_assert_uint_eq(a.puddles[0].at, 12);
	ck_assert_double_eq_tol(a.puddles[0].depth_um, 5000, 1e-6);
	ck_assert_uint_eq(a.puddle_fails, 0);
	set_level(2, 2, -5.1);
	check();
	ck_assert_uint_eq(a.puddle_fails, 1);
	ck_assert_double_eq_tol(a.puddles[0].over_um, 100, 1e-6);
	/* A way out, 2 mm deep, over one neighbour. */
	set_level(3, 2, -2);
	set_level(4, 2, -2);
	check();
	ck_assert_uint_eq(a.puddle_count, 1);
	ck_assert_double_eq_tol(a.puddles[0].depth_um, 3100, 1e-6);
}
END_TEST

/* The neighbour is as low, but behind it the rim is high: both stand under water. */
START_TEST(a_wide_hollow_is_one_puddle)
{
	level_grid();
	set_level(2, 2, -8);
	set_level(1, 2, -6);
	check();
	ck_assert_uint_eq(a.puddle_count, 2);
	ck_assert_double_eq_tol(a.puddles[0].depth_um + a.puddles[1].depth_um, 14000, 1e-6);
}
END_TEST

START_TEST(a_slope_and_a_low_edge_hold_no_water)
{
	level_grid();
	for (int i = 0; i < 25; i++)
		measured[i].level_um = -measured[i].y_um / 100;
	set_level(0, 2, -100);
	check();
	ck_assert_uint_eq(a.puddle_count, 0);
}
END_TEST

/* --- four corners --- */

START_TEST(sides_and_diagonals_are_taken_from_the_corners_as_built)
{
	static const int64_t built[4][2] = { { 0, 0 }, { 6000, 0 }, { 6000, 4000 }, { 10, 4000 } };

	for (int i = 3; i >= 0; i--) {
		const struct plan_node *n = &w.plan.rings[0].nodes[i];
		struct plan_measured *m =
		        measure("", (double)n->x_um / 1000, (double)n->y_um / 1000);

		check();
		ck_assert(!a.has_four);
		m->has_place = true;
		m->at_x_um = built[i][0] * MM;
		m->at_y_um = built[i][1] * MM;
	}
	check();
	ck_assert(a.has_four);
	ck_assert_double_eq_tol(a.sides_um[2], 5990e3, 1e-6);
	ck_assert_double_eq_tol(a.sides_um[3], hypot(10e3, 4e6), 1e-6);
	ck_assert_double_eq_tol(a.diagonals_um[0], hypot(6e6, 4e6), 1e-6);
	ck_assert_double_eq_tol(a.diagonals_um[1], hypot(5990e3, 4e6), 1e-6);
	ck_assert_double_eq_tol(a.planned_diagonals_um[1], hypot(6e6, 4e6), 1e-6);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("asbuilt");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, levels_are_compared_with_the_planned_surface);
	tcase_add_test(tc, a_zone_counts_with_its_own_level);
	tcase_add_test(tc, places_are_compared_with_the_plan);
	tcase_add_test(tc, without_rules_nothing_fails_and_without_surface_no_level_is_compared);
	tcase_add_test(tc, nothing_measured_passes);
	tcase_add_test(tc, a_straightedge_shows_what_leaves_the_planned_slope);
	tcase_add_test(tc, a_point_beside_the_line_is_under_no_straightedge);
	tcase_add_test(tc, the_worst_of_all_lines_is_found);
	tcase_add_test(tc, a_hollow_holds_water_to_its_lowest_rim);
	tcase_add_test(tc, a_wide_hollow_is_one_puddle);
	tcase_add_test(tc, a_slope_and_a_low_edge_hold_no_water);
	tcase_add_test(tc, sides_and_diagonals_are_taken_from_the_corners_as_built);
	return suite_run("asbuilt", tc);
}
