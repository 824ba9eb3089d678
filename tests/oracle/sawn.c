/* sawn.c - see sawn.h. */
#include "sawn.h"

#include "random_plan.h"
#include "saw_steps.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static const double CLOSE_MM = 1e-5; /* a hundredth of a micrometre */

struct point sawn_corner(struct point p, int turn, struct point at)
{
	switch (turn) {
	case 90:
		return (struct point){ at.x - p.y, at.y + p.x };
	case 180:
		return (struct point){ at.x - p.x, at.y - p.y };
	case 270:
		return (struct point){ at.x + p.y, at.y - p.x };
	default:
		return (struct point){ at.x + p.x, at.y + p.y };
	}
}

/* How thick the sliver is in which the two overlap. */
static double overlap(GEOSContextHandle_t g, const GEOSGeometry *a, const GEOSGeometry *b)
{
	GEOSGeometry *common = GEOSIntersection_r(g, a, b);
	double area, around;

	ck_assert_ptr_nonnull(common);
	GEOSArea_r(g, common, &area);
	GEOSLength_r(g, common, &around);
	GEOSGeom_destroy_r(g, common);
	return area > 0 ? 2 * area / around : 0;
}

bool sawn_clear(GEOSContextHandle_t g, const GEOSGeometry *a, const GEOSGeometry *b, double kerf_mm)
{
	double gap;

	GEOSDistance_r(g, a, b, &gap);
	return gap >= kerf_mm - CLOSE_MM && (gap > 0 || overlap(g, a, b) < CLOSE_MM);
}

/* Under the rough rule a slab may yield many; whether cuts part them is tried for so many. */
enum { MOST_PLACED = 200, MOST_SAWN = 9 };

static GEOSGeometry *hull_of(
        GEOSContextHandle_t g, const GEOSGeometry *const *polygons, int count, unsigned set)
{
	GEOSGeometry *parts[MOST_PLACED], *all, *hull;
	unsigned n = 0;

	for (int i = 0; i < count; i++)
		if (set >> i & 1)
			parts[n++] = GEOSGeom_clone_r(g, polygons[i]);
	all = GEOSGeom_createCollection_r(g, GEOS_MULTIPOLYGON, parts, n);
	hull = GEOSConvexHull_r(g, all);
	GEOSGeom_destroy_r(g, all);
	return hull;
}

static bool parts_by_cuts(GEOSContextHandle_t g, const GEOSGeometry *const *polygons, int count,
        unsigned set, double kerf_mm)
{
	if (!(set & (set - 1)))
		return true;
	for (unsigned one = (set - 1) & set; one; one = (one - 1) & set) {
		unsigned other = set & ~one;
		GEOSGeometry *a, *b;
		bool clear;

		if (one < other)
			continue;
		a = hull_of(g, polygons, count, one);
		b = hull_of(g, polygons, count, other);
		clear = sawn_clear(g, a, b, kerf_mm);
		GEOSGeom_destroy_r(g, a);
		GEOSGeom_destroy_r(g, b);
		if (clear && parts_by_cuts(g, polygons, count, one, kerf_mm) &&
		        parts_by_cuts(g, polygons, count, other, kerf_mm))
			return true;
	}
	return false;
}

bool sawn_apart(
        GEOSContextHandle_t g, const GEOSGeometry *const *polygons, int count, double kerf_mm)
{
	return parts_by_cuts(g, polygons, count, (1U << count) - 1, kerf_mm);
}

struct cut_stock *sawn_stocks(
        struct arena *mem, const struct paving *laid, const struct plan_laying *laying)
{
	struct cut_stock *stocks = arena_alloc(mem, laid->stock_count + 1, sizeof *stocks);

	ck_assert_ptr_nonnull(stocks);
	for (size_t i = 0; i < laid->stock_count; i++)
		stocks[i] = (struct cut_stock){ .length_um = laid->stocks[i].length_um,
			.width_um = laid->stocks[i].width_um,
			.kerf_um = laying->kerf_um,
			.directional = laid->stocks[i].slab.directional,
			.edges = laying->edges };
	return stocks;
}

static bool near(double a, double b)
{
	return fabs(a - b) < 0.01; /* um */
}

/* Every side that faces a joint must lie on the edge of the slab it is turned to. */
static void check_finished_edges(
        const struct piece *piece, const struct point *placed, const struct cut_stock *stock)
{
	double length = (double)stock->length_um, width = (double)stock->width_um;
	double l = piece->standing ? width : length, w = piece->standing ? length : width;
	const struct ring *r = &piece->shape.rings[0];

	for (size_t i = 0; i < r->n; i++) {
		size_t j = (i + 1) % r->n;
		struct point a = r->p[i], b = r->p[j], p = placed[i], q = placed[j];
		bool upright = (near(a.x, 0) && near(b.x, 0)) || (near(a.x, l) && near(b.x, l));
		bool level = (near(a.y, 0) && near(b.y, 0)) || (near(a.y, w) && near(b.y, w));

		if ((!upright && !level) || hypot(b.x - a.x, b.y - a.y) < 1)
			continue; /* less than a micrometre of edge faces no joint */
		ck_assert((near(p.x, q.x) && (near(p.x, 0) || near(p.x, length))) ||
		          (near(p.y, q.y) && (near(p.y, 0) || near(p.y, width))));
	}
}

/* A standing position lies a quarter turned; half a turn is allowed to all but directional slabs,
 * quarters to square ones. */
static void check_turn(int turn, bool standing, const struct cut_stock *stock)
{
	int home = standing ? 270 : 0, away = (turn + 360 - home) % 360;

	ck_assert(turn == 0 || turn == 90 || turn == 180 || turn == 270);
	ck_assert(away == 0 || !stock->directional);
	ck_assert(away == 0 || away == 180 || stock->length_um == stock->width_um);
}

/* The piece where it lies on its slab. */
static GEOSGeometry *check_place(GEOSContextHandle_t g, const struct cut_place *place,
        const struct piece *piece, const struct cut_stock *stock)
{
	size_t rings = piece->shape.count;
	struct region lies = { calloc(rings, sizeof *lies.rings), rings };
	GEOSGeometry *polygon;

	check_turn(place->turn, piece->standing, stock);
	for (size_t k = 0; k < rings; k++) {
		const struct ring *r = &piece->shape.rings[k];
		struct point *p = malloc(r->n * sizeof *p);

		for (size_t j = 0; j < r->n; j++) {
			p[j] = sawn_corner(r->p[j], place->turn, place->at);
			ck_assert(p[j].x > -0.01 && p[j].x < (double)stock->length_um + 0.01);
			ck_assert(p[j].y > -0.01 && p[j].y < (double)stock->width_um + 0.01);
		}
		lies.rings[k] = (struct ring){ .p = p, .n = r->n };
	}
	if (stock->edges == RULE_FINISHED)
		check_finished_edges(piece, lies.rings[0].p, stock);
	polygon = geos_region(g, &lies);
	for (size_t k = 0; k < rings; k++)
		free(lies.rings[k].p);
	free(lies.rings);
	return polygon;
}

/* Carries the slab's saw order out. */
static void check_order(GEOSContextHandle_t g, const struct cut_source *s,
        const struct piece *pieces, const struct cut_stock *stock,
        const GEOSGeometry *const *placed)
{
	struct arena mem = { 0 };
	struct saw_order order;

	ck_assert_int_eq(saw_order_make(&mem, pieces, stock, s, &order, NULL), STATUS_OK);
	saw_steps_check(g, &order, stock, placed, s->count);
	arena_free(&mem);
}

static void check_source(GEOSContextHandle_t g, const struct cut_source *s,
        const struct piece *pieces, const struct cut_stock *stocks, int *used)
{
	const struct cut_stock *stock = &stocks[s->stock];
	double kerf = (double)stock->kerf_um / 1000;
	GEOSGeometry *placed[MOST_PLACED];

	ck_assert_int_ge(s->count, 1);
	ck_assert_int_le(s->count, stock->edges == RULE_ROUGH ? MOST_PLACED : SOURCE_PIECES);
	for (int i = 0; i < s->count; i++) {
		const struct piece *piece = &pieces[s->place[i].piece];

		used[s->place[i].piece]++;
		ck_assert_uint_eq(piece->stock, s->stock);
		placed[i] = check_place(g, &s->place[i], piece, stock);
	}
	for (int i = 0; i < s->count; i++)
		for (int j = i + 1; j < s->count; j++)
			ck_assert_msg(sawn_clear(g, placed[i], placed[j], kerf),
			        "pieces %zu and %zu are less than the kerf apart",
			        s->place[i].piece, s->place[j].piece);
	ck_assert_msg(s->count < 3 || s->count > MOST_SAWN ||
	                      sawn_apart(g, (const GEOSGeometry *const *)placed, s->count, kerf),
	        "no cuts right across part pieces %zu, %zu, %zu ...", s->place[0].piece,
	        s->place[1].piece, s->place[2].piece);
	check_order(g, s, pieces, stock, (const GEOSGeometry *const *)placed);
	for (int i = 0; i < s->count; i++)
		GEOSGeom_destroy_r(g, placed[i]);
}

/* Totals say what the slabs are, stock by stock, each in laying order. */
static void check_totals(const struct cutplan *cuts, size_t stock_count)
{
	size_t slabs = 0, bound = 0;

	for (size_t i = 0; i < stock_count; i++) {
		const struct cut_total *t = &cuts->of_stock[i];

		for (size_t k = 0; k < t->slabs; k++) {
			const struct cut_source *s = &cuts->sources[slabs + k];

			ck_assert_uint_eq(s->stock, i);
			ck_assert(!k || s[-1].place[0].piece < s->place[0].piece);
			for (int j = 1; j < s->count; j++)
				ck_assert_uint_lt(s->place[j - 1].piece, s->place[j].piece);
		}
		ck_assert_uint_le(t->bound, t->slabs);
		ck_assert(t->bound > 0 || t->slabs == 0);
		slabs += t->slabs;
		bound += t->bound;
	}
	ck_assert_uint_eq(slabs, cuts->slabs);
	ck_assert_uint_eq(bound, cuts->bound);
}

void sawn_check(GEOSContextHandle_t g, const struct cutplan *cuts, const struct piece *pieces,
        size_t piece_count, const struct cut_stock *stocks, size_t stock_count)
{
	int *used = calloc(piece_count + 1, sizeof *used);

	check_totals(cuts, stock_count);
	for (size_t i = 0; i < cuts->slabs; i++)
		check_source(g, &cuts->sources[i], pieces, stocks, used);
	for (size_t i = 0; i < piece_count; i++)
		ck_assert_int_eq(
		        used[i], pieces[i].kind == PIECE_CUT || pieces[i].kind == PIECE_SLIVER);
	free(used);
}
