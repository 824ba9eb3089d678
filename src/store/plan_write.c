/* plan_write.c - a plan's parts written as rows.
 *
 * An edit rewrites the part it touches and no more: one row for a node that moves, the ring for one
 * that comes or goes, the rings from the changed one on where a ring comes or goes. */
#include "plan_rows.h"

#include "entries.h"

#include <stdio.h>
#include <string.h>

static const char *const sizes[] = { "coordinating", "work" };
static const char *const edge_rules[] = { "finished", "rough" };
static const char *const envelopes[] = { "max", "min" };

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
	return along == ALONG_Y ? "y" : "x";
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
	        "INSERT INTO nodes (variant, ring, position, x_um, y_um, rise_um, kind)"
	        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
	        VALUES(INT(variant), INT((int64_t)ring), INT((int64_t)at), INT(n->x_um),
	                INT(n->y_um), INT(n->rise_um), TEXT(edge_kind_name(n->kind))),
	        err);
}

static enum status update_node(struct store *s, int64_t variant, size_t ring, size_t at,
        const struct plan_node *n, struct error *err)
{
	return sql_run(s,
	        "UPDATE nodes SET x_um = ?4, y_um = ?5, rise_um = ?6, kind = ?7"
	        " WHERE variant = ?1 AND ring = ?2 AND position = ?3",
	        VALUES(INT(variant), INT((int64_t)ring), INT((int64_t)at), INT(n->x_um),
	                INT(n->y_um), INT(n->rise_um), TEXT(edge_kind_name(n->kind))),
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
	const struct plan_slab *b = &l->slab;
	enum status st;

	st = sql_run(s,
	        "INSERT OR REPLACE INTO layings (variant, slab_name, length_um, width_um, "
	        "thickness_um, joint_um,"
	        " size, directional, pack, density_kg_m3, price_minor, bond, offset, rotation_udeg,"
	        " start_x_um, start_y_um, kerf_um, fill_width_um, sliver_width_um, edges, "
	        "breakage_ppm, along)"
	        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, nullif(?11, -1), ?12, ?13, ?14, "
	        "?15, ?16,"
	        " ?17, ?18, nullif(?19, -1), ?20, ?21, ?22)",
	        VALUES(INT(variant), TEXT(b->name), INT(b->length_um), INT(b->width_um),
	                INT(b->thickness_um), INT(b->joint_um), TEXT(size_name(b->size)),
	                INT(b->directional ? 1 : 0), INT(b->pack), INT(b->density_kg_m3),
	                INT(b->price_minor), TEXT(bond_name(l->bond)), REAL(l->offset),
	                INT(l->rotation_udeg), INT(l->start_x_um), INT(l->start_y_um),
	                INT(l->kerf_um), INT(l->fill_width_um), INT(l->sliver_width_um),
	                TEXT(edge_rule_name(l->edges)), INT(l->breakage_ppm),
	                TEXT(along_name(l->along))),
	        err);
	if (st == STATUS_OK)
		st = repeat_write(s, variant, &l->repeat, err);
	if (st == STATUS_OK)
		st = mix_write(s, variant, "", &l->mix, err);
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
	        "INSERT OR REPLACE INTO edgings (variant, kind, name, unit_um, joint_um) VALUES "
	        "(?1, ?2, ?3, ?4, ?5)",
	        VALUES(INT(variant), TEXT(edge_kind_name(kind)), TEXT(e->name), INT(e->unit_um),
	                INT(e->joint_um)),
	        err);
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
	return st;
}

enum status plan_update(struct store *s, int64_t variant, const struct plan *plan,
        const struct edit *e, struct error *err)
{
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
	default:
		return error_set(err, STATUS_PLAN, "unknown edit");
	}
}

/* --- checks --- */

static enum status node_check(const struct plan_node *n, size_t ring, size_t at, struct error *err)
{
	const struct {
		const char *name;
		int64_t value;
	} lengths[] = { { "x", n->x_um }, { "y", n->y_um }, { "rise", n->rise_um } };

	for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
		char is[40];

		if (lengths[i].value >= -COORD_LIMIT_UM && lengths[i].value <= COORD_LIMIT_UM)
			continue;
		return error_set(err, STATUS_PLAN,
		        "ring %zu, corner %zu: %s of %s mm is out of reach; stay within 1000000 mm",
		        ring + 1, at + 1, lengths[i].name,
		        mm_print(is, sizeof is, lengths[i].value));
	}
	if ((unsigned)n->kind >= EDGE_KINDS)
		return error_set(err, STATUS_PLAN,
		        "ring %zu, corner %zu: there is no such kind of edge", ring + 1, at + 1);
	return STATUS_OK;
}

static enum status corners_check(const struct plan *plan, struct error *err)
{
	size_t corners = 0;

	for (size_t i = 0; i < plan->ring_count; i++)
		corners += plan->rings[i].count;
	if (corners > MOST_CORNERS)
		return error_set(err, STATUS_PLAN,
		        "the plan would have %zu corners; give at most %d", corners, MOST_CORNERS);
	return STATUS_OK;
}

enum status edging_check(const struct plan_edging *e, const char *place, struct error *err)
{
	char where[200];

	snprintf(where, sizeof where, "%sname", place);
	if (e->unit_um != 0 && (e->unit_um < 20 * UM_PER_MM || e->unit_um > 20 * UM_PER_M))
		return error_set(err, STATUS_PLAN,
		        "%sunit: give from 20 to 20000 mm, or 0 where nothing is bought", place);
	if (e->joint_um < 0 || e->joint_um > 100 * UM_PER_MM)
		return error_set(err, STATUS_PLAN, "%sjoint: give from 0 to 100 mm", place);
	return text_check(e->name, 0, where, err);
}

enum status rule_set_check(struct store *s, const char *name, const char *place, struct error *err)
{
	struct arena mem = { 0 };
	const char *names = NULL;
	bool found;
	int64_t one;
	enum status st = sql_number(s, "SELECT 1 FROM rule_sets WHERE name = ?1",
	        VALUES(TEXT(name)), &one, &found, err);

	if (st != STATUS_OK || found)
		return st;
	st = sql_text(s,
	        "SELECT group_concat('\"' || name || '\"', ', ') FROM (SELECT name FROM rule_sets "
	        "ORDER BY name)",
	        NO_VALUES, &mem, &names, err);
	if (st == STATUS_OK)
		st = error_set(err, STATUS_PLAN,
		        "%sno rule set \"%s\" is in this store; there are %s", place, name,
		        names ? names : "none");
	arena_free(&mem);
	return st;
}

static enum status surface_value_check(const struct plan_surface *f, struct error *err)
{
	enum status st = surface_check(f, "", err);

	if ((unsigned)f->envelope > ENVELOPE_MIN)
		return error_set(err, STATUS_PLAN, "envelope: there is no such one");
	return st == STATUS_OK ? text_check(f->fixed_name, 0, "fixed.name", err) : st;
}

static enum status laying_value_check(const struct plan_laying *l, struct error *err)
{
	if ((unsigned)l->bond >= BONDS || (unsigned)l->edges > RULE_ROUGH ||
	        (unsigned)l->slab.size > SIZE_WORK)
		return error_set(err, STATUS_PLAN,
		        "laying: there is no such bond, edge rule or meaning of the size");
	if (text_check(l->slab.name, 0, "slab.name", err) != STATUS_OK ||
	        text_check(l->repeat.name, 0, "repeat.name", err) != STATUS_OK)
		return STATUS_PLAN;
	return laying_check(l, "", err);
}

enum status edit_check(
        struct store *s, const struct plan *plan, const struct edit *e, struct error *err)
{
	enum status st = corners_check(plan, err);

	if (st != STATUS_OK)
		return st;
	switch (e->type) {
	case EDIT_NODE_INSERT:
	case EDIT_NODE_SET:
		return node_check(&e->node, e->ring, e->at, err);
	case EDIT_RING_INSERT:
	case EDIT_RING_SET:
		for (size_t i = 0; st == STATUS_OK && i < e->ring_value.count; i++)
			st = node_check(&e->ring_value.nodes[i], e->ring, i, err);
		return st;
	case EDIT_LAYING:
		return laying_value_check(&plan->laying, err);
	case EDIT_SURFACE:
		return surface_value_check(&plan->surface, err);
	case EDIT_GROUND:
		return ground_check(&plan->ground, "", err);
	case EDIT_EDGING:
		return edging_check(&plan->edging[e->at], "edging.", err);
	case EDIT_RULES:
		return rule_set_check(s, plan->rule_set, "", err);
	default:
		return STATUS_OK;
	}
}
