/* bench_count - laying by arithmetic against laying by GEOS, in one run.
 *
 * The same 20-corner outline holds about 1 k, 10 k, 100 k and 1 M slab positions. GEOS gets each
 * position once: prepared contains, prepared intersects, then GEOSIntersection for those on the
 * border. Ours is the whole of lay_region, pieces with polygons included. */
#include "oracle/random_plan.h"
#include "oracle/walk.h"

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

static void cut_by_geos(GEOSContextHandle_t g, const GEOSGeometry *region,
        const GEOSPreparedGeometry *ready, struct point c, struct point size, struct count *n)
{
	struct point p[4] = { c, { c.x + size.x, c.y }, { c.x + size.x, c.y + size.y },
		{ c.x, c.y + size.y } };
	GEOSGeometry *slab = geos_polygon(g, p, 4);

	if (GEOSPreparedContains_r(g, ready, slab)) {
		n->whole++;
	} else if (GEOSPreparedIntersects_r(g, ready, slab)) {
		GEOSGeometry *cut = GEOSIntersection_r(g, region, slab);
		double full = size.x * size.y * 1e-6;

		for (int j = 0; j < GEOSGetNumGeometries_r(g, cut); j++) {
			double area;

			GEOSArea_r(g, GEOSGetGeometryN_r(g, cut, j), &area);
			n->whole += area >= full - 1;
			n->cut += area > 1 && area < full - 1;
		}
		GEOSGeom_destroy_r(g, cut);
	}
	GEOSGeom_destroy_r(g, slab);
}

/* Positions of the pattern; of coursed random bond those that were drawn. */
static struct count by_geos(GEOSContextHandle_t g, const struct region *frame,
        const struct plan_laying *l, const struct laying *drawn)
{
	GEOSGeometry *r = geos_region(g, frame);
	const GEOSPreparedGeometry *ready = GEOSPrepare_r(g, r);
	struct count n = { 0 };
	struct pattern pattern;

	pattern_make(l, &pattern, NULL);
	for (size_t k = 0; k < drawn->course_count; k++)
		for (size_t i = 0; i < drawn->courses[k].count; i++) {
			const struct random_course *c = &drawn->courses[k];
			struct point at = { (double)c->x_um[i], (double)c->y_um };

			cut_by_geos(g, r, ready, at, pattern_size(&pattern, c->size[i]), &n);
		}
	for (struct walk w = walk_start(&pattern, region_box(frame)); pattern.count && walk_on(&w);)
		cut_by_geos(g, r, ready, pattern_corner(&pattern, w.spot),
		        pattern_size(&pattern, w.spot.part), &n);
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

struct bench {
	const char *name;
	enum bond bond;
	double length, width, offset; /* mm */
	bool along_y;
	double rotation;
};

static const struct bench benches[] = {
	{ "stack 600 x 300", BOND_STACK, 600, 300, 0, false, 0 },
	{ "stretcher 600 x 300", BOND_STRETCHER, 600, 300, 0.5, false, 0 },
	{ "stretcher 600 x 300, turned 30", BOND_STRETCHER, 600, 300, 0.5, false, 30 },
	{ "stretcher 600 x 300 along y, 1/3", BOND_STRETCHER, 600, 300, 1.0 / 3, true, 0 },
	{ "herringbone 600 x 300", BOND_HERRINGBONE, 600, 300, 0, false, 0 },
	{ "herringbone 600 x 300, turned 45", BOND_HERRINGBONE, 600, 300, 0, false, 45 },
	{ "basket weave of 2, 600 x 300", BOND_BASKETWEAVE, 600, 300, 0, false, 0 },
	{ "basket weave of 3, 600 x 200", BOND_BASKETWEAVE, 600, 200, 0, false, 0 },
	{ "mixed sizes", BOND_MIXED, 500, 400, 0, false, 0 },
	{ "coursed random, six sizes (visited one by one)", BOND_COURSED_RANDOM, 400, 330, 0, false,
	        0 },
};

/* Every malloc of the program comes here first: the linker is told so. */
static size_t mallocs;
void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);

void *__wrap_malloc(size_t size)
{
	mallocs++;
	return __real_malloc(size);
}

/* How many allocations one laying takes. */
static size_t allocations(const struct region *frame, const struct plan_laying *l)
{
	struct arena mem = { 0 };
	struct laying laid;
	size_t before = mallocs, n;

	lay_region(&mem, frame, l, &laid, NULL);
	n = mallocs - before;
	arena_free(&mem);
	return n;
}

static void growth(const struct bench *b)
{
	GEOSContextHandle_t g = GEOS_init_r();
	double positions[4], times[4];

	printf("%s\n  %10s %10s %8s %12s %12s %9s %10s\n", b->name, "positions", "whole", "cut",
	        "ours ms", "GEOS ms", "ratio", "mallocs");
	for (int k = 0; k < 4; k++) {
		struct chance c = chance_new(2026);
		struct arena mem = { 0 };
		double cell = b->length * b->width * 1e-6, start, geos;
		struct plan plan = round_plan(&mem, 20, cell * pow(10, 3 + k), &c);
		struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct count n, theirs;
		struct laying laid;

		l->bond = b->bond;
		l->offset = b->offset;
		l->along = b->along_y ? ALONG_Y : ALONG_X;
		l->slab.length_um = (int64_t)(b->length * 1000);
		l->slab.width_um = (int64_t)(b->width * 1000);
		random_bond(&c, l,
		        b->bond == BOND_MIXED            ? 5
		        : b->bond == BOND_COURSED_RANDOM ? 6
		                                         : 0);
		l->rotation_udeg = (int64_t)(b->rotation * 1e6);
		l->start_x_um = 1234;
		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, 1234, 0, l->rotation_udeg, &frame, NULL);
		times[k] = time_ours(&frame, l, &n);
		start = now();
		lay_region(&mem, &frame, l, &laid, NULL);
		start = now();
		theirs = by_geos(g, &frame, l, &laid);
		geos = now() - start;
		positions[k] = region_area_um2(&frame) * 1e-12 / cell;
		printf("  %10.0f %10lld %8lld %12.3f %12.1f %8.0fx %10zu%s\n", positions[k],
		        (long long)n.whole, (long long)n.cut, times[k] * 1e3, geos * 1e3,
		        geos / times[k], allocations(&frame, l),
		        n.whole == theirs.whole && n.cut == theirs.cut ? "" : "  COUNTS DIFFER");
		arena_free(&mem);
	}
	printf("  growth exponent of our time in positions: %.2f over all, %.2f from 10 k to 1 M\n",
	        log(times[3] / times[0]) / log(positions[3] / positions[0]),
	        log(times[3] / times[1]) / log(positions[3] / positions[1]));
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
	for (size_t i = 0; i < sizeof benches / sizeof *benches; i++)
		growth(&benches[i]);
	for (double area = 30; area <= 500; area *= 4)
		whole_takeoff(area, 0);
	whole_takeoff(500, 0);
	whole_takeoff(500, 30);
	whole_takeoff(500, 45);
	return 0;
}
