/* list.c - rows to choose from. */
#include "actions.h"

#include <stdio.h>
#include <string.h>

struct list *list_here(struct app *app)
{
	return app->place == AT_CHOICE ? &app->choice : &app->list;
}

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
	struct list_row *rows = arena_alloc(&app->choice_mem, l->count + 1, sizeof *rows);

	if (!rows)
		return;
	if (l->count)
		memcpy(rows, l->rows, l->count * sizeof *rows);
	rows[l->count].words = arena_text(&app->choice_mem, words);
	rows[l->count].note = arena_text(&app->choice_mem, note);
	rows[l->count].id = id;
	if (!rows[l->count].words || !rows[l->count].note)
		return;
	l->rows = rows;
	l->count++;
}
