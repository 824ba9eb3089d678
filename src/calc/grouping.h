/* grouping.h - inside the computation: which groups of pieces one slab yields. */
#ifndef SLABWRIGHT_CALC_GROUPING_H
#define SLABWRIGHT_CALC_GROUPING_H

#include "batch.h"
#include "cover.h"

#include <stdint.h>

_Static_assert(COVER_ITEMS == SOURCE_PIECES, "a pattern holds what a slab may yield");

/* Classes of pieces from one slab, in rising order. */
struct grouping {
	struct cover_pattern classes;
	bool sure; /* it was placed; else it may or may not go on one slab */
	bool part; /* of a larger one that is sure */
};

/* All groups of two, three and four. An iterator; everything lives in mem. */
struct groupings {
	struct arena *mem;
	const struct batch *batch;
	struct grouping *items;
	size_t count, room;
	uint16_t *turns; /* of each two classes: poses_that_fit, or all where that is not sure */
	size_t pairs, triples; /* where those of three and four begin */
	size_t a, b, d; /* what is looked at next */
	bool unsure; /* some are not sure */
	bool cut_short; /* there were too many: not all are known */
};

void groupings_begin(struct arena *mem, const struct batch *batch, struct groupings *out);

/* Looks at some more, and takes what that cost from *looks; false when all are known. STATUS_MEMORY
 * in *st when memory is gone. */
bool groupings_step(struct groupings *g, int64_t *looks, enum status *st, struct error *err);

/* Places a sure group: places[i] is for classes.item[i]. */
bool grouping_place(const struct batch *batch, const struct cover_pattern *classes,
        struct cut_place *places, int *tries);

#endif
