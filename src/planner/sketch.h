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

void sketch_rulers(struct app *app, const struct layout *lay);
void sketch_grid(const struct sketch *s);
void sketch_edges(const struct sketch *s);
void sketch_corners(const struct sketch *s);
void sketch_cursor(const struct sketch *s);

void slabs_draw(const struct sketch *s);
/* Marks slivers and made-up pieces, over the edges where they lie under one. */
void slabs_mark_narrow(const struct sketch *s);
/* The piece or slab under the cursor, in words; "" where there is none. */
const char *slab_words(struct app *app);
/* Whether joints can be seen at this zoom. */
bool slabs_visible(const struct app *app);

void water_draw(const struct sketch *s);

#endif
