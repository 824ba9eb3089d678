/* blank.h - inside the computation: a piece where it lies on the slab, as the saw meets it. Corners
 * are numbered anticlockwise; a side has the number of the corner it leaves. */
#ifndef SLABWRIGHT_CALC_BLANK_H
#define SLABWRIGHT_CALC_BLANK_H

#include "slabwright/cutplan.h"

enum { CURVE_SIDES = 3 }; /* a curve has as many, or more */

struct blank {
	const struct piece *piece;
	const struct cut_place *place;
	struct point *corner, *normal; /* normals: unit, outward */
	size_t n;
	bool *done; /* sides that a cut with corners has made */
	bool *outer; /* sides with all of the piece on one hand */
	bool *curved; /* of those the ones that follow a curve */
};

/* Lives in mem. STATUS_MEMORY. */
enum status blank_make(struct arena *mem, const struct piece *piece, const struct cut_place *place,
        struct blank *out, struct error *err);

size_t blank_next(const struct blank *b, size_t i);
size_t blank_previous(const struct blank *b, size_t i);

/* How far a point is beyond the line way * p == at, um. */
double beyond_line(struct point way, double at, struct point p);

/* How far out a side lies along its normal. */
double blank_reach(const struct blank *b, size_t side);

/* Whether nothing of the piece is beyond the line. */
bool blank_keeps_below(const struct blank *b, struct point way, double at);

/* Whether the outline turns to the right at a corner; whether so little that it is a curve's. */
bool blank_is_hollow(const struct blank *b, size_t corner);
bool blank_bends_little(const struct blank *b, size_t corner);

/* Whether a blade to the right of a ring's side from p to q crosses another of its sides. */
bool blade_bites(
        const struct point *ring, size_t n, struct point p, struct point q, double kerf_um);

#endif
