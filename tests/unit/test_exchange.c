/* Import and export: what comes in goes out again, and is merged by UUID and name. */
#include "json_read.h"
#include "program.h"
#include "suite.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

START_TEST(a_full_document_is_read_to_the_micrometre)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan p;
	int64_t variant = imported(s, full_document);

	ck_assert_int_eq(store_plan(s, variant, &mem, &p, &err), STATUS_OK);
	ck_assert_str_eq(p.name, "A");
	ck_assert_str_eq(p.rule_set, "UK guidance");
	ck_assert_uint_eq(p.ring_count, 4);
	ck_assert_uint_eq(p.rings[0].count, 4);
	ck_assert(
	        p.rings[0].closed && p.rings[1].closed && !p.rings[2].closed && p.rings[3].closed);
	ck_assert_int_eq(p.rings[0].nodes[0].y_um, -1);
	ck_assert_int_eq(p.rings[0].nodes[1].x_um, 6200000);
	ck_assert_int_eq(p.rings[0].nodes[2].y_um, 4150500);
	ck_assert_int_eq(p.rings[0].nodes[2].kind, EDGE_STEPS);
	ck_assert_int_eq(p.rings[0].nodes[3].rise_um, -12345);
	ck_assert_int_eq(p.rings[1].nodes[0].kind, EDGE_OPEN);
	ck_assert_int_eq(p.rings[2].nodes[0].x_um, 9125);
	ck_assert_str_eq(p.laying.slab.name, "Grey");
	ck_assert_int_eq(p.laying.slab.width_um, 297500);
	ck_assert_int_eq(p.laying.slab.joint_um, 2500);
	ck_assert_int_eq(p.laying.slab.size, SIZE_WORK);
	ck_assert(p.laying.slab.directional);
	ck_assert_int_eq(p.laying.slab.price_minor, 435);
	ck_assert_int_eq(p.laying.bond, BOND_HERRINGBONE);
	ck_assert(p.laying.offset == 1.0 / 3);
	ck_assert_int_eq(p.laying.rotation_udeg, -45000001);
	ck_assert_int_eq(p.laying.start_y_um, 2000);
	ck_assert_int_eq(p.laying.sliver_width_um, 75000);
	ck_assert_int_eq(p.laying.edges, RULE_ROUGH);
	ck_assert_int_eq(p.laying.breakage_ppm, 35000);
	ck_assert_str_eq(p.laying.repeat.name, "Wheel");
	ck_assert_uint_eq(p.laying.repeat.count, 2);
	ck_assert_int_eq(p.laying.repeat.step_x_um, 1500000);
	ck_assert_int_eq(p.laying.repeat.step_y_um, 300000);
	ck_assert_int_eq(p.laying.repeat.slant_um, 600000);
	ck_assert_int_eq(p.laying.repeat.slabs[1].x_um, -900000);
	ck_assert_int_eq(p.laying.repeat.slabs[0].width_um, 600000);
	ck_assert_int_eq(p.laying.mix.seed, 41);
	ck_assert_uint_eq(p.laying.mix.count, 2);
	ck_assert_int_eq(p.laying.mix.sizes[1].length_um, 450500);
	ck_assert_int_eq(p.laying.mix.sizes[1].share, 7);
	ck_assert_int_eq(p.laying.edge_joint_um[EDGE_HOUSE_WALL], 10000);
	ck_assert_int_eq(p.laying.edge_joint_um[EDGE_EXISTING_PAVING], 6500);
	ck_assert_int_eq(p.laying.edge_joint_um[EDGE_KERB], 0);
	ck_assert_int_eq(p.rings[0].nodes[1].border, 0);
	ck_assert_int_eq(p.rings[0].nodes[2].border, 2);
	ck_assert_uint_eq(p.border_count, 2);
	ck_assert_int_eq(p.borders[0].lay, BORDER_STRETCHER);
	ck_assert_int_eq(p.borders[0].deep, 2);
	ck_assert(p.borders[0].offset == 0.25);
	ck_assert_int_eq(p.borders[0].corners, CORNER_BUTTED);
	ck_assert_int_eq(p.borders[0].begin, BEGIN_MIDDLE);
	ck_assert_int_eq(p.borders[0].widest_joint_um, 12500);
	ck_assert_str_eq(p.borders[0].slab.name, "Sett");
	ck_assert_int_eq(p.borders[0].slab.width_um, 80000);
	ck_assert_int_eq(p.borders[0].slab.pack, 500);
	ck_assert_uint_eq(p.zone_count, 2);
	ck_assert_str_eq(p.zones[0].name, "Path");
	ck_assert(p.zones[0].paved && p.zones[0].ring.closed);
	ck_assert(!p.zones[1].paved && !p.zones[1].ring.closed);
	ck_assert_int_eq(p.zones[0].level_um, -12500);
	ck_assert_uint_eq(p.zones[0].ring.count, 2);
	ck_assert_int_eq(p.zones[0].ring.nodes[1].x_um, 7001);
	ck_assert_int_eq(p.zones[0].ring.nodes[1].rise_um, 3000);
	ck_assert_int_eq(p.zones[0].ring.nodes[1].kind, EDGE_OPEN);
	ck_assert_int_eq(p.zones[0].laying.bond, BOND_MIXED);
	ck_assert(p.zones[0].laying.offset == 0.125);
	ck_assert_int_eq(p.zones[0].laying.along, ALONG_Y);
	ck_assert_int_eq(p.zones[0].laying.rotation_udeg, 30000000);
	ck_assert_int_eq(p.zones[0].laying.start_x_um, 9000);
	ck_assert_int_eq(p.zones[0].laying.start_y_um, 10000);
	ck_assert_int_eq(p.zones[0].laying.slab.size, SIZE_WORK);
	ck_assert_int_eq(p.zones[0].laying.repeat.step_y_um, 200000);
	ck_assert_int_eq(p.zones[0].laying.mix.seed, 3);
	ck_assert_int_eq(p.zones[0].laying.kerf_um, 3000); /* not the variant's 4 */
	ck_assert_int_eq(p.surface.envelope, ENVELOPE_MIN);
	ck_assert_int_eq(p.surface.planes[0].fall_um_per_m, 12500);
	ck_assert_int_eq(p.surface.planes[0].toward_udeg, 90000000);
	ck_assert(p.surface.has_fixed);
	ck_assert_int_eq(p.surface.fixed_level_um, -100000);
	ck_assert_int_eq(p.ground.sub_base_um, 150000);
	ck_assert(p.ground.has_instrument);
	ck_assert_int_eq(p.ground.backsight_um, 1345000);
	ck_assert_int_eq(p.edging[EDGE_KERB].unit_um, 915000);
	ck_assert_int_eq(p.edging[EDGE_PLANTER].unit_um, 0);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(what_is_left_out_has_the_defaults_of_an_empty_plan)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan p, d;
	int64_t variant = imported(s, SLAB(""));

	plan_init(&d);
	ck_assert_int_eq(store_plan(s, variant, &mem, &p, &err), STATUS_OK);
	ck_assert_uint_eq(p.ring_count, 0);
	ck_assert_int_eq(p.laying.slab.thickness_um, d.laying.slab.thickness_um);
	ck_assert_int_eq(p.laying.slab.price_minor, -1);
	ck_assert(p.laying.offset == d.laying.offset);
	ck_assert_int_eq(p.laying.bond, d.laying.bond);
	ck_assert_int_eq(p.laying.sliver_width_um, SLIVER_WIDTH_DEFAULT);
	ck_assert_int_eq(p.laying.breakage_ppm, d.laying.breakage_ppm);
	ck_assert_uint_eq(p.laying.repeat.count + p.laying.mix.count, 0);
	for (int i = 0; i < EDGE_KINDS; i++)
		ck_assert_int_eq(p.laying.edge_joint_um[i], 0);
	ck_assert_int_eq(p.ground.bedding_um, d.ground.bedding_um);
	ck_assert(!p.ground.has_instrument);
	ck_assert_str_eq(p.rule_set, "none");
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_document_that_was_exported_comes_back_byte_for_byte)
{
	struct store *a = store_in_folder("a.slabs"), *b = store_in_folder("b.slabs");
	char *first = exported_job(a, imported(a, full_document)), *second;

	ck_assert(json_is_valid(first));
	ck_assert_int_eq(json_length(first, "$.variants"), 3);
	second = exported_job(b, imported(b, first));
	ck_assert_str_eq(first, second);
	free(first);
	free(second);
	store_close(a);
	store_close(b);
}
END_TEST

START_TEST(a_random_plan_comes_back_byte_for_byte)
{
	struct chance d = { .state = (uint64_t)_i + 77 };
	struct store *a = store_in_folder("a.slabs"), *b = store_in_folder("b.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan plan;
	struct edit e;
	int64_t variant = empty_variant(a);
	char *first, *second;

	for (int i = 0; i < 60; i++) {
		ck_assert_int_eq(store_plan(a, variant, &mem, &plan, &err), STATUS_OK);
		random_edit(&d, &mem, &plan, &e);
		ck_assert_msg(store_edit(a, variant, &e, &err) == STATUS_OK, "%s", err.text);
	}
	first = exported(a, variant);
	second = exported(b, imported(b, first));
	ck_assert_str_eq(first, second);
	free(first);
	free(second);
	arena_free(&mem);
	store_close(a);
	store_close(b);
}
END_TEST

START_TEST(every_fraction_comes_back_to_the_last_bit)
{
	struct chance d = { .state = 5 };
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan p;

	for (int i = 0; i < 3000; i++) {
		double offset = chance_real(&d, 0, 1);
		char json[400], label[80];
		bool done;
		struct edit e = { .type = EDIT_LAYING };

		if (i % 100) { /* mostly through an undo row, now and then through a document */
			ck_assert_int_eq(store_plan(s, 1, &mem, &p, &err), STATUS_OK);
			e.laying = p.laying;
			e.laying.offset = offset;
			ck_assert_int_eq(store_edit(s, 1, &e, &err), STATUS_OK);
			ck_assert_int_eq(store_undo(s, 1, &done, label, &err), STATUS_OK);
			ck_assert_int_eq(store_redo(s, 1, &done, label, &err), STATUS_OK);
			ck_assert_int_eq(store_plan(s, 1, &mem, &p, &err), STATUS_OK);
		} else {
			snprintf(json, sizeof json, LAYING("\"offset\":%.17g"), offset);
			ck_assert_int_eq(
			        store_plan(s, imported(s, json), &mem, &p, &err), STATUS_OK);
		}
		ck_assert_msg(p.laying.offset == offset, "%.17g came back as %.17g", offset,
		        p.laying.offset);
		arena_reset(&mem);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* What is set goes out under any bond; what is not set is not mentioned. */
START_TEST(a_laying_without_repeat_mix_and_edge_joints_says_nothing_of_them)
{
	static const char *const members[] = { "repeat", "mix", "edge_joints" };
	struct store *s = store_in_folder("p.slabs");
	char *with = exported(s, imported(s, full_document)),
	     *without = exported(s, imported(s, LAYING("\"edge_joints\":{\"kerb\":0}"))), path[80];

	for (int i = 0; i < 3; i++) {
		snprintf(path, sizeof path, "$.variants[0].laying.%s", members[i]);
		ck_assert_msg(json_length(with, path) >= 0, "%s", with);
		ck_assert_msg(!strstr(without, members[i]), "%s", without);
	}
	ck_assert_int_eq(json_length(with, "$.variants[0].laying.repeat.slabs"), 2);
	ck_assert_int_eq(json_length(with, "$.variants[0].laying.mix.sizes"), 2);
	ck_assert_ptr_nonnull(
	        strstr(with, "\"edge_joints\": { \"house wall\": 10, \"existing paving\": 6.5 }"));
	free(with);
	free(without);
	store_close(s);
}
END_TEST

START_TEST(a_repeat_may_be_named_and_goes_out_whole)
{
	static const char named[] =
	        LAYING("\"bond\":\"mixed\",\"repeat\":\"Millwheel, 600 and 300\"");
	struct store *s = store_in_folder("p.slabs"), *bare;
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_repeats all;
	struct plan p, q;
	int64_t variant = imported(s, named);
	char *json = exported(s, variant);

	ck_assert_int_eq(store_repeats(s, &mem, &all, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(s, variant, &mem, &p, &err), STATUS_OK);
	q = p;
	q.laying.repeat = all.items[0];
	ck_assert_str_eq(p.laying.repeat.name, "Millwheel, 600 and 300");
	ck_assert_ptr_null(plans_differ(&p, &q));
	/* A store that has no catalogue can do with what went out. */
	ck_assert_int_eq(
	        store_open(&bare, program_path("bare.slabs"), STORE_MAY_CREATE, NULL, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_repeats(bare, &mem, &all, &err), STATUS_OK);
	ck_assert_uint_eq(all.count, 0);
	ck_assert_int_eq(store_plan(bare, imported(bare, json), &mem, &q, &err), STATUS_OK);
	ck_assert_ptr_null(plans_differ(&p, &q));
	free(json);
	arena_free(&mem);
	store_close(bare);
	store_close(s);
}
END_TEST

START_TEST(one_variant_can_be_exported_alone)
{
	struct store *s = store_in_folder("p.slabs");
	int64_t variant = imported(s, full_document);
	char *json = exported(s, variant), *name;

	ck_assert_int_eq(json_length(json, "$.variants"), 1);
	name = json_string(json, "$.client.name");
	ck_assert_str_eq(name, "Jos\xC3\xA9 \xF0\x9F\x8F\xA0 \"x\" / y");
	free(name);
	free(json);
	store_close(s);
}
END_TEST

/* --- merging --- */

START_TEST(importing_twice_with_uuids_adds_nothing)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = imported(s, full_document), first;
	size_t added;
	char *json = exported_job(s, variant), *again;

	ck_assert_int_eq(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err), STATUS_OK);
	ck_assert_int_eq(first, variant);
	ck_assert_uint_eq(added, 0);
	/* Also when it bears another name by now: the plan is what counts. */
	ck_assert_int_eq(store_variant_rename(s, variant, "Renamed", &err), STATUS_OK);
	ck_assert_int_eq(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err), STATUS_OK);
	ck_assert_uint_eq(added, 0);
	again = exported_job(s, variant);
	ck_assert_ptr_nonnull(strstr(again, "Renamed"));
	free(json);
	free(again);
	store_close(s);
}
END_TEST

START_TEST(a_variant_that_differs_is_never_overwritten)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = imported(s, full_document), first = 5;
	size_t added = 5;
	char *json = exported_job(s, variant), *before, *after;

	ck_assert_int_eq(
	        store_edit(s, variant, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_OK);
	before = exported_job(s, variant);
	ck_assert_int_eq(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err), STATUS_PLAN);
	ck_assert_msg(strncmp(err.text, "variants[0].uuid: ", 18) == 0 &&
	                      strstr(err.text, "another plan"),
	        "%s", err.text);
	ck_assert_int_eq(first, 0);
	ck_assert_uint_eq(added, 0);
	after = exported_job(s, variant);
	ck_assert_str_eq(before, after);
	free(json);
	free(before);
	free(after);
	store_close(s);
}
END_TEST

START_TEST(a_taken_name_gets_a_number)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	char name[201], json[1000];

	imported(s, SLAB(""));
	ck_assert_int_eq(store_place_of(s, imported(s, SLAB("")), &mem, &place, &err), STATUS_OK);
	ck_assert_str_eq(place.variant_name, "A 2");
	ck_assert_int_eq(store_place_of(s, imported(s, SLAB("")), &mem, &place, &err), STATUS_OK);
	ck_assert_str_eq(place.variant_name, "A 3");
	ck_assert_str_eq(
	        place.client_name, "C"); /* the same client and job, not others of that name */

	for (int i = 0; i < 200; i += 2)
		memcpy(name + i, "\xC3\xA9", 2);
	name[200] = '\0';
	snprintf(json, sizeof json, HEAD "{\"name\":\"%s\"}]}", name);
	imported(s, json);
	ck_assert_int_eq(store_place_of(s, imported(s, json), &mem, &place, &err), STATUS_OK);
	ck_assert_uint_le(strlen(place.variant_name), 200);
	ck_assert_str_eq(place.variant_name + strlen(place.variant_name) - 4, "\xC3\xA9 2");
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(clients_and_jobs_meet_by_uuid_or_name)
{
	static const char c_uuid[] =
	        "{\"format\":\"slabwright-plan\",\"version\":1,"
	        "\"client\":{\"name\":\"%s\",\"uuid\":\"01234567-89AB-4CDE-8F01-23456789ABCD\"},"
	        "\"job\":{\"title\":\"%s\"},\"variants\":[{\"name\":\"%s\"}]}";
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place a, b;
	char json[400];

	snprintf(json, sizeof json, c_uuid, "Old name", "J", "A");
	ck_assert_int_eq(store_place_of(s, imported(s, json), &mem, &a, &err), STATUS_OK);
	snprintf(json, sizeof json, c_uuid, "New name", "K", "A");
	ck_assert_int_eq(store_place_of(s, imported(s, json), &mem, &b, &err), STATUS_OK);
	ck_assert_int_eq(a.client, b.client);
	ck_assert_str_eq(b.client_name, "Old name");
	ck_assert_int_ne(a.job, b.job);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"),
	                "SELECT uuid = '01234567-89ab-4cde-8f01-23456789abcd' FROM clients"),
	        1);
	arena_free(&mem);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("exchange");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, a_full_document_is_read_to_the_micrometre);
	tcase_add_test(t, what_is_left_out_has_the_defaults_of_an_empty_plan);
	tcase_add_test(t, a_document_that_was_exported_comes_back_byte_for_byte);
	tcase_add_loop_test(t, a_random_plan_comes_back_byte_for_byte, 0, 10);
	tcase_add_test(t, every_fraction_comes_back_to_the_last_bit);
	tcase_add_test(t, a_laying_without_repeat_mix_and_edge_joints_says_nothing_of_them);
	tcase_add_test(t, a_repeat_may_be_named_and_goes_out_whole);
	tcase_add_test(t, one_variant_can_be_exported_alone);
	tcase_add_test(t, importing_twice_with_uuids_adds_nothing);
	tcase_add_test(t, a_variant_that_differs_is_never_overwritten);
	tcase_add_test(t, a_taken_name_gets_a_number);
	tcase_add_test(t, clients_and_jobs_meet_by_uuid_or_name);
	return suite_run("exchange", t);
}
