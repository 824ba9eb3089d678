/* Triangulation held to GEOS on seeded sets of points: the hull's area, empty circles decided in
 * 128 bits, and the same triangles where they are the only ones. */
#include "slabwright/mesh.h"

#include "chance.h"
#include "suite.h"

#include <geos_c.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__extension__ typedef __int128 wide;

enum { SETS = 1400, MOST = 80, WAYS = 7 };
enum { LOOSE, FAR, GRID, ON_A_LINE, ON_A_CIRCLE, CROWDED, NEARLY_A_LINE };

static struct arena mem;
static GEOSContextHandle_t g;

static void setup(void)
{
	g = GEOS_init_r();
}

static void teardown(void)
{
	GEOS_finish_r(g);
	arena_free(&mem);
}

/* Whole points on the circle of radius 65 about the origin, times a scale. */
static struct plan_point on_circle(struct chance *c, int64_t scale)
{
	static const int64_t legs[][2] = { { 65, 0 }, { 63, 16 }, { 60, 25 }, { 56, 33 },
		{ 52, 39 } };
	const int64_t *leg = legs[chance_int(c, 0, 4)];
	int64_t turn = chance_int(c, 0, 1), x = leg[turn] * scale, y = leg[1 - turn] * scale;

	return (struct plan_point){ chance_int(c, 0, 1) ? x : -x, chance_int(c, 0, 1) ? y : -y };
}

static struct plan_point one_point(struct chance *c, int way)
{
	int64_t t;

	switch (way) {
	case LOOSE:
		return (struct plan_point){ chance_int(c, 0, 9000000), chance_int(c, 0, 9000000) };
	case FAR:
		return (struct plan_point){ chance_int(c, -COORD_LIMIT_UM, COORD_LIMIT_UM),
			chance_int(c, -COORD_LIMIT_UM, COORD_LIMIT_UM) };
	case GRID:
		return (struct plan_point){ chance_int(c, 0, 8) * 1000000 - 7,
			chance_int(c, 0, 8) * 1000000 };
	case ON_A_LINE:
		t = chance_int(c, -50, 50);
		return (struct plan_point){ 3 * t, -7 * t + 1 };
	case ON_A_CIRCLE:
		return on_circle(c, 10000);
	case CROWDED:
		return (struct plan_point){ chance_int(c, 0, 9), chance_int(c, 0, 9) };
	default:
		t = chance_int(c, 0, 1000000);
		return (struct plan_point){ t, t + chance_int(c, -1, 1) };
	}
}

static bool holds(const struct plan_point *p, size_t n, struct plan_point q)
{
	for (size_t i = 0; i < n; i++)
		if (p[i].x_um == q.x_um && p[i].y_um == q.y_um)
			return true;
	return false;
}

static size_t make_set(struct chance *c, int way, struct plan_point *p)
{
	size_t want = (size_t)chance_int(c, 1, MOST), n = 0;

	for (size_t tries = 0; n < want && tries < 10 * want; tries++) {
		p[n] = one_point(c, way);
		n += !holds(p, n, p[n]);
	}
	return n;
}

static wide twice_area(struct plan_point a, struct plan_point b, struct plan_point c)
{
	return (wide)(b.x_um - a.x_um) * (c.y_um - a.y_um) -
	       (wide)(c.x_um - a.x_um) * (b.y_um - a.y_um);
}

/* Above 0 where d lies in the circle about a, b, c, which run anticlockwise: a determinant along
 * its first column. */
static wide in_circle(
        struct plan_point a, struct plan_point b, struct plan_point c, struct plan_point d)
{
	wide m[3][3];
	const struct plan_point p[3] = { a, b, c };

	for (int i = 0; i < 3; i++) {
		m[i][0] = p[i].x_um - d.x_um;
		m[i][1] = p[i].y_um - d.y_um;
		m[i][2] = m[i][0] * m[i][0] + m[i][1] * m[i][1];
	}
	return m[0][2] * (m[1][0] * m[2][1] - m[2][0] * m[1][1]) -
	       m[1][2] * (m[0][0] * m[2][1] - m[2][0] * m[0][1]) +
	       m[2][2] * (m[0][0] * m[1][1] - m[1][0] * m[0][1]);
}

/* --- GEOS --- */

static GEOSGeometry *multipoint(const struct plan_point *p, size_t n)
{
	GEOSGeometry *points[MOST];

	for (size_t i = 0; i < n; i++)
		points[i] = GEOSGeom_createPointFromXY_r(g, (double)p[i].x_um, (double)p[i].y_um);
	return GEOSGeom_createCollection_r(g, GEOS_MULTIPOINT, points, (unsigned)n);
}

static double hull_area(const GEOSGeometry *points)
{
	GEOSGeometry *hull = GEOSConvexHull_r(g, points);
	double area = 0;

	ck_assert_int_eq(GEOSArea_r(g, hull, &area), 1);
	GEOSGeom_destroy_r(g, hull);
	return area;
}

static bool is_corner(const GEOSGeometry *triangle, struct plan_point p)
{
	const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(g, GEOSGetExteriorRing_r(g, triangle));

	for (unsigned i = 0; i < 3; i++) {
		double x, y;

		GEOSCoordSeq_getXY_r(g, s, i, &x, &y);
		if (x == (double)p.x_um && y == (double)p.y_um)
			return true;
	}
	return false;
}

static bool geos_has(const GEOSGeometry *all, const struct plan_point *p, const size_t *corner)
{
	for (int i = 0; i < GEOSGetNumGeometries_r(g, all); i++) {
		const GEOSGeometry *t = GEOSGetGeometryN_r(g, all, i);

		if (is_corner(t, p[corner[0]]) && is_corner(t, p[corner[1]]) &&
		        is_corner(t, p[corner[2]]))
			return true;
	}
	return false;
}

/* The three points of a triangle of theirs. */
static void find_corners(
        const GEOSGeometry *triangle, const struct plan_point *p, size_t n, size_t *corner)
{
	size_t found = 0;

	for (size_t i = 0; i < n && found < 3; i++)
		if (is_corner(triangle, p[i]))
			corner[found++] = i;
	ck_assert_uint_eq(found, 3);
	if (twice_area(p[corner[0]], p[corner[1]], p[corner[2]]) < 0) {
		size_t was = corner[1];

		corner[1] = corner[2];
		corner[2] = was;
	}
}

/* --- checks --- */

/* Points within the circle about three, and on it. */
static void count_in_circle(
        const struct plan_point *p, size_t n, const size_t *corner, size_t *within, size_t *on)
{
	*within = *on = 0;
	for (size_t i = 0; i < n; i++) {
		wide in;

		if (i == corner[0] || i == corner[1] || i == corner[2])
			continue;
		in = in_circle(p[corner[0]], p[corner[1]], p[corner[2]], p[i]);
		*within += in > 0;
		*on += in == 0;
	}
}

static void check_beside(const struct mesh *m)
{
	for (size_t i = 0; i < m->triangle_count; i++)
		for (int k = 0; k < 3; k++) {
			const struct mesh_triangle *t = &m->triangles[i], *u;
			int back = 0;

			if (t->beside[k] == MESH_NONE)
				continue;
			u = &m->triangles[t->beside[k]];
			while (back < 3 && u->beside[back] != i)
				back++;
			ck_assert_int_lt(back, 3);
			ck_assert_uint_eq(u->corner[(back + 1) % 3], t->corner[(k + 2) % 3]);
			ck_assert_uint_eq(u->corner[(back + 2) % 3], t->corner[(k + 1) % 3]);
		}
}

/* The hull runs anticlockwise over sides that have nothing beside them. */
static void check_hull(const struct mesh *m, const struct plan_point *p, size_t n)
{
	size_t open = 0;

	for (size_t i = 0; i < m->triangle_count; i++)
		for (int k = 0; k < 3; k++)
			open += m->triangles[i].beside[k] == MESH_NONE;
	if (m->triangle_count)
		ck_assert_uint_eq(open, m->hull_count);
	for (size_t i = 0; m->triangle_count && i < m->hull_count; i++)
		for (size_t j = 0; j < n; j++)
			ck_assert(twice_area(p[m->hull[i]], p[m->hull[(i + 1) % m->hull_count]],
			                  p[j]) >= 0);
}

static bool has_corners(const struct mesh *m, const size_t *corner)
{
	for (size_t i = 0; i < m->triangle_count; i++) {
		int found = 0;

		for (int k = 0; k < 9; k++)
			found += m->triangles[i].corner[k / 3] == corner[k % 3];
		if (found == 3)
			return true;
	}
	return false;
}

/* A triangle with no other point in or on its circle belongs to every answer. Theirs begin within a
 * large triangle about all points, and where that is not large enough they lack flat triangles at
 * the hull: only then may one of ours be missing. */
static void compare_with_theirs(
        const struct mesh *m, const struct plan_point *p, size_t n, bool whole, int set)
{
	GEOSGeometry *points = multipoint(p, n);
	GEOSGeometry *theirs = GEOSDelaunayTriangulation_r(g, points, 0, 0);
	size_t in, on, ties = 0, corner[3];

	for (size_t i = 0; i < m->triangle_count; i++) {
		count_in_circle(p, n, m->triangles[i].corner, &in, &on);
		ck_assert_msg(in == 0, "set %d: a point lies in a circle", set);
		ties += on;
		ck_assert_msg(!whole || on || geos_has(theirs, p, m->triangles[i].corner),
		        "set %d: GEOS lacks a triangle", set);
	}
	for (int i = 0; i < GEOSGetNumGeometries_r(g, theirs); i++) {
		find_corners(GEOSGetGeometryN_r(g, theirs, i), p, n, corner);
		count_in_circle(p, n, corner, &in, &on);
		ck_assert_msg(in || on || has_corners(m, corner),
		        "set %d: a triangle of GEOS is missing", set);
	}
	if (whole && !ties)
		ck_assert_int_eq(GEOSGetNumGeometries_r(g, theirs), (int)m->triangle_count);
	GEOSGeom_destroy_r(g, theirs);
	GEOSGeom_destroy_r(g, points);
}

/* Whether theirs fill the hull. */
static bool check_set(const struct plan_point *p, size_t n, int set)
{
	struct mesh m;
	GEOSGeometry *points = multipoint(p, n);
	GEOSGeometry *theirs = GEOSDelaunayTriangulation_r(g, points, 0, 0);
	double area = 0, hull = hull_area(points), filled = 0;
	bool whole;

	ck_assert_int_eq(mesh_make(&mem, p, n, &m, NULL), STATUS_OK);
	for (size_t i = 0; i < m.triangle_count; i++) {
		const size_t *c = m.triangles[i].corner;
		wide twice = twice_area(p[c[0]], p[c[1]], p[c[2]]);

		ck_assert(twice > 0);
		area += (double)twice / 2;
	}
	ck_assert_double_le(fabs(area - hull), 1e-12 * area);
	ck_assert_uint_eq(m.triangle_count, m.triangle_count ? 2 * n - 2 - m.hull_count : 0);
	ck_assert_int_eq(GEOSArea_r(g, theirs, &filled), 1);
	whole = fabs(filled - hull) <= 1e-12 * hull;
	compare_with_theirs(&m, p, n, whole, set);
	check_beside(&m);
	check_hull(&m, p, n);
	GEOSGeom_destroy_r(g, theirs);
	GEOSGeom_destroy_r(g, points);
	return whole;
}

START_TEST(triangles_agree_with_geos)
{
	struct chance c =
	        chance_new(chance_seed("triangles_agree_with_geos", 51423) + (uint64_t)_i);

	int sets = SETS / WAYS / ONE_OF, whole = 0;

	for (int set = 0; set < sets; set++) {
		struct plan_point p[MOST];
		size_t n = make_set(&c, _i, p);

		whole += check_set(p, n, set);
		arena_reset(&mem);
	}
	printf("way %d: GEOS fills the hull in %d of %d sets\n", _i, whole, sets);
	if (_i != NEARLY_A_LINE)
		ck_assert_int_gt(whole, sets / 2);
}
END_TEST

static bool has_triangle(const struct mesh *m, const struct plan_point *p, const size_t *corner,
        const struct plan_point *q)
{
	for (size_t i = 0; i < m->triangle_count; i++) {
		int found = 0;

		for (int k = 0; k < 3; k++)
			for (int l = 0; l < 3; l++)
				found += p[m->triangles[i].corner[k]].x_um == q[corner[l]].x_um &&
				         p[m->triangles[i].corner[k]].y_um == q[corner[l]].y_um;
		if (found == 3)
			return true;
	}
	return false;
}

START_TEST(the_order_of_points_changes_nothing)
{
	struct chance c =
	        chance_new(chance_seed("the_order_of_points_changes_nothing", 99) + (uint64_t)_i);

	for (int set = 0; set < 60 / ONE_OF; set++) {
		struct plan_point p[MOST], q[MOST];
		size_t n = make_set(&c, _i, p);
		struct mesh one, other;

		memcpy(q, p, sizeof q);
		for (size_t i = n; i > 1; i--) {
			size_t j = (size_t)chance_int(&c, 0, (int64_t)i - 1);
			struct plan_point was = q[i - 1];

			q[i - 1] = q[j];
			q[j] = was;
		}
		ck_assert_int_eq(mesh_make(&mem, p, n, &one, NULL), STATUS_OK);
		ck_assert_int_eq(mesh_make(&mem, q, n, &other, NULL), STATUS_OK);
		ck_assert_uint_eq(one.triangle_count, other.triangle_count);
		for (size_t i = 0; i < other.triangle_count; i++)
			ck_assert(has_triangle(&one, p, other.triangles[i].corner, q));
		arena_reset(&mem);
	}
}
END_TEST

/* Four points on a circle: the leftmost, and of two the lower one, is joined to the one across. */
START_TEST(on_one_circle_the_leftmost_is_joined_to_all)
{
	static const struct plan_point p[] = { { 8, 0 }, { 8, 8 }, { 0, 0 }, { 0, 8 } };
	struct mesh m;

	ck_assert_int_eq(mesh_make(&mem, p, 4, &m, NULL), STATUS_OK);
	ck_assert_uint_eq(m.triangle_count, 2);
	for (int i = 0; i < 2; i++) {
		bool first = false;

		for (int k = 0; k < 3; k++)
			first = first || m.triangles[i].corner[k] == 2;
		ck_assert(first);
	}
	ck_assert_uint_eq(m.hull[0], 2);
	ck_assert_uint_eq(m.hull_count, 4);
}
END_TEST

/* The corners of the 2 km square, and points a um off its sides and middle: the products are as
 * large as they get. */
START_TEST(the_ends_of_reach_are_exact)
{
	const int64_t r = COORD_LIMIT_UM;
	const struct plan_point p[] = { { -r, -r }, { r, -r }, { r, r }, { -r, r }, { 0, 1 },
		{ 1, 0 }, { 0, 1 - r }, { r - 1, 0 }, { -1, -1 }, { -r, 1 }, { r, r - 1 } };

	check_set(p, sizeof p / sizeof *p, 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("triangulation against GEOS");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_loop_test(tc, triangles_agree_with_geos, 0, WAYS);
	tcase_add_loop_test(tc, the_order_of_points_changes_nothing, 0, WAYS);
	tcase_add_test(tc, on_one_circle_the_leftmost_is_joined_to_all);
	tcase_add_test(tc, the_ends_of_reach_are_exact);
	return suite_run("triangulation against GEOS", tc);
}
