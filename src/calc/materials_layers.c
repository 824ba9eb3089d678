/* materials_layers.c - layers under the paving, joints, sealer, and what is dug. */
#include "materials_parts.h"

#define M3_PER(m2, um) ((m2) * (double)(um)*1e-6)

/* "31.392 m2 x 100 mm" */
static const char *area_by_depth(struct making *m, double m2, int64_t um)
{
	char mm[40];

	return arena_print(m->mem, "%.3f m2 x %s mm", m2, mm_print(mm, sizeof mm, um));
}

static double made_up_m2(const struct section *s)
{
	double um2 = 0;

	for (size_t i = 0; i < s->laid.piece_count; i++)
		if (s->laid.pieces[i].kind == PIECE_MADE_UP)
			um2 += s->laid.pieces[i].area_um2;
	return um2 * 1e-12;
}

/* Joints take what the slabs leave of the section, and strips too narrow for a piece. */
static void take_joints(struct making *m, const struct section *s)
{
	int64_t share = m->costs->joint_depth_ppm, thick = s->laying.slab.thickness_um;
	double laid = region_area_um2(&s->region) * 1e-12,
	       slabs = s->laid.pieces_area_m2 - made_up_m2(s), joints = laid - slabs;
	char mm[40];

	if (joints < 1e-9)
		return;
	take_bulk(m, MATERIAL_JOINTING, M3_PER(joints, thick) * (double)share * 1e-6,
	        (struct reason){ arena_print(m->mem, "joints of the %s", s->name),
	                arena_print(m->mem,
	                        "(%.3f m2 - %.3f m2 of slabs) x %s mm x %g of the depth", laid,
	                        slabs, mm_print(mm, sizeof mm, thick), (double)share * 1e-6),
	                "" });
}

static void take_sealer(struct making *m, const struct section *s, const char *what)
{
	double spread = (double)m->costs->materials[MATERIAL_SEALER].loose_kg_m3 * 1e-3;

	take_bulk(m, MATERIAL_SEALER, s->area_m2 * spread,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m2 x %g litres a m2", s->area_m2, spread),
	                PRACTICE });
}

static void take_paved(struct making *m, const struct section *s)
{
	const struct plan_ground *g = &m->t->plan.ground;
	const char *under = arena_print(m->mem, "under the %s", s->name);

	if (g->sub_base_um)
		take_bulk(m, MATERIAL_MEMBRANE, s->area_m2,
		        (struct reason){ under, arena_print(m->mem, "%.3f m2", s->area_m2), "" });
	take_bulk(m, MATERIAL_SUB_BASE, M3_PER(s->area_m2, g->sub_base_um),
	        (struct reason){ under, area_by_depth(m, s->area_m2, g->sub_base_um), "" });
	take_bulk(m, MATERIAL_BEDDING, M3_PER(s->area_m2, g->bedding_um),
	        (struct reason){ under, area_by_depth(m, s->area_m2, g->bedding_um), "" });
	take_joints(m, s);
	take_sealer(m, s, arena_print(m->mem, "on the %s", s->name));
}

/* A zone without slabs is dug as deep as the field. */
static void take_unpaved(struct making *m, const struct section *s)
{
	const struct plan *p = &m->t->plan;
	int64_t deep = p->laying.slab.thickness_um + p->ground.bedding_um + p->ground.sub_base_um;

	take_bulk(m, MATERIAL_GRAVEL, M3_PER(s->area_m2, deep),
	        (struct reason){ s->name, area_by_depth(m, s->area_m2, deep), "" });
	take_note(m, arena_print(m->mem,
	                     "%s has no slabs: it is filled with gravel in this order; where it "
	                     "is planted, order %.2f m3 of soil in its place.",
	                     s->name, M3_PER(s->area_m2, deep)));
}

void take_layers(struct making *m)
{
	for (size_t i = 0; i < m->t->laid.section_count; i++) {
		const struct section *s = &m->t->laid.sections[i];

		if (s->area_m2 <= 0)
			continue;
		if (s->paved)
			take_paved(m, s);
		else
			take_unpaved(m, s);
	}
}

/* --- earth --- */

/* What is dug for footings of planters and for a soakaway comes on top of the paving's own. */
static void take_pits(struct making *m)
{
	const struct plan *p = &m->t->plan;
	int64_t bulking = p->site.earth.bulking_ppm;
	const struct plan_soakaway *s = &p->water.soakaway;
	double pit = (double)s->length_um * (double)s->width_um * (double)s->depth_um * 1e-18;

	for (size_t i = 0; i < m->t->planters.count; i++) {
		const struct planter_result *r = &m->t->planters.items[i];
		char words[120];

		if (r->ready)
			take_bulk(m, MATERIAL_SPOIL, earth_loosened(r->footing_m3, bulking),
			        (struct reason){
			                arena_print(m->mem, "the footing of %s",
			                        planter_words(words, sizeof words, r->planter, i)),
			                arena_print(m->mem, "%.3f m3 in the ground x %g",
			                        r->footing_m3, 1 + (double)bulking * 1e-6),
			                PRACTICE });
	}
	if (s->has)
		take_bulk(m, MATERIAL_SPOIL, earth_loosened(pit, bulking),
		        (struct reason){ "the soakaway",
		                arena_print(m->mem, "%.3f m3 in the ground x %g", pit,
		                        1 + (double)bulking * 1e-6),
		                PRACTICE });
}

static void take_dig(struct making *m, const struct earth_result *e)
{
	int64_t compaction = m->t->plan.site.earth.compaction_ppm;
	double missing = e->missing_loose_m3 * (1 - (double)compaction * 1e-6);

	take_bulk(m, MATERIAL_SPOIL, e->surplus_loose_m3,
	        (struct reason){ "dug, less what serves as fill",
	                arena_print(m->mem, "%.3f m3 in the ground = %.3f m3 loose - %.3f m3",
	                        e->cut_m3, e->cut_loose_m3, e->fill_loose_m3),
	                "" });
	take_bulk(m, MATERIAL_TOPSOIL, e->topsoil_loose_m3,
	        (struct reason){ "stripped",
	                arena_print(m->mem, "%.3f m3 in the ground = %.3f m3 loose", e->topsoil_m3,
	                        e->topsoil_loose_m3),
	                "" });
	take_bulk(m, MATERIAL_FILL, missing,
	        (struct reason){ "up to the formation, less what is dug",
	                arena_print(m->mem, "%.3f m3 - what %.3f m3 loose make", e->fill_m3,
	                        e->cut_loose_m3),
	                "" });
}

void take_earth(struct making *m)
{
	const struct earth_result *e = &m->t->earth;

	if (m->t->ready && e->ready)
		take_dig(m, e);
	else if (m->t->ready)
		take_note(m,
		        "What the paving's dig brings is not in the order: the ground's levels "
		        "are not known.");
	take_pits(m);
}
