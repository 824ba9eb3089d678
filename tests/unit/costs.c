/* costs.c - costs of all sorts, and whether two are the same. */
#include "unit/beside.h"

#include <check.h>
#include <string.h>

static const char *any_name(struct chance *d)
{
	static const char *const names[] = { "", "Sand \"0/4\"", "Dep\xC3\xB4t\n", "x" };

	return names[chance_int(d, 0, 3)];
}

static int64_t any_price(struct chance *d)
{
	return chance_int(d, 0, 3) ? chance_int(d, 0, 99999999) : -1;
}

static const char *any_day(struct chance *d)
{
	static const char *const days[] = { "", "2026-11-25", "2024-02-29", "2000-02-29" };

	return days[chance_int(d, 0, 3)];
}

static void random_material(struct chance *d, enum material which, struct plan_material *m)
{
	static const enum sold by_mass[] = { SOLD_LOOSE, SOLD_BULK_BAG, SOLD_BAG, SOLD_M3 };
	enum measured_as as = material_measure(which);

	*m = (struct plan_material){ .used = chance_int(d, 0, 1),
		.name = any_name(d),
		.supplier = any_name(d),
		.wastage_ppm = chance_int(d, 0, 1000000),
		.compaction_ppm = chance_int(d, 0, 900000),
		.loose_kg_m3 = chance_int(d, 50, 20000),
		.sold = as == AS_AREA   ? SOLD_ROLL
		        : as == AS_MASS ? by_mass[chance_int(d, 0, 3)]
		                        : SOLD_CAN,
		.holds = chance_int(d, 100, 100000000),
		.price_minor = any_price(d) };
}

struct plan_costs random_costs(struct chance *d, struct arena *mem)
{
	struct plan_costs c;

	costs_init(&c);
	c.currency = chance_int(d, 0, 1) ? "GBP" : "USD";
	c.price_date = any_day(d);
	c.price_note = any_name(d);
	for (int i = 0; i < MATERIALS; i++)
		if (chance_int(d, 0, 1))
			random_material(d, (enum material)i, &c.materials[i]);
	for (int i = 0; i < GOODS; i++)
		c.suppliers[i] = any_name(d);
	for (int i = 0; i < TASKS; i++)
		if (chance_int(d, 0, 1))
			c.task_minutes_milli[i] = chance_int(d, 0, 1000000000);
	c.joint_depth_ppm = chance_int(d, 0, 1000000);
	c.crew = chance_int(d, 1, 100);
	c.day_minutes = chance_int(d, 30, 1440);
	c.wage_minor = any_price(d);
	c.hire_count = (size_t)chance_int(d, 0, 3);
	c.hire = arena_alloc(mem, c.hire_count, sizeof *c.hire);
	c.extra_count = (size_t)chance_int(d, 0, 3);
	c.extras = arena_alloc(mem, c.extra_count, sizeof *c.extras);
	ck_assert(c.hire && c.extras);
	for (size_t i = 0; i < c.hire_count; i++)
		c.hire[i] = (struct plan_hire){ any_name(d), chance_int(d, 0, 1000000),
			(enum task)chance_int(d, 0, TASKS - 1), any_price(d) };
	for (size_t i = 0; i < c.extra_count; i++)
		c.extras[i] = (struct plan_extra){ any_name(d), any_name(d),
			chance_int(d, 0, 1000000000), any_price(d) };
	c.margin_ppm = chance_int(d, 0, 5000000);
	c.discount_ppm = chance_int(d, 0, 1000000);
	c.tax_ppm = chance_int(d, 0, 1000000);
	c.whole_money = chance_int(d, 0, 1);
	c.valid_days = chance_int(d, 1, 3660);
	c.start_date = any_day(d);
	c.haunch_hold_minutes = chance_int(d, 0, 366 * 1440);
	c.wall_hold_minutes = chance_int(d, 0, 366 * 1440);
	c.joint_hold_minutes = chance_int(d, 0, 366 * 1440);
	c.payload_g = chance_int(d, 0, 100000000);
	c.access_um = chance_int(d, 0, 100000000);
	return c;
}

struct plan_costs all_costs(void)
{
	static struct plan_hire hire[] = { { "wacker plate", 1500, TASK_SUB_BASE, 4500 },
		{ "mini digger", 0, TASK_DIG, -1 } };
	static struct plan_extra extras[] = { { "skip", "pieces", 2000, 21000 } };
	struct plan_costs c;

	costs_init(&c);
	c.currency = "GBP";
	c.price_date = "2026-11-25";
	c.price_note = "invented";
	c.materials[MATERIAL_SUB_BASE] = (struct plan_material){ true, "type 1", "Quarry", 100000,
		250000, 1750, SOLD_LOOSE, 0, 2350 };
	c.materials[MATERIAL_SEALER] =
	        (struct plan_material){ true, "seal", "", 0, 0, 125, SOLD_CAN, 2500, 1999 };
	c.materials[MATERIAL_LINER].used = false;
	c.suppliers[GOODS_SLABS] = "Yard";
	c.joint_depth_ppm = 600000;
	c.crew = 3;
	c.day_minutes = 450;
	c.wage_minor = 2750;
	c.task_minutes_milli[TASK_LAY] = 35500;
	c.hire = hire;
	c.hire_count = 2;
	c.extras = extras;
	c.extra_count = 1;
	c.margin_ppm = 150000;
	c.discount_ppm = 20000;
	c.tax_ppm = 210000;
	c.whole_money = false;
	c.valid_days = 14;
	c.start_date = "2026-12-01";
	c.haunch_hold_minutes = 2880;
	c.payload_g = 1200500;
	c.access_um = 900000;
	return c;
}

static bool text_differs(const char *a, const char *b)
{
	return strcmp(a, b) != 0;
}

static bool materials_differ(const struct plan_material *a, const struct plan_material *b)
{
	for (int i = 0; i < MATERIALS; i++, a++, b++)
		if (a->used != b->used || text_differs(a->name, b->name) ||
		        text_differs(a->supplier, b->supplier) ||
		        a->wastage_ppm != b->wastage_ppm ||
		        a->compaction_ppm != b->compaction_ppm ||
		        a->loose_kg_m3 != b->loose_kg_m3 || a->sold != b->sold ||
		        a->holds != b->holds || a->price_minor != b->price_minor)
			return true;
	return false;
}

static bool lines_differ(const struct plan_costs *a, const struct plan_costs *b)
{
	if (a->hire_count != b->hire_count || a->extra_count != b->extra_count)
		return true;
	for (size_t i = 0; i < a->hire_count; i++)
		if (text_differs(a->hire[i].name, b->hire[i].name) ||
		        a->hire[i].days_milli != b->hire[i].days_milli ||
		        a->hire[i].task != b->hire[i].task ||
		        a->hire[i].price_minor != b->hire[i].price_minor)
			return true;
	for (size_t i = 0; i < a->extra_count; i++)
		if (text_differs(a->extras[i].name, b->extras[i].name) ||
		        text_differs(a->extras[i].unit, b->extras[i].unit) ||
		        a->extras[i].quantity_milli != b->extras[i].quantity_milli ||
		        a->extras[i].price_minor != b->extras[i].price_minor)
			return true;
	return false;
}

static bool tables_differ(const struct plan_costs *a, const struct plan_costs *b)
{
	for (int i = 0; i < GOODS; i++)
		if (text_differs(a->suppliers[i], b->suppliers[i]))
			return true;
	return memcmp(a->task_minutes_milli, b->task_minutes_milli, sizeof a->task_minutes_milli) !=
	       0;
}

static bool values_differ(const struct plan_costs *a, const struct plan_costs *b)
{
	return text_differs(a->currency, b->currency) ||
	       text_differs(a->price_date, b->price_date) ||
	       text_differs(a->price_note, b->price_note) ||
	       text_differs(a->start_date, b->start_date) ||
	       a->joint_depth_ppm != b->joint_depth_ppm || a->crew != b->crew ||
	       a->day_minutes != b->day_minutes || a->wage_minor != b->wage_minor ||
	       a->margin_ppm != b->margin_ppm || a->discount_ppm != b->discount_ppm ||
	       a->tax_ppm != b->tax_ppm || a->whole_money != b->whole_money ||
	       a->valid_days != b->valid_days || a->haunch_hold_minutes != b->haunch_hold_minutes ||
	       a->wall_hold_minutes != b->wall_hold_minutes ||
	       a->joint_hold_minutes != b->joint_hold_minutes || a->payload_g != b->payload_g ||
	       a->access_um != b->access_um;
}

const char *costs_differ(const struct plan_costs *a, const struct plan_costs *b)
{
	return materials_differ(a->materials, b->materials) ? "the materials"
	       : lines_differ(a, b)                         ? "hire or extras"
	       : tables_differ(a, b)                        ? "suppliers or minutes of tasks"
	       : values_differ(a, b)                        ? "single costs"
	                                                    : NULL;
}
