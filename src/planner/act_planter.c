/* act_planter.c - planters: drawing their runs, and all their values. */
#include "actions.h"
#include "form.h"
#include "sketch.h"

#include <inttypes.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

size_t planter_here(const struct app *app)
{
	return app->item < app->plan.planter_count ? app->item : 0;
}

static bool edit_planters(
        struct app *app, const char *label, struct plan_planter *list, size_t count)
{
	struct edit e = { .type = EDIT_PLANTERS, .planters = list, .planter_count = count };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

/* The planters, with room for one more. */
static void planters_list(const struct app *app, struct plan_planter list[PLANTERS + 1])
{
	if (app->plan.planter_count)
		memcpy(list, app->plan.planters, app->plan.planter_count * sizeof *list);
}

bool planter_put(struct app *app, const struct plan_planter *planter, const char *what)
{
	struct plan_planter list[PLANTERS + 1];
	size_t at = planter_here(app);
	char label[80];

	planters_list(app, list);
	list[at] = *planter;
	snprintf(label, sizeof label, "planter %zu: %s", at + 1, what);
	return edit_planters(app, label, list, app->plan.planter_count);
}

/* What is wrong with the planter as it is now, if anything. */
static void say_fault(struct app *app)
{
	const struct planters_result *r = &app->t.planters;
	size_t at = planter_here(app);

	if (at < r->count && !r->items[at].ready && !app->message[0])
		app_say(app, "%s", r->items[at].fault.text);
}

/* A new planter with these points; it is the chosen one then. */
static bool add_planter(struct app *app, struct plan_point *points, size_t count, bool closed)
{
	struct plan_planter list[PLANTERS + 1], *p;
	size_t n = app->plan.planter_count;
	char label[80];

	if (n >= PLANTERS) {
		app_refuse(app, "A plan has %d planters at most.", PLANTERS);
		return false;
	}
	planters_list(app, list);
	p = &list[n];
	planter_init(p);
	if (n) { /* built as the one before */
		*p = list[n - 1];
		p->name = "";
	}
	p->points = points;
	p->count = count;
	p->closed = closed;
	if (app->plan.surface.count && !n)
		p->base_um = llround((surface_level_um(&app->plan.surface, (double)points[0].x_um,
		                              (double)points[0].y_um) -
		                             50000) /
		                     1000) *
		             1000;
	snprintf(label, sizeof label, "planter %zu", n + 1);
	if (!edit_planters(app, label, list, n + 1))
		return false;
	app->item = n;
	return true;
}

/* --- drawing a run --- */

static void ask_leg(struct app *app);

/* One more point; `first` the run's beginning, where the planter is not there yet. */
static bool add_leg(struct app *app, int64_t length, double cosine, double sine)
{
	struct plan_point points[PLANTER_POINTS + 1];
	struct plan_planter p;
	size_t n;

	if (!app->run_drawn) {
		points[0] = (struct plan_point){ app->view.x_um, app->view.y_um };
		points[1] = (struct plan_point){ points[0].x_um + llround((double)length * cosine),
			points[0].y_um + llround((double)length * sine) };
		if (!add_planter(app, points, 2, false))
			return false;
		app->run_drawn = true;
		return true;
	}
	p = app->plan.planters[planter_here(app)];
	n = p.count;
	if (n >= PLANTER_POINTS) {
		app_refuse(app, "A run has %d points at most.", PLANTER_POINTS);
		return false;
	}
	memcpy(points, p.points, n * sizeof *points);
	points[n] = (struct plan_point){ points[n - 1].x_um + llround((double)length * cosine),
		points[n - 1].y_um + llround((double)length * sine) };
	p.points = points;
	p.count = n + 1;
	return planter_put(app, &p, "one more leg");
}

static bool leg_arrow(struct app *app, int key, const char *text)
{
	static const double cosines[] = { -1, 1, 0, 0 }, sines[] = { 0, 0, 1, -1 };
	int64_t length;

	if (!typed_length(app, text, UNIT_M, &length))
		return false;
	if (length <= 0) {
		app_refuse(app, "A leg is longer than 0.");
		return false;
	}
	if (!add_leg(app, length, cosines[key - KEY_OF_ARROW_LEFT], sines[key - KEY_OF_ARROW_LEFT]))
		return false;
	ask_leg(app);
	say_fault(app);
	return true;
}

static bool leg_done(struct app *app, const char *text)
{
	struct plan_planter p;

	if (!*text) {
		app_say(app, app->run_drawn ? "The run is drawn: i has all its values."
		                            : "Left as it was.");
		return true;
	}
	if (strcmp(text, "c") != 0 || !app->run_drawn) {
		app_refuse(app, "Press an arrow key for the way this leg goes.");
		return false;
	}
	p = app->plan.planters[planter_here(app)];
	if (p.count < 3) {
		app_refuse(app, "A box has three corners at least.");
		return false;
	}
	p.closed = true;
	if (!planter_put(app, &p, "close it to a box"))
		return false;
	app_say(app, "Closed to a box: i has all its values.");
	say_fault(app);
	return true;
}

static void ask_leg(struct app *app)
{
	size_t leg = app->run_drawn ? app->plan.planters[planter_here(app)].count : 1;
	char label[80];

	snprintf(label, sizeof label, "Leg %zu of the wall's outer face", leg);
	prompt_open(app, label,
	        "Type its length, then an arrow key for its way; the wall lies to the left of it. "
	        "c closes a box. Enter: done.",
	        "", leg_done)
	        ->arrow = leg_arrow;
}

static bool box_done(struct app *app, const char *text)
{
	int64_t w, h, x = app->view.x_um, y = app->view.y_um;
	struct plan_point points[4];

	if (!two_lengths(app, text, UNIT_M, &w, &h))
		return false;
	if (w <= 0 || h <= 0) {
		app_refuse(app, "Both sides are longer than 0.");
		return false;
	}
	points[0] = (struct plan_point){ x, y };
	points[1] = (struct plan_point){ x + w, y };
	points[2] = (struct plan_point){ x + w, y + h };
	points[3] = (struct plan_point){ x, y + h };
	if (!add_planter(app, points, 4, true))
		return false;
	app_say(app, "Planter %zu: i has all its values.", app->item + 1);
	say_fault(app);
	return true;
}

/* A wall along the chosen edge, outside the paving, its face to it. */
static void along_edge(struct app *app)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	struct plan_point points[2];
	const struct plan_node *a, *b;
	bool turn;

	if (!r || app->view.at >= r->count) {
		app_refuse(app, "Choose an edge first: n and p.");
		return;
	}
	a = &r->nodes[app->view.at];
	b = &r->nodes[(app->view.at + 1) % r->count];
	if (a->rise_um) {
		app_refuse(app, "That edge is an arc; a planter's legs are straight.");
		return;
	}
	/* the wall lies to the left of its run, and the paving must not */
	turn = (ring_signed_area2_um2(r) > 0) == (app->view.ring == 0);
	points[turn ? 1 : 0] = (struct plan_point){ a->x_um, a->y_um };
	points[turn ? 0 : 1] = (struct plan_point){ b->x_um, b->y_um };
	if (add_planter(app, points, 2, false)) {
		app_say(app, "Planter %zu along edge %zu: i has all its values.", app->item + 1,
		        app->view.at + 1);
		say_fault(app);
	}
}

/* --- the list --- */

/* So that zooming comes closer to it. */
static void cursor_to(struct app *app, const struct plan_point *p)
{
	app->view.x_um = p->x_um;
	app->view.y_um = p->y_um;
	view_follow(app);
}

enum { NEW_BOX = -1, NEW_RUN = -2, NEW_ALONG = -3 };

static void planter_chosen(struct app *app, const struct list_row *row)
{
	switch (row->id) {
	case NEW_BOX:
		prompt_open(app, "Outer length x width of the box",
		        "Metres, its lower left corner at the cursor: 2,4 x 0,8", "", box_done);
		return;
	case NEW_RUN:
		app->run_drawn = false;
		ask_leg(app);
		return;
	case NEW_ALONG:
		along_edge(app);
		return;
	default:
		app->item = (size_t)row->id;
		cursor_to(app, &app->plan.planters[app->item].points[0]);
		app_say(app, "Planter %zu: i has all its values.", app->item + 1);
		say_fault(app);
	}
}

void act_planters(struct app *app, int key)
{
	char words[120], note[80];

	(void)key;
	choice_open(app, "Planters", planter_chosen);
	for (size_t i = 0; i < app->plan.planter_count; i++) {
		const struct plan_planter *p = &app->plan.planters[i];

		snprintf(note, sizeof note, "%s, %" PRId64 " courses",
		        p->closed      ? "box"
		        : p->count > 2 ? "open run"
		                       : "straight",
		        p->courses);
		planter_words(words, sizeof words, p, i);
		words[0] = 'P';
		choice_add(app, words, note, (int64_t)i);
	}
	choice_add(app, "a new box at the cursor", "type its outer sides", NEW_BOX);
	choice_add(app, "a new run from the cursor", "leg by leg, by the tape", NEW_RUN);
	choice_add(app, "a new wall along the chosen edge", "outside the paving", NEW_ALONG);
	list_mark(&app->choice, (int64_t)planter_here(app));
}

static bool any_planter(struct app *app)
{
	if (app->plan.planter_count)
		return true;
	app_refuse(app, "There is no planter yet: b draws one.");
	return false;
}

void act_planter_delete(struct app *app, int key)
{
	struct plan_planter list[PLANTERS + 1];
	size_t at = planter_here(app), n = app->plan.planter_count;
	char label[80];

	(void)key;
	if (!any_planter(app))
		return;
	planters_list(app, list);
	memmove(&list[at], &list[at + 1], (n - at - 1) * sizeof *list);
	snprintf(label, sizeof label, "delete planter %zu", at + 1);
	if (!edit_planters(app, label, list, n - 1))
		return;
	app->item = at ? at - 1 : 0;
	app_say(app, "Planter %zu is gone. u brings it back.", at + 1);
}

void act_courses(struct app *app, int key)
{
	(void)key;
	if (!any_planter(app))
		return;
	app->even_courses = !app->even_courses;
	if (app->plan.planters[planter_here(app)].courses < 2) {
		app->even_courses = false;
		app_refuse(app, "It has one course only.");
	} else if (!blocks_shown(app)) {
		app_say(app, "%s courses; blocks are too small to be seen here: + comes closer.",
		        app->even_courses ? "Even" : "Odd");
	} else {
		app_say(app, "The sketch shows %s courses.", app->even_courses ? "even" : "odd");
	}
}

/* --- its corners, as a table --- */

static const struct form_value point_columns[] = {
	{ .name = "across ; up",
	        .hint = "Metres. The cursor's place is offered for a new one.",
	        .value = VALUE_PLACE,
	        .offset = offsetof(struct plan_point, x_um) },
};

static size_t point_rows(const struct app *app)
{
	return app->plan.planter_count ? app->plan.planters[planter_here(app)].count : 0;
}

static void point_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->plan.planters[planter_here(app)].points[row],
	        sizeof(struct plan_point));
}

static void point_fresh(struct app *app, void *thing)
{
	struct plan_point p = { app->view.x_um, app->view.y_um };

	memcpy(thing, &p, sizeof p);
}

/* With a point put at `row`, or without one (NULL) taken away. */
static bool put_points(struct app *app, size_t row, const void *thing, const char *what)
{
	struct plan_planter p = app->plan.planters[planter_here(app)];
	struct plan_point points[PLANTER_POINTS + 1];

	memcpy(points, p.points, p.count * sizeof *points);
	if (thing) {
		memcpy(&points[row], thing, sizeof *points);
		p.count += row >= p.count;
	} else {
		memmove(&points[row], &points[row + 1], (p.count - row - 1) * sizeof *points);
		p.count--;
	}
	p.points = points;
	return planter_put(app, &p, what);
}

static bool point_put(struct app *app, size_t row, const void *thing, const char *what)
{
	char label[40];

	(void)what;
	if (row >= PLANTER_POINTS) {
		app_refuse(app, "A run has %d points at most.", PLANTER_POINTS);
		return false;
	}
	snprintf(label, sizeof label, "corner %zu", row + 1);
	return put_points(app, row, thing, label);
}

static bool point_drop(struct app *app, size_t row)
{
	char label[40];

	snprintf(label, sizeof label, "delete corner %zu", row + 1);
	return put_points(app, row, NULL, label);
}

static void point_note(const struct app *app, size_t row, int note, char *buf, size_t size)
{
	const struct plan_planter *p = &app->plan.planters[planter_here(app)];
	const struct plan_point *a = &p->points[row], *b = &p->points[(row + 1) % p->count];

	(void)note;
	buf[0] = '\0';
	if (p->closed || row + 1 < p->count)
		snprintf(buf, size, "%.3f",
		        hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um)) / 1e6);
}

static const struct table point_table = {
	.title = "Corners of the wall's outer face",
	.empty = "There is no planter yet.",
	.columns = point_columns,
	.count = 1,
	.size = sizeof(struct plan_point),
	.rows = point_rows,
	.get = point_get,
	.fresh = point_fresh,
	.put = point_put,
	.drop = point_drop,
	.notes = { "leg to the next" },
	.note = point_note,
};

void act_planter_points(struct app *app, int key)
{
	(void)key;
	if (any_planter(app))
		table_open(app, &point_table);
}
