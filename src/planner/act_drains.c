/* act_drains.c - what takes the water: channels, gullies, a soakaway. */
#include "actions.h"
#include "form.h"

#include <inttypes.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* Rows of the list: channels from CHANNEL_ROW, gullies from GULLY_ROW. */
enum {
	CHANNEL_ROW,
	GULLY_ROW = CHANNELS,
	SOAKAWAY_ROW = 2 * CHANNELS,
	NEW_ALONG_EDGE,
	NEW_LINE,
	NEW_GULLY,
	NEW_SOAKAWAY
};

static bool edit_water(struct app *app, const char *label, const struct plan_water *water)
{
	struct edit e = { .type = EDIT_WATER, .water = *water };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

static char *lower_first(char *buf, size_t size, const char *text)
{
	snprintf(buf, size, "%s", text);
	if (buf[0] >= 'A' && buf[0] <= 'Z')
		buf[0] = (char)(buf[0] | 0x20);
	return buf;
}

static const char *named(const char *name, const char *kind, size_t number, char buf[64])
{
	if (*name)
		snprintf(buf, 64, "%s", name);
	else
		snprintf(buf, 64, "%s %zu", kind, number);
	return buf;
}

/* Copies of the lists with room for one more, in memory of this frame; false, with the reason
 * shown, when memory is gone. */
static bool water_lists(struct app *app, struct plan_water *w)
{
	struct plan_channel *channels;
	struct plan_gully *gullies;

	*w = app->plan.water;
	channels = arena_alloc(&app->frame_mem, w->channel_count + 1, sizeof *channels);
	gullies = arena_alloc(&app->frame_mem, w->gully_count + 1, sizeof *gullies);
	if (!channels || !gullies) {
		app_refuse(app, "No memory is left.");
		return false;
	}
	if (w->channel_count)
		memcpy(channels, w->channels, w->channel_count * sizeof *channels);
	if (w->gully_count)
		memcpy(gullies, w->gullies, w->gully_count * sizeof *gullies);
	w->channels = channels;
	w->gullies = gullies;
	return true;
}

/* --- channels --- */

static void channel_delete(struct app *app)
{
	struct edit e;
	struct error err;

	if (edit_channel_delete(&app->frame_mem, &app->plan, (int64_t)app->drain + 1, &e, &err) !=
	        STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	snprintf(e.label, sizeof e.label, "delete channel %zu", app->drain + 1);
	if (app_edit(app, &e))
		app_say(app, "The channel is gone. u brings it back.");
}

static const char *const outlets[] = { "its first end", "its last end", "both ends" };

static bool lies_free(const void *thing);

#define CHANNEL(member) .offset = offsetof(struct channel_form, member)
/* A channel, and whether edges name it. */
struct channel_form {
	struct plan_channel c;
	bool along_edges;
};

static const struct form_value channel_values[] = {
	{ .name = "Name",
	        .hint = "As it is called on the sheets.",
	        .value = VALUE_TEXT,
	        CHANNEL(c.name) },
	{ .name = "From",
	        .hint = "Metres across ; up.",
	        .value = VALUE_PLACE,
	        CHANNEL(c.x1_um),
	        .has = lies_free },
	{ .name = "To",
	        .hint = "Metres across ; up.",
	        .value = VALUE_PLACE,
	        CHANNEL(c.x2_um),
	        .has = lies_free },
	{ .name = "Clear width",
	        .hint = "Millimetres inside, 20 mm to 2 m.",
	        .value = VALUE_MM,
	        CHANNEL(c.width_um) },
	{ .name = "Clear depth at its high end",
	        .hint = "Millimetres inside, 10 mm to 2 m.",
	        .value = VALUE_MM,
	        CHANNEL(c.depth_um) },
	{ .name = "Fall of its floor",
	        .hint = "5 (mm a metre), 0,5 % or 1:200; 0 is level.",
	        .value = VALUE_FALL,
	        CHANNEL(c.fall_um_per_m) },
	{ .name = "Roughness n (Manning)",
	        .hint = "0.012 for smooth concrete, 0.010 plastic (common practice).",
	        .value = VALUE_FACTOR,
	        CHANNEL(c.roughness_ppm) },
	{ .name = "Its water leaves by",
	        .value = VALUE_TURN,
	        CHANNEL(c.outlet),
	        .words = outlets,
	        .word_count = 3 },
	{ .name = "Delete it",
	        .hint = "edges let go of it",
	        .value = VALUE_DO,
	        .run = channel_delete },
};

static bool lies_free(const void *thing)
{
	return !((const struct channel_form *)thing)->along_edges;
}

static bool named_by_edge(const struct plan *plan, int64_t number)
{
	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++)
			if (plan->rings[r].nodes[i].channel == number)
				return true;
	return false;
}

static bool channel_get(struct app *app, void *thing, char title[120])
{
	struct channel_form *f = thing;
	char name[64];

	if (app->drain >= app->plan.water.channel_count) {
		app_refuse(app, "That channel is gone.");
		return false;
	}
	f->c = app->plan.water.channels[app->drain];
	f->along_edges = named_by_edge(&app->plan, (int64_t)app->drain + 1);
	snprintf(title, 120, "Channel %zu%s%s", app->drain + 1, *f->c.name ? ": " : "",
	        *f->c.name ? named(f->c.name, "", 0, name) : "");
	return true;
}

static bool channel_put(struct app *app, const void *thing, const char *what)
{
	const struct channel_form *f = thing;
	struct plan_water w;
	char label[80], low[48];

	if (!water_lists(app, &w))
		return false;
	w.channels[app->drain] = f->c;
	snprintf(label, sizeof label, "channel %zu: %s", app->drain + 1,
	        lower_first(low, sizeof low, what));
	return edit_water(app, label, &w);
}

static const struct form channel_form = { channel_values,
	sizeof channel_values / sizeof channel_values[0], sizeof(struct channel_form), channel_get,
	channel_put };

/* One along the chosen edge, which then names it. */
static void new_along_edge(struct app *app)
{
	struct edit e = { .type = EDIT_DRAINS };
	struct plan_node *nodes;
	struct plan_channel *c;
	size_t ring = app->view.ring, at = app->view.at;

	if (ring >= app->plan.ring_count || !app->t.surface_ready) {
		app_refuse(app, "Choose an edge of the outline or of an opening first: n and p.");
		return;
	}
	if (app->plan.rings[ring].nodes[at].channel) {
		app_refuse(app, "A channel runs along this edge already.");
		return;
	}
	e.ring_count = app->plan.ring_count;
	e.rings = arena_alloc(&app->frame_mem, e.ring_count, sizeof *e.rings);
	nodes = arena_alloc(&app->frame_mem, app->plan.rings[ring].count, sizeof *nodes);
	if (!e.rings || !nodes || !water_lists(app, &e.water)) {
		app_refuse(app, "No memory is left.");
		return;
	}
	memcpy(e.rings, app->plan.rings, e.ring_count * sizeof *e.rings);
	memcpy(nodes, app->plan.rings[ring].nodes, e.rings[ring].count * sizeof *nodes);
	e.rings[ring].nodes = nodes;
	c = &e.water.channels[e.water.channel_count++];
	channel_init(c); /* where it stays should the edge let go of it */
	c->x1_um = nodes[at].x_um;
	c->y1_um = nodes[at].y_um;
	c->x2_um = nodes[(at + 1) % e.rings[ring].count].x_um;
	c->y2_um = nodes[(at + 1) % e.rings[ring].count].y_um;
	nodes[at].channel = (int64_t)e.water.channel_count;
	snprintf(e.label, sizeof e.label, "channel %zu along edge %zu", e.water.channel_count,
	        at + 1);
	if (!app_edit(app, &e))
		return;
	app->drain = app->plan.water.channel_count - 1;
	form_open(app, &channel_form);
	app_say(app, "Channel %zu takes the water that reaches edge %zu.", app->drain + 1, at + 1);
}

static void new_line(struct app *app)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	struct plan_water w;
	struct plan_channel *c;
	char label[80];

	if (!r || app->view.at >= r->count || !water_lists(app, &w)) {
		app_refuse(app, "Choose a corner with n and p: the channel runs from there to the "
		                "cursor. Its ends can be typed then.");
		return;
	}
	c = &w.channels[w.channel_count++];
	channel_init(c);
	c->x1_um = r->nodes[app->view.at].x_um;
	c->y1_um = r->nodes[app->view.at].y_um;
	c->x2_um = app->view.x_um;
	c->y2_um = app->view.y_um;
	snprintf(label, sizeof label, "channel %zu", w.channel_count);
	if (!edit_water(app, label, &w))
		return;
	app->drain = app->plan.water.channel_count - 1;
	form_open(app, &channel_form);
}

/* --- gullies --- */

static void gully_delete(struct app *app)
{
	struct plan_water w;
	char label[80];

	if (!water_lists(app, &w))
		return;
	memmove(&w.gullies[app->drain], &w.gullies[app->drain + 1],
	        (w.gully_count - app->drain - 1) * sizeof *w.gullies);
	w.gully_count--;
	snprintf(label, sizeof label, "delete gully %zu", app->drain + 1);
	if (edit_water(app, label, &w))
		app_say(app, "The gully is gone. u brings it back.");
}

#define GULLY(member) .offset = offsetof(struct plan_gully, member)
static const struct form_value gully_values[] = {
	{ .name = "Name",
	        .hint = "As it is called on the sheets.",
	        .value = VALUE_TEXT,
	        GULLY(name) },
	{ .name = "Place", .hint = "Metres across ; up.", .value = VALUE_PLACE, GULLY(x_um) },
	{ .name = "Takes at most",
	        .hint = "Litres a second, as its maker says; empty where not known.",
	        .value = VALUE_FLOW,
	        GULLY(capacity_ml_s) },
	{ .name = "Delete it", .hint = "", .value = VALUE_DO, .run = gully_delete },
};

static bool gully_get(struct app *app, void *thing, char title[120])
{
	struct plan_gully *g = thing;

	if (app->drain >= app->plan.water.gully_count) {
		app_refuse(app, "That gully is gone.");
		return false;
	}
	*g = app->plan.water.gullies[app->drain];
	snprintf(title, 120, "Gully %zu", app->drain + 1);
	return true;
}

static bool gully_put(struct app *app, const void *thing, const char *what)
{
	struct plan_water w;
	char label[80], low[48];

	if (!water_lists(app, &w))
		return false;
	w.gullies[app->drain] = *(const struct plan_gully *)thing;
	snprintf(label, sizeof label, "gully %zu: %s", app->drain + 1,
	        lower_first(low, sizeof low, what));
	return edit_water(app, label, &w);
}

static const struct form gully_form = { gully_values, sizeof gully_values / sizeof gully_values[0],
	sizeof(struct plan_gully), gully_get, gully_put };

static void new_gully(struct app *app)
{
	struct plan_water w;
	char label[80];

	if (!water_lists(app, &w))
		return;
	w.gullies[w.gully_count++] =
	        (struct plan_gully){ .name = "", .x_um = app->view.x_um, .y_um = app->view.y_um };
	snprintf(label, sizeof label, "gully %zu", w.gully_count);
	if (!edit_water(app, label, &w))
		return;
	app->drain = app->plan.water.gully_count - 1;
	form_open(app, &gully_form);
	app_say(app, "Gully %zu at the cursor.", app->drain + 1);
}

/* --- the soakaway --- */

static void soakaway_delete(struct app *app)
{
	struct plan_water w = app->plan.water;

	w.soakaway.has = false;
	if (edit_water(app, "take the soakaway away", &w))
		app_say(app, "The soakaway is gone. u brings it back.");
}

#define SOAKAWAY(member) .offset = offsetof(struct plan_soakaway, member)
static const struct form_value soakaway_values[] = {
	{ .name = "Middle", .hint = "Metres across ; up.", .value = VALUE_PLACE, SOAKAWAY(x_um) },
	{ .name = "Length", .hint = "Metres, 0.1 to 50.", .value = VALUE_M, SOAKAWAY(length_um) },
	{ .name = "Width", .hint = "Metres, 0.1 to 50.", .value = VALUE_M, SOAKAWAY(width_um) },
	{ .name = "Depth that stores",
	        .hint = "Metres under its inlet, 0.1 to 10.",
	        .value = VALUE_M,
	        SOAKAWAY(depth_um) },
	{ .name = "Voids",
	        .hint = "Percent of it that holds water: crates 95, stone 30 (common practice).",
	        .value = VALUE_PERCENT,
	        SOAKAWAY(voids_ppm) },
	{ .name = "Soil takes",
	        .hint = "Millimetres an hour, from a soakage test on the spot: 36 is 1e-5 m/s.",
	        .value = VALUE_SOAK,
	        SOAKAWAY(soil_nm_s) },
	{ .name = "Delete it", .hint = "", .value = VALUE_DO, .run = soakaway_delete },
};

static bool soakaway_get(struct app *app, void *thing, char title[120])
{
	if (!app->plan.water.soakaway.has) {
		app_refuse(app, "There is no soakaway.");
		return false;
	}
	memcpy(thing, &app->plan.water.soakaway, sizeof app->plan.water.soakaway);
	snprintf(title, 120, "Soakaway: takes what channels and gullies collect");
	return true;
}

static bool soakaway_put(struct app *app, const void *thing, const char *what)
{
	struct plan_water w = app->plan.water;
	char label[80], low[48];

	w.soakaway = *(const struct plan_soakaway *)thing;
	snprintf(label, sizeof label, "soakaway: %s", lower_first(low, sizeof low, what));
	return edit_water(app, label, &w);
}

static const struct form soakaway_form = { soakaway_values,
	sizeof soakaway_values / sizeof soakaway_values[0], sizeof(struct plan_soakaway),
	soakaway_get, soakaway_put };

static void new_soakaway(struct app *app)
{
	struct plan_water w = app->plan.water;

	soakaway_init(&w.soakaway);
	w.soakaway.x_um = app->view.x_um;
	w.soakaway.y_um = app->view.y_um;
	if (!edit_water(app, "a soakaway", &w))
		return;
	form_open(app, &soakaway_form);
	app_say(app, "The soakaway is at the cursor. Test how fast the soil takes water before you "
	             "rely on it.");
}

/* --- the list --- */

static void drain_chosen(struct app *app, const struct list_row *row)
{
	switch (row->id) {
	case NEW_ALONG_EDGE:
		new_along_edge(app);
		return;
	case NEW_LINE:
		new_line(app);
		return;
	case NEW_GULLY:
		new_gully(app);
		return;
	case NEW_SOAKAWAY:
		new_soakaway(app);
		return;
	case SOAKAWAY_ROW:
		form_open(app, &soakaway_form);
		return;
	default:
		break;
	}
	app->drain = (size_t)(row->id % CHANNELS);
	form_open(app, row->id < GULLY_ROW ? &channel_form : &gully_form);
}

static void list_drains(struct app *app)
{
	const struct plan_water *w = &app->plan.water;
	char words[64], note[80], a[40], b[40];

	for (size_t i = 0; i < w->channel_count && i < CHANNELS; i++) {
		snprintf(note, sizeof note, "channel of %s x %s mm",
		        mm_print(a, sizeof a, w->channels[i].width_um),
		        mm_print(b, sizeof b, w->channels[i].depth_um));
		choice_add(app, named(w->channels[i].name, "Channel", i + 1, words), note,
		        CHANNEL_ROW + (int64_t)i);
	}
	for (size_t i = 0; i < w->gully_count && i < CHANNELS; i++) {
		snprintf(note, sizeof note, "gully at %s ; %s", metres(a, w->gullies[i].x_um),
		        metres(b, w->gullies[i].y_um));
		choice_add(app, named(w->gullies[i].name, "Gully", i + 1, words), note,
		        GULLY_ROW + (int64_t)i);
	}
	if (w->soakaway.has)
		choice_add(app, "Soakaway", "", SOAKAWAY_ROW);
}

void act_drains(struct app *app, int key)
{
	const struct plan_water *w = &app->plan.water;

	(void)key;
	choice_open(app, "What takes the water", drain_chosen);
	list_drains(app);
	if (w->channel_count < CHANNELS) {
		choice_add(app, "new channel along an edge",
		        "the chosen one, takes what reaches it", NEW_ALONG_EDGE);
		choice_add(app, "new channel across the paving",
		        "from the chosen corner to the cursor", NEW_LINE);
	}
	if (w->gully_count < CHANNELS)
		choice_add(app, "new gully at the cursor", "at a low point, or in a valley",
		        NEW_GULLY);
	if (!w->soakaway.has)
		choice_add(
		        app, "new soakaway at the cursor", "takes what they collect", NEW_SOAKAWAY);
}
