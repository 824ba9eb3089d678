/* plan_build.h - the part of a plan that is built beside the paving: planters and steps.
 *
 * Plain values, as in plan.h. */
#ifndef SLABWRIGHT_PLAN_BUILD_H
#define SLABWRIGHT_PLAN_BUILD_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdint.h>

#define PLANTERS 16 /* at most, of a plan; and flights of steps */
#define PLANTER_POINTS 64

/* What an edging stands in, or a wall on. */
enum bed_mix { MIX_STABILISED_SAND, MIX_LEAN_CONCRETE };

struct plan_point {
	int64_t x_um, y_um;
};

/* The block a wall is built of, and how it comes. */
struct plan_block {
	const char *name; /* as in the catalogue; "" for one typed in */
	int64_t length_um, width_um, height_um; /* along the wall, across it, up; work size */
	int64_t joint_um; /* between blocks, and between courses; 0 laid dry */
	bool has_half; /* half blocks can be bought; else they are cut */
	bool has_corner; /* corner blocks can be bought */
	int64_t density_kg_m3; /* 0 unknown */
	int64_t price_minor; /* of one block; -1 unknown */
};

/* A wall of blocks that holds soil: a run of straight legs, open or closed to a box. */
struct plan_planter {
	const char *name;
	struct plan_point *points; /* the wall's outer face, in order; the wall lies to the left of
	                              the way along it */
	size_t count;
	bool closed;
	struct plan_block block;
	int64_t leaves; /* 1, or 2: two blocks side by side across the wall */
	int64_t courses;
	int64_t base_um; /* level of the underside of the first course; the wall is level */
	int64_t tie_um; /* greatest spacing of ties along a course; 0 none */
	const char *cap_name; /* continuous profile or coping on top */
	int64_t cap_um; /* length of one; 0 none */
	int64_t cap_fixing_um; /* greatest spacing of its fixings: 1.8 m (common practice) */
	int64_t cap_price_minor; /* of one; -1 unknown */
	int64_t footing_width_um, footing_depth_um;
	enum bed_mix footing;
	int64_t cement_kg_m3; /* of the footing */
	/* the soil it holds */
	int64_t fill_um; /* height of soil over the underside of the first course */
	int64_t gravel_um; /* drainage layer at the bottom, of that height */
	int64_t weep_um; /* greatest spacing of drainage holes; 0 none */
	bool liner;
	int64_t soil_kg_m3;
	int64_t friction_udeg; /* angle of internal friction */
	int64_t back_slope_udeg; /* of the soil behind, rising from the wall */
	int64_t surcharge_pa; /* evenly spread load on the soil, N/m2 */
	int64_t base_friction_ppm; /* wall on its bed: 0.5 is 500000 */
	int64_t bearing_pa; /* what the ground under the footing bears; 0 unknown */
};

enum steps_build {
	STEPS_UNITS, /* heavy prefabricated step units, one on another */
	STEPS_BUILT, /* risers of kerbs or blocks with slabs on them */
};

/* A flight of steps down from the paving. */
struct plan_steps {
	const char *name;
	int64_t x_um, y_um; /* middle of the top nosing, where the paving ends */
	int64_t toward_udeg; /* the way down */
	int64_t width_um;
	int64_t bottom_um; /* level of what the flight comes down to */
	bool has_top; /* else the paving's level at the nosing */
	int64_t top_um;
	int64_t risers; /* 0: chosen */
	int64_t going_um;
	enum steps_build build;
	/* the unit, or the slab of the tread and what its riser is made of */
	const char *unit_name;
	int64_t unit_length_um; /* along the step's width */
	int64_t unit_depth_um; /* front to back */
	int64_t unit_height_um;
	int64_t unit_density_kg_m3; /* 0 unknown */
	int64_t unit_price_minor; /* of one; -1 unknown */
	int64_t tread_um; /* built: thickness of the tread's slab; else 0 */
	int64_t overhang_um; /* built: of the tread over its riser */
	int64_t bed_um; /* under each unit or tread */
	int64_t tread_fall_um_per_m; /* to the front */
	int64_t landing_um; /* length of the landing at the foot; 0 none */
	int64_t flank_um; /* width of a flank wall on each side; 0 none */
};

/* A planter without points: one leaf of 440 x 100 x 215 blocks laid with 10 mm joints, two courses,
 * ties at 0.9 m, fixings of a cap at 1.8 m, 300 x 150 mm of lean concrete (200 kg/m3) under it,
 * 0.35 m of soil (1800 kg/m3, 30 degrees) on 50 mm of gravel, weep holes at 1 m; no price. A flight
 * at the origin: 1.2 m wide, of units 1200 x 350 x 150 that go 300 mm, 30 mm of bed, 15 mm/m of
 * fall; no price. All common practice. */
void planter_init(struct plan_planter *planter);
void steps_init(struct plan_steps *steps);

/* Deep copies; false when memory is gone. */
bool planters_copy(
        struct arena *mem, const struct plan_planter *from, size_t count, struct plan_planter **to);
bool steps_copy(
        struct arena *mem, const struct plan_steps *from, size_t count, struct plan_steps **to);

/* The words of the exchange format, and back: -1 for a word that is none. */
const char *bed_mix_name(enum bed_mix mix);
int bed_mix_parse(const char *word);
const char *steps_build_name(enum steps_build build);
int steps_build_parse(const char *word);

/* Refuses (STATUS_PLAN) what no block can be: sides not from 20 mm to 2 m, a joint over 100 mm, a
 * density over 20000 kg/m3, a name over 200 bytes or not UTF-8. `place` as in water_check. */
enum status block_check(const struct plan_block *block, const char *place, struct error *err);

/* Refuses (STATUS_PLAN), naming place, value and limits: more than PLANTERS; fewer than 2 points (3
 * of a closed wall), more than PLANTER_POINTS, one after another in one place; what block_check
 * refuses; other than 1 or 2 leaves, 1 to 20 courses; spacings over 100 m, a footing over 5 m, fill
 * over 10 m, soil not of 500 to 3000 kg/m3 and 1 to 60 degrees, loads over 1000 kN/m2 and ground
 * that bears over 10000. Whether such a wall can be built and stands is for the computation. */
enum status planters_check(
        const struct plan_planter *planters, size_t count, const char *place, struct error *err);

/* Refuses a step unit not 20 mm to 20 m long, 20 mm to 5 m deep and 10 mm to 2 m high, of a density
 * over 20000 kg/m3, or with a name over 200 bytes or not UTF-8. */
enum status step_unit_check(const struct plan_steps *steps, const char *place, struct error *err);

/* Refuses more than PLANTERS flights; a width not from 0.1 to 100 m, over 100 risers, a going not
 * from 50 mm to 5 m, what step_unit_check refuses, a tread over 1 m thick, overhang and bed over
 * 0.5 m, a fall over 1:2, a landing over 100 m, a flank over 5 m; points and levels out of reach.
 */
enum status steps_check(
        const struct plan_steps *steps, size_t count, const char *place, struct error *err);

#endif
