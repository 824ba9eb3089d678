/* random_pieces.c - see random_pieces.h. */
#include "random_pieces.h"

#include "unit/hand_pieces.h"

#include <math.h>
#include <string.h>

static double on_grid(struct chance *c, double least, double most, double grid)
{
	return floor(chance_real(c, least, most) / grid) * grid;
}

/* What of a ring lies to the left of the line from a to b. */
static size_t clip(
        const struct point *p, size_t n, struct point a, struct point b, struct point *out)
{
	size_t count = 0;

	for (size_t i = 0; i < n; i++) {
		struct point u = p[i], v = p[(i + 1) % n];
		double s = (b.x - a.x) * (u.y - a.y) - (b.y - a.y) * (u.x - a.x);
		double t = (b.x - a.x) * (v.y - a.y) - (b.y - a.y) * (v.x - a.x);

		if (s >= 0)
			out[count++] = u;
		if ((s > 0 && t < 0) || (s < 0 && t > 0)) {
			double part = s / (s - t);

			out[count++] = (struct point){ u.x + (v.x - u.x) * part,
				u.y + (v.y - u.y) * part };
			/* On the slab's sides exactly. */
			if (u.x == v.x)
				out[count - 1].x = u.x;
			if (u.y == v.y)
				out[count - 1].y = u.y;
		}
	}
	return count;
}

/* A rectangle somewhere on the slab; most reach one or two of its sides. */
static size_t rectangle(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, grid, 0.9 * l, grid), b = on_grid(c, grid, 0.9 * w, grid);
	double x = 0, y = 0;
	int64_t where = chance_int(c, 0, 9);

	if (where == 0) /* all the length, or all the width */
		a = l;
	if (where == 1)
		b = w;
	if (a < l)
		x = (double[]){ 0, l - a, on_grid(c, 0, l - a, grid) }[chance_int(c, 0, 2)];
	if (b < w)
		y = (double[]){ 0, w - b, on_grid(c, 0, w - b, grid) }[chance_int(c, 0, 2)];
	p[0] = (struct point){ x, y };
	p[1] = (struct point){ x + a, y };
	p[2] = (struct point){ x + a, y + b };
	p[3] = (struct point){ x, y + b };
	return 4;
}

/* A part of the slab, or of a rectangle on it, with one or two slanted sides; now and then a line
 * through the middle halves the slab. */
static size_t skew(struct chance *c, double l, double w, double grid, struct point *p)
{
	struct point from[8];
	size_t n = 4;
	bool halved = chance_int(c, 0, 5) == 0;

	rectangle(c, l, w, grid, from);
	if (halved || chance_int(c, 0, 1))
		memcpy(from, (struct point[]){ { 0, 0 }, { l, 0 }, { l, w }, { 0, w } },
		        4 * sizeof *from);
	for (int64_t cuts = halved ? 1 : chance_int(c, 1, 2); cuts > 0; cuts--) {
		double turn = chance_real(c, 0, 2 * M_PI);
		struct box box = points_box(from, n);
		struct point a = { chance_real(c, box.x0, box.x1), chance_real(c, box.y0, box.y1) };

		if (halved)
			a = (struct point){ l / 2, w / 2 };
		n = clip(from, n, a, (struct point){ a.x + cos(turn), a.y + sin(turn) }, p);
		memcpy(from, p, n * sizeof *p);
	}
	return n;
}

/* The slab less a corner. */
static size_t notched(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, 0.2 * l, 0.8 * l, grid), b = on_grid(c, 0.2 * w, 0.8 * w, grid);

	p[0] = (struct point){ 0, 0 };
	p[1] = (struct point){ l, 0 };
	p[2] = (struct point){ l, b };
	p[3] = (struct point){ a, b };
	p[4] = (struct point){ a, w };
	p[5] = (struct point){ 0, w };
	return 6;
}

/* A rectangle in a corner of the slab: four in turn may lie round about its middle so that only
 * slanted cuts part them. */
static size_t cornered(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, 0.1 * l, 0.8 * l, grid) + grid;
	double b = on_grid(c, 0.1 * w, 0.8 * w, grid) + grid;
	double x = chance_int(c, 0, 1) ? 0 : l - a, y = chance_int(c, 0, 1) ? 0 : w - b;

	p[0] = (struct point){ x, y };
	p[1] = (struct point){ x + a, y };
	p[2] = (struct point){ x + a, y + b };
	p[3] = (struct point){ x, y + b };
	return 4;
}

struct cut_stock random_stock(struct chance *c)
{
	static const int64_t sizes[][2] = { { 600, 300 }, { 597, 297 }, { 450, 450 }, { 600, 600 },
		{ 400, 300 }, { 300, 300 } };
	const int64_t *size = sizes[chance_int(c, 0, 5)];

	return (struct cut_stock){ .length_um = size[0] * UM_PER_MM,
		.width_um = size[1] * UM_PER_MM,
		.kerf_um = chance_int(c, 0, 5) * UM_PER_MM,
		.directional = chance_int(c, 0, 4) == 0,
		.edges = chance_int(c, 0, 3) ? RULE_FINISHED : RULE_ROUGH };
}

static struct piece random_piece(
        struct arena *mem, struct chance *c, const struct cut_stock *s, enum job_kind kind)
{
	static const double grids[] = { 1000, 10000, 50000 };
	double grid = grids[chance_int(c, 0, 2)];
	bool standing = chance_int(c, 0, 3) == 0;
	double l = (double)(standing ? s->width_um : s->length_um);
	double w = (double)(standing ? s->length_um : s->width_um);
	struct ring *r = arena_alloc(mem, 1, sizeof *r);

	r->p = arena_alloc(mem, 8, sizeof *r->p);
	do {
		if (kind == JOB_NOTCHED && chance_int(c, 0, 2) == 0)
			r->n = notched(c, l, w, grid, r->p);
		else if (kind == JOB_CORNERS)
			r->n = cornered(c, l, w, 1000, r->p);
		else if (kind >= JOB_SKEW && chance_int(c, 0, 3))
			r->n = skew(c, l, w, grid, r->p);
		else
			r->n = rectangle(c, l, w, grid, r->p);
	} while (r->n < 3 || ring_polygon_area(r->p, r->n) < 4e8);
	return hand_piece_of(s, standing, r);
}

/* Strips that nearly, or just, make up the slab together with the kerfs between them. */
static void strips(struct arena *mem, struct chance *c, const struct cut_stock *s,
        struct piece *pieces, size_t count)
{
	double length = (double)s->length_um / 1000, width = (double)s->width_um / 1000;

	for (size_t done = 0; done < count;) {
		int parts = (int)chance_int(c, 2, SOURCE_PIECES);
		double left = length, short_of = (double)chance_int(c, -1, 1);

		for (int i = 0; i < parts && done < count; i++) {
			double a = i + 1 < parts ? on_grid(c, 0.2 * left, 0.6 * left, 1)
			                         : left + short_of;
			double x = (double[]){ 0, length - a, 1 }[chance_int(c, 0, 2)];
			double y = chance_int(c, 0, 1) ? 0 : 1;

			if (a < 2 || x + a > length || x < 0)
				continue;
			pieces[done++] = hand_rectangle(mem, s, x, y, a, width - 1 - y);
			left -= a + (double)s->kerf_um / 1000;
		}
	}
}

size_t random_pieces(struct arena *mem, struct chance *c, const struct cut_stock *stock,
        enum job_kind kind, struct piece *pieces, size_t most)
{
	size_t n = (size_t)chance_int(c, 2, (int64_t)most);

	if (kind == JOB_STRIPS)
		strips(mem, c, stock, pieces, n);
	else
		for (size_t i = 0; i < n; i++)
			pieces[i] = i && chance_int(c, 0, 3) == 0
			                    ? pieces[chance_int(c, 0, (int64_t)i - 1)]
			                    : random_piece(mem, c, stock, kind);
	return n;
}
