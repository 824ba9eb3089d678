/* catalogue_read.c - the catalogue and the rule sets as the store keeps them. */
#include "plan_rows.h"

#include <string.h>

enum status store_slabs(
        struct store *s, struct arena *mem, struct store_slabs *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT name, " SLAB_COLUMNS " FROM catalogue_slabs ORDER BY position", NO_VALUES,
	        err);

	*out = (struct store_slabs){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_slab *grown =
		        arena_grow(mem, out->items, out->count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		out->items = grown;
		st = slab_columns(s, q, 0, mem, &grown[out->count++], err);
	}
	sql_end(q);
	return st;
}

enum status store_edgings(
        struct store *s, struct arena *mem, struct store_edgings *out, struct error *err)
{
	int64_t count;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_number(
	        s, "SELECT count(*) FROM catalogue_edgings", NO_VALUES, &count, NULL, err);

	*out = (struct store_edgings){ 0 };
	if (st != STATUS_OK)
		return st;
	out->items = arena_alloc(mem, (size_t)count, sizeof *out->items);
	out->kinds = arena_alloc(mem, (size_t)count, sizeof *out->kinds);
	if (!out->items || !out->kinds)
		return error_memory(err);
	st = sql_start(s, &q,
	        "SELECT kind, " EDGING_COLUMNS " FROM catalogue_edgings ORDER BY position LIMIT ?1",
	        VALUES(INT(count)), err);
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		int kind = edge_kind_parse((const char *)sqlite3_column_text(q, 0));

		if (kind < 0) /* of a kind that this program does not know */
			continue;
		out->kinds[out->count] = (enum edge_kind)kind;
		st = edging_columns(s, q, 1, mem, &out->items[out->count++], err);
	}
	sql_end(q);
	return st;
}

enum status store_rule_sets(
        struct store *s, struct arena *mem, struct store_names *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(
	        s, &q, "SELECT name FROM rule_sets ORDER BY name = 'none', name", NO_VALUES, err);

	*out = (struct store_names){ 0 };
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		const char **grown =
		        arena_grow(mem, out->items, out->count, &capacity, sizeof *grown);
		const char *name = sql_column(q, 0, mem);

		if (!grown || !name) {
			st = error_memory(err);
			break;
		}
		out->items = grown;
		grown[out->count++] = name;
	}
	sql_end(q);
	return st;
}

static enum status rules_head(
        struct store *s, const char *name, struct arena *mem, struct rules *out, struct error *err)
{
	enum status st = rule_set_check(s, name, "", err);

	*out = (struct rules){ .name = arena_text(mem, name) };
	if (st == STATUS_OK)
		st = sql_text(s, "SELECT place FROM rule_sets WHERE name = ?1", VALUES(TEXT(name)),
		        mem, &out->place, err);
	if (st == STATUS_OK)
		st = sql_text(s, "SELECT date FROM rule_sets WHERE name = ?1", VALUES(TEXT(name)),
		        mem, &out->date, err);
	return st == STATUS_OK && !out->name ? error_memory(err) : st;
}

enum status store_rules(
        struct store *s, const char *name, struct arena *mem, struct rules *out, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = rules_head(s, name, mem, out, err);

	if (st != STATUS_OK)
		return st;
	st = sql_start(s, &q,
	        "SELECT key, number, unit, source FROM rules WHERE rule_set = ?1 ORDER BY position",
	        VALUES(TEXT(name)), err);
	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct rule *grown =
		        arena_grow(mem, out->items, out->count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		out->items = grown;
		grown[out->count] = (struct rule){ sql_column(q, 0, mem),
			sqlite3_column_int64(q, 1), sql_column(q, 2, mem), sql_column(q, 3, mem) };
		if (!grown[out->count].key || !grown[out->count].unit || !grown[out->count].source)
			st = error_memory(err);
		out->count++;
	}
	sql_end(q);
	return st;
}
