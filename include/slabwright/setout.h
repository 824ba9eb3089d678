/* setout.h - setting out: where to drive the pegs, measured from a baseline with tapes.
 *
 * A point's chainage is its distance along the baseline from the first end, its offset the distance
 * square from it, positive to the left of the way along. Distances are level ones. */
#ifndef SLABWRIGHT_SETOUT_H
#define SLABWRIGHT_SETOUT_H

#include "slabwright/geom.h"

/* Two tapes that cross at a sharper angle than this, or flatter than its supplement, place a point
 * badly (common practice, no source). */
#define TIE_LEAST_UDEG (30 * UDEG_PER_DEG)
/* Corners within this of 90 degrees are square ones. */
#define SQUARE_UDEG (UDEG_PER_DEG / 20)
/* 3-4-5 lengths come in whole multiples of this. */
#define TRIPLE_STEP_UM (100 * UM_PER_MM)
/* Offsets of an arc stand at most this far apart on its chord, and are at least ARC_PARTS - 1. */
#define ARC_OFFSET_UM (500 * UM_PER_MM)
#define ARC_PARTS 4

struct setout_point {
	const char *name; /* "corner 3", "opening 1 corner 2", "kerb end at corner 2", a peg's own
	                     name, "planter 1 corner 2", "steps 1 left" */
	double x_um, y_um;
	double chainage_um, offset_um;
	double tie_first_um, tie_second_um; /* from the baseline's first and second end */
	bool weak_tie; /* the tapes cross too sharply there: use chainage and offset */
	bool is_peg; /* the plan's own peg */
};

struct setout_diagonal {
	size_t from, to; /* corners of the outline, from 0 */
	double length_um;
	bool check; /* not needed to fix the shape, but proves it */
};

/* Marks on the two edges that leave a square corner, and the tape between them. */
struct setout_triple {
	size_t ring, at; /* the corner */
	int64_t leg_3_um, leg_4_um, long_5_um;
	bool leg_4_leads; /* the longer leg lies on the edge that leaves the corner; else on the
	                     one that comes in */
};

struct setout_offset {
	double along_um, offset_um; /* on the chord from the edge's first corner; square from it,
	                               positive as the arc's rise is */
};

struct setout_arc {
	size_t edge; /* number over the whole plan */
	double chord_um, rise_um, radius_um;
	struct setout_offset *offsets;
	size_t count;
};

struct setout {
	struct point first, second; /* ends of the baseline */
	double length_um;
	bool chosen; /* it was chosen here: edge `edge` of the outline */
	size_t edge;
	bool house_wall; /* then: whether that is one */
	struct setout_point *points;
	size_t point_count;
	size_t *running; /* numbers of the points by growing chainage: a tape left lying */
	struct setout_diagonal *diagonals;
	size_t diagonal_count;
	struct setout_triple *triples;
	size_t triple_count;
	struct setout_arc *arcs;
	size_t arc_count;
};

/* Works out the plan's setting out. Its baseline, or where it has none the longest straight house
 * wall of the outline, else its longest straight edge, else its longest chord. Diagonals are those
 * of a triangulation of the outline's corners, which lie inside it (chords for arcs), and beside
 * each its crossing one, where that lies inside too, as a check. Refuses (STATUS_PLAN) a baseline
 * shorter than 1 mm. The outline must have passed outline_check; results live in mem. */
enum status setout_work_out(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err);

/* How far the corners of a rectangle of sides a and b are from square when its diagonals measure d1
 * and d2: (d1 - d2) d / (2 a b), d its true diagonal; radians. Positive: the corner between the
 * sides that the longer diagonal d1 leaves is less than square. */
double out_of_square_rad(double a, double b, double d1, double d2);

/* By how much the corner between two taped legs is over 90 degrees when the tape across their ends
 * reads so much: asin((across^2 - a^2 - b^2) / (2 a b)), radians; negative: under. */
double corner_off_square_rad(double a, double b, double across);

/* A four-sided outline as taped: sides in order round it, and both diagonals. Equal diagonals alone
 * prove nothing: those of a symmetric trapezium are equal too. */
enum squareness { PROVEN_SQUARE, SIDES_DIFFER, DIAGONALS_DIFFER };
enum squareness squareness_of(const double sides[4], const double diagonals[2], double tolerance);

#endif
