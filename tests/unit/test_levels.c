/* The level sheet's points, by hand: 6 m by 4 m that falls 10 mm/m up the plan from level 0 at the
 * bottom, slab 50, bedding 40, sub-base 100: formation 190 mm down; the instrument at 1.500 m. */
#include "plans.h"
#include "suite.h"

#include <string.h>

#define MM UM_PER_MM

static struct worked w;

static void setup(void)
{
	worked_rectangle(&w, 6000 * MM, 4000 * MM);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 10 * MM);
	w.plan.ground = (struct plan_ground){ 40 * MM, 100 * MM, true, 0, 1500 * MM };
}

static void teardown(void)
{
	worked_done(&w);
}

static const struct level_point *point(const char *name)
{
	const struct level_point *found = NULL;

	for (size_t i = 0; i < w.t.level_count; i++) {
		if (strcmp(w.t.levels[i].name, name) != 0)
			continue;
		ck_assert_msg(!found, "%s comes twice", name);
		found = &w.t.levels[i];
	}
	ck_assert_msg(found != NULL, "%s is not there", name);
	return found;
}

static void has(const char *name, double level_mm, double dug_mm, double x_mm, double y_mm)
{
	const struct level_point *p = point(name);

	ck_assert_double_eq_tol(p->level_um, level_mm * 1000, 1e-3);
	ck_assert_double_eq_tol(p->formation_um, dug_mm * 1000, 1e-3);
	ck_assert(p->has_staff);
	ck_assert_double_eq_tol(p->staff_um, (1500 - level_mm) * 1000, 1e-3);
	ck_assert_double_eq_tol((double)p->x_um, x_mm * 1000, 1);
	ck_assert_double_eq_tol((double)p->y_um, y_mm * 1000, 1);
}

START_TEST(pegs_lie_on_the_surface)
{
	static struct plan_peg pegs[] = { { "north", 3000 * MM, 4500 * MM } };

	w.plan.site.pegs = pegs;
	w.plan.site.peg_count = 1;
	work_out_plan(&w);
	has("corner 3", -40, -230, 6000, 4000);
	has("north", -45, -235, 3000, 4500);
	ck_assert_uint_eq(w.t.level_count, 5);
}
END_TEST

/* Kerbs of 150 mm along edges 2 and 3, their top 20 mm under the surface, on a strip of 100 mm: the
 * trench lies 270 mm under it. The corner that both share comes once. */
START_TEST(kerbs_begin_turn_and_end_once)
{
	w.plan.rings[0].nodes[1].kind = w.plan.rings[0].nodes[2].kind = EDGE_KERB;
	w.plan.edging[EDGE_KERB] = (struct plan_edging){ .name = "kerb",
		.unit_um = 1000 * MM,
		.depth_um = 50 * MM,
		.height_um = 150 * MM,
		.top_um = -20 * MM,
		.strip_um = 100 * MM,
		.haunch_um = 100 * MM,
		.held_um = 50 * MM,
		.price_minor = -1 };
	work_out_plan(&w);
	has("kerb top, corner 2", -20, -270, 6000, 0);
	has("kerb top, corner 3", -60, -310, 6000, 4000);
	has("kerb top, corner 4", -60, -310, 0, 4000);
	ck_assert_uint_eq(w.t.level_count, 4 + 3);
}
END_TEST

/* Two courses of 215 mm with 10 mm under each joint stand on -50 mm; the footing is 150 mm deep. */
START_TEST(planters_stand_level)
{
	static struct plan_point corners[] = { { 0, 5000 * MM }, { 3000 * MM, 5000 * MM } };
	struct plan_planter planter;
	const struct level_point *first;

	planter_init(&planter);
	planter.points = corners;
	planter.count = 2;
	planter.base_um = -50 * MM;
	w.plan.planters = &planter;
	w.plan.planter_count = 1;
	work_out_plan(&w);
	ck_assert(w.t.planters.items[0].ready);
	first = point("planter 1 top, corner 1");
	ck_assert_double_eq_tol(first->level_um, (double)w.t.planters.items[0].top_um, 1e-3);
	ck_assert_double_eq_tol(first->formation_um, -200 * MM, 1e-3);
	ck_assert_double_eq_tol(point("planter 1 top, corner 2")->level_um, first->level_um, 1e-3);
}
END_TEST

/* 450 mm down from -40 mm at the top edge in three risers of 150 mm, going 300 mm up the plan. */
START_TEST(nosings_go_down_the_flight)
{
	struct plan_steps steps;

	steps_init(&steps);
	steps.x_um = 3000 * MM;
	steps.y_um = 4000 * MM;
	steps.toward_udeg = 90 * UDEG_PER_DEG;
	steps.bottom_um = -490 * MM;
	steps.risers = 3;
	steps.bed_um = 0;
	steps.tread_fall_um_per_m = 0;
	w.plan.steps = &steps;
	w.plan.steps_count = 1;
	work_out_plan(&w);
	ck_assert_ptr_null(w.t.steps.flights[0].fault);
	has("steps 1 nosing 3", -40, -190, 3000, 4000);
	has("steps 1 nosing 2", -190, -340, 3000, 4300);
	has("steps 1 nosing 1", -340, -490, 3000, 4600);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("levels");

	tcase_add_checked_fixture(t, setup, teardown);
	tcase_add_test(t, pegs_lie_on_the_surface);
	tcase_add_test(t, kerbs_begin_turn_and_end_once);
	tcase_add_test(t, planters_stand_level);
	tcase_add_test(t, nosings_go_down_the_flight);
	return suite_run("levels", t);
}
