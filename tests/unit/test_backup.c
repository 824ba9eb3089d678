/* Copies of a store, and putting one back. */
#include "program.h"
#include "suite.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct error err;
static struct arena mem;

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	arena_free(&mem);
	program_folder_remove();
}

/* Names that outlive further calls of program_path. */
static const char *path(const char *name)
{
	return arena_text(&mem, program_path(name));
}

static int64_t clients(const char *name)
{
	return ask_file(path(name), "SELECT count(*) FROM clients");
}

START_TEST(a_backup_is_one_whole_file_that_only_its_owner_reads)
{
	struct store *s = store_in_folder("p.slabs"), *copy;
	int64_t variant = imported(s, full_document);
	char *before = exported_job(s, variant), *after;
	struct stat is;

	ck_assert_msg(store_backup(s, path("copy.slabs"), &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(stat(path("copy.slabs"), &is), 0);
	ck_assert_int_eq(is.st_mode & 07777, 0600);
	ck_assert_int_ne(access(path("copy.slabs-wal"), F_OK), 0);
	ck_assert_int_eq(
	        store_open(&copy, path("copy.slabs"), STORE_MUST_EXIST, NULL, &err), STATUS_OK);
	after = exported_job(copy, variant);
	ck_assert_str_eq(after, before);
	store_close(copy);
	/* The store goes on as before. */
	ck_assert_int_eq(store_backup(s, path("copy.slabs"), &err), STATUS_USAGE);
	ck_assert_msg(strstr(err.text, "another name") != NULL, "%s", err.text);
	ck_assert_int_eq(store_backup(s, path("no/such/copy"), &err), STATUS_STORE);
	store_close(s);
	free(before);
	free(after);
}
END_TEST

START_TEST(a_restore_keeps_what_was_there)
{
	struct store *s = store_in_folder("p.slabs");
	const char *kept;
	int64_t id;

	ck_assert_int_eq(store_client_add(s, "old", &id, &err), STATUS_OK);
	ck_assert_int_eq(store_backup(s, path("copy.slabs"), &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(s, "new", &id, &err), STATUS_OK);
	/* Not while it is open. */
	ck_assert_int_eq(store_restore(path("p.slabs"), path("copy.slabs"), &mem, &kept, &err),
	        STATUS_STORE);
	ck_assert_msg(strstr(err.text, "open; leave it first") != NULL, "%s", err.text);
	ck_assert_ptr_null(kept);
	ck_assert_int_eq(clients("p.slabs"), 2);
	ck_assert_int_eq(store_client_add(s, "newer", &id, &err), STATUS_OK);
	store_close(s);
	ck_assert_msg(
	        store_restore(path("p.slabs"), path("copy.slabs"), &mem, &kept, &err) == STATUS_OK,
	        "%s", err.text);
	ck_assert_str_eq(kept, path("p.slabs.before-restore"));
	ck_assert_int_eq(clients("p.slabs"), 1);
	ck_assert_int_eq(clients("p.slabs.before-restore"), 3);
	ck_assert_int_eq(clients("copy.slabs"), 1);
	ck_assert_int_eq(store_restore(path("p.slabs"), kept, &mem, &kept, &err), STATUS_OK);
	ck_assert_str_eq(kept, path("p.slabs.before-restore-2"));
	ck_assert_int_eq(clients("p.slabs"), 3);
	s = store_in_folder("p.slabs");
	ck_assert_int_eq(store_client_add(s, "goes on", &id, &err), STATUS_OK);
	store_close(s);
}
END_TEST

START_TEST(a_restore_makes_a_store_where_none_is)
{
	struct store *s = store_in_folder("p.slabs");
	const char *kept;

	empty_variant(s);
	ck_assert_int_eq(store_backup(s, path("copy.slabs"), &err), STATUS_OK);
	ck_assert_int_eq(
	        store_restore(path("q.slabs"), path("copy.slabs"), &mem, &kept, &err), STATUS_OK);
	ck_assert_ptr_null(kept);
	ck_assert_int_eq(clients("q.slabs"), 1);
	store_close(s);
}
END_TEST

START_TEST(what_is_no_whole_store_is_not_restored)
{
	struct store *s = store_in_folder("p.slabs");
	const char *kept;
	FILE *f;

	empty_variant(s);
	ck_assert_int_eq(store_backup(s, path("copy.slabs"), &err), STATUS_OK);
	store_close(s);
	program_write("text", "not a database at all, but long enough to have a header of one "
	                      "hundred bytes if it were one, and then some");
	ck_assert_int_eq(
	        store_restore(path("p.slabs"), path("text"), &mem, &kept, &err), STATUS_STORE);
	ck_assert_msg(strstr(err.text, "not a Slabwright store") != NULL, "%s", err.text);
	ck_assert_int_eq(
	        store_restore(path("p.slabs"), path("none"), &mem, &kept, &err), STATUS_STORE);
	change_file(path("copy.slabs"), "PRAGMA user_version = 99");
	ck_assert_int_eq(store_restore(path("p.slabs"), path("copy.slabs"), &mem, &kept, &err),
	        STATUS_STORE);
	ck_assert_msg(strstr(err.text, "version 99") != NULL, "%s", err.text);
	change_file(path("copy.slabs"), "PRAGMA user_version = 5");
	f = fopen(path("copy.slabs"), "r+b");
	for (long at = 4096; f && at < 40960; at += 64) {
		fseek(f, at, SEEK_SET);
		fputs("damaged", f);
	}
	ck_assert_int_eq(fclose(f), 0);
	ck_assert_int_eq(store_restore(path("p.slabs"), path("copy.slabs"), &mem, &kept, &err),
	        STATUS_STORE);
	ck_assert_int_eq(clients("p.slabs"), 1);
	ck_assert_int_ne(access(path("p.slabs.before-restore"), F_OK), 0);
}
END_TEST

START_TEST(a_damaged_store_is_kept_and_replaced)
{
	struct store *s = store_in_folder("q.slabs");
	const char *kept;
	FILE *f;

	empty_variant(s);
	ck_assert_int_eq(store_backup(s, path("copy.slabs"), &err), STATUS_OK);
	store_close(s);
	program_write("p.slabs", "this was a store once, before somebody wrote over it");
	ck_assert_msg(
	        store_restore(path("p.slabs"), path("copy.slabs"), &mem, &kept, &err) == STATUS_OK,
	        "%s", err.text);
	ck_assert_int_eq(clients("p.slabs"), 1);
	f = fopen(kept, "rb");
	ck_assert_int_eq(fgetc(f), 't');
	fclose(f);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("backup");

	tcase_add_checked_fixture(t, setup, teardown);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, a_backup_is_one_whole_file_that_only_its_owner_reads);
	tcase_add_test(t, a_restore_keeps_what_was_there);
	tcase_add_test(t, a_restore_makes_a_store_where_none_is);
	tcase_add_test(t, what_is_no_whole_store_is_not_restored);
	tcase_add_test(t, a_damaged_store_is_kept_and_replaced);
	return suite_run("backup", t);
}
