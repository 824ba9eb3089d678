/* border.h - the runs of a ring drawn in by its borders, and the corners between them. */
#ifndef GEOM_BORDER_H
#define GEOM_BORDER_H

#include "inset.h"

/* What is left of one edge of the plan: corners of the outer ring at its ends (chords that went
 * included), and the edges kept. */
struct run {
	int edge;
	size_t begin, end;
	size_t first, last; /* of the inset's kept */
	const struct plan_border *border; /* NULL for none */
	double depth_um;
};

/* A point of a ring: its corner `at`, or one on the edge that leaves it. */
struct spot {
	struct point p;
	size_t at;
	bool between;
};

/* How the runs that meet at a corner are parted. */
enum parting {
	PART_AT_CORNER, /* from outer to inner corner, or along an edge without border */
	PART_ACROSS_OUTER, /* the run that comes in goes on along the other's outer line */
	PART_ACROSS_INNER, /* and along its inner line */
};

/* The line that parts two runs, from the outer ring to the inner one. */
struct corner {
	struct spot outer, inner;
	enum parting parting;
	bool drawn; /* false between two runs without border */
};

struct run_ring {
	const struct inset_ring *ring;
	struct run *runs;
	struct corner *corners; /* the one before each run */
	size_t count;
};

const struct plan_border *border_of(const struct plan *plan, int edge);

/* Whether corner `at` of a ring lies on the way from corner `begin` to corner `end`. */
bool corner_between(const struct ring *r, size_t begin, size_t at, size_t end);

/* Finds runs and corners. STATUS_MEMORY. */
enum status runs_find(struct arena *mem, const struct plan *plan, const struct inset_ring *ring,
        struct run_ring *out, struct error *err);

/* The centre and outer radius of an arc that runs from corner `begin` of the ring to corner `end`,
 * and all that follows from them; false where nothing is left of the radius within the border. */
bool strip_bend(struct strip *s, const struct plan *plan, const struct ring *ring, size_t begin,
        size_t end, double depth_um);

/* The strip of run number `at`, which has a border. STATUS_MEMORY. */
enum status strip_make(struct arena *mem, const struct plan *plan, const struct run_ring *r,
        size_t at, struct strip *out, struct error *err);

#endif
