/* Price and day plan of a whole take-off. */
#include "chance.h"
#include "oracle/random_plan.h"
#include "plans.h"
#include "suite.h"

#include <string.h>

#define MM UM_PER_MM

static struct worked w;

static void triangle(void)
{
	static const struct plan_node corners[] = { { 0, 0, 0, EDGE_OPEN, 0, 0 },
		{ 7300 * MM, 350 * MM, 0, EDGE_OPEN, 0, 0 },
		{ 2950 * MM, 5700 * MM, 0, EDGE_OPEN, 0, 0 } };

	worked_init(&w, corners, 3);
	w.plan.laying.slab.price_minor = 731;
	w.plan.costs.wage_minor = 3800;
	work_out_plan(&w);
}

/* What the price says of slabs. */
static int64_t slabs_cost(const struct takeoff *t)
{
	const struct price *p = &t->costing.price;
	int64_t sum = 0;

	for (size_t i = 0; i < p->count; i++) {
		const struct material_line *m;

		if (p->lines[i].group != COST_MATERIALS)
			continue;
		m = &t->materials.lines[p->lines[i].of];
		if (m->piece && m->goods == GOODS_SLABS)
			sum += p->lines[i].amount_minor;
	}
	return sum;
}

START_TEST(a_better_cut_plan_changes_the_price_with_the_order)
{
	struct chance c = chance_new(chance_seed("costing", 5));
	int bettered = 0;

	for (int i = 0; i < 40 && bettered < 3; i++) {
		struct arena mem = { 0 };
		struct plan p = random_plan(&mem, &c, STYLE_STAR);
		struct takeoff t;
		int64_t before;

		p.laying.slab.price_minor = 731;
		t = take_off_laid(&mem, &p);
		before = t.order.slabs;
		ck_assert(t.costing.has_price && t.costing.has_schedule);
		ck_assert(t.order.price_minor < 0 || slabs_cost(&t) == t.order.price_minor);
		while (takeoff_improve(&mem, &t, 200000))
			;
		bettered += t.order.slabs < before;
		ck_assert(t.order.price_minor < 0 || slabs_cost(&t) == t.order.price_minor);
		arena_free(&mem);
	}
	ck_assert_int_gt(bettered, 0);
}
END_TEST

START_TEST(hours_of_price_and_day_plan_are_the_same)
{
	triangle();
	ck_assert_int_gt(w.t.costing.price.hours_centi, 0);
	ck_assert_int_eq(w.t.costing.price.hours_centi, w.t.costing.schedule.hours_centi);
	worked_done(&w);
}
END_TEST

START_TEST(costs_that_are_none_leave_the_rest_of_the_take_off_alone)
{
	worked_rectangle(&w, 4000 * MM, 3000 * MM);
	w.plan.costs.crew = 0;
	work_out_plan(&w);
	ck_assert(!w.t.costing.has_price && !w.t.costing.has_schedule);
	ck_assert_ptr_nonnull(strstr(w.t.costing.price_fault.text, "costs.labour.crew"));
	ck_assert_int_gt(w.t.laid.whole, 0);
	worked_done(&w);
	worked_rectangle(&w, 4000 * MM, 3000 * MM);
	w.plan.costs.start_date = "2026-02-30";
	work_out_plan(&w);
	ck_assert(!w.t.costing.has_schedule);
	ck_assert_ptr_nonnull(strstr(w.t.costing.schedule_fault.text, "not a day of the calendar"));
	worked_done(&w);
}
END_TEST

START_TEST(an_open_outline_has_neither)
{
	static const struct rules none = { .name = "none" };
	struct plan plan;
	struct arena mem = { 0 };
	struct takeoff t;

	plan_init(&plan);
	ck_assert_int_eq(takeoff_plan(&mem, &plan, &none, &t, NULL), STATUS_OK);
	ck_assert(!t.costing.has_price && !t.costing.has_schedule);
	ck_assert_str_eq(t.costing.price_fault.text, t.fault.text);
	ck_assert_str_eq(t.costing.schedule_fault.text, t.fault.text);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("costing");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_better_cut_plan_changes_the_price_with_the_order);
	tcase_add_test(tc, hours_of_price_and_day_plan_are_the_same);
	tcase_add_test(tc, costs_that_are_none_leave_the_rest_of_the_take_off_alone);
	tcase_add_test(tc, an_open_outline_has_neither);
	return suite_run("costing", tc);
}
