/* takeoff.c - the modules called in order; what each needs comes from the one before. */
#include "slabwright/takeoff.h"

#include "takeoff_parts.h"

#include <math.h>

/* Slabs up to whole packs. */
static int64_t up_to_pack(int64_t slabs, int64_t pack)
{
	return (slabs + pack - 1) / pack * pack;
}

static int64_t price_of(int64_t slabs, int64_t each)
{
	return each < 0 ? -1 : slabs * each;
}

static void work_out_line(const struct takeoff *t, size_t stock, struct order_line *o)
{
	const struct plan_laying *l = &t->plan.laying;
	const struct stock_slab *k = &t->laid.stocks[stock];

	*o = (struct order_line){
		.slab = &k->slab, .length_um = k->length_um, .width_um = k->width_um
	};
	o->needed = k->whole + (int64_t)t->cuts.of_stock[stock].slabs;
	o->allowance = (o->needed * l->breakage_ppm + 999999) / 1000000;
	if ((o->needed || t->laid.stock_count == 1) && o->allowance < 1)
		o->allowance = 1;
	o->slabs = up_to_pack(o->needed + o->allowance, k->slab.pack);
	o->rule_of_thumb = (int64_t)ceil(k->thumb * 1.05 - 1e-9);
	o->slab_mass_kg = block_mass_kg(
	        k->length_um, k->width_um, k->slab.thickness_um, k->slab.density_kg_m3);
	o->price_minor = price_of(o->slabs, k->slab.price_minor);
	o->thumb_price_minor = price_of(o->rule_of_thumb, k->slab.price_minor);
}

/* A mix is sold in packs that hold each size as often as its share: as many packs as the size that
 * needs most. The mix's sizes are the stocks of its section. */
static void fill_packs(struct takeoff *t, size_t section)
{
	struct order *o = &t->order;
	int64_t packs = 0;

	for (size_t i = 0; i < o->line_count; i++) {
		const struct stock_slab *k = &t->laid.stocks[i];
		int64_t want = o->lines[i].needed + o->lines[i].allowance, needs;

		if (!k->share || k->section != section)
			continue;
		needs = (want + k->share - 1) / k->share;
		packs = needs > packs ? needs : packs;
	}
	for (size_t i = 0; i < o->line_count; i++) {
		const struct stock_slab *k = &t->laid.stocks[i];
		struct order_line *line = &o->lines[i];

		if (!k->share || k->section != section)
			continue;
		line->packs = packs;
		line->slabs = packs * k->share;
		line->left_over = line->slabs - line->needed - line->allowance;
	}
	o->packs += packs;
}

/* Sums of money, where all are known. */
static int64_t sum_known(int64_t sum, int64_t add)
{
	return sum < 0 || add < 0 ? -1 : sum + add;
}

static void work_out_order(struct takeoff *t)
{
	struct order *o = &t->order;
	bool unknown = false;

	*o = (struct order){ .lines = o->lines, .line_count = t->laid.stock_count };
	for (size_t i = 0; i < o->line_count; i++)
		work_out_line(t, i, &o->lines[i]);
	for (size_t i = 0; i < t->laid.section_count; i++)
		fill_packs(t, i);
	for (size_t i = 0; i < o->line_count; i++) {
		const struct order_line *line = &o->lines[i];

		o->needed += line->needed;
		o->allowance += line->allowance;
		o->slabs += line->slabs;
		o->rule_of_thumb += line->rule_of_thumb;
		o->mass_kg += line->slab_mass_kg * (double)line->slabs;
		unknown = unknown || (line->slabs && line->slab_mass_kg <= 0);
		o->slab_mass_kg = fmax(o->slab_mass_kg, line->slab_mass_kg);
		o->price_minor = sum_known(o->price_minor, line->price_minor);
		o->thumb_price_minor = sum_known(o->thumb_price_minor, line->thumb_price_minor);
	}
	if (unknown)
		o->mass_kg = 0;
}

enum status takeoff_order(struct arena *mem, struct takeoff *t, struct error *err)
{
	t->order.lines = arena_alloc(mem, t->laid.stock_count, sizeof *t->order.lines);
	if (!t->order.lines)
		return error_memory(err);
	work_out_order(t);
	return STATUS_OK;
}

static enum status work_out(struct arena *mem, struct takeoff *t, struct error *err)
{
	const struct plan *p = &t->plan;
	enum status st;

	t->area_m2 = plan_area_m2(p);
	t->perimeter_m = plan_perimeter_m(p);
	t->opening_edges_m = plan_opening_edges_m(p);
	if ((st = region_from_plan(mem, p, &t->region, err)) != STATUS_OK ||
	        (st = edging_work_out(mem, p, p->laying.kerf_um, &t->edging, err)) != STATUS_OK ||
	        (st = kerb_work_out(mem, p, &t->rules, &t->edging, &t->kerbs, err)) != STATUS_OK ||
	        (st = steps_work_out(mem, p, &t->rules, &t->steps, err)) != STATUS_OK ||
	        (st = surface_work_out(mem, p, &t->rules, &t->surface, err)) != STATUS_OK)
		return st;
	t->surface_ready = true;
	if ((st = takeoff_drainage(mem, t, err)) != STATUS_OK ||
	        (st = takeoff_site(mem, t, err)) != STATUS_OK)
		return st;
	if ((st = paving_lay(mem, p, &t->region, t->area_m2, &t->laid, err)) != STATUS_OK ||
	        (st = takeoff_earth(mem, t, err)) != STATUS_OK ||
	        (st = paving_cuts(mem, &t->laid, &p->laying, &t->cuts, err)) != STATUS_OK)
		return st;
	return takeoff_order(mem, t, err);
}

static enum status check(const struct plan *plan, struct error *err)
{
	enum status st = outline_check(plan, err);

	if (st == STATUS_OK)
		st = laying_check(&plan->laying, "", err);
	if (st == STATUS_OK)
		st = borders_check(plan->borders, plan->border_count, "", err);
	if (st == STATUS_OK)
		st = zones_check(plan->zones, plan->zone_count, "", err);
	if (st == STATUS_OK)
		st = surface_check(&plan->surface, "", err);
	return st == STATUS_OK ? ground_check(&plan->ground, "", err) : st;
}

enum status takeoff_plan(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct takeoff *out, struct error *err)
{
	enum status st;

	*out = (struct takeoff){ .plan = *plan, .rules = *rules };
	book_instrument(mem, plan, &out->plan.ground);
	if (takeoff_book(mem, out, err) != STATUS_OK)
		return STATUS_MEMORY;
	st = check(plan, &out->fault);
	if (st == STATUS_OK)
		st = work_out(mem, out, &out->fault);
	out->ready = st == STATUS_OK;
	if (st != STATUS_MEMORY)
		st = planters_work_out(mem, &out->plan, rules, &out->planters, err);
	if (st == STATUS_OK && out->surface_ready)
		st = takeoff_levels(mem, out, err);
	if (st != STATUS_MEMORY)
		st = materials_work_out(mem, out, &out->materials, err);
	if (st == STATUS_OK)
		st = takeoff_costing(mem, out, err);
	return st == STATUS_MEMORY ? error_memory(err) : STATUS_OK;
}

bool takeoff_improve(struct arena *mem, struct takeoff *t, int64_t looks)
{
	int64_t ordered = t->order.needed;
	struct materials materials;
	const struct cutplan *best;

	if (!t->ready || t->searched)
		return false;
	if (!t->search && paving_search(mem, &t->laid, &t->plan.laying, &t->cuts, &t->search,
	                          NULL) != STATUS_OK) {
		t->search = NULL;
		t->searched = true;
		return false;
	}
	t->searched = !cut_search_step(t->search, looks);
	best = cut_search_best(t->search);
	t->cuts = *best;
	work_out_order(t);
	if (t->order.needed != ordered) {
		if (materials_work_out(mem, t, &materials, NULL) != STATUS_OK)
			return !(t->searched = true);
		t->materials = materials;
		if (takeoff_costing(mem, t, NULL) != STATUS_OK)
			return !(t->searched = true);
	}
	return !t->searched;
}
