/* act_elevation.c - from a stage to the wall or flight as it is seen from the side, and round it.
 */
#include "actions.h"
#include "elevation.h"
#include "frame.h"

#include <string.h>

/* The planter, or flight, that is looked at; NULL where there is none, or it has a fault. */
static const struct planter_result *wall_here(const struct app *app)
{
	size_t at = planter_here(app);

	if (app->stage != AT_PLANTERS || at >= app->t.planters.count ||
	        !app->t.planters.items[at].ready)
		return NULL;
	return &app->t.planters.items[at];
}

static const struct flight *side_here(const struct app *app)
{
	size_t at = flight_here(app);

	if (app->stage != AT_STEPS || at >= app->t.steps.count || app->t.steps.flights[at].fault)
		return NULL;
	return &app->t.steps.flights[at];
}

/* Why there is nothing to look at. */
static const char *nothing(const struct app *app)
{
	size_t at = app->stage == AT_STEPS ? flight_here(app) : planter_here(app);

	if (app->stage == AT_PLANTERS)
		return !app->plan.planter_count     ? "There is no planter yet: b draws one."
		       : at < app->t.planters.count ? app->t.planters.items[at].fault.text
		                                    : "It has no figures yet.";
	return !app->plan.steps_count    ? "There is no flight of steps yet: b adds one."
	       : at < app->t.steps.count ? app->t.steps.flights[at].fault
	                                 : "It has no figures yet: the outline is not whole.";
}

void act_elevation(struct app *app, int key)
{
	(void)key;
	app->elevation = (struct elevation_view){ 0 };
	app->leg = 0;
	app->leaf = 0;
	if (!wall_here(app) && !side_here(app))
		app_refuse(app, "%s", nothing(app));
	else
		app->place = AT_ELEVATION;
}

/* To the leg or flight after or before; round and round. */
static void step(struct app *app, bool on)
{
	const struct planter_result *r = wall_here(app);
	size_t count = r ? r->leg_count : app->plan.steps_count,
	       at = r ? app->leg : flight_here(app);

	if (!count || (app->stage == AT_PLANTERS && !r))
		return;
	at = (at + (on ? 1 : count - 1)) % count;
	if (r)
		app->leg = at;
	else
		app->item = at;
	app->elevation = (struct elevation_view){ 0 };
}

void act_elevation_next(struct app *app, int key)
{
	step(app, key == 'n');
}

void act_elevation_move(struct app *app, int key)
{
	struct elevation_view *v = &app->elevation;
	int page = app->rows > 12 ? app->rows - 12 : 2;

	switch (key) {
	case KEY_OF_ARROW_LEFT:
		if (!v->across)
			step(app, false);
		else
			v->across -= 8;
		break;
	case KEY_OF_ARROW_RIGHT:
		if (v->across >= v->most_across)
			step(app, true);
		else
			v->across += 8;
		break;
	case KEY_OF_ARROW_UP:
	case KEY_OF_WHEEL_UP:
		v->down -= 2;
		break;
	case KEY_OF_ARROW_DOWN:
	case KEY_OF_WHEEL_DOWN:
		v->down += 2;
		break;
	default:
		v->down += key == KEY_OF_PAGE_UP ? -page : page;
	}
}

void act_elevation_leaf(struct app *app, int key)
{
	const struct planter_result *r = wall_here(app);

	(void)key;
	if (!r || r->leaf_count < 2)
		app_refuse(app, "It has one leaf.");
	else
		app->leaf = !app->leaf;
}

void act_elevation_leave(struct app *app, int key)
{
	(void)key;
	app_go(app, app->stage);
}

void elevation_draw(struct app *app, const struct area *body)
{
	struct area a = area_part(body, 0, 2, body->rows, body->cols - 3);
	const struct planter_result *r = wall_here(app);
	const struct flight *f = side_here(app);

	if (r) {
		app->leg = app->leg < r->leg_count ? app->leg : 0;
		app->leaf = app->leaf < r->leaf_count ? app->leaf : 0;
		elevation_wall(&a, r, planter_here(app), app->leg, app->leaf,
		        r->has_surface ? &app->t.plan.surface : NULL, &app->elevation);
	} else if (f) {
		elevation_flight(&a, f, flight_here(app), &app->elevation);
	} else {
		area_text(&a, 0, 0, a.cols, STYLE_WARN, nothing(app));
	}
}
