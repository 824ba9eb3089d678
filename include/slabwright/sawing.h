/* sawing.h - in which order the saw takes the pieces out of a slab.
 *
 * First straight cuts part the pieces from each other, each right across what is then in hand; then
 * each piece is trimmed by straight cuts along its sides, and what remains beside it is cut out
 * along its own corners: notches and curves from the edge, openings last. Where two pieces lie in
 * each other's notch the cut along one of them parts them. */
#ifndef SLABWRIGHT_SAWING_H
#define SLABWRIGHT_SAWING_H

#include "slabwright/cutplan.h"

enum saw_kind {
	SAW_ACROSS, /* straight, right across the part in hand */
	SAW_NOTCH, /* from the edge of that part to its edge, with corners: cuts that meet */
	SAW_CURVE, /* the same along a curve */
	SAW_OPENING /* all round within a piece */
};

struct saw_cut {
	enum saw_kind kind;
	/* On the slab as struct cut_place says, um. The blade runs just to the right of the line,
	 * and takes the kerf there; what lies to its left keeps its size. ACROSS: two points on the
	 * slab's edges, however little of the slab is in hand. OPENING: from the last point to the
	 * first as well. */
	struct point *line;
	size_t n;
	/* Of the source's places those in hand: first the ones to the left, which lie along the
	 * line; then the ones to the right. None to the right: it is waste. */
	int *places;
	int left, right;
	bool ground; /* the blade is too wide for some corner: the rest is ground out */
};

struct saw_order {
	struct saw_cut *cuts;
	size_t count;
	bool sound; /* false: cuts from the edge do not part the pieces, and there are no cuts */
};

/* The order for one source of a cut plan. Everything lives in mem. STATUS_MEMORY. */
enum status saw_order_make(struct arena *mem, const struct piece *pieces,
        const struct cut_stock *stock, const struct cut_source *source, struct saw_order *out,
        struct error *err);

#endif
