/* sketch_line.c - straight lines on the cell grid. */
#include "sketch.h"

#include <math.h>
#include <stdlib.h>

/* (Liang-Barsky) */
bool sketch_clip(const struct sketch *s, struct point *a, struct point *b)
{
	double cell = (double)s->app->view.cell_um,
	       low[2] = { sketch_x(s, -4), sketch_y(s, s->area.rows + 2) };
	double high[2] = { sketch_x(s, s->area.cols + 4), sketch_y(s, -2) };
	double from[2] = { a->x, a->y }, by[2] = { b->x - a->x, b->y - a->y }, t0 = 0, t1 = 1;

	for (int axis = 0; axis < 2; axis++) {
		double enter, leave;

		if (fabs(by[axis]) < cell / 1e6) {
			if (from[axis] < low[axis] || from[axis] > high[axis])
				return false;
			continue;
		}
		enter = (low[axis] - from[axis]) / by[axis];
		leave = (high[axis] - from[axis]) / by[axis];
		t0 = fmax(t0, fmin(enter, leave));
		t1 = fmin(t1, fmax(enter, leave));
	}
	if (t0 > t1)
		return false;
	*a = (struct point){ from[0] + t0 * by[0], from[1] + t0 * by[1] };
	*b = (struct point){ from[0] + t1 * by[0], from[1] + t1 * by[1] };
	return true;
}

/* The character of a stroke by the way the line runs on the screen, where a row counts as much as
 * a column. */
static wchar_t stroke_char(const struct stroke *stroke, struct point a, struct point b)
{
	double across = (b.x - a.x) * 2, up = b.y - a.y;

	if (fabs(up) < 0.4 * fabs(across))
		return stroke->flat;
	if (fabs(across) < 0.4 * fabs(up))
		return stroke->steep;
	return (across > 0) == (up > 0) ? stroke->rising : stroke->falling;
}

void sketch_stroke(
        const struct sketch *s, struct point a, struct point b, const struct stroke *stroke)
{
	wchar_t ch = stroke_char(stroke, a, b);
	int col, row, to_col, to_row, steps;

	if (!sketch_clip(s, &a, &b))
		return;
	col = sketch_col(s, a.x), row = sketch_row(s, a.y);
	to_col = sketch_col(s, b.x), to_row = sketch_row(s, b.y);
	steps = abs(to_col - col) > abs(to_row - row) ? abs(to_col - col) : abs(to_row - row);
	for (int i = 0; i <= steps; i++) {
		int c = col + (steps ? (int)lround((double)(to_col - col) * i / steps) : 0);
		int r = row + (steps ? (int)lround((double)(to_row - row) * i / steps) : 0);

		if (c < 0 || r < 0 || c >= s->area.cols || r >= s->area.rows)
			continue;
		if (stroke->under && s->taken[r * s->area.cols + c])
			continue;
		if (stroke->dashed && (ch == stroke->flat ? c % 2 : r % 2))
			continue;
		if (stroke->under)
			area_put(&s->area, r, c, ch, stroke->style);
		else
			sketch_mark(s, r, c, ch, stroke->style);
	}
}

struct stroke stroke_plain(bool ascii, enum style style)
{
	return (struct stroke){ glyph(ascii, GLYPH_ALONG), glyph(ascii, GLYPH_UPRIGHT),
		glyph(ascii, GLYPH_RISING), glyph(ascii, GLYPH_FALLING), style, false, false };
}
