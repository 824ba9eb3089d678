/* Border courses and zones in documents. */
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

static struct plan imported_plan(struct store *s, const char *json, struct arena *mem)
{
	struct plan plan;
	struct error err = { 0 };

	ck_assert_msg(
	        store_plan(s, imported(s, json), mem, &plan, &err) == STATUS_OK, "%s", err.text);
	return plan;
}

START_TEST(a_border_or_zone_that_says_nothing_has_the_defaults)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan_border border;
	struct plan_zone zone;
	struct plan read, said;

	read = said = imported_plan(s, ONE("\"borders\":[{}],\"zones\":[{\"nodes\":[]}]"), &mem);
	border_init(&border);
	zone_init(&zone);
	said.borders = &border;
	said.zones = &zone;
	ck_assert_uint_eq(read.border_count, 1);
	ck_assert_uint_eq(read.zone_count, 1);
	ck_assert_ptr_null(plans_differ(&read, &said));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_plan_without_borders_and_zones_says_nothing_of_them)
{
	struct store *s = store_in_folder("p.slabs");
	char *json = exported(
	        s, imported(s, ONE("\"outline\":{\"nodes\":[{\"x\":1,\"y\":2,\"border\":0}]},"
	                           "\"borders\":[],\"zones\":[]")));

	ck_assert_ptr_null(strstr(json, "border"));
	ck_assert_ptr_null(strstr(json, "zone"));
	free(json);
	store_close(s);
}
END_TEST

/* A zone says what counts of it, and no more; one that is being drawn that it is not closed. */
START_TEST(a_zone_writes_its_slab_and_bond_only)
{
	struct store *s = store_in_folder("p.slabs");
	char *json = exported(s, imported(s, full_document)), *kerf;

	ck_assert_int_eq(json_length(json, "$.variants[0].zones"), 2);
	ck_assert_ptr_nonnull(strstr(json, "\"paved\": true"));
	ck_assert_ptr_nonnull(strstr(json, "{ \"x\": 7.001, \"y\": 8, \"rise\": 3 }"));
	ck_assert_ptr_nonnull(strstr(json, "\"rise\": 250, \"kind\": \"steps\", \"border\": 2"));
	ck_assert_int_eq(json_length(json, "$.variants[0].zones[0].laying.repeat.slabs"), 1);
	ck_assert_int_eq(json_length(json, "$.variants[0].zones[0].laying.mix.sizes"), 1);
	/* Once: the variant's. */
	kerf = strstr(json, "\"kerf\"");
	ck_assert_ptr_nonnull(kerf);
	ck_assert_ptr_null(strstr(kerf + 1, "\"kerf\""));
	/* The second is open, and has no slabs: nothing is said of a laying. */
	ck_assert_ptr_nonnull(strstr(json, "\"closed\": false,\n          \"nodes\": [],\n"
	                                   "          \"paved\": false,\n"
	                                   "          \"level\": 0\n        }"));
	free(json);
	store_close(s);
}
END_TEST

START_TEST(a_zone_may_name_a_repeat_of_the_catalogue)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan plan = imported_plan(s,
	        ONE("\"zones\":[{\"nodes\":[],\"laying\":{\"bond\":\"mixed\",\"repeat\":"
	            "\"Millwheel, 600 and 300\"}}]"),
	        &mem);

	ck_assert_str_eq(plan.zones[0].laying.repeat.name, "Millwheel, 600 and 300");
	ck_assert_uint_gt(plan.zones[0].laying.repeat.count, 1);
	ck_assert_uint_eq(plan.laying.repeat.count, 0);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* --- soundness --- */

static enum status zones_broken(const struct plan *plan, struct error *err)
{
	return plan->zone_count ? error_set(err, STATUS_PLAN, "%zu zones", plan->zone_count)
	                        : STATUS_OK;
}

static enum status outline_broken(const struct plan *plan, struct error *err)
{
	(void)plan;
	return error_set(err, STATUS_PLAN, "broken");
}

#define DRAWN(zone)                                                                                \
	ONE("\"outline\":{\"nodes\":[" SQUARE "]},\"zones\":[{\"nodes\":[" SQUARE "]},{" zone      \
	    "\"nodes\":[{\"x\":0,\"y\":0}]}]")

START_TEST(zones_are_checked_for_soundness_unless_one_is_being_drawn)
{
	static const char closed[] = DRAWN(""), open[] = DRAWN("\"closed\":false,");
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t first;
	size_t added;

	ck_assert_int_eq(
	        store_import(s, closed, strlen(closed), zones_broken, &first, &added, &err),
	        STATUS_PLAN);
	ck_assert_str_eq(err.text, "variants[0].outline: 2 zones");
	ck_assert_int_eq(store_import(s, open, strlen(open), outline_broken, &first, &added, &err),
	        STATUS_PLAN);
	ck_assert_int_eq(
	        store_import(s, open, strlen(open), zones_broken, &first, &added, &err), STATUS_OK);
	store_close(s);
}
END_TEST

START_TEST(the_corners_of_zones_count_too)
{
	enum { MOST = 100000 };
	char *json = malloc(MOST * 20 + 400), *to = json, *last;
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t first;
	size_t added;

	to += sprintf(to, HEAD "{\"name\":\"A\",\"outline\":{\"nodes\":[");
	for (int i = 0; i < MOST - 1; i++)
		to += sprintf(to, "%s{\"x\":%d,\"y\":1}", i ? "," : "", i);
	to += sprintf(to, "]},\"zones\":[{\"nodes\":[{\"x\":0,\"y\":0}");
	last = to;
	sprintf(last, ",{\"x\":0,\"y\":0}]}]}]}");
	ck_assert_int_eq(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text, "variants[0]: 100001 corners; give at most 100000");
	sprintf(last, "]}]}]}");
	ck_assert_int_eq(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err), STATUS_OK);
	free(json);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("parts");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, a_border_or_zone_that_says_nothing_has_the_defaults);
	tcase_add_test(t, a_plan_without_borders_and_zones_says_nothing_of_them);
	tcase_add_test(t, a_zone_writes_its_slab_and_bond_only);
	tcase_add_test(t, a_zone_may_name_a_repeat_of_the_catalogue);
	tcase_add_test(t, zones_are_checked_for_soundness_unless_one_is_being_drawn);
	tcase_add_test(t, the_corners_of_zones_count_too);
	return suite_run("exchange of parts", t);
}
