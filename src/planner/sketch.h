/* sketch.h - the plan on the cell grid.
 *
 * A cell is two columns wide and one row high, square to the eye. Column c shows the plan at
 * left + c * cell / 2, row r at bottom + (rows - 1 - r) * cell, so that grid points fall on even
 * columns. */
#ifndef SLABWRIGHT_PLANNER_SKETCH_H
#define SLABWRIGHT_PLANNER_SKETCH_H

#include "app.h"

struct sketch {
	const struct app *app;
	struct arena *mem; /* of this frame */
	struct area area;
	unsigned char *taken; /* cells that labels must not cover */
	unsigned char *paved; /* cells whose middle lies in the paving */
};

bool sketch_begin(struct app *app, const struct area *area, struct sketch *s);
int sketch_col(const struct sketch *s, double x_um);
int sketch_row(const struct sketch *s, double y_um);
double sketch_x(const struct sketch *s, int col);
double sketch_y(const struct sketch *s, int row);
void sketch_mark(const struct sketch *s, int row, int col, wchar_t ch, enum style style);
bool sketch_label(const struct sketch *s, int row, int col, const char *text, enum style style);
bool sketch_paved(const struct sketch *s, int row, int col);
/* Sets line[i], for `count` of i, to whether (x + i * step, y) lies in the paving. */
void sketch_scan(
        const struct app *app, double x, double y, double step, int count, unsigned char *line);

void sketch_rulers(struct app *app, const struct layout *lay);
void sketch_grid(const struct sketch *s);
void sketch_edges(const struct sketch *s);
void sketch_corners(const struct sketch *s);
void sketch_cursor(const struct sketch *s);

/* What of the laying a point of the plan lies in. */
struct spot {
	bool known; /* false: all zeroes, no point was looked up */
	bool paved; /* left to who draws */
	struct point at; /* in the pattern frame */
	struct slab_spot slab;
	struct box cell; /* the slab with its joint, in the pattern frame */
	const struct piece *pieces; /* of the slab position; none where it is whole */
	size_t piece_count;
};

/* Looks up spots, for one frame. */
struct spotter {
	const struct app *app;
	double cosine, sine; /* of the bond's rotation */
};
struct spotter spotter_of(const struct app *app);

/* The spot of a point of the plan; `paved` is left as it was. Those drawn before, on its left and
 * below it, spare the search where the point lies in the cell of one of them; either may be *out.
 */
void spot_at_point(const struct spotter *spotter, double x, double y, const struct spot *left,
        const struct spot *below, struct spot *out);
bool spot_same(const struct spot *a, const struct spot *b); /* whether in one slab position */
enum piece_kind spot_kind(const struct spot *spot);

void slabs_draw(const struct sketch *s);
/* Fills a column with what a kind of piece is marked by. */
void slabs_fill(const struct sketch *s, int row, int col, enum piece_kind kind);
/* Marks slivers and made-up pieces, over the edges where they lie under one. */
void slabs_mark_narrow(const struct sketch *s);
/* The piece or slab under the cursor, in words; "" where there is none. */
const char *slab_words(struct app *app);
/* look.c: how slabs are drawn in cells of a size: only cut pieces and the like are marked, each
 * slab shows by dots, each shows by lines. Dots want more than ASCII. */
enum slab_look { LOOK_MARKS, LOOK_DOTS, LOOK_LINES };
enum slab_look slabs_look(const struct app *app, int64_t cell_um);
/* The largest cell, of those zoomed to, that gives the look or a better one; 0 for none. */
int64_t view_cell_for(const struct app *app, enum slab_look look);
/* From joint to joint across a slab the shorter way; of bonds of several sizes, the mean. */
int64_t slabs_shorter_um(const struct plan_laying *laying);
/* What is to be known of the look at this zoom; "" where it speaks for itself. */
const char *slabs_note(struct app *app);
/* The same as a message, at Laying, where slabs are too small to be seen one by one. */
void slabs_say_far(struct app *app);

/* dots.c: the slabs by braille dots. */
void dots_draw(const struct sketch *s);

void water_draw(const struct sketch *s);

#endif
