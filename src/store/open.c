/* open.c - finding, making and opening the file of a store.
 *
 * The header of a file is read before SQLite sees it, so that a file that is not a store is left
 * exactly as it is: opening alone could already play back somebody's journal. A store is made under
 * a rollback journal and turned to WAL when it is whole, so its header tells whose it is at any
 * moment. */
#include "schema.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { HEADER = 100, APPLICATION_ID_AT = 68 };

enum found { FOUND_STORE, FOUND_EMPTY };

enum status store_usual_path(struct arena *mem, const char *xdg_data_home, const char *home,
        const char **path, struct error *err)
{
	if (xdg_data_home && xdg_data_home[0] == '/')
		*path = arena_print(mem, "%s/slabwright/projects.slabs", xdg_data_home);
	else if (home && home[0])
		*path = arena_print(mem, "%s/.local/share/slabwright/projects.slabs", home);
	else
		return error_set(err, STATUS_STORE,
		        "There is no place for the store: HOME is not set. Give one with --store "
		        "FILE or in "
		        "SLABWRIGHT_STORE.");
	return *path ? STATUS_OK : error_memory(err);
}

/* Makes the folders that lead to the file, 0700 whatever the umask. */
static enum status make_folders(const char *path, struct error *err)
{
	char *folder = strdup(path);
	enum status st = STATUS_OK;

	if (!folder)
		return error_memory(err);
	for (char *slash = strchr(folder + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
		*slash = '\0';
		if (mkdir(folder, 0700) == 0) {
			chmod(folder, 0700);
		} else if (errno != EEXIST) {
			st = error_set(err, STATUS_STORE, "%s: the folder %s cannot be made (%s)",
			        path, folder, strerror(errno));
			break;
		}
		*slash = '/';
	}
	free(folder);
	return st;
}

/* Makes an empty file. *made tells whether it is certain that nobody else did. */
static enum status make_file(const char *path, bool *made, struct error *err)
{
	enum status st = make_folders(path, err);
	int fd;

	*made = false;
	if (st != STATUS_OK)
		return st;
	fd = open(path, O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0600);
	*made = fd >= 0;
	/* Somebody was quicker, or a link points at nothing yet, which O_EXCL does not follow. */
	if (fd < 0 && errno == EEXIST)
		fd = open(path, O_CREAT | O_RDWR | O_CLOEXEC, 0600);
	if (fd < 0)
		return error_set(err, STATUS_STORE, "%s: the store cannot be made (%s)", path,
		        strerror(errno));
	fchmod(fd, 0600);
	close(fd);
	return STATUS_OK;
}

static enum status not_a_store(const char *path, const char *what, struct error *err)
{
	return error_set(err, STATUS_STORE,
	        "%s: %s, not a Slabwright store; nothing was changed. Give another file.", path,
	        what);
}

/* Reads the first bytes through SQLite's own file layer: closing a descriptor of our own would let
 * go of the locks that another handle of this process holds on the file. *n is how many there are,
 * -1 when they cannot be read. */
static void read_header(const char *path, unsigned char header[HEADER], sqlite3_int64 *n)
{
	sqlite3_vfs *vfs = sqlite3_vfs_find(NULL);
	char *full = realpath(path, NULL);
	sqlite3_file *file = vfs ? calloc(1, (size_t)vfs->szOsFile) : NULL;

	*n = -1;
	if (full && file &&
	        vfs->xOpen(vfs, full, file, SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, NULL) ==
	                SQLITE_OK) {
		if (file->pMethods->xFileSize(file, n) != SQLITE_OK ||
		        (*n >= HEADER &&
		                file->pMethods->xRead(file, header, HEADER, 0) != SQLITE_OK))
			*n = -1;
		file->pMethods->xClose(file);
	}
	free(file);
	free(full);
}

/* Looks at the file without changing anything. */
static enum status look(const char *path, enum found *found, struct error *err)
{
	unsigned char h[HEADER] = { 0 };
	sqlite3_int64 n;
	long id = 0;

	if (access(path, R_OK) != 0)
		return error_set(err, STATUS_STORE, "%s: the store cannot be read (%s)", path,
		        strerror(errno));
	read_header(path, h, &n);
	if (n < 0)
		return error_set(err, STATUS_STORE, "%s: the store cannot be read", path);
	*found = n == 0 ? FOUND_EMPTY : FOUND_STORE;
	if (n == 0)
		return STATUS_OK;
	if (n < HEADER || memcmp(h, "SQLite format 3", 16) != 0)
		return not_a_store(path, "this is some other kind of file", err);
	for (int i = 0; i < 4; i++)
		id = id << 8 | h[APPLICATION_ID_AT + i];
	return id == APPLICATION_ID
	               ? STATUS_OK
	               : not_a_store(path, "this is the database of another program", err);
}

/* Sees that there is a file to open, and that it may be opened. */
static enum status find_file(const char *path, enum store_mode mode, bool *made, struct error *err)
{
	enum found found = FOUND_STORE;
	struct stat is;
	enum status st;

	*made = false;
	if (!path || !path[0])
		return error_set(err, STATUS_STORE, "The name of the store is empty; give a file.");
	if (stat(path, &is) != 0) {
		if (errno != ENOENT)
			return error_set(err, STATUS_STORE, "%s: the store cannot be reached (%s)",
			        path, strerror(errno));
		if (mode == STORE_MUST_EXIST)
			return error_set(err, STATUS_STORE,
			        "%s: there is no store here; give the file of one, or import a "
			        "plan to make it",
			        path);
		return make_file(path, made, err);
	}
	if (S_ISDIR(is.st_mode))
		return error_set(
		        err, STATUS_STORE, "%s: this is a folder; give a file in it", path);
	if (!S_ISREG(is.st_mode))
		return not_a_store(path, "this is not a plain file", err);
	st = look(path, &found, err);
	if (st == STATUS_OK && found == FOUND_EMPTY && mode == STORE_MUST_EXIST)
		return not_a_store(path, "this file is empty", err);
	return st;
}

static enum status settings(struct store *s, struct error *err)
{
	sqlite3_busy_timeout(s->db, BUSY_MS);
	sqlite3_db_config(s->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
	if (sqlite3_db_readonly(s->db, "main") == 1)
		return error_set(err, STATUS_STORE,
		        "%s: the store may only be read; give yourself the right to write it, or "
		        "work on a copy",
		        s->path);
	return sql_script(s,
	        "PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF;"
	        "PRAGMA cell_size_check = ON; PRAGMA temp_store = MEMORY",
	        err);
}

/* The change to WAL wants the file for itself for a moment, and SQLite does not wait for that:
 * another program that has just made or opened the store may have it. */
static enum status use_wal(struct store *s, struct error *err)
{
	enum status st;
	int waited = 0;

	while ((st = sql_script(s, "PRAGMA journal_mode = WAL", err)) != STATUS_OK &&
	        (sqlite3_errcode(s->db) & 0xFF) == SQLITE_BUSY && waited < MAKING_MS)
		waited += sqlite3_sleep(20);
	return st;
}

static enum status data_version(struct store *s, int64_t *version, struct error *err)
{
	static const char sql[] = "PRAGMA data_version";

	return sql_number(s, sql, NO_VALUES, version, NULL, err);
}

static enum status open_file(struct store *s, const char *share_dir, struct error *err)
{
	char *file = realpath(s->path, NULL); /* never one of SQLite's special names */
	enum status st;
	int rc;

	if (!file)
		return error_set(err, STATUS_STORE, "%s: the store cannot be reached (%s)", s->path,
		        strerror(errno));
	rc = sqlite3_open_v2(file, &s->db,
	        SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, NULL);
	free(file);
	if (!s->db)
		return error_memory(err);
	if (rc != SQLITE_OK)
		return sql_fault(s, err);
	if ((st = settings(s, err)) != STATUS_OK ||
	        (st = schema_upgrade(s, share_dir, err)) != STATUS_OK ||
	        (st = use_wal(s, err)) != STATUS_OK)
		return st;
	return data_version(s, &s->seen, err);
}

enum status store_open(struct store **out, const char *path, enum store_mode mode,
        const char *share_dir, struct error *err)
{
	struct store *s;
	bool made, locked;
	enum status st = find_file(path, mode, &made, err);

	*out = NULL;
	if (st != STATUS_OK)
		return st;
	s = calloc(1, sizeof *s);
	if (s)
		s->path = strdup(path);
	st = s && s->path ? open_file(s, share_dir, err) : error_memory(err);
	if (st == STATUS_OK) {
		*out = s;
		return STATUS_OK;
	}
	/* Not while another program holds it: then that one is filling the file we made. */
	locked = s && s->db && (sqlite3_errcode(s->db) & 0xFF) == SQLITE_BUSY;
	store_close(s);
	if (made && !locked)
		unlink(path);
	return st;
}

void store_close(struct store *s)
{
	if (!s)
		return;
	for (size_t i = 0; i < s->count; i++)
		sqlite3_finalize(s->statements[i].q);
	sqlite3_close(s->db);
	free(s->statements);
	free(s->path);
	free(s);
}

const char *store_path(const struct store *s)
{
	return s->path;
}

enum status store_changed_elsewhere(struct store *s, bool *changed, struct error *err)
{
	int64_t version = s->seen;
	enum status st = data_version(s, &version, err);

	*changed = st == STATUS_OK && version != s->seen;
	if (*changed)
		s->seen = version;
	return st;
}
