/* test_screen_tables.c - tables and forms: undo, two planners at once, many rows, strange names.
 *
 * The courtyard of test_screen.c without its opening. */
#include "screen/drive.h"
#include "suite.h"

#include "slabwright/store.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct drive d, other;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, 24, 80);
	drive_courtyard(&d);
	memset(&other, 0, sizeof other);
	memcpy(other.store, d.store, sizeof other.store);
}

static void teardown(void)
{
	term_stop(other.t);
	drive_end(&d);
}

static void two_pegs(void)
{
	drive_keys(&d, "@Set-out l a");
	drive_keys(&d, "first Enter 1;1 Enter second Enter 2;1 Enter Esc");
	drive_figure(&d, "second", "1.000");
}

START_TEST(rows_are_undone_redone_and_deleted_in_the_table)
{
	two_pegs();
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: peg 2: across ; up");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: peg 2: peg");
	drive_misses(&d, "second");
	drive_keys(&d, "U");
	drive_sees(&d, "second");
	drive_keys(&d, "Home d");
	drive_sees(&d, "The row is gone. u brings it back");
	drive_misses(&d, "first");
	drive_keys(&d, "u");
	drive_sees(&d, "first");
	drive_keys(&d, "End d");
	drive_sees(&d, "There is no row here yet");
	drive_keys(&d, "Home Right Enter 3 Enter");
	drive_sees(&d, "Two lengths are needed");
	drive_keys(&d, "Delete 11'_10_1/2\";15_mm Enter"); /* 142.5 in x 25.4 = 3619.5 mm */
	drive_figure(&d, "first", "3.6195");
}
END_TEST

/* A cell that is mended stands alone: no prompt opens the next one. */
START_TEST(a_mended_cell_stands_alone)
{
	two_pegs();
	drive_keys(&d, "Home Enter gate Enter");
	drive_figure(&d, "gate", "1.000");
	drive_misses(&d, "peg 1, across");
	drive_keys(&d, "U");
	drive_sees(&d, "Nothing to redo");
}
END_TEST

START_TEST(rows_that_another_planner_deletes_are_not_typed_into)
{
	two_pegs();
	drive_keys(&d, "Home Down Right Enter 9;9");
	drive_sees(&d, "peg 2, across ; up: 9;9");
	drive_start(&other, 24, 80);
	drive_sees(&other, "[Set-out]");
	drive_keys(&other, "l Home d");
	drive_sees(&other, "The row is gone");
	drive_sees(&d, "Another program has changed this variant");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Another program has added or deleted rows");
	drive_sees(&d, "9;9"); /* what was typed is still there */
	drive_keys(&d, "Esc");
	drive_figure(&d, "second", "2.000");
	drive_keys(&other, "u");
	drive_sees(&d, "first");
}
END_TEST

START_TEST(a_thing_deleted_by_another_planner_ends_its_form)
{
	drive_keys(&d, "@Falls s 1:60 Enter c f new_gully Enter Enter");
	drive_sees(&d, "Gully 1 at the cursor");
	drive_keys(&d, "Down Down Enter 2");
	drive_sees(&d, "Takes at most: 2");
	drive_start(&other, 24, 80);
	drive_sees(&other, "[Falls]");
	drive_keys(&other, "c Enter f Delete_it Enter Enter");
	drive_sees(&other, "The gully is gone");
	drive_sees(&d, "Another program has changed this variant");
	drive_keys(&d, "Enter");
	drive_sees(&d, "That gully is gone");
	drive_sees(&d, "[Falls]");
}
END_TEST

START_TEST(an_open_form_shows_what_another_planner_sets)
{
	drive_keys(&d, "@Falls s 1:60 Enter n n c Enter");
	drive_figure(&d, "Clear width", "100");
	drive_start(&other, 24, 80);
	drive_sees(&other, "[Falls]");
	drive_keys(&other, "c Enter Down Enter 180 Enter");
	drive_figure(&other, "Clear width", "180");
	drive_figure(&d, "Clear width", "180");
}
END_TEST

/* Puts levels into the only variant while no planner runs. */
static void put_spots(size_t count, const char *const *names)
{
	static struct plan_spot spots[300];
	struct edit e = { .type = EDIT_SITE, .label = "levels" };
	struct arena mem = { 0 };
	struct store *store;
	struct plan plan;
	struct error err;

	ck_assert_int_eq(store_open(&store, d.store, STORE_MUST_EXIST, NULL, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(store, 1, &mem, &plan, &err), STATUS_OK);
	for (size_t i = 0; i < count; i++)
		spots[i] = (struct plan_spot){ names ? names[i] : arena_print(&mem, "p%zu", i + 1),
			(int64_t)(i % 20) * 400000, (int64_t)(i / 20) * 300000, (int64_t)i * 1000 };
	e.site = plan.site;
	e.site.spots = spots;
	e.site.spot_count = count;
	ck_assert_msg(store_edit(store, 1, &e, &err) == STATUS_OK, "%s", err.text);
	arena_free(&mem);
	store_close(store);
}

START_TEST(a_table_of_200_rows_scrolls)
{
	drive_keys(&d, "@Ground");
	drive_quit(&d);
	put_spots(200, NULL);
	drive_start(&d, 24, 80);
	drive_keys(&d, "l");
	drive_sees(&d, "new row after 200");
	drive_figure(&d, "p200", "0.199");
	drive_keys(&d, "Home");
	drive_sees(&d, "row 1 of 200");
	drive_figure(&d, "p1 ", "0.000");
	drive_misses(&d, "p200");
	drive_keys(&d, "PageDown PageDown");
	drive_sees(&d, "row 33 of 200"); /* 24 rows less 8, twice */
	drive_figure(&d, "p33", "0.032");
	drive_keys(&d, "Right Right 5_mm Enter");
	drive_figure(&d, "p33", "0.005");
	drive_keys(&d, "End Up d");
	drive_sees(&d, "new row after 199");
	drive_misses(&d, "p200");
	term_resize(d.t, 16, 60);
	drive_sees(&d, "new row after 199");
	drive_figure(&d, "p199", "0.198");
	term_resize(d.t, 60, 200);
	drive_figure(&d, "p199", "0.198");
	drive_keys(&d, "Home");
	drive_figure(&d, "p40", "0.039");
}
END_TEST

START_TEST(strange_names_keep_the_columns_straight)
{
	static const char *const names[] = {
		"\xe6\x9d\xb1\xe4\xba\xac\xe6\x8e\x92\xe6\xb0\xb4", /* four wide characters */
		"e\xcc\x81\x1b[2J\x07",
		"a name that is much longer than any column of this table can be, and on it goes",
		"",
	};
	int row[4], col[4];

	drive_keys(&d, "@Ground");
	drive_quit(&d);
	put_spots(4, names);
	drive_start(&d, 24, 80);
	drive_keys(&d, "l");
	drive_sees(&d, "\u6771\u4eac\u6392\u6c34");
	drive_sees(&d, "e\u0301\u241b[2J\u2407");
	drive_sees(&d, "1.200 ; 0.000");
	term_drain(d.t, 50, 300);
	ck_assert(term_find(d.t, "0.000 ; 0.000", &row[0], &col[0]));
	ck_assert(term_find(d.t, "0.400 ; 0.000", &row[1], &col[1]));
	ck_assert(term_find(d.t, "0.800 ; 0.000", &row[2], &col[2]));
	ck_assert(term_find(d.t, "1.200 ; 0.000", &row[3], &col[3]));
	for (int i = 1; i < 4; i++) {
		ck_assert_int_eq(col[i], col[0]);
		ck_assert_int_eq(row[i], row[0] + i);
	}
	drive_figure(&d, "a name that is", "0.002");
	term_resize(d.t, 16, 60); /* names give way, figures do not */
	drive_figure(&d, "0.800 ; 0.000", "0.002");
}
END_TEST

/* At 80 columns with a long name all that is worked out is still seen. */
START_TEST(what_is_worked_out_stays_in_sight)
{
	drive_keys(&d, "@Falls s 1:60 Enter t f UK_guidance Enter Enter @Check b a");
	drive_keys(&d, "the_corner_by_the_garden_gate_of_the_neighbours Enter Enter 20_mm Enter "
	               "0,1;0,1 Enter Esc");
	drive_figure(&d, "off level", "off place");
	drive_sees(&d, "+20.0 mm !");
	drive_sees(&d, "141.4 mm !"); /* 100 mm x the root of 2 */
	term_resize(d.t, 16, 60);
	drive_keys(&d, "Right Right Right");
	drive_sees(&d, "141.4 mm !");
}
END_TEST

START_TEST(a_table_and_its_keys_are_explained)
{
	drive_keys(&d, "@Set-out l");
	drive_sees(&d, "Enter type");
	drive_sees(&d, "a add a row");
	drive_sees(&d, "Esc back");
	drive_keys(&d, "?");
	drive_sees(&d, "A list that is typed row by row");
	drive_sees(&d, "until Esc");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Pegs of your own");
	drive_keys(&d, "y");
	drive_sees(&d, "That key does nothing here");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, rows_are_undone_redone_and_deleted_in_the_table);
	tcase_add_test(tc, a_mended_cell_stands_alone);
	tcase_add_test(tc, rows_that_another_planner_deletes_are_not_typed_into);
	tcase_add_test(tc, a_thing_deleted_by_another_planner_ends_its_form);
	tcase_add_test(tc, an_open_form_shows_what_another_planner_sets);
	tcase_add_test(tc, a_table_of_200_rows_scrolls);
	tcase_add_test(tc, strange_names_keep_the_columns_straight);
	tcase_add_test(tc, what_is_worked_out_stays_in_sight);
	tcase_add_test(tc, a_table_and_its_keys_are_explained);
	return suite_run("screen tables", tc);
}
