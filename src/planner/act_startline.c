/* act_startline.c - the ranking of start lines: open, look through, take one. */
#include "actions.h"
#include "pane.h"
#include "zones.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { SLICE = 3000 }; /* units of work, a few milliseconds */

/* --- rows --- */

static bool same_start(const struct start_row *a, const struct start_row *b)
{
	return a->x_um == b->x_um && a->y_um == b->y_um && a->turn_udeg == b->turn_udeg;
}

static bool lists_present(const struct start_list *l)
{
	for (size_t i = 0; i < l->count; i++)
		if (l->rows[i].present)
			return true;
	return false;
}

/* The present start is always among them, at the end where it is not one of the best. */
static size_t row_count(const struct start_list *l)
{
	return l->count + !lists_present(l);
}

static const struct start_row *row_at(const struct start_list *l, size_t at)
{
	return at < l->count ? &l->rows[at] : &l->now;
}

/* --- preview --- */

static void put_back(struct app *app)
{
	app->t = app->starts.stored;
	app->plan.laying = app->starts.stored_laying;
}

/* Shows the plan with the row's start. Where that fails, the plan as it is stored. */
static void show_row(struct app *app, const struct start_row *row)
{
	struct starts *s = &app->starts;
	struct plan plan = s->stored.plan;
	struct arena mem = { 0 };
	struct takeoff t;
	struct error err;

	s->shown = *row;
	plan.laying.start_x_um = row->x_um;
	plan.laying.start_y_um = row->y_um;
	plan.laying.rotation_udeg = startline_rotation(plan.laying.rotation_udeg, row->turn_udeg);
	put_back(app);
	if (row->present || takeoff_plan(&mem, &plan, &s->stored.rules, &t, &err) != STATUS_OK) {
		arena_free(&mem);
		if (!row->present)
			app_fail(app, &err);
		return;
	}
	arena_free(&s->preview);
	s->preview = mem;
	app->t = t;
	app->plan.laying = plan.laying;
}

/* The mark keeps to the start chosen, else to the best; the preview follows it. */
static void follow_mark(struct app *app)
{
	struct starts *s = &app->starts;
	size_t rows = row_count(&s->list), found = rows;

	for (size_t i = 0; i < rows && found == rows; i++)
		if (same_start(row_at(&s->list, i), &s->shown))
			found = i;
	if (!s->chosen)
		s->at = 0;
	else if (found < rows)
		s->at = found;
	else if (s->at >= rows)
		s->at = rows - 1;
	if (!same_start(row_at(&s->list, s->at), &s->shown))
		show_row(app, row_at(&s->list, s->at));
}

/* --- opening and leaving --- */

static bool begin(struct app *app)
{
	struct starts *s = &app->starts;
	struct error err;

	put_back(app);
	arena_free(&s->mem);
	s->search = NULL;
	if (startline_begin(&s->mem, &s->stored, s->turned, &s->search, &err) != STATUS_OK)
		return app_fail(app, &err);
	startline_best(s->search, &s->list);
	s->at = 0;
	s->chosen = false;
	s->shown = s->list.now;
	follow_mark(app);
	return true;
}

void act_starts(struct app *app, int key)
{
	struct starts *s = &app->starts;

	(void)key;
	if (!app->t.ready) {
		app_fail(app, &app->t.fault);
		return;
	}
	if (zone_here(app) != SIZE_MAX) {
		app_refuse(app, "Starts are ranked for the field: p goes back to it.");
		return;
	}
	*s = (struct starts){ .stored = app->t, .stored_laying = app->plan.laying };
	if (!begin(app)) {
		arena_free(&s->mem);
		s->search = NULL;
		return;
	}
	app->mode = MODE_USUAL;
	app->place = AT_STARTS;
	app->view.pane_top = 0;
}

void starts_close(struct app *app)
{
	struct starts *s = &app->starts;

	if (!s->search)
		return;
	put_back(app);
	arena_free(&s->mem);
	arena_free(&s->preview);
	*s = (struct starts){ 0 };
	app->view.pane_top = 0;
	app->place = AT_LAYING;
}

void act_starts_leave(struct app *app, int key)
{
	(void)key;
	starts_close(app);
	app_say(app, "The start stays where it is.");
}

void act_starts_take(struct app *app, int key)
{
	struct start_row row = *row_at(&app->starts.list, app->starts.at);
	struct plan_laying laying;
	char x[32], y[32];

	(void)key;
	starts_close(app);
	if (row.present) {
		app_say(app, "The start stays where it is.");
		return;
	}
	laying = app->plan.laying;
	laying.start_x_um = row.x_um;
	laying.start_y_um = row.y_um;
	laying.rotation_udeg = startline_rotation(laying.rotation_udeg, row.turn_udeg);
	if (edit_field(app, "take a start line", &laying))
		app_say(app, "The start is at %s ; %s m%s. u undoes it.", metres_exact(x, row.x_um),
		        metres_exact(y, row.y_um),
		        row.turn_udeg ? ", the bond turned by 90 degrees" : "");
}

void act_starts_turned(struct app *app, int key)
{
	struct starts *s = &app->starts;

	(void)key;
	s->turned = !s->turned;
	if (!begin(app)) { /* the reason is shown */
		s->search = NULL;
		put_back(app);
		arena_free(&s->preview);
		app->place = AT_LAYING;
		return;
	}
	app_say(app, s->turned ? "With the bond turned by 90 degrees as well."
	                       : "With the bond as it lies.");
}

void act_starts_row(struct app *app, int key)
{
	struct starts *s = &app->starts;
	struct list l = { .count = row_count(&s->list), .at = s->at };

	list_move(app, &l, key);
	s->at = l.at;
	s->chosen = true;
	if (!same_start(row_at(&s->list, s->at), &s->shown))
		show_row(app, row_at(&s->list, s->at));
}

bool starts_idle(struct app *app)
{
	struct starts *s = &app->starts;
	struct error err;

	if (!s->shown.present && takeoff_improve(&s->preview, &app->t, IDLE_LOOKS))
		return true;
	if (startline_done(s->search))
		return false;
	if (startline_step(s->search, SLICE, &err) != STATUS_OK)
		app_fail(app, &err);
	startline_best(s->search, &s->list);
	follow_mark(app);
	return true;
}

/* --- the pane --- */

static void row_line(struct pane *p, const struct start_row *r, size_t rank, bool here)
{
	char left[80], x[32], y[32];

	snprintf(left, sizeof left, "%c%2zu%c %s ; %s%s", here ? '>' : ' ', rank,
	        r->present ? '*' : ' ', metres(x, r->x_um), metres(y, r->y_um),
	        r->turn_udeg ? " t" : "");
	pane_pair_styled(p, here ? STYLE_HERE : STYLE_PLAIN, left,
	        "%3" PRId64 " %5" PRId64 " %4" PRId64, r->slivers, r->slabs, r->cuts);
}

/* What the columns leave out. */
static void marked_lines(struct pane *p, const struct start_row *r)
{
	char mm[40];

	pane_head(p, r->present ? "Marked: the present start" : "Marked: not stored yet");
	if (r->smallest_um == START_NO_PIECE)
		pane_pair(p, "smallest cut piece", "none is cut");
	else
		pane_pair(p, "smallest cut piece", "%s mm",
		        mm_print(mm, sizeof mm, (r->smallest_um + 50) / 100 * 100));
	pane_pair(p, "left and right, up and down,", "%s", "");
	pane_pair(p, "cuts differ by", "%s mm",
	        mm_print(mm, sizeof mm, (r->balance_um + 50) / 100 * 100));
	if (r->turn_udeg)
		pane_text(p, STYLE_PLAIN, "The bond is turned by 90 degrees.");
}

void pane_starts(struct app *app, struct pane *p)
{
	const struct starts *s = &app->starts;
	size_t rows = row_count(&s->list);
	char words[200];
	int top = 0;

	pane_head(p, "Start lines, best first");
	pane_text(p, s->list.exact ? STYLE_GOOD : STYLE_QUIET, "%s",
	        start_words(words, sizeof words, &s->list));
	pane_pair_styled(p, STYLE_QUIET, "    start, m", "sliv. order  cut");
	for (size_t i = 0; i < rows; i++) {
		row_line(p, row_at(&s->list, i), i + 1, i == s->at);
		if (i == s->at)
			top = (int)p->count - (p->rows - 1);
	}
	if (app->view.pane_top < top) /* the marked row stays in sight */
		app->view.pane_top = top;
	marked_lines(p, row_at(&s->list, s->at));
	pane_text(p, STYLE_QUIET, "* the present start%s", s->turned ? ", t bond turned" : "");
}
