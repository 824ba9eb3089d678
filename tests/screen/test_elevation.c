/* test_elevation.c - walls and flights drawn from the side, read back cell by cell.
 *
 * Blocks of 390 x 190 x 190 with joints of 10: a course is 200 high, a block with its joint 400
 * long, and a wall of 1990 is 5 blocks, or 4 and 2 halves of 190. */
#include "../../src/planner/elevation.h"
#include "plans.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct arena mem;
static struct plan plan;
static struct plan_point points[4];
static struct plan_planter planter;
static struct planters_result walls;
static struct plan_steps steps;
static struct steps_result flights;
static struct rules rules;
static struct cells cells;
static struct elevation_view view;

static void setup(void)
{
	plan_init(&plan);
	planter_init(&planter);
	planter.points = points;
	planter.block = (struct plan_block){ .name = "",
		.length_um = 390 * MM,
		.width_um = 190 * MM,
		.height_um = 190 * MM,
		.joint_um = 10 * MM,
		.price_minor = -1 };
	plan.planters = &planter;
	plan.planter_count = 1;
	steps_init(&steps);
	steps.has_top = true;
	steps.bottom_um = -540 * MM;
	steps.tread_fall_um_per_m = 0;
	plan.steps = &steps;
	plan.steps_count = 1;
	rules = (struct rules){ .name = "none" };
	view = (struct elevation_view){ 0 };
}

static void teardown(void)
{
	cells_free(&cells);
	cells = (struct cells){ 0 };
	arena_free(&mem);
}

static void run(int64_t length_mm)
{
	points[0] = (struct plan_point){ 0, 0 };
	points[1] = (struct plan_point){ length_mm * MM, 0 };
	planter.count = 2;
}

static struct area blank(int rows, int cols)
{
	ck_assert(cells_resize(&cells, rows, cols));
	cells.ascii = true;
	return cells_all(&cells);
}

static const struct planter_result *draw(int rows, int cols)
{
	struct area a = blank(rows, cols);

	ck_assert_int_eq(planters_work_out(&mem, &plan, &rules, &walls, NULL), STATUS_OK);
	ck_assert_msg(walls.items[0].ready, "%s", walls.items[0].fault.text);
	elevation_wall(&a, &walls.items[0], 0, 0, 0, &plan.surface, &view);
	return &walls.items[0];
}

static const struct flight *draw_flight(int rows, int cols)
{
	struct area a = blank(rows, cols);

	ck_assert_int_eq(steps_work_out(&mem, &plan, &rules, &flights, NULL), STATUS_OK);
	ck_assert_msg(!flights.flights[0].fault, "%s", flights.flights[0].fault);
	elevation_flight(&a, &flights.flights[0], 0, &view);
	return &flights.flights[0];
}

/* A row as text. */
static const char *row_text(int row)
{
	static char text[400];

	for (int i = 0; i < cells.cols; i++)
		text[i] = (char)cells.at[row * cells.cols + i].ch[0];
	text[cells.cols] = '\0';
	return text;
}

/* The first row that has the text; fails without one. */
static int row_of(const char *text)
{
	for (int row = 0; row < cells.rows; row++)
		if (strstr(row_text(row), text))
			return row;
	for (int row = 0; row < cells.rows; row++)
		fprintf(stderr, "%s\n", row_text(row));
	ck_abort_msg("no row has \"%s\"", text);
}

static int count_of(int row, char ch)
{
	int n = 0;

	for (const char *p = row_text(row); *p; p++)
		n += *p == ch;
	return n;
}

static int col_of(const char *text)
{
	const char *at = strstr(row_text(row_of(text)), text);

	return (int)(at - row_text(row_of(text)));
}

/* --- walls --- */

START_TEST(each_course_lies_at_its_level_with_its_joints)
{
	int row1, row2;

	run(1990);
	planter.weep_um = 0;
	planter.tie_um = 0;
	draw(20, 80);
	row1 = row_of("   1  ");
	row2 = row_of("   2  ");
	ck_assert_int_gt(row1, row2); /* the first one lies lowest */
	/* two ends and the joints: 5 units, or 4 wholes and two halves */
	ck_assert_int_eq(count_of(row1, '|') + count_of(row2, '|'), 6 + 7);
	ck_assert_int_lt(row1, row_of("+0.000")); /* undersides */
	ck_assert_int_gt(row1, row_of("+0.200"));
	ck_assert_int_lt(row_of("+0.390"), row2);
	row_of("leg 1 of 1: corner 1 to 2, 1.990 m, from outside");
	row_of("5 whole, none cut");
	row_of("4 whole, 2 half, none cut");
	row_of("No level of the paving is known yet.");
}
END_TEST

/* 2050 leaves 50 more than 5 blocks with 4 joints. */
START_TEST(cut_blocks_are_marked_with_their_length_to_scale)
{
	const struct planter_result *r;
	char words[40];
	int cols = 0;

	run(2050);
	r = draw(30, 200);
	ck_assert_int_gt(r->blocks.cut, 0);
	for (size_t i = 0; i < r->courses[0].unit_count; i++) {
		const struct planter_unit *u = &r->courses[0].units[i];
		int row, width;

		if (u->piece != UNIT_CUT)
			continue;
		snprintf(words, sizeof words, ":%.0f:", (double)u->length_um / 1000);
		row = row_of(words);
		width = count_of(row - 1, ':');
		ck_assert_int_gt(width, 0);
		cols++;
	}
	ck_assert_int_gt(cols, 0);
	/* 191 columns, of which all but two are the wall's */
	ck_assert_int_eq(col_of("'0.2") - col_of("'0 "), (int)lround(200 / (2050.0 / 189)));
}
END_TEST

START_TEST(ties_drainage_holes_and_the_profile_are_where_they_were_worked_out)
{
	const struct planter_result *r;
	int tied = 0;

	run(5590); /* 14 blocks */
	planter.cap_um = 2000 * MM;
	r = draw(24, 160);
	ck_assert_uint_gt(r->fill.weep_count, 0);
	ck_assert_int_eq(count_of(row_of("   1  "), 'o') +
	                         count_of(row_of("+0.000") - 1, 'o') *
	                                 (row_of("+0.000") - 1 != row_of("   1  ")),
	        (int)r->fill.weep_count);
	ck_assert_int_eq(count_of(row_of("+0.390") - 1, 'v'), (int)r->cap.fixing_count);
	tied = count_of(row_of("+0.390"), '#') + count_of(row_of("+0.200"), '#');
	ck_assert_int_eq(tied, (int)r->tie_count);
	row_of("# tie");
	row_of("v fixing");
}
END_TEST

/* The surface falls by 100 mm a metre along the wall, from 300 mm over its underside on: at 3 m it
 * meets that. */
START_TEST(the_paving_s_level_crosses_the_courses_as_it_falls)
{
	static struct plan_plane plane = { .level_um = 300 * MM, .fall_um_per_m = 100000 };
	int high, low;

	run(3990);
	plan.surface.planes = &plane;
	plan.surface.count = 1;
	planter.courses = 3;
	draw(40, 100);
	row_of("It stands 290 mm over the paving at its left end, 689 mm at its right.");
	for (high = 2; high < 40 && !count_of(high, '='); high++)
		;
	for (low = 36; low > high && !count_of(low, '='); low--)
		;
	ck_assert_int_eq(high, row_of("+0.200") - (row_of("+0.200") - row_of("+0.400")) / 2);
	ck_assert_int_ge(low, row_of("+0.000"));
}
END_TEST

START_TEST(a_wall_too_long_or_high_is_scrolled_and_never_drawn_outside)
{
	run(39990);
	planter.courses = 20;
	view.across = view.down = 100000;
	draw(20, 80);
	ck_assert_int_gt(view.most_across, 100);
	ck_assert_int_eq(view.across, view.most_across);
	ck_assert_int_eq(view.down, view.most_down);
	row_of("+0.000");
	ck_assert_int_eq(cells.at[(row_of("   1  ") + 1) * 80 - 1].ch[0], L'|'); /* its right end */
	row_of("there is more to the side, and up or down");
	view.across = view.down = -5;
	draw(20, 80);
	ck_assert_int_eq(view.across + view.down, 0);
	row_of("+3.990");
}
END_TEST

START_TEST(any_window_and_any_wall_can_be_drawn)
{
	static const int64_t lengths[] = { 390, 400, 1234, 39990, 900000 };

	for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
		for (int rows = 8; rows < 40; rows += 5) {
			run(lengths[i]);
			planter.courses = 1 + rows % 20;
			planter.leaves = 1 + rows % 2;
			draw(rows, 57 + rows * 4);
		}
	}
}
END_TEST

/* --- flights --- */

/* Column of the last upright line of a row: a nosing's face. */
static int last_upright(int row)
{
	const char *text = row_text(row), *at = strrchr(text, '|');

	ck_assert_ptr_nonnull(at);
	return (int)(at - text);
}

/* 540 down in units of 150 on beds of 30: three risers of 180 (common practice: a unit of 150 for a
 * rise of 180). */
START_TEST(a_flight_is_drawn_to_scale_with_risers_and_goings)
{
	const struct flight *f = draw_flight(36, 100);
	int top = row_of("+0.000"), second = row_of("-0.180"), third = row_of("-0.360"),
	    foot = row_of("-0.540"), said = 0, across;

	ck_assert_int_eq(f->risers, 3);
	row_of("rise 540 mm: 3 risers of 180.0, going 300");
	for (int row = 2; row < cells.rows; row++)
		said += strstr(row_text(row), " 180.0") != NULL;
	ck_assert_int_eq(said, 3); /* before each riser */
	across = last_upright(second + 1) - last_upright(top + 1);
	ck_assert_double_eq_tol(across / (2.0 * (second - top)), 300 / 180.0, 0.2); /* to scale */
	ck_assert_int_le(abs((second - top) - (third - second)), 1); /* equal risers */
	ck_assert_int_le(abs((foot - third) - (second - top)), 1);
	ck_assert_int_gt(count_of(foot, '='), 10); /* the ground */
	ck_assert_int_gt(count_of(top, '='), 1); /* the paving */
	ck_assert_int_eq(view.most_across + view.most_down, 0);
	row_of("300");
}
END_TEST

/* A rise of 500 in three risers: 166.7; a unit of 200 on 30 of bed stands too high, so the bottom
 * one sinks by what is over it. */
START_TEST(what_sinks_is_told)
{
	const struct flight *f;
	char words[40];

	steps.bottom_um = -160 * MM;
	steps.risers = 1;
	steps.unit_height_um = 200 * MM;
	f = draw_flight(36, 100);
	ck_assert_int_eq(f->rows[0].sunk_um, 40 * MM);
	snprintf(words, sizeof words, "sinks %.1f mm", 40.0);
	row_of(words);
}
END_TEST

START_TEST(a_built_flight_and_a_long_one_can_be_drawn)
{
	for (int rows = 8; rows < 40; rows += 5) {
		for (int n = 1; n < 100; n += 14) {
			steps.build = n % 2 ? STEPS_BUILT : STEPS_UNITS;
			steps.unit_depth_um = (n % 2 ? 60 : 350) * MM;
			steps.tread_um = (n % 2 ? 40 : 0) * MM;
			steps.risers = n;
			steps.bottom_um = -n * 180 * MM;
			view.across = n;
			view.down = 2 * n;
			draw_flight(rows, 57 + n);
		}
	}
	ck_assert_int_gt(view.most_across, 100); /* a going takes eight columns */
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("elevation");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, each_course_lies_at_its_level_with_its_joints);
	tcase_add_test(tc, cut_blocks_are_marked_with_their_length_to_scale);
	tcase_add_test(tc, ties_drainage_holes_and_the_profile_are_where_they_were_worked_out);
	tcase_add_test(tc, the_paving_s_level_crosses_the_courses_as_it_falls);
	tcase_add_test(tc, a_wall_too_long_or_high_is_scrolled_and_never_drawn_outside);
	tcase_add_test(tc, any_window_and_any_wall_can_be_drawn);
	tcase_add_test(tc, a_flight_is_drawn_to_scale_with_risers_and_goings);
	tcase_add_test(tc, what_sinks_is_told);
	tcase_add_test(tc, a_built_flight_and_a_long_one_can_be_drawn);
	return suite_run("elevation", tc);
}
