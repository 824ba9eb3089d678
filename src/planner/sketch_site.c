/* sketch_site.c - levels of the ground, baseline and pegs, and what was measured, in the sketch. */
#include "sketch.h"

#include <math.h>
#include <stdio.h>

static void mark(const struct sketch *s, double x, double y, enum glyph which, enum style style,
        const char *label)
{
	int row = sketch_row(s, y), col = sketch_col(s, x);

	sketch_mark(s, row, col, glyph(s->app->ascii, which), style);
	if (!sketch_label(s, row, col + 1, label, style) &&
	        !sketch_label(s, row + 1, col, label, style))
		sketch_label(s, row - 1, col, label, style);
}

/* The triangles between the levels, faintly. */
static void ground_mesh(const struct sketch *s)
{
	const struct ground *g = &s->app->t.earth.ground;
	wchar_t dot = s->app->ascii ? L'.' : L'\u00b7';
	const struct stroke stroke = { dot, dot, dot, dot, STYLE_QUIET, false, true };

	for (size_t i = 0; i < g->mesh.triangle_count; i++) {
		for (int k = 0; k < 3; k++) {
			const struct plan_point
			        *a = &g->points[g->mesh.triangles[i].corner[k]],
			        *b = &g->points[g->mesh.triangles[i].corner[(k + 1) % 3]];

			sketch_stroke(s, (struct point){ (double)a->x_um, (double)a->y_um },
			        (struct point){ (double)b->x_um, (double)b->y_um }, &stroke);
		}
	}
}

static void ground_marks(const struct sketch *s)
{
	const struct plan_site *site = &s->app->plan.site;
	const struct site_result *result = &s->app->t.site;
	char label[32];

	ground_mesh(s);
	for (size_t i = 0; i < site->spot_count; i++) {
		snprintf(label, sizeof label, "%+.3f", (double)site->spots[i].level_um / 1e6);
		mark(s, (double)site->spots[i].x_um, (double)site->spots[i].y_um, GLYPH_SPOT,
		        STYLE_NUMBER, label);
	}
	for (size_t i = 0; result->has_book && i < result->book.count; i++) {
		const struct book_line *l = &result->book.lines[i];

		if (!l->reading->has_place)
			continue;
		snprintf(label, sizeof label, "%+.3f", (double)l->level_um / 1e6);
		mark(s, (double)l->reading->x_um, (double)l->reading->y_um, GLYPH_SPOT,
		        STYLE_NUMBER, label);
	}
}

static void setout_marks(const struct sketch *s)
{
	const struct setout *out = &s->app->t.site.setout;
	struct stroke line = stroke_plain(s->app->ascii, STYLE_STRONG);

	if (!s->app->t.site.has_setout)
		return;
	line.dashed = true;
	sketch_stroke(s, out->first, out->second, &line);
	for (size_t i = 0; i < out->point_count; i++)
		if (out->points[i].is_peg)
			mark(s, out->points[i].x_um, out->points[i].y_um, GLYPH_PEG, STYLE_STRONG,
			        out->points[i].name);
	mark(s, out->first.x, out->first.y, GLYPH_PEG, STYLE_STRONG, "start");
}

/* By how many millimetres a point is too high or low, and whether that is too much. */
static void built_marks(const struct sketch *s)
{
	const struct asbuilt *a = &s->app->t.site.built;
	char label[32];

	for (size_t i = 0; s->app->t.site.has_built && i < a->count; i++) {
		const struct asbuilt_point *at = &a->points[i];
		bool fails = at->level_over_um > 0 || at->place_over_um > 0;

		label[0] = '\0';
		if (at->measured->has_level)
			snprintf(label, sizeof label, "%+.0f%s", at->level_off_um / 1000,
			        fails ? "!" : "");
		else if (fails)
			snprintf(label, sizeof label, "!");
		mark(s, (double)at->measured->x_um, (double)at->measured->y_um, GLYPH_SPOT,
		        fails ? STYLE_WARN : STYLE_GOOD, label);
	}
}

void site_draw(const struct sketch *s)
{
	switch (s->app->place) {
	case AT_GROUND:
		ground_marks(s);
		return;
	case AT_SETOUT:
		setout_marks(s);
		return;
	case AT_CHECK:
		built_marks(s);
		return;
	default:
		return;
	}
}
