/* Edits of border courses and zones: what they keep, and that they can be taken back. */
#include "program.h"
#include "suite.h"
#include "unit/parts.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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

START_TEST(borders_and_zones_are_taken_back_and_repeated_after_reopening)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct parts p = some_parts();
	struct plan models[EVENING_STEPS + 1], now;
	int64_t variant = empty_variant(s);
	char label[80], expected[80];
	bool done;

	models[0] = plan_of(s, variant, &mem);
	for (int i = 0; i < EVENING_STEPS; i++) {
		struct edit e = evening_step(&p, i);

		edit(s, variant, e);
		models[i + 1] = models[i];
		ck_assert_int_eq(edit_apply(&mem, &models[i + 1], &e, NULL, &err), STATUS_OK);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i + 1]);
	}
	ck_assert_int_eq(now.rings[0].nodes[0].border, 3);
	ck_assert_uint_eq(now.border_count, 3);
	ck_assert_uint_eq(now.zone_count, 1);
	for (int i = EVENING_STEPS - 1; i >= 0; i--) {
		store_close(s);
		s = store_in_folder("p.slabs");
		ck_assert_msg(
		        store_undo(s, variant, &done, label, &err) == STATUS_OK, "%s", err.text);
		snprintf(expected, sizeof expected, "step %d", i);
		ck_assert_str_eq(label, expected);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i]);
	}
	for (int i = 0; i < EVENING_STEPS; i++) {
		store_close(s);
		s = store_in_folder("p.slabs");
		ck_assert_msg(
		        store_redo(s, variant, &done, label, &err) == STATUS_OK, "%s", err.text);
		now = plan_of(s, variant, &mem);
		same_plan(&now, &models[i + 1]);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_copy_of_a_variant_has_its_borders_and_zones)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct parts p = some_parts();
	struct plan a, b;
	int64_t variant = empty_variant(s), copy;

	for (int i = 0; i < 5; i++)
		edit(s, variant, evening_step(&p, i));
	a = plan_of(s, variant, &mem);
	ck_assert_int_eq(store_variant_copy(s, variant, "B", &copy, &err), STATUS_OK);
	b = plan_of(s, copy, &mem);
	same_plan(&a, &b);
	ck_assert_uint_eq(b.border_count + b.zone_count, 6);
	/* Each has its own. */
	edit(s, copy, (struct edit){ .type = EDIT_ZONES });
	b = plan_of(s, variant, &mem);
	same_plan(&a, &b);
	ck_assert_uint_eq(plan_of(s, copy, &mem).zone_count, 0);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_zone_that_goes_takes_its_rows_along)
{
	static const char rows[] =
	        "SELECT (SELECT count(*) FROM zones) * 1000"
	        " + (SELECT count(*) FROM zone_nodes) * 100"
	        " + (SELECT count(*) FROM repeats JOIN repeat_slabs ON repeat = "
	        "id WHERE variant NOT NULL) * 10"
	        " + (SELECT count(*) FROM mixes JOIN mix_sizes ON mix = id WHERE "
	        "variant NOT NULL)";
	struct store *s = store_in_folder("p.slabs");
	struct parts p = some_parts();
	int64_t variant = empty_variant(s);

	edit(s, variant, zones_edit(&p, 3));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), 3911);
	edit(s, variant, zones_edit(&p, 1));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), 1310);
	edit(s, variant, zones_edit(&p, 0));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), rows), 0);
	store_close(s);
}
END_TEST

/* Nothing of it can be nonsense, for it is not kept: the zone has the laying it began with. */
START_TEST(the_laying_of_a_zone_without_slabs_may_be_anything)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct parts p = some_parts();
	struct plan_zone bare;
	struct plan plan;
	int64_t variant = empty_variant(s);

	zone_init(&bare);
	memset(&p.zones[2].laying, 0x7E, sizeof p.zones[2].laying);
	p.zones[2].laying.slab.name = p.zones[2].laying.repeat.name = "\xFF";
	p.zones[2].laying.repeat.count = p.zones[2].laying.mix.count = 0;
	edit(s, variant, zones_edit(&p, 3));
	plan = plan_of(s, variant, &mem);
	ck_assert(!plan.zones[2].paved);
	ck_assert_str_eq(plan.zones[2].laying.slab.name, "");
	ck_assert_int_eq(plan.zones[2].laying.slab.length_um, bare.laying.slab.length_um);
	ck_assert_int_eq(plan.zones[2].laying.bond, bare.laying.bond);
	ck_assert_int_eq(plan.zones[2].laying.kerf_um, bare.laying.kerf_um);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* Each of them is seen by the comparison that tells whether another program has changed the plan.
 */
START_TEST(plans_that_differ_in_a_border_or_zone_are_not_the_same)
{
	struct parts p = some_parts(), q = some_parts();
	struct plan_node *corners = p.zones[0].ring.nodes,
	                 named[] = { corners[0], corners[1], corners[2] };
	struct plan_ring a_ring = { corners, 3, true }, b_ring = { named, 3, true };
	struct plan a, b;
	bool same;

	plan_init(&a);
	a.rings = &a_ring;
	a.ring_count = 1;
	a.borders = p.borders;
	a.border_count = 3;
	a.zones = p.zones;
	a.zone_count = 3;
	b = a;
	b.rings = &b_ring;
	b.borders = q.borders;
	b.zones = q.zones;
#define SEES(change, back)                                                                         \
	change;                                                                                    \
	ck_assert(store_plans_same(&a, &b, &same));                                                \
	ck_assert_msg(!same, "%s is not seen", #change);                                           \
	back;                                                                                      \
	ck_assert(store_plans_same(&a, &b, &same) && same)
	SEES(named[1].border = 1, named[1].border = 0);
	SEES(b.border_count = 2, b.border_count = 3);
	SEES(b.zone_count = 2, b.zone_count = 3);
	SEES(q.borders[2].begin = BEGIN_MIDDLE, q.borders[2].begin = BEGIN_CORNER);
	SEES(q.borders[0].offset = 0.25, q.borders[0].offset = 0.5);
	SEES(q.zones[2].paved = true, q.zones[2].paved = false);
	SEES(q.zones[1].ring.closed = true, q.zones[1].ring.closed = false);
	SEES(q.zones[0].level_um = 1, q.zones[0].level_um = 0);
	SEES(q.zones[0].laying.start_y_um = 1, q.zones[0].laying.start_y_um = 0);
	SEES(q.zones[0].ring = b_ring; named[0].rise_um = 1, named[0].rise_um = 0);
	/* What means nothing makes no difference. */
	q.zones[0].laying.kerf_um = 1;
	q.zones[2].laying.bond = BOND_STACK;
	named[1].kind = EDGE_OPEN;
	b.rings = &a_ring;
	ck_assert(store_plans_same(&a, &b, &same) && same);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("parts");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, borders_and_zones_are_taken_back_and_repeated_after_reopening);
	tcase_add_test(t, a_copy_of_a_variant_has_its_borders_and_zones);
	tcase_add_test(t, a_zone_that_goes_takes_its_rows_along);
	tcase_add_test(t, the_laying_of_a_zone_without_slabs_may_be_anything);
	tcase_add_test(t, plans_that_differ_in_a_border_or_zone_are_not_the_same);
	return suite_run("edits of parts", t);
}
