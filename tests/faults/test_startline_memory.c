/* test_startline_memory.c - memory that ends at any request of a ranking: it is refused, and the
 * list is what it was. Linked with malloc wrapped. */
#include "plans.h"
#include "slabwright/startline.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);

static long fail_at = -1, seen;

void *__wrap_malloc(size_t size)
{
	return fail_at >= 0 && seen++ == fail_at ? NULL : __real_malloc(size);
}

/* Ranks with the n-th request failing; false when none was that far. */
static bool fails_soundly(const struct takeoff *t, long at)
{
	struct arena mem = { 0 };
	struct start_search *s = NULL;
	struct start_list before = { 0 }, after;
	struct error err = { 0 };
	enum status st;

	fail_at = at;
	seen = 0;
	st = startline_begin(&mem, t, true, &s, &err);
	for (int i = 0; st == STATUS_OK && !startline_done(s) && i < 600; i++) {
		startline_best(s, &before);
		st = startline_step(s, 1, &err);
	}
	fail_at = -1;
	if (st != STATUS_OK) {
		ck_assert_int_eq(st, STATUS_MEMORY);
		ck_assert_ptr_nonnull(strstr(err.text, "memory"));
	}
	if (st != STATUS_OK && before.count) {
		startline_best(s, &after);
		ck_assert(after.done && !after.exact);
		ck_assert_uint_gt(after.count, 0);
		ck_assert_int_le(after.rows[0].slivers, before.rows[0].slivers);
	}
	arena_free(&mem);
	return st != STATUS_OK;
}

static void rank_with(int64_t turn_udeg)
{
	struct worked w;
	long at = 0, failed = 0;

	worked_rectangle(&w, 1730000, 1130000);
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.rotation_udeg = turn_udeg;
	work_out_plan(&w);
	while (fails_soundly(&w.t, at)) {
		failed++;
		at += 1 + at / 40;
	}
	ck_assert_int_gt(failed, 30);
	worked_done(&w);
}

START_TEST(an_exact_ranking_ends_without_memory)
{
	rank_with(0);
}
END_TEST

START_TEST(a_sampled_ranking_ends_without_memory)
{
	rank_with(30 * UDEG_PER_DEG);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("startline memory");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, an_exact_ranking_ends_without_memory);
	tcase_add_test(tc, a_sampled_ranking_ends_without_memory);
	return suite_run("startline memory", tc);
}
