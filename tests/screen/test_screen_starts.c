/* test_screen_starts.c - the ranking of start lines: it gets better by itself, shows what it marks,
 * and stores nothing until a start is taken.
 *
 * The courtyard of 6.20 m x 3.00 m in stack bond of 600 x 300, start at 0, 0: ten courses of ten
 * whole slabs and a cut one of 200 mm. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>

enum { ROWS = 30, COLS = 100 };

static struct drive d;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, ROWS, COLS);
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
}

static void teardown(void)
{
	drive_end(&d);
}

/* Whether the sketch's first column comes to be drawn as a cut piece, or not. */
static void cut_at_the_left(bool cut)
{
	bool is = !cut;

	for (int i = 0; i < 200 && is != cut; i++) {
		is = term_cell(d.t, 13, 8).chars[0] == 0x2591;
		if (is != cut)
			term_drain(d.t, 20, 100);
	}
	ck_assert(is == cut);
}

START_TEST(the_ranking_ends_and_says_so_with_the_present_start_marked)
{
	drive_keys(&d, "s");
	drive_sees(&d, "Start lines, best first");
	drive_sees(&d, "Exact: no start comes before the first.");
	drive_sees(&d, "> 1* 0.000 ; 0.000         0   108   10");
	drive_sees(&d, "Marked: the present start");
	drive_figure(&d, "smallest cut piece", "200");
	drive_sees(&d, "[Laying]");
}
END_TEST

/* 50 mm to the left, 600 less it and the joint to the right: ten slivers. */
START_TEST(slivers_name_the_key_that_looks_for_a_better_start)
{
	drive_figure(&d, "of them slivers", "0");
	drive_misses(&d, "s looks for a better start.");
	drive_keys(&d, "x Delete 0,053_;_0 Enter");
	drive_figure(&d, "of them slivers", "10");
	drive_sees(&d, "s looks for a better start.");
	drive_keys(&d, "s");
	drive_sees(&d, "> 1  0.000 ; 0.000         0   108   10");
	drive_sees(&d, "Exact: no start comes before the first.");
	drive_keys(&d, "End");
	drive_sees(&d, ">13* 0.053 ; 0.000");
}
END_TEST

START_TEST(a_marked_row_is_shown_but_not_stored)
{
	drive_keys(&d, "s");
	drive_sees(&d, "Exact: no start comes before the first.");
	cut_at_the_left(false);
	drive_keys(&d, "Down");
	drive_sees(&d, "> 2  0.203 ; 0.000         0   108   10");
	drive_sees(&d, "Marked: not stored yet");
	cut_at_the_left(true);
	drive_keys(&d, "Esc");
	drive_sees(&d, "The start stays where it is.");
	drive_sees(&d, "start           0.000 ; 0.000 m");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: choose the bond");
}
END_TEST

START_TEST(a_start_taken_is_one_step_to_undo)
{
	drive_keys(&d, "s");
	drive_sees(&d, "Exact: no start comes before the first.");
	drive_keys(&d, "Down");
	drive_sees(&d, "Marked: not stored yet");
	drive_keys(&d, "Enter");
	drive_sees(&d, "The start is at 0.203 ; 0.000 m. u undoes it.");
	drive_misses(&d, "Start lines, best first");
	drive_sees(&d, "0.203 ; 0.000 m");
	drive_quit(&d);
	drive_start(&d, ROWS, COLS);
	drive_sees(&d, "0.203 ; 0.000 m");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: take a start line");
	drive_sees(&d, "0.000 ; 0.000 m");
}
END_TEST

/* At 30 degrees starts are sampled, which takes a while. */
START_TEST(any_key_is_answered_while_it_searches)
{
	drive_keys(&d, "r 30 Enter");
	drive_figure(&d, "turned", "30");
	drive_keys(&d, "s");
	drive_sees(&d, "Still searching");
	drive_keys(&d, "?");
	drive_sees(&d, "The best places for the first slab.");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Start lines, best first");
	drive_keys(&d, "Down Esc");
	drive_misses(&d, "Start lines, best first");
	drive_figure(&d, "turned", "30");
	drive_sees(&d, "0.000 ; 0.000 m");
}
END_TEST

START_TEST(bonds_turned_are_ranked_when_asked_for)
{
	drive_keys(&d, "s");
	drive_sees(&d, "Exact");
	drive_keys(&d, "t");
	drive_sees(&d, "With the bond turned by 90 degrees as well.");
	drive_sees(&d, "t bond turned");
	drive_sees(&d, "Exact: no start comes before the first.");
	drive_keys(&d, "t");
	drive_sees(&d, "With the bond as it lies.");
	drive_misses(&d, "t bond turned");
	drive_keys(&d, "Esc");
	drive_sees(&d, "The start stays where it is.");
}
END_TEST

START_TEST(without_a_plan_that_can_be_laid_it_says_why)
{
	drive_keys(&d, "S-Tab S-Tab");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "D");
	drive_sees(&d, "Draw the paving");
	drive_keys(&d, "Tab Tab s");
	drive_misses(&d, "Start lines, best first");
	drive_sees(&d, "outline");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("starts");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_ranking_ends_and_says_so_with_the_present_start_marked);
	tcase_add_test(tc, slivers_name_the_key_that_looks_for_a_better_start);
	tcase_add_test(tc, a_marked_row_is_shown_but_not_stored);
	tcase_add_test(tc, a_start_taken_is_one_step_to_undo);
	tcase_add_test(tc, any_key_is_answered_while_it_searches);
	tcase_add_test(tc, bonds_turned_are_ranked_when_asked_for);
	tcase_add_test(tc, without_a_plan_that_can_be_laid_it_says_why);
	return suite_run("screen starts", tc);
}
