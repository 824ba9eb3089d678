/* The least number of patterns held to GLPK's integer programs. */
#include "chance.h"
#include "suite.h"

#include "../../src/calc/cover.h"

#include <glpk.h>
#include <stdio.h>
#include <string.h>

enum { JOBS = 400, MOST_CLASSES = 14, MOST_PATTERNS = 80 };

struct job {
	int classes, demand[MOST_CLASSES];
	struct cover_pattern patterns[MOST_PATTERNS];
	size_t count;
};

static struct job random_job(struct chance *c)
{
	struct job j = { .classes = (int)chance_int(c, 1, MOST_CLASSES) };

	for (int i = 0; i < j.classes; i++)
		j.demand[i] = (int)chance_int(c, 1, chance_int(c, 0, 2) ? 3 : 9);
	j.count = (size_t)chance_int(c, 0, MOST_PATTERNS);
	for (size_t p = 0; p < j.count; p++) {
		j.patterns[p].count = (int)chance_int(c, 2, chance_int(c, 0, 3) ? 2 : COVER_ITEMS);
		for (int i = 0; i < j.patterns[p].count; i++)
			j.patterns[p].item[i] = (int)chance_int(c, 0, j.classes - 1);
	}
	return j;
}

static size_t least_by_glpk(const struct job *j)
{
	glp_prob *lp = glp_create_prob();
	glp_iocp how;
	size_t least;
	int columns = (int)j->count + j->classes;

	glp_term_out(GLP_OFF);
	glp_set_obj_dir(lp, GLP_MIN);
	glp_add_rows(lp, j->classes);
	for (int i = 0; i < j->classes; i++)
		glp_set_row_bnds(lp, i + 1, GLP_LO, j->demand[i], 0);
	glp_add_cols(lp, columns);
	for (int k = 0; k < columns; k++) {
		int index[COVER_ITEMS + 1], n = 0;
		double value[COVER_ITEMS + 1];
		struct cover_pattern single = { .item = { k - (int)j->count }, .count = 1 };
		const struct cover_pattern *p = k < (int)j->count ? &j->patterns[k] : &single;

		for (int i = 0; i < p->count; i++) {
			int at = 1;

			while (at <= n && index[at] != p->item[i] + 1)
				at++;
			if (at > n) {
				index[++n] = p->item[i] + 1;
				value[n] = 0;
			}
			value[at]++;
		}
		glp_set_col_kind(lp, k + 1, GLP_IV);
		glp_set_col_bnds(lp, k + 1, GLP_LO, 0, 0);
		glp_set_obj_coef(lp, k + 1, 1);
		glp_set_mat_col(lp, k + 1, n, index, value);
	}
	glp_init_iocp(&how);
	how.presolve = GLP_ON;
	ck_assert_int_eq(glp_intopt(lp, &how), 0);
	least = (size_t)(glp_mip_obj_val(lp) + 0.5);
	glp_delete_prob(lp);
	return least;
}

/* The chosen patterns are patterns, and cover each class exactly. */
static void check_choice(const struct job *j, const struct cover_pattern *chosen, size_t count)
{
	int covered[MOST_CLASSES] = { 0 };

	for (size_t k = 0; k < count; k++) {
		bool known = chosen[k].count == 1;

		for (int i = 0; i < chosen[k].count; i++)
			covered[chosen[k].item[i]]++;
		for (size_t p = 0; p < j->count && !known; p++) {
			int have[MOST_CLASSES] = { 0 };

			for (int i = 0; i < j->patterns[p].count; i++)
				have[j->patterns[p].item[i]]++;
			known = true;
			for (int i = 0; i < chosen[k].count; i++)
				known = known && have[chosen[k].item[i]]-- > 0;
		}
		ck_assert_msg(known, "choice %zu is no part of a pattern", k);
	}
	ck_assert_int_eq(memcmp(covered, j->demand, (size_t)j->classes * sizeof *covered), 0);
}

START_TEST(as_few_patterns_as_glpk_finds)
{
	struct chance c = chance_new(chance_seed("as_few_patterns_as_glpk_finds", 77));
	struct arena mem = { 0 };

	for (int job = 0; job < JOBS; job++) {
		struct job j = random_job(&c);
		const struct cover_pattern *chosen;
		struct cover *search;
		size_t known = 0, count, best, least = least_by_glpk(&j), bound = 0;
		int slices = 0;

		for (int i = 0; i < j.classes; i++)
			known += (size_t)j.demand[i];
		ck_assert_int_eq(cover_begin(&mem, j.classes, j.demand, j.patterns, j.count, known,
		                         &search, NULL),
		        STATUS_OK);
		while (cover_step(search, 50) && slices < 200000) {
			ck_assert_uint_ge(cover_bound(search), bound);
			bound = cover_bound(search);
			ck_assert_uint_le(bound, least);
			slices++;
		}
		best = cover_best(search, &chosen, &count);
		ck_assert_msg(best == least && cover_bound(search) == least,
		        "job %d: %zu found, %zu the bound, %zu by GLPK, %d slices", job, best,
		        cover_bound(search), least, slices);
		if (count)
			check_choice(&j, chosen, count);
		else
			ck_assert_uint_eq(least, known);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

START_TEST(nothing_better_than_what_is_known_is_said_so)
{
	const int demand[] = { 2, 1 };
	const struct cover_pattern patterns[] = { { { 0, 0 }, 2 } };
	const struct cover_pattern *chosen;
	struct arena mem = { 0 };
	struct cover *search;
	size_t count;

	ck_assert_int_eq(cover_begin(&mem, 2, demand, patterns, 1, 2, &search, NULL), STATUS_OK);
	while (cover_step(search, 10))
		;
	ck_assert_uint_eq(cover_best(search, &chosen, &count), 2);
	ck_assert_uint_eq(count, 0);
	ck_assert_uint_eq(cover_bound(search), 2);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("patterns");

	tcase_set_timeout(tc, 200);
	tcase_add_test(tc, as_few_patterns_as_glpk_finds);
	tcase_add_test(tc, nothing_better_than_what_is_known_is_said_so);
	return suite_run("fewest patterns against GLPK", tc);
}
