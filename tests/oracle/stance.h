/* stance.h - a piece as it may lie on the slab it is cut from: written from the manual's definition
 * alone. */
#ifndef TESTS_ORACLE_STANCE_H
#define TESTS_ORACLE_STANCE_H

#include "slabwright/cutplan.h"

#include <geos_c.h>

enum { MOST_CORNERS = 400 };

/* A piece on its slab in some turn, and how far it may move from there; um. */
struct stance {
	size_t n;
	struct point p[MOST_CORNERS];
	struct box box;
	double lo[2], hi[2]; /* moves in x and y */
};

/* Turned by `away` degrees from how it was laid. */
void stance_make(
        const struct cut_stock *stock, const struct piece *piece, int away, struct stance *out);

bool stance_is_rectangle(const struct stance *s);

/* Moved by (dx, dy), in mm. */
GEOSGeometry *stance_set_down(GEOSContextHandle_t g, const struct stance *s, double dx, double dy);

/* Whether rectangles can be pushed apart, the kerf (um) kept in x or in y: by cuts along the slab's
 * sides that run right across what is left; or any way. Exact. */
bool stances_push_apart(GEOSContextHandle_t g, const struct stance *const *stances, int count,
        double kerf, bool by_cuts);

#endif
