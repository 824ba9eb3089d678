/* envelope.h - inside the computation: planes as gradients, how two meet, and the way down. */
#ifndef SLABWRIGHT_CALC_ENVELOPE_H
#define SLABWRIGHT_CALC_ENVELOPE_H

#include "slabwright/surface.h"

/* Level of a plane at (px, py): x*px + y*py + level, um. Uphill is (x, y). */
struct gradient {
	double x, y, level;
};
struct gradient gradient_of(const struct plan_plane *plane);
double gradient_level(const struct gradient *g, struct point p);

/* What water does where two planes of an envelope meet. */
enum meeting {
	MEET_NEVER, /* parallel: they meet nowhere */
	MEET_RIDGE, /* parts */
	MEET_VALLEY, /* comes together, or runs along */
	MEET_INTO_SECOND, /* crosses from the first to the second */
	MEET_INTO_FIRST,
};
enum meeting planes_meet(
        enum envelope envelope, const struct gradient *first, const struct gradient *second);

/* The line where two planes meet: points p with p.x * across.x + p.y * across.y = offset_um, the
 * first plane showing where it is more. `across` has length 1. False where they are parallel. */
struct meeting_line {
	struct point across;
	double offset_um;
};
bool planes_line(enum envelope envelope, const struct gradient *first,
        const struct gradient *second, struct meeting_line *out);

/* The steepest way down at a point: (x, y) points downhill, as long as the fall. */
struct descent {
	int planes; /* 0: nowhere down; 1: on plane a; 2: along the valley of a and b */
	size_t a, b;
	double x, y;
};
struct descent descent_at(
        enum envelope envelope, const struct gradient *planes, size_t count, struct point p);

#endif
