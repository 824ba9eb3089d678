/* inset.h - a region drawn in along its edges, and where each of them went. */
#ifndef GEOM_INSET_H
#define GEOM_INSET_H

#include "slabwright/geom.h"

#define EDGE_OF_STEP                                                                               \
	(-2) /* number of an edge made where neighbours are stepped; it never moves                \
	      */

/* In how many of the larger of two distances edges must meet, or they do not count as meeting. */
#define FARTHEST_MEETING 4.0

/* An edge after the move, and its unit direction. */
struct moved {
	struct point a, b, way;
	double by;
};

struct inset_ring {
	const struct ring *from;
	struct moved *edges; /* of all of from's edges */
	size_t *kept; /* those that are left, in order; an arc may lose chords, never all */
	size_t count; /* of them */
	size_t *ends; /* first point, in `to`, of the corner before each; a stepped corner has two
	               */
	struct ring to; /* whole um */
};

struct inset {
	struct inset_ring *rings;
	struct region to;
	bool too_wide; /* more is taken along edge `fault` than there is; `to` is no region then */
	size_t fault;
};

/* Draws in as region_inset does. STATUS_MEMORY. */
enum status inset_draw(struct arena *mem, const struct plan *plan, const struct region *from,
        const double *inward, struct inset *out, struct error *err);

/* The points of `to` between which the edge kept[k] runs. */
size_t inset_begin(const struct inset_ring *r, size_t k);
size_t inset_end(const struct inset_ring *r, size_t k);

/* How far along the line from `a` along the unit direction `way` it meets the line of `b` along
 * `other`; INFINITY where they run alike. */
double meeting_along(struct point a, struct point way, struct point b, struct point other);

/* Sine of the angle from one unit direction to another, anticlockwise positive. */
double turn_between(struct point way, struct point other);

/* Whether the lines a-b and c-d cross, other than close to a or b; and a-b and a ring's edges. */
bool lines_cross(struct point a, struct point b, struct point c, struct point d);
bool line_crosses_ring(struct point a, struct point b, const struct ring *r);

/* The corner of a ring after and before one. */
size_t ring_after(const struct ring *r, size_t i);
size_t ring_before(const struct ring *r, size_t i);

struct point whole_um(struct point p);

#endif
