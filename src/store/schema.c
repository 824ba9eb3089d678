/* schema.c - the tables of each version, as steps from the version before.
 *
 * To add a version: list its statements, put their row at the end of `steps`, raise STORE_VERSION.
 * A step never changes once it has been released. */
#include "schema.h"

#include "backup.h"
#include "catalogue.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MADE_NOW "TEXT NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%SZ', 'now'))"

/* Lengths and levels in um, angles in microdegrees, falls in um per m, money in minor units. Words
 * (kinds, bonds) are those of the exchange format. */
static const char *const version_1[] = {
	"CREATE TABLE clients (id INTEGER PRIMARY KEY, uuid TEXT NOT NULL UNIQUE,"
	" name TEXT NOT NULL UNIQUE CHECK (name <> ''), changed " MADE_NOW ") STRICT",
	"CREATE TABLE jobs (id INTEGER PRIMARY KEY, client INTEGER NOT NULL REFERENCES clients,"
	" uuid TEXT NOT NULL UNIQUE, title TEXT NOT NULL CHECK (title <> ''), changed " MADE_NOW ","
	" UNIQUE (client, title)) STRICT",
	"CREATE TABLE rule_sets (name TEXT PRIMARY KEY, place TEXT NOT NULL, date TEXT NOT NULL)"
	" STRICT, WITHOUT ROWID",
	"CREATE TABLE rules (rule_set TEXT NOT NULL REFERENCES rule_sets, position INTEGER NOT "
	"NULL,"
	" key TEXT NOT NULL, number INTEGER NOT NULL, unit TEXT NOT NULL, source TEXT NOT NULL,"
	" PRIMARY KEY (rule_set, position), UNIQUE (rule_set, key)) STRICT, WITHOUT ROWID",
	"CREATE TABLE variants (id INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES jobs,"
	" uuid TEXT NOT NULL UNIQUE, name TEXT NOT NULL CHECK (name <> ''),"
	" rule_set TEXT NOT NULL REFERENCES rule_sets, changed " MADE_NOW ","
	" UNIQUE (job, name)) STRICT",
	"CREATE TABLE rings (variant INTEGER NOT NULL REFERENCES variants, position INTEGER NOT "
	"NULL,"
	" closed INTEGER NOT NULL CHECK (closed IN (0, 1)), PRIMARY KEY (variant, position))"
	" STRICT, WITHOUT ROWID",
	"CREATE TABLE nodes (variant INTEGER NOT NULL, ring INTEGER NOT NULL, position INTEGER NOT "
	"NULL,"
	" x_um INTEGER NOT NULL, y_um INTEGER NOT NULL, rise_um INTEGER NOT NULL, kind TEXT NOT "
	"NULL,"
	" PRIMARY KEY (variant, ring, position),"
	" FOREIGN KEY (variant, ring) REFERENCES rings (variant, position)) STRICT, WITHOUT ROWID",
	"CREATE TABLE layings (variant INTEGER PRIMARY KEY REFERENCES variants, slab_name TEXT NOT "
	"NULL,"
	" length_um INTEGER NOT NULL, width_um INTEGER NOT NULL, thickness_um INTEGER NOT NULL,"
	" joint_um INTEGER NOT NULL, size TEXT NOT NULL, directional INTEGER NOT NULL,"
	" pack INTEGER NOT NULL, density_kg_m3 INTEGER NOT NULL, price_minor INTEGER,"
	" bond TEXT NOT NULL, offset REAL NOT NULL, rotation_udeg INTEGER NOT NULL,"
	" start_x_um INTEGER NOT NULL, start_y_um INTEGER NOT NULL, kerf_um INTEGER NOT NULL,"
	" fill_width_um INTEGER NOT NULL, sliver_width_um INTEGER, edges TEXT NOT NULL,"
	" breakage_ppm INTEGER NOT NULL) STRICT",
	"CREATE TABLE surfaces (variant INTEGER PRIMARY KEY REFERENCES variants, envelope TEXT NOT "
	"NULL,"
	" fixed_name TEXT, fixed_x_um INTEGER, fixed_y_um INTEGER, fixed_level_um INTEGER) STRICT",
	"CREATE TABLE planes (variant INTEGER NOT NULL REFERENCES surfaces, position INTEGER NOT "
	"NULL,"
	" x_um INTEGER NOT NULL, y_um INTEGER NOT NULL, level_um INTEGER NOT NULL,"
	" toward_udeg INTEGER NOT NULL, fall_um_per_m INTEGER NOT NULL,"
	" PRIMARY KEY (variant, position)) STRICT, WITHOUT ROWID",
	"CREATE TABLE grounds (variant INTEGER PRIMARY KEY REFERENCES variants,"
	" bedding_um INTEGER NOT NULL, sub_base_um INTEGER NOT NULL,"
	" benchmark_um INTEGER, backsight_um INTEGER) STRICT",
	"CREATE TABLE edgings (variant INTEGER NOT NULL REFERENCES variants, kind TEXT NOT NULL,"
	" name TEXT NOT NULL, unit_um INTEGER NOT NULL, joint_um INTEGER NOT NULL,"
	" PRIMARY KEY (variant, kind)) STRICT, WITHOUT ROWID",
	"CREATE TABLE edits (variant INTEGER NOT NULL REFERENCES variants, seq INTEGER NOT NULL,"
	" label TEXT NOT NULL, forward TEXT NOT NULL, inverse TEXT NOT NULL,"
	" undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)), made " MADE_NOW ","
	" PRIMARY KEY (variant, seq)) STRICT, WITHOUT ROWID",
	"CREATE TABLE catalogue_slabs (position INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE,"
	" length_um INTEGER NOT NULL, width_um INTEGER NOT NULL, thickness_um INTEGER NOT NULL,"
	" joint_um INTEGER NOT NULL, size TEXT NOT NULL, directional INTEGER NOT NULL,"
	" pack INTEGER NOT NULL, density_kg_m3 INTEGER NOT NULL, price_minor INTEGER) STRICT",
	"CREATE TABLE catalogue_edgings (position INTEGER PRIMARY KEY, kind TEXT NOT NULL,"
	" name TEXT NOT NULL, unit_um INTEGER NOT NULL, joint_um INTEGER NOT NULL,"
	" UNIQUE (kind, name)) STRICT",
	"CREATE TABLE view (variant INTEGER NOT NULL, key TEXT NOT NULL, text TEXT NOT NULL,"
	" PRIMARY KEY (variant, key)) STRICT, WITHOUT ROWID",
	"INSERT INTO rule_sets (name, place, date) VALUES ('none', '', '')",
};

/* Courses that run along y. */
static const char *const version_2[] = {
	"ALTER TABLE layings ADD COLUMN along TEXT NOT NULL DEFAULT 'x'",
};

/* Repeats, mixes and joints along edges. A repeat or mix without a variant is the catalogue's. */
static const char *const version_3[] = {
	"CREATE TABLE repeats (id INTEGER PRIMARY KEY, variant INTEGER UNIQUE REFERENCES variants,"
	" name TEXT NOT NULL, step_x_um INTEGER NOT NULL CHECK (step_x_um > 0),"
	" step_y_um INTEGER NOT NULL CHECK (step_y_um > 0), slant_um INTEGER NOT NULL) STRICT",
	"CREATE UNIQUE INDEX catalogue_repeats ON repeats (name) WHERE variant IS NULL",
	"CREATE TABLE repeat_slabs (repeat INTEGER NOT NULL REFERENCES repeats ON DELETE CASCADE,"
	" position INTEGER NOT NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL,"
	" length_um INTEGER NOT NULL CHECK (length_um > 0),"
	" width_um INTEGER NOT NULL CHECK (width_um > 0), PRIMARY KEY (repeat, position))"
	" STRICT, WITHOUT ROWID",
	"CREATE TABLE mixes (id INTEGER PRIMARY KEY, variant INTEGER UNIQUE REFERENCES variants,"
	" name TEXT NOT NULL, seed INTEGER NOT NULL) STRICT",
	"CREATE UNIQUE INDEX catalogue_mixes ON mixes (name) WHERE variant IS NULL",
	"CREATE TABLE mix_sizes (mix INTEGER NOT NULL REFERENCES mixes ON DELETE CASCADE,"
	" position INTEGER NOT NULL, length_um INTEGER NOT NULL CHECK (length_um > 0),"
	" width_um INTEGER NOT NULL CHECK (width_um > 0), share INTEGER NOT NULL CHECK (share > 0),"
	" PRIMARY KEY (mix, position)) STRICT, WITHOUT ROWID",
	"CREATE TABLE edge_joints (variant INTEGER NOT NULL REFERENCES variants, kind TEXT NOT "
	"NULL,"
	" joint_um INTEGER NOT NULL, PRIMARY KEY (variant, kind)) STRICT, WITHOUT ROWID",
};

/* Border courses, and zones with a slab and bond of their own. Borders and zones are numbered from
 * 1; a node's border 0 is none. A repeat or mix with a zone is that zone's, one with a variant
 * alone is its laying's: the tables are made anew, since there was room for one a variant. */
static const char *const version_4[] = {
	"ALTER TABLE nodes ADD COLUMN border INTEGER NOT NULL DEFAULT 0",
	"CREATE TABLE borders (variant INTEGER NOT NULL REFERENCES variants, number INTEGER NOT "
	"NULL,"
	" slab_name TEXT NOT NULL, length_um INTEGER NOT NULL, width_um INTEGER NOT NULL,"
	" thickness_um INTEGER NOT NULL, joint_um INTEGER NOT NULL, size TEXT NOT NULL,"
	" directional INTEGER NOT NULL, pack INTEGER NOT NULL, density_kg_m3 INTEGER NOT NULL,"
	" price_minor INTEGER, lay TEXT NOT NULL, deep INTEGER NOT NULL, offset REAL NOT NULL,"
	" corners TEXT NOT NULL, begins_at TEXT NOT NULL, widest_joint_um INTEGER NOT NULL,"
	" PRIMARY KEY (variant, number)) STRICT, WITHOUT ROWID",
	"CREATE TABLE zones (variant INTEGER NOT NULL REFERENCES variants, number INTEGER NOT NULL,"
	" name TEXT NOT NULL, closed INTEGER NOT NULL CHECK (closed IN (0, 1)),"
	" paved INTEGER NOT NULL CHECK (paved IN (0, 1)), level_um INTEGER NOT NULL,"
	" slab_name TEXT NOT NULL, length_um INTEGER NOT NULL, width_um INTEGER NOT NULL,"
	" thickness_um INTEGER NOT NULL, joint_um INTEGER NOT NULL, size TEXT NOT NULL,"
	" directional INTEGER NOT NULL, pack INTEGER NOT NULL, density_kg_m3 INTEGER NOT NULL,"
	" price_minor INTEGER, bond TEXT NOT NULL, offset REAL NOT NULL, along TEXT NOT NULL,"
	" rotation_udeg INTEGER NOT NULL, start_x_um INTEGER NOT NULL, start_y_um INTEGER NOT NULL,"
	" PRIMARY KEY (variant, number)) STRICT, WITHOUT ROWID",
	"CREATE TABLE zone_nodes (variant INTEGER NOT NULL, zone INTEGER NOT NULL,"
	" position INTEGER NOT NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL,"
	" rise_um INTEGER NOT NULL, PRIMARY KEY (variant, zone, position),"
	" FOREIGN KEY (variant, zone) REFERENCES zones (variant, number) ON DELETE CASCADE)"
	" STRICT, WITHOUT ROWID",
	"ALTER TABLE edgings ADD COLUMN depth_um INTEGER NOT NULL DEFAULT 0",
	"ALTER TABLE edgings ADD COLUMN mitred INTEGER NOT NULL DEFAULT 0 CHECK (mitred IN (0, 1))",
	"ALTER TABLE edgings ADD COLUMN least_um INTEGER NOT NULL DEFAULT 0",
	"ALTER TABLE catalogue_edgings ADD COLUMN depth_um INTEGER NOT NULL DEFAULT 0",
	"ALTER TABLE catalogue_edgings ADD COLUMN mitred INTEGER NOT NULL DEFAULT 0",
	"ALTER TABLE catalogue_edgings ADD COLUMN least_um INTEGER NOT NULL DEFAULT 0",
	"DROP INDEX catalogue_repeats",
	"ALTER TABLE repeats RENAME TO repeats_3",
	"ALTER TABLE repeat_slabs RENAME TO repeat_slabs_3",
	"CREATE TABLE repeats (id INTEGER PRIMARY KEY, variant INTEGER REFERENCES variants,"
	" zone INTEGER, name TEXT NOT NULL, step_x_um INTEGER NOT NULL CHECK (step_x_um > 0),"
	" step_y_um INTEGER NOT NULL CHECK (step_y_um > 0), slant_um INTEGER NOT NULL,"
	" UNIQUE (variant, zone),"
	" FOREIGN KEY (variant, zone) REFERENCES zones (variant, number) ON DELETE CASCADE) STRICT",
	"CREATE UNIQUE INDEX catalogue_repeats ON repeats (name) WHERE variant IS NULL",
	"CREATE UNIQUE INDEX laying_repeats ON repeats (variant) WHERE zone IS NULL",
	"CREATE TABLE repeat_slabs (repeat INTEGER NOT NULL REFERENCES repeats ON DELETE CASCADE,"
	" position INTEGER NOT NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL,"
	" length_um INTEGER NOT NULL CHECK (length_um > 0),"
	" width_um INTEGER NOT NULL CHECK (width_um > 0), PRIMARY KEY (repeat, position))"
	" STRICT, WITHOUT ROWID",
	"INSERT INTO repeats (id, variant, name, step_x_um, step_y_um, slant_um)"
	" SELECT id, variant, name, step_x_um, step_y_um, slant_um FROM repeats_3",
	"INSERT INTO repeat_slabs (repeat, position, x_um, y_um, length_um, width_um)"
	" SELECT repeat, position, x_um, y_um, length_um, width_um FROM repeat_slabs_3",
	"DROP TABLE repeat_slabs_3",
	"DROP TABLE repeats_3",
	"DROP INDEX catalogue_mixes",
	"ALTER TABLE mixes RENAME TO mixes_3",
	"ALTER TABLE mix_sizes RENAME TO mix_sizes_3",
	"CREATE TABLE mixes (id INTEGER PRIMARY KEY, variant INTEGER REFERENCES variants,"
	" zone INTEGER, name TEXT NOT NULL, seed INTEGER NOT NULL, UNIQUE (variant, zone),"
	" FOREIGN KEY (variant, zone) REFERENCES zones (variant, number) ON DELETE CASCADE) STRICT",
	"CREATE UNIQUE INDEX catalogue_mixes ON mixes (name) WHERE variant IS NULL",
	"CREATE UNIQUE INDEX laying_mixes ON mixes (variant) WHERE zone IS NULL",
	"CREATE TABLE mix_sizes (mix INTEGER NOT NULL REFERENCES mixes ON DELETE CASCADE,"
	" position INTEGER NOT NULL, length_um INTEGER NOT NULL CHECK (length_um > 0),"
	" width_um INTEGER NOT NULL CHECK (width_um > 0), share INTEGER NOT NULL CHECK (share > 0),"
	" PRIMARY KEY (mix, position)) STRICT, WITHOUT ROWID",
	"INSERT INTO mixes (id, variant, name, seed) SELECT id, variant, name, seed FROM mixes_3",
	"INSERT INTO mix_sizes (mix, position, length_um, width_um, share)"
	" SELECT mix, position, length_um, width_um, share FROM mix_sizes_3",
	"DROP TABLE mix_sizes_3",
	"DROP TABLE mixes_3",
};

/* Channels along edges, how edging units stand, and what stands beside the paving. A document is an
 * object with the one member of the exchange format that its part names, for it is read and written
 * as a whole; where there is none the part has its defaults. One of the catalogue is an item of its
 * file. */
#define EDGING_STANDS(table)                                                                       \
	"ALTER TABLE " table " ADD COLUMN corner_um INTEGER NOT NULL DEFAULT 0",                   \
	        "ALTER TABLE " table " ADD COLUMN profile TEXT NOT NULL DEFAULT 'straight'",       \
	        "ALTER TABLE " table " ADD COLUMN foot_um INTEGER NOT NULL DEFAULT 0",             \
	        "ALTER TABLE " table " ADD COLUMN height_um INTEGER NOT NULL DEFAULT 0",           \
	        "ALTER TABLE " table " ADD COLUMN top_um INTEGER NOT NULL DEFAULT 0",              \
	        "ALTER TABLE " table " ADD COLUMN bed TEXT NOT NULL DEFAULT 'stabilised sand'",    \
	        "ALTER TABLE " table " ADD COLUMN cement_kg_m3 INTEGER NOT NULL DEFAULT 0",        \
	        "ALTER TABLE " table " ADD COLUMN strip_um INTEGER NOT NULL DEFAULT 0",            \
	        "ALTER TABLE " table " ADD COLUMN strip_beyond_um INTEGER NOT NULL DEFAULT 0",     \
	        "ALTER TABLE " table " ADD COLUMN haunch_um INTEGER NOT NULL DEFAULT 0",           \
	        "ALTER TABLE " table " ADD COLUMN held_um INTEGER NOT NULL DEFAULT 0",             \
	        "ALTER TABLE " table " ADD COLUMN haunch_both INTEGER NOT NULL DEFAULT 0",         \
	        "ALTER TABLE " table " ADD COLUMN density_kg_m3 INTEGER NOT NULL DEFAULT 0",       \
	        "ALTER TABLE " table " ADD COLUMN price_minor INTEGER"
/* A deleted row has its UUID for a name, so that the name is free, and its name in `gone`. */
#define ENTRY_STANDS(table)                                                                        \
	"ALTER TABLE " table " ADD COLUMN notes TEXT NOT NULL DEFAULT ''",                         \
	        "ALTER TABLE " table                                                               \
	        " ADD COLUMN archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1))",      \
	        "ALTER TABLE " table " ADD COLUMN gone TEXT"
static const char *const version_5[] = {
	"ALTER TABLE nodes ADD COLUMN channel INTEGER NOT NULL DEFAULT 0",
	"ALTER TABLE surfaces ADD COLUMN dpc_um INTEGER",
	EDGING_STANDS("edgings"),
	EDGING_STANDS("catalogue_edgings"),
	"CREATE TABLE documents (variant INTEGER NOT NULL REFERENCES variants, part TEXT NOT NULL,"
	" document TEXT NOT NULL, PRIMARY KEY (variant, part)) STRICT, WITHOUT ROWID",
	"CREATE TABLE catalogue_documents (kind TEXT NOT NULL, position INTEGER NOT NULL,"
	" name TEXT NOT NULL, document TEXT NOT NULL, PRIMARY KEY (kind, position),"
	" UNIQUE (kind, name)) STRICT, WITHOUT ROWID",
	ENTRY_STANDS("clients"),
	ENTRY_STANDS("jobs"),
	ENTRY_STANDS("variants"),
};

/* steps[n] makes version n + 1 from version n, inside the upgrade's transaction. */
#define STEP(version)                                                                              \
	{                                                                                          \
		version, sizeof(version) / sizeof *(version)                                       \
	}
static const struct {
	const char *const *statements;
	size_t count;
} steps[] = { STEP(version_1), STEP(version_2), STEP(version_3), STEP(version_4), STEP(version_5) };
_Static_assert(sizeof steps / sizeof *steps == STORE_VERSION, "a step for each version");

static enum status newer(struct store *s, int64_t version, struct error *err)
{
	return error_set(err, STATUS_STORE,
	        "%s: the store is of version %lld and this program knows up to version %d; use the "
	        "newer "
	        "program that wrote it",
	        s->path, (long long)version, STORE_VERSION);
}

/* Makes a file of mode 0600 whose name is not taken yet: PATH.version-N-backup, -2, -3 ... */
static enum status backup_file(struct store *s, int64_t version, char **name, struct error *err)
{
	const char *file = sqlite3_db_filename(s->db, "main");

	for (int i = 1; i < 100; i++) {
		int fd;

		*name = i == 1 ? sqlite3_mprintf("%s.version-%lld-backup", file, (long long)version)
		               : sqlite3_mprintf(
		                         "%s.version-%lld-backup-%d", file, (long long)version, i);
		if (!*name)
			return error_memory(err);
		fd = open(*name, O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0600);
		if (fd >= 0) {
			fchmod(fd, 0600);
			close(fd);
			return STATUS_OK;
		}
		if (errno != EEXIST)
			break;
		sqlite3_free(*name);
		*name = NULL;
	}
	return error_set(err, STATUS_STORE,
	        "%s: no copy can be made beside it before it is brought up to date (%s); see that "
	        "its folder "
	        "may be written and has room",
	        s->path, strerror(errno));
}

static enum status backup(struct store *s, int64_t version, struct error *err)
{
	char *name = NULL;
	enum status st = backup_file(s, version, &name, err);

	if (st == STATUS_OK && !copy_database(sqlite3_db_filename(s->db, "main"), name)) {
		st = error_set(err, STATUS_STORE,
		        "%s: the copy %s could not be written; see that there is room", s->path,
		        name);
		unlink(name);
	}
	sqlite3_free(name);
	return st;
}

/* Tables first, then what the catalogue lacks: what fills it knows the tables as they are now. */
static enum status run_steps(
        struct store *s, int64_t version, const char *share_dir, struct error *err)
{
	enum status st = STATUS_OK;
	char pragma[120];

	for (int64_t v = version; v < STORE_VERSION; v++)
		for (size_t i = 0; st == STATUS_OK && i < steps[v].count; i++)
			st = sql_script(s, steps[v].statements[i], err);
	for (int64_t v = version; share_dir && st == STATUS_OK && v < STORE_VERSION; v++)
		st = catalogue_load(s, share_dir, (int)v + 1, err);
	if (st != STATUS_OK)
		return st;
	sqlite3_snprintf(sizeof pragma, pragma,
	        "PRAGMA application_id = %d; PRAGMA user_version = %d", APPLICATION_ID,
	        STORE_VERSION);
	return sql_script(s, pragma, err);
}

enum status schema_upgrade(struct store *s, const char *share_dir, struct error *err)
{
	static const char version_sql[] = "PRAGMA user_version",
	                  tables_sql[] = "SELECT count(*) FROM sqlite_schema";
	int64_t version, tables;
	enum status st;

	if ((st = sql_number(s, version_sql, NO_VALUES, &version, NULL, err)) != STATUS_OK)
		return st;
	if (version > STORE_VERSION)
		return newer(s, version, err);
	if (version == STORE_VERSION)
		return STATUS_OK;
	/* Another program may be filling it: that takes longer than an edit. */
	sqlite3_busy_timeout(s->db, MAKING_MS);
	st = sql_begin(s, err);
	sqlite3_busy_timeout(s->db, BUSY_MS);
	if (st != STATUS_OK)
		return st;
	/* Again, now that nobody else can write: another program may have been quicker. */
	st = sql_number(s, version_sql, NO_VALUES, &version, NULL, err);
	if (st == STATUS_OK)
		st = sql_number(s, tables_sql, NO_VALUES, &tables, NULL, err);
	if (st == STATUS_OK && version < STORE_VERSION && tables > 0)
		st = backup(s, version, err);
	if (st == STATUS_OK && version < STORE_VERSION)
		st = run_steps(s, version < 0 ? 0 : version, share_dir, err);
	return sql_finish(s, st, err);
}
