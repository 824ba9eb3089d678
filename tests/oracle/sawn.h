/* sawn.h - a cut plan held to the rules of the saw as the manual states them: written from the
 * definition alone, measured with GEOS. */
#ifndef TESTS_ORACLE_SAWN_H
#define TESTS_ORACLE_SAWN_H

#include "slabwright/section.h"

#include <geos_c.h>

/* Where a corner of a piece comes to lie that is turned and then moved. */
struct point sawn_corner(struct point p, int turn, struct point at);

/* Whether two polygons (mm) keep the kerf between them; they may touch where it is 0. */
bool sawn_clear(
        GEOSContextHandle_t g, const GEOSGeometry *a, const GEOSGeometry *b, double kerf_mm);

/* Whether cuts that run right across what is left part the polygons (mm), each as wide as the kerf:
 * some cut has the hulls of those on either hand clear of each other, and so on. */
bool sawn_apart(
        GEOSContextHandle_t g, const GEOSGeometry *const *polygons, int count, double kerf_mm);

/* The stocks of a paving as the saw sees them; in mem. */
struct cut_stock *sawn_stocks(
        struct arena *mem, const struct paving *laid, const struct plan_laying *laying);

/* Fails the test unless each piece that is cut comes from one slab, once; turned as allowed, on the
 * slab, finished edges where joints are, the kerf kept; three and four of a slab parted by cuts
 * right across; and no total says less than its bound. */
void sawn_check(GEOSContextHandle_t g, const struct cutplan *cuts, const struct piece *pieces,
        size_t piece_count, const struct cut_stock *stocks, size_t stock_count);

#endif
