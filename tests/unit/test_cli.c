/* The commands, run as a shell runs them: what comes out where, and the exit status. */
#include "json_read.h"
#include "program.h"
#include "suite.h"

#include <fcntl.h>
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

/* --- wrong use --- */

static const struct {
	const char *words[6];
	const char *said;
} wrong[] = {
	{ { "takeof", "Ann/Yard/A" }, "no command \"takeof\"" },
	{ { "--colour" }, "no option --colour" },
	{ { "-x" }, "no option -x" },
	{ { "takeoff" }, "takeoff needs PATH" },
	{ { "import" }, "import needs FILE" },
	{ { "export" }, "export needs PATH" },
	{ { "open" }, "open needs PATH" },
	{ { "list", "Ann" }, "one word too many" },
	{ { "takeoff", "Ann", "Smith/Yard/A" }, "quote names with blanks" },
	{ { "takeoff", "a/b/c", "--as", "xml" }, "--as xml: figures come as text, csv or json" },
	{ { "takeoff", "a/b/c", "--as" }, "--as needs FORM" },
	{ { "takeoff", "a/b/c", "--as=" }, "figures come as text, csv or json" },
	{ { "--store" }, "--store needs FILE" },
	{ { "--store", "", "list" }, "--store needs the name of a file" },
	{ { "--ascii=yes", "list" }, "--ascii takes no value" },
	{ { "list", "--as", "json" }, "--as goes with commands that print figures" },
	{ { "takeoff", "a/b/c", "--to", "x.pdf" }, "--to goes with the command sheet" },
	{ { "takeoff", "a/b/c", "--only=plan" }, "--only goes with the command sheet" },
	{ { "takeoff", "a/b/c", "--scale=1:50" }, "--scale goes with the command sheet" },
	{ { "", NULL }, "no command \"\"" },
};

START_TEST(wrong_use_is_told_with_a_hint_and_status_2)
{
	program_run(&o, "", wrong[_i].words);
	if (!strstr(wrong[_i].said, "csv or json"))
		ck_assert_ptr_nonnull(strstr(o.err, "`slabwright --help`"));
	assert_refused(&o, 2, wrong[_i].said);
}
END_TEST

START_TEST(the_planner_without_a_terminal_names_what_there_is_instead)
{
	program_run(&o, "", (const char *const[]){ NULL });
	assert_refused(&o, 2, "`slabwright takeoff PATH`");
	RUN(&o, "open", "Ann/Yard/A");
	assert_refused(&o, 2, "needs a terminal");
}
END_TEST

START_TEST(help_and_version_go_to_standard_output)
{
	static const char *const said[] = { "demo", "open PATH", "list", "import FILE",
		"export PATH", "takeoff PATH", "cuts PATH", "water PATH", "levels PATH",
		"book PATH", "setout PATH", "check PATH", "dig PATH", "edging PATH", "steps PATH",
		"planters PATH", "startlines PATH", "--turned", "order PATH", "price PATH",
		"sheet PATH", "--store FILE", "--as FORM", "--ascii", "--no-colour", "--help",
		"--version" };

	RUN(&o, "--help");
	ck_assert_int_eq(o.status, 0);
	ck_assert_str_eq(o.err, "");
	for (size_t i = 0; i < sizeof said / sizeof *said; i++)
		ck_assert_msg(strstr(o.out, said[i]) != NULL, "no %s", said[i]);
	program_done(&o);
	RUN(&o, "takeoff", "--help");
	ck_assert_int_eq(o.status, 0);
	program_done(&o);
	RUN(&o, "--version");
	ck_assert_int_eq(o.status, 0);
	ck_assert_int_eq(strncmp(o.out, "slabwright ", 11), 0);
}
END_TEST

/* --- stores --- */

START_TEST(without_a_store_figures_end_with_status_3)
{
	static const char *const commands[] = { "takeoff", "cuts", "water", "levels", "planters",
		"export" };

	for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
		RUN(&o, commands[i], "Ann/Yard/A");
		assert_refused(&o, 3, "projects.slabs");
	}
	RUN(&o, "list");
	assert_refused(&o, 3, "projects.slabs");
	ck_assert_int_ne(access(program_path(".local"), F_OK), 0);
}
END_TEST

START_TEST(a_file_that_is_no_store_ends_with_status_3_and_stays_as_it_is)
{
	char text[20] = { 0 };
	FILE *f;

	program_write("notes.txt", "not a store\n");
	RUN(&o, "--store", program_path("notes.txt"), "list");
	assert_refused(&o, 3, "notes.txt");
	program_document("plan.json", "Ann", "Yard", "A", "6200", "stack");
	RUN(&o, "--store", program_path("notes.txt"), "import", program_path("plan.json"));
	assert_refused(&o, 3, "notes.txt");
	f = fopen(program_path("notes.txt"), "rb");
	ck_assert_ptr_nonnull(f);
	ck_assert_uint_eq(fread(text, 1, sizeof text - 1, f), 12);
	fclose(f);
	ck_assert_str_eq(text, "not a store\n");
}
END_TEST

START_TEST(the_store_is_the_option_s_then_the_environment_s_then_the_usual_one)
{
	program_import_yard(&o);
	ck_assert_int_eq(access(program_path(".local/share/slabwright/projects.slabs"), F_OK), 0);
	setenv("SLABWRIGHT_STORE", program_path("env.slabs"), 1);
	program_document("b.json", "Bob", "Drive", "A", "6200", "stack");
	RUN(&o, "import", program_path("b.json"));
	ck_assert_int_eq(o.status, 0);
	program_done(&o);
	RUN(&o, "list");
	ck_assert_str_eq(o.out, "Bob/Drive/A\n");
	program_done(&o);
	RUN(&o, "list", "--store", program_path(".local/share/slabwright/projects.slabs"));
	ck_assert_str_eq(o.out, "Ann/Yard/A\n");
	program_done(&o);
	setenv("SLABWRIGHT_STORE", "", 1);
	setenv("XDG_DATA_HOME", program_path("data"), 1);
	RUN(&o, "import", program_path("b.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_int_eq(access(program_path("data/slabwright/projects.slabs"), F_OK), 0);
}
END_TEST

START_TEST(no_home_is_told_with_the_remedy)
{
	unsetenv("HOME");
	RUN(&o, "list");
	assert_refused(&o, 3, "--store");
}
END_TEST

/* --- figures --- */

START_TEST(every_figure_comes_in_every_form)
{
	static const char *const commands[] = { "takeoff", "cuts", "water", "levels" };
	static const char *const members[] = { "$.area_m2", "$.slabs", "$.drained_m2",
		"$.points[0].level" };

	program_import_yard(&o);
	for (int i = 0; i < 4; i++) {
		RUN(&o, commands[i], "Ann/Yard/A");
		ck_assert_msg(o.status == 0, "%s", o.err);
		ck_assert_ptr_nonnull(strstr(o.out, " of variant \"A\"\n"));
		program_done(&o);
		RUN(&o, commands[i], "Ann/Yard/A", "--as", "text");
		ck_assert_ptr_nonnull(strstr(o.out, " of variant \"A\"\n"));
		program_done(&o);
		RUN(&o, commands[i], "--as=csv", "Ann/Yard/A");
		ck_assert_int_eq(o.status, 0);
		ck_assert_ptr_nonnull(strstr(o.out, "\r\n"));
		program_done(&o);
		RUN(&o, "--as", "json", commands[i], "Ann/Yard/A");
		ck_assert_int_eq(o.status, 0);
		ck_assert(json_is_valid(o.out));
		json_number(o.out, members[i]);
		program_done(&o);
	}
}
END_TEST

START_TEST(a_dig_without_ground_levels_ends_with_status_1)
{
	program_import_yard(&o);
	RUN(&o, "dig", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: there are no ground levels");
}
END_TEST

START_TEST(a_plan_without_planters_says_so)
{
	program_import_yard(&o);
	RUN(&o, "planters", "Ann/Yard/A");
	ck_assert_int_eq(o.status, 0);
	ck_assert_str_eq(o.out, "Planters of variant \"A\"\n\nThe plan has no planters.\n");
	program_done(&o);
	RUN(&o, "planters", "Ann/Yard/A", "--as", "csv");
	ck_assert_ptr_nonnull(strstr(o.out, "planter,record,courses,"));
	program_done(&o);
	RUN(&o, "planters", "Ann/Yard/A", "--as", "json");
	ck_assert_int_eq(json_length(o.out, "$.planters"), 0);
}
END_TEST

/* From the document through store and computation to the sheet. */
START_TEST(the_demo_s_planter_comes_block_by_block)
{
	static const char path[] = "Invented example/Back courtyard/A stretcher";

	RUN(&o, "--store", program_path("demo.slabs"), "demo");
	ck_assert_int_eq(o.status, 0);
	ck_assert_ptr_nonnull(strstr(o.out, "4 courses; 72 blocks to buy"));
	ck_assert_ptr_nonnull(strstr(o.out, "factors are reached"));
	program_done(&o);
	RUN(&o, "--store", program_path("demo.slabs"), "planters", path, "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_int_eq(json_length(o.out, "$.planters"), 1);
	ck_assert_int_eq(json_length(o.out, "$.planters[0].legs"), 4);
	/* 890 x 3590 less walls of 215; rounds of 450: 2 x (7 + 2) or 2 x (8 + 1), four times */
	ck_assert_double_eq(json_number(o.out, "$.planters[0].inside_x"), 460);
	ck_assert_double_eq(json_number(o.out, "$.planters[0].inside_y"), 3160);
	program_done(&o);
	RUN(&o, "--store", program_path("demo.slabs"), "planters", path);
	ck_assert_ptr_nonnull(strstr(o.out, "no\n    design."));
}
END_TEST

START_TEST(the_area_is_that_of_rectangle_and_segment)
{
	program_import_yard(&o);
	RUN(&o, "takeoff", "Ann/Yard/A", "--as", "json");
	/* 6.2 x 4.1505, and the segment of chord 6.2 and rise 0.25 by its closed formula. */
	ck_assert_double_eq_tol(json_number(o.out, "$.area_m2"), 6.2 * 4.1505 + 1.0346762, 1e-5);
	ck_assert_double_eq_tol(json_number(o.out, "$.edges[0].length_m"), 6.2, 1e-9);
}
END_TEST

START_TEST(what_cannot_be_worked_out_ends_with_status_1_and_says_why)
{
	program_document("plan.json", "Ann", "Yard", "H", "6200", "coursed random");
	RUN(&o, "import", program_path("plan.json"));
	assert_refused(&o, 1, "variants[0].laying.mix: coursed random bond needs");
	/* A sound document, but slabs of 600 x 400 make no herringbone. */
	program_write("plan.json",
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"Yard\"},\"variants\":[{\"name\":\"H\",\"outline\":{\"nodes\":"
	        "["
	        "{\"x\":0,\"y\":0},{\"x\":6200,\"y\":0},{\"x\":6200,\"y\":4150}]},\"laying\":{"
	        "\"slab\":{\"length\":600,\"width\":400},\"bond\":\"herringbone\"}}]}");
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "takeoff", "Ann/Yard/H");
	assert_refused(&o, 1, "herringbone");
	RUN(&o, "cuts", "Ann/Yard/H", "--as", "json");
	assert_refused(&o, 1, "herringbone");
	RUN(&o, "order", "Ann/Yard/H", "--as", "csv");
	assert_refused(&o, 1, "herringbone");
	RUN(&o, "price", "Ann/Yard/H");
	assert_refused(&o, 1, "herringbone");
	RUN(&o, "sheet", "Ann/Yard/H", "--to", program_path("x.pdf"));
	assert_refused(&o, 1, "Ann/Yard/H: ");
	ck_assert_int_ne(access(program_path("x.pdf"), F_OK), 0);
}
END_TEST

START_TEST(a_name_is_no_formula_and_no_escape_sequence_in_what_is_printed)
{
	program_document("plan.json", "Ann", "Yard", "=HYPERLINK(1)\\u001b[31m", "6200", "stack");
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "takeoff", "Ann/Yard/=HYPERLINK(1)\x1b[31m", "--as", "csv");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "\"'=HYPERLINK(1)\xEF\xBF\xBD[31m\""));
	program_done(&o);
	RUN(&o, "takeoff", "Ann/Yard/\x1b[31m");
	ck_assert_int_eq(o.status, 1);
	ck_assert_ptr_null(strchr(o.err, 0x1b));
}
END_TEST

/* --- output that does not arrive --- */

START_TEST(a_full_disk_is_told)
{
	int full = open("/dev/full", O_WRONLY);
	static const char *const lines[][4] = { { "list" }, { "--help" }, { "export", "Ann/Yard" },
		{ "takeoff", "Ann/Yard/A" } };

	ck_assert_int_ge(full, 0);
	program_import_yard(&o);
	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
		program_run_to(&o, full, lines[i]);
		assert_refused(&o, 1, "could not be written whole: No space left");
	}
	close(full);
}
END_TEST

START_TEST(a_reader_that_goes_away_ends_it_quietly)
{
	int ends[2];

	program_import_yard(&o);
	ck_assert_int_eq(pipe(ends), 0);
	close(ends[0]);
	program_run_to(&o, ends[1], (const char *const[]){ "cuts", "Ann/Yard/A", NULL });
	close(ends[1]);
	ck_assert_int_eq(o.status, 1);
	ck_assert_str_eq(o.err, "");
	program_done(&o);
}
END_TEST

/* --- demo --- */

START_TEST(the_demo_without_a_terminal_prints_its_takeoff_and_keeps_out_of_the_usual_store)
{
	char *first;

	RUN(&o, "demo");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "Take-off of variant"));
	ck_assert_int_eq(access(program_path(".local/share/slabwright/demo.slabs"), F_OK), 0);
	ck_assert_int_ne(access(program_path(".local/share/slabwright/projects.slabs"), F_OK), 0);
	first = strdup(o.out);
	program_done(&o);
	RUN(&o, "demo");
	ck_assert_str_eq(o.out, first);
	free(first);
}
END_TEST

START_TEST(the_demo_is_invented_and_has_two_variants_that_can_be_worked_out)
{
	char path[200];

	setenv("SLABWRIGHT_STORE", program_path("demo"), 1);
	RUN(&o, "demo");
	ck_assert_int_eq(o.status, 0);
	program_done(&o);
	RUN(&o, "list");
	ck_assert_int_eq(strncmp(o.out, "Invented example/", 17), 0);
	snprintf(path, sizeof path, "%s", strchr(o.out, '\n') + 1);
	path[strcspn(path, "\n")] = '\0';
	program_done(&o);
	RUN(&o, "takeoff", path, "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_double_gt(json_number(o.out, "$.area_m2"), 25);
	ck_assert_double_lt(json_number(o.out, "$.area_m2"), 35);
	ck_assert_double_gt(json_number(o.out, "$.laying.whole"), 50);
}
END_TEST

START_TEST(without_its_shared_files_the_demo_says_what_is_missing)
{
	setenv("SLABWRIGHT_SHARE", program_path("nowhere"), 1);
	RUN(&o, "demo");
	ck_assert_int_ne(o.status, 0);
	ck_assert_msg(strstr(o.err, "nowhere") != NULL, "%s", o.err);
	ck_assert_str_eq(o.out, "");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("cli");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_loop_test(tc, wrong_use_is_told_with_a_hint_and_status_2, 0,
	        (int)(sizeof wrong / sizeof *wrong));
	tcase_add_test(tc, the_planner_without_a_terminal_names_what_there_is_instead);
	tcase_add_test(tc, help_and_version_go_to_standard_output);
	tcase_add_test(tc, without_a_store_figures_end_with_status_3);
	tcase_add_test(tc, a_file_that_is_no_store_ends_with_status_3_and_stays_as_it_is);
	tcase_add_test(tc, the_store_is_the_option_s_then_the_environment_s_then_the_usual_one);
	tcase_add_test(tc, no_home_is_told_with_the_remedy);
	tcase_add_test(tc, every_figure_comes_in_every_form);
	tcase_add_test(tc, a_dig_without_ground_levels_ends_with_status_1);
	tcase_add_test(tc, a_plan_without_planters_says_so);
	tcase_add_test(tc, the_demo_s_planter_comes_block_by_block);
	tcase_add_test(tc, the_area_is_that_of_rectangle_and_segment);
	tcase_add_test(tc, what_cannot_be_worked_out_ends_with_status_1_and_says_why);
	tcase_add_test(tc, a_name_is_no_formula_and_no_escape_sequence_in_what_is_printed);
	tcase_add_test(tc, a_full_disk_is_told);
	tcase_add_test(tc, a_reader_that_goes_away_ends_it_quietly);
	tcase_add_test(tc,
	        the_demo_without_a_terminal_prints_its_takeoff_and_keeps_out_of_the_usual_store);
	tcase_add_test(tc, the_demo_is_invented_and_has_two_variants_that_can_be_worked_out);
	tcase_add_test(tc, without_its_shared_files_the_demo_says_what_is_missing);
	return suite_run("cli", tc);
}
