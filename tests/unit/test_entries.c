/* Clients, jobs and variants and their names; catalogue, rule sets, view state. */
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

/* --- clients, jobs, variants --- */

static const char *const strange_names[] = {
	"O'Brien; DROP TABLE clients",
	"a/b",
	"back\\slash",
	"tail\\",
	"line\nbreak\ttab\x1B[31m",
	"\"quoted\"",
	"Zo\xC3\xAB \xE6\x9D\xB1\xE4\xBA\xAC",
	" ",
	"%",
	"\xF0\x9F\x8F\xA0",
};

START_TEST(any_name_is_kept_as_it_is_and_found_by_its_path)
{
	const char *name = strange_names[_i];
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	struct store_list list;
	int64_t client, job, variant;
	char escaped[200], path[700], *to = escaped;

	ck_assert_int_eq(store_client_add(s, name, &client, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, client, name, &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, job, name, &variant, &err), STATUS_OK);
	ck_assert_int_eq(store_clients(s, &mem, &list, &err), STATUS_OK);
	ck_assert_uint_eq(list.count, 1);
	ck_assert_str_eq(list.items[0].name, name);
	for (const char *from = name; *from; *to++ = *from++)
		if (*from == '/' || *from == '\\')
			*to++ = '\\';
	*to = '\0';
	snprintf(path, sizeof path, "%s/%s/%s", escaped, escaped, escaped);
	ck_assert_msg(store_find(s, path, &mem, &place, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(place.client, client);
	ck_assert_int_eq(place.job, job);
	ck_assert_int_eq(place.variant, variant);
	ck_assert_str_eq(place.variant_name, name);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_name_that_is_empty_too_long_or_not_utf8_is_refused)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	char name[202];
	int64_t id;

	memset(name, 'n', sizeof name);
	name[201] = '\0';
	ck_assert_int_eq(store_client_add(s, "", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, name, &id, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "200"));
	name[200] = '\0';
	ck_assert_int_eq(store_client_add(s, name, &id, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(s, "\xC3", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, "\xED\xA0\x80", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, "\xC0\xAF", &id, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "UTF-8"));
	store_close(s);
}
END_TEST

START_TEST(a_taken_name_is_refused_among_siblings_only)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t c1, c2, j1, j2, v1, v2;

	ck_assert_int_eq(store_client_add(s, "A", &c1, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(s, "A", &c2, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "client \"A\""));
	ck_assert_int_eq(store_client_add(s, "B", &c2, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, c1, "J", &j1, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, c1, "J", &j2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_job_add(s, c2, "J", &j2, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, j1, "V", &v1, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, j1, "V", &v2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_copy(s, v1, "V", &v2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_add(s, j2, "V", &v2, &err), STATUS_OK);
	/* Renaming: to a taken name no, to its own name yes. */
	ck_assert_int_eq(store_client_rename(s, c2, "A", &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_rename(s, c2, "B", &err), STATUS_OK);
	ck_assert_int_eq(store_client_rename(s, c2, "C", &err), STATUS_OK);
	ck_assert_int_eq(store_job_rename(s, j2, "K", &err), STATUS_OK);
	ck_assert_int_eq(store_variant_rename(s, v2, "W", &err), STATUS_OK);
	ck_assert_int_eq(store_variant_rename(s, v2, "", &err), STATUS_PLAN);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM clients WHERE name IN ('A', 'C')"),
	        2);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM jobs WHERE title IN ('J', 'K')"),
	        2);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM variants WHERE name IN ('V', 'W')"),
	        2);
	store_close(s);
}
END_TEST

START_TEST(lists_count_children_and_tell_the_time_of_change)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_list list;
	int64_t variant = empty_variant(s), copy, job;

	ck_assert_int_eq(store_variant_copy(s, variant, "B", &copy, &err), STATUS_OK);
	change_file(program_path("p.slabs"), "UPDATE clients SET changed = '2001-01-01T00:00:00Z'; "
	                                     "UPDATE jobs SET changed = '2001-01-01T00:00:00Z'");
	ck_assert_int_eq(
	        store_edit(s, copy, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_clients(s, &mem, &list, &err), STATUS_OK);
	ck_assert_int_eq(list.items[0].children, 1);
	ck_assert_uint_eq(strlen(list.items[0].uuid), 36);
	ck_assert_int_eq(list.items[0].uuid[14], '4');
	ck_assert_uint_eq(strlen(list.items[0].changed), strlen("2001-01-01T00:00:00Z"));
	ck_assert_str_gt(list.items[0].changed, "2001-01-01T00:00:00Z");
	ck_assert_int_eq(store_jobs(s, list.items[0].id, &mem, &list, &err), STATUS_OK);
	ck_assert_int_eq(list.items[0].children, 2);
	ck_assert_str_gt(list.items[0].changed, "2001-01-01T00:00:00Z");
	job = list.items[0].id;
	ck_assert_int_eq(store_variants(s, job, &mem, &list, &err), STATUS_OK);
	ck_assert_uint_eq(list.count, 2);
	ck_assert_str_eq(list.items[0].name, "A");
	ck_assert_str_eq(list.items[1].name, "B");
	ck_assert_str_ne(list.items[0].uuid, list.items[1].uuid);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(an_id_that_is_not_there_is_refused)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	struct plan plan;
	const char *json;
	int64_t id;

	ck_assert_int_eq(store_job_add(s, 9, "J", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_add(s, 9, "V", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_copy(s, 9, "V", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_rename(s, 9, "V", &err), STATUS_PLAN);
	ck_assert_int_eq(store_place_of(s, 9, &mem, &place, &err), STATUS_PLAN);
	ck_assert_int_eq(store_plan(s, 9, &mem, &plan, &err), STATUS_PLAN);
	ck_assert_int_eq(
	        store_edit(s, 9, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_PLAN);
	ck_assert_int_eq(store_export(s, 9, 0, &mem, &json, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "no job 9"));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_path_that_leads_nowhere_names_what_is_there)
{
	static const struct {
		const char *path, *words;
		enum status status;
	} paths[] = {
		{ "X", "no client \"X\"; there is \"C\"", STATUS_PLAN },
		{ "C/X", "no job \"X\"; there is \"J\"", STATUS_PLAN },
		{ "C/J/X", "no variant \"X\"; there is \"A\"", STATUS_PLAN },
		{ "", "empty part", STATUS_USAGE },
		{ "C//A", "empty part", STATUS_USAGE },
		{ "C/J/", "empty part", STATUS_USAGE },
		{ "C/J/A/x", "more than three", STATUS_USAGE },
		{ "C/J/A/", "ends in a slash", STATUS_USAGE },
		{ "C/J/A\\x", "backslash", STATUS_USAGE },
	};
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;

	ck_assert_int_eq(store_find(s, "C", &mem, &place, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "none yet"));
	empty_variant(s);
	for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
		ck_assert_int_eq(store_find(s, paths[i].path, &mem, &place, &err), paths[i].status);
		ck_assert_msg(strstr(err.text, paths[i].words) != NULL, "%s: %s", paths[i].path,
		        err.text);
	}
	ck_assert_int_eq(store_find(s, "C/J", &mem, &place, &err), STATUS_OK);
	ck_assert_int_eq(place.variant, 0);
	ck_assert_ptr_null(place.variant_name);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* --- catalogue, rule sets, view --- */

START_TEST(a_new_store_has_the_catalogue_and_every_entry_can_be_laid)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_slabs slabs;
	struct store_edgings edgings;
	struct plan plan;

	plan_init(&plan);
	ck_assert_int_eq(store_slabs(s, &mem, &slabs, &err), STATUS_OK);
	ck_assert_uint_ge(slabs.count, 14);
	for (size_t i = 0; i < slabs.count; i++) {
		plan.laying.slab = slabs.items[i];
		ck_assert_msg(laying_check(&plan.laying, slabs.items[i].name, &err) == STATUS_OK,
		        "%s", err.text);
		ck_assert_int_ge(slabs.items[i].density_kg_m3, 2000);
		ck_assert_int_gt(slabs.items[i].price_minor, 0);
	}
	ck_assert_str_eq(slabs.items[0].name, "Concrete flag 600 x 600 x 50");
	ck_assert_int_eq(slabs.items[0].length_um, 600000);
	ck_assert_int_eq(slabs.items[0].price_minor, 740);
	ck_assert_int_eq(store_edgings(s, &mem, &edgings, &err), STATUS_OK);
	ck_assert_uint_ge(edgings.count, 4);
	for (size_t i = 0; i < edgings.count; i++) {
		ck_assert_int_gt(edgings.items[i].unit_um, 0);
		ck_assert(edgings.kinds[i] != EDGE_HOUSE_WALL && edgings.kinds[i] != EDGE_OPEN);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(every_rule_has_a_source_and_limits_stand_in_their_units)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_names names;
	struct rules rules;

	ck_assert_int_eq(store_rule_sets(s, &mem, &names, &err), STATUS_OK);
	ck_assert_uint_eq(names.count, 7);
	ck_assert_str_eq(names.items[6], "none");
	for (size_t i = 0; i < names.count; i++) {
		ck_assert_int_eq(store_rules(s, names.items[i], &mem, &rules, &err), STATUS_OK);
		ck_assert_uint_eq(rules.count > 3, strcmp(names.items[i], "none") != 0);
		for (size_t k = 0; k < rules.count; k++)
			ck_assert_uint_ge(strlen(rules.items[k].source), strlen("common practice"));
	}
	ck_assert_int_eq(store_rules(s, "UK guidance", &mem, &rules, &err), STATUS_OK);
	ck_assert_int_eq(rules_find(&rules, "fall_min")->number, 12500);
	ck_assert_int_eq(rules_find(&rules, "fall_max")->number, 50000);
	ck_assert_int_eq(rules_find(&rules, "lift_one_person")->number, 25000);
	ck_assert_str_eq(rules_find(&rules, "lift_one_person")->unit, "kg");
	ck_assert_int_eq(store_rules(s, "Mars", &mem, &rules, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "\"UK guidance\""));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(view_state_is_kept_by_variant_and_key)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	const char *text;

	ck_assert_int_eq(store_view_get(s, 0, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "");
	ck_assert_int_eq(store_view_set(s, 0, "stage", "Laying", &err), STATUS_OK);
	ck_assert_int_eq(store_view_set(s, 0, "stage", "Falls", &err), STATUS_OK);
	ck_assert_int_eq(store_view_set(s, 3, "stage", "Outline", &err), STATUS_OK);
	store_close(s);
	s = store_in_folder("p.slabs");
	ck_assert_int_eq(store_view_get(s, 0, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "Falls");
	ck_assert_int_eq(store_view_get(s, 3, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "Outline");
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(two_handles_see_each_others_work)
{
	struct store *a = store_in_folder("p.slabs"), *b = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = empty_variant(a), undo, redo;
	char *before = exported(b, variant), *after, label[80];
	bool done;

	ck_assert_int_eq(
	        store_edit(b, variant,
	                &(struct edit){
	                        .type = EDIT_RULES, .label = "rules", .text = "UK guidance" },
	                &err),
	        STATUS_OK);
	ck_assert_int_eq(store_undo_depth(a, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 1);
	ck_assert_int_eq(store_undo(a, variant, &done, label, &err), STATUS_OK);
	ck_assert(done);
	ck_assert_str_eq(label, "rules");
	after = exported(b, variant);
	ck_assert_str_eq(before, after);
	free(before);
	free(after);
	store_close(a);
	store_close(b);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("entries");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, any_name_is_kept_as_it_is_and_found_by_its_path, 0,
	        sizeof strange_names / sizeof *strange_names);
	tcase_add_test(t, a_name_that_is_empty_too_long_or_not_utf8_is_refused);
	tcase_add_test(t, a_taken_name_is_refused_among_siblings_only);
	tcase_add_test(t, lists_count_children_and_tell_the_time_of_change);
	tcase_add_test(t, an_id_that_is_not_there_is_refused);
	tcase_add_test(t, a_path_that_leads_nowhere_names_what_is_there);
	tcase_add_test(t, a_new_store_has_the_catalogue_and_every_entry_can_be_laid);
	tcase_add_test(t, every_rule_has_a_source_and_limits_stand_in_their_units);
	tcase_add_test(t, view_state_is_kept_by_variant_and_key);
	tcase_add_test(t, two_handles_see_each_others_work);
	return suite_run("entries", t);
}
