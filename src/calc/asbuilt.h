/* asbuilt.h - inside the computation: what three and more measured points together show. */
#ifndef SLABWRIGHT_CALC_ASBUILT_H
#define SLABWRIGHT_CALC_ASBUILT_H

#include "slabwright/asbuilt.h"

/* A limit is kept by what is over it by less than this: half a micrometre, the unit of lengths. */
#define ASBUILT_HAIR_UM 0.5

/* By how much a size is over a rule's number; 0 within, or without a rule. */
double asbuilt_over_um(double size_um, const struct rule *rule);

/* Straightedges and puddles; levels of the points are worked out. */
enum status asbuilt_find_gaps(struct arena *mem, struct asbuilt *a, struct error *err);
enum status asbuilt_find_puddles(struct arena *mem, struct asbuilt *a, struct error *err);

#endif
