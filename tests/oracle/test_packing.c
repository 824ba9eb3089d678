/* Cutting from units of one length, held to published sets whose optimum is known and to GLPK.
 *
 * The sets and their sources: tests/data/packing/README.md. Under the sanitizers, or with
 * SLABWRIGHT_PACKING=few, every second instance is solved;
 * SLABWRIGHT_PACKING=all solves all of them, those too that take seconds each. */
#include "chance.h"
#include "packing_data.h"
#include "suite.h"

#include <glpk.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LISTS = 200, MOST_PIECES = 11 };

static const int64_t ENOUGH_WORK = INT64_C(20000000000);

enum extent { SOLVE_FEW, SOLVE_MOST, SOLVE_ALL };

static enum extent extent(void)
{
	const char *wish = getenv("SLABWRIGHT_PACKING");

	if (wish && strcmp(wish, "all") == 0)
		return SOLVE_ALL;
	if (wish && strcmp(wish, "few") == 0)
		return SOLVE_FEW;
#if defined(__SANITIZE_ADDRESS__)
	return SOLVE_FEW;
#else
	return SOLVE_MOST;
#endif
}

static void check_solved(const struct packing *p)
{
	struct arena mem = { 0 };
	struct pack_plan plan = packing_solve(&mem, p, ENOUGH_WORK);
	const char *fault = packing_fault(p, &plan);

	ck_assert_msg(!fault, "%s: %s", p->name, fault);
	ck_assert_msg(plan.unit_count == p->optimum && plan.bound == p->optimum,
	        "%s: %zu units, bound %zu (%s), optimum %zu", p->name, plan.unit_count, plan.bound,
	        plan.reason, p->optimum);
	arena_free(&mem);
}

struct set {
	const char *file;
	size_t to; /* instances solved always */
	size_t count; /* and with `all` */
};

/* Of the hard ones, those behind the eleventh take up to some seconds each. */
static const struct set sets[] = {
	{ "falkenauer-u.txt", 80, 80 },
	{ "falkenauer-t.txt", 80, 80 },
	{ "scholl-sample.txt", 120, 120 },
	{ "scholl-hard.txt", 11, 34 },
};

START_TEST(published_sets_are_solved_and_proven)
{
	const struct set *set = &sets[_i];
	struct arena mem = { 0 };
	struct packing *list;
	size_t count = packings_read(&mem, set->file, &list), solved = 0;
	size_t to = extent() == SOLVE_ALL ? set->count : set->to;

	ck_assert_uint_eq(count, set->count);
	for (size_t i = 0; i < to; i += extent() == SOLVE_FEW ? 2 : 1, solved++)
		check_solved(&list[i]);
	printf("%s: %zu of %zu solved and proven\n", set->file, solved, count);
	arena_free(&mem);
}
END_TEST

START_TEST(short_lists_with_a_kerf_are_solved_and_proven)
{
	struct arena mem = { 0 };
	struct packing *list;
	size_t count = packings_read_kerf(&mem, &list);

	ck_assert_uint_eq(count, 62);
	for (size_t i = 0; i < count; i++)
		check_solved(&list[i]);
	arena_free(&mem);
}
END_TEST

/* Taking a kerf off pieces and unit alike changes nothing. */
START_TEST(a_kerf_taken_off_all_lengths_changes_nothing)
{
	struct arena mem = { 0 };
	struct packing *list;
	size_t count = packings_read(&mem, "falkenauer-u.txt", &list);

	for (size_t i = 0; i < count; i += 7) {
		list[i].kerf = 7;
		list[i].unit -= 7;
		for (size_t k = 0; k < list[i].count; k++)
			list[i].pieces[k].length_um -= 7;
		check_solved(&list[i]);
	}
	arena_free(&mem);
}
END_TEST

/* --- GLPK --- */

/* All sets of pieces that fit a unit, each covered once: as few sets as can be. */
static size_t units_by_glpk(const struct packing *list)
{
	glp_prob *p = glp_create_prob();
	int n = (int)list->count, rows[MOST_PIECES + 1];
	double ones[MOST_PIECES + 1];
	size_t answer;
	glp_iocp how;

	glp_term_out(GLP_OFF);
	glp_set_obj_dir(p, GLP_MIN);
	glp_add_rows(p, n);
	for (int i = 1; i <= n; i++)
		glp_set_row_bnds(p, i, GLP_FX, 1, 1);
	for (unsigned set = 1; set < 1U << n; set++) {
		int64_t length = -list->kerf;
		int count = 0, column;

		for (int i = 0; i < n; i++)
			if (set >> i & 1) {
				length += list->pieces[i].length_um + list->kerf;
				rows[++count] = i + 1;
				ones[count] = 1;
			}
		if (length > list->unit)
			continue;
		column = glp_add_cols(p, 1);
		glp_set_col_kind(p, column, GLP_BV);
		glp_set_obj_coef(p, column, 1);
		glp_set_mat_col(p, column, count, rows, ones);
	}
	glp_init_iocp(&how);
	how.presolve = GLP_ON;
	ck_assert_int_eq(glp_intopt(p, &how), 0);
	answer = (size_t)lround(glp_mip_obj_val(p));
	glp_delete_prob(p);
	return answer;
}

/* A list near the edges of what fits: lengths that add up to a unit, with the kerf and without. */
static struct packing random_list(struct arena *mem, struct chance *c)
{
	struct packing p = { .name = "random", .unit = chance_int(c, 300, 3000) };

	p.kerf = chance_int(c, 0, 9);
	p.count = (size_t)chance_int(c, 1, MOST_PIECES);
	p.pieces = arena_alloc(mem, p.count, sizeof *p.pieces);
	for (size_t i = 0; i < p.count; i++) {
		int64_t parts = chance_int(c, 1, 5);
		int64_t even = (p.unit + p.kerf) / parts - p.kerf;
		int64_t length = chance_int(c, 0, 2) ? chance_int(c, p.unit / 20, p.unit * 2 / 3)
		                                     : even + chance_int(c, -1, 1);

		p.pieces[i] = (struct pack_piece){ length > p.unit ? p.unit : length, 1 };
	}
	return p;
}

START_TEST(random_lists_take_as_few_units_as_glpk_finds)
{
	struct chance c =
	        chance_new(chance_seed("random_lists_take_as_few_units_as_glpk_finds", 4711));
	struct arena mem = { 0 };

	for (int i = 0; i < LISTS; i++) {
		struct packing p = random_list(&mem, &c);

		p.optimum = units_by_glpk(&p);
		check_solved(&p);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("packing");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(
	        tc, published_sets_are_solved_and_proven, 0, (int)(sizeof sets / sizeof *sets));
	tcase_add_test(tc, short_lists_with_a_kerf_are_solved_and_proven);
	tcase_add_test(tc, a_kerf_taken_off_all_lengths_changes_nothing);
	tcase_add_test(tc, random_lists_take_as_few_units_as_glpk_finds);
	return suite_run("cutting from units against published sets and GLPK", tc);
}
