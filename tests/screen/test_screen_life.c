/* test_screen_life.c - the planner's life on a terminal: leaving, signals, sizes, plain text,
 * hostile names.
 *
 * The courtyard is the one of test_screen.c: 98 whole slabs and 10 cut pieces. */
#include "screen/drive.h"
#include "suite.h"
#include "unit/stores.h"

#include "slabwright/store.h"

#include <check.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

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

static bool saved_and_whole(void)
{
	drive_sees(&d, "[Laying]");
	drive_figure(&d, "whole", "98");
	drive_figure(&d, "cut", "10");
	return true;
}

START_TEST(leaving_and_coming_back_finds_plan_stage_and_cursor)
{
	drive_at_laying(&d);
	drive_keys(&d, "S-Tab S-Tab");
	drive_figure(&d, "at", "1.800");
	drive_keys(&d, "Tab Tab");
	drive_sees(&d, "[Laying]");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	ck_assert(saved_and_whole());
	drive_keys(&d, "S-Tab S-Tab");
	drive_sees(&d, "[Outline]");
	drive_figure(&d, "at", "1.800");
	drive_figure(&d, "cell", "0.300");
}
END_TEST

START_TEST(a_stop_without_a_shell_is_survived)
{
	drive_at_laying(&d);
	term_signal(d.t, SIGTSTP); /* nobody could continue it: the system does not stop it */
	term_signal(d.t, SIGCONT);
	drive_keys(&d, "Tab");
	drive_sees(&d, "[Edging]");
	ck_assert(term_altscreen(d.t));
}
END_TEST

START_TEST(a_terminate_signal_gives_the_terminal_back_and_loses_nothing)
{
	int status;

	drive_at_laying(&d);
	term_signal(d.t, SIGTERM);
	status = term_wait_exit(d.t);
	ck_assert(WIFEXITED(status));
	ck_assert(!term_altscreen(d.t));
	term_stop(d.t);
	drive_start(&d, 24, 80);
	ck_assert(saved_and_whole());
}
END_TEST

START_TEST(a_lost_terminal_ends_it_and_loses_nothing)
{
	drive_at_laying(&d);
	term_stop(d.t); /* hangs up; a program that stayed would be killed after 5 s */
	drive_start(&d, 24, 80);
	ck_assert(saved_and_whole());
}
END_TEST

START_TEST(a_killed_program_has_lost_nothing)
{
	drive_at_laying(&d);
	term_signal(d.t, SIGKILL);
	ck_assert(WIFSIGNALED(term_wait_exit(d.t)));
	term_stop(d.t);
	drive_start(&d, 24, 80);
	ck_assert(saved_and_whole());
}
END_TEST

START_TEST(stopping_and_going_on_redraws_the_screen)
{
	/* a shell with job control, so that there is someone to stop for */
	const char *argv[] = { "/bin/sh", "-c",
		"set -m; \"$SLABWRIGHT\" --store \"$1\"; echo shell here; read line; fg", "sh",
		d.store, NULL };

	drive_at_laying(&d);
	drive_quit(&d);
	d.t = term_start(24, 80, argv);
	ck_assert(saved_and_whole());
	term_type(d.t, "\x1a");
	drive_sees(&d, "shell here");
	ck_assert(!term_altscreen(d.t));
	drive_keys(&d, "Enter");
	ck_assert(saved_and_whole());
	ck_assert(term_altscreen(d.t));
	drive_keys(&d, "Tab");
	drive_sees(&d, "[Edging]");
}
END_TEST

START_TEST(every_stage_has_its_help)
{
	static const char *const names[] = { "Outline", "Falls", "Laying", "Edging", "Planters",
		"Steps", "Ground", "Order", "Set-out", "Check", "Variants" };
	static const char *const words[] = { "Drop a corner", "Set the fall", "catalogue",
		"unit bought", "Walls of blocks", "Flights of steps", "levelling book",
		"breakage allowance", "From a baseline", "tolerance", "Copy the marked" };
	char here[40];

	drive_courtyard(&d);
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		snprintf(here, sizeof here, "[%s]", names[i]);
		drive_sees(&d, here);
		drive_keys(&d, "?");
		drive_sees(&d, " Help");
		drive_sees(&d, words[i]);
		drive_keys(&d, "Esc");
		drive_sees(&d, here);
		drive_keys(&d, "Tab");
	}
}
END_TEST

START_TEST(a_click_brings_the_cursor)
{
	drive_new_variant(&d);
	drive_figure(&d, "at", "0.000");
	term_press(d.t, 10, 5 + 20); /* sketch column 20: ten cells of 0.25 m from -0.75 */
	drive_figure(&d, "at", "1.750");
}
END_TEST

START_TEST(it_follows_a_resize_and_says_what_it_needs)
{
	drive_at_laying(&d);
	term_resize(d.t, 60, 200);
	drive_sees(&d, "q quit"); /* which 80 columns have no room for */
	drive_figure(&d, "whole", "98");
	term_resize(d.t, 10, 40);
	drive_sees(&d, "Make it larger");
	term_resize(d.t, 1, 1);
	term_resize(d.t, 16, 60);
	drive_sees(&d, "[Laying]");
	term_resize(d.t, 24, 80);
	drive_figure(&d, "to order", "106");
	drive_misses(&d, "q quit");
}
END_TEST

START_TEST(a_variant_that_cannot_be_read_leaves_the_open_one_open)
{
	drive_at_laying(&d);
	drive_keys(&d, "@Variants");
	drive_sees(&d, "[Variants]");
	drive_keys(&d, "c B Enter");
	drive_sees(&d, "Courtyard \u203a B"); /* the copy is made */
	drive_sees(&d, "The copy is open");
	change_file(d.store, "DELETE FROM layings WHERE variant = (SELECT min(id) FROM variants)");
	drive_keys(&d, "Up Enter");
	drive_sees(&d, "the store is damaged");
	drive_sees(&d, "[Variants]");
	drive_sees(&d, "Courtyard \u203a B");
	drive_keys(&d, "Down Enter");
	drive_figure(&d, "area", "18.24");
	drive_quit(&d);
	change_file(d.store, "DELETE FROM layings");
	drive_start(&d, 24, 80);
	drive_sees(&d, "Clients");
	drive_sees(&d, "the store is damaged");
}
END_TEST

START_TEST(what_is_typed_is_seen_on_the_smallest_screen)
{
	drive_new_variant(&d);
	term_resize(d.t, 16, 60);
	drive_keys(&d, "12,345");
	drive_sees(&d, "corner: 12,345");
	drive_keys(&d, "Enter");
	drive_keys(&d, "-22,5");
	drive_sees(&d, "degrees: -22,5");
}
END_TEST

static void check_plain_cells(void)
{
	for (int row = 0; row < 24; row++) {
		for (int col = 0; col < 80; col++) {
			VTermScreenCell c = term_cell(d.t, row, col);

			ck_assert_msg(c.chars[0] < 0x80, "U+%04X at %d, %d", c.chars[0], row, col);
			ck_assert(VTERM_COLOR_IS_DEFAULT_FG(&c.fg) &&
			          VTERM_COLOR_IS_DEFAULT_BG(&c.bg));
		}
	}
}

START_TEST(plain_ascii_without_colour_shows_all_stages_in_seven_bits)
{
	static const char *const here[] = { "[Falls]", "[Laying]", "[Edging]", "[Planters]",
		"[Steps]", "[Ground]", "[Order]", "[Set-out]", "[Check]", "[Variants]",
		"[Outline]" };

	drive_at_laying(&d);
	drive_keys(&d, "S-Tab s 1:60 Enter");
	drive_sees(&d, "16.7 mm/m");
	drive_quit(&d);
	d.options[0] = "--ascii";
	d.options[1] = "--no-colour";
	drive_start(&d, 24, 80);
	for (size_t i = 0; i < sizeof here / sizeof here[0]; i++) {
		drive_sees(&d, here[i]);
		term_drain(d.t, 50, 200);
		check_plain_cells();
		drive_keys(&d, "Tab");
	}
	drive_keys(&d, "Tab");
	drive_sees(&d, "|___|"); /* slabs with their joints, in characters alone */
}
END_TEST

START_TEST(names_cannot_write_on_the_screen_or_shift_it)
{
	struct store *store;
	struct error err;
	int64_t client, job, variant;
	int row, col;

	drive_sees(&d, "No client yet");
	drive_quit(&d);
	ck_assert_int_eq(store_open(&store, d.store, STORE_MUST_EXIST, NULL, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(store, "\x1b[2J\x1b]0;x\x07 \xe6\xbc\xa2\xe5\xad\x97",
	                         &client, &err),
	        STATUS_OK);
	ck_assert_int_eq(
	        store_job_add(store, client, "\xe6\xbc\xa2 e\xcc\x81\r\n", &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(store, job,
	                         "\xe2\x80\xae"
	                         "A",
	                         &variant, &err),
	        STATUS_OK);
	store_close(store);
	drive_start(&d, 24, 80);
	drive_sees(&d, "\u241b[2J\u241b]0;x\u2407 \u6f22\u5b57");
	drive_keys(&d, "Enter");
	drive_sees(&d, "\u6f22 e\u0301\u240d\u240a");
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
	drive_sees(&d, "\ufffdA");
	term_drain(d.t, 100, 500);
	for (row = 2; row < 22; row++)
		ck_assert_int_eq(term_cell(d.t, row, 50).chars[0], 0x2506);
	ck_assert(term_find(d.t, "saved", &row, &col));
	ck_assert_int_eq(row, 0);
}
END_TEST

START_TEST(any_keys_in_any_order_leave_a_sound_program)
{
	static const char *const words[] = { "Up", "Down", "Left", "Right", "Enter", "Enter", "Tab",
		"S-Tab", "Back", "Delete", "S-Left", "S-Up", "PageUp", "PageDown", "a", "b", "c",
		"d", "e", "f", "g", "i", "m", "n", "o", "p", "r", "s", "t", "u", "v", "w", "x", "z",
		"D", "U", "M", "+", "-", "=", "3,5", "1:60", "2_x_3", "600_x_300", "?", "0,4" };
	unsigned seed = 20240517;
	int status;

	drive_new_variant(&d);
	for (int i = 0; i < 900; i++) {
		seed = seed * 1103515245u + 12345u;
		drive_keys(&d, words[(seed >> 16) % (sizeof words / sizeof words[0])]);
		if (i % 9 == 8)
			term_drain(d.t, 3, 40);
		if (i % 60 == 59)
			drive_keys(&d, "Esc");
	}
	term_drain(d.t, 100, 500);
	term_signal(d.t, SIGTERM);
	status = term_wait_exit(d.t);
	ck_assert(WIFEXITED(status));
	ck_assert_int_eq(WEXITSTATUS(status), 0);
	ck_assert(!term_altscreen(d.t));
}
END_TEST

/* The stages whose keys open forms and tables, on a plan with a fall: a place, a length, a name, an
 * empty line as likely as a key. What was stored can be read again. */
START_TEST(any_keys_in_forms_and_tables_leave_a_sound_program)
{
	static const char *const stages[] = { "@Falls", "@Ground", "@Set-out", "@Check" };
	static const char *const words[] = { "Up", "Down", "Down", "Left", "Right", "Enter",
		"Enter", "Enter", "Enter", "Esc", "Back", "Delete", "Home", "End", "PageDown", "a",
		"b", "c", "d", "f", "g", "i", "l", "m", "n", "r", "s", "t", "u", "U", "v", "w", "x",
		"M", "-", "0,4", "1;2", "3,1_x_2", "1:60", "peg", "12'_3\"", "90", "1,5" };
	unsigned seed = 20260711;
	int status;

	drive_courtyard(&d);
	drive_keys(&d, "@Falls s 1:60 Enter");
	drive_sees(&d, "16.7 mm/m");
	for (int i = 0; i < 600; i++) {
		if (i % 50 == 0) {
			drive_keys(&d, "Esc Esc Esc Esc");
			drive_keys(&d, stages[i / 50 % 4]);
		}
		seed = seed * 1103515245u + 12345u;
		drive_keys(&d, words[(seed >> 16) % (sizeof words / sizeof words[0])]);
		if (i % 9 == 8)
			term_drain(d.t, 3, 40);
	}
	term_drain(d.t, 100, 500);
	term_signal(d.t, SIGTERM);
	status = term_wait_exit(d.t);
	ck_assert(WIFEXITED(status));
	ck_assert_int_eq(WEXITSTATUS(status), 0);
	term_stop(d.t);
	drive_start(&d, 24, 80);
	drive_sees(&d, "Courtyard");
	drive_misses(&d, "damaged");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planner");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, leaving_and_coming_back_finds_plan_stage_and_cursor);
	tcase_add_test(tc, a_stop_without_a_shell_is_survived);
	tcase_add_test(tc, a_terminate_signal_gives_the_terminal_back_and_loses_nothing);
	tcase_add_test(tc, a_lost_terminal_ends_it_and_loses_nothing);
	tcase_add_test(tc, a_killed_program_has_lost_nothing);
	tcase_add_test(tc, stopping_and_going_on_redraws_the_screen);
	tcase_add_test(tc, every_stage_has_its_help);
	tcase_add_test(tc, a_click_brings_the_cursor);
	tcase_add_test(tc, it_follows_a_resize_and_says_what_it_needs);
	tcase_add_test(tc, a_variant_that_cannot_be_read_leaves_the_open_one_open);
	tcase_add_test(tc, what_is_typed_is_seen_on_the_smallest_screen);
	tcase_add_test(tc, plain_ascii_without_colour_shows_all_stages_in_seven_bits);
	tcase_add_test(tc, names_cannot_write_on_the_screen_or_shift_it);
	tcase_add_test(tc, any_keys_in_any_order_leave_a_sound_program);
	tcase_add_test(tc, any_keys_in_forms_and_tables_leave_a_sound_program);
	return suite_run("screen life", tc);
}
