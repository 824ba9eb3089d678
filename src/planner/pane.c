/* pane.c - lines of figures, wrapped, scrolled and drawn. */
#include "pane.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void add(struct pane *p, enum style style, const char *left, const char *right)
{
	struct pane_line *lines =
	        arena_grow(p->mem, p->lines, p->count, &p->capacity, sizeof *lines);

	if (!lines || !left || !right)
		return;
	p->lines = lines;
	p->lines[p->count++] = (struct pane_line){ .left = left, .right = right, .style = style };
}

void pane_gap(struct pane *p)
{
	if (p->count)
		add(p, STYLE_PLAIN, "", "");
}

static const char *print(struct pane *p, const char *format, va_list args)
{
	char text[800];

	vsnprintf(text, sizeof text, format, args);
	return arena_text(p->mem, text);
}

static void add_wrapped(struct pane *p, enum style style, const char *text)
{
	const char *next;

	for (; text && *text; text = next) {
		size_t bytes = text_wrap(text, p->width, p->ascii, &next);

		add(p, style, arena_print(p->mem, "%.*s", (int)bytes, text), "");
	}
}

void pane_head(struct pane *p, const char *text)
{
	pane_gap(p);
	add_wrapped(p, STYLE_TITLE, text);
}

/* Side by side; what is too wide for that stands one under the other. */
static void add_pair(struct pane *p, enum style style, const char *left, const char *right)
{
	int wide = left && right ? text_columns(right, p->ascii) : 0;

	if (!left || text_columns(left, p->ascii) + 1 + wide <= p->width) {
		add(p, style, left, right);
		return;
	}
	add_wrapped(p, style, left);
	if (wide <= p->width)
		add(p, style, "", right);
	else
		add_wrapped(p, style, right);
}

void pane_pair(struct pane *p, const char *left, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_pair(p, STYLE_PLAIN, arena_text(p->mem, left), print(p, format, args));
	va_end(args);
}

void pane_pair_styled(struct pane *p, enum style style, const char *left, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_pair(p, style, arena_text(p->mem, left), print(p, format, args));
	va_end(args);
}

void pane_text(struct pane *p, enum style style, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	add_wrapped(p, style, print(p, format, args));
	va_end(args);
}

static void draw_line(const struct pane_line *line, const struct area *a, int row)
{
	int right = text_columns(line->right, a->cells->ascii), room = a->cols;

	if (right > a->cols)
		right = a->cols;
	if (right)
		room -= right + 1;
	area_text(a, row, 0, room, line->style, line->left);
	area_text_right(a, row, a->cols - right, right,
	        line->style == STYLE_PLAIN ? STYLE_STRONG : line->style, line->right);
}

/* What stands below the fold: the next heading, when there is one. */
static const char *more_words(struct pane *p, int from)
{
	for (size_t i = (size_t)from - 1; i < p->count;
	        i++) { /* a heading alone says nothing yet */
		const char *words;

		if (p->lines[i].style != STYLE_TITLE)
			continue;
		words = arena_print(p->mem, "Page Down: %s ...", p->lines[i].left);
		return words && text_columns(words, p->ascii) <= p->width ? words
		                                                          : "Page Down: more";
	}
	return (size_t)from < p->count ? "Page Down: more" : "Page Up: back";
}

void pane_draw(struct app *app, const struct area *area)
{
	struct area a = area_part(area, 0, 2, area->rows, area->cols - 3);
	struct pane p = {
		.mem = &app->frame_mem, .width = a.cols, .rows = a.rows, .ascii = app->ascii
	};
	int count, *top = &app->view.pane_top;

	for (int row = 0; row < area->rows; row++)
		area_put(area, row, 0, glyph(app->ascii, GLYPH_BAR), STYLE_QUIET);
	pane_fill(app, &p);
	count = (int)p.count;
	if (*top > count - (a.rows - 1))
		*top = count > a.rows - 1 ? count - (a.rows - 1) : 0;
	if (count > a.rows) {
		a.rows--;
		area_text(area, area->rows - 1, 2, area->cols - 3, STYLE_QUIET,
		        more_words(&p, *top + a.rows));
	} else {
		*top = 0;
	}
	for (int row = 0; row < a.rows && *top + row < count; row++)
		draw_line(&p.lines[*top + row], &a, row);
}
