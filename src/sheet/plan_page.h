/* plan_page.h - how the sheets for the site are laid out: a plan with a column beside it, or
 * details to one scale, placed one after another. Either must stay where it is while its pages are
 * drawn. */
#ifndef SHEET_PLAN_PAGE_H
#define SHEET_PLAN_PAGE_H

#include "table.h"
#include "view.h"

struct plan_page {
	struct view view;
	struct page_head head;
	struct box side;
};

/* Begins a page that shows so much of the plan (um) at the largest usual scale, beside a column of
 * that width (mm). Until plan_page_flow labels keep out of the column. */
void plan_page_begin(struct drawing *d, struct plan_page *p, const char *title,
        const struct box *shown, double side_mm);
struct flow plan_page_flow(struct drawing *d, struct plan_page *p);

struct shelf {
	struct drawing *d;
	struct view view; /* its scale is all that counts */
	struct page_head head;
	double x, y, row; /* where the next detail goes, and how high its row is */
};

/* Begins a page. */
void shelf_begin(
        struct drawing *d, struct shelf *s, const char *title, const char *part, int64_t scale);
/* A place of that size (mm, cut to the page's), on another page where there is no room; labels are
 * kept within it until the next. */
struct box shelf_take(struct shelf *s, double width, double height);
/* Columns of that width beside a single row of what was placed, or under it, or on another page. */
struct flow shelf_flow(struct shelf *s, double width);

void box_hold(struct box *b, double x, double y);
/* The outline's box. */
struct box plan_box(const struct takeoff *t);

/* Words beside a point, where they touch nothing: first `way` from it (radians clockwise from the
 * right), then anywhere; farther off with a line. */
bool words_beside(struct drawing *d, struct point at, const char *words, double size, double way);
/* Marks. */
void mark_cross(struct drawing *d, struct point at, double half);
void mark_triangle(struct drawing *d, struct point at, double half, bool filled);
/* Dimension with the first of some distances at which it touches nothing; the first distance's sign
 * is the side. */
void dimension_somewhere(
        struct drawing *d, struct point a, struct point b, double off, const char *words);
/* "12.3": to the tenth of a mm. */
const char *tenth_words(struct drawing *d, double um);
/* A paragraph of small text, printf. */
void flow_line(struct flow *f, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
