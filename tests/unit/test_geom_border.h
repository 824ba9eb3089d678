/* test_geom_border.h - what the tests of borders share: plans with borders by hand, drawn and
 * looked at. */
#ifndef TESTS_UNIT_TEST_GEOM_BORDER_H
#define TESTS_UNIT_TEST_GEOM_BORDER_H

#include "plans.h"
#include "suite.h"

#include "slabwright/geom.h"

#include <math.h>
#include <string.h>

static struct arena mem;
static struct plan_border borders[3]; /* of the plan under test */

static inline void teardown(void)
{
	arena_free(&mem);
}

#define PLAN(...)                                                                                  \
	plan_by_hand(&mem, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                   \
	        (double[]){ __VA_ARGS__ })

/* Border number `number`: one soldier course that takes depth_mm. */
static inline void border_by_hand(
        struct plan *p, size_t number, double depth_mm, enum border_corner corners)
{
	struct plan_border *b = &borders[number - 1];

	border_init(b);
	b->slab.length_um = llround(depth_mm * 1000);
	b->corners = corners;
	p->borders = borders;
	if (p->border_count < number)
		p->border_count = number;
}

/* One border, the first, along all edges of a ring. */
static inline void border_all(
        struct plan *p, size_t ring, double depth_mm, enum border_corner corners)
{
	border_by_hand(p, 1, depth_mm, corners);
	for (size_t i = 0; i < p->rings[ring].count; i++)
		p->rings[ring].nodes[i].border = 1;
}

struct drawn {
	struct region from, field;
	struct strip *strips;
	size_t count;
};

/* The ring crosses itself nowhere and runs anticlockwise. */
static inline void ck_simple(const struct plan *p, struct ring r)
{
	struct region alone = { &r, 1 };
	struct error err;

	r.edge = arena_alloc(&mem, r.n, sizeof *r.edge);
	ck_assert_msg(region_check(p, &alone, &err) == STATUS_OK, "%s", err.text);
}

/* Runs and field must add up to what they are drawn out of. */
static inline struct drawn draw_in(const struct plan *p, const double *gaps)
{
	struct drawn d;
	double area = 0;
	struct error err = { 0 };

	ck_assert_int_eq(outline_check(p, &err), STATUS_OK);
	ck_assert_int_eq(region_from_plan(&mem, p, &d.from, NULL), STATUS_OK);
	if (gaps)
		ck_assert_int_eq(region_inset(&mem, p, &d.from, gaps, &d.from, NULL), STATUS_OK);
	ck_assert_msg(
	        region_borders(&mem, p, &d.from, &d.strips, &d.count, &d.field, &err) == STATUS_OK,
	        "%s", err.text);
	for (size_t i = 0; i < d.count; i++) {
		area += ring_polygon_area(d.strips[i].ring.p, d.strips[i].ring.n);
		ck_assert(!i || d.strips[i].edge > d.strips[i - 1].edge);
		ck_simple(p, d.strips[i].ring);
		ck_assert_double_gt(
		        ring_polygon_area(d.strips[i].straight.p, d.strips[i].straight.n), 0);
	}
	ck_assert_double_eq_tol(area + region_area_um2(&d.field), region_area_um2(&d.from), 2e7);
	return d;
}

static inline struct drawn draw(const struct plan *p)
{
	return draw_in(p, NULL);
}

static inline const struct strip *strip_of(const struct drawn *d, size_t edge)
{
	for (size_t i = 0; i < d->count; i++)
		if (d->strips[i].edge == edge)
			return &d->strips[i];
	ck_abort_msg("no strip along edge %zu", edge);
	return NULL;
}

static inline double area_mm2(const struct ring *r)
{
	return ring_polygon_area(r->p, r->n) * 1e-6;
}

/* The ring has these corners in mm, in order, begun anywhere. */
static inline void ck_ring(const struct ring *r, size_t n, const double *mm, double tol_um)
{
	size_t start = 0;

	ck_assert_uint_eq(r->n, n);
	while (start < n &&
	        hypot(r->p[start].x - mm[0] * 1000, r->p[start].y - mm[1] * 1000) > tol_um)
		start++;
	ck_assert_msg(start < n, "no corner at %g, %g", mm[0], mm[1]);
	for (size_t i = 0; i < n; i++) {
		struct point p = r->p[(start + i) % n];

		ck_assert_msg(hypot(p.x - mm[2 * i] * 1000, p.y - mm[2 * i + 1] * 1000) <= tol_um,
		        "corner %zu at %.3f, %.3f", i, p.x / 1000, p.y / 1000);
	}
}

#define RING_IS(ring, tol_um, ...)                                                                 \
	ck_ring(ring, sizeof(double[]){ __VA_ARGS__ } / sizeof(double) / 2,                        \
	        (double[]){ __VA_ARGS__ }, tol_um)

static inline void ck_refused(const struct plan *p, const char *words)
{
	struct region from, field;
	struct strip *strips;
	size_t count;
	struct error err = { 0 };

	region_from_plan(&mem, p, &from, NULL);
	ck_assert_int_eq(
	        region_borders(&mem, p, &from, &strips, &count, &field, &err), STATUS_PLAN);
	ck_assert_msg(
	        strstr(err.text, words) != NULL, "\"%s\" does not say \"%s\"", err.text, words);
}

#endif
