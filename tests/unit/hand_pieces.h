/* hand_pieces.h - pieces to cut, made by hand, and the search for the least slabs that takes them.
 */
#ifndef TESTS_HAND_PIECES_H
#define TESTS_HAND_PIECES_H

#include "slabwright/cutplan.h"

/* A stock of slabs from sizes in mm; finished edges, may be turned. */
struct cut_stock hand_stock(double length, double width, double kerf);

/* A piece of a lying slab from its n corners, x and y in mm anticlockwise; its sides are those on
 * the slab's. It lives in mem. */
struct piece hand_piece(
        struct arena *mem, const struct cut_stock *stock, size_t n, const double *mm);

/* Of any position, from its ring, um, which must live as long. */
struct piece hand_piece_of(const struct cut_stock *stock, bool standing, struct ring *ring);

/* A rectangle from its lower left corner and its size, mm. */
struct piece hand_rectangle(
        struct arena *mem, const struct cut_stock *stock, double x, double y, double l, double w);

/* A plan that cuts each piece from a slab of its own, stock by stock, and claims nothing. */
struct cutplan hand_plan(
        struct arena *mem, const struct piece *pieces, size_t count, size_t stock_count);

/* Pieces of many shapes, several of each: a search that does not end before its looks do. `count`
 * of `shapes` shapes. */
void hand_hard_pieces(struct arena *mem, const struct cut_stock *stock, size_t shapes,
        struct piece *pieces, size_t count);

#endif
