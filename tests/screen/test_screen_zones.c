/* test_screen_zones.c - zones drawn, named, laid and mended by keys.
 *
 * The courtyard of these tests is 6.20 m x 3.00 m, laid with slabs of 600 x 300 in stack bond from
 * 0, 0: 10 courses of 10 whole slabs and a piece of 200 mm. Its strip is a zone of 1.80 m x 3.00 m
 * from 0, 0: 10 courses of 3 slabs, which leave 7 and the piece to the field. Laid with slabs of
 * 300 x 300 it has 60 of its own. */
#include "program.h"
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

/* The courtyard in stack bond, at Outline, the cursor at 0, 0. */
static void stack_courtyard(void)
{
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	drive_keys(&d, "S-Tab S-Tab");
	drive_sees(&d, "[Outline]");
}

/* A zone from the cursor, laid as the field is; at Outline. */
static void zone(const char *size, const char *name)
{
	drive_keys(&d, "g");
	drive_sees(&d, "r makes a rectangle from here");
	drive_keys(&d, "r");
	drive_keys(&d, size);
	drive_keys(&d, "Enter");
	drive_sees(&d, "Name of zone");
	drive_keys(&d, name);
	drive_keys(&d, "Enter");
	drive_sees(&d, "What lies in zone");
	drive_keys(&d, "Enter");
	drive_sees(&d, "is laid as the field");
}

static void strip_courtyard(void)
{
	stack_courtyard();
	zone("1,8_x_3", "path_strip");
}

START_TEST(a_zone_drawn_as_a_rectangle_gets_a_slab_of_its_own)
{
	strip_courtyard();
	drive_figure(&d, "area in the paving", "5.40");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "Zone 1, path strip");
	drive_figure(&d, "whole", "100");
	drive_figure(&d, "cut", "10");
	drive_keys(&d, "t 300_x_300 Enter");
	drive_figure(&d, "size mm", "300");
	drive_figure(&d, "whole", "130");
	drive_figure(&d, "cut", "10");
	drive_keys(&d, "PageDown");
	drive_figure(&d, "field", "13.20");
	drive_figure(&d, "whole, cut", "70,");
	drive_figure(&d, "zone 1, path strip", "5.40");
	drive_figure(&d, "whole, cut", "60,");
	drive_keys(&d, "p");
	drive_sees(&d, "Field: slab, bond and start");
	drive_keys(&d, "PageUp");
	drive_figure(&d, "size mm", "600");
	drive_keys(&d, "@Order");
	drive_figure(&d, "597 x 297", "77"); /* 70 and 5 for the cuts, 2 for breakage */
	drive_figure(&d, "297 x 297", "62"); /* 60, and 1.2 up to 2 */
}
END_TEST

/* A triangle of 2 m x 1 m at 1, 1. */
START_TEST(a_zone_drawn_corner_by_corner_may_have_no_slabs)
{
	stack_courtyard();
	drive_keys(&d, "z Delete 0,5 Enter Right Right Up Up g");
	drive_sees(&d, "Drawing zone 1");
	drive_keys(&d, "Right Right Right Right Enter");
	drive_figure(&d, "corners so far", "2");
	drive_figure(&d, "area", "18.60"); /* the figures stay while it is drawn */
	drive_keys(&d, "1 Up c");
	drive_sees(&d, "Name of zone 1");
	drive_keys(&d, "Enter Down Enter");
	drive_sees(&d, "Zone 1 has no slabs: the count leaves it out");
	drive_figure(&d, "area in the paving", "1.00");
	drive_sees(&d, "no slabs");
	drive_keys(&d, "Tab Tab PageDown");
	drive_figure(&d, "field", "17.60");
	drive_keys(&d, "n");
	drive_sees(&d, "Zone 1: it has no slabs");
	drive_misses(&d, "c slab");
	drive_keys(&d, "c");
	drive_sees(&d, "Zone 1 has no slabs: i gives it some");
	drive_keys(&d, "m");
	drive_sees(&d, "Zone 1 has no slabs: i gives it some");
	drive_misses(&d, "moving the start line");
	drive_sees(&d, "Zone 1: no slabs.");
	drive_keys(&d, "i Down Enter Esc");
	drive_figure(&d, "bond", "stack"); /* as the field's */
	drive_sees(&d, "c slab");
}
END_TEST

START_TEST(a_zone_may_reach_over_the_edge_of_the_paving)
{
	stack_courtyard();
	drive_keys(&d, "z Delete 0,5 Enter Left Left Down Down g 2 Right 2 Up 2 Left c");
	drive_sees(&d, "Name of zone 1");
	drive_keys(&d, "Esc");
	drive_figure(&d, "area in the paving", "1.00");
}
END_TEST

START_TEST(a_zone_on_the_edges_of_the_outline_stays_dashed_within)
{
	int row, col;

	stack_courtyard();
	zone("1,8_x_3", "strip");
	drive_keys(&d, "N"); /* the chosen edge would go over the others */
	drive_misses(&d, "Zone 1");
	term_drain(d.t, 50, 200);
	ck_assert(term_find(d.t, "strip", &row, &col));
	ck_assert(term_find(d.t, "\u254e", &row, &col));
	for (int r = row; r < row + 4; r++) {
		ck_assert_int_eq(term_cell(d.t, r, col).chars[0], 0x254e);
		ck_assert_int_ne(term_cell(d.t, r, col + 1).chars[0], 0x254e);
	}
	ck_assert(!term_find(d.t, "\u254c", &row, &col)); /* above and below runs the outline */
}
END_TEST

START_TEST(corners_and_edges_of_a_zone_are_changed_by_the_keys_of_openings)
{
	stack_courtyard();
	drive_keys(&d, "z Delete 0,3 Enter Right Right Up Up");
	zone("1,8_x_1,2", "");
	drive_figure(&d, "Zone 1, corner", "1");
	drive_keys(&d, "n m Right Right Enter");
	drive_sees(&d, "Corner 2 is put down here");
	drive_figure(&d, "area in the paving", "2.52"); /* 2.16 + 0.6 x 1.2 / 2 */
	drive_keys(&d, "x 2,4_;_0,6 Enter");
	drive_figure(&d, "area in the paving", "2.16");
	drive_keys(&d, "p t 2,1 Enter");
	drive_sees(&d, "Edge 1 is 2.100 m; corners 2 and 3 moved");
	drive_figure(&d, "area in the paving", "2.52");
	drive_keys(&d, "i");
	drive_sees(&d, "Corner 2 is new");
	drive_keys(&d, "d");
	drive_sees(&d, "Corner 2 is deleted");
	drive_keys(&d, "p a Delete 0,3 Enter");
	drive_sees(&d, "Edge 1 is an arc");
	/* the segment of a chord of 2.1 and a rise of 0.3: radius 1.9875, angle 1.1126 */
	drive_figure(&d, "area in the paving", "2.95");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: bend edge 1 of zone 1");
	drive_keys(&d, "s");
	drive_sees(&d, "Nothing stands along a zone's edges");
	drive_keys(&d, "N");
	drive_misses(&d, "Zone 1");
	drive_keys(&d, "N");
	drive_sees(&d, "Zone 1, corner 1");
	drive_keys(&d, "p n n n n n"); /* past the last corner comes the outline */
	drive_sees(&d, "house wall");
}
END_TEST

START_TEST(enter_chooses_a_zones_corner_and_edge_under_the_cursor)
{
	strip_courtyard();
	drive_keys(&d, "N");
	drive_figure(&d, "along it", "wall"); /* corner 1 of the outline, where the zone's is too */
	drive_keys(&d, "Enter");
	drive_sees(&d, "Corner 1 of zone 1 and the edge that leaves it are chosen");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Corner 1 and the edge that leaves it are chosen");
	drive_keys(&d, "z Delete 0,6 Enter Right Right Right Up Up Enter");
	drive_sees(&d, "Edge 2 of zone 1 is chosen: 3.000 m");
}
END_TEST

START_TEST(zones_that_would_overlap_are_refused_and_not_stored)
{
	strip_courtyard();
	drive_keys(&d, "g r 1_x_1 Enter");
	drive_sees(&d, "Zone 2 overlaps zone 1, path strip by 1.000 m2; move the corners");
	drive_sees(&d, "Zone 2, width x height: 1 x 1"); /* what was typed stays */
	drive_keys(&d, "Esc 1 Right 1 Up c");
	drive_sees(&d, "Zone 2 overlaps zone 1, path strip by 0.500 m2");
	drive_sees(&d, "Drawing zone 2");
	drive_keys(&d, "u u u");
	drive_sees(&d, "Undone: start zone 2"); /* so closing it left no trace */
	/* Beside it there is room, until a corner is moved over it. */
	drive_keys(&d, "N z Delete 0,6 Enter Right Right Right Right");
	drive_figure(&d, "at", "2.400");
	zone("1,2_x_1,2", "");
	drive_keys(&d, "x 1,2_;_0 Enter");
	drive_sees(&d, "Zone 2 overlaps zone 1, path strip by 0.");
	drive_keys(&d, "Esc");
	drive_figure(&d, "at", "2.400");
	drive_keys(&d, "x 1,8_;_0 Enter"); /* along it is not over it */
	drive_figure(&d, "at", "1.800");
}
END_TEST

START_TEST(what_would_leave_a_zone_outside_the_paving_is_refused)
{
	stack_courtyard();
	drive_keys(&d, "z Delete 0,6 Enter S-Right S-Right Left"); /* 5.4, 0 */
	zone("0,6_x_3", "edge");
	drive_keys(&d, "N t 5 Enter");
	drive_sees(&d, "Zone 1, edge has no part in the paving; move its corners onto it");
	drive_keys(&d, "Esc");
	drive_figure(&d, "area", "18.60");
	drive_keys(&d, "N x 7_;_1,5 Enter"); /* right of its own edge 2 */
	drive_sees(&d, "Zone 1 \"edge\": edge 2 (3.000 m) and edge 4");
	drive_keys(&d, "Esc D");
	drive_sees(&d, "Zone 1 is deleted. u brings it back.");
	drive_keys(&d, "t 5 Enter");
	drive_figure(&d, "area", "15.00");
}
END_TEST

START_TEST(the_outline_is_not_deleted_from_under_its_zones)
{
	strip_courtyard();
	drive_keys(&d, "N D");
	drive_sees(&d, "The outline has zones: choose each (N) and delete it (D) first");
	drive_keys(&d, "N D N D");
	drive_sees(&d, "The outline is deleted");
	drive_keys(&d, "g");
	drive_sees(&d, "Draw the outline first; zones are parts of it");
}
END_TEST

START_TEST(undo_and_redo_name_what_was_done_with_a_zone)
{
	static const char *const labels[] = { "set the level of zone 1", "type a slab size, zone 1",
		"zone 1 has slabs", "zone 1 has no slabs", "name zone 1", "close zone 1",
		"drop corner 3 of zone 1", "drop corner 2 of zone 1", "start zone 1" };
	const size_t count = sizeof labels / sizeof *labels;

	stack_courtyard();
	drive_keys(&d, "g 1,8 Right 3 Up c strip Enter Down Enter");
	drive_sees(&d, "has no slabs");
	drive_keys(&d, "Tab Tab n i Down Enter Esc t 300_x_300 Enter i Down Down Enter -20 Enter");
	drive_figure(&d, "Level over the surface there", "-20");
	drive_keys(&d, "Esc");
	drive_sees(&d, "20 mm under the surface");
	for (size_t i = 0; i < count; i++) {
		char line[100];

		snprintf(line, sizeof line, "Undone: %s.", labels[i]);
		drive_keys(&d, "u");
		drive_sees(&d, line);
	}
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: choose the bond");
	drive_keys(&d, "U");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "[Laying]");
	for (size_t i = count; i-- > 0;) {
		char line[100];

		snprintf(line, sizeof line, "Done again: %s.", labels[i]);
		drive_keys(&d, "U");
		drive_sees(&d, line);
	}
	drive_keys(&d, "n");
	drive_figure(&d, "size mm", "300");
	drive_sees(&d, "20 mm under the surface");
}
END_TEST

START_TEST(a_zone_is_found_again_as_it_was_left)
{
	strip_courtyard();
	drive_keys(&d, "Tab Tab t 300_x_300 Enter");
	drive_figure(&d, "whole", "130");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "Zone 1, path strip");
	drive_figure(&d, "size mm", "300");
	drive_figure(&d, "whole", "130");
	drive_keys(&d, "S-Tab S-Tab z Delete 0,6 Enter S-Right g 0,6 Right");
	drive_figure(&d, "corners so far", "2");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "Drawing zone 2");
	drive_figure(&d, "corners so far", "2");
	drive_keys(&d, "Tab Tab"); /* counted is what is drawn to its end */
	drive_figure(&d, "whole", "130");
	drive_misses(&d, "No figures yet");
}
END_TEST

START_TEST(values_of_the_whole_variant_stay_with_the_field)
{
	strip_courtyard();
	drive_keys(&d, "Tab Tab i");
	drive_sees(&d, "Values of zone 1, path strip");
	drive_misses(&d, "Saw kerf");
	drive_keys(&d, "End Enter");
	drive_sees(&d, "are one for all parts: p goes");
	drive_keys(&d, "p i");
	drive_sees(&d, "Saw kerf");
	drive_misses(&d, "Level over");
	drive_keys(&d, "Esc n i Enter Delete kerbside Enter");
	drive_sees(&d, "> Name");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Zone 1, kerbside");
	drive_keys(&d, "i Down Down Enter 2000 Enter");
	drive_sees(&d, "Zone 1: Level: 2000 mm is out of reach");
	drive_keys(&d, "Esc Esc t 1_x_1 Enter");
	drive_sees(&d, "Zone 1: Slab length: 1 mm is out of reach");
	drive_keys(&d, "Esc p t 1_x_1 Enter");
	drive_sees(&d, "Slab length: 1 mm is out of reach");
	drive_misses(&d, "Zone 1: Slab");
}
END_TEST

/* A slab laid in two parts is one line of the order, and stays one when it gets a price. */
START_TEST(a_price_is_that_of_the_slab_wherever_it_lies)
{
	strip_courtyard();
	drive_keys(&d, "@Order");
	drive_sees(&d, "c, g and i are for: Zone 1, path strip");
	drive_keys(&d, "c 2 Enter");
	drive_sees(&d, "Set for this slab in the field and in zones");
	drive_figure(&d, "price", "216.00"); /* 100 and 5 for the cuts, 3 for breakage */
	drive_misses(&d, "597 x 297");
	drive_keys(&d, "p c 3 Enter");
	drive_figure(&d, "price", "324.00");
}
END_TEST

START_TEST(bond_start_and_turn_are_the_zones_own)
{
	strip_courtyard();
	drive_keys(&d, "Tab Tab x 0,3_;_0 Enter"); /* 2 whole a course, two pieces of 300 */
	drive_figure(&d, "start", "0.300");
	drive_figure(&d, "whole", "90");
	drive_figure(&d, "cut", "30");
	drive_keys(&d, "m Left Enter");
	drive_figure(&d, "start", "0.290");
	drive_keys(&d, "u r 90 Enter");
	drive_figure(&d, "turned", "90");
	drive_keys(&d, "b Down Enter");
	drive_figure(&d, "bond", "1/2");
	drive_keys(&d, "p");
	drive_figure(&d, "bond", "stack");
	drive_figure(&d, "start", "0.000");
	drive_misses(&d, "turned");
	/* Enter chooses the part under the cursor. */
	drive_keys(&d, "z Delete 0,6 Enter Right Up Enter");
	drive_sees(&d, "Zone 1, path strip: slab, bond");
	drive_keys(&d, "S-Right Enter");
	drive_sees(&d, "Field: slab, bond");
}
END_TEST

START_TEST(a_zone_far_out_is_seen_whole)
{
	drive_courtyard(&d);
	drive_figure(&d, "cell", "0.300");
	drive_keys(&d, "g r 40_x_3 Enter Enter Enter");
	drive_sees(&d, "is laid as the field");
	drive_figure(&d, "cell", "2.000");
}
END_TEST

START_TEST(zones_are_told_apart_in_plain_ascii)
{
	int row, col;

	drive_quit(&d);
	d.options[0] = "--ascii";
	d.options[1] = "--no-colour";
	drive_start(&d, 24, 80);
	stack_courtyard();
	drive_keys(&d, "z Delete 0,3 Enter Right Right Up Up");
	zone("3_x_1,8", "bed");
	drive_keys(&d, "N");
	term_drain(d.t, 50, 200);
	ck_assert(term_find(d.t, "x - - - - - - - - - x", &row, &col) ||
	          term_find(d.t, "x- - - - - - - - - -x", &row, &col));
	ck_assert_int_eq(term_cell(d.t, row + 2, col).chars[0], ';');
	ck_assert(term_find(d.t, "bed", &row, &col));
}
END_TEST

/* A plan of 6 m x 3 m, with these zones. */
#define PLAN_WITH(zones)                                                                           \
	"{ \"format\": \"slabwright-plan\", \"version\": 1, \"client\": { \"name\": \"Ann\" },\n"  \
	"\"job\": { \"title\": \"Yard\" }, \"variants\": [ { \"name\": \"A\",\n"                   \
	"\"outline\": { \"nodes\": [ { \"x\": 0, \"y\": 0 }, { \"x\": 6000, \"y\": 0 },\n"         \
	"{ \"x\": 6000, \"y\": 3000 }, { \"x\": 0, \"y\": 3000 } ] },\n"                           \
	"\"laying\": { \"slab\": { \"length\": 600, \"width\": 300 }, \"bond\": \"stack\" },\n"    \
	"\"zones\": [" zones "] } ] }\n"

/* Starts the planner on the document's variant. */
static void open_document(const char *document)
{
	struct output o;

	drive_quit(&d);
	program_folder();
	program_write("zones.json", document);
	RUN(&o, "--store", d.store, "import", program_path("zones.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	program_folder_remove();
	drive_start(&d, 24, 80);
	drive_sees(&d, "Clients");
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "[Outline]");
}

START_TEST(a_variant_whose_zones_cannot_be_laid_says_so_and_is_mended)
{
	open_document(PLAN_WITH(
	        "{ \"name\": \"bed\", \"paved\": false, \"nodes\": [ { \"x\": 0, \"y\": 0 },\n"
	        "{ \"x\": 1200, \"y\": 0 }, { \"x\": 1200, \"y\": 1200 }, { \"x\": 0, \"y\": 1200 "
	        "} ] },"
	        "{ \"name\": \"mat\", \"nodes\": [ { \"x\": 600, \"y\": 0 }, { \"x\": 2400, \"y\": "
	        "0 },\n"
	        "{ \"x\": 2400, \"y\": 1200 }, { \"x\": 600, \"y\": 1200 } ],\n"
	        "\"laying\": { \"slab\": { \"length\": 450, \"width\": 450 },\n"
	        "\"bond\": \"herringbone\" } }"));
	drive_sees(&d, "No figures yet");
	drive_sees(&d, "Zone 2, mat overlaps zone");
	drive_keys(&d, "N N");
	drive_sees(&d, "Zone 2, corner 1");
	drive_keys(&d, "x 1,2_;_0 Enter");
	drive_figure(&d, "at", "1.200");
	drive_sees(&d, "No figures yet"); /* mended by half is no worse */
	drive_keys(&d, "n n n x 1,2_;_1,2 Enter");
	drive_sees(&d, "Zone 2, mat: herringbone");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "No figures yet");
	drive_keys(&d, "n n");
	drive_sees(&d, "Zone 2, mat");
	drive_figure(&d, "bond", "herringbone");
	drive_keys(&d, "t 600_x_300 Enter");
	drive_misses(&d, "No figures yet");
	drive_figure(&d, "size mm", "600");
	drive_sees(&d, "Counted");
	drive_keys(&d, "t 600_x_400 Enter"); /* what fits must not become what does not */
	drive_sees(&d, "Herringbone wants");
}
END_TEST

/* A document may hold such a ring beside one that is still being drawn. */
START_TEST(a_zone_that_crosses_itself_is_mended_corner_by_corner)
{
	open_document(PLAN_WITH(
	        "{ \"name\": \"bow\", \"paved\": false, \"nodes\": [ { \"x\": 600, \"y\": 600 },\n"
	        "{ \"x\": 1800, \"y\": 600 }, { \"x\": 600, \"y\": 1800 },\n"
	        "{ \"x\": 1800, \"y\": 1800 } ] },\n"
	        "{ \"closed\": false, \"nodes\": [ ] }"));
	drive_sees(&d, "Drawing zone 2");
	drive_figure(&d, "corners so far", "0");
	drive_keys(&d, "3 ");
	drive_sees(&d, "Enter drops its first corner at the cursor");
	drive_keys(&d, "d");
	drive_sees(&d, "Zone 2 is deleted");
	drive_sees(&d, "Zone 1 \"bow\": edge 2");
	drive_keys(&d, "N n n x 1,8_;_1,8 Enter"); /* onto corner 4: no worse */
	drive_figure(&d, "at", "1.800");
	drive_keys(&d, "n x 0,6_;_1,8 Enter");
	drive_figure(&d, "area in the paving", "1.44");
	drive_keys(&d, "x 1,8_;_0 Enter");
	drive_sees(&d, "Zone 1 \"bow\": edge"); /* what is sound stays so */
	drive_keys(&d, "Esc");
	drive_figure(&d, "area in the paving", "1.44");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("zones");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_zone_drawn_as_a_rectangle_gets_a_slab_of_its_own);
	tcase_add_test(tc, a_zone_drawn_corner_by_corner_may_have_no_slabs);
	tcase_add_test(tc, a_zone_may_reach_over_the_edge_of_the_paving);
	tcase_add_test(tc, a_zone_on_the_edges_of_the_outline_stays_dashed_within);
	tcase_add_test(tc, corners_and_edges_of_a_zone_are_changed_by_the_keys_of_openings);
	tcase_add_test(tc, enter_chooses_a_zones_corner_and_edge_under_the_cursor);
	tcase_add_test(tc, zones_that_would_overlap_are_refused_and_not_stored);
	tcase_add_test(tc, what_would_leave_a_zone_outside_the_paving_is_refused);
	tcase_add_test(tc, the_outline_is_not_deleted_from_under_its_zones);
	tcase_add_test(tc, undo_and_redo_name_what_was_done_with_a_zone);
	tcase_add_test(tc, a_zone_is_found_again_as_it_was_left);
	tcase_add_test(tc, values_of_the_whole_variant_stay_with_the_field);
	tcase_add_test(tc, a_price_is_that_of_the_slab_wherever_it_lies);
	tcase_add_test(tc, bond_start_and_turn_are_the_zones_own);
	tcase_add_test(tc, a_zone_far_out_is_seen_whole);
	tcase_add_test(tc, zones_are_told_apart_in_plain_ascii);
	tcase_add_test(tc, a_variant_whose_zones_cannot_be_laid_says_so_and_is_mended);
	tcase_add_test(tc, a_zone_that_crosses_itself_is_mended_corner_by_corner);
	return suite_run("screen zones", tc);
}
