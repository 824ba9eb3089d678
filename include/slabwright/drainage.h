/* drainage.h - whether channels, gullies, kerbs and the soakaway take the rain.
 *
 * The areas that drain to each come in as plain numbers; flows are theirs by the rational method at
 * the intensity of the plan's rain. Without rain areas and lengths are told, and no flow. */
#ifndef SLABWRIGHT_DRAINAGE_H
#define SLABWRIGHT_DRAINAGE_H

#include "slabwright/geom.h"
#include "slabwright/rules.h"
#include "slabwright/runoff.h"

/* Manning's n of paving beside a kerb: concrete with a broomed finish (HEC-22, table 4-3). */
#define PAVING_ROUGHNESS 0.016

/* An edge with an upstand that water reaches and runs along. */
struct drainage_edge {
	size_t edge; /* number over the whole plan, from 0 */
	double area_m2;
	double across, along; /* fall of the paving toward the edge, and along it; m per m */
	double upstand_m; /* height of the edge over the paving; 0 unknown */
};

/* What drains where. Lists may be NULL: then nothing does. */
struct drainage_areas {
	double paving_m2; /* all of it */
	const double *channel_m2, *gully_m2; /* by the plan's channels and gullies */
	const double *channel_rim_slope; /* fall of the paving along each toward its outlet, m per
	                                    m; NULL: as the channel's floor, so that it is as deep
	                                    everywhere as at its high end */
	const struct drainage_edge *edges;
	size_t edge_count;
};

enum drainage_code {
	DRAINAGE_CHANNEL_OVER, /* it runs over */
	DRAINAGE_CHANNEL_NO_LENGTH, /* no edge names it, and its two points are one */
	DRAINAGE_GULLY_OVER, /* more reaches it than it takes */
	DRAINAGE_GULLY_UNKNOWN, /* what it takes is not known */
	DRAINAGE_KERB_OVER, /* water along an edge stands higher than its upstand */
	DRAINAGE_SOAKAWAY_SMALL, /* it stores less than the rain of some duration needs */
	DRAINAGE_SOAKAWAY_SLOW, /* half empty later than the rule set allows */
	DRAINAGE_SOAKAWAY_NEAR, /* nearer to a house wall than the rule set allows */
	DRAINAGE_SOIL_SLOW, /* the soil takes less than the rule set's least */
	DRAINAGE_RAIN_SHORT, /* at the table's longest duration the store is still filling */
	DRAINAGE_SURFACE_SLOW, /* a permeable surface takes less than it rains */
	DRAINAGE_SUB_BASE_SMALL, /* the sub-base stores less than the rain needs */
	DRAINAGE_SUB_BASE_SLOW, /* half empty later than the rule set allows */
	DRAINAGE_FRONT_GARDEN, /* paving that drains nowhere of its own, over the planning area */
};

struct drainage_warning {
	enum drainage_code code;
	const char *place; /* "channel 1", "soakaway" */
	const char *text; /* place, what is wrong and the remedy, a sentence or two */
};
const char *drainage_code_name(enum drainage_code code); /* "soakaway-small" */

struct channel_result {
	const char *name; /* its own, or "channel 1" */
	double length_m, area_m2, flow_l_s;
	int runs; /* 1, or 2 where it has an outlet at both ends */
	double run_flow_l_s; /* out of each */
	struct channel_depths depths; /* of a run */
	double normal_m, velocity_m_s; /* even flow at the outlet by Manning; a level floor:
	                                  critical depth there */
	double capacity_l_s; /* what all its runs take together with no freeboard left */
	double full_l_s; /* even flow at full depth by Manning; 0 on a level floor */
	int least_outlets; /* 0: none would do, or no flow known */
};

struct gully_result {
	const char *name;
	double area_m2, flow_l_s, capacity_l_s; /* 0 unknown */
};

struct kerb_flow {
	size_t edge;
	double area_m2, flow_l_s;
	bool runs; /* false: no fall along it or toward it; no spread */
	double spread_m, depth_m, velocity_m_s; /* at its low end */
};

/* One duration of the rain table against a store. */
struct storage_row {
	int64_t minutes;
	double mm_per_h, in_m3, out_m3, needed_m3; /* needed: not under 0 */
};

/* A store with a soil that drains it: soakaway, or sub-base under a permeable surface. */
struct storage_result {
	bool has;
	double area_m2; /* that drains to it */
	double given_m3, needed_m3; /* the most of all durations */
	double out_m3_s; /* what the soil takes */
	double half_empty_h; /* until half of what is needed has gone; infinite where none goes */
	int64_t worst_minutes;
	struct storage_row *rows; /* by the rain table's */
	size_t count;
};

struct drainage {
	bool has_rain;
	double mm_per_h; /* at which flows are worked out */
	double runoff; /* C */
	struct channel_result *channels; /* by the plan's channels */
	size_t channel_count;
	struct gully_result *gullies;
	size_t gully_count;
	struct kerb_flow *kerbs; /* by the edges that came in */
	size_t kerb_count;
	struct storage_result soakaway, sub_base;
	double to_house_m; /* from the soakaway's rim to the nearest house wall; infinite: none */
	struct drainage_warning *warnings;
	size_t warning_count;
};

/* Keys of the rule set it looks for: "soakaway_distance", "half_empty", "soil_rate_min",
 * "front_garden_area". Numbers are thousandths of the rule's unit. Everything in *out lives in mem;
 * the plan and the areas must outlive it. STATUS_MEMORY. */
enum status drainage_work_out(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, const struct rules *rules, struct drainage *out,
        struct error *err);

#endif
