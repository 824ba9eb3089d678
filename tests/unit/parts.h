/* parts.h - a few borders and zones, for tests of the store. */
#ifndef TESTS_PARTS_H
#define TESTS_PARTS_H

#include "slabwright/edit.h"

/* Three of each: the second border of two courses; a zone of mixed bond, one of coursed random that
 * is still being drawn, one without slabs. Their rings are shared constants. */
struct parts {
	struct plan_border borders[3];
	struct plan_zone zones[3];
};
struct parts some_parts(void);

/* Edits that make the first `count` of them the plan's; they point into p. */
struct edit borders_edit(struct parts *p, size_t count);
struct edit zones_edit(struct parts *p, size_t count);

/* The steps of one evening, from an empty plan: an outline of three corners, borders, zones, edges
 * that get borders 2 and 3, a corner that comes with border 1, fewer zones, a corner that goes. */
enum { EVENING_STEPS = 8 };
struct edit evening_step(struct parts *p, int step);

#endif
