/* cover.h - inside the computation: the fewest patterns that cover all demands.
 *
 * A pattern is up to four items, each of some class (one class may come twice); any part of a
 * pattern is one too. Wanted is the least number of patterns, repeats allowed, that together hold
 * each class as often as it is demanded. An iterator: work is counted in looks at a pattern, so
 * that the same slices give the same answer everywhere. */
#ifndef SLABWRIGHT_CALC_COVER_H
#define SLABWRIGHT_CALC_COVER_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdint.h>

#define COVER_ITEMS 4

struct cover_pattern {
	int item[COVER_ITEMS]; /* classes, any order */
	int count;
};

struct cover;

/* Begins with patterns of single items, which need not be given; `known` is how many patterns some
 * plan at hand takes: only fewer are of interest. Demands are 1 or more. Arrays must outlive the
 * search; it lives in mem. */
enum status cover_begin(struct arena *mem, int classes, const int *demand,
        const struct cover_pattern *patterns, size_t pattern_count, size_t known,
        struct cover **out, struct error *err);

/* A cover that has just begun takes over the room for lists from one that is over, so that one
 * after the other they need it once. What the other has found stays good; it cannot go on. */
void cover_take_room(struct cover *c, struct cover *over);

/* Goes on for so many looks; false when there is nothing left to do. What a step takes beyond them
 * is taken off the next, so that slices of any size come to the same place. A search whose lists
 * would grow too long ends with what it has. */
bool cover_step(struct cover *c, int64_t looks);

/* No fewer patterns will do; rises as the search goes on, to the best found when it has ended. */
size_t cover_bound(const struct cover *c);

/* The fewest found: `known` or less. chosen[i] is a pattern as it is used, without what would be
 * too many of a class; their number is *count, 0 where nothing better than `known` was found. */
size_t cover_best(const struct cover *c, const struct cover_pattern **chosen, size_t *count);

#endif
