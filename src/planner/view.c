/* view.c - where things stand on the screen, and which part of the plan the sketch shows. */
#include "app.h"
#include "sketch.h"
#include "zones.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LEAST_ROWS = 16, LEAST_COLS = 60, RULER_COLS = 5 };

static const int64_t zooms[] = { 20000, 50000, 100000, 150000, 200000, 250000, 300000, 400000,
	500000, 750000, 1000000, 1500000, 2000000, 3000000, 5000000, 10000000 };
enum { ZOOMS = sizeof zooms / sizeof zooms[0] };

static int pane_columns(const struct app *app)
{
	int wide = 30 + (app->cols - 80) / 5;

	if (app->place == AT_ORDER)
		wide = app->cols * 5 / 8;
	else if (app->place == AT_VARIANTS || app->place == AT_STARTS)
		wide = 38 + (app->cols - 80) / 5;
	if (wide > 60)
		wide = 60;
	return wide < 27 ? 27 : wide;
}

void layout_of(struct app *app, struct layout *out)
{
	struct area all = { .cells = &app->cells, .rows = app->rows, .cols = app->cols };
	int rows = app->rows - 4, pane = pane_columns(app), left = app->cols - pane;

	*out = (struct layout){ .fits = app->rows >= LEAST_ROWS && app->cols >= LEAST_COLS };
	if (!out->fits)
		return;
	out->top = area_part(&all, 0, 0, 1, app->cols);
	out->stages = area_part(&all, 1, 0, 1, app->cols);
	out->message = area_part(&all, app->rows - 2, 0, 1, app->cols);
	out->foot = area_part(&all, app->rows - 1, 0, 1, app->cols);
	if (!app_has_sketch(app->place)) {
		out->body = area_part(&all, 2, 0, rows, app->cols);
		return;
	}
	out->body = area_part(&all, 2, 0, rows, left);
	out->pane = area_part(&all, 2, left, rows, pane);
	out->ruler_top = area_part(&all, 2, RULER_COLS, 1, left - RULER_COLS);
	out->ruler_left = area_part(&all, 3, 0, rows - 1, RULER_COLS);
	out->canvas = area_part(&all, 3, RULER_COLS, rows - 1, left - RULER_COLS);
}

static int64_t floor_to(int64_t at, int64_t cell)
{
	int64_t down = at / cell * cell;

	return down > at ? down - cell : down;
}

/* What is to be seen; `any` false: nothing yet. */
struct bounds {
	int64_t at[4];
	bool any;
};

static void take_in(struct bounds *b, int64_t x, int64_t y, int64_t reach)
{
	if (!b->any || x - reach < b->at[0])
		b->at[0] = x - reach;
	if (!b->any || y - reach < b->at[1])
		b->at[1] = y - reach;
	if (!b->any || x + reach > b->at[2])
		b->at[2] = x + reach;
	if (!b->any || y + reach > b->at[3])
		b->at[3] = y + reach;
	b->any = true;
}

/* Planters, flights, and what takes the water. */
static void take_in_beside(struct bounds *b, const struct app *app)
{
	const struct plan *plan = &app->plan;

	for (size_t i = 0; i < plan->planter_count; i++)
		for (size_t k = 0; k < plan->planters[i].count; k++)
			take_in(b, plan->planters[i].points[k].x_um,
			        plan->planters[i].points[k].y_um, 0);
	for (size_t i = 0; i < plan->steps_count; i++) {
		const struct plan_steps *f = &plan->steps[i];
		int64_t run = i < app->t.steps.count && !app->t.steps.flights[i].fault
		                      ? app->t.steps.flights[i].run_um
		                      : f->going_um;
		double dx, dy;

		turn_of(f->toward_udeg, &dx, &dy);
		take_in(b, f->x_um, f->y_um, 0);
		take_in(b, f->x_um + llround(dx * (double)run), f->y_um + llround(dy * (double)run),
		        0);
	}
	for (size_t i = 0; i < plan->water.gully_count; i++)
		take_in(b, plan->water.gullies[i].x_um, plan->water.gullies[i].y_um, 0);
	if (plan->water.soakaway.has)
		take_in(b, plan->water.soakaway.x_um, plan->water.soakaway.y_um, 0);
}

/* Levels of the ground, where one looks at these. */
static void take_in_ground(struct bounds *b, const struct plan_site *site)
{
	for (size_t i = 0; i < site->spot_count; i++)
		take_in(b, site->spots[i].x_um, site->spots[i].y_um, 0);
	for (size_t i = 0; i < site->book.count; i++)
		if (site->book.readings[i].has_place)
			take_in(b, site->book.readings[i].x_um, site->book.readings[i].y_um, 0);
}

/* Where the plan lies; false when nothing is drawn yet. Among slabs only the paving counts. */
static bool plan_box(const struct app *app, int64_t box[4])
{
	struct bounds b = { .any = false };

	if (app->t.ready) { /* with its arcs as they run */
		struct box r = region_box(&app->t.region);

		take_in(&b, llround(r.x0), llround(r.y0), 0);
		take_in(&b, llround(r.x1), llround(r.y1), 0);
	}
	for (size_t r = 0; r < plan_ring_total(&app->plan); r++) {
		const struct plan_ring *ring = plan_ring_at(&app->plan, r);
		bool arcs_too = app->t.ready && r < app->plan.ring_count; /* they are in it */

		for (size_t i = 0; i < ring->count; i++)
			take_in(&b, ring->nodes[i].x_um, ring->nodes[i].y_um,
			        arcs_too ? 0 : llabs(ring->nodes[i].rise_um));
	}
	if (!app_has_slabs(app->place))
		take_in_beside(&b, app);
	if (app->place == AT_GROUND)
		take_in_ground(&b, &app->plan.site);
	memcpy(box, b.at, sizeof b.at);
	return b.any;
}

void view_fit(struct app *app)
{
	struct view *v = &app->view;
	struct layout lay;
	int64_t box[4], across, up;
	size_t z = 0;

	layout_of(app, &lay);
	if (!lay.fits || lay.canvas.cols < 4)
		return;
	v->placed = true;
	v->fitted = true;
	if (!plan_box(app, box)) {
		v->cell_um = 250000;
		v->left_um = -3 * v->cell_um;
		v->bottom_um = -3 * v->cell_um;
		return;
	}
	across = lay.canvas.cols / 2;
	up = lay.canvas.rows;
	while (z + 1 < ZOOMS && ((box[2] - box[0]) / zooms[z] + 2 > across ||
	                                (box[3] - box[1]) / zooms[z] + 3 > up))
		z++;
	v->cell_um = zooms[z];
	v->left_um = floor_to((box[0] + box[2]) / 2 - across / 2 * v->cell_um, v->cell_um);
	v->bottom_um = floor_to((box[1] + box[3]) / 2 - (up - 1) / 2 * v->cell_um, v->cell_um);
	if (v->x_um < v->left_um || v->x_um > v->left_um + (across - 1) * v->cell_um ||
	        v->y_um < v->bottom_um ||
	        v->y_um > v->bottom_um + (up - 1) * v->cell_um) { /* the cursor comes along */
		const struct plan_ring *ring = plan_ring_at(&app->plan, v->ring);

		if (ring && v->at < ring->count) {
			v->x_um = ring->nodes[v->at].x_um;
			v->y_um = ring->nodes[v->at].y_um;
		}
	}
}

/* Whether all of the plan lies in the sketch as it is. */
static bool shows_all(const struct app *app, const struct layout *lay)
{
	const struct view *v = &app->view;
	int64_t box[4];

	return !plan_box(app, box) ||
	       (box[0] >= v->left_um && box[2] <= v->left_um + lay->canvas.cols / 2 * v->cell_um &&
	               box[1] >= v->bottom_um &&
	               box[3] <= v->bottom_um + (lay->canvas.rows - 1) * v->cell_um);
}

void view_show_all(struct app *app)
{
	struct layout lay;

	layout_of(app, &lay);
	if (!lay.fits || lay.canvas.cols < 4 || !app->view.placed)
		return;
	if (!shows_all(app, &lay))
		view_fit(app);
	else if (app->t.ready) /* drawn to its end in one view: kept whole from here on */
		app->view.fitted = true;
}

void view_keep_whole(struct app *app)
{
	struct layout lay;

	layout_of(app, &lay);
	if (app->view.placed && app->view.fitted && !shows_all(app, &lay))
		view_fit(app);
}

/* Moves one side of the window so that the cursor is in it, `margin` cells from the border; when it
 * has to move, it moves some cells further. */
static int64_t follow(int64_t low, int64_t cells, int64_t cell, int64_t at, int64_t margin)
{
	int64_t spare = cells > 8 ? 2 : 0, place;

	low = floor_to(low, cell);
	place = (at - low) / cell;
	if (at < low + margin * cell)
		return floor_to(at, cell) - cell * (margin + spare);
	if (place > cells - 1 - margin)
		return low + (place - (cells - 1 - margin) + spare) * cell;
	return low;
}

void view_follow(struct app *app)
{
	struct view *v = &app->view;
	struct layout lay;
	int64_t left, bottom, margin;

	layout_of(app, &lay);
	if (!lay.fits || lay.canvas.cols < 4)
		return;
	/* What is seen whole is not scrolled for a margin. */
	margin = v->fitted || (app->plan.ring_count && shows_all(app, &lay)) ? 0 : 1;
	left = follow(v->left_um, lay.canvas.cols / 2, v->cell_um, v->x_um, margin);
	bottom = follow(v->bottom_um, lay.canvas.rows, v->cell_um, v->y_um, margin);
	if (left != v->left_um || bottom != v->bottom_um)
		v->fitted = false;
	v->left_um = left;
	v->bottom_um = bottom;
}

void view_settle(struct app *app)
{
	struct layout lay;

	layout_of(app, &lay);
	if (lay.canvas.rows != app->canvas_rows || lay.canvas.cols != app->canvas_cols)
		app->view.placed = app->view.placed && !app->view.fitted;
	app->canvas_rows = lay.canvas.rows;
	app->canvas_cols = lay.canvas.cols;
	if (!app->view.placed)
		view_fit(app);
	view_follow(app);
}

void view_zoom(struct app *app, int by)
{
	struct view *v = &app->view;
	struct layout lay;
	int z = 0;

	layout_of(app, &lay);
	if (!lay.fits)
		return;
	while (z + 1 < ZOOMS && zooms[z] < v->cell_um)
		z++;
	z += by;
	if (z < 0 || z >= ZOOMS) {
		app_refuse(app, by < 0 ? "A cell of 2 cm is the smallest."
		                       : "A cell of 10 m is the largest.");
		return;
	}
	v->cell_um = zooms[z];
	v->fitted = false;
	v->left_um = floor_to(v->x_um - lay.canvas.cols / 4 * v->cell_um, v->cell_um);
	v->bottom_um = floor_to(v->y_um - lay.canvas.rows / 2 * v->cell_um, v->cell_um);
	slabs_say_far(app);
}

/* The low side of a window of `size` that holds `at`, and as much as can be of low..high with a
 * cell around it. */
static int64_t window_at(int64_t low, int64_t high, int64_t size, int64_t cell, int64_t at)
{
	int64_t from = at - size / 2;

	if (high - low + 2 * cell <= size)
		from = (low + high - size) / 2;
	else if (from > high + cell - size)
		from = high + cell - size;
	if (high - low + 2 * cell > size && from < low - cell)
		from = low - cell;
	if (at < from || at > from + size - cell)
		from = at - size / 2;
	return floor_to(from, cell);
}

int64_t view_cell_for(const struct app *app, enum slab_look look)
{
	for (int z = ZOOMS - 1; z >= 0; z--)
		if (slabs_look(app, zooms[z]) >= look)
			return zooms[z];
	return 0;
}

/* The cell with which each slab shows at its best. Where dots show them already, only one with
 * which all of the box is seen too; 0 where none is wanted or helps. */
static int64_t close_cell(const struct app *app, const struct layout *lay, const int64_t box[4])
{
	enum slab_look now = slabs_look(app, app->view.cell_um), best = slabs_look(app, zooms[0]);
	int64_t cell = now < best ? view_cell_for(app, best) : 0;
	bool whole = box[2] - box[0] <= (lay->canvas.cols / 2 - 1) * cell &&
	             box[3] - box[1] <= (lay->canvas.rows - 1) * cell;

	return now == LOOK_MARKS || whole ? cell : 0;
}

/* Comes so close that each slab shows, around the cursor; false where that needs no change of the
 * view, or none helps. */
static bool come_close(struct app *app)
{
	struct view *v = &app->view;
	struct layout lay;
	int64_t box[4], cell, across, up;

	layout_of(app, &lay);
	if (!lay.fits || !v->placed || !app->t.ready || !plan_box(app, box))
		return false;
	cell = close_cell(app, &lay, box);
	if (!cell)
		return false;
	v->cell_um = cell;
	across = lay.canvas.cols / 2 * v->cell_um;
	up = lay.canvas.rows * v->cell_um;
	v->left_um = window_at(box[0], box[2], across, v->cell_um, v->x_um);
	v->bottom_um = window_at(box[1], box[3], up, v->cell_um, v->y_um);
	v->fitted = false;
	return true;
}

/* Where the whole plan is too small for its slabs to be seen, comes close to some of it; and where
 * all of it can be seen with lines, closer too. */
static void look_at_slabs(struct app *app)
{
	struct layout lay;

	layout_of(app, &lay);
	view_settle(app);
	if (!lay.fits || !shows_all(app, &lay) || app->stay_whole || !come_close(app))
		return;
	app->close_um = app->view.cell_um;
	app_say(app, "Close enough that each slab shows; f shows the whole plan.");
}

void view_enter(struct app *app)
{
	if (app->place == AT_LAYING) {
		look_at_slabs(app);
	} else if (app->close_um) {
		if (app->view.cell_um == app->close_um) /* not zoomed by hand since */
			view_fit(app);
		app->close_um = 0;
	}
}
