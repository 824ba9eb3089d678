/* plan_cost.h - the part of a plan that says how things are bought, what they cost, and how long
 * the work takes.
 *
 * Plain values, as in plan.h. Slabs, edging units, blocks, profiles and step units carry their
 * prices where they are chosen; the rest is here. */
#ifndef SLABWRIGHT_PLAN_COST_H
#define SLABWRIGHT_PLAN_COST_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What is bought by mass, volume, area or litre, or carted away. */
enum material {
	MATERIAL_MEMBRANE, /* under the sub-base, m2 with laps */
	MATERIAL_SUB_BASE,
	MATERIAL_BEDDING,
	MATERIAL_JOINTING,
	MATERIAL_CEMENT, /* for stabilised sand, lean concrete and mortar */
	MATERIAL_SAND, /* likewise */
	MATERIAL_AGGREGATE, /* of lean concrete */
	MATERIAL_GRAVEL, /* drainage in planters; zones of gravel */
	MATERIAL_SOIL, /* fill of planters */
	MATERIAL_LINER, /* of planters, m2 */
	MATERIAL_SEALER, /* of the paving, litres */
	MATERIAL_FILL, /* where the ground lies under the formation */
	MATERIAL_SPOIL, /* dug, carted away */
	MATERIAL_TOPSOIL, /* stripped, carted away where it is not used */
	MATERIALS,
};

/* What is bought by the piece: only who supplies it is kept here. */
enum goods {
	GOODS_SLABS,
	GOODS_EDGING,
	GOODS_BLOCKS, /* with ties and profiles */
	GOODS_STEPS,
	GOODS_DRAINS, /* channels, gullies, soakaway */
	GOODS,
};

/* How a material is sold. */
enum sold {
	SOLD_LOOSE, /* by the tonne, to the tenth */
	SOLD_BULK_BAG,
	SOLD_BAG,
	SOLD_ROLL, /* of so many m2 */
	SOLD_CAN, /* of so many litres */
	SOLD_M3, /* loose, to the tenth: what is carted away */
	SOLD_KINDS,
};

struct plan_material {
	bool used; /* false: none of it is wanted in this job */
	const char *name; /* as it is bought: "type 1 crushed stone 0-40" */
	const char *supplier; /* "" none named */
	int64_t wastage_ppm; /* added to what is worked out; of membrane and liner the laps too */
	int64_t compaction_ppm; /* loose volume shrinks by this when compacted */
	int64_t loose_kg_m3; /* of sealer: millilitres a m2; of others by area: unused */
	enum sold sold;
	int64_t holds; /* one bag, roll or can: grams, thousandths of m2, millilitres; 0 loose */
	int64_t price_minor; /* of one bag, roll or can, a tonne or a m3; -1 unknown */
};

/* Work, each with its unit. */
enum task {
	TASK_STRIP, /* m3 of topsoil in the ground */
	TASK_DIG, /* m3 in the ground */
	TASK_CART, /* m3 loose, barrowed and loaded */
	TASK_MEMBRANE, /* m2 */
	TASK_SUB_BASE, /* m3 compacted */
	TASK_EDGING, /* m, bed and haunch included */
	TASK_DRAINS, /* m of channel; a gully counts 2 m, a soakaway 10 */
	TASK_WALL, /* blocks laid */
	TASK_STEP, /* units, or risers built up */
	TASK_BEDDING, /* m2 */
	TASK_LAY, /* m2 of field and zones */
	TASK_BORDER, /* m of border course */
	TASK_CUT, /* cuts of the saw */
	TASK_JOINT, /* m2 */
	TASK_SEAL, /* m2 */
	TASK_FILL, /* m3 of soil and gravel in planters */
	TASK_CLEAR, /* job: clearing up, once */
	TASKS,
};

struct plan_hire {
	const char *name; /* "wacker plate" */
	int64_t days_milli; /* thousandths of a day; 0: as long as the task */
	enum task task; /* whose days, where none are given */
	int64_t price_minor; /* a day; -1 unknown */
};

/* Anything else that is charged. */
struct plan_extra {
	const char *name, *unit;
	int64_t quantity_milli; /* thousandths */
	int64_t price_minor; /* of one; -1 unknown */
};

#define COST_LINES 64 /* at most, of hire and of extras */

struct plan_costs {
	const char *currency; /* "EUR", "GBP": three letters, shown beside sums */
	const char *price_date; /* "2026-11-25": of the prices; "" not known */
	const char *price_note; /* where they come from; "" */
	struct plan_material materials[MATERIALS];
	const char *suppliers[GOODS]; /* "" none named */
	int64_t joint_depth_ppm; /* of the slab's thickness that is filled; 1000000 all */
	/* labour */
	int64_t crew; /* people */
	int64_t day_minutes; /* worked a day, by each */
	int64_t wage_minor; /* an hour of one person; -1 unknown */
	int64_t task_minutes_milli[TASKS]; /* of one person, thousandths of a minute a unit */
	struct plan_hire *hire;
	size_t hire_count;
	struct plan_extra *extras;
	size_t extra_count;
	/* from costs to the price */
	int64_t margin_ppm; /* on all costs */
	int64_t discount_ppm; /* off the sum with margin */
	int64_t tax_ppm;
	bool whole_money; /* the quotation is rounded to whole money, before tax */
	int64_t valid_days;
	/* time and access */
	const char *start_date; /* "2026-12-01"; "" not set */
	int64_t haunch_hold_minutes, wall_hold_minutes, joint_hold_minutes; /* hardening */
	int64_t payload_g; /* of the vehicle; 0 unknown */
	int64_t access_um; /* clear width on the way in; 0 not narrow */
};

/* No prices; materials, wastage, rates and holds of common practice (no source): see cost.c. Names
 * are constants. */
void costs_init(struct plan_costs *costs);

/* A deep copy; false when memory is gone. */
bool costs_copy(struct arena *mem, const struct plan_costs *from, struct plan_costs *to);

/* Refuses (STATUS_PLAN), naming place, value and limits, what nobody can buy, charge or work: a
 * currency that is not three capital letters, dates that are none, a way of selling that does not
 * fit (membrane and liner come in rolls, sealer in cans, the others loose, in bags, bulk bags or by
 * the m3), bags, rolls and cans that hold nothing, a material without a density; wastage over 100
 * %, compaction over 90 %, prices over 10^9, crews over 100, days not of 0.5 to 24 hours, margin
 * over 500 %, discount and tax over 100 %, more than COST_LINES lines, names over 200 bytes or not
 * UTF-8. `place` as in water_check. */
enum status costs_check(const struct plan_costs *costs, const char *place, struct error *err);

/* How a material is measured, and so sold: by area, by volume and mass, or by the litre. */
enum measured_as { AS_MASS, AS_AREA, AS_LITRES };
enum measured_as material_measure(enum material material);

/* Whether the text is a day of the calendar, "2026-11-25" (ISO 8601, Gregorian). */
bool date_valid(const char *text);

/* The words of the exchange format, and back: -1 for a word that is none. */
const char *material_name(enum material material);
int material_parse(const char *word);
const char *goods_name(enum goods goods);
int goods_parse(const char *word);
const char *sold_name(enum sold sold);
int sold_parse(const char *word);
const char *task_name(enum task task);
int task_parse(const char *word);
const char *task_unit(enum task task); /* "m2" */

#endif
