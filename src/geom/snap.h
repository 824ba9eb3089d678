/* snap.h - inside geom: straight edges cut on whole um where they meet. */
#ifndef SLABWRIGHT_GEOM_SNAP_H
#define SLABWRIGHT_GEOM_SNAP_H

#include "slabwright/geom.h"

/* For products of differences of coordinates, exact. */
__extension__ typedef __int128 wide;

struct spot {
	int64_t x, y; /* um */
};

/* Where a spot stands in order of x, then y: below, at or above 0. */
int spot_order(struct spot p, struct spot q);

/* Twice the area of the triangle p, q, r: positive where r lies to the left of p to q. */
wide spot_turn(struct spot p, struct spot q, struct spot r);

/* An edge or a part of one; a stands before b in order. */
struct stretch {
	struct spot a, b;
	int way; /* 1 where the edge runs from a to b, -1 from b to a */
	int of; /* whose edge, as its owner numbers it */
	int edge; /* its number there */
};

struct stretches {
	struct stretch *items;
	size_t count, room;
};

/* Appends a ring's edges, corners rounded to whole um, edges without length left out; turned round
 * where `way` is -1. A ring without edge numbers gets 0. STATUS_MEMORY. */
enum status stretches_add(struct arena *mem, struct stretches *to, const struct ring *ring, int way,
        int of, struct error *err);

/* Cuts all stretches where they cross, touch or overlap, so that any two of them share no more than
 * ends, or everything. Ends move by less than a um. The items move; both live in mem. Refuses
 * (STATUS_PLAN) what is not done after many rounds, naming the place. */
enum status stretches_cut(struct arena *mem, struct stretches *s, struct error *err);

#endif
