/* value.c - how single values of a list are shown and typed. */
#include "app.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Numbers that are kept as a whole count of a part of what is typed. */
static const struct {
	double scale;
	const char *unit;
	bool zero_unknown, whole;
} numbers[PLAIN_VALUES] = {
	[VALUE_COUNT] = { 1, "", false, true },
	[VALUE_DENSITY] = { 1, " kg/m3", true, false },
	[VALUE_PERCENT] = { 10000, " %", false, false },
	[VALUE_MONEY] = { 100, "", false, false },
	[VALUE_FACTOR] = { 1e6, "", false, false },
	[VALUE_RAIN] = { 1000, " mm/h", false, false },
	[VALUE_SOAK] = { 1e6 / 3600, " mm/h", false, false },
	[VALUE_FLOW] = { 1000, " l/s", true, false },
	[VALUE_LOAD] = { 1000, " kN/m2", false, false },
	[VALUE_MILLI] = { 1000, "", false, false },
	[VALUE_HOURS] = { 60, " h", false, false },
	[VALUE_MASS] = { 1000, " kg", true, false },
	[VALUE_MINUTES] = { 1, " min", false, true },
};

static bool unknown(enum value value, int64_t v)
{
	return (value == VALUE_MONEY && v < 0) || (value == VALUE_SIGHT && v == NO_READING) ||
	       (numbers[value].zero_unknown && v == 0);
}

static void print_known(char *buf, size_t size, enum value value, int64_t v)
{
	char words[64];

	switch (value) {
	case VALUE_MM:
		snprintf(buf, size, "%s mm", mm_print(words, sizeof words, v));
		return;
	case VALUE_M:
	case VALUE_SIGHT:
		length_print(buf, size, v, UNIT_M);
		return;
	case VALUE_FALL:
		fall_print(buf, size, v);
		return;
	case VALUE_ANGLE:
		snprintf(buf, size, "%s deg", angle_print(words, sizeof words, v));
		return;
	case VALUE_MONEY:
		money_print(buf, size, v);
		return;
	default:
		snprintf(
		        buf, size, "%.6g%s", (double)v / numbers[value].scale, numbers[value].unit);
	}
}

char *value_print(char *buf, size_t size, enum value value, int64_t v)
{
	if (value == VALUE_MINUTES && v == 0)
		snprintf(buf, size, "the shortest of the table");
	else if (unknown(value, v))
		snprintf(buf, size, "%s", value == VALUE_SIGHT ? "" : "not known");
	else
		print_known(buf, size, value, v);
	return buf;
}

/* A decimal number, scaled: with `.` or `,`, and its unit or none. */
static bool typed_number(struct app *app, enum value value, const char *text, int64_t *out)
{
	const char *unit = numbers[value].unit + strspn(numbers[value].unit, " ");
	char plain[64], *end;
	double v;

	snprintf(plain, sizeof plain, "%s", text);
	for (char *p = plain; *p; p++)
		if (*p == ',')
			*p = '.';
	v = strtod(plain, &end);
	if (end != plain) {
		end += strspn(end, " ");
		if (*unit && strncmp(end, unit, strlen(unit)) == 0)
			end += strlen(unit);
		end += strspn(end, " ");
	}
	if (end == plain || *end || !(v >= 0 && v < 1e9)) {
		app_refuse(app, "'%s' is not a number from 0 up%s%s.", text, *unit ? ", in " : "",
		        unit);
		return false;
	}
	*out = (int64_t)(v * numbers[value].scale + 0.5);
	return true;
}

bool value_typed(struct app *app, enum value value, const char *text, int64_t *out)
{
	struct error err;

	switch (value) {
	case VALUE_MM:
		return typed_length(app, text, UNIT_MM, out);
	case VALUE_M:
		return typed_length(app, text, UNIT_M, out);
	case VALUE_SIGHT:
		if (!*text)
			*out = NO_READING;
		return !*text || typed_length(app, text, UNIT_M, out);
	case VALUE_FALL:
		return fall_parse(text, out, &err) == STATUS_OK || app_fail(app, &err);
	case VALUE_ANGLE:
		return angle_parse(text, out, &err) == STATUS_OK || app_fail(app, &err);
	default:
		break;
	}
	if (!*text && (value == VALUE_MONEY || numbers[value].zero_unknown)) {
		*out = value == VALUE_MONEY ? -1 : 0;
		return true;
	}
	if (numbers[value].whole && strpbrk(text, ".,")) {
		app_refuse(app, "'%s' is not a whole number.", text);
		return false;
	}
	return typed_number(app, value, text, out);
}

const char *value_offered(char *buf, size_t size, enum value value, int64_t v)
{
	if (unknown(value, v))
		return "";
	if (value == VALUE_MINUTES && v == 0)
		return "0";
	if (value == VALUE_FALL) /* as it is typed: mm a metre */
		return mm_print(buf, size, v);
	return value_print(buf, size, value, v);
}

const char *size_meaning_words(enum size_meaning size)
{
	return size == SIZE_COORDINATING ? "joint inside them" : "the slab itself";
}

const char *grain_words(bool directional)
{
	return directional ? "yes: pieces are not turned" : "no: pieces may be turned";
}
