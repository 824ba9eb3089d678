/* beside.h - water, site, planters, steps and costs, for tests of the store. */
#ifndef TESTS_BESIDE_H
#define TESTS_BESIDE_H

#include "chance.h"
#include "slabwright/edit.h"

/* Some of everything, in mem: any value may stand, few have their defaults. Channels have two
 * points that lie apart, and there are no fewer of them than `channels`. */
struct plan_water random_water(struct chance *d, struct arena *mem, size_t channels);
struct plan_site random_site(struct chance *d, struct arena *mem);
void random_planters(struct chance *d, struct arena *mem, struct edit *e);
struct plan_costs random_costs(struct chance *d, struct arena *mem);
void random_steps(struct chance *d, struct arena *mem, struct edit *e);
struct plan_edging random_edging(struct chance *d);

/* A plan's water, site, planters, steps and costs, one of each kind of item at least, all values
 * apart from the defaults; pointers to shared constants. */
struct plan plan_with_all_beside(void);

/* An edit that puts `part` (0 water, 1 site, 2 planters, 3 steps, 4 costs) of the plan into
 * another. */
struct edit beside_edit(const struct plan *plan, int part);

/* A triangle whose edges name channels 1, 2 and none. */
enum { BESIDE_CORNERS = 3 };
extern struct plan_node beside_corners[BESIDE_CORNERS];

/* The steps of one evening from an empty plan: water, site, planters, steps, an outline that names
 * channels, an edge that gets another one, one that goes and comes back, then all parts empty but
 * water. */
enum { BESIDE_STEPS = 11 };
struct edit beside_step(const struct plan *all, int step);

/* Costs with few values at their defaults; and what the costs of two plans differ in. */
struct plan_costs all_costs(void);
const char *costs_differ(const struct plan_costs *a, const struct plan_costs *b);

/* What they differ in; NULL where they are the same. Soakaway and baseline count where they are. */
const char *beside_differs(const struct plan *a, const struct plan *b);

#endif
