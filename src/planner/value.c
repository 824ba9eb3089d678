/* value.c - how single values of a list are shown and typed. */
#include "app.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *value_print(char *buf, size_t size, enum value value, int64_t v)
{
	char mm[40];

	if (value == VALUE_MM)
		snprintf(buf, size, "%s mm", mm_print(mm, sizeof mm, v));
	else if (value == VALUE_PERCENT)
		snprintf(buf, size, "%g %%", (double)v / 10000);
	else if ((value == VALUE_MONEY && v < 0) || (value == VALUE_DENSITY && v == 0))
		snprintf(buf, size, "not known");
	else if (value == VALUE_MONEY)
		money_print(buf, size, v);
	else
		snprintf(buf, size, "%" PRId64, v);
	return buf;
}

/* A decimal number, scaled: with `.` or `,`. */
static bool typed_number(struct app *app, const char *text, double scale, int64_t *out)
{
	char plain[64], *end;
	double v;

	snprintf(plain, sizeof plain, "%s", text);
	for (char *p = plain; *p; p++)
		if (*p == ',')
			*p = '.';
	v = strtod(plain, &end);
	end += strspn(end, " %");
	if (end == plain || *end || !(v >= 0 && v < 1e9)) {
		app_refuse(app, "'%s' is not a number from 0 up.", text);
		return false;
	}
	*out = (int64_t)(v * scale + 0.5);
	return true;
}

bool value_typed(struct app *app, enum value value, const char *text, int64_t *out)
{
	double scale = value == VALUE_PERCENT ? 10000 : value == VALUE_MONEY ? 100 : 1;

	if (value == VALUE_MM)
		return typed_length(app, text, UNIT_MM, out);
	if (value == VALUE_MONEY && !*text) {
		*out = -1;
		return true;
	}
	if (!typed_number(app, text, scale, out))
		return false;
	if (value == VALUE_COUNT && strpbrk(text, ".,")) {
		app_refuse(app, "'%s' is not a whole number.", text);
		return false;
	}
	return true;
}

const char *value_offered(char *buf, size_t size, enum value value, int64_t v)
{
	return v < 0 || (value == VALUE_DENSITY && !v) ? "" : value_print(buf, size, value, v);
}

const char *size_meaning_words(enum size_meaning size)
{
	return size == SIZE_COORDINATING ? "joint inside them" : "the slab itself";
}

const char *grain_words(bool directional)
{
	return directional ? "yes: pieces are not turned" : "no: pieces may be turned";
}
