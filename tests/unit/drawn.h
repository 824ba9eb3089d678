/* drawn.h - jobs of every kind, to be drawn. */
#ifndef TESTS_UNIT_DRAWN_H
#define TESTS_UNIT_DRAWN_H

#include "../oracle/random_plan.h"
#include "slabwright/drawing.h"

/* Job number `number`: bonds, outlines, openings, borders, zones, falls and fixed points by turns;
 * some are tiny, some some 60 m across. Worked out; lives in mem. */
struct takeoff drawn_job(struct arena *mem, struct chance *c, int number);

/* A4, some date, short names; all sheets. */
struct drawing_options drawn_options(void);

#endif
