/* Splitting held to GEOS: seeded random plans split by random rings must give GEOS's intersection
 * and difference. */
#include "random_plan.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>

enum { PLANS = 2000, TINY = 4000, LABEL = 1000000 };

static struct arena mem;
static GEOSContextHandle_t g;

static void setup(void)
{
	g = GEOS_init_r();
}

static void teardown(void)
{
	GEOS_finish_r(g);
	arena_free(&mem);
}

static bool runs_round(const struct ring *r)
{
	return ring_polygon_area(r->p, r->n) > 0;
}

/* The smallest outer ring about an opening. A middle of its edges lies on no other ring. */
static size_t ring_about(const struct region *r, const struct ring *opening)
{
	struct point at = { (opening->p[0].x + opening->p[1].x) / 2,
		(opening->p[0].y + opening->p[1].y) / 2 };
	size_t best = r->count;
	double least = INFINITY;

	for (size_t i = 0; i < r->count; i++) {
		double area = ring_polygon_area(r->rings[i].p, r->rings[i].n);

		if (area > 0 && area < least && points_contain(r->rings[i].p, r->rings[i].n, at)) {
			least = area;
			best = i;
		}
	}
	ck_assert_uint_lt(best, r->count);
	return best;
}

/* The region's parts as one GEOS geometry, mm. */
static GEOSGeometry *geos_multi(const struct region *r)
{
	GEOSGeometry **parts = calloc(r->count + 1, sizeof *parts);
	GEOSGeometry *all;
	unsigned count = 0;

	ck_assert_ptr_nonnull(parts);
	for (size_t i = 0; i < r->count; i++) {
		struct region part = { arena_alloc(&mem, r->count, sizeof *part.rings), 1 };

		ck_assert_ptr_nonnull(part.rings);
		part.rings[0] = r->rings[i];
		if (!runs_round(&r->rings[i]))
			continue;
		for (size_t j = 0; j < r->count; j++)
			if (!runs_round(&r->rings[j]) && ring_about(r, &r->rings[j]) == i)
				part.rings[part.count++] = r->rings[j];
		parts[count++] = geos_region(g, &part);
	}
	all = GEOSGeom_createCollection_r(g, GEOS_MULTIPOLYGON, parts, count);
	free(parts);
	return all;
}

static double area_of(const GEOSGeometry *a)
{
	double area;

	ck_assert_ptr_nonnull(a);
	ck_assert_int_eq(GEOSArea_r(g, a, &area), 1);
	return area;
}

static double edge_mm(const struct ring *r, size_t i)
{
	struct point a = r->p[i], b = r->p[(i + 1) % r->n];

	return hypot(b.x - a.x, b.y - a.y) / 1000;
}

/* Length of the edges with a number, mm; of all where it is -1. */
static double length_of(const struct region *r, int edge)
{
	double sum = 0;

	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++)
			if (edge < 0 || r->rings[i].edge[j] == edge)
				sum += edge_mm(&r->rings[i], j);
	return sum;
}

static void check_whole_and_distinct(const struct region *r)
{
	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			struct point p = r->rings[i].p[j];

			ck_assert(p.x == round(p.x) && p.y == round(p.y));
			ck_assert_double_gt(edge_mm(&r->rings[i], j), 0);
		}
}

/* Holds a part to what GEOS makes of region and ring, to `slack` mm2. Takes `theirs`. */
static void check_part(
        const struct region *ours, GEOSGeometry *theirs, double slack, const char *which, int job)
{
	GEOSGeometry *mine = geos_multi(ours), *differ;

	ck_assert_msg(GEOSisValid_r(g, mine) == 1, "%s of job %d is not valid: %s", which, job,
	        GEOSisValidReason_r(g, mine));
	ck_assert_double_eq_tol(
	        area_of(mine), region_area_um2(ours) * 1e-6, 1e-9 * area_of(mine) + 1e-6);
	differ = GEOSSymDifference_r(g, mine, theirs);
	ck_assert_msg(fabs(area_of(mine) - area_of(theirs)) <= slack,
	        "%s of job %d: %.6f and %.6f mm2", which, job, area_of(mine), area_of(theirs));
	ck_assert_msg(area_of(differ) <= slack, "%s of job %d differs by %.6f mm2", which, job,
	        area_of(differ));
	check_whole_and_distinct(ours);
	GEOSGeom_destroy_r(g, differ);
	GEOSGeom_destroy_r(g, theirs);
	GEOSGeom_destroy_r(g, mine);
}

/* Each edge's length is found again in the two parts. */
static void check_lengths(const struct region *from, const struct region *in,
        const struct region *out, size_t edges, double slack)
{
	ck_assert_double_eq_tol(length_of(in, LABEL), length_of(out, LABEL), 1e-6);
	for (size_t e = 0; e < edges; e++)
		ck_assert_double_eq_tol(length_of(in, (int)e) + length_of(out, (int)e),
		        length_of(from, (int)e), slack);
}

static void move_ring(struct plan_ring *r, int64_t by_um)
{
	for (size_t i = 0; i < r->count; i++) {
		r->nodes[i].x_um += by_um;
		r->nodes[i].y_um -= by_um;
	}
}

START_TEST(parts_agree_with_geos)
{
	struct chance c = chance_new(chance_seed("parts_agree_with_geos", 77031) + (uint64_t)_i);
	enum outline_style style = (enum outline_style)(_i % STYLES);
	enum zone_style zone = (enum zone_style)(_i / STYLES);

	for (int job = 0; job < PLANS / STYLES / ZONE_STYLES; job++) {
		struct plan plan = random_plan(&mem, &c, style);
		struct plan_ring ring = random_zone(&mem, &c, &plan, zone);
		struct region from, in, out;
		struct ring by;
		struct error err = { 0 };
		GEOSGeometry *whole, *splitter;
		double slack;

		/* Every fourth close to the end of reach. */
		for (size_t i = 0; i < plan.ring_count; i++)
			move_ring(&plan.rings[i], job % 4 ? 0 : 985 * UM_PER_M);
		move_ring(&ring, job % 4 ? 0 : 985 * UM_PER_M);
		ck_assert_int_eq(region_from_plan(&mem, &plan, &from, NULL), STATUS_OK);
		ck_assert_int_eq(ring_flatten(&mem, &ring, &by, NULL), STATUS_OK);
		ck_assert_msg(region_split(&mem, &from, &by, LABEL, &in, &out, &err) == STATUS_OK,
		        "job %d: %s", job, err.text);
		/* Rounding moves the ends of edges by less than a um; where all edges are upright
		 * or level there is nothing to round. */
		slack = 1e-9 * region_area_um2(&from) * 1e-6;
		if (style != STYLE_RECTILINEAR || zone != ZONE_BOX)
			slack += 5e-4 * (length_of(&in, -1) + length_of(&out, -1));
		whole = geos_region(g, &from);
		splitter = geos_polygon(g, by.p, by.n);
		check_part(&in, GEOSIntersection_r(g, whole, splitter), slack, "inside", job);
		check_part(&out, GEOSDifference_r(g, whole, splitter), slack, "outside", job);
		check_lengths(&from, &in, &out, plan_edge_count(&plan), 0.02);
		GEOSGeom_destroy_r(g, whole);
		GEOSGeom_destroy_r(g, splitter);
		arena_reset(&mem);
	}
}
END_TEST

/* A triangle or four-sided ring of a few um: simple, by GEOS. */
static struct ring tiny_ring(struct chance *c, int64_t size)
{
	for (;;) {
		struct ring r = { .p = arena_alloc(&mem, 4, sizeof *r.p),
			.n = (size_t)chance_int(c, 3, 4) };
		GEOSGeometry *polygon;
		bool valid;

		ck_assert_ptr_nonnull(r.p);
		for (size_t i = 0; i < r.n; i++)
			r.p[i] = (struct point){ (double)chance_int(c, 0, size),
				(double)chance_int(c, 0, size) };
		polygon = geos_polygon(g, r.p, r.n);
		valid = GEOSisValid_r(g, polygon) == 1;
		GEOSGeom_destroy_r(g, polygon);
		if (valid && runs_round(&r))
			return r;
	}
}

static double distance_um(struct point p, struct point a, struct point b)
{
	double dx = b.x - a.x, dy = b.y - a.y;
	double t = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy);

	t = fmin(1, fmax(0, t));
	return hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
}

static bool same(struct point p, struct point q)
{
	return p.x == q.x && p.y == q.y;
}

static void check_clear_of(struct point p, const struct ring *r, int job)
{
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n];

		if (!same(p, a) && !same(p, b))
			ck_assert_msg(distance_um(p, a, b) > 0.4999, "job %d: %f um", job,
			        distance_um(p, a, b));
	}
}

/* No corner of one lies within half a um of an edge of the other that does not end there. */
static void check_clear(const struct region *corners, const struct region *edges, int job)
{
	for (size_t i = 0; i < corners->count; i++)
		for (size_t j = 0; j < corners->rings[i].n; j++)
			for (size_t k = 0; k < edges->count; k++)
				check_clear_of(corners->rings[i].p[j], &edges->rings[k], job);
}

/* Where everything lies within a few um rounding changes everything, and yet: two sound parts that
 * make up the whole, less than a um from where they should be. */
START_TEST(parts_of_a_few_um_are_sound)
{
	struct chance c = chance_new(chance_seed("parts_of_a_few_um_are_sound", 4242));

	for (int job = 0; job < TINY; job++) {
		int64_t size = chance_int(&c, 2, 40);
		struct ring ring = tiny_ring(&c, size), by = tiny_ring(&c, size);
		struct region from = { &ring, 1 }, in, out;
		struct error err = { 0 };
		GEOSGeometry *whole = geos_polygon(g, ring.p, ring.n),
		             *splitter = geos_polygon(g, by.p, by.n);
		double slack;

		ck_assert_msg(region_split(&mem, &from, &by, LABEL, &in, &out, &err) == STATUS_OK,
		        "job %d: %s", job, err.text);
		slack = 1e-3 * ((double)size * 8e-3 + length_of(&in, LABEL));
		check_part(&in, GEOSIntersection_r(g, whole, splitter), slack, "inside", job);
		check_part(&out, GEOSDifference_r(g, whole, splitter), slack, "outside", job);
		ck_assert_double_eq_tol(length_of(&in, LABEL), length_of(&out, LABEL), 1e-9);
		check_clear(&in, &in, job);
		check_clear(&in, &out, job);
		check_clear(&out, &in, job);
		check_clear(&out, &out, job);
		GEOSGeom_destroy_r(g, whole);
		GEOSGeom_destroy_r(g, splitter);
		arena_reset(&mem);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("split against GEOS");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_loop_test(tc, parts_agree_with_geos, 0, STYLES * ZONE_STYLES);
	tcase_add_test(tc, parts_of_a_few_um_are_sound);
	return suite_run("split against GEOS", tc);
}
