/* plans.h - small plans built in memory, worked out, for tests. */
#ifndef TESTS_PLANS_H
#define TESTS_PLANS_H

#include "slabwright/takeoff.h"

/* Adds a closed ring to the plan: the outline first, then openings. */
void plan_add_ring(
        struct arena *mem, struct plan *plan, const struct plan_node *corners, size_t count);

/* A plan whose outline has n corners from x, y pairs in mm, edges open; and an opening added to it.
 */
struct plan plan_by_hand(struct arena *mem, size_t n, const double *mm);
void opening_by_hand(struct arena *mem, struct plan *plan, size_t n, const double *mm);

/* The take-off of a plan without limits, in mem; fails the test when the plan cannot be laid. */
struct takeoff take_off_laid(struct arena *mem, const struct plan *plan);

/* One plan and its take-off; everything lives in mem. */
struct worked {
	struct arena mem;
	struct plan plan;
	struct rules rules;
	struct takeoff t;
};

/* Starts with plan_init, no limits, and a closed outline of these corners; the test then changes
 * what it likes in w->plan. Each corner's edge is `open`. */
void worked_init(struct worked *w, const struct plan_node *corners, size_t count);
void worked_rectangle(struct worked *w, int64_t width_um, int64_t height_um);
void worked_add_opening(struct worked *w, const struct plan_node *corners, size_t count);
void worked_set_fall(struct worked *w, int64_t level_um, int64_t toward_udeg, int64_t um_per_m);

/* Fails the test when the plan cannot be worked out. */
void work_out_plan(struct worked *w);
void worked_done(struct worked *w);

#endif
