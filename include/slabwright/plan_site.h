/* plan_site.h - the part of a plan that is measured on site: levelling book, ground levels, what to
 * dig, baseline and pegs, and what was built.
 *
 * Plain values, as in plan.h. */
#ifndef SLABWRIGHT_PLAN_SITE_H
#define SLABWRIGHT_PLAN_SITE_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdint.h>

#define SITE_ITEMS 2000 /* at most, of each list here */
#define NO_READING INT64_MIN

/* One line of a levelling book: what the staff reads on a point. The first has a backsight, the
 * last a foresight, a change point both, in one line; the others an intermediate sight. A staff
 * held upside down under something overhead reads negative. */
struct plan_reading {
	const char *name; /* of the point */
	int64_t backsight_um, intermediate_um, foresight_um; /* NO_READING where there is none */
	bool has_place; /* then it is a ground level too */
	int64_t x_um, y_um;
};

struct plan_book {
	struct plan_reading *readings;
	size_t count;
	int64_t start_um; /* known level of the first point */
	bool has_close; /* the last point's level is known */
	int64_t close_um;
	int64_t allow_um; /* misclosure allowed: this times the root of the set-ups; default 5 mm
	                     (common practice) */
	bool adjust; /* the misclosure is spread over the set-ups */
};

/* A level of the ground as it was found. */
struct plan_spot {
	const char *name; /* "" for none */
	int64_t x_um, y_um, level_um;
};

/* What is dug beside and beyond the plan, and how the soil changes its volume. */
struct plan_earth {
	int64_t over_dig_um; /* outward beyond the outline */
	int64_t topsoil_um; /* stripped first and kept apart */
	int64_t bulking_ppm; /* what is dug grows by this: 250000 is 25 % */
	int64_t compaction_ppm; /* what is filled loose shrinks by this when compacted */
};

struct plan_baseline {
	bool has;
	int64_t x1_um, y1_um, x2_um, y2_um; /* runs from the first to the second point */
};

struct plan_peg {
	const char *name;
	int64_t x_um, y_um;
};

/* A point measured after laying. */
struct plan_measured {
	const char *name; /* of the point as the level sheet names it, or any */
	int64_t x_um, y_um; /* where in the plan it should be */
	bool has_level, has_place;
	int64_t level_um; /* measured */
	int64_t at_x_um, at_y_um; /* measured */
};

struct plan_site {
	struct plan_book book;
	struct plan_spot *spots;
	size_t spot_count;
	struct plan_earth earth;
	struct plan_baseline baseline;
	struct plan_peg *pegs;
	size_t peg_count;
	struct plan_measured *measured;
	size_t measured_count;
};

/* Nothing measured: empty lists, misclosure of 5 mm times the root of the set-ups, spread; 150 mm
 * over-dig, no topsoil, bulking 25 %, compaction 10 % (common practice). */
void site_init(struct plan_site *site);

/* A deep copy; false when memory is gone. `to` may be `from`. */
bool site_copy(struct arena *mem, const struct plan_site *from, struct plan_site *to);

/* Refuses (STATUS_PLAN), naming place, value and limits: names over 200 bytes or not UTF-8; lists
 * of more than SITE_ITEMS; readings over 20 m either way; a misclosure allowed of over 1 m;
 * over-dig over 10 m, topsoil over 2 m, bulking over 2, compaction over 0.9; a baseline whose
 * points are one; points and levels out of reach. Whether a book is complete is for the
 * computation. `place` as in water_check. */
enum status site_check(const struct plan_site *site, const char *place, struct error *err);

#endif
