/* wall.c - a wall that holds soil, as a body that stands by its weight: at its footing, and at
 * every bed, since dry-laid and cramped courses may slide and tip one on another. */
#include "slabwright/wall.h"

#include <math.h>

static const double LEAST_FACTOR = 1.5; /* common practice */
static const double CONCRETE_KG_M3 = 2300, SAND_KG_M3 = 1800; /* footing; common practice, low */

const char WALL_CAUTION[] =
        "A simple check of a wall that stands by its weight, on drained soil: no design. Local "
        "codes and licensed practice come first; in doubt, with water behind the wall, a slope or "
        "a load on the soil, ask an engineer.";

static double rad(double deg)
{
	return deg * M_PI / 180;
}

double wall_active_coefficient(double friction_deg, double slope_deg)
{
	double c = cos(rad(slope_deg)), f = cos(rad(friction_deg)), r;

	if (!(slope_deg >= 0 && friction_deg >= slope_deg && friction_deg < 90))
		return -1;
	r = sqrt(fmax(0, c * c - f * f));
	return c * (c - r) / (c + r);
}

bool wall_thrust(const struct wall_soil *soil, double height_m, struct wall_thrust *out)
{
	double h = fmax(0, height_m), all;

	*out = (struct wall_thrust){ .ka = wall_active_coefficient(
		                             soil->friction_deg, soil->slope_deg) };
	if (out->ka < 0)
		return false;
	out->soil_n = out->ka * soil->weight_n_m3 * h * h / 2;
	out->surcharge_n = out->ka * soil->surcharge_pa * h;
	all = out->soil_n + out->surcharge_n;
	out->across_n = all * cos(rad(soil->slope_deg));
	out->down_n = all * sin(rad(soil->slope_deg));
	if (all > 0)
		out->at_m = (out->soil_n * h / 3 + out->surcharge_n * h / 2) / all;
	return true;
}

static void bearing(double load_n, double base_m, struct wall_forces *out)
{
	double e = out->eccentricity_m;

	out->kern = fabs(e) <= base_m / 6 * (1 + 1e-12);
	out->topples = out->resultant_m <= 0;
	if (out->topples)
		return;
	if (out->kern) {
		out->pressure_most_pa = load_n / base_m * (1 + 6 * fabs(e) / base_m);
		out->pressure_least_pa = fmax(0, load_n / base_m * (1 - 6 * fabs(e) / base_m));
	} else {
		out->pressure_most_pa =
		        2 * load_n / (3 * fmin(out->resultant_m, base_m - out->resultant_m));
	}
}

void wall_forces(
        const struct wall_thrust *thrust, const struct wall_body *body, struct wall_forces *out)
{
	double load = body->weight_n + thrust->down_n;

	*out = (struct wall_forces){ .fs_overturning = INFINITY, .fs_sliding = INFINITY };
	out->restoring_nm = body->weight_n * body->arm_m + thrust->down_n * body->base_m;
	out->overturning_nm = thrust->across_n * thrust->at_m;
	if (thrust->across_n > 0) {
		out->fs_overturning = out->restoring_nm / out->overturning_nm;
		out->fs_sliding = load * body->friction / thrust->across_n;
	}
	out->resultant_m = load > 0 ? (out->restoring_nm - out->overturning_nm) / load : 0;
	out->eccentricity_m = body->base_m / 2 - out->resultant_m;
	bearing(load, body->base_m, out);
}

static double factor_of(const struct rules *rules, const char *key, const char **source)
{
	const struct rule *r = rules_find(rules, key);

	*source = r ? r->source : "common practice";
	return r ? (double)r->number / 1000 : LEAST_FACTOR;
}

void wall_limits(const struct rules *rules, struct wall_limits *out)
{
	out->fs_overturning = factor_of(rules, "wall_fs_overturning", &out->overturning_source);
	out->fs_sliding = factor_of(rules, "wall_fs_sliding", &out->sliding_source);
	out->height = rules_find(rules, "wall_height_max");
	out->fill = rules_find(rules, "wall_fill_max");
}

const char *wall_verdict_name(enum wall_verdict verdict)
{
	static const char *const names[] = { "unknown", "engineer", "fails", "meets" };

	return names[verdict];
}

/* --- a planter's wall --- */

static double metres(int64_t um)
{
	return (double)um * 1e-6;
}

static double course_m(const struct plan_planter *p)
{
	return metres(p->block.height_um + p->block.joint_um);
}

static double wall_height_m(const struct plan_planter *p)
{
	return (double)p->courses * course_m(p) - metres(p->block.joint_um);
}

/* Two leaves that nothing ties: each holds the soil with its own width alone. */
static double acting_width_m(const struct plan_planter *p)
{
	double leaf = metres(p->block.width_um);

	return p->leaves == 2 && p->tie_um ? 2 * leaf + metres(p->block.joint_um) : leaf;
}

static void look_at(
        const struct wall_soil *soil, const struct wall_body *body, struct wall_level *at)
{
	at->width_m = body->base_m;
	wall_thrust(soil, at->height_m, &at->thrust);
	wall_forces(&at->thrust, body, &at->forces);
}

static void look_at_footing(const struct plan_planter *p, const struct wall_soil *soil,
        double mass_kg, struct wall_level *at)
{
	bool has = p->footing_width_um && p->footing_depth_um;
	double depth = has ? metres(p->footing_depth_um) : 0;
	double base = has ? metres(p->footing_width_um) : acting_width_m(p);
	double density = p->footing == MIX_LEAN_CONCRETE ? CONCRETE_KG_M3 : SAND_KG_M3;
	struct wall_body body = { .base_m = base,
		.arm_m = base / 2,
		.weight_n = (mass_kg + (has ? base * depth * density : 0)) * GRAVITY_M_S2,
		.friction = (double)p->base_friction_ppm * 1e-6 };

	at->height_m = metres(p->fill_um) + depth;
	look_at(soil, &body, at);
}

static void look_at_beds(const struct plan_planter *p, const struct wall_soil *soil, double mass_kg,
        struct wall_result *out)
{
	double width = acting_width_m(p);

	for (int64_t k = 0; k < p->courses; k++) {
		struct wall_level *at = &out->levels[out->count];
		double above = (double)(p->courses - k) / (double)p->courses;
		struct wall_body body = { .base_m = width,
			.arm_m = width / 2,
			.weight_n = mass_kg * above * GRAVITY_M_S2,
			.friction = (double)p->base_friction_ppm * 1e-6 };

		at->course = k + 1;
		at->height_m = metres(p->fill_um) - (double)k * course_m(p);
		if (at->height_m <= 0)
			return;
		look_at(soil, &body, at);
		out->count++;
	}
}

static void find_weakest(struct wall_result *out)
{
	for (size_t i = 1; i < out->count; i++) {
		const struct wall_forces *f = &out->levels[i].forces;

		if (f->fs_overturning < out->levels[out->overturning].forces.fs_overturning)
			out->overturning = i;
		if (f->fs_sliding < out->levels[out->sliding].forces.fs_sliding)
			out->sliding = i;
	}
}

/* --- the verdict --- */

static bool verdict(
        struct wall_result *out, enum wall_verdict v, const char *reason, struct error *err)
{
	out->verdict = v;
	out->reason = reason;
	if (!reason)
		error_memory(err);
	return true;
}

static bool is_over(double m, const struct rule *limit)
{
	return limit && llround(m * 1e6) > limit->number;
}

static bool for_engineer(
        struct arena *mem, const struct plan_planter *p, struct wall_result *out, struct error *err)
{
	const struct rule *h = out->limits.height, *f = out->limits.fill;

	if (p->surcharge_pa > 0)
		return verdict(out, WALL_ENGINEER,
		        "A load stands on the soil: an engineer designs this wall, whatever its "
		        "height.",
		        err);
	if (is_over(out->height_m, h))
		return verdict(out, WALL_ENGINEER,
		        arena_print(mem,
		                "The wall is %.0f mm high from the bottom of its footing, over the "
		                "%.0f mm of the rule set (%s): an engineer designs it.",
		                out->height_m * 1000, (double)h->number / 1000, h->source),
		        err);
	if (is_over(out->fill_m, f))
		return verdict(out, WALL_ENGINEER,
		        arena_print(mem,
		                "It holds %.0f mm of soil over the ground in front, more than the "
		                "%.0f mm of the rule set (%s): an engineer designs it.",
		                out->fill_m * 1000, (double)f->number / 1000, f->source),
		        err);
	return false;
}

static char *place_of(struct arena *mem, const struct wall_level *at)
{
	if (!at->course)
		return arena_text(mem, "the bottom of the footing");
	return arena_print(mem, "the bed under course %d", (int)at->course);
}

static bool falls_short(struct arena *mem, struct wall_result *out, struct error *err)
{
	const struct wall_level *o = &out->levels[out->overturning],
	                        *s = &out->levels[out->sliding];
	double most = out->levels[0].forces.pressure_most_pa;

	if (o->forces.fs_overturning < out->limits.fs_overturning)
		return verdict(out, WALL_FAILS,
		        arena_print(mem,
		                "Overturning at %s: factor %.2f, under %.2f (%s). A thicker wall, "
		                "less soil, or an engineer.",
		                place_of(mem, o), o->forces.fs_overturning,
		                out->limits.fs_overturning, out->limits.overturning_source),
		        err);
	if (s->forces.fs_sliding < out->limits.fs_sliding)
		return verdict(out, WALL_FAILS,
		        arena_print(mem,
		                "Sliding at %s: factor %.2f, under %.2f (%s). A heavier wall, less "
		                "soil, or an engineer.",
		                place_of(mem, s), s->forces.fs_sliding, out->limits.fs_sliding,
		                out->limits.sliding_source),
		        err);
	if (out->bearing_pa > 0 && most > out->bearing_pa)
		return verdict(out, WALL_FAILS,
		        arena_print(mem,
		                "The ground bears %.1f kPa and the footing's edge presses with "
		                "%.1f kPa. A wider footing, or an engineer.",
		                out->bearing_pa / 1000, most / 1000),
		        err);
	return false;
}

static void judge(
        struct arena *mem, const struct plan_planter *p, struct wall_result *out, struct error *err)
{
	if (for_engineer(mem, p, out, err))
		return;
	if (!out->worked_out) {
		verdict(out, WALL_UNKNOWN, out->reason, err);
		return;
	}
	if (falls_short(mem, out, err))
		return;
	if (!out->limits.height)
		verdict(out, WALL_UNKNOWN,
		        "The factors are reached, but the rule set names no height up to which a "
		        "wall goes without an engineer; choose one that does.",
		        err);
	else if (!(out->bearing_pa > 0))
		verdict(out, WALL_UNKNOWN,
		        "The factors are reached; what the ground bears is not known, so the "
		        "pressure under the footing is not judged.",
		        err);
	else
		verdict(out, WALL_MEETS,
		        "The simple check's factors are reached, and the ground's bearing.", err);
}

/* What is missing for the figures; NULL for nothing. */
static const char *missing(const struct plan_planter *p, const struct wall_soil *soil)
{
	if (!p->block.density_kg_m3)
		return "The block's density is not known: give it, so that the wall's weight is "
		       "known.";
	if (wall_active_coefficient(soil->friction_deg, soil->slope_deg) < 0)
		return "The soil behind the wall is steeper than its angle of friction: it would "
		       "slide by itself. Give a flatter slope.";
	return NULL;
}

enum status wall_work_out(struct arena *mem, const struct plan_planter *planter, double mass_kg,
        double fill_m, const struct rules *rules, struct wall_result *out, struct error *err)
{
	struct wall_soil soil = { .weight_n_m3 = (double)planter->soil_kg_m3 * GRAVITY_M_S2,
		.friction_deg = (double)planter->friction_udeg * 1e-6,
		.slope_deg = (double)planter->back_slope_udeg * 1e-6,
		.surcharge_pa = (double)planter->surcharge_pa };
	bool footing = planter->footing_width_um && planter->footing_depth_um;

	*out = (struct wall_result){ .fill_m = fill_m, .bearing_pa = (double)planter->bearing_pa };
	out->height_m = wall_height_m(planter) + (footing ? metres(planter->footing_depth_um) : 0);
	wall_limits(rules, &out->limits);
	out->reason = missing(planter, &soil);
	out->worked_out = !out->reason;
	if (out->worked_out) {
		out->levels = arena_alloc(mem, (size_t)planter->courses + 1, sizeof *out->levels);
		if (!out->levels)
			return error_memory(err);
		look_at_footing(planter, &soil, mass_kg, &out->levels[out->count++]);
		look_at_beds(planter, &soil, mass_kg, out);
		find_weakest(out);
	}
	judge(mem, planter, out, err);
	return out->reason ? STATUS_OK : STATUS_MEMORY;
}
