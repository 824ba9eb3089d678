/* table.c - a list of things, typed cell by cell.
 *
 * The cursor is a row and a column. Enter or typing opens the prompt for the cell; what is taken
 * moves on to the next cell, after the last one to a new row. While new rows are typed, each prompt
 * opens the next one, so that a book is entered in one go; a cell that is mended stands alone. */
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

size_t table_next_column(const struct app *app, size_t row, size_t column)
{
	(void)app;
	(void)row;
	return column + 1;
}

void table_keep_in_range(struct app *app)
{
	struct table_view *v = &app->table;
	size_t rows = rows_of(app), last = v->table->fixed && rows ? rows - 1 : rows;

	if (v->row > last)
		v->row = last;
	if (v->column >= v->table->count)
		v->column = v->table->count - 1;
}

void table_open(struct app *app, const struct table *table)
{
	enum place back;

	assert(table->size <= FORM_SIZE);
	back = app->place == AT_CHOICE ? app->back : app->place;

	app->table = (struct table_view){ .table = table, .back = back }; /* rows reads it */
	app->table.row = table->fixed ? 0 : table->rows(app); /* where the next one is typed */
	app->place = AT_TABLE;
}

void table_thing(struct app *app, size_t row, void *thing)
{
	const struct table *t = app->table.table;

	memset(thing, 0, t->size);
	if (row < t->rows(app))
		t->get(app, row, thing);
	else
		t->fresh(app, thing);
}

static void step_on(struct app *app)
{
	struct table_view *v = &app->table;

	v->column = v->table->next ? v->table->next(app, v->row, v->column) : v->column + 1;
	if (v->column < v->table->count)
		return;
	v->column = 0;
	v->row++;
}

static bool put(struct app *app, union thing *thing, const struct form_value *v)
{
	struct table_view *at = &app->table;

	if (!at->table->put(app, at->row, thing->bytes, v->name))
		return false;
	table_keep_in_range(app);
	return true;
}

static void ask(struct app *app);

static bool cell_done(struct app *app, const char *text)
{
	struct table_view *at = &app->table;
	const struct form_value *v = &at->table->columns[at->column];
	char kept[sizeof app->prompt.text];
	union thing thing;

	if (rows_of(app) != at->asked) {
		at->asked = rows_of(app);
		table_keep_in_range(app);
		app_refuse(app, "Another program has added or deleted rows: see where the cursor "
		                "is now. Enter again takes it there, Esc leaves it.");
		return false;
	}
	table_thing(app, at->row, thing.bytes);
	snprintf(kept, sizeof kept, "%s", text);
	if (!thing_typed(app, v, kept, thing.bytes) || !put(app, &thing, v))
		return false;
	step_on(app);
	if (at->adding && (!at->table->most || at->row < at->table->most) &&
	        !thing_turns(&at->table->columns[at->column]))
		ask(app);
	return true;
}

/* "line 3, back" */
static const char *label_of(const struct app *app, char buf[80])
{
	const struct table_view *at = &app->table;
	const char *name = at->table->columns[at->column].name;

	if (at->table->item)
		snprintf(buf, 80, "%s %zu, %s", at->table->item, at->row + 1, name);
	else
		snprintf(buf, 80, "%s", name);
	return buf;
}

static void ask(struct app *app)
{
	struct table_view *at = &app->table;
	const struct form_value *v = &at->table->columns[at->column];
	union thing thing;
	char buf[200], label[80];

	table_thing(app, at->row, thing.bytes);
	at->asked = rows_of(app);
	if (at->row >= at->asked)
		at->adding = at->table->next != NULL;
	if (thing_turned(v, thing.bytes)) {
		if (put(app, &thing, v))
			step_on(app);
		return;
	}
	prompt_open(app, label_of(app, label), v->hint,
	        thing_offered(v, thing.bytes, buf, sizeof buf), cell_done);
}

/* Begins with the marked cell: on its own, or the first of a new row. */
static void begin(struct app *app)
{
	table_keep_in_range(app);
	app->table.adding = false;
	ask(app);
}

void act_cell_enter(struct app *app, int key)
{
	(void)key;
	begin(app);
}

/* Typing begins the cell anew. */
void act_cell_type(struct app *app, int key)
{
	begin(app);
	if (app->prompt.on)
		prompt_key(app, key);
}

void act_cell_move(struct app *app, int key)
{
	struct table_view *v = &app->table;
	size_t page = app->rows > 12 ? (size_t)app->rows - 8 : 4;

	table_keep_in_range(app);
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
	table_keep_in_range(app);
}

/* Says so where rows are always there. */
static bool rows_are_fixed(struct app *app)
{
	if (app->table.table->fixed)
		app_refuse(app, "These rows are fixed: change their values.");
	return app->table.table->fixed;
}

void act_table_add(struct app *app, int key)
{
	(void)key;
	if (rows_are_fixed(app))
		return;
	app->table.row = rows_of(app);
	app->table.column = 0;
	begin(app);
}

void act_table_drop(struct app *app, int key)
{
	struct table_view *v = &app->table;

	(void)key;
	table_keep_in_range(app);
	if (rows_are_fixed(app))
		return;
	if (v->row >= rows_of(app)) {
		app_refuse(app, "There is no row here yet.");
		return;
	}
	if (v->table->drop(app, v->row))
		app_say(app, "The row is gone. u brings it back.");
	table_keep_in_range(app);
}

void act_table_leave(struct app *app, int key)
{
	(void)key;
	app_go(app, app->table.back);
}
