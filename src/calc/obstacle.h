/* obstacle.h - inside the computation: where the border runs through a course. */
#ifndef SLABWRIGHT_CALC_OBSTACLE_H
#define SLABWRIGHT_CALC_OBSTACLE_H

#include "slabwright/geom.h"

/* A stretch of x, um, in which edges of the region run through the band. */
struct obstacle {
	double x0, x1;
};

/* The stretches of a band, merged where they meet, from left to right. */
enum status find_obstacles(struct arena *mem, const struct region *band, struct obstacle **out,
        size_t *count, struct error *err);

#endif
