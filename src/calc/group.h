/* group.h - inside the computation: three or four pieces from one slab. */
#ifndef SLABWRIGHT_CALC_GROUP_H
#define SLABWRIGHT_CALC_GROUP_H

#include "fit.h"

/* Whether all the shapes can be cut from one slab by cuts that run right across what is left of it;
 * places tell how, in the order of the shapes. *tries goes down by the placings looked at; at 0 the
 * search gives up, so false proves nothing. */
bool group_fits(const struct stock *stock, const struct shape *const *shapes, int count,
        struct cut_place *places, int *tries);

/* The same, but whether the saw can part them is not asked. */
bool group_lies_apart(
        const struct stock *stock, const struct shape *const *shapes, int count, int *tries);

#endif
