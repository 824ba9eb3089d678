/* act_zone.c - beginning and naming zones, and which part of the paving is worked on. */
#include "actions.h"
#include "zones.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* --- drawing --- */

/* A zone with one corner, laid as the field is until another slab is chosen. */
static bool begin_zone(struct app *app, struct plan_node *first)
{
	size_t count = app->plan.zone_count;
	struct arena mem = { 0 };
	struct plan_zone *zones = arena_alloc(&mem, count + 1, sizeof *zones);
	char label[80];
	bool done = false;

	snprintf(label, sizeof label, "start zone %zu", count + 1);
	if (!zones) {
		app_refuse(app, "No memory is left for that.");
	} else {
		if (count)
			memcpy(zones, app->plan.zones, count * sizeof *zones);
		zone_init(&zones[count]);
		zones[count].laying = app->plan.laying;
		zones[count].ring = (struct plan_ring){ .nodes = first, .count = 1 };
		done = edit_zones(app, label, zones, count + 1);
	}
	arena_free(&mem);
	return done;
}

void act_zone(struct app *app, int key)
{
	struct plan_node first = {
		.x_um = app->view.x_um, .y_um = app->view.y_um, .kind = EDGE_OPEN
	};

	(void)key;
	if (app->plan.ring_count == 0 || draft_ring(&app->plan) == 0) {
		app_refuse(app, "Draw the outline first; zones are parts of it.");
		return;
	}
	if (draft_ring(&app->plan) != SIZE_MAX) {
		app_refuse(app, "A ring is being drawn: close it first (c), or delete it (D).");
		return;
	}
	if (!begin_zone(app, &first))
		return;
	choose_corner(app, plan_ring_total(&app->plan) - 1, 0);
	app_say(app,
	        "Corner 1 of zone %zu. r makes a rectangle from here; or type lengths with arrows, "
	        "or move and Enter; c closes it.",
	        app->plan.zone_count);
}

bool delete_zone(struct app *app, size_t zone)
{
	size_t count = app->plan.zone_count;
	struct arena mem = { 0 };
	struct plan_zone *zones = arena_alloc(&mem, count, sizeof *zones);
	char label[80];
	bool done = false;

	snprintf(label, sizeof label, "delete zone %zu", zone + 1);
	if (!zones) {
		app_refuse(app, "No memory is left for that.");
	} else {
		memcpy(zones, app->plan.zones, zone * sizeof *zones);
		memcpy(zones + zone, app->plan.zones + zone + 1,
		        (count - zone - 1) * sizeof *zones);
		done = edit_zones(app, label, zones, count - 1);
	}
	arena_free(&mem);
	return done;
}

/* --- name, slabs and level --- */

static bool name_zone(struct app *app, size_t at, const char *name)
{
	struct plan_zone zone = app->plan.zones[at];
	char label[80];

	if (strcmp(zone.name, name) == 0)
		return true;
	zone.name = name;
	snprintf(label, sizeof label, "name zone %zu", at + 1);
	return edit_zone(app, label, at, &zone);
}

/* One that gets slabs is laid as the field is. */
static bool pave_zone(struct app *app, size_t at, bool paved)
{
	struct plan_zone zone = app->plan.zones[at];
	char label[80];

	if (zone.paved == paved)
		return true;
	zone.paved = paved;
	zone.laying = app->plan.laying;
	snprintf(label, sizeof label, "zone %zu has %sslabs", at + 1, paved ? "" : "no ");
	return edit_zone(app, label, at, &zone);
}

static void slabs_answered(struct app *app, const struct list_row *row)
{
	size_t zone = (size_t)row->id / 2;
	bool paved = row->id % 2;

	if (zone >= app->plan.zone_count || !pave_zone(app, zone, paved))
		return;
	if (paved)
		app->view.part = zone + 1;
	app_say(app,
	        paved ? "Zone %zu is laid as the field, until you choose its slab and bond at "
	                "Laying."
	              : "Zone %zu has no slabs: the count leaves it out.",
	        zone + 1);
}

static void ask_slabs(struct app *app, size_t zone)
{
	char title[120];

	snprintf(title, sizeof title, "What lies in zone %zu?", zone + 1);
	choice_open(app, title, slabs_answered);
	choice_add(app, "slabs", "with a slab, bond and level of its own", (int64_t)zone * 2 + 1);
	choice_add(app, "no slabs", "gravel, planting, lawn, water", (int64_t)zone * 2);
	app->choice.at = app->plan.zones[zone].paved ? 0 : 1;
}

static bool first_name_done(struct app *app, const char *text)
{
	size_t zone = (size_t)app->prompt.number;

	if (zone >= app->plan.zone_count)
		return true;
	if (!name_zone(app, zone, text))
		return false;
	ask_slabs(app, zone);
	return true;
}

static struct prompt *ask_name(
        struct app *app, size_t zone, bool (*done)(struct app *app, const char *text))
{
	struct prompt *p;
	char label[80];

	snprintf(label, sizeof label, "Name of zone %zu", zone + 1);
	p = prompt_open(app, label,
	        "As the crew calls it: path strip, gravel bed. It may stay empty.",
	        app->plan.zones[zone].name, done);
	p->number = (int64_t)zone;
	return p;
}

void zone_closed(struct app *app, size_t zone)
{
	ask_name(app, zone, first_name_done);
}

/* --- rows of the list of values --- */

enum { ROW_NAME = FIRST_ZONE_ROW, ROW_SLABS, ROW_LEVEL };

void zone_rows(struct app *app, size_t zone)
{
	const struct plan_zone *z = &app->plan.zones[zone];
	char note[64], mm[40];

	snprintf(note, sizeof note, "%s mm", mm_print(mm, sizeof mm, z->level_um));
	choice_add(app, "Name", *z->name ? z->name : "none", ROW_NAME);
	choice_add(app, "Slabs", z->paved ? "yes, its own" : "none: gravel, planting", ROW_SLABS);
	choice_add(app, "Level over the surface there", note, ROW_LEVEL);
}

/* The list again, for the next value. */
static void back_to_list(struct app *app, int64_t row)
{
	act_settings(app, 0);
	list_mark(&app->choice, row);
}

static bool name_done(struct app *app, const char *text)
{
	size_t zone = (size_t)app->prompt.number;

	if (zone < app->plan.zone_count && !name_zone(app, zone, text))
		return false;
	back_to_list(app, ROW_NAME);
	return true;
}

static bool level_done(struct app *app, const char *text)
{
	size_t at = (size_t)app->prompt.number;
	struct plan_zone zone;
	char label[80];

	if (at < app->plan.zone_count) {
		zone = app->plan.zones[at];
		snprintf(label, sizeof label, "set the level of zone %zu", at + 1);
		if (!typed_length(app, text, UNIT_MM, &zone.level_um) ||
		        !edit_zone(app, label, at, &zone))
			return false;
	}
	back_to_list(app, ROW_LEVEL);
	return true;
}

static void ask_level(struct app *app, size_t zone)
{
	char label[80], now[40];

	snprintf(label, sizeof label, "Level of zone %zu", zone + 1);
	prompt_open(app, label,
	        "Millimetres over the surface of the paving there; minus lies lower, 0 is even "
	        "with it.",
	        mm_print(now, sizeof now, app->plan.zones[zone].level_um), level_done)
	        ->number = (int64_t)zone;
}

void zone_row_chosen(struct app *app, const struct list_row *row)
{
	size_t zone = zone_here(app);

	if (zone == SIZE_MAX)
		return;
	switch (row->id) {
	case ROW_NAME:
		ask_name(app, zone, name_done);
		break;
	case ROW_LEVEL:
		ask_level(app, zone);
		break;
	default:
		if (pave_zone(app, zone, !app->plan.zones[zone].paved))
			back_to_list(app, ROW_SLABS);
	}
}

/* --- the part worked on --- */

/* Brings the cursor into the zone, where it is not there already. */
static void look_at_zone(struct app *app, size_t zone)
{
	struct point cursor = { (double)app->view.x_um, (double)app->view.y_um }, middle;
	struct arena mem = { 0 };
	struct region region;
	double width;

	if (zone_region(app, &mem, zone, &region) && !region_contains(&region, cursor) &&
	        region_middle(&mem, &region, &middle, &width)) {
		app->view.x_um = llround(middle.x / 1000) * 1000;
		app->view.y_um = llround(middle.y / 1000) * 1000;
		view_follow(app);
	}
	arena_free(&mem);
}

static void say_part(struct app *app)
{
	size_t zone = zone_here(app);

	if (paved_here(app))
		app_say(app, "%s: slab, bond and start chosen here are its own now.",
		        zone_title(app, zone));
	else
		app_say(app, "%s: it has no slabs; i gives it some.", zone_title(app, zone));
}

static bool is_part(const struct app *app, size_t part)
{
	return part == 0 || app->plan.zones[part - 1].ring.closed;
}

void act_next_part(struct app *app, int key)
{
	size_t parts = app->plan.zone_count + 1, part = app->view.part;

	if (parts == 1) {
		app_refuse(app, "There is only the field. Zones are drawn at Outline, with g.");
		return;
	}
	app->mode = MODE_USUAL;
	do
		part = (part + (key == 'n' ? 1 : parts - 1)) % parts;
	while (!is_part(app, part));
	app->view.part = part;
	if (part)
		look_at_zone(app, part - 1);
	say_part(app);
}

/* The zone that holds the cursor; SIZE_MAX for none. */
static size_t zone_under_cursor(const struct app *app)
{
	struct point cursor = { (double)app->view.x_um, (double)app->view.y_um };

	for (size_t z = 0; z < app->plan.zone_count; z++) {
		const struct section *s = zone_section(app, z);

		if (s && region_contains(&s->region, cursor))
			return z;
	}
	return SIZE_MAX;
}

void act_part_here(struct app *app, int key)
{
	if (app->mode == MODE_NUDGE || !app->plan.zone_count) {
		act_let_go(app, key);
		return;
	}
	app->view.part = zone_under_cursor(app) + 1; /* 0 for none */
	say_part(app);
}
