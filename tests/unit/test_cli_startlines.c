/* The command startlines, and its three forms. */
#include "json_read.h"
#include "program.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct output o;

/* 6.1 m x 3 m in stack bond of 600 x 300 from `start`: the best start is a corner. */
static void import_plan(const char *start, const char *slab)
{
	char text[900];

	snprintf(text, sizeof text,
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"Yard\"},\"variants\":[{\"name\":\"A\",\"outline\":{\"nodes\":"
	        "[{\"x\":0,\"y\":0},{\"x\":6100,\"y\":0},{\"x\":6100,\"y\":3000},{\"x\":0,\"y\":"
	        "3000}]},\"laying\":{\"slab\":{%s,\"joint\":3,\"size\":\"coordinating\"},"
	        "\"bond\":\"%s\",\"start\":%s}}]}",
	        slab, strstr(slab, "500") ? "herringbone" : "stack", start);
	program_write("plan.json", text);
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
}

#define SLAB "\"length\":600,\"width\":300"

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	program_done(&o);
	program_folder_remove();
}

static void assert_member(const char *path, const char *value)
{
	char *is = json_string(o.out, path);

	ck_assert_ptr_nonnull(is);
	ck_assert_str_eq(is, value);
	free(is);
}

START_TEST(json_has_every_member)
{
	import_plan("{\"x\":137,\"y\":61}", SLAB);
	RUN(&o, "startlines", "Ann/Yard/A", "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert(json_is_valid(o.out));
	assert_member("$.exact", "1");
	assert_member("$.finished", "1");
	assert_member("$.grid_mm", "null");
	assert_member("$.present.present", "1");
	ck_assert_double_eq(json_number(o.out, "$.slabs_at_least"), 108);
	ck_assert_int_eq(json_length(o.out, "$.startlines"), 12);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].rank"), 1);
	ck_assert_double_eq(json_number(o.out, "$.startlines[11].rank"), 12);
	/* Up to a joint off the edge; the nearest to the plan's own. */
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].start.y"), 3);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].turn"), 0);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].slivers"), 0);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].slabs"), 108);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].cut"), 10);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].smallest_mm"), 100);
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].balance"), 497);
	ck_assert_double_eq(json_number(o.out, "$.present.start.x"), 137);
	ck_assert_double_eq(json_number(o.out, "$.present.slivers"), 11);
}
END_TEST

START_TEST(csv_has_a_row_for_each_start_and_the_present_one_last)
{
	static const char head[] = "rank,x_mm,y_mm,turn,slivers,slabs,cut,smallest_mm,balance_mm,"
	                           "present\r\n1,";
	const char *last;

	import_plan("{\"x\":137,\"y\":61}", SLAB);
	RUN(&o, "startlines", "Ann/Yard/A", "--as", "csv");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_int_eq(strncmp(o.out, head, strlen(head)), 0);
	last = strstr(o.out, "\r\n,137,61,0,11,");
	ck_assert_ptr_nonnull(last);
	ck_assert_str_eq(last + strlen(last) - 10, ",610,yes\r\n");
}
END_TEST

START_TEST(text_says_how_sure_it_is)
{
	import_plan("{\"x\":0,\"y\":0}", SLAB);
	RUN(&o, "startlines", "Ann/Yard/A");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "Exact: no start comes before the first.\n"));
	ck_assert_ptr_nonnull(
	        strstr(o.out, "  1, the present one: start x 0 mm, y 0 mm: slivers 0, slabs"));
}
END_TEST

START_TEST(nothing_cut_has_no_smallest_piece)
{
	import_plan("{\"x\":0,\"y\":0}", "\"length\":610,\"width\":300");
	RUN(&o, "startlines", "Ann/Yard/A", "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	assert_member("$.startlines[0].smallest_mm", "null");
	ck_assert_double_eq(json_number(o.out, "$.startlines[0].cut"), 0);
}
END_TEST

START_TEST(turned_bonds_are_ranked_where_that_is_asked_for)
{
	import_plan("{\"x\":0,\"y\":0}", SLAB);
	RUN(&o, "startlines", "Ann/Yard/A");
	ck_assert_ptr_null(strstr(o.out, "turned by 90 degrees"));
	program_done(&o);
	RUN(&o, "startlines", "--turned", "Ann/Yard/A");
	ck_assert_ptr_nonnull(strstr(o.out, "turned by 90 degrees"));
	program_done(&o);
	RUN(&o, "takeoff", "--turned", "Ann/Yard/A");
	assert_refused(&o, 2, "--turned goes with the command startlines");
}
END_TEST

START_TEST(a_plan_that_cannot_be_laid_ends_with_status_1)
{
	import_plan("{\"x\":0,\"y\":0}", "\"length\":500,\"width\":300");
	RUN(&o, "startlines", "Ann/Yard/A", "--as", "json");
	assert_refused(&o, 1, "Ann/Yard/A: herringbone wants");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("cli startlines");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, json_has_every_member);
	tcase_add_test(tc, csv_has_a_row_for_each_start_and_the_present_one_last);
	tcase_add_test(tc, text_says_how_sure_it_is);
	tcase_add_test(tc, nothing_cut_has_no_smallest_piece);
	tcase_add_test(tc, turned_bonds_are_ranked_where_that_is_asked_for);
	tcase_add_test(tc, a_plan_that_cannot_be_laid_ends_with_status_1);
	return suite_run("cli startlines", tc);
}
