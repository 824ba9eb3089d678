/* planter_lay.c - the units as they lie, what they come to, and the blocks to buy. */
#include "planter_parts.h"

#include <math.h>
#include <stdlib.h>

static const size_t MOST_UNITS = 20000; /* of a course */
static const int64_t PACK_WORK = 500000; /* half a millisecond */

const char *planter_piece_name(enum planter_piece piece)
{
	static const char *const names[] = { "whole", "half", "cut" };

	return names[piece];
}

/* --- units and joints --- */

static void put_joint(struct planter_course *c, size_t leg, int leaf, double u_um, bool corner)
{
	c->joints[c->joint_count++] =
	        (struct planter_joint){ .leg = leg, .leaf = leaf, .u_um = u_um, .corner = corner };
}

/* A unit from from_um on; its ends are made upright. */
static void put_unit(const struct planter_work *w, struct planter_course *c, size_t leg, int leaf,
        int64_t from_um, int64_t length_um)
{
	double from = (double)from_um, to = (double)(from_um + length_um);

	c->units[c->unit_count++] = (struct planter_unit){ .leg = leg,
		.leaf = leaf,
		.length_um = length_um,
		.piece = length_um == w->p->block.length_um ? UNIT_WHOLE
		         : length_um == w->half_um          ? UNIT_HALF
		                                            : UNIT_CUT,
		.from_out_um = from,
		.from_in_um = from,
		.to_out_um = to,
		.to_in_um = to };
}

/* What a leg's end makes of the unit there. */
static void end_unit(struct planter_unit *unit, const struct planter_bound *b)
{
	unit->corner = unit->corner || b->corner;
	unit->end = unit->end || b->end;
	if (b->mitre)
		unit->piece = UNIT_CUT;
}

static void lay_leg(const struct planter_work *w, struct planter_course *c, size_t leg, int leaf,
        bool odd, const struct planter_way *way)
{
	const struct planter_leg *l = &w->r->legs[leg];
	struct planter_bound first = planter_bound(w, l->from, true, odd, leaf),
	                     last = planter_bound(w, l->to, false, odd, leaf);
	int64_t joint = w->p->block.joint_um, u = way->from_um;
	size_t from = c->unit_count;
	double length = (double)l->length_um;

	if (first.joint)
		put_joint(c, leg, leaf, (double)u - (double)joint / 2, true);
	if (first.mitre) { /* told once, by the leg that leaves */
		put_joint(c, leg, leaf,
		        w->r->corners[l->from].half_tan *
		                (double)(w->r->leaves[leaf].v0_um + w->r->leaves[leaf].v1_um) / 2,
		        true);
		c->joints[c->joint_count - 1].mitre = true;
	}
	for (int64_t i = 0; i < way->whole + 1 + (way->last_um > 0); i++) {
		int64_t size = i == 0            ? way->first_um
		               : i <= way->whole ? w->p->block.length_um
		                                 : way->last_um;

		if (i)
			put_joint(c, leg, leaf, (double)u - (double)joint / 2, false);
		put_unit(w, c, leg, leaf, u, size);
		u += size + joint;
	}
	c->units[from].from_out_um = first.out_um;
	c->units[from].from_in_um = first.in_um;
	c->units[c->unit_count - 1].to_out_um = length - last.out_um;
	c->units[c->unit_count - 1].to_in_um = length - last.in_um;
	end_unit(&c->units[from], &first);
	end_unit(&c->units[c->unit_count - 1], &last);
	if (last.joint)
		put_joint(c, leg, leaf, (double)way->to_um + (double)joint / 2, true);
}

static enum status lay_course(
        struct planter_work *w, struct planter_course *c, bool odd, struct planter_way (*ways)[2])
{
	struct planter_result *r = w->r;
	size_t ways_count = r->leg_count * (size_t)r->leaf_count, units = 0;

	for (size_t i = 0; i < ways_count; i++)
		units += (size_t)ways[i][odd ? 0 : 1].whole + 2;
	if (units > MOST_UNITS)
		return error_set(w->err, STATUS_PLAN,
		        "a course takes %zu blocks, more than %zu; make it several planters", units,
		        MOST_UNITS);
	c->units = arena_alloc(w->mem, units, sizeof *c->units);
	c->joints = arena_alloc(w->mem, units + 2 * ways_count, sizeof *c->joints);
	if (!c->units || !c->joints)
		return error_memory(w->err);
	for (size_t i = 0; i < ways_count; i++)
		lay_leg(w, c, i % r->leg_count, (int)(i / r->leg_count), odd,
		        &ways[i][odd ? 0 : 1]);
	c->times = odd ? (w->p->courses + 1) / 2 : w->p->courses / 2;
	return STATUS_OK;
}

static void count_units(struct planter_course *c)
{
	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];

		c->whole += u->piece == UNIT_WHOLE && !u->corner;
		c->corner += u->piece == UNIT_WHOLE && u->corner;
		c->half += u->piece == UNIT_HALF && !u->corner;
		c->cut += u->piece == UNIT_CUT || (u->piece == UNIT_HALF && u->corner);
		c->ends += u->piece == UNIT_WHOLE && !u->corner && u->end;
	}
}

/* --- laps --- */

static bool same_leg(const struct planter_joint *a, const struct planter_joint *b)
{
	return a->leaf == b->leaf && a->leg == b->leg;
}

static bool goes_before(const struct planter_joint *a, const struct planter_joint *b)
{
	if (a->leaf != b->leaf)
		return a->leaf < b->leaf;
	return a->leg != b->leg ? a->leg < b->leg : a->u_um < b->u_um;
}

/* Joints go by leaf and leg, and along a leg in order of u, so that the nearest to each are the
 * last before it and the first after it. Mitres are in line by their nature. */
static void find_lap(struct planter_work *w)
{
	struct planter_result *r = w->r;
	const struct planter_course *a = &r->courses[0], *b = &r->courses[1];
	double pitch = (double)(w->p->block.length_um + w->p->block.joint_um);
	size_t j = 0;

	r->lap_um = INFINITY;
	for (size_t i = 0; i < a->joint_count && w->p->courses > 1; i++) {
		const struct planter_joint *x = &a->joints[i], *y = b->joints;

		while (j < b->joint_count && goes_before(&y[j], x))
			j++;
		if (x->mitre)
			continue;
		if (j < b->joint_count && same_leg(&y[j], x) && !y[j].mitre)
			r->lap_um = fmin(r->lap_um, y[j].u_um - x->u_um);
		if (j > 0 && same_leg(&y[j - 1], x) && !y[j - 1].mitre)
			r->lap_um = fmin(r->lap_um, x->u_um - y[j - 1].u_um);
	}
	r->has_lap = isfinite(r->lap_um);
	if (!r->has_lap)
		r->lap_um = 0;
	r->half_bond = !r->has_lap || 8 * r->lap_um >= 3 * pitch;
}

/* --- what to buy --- */

/* A cut unit at a corner or an end needs a corner block's finished end. */
static bool from_corner_block(const struct planter_work *w, const struct planter_unit *u)
{
	return w->p->block.has_corner && (u->corner || u->end);
}

static bool is_cut(const struct planter_work *w, const struct planter_unit *u)
{
	return u->piece == UNIT_CUT ||
	       (u->piece == UNIT_HALF && (u->corner || !w->p->block.has_half));
}

static int by_length(const void *a, const void *b)
{
	const struct planter_cut *x = a, *y = b;

	return (x->length_um < y->length_um) - (x->length_um > y->length_um);
}

static void add_cuts(const struct planter_work *w, const struct planter_course *c)
{
	struct planter_blocks *b = &w->r->blocks;

	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];

		if (u->piece == UNIT_CUT && u->length_um < w->r->least_piece_um)
			b->too_short += c->times;
		if (!c->times || !is_cut(w, u))
			continue;
		if (from_corner_block(w, u))
			b->buy_corner += c->times;
		else
			b->cuts[b->cut_count++] = (struct planter_cut){ u->length_um, c->times };
	}
}

static void merge_cuts(struct planter_blocks *b)
{
	size_t n = 0;

	qsort(b->cuts, b->cut_count, sizeof *b->cuts, by_length);
	for (size_t i = 0; i < b->cut_count; i++) {
		if (n && b->cuts[n - 1].length_um == b->cuts[i].length_um)
			b->cuts[n - 1].count += b->cuts[i].count;
		else
			b->cuts[n++] = b->cuts[i];
	}
	b->cut_count = n;
}

static enum status gather_cuts(struct planter_work *w)
{
	struct planter_blocks *b = &w->r->blocks;
	size_t most = 0;

	for (int k = 0; k < 2; k++)
		for (size_t i = 0; i < w->r->courses[k].unit_count; i++)
			most += is_cut(w, &w->r->courses[k].units[i]);
	b->cuts = arena_alloc(w->mem, most, sizeof *b->cuts);
	if (!b->cuts)
		return error_memory(w->err);
	add_cuts(w, &w->r->courses[0]);
	add_cuts(w, &w->r->courses[1]);
	merge_cuts(b);
	return STATUS_OK;
}

static enum status pack_cuts(struct planter_work *w)
{
	struct planter_blocks *b = &w->r->blocks;
	struct pack_piece *pieces = arena_alloc(w->mem, b->cut_count, sizeof *pieces);
	struct pack *pack;
	enum status st;

	b->reason = "";
	if (!pieces)
		return error_memory(w->err);
	if (!b->cut_count)
		return STATUS_OK;
	for (size_t i = 0; i < b->cut_count; i++)
		pieces[i] = (struct pack_piece){ b->cuts[i].length_um, (size_t)b->cuts[i].count };
	st = pack_begin(
	        w->mem, pieces, b->cut_count, w->p->block.length_um, w->kerf_um, &pack, w->err);
	if (st == STATUS_OK)
		st = pack_step(pack, PACK_WORK, w->err);
	if (st == STATUS_OK)
		st = pack_best(pack, &b->pack, w->err);
	if (st == STATUS_OK)
		b->reason = b->pack.reason;
	return st;
}

static enum status count_blocks(struct planter_work *w)
{
	struct planter_blocks *b = &w->r->blocks;
	const struct plan_block *k = &w->p->block;
	int64_t ends = 0, base;
	enum status st;

	for (int i = 0; i < 2; i++) {
		const struct planter_course *c = &w->r->courses[i];

		b->whole += c->whole * c->times;
		b->half += c->half * c->times;
		b->corner += c->corner * c->times;
		b->cut += c->cut * c->times;
		ends += c->ends * c->times;
	}
	if ((st = gather_cuts(w)) != STATUS_OK || (st = pack_cuts(w)) != STATUS_OK)
		return st;
	base = k->has_corner ? b->whole - ends : b->whole + b->corner;
	if (k->has_corner)
		b->buy_corner += b->corner + ends;
	if (k->has_half)
		for (int i = 0; i < 2; i++)
			for (size_t j = 0; j < w->r->courses[i].unit_count; j++)
				if (w->r->courses[i].units[j].piece == UNIT_HALF &&
				        !is_cut(w, &w->r->courses[i].units[j]))
					b->buy_half += w->r->courses[i].times;
	b->buy_whole = base + (int64_t)b->pack.unit_count;
	b->buy_at_least = base + (int64_t)b->pack.bound;
	b->price_minor = k->price_minor < 0
	                         ? -1
	                         : k->price_minor * (b->buy_whole + b->buy_half + b->buy_corner);
	return STATUS_OK;
}

/* --- volumes and masses --- */

static double units_m2(const struct planter_course *c, double width_um)
{
	double sum = 0;

	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];

		sum += (u->to_out_um - u->from_out_um + u->to_in_um - u->from_in_um) / 2 * width_um;
	}
	return sum * 1e-12;
}

/* What the wall takes up in plan, its leaves without what is between them. */
static double leaves_m2(const struct planter_result *r)
{
	double sum = 0;

	for (int i = 0; i < r->leaf_count; i++) {
		const struct planter_leaf *l = &r->leaves[i];

		sum += (double)(l->v1_um - l->v0_um) *
		       planter_line_um(r, (double)(l->v0_um + l->v1_um) / 2);
	}
	return sum * 1e-12;
}

static void weigh(struct planter_work *w)
{
	struct planter_result *r = w->r;
	const struct plan_block *k = &w->p->block;
	double high = (double)k->height_um * 1e-6, wide = (double)k->width_um,
	       joint = (double)k->joint_um * 1e-6, leaves = leaves_m2(r), solid = 0, upright = 0;

	for (int i = 0; i < 2; i++) {
		const struct planter_course *c = &r->courses[i];
		double m2 = units_m2(c, wide);

		solid += m2 * high * (double)c->times;
		upright += fmax(0, leaves - m2) * high * (double)c->times;
	}
	if (k->joint_um) {
		r->mortar_m3 = upright + leaves * joint * (double)w->p->courses;
		if (r->leaf_count == 2)
			r->mortar_m3 += joint * (high + joint) * (double)w->p->courses *
			                planter_line_um(r, wide + (double)k->joint_um / 2) * 1e-6;
	}
	r->block_kg = (double)k->length_um * wide * 1e-12 * high * (double)k->density_kg_m3;
	r->wall_kg = solid * (double)k->density_kg_m3;
	r->wall_kg_m = r->wall_kg / r->middle_m;
}

enum status planter_lay(struct planter_work *w, struct planter_way (*ways)[2])
{
	struct planter_result *r = w->r;
	enum status st;

	for (int i = 0; i < 2; i++) {
		if ((st = lay_course(w, &r->courses[i], i == 0, ways)) != STATUS_OK)
			return st;
		count_units(&r->courses[i]);
	}
	find_lap(w);
	if ((st = count_blocks(w)) != STATUS_OK)
		return st;
	weigh(w);
	return STATUS_OK;
}
