/* earthwork.c - dig and fill.
 *
 * The outline, its sections and the strips beyond it are taken apart into trapezia of one depth
 * under the surface. Each is cut along the lines where planes of the surface meet, then along the
 * sides of the ground's cells. On what is left ground and formation are linear, and the volume
 * between them is a prism with a slanted top. */
#include "slabwright/earth.h"

#include "margin.h"

#include <math.h>

struct polygon {
	struct point *p;
	size_t n;
};

struct digging {
	struct arena *mem;
	const struct plan *plan;
	const struct region *region;
	const struct paving *paving;
	struct earth_result *out;
	struct linear *planes; /* of the finished surface; one level one where there is none */
	size_t plane_count;
	struct polygon piece[3]; /* room to cut in */
	size_t room;
	double *height; /* of the ground over the formation, at a piece's corners */
	double topsoil_um;
};

/* --- parts and layers --- */

static double layers_um(const struct plan *plan, const struct plan_laying *laying)
{
	return (double)(laying->slab.thickness_um + plan->ground.bedding_um +
	                plan->ground.sub_base_um);
}

/* Formation under the plan's surface. */
static double depth_of(const struct digging *d, const struct section *s)
{
	return layers_um(d->plan, s->paved ? &s->laying : &d->plan->laying) - (double)s->level_um;
}

/* Each section, and after them the margin beside each. */
static enum status make_parts(struct digging *d, struct error *err)
{
	size_t n = d->paving->section_count;

	d->out->parts = arena_alloc(d->mem, 2 * n, sizeof *d->out->parts);
	if (!d->out->parts)
		return error_memory(err);
	d->out->part_count = 2 * n;
	for (size_t i = 0; i < 2 * n; i++) {
		const struct section *s = &d->paving->sections[i % n];
		struct earth_part *p = &d->out->parts[i];

		*p = (struct earth_part){ .name = s->name,
			.section = i % n,
			.margin = i >= n,
			.depth_um = depth_of(d, s) };
		if (p->margin && !(p->name = arena_print(d->mem, "over-dig beside %s", s->name)))
			return error_memory(err);
	}
	return STATUS_OK;
}

static void work_out_layers(struct digging *d)
{
	const struct plan_ground *g = &d->plan->ground;
	double paved = plan_area_m2(d->plan);

	for (size_t i = 0; i < d->paving->section_count; i++) {
		const struct section *s = &d->paving->sections[i];

		if (s->paved)
			continue;
		paved -= s->area_m2;
		d->out->unpaved_m3 += s->area_m2 * layers_um(d->plan, &d->plan->laying) * 1e-6;
	}
	d->out->bedding =
	        (struct earth_layer){ paved, g->bedding_um, paved * (double)g->bedding_um * 1e-6 };
	d->out->sub_base = (struct earth_layer){ paved, g->sub_base_um,
		paved * (double)g->sub_base_um * 1e-6 };
}

/* Parts without area go. */
static void drop_empty(struct earth_result *out)
{
	size_t kept = 0;

	for (size_t i = 0; i < out->part_count; i++)
		if (out->parts[i].area_m2 > 0)
			out->parts[kept++] = out->parts[i];
	out->part_count = kept;
}

/* --- trapezia --- */

static void add_tract(
        struct tract *tracts, size_t *count, const struct ring *rings, size_t n, size_t value)
{
	tracts[(*count)++] = (struct tract){ rings, n, (int)value };
}

/* Borders and zones, the rest of the outline, nothing in its openings, and beyond it strips. */
static enum status take_apart(struct digging *d, const struct ring *strips, const size_t *at,
        size_t strip_count, struct trapezium **out, size_t *count, struct error *err)
{
	size_t sections = d->paving->section_count, n = 0;
	struct tract *tracts = arena_alloc(d->mem, sections + strip_count + 1, sizeof *tracts);

	if (!tracts)
		return error_memory(err);
	for (size_t i = 1; i < sections; i++)
		add_tract(tracts, &n, d->paving->sections[i].region.rings,
		        d->paving->sections[i].region.count, i);
	add_tract(tracts, &n, d->region->rings, d->region->count, 0);
	tracts[n++] = (struct tract){ d->region->rings, 1, TRACT_OF_NONE };
	for (size_t i = 0; i < strip_count; i++)
		add_tract(tracts, &n, &strips[i], 1,
		        sections + margin_section(d->plan, d->region, d->paving, at[i]));
	return tracts_take_apart(d->mem, tracts, n, out, count, err);
}

/* --- pieces --- */

static struct linear minus(const struct linear *f, const struct linear *g)
{
	return (struct linear){ f->x, f->y, f->value - linear_at(g, f->x, f->y),
		f->x_slope - g->x_slope, f->y_slope - g->y_slope };
}

/* Cuts off what lies where f is negative. The room is ample: a line cuts two sides. */
static bool cut_off(
        const struct polygon *from, const struct linear *f, struct polygon *to, size_t room)
{
	struct point before = from->p[from->n - 1];
	double was = linear_at(f, before.x, before.y);

	to->n = 0;
	for (size_t i = 0; i < from->n && to->n + 1 < room; i++) {
		struct point p = from->p[i];
		double is = linear_at(f, p.x, p.y);

		if ((was < 0 && is > 0) || (was > 0 && is < 0)) {
			double t = was / (was - is);

			to->p[to->n++] = (struct point){ before.x + (p.x - before.x) * t,
				before.y + (p.y - before.y) * t };
		}
		if (is >= 0)
			to->p[to->n++] = p;
		before = p;
		was = is;
	}
	return to->n > 2;
}

/* The integral over a triangle of what a linear function is above 0; a, b, c: its values at the
 * corners. Where one of them has another sign than the two others, that corner's part is a triangle
 * too. */
static double above_zero(double area, double a, double b, double c)
{
	double all = area * (a + b + c) / 3, lone = a, other = b, third = c, part;
	int above = (a > 0) + (b > 0) + (c > 0);
	bool one = above == 1;

	if (above == 0 || above == 3)
		return above ? all : 0;
	if ((a > 0) != one && (b > 0) == one) {
		lone = b;
		other = a;
	} else if ((a > 0) != one) {
		lone = c;
		third = a;
	}
	part = area * (lone / (lone - other)) * (lone / (lone - third)) * lone / 3;
	return one ? part : all - part;
}

static void note_extremes(struct digging *d, struct point p, double height)
{
	struct earth_result *out = d->out;

	if (height > out->deepest_um) {
		out->deepest_um = height;
		out->deepest_x_um = p.x;
		out->deepest_y_um = p.y;
	}
	if (d->topsoil_um - height > out->highest_um) {
		out->highest_um = d->topsoil_um - height;
		out->highest_x_um = p.x;
		out->highest_y_um = p.y;
	}
}

/* Adds a piece on which plane and cell are each one. */
static void add_piece(struct digging *d, struct earth_part *part, const struct polygon *piece,
        const struct linear *plane, const struct ground_cell *cell)
{
	double area = 0, cut = 0, sum = 0;

	for (size_t i = 0; i < piece->n; i++) {
		struct point p = piece->p[i];
		double level = linear_at(&cell->level, p.x, p.y);

		level = fmin(cell->highest_um, fmax(cell->lowest_um, level));
		d->height[i] = level - linear_at(plane, p.x, p.y) + part->depth_um;
		note_extremes(d, p, d->height[i]);
		d->out->farthest_um = fmax(d->out->farthest_um, ground_cell_beyond(cell, p.x, p.y));
		d->height[i] -= d->topsoil_um;
	}
	for (size_t i = 1; i + 1 < piece->n; i++) {
		const struct point corners[] = { piece->p[0], piece->p[i], piece->p[i + 1] };
		const double *h = d->height;
		double a = fabs(ring_polygon_area(corners, 3));

		area += a;
		sum += a * (h[0] + h[i] + h[i + 1]) / 3;
		cut += above_zero(a, h[0], h[i], h[i + 1]);
	}
	part->area_m2 += area * 1e-12;
	part->topsoil_m3 += area * d->topsoil_um * 1e-18;
	part->cut_m3 += cut * 1e-18;
	part->fill_m3 += fmax(0, cut - sum) * 1e-18;
	if (cell->beyond)
		d->out->extrapolated_m2 += area * 1e-12;
}

static bool boxes_meet(const struct box *a, const struct box *b)
{
	return a->x0 <= b->x1 && b->x0 <= a->x1 && a->y0 <= b->y1 && b->y0 <= a->y1;
}

/* A piece under one plane, in piece[0]. */
static void add_under_plane(struct digging *d, struct earth_part *part, const struct linear *plane)
{
	struct box box = points_box(d->piece[0].p, d->piece[0].n);

	for (size_t i = 0; i < d->out->ground.cell_count; i++) {
		const struct ground_cell *c = &d->out->ground.cells[i];
		const struct polygon *piece = &d->piece[0];
		int k = 0;

		if (!boxes_meet(&box, &c->box))
			continue;
		for (; k < c->sides; k++) {
			struct polygon *to = &d->piece[1 + k % 2];

			if (!cut_off(piece, &c->side[k], to, d->room))
				break;
			piece = to;
		}
		if (k == c->sides)
			add_piece(d, part, piece, plane, c);
	}
}

static bool same_plane(const struct linear *f)
{
	return f->value == 0 && f->x_slope == 0 && f->y_slope == 0;
}

/* Cuts the piece in piece[0] down to where plane k is the one that counts. */
static bool cut_to_plane(struct digging *d, size_t k)
{
	for (size_t j = 0; j < d->plane_count; j++) {
		bool highest = d->plan->surface.envelope == ENVELOPE_MAX;
		const struct linear *one = &d->planes[highest ? k : j],
		                    *two = &d->planes[highest ? j : k];
		struct linear over = minus(one, two);
		struct polygon kept;

		if (j == k || (same_plane(&over) && k < j))
			continue;
		if (same_plane(&over) || !cut_off(&d->piece[0], &over, &d->piece[1], d->room))
			return false;
		kept = d->piece[1];
		d->piece[1] = d->piece[0];
		d->piece[0] = kept;
	}
	return true;
}

static void add_trapezium(struct digging *d, const struct trapezium *t)
{
	for (size_t k = 0; k < d->plane_count; k++) {
		struct polygon *p = &d->piece[0];

		p->n = 4;
		p->p[0] = (struct point){ t->x[0], t->y0 };
		p->p[1] = (struct point){ t->x[1], t->y0 };
		p->p[2] = (struct point){ t->x[3], t->y1 };
		p->p[3] = (struct point){ t->x[2], t->y1 };
		if (cut_to_plane(d, k))
			add_under_plane(d, &d->out->parts[t->value], &d->planes[k]);
	}
}

/* --- all of it --- */

static struct linear linear_of_plane(const struct plan_plane *p)
{
	double c, s, fall = (double)p->fall_um_per_m * 1e-6;

	turn_of(p->toward_udeg, &c, &s);
	return (struct linear){ (double)p->x_um, (double)p->y_um, (double)p->level_um, -fall * c,
		-fall * s };
}

static enum status make_planes(struct digging *d, struct error *err)
{
	const struct plan_surface *s = &d->plan->surface;

	d->plane_count = s->count;
	d->planes = arena_alloc(d->mem, s->count, sizeof *d->planes);
	d->room = 16 + 2 * s->count;
	d->height = arena_alloc(d->mem, d->room, sizeof *d->height);
	if (!d->planes || !d->height)
		return error_memory(err);
	for (size_t i = 0; i < s->count; i++)
		d->planes[i] = linear_of_plane(&s->planes[i]);
	for (int i = 0; i < 3; i++)
		if (!(d->piece[i].p = arena_alloc(d->mem, d->room, sizeof *d->piece[i].p)))
			return error_memory(err);
	return STATUS_OK;
}

static enum status integrate(struct digging *d, struct error *err)
{
	struct trapezium *trapezia;
	struct ring *strips;
	size_t count, strip_count, *at;
	enum status st = make_planes(d, err);

	if (st == STATUS_OK)
		st = margin_strips(d->mem, d->plan, d->region,
		        (double)d->plan->site.earth.over_dig_um, &strips, &at, &strip_count, err);
	if (st == STATUS_OK)
		st = take_apart(d, strips, at, strip_count, &trapezia, &count, err);
	for (size_t i = 0; st == STATUS_OK && i < count; i++)
		add_trapezium(d, &trapezia[i]);
	return st;
}

static void add_up(const struct plan_earth *e, struct earth_result *out)
{
	for (size_t i = 0; i < out->part_count; i++) {
		const struct earth_part *p = &out->parts[i];

		*(p->margin ? &out->over_dig_m2 : &out->area_m2) += p->area_m2;
		out->over_dig_m3 += p->margin ? p->topsoil_m3 + p->cut_m3 : 0;
		out->topsoil_m3 += p->topsoil_m3;
		out->cut_m3 += p->cut_m3;
		out->fill_m3 += p->fill_m3;
	}
	out->topsoil_loose_m3 = earth_loosened(out->topsoil_m3, e->bulking_ppm);
	out->cut_loose_m3 = earth_loosened(out->cut_m3, e->bulking_ppm);
	out->fill_loose_m3 = earth_loose_for(out->fill_m3, e->compaction_ppm);
	out->surplus_loose_m3 = fmax(0, out->cut_loose_m3 - out->fill_loose_m3);
	out->missing_loose_m3 = fmax(0, out->fill_loose_m3 - out->cut_loose_m3);
}

static enum status work_out(
        struct digging *d, const struct plan_spot *levels, size_t count, struct error *err)
{
	enum status st;

	if (!d->plan->surface.count)
		return error_set(err, STATUS_PLAN,
		        "no fall is set, so there is no formation to dig to; set a fall first");
	if (!count)
		return error_set(err, STATUS_PLAN,
		        "there are no ground levels; measure the level of the ground at some "
		        "points in and around the paving and give them first");
	if ((st = site_check(&d->plan->site, "site.", err)) != STATUS_OK ||
	        (st = ground_make(d->mem, levels, count, &d->out->ground, err)) != STATUS_OK ||
	        (st = make_parts(d, err)) != STATUS_OK || (st = integrate(d, err)) != STATUS_OK)
		return st;
	drop_empty(d->out);
	add_up(&d->plan->site.earth, d->out);
	return STATUS_OK;
}

enum status earth_work_out(struct arena *mem, const struct plan *plan,
        const struct plan_spot *levels, size_t count, const struct region *region,
        const struct paving *paving, struct earth_result *out, struct error *err)
{
	struct digging d = { .mem = mem,
		.plan = plan,
		.region = region,
		.paving = paving,
		.out = out,
		.topsoil_um = (double)plan->site.earth.topsoil_um };
	enum status st;

	*out = (struct earth_result){ 0 };
	work_out_layers(&d);
	st = work_out(&d, levels, count, &out->fault);
	out->ready = st == STATUS_OK;
	return st == STATUS_MEMORY ? error_memory(err) : STATUS_OK;
}
