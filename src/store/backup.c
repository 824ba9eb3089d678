/* backup.c - copies of the whole store, and putting one back.
 *
 * A copy is written under another name in the folder it goes to, and gets its own when it is whole.
 * While a store is replaced its journal is folded in and its file is locked: a program that has it
 * open is found by that, and none can open it before the other one is in its place. */
#include "backup.h"

#include "schema.h"
#include "slabwright/file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool copy_from(sqlite3 *from, const char *to_name)
{
	sqlite3 *to = NULL;
	sqlite3_backup *copy = NULL;
	bool good = false;

	if (sqlite3_open_v2(to_name, &to, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK)
		copy = sqlite3_backup_init(to, "main", from, "main");
	if (copy) {
		good = sqlite3_backup_step(copy, -1) == SQLITE_DONE;
		good = sqlite3_backup_finish(copy) == SQLITE_OK && good;
	}
	sqlite3_close(to);
	return good;
}

bool copy_database(const char *from_name, const char *to_name)
{
	sqlite3 *from = NULL;
	bool good = sqlite3_open_v2(from_name, &from, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK &&
	            copy_from(from, to_name);

	sqlite3_close(from);
	return good;
}

/* --- files --- */

/* An empty file of mode 0600 beside the one of that name. */
static enum status part_file(const char *beside, struct arena *mem, char **name, struct error *err)
{
	int fd;

	if (!(*name = arena_print(mem, "%s.part-XXXXXX", beside)))
		return error_memory(err);
	if ((fd = mkstemp(*name)) < 0)
		return error_set(err, STATUS_STORE,
		        "%s: it cannot be written (%s); see that its folder is there and may be "
		        "written",
		        beside, strerror(errno));
	fchmod(fd, 0600);
	close(fd);
	return STATUS_OK;
}

static bool sync_path(const char *path, int flags)
{
	int fd = open(path, flags | O_CLOEXEC);
	bool good = fd >= 0 && (fsync(fd) == 0 || errno == EINVAL);

	if (fd >= 0)
		close(fd);
	return good;
}

/* So that a name that was given survives a power cut too. */
static void sync_folder(const char *path, struct arena *mem)
{
	const char *slash = strrchr(path, '/');
	const char *folder = slash ? arena_print(mem, "%.*s", (int)(slash - path + 1), path) : ".";

	if (folder)
		sync_path(folder, O_RDONLY | O_DIRECTORY);
}

static enum status cannot_write(const char *file, struct error *err)
{
	return error_set(err, STATUS_STORE,
	        "%s: the copy could not be written; see that there is room. Nothing was changed",
	        file);
}

static enum status taken(const char *file, struct error *err)
{
	return error_set(err, STATUS_USAGE,
	        "%s: there is a file of that name; give another name, nothing was written", file);
}

/* --- backup --- */

/* A copy that is one file: no journal stands beside it. */
static bool copy_whole(sqlite3 *from, const char *to)
{
	sqlite3 *db = NULL;
	bool good = copy_from(from, to) &&
	            sqlite3_open_v2(to, &db, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK &&
	            sqlite3_exec(db, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL) == SQLITE_OK;

	good = sqlite3_close(db) == SQLITE_OK && good;
	return good && sync_path(to, O_RDWR);
}

static enum status write_copy(sqlite3 *from, const char *file, struct arena *mem, struct error *err)
{
	char *part;
	enum status st = part_file(file, mem, &part, err);

	if (st != STATUS_OK)
		return st;
	if (!copy_whole(from, part))
		st = cannot_write(file, err);
	else if (!file_name_new(part, file))
		st = errno == EEXIST ? taken(file, err) : cannot_write(file, err);
	if (st != STATUS_OK)
		unlink(part);
	else
		sync_folder(file, mem);
	return st;
}

enum status store_backup(struct store *s, const char *file, struct error *err)
{
	struct arena mem = { 0 };
	sqlite3 *from = NULL;
	enum status st;

	if (access(file, F_OK) == 0)
		return taken(file, err);
	/* A connection of its own reads one state, whatever is written meanwhile. */
	if (sqlite3_open_v2(sqlite3_db_filename(s->db, "main"), &from, SQLITE_OPEN_READWRITE,
	            NULL) == SQLITE_OK)
		st = write_copy(from, file, &mem, err);
	else
		st = cannot_write(file, err);
	sqlite3_close(from);
	arena_free(&mem);
	return st;
}

/* --- restore --- */

static int64_t ask(sqlite3 *db, const char *sql)
{
	sqlite3_stmt *q = NULL;
	int64_t number = -1;

	if (sqlite3_prepare_v2(db, sql, -1, &q, NULL) == SQLITE_OK && sqlite3_step(q) == SQLITE_ROW)
		number = sqlite3_column_int64(q, 0);
	sqlite3_finalize(q);
	return number;
}

/* Whether the database is a store, whole and not newer. */
static enum status check_copy(sqlite3 *db, const char *file, struct error *err)
{
	int64_t id = ask(db, "PRAGMA application_id"), version = ask(db, "PRAGMA user_version");

	if (id != APPLICATION_ID || version < 1)
		return error_set(err, STATUS_STORE,
		        "%s: not a Slabwright store; nothing was changed. Give a file that "
		        "`slabwright backup` wrote",
		        file);
	if (version > STORE_VERSION)
		return error_set(err, STATUS_STORE,
		        "%s: the store in it is of version %lld and this program knows up to "
		        "version %d; nothing was changed. Use the newer program that wrote it",
		        file, (long long)version, STORE_VERSION);
	if (ask(db, "SELECT quick_check = 'ok' FROM pragma_quick_check LIMIT 1") != 1)
		return error_set(err, STATUS_STORE,
		        "%s: the store in it is damaged; nothing was changed. Give another copy",
		        file);
	return STATUS_OK;
}

/* The copy that comes in, beside the store, checked. */
static enum status bring(
        const char *path, const char *file, struct arena *mem, char **part, struct error *err)
{
	sqlite3 *from = NULL;
	enum status st;

	*part = NULL;
	if (access(file, R_OK) != 0)
		return error_set(
		        err, STATUS_STORE, "%s: it cannot be read (%s)", file, strerror(errno));
	if (sqlite3_open_v2(file, &from, SQLITE_OPEN_READONLY, NULL) != SQLITE_OK)
		st = error_set(err, STATUS_STORE, "%s: it cannot be read as a store", file);
	else
		st = check_copy(from, file, err);
	if (st == STATUS_OK)
		st = part_file(path, mem, part, err);
	if (st == STATUS_OK && !copy_whole(from, *part))
		st = cannot_write(path, err);
	sqlite3_close(from);
	return st;
}

/* PATH.before-restore, -2, -3 ...: the first that is not taken. */
static char *free_beside(const char *path, struct arena *mem)
{
	char *name = arena_print(mem, "%s.before-restore", path);

	for (int i = 2; name && access(name, F_OK) == 0 && i < 1000; i++)
		name = arena_print(mem, "%s.before-restore-%d", path, i);
	return name;
}

/* Folds the journal in and locks the store until it is closed, so that nobody else has it. */
static enum status lock_alone(sqlite3 *db, const char *path, struct error *err)
{
	static const char alone[] = "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = DELETE;"
	                            "BEGIN EXCLUSIVE; COMMIT";

	sqlite3_busy_timeout(db, 0);
	if (sqlite3_exec(db, alone, NULL, NULL, NULL) == SQLITE_OK)
		return STATUS_OK;
	if ((sqlite3_errcode(db) & 0xFF) == SQLITE_BUSY)
		return error_set(err, STATUS_STORE,
		        "%s: a planner or another program has the store open; leave it first. "
		        "Nothing was changed",
		        path);
	return error_set(err, STATUS_STORE, "%s: %s", path, sqlite3_errmsg(db));
}

/* A file that is no store that can be read is kept as it is, with its journal. */
static enum status move_aside(
        const char *path, const char *kept, struct arena *mem, struct error *err)
{
	static const char *const tails[] = { "-wal", "-shm", "-journal" };

	for (int i = 0; i < 3; i++) {
		const char *from = arena_print(mem, "%s%s", path, tails[i]),
		           *to = arena_print(mem, "%s%s", kept, tails[i]);

		if (!from || !to)
			return error_memory(err);
		if (rename(from, to) != 0 && errno != ENOENT)
			return cannot_write(kept, err);
	}
	return rename(path, kept) == 0 ? STATUS_OK : cannot_write(kept, err);
}

static bool is_store(sqlite3 *db)
{
	return ask(db, "PRAGMA application_id") == APPLICATION_ID &&
	       ask(db, "SELECT quick_check = 'ok' FROM pragma_quick_check LIMIT 1") == 1;
}

/* Keeps what is at the path, and puts the part in its place. */
static enum status replace(
        const char *path, const char *part, const char *kept, struct arena *mem, struct error *err)
{
	sqlite3 *db = NULL;
	enum status st = STATUS_OK;
	bool good = sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL) == SQLITE_OK;

	if (good) {
		sqlite3_busy_timeout(db, BUSY_MS);
		good = is_store(db);
	}
	if (good && (st = lock_alone(db, path, err)) == STATUS_OK)
		st = write_copy(db, kept, mem, err);
	if (!good) {
		sqlite3_close(db);
		db = NULL;
		st = move_aside(path, kept, mem, err);
	}
	if (st == STATUS_OK && rename(part, path) != 0)
		st = cannot_write(path, err);
	sqlite3_close(db);
	return st;
}

enum status store_restore(
        const char *path, const char *file, struct arena *mem, const char **kept, struct error *err)
{
	char *real = realpath(path, NULL), *part = NULL;
	const char *at = real ? arena_text(mem, real) : path;
	enum status st;

	free(real);
	*kept = NULL;
	if (!at)
		return error_memory(err);
	st = bring(at, file, mem, &part, err);
	if (st == STATUS_OK && access(at, F_OK) == 0) {
		*kept = free_beside(at, mem);
		st = *kept ? replace(at, part, *kept, mem, err) : error_memory(err);
	} else if (st == STATUS_OK && rename(part, at) != 0) {
		st = cannot_write(at, err);
	}
	if (st == STATUS_OK)
		sync_folder(at, mem);
	if (st != STATUS_OK) {
		*kept = NULL;
		if (part)
			unlink(part);
	}
	return st;
}
