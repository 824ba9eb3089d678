/* together.c - another program at work on the same store.
 *
 * The planner looks before each key and once a second, so that what is shown and what is changed is
 * what is stored. Screens that are only read (help, comparison) wait until they are left. */
#include "actions.h"
#include "form.h"

bool app_names_again(struct app *app)
{
	struct arena mem = { 0 };
	struct store_place names;
	struct error err;

	if (store_place_of(app->store, app->variant, &mem, &names, &err) != STATUS_OK) {
		arena_free(&mem);
		return app_fail(app, &err);
	}
	arena_free(&app->names_mem);
	app->names_mem = mem;
	app->names = names;
	return true;
}

/* Whether the open variant's plan is no longer the one shown. */
static bool plan_differs(struct app *app, struct error *err)
{
	struct arena mem = { 0 };
	struct plan stored;
	bool same = true;

	if (store_plan(app->store, app->variant, &mem, &stored, err) == STATUS_OK)
		store_plans_same(&app->plan, &stored, &same);
	arena_free(&mem);
	return !same;
}

static void variant_again(struct app *app)
{
	struct error err;

	if (!app_names_again(app) || !plan_differs(app, &err) || !app_reload(app))
		return;
	if (app->mode == MODE_CARRY) /* the corner may be another one now */
		app->mode = MODE_USUAL;
	app->view.placed = app->view.placed && !app->view.fitted;
	form_again(app);
	if (!app->refused)
		app_refuse(
		        app, "Another program has changed this variant: it is shown as it is now.");
}

void list_again(struct app *app, int64_t id)
{
	struct list was = app->list;
	int64_t marked = was.at < was.count ? was.rows[was.at].id : 0;
	bool read = app->place == AT_VARIANTS ? show_variants(app)
	            : app->place == AT_JOBS   ? show_jobs(app)
	                                      : show_clients(app);

	if (!read)
		return;
	if (was.all)
		list_find(&app->list, &app->list_mem, was.find);
	app->list.typing = was.typing;
	app->list.top = was.top;
	list_mark(&app->list, id ? id : marked);
}

bool app_catch_up(struct app *app)
{
	struct error err;
	bool changed;

	if (app->place == AT_HELP || app->place == AT_COMPARE)
		return false;
	if (store_changed_elsewhere(app->store, &changed, &err) != STATUS_OK || !changed)
		return false; /* a store that fails is told of at the next change */
	if (app->place == AT_STARTS) {
		starts_close(app);
		app_say(app, "Another program has written to the store: s ranks the starts anew.");
	}
	if (app->variant)
		variant_again(app);
	if (app->place == AT_VARIANTS || app->place == AT_JOBS || app->place == AT_CLIENTS)
		list_again(app, 0);
	return true;
}
