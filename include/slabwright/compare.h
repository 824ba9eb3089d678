/* compare.h - variants side by side: their figures, which of them differ, and which variant has the
 * least of what one wants little of. */
#ifndef SLABWRIGHT_COMPARE_H
#define SLABWRIGHT_COMPARE_H

#include "slabwright/sheet.h"
#include "slabwright/takeoff.h"

#define COMPARE_FIGURES 23

struct compare_value {
	double number; /* in the unit the key names, money in minor units; NAN: no number, or not
	                  known */
	char text[48]; /* as it is shown */
};

struct compare_column {
	const char *name; /* the variant's; the caller's */
	bool ready; /* false: it cannot be worked out, and its figures say so */
	struct compare_value values[COMPARE_FIGURES];
};

/* "Cut pieces"; and as a member of JSON: "cut". */
const char *compare_name(size_t figure);
const char *compare_key(size_t figure);

/* Fills all but the name. */
void compare_column_of(const struct takeoff *t, struct compare_column *out);

/* Whether the figure is not the same in all columns. */
bool compare_differs(const struct compare_column *columns, size_t count, size_t figure);

/* What the figure of a column deserves to be called among those beside it: "cheapest", "fewest",
 * "least", "lightest"; NULL for none. Only where less is better, all ready columns have a number
 * and they are not all the same; several may share it. */
const char *compare_best(
        const struct compare_column *columns, size_t count, size_t figure, size_t column);

/* All of it, for the job of that name. */
enum status sheet_compare(FILE *to, const char *job, const struct compare_column *columns,
        size_t count, enum sheet_form form, struct error *err);

#endif
