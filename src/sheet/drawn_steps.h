/* drawn_steps.h - the drawings of a flight: its side elevation, and its plan. */
#ifndef SHEET_DRAWN_STEPS_H
#define SHEET_DRAWN_STEPS_H

#include "plan_page.h"

/* s runs down the flight from the top nosing, w to the left of who looks down; um. */
struct sketch {
	struct drawing *d;
	const struct flight *f;
	struct view up, down; /* elevation (s, level) and plan (s, w) */
	struct box up_room, down_room; /* on paper */
	double unit_back; /* s of the rearmost back */
	bool together; /* both stand in one room, to one scale */
};

/* Shares a room between both, the elevation over the plan, where that costs the elevation no scale;
 * else it is the elevation's. Draws nothing. */
void sketch_set_up(
        struct sketch *k, struct drawing *d, const struct flight *flight, const struct box *room);
/* The plan alone in a room. */
void sketch_plan_alone(struct sketch *k, const struct box *room);
void sketch_elevation(struct sketch *k);
void sketch_plan(struct sketch *k);

#endif
