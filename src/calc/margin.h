/* margin.h - inside the computation: what is dug beyond the outline. */
#ifndef SLABWRIGHT_CALC_MARGIN_H
#define SLABWRIGHT_CALC_MARGIN_H

#include "slabwright/mesh.h"
#include "slabwright/section.h"

/* The part of the paving beside the middle of a straight edge of the region's first ring. */
size_t margin_section(const struct plan *plan, const struct region *region,
        const struct paving *paving, size_t at);

/* Strips beyond the edges of the outline that are dug beyond, one a straight edge, `width_um` wide;
 * they overlap each other and the outline at inner corners. at[i] is the straight edge of strip i.
 * STATUS_MEMORY. */
enum status margin_strips(struct arena *mem, const struct plan *plan, const struct region *region,
        double width_um, struct ring **strips, size_t **at, size_t *count, struct error *err);

#endif
