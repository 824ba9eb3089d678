/* The laying told course by course, and what cut slabs leave. */
#include "../oracle/random_plan.h"
#include "json_read.h"
#include "plans.h"
#include "suite.h"

#include "slabwright/sawing.h"
#include "slabwright/sheet.h"

#include <stdlib.h>
#include <string.h>

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

struct sum {
	int64_t whole, pieces, runs;
	int64_t course, next; /* of the run before */
};

static void add_run(void *context, const struct laid_run *run)
{
	struct sum *s = context;

	ck_assert(!s->runs || run->course > s->course ||
	          (run->course == s->course && run->first >= s->next - (run->piece != NULL)));
	s->runs++;
	s->course = run->course;
	s->next = run->last + 1;
	if (run->piece)
		s->pieces++;
	else
		s->whole += run->last - run->first + 1;
}

/* 6 m x 3 m in stretcher bond: ten whole in one course, a half, nine and a half in the next. */
START_TEST(courses_are_told_from_left_to_right)
{
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 3000, 0, 3000 });
	struct takeoff t = take_off_laid(&mem, &p);
	struct sum s = { 0 };
	char *text = NULL;
	size_t size;
	FILE *to = open_memstream(&text, &size);

	laid_runs(&t.laid.sections[0].laid, &t.laid.sections[0].frame_region, add_run, &s);
	ck_assert_int_eq(s.whole, 95);
	ck_assert_int_eq(s.pieces, 10);
	ck_assert_int_eq(s.runs, 5 + 5 * 3);
	ck_assert_int_eq(sheet_courses(to, &t, SHEET_TEXT, NULL), STATUS_OK);
	fclose(to);
	ck_assert_ptr_nonnull(
	        strstr(text, "course 0: 10 whole\n  course 1: piece 1, 9 whole, piece 2"));
	ck_assert_ptr_nonnull(
	        strstr(text, "piece 1: cut, 297 x 297 mm, course 1 slab -1, from cut slab"));
	ck_assert_ptr_nonnull(strstr(text, "      ............############\n"));
	ck_assert_ptr_nonnull(
	        strstr(text, "      saw 1: right across, 297 mm from the right edge; "));
	free(text);
}
END_TEST

/* Of rows and of coursed random bond every slab is told once, whatever the outline. */
START_TEST(runs_add_up_to_what_was_counted)
{
	static const int choices[] = { 0, 0, 1, BOND_CHOICES - 1 };
	struct chance c = chance_new(chance_seed("runs_add_up_to_what_was_counted", 91));

	for (int job = 0; job < 200; job++) {
		struct plan p = random_plan(&mem, &c, (enum outline_style)(job % STYLES));
		struct takeoff t;
		struct sum s = { 0 };

		random_bond(&c, &p.laying, choices[job % 4]);
		t = take_off_laid(&mem, &p);
		laid_runs(&t.laid.sections[0].laid, &t.laid.sections[0].frame_region, add_run, &s);
		ck_assert_int_eq(s.whole, t.laid.whole);
		ck_assert_int_eq(s.pieces, (int64_t)t.laid.piece_count);
		arena_reset(&mem);
	}
}
END_TEST

static struct box left_of(double kerf_mm, int count, const struct box *boxes)
{
	struct cut_stock stock = { .length_um = 600000, .width_um = 300000 };
	struct piece pieces[4];
	struct cut_place places[4];
	struct cut_source source = { .place = places, .count = count };
	struct box b;

	stock.kerf_um = (int64_t)(kerf_mm * 1000);
	for (int i = 0; i < count; i++) {
		pieces[i] = (struct piece){ .box = { boxes[i].x0 * 1000, boxes[i].y0 * 1000,
			                            boxes[i].x1 * 1000, boxes[i].y1 * 1000 } };
		places[i] = (struct cut_place){ .piece = (size_t)i };
	}
	b = cut_leftover(pieces, &stock, &source);
	return (struct box){ b.x0 / 1000, b.y0 / 1000, b.x1 / 1000, b.y1 / 1000 };
}

static void assert_box(struct box b, double x0, double y0, double x1, double y1)
{
	ck_assert_double_eq_tol(b.x0, x0, 1e-9);
	ck_assert_double_eq_tol(b.y0, y0, 1e-9);
	ck_assert_double_eq_tol(b.x1, x1, 1e-9);
	ck_assert_double_eq_tol(b.y1, y1, 1e-9);
}

START_TEST(the_largest_rectangle_is_left)
{
	const struct box strip = { 0, 0, 200, 300 };
	const struct box corner = { 0, 0, 200, 100 };
	const struct box middle = { 250, 100, 350, 200 };
	const struct box ends[] = { { 0, 0, 100, 300 }, { 500, 0, 600, 300 } };
	const struct box whole = { 0, 0, 600, 300 };

	assert_box(left_of(3, 1, &strip), 203, 0, 600, 300);
	assert_box(left_of(0, 1, &corner), 0, 100, 600, 300);
	assert_box(left_of(3, 1, &middle), 0, 0, 247, 300);
	assert_box(left_of(3, 2, ends), 103, 0, 497, 300);
	assert_box(left_of(3, 1, &whole), 0, 0, 0, 0);
}
END_TEST

START_TEST(a_turned_piece_leaves_the_other_side)
{
	const struct box b = { 0, 0, 200, 300 };
	struct cut_place p = { .turn = 180, .at = { 600, 300 } };
	struct box t = place_box(&b, &p);

	assert_box(t, 400, 0, 600, 300);
	p = (struct cut_place){ .turn = 90, .at = { 300, 0 } };
	assert_box(place_box(&b, &p), 0, 0, 300, 200);
	p = (struct cut_place){ .turn = 270, .at = { 0, 200 } };
	assert_box(place_box(&b, &p), 0, 0, 300, 200);
}
END_TEST

static char *written(const struct takeoff *t, bool courses, enum sheet_form form)
{
	char *text = NULL;
	size_t size;
	FILE *to = open_memstream(&text, &size);

	ck_assert_int_eq(courses ? sheet_courses(to, t, form, NULL) : sheet_cuts(to, t, form, NULL),
	        STATUS_OK);
	fclose(to);
	return text;
}

static int count_of(const char *text, const char *what)
{
	int n = 0;

	for (; (text = strstr(text, what)) != NULL; text++)
		n++;
	return n;
}

/* An L with a slanted end: a notched piece, slanted and straight cuts. As many cuts in each form of
 * both sheets as the orders have. */
START_TEST(every_form_tells_every_cut)
{
	struct plan p = plan_by_hand(
	        &mem, 6, (double[]){ 0, 0, 6070, 0, 5810, 3090, 2515, 3090, 2515, 2210, 0, 2210 });
	struct takeoff t = take_off_laid(&mem, &p);
	int cuts = 0, notches = 0, slabs = 0;

	for (size_t i = 0; i < t.cuts.slabs; i++) {
		struct cut_stock stock =
		        paving_stock(&t.laid, &t.plan.laying, t.cuts.sources[i].stock);
		struct saw_order order;

		ck_assert_int_eq(saw_order_make(&mem, t.laid.pieces, &stock, &t.cuts.sources[i],
		                         &order, NULL),
		        STATUS_OK);
		cuts += (int)order.count;
		slabs += order.count > 0;
		for (size_t k = 0; k < order.count; k++)
			notches += order.cuts[k].kind == SAW_NOTCH;
	}
	ck_assert_int_gt(notches, 0);
	ck_assert_int_gt(cuts, slabs);
	for (int courses = 0; courses < 2; courses++) {
		char *text = written(&t, courses, SHEET_TEXT);
		char *csv = written(&t, courses, SHEET_CSV);
		char *json = written(&t, courses, SHEET_JSON);

		ck_assert_int_eq(
		        count_of(text, " saw ") - count_of(text, ": saw in this order"), cuts);
		ck_assert_int_eq(count_of(text, "cuts that meet"), notches);
		ck_assert_int_gt(count_of(text, " along the bottom edge to "), 0);
		ck_assert_int_eq(count_of(csv, "MULTILINESTRING ("), slabs);
		ck_assert_int_eq(count_of(csv, "(") - 2 * count_of(csv, "POLYGON") -
		                         count_of(csv, "MULTILINESTRING"),
		        cuts);
		ck_assert(json_is_valid(json));
		ck_assert_int_eq(count_of(json, "\"across\"") + count_of(json, "\"notch\""), cuts);
		ck_assert_int_eq(json_length(json, courses ? "$.cut_slabs" : "$.sources"),
		        (int)t.cuts.slabs);
		free(text);
		free(csv);
		free(json);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("courses");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, courses_are_told_from_left_to_right);
	tcase_add_test(tc, runs_add_up_to_what_was_counted);
	tcase_add_test(tc, every_form_tells_every_cut);
	tcase_add_test(tc, the_largest_rectangle_is_left);
	tcase_add_test(tc, a_turned_piece_leaves_the_other_side);
	return suite_run("courses and leftovers", tc);
}
