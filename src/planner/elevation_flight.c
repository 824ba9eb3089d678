/* elevation_flight.c - a flight of steps from the side: risers, goings, units, ground. */
#include "elevation.h"
#include "glyph.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MARGIN = 9, GOING_COLS = 8 };
static const double ROOM_UM = 100000, TAIL_UM = 500000, MOST_LANDING_UM = 1200000;

struct side {
	struct area a; /* of the picture */
	const struct flight *f;
	double um; /* of a column; a row has twice that */
	double left_um, top_um, right_um, low_um; /* what is drawn: s, levels */
	int across, down;
	bool ascii;
};

static int col_at(const struct side *s, double s_um)
{
	return (int)lround((s_um - s->left_um) / s->um) - s->across;
}

static int row_at(const struct side *s, double level_um)
{
	return (int)lround((s->top_um - level_um) / (2 * s->um)) - s->down;
}

static bool of_units(const struct side *s)
{
	return s->f->steps->build == STEPS_UNITS;
}

static void choose_scale(struct side *s)
{
	const struct flight *f = s->f;
	double landing = fmin((double)f->steps->landing_um, MOST_LANDING_UM), low;

	low = (double)f->bottom_um;
	for (size_t i = 0; i < f->row_count; i++)
		low = fmin(low, (double)f->rows[i].underside_um);
	s->left_um = -fmax((double)f->steps->unit_depth_um, (double)f->steps->going_um) - ROOM_UM;
	s->right_um = (double)f->run_um + fmax(landing + ROOM_UM, TAIL_UM);
	s->top_um = (double)f->top_um + ROOM_UM / 2;
	s->low_um = low - ROOM_UM;
	s->um = fmax((s->right_um - s->left_um) / (s->a.cols > 1 ? s->a.cols - 1 : 1),
	        (s->top_um - s->low_um) / (2.0 * (s->a.rows > 1 ? s->a.rows - 1 : 1)));
	s->um = fmin(s->um, (double)f->steps->going_um / GOING_COLS);
}

static void along(const struct side *s, double from, double to, double level, enum glyph line,
        enum style style)
{
	for (int col = col_at(s, from); col <= col_at(s, to); col++)
		area_put(&s->a, row_at(s, level), col, glyph(s->ascii, line), style);
}

/* What stands between two places and two levels; empty inside. */
static void box(const struct side *s, double from, double to, double low, double high)
{
	int left = col_at(s, from), right = col_at(s, to);

	for (int row = row_at(s, high) + 1; row < row_at(s, low); row++) {
		for (int col = left + 1; col < right; col++)
			area_put(&s->a, row, col, L' ', STYLE_PLAIN);
		area_put(&s->a, row, left, glyph(s->ascii, GLYPH_UPRIGHT), STYLE_EDGE);
		area_put(&s->a, row, right, glyph(s->ascii, GLYPH_UPRIGHT), STYLE_EDGE);
	}
	along(s, from, to, low, GLYPH_ALONG, STYLE_EDGE);
	along(s, from, to, high, GLYPH_ALONG, STYLE_EDGE);
}

static void draw_row(const struct side *s, size_t i)
{
	const struct step_row *r = &s->f->rows[i];
	const struct plan_steps *steps = s->f->steps;

	if (of_units(s)) {
		box(s, (double)r->back_um, (double)r->front_um, (double)r->underside_um,
		        (double)r->top_um);
		return;
	}
	box(s, (double)(r->face_um - steps->unit_depth_um), (double)r->face_um,
	        (double)r->underside_um, (double)r->top_um);
	if (r->front_um > r->back_um)
		box(s, (double)r->back_um, (double)r->front_um,
		        (double)(r->level_um - steps->tread_um), (double)r->level_um);
}

/* s of row i's nosing. */
static double nosing_um(const struct side *s, size_t i)
{
	return (double)((s->f->risers - 1 - (int64_t)i) * s->f->steps->going_um);
}

/* A riser's height before it; a going in the step under it. */
static void draw_measures(const struct side *s, size_t i)
{
	const struct step_row *r = &s->f->rows[i];
	double at = nosing_um(s, i), foot = (double)(r->level_um - r->riser_um);
	int row = (row_at(s, (double)r->level_um) + row_at(s, foot) + 1) / 2, col;
	char text[24];

	snprintf(text, sizeof text, "%.1f", (double)r->riser_um / 1000);
	area_text(&s->a, row, col_at(s, at) + 2, (int)strlen(text), STYLE_NUMBER, text);
	if (i + 1 == s->f->row_count)
		return;
	snprintf(text, sizeof text, "%g", (double)s->f->steps->going_um / 1000);
	col = (col_at(s, at - (double)s->f->steps->going_um) + col_at(s, at) + 1 -
	              (int)strlen(text)) /
	      2;
	if (row_at(s, (double)r->level_um) + 1 < row_at(s, foot) || !of_units(s))
		area_text(&s->a, row_at(s, (double)r->level_um) + 1, col, (int)strlen(text),
		        STYLE_QUIET, text);
}

static void draw_sunk(const struct side *s)
{
	char text[48];

	if (!s->f->row_count || s->f->rows[0].sunk_um <= 0)
		return;
	snprintf(text, sizeof text, "sinks %.1f mm", (double)s->f->rows[0].sunk_um / 1000);
	area_text(&s->a, row_at(s, (double)s->f->bottom_um) + 1, col_at(s, nosing_um(s, 0)) + 2,
	        (int)strlen(text), STYLE_NUMBER, text);
}

static void draw_margin(const struct side *s, const struct area *margin)
{
	char text[24];

	for (size_t i = 0; i <= s->f->row_count; i++) {
		int64_t um = i < s->f->row_count ? s->f->rows[i].level_um : s->f->bottom_um;

		snprintf(text, sizeof text, "%+.3f", (double)um / 1e6);
		area_text_right(margin, row_at(s, (double)um), 0, MARGIN - 1, STYLE_NUMBER, text);
	}
}

static void draw_picture(const struct side *s)
{
	double run = (double)s->f->run_um;

	along(s, s->left_um, 0, (double)s->f->top_um, GLYPH_SURFACE, STYLE_GOOD);
	along(s, run, s->right_um, (double)s->f->bottom_um, GLYPH_SURFACE, STYLE_GOOD);
	for (size_t i = 0; i < s->f->row_count; i++)
		draw_row(s, i);
	for (size_t i = 0; i < s->f->row_count; i++)
		draw_measures(s, i);
	draw_sunk(s);
}

static void put_words(const struct side *s, const struct area *a, size_t number,
        const struct elevation_view *view)
{
	const struct flight *f = s->f;
	char text[300];
	int col;

	snprintf(text, sizeof text, "Flight %zu%s%.100s, from the side", number + 1,
	        *f->steps->name ? ": " : "", f->steps->name);
	area_text(a, 0, 0, a->cols, STYLE_TITLE, text);
	snprintf(text, sizeof text,
	        "rise %.0f mm: %" PRId64 " riser%s of %.1f, going %g, pitch %.1f deg",
	        (double)f->rise_um / 1000, f->risers, f->risers == 1 ? "" : "s", f->riser_um / 1000,
	        (double)f->steps->going_um / 1000, f->pitch_deg);
	area_text(a, 1, 0, a->cols, STYLE_QUIET, text);
	area_put(a, a->rows - 1, 0, glyph(s->ascii, GLYPH_SURFACE), STYLE_GOOD);
	col = 4 + area_text(a, a->rows - 1, 2, a->cols - 2, STYLE_QUIET,
	                  "paving at the top, ground at the foot");
	if ((view->most_across || view->most_down) && col < a->cols)
		area_text_right(
		        a, a->rows - 1, col, a->cols - col, STYLE_KEY, "there is more: arrow keys");
}

void elevation_flight(
        const struct area *a, const struct flight *f, size_t number, struct elevation_view *view)
{
	struct area margin = area_part(a, 2, 0, a->rows - 3, MARGIN);
	struct side s = {
		.a = area_part(a, 2, MARGIN, a->rows - 3, a->cols - MARGIN),
		.f = f,
		.ascii = a->cells->ascii,
	};

	choose_scale(&s);
	elevation_settle(view, &s.a, (int)lround((s.right_um - s.left_um) / s.um) + 1,
	        (int)lround((s.top_um - s.low_um) / (2 * s.um)) + 1);
	s.across = view->across;
	s.down = view->down;
	draw_margin(&s, &margin);
	draw_picture(&s);
	put_words(&s, a, number, view);
}
