/* act_planter_values.c - the values of a planter: block, wall, footing, soil. */
#include "actions.h"
#include "form.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

static void block_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct store_blocks blocks;
	struct plan_planter p;
	struct error err;

	if (!app->plan.planter_count)
		return;
	p = app->plan.planters[planter_here(app)];
	if (store_blocks(app->store, &mem, &blocks, &err) != STATUS_OK) {
		app_fail(app, &err);
	} else if ((size_t)row->id < blocks.count) {
		p.block = blocks.items[row->id];
		if (planter_put(app, &p, "block"))
			app_say(app, "Block: %s.", p.block.name);
	}
	arena_free(&mem);
}

void act_block(struct app *app, int key)
{
	struct arena mem = { 0 };
	struct store_blocks blocks;
	struct error err;
	char note[160], l[24], w[24], h[24], lift[64];

	(void)key;
	if (!app->plan.planter_count) {
		app_refuse(app, "There is no planter yet: b draws one.");
		return;
	}
	if (store_blocks(app->store, &mem, &blocks, &err) != STATUS_OK) {
		app_fail(app, &err);
		arena_free(&mem);
		return;
	}
	choice_open(app, "Block of the catalogue", block_chosen);
	for (size_t i = 0; i < blocks.count; i++) {
		const struct plan_block *b = &blocks.items[i];

		snprintf(note, sizeof note, "%s x %s x %s mm%s%s%s",
		        mm_print(l, sizeof l, b->length_um), mm_print(w, sizeof w, b->width_um),
		        mm_print(h, sizeof h, b->height_um),
		        lift_note(app, lift, sizeof lift,
		                block_mass_kg(
		                        b->length_um, b->width_um, b->height_um, b->density_kg_m3)),
		        b->has_half ? ", halves" : "", b->has_corner ? ", corners" : "");
		choice_add(app, b->name, note, (int64_t)i);
	}
	arena_free(&mem);
}

static void choose_block(struct app *app)
{
	act_block(app, 0);
}

static void type_points(struct app *app)
{
	act_planter_points(app, 0);
}

static bool has_cap(const void *thing)
{
	return ((const struct plan_planter *)thing)->cap_um > 0;
}

static const char *const runs[] = { "open run", "closed to a box" };
static const char *const no_yes[] = { "no", "yes" };
static const char *const halves[] = { "cut from whole ones", "bought" };
static const char *const corners[] = { "whole blocks", "corner blocks are bought" };
static const char *const mixes[] = { "stabilised sand", "lean concrete" };

#define P(member) .offset = offsetof(struct plan_planter, member)
#define MM_VALUE(words, text, member)                                                              \
	{                                                                                          \
		.name = words, .hint = text, .value = VALUE_MM, P(member)                          \
	}
static const struct form_value values[] = {
	{ .name = "Name", .hint = "As it is called on the sheets.", .value = VALUE_TEXT, P(name) },
	{ .name = "Corners of its outer face",
	        .hint = "as a table",
	        .value = VALUE_DO,
	        .run = type_points },
	{ .name = "The run is", .value = VALUE_SWITCH, P(closed), .words = runs, .word_count = 2 },
	{ .name = "Block of the catalogue",
	        .hint = "choose it",
	        .value = VALUE_DO,
	        .run = choose_block },
	MM_VALUE("Block length", "Millimetres along the wall.", block.length_um),
	MM_VALUE("Block width", "Millimetres across the wall.", block.width_um),
	MM_VALUE("Block height", "Millimetres.", block.height_um),
	MM_VALUE("Joint", "Millimetres between blocks and courses; 0 laid dry.", block.joint_um),
	{ .name = "Halves are",
	        .value = VALUE_SWITCH,
	        P(block.has_half),
	        .words = halves,
	        .word_count = 2 },
	{ .name = "Corners are",
	        .value = VALUE_SWITCH,
	        P(block.has_corner),
	        .words = corners,
	        .word_count = 2 },
	{ .name = "Density of the block",
	        .hint = "Kilograms a cubic metre: 2000; 0 not known.",
	        .value = VALUE_DENSITY,
	        P(block.density_kg_m3) },
	{ .name = "Price of one block",
	        .hint = "In your money; empty: not known.",
	        .value = VALUE_MONEY,
	        P(block.price_minor) },
	{ .name = "Leaves",
	        .hint = "1, or 2: two blocks side by side.",
	        .value = VALUE_COUNT,
	        P(leaves) },
	{ .name = "Courses", .hint = "1 to 20.", .value = VALUE_COUNT, P(courses) },
	{ .name = "Underside of the first course",
	        .hint = "Level in metres over the datum; the wall is level.",
	        .value = VALUE_M,
	        P(base_um) },
	MM_VALUE("Ties at most apart", "Millimetres along a course; 0: none.", tie_um),
	{ .name = "Profile on top", .hint = "Its name.", .value = VALUE_TEXT, P(cap_name) },
	MM_VALUE("Length of a profile", "Millimetres; 0: none is laid.", cap_um),
	{ .name = "Fixings at most apart",
	        .hint = "Millimetres: 1800 is common practice.",
	        .value = VALUE_MM,
	        P(cap_fixing_um),
	        .has = has_cap },
	{ .name = "Price of a profile",
	        .hint = "In your money; empty: not known.",
	        .value = VALUE_MONEY,
	        P(cap_price_minor),
	        .has = has_cap },
	MM_VALUE("Footing width", "Millimetres.", footing_width_um),
	MM_VALUE("Footing depth", "Millimetres.", footing_depth_um),
	{ .name = "Footing of", .value = VALUE_TURN, P(footing), .words = mixes, .word_count = 2 },
	{ .name = "Cement in it",
	        .hint = "Kilograms a cubic metre.",
	        .value = VALUE_DENSITY,
	        P(cement_kg_m3) },
	MM_VALUE("Soil, height", "Millimetres over the underside of the first course.", fill_um),
	MM_VALUE("Gravel at the bottom", "Millimetres of the fill that drain; 0 none.", gravel_um),
	MM_VALUE("Drainage holes at most apart", "Millimetres; 0: none.", weep_um),
	{ .name = "Liner", .value = VALUE_SWITCH, P(liner), .words = no_yes, .word_count = 2 },
	{ .name = "Density of the soil",
	        .hint = "Kilograms a cubic metre: 1800.",
	        .value = VALUE_DENSITY,
	        P(soil_kg_m3) },
	{ .name = "Friction of the soil",
	        .hint = "Degrees: 30 for loose sandy soil.",
	        .value = VALUE_ANGLE,
	        P(friction_udeg) },
	{ .name = "Slope of the soil",
	        .hint = "Degrees, rising from the wall; 0 level.",
	        .value = VALUE_ANGLE,
	        P(back_slope_udeg) },
	{ .name = "Load on the soil",
	        .hint = "kN/m2 evenly spread; 0 none.",
	        .value = VALUE_LOAD,
	        P(surcharge_pa) },
	{ .name = "Friction on the bed",
	        .hint = "A factor: 0.5.",
	        .value = VALUE_FACTOR,
	        P(base_friction_ppm) },
	{ .name = "The ground bears",
	        .hint = "kN/m2: 75 for firm clay; 0 not known.",
	        .value = VALUE_LOAD,
	        P(bearing_pa) },
};

static bool values_get(struct app *app, void *thing, char title[120])
{
	if (!app->plan.planter_count) {
		app_refuse(app, "There is no planter yet: b draws one.");
		return false;
	}
	memcpy(thing, &app->plan.planters[planter_here(app)], sizeof(struct plan_planter));
	planter_words(title, 120, thing, planter_here(app));
	title[0] = 'P';
	return true;
}

static bool values_put(struct app *app, const void *thing, const char *what)
{
	return planter_put(app, thing, what);
}

static const struct form planter_form = { values, sizeof values / sizeof values[0],
	sizeof(struct plan_planter), values_get, values_put };

void act_planter_values(struct app *app, int key)
{
	(void)key;
	form_open(app, &planter_form);
}
