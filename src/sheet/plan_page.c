/* plan_page.c - see plan_page.h. */
#include "plan_page.h"

#include "label.h"
#include "sheets.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const double AROUND_MM = 17, GAP_MM = 4;

void plan_page_begin(struct drawing *d, struct plan_page *p, const char *title,
        const struct box *shown, double side_mm)
{
	struct box room = furniture_frame(d->width, d->height);

	*p = (struct plan_page){ .head = { .title = title, .part = "", .view = &p->view },
		.side = room };
	p->side.x0 = room.x1 - side_mm;
	room.x1 = p->side.x0 - GAP_MM;
	p->view = view_centred(scale_fitting(shown, room.x1 - room.x0 - 2 * AROUND_MM,
	                               room.y1 - room.y0 - 2 * AROUND_MM),
	        shown, &room);
	page_begin(d, &p->head);
	d->frame = room;
}

struct flow plan_page_flow(struct drawing *d, struct plan_page *p)
{
	d->frame = furniture_frame(d->width, d->height);
	return flow_begin(d, &p->head, &p->side);
}

static void shelf_page(struct shelf *s)
{
	page_begin(s->d, &s->head);
	s->x = s->d->frame.x0;
	s->y = s->d->frame.y0;
	s->row = 0;
}

void shelf_begin(
        struct drawing *d, struct shelf *s, const char *title, const char *part, int64_t scale)
{
	*s = (struct shelf){ .d = d,
		.view = { scale, { 0, 0 }, { 0, 0 } },
		.head = { .title = title, .part = part, .view = &s->view } };
	shelf_page(s);
}

struct box shelf_take(struct shelf *s, double width, double height)
{
	struct box page = furniture_frame(s->d->width, s->d->height), out;

	width = fmin(width, page.x1 - page.x0);
	height = fmin(height, page.y1 - page.y0);
	if (s->x + width > page.x1 + 1e-6) {
		s->x = page.x0;
		s->y += s->row;
		s->row = 0;
	}
	if (s->y + height > page.y1 + 1e-6)
		shelf_page(s);
	out = (struct box){ s->x, s->y, s->x + width, s->y + height };
	s->x += width;
	s->row = fmax(s->row, height);
	s->d->frame = out;
	return out;
}

struct flow shelf_flow(struct shelf *s, double width)
{
	static const double LEAST_MM = 50;
	struct box page = furniture_frame(s->d->width, s->d->height), rest = page;

	rest.y0 = s->y + s->row + 2;
	if (s->y <= page.y0 && s->x + GAP_MM + width <= page.x1) {
		rest.x0 = s->x + GAP_MM, rest.y0 = page.y0 + 1;
	} else if (rest.y1 - rest.y0 < LEAST_MM) {
		s->head.part = *s->head.part ? s->head.part : "continued";
		s->head.view = NULL;
		page_begin(s->d, &s->head);
		rest = s->d->frame;
		rest.y0 += 1;
	}
	s->d->frame = furniture_frame(s->d->width, s->d->height);
	return flow_across(s->d, &s->head, &rest, width);
}

void box_hold(struct box *b, double x, double y)
{
	b->x0 = fmin(b->x0, x), b->x1 = fmax(b->x1, x);
	b->y0 = fmin(b->y0, y), b->y1 = fmax(b->y1, y);
}

struct box plan_box(const struct takeoff *t)
{
	return region_box(&t->region);
}

bool words_beside(struct drawing *d, struct point at, const char *words, double size, double way)
{
	struct label l = { .text = { words, .size = size, .room = 60, .on_white = true },
		.at = at,
		.clear = 1.9,
		.reach = 14,
		.leader = true,
		.gap = 1.8,
		.prefer = way };

	return label_place(d, &l);
}

void mark_cross(struct drawing *d, struct point p, double half)
{
	page_line(d, (struct point){ p.x - half, p.y }, (struct point){ p.x + half, p.y },
	        PEN_MEDIUM);
	page_line(d, (struct point){ p.x, p.y - half }, (struct point){ p.x, p.y + half },
	        PEN_MEDIUM);
	taken_add(&d->taken, &(struct patch){ p, half, half, 0 }, TAKEN_AREA);
}

void mark_triangle(struct drawing *d, struct point p, double half, bool filled)
{
	struct point corner[] = { { p.x, p.y - half * 1.2 }, { p.x + half, p.y + half * 0.7 },
		{ p.x - half, p.y + half * 0.7 } };

	page_fill(d, corner, 3, filled ? 0 : 1);
	page_path(d, corner, 3, true, PEN_MEDIUM);
	taken_add(&d->taken, &(struct patch){ p, half, half, 0 }, TAKEN_AREA);
}

void dimension_somewhere(
        struct drawing *d, struct point a, struct point b, double off, const char *words)
{
	for (int i = 0; i < 4; i++)
		if (dimension_draw(d, a, b, off + (off < 0 ? -4.5 : 4.5) * i, words, ""))
			return;
}

const char *tenth_words(struct drawing *d, double um)
{
	char mm[40];

	return page_print(d, "%s", mm_print(mm, sizeof mm, llround(um / 100) * 100));
}

void flow_line(struct flow *f, const char *format, ...)
{
	char words[1200];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	flow_paragraph(f, page_print(f->d, "%s", words), SIZE_NOTE);
}
