/* drops.h - a follower of single drops, for what the computation of catchments is held to.
 *
 * It knows nothing of parts, sinks or sweeps: at each place it tries the ways that could be the
 * steepest, measures which falls most, and goes that way up to the next edge, channel or plane. */
#ifndef TESTS_ORACLE_DROPS_H
#define TESTS_ORACLE_DROPS_H

#include "slabwright/surface.h"

struct drop {
	enum end_kind kind; /* END_POND: it stands; number means nothing */
	size_t number;
	struct point at;
};

struct drops {
	const struct plan *plan;
	struct region region; /* flattened, edges numbered as the plan's */
};

/* Up to the first edge, channel or gully. */
struct drop drop_first(const struct drops *d, struct point from);
/* On along edges that hold it, to where it ends up. */
struct drop drop_end(const struct drops *d, struct point from);

#endif
