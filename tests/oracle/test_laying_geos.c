/* Laying held to GEOS: every slab position of seeded random jobs is cut with GEOSIntersection in
 * the plan's own frame (the slabs are turned there, not the outline), and counts and areas must
 * agree. */
#include "random_plan.h"
#include "suite.h"

#include "slabwright/lay.h"

#include <math.h>
#include <stdlib.h>

enum { JOBS = 2000 };

struct tally {
	int64_t whole, cut, sliver, made_up;
	double area_mm2;
};

/* The definitions, written again from the exchange format's text. */
struct pattern {
	double length, width, px, py, offset, cosine, sine, x, y, fill, sliver; /* mm */
};

static struct pattern pattern_of(const struct plan_laying *l)
{
	double j = (double)l->slab.joint_um / 1000, a = (double)l->slab.length_um / 1000;
	double b = (double)l->slab.width_um / 1000,
	       turn = (double)l->rotation_udeg * 1e-6 * M_PI / 180;
	bool coordinating = l->slab.size == SIZE_COORDINATING;
	struct pattern p = { .length = coordinating ? a - j : a,
		.width = coordinating ? b - j : b };

	p.px = p.length + j;
	p.py = p.width + j;
	p.offset = l->bond == BOND_STRETCHER ? l->offset : 0;
	p.cosine = cos(turn);
	p.sine = sin(turn);
	/* Quarter turns exactly: else slab sides miss outline edges by 1e-13 mm, and GEOS keeps
	 * spurs of that width. */
	if (l->rotation_udeg % (90 * UDEG_PER_DEG) == 0) {
		p.cosine = round(p.cosine);
		p.sine = round(p.sine);
	}
	p.x = (double)l->start_x_um / 1000;
	p.y = (double)l->start_y_um / 1000;
	p.fill = (double)l->fill_width_um / 1000;
	p.sliver = fmax(50, floor(fmin(p.length, p.width) * 1000 / 4) / 1000);
	return p;
}

static struct point place(const struct pattern *p, double fx, double fy)
{
	return (struct point){ (p->x + fx * p->cosine - fy * p->sine) * 1000,
		(p->y + fx * p->sine + fy * p->cosine) * 1000 };
}

static struct box frame_box(
        GEOSContextHandle_t g, const struct pattern *p, const GEOSGeometry *polygon)
{
	const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(g, GEOSGetExteriorRing_r(g, polygon));
	struct box b = { 1e30, 1e30, -1e30, -1e30 };
	unsigned n;

	GEOSCoordSeq_getSize_r(g, s, &n);
	for (unsigned i = 0; i < n; i++) {
		double x, y, fx, fy;

		GEOSCoordSeq_getXY_r(g, s, i, &x, &y);
		fx = (x - p->x) * p->cosine + (y - p->y) * p->sine;
		fy = (y - p->y) * p->cosine - (x - p->x) * p->sine;
		b = (struct box){ fmin(b.x0, fx), fmin(b.y0, fy), fmax(b.x1, fx), fmax(b.y1, fy) };
	}
	return b;
}

static void count_part(
        GEOSContextHandle_t g, const struct pattern *p, const GEOSGeometry *part, struct tally *t)
{
	double area, least;
	struct box b;

	if (GEOSGeomTypeId_r(g, part) != GEOS_POLYGON)
		return;
	GEOSArea_r(g, part, &area);
	if (area <= 1)
		return;
	t->area_mm2 += area;
	b = frame_box(g, p, part);
	least = fmin(b.x1 - b.x0, b.y1 - b.y0);
	if (area >= p->length * p->width - 1)
		t->whole++;
	else if (least < p->fill - 1e-6)
		t->made_up++;
	else
		t->cut++, t->sliver += least < p->sliver - 1e-6;
}

static void count_slab(GEOSContextHandle_t g, const struct pattern *p, const GEOSGeometry *region,
        const GEOSPreparedGeometry *ready, double fx, double fy, struct tally *t)
{
	struct point corner[4] = { place(p, fx, fy), place(p, fx + p->length, fy),
		place(p, fx + p->length, fy + p->width), place(p, fx, fy + p->width) };
	GEOSGeometry *slab = geos_polygon(g, corner, 4);

	if (GEOSPreparedContains_r(g, ready, slab)) {
		t->whole++;
		t->area_mm2 += p->length * p->width;
	} else if (GEOSPreparedIntersects_r(g, ready, slab)) {
		GEOSGeometry *cut = GEOSIntersection_r(g, region, slab);

		ck_assert_ptr_nonnull(cut);
		for (int i = 0; i < GEOSGetNumGeometries_r(g, cut); i++)
			count_part(g, p, GEOSGetGeometryN_r(g, cut, i), t);
		GEOSGeom_destroy_r(g, cut);
	}
	GEOSGeom_destroy_r(g, slab);
}

static struct tally count_by_geos(
        GEOSContextHandle_t g, const struct plan *plan, const struct region *region)
{
	struct pattern p = pattern_of(&plan->laying);
	GEOSGeometry *r = geos_region(g, region);
	const GEOSPreparedGeometry *ready = GEOSPrepare_r(g, r);
	struct box b = frame_box(g, &p, r);
	struct tally t = { 0 };

	for (long k = (long)floor(b.y0 / p.py) - 1; k <= (long)ceil(b.y1 / p.py); k++) {
		double shift = ((double)k * p.offset - floor((double)k * p.offset)) * p.px;

		for (long i = (long)floor(b.x0 / p.px) - 2; i <= (long)ceil(b.x1 / p.px); i++)
			count_slab(g, &p, r, ready, shift + (double)i * p.px, (double)k * p.py, &t);
	}
	GEOSPreparedGeom_destroy_r(g, ready);
	GEOSGeom_destroy_r(g, r);
	return t;
}

START_TEST(counts_and_areas_agree_with_geos)
{
	struct chance c =
	        chance_new(chance_seed("counts_and_areas_agree_with_geos", 20261) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };

	for (int job = 0; job < JOBS / STYLES; job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)_i);
		const struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct laying laid;
		struct tally t;

		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		t = count_by_geos(g, &plan, &region);
		ck_assert_msg(laid.whole == t.whole && laid.cut == t.cut &&
		                      laid.sliver == t.sliver && laid.made_up == t.made_up,
		        "style %d job %d: whole %ld/%ld cut %ld/%ld sliver %ld/%ld made up %ld/%ld",
		        _i, job, (long)laid.whole, (long)t.whole, (long)laid.cut, (long)t.cut,
		        (long)laid.sliver, (long)t.sliver, (long)laid.made_up, (long)t.made_up);
		ck_assert_double_eq_tol(laid.pieces_area_m2 / (t.area_mm2 * 1e-6), 1, 1e-6);
		arena_reset(&mem);
	}
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

/* Area of the joints inside the region: the bands between courses, and in each course those between
 * slabs. */
static double joints_area(
        struct arena *mem, const struct region *frame, const struct plan_laying *l)
{
	struct slab_size s = slab_size(&l->slab);
	struct box b = region_box(frame);
	double sum = 0;

	for (int64_t k = (int64_t)floor(b.y0 / (double)s.pitch_y_um) - 1;
	        (double)(k * s.pitch_y_um) <= b.y1; k++) {
		struct point at = slab_corner(l, k, 0);
		struct region band, joint;
		int64_t first = (int64_t)floor((b.x0 - at.x) / (double)s.pitch_x_um) - 1;

		region_band(mem, frame, AXIS_Y, at.y + (double)s.width_um,
		        at.y + (double)s.pitch_y_um, &joint, NULL);
		sum += region_area_um2(&joint);
		region_band(mem, frame, AXIS_Y, at.y, at.y + (double)s.width_um, &band, NULL);
		for (int64_t i = first; slab_corner(l, k, i).x <= b.x1; i++) {
			double x = slab_corner(l, k, i).x;

			region_band(mem, &band, AXIS_X, x + (double)s.length_um,
			        x + (double)s.pitch_x_um, &joint, NULL);
			sum += region_area_um2(&joint);
		}
	}
	return sum * 1e-12;
}

/* Also: laying slab after slab gives the same pieces as counting by courses, and closed formulas
 * the same area. */
START_TEST(pieces_and_joints_fill_the_outline)
{
	struct chance c =
	        chance_new(chance_seed("pieces_and_joints_fill_the_outline", 4711) + (uint64_t)_i);
	struct arena mem = { 0 };

	for (int job = 0; job < 60; job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)_i);
		const struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct laying laid;
		struct slab_size s = slab_size(&l->slab);
		struct box b;
		int64_t whole = 0, at = 0;
		double area;

		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		area = region_area_um2(&frame) * 1e-12;
		ck_assert_double_eq_tol(
		        (laid.pieces_area_m2 + joints_area(&mem, &frame, l)) / area, 1, 1e-6);
		if (_i != STYLE_ARCS)
			ck_assert_double_eq_tol(plan_area_m2(&plan) / area, 1, 1e-9);
		else
			ck_assert_double_eq_tol(plan_area_m2(&plan) / area, 1, 2e-3);
		b = region_box(&frame);
		for (int64_t k = (int64_t)floor(b.y0 / (double)s.pitch_y_um) - 1;
		        (double)(k * s.pitch_y_um) <= b.y1; k++)
			for (int64_t i = (int64_t)floor(b.x0 / (double)s.pitch_x_um) - 2;
			        slab_corner(l, k, i).x <= b.x1; i++) {
				struct piece *p;
				size_t n;

				ck_assert_int_eq(
				        lay_one(&mem, &frame, l, k, i, &p, &n, NULL), STATUS_OK);
				for (size_t j = 0; j < n; j++) {
					if (p[j].kind == PIECE_WHOLE) {
						whole++;
						continue;
					}
					ck_assert_int_lt(at, (int64_t)laid.piece_count);
					ck_assert_int_eq(laid.pieces[at].course, k);
					ck_assert_int_eq(laid.pieces[at].index, i);
					ck_assert_int_eq((int)laid.pieces[at].kind, (int)p[j].kind);
					ck_assert_double_eq_tol(
					        laid.pieces[at].area_um2, p[j].area_um2, 10);
					at++;
				}
			}
		ck_assert_int_eq(whole, laid.whole);
		ck_assert_int_eq(at, (int64_t)laid.piece_count);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

/* Rings of chance corners on a coarse grid: ours and GEOS must agree on which are simple. */
START_TEST(sound_outlines_are_those_geos_calls_valid)
{
	struct chance c = chance_new(chance_seed("sound_outlines_are_those_geos_calls_valid", 99));
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	int sound = 0;

	for (int job = 0; job < 5000; job++) {
		struct plan plan = random_scribble(&mem, &c, (size_t)chance_int(&c, 3, 7), 60000);
		struct point p[8];
		const struct plan_ring *r = &plan.rings[0];
		GEOSGeometry *polygon;
		bool ours = outline_check(&plan, NULL) == STATUS_OK;

		for (size_t i = 0; i < r->count; i++)
			p[i] = (struct point){ (double)r->nodes[i].x_um, (double)r->nodes[i].y_um };
		polygon = geos_polygon(g, p, r->count);
		/* GEOS takes a corner given twice for one; we refuse an edge without length. */
		for (size_t i = 0; i < r->count; i++)
			if (p[i].x == p[(i + 1) % r->count].x && p[i].y == p[(i + 1) % r->count].y)
				goto next;
		ck_assert_msg(
		        ours == (GEOSisValid_r(g, polygon) == 1), "job %d: ours %d", job, ours);
		sound += ours;
	next:
		GEOSGeom_destroy_r(g, polygon);
		arena_reset(&mem);
	}
	ck_assert_int_gt(sound, 500);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("laying");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, counts_and_areas_agree_with_geos, 0, STYLES);
	tcase_add_loop_test(tc, pieces_and_joints_fill_the_outline, 0, STYLES);
	tcase_add_test(tc, sound_outlines_are_those_geos_calls_valid);
	return suite_run("laying against GEOS", tc);
}
