/* act_kerb.c - how the edging of the chosen edge's kind stands: all values of its unit and bed. */
#include "actions.h"
#include "form.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

static bool is_tapered(const void *thing)
{
	return ((const struct plan_edging *)thing)->profile == PROFILE_TAPERED;
}

static bool has_haunch(const void *thing)
{
	return ((const struct plan_edging *)thing)->haunch_um > 0;
}

static const char *const corners[] = { "butted", "mitred: wants the depth" };
static const char *const profiles[] = { "straight", "tapered", "tongue and groove" };
static const char *const mixes[] = { "stabilised sand", "lean concrete" };
static const char *const sides[] = { "outer side only", "both sides" };

#define E(member) .offset = offsetof(struct plan_edging, member)
#define MM_VALUE(words, text, member)                                                              \
	{                                                                                          \
		.name = words, .hint = text, .value = VALUE_MM, E(member)                          \
	}
static const struct form_value values[] = {
	{ .name = "Name", .hint = "As it is called in the order.", .value = VALUE_TEXT, E(name) },
	MM_VALUE("Unit length", "Millimetres; 0: nothing is bought by the piece.", unit_um),
	MM_VALUE("Joint", "Millimetres between units.", joint_um),
	MM_VALUE("Depth across the edge", "Millimetres; 0 not known.", depth_um),
	MM_VALUE("Height", "Millimetres; 0 not known: no bed is worked out then.", height_um),
	{ .name = "Profile", .value = VALUE_TURN, E(profile), .words = profiles, .word_count = 3 },
	{ .name = "Depth at its foot",
	        .hint = "Millimetres.",
	        .value = VALUE_MM,
	        E(foot_um),
	        .has = is_tapered },
	{ .name = "Corners", .value = VALUE_SWITCH, E(mitred), .words = corners, .word_count = 2 },
	MM_VALUE("Corner piece", "Millimetres of its leg, for outer corners; 0: none is bought.",
	        corner_um),
	MM_VALUE("Shortest piece", "Millimetres; 0: a third of the unit (common practice).",
	        least_um),
	{ .name = "Top over the paving",
	        .hint = "Millimetres; -25 stands 25 mm under it, so that grass grows over.",
	        .value = VALUE_MM,
	        E(top_um) },
	{ .name = "Bed and haunch of",
	        .value = VALUE_TURN,
	        E(bed),
	        .words = mixes,
	        .word_count = 2 },
	{ .name = "Cement in it",
	        .hint = "Kilograms a cubic metre, compacted.",
	        .value = VALUE_DENSITY,
	        E(cement_kg_m3) },
	MM_VALUE("Base strip, thickness", "Millimetres under the unit; 0 none.", strip_um),
	MM_VALUE("Base strip beyond the unit", "Millimetres on each side with a haunch.",
	        strip_beyond_um),
	MM_VALUE("Haunch, width at its foot", "Millimetres; 0: none.", haunch_um),
	{ .name = "Haunch reaches up",
	        .hint = "Millimetres from the unit's underside: a third of its height at least.",
	        .value = VALUE_MM,
	        E(held_um),
	        .has = has_haunch },
	{ .name = "Haunch on",
	        .value = VALUE_SWITCH,
	        E(haunch_both),
	        .words = sides,
	        .word_count = 2,
	        .has = has_haunch },
	{ .name = "Density",
	        .hint = "Kilograms a cubic metre: 2300; 0 not known.",
	        .value = VALUE_DENSITY,
	        E(density_kg_m3) },
	{ .name = "Price of one unit",
	        .hint = "In your money; empty: not known.",
	        .value = VALUE_MONEY,
	        E(price_minor) },
};

static bool kerb_get(struct app *app, void *thing, char title[120])
{
	enum edge_kind kind;

	if (!chosen_kind(app, &kind))
		return false;
	memcpy(thing, &app->plan.edging[kind], sizeof app->plan.edging[kind]);
	snprintf(title, 120, "Along %s edges (%c), all of them", edge_kind_name(kind),
	        kind_letter(kind));
	return true;
}

static bool kerb_put(struct app *app, const void *thing, const char *what)
{
	struct edit e = { .type = EDIT_EDGING };
	enum edge_kind kind;

	if (!chosen_kind(app, &kind))
		return false;
	e.at = kind;
	memcpy(&e.edging, thing, sizeof e.edging);
	snprintf(e.label, sizeof e.label, "%s: %s", edge_kind_name(kind), what);
	return app_edit(app, &e);
}

static const struct form kerb_form = { values, sizeof values / sizeof values[0],
	sizeof(struct plan_edging), kerb_get, kerb_put };

void act_kerb(struct app *app, int key)
{
	(void)key;
	form_open(app, &kerb_form);
}
