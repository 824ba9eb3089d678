/* act_meet.c - the fixed point that the paving must meet, and the plane raised or tilted to it. */
#include "actions.h"

#include "slabwright/surface_plane.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ROW_RAISE, ROW_TILT, ROW_ANOTHER, ROW_AWAY };

#define MEETS_UM 500.0 /* closer than this it is met */

static bool misses(const struct app *app)
{
	return app->plan.surface.has_fixed && app->plan.surface.count &&
	       fabs(app->t.surface.fixed_difference_um) >= MEETS_UM;
}

/* By how much the paving misses it: "12 mm under path". */
static const char *difference_words(const struct app *app, char *buf, size_t size)
{
	double d = app->t.surface.fixed_difference_um;

	snprintf(buf, size, "%.0f mm %s %.60s", fabs(d) / 1000, d < 0 ? "under" : "over",
	        app->plan.surface.fixed_name);
	return buf;
}

static void say_difference(struct app *app)
{
	char words[120];

	if (!app->plan.surface.count || !app->t.surface_ready)
		app_say(app, "The paving has to meet it; s sets the fall.");
	else if (misses(app))
		app_say(app, "The paving is %s. m again raises or tilts the plane to it.",
		        difference_words(app, words, sizeof words));
	else
		app_say(app, "The paving meets it.");
}

static bool fixed_level_done(struct app *app, const char *text)
{
	struct plan_surface s = app->plan.surface;
	char name[120];
	int64_t um;

	if (!typed_length(app, text, UNIT_M, &um))
		return false;
	snprintf(name, sizeof name, "%s", app->prompt.words);
	s.has_fixed = true;
	s.fixed_name = name;
	s.fixed_x_um = app->view.x_um;
	s.fixed_y_um = app->view.y_um;
	s.fixed_level_um = um;
	if (!edit_surface(app, "set the fixed point", &s))
		return false;
	say_difference(app);
	return true;
}

static bool fixed_name_done(struct app *app, const char *text)
{
	struct prompt *p;

	if (strlen(text) >= sizeof app->prompt.words) {
		app_refuse(app, "A name has 119 bytes at most.");
		return false;
	}
	p = prompt_open(app, "Its level", "Metres over the datum: 0 or -0,015 or -15 mm.", "",
	        fixed_level_done);
	snprintf(p->words, sizeof p->words, "%s", *text ? text : "fixed point");
	return true;
}

static void ask_name(struct app *app)
{
	prompt_open(app, "Fixed point at the cursor",
	        "What has to be met there: threshold, path, gully ...",
	        app->plan.surface.has_fixed ? app->plan.surface.fixed_name : "", fixed_name_done);
}

void act_fixed_gone(struct app *app, int key)
{
	struct plan_surface s = app->plan.surface;

	(void)key;
	if (!s.has_fixed) {
		app_refuse(app, "There is no fixed point: m sets one at the cursor.");
		return;
	}
	s.has_fixed = false;
	s.fixed_name = "";
	if (edit_surface(app, "take the fixed point away", &s))
		app_say(app, "The fixed point is gone. u brings it back.");
}

/* --- the plane brought to it --- */

/* The plane that shows at the fixed point, raised or tilted to it: how it would be. */
static enum status brought(
        const struct app *app, bool tilt, size_t *at, struct plan_plane *out, struct error *err)
{
	const struct plan_surface *s = &app->plan.surface;
	struct plane_level meet = { s->fixed_x_um, s->fixed_y_um, s->fixed_level_um };

	*at = surface_fall_at(s, (double)s->fixed_x_um, (double)s->fixed_y_um).plane;
	return tilt ? plane_tilted(&s->planes[*at], meet, out, err)
	            : plane_shifted(&s->planes[*at], meet, out, err);
}

static void bring(struct app *app, bool tilt)
{
	struct plan_surface s = app->plan.surface;
	struct plan_plane *planes, plane;
	struct error err;
	char label[80], words[120], fall[64];
	size_t at;

	if (brought(app, tilt, &at, &plane, &err) != STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	planes = arena_alloc(&app->frame_mem, s.count, sizeof *planes);
	if (!planes) {
		app_refuse(app, "No memory is left.");
		return;
	}
	memcpy(planes, s.planes, s.count * sizeof *planes);
	planes[at] = plane;
	s.planes = planes;
	snprintf(label, sizeof label, "%s plane %zu to meet %.40s", tilt ? "tilt" : "move", at + 1,
	        s.fixed_name);
	if (!edit_surface(app, label, &s))
		return;
	app->item = at;
	if (misses(app))
		app_refuse(app,
		        "Another plane shows there now, and the paving is %s: m brings that "
		        "one to it, b says which plane is which.",
		        difference_words(app, words, sizeof words));
	else
		app_say(app, "The paving meets %.60s: %s, %s.", app->plan.surface.fixed_name,
		        fall_print(fall, sizeof fall, plane.fall_um_per_m),
		        compass_name(plane.toward_udeg));
}

static void meet_chosen(struct app *app, const struct list_row *row)
{
	switch (row->id) {
	case ROW_RAISE:
	case ROW_TILT:
		bring(app, row->id == ROW_TILT);
		return;
	case ROW_AWAY:
		act_fixed_gone(app, 0);
		return;
	default:
		ask_name(app);
	}
}

/* What raising and tilting come to; a way that cannot be gone says why. */
static void offer_to_meet(struct app *app)
{
	struct plan_plane plane;
	struct error err;
	char words[80], note[200], fall[64];
	double d = app->t.surface.fixed_difference_um;
	size_t at;

	if (brought(app, false, &at, &plane, &err) == STATUS_OK) {
		snprintf(words, sizeof words, "%s plane %zu by %.0f mm", d < 0 ? "raise" : "lower",
		        at + 1, fabs(d) / 1000);
		choice_add(app, words, "its fall stays", ROW_RAISE);
	}
	snprintf(words, sizeof words, "tilt plane %zu", at + 1);
	if (brought(app, true, &at, &plane, &err) == STATUS_OK)
		snprintf(note, sizeof note, "its fall becomes %s, %s",
		        fall_print(fall, sizeof fall, plane.fall_um_per_m),
		        compass_name(plane.toward_udeg));
	else
		crew_words(note, sizeof note, err.text);
	choice_add(app, words, note, ROW_TILT);
}

void act_fixed(struct app *app, int key)
{
	char title[120], words[100];

	(void)key;
	if (!app->plan.surface.has_fixed) {
		ask_name(app);
		return;
	}
	if (misses(app))
		snprintf(title, sizeof title, "The paving is %s",
		        difference_words(app, words, sizeof words));
	else
		snprintf(title, sizeof title, "The fixed point: %.80s",
		        app->plan.surface.fixed_name);
	choice_open(app, title, meet_chosen);
	if (misses(app))
		offer_to_meet(app);
	choice_add(app, "another fixed point", "at the cursor, in its place", ROW_ANOTHER);
	choice_add(app, "take it away", "", ROW_AWAY);
}
