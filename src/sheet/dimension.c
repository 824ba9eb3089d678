/* dimension.c - dimension lines; see label.h. */
#include "label.h"

#include <math.h>

static const double TICK_MM = 1.4, GAP_MM = 0.5, OVER_MM = 1.2;

struct line {
	struct point a, b; /* the dimension line's ends */
	struct point along, across; /* unit ways; across: to the side it is moved to */
	double length;
};

static struct line line_of(struct point a, struct point b, double off)
{
	double length = hypot(b.x - a.x, b.y - a.y);
	struct point along = { (b.x - a.x) / length, (b.y - a.y) / length };
	struct point across = { -along.y, along.x };

	return (struct line){ { a.x + across.x * off, a.y + across.y * off },
		{ b.x + across.x * off, b.y + across.y * off }, along, across, length };
}

/* Turned so that it reads from below or from the right. */
static double reading_turn(struct point along)
{
	double turn = atan2(along.y, along.x), quarter = acos(-1) / 2;

	if (turn > quarter - 1e-6)
		turn -= 2 * quarter;
	else if (turn <= -quarter - 1e-6)
		turn += 2 * quarter;
	return turn;
}

/* Words beside the line's middle: over it (up = 1) or under it, as they are read. */
static struct patch beside_line(
        struct drawing *d, const struct line *l, const struct text *t, double up)
{
	struct patch p = text_patch(d, t);
	double away = (p.across + 0.1) * up;

	p.at.x = (l->a.x + l->b.x) / 2 + sin(t->turn) * away;
	p.at.y = (l->a.y + l->b.y) / 2 - cos(t->turn) * away;
	return p;
}

static bool patch_free(const struct drawing *d, const struct patch *p)
{
	return patch_within(p, &d->frame) && taken_free(&d->taken, p, TAKEN_ANY);
}

static bool line_free(const struct drawing *d, const struct line *l)
{
	struct patch p = patch_of_line(l->a, l->b, 1.0);

	p.along = fmax(p.along - 2.5, p.along / 2); /* its ends stand near other edges */
	return patch_free(d, &p);
}

static void draw_line(
        struct drawing *d, const struct line *l, struct point a, struct point b, double off)
{
	struct point ends[2] = { l->a, l->b }, feet[2] = { a, b };
	double side = off < 0 ? -1 : 1;

	page_line(d, l->a, l->b, PEN_THIN);
	for (int i = 0; i < 2; i++) {
		struct point e = ends[i], out = { l->across.x * side, l->across.y * side };
		double gap = fmin(EDGE_REACH_MM + GAP_MM, fabs(off) / 2);
		double s = (l->along.x + l->across.x) * TICK_MM / 2 * 0.7,
		       t = (l->along.y + l->across.y) * TICK_MM / 2 * 0.7;

		page_line(d, (struct point){ feet[i].x + out.x * gap, feet[i].y + out.y * gap },
		        (struct point){ e.x + out.x * OVER_MM, e.y + out.y * OVER_MM }, PEN_HAIR);
		page_line(d, (struct point){ e.x - s, e.y - t }, (struct point){ e.x + s, e.y + t },
		        PEN_MEDIUM);
	}
	taken_add_line(&d->taken, l->a, l->b, TAKEN_LINE);
}

bool dimension_draw(struct drawing *d, struct point a, struct point b, double off,
        const char *words, const char *under)
{
	struct line l = line_of(a, b, off);
	struct text over = { words, .size = SIZE_BODY, .turn = reading_turn(l.along),
		.on_white = true };
	struct text below = { under, .size = SIZE_NOTE, .grey = true, .turn = over.turn };
	struct patch over_at, below_at;
	bool has_below;

	if (!(l.length > 0))
		return false;
	over_at = beside_line(d, &l, &over, 1);
	if (2 * over_at.along + 1 > l.length || !line_free(d, &l) || !patch_free(d, &over_at))
		return false;
	below_at = beside_line(d, &l, &below, -1);
	has_below = *under && 2 * below_at.along + 1 < l.length && patch_free(d, &below_at);
	draw_line(d, &l, a, b, off);
	page_text_at(d, &over, &over_at);
	if (has_below)
		page_text_at(d, &below, &below_at);
	return true;
}
