/* form.c - one thing's values, as a list that each is changed in. */
#include "form.h"

#include "values.h"

#include <assert.h>
#include <stdio.h>

/* A thing on its way from the plan to the plan; its texts live in the plan or in `text`. */
static bool get(struct app *app, union thing *thing, char title[120])
{
	return app->form->get(app, thing->bytes, title);
}

static void back_to_list(struct app *app, size_t which)
{
	form_open(app, app->form);
	list_mark(&app->choice, (int64_t)which);
}

/* Where the thing went away while its value was typed, that is said and the prompt ends. */
static bool value_done(struct app *app, const char *text)
{
	size_t which = (size_t)app->prompt.number;
	const struct form_value *v = &app->form->values[which];
	char title[120], kept[sizeof app->prompt.text];
	union thing thing;

	if (!get(app, &thing, title)) {
		app_go(app, app->back);
		return true;
	}
	snprintf(kept, sizeof kept, "%s", text);
	if (!thing_typed(app, v, kept, thing.bytes) || !app->form->put(app, thing.bytes, v->name))
		return false;
	back_to_list(app, which);
	return true;
}

static void value_chosen(struct app *app, const struct list_row *row)
{
	size_t which = (size_t)row->id;
	const struct form_value *v = &app->form->values[which];
	char title[120], buf[200];
	union thing thing;

	if (!get(app, &thing, title)) {
		app_go(app, app->back);
		return;
	}
	if (v->value == VALUE_DO) {
		v->run(app);
	} else if (thing_turned(v, thing.bytes)) {
		if (app->form->put(app, thing.bytes, v->name))
			back_to_list(app, which);
	} else {
		prompt_open(app, v->name, v->hint, thing_offered(v, thing.bytes, buf, sizeof buf),
		        value_done)
		        ->number = row->id;
	}
}

void form_open(struct app *app, const struct form *form)
{
	char title[120] = "", buf[200];
	union thing thing;

	assert(form->size <= FORM_SIZE);
	app->form = form;
	if (!get(app, &thing, title))
		return;
	choice_open(app, title, value_chosen);
	for (size_t i = 0; i < form->count; i++)
		if (!form->values[i].has || form->values[i].has(thing.bytes))
			choice_add(app, form->values[i].name,
			        thing_words(&form->values[i], thing.bytes, buf, sizeof buf),
			        (int64_t)i);
}

bool form_is_open(const struct app *app)
{
	return app->place == AT_CHOICE && app->choice.chosen == value_chosen;
}

void form_again(struct app *app)
{
	char title[120];
	union thing thing;
	size_t at = app->choice.at;

	if (!form_is_open(app))
		return;
	if (!get(app, &thing, title)) {
		app->prompt.on = false;
		app_go(app, app->back);
		return;
	}
	form_open(app, app->form);
	if (at < app->choice.count)
		app->choice.at = at;
}
