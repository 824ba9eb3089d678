/* takeoff_parts.h - inside calc: the take-off's own parts, called in order by takeoff.c. */
#ifndef SLABWRIGHT_CALC_TAKEOFF_PARTS_H
#define SLABWRIGHT_CALC_TAKEOFF_PARTS_H

#include "slabwright/takeoff.h"

/* Reduces the levelling book; a faulty one is told in the result. STATUS_MEMORY. */
enum status takeoff_book(struct arena *mem, struct takeoff *t, struct error *err);

/* What drains carry, where the water goes being known. STATUS_MEMORY. */
enum status takeoff_drainage(struct arena *mem, struct takeoff *t, struct error *err);

/* The level sheet's points, when all else that has levels is worked out. STATUS_MEMORY. */
enum status takeoff_levels(struct arena *mem, struct takeoff *t, struct error *err);

/* Setting out, and what was built; the outline is sound. STATUS_MEMORY. */
enum status takeoff_site(struct arena *mem, struct takeoff *t, struct error *err);

/* Dig and fill, from the levels of the ground: those typed, and the book's. The paving is cut into
 * sections. STATUS_MEMORY. */
enum status takeoff_earth(struct arena *mem, struct takeoff *t, struct error *err);

/* Price and schedule, when the materials are worked out; a fault is told in the result.
 * STATUS_MEMORY. */
enum status takeoff_costing(struct arena *mem, struct takeoff *t, struct error *err);

#endif
