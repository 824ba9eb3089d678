/* fit.h - inside the computation: ways a piece can be cut from a slab, and whether two get along.
 */
#ifndef SLABWRIGHT_CALC_FIT_H
#define SLABWRIGHT_CALC_FIT_H

#include "slabwright/cutplan.h"

/* A piece turned and set into the source slab in its native place, with how far it may slide from
 * there. */
struct pose {
	int turn;
	struct point at; /* see struct cut_place */
	size_t n;
	struct point *corner;
	struct point *normal; /* unit, outward, of the side that leaves each corner */
	double *reach; /* how far out that side lies along its normal */
	struct box box;
	bool slides_x, slides_y;
	bool bent_x, bent_y; /* some line in that direction meets it in several stretches */
	double x_lo, x_hi, y_lo, y_hi; /* moves that keep it on the slab */
};

#define MOST_POSES 4

/* One shape of piece. */
struct shape {
	struct pose pose[MOST_POSES];
	int poses;
	bool convex;
	double area;
	int corners; /* corners of the source slab it must take up */
};

/* What the slab allows. */
struct stock {
	double length, width, kerf;
	bool square, directional;
	enum edge_rule edges;
};

struct stock stock_of(const struct cut_stock *from);

/* Whether pieces of so much area together, um2, might come from one slab; a square millimetre is
 * left to rounding: without a kerf they may fill it up. */
bool stock_holds(const struct stock *stock, double area);

/* Slab corners where both of the slab's edges that meet there are edges of the piece: wherever it
 * is cut from, it takes up as many. 0 under the rough rule. */
int piece_corners(const struct piece *piece, const struct stock *stock);

/* The poses of a piece live in mem. */
enum status shape_make(struct arena *mem, const struct stock *stock, const struct piece *piece,
        struct shape *out, struct error *err);

/* Where a piece is cut from a slab of its own. */
struct cut_place shape_home(const struct shape *shape);

/* Whether two poses, moved by da and db, keep the kerf between them. */
bool poses_apart(const struct stock *stock, const struct pose *a, struct point da,
        const struct pose *b, struct point db, bool convex);

/* For each pose i of a and j of b, bit MOST_POSES * i + j: whether they go on one slab so turned.
 */
unsigned poses_that_fit(const struct stock *stock, const struct shape *a, const struct shape *b);

/* Whether two shapes that are not found to fit, be it in some turn, are sure not to. */
bool misfit_is_sure(const struct stock *stock, const struct shape *a, const struct shape *b);

/* Whether both can be cut from one slab, kerf kept; places tell how (may be NULL). */
bool shapes_fit(const struct stock *stock, const struct shape *a, const struct shape *b,
        struct cut_place *pa, struct cut_place *pb);

#endif
