/* lay.h - laying every slab.
 *
 * The region is turned into the pattern frame, where every slab is an axis-aligned rectangle;
 * courses are counted by arithmetic, and only slabs on the border are clipped. What counts as
 * whole, cut, sliver and made up in the joint is defined in slabwright(1), "LAYING". */
#ifndef SLABWRIGHT_LAY_H
#define SLABWRIGHT_LAY_H

#include "slabwright/pattern.h"

enum piece_kind { PIECE_WHOLE, PIECE_CUT, PIECE_SLIVER, PIECE_MADE_UP };

/* Sides of a slab position on which a piece has a stretch of the slab's own edge: they face joints.
 */
enum side { SIDE_LEFT = 1, SIDE_RIGHT = 2, SIDE_BOTTOM = 4, SIDE_TOP = 8 };

/* A piece smaller than its slab. Its rings are in the frame of its slab position: um, (0, 0) at the
 * position's lower left corner, length along x; rings[0] is the outer one, anticlockwise, the
 * others are holes. */
struct piece {
	struct slab_spot spot;
	bool standing; /* its position is: the slab's length runs along y */
	int size; /* of the pattern's sizes */
	size_t section, stock; /* of the paving; set by who lays several sections */
	enum piece_kind kind;
	unsigned sides;
	struct region shape;
	struct box box;
	double area_um2;
};

struct size_count {
	int64_t whole, cut, sliver, made_up;
	double whole_area_um2; /* of the whole ones, as far as the paving reaches */
};

/* A course of coursed random bond: slab i lies between x[i] and x[i] + its length. */
struct random_course {
	int64_t number, y_um,
	        width_um; /* lower edge, and height of its slabs, joint not included */
	size_t count;
	int64_t *x_um;
	int *size;
};

struct laying {
	int64_t whole, cut, sliver, made_up; /* slivers are among the cut */
	double pieces_area_m2; /* of all of them, whole ones too */
	struct size_count of_size[PATTERN_PARTS]; /* the same, size by size */
	struct pattern pattern;
	struct random_course *courses; /* of coursed random bond, from below */
	size_t course_count;
	struct piece *pieces; /* not the whole ones; by course, index, part */
	size_t piece_count;
	struct slab_size slab;
};

/* Lays the region. Refuses (STATUS_PLAN) a bond that is not laid yet, and a region with more than
 * 100 million slab positions or 2 million pieces. Everything in *out lives in mem. */
enum status lay_region(struct arena *mem, const struct region *region,
        const struct plan_laying *laying, struct laying *out, struct error *err);

/* The same with a pattern made by the caller, which repeats; of the laying only fill and sliver
 * width count. */
enum status lay_pattern(struct arena *mem, const struct region *region,
        const struct pattern *pattern, const struct plan_laying *laying, struct laying *out,
        struct error *err);

/* Where a slab lies in the pattern frame: lower left corner, and size along x and y. Coursed random
 * bond has slabs only where the paving is. */
struct point laid_corner(const struct laying *laid, struct slab_spot spot);
struct point laid_size(const struct laying *laid, struct slab_spot spot);

/* The slab whose coordinating cell holds the point; whether the point lies on the slab itself and
 * not in a joint. */
bool laid_at(const struct laying *laid, struct point at, struct slab_spot *spot);

/* A stretch of a course: whole slabs side by side, or one that is not whole. */
struct laid_run {
	int64_t course, first, last; /* slab indices */
	const struct piece *piece; /* NULL for whole ones */
};

/* Goes over what lies in the courses, course by course from below and in each from left to right;
 * nothing is said of positions outside. Of bonds whose courses are not rows (herringbone, basket
 * weave, mixed sizes) only pieces are told. Visits every slab: for paper, not for counting. */
typedef void laid_run_fn(void *context, const struct laid_run *run);
void laid_runs(const struct laying *laid, const struct region *frame_region, laid_run_fn *visit,
        void *context);

/* ", standing" for a piece of a standing position, "" for one of a lying one. */
const char *piece_part_words(const struct piece *piece);

/* The first piece of a slab position, or NULL where the slab is whole or outside; *count pieces
 * follow each other. */
const struct piece *pieces_at(const struct laying *laid, struct slab_spot spot, size_t *count);

/* Proof and drawing: clips one slab position against the region in the pattern frame, with no
 * arithmetic shortcut. Pieces as lay_region finds them; a whole one too. */
enum status lay_one(struct arena *mem, const struct region *frame_region,
        const struct plan_laying *laying, struct slab_spot spot, struct piece **pieces,
        size_t *count, struct error *err);

#endif
