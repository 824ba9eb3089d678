/* list.c - rows to choose from, and narrowing them while one types. */
#include "actions.h"

#include "slabwright/text.h"

#include <stdio.h>
#include <string.h>
#include <wctype.h>

struct list *list_here(struct app *app)
{
	return app->place == AT_CHOICE ? &app->choice : &app->list;
}

struct list *list_typing(struct app *app)
{
	bool lists = app->place == AT_CLIENTS || app->place == AT_JOBS ||
	             app->place == AT_VARIANTS || app->place == AT_CHOICE;
	struct list *l = list_here(app);

	return lists && l->typing ? l : NULL;
}

struct arena *list_mem(struct app *app, const struct list *l)
{
	return l == &app->choice ? &app->choice_mem : &app->list_mem;
}

/* --- narrowing --- */

/* The next character of the text in lower case, 0 at its end; what is not UTF-8 is its byte. */
static wint_t lower_next(const char **text)
{
	static const unsigned char lead[] = { 0, 0x7F, 0x1F, 0x0F, 0x07 };
	size_t n = utf8_sequence((const unsigned char *)*text, strlen(*text));
	wint_t ch = (unsigned char)**text;

	if (n > 1) {
		ch &= lead[n];
		for (size_t i = 1; i < n; i++)
			ch = ch << 6 | ((unsigned char)(*text)[i] & 0x3F);
	}
	*text += n ? n : **text != '\0';
	return towlower(ch);
}

/* Whether the text has the part in it, whatever the case of letters. */
static bool has(const char *text, const char *part)
{
	for (;; lower_next(&text)) {
		const char *t = text, *p = part;

		while (*p && *t) {
			const char *t_next = t, *p_next = p;

			if (lower_next(&t_next) != lower_next(&p_next))
				break;
			t = t_next;
			p = p_next;
		}
		if (!*p)
			return true;
		if (!*text)
			return false;
	}
}

static bool row_has(const struct list_row *row, const char *part)
{
	return has(row->words, part) || (row->notes && has(row->notes, part));
}

/* Shows the rows that fit, with the one marked that was, where it is among them. */
static void narrow(struct list *l)
{
	const char *marked = l->at < l->count ? l->rows[l->at].words : NULL;

	l->count = l->at = 0;
	l->top = 0;
	for (size_t i = 0; i < l->all_count; i++) {
		if (!row_has(&l->all[i], l->find))
			continue;
		if (l->all[i].words == marked)
			l->at = l->count;
		l->rows[l->count++] = l->all[i];
	}
}

void list_find(struct list *l, struct arena *mem, const char *text)
{
	if (!l->all) {
		struct list_row *rows = arena_alloc(mem, l->count + 1, sizeof *rows);

		if (!rows)
			return;
		l->all = l->rows;
		l->all_count = l->count;
		memcpy(rows, l->all, l->count * sizeof *rows);
		l->rows = rows;
	}
	snprintf(l->find, sizeof l->find, "%s", text);
	narrow(l);
}

void list_widen(struct list *l)
{
	const char *marked = l->at < l->count ? l->rows[l->at].words : NULL;

	l->typing = false;
	l->find[0] = '\0';
	if (!l->all)
		return;
	l->rows = l->all;
	l->count = l->all_count;
	l->all = NULL;
	l->at = 0;
	for (size_t i = 0; marked && i < l->count; i++)
		if (l->rows[i].words == marked)
			l->at = i;
}

bool list_find_key(struct app *app, struct list *l, int key)
{
	char text[sizeof l->find + 8];
	size_t n = strlen(l->find);

	snprintf(text, sizeof text, "%s", l->find);
	if (key == KEY_OF_ESCAPE || (key == KEY_OF_BACKSPACE && !n)) {
		list_widen(l);
		return true;
	}
	if (key == KEY_OF_ENTER) {
		l->typing = false;
		return true;
	}
	if (key == KEY_OF_DELETE)
		n = 0;
	else if (key == KEY_OF_BACKSPACE)
		while (n && ((unsigned char)text[--n] & 0xc0) == 0x80)
			;
	else if (key >= ' ' && key != 0x7f && key < KEY_OF_ARROW_LEFT)
		n += utf8_encode(text + n, (unsigned)key);
	else
		return false;
	text[n] = '\0';
	if (n < sizeof l->find)
		list_find(l, list_mem(app, l), text);
	return true;
}

/* --- moving --- */

void list_move(struct app *app, struct list *l, int key)
{
	size_t page = (size_t)(app->rows > 12 ? app->rows - 8 : 4), step = 1;

	if (!l->count)
		return;
	if (key == KEY_OF_PAGE_UP || key == KEY_OF_PAGE_DOWN)
		step = page;
	switch (key) {
	case KEY_OF_HOME:
		l->at = 0;
		break;
	case KEY_OF_END:
		l->at = l->count - 1;
		break;
	case KEY_OF_ARROW_UP:
	case KEY_OF_PAGE_UP:
	case KEY_OF_WHEEL_UP:
		l->at = l->at > step ? l->at - step : 0;
		break;
	default:
		l->at = l->at + step < l->count ? l->at + step : l->count - 1;
	}
}

void list_mark(struct list *l, int64_t id)
{
	for (size_t i = 0; i < l->count; i++)
		if (l->rows[i].id == id)
			l->at = i;
}

struct list *choice_open(
        struct app *app, const char *title, void (*chosen)(struct app *, const struct list_row *))
{
	arena_reset(&app->choice_mem);
	app->choice =
	        (struct list){ .chosen = chosen, .empty = "There is nothing to choose from." };
	snprintf(app->choice.title, sizeof app->choice.title, "%s", title);
	if (app->place != AT_CHOICE)
		app->back = app->place;
	app->place = AT_CHOICE;
	return &app->choice;
}

void choice_add(struct app *app, const char *words, const char *note, int64_t id)
{
	struct list *l = &app->choice;
	struct list_row *rows =
	        arena_grow(&app->choice_mem, l->rows, l->count, &l->capacity, sizeof *rows);

	if (!rows)
		return;
	l->rows = rows;
	rows[l->count] = (struct list_row){ 0 };
	rows[l->count].words = arena_text(&app->choice_mem, words);
	rows[l->count].note = arena_text(&app->choice_mem, note);
	rows[l->count].id = id;
	if (!rows[l->count].words || !rows[l->count].note)
		return;
	l->count++;
}
