/* Opening, making and refusing stores; clients, jobs, variants; catalogue; view state. */
#include "program.h"
#include "unit/stores.h"

#include <check.h>
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

/* --- opening --- */

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

START_TEST(an_older_store_is_copied_before_it_is_brought_up_to_date)
{
	struct stat is;

	change_file(program_path("p.slabs"), "PRAGMA application_id = 0x534C4142; CREATE TABLE "
	                                     "kept (n); INSERT INTO kept VALUES (41)");
	program_write("p.slabs.version-0-backup", "an earlier one");
	store_close(store_in_folder("p.slabs"));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-0-backup-2"), "SELECT n FROM kept"), 41);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-0-backup-2"), "PRAGMA user_version"), 0);
	ck_assert_int_eq(stat(program_path("p.slabs.version-0-backup-2"), &is), 0);
	ck_assert_int_eq(is.st_mode & 07777, 0600);
	ck_assert_int_eq(stat(program_path("p.slabs.version-0-backup"), &is), 0);
	ck_assert_int_eq(is.st_size, (off_t)strlen("an earlier one"));
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

/* --- clients, jobs, variants --- */

static const char *const strange_names[] = {
	"O'Brien; DROP TABLE clients",
	"a/b",
	"back\\slash",
	"tail\\",
	"line\nbreak\ttab\x1B[31m",
	"\"quoted\"",
	"Zo\xC3\xAB \xE6\x9D\xB1\xE4\xBA\xAC",
	" ",
	"%",
	"\xF0\x9F\x8F\xA0",
};

START_TEST(any_name_is_kept_as_it_is_and_found_by_its_path)
{
	const char *name = strange_names[_i];
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	struct store_list list;
	int64_t client, job, variant;
	char escaped[200], path[700], *to = escaped;

	ck_assert_int_eq(store_client_add(s, name, &client, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, client, name, &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, job, name, &variant, &err), STATUS_OK);
	ck_assert_int_eq(store_clients(s, &mem, &list, &err), STATUS_OK);
	ck_assert_uint_eq(list.count, 1);
	ck_assert_str_eq(list.items[0].name, name);
	for (const char *from = name; *from; *to++ = *from++)
		if (*from == '/' || *from == '\\')
			*to++ = '\\';
	*to = '\0';
	snprintf(path, sizeof path, "%s/%s/%s", escaped, escaped, escaped);
	ck_assert_msg(store_find(s, path, &mem, &place, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(place.client, client);
	ck_assert_int_eq(place.job, job);
	ck_assert_int_eq(place.variant, variant);
	ck_assert_str_eq(place.variant_name, name);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_name_that_is_empty_too_long_or_not_utf8_is_refused)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	char name[202];
	int64_t id;

	memset(name, 'n', sizeof name);
	name[201] = '\0';
	ck_assert_int_eq(store_client_add(s, "", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, name, &id, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "200"));
	name[200] = '\0';
	ck_assert_int_eq(store_client_add(s, name, &id, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(s, "\xC3", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, "\xED\xA0\x80", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_add(s, "\xC0\xAF", &id, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "UTF-8"));
	store_close(s);
}
END_TEST

START_TEST(a_taken_name_is_refused_among_siblings_only)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t c1, c2, j1, j2, v1, v2;

	ck_assert_int_eq(store_client_add(s, "A", &c1, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(s, "A", &c2, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "client \"A\""));
	ck_assert_int_eq(store_client_add(s, "B", &c2, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, c1, "J", &j1, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, c1, "J", &j2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_job_add(s, c2, "J", &j2, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, j1, "V", &v1, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, j1, "V", &v2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_copy(s, v1, "V", &v2, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_add(s, j2, "V", &v2, &err), STATUS_OK);
	/* Renaming: to a taken name no, to its own name yes. */
	ck_assert_int_eq(store_client_rename(s, c2, "A", &err), STATUS_PLAN);
	ck_assert_int_eq(store_client_rename(s, c2, "B", &err), STATUS_OK);
	ck_assert_int_eq(store_client_rename(s, c2, "C", &err), STATUS_OK);
	ck_assert_int_eq(store_job_rename(s, j2, "K", &err), STATUS_OK);
	ck_assert_int_eq(store_variant_rename(s, v2, "W", &err), STATUS_OK);
	ck_assert_int_eq(store_variant_rename(s, v2, "", &err), STATUS_PLAN);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM clients WHERE name IN ('A', 'C')"),
	        2);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM jobs WHERE title IN ('J', 'K')"),
	        2);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT count(*) FROM variants WHERE name IN ('V', 'W')"),
	        2);
	store_close(s);
}
END_TEST

START_TEST(lists_count_children_and_tell_the_time_of_change)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_list list;
	int64_t variant = empty_variant(s), copy, job;

	ck_assert_int_eq(store_variant_copy(s, variant, "B", &copy, &err), STATUS_OK);
	change_file(program_path("p.slabs"), "UPDATE clients SET changed = '2001-01-01T00:00:00Z'; "
	                                     "UPDATE jobs SET changed = '2001-01-01T00:00:00Z'");
	ck_assert_int_eq(
	        store_edit(s, copy, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_clients(s, &mem, &list, &err), STATUS_OK);
	ck_assert_int_eq(list.items[0].children, 1);
	ck_assert_uint_eq(strlen(list.items[0].uuid), 36);
	ck_assert_int_eq(list.items[0].uuid[14], '4');
	ck_assert_uint_eq(strlen(list.items[0].changed), strlen("2001-01-01T00:00:00Z"));
	ck_assert_str_gt(list.items[0].changed, "2001-01-01T00:00:00Z");
	ck_assert_int_eq(store_jobs(s, list.items[0].id, &mem, &list, &err), STATUS_OK);
	ck_assert_int_eq(list.items[0].children, 2);
	ck_assert_str_gt(list.items[0].changed, "2001-01-01T00:00:00Z");
	job = list.items[0].id;
	ck_assert_int_eq(store_variants(s, job, &mem, &list, &err), STATUS_OK);
	ck_assert_uint_eq(list.count, 2);
	ck_assert_str_eq(list.items[0].name, "A");
	ck_assert_str_eq(list.items[1].name, "B");
	ck_assert_str_ne(list.items[0].uuid, list.items[1].uuid);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(an_id_that_is_not_there_is_refused)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	struct plan plan;
	const char *json;
	int64_t id;

	ck_assert_int_eq(store_job_add(s, 9, "J", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_add(s, 9, "V", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_copy(s, 9, "V", &id, &err), STATUS_PLAN);
	ck_assert_int_eq(store_variant_rename(s, 9, "V", &err), STATUS_PLAN);
	ck_assert_int_eq(store_place_of(s, 9, &mem, &place, &err), STATUS_PLAN);
	ck_assert_int_eq(store_plan(s, 9, &mem, &plan, &err), STATUS_PLAN);
	ck_assert_int_eq(
	        store_edit(s, 9, &(struct edit){ .type = EDIT_RULES, .text = "none" }, &err),
	        STATUS_PLAN);
	ck_assert_int_eq(store_export(s, 9, 0, &mem, &json, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "no job 9"));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_path_that_leads_nowhere_names_what_is_there)
{
	static const struct {
		const char *path, *words;
	} paths[] = {
		{ "X", "no client \"X\"; there is \"C\"" },
		{ "C/X", "no job \"X\"; there is \"J\"" },
		{ "C/J/X", "no variant \"X\"; there is \"A\"" },
		{ "", "empty part" },
		{ "C//A", "empty part" },
		{ "C/J/", "empty part" },
		{ "C/J/A/x", "more than three" },
	};
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;

	ck_assert_int_eq(store_find(s, "C", &mem, &place, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "none yet"));
	empty_variant(s);
	for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
		ck_assert_int_eq(store_find(s, paths[i].path, &mem, &place, &err), STATUS_PLAN);
		ck_assert_msg(strstr(err.text, paths[i].words) != NULL, "%s: %s", paths[i].path,
		        err.text);
	}
	ck_assert_int_eq(store_find(s, "C/J", &mem, &place, &err), STATUS_OK);
	ck_assert_int_eq(place.variant, 0);
	ck_assert_ptr_null(place.variant_name);
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* --- catalogue, rule sets, view --- */

START_TEST(a_new_store_has_the_catalogue_and_every_entry_can_be_laid)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_slabs slabs;
	struct store_edgings edgings;
	struct plan plan;

	plan_init(&plan);
	ck_assert_int_eq(store_slabs(s, &mem, &slabs, &err), STATUS_OK);
	ck_assert_uint_ge(slabs.count, 14);
	for (size_t i = 0; i < slabs.count; i++) {
		plan.laying.slab = slabs.items[i];
		ck_assert_msg(laying_check(&plan.laying, slabs.items[i].name, &err) == STATUS_OK,
		        "%s", err.text);
		ck_assert_int_ge(slabs.items[i].density_kg_m3, 2000);
		ck_assert_int_gt(slabs.items[i].price_minor, 0);
	}
	ck_assert_str_eq(slabs.items[0].name, "Concrete flag 600 x 600 x 50");
	ck_assert_int_eq(slabs.items[0].length_um, 600000);
	ck_assert_int_eq(slabs.items[0].price_minor, 740);
	ck_assert_int_eq(store_edgings(s, &mem, &edgings, &err), STATUS_OK);
	ck_assert_uint_ge(edgings.count, 4);
	for (size_t i = 0; i < edgings.count; i++) {
		ck_assert_int_gt(edgings.items[i].unit_um, 0);
		ck_assert(edgings.kinds[i] != EDGE_HOUSE_WALL && edgings.kinds[i] != EDGE_OPEN);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(every_rule_has_a_source_and_limits_stand_in_their_units)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_names names;
	struct rules rules;

	ck_assert_int_eq(store_rule_sets(s, &mem, &names, &err), STATUS_OK);
	ck_assert_uint_eq(names.count, 4);
	ck_assert_str_eq(names.items[3], "none");
	for (size_t i = 0; i < names.count; i++) {
		ck_assert_int_eq(store_rules(s, names.items[i], &mem, &rules, &err), STATUS_OK);
		ck_assert_uint_eq(rules.count, strcmp(names.items[i], "none") == 0 ? 0 : 3);
		for (size_t k = 0; k < rules.count; k++)
			ck_assert_uint_ge(strlen(rules.items[k].source), strlen("common practice"));
	}
	ck_assert_int_eq(store_rules(s, "UK guidance", &mem, &rules, &err), STATUS_OK);
	ck_assert_int_eq(rules_find(&rules, "fall_min")->number, 12500);
	ck_assert_int_eq(rules_find(&rules, "fall_max")->number, 50000);
	ck_assert_int_eq(rules_find(&rules, "lift_one_person")->number, 25000);
	ck_assert_str_eq(rules_find(&rules, "lift_one_person")->unit, "kg");
	ck_assert_int_eq(store_rules(s, "Mars", &mem, &rules, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "\"UK guidance\""));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(view_state_is_kept_by_variant_and_key)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	const char *text;

	ck_assert_int_eq(store_view_get(s, 0, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "");
	ck_assert_int_eq(store_view_set(s, 0, "stage", "Laying", &err), STATUS_OK);
	ck_assert_int_eq(store_view_set(s, 0, "stage", "Falls", &err), STATUS_OK);
	ck_assert_int_eq(store_view_set(s, 3, "stage", "Outline", &err), STATUS_OK);
	store_close(s);
	s = store_in_folder("p.slabs");
	ck_assert_int_eq(store_view_get(s, 0, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "Falls");
	ck_assert_int_eq(store_view_get(s, 3, "stage", &mem, &text, &err), STATUS_OK);
	ck_assert_str_eq(text, "Outline");
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(two_handles_see_each_others_work)
{
	struct store *a = store_in_folder("p.slabs"), *b = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = empty_variant(a), undo, redo;
	char *before = exported(b, variant), *after, label[80];
	bool done;

	ck_assert_int_eq(
	        store_edit(b, variant,
	                &(struct edit){
	                        .type = EDIT_RULES, .label = "rules", .text = "UK guidance" },
	                &err),
	        STATUS_OK);
	ck_assert_int_eq(store_undo_depth(a, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 1);
	ck_assert_int_eq(store_undo(a, variant, &done, label, &err), STATUS_OK);
	ck_assert(done);
	ck_assert_str_eq(label, "rules");
	after = exported(b, variant);
	ck_assert_str_eq(before, after);
	free(before);
	free(after);
	store_close(a);
	store_close(b);
}
END_TEST

int main(void)
{
	Suite *suite = suite_create("store");
	TCase *t = tcase_create("store");
	SRunner *runner;
	int failed;

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, a_new_store_and_its_folder_are_private_whatever_the_umask, 0, 2);
	tcase_add_test(t, what_was_written_is_there_when_opened_again);
	tcase_add_test(t, the_usual_path_follows_the_environment);
	tcase_add_test(t, what_is_not_a_store_is_refused_and_left_alone);
	tcase_add_test(t, a_pipe_or_device_is_no_store);
	tcase_add_test(t, a_newer_store_is_refused);
	tcase_add_test(t, a_store_whose_making_was_interrupted_is_completed);
	tcase_add_test(t, an_older_store_is_copied_before_it_is_brought_up_to_date);
	tcase_add_test(t, an_upgrade_that_fails_leaves_the_store_as_it_was);
	tcase_add_test(t, a_store_that_cannot_be_filled_is_not_left_behind);
	tcase_add_test(t, a_locked_store_says_so);
	tcase_add_test(t, a_store_locked_for_good_cannot_be_opened);
	tcase_add_test(t, a_store_that_may_only_be_read_says_so);
	tcase_add_test(t, a_link_leads_to_the_store);
	tcase_add_test(t, a_file_name_is_only_a_file_name);
	tcase_add_loop_test(t, any_name_is_kept_as_it_is_and_found_by_its_path, 0,
	        sizeof strange_names / sizeof *strange_names);
	tcase_add_test(t, a_name_that_is_empty_too_long_or_not_utf8_is_refused);
	tcase_add_test(t, a_taken_name_is_refused_among_siblings_only);
	tcase_add_test(t, lists_count_children_and_tell_the_time_of_change);
	tcase_add_test(t, an_id_that_is_not_there_is_refused);
	tcase_add_test(t, a_path_that_leads_nowhere_names_what_is_there);
	tcase_add_test(t, a_new_store_has_the_catalogue_and_every_entry_can_be_laid);
	tcase_add_test(t, every_rule_has_a_source_and_limits_stand_in_their_units);
	tcase_add_test(t, view_state_is_kept_by_variant_and_key);
	tcase_add_test(t, two_handles_see_each_others_work);
	suite_add_tcase(suite, t);
	runner = srunner_create(suite);
	srunner_run_all(runner, CK_NORMAL);
	failed = srunner_ntests_failed(runner);
	srunner_free(runner);
	return failed != 0;
}
