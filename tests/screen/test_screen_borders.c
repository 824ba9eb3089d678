/* test_screen_borders.c - border courses set at Edging.
 *
 * The courtyard is 6.20 m by 3.00 m; its slabs have joints of 3 mm inside their sizes. Soldiers of
 * 200 x 100 are 100 mm apart along an edge, so 62 of them run along edge 1 and 30 along edge 2. */
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
	drive_start(&d, 40, 100);
}

static void teardown(void)
{
	drive_end(&d);
}

static void at_edging(void)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab Tab");
	drive_figure(&d, "border courses", "none");
}

/* A new border of soldiers of this size along the chosen edge; not waited for. */
static void type_border(const char *size)
{
	char keys[80];

	drive_keys(&d, "b");
	drive_sees(&d, "Border courses along edge");
	drive_keys(&d, "f size_typed Enter Enter");
	drive_sees(&d, "New border, slab's length x width");
	snprintf(keys, sizeof keys, "%s Enter", size);
	drive_keys(&d, keys);
}

static void soldiers(void)
{
	at_edging();
	type_border("200_x_100");
	drive_sees(&d, "Border 1 along edge 1: soldier course of 200 x 100 slabs, mitred.");
}

/* Opens the values of the chosen edge's border and takes the row of that name. */
static void value(const char *find)
{
	char keys[80];

	drive_keys(&d, "i");
	drive_sees(&d, "Widest joint on curves");
	snprintf(keys, sizeof keys, "f %s Enter Enter", find);
	drive_keys(&d, keys);
}

START_TEST(a_new_border_runs_along_the_chosen_edge)
{
	soldiers();
	drive_figure(&d, "border courses", "1");
	drive_figure(&d, "whole", "62");
	drive_figure(&d, "cut", "0");
	drive_figure(&d, "whole + cut pieces", "62");
	drive_sees(&d, "W1");
	drive_keys(&d, "S-Tab");
	drive_sees(&d, "[Laying]");
	drive_keys(&d, "Right Right");
	drive_sees(&d, "Border along edge 1: course 0,");
}
END_TEST

/* A mitre cuts the two slabs of the last 200 mm at each end of a run. */
START_TEST(one_choice_lays_it_all_round_and_one_undo_takes_that_back)
{
	soldiers();
	drive_keys(&d, "b f all_round Enter");
	drive_figure(&d, "the same all round the outline", "4");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Border 1 all round the outline: soldier course");
	drive_figure(&d, "whole", "58");
	drive_figure(&d, "cut", "4");
	drive_figure(&d, "4 edges", "18.400");
	drive_figure(&d, "whole + cut pieces", "168");
	drive_keys(&d, "n");
	drive_figure(&d, "whole", "26");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: border 1 all round the outline");
	drive_figure(&d, "border courses", "none");
	drive_keys(&d, "U p");
	drive_figure(&d, "whole", "58");
	drive_keys(&d, "b");
	drive_figure(&d, "1: soldier course", "4");
	drive_misses(&d, "the same all round");
}
END_TEST

/* The kerb stands along edge 2 and 4 here. */
START_TEST(a_border_can_follow_a_kind_of_edge)
{
	at_edging();
	drive_keys(&d, "n s k");
	drive_sees(&d, "Edge 2: kerb");
	drive_keys(&d, "n n s k");
	drive_sees(&d, "Edge 4: kerb");
	type_border("200_x_100");
	drive_sees(&d, "Border 1 along edge 4");
	drive_keys(&d, "b f each_kerb Enter Enter");
	drive_sees(&d, "Border 1 along each kerb of the outline");
	drive_figure(&d, "2 edges", "6.000");
	drive_keys(&d, "p");
	drive_figure(&d, "border courses", "none");
	drive_keys(&d, "p");
	drive_figure(&d, "whole", "30");
}
END_TEST

START_TEST(none_takes_the_border_off_and_an_edge_without_has_no_values)
{
	soldiers();
	drive_keys(&d, "b PageUp Enter");
	drive_sees(&d, "No border along edge 1.");
	drive_figure(&d, "border courses", "none");
	drive_keys(&d, "i");
	drive_sees(&d, "The chosen edge has no border: b sets one.");
	drive_keys(&d, "u");
	drive_figure(&d, "whole", "62");
	drive_keys(&d, "u u");
	drive_sees(&d, "Undone: new border 1");
}
END_TEST

/* The second course begins half a pitch on: 61 whole ones, and pieces of 47 and 50 mm, of which the
 * first is a sliver. */
START_TEST(its_values_are_changed_one_after_the_other)
{
	soldiers();
	value("Courses");
	drive_figure(&d, "Courses", "2");
	drive_sees(&d, "Shift of the second course");
	drive_keys(&d, "Esc");
	drive_figure(&d, "whole", "123");
	drive_figure(&d, "cut", "2");
	drive_figure(&d, "of them slivers", "1");
	value("Laid");
	drive_sees(&d, "stretcher: along the run");
	drive_keys(&d, "Esc");
	drive_figure(&d, "whole", "61"); /* 31 at 200 mm, and 30 between half ones */
	drive_sees(&d, "2 stretcher courses of 200");
	value("Price");
	drive_sees(&d, "Price of one slab:");
	drive_keys(&d, "1,25 Enter");
	drive_figure(&d, "Price of one slab", "1.25");
	drive_keys(&d, "Esc u");
	drive_sees(&d, "Undone: change border 1: price of one slab.");
	drive_keys(&d, "u u");
	drive_sees(&d, "Undone: change border 1: courses.");
	drive_figure(&d, "whole", "62");
}
END_TEST

START_TEST(a_change_holds_for_every_edge_that_has_the_border)
{
	soldiers();
	drive_keys(&d, "b f all_round Enter Enter i");
	drive_sees(&d, "Border 1, along 4 edges: what is changed holds for all of them");
	drive_keys(&d, "f Corners Enter Enter");
	drive_sees(&d, "butted: one goes through");
	drive_keys(&d, "Esc");
	drive_figure(&d, "whole", "60"); /* the run before takes 200 mm of this one */
	drive_keys(&d, "n n n");
	drive_figure(&d, "whole", "28");
	drive_keys(&d, "u");
	drive_figure(&d, "whole", "26");
}
END_TEST

START_TEST(its_slab_can_come_from_the_catalogue)
{
	at_edging();
	drive_keys(&d, "b f catalogue Enter Enter");
	drive_sees(&d, "Slab of a new border, from the catalogue");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Border 1 along edge 1: soldier course of");
	drive_keys(&d, "i");
	drive_misses(&d, "not from the catalogue");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Slab of the border, from the catalogue");
	drive_keys(&d, "Down Enter");
	drive_sees(&d, "Border 1, along 1 edge");
	drive_keys(&d, "Esc u");
	drive_sees(&d, "Undone: change border 1: slab.");
}
END_TEST

/* A chord of 3.00 m that rises by 0.35 m has a radius of (1.5^2 + 0.35^2) / (2 * 0.35) = 3.389 m,
 * 3.189 at the inner ends: slabs 100 mm apart there are 106.27 apart outside, so a joint of 9.3 mm
 * beside slabs of 97. */
START_TEST(on_a_curve_joints_open_or_slabs_are_cut_to_wedges)
{
	drive_courtyard(&d);
	drive_keys(&d, "n a 0,35 Enter");
	drive_sees(&d, "Edge 2 is an arc");
	drive_keys(&d, "Tab Tab Tab");
	type_border("200_x_100");
	drive_figure(&d, "joints open to", "9.3");
	value("Widest");
	drive_sees(&d, "Widest joint on curves:");
	drive_keys(&d, "2 Enter");
	drive_sees(&d, "Widest joint on curves: 2 mm is out of reach; give from 3 to");
	drive_keys(&d, "Delete 5 Enter");
	drive_figure(&d, "Widest joint on curves", "5");
	drive_keys(&d, "Esc");
	drive_sees(&d, "All cut to wedges: joints would");
	drive_figure(&d, "whole", "0");
}
END_TEST

START_TEST(a_border_that_does_not_fit_is_refused_with_the_reason)
{
	at_edging();
	type_border("3100_x_100");
	drive_sees(&d, "The border along edge 1 is wider than the paving there");
	drive_sees(&d, "3100 x 100"); /* what was typed stays */
	drive_keys(&d, "Esc");
	drive_figure(&d, "border courses", "none");
	drive_keys(&d, "b");
	drive_misses(&d, "3100");
	drive_keys(&d, "Esc");
	type_border("200_x_100");
	drive_figure(&d, "whole", "62");
	value("Length_x");
	drive_sees(&d, "Length x width:");
	drive_keys(&d, "3100_x_100 Enter");
	drive_sees(&d, "The border along edge 1 is wider than the paving there");
	drive_keys(&d, "Delete 10_x_10 Enter");
	drive_sees(&d, "Slab length: 10 mm is out of reach; give from 20");
	drive_keys(&d, "Esc");
	drive_figure(&d, "whole", "62");
}
END_TEST

START_TEST(an_outline_too_narrow_for_its_border_is_refused)
{
	soldiers();
	drive_keys(&d, "S-Tab S-Tab S-Tab n t 0,15 Enter");
	drive_sees(&d, "The border along edge 1 is wider than the paving there");
	drive_keys(&d, "Esc");
	drive_figure(&d, "length", "3.000");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: border 1 along edge 1.");
}
END_TEST

START_TEST(edges_that_are_split_bent_or_taped_keep_their_border)
{
	soldiers();
	drive_keys(&d, "S-Tab S-Tab S-Tab i");
	drive_sees(&d, "Corner 2 is new");
	drive_keys(&d, "t 2,5 Enter a 0,1 Enter");
	drive_sees(&d, "Edge 2 is an arc");
	drive_keys(&d, "Tab Tab Tab");
	drive_figure(&d, "border courses", "1");
	drive_keys(&d, "p");
	drive_figure(&d, "whole", "31");
}
END_TEST

START_TEST(a_border_is_there_again_after_a_restart)
{
	soldiers();
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "[Edging]");
	drive_figure(&d, "border courses", "1");
	drive_figure(&d, "whole", "62");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: border 1 along edge 1.");
	drive_figure(&d, "border courses", "none");
}
END_TEST

/* The mark reads the same whichever way the edge runs: edge 3 runs to the left. */
START_TEST(borders_are_told_apart_in_plain_ascii)
{
	soldiers();
	drive_keys(&d, "b f all_round Enter Enter n n");
	type_border("100_x_100");
	drive_sees(&d, "Border 2 along edge 3");
	drive_quit(&d);
	d.options[0] = "--ascii";
	d.options[1] = "--no-colour";
	drive_start(&d, 24, 80);
	drive_sees(&d, "#W1#");
	drive_sees(&d, ".O2.");
	for (int row = 0; row < 24; row++)
		for (int col = 0; col < 80; col++)
			ck_assert_uint_lt(term_cell(d.t, row, col).chars[0], 0x80);
	drive_keys(&d, "i");
	drive_sees(&d, "Border 2, along 1 edge");
}
END_TEST

START_TEST(where_the_list_is_full_a_border_along_no_edge_makes_room)
{
	char said[80];

	at_edging();
	for (int i = 1; i <= 17; i++) {
		char size[40];

		snprintf(size, sizeof size, "%d_x_100", 100 + 10 * i);
		type_border(size);
		snprintf(said, sizeof said, "Border %d along edge 1: soldier course of %d x 100",
		        i <= 16 ? i : 1, 100 + 10 * i);
		drive_sees(&d, said);
	}
	drive_keys(&d, "b");
	drive_sees(&d, "16: soldier course of 260 x 100");
	drive_misses(&d, "110 x 100");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("borders");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_new_border_runs_along_the_chosen_edge);
	tcase_add_test(tc, one_choice_lays_it_all_round_and_one_undo_takes_that_back);
	tcase_add_test(tc, a_border_can_follow_a_kind_of_edge);
	tcase_add_test(tc, none_takes_the_border_off_and_an_edge_without_has_no_values);
	tcase_add_test(tc, its_values_are_changed_one_after_the_other);
	tcase_add_test(tc, a_change_holds_for_every_edge_that_has_the_border);
	tcase_add_test(tc, its_slab_can_come_from_the_catalogue);
	tcase_add_test(tc, on_a_curve_joints_open_or_slabs_are_cut_to_wedges);
	tcase_add_test(tc, a_border_that_does_not_fit_is_refused_with_the_reason);
	tcase_add_test(tc, an_outline_too_narrow_for_its_border_is_refused);
	tcase_add_test(tc, edges_that_are_split_bent_or_taped_keep_their_border);
	tcase_add_test(tc, a_border_is_there_again_after_a_restart);
	tcase_add_test(tc, borders_are_told_apart_in_plain_ascii);
	tcase_add_test(tc, where_the_list_is_full_a_border_along_no_edge_makes_room);
	return suite_run("screen borders", tc);
}
