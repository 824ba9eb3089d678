/* Cutting rectangles from sheets against brute force on small jobs, against the best known answers
 * of published ones, and every plan checked cut by cut. */
#include "chance.h"
#include "cuts.h"
#include "packing_jobs.h"
#include "suite.h"

#include "slabwright/units.h"

#include <stdio.h>

enum { SMALL_JOBS = 1500, SMALL_PIECES = 7, SMALL_WORK = 60000, LARGE_JOBS = 60 };

static struct guillotine_plan plan_for(struct arena *mem, const struct guillotine_stock *stock,
        const struct guillotine_piece *pieces, size_t count, uint64_t work, const char *name)
{
	struct guillotine *g;
	struct guillotine_plan plan;
	struct error err = { 0 };
	const char *fault;

	ck_assert_msg(guillotine_begin(mem, stock, pieces, count, 1, &g, &err) == STATUS_OK, "%s",
	        err.text);
	guillotine_step(g, work);
	ck_assert_int_eq(guillotine_best(g, mem, &plan, &err), STATUS_OK);
	fault = cuts_fault(stock, pieces, count, &plan);
	ck_assert_msg(!fault, "%s: %s", name, fault);
	return plan;
}

/* Coarse sizes, so that much fits exactly; some sheets square, so that turning over counts. */
static size_t random_job(struct chance *c, struct guillotine_stock *stock,
        struct guillotine_piece *pieces, size_t most, int64_t unit)
{
	int64_t length = chance_int(c, 4, 12);
	int64_t width = chance_int(c, 0, 1) ? length : chance_int(c, 4, 12);
	size_t count = (size_t)chance_int(c, 1, (int64_t)most);
	int64_t shape = chance_int(c, 1, 3), turning = chance_int(c, 0, 2);

	*stock = (struct guillotine_stock){ length * unit, width * unit,
		chance_int(c, 0, 2) * unit / 2 };
	for (size_t i = 0; i < count; i++)
		pieces[i] = (struct guillotine_piece){ chance_int(c, 1, length) * unit / shape,
			chance_int(c, 1, width) * unit, 1,
			turning == 1 ? chance_int(c, 0, 1) : turning };
	return count;
}

START_TEST(small_jobs_are_as_good_as_brute_force_where_least_is_claimed)
{
	struct chance c = chance_new(
	        chance_seed("small_jobs_are_as_good_as_brute_force_where_least_is_claimed", 4711));
	int least = 0, equal = 0;

	for (int job = 0; job < SMALL_JOBS; job++) {
		struct arena mem = { 0 };
		struct guillotine_stock stock;
		struct guillotine_piece pieces[SMALL_PIECES];
		size_t count = random_job(&c, &stock, pieces, SMALL_PIECES, 30 * UM_PER_MM);
		struct guillotine_plan plan =
		        plan_for(&mem, &stock, pieces, count, SMALL_WORK, "small job");
		size_t fewest = cuts_by_brute_force(&stock, pieces, count);

		ck_assert_msg(plan.bound <= fewest, "job %d: bound %zu (%s), brute force %zu", job,
		        plan.bound, plan.reason, fewest);
		ck_assert_msg(plan.sheet_count >= fewest, "job %d: %zu sheets, brute force %zu",
		        job, plan.sheet_count, fewest);
		least += plan.sheet_count == plan.bound;
		equal += plan.sheet_count == fewest;
		arena_free(&mem);
	}
	printf("of %d jobs %d are as good as brute force, %d known to be\n", SMALL_JOBS, equal,
	        least);
	ck_assert_int_ge(equal, SMALL_JOBS * 99 / 100);
	ck_assert_int_ge(least, SMALL_JOBS * 3 / 4);
}
END_TEST

START_TEST(plans_of_many_pieces_can_be_cut)
{
	struct chance c = chance_new(chance_seed("plans_of_many_pieces_can_be_cut", 99));

	for (int job = 0; job < LARGE_JOBS; job++) {
		enum { MOST = 150 };
		struct arena mem = { 0 };
		struct guillotine_stock stock;
		struct guillotine_piece pieces[MOST];
		size_t count = random_job(&c, &stock, pieces, MOST, chance_int(&c, 50000, 60000));

		for (size_t i = 0; i < count; i++)
			pieces[i].count = (size_t)chance_int(&c, 0, 3);
		plan_for(&mem, &stock, pieces, count, 100000, "random job");
		arena_free(&mem);
	}
}
END_TEST

struct gap {
	int jobs;
	double cut, free;
};

static void add_gap(struct gap *g, const struct packing_job *j, bool turns, uint64_t work)
{
	struct arena mem = { 0 };
	struct guillotine_piece *pieces = packing_pieces(&mem, j, turns);
	struct guillotine_plan plan = plan_for(&mem, &j->stock, pieces, j->count, work, j->name);
	int sheets = (int)plan.sheet_count;

	ck_assert_msg((int)plan.bound <= (j->free[turns] ? j->free[turns] : j->cut[turns]),
	        "%s: bound %zu (%s)", j->name, plan.bound, plan.reason);
	ck_assert_msg(sheets >= j->bound[turns], "%s: %d sheets", j->name, sheets);
	g->jobs++;
	g->cut += (double)(sheets - j->cut[turns]) / j->cut[turns];
	g->free += j->free[turns] ? (double)(sheets - j->free[turns]) / j->free[turns] : 0;
	arena_free(&mem);
}

/* Every seventh of the 500 jobs of the classes; all of them: tests/bench/bench_guillotine. */
START_TEST(published_jobs_take_at_most_2_percent_more_than_the_best_known)
{
	struct arena mem = { 0 };
	struct packing_job *jobs;
	size_t count = packing_jobs(&mem, &jobs);

	for (int turns = 0; turns < 2; turns++) {
		struct gap g = { 0 };

		for (size_t i = 0; i < count; i += 7)
			if (jobs[i].set < PACKING_SETS)
				add_gap(&g, &jobs[i], turns, 3000000);
		printf("%s: %d jobs, mean gap %.2f %% to the best of three stages, %.2f %% to the "
		       "best without the rule\n",
		        turns ? "turning" : "lying", g.jobs, 100 * g.cut / g.jobs,
		        100 * g.free / g.jobs);
		ck_assert_int_eq(g.jobs, 72);
		ck_assert(g.cut / g.jobs <= 0.02);
	}
	arena_free(&mem);
}
END_TEST

START_TEST(many_pieces_of_few_sizes_come_near_the_best_known)
{
	struct arena mem = { 0 };
	struct packing_job *jobs;
	size_t count = packing_jobs(&mem, &jobs);
	struct gap g = { 0 };

	for (size_t i = 0; i < count; i++)
		if (jobs[i].set == PACKING_SETS && jobs[i].count == 10)
			for (int turns = 0; turns < 2; turns++)
				add_gap(&g, &jobs[i], turns, 8000000);
	printf("%d jobs, mean gap %.2f %%\n", g.jobs, 100 * g.cut / g.jobs);
	ck_assert_int_eq(g.jobs, 6);
	ck_assert(g.cut / g.jobs <= 0.02);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("guillotine");

	tcase_set_timeout(tc, 400);
	tcase_add_test(tc, small_jobs_are_as_good_as_brute_force_where_least_is_claimed);
	tcase_add_test(tc, plans_of_many_pieces_can_be_cut);
	tcase_add_test(tc, published_jobs_take_at_most_2_percent_more_than_the_best_known);
	tcase_add_test(tc, many_pieces_of_few_sizes_come_near_the_best_known);
	return suite_run("cutting rectangles against brute force and published jobs", tc);
}
