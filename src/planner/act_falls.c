/* act_falls.c - the plane of the surface, and the rule set. */
#include "actions.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The outline's longest house wall; SIZE_MAX where there is none. */
static size_t longest_wall(const struct plan *plan)
{
	const struct plan_ring *r = plan->ring_count ? &plan->rings[0] : NULL;
	double best = 0;
	size_t at = SIZE_MAX;

	for (size_t i = 0; r && i < r->count; i++) {
		if (r->nodes[i].kind != EDGE_HOUSE_WALL || edge_length_um(r, i) <= best)
			continue;
		best = edge_length_um(r, i);
		at = i;
	}
	return at;
}

size_t plane_here(const struct app *app)
{
	return app->item < app->plan.surface.count ? app->item : 0;
}

/* A plane that is not there yet: level 0 at the longest house wall, and straight away from it; up
 * the plan from the cursor where there is no wall. */
static struct plan_plane new_plane(const struct app *app)
{
	const struct plan *plan = &app->plan;
	struct plan_plane plane = {
		.x_um = app->view.x_um, .y_um = app->view.y_um, .toward_udeg = 90 * UDEG_PER_DEG
	};
	size_t wall = longest_wall(plan);
	const struct plan_node *a, *b;
	double side, angle;

	if (wall == SIZE_MAX)
		return plane;
	a = &plan->rings[0].nodes[wall];
	b = &plan->rings[0].nodes[(wall + 1) % plan->rings[0].count];
	side = ring_signed_area2_um2(&plan->rings[0]) < 0 ? -1
	                                                  : 1; /* the paving lies to the left */
	angle = atan2((double)(b->x_um - a->x_um) * side, (double)(a->y_um - b->y_um) * side);
	plane.x_um = a->x_um;
	plane.y_um = a->y_um;
	plane.toward_udeg = llround(angle * 180 / 3.14159265358979323846 * (double)UDEG_PER_DEG);
	return plane;
}

/* The surface to change, in memory of this frame, with the chosen plane in *plane: the one there
 * is, or a level one. False when memory is gone. */
static bool with_plane(struct app *app, struct plan_surface *s, struct plan_plane **plane)
{
	struct plan_plane *planes;
	size_t count = app->plan.surface.count;

	*s = app->plan.surface;
	planes = arena_alloc(&app->frame_mem, count + 1, sizeof *planes);
	if (!planes) {
		app_refuse(app, "No memory is left.");
		return false;
	}
	if (count)
		memcpy(planes, s->planes, count * sizeof *planes);
	else
		planes[0] = new_plane(app);
	s->planes = planes;
	s->count = count ? count : 1;
	*plane = &planes[plane_here(app)];
	return true;
}

/* " of plane 2", where there are several. */
static const char *of_plane(const struct app *app, char buf[32])
{
	buf[0] = '\0';
	if (app->plan.surface.count > 1)
		snprintf(buf, 32, " of plane %zu", plane_here(app) + 1);
	return buf;
}

static bool edit_plane(struct app *app, const char *what, const struct plan_surface *s)
{
	char label[80], of[32];

	snprintf(label, sizeof label, "%s%s", what, of_plane(app, of));
	return edit_surface(app, label, s);
}

static bool level_done(struct app *app, const char *text)
{
	struct plan_plane *plane;
	struct plan_surface s;
	int64_t um;

	if (!typed_length(app, text, UNIT_M, &um) || !with_plane(app, &s, &plane))
		return false;
	plane->x_um = app->view.x_um;
	plane->y_um = app->view.y_um;
	plane->level_um = um;
	return edit_plane(app, "set the level", &s);
}

void act_level(struct app *app, int key)
{
	struct plan_surface one = app->plan.surface;
	char now[32], label[80], of[32];

	(void)key;
	if (one.count) {
		one.planes += plane_here(app);
		one.count = 1;
	}
	snprintf(label, sizeof label, "Level%s at the cursor", of_plane(app, of));
	prompt_open(app, label,
	        "Metres over the datum: 0 or -0,015 or -15 mm. The plane rises or sinks with it. "
	        "Typing replaces it.",
	        metres_exact(now, llround(surface_level_um(
	                                  &one, (double)app->view.x_um, (double)app->view.y_um))),
	        level_done);
}

static bool set_direction(struct app *app, int64_t udeg)
{
	struct plan_plane *plane;
	struct plan_surface s;
	char of[32];

	if (!with_plane(app, &s, &plane))
		return false;
	plane->toward_udeg = udeg;
	if (!edit_plane(app, "set the way water runs", &s))
		return false;
	app_say(app, "Water%s runs %s.%s", of_plane(app, of), compass_name(udeg),
	        app->plan.surface.planes[plane_here(app)].fall_um_per_m
	                ? ""
	                : " There is no fall yet: s sets it.");
	return true;
}

static bool direction_done(struct app *app, const char *text)
{
	struct error err;
	int64_t udeg;

	if (!*text) /* as the arrows left it */
		return true;
	return angle_parse(text, &udeg, &err) == STATUS_OK ? set_direction(app, udeg)
	                                                   : app_fail(app, &err);
}

/* A first arrow gives its own direction; with the one across it, an arrow makes a diagonal of both.
 */
static bool direction_arrow(struct app *app, int key, const char *text)
{
	static const int degrees[] = { 180, 0, 90, 270 };
	int64_t pressed = degrees[key - KEY_OF_ARROW_LEFT] * UDEG_PER_DEG;
	int64_t now = app->plan.surface.count
	                      ? app->plan.surface.planes[plane_here(app)].toward_udeg
	                      : pressed;
	int64_t turn = (pressed - now) % (360 * UDEG_PER_DEG);

	(void)text;
	if (turn < 0)
		turn += 360 * UDEG_PER_DEG;
	if (turn == 90 * UDEG_PER_DEG)
		pressed = now + 45 * UDEG_PER_DEG;
	else if (turn == 270 * UDEG_PER_DEG)
		pressed = now - 45 * UDEG_PER_DEG;
	pressed %= 360 * UDEG_PER_DEG;
	if (pressed < 0)
		pressed += 360 * UDEG_PER_DEG;
	if (!set_direction(app, pressed))
		return false;
	act_direction(app, 0);
	return true;
}

void act_direction(struct app *app, int key)
{
	struct prompt *p;
	char label[80], of[32];

	(void)key;
	snprintf(label, sizeof label, "Way the water%s runs (%s)", of_plane(app, of),
	        app->plan.surface.count
	                ? compass_name(app->plan.surface.planes[plane_here(app)].toward_udeg)
	                : "not set");
	p = prompt_open(app, label,
	        "Arrow keys turn it toward that side, half way at a time; or degrees: 0 right, 90 "
	        "up. Enter: done.",
	        "", direction_done);
	p->arrow = direction_arrow;
}

static bool fall_done(struct app *app, const char *text)
{
	struct plan_plane *plane;
	struct plan_surface s;
	struct error err;
	int64_t fall;
	bool first = app->plan.surface.count == 0;

	if (fall_parse(text, &fall, &err) != STATUS_OK)
		return app_fail(app, &err);
	if (!with_plane(app, &s, &plane))
		return false;
	plane->fall_um_per_m = fall;
	if (!edit_plane(app, "set the fall", &s))
		return false;
	if (first)
		app_say(app, "Level 0 is at the %s; water runs %s. w turns it, v sets a level.",
		        longest_wall(&app->plan) == SIZE_MAX ? "cursor" : "house wall",
		        compass_name(app->plan.surface.planes[0].toward_udeg));
	return true;
}

void act_fall(struct app *app, int key)
{
	char now[40], label[80], of[32];

	(void)key;
	snprintf(label, sizeof label, "Fall%s", of_plane(app, of));
	mm_print(now, sizeof now,
	        app->plan.surface.count ? app->plan.surface.planes[plane_here(app)].fall_um_per_m
	                                : 0);
	prompt_open(app, label, "15 (mm a metre), 1,5 % or 1:60; 0 is level. Typing replaces it.",
	        app->plan.surface.count ? now : "", fall_done);
}

static void rules_chosen(struct app *app, const struct list_row *row)
{
	struct edit e = { .type = EDIT_RULES, .text = row->words };

	snprintf(e.label, sizeof e.label, "choose a rule set");
	if (app_edit(app, &e))
		app_say(app, "Rule set: %s. Local codes and licensed practice come first.",
		        row->words);
}

void act_rules(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_names names;
	struct error err;

	(void)key;
	if (store_rule_sets(app->store, &mem, &names, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	choice_open(app, "Rule set", rules_chosen);
	for (size_t i = 0; i < names.count; i++) {
		struct rules rules = { 0 };
		char note[160] = "";

		if (store_rules(app->store, names.items[i], &mem, &rules, &err) == STATUS_OK &&
		        rules.place)
			snprintf(note, sizeof note, "%s %s", rules.place,
			        rules.date ? rules.date : "");
		choice_add(app, names.items[i], note, (int64_t)i);
		if (app->plan.rule_set && strcmp(names.items[i], app->plan.rule_set) == 0)
			app->choice.at = i;
	}
	arena_free(&mem);
}
