/* packing_data.h - the published sets under tests/data/packing, and a validator of plans. */
#ifndef TESTS_PACKING_DATA_H
#define TESTS_PACKING_DATA_H

#include "slabwright/pack.h"

#include <stdbool.h>

struct packing {
	const char *name;
	int64_t unit, kerf;
	struct pack_piece *pieces;
	size_t count, optimum;
};

/* Reads a file of that folder; fails the test, or ends the program, where it cannot be read. The
 * folder is found from SHARE, else from the folder the program runs in. */
size_t packings_read(struct arena *mem, const char *file, struct packing **out);
size_t packings_read_kerf(struct arena *mem, struct packing **out); /* kerf-small.csv */

/* What is wrong with a plan, NULL where nothing is: each piece as often as it counts, the units not
 * exceeded with a kerf between two pieces, no unit empty, no fewer units than the bound. */
const char *packing_fault(const struct packing *p, const struct pack_plan *plan);

/* Steps until nothing changes any more, or so much work is done. */
struct pack_plan packing_solve(struct arena *mem, const struct packing *p, int64_t work);

#endif
