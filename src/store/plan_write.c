/* plan_write.c - a plan's parts written as rows.
 *
 * An edit rewrites the part it touches and no more: one row for a node that moves, the ring for one
 * that comes or goes, the rings from the changed one on where a ring comes or goes. */
#include "plan_doc.h"
#include "plan_rows.h"

#include <string.h>

static const char *const sizes[] = { "coordinating", "work" };
static const char *const edge_rules[] = { "finished", "rough" };
static const char *const envelopes[] = { "max", "min" };
static const char *const alongs[] = { "x", "y" };

static int which(const char *const words[2], const char *word)
{
	return strcmp(word, words[0]) == 0 ? 0 : strcmp(word, words[1]) == 0 ? 1 : -1;
}

const char *size_name(enum size_meaning size)
{
	return sizes[size];
}

const char *along_name(enum along along)
{
	return alongs[along];
}

const char *edge_rule_name(enum edge_rule rule)
{
	return edge_rules[rule];
}

const char *envelope_name(enum envelope envelope)
{
	return envelopes[envelope];
}

int size_parse(const char *word)
{
	return which(sizes, word);
}

int along_parse(const char *word)
{
	return which(alongs, word);
}

int edge_rule_parse(const char *word)
{
	return which(edge_rules, word);
}

int envelope_parse(const char *word)
{
	return which(envelopes, word);
}

/* --- rings --- */

static enum status insert_node(struct store *s, int64_t variant, size_t ring, size_t at,
        const struct plan_node *n, struct error *err)
{
	return sql_run(s,
	        "INSERT INTO nodes (variant, ring, position, x_um, y_um, rise_um, kind, border, "
	        "channel)"
	        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
	        VALUES(INT(variant), INT((int64_t)ring), INT((int64_t)at), INT(n->x_um),
	                INT(n->y_um), INT(n->rise_um), TEXT(edge_kind_name(n->kind)),
	                INT(n->border), INT(n->channel)),
	        err);
}

static enum status update_node(struct store *s, int64_t variant, size_t ring, size_t at,
        const struct plan_node *n, struct error *err)
{
	return sql_run(s,
	        "UPDATE nodes SET x_um = ?4, y_um = ?5, rise_um = ?6, kind = ?7, border = ?8, "
	        "channel = ?9"
	        " WHERE variant = ?1 AND ring = ?2 AND position = ?3",
	        VALUES(INT(variant), INT((int64_t)ring), INT((int64_t)at), INT(n->x_um),
	                INT(n->y_um), INT(n->rise_um), TEXT(edge_kind_name(n->kind)),
	                INT(n->border), INT(n->channel)),
	        err);
}

/* Takes away the rings from `first` up to but not `end`. */
static enum status delete_rings(
        struct store *s, int64_t variant, size_t first, size_t end, struct error *err)
{
	enum status st =
	        sql_run(s, "DELETE FROM nodes WHERE variant = ?1 AND ring >= ?2 AND ring < ?3",
	                VALUES(INT(variant), INT((int64_t)first), INT((int64_t)end)), err);

	if (st == STATUS_OK)
		st = sql_run(s,
		        "DELETE FROM rings WHERE variant = ?1 AND position >= ?2 AND position < ?3",
		        VALUES(INT(variant), INT((int64_t)first), INT((int64_t)end)), err);
	return st;
}

static enum status insert_rings(struct store *s, int64_t variant, const struct plan *plan,
        size_t first, size_t end, struct error *err)
{
	enum status st = STATUS_OK;

	for (size_t i = first; st == STATUS_OK && i < end; i++) {
		const struct plan_ring *r = &plan->rings[i];

		st = sql_run(s, "INSERT INTO rings (variant, position, closed) VALUES (?1, ?2, ?3)",
		        VALUES(INT(variant), INT((int64_t)i), INT(r->closed ? 1 : 0)), err);
		for (size_t k = 0; st == STATUS_OK && k < r->count; k++)
			st = insert_node(s, variant, i, k, &r->nodes[k], err);
	}
	return st;
}

/* Writes ring `first` again, or (all) the rings from there on after one has come or gone. */
static enum status write_rings(struct store *s, int64_t variant, const struct plan *plan,
        size_t first, bool all, struct error *err)
{
	size_t end = all ? plan->ring_count : first + 1;
	enum status st = delete_rings(s, variant, first, all ? plan->ring_count + 1 : end, err);

	return st == STATUS_OK ? insert_rings(s, variant, plan, first, end, err) : st;
}

/* --- values --- */

static enum status write_edge_joints(
        struct store *s, int64_t variant, const struct plan_laying *l, struct error *err)
{
	enum status st =
	        sql_run(s, "DELETE FROM edge_joints WHERE variant = ?1", VALUES(INT(variant)), err);

	for (int i = 0; st == STATUS_OK && i < EDGE_KINDS; i++)
		if (l->edge_joint_um[i])
			st = sql_run(s,
			        "INSERT INTO edge_joints (variant, kind, joint_um) VALUES (?1, ?2, "
			        "?3)",
			        VALUES(INT(variant), TEXT(edge_kind_name((enum edge_kind)i)),
			                INT(l->edge_joint_um[i])),
			        err);
	return st;
}

static enum status write_laying(
        struct store *s, int64_t variant, const struct plan_laying *l, struct error *err)
{
	const struct laying_id own = { variant, 0 };
	enum status st = sql_run(s,
	        "INSERT OR REPLACE INTO layings (variant, " PATTERN_COLUMNS
	        ", kerf_um, fill_width_um, sliver_width_um, edges, breakage_ppm)"
	        " VALUES (?, " PATTERN_MARKS ", ?, ?, nullif(?, -1), ?, ?)",
	        VALUES(INT(variant), PATTERN_VALUES(l), INT(l->kerf_um), INT(l->fill_width_um),
	                INT(l->sliver_width_um), TEXT(edge_rule_name(l->edges)),
	                INT(l->breakage_ppm)),
	        err);

	if (st == STATUS_OK)
		st = repeat_write(s, own, &l->repeat, err);
	if (st == STATUS_OK)
		st = mix_write(s, own, "", &l->mix, err);
	return st == STATUS_OK ? write_edge_joints(s, variant, l, err) : st;
}

static enum status write_planes(
        struct store *s, int64_t variant, const struct plan_surface *f, struct error *err)
{
	enum status st = STATUS_OK;

	for (size_t i = 0; st == STATUS_OK && i < f->count; i++) {
		const struct plan_plane *p = &f->planes[i];

		st = sql_run(s,
		        "INSERT INTO planes (variant, position, x_um, y_um, level_um, toward_udeg,"
		        " fall_um_per_m) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
		        VALUES(INT(variant), INT((int64_t)i), INT(p->x_um), INT(p->y_um),
		                INT(p->level_um), INT(p->toward_udeg), INT(p->fall_um_per_m)),
		        err);
	}
	return st;
}

static enum status write_surface(
        struct store *s, int64_t variant, const struct plan_surface *f, struct error *err)
{
	enum status st =
	        sql_run(s, "DELETE FROM planes WHERE variant = ?1", VALUES(INT(variant)), err);

	if (st == STATUS_OK && f->has_fixed)
		st = sql_run(s,
		        "INSERT OR REPLACE INTO surfaces (variant, envelope, fixed_name, "
		        "fixed_x_um, fixed_y_um,"
		        " fixed_level_um) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
		        VALUES(INT(variant), TEXT(envelope_name(f->envelope)), TEXT(f->fixed_name),
		                INT(f->fixed_x_um), INT(f->fixed_y_um), INT(f->fixed_level_um)),
		        err);
	else if (st == STATUS_OK)
		st = sql_run(s,
		        "INSERT OR REPLACE INTO surfaces (variant, envelope) VALUES (?1, ?2)",
		        VALUES(INT(variant), TEXT(envelope_name(f->envelope))), err);
	if (st == STATUS_OK && f->has_dpc)
		st = sql_run(s, "UPDATE surfaces SET dpc_um = ?2 WHERE variant = ?1",
		        VALUES(INT(variant), INT(f->dpc_um)), err);
	return st == STATUS_OK ? write_planes(s, variant, f, err) : st;
}

static enum status write_ground(
        struct store *s, int64_t variant, const struct plan_ground *g, struct error *err)
{
	if (g->has_instrument)
		return sql_run(s,
		        "INSERT OR REPLACE INTO grounds (variant, bedding_um, sub_base_um, "
		        "benchmark_um,"
		        " backsight_um) VALUES (?1, ?2, ?3, ?4, ?5)",
		        VALUES(INT(variant), INT(g->bedding_um), INT(g->sub_base_um),
		                INT(g->benchmark_um), INT(g->backsight_um)),
		        err);
	return sql_run(s,
	        "INSERT OR REPLACE INTO grounds (variant, bedding_um, sub_base_um) VALUES (?1, ?2, "
	        "?3)",
	        VALUES(INT(variant), INT(g->bedding_um), INT(g->sub_base_um)), err);
}

static enum status write_edging(struct store *s, int64_t variant, enum edge_kind kind,
        const struct plan_edging *e, struct error *err)
{
	return sql_run(s,
	        "INSERT OR REPLACE INTO edgings (variant, kind, " EDGING_COLUMNS
	        ") VALUES (?, ?, " EDGING_MARKS ")",
	        VALUES(INT(variant), TEXT(edge_kind_name(kind)), EDGING_VALUES(e)), err);
}

enum status plan_insert(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err)
{
	enum status st = insert_rings(s, variant, plan, 0, plan->ring_count, err);

	if (st == STATUS_OK)
		st = write_laying(s, variant, &plan->laying, err);
	if (st == STATUS_OK)
		st = write_surface(s, variant, &plan->surface, err);
	if (st == STATUS_OK)
		st = write_ground(s, variant, &plan->ground, err);
	for (int i = 0; st == STATUS_OK && i < EDGE_KINDS; i++)
		st = write_edging(s, variant, (enum edge_kind)i, &plan->edging[i], err);
	if (st == STATUS_OK)
		st = border_rows_write(s, variant, plan, err);
	if (st == STATUS_OK)
		st = zone_rows_write(s, variant, plan, err);
	return st == STATUS_OK ? beside_rows_insert(s, variant, plan, err) : st;
}

/* Water with all rings. */
static enum status write_drains(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err)
{
	enum status st = write_rings(s, variant, plan, 0, true, err);

	return st == STATUS_OK ? beside_row_write(s, variant, plan, BESIDE_WATER, err) : st;
}

static bool changes_zone(const struct plan *plan, const struct edit *e)
{
	return e->type == EDIT_ZONES ||
	       (e->ring >= plan->ring_count &&
	               (e->type == EDIT_NODE_SET || e->type == EDIT_NODE_INSERT ||
	                       e->type == EDIT_NODE_DELETE || e->type == EDIT_RING_SET));
}

enum status plan_update(struct store *s, int64_t variant, const struct plan *plan,
        const struct edit *e, struct error *err)
{
	if (changes_zone(plan, e))
		return zone_rows_write(s, variant, plan, err);
	switch (e->type) {
	case EDIT_NODE_SET:
		return update_node(
		        s, variant, e->ring, e->at, &plan->rings[e->ring].nodes[e->at], err);
	case EDIT_NODE_INSERT:
	case EDIT_NODE_DELETE:
	case EDIT_RING_SET:
		return write_rings(s, variant, plan, e->ring, false, err);
	case EDIT_RING_INSERT:
	case EDIT_RING_DELETE:
		return write_rings(s, variant, plan, e->ring, true, err);
	case EDIT_LAYING:
		return write_laying(s, variant, &plan->laying, err);
	case EDIT_SURFACE:
		return write_surface(s, variant, &plan->surface, err);
	case EDIT_GROUND:
		return write_ground(s, variant, &plan->ground, err);
	case EDIT_EDGING:
		return write_edging(s, variant, (enum edge_kind)e->at, &plan->edging[e->at], err);
	case EDIT_RULES:
		return sql_run(s, "UPDATE variants SET rule_set = ?2 WHERE id = ?1",
		        VALUES(INT(variant), TEXT(plan->rule_set)), err);
	case EDIT_BORDERS:
		return border_rows_write(s, variant, plan, err);
	case EDIT_WATER:
		return beside_row_write(s, variant, plan, BESIDE_WATER, err);
	case EDIT_SITE:
		return beside_row_write(s, variant, plan, BESIDE_SITE, err);
	case EDIT_PLANTERS:
		return beside_row_write(s, variant, plan, BESIDE_PLANTERS, err);
	case EDIT_STEPS:
		return beside_row_write(s, variant, plan, BESIDE_STEPS, err);
	case EDIT_COSTS:
		return beside_row_write(s, variant, plan, BESIDE_COSTS, err);
	case EDIT_DRAINS:
		return write_drains(s, variant, plan, err);
	default:
		return error_set(err, STATUS_PLAN, "unknown edit");
	}
}
