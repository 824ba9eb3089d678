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

/* Level of the surface there, and what the staff reads on it. */
static void staff_line(struct app *app, double x, double y, struct pane *p)
{
	const struct plan_ground *g = &app->t.plan.ground; /* with the book's instrument */
	double level = surface_level_um(&app->plan.surface, x, y);

	if (!app->plan.surface.count)
		return;
	pane_pair(p, "level", "%+.3f m", level / 1e6);
	if (g->has_instrument)
		pane_pair(p, "staff reads", "%.3f m",
		        ((double)instrument_height_um(g) - level) / 1e6);
}

static void point_lines(struct app *app, const struct setout_point *at, struct pane *p)
{
	char title[80];

	snprintf(title, sizeof title, "%.70s", at->name);
	title[0] = (char)(title[0] >= 'a' && title[0] <= 'z' ? title[0] & ~0x20 : title[0]);
	pane_head(p, title);
	if (fabs(at->chainage_um) < 500 && fabs(at->offset_um) < 500) {
		pane_text(p, STYLE_PLAIN, "the start of the baseline");
		staff_line(app, at->x_um, at->y_um, p);
		return;
	}
	pane_pair(p, "along the baseline", "%.3f m", at->chainage_um / 1e6);
	pane_pair(p, at->offset_um >= 0 ? "square off, left" : "square off, right", "%.3f m",
	        fabs(at->offset_um) / 1e6);
	pane_pair(p, "tape from its start", "%.3f m", at->tie_first_um / 1e6);
	pane_pair(p, "tape from its end", "%.3f m", at->tie_second_um / 1e6);
	if (at->weak_tie)
		pane_text(p, STYLE_QUIET, "The tapes cross too flat there: measure along and off.");
	staff_line(app, at->x_um, at->y_um, p);
}

/* Any point: the cursor's. */
static void cursor_lines(struct app *app, const struct setout *s, struct pane *p)
{
	double dx = s->second.x - s->first.x, dy = s->second.y - s->first.y,
	       x = (double)app->view.x_um - s->first.x, y = (double)app->view.y_um - s->first.y,
	       length = hypot(dx, dy), off;

	if (length < 1)
		return;
	off = (dx * y - dy * x) / length;
	pane_head(p, "Cursor");
	pane_pair(p, "along the baseline", "%.3f m", (x * dx + y * dy) / length / 1e6);
	pane_pair(
	        p, off >= 0 ? "square off, left" : "square off, right", "%.3f m", fabs(off) / 1e6);
	staff_line(app, (double)app->view.x_um, (double)app->view.y_um, p);
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
			snprintf(words, sizeof words, "opening %zu corner %zu", t->ring, t->at + 1);
		else
			snprintf(words, sizeof words, "corner %zu", t->at + 1);
		pane_pair(p, words, "%.1f %.1f %.1f m", (double)t->leg_3_um / 1e6,
		        (double)t->leg_4_um / 1e6, (double)t->long_5_um / 1e6);
	}
}

static void peg_lines(const struct setout *s, struct pane *p)
{
	bool any = false;

	pane_head(p, "Pegs of your own");
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *at = &s->points[i];

		if (!at->is_peg)
			continue;
		any = true;
		pane_pair(p, at->name, "%.3f, %.3f %s", at->chainage_um / 1e6,
		        fabs(at->offset_um) / 1e6, at->offset_um >= 0 ? "left" : "right");
	}
	if (any)
		pane_text(p, STYLE_QUIET, "Metres along the baseline, and square off it.");
	else
		pane_text(p, STYLE_QUIET, "None. l adds some beside the corners.");
}

void pane_setout(struct app *app, struct pane *p)
{
	const struct setout *s = &app->t.site.setout;
	const struct setout_point *at;
	char words[300];

	if (!app->t.surface_ready) {
		pane_missing(app, p);
		return;
	}
	if (!app->t.site.has_setout) {
		pane_text(p, STYLE_WARN, "! %s",
		        crew_words(words, sizeof words, app->t.site.setout_fault.text));
		return;
	}
	baseline_lines(s, p);
	at = chosen_point(app, s);
	if (at)
		point_lines(app, at, p);
	cursor_lines(app, s, p);
	proof_lines(s, p);
	peg_lines(s, p);
}
