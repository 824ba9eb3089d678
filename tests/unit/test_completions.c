/* What the shell offers after a Tab, asked of bash itself. */
#include "program.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct output o;
static char offered[20000];

static void setup(void)
{
	program_folder();
	program_import_yard(&o);
	program_done(&o);
}

static void teardown(void)
{
	program_folder_remove();
}

/* The words bash offers for the last of these, a line each. */
static void complete(const char *words)
{
	char command[2000];
	FILE *from;
	size_t n;

	snprintf(command, sizeof command,
	        "bash --norc -c 'PATH=$(dirname \"$SLABWRIGHT\"):$PATH; "
	        ". \"$SHARE/../completions/slabwright.bash\"; COMP_WORDS=(slabwright %s); "
	        "COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _slabwright; "
	        "printf \"<%%s>\\n\" \"${COMPREPLY[@]}\"'",
	        words);
	from = popen(command, "r");
	ck_assert_ptr_nonnull(from);
	n = fread(offered, 1, sizeof offered - 1, from);
	offered[n] = '\0';
	ck_assert_int_eq(pclose(from), 0);
}

static void offers(const char *word)
{
	char line[300];

	snprintf(line, sizeof line, "<%s>\n", word);
	ck_assert_msg(strstr(offered, line) != NULL, "%s is not among\n%s", word, offered);
}

START_TEST(commands_are_those_of_the_help)
{
	const char *at;
	size_t count = 0;

	complete("\"\"");
	offers("takeoff");
	offers("startlines");
	for (at = offered; (at = strchr(at, '\n')); at++)
		count++;
	RUN(&o, "--help");
	for (at = strstr(o.out, "one of these"); at && at < strstr(o.out, "\nOptions"); at++)
		if (strncmp(at, "\n  ", 3) == 0 && at[3] >= 'a' && at[3] <= 'z')
			count--;
	ck_assert_uint_eq(count, 0);
	program_done(&o);
	complete("st");
	offers("startlines");
	offers("steps");
	ck_assert_ptr_null(strstr(offered, "takeoff"));
}
END_TEST

START_TEST(options_and_their_words_are_offered)
{
	complete("--as");
	offers("--as");
	offers("--ascii");
	complete("cuts Ann/Yard/A --as \"\"");
	offers("text");
	offers("csv");
	offers("json");
}
END_TEST

START_TEST(paths_come_from_the_store)
{
	complete("takeoff \"\"");
	offers("Ann/Yard/A");
	complete("takeoff Bob");
	ck_assert_ptr_null(strstr(offered, "Ann"));
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("completions");

	tcase_add_checked_fixture(t, setup, teardown);
	tcase_add_test(t, commands_are_those_of_the_help);
	tcase_add_test(t, options_and_their_words_are_offered);
	tcase_add_test(t, paths_come_from_the_store);
	return suite_run("completions", t);
}
