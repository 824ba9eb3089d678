/* table.c - a list of things, typed cell by cell.
 *
 * The cursor is a row and a column. Enter or typing opens the prompt for the cell; what is taken
 * moves on to the next cell, after the last one to a new row, so that a book is entered in one go.
 */
#include "actions.h"
#include "values.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static size_t rows_of(const struct app *app)
{
	return app->table.table->rows(app);
}

bool table_has_rows(const struct app *app)
{
	return app->table.table && rows_of(app) > 0;
}

static void keep_in_range(struct app *app)
{
	struct table_view *v = &app->table;
	size_t rows = rows_of(app);

	if (v->row > rows)
		v->row = rows;
	if (v->column >= v->table->count)
		v->column = v->table->count - 1;
}

void table_open(struct app *app, const struct table *table)
{
	enum place back;

	assert(table->size <= FORM_SIZE);
	back = app->place == AT_CHOICE ? app->back : app->place;

	app->table = (struct table_view){ .table = table, .back = back }; /* rows reads it */
	app->table.row = table->rows(app); /* where the next one is typed */
	app->place = AT_TABLE;
}

/* The thing of a row, or a fresh one behind the last. */
static void thing_of(struct app *app, size_t row, union thing *thing)
{
	const struct table *t = app->table.table;

	memset(thing, 0, sizeof *thing);
	if (row < t->rows(app))
		t->get(app, row, thing->bytes);
	else
		t->fresh(app, thing->bytes);
}

static void step_on(struct table_view *v)
{
	if (++v->column < v->table->count)
		return;
	v->column = 0;
	v->row++;
}

static bool put(struct app *app, union thing *thing, const struct form_value *v)
{
	struct table_view *at = &app->table;

	if (!at->table->put(app, at->row, thing->bytes, v->name))
		return false;
	keep_in_range(app);
	return true;
}

static bool cell_done(struct app *app, const char *text)
{
	struct table_view *at = &app->table;
	const struct form_value *v = &at->table->columns[at->column];
	char kept[sizeof app->prompt.text];
	union thing thing;

	keep_in_range(app);
	thing_of(app, at->row, &thing);
	snprintf(kept, sizeof kept, "%s", text);
	if (!thing_typed(app, v, kept, thing.bytes) || !put(app, &thing, v))
		return false;
	step_on(at);
	return true;
}

static void ask(struct app *app)
{
	struct table_view *at = &app->table;
	const struct form_value *v = &at->table->columns[at->column];
	union thing thing;
	char buf[200];

	thing_of(app, at->row, &thing);
	if (thing_turned(v, thing.bytes)) {
		if (put(app, &thing, v))
			step_on(at);
		return;
	}
	prompt_open(
	        app, v->name, v->hint, thing_offered(v, thing.bytes, buf, sizeof buf), cell_done);
}

void act_cell_enter(struct app *app, int key)
{
	(void)key;
	keep_in_range(app);
	ask(app);
}

/* Typing begins the cell anew. */
void act_cell_type(struct app *app, int key)
{
	keep_in_range(app);
	ask(app);
	if (app->prompt.on)
		prompt_key(app, key);
}

void act_cell_move(struct app *app, int key)
{
	struct table_view *v = &app->table;
	size_t page = app->rows > 12 ? (size_t)app->rows - 8 : 4;

	keep_in_range(app);
	switch (key) {
	case KEY_OF_ARROW_LEFT:
		v->column -= v->column > 0;
		break;
	case KEY_OF_ARROW_RIGHT:
		v->column += v->column + 1 < v->table->count;
		break;
	case KEY_OF_ARROW_UP:
	case KEY_OF_WHEEL_UP:
		v->row -= v->row > 0;
		break;
	case KEY_OF_ARROW_DOWN:
	case KEY_OF_WHEEL_DOWN:
		v->row++;
		break;
	case KEY_OF_PAGE_UP:
		v->row -= v->row > page ? page : v->row;
		break;
	case KEY_OF_PAGE_DOWN:
		v->row += page;
		break;
	case KEY_OF_HOME:
		v->row = 0;
		break;
	default:
		v->row = rows_of(app);
	}
	keep_in_range(app);
}

void act_table_add(struct app *app, int key)
{
	(void)key;
	app->table.row = rows_of(app);
	app->table.column = 0;
	ask(app);
}

void act_table_drop(struct app *app, int key)
{
	struct table_view *v = &app->table;

	(void)key;
	keep_in_range(app);
	if (v->row >= rows_of(app)) {
		app_refuse(app, "There is no row here yet.");
		return;
	}
	if (v->table->drop(app, v->row))
		app_say(app, "The row is gone. u brings it back.");
	keep_in_range(app);
}

void act_table_leave(struct app *app, int key)
{
	(void)key;
	app_go(app, app->table.back);
}

/* --- drawing --- */

enum { GAP = 2, MOST_COLUMNS = 12 };

/* As a cell shows it: bare, its unit is in the column's head. */
static const char *cell_words(const struct form_value *v, const void *thing, char *buf, size_t size)
{
	int64_t um;

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

			thing_of(app, r, &thing);
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

/* The first column to draw, so that the one chosen is seen. */
static size_t first_column(const struct app *app, const int *widths, int cols)
{
	size_t first = 0;
	int total = 2;

	for (size_t c = 0; c <= app->table.column; c++)
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
	int col = 2;

	if (!fresh)
		thing_of(app, row, &thing);
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

void table_draw(struct app *app, const struct area *body)
{
	const struct table *t = app->table.table;
	struct area a = area_part(body, 0, 2, body->rows, body->cols - 3);
	int widths[MOST_COLUMNS], room, col = 2, foot_row;
	size_t columns, first, rows = t->rows(app);
	char foot[400] = "";
	const char *next;

	keep_in_range(app);
	columns = measure(app, widths);
	first = first_column(app, widths, a.cols);
	if (t->foot)
		t->foot(app, foot, sizeof foot);
	room = a.rows - 3 - (*foot ? 3 : 0);
	if (app->table.row < app->table.top)
		app->table.top = app->table.row;
	if (app->table.row >= app->table.top + (size_t)room)
		app->table.top = app->table.row - (size_t)room + 1;
	area_text(&a, 0, 0, a.cols, STYLE_TITLE, t->title);
	for (size_t c = first; c < columns; col += widths[c] + GAP, c++)
		put_cell(app, &a, 1, col, widths[c], c, STYLE_QUIET,
		        c < t->count ? t->columns[c].name : t->notes[c - t->count]);
	for (int r = 0; r < room && app->table.top + (size_t)r <= rows; r++)
		draw_row(app, &a, r + 2, app->table.top + (size_t)r, widths, columns, first);
	foot_row = rows ? ((int)rows + 3 < a.rows - 3 ? (int)rows + 4 : a.rows - 3) : 4;
	for (const char *text = rows ? foot : t->empty; *text && foot_row < a.rows; text = next) {
		char line[400];
		size_t n = text_wrap(text, a.cols, app->ascii, &next);

		snprintf(line, sizeof line, "%.*s", (int)n, text);
		area_text(&a, foot_row++, 0, a.cols, STYLE_PLAIN, line);
	}
}
