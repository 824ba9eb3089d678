/* materials_mix.c - mixes of cement, sand and aggregate, and where they are used. */
#include "materials_parts.h"

static const double WATER_KG_M3 = 1000;
/* Lean concrete: see materials.h. */
static const double LEAN_WATER_KG = 140, LEAN_AIR = 0.02, AGGREGATE_KG_M3 = 2650;
static const double MORTAR_SAND_M3 = 1.05;

double mix_sand_kg(double cement_kg, double water_kg, double air, double aggregate_kg,
        double aggregate_kg_m3, double sand_kg_m3)
{
	double rest = 1 - cement_kg / CEMENT_KG_M3 - water_kg / WATER_KG_M3 - air -
	              aggregate_kg / aggregate_kg_m3;

	return rest > 0 ? rest * sand_kg_m3 : 0;
}

struct mix_parts mix_lean_concrete(double cement_kg_m3)
{
	/* both aggregates weigh alike, so that sand for all of it is both together */
	double both = mix_sand_kg(
	        cement_kg_m3, LEAN_WATER_KG, LEAN_AIR, 0, AGGREGATE_KG_M3, AGGREGATE_KG_M3);

	return (struct mix_parts){ cement_kg_m3, both / 3, both * 2 / 3, LEAN_WATER_KG };
}

struct mix_parts mix_stabilised_sand(
        double cement_kg_m3, int64_t sand_loose_kg_m3, int64_t sand_compaction_ppm)
{
	double loose = earth_loose_for(1, sand_compaction_ppm);

	return (struct mix_parts){ .cement_kg = cement_kg_m3,
		.sand_kg = loose * (double)sand_loose_kg_m3 };
}

struct mix_parts mix_mortar(double sand_parts, int64_t sand_loose_kg_m3)
{
	return (struct mix_parts){ .cement_kg = CEMENT_BULK_KG_M3 * MORTAR_SAND_M3 / sand_parts,
		.sand_kg = MORTAR_SAND_M3 * (double)sand_loose_kg_m3 };
}

/* --- what a plan mixes --- */

/* So much of a mix; `name` as the crew calls it. */
struct mixed {
	const char *name, *what, *source;
	double m3;
	struct mix_parts parts;
};

static void take_mixed(struct making *m, const struct mixed *x)
{
	const struct plan_material *sand = &m->costs->materials[MATERIAL_SAND],
	                           *aggregate = &m->costs->materials[MATERIAL_AGGREGATE];
	double sand_m3 = x->parts.sand_kg / (double)sand->loose_kg_m3,
	       aggregate_m3 = x->parts.aggregate_kg / (double)aggregate->loose_kg_m3;
	const char *what = arena_print(m->mem, "%s of %s", x->name, x->what);

	if (x->m3 <= 0)
		return;
	take_bulk(m, MATERIAL_CEMENT, x->m3 * x->parts.cement_kg,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m3 x %.0f kg of cement a m3", x->m3,
	                        x->parts.cement_kg),
	                x->source });
	take_bulk(m, MATERIAL_SAND, x->m3 * sand_m3,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m3 x %.3f m3 of loose sand a m3", x->m3, sand_m3),
	                x->source });
	take_bulk(m, MATERIAL_AGGREGATE, x->m3 * aggregate_m3,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m3 x %.3f m3 of loose aggregate a m3", x->m3,
	                        aggregate_m3),
	                x->source });
}

static void take_bed(
        struct making *m, enum bed_mix mix, int64_t cement_kg_m3, double m3, const char *what)
{
	const struct plan_material *sand = &m->costs->materials[MATERIAL_SAND];
	struct mixed x = { .name = bed_mix_name(mix), .what = what, .m3 = m3 };

	if (mix == MIX_LEAN_CONCRETE) {
		x.source = "absolute volumes: NAVEDTRA 14070, p. 17-6; water, air and one of sand "
		           "to two of aggregate: common practice";
		x.parts = mix_lean_concrete((double)cement_kg_m3);
	} else {
		x.source = "cement in the voids of the compacted sand: common practice";
		x.parts = mix_stabilised_sand(
		        (double)cement_kg_m3, sand->loose_kg_m3, sand->compaction_ppm);
	}
	take_mixed(m, &x);
}

static void take_mortar(struct making *m, double m3, const char *what)
{
	struct mixed x = { .name = "mortar 1:4",
		.what = what,
		.source = "1 part of cement to 4 of sand: common practice",
		.m3 = m3,
		.parts = mix_mortar(
		        MORTAR_SAND_PARTS, m->costs->materials[MATERIAL_SAND].loose_kg_m3) };

	take_mixed(m, &x);
}

static void take_planter_mixes(struct making *m)
{
	for (size_t i = 0; i < m->t->planters.count; i++) {
		const struct planter_result *r = &m->t->planters.items[i];
		char words[120];

		if (!r->ready)
			continue;
		planter_words(words, sizeof words, r->planter, i);
		take_bed(m, r->planter->footing, r->planter->cement_kg_m3, r->footing_m3,
		        arena_print(m->mem, "the footing of %s", words));
		take_mortar(m, r->mortar_m3, arena_print(m->mem, "the joints of %s", words));
	}
}

void take_mixes(struct making *m)
{
	const struct takeoff *t = m->t;

	for (size_t i = 0; t->surface_ready && i < t->kerbs.count; i++) {
		const struct kerb_line *k = &t->kerbs.lines[i];

		if (!k->fault)
			take_bed(m, k->edging->bed, k->edging->cement_kg_m3, k->mix.m3,
			        arena_print(m->mem, "bed and haunch along %s edges",
			                edge_kind_name(k->kind)));
	}
	take_planter_mixes(m);
	for (size_t i = 0; t->surface_ready && i < t->steps.count; i++)
		if (!t->steps.flights[i].fault)
			take_mortar(m, t->steps.flights[i].bed_m3,
			        arena_print(m->mem, "the beds of flight %zu of steps", i + 1));
}
