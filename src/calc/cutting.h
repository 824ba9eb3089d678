/* cutting.h - inside the computation: a plan's paving on its way into sections. */
#ifndef SLABWRIGHT_CALC_CUTTING_H
#define SLABWRIGHT_CALC_CUTTING_H

#include "slabwright/section.h"

struct cutting {
	struct arena *mem;
	const struct plan *plan;
	struct region left;
	struct paving *out;
	size_t capacity;
	struct error *err;
};

/* Cuts c->left, the outline's region, into the sections of c->out; borders are laid at once, field
 * and zones are not laid yet. Refusals as paving_lay tells. */
enum status cut_sections(struct cutting *c);

#endif
