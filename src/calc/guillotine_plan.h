/* guillotine_plan.h - inside the computation: a packing written out as cuts. */
#ifndef SLABWRIGHT_CALC_GUILLOTINE_PLAN_H
#define SLABWRIGHT_CALC_GUILLOTINE_PLAN_H

#include "guillotine_tree.h"

/* Writes parts and sheets of out; the rest is left alone. */
enum status packing_write(const struct packing *p, const struct guillotine_stock *stock,
        const bool *flipped, struct arena *mem, struct guillotine_plan *out, struct error *err);

#endif
