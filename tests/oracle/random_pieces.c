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

/* A lower part of the slab with a bay in its upper side, the bottom of which is bent. */
static size_t bay(struct chance *c, double l, double w, struct point *p)
{
	double a = on_grid(c, 0.1 * l, 0.4 * l, 1000), b = on_grid(c, 0.5 * l, 0.9 * l, 1000);
	double top = chance_int(c, 0, 1) ? w : on_grid(c, 0.6 * w, 0.9 * w, 1000);
	double deep = on_grid(c, 0.2 * w, 0.4 * w, 1000);
	double bend = on_grid(c, a + (b - a) / 5, b - (b - a) / 5, 1000);

	p[0] = (struct point){ 0, 0 };
	p[1] = (struct point){ l, 0 };
	p[2] = (struct point){ l, top };
	p[3] = (struct point){ b, top };
	p[4] = (struct point){ b, deep };
	p[5] = (struct point){ bend, deep - 5000 };
	p[6] = (struct point){ a, deep };
	p[7] = (struct point){ a, top };
	p[8] = (struct point){ 0, top };
	return 9;
}

/* The first piece that has a bay; NULL where none has. */
static const struct piece *bay_of(const struct piece *pieces, size_t count)
{
	for (size_t i = 0; i < count; i++)
		if (pieces[i].shape.rings[0].n == 9)
			return &pieces[i];
	return NULL;
}

/* A piece of the upper side that just goes into a bay. */
static struct piece filling(
        struct arena *mem, struct chance *c, const struct cut_stock *s, const struct piece *into)
{
	const struct point *p = into->shape.rings[0].p;
	double slack = (double)(chance_int(c, 0, 2) * 1000), kerf = (double)s->kerf_um;
	double a = p[3].x - p[7].x - 2 * kerf - slack;
	double w = (double)(into->standing ? s->length_um : s->width_um);
	double b = w - p[4].y - kerf - slack;
	struct ring *r = arena_alloc(mem, 1, sizeof *r);

	*r = (struct ring){ arena_alloc(mem, 4, sizeof *r->p), 4, NULL };
	r->p[0] = (struct point){ 1000, w - b };
	r->p[1] = (struct point){ 1000 + a, w - b };
	r->p[2] = (struct point){ 1000 + a, w };
	r->p[3] = (struct point){ 1000, w };
	return hand_piece_of(s, into->standing, r);
}

/* The slab less a corner. */
static size_t notched(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, 0.2 * l, 0.8 * l, grid), b = on_grid(c, 0.2 * w, 0.8 * w, grid);

	if (chance_int(c, 0, 1))
		return bay(c, l, w, p);
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

	r->p = arena_alloc(mem, 9, sizeof *r->p);
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
	for (size_t i = 0; i < n && kind != JOB_STRIPS; i++) {
		const struct piece *bay = bay_of(pieces, i);

		if (i && chance_int(c, 0, 3) == 0)
			pieces[i] = pieces[chance_int(c, 0, (int64_t)i - 1)];
		else if (bay && chance_int(c, 0, 1))
			pieces[i] = filling(mem, c, stock, bay);
		else
			pieces[i] = random_piece(mem, c, stock, kind);
	}
	return n;
}
