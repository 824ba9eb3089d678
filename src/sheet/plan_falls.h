/* plan_falls.h - which way the surface falls, on the plan. */
#ifndef SHEET_PLAN_FALLS_H
#define SHEET_PLAN_FALLS_H

#include "view.h"

/* The lines where planes meet, and on each plane an arrow with its fall, where there is room. */
void draw_falls(struct drawing *d, const struct view *v);

#endif
