/* page.h - the drawing layer: pages in millimetres from the upper left corner, y down.
 *
 * Sheets draw with the few things here and know nothing of files or of the library underneath. The
 * sheets are gone over twice, first to count pages and measure, with nothing drawn. Every text goes
 * through page_text, which keeps its box among what is taken. */
#ifndef SHEET_PAGE_H
#define SHEET_PAGE_H

#include "patch.h"
#include "slabwright/drawing.h"
#include "target.h"

#include <pango/pangocairo.h>

enum pen {
	PEN_HEAVY, /* house walls */
	PEN_OUTLINE,
	PEN_MEDIUM,
	PEN_THIN,
	PEN_HAIR,
	PEN_FAINT, /* patterns behind other things */
	PEN_FAINT_DASHED,
	PEN_DASHED,
	PEN_CHAIN, /* dash and dot */
	PEN_DOTTED,
	PENS,
};

/* Text sizes, mm: height of a line of capitals and descenders. */
#define SIZE_TITLE 4.6
#define SIZE_HEAD 3.0
#define SIZE_BODY 2.6
#define SIZE_NOTE 2.2
#define SIZE_LEAST 1.7

enum align { ALIGN_LEFT, ALIGN_MIDDLE, ALIGN_RIGHT };

struct text {
	const char *words;
	double size; /* mm */
	bool bold, grey, on_white; /* on_white: what lies under its box is wiped out */
	double turn; /* radians, clockwise */
	double room; /* width it may take, mm; 0: as long as it is */
	bool wraps; /* within its room over several lines; else an ellipsis stands for the end */
};

struct view;

/* What a page is headed with. */
struct page_head {
	const char *title; /* the sheet's */
	const char *part; /* "part 2 of 6", "continued"; "" for none */
	const struct view *view; /* whose scale it tells; NULL: none */
	const char *scale; /* what stands in the scale's place where there is none */
};

struct drawing {
	const struct takeoff *t;
	const struct drawing_options *options;
	struct arena mem; /* good as long as the drawing */
	struct target *target; /* NULL: nothing is drawn */
	cairo_t *cr; /* the page's; NULL: nothing is drawn */
	PangoContext *pango;
	PangoLayout *layout;
	PangoFontDescription *font;
	double width, height; /* of the paper */
	struct box frame; /* what sheets may fill: within the margins, above the title block */
	size_t page, pages; /* this page, from 1; of how many, 0 while they are counted */
	struct arena page_mem; /* good to the end of the page, and of the one after it: what is made
	                          before a page break may be put behind it */
	struct arena last_mem; /* of the page before */
	struct taken taken; /* on this page */
	drawn_text_fn *say; /* told every text; may be NULL */
	void *say_context;
	enum status status; /* the first fault; what comes after it does nothing */
	struct error *err;
};

/* Pages. page_begin ends the one before, and draws frame and title block. */
void page_begin(struct drawing *d, const struct page_head *head);
void page_end(struct drawing *d);
/* Notes a fault, unless there is one already. */
void page_fail_memory(struct drawing *d);

/* Lines and surfaces. */
void page_line(struct drawing *d, struct point a, struct point b, enum pen pen);
void page_path(struct drawing *d, const struct point *p, size_t n, bool closed, enum pen pen);
void page_fill(struct drawing *d, const struct point *p, size_t n, double grey);
/* Several rings as one surface, holes left out. */
void page_fill_rings(struct drawing *d, const struct ring *rings, size_t n, double grey);
/* Slanting lines within rings, so many mm apart. */
void page_hatch(struct drawing *d, const struct ring *rings, size_t n, double apart, double turn,
        enum pen pen);
void page_circle(struct drawing *d, struct point at, double radius, enum pen pen);
void page_disc(struct drawing *d, struct point at, double radius, double grey);
/* An arrow head with its tip at `tip`, pointing the way of `turn`. */
void page_arrow_head(struct drawing *d, struct point tip, double turn, double length);
void page_box(struct drawing *d, const struct box *box, enum pen pen);

/* Until page_unclip nothing is drawn outside the box; text is not told outside it either way. */
void page_clip(struct drawing *d, const struct box *box);
void page_unclip(struct drawing *d);

/* Text. Its box as it will stand, with its middle at (0, 0). */
struct patch text_patch(struct drawing *d, const struct text *text);
/* Draws it there, and takes its place. The place must be on the page. */
void page_text_at(struct drawing *d, const struct text *text, const struct patch *place);
/* The same, upright, with x as aligned and y its upper edge; returns its height. */
double page_text(struct drawing *d, const struct text *text, enum align align, double x, double y);
/* printf into the page's memory; "" when that is gone. */
const char *page_print(struct drawing *d, const char *format, ...)
        __attribute__((format(printf, 2, 3)));
/* Text that came from people, with marks for what cannot be shown. */
const char *page_clean(struct drawing *d, const char *words);

/* furniture.c: frame, title block, scale bar, house mark. */
struct box furniture_frame(double width, double height);
void furniture_draw(struct drawing *d, const struct page_head *head);

#endif
