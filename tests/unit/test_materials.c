/* What a job takes and how it is bought: sums, rounding up, loads, orders. */
#include "chance.h"
#include "json_read.h"
#include "oracle/random_plan.h"
#include "plans.h"
#include "slabwright/materials.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/sheets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct worked w;

static const struct material_line *line_of(enum material which)
{
	const struct material_line *l = materials_find(&w.t.materials, which);

	ck_assert_msg(l != NULL, "no %s", material_name(which));
	return l;
}

static const struct material_line *goods_of(enum goods goods, const char *name)
{
	for (size_t i = 0; i < w.t.materials.count; i++) {
		const struct material_line *l = &w.t.materials.lines[i];

		if (l->piece && l->goods == goods && strcmp(l->name, name) == 0)
			return l;
	}
	ck_abort_msg("no %s \"%s\"", goods_name(goods), name);
	return NULL;
}

static bool says(const char *words)
{
	for (size_t i = 0; i < w.t.materials.note_count; i++)
		if (strstr(w.t.materials.notes[i], words))
			return true;
	return false;
}

/* --- by hand --- */

/* 4 x 3 m of slabs 600 x 300 in stack bond from the corner: 66 whole, no cuts along y. */
static void patio_of_12_m2(void)
{
	worked_rectangle(&w, 4000 * MM, 3000 * MM);
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.slab.density_kg_m3 = 2400;
	w.plan.laying.slab.price_minor = 999;
}

START_TEST(a_patio_of_12_square_metres_by_hand)
{
	const struct material_line *l;

	patio_of_12_m2();
	w.plan.costs.materials[MATERIAL_SUB_BASE].price_minor = 5500;
	w.plan.costs.materials[MATERIAL_BEDDING].sold = SOLD_LOOSE;
	w.plan.costs.materials[MATERIAL_BEDDING].price_minor = 2845;
	w.plan.costs.materials[MATERIAL_SEALER].used = true;
	work_out_plan(&w);
	/* 12 m2 x 0.1 m = 1.2; + 5 % = 1.26; / 0.8 = 1.575 m3 loose; x 1700 = 2677.5 kg */
	l = line_of(MATERIAL_SUB_BASE);
	ck_assert_double_eq_tol(l->net, 1.2, 1e-9);
	ck_assert_double_eq_tol(l->needed, 1.26, 1e-9);
	ck_assert_double_eq_tol(l->loose_m3, 1.575, 1e-9);
	ck_assert_double_eq_tol(l->needed_kg, 2677.5, 1e-6);
	ck_assert_int_eq(l->buy, 4);
	ck_assert_double_eq_tol(l->mass_kg, 3400, 1e-9);
	ck_assert_int_eq(l->price_minor, 22000);
	ck_assert_str_eq(l->parts[0].formula, "12.000 m2 x 100 mm");
	/* 0.48 + 10 % = 0.528; / 0.85 x 1600 = 993.9 kg: 1.0 t */
	l = line_of(MATERIAL_BEDDING);
	ck_assert_double_eq_tol(l->needed_kg, 0.528 / 0.85 * 1600, 1e-6);
	ck_assert_int_eq(l->buy, 10);
	ck_assert_str_eq(l->buy_words, "1.0 t loose");
	ck_assert_int_eq(l->price_minor, 2845);
	/* 12 m2 + 15 % of laps: 13.8 m2, a roll of 50 */
	l = line_of(MATERIAL_MEMBRANE);
	ck_assert_double_eq_tol(l->needed, 13.8, 1e-9);
	ck_assert_int_eq(l->buy, 1);
	/* 12 m2 x 0.2 litres + 5 % = 2.52: a can of 5 */
	l = line_of(MATERIAL_SEALER);
	ck_assert_double_eq_tol(l->needed, 2.52, 1e-9);
	ck_assert_str_eq(l->buy_words, "1 can of 5 litres");
	/* the slabs as the take-off orders them: 597 x 297 x 50 at 2400 = 21.277 kg */
	l = goods_of(GOODS_SLABS, "slab 597 x 297 x 50 mm");
	ck_assert_int_eq(l->buy, w.t.order.slabs);
	ck_assert_int_eq(l->price_minor, w.t.order.price_minor);
	ck_assert_double_eq_tol(l->each_kg, 0.597 * 0.297 * 0.05 * 2400, 1e-9);
	worked_done(&w);
}
END_TEST

START_TEST(joints_take_what_the_slabs_leave)
{
	const struct material_line *l;
	double slabs;

	worked_rectangle(&w, 6000 * MM, 3000 * MM);
	w.plan.laying.bond = BOND_STACK;
	w.plan.costs.joint_depth_ppm = 500000;
	work_out_plan(&w);
	l = line_of(MATERIAL_JOINTING);
	slabs = 100 * 0.597 * 0.297; /* 10 x 10 slabs on pitches of 600 x 300 */
	ck_assert_double_eq_tol(l->net, (18 - slabs) * 0.05 * 0.5, 1e-9);
	worked_done(&w);
}
END_TEST

static struct plan_point ends[2] = { { 0, 0 }, { 4000 * MM, 0 } };
static struct plan_planter two[2];

START_TEST(alike_blocks_of_two_planters_are_one_line)
{
	const struct material_line *l;
	int64_t blocks;

	patio_of_12_m2();
	for (int i = 0; i < 2; i++) {
		planter_init(&two[i]);
		two[i].points = ends;
		two[i].count = 2;
		two[i].block.density_kg_m3 = 2000;
		two[i].block.price_minor = 150;
		two[i].liner = true;
	}
	w.plan.planters = two;
	w.plan.planter_count = 2;
	work_out_plan(&w);
	blocks = w.t.planters.items[0].blocks.buy_whole;
	l = goods_of(GOODS_BLOCKS, "block 440 x 100 x 215 mm");
	ck_assert_uint_eq(l->part_count, 2);
	ck_assert_int_eq(l->buy, 2 * blocks);
	ck_assert_int_eq(l->price_minor, 300 * blocks);
	ck_assert_double_eq_tol(l->each_kg, 0.44 * 0.1 * 0.215 * 2000, 1e-9);
	ck_assert_int_eq(
	        goods_of(GOODS_BLOCKS, "wall tie")->buy, w.t.planters.items[0].tie_count * 2);
	/* a wall of 4 m, 0.35 m of fill: 1.4 m2 a face; laps come with the wastage, 10 % */
	ck_assert_double_eq_tol(line_of(MATERIAL_LINER)->net, 2 * 4.0 * 0.35, 1e-6);
	ck_assert_double_eq_tol(
	        line_of(MATERIAL_LINER)->needed, w.t.planters.items[0].fill.liner_m2 * 2, 1e-9);
	/* footings 4 x 0.3 x 0.15 m of lean concrete with 200 kg, mortar 378 kg a m3 */
	ck_assert_double_eq_tol(line_of(MATERIAL_CEMENT)->net,
	        2 * (w.t.planters.items[0].cement_kg + 378 * w.t.planters.items[0].mortar_m3),
	        1e-6);
	/* not ready: the planters are ordered all the same */
	w.plan.rings[0].closed = false;
	ck_assert_int_eq(takeoff_plan(&w.mem, &w.plan, &w.rules, &w.t, NULL), STATUS_OK);
	ck_assert(!w.t.ready);
	ck_assert_int_eq(goods_of(GOODS_BLOCKS, "block 440 x 100 x 215 mm")->buy, 2 * blocks);
	ck_assert_ptr_null(materials_find(&w.t.materials, MATERIAL_SUB_BASE));
	worked_done(&w);
}
END_TEST

START_TEST(what_is_not_used_is_not_ordered)
{
	patio_of_12_m2();
	w.plan.costs.materials[MATERIAL_MEMBRANE].used = false;
	work_out_plan(&w);
	ck_assert_ptr_null(materials_find(&w.t.materials, MATERIAL_MEMBRANE));
	ck_assert_ptr_null(materials_find(&w.t.materials, MATERIAL_SEALER));
	ck_assert_ptr_null(materials_find(&w.t.materials, MATERIAL_CEMENT));
	ck_assert(says("the ground's levels"));
	worked_done(&w);
}
END_TEST

START_TEST(costs_that_cannot_be_are_told_and_nothing_is_ordered)
{
	patio_of_12_m2();
	w.plan.costs.materials[MATERIAL_SUB_BASE].holds = 0;
	work_out_plan(&w);
	ck_assert_uint_eq(w.t.materials.count, 0);
	ck_assert(says("costs.materials.sub-base.holds: 0 kg is out of reach"));
	worked_done(&w);
}
END_TEST

/* --- buying --- */

START_TEST(bags_are_rounded_up_but_not_for_noise)
{
	ck_assert_int_eq(buy_units(0, 25), 0);
	ck_assert_int_eq(buy_units(-1, 25), 0);
	ck_assert_int_eq(buy_units(0.1, 25), 1);
	ck_assert_int_eq(buy_units(75, 25), 3);
	ck_assert_int_eq(buy_units(75 + 1e-9, 25), 3);
	ck_assert_int_eq(buy_units(75.001, 25), 4);
	ck_assert_int_eq(buy_units(0.1 + 0.2, 0.1), 3); /* 0.30000000000000004 */
	ck_assert_int_eq(buy_tenths(1.2), 12);
	ck_assert_int_eq(buy_tenths(1.2001), 13);
}
END_TEST

START_TEST(money_is_rounded_once_half_away_from_nothing)
{
	ck_assert_int_eq(line_price_minor(1500, 2845), 4268); /* 4267.5 */
	ck_assert_int_eq(line_price_minor(500, 1), 1);
	ck_assert_int_eq(line_price_minor(300, 1), 0);
	ck_assert_int_eq(line_price_minor(7000, -1), -1);
	ck_assert_int_eq(line_price_minor(0, 100), 0);
	/* a half is a half, whatever doubles make of tenths */
	for (int64_t tenths = 0; tenths < 2000; tenths++)
		for (int64_t each = 1; each < 100; each++)
			ck_assert_int_eq(
			        line_price_minor(tenths * 100, each), (tenths * each + 5) / 10);
}
END_TEST

/* --- loads --- */

START_TEST(loads_by_hand)
{
	const struct haul *in;

	patio_of_12_m2();
	for (int i = 0; i < MATERIALS; i++)
		w.plan.costs.materials[i].used = i == MATERIAL_SUB_BASE;
	w.plan.laying.slab.density_kg_m3 = 0;
	w.plan.costs.payload_g = 1800000;
	work_out_plan(&w);
	/* 4 bulk bags of 850 kg, two at a time; slabs have no known mass */
	in = &w.t.materials.in;
	ck_assert_int_eq(in->trips, 2);
	ck_assert_int_eq(in->least, 2);
	ck_assert_uint_eq(in->load_count, 1);
	ck_assert_int_eq(in->loads[0].times, 2);
	ck_assert_int_eq(in->loads[0].items[0].pieces, 2);
	ck_assert(!in->mass_known);
	worked_done(&w);
	patio_of_12_m2();
	w.plan.costs.payload_g = 849999;
	w.plan.costs.access_um = 900 * MM;
	work_out_plan(&w);
	in = &w.t.materials.in;
	ck_assert_uint_eq(in->too_heavy_count, 2); /* bags of sub-base and of bedding */
	for (size_t i = 0; i < in->load_count; i++)
		ck_assert_double_le(in->loads[i].kg, 849.999);
	ck_assert(says("0.90 m wide"));
	worked_done(&w);
}
END_TEST

/* --- properties --- */

static double holds_of(const struct material_line *l)
{
	return l->piece                                      ? 1
	       : l->sold == SOLD_LOOSE || l->sold == SOLD_M3 ? 0.1
	                                                     : (double)l->holds * 1e-3;
}

static double measure_of(const struct material_line *l)
{
	if (l->piece || l->sold == SOLD_ROLL || l->sold == SOLD_CAN)
		return l->needed;
	return l->sold == SOLD_M3      ? l->loose_m3
	       : l->sold == SOLD_LOOSE ? l->needed_kg * 1e-3
	                               : l->needed_kg;
}

static void sums_and_rounding(const struct materials *m)
{
	for (size_t i = 0; i < m->count; i++) {
		const struct material_line *l = &m->lines[i];
		double sum = 0, size = holds_of(l), need = measure_of(l);

		ck_assert_uint_gt(l->part_count + (size_t)l->buy, 0);
		for (size_t k = 0; k < l->part_count; k++) {
			ck_assert_double_gt(l->parts[k].quantity, 0);
			sum += l->parts[k].quantity;
		}
		ck_assert_double_eq_tol(sum, l->net, 1e-9 * (1 + sum));
		ck_assert_double_eq_tol(l->net + l->wastage, l->needed, 1e-9 * (1 + sum));
		ck_assert_double_ge((double)l->buy * size, need - 2e-6 * size);
		/* no more than one over, but for packs that are not split */
		if (!(l->piece && l->goods == GOODS_SLABS))
			ck_assert_double_lt((double)(l->buy - 1) * size, need + 1e-9);
		ck_assert_int_eq(l->price_minor < 0, l->each_minor < 0);
	}
}

static void every_line_is_in_one_order(const struct materials *m)
{
	size_t in = 0, away = 0;

	for (size_t i = 0; i < m->order_count; i++) {
		const struct supplier_order *o = &m->orders[i];
		double kg = 0;

		for (size_t k = 0; k < o->count; k++) {
			ck_assert_str_eq(m->lines[o->lines[k]].supplier, o->supplier);
			ck_assert(!m->lines[o->lines[k]].away);
			kg += m->lines[o->lines[k]].mass_kg;
		}
		ck_assert_double_eq_tol(kg, o->mass_kg, 1e-6);
		in += o->count;
	}
	for (size_t i = 0; i < m->count; i++)
		away += m->lines[i].away;
	ck_assert_uint_eq(in + away, m->count);
}

static bool is_too_heavy(const struct haul *h, size_t line)
{
	for (size_t i = 0; i < h->too_heavy_count; i++)
		if (h->too_heavy[i] == line)
			return true;
	return false;
}

static void all_is_carried(
        const struct materials *m, const struct haul *h, bool away, int64_t payload_g)
{
	int64_t trips = 0;

	for (size_t i = 0; i < h->load_count; i++) {
		ck_assert_double_le(h->loads[i].kg, (double)payload_g * 1e-3 + 1e-9);
		trips += h->loads[i].times;
	}
	ck_assert_int_eq(trips, h->trips);
	ck_assert_int_ge(h->trips, h->least);
	ck_assert_int_le(h->trips, 2 * h->least + 1); /* all but the last are half full */
	for (size_t n = 0; n < m->count; n++) {
		double kg = 0;

		if (m->lines[n].away != away || is_too_heavy(h, n))
			continue;
		for (size_t i = 0; i < h->load_count; i++)
			for (size_t k = 0; k < h->loads[i].count; k++)
				if (h->loads[i].items[k].line == n)
					kg += h->loads[i].items[k].kg * (double)h->loads[i].times;
		ck_assert_double_eq_tol(
		        kg, m->lines[n].mass_kg, 1e-3 * (1 + (double)m->lines[n].buy));
	}
}

static void layers_are_those_of_the_dig(const struct takeoff *t)
{
	const struct material_line *base = materials_find(&t->materials, MATERIAL_SUB_BASE),
	                           *bedding = materials_find(&t->materials, MATERIAL_BEDDING);

	if (base)
		ck_assert_double_eq_tol(base->net, t->earth.sub_base.volume_m3, 1e-6);
	if (bedding)
		ck_assert_double_eq_tol(bedding->net, t->earth.bedding.volume_m3, 1e-6);
}

/* Whether its paving could be laid. */
static bool random_job(struct chance *c, struct arena *mem)
{
	struct plan p = random_plan(mem, c, (enum outline_style)chance_int(c, 0, STYLES - 1));
	struct edit e = { .type = EDIT_STEPS };
	struct rules rules = { 0 };
	struct error err = { 0 };
	struct takeoff t;

	random_add_borders(mem, c, &p);
	if (chance_int(c, 0, 1))
		random_add_zone(mem, c, &p);
	for (int i = 0; i < EDGE_KINDS; i++)
		p.edging[i] = random_edging(c);
	random_planters(c, mem, &e);
	random_steps(c, mem, &e);
	p.planters = e.planters;
	p.planter_count = e.planter_count;
	p.steps = e.steps;
	p.steps_count = e.steps_count;
	p.costs = random_costs(c, mem);
	p.costs.payload_g = chance_int(c, 0, 9) ? chance_int(c, 1000, 9000000) : 1;
	ck_assert_int_eq(takeoff_plan(mem, &p, &rules, &t, &err), STATUS_OK);
	sums_and_rounding(&t.materials);
	every_line_is_in_one_order(&t.materials);
	all_is_carried(&t.materials, &t.materials.in, false, p.costs.payload_g);
	all_is_carried(&t.materials, &t.materials.away, true, p.costs.payload_g);
	if (t.ready)
		layers_are_those_of_the_dig(&t);
	return t.ready;
}

START_TEST(sums_orders_and_loads_of_random_jobs)
{
	struct chance c = chance_new(chance_seed("materials", 23));

	int laid = 0;

	for (int i = 0; i < 300 / ONE_OF; i++) {
		struct arena mem = { 0 };

		laid += random_job(&c, &mem);
		arena_free(&mem);
	}
	ck_assert_int_gt(laid, 100 / ONE_OF);
}
END_TEST

START_TEST(a_better_cut_plan_betters_the_order)
{
	struct chance c = chance_new(chance_seed("better order", 5));
	int bettered = 0;

	for (int i = 0; i < 40 && bettered < 3; i++) {
		struct arena mem = { 0 };
		struct plan p = random_plan(&mem, &c, STYLE_STAR);
		struct takeoff t = take_off_laid(&mem, &p);
		int64_t before = t.order.slabs, sum = 0;

		while (takeoff_improve(&mem, &t, 200000))
			;
		bettered += t.order.slabs < before;
		for (size_t k = 0; k < t.materials.count; k++)
			if (t.materials.lines[k].piece && t.materials.lines[k].goods == GOODS_SLABS)
				sum += t.materials.lines[k].buy;
		ck_assert_int_eq(sum, t.order.slabs);
		arena_free(&mem);
	}
	ck_assert_int_gt(bettered, 0);
}
END_TEST

/* --- sheets --- */

START_TEST(the_order_is_told_in_three_forms)
{
	char *text, *csv, *json;
	int width;

	patio_of_12_m2();
	w.plan.costs.suppliers[GOODS_SLABS] = "=cmd|' /C calc'!A0";
	w.plan.costs.materials[MATERIAL_SUB_BASE].supplier = "Quarry, \"North\"";
	w.plan.costs.payload_g = 1200000;
	work_out_plan(&w);
	text = sheet_unfolded(&w, sheet_order);
	ck_assert_ptr_nonnull(strstr(text, "From Quarry, \"North\""));
	ck_assert_ptr_nonnull(strstr(
	        text, "crushed stone 0-40 (sub-base): 4 bulk bags of 850 kg, 3400 kg, no price"));
	ck_assert_ptr_nonnull(strstr(text, "1.200 m3, under the field: 12.000 m2 x 100 mm"));
	ck_assert_ptr_nonnull(strstr(text, "One batch"));
	csv = sheet_written(&w, sheet_order, SHEET_CSV);
	ck_assert_int_gt(csv_rows(csv, &width), 8);
	ck_assert_int_eq(width, 12);
	ck_assert_ptr_nonnull(strstr(csv, "\"'=cmd"));
	json = sheet_written(&w, sheet_order, SHEET_JSON);
	ck_assert(json_is_valid(json));
	ck_assert_double_eq_tol(json_number(json, "$.lines[1].needed"), 1.26, 1e-9);
	ck_assert_double_eq_tol(json_number(json, "$.lines[1].buy"), 4, 1e-9);
	ck_assert_int_eq(json_length(json, "$.orders"), 3);
	ck_assert_double_eq_tol(
	        json_number(json, "$.in.trips"), (double)w.t.materials.in.trips, 1e-9);
	free(text);
	free(csv);
	free(json);
	worked_done(&w);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("materials");

	tcase_set_timeout(t, 120);
	tcase_add_test(t, a_patio_of_12_square_metres_by_hand);
	tcase_add_test(t, joints_take_what_the_slabs_leave);
	tcase_add_test(t, alike_blocks_of_two_planters_are_one_line);
	tcase_add_test(t, what_is_not_used_is_not_ordered);
	tcase_add_test(t, costs_that_cannot_be_are_told_and_nothing_is_ordered);
	tcase_add_test(t, bags_are_rounded_up_but_not_for_noise);
	tcase_add_test(t, money_is_rounded_once_half_away_from_nothing);
	tcase_add_test(t, loads_by_hand);
	tcase_add_test(t, sums_orders_and_loads_of_random_jobs);
	tcase_add_test(t, a_better_cut_plan_betters_the_order);
	tcase_add_test(t, the_order_is_told_in_three_forms);
	return suite_run("materials", t);
}
