/* The paving's parts held to GEOS: zones by intersection and difference, what borders leave by the
 * strips' areas, and the slabs of each part counted one by one. */
#include "brute.h"
#include "random_plan.h"
#include "suite.h"

#include "slabwright/section.h"

#include <math.h>
#include <stdio.h>

enum { JOBS = 1200 / ONE_OF }; /* over all styles */
static const double ROUNDING = 20; /* mm2: half a um along some 20 m of edges, and a little */

static double area_of(GEOSContextHandle_t g, const GEOSGeometry *shape)
{
	double area = 0;

	GEOSArea_r(g, shape, &area);
	return area;
}

/* The parts' regions: nothing lost, nothing twice, zones as GEOS cuts them. */
static void check_regions(GEOSContextHandle_t g, struct arena *mem, const struct plan *plan,
        const struct region *outline, const struct paving *p)
{
	GEOSGeometry *whole = geos_region(g, outline), *left = geos_region(g, outline);
	double together = 0;

	for (size_t i = 0; i < p->section_count; i++) {
		const struct section *s = &p->sections[i];
		GEOSGeometry *ours, *next, *ring, *cut;
		struct ring flat;

		together += region_area_um2(&s->region) * 1e-6;
		if (s->kind == SECTION_FIELD)
			continue;
		ours = geos_parts(g, &s->region);
		next = GEOSDifference_r(g, left, ours);
		if (s->kind == SECTION_ZONE) {
			ring_flatten(mem, &plan->zones[s->number].ring, &flat, NULL);
			ring = geos_polygon(g, flat.p, flat.n);
			cut = GEOSIntersection_r(g, left, ring);
			ck_assert_double_eq_tol(area_of(g, ours), area_of(g, cut), ROUNDING);
			GEOSGeom_destroy_r(g, cut);
			cut = GEOSSymDifference_r(g, left, ours);
			ck_assert_double_eq_tol(
			        area_of(g, cut), area_of(g, left) - area_of(g, ours), ROUNDING);
			GEOSGeom_destroy_r(g, cut);
			GEOSGeom_destroy_r(g, ring);
		}
		GEOSGeom_destroy_r(g, left);
		GEOSGeom_destroy_r(g, ours);
		left = next;
	}
	ck_assert_double_eq_tol(together, area_of(g, whole), 1 + area_of(g, whole) * 1e-6);
	ck_assert_double_eq_tol(
	        region_area_um2(&p->sections[0].region) * 1e-6, area_of(g, left), ROUNDING);
	GEOSGeom_destroy_r(g, left);
	GEOSGeom_destroy_r(g, whole);
}

/* The corner of a bordered edge in the region; borders are not arcs in these plans. */
static void edge_ends(
        const struct region *outline, size_t edge, struct point *from, struct point *to)
{
	for (size_t i = 0; i < outline->count; i++)
		for (size_t j = 0; j < outline->rings[i].n; j++) {
			const struct ring *r = &outline->rings[i];

			if (r->edge[j] == (int)edge) {
				*from = r->p[j];
				*to = r->p[j + 1 < r->n ? j + 1 : 0];
			}
		}
}

static struct tally count_section(GEOSContextHandle_t g, const struct plan *plan,
        const struct region *outline, const struct section *s)
{
	GEOSGeometry *shape = geos_parts(g, &s->region);
	struct point from = { 0, 0 }, to = { 0, 0 };
	struct tally t;

	if (s->kind == SECTION_BORDER) {
		edge_ends(outline, s->edge, &from, &to);
		t = count_run_by_geos(g, &plan->borders[s->number], from, to, shape);
	} else {
		t = count_by_geos(g, &s->laying, shape, &s->laid);
	}
	GEOSGeom_destroy_r(g, shape);
	return t;
}

static void check_counts(GEOSContextHandle_t g, const struct plan *plan,
        const struct region *outline, const struct paving *p, int style, int job)
{
	int64_t whole = 0, cut = 0;

	for (size_t i = 0; i < p->section_count; i++) {
		const struct section *s = &p->sections[i];
		struct tally t;

		whole += s->laid.whole;
		cut += s->laid.cut;
		if (!s->paved || s->curved || !s->region.count) {
			ck_assert(s->paved || s->laid.whole + s->laid.cut == 0);
			continue;
		}
		t = count_section(g, plan, outline, s);
		ck_assert_msg(s->laid.whole == t.whole && s->laid.cut == t.cut &&
		                      s->laid.sliver == t.sliver && s->laid.made_up == t.made_up,
		        "style %d job %d, %s: whole %ld/%ld cut %ld/%ld sliver %ld/%ld made up "
		        "%ld/%ld",
		        style, job, s->name, (long)s->laid.whole, (long)t.whole, (long)s->laid.cut,
		        (long)t.cut, (long)s->laid.sliver, (long)t.sliver, (long)s->laid.made_up,
		        (long)t.made_up);
		ck_assert_double_eq_tol(
		        s->laid.pieces_area_m2, t.area_mm2 * 1e-6, 1e-6 + 1e-6 * s->area_m2);
	}
	ck_assert_int_eq(p->whole, whole);
	ck_assert_int_eq(p->cut, cut);
}

START_TEST(parts_and_their_slabs_agree_with_geos)
{
	struct chance c = chance_new(
	        chance_seed("parts_and_their_slabs_agree_with_geos", 20272) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	int laid = 0, with_zones = 0, with_borders = 0;

	for (int job = 0; job < JOBS / STYLES; job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)_i);
		struct region outline;
		struct paving p;
		struct error err;
		enum status st;

		random_bond(&c, &plan.laying, (int)chance_int(&c, 0, BOND_CHOICES - 1));
		if (chance_int(&c, 0, 1))
			random_add_borders(&mem, &c, &plan);
		for (int64_t n = chance_int(&c, 0, 5) / 2; n > 0; n--)
			random_add_zone(&mem, &c, &plan);
		region_from_plan(&mem, &plan, &outline, NULL);
		st = paving_lay(&mem, &plan, &outline, plan_area_m2(&plan), &p, &err);
		ck_assert_msg(st == STATUS_OK || st == STATUS_PLAN, "%s", err.text);
		if (st == STATUS_OK) {
			laid++;
			with_zones += plan.zone_count > 0;
			with_borders += plan.border_count > 0;
			check_regions(g, &mem, &plan, &outline, &p);
			check_counts(g, &plan, &outline, &p, _i, job);
		}
		arena_reset(&mem);
	}
	printf("%d jobs laid, %d with zones, %d with borders\n", laid, with_zones, with_borders);
	ck_assert_int_gt(laid, JOBS / STYLES / 6 / ONE_OF);
	ck_assert_int_gt(with_zones, JOBS / STYLES / 20 / ONE_OF);
	ck_assert_int_gt(with_borders, JOBS / STYLES / 20 / ONE_OF);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("paving");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, parts_and_their_slabs_agree_with_geos, 0, STYLES);
	return suite_run("the paving's parts against GEOS", tc);
}
