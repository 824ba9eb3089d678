/* cost.c - how things are bought and how long work takes: defaults and words.
 *
 * The figures are common practice, without a source, and meant to be replaced by the crew's own. */
#include "slabwright/plan.h"

#include "parts.h"

#include <string.h>

static const char *const materials[MATERIALS] = { "membrane", "sub-base", "bedding", "jointing",
	"cement", "sand", "aggregate", "gravel", "soil", "liner", "sealer", "fill", "spoil",
	"topsoil" };
static const char *const goods[GOODS] = { "slabs", "edging", "blocks", "steps", "drains" };
static const char *const sold[SOLD_KINDS] = { "loose", "bulk bag", "bag", "roll", "can", "m3" };

static const struct {
	const char *name, *unit;
	int64_t minutes_milli;
} tasks[TASKS] = {
	[TASK_STRIP] = { "strip topsoil", "m3", 120000 },
	[TASK_DIG] = { "dig", "m3", 180000 },
	[TASK_CART] = { "cart", "m3", 60000 },
	[TASK_MEMBRANE] = { "membrane", "m2", 2000 },
	[TASK_SUB_BASE] = { "sub-base", "m3", 150000 },
	[TASK_EDGING] = { "edging", "m", 25000 },
	[TASK_DRAINS] = { "drains", "m", 40000 },
	[TASK_WALL] = { "walls", "blocks", 6000 },
	[TASK_STEP] = { "steps", "units", 60000 },
	[TASK_BEDDING] = { "bedding", "m2", 6000 },
	[TASK_LAY] = { "laying", "m2", 40000 },
	[TASK_BORDER] = { "borders", "m", 12000 },
	[TASK_CUT] = { "cutting", "cuts", 4000 },
	[TASK_JOINT] = { "jointing", "m2", 8000 },
	[TASK_SEAL] = { "sealing", "m2", 3000 },
	[TASK_FILL] = { "filling planters", "m3", 60000 },
	[TASK_CLEAR] = { "clearing up", "job", 240000 },
};

/* Of each material, whether it is used by default, and how it comes. */
static const struct plan_material bought[MATERIALS] = {
	[MATERIAL_MEMBRANE] = { true, "geotextile membrane", "", 150000, 0, 0, SOLD_ROLL, 50000,
	        -1 },
	[MATERIAL_SUB_BASE] = { true, "crushed stone 0-40", "", 50000, 200000, 1700, SOLD_BULK_BAG,
	        850000, -1 },
	[MATERIAL_BEDDING] = { true, "sharp sand", "", 100000, 150000, 1600, SOLD_BULK_BAG, 850000,
	        -1 },
	[MATERIAL_JOINTING] = { true, "jointing sand", "", 100000, 0, 1500, SOLD_BAG, 20000, -1 },
	[MATERIAL_CEMENT] = { true, "cement", "", 50000, 0, 1400, SOLD_BAG, 25000, -1 },
	[MATERIAL_SAND] = { true, "sharp sand", "", 100000, 150000, 1600, SOLD_BULK_BAG, 850000,
	        -1 },
	[MATERIAL_AGGREGATE] = { true, "gravel 4-20", "", 50000, 0, 1600, SOLD_BULK_BAG, 850000,
	        -1 },
	[MATERIAL_GRAVEL] = { true, "gravel 4-20", "", 50000, 0, 1600, SOLD_BULK_BAG, 850000, -1 },
	[MATERIAL_SOIL] = { true, "planting soil", "", 100000, 0, 1300, SOLD_BULK_BAG, 850000, -1 },
	[MATERIAL_LINER] = { true, "dimpled liner", "", 100000, 0, 0, SOLD_ROLL, 20000, -1 },
	[MATERIAL_SEALER] = { false, "sealer", "", 50000, 0, 200, SOLD_CAN, 5000, -1 },
	[MATERIAL_FILL] = { true, "fill", "", 50000, 150000, 1700, SOLD_LOOSE, 0, -1 },
	[MATERIAL_SPOIL] = { true, "spoil to the tip", "", 0, 0, 1500, SOLD_M3, 0, -1 },
	[MATERIAL_TOPSOIL] = { true, "topsoil carted away", "", 0, 0, 1300, SOLD_M3, 0, -1 },
};

void costs_init(struct plan_costs *costs)
{
	*costs = (struct plan_costs){
		.currency = "EUR",
		.price_date = "",
		.price_note = "",
		.joint_depth_ppm = 1000000,
		.crew = 2,
		.day_minutes = 480,
		.wage_minor = -1,
		.valid_days = 30,
		.whole_money = true,
		.start_date = "",
		.haunch_hold_minutes = 3 * 24 * 60,
		.wall_hold_minutes = 7 * 24 * 60,
		.joint_hold_minutes = 24 * 60,
	};
	for (int i = 0; i < MATERIALS; i++)
		costs->materials[i] = bought[i];
	for (int i = 0; i < GOODS; i++)
		costs->suppliers[i] = "";
	for (int i = 0; i < TASKS; i++)
		costs->task_minutes_milli[i] = tasks[i].minutes_milli;
}

const char *material_name(enum material material)
{
	return materials[material];
}

int material_parse(const char *word)
{
	return find_word(materials, MATERIALS, word);
}

const char *goods_name(enum goods which)
{
	return goods[which];
}

int goods_parse(const char *word)
{
	return find_word(goods, GOODS, word);
}

const char *sold_name(enum sold how)
{
	return sold[how];
}

int sold_parse(const char *word)
{
	return find_word(sold, SOLD_KINDS, word);
}

const char *task_name(enum task task)
{
	return tasks[task].name;
}

int task_parse(const char *word)
{
	for (int i = 0; i < TASKS; i++)
		if (strcmp(tasks[i].name, word) == 0)
			return i;
	return -1;
}

const char *task_unit(enum task task)
{
	return tasks[task].unit;
}
