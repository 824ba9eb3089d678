/* frame_parts.c - the help and the two lines at the foot. */
#include "actions.h"
#include "frame.h"

#include <stdio.h>
#include <string.h>

/* --- help --- */

struct help {
	struct area area;
	int row; /* of the next line, less what is scrolled away */
};

static void help_text(struct help *h, int col, enum style style, const char *text)
{
	const char *next;

	for (; *text; text = next) {
		char line[400];
		size_t n = text_wrap(text, h->area.cols - col, h->area.cells->ascii, &next);

		snprintf(line, sizeof line, "%.*s", (int)n, text);
		area_text(&h->area, h->row++, col, h->area.cols - col, style, line);
	}
}

static int help_lines(struct app *app, const struct area *body, int top)
{
	struct help h = { area_part(body, 0, 2, body->rows, body->cols - 3), -top };

	help_text(&h, 0, STYLE_TITLE, place_name(app->help_back));
	help_text(&h, 0, STYLE_PLAIN, place_help(app->help_back));
	h.row++;
	for (size_t i = 0; i < action_count; i++) {
		if (!(actions[i].where & ON(app->help_back)))
			continue;
		area_text(&h.area, h.row, 0, 13, STYLE_KEY, actions[i].key_words);
		help_text(&h, 14, STYLE_PLAIN, actions[i].help);
	}
	h.row++;
	help_text(&h, 0, STYLE_QUIET,
	        "Lengths: 3,62 or 3.62 m, 362 cm, 3620 mm, 12' 6 3/8\". Falls: 15, 1.5 %, 1:60. In "
	        "a line: "
	        "typing replaces the value offered, Backspace mends it, Delete clears it, Enter "
	        "takes it, Esc "
	        "leaves all as it was.");
	return h.row + top;
}

void help_draw(struct app *app, const struct area *body)
{
	struct area nowhere = *body;
	int total;

	nowhere.rows = 0;
	total = help_lines(app, &nowhere, 0);
	if (app->help_top > total - body->rows)
		app->help_top = total > body->rows ? total - body->rows : 0;
	help_lines(app, body, app->help_top);
}

/* --- foot --- */

/* A message longer than a line grows upwards over the body. */
static void draw_message(
        struct app *app, const struct layout *lay, const char *text, enum style style)
{
	struct area all = cells_all(&app->cells);
	const char *lines[5], *next;
	size_t length[5];
	int n = 0, width = all.cols - 2, bottom = lay->message.row;

	for (; *text && n < 5; text = next, n++) {
		lines[n] = text;
		length[n] = text_wrap(text, width, app->ascii, &next);
	}
	for (int i = 0; i < n; i++) {
		char line[600];
		int row = bottom - n + 1 + i;

		for (int col = 0; col < all.cols; col++)
			area_put(&all, row, col, L' ', STYLE_PLAIN);
		snprintf(line, sizeof line, "%.*s", (int)length[i], lines[i]);
		area_text(&all, row, 1, width, style, line);
	}
}

/* A line that is typed: label, text with its end in view, and what the keys do. */
static void draw_line(struct app *app, const struct area *foot, const char *label, const char *text,
        bool offered, const char *keys)
{
	int col = 1 + area_text(foot, 0, 1, foot->cols / 2, STYLE_KEY, label), room;
	int right = (int)strlen(keys);

	col += area_text(foot, 0, col, 2, STYLE_KEY, ": ");
	room = foot->cols - col - right - 4;
	if (room < 8 || text_columns(text, app->ascii) > room) { /* what is typed comes first */
		keys = "";
		right = 0;
		room = foot->cols - col - 2;
	}
	while (*text && text_columns(text, app->ascii) > room) {
		text++;
		while (((unsigned char)*text & 0xc0) == 0x80)
			text++;
	}
	col += area_text(foot, 0, col, room, offered ? STYLE_HERE : STYLE_STRONG, text);
	area_put(foot, 0, col, app->ascii ? L'_' : L'\u2581', STYLE_CURSOR);
	area_text_right(foot, 0, foot->cols - 1 - right, right, STYLE_QUIET, keys);
}

static void draw_prompt(struct app *app, const struct area *foot)
{
	const struct prompt *p = &app->prompt;

	draw_line(app, foot, p->label, p->text, p->offered,
	        p->arrow ? "arrow or Enter takes it, Esc leaves" : "Enter takes it, Esc leaves");
}

/* What the foot line says of an action now; NULL when it is not for now. */
static const char *foot_words(const struct app *app, const struct action *a)
{
	if (!(a->where & ON(app->place)))
		return NULL;
	if (app->mode == MODE_CARRY && a->busy)
		return a->busy;
	return !a->when || a->when(app) ? a->foot : NULL;
}

/* Puts one key and its words; gives the columns used, 0 where there was no room. */
static int draw_key(const struct area *foot, int col, int end, const char *key, const char *words)
{
	int key_width = (int)strlen(key), width = key_width + 1 + (int)strlen(words);

	if (col + width > end)
		return 0;
	area_text(foot, 0, col, key_width, STYLE_KEY, key);
	area_text(foot, 0, col + key_width + 1, width - key_width - 1, STYLE_PLAIN, words);
	return width + 2;
}

static bool always_shown(const struct action *action)
{
	return action->keys[0] == '?' || action->keys[0] == KEY_OF_TAB;
}

static void draw_keys(struct app *app, const struct area *foot)
{
	int col = 1, end = foot->cols - 1;

	for (size_t i = 0; i < action_count;
	        i++) { /* from the right: the keys that always matter */
		const struct action *a = &actions[i];
		const char *words = foot_words(app, a);

		if (words && always_shown(a))
			end -= draw_key(foot, end - (int)(strlen(a->key_words) + strlen(words) + 1),
			        end, a->key_words, words);
	}
	for (size_t i = 0; i < action_count; i++) {
		const char *words = foot_words(app, &actions[i]);

		if (words && !always_shown(&actions[i]))
			col += draw_key(foot, col, end, actions[i].key_words, words);
	}
}

/* The marked row in full, where the list has no room for all of it; "" else. */
static void cut_row(struct app *app, const struct layout *lay, char buf[400])
{
	struct list *l = list_here(app);
	int cols = lay->body.cols - 3, note;

	buf[0] = '\0';
	if (!(ON(app->place) & (ON(AT_CHOICE) | ON(AT_CLIENTS) | ON(AT_JOBS) | ON(AT_VARIANTS))) ||
	        l->at >= l->count)
		return;
	note = list_note_column(app, l, cols);
	if (text_columns(l->rows[l->at].words, app->ascii) > note - 4 ||
	        text_columns(l->rows[l->at].note, app->ascii) > cols - note)
		snprintf(buf, 400, "%s%s%s", l->rows[l->at].words, *l->rows[l->at].note ? ": " : "",
		        l->rows[l->at].note);
}

void foot_draw(struct app *app, const struct layout *lay)
{
	char row[400];

	if (app->message[0])
		draw_message(app, lay, app->message, app->refused ? STYLE_WARN : STYLE_GOOD);
	else if (app->prompt.on)
		draw_message(app, lay, app->prompt.hint, STYLE_QUIET);
	else {
		cut_row(app, lay, row);
		draw_message(app, lay, row, STYLE_QUIET);
	}
	if (app->prompt.on)
		draw_prompt(app, &lay->foot);
	else if (list_typing(app))
		draw_line(app, &lay->foot, "Find", list_typing(app)->find, false,
		        "Enter keeps these rows, Esc shows all");
	else
		draw_keys(app, &lay->foot);
}
