/* drawn_water.h - the drawing of the water plan. */
#ifndef SHEET_DRAWN_WATER_H
#define SHEET_DRAWN_WATER_H

#include "view.h"

/* What drains to one place first. */
struct drain_area {
	const char *letter, *place;
	struct water_area area;
};

/* "edge 2", "edge 1 of opening 1, no. 7": with the number that stands on the drawing. */
const char *drain_edge_words(struct drawing *d, size_t edge);

/* Good as long as the drawing; drops under a square centimetre are left out. */
struct drain_area *drain_areas(struct drawing *d, size_t *count);

/* Stretches the box to what lies beside the paving: drains and soakaway. */
void drain_hold(const struct takeoff *t, struct box *shown);

/* Draws all of it; returns how far the contours lie apart, um, 0 without any. */
int64_t drain_draw(
        struct drawing *d, const struct view *v, const struct drain_area *areas, size_t count);

#endif
