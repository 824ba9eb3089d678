/* pane_ground.c - what the pane says at Ground: the levelling book, and what is dug. */
#include "pane.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

static void book_lines(struct app *app, struct pane *p)
{
	const struct plan_book *book = &app->plan.site.book;
	const struct book_result *b = &app->t.site.book;
	char words[300];

	pane_head(p, "Levelling book");
	if (!book->count) {
		pane_text(p, STYLE_PLAIN,
		        "Empty. b types the staff's readings; levels and misclosure follow.");
		return;
	}
	pane_pair(p, "lines", "%zu", book->count);
	if (!app->t.site.has_book) {
		pane_text(p, STYLE_WARN, "! %s",
		        crew_words(words, sizeof words, app->t.site.book_fault.text));
		return;
	}
	pane_pair(p, "set-ups", "%zu", b->set_up_count);
	pane_pair(p, "instrument at", "%.3f m",
	        (double)b->set_ups[b->set_up_count - 1].height_um / 1e6);
	if (!b->has_close)
		return;
	pane_pair_styled(p, b->within ? STYLE_PLAIN : STYLE_WARN, "misclosure", "%+.1f mm",
	        (double)b->misclosure_um / 1000);
	pane_pair(p, "  allowed", "%.1f mm", b->allowed_um / 1000);
	if (!b->within)
		pane_text(p, STYLE_WARN, "! Too much: level the run again.");
}

/* What is dug, filled and carted; in the ground unless it says loose. */
static void dig_lines(const struct earth_result *e, struct pane *p)
{
	char words[300];

	pane_head(p, "Dig and fill");
	if (!e->ready) {
		pane_text(p, STYLE_PLAIN, "%s", crew_words(words, sizeof words, e->fault.text));
		return;
	}
	if (e->topsoil_m3 > 0)
		pane_pair(p, "topsoil", "%.2f m3", e->topsoil_m3);
	pane_pair(p, "dig", "%.2f m3", e->cut_m3);
	pane_pair(p, "  loose, to cart", "%.2f m3", e->surplus_loose_m3);
	pane_pair(p, "fill", "%.2f m3", e->fill_m3);
	if (e->missing_loose_m3 > 0)
		pane_pair(p, "  loose, to bring", "%.2f m3", e->missing_loose_m3);
	if (e->deepest_um > 0)
		pane_pair(p, "deepest", "%.3f m", e->deepest_um / 1e6);
	if (e->extrapolated_m2 > 0.005)
		pane_text(p, STYLE_WARN,
		        "! %.2f m2 lie beyond the levels, up to %.2f m: take some there.",
		        e->extrapolated_m2, e->farthest_um / 1e6);
}

static void layer_lines(const struct earth_result *e, struct pane *p)
{
	pane_head(p, "Layers, compacted");
	pane_pair(p, "bedding", "%.2f m3", e->bedding.volume_m3);
	pane_pair(p, "sub-base", "%.2f m3", e->sub_base.volume_m3);
}

/* To what level the dig goes at the cursor, what the staff reads there then, and how deep that is.
 */
static void dig_there(struct app *app, double x, double y, struct pane *p)
{
	const struct plan_ground *g = &app->t.plan.ground; /* with the book's instrument */
	double formation = formation_level_um(&app->plan, x, y), beyond = 0, depth;

	pane_pair(p, "dig there to", "%+.3f m", formation / 1e6);
	if (g->has_instrument)
		pane_pair(p, "  staff reads", "%.3f m",
		        ((double)instrument_height_um(g) - formation) / 1e6);
	if (!app->t.earth.ground.level_count)
		return;
	depth = ground_level_um(&app->t.earth.ground, x, y, &beyond) - formation;
	pane_pair(p, depth >= 0 ? "  so deep" : "  to fill there", "%.3f m", fabs(depth) / 1e6);
}

/* Typed ones, and lines of the book that have a place. */
static size_t level_total(const struct app *app)
{
	const struct plan_site *site = &app->plan.site;
	size_t n = site->spot_count;

	for (size_t i = 0; app->t.site.has_book && i < site->book.count; i++)
		n += site->book.readings[i].has_place;
	return n;
}

void pane_ground(struct app *app, struct pane *p)
{
	const struct earth_result *e = &app->t.earth;
	double x = (double)app->view.x_um, y = (double)app->view.y_um, beyond = 0;
	size_t levels = level_total(app);

	book_lines(app, p);
	pane_head(p, "Ground");
	if (!levels)
		pane_text(p, STYLE_PLAIN,
		        "No level yet. v types the one at the cursor, l lists "
		        "all; lines of the book with a place count too.");
	else
		pane_pair(p, "levels", "%zu", levels);
	if (e->ground.level_count)
		pane_pair(p, "at the cursor", "%+.3f m",
		        ground_level_um(&e->ground, x, y, &beyond) / 1e6);
	if (app->plan.surface.count)
		dig_there(app, x, y, p);
	if (pane_missing(app, p))
		return;
	dig_lines(e, p);
	layer_lines(e, p);
	pane_text(p, STYLE_QUIET, "Have buried services located before digging.");
}
