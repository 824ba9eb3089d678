/* planter.c - planters one by one: values checked, then shape, bond, ties, cap, fill, levels and
 * the soil they hold. */
#include "planter_parts.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM UM_PER_MM

enum { REVEALS_A_LEG = 10 };

/* --- values --- */

/* Single values, as everywhere; the place that is put before them is told by the planter's words.
 */
static enum status check_values(struct planter_work *w)
{
	static const char place[] = "planters[0].";
	struct error why = { 0 };
	const char *told = why.text;
	enum status st = planters_check(w->p, 1, "", &why);

	if (st == STATUS_OK)
		return st;
	if (strncmp(told, place, sizeof place - 1) == 0)
		told += sizeof place - 1;
	return error_set(w->err, st, "%s", told);
}

static enum status check_heights(struct planter_work *w)
{
	const struct plan_planter *p = w->p;

	if (4 * w->p->block.joint_um >= p->block.length_um)
		return error_set(w->err, STATUS_PLAN,
		        "the joint is %g mm, a quarter of the block or more; give a narrower one",
		        (double)p->block.joint_um / MM);
	if (2 * w->kerf_um >= p->block.length_um)
		return error_set(w->err, STATUS_PLAN,
		        "the blade takes half the block; give a narrower kerf or a longer block");
	if (p->fill_um > w->r->height_um)
		return error_set(w->err, STATUS_PLAN,
		        "%g mm of soil stand over the top of the wall, which is %g mm high; give "
		        "less soil or more courses",
		        (double)p->fill_um / MM, (double)w->r->height_um / MM);
	if (p->gravel_um > p->fill_um)
		return error_set(w->err, STATUS_PLAN,
		        "%g mm of gravel are more than the %g mm of fill; give less gravel",
		        (double)p->gravel_um / MM, (double)p->fill_um / MM);
	return STATUS_OK;
}

static void begin(struct planter_work *w)
{
	const struct plan_block *k = &w->p->block;
	int64_t lost = k->joint_um;

	if (!k->has_half && w->kerf_um > lost)
		lost = w->kerf_um;
	w->half_um = (k->length_um - lost) / 2;
	w->r->least_piece_um = w->r->least_lap_um = k->length_um / 4;
	w->r->height_um = w->p->courses * (k->height_um + k->joint_um) - k->joint_um;
	w->r->top_um = w->p->base_um + w->r->height_um;
}

/* --- footing and fill --- */

/* The footing reaches beyond free ends as it does beyond the faces. */
static void work_out_footing(struct planter_work *w)
{
	struct planter_result *r = w->r;
	double wide = (double)w->p->footing_width_um * 1e-6,
	       deep = (double)w->p->footing_depth_um * 1e-6,
	       beyond = fmax(0, wide - (double)r->width_um * 1e-6);

	r->footing_m3 = wide * deep * (r->middle_m + (w->p->closed ? 0 : beyond));
	r->cement_kg = r->footing_m3 * (double)w->p->cement_kg_m3;
}

static double inside_m2(const struct planter_result *r)
{
	double v = (double)r->width_um, twice = 0;
	struct point o = planter_point(r, 0, v * r->corners[0].half_tan, v), last = o;

	for (size_t i = 0; i < r->leg_count; i++) {
		const struct planter_leg *l = &r->legs[i];
		struct point p = planter_point(
		        r, i, (double)l->length_um - v * r->corners[l->to].half_tan, v);

		twice += (last.x - o.x) * (p.y - o.y) - (last.y - o.y) * (p.x - o.x);
		last = p;
	}
	return fabs(twice) / 2 * 1e-12;
}

static enum status work_out_fill(struct planter_work *w)
{
	struct planter_fill *f = &w->r->fill;
	double high = (double)w->p->fill_um * 1e-6, gravel = (double)w->p->gravel_um * 1e-6,
	       face = 0;

	f->inside_m2 = inside_m2(w->r);
	f->gravel_m3 = f->inside_m2 * gravel;
	f->soil_m3 = f->inside_m2 * (high - gravel);
	f->soil_loose_m3 = f->soil_m3 * (1 + (double)w->plan->site.earth.bulking_ppm * 1e-6);
	for (size_t i = 0; i < w->r->leg_count; i++)
		face += w->r->legs[i].inside_um * 1e-6;
	if (w->p->liner)
		f->liner_m2 = face * high * PLANTER_LINER_LAPS;
	return planter_weeps(w);
}

/* --- levels --- */

static int64_t courses_with_top_under(const struct planter_work *w, double level_um)
{
	const struct plan_block *k = &w->p->block;
	double over = level_um - (double)w->p->base_um;
	int64_t n =
	        (int64_t)floor((over + (double)k->joint_um) / (double)(k->height_um + k->joint_um));

	return n < 0 ? 0 : n > w->p->courses ? w->p->courses : n;
}

static void level_corners(struct planter_work *w)
{
	struct planter_result *r = w->r;

	for (size_t i = 0; i < r->corner_count; i++) {
		struct planter_corner *c = &r->corners[i];

		if (r->has_surface)
			c->surface_um = surface_level_um(
			        &w->plan->surface, (double)c->x_um, (double)c->y_um);
		c->reveal_um = (double)r->top_um - c->surface_um;
		c->courses_under = courses_with_top_under(w, c->surface_um);
		if (r->has_staff)
			c->staff_um = (double)(instrument_height_um(&w->plan->ground) - r->top_um);
	}
}

static void work_out_levels(struct planter_work *w)
{
	struct planter_result *r = w->r;
	double lowest = INFINITY, highest = -INFINITY;
	int64_t begun;

	r->has_surface = w->plan->surface.count > 0;
	r->has_staff = w->plan->ground.has_instrument;
	level_corners(w);
	if (!r->has_surface)
		return;
	for (size_t i = 0; i < r->leg_count; i++)
		for (int k = 0; k <= REVEALS_A_LEG; k++) {
			struct point p = planter_point(
			        r, i, (double)r->legs[i].length_um * k / REVEALS_A_LEG, 0);
			double z = surface_level_um(&w->plan->surface, p.x, p.y);

			lowest = fmin(lowest, z);
			highest = fmax(highest, z);
		}
	r->least_reveal_um = (double)r->top_um - highest;
	r->most_reveal_um = (double)r->top_um - lowest;
	r->courses_under = courses_with_top_under(w, lowest);
	begun = courses_with_top_under(w, highest);
	if (begun < w->p->courses && highest > (double)planter_course_um(r, begun + 1))
		begun++;
	r->courses_partly = begun - r->courses_under;
}

/* Soil over the ground in front, where that lies lowest; without a surface over the wall's
 * underside. */
static double fill_over_ground_m(const struct planter_work *w)
{
	const struct planter_result *r = w->r;
	double top = (double)(w->p->base_um + w->p->fill_um);

	if (!r->has_surface)
		return (double)w->p->fill_um * 1e-6;
	return fmax(0, top - ((double)r->top_um - r->most_reveal_um)) * 1e-6;
}

/* --- all of it --- */

static void judge_lifting(struct planter_work *w, const struct rules *rules)
{
	w->r->lift = rules_find(rules, "lift_one_person");
	w->r->heavy = w->r->lift && llround(w->r->block_kg * 1000) > w->r->lift->number;
}

static enum status work_out(struct planter_work *w, const struct rules *rules)
{
	struct planter_way(*ways)[2];
	enum status st;

	if ((st = check_values(w)) != STATUS_OK)
		return st;
	begin(w);
	if ((st = check_heights(w)) != STATUS_OK || (st = planter_shape(w)) != STATUS_OK ||
	        (st = planter_bond(w, &ways)) != STATUS_OK ||
	        (st = planter_lay(w, ways)) != STATUS_OK || (st = planter_ties(w)) != STATUS_OK ||
	        (st = planter_cap(w)) != STATUS_OK)
		return st;
	work_out_footing(w);
	if ((st = work_out_fill(w)) != STATUS_OK)
		return st;
	work_out_levels(w);
	judge_lifting(w, rules);
	return wall_work_out(
	        w->mem, w->p, w->r->wall_kg_m, fill_over_ground_m(w), rules, &w->r->wall, w->err);
}

char *planter_words(char *buf, size_t size, const struct plan_planter *planter, size_t number)
{
	if (planter->name && *planter->name)
		snprintf(buf, size, "planter %zu (%.80s)", number + 1, planter->name);
	else
		snprintf(buf, size, "planter %zu", number + 1);
	return buf;
}

static enum status work_out_one(struct arena *mem, const struct plan *plan, size_t number,
        const struct rules *rules, struct planter_result *r)
{
	const struct plan_planter *p = &plan->planters[number];
	struct error why = { 0 };
	struct planter_work w = { .mem = mem,
		.plan = plan,
		.p = p,
		.r = r,
		.kerf_um = plan->laying.kerf_um > 0 ? plan->laying.kerf_um : 0,
		.err = &why };
	char words[120];
	enum status st = work_out(&w, rules);

	if (st == STATUS_OK) {
		r->ready = true;
		r->planter = p;
		return st;
	}
	*r = (struct planter_result){ .planter = p };
	error_set(
	        &r->fault, st, "%s: %s.", planter_words(words, sizeof words, p, number), why.text);
	return st;
}

enum status planters_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct planters_result *out, struct error *err)
{
	*out = (struct planters_result){ 0 };
	if (!plan->planter_count)
		return STATUS_OK;
	out->items = arena_alloc(mem, plan->planter_count, sizeof *out->items);
	if (!out->items)
		return error_memory(err);
	out->count = plan->planter_count;
	for (size_t i = 0; i < out->count; i++) {
		out->items[i].planter = &plan->planters[i];
		if (work_out_one(mem, plan, i, rules, &out->items[i]) == STATUS_MEMORY)
			return error_memory(err);
	}
	return STATUS_OK;
}

const struct planter_course *planter_course(const struct planter_result *r, int64_t course)
{
	return &r->courses[course % 2 ? 0 : 1];
}

int64_t planter_course_um(const struct planter_result *r, int64_t course)
{
	const struct plan_block *k = &r->planter->block;

	return r->planter->base_um + (course - 1) * (k->height_um + k->joint_um);
}
