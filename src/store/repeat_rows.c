/* repeat_rows.c - repeats and mixes as rows.
 *
 * One pair of tables holds the repeats of layings, those of zones, and those of the catalogue,
 * which have no variant; another pair the mixes. A row of a query is one slab or size with its
 * owner's values beside it, so one reader serves a laying and the whole catalogue. */
#include "plan_rows.h"

/* --- repeats --- */

/* The rows of one laying; no row has variant 0. */
#define OF_LAYING(table) table "variant = ?1 AND " table "zone IS nullif(?2, 0)"

#define REPEATS(which)                                                                             \
	"SELECT r.id, r.name, r.step_x_um, r.step_y_um, r.slant_um, s.x_um, s.y_um, s.length_um, " \
	"s.width_um"                                                                               \
	" FROM repeats r JOIN repeat_slabs s ON s.repeat = r.id WHERE " which                      \
	" ORDER BY r.id, s.position"

static const char of_laying[] = REPEATS(OF_LAYING("r.")),
                  of_catalogue[] = REPEATS("r.variant IS NULL"),
                  of_name[] = REPEATS("r.variant IS NULL AND r.name = ?1");

/* Where a reader of such rows stands. */
struct rows {
	struct arena *mem;
	int64_t id; /* of the owner being filled; 0 before the first */
	size_t owners, parts; /* room for them */
};

static enum status repeat_row(
        sqlite3_stmt *q, struct rows *rows, struct store_repeats *out, struct error *err)
{
	struct repeat_slab *slabs;
	struct plan_repeat *r;

	if (rows->id != sqlite3_column_int64(q, 0)) {
		r = arena_grow(rows->mem, out->items, out->count, &rows->owners, sizeof *r);
		if (!r)
			return error_memory(err);
		out->items = r;
		r[out->count] = (struct plan_repeat){ .name = sql_column(q, 1, rows->mem),
			.step_x_um = sqlite3_column_int64(q, 2),
			.step_y_um = sqlite3_column_int64(q, 3),
			.slant_um = sqlite3_column_int64(q, 4) };
		if (!r[out->count++].name)
			return error_memory(err);
		rows->id = sqlite3_column_int64(q, 0);
		rows->parts = 0;
	}
	r = &out->items[out->count - 1];
	slabs = arena_grow(rows->mem, r->slabs, r->count, &rows->parts, sizeof *slabs);
	if (!slabs)
		return error_memory(err);
	r->slabs = slabs;
	slabs[r->count++] =
	        (struct repeat_slab){ sqlite3_column_int64(q, 5), sqlite3_column_int64(q, 6),
		        sqlite3_column_int64(q, 7), sqlite3_column_int64(q, 8) };
	return STATUS_OK;
}

static enum status repeats_read(struct store *s, const char *sql, const struct value *values,
        struct arena *mem, struct store_repeats *out, struct error *err)
{
	struct rows rows = { .mem = mem };
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q, sql, values, err);

	*out = (struct store_repeats){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row)
		st = repeat_row(q, &rows, out, err);
	sql_end(q);
	return st;
}

/* The one repeat that a statement gives, or an empty one. */
static enum status repeat_read_one(struct store *s, const char *sql, const struct value *values,
        struct arena *mem, struct plan_repeat *out, struct error *err)
{
	struct store_repeats all;
	enum status st = repeats_read(s, sql, values, mem, &all, err);

	*out = st == STATUS_OK && all.count ? all.items[0] : (struct plan_repeat){ .name = "" };
	return st;
}

enum status repeat_of(struct store *s, struct laying_id of, struct arena *mem,
        struct plan_repeat *out, struct error *err)
{
	return repeat_read_one(s, of_laying, VALUES(INT(of.variant), INT(of.zone)), mem, out, err);
}

enum status repeat_named(struct store *s, const char *name, struct arena *mem,
        struct plan_repeat *out, struct error *err)
{
	return repeat_read_one(s, of_name, VALUES(TEXT(name)), mem, out, err);
}

enum status store_repeats(
        struct store *s, struct arena *mem, struct store_repeats *out, struct error *err)
{
	return repeats_read(s, of_catalogue, NO_VALUES, mem, out, err);
}

enum status repeat_write(
        struct store *s, struct laying_id of, const struct plan_repeat *repeat, struct error *err)
{
	enum status st = sql_run(s, "DELETE FROM repeats WHERE " OF_LAYING(""),
	        VALUES(INT(of.variant), INT(of.zone)), err);
	int64_t id;

	if (st != STATUS_OK || !repeat->count)
		return st;
	st = sql_run(s,
	        "INSERT INTO repeats (variant, zone, name, step_x_um, step_y_um, slant_um)"
	        " VALUES (nullif(?1, 0), nullif(?2, 0), ?3, ?4, ?5, ?6)",
	        VALUES(INT(of.variant), INT(of.zone), TEXT(repeat->name), INT(repeat->step_x_um),
	                INT(repeat->step_y_um), INT(repeat->slant_um)),
	        err);
	id = sqlite3_last_insert_rowid(s->db);
	for (size_t i = 0; st == STATUS_OK && i < repeat->count; i++) {
		const struct repeat_slab *b = &repeat->slabs[i];

		st = sql_run(s,
		        "INSERT INTO repeat_slabs (repeat, position, x_um, y_um, length_um, "
		        "width_um)"
		        " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
		        VALUES(INT(id), INT((int64_t)i), INT(b->x_um), INT(b->y_um),
		                INT(b->length_um), INT(b->width_um)),
		        err);
	}
	return st;
}

/* --- mixes --- */

#define MIXES(which)                                                                               \
	"SELECT m.id, m.name, m.seed, z.length_um, z.width_um, z.share"                            \
	" FROM mixes m JOIN mix_sizes z ON z.mix = m.id WHERE " which " ORDER BY m.id, z.position"

static const char mix_of_laying[] = MIXES(OF_LAYING("m.")),
                  mix_of_catalogue[] = MIXES("m.variant IS NULL");

static enum status mix_row(
        sqlite3_stmt *q, struct rows *rows, struct store_mixes *out, struct error *err)
{
	struct mix_size *sizes;
	struct store_mix *m;
	struct plan_mix *mix;

	if (rows->id != sqlite3_column_int64(q, 0)) {
		m = arena_grow(rows->mem, out->items, out->count, &rows->owners, sizeof *m);
		if (!m)
			return error_memory(err);
		out->items = m;
		m[out->count] = (struct store_mix){ .name = sql_column(q, 1, rows->mem),
			.mix.seed = sqlite3_column_int64(q, 2) };
		if (!m[out->count++].name)
			return error_memory(err);
		rows->id = sqlite3_column_int64(q, 0);
		rows->parts = 0;
	}
	mix = &out->items[out->count - 1].mix;
	sizes = arena_grow(rows->mem, mix->sizes, mix->count, &rows->parts, sizeof *sizes);
	if (!sizes)
		return error_memory(err);
	mix->sizes = sizes;
	sizes[mix->count++] = (struct mix_size){ sqlite3_column_int64(q, 3),
		sqlite3_column_int64(q, 4), sqlite3_column_int64(q, 5) };
	return STATUS_OK;
}

static enum status mixes_read(struct store *s, const char *sql, const struct value *values,
        struct arena *mem, struct store_mixes *out, struct error *err)
{
	struct rows rows = { .mem = mem };
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q, sql, values, err);

	*out = (struct store_mixes){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row)
		st = mix_row(q, &rows, out, err);
	sql_end(q);
	return st;
}

enum status mix_of(struct store *s, struct laying_id of, struct arena *mem, struct plan_mix *out,
        struct error *err)
{
	struct store_mixes all;
	enum status st =
	        mixes_read(s, mix_of_laying, VALUES(INT(of.variant), INT(of.zone)), mem, &all, err);

	*out = st == STATUS_OK && all.count ? all.items[0].mix : (struct plan_mix){ 0 };
	return st;
}

enum status store_mixes(
        struct store *s, struct arena *mem, struct store_mixes *out, struct error *err)
{
	return mixes_read(s, mix_of_catalogue, NO_VALUES, mem, out, err);
}

enum status mix_write(struct store *s, struct laying_id of, const char *name,
        const struct plan_mix *mix, struct error *err)
{
	enum status st = sql_run(s, "DELETE FROM mixes WHERE " OF_LAYING(""),
	        VALUES(INT(of.variant), INT(of.zone)), err);
	int64_t id;

	if (st != STATUS_OK || !mix->count)
		return st;
	st = sql_run(s,
	        "INSERT INTO mixes (variant, zone, name, seed) VALUES (nullif(?1, 0), nullif(?2, "
	        "0), ?3, ?4)",
	        VALUES(INT(of.variant), INT(of.zone), TEXT(name), INT(mix->seed)), err);
	id = sqlite3_last_insert_rowid(s->db);
	for (size_t i = 0; st == STATUS_OK && i < mix->count; i++) {
		const struct mix_size *z = &mix->sizes[i];

		st = sql_run(s,
		        "INSERT INTO mix_sizes (mix, position, length_um, width_um, share)"
		        " VALUES (?1, ?2, ?3, ?4, ?5)",
		        VALUES(INT(id), INT((int64_t)i), INT(z->length_um), INT(z->width_um),
		                INT(z->share)),
		        err);
	}
	return st;
}
