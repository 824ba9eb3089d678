/* pack.h - pieces cut from units of one length, from as few units as can be.
 *
 * Exact bin packing in one dimension (the cutting stock problem). Between two pieces of a unit the
 * blade takes the kerf; where the last piece ends with the unit no cut is made. So pieces w with
 * kerf k come from a unit c just where pieces w + k come from a unit c + k without one.
 *
 * The work is an iterator: pack_begin gives a first plan at once, pack_step betters it or the proof
 * by as much work as it is allowed, pack_best shows the best so far. Work is counted, not timed, so
 * the same input gives the same plan everywhere. */
#ifndef SLABWRIGHT_PACK_H
#define SLABWRIGHT_PACK_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stddef.h>
#include <stdint.h>

#define PACK_MOST_PIECES 1000000
#define PACK_LONGEST_UM INT64_C(1000000000) /* of a unit with the kerf: 1 km */

/* Pieces of one length. */
struct pack_piece {
	int64_t length_um; /* 1 up to the unit's length */
	size_t count; /* may be 0 */
};

/* One unit: piece[first] up to piece[first + count - 1] of the plan come from it. */
struct pack_unit {
	size_t first, count;
};

struct pack_plan {
	struct pack_unit
	        *units; /* those cut alike stand together, those with longer pieces first */
	size_t unit_count;
	size_t *piece; /* indices into the pieces given, unit by unit, the longest first; each as
	                  often as it counts */
	size_t bound; /* no plan needs fewer units: proven. unit_count == bound: least possible */
	const char *reason; /* what proves the bound; a constant */
	bool done; /* steps would change nothing any more: least possible, or all ways are used up
	            */
};

struct pack;

/* Starts on the pieces: pieces[0] .. pieces[kinds - 1], of which several may be alike. Everything
 * lives in mem, which must outlive *out; steps take more of it as they need. Refuses (STATUS_PLAN)
 * a piece longer than the unit or not longer than nothing, a unit outside 1 um to 1 km, a negative
 * kerf, and more than a million pieces. */
enum status pack_begin(struct arena *mem, const struct pack_piece *pieces, size_t kinds,
        int64_t unit_um, int64_t kerf_um, struct pack **out, struct error *err);

/* Works on, for about `work` elementary steps (a million are about a millisecond), though never
 * less than one move of whatever is under way, itself at most a few milliseconds. Only memory can
 * fail it, and then the best so far is still good. */
enum status pack_step(struct pack *p, int64_t work, struct error *err);

/* The best plan and bound so far; writes the plan into the arena it was begun with, so that it is
 * the caller's until that is freed. */
enum status pack_best(struct pack *p, struct pack_plan *out, struct error *err);

/* Whether steps would change nothing any more, and the figures without the plan. */
bool pack_done(const struct pack *p);
size_t pack_units(const struct pack *p);
size_t pack_bound(const struct pack *p);

#endif
