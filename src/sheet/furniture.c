/* furniture.c - what every page has: frame, title block with scale and house mark, page number, and
 * the note that measures on site come first. */
#include "view.h"

#include <inttypes.h>
#include <math.h>

static const double MARGIN_MM = 10, BLOCK_MM = 18, NOTE_MM = 4.2;

#define SITE_NOTE                                                                                  \
	"Measures taken on site come before this drawing. Lengths are in m, levels in mm over "    \
	"the "                                                                                     \
	"datum, where nothing else is said."

static const char *const paper_names[] = { "A4", "A3", "Letter" };

struct box furniture_frame(double width, double height)
{
	return (struct box){ MARGIN_MM + 2, MARGIN_MM + 2, width - MARGIN_MM - 2,
		height - MARGIN_MM - BLOCK_MM - NOTE_MM - 1 };
}

/* A cell of the title block: a small word over what it names. */
static void put_cell(struct drawing *d, double x, double y, double room, const char *name,
        const char *words, bool bold)
{
	struct text small = { name, .size = SIZE_LEAST, .grey = true };
	struct text large = { words, .size = SIZE_BODY, .bold = bold };
	double w = 2 * text_patch(d, &small).along;

	page_text(d, &small, ALIGN_LEFT, x, y + 0.9);
	large.room = room - w - 2;
	page_text(d, &large, ALIGN_LEFT, x + w + 1, y);
}

/* The step of the scale bar's marks: 1, 2 or 5 times a power of ten, um. */
static double bar_step_um(int64_t scale, double longest_mm)
{
	static const double steps[] = { 1, 2, 5 };
	double best = 10000;

	for (double ten = 10000; ten <= 1e9; ten *= 10)
		for (int i = 0; i < 3; i++)
			if (scale_mm(scale, 4 * ten * steps[i]) <= longest_mm)
				best = ten * steps[i];
	return best;
}

static void put_bar(struct drawing *d, int64_t scale, double x, double y, double longest_mm)
{
	double step_um = bar_step_um(scale, longest_mm), step = scale_mm(scale, step_um);
	bool metres = step_um >= 250000;

	for (int i = 0; i < 4; i++) {
		struct box b = { x + i * step, y, x + (i + 1) * step, y + 1.3 };

		if (i % 2 == 0)
			page_fill(d,
			        (struct point[]){ { b.x0, b.y0 }, { b.x1, b.y0 }, { b.x1, b.y1 },
			                { b.x0, b.y1 } },
			        4, 0);
		page_box(d, &b, PEN_THIN);
	}
	for (int i = 0; i <= 4; i += 2) {
		double value = step_um * i / (metres ? 1e6 : 1e3);
		struct text t = { page_print(d, i == 4 ? metres ? "%g m" : "%g mm" : "%g", value),
			.size = SIZE_LEAST };

		page_text(d, &t, ALIGN_MIDDLE, x + i * step, y + 1.6);
	}
}

static void put_scale(
        struct drawing *d, const struct page_head *head, double x, double y, double room)
{
	const struct view *v = head->view;
	struct text words = { .size = SIZE_BODY, .bold = true };
	struct text how = { .size = SIZE_LEAST, .grey = true };

	if (!v) {
		words.words = head->scale ? head->scale : "";
		page_text(d, &words, ALIGN_LEFT, x, y + 1.5);
		return;
	}
	words.words = page_print(d, "scale 1:%" PRId64, v->scale);
	how.words = page_print(d, "printed in full size on %s", paper_names[d->options->paper]);
	page_text(d, &words, ALIGN_LEFT, x, y + 1);
	page_text(d, &how, ALIGN_LEFT, x, y + 4.6);
	put_bar(d, v->scale, x + 1, y + 9.4, fmin(40, room - 6));
}

/* The way to the house: outward from the walls, by their lengths. */
static bool house_way(const struct plan *plan, double *way)
{
	struct point sum = { 0, 0 };
	const struct plan_ring *r = &plan->rings[0];
	double around = ring_signed_area2_um2(r) < 0 ? -1 : 1, length = 0;

	for (size_t i = 0; i < r->count; i++) {
		const struct plan_node *a = &r->nodes[i], *b = &r->nodes[(i + 1) % r->count];

		if (a->kind != EDGE_HOUSE_WALL)
			continue;
		sum.x += around * (double)(b->y_um - a->y_um);
		sum.y -= around * (double)(b->x_um - a->x_um);
		length += hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
	}
	*way = atan2(-sum.y, sum.x); /* on paper y runs down */
	return hypot(sum.x, sum.y) > length / 10;
}

/* An arrow toward the house. */
static void put_house(struct drawing *d, double x, double y)
{
	static const double LONG_MM = 8;
	struct text word = { "house", .size = SIZE_LEAST };
	struct point at = { x, y + 5.2 };
	double way, c, s;

	if (!house_way(&d->t->plan, &way))
		return;
	c = cos(way) * LONG_MM / 2, s = sin(way) * LONG_MM / 2;
	page_circle(d, at, LONG_MM / 2 + 0.4, PEN_HAIR);
	page_line(d, (struct point){ at.x - c, at.y - s },
	        (struct point){ at.x + c * 0.5, at.y + s * 0.5 }, PEN_MEDIUM);
	page_arrow_head(d, (struct point){ at.x + c, at.y + s }, way, 3.6);
	page_text(d, &word, ALIGN_MIDDLE, x, y + 10.4);
}

static void put_names(struct drawing *d, double x, double y, double room)
{
	put_cell(d, x, y + 1, room, "client", d->options->client, false);
	put_cell(d, x, y + 6, room, "job", d->options->job, true);
	put_cell(d, x, y + 11, room, "variant", d->t->plan.name, false);
}

static void put_title(struct drawing *d, const struct page_head *head, double x, double y, double w)
{
	struct text title = { head->title, .size = SIZE_TITLE, .bold = true, .room = w - 4 };
	struct text part = { head->part, .size = SIZE_BODY, .room = w - 4 };

	page_text(d, &title, ALIGN_LEFT, x + 2, y + 2.5);
	page_text(d, &part, ALIGN_LEFT, x + 2, y + 10.5);
}

static void put_page(struct drawing *d, double x, double y, double room)
{
	struct text page = { .size = SIZE_BODY, .bold = true };

	put_cell(d, x, y + 1, room, "date", d->options->date, false);
	page.words = d->pages ? page_print(d, "page %zu of %zu", d->page, d->pages)
	                      : page_print(d, "page %zu", d->page);
	page_text(d, &page, ALIGN_LEFT, x, y + 7);
}

void furniture_draw(struct drawing *d, const struct page_head *head)
{
	double x0 = MARGIN_MM, x1 = d->width - MARGIN_MM, w = x1 - x0;
	double y1 = d->height - MARGIN_MM - NOTE_MM, y0 = y1 - BLOCK_MM;
	double col[] = { x0, x0 + w * 0.36, x0 + w * 0.61, x0 + w * 0.79, x0 + w * 0.87 };
	struct box block = { x0, y0, x1, y1 }, frame = { x0, MARGIN_MM, x1, y0 };
	struct text note = { SITE_NOTE, .size = SIZE_LEAST + 0.2, .room = w };

	page_box(d, &frame, PEN_MEDIUM);
	page_box(d, &block, PEN_MEDIUM);
	for (int i = 1; i < 5; i++)
		page_line(d, (struct point){ col[i], y0 }, (struct point){ col[i], y1 }, PEN_THIN);
	put_names(d, col[0] + 2, y0, col[1] - col[0] - 4);
	put_title(d, head, col[1], y0, col[2] - col[1]);
	put_scale(d, head, col[2] + 2, y0, col[3] - col[2] - 3);
	if (head->view)
		put_house(d, (col[3] + col[4]) / 2, y0);
	put_page(d, col[4] + 2, y0, x1 - col[4] - 3);
	page_text(d, &note, ALIGN_LEFT, x0, y1 + 1);
}
