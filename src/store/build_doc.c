/* build_doc.c - planters and steps as JSON, and all that stands beside the paving together. */
#include "plan_doc.h"

#include <stddef.h>

static const char *mix_word(int value)
{
	return bed_mix_name((enum bed_mix)value);
}

static const char *build_word(int value)
{
	return steps_build_name((enum steps_build)value);
}

const struct words bed_words = { mix_word, bed_mix_parse, 2, "mix" };
static const struct words build_words = { build_word, steps_build_parse, 2, "way to build steps" };
_Static_assert(sizeof(enum bed_mix) == sizeof(int), "words are kept as int");
_Static_assert(sizeof(enum steps_build) == sizeof(int), "words are kept as int");

/* --- planters --- */

#define BLOCK(member) .at = offsetof(struct plan_block, member)
static const struct field block_fields[] = {
	{ "name", FIELD_TEXT, 0, BLOCK(name) },
	{ "length", FIELD_MM, FIELD_REQUIRED, BLOCK(length_um) },
	{ "width", FIELD_MM, FIELD_REQUIRED, BLOCK(width_um) },
	{ "height", FIELD_MM, FIELD_REQUIRED, BLOCK(height_um) },
	{ "joint", FIELD_MM, FIELD_ALWAYS, BLOCK(joint_um) },
	{ "half", FIELD_BOOL, 0, BLOCK(has_half) },
	{ "corner", FIELD_BOOL, 0, BLOCK(has_corner) },
	{ "density", FIELD_WHOLE, 0, BLOCK(density_kg_m3) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, BLOCK(price_minor) },
};
const struct shape block_shape = SHAPE(block_fields);

#define PLANTER(member) .at = offsetof(struct plan_planter, member)
static const struct field cap_fields[] = {
	{ "name", FIELD_TEXT, 0, PLANTER(cap_name) },
	{ "length", FIELD_MM, 0, PLANTER(cap_um) },
	{ "fixing", FIELD_MM, 0, PLANTER(cap_fixing_um) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, PLANTER(cap_price_minor) },
};
static const struct shape cap_shape = SHAPE(cap_fields);

static const struct field footing_fields[] = {
	{ "width", FIELD_MM, FIELD_ALWAYS, PLANTER(footing_width_um) },
	{ "depth", FIELD_MM, FIELD_ALWAYS, PLANTER(footing_depth_um) },
	{ "mix", FIELD_WORD, FIELD_ALWAYS, PLANTER(footing), &bed_words },
	{ "cement", FIELD_WHOLE, FIELD_ALWAYS, PLANTER(cement_kg_m3) },
};
static const struct shape footing_shape = SHAPE(footing_fields);

static const struct field soil_fields[] = {
	{ "density", FIELD_WHOLE, FIELD_ALWAYS, PLANTER(soil_kg_m3) },
	{ "friction", FIELD_DEGREES, FIELD_ALWAYS, PLANTER(friction_udeg) },
	{ "back_slope", FIELD_DEGREES, FIELD_ALWAYS, PLANTER(back_slope_udeg) },
	{ "surcharge", FIELD_THOUSAND, FIELD_ALWAYS, PLANTER(surcharge_pa) },
	{ "base_friction", FIELD_SHARE, FIELD_ALWAYS, PLANTER(base_friction_ppm) },
	{ "bearing", FIELD_THOUSAND, FIELD_ALWAYS, PLANTER(bearing_pa) },
};
static const struct shape soil_shape = SHAPE(soil_fields);

static const struct list point_list =
        LIST(point_shape, struct plan_planter, PLANTER_POINTS, points, count);

static const struct field planter_fields[] = {
	{ "name", FIELD_TEXT, 0, PLANTER(name) },
	{ "points", FIELD_LIST, FIELD_REQUIRED | FIELD_TIGHT, PLANTER(points),
	        .list = &point_list },
	{ "closed", FIELD_BOOL, FIELD_ALWAYS, PLANTER(closed) },
	{ "block", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, PLANTER(block),
	        .shape = &block_shape },
	{ "leaves", FIELD_WHOLE, FIELD_ALWAYS, PLANTER(leaves) },
	{ "courses", FIELD_WHOLE, FIELD_ALWAYS, PLANTER(courses) },
	{ "base", FIELD_MM, FIELD_ALWAYS, PLANTER(base_um) },
	{ "tie", FIELD_MM, FIELD_ALWAYS, PLANTER(tie_um) },
	{ "cap", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &cap_shape },
	{ "footing", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &footing_shape },
	{ "fill", FIELD_MM, FIELD_ALWAYS, PLANTER(fill_um) },
	{ "gravel", FIELD_MM, FIELD_ALWAYS, PLANTER(gravel_um) },
	{ "weep", FIELD_MM, FIELD_ALWAYS, PLANTER(weep_um) },
	{ "liner", FIELD_BOOL, FIELD_ALWAYS, PLANTER(liner) },
	{ "soil", FIELD_OBJECT, FIELD_TIGHT, 0, .shape = &soil_shape },
};
static const struct shape planter_shape = SHAPE(planter_fields);
const struct list planter_list =
        LIST(planter_shape, struct plan, PLANTERS, planters, planter_count);

void planter_begin(void *item)
{
	planter_init(item);
}

/* --- steps --- */

#define STEPS(member) .at = offsetof(struct plan_steps, member)
static const struct field unit_fields[] = {
	{ "name", FIELD_TEXT, 0, STEPS(unit_name) },
	{ "length", FIELD_MM, FIELD_REQUIRED, STEPS(unit_length_um) },
	{ "depth", FIELD_MM, FIELD_REQUIRED, STEPS(unit_depth_um) },
	{ "height", FIELD_MM, FIELD_REQUIRED, STEPS(unit_height_um) },
	{ "density", FIELD_WHOLE, 0, STEPS(unit_density_kg_m3) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, STEPS(unit_price_minor) },
};
const struct shape step_unit_shape = SHAPE(unit_fields);

static const struct field steps_fields[] = {
	{ "name", FIELD_TEXT, 0, STEPS(name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, STEPS(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, STEPS(y_um) },
	{ "toward", FIELD_DEGREES, FIELD_ALWAYS, STEPS(toward_udeg) },
	{ "width", FIELD_MM, FIELD_ALWAYS, STEPS(width_um) },
	{ "bottom", FIELD_MM, FIELD_REQUIRED, STEPS(bottom_um) },
	{ "top", FIELD_MM, FIELD_HAS, STEPS(top_um), .has = offsetof(struct plan_steps, has_top) },
	{ "risers", FIELD_WHOLE, 0, STEPS(risers) },
	{ "going", FIELD_MM, FIELD_ALWAYS, STEPS(going_um) },
	{ "build", FIELD_WORD, FIELD_ALWAYS, STEPS(build), &build_words },
	{ "unit", FIELD_OBJECT, FIELD_ALWAYS | FIELD_TIGHT, 0, .shape = &step_unit_shape },
	{ "tread", FIELD_MM, 0, STEPS(tread_um) },
	{ "overhang", FIELD_MM, 0, STEPS(overhang_um) },
	{ "bed", FIELD_MM, FIELD_ALWAYS, STEPS(bed_um) },
	{ "tread_fall", FIELD_THOUSAND, FIELD_ALWAYS, STEPS(tread_fall_um_per_m) },
	{ "landing", FIELD_MM, 0, STEPS(landing_um) },
	{ "flank", FIELD_MM, 0, STEPS(flank_um) },
};
static const struct shape steps_shape = SHAPE(steps_fields);
const struct list steps_list = LIST(steps_shape, struct plan, PLANTERS, steps, steps_count);

void steps_begin(void *item)
{
	steps_init(item);
}

/* --- all of it --- */

static const struct field beside_fields[BESIDE_PARTS] = { BESIDE_FIELDS(0) };
const struct shape beside_shape = SHAPE(beside_fields);

struct shape beside_part(int part)
{
	return (struct shape){ &beside_fields[part], 1 };
}
