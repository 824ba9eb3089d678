/* test_screen_together.c - two planners on one store, and a store that goes away.
 *
 * The courtyard is the one of test_screen.c; its joint is 3 mm at first. */
#include "screen/drive.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static struct drive d, other;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, 24, 80);
	drive_at_laying(&d);
	memset(&other, 0, sizeof other);
	memcpy(other.store, d.store, sizeof other.store);
}

static void teardown(void)
{
	term_stop(other.t);
	drive_end(&d);
}

static void start_other(void)
{
	drive_start(&other, 24, 80);
	drive_sees(&other, "[Laying]");
	drive_figure(&other, "joint, inside it", "3");
}

static void set_joint(struct drive *who, const char *mm)
{
	drive_keys(who, "g Delete");
	drive_keys(who, mm);
	drive_keys(who, "Enter");
	drive_figure(who, "joint, inside it", mm);
}

START_TEST(what_another_planner_changes_comes_to_the_screen_by_itself)
{
	start_other();
	set_joint(&other, "8");
	drive_sees(&d, "Another program has changed this variant");
	drive_figure(&d, "joint, inside it", "8");
}
END_TEST

START_TEST(an_edit_leaves_what_another_planner_has_just_changed)
{
	start_other();
	drive_keys(&d, "r");
	drive_sees(&d, "Turn the bond");
	set_joint(&other, "8");
	drive_keys(&d, "Delete 90 Enter");
	drive_figure(&d, "joint, inside it", "8");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: turn the bond");
	drive_figure(&d, "joint, inside it", "8");
}
END_TEST

START_TEST(a_variant_that_another_planner_adds_comes_to_the_list)
{
	start_other();
	drive_keys(&d, "@Variants");
	drive_sees(&d, "[Variants]");
	drive_keys(&other, "@Variants a Beside_it Enter");
	drive_sees(&other, "Draw the paving");
	drive_sees(&d, "Beside it");
	drive_keys(&other, "S-Tab");
	drive_sees(&other, "[Variants]");
	drive_keys(&other, "r By_the_pond Enter");
	drive_sees(&d, "By the pond");
}
END_TEST

START_TEST(a_store_that_was_taken_away_takes_no_edit)
{
	static const char *const tails[] = { "", "-wal", "-shm" };
	char path[120], away[140];

	for (int i = 0; i < 3; i++) {
		snprintf(path, sizeof path, "%s%s", d.store, tails[i]);
		snprintf(away, sizeof away, "%s/away%s", d.folder, tails[i]);
		ck_assert_int_eq(rename(path, away), 0);
	}
	drive_keys(&d, "g Delete 8 Enter");
	drive_sees(&d, "the store was moved, removed or");
	drive_keys(&d, "Esc");
	drive_figure(&d, "joint, inside it", "3");
	for (int i = 0; i < 3; i++) {
		snprintf(path, sizeof path, "%s%s", d.store, tails[i]);
		snprintf(away, sizeof away, "%s/away%s", d.folder, tails[i]);
		ck_assert_int_eq(rename(away, path), 0);
	}
	set_joint(&d, "8"); /* it is back: all goes on */
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_figure(&d, "joint, inside it", "8");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("together");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, what_another_planner_changes_comes_to_the_screen_by_itself);
	tcase_add_test(tc, an_edit_leaves_what_another_planner_has_just_changed);
	tcase_add_test(tc, a_variant_that_another_planner_adds_comes_to_the_list);
	tcase_add_test(tc, a_store_that_was_taken_away_takes_no_edit);
	return suite_run("screen together", tc);
}
