/* The sheets of edging and steps, their part of the take-off, and the commands that print them. */
#include "json_read.h"
#include "program.h"
#include "sheets.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct worked w;
static struct plan_steps flights[2];
static struct rule lift = { "lift_one_person", 25000, "kg", "a test's own limit" };

/* The patio with kerbs that have a section, and two flights, of which the second has no rise. */
static void setup(void)
{
	struct plan_edging *kerb;

	worked_patio(&w);
	kerb = &w.plan.edging[EDGE_KERB];
	kerb->depth_um = 50 * MM;
	kerb->height_um = 200 * MM;
	kerb->top_um = -20 * MM;
	kerb->strip_um = 100 * MM;
	kerb->strip_beyond_um = 100 * MM;
	kerb->haunch_um = 100 * MM;
	kerb->held_um = 60 * MM; /* under a third */
	kerb->cement_kg_m3 = 150;
	kerb->density_kg_m3 = 2400;
	for (int i = 0; i < 2; i++) {
		steps_init(&flights[i]);
		flights[i].has_top = true;
		flights[i].unit_length_um = 1000 * MM;
		flights[i].unit_density_kg_m3 = 2400;
		flights[i].unit_price_minor = 4500;
		flights[i].tread_fall_um_per_m = 0;
	}
	flights[0].name = "=to the garden";
	flights[0].top_um = 540 * MM;
	w.plan.steps = flights;
	w.plan.steps_count = 2;
	w.rules.items = &lift;
	w.rules.count = 1;
	work_out_plan(&w);
}

static void teardown(void)
{
	worked_done(&w);
}

static void assert_says(const char *text, const char *words)
{
	ck_assert_msg(strstr(text, words) != NULL, "\"%s\" is not in:\n%s", words, text);
}

START_TEST(the_texts_say_what_a_crew_needs)
{
	char *text = sheet_unfolded(&w, sheet_steps);

	assert_says(text, "Flight 1, =to the garden");
	assert_says(text, "risers: 3 of 180.0 mm, chosen");
	assert_says(text, "units: 5 to buy (0 laid whole, 6 cut pieces; least possible)");
	assert_says(text, "over the 25 kg for one person (a test's own limit)");
	assert_says(text, "126.0 kg");
	assert_says(text, "Flight 2");
	assert_says(text, "cannot be worked out: Steps with no rise");
	assert_says(text, "Local codes and licensed practice come before");
	free(text);
	text = sheet_unfolded(&w, sheet_edging);
	assert_says(text, "top: 20 mm under the finished surface");
	assert_says(text, "held: 60 mm; a third of its height is 66.667 mm (common practice)");
	assert_says(text, "10.8 kg of cement, 1 bag of 25 kg");
	assert_says(text, "string along edge 2, 4.000 m: top from -20.0 mm (staff 1365.0 mm)");
	assert_says(text, "A green haunch takes no load");
	free(text);
}
END_TEST

START_TEST(the_take_off_tells_them_in_short)
{
	char *text = sheet_unfolded(&w, sheet_takeoff);

	assert_says(text, "Beds and haunches of the edging");
	assert_says(text, "Flight 1, =to the garden: 3 risers of 180.0 mm, going 300 mm");
	assert_says(text, "Flight 2: cannot be worked out.");
	assert_says(text, "Lifting: one step unit weighs 126.0 kg");
	assert_says(text, "a lifting aid or plant.");
	assert_says(text, "A green haunch takes no load: no plate and no wheel");
	ck_assert_ptr_null(strstr(text, "one kerb unit")); /* 22 kg */
	free(text);
}
END_TEST

START_TEST(json_holds_flights_and_kerbs)
{
	char *json = sheet_written(&w, sheet_steps, SHEET_JSON), *fault;

	ck_assert(json_is_valid(json));
	ck_assert_int_eq(json_length(json, "$.steps"), 2);
	ck_assert_double_eq(json_number(json, "$.steps[0].rise"), 540);
	ck_assert_double_eq(json_number(json, "$.steps[0].risers"), 3);
	ck_assert_double_eq(json_number(json, "$.steps[0].two_r_plus_g"), 660);
	ck_assert_int_eq(json_length(json, "$.steps[0].rows"), 3);
	ck_assert_double_eq(json_number(json, "$.steps[0].rows[1].nosing"), 360);
	ck_assert_double_eq(json_number(json, "$.steps[0].rows[1].bed"), 30);
	ck_assert_double_eq(json_number(json, "$.steps[0].units.units"), 5);
	ck_assert_int_eq(json_length(json, "$.steps[0].pieces"), 6);
	ck_assert_int_eq(json_length(json, "$.steps[0].pieces[0].ring"), 4);
	ck_assert_double_eq(json_number(json, "$.steps[0].unit.kg"), 126);
	ck_assert_double_eq(json_number(json, "$.steps[0].price_minor"), 5 * 4500);
	fault = json_string(json, "$.steps[1].fault");
	assert_says(fault, "Steps with no rise");
	free(fault);
	free(json);
	json = sheet_written(&w, sheet_edging, SHEET_JSON);
	ck_assert(json_is_valid(json));
	ck_assert_int_eq(json_length(json, "$.edging"), 1);
	/* 4 m of 0.15 x 0.1 and of 0.1 x 0.06 / 2 */
	ck_assert_double_eq(json_number(json, "$.edging[0].strip_m3"), 0.06);
	ck_assert_double_eq(json_number(json, "$.edging[0].haunch_m3"), 0.012);
	ck_assert_double_eq(json_number(json, "$.edging[0].bed.cement_kg"), 10.8);
	ck_assert_double_eq(json_number(json, "$.edging[0].bed.bags"), 1);
	ck_assert_double_eq(json_number(json, "$.edging[0].section.trench"), -320);
	ck_assert_double_eq(json_number(json, "$.edging[0].strings[0].fall"), 15);
	ck_assert_double_eq(json_number(json, "$.edging[0].strings[0].staff_to"), 1425);
	ck_assert_int_eq(json_length(json, "$.edging_beds"), 1);
	free(json);
	json = sheet_written(&w, sheet_takeoff, SHEET_JSON);
	ck_assert(json_is_valid(json));
	ck_assert_double_eq(json_number(json, "$.steps[0].risers"), 3);
	ck_assert_double_eq(json_number(json, "$.edging[0].strip_m3"), 0.06);
	ck_assert_double_eq(json_number(json, "$.edges[1].outer_corners"), 0);
	free(json);
}
END_TEST

START_TEST(csv_is_well_formed)
{
	int width;
	char *csv = sheet_written(&w, sheet_steps, SHEET_CSV);

	ck_assert_int_gt(csv_rows(csv, &width), 40);
	ck_assert_int_eq(width, 5);
	assert_says(csv, "1,,name,\"'=to the garden\",\r\n");
	assert_says(csv, "1,row 2,nosing,360,mm\r\n");
	free(csv);
	csv = sheet_written(&w, sheet_edging, SHEET_CSV);
	ck_assert_int_gt(csv_rows(csv, &width), 20);
	ck_assert_int_eq(width, 6);
	assert_says(csv, "kerb,string,2,top to,-80,mm\r\n");
	free(csv);
}
END_TEST

START_TEST(a_kerb_with_a_fault_says_so_in_every_form)
{
	static const enum sheet_form forms[] = { SHEET_CSV, SHEET_JSON };
	char *text;

	w.plan.edging[EDGE_KERB].held_um = 201 * MM;
	work_out_plan(&w);
	text = sheet_unfolded(&w, sheet_edging);
	assert_says(text, "200 mm high, less than the 201 mm that the haunch holds");
	free(text);
	for (int i = 0; i < 2; i++) {
		text = sheet_written(&w, sheet_edging, forms[i]);
		assert_says(text, "200 mm high, less than the 201 mm that the haunch holds");
		free(text);
	}
	text = sheet_unfolded(&w, sheet_takeoff);
	assert_says(text, "that the haunch holds");
	free(text);
}
END_TEST

START_TEST(the_commands_print_them)
{
	struct output o = { 0 };

	program_folder();
	program_import_yard(&o);
	program_done(&o);
	RUN(&o, "steps", "Ann/Yard/A");
	ck_assert_int_eq(o.status, 0);
	assert_says(o.out, "The plan has no steps.");
	program_done(&o);
	RUN(&o, "edging", "Ann/Yard/A");
	ck_assert_int_eq(o.status, 0);
	assert_says(o.out, "Edging of variant \"A\"");
	program_done(&o);
	RUN(&o, "steps", "Ann/Yard/A", "--as", "json");
	ck_assert_int_eq(json_length(o.out, "$.steps"), 0);
	program_done(&o);
	RUN(&o, "edging", "Ann/Yard/A", "--as", "csv");
	assert_says(o.out, "kind,record,edge,figure,value,unit\r\n");
	program_done(&o);
	RUN(&o, "steps");
	assert_refused(&o, 2, "steps needs PATH");
	program_folder_remove();
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("build");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_texts_say_what_a_crew_needs);
	tcase_add_test(tc, the_take_off_tells_them_in_short);
	tcase_add_test(tc, json_holds_flights_and_kerbs);
	tcase_add_test(tc, csv_is_well_formed);
	tcase_add_test(tc, a_kerb_with_a_fault_says_so_in_every_form);
	tcase_add_test(tc, the_commands_print_them);
	return suite_run("sheets of edging and steps", tc);
}
