/* pane_falls.c - what the pane says at Falls: planes, levels, and where the water goes. */
#include "actions.h"
#include "pane.h"
#include "sketch.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* --- the surface --- */

static void one_plane(struct app *app, struct pane *p)
{
	const struct plan_plane *plane = &app->plan.surface.planes[plane_here(app)];
	const char *runs = plane->fall_um_per_m ? "water runs" : "water would run";
	char words[64];

	fall_print(words, sizeof words, plane->fall_um_per_m);
	pane_text(
	        p, STYLE_STRONG, "%s%s", (int)strlen(words) + 5 <= p->width ? "fall " : "", words);
	if (plane->toward_udeg % (45 * UDEG_PER_DEG) == 0) {
		pane_pair(p, runs, "%s (%" PRId64 " deg)", compass_name(plane->toward_udeg),
		        plane->toward_udeg / UDEG_PER_DEG);
		return;
	}
	pane_pair(p, runs, "%s", compass_name(plane->toward_udeg));
	pane_pair(p, "  exactly", "%.2f deg", (double)plane->toward_udeg / (double)UDEG_PER_DEG);
}

static void planes(struct app *app, struct pane *p)
{
	const struct plan_surface *surface = &app->plan.surface;
	char title[64];

	if (surface->count == 1) {
		pane_head(p, "Surface");
		one_plane(app, p);
		return;
	}
	snprintf(title, sizeof title, "Plane %zu of %zu", plane_here(app) + 1, surface->count);
	pane_head(p, title);
	one_plane(app, p);
	pane_pair(p, "planes meet in", "%s",
	        surface->envelope == ENVELOPE_MAX ? "valleys" : "ridges");
}

/* The level under the cursor, what to dig to, and what to look for on the staff there. */
static void cursor_levels(struct app *app, struct pane *p)
{
	const struct plan_ground *g = &app->t.plan.ground; /* with the book's instrument */
	double x = (double)app->view.x_um, y = (double)app->view.y_um;
	double level = surface_level_um(&app->plan.surface, x, y);
	struct surface_fall fall = surface_fall_at(&app->plan.surface, x, y);

	pane_pair(p, "level at cursor", "%+.3f m", level / 1e6);
	if (app->plan.surface.count > 1)
		pane_pair(p, fall.in_valley ? "valley" : "falls", "%.1f mm/m %s",
		        fall.um_per_m / 1000,
		        compass_name(llround(fall.toward_deg * (double)UDEG_PER_DEG)));
	pane_pair(p, "  dig there to", "%+.3f m", formation_level_um(&app->plan, x, y) / 1e6);
	if (g->has_instrument)
		pane_pair(p, "  staff reads", "%.3f m",
		        ((double)instrument_height_um(g) - level) / 1e6);
}

static void surface_lines(struct app *app, struct pane *p)
{
	if (!app->plan.surface.count) {
		pane_head(p, "Surface");
		pane_text(p, STYLE_PLAIN,
		        "No fall is set. s sets it, w turns it, v sets a level at the cursor.");
		return;
	}
	planes(app, p);
	cursor_levels(app, p);
}

/* The whole surface: its ends and its valleys. */
static void extent_lines(struct app *app, struct pane *p)
{
	const struct surface_result *s = &app->t.surface;
	char words[80];

	if (!app->plan.surface.count)
		return;
	pane_head(p, "Levels");
	snprintf(words, sizeof words, "highest %.60s", s->highest_name);
	pane_pair(p, words, "%+.3f m", s->highest_um / 1e6);
	snprintf(words, sizeof words, "lowest %.60s", s->lowest_name);
	pane_pair(p, words, "%+.3f m", s->lowest_um / 1e6);
	if (app->plan.surface.has_dpc)
		pane_pair(
		        p, "damp-proof course", "%+.3f m", (double)app->plan.surface.dpc_um / 1e6);
	for (size_t i = 0; i < s->shape.line_count; i++) {
		const struct surface_line *l = &s->shape.lines[i];

		if (l->kind == LINE_VALLEY)
			pane_pair(p, "valley falls", "%.1f mm/m", l->fall_um_per_m / 1000);
	}
}

static void fixed_lines(struct app *app, struct pane *p)
{
	const struct plan_surface *surface = &app->plan.surface;
	double d = app->t.surface.fixed_difference_um;

	if (!surface->has_fixed)
		return;
	pane_head(p, surface->fixed_name);
	pane_pair(p, "its level", "%+.3f m", (double)surface->fixed_level_um / 1e6);
	if (!surface->count)
		return;
	if (fabs(d) < 500) {
		pane_text(p, STYLE_GOOD, "the paving meets it");
		return;
	}
	pane_pair_styled(p, STYLE_WARN, d < 0 ? "paving under it by" : "paving over it by",
	        "%.0f mm", fabs(d) / 1000);
	pane_text(p, STYLE_QUIET, "m raises or tilts the plane.");
}

static void warning_lines(struct app *app, struct pane *p)
{
	const struct surface_result *s = &app->t.surface;
	char words[600];

	for (size_t i = 0; i < s->warning_count; i++) {
		if (i == 0)
			pane_head(p, "Warnings");
		pane_text(p, STYLE_WARN, "! %s", s->warnings[i].text);
	}
	for (size_t i = 0; i < app->t.drainage.warning_count; i++) {
		if (i == 0 && !s->warning_count)
			pane_head(p, "Warnings");
		pane_text(p, STYLE_WARN, "! %s",
		        crew_words(words, sizeof words, app->t.drainage.warnings[i].text));
	}
}

/* --- water --- */

static void end_name(struct app *app, const struct water_end *e, char buf[64])
{
	size_t ring = 0, at = 0;

	switch (e->kind) {
	case END_CHANNEL:
		snprintf(buf, 64, "channel %zu", e->number + 1);
		return;
	case END_GULLY:
		snprintf(buf, 64, "gully %zu", e->number + 1);
		return;
	case END_POND:
		snprintf(buf, 64, "stands: %.50s", app->t.surface.ponds[e->number].place);
		return;
	default:
		plan_edge_words(buf, 64, &app->plan, e->number);
	}
	if (plan_edge_find(&app->plan, e->number, &ring, &at) && !ring)
		snprintf(buf, 64, "%zu %s", at + 1,
		        edge_kind_name(app->plan.rings[0].nodes[at].kind));
}

static void end_lines(struct app *app, struct pane *p)
{
	const struct surface_result *s = &app->t.surface;
	char name[64], words[80];

	for (size_t i = 0; i < s->end_count; i++) {
		if (i == 0)
			pane_head(p, "Water ends up at");
		if (s->ends[i].area_m2 < 0.005)
			continue;
		end_name(app, &s->ends[i], name);
		if (app->view.areas)
			snprintf(words, sizeof words, "%c: %s", end_letter(i), name);
		else
			snprintf(words, sizeof words, "%s", name);
		pane_pair_styled(p, s->ends[i].kind == END_POND ? STYLE_WARN : STYLE_PLAIN, words,
		        "%.2f m2", s->ends[i].area_m2);
	}
	if (app->view.areas && app->plan.surface.count)
		pane_text(p, STYLE_QUIET, "* runs along an edge, to several of them.");
}

static void store_lines(const struct storage_result *s, const char *title, struct pane *p)
{
	if (!s->has)
		return;
	pane_head(p, title);
	pane_pair(p, "takes the rain of", "%.2f m2", s->area_m2);
	pane_pair_styled(p, s->needed_m3 > s->given_m3 ? STYLE_WARN : STYLE_PLAIN, "needs to store",
	        "%.2f m3", s->needed_m3);
	pane_pair(p, "stores", "%.2f m3", s->given_m3);
	if (isfinite(s->half_empty_h) && s->needed_m3 > 0)
		pane_pair(p, "half empty after", "%.1f h", s->half_empty_h);
}

/* What channels, gullies and edges carry at the rain that is chosen. */
static void drain_lines(struct app *app, struct pane *p)
{
	const struct drainage *d = &app->t.drainage;
	char words[64];

	for (size_t i = 0; i < d->channel_count; i++) {
		const struct channel_result *c = &d->channels[i];

		pane_head(p, c->name);
		pane_pair(p, "takes the rain of", "%.2f m2", c->area_m2);
		pane_pair(p, "flow", "%.2f l/s", c->flow_l_s);
		pane_pair_styled(p, c->flow_l_s > c->capacity_l_s ? STYLE_WARN : STYLE_PLAIN,
		        "takes at most", "%.2f l/s", c->capacity_l_s);
		if (c->least_outlets > 1)
			pane_pair(p, "outlets at least", "%d", c->least_outlets);
	}
	for (size_t i = 0; i < d->gully_count; i++) {
		const struct gully_result *g = &d->gullies[i];

		pane_head(p, g->name);
		pane_pair(p, "takes the rain of", "%.2f m2", g->area_m2);
		pane_pair(p, "flow", "%.2f l/s", g->flow_l_s);
	}
	for (size_t i = 0; i < d->kerb_count; i++) {
		if (!d->kerbs[i].runs)
			continue;
		plan_edge_words(words, sizeof words, &app->plan, d->kerbs[i].edge);
		pane_head(p, words);
		pane_pair(p, "flow along it", "%.2f l/s", d->kerbs[i].flow_l_s);
		pane_pair(p, "spreads out to", "%.2f m", d->kerbs[i].spread_m);
	}
	store_lines(&d->soakaway, "Soakaway", p);
	store_lines(&d->sub_base, "Permeable surface", p);
}

static void rain_lines(struct app *app, struct pane *p)
{
	const struct plan_rain *rain = &app->plan.water.rain;

	if (app->t.drainage.has_rain)
		drain_lines(app, p);
	pane_head(p, "Rain");
	if (rain->count) {
		pane_text(p, STYLE_PLAIN, "%s", rain->name);
		pane_pair(p, "flows are for", "%.0f mm/h", app->t.drainage.mm_per_h);
	} else
		pane_text(p, STYLE_QUIET, "None is chosen, so no flow is worked out: r.");
}

void pane_falls(struct app *app, struct pane *p)
{
	if (pane_missing(app, p))
		return;
	surface_lines(app, p);
	fixed_lines(app, p);
	warning_lines(app, p);
	end_lines(app, p);
	extent_lines(app, p);
	rain_lines(app, p);
	pane_head(p, "Rule set");
	pane_text(p, STYLE_PLAIN, "%s", app->plan.rule_set);
	if (strcmp(app->plan.rule_set, "none") == 0)
		pane_text(p, STYLE_QUIET, "t chooses one: it sets the limits of the fall.");
}
