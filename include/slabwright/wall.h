/* wall.h - low walls that hold soil: thrust, overturning, sliding, bearing. Per metre of wall.
 *
 * Rankine's active state: drained soil without cohesion, thrust parallel to the soil's slope. No
 * design: local codes and licensed practice come first, and above the rule set's height or with a
 * surcharge an engineer designs the wall whatever the figures say. */
#ifndef SLABWRIGHT_WALL_H
#define SLABWRIGHT_WALL_H

#include "slabwright/error.h"
#include "slabwright/plan_build.h"
#include "slabwright/rules.h"

#define GRAVITY_M_S2 9.80665

struct wall_soil {
	double weight_n_m3;
	double friction_deg; /* angle of internal friction */
	double slope_deg; /* of the soil behind, rising from the wall */
	double surcharge_pa; /* evenly spread on it */
};

/* Rankine's coefficient, cos b * (cos b - r) / (cos b + r) with r = sqrt(cos2 b - cos2 phi); level
 * soil: (1 - sin phi) / (1 + sin phi). -1 where the soil is steeper than its friction allows, and
 * where an angle is out of 0 up to 90 degrees. */
double wall_active_coefficient(double friction_deg, double slope_deg);

struct wall_thrust {
	double ka;
	double soil_n, surcharge_n; /* ka g h h / 2 at h / 3 and ka q h at h / 2, parallel to the
	                               slope */
	double across_n, down_n; /* both together: level part, and what presses the wall down at its
	                            back */
	double at_m; /* height over the base where the level part acts; 0 without thrust */
};

/* False where there is no coefficient. No thrust for a height of 0 or less. */
bool wall_thrust(const struct wall_soil *soil, double height_m, struct wall_thrust *out);

/* What resists: a block of wall on a bed. The toe is the base's front edge. */
struct wall_body {
	double weight_n, arm_m; /* its middle of mass from the toe */
	double base_m;
	double friction; /* wall on its bed */
};

struct wall_forces {
	double restoring_nm, overturning_nm; /* about the toe */
	double fs_overturning, fs_sliding; /* infinite without thrust */
	double resultant_m, eccentricity_m; /* from the toe; of the base's middle */
	bool kern; /* the resultant lies in the middle third: all of the base presses */
	bool topples; /* it lies beyond the toe: no pressure can be told */
	/* Within the kern W / B (1 +- 6 e / B); beyond it the heel lifts and a triangle of three
	 * times the resultant's distance carries, 2 W / (3 x). */
	double pressure_most_pa, pressure_least_pa;
};

void wall_forces(
        const struct wall_thrust *thrust, const struct wall_body *body, struct wall_forces *out);

/* The limits in force. Where the rule set has none, factors are 1.5 (common practice) and there is
 * no height. */
struct wall_limits {
	double fs_overturning, fs_sliding;
	const char *overturning_source, *sliding_source;
	const struct rule *height; /* from the bottom of the footing to the top; NULL none */
	const struct rule *fill; /* soil over the ground in front; NULL none */
};
void wall_limits(const struct rules *rules, struct wall_limits *out);

enum wall_verdict {
	WALL_UNKNOWN, /* a value is missing, or no rule set says up to which height */
	WALL_ENGINEER, /* over the rule set's height, or with a surcharge */
	WALL_FAILS, /* a factor is not reached, or the ground does not bear it */
	WALL_MEETS, /* all are reached */
};
const char *wall_verdict_name(enum wall_verdict verdict); /* "unknown", "engineer" ... */

/* Where the wall was looked at: under its footing, or on the bed under a course. */
struct wall_level {
	int64_t course; /* from 1; 0: the bottom of the footing */
	double height_m; /* of soil over it */
	double width_m; /* that acts as one */
	struct wall_thrust thrust;
	struct wall_forces forces;
};

struct wall_result {
	bool worked_out; /* else only verdict and reason are set */
	double height_m; /* bottom of the footing to the top of the wall */
	double fill_m; /* soil over the ground in front, as told */
	struct wall_limits limits;
	struct wall_level *levels; /* the footing's first, then bed by bed from below as far as soil
	                              reaches */
	size_t count;
	size_t overturning, sliding; /* the levels with the least factors */
	double bearing_pa; /* as the plan says; 0 unknown */
	enum wall_verdict verdict;
	const char *reason; /* in words, with figures */
};

extern const char WALL_CAUTION[]; /* stands beside the figures wherever they are shown */

/* Looks at a planter's wall, that weighs mass_kg a metre above its lowest bed, in even courses.
 *
 * No mortar holds a joint together and no cramp is counted on: at each bed the courses above stand
 * by their weight, with the plan's friction of the wall on its bed. Leaves without ties act each by
 * itself. On the footing the wall stands in the middle; soil upon the footing and the ground in
 * front are left out, and soil presses on the footing's back too: all of it on the safe side.
 * fill_m is what the rule for soil over the ground in front looks at. STATUS_MEMORY. */
enum status wall_work_out(struct arena *mem, const struct plan_planter *planter, double mass_kg,
        double fill_m, const struct rules *rules, struct wall_result *out, struct error *err);

#endif
