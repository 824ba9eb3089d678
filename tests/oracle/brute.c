/* brute.c - see brute.h. The definitions, written again from the exchange format's text. */
#include "brute.h"

#include "random_plan.h"

#include <check.h>
#include <math.h>

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

static struct box polygon_box(
        GEOSContextHandle_t g, const struct grid *p, const GEOSGeometry *polygon, struct box b)
{
	const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(g, GEOSGetExteriorRing_r(g, polygon));
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

/* Of a polygon or of several. */
static struct box frame_box(GEOSContextHandle_t g, const struct grid *p, const GEOSGeometry *shape)
{
	struct box b = { 1e30, 1e30, -1e30, -1e30 };

	for (int i = 0; i < GEOSGetNumGeometries_r(g, shape); i++) {
		const GEOSGeometry *part = GEOSGetGeometryN_r(g, shape, i);

		if (GEOSGeomTypeId_r(g, part) == GEOS_POLYGON && !GEOSisEmpty_r(g, part))
			b = polygon_box(g, p, part, b);
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

/* Without a grid, sides that nearly coincide can lose all of a slab. */
static const double GRID_MM = 1e-7;

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
		GEOSGeometry *cut = GEOSIntersectionPrec_r(job->g, job->region, slab, GRID_MM);

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

struct tally count_by_geos(GEOSContextHandle_t g, const struct plan_laying *l,
        const GEOSGeometry *region, const struct laying *laid)
{
	struct grid p = pattern_of(l);
	struct job job = { .g = g,
		.p = &p,
		.region = region,
		.ready = GEOSPrepare_r(g, region),
		.box = frame_box(g, &p, region) };

	if (p.bond == BOND_HERRINGBONE)
		count_herringbone(&job);
	else if (p.bond == BOND_BASKETWEAVE)
		count_basketweave(&job);
	else if (p.bond == BOND_MIXED)
		count_mixed(&job, &l->repeat);
	else if (p.bond == BOND_COURSED_RANDOM)
		count_random(&job, laid);
	else
		count_courses(&job);
	GEOSPreparedGeom_destroy_r(g, job.ready);
	return job.t;
}

struct tally count_run_by_geos(GEOSContextHandle_t g, const struct plan_border *border,
        struct point from, struct point to, const GEOSGeometry *strip)
{
	struct border_size size = border_size(border);
	double l = hypot(to.x - from.x, to.y - from.y);
	double pitch = (double)size.pitch_along_um / 1000, first;
	struct grid p = { .cosine = (to.x - from.x) / l,
		.sine = (to.y - from.y) / l,
		.x = from.x / 1000,
		.y = from.y / 1000,
		.fill = 10 };
	struct job job = { .g = g,
		.p = &p,
		.region = strip,
		.ready = GEOSPrepare_r(g, strip),
		.box = frame_box(g, &p, strip) };

	first = job.box.x0;
	/* Very sharp corners have a wedge behind the edge's line: there the slabs go on. */
	for (int k = -4; k <= 4; k++)
		for (int i = 0; first + i * pitch < job.box.x1; i++)
			count_rectangle(&job, first + i * pitch,
			        k * (double)size.pitch_across_um / 1000,
			        (double)size.along_um / 1000, (double)size.across_um / 1000);
	GEOSPreparedGeom_destroy_r(g, job.ready);
	return job.t;
}
