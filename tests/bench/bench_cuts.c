/* How few slabs the cuts take: 1,000 patios by chance, and for each how far the plan may be over
 * the least, at once and after the search; how long both take; and what the common rule of thumb
 * would have ordered. Patios as crews build them: square corners, a slanted side or a bow now and
 * then, an opening; usual slabs, most of them laid along the house. */
#include "../oracle/random_plan.h"

#include "slabwright/takeoff.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { JOBS = 1000 };

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* 3 to 9 m each way, to the centimetre; an L now and then; a corner moved, a side bent, a square
 * opening. */
static struct plan patio(struct arena *mem, struct chance *c)
{
	int64_t w = chance_int(c, 300, 900) * 10000, h = chance_int(c, 300, 700) * 10000;
	int64_t a = chance_int(c, 100, 200) * 10000, b = chance_int(c, 100, 200) * 10000;
	bool l = chance_int(c, 0, 2) == 0;
	struct plan p;
	struct plan_node *n = arena_alloc(mem, 6, sizeof *n);
	size_t count = 0;

	plan_init(&p);
	n[count++] = (struct plan_node){ .x_um = 0, .y_um = 0 };
	n[count++] = (struct plan_node){ .x_um = w, .y_um = 0 };
	if (l) {
		n[count++] = (struct plan_node){ .x_um = w, .y_um = h - b };
		n[count++] = (struct plan_node){ .x_um = w - a, .y_um = h - b };
		n[count++] = (struct plan_node){ .x_um = w - a, .y_um = h };
	} else {
		n[count++] = (struct plan_node){ .x_um = w, .y_um = h };
	}
	n[count++] = (struct plan_node){ .x_um = 0, .y_um = h };
	if (chance_int(c, 0, 3) == 0)
		n[count - 1].y_um -= chance_int(c, 5, 80) * 10000;
	if (chance_int(c, 0, 5) == 0)
		n[count - 2].rise_um = chance_int(c, 20, 60) * 10000;
	p.rings = arena_alloc(mem, 2, sizeof *p.rings);
	p.rings[0] = (struct plan_ring){ n, count, true };
	p.ring_count = 1;
	if (chance_int(c, 0, 2) == 0) {
		struct plan_node *o = arena_alloc(mem, 4, sizeof *o);
		int64_t x = chance_int(c, 50, 90) * 10000, y = chance_int(c, 50, 90) * 10000;

		for (int i = 0; i < 4; i++)
			o[i] = (struct plan_node){ .x_um = x + (i == 1 || i == 2 ? 450000 : 0),
				.y_um = y + (i > 1 ? 450000 : 0) };
		p.rings[p.ring_count++] = (struct plan_ring){ o, 4, true };
	}
	return p;
}

static void choose_slab(struct plan *p, struct chance *c)
{
	static const int sizes[][2] = { { 600, 300 }, { 600, 600 }, { 500, 500 }, { 900, 600 },
		{ 400, 400 }, { 300, 300 }, { 600, 400 }, { 750, 500 } };
	const int *size = sizes[chance_int(c, 0, 7)];
	struct plan_laying *l = &p->laying;

	l->slab.length_um = size[0] * UM_PER_MM;
	l->slab.width_um = size[1] * UM_PER_MM;
	l->bond = chance_int(c, 0, 1) ? BOND_STRETCHER : BOND_STACK;
	if (size[0] == 2 * size[1] && chance_int(c, 0, 2) == 0)
		l->bond = chance_int(c, 0, 1) ? BOND_HERRINGBONE : BOND_BASKETWEAVE;
	l->offset = chance_int(c, 0, 2) ? 0.5 : 1.0 / 3;
	l->rotation_udeg = chance_int(c, 0, 7) ? 0 : 45 * UDEG_PER_DEG;
	l->start_x_um = chance_int(c, 0, size[0]) * UM_PER_MM;
	l->start_y_um = chance_int(c, 0, size[1]) * UM_PER_MM;
}

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static void print_times(const char *what, double *ms, int n)
{
	qsort(ms, (size_t)n, sizeof *ms, by_value);
	printf("%s: median %.2f ms, 95 %% %.1f ms, 99 %% %.1f ms, longest %.1f ms\n", what,
	        ms[n / 2], ms[n * 95 / 100], ms[n * 99 / 100], ms[n - 1]);
}

int main(int argc, char **argv)
{
	struct chance c = chance_new(chance_seed("bench_cuts", 2026));
	int jobs = argc > 1 ? atoi(argv[1]) : JOBS, at_once = 0, in_the_end = 0, shorter = 0;
	int shorter_at_all = 0, over[6] = { 0 };
	int64_t least_short = 0, too_many = 0, slabs = 0;
	size_t saved = 0, most = 0;
	struct rules rules = { .name = "none" };
	struct arena mem = { 0 };
	double *first = calloc((size_t)jobs, sizeof *first),
	       *last = calloc((size_t)jobs, sizeof *last);

	for (int job = 0; job < jobs; job++) {
		struct plan p = patio(&mem, &c);
		struct takeoff t;
		struct cut_search *search;
		const struct cutplan *best;
		size_t excess;
		int64_t order;
		double begin;

		choose_slab(&p, &c);
		begin = now_ms();
		if (takeoff_plan(&mem, &p, &rules, &t, NULL) != STATUS_OK || !t.ready) {
			printf("job %d: %s\n", job, t.fault.text);
			return 1;
		}
		first[job] = now_ms() - begin;
		if (paving_search(&mem, &t.laid, &p.laying, &t.cuts, &search, NULL) != STATUS_OK)
			return 1;
		while (cut_search_step(search, 100000))
			;
		last[job] = now_ms() - begin;
		best = cut_search_best(search);
		at_once += t.cuts.slabs == t.cuts.bound;
		in_the_end += best->slabs == best->bound;
		excess = best->slabs - best->bound;
		most = excess > most ? excess : most;
		over[excess > 5 ? 5 : excess]++;
		saved += t.cuts.slabs - best->slabs;
		if (argc > 2 && excess > 1)
			printf("job %d: %zu slabs, bound %zu (%s), %ld cut, bond %d, turn %ld, "
			       "slab "
			       "%ld x %ld\n",
			        job, best->slabs, best->bound, best->reason, (long)t.laid.cut,
			        p.laying.bond, (long)p.laying.rotation_udeg / 1000000,
			        (long)p.laying.slab.length_um / 1000,
			        (long)p.laying.slab.width_um / 1000);
		order = t.order.slabs - (int64_t)(t.cuts.slabs - best->slabs);
		slabs += order;
		shorter_at_all += t.order.rule_of_thumb < order - t.order.allowance;
		if (t.order.rule_of_thumb < order) {
			shorter++;
			least_short += order - t.order.rule_of_thumb;
		} else {
			too_many += t.order.rule_of_thumb - order;
		}
		arena_reset(&mem);
	}
	printf("cut plans of %d patios: proven least %d at once, %d after the search (%.1f %%); at "
	       "most "
	       "%zu over\n",
	        jobs, at_once, in_the_end, 100.0 * in_the_end / jobs, most);
	printf("may be over by 0: %d, 1: %d, 2: %d, 3: %d, 4: %d, more: %d; the search saved %zu "
	       "slabs\n",
	        over[0], over[1], over[2], over[3], over[4], over[5], saved);
	print_times("first plan, with the whole take-off", first, jobs);
	print_times("until the search has ended", last, jobs);
	printf("the rule of thumb (area + 5 %%) orders too few for %d jobs, %.1f slabs on average "
	       "(%d of them too few even if none breaks), and %.1f too many for each other one\n",
	        shorter, shorter ? (double)least_short / shorter : 0, shorter_at_all,
	        jobs > shorter ? (double)too_many / (jobs - shorter) : 0);
	printf("slabs ordered in all: %ld\n", (long)slabs);
	free(first);
	free(last);
	arena_free(&mem);
	return 0;
}
