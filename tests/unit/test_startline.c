/* The search for start lines, by hand, and what holds of every list. */
#include "plans.h"
#include "slabwright/startline.h"
#include "suite.h"

#include <string.h>

static struct worked w;
static struct start_search *search;
static struct start_list list;

static void teardown(void)
{
	worked_done(&w);
}

static void begin(bool turns)
{
	struct error err;

	work_out_plan(&w);
	ck_assert_int_eq(startline_begin(&w.mem, &w.t, turns, &search, &err), STATUS_OK);
}

static void go_on(int64_t slice)
{
	struct error err;

	while (!startline_done(search))
		ck_assert_int_eq(startline_step(search, slice, &err), STATUS_OK);
	startline_best(search, &list);
	ck_assert(list.done);
}

static void rank(bool turns)
{
	begin(turns);
	go_on(100000);
}

/* The figures of a row, whatever its place. */
static void assert_row(const struct start_row *r, int64_t slivers, int64_t slabs, int64_t cuts,
        int64_t smallest_um, int64_t balance_um)
{
	ck_assert_int_eq(r->slivers, slivers);
	ck_assert_int_eq(r->slabs, slabs);
	ck_assert_int_eq(r->cuts, cuts);
	ck_assert_int_eq(r->smallest_um, smallest_um);
	ck_assert_int_eq(r->balance_um, balance_um);
}

/* Each row's figures are the take-off's of the plan with that start. */
static void rows_are_take_offs(void)
{
	ck_assert_uint_gt(list.count, 0);
	for (size_t i = 0; i < list.count; i++) {
		const struct start_row *r = &list.rows[i];
		struct worked moved = { .plan = w.plan, .rules = w.rules };

		moved.plan.laying.start_x_um = r->x_um;
		moved.plan.laying.start_y_um = r->y_um;
		moved.plan.laying.rotation_udeg =
		        startline_rotation(w.plan.laying.rotation_udeg, r->turn_udeg);
		work_out_plan(&moved);
		for (int k = 0; k < 10 && takeoff_improve(&moved.mem, &moved.t, 20000); k++)
			;
		ck_assert_int_eq(moved.t.laid.sliver, r->slivers);
		ck_assert_int_eq(moved.t.laid.cut, r->cuts);
		ck_assert_int_eq(moved.t.order.slabs, r->slabs);
		worked_done(&moved);
	}
}

/* 6.1 m x 3 m of 600 x 300 (597 x 297 and the joint), ten courses. From a corner: ten whole slabs a
 * course and a cut one of 100 mm, two of which come from one slab: 100 + 5, and 2 % are 3 more. One
 * side has no cut piece, so the whole slab's 597 stands for it. */
START_TEST(whole_slabs_begin_at_the_corner_where_they_fit)
{
	worked_rectangle(&w, 6100000, 3000000);
	w.plan.laying.bond = BOND_STACK;
	rank(false);
	ck_assert(list.exact);
	ck_assert_int_eq(list.least_slabs, 108);
	ck_assert(list.rows[0].present);
	assert_row(&list.rows[0], 0, 108, 10, 100000, 497000);
	rows_are_take_offs();
}
END_TEST

/* The same from 137, 61 mm: the best start is the corner's, to the joint. The present one: 134 mm
 * at the left, 6100 - 137 - 9 * 600 = 563 at the right; 58 below, 3000 - 61 - 9 * 300 = 239 above;
 * slivers are those of 58 mm, under a quarter of 297: the lowest course. */
START_TEST(the_present_start_is_told_beside_the_best)
{
	worked_rectangle(&w, 6100000, 3000000);
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.start_x_um = 137000;
	w.plan.laying.start_y_um = 61000;
	rank(false);
	assert_row(&list.rows[0], 0, 108, 10, 100000, 497000);
	ck_assert(!list.rows[0].present && list.now.present);
	ck_assert_int_eq(list.now.slivers, 11);
	ck_assert_int_eq(list.now.smallest_um, 58000);
	ck_assert_int_eq(list.now.balance_um, 563000 - 134000 + 239000 - 58000);
	ck_assert_int_eq(list.now.x_um, 137000);
	rows_are_take_offs();
}
END_TEST

/* 6 m x 3 m less the joint: nothing is cut. */
START_TEST(a_start_without_cuts_comes_first)
{
	worked_rectangle(&w, 5997000, 2997000);
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.start_x_um = 250000;
	w.plan.laying.start_y_um = 100000;
	rank(false);
	ck_assert(list.exact);
	assert_row(&list.rows[0], 0, 102, 0, START_NO_PIECE, 0);
	ck_assert_int_eq(list.rows[0].x_um % 600000, 0);
	ck_assert_int_eq(list.rows[0].y_um % 300000, 0);
}
END_TEST

/* 3 m x 6 m turned: the slabs stand, and five of their lengths and twenty of their widths fit. */
START_TEST(the_bond_turned_is_tried_where_it_is_asked_for)
{
	worked_rectangle(&w, 2997000, 3597000);
	w.plan.laying.bond = BOND_STRETCHER;
	rank(false);
	ck_assert_int_gt(list.rows[0].cuts, 0);
	begin(true);
	go_on(100000);
	ck_assert(list.exact);
	rows_are_take_offs();
	for (size_t i = 0; i < list.count; i++)
		if (list.rows[i].turn_udeg)
			return;
	ck_abort_msg("no row is turned");
}
END_TEST

START_TEST(a_square_slab_in_stack_bond_is_not_turned)
{
	worked_rectangle(&w, 3100000, 2300000);
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.slab.length_um = w.plan.laying.slab.width_um = 400000;
	rank(true);
	for (size_t i = 0; i < list.count; i++)
		ck_assert_int_eq(list.rows[i].turn_udeg, 0);
}
END_TEST

START_TEST(slices_of_any_size_end_in_the_same_list)
{
	struct start_list whole;

	worked_rectangle(&w, 4300000, 2750000);
	rank(false);
	whole = list;
	begin(false);
	go_on(1);
	ck_assert_uint_eq(whole.count, list.count);
	ck_assert_int_eq(whole.tried, list.tried);
	ck_assert_int_eq(memcmp(whole.rows, list.rows, list.count * sizeof *list.rows), 0);
}
END_TEST

START_TEST(the_list_gets_no_worse_as_the_search_goes_on)
{
	struct error err;
	struct start_row best;

	worked_rectangle(&w, 4300000, 2750000);
	w.plan.laying.rotation_udeg = 30 * UDEG_PER_DEG;
	begin(false);
	startline_best(search, &list);
	ck_assert(!list.done && list.rows[0].present);
	while (!startline_done(search)) {
		best = list.rows[0];
		ck_assert_int_eq(startline_step(search, 20000, &err), STATUS_OK);
		startline_best(search, &list);
		ck_assert_int_le(list.rows[0].slivers, best.slivers);
		if (list.rows[0].slivers == best.slivers)
			ck_assert_int_le(list.rows[0].slabs, best.slabs);
	}
	ck_assert(!list.exact);
	ck_assert_int_eq(list.fine_um, 1000);
	ck_assert_int_gt(list.grid_um, 0);
	ck_assert_int_lt(list.grid_um, 10000);
	rows_are_take_offs();
}
END_TEST

/* Borders of the field's own slab, and a zone: they keep their pieces, and share its order. */
START_TEST(borders_and_zones_stay_and_their_slabs_count)
{
	static struct plan_node corners[] = { { 1000000, 1000000, 0, EDGE_OPEN, 0, 0 },
		{ 2730000, 1000000, 0, EDGE_OPEN, 0, 0 }, { 2730000, 2100000, 0, EDGE_OPEN, 0, 0 },
		{ 1000000, 2100000, 0, EDGE_OPEN, 0, 0 } };
	struct plan_border border;
	struct plan_zone zone;

	worked_rectangle(&w, 5230000, 3410000);
	border_init(&border);
	border.slab = w.plan.laying.slab;
	zone_init(&zone);
	zone.ring = (struct plan_ring){ corners, 4, true };
	zone.laying.bond = BOND_STACK;
	w.plan.borders = &border;
	w.plan.border_count = 1;
	w.plan.zones = &zone;
	w.plan.zone_count = 1;
	w.plan.rings[0].nodes[0].border = 1;
	rank(false);
	rows_are_take_offs();
}
END_TEST

START_TEST(a_zone_over_all_of_it_leaves_one_start)
{
	static struct plan_node corners[] = { { -100000, -100000, 0, EDGE_OPEN, 0, 0 },
		{ 4100000, -100000, 0, EDGE_OPEN, 0, 0 }, { 4100000, 3100000, 0, EDGE_OPEN, 0, 0 },
		{ -100000, 3100000, 0, EDGE_OPEN, 0, 0 } };
	struct plan_zone zone;

	worked_rectangle(&w, 4000000, 3000000);
	zone_init(&zone);
	zone.ring = (struct plan_ring){ corners, 4, true };
	w.plan.zones = &zone;
	w.plan.zone_count = 1;
	begin(false);
	ck_assert(startline_done(search));
	startline_best(search, &list);
	ck_assert_uint_eq(list.count, 1);
	ck_assert(list.exact && list.rows[0].present);
}
END_TEST

/* At the edge of what a plan may reach, the start named is one that the plan may have. */
START_TEST(starts_stay_within_reach)
{
	const int64_t far = COORD_LIMIT_UM;
	const struct plan_node corners[] = { { far - 4300000, far - 2750000, 0, EDGE_OPEN, 0, 0 },
		{ far, far - 2750000, 0, EDGE_OPEN, 0, 0 }, { far, far, 0, EDGE_OPEN, 0, 0 },
		{ far - 4300000, far, 0, EDGE_OPEN, 0, 0 } };

	worked_init(&w, corners, 4);
	w.plan.laying.start_x_um = w.plan.laying.start_y_um = far;
	rank(false);
	for (size_t i = 0; i < list.count; i++) {
		ck_assert_int_le(list.rows[i].x_um, far);
		ck_assert_int_le(list.rows[i].y_um, far);
	}
	rows_are_take_offs();
}
END_TEST

START_TEST(a_plan_that_cannot_be_laid_has_no_starts)
{
	struct error err;

	worked_rectangle(&w, 4000000, 3000000);
	w.plan.laying.bond = BOND_HERRINGBONE;
	w.plan.laying.slab.length_um = 500000;
	ck_assert_int_eq(takeoff_plan(&w.mem, &w.plan, &w.rules, &w.t, &err), STATUS_OK);
	ck_assert_int_eq(startline_begin(&w.mem, &w.t, false, &search, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text, w.t.fault.text);
}
END_TEST

START_TEST(every_bond_is_ranked)
{
	static struct mix_size sizes[] = { { 600000, 400000, 4 }, { 400000, 400000, 4 },
		{ 250000, 400000, 3 }, { 600000, 200000, 3 }, { 350000, 200000, 3 } };

	for (int bond = BOND_STACK; bond < BONDS; bond++) {
		if (bond == BOND_MIXED)
			continue;
		worked_rectangle(&w, 2610000, 1930000);
		w.plan.laying.bond = (enum bond)bond;
		w.plan.laying.mix = (struct plan_mix){ 7, sizes, 5 };
		rank(false);
		ck_assert_int_eq(list.grid_um > 0, bond == BOND_COURSED_RANDOM);
		rows_are_take_offs();
		worked_done(&w);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("startline");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, whole_slabs_begin_at_the_corner_where_they_fit);
	tcase_add_test(tc, the_present_start_is_told_beside_the_best);
	tcase_add_test(tc, a_start_without_cuts_comes_first);
	tcase_add_test(tc, the_bond_turned_is_tried_where_it_is_asked_for);
	tcase_add_test(tc, a_square_slab_in_stack_bond_is_not_turned);
	tcase_add_test(tc, slices_of_any_size_end_in_the_same_list);
	tcase_add_test(tc, the_list_gets_no_worse_as_the_search_goes_on);
	tcase_add_test(tc, borders_and_zones_stay_and_their_slabs_count);
	tcase_add_test(tc, a_zone_over_all_of_it_leaves_one_start);
	tcase_add_test(tc, starts_stay_within_reach);
	tcase_add_test(tc, a_plan_that_cannot_be_laid_has_no_starts);
	tcase_add_test(tc, every_bond_is_ranked);
	return suite_run("startline", tc);
}
