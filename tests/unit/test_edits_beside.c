/* Edits of water, site, planters, steps and channels along edges: what they keep, that they can be
 * taken back. */
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static void setup(void)
{
	program_folder();
}

static void edit(struct store *s, int64_t variant, struct edit e)
{
	struct error err = { 0 };

	ck_assert_msg(store_edit(s, variant, &e, &err) == STATUS_OK, "%s", err.text);
}

static struct plan plan_of(struct store *s, int64_t variant, struct arena *mem)
{
	struct plan plan;
	struct error err = { 0 };

	ck_assert_msg(store_plan(s, variant, mem, &plan, &err) == STATUS_OK, "%s", err.text);
	return plan;
}

static void same_plan(const struct plan *a, const struct plan *b)
{
	const char *differs = plans_differ(a, b);

	ck_assert_msg(!differs, "the plans differ in %s", differs);
}

START_TEST(all_parts_are_taken_back_and_repeated_after_reopening)
{
	struct store *s = store_in_folder("p.slabs");
	struct plan all = plan_with_all_beside(), models[BESIDE_STEPS + 1], now;
	struct arena mem = { 0 };
	struct error err = { 0 };
	int64_t variant = empty_variant(s);
	char label[80], expected[80];
	bool done;

	models[0] = plan_of(s, variant, &mem);
	for (int i = 0; i < BESIDE_STEPS; i++) {
		struct edit e = beside_step(&all, i);

		edit(s, variant, e);
		models[i + 1] = models[i];
		ck_assert_int_eq(edit_apply(&mem, &models[i + 1], &e, NULL, &err), STATUS_OK);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i + 1]);
	}
	for (int i = BESIDE_STEPS - 1; i >= 0; i--) {
		store_close(s);
		s = store_in_folder("p.slabs");
		ck_assert_msg(
		        store_undo(s, variant, &done, label, &err) == STATUS_OK, "%s", err.text);
		snprintf(expected, sizeof expected, "step %d", i);
		ck_assert_str_eq(label, expected);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i]);
	}
	for (int i = 0; i < BESIDE_STEPS; i++) {
		ck_assert_msg(
		        store_redo(s, variant, &done, label, &err) == STATUS_OK, "%s", err.text);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i + 1]);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_copy_of_a_variant_has_all_that_stands_beside_its_paving)
{
	struct store *s = store_in_folder("p.slabs");
	struct plan all = plan_with_all_beside(), a, b;
	struct arena mem = { 0 };
	struct error err = { 0 };
	int64_t variant = empty_variant(s), copy;

	for (int i = 0; i < 5; i++)
		edit(s, variant, beside_step(&all, i));
	edit(s, variant, beside_edit(&all, 4)); /* costs */
	a = plan_of(s, variant, &mem);
	ck_assert_int_eq(store_variant_copy(s, variant, "B", &copy, &err), STATUS_OK);
	b = plan_of(s, copy, &mem);
	same_plan(&a, &b);
	ck_assert_ptr_null(beside_differs(&b, &all));
	ck_assert_int_eq(b.rings[0].nodes[1].channel, 2);
	/* Each has its own. */
	edit(s, copy, (struct edit){ .type = EDIT_PLANTERS });
	b = plan_of(s, variant, &mem);
	same_plan(&a, &b);
	ck_assert_uint_eq(plan_of(s, copy, &mem).planter_count, 0);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_copy_in_memory_shares_nothing)
{
	struct chance d = chance_new(chance_seed("copies", 3));
	struct arena mem = { 0 }, other = { 0 };
	struct error err = { 0 };
	struct plan plan, copy, again;
	struct edit e = { 0 };

	plan_init(&plan);
	plan.water = random_water(&d, &mem, 3);
	plan.site = random_site(&d, &mem);
	random_planters(&d, &mem, &e);
	random_steps(&d, &mem, &e);
	plan.planters = e.planters;
	plan.planter_count = e.planter_count;
	plan.steps = e.steps;
	plan.steps_count = e.steps_count;
	plan.costs = random_costs(&d, &mem);
	ck_assert_int_eq(plan_copy(&other, &plan, &copy, &err), STATUS_OK);
	same_plan(&plan, &copy);
	ck_assert_int_eq(plan_copy(&mem, &copy, &again, &err), STATUS_OK);
	arena_free(&other); /* what is left stands alone: ASan would see */
	same_plan(&plan, &again);
	arena_free(&mem);
}
END_TEST

START_TEST(parts_that_are_empty_again_leave_no_rows)
{
	static const char rows[] = "SELECT count(*) FROM documents";
	struct store *s = store_in_folder("p.slabs");
	struct plan all = plan_with_all_beside(), none;
	int64_t variant = empty_variant(s);

	plan_init(&none);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), 0);
	for (int i = 0; i < 4; i++) {
		edit(s, variant, beside_edit(&all, i));
		ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), i + 1);
	}
	for (int i = 0; i < 4; i++)
		edit(s, variant, beside_edit(&none, i));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), 0);
	store_close(s);
}
END_TEST

/* --- channels and the edges that name them --- */

START_TEST(a_channel_that_goes_takes_its_number_from_the_edges)
{
	static const int64_t left[3][3] = { { 0, 1, 0 }, { 1, 0, 0 }, { 1, 2, 0 } };
	struct store *s = store_in_folder("p.slabs");
	struct plan all = plan_with_all_beside(), before, now;
	struct plan_channel three[] = { all.water.channels[0], all.water.channels[1],
		all.water.channels[1] };
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct edit e;
	int64_t variant = empty_variant(s);
	char label[80];
	bool done;

	three[2].name = "third";
	all.water.channels = three;
	all.water.channel_count = 3;
	edit(s, variant, beside_step(&all, 0));
	edit(s, variant, beside_step(&all, 4));
	before = plan_of(s, variant, &mem);
	ck_assert_msg(
	        edit_channel_delete(&mem, &before, _i + 1, &e, &err) == STATUS_OK, "%s", err.text);
	edit(s, variant, e);
	now = plan_of(s, variant, &mem);
	ck_assert_uint_eq(now.water.channel_count, 2);
	ck_assert_str_eq(now.water.channels[1].name, _i == 2 ? "" : "third");
	for (int k = 0; k < 3; k++)
		ck_assert_int_eq(now.rings[0].nodes[k].channel, left[_i][k]);
	ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
	now = plan_of(s, variant, &mem);
	same_plan(&now, &before);
	ck_assert_int_eq(edit_channel_delete(&mem, &before, 4, &e, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text, "there is no channel 4: the plan has 3");
	ck_assert_int_eq(edit_channel_delete(&mem, &before, 0, &e, &err), STATUS_PLAN);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* Along an edge a channel needs no points: it comes with the edge that names it, in one edit. */
START_TEST(a_channel_without_points_comes_and_goes_with_its_edge)
{
	struct store *s = store_in_folder("p.slabs");
	struct plan_channel channel;
	struct plan_ring ring = { beside_corners, 3, true }, named;
	struct plan_node nodes[3];
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct edit e = { .type = EDIT_DRAINS };
	struct plan now;
	int64_t variant = empty_variant(s);

	memcpy(nodes, beside_corners, sizeof nodes);
	nodes[0].channel = nodes[1].channel = 0;
	ring.nodes = nodes;
	edit(s, variant, (struct edit){ .type = EDIT_RING_INSERT, .ring_value = ring });
	channel_init(&channel);
	water_init(&e.water);
	e.water.channels = &channel;
	e.water.channel_count = 1;
	named = ring;
	nodes[0].channel = 1;
	e.rings = &named;
	e.ring_count = 1;
	edit(s, variant, e);
	now = plan_of(s, variant, &mem);
	ck_assert_int_eq(now.rings[0].nodes[0].channel, 1);
	/* Its edge may not go without it, whichever way. */
	nodes[0].channel = 0;
	e = (struct edit){ .type = EDIT_NODE_SET, .node = nodes[0] };
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text, "water.channels[0]: it lies along no edge, and its two points "
	                           "are one; name it at an "
	                           "edge, give it two points that lie apart, or take it away");
	e = (struct edit){ .type = EDIT_NODE_DELETE };
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	e = (struct edit){ .type = EDIT_RING_DELETE };
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	e = (struct edit){ .type = EDIT_RING_SET, .ring_value = ring };
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_int_eq(edit_channel_delete(&mem, &now, 1, &e, &err), STATUS_OK);
	edit(s, variant, e);
	ck_assert_uint_eq(plan_of(s, variant, &mem).water.channel_count, 0);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* --- speed --- */

/* A plan is read before each edit and whenever another program has written. */
START_TEST(a_plan_with_many_levels_is_read_in_a_millisecond)
{
	enum { READS = 50 };
	static struct plan_spot spots[100];
	static struct plan_reading readings[50];
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan plan;
	int64_t variant = empty_variant(s);
	clock_t began;
	double ms;

	plan_init(&plan);
	for (int i = 0; i < 100; i++)
		spots[i] = (struct plan_spot){ "lawn", i * 12345, i * 777, -i * 1001 };
	for (int i = 0; i < 50; i++)
		readings[i] = (struct plan_reading){ "peg", NO_READING, 1500000 + i, NO_READING,
			true, i * 1000, i * 2000 };
	plan.site.spots = spots;
	plan.site.spot_count = 100;
	plan.site.book.readings = readings;
	plan.site.book.count = 50;
	edit(s, variant, beside_edit(&plan, 1));
	began = clock();
	for (int i = 0; i < READS; i++) {
		plan_of(s, variant, &mem);
		arena_reset(&mem);
	}
	ms = (double)(clock() - began) * 1e3 / CLOCKS_PER_SEC / READS;
	printf("a plan with 100 levels and 50 readings is read in %.3f ms\n", ms);
	ck_assert_double_lt(ms, ONE_OF == 1 ? 1 : 10);
	arena_free(&mem);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("beside");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, all_parts_are_taken_back_and_repeated_after_reopening);
	tcase_add_test(t, a_copy_of_a_variant_has_all_that_stands_beside_its_paving);
	tcase_add_test(t, a_copy_in_memory_shares_nothing);
	tcase_add_test(t, parts_that_are_empty_again_leave_no_rows);
	tcase_add_loop_test(t, a_channel_that_goes_takes_its_number_from_the_edges, 0, 3);
	tcase_add_test(t, a_channel_without_points_comes_and_goes_with_its_edge);
	tcase_add_test(t, a_plan_with_many_levels_is_read_in_a_millisecond);
	return suite_run("edits beside the paving", t);
}
