/* sketch.c - the cell grid: where things lie, rulers, labels and cursor. */
#include "sketch.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE = 1, LABEL = 2 }; /* what takes a cell */

/* Turns the line over where an edge crosses it; what lies between an odd crossing and the next is
 * paved. */
static void cross(
        const struct ring *ring, double x0, double y, double step, int count, unsigned char *line)
{
	for (size_t i = 0; i < ring->n; i++) {
		struct point a = ring->p[i], b = ring->p[(i + 1) % ring->n];
		double x;

		if ((a.y > y) == (b.y > y))
			continue;
		x = (a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x) - x0) / step;
		if (x <= count - 1) /* beyond, it turns over nothing */
			line[x < 0 ? 0 : (int)ceil(x)] ^= 1;
	}
}

void sketch_scan(const struct region *region, double x, double y, double step, int count,
        unsigned char *line)
{
	memset(line, 0, (size_t)count);
	for (size_t r = 0; r < region->count; r++) /* half a um off, so that no corner lies on it */
		cross(&region->rings[r], x, y + 0.5, step, count, line);
	for (int i = 1; i < count; i++)
		line[i] ^= line[i - 1];
}

bool sketch_begin(struct app *app, const struct area *area, struct sketch *s)
{
	size_t count = (size_t)area->rows * (size_t)area->cols;

	*s = (struct sketch){ .app = app, .mem = &app->frame_mem, .area = *area };
	s->taken = arena_alloc(&app->frame_mem, count + 1, 1);
	s->paved = arena_alloc(&app->frame_mem, count + 1, 1);
	if (!s->taken || !s->paved)
		return false;
	for (int row = 0; app->t.ready && row < area->rows; row++)
		sketch_scan(&app->t.region, sketch_x(s, 0), sketch_y(s, row),
		        (double)app->view.cell_um / 2, area->cols, s->paved + row * area->cols);
	return true;
}

static int clamped(double v)
{
	return v > 1e6 ? 1000000 : v < -1e6 ? -1000000 : (int)lround(v);
}

int sketch_col(const struct sketch *s, double x_um)
{
	return clamped((x_um - (double)s->app->view.left_um) * 2 / (double)s->app->view.cell_um);
}

int sketch_row(const struct sketch *s, double y_um)
{
	return s->area.rows - 1 -
	       clamped((y_um - (double)s->app->view.bottom_um) / (double)s->app->view.cell_um);
}

double sketch_x(const struct sketch *s, int col)
{
	return (double)s->app->view.left_um + col * (double)s->app->view.cell_um / 2;
}

double sketch_y(const struct sketch *s, int row)
{
	return (double)s->app->view.bottom_um +
	       (s->area.rows - 1 - row) * (double)s->app->view.cell_um;
}

static bool inside(const struct sketch *s, int row, int col)
{
	return row >= 0 && col >= 0 && row < s->area.rows && col < s->area.cols;
}

bool sketch_paved(const struct sketch *s, int row, int col)
{
	return inside(s, row, col) && s->paved[row * s->area.cols + col];
}

void sketch_mark(const struct sketch *s, int row, int col, wchar_t ch, enum style style)
{
	area_put(&s->area, row, col, ch, style);
	if (inside(s, row, col))
		s->taken[row * s->area.cols + col] = LINE;
}

void sketch_take(const struct sketch *s, int row, int col)
{
	if (inside(s, row, col))
		s->taken[row * s->area.cols + col] = LINE;
}

/* Puts the text when all its cells are free and on the sketch. */
bool sketch_label(const struct sketch *s, int row, int col, const char *text, enum style style)
{
	int width = text_columns(text, s->app->ascii);

	for (int i = -1; i <= width; i++) {
		unsigned char there =
		        inside(s, row, col + i) ? s->taken[row * s->area.cols + col + i] : 0;

		if (i >= 0 && i < width && (there || !inside(s, row, col + i)))
			return false;
		if (there == LABEL) /* would run into one another */
			return false;
	}
	area_text(&s->area, row, col, width, style, text);
	for (int i = 0; i < width; i++)
		s->taken[row * s->area.cols + col + i] = LABEL;
	return true;
}

/* --- rulers --- */

/* The step between figures on a ruler: 1, 2 or 5 times a power of ten metres, at least `least` um.
 */
static int64_t ruler_step(int64_t least)
{
	static const int factor[] = { 1, 2, 5 };

	for (int64_t unit = 100000; unit <= 1000 * UM_PER_M; unit *= 10)
		for (int i = 0; i < 3; i++)
			if (unit * factor[i] >= least)
				return unit * factor[i];
	return 1000 * UM_PER_M;
}

static void ruler_text(char buf[32], int64_t um, int64_t step)
{
	snprintf(buf, 32, step < UM_PER_M ? "%.1f" : "%.0f", (double)um / (double)UM_PER_M);
}

static int64_t first_mark(int64_t from, int64_t step)
{
	int64_t at = from / step * step;

	return at < from ? at + step : at;
}

static void ruler_across(const struct app *app, const struct area *a)
{
	int64_t half = app->view.cell_um / 2, step = ruler_step(8 * half),
	        end = app->view.left_um + a->cols * half;
	char buf[32];

	for (int64_t at = first_mark(app->view.left_um, step); at < end; at += step) {
		int col = (int)((at - app->view.left_um + half / 2) / half);

		ruler_text(buf, at, step);
		area_put(a, 0, col, glyph(app->ascii, GLYPH_TICK), STYLE_QUIET);
		area_text(a, 0, col + 1, a->cols - col - 1, STYLE_QUIET, buf);
	}
}

static void ruler_up(const struct app *app, const struct area *a)
{
	int64_t cell = app->view.cell_um, step = ruler_step(3 * cell),
	        end = app->view.bottom_um + a->rows * cell;
	char buf[32];

	for (int64_t at = first_mark(app->view.bottom_um, step); at < end; at += step) {
		int row = a->rows - 1 - (int)((at - app->view.bottom_um + cell / 2) / cell);

		ruler_text(buf, at, step);
		area_text_right(a, row, 0, a->cols - 1, STYLE_QUIET, buf);
		area_put(a, row, a->cols - 1, app->ascii ? L'-' : L'\u2574', STYLE_QUIET);
	}
}

void sketch_rulers(struct app *app, const struct layout *lay)
{
	struct sketch s = { .app = app, .area = lay->canvas };
	struct area corner = { &app->cells, lay->ruler_top.row, 0, 1, lay->ruler_left.cols };
	int row = sketch_row(&s, (double)app->view.y_um),
	    col = sketch_col(&s, (double)app->view.x_um);

	area_text(&corner, 0, 0, corner.cols, STYLE_QUIET, "m");
	ruler_across(app, &lay->ruler_top);
	ruler_up(app, &lay->ruler_left);
	if (inside(&s, row, col)) {
		area_put(&lay->ruler_top, 0, col, app->ascii ? L'v' : L'\u25be', STYLE_STRONG);
		area_put(&lay->ruler_left, row, lay->ruler_left.cols - 1,
		        app->ascii ? L'>' : L'\u25b8', STYLE_STRONG);
	}
}

void sketch_grid(const struct sketch *s)
{
	int64_t step = ruler_step(4 * s->app->view.cell_um), half = s->app->view.cell_um / 2;
	const struct view *v = &s->app->view;

	for (int64_t y = first_mark(v->bottom_um, step);
	        y < v->bottom_um + s->area.rows * v->cell_um; y += step)
		for (int64_t x = first_mark(v->left_um, step); x < v->left_um + s->area.cols * half;
		        x += step)
			area_put(&s->area, sketch_row(s, (double)y), sketch_col(s, (double)x),
			        glyph(s->app->ascii, GLYPH_GRID), STYLE_QUIET);
}

void sketch_cursor(const struct sketch *s)
{
	const struct view *v = &s->app->view;
	int row = sketch_row(s, (double)v->y_um), col = sketch_col(s, (double)v->x_um);

	area_put(&s->area, row, col, glyph(s->app->ascii, GLYPH_CURSOR), STYLE_CURSOR);
}
