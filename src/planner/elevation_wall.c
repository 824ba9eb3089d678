/* elevation_wall.c - one leg of a planter's wall, course by course. */
#include "elevation.h"
#include "glyph.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MARGIN = 9, BLOCK_COLS = 8, LEAST_ROWS = 2, GOOD_ROWS = 3 };

struct wall {
	struct area a; /* of the picture */
	const struct planter_result *r;
	size_t leg;
	int leaf;
	double col_um;
	int course_rows, cap; /* rows of a course with the line over it, and of the cap */
	int across, down;
	bool ascii;
};

void elevation_settle(struct elevation_view *view, const struct area *a, int cols, int rows)
{
	view->most_across = cols > a->cols ? cols - a->cols : 0;
	view->most_down = rows > a->rows ? rows - a->rows : 0;
	if (view->across > view->most_across)
		view->across = view->most_across;
	if (view->down > view->most_down)
		view->down = view->most_down;
	if (view->across < 0)
		view->across = 0;
	if (view->down < 0)
		view->down = 0;
}

static int64_t courses_of(const struct wall *w)
{
	return w->r->planter->courses;
}

static int col_at(const struct wall *w, double u_um)
{
	return (int)lround(u_um / w->col_um) - w->across;
}

/* Of the line under course k; of the wall's top: one course more than there are. */
static int line_row(const struct wall *w, int64_t course)
{
	return w->cap + (int)(courses_of(w) + 1 - course) * w->course_rows - w->down;
}

/* As large as fits, but a block takes some columns and a course two rows. */
static void choose_scale(struct wall *w)
{
	const struct plan_block *b = &w->r->planter->block;
	double pitch = (double)(b->height_um + b->joint_um), fit,
	       least = (double)b->length_um / BLOCK_COLS;
	int most_rows = (w->a.rows - w->cap - 3) / (int)courses_of(w), least_rows;

	if (most_rows < LEAST_ROWS)
		most_rows = LEAST_ROWS;
	least_rows = most_rows < GOOD_ROWS ? most_rows : GOOD_ROWS;
	fit = (double)w->r->legs[w->leg].length_um / (w->a.cols > 2 ? w->a.cols - 2 : 1);
	w->col_um = fmin(fmax(fit, pitch / (2.0 * most_rows)), least);
	w->course_rows = (int)lround(fmin(fmax(pitch / (2 * w->col_um), least_rows), most_rows));
}

static void along(const struct wall *w, int row, wchar_t ch, enum style style)
{
	int to = col_at(w, (double)w->r->legs[w->leg].length_um);

	for (int col = col_at(w, 0); col <= to; col++)
		area_put(&w->a, row, col, ch, style);
}

static void upright(const struct wall *w, int64_t course, int col, enum style style)
{
	for (int row = line_row(w, course + 1) + 1; row < line_row(w, course); row++)
		area_put(&w->a, row, col, glyph(w->ascii, GLYPH_UPRIGHT), style);
}

/* From left to right, on the side that is seen. */
static void ends_of(const struct planter_unit *unit, double *from, double *to)
{
	*from = unit->leaf ? unit->from_in_um : unit->from_out_um;
	*to = unit->leaf ? unit->to_in_um : unit->to_out_um;
}

static bool is_seen(const struct wall *w, const struct planter_unit *unit)
{
	return unit->leg == w->leg && unit->leaf == w->leaf;
}

static void fill_cuts(const struct wall *w, int64_t course)
{
	const struct planter_course *c = planter_course(w->r, course);
	double from, to;

	for (size_t i = 0; i < c->unit_count; i++) {
		if (!is_seen(w, &c->units[i]) || c->units[i].piece != UNIT_CUT)
			continue;
		ends_of(&c->units[i], &from, &to);
		for (int col = col_at(w, from) + 1; col < col_at(w, to); col++)
			for (int row = line_row(w, course + 1) + 1; row < line_row(w, course);
			        row++)
				area_put(&w->a, row, col, glyph(w->ascii, GLYPH_CUT), STYLE_CUT);
	}
}

/* The length of a unit that is not whole, where it has room. */
static void put_length(const struct wall *w, int64_t course, const struct planter_unit *unit)
{
	double from, to;
	int left, right, middle = (line_row(w, course + 1) + line_row(w, course)) / 2, width;
	char mm[24];

	if (unit->piece == UNIT_WHOLE)
		return;
	ends_of(unit, &from, &to);
	left = col_at(w, from);
	right = col_at(w, to);
	snprintf(mm, sizeof mm, "%.0f", (double)unit->length_um / 1000);
	width = (int)strlen(mm);
	if (right - left - 1 >= width)
		area_text(&w->a, middle, (left + right + 1 - width) / 2, width, STYLE_STRONG, mm);
}

static void draw_course(const struct wall *w, int64_t course)
{
	const struct planter_course *c = planter_course(w->r, course);

	for (size_t i = 0; i < c->unit_count; i++)
		if (is_seen(w, &c->units[i]))
			put_length(w, course, &c->units[i]);
	for (size_t i = 0; i < c->joint_count; i++)
		if (c->joints[i].leg == w->leg && c->joints[i].leaf == w->leaf)
			upright(w, course, col_at(w, c->joints[i].u_um), STYLE_EDGE);
	upright(w, course, col_at(w, 0), STYLE_STRONG);
	upright(w, course, col_at(w, (double)w->r->legs[w->leg].length_um), STYLE_STRONG);
}

/* Ties lie in slots on top of their course. */
static void draw_ties(const struct wall *w, int64_t course)
{
	const struct planter_course *c = planter_course(w->r, course);

	for (size_t i = 0; i < c->tie_count; i++)
		if (c->ties[i].leg == w->leg)
			area_put(&w->a, line_row(w, course + 1), col_at(w, c->ties[i].u_um),
			        glyph(w->ascii, GLYPH_TIE), STYLE_KEY);
}

static void draw_cap(const struct wall *w)
{
	const struct planter_cap *cap = &w->r->cap;
	int row = line_row(w, courses_of(w) + 1) - 1;

	if (!w->cap)
		return;
	along(w, row, glyph(w->ascii, GLYPH_CAP), STYLE_EDGE);
	for (size_t i = 0; i < cap->piece_count; i++)
		if (cap->pieces[i].leg == w->leg && cap->pieces[i].from_um > 0)
			area_put(&w->a, row, col_at(w, cap->pieces[i].from_um),
			        glyph(w->ascii, GLYPH_UPRIGHT), STYLE_STRONG);
	for (size_t i = 0; i < cap->fixing_count; i++)
		if (cap->fixings[i].leg == w->leg)
			area_put(&w->a, row, col_at(w, cap->fixings[i].u_um),
			        glyph(w->ascii, GLYPH_FIXING), STYLE_KEY);
}

static void draw_weeps(const struct wall *w)
{
	for (size_t i = 0; i < w->r->fill.weep_count; i++)
		if (w->r->fill.weeps[i].leg == w->leg)
			area_put(&w->a, line_row(w, 1) - 1, col_at(w, w->r->fill.weeps[i].u_um),
			        glyph(w->ascii, GLYPH_WEEP), STYLE_WATER);
}

/* The finished surface at the outer face, column by column, where the drawing reaches. */
static void draw_surface(const struct wall *w, const struct plan_surface *surface)
{
	const struct plan_block *b = &w->r->planter->block;
	double pitch = (double)(b->height_um + b->joint_um);
	int to = col_at(w, (double)w->r->legs[w->leg].length_um);

	for (int col = col_at(w, 0); col <= to; col++) {
		struct point p = planter_point(w->r, w->leg, (col + w->across) * w->col_um, 0);
		double over = surface_level_um(surface, p.x, p.y) - (double)w->r->planter->base_um;
		int row = line_row(w, 1) - (int)lround(over / pitch * w->course_rows);

		if (row <= line_row(w, 1) + 1 && row >= line_row(w, courses_of(w) + 1) - w->cap)
			area_put(&w->a, row, col, glyph(w->ascii, GLYPH_SURFACE), STYLE_GOOD);
	}
}

/* Beside the wall: the level of each line, the number of each course. */
static void draw_margin(const struct wall *w, const struct area *margin)
{
	char text[32];

	for (int64_t k = 1; k <= courses_of(w) + 1; k++) {
		int64_t um = k <= courses_of(w) ? planter_course_um(w->r, k) : w->r->top_um;

		snprintf(text, sizeof text, "%+.3f", (double)um / 1e6);
		area_text_right(margin, line_row(w, k), 0, MARGIN - 1, STYLE_NUMBER, text);
		if (k > courses_of(w))
			continue;
		snprintf(text, sizeof text, "%" PRId64, k);
		area_text_right(margin, (line_row(w, k + 1) + line_row(w, k)) / 2, 0, MARGIN - 4,
		        STYLE_QUIET, text);
	}
}

/* Metres from the leg's first corner, under the footing. */
static void draw_ruler(const struct wall *w)
{
	static const double steps[] = { 1e5, 2e5, 5e5, 1e6, 2e6, 5e6, 1e7, 2e7, 5e7, 1e8 };
	double step = steps[0], length = (double)w->r->legs[w->leg].length_um;
	char text[24];

	for (size_t i = 0; i < sizeof steps / sizeof steps[0] && step < 8 * w->col_um; i++)
		step = steps[i];
	for (int i = 0; i * step <= length; i++) {
		int row = line_row(w, 1) + 2, col = col_at(w, i * step);

		area_put(&w->a, row, col, glyph(w->ascii, GLYPH_TICK), STYLE_QUIET);
		snprintf(text, sizeof text, "%g", i * step / 1e6);
		area_text(&w->a, row, col + 1, 6, STYLE_QUIET, text);
	}
}

static void draw_picture(const struct wall *w, const struct plan_surface *surface)
{
	along(w, line_row(w, 1) + 1, glyph(w->ascii, GLYPH_CUT), STYLE_QUIET);
	for (int64_t k = 1; k <= courses_of(w) + 1; k++)
		along(w, line_row(w, k), glyph(w->ascii, GLYPH_ALONG), STYLE_EDGE);
	for (int64_t k = 1; k <= courses_of(w); k++)
		fill_cuts(w, k);
	if (surface && surface->count)
		draw_surface(w, surface);
	for (int64_t k = 1; k <= courses_of(w); k++)
		draw_course(w, k);
	for (int64_t k = 1; k <= courses_of(w); k++)
		draw_ties(w, k);
	draw_weeps(w);
	draw_cap(w);
	draw_ruler(w);
}

/* --- in words --- */

static void put_heads(const struct wall *w, const struct area *a, size_t number)
{
	const struct planter_result *r = w->r;
	const struct planter_leg *leg = &r->legs[w->leg];
	const struct planter_corner *from = &r->corners[leg->from], *to = &r->corners[leg->to];
	char name[120], text[300];

	planter_words(name, sizeof name, r->planter, number);
	name[0] = 'P';
	snprintf(text, sizeof text, "leg %zu of %zu: corner %zu to %zu, %.3f m, from outside%s",
	        w->leg + 1, r->leg_count, from->point + 1, to->point + 1,
	        (double)leg->length_um / 1e6,
	        r->leaf_count < 2 ? ""
	        : w->leaf         ? ", inner leaf"
	                          : ", outer leaf");
	area_text(a, 0, 0, a->cols, STYLE_TITLE, text);
	if (text_columns(text, w->ascii) + 12 < a->cols) {
		int col = text_columns(text, w->ascii) + 2;

		area_text_right(a, 0, col, a->cols - col, STYLE_QUIET, name);
	}
	if (!r->has_surface)
		snprintf(text, sizeof text, "No level of the paving is known yet.");
	else
		snprintf(text, sizeof text,
		        "It stands %.0f mm over the paving at its left end, %.0f mm at its right.",
		        from->reveal_um / 1000, to->reveal_um / 1000);
	area_text(a, 1, 0, a->cols, STYLE_QUIET, text);
}

static size_t append(char *buf, size_t size, size_t used, const char *words)
{
	int n = used < size ? snprintf(buf + used, size - used, "%s", words) : 0;

	return n > 0 ? used + (size_t)n : used;
}

/* "Courses 1, 3 ...: 6 whole, 1 half, cut 215 + 105 mm". */
static void put_course(const struct wall *w, const struct area *a, int row, int64_t course)
{
	const struct planter_course *c = planter_course(w->r, course);
	int whole = 0, half = 0, cut = 0;
	char cuts[200] = "", halves[32] = "", text[320], mm[32];
	size_t used = 0;

	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];

		if (!is_seen(w, u))
			continue;
		whole += u->piece == UNIT_WHOLE;
		half += u->piece == UNIT_HALF;
		if (u->piece != UNIT_CUT)
			continue;
		snprintf(mm, sizeof mm, "%s%.0f", cut++ ? " + " : "", (double)u->length_um / 1000);
		used = append(cuts, sizeof cuts, used, mm);
	}
	if (half)
		snprintf(halves, sizeof halves, ", %d half", half);
	snprintf(text, sizeof text, "%s %s: %d whole%s, %s%s%s",
	        courses_of(w) < course + 2 ? "Course" : "Courses",
	        courses_of(w) < course + 2 ? (course == 1 ? "1" : "2")
	        : course == 1              ? "1, 3 .."
	                                   : "2, 4 ..",
	        whole, halves, cut ? "cut " : "none cut", cuts, cut ? " mm" : "");
	area_text(a, row, 0, a->cols, STYLE_PLAIN, text);
}

/* What is drawn, in marks; and how to see the rest. */
static void put_legend(
        const struct wall *w, const struct area *a, int row, const struct elevation_view *view)
{
	char text[200] = "";
	size_t used = 0;
	int col = 0;
	const struct {
		bool has;
		enum glyph mark;
		const char *words;
	} marks[] = {
		{ w->r->blocks.cut > 0, GLYPH_CUT, "cut" },
		{ w->r->tie_count > 0, GLYPH_TIE, "tie" },
		{ w->r->fill.weep_count > 0, GLYPH_WEEP, "drainage hole" },
		{ w->cap > 0, GLYPH_FIXING, "fixing" },
		{ w->r->has_surface, GLYPH_SURFACE, "paving" },
	};

	for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
		if (!marks[i].has)
			continue;
		area_put(a, row, col, glyph(w->ascii, marks[i].mark), STYLE_STRONG);
		col += 2 +
		       area_text(a, row, col + 2, a->cols - col - 2, STYLE_QUIET, marks[i].words) +
		       2;
	}
	if (view->most_across)
		used = append(text, sizeof text, used, "there is more to the side");
	if (view->most_down)
		append(text, sizeof text, used,
		        used ? ", and up or down" : "there is more up or down");
	if (*text && col < a->cols)
		area_text_right(a, row, col, a->cols - col, STYLE_KEY, text);
}

void elevation_wall(const struct area *a, const struct planter_result *r, size_t number, size_t leg,
        int leaf, const struct plan_surface *surface, struct elevation_view *view)
{
	struct area margin = area_part(a, 2, 0, a->rows - 5, MARGIN);
	struct wall w = {
		.a = area_part(a, 2, MARGIN, a->rows - 5, a->cols - MARGIN),
		.r = r,
		.leg = leg,
		.leaf = leaf,
		.cap = r->cap.units > 0,
		.ascii = a->cells->ascii,
	};

	choose_scale(&w);
	elevation_settle(view, &w.a, (int)lround((double)r->legs[leg].length_um / w.col_um) + 1,
	        w.cap + (int)courses_of(&w) * w.course_rows + 3);
	w.across = view->across;
	w.down = view->down;
	draw_margin(&w, &margin);
	draw_picture(&w, surface);
	put_heads(&w, a, number);
	put_course(&w, a, a->rows - 3, 1);
	if (courses_of(&w) > 1)
		put_course(&w, a, a->rows - 2, 2);
	put_legend(&w, a, a->rows - 1, view);
}
