/* test_screen_build.c - planters, flights of steps and how the edging stands, at their stages.
 *
 * The courtyard is 6.20 m by 3.00 m, corner 1 at 0, 0, the house along edge 1, without a fall. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct drive d, other;

static void setup(void)
{
	drive_begin(&d);
	memset(&other, 0, sizeof other);
}

static void teardown(void)
{
	term_stop(other.t);
	drive_end(&d);
}

static void at(const char *stage, int rows, int cols)
{
	char keys[40];

	drive_start(&d, rows, cols);
	drive_courtyard(&d);
	snprintf(keys, sizeof keys, "@%s", stage);
	drive_keys(&d, keys);
}

/* Opens a list by its key and takes the row in which the words are found. */
static void take(const char *key, const char *title, const char *words)
{
	char keys[80];

	drive_keys(&d, key);
	drive_sees(&d, title);
	snprintf(keys, sizeof keys, "f %s Enter Enter", words);
	drive_keys(&d, keys);
}

/* Changes a value of the list behind a key, and leaves the list. */
static void set(const char *key, const char *title, const char *name, const char *typed)
{
	char keys[200];

	take(key, title, name);
	snprintf(keys, sizeof keys, "Delete %s Enter", typed);
	drive_keys(&d, keys);
	drive_sees(&d, title);
	drive_keys(&d, "Esc");
}

static void box(const char *size)
{
	char keys[80];

	take("b", "a new run from the cursor", "new_box");
	drive_sees(&d, "Outer length x width");
	snprintf(keys, sizeof keys, "%s Enter", size);
	drive_keys(&d, keys);
}

/* --- planters --- */

/* Blocks of 390 with joints of 10 and a wall of 190: 2390 is 6 of them, or 5 between the walls of
 * the other legs; 1590 is 4, or 3. So each course takes 6 + 3 + 6 + 3 or 5 + 4 + 5 + 4: 18, four of
 * them on corners, and two courses 28 and 8. */
START_TEST(a_box_is_typed_its_block_chosen_and_its_blocks_are_counted)
{
	at("Planters", 40, 100);
	drive_sees(&d, "None yet. b draws one");
	box("2,39_x_159cm");
	drive_sees(&d, "Planter 1: i has all its values.");
	drive_figure(&d, "wall", "100");
	take("c", "Block of the catalogue", "390_x_190");
	drive_sees(&d, "Block: Block 390 x 190 x 190.");
	drive_figure(&d, "wall", "190");
	drive_figure(&d, "whole", "28");
	drive_figure(&d, "corner", "8");
	drive_figure(&d, "pieces cut", "0");
	drive_figure(&d, "inside", "2.010");
	drive_figure(&d, "a block", "19.7"); /* 0.39 x 0.19 x 0.19 x 1400 */
	drive_figure(&d, "a block", "no"); /* no limit set: no rule set is chosen */
	drive_keys(&d, "e");
	drive_sees(&d, "leg 1 of 4: corner 1 to 2, 2.390 m, from outside");
	drive_sees(&d, "6 whole, none cut");
	drive_sees(&d, "5 whole, none cut");
	drive_keys(&d, "Right");
	drive_sees(&d, "leg 2 of 4: corner 2 to 3, 1.590 m");
	drive_sees(&d, "4 whole, none cut");
	drive_sees(&d, "3 whole, none cut");
	drive_keys(&d, "Left Left");
	drive_sees(&d, "leg 4 of 4");
	drive_keys(&d, "Esc");
	drive_sees(&d, "[Planters]");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: planter 1: block");
	drive_figure(&d, "wall", "100");
	drive_keys(&d, "u");
	drive_sees(&d, "None yet. b draws one");
	drive_keys(&d, "U U");
	drive_figure(&d, "whole", "28");
	drive_keys(&d, "d");
	drive_sees(&d, "Planter 1 is gone. u brings it back.");
	drive_keys(&d, "u");
	drive_figure(&d, "whole", "28");
}
END_TEST

START_TEST(a_run_is_drawn_leg_by_leg_and_closed)
{
	at("Planters", 40, 100);
	take("b", "a new run from the cursor", "new_run");
	drive_sees(&d, "Leg 1 of the wall's outer face");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Left as it was.");
	take("b", "a new run from the cursor", "new_run");
	drive_sees(&d, "Leg 1 of the wall's outer face");
	drive_keys(&d, "0 Right");
	drive_sees(&d, "A leg is longer than 0.");
	drive_keys(&d, "Delete 2,39 Right");
	drive_sees(&d, "Leg 2 of the wall's outer face");
	drive_keys(&d, "c Enter");
	drive_sees(&d, "A box has three corners at least.");
	drive_keys(&d, "Delete 1590mm Up");
	drive_sees(&d, "Leg 3");
	drive_keys(&d, "2.39m Left");
	drive_sees(&d, "Leg 4");
	drive_keys(&d, "c Enter");
	drive_sees(&d, "Closed to a box");
	drive_figure(&d, "inside", "2.190"); /* less a wall of 100 on both sides */
	drive_figure(&d, "length, its middle", "7.560");
	drive_keys(&d, "x");
	drive_sees(&d, "Corners of the wall's outer face");
	drive_figure(&d, "2.390 ; 1.590", "2.390");
	drive_keys(&d, "Esc");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: planter 1: close it to a box");
	drive_misses(&d, "inside");
}
END_TEST

START_TEST(a_wall_along_an_edge_lies_outside_the_paving)
{
	at("Planters", 40, 100);
	drive_keys(&d, "n");
	take("b", "a new run from the cursor", "along_the");
	drive_sees(&d, "Planter 1 along edge 2: i has all its values.");
	drive_figure(&d, "length, its middle", "3.000");
	drive_keys(&d, "x");
	/* the wall lies to the left of the way along its outer face: down, on the right side */
	drive_figure(&d, "6.200 ; 3.000", "3.000");
	drive_keys(&d, "Esc e");
	drive_sees(&d, "leg 1 of 1: corner 1 to 2, 3.000 m");
}
END_TEST

START_TEST(what_no_wall_can_be_is_named_and_refused_values_stay_to_be_mended)
{
	at("Planters", 40, 100);
	box("0,5_x_0,15");
	drive_sees(&d, "nothing is left of its inside");
	drive_keys(&d, "e");
	drive_sees(&d, "left of its inside; give a longer leg, a narrower block or one leaf.");
	drive_sees(&d, "[Planters]");
	drive_keys(&d, "u");
	drive_sees(&d, "None yet. b draws one");
	box("11'_10_1/2\"_x_0,8"); /* 3.6195 m */
	drive_figure(&d, "length, its middle", "8.439");
	take("i", "Drainage holes", "Joint");
	drive_keys(&d, "Delete 200 Enter");
	drive_sees(&d, "Planter 1, joint: 200 mm is out of reach; give from 0 to 100 mm");
	drive_keys(&d, "Esc");
	take("i", "Drainage holes", "Courses");
	drive_keys(&d, "Delete 2,5 Enter");
	drive_sees(&d, "'2,5' is not a whole number.");
	drive_keys(&d, "Delete 0 Enter");
	drive_sees(&d, "Planter 1, courses: 0 is out of reach; give from 1 to 20");
	drive_keys(&d, "Delete 3 Enter Esc");
	drive_figure(&d, "courses", "3");
}
END_TEST

START_TEST(names_may_be_long_and_odd)
{
	at("Planters", 24, 80);
	box("2,4_x_1");
	set("i", "Corners of its outer face", "Name",
	        "%s%n\"<b>'_;_a_name_that_is_longer_than_the_pane_and_the_window_by_far_%d");
	drive_sees(&d, "Planter 1 (%s%n\"<b>'");
	drive_keys(&d, "e");
	drive_sees(&d, "leg 1 of 4: corner 1 to 2, 2.400 m, from outside");
	drive_keys(&d, "Esc b");
	drive_sees(&d, "Planter 1 (%s%n\"<b>'");
}
END_TEST

START_TEST(in_ascii_and_without_colour_the_wall_can_be_read)
{
	char *screen;

	d.options[0] = "--ascii";
	d.options[1] = "--no-colour";
	at("Planters", 24, 80);
	box("2,4_x_1");
	drive_keys(&d, "e");
	drive_sees(&d, ": cut  # tie  o drainage hole");
	screen = term_screen(d.t);
	for (const char *p = screen; *p; p++)
		ck_assert_int_lt((unsigned char)*p, 128);
	free(screen);
	drive_keys(&d, "?");
	drive_sees(&d, "A leg of the wall from outside");
	drive_keys(&d, "Esc");
	drive_sees(&d, "leg 1 of 4");
}
END_TEST

START_TEST(zoomed_in_the_sketch_shows_the_blocks_of_a_course)
{
	at("Planters", 40, 100);
	box("2,4_x_1");
	drive_misses(&d, "The sketch shows");
	drive_keys(&d, "z Delete 0,05 Enter");
	drive_sees(&d, "The sketch shows odd courses");
	drive_keys(&d, "o");
	drive_sees(&d, "The sketch shows even courses.");
}
END_TEST

START_TEST(a_planter_deleted_elsewhere_leaves_no_wall_to_look_at)
{
	at("Planters", 24, 80);
	box("2,4_x_1");
	drive_keys(&d, "e");
	drive_sees(&d, "leg 1 of 4");
	memcpy(other.store, d.store, sizeof other.store);
	drive_start(&other, 24, 80);
	drive_sees(&other, "[Planters]");
	drive_keys(&other, "d");
	drive_sees(&other, "Planter 1 is gone.");
	drive_sees(&d, "There is no planter yet: b draws one.");
	drive_keys(&d, "n Right Left p l Esc");
	drive_sees(&d, "None yet. b draws one");
}
END_TEST

/* --- steps --- */

static void uk_rules(void)
{
	drive_keys(&d, "@Falls");
	take("t", "Rule set", "UK_guidance");
	drive_sees(&d, "[Falls]");
	drive_keys(&d, "@Steps");
}

/* Approved Document K, 2013, table 1.1, private stair: a riser of 150 to 220 mm, a going of 220 to
 * 300, two risers and a going of 550 to 700. A rise of 450 takes three: two of 225 are too high. */
START_TEST(a_flight_from_an_edge_has_its_risers_by_the_rule_set)
{
	at("Steps", 45, 110);
	uk_rules();
	drive_sees(&d, "None yet. b adds a flight");
	drive_keys(&d, "n n");
	take("b", "a new flight from the cursor", "chosen_edge");
	drive_sees(&d, "Level at the foot of the steps");
	drive_keys(&d, "-450_mm Enter");
	drive_sees(&d, "Flight 1: i has all its values.");
	drive_figure(&d, "rise", "450");
	drive_figure(&d, "risers", "3,");
	drive_figure(&d, "each", "150.0");
	drive_figure(&d, "2 risers + going", "600");
	drive_figure(&d, "runs out", "0.600");
	drive_sees(&d, "It keeps to the rule set.");
	take("c", "Step unit of the catalogue", "1500_x_350");
	drive_sees(&d, "Unit: Step unit 1500 x 350 x 160.");
	drive_figure(&d, "a unit", "193"); /* 1.5 x 0.35 x 0.16 x 2300 */
	drive_sees(&d, "lift: lifting aid or plant");
	set("i", "Middle of the top nosing", "Fall_of", "1:60");
	drive_keys(&d, "e");
	drive_sees(&d, "Flight 1, from the side");
	drive_sees(&d, "rise 450 mm: 3 risers of 150.0, going 300");
	drive_sees(&d, "-0.450");
	drive_keys(&d, "Esc u");
	drive_sees(&d, "Undone: flight 1: Fall of a tread");
	drive_keys(&d, "u u");
	drive_sees(&d, "None yet. b adds a flight");
	drive_keys(&d, "U");
	drive_figure(&d, "each", "150.0");
}
END_TEST

/* 230 is over one riser of 220 and under two of 150. */
START_TEST(a_rise_that_no_rule_allows_is_named)
{
	at("Steps", 45, 110);
	uk_rules();
	take("b", "a new flight from the cursor", "from_the_cursor");
	drive_sees(&d, "Which way the steps go down");
	drive_keys(&d, "Up");
	drive_sees(&d, "Level at the foot of the steps");
	drive_keys(&d, "-0,23 Enter");
	drive_sees(&d, "! No whole number of equal risers");
	drive_sees(&d, "Lift the foot by 10 mm or lower");
	drive_keys(&d, "e");
	drive_sees(&d, "[Steps]");
	set("i", "Middle of the top nosing", "foot", "0");
	drive_sees(&d, "Steps with no rise");
	set("i", "Middle of the top nosing", "foot", "0,3");
	drive_sees(&d, "The steps rise the wrong way");
	set("i", "Middle of the top nosing", "foot", "-0,36");
	drive_figure(&d, "each", "180.0");
	drive_keys(&d, "d");
	drive_sees(&d, "Flight 1 is gone. u brings it back.");
	drive_sees(&d, "None yet. b adds a flight");
}
END_TEST

/* --- edging --- */

/* A kerb of 60 x 250 on 6.20 m: strip 160 x 250 (100 beyond on the outer side), haunch 200 x 84 /
 * 2: 0.0484 m2, 0.300 m3. Haunched on both sides the strip is 260 wide and there are two: 0.0818
 * m2, 0.507 m3. A third of 250 is 83.3: common practice. */
START_TEST(a_kerb_is_held_a_third_and_its_bed_is_counted)
{
	at("Edging", 45, 110);
	drive_keys(&d, "n n");
	drive_figure(&d, "length", "6.200");
	take("s", "What stands along edge 3?", "kerb");
	drive_figure(&d, "along it", "kerb");
	set("v", "Along kerb edges (K), all of them", "Top_over", "-25_mm");
	take("e", "To buy along edges marked K", "1000_x_250_x_60");
	drive_figure(&d, "a unit", "34.5"); /* 1.0 x 0.25 x 0.06 x 2300 */
	set("v", "Along kerb edges (K), all of them", "strip,_thick", "250");
	set("v", "Along kerb edges (K), all of them", "Haunch,_width", "200");
	drive_figure(&d, "lean concrete", "0.30");
	drive_misses(&d, "a third of");
	drive_keys(&d, "v");
	drive_figure(&d, "Top over the paving", "-25"); /* the unit left it as it was */
	drive_figure(&d, "Haunch reaches up", "84"); /* came with the unit */
	drive_keys(&d, "Esc");
	set("v", "Along kerb edges (K), all of them", "reaches_up", "80");
	drive_sees(&d, "it: at least 84 mm, a third of");
	set("v", "Along kerb edges (K), all of them", "reaches_up", "84");
	take("v", "Along kerb edges (K), all of them", "Haunch_on");
	drive_figure(&d, "Haunch on", "both");
	drive_keys(&d, "Esc");
	drive_figure(&d, "lean concrete", "0.51");
	take("v", "Along kerb edges (K), all of them", "reaches_up");
	drive_keys(&d, "Delete 300 Enter");
	drive_sees(&d, "Haunch reaches up: give from 0 up to the height of the unit");
	drive_keys(&d, "Esc");
	drive_figure(&d, "lean concrete", "0.51");
	for (int i = 0; i < 9; i++)
		drive_keys(&d, "u");
	drive_misses(&d, "lean concrete");
}
END_TEST

START_TEST(an_edge_that_stands_over_the_paving_says_whether_it_holds_water)
{
	at("Edging", 45, 110);
	drive_keys(&d, "n n");
	take("s", "What stands along edge 3?", "kerb");
	take("e", "To buy along edges marked K", "1000_x_250_x_60");
	drive_keys(&d, "@Falls s 15 Enter");
	drive_sees(&d, "15 mm/m");
	drive_keys(&d, "w 90 Enter @Edging");
	drive_misses(&d, "It holds back");
	set("v", "Along kerb edges (K), all of them", "Top_over", "50");
	drive_sees(&d, "! It holds back the water of");
	drive_sees(&d, "18.60 m2: see Falls."); /* all of it falls that way */
	drive_keys(&d, "@Falls");
	drive_sees(&d, "18.60 m2");
	drive_keys(&d, "w 270 Enter @Edging");
	drive_sees(&d, "water reaches it.");
	drive_misses(&d, "It holds back");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("build");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 90);
	tcase_add_test(tc, a_box_is_typed_its_block_chosen_and_its_blocks_are_counted);
	tcase_add_test(tc, a_run_is_drawn_leg_by_leg_and_closed);
	tcase_add_test(tc, a_wall_along_an_edge_lies_outside_the_paving);
	tcase_add_test(tc, what_no_wall_can_be_is_named_and_refused_values_stay_to_be_mended);
	tcase_add_test(tc, names_may_be_long_and_odd);
	tcase_add_test(tc, in_ascii_and_without_colour_the_wall_can_be_read);
	tcase_add_test(tc, zoomed_in_the_sketch_shows_the_blocks_of_a_course);
	tcase_add_test(tc, a_planter_deleted_elsewhere_leaves_no_wall_to_look_at);
	tcase_add_test(tc, a_flight_from_an_edge_has_its_risers_by_the_rule_set);
	tcase_add_test(tc, a_rise_that_no_rule_allows_is_named);
	tcase_add_test(tc, a_kerb_is_held_a_third_and_its_bed_is_counted);
	tcase_add_test(tc, an_edge_that_stands_over_the_paving_says_whether_it_holds_water);
	return suite_run("screen build", tc);
}
