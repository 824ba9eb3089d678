/* A disk that runs full or fails at any write, and a memory that ends at any request: each time the
 * work is done and acknowledged, or refused and as if it had never been tried. */
#include "faults/failing.h"
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/documents.h"
#include "unit/parts.h"
#include "unit/stores.h"
#include "unit/version_3.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void setup(void)
{
	program_folder();
}

static void sound(const char *name)
{
	ck_assert_int_eq(ask_file(program_path(name),
	                         "SELECT integrity_check = 'ok' FROM pragma_integrity_check"),
	        1);
	ck_assert_int_eq(
	        ask_file(program_path(name), "SELECT count(*) FROM pragma_foreign_key_check"), 0);
}

/* --- what is tried --- */

static enum status try_edit(struct store *s, int64_t variant, struct error *err)
{
	static struct plan_node square[] = { { 0, 0, 0, EDGE_KERB, 0, 0 },
		{ 9000, 0, 0, EDGE_KERB, 0, 0 }, { 9000, 9000, 0, EDGE_KERB, 0, 0 } };

	return store_edit(s, variant,
	        &(struct edit){ .type = EDIT_RING_INSERT,
	                .ring_value = { square, 3, true },
	                .label = "square" },
	        err);
}

static enum status try_undo(struct store *s, int64_t variant, struct error *err)
{
	char label[80];
	bool done;
	enum status st = store_undo(s, variant, &done, label, err);

	ck_assert(done == (st == STATUS_OK));
	return st;
}

static enum status try_copy(struct store *s, int64_t variant, struct error *err)
{
	int64_t id;

	return store_variant_copy(s, variant, "Copy", &id, err);
}

static enum status try_import(struct store *s, int64_t variant, struct error *err)
{
	int64_t first;
	size_t added;

	(void)variant;
	return store_import(s, full_document, strlen(full_document), NULL, &first, &added, err);
}

static enum status try_import_beside(struct store *s, int64_t variant, struct error *err)
{
	int64_t first;
	size_t added;

	(void)variant;
	return store_import(s, beside_document, strlen(beside_document), NULL, &first, &added, err);
}

static enum status try_borders(struct store *s, int64_t variant, struct error *err)
{
	struct parts p = some_parts();
	struct edit e = borders_edit(&p, 3);

	return store_edit(s, variant, &e, err);
}

static enum status try_zones(struct store *s, int64_t variant, struct error *err)
{
	struct parts p = some_parts();
	struct edit e = zones_edit(&p, 3);

	return store_edit(s, variant, &e, err);
}

static enum status try_beside(struct store *s, int64_t variant, int part, struct error *err)
{
	struct plan all = plan_with_all_beside();
	struct edit e = beside_edit(&all, part);

	return store_edit(s, variant, &e, err);
}

static enum status try_water(struct store *s, int64_t variant, struct error *err)
{
	return try_beside(s, variant, 0, err);
}

static enum status try_site(struct store *s, int64_t variant, struct error *err)
{
	return try_beside(s, variant, 1, err);
}

static enum status try_planters(struct store *s, int64_t variant, struct error *err)
{
	return try_beside(s, variant, 2, err);
}

static enum status try_steps(struct store *s, int64_t variant, struct error *err)
{
	return try_beside(s, variant, 3, err);
}

static enum status try_costs(struct store *s, int64_t variant, struct error *err)
{
	return try_beside(s, variant, 4, err);
}

/* Water, and a ring whose edge names one of its channels. */
static enum status try_drains(struct store *s, int64_t variant, struct error *err)
{
	static struct plan_node line[] = { { 0, 0, 0, EDGE_KERB, 0, 2 },
		{ 9000, 0, 0, EDGE_KERB, 0, 0 } };
	struct plan_ring ring = { line, 2, false };
	struct plan all = plan_with_all_beside();
	struct edit e = beside_edit(&all, 0);

	e.type = EDIT_DRAINS;
	e.rings = &ring;
	e.ring_count = 1;
	return store_edit(s, variant, &e, err);
}

static enum status try_delete(struct store *s, int64_t variant, struct error *err)
{
	return store_delete(s, STORE_VARIANT, variant, err);
}

static enum status try_notes(struct store *s, int64_t variant, struct error *err)
{
	return store_notes_set(s, STORE_VARIANT, variant, "two\nlines", err);
}

static enum status try_job_copy(struct store *s, int64_t variant, struct error *err)
{
	int64_t id;

	(void)variant;
	return store_job_copy(s, 1, "Copy", &id, err);
}

/* The whole client once more, from a copy that was changed. */
static enum status try_merge(struct store *s, int64_t variant, struct error *err)
{
	static const char document[] =
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},"
	        "\"jobs\":[{\"title\":\"K\",\"notes\":\"n\",\"variants\":[{\"name\":\"A\"}]},"
	        "{\"title\":\"J\",\"variants\":[{\"name\":\"A\",\"archived\":true}]}]}";
	struct arena mem = { 0 };
	struct store_merged m;
	enum status st = store_merge(
	        s, document, strlen(document), NULL, STORE_CLASHES_BESIDE, &mem, &m, err);

	(void)variant;
	arena_free(&mem);
	return st;
}

#define KEPT(part)                                                                                 \
	"SELECT count(*) = 1 AND (SELECT count(*) = 2 FROM edits) FROM documents WHERE part = "    \
	"'" part "'"

static const struct {
	enum status (*work)(struct store *s, int64_t variant, struct error *err);
	const char *trace; /* what tells that it has been done: 1, else 0 */
} works[] = {
	{ try_edit, "SELECT count(*) = 2 AND (SELECT count(*) = 2 FROM edits) FROM rings WHERE "
	            "variant = 1" },
	{ try_undo, "SELECT count(*) = 0 AND (SELECT sum(undone) = 1 FROM edits) FROM rings WHERE "
	            "variant = 1" },
	{ try_copy, "SELECT count(*) = 2 FROM variants" },
	{ try_delete, "SELECT count(*) = 1 FROM variants WHERE gone = 'A'" },
	{ try_notes, "SELECT notes = 'two' || char(10) || 'lines' FROM variants" },
	{ try_job_copy, "SELECT count(*) = 2 AND (SELECT count(*) = 2 FROM jobs) FROM variants" },
	{ try_merge, "SELECT count(*) = 3 AND sum(archived) = 1"
	             " AND (SELECT count(*) = 1 FROM jobs WHERE notes = 'n') FROM variants" },
	{ try_import, "SELECT count(*) = 4 AND (SELECT count(*) = 2 FROM clients) FROM variants" },
	{ try_import_beside, "SELECT count(*) = 2 AND (SELECT count(*) = 4 FROM documents) FROM "
	                     "variants" },
	{ try_borders, "SELECT count(*) = 3 AND (SELECT count(*) = 2 FROM edits) FROM borders" },
	{ try_zones, "SELECT count(*) = 9 AND (SELECT count(*) = 2 FROM edits)"
	             " AND (SELECT count(*) = 1 FROM repeats WHERE zone = 1)"
	             " AND (SELECT count(*) = 1 FROM mixes WHERE zone = 2) FROM zone_nodes" },
	{ try_water, KEPT("water") },
	{ try_site, KEPT("site") },
	{ try_planters, KEPT("planters") },
	{ try_steps, KEPT("steps") },
	{ try_costs, KEPT("costs") },
	{ try_drains, KEPT("water") " AND (SELECT count(*) = 2 AND sum(channel) = 2 FROM nodes)" },
};
enum { MEMORY_STRIDE = 11, WORKS = sizeof works / sizeof *works };

/* What tells that nothing has been done. */
static const char untouched[] =
        "SELECT (SELECT count(*) FROM clients) = 1 AND (SELECT count(*) FROM variants) = 1"
        " AND (SELECT count(*) FROM jobs) = 1 AND (SELECT gone IS NULL AND notes = '' FROM "
        "variants)"
        " AND (SELECT count(*) FROM rings) = 1 AND (SELECT count(*) FROM edits WHERE undone = 0) = "
        "1"
        " AND (SELECT count(*) FROM edits) = 1 AND (SELECT count(*) FROM borders) = 0"
        " AND (SELECT count(*) FROM zones) = 0 AND (SELECT count(*) FROM zone_nodes) = 0"
        " AND (SELECT count(*) FROM documents) = 0 AND (SELECT max(channel) FROM nodes) = 0"
        " AND (SELECT count(*) FROM repeats WHERE variant NOT NULL) = 0";

/* A copy of the file, without the store's care for the disk: that would take most of the test's
 * time. */
static void copy_file(const char *from, const char *to)
{
	static char bytes[1 << 20];
	FILE *in = fopen(program_path(from), "rb"), *out = fopen(program_path(to), "wb");
	size_t n;

	ck_assert(in && out);
	n = fread(bytes, 1, sizeof bytes, in);
	ck_assert(n > 0 && n < sizeof bytes);
	ck_assert_uint_eq(fwrite(bytes, 1, n, out), n);
	ck_assert_int_eq(fclose(out) | fclose(in), 0);
}

/* A store with one edit, in a fresh file. */
static struct store *store_with_an_edit(const char *name, int64_t *variant)
{
	static int64_t made;
	struct store *s;
	struct error err = { 0 };

	if (!made) {
		s = store_in_folder("first.slabs");
		made = empty_variant(s);
		ck_assert_int_eq(try_edit(s, made, &err), STATUS_OK);
		store_close(s);
	}
	copy_file("first.slabs", name);
	*variant = made;
	return store_in_folder(name);
}

/* Tries the work with the request number `at` failing; whether one did fail. */
static bool try_once(struct failing *f, int at, bool on, int work)
{
	struct error err = { STATUS_OK, "" };
	int64_t variant;
	struct store *s = store_with_an_edit("p.slabs", &variant);
	enum status st;
	int hits;

	failing_start(f, at, on);
	st = works[work].work(s, variant, &err);
	hits = f->hits;
	failing_stop(f);
	if (st == STATUS_OK) {
		ck_assert_int_eq(ask_file(program_path("p.slabs"), works[work].trace), 1);
	} else {
		ck_assert_msg(
		        st == STATUS_STORE || st == STATUS_MEMORY, "status %d: %s", st, err.text);
		ck_assert_int_gt(hits, 0);
		ck_assert_uint_gt(strlen(err.text), 10);
		ck_assert_int_eq(ask_file(program_path("p.slabs"), untouched), 1);
		/* The handle is still good: the same goes when the fault has passed. */
		ck_assert_msg(works[work].work(s, variant, &err) == STATUS_OK, "%s", err.text);
		ck_assert_int_eq(ask_file(program_path("p.slabs"), works[work].trace), 1);
	}
	store_close(s);
	sound("p.slabs");
	return hits > 0;
}

/* Lets every stride-th request fail, one at a time, until the work no longer asks for so many. */
static int try_everywhere(struct failing *f, bool on, int work, int first, int stride)
{
	int tried = 0;

	for (int at = first; try_once(f, at, on, work); at += stride)
		tried++;
	return tried;
}

START_TEST(a_failing_disk_leaves_the_old_state_or_the_new_one)
{
	static const int codes[] = { SQLITE_FULL, SQLITE_IOERR_WRITE };

	failing_disk_install();
	for (int on = 0; on < 2; on++) {
		failing_disk.code = codes[on];
		ck_assert_int_gt(try_everywhere(&failing_disk, on, _i, 0, 1), 2);
	}
}
END_TEST

START_TEST(a_memory_that_ends_leaves_the_old_state_or_the_new_one)
{
	failing_memory_install();
	/* The work asks a thousand times and more: a prime stride, each time from another start. */
	ck_assert_int_gt(try_everywhere(&failing_memory, _i % 2, _i / 2, _i, MEMORY_STRIDE), 2);
}
END_TEST

START_TEST(a_backup_is_whole_or_not_there)
{
	struct error err = { 0 };
	int64_t variant;
	struct store *s;
	bool failed = true;

	failing_disk_install();
	failing_disk.code = SQLITE_FULL;
	s = store_with_an_edit("p.slabs", &variant);
	for (int at = 0; failed; at++) {
		char copy[300];
		enum status st;

		snprintf(copy, sizeof copy, "%s", program_path("copy.slabs"));
		failing_start(&failing_disk, at, _i);
		st = store_backup(s, copy, &err);
		failed = failing_disk.hits > 0;
		failing_stop(&failing_disk);
		ck_assert_int_eq(access(copy, F_OK) == 0, st == STATUS_OK);
		if (st == STATUS_OK)
			sound("copy.slabs");
		unlink(copy);
	}
	store_close(s);
	sound("p.slabs");
}
END_TEST

START_TEST(a_full_disk_is_named)
{
	struct error err = { 0 };
	int64_t variant;
	struct store *s;

	failing_disk_install();
	s = store_with_an_edit("p.slabs", &variant);
	failing_disk.code = SQLITE_FULL;
	failing_start(&failing_disk, 0, true);
	ck_assert_int_eq(try_edit(s, variant, &err), STATUS_STORE);
	failing_stop(&failing_disk);
	ck_assert_msg(strstr(err.text, "disk is full") != NULL, "%s", err.text);
	ck_assert_msg(
	        strncmp(err.text, program_path("p.slabs"), strlen(program_path("p.slabs"))) == 0,
	        "%s", err.text);
	store_close(s);
}
END_TEST

START_TEST(a_store_is_made_whole_or_not_at_all)
{
	struct failing *f = _i ? &failing_memory : &failing_disk;
	struct error err = { 0 };
	struct store *s;
	bool failed = true;

	if (_i)
		failing_memory_install();
	else
		failing_disk_install();
	failing_disk.code = SQLITE_FULL;
	for (int at = 0; failed; at += _i ? 293 : 1) {
		char path[300];
		enum status st;

		snprintf(path, sizeof path, "%s", program_path("new.slabs"));
		unlink(path);
		failing_start(f, at, true);
		st = store_open(&s, path, STORE_MAY_CREATE, getenv("SHARE"), &err);
		failed = f->hits > 0;
		failing_stop(f);
		if (st == STATUS_OK)
			store_close(s);
		/* Whatever came of it, the next try gives a whole store. */
		s = store_in_folder("new.slabs");
		empty_variant(s);
		store_close(s);
		sound("new.slabs");
	}
}
END_TEST

/* Of version 3 still, or of 5 with all that it and 4 bring; and nothing lost. */
static const char upgrade_whole[] =
        "SELECT user_version = 3 + 2 * (SELECT count(*) FROM sqlite_schema WHERE name = 'zones')"
        " AND user_version = 3 + (SELECT count(*) FROM pragma_table_info('nodes') WHERE name IN "
        "('border', 'channel'))"
        " AND user_version = 3 + (SELECT count(*) FROM sqlite_schema WHERE name IN ('documents', "
        "'catalogue_documents'))"
        " AND (SELECT count(*) FROM nodes) = 3 AND (SELECT count(*) FROM repeats) = 2"
        " AND (SELECT count(*) FROM repeat_slabs) = 3 AND (SELECT count(*) FROM mix_sizes) = 2"
        " FROM pragma_user_version";

/* Opens a store of version 3 with the request number `at` failing; whether one did fail. */
static bool upgrade_once(struct failing *f, int at, bool on)
{
	struct error err = { STATUS_OK, "" };
	struct store *s;
	enum status st;
	int hits;

	copy_file("old.slabs", "p.slabs");
	unlink(program_path("p.slabs.version-3-backup"));
	unlink(program_path("p.slabs.version-3-backup-2"));
	failing_start(f, at, on);
	st = store_open(&s, program_path("p.slabs"), STORE_MUST_EXIST, getenv("SHARE"), &err);
	hits = f->hits;
	failing_stop(f);
	if (st == STATUS_OK)
		store_close(s);
	else
		ck_assert_msg(hits > 0 && strlen(err.text) > 10, "status %d: %s", st, err.text);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), upgrade_whole), 1);
	store_close(store_in_folder("p.slabs"));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), upgrade_whole), 1);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	sound("p.slabs");
	return hits > 0;
}

START_TEST(a_store_is_brought_up_to_date_whole_or_not_at_all)
{
	struct failing *f = _i / 2 ? &failing_memory : &failing_disk;
	int stride = _i / 2 ? 401 : 2, tried = 0; /* a hundred writes, 26000 allocations */

	if (_i / 2)
		failing_memory_install();
	else
		failing_disk_install();
	version_3_make(program_path("old.slabs"));
	failing_disk.code = SQLITE_FULL;
	for (int at = _i % 2 * (stride / 2); upgrade_once(f, at, _i % 2); at += stride)
		tried++;
	ck_assert_int_gt(tried, 10);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("faults");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 300);
	tcase_add_loop_test(t, a_failing_disk_leaves_the_old_state_or_the_new_one, 0, WORKS);
	tcase_add_loop_test(
	        t, a_memory_that_ends_leaves_the_old_state_or_the_new_one, 0, WORKS * 2);
	tcase_add_loop_test(t, a_backup_is_whole_or_not_there, 0, 2);
	tcase_add_test(t, a_full_disk_is_named);
	tcase_add_loop_test(t, a_store_is_made_whole_or_not_at_all, 0, 2);
	tcase_add_loop_test(t, a_store_is_brought_up_to_date_whole_or_not_at_all, 0, 4);
	return suite_run("faults", t);
}
