/* bound.h - inside the computation: how few slabs will do for sure. */
#ifndef SLABWRIGHT_CALC_BOUND_H
#define SLABWRIGHT_CALC_BOUND_H

#include "batch.h"

/* Keeps the greater bound, and its reason. */
void raise_bound(struct cutplan *plan, size_t bound, const char *reason);

/* Raises the bound by pairs, for a job that is one batch and takes `matched` slabs as matched. */
enum status prove_by_pairs(
        struct batch *p, size_t matched, struct cutplan *plan, struct error *err);

#endif
