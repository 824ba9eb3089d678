/* Units per area, joint filler, edge units and masses: published counts, each with its source. */
#include "slabwright/sheet.h"

#include "plans.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM
#define INCH INT64_C(25400)
#define FOOT (12 * INCH)
#define M2_PER_FT2 0.09290304

static struct worked w;

static void set_slab(int64_t length_um, int64_t width_um, int64_t joint_um, enum size_meaning size)
{
	struct plan_slab *s = &w.plan.laying.slab;

	s->length_um = length_um;
	s->width_um = width_um;
	s->joint_um = joint_um;
	s->size = size;
	w.plan.laying.bond = BOND_STACK;
	w.plan.laying.offset = 0;
}

/* Brick Industry Association, Seven Easy Steps to Installing Your Own Walkway, Driveway and Patio,
 * part 2: a patio of 10 x 20 ft with pavers of 4 x 8 in takes 900, with 5 % for breakage 945. */
START_TEST(a_patio_of_10_by_20_ft_takes_900_pavers_and_945_with_breakage)
{
	worked_rectangle(&w, 20 * FOOT, 10 * FOOT);
	set_slab(8 * INCH, 4 * INCH, 0, SIZE_WORK);
	work_out_plan(&w);
	ck_assert_int_eq(w.t.laid.whole, 900);
	ck_assert_int_eq(w.t.laid.cut, 0);
	ck_assert_int_eq(w.t.order.rule_of_thumb, 945);
	worked_done(&w);
}
END_TEST

/* The same booklet: one soldier brick for each 4 in of edge, 3 per ft; the patio's edge is 60 ft.
 * (It prints a foot mark where inches are meant.) */
START_TEST(soldier_bricks_are_three_to_the_foot_of_edge)
{
	worked_rectangle(&w, 20 * FOOT, 10 * FOOT);
	set_slab(8 * INCH, 4 * INCH, 0, SIZE_WORK);
	w.plan.edging[EDGE_OPEN] =
	        (struct plan_edging){ .name = "soldier brick", .unit_um = 4 * INCH };
	work_out_plan(&w);
	ck_assert_uint_eq(w.t.edging.count, 1);
	ck_assert_double_eq_tol(w.t.edging.lines[0].length_m, 60 * 0.3048, 1e-9);
	ck_assert_int_eq(w.t.edging.lines[0].units, 180);
	worked_done(&w);
}
END_TEST

/* The same booklet: mortarless units to the square foot, as printed to one decimal. */
static const struct {
	int64_t length_um, width_um;
	double per_ft2;
} mortarless[] = {
	{ 8 * INCH, 4 * INCH, 4.5 },
	{ 7 * INCH + 5 * INCH / 8, 3 * INCH + 5 * INCH / 8, 5.2 },
	{ 7 * INCH + INCH / 2, 3 * INCH + 3 * INCH / 4, 5.1 },
};

START_TEST(mortarless_pavers_to_the_square_foot)
{
	worked_rectangle(&w, 100 * FOOT, 100 * FOOT);
	set_slab(mortarless[_i].length_um, mortarless[_i].width_um, 0, SIZE_WORK);
	work_out_plan(&w);
	ck_assert_double_eq_tol(
	        (double)w.t.order.rule_of_thumb / 1.05 / 10000, mortarless[_i].per_ft2, 0.05);
	ck_assert_double_eq_tol(
	        w.t.laid.pieces_area_m2, 10000 * M2_PER_FT2, 1e-6 * 10000 * M2_PER_FT2);
	worked_done(&w);
}
END_TEST

/* US Navy, Builder, NAVEDTRA 14045, chapter 4: a wall face 8 ft x 14 ft of bricks that with their
 * 1/2 in joint take 2 3/4 in x 8 1/2 in: 6.16 to the square foot, 690 for the wall; and blocks of 8
 * in x 16 in: three quarters of the length in feet a course, one and a half courses a foot, so
 * 1,125 for 100 ft x 10 ft. A wall's face is laid as paving is. */
static const struct {
	int64_t length_um, width_um; /* joint included */
	int64_t wall_um, high_um;
	double per_ft2, tolerance, units;
} faces[] = {
	{ 8 * INCH + INCH / 2, 2 * INCH + 3 * INCH / 4, 14 * FOOT, 8 * FOOT, 6.16, 0.005, 690 },
	{ 16 * INCH, 8 * INCH, 100 * FOOT, 10 * FOOT, 1.125, 0.0005, 1125 },
};

START_TEST(bricks_and_blocks_of_a_face_to_the_square_foot)
{
	double thumb;

	worked_rectangle(&w, faces[_i].wall_um, faces[_i].high_um);
	set_slab(faces[_i].length_um, faces[_i].width_um, 10 * UM_PER_MM, SIZE_COORDINATING);
	work_out_plan(&w);
	thumb = w.t.laid.stocks[0].thumb;
	ck_assert_double_eq_tol(
	        thumb / (w.t.area_m2 / M2_PER_FT2), faces[_i].per_ft2, faces[_i].tolerance);
	ck_assert_double_eq_tol(thumb, faces[_i].units, 1);
	worked_done(&w);
}
END_TEST

/* n = 10^6 / ((L + j)(W + j)) units to the m2, and joint filler t (1 - L W / ((L + j)(W + j))) in
 * l/m2: plain geometry, constructed; the sizes are common ones. */
static const struct {
	int64_t length, width, thickness, joint; /* 0.1 mm */
	double per_m2, filler_l_m2;
} jointed[] = {
	{ 2000, 1000, 600, 0, 50.000, 0 },
	{ 2000, 1000, 600, 30, 47.826, 2.608 },
	{ 2000, 1000, 600, 20, 48.534, 1.759 },
	{ 2000, 1000, 500, 50, 46.458, 3.542 },
	{ 6000, 6000, 500, 50, 2.732, 0.823 },
	{ 6000, 6000, 380, 80, 2.705, 0.993 },
	{ 4500, 4500, 380, 100, 4.726, 1.634 },
	{ 9000, 6000, 500, 50, 1.826, 0.687 },
	{ 4000, 4000, 400, 50, 6.097, 0.982 },
	{ 3000, 3000, 400, 50, 10.750, 1.301 },
	{ 2150, 1025, 650, 100, 39.506, 8.410 },
};

START_TEST(units_and_joint_filler_to_the_square_metre)
{
	int64_t pitch_x = (jointed[_i].length + jointed[_i].joint) * 100;
	int64_t pitch_y = (jointed[_i].width + jointed[_i].joint) * 100;
	double thickness_mm = (double)jointed[_i].thickness / 10, filler;

	worked_rectangle(&w, 40 * pitch_x, 50 * pitch_y);
	set_slab(jointed[_i].length * 100, jointed[_i].width * 100, jointed[_i].joint * 100,
	        SIZE_WORK);
	w.plan.laying.slab.thickness_um = jointed[_i].thickness * 100;
	work_out_plan(&w);
	ck_assert_int_eq(w.t.laid.whole, 2000);
	ck_assert_int_eq(w.t.laid.cut + w.t.laid.made_up, 0);
	ck_assert_double_eq_tol(2000 / w.t.area_m2, jointed[_i].per_m2, 0.001);
	filler = thickness_mm * (1 - w.t.laid.pieces_area_m2 / w.t.area_m2);
	ck_assert_double_eq_tol(filler, jointed[_i].filler_l_m2, 0.001);
	worked_done(&w);
}
END_TEST

/* A nominal size with the joint in it gives the same count as the slab itself plus the joint. */
START_TEST(coordinating_and_work_sizes_lay_the_same_pitch)
{
	int64_t whole;

	worked_rectangle(&w, 40 * 203 * MM, 50 * 103 * MM);
	set_slab(203 * MM, 103 * MM, 3 * MM, SIZE_COORDINATING);
	work_out_plan(&w);
	whole = w.t.laid.whole;
	ck_assert_double_eq_tol((double)whole / w.t.area_m2, 47.826, 0.001);
	worked_done(&w);
}
END_TEST

/* Masses for lifting, 2400 kg/m3: constructed from size and density. The last is the standard
 * precast kerb of about 67 kg in Health and Safety Executive, Handling kerbs (CIS57), with its size
 * from memory and 2300 kg/m3. */
static const struct {
	int64_t length_mm, width_mm, thickness_mm, density;
	double kg;
} masses[] = {
	{ 450, 450, 38, 2400, 18.5 },
	{ 600, 300, 50, 2400, 21.6 },
	{ 900, 600, 22, 2400, 28.5 },
	{ 600, 600, 38, 2400, 32.8 },
	{ 600, 600, 50, 2400, 43.2 },
	{ 900, 600, 50, 2400, 64.8 },
	{ 915, 125, 255, 2300, 67.1 },
};

START_TEST(one_slab_weighs_what_is_published)
{
	worked_rectangle(&w, 3 * UM_PER_M, 3 * UM_PER_M);
	set_slab(masses[_i].length_mm * MM, masses[_i].width_mm * MM, 5 * MM, SIZE_WORK);
	w.plan.laying.slab.thickness_um = masses[_i].thickness_mm * MM;
	w.plan.laying.slab.density_kg_m3 = masses[_i].density;
	work_out_plan(&w);
	ck_assert_double_eq_tol(w.t.order.slab_mass_kg, masses[_i].kg, 0.06);
	worked_done(&w);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("laying");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_patio_of_10_by_20_ft_takes_900_pavers_and_945_with_breakage);
	tcase_add_test(tc, soldier_bricks_are_three_to_the_foot_of_edge);
	tcase_add_loop_test(tc, mortarless_pavers_to_the_square_foot, 0,
	        (int)(sizeof mortarless / sizeof *mortarless));
	tcase_add_loop_test(tc, bricks_and_blocks_of_a_face_to_the_square_foot, 0,
	        sizeof faces / sizeof *faces);
	tcase_add_loop_test(tc, units_and_joint_filler_to_the_square_metre, 0,
	        (int)(sizeof jointed / sizeof *jointed));
	tcase_add_test(tc, coordinating_and_work_sizes_lay_the_same_pitch);
	tcase_add_loop_test(
	        tc, one_slab_weighs_what_is_published, 0, (int)(sizeof masses / sizeof *masses));
	return suite_run("published laying", tc);
}
