/* sketch_edges.c - outline, openings and zones, corners and lengths on the cell grid.
 *
 * A line goes cell by cell; what is drawn in a cell follows from how the line lies there, or from
 * what stands along the edge. Zones are dashed, under the lines of the outline and of openings. */
#include "sketch.h"
#include "zones.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct look {
	enum edge_kind kind;
	int64_t border; /* shown beside the kind; 0 none */
	bool chosen, by_kind, ghost; /* ghost: a line that would be */
	bool zone, faint;
	enum { LIE_FLAT, LIE_STEEP, LIE_OBLIQUE } lie;
	bool rises; /* to the right */
	bool back; /* goes against the way one reads: to the left, or up */
};

/* The cell drawn last, and how many were before it since the pen came down. */
struct pen {
	bool down;
	int col, row, step;
};

static enum style look_style(const struct look *look)
{
	if (look->ghost || look->faint)
		return STYLE_QUIET;
	if (look->chosen)
		return STYLE_HERE;
	return look->kind == EDGE_HOUSE_WALL ? STYLE_WALL : STYLE_EDGE;
}

/* The mark within an edge, step by step: "K", or "K2" along border 2; 0 beside it. */
static char mark_char(const struct look *look, int step)
{
	char mark[24];
	int at = step % 6 - 3, count;

	snprintf(mark, sizeof mark, "%c%" PRId64, kind_letter(look->kind), look->border);
	count = look->border ? (int)strlen(mark) : 1;
	if (at < 0 || at >= count)
		return '\0';
	return mark[look->back ? count - 1 - at : at];
}

/* The character at one step of a line: by the edge's kind, or by the way the line runs there. */
static wchar_t line_char(
        const struct sketch *s, const struct look *look, int step, int dcol, int drow)
{
	bool ascii = s->app->ascii;

	if (look->ghost)
		return glyph(ascii, GLYPH_GRID);
	if (look->zone && look->lie == LIE_FLAT && drow == 0)
		return glyph(ascii, GLYPH_ZONE_ALONG);
	if (look->zone && look->lie == LIE_STEEP && dcol == 0)
		return glyph(ascii, GLYPH_ZONE_UPRIGHT);
	if (look->zone)
		return glyph(ascii, look->rises ? GLYPH_RISING : GLYPH_FALLING);
	if (look->kind == EDGE_HOUSE_WALL || look->by_kind) {
		if (look->by_kind && mark_char(look, step))
			return (wchar_t)mark_char(look, step);
		return kind_glyph(ascii, look->kind, look->lie == LIE_STEEP);
	}
	if (look->lie == LIE_FLAT && drow == 0)
		return glyph(ascii, GLYPH_ALONG);
	if (look->lie == LIE_STEEP && dcol == 0)
		return glyph(ascii, GLYPH_UPRIGHT);
	return glyph(ascii, look->rises ? GLYPH_RISING : GLYPH_FALLING);
}

/* Whether a zone's line, whose character is no dash by itself, has a gap there. */
static bool has_gap(const struct look *look, bool ascii, wchar_t ch, int row, int col)
{
	if (!look->zone || ch == glyph(ascii, GLYPH_ZONE_UPRIGHT))
		return false;
	if (ch == glyph(ascii, GLYPH_ZONE_ALONG))
		return ascii && col % 2 != 0;
	return row % 2 != 0;
}

/* How a line lies on the screen, where a row counts as much as a column. */
static void set_lie(struct look *look, struct point a, struct point b)
{
	double across = (b.x - a.x) * 2, up = b.y - a.y;

	look->lie = fabs(up) < 0.4 * fabs(across)   ? LIE_FLAT
	            : fabs(across) < 0.4 * fabs(up) ? LIE_STEEP
	                                            : LIE_OBLIQUE;
	look->rises = (across > 0) == (up > 0);
	look->back = look->lie == LIE_FLAT ? across < 0 : up > 0;
}

/* Draws a straight line from where the pen is; a curve is drawn by many. */
static void draw_line(
        const struct sketch *s, struct point a, struct point b, struct look *look, struct pen *pen)
{
	int col, row, to_col, to_row, steps;

	if (!sketch_clip(s, &a, &b)) {
		pen->down = false;
		return;
	}
	set_lie(look, a, b);
	col = sketch_col(s, a.x), row = sketch_row(s, a.y);
	to_col = sketch_col(s, b.x), to_row = sketch_row(s, b.y);
	steps = abs(to_col - col) > abs(to_row - row) ? abs(to_col - col) : abs(to_row - row);
	for (int i = 0; i <= steps; i++) {
		int c = col + (steps ? (int)lround((double)(to_col - col) * i / steps) : 0);
		int r = row + (steps ? (int)lround((double)(to_row - row) * i / steps) : 0);

		wchar_t ch;

		if (pen->down && c == pen->col && r == pen->row)
			continue;
		if (!pen->down) /* as if it came from the opposite side */
			*pen = (struct pen){ true, c - (to_col > col) + (to_col < col),
				to_col == col ? r - (to_row > row) + (to_row < row) : r, -1 };
		pen->step++;
		ch = line_char(s, look, pen->step, c - pen->col, r - pen->row);
		if (has_gap(look, s->app->ascii, ch, r, c))
			sketch_take(s, r, c);
		else
			sketch_mark(s, r, c, ch, look_style(look));
		pen->col = c, pen->row = r;
	}
}

static struct look look_of(const struct app *app, size_t ring, size_t at)
{
	bool zone = zone_of_ring(&app->plan, ring) != SIZE_MAX;

	return (struct look){ .kind = zone ? EDGE_OPEN
		                           : plan_ring_at(&app->plan, ring)->nodes[at].kind,
		.border = zone ? 0 : plan_ring_at(&app->plan, ring)->nodes[at].border,
		.chosen = ring == app->view.ring && at == app->view.at &&
		          (app->place == AT_OUTLINE || app->place == AT_EDGING),
		.by_kind = app->place == AT_EDGING && !zone,
		.zone = zone,
		.faint = zone && app->place != AT_OUTLINE };
}

static void draw_ring_chords(const struct sketch *s, size_t ring)
{
	const struct plan_ring *r = plan_ring_at(&s->app->plan, ring);

	for (size_t i = 0; i + (r->closed ? 0 : 1) < r->count; i++) {
		const struct plan_node *a = &r->nodes[i], *b = &r->nodes[(i + 1) % r->count];
		struct look look = look_of(s->app, ring, i);
		struct pen pen = { 0 };

		draw_line(s, (struct point){ (double)a->x_um, (double)a->y_um },
		        (struct point){ (double)b->x_um, (double)b->y_um }, &look, &pen);
	}
}

static void draw_region(const struct sketch *s)
{
	const struct region *region = &s->app->t.region;

	for (size_t r = 0; r < region->count; r++) {
		const struct ring *ring = &region->rings[r];
		struct pen pen = { 0 };

		for (size_t i = 0; i < ring->n; i++) {
			size_t at, from;
			struct look look = { .kind = EDGE_OPEN };

			if (ring->edge && ring->edge[i] >= 0 &&
			        plan_edge_find(&s->app->plan, (size_t)ring->edge[i], &from, &at))
				look = look_of(s->app, from, at);
			if (!i || ring->edge[i] != ring->edge[i - 1])
				pen.down = false; /* a corner */
			draw_line(s, ring->p[i], ring->p[(i + 1) % ring->n], &look, &pen);
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
	const struct plan_ring *r = plan_ring_at(&s->app->plan, ring);
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

/* The edges that Enter would make: from the last corner, or along with the one that is carried. */
static void draw_ghosts(const struct sketch *s)
{
	const struct app *app = s->app;
	size_t draft = draft_ring(&app->plan), ring = draft != SIZE_MAX ? draft : app->view.ring;
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	struct point cursor = { (double)app->view.x_um, (double)app->view.y_um };
	struct look look = { .ghost = true };
	size_t from[2];

	if (!r || !r->count || app->place != AT_OUTLINE ||
	        (draft == SIZE_MAX && app->mode != MODE_CARRY))
		return;
	from[0] = app->mode == MODE_CARRY ? (app->view.at + r->count - 1) % r->count : r->count - 1;
	from[1] = app->mode == MODE_CARRY ? (app->view.at + 1) % r->count : from[0];
	for (int i = 0; i < 2; i++) {
		const struct plan_node *n = &r->nodes[from[i]];
		struct pen pen = { 0 };

		draw_line(
		        s, (struct point){ (double)n->x_um, (double)n->y_um }, cursor, &look, &pen);
	}
}

/* A zone's edges, or only the one that is chosen, which goes over all other lines. */
static void draw_zone(const struct sketch *s, size_t zone, bool only_chosen)
{
	size_t number = s->app->plan.ring_count + zone;
	struct pen pen = { 0 };
	struct ring ring;

	if (!zone_outline(s->app, s->mem, zone, &ring)) {
		if (!only_chosen)
			draw_ring_chords(s, number);
		return;
	}
	for (size_t i = 0; i < ring.n; i++) {
		struct look look = look_of(s->app, number, (size_t)ring.edge[i]);

		if (only_chosen && !look.chosen)
			continue;
		if (!i || ring.edge[i] != ring.edge[i - 1])
			pen.down = false; /* a corner */
		draw_line(s, ring.p[i], ring.p[(i + 1) % ring.n], &look, &pen);
	}
}

void sketch_edges(const struct sketch *s)
{
	const struct app *app = s->app;
	size_t chosen = zone_of_ring(&app->plan, app->view.ring);

	draw_ghosts(s);
	for (size_t z = 0; z < app->plan.zone_count; z++)
		draw_zone(s, z, false);
	if (app->t.ready)
		draw_region(s);
	for (size_t r = 0; r < app->plan.ring_count; r++)
		if (!app->t.ready || !app->plan.rings[r].closed)
			draw_ring_chords(s, r);
	if (chosen != SIZE_MAX)
		draw_zone(s, chosen, true);
}

/* --- corners --- */

static void label_corner(const struct sketch *s, size_t ring, size_t at, int row, int col)
{
	const struct plan_ring *r = plan_ring_at(&s->app->plan, ring);
	const struct plan_node *n = &r->nodes[at];
	bool chosen = ring == s->app->view.ring && at == s->app->view.at;
	double cx = 0, cy = 0;
	int right, down, width;
	char text[64];

	for (size_t i = 0; i < r->count; i++)
		cx += (double)r->nodes[i].x_um / (double)r->count,
		        cy += (double)r->nodes[i].y_um / (double)r->count;
	snprintf(text, sizeof text, chosen ? "[%zu]" : "%zu", at + 1);
	if (s->app->place == AT_FALLS && s->app->t.ready && s->app->plan.surface.count)
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

static void mark_corners(const struct sketch *s, size_t ring)
{
	const struct app *app = s->app;
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	enum glyph usual =
	        zone_of_ring(&app->plan, ring) == SIZE_MAX ? GLYPH_CORNER : GLYPH_ZONE_CORNER;

	for (size_t i = 0; i < r->count; i++) {
		const struct plan_node *n = &r->nodes[i];
		bool chosen = ring == app->view.ring && i == app->view.at;

		sketch_mark(s, sketch_row(s, (double)n->y_um), sketch_col(s, (double)n->x_um),
		        glyph(app->ascii, chosen ? GLYPH_CHOSEN : usual),
		        chosen ? STYLE_HERE : STYLE_EDGE);
	}
}

/* Corners of zones show at Outline only; under those of the outline, save the chosen one. */
void sketch_corners(const struct sketch *s)
{
	const struct app *app = s->app;
	bool lengths = app->place == AT_OUTLINE || app->place == AT_EDGING;
	size_t rings = rings_here(app);

	for (size_t r = rings; r-- > 0;)
		mark_corners(s, r);
	if (app->view.ring < rings)
		mark_corners(s, app->view.ring);
	for (size_t r = 0; r < rings; r++) {
		const struct plan_ring *ring = plan_ring_at(&app->plan, r);

		for (size_t i = 0; i < ring->count; i++)
			if (app->place != AT_EDGING)
				label_corner(s, r, i, sketch_row(s, (double)ring->nodes[i].y_um),
				        sketch_col(s, (double)ring->nodes[i].x_um));
	}
	sketch_zone_names(s);
	for (size_t r = 0; lengths && r < rings; r++) {
		const struct plan_ring *ring = plan_ring_at(&app->plan, r);

		for (size_t i = 0; i + (ring->closed ? 0 : 1) < ring->count; i++)
			label_edge(s, r, i);
	}
}
