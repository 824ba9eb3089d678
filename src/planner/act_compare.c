/* act_compare.c - the figures of the listed variants, worked out while no key waits, and the listed
 * variants side by side. */
#include "actions.h"

struct variant_row *variant_listed(struct app *app, int64_t id)
{
	for (size_t i = 0; app->variants && i < app->variant_count; i++)
		if (app->variants[i].id == id)
			return &app->variants[i];
	return NULL;
}

static void work_out(struct app *app, struct variant_row *v)
{
	const char *name = v->column.name;
	struct arena mem = { 0 };
	struct takeoff t = { 0 };
	struct error err;

	v->known = true;
	if (takeoff_variant(&mem, app->store, v->id, &t, &err) == STATUS_OK) {
		while (takeoff_improve(&mem, &t, IDLE_LOOKS))
			;
	} else {
		app_fail(app, &err);
		t = (struct takeoff){ 0 };
		plan_init(&t.plan);
	}
	compare_column_of(&t, &v->column);
	v->column.name = name;
	arena_free(&mem);
}

/* Rows that are shown come first. */
static struct variant_row *next_unknown(struct app *app)
{
	const struct list *l = &app->list;

	for (size_t i = 0; i < l->count; i++) {
		struct variant_row *v = variant_listed(app, l->rows[i].id);

		if (v && !v->known)
			return v;
	}
	return NULL;
}

bool app_idle(struct app *app)
{
	struct variant_row *v;

	if (app->starts.search) /* a preview, or help over it, is not the take-off to go on with */
		return app->place == AT_STARTS && starts_idle(app);
	if (takeoff_improve(&app->work, &app->t, IDLE_LOOKS))
		return true;
	if ((app->place != AT_VARIANTS && app->place != AT_COMPARE) || !app->variants)
		return false;
	if (!(v = next_unknown(app)))
		return false;
	work_out(app, v);
	return true;
}

void compare_scroll(struct app *app, bool right)
{
	if (right)
		app->compare_left++; /* the frame keeps it in range */
	else if (app->compare_left)
		app->compare_left--;
}

void act_compare(struct app *app, int key)
{
	(void)key;
	if (app->list.count < 2) {
		app_refuse(app,
		        app->list.all
		                ? "Only one row is shown: Esc shows all of them again."
		                : "There is only one variant: c copies it, then change the copy.");
		return;
	}
	app->back = AT_VARIANTS;
	app->place = AT_COMPARE;
	app->help_top = 0;
	app->compare_left = 0;
}
