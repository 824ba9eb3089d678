/* pane_stages.c - what the pane says at Outline, Laying and Edging. */
#include "pane.h"
#include "sketch.h"
#include "zones.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

void pane_fill(struct app *app, struct pane *p)
{
	static void (*const fill[STAGES])(struct app *, struct pane *) = {
		[AT_OUTLINE] = pane_outline,
		[AT_FALLS] = pane_falls,
		[AT_LAYING] = pane_laying,
		[AT_EDGING] = pane_edging,
		[AT_PLANTERS] = pane_planters,
		[AT_STEPS] = pane_steps,
		[AT_GROUND] = pane_ground,
		[AT_ORDER] = pane_order,
		[AT_SETOUT] = pane_setout,
		[AT_CHECK] = pane_check,
		[AT_VARIANTS] = pane_variants,
	};

	if (app->place == AT_STARTS)
		pane_starts(app, p);
	else
		fill[app->place](app, p);
}

bool pane_missing(struct app *app, struct pane *p)
{
	char words[600];

	if (app->t.ready)
		return false;
	pane_head(p, "No figures yet");
	pane_text(p, STYLE_PLAIN, "%s",
	        app->plan.ring_count
	                ? crew_words(words, sizeof words, app->t.fault.text)
	                : "There is no outline. Draw it at the first stage (Outline).");
	return true;
}

static void cursor_lines(struct app *app, struct pane *p)
{
	char x[32], y[32], cell[32];
	bool off = app->view.x_um % app->view.cell_um || app->view.y_um % app->view.cell_um;

	pane_head(p, "Cursor");
	pane_pair(p, "at", "%s ; %s m", metres(x, app->view.x_um), metres(y, app->view.y_um));
	pane_pair(p, off ? "off grid, cell" : "cell", "%s m", metres(cell, app->view.cell_um));
}

static void how_to_start(struct pane *p)
{
	pane_head(p, "Draw the paving");
	pane_text(p, STYLE_PLAIN,
	        "1. Begin at a corner by the house. Enter drops corner 1 at the cursor.\n"
	        "2. Type the taped length, say 3,62 - then press an arrow key for its direction.\n"
	        "3. Go round; c closes the ring.\n"
	        "Or press r and type 6,2 x 4,15 for a plain rectangle.");
	pane_text(p, STYLE_QUIET, "Up is away from the house. Every step is saved; u undoes it.");
}

/* The chosen edge; nothing while it does not exist yet. */
static void edge_lines(struct app *app, struct pane *p)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	const struct plan_node *n;
	char title[96], words[32];

	if (!r || (!r->closed && app->view.at + 1 >= r->count))
		return;
	n = &r->nodes[app->view.at];
	if (app->view.ring && app->place == AT_EDGING)
		snprintf(title, sizeof title, "Opening %zu, edge %zu", app->view.ring,
		        app->view.at + 1);
	else
		snprintf(title, sizeof title, "Edge %zu, to corner %zu", app->view.at + 1,
		        (app->view.at + 1) % r->count + 1);
	pane_head(p, title);
	pane_pair(p, "length", "%s m", metres(words, llround(edge_length_um(r, app->view.at))));
	if (zone_of_ring(&app->plan, app->view.ring) == SIZE_MAX)
		pane_pair(p, "along it", "%s", edge_kind_name(n->kind));
	if (n->rise_um)
		pane_pair(p, "arc rises", "%s m", metres(words, n->rise_um));
}

static void chosen_lines(struct app *app, struct pane *p)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	size_t zone = zone_of_ring(&app->plan, app->view.ring);
	const struct plan_node *n;
	char title[64], x[32], y[32];

	if (!r || app->view.at >= r->count)
		return;
	n = &r->nodes[app->view.at];
	if (zone != SIZE_MAX)
		snprintf(title, sizeof title, "Zone %zu, corner %zu", zone + 1, app->view.at + 1);
	else if (app->view.ring)
		snprintf(title, sizeof title, "Opening %zu, corner %zu", app->view.ring,
		        app->view.at + 1);
	else
		snprintf(title, sizeof title, "Corner %zu", app->view.at + 1);
	pane_head(p, title);
	pane_pair(p, "at", "%s ; %s m", metres(x, n->x_um), metres(y, n->y_um));
	edge_lines(app, p);
}

static void draft_lines(struct app *app, struct pane *p, size_t ring)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	char words[40], title[64];

	snprintf(title, sizeof title, "Drawing %s", ring_words(&app->plan, ring, words));
	pane_head(p, title);
	pane_pair(p, "corners so far", "%zu", r->count);
	if (r->count) {
		const struct plan_node *last = &r->nodes[r->count - 1];
		double dx = (double)(app->view.x_um - last->x_um),
		       dy = (double)(app->view.y_um - last->y_um);

		pane_pair(p, "cursor is off it by", "%s m",
		        metres(words, llround(hypot(dx, dy) / 1000) * 1000));
	}
	pane_text(p, STYLE_QUIET, "%s",
	        r->count < 2   ? "Type a length, then an arrow key; or r, for a rectangle."
	        : r->count < 3 ? "Type a length, then an arrow key."
	                       : "c closes it; d takes the last corner back.");
}

static bool all_open(const struct plan_ring *r)
{
	for (size_t i = 0; i < r->count; i++)
		if (r->nodes[i].kind != EDGE_OPEN)
			return false;
	return true;
}

void pane_outline(struct app *app, struct pane *p)
{
	size_t draft = draft_ring(&app->plan);

	if (app->plan.ring_count == 0) {
		how_to_start(p);
		cursor_lines(app, p);
		return;
	}
	if (app->t.ready) {
		pane_head(p, "Paving");
		pane_pair(p, "area", "%.2f m2", app->t.area_m2);
		pane_pair(p, "perimeter", "%.3f m", app->t.perimeter_m);
		if (app->t.opening_edges_m > 0)
			pane_pair(p, "openings' edges", "%.3f m", app->t.opening_edges_m);
	}
	if (draft != SIZE_MAX)
		draft_lines(app, p, draft);
	else if (!app->t.ready)
		pane_missing(app, p);
	else if (zone_of_ring(&app->plan, app->view.ring) != SIZE_MAX)
		pane_zone_ring(app, p, zone_of_ring(&app->plan, app->view.ring));
	chosen_lines(app, p);
	cursor_lines(app, p);
	if (app->t.ready && draft == SIZE_MAX && all_open(&app->plan.rings[0])) {
		pane_head(p, "Next");
		pane_text(p, STYLE_PLAIN,
		        "n chooses a side, s says what stands along it. Then Tab: falls and "
		        "laying.");
	}
}

static void legend(struct app *app, struct pane *p)
{
	pane_text(p, STYLE_QUIET, "%s",
	        app->ascii ? ": cut  ! sliver  ~ made up" : "\u2591 cut  ! sliver  \u223c made up");
}

/* What a slab weighs: where one person may not lift it at once, else further down. */
static void slab_lift(
        const struct plan_laying *l, const struct rules *rules, bool heavy, struct pane *p)
{
	struct handling h = handling_of(rules, slab_kg(&l->slab));

	if (heavy == (h.lift > LIFT_ONE))
		pane_lift(p, "a slab", &h);
}

static void slab_lines(const struct plan_laying *l, const struct rules *rules, struct pane *p)
{
	char a[40], b[40];

	if (*l->slab.name)
		pane_text(p, STYLE_PLAIN, "%s", l->slab.name);
	pane_pair(p, "size mm", "%s x %s", mm_print(a, sizeof a, l->slab.length_um),
	        mm_print(b, sizeof b, l->slab.width_um));
	pane_pair(p, l->slab.size == SIZE_COORDINATING ? "joint, inside it" : "joint, beside it",
	        "%s mm", mm_print(a, sizeof a, l->slab.joint_um));
	slab_lift(l, rules, true, p);
}

/* Slab, bond and start of the part worked on. */
static void part_lines(struct app *app, struct pane *p)
{
	const struct plan_laying *l = laying_here(app);
	char a[40], b[40];

	pane_head(p, app->plan.zone_count ? zone_title(app, zone_here(app)) : "Slab");
	pane_zone(app, p);
	if (!paved_here(app))
		return;
	if (!bond_of_one_slab(l->bond)) {
		if (l->bond == BOND_MIXED)
			pane_text(p, STYLE_PLAIN, "%s", l->repeat.name);
		pane_pair(
		        p, "joint, inside sizes", "%s mm", mm_print(a, sizeof a, l->slab.joint_um));
	} else {
		slab_lines(l, &app->t.rules, p);
	}
	pane_pair(p, "bond", "%s", bond_print(a, sizeof a, l));
	if (l->rotation_udeg)
		pane_pair(p, "turned", "%s deg", angle_print(a, sizeof a, l->rotation_udeg));
	pane_pair(p, "start", "%s ; %s m", metres(a, l->start_x_um), metres(b, l->start_y_um));
}

void pane_laying(struct app *app, struct pane *p)
{
	part_lines(app, p);
	if (pane_missing(app, p))
		return;
	pane_head(p, "Counted");
	pane_pair(p, "whole", "%" PRId64, app->t.laid.whole);
	pane_pair(p, "cut", "%" PRId64, app->t.laid.cut);
	pane_pair_styled(p, app->t.laid.sliver ? STYLE_WARN : STYLE_PLAIN, "  of them slivers",
	        "%" PRId64, app->t.laid.sliver);
	if (app->t.laid.sliver)
		pane_text(p, STYLE_QUIET, "s looks for a better start.");
	if (app->t.laid.made_up)
		pane_pair(p, "made up in joint", "%" PRId64, app->t.laid.made_up);
	pane_pair(
	        p, "slabs for the cuts", "%zu%s", app->t.cuts.slabs, app->t.searched ? "" : " ...");
	pane_pair(p, "to order", "%" PRId64, app->t.order.slabs);
	pane_head(p, "Under the cursor");
	pane_text(p, STYLE_PLAIN, "%s", *slab_words(app) ? slab_words(app) : "no paving");
	legend(app, p);
	pane_text(p, STYLE_QUIET, "%s", slabs_note(app));
	if (paved_here(app) && bond_of_one_slab(laying_here(app)->bond))
		slab_lift(laying_here(app), &app->t.rules, false, p);
	pane_parts(app, p);
}

static void unit_lines(const struct edging_line *e, struct pane *p)
{
	char mm[40];

	if (e->unit_name && *e->unit_name)
		pane_text(p, STYLE_PLAIN, "%s", e->unit_name);
	pane_pair(p, "unit", "%s mm", mm_print(mm, sizeof mm, e->unit_um));
	pane_pair(p, "whole + cut pieces", "%" PRId64 " + %" PRId64, e->whole, e->cut);
	pane_pair(p, "units to buy", "%" PRId64, e->units);
	pane_text(p, STYLE_QUIET,
	        e->units == e->bound ? "least possible" : "at most %" PRId64 " over the least",
	        e->units - e->bound);
}

void pane_edging(struct app *app, struct pane *p)
{
	char words[64];

	if (pane_missing(app, p))
		return;
	edge_lines(app, p);
	pane_string(app, p);
	pane_edge_border(app, p);
	for (size_t i = 0; i < app->t.edging.count; i++) {
		const struct edging_line *e = &app->t.edging.lines[i];

		snprintf(words, sizeof words, "%c  %s", kind_letter(e->kind),
		        edge_kind_name(e->kind));
		pane_head(p, words);
		snprintf(words, sizeof words, "%zu edge%s", e->edges, e->edges == 1 ? "" : "s");
		pane_pair(p, words, "%.3f m", e->length_m);
		if (e->unit_um)
			unit_lines(e, p);
		pane_bed(app, e->kind, p);
	}
	pane_borders(app, p);
}
