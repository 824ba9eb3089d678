/* Import, export and list, run as a shell runs them. */
#include "json_read.h"
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct output o;

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	program_done(&o);
	program_folder_remove();
}

/* --- import, export, list --- */

START_TEST(import_export_import_is_the_same_byte_for_byte)
{
	char *first;

	RUN(&o, "import", program_path("../slabwright-nothing-here.json"));
	assert_refused(&o, 1, "cannot be read");
	program_import_yard(&o);
	RUN(&o, "export", "Ann/Yard");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert(json_is_valid(o.out));
	first = strdup(o.out);
	program_done(&o);
	program_run(&o, first,
	        (const char *const[]){
	                "--store", program_path("second.slabs"), "import", "-", NULL });
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "--store", program_path("second.slabs"), "export", "Ann/Yard");
	ck_assert_str_eq(o.out, first);
	program_done(&o);
	RUN(&o, "--store", program_path("second.slabs"), "export", "Ann/Yard/A");
	ck_assert_int_eq(json_length(o.out, "$.variants"), 1);
	ck_assert_double_eq(json_number(o.out, "$.variants[0].outline.nodes[2].y"), 4150.5);
	ck_assert_double_eq(json_number(o.out, "$.variants[0].outline.nodes[2].rise"), 250);
	free(first);
}
END_TEST

START_TEST(the_demo_survives_export_and_import_byte_for_byte)
{
	char *first;

	RUN(&o, "--store", program_path("a.slabs"), "demo");
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "--store", program_path("a.slabs"), "export", "Invented example/Back courtyard");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_int_eq(json_length(o.out, "$.variants"), 3);
	first = strdup(o.out);
	program_done(&o);
	program_run(&o, first,
	        (const char *const[]){ "--store", program_path("b.slabs"), "import", "-", NULL });
	ck_assert_str_eq(o.out, "Imported 3 variants into Invented example / Back courtyard.\n");
	program_done(&o);
	RUN(&o, "--store", program_path("b.slabs"), "export", "Invented example/Back courtyard");
	ck_assert_str_eq(o.out, first);
	free(first);
}
END_TEST

START_TEST(what_is_there_already_is_not_imported_twice)
{
	char *exported;

	program_import_yard(&o);
	RUN(&o, "export", "Ann/Yard");
	exported = strdup(o.out);
	program_done(&o);
	program_run(&o, exported, (const char *const[]){ "import", "-", NULL });
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "Nothing new"));
	program_done(&o);
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Ann/Yard/A\n");
	free(exported);
}
END_TEST

START_TEST(a_fault_in_a_document_is_named_by_place_and_nothing_is_written)
{
	program_import_yard(&o);
	program_document("bad.json", "Bob", "Drive", "A", "\"far\"", "stack");
	RUN(&o, "import", program_path("bad.json"));
	assert_refused(&o, 1, "variants[0].outline.nodes[2].x: not a number");
	program_document("bad.json", "Bob", "Drive", "A", "-6200", "stack");
	RUN(&o, "import", program_path("bad.json"));
	ck_assert_int_eq(o.status, 1); /* edges cross */
	program_done(&o);
	program_run(&o, "{ \"format\": ", (const char *const[]){ "import", "-", NULL });
	assert_refused(&o, 1, "not JSON");
	program_run(&o, "", (const char *const[]){ "import", "-", NULL });
	assert_refused(&o, 1, "not JSON");
	RUN(&o, "import", program_path("."));
	assert_refused(&o, 1, "cannot be read");
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Ann/Yard/A\n");
}
END_TEST

START_TEST(a_path_is_found_by_the_names_that_list_prints)
{
	char *path;

	program_document(
	        "plan.json", "Ann/Bob \\u001b[2J", "No. 7 = \\\"x\\\"", "-A", "6200", "stack");
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_null(strchr(o.out, 0x1b));
	program_done(&o);
	RUN(&o, "list");
	ck_assert_ptr_null(strchr(o.out, 0x1b));
	ck_assert_int_eq(strncmp(o.out, "Ann\\/Bob \xEF\xBF\xBD[2J/No. 7 = \"x\"/-A\n", 20), 0);
	program_done(&o);
	program_document("plan.json", "Ann/Bob\\\\", "No. 7 = \\\"x\\\"", "-A", "6200", "stack");
	RUN(&o, "--store", program_path("s"), "import", program_path("plan.json"));
	program_done(&o);
	RUN(&o, "--store", program_path("s"), "list");
	ck_assert_str_eq(o.out, "Ann\\/Bob\\\\/No. 7 = \"x\"/-A\n");
	path = strdup(o.out);
	path[strcspn(path, "\n")] = '\0';
	program_done(&o);
	RUN(&o, "--store", program_path("s"), "takeoff", "--", path);
	ck_assert_msg(o.status == 0, "%s", o.err);
	free(path);
}
END_TEST

START_TEST(a_path_that_leads_nowhere_ends_with_status_1_or_2)
{
	program_import_yard(&o);
	RUN(&o, "takeoff", "Ann/Yard/B");
	assert_refused(&o, 1, "B");
	RUN(&o, "takeoff", "Ben/Yard/A");
	assert_refused(&o, 1, "Ben");
	RUN(&o, "takeoff", "Ann/Yard");
	assert_refused(&o, 2, "names no variant");
	RUN(&o, "compare", "Ann");
	assert_refused(&o, 2, "names no job");
	RUN(&o, "compare", "Ann/Yard/A");
	assert_refused(&o, 2, "names no job");
	RUN(&o, "list", "--beside");
	assert_refused(&o, 2, "--beside goes with");
	RUN(&o, "tidy", "--archived");
	assert_refused(&o, 2, "--archived goes with");
}
END_TEST

/* The yard, exported, then changed here. */
static char *changed_since(void)
{
	char *exported;

	program_import_yard(&o);
	RUN(&o, "export", "Ann");
	ck_assert_int_eq(json_length(o.out, "$.jobs[0].variants"), 1);
	exported = strdup(o.out);
	program_done(&o);
	change_file(program_path(".local/share/slabwright/projects.slabs"),
	        "UPDATE nodes SET x_um = x_um - 1000 WHERE x_um > 0");
	return exported;
}

START_TEST(what_differs_is_listed_and_can_be_taken_in_beside)
{
	char *exported = changed_since();

	program_run(&o, exported, (const char *const[]){ "import", "-", NULL });
	ck_assert_int_eq(o.status, 1);
	ck_assert_str_eq(o.out, "");
	ck_assert_msg(strncmp(o.err, "differs: Ann / Yard / A: outline\n", 33) == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.err, "nothing was taken in"));
	ck_assert_ptr_nonnull(strstr(o.err, "--beside"));
	program_done(&o);
	program_run(&o, exported, (const char *const[]){ "import", "-", "--beside", NULL });
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "Imported 1 variant into Ann / Yard."));
	program_done(&o);
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Ann/Yard/A\nAnn/Yard/A (from other)\n");
	free(exported);
}
END_TEST

START_TEST(variants_are_compared_in_three_forms)
{
	char *exported = changed_since();

	program_run(&o, exported, (const char *const[]){ "import", "-", "--beside", NULL });
	program_done(&o);
	RUN(&o, "compare", "Ann/Yard", "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert(json_is_valid(o.out));
	ck_assert_int_eq(json_length(o.out, "$.variants"), 2);
	/* 1 mm narrower: by hand 6.2 m against 6.199 m along the house wall */
	ck_assert_double_lt(json_number(o.out, "$.variants[0].figures.area_m2"),
	        json_number(o.out, "$.variants[1].figures.area_m2"));
	ck_assert_int_ge(json_length(o.out, "$.differ"), 1);
	program_done(&o);
	RUN(&o, "compare", "Ann/Yard", "--as", "csv");
	ck_assert_int_eq(
	        strncmp(o.out, "figure,differs,A,A: best,A (from other),A (from other): best\r\n",
	                61),
	        0);
	program_done(&o);
	RUN(&o, "compare", "Ann/Yard");
	ck_assert_ptr_nonnull(strstr(o.out, "2: A (from other)"));
	ck_assert_ptr_nonnull(strstr(o.out, "\n  Bond "));
	free(exported);
}
END_TEST

START_TEST(a_backup_is_restored_and_what_was_deleted_is_tidied)
{
	char path[300];

	program_import_yard(&o);
	snprintf(path, sizeof path, "%s", program_path("stick.slabs"));
	RUN(&o, "backup", path);
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "backup", path);
	assert_refused(&o, 2, "give another name");
	change_file(program_path(".local/share/slabwright/projects.slabs"),
	        "UPDATE clients SET gone = name, name = uuid");
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "");
	program_done(&o);
	RUN(&o, "tidy");
	ck_assert_str_eq(o.out, "Deleted for good: 1 variant.\n");
	program_done(&o);
	RUN(&o, "restore", path);
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "projects.slabs.before-restore"));
	program_done(&o);
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Ann/Yard/A\n");
	program_done(&o);
	RUN(&o, "restore", program_path("nothing"));
	assert_refused(&o, 3, "cannot be read");
	change_file(program_path(".local/share/slabwright/projects.slabs"),
	        "UPDATE jobs SET archived = 1");
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Ann\n");
	program_done(&o);
	RUN(&o, "list", "--archived");
	ck_assert_str_eq(o.out, "Ann/Yard/A\n");
}
END_TEST

START_TEST(a_draft_is_kept_and_its_figures_say_what_is_missing)
{
	char *first;

	program_run(&o,
	        "{ \"format\": \"slabwright-plan\", \"version\": 1, \"client\": { \"name\": \"C\" "
	        "},"
	        " \"job\": { \"title\": \"J\" }, \"variants\": [ { \"name\": \"bare\" },"
	        " { \"name\": \"open\", \"outline\": { \"closed\": false, \"nodes\": ["
	        " { \"x\": 0, \"y\": 0 }, { \"x\": 1000.001, \"y\": 0 } ] } } ] }",
	        (const char *const[]){ "import", "-", NULL });
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "takeoff", "C/J/bare", "--as", "json");
	assert_refused(&o, 1, "no outline yet");
	RUN(&o, "levels", "C/J/open");
	assert_refused(&o, 1, "not closed yet");
	RUN(&o, "export", "C/J");
	first = strdup(o.out);
	program_done(&o);
	program_run(&o, first,
	        (const char *const[]){ "--store", program_path("s"), "import", "-", NULL });
	program_done(&o);
	RUN(&o, "--store", program_path("s"), "export", "C/J");
	ck_assert_str_eq(o.out, first);
	free(first);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("cli exchange");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, import_export_import_is_the_same_byte_for_byte);
	tcase_add_test(tc, the_demo_survives_export_and_import_byte_for_byte);
	tcase_add_test(tc, what_is_there_already_is_not_imported_twice);
	tcase_add_test(tc, a_fault_in_a_document_is_named_by_place_and_nothing_is_written);
	tcase_add_test(tc, a_path_is_found_by_the_names_that_list_prints);
	tcase_add_test(tc, a_path_that_leads_nowhere_ends_with_status_1_or_2);
	tcase_add_test(tc, what_differs_is_listed_and_can_be_taken_in_beside);
	tcase_add_test(tc, variants_are_compared_in_three_forms);
	tcase_add_test(tc, a_backup_is_restored_and_what_was_deleted_is_tidied);
	tcase_add_test(tc, a_draft_is_kept_and_its_figures_say_what_is_missing);
	return suite_run("cli exchange", tc);
}
