/* guillotine_search.h - inside the computation: better plans by ruining and mending. */
#ifndef SLABWRIGHT_CALC_GUILLOTINE_SEARCH_H
#define SLABWRIGHT_CALC_GUILLOTINE_SEARCH_H

#include "guillotine_tree.h"

enum { MEMORY = 16 }; /* costs remembered */

struct search {
	struct packing now, best;
	uint32_t *pool; /* kinds of the pieces that lie on no sheet */
	uint32_t *kept_pool; /* as it was before the last ruin */
	struct queued *queue; /* the pool in the order of placing */
	bool *failed; /* by kind: found no room since the last ruin */
	uint32_t pool_count;
	uint32_t kind_count, pieces;
	double cost, memory[MEMORY];
	uint64_t round, state;
};

enum status sheet_search_init(struct search *s, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t kind_count, uint64_t seed, struct error *err);

/* The first plans; s->best is the better of them. */
void search_construct(struct search *s);

/* Starts the hunt for a plan with one sheet fewer than the best. */
void search_aim(struct search *s);

/* One round of the hunt. True when it has succeeded: the plan found is s->best. */
bool search_round(struct search *s);

#endif
