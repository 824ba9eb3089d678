/* act_built.c - what was measured after laying. */
#include "actions.h"
#include "site_list.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define MEASURED(member) .offset = offsetof(struct plan_measured, member)
static const struct form_value measured_columns[] = {
	{ .name = "point", .hint = "corner 1, or any name.", .value = VALUE_TEXT, MEASURED(name) },
	{ .name = "planned at",
	        .hint = "Metres across ; up, where it should be. Past the last corner the cursor's "
	                "place is offered.",
	        .value = VALUE_PLACE,
	        MEASURED(x_um) },
	{ .name = "level m",
	        .hint = "Metres over the datum, as measured. Empty: not levelled.",
	        .value = VALUE_SIGHT,
	        MEASURED(level_um) },
	{ .name = "found at",
	        .hint = "Metres across ; up, where the tape finds it. Empty: not taped.",
	        .value = VALUE_PLACE,
	        .optional = true,
	        MEASURED(at_x_um) },
};

static void measured_open(void *item)
{
	struct plan_measured *m = item;

	if (!m->has_level)
		m->level_um = NO_READING;
	if (!m->has_place)
		m->at_x_um = m->at_y_um = NO_READING;
}

static void measured_settle(void *item)
{
	struct plan_measured *m = item;

	m->has_level = m->level_um != NO_READING;
	m->has_place = m->at_x_um != NO_READING;
	if (!m->has_level)
		m->level_um = 0;
	if (!m->has_place)
		m->at_x_um = m->at_y_um = 0;
}

static const struct site_list measured_list = {
	"measured point",
	offsetof(struct plan_site, measured),
	offsetof(struct plan_site, measured_count),
	sizeof(struct plan_measured),
	measured_open,
	measured_settle,
};

static bool is_measured(const struct plan_site *site, const char *name)
{
	for (size_t i = 0; i < site->measured_count; i++)
		if (strcmp(site->measured[i].name, name) == 0)
			return true;
	return false;
}

/* The next corner of the outline that is not measured yet, with what it should be; when all are,
 * the cursor's place. */
static void measured_fresh(struct app *app, void *thing)
{
	struct plan_measured m = { .name = "", .x_um = app->view.x_um, .y_um = app->view.y_um };
	char name[32];

	for (size_t at = 0; app->plan.ring_count && at < app->plan.rings[0].count; at++) {
		snprintf(name, sizeof name, "corner %zu", at + 1);
		if (is_measured(&app->plan.site, name))
			continue;
		m.name = arena_text(&app->frame_mem, name);
		m.name = m.name ? m.name : "";
		m.x_um = app->plan.rings[0].nodes[at].x_um;
		m.y_um = app->plan.rings[0].nodes[at].y_um;
		break;
	}
	m.level_um = m.at_x_um = m.at_y_um = NO_READING;
	memcpy(thing, &m, sizeof m);
}

/* How far the point is off, and whether that is too much. */
static void measured_note(const struct app *app, size_t row, int note, char *buf, size_t size)
{
	const struct asbuilt *a = &app->t.site.built;

	buf[0] = '\0';
	if (!app->t.site.has_built || row >= a->count)
		return;
	if (note == 0 && a->points[row].measured->has_level)
		snprintf(buf, size, "%+.1f mm%s", a->points[row].level_off_um / 1000,
		        a->points[row].level_over_um > 0 ? " !" : "");
	if (note == 1 && a->points[row].measured->has_place)
		snprintf(buf, size, "%.1f mm%s", a->points[row].place_off_um / 1000,
		        a->points[row].place_over_um > 0 ? " !" : "");
}

static const struct table measured_table = {
	.title = "What was built: levels, and places across ; up, in metres",
	.item = "point",
	.empty = "Measure the corners and points between: type the level the staff gives, or where "
	         "the tape finds them. Each is compared with the plan at once.",
	.columns = measured_columns,
	.count = sizeof measured_columns / sizeof measured_columns[0],
	.size = sizeof(struct plan_measured),
	.list = &measured_list,
	.rows = site_rows,
	.get = site_get,
	.fresh = measured_fresh,
	.put = site_put,
	.drop = site_drop,
	.next = table_next_column,
	.notes = { "off level", "off place" },
	.note = measured_note,
};

void act_measured(struct app *app, int key)
{
	(void)key;
	table_open(app, &measured_table);
}
