/* The levelling book: faults named by line, a random walk that reduces back, spreading, and the
 * instrument it leaves. */
#include "slabwright/levelling.h"

#include "chance.h"
#include "plans.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define NO NO_READING
#define MM UM_PER_MM

static struct arena mem;

static struct plan_reading reading(int64_t back, int64_t between, int64_t fore)
{
	return (struct plan_reading){
		.name = "p", .backsight_um = back, .intermediate_um = between, .foresight_um = fore
	};
}

static const struct {
	struct plan_reading lines[4];
	size_t count;
	const char *said;
} faults[] = {
	{ { { 0 } }, 0, "has no lines" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO } }, 1,
	        "has one line only" },
	{ { { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        2, "line 1 of the book: it needs a backsight" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = 2 },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        2, "line 1 of the book: it needs a backsight and nothing else" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = 1, .foresight_um = NO } },
	        2, "line 2 of the book: the last line needs a foresight" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = 2, .intermediate_um = NO, .foresight_um = 1 } },
	        2, "line 2 of the book: the last line needs a foresight and nothing else" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 5 },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        3, "line 2 of the book: a foresight without a backsight" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = 5, .foresight_um = NO },
	          { .backsight_um = 7, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        4, "line 3 of the book: a backsight without a foresight" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        3, "line 2 of the book: no reading" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = 4, .intermediate_um = 5, .foresight_um = 6 },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        3, "line 2 of the book: an intermediate sight beside" },
	{ { { .backsight_um = 1, .intermediate_um = NO, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = 100000001, .foresight_um = NO },
	          { .backsight_um = NO, .intermediate_um = NO, .foresight_um = 1 } },
	        3, "line 2 of the book: no staff reads" },
};

START_TEST(a_faulty_line_is_named_with_its_remedy)
{
	struct plan_reading lines[4];
	struct plan_book b = { .readings = lines, .count = faults[_i].count };
	struct book_result r;
	struct error err = { 0 };

	memcpy(lines, faults[_i].lines, sizeof lines);
	ck_assert_int_eq(book_reduce(&mem, &b, &r, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, faults[_i].said) != NULL, "%s", err.text);
}
END_TEST

/* A walk over random levels with random instruments, some points sighted in passing, some
 * overhead. */
static size_t walk(struct chance *c, struct plan_reading *lines, int64_t *levels, size_t most)
{
	int64_t height;
	size_t n = 1;

	levels[0] = chance_int(c, -5000, 5000) * 997;
	height = levels[0] + chance_int(c, 0, 4000) * 1003;
	lines[0] = reading(height - levels[0], NO, NO);
	while (n < most) {
		levels[n] = height - chance_int(c, -2000, 4000) * 1001;
		if (n + 1 == most) {
			lines[n] = reading(NO, NO, height - levels[n]);
		} else if (chance_int(c, 0, 2)) {
			lines[n] = reading(NO, height - levels[n], NO);
		} else {
			int64_t next = levels[n] + chance_int(c, 0, 4000) * 999;

			lines[n] = reading(next - levels[n], NO, height - levels[n]);
			height = next;
		}
		n++;
	}
	return n;
}

START_TEST(a_walk_over_random_levels_reduces_back_to_them)
{
	struct chance c = chance_new(chance_seed("levelling", 3));

	for (int round = 0; round < 500 / ONE_OF; round++) {
		struct plan_reading lines[60];
		int64_t levels[60], off = chance_int(&c, -30000, 30000);
		size_t n = walk(&c, lines, levels, (size_t)chance_int(&c, 2, 60));
		struct plan_book b = { .readings = lines,
			.count = n,
			.start_um = levels[0],
			.has_close = true,
			.close_um = levels[n - 1] - off,
			.allow_um = 5000 };
		struct book_result r;
		struct error err = { 0 };

		ck_assert_msg(book_reduce(&mem, &b, &r, &err) == STATUS_OK, "%s", err.text);
		ck_assert(r.checks);
		ck_assert_int_eq(r.misclosure_um, off);
		ck_assert_int_eq(
		        r.within, (double)llabs(off) <= 5000 * sqrt((double)r.set_up_count));
		for (size_t i = 0; i < n; i++)
			ck_assert_int_eq(r.lines[i].level_um, levels[i]);
		b.adjust = true;
		ck_assert_int_eq(book_reduce(&mem, &b, &r, &err), STATUS_OK);
		ck_assert_int_eq(r.lines[0].level_um, levels[0]);
		ck_assert_int_eq(r.lines[n - 1].level_um, b.close_um);
		for (size_t i = 1; i < n; i++)
			ck_assert_double_eq_tol((double)r.lines[i].correction_um,
			        -(double)off * (double)(r.lines[i].set_up + 1) /
			                (double)r.set_up_count,
			        0.51);
		arena_free(&mem);
	}
}
END_TEST

/* From level 100.000: 1.500 back, 1.200 between, 0.900 fore and 1.100 back, 1.400 fore. */
static struct plan_reading small[] = {
	{ .name = "BM", .backsight_um = 1500 * MM, .intermediate_um = NO, .foresight_um = NO },
	{ .name = "a",
	        .backsight_um = NO,
	        .intermediate_um = 1200 * MM,
	        .foresight_um = NO,
	        .has_place = true,
	        .x_um = 7,
	        .y_um = 8 },
	{ .name = "cp",
	        .backsight_um = 1100 * MM,
	        .intermediate_um = NO,
	        .foresight_um = 900 * MM },
	{ .name = "end",
	        .backsight_um = NO,
	        .intermediate_um = NO,
	        .foresight_um = 1400 * MM,
	        .has_place = true },
};

static struct plan_book small_book(void)
{
	return (struct plan_book){ small, 4, 100000 * MM, true, 100290 * MM, 10 * MM, true };
}

START_TEST(a_small_book_comes_out_as_by_hand)
{
	struct plan_book b = small_book();
	struct book_result r;

	ck_assert_int_eq(book_reduce(&mem, &b, &r, NULL), STATUS_OK);
	ck_assert_int_eq(r.lines[0].height_um, 101500 * MM);
	ck_assert_int_eq(r.lines[1].reduced_um, 100300 * MM);
	ck_assert_int_eq(r.lines[1].rise_um, 300 * MM);
	ck_assert_int_eq(r.lines[2].reduced_um, 100600 * MM);
	ck_assert_int_eq(r.lines[2].height_um, 101700 * MM);
	ck_assert_int_eq(r.lines[3].reduced_um, 100300 * MM);
	ck_assert_int_eq(r.lines[3].rise_um, -300 * MM);
	ck_assert_int_eq(r.rises_um, 600 * MM);
	ck_assert_int_eq(r.falls_um, 300 * MM);
	ck_assert_int_eq(r.misclosure_um, 10 * MM);
	ck_assert(r.within);
	ck_assert_int_eq(r.lines[1].level_um, 100295 * MM);
	ck_assert_int_eq(r.lines[2].level_um, 100595 * MM);
	ck_assert_int_eq(r.lines[3].level_um, 100290 * MM);
	arena_free(&mem);
}
END_TEST

START_TEST(a_book_that_closes_on_nothing_is_not_spread)
{
	struct plan_book b = small_book();
	struct book_result r;

	b.has_close = false;
	ck_assert_int_eq(book_reduce(&mem, &b, &r, NULL), STATUS_OK);
	ck_assert(!r.spread && r.within && !r.has_close);
	ck_assert_int_eq(r.lines[3].level_um, 100300 * MM);
	arena_free(&mem);
}
END_TEST

START_TEST(readings_with_a_place_are_levels_of_the_ground)
{
	struct plan_book b = small_book();
	struct plan_spot *spots;
	struct book_result r;
	size_t count;

	ck_assert_int_eq(book_reduce(&mem, &b, &r, NULL), STATUS_OK);
	ck_assert_int_eq(book_spots(&mem, &r, &spots, &count, NULL), STATUS_OK);
	ck_assert_uint_eq(count, 2);
	ck_assert_str_eq(spots[0].name, "a");
	ck_assert_int_eq(spots[0].x_um, 7);
	ck_assert_int_eq(spots[0].y_um, 8);
	ck_assert_int_eq(spots[0].level_um, 100295 * MM);
	ck_assert_int_eq(spots[1].level_um, 100290 * MM);
	arena_free(&mem);
}
END_TEST

/* The last set-up stands on the change point, whose level was corrected by 5 mm; what is sighted
 * from there is corrected by 10, and so is the instrument. */
START_TEST(levels_take_their_instrument_from_the_book)
{
	struct worked w;

	worked_rectangle(&w, UM_PER_M, UM_PER_M);
	worked_set_fall(&w, 100290 * MM, 0, 0);
	w.plan.site.book = small_book();
	work_out_plan(&w);
	ck_assert(w.t.plan.ground.has_instrument);
	ck_assert_int_eq(w.t.plan.ground.benchmark_um, 100590 * MM);
	ck_assert_int_eq(w.t.plan.ground.backsight_um, 1100 * MM);
	ck_assert(w.t.surface.points[0].has_staff);
	ck_assert_double_eq_tol(w.t.surface.points[0].staff_um, 1400e3, 1e-6);
	ck_assert(!w.plan.ground.has_instrument);
	worked_done(&w);
}
END_TEST

START_TEST(an_instrument_of_the_plan_comes_before_that_of_the_book)
{
	struct worked w;

	worked_rectangle(&w, UM_PER_M, UM_PER_M);
	worked_set_fall(&w, 0, 0, 0);
	w.plan.site.book = small_book();
	w.plan.ground.has_instrument = true;
	w.plan.ground.backsight_um = 1234 * MM;
	work_out_plan(&w);
	ck_assert_double_eq_tol(w.t.surface.points[0].staff_um, 1234e3, 1e-6);
	worked_done(&w);
}
END_TEST

START_TEST(a_faulty_book_gives_no_instrument)
{
	struct worked w;

	worked_rectangle(&w, UM_PER_M, UM_PER_M);
	worked_set_fall(&w, 0, 0, 0);
	w.plan.site.book = small_book();
	w.plan.site.book.count = 3;
	work_out_plan(&w);
	ck_assert(!w.t.surface.points[0].has_staff);
	worked_done(&w);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("levelling");

	tcase_add_loop_test(tc, a_faulty_line_is_named_with_its_remedy, 0,
	        (int)(sizeof faults / sizeof *faults));
	tcase_add_test(tc, a_walk_over_random_levels_reduces_back_to_them);
	tcase_add_test(tc, a_small_book_comes_out_as_by_hand);
	tcase_add_test(tc, a_book_that_closes_on_nothing_is_not_spread);
	tcase_add_test(tc, readings_with_a_place_are_levels_of_the_ground);
	tcase_add_test(tc, levels_take_their_instrument_from_the_book);
	tcase_add_test(tc, an_instrument_of_the_plan_comes_before_that_of_the_book);
	tcase_add_test(tc, a_faulty_book_gives_no_instrument);
	return suite_run("levelling", tc);
}
