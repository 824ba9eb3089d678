/* by_hand.h - plans written down corner by corner. */
#ifndef TESTS_UNIT_BY_HAND_H
#define TESTS_UNIT_BY_HAND_H

#include "slabwright/plan.h"

/* A closed ring of n corners from x, y pairs in mm; edges open. */
struct plan_ring ring_by_hand(struct arena *mem, size_t n, const double *mm);

/* A plan with that outline. */
struct plan plan_by_hand(struct arena *mem, size_t n, const double *mm);

/* Adds an opening to it. */
void opening_by_hand(struct arena *mem, struct plan *plan, size_t n, const double *mm);

#endif
