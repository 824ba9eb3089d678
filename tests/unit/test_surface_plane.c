/* Planes from what a crew knows of them, by hand. Lengths in mm, falls in mm per m. */
#include "slabwright/surface.h"
#include "slabwright/surface_plane.h"

#include "suite.h"

#include <math.h>
#include <string.h>

static struct plan_plane plane(double x, double y, double level, double toward, double fall)
{
	return (struct plan_plane){ llround(x * 1000), llround(y * 1000), llround(level * 1000),
		llround(toward * 1e6), llround(fall * 1000) };
}

static struct plane_level at(double x, double y, double level)
{
	return (struct plane_level){ llround(x * 1000), llround(y * 1000), llround(level * 1000) };
}

static double level_on(const struct plan_plane *p, double x, double y)
{
	struct plan_plane copy = *p;
	struct plan_surface s = { .planes = &copy, .count = 1 };

	return surface_level_um(&s, x * 1000, y * 1000) / 1000;
}

START_TEST(planes_meet_the_levels_they_are_made_from)
{
	struct plan_plane p, q;

	ck_assert_int_eq(plane_from_fall(at(1000, 1000, 5), 90000000, 15000, &p, NULL), STATUS_OK);
	ck_assert_double_eq_tol(level_on(&p, 0, 3000), -25, 1e-9);
	ck_assert_int_eq(plane_from_two(at(0, 0, -60), at(3000, 4000, 15), &p, NULL), STATUS_OK);
	ck_assert_int_eq(p.fall_um_per_m, 15000);
	ck_assert_double_eq_tol(level_on(&p, 3000, 4000), 15, 0.01);
	ck_assert_double_eq_tol((double)p.toward_udeg / 1e6, 180 + atan2(4, 3) * 180 / M_PI, 1e-5);
	ck_assert_int_eq(
	        plane_from_three(at(0, 0, 10), at(4000, 0, -50), at(1000, 3000, 7), &p, NULL),
	        STATUS_OK);
	ck_assert_double_eq_tol(level_on(&p, 0, 0), 10, 0.01);
	ck_assert_double_eq_tol(level_on(&p, 4000, 0), -50, 0.01);
	ck_assert_double_eq_tol(level_on(&p, 1000, 3000), 7, 0.01);
	/* A wall from the origin to the right, held level; the fall to its left is upward. */
	ck_assert_int_eq(
	        plane_from_line(at(0, 0, 20), at(5000, 0, 0), true, 12500, &p, NULL), STATUS_OK);
	ck_assert_int_eq(p.toward_udeg, 90000000);
	ck_assert_double_eq_tol(level_on(&p, 5000, 2000), -5, 1e-6);
	ck_assert_int_eq(
	        plane_from_line(at(0, 0, 20), at(5000, 0, 0), false, 12500, &p, NULL), STATUS_OK);
	ck_assert_int_eq(p.toward_udeg, 270000000);
	ck_assert_int_eq(plane_shifted(&p, at(9000, -4000, -100), &q, NULL), STATUS_OK);
	ck_assert_double_eq_tol(level_on(&q, 9000, -4000), -100, 1e-3);
	ck_assert_int_eq(q.fall_um_per_m, 12500);
	ck_assert_int_eq(plane_tilted(&p, at(9000, -4000, -100), &q, NULL), STATUS_OK);
	ck_assert_double_eq_tol(level_on(&q, 9000, -4000), -100, 0.01);
	ck_assert_double_eq_tol(level_on(&q, 5000, 0), 20, 1e-3);
	/* Higher than the line: it falls the other way. */
	ck_assert_int_eq(plane_tilted(&p, at(0, -4000, 60), &q, NULL), STATUS_OK);
	ck_assert_int_eq(q.toward_udeg, 90000000);
	ck_assert_int_eq(q.fall_um_per_m, 10000);
}
END_TEST

START_TEST(planes_that_cannot_be_are_refused)
{
	struct plan_plane p = plane(1, 2, 3, 4, 5), was = p;
	struct error err;

#define REFUSED(call, words)                                                                       \
	do {                                                                                       \
		ck_assert_int_eq((call), STATUS_USAGE);                                            \
		ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);                    \
		ck_assert_mem_eq(&p, &was, sizeof p);                                              \
	} while (0)
	REFUSED(plane_from_fall(at(0, 0, 0), 0, -1, &p, &err), "turn the direction round");
	REFUSED(plane_from_fall(at(0, 0, 0), 0, 500001, &p, &err), "1:2");
	REFUSED(plane_from_two(at(0, 0, 0), at(0, 0, 5), &p, &err), "at one point");
	REFUSED(plane_from_two(at(0, 0, 0), at(1000, 0, 501), &p, &err), "1:2");
	REFUSED(plane_from_three(at(0, 0, 0), at(1000, 0, 1), at(2000, 0.5, 2), &p, &err),
	        "on one line");
	REFUSED(plane_from_line(at(0, 0, 0), at(0, 0, 0), true, 1, &p, &err), "no length");
	REFUSED(plane_from_line(at(0, 0, 0), at(1, 0, 0), true, -1, &p, &err), "other side");
	REFUSED(plane_tilted(&was, at(1, 2, 9), &p, &err), "keeps its level");
#undef REFUSED
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planes");

	tcase_add_test(tc, planes_meet_the_levels_they_are_made_from);
	tcase_add_test(tc, planes_that_cannot_be_are_refused);
	return suite_run("planes of the surface", tc);
}
