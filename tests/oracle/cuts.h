/* cuts.h - checks a plan of cuts from scratch, and finds the fewest sheets of small jobs. */
#ifndef TESTS_CUTS_H
#define TESTS_CUTS_H

#include "slabwright/guillotine.h"

/* What is wrong with the plan, or NULL: every cut goes from edge to edge of its part and leaves
 * what it says, every part is there once, every piece has its size and is there as often as asked
 * for, lies inside its sheet and keeps the kerf from all others on it. */
const char *cuts_fault(const struct guillotine_stock *stock, const struct guillotine_piece *pieces,
        size_t count, const struct guillotine_plan *plan);

enum { MOST_BRUTE = 8 };

/* The fewest sheets with cuts from edge to edge, by trying all ways; at most MOST_BRUTE pieces,
 * each with count 1. */
size_t cuts_by_brute_force(
        const struct guillotine_stock *stock, const struct guillotine_piece *pieces, size_t count);

#endif
