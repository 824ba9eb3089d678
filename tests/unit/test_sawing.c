/* In which order the saw takes pieces out of a slab, by hand. That a notch is cut from the edge by
 * two cuts that meet and the kerf lies in the waste is common practice, no source. Every order is
 * carried out with GEOS as well. */
#include "hand_pieces.h"
#include "oracle/random_plan.h"
#include "oracle/saw_steps.h"
#include "suite.h"

#include <math.h>

static struct arena mem;
static struct cut_stock stock;
static struct piece pieces[4];
static struct cut_place places[4];
static struct saw_order order;

static void setup(void)
{
	stock = hand_stock(600, 400, 3);
}

static void teardown(void)
{
	arena_free(&mem);
}

/* The order for the pieces, which lie as they were made. */
static void saw(int count)
{
	struct cut_source source = { .place = places, .count = count };
	GEOSContextHandle_t g = GEOS_init_r();
	GEOSGeometry *lie[4];

	for (int i = 0; i < count; i++) {
		places[i] = (struct cut_place){ .piece = (size_t)i };
		lie[i] = geos_region(g, &pieces[i].shape);
	}
	ck_assert_int_eq(saw_order_make(&mem, pieces, &stock, &source, &order, NULL), STATUS_OK);
	saw_steps_check(g, &order, &stock, (const GEOSGeometry *const *)lie, count);
	for (int i = 0; i < count; i++)
		GEOSGeom_destroy_r(g, lie[i]);
	GEOS_finish_r(g);
}

static void assert_line(size_t cut, enum saw_kind kind, size_t n, const double *mm)
{
	const struct saw_cut *c = &order.cuts[cut];

	ck_assert_uint_lt(cut, order.count);
	ck_assert_int_eq(c->kind, kind);
	ck_assert_uint_eq(c->n, n);
	for (size_t i = 0; i < n; i++) {
		ck_assert_double_eq_tol(c->line[i].x / 1000, mm[2 * i], 1e-6);
		ck_assert_double_eq_tol(c->line[i].y / 1000, mm[2 * i + 1], 1e-6);
	}
}

/* The piece lies to the left of the line as it runs: up the slab, with the piece at its left end.
 */
START_TEST(a_part_of_a_slab_takes_one_cut)
{
	pieces[0] = hand_rectangle(&mem, &stock, 0, 0, 250, 400);
	saw(1);
	ck_assert_uint_eq(order.count, 1);
	assert_line(0, SAW_ACROSS, 2, (double[]){ 250, 0, 250, 400 });
	ck_assert_int_eq(order.cuts[0].right, 0);
}
END_TEST

START_TEST(two_halves_a_kerf_apart_take_one_cut)
{
	pieces[0] = hand_rectangle(&mem, &stock, 0, 0, 250, 400);
	pieces[1] = hand_rectangle(&mem, &stock, 253, 0, 347, 400);
	saw(2);
	ck_assert_uint_eq(order.count, 1);
	ck_assert_int_eq(order.cuts[0].left, 1);
	ck_assert_int_eq(order.cuts[0].right, 1);
}
END_TEST

/* Across a diagonal: the line along one is the line along the other, a kerf away. */
START_TEST(a_diagonal_parts_two_triangles)
{
	pieces[0] = hand_piece(&mem, &stock, 3, (double[]){ 0, 0, 590, 0, 0, 390 });
	pieces[1] = hand_piece(&mem, &stock, 3, (double[]){ 600, 10, 600, 400, 10, 400 });
	saw(2);
	ck_assert_int_le((int)order.count, 2);
	assert_line(0, SAW_ACROSS, 2, (double[]){ 590, 0, 0, 390 });
}
END_TEST

START_TEST(a_corner_is_taken_out_by_two_cuts_that_meet)
{
	pieces[0] = hand_piece(
	        &mem, &stock, 6, (double[]){ 0, 0, 600, 0, 600, 150, 200, 150, 200, 400, 0, 400 });
	saw(1);
	ck_assert_uint_eq(order.count, 1);
	assert_line(0, SAW_NOTCH, 3, (double[]){ 600, 150, 200, 150, 200, 400 });
	ck_assert(!order.cuts[0].ground);
}
END_TEST

/* What the notch takes out is a piece: nothing is left to cut. */
START_TEST(a_piece_in_a_notch_is_parted_by_the_notch)
{
	pieces[0] = hand_piece(
	        &mem, &stock, 6, (double[]){ 0, 0, 600, 0, 600, 150, 200, 150, 200, 400, 0, 400 });
	pieces[1] = hand_rectangle(&mem, &stock, 203, 153, 397, 247);
	saw(2);
	ck_assert_uint_eq(order.count, 1);
	assert_line(0, SAW_NOTCH, 3, (double[]){ 600, 150, 200, 150, 200, 400 });
	ck_assert_int_eq(order.cuts[0].right, 1);
	pieces[1] = hand_rectangle(&mem, &stock, 300, 200, 300, 200);
	saw(2);
	ck_assert_uint_eq(order.count, 3);
}
END_TEST

/* Four quarters: the first cut runs right across the slab, the others across what is in hand. */
START_TEST(four_quarters_take_three_cuts)
{
	for (int i = 0; i < 4; i++)
		pieces[i] = hand_rectangle(&mem, &stock, i % 2 ? 310 : 0, i / 2 ? 210 : 0,
		        i % 2 ? 290 : 307, i / 2 ? 190 : 207);
	saw(4);
	ck_assert_uint_eq(order.count, 3);
	ck_assert_int_eq(order.cuts[0].left + order.cuts[0].right, 4);
	ck_assert_int_eq(order.cuts[1].left + order.cuts[1].right, 2);
	ck_assert_int_eq(order.cuts[2].left + order.cuts[2].right, 2);
}
END_TEST

/* A blade of 3 mm does not reach into a corner of 45 degrees. */
START_TEST(a_sharp_notch_is_ground_out)
{
	pieces[0] = hand_piece(&mem, &stock, 7,
	        (double[]){ 0, 0, 600, 0, 600, 400, 300, 400, 300, 200, 100, 400, 0, 400 });
	saw(1);
	assert_line(0, SAW_NOTCH, 3, (double[]){ 300, 400, 300, 200, 100, 400 });
	ck_assert(order.cuts[0].ground);
	stock.kerf_um = 0;
	saw(1);
	ck_assert(!order.cuts[0].ground);
}
END_TEST

/* A quarter of a disc. */
START_TEST(a_curve_is_one_cut)
{
	double mm[2 * 12] = { 0, 0 };

	for (int i = 0; i <= 10; i++) {
		mm[2 * (i + 1)] = i == 10 ? 0 : 390 * cos(i * 0.15707963267948966);
		mm[2 * (i + 1) + 1] = i == 0 ? 0 : 390 * sin(i * 0.15707963267948966);
	}
	pieces[0] = hand_piece(&mem, &stock, 12, mm);
	saw(1);
	ck_assert_uint_eq(order.count, 1);
	ck_assert_int_eq(order.cuts[0].kind, SAW_CURVE);
	ck_assert_uint_eq(order.cuts[0].n, 11);
}
END_TEST

START_TEST(an_opening_is_cut_out_last)
{
	static struct point hole[] = { { 100e3, 100e3 }, { 100e3, 200e3 }, { 200e3, 200e3 },
		{ 200e3, 100e3 } };
	struct ring rings[2];

	pieces[0] = hand_rectangle(&mem, &stock, 0, 0, 450, 400);
	rings[0] = pieces[0].shape.rings[0];
	rings[1] = (struct ring){ .p = hole, .n = 4 };
	pieces[0].shape = (struct region){ rings, 2 };
	saw(1);
	ck_assert_uint_eq(order.count, 2);
	ck_assert_int_eq(order.cuts[1].kind, SAW_OPENING);
	ck_assert_uint_eq(order.cuts[1].n, 4);
}
END_TEST

/* A star in the middle touches nothing: a first line over one of its hollows gives the blade a way
 * in. */
START_TEST(a_piece_clear_of_all_edges_is_cut_out)
{
	double mm[16];

	for (int i = 0; i < 8; i++) {
		double r = i % 2 ? 50 : 150, a = (i + 0.3) * 0.78539816339744831;

		mm[2 * i] = 300 + r * cos(a);
		mm[2 * i + 1] = 200 + r * sin(a);
	}
	pieces[0] = hand_piece(&mem, &stock, 8, mm);
	saw(1);
	ck_assert_int_eq(order.cuts[0].kind, SAW_ACROSS);
	ck_assert_int_eq(order.cuts[1].kind, SAW_NOTCH);
}
END_TEST

START_TEST(a_whole_slab_takes_no_cut)
{
	pieces[0] = hand_rectangle(&mem, &stock, 0, 0, 600, 400);
	saw(1);
	ck_assert_uint_eq(order.count, 0);
	ck_assert(order.sound);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("sawing");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, a_part_of_a_slab_takes_one_cut);
	tcase_add_test(tc, two_halves_a_kerf_apart_take_one_cut);
	tcase_add_test(tc, a_diagonal_parts_two_triangles);
	tcase_add_test(tc, a_corner_is_taken_out_by_two_cuts_that_meet);
	tcase_add_test(tc, a_piece_in_a_notch_is_parted_by_the_notch);
	tcase_add_test(tc, four_quarters_take_three_cuts);
	tcase_add_test(tc, a_sharp_notch_is_ground_out);
	tcase_add_test(tc, a_curve_is_one_cut);
	tcase_add_test(tc, an_opening_is_cut_out_last);
	tcase_add_test(tc, a_piece_clear_of_all_edges_is_cut_out);
	tcase_add_test(tc, a_whole_slab_takes_no_cut);
	return suite_run("sawing", tc);
}
