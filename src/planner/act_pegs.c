/* act_pegs.c - the baseline, and pegs beside corners. */
#include "actions.h"
#include "site_list.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define PEG(member) .offset = offsetof(struct plan_peg, member)
static const struct form_value peg_columns[] = {
	{ .name = "peg",
	        .hint = "Its name, as it is written on it.",
	        .value = VALUE_TEXT,
	        PEG(name) },
	{ .name = "across ; up",
	        .hint = "Metres. The cursor's place is offered.",
	        .value = VALUE_PLACE,
	        PEG(x_um) },
};

static const struct site_list peg_list = {
	"peg",
	offsetof(struct plan_site, pegs),
	offsetof(struct plan_site, peg_count),
	sizeof(struct plan_peg),
	NULL,
	NULL,
};

static void peg_fresh(struct app *app, void *thing)
{
	struct plan_peg p = { .name = arena_print(
		                      &app->frame_mem, "peg %zu", app->plan.site.peg_count + 1),
		.x_um = app->view.x_um,
		.y_um = app->view.y_um };

	p.name = p.name ? p.name : "peg";
	memcpy(thing, &p, sizeof p);
}

static const struct table peg_table = {
	.title = "Pegs of your own, beside corners",
	.item = "peg",
	.empty = "Corners of the plan are set out anyway. Add pegs where you want more.",
	.columns = peg_columns,
	.count = sizeof peg_columns / sizeof peg_columns[0],
	.size = sizeof(struct plan_peg),
	.list = &peg_list,
	.rows = site_rows,
	.get = site_get,
	.fresh = peg_fresh,
	.put = site_put,
	.drop = site_drop,
	.next = table_next_column,
};

void act_pegs(struct app *app, int key)
{
	(void)key;
	table_open(app, &peg_table);
}

/* --- the baseline --- */

static void baseline_chosen(struct app *app, const struct list_row *row)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	struct plan_site site = app->plan.site;

	if (row->id == 0) {
		site.baseline = (struct plan_baseline){ 0 };
	} else if (!r || app->view.at >= r->count) {
		app_refuse(app, "Choose a corner or an edge first: n and p.");
		return;
	} else {
		const struct plan_node *a = &r->nodes[app->view.at],
		                       *b = &r->nodes[(app->view.at + 1) % r->count];

		site.baseline = (struct plan_baseline){ true, a->x_um, a->y_um,
			row->id == 1 ? b->x_um : app->view.x_um,
			row->id == 1 ? b->y_um : app->view.y_um };
	}
	edit_site(app, row->id ? "choose the baseline" : "leave the baseline to the plan", &site);
}

void act_baseline(struct app *app, int key)
{
	(void)key;
	choice_open(app, "The baseline that tapes are laid along", baseline_chosen);
	choice_add(app, "the longest house wall", "or else the longest edge", 0);
	choice_add(app, "along the chosen edge", "from its corner to the next", 1);
	choice_add(app, "from corner to cursor", "from the chosen corner", 2);
	app->choice.at = app->plan.site.baseline.has ? 1 : 0;
}
