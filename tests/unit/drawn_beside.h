/* drawn_beside.h - what stands beside the paving, by chance, so that it can be worked out. */
#ifndef TESTS_UNIT_DRAWN_BESIDE_H
#define TESTS_UNIT_DRAWN_BESIDE_H

#include "chance.h"
#include "slabwright/plan.h"
#include "slabwright/rules.h"

/* Limits of the test's own, that some of what is added breaks. */
extern const struct rules drawn_limits;

/* Adds to a plan with an outline: rain, channels along an edge and across the paving, gullies, a
 * soakaway; levels of the ground, pegs, a baseline, points measured; planters, closed and open,
 * square and not; flights; edging that stands in a bed. Number by number more or less of each;
 * lives in mem. */
void add_beside(struct arena *mem, struct chance *c, struct plan *plan, int number);

#endif
