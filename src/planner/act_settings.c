/* act_settings.c - the laying's other values, each a row of one table. */
#include "actions.h"
#include "zones.h"

#include <stddef.h>
#include <stdio.h>

/* Beside the plain ones. */
enum { VALUE_SLIVER = PLAIN_VALUES, VALUE_SIZE, VALUE_GRAIN };

struct setting {
	const char *name, *hint;
	int value; /* enum value, or one of the above */
	size_t offset; /* of the int64_t in plan_laying, where it is one */
	bool (*has)(enum bond bond); /* whether the bond asks for it; NULL: each does */
	bool whole; /* one for the whole variant, kept with the field */
};

/* A mix has packs of its own. */
static bool bond_of_single_packs(enum bond bond)
{
	return bond != BOND_COURSED_RANDOM;
}

enum { SETTING_BREAKAGE = 6, SETTING_PACK, SETTING_PRICE }; /* places in the list */
enum { WHOLE_ROW = FIRST_ZONE_ROW - 1 }; /* tells a zone where the others are */

static const struct setting settings[] = {
	{ "Thickness", "Millimetres, 5 mm to 1 m.", VALUE_MM,
	        offsetof(struct plan_laying, slab.thickness_um), NULL, false },
	{ "Length and width mean", "", VALUE_SIZE, 0, bond_of_one_slab, false },
	{ "Grain or top", "", VALUE_GRAIN, 0, NULL, false },
	{ "Saw kerf", "Millimetres the blade takes, 0 to 20.", VALUE_MM,
	        offsetof(struct plan_laying, kerf_um), NULL, true },
	{ "Fill width", "Millimetres, 0 to 200: narrower pieces are made up in the joint.",
	        VALUE_MM, offsetof(struct plan_laying, fill_width_um), NULL, true },
	{ "Sliver width",
	        "Millimetres; narrower cut pieces are slivers. An empty line: a quarter of the "
	        "slab's short side.",
	        VALUE_SLIVER, offsetof(struct plan_laying, sliver_width_um), NULL, true },
	[SETTING_BREAKAGE] = { "Breakage allowance",
	        "Percent of the slabs needed, 0 to 50; one slab at least.", VALUE_PERCENT,
	        offsetof(struct plan_laying, breakage_ppm), NULL, true },
	[SETTING_PACK] = { "Pack",
	        "Slabs in a pack that is not split; 1 where they are sold singly.", VALUE_COUNT,
	        offsetof(struct plan_laying, slab.pack), bond_of_single_packs, false },
	[SETTING_PRICE] = { "Price of one slab", "In your money: 6,40. An empty line: not known.",
	        VALUE_MONEY, offsetof(struct plan_laying, slab.price_minor), bond_of_one_slab,
	        false },
	{ "Density", "Kilograms a cubic metre: 2300; 0 when not known.", VALUE_DENSITY,
	        offsetof(struct plan_laying, slab.density_kg_m3), NULL, false },
	{ "Gap at the house wall", "Millimetres left open there, 0 to 100: an expansion joint.",
	        VALUE_MM, offsetof(struct plan_laying, edge_joint_um[EDGE_HOUSE_WALL]), NULL,
	        true },
	{ "Gap at existing paving", "Millimetres left open there, 0 to 100.", VALUE_MM,
	        offsetof(struct plan_laying, edge_joint_um[EDGE_EXISTING_PAVING]), NULL, true },
	{ "Gap at kerbs", "Millimetres left open there, 0 to 100.", VALUE_MM,
	        offsetof(struct plan_laying, edge_joint_um[EDGE_KERB]), NULL, true },
	{ "Gap at planters", "Millimetres left open there, 0 to 100.", VALUE_MM,
	        offsetof(struct plan_laying, edge_joint_um[EDGE_PLANTER]), NULL, true },
	{ "Gap at steps", "Millimetres left open there, 0 to 100.", VALUE_MM,
	        offsetof(struct plan_laying, edge_joint_um[EDGE_STEPS]), NULL, true },
};

static int64_t *member(struct plan_laying *laying, const struct setting *s)
{
	return (int64_t *)(void *)((char *)laying + s->offset);
}

static const char *value_words(struct plan_laying *laying, const struct setting *s, char buf[64])
{
	struct slab_size size = slab_size(&laying->slab);
	char mm[40];
	int64_t v;

	switch (s->value) {
	case VALUE_SIZE:
		return size_meaning_words(laying->slab.size);
	case VALUE_GRAIN:
		return grain_words(laying->slab.directional);
	default:
		break;
	}
	v = *member(laying, s);
	if (s->value != VALUE_SLIVER)
		return value_print(buf, 64, (enum value)s->value, v);
	if (v < 0 && !bond_of_one_slab(laying->bond))
		snprintf(buf, 64, "by each size");
	else if (v < 0)
		snprintf(buf, 64, "%s mm (by the slab)",
		        mm_print(mm, sizeof mm,
		                sliver_width_um(laying, size.length_um, size.width_um)));
	else
		value_print(buf, 64, VALUE_MM, v);
	return buf;
}

/* The laying that the value belongs to: the field's, where there is one for all parts. */
static struct plan_laying laying_of(const struct app *app, const struct setting *s)
{
	return s->whole ? app->plan.laying : *laying_here(app);
}

/* What is known of a slab as it is sold holds wherever it is laid. */
static bool edit_value(struct app *app, const struct setting *s, const char *label,
        const struct plan_laying *laying)
{
	if (s->whole)
		return edit_field(app, label, laying);
	if (s->value == VALUE_MONEY || s->value == VALUE_COUNT || s->value == VALUE_DENSITY)
		return edit_slab_everywhere(app, label, laying);
	return edit_laying(app, label, laying);
}

static bool setting_done(struct app *app, const char *text)
{
	const struct setting *s = &settings[app->prompt.number];
	struct plan_laying laying = laying_of(app, s);
	int64_t *value = member(&laying, s);
	char label[80];

	if (!*text && s->value == VALUE_SLIVER)
		*value = SLIVER_WIDTH_DEFAULT;
	else if (!value_typed(app, s->value == VALUE_SLIVER ? VALUE_MM : (enum value)s->value, text,
	                 value))
		return false;
	snprintf(label, sizeof label, "set %s", s->name);
	label[4] = (char)(label[4] | 0x20);
	return edit_value(app, s, label, &laying);
}

/* The list again, with the row just changed marked, so that one value after the other can be set.
 */
static void back_to_list(struct app *app, size_t which)
{
	act_settings(app, 0);
	list_mark(&app->choice, (int64_t)which);
}

static bool listed_done(struct app *app, const char *text)
{
	size_t which = (size_t)app->prompt.number;

	if (!setting_done(app, text))
		return false;
	back_to_list(app, which);
	return true;
}

static void ask_setting(
        struct app *app, size_t which, bool (*done)(struct app *app, const char *text))
{
	const struct setting *s = &settings[which];
	struct plan_laying laying = laying_of(app, s);
	const char *offered;
	struct prompt *p;
	char buf[64], label[80];

	if (s->value == VALUE_SIZE) {
		laying.slab.size =
		        laying.slab.size == SIZE_COORDINATING ? SIZE_WORK : SIZE_COORDINATING;
		edit_laying(app, "change what the size means", &laying);
		return;
	}
	if (s->value == VALUE_GRAIN) {
		laying.slab.directional = !laying.slab.directional;
		edit_laying(app, "change the grain", &laying);
		return;
	}
	offered = value_offered(buf, sizeof buf,
	        s->value == VALUE_SLIVER ? VALUE_MM : (enum value)s->value, *member(&laying, s));
	snprintf(label, sizeof label, "%s", s->name);
	if (!s->whole && zone_here(app) != SIZE_MAX)
		snprintf(label, sizeof label, "%s, zone %zu", s->name, zone_here(app) + 1);
	p = prompt_open(app, label, s->hint, offered, done);
	p->number = (int64_t)which;
}

static void setting_chosen(struct app *app, const struct list_row *row)
{
	size_t which = (size_t)row->id;

	if (row->id >= FIRST_ZONE_ROW) {
		zone_row_chosen(app, row);
		return;
	}
	if (row->id == WHOLE_ROW) {
		app_refuse(app, "Kerf, fill and sliver width, breakage and gaps are one for all "
		                "parts: p goes to the field, then i sets them.");
		return;
	}
	ask_setting(app, which, listed_done);
	if (!app->prompt.on && !app->refused) /* it was changed over at once */
		back_to_list(app, which);
}

void act_settings(struct app *app, int key)
{
	struct plan_laying laying = *laying_here(app);
	size_t zone = zone_here(app);
	char buf[64];

	(void)key;
	choice_open(app, "Values of the laying", setting_chosen);
	if (zone != SIZE_MAX) {
		snprintf(app->choice.title, sizeof app->choice.title, "Values of %s",
		        zone_title(app, zone));
		app->choice.title[10] = 'z';
		zone_rows(app, zone);
	}
	for (size_t i = 0; paved_here(app) && i < sizeof settings / sizeof settings[0]; i++) {
		const struct setting *s = &settings[i];

		if ((zone == SIZE_MAX || !s->whole) && (!s->has || s->has(laying.bond)))
			choice_add(app, s->name, value_words(&laying, s, buf), (int64_t)i);
	}
	if (zone != SIZE_MAX)
		choice_add(app, "Kerf, fill, sliver, breakage, gaps",
		        "one for all parts: with the field", WHOLE_ROW);
}

void act_breakage(struct app *app, int key)
{
	(void)key;
	ask_setting(app, SETTING_BREAKAGE, setting_done);
}

void act_price(struct app *app, int key)
{
	(void)key;
	if (!slabs_here(app))
		return;
	if (!of_one_slab(app)) {
		app_refuse(app, "A price is asked for bonds of one slab only; this one has several "
		                "sizes.");
		return;
	}
	ask_setting(app, SETTING_PRICE, setting_done);
}

void act_pack(struct app *app, int key)
{
	(void)key;
	if (!slabs_here(app))
		return;
	if (!bond_of_single_packs(laying_here(app)->bond)) {
		app_refuse(app, "Coursed random bond is ordered in packs of its mix already.");
		return;
	}
	ask_setting(app, SETTING_PACK, setting_done);
}
