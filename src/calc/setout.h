/* setout.h - inside the computation: what proves an outline's shape. */
#ifndef SLABWRIGHT_CALC_SETOUT_H
#define SLABWRIGHT_CALC_SETOUT_H

#include "slabwright/setout.h"

/* The diagonals of the outline's corners. */
enum status setout_diagonals(
        struct arena *mem, const struct plan_ring *outline, struct setout *out, struct error *err);

/* The square corners' 3-4-5 lengths, and the arcs' offsets. */
enum status setout_triples(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err);
enum status setout_arcs(
        struct arena *mem, const struct plan *plan, struct setout *out, struct error *err);

#endif
