/* Costs in documents and in the store: read exactly, kept, taken back, refused. */
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

static struct plan plan_of(struct store *s, int64_t variant, struct arena *mem)
{
	struct error err = { 0 };
	struct plan plan;

	ck_assert_msg(store_plan(s, variant, mem, &plan, &err) == STATUS_OK, "%s", err.text);
	return plan;
}

static const char all_of_them[] = ONE(
        "\"costs\":{\"currency\":\"GBP\",\"price_date\":\"2026-11-25\",\"price_note\":\"invented\","
        "\"materials\":{\"sub-base\":{\"name\":\"type 1\",\"supplier\":\"Quarry\",\"wastage\":0.1,"
        "\"compaction\":0.25,\"density\":1750,\"sold\":\"loose\",\"holds\":0,\"price\":23.5},"
        "\"sealer\":{\"used\":true,\"name\":\"seal\",\"wastage\":0,\"litres_per_m2\":0.125,"
        "\"holds\":2.5,\"price\":19.99},\"liner\":{\"used\":false}},"
        "\"suppliers\":{\"slabs\":\"Yard\"},\"joint_depth\":0.6,"
        "\"labour\":{\"crew\":3,\"day_minutes\":450,\"wage\":27.5,\"minutes\":{\"laying\":35.5}},"
        "\"hire\":[{\"name\":\"wacker plate\",\"days\":1.5,\"task\":\"sub-base\",\"price\":45},"
        "{\"name\":\"mini digger\"}],"
        "\"extras\":[{\"name\":\"skip\",\"unit\":\"pieces\",\"quantity\":2,\"price\":210}],"
        "\"margin\":0.15,\"discount\":0.02,\"tax\":0.21,\"whole_money\":false,\"valid_days\":14,"
        "\"start\":\"2026-12-01\",\"hold_minutes\":{\"haunch\":2880},"
        "\"vehicle\":{\"payload\":1200.5,\"access\":900}}");

START_TEST(every_member_is_read_exactly_and_written_again)
{
	struct store *s = store_in_folder("p.slabs"), *other = store_in_folder("q.slabs");
	struct arena mem = { 0 };
	struct plan_costs all = all_costs();
	struct plan p = plan_of(s, imported(s, all_of_them), &mem);
	char *json = exported(s, 1);

	ck_assert_ptr_null(costs_differ(&p.costs, &all));
	p = plan_of(other, imported(other, json), &mem);
	ck_assert_ptr_null(costs_differ(&p.costs, &all));
	free(json);
	arena_free(&mem);
	store_close(s);
	store_close(other);
}
END_TEST

START_TEST(costs_that_are_the_usual_ones_are_not_written)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan p = plan_of(s,
	        imported(s, ONE("\"costs\":{\"currency\":\"EUR\",\"materials\":{\"cement\":{"
	                        "\"holds\":25}},\"labour\":{\"minutes\":{}},\"hire\":[],"
	                        "\"vehicle\":{}}")),
	        &mem);
	struct plan_costs usual;
	char *json = exported(s, 1);

	costs_init(&usual);
	ck_assert_ptr_null(costs_differ(&p.costs, &usual));
	ck_assert_msg(!strstr(json, "costs"), "%s", json);
	free(json);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(costs_are_kept_and_taken_back)
{
	struct chance d = chance_new(chance_seed("costs", 11));
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = empty_variant(s);
	struct plan_costs usual;
	char label[80];
	bool done;

	costs_init(&usual);
	for (int i = 0; i < 200 / ONE_OF; i++) {
		struct arena mem = { 0 };
		struct edit e = { .type = EDIT_COSTS, .label = "costs" };
		struct plan p;

		e.costs = random_costs(&d, &mem);
		ck_assert_msg(store_edit(s, variant, &e, &err) == STATUS_OK, "%s", err.text);
		p = plan_of(s, variant, &mem);
		ck_assert_msg(!costs_differ(&p.costs, &e.costs), "%s differ",
		        costs_differ(&p.costs, &e.costs));
		if (i % 2) {
			ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
			ck_assert_int_eq(store_redo(s, variant, &done, label, &err), STATUS_OK);
			p = plan_of(s, variant, &mem);
			ck_assert_ptr_null(costs_differ(&p.costs, &e.costs));
		}
		ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
		p = plan_of(s, variant, &mem);
		ck_assert_ptr_null(costs_differ(&p.costs, &usual));
		arena_free(&mem);
	}
	store_close(s);
}
END_TEST

static const struct {
	const char *costs, *words;
} faults[] = {
	{ "\"currency\":\"eur\"", "variants[0].costs.currency: not three capital letters" },
	{ "\"currency\":\"\"", "costs.currency: not three capital letters" },
	{ "\"price_date\":\"25-11-2026\"", "costs.price_date: not a day of the calendar" },
	{ "\"price_date\":\"2026-02-29\"", "costs.price_date: not a day of the calendar" },
	{ "\"start\":\"2026-13-01\"", "costs.start: not a day of the calendar" },
	{ "\"start\":\"1900-02-29\"", "costs.start: not a day of the calendar" },
	{ "\"materials\":{\"gold\":{}}",
	        "costs.materials.gold: there is no such member; the members" },
	{ "\"materials\":{\"cement\":{\"sold\":\"roll\"}}",
	        "costs.materials.cement.sold: it is not sold by the roll; give loose, bulk bag" },
	{ "\"materials\":{\"membrane\":{\"sold\":\"bag\"}}",
	        "costs.materials.membrane.sold: it is not sold by the bag; give roll" },
	{ "\"materials\":{\"sealer\":{\"sold\":\"box\"}}",
	        "costs.materials.sealer.sold: no such way to be sold as \"box\"" },
	{ "\"materials\":{\"sealer\":{\"density\":3}}",
	        "costs.materials.sealer.density: there is no such member" },
	{ "\"materials\":{\"cement\":{\"holds\":0}}",
	        "costs.materials.cement.holds: 0 kg is out of reach" },
	{ "\"materials\":{\"liner\":{\"holds\":0}}",
	        "costs.materials.liner.holds: 0 m2 is out of reach" },
	{ "\"materials\":{\"sub-base\":{\"compaction\":0.91}}",
	        "costs.materials.sub-base.compaction: 0.91 is out of reach" },
	{ "\"materials\":{\"sub-base\":{\"wastage\":-0.1}}",
	        "costs.materials.sub-base.wastage: -0.1 is out of reach" },
	{ "\"materials\":{\"fill\":{\"density\":0}}",
	        "costs.materials.fill.density: 0 kg/m3 is out of reach" },
	{ "\"materials\":{\"fill\":{\"price\":-1}}", "costs.materials.fill.price: -1 is under 0" },
	{ "\"labour\":{\"crew\":0}", "costs.labour.crew: 0 is out of reach; give from 1 to 100" },
	{ "\"labour\":{\"day_minutes\":1441}", "costs.labour.day_minutes: 1441 is out of reach" },
	{ "\"labour\":{\"minutes\":{\"dig\":-1}}", "costs.labour.minutes.dig: -1 minutes is out" },
	{ "\"labour\":{\"minutes\":{\"tea\":15}}", "costs.labour.minutes.tea: there is no such" },
	{ "\"hire\":[{\"task\":\"rest\"}]", "costs.hire[0].task: no such task as \"rest\"" },
	{ "\"hire\":[{\"days\":1001}]", "costs.hire[0].days: 1001 is out of reach" },
	{ "\"extras\":[{},{\"quantity\":-1}]", "costs.extras[1].quantity: -1 is out of reach" },
	{ "\"discount\":1.01", "costs.discount: 1.01 is out of reach; give from 0 to 1" },
	{ "\"margin\":-0.1", "costs.margin: -0.1 is out of reach" },
	{ "\"valid_days\":0", "costs.valid_days: 0 is out of reach" },
	{ "\"valid_days\":1.5", "costs.valid_days: 1.5 is not a whole number" },
	{ "\"hold_minutes\":{\"wall\":-1}", "costs.hold_minutes.wall: -1 is out of reach" },
	{ "\"vehicle\":{\"payload\":-1}", "costs.vehicle.payload: -1 kg is out of reach" },
	{ "\"joint_depth\":1.1", "costs.joint_depth: 1.1 is out of reach" },
	{ "\"suppliers\":{\"slabs\":5}", "costs.suppliers.slabs: not a text" },
};

START_TEST(what_nobody_can_buy_or_work_is_refused)
{
	char json[600];

	snprintf(json, sizeof json, ONE("\"costs\":{%s}"), faults[_i].costs);
	document_refused(json, faults[_i].words);
}
END_TEST

START_TEST(an_edit_with_such_costs_changes_nothing)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	int64_t variant = empty_variant(s);
	struct edit e = { .type = EDIT_COSTS, .costs = all_costs() };
	struct plan_costs usual;
	struct plan p;

	costs_init(&usual);
	e.costs.materials[MATERIAL_SOIL].supplier = "\xFF";
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, "costs.materials.soil.supplier: not UTF-8") != NULL, "%s",
	        err.text);
	e.costs = all_costs();
	e.costs.hire_count = COST_LINES + 1;
	e.costs.hire = arena_alloc(&mem, COST_LINES + 1, sizeof *e.costs.hire);
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, "costs.hire: 65 of them; give at most 64") != NULL, "%s",
	        err.text);
	p = plan_of(s, variant, &mem);
	ck_assert_ptr_null(costs_differ(&p.costs, &usual));
	arena_free(&mem);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("costs");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, every_member_is_read_exactly_and_written_again);
	tcase_add_test(t, costs_that_are_the_usual_ones_are_not_written);
	tcase_add_test(t, costs_are_kept_and_taken_back);
	tcase_add_loop_test(
	        t, what_nobody_can_buy_or_work_is_refused, 0, sizeof faults / sizeof *faults);
	tcase_add_test(t, an_edit_with_such_costs_changes_nothing);
	return suite_run("costs in the store", t);
}
