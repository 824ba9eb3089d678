/* table.c - see table.h. */
#include "table.h"

#include <math.h>
#include <string.h>

static const double GUTTER_MM = 6, LEADING = 1.75, CELL_PAD_MM = 0.8;

struct flow flow_begin(struct drawing *d, const struct page_head *head, const struct box *column)
{
	return (struct flow){
		.d = d, .head = *head, .columns = { *column }, .count = 1, .y = column->y0
	};
}

double flow_x(const struct flow *f)
{
	return f->columns[f->at].x0;
}

double flow_width(const struct flow *f)
{
	return f->columns[f->at].x1 - f->columns[f->at].x0;
}

static void set_columns(struct flow *f, const struct box *b, double width)
{
	int n = (int)((b->x1 - b->x0 + GUTTER_MM) / (width + GUTTER_MM));

	f->count = n < 1 ? 1 : n > FLOW_COLUMNS ? FLOW_COLUMNS : n;
	f->at = 0;
	for (int i = 0; i < f->count; i++) {
		double x = b->x0 + i * (width + GUTTER_MM);

		f->columns[i] = (struct box){ x, b->y0, x + width, b->y1 };
	}
	f->y = b->y0;
}

struct flow flow_across(
        struct drawing *d, const struct page_head *head, const struct box *box, double width)
{
	struct flow f = { .d = d, .head = *head };

	set_columns(&f, box, width);
	return f;
}

/* "planter 2, continued". */
static const char *continued(struct flow *f)
{
	const char *part = f->head.part;

	if (!*part || strstr(part, "continued"))
		return *part ? part : "continued";
	part = arena_print(&f->d->mem, "%s, continued", part);
	if (!part)
		page_fail_memory(f->d);
	return part ? part : "";
}

static void next_page(struct flow *f)
{
	struct box b;

	f->head.part = continued(f);
	f->head.view = NULL;
	page_begin(f->d, &f->head);
	b = f->d->frame;
	b.y0 += 1;
	set_columns(f, &b, flow_width(f));
}

bool flow_need(struct flow *f, double height)
{
	const struct box *c = &f->columns[f->at];

	if (f->y + height <= c->y1 || f->y <= c->y0 + 0.01)
		return false;
	if (f->at + 1 < f->count)
		f->at++;
	else
		next_page(f);
	f->y = f->columns[f->at].y0;
	return true;
}

void flow_space(struct flow *f, double height)
{
	if (f->y > f->columns[f->at].y0)
		f->y += height;
}

void flow_heading(struct flow *f, const char *words, double follows)
{
	struct text t = { words, .size = SIZE_HEAD, .bold = true, .room = flow_width(f) };

	flow_need(f, SIZE_HEAD * LEADING + follows);
	f->y += page_text(f->d, &t, ALIGN_LEFT, flow_x(f), f->y) + 1.2;
}

void flow_paragraph(struct flow *f, const char *words, double size)
{
	struct text t = { words, .size = size, .room = flow_width(f), .wraps = true };

	flow_need(f, 2 * text_patch(f->d, &t).across);
	f->y += page_text(f->d, &t, ALIGN_LEFT, flow_x(f), f->y) + 1;
}

double table_width(const struct table_column *columns, int count)
{
	double width = 0;

	for (int i = 0; i < count; i++)
		width += columns[i].width;
	return width;
}

struct table table_begin(
        struct flow *flow, const struct table_column *columns, int count, double size)
{
	return (struct table){ flow, columns, count, size, false };
}

static double row_height(const struct table *t)
{
	return t->size * LEADING;
}

static void rule(struct table *t, enum pen pen)
{
	struct flow *f = t->flow;

	page_line(f->d, (struct point){ flow_x(f), f->y },
	        (struct point){ flow_x(f) + table_width(t->columns, t->count), f->y }, pen);
}

static void put_cell(struct table *t, const char *words, int column, double x, bool bold)
{
	const struct table_column *c = &t->columns[column];
	struct text text = { words, .size = t->size, .bold = bold };
	double room = c->width - 2 * CELL_PAD_MM;

	if (2 * text_patch(t->flow->d, &text).along > room)
		text.room = room;
	page_text(t->flow->d, &text, c->align,
	        c->align == ALIGN_RIGHT    ? x + c->width - CELL_PAD_MM
	        : c->align == ALIGN_MIDDLE ? x + c->width / 2
	                                   : x + CELL_PAD_MM,
	        t->flow->y + t->size * 0.25);
}

static void put_row(struct table *t, const char *const *cells, bool bold)
{
	double x = flow_x(t->flow);

	for (int i = 0; i < t->count; i++) {
		put_cell(t, cells[i], i, x, bold);
		x += t->columns[i].width;
	}
	t->flow->y += row_height(t);
	rule(t, PEN_HAIR);
}

static void put_heading(struct table *t)
{
	const char *heads[TABLE_COLUMNS];

	for (int i = 0; i < t->count; i++)
		heads[i] = t->columns[i].head;
	put_row(t, heads, true);
	rule(t, PEN_MEDIUM);
}

static void any_row(struct table *t, const char *const *cells, bool bold)
{
	bool moved = flow_need(t->flow, row_height(t) * (t->begun ? 1 : 2));

	if (moved || !t->begun)
		put_heading(t);
	t->begun = true;
	put_row(t, cells, bold);
}

void table_row(struct table *t, const char *const *cells)
{
	any_row(t, cells, false);
}

void table_row_bold(struct table *t, const char *const *cells)
{
	any_row(t, cells, true);
}

void table_end(struct table *t)
{
	flow_space(t->flow, 3);
}
