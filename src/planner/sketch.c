/* sketch.c - outline, corners, lengths, rulers and cursor on the cell grid. */
#include "sketch.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE = 1, LABEL = 2 }; /* what takes a cell */

/* Marks the cells whose middle lies in the paving, row by row from where the edges cross it. */
static void find_paved(struct sketch *s)
{
	const struct region *region = &s->app->t.region;

	for (int row = 0; row < s->area.rows; row++) {
		double y = sketch_y(s, row) +
		           0.5; /* half a micrometre off, so that no corner lies on it */
		unsigned char *line = s->paved + row * s->area.cols;

		for (size_t r = 0; r < region->count; r++) {
			const struct ring *ring = &region->rings[r];

			for (size_t i = 0; i < ring->n; i++) {
				struct point a = ring->p[i], b = ring->p[(i + 1) % ring->n];
				double x;
				int col;

				if ((a.y > y) == (b.y > y))
					continue;
				x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
				x = (x - sketch_x(s, 0)) / ((double)s->app->view.cell_um / 2);
				col = x >= s->area.cols ? s->area.cols : x < 0 ? 0 : (int)ceil(x);
				for (; col < s->area.cols; col++)
					line[col] ^= 1;
			}
		}
	}
}

bool sketch_begin(struct app *app, const struct area *area, struct sketch *s)
{
	size_t count = (size_t)area->rows * (size_t)area->cols;

	*s = (struct sketch){ .app = app, .mem = &app->frame_mem, .area = *area };
	s->taken = arena_alloc(&app->frame_mem, count + 1, 1);
	s->paved = arena_alloc(&app->frame_mem, count + 1, 1);
	if (!s->taken || !s->paved)
		return false;
	if (app->t.ready)
		find_paved(s);
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

/* --- edges --- */

struct look {
	enum edge_kind kind;
	bool chosen, by_kind;
};

static enum style look_style(const struct look *look)
{
	if (look->chosen)
		return STYLE_HERE;
	return look->kind == EDGE_HOUSE_WALL ? STYLE_WALL : STYLE_EDGE;
}

/* The character at one step of a line: by the edge's kind, or by the way the line runs there. */
static wchar_t line_char(
        const struct sketch *s, const struct look *look, int step, int dcol, int drow)
{
	bool ascii = s->app->ascii;

	if (look->kind == EDGE_HOUSE_WALL || look->by_kind) {
		if (look->by_kind && step % 6 == 3)
			return (wchar_t)kind_letter(look->kind);
		return kind_glyph(ascii, look->kind);
	}
	if (drow == 0)
		return glyph(ascii, GLYPH_ALONG);
	if (dcol == 0)
		return glyph(ascii, GLYPH_UPRIGHT);
	return glyph(ascii, (dcol > 0) == (drow < 0) ? GLYPH_RISING : GLYPH_FALLING);
}

/* The part of a segment within the sketch, with some room around; false when none is
 * (Liang-Barsky). */
static bool clip(const struct sketch *s, struct point *a, struct point *b)
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

static void draw_line(
        const struct sketch *s, struct point a, struct point b, const struct look *look)
{
	int col, row, to_col, to_row, steps, was_col, was_row;

	if (!clip(s, &a, &b))
		return;
	col = sketch_col(s, a.x), row = sketch_row(s, a.y);
	to_col = sketch_col(s, b.x), to_row = sketch_row(s, b.y);
	steps = abs(to_col - col) > abs(to_row - row) ? abs(to_col - col) : abs(to_row - row);
	was_col = col - (to_col > col) + (to_col < col), was_row = row;
	if (to_col == col)
		was_row = row - (to_row > row) + (to_row < row);
	for (int i = 0; i <= steps; i++) {
		int c = col + (steps ? (int)lround((double)(to_col - col) * i / steps) : 0);
		int r = row + (steps ? (int)lround((double)(to_row - row) * i / steps) : 0);

		sketch_mark(
		        s, r, c, line_char(s, look, i, c - was_col, r - was_row), look_style(look));
		was_col = c, was_row = r;
	}
}

static struct look look_of(const struct app *app, size_t ring, size_t at)
{
	return (struct look){ .kind = app->plan.rings[ring].nodes[at].kind,
		.chosen = ring == app->view.ring && at == app->view.at &&
		          (app->place == AT_OUTLINE || app->place == AT_EDGING),
		.by_kind = app->place == AT_EDGING };
}

static void draw_ring_chords(const struct sketch *s, size_t ring)
{
	const struct plan_ring *r = &s->app->plan.rings[ring];

	for (size_t i = 0; i + (r->closed ? 0 : 1) < r->count; i++) {
		const struct plan_node *a = &r->nodes[i], *b = &r->nodes[(i + 1) % r->count];
		struct look look = look_of(s->app, ring, i);

		draw_line(s, (struct point){ (double)a->x_um, (double)a->y_um },
		        (struct point){ (double)b->x_um, (double)b->y_um }, &look);
	}
}

static void draw_region(const struct sketch *s)
{
	const struct region *region = &s->app->t.region;

	for (size_t r = 0; r < region->count; r++) {
		const struct ring *ring = &region->rings[r];

		for (size_t i = 0; i < ring->n; i++) {
			size_t at, from;
			struct look look = { .kind = EDGE_OPEN };

			if (ring->edge && ring->edge[i] >= 0 &&
			        plan_edge_find(&s->app->plan, (size_t)ring->edge[i], &from, &at))
				look = look_of(s->app, from, at);
			draw_line(s, ring->p[i], ring->p[(i + 1) % ring->n], &look);
		}
	}
}

/* The middle of an edge, on its arc where it is one, and the way out of the ring there. */
static struct point edge_middle(const struct plan_ring *r, size_t at, struct point *out)
{
	const struct plan_node *a = &r->nodes[at], *b = &r->nodes[(at + 1) % r->count];
	double dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um),
	       length = hypot(dx, dy);
	double side = ring_signed_area2_um2(r) < 0 ? -1 : 1;

	*out = length > 0 ? (struct point){ dy / length * side, -dx / length * side }
	                  : (struct point){ 0, -1 };
	return (struct point){ (double)(a->x_um + b->x_um) / 2 + out->x * (double)a->rise_um,
		(double)(a->y_um + b->y_um) / 2 + out->y * (double)a->rise_um };
}

static void label_edge(const struct sketch *s, size_t ring, size_t at)
{
	const struct plan_ring *r = &s->app->plan.rings[ring];
	struct look look = look_of(s->app, ring, at);
	struct point out, middle = edge_middle(r, at, &out);
	int row = sketch_row(s, middle.y), col = sketch_col(s, middle.x), width, across;
	bool upright = fabs(out.x) > fabs(out.y);
	char text[64];

	if (s->app->place == AT_EDGING)
		snprintf(text, sizeof text, "%zu", at + 1);
	else
		metres(text, llround(edge_length_um(r, at)));
	if (look.kind == EDGE_HOUSE_WALL && s->app->place == AT_OUTLINE)
		snprintf(text + strlen(text), sizeof text - strlen(text), " house");
	width = (int)strlen(text);
	across = out.x > 0 ? 2 : -1 - width;
	for (int flip = 0; flip < 2; flip++) {
		int r1 = upright ? row : row + ((out.y < 0) != (flip == 1) ? 1 : -1);
		int c1 = upright ? (flip ? (out.x > 0 ? col - 1 - width : col + 2) : col + across)
		                 : col - width / 2;

		if (sketch_label(s, r1, c1, text, look.chosen ? STYLE_STRONG : STYLE_NUMBER))
			return;
	}
}

void sketch_edges(const struct sketch *s)
{
	const struct app *app = s->app;

	if (app->t.ready)
		draw_region(s);
	for (size_t r = 0; r < app->plan.ring_count; r++)
		if (!app->t.ready || !app->plan.rings[r].closed)
			draw_ring_chords(s, r);
}

/* --- corners --- */

static void label_corner(const struct sketch *s, size_t ring, size_t at, int row, int col)
{
	const struct plan_ring *r = &s->app->plan.rings[ring];
	const struct plan_node *n = &r->nodes[at];
	bool chosen = ring == s->app->view.ring && at == s->app->view.at;
	double cx = 0, cy = 0;
	int right, down, width;
	char text[64];

	for (size_t i = 0; i < r->count; i++)
		cx += (double)r->nodes[i].x_um / (double)r->count,
		        cy += (double)r->nodes[i].y_um / (double)r->count;
	snprintf(text, sizeof text, chosen ? "[%zu]" : "%zu", at + 1);
	if (s->app->place == AT_FALLS && s->app->t.ready && s->app->plan.surface.count == 1)
		snprintf(text, sizeof text, "%+.3f",
		        surface_level_um(&s->app->plan.surface, (double)n->x_um, (double)n->y_um) /
		                1e6);
	width = (int)strlen(text);
	right = (double)n->x_um >= cx ? 1 : -width;
	down = (double)n->y_um >= cy ? -1 : 1;
	for (int i = 0; i < 6; i++) {
		const int rows[] = { down, down, down, 0, -down, -down };
		const int cols[] = { right, 0, 1 - width, right > 0 ? 2 : -1 - width,
			right > 0 ? -width - 1 : 2, 0 };

		if (sketch_label(s, row + rows[i], col + cols[i], text,
		            chosen ? STYLE_STRONG : STYLE_NUMBER))
			return;
	}
}

void sketch_corners(const struct sketch *s)
{
	const struct app *app = s->app;
	bool ascii = app->ascii, lengths = app->place == AT_OUTLINE || app->place == AT_EDGING;

	for (size_t r = 0; r < app->plan.ring_count; r++) {
		for (size_t i = 0; i < app->plan.rings[r].count; i++) {
			const struct plan_node *n = &app->plan.rings[r].nodes[i];
			bool chosen = r == app->view.ring && i == app->view.at;

			sketch_mark(s, sketch_row(s, (double)n->y_um),
			        sketch_col(s, (double)n->x_um),
			        glyph(ascii, chosen ? GLYPH_CHOSEN : GLYPH_CORNER),
			        chosen ? STYLE_HERE : STYLE_EDGE);
		}
	}
	for (size_t r = 0; r < app->plan.ring_count; r++) {
		const struct plan_ring *ring = &app->plan.rings[r];

		for (size_t i = 0; i < ring->count; i++)
			if (app->place != AT_EDGING)
				label_corner(s, r, i, sketch_row(s, (double)ring->nodes[i].y_um),
				        sketch_col(s, (double)ring->nodes[i].x_um));
		for (size_t i = 0; lengths && i + (ring->closed ? 0 : 1) < ring->count; i++)
			label_edge(s, r, i);
	}
}

void sketch_cursor(const struct sketch *s)
{
	const struct view *v = &s->app->view;
	int row = sketch_row(s, (double)v->y_um), col = sketch_col(s, (double)v->x_um);

	area_put(&s->area, row, col, glyph(s->app->ascii, GLYPH_CURSOR), STYLE_CURSOR);
}
