/* site_list.c - lists of the site, changed item by item. */
#include "site_list.h"

#include <stdio.h>
#include <string.h>

bool edit_site(struct app *app, const char *label, const struct plan_site *site)
{
	struct edit e = { .type = EDIT_SITE, .site = *site };
	struct plan next = app->plan;
	bool same = false;

	next.site = *site;
	store_plans_same(&app->plan, &next, &same);
	if (same) /* a value passed with Enter is no change to undo */
		return true;
	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

static const struct site_list *list_of(const struct app *app)
{
	return app->table.table->list;
}

static size_t count_of(const struct plan_site *site, const struct site_list *l)
{
	size_t count;

	memcpy(&count, (const char *)site + l->count, sizeof count);
	return count;
}

static const char *items_of(const struct plan_site *site, const struct site_list *l)
{
	const char *items;

	memcpy(&items, (const char *)site + l->items, sizeof items);
	return items;
}

size_t site_rows(const struct app *app)
{
	return count_of(&app->plan.site, list_of(app));
}

void site_get(const struct app *app, size_t row, void *thing)
{
	const struct site_list *l = list_of(app);

	memcpy(thing, items_of(&app->plan.site, l) + row * l->size, l->size);
	if (l->open)
		l->open(thing);
}

/* The site with an item replaced, added (at == count) or, without one, taken away; the list is in
 * memory of this frame. False, with the reason shown. */
static bool with_item(struct app *app, const struct site_list *l, size_t at, const void *item,
        struct plan_site *site)
{
	size_t count = count_of(&app->plan.site, l), next = count;
	const char *items = items_of(&app->plan.site, l);
	char *list;

	if (count >= SITE_ITEMS && at >= count) {
		app_refuse(app, "A list has %d rows at most.", SITE_ITEMS);
		return false;
	}
	list = arena_alloc(&app->frame_mem, count + 1, l->size);
	if (!list) {
		app_refuse(app, "No memory is left.");
		return false;
	}
	if (count)
		memcpy(list, items, count * l->size);
	if (item) {
		memcpy(list + at * l->size, item, l->size);
		next += at >= count;
	} else {
		memmove(list + at * l->size, list + (at + 1) * l->size, (count - at - 1) * l->size);
		next--;
	}
	*site = app->plan.site;
	memcpy((char *)site + l->items, &list, sizeof list);
	memcpy((char *)site + l->count, &next, sizeof next);
	return true;
}

bool site_put(struct app *app, size_t row, const void *thing, const char *what)
{
	const struct site_list *l = list_of(app);
	char item[FORM_SIZE], label[80];
	struct plan_site site;

	memcpy(item, thing, l->size);
	if (l->settle)
		l->settle(item);
	snprintf(label, sizeof label, "%s %zu: %s", l->what, row + 1, what);
	return with_item(app, l, row, item, &site) && edit_site(app, label, &site);
}

bool site_drop(struct app *app, size_t row)
{
	const struct site_list *l = list_of(app);
	struct plan_site site;
	char label[80];

	snprintf(label, sizeof label, "delete %s %zu", l->what, row + 1);
	return with_item(app, l, row, NULL, &site) && edit_site(app, label, &site);
}

bool site_add(struct app *app, const struct site_list *list, const void *item)
{
	size_t count = count_of(&app->plan.site, list);
	struct plan_site site;
	char label[80];

	snprintf(label, sizeof label, "%s %zu", list->what, count + 1);
	return with_item(app, list, count, item, &site) && edit_site(app, label, &site);
}
