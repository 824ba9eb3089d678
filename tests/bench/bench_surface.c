/* bench_surface.c - surface and water within a frame.
 *
 * A round outline of 40 corners and about 500 m2 with six planters in it, four planes, a channel
 * and two gullies, kerbs that hold water: the time of surface_work_out, which runs at every key,
 * over one plane and over four, and with a quarter of the edges arcs; and that of the whole
 * take-off, with rain, 100 levels of the ground, a book of 50 lines, pegs and 20 points measured.
 * Prints the median and the longest of many runs; fails when a median is over LIMIT_MS. */
#include "oracle/random_plan.h"
#include "slabwright/takeoff.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { RUNS = 200, LIMIT_MS = 16 };

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static struct plan_ring planter(struct arena *mem, int64_t x, int64_t y)
{
	struct plan_ring r = { arena_alloc(mem, 4, sizeof(struct plan_node)), 4, true };

	for (int i = 0; i < 4; i++)
		r.nodes[i] = (struct plan_node){ .x_um = x + (i == 1 || i == 2 ? 1200000 : 0),
			.y_um = y + (i > 1 ? 800000 : 0),
			.kind = EDGE_PLANTER };
	return r;
}

static struct plan yard(struct arena *mem, size_t planes, bool arcs)
{
	static struct plan_plane falls[] = { { 500000, 200000, -100000, 0, 20000 },
		{ 500000, 200000, -100000, 87000000, 25000 },
		{ 500000, 200000, -100000, 178000000, 15000 },
		{ 500000, 200000, -90000, 271000000, 30000 } };
	static struct plan_gully gullies[] = { { "", 500000, 200000, 0 },
		{ "", 4000000, 3700000, 0 } };
	static struct plan_channel channel;
	struct chance c = chance_new(40);
	struct plan p = round_plan(mem, 40, 500, &c);
	struct plan_ring *rings = arena_alloc(mem, 7, sizeof *rings);

	rings[0] = p.rings[0];
	for (size_t i = 0; i < rings[0].count; i++) {
		rings[0].nodes[i].kind = i % 3 ? EDGE_KERB : EDGE_OPEN;
		rings[0].nodes[i].rise_um = arcs && i % 4 == 0 ? 100000 : 0;
	}
	for (int i = 0; i < 6; i++)
		rings[i + 1] =
		        planter(mem, (i % 3 - 1) * 4500000 - 700000, (i / 3) * 5000000 - 3500000);
	p.rings = rings;
	p.ring_count = 7;
	p.edging[EDGE_KERB].top_um = 50000;
	p.surface.planes = falls;
	p.surface.count = planes;
	channel_init(&channel);
	channel.x1_um = -6000000;
	channel.y1_um = -5000000;
	channel.x2_um = 5000000;
	channel.y2_um = -6000000;
	p.water.channels = &channel;
	p.water.channel_count = 1;
	p.water.gullies = gullies;
	p.water.gully_count = 2;
	return p;
}

/* What is measured on site, spread over the yard. */
static void survey(struct plan *p)
{
	static struct rain_row rain[] = { { 5, 75000 }, { 60, 25000 }, { 1440, 3000 } };
	static struct plan_spot spots[100];
	static struct plan_reading readings[50];
	static struct plan_peg pegs[20];
	static struct plan_measured measured[20];

	for (int i = 0; i < 100; i++)
		spots[i] = (struct plan_spot){ "", (i % 10 - 5) * 2500000 + i * 7919,
			(i / 10 - 5) * 2500000 + i * 3571, -200000 + i % 7 * 20000 };
	for (int i = 0; i < 50; i++)
		readings[i] = (struct plan_reading){ "", NO_READING, 1200000 + i * 1000, NO_READING,
			false, 0, 0 };
	readings[0] = (struct plan_reading){ "", 1300000, NO_READING, NO_READING, false, 0, 0 };
	readings[25].foresight_um = readings[49].foresight_um = 1250000;
	readings[25].backsight_um = 1280000;
	readings[25].intermediate_um = readings[49].intermediate_um = NO_READING;
	for (int i = 0; i < 20; i++) {
		pegs[i] = (struct plan_peg){ "peg", (i - 10) * 900000, (i % 5) * 800000 };
		measured[i] = (struct plan_measured){ "", pegs[i].x_um, pegs[i].y_um, true, true,
			-100000 + i * 3000, pegs[i].x_um + 4000, pegs[i].y_um };
	}
	p->site.spots = spots;
	p->site.spot_count = 100;
	p->site.book.readings = readings;
	p->site.book.count = 50;
	p->site.pegs = pegs;
	p->site.peg_count = 20;
	p->site.measured = measured;
	p->site.measured_count = 20;
	p->water.rain.rows = rain;
	p->water.rain.count = 3;
	soakaway_init(&p->water.soakaway);
}

static void surface_once(struct arena *work, const struct plan *p)
{
	static const struct rules none = { .name = "none" };
	struct surface_result out;

	if (surface_work_out(work, p, &none, &out, NULL) != STATUS_OK)
		exit(EXIT_FAILURE);
}

static void takeoff_once(struct arena *work, const struct plan *p)
{
	static const struct rules none = { .name = "none" };
	struct takeoff t;

	if (takeoff_plan(work, p, &none, &t, NULL) != STATUS_OK || !t.ready || !t.earth.ready ||
	        !t.site.has_book || !t.site.has_built || !t.drainage.has_rain) {
		fprintf(stderr, "bench_surface: the yard cannot be worked out: %s\n", t.fault.text);
		exit(EXIT_FAILURE);
	}
}

static bool measure(const char *what, size_t planes, bool arcs,
        void (*once)(struct arena *work, const struct plan *p))
{
	struct arena mem = { 0 }, work = { 0 };
	struct plan p = yard(&mem, planes, arcs);
	double ms[RUNS];

	survey(&p);
	if (outline_check(&p, NULL) != STATUS_OK) {
		fprintf(stderr, "bench_surface: the yard is broken\n");
		exit(EXIT_FAILURE);
	}
	for (int i = 0; i < RUNS; i++) {
		double from = now_ms();

		once(&work, &p);
		ms[i] = now_ms() - from;
		arena_reset(&work);
	}
	qsort(ms, RUNS, sizeof *ms, by_size);
	printf("  %-40s median %6.3f ms, longest %6.3f ms\n", what, ms[RUNS / 2], ms[RUNS - 1]);
	arena_free(&mem);
	arena_free(&work);
	return ms[RUNS / 2] <= LIMIT_MS;
}

int main(void)
{
	bool in_time;

	printf("surface and water: 40 corners, 500 m2, 6 planters, a channel, 2 gullies\n");
	in_time = measure("one plane", 1, false, surface_once);
	in_time &= measure("four planes", 4, false, surface_once);
	in_time &= measure("four planes, ten edges arcs", 4, true, surface_once);
	in_time &= measure("the whole take-off, four planes", 4, false, takeoff_once);
	in_time &= measure("the whole take-off, with arcs", 4, true, takeoff_once);
	return in_time ? EXIT_SUCCESS : EXIT_FAILURE;
}
