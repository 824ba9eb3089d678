/* Dig and fill held to independent work on seeded random plans: a fine grid of points, each with
 * its own formation and ground, the latter from triangles found by trying all; areas and net
 * volumes by GEOS; and tracts taken apart against GEOS. */
#include "random_plan.h"
#include "slabwright/takeoff.h"
#include "suite.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { PLANS = 120, EXACT = 160, TRACTS = 200, GRID = 160, LEVELS = 12, PLANES = 4 };

static struct arena mem;
static GEOSContextHandle_t g;
static const struct rules none = { .name = "none" };

static void setup(void)
{
	g = GEOS_init_r();
}

static void teardown(void)
{
	GEOS_finish_r(g);
	arena_free(&mem);
}

/* --- the ground by trying all triangles --- */

struct triangle {
	struct point p[3];
	double level[3];
};

struct found {
	struct triangle t[LEVELS * LEVELS];
	size_t count;
};

static double cross(struct point a, struct point b, struct point c)
{
	return (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
}

static struct point place(const struct plan_spot *s)
{
	return (struct point){ (double)s->x_um, (double)s->y_um };
}

/* Whether no other level lies within the circle about three. */
static bool circle_is_empty(const struct plan_spot *s, size_t n, const struct triangle *t)
{
	const struct point *p = t->p;
	double ax = p[1].x - p[0].x, ay = p[1].y - p[0].y, bx = p[2].x - p[0].x,
	       by = p[2].y - p[0].y;
	double d = 2 * (ax * by - ay * bx), a2 = ax * ax + ay * ay, b2 = bx * bx + by * by;
	double ux = (by * a2 - ay * b2) / d, uy = (ax * b2 - bx * a2) / d, r = hypot(ux, uy);

	for (size_t i = 0; i < n; i++) {
		struct point q = place(&s[i]);

		if (hypot(q.x - p[0].x - ux, q.y - p[0].y - uy) < r * (1 - 1e-9))
			return false;
	}
	return true;
}

static void find_triangles(const struct plan_spot *s, size_t n, struct found *f)
{
	f->count = 0;
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++)
			for (size_t k = j + 1; k < n; k++) {
				struct triangle t = { { place(&s[i]), place(&s[j]), place(&s[k]) },
					{ (double)s[i].level_um, (double)s[j].level_um,
					        (double)s[k].level_um } };

				if (fabs(cross(t.p[0], t.p[1], t.p[2])) > 1 &&
				        circle_is_empty(s, n, &t))
					f->t[f->count++] = t;
			}
}

static bool within(const struct triangle *t, struct point q, double *level)
{
	double all = cross(t->p[0], t->p[1], t->p[2]);
	double a = cross(q, t->p[1], t->p[2]) / all, b = cross(t->p[0], q, t->p[2]) / all,
	       c = 1 - a - b;

	*level = a * t->level[0] + b * t->level[1] + c * t->level[2];
	return a >= -1e-12 && b >= -1e-12 && c >= -1e-12;
}

/* The level at the nearest point of a triangle's side, if it is nearer than *least. */
static void try_side(const struct triangle *t, int k, struct point q, double *least, double *level)
{
	struct point a = t->p[k], b = t->p[(k + 1) % 3];
	double dx = b.x - a.x, dy = b.y - a.y;
	double along = ((q.x - a.x) * dx + (q.y - a.y) * dy) / (dx * dx + dy * dy), far;

	along = fmin(1, fmax(0, along));
	far = hypot(a.x + along * dx - q.x, a.y + along * dy - q.y);
	if (far >= *least)
		return;
	*least = far;
	*level = t->level[k] + along * (t->level[(k + 1) % 3] - t->level[k]);
}

static double level_at(const struct found *f, struct point q)
{
	double least = DBL_MAX, level = 0;

	for (size_t i = 0; i < f->count; i++)
		if (within(&f->t[i], q, &level))
			return level;
	for (size_t i = 0; i < f->count; i++)
		for (int k = 0; k < 3; k++)
			try_side(&f->t[i], k, q, &least, &level);
	return level;
}

/* --- the margin from its definition --- */

struct beyond {
	struct point a, b;
	double ux, uy, length, width;
	double before, after; /* tangent of the mitre; INFINITY: square; 0: straight */
	bool dug;
	double depth_um;
};

struct job {
	struct plan plan;
	struct region region;
	struct plan_spot level[LEVELS];
	struct plan_plane plane[PLANES];
	struct plan_zone zone;
	struct ring zone_ring;
	struct found ground;
	struct beyond *strips;
	size_t strip_count;
};

static double field_depth(const struct plan *p)
{
	return (double)(p->laying.slab.thickness_um + p->ground.bedding_um + p->ground.sub_base_um);
}

/* Formation under the planes at a point of the paving. */
static double depth_at(const struct job *j, struct point q)
{
	const struct plan_zone *z = &j->zone;

	if (!j->plan.zone_count || !points_contain(j->zone_ring.p, j->zone_ring.n, q))
		return field_depth(&j->plan);
	return field_depth(&j->plan) - (double)z->level_um +
	       (z->paved ? (double)(z->laying.slab.thickness_um - j->plan.laying.slab.thickness_um)
	                 : 0);
}

static double corner_of(const struct beyond *in, const struct beyond *out)
{
	double turn =
	        atan2(in->ux * out->uy - in->uy * out->ux, in->ux * out->ux + in->uy * out->uy);

	if (!in->dug || !out->dug || turn <= 0)
		return 0;
	return turn < M_PI / 2 ? tan(turn / 2) : INFINITY;
}

static void make_strips(struct job *j)
{
	const struct ring *r = &j->region.rings[0];
	struct beyond *s = arena_alloc(&mem, r->n, sizeof *s);

	j->strips = s;
	j->strip_count = r->n;
	for (size_t i = 0; i < r->n; i++) {
		size_t ring, at;
		enum edge_kind kind;

		ck_assert(plan_edge_find(&j->plan, (size_t)r->edge[i], &ring, &at));
		kind = j->plan.rings[ring].nodes[at].kind;
		s[i].a = r->p[i];
		s[i].b = r->p[(i + 1) % r->n];
		s[i].length = hypot(s[i].b.x - s[i].a.x, s[i].b.y - s[i].a.y);
		s[i].ux = (s[i].b.x - s[i].a.x) / s[i].length;
		s[i].uy = (s[i].b.y - s[i].a.y) / s[i].length;
		s[i].width = (double)j->plan.site.earth.over_dig_um;
		s[i].dug = kind != EDGE_HOUSE_WALL && kind != EDGE_EXISTING_PAVING;
		s[i].depth_um =
		        depth_at(j, (struct point){ (s[i].a.x + s[i].b.x) / 2 - 1000 * s[i].uy,
		                            (s[i].a.y + s[i].b.y) / 2 + 1000 * s[i].ux });
	}
	for (size_t i = 0; i < r->n; i++) {
		s[i].after = corner_of(&s[i], &s[(i + 1) % r->n]);
		s[(i + 1) % r->n].before = s[i].after;
	}
}

static double reach(double corner, double out, double width)
{
	return isinf(corner) ? width : corner * out;
}

static bool in_strip(const struct beyond *s, struct point q)
{
	double x = q.x - s->a.x, y = q.y - s->a.y, along = x * s->ux + y * s->uy,
	       out = x * s->uy - y * s->ux;

	return s->dug && out >= 0 && out <= s->width && along >= -reach(s->before, out, s->width) &&
	       along <= s->length + reach(s->after, out, s->width);
}

/* --- jobs --- */

static void random_levels(struct chance *c, struct job *j, struct box b, size_t count, bool about)
{
	double wide = fmax(b.x1 - b.x0, b.y1 - b.y0);

	for (size_t i = 0; i < count; i++) {
		struct plan_spot *s = &j->level[i];

		*s = (struct plan_spot){ "",
			llround(chance_real(c, b.x0 - 0.2 * wide, b.x1 + 0.2 * wide)),
			llround(chance_real(c, b.y0 - 0.2 * wide, b.y1 + 0.2 * wide)),
			chance_int(c, -600000, 300000) };
		if (about && i < 4) {
			s->x_um = llround(i == 0 || i == 3 ? b.x0 - wide : b.x1 + wide);
			s->y_um = llround(i < 2 ? b.y0 - wide : b.y1 + wide);
		}
	}
	j->plan.site.spots = j->level;
	j->plan.site.spot_count = count;
	find_triangles(j->level, count, &j->ground);
}

static void random_planes(struct chance *c, struct job *j, struct box b, size_t count)
{
	for (size_t i = 0; i < count; i++)
		j->plane[i] = (struct plan_plane){ llround(chance_real(c, b.x0, b.x1)),
			llround(chance_real(c, b.y0, b.y1)), chance_int(c, -50000, 50000),
			chance_int(c, 0, 359999999), chance_int(c, 0, 60000) };
	j->plan.surface.planes = j->plane;
	j->plan.surface.count = count;
	j->plan.surface.envelope = chance_int(c, 0, 1) ? ENVELOPE_MAX : ENVELOPE_MIN;
}

static void random_earth(struct chance *c, struct job *j)
{
	j->plan.site.earth.over_dig_um = chance_int(c, 0, 3) ? chance_int(c, 1, 400000) : 0;
	j->plan.site.earth.topsoil_um = chance_int(c, 0, 1) ? chance_int(c, 1, 300000) : 0;
}

static void random_job(struct chance *c, struct job *j, enum outline_style style)
{
	struct box b;

	j->plan = random_plan(&mem, c, style);
	ck_assert_int_eq(region_from_plan(&mem, &j->plan, &j->region, NULL), STATUS_OK);
	b = region_box(&j->region);
	random_planes(c, j, b, (size_t)chance_int(c, 1, PLANES));
	random_earth(c, j);
	j->plan.zone_count = 0;
	if (chance_int(c, 0, 1)) {
		zone_init(&j->zone);
		j->zone.ring = random_zone(
		        &mem, c, &j->plan, (enum zone_style)chance_int(c, 0, ZONE_STYLES - 1));
		j->zone.paved = chance_int(c, 0, 2) > 0;
		j->zone.laying.slab.thickness_um = chance_int(c, 30, 100) * 1000;
		j->zone.level_um = chance_int(c, -2, 2) * 75000;
		ck_assert_int_eq(ring_flatten(&mem, &j->zone.ring, &j->zone_ring, NULL), STATUS_OK);
		j->plan.zones = &j->zone;
		j->plan.zone_count = 1;
	}
	random_levels(c, j, b, (size_t)chance_int(c, 3, LEVELS), false);
	make_strips(j);
}

static double surface_at(const struct plan *p, struct point q)
{
	double level = 0;

	for (size_t i = 0; i < p->surface.count; i++) {
		const struct plan_plane *f = &p->surface.planes[i];
		double a = (double)f->toward_udeg * 1e-6 * M_PI / 180;
		double is = (double)f->level_um - (double)f->fall_um_per_m * 1e-6 *
		                                          ((q.x - (double)f->x_um) * cos(a) +
		                                                  (q.y - (double)f->y_um) * sin(a));

		if (i == 0 || (p->surface.envelope == ENVELOPE_MAX ? is > level : is < level))
			level = is;
	}
	return level;
}

/* Whether a point is dug, and how deep under the planes. */
static bool is_dug(const struct job *j, struct point q, double *depth)
{
	if (points_contain(j->region.rings[0].p, j->region.rings[0].n, q)) {
		*depth = depth_at(j, q);
		return region_contains(&j->region, q);
	}
	for (size_t i = 0; i < j->strip_count; i++)
		if (in_strip(&j->strips[i], q)) {
			*depth = j->strips[i].depth_um;
			return true;
		}
	return false;
}

struct sums {
	double area, cut, fill, topsoil, deepest;
};

static struct sums by_grid(struct chance *c, const struct job *j)
{
	struct box b = region_box(&j->region);
	double w = (double)j->plan.site.earth.over_dig_um * 1.5, dx, dy;
	struct sums s = { 0 };

	b = (struct box){ b.x0 - w, b.y0 - w, b.x1 + w, b.y1 + w };
	dx = (b.x1 - b.x0) / GRID;
	dy = (b.y1 - b.y0) / GRID;
	for (int i = 0; i < GRID * GRID; i++) {
		struct point q = { b.x0 + dx * (i % GRID + chance_real(c, 0, 1)),
			b.y0 + dy * (i / GRID + chance_real(c, 0, 1)) };
		double depth, height, top = (double)j->plan.site.earth.topsoil_um;

		if (!is_dug(j, q, &depth))
			continue;
		height = level_at(&j->ground, q) - surface_at(&j->plan, q) + depth;
		s.area += dx * dy * 1e-12;
		s.topsoil += dx * dy * top * 1e-18;
		s.cut += dx * dy * fmax(0, height - top) * 1e-18;
		s.fill += dx * dy * fmax(0, top - height) * 1e-18;
		s.deepest = fmax(s.deepest, height);
	}
	return s;
}

START_TEST(volumes_agree_with_a_fine_grid)
{
	struct chance c =
	        chance_new(chance_seed("volumes_agree_with_a_fine_grid", 8108) + (uint64_t)_i);
	int done = 0;

	for (int job = 0; job < PLANS / STYLES / ONE_OF; job++) {
		struct job j = { 0 };
		struct takeoff t;
		struct sums s;
		const struct earth_result *e = &t.earth;
		double slack;

		random_job(&c, &j, (enum outline_style)_i);
		ck_assert_int_eq(takeoff_plan(&mem, &j.plan, &none, &t, NULL), STATUS_OK);
		if (!t.ready) { /* a zone beside the paving, or a bond that does not fit */
			arena_reset(&mem);
			continue;
		}
		ck_assert_msg(e->ready, "%s", e->fault.text);
		s = by_grid(&c, &j);
		slack = 0.004 * s.area;
		done++;
		ck_assert_msg(fabs(e->area_m2 + e->over_dig_m2 - s.area) < slack,
		        "job %d: %f and %f m2", job, e->area_m2 + e->over_dig_m2, s.area);
		ck_assert_msg(fabs(e->cut_m3 - s.cut) < slack * 0.5 + 0.004 * s.cut,
		        "job %d: cut %f and %f m3", job, e->cut_m3, s.cut);
		ck_assert_msg(fabs(e->fill_m3 - s.fill) < slack * 0.5 + 0.004 * s.fill,
		        "job %d: fill %f and %f m3", job, e->fill_m3, s.fill);
		ck_assert_double_eq_tol(e->topsoil_m3, s.topsoil, slack);
		ck_assert_msg(e->deepest_um > s.deepest - 1e-3 && e->deepest_um < s.deepest + 60000,
		        "job %d: deepest %f and %f um", job, e->deepest_um, s.deepest);
		arena_reset(&mem);
	}
	ck_assert_int_gt(done, PLANS / STYLES / ONE_OF / 2);
}
END_TEST

/* --- by GEOS --- */

static double area_of(const GEOSGeometry *a)
{
	double area = 0;

	ck_assert_int_eq(GEOSArea_r(g, a, &area), 1);
	return area;
}

static GEOSGeometry *strip_polygon(const struct beyond *s)
{
	double f = reach(s->before, s->width, s->width), t = reach(s->after, s->width, s->width);
	struct point n = { s->uy * s->width, -s->ux * s->width };
	struct point p[6] = { { s->a.x, s->a.y }, { s->a.x, s->a.y },
		{ s->a.x + n.x - f * s->ux, s->a.y + n.y - f * s->uy },
		{ s->b.x + n.x + t * s->ux, s->b.y + n.y + t * s->uy }, { s->b.x, s->b.y },
		{ s->b.x, s->b.y } };

	if (isinf(s->before))
		p[1] = (struct point){ s->a.x - f * s->ux, s->a.y - f * s->uy };
	if (isinf(s->after))
		p[4] = (struct point){ s->b.x + t * s->ux, s->b.y + t * s->uy };
	return geos_polygon(g, p, 6);
}

static GEOSGeometry *joined(GEOSGeometry *a, GEOSGeometry *b, bool add)
{
	GEOSGeometry *both = add ? GEOSUnion_r(g, a, b) : GEOSDifference_r(g, a, b);

	GEOSGeom_destroy_r(g, a);
	GEOSGeom_destroy_r(g, b);
	return both;
}

/* Paving and margin together, strip by strip: joined all at once, GEOS has lost one. */
static GEOSGeometry *dug_by_geos(const struct job *j)
{
	const struct ring *r = &j->region.rings[0];
	GEOSGeometry *openings =
	        joined(geos_polygon(g, r->p, r->n), geos_region(g, &j->region), false);
	GEOSGeometry *all = geos_polygon(g, r->p, r->n);

	for (size_t i = 0; i < j->strip_count; i++)
		if (j->strips[i].dug && j->strips[i].width > 0)
			all = joined(all, strip_polygon(&j->strips[i]), true);
	return joined(all, openings, false);
}

/* Area of what lies within the ground's triangles, m2, and the net volume over it, m3: area times
 * the height at the centroid. The plan has one plane and one depth. */
static void prisms_by_geos(
        const struct job *j, const GEOSGeometry *dug, double *area_m2, double *volume_m3)
{
	*area_m2 = *volume_m3 = 0;
	for (size_t i = 0; i < j->ground.count; i++) {
		const struct triangle *t = &j->ground.t[i];
		GEOSGeometry *triangle = geos_polygon(g, t->p, 3),
		             *cut = GEOSIntersection_r(g, dug, triangle), *middle;
		double area = area_of(cut) * 1e-6, x, y, level;
		struct point q;

		GEOSGeom_destroy_r(g, triangle);
		if (area > 0) {
			middle = GEOSGetCentroid_r(g, cut);
			GEOSGeomGetX_r(g, middle, &x);
			GEOSGeomGetY_r(g, middle, &y);
			GEOSGeom_destroy_r(g, middle);
			q = (struct point){ x * 1000, y * 1000 };
			within(t, q, &level);
			*area_m2 += area;
			*volume_m3 += area * 1e-6 *
			              (level - surface_at(&j->plan, q) + field_depth(&j->plan) -
			                      (double)j->plan.site.earth.topsoil_um);
		}
		GEOSGeom_destroy_r(g, cut);
	}
}

START_TEST(areas_and_net_volumes_agree_with_geos)
{
	struct chance c = chance_new(
	        chance_seed("areas_and_net_volumes_agree_with_geos", 321) + (uint64_t)_i);

	for (int job = 0; job < EXACT / STYLES / ONE_OF; job++) {
		struct job j = { .plan = random_plan(&mem, &c, (enum outline_style)_i) };
		struct section field = { .name = "field", .paved = true };
		struct paving paving = { .sections = &field, .section_count = 1 };
		struct earth_result e;
		GEOSGeometry *dug;
		struct box b;
		double area, volume;

		ck_assert_int_eq(region_from_plan(&mem, &j.plan, &j.region, NULL), STATUS_OK);
		b = region_box(&j.region);
		field.region = j.region;
		field.laying = j.plan.laying;
		random_planes(&c, &j, b, 1);
		random_earth(&c, &j);
		random_levels(&c, &j, b, LEVELS, job % 2);
		make_strips(&j);
		ck_assert_int_eq(earth_work_out(&mem, &j.plan, j.level, LEVELS, &j.region, &paving,
		                         &e, NULL),
		        STATUS_OK);
		ck_assert_msg(e.ready, "%s", e.fault.text);
		dug = dug_by_geos(&j);
		prisms_by_geos(&j, dug, &area, &volume);
		ck_assert_double_eq_tol(e.area_m2 + e.over_dig_m2, area_of(dug) * 1e-6, 1e-8);
		ck_assert_double_eq_tol(e.extrapolated_m2, area_of(dug) * 1e-6 - area, 1e-8);
		if (job % 2) {
			ck_assert_double_eq_tol(e.extrapolated_m2, 0, 1e-8);
			ck_assert_double_eq_tol(e.cut_m3 - e.fill_m3, volume, 1e-8);
		}
		GEOSGeom_destroy_r(g, dug);
		arena_reset(&mem);
	}
}
END_TEST

/* Tracts of random rings, many with arcs, over each other: of each counts what those before it
 * leave. */
START_TEST(tracts_agree_with_geos)
{
	struct chance c = chance_new(chance_seed("tracts_agree_with_geos", 17));

	for (int job = 0; job < TRACTS / ONE_OF; job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(job % STYLES));
		struct tract tract[5];
		struct ring ring[5];
		struct trapezium *t;
		GEOSGeometry *before = GEOSGeom_createEmptyPolygon_r(g);
		double area[5] = { 0 };
		size_t count;

		for (int i = 0; i < 5; i++) {
			struct plan_ring r = random_zone(&mem, &c, &plan,
			        (enum zone_style)chance_int(&c, 0, ZONE_STYLES - 1));

			ck_assert_int_eq(ring_flatten(&mem, &r, &ring[i], NULL), STATUS_OK);
			tract[i] = (struct tract){ &ring[i], 1, i == 2 ? TRACT_OF_NONE : i };
		}
		ck_assert_int_eq(tracts_take_apart(&mem, tract, 5, &t, &count, NULL), STATUS_OK);
		for (size_t i = 0; i < count; i++) {
			ck_assert_int_ne(t[i].value, TRACT_OF_NONE);
			area[t[i].value] += (t[i].y1 - t[i].y0) *
			                    (t[i].x[1] - t[i].x[0] + t[i].x[3] - t[i].x[2]) / 2;
		}
		for (int i = 0; i < 5; i++) {
			GEOSGeometry *one = geos_polygon(g, ring[i].p, ring[i].n),
			             *left = GEOSDifference_r(g, one, before),
			             *all = GEOSUnion_r(g, one, before);

			if (i != 2)
				ck_assert_double_eq_tol(
				        area[i] * 1e-12, area_of(left) * 1e-6, 1e-8);
			GEOSGeom_destroy_r(g, one);
			GEOSGeom_destroy_r(g, left);
			GEOSGeom_destroy_r(g, before);
			before = all;
		}
		GEOSGeom_destroy_r(g, before);
		arena_reset(&mem);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("earth by grid and GEOS");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_loop_test(tc, volumes_agree_with_a_fine_grid, 0, STYLES);
	tcase_add_loop_test(tc, areas_and_net_volumes_agree_with_geos, 0, STYLES);
	tcase_add_test(tc, tracts_agree_with_geos);
	return suite_run("earth by grid and GEOS", tc);
}
