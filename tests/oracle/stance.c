/* stance.c - see stance.h. */
#include "stance.h"

#include "random_plan.h"
#include "sawn.h"

#include <check.h>
#include <math.h>

static bool on(double a, double b, double line)
{
	return fabs(a - line) < 1e-6 && fabs(b - line) < 1e-6;
}

void stance_make(
        const struct cut_stock *stock, const struct piece *piece, int away, struct stance *out)
{
	const struct ring *r = &piece->shape.rings[0];
	double size[2] = { (double)stock->length_um, (double)stock->width_um };
	double l = piece->standing ? size[1] : size[0], w = piece->standing ? size[0] : size[1];
	int turn = (away + (piece->standing ? 270 : 0)) % 360;
	struct point at = { turn == 90    ? w
		            : turn == 180 ? l
		                          : 0,
		turn == 180   ? w
		: turn == 270 ? l
		              : 0 };
	bool held[2] = { false, false };
	int across = turn == 90 || turn == 270;

	ck_assert_uint_le(r->n, MOST_CORNERS);
	out->n = r->n;
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n];

		out->p[i] = sawn_corner(a, turn, at);
		if (stock->edges == RULE_ROUGH || hypot(b.x - a.x, b.y - a.y) < 1)
			continue;
		if (on(a.x, b.x, 0) || on(a.x, b.x, l))
			held[across] = true;
		if (on(a.y, b.y, 0) || on(a.y, b.y, w))
			held[!across] = true;
	}
	out->box = points_box(out->p, out->n);
	out->lo[0] = held[0] ? 0 : -out->box.x0;
	out->hi[0] = held[0] ? 0 : size[0] - out->box.x1;
	out->lo[1] = held[1] ? 0 : -out->box.y0;
	out->hi[1] = held[1] ? 0 : size[1] - out->box.y1;
}

bool stance_is_rectangle(const struct stance *s)
{
	for (size_t i = 0; i < s->n; i++) {
		struct point a = s->p[i], b = s->p[(i + 1) % s->n];

		if (fabs(a.x - b.x) > 1e-6 && fabs(a.y - b.y) > 1e-6)
			return false;
	}
	return s->n == 4;
}

GEOSGeometry *stance_set_down(GEOSContextHandle_t g, const struct stance *s, double dx, double dy)
{
	struct point p[MOST_CORNERS];

	for (size_t i = 0; i < s->n; i++)
		p[i] = (struct point){ s->p[i].x + dx, s->p[i].y + dy };
	return geos_polygon(g, p, s->n);
}
