/* sheets.h - the sheets there are on paper; each draws its pages with page.h. A new one is a
 * function here and a row in drawing.c. */
#ifndef SHEET_SHEETS_H
#define SHEET_SHEETS_H

#include "view.h"
#include "walk.h"

typedef void sheet_draw_fn(struct drawing *d, const char *title);

sheet_draw_fn draw_plan, draw_setout, draw_dig, draw_levels, draw_water, draw_edging, draw_planters,
        draw_steps, draw_laying, draw_cuts, draw_built, draw_order;

/* The scale asked for, or the largest usual one at which the plan fits the paper (mm), with room
 * for so much around it; refuses one that does not fit. 0 after a fault. */
int64_t sheet_scale(struct drawing *d, const struct box *plan, double width, double height);

/* walk.c. Outline of a slab, and a piece's rings, on paper, in the page's memory. */
struct ring slab_on_paper(
        struct drawing *d, const struct view *v, const struct section *s, struct slab_spot spot);
struct ring *piece_on_paper(struct drawing *d, const struct view *v, const struct piece *p);

/* "2.350": a length in m, to the mm; "-209": a level in mm. In the page's memory. */
const char *metre_words(struct drawing *d, double um);
const char *mm_words(struct drawing *d, double um);

#endif
