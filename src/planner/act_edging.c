/* act_edging.c - what is bought by the piece along a kind of edge. */
#include "actions.h"

#include <stdio.h>

bool chosen_kind(struct app *app, enum edge_kind *kind)
{
	if (app->view.ring >= app->plan.ring_count ||
	        app->view.at >= app->plan.rings[app->view.ring].count) {
		app_refuse(app,
		        "There are no edges yet: draw the outline first (Shift-Tab leads there).");
		return false;
	}
	*kind = app->plan.rings[app->view.ring].nodes[app->view.at].kind;
	return true;
}

static bool set_unit(struct app *app, enum edge_kind kind, const struct plan_edging *unit)
{
	struct edit e = { .type = EDIT_EDGING, .at = kind, .edging = *unit };

	snprintf(e.label, sizeof e.label, "set the unit for %s", edge_kind_name(kind));
	return app_edit(app, &e);
}

static void unit_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct store_edgings units;
	struct error err;
	struct plan_edging none = { .name = "" };
	enum edge_kind kind;

	if (!chosen_kind(app, &kind))
		return;
	if (row->id < 0) {
		set_unit(app, kind, &none);
	} else if (store_edgings(app->store, &mem, &units, &err) != STATUS_OK) {
		app_fail(app, &err);
	} else if ((size_t)row->id < units.count) {
		struct plan_edging unit = units.items[row->id];

		if (!unit.top_um) /* how high it stands is the job's, not the unit's */
			unit.top_um = app->plan.edging[kind].top_um;
		set_unit(app, kind, &unit);
	}
	arena_free(&mem);
}

void act_unit(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_edgings units;
	struct error err;
	enum edge_kind kind;
	char title[120], note[160], l[24], j[24], lift[64];

	(void)key;
	if (!chosen_kind(app, &kind))
		return;
	if (store_edgings(app->store, &mem, &units, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	snprintf(title, sizeof title, "To buy along edges marked %c, %s (t types a length)",
	        kind_letter(kind), edge_kind_name(kind));
	choice_open(app, title, unit_chosen);
	for (size_t i = 0; i < units.count; i++) {
		if (units.kinds[i] != kind)
			continue;
		snprintf(note, sizeof note, "%s mm, joint %s mm%s",
		        mm_print(l, sizeof l, units.items[i].unit_um),
		        mm_print(j, sizeof j, units.items[i].joint_um),
		        lift_note(app, lift, sizeof lift,
		                block_mass_kg(units.items[i].unit_um, units.items[i].depth_um,
		                        units.items[i].height_um, units.items[i].density_kg_m3)));
		choice_add(app, units.items[i].name, note, (int64_t)i);
	}
	choice_add(app, "none", "nothing is bought by the piece", -1);
	arena_free(&mem);
}

static bool unit_typed_done(struct app *app, const char *text)
{
	struct plan_edging unit;
	enum edge_kind kind;

	if (!chosen_kind(app, &kind))
		return false;
	unit = app->plan.edging[kind];
	unit.name = "";
	return typed_length(app, text, UNIT_MM, &unit.unit_um) && set_unit(app, kind, &unit);
}

void act_unit_typed(struct app *app, int key)
{
	enum edge_kind kind;
	char label[80];

	(void)key;
	if (!chosen_kind(app, &kind))
		return;
	snprintf(label, sizeof label, "Length of a unit, %s", edge_kind_name(kind));
	prompt_open(app, label, "Millimetres: 1000; 0 when nothing is bought by the piece.", "",
	        unit_typed_done);
}

/* The unit of the chosen edge's kind, where one is bought. */
static bool unit_here(struct app *app, enum edge_kind *kind, struct plan_edging *unit)
{
	if (!chosen_kind(app, kind))
		return false;
	*unit = app->plan.edging[*kind];
	if (unit->unit_um)
		return true;
	app_refuse(app, "Nothing is bought by the piece along %s edges yet: e chooses a unit.",
	        edge_kind_name(*kind));
	return false;
}

/* Asks for a length of the unit; one of 0 is not set yet. */
static void ask_of_unit(struct app *app, enum edge_kind kind, const char *what, const char *hint,
        int64_t now_um, bool (*done)(struct app *app, const char *text))
{
	char label[80], mm[32];

	snprintf(label, sizeof label, "%s, %s", what, edge_kind_name(kind));
	prompt_open(app, label, hint, now_um ? mm_print(mm, sizeof mm, now_um) : "", done);
}

static bool corners_done(struct app *app, const char *text)
{
	struct plan_edging unit;
	enum edge_kind kind;

	if (!unit_here(app, &kind, &unit) || !typed_length(app, text, UNIT_MM, &unit.depth_um))
		return false;
	unit.mitred = unit.depth_um > 0;
	if (!set_unit(app, kind, &unit))
		return false;
	app_say(app, "%s: corners %s.", unit.name, unit.mitred ? "mitred" : "butted");
	return true;
}

void act_unit_corners(struct app *app, int key)
{
	struct plan_edging unit;
	enum edge_kind kind;

	(void)key;
	if (unit_here(app, &kind, &unit))
		ask_of_unit(app, kind, "Depth across the edge",
		        "Millimetres: corners where two such edges meet are then mitred; 0: "
		        "butted.",
		        unit.depth_um, corners_done);
}

static bool least_done(struct app *app, const char *text)
{
	struct plan_edging unit;
	enum edge_kind kind;

	if (!unit_here(app, &kind, &unit))
		return false;
	unit.least_um = 0;
	if (*text && !typed_length(app, text, UNIT_MM, &unit.least_um))
		return false;
	return set_unit(app, kind, &unit);
}

void act_unit_least(struct app *app, int key)
{
	struct plan_edging unit;
	enum edge_kind kind;

	(void)key;
	if (unit_here(app, &kind, &unit))
		ask_of_unit(app, kind, "Shortest piece",
		        "Millimetres; empty for a third of the unit (common practice).",
		        unit.least_um, least_done);
}
