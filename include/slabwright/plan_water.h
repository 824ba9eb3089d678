/* plan_water.h - the part of a plan that says where rain goes: rain, channels, gullies, soakaway.
 *
 * Plain values, as in plan.h. */
#ifndef SLABWRIGHT_PLAN_WATER_H
#define SLABWRIGHT_PLAN_WATER_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdint.h>

/* What falls at most, over so many minutes, at a place and return period: one row of a table. */
struct rain_row {
	int64_t minutes; /* 1 to 100000, growing from row to row */
	int64_t um_per_h; /* mean intensity over them, micrometres an hour: 50 mm/h is 50000 */
};

#define RAIN_ROWS 32 /* at most, of a table */

/* Picked from a table or typed; without rows no flow is worked out. */
struct plan_rain {
	const char *name, *source; /* place and return period; where the figures come from */
	struct rain_row *rows;
	size_t count;
	int64_t minutes; /* the duration whose intensity flows are worked out with; read between
	                    rows; 0: the shortest row */
};

/* Which end of a channel its water leaves by. */
enum channel_outlet { OUTLET_FIRST, OUTLET_LAST, OUTLET_BOTH };

#define CHANNELS 32 /* at most, of a plan; and gullies */

/* A drainage channel of rectangular section: along the edges that name it (plan_node.channel), or,
 * where no edge does, along the straight line between its two points. */
struct plan_channel {
	const char *name;
	int64_t x1_um, y1_um, x2_um, y2_um; /* mean nothing where an edge names the channel */
	int64_t width_um, depth_um; /* clear inside; the depth at its high end */
	int64_t fall_um_per_m; /* of its floor, toward its outlet; 0 level */
	int64_t roughness_ppm; /* Manning's n, millionths: 0.012 is 12000 */
	enum channel_outlet outlet;
};

/* A point that takes the water which reaches it. */
struct plan_gully {
	const char *name;
	int64_t x_um, y_um;
	int64_t capacity_ml_s; /* what it takes, millilitres a second; 0 unknown */
};

/* A pit filled with stone or crates. Takes what the channels and gullies collect. */
struct plan_soakaway {
	bool has;
	int64_t x_um, y_um; /* its middle */
	int64_t length_um, width_um;
	int64_t depth_um; /* under the inlet: what stores */
	int64_t voids_ppm; /* share of it that holds water; crates 950000, stone 300000 (common
	                      practice) */
	int64_t soil_nm_s; /* infiltration rate of the soil, nanometres a second: 1e-5 m/s is 10000
	                    */
};

struct plan_water {
	struct plan_rain rain;
	int64_t runoff_ppm; /* share of the rain that runs off the paving */
	bool permeable; /* the surface lets water through into the sub-base, which stores it */
	int64_t surface_nm_s; /* at which rate, over its whole area */
	int64_t voids_ppm; /* of the sub-base */
	int64_t soil_nm_s; /* at which rate the soil under it takes water */
	struct plan_channel *channels;
	size_t channel_count;
	struct plan_gully *gullies;
	size_t gully_count;
	struct plan_soakaway soakaway;
};

/* Nothing laid out: no rain, all of it runs off, no channels, gullies, soakaway. A channel of 100 x
 * 100 mm with level floor, n 0.012 (concrete, common practice), outlet at its last end. A soakaway
 * that is there: 1.5 x 1 m, 1 m deep, crates, soil of 1e-5 m/s (to be tested on site). */
void water_init(struct plan_water *water);
void channel_init(struct plan_channel *channel);
void soakaway_init(struct plan_soakaway *soakaway);

/* A deep copy; false when memory is gone. `to` may be `from`. */
bool water_copy(struct arena *mem, const struct plan_water *from, struct plan_water *to);

/* The words of the exchange format, and back: -1 for a word that is none. */
const char *channel_outlet_name(enum channel_outlet outlet);
int channel_outlet_parse(const char *word);

/* Refuses (STATUS_PLAN), naming place, value and limits: names over 200 bytes or not UTF-8; more
 * than RAIN_ROWS rows, minutes not from 1 to 100000 or not growing, an intensity not over 0 and up
 * to 1000 mm/h; shares of runoff and voids not from 0 to 1, rates at which a permeable surface (up
 * to 0.1 m/s) and the soil (up to 0.01 m/s) let water through; more than CHANNELS channels or
 * gullies, a channel not 20 mm to 2 m wide and 10 mm to 2 m deep, a fall over 1:2, n not from 0.005
 * to 0.1; a gully that takes over 1000 l/s; a soakaway not of 0.1 to 50 m, 0.1 to 10 m deep, with
 * 0.01 to 1 of voids, in soil of over 0 and up to 0.01 m/s; points out of reach. `place` is put
 * before ("variants[0].water."), "" for none. Where channels lie is for plan_channels_check. */
enum status water_check(const struct plan_water *water, const char *place, struct error *err);
/* The part of it that is about the rain; `place` ends in "rain.". */
enum status rain_check(const struct plan_rain *rain, const char *place, struct error *err);

#endif
