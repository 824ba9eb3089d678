/* pattern.h - bonds as repeats on a lattice.
 *
 * Every bond here is a repeat: a few slabs, each repeated by whole multiples of two steps. In the
 * pattern frame slab (part, course, index) has its lower left corner at
 *
 *     x = part.x + shift(course) + index * step_x,    y = part.y + course * step_y
 *
 * and its size is that of its part. shift(course) is frac(course * offset) * step_x for stack and
 * stretcher, and course * slant for the others. A bond that runs along y is the same with x and y
 * changed over. */
#ifndef SLABWRIGHT_PATTERN_H
#define SLABWRIGHT_PATTERN_H

#include "slabwright/geom.h"

#define PATTERN_PARTS 32
_Static_assert(PATTERN_PARTS >= REPEAT_SLABS && PATTERN_PARTS >= MIX_SIZES, "room for every size");

struct pattern_part {
	int64_t x_um, y_um; /* lower left corner in the repeat */
	int64_t length_um,
	        width_um; /* along x and y of the frame, the slab itself, without its joints */
	bool standing; /* the slab's own length runs along y */
	int size; /* which of the pattern's sizes it is cut from */
};

/* A size of slab that the pattern takes. */
struct slab_kind {
	int64_t length_um, width_um; /* the slab itself, as it is ordered */
	double per_m2; /* how many a square metre of paving takes, joints included */
};

struct pattern {
	struct pattern_part parts[PATTERN_PARTS];
	int count; /* 0 for coursed random bond, which has no repeat: there parts[i] is size i of
	              the mix */
	struct slab_kind sizes[PATTERN_PARTS];
	int size_count;
	int64_t step_x_um, step_y_um, slant_um, joint_um;
	double offset;
	bool by_fraction; /* the shift is by offset, else by slant */
	bool along_y; /* x and y changed over: courses are columns */
};

struct slab_spot {
	int part;
	int64_t course, index;
};

/* The pattern of a laying. Refuses (STATUS_PLAN), with the reason, a bond that its slab does not
 * fit: herringbone wants a slab twice as long as wide, basket weave one two or three times
 * (coordinating sizes, to 5 mm). */
enum status pattern_make(const struct plan_laying *laying, struct pattern *out, struct error *err);

/* Lower left corner of a slab in the pattern frame, um, and its size along x and y there. */
struct point pattern_corner(const struct pattern *p, struct slab_spot spot);
struct point pattern_size(const struct pattern *p, int part);

/* How far a course is shifted, um. */
double pattern_shift(const struct pattern *p, int64_t course);

/* The slab whose coordinating cell holds the point; whether the point lies on the slab itself and
 * not in a joint. */
bool pattern_at(const struct pattern *p, struct point at, struct slab_spot *spot);

#endif
