/* test_screen_newcomer.c - what someone meets who has read no manual: where the program leads, and
 * what it says when it is asked for something that cannot be. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>
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

/* How often a character stands in the sketch of an 80 x 24 screen. */
static int count_in_sketch(uint32_t ch)
{
	int n = 0;

	term_drain(d.t, 50, 200);
	for (int row = 3; row < 22; row++)
		for (int col = 5; col < 50; col++)
			n += term_cell(d.t, row, col).chars[0] == ch;
	return n;
}

START_TEST(an_opening_is_begun_only_inside_the_paving)
{
	drive_courtyard(&d); /* the cursor is at corner 1 */
	drive_keys(&d, "w");
	drive_sees(&d, "off its edges: move the cursor there");
	drive_misses(&d, "Drawing opening");
	drive_keys(&d, "r");
	drive_sees(&d, "off its edges: move the cursor there");
	drive_misses(&d, "width x height");
	drive_keys(&d, "Left w");
	drive_sees(&d, "off its edges: move the cursor there");
	drive_keys(&d, "Right Right Right Up Up w");
	drive_sees(&d, "Drawing opening 1");
}
END_TEST

START_TEST(a_corner_of_an_opening_outside_the_paving_is_refused)
{
	drive_courtyard(&d);
	drive_keys(&d, "Right Right Up Up w 9 Right");
	drive_sees(&d, "off its edges");
	drive_sees(&d, "Length from the last corner: 9"); /* what was typed stays */
	drive_keys(&d, "Back 0,4 Right");
	drive_figure(&d, "corners so far", "2");
}
END_TEST

START_TEST(a_side_is_said_by_its_letter)
{
	drive_courtyard(&d);
	drive_keys(&d, "n s k");
	drive_sees(&d, "Edge 2: kerb.");
	drive_keys(&d, "n s e");
	drive_sees(&d, "Edge 3: existing paving.");
	drive_keys(&d, "Tab Tab b w");
	drive_sees(&d, "Letters choose nothing here");
}
END_TEST

START_TEST(a_slab_that_does_not_fit_the_bond_is_refused)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b Down Down Enter");
	drive_sees(&d, "Bond: herringbone.");
	drive_keys(&d, "t 450_x_450 Enter");
	drive_sees(&d, "Herringbone wants a slab twice as long as wide");
	drive_keys(&d, "Esc");
	drive_figure(&d, "size mm", "600");
	drive_keys(&d, "b Up Up Enter t 450_x_450 Enter");
	drive_figure(&d, "size mm", "450");
	drive_keys(&d, "b Down Down Enter");
	drive_sees(&d, "Herringbone wants");
	drive_figure(&d, "bond", "stretcher");
}
END_TEST

/* A lying slab at 0, 0 is 600 x 300; a standing one stands on it, 300 to 900 mm up. */
START_TEST(herringbone_is_drawn_lying_and_standing)
{
	int row, col;

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b Down Down Enter");
	drive_sees(&d, "Bond: herringbone.");
	drive_keys(&d, "z Delete 0,1 Enter Right Up");
	drive_sees(&d, "Course 0, slab 0: whole");
	drive_keys(&d, "Up Up Up");
	drive_sees(&d, "Course 0, slab 0, standing:");
	drive_sees(&d, "whole slab, 297 x 597 mm.");
	term_drain(d.t, 50, 200);
	ck_assert(term_find(d.t, "\u253c", &row, &col)); /* the cursor: 0.10, 0.40 */
	ck_assert_int_eq(term_cell(d.t, row + 1, col).chars[0], 0x2581); /* on the lying one */
	ck_assert_int_eq(term_cell(d.t, row - 1, col + 4).chars[0], 0x258f); /* its right side */
	ck_assert_int_ne(term_cell(d.t, row - 1, col).chars[0], 0x2581); /* and on it goes */
	ck_assert_int_ne(term_cell(d.t, row - 2, col).chars[0], 0x2581);
}
END_TEST

START_TEST(mixed_sizes_come_from_the_catalogue_and_are_ordered_by_size)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b Down Down Down Down Enter");
	drive_sees(&d, "Bond: mixed.");
	drive_sees(&d, "Millwheel, 600 and 300");
	drive_keys(&d, "@Order");
	drive_sees(&d, "597 x 597");
	drive_sees(&d, "297 x 297");
	drive_keys(&d, "u");
	drive_misses(&d, "297 x 297");
}
END_TEST

/* Slabs of 1.20 m by 1.20 m chosen before do not decide how close the sketch comes. */
START_TEST(joints_of_small_slabs_in_a_mixed_bond_are_drawn)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab t 1200_x_1200 Enter b f Small Enter Enter");
	drive_sees(&d, "Bond: mixed");
	drive_keys(&d, "z Delete 0,5 Enter");
	drive_sees(&d, "Single slabs show in cells of 40 cm");
	drive_keys(&d, "z Delete 0,2 Enter");
	drive_misses(&d, "Single slabs show");
}
END_TEST

START_TEST(a_bond_of_several_sizes_asks_for_no_single_slab)
{
	drive_at_laying(&d);
	drive_keys(&d, "i End Up Up Up Up Up Up Up");
	drive_sees(&d, "> Pack");
	drive_keys(&d, "Enter Delete 7 Enter Esc b End Enter");
	drive_sees(&d, "Coursed random, draw 0.");
	drive_keys(&d, "t");
	drive_sees(&d, "This bond brings its own sizes");
	drive_misses(&d, "t size");
	drive_keys(&d, "c");
	drive_sees(&d, "This bond brings its own sizes");
	drive_keys(&d, "i");
	drive_sees(&d, "Breakage allowance");
	drive_misses(&d, "Pack");
	drive_misses(&d, "Price of one slab");
	drive_misses(&d, "Length and width mean");
	drive_keys(
	        &d, "End Up Up Up Up Enter 12 Enter"); /* the row that was changed stays marked */
	drive_sees(&d, "> Gap at the house wall");
	drive_keys(&d, "Esc u @Order");
	drive_sees(&d, "packs of the mix");
	drive_misses(&d, "up to whole packs");
	drive_keys(&d, "c");
	drive_sees(&d, "A price is asked for");
	drive_keys(&d, "g");
	drive_sees(&d, "is ordered in packs");
	drive_keys(&d, "@Variants c Other Enter");
	drive_sees(&d, "The copy is open");
	drive_figure(&d, "Slab", "draw 0");
	drive_keys(&d, "@Laying b Enter @Variants =");
	drive_sees(&d, "4 sizes, 50 mm, draw 1");
	drive_sees(&d, "4 sizes, 50 mm, draw 0");
	drive_sees(&d, "several sizes");
}
END_TEST

START_TEST(coursed_random_is_drawn_anew_when_chosen_again)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b f Patio Enter Enter");
	drive_sees(&d, "Coursed random, draw 0.");
	drive_keys(&d, "b Enter");
	drive_sees(&d, "Coursed random, draw 1.");
	drive_keys(&d, "@Order");
	drive_sees(&d, "packs of the mix");
}
END_TEST

/* 6.20 m of 600 mm slabs by 3.00 m of 300 mm: 100 whole and a column of 10 cut. With 10 mm open at
 * the house the first course is cut as well: 90 whole, and 10 more cut. */
START_TEST(a_gap_at_the_house_wall_cuts_the_first_course)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b Up Enter");
	drive_figure(&d, "whole", "100");
	drive_figure(&d, "cut", "10");
	drive_keys(&d, "i Down Down Down Down Down Down Down Down Down Down Enter");
	drive_sees(&d, "an expansion joint");
	drive_keys(&d, "10 Enter Esc");
	drive_figure(&d, "whole", "90");
	drive_figure(&d, "cut", "20");
}
END_TEST

/* Cells of 0.6 m hold two standing slabs or two lying ones: from 0.6 up, the first is standing. */
START_TEST(basket_weave_is_drawn_down_to_the_edge_of_its_cells)
{
	int row, col;

	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab b Down Down Down Enter");
	drive_sees(&d, "Bond: basket weave.");
	drive_keys(&d, "z Delete 0,1 Enter Right Up Up Up Up Up Up");
	drive_sees(&d, "standing: whole slab, 297 x");
	term_drain(d.t, 50, 200);
	ck_assert(term_find(d.t, "\u253c", &row, &col)); /* the cursor: 0.10, 0.60 */
	for (int up = 0; up < 3; up++)
		ck_assert_int_eq(term_cell(d.t, row - up, col + 4).chars[0], 0x258f);
}
END_TEST

START_TEST(laying_comes_close_enough_that_slabs_show)
{
	drive_new_variant(&d);
	drive_keys(&d, "r 14_x_9 Enter Tab Tab");
	drive_sees(&d, "each slab shows; f shows the whole plan");
	ck_assert_int_gt(count_in_sketch(0x258f), 20);
	drive_keys(&d, "Tab"); /* whole again where slabs are not looked at */
	drive_sees(&d, "[Edging]");
	ck_assert_int_eq(count_in_sketch(0x25cf) + count_in_sketch(0x25c6), 3); /* and the cursor */
	drive_keys(&d, "S-Tab");
	drive_sees(&d, "each slab shows");
	drive_keys(&d, "f");
	drive_sees(&d, "This far off only cut pieces show");
	ck_assert_int_eq(count_in_sketch(0x258f), 0);
	drive_keys(&d, "Tab S-Tab"); /* that wish is kept */
	drive_sees(&d, "[Laying]");
	drive_misses(&d, "each slab shows");
	ck_assert_int_eq(count_in_sketch(0x258f), 0);
}
END_TEST

START_TEST(a_plan_left_close_to_its_slabs_is_found_so_and_whole_elsewhere)
{
	drive_new_variant(&d);
	drive_keys(&d, "r 14_x_9 Enter Tab Tab");
	drive_sees(&d, "each slab shows");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "[Laying]");
	ck_assert_int_gt(count_in_sketch(0x258f), 20);
	drive_keys(&d, "S-Tab S-Tab");
	drive_sees(&d, "[Outline]");
	ck_assert_int_eq(count_in_sketch(0x25cf) + count_in_sketch(0x25c6), 3); /* and the cursor */
}
END_TEST

START_TEST(a_copy_opens_with_its_whole_plan)
{
	drive_courtyard(&d);
	drive_keys(&d, "@Variants c B Enter");
	drive_sees(&d, "The copy is open");
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
	drive_sees(&d, "6.200 house");
	ck_assert_int_eq(count_in_sketch(0x25cf) + count_in_sketch(0x25c6), 3); /* and the cursor */
}
END_TEST

START_TEST(refusals_name_values_as_the_screen_does)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab t 1_x_1 Enter");
	drive_sees(&d, "Slab length: 1 mm is out of reach; give from 20 to 5000 mm");
	drive_keys(&d, "Esc g 500 Enter");
	drive_sees(&d, "Joint: 500 mm is out of reach");
	drive_keys(&d, "Esc @Order g 0 Enter");
	drive_sees(&d, "Pack: give from 1 to 100000");
	drive_misses(&d, "slab.pack");
	drive_keys(&d, "Delete 1,5 Enter");
	drive_sees(&d, "'1,5' is not a whole number");
}
END_TEST

START_TEST(the_first_fall_starts_at_the_house_wall)
{
	drive_courtyard(&d);
	drive_keys(&d, "Up Up Right Tab s 15 Enter");
	drive_sees(&d, "Level 0 is at the house wall; water runs up.");
	drive_figure(&d, "highest corner", "+0.000");
	drive_figure(&d, "lowest corner", "-0.045"); /* 3 m at 15 mm a metre */
	drive_keys(&d, "s");
	drive_sees(&d, "Fall: 15");
}
END_TEST

START_TEST(one_value_after_the_other_is_set)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab i Enter 60 Enter");
	drive_sees(&d, "Values of the laying");
	drive_figure(&d, "Thickness", "60");
	drive_keys(&d, "Down Enter"); /* what length and width mean is changed over at once */
	drive_figure(&d, "Length and width mean", "itself");
	drive_keys(&d, "Esc");
	drive_sees(&d, "joint, beside it");
}
END_TEST

START_TEST(a_name_cannot_be_empty)
{
	drive_sees(&d, "No client yet");
	drive_keys(&d, "a Enter");
	drive_sees(&d, "A name is needed");
	drive_keys(&d, "_ Enter");
	drive_sees(&d, "A name is needed");
	drive_keys(&d, "Ann Enter");
	drive_sees(&d, "Title of the job");
}
END_TEST

START_TEST(a_corrected_length_keeps_square_corners_square)
{
	drive_new_variant(&d);
	/* an L: 6.20 along the house, a notch of 1.80 x 1.50 */
	drive_keys(&d, "6,2 Right 2,65 Up 1,8 Left 1,5 Up 4,4 Left c");
	drive_figure(&d, "area", "23.03"); /* 6.2 x 2.65 + 4.4 x 1.5 */
	drive_keys(&d, "t 6,4 Enter");
	drive_sees(&d, "corners 2 and 3 moved, so edge 3 is 2.000 m now");
	drive_figure(&d, "area", "23.56"); /* 6.4 x 2.65 + 4.4 x 1.5 */
	drive_keys(&d, "u");
	drive_figure(&d, "area", "23.03");
}
END_TEST

START_TEST(moving_the_start_line_says_its_keys)
{
	drive_at_laying(&d);
	drive_keys(&d, "m Left");
	drive_sees(&d, "Enter done  0-9 step  arrows move it");
	drive_keys(&d, "Enter");
	drive_sees(&d, "c slab  t size  b bond  r turn  m start line  s best starts");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("newcomer");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, an_opening_is_begun_only_inside_the_paving);
	tcase_add_test(tc, a_corner_of_an_opening_outside_the_paving_is_refused);
	tcase_add_test(tc, a_side_is_said_by_its_letter);
	tcase_add_test(tc, a_slab_that_does_not_fit_the_bond_is_refused);
	tcase_add_test(tc, herringbone_is_drawn_lying_and_standing);
	tcase_add_test(tc, basket_weave_is_drawn_down_to_the_edge_of_its_cells);
	tcase_add_test(tc, mixed_sizes_come_from_the_catalogue_and_are_ordered_by_size);
	tcase_add_test(tc, joints_of_small_slabs_in_a_mixed_bond_are_drawn);
	tcase_add_test(tc, a_bond_of_several_sizes_asks_for_no_single_slab);
	tcase_add_test(tc, coursed_random_is_drawn_anew_when_chosen_again);
	tcase_add_test(tc, a_gap_at_the_house_wall_cuts_the_first_course);
	tcase_add_test(tc, laying_comes_close_enough_that_slabs_show);
	tcase_add_test(tc, a_plan_left_close_to_its_slabs_is_found_so_and_whole_elsewhere);
	tcase_add_test(tc, a_copy_opens_with_its_whole_plan);
	tcase_add_test(tc, refusals_name_values_as_the_screen_does);
	tcase_add_test(tc, the_first_fall_starts_at_the_house_wall);
	tcase_add_test(tc, one_value_after_the_other_is_set);
	tcase_add_test(tc, a_name_cannot_be_empty);
	tcase_add_test(tc, a_corrected_length_keeps_square_corners_square);
	tcase_add_test(tc, moving_the_start_line_says_its_keys);
	return suite_run("screen newcomer", tc);
}
