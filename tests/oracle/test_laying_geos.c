/* Laying held to GEOS: every slab position of seeded random jobs is cut one by one, and counts and
 * areas must agree. */
#include "brute.h"
#include "random_plan.h"
#include "suite.h"
#include "walk.h"

#include "slabwright/lay.h"

#include <math.h>
#include <stdlib.h>

enum {
	JOBS = 2000 / ONE_OF
}; /* of stack and stretcher bond; a quarter as many of each other choice */

START_TEST(counts_and_areas_agree_with_geos)
{
	struct chance c =
	        chance_new(chance_seed("counts_and_areas_agree_with_geos", 20261) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };

	for (int job = 0; job < JOBS / STYLES / (_i < STYLES ? 1 : 4); job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(_i % STYLES));
		const struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct laying laid;
		GEOSGeometry *outline;
		struct tally t;

		random_bond(&c, &plan.laying, _i / STYLES);

		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		outline = geos_region(g, &region);
		t = count_by_geos(g, l, outline, &laid);
		GEOSGeom_destroy_r(g, outline);
		ck_assert_msg(laid.whole == t.whole && laid.cut == t.cut &&
		                      laid.sliver == t.sliver && laid.made_up == t.made_up,
		        "style and bond %d job %d: whole %ld/%ld cut %ld/%ld sliver %ld/%ld made "
		        "up %ld/%ld",
		        _i, job, (long)laid.whole, (long)t.whole, (long)laid.cut, (long)t.cut,
		        (long)laid.sliver, (long)t.sliver, (long)laid.made_up, (long)t.made_up);
		ck_assert_double_eq_tol(laid.pieces_area_m2 / (t.area_mm2 * 1e-6), 1, 1e-6);
		arena_reset(&mem);
	}
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

static double box_area(
        struct arena *mem, const struct region *r, double x0, double y0, double x1, double y1)
{
	struct region band, part;

	region_band(mem, r, AXIS_Y, y0, y1, &band, NULL);
	region_band(mem, &band, AXIS_X, x0, x1, &part, NULL);
	return region_area_um2(&part);
}

/* Also: laying slab after slab gives the same pieces as counting by courses, and closed formulas
 * the same area. */
START_TEST(pieces_and_joints_fill_the_outline)
{
	struct chance c =
	        chance_new(chance_seed("pieces_and_joints_fill_the_outline", 4711) + (uint64_t)_i);
	struct arena mem = { 0 };

	for (int number = 0; number < 60 / ONE_OF; number++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(_i % STYLES));
		struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct laying laid;
		struct walk walk;
		int64_t whole = 0;
		size_t cut = 0;
		double area, joints = 0, j;

		random_bond(&c, l, _i / STYLES);
		j = (double)l->slab.joint_um;
		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		area = region_area_um2(&frame);
		if (_i % STYLES != STYLE_ARCS)
			ck_assert_double_eq_tol(plan_area_m2(&plan) * 1e12 / area, 1, 1e-9);
		else
			ck_assert_double_eq_tol(plan_area_m2(&plan) * 1e12 / area, 1, 2e-3);
		for (walk = walk_start(&laid.pattern, region_box(&frame)); walk_on(&walk);) {
			struct point at = pattern_corner(&laid.pattern, walk.spot);
			struct point size = pattern_size(&laid.pattern, walk.spot.part);
			const struct piece *ours;
			struct piece *p;
			size_t n, m;

			joints += box_area(&mem, &frame, at.x + size.x, at.y, at.x + size.x + j,
			        at.y + size.y + j);
			joints += box_area(&mem, &frame, at.x, at.y + size.y, at.x + size.x,
			        at.y + size.y + j);
			ck_assert_int_eq(
			        lay_one(&mem, &frame, l, walk.spot, &p, &n, NULL), STATUS_OK);
			if (n == 1 && p->kind == PIECE_WHOLE) {
				whole++;
				continue;
			}
			ours = pieces_at(&laid, walk.spot, &m);
			ck_assert_uint_eq(m, n);
			for (size_t k = 0; k < n; k++) {
				ck_assert_int_eq((int)ours[k].kind, (int)p[k].kind);
				ck_assert_uint_eq(ours[k].sides, p[k].sides);
				ck_assert_double_eq_tol(ours[k].area_um2, p[k].area_um2, 10);
			}
			cut += n;
		}
		ck_assert_int_eq(whole, laid.whole);
		ck_assert_uint_eq(cut, laid.piece_count);
		ck_assert_double_eq_tol((laid.pieces_area_m2 * 1e12 + joints) / area, 1, 1e-6);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

/* What coursed random bond promises, whatever the paving: courses lie on each other, slabs stand
 * side by side, no upright joint comes near one of the course before, and the sizes are used up as
 * the mix has them. */
START_TEST(random_courses_keep_their_promises)
{
	struct chance c = chance_new(chance_seed("random_courses_keep_their_promises", 555));
	struct arena mem = { 0 };

	for (int number = 0; number < 200 / ONE_OF; number++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(number % STYLES));
		struct plan_laying *l = &plan.laying;
		struct region region, frame;
		struct laying laid, again;
		double total = 0, shares = 0, used[MIX_SIZES] = { 0 };

		random_bond(&c, l, 6);
		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &again, NULL), STATUS_OK);
		ck_assert_int_eq(laid.whole, again.whole);
		ck_assert_uint_eq(laid.piece_count, again.piece_count);
		for (size_t k = 0; k < laid.course_count; k++) {
			const struct random_course *a = &laid.courses[k], *b = a + 1;

			for (size_t i = 0; i + 1 < a->count; i++)
				ck_assert_int_eq(a->x_um[i] + l->mix.sizes[a->size[i]].length_um,
				        a->x_um[i + 1]);
			for (size_t i = 0; i < a->count; i++)
				ck_assert_int_eq(l->mix.sizes[a->size[i]].width_um,
				        a->width_um + l->slab.joint_um);
			if (k + 1 == laid.course_count)
				break;
			ck_assert_int_eq(a->y_um + a->width_um + l->slab.joint_um, b->y_um);
			for (size_t i = 1; i < a->count; i++)
				for (size_t j = 1; j < b->count; j++)
					ck_assert_int_gt(llabs(a->x_um[i] - b->x_um[j]), 30000);
		}
		for (size_t i = 0; i < laid.course_count; i++)
			for (size_t j = 0; j < laid.courses[i].count; j++) {
				size_t n;
				struct slab_spot spot = { laid.courses[i].size[j],
					laid.courses[i].number, (int64_t)j },
				                 found;
				struct point at = laid_corner(&laid, spot);

				ck_assert(laid_at(
				        &laid, (struct point){ at.x + 1000, at.y + 1000 }, &found));
				ck_assert_int_eq(found.course, spot.course);
				ck_assert_int_eq(found.index, spot.index);
				used[spot.part] += pieces_at(&laid, spot, &n) != NULL;
			}
		for (size_t i = 0; i < l->mix.count; i++) {
			used[i] += (double)laid.of_size[laid.pattern.parts[i].size].whole;
			total += used[i];
			shares += (double)l->mix.sizes[i].share;
		}
		/* Within one course's worth of slabs, and one in ten. */
		for (size_t i = 0; i < l->mix.count; i++)
			ck_assert_double_eq_tol(used[i],
			        total * (double)l->mix.sizes[i].share / shares, 25 + total * 0.1);
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

static struct laying lay_plan(struct arena *mem, const struct plan *plan)
{
	const struct plan_laying *l = &plan->laying;
	struct region region, frame;
	struct laying laid;

	ck_assert_int_eq(region_from_plan(mem, plan, &region, NULL), STATUS_OK);
	region_turn(mem, &region, (double)l->start_x_um, (double)l->start_y_um, l->rotation_udeg,
	        &frame, NULL);
	ck_assert_int_eq(lay_region(mem, &frame, l, &laid, NULL), STATUS_OK);
	return laid;
}

static void same_counts(
        const struct laying *a, const struct laying *b, const char *after, int number)
{
	ck_assert_msg(a->whole == b->whole && a->cut == b->cut && a->sliver == b->sliver &&
	                      a->made_up == b->made_up,
	        "job %d, %s: whole %ld/%ld cut %ld/%ld sliver %ld/%ld made up %ld/%ld", number,
	        after, (long)a->whole, (long)b->whole, (long)a->cut, (long)b->cut, (long)a->sliver,
	        (long)b->sliver, (long)a->made_up, (long)b->made_up);
	ck_assert_double_eq_tol(a->pieces_area_m2, b->pieces_area_m2, 1e-7);
}

/* Moves or turns every corner and the start alike: (x, y) becomes (ax + by + dx, cx + dy ...). */
static void change_plan(
        struct plan *p, int64_t a, int64_t b, int64_t c, int64_t d, int64_t dx, int64_t dy)
{
	struct plan_laying *l = &p->laying;
	int64_t x = l->start_x_um, y = l->start_y_um;

	for (size_t i = 0; i < p->ring_count; i++)
		for (size_t j = 0; j < p->rings[i].count; j++) {
			struct plan_node *n = &p->rings[i].nodes[j];
			int64_t nx = n->x_um, ny = n->y_um;

			n->x_um = a * nx + b * ny + dx;
			n->y_um = c * nx + d * ny + dy;
		}
	l->start_x_um = a * x + b * y + dx;
	l->start_y_um = c * x + d * y + dy;
}

/* A plan moved or turned with its start gives the same slabs; mirrored, with the bond mirrored too,
 * it does as well: in stack and stretcher bond the mirrored slab has its joint on the other side,
 * so the start lies a slab further on, and courses shift the other way. */
START_TEST(moving_turning_and_mirroring_change_no_count)
{
	struct chance c = chance_new(
	        chance_seed("moving_turning_and_mirroring_change_no_count", 808) + (uint64_t)_i);
	struct arena mem = { 0 };

	for (int number = 0; number < 100 / ONE_OF; number++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(_i % STYLES)), q;
		struct laying first, then;

		random_bond(&c, &plan.laying, _i / STYLES);
		first = lay_plan(&mem, &plan);
		plan_copy(&mem, &plan, &q, NULL);
		change_plan(&q, 1, 0, 0, 1, chance_int(&c, -9000000, 9000000),
		        chance_int(&c, -9000000, 9000000));
		then = lay_plan(&mem, &q);
		same_counts(&first, &then, "moved", number);
		change_plan(&q, 0, -1, 1, 0, 0, 0);
		q.laying.rotation_udeg += 90 * UDEG_PER_DEG;
		then = lay_plan(&mem, &q);
		same_counts(&first, &then, "turned", number);
		if (_i / STYLES == 0) {
			struct slab_size s = slab_size(&plan.laying.slab);
			double turn = (double)plan.laying.rotation_udeg * 1e-6 * M_PI / 180;

			if (plan.laying.rotation_udeg % (90 * UDEG_PER_DEG))
				continue; /* the start would have to lie between micrometres */
			plan_copy(&mem, &plan, &q, NULL);
			change_plan(&q, -1, 0, 0, 1, 0, 0);
			q.laying.rotation_udeg = -plan.laying.rotation_udeg;
			q.laying.start_x_um -= (int64_t)lround(cos(turn)) * s.length_um;
			q.laying.start_y_um += (int64_t)lround(sin(turn)) * s.length_um;
			q.laying.offset = plan.laying.offset > 0 ? 1 - plan.laying.offset : 0;
			then = lay_plan(&mem, &q);
			same_counts(&first, &then, "mirrored", number);
		}
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

	for (int job = 0; job < 5000 / ONE_OF; job++) {
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
	ck_assert_int_gt(sound, 500 / ONE_OF);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("laying");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, counts_and_areas_agree_with_geos, 0, STYLES * BOND_CHOICES);
	tcase_add_loop_test(tc, pieces_and_joints_fill_the_outline, 0, STYLES * LATTICE_CHOICES);
	tcase_add_loop_test(
	        tc, moving_turning_and_mirroring_change_no_count, 0, STYLES * LATTICE_CHOICES);
	tcase_add_test(tc, random_courses_keep_their_promises);
	tcase_add_test(tc, sound_outlines_are_those_geos_calls_valid);
	return suite_run("laying against GEOS", tc);
}
