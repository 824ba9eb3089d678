/* pane_order.c - what the pane says at Order and Variants. */
#include "pane.h"
#include "zones.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void caution(void *context, const char *text)
{
	pane_text(context, STYLE_WARN, "! %s", text);
}

static void cut_lines(const struct takeoff *t, struct pane *p)
{
	size_t over = t->cuts.slabs - t->cuts.bound;

	if (!t->searched)
		pane_text(p, STYLE_QUIET, "still looking for fewer slabs for the cuts ...");
	if (over == 0)
		pane_text(
		        p, STYLE_GOOD, "Slabs for the cuts: least possible (%s).", t->cuts.reason);
	else
		pane_text(p, STYLE_PLAIN,
		        "Slabs for the cuts: at most %zu over the least possible; no plan needs "
		        "fewer than %zu (%s).",
		        over, t->cuts.bound, t->cuts.reason);
}

static void thumb_lines(const struct takeoff *t, struct pane *p)
{
	const struct order *o = &t->order;
	int64_t more = o->price_minor - o->thumb_price_minor;
	char money[48], words[120];

	pane_head(p, "Beside the rule of thumb");
	pane_pair(p, "area / slab + 5 %", "%" PRId64, o->rule_of_thumb);
	pane_text(p, o->rule_of_thumb < o->needed + o->allowance ? STYLE_WARN : STYLE_PLAIN,
	        "By the rule: %s.", thumb_print(words, sizeof words, o));
	if (o->price_minor >= 0)
		pane_pair(p, more < 0 ? "saved against the rule" : "dearer than by the rule", "%s",
		        money_print(money, sizeof money, more < 0 ? -more : more));
}

/* What is ordered of each slab, where there are several: its name, where that is another than the
 * one before, and its size. */
static void slab_lines(const struct order *o, struct pane *p)
{
	const char *name = "";

	if (o->packs)
		pane_pair(p, "  packs of the mix", "%" PRId64, o->packs);
	for (size_t i = 0; i < o->line_count; i++) {
		const struct order_line *line = &o->lines[i];
		char label[60], l[24], w[24];

		if (strcmp(line->slab->name, name) != 0)
			pane_text(p, STYLE_PLAIN, "%s",
			        *line->slab->name ? line->slab->name : "without a name");
		name = line->slab->name;
		snprintf(label, sizeof label, "  %s x %s", mm_print(l, sizeof l, line->length_um),
		        mm_print(w, sizeof w, line->width_um));
		pane_pair(p, label, "%" PRId64, line->slabs);
		if (line->slab->pack > 1 && !line->packs)
			pane_pair(p, "  in packs of", "%" PRId64, line->slab->pack);
	}
}

/* For which slab the keys ask, where there are several parts. */
static void part_hint(struct app *app, struct pane *p)
{
	const char *part = zone_title(app, zone_here(app));

	if (app->plan.zone_count && paved_here(app))
		pane_text(p, STYLE_QUIET, "c, g and i are for: %s. n goes on.", part);
	else if (app->plan.zone_count)
		pane_text(p, STYLE_QUIET, "%s: no slabs. p goes back.", part);
}

void pane_order(struct app *app, struct pane *p)
{
	const struct takeoff *t = &app->t;
	const struct order *o = &t->order;
	char money[48];

	if (pane_missing(app, p))
		return;
	pane_head(p, "Slabs");
	pane_pair(p, "whole", "%" PRId64, t->laid.whole);
	pane_pair(p, "for the cuts", "%zu%s", t->cuts.slabs, t->searched ? "" : " ...");
	pane_pair(p, "needed", "%" PRId64, o->needed);
	pane_pair(p, "breakage allowance", "%" PRId64, o->allowance);
	if (o->line_count == 1 && o->lines[0].slab->pack > 1 && !o->packs)
		pane_pair(p, "up to whole packs of", "%" PRId64, o->lines[0].slab->pack);
	pane_pair_styled(p, STYLE_STRONG, "TO ORDER", "%" PRId64, o->slabs);
	if (o->line_count > 1)
		slab_lines(o, p);
	if (o->price_minor >= 0)
		pane_pair(p, "price", "%s", money_print(money, sizeof money, o->price_minor));
	else if (o->line_count == 1)
		pane_text(p, STYLE_QUIET, "c sets the price of a slab.");
	else if (app->plan.border_count)
		pane_text(p, STYLE_QUIET,
		        "No price: not every slab has one. i at Edging sets a border's.");
	part_hint(app, p);
	if (o->mass_kg > 0)
		pane_pair(p, "mass: each / all", "%.1f / %.0f kg", o->slab_mass_kg, o->mass_kg);
	cut_lines(t, p);
	thumb_lines(t, p);
	pane_price(app, p);
	pane_time(app, p);
	pane_head(p, "Take care");
	sheet_cautions(t, caution, p);
}

void pane_variants(struct app *app, struct pane *p)
{
	const struct list *l = &app->list;
	const struct variant_row *v;

	if (!app->variants || l->at >= l->count)
		return;
	v = variant_listed(app, l->rows[l->at].id);
	pane_head(p, l->rows[l->at].words);
	if (l->rows[l->at].notes && *l->rows[l->at].notes)
		pane_text(p, STYLE_STRONG, "%s", l->rows[l->at].notes);
	if (!v)
		return;
	if (!v->known) {
		pane_text(p, STYLE_QUIET, "being worked out ...");
		return;
	}
	if (!v->column.ready) {
		pane_text(p, STYLE_PLAIN,
		        "No figures yet. Enter opens it: its pane says what is missing.");
		return;
	}
	for (size_t i = 0; i < COMPARE_FIGURES; i++)
		pane_pair(p, compare_name(i), "%s", v->column.values[i].text);
}
