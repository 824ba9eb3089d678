/* Setting out: the baseline that is chosen, points rebuilt from what is told of them, diagonals
 * that fix the shape. */
#include "slabwright/setout.h"

#include "chance.h"
#include "plans.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

static struct worked w;
static struct setout s;

static void work_out(void)
{
	struct error err = { 0 };

	ck_assert_msg(setout_work_out(&w.mem, &w.plan, &s, &err) == STATUS_OK, "%s", err.text);
}

static const struct setout_point *found(const char *name)
{
	for (size_t i = 0; i < s.point_count; i++)
		if (strcmp(s.points[i].name, name) == 0)
			return &s.points[i];
	ck_abort_msg("there is no point \"%s\"", name);
	return NULL;
}

static void teardown(void)
{
	worked_done(&w);
}

START_TEST(the_longest_straight_house_wall_is_the_baseline)
{
	worked_rectangle(&w, 6 * M, 4 * M);
	work_out();
	ck_assert(s.chosen && !s.house_wall);
	ck_assert_uint_eq(s.edge, 0);
	w.plan.rings[0].nodes[1].kind = EDGE_HOUSE_WALL;
	work_out();
	ck_assert(s.house_wall);
	ck_assert_uint_eq(s.edge, 1);
	w.plan.rings[0].nodes[2].kind = EDGE_HOUSE_WALL;
	work_out();
	ck_assert_uint_eq(s.edge, 2);
	w.plan.rings[0].nodes[2].rise_um = 100 * MM;
	work_out();
	ck_assert_uint_eq(s.edge, 1);
	for (int i = 0; i < 4; i++)
		w.plan.rings[0].nodes[i].rise_um = 100 * MM;
	work_out();
	ck_assert_uint_eq(s.edge, 0); /* all arcs: the longest chord */
}
END_TEST

START_TEST(a_baseline_of_the_plan_comes_first_and_has_a_length)
{
	struct error err = { 0 };

	worked_rectangle(&w, 6 * M, 4 * M);
	w.plan.site.baseline = (struct plan_baseline){ true, 0, -1 * M, 8 * M, -1 * M };
	work_out();
	ck_assert(!s.chosen);
	ck_assert_double_eq_tol(found("corner 3")->offset_um, 5e6, 1e-6);
	w.plan.site.baseline.x2_um = 900;
	w.plan.site.baseline.y2_um = -1 * M;
	ck_assert_int_eq(setout_work_out(&w.mem, &w.plan, &s, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "baseline is shorter than 1 mm"));
}
END_TEST

START_TEST(left_of_the_baseline_is_positive)
{
	worked_rectangle(&w, 6 * M, 4 * M);
	w.plan.site.baseline = (struct plan_baseline){ true, 6 * M, 0, 0, 0 };
	work_out();
	ck_assert_double_eq_tol(found("corner 4")->chainage_um, 6e6, 1e-6);
	ck_assert_double_eq_tol(found("corner 4")->offset_um, -4e6, 1e-6);
}
END_TEST

START_TEST(every_peg_planter_and_nosing_is_set_out)
{
	struct plan_peg pegs[] = { { "centre", 3 * M, 2 * M }, { "", 1 * M, 1 * M } };
	struct plan_point corners[] = { { 7 * M, 0 }, { 8 * M, 0 }, { 8 * M, 1 * M } };
	struct plan_planter planter;
	struct plan_steps steps;
	struct plan_node hole[] = { { 1 * M, 1 * M, 0, EDGE_OPEN, 0, 0 },
		{ 2 * M, 1 * M, 0, EDGE_OPEN, 0, 0 }, { 1 * M, 2 * M, 0, EDGE_OPEN, 0, 0 } };

	worked_rectangle(&w, 6 * M, 4 * M);
	worked_add_opening(&w, hole, 3);
	planter_init(&planter);
	planter.points = corners;
	planter.count = 3;
	steps_init(&steps);
	steps.name = "garden steps";
	steps.x_um = 3 * M;
	steps.y_um = 4 * M;
	steps.toward_udeg = 90 * UDEG_PER_DEG;
	w.plan.site.pegs = pegs;
	w.plan.site.peg_count = 2;
	w.plan.planters = &planter;
	w.plan.planter_count = 1;
	w.plan.steps = &steps;
	w.plan.steps_count = 1;
	work_out();
	ck_assert_uint_eq(s.point_count, 4 + 3 + 3 + 2 + 2);
	ck_assert(found("centre")->is_peg && found("peg 2")->is_peg);
	ck_assert_double_eq(found("opening 1 corner 2")->chainage_um, 2e6);
	ck_assert_double_eq(found("planter 1 corner 3")->offset_um, 1e6);
	/* Down is up in the plan, so left is where x is less. */
	ck_assert_double_eq_tol(found("garden steps left")->x_um, 2.4e6, 1e-6);
	ck_assert_double_eq_tol(found("garden steps right")->x_um, 3.6e6, 1e-6);
}
END_TEST

/* Kerbs along edges 2 and 3; their run ends at the corners 2 and 4, 125 mm outward. */
START_TEST(a_run_of_kerbs_ends_at_its_back)
{
	worked_rectangle(&w, 6 * M, 4 * M);
	w.plan.rings[0].nodes[1].kind = w.plan.rings[0].nodes[2].kind = EDGE_KERB;
	work_out();
	ck_assert_uint_eq(s.point_count, 4); /* the kerb's depth is not known */
	w.plan.edging[EDGE_KERB].depth_um = 125 * MM;
	work_out();
	ck_assert_uint_eq(s.point_count, 6);
	ck_assert_double_eq_tol(found("kerb end at corner 2")->x_um, 6.125e6, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 2")->y_um, 0, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 4")->x_um, 0, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 4")->y_um, 4.125e6, 1e-6);
}
END_TEST

/* A half circle along edge 3: there its kerb's ends lie on either side, in line with the chord. And
 * the same with the outline run the other way round. */
START_TEST(a_kerb_on_an_arc_ends_square_to_it)
{
	struct plan_node turned[] = { { 0, 0, 0, EDGE_OPEN, 0, 0 },
		{ 0, 4 * M, 3 * M, EDGE_KERB, 0, 0 }, { 6 * M, 4 * M, 0, EDGE_OPEN, 0, 0 },
		{ 6 * M, 0, 0, EDGE_OPEN, 0, 0 } };

	worked_rectangle(&w, 6 * M, 4 * M);
	w.plan.rings[0].nodes[2].kind = EDGE_KERB;
	w.plan.rings[0].nodes[2].rise_um = 3 * M;
	w.plan.edging[EDGE_KERB].depth_um = 100 * MM;
	work_out();
	ck_assert_double_eq_tol(found("kerb end at corner 3")->x_um, 6.1e6, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 3")->y_um, 4e6, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 4")->x_um, -0.1e6, 1e-6);
	worked_done(&w);
	worked_init(&w, turned, 4);
	w.plan.edging[EDGE_KERB].depth_um = 100 * MM;
	work_out();
	ck_assert_double_eq_tol(found("kerb end at corner 2")->x_um, -0.1e6, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 3")->x_um, 6.1e6, 1e-6);
	ck_assert_double_eq_tol(found("kerb end at corner 3")->y_um, 4e6, 1e-6);
}
END_TEST

/* Where two circles about the baseline's ends cross, on the offset's side. */
static struct point tied(const struct setout_point *p)
{
	double l = s.length_um,
	       along = (p->tie_first_um * p->tie_first_um - p->tie_second_um * p->tie_second_um +
	                       l * l) /
	               (2 * l),
	       off = sqrt(fmax(0, p->tie_first_um * p->tie_first_um - along * along)),
	       ux = (s.second.x - s.first.x) / l, uy = (s.second.y - s.first.y) / l;

	if (p->offset_um < 0)
		off = -off;
	return (struct point){ s.first.x + along * ux - off * uy,
		s.first.y + along * uy + off * ux };
}

START_TEST(offsets_and_ties_rebuild_every_point)
{
	struct chance c = chance_new(chance_seed("setout", 11));

	for (int round = 0; round < 300 / ONE_OF; round++) {
		struct plan_peg pegs[30];
		struct plan_baseline *b = &w.plan.site.baseline;

		worked_rectangle(&w, 6 * M, 4 * M);
		*b = (struct plan_baseline){ true, chance_int(&c, -9 * M, 9 * M),
			chance_int(&c, -9 * M, 9 * M), 0, 0 };
		b->x2_um = b->x1_um + chance_int(&c, 1 * M, 9 * M);
		b->y2_um = b->y1_um + chance_int(&c, -9 * M, 9 * M);
		for (int i = 0; i < 30; i++)
			pegs[i] = (struct plan_peg){ "", chance_int(&c, -20 * M, 20 * M),
				chance_int(&c, -20 * M, 20 * M) };
		w.plan.site.pegs = pegs;
		w.plan.site.peg_count = 30;
		work_out();
		for (size_t i = 0; i < s.point_count; i++) {
			const struct setout_point *p = &s.points[i];
			double ux = (s.second.x - s.first.x) / s.length_um,
			       uy = (s.second.y - s.first.y) / s.length_um;
			struct point t = tied(p);

			ck_assert_double_eq_tol(
			        s.first.x + p->chainage_um * ux - p->offset_um * uy, p->x_um, 1e-3);
			ck_assert_double_eq_tol(
			        s.first.y + p->chainage_um * uy + p->offset_um * ux, p->y_um, 1e-3);
			if (p->weak_tie)
				continue;
			ck_assert_double_eq_tol(t.x, p->x_um, 0.1);
			ck_assert_double_eq_tol(t.y, p->y_um, 0.1);
		}
		for (size_t i = 1; i < s.point_count; i++)
			ck_assert_double_le(s.points[s.running[i - 1]].chainage_um,
			        s.points[s.running[i]].chainage_um);
		worked_done(&w);
	}
	worked_rectangle(&w, M, M);
}
END_TEST

/* Tapes of 60 degrees are good, a point on the line is not, nor one far away. */
START_TEST(tapes_that_cross_flat_or_sharp_are_told)
{
	struct plan_peg pegs[] = { { "good", 3 * M, -5 * M }, { "flat", 3 * M, -300 * MM },
		{ "far", 3 * M, -60 * M }, { "under", 3 * M, -11300 * MM },
		{ "over", 3 * M, -11100 * MM } };

	worked_rectangle(&w, 6 * M, 4 * M);
	w.plan.site.pegs = pegs;
	w.plan.site.peg_count = 5;
	work_out();
	ck_assert(!found("good")->weak_tie);
	ck_assert(found("flat")->weak_tie);
	ck_assert(found("far")->weak_tie);
	/* 2 atan(3 / y) is 30 degrees at y = 11.196 m. */
	ck_assert(found("under")->weak_tie);
	ck_assert(!found("over")->weak_tie);
	ck_assert(found("corner 1")->weak_tie);
}
END_TEST

/* --- diagonals --- */

START_TEST(a_triangle_has_no_diagonals)
{
	const double mm[] = { 0, 0, 4000, 0, 0, 3000 };

	w = (struct worked){ 0 };
	w.plan = plan_by_hand(&w.mem, 3, mm);
	work_out();
	ck_assert_uint_eq(s.diagonal_count, 0);
	ck_assert_uint_eq(s.triple_count, 1);
	ck_assert_int_eq(s.triples[0].leg_3_um, 3 * M);
	ck_assert(!s.triples[0].leg_4_leads == (s.triples[0].at != 0));
}
END_TEST

static double cross(struct plan_node a, struct plan_node b, struct plan_node c)
{
	return (double)(b.x_um - a.x_um) * (double)(c.y_um - a.y_um) -
	       (double)(c.x_um - a.x_um) * (double)(b.y_um - a.y_um);
}

/* Whether the straight line between two corners keeps inside the outline. */
static bool keeps_inside(const struct plan_ring *r, size_t from, size_t to)
{
	struct region region;
	struct plan_node a = r->nodes[from], b = r->nodes[to];

	ck_assert_int_eq(region_from_plan(&w.mem, &w.plan, &region, NULL), STATUS_OK);
	for (size_t i = 0; i < r->count; i++) {
		struct plan_node c = r->nodes[i], d = r->nodes[(i + 1) % r->count];

		if (cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0)
			return false;
	}
	return region_contains(&region,
	        (struct point){ (double)(a.x_um + b.x_um) / 2, (double)(a.y_um + b.y_um) / 2 });
}

/* Fixed by sides and diagonals: begun with two corners, each further one has two known distances to
 * corners already fixed. */
static bool is_rigid(size_t n)
{
	bool fixed[64] = { true, true };
	bool grows = true;

	while (grows) {
		grows = false;
		for (size_t i = 0; i < n; i++) {
			size_t known = (size_t)fixed[(i + 1) % n] + (size_t)fixed[(i + n - 1) % n];

			for (size_t k = 0; k < s.diagonal_count; k++)
				if (!s.diagonals[k].check)
					known += (s.diagonals[k].from == i &&
					                 fixed[s.diagonals[k].to]) ||
					         (s.diagonals[k].to == i &&
					                 fixed[s.diagonals[k].from]);
			if (!fixed[i] && known >= 2)
				fixed[i] = grows = true;
		}
	}
	for (size_t i = 0; i < n; i++)
		if (!fixed[i])
			return false;
	return true;
}

/* A ring that sees all of itself from its middle, so that it does not cross itself. */
static void random_outline(struct chance *c, size_t n)
{
	double mm[64];
	bool clockwise = chance_int(c, 0, 1);

	for (size_t i = 0; i < n; i++) {
		double turn = 2 * acos(-1) * ((double)i + chance_real(c, 0, 0.8)) / (double)n,
		       reach = chance_real(c, 1000, 9000);

		mm[2 * i] = floor(cos(clockwise ? -turn : turn) * reach);
		mm[2 * i + 1] = floor(sin(clockwise ? -turn : turn) * reach);
	}
	w = (struct worked){ 0 };
	w.plan = plan_by_hand(&w.mem, n, mm);
}

START_TEST(diagonals_lie_inside_and_fix_any_outline)
{
	struct chance c = chance_new(chance_seed("diagonals", 12));
	int looked_at = 0;

	for (int round = 0; round < 400 / ONE_OF; round++) {
		size_t n = (size_t)chance_int(&c, 5, 30), needed = 0;
		const struct plan_ring *r;

		random_outline(&c, n);
		r = &w.plan.rings[0];
		if (outline_check(&w.plan, NULL) == STATUS_OK) {
			work_out();
			for (size_t i = 0; i < s.diagonal_count; i++) {
				needed += !s.diagonals[i].check;
				ck_assert(keeps_inside(r, s.diagonals[i].from, s.diagonals[i].to));
			}
			ck_assert_uint_eq(needed, n - 3);
			ck_assert(is_rigid(n));
			looked_at++;
		}
		worked_done(&w);
	}
	ck_assert_int_gt(looked_at, 200 / ONE_OF);
	worked_rectangle(&w, M, M);
}
END_TEST

/* An L: the reflex corner sees all others; the straight line from corner 3 to 5 runs outside. */
START_TEST(no_diagonal_of_an_l_runs_outside_it)
{
	const double mm[] = { 0, 0, 6000, 0, 6000, 2000, 3000, 2000, 3000, 5000, 0, 5000 };

	w = (struct worked){ 0 };
	w.plan = plan_by_hand(&w.mem, 6, mm);
	work_out();
	for (size_t i = 0; i < s.diagonal_count; i++)
		ck_assert(s.diagonals[i].from != 2 || s.diagonals[i].to != 4);
	ck_assert(is_rigid(6));
}
END_TEST

/* --- arcs --- */

START_TEST(offsets_of_an_arc_lie_on_its_circle)
{
	static const int64_t rises[] = { 250, 3000, 5900, -250, -2000 };

	for (size_t k = 0; k < sizeof rises / sizeof *rises; k++) {
		worked_rectangle(&w, 6 * M, 8 * M);
		w.plan.rings[0].nodes[0].rise_um = rises[k] * MM;
		work_out();
		ck_assert_uint_eq(s.arc_count, 1);
		ck_assert_uint_eq(s.arcs[0].edge, 0);
		ck_assert_uint_eq(s.arcs[0].count, 11);
		for (size_t i = 0; i < s.arcs[0].count; i++) {
			double sign = rises[k] < 0 ? -1 : 1, rise = fabs(s.arcs[0].rise_um),
			       x = s.arcs[0].offsets[i].along_um - 3e6,
			       y = sign * s.arcs[0].offsets[i].offset_um;

			ck_assert_double_eq_tol(
			        hypot(x, y - (rise - s.arcs[0].radius_um)), s.arcs[0].radius_um, 1);
			ck_assert_double_gt(y, 0);
		}
		ck_assert_double_eq_tol(
		        s.arcs[0].offsets[5].offset_um, (double)(rises[k] * MM), 1e-3);
		if (rises[k] <= 3000)
			ck_assert_double_eq_tol(s.arcs[0].offsets[0].along_um, 0.5e6, 1e-3);
		worked_done(&w);
	}
	worked_rectangle(&w, M, M);
}
END_TEST

START_TEST(corners_that_are_not_square_get_no_3_4_5)
{
	/* Corner 1 is square, corner 2 is off by 0.1 degrees, corner 4 stands beside an arc. */
	const double mm[] = { 0, 0, 5000, 0, 5007, 4000, 0, 4000 };

	w = (struct worked){ 0 };
	w.plan = plan_by_hand(&w.mem, 4, mm);
	w.plan.rings[0].nodes[2].rise_um = 50 * MM;
	work_out();
	ck_assert_uint_eq(s.triple_count, 1);
	ck_assert_uint_eq(s.triples[0].at, 0);
	ck_assert_int_eq(s.triples[0].leg_4_um, 4800 * MM);
	ck_assert(s.triples[0].leg_4_leads);
}
END_TEST

START_TEST(a_leg_under_300_mm_is_too_short_for_3_4_5)
{
	worked_rectangle(&w, 299 * MM, 4 * M);
	work_out();
	ck_assert_uint_eq(s.triple_count, 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("setout");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, the_longest_straight_house_wall_is_the_baseline);
	tcase_add_test(tc, a_baseline_of_the_plan_comes_first_and_has_a_length);
	tcase_add_test(tc, left_of_the_baseline_is_positive);
	tcase_add_test(tc, every_peg_planter_and_nosing_is_set_out);
	tcase_add_test(tc, a_run_of_kerbs_ends_at_its_back);
	tcase_add_test(tc, a_kerb_on_an_arc_ends_square_to_it);
	tcase_add_test(tc, offsets_and_ties_rebuild_every_point);
	tcase_add_test(tc, tapes_that_cross_flat_or_sharp_are_told);
	tcase_add_test(tc, a_triangle_has_no_diagonals);
	tcase_add_test(tc, diagonals_lie_inside_and_fix_any_outline);
	tcase_add_test(tc, no_diagonal_of_an_l_runs_outside_it);
	tcase_add_test(tc, offsets_of_an_arc_lie_on_its_circle);
	tcase_add_test(tc, corners_that_are_not_square_get_no_3_4_5);
	tcase_add_test(tc, a_leg_under_300_mm_is_too_short_for_3_4_5);
	return suite_run("setout", tc);
}
