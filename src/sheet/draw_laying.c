/* draw_laying.c - the laying plan: every slab to scale, pieces to cut shaded and numbered as in the
 * cut list. Where one page is too small for that, it shows the parts, which follow page by page. */
#include "laying.h"

#include <inttypes.h>
#include <math.h>

static const double KEY_MM = 6, AROUND_MM = 13, OVERLAP_MM = 9, LEAST_SIDE_MM = 1.9, SEEN_MM = 0.9;

enum { MOST_PARTS = 12, MANY_PARTS = 400 };

/* --- key --- */

static struct ring key_box(struct drawing *d, double x, double y)
{
	struct ring r = { arena_alloc(&d->page_mem, 4, sizeof *r.p), 4, NULL };

	if (!r.p) {
		page_fail_memory(d);
		r.n = 0;
		return r;
	}
	r.p[0] = (struct point){ x, y }, r.p[1] = (struct point){ x + 6, y };
	r.p[2] = (struct point){ x + 6, y + 3 }, r.p[3] = (struct point){ x, y + 3 };
	return r;
}

static void fill_kind(struct drawing *d, const struct ring *rings, size_t n, enum piece_kind kind)
{
	static const double greys[] = { 1, 0.88, 0.8, 0 };

	if (kind != PIECE_WHOLE)
		page_fill_rings(d, rings, n, greys[kind]);
	if (kind == PIECE_SLIVER)
		page_hatch(d, rings, n, 0.7, acos(-1) / 4, PEN_HAIR);
	for (size_t i = 0; i < n; i++)
		page_path(
		        d, rings[i].p, rings[i].n, true, kind == PIECE_WHOLE ? PEN_HAIR : PEN_THIN);
}

static void put_start(struct drawing *d, struct point p)
{
	page_circle(d, p, 1.2, PEN_MEDIUM);
	page_line(d, (struct point){ p.x - 2, p.y }, (struct point){ p.x + 2, p.y }, PEN_MEDIUM);
	page_line(d, (struct point){ p.x, p.y - 2 }, (struct point){ p.x, p.y + 2 }, PEN_MEDIUM);
}

static void draw_key(struct drawing *d)
{
	const struct paving *p = &d->t->laid;
	const char *words[] = { page_print(d, "%" PRId64 " whole", p->whole),
		page_print(d, "%" PRId64 " cut: numbers as in the cut list", p->cut),
		page_print(d, "of them %" PRId64 " sliver%s: 12!", p->sliver,
		        p->sliver == 1 ? "" : "s"),
		page_print(d, "%" PRId64 " made up in the joint", p->made_up) };
	double x = d->frame.x0, y = d->frame.y0;
	struct text t = { .size = SIZE_NOTE };

	for (int i = 0; i < 4; i++) {
		struct ring box = key_box(d, x, y);

		if (i > 1 && (i == 2 ? p->sliver : p->made_up) == 0)
			continue;
		fill_kind(d, &box, 1, (enum piece_kind)i);
		t.words = words[i];
		x += 8;
		page_text(d, &t, ALIGN_LEFT, x, y);
		x += 2 * text_patch(d, &t).along + 5;
	}
	put_start(d, (struct point){ x + 2, y + 1.5 });
	t.words = "start point";
	page_text(d, &t, ALIGN_LEFT, x + 5.5, y);
	x += 10.5 + 2 * text_patch(d, &t).along;
	t.words = "c3: course 3";
	t.grey = true;
	page_text(d, &t, ALIGN_LEFT, x, y);
}

/* --- slabs --- */

bool laying_in_window(const struct laying_sheet *l, const struct ring *r)
{
	struct box b = points_box(r->p, r->n);

	return b.x1 > l->window.x0 && b.x0 < l->window.x1 && b.y1 > l->window.y0 &&
	       b.y0 < l->window.y1;
}

static void draw_whole(void *context, const struct section *s, struct slab_spot spot)
{
	struct laying_sheet *l = context;
	struct ring r = slab_on_paper(l->d, &l->view, s, spot);

	if (r.n && laying_in_window(l, &r))
		fill_kind(l->d, &r, 1, PIECE_WHOLE);
}

static void draw_pieces(struct laying_sheet *l)
{
	const struct paving *p = &l->d->t->laid;

	for (size_t i = 0; i < p->piece_count; i++) {
		struct ring *rings = piece_on_paper(l->d, &l->view, &p->pieces[i]);

		if (rings && laying_in_window(l, &rings[0]))
			fill_kind(l->d, rings, p->pieces[i].shape.count, p->pieces[i].kind);
	}
}

static void draw_bare(struct laying_sheet *l, const struct section *s)
{
	struct ring *rings = view_region(l->d, &l->view, &s->region);

	if (!rings || !s->region.count)
		return;
	page_hatch(l->d, rings, s->region.count, 3, acos(-1) / 4, PEN_HAIR);
	for (size_t i = 0; i < s->region.count; i++)
		page_path(l->d, rings[i].p, rings[i].n, true, PEN_THIN);
}

static double shortest_side_um(const struct takeoff *t)
{
	double least = INFINITY;

	for (size_t i = 0; i < t->laid.stock_count; i++)
		least = fmin(
		        least, (double)(t->laid.stocks[i].length_um < t->laid.stocks[i].width_um
		                                ? t->laid.stocks[i].length_um
		                                : t->laid.stocks[i].width_um));
	return least;
}

static void draw_parts_of_paving(struct laying_sheet *l)
{
	const struct paving *p = &l->d->t->laid;

	for (size_t i = 0; i < p->section_count; i++)
		if (!p->sections[i].paved)
			draw_bare(l, &p->sections[i]);
	if (!l->labels && scale_mm(l->view.scale, shortest_side_um(l->d->t)) < SEEN_MM)
		return;
	if (l->d->cr)
		whole_slabs(l->d->t, draw_whole, l);
	draw_pieces(l);
}

static void draw_starts(struct laying_sheet *l)
{
	const struct paving *p = &l->d->t->laid;

	for (size_t i = 0; i < p->section_count; i++) {
		const struct section *s = &p->sections[i];
		struct point at = view_point(&l->view, (struct point){ (double)s->laying.start_x_um,
		                                               (double)s->laying.start_y_um });

		if (!s->paved || s->kind == SECTION_BORDER || at.x < l->window.x0 + 2 ||
		        at.x > l->window.x1 - 2 || at.y < l->window.y0 + 2 ||
		        at.y > l->window.y1 - 2)
			continue;
		put_start(l->d, at);
		taken_add(&l->d->taken, &(struct patch){ at, 2, 2, 0 }, TAKEN_AREA | TAKEN_TEXT);
	}
}

static void draw_window(struct laying_sheet *l)
{
	page_clip(l->d, &l->window);
	draw_parts_of_paving(l);
	edges_draw(l->d, &l->view);
	draw_starts(l);
	page_unclip(l->d);
	if (!l->labels)
		return;
	laying_label_pieces(l);
	laying_label_courses(l);
}

/* --- pages --- */

struct parts {
	int across, down, all, count; /* count: of them, those with paving in them */
	int *number; /* of each, from 1; 0 where there is no paving */
	struct box whole; /* of the plan with its surroundings, um */
	double step_x, step_y; /* from part to part, um */
	double width, height; /* of a part, um */
};

static struct parts parts_at(const struct box *plan, int64_t scale, double width, double height)
{
	double um = 1000 * (double)scale, around = AROUND_MM * um, lap = OVERLAP_MM * um;
	struct parts p = { .whole = { plan->x0 - around, plan->y0 - around, plan->x1 + around,
		                   plan->y1 + around },
		.width = width * um,
		.height = height * um };

	p.step_x = p.width - lap;
	p.step_y = p.height - lap;
	p.across = (int)fmax(1, ceil((p.whole.x1 - p.whole.x0 - lap) / p.step_x - 1e-9));
	p.down = (int)fmax(1, ceil((p.whole.y1 - p.whole.y0 - lap) / p.step_y - 1e-9));
	p.all = p.across * p.down;
	return p;
}

/* Row by row from the upper left; all together in the middle of the plan. */
static struct box part_box(const struct parts *p, int at)
{
	double w = p->step_x * (p->across - 1) + p->width,
	       h = p->step_y * (p->down - 1) + p->height;
	double x = (p->whole.x0 + p->whole.x1 - w) / 2 + p->step_x * (at % p->across);
	double y = (p->whole.y0 + p->whole.y1 + h) / 2 - p->step_y * (at / p->across);

	return (struct box){ x, y - p->height, x + p->width, y };
}

/* Whether there is paving in the box: a corner of the paving, or a point of a net over it. */
static bool paving_in(const struct region *g, const struct box *b)
{
	enum { NET = 24 };

	for (size_t k = 0; k < g->count; k++)
		for (size_t i = 0; i < g->rings[k].n; i++) {
			struct point p = g->rings[k].p[i];

			if (p.x > b->x0 && p.x < b->x1 && p.y > b->y0 && p.y < b->y1)
				return true;
		}
	for (int i = 0; i <= NET * NET; i++)
		if (region_contains(g, (struct point){ b->x0 + (b->x1 - b->x0) * (i % NET) / NET,
		                               b->y0 + (b->y1 - b->y0) * (i / NET) / NET }))
			return true;
	return false;
}

static bool number_parts(struct drawing *d, struct parts *p)
{
	p->number = arena_alloc(&d->mem, (size_t)p->all, sizeof *p->number);
	if (!p->number)
		page_fail_memory(d);
	for (int i = 0; p->number && i < p->all; i++) {
		struct box b = part_box(p, i);

		if (paving_in(&d->t->region, &b))
			p->number[i] = ++p->count;
	}
	return p->number != NULL;
}

/* The scale of the parts: the one asked for, or the smallest at which slabs are large enough to be
 * numbered, as far as a few pages go. */
static int64_t scale_of_parts(
        struct drawing *d, const struct box *plan, int64_t whole, double width, double height)
{
	double side = shortest_side_um(d->t);
	int64_t best = whole;

	if (d->options->scale)
		return d->options->scale;
	for (int64_t s = 5; s && s < whole; s = scale_after(s))
		if (parts_at(plan, s, width, height).all <= MOST_PARTS) {
			best = s;
			break;
		}
	for (int64_t s = best; s && s <= whole; s = scale_after(s))
		if (scale_mm(s, side) >= LEAST_SIDE_MM)
			best = s;
	return best;
}

static void outline_part(struct laying_sheet *l, const struct parts *p, int at)
{
	struct box b = part_box(p, at), on;
	struct point a = view_point(&l->view, (struct point){ b.x0, b.y1 });
	struct point c = view_point(&l->view, (struct point){ b.x1, b.y0 });
	struct text t = { page_print(l->d, "part %d", p->number[at]), .size = SIZE_HEAD,
		.bold = true, .on_white = true };
	struct patch place = text_patch(l->d, &t);

	on = (struct box){ fmax(a.x, l->window.x0), fmax(a.y, l->window.y0),
		fmin(c.x, l->window.x1), fmin(c.y, l->window.y1) };
	page_box(l->d, &on, PEN_DASHED);
	place.at = (struct point){ (on.x0 + on.x1) / 2, (on.y0 + on.y1) / 2 };
	if (taken_free(&l->d->taken, &place, TAKEN_TEXT))
		page_text_at(l->d, &t, &place);
}

static void draw_page(struct laying_sheet *l, struct page_head *head)
{
	head->view = &l->view;
	page_begin(l->d, head);
	draw_key(l->d);
	draw_window(l);
}

static void draw_part(struct laying_sheet *l, struct page_head *head, const struct parts *p, int at)
{
	struct box b = part_box(p, at);
	char part[60];

	l->view = view_centred(l->view.scale, &b, &l->window);
	snprintf(part, sizeof part, "part %d of %d", p->number[at], p->count);
	head->part = p->count > 1 ? part : "";
	draw_page(l, head);
	if (p->count > 1)
		page_box(l->d, &l->window, PEN_DASHED);
}

void draw_laying(struct drawing *d, const char *title)
{
	struct box plan = region_box(&d->t->region);
	struct page_head head = { title, "", NULL, NULL };
	struct laying_sheet l = { .d = d, .labels = true };
	struct parts parts;
	double w, h;
	int64_t whole;

	l.labelled = arena_alloc(&d->mem, d->t->laid.piece_count + 1, sizeof *l.labelled);
	if (!l.labelled) {
		page_fail_memory(d);
		return;
	}
	l.window = furniture_frame(d->width, d->height);
	l.window.y0 += KEY_MM;
	w = l.window.x1 - l.window.x0, h = l.window.y1 - l.window.y0;
	whole = scale_fitting(&plan, w - 2 * AROUND_MM, h - 2 * AROUND_MM);
	l.view.scale = scale_of_parts(d, &plan, whole, w, h);
	parts = parts_at(&plan, l.view.scale, w, h);
	if (parts.all > MANY_PARTS) {
		if (d->status == STATUS_OK)
			d->status = error_set(d->err, STATUS_USAGE,
			        "At 1:%" PRId64 " the laying plan takes %d pages; take --scale "
			        "1:%" PRId64 " or leave it out.",
			        l.view.scale, parts.all, whole);
		return;
	}
	if (!number_parts(d, &parts))
		return;
	if (parts.count > 1) {
		struct laying_sheet over = l;

		over.view = view_centred(whole, &plan, &l.window);
		over.labels = false;
		head.part = "where the parts are";
		draw_page(&over, &head);
		for (int i = 0; i < parts.all; i++)
			if (parts.number[i])
				outline_part(&over, &parts, i);
	}
	for (int i = 0; i < parts.all && d->status == STATUS_OK; i++)
		if (parts.number[i])
			draw_part(&l, &head, &parts, i);
	laying_list_others(&l, title, parts.count == 1);
}
