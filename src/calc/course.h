/* course.h - inside the computation: one border course along one edge, as a laying. */
#ifndef SLABWRIGHT_CALC_COURSE_H
#define SLABWRIGHT_CALC_COURSE_H

#include "slabwright/section.h"

/* Lays one course of a border: `section` knows its strip; course 1 shifts by the border's offset
 * against the course before (NULL for course 0). Sets laying, frame_region, stretch, what is told
 * of a curve, and laid. Refuses (STATUS_PLAN) a curve too tight for wedges. */
enum status course_lay(struct arena *mem, const struct plan *plan, const struct plan_border *border,
        const struct section *before, struct section *section, struct error *err);

#endif
