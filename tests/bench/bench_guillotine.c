/* bench_guillotine - published jobs of cutting rectangles from sheets, against the best known.
 *
 * Each job gets a fixed amount of work, so the sheets are the same on any machine. `gap` is the
 * mean over the jobs of (sheets - best known) / best known: `cut` against the best known with cuts
 * from edge to edge (classes: of three stages only, so ours may be fewer), `free` against the best
 * known without that rule. The gcut jobs, of hundreds of sheets, get four times the work. The
 * number of work units a job gets may be given, and then a set.
 *
 *     bench_guillotine [WORK [SET]] */
#include "chance.h"
#include "oracle/packing_jobs.h"

#include "slabwright/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { USUAL_WORK = 25000000 };

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

struct sum {
	int jobs, sheets, first, cut, free, bound, least;
	double gap_cut, gap_free, time, longest;
};

static void run(const struct packing_job *j, bool turns, uint64_t work, struct sum *s, bool chatty)
{
	struct arena mem = { 0 };
	struct guillotine *g;
	struct guillotine_piece *pieces = packing_pieces(&mem, j, turns);
	double start = now(), took;
	int sheets;

	if (guillotine_begin(&mem, &j->stock, pieces, j->count, 1, &g, NULL) != STATUS_OK)
		exit(1);
	s->first += (int)guillotine_sheets(g);
	guillotine_step(g, j->set == PACKING_SETS ? 4 * work : work);
	took = now() - start;
	sheets = (int)guillotine_sheets(g);
	s->jobs++;
	s->sheets += sheets;
	s->cut += j->cut[turns];
	s->free += j->free[turns];
	s->bound += (int)guillotine_bound(g);
	s->least += guillotine_sheets(g) == guillotine_bound(g);
	s->gap_cut += (double)(sheets - j->cut[turns]) / j->cut[turns];
	s->gap_free += j->free[turns] ? (double)(sheets - j->free[turns]) / j->free[turns] : 0;
	s->time += took;
	s->longest = fmax(s->longest, took);
	if (chatty)
		printf("  %-14s %-7s %4zu sizes, %4d sheets, cut %4d, free %4d, bound %4zu (table "
		       "%d), %.2f s\n",
		        j->name, turns ? "turning" : "lying", j->count, sheets, j->cut[turns],
		        j->free[turns], guillotine_bound(g), j->bound[turns], took);
	arena_free(&mem);
}

static void show(const char *name, const struct sum *s)
{
	printf("%-10s %4d %6d %6d %6d %6d %6d %6d %8.2f %8.2f %7.2f %7.2f\n", name, s->jobs,
	        s->first, s->sheets, s->cut, s->free, s->bound, s->least,
	        100 * s->gap_cut / s->jobs, 100 * s->gap_free / s->jobs, s->time, s->longest);
}

static void add(struct sum *all, const struct sum *s)
{
	all->jobs += s->jobs;
	all->sheets += s->sheets;
	all->first += s->first;
	all->cut += s->cut;
	all->free += s->free;
	all->bound += s->bound;
	all->least += s->least;
	all->gap_cut += s->gap_cut;
	all->gap_free += s->gap_free;
	all->time += s->time;
	all->longest = fmax(all->longest, s->longest);
}

/* A patio's cut pieces: sheets of 600 x 300 mm, a kerf of 3 mm, pieces from 10 mm up. */
static void patio(size_t count)
{
	enum { MOST = 400, RUNS = 50 };
	struct guillotine_piece pieces[MOST];
	struct guillotine_stock stock = { 600 * UM_PER_MM, 300 * UM_PER_MM, 3 * UM_PER_MM };
	struct chance c = chance_new(2026);
	double best = INFINITY;
	size_t first = 0, sheets = 0, bound = 0;

	for (size_t i = 0; i < count; i++)
		pieces[i] = (struct guillotine_piece){ chance_int(&c, 10, 600) * UM_PER_MM,
			chance_int(&c, 10, 300) * UM_PER_MM, 1, true };
	for (int run = 0; run < RUNS; run++) {
		struct arena mem = { 0 };
		struct guillotine *g;
		double start = now();

		if (guillotine_begin(&mem, &stock, pieces, count, 1, &g, NULL) != STATUS_OK)
			exit(1);
		best = fmin(best, now() - start);
		first = guillotine_sheets(g);
		if (run == RUNS - 1)
			guillotine_step(g, USUAL_WORK);
		sheets = guillotine_sheets(g);
		bound = guillotine_bound(g);
		arena_free(&mem);
	}
	printf("patio of %zu pieces: first plan in %.3f ms, %zu sheets; then %zu, bound %zu\n",
	        count, best * 1e3, first, sheets, bound);
}

int main(int argc, char **argv)
{
	struct arena mem = { 0 };
	struct packing_job *jobs;
	size_t count = packing_jobs(&mem, &jobs);
	uint64_t work = argc > 1 ? strtoull(argv[1], NULL, 10) : USUAL_WORK;
	int only = argc > 2 ? atoi(argv[2]) : 0;

	for (size_t n = 50; n <= 400 && !only; n *= 2)
		patio(n);
	for (int turns = 0; turns < 2; turns++) {
		struct sum all = { 0 };

		printf("%s\n%-10s %4s %6s %6s %6s %6s %6s %6s %8s %8s %7s %7s\n",
		        turns ? "turning allowed" : "no turning", "set", "jobs", "first", "sheets",
		        "cut", "free", "bound", "proven", "gap cut%", "free %", "s all", "s most");
		for (int set = 1; set <= PACKING_SETS; set++) {
			struct sum s = { 0 };
			char name[16];

			if (only && only != set)
				continue;
			for (size_t i = 0; i < count; i++)
				if (jobs[i].set == set)
					run(&jobs[i], turns, work, &s, only);
			snprintf(name, sizeof name, set < PACKING_SETS ? "class %d" : "gcut", set);
			show(name, &s);
			if (set < PACKING_SETS)
				add(&all, &s);
		}
		if (!only)
			show("classes", &all);
	}
	arena_free(&mem);
	return 0;
}
