/* values.h - the values of a thing that a form or table describes: shown, offered, typed. */
#ifndef SLABWRIGHT_PLANNER_VALUES_H
#define SLABWRIGHT_PLANNER_VALUES_H

#include "form.h"

#include <stddef.h>

/* A copy of any thing, aligned. */
union thing {
	char bytes[FORM_SIZE];
	max_align_t align;
};

/* As a list or a cell shows it; as a prompt offers it. */
const char *thing_words(const struct form_value *v, const void *thing, char *buf, size_t size);
const char *thing_offered(const struct form_value *v, const void *thing, char *buf, size_t size);

/* Puts what was typed into the thing; a text value points at `text` then. False, with the reason
 * shown. */
bool thing_typed(struct app *app, const struct form_value *v, const char *text, void *thing);

/* Whether it is not typed but turned over. */
bool thing_turns(const struct form_value *v);

/* Turns a value over that is not typed; false for one that is. */
bool thing_turned(const struct form_value *v, void *thing);

#endif
