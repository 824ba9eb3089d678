/* build_check.c - the limits of single values of planters, steps and edging. */
#include "parts.h"

#include <stddef.h>
#include <stdio.h>

#define MM UM_PER_MM
#define M UM_PER_M
#define REACH -COORD_LIMIT_UM, COORD_LIMIT_UM, &in_mm
#define PRICE 0, INT64_C(100000000000), &as_price
#define DENSITY 0, 20000, &in_kg_m3
#define CEMENT 0, 1000, &in_kg_m3
#define CHECK(ranges, from, place)                                                                 \
	check_ranges(ranges, sizeof(ranges) / sizeof *(ranges), from, place, err)

/* --- planters --- */

#define IN(member) offsetof(struct plan_block, member)
static const struct range block_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "length", IN(length_um), 20 * MM, 2 * M, &in_mm },
	{ "width", IN(width_um), 20 * MM, 2 * M, &in_mm },
	{ "height", IN(height_um), 20 * MM, 2 * M, &in_mm },
	{ "joint", IN(joint_um), 0, 100 * MM, &in_mm },
	{ "density", IN(density_kg_m3), DENSITY },
	{ "price", IN(price_minor), PRICE },
};
#undef IN

#define IN(member) offsetof(struct plan_planter, member)
static const struct range planter_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "leaves", IN(leaves), 1, 2, &as_whole },
	{ "courses", IN(courses), 1, 20, &as_whole },
	{ "base", IN(base_um), REACH },
	{ "tie", IN(tie_um), 0, 100 * M, &in_mm },
	{ "cap.name", IN(cap_name), 0, 0, &as_text },
	{ "cap.length", IN(cap_um), 0, 20 * M, &in_mm },
	{ "cap.fixing", IN(cap_fixing_um), 0, 100 * M, &in_mm },
	{ "cap.price", IN(cap_price_minor), PRICE },
	{ "footing.width", IN(footing_width_um), 0, 5 * M, &in_mm },
	{ "footing.depth", IN(footing_depth_um), 0, 5 * M, &in_mm },
	{ "footing.mix", IN(footing), MIX_STABILISED_SAND, MIX_LEAN_CONCRETE, &as_word },
	{ "footing.cement", IN(cement_kg_m3), CEMENT },
	{ "fill", IN(fill_um), 0, 10 * M, &in_mm },
	{ "gravel", IN(gravel_um), 0, 10 * M, &in_mm },
	{ "weep", IN(weep_um), 0, 100 * M, &in_mm },
	{ "soil.density", IN(soil_kg_m3), 500, 3000, &in_kg_m3 },
	{ "soil.friction", IN(friction_udeg), 1000000, 60000000, &in_degrees },
	{ "soil.back_slope", IN(back_slope_udeg), 0, 60000000, &in_degrees },
	{ "soil.surcharge", IN(surcharge_pa), 0, 1000000, &in_kn_m2 },
	{ "soil.base_friction", IN(base_friction_ppm), 0, 2000000, &as_share },
	{ "soil.bearing", IN(bearing_pa), 0, 10000000, &in_kn_m2 },
};
#undef IN

#define IN(member) offsetof(struct plan_point, member)
static const struct range point_ranges[] = {
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
};
#undef IN

enum status block_check(const struct plan_block *block, const char *place, struct error *err)
{
	return CHECK(block_ranges, block, place);
}

/* The wall's points: so many, within reach, no two in one place that follow each other. */
static enum status points_check(const struct plan_planter *p, const char *place, struct error *err)
{
	size_t least = p->closed ? 3 : 2;

	if (p->count < least || p->count > PLANTER_POINTS)
		return error_set(err, STATUS_PLAN, "%spoints: %zu of them; give from %zu to %d",
		        place, p->count, least, PLANTER_POINTS);
	for (size_t i = 0; i < p->count; i++) {
		const struct plan_point *at = &p->points[i],
		                        *before = &p->points[i ? i - 1 : p->count - 1];
		char where[220];
		enum status st;

		snprintf(where, sizeof where, "%spoints[%zu].", place, i);
		if ((st = CHECK(point_ranges, at, where)) != STATUS_OK)
			return st;
		if ((i || p->closed) && at->x_um == before->x_um && at->y_um == before->y_um)
			return error_set(err, STATUS_PLAN,
			        "%spoints[%zu]: the same as the one before; leave one", place, i);
	}
	return STATUS_OK;
}

enum status planters_check(
        const struct plan_planter *planters, size_t count, const char *place, struct error *err)
{
	enum status st = check_count("planters", count, PLANTERS, place, err);

	for (size_t i = 0; st == STATUS_OK && i < count; i++) {
		char where[180], block[200];

		snprintf(where, sizeof where, "%splanters[%zu].", place, i);
		snprintf(block, sizeof block, "%sblock.", where);
		if ((st = CHECK(planter_ranges, &planters[i], where)) == STATUS_OK &&
		        (st = block_check(&planters[i].block, block, err)) == STATUS_OK)
			st = points_check(&planters[i], where, err);
	}
	return st;
}

/* --- steps --- */

#define IN(member) offsetof(struct plan_steps, member)
static const struct range steps_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
	{ "toward", IN(toward_udeg), -360000000, 360000000, &in_degrees },
	{ "width", IN(width_um), 100 * MM, 100 * M, &in_mm },
	{ "bottom", IN(bottom_um), REACH },
	{ "risers", IN(risers), 0, 100, &as_whole },
	{ "going", IN(going_um), 50 * MM, 5 * M, &in_mm },
	{ "build", IN(build), STEPS_UNITS, STEPS_BUILT, &as_word },
	{ "tread", IN(tread_um), 0, M, &in_mm },
	{ "overhang", IN(overhang_um), 0, 500 * MM, &in_mm },
	{ "bed", IN(bed_um), 0, 500 * MM, &in_mm },
	{ "tread_fall", IN(tread_fall_um_per_m), 0, 500 * MM, &in_mm_per_m },
	{ "landing", IN(landing_um), 0, 100 * M, &in_mm },
	{ "flank", IN(flank_um), 0, 5 * M, &in_mm },
};
static const struct range unit_ranges[] = {
	{ "name", IN(unit_name), 0, 0, &as_text },
	{ "length", IN(unit_length_um), 20 * MM, 20 * M, &in_mm },
	{ "depth", IN(unit_depth_um), 20 * MM, 5 * M, &in_mm },
	{ "height", IN(unit_height_um), 10 * MM, 2 * M, &in_mm },
	{ "density", IN(unit_density_kg_m3), DENSITY },
	{ "price", IN(unit_price_minor), PRICE },
};
static const struct range top_ranges[] = { { "top", IN(top_um), REACH } };
#undef IN

enum status step_unit_check(const struct plan_steps *steps, const char *place, struct error *err)
{
	return CHECK(unit_ranges, steps, place);
}

enum status steps_check(
        const struct plan_steps *steps, size_t count, const char *place, struct error *err)
{
	enum status st = check_count("steps", count, PLANTERS, place, err);

	for (size_t i = 0; st == STATUS_OK && i < count; i++) {
		char where[180], unit[200];

		snprintf(where, sizeof where, "%ssteps[%zu].", place, i);
		snprintf(unit, sizeof unit, "%sunit.", where);
		if ((st = CHECK(steps_ranges, &steps[i], where)) == STATUS_OK)
			st = step_unit_check(&steps[i], unit, err);
		if (st == STATUS_OK && steps[i].has_top)
			st = CHECK(top_ranges, &steps[i], where);
	}
	return st;
}

/* --- edging --- */

#define IN(member) offsetof(struct plan_edging, member)
static const struct range edging_ranges[] = {
	{ "joint", IN(joint_um), 0, 100 * MM, &in_mm },
	{ "depth", IN(depth_um), 0, 2 * M, &in_mm },
	{ "corner", IN(corner_um), 0, 2 * M, &in_mm },
	{ "profile", IN(profile), PROFILE_STRAIGHT, PROFILE_TONGUE, &as_word },
	{ "foot", IN(foot_um), 0, 2 * M, &in_mm },
	{ "height", IN(height_um), 0, 2 * M, &in_mm },
	{ "top", IN(top_um), -M, M, &in_mm },
	{ "bed", IN(bed), MIX_STABILISED_SAND, MIX_LEAN_CONCRETE, &as_word },
	{ "cement", IN(cement_kg_m3), CEMENT },
	{ "strip", IN(strip_um), 0, M, &in_mm },
	{ "strip_beyond", IN(strip_beyond_um), 0, M, &in_mm },
	{ "haunch", IN(haunch_um), 0, 2 * M, &in_mm },
	{ "held", IN(held_um), 0, 2 * M, &in_mm },
	{ "density", IN(density_kg_m3), DENSITY },
	{ "price", IN(price_minor), PRICE },
	{ "name", IN(name), 0, 0, &as_text },
};
#undef IN

enum status edging_check(const struct plan_edging *e, const char *place, struct error *err)
{
	enum status st = CHECK(edging_ranges, e, place);

	if (st != STATUS_OK)
		return st;
	if (e->unit_um != 0 && (e->unit_um < 20 * MM || e->unit_um > 20 * M))
		return error_set(err, STATUS_PLAN,
		        "%sunit: give from 20 to 20000 mm, or 0 where nothing is bought", place);
	if (e->mitred && !e->depth_um)
		return error_set(err, STATUS_PLAN,
		        "%smitred: a mitre needs the depth of the unit; give that too", place);
	if (e->least_um < 0 || (e->unit_um && e->least_um > e->unit_um))
		return error_set(err, STATUS_PLAN,
		        "%sleast: give from 0 up to the length of the unit", place);
	if (e->height_um && e->held_um > e->height_um)
		return error_set(err, STATUS_PLAN,
		        "%sheld: give from 0 up to the height of the unit", place);
	return STATUS_OK;
}
