/* slabs.c - slabs drawn to scale.
 *
 * Each column of the sketch asks which slab position its middle lies in; where that differs from
 * the column to the left or the row below there is a joint. Only what is on the screen is asked
 * for. Where columns are too coarse for that, dots.c does it dot by dot. */
#include "sketch.h"
#include "zones.h"

#include <ctype.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>

/* The piece that holds the spot; NULL where the slab is whole. */
static const struct piece *piece_there(const struct spot *spot)
{
	struct point local = { spot->at.x - spot->cell.x0, spot->at.y - spot->cell.y0 };
	const struct piece *p = spot->pieces;

	for (size_t i = 1; i < spot->piece_count; i++)
		if (points_contain(p[i].shape.rings[0].p, p[i].shape.rings[0].n, local))
			return &p[i];
	return p;
}

enum piece_kind spot_kind(const struct spot *spot)
{
	const struct piece *p = piece_there(spot);

	return p ? p->kind : PIECE_WHOLE;
}

struct spotter spotter_of(const struct app *app, struct arena *mem, int count)
{
	const struct paving *p = &app->t.laid;
	struct spotter spotter = { .app = app,
		.views = arena_alloc(mem, p->section_count, sizeof *spotter.views),
		.line = arena_alloc(mem, (size_t)count, 1) };

	if (!spotter.line)
		spotter.views = NULL;
	for (size_t i = 0; spotter.views && i < p->section_count; i++) {
		turn_of(p->sections[i].laying.rotation_udeg, &spotter.views[i].cosine,
		        &spotter.views[i].sine);
		spotter.views[i].look =
		        section_look(&p->sections[i], app->view.cell_um, app->ascii);
	}
	return spotter;
}

const struct section_view *spot_view(const struct spotter *s, const struct spot *spot)
{
	return &s->views[spot->section - s->app->t.laid.sections];
}

/* As section_from_plan, with the turn worked out beforehand. */
static struct point to_frame(const struct spotter *s, const struct spot *spot, double x, double y)
{
	const struct section_view *v = spot_view(s, spot);
	double dx = x - (double)spot->section->laying.start_x_um,
	       dy = y - (double)spot->section->laying.start_y_um;

	if (spot->section->strip)
		return section_from_plan(spot->section, (struct point){ x, y });
	return (struct point){ dx * v->cosine + dy * v->sine, dy * v->cosine - dx * v->sine };
}

/* Whether a spot's slab holds what lies at `at` in the frame of a section. */
static bool in_cell(const struct spot *spot, const struct section *section, struct point at)
{
	const struct box *cell = &spot->cell;

	return spot->looked_up == section && at.x >= cell->x0 && at.x < cell->x1 &&
	       at.y >= cell->y0 && at.y < cell->y1;
}

/* Finds the slab's cell and its pieces. */
static void look_up(struct spot *spot)
{
	const struct laying *laid = &spot->section->laid;
	double joint = (double)laid->pattern.joint_um;
	struct point corner, size;

	*spot = (struct spot){ spot->section, .at = spot->at, .looked_up = spot->section };
	laid_at(laid, spot->at, &spot->slab);
	corner = laid_corner(laid, spot->slab);
	size = laid_size(laid, spot->slab);
	spot->cell = (struct box){ corner.x, corner.y, corner.x + size.x + joint,
		corner.y + size.y + joint };
	if (in_cell(spot, spot->section, spot->at)) /* else there is no slab */
		spot->pieces = pieces_at(laid, spot->slab, &spot->piece_count);
}

/* `left` and `below` may be *out. */
static void spot_at_point(const struct spotter *spotter, double x, double y,
        const struct spot *left, const struct spot *below, struct spot *out)
{
	const struct section *section = out->section;
	struct point at = to_frame(spotter, out, x, y);
	const struct spot *near = in_cell(left, section, at)    ? left
	                          : in_cell(below, section, at) ? below
	                                                        : NULL;

	if (near)
		*out = *near;
	out->section = section;
	out->at = at;
	if (!near)
		look_up(out);
}

void spot_line(const struct spotter *spotter, double x, double y, double step, int count,
        struct spot *line, const struct spot *below)
{
	const struct paving *p = &spotter->app->t.laid;

	for (int i = 0; i < count; i++)
		line[i].section = NULL;
	for (size_t k = 0; k < p->section_count; k++) {
		if (!p->sections[k].paved)
			continue;
		sketch_scan(&p->sections[k].region, x, y, step, count, spotter->line);
		for (int i = 0; i < count; i++)
			if (spotter->line[i])
				line[i].section = &p->sections[k];
	}
	for (int i = 0; i < count; i++)
		if (line[i].section)
			spot_at_point(spotter, x + i * step, y, &line[i ? i - 1 : 0], &below[i],
			        &line[i]);
}

bool spot_same(const struct spot *a, const struct spot *b)
{
	return a->section == b->section && a->slab.course == b->slab.course &&
	       a->slab.index == b->slab.index && a->slab.part == b->slab.part;
}

/* How a joint lies in the plan: its character follows from that. */
enum lie { LIE_ALONG, LIE_RISING, LIE_UPRIGHT, LIE_FALLING };

struct joints {
	bool shown;
	enum lie level, upright; /* joints that lie along x and along y of the pattern frame */
};

/* Which way a section's frame is turned in the plan at a point of it. */
static int64_t turn_at(const struct section *s, struct point at)
{
	struct point a, b;

	if (!s->strip)
		return s->laying.rotation_udeg;
	a = plan_from_section(s, at);
	b = plan_from_section(s, (struct point){ at.x + 1000, at.y });
	return llround(atan2(b.y - a.y, b.x - a.x) * (double)(180 * UDEG_PER_DEG) / acos(-1));
}

static struct joints joints_of(const struct spotter *spotter, const struct spot *spot)
{
	int64_t eighth = 45 * UDEG_PER_DEG, turn = turn_at(spot->section, spot->at) % (4 * eighth);
	int way = (int)(((turn + 4 * eighth + eighth / 2) / eighth) % 4);

	return (struct joints){ spot_view(spotter, spot)->look == LOOK_LINES, (enum lie)way,
		(enum lie)((way + 2) % 4) };
}

/* The joint between two slabs lies along y where the other one is beside the first, not above or
 * below it. */
static bool stand_abreast(const struct spot *here, const struct spot *other)
{
	return other->at.y >= here->cell.y0 && other->at.y <= here->cell.y1;
}

/* How the joint between two positions lies. */
static enum lie lie_between(
        const struct joints *j, const struct spot *here, const struct spot *other, bool below)
{
	if (here->section != other->section)
		return below ? LIE_ALONG : LIE_UPRIGHT;
	return stand_abreast(here, other) ? j->upright : j->level;
}

/* The joint between two positions, seen by the cell on its right or above it; 0 for none there. */
static wchar_t joint_char(bool ascii, const struct joints *j, const struct spot *here,
        const struct spot *other, bool below)
{
	enum lie lie;

	if (spot_same(here, other) || (!j->shown && here->section == other->section) ||
	        !other->section)
		return 0;
	lie = lie_between(j, here, other, below);
	if (below != (lie == LIE_ALONG))
		return 0;
	switch (lie) {
	case LIE_ALONG:
		return glyph(ascii, GLYPH_JOINT_BELOW);
	case LIE_UPRIGHT:
		return glyph(ascii, GLYPH_JOINT_LEFT);
	default:
		return glyph(ascii, lie == LIE_RISING ? GLYPH_RISING : GLYPH_FALLING);
	}
}

void slabs_fill(const struct sketch *s, int row, int col, enum piece_kind kind)
{
	static const enum glyph fill[] = { GLYPHS, GLYPH_CUT, GLYPH_SLIVER, GLYPH_MADE_UP };
	static const enum style style[] = { STYLE_JOINT, STYLE_CUT, STYLE_SLIVER, STYLE_CUT };

	area_put(&s->area, row, col, glyph(s->app->ascii, fill[kind]), style[kind]);
}

static void draw_spot(const struct sketch *s, const struct spotter *spotter, int row, int col,
        const struct spot *here, const struct spot *left, const struct spot *below)
{
	struct joints joints = joints_of(spotter, here);
	enum piece_kind kind = spot_kind(here);
	bool ascii = s->app->ascii;
	wchar_t beside = joint_char(ascii, &joints, here, left, false);
	wchar_t under = joint_char(ascii, &joints, here, below, true);

	if (beside)
		area_put(&s->area, row, col, beside, STYLE_JOINT);
	else if (kind != PIECE_WHOLE)
		slabs_fill(s, row, col, kind);
	else
		area_put(&s->area, row, col, under ? under : L' ', STYLE_JOINT);
}

/* Slivers and made-up pieces may be too narrow to meet a column's middle: each gets its mark. */
void slabs_mark_narrow(const struct sketch *s)
{
	const struct app *app = s->app;

	if (!app->t.ready)
		return;
	for (size_t i = 0; i < app->t.laid.piece_count; i++) {
		const struct piece *p = &app->t.laid.pieces[i];
		const struct section *section = section_of_piece(&app->t.laid, p);
		struct point corner, at;
		int row, col;

		if (p->kind != PIECE_SLIVER && p->kind != PIECE_MADE_UP)
			continue;
		corner = laid_corner(&section->laid, p->spot);
		at.x = corner.x + (p->box.x0 + p->box.x1) / 2;
		at.y = corner.y + (p->box.y0 + p->box.y1) / 2;
		at = plan_from_section(section, at);
		row = sketch_row(s, at.y), col = sketch_col(s, at.x);
		area_put(&s->area, row, col,
		        glyph(app->ascii, p->kind == PIECE_SLIVER ? GLYPH_SLIVER : GLYPH_MADE_UP),
		        p->kind == PIECE_SLIVER ? STYLE_SLIVER : STYLE_CUT);
	}
}

static void mark_start(const struct sketch *s)
{
	const struct plan_laying *l = laying_here(s->app);

	if (!paved_here(s->app))
		return;
	sketch_mark(s, sketch_row(s, (double)l->start_y_um), sketch_col(s, (double)l->start_x_um),
	        glyph(s->app->ascii, GLYPH_START), STYLE_STRONG);
}

/* Column by column, for lines and where only cut pieces are marked. */
static void draw_columns(const struct sketch *s)
{
	int cols = s->area.cols;
	struct spotter spotter = spotter_of(s->app, s->mem, cols + 1);
	struct spot *rows[2];

	rows[0] = arena_alloc(s->mem, (size_t)cols + 1, sizeof *rows[0]);
	rows[1] = arena_alloc(s->mem, (size_t)cols + 1, sizeof *rows[1]);
	if (!rows[0] || !rows[1] || !spotter.views)
		return;
	/* From the row under the sketch upwards; [col + 1] is column col, so that each has one to
	 * its left. */
	for (int row = s->area.rows; row >= 0; row--) {
		struct spot *here = rows[row & 1], *below = rows[(row & 1) ^ 1];

		spot_line(&spotter, sketch_x(s, -1), sketch_y(s, row),
		        (double)s->app->view.cell_um / 2, cols + 1, here, below);
		for (int col = 1; col <= cols && row < s->area.rows; col++)
			if (here[col].section)
				draw_spot(s, &spotter, row, col - 1, &here[col], &here[col - 1],
				        &below[col]);
	}
}

void slabs_draw(const struct sketch *s)
{
	if (!s->app->t.ready)
		return;
	if (slabs_look(s->app, s->app->view.cell_um) == LOOK_DOTS)
		dots_draw(s);
	else
		draw_columns(s);
	mark_start(s);
}

static const char *sides_words(struct arena *mem, const struct piece *p)
{
	static const struct {
		unsigned side;
		const char *name;
	} sides[] = { { SIDE_LEFT, "left" }, { SIDE_RIGHT, "right" }, { SIDE_BOTTOM, "bottom" },
		{ SIDE_TOP, "top" } };
	const char *words = "";

	for (int i = 0; i < 4 && words; i++)
		if (!(p->sides & sides[i].side))
			words = arena_print(
			        mem, "%s%s%s", words, *words ? ", " : "", sides[i].name);
	if (words && !*words)
		return "cut at a corner";
	return words ? arena_print(mem, "cut: %s", words) : "";
}

/* ", of cut slab 12" for a piece that the cut plan has; the cut list numbers them so. */
static const char *source_words(struct arena *mem, const struct takeoff *t, const struct piece *p)
{
	size_t number = (size_t)(p - t->laid.pieces);
	const char *words = "";

	for (size_t i = 0; i < t->cuts.slabs; i++)
		for (int k = 0; k < t->cuts.sources[i].count; k++)
			if (t->cuts.sources[i].place[k].piece == number)
				words = arena_print(mem, "; from cut slab %zu", i + 1);
	return words ? words : "";
}

/* "border along edge 3: " where the paving has several parts. */
static const char *section_words(struct app *app, const struct section *s)
{
	const char *words =
	        app->t.laid.section_count > 1 ? arena_print(&app->frame_mem, "%s: ", s->name) : "";

	return words ? words : "";
}

/* Of a part without slabs. */
static const char *bare_words(struct app *app, const struct section *s)
{
	char *words = arena_print(&app->frame_mem, "%s: no slabs.", s->name);

	if (!words)
		return "";
	*words = (char)toupper((unsigned char)*words);
	return words;
}

static const char *spot_words(struct app *app, const struct spot *spot)
{
	static const char *const names[] = { "whole slab", "cut piece", "sliver",
		"made up in the joint" };
	const struct piece *p = piece_there(spot);
	struct point size = p ? (struct point){ p->box.x1 - p->box.x0, p->box.y1 - p->box.y0 }
	                      : laid_size(&spot->section->laid, spot->slab);
	char *words = arena_print(&app->frame_mem,
	        "%scourse %" PRId64 ", slab %" PRId64 "%s: %s, %.0f x %.0f mm%s%s%s",
	        section_words(app, spot->section), spot->slab.course, spot->slab.index,
	        spot->section->laid.pattern.parts[spot->slab.part].standing ? ", standing" : "",
	        names[p ? p->kind : PIECE_WHOLE], size.x / 1000, size.y / 1000, p ? "; " : ".",
	        p ? sides_words(&app->frame_mem, p) : "",
	        p ? source_words(&app->frame_mem, &app->t, p) : "");

	if (!words)
		return "";
	*words = (char)toupper((unsigned char)*words);
	return words;
}

const char *slab_words(struct app *app)
{
	struct point plan = { (double)app->view.x_um, (double)app->view.y_um };
	struct spot spot = { 0 };

	if (!app->t.ready || !region_contains(&app->t.region, plan))
		return "";
	spot.section = section_at(&app->t.laid, plan);
	if (!spot.section)
		return "the gap left open along the edge";
	if (!spot.section->paved)
		return bare_words(app, spot.section);
	spot.at = section_from_plan(spot.section, plan);
	if (!laid_at(&spot.section->laid, spot.at, &spot.slab))
		return "a joint";
	look_up(&spot);
	return spot_words(app, &spot);
}
