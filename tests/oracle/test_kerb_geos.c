/* Base strips of kerbs held to GEOS: on seeded random outlines the strip's volume over its
 * thickness must be what GEOS finds between the outline and the same drawn outward with mitred
 * corners. */
#include "chance.h"
#include "plans.h"
#include "suite.h"

#include "slabwright/kerb.h"

#include <geos_c.h>
#include <math.h>

enum { OUTLINES = 1000, MOST_CORNERS = 9 };

static const double LEAST_EDGE_MM = 900, SHARPEST = 140; /* degrees */

/* Corners round a centre, some near and some far: inner corners too. */
static size_t random_outline(struct chance *c, double *mm)
{
	size_t n = (size_t)chance_int(c, 4, MOST_CORNERS);

	for (size_t i = 0; i < n; i++) {
		double at = ((double)i + chance_real(c, 0.1, 0.9)) / (double)n * 2 * M_PI;
		double far = chance_real(c, 1500, 6000);

		mm[2 * i] = floor(far * cos(at));
		mm[2 * i + 1] = floor(far * sin(at));
	}
	return n;
}

/* Whether strips of 0.3 m go round it: long edges, no corner too sharp. */
static bool is_fit(const struct plan *plan)
{
	const struct plan_ring *r = &plan->rings[0];

	if (outline_check(plan, NULL) != STATUS_OK)
		return false;
	for (size_t i = 0; i < r->count; i++)
		if (edge_length_um(r, i) < LEAST_EDGE_MM * 1000 ||
		        fabs(edging_turn_rad(r, i, false)) > SHARPEST * M_PI / 180)
			return false;
	return true;
}

static double grown_area_m2(GEOSContextHandle_t g, const double *mm, size_t n, double by_mm)
{
	GEOSCoordSequence *at = GEOSCoordSeq_create_r(g, (unsigned)n + 1, 2);
	GEOSGeometry *ring, *grown;
	double area = 0;

	for (size_t i = 0; i <= n; i++) {
		GEOSCoordSeq_setX_r(g, at, (unsigned)i, mm[2 * (i % n)]);
		GEOSCoordSeq_setY_r(g, at, (unsigned)i, mm[2 * (i % n) + 1]);
	}
	ring = GEOSGeom_createPolygon_r(g, GEOSGeom_createLinearRing_r(g, at), NULL, 0);
	grown = GEOSBufferWithStyle_r(g, ring, by_mm, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 20);
	ck_assert_ptr_nonnull(grown);
	GEOSArea_r(g, grown, &area);
	GEOSGeom_destroy_r(g, grown);
	GEOSGeom_destroy_r(g, ring);
	return area * 1e-6;
}

START_TEST(strips_fill_what_geos_finds)
{
	struct chance c = chance_new(chance_seed("strips_fill_what_geos_finds", 611));
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	static const struct rules none = { .name = "none" };
	int done = 0, inner = 0;

	while (done < OUTLINES / ONE_OF) {
		double mm[2 * MOST_CORNERS], area;
		size_t n = random_outline(&c, mm);
		struct plan plan = plan_by_hand(&mem, n, mm);
		int64_t beyond = chance_int(&c, 50, 200), depth = chance_int(&c, 50, 100);
		struct edging_result edging;
		struct kerb_result out;

		if (!is_fit(&plan))
			continue;
		for (size_t i = 0; i < n; i++)
			plan.rings[0].nodes[i].kind = EDGE_KERB;
		plan.edging[EDGE_KERB] = (struct plan_edging){ .name = "kerb",
			.unit_um = UM_PER_M,
			.depth_um = depth * UM_PER_MM,
			.height_um = 250 * UM_PER_MM,
			.strip_um = 100 * UM_PER_MM,
			.strip_beyond_um = beyond * UM_PER_MM,
			.haunch_um = 100 * UM_PER_MM,
			.held_um = 100 * UM_PER_MM };
		ck_assert_int_eq(edging_work_out(&mem, &plan, 0, &edging, NULL), STATUS_OK);
		ck_assert_int_eq(kerb_work_out(&mem, &plan, &none, &edging, &out, NULL), STATUS_OK);
		area = grown_area_m2(g, mm, n, (double)(depth + beyond)) - plan_area_m2(&plan);
		ck_assert_double_eq_tol(out.lines[0].strip_m3 / 0.1, area, 1e-6 * area + 1e-7);
		inner += edging.lines[0].inner_corners > 0;
		done++;
		arena_reset(&mem);
	}
	ck_assert_int_gt(inner, done / 4);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("kerb");

	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, strips_fill_what_geos_finds);
	return suite_run("kerb beds against GEOS", tc);
}
