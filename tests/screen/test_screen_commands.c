/* The commands that open the planner, in a terminal. */
#include "program.h"
#include "screen/term.h"
#include "suite.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static struct term *t;
static struct output o;

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	term_stop(t);
	t = NULL;
	program_done(&o);
	program_folder_remove();
}

static void start(const char *first, const char *second)
{
	t = term_start(24, 80, (const char *const[]){ getenv("SLABWRIGHT"), first, second, NULL });
	ck_assert_ptr_nonnull(t);
}

/* The program ends with this status and has given the terminal back. */
static void assert_ended(int status)
{
	int ended = term_wait_exit(t);

	ck_assert(WIFEXITED(ended));
	ck_assert_int_eq(WEXITSTATUS(ended), status);
	ck_assert(!term_altscreen(t));
}

START_TEST(the_demo_opens_on_its_first_variant)
{
	for (int run = 0; run < 2; run++) {
		start("demo", NULL);
		ck_assert(term_wait_text(t, "Back courtyard \u203A A stretcher"));
		ck_assert(term_wait_text(t, "31.39 m2"));
		ck_assert(term_altscreen(t));
		term_type(t, "q");
		assert_ended(0);
		term_stop(t);
		t = NULL;
	}
	ck_assert_int_eq(access(program_path(".local/share/slabwright/demo.slabs"), F_OK), 0);
	ck_assert_int_ne(access(program_path(".local/share/slabwright/projects.slabs"), F_OK), 0);
}
END_TEST

START_TEST(open_shows_the_variant_that_is_named)
{
	program_import_yard(&o);
	program_document("plan.json", "Ann", "Drive", "B", "6200", "stack");
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_int_eq(o.status, 0);
	start("open", "Ann/Yard/A");
	ck_assert(term_wait_text(t, "Ann \u203A Yard \u203A A"));
	term_type(t, "q");
	assert_ended(0);
	term_stop(t);
	start("open", "Ann/Drive/B");
	ck_assert(term_wait_text(t, "Ann \u203A Drive \u203A B"));
	term_type(t, "q");
	assert_ended(0);
}
END_TEST

START_TEST(open_of_what_is_not_there_says_so_and_leaves_the_terminal_alone)
{
	program_import_yard(&o);
	start("open", "Ann/Yard/Z");
	ck_assert(term_wait_text(t, "slabwright: there is no variant \"Z\""));
	assert_ended(1);
}
END_TEST

START_TEST(no_command_opens_the_variant_that_was_open_last)
{
	program_import_yard(&o);
	start("open", "Ann/Yard/A");
	ck_assert(term_wait_text(t, "Ann \u203A Yard \u203A A"));
	term_type(t, "q");
	assert_ended(0);
	term_stop(t);
	start(NULL, NULL);
	ck_assert(term_wait_text(t, "Ann \u203A Yard \u203A A"));
	term_type(t, "q");
	assert_ended(0);
}
END_TEST

START_TEST(without_a_store_the_planner_makes_one_and_asks_for_a_client)
{
	start(NULL, NULL);
	ck_assert(term_wait_text(t, "No client yet"));
	term_type(t, "q");
	assert_ended(0);
	ck_assert_int_eq(access(program_path(".local/share/slabwright/projects.slabs"), F_OK), 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("commands");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_demo_opens_on_its_first_variant);
	tcase_add_test(tc, open_shows_the_variant_that_is_named);
	tcase_add_test(tc, open_of_what_is_not_there_says_so_and_leaves_the_terminal_alone);
	tcase_add_test(tc, no_command_opens_the_variant_that_was_open_last);
	tcase_add_test(tc, without_a_store_the_planner_makes_one_and_asks_for_a_client);
	return suite_run("screen commands", tc);
}
