/* test_screen.c - the planner, by keys only, as its user meets it.
 *
 * The courtyard of these tests, worked out by hand: 6.20 m x 3.00 m less an opening of 0.60 m x
 * 0.60 m whose corner lies at 1.20, 0.60. Area 18.60 - 0.36 = 18.24 m2, perimeter 2 x (6.20 + 3.00)
 * = 18.40 m, round the opening 2.40 m. Slabs 600 x 300 (joint inside), stack bond from 0, 0: 10
 * courses of 10 whole slabs and a piece of 200 mm; the opening takes one slab out of two courses:
 * 100 - 2 = 98 whole, 10 cut. A piece of 200 mm needs its left edge (or, turned by 180 degrees, its
 * right one), top and bottom finished: 200 + 3 + 200 <= 597, so two come from one slab: 5 slabs.
 *   Needed 98 + 5 = 103; 2 % of it is 2.06, so 3 for breakage: 106 to order.
 *   Rule of thumb: 18.24 / 0.18 x 1.05 = 106.4, so 107. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct drive d;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, 24, 80);
}

static void teardown(void)
{
	drive_end(&d);
}

START_TEST(a_courtyard_drawn_by_the_tape_gives_the_figures_worked_out_by_hand)
{
	drive_courtyard(&d);
	drive_opening(&d);
	drive_figure(&d, "area", "18.24");
	drive_figure(&d, "perimeter", "18.400");
	drive_figure(&d, "openings' edges", "2.400");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "[Laying]");
	drive_stack_bond(&d);
	drive_figure(&d, "whole", "98");
	drive_figure(&d, "cut", "10");
	drive_figure(&d, "of them slivers", "0");
	drive_figure(&d, "slabs for the cuts", "5");
	drive_figure(&d, "to order", "106");
	drive_keys(&d, "@Order");
	drive_figure(&d, "needed", "103");
	drive_figure(&d, "breakage allowance", "3");
	drive_figure(&d, "TO ORDER", "106");
	drive_figure(&d, "area / slab + 5 %", "107");
	drive_sees(&d, "least possible");
	drive_sees(&d, "1 slab too many");
}
END_TEST

START_TEST(an_opening_drawn_corner_by_corner_is_cut_out)
{
	drive_courtyard(&d);
	drive_keys(&d, "z Delete 0,3 Enter Right Right Right Right Up Up w");
	drive_sees(&d, "Drawing opening 1");
	drive_figure(&d, "area", "18.60"); /* the figures stay while it is drawn */
	drive_keys(&d, "0,6 Right 0,6 Up 0,6 Left c");
	drive_sees(&d, "The opening is cut");
	drive_figure(&d, "area", "18.24");
}
END_TEST

START_TEST(the_piece_under_the_cursor_is_told_in_words)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	drive_keys(&d, "z Delete 0,1 Enter f z Delete 0,1 Enter Up Right");
	drive_sees(&d, "Course 0, slab 0: whole");
	drive_keys(&d, "z Delete 6,1 Enter Right"); /* one cell of 6.1 m: across to 6.1, in the cut
	                                               pieces */
	drive_sees(&d, "Course 0, slab 10: cut");
	drive_sees(&d, "200 x 297 mm; cut:");
}
END_TEST

START_TEST(the_arrow_runs_from_the_house_to_the_far_edge)
{
	int high_row, high_col, low_row, low_col, arrows = 0;

	drive_courtyard(&d);
	drive_keys(&d, "Tab s 1:60 Enter");
	drive_figure(&d, "water runs", "up");
	drive_sees(&d, "16.7 mm/m");
	drive_figure(&d, "3 open", "18.60");
	/* 3.00 m at 1:60 is 50 mm */
	drive_figure(&d, "lowest corner", "-0.050");
	ck_assert(term_find(d.t, "\u2219 high", &high_row, &high_col));
	ck_assert(term_find(d.t, "\u2191 low", &low_row, &low_col));
	ck_assert_int_lt(low_row, high_row);
	ck_assert_int_eq(low_col, high_col);
	ck_assert_int_eq(term_cell(d.t, low_row, low_col).chars[0], 0x2191);
	for (int row = low_row + 1; row <= high_row; row++)
		arrows += term_cell(d.t, row, low_col).chars[0] == 0x2219;
	ck_assert_int_eq(arrows, high_row - low_row);
}
END_TEST

START_TEST(the_way_of_the_water_turns_with_the_arrow_keys)
{
	int row, high, low;

	drive_courtyard(&d);
	drive_keys(&d, "Tab s 15 Enter w Right");
	drive_sees(&d, "(up-right)");
	drive_keys(&d, "Right Enter");
	drive_figure(&d, "water runs", "right");
	drive_figure(&d, "water runs", "(0");
	/* 6.20 m at 15 mm a metre is 93 mm, over edge 2 */
	drive_figure(&d, "lowest corner", "-0.093");
	ck_assert(term_find(d.t, "high ", &row, &high));
	ck_assert(term_find(d.t, "low ", &row, &low) || term_find(d.t, "low\u2502", &row, &low));
	ck_assert_int_lt(high, low);
	drive_figure(&d, "2 open", "18.60");
}
END_TEST

START_TEST(a_fixed_point_shows_by_how_much_it_is_missed)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab s 1:60 Enter m threshold Enter 20_mm Enter");
	drive_sees(&d, "threshold");
	drive_figure(&d, "paving under it by", "20");
	drive_sees(&d, "! ");
}
END_TEST

START_TEST(a_broken_ring_is_refused_by_its_edges_and_not_stored)
{
	drive_new_variant(&d);
	/* from the top the ring comes down through its first edge */
	drive_keys(&d, "4 Right 3 Up 2 Left 4 Down c");
	drive_sees(&d, "Edge 1");
	drive_sees(&d, "edge 4");
	drive_sees(&d, "drawing");
	drive_misses(&d, "area");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: drop corner 5"); /* so closing it left no trace */
	drive_keys(&d, "U");
	drive_sees(&d, "Done again: drop corner 5");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "Drawing the outline");
	drive_figure(&d, "corners so far", "5");
}
END_TEST

START_TEST(a_move_that_breaks_the_ring_is_refused)
{
	drive_courtyard(&d);
	drive_keys(&d, "x Delete 7_;_1 Enter"); /* corner 1 beyond edge 2 */
	drive_sees(&d, "edge");
	drive_sees(&d, "Corner 1, across ; up: 7 ; 1"); /* what was typed stays */
	drive_keys(&d, "Esc");
	drive_figure(&d, "area", "18.60");
}
END_TEST

START_TEST(undo_and_redo_name_what_they_did)
{
	drive_courtyard(&d);
	drive_keys(&d, "n t Delete 3,5 Enter"); /* corners 3 and 4 go up to 3.50: 6.2 x 3.5 */
	drive_sees(&d, "corners 3 and 4 moved, so edge 4 is 3.500 m now");
	drive_figure(&d, "area", "21.70");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: set edge 2 to 3.500 m");
	drive_figure(&d, "area", "18.60");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: edge 1 is house wall");
	drive_keys(&d, "U U");
	drive_sees(&d, "Done again: set edge 2 to 3.500 m");
	drive_figure(&d, "area", "21.70");
}
END_TEST

/* 30 m up in cells of 2 m are 15 rows of the 19. */
START_TEST(a_plan_seen_whole_stays_whole_when_it_grows)
{
	drive_courtyard(&d);
	drive_keys(&d, "n t Delete 30 Enter");
	drive_figure(&d, "area", "186.00");
	drive_figure(&d, "cell", "2.000");
	drive_keys(&d, "u n + + x Delete 6,2_;_40 Enter"); /* not when one has come close by hand */
	drive_figure(&d, "area", "133.30");
	drive_misses(&d, "2.000");
}
END_TEST

START_TEST(an_arc_adds_its_segment)
{
	drive_courtyard(&d);
	/* half a circle of radius 1.5 m on edge 2: pi / 2 x 1.5^2 = 3.53 m2 and pi x 1.5 - 3
	 * = 1.712 m more */
	drive_keys(&d, "n a Delete 1,5 Enter");
	drive_figure(&d, "area", "22.13");
	drive_figure(&d, "perimeter", "20.112");
	drive_keys(&d, "t Delete 4 Enter");
	drive_sees(&d, "The chord of edge 2 is 4.000 m");
	drive_keys(&d, "u a Delete 0 Enter");
	drive_figure(&d, "area", "18.60");
}
END_TEST

START_TEST(a_split_edge_and_a_deleted_corner_undo_each_other)
{
	drive_courtyard(&d);
	drive_keys(&d, "n n i");
	drive_sees(&d, "Corner 4 is new");
	drive_figure(&d, "at", "3.100");
	drive_keys(&d, "m");
	drive_sees(&d, "Enter put down  0-9 exact place");
	drive_keys(&d, "Up Up Enter");
	drive_sees(&d, "put down");
	drive_keys(&d, "d");
	drive_sees(&d, "Corner 4 is deleted");
	drive_figure(&d, "area", "18.60");
}
END_TEST

START_TEST(a_copied_variant_is_compared_row_by_row)
{
	drive_at_laying(&d);
	drive_keys(&d, "@Variants");
	drive_sees(&d, "[Variants]");
	drive_keys(&d, "c Larger_slabs Enter");
	drive_sees(&d, "The copy is open");
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "[Laying]");
	drive_keys(&d, "t Delete 600_x_600 Enter");
	/* 5 courses of 10, less the one slab of the opening: 49 whole; 5 pieces of 200 x 600 */
	drive_figure(&d, "whole", "49");
	drive_figure(&d, "cut", "5");
	drive_keys(&d, "@Variants =");
	drive_sees(&d, "Compare");
	drive_figure(&d, "Whole slabs", "98");
	drive_figure(&d, "Whole slabs", "49");
	drive_sees(&d, "\u2260 Whole slabs");
	drive_sees(&d, "  Area");
	drive_misses(&d, "\u2260 Area");
}
END_TEST

START_TEST(a_refused_length_stays_to_be_mended)
{
	drive_new_variant(&d);
	drive_keys(&d, "3,6x Right");
	drive_sees(&d, "3,6x");
	drive_sees(&d, "Length from the last corner: 3,6x");
	drive_keys(&d, "Back 2 Right");
	drive_figure(&d, "corners so far", "2");
	drive_figure(&d, "at", "3.620");
	drive_sees(&d, "off grid");
}
END_TEST

START_TEST(a_corner_out_of_reach_is_refused)
{
	drive_new_variant(&d);
	drive_keys(&d, "2000 Right");
	drive_sees(&d, "over 1 km from 0, 0");
	drive_sees(&d, "Length from the last corner: 2000");
	drive_keys(&d, "Back Back Back Up"); /* 2 m */
	drive_figure(&d, "corners so far", "2");
	drive_figure(&d, "at", "2.000");
	drive_keys(&d, "x 0_;_1500 Enter");
	drive_sees(&d, "over 1 km from 0, 0");
	drive_keys(
	        &d, "Delete 0_;_0 Enter"); /* on the other end: may be, while the ring is drawn */
	drive_keys(&d, "p t 3 Enter");
	drive_sees(&d, "Both ends of the edge lie in one place");
}
END_TEST

START_TEST(a_nudge_of_the_start_line_says_what_it_did)
{
	drive_at_laying(&d);
	/* 10 mm to the left: a piece of 590 at the left of each course but the two of the
	 * opening's... counted by hand: each course now runs 10 whole from -10: the first slab is
	 * cut (590 of 597 wide), nine are whole up to 5990 and the last piece is 210 wide; so 10 +
	 * 10 cut, and around the opening (1.20 to 1.80) slab 2 of two courses, 1190 to 1787, leaves
	 * 10 mm on its left (not under the fill width of 10: a sliver), and slab 3, 1790 to 2387,
	 * loses 10 mm. Cut: 20 + 2 + 2 = 24; whole: 10 x 9 - 2 x 2 = 86. */
	drive_keys(&d, "m Left");
	drive_sees(&d, "Cuts 24 (+14), slivers 2 (+2)");
	drive_figure(&d, "whole", "86");
	drive_keys(&d, "Right");
	drive_sees(&d, "Cuts 10 (-14), slivers 0 (-2)");
	drive_keys(&d, "2 5 Enter Up Enter");
	drive_figure(&d, "start", "0.025");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: nudge the start line");
}
END_TEST

START_TEST(an_edge_without_a_gap_is_not_called_one)
{
	drive_at_laying(&d);
	drive_keys(&d, "r Delete 90 Enter");
	drive_figure(&d, "turned", "90");
	term_drain(d.t, 100, 500);
	drive_misses(&d, "the gap left open");
	drive_keys(&d, "i End Up Up Up Up");
	drive_sees(&d, "> Gap at the house wall");
	drive_keys(&d, "Enter Delete 50 Enter Esc");
	drive_sees(&d, "[Laying]");
	drive_keys(&d, "Down Down Down");
	drive_sees(&d, "the gap left open");
}
END_TEST

START_TEST(slivers_are_marked_even_under_an_edge)
{
	int marks = 0, row, col;

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	/* 70 mm up: the lowest course is 67 mm high, under a quarter of 300: 11 slivers along the
	 * house */
	drive_keys(&d, "x 0_;_0,07 Enter");
	drive_figure(&d, "of them slivers", "11");
	term_drain(d.t, 50, 200);
	ck_assert(term_find(d.t, "[1]", &row, &col));
	for (int c = 6; c < 50; c++)
		marks += term_cell(d.t, row - 1, c).chars[0] == '!';
	ck_assert_int_ge(marks, 9); /* less those under the cursor or a corner */
}
END_TEST

START_TEST(edges_are_counted_by_their_kind)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab Tab");
	drive_sees(&d, "[Edging]");
	drive_keys(&d, "n n s");
	drive_sees(&d, "What stands along edge 3?");
	drive_keys(&d, "PageUp Down Enter");
	drive_sees(&d, "K  kerb");
	drive_keys(&d, "t 1000 Enter");
	/* 6.20 m of kerb in units of 1 m without a joint: six whole, one cut to 200 mm */
	drive_figure(&d, "1 edge", "6.200");
	drive_figure(&d, "2 edges", "6.000");
	drive_figure(&d, "units to buy", "7");
}
END_TEST

START_TEST(a_slab_from_the_catalogue_is_taken)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab c");
	drive_sees(&d, "Slab, from the catalogue");
	drive_keys(&d, "f 450_x_450 Enter Enter");
	drive_sees(&d, "Slab: ");
	drive_figure(&d, "size mm", "450");
	drive_keys(&d, "u");
	drive_figure(&d, "size mm", "600");
}
END_TEST

START_TEST(corner_edge_and_ring_are_chosen_by_key_and_by_cursor)
{
	drive_courtyard(&d);
	drive_opening(&d);
	drive_sees(&d, "Opening 1, corner 1");
	drive_keys(&d, "N");
	drive_misses(&d, "Opening 1, corner 1");
	drive_sees(&d, "Edge 1, to corner 2");
	drive_keys(&d, "p"); /* round to the last corner of the last ring */
	drive_sees(&d, "Opening 1, corner 4");
	drive_keys(&d, "N Right Right Enter"); /* 0.60, 0.00 lies on edge 1 */
	drive_sees(&d, "Edge 1 is chosen: 6.200 m, house wall.");
	drive_keys(&d, "Up Up Left Left Enter");
	drive_sees(&d, "Edge 4 is chosen: 3.000 m, open.");
	drive_keys(&d, "Right Right Enter");
	drive_sees(&d, "No corner or edge lies here");
}
END_TEST

START_TEST(a_warning_marks_its_stage_and_says_what_to_do)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab s 1:60 Enter w Down Down Down Down Enter"); /* down to the house */
	drive_figure(&d, "water runs", "down");
	drive_sees(&d, "Warnings");
	drive_sees(&d, "! ");
	drive_keys(&d, "Tab");
	drive_sees(&d, " Falls!");
	drive_keys(&d, "u u u u u u");
	drive_misses(&d, " Falls!");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planner");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_courtyard_drawn_by_the_tape_gives_the_figures_worked_out_by_hand);
	tcase_add_test(tc, an_opening_drawn_corner_by_corner_is_cut_out);
	tcase_add_test(tc, the_piece_under_the_cursor_is_told_in_words);
	tcase_add_test(tc, the_arrow_runs_from_the_house_to_the_far_edge);
	tcase_add_test(tc, the_way_of_the_water_turns_with_the_arrow_keys);
	tcase_add_test(tc, a_fixed_point_shows_by_how_much_it_is_missed);
	tcase_add_test(tc, a_broken_ring_is_refused_by_its_edges_and_not_stored);
	tcase_add_test(tc, a_move_that_breaks_the_ring_is_refused);
	tcase_add_test(tc, undo_and_redo_name_what_they_did);
	tcase_add_test(tc, a_plan_seen_whole_stays_whole_when_it_grows);
	tcase_add_test(tc, an_arc_adds_its_segment);
	tcase_add_test(tc, a_split_edge_and_a_deleted_corner_undo_each_other);
	tcase_add_test(tc, a_copied_variant_is_compared_row_by_row);
	tcase_add_test(tc, a_refused_length_stays_to_be_mended);
	tcase_add_test(tc, a_nudge_of_the_start_line_says_what_it_did);
	tcase_add_test(tc, edges_are_counted_by_their_kind);
	tcase_add_test(tc, a_slab_from_the_catalogue_is_taken);
	tcase_add_test(tc, corner_edge_and_ring_are_chosen_by_key_and_by_cursor);
	tcase_add_test(tc, a_warning_marks_its_stage_and_says_what_to_do);
	tcase_add_test(tc, an_edge_without_a_gap_is_not_called_one);
	tcase_add_test(tc, slivers_are_marked_even_under_an_edge);
	tcase_add_test(tc, a_corner_out_of_reach_is_refused);
	return suite_run("screen", tc);
}
