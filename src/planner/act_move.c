/* act_move.c - cursor, zoom, stages, help and leaving. */
#include "actions.h"
#include "sketch.h"
#include "zones.h"

#include <stdlib.h>
#include <string.h>

/* The next grid line from a place that may lie off the grid. */
static int64_t grid_step(int64_t at, int64_t cell, int64_t steps)
{
	int64_t down = at / cell - (at % cell < 0 ? 1 : 0); /* floor */

	if (at == down * cell)
		return at + steps * cell;
	return steps > 0 ? (down + steps) * cell : (down + 1 + steps) * cell;
}

static int64_t within_reach(int64_t um)
{
	if (um > COORD_LIMIT_UM)
		return COORD_LIMIT_UM;
	return um < -COORD_LIMIT_UM ? -COORD_LIMIT_UM : um;
}

static const struct {
	int key, dx, dy;
} moves[] = {
	{ KEY_OF_ARROW_LEFT, -1, 0 },
	{ KEY_OF_ARROW_RIGHT, 1, 0 },
	{ KEY_OF_ARROW_UP, 0, 1 },
	{ KEY_OF_ARROW_DOWN, 0, -1 },
	{ KEY_OF_FAST_LEFT, -5, 0 },
	{ KEY_OF_FAST_RIGHT, 5, 0 },
	{ KEY_OF_FAST_UP, 0, 5 },
	{ KEY_OF_FAST_DOWN, 0, -5 },
};

void act_move(struct app *app, int key)
{
	struct view *v = &app->view;

	if (app->mode == MODE_NUDGE) {
		nudge_by(app, key);
		return;
	}
	for (size_t i = 0; i < sizeof moves / sizeof moves[0]; i++) {
		if (moves[i].key != key)
			continue;
		if (moves[i].dx)
			v->x_um = within_reach(grid_step(v->x_um, v->cell_um, moves[i].dx));
		if (moves[i].dy)
			v->y_um = within_reach(grid_step(v->y_um, v->cell_um, moves[i].dy));
	}
	view_follow(app);
}

void act_page(struct app *app, int key)
{
	int step = app->rows > 10 ? app->rows - 8 : 2;

	app->view.pane_top += key == KEY_OF_PAGE_DOWN ? step : -step;
	if (app->view.pane_top < 0)
		app->view.pane_top = 0;
}

void act_stage(struct app *app, int key)
{
	int step = key == KEY_OF_BACK_TAB ? STAGES - 1 : 1;

	if (!app->variant) {
		app_refuse(app, "No variant is open: a adds one, o goes to the other jobs.");
		return;
	}
	app_go(app, (enum place)(((int)app->place + step) % STAGES));
}

static void stage_chosen(struct app *app, const struct list_row *row)
{
	app_go(app, (enum place)row->id);
}

void act_go_to(struct app *app, int key)
{
	(void)key;
	if (!app->variant) {
		app_refuse(app, "No variant is open: a adds one, o goes to the other jobs.");
		return;
	}
	choice_open(app, "Go to the stage", stage_chosen);
	for (int i = 0; i < STAGES; i++)
		choice_add(app, place_name((enum place)i), place_gist((enum place)i), i);
	list_mark(&app->choice, app->stage);
}

void act_zoom(struct app *app, int key)
{
	view_zoom(app, key == '+' || key == KEY_OF_WHEEL_UP ? -1 : 1);
}

void act_fit(struct app *app, int key)
{
	(void)key;
	view_fit(app);
	app->close_um = 0;
	app->stay_whole = app->place == AT_LAYING;
	slabs_say_far(app);
}

static bool set_cell(struct app *app, const char *text)
{
	int64_t um;

	if (!typed_length(app, text, UNIT_M, &um))
		return false;
	if (um < 20000 || um > 10000000) {
		app_refuse(app, "A cell is from 2 cm to 10 m.");
		return false;
	}
	app->view.cell_um = um;
	app->view.fitted = false;
	view_follow(app);
	slabs_say_far(app);
	return true;
}

void act_cell(struct app *app, int key)
{
	char now[32];

	(void)key;
	prompt_open(app, "Side of a cell",
	        "In metres, 0.02 to 10; the cursor steps by it. Now and then 10 cm is handy.",
	        metres_exact(now, app->view.cell_um), set_cell);
}

void choose_corner(struct app *app, size_t ring, size_t at)
{
	const struct plan_node *n = &plan_ring_at(&app->plan, ring)->nodes[at];

	app->view.ring = ring;
	app->view.at = at;
	app->view.x_um = n->x_um;
	app->view.y_um = n->y_um;
	view_follow(app);
}

void act_next_corner(struct app *app, int key)
{
	size_t ring = app->view.ring, at = app->view.at;

	if (app->mode == MODE_CARRY) {
		app_refuse(app,
		        "A corner is carried: Enter puts it down, Esc leaves it where it was.");
		return;
	}
	if (step_corner(app, key == 'n', &ring, &at))
		choose_corner(app, ring, at);
	else
		app_refuse(app, "There are no corners yet.");
}

void act_next_ring(struct app *app, int key)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	size_t ring = app->view.ring, at = r && r->count ? r->count - 1 : 0;

	(void)key;
	if (app->plan.ring_count == 0)
		app_refuse(app, "There is no outline yet.");
	else if (app->mode != MODE_CARRY && step_corner(app, true, &ring, &at))
		choose_corner(app, ring, at);
}

void act_help(struct app *app, int key)
{
	(void)key;
	app->help_back = app->place;
	app->place = AT_HELP;
	app->help_top = 0;
}

void act_quit(struct app *app, int key)
{
	(void)key;
	app->quit = true;
}

void act_let_go(struct app *app, int key)
{
	if (app->mode == MODE_CARRY) {
		app->mode = MODE_USUAL;
		choose_corner(app, app->view.ring, app->view.at);
		app_say(app, "The corner stays where it was.");
	} else if (app->mode == MODE_NUDGE) {
		app->mode = MODE_USUAL;
		app_say(app, "The start line stays here. u undoes the last nudge.");
	} else if (key != KEY_OF_ESCAPE) {
		app_say(app, "The start line lies still: m moves it.");
	} else {
		app_say(app, "Nothing is being done. The list of clients and jobs is under "
		             "Variants, key o.");
	}
}

void act_press(struct app *app, int key)
{
	struct layout lay;
	int row, col;

	(void)key;
	layout_of(app, &lay);
	if (!app_is_stage(app->place) || app->place == AT_VARIANTS) {
		struct list *l = list_here(app);
		int first = lay.body.row + 2;
		size_t at = (size_t)(app->press_row - first + l->top);

		if (app->press_row >= first && app->press_row < lay.body.row + lay.body.rows &&
		        at < l->count)
			l->at = at;
		return;
	}
	row = app->press_row - lay.canvas.row;
	col = app->press_col - lay.canvas.col;
	if (row < 0 || col < 0 || row >= lay.canvas.rows || col >= lay.canvas.cols)
		return;
	app->view.x_um = app->view.left_um + (int64_t)(col / 2) * app->view.cell_um;
	app->view.y_um =
	        app->view.bottom_um + (int64_t)(lay.canvas.rows - 1 - row) * app->view.cell_um;
}
