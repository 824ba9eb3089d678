/* page.c - pages, lines and surfaces; see page.h. */
#include "page.h"

#include <math.h>

struct pen_look {
	double width, grey, dash[4]; /* mm */
	int dashes;
};

static const struct pen_look pens[PENS] = {
	[PEN_HEAVY] = { 0.7, 0, { 0 }, 0 },
	[PEN_OUTLINE] = { 0.45, 0, { 0 }, 0 },
	[PEN_MEDIUM] = { 0.28, 0, { 0 }, 0 },
	[PEN_THIN] = { 0.18, 0, { 0 }, 0 },
	[PEN_HAIR] = { 0.1, 0.35, { 0 }, 0 },
	[PEN_FAINT] = { 0.1, 0.6, { 0 }, 0 },
	[PEN_FAINT_DASHED] = { 0.12, 0.4, { 1.6, 1.2 }, 2 },
	[PEN_DASHED] = { 0.25, 0, { 1.8, 1.0 }, 2 },
	[PEN_CHAIN] = { 0.25, 0, { 3, 0.9, 0.5, 0.9 }, 4 },
	[PEN_DOTTED] = { 0.4, 0, { 0.05, 1.1 }, 2 },
};

void page_fail_memory(struct drawing *d)
{
	if (d->status == STATUS_OK)
		d->status = error_memory(d->err);
}

static void turn_memory(struct drawing *d)
{
	struct arena mem = d->last_mem;

	d->last_mem = d->page_mem;
	d->page_mem = mem;
	arena_reset(&d->page_mem);
}

void page_begin(struct drawing *d, const struct page_head *head)
{
	page_end(d);
	d->page++;
	turn_memory(d);
	taken_clear(&d->taken, &d->page_mem);
	d->frame = furniture_frame(d->width, d->height);
	if (d->status == STATUS_OK && d->target)
		d->status = target_page(d->target,
		        page_print(d, "%s, %s", page_clean(d, d->options->job),
		                page_clean(d, d->t->plan.name)),
		        d->page, &d->cr, d->err);
	if (d->cr) {
		cairo_set_line_cap(d->cr, CAIRO_LINE_CAP_ROUND);
		cairo_set_line_join(d->cr, CAIRO_LINE_JOIN_ROUND);
		cairo_set_fill_rule(d->cr, CAIRO_FILL_RULE_EVEN_ODD);
	}
	furniture_draw(d, head);
}

void page_end(struct drawing *d)
{
	enum status st;

	if (d->taken.failed)
		page_fail_memory(d);
	if (!d->cr)
		return;
	st = target_page_end(d->target, d->err);
	if (d->status == STATUS_OK)
		d->status = st;
	d->cr = NULL;
}

static void set_grey(struct drawing *d, double grey)
{
	cairo_set_source_rgb(d->cr, grey, grey, grey);
}

static void stroke(struct drawing *d, enum pen pen)
{
	const struct pen_look *look = &pens[pen];

	set_grey(d, look->grey);
	cairo_set_line_width(d->cr, look->width);
	cairo_set_dash(d->cr, look->dash, look->dashes, 0);
	cairo_stroke(d->cr);
}

static void trace(struct drawing *d, const struct point *p, size_t n, bool closed)
{
	for (size_t i = 0; i < n; i++)
		cairo_line_to(d->cr, p[i].x, p[i].y);
	if (closed)
		cairo_close_path(d->cr);
}

void page_path(struct drawing *d, const struct point *p, size_t n, bool closed, enum pen pen)
{
	if (!d->cr)
		return;
	trace(d, p, n, closed);
	stroke(d, pen);
}

void page_line(struct drawing *d, struct point a, struct point b, enum pen pen)
{
	page_path(d, (struct point[]){ a, b }, 2, false, pen);
}

void page_box(struct drawing *d, const struct box *b, enum pen pen)
{
	page_path(d,
	        (struct point[]){
	                { b->x0, b->y0 }, { b->x1, b->y0 }, { b->x1, b->y1 }, { b->x0, b->y1 } },
	        4, true, pen);
}

void page_fill(struct drawing *d, const struct point *p, size_t n, double grey)
{
	if (!d->cr)
		return;
	trace(d, p, n, true);
	set_grey(d, grey);
	cairo_fill(d->cr);
}

static void trace_rings(struct drawing *d, const struct ring *rings, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		cairo_new_sub_path(d->cr);
		trace(d, rings[i].p, rings[i].n, true);
	}
}

void page_fill_rings(struct drawing *d, const struct ring *rings, size_t n, double grey)
{
	if (!d->cr)
		return;
	trace_rings(d, rings, n);
	set_grey(d, grey);
	cairo_fill(d->cr);
}

/* Lines stand at whole multiples of their distance from the page's corner, so that hatching goes on
 * from surface to surface. */
void page_hatch(struct drawing *d, const struct ring *rings, size_t n, double apart, double turn,
        enum pen pen)
{
	double c = cos(turn), s = sin(turn), lo = INFINITY, hi = -INFINITY, u0 = INFINITY,
	       u1 = -INFINITY;

	if (!d->cr)
		return;
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < rings[i].n; k++) {
			struct point p = rings[i].p[k];
			double u = p.x * c + p.y * s, v = p.y * c - p.x * s;

			lo = fmin(lo, v), hi = fmax(hi, v), u0 = fmin(u0, u), u1 = fmax(u1, u);
		}
	cairo_save(d->cr);
	trace_rings(d, rings, n);
	cairo_clip(d->cr);
	for (double v = ceil(lo / apart) * apart; v < hi; v += apart) {
		cairo_move_to(d->cr, u0 * c - v * s, u0 * s + v * c);
		cairo_line_to(d->cr, u1 * c - v * s, u1 * s + v * c);
	}
	stroke(d, pen);
	cairo_restore(d->cr);
}

void page_circle(struct drawing *d, struct point at, double radius, enum pen pen)
{
	if (!d->cr)
		return;
	cairo_new_sub_path(d->cr);
	cairo_arc(d->cr, at.x, at.y, radius, 0, 2 * acos(-1));
	stroke(d, pen);
}

void page_disc(struct drawing *d, struct point at, double radius, double grey)
{
	if (!d->cr)
		return;
	cairo_new_sub_path(d->cr);
	cairo_arc(d->cr, at.x, at.y, radius, 0, 2 * acos(-1));
	set_grey(d, grey);
	cairo_fill(d->cr);
}

void page_arrow_head(struct drawing *d, struct point tip, double turn, double length)
{
	double c = cos(turn) * length, s = sin(turn) * length;

	page_fill(d,
	        (struct point[]){ tip, { tip.x - c - s / 4, tip.y - s + c / 4 },
	                { tip.x - c + s / 4, tip.y - s - c / 4 } },
	        3, 0);
}

void page_clip(struct drawing *d, const struct box *b)
{
	if (!d->cr)
		return;
	cairo_save(d->cr);
	cairo_rectangle(d->cr, b->x0, b->y0, b->x1 - b->x0, b->y1 - b->y0);
	cairo_clip(d->cr);
}

void page_unclip(struct drawing *d)
{
	if (d->cr)
		cairo_restore(d->cr);
}
