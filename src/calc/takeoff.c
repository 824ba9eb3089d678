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

static void work_out_line(const struct takeoff *t, int size, struct order_line *o)
{
	const struct plan_laying *l = &t->plan.laying;
	const struct slab_kind *k = &t->laid.pattern.sizes[size];

	*o = (struct order_line){ .length_um = k->length_um, .width_um = k->width_um };
	o->needed = t->laid.of_size[size].whole + (int64_t)t->cuts.of_size[size].slabs;
	o->allowance = (o->needed * l->breakage_ppm + 999999) / 1000000;
	if ((o->needed || t->laid.pattern.size_count == 1) && o->allowance < 1)
		o->allowance = 1;
	o->slabs = up_to_pack(o->needed + o->allowance, l->slab.pack);
	o->rule_of_thumb = (int64_t)ceil(t->area_m2 * k->per_m2 * 1.05 - 1e-9);
	o->slab_mass_kg = (double)k->length_um * (double)k->width_um *
	                  (double)l->slab.thickness_um * 1e-18 * (double)l->slab.density_kg_m3;
}

/* A mix is sold in packs that hold each size as often as its share: as many packs as the size that
 * needs most. */
static void fill_packs(struct takeoff *t)
{
	const struct plan_mix *m = &t->plan.laying.mix;
	const struct pattern *p = &t->laid.pattern;
	struct order *o = &t->order;
	int64_t in_pack[PATTERN_PARTS] = { 0 };

	for (size_t i = 0; i < m->count; i++)
		in_pack[p->parts[i].size] += m->sizes[i].share;
	for (int i = 0; i < o->line_count; i++) {
		int64_t want = o->lines[i].needed + o->lines[i].allowance;
		int64_t packs = (want + in_pack[i] - 1) / in_pack[i];

		o->packs = packs > o->packs ? packs : o->packs;
	}
	for (int i = 0; i < o->line_count; i++) {
		o->lines[i].slabs = o->packs * in_pack[i];
		o->lines[i].left_over =
		        o->lines[i].slabs - o->lines[i].needed - o->lines[i].allowance;
	}
}

static void work_out_order(struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;
	struct order *o = &t->order;

	o->line_count = t->laid.pattern.size_count;
	for (int i = 0; i < o->line_count; i++)
		work_out_line(t, i, &o->lines[i]);
	if (l->bond == BOND_COURSED_RANDOM)
		fill_packs(t);
	for (int i = 0; i < o->line_count; i++) {
		const struct order_line *line = &o->lines[i];

		o->needed += line->needed;
		o->allowance += line->allowance;
		o->slabs += line->slabs;
		o->rule_of_thumb += line->rule_of_thumb;
		o->mass_kg += line->slab_mass_kg * (double)line->slabs;
		o->slab_mass_kg = fmax(o->slab_mass_kg, line->slab_mass_kg);
	}
	o->price_minor = price_of(o->slabs, o->line_count == 1 ? l->slab.price_minor : -1);
	o->thumb_price_minor =
	        price_of(o->rule_of_thumb, o->line_count == 1 ? l->slab.price_minor : -1);
}

/* The region less the gaps that the laying leaves open along edges of some kinds. */
static enum status leave_gaps(
        struct arena *mem, struct takeoff *t, struct region *field, struct error *err)
{
	const struct plan *p = &t->plan;
	double *inward = arena_alloc(mem, plan_edge_count(p), sizeof *inward), widest = 0;

	if (!inward)
		return error_memory(err);
	for (size_t i = 0, e = 0; i < p->ring_count; i++)
		for (size_t j = 0; j < p->rings[i].count; j++, e++) {
			inward[e] = (double)p->laying.edge_joint_um[p->rings[i].nodes[j].kind];
			widest = fmax(widest, inward[e]);
		}
	*field = t->region;
	return widest > 0 ? region_inset(mem, p, &t->region, inward, field, err) : STATUS_OK;
}

static enum status work_out(struct arena *mem, struct takeoff *t, struct error *err)
{
	const struct plan *p = &t->plan;
	const struct plan_laying *l = &p->laying;
	struct region field;
	enum status st;

	t->area_m2 = plan_area_m2(p);
	t->perimeter_m = plan_perimeter_m(p);
	t->opening_edges_m = plan_opening_edges_m(p);
	if ((st = region_from_plan(mem, p, &t->region, err)) != STATUS_OK ||
	        (st = edging_work_out(mem, p, l->kerf_um, &t->edging, err)) != STATUS_OK ||
	        (st = surface_work_out(mem, p, &t->rules, &t->surface, err)) != STATUS_OK)
		return st;
	t->surface_ready = true;
	if ((st = leave_gaps(mem, t, &field, err)) != STATUS_OK ||
	        (st = region_turn(mem, &field, (double)l->start_x_um, (double)l->start_y_um,
	                 l->rotation_udeg, &t->frame_region, err)) != STATUS_OK ||
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
