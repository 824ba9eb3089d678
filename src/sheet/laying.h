/* laying.h - between draw_laying.c, which sees to pages, and what puts numbers to pieces. */
#ifndef SHEET_LAYING_H
#define SHEET_LAYING_H

#include "label.h"
#include "sheets.h"

struct laying_sheet {
	struct drawing *d;
	struct view view;
	struct box window; /* of the page, mm: what is drawn in it is seen */
	bool *labelled; /* by piece: on some page so far */
	bool labels; /* false on a page that only shows where the parts are */
};

/* The number of each piece on this page: in the piece, or outside the paving with a line to it. */
void laying_label_pieces(struct laying_sheet *l);
/* "c3" where course 3 begins. */
void laying_label_courses(struct laying_sheet *l);

/* laying_others.c: pieces that were numbered on no page, told in words. */
void laying_list_others(struct laying_sheet *l, const char *title, bool one_page);

/* Whether any of it may be seen on this page. */
bool laying_in_window(const struct laying_sheet *l, const struct ring *ring);
bool piece_is_cut(const struct piece *p);

#endif
