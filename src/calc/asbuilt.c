/* asbuilt.c - each measured point against the plan. */
#include "asbuilt.h"

#include <math.h>
#include <string.h>

double asbuilt_over_um(double size_um, const struct rule *rule)
{
	double over = rule ? fabs(size_um) - (double)rule->number : 0;

	return over > ASBUILT_HAIR_UM ? over : 0;
}

static double larger(double most, double size)
{
	return fabs(size) > fabs(most) ? size : most;
}

static void compare_level(struct asbuilt *a, struct asbuilt_point *p, double planned_um)
{
	p->planned_um = planned_um;
	if (!p->measured->has_level)
		return;
	p->level_off_um = (double)p->measured->level_um - planned_um;
	p->level_over_um = asbuilt_over_um(p->level_off_um, a->level_rule);
	a->worst_level_um = larger(a->worst_level_um, p->level_off_um);
	a->with_level++;
	a->level_fails += p->level_over_um > 0;
}

static void compare_place(struct asbuilt *a, struct asbuilt_point *p)
{
	const struct plan_measured *m = p->measured;

	if (!m->has_place)
		return;
	p->place_off_um = hypot((double)(m->at_x_um - m->x_um), (double)(m->at_y_um - m->y_um));
	p->place_over_um = asbuilt_over_um(p->place_off_um, a->place_rule);
	a->worst_place_um = larger(a->worst_place_um, p->place_off_um);
	a->with_place++;
	a->place_fails += p->place_over_um > 0;
}

static enum status compare_points(struct arena *mem, const struct plan_site *site,
        asbuilt_level_fn *level, const void *context, struct asbuilt *a, struct error *err)
{
	if (!(a->points = arena_alloc(mem, site->measured_count, sizeof *a->points)))
		return error_memory(err);
	a->count = site->measured_count;
	for (size_t i = 0; i < a->count; i++) {
		const struct plan_measured *m = &site->measured[i];
		struct asbuilt_point *p = &a->points[i];

		p->measured = m;
		p->name = m->name && *m->name ? m->name : arena_print(mem, "point %zu", i + 1);
		if (!p->name)
			return error_memory(err);
		if (level)
			compare_level(a, p, level(context, (double)m->x_um, (double)m->y_um));
		compare_place(a, p);
	}
	return STATUS_OK;
}

static void find_straightedges(struct asbuilt *a, const struct rules *rules)
{
	static const struct {
		const char *key;
		double length_um;
	} known[STRAIGHTEDGES] = { { "flatness_3m", 3e6 }, { "flatness_2m", 2e6 } };

	for (size_t i = 0; i < STRAIGHTEDGES; i++) {
		const struct rule *rule = rules_find(rules, known[i].key);

		if (rule)
			a->straightedges[a->straightedge_count++] =
			        (struct asbuilt_straightedge){ .length_um = known[i].length_um,
				        .rule = rule };
	}
}

/* --- four corners --- */

static const struct plan_measured *measured_at(
        const struct plan_site *site, const struct plan_node *n)
{
	for (size_t i = 0; i < site->measured_count; i++) {
		const struct plan_measured *m = &site->measured[i];

		if (m->has_place && m->x_um == n->x_um && m->y_um == n->y_um)
			return m;
	}
	return NULL;
}

static void tape(const int64_t x[4], const int64_t y[4], double sides[4], double diagonals[2])
{
	for (int i = 0; i < 4; i++)
		sides[i] = hypot((double)(x[(i + 1) % 4] - x[i]), (double)(y[(i + 1) % 4] - y[i]));
	for (int i = 0; i < 2; i++)
		diagonals[i] = hypot((double)(x[i + 2] - x[i]), (double)(y[i + 2] - y[i]));
}

static void find_four(const struct plan *plan, struct asbuilt *a)
{
	const struct plan_ring *r = plan->rings;
	int64_t x[4], y[4], at_x[4], at_y[4];

	if (!plan->ring_count || r->count != 4 || !r->closed)
		return;
	for (int i = 0; i < 4; i++) {
		const struct plan_measured *m = measured_at(&plan->site, &r->nodes[i]);

		if (!m)
			return;
		x[i] = r->nodes[i].x_um;
		y[i] = r->nodes[i].y_um;
		at_x[i] = m->at_x_um;
		at_y[i] = m->at_y_um;
	}
	a->has_four = true;
	tape(x, y, a->planned_sides_um, a->planned_diagonals_um);
	tape(at_x, at_y, a->sides_um, a->diagonals_um);
}

enum status asbuilt_check(struct arena *mem, const struct plan *plan, const struct rules *rules,
        asbuilt_level_fn *level, const void *context, struct asbuilt *out, struct error *err)
{
	enum status st;

	*out = (struct asbuilt){
		.level_rule = rules_find(rules, "level_tolerance"),
		.place_rule = rules_find(rules, "place_tolerance"),
		.puddle_rule = rules_find(rules, "puddle_depth"),
		.puddle_area_rule = rules_find(rules, "puddle_area"),
	};
	find_straightedges(out, rules);
	st = compare_points(mem, &plan->site, level, context, out, err);
	if (st != STATUS_OK)
		return st;
	find_four(plan, out);
	if (!level)
		return STATUS_OK;
	st = asbuilt_find_gaps(mem, out, err);
	return st == STATUS_OK ? asbuilt_find_puddles(mem, out, err) : st;
}

bool asbuilt_passes(const struct asbuilt *a)
{
	return !a->level_fails && !a->place_fails && !a->gap_fails && !a->puddle_fails;
}

bool puddle_passes(
        double depth_mm, double area_m2, const struct rule *depth, const struct rule *area)
{
	return (!depth || depth_mm * 1000 <= (double)depth->number + ASBUILT_HAIR_UM) &&
	       (!area || area_m2 * 1000 <= (double)area->number + 1e-6);
}
