/* pane_steps.c - what the pane says at Steps: the chosen flight against the rule set. */
#include "actions.h"
#include "pane.h"

#include <inttypes.h>
#include <stdio.h>

static void check_lines(const struct flight *f, struct pane *p)
{
	for (size_t i = 0; i < f->check_count; i++) {
		const struct step_check *c = &f->checks[i];

		if (c->obeyed)
			continue;
		pane_text(p, STYLE_WARN, "! %s: %g %s, %s %g (%s)", c->what, c->is / 1000,
		        c->rule->unit, c->least ? "at least" : "at most",
		        (double)c->rule->number / 1000, c->rule->source);
	}
	if (f->obeys && f->check_count)
		pane_text(p, STYLE_GOOD, "It keeps to the rule set.");
}

static void rise_lines(const struct flight *f, struct pane *p)
{
	pane_pair(p, "rise", "%.0f mm", (double)f->rise_um / 1000);
	pane_pair(p, "risers", "%" PRId64 "%s", f->risers, f->chosen ? ", by the rules" : "");
	pane_pair(p, "  each", "%.1f mm", f->riser_um / 1000);
	pane_pair(p, "going", "%.0f mm", (double)f->steps->going_um / 1000);
	pane_pair(p, "2 risers + going", "%.0f mm", f->pace_um / 1000);
	pane_pair(p, "pitch", "%.1f deg", f->pitch_deg);
	pane_pair(p, "runs out", "%.3f m", (double)f->run_um / 1e6);
}

static void order_line(struct pane *p, const char *words, const struct step_order *o)
{
	if (!o->units)
		return;
	pane_pair(p, words, "%" PRId64, o->units);
	if (o->cut)
		pane_pair(p, "  pieces cut", "%" PRId64, o->cut);
}

static void unit_lines(const struct flight *f, struct pane *p)
{
	bool units = f->steps->build == STEPS_UNITS;

	pane_head(p, "To buy");
	if (*f->steps->unit_name)
		pane_text(p, STYLE_PLAIN, "%s", f->steps->unit_name);
	order_line(p, units ? "step units" : "riser pieces", &f->order);
	order_line(p, "tread slabs", &f->slabs);
	if (units && f->row_count && f->rows[0].sunk_um > 0)
		pane_pair(p, "bottom unit sinks", "%.0f mm", (double)f->rows[0].sunk_um / 1000);
	if (units)
		pane_pair(p, "lies under the next", "%.0f mm", (double)f->overlap_um / 1000);
	pane_lift(p, units ? "a unit" : "a slab", &f->handling);
	for (size_t i = 0; i < f->note_count; i++)
		pane_text(p, STYLE_PLAIN, "%s", f->notes[i]);
}

static void level_lines(struct app *app, const struct flight *f, struct pane *p)
{
	const struct plan_ground *g = &app->t.plan.ground;
	char words[48];

	pane_head(p, g->has_instrument ? "Nosings: level, staff" : "Nosings");
	for (size_t i = f->row_count; i-- > 0;) {
		double level = (double)f->rows[i].level_um;

		snprintf(words, sizeof words, "riser %zu", i + 1);
		if (g->has_instrument)
			pane_pair(p, words, "%+.3f  %.3f", level / 1e6,
			        ((double)instrument_height_um(g) - level) / 1e6);
		else
			pane_pair(p, words, "%+.3f m", level / 1e6);
	}
}

void pane_steps(struct app *app, struct pane *p)
{
	size_t at = flight_here(app);
	const struct flight *f;
	char title[120];

	if (!app->plan.steps_count) {
		pane_head(p, "Steps");
		pane_text(p, STYLE_PLAIN,
		        "None yet. b adds a flight, from the chosen edge or from the cursor.");
		return;
	}
	snprintf(title, sizeof title, "Flight %zu%s%.80s", at + 1,
	        *app->plan.steps[at].name ? ": " : "", app->plan.steps[at].name);
	pane_head(p, title);
	if (at >= app->t.steps.count) {
		pane_missing(app, p);
		return;
	}
	f = &app->t.steps.flights[at];
	if (f->fault) {
		pane_text(p, STYLE_WARN, "! %s", f->fault);
		return;
	}
	rise_lines(f, p);
	check_lines(f, p);
	unit_lines(f, p);
	level_lines(app, f, p);
}
