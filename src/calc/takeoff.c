/* takeoff.c - the modules called in order; what each needs comes from the one before. */
#include "slabwright/takeoff.h"

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

static void work_out_order(struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;
	struct slab_size s = slab_size(&l->slab);
	struct order *o = &t->order;
	double cell_m2 = (double)s.pitch_x_um * (double)s.pitch_y_um * 1e-12;

	o->needed = t->laid.whole + (int64_t)t->cuts.slabs;
	o->allowance = (o->needed * l->breakage_ppm + 999999) / 1000000;
	if (o->needed && o->allowance < 1)
		o->allowance = 1;
	o->slabs = up_to_pack(o->needed + o->allowance, l->slab.pack);
	o->rule_of_thumb = (int64_t)ceil(t->area_m2 / cell_m2 * 1.05 - 1e-9);
	o->price_minor = price_of(o->slabs, l->slab.price_minor);
	o->thumb_price_minor = price_of(o->rule_of_thumb, l->slab.price_minor);
	o->slab_mass_kg = (double)s.length_um * (double)s.width_um * (double)l->slab.thickness_um *
	                  1e-18 * (double)l->slab.density_kg_m3;
	o->mass_kg = o->slab_mass_kg * (double)o->slabs;
}

static enum status work_out(struct arena *mem, struct takeoff *t, struct error *err)
{
	const struct plan *p = &t->plan;
	const struct plan_laying *l = &p->laying;
	enum status st;

	t->area_m2 = plan_area_m2(p);
	t->perimeter_m = plan_perimeter_m(p);
	t->opening_edges_m = plan_opening_edges_m(p);
	if ((st = region_from_plan(mem, p, &t->region, err)) != STATUS_OK ||
	        (st = region_turn(mem, &t->region, (double)l->start_x_um, (double)l->start_y_um,
	                 l->rotation_udeg, &t->frame_region, err)) != STATUS_OK ||
	        (st = edging_work_out(mem, p, l->kerf_um, &t->edging, err)) != STATUS_OK ||
	        (st = surface_work_out(mem, p, &t->region, &t->rules, &t->surface, err)) !=
	                STATUS_OK ||
	        (st = lay_region(mem, &t->frame_region, l, &t->laid, err)) != STATUS_OK ||
	        (st = cutplan_make(mem, &t->laid, l, &t->cuts, err)) != STATUS_OK)
		return st;
	work_out_order(t);
	return STATUS_OK;
}

static enum status check(const struct plan *plan, struct error *err)
{
	enum status st = outline_check(plan, err);

	if (st == STATUS_OK)
		st = laying_check(&plan->laying, "", err);
	if (st == STATUS_OK)
		st = surface_check(&plan->surface, "", err);
	return st == STATUS_OK ? ground_check(&plan->ground, "", err) : st;
}

enum status takeoff_plan(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct takeoff *out, struct error *err)
{
	enum status st;

	*out = (struct takeoff){ .plan = *plan, .rules = *rules };
	st = check(plan, &out->fault);
	if (st == STATUS_OK)
		st = work_out(mem, out, &out->fault);
	out->ready = st == STATUS_OK;
	return st == STATUS_MEMORY ? error_memory(err) : STATUS_OK;
}
