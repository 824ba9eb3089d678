/* act_laying.c - slab, bond and start line. */
#include "actions.h"
#include "zones.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool of_one_slab(const struct app *app)
{
	return bond_of_one_slab(laying_here(app)->bond);
}

static bool asks_one_slab(struct app *app)
{
	if (!slabs_here(app))
		return false;
	if (!of_one_slab(app))
		app_refuse(app, "This bond brings its own sizes: b chooses others, or a bond of "
		                "one slab.");
	return of_one_slab(app);
}

bool slab_of_catalogue(struct app *app, struct arena *mem, int64_t id, struct plan_slab *out)
{
	struct store_slabs slabs;
	struct error err;

	if (store_slabs(app->store, mem, &slabs, &err) != STATUS_OK)
		return app_fail(app, &err);
	if ((size_t)id >= slabs.count)
		return false;
	*out = slabs.items[id];
	return true;
}

void slabs_choice(struct app *app, const char *title, const char *now,
        void (*chosen)(struct app *, const struct list_row *))
{
	struct arena mem = { 0 };
	struct store_slabs slabs;
	struct error err;

	if (store_slabs(app->store, &mem, &slabs, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	choice_open(app, title, chosen);
	app->choice.empty = "The catalogue is empty: type a size instead.";
	for (size_t i = 0; i < slabs.count; i++) {
		const struct plan_slab *s = &slabs.items[i];
		char note[200], l[24], w[24], t[24], j[24], lift[64];

		snprintf(note, sizeof note, "%s x %s x %s mm%s, %s, joint %s",
		        mm_print(l, sizeof l, s->length_um), mm_print(w, sizeof w, s->width_um),
		        mm_print(t, sizeof t, s->thickness_um),
		        lift_note(app, lift, sizeof lift, slab_kg(s)),
		        s->size == SIZE_COORDINATING ? "joint inside" : "work size",
		        mm_print(j, sizeof j, s->joint_um));
		choice_add(app, s->name, note, (int64_t)i);
		if (strcmp(s->name, now) == 0)
			app->choice.at = i;
	}
	arena_free(&mem);
}

static void slab_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct plan_laying laying = *laying_here(app);

	if (slab_of_catalogue(app, &mem, row->id, &laying.slab) &&
	        edit_laying(app, "choose a slab", &laying))
		app_say(app, "Slab: %s.", row->words);
	arena_free(&mem);
}

void act_slab(struct app *app, int key)
{
	(void)key;
	if (asks_one_slab(app))
		slabs_choice(
		        app, "Slab, from the catalogue", laying_here(app)->slab.name, slab_chosen);
}

static bool size_done(struct app *app, const char *text)
{
	struct plan_laying laying = *laying_here(app);

	if (!two_lengths(app, text, UNIT_MM, &laying.slab.length_um, &laying.slab.width_um))
		return false;
	laying.slab.name = "";
	laying.slab.pack = 1; /* what was known of the other slab does not hold for this one */
	laying.slab.price_minor = -1;
	return edit_laying(app, "type a slab size", &laying);
}

void act_size(struct app *app, int key)
{
	char now[80], l[24], w[24];

	(void)key;
	if (!asks_one_slab(app))
		return;
	snprintf(now, sizeof now, "%s x %s",
	        mm_print(l, sizeof l, laying_here(app)->slab.length_um),
	        mm_print(w, sizeof w, laying_here(app)->slab.width_um));
	prompt_open(app, "Slab, length x width",
	        "Millimetres, 20 mm to 5 m: 600 x 300. Typing replaces it.", now, size_done);
}

static bool joint_done(struct app *app, const char *text)
{
	struct plan_laying laying = *laying_here(app);

	return typed_length(app, text, UNIT_MM, &laying.slab.joint_um) &&
	       edit_laying(app, "set the joint", &laying);
}

void act_joint(struct app *app, int key)
{
	char now[40];

	(void)key;
	if (!slabs_here(app))
		return;
	prompt_open(app, "Joint", "Millimetres, 0 to 100. Typing replaces it.",
	        mm_print(now, sizeof now, laying_here(app)->slab.joint_um), joint_done);
}

static bool offset_done(struct app *app, const char *text)
{
	struct plan_laying laying = *laying_here(app);
	struct error err;

	if (fraction_parse(text, &laying.offset, &err) != STATUS_OK)
		return app_fail(app, &err);
	return edit_laying(app, "set the offset", &laying);
}

void act_offset(struct app *app, int key)
{
	char now[40];

	(void)key;
	if (!slabs_here(app))
		return;
	if (laying_here(app)->bond != BOND_STRETCHER)
		app_refuse(app, "Only stretcher bond has an offset: choose it with b.");
	else
		prompt_open(app, "Offset of each course",
		        "A part of a slab: 1/2, 1/3, 1/4 or 0,4. Typing replaces it.",
		        fraction_print(now, sizeof now, laying_here(app)->offset), offset_done);
}

static bool rotation_done(struct app *app, const char *text)
{
	struct plan_laying laying = *laying_here(app);
	struct error err;

	if (angle_parse(text, &laying.rotation_udeg, &err) != STATUS_OK)
		return app_fail(app, &err);
	return edit_laying(app, "turn the bond", &laying);
}

void act_rotation(struct app *app, int key)
{
	char now[40];

	(void)key;
	if (!slabs_here(app))
		return;
	prompt_open(app, "Turn the bond",
	        "Degrees anticlockwise about the start point: 0, 45, 90, -22,5. Typing replaces "
	        "it.",
	        angle_print(now, sizeof now, laying_here(app)->rotation_udeg), rotation_done);
}

static bool set_start(struct app *app, int64_t x, int64_t y, const char *label)
{
	struct plan_laying laying = *laying_here(app);

	laying.start_x_um = x;
	laying.start_y_um = y;
	return edit_laying(app, label, &laying);
}

static bool start_done(struct app *app, const char *text)
{
	int64_t x, y;

	return two_lengths(app, text, UNIT_M, &x, &y) &&
	       set_start(app, x, y, "set the start point");
}

void act_start(struct app *app, int key)
{
	char now[80], x[32], y[32];

	(void)key;
	if (!slabs_here(app))
		return;
	snprintf(now, sizeof now, "%s ; %s", metres_exact(x, laying_here(app)->start_x_um),
	        metres_exact(y, laying_here(app)->start_y_um));
	prompt_open(app, "Start point, across ; up",
	        "Metres from 0, 0: a slab's lower left corner. 0 ; 0,15. Typing replaces it.", now,
	        start_done);
}

void act_start_here(struct app *app, int key)
{
	(void)key;
	if (slabs_here(app) &&
	        set_start(app, app->view.x_um, app->view.y_um, "start at the cursor"))
		app_say(app, "A slab's lower left corner now lies at the cursor.");
}

void act_nudge(struct app *app, int key)
{
	char step[40];

	if (app->mode == MODE_NUDGE) {
		act_let_go(app, key);
		return;
	}
	if (!slabs_here(app))
		return;
	app->mode = MODE_NUDGE;
	app_say(app,
	        "Arrows move the start line by %s mm (Shift: five times that). Digits set another "
	        "step.",
	        mm_print(step, sizeof step, app->nudge_um));
}

void nudge_by(struct app *app, int key)
{
	int64_t step = key >= KEY_OF_FAST_LEFT ? 5 * app->nudge_um : app->nudge_um;
	int way = key >= KEY_OF_FAST_LEFT ? key - KEY_OF_FAST_LEFT : key - KEY_OF_ARROW_LEFT;
	int64_t dx = way == 0   ? -step
	             : way == 1 ? step
	                        : 0,
	        dy = way == 2   ? step
	             : way == 3 ? -step
	                        : 0;
	int64_t cuts = app->t.laid.cut, slivers = app->t.laid.sliver, order = app->t.order.slabs;

	if (!set_start(app, laying_here(app)->start_x_um + dx, laying_here(app)->start_y_um + dy,
	            "nudge the start line"))
		return;
	if (app->t.ready)
		app_say(app,
		        "Cuts %" PRId64 " (%+" PRId64 "), slivers %" PRId64 " (%+" PRId64
		        "), to order %" PRId64 " (%+" PRId64 ").",
		        app->t.laid.cut, app->t.laid.cut - cuts, app->t.laid.sliver,
		        app->t.laid.sliver - slivers, app->t.order.slabs,
		        app->t.order.slabs - order);
}

static bool step_done(struct app *app, const char *text)
{
	int64_t um;

	if (!typed_length(app, text, UNIT_MM, &um))
		return false;
	if (um < UM_PER_MM || um > 5 * UM_PER_M) {
		app_refuse(app, "A step is from 1 mm to 5 m.");
		return false;
	}
	app->nudge_um = um;
	return true;
}

void nudge_step(struct app *app, int key)
{
	char first[2] = { (char)key, '\0' };

	if (app->mode != MODE_NUDGE)
		app_refuse(app,
		        "m moves the start line; then digits set its step. t types a slab size.");
	else
		prompt_open(app, "Step of the start line", "Millimetres, 1 mm to 5 m.", first,
		        step_done)
		        ->offered = false;
}
