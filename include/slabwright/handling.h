/* handling.h - what a thing weighs, and by whom or what it may be lifted. */
#ifndef SLABWRIGHT_HANDLING_H
#define SLABWRIGHT_HANDLING_H

#include "slabwright/rules.h"

#include <stddef.h>

enum lift_class {
	LIFT_UNKNOWN, /* the mass is not known */
	LIFT_NO_LIMIT, /* the rule set names none */
	LIFT_ONE, /* one person */
	LIFT_TWO, /* two people, or an aid */
	LIFT_AID, /* too much for two: a lifting aid or plant */
};
const char *lift_class_name(enum lift_class lift); /* "one person" */

struct handling {
	double kg; /* 0 unknown */
	enum lift_class lift;
	int64_t one_g, two_g; /* limits, grams; 0 none */
	const char *source; /* of the limit that is passed, or that of one person; "" for none */
};

/* Mass of a block of these sides, kg; 0 where a side or the density is not known. */
double block_mass_kg(int64_t length_um, int64_t width_um, int64_t height_um, int64_t density_kg_m3);

/* Held against the rules "lift_one_person" and "lift_two_people"; without the second, two people
 * lift two thirds of what both lift singly (common practice, no source). A mass at the limit is
 * within it; masses are compared to the gram. */
struct handling handling_of(const struct rules *rules, double kg);

/* "28.5 kg, over the 25 kg for one person (SOURCE): two people or a lifting aid". Returns buf; 400
 * bytes are enough for the sources that come with the program. */
char *handling_print(char *buf, size_t size, const struct handling *h);

#endif
