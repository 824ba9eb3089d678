/* units.h - typing and printing of lengths, falls, angles and fractions.
 *
 * Inside, a length or level is a signed count of micrometres (um), a fall micrometres per metre, an
 * angle microdegrees. 1/64 in is 396.875 um and is kept to the nearest micrometre. The decimal sign
 * may be '.' or ','; a typed value that cannot be read is refused with the reason. */
#ifndef SLABWRIGHT_UNITS_H
#define SLABWRIGHT_UNITS_H

#include "slabwright/error.h"

#include <stddef.h>
#include <stdint.h>

#define UM_PER_MM INT64_C(1000)
#define UM_PER_M INT64_C(1000000)
#define UDEG_PER_DEG INT64_C(1000000)
#define COORD_LIMIT_UM (INT64_C(1000) * UM_PER_M) /* coordinates stay within 1 km of the origin */

enum unit { UNIT_M, UNIT_CM, UNIT_MM, UNIT_FT_IN };

/* Reads a length: `3,62`, `3.62 m`, `362cm`, `3620 mm`, `12' 6 3/8"`, `12 ft`, `6 3/8 in`,
 * `-0,05`. A bare number is in `usual` (for UNIT_FT_IN a bare number is feet). Nothing may follow
 * but blanks. Refuses (STATUS_USAGE) what is not a number, an unknown unit, and what lies beyond 10
 * km. */
enum status length_parse(const char *text, enum unit usual, int64_t *um, struct error *err);

/* Reads a fall: `15`, `15 mm/m`, `1,5 %`, `1:60`, `1/4 in/ft`. A bare number is mm per m. Refuses a
 * negative one and what is steeper than 1:1. */
enum status fall_parse(const char *text, int64_t *um_per_m, struct error *err);

/* Reads an angle in degrees, from -360 to 360: `45`, `22,5`, `45 deg`. */
enum status angle_parse(const char *text, int64_t *udeg, struct error *err);

/* Reads a fraction from 0 up to but not 1: `1/3`, `0,25`, `0`. */
enum status fraction_parse(const char *text, double *fraction, struct error *err);

/* Prints a length with its unit: `3.620 m`, `362.0 cm`, `3620 mm`, `11' 10 33/64"`. Metres to the
 * mm (more decimals only where the value has them), centimetres to the mm, millimetres to the um
 * where there are any, feet-inches to the nearest 1/64 in. Returns buf, always terminated. */
char *length_print(char *buf, size_t size, int64_t um, enum unit unit);

/* As length_print without the unit's name. */
char *length_print_bare(char *buf, size_t size, int64_t um, enum unit unit);

/* Prints a fall in all three trade forms: `16.7 mm/m (1.67 %, 1:60)`; a level one prints `0 mm/m
 * (level)`. */
char *fall_print(char *buf, size_t size, int64_t um_per_m);

/* Prints millimetres with at most three decimals and no trailing zeros, as the exchange format and
 * level lists write them: 6200, 4150.5, -0.001. */
char *mm_print(char *buf, size_t size, int64_t um);

/* Prints an angle in degrees with at most six decimals and no trailing zeros. */
char *angle_print(char *buf, size_t size, int64_t udeg);

/* Prints a fraction as the trade says it where it is one (1/2, 1/3, 2/3, 1/4 ...), else as a
 * decimal. */
char *fraction_print(char *buf, size_t size, double fraction);

/* The slope of a fall in degrees: atan(fall). */
double fall_degrees(int64_t um_per_m);

#endif
