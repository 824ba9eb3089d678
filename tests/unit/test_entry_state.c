/* Notes, the archive, deleting, bringing back, tidying, and copies of jobs and variants. */
#include "program.h"
#include "slabwright/text.h"
#include "suite.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct store *s;
static struct arena mem;
static struct error err;
static int64_t client, job, variant;

static void setup(void)
{
	struct store_place place;

	program_folder();
	s = store_in_folder("p.slabs");
	variant = empty_variant(s);
	ck_assert_int_eq(store_place_of(s, variant, &mem, &place, &err), STATUS_OK);
	client = place.client;
	job = place.job;
}

static void teardown(void)
{
	store_close(s);
	arena_free(&mem);
	program_folder_remove();
}

static size_t count(enum store_level level, int64_t parent, enum store_which which)
{
	struct store_list list;

	ck_assert_msg(store_entries(s, level, parent, which, &mem, &list, &err) == STATUS_OK, "%s",
	        err.text);
	return list.count;
}

static struct store_entry first(enum store_level level, int64_t parent, enum store_which which)
{
	struct store_list list;

	ck_assert_int_eq(store_entries(s, level, parent, which, &mem, &list, &err), STATUS_OK);
	ck_assert_uint_gt(list.count, 0);
	return list.items[0];
}

START_TEST(notes_are_kept_to_the_byte_at_every_level)
{
	static char longest[NOTES_LONGEST + 2];
	const int64_t ids[] = { client, job, variant }, parents[] = { 0, client, job };
	const char *text = "gate\x1B[31m 0.9 m\n\ttwo dogs \xE6\x9D\xB1 'x' \\n \x01\x7F";

	for (int l = 0; l < STORE_LEVELS; l++) {
		enum store_level level = (enum store_level)l;

		ck_assert_str_eq(first(level, parents[l], STORE_IN_USE).notes, "");
		ck_assert_int_eq(store_notes_set(s, level, ids[l], text, &err), STATUS_OK);
		ck_assert_str_eq(first(level, parents[l], STORE_IN_USE).notes, text);
		memset(longest, 'n', NOTES_LONGEST + 1);
		ck_assert_int_eq(store_notes_set(s, level, ids[l], longest, &err), STATUS_PLAN);
		ck_assert_ptr_nonnull(strstr(err.text, "4000"));
		ck_assert_int_eq(store_notes_set(s, level, ids[l], "\xC3", &err), STATUS_PLAN);
		ck_assert_str_eq(first(level, parents[l], STORE_IN_USE).notes, text);
		longest[NOTES_LONGEST] = '\0';
		ck_assert_int_eq(store_notes_set(s, level, ids[l], longest, &err), STATUS_OK);
		ck_assert_int_eq(store_notes_set(s, level, ids[l], "", &err), STATUS_OK);
		ck_assert_int_eq(store_notes_set(s, level, 99, text, &err), STATUS_PLAN);
	}
}
END_TEST

START_TEST(what_is_archived_is_listed_only_when_asked_for_and_keeps_its_name)
{
	int64_t id;

	ck_assert_int_eq(store_archive(s, STORE_VARIANT, variant, true, &err), STATUS_OK);
	ck_assert_uint_eq(count(STORE_VARIANT, job, STORE_IN_USE), 0);
	ck_assert_uint_eq(count(STORE_VARIANT, job, STORE_WITH_ARCHIVED), 1);
	ck_assert(first(STORE_VARIANT, job, STORE_WITH_ARCHIVED).archived);
	ck_assert_int_eq(first(STORE_JOB, client, STORE_IN_USE).children, 0);
	ck_assert_int_eq(store_variant_add(s, job, "A", &id, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, "archived") != NULL, "%s", err.text);
	ck_assert_int_eq(store_variant_add(s, job, "B", &id, &err), STATUS_OK);
	ck_assert_str_eq(first(STORE_VARIANT, job, STORE_WITH_ARCHIVED).name, "B");
	ck_assert_int_eq(store_archive(s, STORE_VARIANT, variant, false, &err), STATUS_OK);
	ck_assert_uint_eq(count(STORE_VARIANT, job, STORE_IN_USE), 2);
	ck_assert_int_eq(store_archive(s, STORE_CLIENT, client, true, &err), STATUS_OK);
	ck_assert_uint_eq(count(STORE_CLIENT, 0, STORE_IN_USE), 0);
	ck_assert_int_eq(store_archive(s, STORE_JOB, 77, true, &err), STATUS_PLAN);
}
END_TEST

START_TEST(what_is_deleted_comes_back_whole)
{
	const int64_t ids[] = { client, job, variant }, parents[] = { 0, client, job };
	enum store_level level = (enum store_level)_i;
	struct store_place place;
	int64_t id;
	char *before, *after;

	id = imported(s, full_document);
	ck_assert_int_gt(id, 0);
	ck_assert_int_eq(store_notes_set(s, level, ids[_i], "keep me", &err), STATUS_OK);
	before = exported_job(s, variant);
	ck_assert_int_eq(store_delete(s, level, ids[_i], &err), STATUS_OK);
	ck_assert_int_eq(store_delete(s, level, ids[_i], &err), STATUS_PLAN);
	ck_assert_uint_eq(count(level, parents[_i], STORE_DELETED), 1);
	ck_assert_str_eq(first(level, parents[_i], STORE_DELETED).notes, "keep me");
	ck_assert_int_eq(store_place_of(s, variant, &mem, &place, &err), STATUS_PLAN);
	ck_assert_int_eq(store_find(s, "C/J/A", &mem, &place, &err), STATUS_PLAN);
	ck_assert_int_eq(
	        store_find(s, first(level, parents[_i], STORE_DELETED).uuid, &mem, &place, &err),
	        STATUS_PLAN);
	ck_assert_int_eq(store_undelete(s, level, ids[_i], &err), STATUS_OK);
	ck_assert_int_eq(store_undelete(s, level, ids[_i], &err), STATUS_PLAN);
	after = exported_job(s, variant);
	ck_assert_str_eq(before, after);
	free(before);
	free(after);
}
END_TEST

START_TEST(the_name_of_what_is_deleted_is_free_and_comes_back_with_a_number)
{
	int64_t other;

	ck_assert_int_eq(store_delete(s, STORE_VARIANT, variant, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, job, "A", &other, &err), STATUS_OK);
	ck_assert_int_eq(store_undelete(s, STORE_VARIANT, variant, &err), STATUS_OK);
	ck_assert_uint_eq(count(STORE_VARIANT, job, STORE_IN_USE), 2);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT id FROM variants WHERE name = 'A 2'"),
	        variant);
}
END_TEST

/* Any table that has a variant must be tidied of those that went. */
START_TEST(tidying_leaves_no_row_of_what_was_deleted_and_all_others)
{
	static const char *const tables[] = { "nodes", "rings", "layings", "planes", "surfaces",
		"grounds", "edgings", "edge_joints", "borders", "repeats", "mixes", "zones",
		"zone_nodes", "documents", "edits", "view" };
	char sql[200], *before, *after;
	int64_t gone, kept, n, rows = 0;
	struct store_place place;

	kept = imported(s, full_document);
	before = exported(s, kept);
	ck_assert_int_eq(store_client_add(s, "D", &client, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, client, "K", &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(s, kept, job, "A", &gone, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(s, imported(s, beside_document), job, "B", &n, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_view_set(s, gone, "sketch", "x", &err), STATUS_OK);
	ck_assert_int_eq(
	        store_edit(s, gone, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_tidy(s, &n, &err), STATUS_OK);
	ck_assert_int_eq(n, 0);
	ck_assert_int_eq(store_delete(s,
	                         _i == 0   ? STORE_CLIENT
	                         : _i == 1 ? STORE_JOB
	                                   : STORE_VARIANT,
	                         _i == 0   ? client
	                         : _i == 1 ? job
	                                   : gone,
	                         &err),
	        STATUS_OK);
	ck_assert_int_eq(store_tidy(s, &n, &err), STATUS_OK);
	ck_assert_int_eq(n, _i == 2 ? 1 : 2);
	for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
		snprintf(sql, sizeof sql, "SELECT count(*) FROM %s WHERE variant = %lld", tables[i],
		        (long long)gone);
		ck_assert_msg(ask_file(program_path("p.slabs"), sql) == 0, "%s", tables[i]);
		snprintf(sql, sizeof sql, "SELECT count(*) FROM %s", tables[i]);
		rows += ask_file(program_path("p.slabs"), sql);
	}
	ck_assert_int_gt(rows, 0);
	/* No table with a variant is left out of the list above. */
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM sqlite_schema t JOIN "
	                         "pragma_table_info(t.name) c ON c.name = 'variant'"
	                         " WHERE t.type = 'table'"),
	        (int64_t)(sizeof tables / sizeof *tables));
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM pragma_foreign_key_check"),
	        0);
	ck_assert_int_eq(store_place_of(s, gone, &mem, &place, &err), STATUS_PLAN);
	after = exported(s, kept);
	ck_assert_str_eq(before, after);
	free(before);
	free(after);
}
END_TEST

START_TEST(a_job_is_copied_with_all_its_variants)
{
	struct store_list from, to;
	int64_t id, copy, extra;

	ck_assert_int_eq(store_variant_copy_to(s, imported(s, full_document), job, "B", &id, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_notes_set(s, STORE_VARIANT, id, "of a variant", &err), STATUS_OK);
	ck_assert_int_eq(store_notes_set(s, STORE_JOB, job, "of the job", &err), STATUS_OK);
	ck_assert_int_eq(store_archive(s, STORE_VARIANT, variant, true, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, job, "gone", &extra, &err), STATUS_OK);
	ck_assert_int_eq(store_delete(s, STORE_VARIANT, extra, &err), STATUS_OK);
	ck_assert_int_eq(store_job_copy(s, job, "J", &copy, &err), STATUS_PLAN);
	ck_assert_int_eq(store_job_copy(s, job, "Copy", &copy, &err), STATUS_OK);
	ck_assert_str_eq(first(STORE_JOB, client, STORE_IN_USE).notes, "of the job");
	ck_assert_int_eq(
	        store_entries(s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, &mem, &from, &err),
	        STATUS_OK);
	ck_assert_int_eq(
	        store_entries(s, STORE_VARIANT, copy, STORE_WITH_ARCHIVED, &mem, &to, &err),
	        STATUS_OK);
	ck_assert_uint_eq(from.count, 2);
	ck_assert_uint_eq(to.count, from.count);
	for (size_t i = 0; i < to.count; i++) {
		struct plan a, b;

		ck_assert_str_eq(to.items[i].name, from.items[i].name);
		ck_assert_str_eq(to.items[i].notes, from.items[i].notes);
		ck_assert_str_ne(to.items[i].uuid, from.items[i].uuid);
		ck_assert_int_eq(to.items[i].archived, from.items[i].archived);
		ck_assert_int_eq(store_plan(s, from.items[i].id, &mem, &a, &err), STATUS_OK);
		ck_assert_int_eq(store_plan(s, to.items[i].id, &mem, &b, &err), STATUS_OK);
		ck_assert_ptr_null(plans_differ(&a, &b));
	}
}
END_TEST

START_TEST(a_variant_is_copied_into_another_job)
{
	struct plan a, b;
	int64_t other, copy, id = imported(s, full_document);

	ck_assert_int_eq(store_job_add(s, client, "K", &other, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(s, id, other, "A", &copy, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(s, id, other, "A", &copy, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_copy_to(s, id, 99, "A", &copy, &err), STATUS_PLAN);
	ck_assert_uint_eq(count(STORE_VARIANT, other, STORE_IN_USE), 1);
	copy = first(STORE_VARIANT, other, STORE_IN_USE).id;
	ck_assert_int_eq(store_plan(s, id, &mem, &a, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(s, copy, &mem, &b, &err), STATUS_OK);
	ck_assert_ptr_null(plans_differ(&a, &b));
	/* A deleted job takes nothing. */
	ck_assert_int_eq(store_delete(s, STORE_JOB, other, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(s, id, other, "B", &copy, &err), STATUS_PLAN);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("states");

	tcase_add_checked_fixture(t, setup, teardown);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, notes_are_kept_to_the_byte_at_every_level);
	tcase_add_test(t, what_is_archived_is_listed_only_when_asked_for_and_keeps_its_name);
	tcase_add_loop_test(t, what_is_deleted_comes_back_whole, 0, STORE_LEVELS);
	tcase_add_test(t, the_name_of_what_is_deleted_is_free_and_comes_back_with_a_number);
	tcase_add_loop_test(t, tidying_leaves_no_row_of_what_was_deleted_and_all_others, 0, 3);
	tcase_add_test(t, a_job_is_copied_with_all_its_variants);
	tcase_add_test(t, a_variant_is_copied_into_another_job);
	return suite_run("entry states", t);
}
