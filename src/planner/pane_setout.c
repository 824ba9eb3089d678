/* pane_setout.c - what the pane says at Set-out: baseline, the chosen corner, diagonals. */
#include "pane.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void baseline_lines(const struct setout *s, struct pane *p)
{
	pane_head(p, "Baseline");
	if (!s->chosen)
		pane_text(p, STYLE_PLAIN, "as you chose it");
	else
		pane_text(p, STYLE_PLAIN, "along edge %zu%s", s->edge + 1,
		        s->house_wall ? ", the house wall" : "");
	pane_pair(p, "length", "%.3f m", s->length_um / 1e6);
}

/* The corner that is chosen in the sketch. */
static const struct setout_point *chosen_point(struct app *app, const struct setout *s)
{
	char name[64];

	if (app->view.ring)
		snprintf(name, sizeof name, "opening %zu corner %zu", app->view.ring,
		        app->view.at + 1);
	else
		snprintf(name, sizeof name, "corner %zu", app->view.at + 1);
	for (size_t i = 0; i < s->point_count; i++)
		if (strcmp(s->points[i].name, name) == 0)
			return &s->points[i];
	return NULL;
}

static void point_lines(struct app *app, const struct setout_point *at, struct pane *p)
{
	const struct plan_ground *g = &app->t.plan.ground;
	char title[80];

	snprintf(title, sizeof title, "%.70s", at->name);
	title[0] = (char)(title[0] >= 'a' && title[0] <= 'z' ? title[0] & ~0x20 : title[0]);
	pane_head(p, title);
	pane_pair(p, "along the baseline", "%.3f m", at->chainage_um / 1e6);
	pane_pair(p, at->offset_um >= 0 ? "square off, left" : "square off, right", "%.3f m",
	        fabs(at->offset_um) / 1e6);
	pane_pair(p, "tape from its start", "%.3f m", at->tie_first_um / 1e6);
	pane_pair(p, "tape from its end", "%.3f m", at->tie_second_um / 1e6);
	if (at->weak_tie)
		pane_text(p, STYLE_QUIET, "The tapes cross too flat there: measure along and off.");
	if (app->plan.surface.count && g->has_instrument)
		pane_pair(p, "staff reads", "%.3f m",
		        ((double)instrument_height_um(g) -
		                surface_level_um(&app->plan.surface, at->x_um, at->y_um)) /
		                1e6);
}

static void proof_lines(const struct setout *s, struct pane *p)
{
	char words[64];

	for (size_t i = 0; i < s->diagonal_count; i++) {
		const struct setout_diagonal *d = &s->diagonals[i];

		if (i == 0)
			pane_head(p, "Diagonals");
		snprintf(words, sizeof words, "%zu to %zu%s", d->from + 1, d->to + 1,
		        d->check ? ", a check" : "");
		pane_pair(p, words, "%.3f m", d->length_um / 1e6);
	}
	for (size_t i = 0; i < s->triple_count; i++) {
		const struct setout_triple *t = &s->triples[i];

		if (i == 0)
			pane_head(p, "Square corners by 3-4-5");
		if (t->ring)
			snprintf(words, sizeof words, "opening %zu, no. %zu", t->ring, t->at + 1);
		else
			snprintf(words, sizeof words, "corner %zu", t->at + 1);
		pane_pair(p, words, "%.1f %.1f %.1f m", (double)t->leg_3_um / 1e6,
		        (double)t->leg_4_um / 1e6, (double)t->long_5_um / 1e6);
	}
}

void pane_setout(struct app *app, struct pane *p)
{
	const struct setout *s = &app->t.site.setout;
	const struct setout_point *at;

	if (!app->t.surface_ready) {
		pane_missing(app, p);
		return;
	}
	if (!app->t.site.has_setout) {
		pane_text(p, STYLE_WARN, "! %s", app->t.site.setout_fault.text);
		return;
	}
	baseline_lines(s, p);
	at = chosen_point(app, s);
	if (at)
		point_lines(app, at, p);
	proof_lines(s, p);
	pane_head(p, "Pegs of your own");
	pane_pair(p, "pegs", "%zu", app->plan.site.peg_count);
}
