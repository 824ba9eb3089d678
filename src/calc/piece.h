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
	bool standing;
	int size;
};
/* For a slab position of a part, whose size in the frame at hand is given. */
struct piece_rule piece_rule_of(
        const struct plan_laying *laying, const struct pattern_part *part, struct point size);

/* Takes the connected parts of `clipped` (the slab position's share of the region, in the pattern
 * frame; the position's lower left corner is `corner`) and appends a piece for each that is large
 * enough. */
enum status pieces_from(struct piece_list *list, const struct piece_rule *rule,
        const struct region *clipped, struct point corner, struct slab_spot spot,
        struct error *err);

/* Adds up a laying's sizes and kinds: pieces, and the whole ones of its sizes. */
void count_kinds(struct laying *out);

/* Turns a ring's corners round so that it starts at its lowest leftmost one: like shapes then look
 * alike. */
void start_at_lowest(struct ring *r);

/* pieces_from, but a slab that is whole is only counted. */
enum status file_pieces(struct piece_list *list, const struct piece_rule *rule,
        const struct region *clipped, struct point corner, struct slab_spot spot,
        struct size_count *of_size, struct error *err);

#endif
