/* Areas and lengths of published worked examples. Each row names its source; a row derived from the
 * published inputs, constructed here, or known from memory says so. Coordinates in feet are given
 * as (x, y) = (easting, northing). */
#include "slabwright/geom.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>

#define M2_PER_FT2 0.09290304
#define UM_PER_FOOT 304800.0
#define CORNERS_MAX 6

struct traverse {
	const char *source;
	size_t count;
	double corner_ft[CORNERS_MAX][2];
	double area_ft2, area_tolerance;
	double side_ft[CORNERS_MAX]; /* 0: not published */
	double perimeter_ft, length_tolerance;
};

static const struct traverse traverses[] = {
	/* Open Access Surveying Library, traverse computations, chapter G, example 1
	 *: area printed as 102,93x ft2; exact value, sides and perimeter derived.
	 */
	{ "traverse computations, chapter G", 4,
	        { { 2000, 500 }, { 1561.426, 323.614 }, { 1488.321, 526.996 },
	                { 1686.956, 719.336 } },
	        102935.72, 0.2, { 472.715, 216.122, 276.497, 382.237 }, 1347.570, 0.002 },
	/* The same library, coordinate geometry, chapter H: printed sums 2,190,612 and 1,909,624
	 * give 140,494 ft2; perimeter derived. (One partial product is misprinted there as 264,489
	 * for 264,839.) */
	{ "coordinate geometry, chapter H, five points", 5,
	        { { 1259.97, 406.31 }, { 1489.47, 235.12 }, { 1126.40, 65.81 }, { 942.04, 317.89 },
	                { 1282.54, 675.32 } },
	        140494, 1.5, { 0 }, 1762.836, 0.002 },
	/* Engineering Aid, US Navy, chapter 7, figures 7-24 and 7-25: coordinates read, area and
	 * sides derived from them. */
	{ "Engineering Aid, chapter 7", 4,
	        { { 0, 591.64 }, { 125.66, 847.60 }, { 716.31, 694.07 }, { 523.62, 0 } }, 323953.7,
	        0.5, { 285.14, 610.28, 720.32, 790.07 }, 2405.81, 0.02 },
	/* Coordinate geometry, chapter H, part 2: the six points' polygon; printed sums 4,622,300
	 * and 4,491,046 give 65,627 ft2. */
	{ "coordinate geometry, chapter H, six points", 6,
	        { { 1200, 500 }, { 1249.70, 614.70 }, { 1347.43, 674.76 }, { 1552.76, 662.46 },
	                { 1516.87, 467.41 }, { 1317.39, 417.36 } },
	        65627, 3, { 0 }, 0, 0 },
};

enum { TRAVERSES = sizeof traverses / sizeof *traverses };

static int64_t um_of(double value, double unit)
{
	return llround(value * unit);
}

/* The traverse's ring from corner `first` on, walked forward or backward. */
static struct plan_ring ring_of(
        const struct traverse *t, struct plan_node *nodes, size_t first, bool backward)
{
	for (size_t i = 0; i < t->count; i++) {
		size_t from = (backward ? first + t->count - i : first + i) % t->count;

		nodes[i] = (struct plan_node){ um_of(t->corner_ft[from][0], UM_PER_FOOT),
			um_of(t->corner_ft[from][1], UM_PER_FOOT), 0, EDGE_OPEN, 0, 0 };
	}
	return (struct plan_ring){ nodes, t->count, true };
}

START_TEST(the_area_by_coordinates_is_the_published_one)
{
	const struct traverse *t = &traverses[_i];
	struct plan_node nodes[CORNERS_MAX];
	struct plan_ring ring = ring_of(t, nodes, 0, false);

	ck_assert_double_eq_tol(ring_area_m2(&ring) / M2_PER_FT2, t->area_ft2, t->area_tolerance);
}
END_TEST

/* Rule stated in coordinate geometry, chapter H: neither the first corner nor the direction of the
 * walk changes the area. */
START_TEST(the_area_depends_on_neither_first_corner_nor_direction)
{
	const struct traverse *t = &traverses[_i];
	struct plan_node nodes[CORNERS_MAX];
	struct plan_ring ring = ring_of(t, nodes, 0, false);
	double area = ring_area_m2(&ring), signed2 = ring_signed_area2_um2(&ring);

	for (size_t first = 0; first < t->count; first++)
		for (int backward = 0; backward < 2; backward++) {
			ring = ring_of(t, nodes, first, backward);
			ck_assert_double_eq(ring_area_m2(&ring), area);
			ck_assert_double_eq(
			        ring_signed_area2_um2(&ring), backward ? -signed2 : signed2);
		}
}
END_TEST

START_TEST(sides_and_perimeter_are_the_published_ones)
{
	const struct traverse *t = &traverses[_i];
	struct plan_node nodes[CORNERS_MAX];
	struct plan_ring ring = ring_of(t, nodes, 0, false);

	for (size_t i = 0; i < t->count; i++)
		if (t->side_ft[i] > 0)
			ck_assert_double_eq_tol(edge_length_um(&ring, i) / UM_PER_FOOT,
			        t->side_ft[i], fmax(t->length_tolerance, 0.006));
	if (t->perimeter_ft > 0)
		ck_assert_double_eq_tol(
		        ring_length_um(&ring) / UM_PER_FOOT, t->perimeter_ft, t->length_tolerance);
}
END_TEST

struct arc {
	const char *source;
	double unit_um, chord, rise, length, segment, tolerance; /* relative; segment 0: none */
};

static const struct arc arcs[] = {
	/* Mathematics program manual, circular sections (matheass.eu): chord 21, height 6. Here in
	   m. */
	{ "circular sections, chord 21 height 6", 1e6, 21, 6, 25.308373, 89.254148, 1e-7 },
	/* The same page: arc 1, angle 45 degrees. Here in units of 100 m, so that the micrometre is
	 * finer than the printed figures. */
	{ "circular sections, arc 1 angle 45", 1e8, 0.97449536, 0.096919589, 1, 0.063460604, 2e-7 },
	/* The Artillerist's Manual, mensuration: an arc of 30 degrees of radius 9 ft, by the rule's
	 * rounded factor 0.01745: 4.7115. Chord and rise derived: 18 sin 15, 9 (1 - cos 15). */
	{ "arc of 30 degrees, radius 9 ft", UM_PER_FOOT, 4.65874281, 0.30666753, 4.7115, 0, 2e-4 },
};

static struct plan_ring segment_of(const struct arc *a, struct plan_node nodes[2], int sign)
{
	nodes[0] = (struct plan_node){ 0, 0, 0, EDGE_OPEN, 0, 0 };
	nodes[1] = (struct plan_node){ um_of(a->chord, a->unit_um), 0,
		sign * um_of(a->rise, a->unit_um), EDGE_OPEN, 0, 0 };
	return (struct plan_ring){ nodes, 2, true };
}

START_TEST(an_arc_has_the_published_length_and_segment)
{
	const struct arc *a = &arcs[_i];
	struct plan_node nodes[2];
	struct plan_ring ring = segment_of(a, nodes, 1);
	double m = a->unit_um / 1e6;

	ck_assert_double_eq_tol(
	        edge_length_um(&ring, 1) / a->unit_um, a->length, a->tolerance * a->length);
	ck_assert_double_eq_tol(edge_length_um(&ring, 0) / a->unit_um, a->chord, 1 / a->unit_um);
	if (a->segment > 0)
		ck_assert_double_eq_tol(ring_area_m2(&ring) / (m * m), a->segment,
		        a->tolerance * fmax(1, a->segment));
}
END_TEST

/* A triangle of 13, 14, 15 has the area 84: a classical textbook example, from memory. */
START_TEST(the_triangle_13_14_15_has_the_area_84)
{
	struct plan_node n[] = { { 0, 0, 0, EDGE_OPEN, 0, 0 },
		{ 14 * UM_PER_M, 0, 0, EDGE_OPEN, 0, 0 },
		{ 5 * UM_PER_M, 12 * UM_PER_M, 0, EDGE_OPEN, 0, 0 } };
	struct plan_ring ring = { n, 3, true };

	ck_assert_double_eq(ring_area_m2(&ring), 84);
	ck_assert_double_eq(edge_length_um(&ring, 1), 15e6);
	ck_assert_double_eq(edge_length_um(&ring, 2), 13e6);
}
END_TEST

/* Square corners: 3-4-5 and its like, and the diagonal of 4.80 x 3.60 m. Common practice, no
 * source. */
START_TEST(square_corners_have_the_trade_s_diagonals)
{
	static const int64_t cm[][3] = { { 300, 400, 500 }, { 600, 800, 1000 }, { 150, 200, 250 },
		{ 480, 360, 600 } };

	for (size_t i = 0; i < sizeof cm / sizeof *cm; i++) {
		struct plan_node n[] = { { 0, 0, 0, EDGE_OPEN, 0, 0 },
			{ cm[i][0] * 10000, 0, 0, EDGE_OPEN, 0, 0 },
			{ 0, cm[i][1] * 10000, 0, EDGE_OPEN, 0, 0 } };
		struct plan_ring ring = { n, 3, true };

		ck_assert_double_eq(edge_length_um(&ring, 1), (double)cm[i][2] * 1e4);
	}
}
END_TEST

/* Figure 7-24 again: the four-sided area as two triangles over the diagonal from its first to its
 * third corner, 723.597 ft (derived). */
START_TEST(two_triangles_over_a_diagonal_make_the_four_sided_area)
{
	struct plan_node all[CORNERS_MAX];
	struct plan_ring whole = ring_of(&traverses[2], all, 0, false);
	struct plan_node one[] = { all[0], all[1], all[2] }, two[] = { all[0], all[2], all[3] };
	struct plan_ring a = { one, 3, true }, b = { two, 3, true };

	ck_assert_double_eq_tol(edge_length_um(&a, 2) / UM_PER_FOOT, 723.597, 0.001);
	ck_assert_double_eq_tol(ring_area_m2(&a) + ring_area_m2(&b), ring_area_m2(&whole), 1e-6);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("shapes");

	tcase_add_loop_test(tc, the_area_by_coordinates_is_the_published_one, 0, TRAVERSES);
	tcase_add_loop_test(
	        tc, the_area_depends_on_neither_first_corner_nor_direction, 0, TRAVERSES);
	tcase_add_loop_test(tc, sides_and_perimeter_are_the_published_ones, 0, TRAVERSES);
	tcase_add_loop_test(tc, an_arc_has_the_published_length_and_segment, 0,
	        (int)(sizeof arcs / sizeof *arcs));
	tcase_add_test(tc, the_triangle_13_14_15_has_the_area_84);
	tcase_add_test(tc, square_corners_have_the_trade_s_diagonals);
	tcase_add_test(tc, two_triangles_over_a_diagonal_make_the_four_sided_area);
	return suite_run("published shapes", tc);
}
