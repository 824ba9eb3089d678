/* pack1d.c - the stages of a packing.
 *
 * Quick plans and bounds come first. Then the longest pieces are completed to full units; then, as
 * long as the plan takes more units than the bound: the linear program of cutting patterns for a
 * better bound, and in turn dives from its answer for a better plan, and a search through all ways,
 * each search ten times as long as the one before, which proves the plan when it ends. */
#include "slabwright/pack.h"

#include "pack1d.h"

#include <string.h>

enum stage { STAGE_FULL, STAGE_TRY, STAGE_PRICE, STAGE_DIVE, STAGE_SEARCH, STAGE_DONE };

enum {
	BEST_FIT_PIECES = 1000, /* more are packed by first fit alone */
	FULL_WORK = 1000000, /* of a full fit, over all its units */
	FULL_SIZE = 4000000, /* units times kinds, at most, for a full fit */
	TRY_WORK = 200000,
	PRICED_KINDS = 1500, /* at most: the matrix takes 18 MB */
	FIRST_DIVES = 4,
	FIRST_SEARCH = 1000000,
	ROUNDS = 8,
	SEARCH_WAYS = 100000,
	DIVE_SETTLE = 1000000,
	SEARCH_SLICE = 200000,
};

struct pack {
	struct arena *mem;
	struct pieces given;
	struct load load;
	const int64_t *count; /* of each kind */
	size_t pieces;
	struct filled best, tried;
	size_t bound;
	const char *reason;
	enum stage stage;
	struct knapsack sack;
	struct first first;
	struct price price;
	struct dive dive;
	struct search search;
	int64_t *value; /* of each kind, that prove the bound by fractions */
	int64_t value_limit;
	bool diving, searching; /* under way, and the aim still stands */
	int round;
	size_t dives_left;
	int64_t search_until;
};

static const char NOTHING[] = "there is nothing to cut",
                  BY_LENGTH[] = "length: the pieces with the cuts between them take that many",
                  BY_LONG[] = "long pieces: too few of them can share a unit",
                  BY_FRACTIONS[] =
                          "cutting patterns: not even units used in fractions do with fewer",
                  BY_SEARCH[] = "search: every way to cut fewer was tried";

static void raise_bound(struct pack *p, size_t bound, const char *reason)
{
	if (bound > p->bound) {
		p->bound = bound;
		p->reason = reason;
	}
}

/* Takes the plan just tried where it is better. */
static void offer(struct pack *p, const struct filled *plan)
{
	if (plan->units < p->best.units) {
		filled_copy(&p->best, plan);
		p->diving = p->searching = false;
	}
}

/* --- begin --- */

/* A first plan, and the bounds that take no time. */
static void pack_first(struct pack *p)
{
	p->reason = NOTHING;
	raise_bound(p, bound_by_length(&p->load, p->count), BY_LENGTH);
	raise_bound(p, bound_by_long_pieces(&p->load, p->count), BY_LONG);
	first_fit(&p->first, p->count, &p->best);
	if (p->best.units > p->bound && p->pieces <= BEST_FIT_PIECES) {
		best_fit(&p->first, p->count, &p->tried);
		offer(p, &p->tried);
	}
}

enum status pack_begin(struct arena *mem, const struct pack_piece *pieces, size_t kinds,
        int64_t unit_um, int64_t kerf_um, struct pack **out, struct error *err)
{
	struct pack *p = *out = arena_alloc(mem, 1, sizeof *p);
	enum status st;

	if (!p)
		return error_memory(err);
	p->mem = mem;
	st = pieces_take(&p->given, mem, pieces, kinds, unit_um, kerf_um, err);
	if (st != STATUS_OK)
		return st;
	p->count = p->given.count;
	p->pieces = p->given.total;
	p->load = (struct load){ p->given.kinds, p->given.size, unit_um + kerf_um };
	if (!filled_init(&p->best, mem, p->pieces) || !filled_init(&p->tried, mem, p->pieces) ||
	        !knapsack_init(&p->sack, mem, p->load.kinds) ||
	        !first_init(&p->first, mem, &p->load, p->pieces, &p->sack))
		return error_memory(err);
	pack_first(p);
	return STATUS_OK;
}

/* --- stages --- */

static size_t aim_of(const struct pack *p)
{
	return p->best.units - 1;
}

static enum status do_full(struct pack *p, struct error *err)
{
	(void)err;
	p->stage = STAGE_TRY;
	if (p->best.units * p->load.kinds > FULL_SIZE)
		return STATUS_OK;
	filled_clear(&p->tried);
	full_fit(&p->first, p->count, FULL_WORK / (int64_t)p->best.units, &p->tried);
	offer(p, &p->tried);
	return STATUS_OK;
}

static bool start_search(struct pack *p)
{
	bool values_help = p->value_limit > 0 && p->value_limit < 2 * PRICE_ONE;

	if (!p->search.left && !search_init(&p->search, p->mem, &p->load, p->pieces, SEARCH_WAYS))
		return false;
	search_start(&p->search, p->count, aim_of(p), values_help ? p->value : NULL,
	        values_help ? p->value_limit : 0);
	p->searching = true;
	return true;
}

/* Takes the search so much further. */
static enum status search_on(
        struct pack *p, int64_t work, enum search_state *state, struct error *err)
{
	if (!p->searching && !start_search(p))
		return error_memory(err);
	*state = search_step(&p->search, work);
	if (*state == SEARCH_FOUND) {
		filled_clear(&p->tried);
		search_take(&p->search, &p->tried);
		offer(p, &p->tried);
	} else if (*state == SEARCH_NONE) {
		raise_bound(p, p->best.units, BY_SEARCH);
	}
	return STATUS_OK;
}

static enum status do_try(struct pack *p, struct error *err)
{
	enum search_state state;
	enum status st = search_on(p, TRY_WORK, &state, err);

	if (st == STATUS_OK && state != SEARCH_FOUND) {
		p->searching = false;
		p->stage = STAGE_PRICE;
	}
	return st;
}

static bool start_price(struct pack *p)
{
	p->value = arena_alloc(p->mem, p->load.kinds, sizeof *p->value);
	return p->value && price_init(&p->price, p->mem, &p->load, &p->sack) &&
	       price_demand(&p->price, p->count) && price_know(&p->price, &p->best) &&
	       dive_init(&p->dive, p->mem, &p->price, &p->first, p->pieces);
}

/* Prices all pieces, one step. */
static enum status do_price(struct pack *p, struct error *err)
{
	enum price_state state;

	if (p->load.kinds > PRICED_KINDS) {
		p->stage = STAGE_DONE;
		return STATUS_OK;
	}
	if (!p->price.m && !start_price(p))
		return error_memory(err);
	state = price_step(&p->price);
	if (state == PRICE_NO_MEMORY)
		return error_memory(err);
	raise_bound(p, p->price.bound, BY_FRACTIONS);
	if (state == PRICE_GOING)
		return STATUS_OK;
	memcpy(p->value, p->price.proof, p->load.kinds * sizeof *p->value);
	p->value_limit = p->price.value_limit;
	dive_top(&p->dive);
	p->price.settle_work = DIVE_SETTLE;
	p->stage = STAGE_DIVE;
	p->dives_left = FIRST_DIVES;
	return STATUS_OK;
}

static enum status do_dive(struct pack *p, struct error *err)
{
	if (!p->diving) {
		if (!p->dives_left--) {
			p->stage = STAGE_SEARCH;
			p->search_until = p->search.work + (FIRST_SEARCH << (2 * p->round));
			return STATUS_OK;
		}
		dive_start(&p->dive, p->count, aim_of(p));
		p->diving = true;
	}
	switch (dive_step(&p->dive)) {
	case DIVE_NO_MEMORY:
		return error_memory(err);
	case DIVE_FOUND:
		offer(p, &p->dive.out);
		break;
	case DIVE_FAILED:
		p->diving = false;
		break;
	case DIVE_GOING:
		break;
	}
	return STATUS_OK;
}

static enum status do_search(struct pack *p, struct error *err)
{
	enum search_state state = SEARCH_GAVE_UP;
	enum status st = STATUS_OK;

	if (p->search.all)
		st = search_on(p, SEARCH_SLICE, &state, err);
	if (st != STATUS_OK || (state == SEARCH_GOING && p->search.work < p->search_until))
		return st;
	p->round++;
	p->dives_left = (size_t)FIRST_DIVES << p->round;
	p->stage = p->round < ROUNDS ? STAGE_DIVE : STAGE_DONE;
	return STATUS_OK;
}

static int64_t work_done(const struct pack *p)
{
	return p->sack.work + p->first.work + p->price.work + p->search.work + p->dive.bottom.work;
}

enum status pack_step(struct pack *p, int64_t work, struct error *err)
{
	static enum status (*const stages[])(struct pack *, struct error *) = {
		[STAGE_FULL] = do_full,
		[STAGE_TRY] = do_try,
		[STAGE_PRICE] = do_price,
		[STAGE_DIVE] = do_dive,
		[STAGE_SEARCH] = do_search,
	};
	int64_t stop = work_done(p) + work;
	enum status st = STATUS_OK;

	do {
		if (!pack_done(p))
			st = stages[p->stage](p, err);
	} while (st == STATUS_OK && !pack_done(p) && work_done(p) < stop);
	return st;
}

bool pack_done(const struct pack *p)
{
	return p->best.units <= p->bound || p->stage == STAGE_DONE;
}

size_t pack_units(const struct pack *p)
{
	return p->best.units;
}

size_t pack_bound(const struct pack *p)
{
	return p->bound;
}

enum status pack_best(struct pack *p, struct pack_plan *out, struct error *err)
{
	*out = (struct pack_plan){ .bound = p->bound, .reason = p->reason, .done = pack_done(p) };
	return pieces_write_plan(&p->given, p->mem, &p->best, out, err);
}
