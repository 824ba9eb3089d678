/* Rectangles from sheets by cuts from edge to edge: hand cases, refusals, the iterator. */
#include "chance.h"
#include "oracle/cuts.h"
#include "suite.h"

#include "slabwright/units.h"

#include <string.h>

enum { WORK = 200000 };

static struct guillotine_stock sheet(int64_t length, int64_t width, int64_t kerf)
{
	return (struct guillotine_stock){ length * UM_PER_MM, width * UM_PER_MM, kerf * UM_PER_MM };
}

static struct guillotine_piece piece(int64_t length, int64_t width, size_t count, bool turns)
{
	return (struct guillotine_piece){ length * UM_PER_MM, width * UM_PER_MM, count, turns };
}

/* The plan after a while, checked. */
static struct guillotine_plan plan_for(struct arena *mem, struct guillotine_stock stock,
        const struct guillotine_piece *pieces, size_t count)
{
	struct guillotine *g;
	struct guillotine_plan plan;
	struct error err = { 0 };
	const char *fault;

	ck_assert_msg(guillotine_begin(mem, &stock, pieces, count, 1, &g, &err) == STATUS_OK, "%s",
	        err.text);
	guillotine_step(g, WORK);
	ck_assert_int_eq(guillotine_best(g, mem, &plan, &err), STATUS_OK);
	fault = cuts_fault(&stock, pieces, count, &plan);
	ck_assert_msg(!fault, "%s", fault);
	ck_assert_uint_eq(plan.sheet_count, guillotine_sheets(g));
	ck_assert_uint_eq(plan.bound, guillotine_bound(g));
	return plan;
}

START_TEST(two_halves_come_from_one_slab_only_without_a_kerf)
{
	struct arena mem = { 0 };
	struct guillotine_piece halves = piece(300, 300, 2, false),
	                        less = piece(298, 300, 2, false);
	struct guillotine_plan plan;

	plan = plan_for(&mem, sheet(600, 300, 0), &halves, 1);
	ck_assert_uint_eq(plan.sheet_count, 1);
	ck_assert_uint_eq(plan.part_count, 3);
	ck_assert(plan.parts[plan.sheets[0]].upright);
	ck_assert_int_eq(plan.parts[plan.sheets[0]].cut_um, 300 * UM_PER_MM);
	plan = plan_for(&mem, sheet(600, 300, 3), &halves, 1);
	ck_assert_uint_eq(plan.sheet_count, 2);
	ck_assert_uint_eq(plan.bound, 2);
	plan = plan_for(&mem, sheet(600, 300, 3), &less, 1);
	ck_assert_uint_eq(plan.sheet_count, 1);
	plan = plan_for(&mem, sheet(600, 300, 5), &less, 1);
	ck_assert_uint_eq(plan.sheet_count, 2);
	arena_free(&mem);
}
END_TEST

START_TEST(what_is_thinner_than_the_kerf_goes_with_the_cut)
{
	struct arena mem = { 0 };
	struct guillotine_piece nearly = piece(599, 300, 1, false);
	struct guillotine_plan plan = plan_for(&mem, sheet(600, 300, 3), &nearly, 1);

	ck_assert_uint_eq(plan.part_count, 2);
	ck_assert_int_eq(plan.parts[plan.sheets[0]].cut_um, 599 * UM_PER_MM);
	ck_assert(plan.parts[plan.sheets[0]].second == GUILLOTINE_NONE);
	arena_free(&mem);
}
END_TEST

START_TEST(turning_saves_a_sheet_only_where_it_is_allowed)
{
	struct arena mem = { 0 };
	struct guillotine_piece lying = piece(300, 200, 3, false),
	                        turning = piece(300, 200, 3, true);
	struct guillotine_plan plan = plan_for(&mem, sheet(600, 300, 0), &lying, 1);
	size_t turned = 0;

	ck_assert_uint_eq(plan.sheet_count, 2);
	ck_assert_uint_eq(plan.bound, 2);
	plan = plan_for(&mem, sheet(600, 300, 0), &turning, 1);
	ck_assert_uint_eq(plan.sheet_count, 1);
	for (size_t i = 0; i < plan.part_count; i++)
		turned += plan.parts[i].piece == 0 && plan.parts[i].turned;
	ck_assert_uint_eq(turned, 3);
	arena_free(&mem);
}
END_TEST

START_TEST(a_piece_that_fits_only_turned_is_turned)
{
	struct arena mem = { 0 };
	struct guillotine_piece tall = piece(200, 500, 1, true);
	struct guillotine_plan plan = plan_for(&mem, sheet(600, 300, 3), &tall, 1);

	ck_assert_uint_eq(plan.sheet_count, 1);
	ck_assert(plan.parts[plan.part_count - 1].turned || plan.parts[plan.part_count - 2].turned);
	arena_free(&mem);
}
END_TEST

/* Four pieces around a fifth cover the sheet, but no cut goes from edge to edge. */
START_TEST(a_pinwheel_takes_two_sheets)
{
	struct arena mem = { 0 };
	struct guillotine_piece pieces[] = { piece(200, 100, 2, false), piece(100, 200, 2, false),
		piece(100, 100, 1, false) };
	struct guillotine_plan plan = plan_for(&mem, sheet(300, 300, 0), pieces, 3);

	ck_assert_uint_eq(plan.sheet_count, 2);
	ck_assert_uint_eq(plan.bound, 1);
	arena_free(&mem);
}
END_TEST

/* By area two sheets would do, and four pieces may turn as they like: no two fit together. */
START_TEST(pieces_that_cannot_share_prove_the_bound)
{
	struct arena mem = { 0 };
	struct guillotine_piece pieces[] = { piece(400, 160, 2, true), piece(310, 170, 2, true) };
	struct guillotine_plan plan = plan_for(&mem, sheet(600, 300, 0), pieces, 2);

	ck_assert_uint_eq(plan.sheet_count, 4);
	ck_assert_uint_eq(plan.bound, 4);
	ck_assert_msg(strncmp(plan.reason, "area", 4) != 0, "%s", plan.reason);
	arena_free(&mem);
}
END_TEST

START_TEST(nothing_to_cut_takes_no_sheet)
{
	struct arena mem = { 0 };
	struct guillotine_piece none = piece(100, 100, 0, true);
	struct guillotine_stock stock = sheet(600, 300, 3);
	struct guillotine *g;
	struct guillotine_plan plan;

	for (size_t count = 0; count < 2; count++) {
		ck_assert_int_eq(
		        guillotine_begin(&mem, &stock, &none, count, 1, &g, NULL), STATUS_OK);
		ck_assert(!guillotine_step(g, WORK));
		ck_assert_int_eq(guillotine_best(g, &mem, &plan, NULL), STATUS_OK);
		ck_assert_uint_eq(plan.sheet_count, 0);
		ck_assert_uint_eq(plan.bound, 0);
		ck_assert_uint_eq(plan.part_count, 0);
	}
	arena_free(&mem);
}
END_TEST

START_TEST(what_cannot_be_cut_is_refused_by_name)
{
	static const struct {
		struct guillotine_stock stock;
		struct guillotine_piece pieces[2];
		const char *says;
	} cases[] = {
		{ { 0, 300000, 0 }, { { 1000, 1000, 1, true } }, "sheet" },
		{ { 600000, -1, 0 }, { { 1000, 1000, 1, true } }, "sheet" },
		{ { 600000, 1000000001, 0 }, { { 1000, 1000, 1, true } }, "sheet" },
		{ { 600000, 300000, -1 }, { { 1000, 1000, 1, true } }, "kerf" },
		{ { 600000, 300000, 0 }, { { 1000, 1000, 1, true }, { 0, 1000, 1, true } },
		        "piece 2" },
		{ { 600000, 300000, 0 }, { { 1000, 1000, 1, true }, { 600001, 1000, 1, true } },
		        "piece 2, 600001 by 1000 um, does not fit" },
		{ { 600000, 300000, 0 }, { { 300000, 600000, 1, false } },
		        "unless it may be turned" },
		{ { 600000, 300000, 0 },
		        { { 1000, 1000, GUILLOTINE_MOST_PIECES, true }, { 1000, 1000, 1, true } },
		        "over 20000 pieces" },
		{ { 600000, 300000, 0 }, { { 1000, 1000, SIZE_MAX, true } }, "over 20000 pieces" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		size_t count = cases[i].pieces[1].count ? 2 : 1;
		struct arena mem = { 0 };
		struct guillotine *g;
		struct error err = { 0 };

		ck_assert_int_eq(guillotine_begin(&mem, &cases[i].stock, cases[i].pieces, count, 1,
		                         &g, &err),
		        STATUS_PLAN);
		ck_assert_msg(strstr(err.text, cases[i].says), "case %zu: %s", i, err.text);
		arena_free(&mem);
	}
}
END_TEST

/* Pieces of a patio: a few hundred at most, from 10 mm up. */
static size_t patio_pieces(uint64_t seed, struct guillotine_piece *pieces, size_t count)
{
	struct chance c = chance_new(seed);

	for (size_t i = 0; i < count; i++)
		pieces[i] = (struct guillotine_piece){ chance_int(&c, 10000, 300000),
			chance_int(&c, 10000, 200000), 1, chance_int(&c, 0, 1) };
	return count;
}

static void same_parts(const struct guillotine_plan *a, const struct guillotine_plan *b)
{
	ck_assert_uint_eq(a->part_count, b->part_count);
	for (size_t k = 0; k < a->part_count; k++) {
		ck_assert_uint_eq(a->parts[k].piece, b->parts[k].piece);
		ck_assert_int_eq(a->parts[k].x_um, b->parts[k].x_um);
		ck_assert_int_eq(a->parts[k].y_um, b->parts[k].y_um);
		ck_assert_int_eq(a->parts[k].cut_um, b->parts[k].cut_um);
	}
}

/* Searches in small slices and, for each better plan, in slices of one unit; how many better plans
 * there were. */
static size_t search_in_slices(uint64_t seed)
{
	enum { PIECES = 60, SLICES = 100 };
	struct arena mem = { 0 };
	struct guillotine_stock stock = sheet(600, 300, 3);
	struct guillotine_piece pieces[PIECES];
	size_t count = patio_pieces(seed, pieces, PIECES), sheets, better = 0;
	struct guillotine *slow, *fast;
	struct guillotine_plan a, b;

	guillotine_begin(&mem, &stock, pieces, count, seed, &slow, NULL);
	guillotine_begin(&mem, &stock, pieces, count, seed, &fast, NULL);
	sheets = guillotine_sheets(fast);
	for (int i = 0; i < SLICES; i++) {
		size_t bound = guillotine_bound(fast);

		guillotine_step(fast, 5000);
		ck_assert_uint_le(guillotine_sheets(fast), sheets);
		ck_assert_uint_ge(guillotine_bound(fast), bound);
		if (guillotine_sheets(fast) == sheets)
			continue;
		sheets = guillotine_sheets(fast);
		while (guillotine_sheets(slow) > sheets)
			guillotine_step(slow, 1);
		guillotine_best(fast, &mem, &a, NULL);
		guillotine_best(slow, &mem, &b, NULL);
		ck_assert_ptr_null(cuts_fault(&stock, pieces, count, &a));
		same_parts(&a, &b);
		better++;
	}
	arena_free(&mem);
	return better;
}

START_TEST(the_search_only_gets_better_and_slices_do_not_matter)
{
	size_t better = 0;

	for (uint64_t seed = 1; seed <= 40; seed++)
		better += search_in_slices(seed);
	ck_assert_uint_ge(better, 3);
}
END_TEST

START_TEST(a_plan_outlives_its_job)
{
	enum { PIECES = 100 };
	struct arena job = { 0 }, mem = { 0 };
	struct guillotine_stock stock = sheet(600, 300, 3);
	struct guillotine_piece pieces[PIECES];
	size_t count = patio_pieces(1, pieces, PIECES);
	struct guillotine *g;
	struct guillotine_plan plan;

	guillotine_begin(&job, &stock, pieces, count, 1, &g, NULL);
	ck_assert_int_eq(guillotine_best(g, &mem, &plan, NULL), STATUS_OK);
	arena_free(&job);
	ck_assert_ptr_null(cuts_fault(&stock, pieces, count, &plan));
	ck_assert_uint_gt(plan.sheet_count, 1);
	arena_free(&mem);
}
END_TEST

START_TEST(the_largest_sheets_and_kerfs_do_not_overflow)
{
	struct arena mem = { 0 };
	struct guillotine_stock stock = { 1000000000, 1000000000, 1000000000 };
	struct guillotine_piece pieces[] = { { 1000000000, 1000000000, 3, true },
		{ 1, 1, 2, true } };
	struct guillotine *g;
	struct guillotine_plan plan;

	ck_assert_int_eq(guillotine_begin(&mem, &stock, pieces, 2, 1, &g, NULL), STATUS_OK);
	guillotine_step(g, WORK);
	guillotine_best(g, &mem, &plan, NULL);
	ck_assert_ptr_null(cuts_fault(&stock, pieces, 2, &plan));
	ck_assert_uint_eq(plan.sheet_count, 5);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("guillotine");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, two_halves_come_from_one_slab_only_without_a_kerf);
	tcase_add_test(tc, what_is_thinner_than_the_kerf_goes_with_the_cut);
	tcase_add_test(tc, turning_saves_a_sheet_only_where_it_is_allowed);
	tcase_add_test(tc, a_piece_that_fits_only_turned_is_turned);
	tcase_add_test(tc, a_pinwheel_takes_two_sheets);
	tcase_add_test(tc, pieces_that_cannot_share_prove_the_bound);
	tcase_add_test(tc, nothing_to_cut_takes_no_sheet);
	tcase_add_test(tc, what_cannot_be_cut_is_refused_by_name);
	tcase_add_test(tc, the_search_only_gets_better_and_slices_do_not_matter);
	tcase_add_test(tc, a_plan_outlives_its_job);
	tcase_add_test(tc, the_largest_sheets_and_kerfs_do_not_overflow);
	return suite_run("cutting rectangles from edge to edge", tc);
}
