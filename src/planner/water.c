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

/* An arrow here and there, each the way the water runs at its place. */
static void small_arrows(const struct sketch *s)
{
	for (int r = 2; r < s->area.rows; r += 4) {
		for (int c = 4 + (r / 4 % 2) * 5; c < s->area.cols; c += 10) {
			struct surface_fall f;
			int octant;

			if (!sketch_paved(s, r, c) || s->taken[r * s->area.cols + c])
				continue;
			f = surface_fall_at(&s->app->plan.surface, sketch_x(s, c), sketch_y(s, r));
			octant = compass_octant(llround(f.toward_deg * (double)UDEG_PER_DEG));
			if (f.um_per_m > 0 && !(s->app->ascii && octant % 2))
				area_put(&s->area, r, c, arrow_glyph(s->app->ascii, octant),
				        STYLE_WATER);
		}
	}
}

/* Ridges and valleys where planes meet; and their names, where there is room. */
static void plane_lines(const struct sketch *s)
{
	const struct surface_shape *shape = &s->app->t.surface.shape;

	for (size_t i = 0; i < shape->line_count; i++) {
		const struct surface_line *l = &shape->lines[i];
		struct stroke stroke = stroke_plain(s->app->ascii, STYLE_WATER);

		stroke.dashed = l->kind == LINE_CHANGE;
		sketch_stroke(s, l->high, l->low, &stroke);
	}
}

static void plane_line_words(const struct sketch *s)
{
	const struct surface_shape *shape = &s->app->t.surface.shape;

	for (size_t i = 0; i < shape->line_count; i++) {
		const struct surface_line *l = &shape->lines[i];
		int row = sketch_row(s, (l->high.y + l->low.y) / 2),
		    col = sketch_col(s, (l->high.x + l->low.x) / 2);
		const char *word =
		        l->kind == LINE_CHANGE ? "fall changes" : line_kind_name(l->kind);

		if (!sketch_label(s, row, col + 2, word, STYLE_WATER))
			sketch_label(s, row + 1, col + 1, word, STYLE_WATER);
	}
}

static void contours(const struct sketch *s)
{
	struct contour *lines;
	struct error err;
	size_t count;
	wchar_t dot = s->app->ascii ? L'.' : L'\u00b7';
	const struct stroke stroke = { s->app->ascii ? L'-' : L'\u254c',
		s->app->ascii ? L':' : L'\u254e', dot, dot, STYLE_QUIET, false, true };

	if (!s->app->view.contour_um ||
	        surface_contours(s->mem, &s->app->plan.surface, &s->app->t.region,
	                s->app->view.contour_um, &lines, &count, &err) != STATUS_OK)
		return;
	for (size_t i = 0; i < count; i++)
		sketch_stroke(s, lines[i].a, lines[i].b, &stroke);
}

/* --- what takes the water --- */

/* Marks a place, with a number behind it where there is room. */
static void mark(const struct sketch *s, double x, double y, enum glyph which, const char *label)
{
	int row = sketch_row(s, y), col = sketch_col(s, x);

	sketch_mark(s, row, col, glyph(s->app->ascii, which), STYLE_STRONG);
	if (!sketch_label(s, row, col + 1, label, STYLE_NUMBER))
		sketch_label(s, row + 1, col, label, STYLE_NUMBER);
}

static void channel_line(const struct sketch *s, struct point a, struct point b, size_t number)
{
	bool ascii = s->app->ascii;
	const struct stroke stroke = { ascii ? L'=' : L'\u2550', ascii ? L'"' : L'\u2551',
		ascii ? L'=' : L'\u2550', ascii ? L'=' : L'\u2550', STYLE_STRONG, false, false };
	char label[24];

	sketch_stroke(s, a, b, &stroke);
	snprintf(label, sizeof label, "c%zu", number);
	sketch_label(s, sketch_row(s, (a.y + b.y) / 2), sketch_col(s, (a.x + b.x) / 2) + 2, label,
	        STYLE_NUMBER);
}

/* Along the edges of the region, as they are flattened. */
static void edge_channels(const struct sketch *s)
{
	const struct region *region = &s->app->t.region;

	for (size_t r = 0; r < region->count; r++) {
		const struct ring *ring = &region->rings[r];

		for (size_t i = 0; i < ring->n; i++) {
			size_t from, at;
			int64_t number;

			if (!ring->edge || ring->edge[i] < 0 ||
			        !plan_edge_find(&s->app->plan, (size_t)ring->edge[i], &from, &at))
				continue;
			number = plan_ring_at(&s->app->plan, from)->nodes[at].channel;
			if (number)
				channel_line(
				        s, ring->p[i], ring->p[(i + 1) % ring->n], (size_t)number);
		}
	}
}

static bool named_by_edge(const struct plan *plan, int64_t number)
{
	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++)
			if (plan->rings[r].nodes[i].channel == number)
				return true;
	return false;
}

static void drains(const struct sketch *s)
{
	const struct plan_water *w = &s->app->plan.water;
	const struct surface_result *result = &s->app->t.surface;
	char label[24];

	edge_channels(s);
	for (size_t i = 0; i < w->channel_count; i++)
		if (!named_by_edge(&s->app->plan, (int64_t)i + 1))
			channel_line(s,
			        (struct point){ (double)w->channels[i].x1_um,
			                (double)w->channels[i].y1_um },
			        (struct point){ (double)w->channels[i].x2_um,
			                (double)w->channels[i].y2_um },
			        i + 1);
	for (size_t i = 0; i < w->gully_count; i++) {
		snprintf(label, sizeof label, "g%zu", i + 1);
		mark(s, (double)w->gullies[i].x_um, (double)w->gullies[i].y_um, GLYPH_GULLY, label);
	}
	if (w->soakaway.has)
		mark(s, (double)w->soakaway.x_um, (double)w->soakaway.y_um, GLYPH_SOAKAWAY,
		        "soakaway");
	for (size_t i = 0; i < result->pond_count; i++)
		mark(s, result->ponds[i].at.x, result->ponds[i].at.y, GLYPH_POND, "stands");
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

/* One plane's arrow, across the middle of what is shown. */
static void long_arrow(const struct sketch *s)
{
	const struct app *app = s->app;
	double half = (double)app->view.cell_um / 2, dx, dy;
	int row, col, down, up, octant;

	if (!middle(s, &row, &col))
		return;
	turn_of(app->plan.surface.planes[0].toward_udeg, &dx, &dy);
	octant = compass_octant(app->plan.surface.planes[0].toward_udeg);
	down = reach(s, row, col, dx, dy);
	up = reach(s, row, col, -dx, -dy);
	for (int i = -up; i <= down; i++) {
		int r = sketch_row(s, sketch_y(s, row) + dy * half * i);
		int c = sketch_col(s, sketch_x(s, col) + dx * half * i);

		if (i != down && (r < 0 || c < 0 || r >= s->area.rows || c >= s->area.cols ||
		                         s->taken[r * s->area.cols + c]))
			continue; /* edges stay whole */
		sketch_mark(s, r, c,
		        i == down ? head(app->ascii, octant) : glyph(app->ascii, GLYPH_FLOW),
		        STYLE_WATER);
	}
	label_end(s, row, col, dx, dy, -up, "high");
	label_end(s, row, col, dx, dy, down, "low");
}

void water_draw(const struct sketch *s)
{
	const struct app *app = s->app;
	size_t planes = app->plan.surface.count;

	if (app->t.ready && planes) {
		if (app->view.areas)
			areas_draw(s);
		else
			contours(s);
		plane_lines(s);
		drains(s); /* over them: a gully lies in a valley */
		plane_line_words(s);
		if (!app->view.areas)
			small_arrows(s);
	}
	if (app->t.ready && planes == 1 && !app->view.areas &&
	        app->plan.surface.planes[0].fall_um_per_m)
		long_arrow(s);
	fixed_point(s);
}
