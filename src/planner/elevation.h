/* elevation.h - a leg of a planter's wall and a flight of steps, seen from the side, in cells.
 *
 * Pure: they draw from results into an area. A row counts as two columns. */
#ifndef SLABWRIGHT_PLANNER_ELEVATION_H
#define SLABWRIGHT_PLANNER_ELEVATION_H

#include "cells.h"

#include "slabwright/planter.h"
#include "slabwright/steps.h"

/* Which part of a drawing larger than its area is seen. Drawing puts it in range. */
struct elevation_view {
	int across, down; /* columns and rows left out, at the left and at the top */
	int most_across, most_down; /* set by drawing; 0: all is seen */
};

/* A leg of a planter that is ready, seen from outside: leaf 0, or from the soil's side of an inner
 * leaf as if the outer one were away: leaf 1. Across to scale; each course takes as many rows, as
 * many as fit. `surface` may be NULL. */
void elevation_wall(const struct area *a, const struct planter_result *r, size_t number, size_t leg,
        int leaf, const struct plan_surface *surface, struct elevation_view *view);

/* A flight without a fault; to scale both ways. It goes down to the right. */
void elevation_flight(
        const struct area *a, const struct flight *f, size_t number, struct elevation_view *view);

/* For both: moves what is seen into range, for a drawing of cols x rows in the area. */
void elevation_settle(struct elevation_view *view, const struct area *a, int cols, int rows);

#endif
