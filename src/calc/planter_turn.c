/* planter_turn.c - how each corner of a run is turned.
 *
 * For each leg and each way its corners can be turned the best courses are found; then the best
 * turns along the run are found corner by corner, since a leg knows only its own two. */
#include "planter_bond.h"

static struct cost cost_of_leg(const struct bonding *b, size_t leg)
{
	struct cost cost = { { 0 } };

	for (int leaf = 0; leaf < b->w->r->leaf_count; leaf++) {
		struct leg_bond best = leg_bond_find(b, leg, leaf);

		if (!best.found)
			return cost_dearest();
		cost = cost_sum(&cost, &best.cost);
	}
	return cost;
}

/* costs[leg][turn of its first corner][turn of its last]. */
typedef struct cost leg_costs[2][2];

static int turns_of(const struct planter_result *r, size_t corner)
{
	return r->corners[corner].turn == PLANTER_SQUARE ? 2 : 1;
}

static void fill_costs(const struct bonding *b, leg_costs *costs)
{
	struct planter_result *r = b->w->r;

	for (size_t i = 0; i < r->leg_count; i++)
		for (int a = 0; a < turns_of(r, r->legs[i].from); a++)
			for (int z = 0; z < turns_of(r, r->legs[i].to); z++) {
				r->corners[r->legs[i].from].first_goes_on = a;
				r->corners[r->legs[i].to].first_goes_on = z;
				costs[i][a][z] = cost_of_leg(b, i);
			}
}

/* The best way to turn all corners when corner 0 is turned so; came[leg][z] is the turn before. */
static struct cost follow(const struct planter_result *r, leg_costs *costs, int start,
        unsigned char (*came)[2], int *last)
{
	struct cost now[2] = { cost_dearest(), cost_dearest() };

	now[start] = (struct cost){ { 0 } };
	for (size_t i = 0; i < r->leg_count; i++) {
		struct cost next[2] = { cost_dearest(), cost_dearest() };

		for (int z = 0; z < turns_of(r, r->legs[i].to); z++)
			for (int a = 0; a < turns_of(r, r->legs[i].from); a++) {
				struct cost c = cost_sum(&now[a], &costs[i][a][z]);

				if (a && !cost_is_less(&c, &next[z]))
					continue;
				next[z] = c;
				came[i][z] = (unsigned char)a;
			}
		now[0] = next[0];
		now[1] = next[1];
	}
	*last = r->planter->closed ? start : cost_is_less(&now[1], &now[0]);
	return now[*last];
}

static void take_turns(struct planter_result *r, unsigned char (*came)[2], int last)
{
	for (size_t i = r->leg_count; i-- > 0;) {
		r->corners[r->legs[i].to].first_goes_on = last;
		last = came[i][last];
	}
	r->corners[0].first_goes_on = last;
}

static enum status turn_corners(const struct bonding *b)
{
	struct planter_result *r = b->w->r;
	leg_costs *costs = arena_alloc(b->w->mem, r->leg_count, sizeof *costs);
	unsigned char(*came)[2] = arena_alloc(b->w->mem, r->leg_count, sizeof *came);
	unsigned char(*best)[2] = arena_alloc(b->w->mem, r->leg_count, sizeof *best);
	struct cost least = cost_dearest();
	int best_last = 0;

	if (!costs || !came || !best)
		return error_memory(b->w->err);
	fill_costs(b, costs);
	for (int start = 0; start < turns_of(r, 0); start++) {
		int last;
		struct cost c = follow(r, costs, start, came, &last);

		if (start && !cost_is_less(&c, &least))
			continue;
		least = c;
		best_last = last;
		for (size_t i = 0; i < r->leg_count; i++)
			for (int z = 0; z < 2; z++)
				best[i][z] = came[i][z];
	}
	take_turns(r, best, best_last);
	return STATUS_OK;
}

static enum status refuse_leg(struct planter_work *w, size_t leg)
{
	const struct planter_result *r = w->r;

	return error_set(w->err, STATUS_PLAN,
	        "no blocks fit the leg from corner %zu to corner %zu; change its length a little, "
	        "or the block",
	        r->corners[r->legs[leg].from].point + 1, r->corners[r->legs[leg].to].point + 1);
}

/* A mitre that runs across more than one block's length cannot be cut from one. */
static enum status check_mitres(const struct bonding *b)
{
	struct planter_work *w = b->w;

	for (size_t i = 0; i < w->r->corner_count; i++) {
		const struct planter_corner *c = &w->r->corners[i];
		struct planter_bound at = planter_bound(w, i, true, true, 0);

		if (c->turn == PLANTER_SQUARE && w->p->block.width_um >= w->p->block.length_um)
			return error_set(w->err, STATUS_PLAN,
			        "corner %zu: a block as wide as it is long cannot interlock there; "
			        "take a longer block",
			        c->point + 1);
		if (at.mitre && b->least + bound_skew_um(&at) > b->block)
			return error_set(w->err, STATUS_PLAN,
			        "corner %zu: the mitre is too long for one block; take a longer or "
			        "narrower block, or two corners that turn less",
			        c->point + 1);
	}
	return STATUS_OK;
}

enum status planter_bond(struct planter_work *w, struct planter_way (**ways)[2])
{
	const struct plan_block *k = &w->p->block;
	struct planter_result *r = w->r;
	struct bonding b = { .w = w,
		.block = k->length_um,
		.joint = k->joint_um,
		.pitch = k->length_um + k->joint_um,
		.half = w->half_um,
		.least = r->least_piece_um };
	enum status st = check_mitres(&b);

	if (st != STATUS_OK)
		return st;
	*ways = arena_alloc(w->mem, r->leg_count * (size_t)r->leaf_count, sizeof **ways);
	if (!*ways)
		return error_memory(w->err);
	if ((st = turn_corners(&b)) != STATUS_OK)
		return st;
	for (int leaf = 0; leaf < r->leaf_count; leaf++)
		for (size_t i = 0; i < r->leg_count; i++) {
			struct leg_bond best = leg_bond_find(&b, i, leaf);
			struct planter_way *way = (*ways)[(size_t)leaf * r->leg_count + i];

			if (!best.found || best.cost.part[0] >= UNCOVERED)
				return refuse_leg(w, i);
			way[0] = best.way[0];
			way[1] = best.way[1];
		}
	return STATUS_OK;
}
