/* pane_kerb.c - how the edging stands, at Edging: section, bed, mass, and the string along the
 * chosen edge. */
#include "pane.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

/* Number over the whole plan of the chosen edge; SIZE_MAX for none. */
static size_t chosen_edge(const struct app *app)
{
	size_t n = 0;

	if (app->view.ring >= app->plan.ring_count)
		return SIZE_MAX;
	for (size_t r = 0; r < app->view.ring; r++)
		n += app->plan.rings[r].count;
	return n + app->view.at;
}

/* Whether the chosen edge holds water back, and from how much paving. */
static void dam_lines(const struct app *app, struct pane *p, size_t edge)
{
	const struct plan_ring *ring = plan_ring_at(&app->plan, app->view.ring);
	enum edge_kind kind =
	        ring && app->view.at < ring->count ? ring->nodes[app->view.at].kind : EDGE_OPEN;
	double area = 0;

	if (!app->plan.surface.count || !edge_holds_water(&app->plan, kind))
		return;
	for (size_t i = 0; i < app->t.surface.catchment_count; i++) {
		const struct catchment *c = &app->t.surface.catchments[i];

		if (c->edge == edge && !c->channel)
			area += c->area_m2;
	}
	if (area > 0)
		pane_text(p, STYLE_WARN, "! It holds back the water of %.2f m2: see Falls.", area);
	else if (kerb_dams(&app->plan, kind))
		pane_text(p, STYLE_QUIET, "It stands over the paving; no water reaches it.");
}

void pane_string(struct app *app, struct pane *p)
{
	size_t edge = chosen_edge(app);

	if (edge == SIZE_MAX)
		return;
	dam_lines(app, p, edge);

	for (size_t i = 0; i < app->t.kerbs.count; i++) {
		const struct kerb_line *l = &app->t.kerbs.lines[i];

		for (size_t k = 0; k < l->run_count; k++) {
			const struct kerb_run *r = &l->runs[k];

			if (r->edge != edge)
				continue;
			pane_head(p, "String along it");
			pane_pair(p, "first corner", "%+.3f m", r->from_um / 1e6);
			pane_pair(p, "last corner", "%+.3f m", r->to_um / 1e6);
			if (r->has_staff)
				pane_pair(p, "staff reads", "%.3f  %.3f", r->from_staff_um / 1e6,
				        r->to_staff_um / 1e6);
			pane_pair(p, "trench to", "%+.3f  %+.3f", r->from_trench_um / 1e6,
			        r->to_trench_um / 1e6);
		}
	}
}

void pane_bed(struct app *app, enum edge_kind kind, struct pane *p)
{
	for (size_t i = 0; i < app->t.kerbs.count; i++) {
		const struct kerb_line *l = &app->t.kerbs.lines[i];

		if (l->kind != kind)
			continue;
		if (l->fault) {
			pane_text(p, STYLE_WARN, "! %s", l->fault);
			return;
		}
		if (l->mix.m3 > 0) {
			pane_pair(p,
			        l->edging->bed == MIX_LEAN_CONCRETE ? "lean concrete"
			                                            : "stabilised sand",
			        "%.2f m3", l->mix.m3);
			pane_pair(p, "  bags of cement", "%" PRId64 " of %d kg", l->mix.bags,
			        CEMENT_BAG_KG);
		}
		pane_lift(p, "a unit", &l->handling);
		for (size_t k = 0; k < l->note_count; k++)
			pane_text(p, STYLE_PLAIN, "%s", l->notes[k]);
	}
}
