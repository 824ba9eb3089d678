/* label.h - words beside what they tell of, where they touch nothing. */
#ifndef SHEET_LABEL_H
#define SHEET_LABEL_H

#include "view.h"

struct label {
	struct text text;
	struct point at; /* what it tells of */
	double clear; /* least distance from there to the text's box, mm */
	double reach; /* greatest */
	bool leader; /* a thin line leads there from 3 mm on */
	double gap; /* which ends so far before it, round a mark; 0: at it, in a dot */
	bool ringed; /* in a circle */
	const char *after; /* smaller words behind a ringed text; NULL: none */
	double prefer; /* way to try first, radians clockwise from the right */
	int ways; /* how many of 16 ways are tried, from that on; 0: all */
	const struct region *off; /* not on this region, of the view's plan; NULL anywhere */
	const struct view *view; /* where `off` is given */
	struct box within; /* all zeroes: the page's frame */
};

/* Whether a place was found; nothing is drawn otherwise. */
bool label_place(struct drawing *d, const struct label *label);

/* dimension.c: a dimension line from a to b, `off` mm to the right as one goes from a to b, on
 * paper seen from above; words over it, and under it smaller ones ("" none). False, and nothing
 * drawn, where they touch something. */
bool dimension_draw(struct drawing *d, struct point a, struct point b, double off,
        const char *words, const char *under);

#endif
