/* plan_read.c - a variant's rows read into one plan. */
#include "entries.h"
#include "plan_rows.h"

#include <string.h>

enum status row_damaged(struct store *s, const char *what, const char *word, struct error *err)
{
	return error_set(err, STATUS_STORE,
	        "%s: the store is damaged: there is no %s \"%s\"; go back to a copy of it", s->path,
	        what, word);
}

enum status word_column(struct store *s, sqlite3_stmt *q, int column, int (*parse)(const char *),
        const char *what, int *value, struct error *err)
{
	const char *word = (const char *)sqlite3_column_text(q, column);

	if (!word)
		return error_memory(err);
	*value = parse(word);
	return *value < 0 ? row_damaged(s, what, word, err) : STATUS_OK;
}

/* --- rings --- */

static enum status read_rings(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st =
	        sql_start(s, &q, "SELECT closed FROM rings WHERE variant = ?1 ORDER BY position",
	                VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_ring *grown =
		        arena_grow(mem, plan->rings, plan->ring_count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		plan->rings = grown;
		grown[plan->ring_count++] =
		        (struct plan_ring){ .closed = sqlite3_column_int(q, 0) != 0 };
	}
	sql_end(q);
	return st;
}

enum status ring_append(struct arena *mem, struct plan_ring *ring, size_t *capacity,
        struct plan_node node, struct error *err)
{
	struct plan_node *grown;

	if (!ring->count)
		*capacity = 0;
	grown = arena_grow(mem, ring->nodes, ring->count, capacity, sizeof *grown);
	if (!grown)
		return error_memory(err);
	ring->nodes = grown;
	grown[ring->count++] = node;
	return STATUS_OK;
}

static enum status read_node(struct store *s, sqlite3_stmt *q, struct arena *mem, struct plan *plan,
        size_t *capacity, struct error *err)
{
	size_t at = (size_t)sqlite3_column_int64(q, 0);
	struct plan_node node = {
		.x_um = sqlite3_column_int64(q, 1),
		.y_um = sqlite3_column_int64(q, 2),
		.rise_um = sqlite3_column_int64(q, 3),
		.border = sqlite3_column_int64(q, 5),
		.channel = sqlite3_column_int64(q, 6),
	};
	int kind = 0;
	enum status st = word_column(s, q, 4, edge_kind_parse, "kind of edge", &kind, err);

	if (st != STATUS_OK)
		return st;
	if (at >= plan->ring_count)
		return row_damaged(s, "ring for a corner in variant", plan->name, err);
	node.kind = (enum edge_kind)kind;
	return ring_append(mem, &plan->rings[at], capacity, node, err);
}

static enum status read_nodes(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT ring, x_um, y_um, rise_um, kind, border, channel FROM nodes WHERE variant "
	        "= ?1"
	        " ORDER BY ring, position",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row)
		st = read_node(s, q, mem, plan, &capacity, err);
	sql_end(q);
	return st;
}

/* --- values --- */

static enum status read_edge_joints(
        struct store *s, int64_t variant, struct plan_laying *l, struct error *err)
{
	sqlite3_stmt *q;
	bool row = true;
	int kind = 0;
	enum status st =
	        sql_start(s, &q, "SELECT kind, joint_um FROM edge_joints WHERE variant = ?1",
	                VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		st = word_column(s, q, 0, edge_kind_parse, "kind of edge", &kind, err);
		if (st == STATUS_OK)
			l->edge_joint_um[kind] = sqlite3_column_int64(q, 1);
	}
	sql_end(q);
	return st;
}

enum status slab_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_slab *out, struct error *err)
{
	bool priced = sqlite3_column_type(q, first + 9) != SQLITE_NULL;
	int size = 0;
	enum status st = word_column(s, q, first + 5, size_parse, "meaning of a size", &size, err);

	if (st != STATUS_OK)
		return st;
	*out = (struct plan_slab){
		.name = sql_column(q, first, mem),
		.length_um = sqlite3_column_int64(q, first + 1),
		.width_um = sqlite3_column_int64(q, first + 2),
		.thickness_um = sqlite3_column_int64(q, first + 3),
		.joint_um = sqlite3_column_int64(q, first + 4),
		.size = (enum size_meaning)size,
		.directional = sqlite3_column_int(q, first + 6) != 0,
		.pack = sqlite3_column_int64(q, first + 7),
		.density_kg_m3 = sqlite3_column_int64(q, first + 8),
		.price_minor = priced ? sqlite3_column_int64(q, first + 9) : -1,
	};
	return out->name ? STATUS_OK : error_memory(err);
}

enum status pattern_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_laying *out, struct error *err)
{
	int bond = 0, along = 0, next = first + SLAB_WIDTH;
	enum status st;

	if ((st = slab_columns(s, q, first, mem, &out->slab, err)) != STATUS_OK ||
	        (st = word_column(s, q, next, bond_parse, "bond", &bond, err)) != STATUS_OK ||
	        (st = word_column(s, q, next + 2, along_parse, "direction of the courses", &along,
	                 err)) != STATUS_OK)
		return st;
	out->bond = (enum bond)bond;
	out->offset = sqlite3_column_double(q, next + 1);
	out->along = (enum along)along;
	out->rotation_udeg = sqlite3_column_int64(q, next + 3);
	out->start_x_um = sqlite3_column_int64(q, next + 4);
	out->start_y_um = sqlite3_column_int64(q, next + 5);
	return STATUS_OK;
}

static enum status laying_row(struct store *s, sqlite3_stmt *q, struct arena *mem,
        struct plan_laying *l, struct error *err)
{
	int edges = 0;
	enum status st = pattern_columns(s, q, 0, mem, l, err);

	if (st == STATUS_OK)
		st = word_column(
		        s, q, PATTERN_WIDTH + 3, edge_rule_parse, "edge rule", &edges, err);
	if (st != STATUS_OK)
		return st;
	l->kerf_um = sqlite3_column_int64(q, PATTERN_WIDTH);
	l->fill_width_um = sqlite3_column_int64(q, PATTERN_WIDTH + 1);
	l->sliver_width_um = sqlite3_column_int64(q, PATTERN_WIDTH + 2);
	l->edges = (enum edge_rule)edges;
	l->breakage_ppm = sqlite3_column_int64(q, PATTERN_WIDTH + 4);
	return STATUS_OK;
}

static enum status surface_row(struct store *s, sqlite3_stmt *q, struct arena *mem,
        struct plan_surface *f, struct error *err)
{
	int envelope = 0;
	enum status st = word_column(s, q, 0, envelope_parse, "envelope", &envelope, err);

	if (st != STATUS_OK)
		return st;
	*f = (struct plan_surface){
		.envelope = (enum envelope)envelope,
		.has_fixed = sqlite3_column_type(q, 1) != SQLITE_NULL,
		.fixed_name = sql_column(q, 1, mem),
		.fixed_x_um = sqlite3_column_int64(q, 2),
		.fixed_y_um = sqlite3_column_int64(q, 3),
		.fixed_level_um = sqlite3_column_int64(q, 4),
		.has_dpc = sqlite3_column_type(q, 5) != SQLITE_NULL,
		.dpc_um = sqlite3_column_int64(q, 5),
	};
	return f->fixed_name ? STATUS_OK : error_memory(err);
}

static enum status ground_row(sqlite3_stmt *q, struct plan_ground *g)
{
	*g = (struct plan_ground){
		.bedding_um = sqlite3_column_int64(q, 0),
		.sub_base_um = sqlite3_column_int64(q, 1),
		.has_instrument = sqlite3_column_type(q, 2) != SQLITE_NULL,
		.benchmark_um = sqlite3_column_int64(q, 2),
		.backsight_um = sqlite3_column_int64(q, 3),
	};
	return STATUS_OK;
}

/* The one row of each of a variant's tables of values. */
static enum status read_values(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	static const char *const sql[] = {
		("SELECT " PATTERN_COLUMNS
		 ", kerf_um, fill_width_um, ifnull(sliver_width_um, -1), edges, breakage_ppm"
		 " FROM layings WHERE variant = ?1"),
		("SELECT envelope, fixed_name, fixed_x_um, fixed_y_um, fixed_level_um, dpc_um"
		 " FROM surfaces WHERE variant = ?1"),
		("SELECT bedding_um, sub_base_um, benchmark_um, backsight_um"
		 " FROM grounds WHERE variant = ?1"),
	};

	for (int i = 0; i < 3; i++) {
		sqlite3_stmt *q;
		bool row = false;
		enum status st = sql_start(s, &q, sql[i], VALUES(INT(variant)), err);

		if (st == STATUS_OK)
			st = sql_next(s, q, &row, err);
		if (row)
			st = i == 0   ? laying_row(s, q, mem, &plan->laying, err)
			     : i == 1 ? surface_row(s, q, mem, &plan->surface, err)
			              : ground_row(q, &plan->ground);
		sql_end(q);
		if (st == STATUS_OK && !row)
			st = row_damaged(s, "complete plan for variant", plan->name, err);
		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static enum status read_planes(struct store *s, int64_t variant, struct arena *mem,
        struct plan_surface *f, struct error *err)
{
	size_t capacity = 0;
	sqlite3_stmt *q;
	bool row = true;
	enum status st = sql_start(s, &q,
	        "SELECT x_um, y_um, level_um, toward_udeg, fall_um_per_m FROM planes WHERE variant "
	        "= ?1"
	        " ORDER BY position",
	        VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		struct plan_plane *grown =
		        arena_grow(mem, f->planes, f->count, &capacity, sizeof *grown);

		if (!grown) {
			st = error_memory(err);
			break;
		}
		f->planes = grown;
		grown[f->count++] = (struct plan_plane){ sqlite3_column_int64(q, 0),
			sqlite3_column_int64(q, 1), sqlite3_column_int64(q, 2),
			sqlite3_column_int64(q, 3), sqlite3_column_int64(q, 4) };
	}
	sql_end(q);
	return st;
}

enum status edging_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_edging *out, struct error *err)
{
	bool priced = sqlite3_column_type(q, first + 19) != SQLITE_NULL;
	int profile = 0, bed = 0;
	enum status st;

	if ((st = word_column(s, q, first + 7, edging_profile_parse, "profile of a unit", &profile,
	             err)) != STATUS_OK ||
	        (st = word_column(s, q, first + 11, bed_mix_parse, "mix", &bed, err)) != STATUS_OK)
		return st;
	*out = (struct plan_edging){ .name = sql_column(q, first, mem),
		.unit_um = sqlite3_column_int64(q, first + 1),
		.joint_um = sqlite3_column_int64(q, first + 2),
		.depth_um = sqlite3_column_int64(q, first + 3),
		.mitred = sqlite3_column_int(q, first + 4) != 0,
		.least_um = sqlite3_column_int64(q, first + 5),
		.corner_um = sqlite3_column_int64(q, first + 6),
		.profile = (enum edging_profile)profile,
		.foot_um = sqlite3_column_int64(q, first + 8),
		.height_um = sqlite3_column_int64(q, first + 9),
		.top_um = sqlite3_column_int64(q, first + 10),
		.bed = (enum bed_mix)bed,
		.cement_kg_m3 = sqlite3_column_int64(q, first + 12),
		.strip_um = sqlite3_column_int64(q, first + 13),
		.strip_beyond_um = sqlite3_column_int64(q, first + 14),
		.haunch_um = sqlite3_column_int64(q, first + 15),
		.held_um = sqlite3_column_int64(q, first + 16),
		.haunch_both = sqlite3_column_int(q, first + 17) != 0,
		.density_kg_m3 = sqlite3_column_int64(q, first + 18),
		.price_minor = priced ? sqlite3_column_int64(q, first + 19) : -1 };
	return out->name ? STATUS_OK : error_memory(err);
}

static enum status read_edgings(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	sqlite3_stmt *q;
	bool row = true;
	int kind = 0;
	enum status st =
	        sql_start(s, &q, "SELECT kind, " EDGING_COLUMNS " FROM edgings WHERE variant = ?1",
	                VALUES(INT(variant)), err);

	while (st == STATUS_OK && (st = sql_next(s, q, &row, err)) == STATUS_OK && row) {
		st = word_column(s, q, 0, edge_kind_parse, "kind of edge", &kind, err);
		if (st != STATUS_OK)
			break;
		st = edging_columns(s, q, 1, mem, &plan->edging[kind], err);
	}
	sql_end(q);
	return st;
}

static enum status read_head(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err)
{
	sqlite3_stmt *q;
	bool row = false;
	enum status st = sql_start(s, &q, "SELECT name, rule_set FROM variants WHERE id = ?1",
	        VALUES(INT(variant)), err);

	if (st == STATUS_OK)
		st = sql_next(s, q, &row, err);
	if (row) {
		plan->name = sql_column(q, 0, mem);
		plan->rule_set = sql_column(q, 1, mem);
		if (!plan->name || !plan->rule_set)
			st = error_memory(err);
	} else if (st == STATUS_OK) {
		st = no_such_id("variant", variant, err);
	}
	sql_end(q);
	return st;
}

enum status store_plan(
        struct store *s, int64_t variant, struct arena *mem, struct plan *out, struct error *err)
{
	const struct laying_id own = { variant, 0 };
	struct plan plan;
	bool began;
	enum status st = sql_begin_reading(s, &began, err);

	if (st != STATUS_OK)
		return st;
	plan_init(&plan);
	if ((st = read_head(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = read_rings(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = read_nodes(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = read_values(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = repeat_of(s, own, mem, &plan.laying.repeat, err)) == STATUS_OK &&
	        (st = mix_of(s, own, mem, &plan.laying.mix, err)) == STATUS_OK &&
	        (st = read_edge_joints(s, variant, &plan.laying, err)) == STATUS_OK &&
	        (st = border_rows_read(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = zone_rows_read(s, variant, mem, &plan, err)) == STATUS_OK &&
	        (st = read_planes(s, variant, mem, &plan.surface, err)) == STATUS_OK &&
	        (st = beside_rows_read(s, variant, mem, &plan, err)) == STATUS_OK)
		st = read_edgings(s, variant, mem, &plan, err);
	sql_end_reading(s, began);
	if (st == STATUS_OK)
		*out = plan;
	return st;
}
