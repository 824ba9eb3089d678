/* frame_lists.c - lists with their notes, and the comparison. */
#include "actions.h"
#include "frame.h"

#include <stdio.h>
#include <string.h>

/* Beside the longest words, when that leaves them room. */
int list_note_column(struct app *app, const struct list *l, int cols)
{
	int words = 0, notes = 0;

	for (size_t i = 0; i < l->count; i++) {
		int w = text_columns(l->rows[i].words, app->ascii),
		    n = text_columns(l->rows[i].note, app->ascii);

		words = w > words ? w : words;
		notes = n > notes ? n : notes;
	}
	if (words + notes + 5 > cols)
		words = cols - 5 - (notes > cols / 2 ? cols / 2 : notes);
	return words + 5;
}

/* Puts the text's lines from that row on, as far as there is room. */
static void draw_wrapped(const struct area *a, int row, enum style style, const char *text)
{
	const char *next;

	for (; *text && row < a->rows; text = next) {
		char line[600];
		size_t n = text_wrap(text, a->cols, a->cells->ascii, &next);

		snprintf(line, sizeof line, "%.*s", (int)n, text);
		area_text(a, row++, 0, a->cols, style, line);
	}
}

static void draw_row(struct app *app, const struct area *a, int row, const struct list_row *r,
        bool here, int note)
{
	bool open = app->place == AT_VARIANTS && r->id == app->variant;
	enum style style = here ? STYLE_HERE : r->archived ? STYLE_QUIET : STYLE_PLAIN;

	if (here)
		area_restyle(a, row, 0, a->cols, STYLE_HERE);
	area_put(a, row, 0, here ? L'>' : open ? L'*' : L' ', here ? STYLE_HERE : STYLE_PLAIN);
	area_text(a, row, 2, note - 4, style, r->words);
	area_text(a, row, note, a->cols - note, here ? STYLE_HERE : STYLE_QUIET, r->note);
}

static void draw_none(const struct area *a, const struct list *l)
{
	char words[200];

	if (!l->all) {
		draw_wrapped(a, 2, STYLE_PLAIN, l->empty ? l->empty : "");
		return;
	}
	snprintf(words, sizeof words, "No row has \"%s\" in it. Esc shows all rows.", l->find);
	draw_wrapped(a, 2, STYLE_PLAIN, words);
}

/* How many rows there are, and what they are narrowed to. */
static void draw_count(const struct area *a, const struct list *l, int room)
{
	char where[160] = "";

	if (l->all)
		snprintf(where, sizeof where, "with \"%s\": %zu of %zu", l->find, l->count,
		        l->all_count);
	else if (l->count > (size_t)room)
		snprintf(where, sizeof where, "%zu of %zu", l->at + 1, l->count);
	area_text_right(a, 0, a->cols / 2, a->cols - a->cols / 2, STYLE_QUIET, where);
}

/* The notes of the marked row stand on the right at Clients and Jobs; variants have the pane. */
static void split_off_notes(struct app *app, struct area *a, const struct list *l)
{
	const char *notes = l->at < l->count ? l->rows[l->at].notes : NULL;
	struct area beside;
	int width = a->cols / 3;

	if (app->place == AT_VARIANTS || !notes || !*notes)
		return;
	beside = area_part(a, 0, a->cols - width, a->rows, width);
	a->cols -= width + 2;
	area_text(&beside, 0, 0, width, STYLE_TITLE, "Notes");
	draw_wrapped(&beside, 2, STYLE_PLAIN, notes);
}

void list_draw(struct app *app, const struct area *body, struct list *l)
{
	struct area a = area_part(body, 0, 2, body->rows, body->cols - 3);
	int room = a.rows - 2, at = (int)l->at, note;

	split_off_notes(app, &a, l);
	note = list_note_column(app, l, a.cols);
	area_text(&a, 0, 0, a.cols, STYLE_TITLE, l->title);
	draw_count(&a, l, room);
	if (!l->count)
		draw_none(&a, l);
	if (at < l->top)
		l->top = at;
	if (at >= l->top + room)
		l->top = at - room + 1;
	for (int row = 0; row < room && l->top + row < (int)l->count; row++)
		draw_row(app, &a, row + 2, &l->rows[l->top + row], l->top + row == at, note);
}

/* --- comparison --- */

enum { NAME_COLS = 18, COLUMN_COLS = 19, COLUMN_WIDEST = 30 };

/* The columns that are known, of the rows listed; in the frame's arena. */
static struct compare_column *columns_known(struct app *app, size_t *count)
{
	const struct list *l = &app->list;
	struct compare_column *columns =
	        arena_alloc(&app->frame_mem, l->count + 1, sizeof *columns);

	*count = 0;
	for (size_t i = 0; columns && i < l->count; i++) {
		const struct variant_row *v = variant_listed(app, l->rows[i].id);

		if (v && v->known)
			columns[(*count)++] = v->column;
	}
	return columns;
}

static void draw_value(const struct area *a, int row, int col, int width,
        const struct compare_column *columns, size_t count, size_t figure, size_t column)
{
	const char *best = compare_best(columns, count, figure, column);
	enum style style = best                                      ? STYLE_GOOD
	                   : compare_differs(columns, count, figure) ? STYLE_STRONG
	                                                             : STYLE_PLAIN;
	char cell[80];

	snprintf(cell, sizeof cell, "%s%s%s", best ? best : "", best ? " " : "",
	        columns[column].values[figure].text);
	area_text_right(a, row, col, width - 1, style, cell);
}

static void draw_columns(
        struct app *app, const struct area *a, const struct compare_column *columns, size_t count)
{
	int fit = (a->cols - NAME_COLS) / COLUMN_COLS, width;
	size_t shown;

	fit = fit < 1 ? 1 : fit;
	shown = count < (size_t)fit ? count : (size_t)fit;
	if (app->compare_left + shown > count)
		app->compare_left = count - shown;
	width = (a->cols - NAME_COLS) / (shown ? (int)shown : 1);
	width = width > COLUMN_WIDEST ? COLUMN_WIDEST : width;
	for (size_t i = 0; i < shown; i++) {
		size_t at = app->compare_left + i;
		int col = NAME_COLS + (int)i * width;

		area_text_right(a, 0, col, width - 1, STYLE_TITLE, columns[at].name);
		for (int f = app->help_top; f < COMPARE_FIGURES; f++)
			draw_value(a, 1 + f - app->help_top, col, width, columns, count, (size_t)f,
			        at);
	}
}

static void draw_figure_name(struct app *app, const struct area *a, int row, size_t figure,
        const struct compare_column *columns, size_t count)
{
	bool differs = compare_differs(columns, count, figure);

	if (differs)
		area_put(a, row, 0, glyph(app->ascii, GLYPH_DIFFERS), STYLE_WARN);
	area_text(a, row, 2, NAME_COLS - 2, differs ? STYLE_STRONG : STYLE_PLAIN,
	        compare_name(figure));
}

void compare_draw(struct app *app, const struct area *body)
{
	struct area a = area_part(body, 0, 2, body->rows, body->cols - 3);
	struct compare_column *columns;
	char head[64];
	size_t count;

	if (app->help_top > COMPARE_FIGURES + 1 - a.rows)
		app->help_top = COMPARE_FIGURES + 1 > a.rows ? COMPARE_FIGURES + 1 - a.rows : 0;
	if (!(columns = columns_known(app, &count)))
		return;
	draw_columns(app, &a, columns, count);
	if (count < app->list.count)
		snprintf(head, sizeof head, "%zu of %zu ...", count, app->list.count);
	else
		snprintf(head, sizeof head, "from %zu of %zu", app->compare_left + 1, count);
	area_text(&a, 0, 2, NAME_COLS - 2, STYLE_QUIET, head);
	for (int f = app->help_top; f < COMPARE_FIGURES && 1 + f - app->help_top < a.rows; f++)
		draw_figure_name(app, &a, 1 + f - app->help_top, (size_t)f, columns, count);
}
