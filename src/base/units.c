/* units.c - reading what was typed.
 *
 * A typed number is kept as whole + part / of in integers, so that 0.1 in or 1/64 in is rounded
 * once, when it becomes micrometres. Each reader steps over the text with a cursor and gives a
 * reason in words for what it does not take; the public function puts the typed text before it. */
#include "slabwright/units.h"

#include <inttypes.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

__extension__ typedef __int128 wide;

enum { DECIMALS_MAX = 9 };

#define WHOLE_MAX INT64_C(1000000000)
#define LENGTH_MAX_UM (10 * 1000 * UM_PER_M)
#define UM_PER_IN INT64_C(25400)
#define UM_PER_FT (12 * UM_PER_IN)

struct number {
	int64_t whole, part, of; /* whole + part / of, 0 <= part, 0 < of */
};

/* A unit's word, and how many of the target's unit it is: mul / div. */
struct word {
	const char *text;
	int64_t mul, div;
};

static const struct word metric[] = {
	{ "mm", UM_PER_MM, 1 },
	{ "cm", 10 * UM_PER_MM, 1 },
	{ "m", UM_PER_M, 1 },
	{ NULL, 0, 0 },
};
static const struct word feet[] = {
	{ "ft", UM_PER_FT, 1 },
	{ "'", UM_PER_FT, 1 },
	{ "\u2032", UM_PER_FT, 1 },
	{ NULL, 0, 0 },
};
static const struct word inches[] = {
	{ "in", UM_PER_IN, 1 },
	{ "\"", UM_PER_IN, 1 },
	{ "\u2033", UM_PER_IN, 1 },
	{ NULL, 0, 0 },
};
static const struct word falls[] = {
	{ "mm/m", UM_PER_MM, 1 },
	{ "%", 10 * UM_PER_MM, 1 },
	{ "in/ft", UM_PER_M, 12 },
	{ "\"/ft", UM_PER_M, 12 },
	{ NULL, 0, 0 },
};
static const struct word degrees[] = {
	{ "deg", UDEG_PER_DEG, 1 },
	{ "\u00B0", UDEG_PER_DEG, 1 },
	{ NULL, 0, 0 },
};
static const struct word usual_units[] = {
	[UNIT_M] = { "m", UM_PER_M, 1 },
	[UNIT_CM] = { "cm", 10 * UM_PER_MM, 1 },
	[UNIT_MM] = { "mm", UM_PER_MM, 1 },
	[UNIT_FT_IN] = { "ft", UM_PER_FT, 1 },
};

#define LENGTH_EXAMPLE "type a length like 3.62 m, 362 cm, 3620 mm or 12' 6 3/8\""
#define FALL_EXAMPLE "type a fall like 15 mm/m, 1.5 % or 1:60"
#define ANGLE_EXAMPLE "type degrees like 45 or 22.5"
#define FRACTION_EXAMPLE "type a fraction from 0 up to but not 1, like 1/3 or 0.25"

static enum status refuse(
        struct error *err, const char *typed, const char *reason, const char *example)
{
	size_t n = strlen(typed);

	while (n > 60 || (n == 60 && ((unsigned char)typed[n] & 0xC0) == 0x80))
		n = n > 60 ? 60 : n - 1;
	return error_set(err, STATUS_USAGE, "\"%.*s%s\": %s; %s.", (int)n, typed,
	        typed[n] ? "..." : "", reason, example);
}

static void skip_blanks(const char **at)
{
	while (**at == ' ' || **at == '\t')
		++*at;
}

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static bool is_decimal_sign(char c)
{
	return c == '.' || c == ',';
}

/* Steps over a unit's word, if one of the table stands here. */
static const struct word *take_word(const char **at, const struct word *table)
{
	for (const struct word *w = table; w->text; w++) {
		size_t n = strlen(w->text);

		if (strncmp(*at, w->text, n) == 0) {
			*at += n;
			return w;
		}
	}
	return NULL;
}

/* Steps over a sign; true for minus. */
static bool take_minus(const char **at)
{
	bool minus = **at == '-';

	if (minus || **at == '+')
		++*at;
	skip_blanks(at);
	return minus;
}

/* Each take_ function below gives NULL, or the reason why not. */

static const char *take_whole(const char **at, int64_t *value)
{
	*value = 0;
	if (!is_digit(**at))
		return **at ? "a number is expected where there is none" : "a number is missing";
	for (; is_digit(**at); ++*at) {
		*value = *value * 10 + (**at - '0');
		if (*value > WHOLE_MAX)
			return "the number is too large";
	}
	return NULL;
}

static const char *take_decimal(const char **at, struct number *n)
{
	const char *why;

	*n = (struct number){ 0, 0, 1 };
	if (!is_decimal_sign(**at) && (why = take_whole(at, &n->whole)) != NULL)
		return why;
	if (!is_decimal_sign(**at))
		return NULL;
	++*at;
	if (!is_digit(**at))
		return "digits are missing after the decimal sign";
	for (int count = 1; is_digit(**at); ++*at, count++) {
		if (count > DECIMALS_MAX)
			return "there are more than 9 decimals";
		n->part = n->part * 10 + (**at - '0');
		n->of *= 10;
	}
	if (is_decimal_sign(**at))
		return "there is more than one decimal sign (leave out signs between thousands)";
	return NULL;
}

/* `3`, `3.5`, `3/8`, `6 3/8`. */
static const char *take_mixed(const char **at, struct number *n)
{
	const char *why = take_decimal(at, n), *rest = *at;

	if (why || n->part)
		return why;
	if (*rest == '/') {
		n->part = n->whole;
		n->whole = 0;
	} else {
		skip_blanks(&rest);
		if (rest == *at || !is_digit(*rest) || take_whole(&rest, &n->part) ||
		        *rest != '/') {
			n->part = 0;
			return NULL;
		}
	}
	rest++;
	if ((why = take_whole(&rest, &n->of)) != NULL)
		return why;
	if (n->of == 0 || n->part >= n->of || n->of > 1000)
		return "the fraction's upper number must be less than its lower one (up to 1000)";
	*at = rest;
	return NULL;
}

static wide round_div(wide a, wide b)
{
	return (2 * a + b) / (2 * b);
}

/* The number in the target's unit, rounded once to the nearest; a number holds at most 1e9 with
 * nine decimals, so nothing overflows. */
static int64_t scaled(const struct number *n, int64_t mul, int64_t div)
{
	return (int64_t)round_div(((wide)n->whole * n->of + n->part) * mul, (wide)n->of * div);
}

/* `12'`, `12' 6 3/8"`, `6 3/8"`, given the first number; *um is left at 0 where no mark follows. */
static const char *take_feet_inches(const char **at, struct number first, bool *found, int64_t *um)
{
	struct number in;
	const char *why;

	*um = 0;
	*found = true;
	if (take_word(at, inches)) {
		*um = scaled(&first, UM_PER_IN, 1);
		return NULL;
	}
	*found = take_word(at, feet) != NULL;
	if (!*found)
		return NULL;
	*um = scaled(&first, UM_PER_FT, 1);
	skip_blanks(at);
	if (!is_digit(**at))
		return NULL;
	if (first.part)
		return "feet with a part of a foot take no inches";
	if ((why = take_mixed(at, &in)) != NULL)
		return why;
	if (in.whole >= 12)
		return "inches after feet stay under 12";
	skip_blanks(at);
	if (!take_word(at, inches))
		return "the mark after the inches is missing (in or \")";
	*um += scaled(&in, UM_PER_IN, 1);
	return NULL;
}

static const char *read_length(const char *at, enum unit usual, int64_t *um)
{
	struct number n;
	const struct word *unit;
	const char *why;
	bool minus, imperial;

	skip_blanks(&at);
	minus = take_minus(&at);
	if ((why = take_mixed(&at, &n)) != NULL)
		return why;
	skip_blanks(&at);
	if ((why = take_feet_inches(&at, n, &imperial, um)) != NULL)
		return why;
	if (!imperial) {
		if ((unit = take_word(&at, metric)) == NULL)
			unit = &usual_units[usual];
		*um = scaled(&n, unit->mul, unit->div);
	}
	skip_blanks(&at);
	if (*at)
		return "what follows the number is not a unit";
	if (*um > LENGTH_MAX_UM)
		return "that is beyond 10 km";
	if (minus)
		*um = -*um;
	return NULL;
}

enum status length_parse(const char *text, enum unit usual, int64_t *um, struct error *err)
{
	int64_t value;
	const char *why = read_length(text, usual, &value);

	if (why)
		return refuse(err, text, why, LENGTH_EXAMPLE);
	*um = value;
	return STATUS_OK;
}

/* `1:60`, given the first number. */
static const char *take_ratio(const char **at, const struct number *rise, int64_t *um_per_m)
{
	struct number run;
	const char *why;
	wide above, below;

	skip_blanks(at);
	if ((why = take_decimal(at, &run)) != NULL)
		return why;
	if (rise->part || rise->whole > 1000)
		return "the first number of a ratio is a small whole one";
	above = (wide)rise->whole * UM_PER_M * run.of;
	below = (wide)run.whole * run.of + run.part;
	if (below <= 0 || above > below * 2 * UM_PER_M)
		return "that is steeper than 1:1";
	*um_per_m = (int64_t)round_div(above, below);
	return NULL;
}

static const char *read_fall(const char *at, int64_t *um_per_m)
{
	struct number n;
	const struct word *unit;
	const char *why;

	skip_blanks(&at);
	if (*at == '-')
		return "a fall is not negative (turn its direction round instead)";
	take_minus(&at);
	if ((why = take_mixed(&at, &n)) != NULL)
		return why;
	skip_blanks(&at);
	if (*at == ':') {
		at++;
		why = take_ratio(&at, &n, um_per_m);
	} else {
		unit = take_word(&at, falls);
		*um_per_m = unit ? scaled(&n, unit->mul, unit->div) : scaled(&n, UM_PER_MM, 1);
	}
	if (why)
		return why;
	skip_blanks(&at);
	if (*at)
		return "what follows the number is not a fall's unit";
	return *um_per_m > UM_PER_M ? "that is steeper than 1:1" : NULL;
}

enum status fall_parse(const char *text, int64_t *um_per_m, struct error *err)
{
	int64_t value;
	const char *why = read_fall(text, &value);

	if (why)
		return refuse(err, text, why, FALL_EXAMPLE);
	*um_per_m = value;
	return STATUS_OK;
}

static const char *read_angle(const char *at, int64_t *udeg)
{
	struct number n;
	const char *why;
	bool minus;

	skip_blanks(&at);
	minus = take_minus(&at);
	if ((why = take_decimal(&at, &n)) != NULL)
		return why;
	skip_blanks(&at);
	take_word(&at, degrees);
	skip_blanks(&at);
	if (*at)
		return "what follows the number is not degrees";
	*udeg = scaled(&n, UDEG_PER_DEG, 1);
	if (*udeg > 360 * UDEG_PER_DEG)
		return "an angle goes from -360 to 360 degrees";
	if (minus)
		*udeg = -*udeg;
	return NULL;
}

enum status angle_parse(const char *text, int64_t *udeg, struct error *err)
{
	int64_t value;
	const char *why = read_angle(text, &value);

	if (why)
		return refuse(err, text, why, ANGLE_EXAMPLE);
	*udeg = value;
	return STATUS_OK;
}

static const char *read_fraction(const char *at, struct number *n)
{
	const char *why;

	skip_blanks(&at);
	if ((why = take_mixed(&at, n)) != NULL)
		return why;
	skip_blanks(&at);
	if (*at)
		return "something follows the fraction";
	return n->whole ? "that is 1 or more" : NULL;
}

enum status fraction_parse(const char *text, double *fraction, struct error *err)
{
	struct number n;
	const char *why = read_fraction(text, &n);

	if (why)
		return refuse(err, text, why, FRACTION_EXAMPLE);
	*fraction = (double)n.part / (double)n.of;
	return STATUS_OK;
}

double fall_degrees(int64_t um_per_m)
{
	return atan((double)um_per_m / (double)UM_PER_M) * (180 / acos(-1));
}
