/* act_ground.c - the layers under the slabs, and the instrument that levels are read with. */
#include "actions.h"

#include <stddef.h>
#include <stdio.h>

static const struct {
	const char *name, *hint;
	size_t offset; /* of the int64_t in plan_ground */
	bool instrument;
} grounds[] = {
	{ "Bedding", "Millimetres under the slabs, compacted, 0 to 2000.",
	        offsetof(struct plan_ground, bedding_um), false },
	{ "Sub-base", "Millimetres under the bedding, compacted, 0 to 2000.",
	        offsetof(struct plan_ground, sub_base_um), false },
	{ "Benchmark level",
	        "Metres over the datum: the point the staff is first held on. 0 or 0,35.",
	        offsetof(struct plan_ground, benchmark_um), true },
	{ "Backsight",
	        "Metres: the staff's reading on the benchmark. 1,245. An empty line: no "
	        "instrument.",
	        offsetof(struct plan_ground, backsight_um), true },
};

static int64_t *member(struct plan_ground *g, size_t which)
{
	return (int64_t *)(void *)((char *)g + grounds[which].offset);
}

static bool ground_done(struct app *app, const char *text)
{
	size_t which = (size_t)app->prompt.number;
	struct edit e = { .type = EDIT_GROUND, .ground = app->plan.ground };
	bool instrument = grounds[which].instrument;

	if (instrument && !*text) {
		e.ground.has_instrument = false;
	} else {
		if (!typed_length(
		            app, text, instrument ? UNIT_M : UNIT_MM, member(&e.ground, which)))
			return false;
		e.ground.has_instrument = e.ground.has_instrument || instrument;
	}
	snprintf(e.label, sizeof e.label, "set %s", grounds[which].name);
	e.label[4] = (char)(e.label[4] | 0x20);
	if (!app_edit(app, &e))
		return false;
	act_ground(app, 0); /* for the next value */
	app->choice.at = which;
	return true;
}

static void ground_chosen(struct app *app, const struct list_row *row)
{
	size_t which = (size_t)row->id;

	prompt_open(app, grounds[which].name, grounds[which].hint, "", ground_done)->number =
	        row->id;
}

void act_ground(struct app *app, int key)
{
	struct plan_ground g = app->plan.ground;

	(void)key;
	choice_open(app, "Ground and instrument", ground_chosen);
	for (size_t i = 0; i < sizeof grounds / sizeof grounds[0]; i++) {
		char words[40], note[64];

		if (grounds[i].instrument && !g.has_instrument)
			snprintf(note, sizeof note, "no instrument set up");
		else if (grounds[i].instrument)
			snprintf(note, sizeof note, "%s m", metres(words, *member(&g, i)));
		else
			snprintf(note, sizeof note, "%s mm",
			        mm_print(words, sizeof words, *member(&g, i)));
		choice_add(app, grounds[i].name, note, (int64_t)i);
	}
}

/* --- the damp-proof course --- */

static bool dpc_done(struct app *app, const char *text)
{
	struct plan_surface s = app->plan.surface;

	s.has_dpc = *text != '\0';
	s.dpc_um = 0;
	if (s.has_dpc && !typed_length(app, text, UNIT_M, &s.dpc_um))
		return false;
	return edit_surface(app, "set the damp-proof course", &s);
}

void act_dpc(struct app *app, int key)
{
	char now[32];

	(void)key;
	prompt_open(app, "Level of the house's damp-proof course",
	        "Metres over the datum: 0. The paving stays under it by what the rule set says. An "
	        "empty line: not known.",
	        app->plan.surface.has_dpc ? metres_exact(now, app->plan.surface.dpc_um) : "",
	        dpc_done);
}
