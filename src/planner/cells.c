/* cells.c - the frame as a grid of cells.
 *
 * UTF-8 is decoded here and not by the C library, so that text from the store reads the same
 * whatever the locale is; only the width of a printable character is asked of the library. */
#include "cells.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

bool cells_resize(struct cells *c, int rows, int cols)
{
	size_t count = (size_t)(rows > 0 ? rows : 1) * (size_t)(cols > 0 ? cols : 1);

	if (!c->at || rows != c->rows || cols != c->cols) {
		struct cell *at = realloc(c->at, count * sizeof *at);

		if (!at)
			return false;
		c->at = at;
	}
	c->rows = rows;
	c->cols = cols;
	memset(c->at, 0, count * sizeof *c->at);
	for (size_t i = 0; i < count; i++)
		c->at[i].ch[0] = L' ';
	return true;
}

void cells_free(struct cells *c)
{
	free(c->at);
	*c = (struct cells){ 0 };
}

struct area cells_all(struct cells *c)
{
	return (struct area){ .cells = c, .rows = c->rows, .cols = c->cols };
}

struct area area_part(const struct area *a, int row, int col, int rows, int cols)
{
	struct area part = { a->cells, a->row + row, a->col + col, rows, cols };

	if (row + rows > a->rows)
		part.rows = a->rows - row;
	if (col + cols > a->cols)
		part.cols = a->cols - col;
	if (part.rows < 0)
		part.rows = 0;
	if (part.cols < 0)
		part.cols = 0;
	return part;
}

/* The cell at a place of the area, or NULL outside. */
static struct cell *cell_at(const struct area *a, int row, int col)
{
	int y = a->row + row, x = a->col + col;

	if (row < 0 || col < 0 || row >= a->rows || col >= a->cols)
		return NULL;
	if (y < 0 || x < 0 || y >= a->cells->rows || x >= a->cells->cols)
		return NULL;
	return &a->cells->at[y * a->cells->cols + x];
}

void area_put(const struct area *a, int row, int col, wchar_t ch, enum style style)
{
	struct cell *cell = cell_at(a, row, col);

	if (cell)
		*cell = (struct cell){ .ch = { ch }, .style = (unsigned char)style };
}

void area_fill(const struct area *a, wchar_t ch, enum style style)
{
	for (int row = 0; row < a->rows; row++)
		for (int col = 0; col < a->cols; col++)
			area_put(a, row, col, ch, style);
}

void area_restyle(const struct area *a, int row, int col, int width, enum style style)
{
	for (int i = 0; i < width; i++) {
		struct cell *cell = cell_at(a, row, col + i);

		if (cell)
			cell->style = (unsigned char)style;
	}
}

/* One character of UTF-8; what is broken is U+FFFD and one byte long. */
static size_t decode(const char *text, uint32_t *out)
{
	static const uint32_t least[] = { 0, 0, 0x80, 0x800, 0x10000 };
	const unsigned char *s = (const unsigned char *)text;
	size_t n = s[0] < 0x80 ? 1 : s[0] >= 0xf0 && s[0] < 0xf5 ? 4 : s[0] >= 0xe0 ? 3 : 2;
	uint32_t value;

	*out = 0xfffd;
	if (n == 1) {
		*out = s[0];
		return 1;
	}
	if (s[0] < 0xc2 || s[0] > 0xf4)
		return 1;
	value = s[0] & (0xffu >> (n + 1));
	for (size_t i = 1; i < n; i++) {
		if ((s[i] & 0xc0) != 0x80)
			return 1;
		value = value << 6 | (s[i] & 0x3f);
	}
	if (value < least[n] || value > 0x10ffff || (value >= 0xd800 && value < 0xe000))
		return 1;
	*out = value;
	return n;
}

/* Characters that would change how others are shown. */
static bool is_unseen(uint32_t ch)
{
	return (ch >= 0x80 && ch < 0xa0) || (ch >= 0x200b && ch <= 0x200f) ||
	       (ch >= 0x2028 && ch <= 0x202e) || (ch >= 0x2060 && ch <= 0x206f) || ch == 0xfeff ||
	       (ch >= 0xfff9 && ch <= 0xfffb) || (ch >= 0xe0000 && ch <= 0xe0fff);
}

/* What is shown for a character, and its width: 0 for one that combines with the one before. */
static int shown(uint32_t *ch, bool ascii)
{
	int width;

	if (*ch < 0x20 || *ch == 0x7f) {
		*ch = ascii ? '?' : *ch == 0x7f ? 0x2421 : 0x2400 + *ch;
		return 1;
	}
	if (*ch < 0x7f)
		return 1;
	if (is_unseen(*ch)) {
		*ch = ascii ? '?' : 0xfffd;
		return 1;
	}
	width = wcwidth((wchar_t)*ch);
	if (ascii) {
		*ch = '?';
		return width == 0 ? 0 : 1;
	}
	if (width < 0) {
		*ch = 0xfffd;
		return 1;
	}
	return width;
}

int text_columns(const char *text, bool ascii)
{
	int columns = 0;

	while (*text) {
		uint32_t ch;

		text += decode(text, &ch);
		columns += shown(&ch, ascii);
	}
	return columns;
}

static void combine(struct cell *cell, wchar_t ch)
{
	for (int i = 1; cell && i < CELL_CHARS; i++) {
		if (!cell->ch[i]) {
			cell->ch[i] = ch;
			return;
		}
	}
}

int area_text(const struct area *a, int row, int col, int width, enum style style, const char *text)
{
	bool ascii = a->cells->ascii, whole = text_columns(text, ascii) <= width;
	int used = 0, room = whole ? width : width - 1;
	struct cell *last = NULL;

	while (*text && width > 0) {
		uint32_t ch;
		size_t bytes = decode(text, &ch);
		int columns = shown(&ch, ascii);

		if (used + columns > room)
			break;
		text += bytes;
		if (columns == 0) {
			if (!ascii && last)
				combine(last, (wchar_t)ch);
			continue;
		}
		area_put(a, row, col + used, (wchar_t)ch, style);
		last = cell_at(a, row, col + used);
		if (columns == 2 && cell_at(a, row, col + used + 1))
			area_put(a, row, col + used + 1, 0, style);
		else if (columns == 2)
			area_put(a, row, col + used, L' ', style);
		used += columns;
	}
	if (!whole && width > 0)
		area_put(a, row, col + used++, ascii ? L'~' : L'\u2026', style);
	return used;
}

int area_text_right(
        const struct area *a, int row, int col, int width, enum style style, const char *text)
{
	int columns = text_columns(text, a->cells->ascii);

	if (columns > width)
		columns = width;
	return area_text(a, row, col + width - columns, columns, style, text);
}

size_t text_wrap(const char *text, int width, bool ascii, const char **next)
{
	const char *p = text, *blank = NULL;
	int columns = 0;

	while (*p && *p != '\n') {
		uint32_t ch;
		size_t bytes = decode(p, &ch);
		int w = shown(&ch, ascii);

		if (*p == ' ')
			blank = p;
		if (columns + w > width && p > text) {
			const char *end = blank && blank > text ? blank : p;

			*next = end + strspn(end, " ");
			return (size_t)(end - text);
		}
		columns += w;
		p += bytes;
	}
	*next = *p == '\n' ? p + 1 : p;
	return (size_t)(p - text);
}
