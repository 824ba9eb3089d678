/* inside.c - where there is room within a shape; see patch.h. */
#include "patch.h"

#include <math.h>

static struct point nearest_on_side(struct point p, struct point a, struct point b)
{
	double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy, along = 0;

	if (square > 0)
		along = fmax(0, fmin(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square));
	return (struct point){ a.x + dx * along, a.y + dy * along };
}

struct point rings_nearest(const struct ring *rings, size_t n, struct point p, double *distance)
{
	struct point best = p;

	*distance = INFINITY;
	for (size_t k = 0; k < n; k++)
		for (size_t i = 0; i < rings[k].n; i++) {
			struct point q =
			        nearest_on_side(p, rings[k].p[i], rings[k].p[(i + 1) % rings[k].n]);

			if (hypot(q.x - p.x, q.y - p.y) < *distance) {
				*distance = hypot(q.x - p.x, q.y - p.y);
				best = q;
			}
		}
	return best;
}

static struct point middle_of_corners(const struct ring *r)
{
	struct point sum = { 0, 0 };

	for (size_t i = 0; i < r->n; i++)
		sum.x += r->p[i].x / (double)r->n, sum.y += r->p[i].y / (double)r->n;
	return sum;
}

/* Of a net over the rings the point farthest from their sides; of equals the one nearest the middle
 * of their box. */
struct point rings_middle(const struct ring *rings, size_t n)
{
	enum { NET = 15 };

	struct region region = { (struct ring *)rings, n };
	struct box b = points_box(rings[0].p, rings[0].n);
	struct point middle = { (b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2 }, best = rings[0].p[0];
	double most = -1, size = hypot(b.x1 - b.x0, b.y1 - b.y0);

	if (n == 1 && rings[0].n == 4) /* a slab with one straight cut, mostly */
		return middle_of_corners(&rings[0]);
	for (int i = 0; i < NET * NET; i++) {
		struct point p = { b.x0 + (b.x1 - b.x0) * (i % NET + 0.5) / NET,
			b.y0 + (b.y1 - b.y0) * (i / NET + 0.5) / NET };
		double far;

		if (!region_contains(&region, p))
			continue;
		rings_nearest(rings, n, p, &far);
		far += size - 0.05 * hypot(p.x - middle.x, p.y - middle.y);
		if (far > most)
			most = far, best = p;
	}
	return best;
}

static bool side_inside(const struct ring *r, struct point a, struct point b)
{
	for (int i = 0; i < 4; i++) {
		double f = i / 4.0;

		if (!points_contain(r->p, r->n,
		            (struct point){ a.x + (b.x - a.x) * f, a.y + (b.y - a.y) * f }))
			return false;
	}
	return true;
}

bool rings_hold(const struct patch *p, const struct ring *rings, size_t n)
{
	struct point corner[4];

	patch_corners(p, corner);
	for (int i = 0; i < 4; i++)
		if (!side_inside(&rings[0], corner[i], corner[(i + 1) % 4]))
			return false;
	for (size_t k = 0; k < n; k++)
		for (size_t i = 0; i < rings[k].n; i++)
			if (points_contain(corner, 4, rings[k].p[i]))
				return false;
	return true;
}
