/* catchment.h - inside the computation: areas that drain to each edge. */
#ifndef SLABWRIGHT_CALC_CATCHMENT_H
#define SLABWRIGHT_CALC_CATCHMENT_H

#include "slabwright/geom.h"

/* Adds to area_um2[edge] the area that drains to each of the plan's edges, when water runs along
 * +x. */
enum status catchment_areas(
        struct arena *mem, const struct region *turned, double *area_um2, struct error *err);

#endif
