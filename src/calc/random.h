/* random.h - inside the computation: coursed random bond. */
#ifndef SLABWRIGHT_CALC_RANDOM_H
#define SLABWRIGHT_CALC_RANDOM_H

#include "piece.h"

/* Draws the courses over the region, files the pieces, counts whole slabs in out->of_size, and
 * keeps the courses in out->courses. Refuses (STATUS_PLAN) a mix that cannot fill a course without
 * lining up a joint. */
enum status lay_random(struct piece_list *list, const struct region *region,
        const struct plan_laying *laying, struct laying *out, struct error *err);

#endif
