/* Drawings that cannot be written: what was there stays, nothing half-written is left, and the
 * message names the file. */
#include "../unit/drawn.h"
#include "../unit/sheets.h"
#include "program.h"
#include "suite.h"

#include <dirent.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static struct worked w;

static void setup(void)
{
	program_folder();
	worked_patio(&w);
}

static void teardown(void)
{
	worked_done(&w);
	program_folder_remove();
}

static int files_in_folder(void)
{
	DIR *dir = opendir(program_path(""));
	int count = 0;

	ck_assert_ptr_nonnull(dir);
	for (const struct dirent *e; (e = readdir(dir));)
		count += e->d_name[0] != '.' || strlen(e->d_name) > 2;
	closedir(dir);
	return count;
}

static void assert_content(const char *name, const char *content)
{
	char text[64] = "";
	FILE *from = fopen(program_path(name), "r");

	ck_assert_ptr_nonnull(from);
	ck_assert_ptr_nonnull(fgets(text, sizeof text, from));
	ck_assert_str_eq(text, content);
	ck_assert_int_eq(fgetc(from), EOF);
	fclose(from);
}

static void assert_fails(const char *path, const struct takeoff *t, const struct drawing_options *o,
        enum status status, const char *said)
{
	struct error err = { 0 };
	size_t pages;

	ck_assert_int_eq(drawing_write(path, t, o, &pages, &err), status);
	ck_assert_msg(strstr(err.text, said) != NULL, "\"%s\" is not in: %s", said, err.text);
}

START_TEST(places_that_cannot_be_written_are_named)
{
	struct drawing_options o = drawn_options();
	int before = files_in_folder();

	assert_fails(program_path("no/such/a.pdf"), &w.t, &o, STATUS_PLAN,
	        "no/such/a.pdf cannot be written: No such file or directory");
	assert_fails("/proc/a.pdf", &w.t, &o, STATUS_PLAN, "/proc/a.pdf cannot be written");
	assert_fails("/dev/null", &w.t, &o, STATUS_PLAN, "no ordinary file");
	mkdir(program_path("a.pdf"), 0700);
	assert_fails(program_path("a.pdf"), &w.t, &o, STATUS_PLAN, "it is a folder");
	rmdir(program_path("a.pdf"));
	ck_assert_int_eq(files_in_folder(), before);
}
END_TEST

/* The disk takes so many bytes and no more. */
START_TEST(a_full_disk_leaves_the_old_file)
{
	static const rlim_t sizes[] = { 0, 1, 1000, 5000 };
	struct rlimit all, few;
	int before;

	program_write("a.pdf", "old");
	program_write("a.svg", "old");
	before = files_in_folder();
	signal(SIGXFSZ, SIG_IGN);
	ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &all), 0);
	for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
		for (int form = DRAWING_PDF; form <= DRAWING_SVG; form++) {
			struct drawing_options o = drawn_options();
			struct error err = { 0 };
			enum status st;
			size_t pages;

			o.form = (enum drawing_form)form;
			few = (struct rlimit){ sizes[i], all.rlim_max };
			ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &few), 0);
			st = drawing_write(
			        program_path(form ? "a.svg" : "a.pdf"), &w.t, &o, &pages, &err);
			ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &all), 0);
			ck_assert_int_eq(st, STATUS_PLAN);
			ck_assert_ptr_nonnull(strstr(err.text, "cannot be written"));
			assert_content(form ? "a.svg" : "a.pdf", "old");
			ck_assert_int_eq(files_in_folder(), before);
		}
}
END_TEST

START_TEST(a_drawing_keeps_mode_and_link_of_the_file_it_replaces)
{
	struct drawing_options o = drawn_options();
	struct stat there;
	size_t pages;

	program_write("real.pdf", "old");
	ck_assert_int_eq(chmod(program_path("real.pdf"), 0640), 0);
	ck_assert_int_eq(symlink("real.pdf", program_path("a.pdf")), 0);
	ck_assert_int_eq(drawing_write(program_path("a.pdf"), &w.t, &o, &pages, NULL), STATUS_OK);
	ck_assert_int_eq(lstat(program_path("a.pdf"), &there), 0);
	ck_assert(S_ISLNK(there.st_mode));
	ck_assert_int_eq(stat(program_path("real.pdf"), &there), 0);
	ck_assert_int_eq(there.st_mode & 07777, 0640);
	ck_assert_int_gt(there.st_size, 1000);
}
END_TEST

START_TEST(what_cannot_be_drawn_says_why)
{
	struct drawing_options o = drawn_options();
	struct takeoff none = w.t;
	int before = files_in_folder();

	o.only = "picture";
	assert_fails(program_path("a.pdf"), &w.t, &o, STATUS_USAGE, "no sheet \"picture\"");
	o.only = NULL;
	o.scale = 10;
	assert_fails(
	        program_path("a.pdf"), &w.t, &o, STATUS_USAGE, "At 1:10 the plan needs 500 x 4");
	o.scale = 0;
	o.date = "today";
	assert_fails(program_path("a.pdf"), &w.t, &o, STATUS_USAGE, "is no date");
	o = drawn_options();
	none.ready = false;
	snprintf(none.fault.text, sizeof none.fault.text, "There is no outline yet.");
	assert_fails(program_path("a.pdf"), &none, &o, STATUS_PLAN, "There is no outline yet.");
	ck_assert_int_eq(files_in_folder(), before);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drawing faults");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, places_that_cannot_be_written_are_named);
	tcase_add_test(tc, a_full_disk_leaves_the_old_file);
	tcase_add_test(tc, a_drawing_keeps_mode_and_link_of_the_file_it_replaces);
	tcase_add_test(tc, what_cannot_be_drawn_says_why);
	return suite_run("drawing faults", tc);
}
