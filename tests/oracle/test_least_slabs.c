/* The claim that a cut plan is the least possible, held to GLPK, which has all sets of pieces that
 * one slab yields in small jobs; and the plans of many jobs after the search, held to the rules of
 * the saw. */
#include "random_pieces.h"
#include "random_plan.h"
#include "sawn.h"
#include "slab_sets.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Searches on from a plan to the end, some looks at a time; bounds never fall and slabs never rise.
 */
static const struct cutplan *search_on(struct arena *mem, const struct piece *pieces, size_t count,
        const struct cut_stock *stocks, size_t stock_count, const struct cutplan *first)
{
	struct cut_search *search;
	const struct cutplan *best;
	size_t slabs = first->slabs, bound = first->bound;
	bool more = true;

	ck_assert_int_eq(
	        cut_search_begin(mem, pieces, count, stocks, stock_count, first, &search, NULL),
	        STATUS_OK);
	while (more) {
		more = cut_search_step(search, 100000);
		best = cut_search_best(search);
		ck_assert_uint_le(best->slabs, slabs);
		ck_assert_uint_ge(best->bound, bound);
		slabs = best->slabs;
		bound = best->bound;
	}
	return cut_search_best(search);
}

/* --- what is counted --- */

struct tally {
	int jobs, claimed, equal, over, unsure, missed, saved;
};

static unsigned member_of(const struct set_job *job, const struct piece *piece)
{
	unsigned i = 0;

	while (job->pieces[i] != piece)
		i++;
	return i;
}

/* Holds the plan of a stock, whose sources are given, to what GLPK finds. */
static void hold_to_sets(struct set_job *job, const struct piece *pieces,
        const struct cut_source *sources, const struct cut_total *first,
        const struct cut_total *last, int number, struct tally *t)
{
	unsigned shown[MOST_IN_SETS] = { 0 };
	bool claimed = last->slabs == last->bound;
	struct fewest f;

	for (size_t i = 0; i < last->slabs; i++)
		for (int k = 0; k < sources[i].count; k++)
			shown[i] |= 1U << member_of(job, &pieces[sources[i].place[k].piece]);
	job->shown = shown;
	job->shown_count = last->slabs;
	f = fewest_slabs(job);
	ck_assert_msg(last->bound <= f.enough,
	        "job %d: at least %zu are said to be needed (%s), %zu will do", number, last->bound,
	        last->reason, f.enough);
	ck_assert_msg(last->slabs >= f.least, "job %d: %zu slabs, though %zu are needed", number,
	        last->slabs, f.least);
	ck_assert(!claimed || last->slabs == f.enough);
	t->jobs++;
	t->claimed += claimed;
	t->unsure += f.least < f.enough;
	t->missed += f.missed;
	t->equal += !claimed && last->slabs == f.enough;
	t->over += last->slabs > f.enough;
	t->saved += (int)(first->slabs - last->slabs);
}

static void print_tally(const char *what, const struct tally *t)
{
	printf("%s: %d jobs; %d claimed least; of the others %d as few as by trying all, %d more; "
	       "%d where trying is not sure, with %d sets it missed; the search saved %d slabs\n",
	        what, t->jobs, t->claimed, t->equal, t->over, t->unsure, t->missed, t->saved);
}

START_TEST(pieces_by_chance_need_as_few_slabs_as_are_claimed)
{
	static const char *const names[] = { "rectangles", "strips", "corners", "skew", "notched" };
	static const int jobs[] = { 200, 100, 3000, 100, 80 };
	static const size_t most[] = { MOST_IN_SETS, MOST_IN_SETS, 5, 8, 8 };
	struct chance c =
	        chance_new(chance_seed("pieces_by_chance_need_as_few_slabs_as_are_claimed", 230) +
	                   (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	struct tally t = { 0 };

	for (int job = 0; job < jobs[_i] / ONE_OF; job++) {
		struct cut_stock stock = random_stock(&c);
		struct piece pieces[MOST_IN_SETS];
		const struct piece *list[MOST_IN_SETS];
		struct cutplan first;
		struct cut_total before;
		const struct cutplan *last;
		size_t n;

		n = random_pieces(&mem, &c, &stock, (enum job_kind)_i, pieces, most[_i]);
		for (size_t i = 0; i < n; i++)
			list[i] = &pieces[i];
		ck_assert_int_eq(cutplan_make(&mem, pieces, n, &stock, 1, &first, NULL), STATUS_OK);
		before = first.of_stock[0];
		last = search_on(&mem, pieces, n, &stock, 1, &first);
		sawn_check(g, &first, pieces, n, &stock, 1);
		sawn_check(g, last, pieces, n, &stock, 1);
		hold_to_sets(
		        &(struct set_job){ .g = g, .stock = &stock, .pieces = list, .count = n },
		        pieces, last->sources, &before, &last->of_stock[0], job, &t);
		arena_reset(&mem);
	}
	print_tally(names[_i], &t);
	ck_assert_int_gt(t.claimed, t.jobs / 10);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

/* --- jobs of whole plans --- */

/* Lays a plan by chance of slabs with sides from `least` to `most` dm, and plans its cuts. */
static struct plan laid_plan(struct arena *mem, struct chance *c, enum outline_style style,
        int64_t least, int64_t most, struct paving *laid, struct cutplan *first)
{
	struct plan plan = random_plan(mem, c, style);
	struct plan_laying *l = &plan.laying;
	struct region region;

	l->slab.length_um = chance_int(c, least, most) * 100000;
	l->slab.width_um =
	        chance_int(c, 0, 2) ? chance_int(c, least, most) * 100000 : l->slab.length_um;
	l->kerf_um = chance_int(c, 0, 5) * UM_PER_MM;
	l->edges = chance_int(c, 0, 5) ? RULE_FINISHED : RULE_ROUGH;
	ck_assert_int_eq(region_from_plan(mem, &plan, &region, NULL), STATUS_OK);
	ck_assert_int_eq(
	        paving_lay(mem, &plan, &region, plan_area_m2(&plan), laid, NULL), STATUS_OK);
	ck_assert_int_eq(paving_cuts(mem, laid, l, first, NULL), STATUS_OK);
	return plan;
}

static const struct cutplan *search_laid(struct arena *mem, const struct plan *plan,
        const struct paving *laid, const struct cutplan *first, struct cut_stock **stocks)
{
	*stocks = sawn_stocks(mem, laid, &plan->laying);
	return search_on(mem, laid->pieces, laid->piece_count, *stocks, laid->stock_count, first);
}

/* Styles of small jobs: skylines with openings along the pattern, and any. */
START_TEST(small_plans_need_as_few_slabs_as_are_claimed)
{
	enum { ALONG, ANY };
	static const char *const names[] = { "plans along the pattern", "plans of any outline" };
	static const int jobs[] = { 100, 50 };
	struct chance c = chance_new(
	        chance_seed("small_plans_need_as_few_slabs_as_are_claimed", 61) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	struct tally t = { 0 };

	while (t.jobs < jobs[_i] / ONE_OF) {
		struct paving laid;
		struct cutplan first;
		const struct cutplan *last;
		const struct piece *list[MOST_IN_SETS];
		struct cut_stock *stocks;
		struct plan plan = laid_plan(&mem, &c,
		        _i == ANY              ? (enum outline_style)chance_int(&c, 0, STYLES - 1)
		        : chance_int(&c, 0, 1) ? STYLE_RECTILINEAR
		                               : STYLE_OPENINGS,
		        12, 25, &laid, &first);
		size_t n = 0;

		if (laid.cut < 2 || laid.cut > MOST_IN_SETS ||
		        (_i == ALONG && plan.laying.rotation_udeg % (90 * UDEG_PER_DEG))) {
			arena_reset(&mem);
			continue;
		}
		last = search_laid(&mem, &plan, &laid, &first, &stocks);
		sawn_check(g, last, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		for (size_t i = 0; i < laid.piece_count; i++)
			if (laid.pieces[i].kind != PIECE_MADE_UP)
				list[n++] = &laid.pieces[i];
		hold_to_sets(
		        &(struct set_job){ .g = g, .stock = stocks, .pieces = list, .count = n },
		        laid.pieces, last->sources, first.of_stock, last->of_stock, t.jobs, &t);
		arena_reset(&mem);
	}
	print_tally(names[_i], &t);
	ck_assert_int_gt(t.claimed, t.jobs / 5 / ONE_OF);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

START_TEST(every_searched_plan_can_be_sawn)
{
	enum { PLANS = 2000 / ONE_OF, MOST_CUT = 20 }; /* more take the search too long */
	struct chance c = chance_new(chance_seed("every_searched_plan_can_be_sawn", 17));
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	size_t saved = 0, least_before = 0, least = 0, pieces = 0, of_three = 0;

	for (int job = 0; job < PLANS;) {
		struct paving laid;
		struct cutplan first;
		const struct cutplan *last;
		struct cut_stock *stocks;
		struct plan plan = laid_plan(
		        &mem, &c, (enum outline_style)(job % STYLES), 8, 20, &laid, &first);

		if (laid.cut > MOST_CUT) {
			arena_reset(&mem);
			continue;
		}
		job++;
		last = search_laid(&mem, &plan, &laid, &first, &stocks);
		sawn_check(g, last, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		for (size_t i = 0; i < last->slabs; i++)
			of_three += last->sources[i].count > 2;
		pieces += (size_t)laid.cut;
		saved += first.slabs - last->slabs;
		least_before += first.slabs == first.bound;
		least += last->slabs == last->bound;
		arena_reset(&mem);
	}
	printf("%d plans, %zu pieces: %zu slabs give three or four, %zu saved by the search; %zu "
	       "plans proven least at once, %zu in the end\n",
	        PLANS, pieces, of_three, saved, least_before, least);
	ck_assert_uint_gt(of_three, 0);
	ck_assert_uint_gt(saved, 0);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("least slabs");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, pieces_by_chance_need_as_few_slabs_as_are_claimed, 0, JOB_KINDS);
	tcase_add_loop_test(tc, small_plans_need_as_few_slabs_as_are_claimed, 0, 2);
	tcase_add_test(tc, every_searched_plan_can_be_sawn);
	return suite_run("least slabs", tc);
}
