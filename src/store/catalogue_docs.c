/* catalogue_docs.c - rain tables, blocks and step units of the catalogue, kept as documents. */
#include "catalogue.h"
#include "plan_doc.h"

enum kept { KEPT_RAIN, KEPT_BLOCK, KEPT_STEP_UNIT };
static const char *const kinds[] = { "rain", "block", "step unit" };

static const struct plan_rain rain_defaults = { .name = "", .source = "" };

static struct plan_block block_defaults(void)
{
	struct plan_planter planter;

	planter_init(&planter);
	return planter.block;
}

/* --- reading a file --- */

/* Keeps an item that has been read and, but for its name, checked. */
static enum status keep(struct reader *r, const struct doc *at, enum kept kind, const char *name,
        const struct shape *shape, const void *item, const void *defaults)
{
	struct json j = { 0 };
	enum status st;

	if (!name[0])
		return doc_refuse(r, at, "a %s of the catalogue needs a name", kinds[kind]);
	json_object_tight(&j, NULL);
	doc_write(&j, shape, item, defaults);
	json_end(&j);
	st = j.failed ? error_memory(r->err)
	              : sql_run(r->s,
	                        "INSERT INTO catalogue_documents (kind, position, name, document)"
	                        " VALUES (?1, ?2, ?3, ?4)",
	                        VALUES(TEXT(kinds[kind]), INT((int64_t)at->index), TEXT(name),
	                                TEXT(j.text)),
	                        r->err);
	json_free(&j);
	return st;
}

enum status rain_load(struct reader *r, const struct doc *item)
{
	const char *place = doc_prefix(r, item);
	struct plan_rain rain = rain_defaults;
	enum status st = doc_read(r, item, &rain_shape, &rain);

	if (st == STATUS_OK)
		st = place ? rain_check(&rain, place, r->err) : error_memory(r->err);
	return st == STATUS_OK
	               ? keep(r, item, KEPT_RAIN, rain.name, &rain_shape, &rain, &rain_defaults)
	               : st;
}

enum status block_load(struct reader *r, const struct doc *item)
{
	const struct plan_block defaults = block_defaults();
	const char *place = doc_prefix(r, item);
	struct plan_block block = defaults;
	enum status st = doc_read(r, item, &block_shape, &block);

	if (st == STATUS_OK)
		st = place ? block_check(&block, place, r->err) : error_memory(r->err);
	return st == STATUS_OK
	               ? keep(r, item, KEPT_BLOCK, block.name, &block_shape, &block, &defaults)
	               : st;
}

enum status step_unit_load(struct reader *r, const struct doc *item)
{
	const char *place = doc_prefix(r, item);
	struct plan_steps steps, defaults;
	enum status st;

	steps_init(&steps);
	steps_init(&defaults);
	if (!place)
		return error_memory(r->err);
	if ((st = doc_read(r, item, &step_unit_shape, &steps)) != STATUS_OK ||
	        (st = step_unit_check(&steps, place, r->err)) != STATUS_OK)
		return st;
	return keep(r, item, KEPT_STEP_UNIT, steps.unit_name, &step_unit_shape, &steps, &defaults);
}

/* --- reading the store --- */

/* Room for one more item, or NULL. */
#define MORE(mem, list, capacity)                                                                  \
	arena_grow(mem, (list)->items, (list)->count, &(capacity), sizeof *(list)->items)

static enum status start(struct store *s, enum kept kind, sqlite3_stmt **q, struct error *err)
{
	return sql_start(s, q,
	        "SELECT document FROM catalogue_documents WHERE kind = ?1 ORDER BY position",
	        VALUES(TEXT(kinds[kind])), err);
}

/* The present row's document. */
static enum status read_row(struct store *s, sqlite3_stmt *q, struct arena *mem,
        const struct shape *shape, void *item, struct error *err)
{
	const char *text = sql_column(q, 0, mem);

	return text ? kept_read(s, text, mem, shape, item, err) : error_memory(err);
}

enum status store_rains(
        struct store *s, struct arena *mem, struct store_rains *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = start(s, KEPT_RAIN, &q, err);

	*out = (struct store_rains){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_rain item = rain_defaults, *grown = MORE(mem, out, capacity);

		st = grown ? read_row(s, q, mem, &rain_shape, &item, err) : error_memory(err);
		if (st != STATUS_OK)
			break;
		out->items = grown;
		grown[out->count++] = item;
	}
	sql_end(q);
	return st;
}

enum status store_blocks(
        struct store *s, struct arena *mem, struct store_blocks *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = start(s, KEPT_BLOCK, &q, err);

	*out = (struct store_blocks){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_block item = block_defaults(), *grown = MORE(mem, out, capacity);

		st = grown ? read_row(s, q, mem, &block_shape, &item, err) : error_memory(err);
		if (st != STATUS_OK)
			break;
		out->items = grown;
		grown[out->count++] = item;
	}
	sql_end(q);
	return st;
}

enum status store_step_units(
        struct store *s, struct arena *mem, struct store_step_units *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = start(s, KEPT_STEP_UNIT, &q, err);

	*out = (struct store_step_units){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct store_step_unit *grown = MORE(mem, out, capacity);
		struct plan_steps item;

		steps_init(&item);
		st = grown ? read_row(s, q, mem, &step_unit_shape, &item, err) : error_memory(err);
		if (st != STATUS_OK)
			break;
		out->items = grown;
		grown[out->count++] = (struct store_step_unit){ item.unit_name, item.unit_length_um,
			item.unit_depth_um, item.unit_height_um, item.unit_density_kg_m3,
			item.unit_price_minor };
	}
	sql_end(q);
	return st;
}
