/* Catchments held to a trace of single drops, and to conservation of area. */
#include "random_plan.h"
#include "suite.h"

#include "slabwright/surface.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

static struct surface_result work_out(struct arena *mem, struct plan *plan, struct region *region)
{
	static const struct rules none = { .name = "none" };
	struct surface_result out;

	ck_assert_int_eq(region_from_plan(mem, plan, region, NULL), STATUS_OK);
	ck_assert_int_eq(surface_work_out(mem, plan, &none, &out, NULL), STATUS_OK);
	return out;
}

static struct plan sloping_plan(struct arena *mem, struct chance *c, enum outline_style style)
{
	struct plan plan = random_plan(mem, c, style);

	plan.surface.planes = arena_alloc(mem, 1, sizeof *plan.surface.planes);
	plan.surface.count = 1;
	plan.surface.planes[0] = (struct plan_plane){
		.level_um = chance_int(c, -500000, 500000),
		.toward_udeg = chance_int(c, 0, 1) ? chance_int(c, 0, 7) * 45 * UDEG_PER_DEG
		                                   : chance_int(c, 0, 359999999),
		.fall_um_per_m = chance_int(c, 1000, 40000),
	};
	return plan;
}

/* The plan's edge that a drop starting at p first runs into: the nearest crossing of its way with
 * any edge. */
static int trace(const struct region *r, struct point p, double cosine, double sine)
{
	double nearest = DBL_MAX;
	int edge = -1;

	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			struct point a = r->rings[i].p[j],
			             b = r->rings[i].p[(j + 1) % r->rings[i].n];
			double ua = (a.x - p.x) * cosine + (a.y - p.y) * sine,
			       va = (a.y - p.y) * cosine - (a.x - p.x) * sine;
			double ub = (b.x - p.x) * cosine + (b.y - p.y) * sine,
			       vb = (b.y - p.y) * cosine - (b.x - p.x) * sine;
			double u;

			if ((va > 0) == (vb > 0))
				continue;
			u = ua + (ub - ua) * va / (va - vb);
			if (u > 0 && u < nearest) {
				nearest = u;
				edge = r->rings[i].edge[j];
			}
		}
	return edge;
}

START_TEST(all_water_arrives)
{
	struct chance c = chance_new(chance_seed("all_water_arrives", 640) + (uint64_t)_i);
	struct arena mem = { 0 };

	for (int job = 0; job < 500 / ONE_OF; job++) {
		struct plan plan = sloping_plan(&mem, &c, (enum outline_style)_i);
		struct region region;
		struct surface_result out = work_out(&mem, &plan, &region);
		double sum = 0;

		for (size_t i = 0; i < out.catchment_count; i++)
			sum += out.catchments[i].area_m2;
		ck_assert_double_eq_tol(sum / plan_area_m2(&plan), 1, 1e-6);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

/* A fine grid of drops; each edge's share of the drops must be its share of the area, but for the
 * grid's coarseness. */
START_TEST(drops_run_where_the_catchments_say)
{
	struct chance c =
	        chance_new(chance_seed("drops_run_where_the_catchments_say", 12) + (uint64_t)_i);
	struct arena mem = { 0 };

	for (int job = 0; job < 12; job++) {
		struct plan plan = sloping_plan(&mem, &c, (enum outline_style)_i);
		struct region region;
		struct surface_result out = work_out(&mem, &plan, &region);
		struct box b = region_box(&region);
		double step = sqrt((b.x1 - b.x0) * (b.y1 - b.y0) / 40000),
		       total = region_area_um2(&region) * 1e-12;
		double *drops = arena_alloc(&mem, plan_edge_count(&plan), sizeof *drops);
		double edges = plan_perimeter_m(&plan) + plan_opening_edges_m(&plan);
		double coarse = 0.005 + step * 1e-6 * edges / total /
		                                3; /* drops miscounted along the edges */
		double angle = (double)out.toward_udeg * 1e-6 * M_PI / 180;

		for (double y = b.y0 + step / 2; y < b.y1; y += step)
			for (double x = b.x0 + step / 2; x < b.x1; x += step)
				if (region_contains(&region, (struct point){ x, y })) {
					int edge = trace(&region, (struct point){ x, y },
					        cos(angle), sin(angle));

					ck_assert_int_ge(edge, 0);
					drops[edge] += step * step * 1e-12;
				}
		for (size_t e = 0; e < plan_edge_count(&plan); e++) {
			double area = 0;

			for (size_t i = 0; i < out.catchment_count; i++)
				if (out.catchments[i].edge == e)
					area = out.catchments[i].area_m2;
			ck_assert_double_eq_tol(area / total, drops[e] / total, coarse);
		}
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("catchments");

	tcase_set_timeout(tc, 200);
	tcase_add_loop_test(tc, all_water_arrives, 0, STYLES);
	tcase_add_loop_test(tc, drops_run_where_the_catchments_say, 0, STYLES);
	return suite_run("water", tc);
}
