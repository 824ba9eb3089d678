/* plan_facts.c - what stands beside the plan: every edge in a table, openings, borders and zones in
 * words. */
#include "plan_facts.h"

#include "sheets.h"

#include <math.h>

void plan_list_edges(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "edge", 9, ALIGN_RIGHT },
		{ "corners", 14, ALIGN_MIDDLE },
		{ "kind", 25, ALIGN_LEFT },
		{ "length", 13, ALIGN_RIGHT },
		{ "chord", 12, ALIGN_RIGHT },
		{ "rise", 11, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct plan *p = &d->t->plan;
	struct table t = table_begin(f, columns, 6, SIZE_NOTE);

	for (size_t k = 0; k < p->ring_count; k++)
		for (size_t i = 0; i < p->rings[k].count; i++) {
			const struct plan_ring *r = &p->rings[k];
			const struct plan_node *a = &r->nodes[i],
			                       *b = &r->nodes[(i + 1) % r->count];
			size_t edge = plan_edge_number(p, k, i) + 1;
			bool arc = a->rise_um != 0;

			TABLE_ROW(&t, page_print(d, "%zu", edge),
			        page_print(d, "%zu - %zu", edge,
			                plan_edge_number(p, k, (i + 1) % r->count) + 1),
			        edge_kind_name(a->kind), metre_words(d, edge_length_um(r, i)),
			        arc ? metre_words(d, hypot((double)(b->x_um - a->x_um),
			                                     (double)(b->y_um - a->y_um)))
			            : "",
			        arc ? metre_words(d, (double)a->rise_um) : "");
		}
	table_end(&t);
}

static void list_openings(struct flow *f)
{
	struct drawing *d = f->d;
	const struct plan *p = &d->t->plan;

	for (size_t k = 1; k < p->ring_count; k++) {
		const struct plan_node *n = &p->rings[k].nodes[0], *o = &p->rings[0].nodes[0];

		flow_paragraph(f,
		        page_print(d,
		                "Opening %zu: its corner %zu lies %s to the %s and %s %s of "
		                "corner 1.",
		                k, plan_edge_number(p, k, 0) + 1,
		                metre_words(d, fabs((double)(n->x_um - o->x_um))),
		                n->x_um < o->x_um ? "left" : "right",
		                metre_words(d, fabs((double)(n->y_um - o->y_um))),
		                n->y_um < o->y_um ? "down" : "up"),
		        SIZE_NOTE);
	}
}

/* Along which edges of the table a border runs: "2, 3, 4". */
static const char *border_edges(struct drawing *d, size_t border)
{
	const struct paving *p = &d->t->laid;
	const char *words = "";

	for (size_t i = 0; i < p->section_count; i++) {
		const struct section *s = &p->sections[i];

		if (s->kind == SECTION_BORDER && s->number == border && s->course == 0)
			words = page_print(d, "%s%s%zu", words, *words ? ", " : "", s->edge + 1);
	}
	return words;
}

static void list_borders(struct flow *f)
{
	struct drawing *d = f->d;
	char border[120];

	for (size_t i = 0; i < d->t->plan.border_count; i++) {
		const char *edges = border_edges(d, i);

		if (*edges)
			flow_paragraph(f,
			        page_print(d, "Border along edges %s: %s.", edges,
			                border_print(
			                        border, sizeof border, &d->t->plan.borders[i])),
			        SIZE_NOTE);
	}
}

static void list_zones(struct flow *f)
{
	struct drawing *d = f->d;
	const struct paving *p = &d->t->laid;

	for (size_t i = 0; i < p->section_count; i++) {
		const struct section *s = &p->sections[i];
		const char *level = "";

		if (s->kind != SECTION_ZONE)
			continue;
		if (s->level_um)
			level = page_print(d, ", %s mm %s what is around it",
			        mm_words(d, fabs((double)s->level_um)),
			        s->level_um < 0 ? "under" : "over");
		flow_paragraph(f,
		        page_print(d, "%s: %.3f m2%s%s.", page_clean(d, s->name), s->area_m2,
		                s->paved ? "" : ", without slabs", level),
		        SIZE_NOTE);
	}
}

void plan_list_facts(struct flow *f)
{
	struct drawing *d = f->d;
	const struct takeoff *t = d->t;
	struct box b = region_box(&t->region);

	flow_paragraph(f,
	        page_print(d, "Area %.3f m2, perimeter %.3f m; over all %s x %s m.", t->area_m2,
	                t->perimeter_m, metre_words(d, b.x1 - b.x0), metre_words(d, b.y1 - b.y0)),
	        SIZE_NOTE);
	list_openings(f);
	list_borders(f);
	list_zones(f);
	if (!t->surface.has_plane)
		flow_paragraph(f, "No fall is set, so there are no levels.", SIZE_NOTE);
	if (t->surface.warning_count)
		flow_paragraph(f,
		        page_print(d, "%zu warning%s about falls and water: see the sheet Levels.",
		                t->surface.warning_count, t->surface.warning_count == 1 ? "" : "s"),
		        SIZE_NOTE);
}
