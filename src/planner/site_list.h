/* site_list.h - the lists of what is measured on site, as tables. */
#ifndef SLABWRIGHT_PLANNER_SITE_LIST_H
#define SLABWRIGHT_PLANNER_SITE_LIST_H

#include "form.h"

/* One list of plan.site. */
struct site_list {
	const char *what; /* "ground level": an item, as undo names it */
	size_t items, count; /* offsets in struct plan_site of the pointer and of the count */
	size_t size; /* of an item */
	/* What is not there is empty in the table (NO_READING): from the item as the plan has it,
	 * and back. NULL where all is there. */
	void (*open)(void *item);
	void (*settle)(void *item);
};

bool edit_site(struct app *app, const char *label, const struct plan_site *site);

/* For a struct table whose `list` is one of these. */
size_t site_rows(const struct app *app);
void site_get(const struct app *app, size_t row, void *thing);
bool site_put(struct app *app, size_t row, const void *thing, const char *what);
bool site_drop(struct app *app, size_t row);

/* Adds an item behind the last. */
bool site_add(struct app *app, const struct site_list *list, const void *item);

#endif
