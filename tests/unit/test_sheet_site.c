/* Levelling book, setting out and as-built check as text, CSV and JSON. */
#include "slabwright/sheet.h"

#include "json_read.h"
#include "plans.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM
#define NO NO_READING

static struct worked w;
static char *text;
static size_t size;
static FILE *to;

static struct plan_reading readings[] = {
	{ .name = "=BM", .backsight_um = 1500 * MM, .intermediate_um = NO, .foresight_um = NO },
	{ .name = "a",
	        .backsight_um = NO,
	        .intermediate_um = 1200 * MM,
	        .foresight_um = NO,
	        .has_place = true,
	        .x_um = 7000,
	        .y_um = 8000 },
	{ .name = "cp",
	        .backsight_um = 1100 * MM,
	        .intermediate_um = NO,
	        .foresight_um = 900 * MM },
	{ .name = "end\x1b[2J",
	        .backsight_um = NO,
	        .intermediate_um = NO,
	        .foresight_um = 1400 * MM },
};

static struct rule limits[] = { { "level_tolerance", 6000, "mm", "a test's own" },
	{ "flatness_2m", 3000, "mm", "a test's own" },
	{ "puddle_depth", 5000, "mm", "a test's own" },
	{ "puddle_area", 1000, "m2", "a test's own" } };

static struct plan_measured measured[] = {
	{ .name = "a", .has_level = true, .has_place = true, .at_x_um = 3000, .at_y_um = 4000 },
	{ .name = "b", .x_um = 1 * M, .has_level = true, .level_um = 7500 },
	{ .name = "c", .x_um = 2 * M, .has_level = true },
};

static void setup(void)
{
	worked_rectangle(&w, 4 * M, 3 * M);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 10000);
	w.plan.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	w.plan.rings[0].nodes[2].rise_um = 250 * MM;
	w.plan.site.book =
	        (struct plan_book){ readings, 4, 100000 * MM, true, 100290 * MM, 5 * MM, true };
	w.plan.site.measured = measured;
	w.plan.site.measured_count = 3;
	w.rules = (struct rules){ .name = "test", .items = limits, .count = 4 };
	to = open_memstream(&text, &size);
	ck_assert_ptr_nonnull(to);
}

static void teardown(void)
{
	free(text);
	text = NULL;
	worked_done(&w);
}

static void print_book(enum sheet_form form)
{
	struct book_result b;

	ck_assert_int_eq(book_reduce(&w.mem, &w.plan.site.book, &b, NULL), STATUS_OK);
	ck_assert_int_eq(sheet_book(to, &w.plan, &b, form, NULL), STATUS_OK);
	fclose(to);
}

static void print_setout(enum sheet_form form)
{
	struct setout s;

	ck_assert_int_eq(setout_work_out(&w.mem, &w.plan, &s, NULL), STATUS_OK);
	ck_assert_int_eq(sheet_setout(to, &w.plan, &s, form, NULL), STATUS_OK);
	fclose(to);
}

static void print_asbuilt(enum sheet_form form)
{
	struct asbuilt_surface surface;
	struct asbuilt a;

	ck_assert_int_eq(asbuilt_surface_init(&w.mem, &w.plan, &surface, NULL), STATUS_OK);
	ck_assert_int_eq(
	        asbuilt_check(&w.mem, &w.plan, &w.rules, asbuilt_surface_level, &surface, &a, NULL),
	        STATUS_OK);
	ck_assert_int_eq(sheet_asbuilt(to, &w.plan, &a, form, NULL), STATUS_OK);
	fclose(to);
}

/* Lines that were folded are put together first. */
static void assert_said(const char *const said[], size_t count)
{
	char *whole = strdup(text), *end = whole;

	for (const char *from = text; *from;) {
		bool fold = strncmp(from, "\n    ", 5) == 0;

		*end++ = fold ? ' ' : *from;
		from += fold ? 5 : 1;
	}
	*end = '\0';
	for (size_t i = 0; i < count; i++)
		ck_assert_msg(
		        strstr(whole, said[i]) != NULL, "\"%s\" is not said in\n%s", said[i], text);
	free(whole);
}

#define SAID(...)                                                                                  \
	assert_said((const char *const[]){ __VA_ARGS__ },                                          \
	        sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(char *))

static void assert_text(const char *path, const char *value)
{
	char *is = json_string(text, path);

	ck_assert_ptr_nonnull(is);
	ck_assert_str_eq(is, value);
	free(is);
}

START_TEST(the_book_says_levels_sums_and_misclosure)
{
	print_book(SHEET_TEXT);
	SAID("no.   back  inter   fore  height   rise reduced  corr   level  point",
	        "  1  1.500               101.500        100.000       100.000  =BM",
	        "  2         1.200                 0.300 100.300    -5 100.295  a",
	        "  3  1.100         0.900 101.700  0.300 100.600    -5 100.595  cp",
	        "backsights less foresights: 2.600 - 2.300 = 0.300 m",
	        "rises less falls: 0.600 - 0.300 = 0.300 m",
	        "last less first level: 100.300 - 100.000 = 0.300 m", "sums: agree",
	        "misclosure: 10 mm; allowed 7.1 mm, so it is over",
	        "Warning: the book does not close", "taken off evenly");
	ck_assert_ptr_null(strchr(text, '\x1b'));
}
END_TEST

START_TEST(a_book_within_its_allowance_or_without_close_says_so)
{
	w.plan.site.book.allow_um = 8 * MM;
	print_book(SHEET_TEXT);
	SAID("so it is within");
	ck_assert_ptr_null(strstr(text, "Warning"));
	teardown();
	setup();
	w.plan.site.book.has_close = false;
	print_book(SHEET_TEXT);
	SAID("does not end on a point of known level");
}
END_TEST

START_TEST(the_book_in_csv_has_a_row_a_line)
{
	print_book(SHEET_CSV);
	SAID("line,name,backsight_mm,intermediate_mm,foresight_mm,height_mm,rise_mm,fall_mm,"
	     "reduced_mm,correction_mm,level_mm,x_mm,y_mm\r\n",
	        "1,\"'=BM\",1500,,,101500,,,100000,0,100000,,\r\n",
	        "2,a,,1200,,,300,,100300,-5,100295,7,8\r\n",
	        "3,cp,1100,,900,101700,300,,100600,-5,100595,,\r\n", ",,,1400,,,300,100300,-10,");
}
END_TEST

START_TEST(the_book_in_json_has_every_figure)
{
	print_book(SHEET_JSON);
	ck_assert(json_is_valid(text));
	ck_assert_int_eq(json_length(text, "$.lines"), 4);
	ck_assert_double_eq(json_number(text, "$.lines[2].height"), 101700);
	ck_assert_double_eq(json_number(text, "$.lines[3].rise"), -300);
	ck_assert_double_eq(json_number(text, "$.lines[3].level"), 100290);
	ck_assert_double_eq(json_number(text, "$.misclosure"), 10);
	assert_text("$.within", "0");
	ck_assert_double_eq(json_number(text, "$.sums.falls"), 300);
	ck_assert_double_eq(json_number(text, "$.set_ups"), 2);
}
END_TEST

START_TEST(setting_out_says_points_diagonals_and_proofs)
{
	print_setout(SHEET_TEXT);
	SAID("baseline: edge 1 (house wall), 4.000 m long",
	        "corner 3: along 4.000 m, left 3.000 m; tapes 5.000 m and 3.000 m",
	        "corner 1: along 0.000 m, on the line", "  4.000 m  corner 2",
	        "corner 2 to corner 4: 5.000 m\n", "corner 1 to corner 3: 5.000 m, a check",
	        "corner 1: 3.000 m toward corner 4, 4.000 m toward corner 2, 5.000 m across",
	        "edge 3: chord 4.000 m, rise 0.250 m outward, radius 8.125 m",
	        "at 2.000 m 0.250 m,", "buried services");
	ck_assert_ptr_null(strstr(text, "out of square over")); /* one corner stands at an arc */
}
END_TEST

START_TEST(a_rectangle_is_told_what_its_diagonals_mean)
{
	w.plan.rings[0].nodes[2].rise_um = 0;
	print_setout(SHEET_TEXT);
	/* 10 mm x 5 / (2 x 4 x 3) x 3 m. */
	SAID("differ by 10 mm mean 6.2 mm out of square over 3.000 m");
}
END_TEST

START_TEST(setting_out_in_csv_has_a_row_each)
{
	print_setout(SHEET_CSV);
	SAID("what,name,x_mm,y_mm,along_mm,offset_mm,first_mm,second_mm,length_mm\r\n",
	        "baseline second,edge 1 (house wall),4000,0,4000,0,4000,0,4000\r\n",
	        "point,corner 3,4000,3000,4000,3000,5000,3000,\r\n",
	        "diagonal,corner 2 to corner 4,,,,,,,5000\r\n",
	        "3-4-5,corner 1,,,,,3000,4000,5000\r\n", "arc,edge 3,,,2000,250,,,\r\n");
}
END_TEST

START_TEST(setting_out_in_json_has_every_figure)
{
	print_setout(SHEET_JSON);
	ck_assert(json_is_valid(text));
	ck_assert_double_eq(json_number(text, "$.baseline.length"), 4000);
	ck_assert_double_eq(json_number(text, "$.points[2].tape_first"), 5000);
	ck_assert_double_eq(json_number(text, "$.running[3]"), 2);
	ck_assert_int_eq(json_length(text, "$.diagonals"), 2);
	assert_text("$.diagonals[1].check", "1");
	ck_assert_double_eq(json_number(text, "$.triples[0].after"), 4000);
	ck_assert_double_eq(json_number(text, "$.arcs[0].offsets[3][1]"), 250);
}
END_TEST

START_TEST(the_check_says_what_fails_and_by_how_much)
{
	print_asbuilt(SHEET_TEXT);
	SAID("levels: 6 mm either way (a test's own)", "places: the rule set names no tolerance",
	        "a: level 0 mm, planned 0 mm, 0 mm too high; 5 mm off its place",
	        "b: level 7.5 mm, planned 0 mm, 7.5 mm too high - FAILS by 1.5 mm",
	        "b, 2 m straightedge from a to c: 7.5 mm hump - FAILS by 4.5 mm",
	        "allowed: 5 mm deep (a test's own)", "area: 1 m2 at most",
	        "The measured levels leave none",
	        "out of tolerance: 1 levels, 0 places, 1 under a straightedge, 0 puddles",
	        "local codes");
}
END_TEST

START_TEST(the_check_without_a_surface_compares_places_only)
{
	struct asbuilt a;

	w.plan.surface.count = 0;
	ck_assert_int_eq(asbuilt_check(&w.mem, &w.plan, &w.rules, NULL, NULL, &a, NULL), STATUS_OK);
	ck_assert_int_eq(sheet_asbuilt(to, &w.plan, &a, SHEET_TEXT, NULL), STATUS_OK);
	fclose(to);
	SAID("No fall is set", "a: 5 mm off its place", "Nothing measured is out of a tolerance");
}
END_TEST

START_TEST(the_check_in_csv_has_a_row_a_result)
{
	print_asbuilt(SHEET_CSV);
	SAID("what,name,from,to,off_mm,allowed_mm,over_mm\r\n", "level,b,,,7.5,6,1.5\r\n",
	        "place,a,,,5,,0\r\n", "flatness 2 m,b,a,c,7.5,3,4.5\r\n");
}
END_TEST

START_TEST(the_check_in_json_has_every_figure)
{
	print_asbuilt(SHEET_JSON);
	ck_assert(json_is_valid(text));
	assert_text("$.passes", "0");
	ck_assert_double_eq(json_number(text, "$.tolerances.level.value"), 6);
	ck_assert_double_eq(json_number(text, "$.points[1].level_off"), 7.5);
	ck_assert_double_eq(json_number(text, "$.points[1].level_over"), 1.5);
	ck_assert_double_eq(json_number(text, "$.points[0].place_off"), 5);
	ck_assert_double_eq(json_number(text, "$.flatness[0].gap"), 7.5);
	ck_assert_double_eq(json_number(text, "$.flatness[0].straightedge"), 2000);
	ck_assert_int_eq(json_length(text, "$.puddles"), 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("site sheets");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, the_book_says_levels_sums_and_misclosure);
	tcase_add_test(tc, a_book_within_its_allowance_or_without_close_says_so);
	tcase_add_test(tc, the_book_in_csv_has_a_row_a_line);
	tcase_add_test(tc, the_book_in_json_has_every_figure);
	tcase_add_test(tc, setting_out_says_points_diagonals_and_proofs);
	tcase_add_test(tc, a_rectangle_is_told_what_its_diagonals_mean);
	tcase_add_test(tc, setting_out_in_csv_has_a_row_each);
	tcase_add_test(tc, setting_out_in_json_has_every_figure);
	tcase_add_test(tc, the_check_says_what_fails_and_by_how_much);
	tcase_add_test(tc, the_check_without_a_surface_compares_places_only);
	tcase_add_test(tc, the_check_in_csv_has_a_row_a_result);
	tcase_add_test(tc, the_check_in_json_has_every_figure);
	return suite_run("site sheets", tc);
}
