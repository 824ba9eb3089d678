/* pane_planters.c - what the pane says at Planters: the chosen one, block by block. */
#include "actions.h"
#include "pane.h"
#include "sketch.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

static void block_lines(const struct planter_result *r, const struct rules *rules, struct pane *p)
{
	const struct planter_blocks *b = &r->blocks;
	struct handling h = handling_of(rules, r->block_kg);

	pane_head(p, "Blocks to buy");
	pane_pair(p, "whole", "%" PRId64, b->buy_whole);
	if (b->buy_half)
		pane_pair(p, "half", "%" PRId64, b->buy_half);
	if (b->buy_corner)
		pane_pair(p, "corner", "%" PRId64, b->buy_corner);
	pane_text(p, STYLE_QUIET, "%s",
	        b->buy_whole == b->buy_at_least ? "whole ones: least possible"
	                                        : "whole ones: may be some over the least");
	pane_pair(p, "pieces cut", "%" PRId64, b->cut);
	if (b->too_short)
		pane_pair_styled(p, STYLE_WARN, "! under a quarter", "%" PRId64, b->too_short);
	if (r->has_lap)
		pane_pair(p, "least lap", "%.0f mm", r->lap_um / 1000);
	pane_pair(p, "ties", "%" PRId64, r->tie_count);
	if (r->wall_kg > 0)
		pane_pair(p, "mass", "%.0f kg", r->wall_kg);
	pane_lift(p, "a block", &h);
}

static void level_lines(const struct planter_result *r, struct pane *p)
{
	pane_head(p, "Levels");
	pane_pair(p, "top of the wall", "%+.3f m", (double)r->top_um / 1e6);
	if (r->has_surface) {
		pane_pair(p, "shows at least", "%.0f mm", r->least_reveal_um / 1000);
		pane_pair(p, "shows at most", "%.0f mm", r->most_reveal_um / 1000);
	}
	for (size_t i = 0; r->has_staff && i < r->corner_count; i++) {
		char words[32];

		snprintf(words, sizeof words, "staff, corner %zu", r->corners[i].point + 1);
		pane_pair(p, words, "%.3f m", r->corners[i].staff_um / 1e6);
	}
}

static void other_lines(const struct planter_result *r, struct pane *p)
{
	pane_head(p, "With it");
	if (r->cap.units) {
		pane_pair(p, "profiles on top", "%" PRId64, r->cap.units);
		pane_pair(p, "  fixings", "%zu", r->cap.fixing_count);
	}
	pane_pair(p, "footing", "%.2f m3", r->footing_m3);
	pane_pair(p, "  cement", "%.0f kg", r->cement_kg);
	if (r->mortar_m3 > 0)
		pane_pair(p, "mortar", "%.3f m3", r->mortar_m3);
	pane_pair(p, "gravel", "%.2f m3", r->fill.gravel_m3);
	pane_pair(p, "soil, loose", "%.2f m3", r->fill.soil_loose_m3);
	if (r->fill.liner_m2 > 0)
		pane_pair(p, "liner", "%.2f m2", r->fill.liner_m2);
	if (r->fill.weep_count)
		pane_pair(p, "drainage holes", "%zu", r->fill.weep_count);
}

static void factor(struct pane *p, const char *words, double fs)
{
	if (isfinite(fs))
		pane_pair(p, words, "%.2f", fs);
	else
		pane_pair(p, words, "no thrust");
}

/* The weakest of the beds that were looked at, and the verdict; the caution always. */
static void soil_lines(const struct wall_result *w, struct pane *p)
{
	pane_head(p, "Held soil");
	if (w->worked_out && w->count) {
		const struct wall_level *foot = &w->levels[0];

		pane_pair(p, "thrust", "%.2f kN/m", foot->thrust.across_n / 1000);
		factor(p, "factor, overturning", w->levels[w->overturning].forces.fs_overturning);
		factor(p, "factor, sliding", w->levels[w->sliding].forces.fs_sliding);
		pane_pair(p, "presses at most", "%.0f kN/m2", foot->forces.pressure_most_pa / 1000);
	}
	pane_text(p, w->verdict == WALL_MEETS ? STYLE_PLAIN : STYLE_WARN, "%s", w->reason);
	pane_text(p, STYLE_QUIET, "%s", WALL_CAUTION);
}

void pane_planters(struct app *app, struct pane *p)
{
	size_t at = planter_here(app);
	const struct planter_result *r;
	char words[120];

	if (!app->plan.planter_count) {
		pane_head(p, "Planters");
		pane_text(p, STYLE_PLAIN,
		        "None yet. b draws one: a box, a run leg by leg, or a wall along the "
		        "chosen edge.");
		return;
	}
	planter_words(words, sizeof words, &app->plan.planters[at], at);
	words[0] = 'P';
	pane_head(p, words);
	if (at >= app->t.planters.count)
		return;
	r = &app->t.planters.items[at];
	if (!r->ready) {
		pane_text(p, STYLE_WARN, "! %s", r->fault.text);
		return;
	}
	pane_pair(p, "length, its middle", "%.3f m", r->middle_m);
	pane_pair(p, "wall", "%.0f mm wide", (double)r->width_um / 1000);
	if (r->inside_x_um > 0)
		pane_pair(p, "inside", "%.3f x %.3f m", r->inside_x_um / 1e6, r->inside_y_um / 1e6);
	pane_pair(p, "courses", "%" PRId64, app->plan.planters[at].courses);
	block_lines(r, &app->t.rules, p);
	if (blocks_shown(app))
		pane_text(p, STYLE_QUIET, "The sketch shows %s courses; o: the others.",
		        app->even_courses && app->plan.planters[at].courses > 1 ? "even" : "odd");
	level_lines(r, p);
	other_lines(r, p);
	soil_lines(&r->wall, p);
}
