/* piece.h - inside the computation: from a clipped slab position to its pieces. */
#ifndef SLABWRIGHT_CALC_PIECE_H
#define SLABWRIGHT_CALC_PIECE_H

#include "slabwright/lay.h"

#define LEAST_PIECE_UM2 1e6 /* 1 mm2: less is nothing, and a slab that lacks less is whole */

/* A growing list of pieces; items and their shapes live in `mem`. */
struct piece_list {
	struct arena *mem;
	struct piece *items;
	size_t count, capacity;
};

/* Sizes that decide what a piece is, um. */
struct piece_rule {
	double length, width, fill, sliver;
};
struct piece_rule piece_rule_of(const struct plan_laying *laying);

/* Takes the connected parts of `clipped` (the slab position's share of the region, in the pattern
 * frame; the position's lower left corner is `corner`) and appends a piece for each that is large
 * enough. */
enum status pieces_from(struct piece_list *list, const struct piece_rule *rule,
        const struct region *clipped, struct point corner, int64_t course, int64_t index,
        struct error *err);

#endif
