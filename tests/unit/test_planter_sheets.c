/* Planters in the take-off and on the sheets. */
#include "json_read.h"
#include "one_planter.h"
#include "slabwright/sheet.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* --- take-off and sheets --- */

static void write_sheet(const struct takeoff *t, enum sheet_form form, char **text)
{
	size_t size;
	FILE *to = open_memstream(text, &size);

	ck_assert_int_eq(sheet_planters(to, t, form, NULL), STATUS_OK);
	fclose(to);
}

static struct takeoff two_planters(void)
{
	static const struct rules none = { .name = "none" };
	static struct plan_planter both[2];
	static struct plan_point thin[] = { { 0, 0 }, { 3000000, 0 }, { 3000000, 300000 },
		{ 0, 300000 } };
	struct takeoff t;

	BOX_OF(0, 0, 2390, 0, 2390, 1590, 0, 1590);
	one.planter.name = "Herbs";
	one.planter.cap_um = 2500 * MM;
	both[0] = both[1] = one.planter;
	both[1].name = "";
	both[1].points = thin;
	one.plan.planters = both;
	one.plan.planter_count = 2;
	ck_assert_int_eq(takeoff_plan(&one.mem, &one.plan, &none, &t, NULL), STATUS_OK);
	return t;
}

/* There is no outline, and the second planter is too thin. */
START_TEST(a_planter_breaks_nothing_and_needs_no_outline)
{
	struct takeoff t = two_planters();

	ck_assert(!t.ready);
	ck_assert_ptr_null(strstr(t.fault.text, "planter"));
	ck_assert_uint_eq(t.planters.count, 2);
	ck_assert(t.planters.items[0].ready);
	ck_assert(!t.planters.items[1].ready);
}
END_TEST

START_TEST(the_text_draws_and_lists_and_warns)
{
	struct takeoff t = two_planters();
	char *text;

	write_sheet(&t, SHEET_TEXT, &text);
	ck_assert_ptr_nonnull(strstr(text, "Planter 1: Herbs\n"));
	ck_assert_ptr_nonnull(strstr(text, "  laid: 28 whole, 8 corner, 0 half, 0 cut\n"));
	ck_assert_ptr_nonnull(
	        strstr(text, "Leg 1, corner 1 to corner 2, 2390 mm outside\n    2 |"));
	ck_assert_ptr_nonnull(strstr(text, "no\n    design."));
	ck_assert_ptr_nonnull(strstr(text, "Planter 2\n  It cannot be built: planter 2: the leg"));
	free(text);
}
END_TEST

/* Inside the box of 2390, course 1 goes on at one end and stops at the other. */
START_TEST(json_holds_every_unit)
{
	struct takeoff t = two_planters();
	char *text, *fault;

	write_sheet(&t, SHEET_JSON, &text);
	ck_assert(json_is_valid(text));
	ck_assert_int_eq(json_length(text, "$.planters"), 2);
	ck_assert_int_eq(json_length(text, "$.planters[0].patterns[0].units"), 18);
	ck_assert_int_eq(json_length(text, "$.planters[0].patterns[1].units[17].ring"), 4);
	ck_assert_double_eq(json_number(text, "$.planters[0].blocks.buy_whole"), 36);
	ck_assert_double_eq(json_number(text, "$.planters[0].least_lap"), 200);
	ck_assert_double_eq(json_number(text, "$.planters[0].cap.units"), 4);
	fault = json_string(text, "$.planters[0].held_soil.caution");
	ck_assert_str_eq(fault, WALL_CAUTION);
	free(fault);
	fault = json_string(text, "$.planters[1].fault");
	ck_assert_ptr_nonnull(strstr(fault, "planter 2: the leg"));
	free(fault);
	free(text);
}
END_TEST

static int count_of(const char *text, const char *what)
{
	int n = 0;

	for (const char *at = text; (at = strstr(at, what)); at++)
		n++;
	return n;
}

START_TEST(csv_has_a_row_for_every_unit)
{
	struct takeoff t = two_planters();
	char *text;

	write_sheet(&t, SHEET_CSV, &text);
	ck_assert_int_eq(count_of(text, "\r\n1,unit,"), 36);
	ck_assert_int_eq(
	        count_of(text, "\r\n1,tie,"), (int)(t.planters.items[0].courses[0].tie_count +
	                                              t.planters.items[0].courses[1].tie_count));
	ck_assert_int_eq(count_of(text, "\r\n1,caution,"), 1);
	ck_assert_int_eq(count_of(text, "\r\n2,fault,"), 1);
	free(text);
}
END_TEST

static void add_caution(void *all, const char *text)
{
	strncat(all, text, 3999 - strlen(all));
	strncat(all, "\n", 3999 - strlen(all));
}

START_TEST(cautions_tell_of_the_wall)
{
	struct takeoff t = two_planters();
	char all[4000] = "";

	sheet_cautions(&t, add_caution, all);
	ck_assert_ptr_nonnull(strstr(all, "planter 1 (Herbs)"));
	ck_assert_ptr_nonnull(strstr(all, WALL_CAUTION));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planter sheets");

	tcase_add_checked_fixture(tc, one_setup, one_teardown);
	tcase_add_test(tc, a_planter_breaks_nothing_and_needs_no_outline);
	tcase_add_test(tc, the_text_draws_and_lists_and_warns);
	tcase_add_test(tc, json_holds_every_unit);
	tcase_add_test(tc, csv_has_a_row_for_every_unit);
	tcase_add_test(tc, cautions_tell_of_the_wall);
	return suite_run("planter sheets", tc);
}
