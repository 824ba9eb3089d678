/* drawn_planter.h - the drawings of a planter's wall: courses from above, legs from outside. */
#ifndef SHEET_DRAWN_PLANTER_H
#define SHEET_DRAWN_PLANTER_H

#include "plan_page.h"

/* At which two plans fit on a page beside each other; for the legs the same, or a larger one at
 * which all of them fit one page, or a smaller one at which each does. */
int64_t planter_scale(struct drawing *d, const struct planter_result *r);
int64_t planter_leg_scale(struct drawing *d, const struct planter_result *r);
/* The odd (0) or even (1) course from above. */
void planter_course_draw(struct shelf *shelf, const struct planter_result *r, int pattern);
void planter_leg_draw(struct shelf *shelf, const struct planter_result *r, size_t leg);

#endif
