/* water.c - which way the water runs, over the paving. */
#include "sketch.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A cell of the paving near the middle of what is shown. */
static bool middle(const struct sketch *s, int *row, int *col)
{
	struct box box = region_box(&s->app->t.region);
	int mid_row = sketch_row(s, (box.y0 + box.y1) / 2),
	    mid_col = sketch_col(s, (box.x0 + box.x1) / 2);
	int best = -1;

	for (int r = 0; r < s->area.rows; r++) {
		for (int c = 0; c < s->area.cols; c++) {
			int away = 2 * abs(r - mid_row) + abs(c - mid_col);

			if (!sketch_paved(s, r, c) || (best >= 0 && away >= best))
				continue;
			best = away;
			*row = r;
			*col = c;
		}
	}
	return best >= 0;
}

/* How many steps of half a cell can be taken from a cell within the paving. */
static int reach(const struct sketch *s, int row, int col, double dx, double dy)
{
	double half = (double)s->app->view.cell_um / 2, x = sketch_x(s, col), y = sketch_y(s, row);
	int n = 0;

	while (n < 200 && sketch_paved(s, sketch_row(s, y + dy * half * (n + 1)),
	                          sketch_col(s, x + dx * half * (n + 1))))
		n++;
	return n > 2 ? n - 2 : n;
}

static void small_arrows(const struct sketch *s, int octant)
{
	for (int r = 2; r < s->area.rows; r += 4)
		for (int c = 4 + (r / 4 % 2) * 5; c < s->area.cols; c += 10)
			if (sketch_paved(s, r, c) && !s->taken[r * s->area.cols + c] &&
			        !(s->app->ascii && octant % 2))
				area_put(&s->area, r, c, arrow_glyph(s->app->ascii, octant),
				        STYLE_WATER);
}

static void fixed_point(const struct sketch *s)
{
	const struct plan_surface *surface = &s->app->plan.surface;
	int row = sketch_row(s, (double)surface->fixed_y_um),
	    col = sketch_col(s, (double)surface->fixed_x_um);

	if (!surface->has_fixed)
		return;
	sketch_mark(s, row, col, glyph(s->app->ascii, GLYPH_FIXED), STYLE_STRONG);
	sketch_label(s, row, col + 2, surface->fixed_name, STYLE_NUMBER);
}

/* A diagonal's head in ASCII: up or down says which end it is. */
static wchar_t head(bool ascii, int octant)
{
	if (ascii && octant % 2)
		return octant < 4 ? L'^' : L'v';
	return arrow_glyph(ascii, octant);
}

/* A word at an end of the arrow, beside it or above. */
static void label_end(
        const struct sketch *s, int row, int col, double dx, double dy, int steps, const char *word)
{
	double half = (double)s->app->view.cell_um / 2;
	int r = sketch_row(s, sketch_y(s, row) + dy * half * steps);
	int c = sketch_col(s, sketch_x(s, col) + dx * half * steps),
	    left = c - 1 - (int)strlen(word);

	if (!sketch_label(s, r, c + 2, word, STYLE_WATER) &&
	        !sketch_label(s, r, left, word, STYLE_WATER) &&
	        !sketch_label(s, r - 1, c - 1, word, STYLE_WATER))
		sketch_label(s, r + 1, c - 1, word, STYLE_WATER);
}

void water_draw(const struct sketch *s)
{
	const struct app *app = s->app;
	double half = (double)app->view.cell_um / 2, dx, dy;
	int row, col, down, up, octant;

	if (app->t.ready && app->plan.surface.count == 1 &&
	        app->plan.surface.planes[0].fall_um_per_m && middle(s, &row, &col)) {
		turn_of(app->plan.surface.planes[0].toward_udeg, &dx, &dy);
		octant = compass_octant(app->plan.surface.planes[0].toward_udeg);
		small_arrows(s, octant);
		down = reach(s, row, col, dx, dy);
		up = reach(s, row, col, -dx, -dy);
		for (int i = -up; i <= down; i++) {
			int r = sketch_row(s, sketch_y(s, row) + dy * half * i);
			int c = sketch_col(s, sketch_x(s, col) + dx * half * i);

			if (i != down &&
			        (r < 0 || c < 0 || r >= s->area.rows || c >= s->area.cols ||
			                s->taken[r * s->area.cols + c]))
				continue; /* edges stay whole */
			sketch_mark(s, r, c,
			        i == down ? head(app->ascii, octant)
			                  : glyph(app->ascii, GLYPH_FLOW),
			        STYLE_WATER);
		}
		label_end(s, row, col, dx, dy, -up, "high");
		label_end(s, row, col, dx, dy, down, "low");
	}
	fixed_point(s);
}
