/* units_print.c - lengths, falls, angles and fractions in words and figures.
 *
 * Everything is printed from integers; only a fraction, which is a double inside, is not. */
#include "slabwright/units.h"

#include <inttypes.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const uint64_t powers[] = { 1, 10, 100, 1000, 10000, 100000, 1000000 };

static uint64_t magnitude(int64_t value)
{
	return value < 0 ? -(uint64_t)value : (uint64_t)value;
}

/* a / b to the nearest, halves up, without overflow. */
static uint64_t nearest(uint64_t a, uint64_t b)
{
	uint64_t rest = a % b;

	return a / b + (rest >= b - rest ? 1 : 0);
}

/* value / 10^decimals; zeros at the end go, but `least` decimals stay. */
static char *print_decimal(char *buf, size_t size, int64_t value, int decimals, int least)
{
	uint64_t n = magnitude(value), part = n % powers[decimals];
	int shown = decimals;

	for (; shown > least && part % 10 == 0; shown--)
		part /= 10;
	snprintf(buf, size, "%s%" PRIu64 "%s", value < 0 ? "-" : "", n / powers[decimals],
	        shown ? "." : "");
	if (shown) {
		size_t used = strlen(buf);

		snprintf(buf + used, size - used, "%0*" PRIu64, shown, part);
	}
	return buf;
}

/* The value to the nearest multiple of 10^drop, divided by it. */
static int64_t rounded(int64_t value, int drop)
{
	int64_t n = (int64_t)nearest(magnitude(value), powers[drop]);

	return value < 0 ? -n : n;
}

/* Sixty-fourths of an inch in their lowest terms. */
static char *print_feet_inches(char *buf, size_t size, int64_t um)
{
	uint64_t n = magnitude(um), per_foot = 12 * 64, whole_feet = n / 304800;
	uint64_t parts = nearest(n % 304800 * 64, 25400);
	uint64_t ft = whole_feet + parts / per_foot, in, top, of = 64;
	char text[80];
	int used = 0;

	parts %= per_foot;
	in = parts / 64;
	for (top = parts % 64; top && top % 2 == 0; top /= 2)
		of /= 2;
	if (um < 0 && (ft || parts))
		used += snprintf(text, sizeof text, "-");
	if (ft)
		used += snprintf(text + used, sizeof text - (size_t)used, "%" PRIu64 "'%s", ft,
		        parts ? " " : "");
	if (parts || !ft) {
		bool both = in || ft || !top;

		if (both)
			used += snprintf(text + used, sizeof text - (size_t)used, "%" PRIu64 "%s",
			        in, top ? " " : "");
		if (top)
			used += snprintf(text + used, sizeof text - (size_t)used,
			        "%" PRIu64 "/%" PRIu64, top, of);
		snprintf(text + used, sizeof text - (size_t)used, "\"");
	}
	snprintf(buf, size, "%s", text);
	return buf;
}

char *length_print_bare(char *buf, size_t size, int64_t um, enum unit unit)
{
	switch (unit) {
	case UNIT_M:
		return print_decimal(buf, size, um, 6, 3);
	case UNIT_CM:
		return print_decimal(buf, size, rounded(um, 3), 1, 1);
	case UNIT_MM:
		return mm_print(buf, size, um);
	case UNIT_FT_IN:
		break;
	}
	return print_feet_inches(buf, size, um);
}

char *length_print(char *buf, size_t size, int64_t um, enum unit unit)
{
	static const char *const names[] = { " m", " cm", " mm", "" };
	char bare[80];

	snprintf(buf, size, "%s%s", length_print_bare(bare, sizeof bare, um, unit), names[unit]);
	return buf;
}

char *mm_print(char *buf, size_t size, int64_t um)
{
	return print_decimal(buf, size, um, 3, 0);
}

char *angle_print(char *buf, size_t size, int64_t udeg)
{
	return print_decimal(buf, size, udeg, 6, 0);
}

char *fall_print(char *buf, size_t size, int64_t um_per_m)
{
	char mm[40], percent[40], ratio[40];
	bool gentle = magnitude(um_per_m) < 1000;
	uint64_t tenths;

	if (!um_per_m) {
		snprintf(buf, size, "0 mm/m (level)");
		return buf;
	}
	if (gentle) { /* under a millimetre a metre every figure counts */
		mm_print(mm, sizeof mm, um_per_m);
		print_decimal(percent, sizeof percent, um_per_m, 4, 0);
	} else {
		print_decimal(mm, sizeof mm, rounded(um_per_m, 2), 1, 0);
		print_decimal(percent, sizeof percent, rounded(um_per_m, 2), 2, 0);
	}
	tenths = nearest(10 * (uint64_t)UM_PER_M, magnitude(um_per_m));
	if (tenths < 100)
		print_decimal(ratio, sizeof ratio, (int64_t)tenths, 1, 0);
	else
		snprintf(ratio, sizeof ratio, "%" PRIu64,
		        nearest((uint64_t)UM_PER_M, magnitude(um_per_m)));
	snprintf(buf, size, "%s mm/m (%s %%, 1:%s)", mm, percent, ratio);
	return buf;
}

char *fraction_print(char *buf, size_t size, double fraction)
{
	static const int parts[] = { 2, 3, 4, 5, 6, 8 };

	for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
		double top = nearbyint(fraction * parts[i]);

		if (top >= 1 && top < parts[i] && fabs(fraction - top / parts[i]) < 5e-7) {
			snprintf(buf, size, "%d/%d", (int)top, parts[i]);
			return buf;
		}
	}
	if (!(fabs(fraction) < 1e6)) {
		snprintf(buf, size, "%g", fraction);
		return buf;
	}
	return print_decimal(buf, size, llround(fraction * 1e6), 6, 0);
}
