/* bench_packing - how long the published sets take to solve and prove, and the edging of a plan.
 *
 * Times are of the processor, so that others at work on the machine do not count. */
#include "oracle/packing_data.h"

#include "chance.h"
#include "slabwright/edging.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 200, PLANS = 200, EDGES = 40 };

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static int smaller_first(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static void show(const char *what, double *ms, size_t count, size_t proven)
{
	qsort(ms, count, sizeof *ms, smaller_first);
	printf("  %-28s %4zu of %4zu proven least   median %9.3f ms   largest %9.3f ms\n", what,
	        proven, count, ms[count / 2], ms[count - 1]);
}

/* Instances of a set whose names begin so. */
static void solve(const char *file, const char *name)
{
	struct arena mem = { 0 }, work = { 0 };
	struct packing *list;
	size_t count = packings_read(&mem, file, &list), n = 0, proven = 0;
	double ms[MOST];

	for (size_t i = 0; i < count; i++) {
		double start = now_ms();
		struct pack_plan plan;

		if (strncmp(list[i].name, name, strlen(name)) != 0)
			continue;
		plan = packing_solve(&work, &list[i], INT64_C(20000000000));
		ms[n++] = now_ms() - start;
		proven += plan.unit_count == plan.bound && plan.bound == list[i].optimum &&
		          !packing_fault(&list[i], &plan);
		arena_free(&work);
	}
	show(*name ? name : file, ms, n, proven);
	arena_free(&mem);
}

/* Draws a ring of edges from 0.3 to 4 m, all of them kerbs. */
static struct plan kerb_ring(struct chance *c, struct plan_node *nodes, struct plan_ring *ring)
{
	double angle = 0, x = 0, y = 0;
	struct plan p;

	for (int k = 0; k < EDGES; k++, angle += 2 * acos(-1) / EDGES) {
		double length = chance_real(c, 3e5, 4e6);

		nodes[k] = (struct plan_node){
			.x_um = llround(x), .y_um = llround(y), .kind = EDGE_KERB
		};
		x += length * cos(angle);
		y += length * sin(angle);
	}
	*ring = (struct plan_ring){ .nodes = nodes, .count = EDGES, .closed = true };
	plan_init(&p);
	p.rings = ring;
	p.ring_count = 1;
	return p;
}

static void edging(int64_t unit_mm)
{
	struct chance c = chance_new(40);
	size_t proven = 0;
	double ms[PLANS];
	char words[60];

	for (int i = 0; i < PLANS; i++) {
		struct arena mem = { 0 };
		struct plan_node nodes[EDGES];
		struct plan_ring ring;
		struct edging_result out;
		struct plan p = kerb_ring(&c, nodes, &ring);
		double start;

		p.edging[EDGE_KERB] = (struct plan_edging){
			.name = "kerb", .unit_um = unit_mm * UM_PER_MM, .joint_um = 3000
		};
		start = now_ms();
		if (edging_work_out(&mem, &p, 3000, &out, NULL) != STATUS_OK)
			exit(1);
		ms[i] = now_ms() - start;
		proven += out.lines[0].units == out.lines[0].bound;
		arena_free(&mem);
	}
	snprintf(words, sizeof words, "%d edges, units of %lld mm", EDGES, (long long)unit_mm);
	show(words, ms, PLANS, proven);
}

int main(void)
{
	static const char *const uniform[] = { "u120", "u250", "u500", "u1000" };
	static const char *const triplets[] = { "t60", "t120", "t249", "t501" };

	printf("cutting from units: published sets\n");
	for (size_t i = 0; i < 4; i++)
		solve("falkenauer-u.txt", uniform[i]);
	for (size_t i = 0; i < 4; i++)
		solve("falkenauer-t.txt", triplets[i]);
	solve("scholl-sample.txt", "");
	solve("scholl-hard.txt", "");
	printf("edging, first answer\n");
	edging(915);
	edging(600);
	edging(3000);
	return 0;
}
