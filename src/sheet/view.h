/* view.h - the plan on paper, to a true scale: where its points lie, and what is drawn of it. */
#ifndef SHEET_VIEW_H
#define SHEET_VIEW_H

#include "page.h"

struct view {
	int64_t scale; /* 50: 1:50 */
	struct point plan, paper; /* lie on each other; um and mm */
};

/* The largest usual scale at which so much of the plan (um) fits on so much paper (mm). */
int64_t scale_fitting(const struct box *plan, double width, double height);
/* The next smaller usual scale; 0 behind the last. */
int64_t scale_after(int64_t scale);
double scale_mm(int64_t scale, double um); /* on paper */
/* The plan's middle in the middle of the paper. */
struct view view_centred(int64_t scale, const struct box *plan, const struct box *paper);
struct point view_point(const struct view *v, struct point plan);
struct point view_back(const struct view *v, struct point paper);

/* A region's rings on paper, in the page's memory; NULL when that is gone. */
struct ring *view_region(struct drawing *d, const struct view *v, const struct region *region);
struct ring view_ring(struct drawing *d, const struct view *v, const struct ring *ring);

/* One edge of the plan on paper, from corner to corner with the paving to the left as one goes (on
 * paper, seen from above). n 0 when memory is gone. */
struct path {
	struct point *p;
	size_t n;
};
struct path view_edge(struct drawing *d, const struct view *v, size_t edge);

/* edges.c: outline and openings with the line styles of their kinds; enters them as taken. */
void edges_draw(struct drawing *d, const struct view *v);
/* Outline and openings as plain lines. */
void edges_draw_plain(struct drawing *d, const struct view *v, enum pen pen);
/* A sample of each kind that the plan has, with its words, from there to the right and downward
 * within the width; returns the height taken. */
double edges_key(struct drawing *d, double x, double y, double width);
/* How far the line styles reach outward, mm. */
#define EDGE_REACH_MM 2.4
/* Whether any edge is of that kind. */
bool edges_have(const struct plan *plan, enum edge_kind kind);

#endif
