/* act_planes.c - the planes a surface is made of, and the levels that fix one. */
#include "actions.h"
#include "form.h"

#include "slabwright/surface_plane.h"

#include <inttypes.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* --- the list of planes --- */

enum { ROW_NEW = -1, ROW_ENVELOPE = -2, ROW_DELETE = -3, ROW_EDGE = -4 };

/* The planes with room for one more, in memory of this frame; NULL, with the reason shown. */
static struct plan_plane *planes_copy(struct app *app)
{
	size_t count = app->plan.surface.count;
	struct plan_plane *planes = arena_alloc(&app->frame_mem, count + 1, sizeof *planes);

	if (!planes)
		app_refuse(app, "No memory is left.");
	else if (count)
		memcpy(planes, app->plan.surface.planes, count * sizeof *planes);
	return planes;
}

/* A plane that falls against the chosen one from the cursor on, at the level there: water comes
 * together between them, or parts. */
static void add_plane(struct app *app)
{
	struct plan_surface s = app->plan.surface;
	struct plan_plane *planes = planes_copy(app), *p;
	char label[80];

	if (!planes)
		return;
	if (!s.count) {
		app_refuse(app, "There is no plane yet: s sets the first one's fall.");
		return;
	}
	p = &planes[s.count];
	*p = planes[plane_here(app)];
	p->x_um = app->view.x_um;
	p->y_um = app->view.y_um;
	p->level_um = llround(surface_level_um(&s, (double)p->x_um, (double)p->y_um));
	p->toward_udeg = (p->toward_udeg + 180 * UDEG_PER_DEG) % (360 * UDEG_PER_DEG);
	s.planes = planes;
	s.count++;
	snprintf(label, sizeof label, "add plane %zu", s.count);
	if (!edit_surface(app, label, &s))
		return;
	app->item = s.count - 1;
	app_say(app,
	        "Plane %zu falls the other way and meets plane %zu at the cursor. w, s and v "
	        "are for it now.",
	        s.count, s.count > 1 ? s.count - 1 : 1);
}

static void delete_plane(struct app *app)
{
	struct plan_surface s = app->plan.surface;
	struct plan_plane *planes = planes_copy(app);
	size_t at = plane_here(app);
	char label[80];

	if (!planes)
		return;
	memmove(&planes[at], &planes[at + 1], (s.count - at - 1) * sizeof *planes);
	s.planes = planes;
	s.count--;
	snprintf(label, sizeof label, "delete plane %zu", at + 1);
	if (!edit_surface(app, label, &s))
		return;
	app->item = at ? at - 1 : 0;
	app_say(app, "Plane %zu is gone. u brings it back.", at + 1);
}

static const char *envelope_words(enum envelope e)
{
	return e == ENVELOPE_MAX ? "valley: water comes together where planes meet"
	                         : "ridge: water parts where planes meet";
}

static void turn_envelope(struct app *app)
{
	struct plan_surface s = app->plan.surface;

	s.envelope = s.envelope == ENVELOPE_MAX ? ENVELOPE_MIN : ENVELOPE_MAX;
	if (edit_surface(app,
	            s.envelope == ENVELOPE_MAX ? "planes meet in valleys" : "planes meet in ridges",
	            &s))
		app_say(app, "Planes meet in a %s.", envelope_words(s.envelope));
}

static bool held_fall_done(struct app *app, const char *text)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	struct plan_surface s = app->plan.surface;
	struct plane_level a, b;
	struct plan_plane *planes;
	struct error err;
	int64_t fall;

	if (!r || app->view.at >= r->count)
		return false;
	if (fall_parse(text, &fall, &err) != STATUS_OK)
		return app_fail(app, &err);
	planes = planes_copy(app);
	if (!planes)
		return false;
	a = (struct plane_level){ r->nodes[app->view.at].x_um, r->nodes[app->view.at].y_um,
		app->prompt.number };
	b = (struct plane_level){ r->nodes[(app->view.at + 1) % r->count].x_um,
		r->nodes[(app->view.at + 1) % r->count].y_um, 0 };
	/* away from the edge into the paving: an opening's ring has it on the other side */
	if (plane_from_line(a, b, (ring_signed_area2_um2(r) > 0) == (app->view.ring == 0), fall,
	            &planes[plane_here(app)], &err) != STATUS_OK)
		return app_fail(app, &err);
	s.planes = planes;
	s.count = s.count ? s.count : 1;
	return edit_surface(app, "hold an edge level", &s);
}

static bool held_level_done(struct app *app, const char *text)
{
	int64_t um;

	if (!typed_length(app, text, UNIT_M, &um))
		return false;
	prompt_open(app, "Fall away from it", "15 (mm a metre), 1,5 % or 1:60.", "", held_fall_done)
	        ->number = um;
	return true;
}

static void hold_edge(struct app *app)
{
	char label[80];

	if (app->view.ring >= app->plan.ring_count || !app->t.surface_ready) {
		app_refuse(app, "Choose an edge first: n and p go from one to the next.");
		return;
	}
	snprintf(label, sizeof label, "Level all along edge %zu", app->view.at + 1);
	prompt_open(app, label, "Metres over the datum: 0 or -0,15. The edge is held level there.",
	        "", held_level_done);
}

static void plane_chosen(struct app *app, const struct list_row *row)
{
	switch (row->id) {
	case ROW_NEW:
		add_plane(app);
		return;
	case ROW_ENVELOPE:
		turn_envelope(app);
		return;
	case ROW_DELETE:
		delete_plane(app);
		return;
	case ROW_EDGE:
		hold_edge(app);
		return;
	default:
		app->item = (size_t)row->id;
		app_say(app, "Plane %zu: s, w, v and x are for it now.", app->item + 1);
	}
}

void act_planes(struct app *app, int key)
{
	const struct plan_surface *s = &app->plan.surface;
	char words[120], note[120], fall[64], level[32];

	(void)key;
	choice_open(app, "Planes of the surface", plane_chosen);
	for (size_t i = 0; i < s->count; i++) {
		const struct plan_plane *p = &s->planes[i];

		snprintf(words, sizeof words, "Plane %zu: %s", i + 1,
		        fall_print(fall, sizeof fall, p->fall_um_per_m));
		snprintf(note, sizeof note, "%s, level %s m at its point",
		        compass_name(p->toward_udeg), metres(level, p->level_um));
		choice_add(app, words, note, (int64_t)i);
	}
	choice_add(app, "a new plane", "against the chosen one, from the cursor", ROW_NEW);
	choice_add(app, "hold the chosen edge level", "and fall away from it", ROW_EDGE);
	if (s->count > 1)
		choice_add(app, "where planes meet", envelope_words(s->envelope), ROW_ENVELOPE);
	if (s->count)
		choice_add(app, "delete the chosen plane", "", ROW_DELETE);
	list_mark(&app->choice, (int64_t)plane_here(app));
}

/* --- known levels --- */

#define KNOWN(member) .offset = offsetof(struct known_level, member)
static const struct form_value known_columns[] = {
	{ .name = "across ; up",
	        .hint = "Metres from 0 ; 0 as in 3,62 ; 0. The cursor's place is offered.",
	        .value = VALUE_PLACE,
	        KNOWN(x_um) },
	{ .name = "level m",
	        .hint = "Metres over the datum: 0 or -0,015 or -15 mm.",
	        .value = VALUE_M,
	        KNOWN(level_um) },
};

static size_t known_rows(const struct app *app)
{
	return app->known.count;
}

static void known_get(const struct app *app, size_t row, void *thing)
{
	memcpy(thing, &app->known.at[row], sizeof app->known.at[row]);
}

static void known_fresh(struct app *app, void *thing)
{
	struct known_level k = { app->view.x_um, app->view.y_um,
		llround(surface_level_um(
		        &app->plan.surface, (double)app->view.x_um, (double)app->view.y_um)) };

	memcpy(thing, &k, sizeof k);
}

/* The plane that two or three known levels fix, in the place of the chosen one. */
static bool fix_plane(struct app *app, const struct known_levels *known)
{
	struct plan_surface s = app->plan.surface;
	struct plan_plane *planes = planes_copy(app);
	struct plane_level at[3];
	struct error err;
	enum status st;

	if (!planes)
		return false;
	for (size_t i = 0; i < known->count; i++)
		at[i] = (struct plane_level){ known->at[i].x_um, known->at[i].y_um,
			known->at[i].level_um };
	st = known->count == 2
	             ? plane_from_two(at[0], at[1], &planes[plane_here(app)], &err)
	             : plane_from_three(at[0], at[1], at[2], &planes[plane_here(app)], &err);
	if (st != STATUS_OK)
		return app_fail(app, &err);
	s.planes = planes;
	s.count = s.count ? s.count : 1;
	return edit_surface(app,
	        known->count == 2 ? "fix the plane by two levels" : "fix the plane by three levels",
	        &s);
}

static bool known_put(struct app *app, size_t row, const void *thing, const char *what)
{
	struct known_levels next = app->known;

	(void)what;
	if (row >= 3) {
		app_refuse(app, "Three levels fix a plane. Change one of them, or delete one.");
		return false;
	}
	memcpy(&next.at[row], thing, sizeof next.at[row]);
	if (row == next.count)
		next.count++;
	/* a row's place comes first: its level may still be the one that is there */
	if (next.count >= 2 && app->table.column == 1 && !fix_plane(app, &next))
		return false;
	app->known = next;
	return true;
}

static bool known_drop(struct app *app, size_t row)
{
	struct known_levels *k = &app->known;

	memmove(&k->at[row], &k->at[row + 1], (k->count - row - 1) * sizeof k->at[0]);
	k->count--;
	return true;
}

static void known_foot(const struct app *app, char *buf, size_t size)
{
	const struct plan_surface *s = &app->plan.surface;
	const struct plan_plane *p = s->count ? &s->planes[plane_here(app)] : NULL;
	char fall[64];

	if (app->known.count < 2 || !p)
		snprintf(buf, size,
		        "One more level, and the plane falls from the higher to the "
		        "lower.");
	else
		snprintf(buf, size, "The plane: %s, %s. %s",
		        fall_print(fall, sizeof fall, p->fall_um_per_m),
		        compass_name(p->toward_udeg),
		        app->known.count == 2 ? "A third level fixes its fall across as well."
		                              : "It passes through all three.");
}

static const struct table known_table = {
	.title = "Levels that fix the plane",
	.item = "point",
	.most = 3,
	.empty = "Type a place and its level; with a second one the plane falls from the higher to "
	         "the lower, a third one fixes it across as well. Enter takes the cursor's place.",
	.columns = known_columns,
	.count = sizeof known_columns / sizeof known_columns[0],
	.size = sizeof(struct known_level),
	.rows = known_rows,
	.get = known_get,
	.fresh = known_fresh,
	.put = known_put,
	.drop = known_drop,
	.next = table_next_column,
	.foot = known_foot,
};

void act_known_levels(struct app *app, int key)
{
	(void)key;
	app->known.count = 0;
	table_open(app, &known_table);
}

/* --- contours --- */

static bool contours_done(struct app *app, const char *text)
{
	int64_t um;

	if (!typed_length(app, text, UNIT_MM, &um))
		return false;
	if (um < 0 || (um && um < 1000)) {
		app_refuse(app, "From 1 mm up, or 0 for none.");
		return false;
	}
	app->view.contour_um = um;
	app->view.areas = app->view.areas && !um;
	app_say(app, um ? "Contour lines are drawn." : "No contour lines.");
	return true;
}

void act_contours(struct app *app, int key)
{
	char now[40];

	(void)key;
	prompt_open(app, "Height between contour lines",
	        "Millimetres: 10; 0 for none. Typing replaces it.",
	        mm_print(now, sizeof now, app->view.contour_um ? app->view.contour_um : 10000),
	        contours_done);
}

/* --- what drains where --- */

void act_areas(struct app *app, int key)
{
	(void)key;
	if (!app->t.surface_ready || !app->plan.surface.count) {
		app_refuse(app,
		        "No fall is set yet: s sets it. Then the areas show where the water "
		        "of each goes.");
		return;
	}
	app->view.areas = !app->view.areas;
	app_say(app, app->view.areas ? "The letters say where water ends up; the pane lists them. "
	                               "a draws the arrows again."
	                             : "Arrows show the way of the water.");
}
