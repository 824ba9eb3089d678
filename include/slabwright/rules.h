/* rules.h - a rule set: limits as data, each with its source.
 *
 * Local codes and licensed practice take precedence over every rule set. */
#ifndef SLABWRIGHT_RULES_H
#define SLABWRIGHT_RULES_H

#include "slabwright/arena.h"

#include <stdbool.h>
#include <stdint.h>

/* One limit. A key that is not there is no limit. Keys in use:
 *   falls, um per m: "fall_min", "fall_max", "valley_fall_min"
 *   levels, um: "below_dpc_min" (of the surface under the damp-proof course)
 *   masses, grams: "lift_one_person", "lift_two_people"
 *   drainage: "soakaway_distance" (um, least to a house wall), "half_empty" (thousandths of an
 *     hour, most), "soil_rate_min" (um an hour), "front_garden_area" (thousandths of a m2, most)
 *   as built, most either way: "level_tolerance", "place_tolerance", "flatness_3m",
 *     "flatness_2m", "puddle_depth" (um), "puddle_area" (thousandths of a m2)
 *   walls: "wall_height_max", "wall_fill_max" (um); "wall_fs_overturning", "wall_fs_sliding"
 *     (thousandths)
 *   steps, um: "riser_min", "riser_max", "riser_spread_max" (largest riser of a flight less the
 *     smallest), "going_min", "going_max", "two_r_plus_g_min", "two_r_plus_g_max" (two risers and a
 *     going), "flight_rise_max", "step_width_min", "landing_min", "guard_drop" (a higher drop is
 *     guarded)
 *   steps, thousandths of a degree: "pitch_max"
 *   steps, thousandths of a riser: "handrail_risers", "guard_risers" (wanted from so many on) */
struct rule {
	const char *key;
	int64_t number;
	const char *unit; /* as it is shown: "mm/m", "kg", "mm", "degrees", "risers" */
	const char *source; /* title, publisher, year, clause; or "common practice" */
};

struct rules {
	const char *name, *place, *date;
	struct rule *items;
	size_t count;
};

/* The rule with that key, or NULL. */
const struct rule *rules_find(const struct rules *rules, const char *key);

#endif
