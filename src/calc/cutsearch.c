/* cutsearch.c - the search for the least slabs, stock by stock.
 *
 * For each stock whose plan is not proven yet: the groups of pieces that one slab yields are found
 * (grouping.h), then the fewest of them that hold all pieces (cover.h). Where all groups are known
 * for sure, that search gives the bound as well; else a second one, which takes the unsure groups
 * for possible too, gives it. Under the rough rule the boxes are packed at the end as well. */
#include "slabwright/cutplan.h"

#include "bound.h"
#include "grouping.h"
#include "rough.h"
#include "slabwright/guillotine.h"

#include <string.h>

enum {
	MOST_CLASSES = 150,
	MOST_PIECES = 1000,
	MOST_IN_ALL = 300000, /* groupings of all stocks: some 80 MB */
};
static const int64_t MOST_LOOKS = 12000000; /* for a stock */

enum stage {
	STAGE_OPEN,
	STAGE_GROUPS,
	STAGE_PLAN,
	STAGE_BOUND,
	STAGE_ROUGH,
	STAGE_CLOSE,
	STAGE_DONE
};

struct cut_search {
	struct arena *mem;
	const struct piece *pieces;
	size_t piece_count;
	const struct cut_stock *stocks;
	size_t stock_count;
	struct cutplan best;
	bool own; /* its sources are a copy */
	size_t groupings; /* found for the stocks before */
	/* the stock at hand */
	size_t stock;
	enum stage stage;
	int64_t looks; /* left for it */
	struct batch batch;
	struct groupings groups;
	int *demand;
	struct cover *cover;
	struct guillotine *rough;
};

static const char by_search[] = "search: no way to group the pieces needs fewer",
                  by_parts[] = "search: even groups taken in parts need that many slabs";

enum status cut_search_begin(struct arena *mem, const struct piece *pieces, size_t piece_count,
        const struct cut_stock *stocks, size_t stock_count, const struct cutplan *plan,
        struct cut_search **out, struct error *err)
{
	struct cut_search *s = arena_alloc(mem, 1, sizeof *s);

	if (!(*out = s))
		return error_memory(err);
	*s = (struct cut_search){ .mem = mem,
		.pieces = pieces,
		.piece_count = piece_count,
		.stocks = stocks,
		.stock_count = stock_count,
		.best = *plan };
	s->best.of_stock = arena_alloc(mem, stock_count, sizeof *s->best.of_stock);
	if (!s->best.of_stock)
		return error_memory(err);
	if (stock_count)
		memcpy(s->best.of_stock, plan->of_stock, stock_count * sizeof *plan->of_stock);
	return STATUS_OK;
}

const struct cutplan *cut_search_best(const struct cut_search *s)
{
	return &s->best;
}

/* Classes of the stock's pieces, and how many there are of each. False where it is left alone. */
static bool open_stock(struct cut_search *s)
{
	const struct cut_total *t = &s->best.of_stock[s->stock];
	size_t *list;

	s->batch = (struct batch){
		.work = s->mem, .pieces = s->pieces, .stock = stock_of(&s->stocks[s->stock])
	};
	s->looks = MOST_LOOKS;
	if (t->slabs <= t->bound || s->groupings > MOST_IN_ALL ||
	        cut_pieces(s->mem, s->pieces, s->piece_count, s->stock, &list, &s->batch.count,
	                NULL) != STATUS_OK ||
	        s->batch.count > MOST_PIECES)
		return false;
	s->batch.piece = list;
	if (batch_find_classes(&s->batch, NULL) != STATUS_OK ||
	        s->batch.class_count > MOST_CLASSES ||
	        batch_test_fits(&s->batch, NULL) != STATUS_OK)
		return false;
	s->demand = arena_alloc(s->mem, s->batch.class_count, sizeof *s->demand);
	if (!s->demand)
		return false;
	for (size_t i = 0; i < s->batch.class_count; i++)
		s->demand[i] = (int)s->batch.classes[i].count;
	groupings_begin(s->mem, &s->batch, &s->groups);
	return true;
}

/* The groups as patterns: sure ones that are no part of a larger one, and for the bound all that
 * may do. */
static bool begin_cover(struct cut_search *s, bool unsure_too)
{
	struct cover_pattern *patterns = arena_alloc(s->mem, s->groups.count, sizeof *patterns);
	struct cover *before = s->cover;
	size_t count = 0;

	if (!patterns)
		return false;
	for (size_t i = 0; i < s->groups.count; i++) {
		const struct grouping *g = &s->groups.items[i];

		if (g->sure ? !g->part : unsure_too)
			patterns[count++] = g->classes;
	}
	if (cover_begin(s->mem, (int)s->batch.class_count, s->demand, patterns, count,
	            s->best.of_stock[s->stock].slabs, &s->cover, NULL) != STATUS_OK)
		return false;
	if (before)
		cover_take_room(s->cover, before);
	return true;
}

/* Takes a piece of each class for each pattern, in laying order. */
static bool write_sources(struct cut_search *s, const struct cover_pattern *chosen, size_t count,
        struct cut_source *to)
{
	size_t *next = arena_alloc(s->mem, s->batch.class_count, sizeof *next);

	if (!next)
		return false;
	for (size_t i = 0; i < count; i++) {
		const struct cover_pattern *p = &chosen[i];
		int tries = 1000000;

		to[i] = (struct cut_source){ .count = p->count,
			.stock = s->stock,
			.place = arena_alloc(s->mem, (size_t)p->count, sizeof *to[i].place) };
		if (!to[i].place || !grouping_place(&s->batch, p, to[i].place, &tries))
			return false;
		for (int k = 0; k < p->count; k++) {
			size_t class = (size_t)p->item[k], *at = &next[class];

			while (s->batch.class_of[*at] != class)
				++*at;
			to[i].place[k].piece = s->batch.piece[(*at)++];
		}
	}
	return true;
}

/* Copies the sources once, so that they may be changed. */
static bool own_sources(struct cut_search *s)
{
	struct cut_source *copy;

	if (s->own)
		return true;
	if (!(copy = arena_alloc(s->mem, s->best.slabs, sizeof *copy)))
		return false;
	memcpy(copy, s->best.sources, s->best.slabs * sizeof *copy);
	s->best.sources = copy;
	s->own = true;
	return true;
}

/* Puts other slabs, no more of them, in the place of the stock's. */
static bool replace_sources(struct cut_search *s, const struct cut_source *sources, size_t count)
{
	struct cut_total *t = &s->best.of_stock[s->stock];
	size_t before = 0, after;
	struct cut_source *place;

	if (!own_sources(s))
		return false;
	for (size_t i = 0; i < s->stock; i++)
		before += s->best.of_stock[i].slabs;
	after = s->best.slabs - before - t->slabs;
	place = s->best.sources + before;
	memmove(place + count, place + t->slabs, after * sizeof *place);
	memcpy(place, sources, count * sizeof *place);
	s->best.slabs = before + count + after;
	t->slabs = count;
	return true;
}

/* Takes over what was found, if it is better. */
static bool take_plan(struct cut_search *s)
{
	const struct cover_pattern *chosen;
	struct cut_source *sources;
	size_t count;

	cover_best(s->cover, &chosen, &count);
	if (!count)
		return true;
	sources = arena_alloc(s->mem, count, sizeof *sources);
	if (!sources || !write_sources(s, chosen, count, sources))
		return false;
	sort_sources(sources, count);
	return replace_sources(s, sources, count);
}

static void take_bound(struct cut_search *s, bool ended)
{
	struct cut_total *t = &s->best.of_stock[s->stock];
	size_t bound = cover_bound(s->cover), cut = 0;

	if (bound > t->bound) {
		t->bound = bound;
		t->reason = ended ? by_search : by_parts;
	}
	s->best.bound = 0;
	for (size_t i = 0; i < s->stock_count; i++) {
		s->best.bound += s->best.of_stock[i].bound;
		cut += s->best.of_stock[i].slabs > 0;
	}
	if (cut == 1 && t->slabs)
		s->best.reason = t->reason;
}

/* Whether no slab can do better than the groups: under the rough rule one might yield five pieces,
 * but none where none yields four. */
static bool proves(const struct cut_search *s)
{
	if (s->batch.stock.edges == RULE_ROUGH && s->groups.count > s->groups.triples)
		return false;
	return !s->groups.cut_short;
}

/* Under the rough rule what remains is to pack the boxes. */
static enum stage after_search(struct cut_search *s)
{
	const struct cut_total *t = &s->best.of_stock[s->stock];

	if (s->batch.stock.edges != RULE_ROUGH || t->slabs <= t->bound ||
	        rough_begin(s->mem, &s->batch, &s->rough, NULL) != STATUS_OK)
		return STAGE_CLOSE;
	s->looks = MOST_LOOKS;
	return STAGE_ROUGH;
}

static enum stage step_rough(struct cut_search *s, int64_t *looks)
{
	int64_t slice = *looks < s->looks ? *looks : s->looks;
	bool more = guillotine_step(s->rough, (uint64_t)slice);
	struct cut_source *sources;
	size_t count;

	*looks -= slice;
	s->looks -= slice;
	if (more && s->looks > 0)
		return STAGE_ROUGH;
	if (guillotine_sheets(s->rough) < s->best.of_stock[s->stock].slabs &&
	        rough_sources(s->rough, &s->batch, s->stock, s->mem, &sources, &count, NULL) ==
	                STATUS_OK)
		replace_sources(s, sources, count);
	return STAGE_CLOSE;
}

/* The search for the plan has ended, or has had its share. */
static enum stage after_plan(struct cut_search *s, bool ended)
{
	const struct cut_total *t = &s->best.of_stock[s->stock];

	if (!take_plan(s) || !proves(s))
		return after_search(s);
	if (!s->groups.unsure) {
		take_bound(s, ended);
		return after_search(s);
	}
	s->looks = MOST_LOOKS / 2;
	return t->slabs > t->bound && begin_cover(s, true) ? STAGE_BOUND : after_search(s);
}

/* Steps the cover; what it has cost is taken from both. */
static bool step_cover(struct cut_search *s, int64_t *looks)
{
	int64_t slice = *looks < s->looks ? *looks : s->looks;
	bool more = cover_step(s->cover, slice);

	*looks -= slice;
	s->looks -= slice;
	return more;
}

static enum stage step_groups(struct cut_search *s, int64_t *looks)
{
	int64_t slice = *looks < s->looks ? *looks : s->looks, left = slice;
	enum status st;
	bool more = groupings_step(&s->groups, &left, &st, NULL);

	*looks -= slice - left;
	s->looks -= slice - left;
	if (st != STATUS_OK)
		return STAGE_CLOSE;
	if (more && s->looks > 0)
		return STAGE_GROUPS;
	s->groups.cut_short = s->groups.cut_short || more;
	s->groupings += s->groups.count;
	s->looks = MOST_LOOKS;
	return begin_cover(s, false) ? STAGE_PLAN : STAGE_CLOSE;
}

static enum stage step(struct cut_search *s, int64_t *looks)
{
	bool more;

	switch (s->stage) {
	case STAGE_OPEN:
		--*looks;
		if (s->stock == s->stock_count)
			return STAGE_DONE;
		return open_stock(s) ? STAGE_GROUPS : STAGE_CLOSE;
	case STAGE_GROUPS:
		return step_groups(s, looks);
	case STAGE_PLAN:
		more = step_cover(s, looks);
		return more && s->looks > 0 ? STAGE_PLAN : after_plan(s, !more);
	case STAGE_BOUND:
		more = step_cover(s, looks);
		if (more && s->looks > 0)
			return STAGE_BOUND;
		take_bound(s, !more);
		return after_search(s);
	case STAGE_ROUGH:
		return step_rough(s, looks);
	case STAGE_CLOSE:
		s->stock++;
		return STAGE_OPEN;
	default:
		return STAGE_DONE;
	}
}

bool cut_search_step(struct cut_search *s, int64_t looks)
{
	while (looks > 0 && s->stage != STAGE_DONE)
		s->stage = step(s, &looks);
	return s->stage != STAGE_DONE;
}
