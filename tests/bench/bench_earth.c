/* bench_earth - dig and fill: 100 ground levels, an outline of 40 corners, 4 planes, 6 openings,
 * over-dig all round; and how it grows with levels. */
#include "oracle/random_plan.h"

#include "slabwright/earth.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { LEVELS_MOST = 1600, PLANES = 4, RUNS = 50 };

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

struct job {
	struct plan plan;
	struct plan_ring rings[7];
	struct plan_node corners[6][4];
	struct plan_plane planes[PLANES];
	struct plan_spot levels[LEVELS_MOST];
};

/* Six square openings on a ring half way out, and planes that fall to the middle. */
static void make_job(struct arena *mem, struct chance *c, double area, struct job *j)
{
	double r = sqrt(area / M_PI) * 1e6;

	j->plan = round_plan(mem, 40, area, c);
	j->rings[0] = j->plan.rings[0];
	for (size_t i = 0; i < j->rings[0].count; i++)
		j->rings[0].nodes[i].kind = i % 10 ? EDGE_KERB : EDGE_HOUSE_WALL;
	for (int i = 0; i < 6; i++) {
		int64_t x = llround(r / 2 * cos(i * M_PI / 3)),
		        y = llround(r / 2 * sin(i * M_PI / 3));

		for (int k = 0; k < 4; k++)
			j->corners[i][k] =
			        (struct plan_node){ .x_um = x + (k == 1 || k == 2 ? 450000 : 0),
				        .y_um = y + (k > 1 ? 450000 : 0),
				        .kind = EDGE_OPEN };
		j->rings[i + 1] = (struct plan_ring){ j->corners[i], 4, true };
	}
	j->plan.rings = j->rings;
	j->plan.ring_count = 7;
	for (int i = 0; i < PLANES; i++)
		j->planes[i] = (struct plan_plane){ 0, 0, 0, (20 + 90 * i) * UDEG_PER_DEG, 15000 };
	j->plan.surface.planes = j->planes;
	j->plan.surface.count = PLANES;
	for (int i = 0; i < LEVELS_MOST; i++)
		j->levels[i] = (struct plan_spot){ "", chance_int(c, llround(-r), llround(r)),
			chance_int(c, llround(-r), llround(r)), chance_int(c, -400000, 100000) };
}

static void measure(struct job *j, size_t levels)
{
	double best = INFINITY, mesh = INFINITY;
	struct earth_result e = { 0 };

	for (int run = 0; run < RUNS; run++) {
		struct arena mem = { 0 };
		struct section field = { .name = "field", .paved = true };
		struct paving paving = { .sections = &field, .section_count = 1 };
		struct region region;
		struct ground ground;
		double start;

		if (region_from_plan(&mem, &j->plan, &region, NULL) != STATUS_OK)
			exit(1);
		field.region = region;
		field.laying = j->plan.laying;
		start = now();
		if (ground_make(&mem, j->levels, levels, &ground, NULL) != STATUS_OK)
			exit(1);
		mesh = fmin(mesh, now() - start);
		start = now();
		if (earth_work_out(&mem, &j->plan, j->levels, levels, &region, &paving, &e, NULL) !=
		                STATUS_OK ||
		        !e.ready)
			exit(1);
		best = fmin(best, now() - start);
		arena_free(&mem);
	}
	printf("  %5zu levels: %7.3f ms, of it the triangles %6.3f ms; %.2f m2, cut %.3f, fill "
	       "%.3f m3\n",
	        levels, best * 1e3, mesh * 1e3, e.area_m2 + e.over_dig_m2, e.cut_m3, e.fill_m3);
}

int main(void)
{
	struct chance c = chance_new(2026);
	struct arena mem = { 0 };
	static struct job j;

	for (double area = 60; area <= 500; area += 440) {
		printf("dig and fill, %.0f m2, 40 corners, 4 planes, 6 openings\n", area);
		make_job(&mem, &c, area, &j);
		for (size_t levels = 1; levels <= LEVELS_MOST; levels *= levels < 100 ? 10 : 4)
			measure(&j, levels);
	}
	arena_free(&mem);
	return 0;
}
