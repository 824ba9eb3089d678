/* test_screen_starts.c - the ranking of start lines: it gets better by itself, shows what it marks,
 * and stores nothing until a start is taken. */
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
	drive_start(&d, 30, 100);
	drive_courtyard(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
}

static void teardown(void)
{
	drive_end(&d);
}

START_TEST(look)
{
	char *s;
	drive_keys(&d, "s");
	drive_sees(&d, "Exact");
	s = term_screen(d.t);
	fputs(s, stderr);
	drive_keys(&d, "Down");
	drive_sees(&d, ">");
	term_drain(d.t, 30, 200);
	s = term_screen(d.t);
	fputs(s, stderr);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("starts");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, look);
	return suite_run("screen starts", tc);
}
