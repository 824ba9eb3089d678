/* planter_bond.h - inside the computation: the courses of one leg, and what counts against them. */
#ifndef SLABWRIGHT_CALC_PLANTER_BOND_H
#define SLABWRIGHT_CALC_PLANTER_BOND_H

#include "planter_parts.h"

enum {
	WANTS = 4, /* faults, half bond missed, cut units, laps */
	UNCOVERED = 1000, /* faults that a corner counts as whose unit does not cover it */
};

/* What counts against a layout, the first first. */
struct cost {
	int64_t part[WANTS];
};

struct cost cost_dearest(void);
bool cost_is_less(const struct cost *a, const struct cost *b);
struct cost cost_sum(const struct cost *a, const struct cost *b);

/* Lengths of the block and its joint. */
struct bonding {
	struct planter_work *w;
	int64_t block, joint, pitch, half, least;
};

/* Both courses of a leg in one leaf. */
struct leg_bond {
	struct planter_way way[2];
	struct cost cost;
	bool found;
};

/* The best courses, with the leg's corners turned as they are. */
struct leg_bond leg_bond_find(const struct bonding *b, size_t leg, int leaf);

/* By how much a mitred end is longer on one side. */
int64_t bound_skew_um(const struct planter_bound *b);

#endif
