/* costs_doc.c - how things are bought, what they cost and how long work takes, as JSON. */
#include "plan_doc.h"

#include <stddef.h>

static const char *sold_word(int value)
{
	return sold_name((enum sold)value);
}

static const char *task_word(int value)
{
	return task_name((enum task)value);
}

static const struct words sold_words = { sold_word, sold_parse, SOLD_KINDS, "way to be sold" };
static const struct words task_words = { task_word, task_parse, TASKS, "task" };
_Static_assert(sizeof(enum sold) == sizeof(int), "words are kept as int");
_Static_assert(sizeof(enum task) == sizeof(int), "words are kept as int");

#define MATERIAL(member) .at = offsetof(struct plan_material, member)
#define MATERIAL_FIELDS(density, type)                                                             \
	{ "used", FIELD_BOOL, 0, MATERIAL(used) }, { "name", FIELD_TEXT, 0, MATERIAL(name) },      \
	        { "supplier", FIELD_TEXT, 0, MATERIAL(supplier) },                                 \
	        { "wastage", FIELD_SHARE, 0, MATERIAL(wastage_ppm) },                              \
	        { "compaction", FIELD_SHARE, 0, MATERIAL(compaction_ppm) },                        \
	        { density, type, 0, MATERIAL(loose_kg_m3) },                                       \
	        { "sold", FIELD_WORD, 0, MATERIAL(sold), &sold_words },                            \
	        { "holds", FIELD_THOUSAND, 0, MATERIAL(holds) },                                   \
	{                                                                                          \
		"price", FIELD_MONEY, FIELD_POSITIVE, MATERIAL(price_minor)                        \
	}
static const struct field by_mass[] = { MATERIAL_FIELDS("density", FIELD_WHOLE) };
static const struct field by_litre[] = { MATERIAL_FIELDS("litres_per_m2", FIELD_THOUSAND) };
static const struct shape material_shape = SHAPE(by_mass);
static const struct shape sealer_shape = SHAPE(by_litre);

#define COSTS(member) .at = offsetof(struct plan_costs, member)
#define BOUGHT(name, which)                                                                        \
	{                                                                                          \
		name, FIELD_OBJECT, FIELD_TIGHT, COSTS(materials[which]), .shape = &material_shape \
	}
static const struct field materials_fields[] = {
	BOUGHT("membrane", MATERIAL_MEMBRANE),
	BOUGHT("sub-base", MATERIAL_SUB_BASE),
	BOUGHT("bedding", MATERIAL_BEDDING),
	BOUGHT("jointing", MATERIAL_JOINTING),
	BOUGHT("cement", MATERIAL_CEMENT),
	BOUGHT("sand", MATERIAL_SAND),
	BOUGHT("aggregate", MATERIAL_AGGREGATE),
	BOUGHT("gravel", MATERIAL_GRAVEL),
	BOUGHT("soil", MATERIAL_SOIL),
	BOUGHT("liner", MATERIAL_LINER),
	{ "sealer", FIELD_OBJECT, FIELD_TIGHT, COSTS(materials[MATERIAL_SEALER]),
	        .shape = &sealer_shape },
	BOUGHT("fill", MATERIAL_FILL),
	BOUGHT("spoil", MATERIAL_SPOIL),
	BOUGHT("topsoil", MATERIAL_TOPSOIL),
};
static const struct shape materials_shape = SHAPE(materials_fields);
_Static_assert(sizeof materials_fields / sizeof *materials_fields == MATERIALS, "one of each");

static const struct field suppliers_fields[] = {
	{ "slabs", FIELD_TEXT, 0, COSTS(suppliers[GOODS_SLABS]) },
	{ "edging", FIELD_TEXT, 0, COSTS(suppliers[GOODS_EDGING]) },
	{ "blocks", FIELD_TEXT, 0, COSTS(suppliers[GOODS_BLOCKS]) },
	{ "steps", FIELD_TEXT, 0, COSTS(suppliers[GOODS_STEPS]) },
	{ "drains", FIELD_TEXT, 0, COSTS(suppliers[GOODS_DRAINS]) },
};
static const struct shape suppliers_shape = SHAPE(suppliers_fields);
_Static_assert(sizeof suppliers_fields / sizeof *suppliers_fields == GOODS, "one of each");

#define MINUTES(name, task)                                                                        \
	{                                                                                          \
		name, FIELD_THOUSAND, 0, COSTS(task_minutes_milli[task])                           \
	}
static const struct field minutes_fields[] = {
	MINUTES("strip topsoil", TASK_STRIP),
	MINUTES("dig", TASK_DIG),
	MINUTES("cart", TASK_CART),
	MINUTES("membrane", TASK_MEMBRANE),
	MINUTES("sub-base", TASK_SUB_BASE),
	MINUTES("edging", TASK_EDGING),
	MINUTES("drains", TASK_DRAINS),
	MINUTES("walls", TASK_WALL),
	MINUTES("steps", TASK_STEP),
	MINUTES("bedding", TASK_BEDDING),
	MINUTES("laying", TASK_LAY),
	MINUTES("borders", TASK_BORDER),
	MINUTES("cutting", TASK_CUT),
	MINUTES("jointing", TASK_JOINT),
	MINUTES("sealing", TASK_SEAL),
	MINUTES("filling planters", TASK_FILL),
	MINUTES("clearing up", TASK_CLEAR),
};
static const struct shape minutes_shape = SHAPE(minutes_fields);
_Static_assert(sizeof minutes_fields / sizeof *minutes_fields == TASKS, "one of each");

static const struct field labour_fields[] = {
	{ "crew", FIELD_WHOLE, 0, COSTS(crew) },
	{ "day_minutes", FIELD_WHOLE, 0, COSTS(day_minutes) },
	{ "wage", FIELD_MONEY, FIELD_POSITIVE, COSTS(wage_minor) },
	{ "minutes", FIELD_OBJECT, 0, 0, .shape = &minutes_shape },
};
static const struct shape labour_shape = SHAPE(labour_fields);

#define HIRE(member) .at = offsetof(struct plan_hire, member)
static const struct field hire_fields[] = {
	{ "name", FIELD_TEXT, 0, HIRE(name) },
	{ "days", FIELD_THOUSAND, 0, HIRE(days_milli) },
	{ "task", FIELD_WORD, FIELD_ALWAYS, HIRE(task), &task_words },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, HIRE(price_minor) },
};
static const struct shape hire_shape = SHAPE(hire_fields);
static const struct list hire_list =
        LIST(hire_shape, struct plan_costs, COST_LINES, hire, hire_count);

static void hire_begin(void *item)
{
	*(struct plan_hire *)item =
	        (struct plan_hire){ .name = "", .task = TASK_DIG, .price_minor = -1 };
}

#define EXTRA(member) .at = offsetof(struct plan_extra, member)
static const struct field extra_fields[] = {
	{ "name", FIELD_TEXT, 0, EXTRA(name) },
	{ "unit", FIELD_TEXT, 0, EXTRA(unit) },
	{ "quantity", FIELD_THOUSAND, FIELD_ALWAYS, EXTRA(quantity_milli) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, EXTRA(price_minor) },
};
static const struct shape extra_shape = SHAPE(extra_fields);
static const struct list extra_list =
        LIST(extra_shape, struct plan_costs, COST_LINES, extras, extra_count);

static void extra_begin(void *item)
{
	*(struct plan_extra *)item = (struct plan_extra){
		.name = "", .unit = "", .quantity_milli = 1000, .price_minor = -1
	};
}

static const struct field hold_fields[] = {
	{ "haunch", FIELD_WHOLE, 0, COSTS(haunch_hold_minutes) },
	{ "wall", FIELD_WHOLE, 0, COSTS(wall_hold_minutes) },
	{ "joint", FIELD_WHOLE, 0, COSTS(joint_hold_minutes) },
};
static const struct shape hold_shape = SHAPE(hold_fields);

static const struct field vehicle_fields[] = {
	{ "payload", FIELD_THOUSAND, 0, COSTS(payload_g) },
	{ "access", FIELD_MM, 0, COSTS(access_um) },
};
static const struct shape vehicle_shape = SHAPE(vehicle_fields);

static const struct field costs_fields[] = {
	{ "currency", FIELD_TEXT, 0, COSTS(currency) },
	{ "price_date", FIELD_TEXT, 0, COSTS(price_date) },
	{ "price_note", FIELD_TEXT, 0, COSTS(price_note) },
	{ "materials", FIELD_OBJECT, 0, 0, .shape = &materials_shape },
	{ "suppliers", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &suppliers_shape },
	{ "joint_depth", FIELD_SHARE, 0, COSTS(joint_depth_ppm) },
	{ "labour", FIELD_OBJECT, 0, 0, .shape = &labour_shape },
	{ "hire", FIELD_LIST, FIELD_TIGHT, COSTS(hire), .list = &hire_list, .init = hire_begin },
	{ "extras", FIELD_LIST, FIELD_TIGHT, COSTS(extras), .list = &extra_list,
	        .init = extra_begin },
	{ "margin", FIELD_SHARE, 0, COSTS(margin_ppm) },
	{ "discount", FIELD_SHARE, 0, COSTS(discount_ppm) },
	{ "tax", FIELD_SHARE, 0, COSTS(tax_ppm) },
	{ "whole_money", FIELD_BOOL, 0, COSTS(whole_money) },
	{ "valid_days", FIELD_WHOLE, 0, COSTS(valid_days) },
	{ "start", FIELD_TEXT, 0, COSTS(start_date) },
	{ "hold_minutes", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &hold_shape },
	{ "vehicle", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &vehicle_shape },
};
const struct shape costs_shape = SHAPE(costs_fields);
