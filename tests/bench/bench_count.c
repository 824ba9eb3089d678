/* bench_count - laying by arithmetic against laying by GEOS, in one run.
 *
 * The same 20-corner outline holds about 1 k, 10 k, 100 k and 1 M slab positions. GEOS gets each
 * position once: prepared contains, prepared intersects, then GEOSIntersection for those on the
 * border. Ours is the whole of lay_region, pieces with polygons included. */
#include "oracle/random_plan.h"

#include "slabwright/cutplan.h"
#include "slabwright/takeoff.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

struct count {
	int64_t whole, cut;
};

static struct count by_geos(
        GEOSContextHandle_t g, const struct region *frame, const struct plan_laying *l)
{
	struct slab_size s = slab_size(&l->slab);
	struct box b = region_box(frame);
	GEOSGeometry *r = geos_region(g, frame);
	const GEOSPreparedGeometry *ready = GEOSPrepare_r(g, r);
	struct count n = { 0 };

	for (int64_t k = (int64_t)floor(b.y0 / (double)s.pitch_y_um);
	        (double)(k * s.pitch_y_um) < b.y1; k++)
		for (int64_t i = (int64_t)floor(b.x0 / (double)s.pitch_x_um) - 1;
		        slab_corner(l, k, i).x < b.x1; i++) {
			struct point c = slab_corner(l, k, i);
			struct point p[4] = { c, { c.x + (double)s.length_um, c.y },
				{ c.x + (double)s.length_um, c.y + (double)s.width_um },
				{ c.x, c.y + (double)s.width_um } };
			GEOSGeometry *slab = geos_polygon(g, p, 4);

			if (GEOSPreparedContains_r(g, ready, slab)) {
				n.whole++;
			} else if (GEOSPreparedIntersects_r(g, ready, slab)) {
				GEOSGeometry *cut = GEOSIntersection_r(g, r, slab);
				double full = (double)s.length_um * (double)s.width_um * 1e-6;

				for (int j = 0; j < GEOSGetNumGeometries_r(g, cut); j++) {
					double area;

					GEOSArea_r(g, GEOSGetGeometryN_r(g, cut, j), &area);
					n.whole += area >= full - 1;
					n.cut += area > 1 && area < full - 1;
				}
				GEOSGeom_destroy_r(g, cut);
			}
			GEOSGeom_destroy_r(g, slab);
		}
	GEOSPreparedGeom_destroy_r(g, ready);
	GEOSGeom_destroy_r(g, r);
	return n;
}

static double time_ours(const struct region *frame, const struct plan_laying *l, struct count *n)
{
	double best = INFINITY, spent = 0;

	for (int run = 0; run < 200 && (run < 3 || spent < 0.5); run++) {
		struct arena mem = { 0 };
		struct laying laid;
		double start = now(), took;

		if (lay_region(&mem, frame, l, &laid, NULL) != STATUS_OK)
			exit(1);
		took = now() - start;
		spent += took;
		best = fmin(best, took);
		*n = (struct count){ laid.whole, laid.cut + laid.made_up };
		arena_free(&mem);
	}
	return best;
}

static double time_takeoff(const struct plan *plan)
{
	static const struct rules none = { .name = "none" };
	double best = INFINITY;

	for (int run = 0; run < 5; run++) {
		struct arena mem = { 0 };
		struct takeoff t;
		double start = now();

		takeoff_plan(&mem, plan, &none, &t, NULL);
		best = fmin(best, now() - start);
		arena_free(&mem);
	}
	return best;
}

static void growth(const char *name, double rotation)
{
	GEOSContextHandle_t g = GEOS_init_r();
	double first_log = 0, first_time = 0, positions[4], times[4];

	printf("%s\n  %10s %10s %8s %12s %12s %9s\n", name, "positions", "whole", "cut", "ours ms",
	        "GEOS ms", "ratio");
	for (int k = 0; k < 4; k++) {
		struct chance c = chance_new(2026);
		struct arena mem = { 0 };
		double cell = 0.6 * 0.3, start, geos;
		struct plan plan = round_plan(&mem, 20, cell * pow(10, 3 + k), &c);
		struct region region, frame;
		struct count n, theirs;

		plan.laying.rotation_udeg = (int64_t)(rotation * 1e6);
		plan.laying.start_x_um = 1234;
		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, 1234, 0, plan.laying.rotation_udeg, &frame, NULL);
		times[k] = time_ours(&frame, &plan.laying, &n);
		start = now();
		theirs = by_geos(g, &frame, &plan.laying);
		geos = now() - start;
		positions[k] = region_area_um2(&frame) * 1e-12 / cell;
		printf("  %10.0f %10lld %8lld %12.3f %12.1f %8.0fx%s\n", positions[k],
		        (long long)n.whole, (long long)n.cut, times[k] * 1e3, geos * 1e3,
		        geos / times[k],
		        n.whole == theirs.whole && n.cut == theirs.cut ? "" : "  COUNTS DIFFER");
		if (k == 0) {
			first_log = log(positions[0]);
			first_time = log(times[0]);
		}
		arena_free(&mem);
	}
	printf("  growth exponent of our time in positions: %.2f over all, %.2f from 10 k to 1 M\n",
	        (log(times[3]) - first_time) / (log(positions[3]) - first_log),
	        (log(times[3]) - log(times[1])) / (log(positions[3]) - log(positions[1])));
	GEOS_finish_r(g);
}

static void whole_takeoff(double area, double rotation)
{
	struct chance c = chance_new(7);
	struct arena mem = { 0 };
	struct plan plan = round_plan(&mem, 20, area, &c);

	plan.laying.rotation_udeg = (int64_t)(rotation * 1e6);
	printf("  whole take-off, %5.0f m2, turned %2.0f degrees: %8.2f ms\n", area, rotation,
	        time_takeoff(&plan) * 1e3);
	arena_free(&mem);
}

int main(void)
{
	growth("stretcher bond 600 x 300, square to the plan", 0);
	growth("stretcher bond 600 x 300, turned 30 degrees", 30);
	for (double area = 30; area <= 500; area *= 4)
		whole_takeoff(area, 0);
	whole_takeoff(500, 0);
	whole_takeoff(500, 30);
	whole_takeoff(500, 45);
	return 0;
}
