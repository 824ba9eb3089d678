/* cover_lp.h - inside the computation: a cover's linear program.
 *
 * The least sum of patterns, by fractions, that holds every class as often as it is demanded, by
 * the simplex method. */
#ifndef SLABWRIGHT_CALC_COVER_LP_H
#define SLABWRIGHT_CALC_COVER_LP_H

#include "cover.h"

#include <stdbool.h>

struct cover_lp {
	int classes;
	const struct cover_pattern *patterns; /* the first hold one item each, by class */
	size_t pattern_count;
	double *inverse; /* of the basis, classes x classes */
	double *column;
	int pivots;
	double *x; /* how much of each pattern in the basis */
	double *y; /* the duals, one a class */
	long *basis; /* pattern, or -1 - class for a surplus */
};

/* Begins with the patterns of single items in the basis. Its arrays live in mem, and the patterns
 * must outlive it. */
enum status cover_lp_begin(struct arena *mem, struct cover_lp *lp, int classes, const int *demand,
        const struct cover_pattern *patterns, size_t pattern_count, struct error *err);

/* One pivot; false when the program is solved, or has taken too long. */
bool cover_lp_step(struct cover_lp *lp);

/* Sum of the values of the pattern's items; one value a class. */
double pattern_value(const double *values, const struct cover_pattern *p);

#endif
