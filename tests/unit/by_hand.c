#include "by_hand.h"

#include <math.h>
#include <string.h>

struct plan_ring ring_by_hand(struct arena *mem, size_t n, const double *mm)
{
	struct plan_ring r = { arena_alloc(mem, n, sizeof *r.nodes), n, true };

	for (size_t i = 0; i < n; i++)
		r.nodes[i] = (struct plan_node){ .x_um = llround(mm[2 * i] * 1000),
			.y_um = llround(mm[2 * i + 1] * 1000),
			.kind = EDGE_OPEN };
	return r;
}

struct plan plan_by_hand(struct arena *mem, size_t n, const double *mm)
{
	struct plan p;

	plan_init(&p);
	opening_by_hand(mem, &p, n, mm);
	return p;
}

void opening_by_hand(struct arena *mem, struct plan *plan, size_t n, const double *mm)
{
	struct plan_ring *rings = arena_alloc(mem, plan->ring_count + 1, sizeof *rings);

	if (plan->ring_count)
		memcpy(rings, plan->rings, plan->ring_count * sizeof *rings);
	rings[plan->ring_count++] = ring_by_hand(mem, n, mm);
	plan->rings = rings;
}
