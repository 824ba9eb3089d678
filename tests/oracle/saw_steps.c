/* saw_steps.c - see saw_steps.h. The line of a cut is made a slit some micrometres wide, so that
 * what it parts comes apart in GEOS; then the blade takes its strip from what lies to the right. */
#include "saw_steps.h"

#include "random_plan.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static const double SLIT_MM = 2e-3; /* half of its width */
static const double FAR_UM = 1e6;

long saw_steps_done[4], saw_steps_ground;

struct bench {
	GEOSContextHandle_t g;
	const struct cut_stock *stock;
	const GEOSGeometry *const *pieces;
	int count;
	GEOSGeometry **part; /* that each piece lies in, one copy for each */
	GEOSGeometry **inside; /* a point of each piece */
};

static double area_of(GEOSContextHandle_t g, const GEOSGeometry *a)
{
	double area = 0;

	GEOSArea_r(g, a, &area);
	return area;
}

/* What six micrometres all along the outline come to. */
static double little(GEOSContextHandle_t g, const GEOSGeometry *a)
{
	double around = 0;

	GEOSLength_r(g, a, &around);
	return around * 3 * SLIT_MM + 1e-6;
}

static GEOSGeometry *line_of(GEOSContextHandle_t g, const struct saw_cut *c)
{
	bool round = c->kind == SAW_OPENING;
	unsigned n = (unsigned)c->n + round;
	GEOSCoordSequence *at = GEOSCoordSeq_create_r(g, n, 2);

	for (unsigned i = 0; i < n; i++)
		GEOSCoordSeq_setXY_r(
		        g, at, i, c->line[i % c->n].x / 1000, c->line[i % c->n].y / 1000);
	return GEOSGeom_createLineString_r(g, at);
}

/* The point from q, `out` um straight on from p and `aside` to the right. */
static struct point beyond(struct point p, struct point q, double out, double aside)
{
	double l = hypot(q.x - p.x, q.y - p.y), x = (q.x - p.x) / l, y = (q.y - p.y) / l;

	return (struct point){ q.x + x * out + y * aside, q.y + y * out - x * aside };
}

/* What the blade takes: a strip to the right of each stretch of the line, a hair narrower than the
 * kerf. One right across comes in from beyond the slab, and goes out there. */
static GEOSGeometry *blade_of(GEOSContextHandle_t g, const struct saw_cut *c, double kerf_um)
{
	size_t n = c->kind == SAW_OPENING ? c->n : c->n - 1;
	GEOSGeometry **strips = malloc(n * sizeof(GEOSGeometry *)), *all, *joined;
	double in = 500 * SLIT_MM / 2, out = kerf_um - in;

	for (size_t i = 0; i < n; i++) {
		struct point p = c->line[i], q = c->line[(i + 1) % c->n];
		double on = c->kind == SAW_ACROSS ? FAR_UM : 0;

		strips[i] = geos_polygon(g,
		        (struct point[]){ beyond(q, p, on, -in), beyond(q, p, on, -out),
		                beyond(p, q, on, out), beyond(p, q, on, in) },
		        4);
	}
	all = GEOSGeom_createCollection_r(g, GEOS_MULTIPOLYGON, strips, (unsigned)n);
	joined = GEOSUnaryUnion_r(g, all);
	GEOSGeom_destroy_r(g, all);
	free(strips);
	ck_assert_ptr_nonnull(joined);
	return joined;
}

/* Whether the cut has its ends on the part's edge, or beyond. */
static void check_ends(const struct bench *b, const struct saw_cut *c, const GEOSGeometry *part)
{
	GEOSGeometry *edge = GEOSBoundary_r(b->g, part);

	for (int e = 0; e < 2; e++) {
		struct point p = c->line[e ? c->n - 1 : 0];
		GEOSGeometry *end = GEOSGeom_createPointFromXY_r(b->g, p.x / 1000, p.y / 1000);
		double off;

		GEOSDistance_r(b->g, edge, end, &off);
		ck_assert_msg(off < 2 * SLIT_MM || !GEOSIntersects_r(b->g, part, end),
		        "a cut ends %g mm within the part in hand", off);
		GEOSGeom_destroy_r(b->g, end);
	}
	GEOSGeom_destroy_r(b->g, edge);
}

/* The polygon of the geometry that holds the point; a copy. */
static GEOSGeometry *polygon_at(
        GEOSContextHandle_t g, const GEOSGeometry *from, const GEOSGeometry *point)
{
	int n = GEOSGetNumGeometries_r(g, from);

	for (int i = 0; i < n; i++) {
		const GEOSGeometry *one = GEOSGetGeometryN_r(g, from, i);

		if (GEOSIntersects_r(g, one, point))
			return GEOSGeom_clone_r(g, one);
	}
	return NULL;
}

static bool holds(const struct saw_cut *c, int from, int to, int piece)
{
	for (int i = from; i < to; i++)
		if (c->places[i] == piece)
			return true;
	return false;
}

/* All pieces that the cut says, and no others, lie in the part in hand. */
static void check_hand(const struct bench *b, const struct saw_cut *c)
{
	const GEOSGeometry *part = b->part[c->places[0]];

	ck_assert_int_ge(c->left, 1);
	for (int i = 0; i < b->count; i++)
		ck_assert_msg((bool)GEOSIntersects_r(b->g, part, b->inside[i]) ==
		                      holds(c, 0, c->left + c->right, i),
		        "a cut says what is in hand, but not truly");
}

static void check_blade(const struct bench *b, const struct saw_cut *c, const GEOSGeometry *blade)
{
	bool bites = false;

	for (int i = 0; i < c->left + c->right; i++) {
		const GEOSGeometry *piece = b->pieces[c->places[i]];
		GEOSGeometry *bite = GEOSIntersection_r(b->g, piece, blade);
		bool deep = area_of(b->g, bite) > little(b->g, piece);

		ck_assert_msg(!deep || (i == 0 && c->ground), "the blade cuts into a piece");
		bites = bites || area_of(b->g, bite) > 0;
		GEOSGeom_destroy_r(b->g, bite);
	}
	ck_assert_msg(bites || !c->ground, "a corner is ground out though the blade reaches it");
}

/* Carries out one cut. */
static void saw(struct bench *b, const struct saw_cut *c)
{
	GEOSContextHandle_t g = b->g;
	GEOSGeometry *part = GEOSGeom_clone_r(g, b->part[c->places[0]]);
	GEOSGeometry *line = line_of(g, c), *blade = blade_of(g, c, (double)b->stock->kerf_um);
	GEOSGeometry *slit = GEOSBufferWithStyle_r(
	        g, line, SLIT_MM, 8, GEOSBUF_CAP_SQUARE, GEOSBUF_JOIN_MITRE, 2);
	GEOSGeometry *apart = GEOSDifference_r(g, part, slit), *rest;

	check_hand(b, c);
	if (b->stock->kerf_um)
		check_blade(b, c, blade);
	ck_assert(c->kind != SAW_ACROSS || c->n == 2);
	if (c->kind != SAW_OPENING)
		check_ends(b, c, part);
	rest = b->stock->kerf_um ? GEOSDifference_r(g, apart, blade) : GEOSGeom_clone_r(g, apart);
	for (int i = 0; i < c->left + c->right; i++) {
		int at = c->places[i];

		GEOSGeom_destroy_r(g, b->part[at]);
		b->part[at] = polygon_at(g, i < c->left ? apart : rest, b->inside[at]);
		ck_assert_msg(b->part[at], "a piece is sawn through");
	}
	for (int i = 0; i < c->left; i++)
		for (int k = c->left; k < c->left + c->right; k++)
			ck_assert_msg(!GEOSIntersects_r(
			                      g, b->part[c->places[i]], b->inside[c->places[k]]),
			        "a cut does not part what it says");
	saw_steps_done[c->kind]++;
	saw_steps_ground += c->ground;
	GEOSGeom_destroy_r(g, rest);
	GEOSGeom_destroy_r(g, apart);
	GEOSGeom_destroy_r(g, slit);
	GEOSGeom_destroy_r(g, blade);
	GEOSGeom_destroy_r(g, line);
	GEOSGeom_destroy_r(g, part);
}

static void check_sawn(const struct bench *b, int i)
{
	GEOSGeometry *over = GEOSSymDifference_r(b->g, b->part[i], b->pieces[i]);

	ck_assert_msg(area_of(b->g, over) < little(b->g, b->pieces[i]),
	        "%g mm2 too much or too little is sawn out", area_of(b->g, over));
	GEOSGeom_destroy_r(b->g, over);
}

void saw_steps_check(GEOSContextHandle_t g, const struct saw_order *order,
        const struct cut_stock *stock, const GEOSGeometry *const *pieces, int count)
{
	struct bench b = { .g = g, .stock = stock, .pieces = pieces, .count = count };
	struct point slab[4] = { { 0, 0 }, { (double)stock->length_um, 0 },
		{ (double)stock->length_um, (double)stock->width_um },
		{ 0, (double)stock->width_um } };

	ck_assert_msg(order->sound, "the pieces of a slab have no saw order");
	b.part = calloc((size_t)count, sizeof(GEOSGeometry *));
	b.inside = calloc((size_t)count, sizeof(GEOSGeometry *));
	for (int i = 0; i < count; i++) {
		b.part[i] = geos_polygon(g, slab, 4);
		b.inside[i] = GEOSPointOnSurface_r(g, pieces[i]);
	}
	for (size_t i = 0; i < order->count; i++)
		saw(&b, &order->cuts[i]);
	for (int i = 0; i < count; i++) {
		check_sawn(&b, i);
		GEOSGeom_destroy_r(g, b.part[i]);
		GEOSGeom_destroy_r(g, b.inside[i]);
	}
	free(b.part);
	free(b.inside);
}
