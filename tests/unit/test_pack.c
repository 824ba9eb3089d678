/* Cutting from units of one length, on lists whose answers can be worked out on paper. */
#include "chance.h"
#include "oracle/packing_data.h"
#include "suite.h"

#include <string.h>

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

/* A list of single pieces, um; it ends at the first 0. */
static struct packing list_of(int64_t unit, int64_t kerf, const int64_t *lengths)
{
	struct packing p = { .name = "list", .unit = unit, .kerf = kerf };

	while (lengths[p.count])
		p.count++;
	p.pieces = arena_alloc(&mem, p.count, sizeof *p.pieces);
	for (size_t i = 0; i < p.count; i++)
		p.pieces[i] = (struct pack_piece){ lengths[i], 1 };
	return p;
}

#define LIST(unit, kerf, ...) list_of(unit, kerf, (const int64_t[]){ __VA_ARGS__, 0 })

static struct pack_plan solve(const struct packing *p)
{
	struct pack_plan plan = packing_solve(&mem, p, 1000000000);
	const char *fault = packing_fault(p, &plan);

	ck_assert_msg(!fault, "%s", fault);
	return plan;
}

static struct pack *begin(const struct packing *p)
{
	struct pack *pack;

	ck_assert_int_eq(
	        pack_begin(&mem, p->pieces, p->count, p->unit, p->kerf, &pack, NULL), STATUS_OK);
	return pack;
}

static void check_units(struct packing p, size_t units)
{
	struct pack_plan plan = solve(&p);

	ck_assert_uint_eq(plan.unit_count, units);
	ck_assert_uint_eq(plan.bound, units);
	ck_assert(plan.done);
}

START_TEST(the_blade_takes_its_kerf_between_two_pieces_only)
{
	check_units(LIST(1000, 3, 499, 498), 1); /* 499 + 3 + 498 */
	check_units(LIST(1000, 3, 499, 499), 2);
	check_units(LIST(1000, 3, 1000), 1); /* a whole unit is not cut */
	check_units(LIST(1000, 3, 998, 1), 2);
	check_units(LIST(1000, 0, 500, 500), 1);
	check_units(LIST(1000, 100, 266, 266, 267), 1); /* ends with the unit: two cuts */
	check_units(LIST(1000, 100, 267, 267, 267), 2);
	check_units(LIST(10, 1000, 1, 1, 1), 3); /* a blade wider than the unit */
}
END_TEST

START_TEST(nothing_to_cut_takes_no_units)
{
	struct pack_piece none = { 500, 0 };
	struct packing p = { "none", 1000, 3, NULL, 0, 0 };
	struct pack_plan plan = solve(&p);

	ck_assert_uint_eq(plan.unit_count, 0);
	ck_assert_str_eq(plan.reason, "there is nothing to cut");
	p.pieces = &none;
	p.count = 1;
	plan = solve(&p);
	ck_assert_uint_eq(plan.unit_count, 0);
	ck_assert(plan.done);
}
END_TEST

/* First fit, longest first, takes 6 + 5, 4 + 4 + 3 and 2; and 50 + 40, 34 + 33 + 33, 32 + 30 + 28,
 * 20. */
START_TEST(better_than_first_fit_where_that_is_possible)
{
	check_units(LIST(12, 0, 6, 5, 4, 4, 3, 2), 2); /* 6 + 4 + 2, 5 + 4 + 3 */
	/* 50 + 30 + 20, 40 + 32 + 28, 34 + 33 + 33 */
	check_units(LIST(100, 0, 50, 40, 34, 33, 33, 32, 30, 28, 20), 3);
}
END_TEST

START_TEST(counts_are_pieces)
{
	struct pack_piece pieces[] = { { 300, 5 }, { 200, 0 }, { 400, 4 }, { 300, 3 } };
	struct packing p = { "counts", 1000, 0, pieces, 4, 0 };
	struct pack_plan plan = solve(&p);

	/* 4 x (400 + 300 + 300) */
	ck_assert_uint_eq(plan.unit_count, 4);
	ck_assert_uint_eq(plan.bound, 4);
}
END_TEST

START_TEST(units_show_the_longest_pieces_first)
{
	struct packing p = LIST(1000, 0, 100, 600, 300, 700, 300);
	struct pack_plan plan = solve(&p);

	ck_assert_uint_eq(plan.unit_count, 2);
	ck_assert_uint_eq(plan.piece[0], 3); /* 700 + 300 */
	ck_assert_uint_eq(plan.piece[1], 2);
	ck_assert_uint_eq(plan.piece[2], 1); /* 600 + 300 + 100 */
	ck_assert_uint_eq(plan.piece[3], 4);
	ck_assert_uint_eq(plan.piece[4], 0);
}
END_TEST

START_TEST(each_reason_is_given_where_it_proves)
{
	struct packing even = LIST(10, 0, 5, 5), longs = LIST(10, 0, 6, 6, 6);
	/* Fieldhouse's list (1990): units in fractions would come to 1.962, yet 3 are needed. */
	struct packing search = LIST(132, 0, 44, 44, 33, 33, 33, 12, 12, 12, 12, 12, 12);

	ck_assert(strstr(solve(&even).reason, "length: ") != NULL);
	ck_assert(strstr(solve(&longs).reason, "long pieces: ") != NULL);
	ck_assert_uint_eq(solve(&search).bound, 3);
	ck_assert(strstr(solve(&search).reason, "search: ") != NULL);
}
END_TEST

static void check_refused(struct packing p, const char *words)
{
	struct pack *pack;
	struct error err;

	ck_assert_int_eq(
	        pack_begin(&mem, p.pieces, p.count, p.unit, p.kerf, &pack, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);
}

START_TEST(what_cannot_be_cut_is_refused_by_name)
{
	struct pack_piece many[] = { { 1, 600000 }, { 2, 600000 } };

	check_refused(LIST(1000, 3, 500, 1001), "piece 2: 1001 um long, but its unit is 1000 um");
	check_refused(LIST(1000, 3, -5), "piece 1: -5 um long");
	check_refused(LIST(0, 3, 5), "unit: 0 um");
	check_refused(LIST(PACK_LONGEST_UM + 1, 3, 5), "unit: ");
	check_refused(LIST(1000, -1, 5), "kerf: -1 um");
	check_refused((struct packing){ "many", 1000, 0, many, 2, 0 },
	        "piece 2: more than 1000000 pieces");
}
END_TEST

/* Lengths of a fifth to two fifths of a unit, which no quick plan packs as well as can be. */
static struct packing long_list(void)
{
	struct chance c = chance_new(99);
	struct packing p = { "long", 1000000, 3000, NULL, 120, 0 };

	p.pieces = arena_alloc(&mem, p.count, sizeof *p.pieces);
	for (size_t i = 0; i < p.count; i++)
		p.pieces[i] = (struct pack_piece){ chance_int(&c, 200000, 400000), 1 };
	return p;
}

START_TEST(the_best_so_far_is_sound_and_only_gets_better)
{
	struct packing p = long_list();
	struct pack *pack = begin(&p);
	size_t units = pack_units(pack), bound = pack_bound(pack), first = units - bound;

	ck_assert_uint_gt(first, 0); /* or there is nothing to see here */
	for (int i = 0; i < 3000 && !pack_done(pack); i++) {
		struct pack_plan plan;
		const char *fault;

		ck_assert_int_eq(pack_step(pack, 20000, NULL), STATUS_OK);
		ck_assert_uint_le(pack_units(pack), units);
		ck_assert_uint_ge(pack_bound(pack), bound);
		units = pack_units(pack);
		bound = pack_bound(pack);
		if (i % 50 && !pack_done(pack))
			continue;
		ck_assert_int_eq(pack_best(pack, &plan, NULL), STATUS_OK);
		fault = packing_fault(&p, &plan);
		ck_assert_msg(!fault, "%s", fault);
		ck_assert_uint_eq(plan.unit_count, units);
	}
	ck_assert_uint_lt(units - bound, first);
}
END_TEST

START_TEST(the_size_of_the_slices_does_not_matter)
{
	struct packing p = long_list();
	struct pack *small = begin(&p), *large = begin(&p);
	struct pack_plan a, b;

	for (int i = 0; i < 20000 && !pack_done(small); i++)
		pack_step(small, 1000, NULL);
	for (int i = 0; i < 200 && !pack_done(large); i++)
		pack_step(large, 10000000, NULL);
	ck_assert(pack_done(small) && pack_done(large));
	ck_assert_int_eq(pack_best(small, &a, NULL), STATUS_OK);
	ck_assert_int_eq(pack_best(large, &b, NULL), STATUS_OK);
	ck_assert_uint_eq(a.unit_count, b.unit_count);
	ck_assert_mem_eq(a.piece, b.piece, p.count * sizeof *a.piece);
	/* and a step more changes nothing */
	ck_assert_int_eq(pack_step(small, 1000000, NULL), STATUS_OK);
	ck_assert_uint_eq(pack_units(small), a.unit_count);
}
END_TEST

/* Many kinds of many pieces get a sound plan at once. */
START_TEST(large_lists_are_planned_too)
{
	struct chance c = chance_new(5);
	struct packing p = { "large", 3000000, 3000, NULL, 3000, 0 };
	struct pack_plan plan;
	const char *fault;

	p.pieces = arena_alloc(&mem, p.count, sizeof *p.pieces);
	for (size_t i = 0; i < p.count; i++)
		p.pieces[i] = (struct pack_piece){ chance_int(&c, 1000000, 2900000),
			(size_t)chance_int(&c, 0, 3) };
	plan = packing_solve(&mem, &p, 10000000);
	fault = packing_fault(&p, &plan);
	ck_assert_msg(!fault, "%s", fault);
	ck_assert_uint_gt(plan.bound, 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("packing");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, the_blade_takes_its_kerf_between_two_pieces_only);
	tcase_add_test(tc, nothing_to_cut_takes_no_units);
	tcase_add_test(tc, better_than_first_fit_where_that_is_possible);
	tcase_add_test(tc, counts_are_pieces);
	tcase_add_test(tc, units_show_the_longest_pieces_first);
	tcase_add_test(tc, each_reason_is_given_where_it_proves);
	tcase_add_test(tc, what_cannot_be_cut_is_refused_by_name);
	tcase_add_test(tc, the_best_so_far_is_sound_and_only_gets_better);
	tcase_add_test(tc, the_size_of_the_slices_does_not_matter);
	tcase_add_test(tc, large_lists_are_planned_too);
	return suite_run("cutting from units", tc);
}
