/* slabs.c - slabs drawn to scale.
 *
 * Each column of the sketch asks which slab position its middle lies in; where that differs from
 * the column to the left or the row below there is a joint. Only what is on the screen is asked
 * for. Where columns are too coarse for that, dots.c does it dot by dot. */
#include "sketch.h"

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

struct spotter spotter_of(const struct app *app)
{
	struct spotter spotter = { .app = app };

	turn_of(app->plan.laying.rotation_udeg, &spotter.cosine, &spotter.sine);
	return spotter;
}

/* As frame_from_plan, with the turn worked out beforehand. */
static struct point to_frame(const struct spotter *s, double x, double y)
{
	const struct plan_laying *l = &s->app->plan.laying;
	double dx = x - (double)l->start_x_um, dy = y - (double)l->start_y_um;

	return (struct point){ dx * s->cosine + dy * s->sine, dy * s->cosine - dx * s->sine };
}

static bool in_cell(const struct spot *spot, struct point at)
{
	const struct box *cell = &spot->cell;

	return spot->known && at.x >= cell->x0 && at.x < cell->x1 && at.y >= cell->y0 &&
	       at.y < cell->y1;
}

/* Finds the slab's cell and its pieces. */
static void look_up(const struct laying *laid, struct spot *spot)
{
	double joint = (double)laid->pattern.joint_um;
	struct point corner, size;

	*spot = (struct spot){ .known = true, .paved = spot->paved, .at = spot->at };
	laid_at(laid, spot->at, &spot->slab);
	corner = laid_corner(laid, spot->slab);
	size = laid_size(laid, spot->slab);
	spot->cell = (struct box){ corner.x, corner.y, corner.x + size.x + joint,
		corner.y + size.y + joint };
	if (in_cell(spot, spot->at)) /* else there is no slab */
		spot->pieces = pieces_at(laid, spot->slab, &spot->piece_count);
}

void spot_at_point(const struct spotter *spotter, double x, double y, const struct spot *left,
        const struct spot *below, struct spot *out)
{
	struct point at = to_frame(spotter, x, y);
	const struct spot *near = in_cell(left, at) ? left : in_cell(below, at) ? below : NULL;
	bool paved = out->paved;

	if (near)
		*out = *near;
	out->at = at;
	out->paved = paved;
	if (!near)
		look_up(&spotter->app->t.laid, out);
}

bool spot_same(const struct spot *a, const struct spot *b)
{
	return a->slab.course == b->slab.course && a->slab.index == b->slab.index &&
	       a->slab.part == b->slab.part;
}

/* How a joint lies in the plan: its character follows from that. */
enum lie { LIE_ALONG, LIE_RISING, LIE_UPRIGHT, LIE_FALLING };

struct joints {
	bool shown;
	enum lie level, upright; /* joints that lie along x and along y of the pattern frame */
};

static struct joints joints_of(const struct app *app)
{
	int64_t eighth = 45 * UDEG_PER_DEG, turn = app->plan.laying.rotation_udeg % (4 * eighth);
	int way = (int)(((turn + 4 * eighth + eighth / 2) / eighth) % 4);

	return (struct joints){ slabs_look(app, app->view.cell_um) == LOOK_LINES, (enum lie)way,
		(enum lie)((way + 2) % 4) };
}

/* The joint between two slabs lies along y where the other one is beside the first, not above or
 * below it. */
static bool stand_abreast(const struct spot *here, const struct spot *other)
{
	return other->at.y >= here->cell.y0 && other->at.y <= here->cell.y1;
}

/* The joint between two positions, seen by the cell on its right or above it; 0 for none there. */
static wchar_t joint_char(bool ascii, const struct joints *j, const struct spot *here,
        const struct spot *other, bool below)
{
	enum lie lie;

	if (!j->shown || spot_same(here, other))
		return 0;
	lie = stand_abreast(here, other) ? j->upright : j->level;
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

static void draw_spot(const struct sketch *s, int row, int col, const struct spot *here,
        const struct spot *left, const struct spot *below, const struct joints *joints)
{
	enum piece_kind kind = spot_kind(here);
	bool ascii = s->app->ascii;
	wchar_t beside = joint_char(ascii, joints, here, left, false);
	wchar_t under = joint_char(ascii, joints, here, below, true);

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
	const struct plan_laying *l = &app->plan.laying;

	if (!app->t.ready)
		return;
	for (size_t i = 0; i < app->t.laid.piece_count; i++) {
		const struct piece *p = &app->t.laid.pieces[i];
		struct point corner, at;
		int row, col;

		if (p->kind != PIECE_SLIVER && p->kind != PIECE_MADE_UP)
			continue;
		corner = laid_corner(&app->t.laid, p->spot);
		at.x = corner.x + (p->box.x0 + p->box.x1) / 2;
		at.y = corner.y + (p->box.y0 + p->box.y1) / 2;
		at = plan_from_frame(
		        at, (double)l->start_x_um, (double)l->start_y_um, l->rotation_udeg);
		row = sketch_row(s, at.y), col = sketch_col(s, at.x);
		area_put(&s->area, row, col,
		        glyph(app->ascii, p->kind == PIECE_SLIVER ? GLYPH_SLIVER : GLYPH_MADE_UP),
		        p->kind == PIECE_SLIVER ? STYLE_SLIVER : STYLE_CUT);
	}
}

static void mark_start(const struct sketch *s)
{
	const struct plan_laying *l = &s->app->plan.laying;

	sketch_mark(s, sketch_row(s, (double)l->start_y_um), sketch_col(s, (double)l->start_x_um),
	        glyph(s->app->ascii, GLYPH_START), STYLE_STRONG);
}

/* Column by column, for lines and where only cut pieces are marked. */
static void draw_columns(const struct sketch *s)
{
	int cols = s->area.cols;
	struct joints joints = joints_of(s->app);
	struct spotter spotter = spotter_of(s->app);
	struct spot *rows[2];

	rows[0] = arena_alloc(s->mem, (size_t)cols + 1, sizeof *rows[0]);
	rows[1] = arena_alloc(s->mem, (size_t)cols + 1, sizeof *rows[1]);
	if (!rows[0] || !rows[1])
		return;
	/* From the row under the sketch upwards; [col + 1] is column col, so that each has one to
	 * its left. */
	for (int row = s->area.rows; row >= 0; row--) {
		struct spot *here = rows[row & 1], *below = rows[(row & 1) ^ 1];

		for (int col = 0; col <= cols; col++) {
			spot_at_point(&spotter, sketch_x(s, col - 1), sketch_y(s, row),
			        &here[col ? col - 1 : 0], &below[col], &here[col]);
			if (col && sketch_paved(s, row, col - 1))
				draw_spot(s, row, col - 1, &here[col], &here[col - 1], &below[col],
				        &joints);
		}
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

static bool leaves_gaps(const struct plan_laying *l)
{
	for (int i = 0; i < EDGE_KINDS; i++)
		if (l->edge_joint_um[i])
			return true;
	return false;
}

const char *slab_words(struct app *app)
{
	static const char *const names[] = { "whole slab", "cut piece", "sliver",
		"made up in the joint" };
	struct point plan = { (double)app->view.x_um, (double)app->view.y_um };
	struct spotter spotter = spotter_of(app);
	struct spot none = { 0 }, spot = none;
	const struct piece *p;
	struct point size;
	const char *words;

	if (!app->t.ready || !region_contains(&app->t.region, plan))
		return "";
	spot_at_point(&spotter, plan.x, plan.y, &none, &none, &spot);
	if (leaves_gaps(&app->plan.laying) && !region_contains(&app->t.frame_region, spot.at))
		return "the gap left open along the edge";
	if (!laid_at(&app->t.laid, spot.at, &spot.slab))
		return "a joint";
	p = piece_there(&spot);
	size = p ? (struct point){ p->box.x1 - p->box.x0, p->box.y1 - p->box.y0 }
	         : laid_size(&app->t.laid, spot.slab);
	words = arena_print(&app->frame_mem,
	        "Course %" PRId64 ", slab %" PRId64 "%s: %s, %.0f x %.0f mm%s%s%s",
	        spot.slab.course, spot.slab.index,
	        app->t.laid.pattern.parts[spot.slab.part].standing ? ", standing" : "",
	        names[p ? p->kind : PIECE_WHOLE], size.x / 1000, size.y / 1000, p ? "; " : ".",
	        p ? sides_words(&app->frame_mem, p) : "",
	        p ? source_words(&app->frame_mem, &app->t, p) : "");
	return words ? words : "";
}
