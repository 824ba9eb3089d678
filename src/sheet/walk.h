/* walk.h - every slab of the paving, one by one, for drawing. */
#ifndef SHEET_WALK_H
#define SHEET_WALK_H

#include "slabwright/takeoff.h"

typedef void slab_fn(void *context, const struct section *section, struct slab_spot spot);

/* The whole ones, section by section. */
void whole_slabs(const struct takeoff *t, slab_fn *visit, void *context);

#endif
