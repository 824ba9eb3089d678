/* test_screen_slabs.c - the slabs in the sketch, dot by dot and at every zoom.
 *
 * A row stands for one cell of the plan, a column for half of one; the middle of the cursor's
 * column and row is where the cursor lies. A column has dots at a quarter and three quarters of its
 * width, and at an eighth, three, five and seven eighths of its height. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS = 40, COLS = 120, CANVAS_TOP = 3, CANVAS_LEFT = 5 };
enum { CUT = 0x2591, MADE_UP = 0x223c, CURSOR = 0x253c, SIDE = 0x258f, FOOT = 0x2581 };

static struct drive d;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, ROWS, COLS);
}

static void teardown(void)
{
	drive_end(&d);
}

/* Starts again with these options, at the stage left. */
static void start_with(const char *first, const char *second)
{
	drive_quit(&d);
	d.options[0] = first;
	d.options[1] = second;
	drive_start(&d, ROWS, COLS);
	drive_sees(&d, "[Laying]");
}

static uint32_t at(int row, int col)
{
	return term_cell(d.t, row, col).chars[0];
}

static bool is_dots(uint32_t ch)
{
	return ch > 0x2800 && ch <= 0x28ff;
}

/* The sketch's columns; the line between sketch and pane ends them. */
static int canvas_right(void)
{
	int col = CANVAS_LEFT;

	while (at(CANVAS_TOP, col) != 0x2506 && at(CANVAS_TOP, col) != '|' && col < COLS)
		col++;
	return col;
}

static int count(bool (*is)(uint32_t ch))
{
	int n = 0;

	for (int row = CANVAS_TOP; row < ROWS - 2; row++)
		for (int col = CANVAS_LEFT; col < canvas_right(); col++)
			n += is(at(row, col));
	return n;
}

static bool is_line(uint32_t ch)
{
	return ch == SIDE || ch == FOOT;
}

static bool is_cut(uint32_t ch)
{
	return ch == CUT;
}

static bool is_sliver(uint32_t ch)
{
	return ch == '!';
}

static bool is_made_up(uint32_t ch)
{
	return ch == MADE_UP;
}

static bool screen_has(const char *text)
{
	char *screen = term_screen(d.t);
	bool has = strstr(screen, text) != NULL;

	free(screen);
	return has;
}

/* Waits until the ruler has changed and the frame has come. */
static void wait_for_ruler(const char *was)
{
	for (int i = 0; i < 250; i++) {
		char *now = term_row(d.t, CANVAS_TOP - 1);
		bool same = strcmp(now, was) == 0;

		free(now);
		if (!same)
			break;
		term_drain(d.t, 10, 20);
	}
	term_drain(d.t, 30, 200);
}

/* Sends keys that zoom. */
static void zoom(const char *keys)
{
	char *was = term_row(d.t, CANVAS_TOP - 1);

	drive_keys(&d, keys);
	wait_for_ruler(was);
	free(was);
}

static void cells_of(const char *metres)
{
	char keys[40];

	snprintf(keys, sizeof keys, "z Delete %s Enter", metres);
	zoom(keys);
}

/* Stack bond of 600 x 300 from 0, 0 in cells of 0.40 m: dots are 100 mm apart. Where the cursor is
 * at 0, 0, gives its row and column. */
static void stack_in_dots(int *row, int *col)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	cells_of("0,4");
	drive_sees(&d, "Dotted lines are joints.");
	ck_assert(term_find(d.t, "\u253c", row, col));
}

static int slab_of(int mm, int pitch)
{
	return (mm + 100 * pitch) / pitch - 100;
}

/* The dots of a column whose middle lies at x, y mm: each at its own place, compared with the
 * places 100 mm to the left and below. */
static uint32_t predicted(int x, int y)
{
	static const struct {
		int dx, dy;
		unsigned bit;
	} dots[8] = { { -50, 150, 0x01 }, { -50, 50, 0x02 }, { -50, -50, 0x04 },
		{ -50, -150, 0x40 }, { 50, 150, 0x08 }, { 50, 50, 0x10 }, { 50, -50, 0x20 },
		{ 50, -150, 0x80 } };
	unsigned bits = 0;

	for (int i = 0; i < 8; i++) {
		int px = x + dots[i].dx, py = y + dots[i].dy;

		if (slab_of(px, 600) != slab_of(px - 100, 600) ||
		        slab_of(py, 300) != slab_of(py - 100, 300))
			bits |= dots[i].bit;
	}
	return bits ? 0x2800 + bits : ' ';
}

START_TEST(dots_stand_where_a_slab_differs_from_that_on_its_left_or_below)
{
	int row, col;

	stack_in_dots(&row, &col);
	for (int up = 1; up <= 6; up++)
		for (int right = 2; right <= 28; right++)
			ck_assert_msg(at(row - up, col + right) == predicted(right * 200, up * 400),
			        "U+%04X, not U+%04X, at %d, %d mm", at(row - up, col + right),
			        predicted(right * 200, up * 400), right * 200, up * 400);
}
END_TEST

/* By hand: the row at 0.80 m holds dots at 0.65, 0.75, 0.85 and 0.95 m. The lowest is the first
 * over 0.60, the highest the first over 0.90: all of those stand. Columns at 0.60, 1.20 ... have
 * their right dots first behind an upright joint: all four stand. */
START_TEST(a_row_of_dots_is_as_drawn_by_hand)
{
	static const uint32_t want[] = { 0x28f9, 0x28c9, 0x28c9, 0x28f9, 0x28c9, 0x28c9, 0x28f9 };
	int row, col;

	stack_in_dots(&row, &col);
	for (int i = 0; i < 7; i++)
		ck_assert_uint_eq(at(row - 2, col + 3 + i), want[i]);
}
END_TEST

/* Squares of 600 mm turned by 45 degrees have as much joint rising as falling. A joint that is one
 * dot thick has hardly a dot beside or over another. */
START_TEST(joints_of_a_turned_bond_are_equally_thin_both_ways)
{
	static bool dot[ROWS * 4][COLS * 2];
	static const unsigned bits[4][2] = { { 0x01, 0x08 }, { 0x02, 0x10 }, { 0x04, 0x20 },
		{ 0x40, 0x80 } };
	int dots = 0, beside = 0, rising = 0, falling = 0;

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab t 600_x_600 Enter");
	drive_stack_bond(&d);
	drive_keys(&d, "r 45 Enter");
	drive_figure(&d, "turned", "45");
	cells_of("0,15");
	memset(dot, 0, sizeof dot);
	for (int row = CANVAS_TOP; row < ROWS - 2; row++)
		for (int col = CANVAS_LEFT; col < canvas_right(); col++)
			for (int i = 0; is_dots(at(row, col)) && i < 8; i++)
				dot[row * 4 + i / 2][col * 2 + i % 2] =
				        at(row, col) & bits[i / 2][i % 2];
	for (int y = 1; y < ROWS * 4; y++) {
		for (int x = 1; x < COLS * 2 - 1; x++) {
			dots += dot[y][x];
			beside += dot[y][x] && (dot[y][x - 1] || dot[y - 1][x]);
			rising += dot[y][x] && dot[y - 1][x + 1];
			falling += dot[y][x] && dot[y - 1][x - 1];
		}
	}
	ck_assert_int_gt(dots, 300);
	ck_assert_int_lt(beside, dots / 5);
	ck_assert_int_lt(rising, falling + dots / 8);
	ck_assert_int_lt(falling, rising + dots / 8);
	ck_assert_int_eq(count(is_line), 0);
}
END_TEST

/* From 0.40, 0.07: pieces of 397 mm on the left; the lowest course is 67 mm, so slivers. They take
 * all of the column at 0.20 m and half of that at 0.40, which ends at 0.50; the next ones lie in
 * whole slabs. From 0.008: pieces of 5 mm on the left, made up. */
START_TEST(pieces_in_dots_are_told_apart_without_colour)
{
	int row, col;

	stack_in_dots(&row, &col);
	drive_keys(&d, "x 0,4_;_0,07 Enter");
	drive_figure(&d, "of them slivers", "11");
	start_with("--no-colour", NULL);
	cells_of("0,4");
	ck_assert(term_find(d.t, "\u253c", &row, &col));
	for (int up = 1; up <= 6; up++) {
		ck_assert_uint_eq(at(row - up, col + 1), CUT);
		ck_assert_uint_eq(at(row - up, col + 2), CUT);
		for (int right = 3; right <= 26; right++)
			ck_assert_msg(is_dots(at(row - up, col + right)) ||
			                      at(row - up, col + right) == ' ',
			        "U+%04X in a whole slab", at(row - up, col + right));
	}
	ck_assert_int_ge(count(is_sliver), 9); /* less those under the cursor or a corner */
	ck_assert_int_eq(count(is_made_up), 0);
	drive_sees(&d, "\u2591 cut  ! sliver  \u223c made up");
	for (int r = 0; r < ROWS; r++) {
		for (int c = 0; c < COLS; c++) {
			VTermScreenCell cell = term_cell(d.t, r, c);

			ck_assert(VTERM_COLOR_IS_DEFAULT_FG(&cell.fg));
		}
	}
	drive_keys(&d, "x 0,008_;_0 Enter");
	drive_figure(&d, "made up in joint", "10");
	term_drain(d.t, 50, 200);
	ck_assert_int_ge(count(is_made_up), 5); /* ten courses on eight rows, less corners */
	ck_assert_int_eq(count(is_sliver), 0);
}
END_TEST

/* In cells of 0.05 m a slab is 48 dots by 24: joints run on between cut pieces. */
START_TEST(joints_between_large_cut_pieces_are_drawn)
{
	int cut, dots = 0;

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	drive_keys(&d, "r 45 Enter");
	drive_figure(&d, "turned", "45");
	cells_of("0,05"); /* at the corner all pieces are cut */
	cut = count(is_cut);
	ck_assert_int_gt(cut, 30);
	for (int row = CANVAS_TOP + 1; row < ROWS - 2; row++)
		for (int col = CANVAS_LEFT + 1; col + 1 < canvas_right(); col++)
			dots += is_dots(at(row, col)) && at(row - 1, col) == CUT &&
			        at(row, col - 1) == CUT;
	ck_assert_int_gt(dots, 5);
}
END_TEST

START_TEST(plain_ascii_has_lines_or_says_from_where_on)
{
	int row, col;

	stack_in_dots(&row, &col);
	start_with("--ascii", "--no-colour");
	cells_of("0,4");
	drive_sees(&d, "Single slabs show in cells of 30 cm or less, now 40 cm: + zooms in.");
	for (int r = 0; r < ROWS; r++)
		for (int c = 0; c < COLS; c++)
			ck_assert_uint_lt(at(r, c), 0x80);
	ck_assert(!screen_has("Dotted"));
	zoom("+");
	drive_sees(&d, "|___|___|"); /* slabs of two cells by one */
	drive_misses(&d, "Single slabs show");
	drive_keys(&d, "r 45 Enter");
	drive_figure(&d, "turned", "45");
	drive_sees(&d, "/\\");
	drive_sees(&d, ": cut  ! sliver  ~ made up");
}
END_TEST

/* 300 mm are 3 dots in cells of 0.40 m, 2.4 in those of 0.50. */
START_TEST(what_is_said_of_a_zoom_too_far_is_true)
{
	int row, col;

	stack_in_dots(&row, &col);
	zoom("-");
	drive_sees(&d, "This far off only cut pieces show. Single slabs show in cells of 40 cm or "
	               "less, now 50 cm: + zooms in.");
	ck_assert_int_eq(count(is_dots), 0);
	ck_assert_int_eq(count(is_line), 0);
	drive_keys(&d, "Right"); /* the message goes, the pane still says so */
	drive_misses(&d, "This far off");
	drive_sees(&d, "Single slabs show in");
	cells_of("0,75");
	drive_sees(&d, "This far off only cut pieces show.");
	drive_sees(&d, "now 75 cm");
	zoom("+");
	zoom("+");
	drive_sees(&d, "Dotted lines are joints.");
	ck_assert_int_gt(count(is_dots), 50);
	drive_keys(&d, "t 20_x_20 Enter");
	cells_of("0,05");
	drive_sees(&d, "cells of 2 cm or less, now 5 cm");
	start_with("--ascii", NULL);
	cells_of("0,03");
	drive_sees(&d, "Slabs this small never show one by one.");
}
END_TEST

/* 21 cells of 0.30 m are 6.30 m: on an 80 x 24 screen the view keeps a cell free on each side, so
 * both plans are first seen in cells of 0.40 m. */
START_TEST(laying_comes_as_close_as_lines_when_all_is_seen_there_too)
{
	term_resize(d.t, 24, 80);
	drive_new_variant(&d);
	drive_keys(&d, "r 6,3_x_4 Enter Tab Tab");
	drive_sees(&d, "each slab shows; f shows the whole plan");
	term_drain(d.t, 50, 200);
	ck_assert(!screen_has("\u28c9"));
	drive_keys(&d, "S-Tab S-Tab n n x 6,4_;_4 Enter p x 6,4_;_0 Enter");
	drive_figure(&d, "area", "25.60");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "[Laying]");
	drive_sees(&d, "\u28c9"); /* both feet and heads of a row of slabs */
	ck_assert(!screen_has("each slab shows"));
}
END_TEST

/* What is true of the sketch at any zoom: joints in one way or none, and the pane says which. */
static void check_look(bool ascii, const char *where)
{
	int lines, dots;
	bool far, dotted;

	ck_assert(screen_has("[Laying]"));
	lines = count(is_line), dots = count(is_dots);
	far = screen_has("Single slabs show in");
	dotted = screen_has("Dotted lines are joints");
	ck_assert_msg(!ascii || (!lines && !dots && !dotted), "%s: not ASCII", where);
	ck_assert_msg(dotted == (dots > 0), "%s: %d columns with dots", where, dots);
	ck_assert_msg(ascii || (lines > 0) == (!far && !dotted), "%s: %d lines", where, lines);
	ck_assert_msg(screen_has("cut  ! sliver"), "%s: no legend", where);
}

/* From cells of 2 cm to those of 10 m. */
static void zoom_through(bool ascii, const char *bond)
{
	static const char *const cells[] = { "2 cm", "5", "10", "15", "20", "25", "30", "40", "50",
		"75", "1 m", "1.5", "2", "3", "5", "10" };
	char where[80];

	cells_of("0,02");
	for (int i = 0; i < 16; i++) {
		if (i)
			zoom("-");
		snprintf(where, sizeof where, "%s, cells of %s", bond, cells[i]);
		check_look(ascii, where);
	}
	drive_keys(&d, "-");
	drive_sees(&d, "A cell of 10 m is the largest.");
}

/* The cursor stands on a corner of slabs of every bond here but the random one. */
START_TEST(every_zoom_of_every_bond_shows_slabs_or_says_that_it_cannot)
{
	static const struct {
		const char *name, *keys, *say;
	} bonds[] = {
		{ "stretcher", "b PageUp Down Enter", "Bond: stretcher 1/2." },
		{ "herringbone", "b PageUp Down Down Down Enter", "Bond: herringbone." },
		{ "basket weave", "b PageUp Down Down Down Down Enter", "Bond: basket weave." },
		{ "mixed", "b f Small Enter Enter", "Bond: mixed." },
		{ "coursed random", "b f Patio Enter Enter", "Coursed random" },
	};

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	cells_of("0,5");
	drive_keys(&d, "S-Right Right Up Up Up e");
	drive_figure(&d, "start", "3.000");
	for (size_t i = 0; i < sizeof bonds / sizeof bonds[0]; i++) {
		drive_keys(&d, bonds[i].keys);
		drive_sees(&d, bonds[i].say);
		drive_keys(&d, i % 2 ? "r Delete 0 Enter" : "r Delete 45 Enter");
		zoom_through(false, bonds[i].name);
	}
	drive_keys(&d, "r Delete 0 Enter");
	zoom_through(false, "coursed random, not turned");
	start_with("--ascii", NULL);
	zoom_through(true, "coursed random");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("slabs");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, dots_stand_where_a_slab_differs_from_that_on_its_left_or_below);
	tcase_add_test(tc, a_row_of_dots_is_as_drawn_by_hand);
	tcase_add_test(tc, joints_of_a_turned_bond_are_equally_thin_both_ways);
	tcase_add_test(tc, pieces_in_dots_are_told_apart_without_colour);
	tcase_add_test(tc, joints_between_large_cut_pieces_are_drawn);
	tcase_add_test(tc, plain_ascii_has_lines_or_says_from_where_on);
	tcase_add_test(tc, what_is_said_of_a_zoom_too_far_is_true);
	tcase_add_test(tc, laying_comes_as_close_as_lines_when_all_is_seen_there_too);
	tcase_add_test(tc, every_zoom_of_every_bond_shows_slabs_or_says_that_it_cannot);
	return suite_run("screen slabs", tc);
}
