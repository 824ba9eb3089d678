/* slab_sets.h - which pieces one slab yields together, found by trying; written from the manual's
 * definition alone. */
#ifndef TESTS_ORACLE_SLAB_SETS_H
#define TESTS_ORACLE_SLAB_SETS_H

#include "slabwright/cutplan.h"

#include <geos_c.h>

enum yields { YIELDS_NOT, YIELDS_PERHAPS, YIELDS };

/* Whether the pieces, SOURCE_PIECES at most, can be cut from one slab of the stock. Pieces that do
 * not slide are told for sure, and rectangles unless only slanted cuts might part them. Others are
 * tried in many places, which shows that they can but not that they cannot. */
enum yields slab_yields(GEOSContextHandle_t g, const struct cut_stock *stock,
        const struct piece *const *pieces, int count);

/* Up to MOST_IN_SETS pieces of one stock, and sets of them (a bit each) that are shown to come from
 * one slab; trying must not say that they cannot. */
enum { MOST_IN_SETS = 14 };
struct set_job {
	GEOSContextHandle_t g;
	const struct cut_stock *stock;
	const struct piece *const *pieces;
	size_t count;
	const unsigned *shown;
	size_t shown_count;
};

/* The fewest slabs that GLPK finds, of all ways to group the pieces: `enough` where only sets count
 * that do for sure, `least` where those that perhaps do count too. `missed` of the shown sets
 * trying did not find. */
struct fewest {
	size_t enough, least;
	int missed;
};
struct fewest fewest_slabs(const struct set_job *job);

#endif
