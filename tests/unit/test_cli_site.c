/* The commands book, setout and check, from an imported plan. */
#include "json_read.h"
#include "program.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct output o;

/* A square of 4 m that falls by 10 mm a metre up the plan, with this site. */
static void import_site(const char *site, const char *outline)
{
	char text[1600];

	snprintf(text, sizeof text,
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"Yard\"},\"variants\":[{\"name\":\"A\",\"rule_set\":"
	        "\"UK guidance\",\"outline\":{%s\"nodes\":[{\"x\":0,\"y\":0},{\"x\":4000,\"y\":0},"
	        "{\"x\":4000,\"y\":4000},{\"x\":0,\"y\":4000}]},\"surface\":{\"planes\":[{\"x\":0,"
	        "\"y\":0,\"level\":0,\"toward\":90,\"fall\":10}]},\"site\":{%s}}]}",
	        outline, site);
	program_write("plan.json", text);
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
}

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	program_done(&o);
	program_folder_remove();
}

static void run(const char *command, const char *form)
{
	RUN(&o, command, "Ann/Yard/A", "--as", form);
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_str_eq(o.err, "");
}

#define BOOK                                                                                       \
	"\"book\":{\"start\":1000,\"close\":1000,\"readings\":[{\"name\":\"sill\",\"back\":1200}," \
	"{\"name\":\"lawn\",\"inter\":1500,\"x\":2000,\"y\":3000},{\"name\":\"sill\",\"fore\":"    \
	"1202}]}"

START_TEST(the_book_is_reduced)
{
	import_site(BOOK, "");
	run("book", "json");
	ck_assert_double_eq(json_number(o.out, "$.lines[1].reduced"), 700);
	ck_assert_double_eq(json_number(o.out, "$.lines[1].level"), 702);
	ck_assert_double_eq(json_number(o.out, "$.misclosure"), -2);
	program_done(&o);
	run("book", "csv");
	ck_assert_ptr_nonnull(strstr(o.out, "2,lawn,,1500,,,,300,700,2,702,2000,3000\r\n"));
	program_done(&o);
	run("book", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "so it is within"));
	program_done(&o);
	run("levels", "json"); /* by the book's instrument: 1.002 + 1.200 */
	ck_assert_double_eq(json_number(o.out, "$.instrument.height"), 2202);
	ck_assert_double_eq(json_number(o.out, "$.points[2].staff"), 2242);
}
END_TEST

START_TEST(a_faulty_book_is_refused_by_its_line)
{
	import_site(
	        "\"book\":{\"readings\":[{\"back\":1200},{\"fore\":1500},{\"fore\":1202}]}", "");
	RUN(&o, "book", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: line 2 of the book: a foresight without a backsight");
}
END_TEST

START_TEST(nothing_measured_is_said)
{
	import_site("", "");
	RUN(&o, "book", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: the levelling book has no lines");
	RUN(&o, "check", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: nothing was measured yet");
}
END_TEST

START_TEST(pegs_are_set_out_from_the_baseline)
{
	import_site("\"baseline\":{\"from\":{\"x\":0,\"y\":-1000},\"to\":{\"x\":4000,\"y\":-1000}},"
	            "\"pegs\":[{\"name\":\"gate\",\"x\":3000,\"y\":3000}]",
	        "");
	run("setout", "json");
	ck_assert_double_eq(json_number(o.out, "$.points[4].along"), 3000);
	ck_assert_double_eq(json_number(o.out, "$.points[4].offset"), 4000);
	ck_assert_double_eq(json_number(o.out, "$.points[4].tape_first"), 5000);
	ck_assert_int_eq(json_length(o.out, "$.diagonals"), 2);
	program_done(&o);
	run("setout", "csv");
	ck_assert_ptr_nonnull(strstr(o.out, "peg,gate,3000,3000,3000,4000,5000,"));
	program_done(&o);
	run("setout", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "gate: along 3.000 m, left 4.000 m"));
}
END_TEST

START_TEST(an_outline_that_is_not_closed_cannot_be_set_out)
{
	import_site("", "\"closed\":false,");
	RUN(&o, "setout", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: the outline is not closed");
}
END_TEST

START_TEST(what_was_built_is_checked_by_the_rule_set)
{
	import_site("\"measured\":[{\"name\":\"a\",\"x\":0,\"y\":0,\"level\":0},{\"name\":\"b\","
	            "\"x\":0,\"y\":1000,\"level\":-3.5},{\"name\":\"c\",\"x\":0,\"y\":2000,"
	            "\"level\":-20,\"at\":{\"x\":0,\"y\":2011}}]",
	        "");
	run("check", "json");
	ck_assert_double_eq(json_number(o.out, "$.points[1].level_off"), 6.5);
	ck_assert_double_eq(json_number(o.out, "$.points[1].level_over"), 0.5);
	ck_assert_double_eq(json_number(o.out, "$.points[2].place_over"), 1);
	ck_assert_int_eq(json_length(o.out, "$.flatness"), 1);
	program_done(&o);
	run("check", "csv");
	ck_assert_ptr_nonnull(strstr(o.out, "level,b,,,6.5,6,0.5\r\n"));
	program_done(&o);
	run("check", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "1 levels, 1 places, 1 under a straightedge"));
	ck_assert_ptr_nonnull(strstr(o.out, "NHBC Standards"));
}
END_TEST

START_TEST(a_path_without_variant_is_refused)
{
	import_site("", "");
	RUN(&o, "setout", "Ann/Yard");
	assert_refused(&o, 2, "setout: \"Ann/Yard\" names no variant");
	RUN(&o, "book");
	assert_refused(&o, 2, "book needs PATH");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("site commands");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, the_book_is_reduced);
	tcase_add_test(tc, a_faulty_book_is_refused_by_its_line);
	tcase_add_test(tc, nothing_measured_is_said);
	tcase_add_test(tc, pegs_are_set_out_from_the_baseline);
	tcase_add_test(tc, an_outline_that_is_not_closed_cannot_be_set_out);
	tcase_add_test(tc, what_was_built_is_checked_by_the_rule_set);
	tcase_add_test(tc, a_path_without_variant_is_refused);
	return suite_run("site commands", tc);
}
