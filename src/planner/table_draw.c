/* table_draw.c - a table on the screen: typed columns, then figures worked out. */
#include "values.h"

#include <stdio.h>
#include <string.h>

enum { GAP = 2, LEFT = 2, MOST_COLUMNS = 12, LEAST_NAME = 8 };

/* As a cell shows it: bare, its unit is in the column's head. */
static const char *cell_words(const struct form_value *v, const void *thing, char *buf, size_t size)
{
	int64_t um;
	size_t unit = strlen(v->name), n;

	if (v->value == VALUE_RAIN) {
		thing_words(v, thing, buf, size);
		n = strlen(buf);
		if (n > unit && strcmp(buf + n - unit, v->name) == 0)
			buf[n - unit - 1] = '\0';
		return buf;
	}
	if (v->value != VALUE_M && v->value != VALUE_SIGHT)
		return thing_words(v, thing, buf, size);
	memcpy(&um, (const char *)thing + v->offset, sizeof um);
	if (v->value == VALUE_SIGHT && um == NO_READING)
		return "";
	return metres(buf, um);
}

static void widen(const struct app *app, int *width, const char *words)
{
	int n = text_columns(words, app->ascii);

	if (n > *width)
		*width = n > 28 ? 28 : n;
}

/* Widths of the typed columns, then of the notes; returns how many there are. */
static size_t measure(struct app *app, int widths[MOST_COLUMNS])
{
	const struct table *t = app->table.table;
	size_t rows = t->rows(app), n = t->count;
	char buf[200];

	for (size_t c = 0; c < t->count; c++) {
		widths[c] = 6;
		widen(app, &widths[c], t->columns[c].name);
		for (size_t r = 0; r < rows; r++) {
			union thing thing;

			table_thing(app, r, thing.bytes);
			widen(app, &widths[c],
			        cell_words(&t->columns[c], thing.bytes, buf, sizeof buf));
		}
	}
	for (int k = 0; k < TABLE_NOTES && t->notes[k] && n < MOST_COLUMNS; k++, n++) {
		widths[n] = 0;
		widen(app, &widths[n], t->notes[k]);
		for (size_t r = 0; r < rows; r++) {
			t->note(app, r, k, buf, sizeof buf);
			widen(app, &widths[n], buf);
		}
	}
	return n;
}

/* Names give way where all columns are too wide for the screen. */
static void narrow(const struct table *t, int *widths, size_t columns, int cols)
{
	int over = LEFT - GAP - cols;

	for (size_t c = 0; c < columns; c++)
		over += widths[c] + GAP;
	for (size_t c = 0; c < t->count && over > 0; c++) {
		int by = widths[c] - LEAST_NAME < over ? widths[c] - LEAST_NAME : over;

		if (t->columns[c].value != VALUE_TEXT || by <= 0)
			continue;
		widths[c] -= by;
		over -= by;
	}
}

/* The first column to draw, so that the one chosen is seen; with the last typed one what is worked
 * out, too. */
static size_t first_column(const struct app *app, const int *widths, size_t columns, int cols)
{
	size_t first = 0, last = app->table.column + 1 == app->table.table->count
	                                 ? columns - 1
	                                 : app->table.column;
	int total = LEFT - GAP;

	for (size_t c = 0; c <= last; c++)
		total += widths[c] + GAP;
	while (first < app->table.column && total > cols)
		total -= widths[first++] + GAP;
	return first;
}

static bool is_text(const struct table *t, size_t column)
{
	return column < t->count && t->columns[column].value >= PLAIN_VALUES;
}

static void put_cell(const struct app *app, const struct area *a, int row, int col, int width,
        size_t column, enum style style, const char *words)
{
	if (width > a->cols - col)
		width = a->cols - col;
	if (width <= 0)
		return;
	if (is_text(app->table.table, column))
		area_text(a, row, col, width, style, words);
	else
		area_text_right(a, row, col, width, style, words);
}

static void draw_row(struct app *app, const struct area *a, int at, size_t row, const int *widths,
        size_t columns, size_t first)
{
	const struct table *t = app->table.table;
	bool here = row == app->table.row, fresh = row == t->rows(app);
	union thing thing;
	char buf[200];
	int col = LEFT;

	if (fresh && t->fixed)
		return;
	if (!fresh)
		table_thing(app, row, thing.bytes);
	if (here)
		area_put(a, at, 0, L'>', STYLE_KEY);
	for (size_t c = first; c < columns; c++) {
		const char *words = "";
		enum style style = c < t->count ? STYLE_PLAIN : STYLE_STRONG;

		if (c < t->count && !fresh)
			words = cell_words(&t->columns[c], thing.bytes, buf, sizeof buf);
		else if (!fresh) {
			t->note(app, row, (int)(c - t->count), buf, sizeof buf);
			words = buf;
		}
		if (here && c == app->table.column) {
			style = STYLE_HERE;
			for (int i = 0; i < widths[c] && col + i < a->cols; i++)
				area_put(a, at, col + i, fresh ? L'_' : L' ', STYLE_HERE);
		}
		if (*words)
			put_cell(app, a, at, col, widths[c], c, style, words);
		col += widths[c] + GAP;
	}
}

/* Rows that fit come into sight: the chosen one, and as many before it as there is room for. */
static void scroll(struct table_view *v, size_t rows, int room)
{
	size_t fit = room > 1 ? (size_t)room : 1;

	if (v->row < v->top)
		v->top = v->row;
	if (v->row >= v->top + fit)
		v->top = v->row - fit + 1;
	if (v->top + fit > rows + 1)
		v->top = rows + 1 > fit ? rows + 1 - fit : 0;
}

static void draw_head(struct app *app, const struct area *a, const int *widths, size_t columns,
        size_t first, int room)
{
	const struct table *t = app->table.table;
	size_t rows = t->rows(app);
	char where[48];
	int col = LEFT;

	area_text(a, 0, 0, a->cols, STYLE_TITLE, t->title);
	if (rows + 1 > (size_t)room) {
		snprintf(where, sizeof where, "row %zu of %zu", app->table.row + 1, rows);
		if (app->table.row == rows)
			snprintf(where, sizeof where, "new row after %zu", rows);
		area_text_right(a, 0, 0, a->cols, STYLE_QUIET, where);
	}
	if (first)
		area_put(a, 1, 0, L'<', STYLE_QUIET);
	for (size_t c = first; c < columns; col += widths[c] + GAP, c++)
		put_cell(app, a, 1, col, widths[c], c, STYLE_QUIET,
		        c < t->count ? t->columns[c].name : t->notes[c - t->count]);
}

/* Below the rows: what the table says of them, or how to begin. */
static int draw_foot(const struct area *a, int row, const char *text, bool draw)
{
	const char *next;

	for (; *text; text = next) {
		char line[400];
		size_t n = text_wrap(text, a->cols, a->cells->ascii, &next);

		snprintf(line, sizeof line, "%.*s", (int)n, text);
		if (draw)
			area_text(a, row, 0, a->cols, STYLE_PLAIN, line);
		row++;
	}
	return row;
}

void table_draw(struct app *app, const struct area *body)
{
	const struct table *t = app->table.table;
	struct area a = area_part(body, 0, 2, body->rows, body->cols - 3);
	int widths[MOST_COLUMNS], room, at = 2;
	size_t columns, first, rows = t->rows(app);
	char foot[600] = "";

	table_keep_in_range(app);
	columns = measure(app, widths);
	narrow(t, widths, columns, a.cols);
	first = first_column(app, widths, columns, a.cols);
	if (!rows)
		snprintf(foot, sizeof foot, "%s", t->empty);
	else if (t->foot)
		t->foot(app, foot, sizeof foot);
	room = a.rows - 2;
	if (*foot && draw_foot(&a, 1, foot, false) < a.rows / 2)
		room -= draw_foot(&a, 1, foot, false);
	else if (*foot) /* a long one gives way to the rows */
		room -= a.rows / 2;
	scroll(&app->table, rows, room);
	draw_head(app, &a, widths, columns, first, room);
	for (size_t r = app->table.top; r <= rows && at < room + 2; r++, at++)
		draw_row(app, &a, at, r, widths, columns, first);
	draw_foot(&a, at + 1, foot, true);
}
