/* contour.c - contour lines: on each plane's part straight pieces across its fall. */
#include "envelope.h"

#include <math.h>
#include <stdlib.h>

enum { LEAST_INTERVAL_UM = 100, LEVELS_MOST = 2000 };

struct drawing {
	struct arena *mem;
	struct contour *items;
	size_t count, room;
	double *cuts; /* places along one line */
};

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

/* Where the line across the fall at `down` um downhill crosses the part's edges, from the left
 * side. */
static size_t find_cuts(const struct region *part, struct point way, double down, double *cuts)
{
	size_t n = 0;

	for (size_t i = 0; i < part->count; i++)
		for (size_t j = 0; j < part->rings[i].n; j++) {
			const struct ring *r = &part->rings[i];
			struct point a = r->p[j], b = r->p[j + 1 < r->n ? j + 1 : 0];
			double ua = a.x * way.x + a.y * way.y - down,
			       ub = b.x * way.x + b.y * way.y - down,
			       va = a.y * way.x - a.x * way.y, vb = b.y * way.x - b.x * way.y;

			if ((ua > 0) != (ub > 0))
				cuts[n++] = va + (vb - va) * (ua / (ua - ub));
		}
	qsort(cuts, n, sizeof *cuts, by_value);
	return n;
}

static struct point place(struct point way, double down, double across)
{
	return (struct point){ down * way.x - across * way.y, down * way.y + across * way.x };
}

static bool draw_level(
        struct drawing *d, const struct region *part, struct point way, double down, double level)
{
	size_t n = find_cuts(part, way, down, d->cuts);

	for (size_t i = 0; i + 1 < n; i += 2) {
		struct contour *grown =
		        arena_grow(d->mem, d->items, d->count, &d->room, sizeof *grown);

		if (!grown)
			return false;
		d->items = grown;
		grown[d->count++] = (struct contour){ place(way, down, d->cuts[i]),
			place(way, down, d->cuts[i + 1]), level };
	}
	return true;
}

static size_t corners_of(const struct region *r)
{
	size_t n = 0;

	for (size_t i = 0; i < r->count; i++)
		n += r->rings[i].n;
	return n;
}

static enum status draw_part(struct drawing *d, const struct plan_plane *plane,
        const struct region *part, double interval, struct error *err)
{
	struct gradient g = gradient_of(plane);
	double fall = (double)plane->fall_um_per_m * 1e-6, high = -INFINITY, low = INFINITY;
	struct point way;

	if (fall == 0)
		return STATUS_OK;
	turn_of(plane->toward_udeg, &way.x, &way.y);
	for (size_t i = 0; i < part->count; i++)
		for (size_t j = 0; j < part->rings[i].n; j++) {
			double z = gradient_level(&g, part->rings[i].p[j]);

			high = fmax(high, z);
			low = fmin(low, z);
		}
	if ((high - low) / interval > LEVELS_MOST)
		return error_set(err, STATUS_PLAN,
		        "contours every %.1f mm would be more than %d over a height of %.0f mm; "
		        "give "
		        "a wider interval",
		        interval / 1000, LEVELS_MOST, (high - low) / 1000);
	d->cuts = arena_alloc(d->mem, corners_of(part), sizeof *d->cuts);
	if (!d->cuts)
		return error_memory(err);
	for (double k = ceil(low / interval); k * interval <= high; k++)
		if (!draw_level(d, part, way, (g.level - k * interval) / fall, k * interval))
			return error_memory(err);
	return STATUS_OK;
}

enum status surface_contours(struct arena *mem, const struct plan_surface *surface,
        const struct region *region, int64_t interval_um, struct contour **out, size_t *count,
        struct error *err)
{
	struct drawing d = { .mem = mem };
	struct surface_shape shape;
	enum status st;

	if (interval_um < LEAST_INTERVAL_UM)
		return error_set(err, STATUS_PLAN, "contours: give an interval of at least 0.1 mm");
	st = surface_split(mem, surface, region, &shape, err);
	for (size_t i = 0; i < shape.part_count && st == STATUS_OK; i++)
		st = draw_part(&d, &surface->planes[shape.parts[i].plane], &shape.parts[i].region,
		        (double)interval_um, err);
	*out = d.items;
	*count = st == STATUS_OK ? d.count : 0;
	return st;
}
