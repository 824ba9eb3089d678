/* pane_zone.c - what the pane says of zones and of the parts of the paving. */
#include "pane.h"
#include "zones.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

static void level_line(const struct plan_zone *zone, struct pane *p)
{
	char mm[40];

	if (zone->level_um)
		pane_text(p, STYLE_PLAIN, "%s mm %s the surface",
		        mm_print(mm, sizeof mm, llabs(zone->level_um)),
		        zone->level_um < 0 ? "under" : "over");
}

void pane_zone(struct app *app, struct pane *p)
{
	size_t zone = zone_here(app);

	if (zone == SIZE_MAX)
		return;
	level_line(&app->plan.zones[zone], p);
	if (!paved_here(app))
		pane_text(p, STYLE_PLAIN, "No slabs: gravel or planting. i gives it slabs.");
}

void pane_zone_ring(struct app *app, struct pane *p, size_t zone)
{
	const struct plan_zone *z = &app->plan.zones[zone];
	const struct section *s = zone_section(app, zone);
	char words[80];

	pane_head(p, zone_title(app, zone));
	if (s)
		pane_pair(p, "area in the paving", "%.2f m2", s->area_m2);
	if (!z->paved)
		pane_text(p, STYLE_PLAIN, "no slabs");
	else if (z->ring.closed)
		pane_pair(p, "bond", "%s", bond_print(words, sizeof words, &z->laying));
	level_line(z, p);
}

/* One part: its name and area, and its slabs under them. */
static void part_lines(
        struct pane *p, const char *name, double area_m2, bool paved, int64_t whole, int64_t cut)
{
	pane_pair(p, name, "%.2f m2", area_m2);
	if (paved)
		pane_pair(p, "  whole, cut", "%" PRId64 ", %" PRId64, whole, cut);
	else
		pane_pair(p, "  no slabs", "%s", "");
}

/* All border courses are one part here. */
static void border_lines(const struct paving *laid, struct pane *p)
{
	double area_m2 = 0;
	int64_t whole = 0, cut = 0;
	size_t runs = 0;

	for (size_t i = 0; i < laid->section_count; i++) {
		const struct section *s = &laid->sections[i];

		if (s->kind != SECTION_BORDER)
			continue;
		runs++;
		area_m2 += s->area_m2;
		whole += s->laid.whole;
		cut += s->laid.cut;
	}
	if (runs)
		part_lines(p, "border courses", area_m2, true, whole, cut);
}

void pane_parts(struct app *app, struct pane *p)
{
	const struct paving *laid = &app->t.laid;
	const struct section *field = laid->sections;

	if (laid->section_count < 2)
		return;
	pane_head(p, "Part by part");
	part_lines(p, "field", field->area_m2, true, field->laid.whole, field->laid.cut);
	border_lines(laid, p);
	for (size_t i = 0; i < laid->section_count; i++) {
		const struct section *s = &laid->sections[i];

		if (s->kind == SECTION_ZONE)
			part_lines(p, s->name, s->area_m2, s->paved, s->laid.whole, s->laid.cut);
	}
}
