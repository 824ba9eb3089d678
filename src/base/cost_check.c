/* cost_check.c - the limits of single values of a plan's costs. */
#include "parts.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define PRICE 0, INT64_C(100000000000), &as_price
#define SHARE(most) 0, (most)*INT64_C(1000000), &as_share
#define HOLD 0, 366 * 24 * 60, &as_whole
#define NAME 0, 0, &as_text
#define CHECK(ranges, from, place)                                                                 \
	check_ranges(ranges, sizeof(ranges) / sizeof *(ranges), from, place, err)

#define IN(member) offsetof(struct plan_costs, member)
static const struct range costs_ranges[] = {
	{ "price_note", IN(price_note), NAME },
	{ "joint_depth", IN(joint_depth_ppm), SHARE(1) },
	{ "labour.crew", IN(crew), 1, 100, &as_whole },
	{ "labour.day_minutes", IN(day_minutes), 30, 24 * 60, &as_whole },
	{ "labour.wage", IN(wage_minor), PRICE },
	{ "margin", IN(margin_ppm), SHARE(5) },
	{ "discount", IN(discount_ppm), SHARE(1) },
	{ "tax", IN(tax_ppm), SHARE(1) },
	{ "valid_days", IN(valid_days), 1, 3660, &as_whole },
	{ "hold_minutes.haunch", IN(haunch_hold_minutes), HOLD },
	{ "hold_minutes.wall", IN(wall_hold_minutes), HOLD },
	{ "hold_minutes.joint", IN(joint_hold_minutes), HOLD },
	{ "vehicle.payload", IN(payload_g), 0, INT64_C(100000000), &in_kg },
	{ "vehicle.access", IN(access_um), 0, 100 * UM_PER_M, &in_mm },
};
#undef IN

#define IN(member) offsetof(struct plan_material, member)
static const struct range material_ranges[] = {
	{ "name", IN(name), NAME },
	{ "supplier", IN(supplier), NAME },
	{ "wastage", IN(wastage_ppm), SHARE(1) },
	{ "compaction", IN(compaction_ppm), 0, 900000, &as_share },
	{ "sold", IN(sold), SOLD_LOOSE, SOLD_M3, &as_word },
	{ "price", IN(price_minor), PRICE },
};
/* What one bag, roll or can holds. */
static const struct range holds_ranges[] = {
	[AS_MASS] = { "holds", IN(holds), 100, INT64_C(100000000), &in_kg },
	[AS_AREA] = { "holds", IN(holds), 100, INT64_C(100000000), &in_m2 },
	[AS_LITRES] = { "holds", IN(holds), 10, INT64_C(100000000), &in_litres },
};
static const struct range density_ranges[] = {
	[AS_MASS] = { "density", IN(loose_kg_m3), 50, 20000, &in_kg_m3 },
	[AS_AREA] = { "density", IN(loose_kg_m3), 0, 20000, &in_kg_m3 },
	[AS_LITRES] = { "litres_per_m2", IN(loose_kg_m3), 1, 20000, &in_litres },
};
#undef IN

#define IN(member) offsetof(struct plan_hire, member)
static const struct range hire_ranges[] = {
	{ "name", IN(name), NAME },
	{ "days", IN(days_milli), 0, 1000000, &as_thousandths },
	{ "task", IN(task), TASK_STRIP, TASK_CLEAR, &as_word },
	{ "price", IN(price_minor), PRICE },
};
#undef IN

#define IN(member) offsetof(struct plan_extra, member)
static const struct range extra_ranges[] = {
	{ "name", IN(name), NAME },
	{ "unit", IN(unit), NAME },
	{ "quantity", IN(quantity_milli), 0, INT64_C(1000000000), &as_thousandths },
	{ "price", IN(price_minor), PRICE },
};
#undef IN

/* Which ways of selling fit a material. */
static const struct {
	unsigned fits;
	const char *words;
} ways[] = {
	[AS_MASS] = { 1u << SOLD_LOOSE | 1u << SOLD_BULK_BAG | 1u << SOLD_BAG | 1u << SOLD_M3,
	        "loose, bulk bag, bag or m3" },
	[AS_AREA] = { 1u << SOLD_ROLL, "roll" },
	[AS_LITRES] = { 1u << SOLD_CAN, "can" },
};

enum measured_as material_measure(enum material material)
{
	return material == MATERIAL_MEMBRANE || material == MATERIAL_LINER ? AS_AREA
	       : material == MATERIAL_SEALER                               ? AS_LITRES
	                                                                   : AS_MASS;
}

static bool digits(const char *text, int count, int *value)
{
	*value = 0;
	for (int i = 0; i < count; i++) {
		if (text[i] < '0' || text[i] > '9')
			return false;
		*value = *value * 10 + (text[i] - '0');
	}
	return true;
}

bool date_valid(const char *text)
{
	static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
	int year, month, day, leap;

	if (strlen(text) != 10 || text[4] != '-' || text[7] != '-' || !digits(text, 4, &year) ||
	        !digits(text + 5, 2, &month) || !digits(text + 8, 2, &day))
		return false;
	leap = month == 2 && (year % 400 == 0 || (year % 4 == 0 && year % 100 != 0));
	return year > 0 && month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] + leap;
}

static enum status date_check(
        const char *text, const char *place, const char *name, struct error *err)
{
	if (!text || !*text || date_valid(text))
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "%s%s: not a day of the calendar; give one like \"2026-11-25\", or \"\" for none",
	        place, name);
}

static enum status currency_check(const char *text, const char *place, struct error *err)
{
	bool good = text && strlen(text) == 3;

	for (int i = 0; good && i < 3; i++)
		good = text[i] >= 'A' && text[i] <= 'Z';
	if (good)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "%scurrency: not three capital letters; give the code of a currency, like \"EUR\"",
	        place);
}

static enum status material_check(
        const struct plan_material *m, enum material which, const char *costs, struct error *err)
{
	enum measured_as as = material_measure(which);
	char place[200];
	enum status st;

	snprintf(place, sizeof place, "%smaterials.%s.", costs, material_name(which));
	if ((st = CHECK(material_ranges, m, place)) != STATUS_OK ||
	        (st = check_ranges(&density_ranges[as], 1, m, place, err)) != STATUS_OK)
		return st;
	if (!(ways[as].fits >> m->sold & 1))
		return error_set(err, STATUS_PLAN, "%ssold: it is not sold by the %s; give %s",
		        place, sold_name(m->sold), ways[as].words);
	if (m->sold == SOLD_LOOSE || m->sold == SOLD_M3)
		return STATUS_OK;
	return check_ranges(&holds_ranges[as], 1, m, place, err);
}

static enum status lines_check(const struct plan_costs *costs, const char *place, struct error *err)
{
	enum status st = check_count("hire", costs->hire_count, COST_LINES, place, err);
	char where[200];

	if (st == STATUS_OK)
		st = check_count("extras", costs->extra_count, COST_LINES, place, err);
	for (size_t i = 0; st == STATUS_OK && i < costs->hire_count; i++) {
		snprintf(where, sizeof where, "%shire[%zu].", place, i);
		st = CHECK(hire_ranges, &costs->hire[i], where);
	}
	for (size_t i = 0; st == STATUS_OK && i < costs->extra_count; i++) {
		snprintf(where, sizeof where, "%sextras[%zu].", place, i);
		st = CHECK(extra_ranges, &costs->extras[i], where);
	}
	return st;
}

/* The names of suppliers of goods, and the minutes of tasks. */
static enum status tables_check(
        const struct plan_costs *costs, const char *place, struct error *err)
{
	enum status st = STATUS_OK;
	char where[200];

	for (int i = 0; st == STATUS_OK && i < GOODS; i++) {
		snprintf(where, sizeof where, "%ssuppliers.%s", place, goods_name((enum goods)i));
		st = text_check(costs->suppliers[i], 0, where, err);
	}
	for (int i = 0; st == STATUS_OK && i < TASKS; i++) {
		const struct range minutes = { task_name((enum task)i), 0, 0, INT64_C(1000000000),
			&in_minutes };

		snprintf(where, sizeof where, "%slabour.minutes.", place);
		st = check_ranges(&minutes, 1, &costs->task_minutes_milli[i], where, err);
	}
	return st;
}

enum status costs_check(const struct plan_costs *costs, const char *place, struct error *err)
{
	enum status st;

	if ((st = currency_check(costs->currency, place, err)) != STATUS_OK ||
	        (st = date_check(costs->price_date, place, "price_date", err)) != STATUS_OK ||
	        (st = date_check(costs->start_date, place, "start", err)) != STATUS_OK ||
	        (st = CHECK(costs_ranges, costs, place)) != STATUS_OK ||
	        (st = tables_check(costs, place, err)) != STATUS_OK)
		return st;
	for (int i = 0; st == STATUS_OK && i < MATERIALS; i++)
		st = material_check(&costs->materials[i], (enum material)i, place, err);
	return st == STATUS_OK ? lines_check(costs, place, err) : st;
}
