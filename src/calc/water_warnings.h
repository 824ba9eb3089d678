/* water_warnings.h - inside the computation: what is wrong with surface and water. */
#ifndef SLABWRIGHT_CALC_WATER_WARNINGS_H
#define SLABWRIGHT_CALC_WATER_WARNINGS_H

#include "drains.h"

/* Fills out->warnings from the rest of it. */
enum status water_warnings(const struct drains *d, const struct rules *rules,
        struct surface_result *out, struct error *err);

#endif
