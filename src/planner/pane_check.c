/* pane_check.c - what the pane says at Check: what was built, beside the plan. */
#include "pane.h"

#include <math.h>
#include <stdio.h>

static void group(struct pane *p, const char *title, size_t count, size_t fails, double worst_um,
        bool with_sign, const struct rule *rule)
{
	if (!count)
		return;
	pane_head(p, title);
	pane_pair(p, "measured", "%zu", count);
	pane_pair(p, "worst", with_sign ? "%+.1f mm" : "%.1f mm", worst_um / 1000);
	if (!rule)
		pane_text(
		        p, STYLE_QUIET, "The rule set names no tolerance: t at Falls chooses one.");
	else
		pane_pair(p, "tolerance", "%.1f mm", (double)rule->number / 1000);
	if (rule)
		pane_pair_styled(p, fails ? STYLE_WARN : STYLE_GOOD, "out of it", "%zu", fails);
}

static void straight_lines(const struct asbuilt *a, struct pane *p)
{
	char words[80];

	for (size_t i = 0; i < a->gap_count; i++) {
		const struct asbuilt_gap *g = &a->gaps[i];

		if (i == 0)
			pane_head(p, "Under a straightedge");
		snprintf(words, sizeof words, "%.40s, %.0f m", a->points[g->at].name,
		        a->straightedges[g->straightedge].length_um / 1e6);
		pane_pair_styled(p, g->over_um > 0 ? STYLE_WARN : STYLE_PLAIN, words, "%+.1f mm%s",
		        g->gap_um / 1000, g->over_um > 0 ? " !" : "");
	}
	for (size_t i = 0; a->gap_count && i < a->straightedge_count; i++) {
		const struct asbuilt_straightedge *e = &a->straightedges[i];

		if (!e->tried || !e->rule)
			continue;
		snprintf(words, sizeof words, "allowed under %.0f m", e->length_um / 1e6);
		pane_pair(p, words, "%.1f mm", (double)e->rule->number / 1000);
	}
}

/* Four corners taped: sides, then diagonals, found and planned. */
static void four_lines(const struct asbuilt *a, struct pane *p)
{
	char words[40];

	if (!a->has_four)
		return;
	pane_head(p, "As taped, and planned, m");
	for (int i = 0; i < 4; i++) {
		snprintf(words, sizeof words, "side %d", i + 1);
		pane_pair(
		        p, words, "%.3f  %.3f", a->sides_um[i] / 1e6, a->planned_sides_um[i] / 1e6);
	}
	for (int i = 0; i < 2; i++) {
		snprintf(words, sizeof words, "diagonal %d to %d", i + 1, i + 3);
		pane_pair(p, words, "%.3f  %.3f", a->diagonals_um[i] / 1e6,
		        a->planned_diagonals_um[i] / 1e6);
	}
}

static void worst_points(const struct asbuilt *a, struct pane *p)
{
	bool headed = false;

	for (size_t i = 0; i < a->count; i++) {
		const struct asbuilt_point *at = &a->points[i];

		if (at->level_over_um <= 0 && at->place_over_um <= 0)
			continue;
		if (!headed)
			pane_head(p, "Out of tolerance");
		headed = true;
		if (at->level_over_um > 0)
			pane_pair_styled(p, STYLE_WARN, at->name, "%.1f mm %s",
			        fabs(at->level_off_um) / 1000,
			        at->level_off_um > 0 ? "high" : "low");
		if (at->place_over_um > 0)
			pane_pair_styled(p, STYLE_WARN, at->name, "%.1f mm off place",
			        at->place_off_um / 1000);
	}
}

void pane_check(struct app *app, struct pane *p)
{
	const struct asbuilt *a = &app->t.site.built;

	if (!app->t.surface_ready) {
		pane_missing(app, p);
		return;
	}
	if (!app->t.site.has_built) {
		pane_head(p, "What was built");
		pane_text(p, STYLE_PLAIN,
		        "Nothing is measured yet. b types levels and places; each is compared "
		        "with the plan at once.");
		return;
	}
	if (asbuilt_passes(a))
		pane_text(p, STYLE_GOOD, "All that was measured is within tolerance.");
	worst_points(a, p);
	group(p, "Levels", a->with_level, a->level_fails, a->worst_level_um, true, a->level_rule);
	group(p, "Places", a->with_place, a->place_fails, a->worst_place_um, false, a->place_rule);
	straight_lines(a, p);
	four_lines(a, p);
	for (size_t i = 0; i < a->puddle_count; i++) {
		if (i == 0)
			pane_head(p, "Water may stand at");
		pane_pair_styled(p, a->puddles[i].over_um > 0 ? STYLE_WARN : STYLE_PLAIN,
		        a->points[a->puddles[i].at].name, "%.1f mm", a->puddles[i].depth_um / 1000);
	}
}
