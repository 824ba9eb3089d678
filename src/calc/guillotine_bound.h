/* guillotine_bound.h - inside the computation: how few sheets cannot do. */
#ifndef SLABWRIGHT_CALC_GUILLOTINE_BOUND_H
#define SLABWRIGHT_CALC_GUILLOTINE_BOUND_H

#include "guillotine_tree.h"

struct bound {
	int64_t stock[AXES];
	const struct kind *kinds; /* by falling area */
	uint32_t kind_count;
	size_t least;
	const char *reason;
	bool *chosen; /* by kind: in the set being gathered */
	int64_t *steps;
	double *weights[AXES]; /* by function, then by kind and side */
	uint32_t functions[AXES], next; /* how many; the next along x to try */
};

enum status bound_init(struct bound *b, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t kind_count, struct error *err);

/* A part of the work; false when all is done. Adds the units spent. */
bool bound_step(struct bound *b, uint64_t *work);

#endif
