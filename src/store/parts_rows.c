/* parts_rows.c - border courses and zones as rows.
 *
 * An edit replaces the whole list, so both are written anew each time: taking a zone's row away
 * takes its corners, repeat and mix along. */
#include "plan_rows.h"

/* --- borders --- */

static enum status border_insert(struct store *s, int64_t variant, int64_t number,
        const struct plan_border *b, struct error *err)
{
	return sql_run(s,
	        "INSERT INTO borders (variant, number, lay, deep, offset, corners, begins_at,"
	        " widest_joint_um, slab_name, " SLAB_COLUMNS ")"
	        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, " SLAB_MARKS ")",
	        VALUES(INT(variant), INT(number), TEXT(border_lay_name(b->lay)), INT(b->deep),
	                REAL(b->offset), TEXT(border_corner_name(b->corners)),
	                TEXT(border_begin_name(b->begin)), INT(b->widest_joint_um),
	                TEXT(b->slab.name), SLAB_VALUES(&b->slab)),
	        err);
}

enum status border_rows_write(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err)
{
	enum status st =
	        sql_run(s, "DELETE FROM borders WHERE variant = ?1", VALUES(INT(variant)), err);

	for (size_t i = 0; st == STATUS_OK && i < plan->border_count; i++)
		st = border_insert(s, variant, (int64_t)i + 1, &plan->borders[i], err);
	return st;
}

static enum status border_row(struct store *s, sqlite3_stmt *q, struct arena *mem,
        struct plan_border *b, struct error *err)
{
	int lay = 0, corners = 0, begin = 0;
	enum status st;

	if ((st = word_column(s, q, 0, border_lay_parse, "lay of a border", &lay, err)) !=
	                STATUS_OK ||
	        (st = word_column(s, q, 3, border_corner_parse, "corner of a border", &corners,
	                 err)) != STATUS_OK ||
	        (st = word_column(s, q, 4, border_begin_parse, "beginning of a border", &begin,
	                 err)) != STATUS_OK)
		return st;
	*b = (struct plan_border){
		.lay = (enum border_lay)lay,
		.deep = sqlite3_column_int64(q, 1),
		.offset = sqlite3_column_double(q, 2),
		.corners = (enum border_corner)corners,
		.begin = (enum border_begin)begin,
		.widest_joint_um = sqlite3_column_int64(q, 5),
	};
	return slab_columns(s, q, 6, mem, &b->slab, err);
}

enum status border_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT lay, deep, offset, corners, begins_at, widest_joint_um, "
	        "slab_name, " SLAB_COLUMNS " FROM borders WHERE variant = ?1 ORDER BY number",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_border *grown = arena_grow(
		        mem, plan->borders, plan->border_count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		plan->borders = grown;
		st = border_row(s, q, mem, &grown[plan->border_count++], err);
	}
	sql_end(q);
	return st;
}

/* --- zones --- */

static enum status zone_insert(struct store *s, struct laying_id of, const struct plan_zone *z,
        const struct plan_laying *l, struct error *err)
{
	enum status st = sql_run(s,
	        "INSERT INTO zones (variant, number, name, closed, paved, "
	        "level_um, " PATTERN_COLUMNS ") VALUES (?, ?, ?, ?, ?, ?, " PATTERN_MARKS ")",
	        VALUES(INT(of.variant), INT(of.zone), TEXT(z->name), INT(z->ring.closed ? 1 : 0),
	                INT(z->paved ? 1 : 0), INT(z->level_um), PATTERN_VALUES(l)),
	        err);

	for (size_t i = 0; st == STATUS_OK && i < z->ring.count; i++) {
		const struct plan_node *n = &z->ring.nodes[i];

		st = sql_run(s,
		        "INSERT INTO zone_nodes (variant, zone, position, x_um, y_um, rise_um)"
		        " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
		        VALUES(INT(of.variant), INT(of.zone), INT((int64_t)i), INT(n->x_um),
		                INT(n->y_um), INT(n->rise_um)),
		        err);
	}
	if (st == STATUS_OK)
		st = repeat_write(s, of, &l->repeat, err);
	return st == STATUS_OK ? mix_write(s, of, "", &l->mix, err) : st;
}

enum status zone_rows_write(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err)
{
	enum status st =
	        sql_run(s, "DELETE FROM zones WHERE variant = ?1", VALUES(INT(variant)), err);
	struct plan_zone bare;

	zone_init(&bare);
	for (size_t i = 0; st == STATUS_OK && i < plan->zone_count; i++) {
		const struct plan_zone *z = &plan->zones[i];

		/* Where there are no slabs the laying means nothing, and may be anything. */
		st = zone_insert(s, (struct laying_id){ variant, (int64_t)i + 1 }, z,
		        z->paved ? &z->laying : &bare.laying, err);
	}
	return st;
}

static enum status zone_row(
        struct store *s, sqlite3_stmt *q, struct arena *mem, struct plan_zone *z, struct error *err)
{
	zone_init(z);
	z->name = sql_column(q, 0, mem);
	z->ring.closed = sqlite3_column_int(q, 1) != 0;
	z->paved = sqlite3_column_int(q, 2) != 0;
	z->level_um = sqlite3_column_int64(q, 3);
	return z->name ? pattern_columns(s, q, 4, mem, &z->laying, err) : error_memory(err);
}

static enum status zone_nodes_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT zone, x_um, y_um, rise_um FROM zone_nodes WHERE variant = ?1"
	        " ORDER BY zone, position",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		int64_t zone = sqlite3_column_int64(q, 0);
		struct plan_node node = {
			.x_um = sqlite3_column_int64(q, 1),
			.y_um = sqlite3_column_int64(q, 2),
			.rise_um = sqlite3_column_int64(q, 3),
			.kind = EDGE_OPEN,
		};

		st = zone < 1 || zone > (int64_t)plan->zone_count
		             ? row_damaged(s, "zone for a corner in variant", plan->name, err)
		             : ring_append(mem, &plan->zones[zone - 1].ring, &capacity, node, err);
	}
	sql_end(q);
	return st;
}

enum status zone_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT name, closed, paved, level_um, " PATTERN_COLUMNS
	        " FROM zones WHERE variant = ?1 ORDER BY number",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_zone *grown =
		        arena_grow(mem, plan->zones, plan->zone_count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		plan->zones = grown;
		st = zone_row(s, q, mem, &grown[plan->zone_count++], err);
	}
	sql_end(q);
	if (st == STATUS_OK && plan->zone_count)
		st = zone_nodes_read(s, variant, mem, plan, err);
	for (size_t i = 0; st == STATUS_OK && i < plan->zone_count; i++) {
		const struct laying_id of = { variant, (int64_t)i + 1 };
		struct plan_laying *l = &plan->zones[i].laying;

		st = repeat_of(s, of, mem, &l->repeat, err);
		if (st == STATUS_OK)
			st = mix_of(s, of, mem, &l->mix, err);
	}
	return st;
}
