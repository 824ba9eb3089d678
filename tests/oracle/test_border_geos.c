/* Border courses held to GEOS: on seeded random plans, with and without gaps along the edges, the
 * runs and the field must fill the paving, and none may lie over another, but for slivers as wide
 * as corners are rounded. */
#include "random_plan.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { PLANS = 1000 };

static const double ROUNDING_MM = 0.001; /* width of what may be left over along an edge */

/* Makes arcs of some edges of any ring where the plan stands it. */
static void bend_some(struct chance *c, struct plan *plan)
{
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++) {
			struct plan_ring *r = &plan->rings[i];
			struct plan_node *a = &r->nodes[j], *b = &r->nodes[(j + 1) % r->count];
			double chord =
			        hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
			int64_t was = a->rise_um;

			if (chance_int(c, 0, 3))
				continue;
			a->rise_um = llround(chord * chance_real(c, -0.4, 0.5));
			if (outline_check(plan, NULL) != STATUS_OK)
				a->rise_um = was;
		}
}

/* One to three borders, along all edges or few. */
static void border_some(struct arena *mem, struct chance *c, struct plan *plan)
{
	int64_t most = chance_int(c, 0, 2) ? 250 : 60, often = chance_int(c, 0, 4);

	plan->border_count = (size_t)chance_int(c, 1, 3);
	plan->borders = arena_alloc(mem, plan->border_count, sizeof *plan->borders);
	for (size_t i = 0; i < plan->border_count; i++) {
		struct plan_border *b = &plan->borders[i];

		border_init(b);
		b->slab.length_um = chance_int(c, 40, most) * UM_PER_MM;
		b->slab.width_um = chance_int(c, 40, most) * UM_PER_MM;
		b->lay = chance_int(c, 0, 1) ? BORDER_STRETCHER : BORDER_SOLDIER;
		b->corners = chance_int(c, 0, 1) ? CORNER_BUTTED : CORNER_MITRED;
		b->deep = chance_int(c, 1, 2);
	}
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++)
			plan->rings[i].nodes[j].border =
			        chance_int(c, 0, 4) <= often
			                ? chance_int(c, 1, (int64_t)plan->border_count)
			                : 0;
}

/* What lies along each edge: a gap by its kind, and its border's depth. */
static void measures(struct arena *mem, const struct plan *plan, double **gaps, double **depths)
{
	size_t edges = plan_edge_count(plan), e = 0;

	*gaps = arena_alloc(mem, edges, sizeof **gaps);
	*depths = arena_alloc(mem, edges, sizeof **depths);
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++, e++) {
			const struct plan_node *n = &plan->rings[i].nodes[j];

			(*gaps)[e] = (double)plan->laying.edge_joint_um[n->kind];
			if (n->border)
				(*depths)[e] =
				        (double)border_depth_um(&plan->borders[n->border - 1]);
		}
}

/* Whether some curve bulges out of the paving with a radius that gap and border use up. */
static bool too_tight(const struct plan *plan, const double *gaps, const double *depths)
{
	size_t e = 0;

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++, e++) {
			const struct plan_ring *r = &plan->rings[i];
			const struct plan_node *a = &r->nodes[j],
			                       *b = &r->nodes[(j + 1) % r->count];
			double c = hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
			double h = fabs((double)a->rise_um);

			if (h > 0 && depths[e] > 0 && (a->rise_um > 0) == (i == 0) &&
			        (c * c / 4 + h * h) / (2 * h) - gaps[e] - depths[e] < 1000)
				return true;
		}
	return false;
}

static double geos_area(GEOSContextHandle_t g, const GEOSGeometry *a)
{
	double area = -1;

	ck_assert_int_eq(GEOSArea_r(g, a, &area), 1);
	return area;
}

static double geos_length(GEOSContextHandle_t g, const GEOSGeometry *a)
{
	double length = -1;

	ck_assert_int_eq(GEOSLength_r(g, a, &length), 1);
	return length;
}

/* Areas by which two geometries overlap. */
static double overlap(GEOSContextHandle_t g, const GEOSGeometry *a, const GEOSGeometry *b)
{
	GEOSGeometry *both;
	double area;

	if (GEOSIntersects_r(g, a, b) != 1)
		return 0;
	both = GEOSIntersection_r(g, a, b);
	ck_assert_ptr_nonnull(both);
	area = geos_area(g, both);
	GEOSGeom_destroy_r(g, both);
	return area;
}

static void check_frames(const struct strip *s, const char *where)
{
	for (size_t i = 0; i < s->ring.n; i++) {
		struct point p = s->ring.p[i], back = plan_from_strip(s, strip_from_plan(s, p));

		ck_assert_msg(hypot(back.x - p.x, back.y - p.y) < 1e-4,
		        "%s: edge %zu: a point comes back %g um off", where, s->edge,
		        hypot(back.x - p.x, back.y - p.y));
	}
	ck_assert_double_gt(ring_polygon_area(s->straight.p, s->straight.n), 0);
	if (!s->curved)
		ck_assert_double_eq_tol(ring_polygon_area(s->straight.p, s->straight.n) /
		                                ring_polygon_area(s->ring.p, s->ring.n),
		        1, 1e-9);
}

static void check_strips(GEOSContextHandle_t g, const struct region *from,
        const struct strip *strips, size_t count, const struct region *field, const char *where)
{
	GEOSGeometry *parts[128], *paving = geos_region(g, from), *all, *rest;
	double reach = geos_length(g, paving) * ROUNDING_MM, sum = 0;

	ck_assert_uint_lt(count, 127);
	for (size_t i = 0; i < count; i++) {
		parts[i] = geos_polygon(g, strips[i].ring.p, strips[i].ring.n);
		ck_assert_msg(GEOSisValid_r(g, parts[i]) == 1, "%s: the strip of edge %zu: %s",
		        where, strips[i].edge, GEOSisValidReason_r(g, parts[i]));
		ck_assert_double_gt(ring_polygon_area(strips[i].ring.p, strips[i].ring.n), 0);
		check_frames(&strips[i], where);
	}
	parts[count] = geos_region(g, field);
	for (size_t i = 0; i <= count; i++) {
		sum += geos_area(g, parts[i]);
		for (size_t j = 0; j < i; j++) {
			double both = overlap(g, parts[i], parts[j]);

			ck_assert_msg(both < reach,
			        "%s: %g mm2 of the strip of edge %zu lie in %s %zu", where, both,
			        strips[j].edge, i < count ? "that of edge" : "the field",
			        i < count ? strips[i].edge : 0);
		}
	}
	ck_assert_msg(fabs(sum - geos_area(g, paving)) < reach,
	        "%s: areas add up to %g mm2 more than there is", where, sum - geos_area(g, paving));
	all = GEOSGeom_createCollection_r(g, GEOS_GEOMETRYCOLLECTION, parts, (unsigned)count + 1);
	rest = GEOSUnaryUnion_r(g, all);
	GEOSGeom_destroy_r(g, all);
	all = GEOSSymDifference_r(g, rest, paving);
	ck_assert_msg(geos_area(g, all) < reach, "%s: %g mm2 are left over or outside", where,
	        geos_area(g, all));
	GEOSGeom_destroy_r(g, all);
	GEOSGeom_destroy_r(g, rest);
	GEOSGeom_destroy_r(g, paving);
}

static bool same_region(const struct region *a, const struct region *b)
{
	bool same = a->count == b->count;

	for (size_t i = 0; same && i < a->count; i++)
		same = a->rings[i].n == b->rings[i].n &&
		       !memcmp(a->rings[i].p, b->rings[i].p, a->rings[i].n * sizeof *a->rings[i].p);
	return same;
}

static bool check_plan(
        GEOSContextHandle_t g, struct arena *mem, struct plan *plan, const char *where)
{
	struct region whole, from, expected, field;
	struct strip *strips;
	double *gaps, *depths;
	size_t count;
	struct error err = { 0 };
	enum status st, inset;

	measures(mem, plan, &gaps, &depths);
	region_from_plan(mem, plan, &whole, NULL);
	if (region_inset(mem, plan, &whole, gaps, &from, NULL) != STATUS_OK)
		return false;
	st = region_borders(mem, plan, &from, &strips, &count, &field, &err);
	inset = region_inset(mem, plan, &from, depths, &expected, NULL);
	if (st != STATUS_OK) {
		ck_assert_msg(inset != STATUS_OK || too_tight(plan, gaps, depths), "%s: %s", where,
		        err.text);
		ck_assert_ptr_nonnull(strstr(err.text, "the border along edge "));
		return false;
	}
	ck_assert_msg(inset == STATUS_OK && same_region(&field, &expected),
	        "%s: the field is not what is drawn in", where);
	check_strips(g, &from, strips, count, &field, where);
	return true;
}

START_TEST(runs_and_field_fill_the_paving_once)
{
	struct chance c = chance_new(
	        chance_seed("runs_and_field_fill_the_paving_once", 31337) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	int laid = 0;

	for (int number = 0; number < PLANS / STYLES; number++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)_i);
		char where[64];

		snprintf(where, sizeof where, "style %d plan %d", _i, number);
		if (_i == STYLE_OPENINGS || _i == STYLE_ARCS)
			bend_some(&c, &plan);
		border_some(&mem, &c, &plan);
		if (number % 2)
			for (int k = 0; k < EDGE_KINDS; k++)
				plan.laying.edge_joint_um[k] = chance_int(&c, 0, 30) * UM_PER_MM;
		laid += check_plan(g, &mem, &plan, where);
		arena_reset(&mem);
	}
	printf("style %d: %d laid\n", _i, laid);
	ck_assert_int_gt(laid, PLANS / STYLES * 2 / 5);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("borders");

	tcase_set_timeout(tc, 120);
	tcase_add_loop_test(tc, runs_and_field_fill_the_paving_once, 0, STYLES);
	return suite_run("borders against GEOS", tc);
}
