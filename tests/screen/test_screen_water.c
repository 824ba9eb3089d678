/* test_screen_water.c - planes, levels to be met, drains and rain, typed in the van.
 *
 * The courtyard of test_screen.c without its opening: 6.20 m x 3.00 m, corner 1 at 0, 0, the house
 * along edge 1, all other edges open. Figures are worked out by hand beside each test. */
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
	drive_courtyard(&d);
	drive_keys(&d, "@Falls");
}

static void teardown(void)
{
	drive_end(&d);
}

/* Two planes that fall 10 mm a metre to the right and 20 mm a metre to the line y = 1.5: each by
 * the square root of 10 x 10 + 20 x 20, 22.4 mm a metre. */
static void valley_by_known_levels(void)
{
	drive_keys(&d, "x Enter 0;0 Enter 0 Enter 6,2;0 Enter -62_mm Enter 0;3 Enter -0,06 Enter");
	drive_sees(&d, "It passes through all three");
	drive_sees(&d, "22.4 mm/m (2.24 %, 1:45), up-right");
	drive_keys(&d, "Esc z 0,5 Enter Up Up Up");
	drive_figure(&d, "level at cursor", "-0.030");
	drive_keys(&d, "b");
	drive_sees(&d, "Planes of the surface");
	drive_keys(&d, "f a_new Enter Enter");
	drive_sees(&d, "Plane 2 falls the other way");
	drive_keys(&d, "x Enter 0;0 Enter -0,06 Enter 6,2;0 Enter -122_mm Enter 0;3 Enter 0 Enter");
	drive_sees(&d, "down-right. It passes through all three");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Plane 2 of 2");
}

static void gully_in_the_valley(void)
{
	drive_keys(&d, "c");
	drive_sees(&d, "What takes the water");
	drive_keys(&d, "f new_gully Enter Enter");
	drive_sees(&d, "Gully 1 at the cursor");
	drive_keys(&d, "Down Enter 5,915;1,5 Enter");
	drive_figure(&d, "Place", "5.915");
	drive_keys(&d, "Esc");
	drive_sees(&d, "[Falls]");
}

/* Water that meets the valley left of the gully is the gully's: of each half all that lies left of
 * the line from 5.915, 1.5 against the fall, which goes left by 1 where it goes out by 2, to 5.165,
 * 0. That is 1.5 m x (5.915 + 5.165) m / 2 = 8.31 m2, twice 16.62 m2; the rest of 18.60 m2, 1.98
 * m2, leaves by edge 2. The valley falls 10 mm a metre from -0.030 m. */
START_TEST(two_planes_lead_the_rain_along_their_valley_to_a_gully)
{
	valley_by_known_levels();
	drive_keys(&d, "PageDown");
	drive_figure(&d, "valley falls", "10.0");
	drive_sees(&d, "-0.092"); /* 6.2 m on */
	gully_in_the_valley();
	drive_figure(&d, "2 open", "1.98");
	drive_figure(&d, "gully 1", "16.62");
}
END_TEST

/* Q = i A: 90 mm/h on 16.62 m2 is 16.62 x 90 / 3600 = 0.4155 l/s. */
START_TEST(a_typed_rain_gives_the_flow_and_says_what_is_not_known)
{
	valley_by_known_levels();
	gully_in_the_valley();
	drive_keys(&d, "PageDown");
	drive_sees(&d, "None is chosen, so no flow");
	drive_keys(&d, "r Down Enter");
	drive_sees(&d, "Type the duration and the intensity");
	drive_keys(&d, "Enter 10 Enter 90 Enter Esc");
	drive_figure(&d, "10", "90");
	drive_keys(&d, "Esc");
	drive_sees(&d, "! Gully 1: 0.42 l/s reach");
	drive_keys(&d, "c Enter Down Down Enter 0,4 Enter");
	drive_figure(&d, "Takes at most", "0.4");
	drive_keys(&d, "Esc");
	drive_sees(&d, "! Gully 1 takes 0.40 l/s");
	drive_keys(&d, "c Enter Down Down Enter 0,5 Enter Esc");
	drive_misses(&d, "! Gully 1");
	drive_keys(&d, "PageDown");
	drive_figure(&d, "flow", "0.42");
	drive_keys(&d, "r Home Down Down Enter 5,5 Enter");
	drive_sees(&d, "not a whole number");
	drive_keys(&d, "Esc");
}
END_TEST

/* All 18.60 m2 reach the far edge: at 72 mm/h 18.6 x 72 / 3600 = 0.372 l/s. */
START_TEST(a_channel_along_an_edge_takes_what_reaches_it)
{
	drive_keys(&d, "s 1:60 Enter n n");
	drive_keys(&d, "c");
	drive_sees(&d, "What takes the water");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Channel 1 takes the water that reaches edge 3");
	drive_keys(&d, "Down Enter 5 Enter");
	drive_sees(&d, "Channel 1, clear width: 5 mm is out of reach; give from 20 to 2000 mm");
	drive_keys(&d, "Delete 11'_10_1/2\" Enter"); /* 3619.5 mm */
	drive_sees(&d, "Channel 1, clear width: 3619.5 mm is out of reach");
	drive_keys(&d, "Delete 0,15_m Enter");
	drive_figure(&d, "Clear width", "150");
	drive_keys(&d, "Esc r Down Enter Enter 15 Enter 72 Enter Esc Esc");
	drive_figure(&d, "channel 1", "18.60");
	drive_keys(&d, "PageDown");
	drive_figure(&d, "flow", "0.37");
}
END_TEST

START_TEST(what_a_form_changed_is_undone_while_it_is_open)
{
	drive_keys(&d, "s 1:60 Enter n n c Enter");
	drive_figure(&d, "Clear width", "100");
	drive_keys(&d, "Down Enter 150 Enter");
	drive_figure(&d, "Clear width", "150");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: channel 1: clear width");
	drive_figure(&d, "Clear width", "100");
	drive_keys(&d, "U");
	drive_figure(&d, "Clear width", "150");
	drive_keys(&d, "u u"); /* the channel goes, and its form with it */
	drive_sees(&d, "Undone: channel 1 along edge 3");
	drive_sees(&d, "[Falls]");
	drive_misses(&d, "Clear width");
	drive_keys(&d, "c u"); /* a list that something new is chosen from is no form */
	drive_sees(&d, "go back with Esc; then u undoes");
}
END_TEST

/* At 1:60 the paving lies 3000 / 60 = 50 mm down at the far side. A path there at -45 mm: it is
 * raised by 5 mm, or its fall becomes 45 mm on 3 m, 15 mm a metre. */
START_TEST(the_plane_is_raised_or_tilted_to_the_path)
{
	drive_keys(&d, "s 1:60 Enter z 0,5 Enter Up Up Up Up Up Up m path Enter -45_mm Enter");
	drive_sees(&d, "The paving is 5 mm under path. m again raises or tilts");
	drive_figure(&d, "paving under it by", "5");
	drive_keys(&d, "m");
	drive_sees(&d, "raise plane 1 by 5 mm");
	drive_sees(&d, "its fall becomes 15 mm/m (1.5 %, 1:67), up");
	drive_keys(&d, "Enter");
	drive_sees(&d, "The paving meets path");
	drive_figure(&d, "level at cursor", "-0.045");
	drive_sees(&d, "\u2506 16.7 mm/m (1.67 %, 1:60)"); /* as before */
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: move plane 1 to meet path");
	drive_figure(&d, "paving under it by", "5");
	drive_keys(&d, "m Down Enter");
	drive_sees(&d, "fall 15 mm/m");
	drive_figure(&d, "level at cursor", "-0.045");
	drive_sees(&d, "the paving meets it");
	drive_keys(&d, "M");
	drive_sees(&d, "The fixed point is gone");
}
END_TEST

/* The far end of the plane's own level line cannot be met by tilting: that says why, and raising
 * does it. */
START_TEST(a_point_on_the_level_line_is_only_met_by_raising)
{
	drive_keys(&d, "s 1:60 Enter m threshold Enter 20_mm Enter m");
	drive_sees(&d, "raise plane 1 by 20 mm");
	drive_keys(&d, "Down Enter");
	drive_figure(&d, "paving under it by", "20");
	drive_keys(&d, "m Enter");
	drive_figure(&d, "level at cursor", "+0.020");
}
END_TEST

/* Counts a letter in the sketch, left of the pane. */
static int letters(char letter)
{
	int n = 0;

	for (int row = 3; row < 20; row++)
		for (int col = 6; col < 49; col++)
			n += term_cell(d.t, row, col).chars[0] == (uint32_t)letter &&
			     term_cell(d.t, row, col + 1).chars[0] == ' ';
	return n;
}

/* The areas of the valley: A is edge 2's 1.98 m2, B the gully's 16.62 m2. In cells of 0.3 m these
 * are 22 and 184, less what words, the valley's line and the edges cover, and what lies beyond the
 * sketch. */
static void check_areas(void)
{
	drive_sees(&d, "The letters say where water ends up");
	drive_figure(&d, "A: 2 open", "1.98");
	drive_figure(&d, "B: gully 1", "16.62");
	term_drain(d.t, 50, 300);
	ck_assert_int_ge(letters('A'), 4);
	ck_assert_int_le(letters('A'), 22);
	ck_assert_int_ge(letters('B'), 120);
	ck_assert_int_le(letters('B'), 184);
}

START_TEST(letters_show_what_drains_where)
{
	valley_by_known_levels();
	gully_in_the_valley();
	drive_keys(&d, "z 0,3 Enter a");
	check_areas();
	drive_quit(&d); /* and are kept, and need neither colour nor more than ASCII */
	d.options[0] = "--ascii";
	d.options[1] = "--no-colour";
	drive_start(&d, 24, 80);
	drive_figure(&d, "B: gully 1", "16.62");
	term_drain(d.t, 50, 300);
	ck_assert_int_ge(letters('B'), 120);
	drive_keys(&d, "a");
	drive_sees(&d, "Arrows show the way");
	ck_assert_int_eq(letters('B'), 0);
}
END_TEST

START_TEST(areas_need_a_fall)
{
	drive_keys(&d, "a");
	drive_sees(&d, "No fall is set yet: s sets it");
}
END_TEST

/* 50 mm of fall at 10 mm between lines: contours at 0 on the wall, -10, -20, -30, -40 and -50 on
 * the far edge; 0.60 m apart, so that 4 run inside. */
START_TEST(contours_lie_as_far_apart_as_the_fall_says)
{
	int rows = 0;

	drive_keys(&d, "s 1:60 Enter z 0,2 Enter i 10 Enter");
	drive_sees(&d, "Contour lines are drawn");
	term_drain(d.t, 50, 300);
	for (int row = 3; row < 22; row++)
		for (int col = 10; col < 16; col++)
			if (term_cell(d.t, row, col).chars[0] == 0x254c &&
			        term_cell(d.t, row, col + 1).chars[0] == 0x254c) {
				rows++;
				break;
			}
	ck_assert_int_ge(rows, 4);
	ck_assert_int_le(rows, 6);
	drive_keys(&d, "i Delete 0,5 Enter");
	drive_sees(&d, "From 1 mm up");
	drive_keys(&d, "Delete 0 Enter");
	drive_sees(&d, "No contour lines");
}
END_TEST

/* Held level at -0.02 along the right edge, falling 20 mm a metre to the left: at the left
 * side, 6.2 m on, -0.020 - 0.124 = -0.144 m. */
START_TEST(an_edge_is_held_level)
{
	drive_keys(&d, "n b");
	drive_sees(&d, "hold the chosen edge level");
	drive_keys(&d, "f hold Enter Enter -20_mm Enter 2_% Enter");
	drive_sees(&d, "fall 20 mm/m");
	drive_figure(&d, "water runs", "left");
	drive_figure(&d, "level at cursor", "-0.020"); /* at corner 2, which n chose */
	drive_figure(&d, "lowest corner 1", "-0.144");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: hold an edge level");
}
END_TEST

/* Paving at 0 on the house wall, and a damp-proof course at +0.140 m, then at +0.150 m: 150 mm
 * under it is the least (NHBC Standards 10.2.6, 2021). */
START_TEST(paving_near_the_damp_proof_course_is_warned_of)
{
	drive_keys(&d, "s 1:60 Enter t f UK_guidance Enter Enter");
	drive_sees(&d, "Rule set: UK guidance");
	drive_keys(&d, "d 0,14 Enter");
	drive_sees(&d, "140 mm under");
	drive_sees(&d, "! At corner 1 on edge 1");
	drive_keys(&d, "d Delete 15_cm Enter");
	drive_misses(&d, "mm under");
	drive_keys(&d, "d x Enter");
	drive_sees(&d, "a number is expected");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("water");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, two_planes_lead_the_rain_along_their_valley_to_a_gully);
	tcase_add_test(tc, a_typed_rain_gives_the_flow_and_says_what_is_not_known);
	tcase_add_test(tc, a_channel_along_an_edge_takes_what_reaches_it);
	tcase_add_test(tc, what_a_form_changed_is_undone_while_it_is_open);
	tcase_add_test(tc, the_plane_is_raised_or_tilted_to_the_path);
	tcase_add_test(tc, a_point_on_the_level_line_is_only_met_by_raising);
	tcase_add_test(tc, letters_show_what_drains_where);
	tcase_add_test(tc, areas_need_a_fall);
	tcase_add_test(tc, contours_lie_as_far_apart_as_the_fall_says);
	tcase_add_test(tc, an_edge_is_held_level);
	tcase_add_test(tc, paving_near_the_damp_proof_course_is_warned_of);
	return suite_run("screen water", tc);
}
