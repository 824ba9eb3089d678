/* Laying held to GEOS: every slab position of seeded random jobs is cut with GEOSIntersection in
 * the plan's own frame (the slabs are turned there, not the outline), and counts and areas must
 * agree. */
#include "random_plan.h"
#include "suite.h"
#include "walk.h"

#include "slabwright/lay.h"

#include <math.h>
#include <stdlib.h>

enum { JOBS = 2000 }; /* of stack and stretcher bond; a quarter as many of each other choice */

struct tally {
	int64_t whole, cut, sliver, made_up;
	double area_mm2;
};

/* The definitions, written again from the exchange format's text. */
struct grid {
	double length, width, px, py, offset, cosine, sine, x, y, fill; /* mm */
	double joint;
	enum bond bond;
	bool along_y;
	int weave; /* slabs side by side in a cell of basket weave */
};

static struct grid pattern_of(const struct plan_laying *l)
{
	double j = (double)l->slab.joint_um / 1000, a = (double)l->slab.length_um / 1000;
	double b = (double)l->slab.width_um / 1000,
	       turn = (double)l->rotation_udeg * 1e-6 * M_PI / 180;
	bool coordinating = l->slab.size == SIZE_COORDINATING;
	struct grid p = { .length = coordinating ? a - j : a, .width = coordinating ? b - j : b };

	p.px = p.length + j;
	p.py = p.width + j;
	p.offset = l->bond == BOND_STRETCHER ? l->offset : 0;
	p.joint = j;
	p.bond = l->bond;
	p.along_y = l->along == ALONG_Y;
	p.weave = (int)lround(p.px / p.py);
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
	return p;
}

static struct point place(const struct grid *p, double fx, double fy)
{
	return (struct point){ (p->x + fx * p->cosine - fy * p->sine) * 1000,
		(p->y + fx * p->sine + fy * p->cosine) * 1000 };
}

static struct box frame_box(
        GEOSContextHandle_t g, const struct grid *p, const GEOSGeometry *polygon)
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

/* A connected part of a slab of l by w mm. */
static void count_part(GEOSContextHandle_t g, const struct grid *p, const GEOSGeometry *part,
        double l, double w, struct tally *t)
{
	double area, least, sliver = fmax(50, floor(fmin(l, w) * 1000 / 4) / 1000);
	struct box b;

	if (GEOSGeomTypeId_r(g, part) != GEOS_POLYGON)
		return;
	GEOSArea_r(g, part, &area);
	if (area <= 1)
		return;
	t->area_mm2 += area;
	b = frame_box(g, p, part);
	least = fmin(b.x1 - b.x0, b.y1 - b.y0);
	if (area >= l * w - 1)
		t->whole++;
	else if (least < p->fill - 1e-6)
		t->made_up++;
	else
		t->cut++, t->sliver += least < sliver - 1e-6;
}

struct job {
	GEOSContextHandle_t g;
	const struct grid *p;
	const GEOSGeometry *region;
	const GEOSPreparedGeometry *ready;
	struct box box;
	struct tally t;
};

/* A slab of l by w mm with its lower left corner at (fx, fy) of the pattern frame. */
static void count_rectangle(struct job *job, double fx, double fy, double l, double w)
{
	const struct grid *p = job->p;
	struct point corner[4] = { place(p, fx, fy), place(p, fx + l, fy), place(p, fx + l, fy + w),
		place(p, fx, fy + w) };
	GEOSGeometry *slab;

	if (fx > job->box.x1 || fy > job->box.y1 || fx + l < job->box.x0 || fy + w < job->box.y0)
		return;
	slab = geos_polygon(job->g, corner, 4);
	if (GEOSPreparedContains_r(job->g, job->ready, slab)) {
		job->t.whole++;
		job->t.area_mm2 += l * w;
	} else if (GEOSPreparedIntersects_r(job->g, job->ready, slab)) {
		GEOSGeometry *cut = GEOSIntersection_r(job->g, job->region, slab);

		ck_assert_ptr_nonnull(cut);
		for (int i = 0; i < GEOSGetNumGeometries_r(job->g, cut); i++)
			count_part(job->g, p, GEOSGetGeometryN_r(job->g, cut, i), l, w, &job->t);
		GEOSGeom_destroy_r(job->g, cut);
	}
	GEOSGeom_destroy_r(job->g, slab);
}

static void count_slab(struct job *job, double fx, double fy, bool standing)
{
	const struct grid *p = job->p;

	count_rectangle(
	        job, fx, fy, standing ? p->width : p->length, standing ? p->length : p->width);
}

static double fraction(double t)
{
	return t - floor(t);
}

static void count_courses(struct job *job)
{
	const struct grid *p = job->p;
	const struct box *b = &job->box;

	if (p->along_y) {
		for (long k = (long)floor(b->x0 / p->px) - 1; k <= (long)ceil(b->x1 / p->px); k++)
			for (long i = (long)floor(b->y0 / p->py) - 2;
			        i <= (long)ceil(b->y1 / p->py); i++)
				count_slab(job, (double)k * p->px,
				        fraction((double)k * p->offset) * p->py + (double)i * p->py,
				        false);
		return;
	}
	for (long k = (long)floor(b->y0 / p->py) - 1; k <= (long)ceil(b->y1 / p->py); k++)
		for (long i = (long)floor(b->x0 / p->px) - 2; i <= (long)ceil(b->x1 / p->px); i++)
			count_slab(job, fraction((double)k * p->offset) * p->px + (double)i * p->px,
			        (double)k * p->py, false);
}

static void count_herringbone(struct job *job)
{
	const struct box *b = &job->box;
	double w = job->p->py;
	long reach =
	        (long)ceil((fmax(fabs(b->x0), fabs(b->x1)) + fmax(fabs(b->y0), fabs(b->y1))) / w) +
	        8;

	for (long m = (long)floor(b->y0 / w) - 4; m <= (long)ceil(b->y1 / w) + 1; m++)
		for (long n = -reach / 4 - 2; n <= reach / 4 + 2; n++) {
			double x = w * (double)m + 4 * w * (double)n, y = w * (double)m;

			count_slab(job, x, y, false);
			count_slab(job, x, y + w, true);
		}
}

static void count_basketweave(struct job *job)
{
	const struct box *b = &job->box;
	int n = job->p->weave;
	double w = job->p->py, side = w * n;

	for (long row = (long)floor(b->y0 / side) - 1; row <= (long)ceil(b->y1 / side); row++)
		for (long column = (long)floor(b->x0 / side) - 1;
		        column <= (long)ceil(b->x1 / side); column++)
			for (int i = 0; i < n; i++) {
				bool standing = (row + column) % 2 != 0;

				count_slab(job, side * (double)column + (standing ? w * i : 0),
				        side * (double)row + (standing ? 0 : w * i), standing);
			}
}

static void count_mixed(struct job *job, const struct plan_repeat *r)
{
	const struct box *b = &job->box;
	double sx = (double)r->step_x_um / 1000, sy = (double)r->step_y_um / 1000,
	       slant = (double)r->slant_um / 1000;

	for (long k = (long)floor(b->y0 / sy) - 12; k <= (long)ceil(b->y1 / sy) + 2; k++)
		for (long i = (long)floor((b->x0 - slant * (double)k) / sx) - 4;
		        i <= (long)ceil((b->x1 - slant * (double)k) / sx) + 2; i++)
			for (size_t n = 0; n < r->count; n++)
				count_rectangle(job,
				        (double)r->slabs[n].x_um / 1000 + slant * (double)k +
				                sx * (double)i,
				        (double)r->slabs[n].y_um / 1000 + sy * (double)k,
				        (double)r->slabs[n].length_um / 1000 - job->p->joint,
				        (double)r->slabs[n].width_um / 1000 - job->p->joint);
}

/* The courses are ours, drawn by chance; what they are cut to is not. */
static void count_random(struct job *job, const struct laying *laid)
{
	for (size_t k = 0; k < laid->course_count; k++)
		for (size_t i = 0; i < laid->courses[k].count; i++) {
			const struct pattern_part *part =
			        &laid->pattern.parts[laid->courses[k].size[i]];

			count_rectangle(job, (double)laid->courses[k].x_um[i] / 1000,
			        (double)laid->courses[k].y_um / 1000,
			        (double)part->length_um / 1000, (double)part->width_um / 1000);
		}
}

static struct tally count_by_geos(GEOSContextHandle_t g, const struct plan *plan,
        const struct region *region, const struct laying *laid)
{
	struct grid p = pattern_of(&plan->laying);
	GEOSGeometry *r = geos_region(g, region);
	struct job job = { .g = g,
		.p = &p,
		.region = r,
		.ready = GEOSPrepare_r(g, r),
		.box = frame_box(g, &p, r) };

	if (p.bond == BOND_HERRINGBONE)
		count_herringbone(&job);
	else if (p.bond == BOND_BASKETWEAVE)
		count_basketweave(&job);
	else if (p.bond == BOND_MIXED)
		count_mixed(&job, &plan->laying.repeat);
	else if (p.bond == BOND_COURSED_RANDOM)
		count_random(&job, laid);
	else
		count_courses(&job);
	GEOSPreparedGeom_destroy_r(g, job.ready);
	GEOSGeom_destroy_r(g, r);
	return job.t;
}

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
		struct tally t;

		random_bond(&c, &plan.laying, _i / STYLES);

		region_from_plan(&mem, &plan, &region, NULL);
		region_turn(&mem, &region, (double)l->start_x_um, (double)l->start_y_um,
		        l->rotation_udeg, &frame, NULL);
		ck_assert_int_eq(lay_region(&mem, &frame, l, &laid, NULL), STATUS_OK);
		t = count_by_geos(g, &plan, &region, &laid);
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

	for (int number = 0; number < 60; number++) {
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

	for (int number = 0; number < 200; number++) {
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

	for (int number = 0; number < 100; number++) {
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
	tcase_add_loop_test(tc, counts_and_areas_agree_with_geos, 0, STYLES * BOND_CHOICES);
	tcase_add_loop_test(tc, pieces_and_joints_fill_the_outline, 0, STYLES * LATTICE_CHOICES);
	tcase_add_loop_test(
	        tc, moving_turning_and_mirroring_change_no_count, 0, STYLES * LATTICE_CHOICES);
	tcase_add_test(tc, random_courses_keep_their_promises);
	tcase_add_test(tc, sound_outlines_are_those_geos_calls_valid);
	return suite_run("laying against GEOS", tc);
}
