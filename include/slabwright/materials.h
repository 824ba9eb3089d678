/* materials.h - all that is bought for a job and carted away, and how it is bought.
 *
 * A line is one material, or one sort of piece. What it takes is a list of parts, each with its own
 * quantity and the formula and figures that gave it; their sum is the net quantity. Wastage (of
 * slabs the breakage allowance) goes on top; then it is turned into what is sold: so many bags,
 * bulk bags, rolls, cans or pieces, the fewest that hold it, or tonnes or m3 to the next tenth. */
#ifndef SLABWRIGHT_MATERIALS_H
#define SLABWRIGHT_MATERIALS_H

#include "slabwright/plan.h"

struct takeoff;

struct material_part {
	const char *what; /* "under the field" */
	const char *formula; /* "31.39 m2 x 100 mm" */
	const char *source; /* of the formula or of its figures; "" plain geometry and counting */
	double quantity; /* in the line's unit */
};

struct material_line {
	bool piece; /* bought by the piece: `goods` tells which; else `material` does */
	enum material material;
	enum goods goods;
	const char *name; /* as it is bought: "crushed stone 0-40", "slab 600 x 300 x 50" */
	const char *supplier; /* "" none named */
	bool away; /* carted away, not delivered */
	/* how much */
	const char *unit; /* of what follows: "m3", "m2", "kg", "litres", "pieces" */
	struct material_part *parts;
	size_t part_count;
	double net; /* sum of the parts; m3 compacted, of sand, aggregate, soil, spoil and topsoil
	               loose */
	double wastage; /* on top */
	double needed; /* both together */
	double loose_m3; /* of needed; 0 of what is not measured by volume */
	double needed_kg; /* 0 unknown */
	/* how it is bought */
	enum sold sold; /* not of pieces */
	int64_t holds; /* one bag, roll or can, as in the plan; of slabs: a pack that is not split
	                */
	int64_t buy; /* bags, rolls, cans, pieces; of what is sold loose or by m3: tenths */
	const char *buy_words; /* "7 bulk bags of 850 kg", "5.6 t loose", "231 pieces" */
	double each_kg; /* of a bag, bulk bag or piece; 0 unknown, or loose */
	double mass_kg; /* of all that is bought; 0 unknown */
	int64_t each_minor; /* price of a bag, roll, can, piece, tonne or m3; -1 unknown */
	int64_t price_minor; /* of the line, rounded once, half away from 0; -1 unknown */
	const char *note; /* "one batch", "keep dry"; "" none */
};

/* What one supplier is asked for. */
struct supplier_order {
	const char *supplier; /* "" of lines that name none */
	size_t *lines; /* numbers in the materials' lines */
	size_t count;
	double mass_kg; /* of those that are known */
	bool mass_known; /* all of them */
	int64_t price_minor; /* -1 where one is not known */
};

/* One way to load the vehicle, driven so many times. */
struct vehicle_load {
	int64_t times;
	double kg; /* never over the payload */
	struct load_item {
		size_t line;
		int64_t pieces; /* bags or pieces; 0 of what is loose */
		double kg;
	} * items;
	size_t count;
};

/* What goes one way: in to the job, or away from it. */
struct haul {
	double mass_kg; /* of what is known */
	bool mass_known; /* all of it */
	struct vehicle_load *loads;
	size_t load_count;
	int64_t trips; /* 0 without a vehicle, or with nothing to carry */
	int64_t least; /* no fewer can do: mass over payload, rounded up */
	size_t *too_heavy; /* lines of which one piece alone is over the payload: not in the loads
	                    */
	size_t too_heavy_count;
};

struct materials {
	struct material_line *lines; /* materials in the order of enum material, then goods */
	size_t count;
	struct supplier_order *orders; /* by supplier, in the order of their first line; without
	                                  what is carted away */
	size_t order_count;
	struct haul in, away;
	double heaviest_kg; /* piece or bag; bulk bags are not lifted by hand */
	size_t heaviest; /* its line; means nothing where the mass is 0 */
	int64_t price_minor; /* of all lines; -1 where one is not known */
	int64_t unpriced; /* lines without a price */
	const char **notes; /* what is not in the order, and what to look at: sentences */
	size_t note_count;
};

/* Works out what a take-off takes, with its plan's costs; of a take-off that is not ready only the
 * planters, with costs that costs_check refuses only a note. The take-off must outlive *out.
 * STATUS_MEMORY. */
enum status materials_work_out(
        struct arena *mem, const struct takeoff *t, struct materials *out, struct error *err);

/* The line of a material; NULL where none is needed. */
const struct material_line *materials_find(const struct materials *m, enum material material);

/* --- mixes --- */

#define CEMENT_BULK_KG_M3 1440.0 /* loose: a US bag of 94 lb holds 1 ft3; common practice */
#define CEMENT_KG_M3 3150.0 /* solid: specific gravity 3.15 (NAVEDTRA 14070, p. 17-6) */
#define MORTAR_SAND_PARTS 4 /* by volume to 1 of cement: outdoor walls (common practice) */

/* What 1 m3 takes, kg. */
struct mix_parts {
	double cement_kg, sand_kg, aggregate_kg, water_kg;
};

/* Concrete by absolute volumes: 1 m3 = cement + water + air + aggregate + sand, each mass over its
 * solid density; sand is what the others leave (NAVEDTRA 14070, p. 17-6). Densities in kg/m3. */
double mix_sand_kg(double cement_kg, double water_kg, double air, double aggregate_kg,
        double aggregate_kg_m3, double sand_kg_m3);

/* Lean concrete with so much cement: 140 kg of water, 2 % of air, solid aggregates of 2650 kg/m3,
 * one of sand to two of aggregate by mass (common practice). */
struct mix_parts mix_lean_concrete(double cement_kg_m3);

/* Stabilised sand, compacted: the cement lies in the voids of the sand, which fills the whole
 * volume and had been loose by the compaction. */
struct mix_parts mix_stabilised_sand(
        double cement_kg_m3, int64_t sand_loose_kg_m3, int64_t sand_compaction_ppm);

/* Mortar of 1 part of cement to so many of loose sand, which comes to 1.05 of the mortar's volume:
 * cement = 1440 * 1.05 / parts. Within 3 % of CPWD's analysis of rates (510, 380, 310, 250 kg for 3
 * to 6 parts; from memory). */
struct mix_parts mix_mortar(double sand_parts, int64_t sand_loose_kg_m3);

/* --- buying --- */

/* The fewest bags, rolls, cans or packs that hold so much; and tenths of a tonne or m3. A millionth
 * part of one over counts as none, so that sums of parts do not buy one more. */
int64_t buy_units(double needed, double holds);
int64_t buy_tenths(double needed);

/* quantity (thousandths) * price, in minor units, as money_times (money.h). -1 where the price is.
 */
int64_t line_price_minor(int64_t quantity_milli, int64_t each_minor);

#endif
