/* drainage.h - inside the computation: what is wrong with a drainage that has been worked out. */
#ifndef SLABWRIGHT_CALC_DRAINAGE_H
#define SLABWRIGHT_CALC_DRAINAGE_H

#include "slabwright/drainage.h"

enum status drainage_find_warnings(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, const struct rules *rules, struct drainage *d,
        struct error *err);

#endif
