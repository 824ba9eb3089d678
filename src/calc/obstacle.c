/* obstacle.c - see obstacle.h. Edges that the band's own lines made are no obstacles. */
#include "obstacle.h"

#include <math.h>
#include <stdlib.h>

static int by_left(const void *a, const void *b)
{
	const struct obstacle *o = a, *p = b;

	return o->x0 < p->x0 ? -1 : o->x0 > p->x0;
}

enum status find_obstacles(struct arena *mem, const struct region *band, struct obstacle **out,
        size_t *count, struct error *err)
{
	size_t n = 0, kept = 0;
	struct obstacle *list;

	for (size_t i = 0; i < band->count; i++)
		n += band->rings[i].n;
	*out = list = arena_alloc(mem, n, sizeof *list);
	if (!list)
		return error_memory(err);
	n = 0;
	for (size_t i = 0; i < band->count; i++) {
		const struct ring *r = &band->rings[i];

		for (size_t j = 0; j < r->n; j++) {
			double a = r->p[j].x, b = r->p[j + 1 < r->n ? j + 1 : 0].x;

			if (r->edge[j] != EDGE_OF_CUT)
				list[n++] = (struct obstacle){ fmin(a, b), fmax(a, b) };
		}
	}
	qsort(list, n, sizeof *list, by_left);
	for (size_t i = 0; i < n; i++) {
		if (kept && list[i].x0 <= list[kept - 1].x1)
			list[kept - 1].x1 = fmax(list[kept - 1].x1, list[i].x1);
		else
			list[kept++] = list[i];
	}
	*count = kept;
	return STATUS_OK;
}
