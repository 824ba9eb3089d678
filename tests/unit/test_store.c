/* Opening, making and refusing stores. */
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static void setup(void)
{
	program_folder();
}

static void refused(const char *path, enum store_mode mode, const char *words)
{
	struct store *s = NULL;
	struct error err = { 0 };

	ck_assert_int_eq(store_open(&s, path, mode, getenv("SHARE"), &err), STATUS_STORE);
	ck_assert_ptr_null(s);
	ck_assert_msg(
	        strstr(err.text, words) != NULL, "\"%s\" does not say \"%s\"", err.text, words);
	if (path[0])
		ck_assert_msg(strncmp(err.text, path, strlen(path)) == 0,
		        "the file is not named: %s", err.text);
}

static char *bytes_of(const char *path, size_t *n)
{
	FILE *f = fopen(path, "rb");
	char *bytes = calloc(1, 1 << 20);

	ck_assert_ptr_nonnull(f);
	*n = fread(bytes, 1, 1 << 20, f);
	fclose(f);
	return bytes;
}

/* Refused, and not a byte of the file has changed, nor has a file come up beside it. */
static void refused_untouched(const char *path, enum store_mode mode, const char *words)
{
	char beside[400];
	size_t before_n, after_n;
	char *before = bytes_of(path, &before_n), *after;

	refused(path, mode, words);
	after = bytes_of(path, &after_n);
	ck_assert_uint_eq(before_n, after_n);
	ck_assert_mem_eq(before, after, before_n);
	snprintf(beside, sizeof beside, "%s-wal", path);
	ck_assert_int_ne(access(beside, F_OK), 0);
	free(before);
	free(after);
}

START_TEST(a_new_store_and_its_folder_are_private_whatever_the_umask)
{
	static const char *const files[] = { "p.slabs", "p.slabs-wal", "p.slabs-shm" };
	struct stat is;
	struct store *s;
	char name[100];

	umask(_i ? 0 : 0377);
	s = store_in_folder("data/deep/p.slabs");
	empty_variant(s);
	for (int i = 0; i < 3; i++) {
		snprintf(name, sizeof name, "data/deep/%s", files[i]);
		ck_assert_int_eq(stat(program_path(name), &is), 0);
		ck_assert_int_eq(is.st_mode & 07777, 0600);
	}
	ck_assert_int_eq(stat(program_path("data/deep"), &is), 0);
	ck_assert_int_eq(is.st_mode & 07777, 0700);
	store_close(s);
	ck_assert_int_eq(
	        ask_file(program_path("data/deep/p.slabs"), "PRAGMA application_id"), 0x534C4142);
	ck_assert_int_eq(
	        ask_file(program_path("data/deep/p.slabs"), "PRAGMA user_version"), STORE_VERSION);
}
END_TEST

START_TEST(what_was_written_is_there_when_opened_again)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = empty_variant(s);
	char *before = exported(s, variant), *after;

	ck_assert_str_eq(store_path(s), program_path("p.slabs"));
	store_close(s);
	ck_assert_int_eq(
	        store_open(&s, program_path("p.slabs"), STORE_MUST_EXIST, NULL, &err), STATUS_OK);
	after = exported(s, variant);
	ck_assert_str_eq(before, after);
	free(before);
	free(after);
	store_close(s);
}
END_TEST

START_TEST(the_usual_path_follows_the_environment)
{
	struct arena mem = { 0 };
	struct error err = { 0 };
	const char *path;

	ck_assert_int_eq(store_usual_path(&mem, "/x/data", "/home/u", &path, &err), STATUS_OK);
	ck_assert_str_eq(path, "/x/data/slabwright/projects.slabs");
	ck_assert_int_eq(store_usual_path(&mem, NULL, "/home/u", &path, &err), STATUS_OK);
	ck_assert_str_eq(path, "/home/u/.local/share/slabwright/projects.slabs");
	/* The base directory specification: a relative path is not used. */
	ck_assert_int_eq(store_usual_path(&mem, "data", "/home/u", &path, &err), STATUS_OK);
	ck_assert_str_eq(path, "/home/u/.local/share/slabwright/projects.slabs");
	ck_assert_int_eq(store_usual_path(&mem, "", NULL, &path, &err), STATUS_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "--store"));
	arena_free(&mem);
}
END_TEST

START_TEST(what_is_not_a_store_is_refused_and_left_alone)
{
	char garbage[300], foreign[300], long_text[4097];

	snprintf(garbage, sizeof garbage, "%s", program_path("garbage"));
	snprintf(foreign, sizeof foreign, "%s", program_path("foreign"));
	refused("", STORE_MAY_CREATE, "empty");
	refused(program_path("."), STORE_MAY_CREATE, "folder");
	refused(program_path("none.slabs"), STORE_MUST_EXIST, "no store here");
	ck_assert_int_ne(access(program_path("none.slabs"), F_OK), 0);

	memset(long_text, 'x', sizeof long_text - 1);
	long_text[sizeof long_text - 1] = '\0';
	program_write("garbage", "this is no database");
	refused_untouched(garbage, STORE_MAY_CREATE, "not a Slabwright store");
	program_write("garbage", long_text);
	refused_untouched(garbage, STORE_MAY_CREATE, "not a Slabwright store");
	refused(program_path("garbage/p.slabs"), STORE_MAY_CREATE, "cannot be");

	change_file(foreign,
	        "CREATE TABLE notes (text); PRAGMA application_id = 7; PRAGMA user_version = 1");
	refused_untouched(foreign, STORE_MAY_CREATE, "another program");

	program_write("hollow", "");
	refused_untouched(program_path("hollow"), STORE_MUST_EXIST, "empty");
}
END_TEST

START_TEST(a_pipe_or_device_is_no_store)
{
	ck_assert_int_eq(mkfifo(program_path("pipe"), 0600), 0);
	refused(program_path("pipe"), STORE_MAY_CREATE, "not a plain file");
	refused("/dev/null", STORE_MAY_CREATE, "not a plain file");
}
END_TEST

START_TEST(a_newer_store_is_refused)
{
	store_close(store_in_folder("p.slabs"));
	change_file(program_path("p.slabs"), "PRAGMA user_version = 99");
	refused(program_path("p.slabs"), STORE_MAY_CREATE, "version 99");
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), 99);
}
END_TEST

START_TEST(a_store_whose_making_was_interrupted_is_completed)
{
	struct store *s;

	/* An empty file, and one of version 0 that holds nothing yet. */
	program_write("a.slabs", "");
	change_file(program_path("b.slabs"), "PRAGMA application_id = 0x534C4142; VACUUM");
	for (int i = 0; i < 2; i++) {
		s = store_in_folder(i ? "b.slabs" : "a.slabs");
		empty_variant(s);
		store_close(s);
	}
	ck_assert_int_ne(access(program_path("b.slabs.version-0-backup"), F_OK), 0);
}
END_TEST

START_TEST(an_upgrade_that_fails_leaves_the_store_as_it_was)
{
	/* A table of this name is in the way of the schema's. */
	change_file(program_path("p.slabs"),
	        "PRAGMA application_id = 0x534C4142; CREATE TABLE planes (n)");
	refused(program_path("p.slabs"), STORE_MAY_CREATE, "planes");
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM sqlite_schema"), 1);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), 0);
}
END_TEST

START_TEST(a_store_that_cannot_be_filled_is_not_left_behind)
{
	struct store *s;
	struct error err = { 0 };

	program_write("slabs.json", "{ \"format\": \"slabwright-slabs\", \"version\": 1, "
	                            "\"slabs\": [ { \"name\": 1 } ] }");
	ck_assert_int_eq(
	        store_open(&s, program_path("p.slabs"), STORE_MAY_CREATE, program_path("."), &err),
	        STATUS_STORE);
	ck_assert_msg(
	        strstr(err.text, "slabs.json: slabs[0].name: not a text") != NULL, "%s", err.text);
	ck_assert_int_ne(access(program_path("p.slabs"), F_OK), 0);
	ck_assert_int_eq(
	        store_open(&s, program_path("p.slabs"), STORE_MAY_CREATE, "/nowhere", &err),
	        STATUS_STORE);
	ck_assert_msg(strstr(err.text, "/nowhere/slabs.json") != NULL, "%s", err.text);
}
END_TEST

START_TEST(a_locked_store_says_so)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	sqlite3 *other;
	int64_t id;

	ck_assert_int_eq(sqlite3_open(program_path("p.slabs"), &other), SQLITE_OK);
	ck_assert_int_eq(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
	ck_assert_int_eq(store_client_add(s, "X", &id, &err), STATUS_STORE);
	ck_assert_msg(strstr(err.text, "locked by another program") != NULL, "%s", err.text);
	ck_assert_int_eq(sqlite3_exec(other, "COMMIT", NULL, NULL, NULL), SQLITE_OK);
	ck_assert_int_eq(store_client_add(s, "X", &id, &err), STATUS_OK);
	sqlite3_close(other);
	store_close(s);
}
END_TEST

START_TEST(a_store_locked_for_good_cannot_be_opened)
{
	sqlite3 *other;

	store_close(store_in_folder("p.slabs"));
	ck_assert_int_eq(sqlite3_open(program_path("p.slabs"), &other), SQLITE_OK);
	ck_assert_int_eq(sqlite3_exec(other, "PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE",
	                         NULL, NULL, NULL),
	        SQLITE_OK);
	refused(program_path("p.slabs"), STORE_MAY_CREATE, "locked by another program");
	sqlite3_close(other);
}
END_TEST

/* Runs as a user for whom the file's mode counts; the exit status tells which assertion failed. */
static int open_as_nobody(const char *path)
{
	struct store *s;
	struct error err = { 0 };

	if (getuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0))
		return 1;
	if (store_open(&s, path, STORE_MAY_CREATE, NULL, &err) != STATUS_STORE)
		return 2;
	return strstr(err.text, "may only be read") ? 0 : 3;
}

START_TEST(a_store_tells_what_others_have_written)
{
	struct store *s = store_in_folder("p.slabs"), *other = store_in_folder("p.slabs");
	int64_t client;
	struct error err = { 0 };
	bool changed = true;

	ck_assert_int_eq(store_changed_elsewhere(s, &changed, &err), STATUS_OK);
	ck_assert(!changed);
	ck_assert_int_eq(store_client_add(s, "A", &client, &err), STATUS_OK);
	ck_assert_int_eq(store_changed_elsewhere(s, &changed, &err), STATUS_OK);
	ck_assert(!changed);
	ck_assert_int_eq(store_client_add(other, "B", &client, &err), STATUS_OK);
	ck_assert_int_eq(store_changed_elsewhere(s, &changed, &err), STATUS_OK);
	ck_assert(changed);
	ck_assert_int_eq(store_changed_elsewhere(s, &changed, &err), STATUS_OK);
	ck_assert(!changed);
	store_close(other);
	store_close(s);
}
END_TEST

/* Removed, or with another file in its place. */
START_TEST(a_store_that_was_taken_away_takes_no_change)
{
	struct store *s = store_in_folder("p.slabs");
	int64_t client = empty_variant(s);
	struct error err = { 0 };

	ck_assert_int_eq(rename(program_path("p.slabs"), program_path("away.slabs")), 0);
	if (_i)
		program_write("p.slabs", "another");
	ck_assert_int_eq(store_client_add(s, "B", &client, &err), STATUS_STORE);
	ck_assert_ptr_nonnull(strstr(err.text, "p.slabs: the store was moved, removed"));
	ck_assert_int_eq(rename(program_path("away.slabs"), program_path("p.slabs")), 0);
	ck_assert_int_eq(store_client_add(s, "B", &client, &err), STATUS_OK);
	store_close(s);
}
END_TEST

START_TEST(a_store_that_may_only_be_read_says_so)
{
	char path[300];
	int status;
	pid_t pid;

	snprintf(path, sizeof path, "%s", program_path("p.slabs"));
	store_close(store_in_folder("p.slabs"));
	if (getuid() == 0) {
		ck_assert_int_eq(chown(path, 65534, 65534), 0);
		ck_assert_int_eq(chown(program_path("."), 65534, 65534), 0);
	}
	ck_assert_int_eq(chmod(path, 0400), 0);
	pid = fork();
	if (pid == 0)
		_exit(open_as_nobody(path));
	ck_assert_int_eq(waitpid(pid, &status, 0), pid);
	ck_assert_int_eq(status, 0);
}
END_TEST

START_TEST(a_link_leads_to_the_store)
{
	struct store *s;

	ck_assert_int_eq(symlink("real.slabs", program_path("link.slabs")), 0);
	s = store_in_folder("link.slabs"); /* points at nothing yet */
	empty_variant(s);
	store_close(s);
	ck_assert_int_eq(ask_file(program_path("real.slabs"), "SELECT count(*) FROM variants"), 1);
}
END_TEST

START_TEST(a_file_name_is_only_a_file_name)
{
	struct store *s;
	struct error err = { 0 };

	ck_assert_int_eq(chdir(program_path(".")), 0);
	ck_assert_msg(store_open(&s, ":memory:", STORE_MAY_CREATE, NULL, &err) == STATUS_OK, "%s",
	        err.text);
	store_close(s);
	ck_assert_int_eq(access(":memory:", F_OK), 0);
	ck_assert_int_eq(
	        store_open(&s, "file:x?mode=memory", STORE_MAY_CREATE, NULL, &err), STATUS_OK);
	store_close(s);
	ck_assert_int_eq(access("file:x?mode=memory", F_OK), 0);
}
END_TEST

/* Opens the store, making it when it is not there, and adds clients of its own. */
static int use_store(const char *path, int who)
{
	struct store *s;
	struct error err = { 0 };
	char name[40];
	int64_t id;

	for (int i = 0; i < 20; i++) {
		if (store_open(&s, path, STORE_MAY_CREATE, getenv("SHARE"), &err) != STATUS_OK) {
			fprintf(stderr, "%s\n", err.text);
			return 1;
		}
		snprintf(name, sizeof name, "client %d.%d", who, i);
		if (store_client_add(s, name, &id, &err) != STATUS_OK) {
			fprintf(stderr, "%s\n", err.text);
			return 1;
		}
		store_close(s);
	}
	return 0;
}

START_TEST(several_programs_may_make_and_use_one_store_at_once)
{
	enum { PROGRAMS = 4 };
	char path[300];
	int status, bad = 0;

	snprintf(path, sizeof path, "%s", program_path("p.slabs"));
	for (int i = 0; i < PROGRAMS; i++)
		if (fork() == 0)
			_exit(use_store(path, i));
	for (int i = 0; i < PROGRAMS; i++) {
		ck_assert_int_gt(wait(&status), 0);
		bad += status != 0;
	}
	ck_assert_int_eq(bad, 0);
	ck_assert_int_eq(ask_file(path, "SELECT count(*) FROM clients"), PROGRAMS * 20);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("store");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, a_new_store_and_its_folder_are_private_whatever_the_umask, 0, 2);
	tcase_add_test(t, what_was_written_is_there_when_opened_again);
	tcase_add_test(t, the_usual_path_follows_the_environment);
	tcase_add_test(t, what_is_not_a_store_is_refused_and_left_alone);
	tcase_add_test(t, a_pipe_or_device_is_no_store);
	tcase_add_test(t, a_newer_store_is_refused);
	tcase_add_test(t, a_store_whose_making_was_interrupted_is_completed);
	tcase_add_test(t, an_upgrade_that_fails_leaves_the_store_as_it_was);
	tcase_add_test(t, a_store_that_cannot_be_filled_is_not_left_behind);
	tcase_add_test(t, a_locked_store_says_so);
	tcase_add_test(t, a_store_locked_for_good_cannot_be_opened);
	tcase_add_test(t, a_store_tells_what_others_have_written);
	tcase_add_loop_test(t, a_store_that_was_taken_away_takes_no_change, 0, 2);
	tcase_add_test(t, a_store_that_may_only_be_read_says_so);
	tcase_add_test(t, a_link_leads_to_the_store);
	tcase_add_test(t, a_file_name_is_only_a_file_name);
	tcase_add_loop_test(t, several_programs_may_make_and_use_one_store_at_once, 0, 5);
	return suite_run("store", t);
}
