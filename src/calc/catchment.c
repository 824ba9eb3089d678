/* catchment.c - which edge takes whose water.
 *
 * The region comes turned so that the water runs along +x. Between two neighbouring heights of its
 * corners it falls into trapezia; the water of each runs to its right side, and that is a part of
 * one edge. */
#include "catchment.h"

#include <stdlib.h>

struct reach {
	double y0, y1, x0, x1; /* lower end (x0, y0), upper end (x1, y1) */
	int edge;
};

static double x_at(const struct reach *r, double y)
{
	return r->x0 + (r->x1 - r->x0) * ((y - r->y0) / (r->y1 - r->y0));
}

static int by_lower_end(const void *a, const void *b)
{
	const struct reach *r = a, *s = b;

	return r->y0 < s->y0 ? -1 : r->y0 > s->y0;
}

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static enum status collect_reaches(struct arena *mem, const struct region *turned,
        struct reach **reaches, size_t *count, double **heights, size_t *height_count,
        struct error *err)
{
	size_t n = 0;

	for (size_t i = 0; i < turned->count; i++)
		n += turned->rings[i].n;
	*reaches = arena_alloc(mem, n, sizeof **reaches);
	*heights = arena_alloc(mem, n, sizeof **heights);
	if (!*reaches || !*heights)
		return error_memory(err);
	for (size_t i = 0; i < turned->count; i++) {
		const struct ring *r = &turned->rings[i];

		for (size_t j = 0; j < r->n; j++) {
			struct point a = r->p[j], b = r->p[j + 1 < r->n ? j + 1 : 0];

			(*heights)[(*height_count)++] = a.y;
			if (a.y < b.y)
				(*reaches)[(*count)++] =
				        (struct reach){ a.y, b.y, a.x, b.x, r->edge[j] };
			else if (a.y > b.y)
				(*reaches)[(*count)++] =
				        (struct reach){ b.y, a.y, b.x, a.x, r->edge[j] };
		}
	}
	qsort(*reaches, *count, sizeof **reaches, by_lower_end);
	qsort(*heights, *height_count, sizeof **heights, by_value);
	return STATUS_OK;
}

/* Keeps the edges that run through the band from y0 to y1 in order along x at its middle. */
static void sort_active(const struct reach **active, size_t n, double middle)
{
	for (size_t i = 1; i < n; i++) {
		const struct reach *r = active[i];
		double x = x_at(r, middle);
		size_t j = i;

		for (; j && x_at(active[j - 1], middle) > x; j--)
			active[j] = active[j - 1];
		active[j] = r;
	}
}

static void drain_band(
        const struct reach **active, size_t n, double y0, double y1, double *area_um2)
{
	sort_active(active, n, (y0 + y1) / 2);
	for (size_t i = 0; i + 1 < n; i += 2) {
		const struct reach *left = active[i], *right = active[i + 1];
		double low = x_at(right, y0) - x_at(left, y0),
		       high = x_at(right, y1) - x_at(left, y1);

		area_um2[right->edge] += (low + high) / 2 * (y1 - y0);
	}
}

enum status catchment_areas(
        struct arena *mem, const struct region *turned, double *area_um2, struct error *err)
{
	struct reach *reaches;
	const struct reach **active;
	double *heights;
	size_t count = 0, height_count = 0, next = 0, n = 0;
	enum status st =
	        collect_reaches(mem, turned, &reaches, &count, &heights, &height_count, err);

	if (st != STATUS_OK)
		return st;
	active = arena_alloc(mem, count, sizeof(const struct reach *));
	if (!active)
		return error_memory(err);
	for (size_t h = 0; h + 1 < height_count; h++) {
		double y0 = heights[h], y1 = heights[h + 1];
		size_t kept = 0;

		if (y0 == y1)
			continue;
		for (size_t i = 0; i < n; i++)
			if (active[i]->y1 > y0)
				active[kept++] = active[i];
		for (n = kept; next < count && reaches[next].y0 <= y0; next++)
			active[n++] = &reaches[next];
		drain_band(active, n, y0, y1, area_um2);
	}
	return STATUS_OK;
}
