/* rules.h - a rule set: limits as data, each with its source.
 *
 * Local codes and licensed practice take precedence over every rule set. */
#ifndef SLABWRIGHT_RULES_H
#define SLABWRIGHT_RULES_H

#include "slabwright/arena.h"

#include <stdbool.h>
#include <stdint.h>

/* One limit. Keys in use: "fall_min", "fall_max" (um per m); "lift_one_person" (grams);
 * "wall_height_max", "wall_fill_max" (um); "wall_fs_overturning", "wall_fs_sliding" (thousandths).
 * A key that is not there is no limit. */
struct rule {
	const char *key;
	int64_t number;
	const char *unit; /* as it is shown: "mm/m", "kg" */
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
