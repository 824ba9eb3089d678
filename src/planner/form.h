/* form.h - things that have many values: one thing as a list of its values, and a list of things
 * as a table.
 *
 * Both are driven by a description: what a value is called, how it is typed and shown, and where in
 * the thing's struct it stands. What is typed goes to a copy, which `put` makes an edit of. */
#ifndef SLABWRIGHT_PLANNER_FORM_H
#define SLABWRIGHT_PLANNER_FORM_H

#include "app.h"

/* Beside the plain ones of enum value. */
enum {
	VALUE_TEXT = PLAIN_VALUES, /* const char *, up to 119 bytes */
	VALUE_TURN, /* an enum, turned over to its next word */
	VALUE_SWITCH, /* a bool: words[0] no, words[1] yes */
	VALUE_PLACE, /* two int64_t at offset and after it: "across ; up" */
	VALUE_DO, /* no value: `run` does something */
};

struct form_value {
	const char *name, *hint; /* VALUE_DO: the hint stands beside it as its note */
	int value;
	size_t offset;
	const char *const *words; /* of VALUE_TURN and VALUE_SWITCH */
	int word_count;
	bool (*has)(const void *thing); /* whether the thing has this value; NULL: each has */
	void (*run)(struct app *app); /* of VALUE_DO */
	bool optional; /* a place may be empty: both its numbers are NO_READING then */
};

#define FORM_SIZE 2048 /* bytes of a thing, at most */

/* One thing. */
struct form {
	const struct form_value *values;
	size_t count, size; /* of values; of the thing's struct */
	/* A title for the list; false, with the reason shown, where there is no such thing now. */
	bool (*get)(struct app *app, void *thing, char title[120]);
	/* Makes it so; what: the value changed, for undo. False, with the reason shown. */
	bool (*put)(struct app *app, const void *thing, const char *what);
};

/* Opens the list of the thing's values; each is changed in turn until Esc. */
void form_open(struct app *app, const struct form *form);
/* Whether the list at AT_CHOICE is a form's. */
bool form_is_open(const struct app *app);
/* After the plan has changed under it: its values as they are now; back to the stage, with the
 * reason shown, where the thing has gone. */
void form_again(struct app *app);

/* A list of things. Rows are typed from left to right; Enter after the last column goes on to a new
 * row. */
#define TABLE_NOTES 4

struct table {
	const char *title, *empty; /* what it is; what to do when it has no rows */
	const char *item; /* what a row is, for its prompts: "line"; NULL: the column's name alone
	                   */
	const struct form_value *columns;
	size_t count, size;
	size_t most; /* rows at most; 0: as `put` says */
	bool fixed; /* its rows are always there: none is added, none goes */
	const void *list; /* what the functions below may need to know */
	size_t (*rows)(const struct app *app);
	void (*get)(const struct app *app, size_t row, void *thing);
	void (*fresh)(struct app *app, void *thing); /* a new row's values */
	/* row == rows: one more. */
	bool (*put)(struct app *app, size_t row, const void *thing, const char *what);
	bool (*drop)(struct app *app, size_t row);
	/* Where the typing of a new row goes on after a column was taken; `count`: to the next new
	 * row. With it each prompt opens the next one, until Esc. NULL: from column to column, each
	 * with Enter. */
	size_t (*next)(const struct app *app, size_t row, size_t column);
	/* Columns of figures worked out, behind the typed ones: NULL names end them. */
	const char *notes[TABLE_NOTES];
	void (*note)(const struct app *app, size_t row, int note, char *buf, size_t size);
	/* A line or two under the table: sums, faults. "" for none. */
	void (*foot)(const struct app *app, char *buf, size_t size);
};

void table_open(struct app *app, const struct table *table);
bool table_has_rows(const struct app *app);
size_t table_next_column(const struct app *app, size_t row, size_t column); /* for `next` */
/* Puts the cursor on a row and a column that there are. */
void table_keep_in_range(struct app *app);
/* The thing of a row, or a fresh one behind the last: table->size bytes. */
void table_thing(struct app *app, size_t row, void *thing);
void table_draw(struct app *app, const struct area *body); /* table_draw.c */

#endif
