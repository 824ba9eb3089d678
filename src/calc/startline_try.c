/* startline_try.c - what a start comes to, and bounds on what a patch of them can.
 *
 * Within a patch the edges of the field move through the slabs that they cut, all by the same way:
 * the pieces keep their kinds and sides, and their sides made by edges shift. */
#include "startsearch.h"

#include "fit.h"

#include <math.h>
#include <string.h>

enum { LOOKS = 20000, MOST_LOOKS = 200000 }; /* in search of a better cut plan; a slice */

static bool counted(const struct piece *p)
{
	return p->kind == PIECE_CUT || p->kind == PIECE_SLIVER;
}

/* --- widths --- */

static void take_width(struct spread *s, int64_t width, bool low_cut, bool high_cut)
{
	int64_t *to = low_cut == high_cut ? &s->rest : low_cut ? &s->low : &s->high;

	*to = width < *to ? width : *to;
}

void spreads_of(const struct section *field, struct spread spread[2])
{
	spread[0] = spread[1] = (struct spread){ START_NO_PIECE, START_NO_PIECE, START_NO_PIECE };
	for (size_t i = 0; i < field->laid.piece_count; i++) {
		const struct piece *p = &field->laid.pieces[i];

		if (!counted(p))
			continue;
		take_width(&spread[AXIS_X], llround(p->box.x1 - p->box.x0), !(p->sides & SIDE_LEFT),
		        !(p->sides & SIDE_RIGHT));
		take_width(&spread[AXIS_Y], llround(p->box.y1 - p->box.y0),
		        !(p->sides & SIDE_BOTTOM), !(p->sides & SIDE_TOP));
	}
}

void merit_of_spreads(const struct start_frame *f, const struct spread spread[2], struct merit *m)
{
	m->smallest_um = START_NO_PIECE;
	m->balance_um = 0;
	for (int axis = 0; axis < 2; axis++) {
		const struct spread *s = &spread[axis];
		int64_t low = s->low == START_NO_PIECE ? f->whole_um[axis] : s->low,
		        high = s->high == START_NO_PIECE ? f->whole_um[axis] : s->high;
		const int64_t all[] = { s->low, s->high, s->rest };

		for (int i = 0; i < 3; i++)
			m->smallest_um = all[i] < m->smallest_um ? all[i] : m->smallest_um;
		if (s->low != START_NO_PIECE || s->high != START_NO_PIECE)
			m->balance_um += low > high ? low - high : high - low;
	}
}

/* --- orders --- */

/* What is ordered where the cuts of the field's stocks take that many slabs. */
static enum status order_of(struct start_search *s, struct arena *work, const struct trial *t,
        const struct cut_total *totals, int64_t *slabs, struct error *err)
{
	struct takeoff o = { .plan.laying = s->t->plan.laying, .laid = t->paving };
	enum status st;

	o.cuts.of_stock = arena_alloc(work, t->paving.stock_count, sizeof *o.cuts.of_stock);
	if (!o.cuts.of_stock)
		return error_memory(err);
	for (size_t i = 0; i < t->paving.stock_count; i++)
		o.cuts.of_stock[i] = s->of_field[i] ? totals[i] : s->t->cuts.of_stock[i];
	st = takeoff_order(work, &o, err);
	*slabs = o.order.slabs;
	return st;
}

static enum status order_at_least(struct start_search *s, struct arena *work, const struct trial *t,
        const struct cut_total *totals, int64_t *slabs, struct error *err)
{
	struct cut_total *least = arena_alloc(work, t->paving.stock_count, sizeof *least);

	if (!least)
		return error_memory(err);
	for (size_t i = 0; i < t->paving.stock_count; i++)
		least[i].slabs = totals[i].bound;
	return order_of(s, work, t, least, slabs, err);
}

/* --- one start --- */

enum status trial_lay(struct start_search *s, struct arena *work, size_t frame, struct move m,
        struct trial *out, struct error *err)
{
	const struct start_frame *f = &s->frames[frame];
	struct plan_laying laying = f->laying;
	enum status st;

	*out = (struct trial){ 0 };
	frame_start(f, frame_nearest(f, m), &laying.start_x_um, &laying.start_y_um);
	st = paving_lay_field(work, &s->t->laid, &laying, &out->paving, err);
	if (st != STATUS_OK)
		return st;
	out->merit.slivers = out->paving.sliver;
	out->merit.cuts = out->paving.cut;
	spreads_of(&out->paving.sections[0], out->spread);
	merit_of_spreads(f, out->spread, &out->merit);
	s->tried++;
	s->work -= 20 + (int64_t)out->paving.piece_count / 2;
	return STATUS_OK;
}

/* Plans the cuts of the pieces that come from the field's stocks. */
static enum status plan_cuts(struct start_search *s, struct arena *work,
        const struct paving *paving, struct paving *planned, struct cutplan *out, struct error *err)
{
	int64_t n;
	enum status st = paving_of_stocks(work, paving, s->of_field, planned, err);

	if (st != STATUS_OK)
		return st;
	n = (int64_t)planned->piece_count;
	s->work -= 2 * n + n * n / 200;
	return paving_cuts(work, planned, &s->t->plan.laying, out, err);
}

static bool least_possible(const struct cutplan *cuts, size_t stocks)
{
	for (size_t i = 0; i < stocks; i++)
		if (cuts->of_stock[i].slabs > cuts->of_stock[i].bound)
			return false;
	return true;
}

enum status trial_plan(
        struct start_search *s, struct arena *work, struct trial *t, struct error *err)
{
	enum status st = plan_cuts(s, work, &t->paving, &t->planned, &t->cuts, err);

	return st == STATUS_OK ? order_of(s, work, t, t->cuts.of_stock, &t->merit.slabs, err) : st;
}

enum status trial_search(
        struct start_search *s, struct arena *work, struct trial *t, struct error *err)
{
	struct cut_search *search;
	bool more = true;
	enum status st;

	if (least_possible(&t->cuts, t->planned.stock_count))
		return STATUS_OK;
	st = paving_search(work, &t->planned, &s->t->plan.laying, &t->cuts, &search, err);
	for (int64_t looks = 0; st == STATUS_OK && more && looks < MOST_LOOKS; looks += LOOKS) {
		more = cut_search_step(search, LOOKS);
		t->cuts = *cut_search_best(search);
		s->work -= LOOKS / 10;
	}
	return st == STATUS_OK ? order_of(s, work, t, t->cuts.of_stock, &t->merit.slabs, err) : st;
}

/* --- bounds --- */

enum status trial_proven(struct start_search *s, struct arena *work, struct trial *t,
        int64_t *slabs, struct error *err)
{
	return order_at_least(s, work, t, t->cuts.of_stock, slabs, err);
}

/* Slabs that hold so much area. */
static size_t slabs_for(double area_um2, const struct stock_slab *slab)
{
	return (size_t)ceil(area_um2 / ((double)slab->length_um * (double)slab->width_um) - 1e-9);
}

/* How far edges go through the slabs, from a patch's lowest to its highest move. */
struct travel {
	double least[2], most[2];
};

static struct travel travel_of(const struct patch *p)
{
	struct travel t;

	for (int axis = 0; axis < 2; axis++) {
		t.least[axis] = (double)(p->lo.um[axis] - p->at.um[axis]);
		t.most[axis] = (double)(p->hi.um[axis] - p->at.um[axis]);
	}
	return t;
}

/* The area of a piece of the field once the edges have moved through it by (x, y). */
static double moved_area(const struct laying *laid, const struct piece *p, double x, double y)
{
	struct point size = laid_size(laid, p->spot);
	double area = 0;

	for (size_t i = 0; i < p->shape.count; i++) {
		const struct ring *g = &p->shape.rings[i];

		for (size_t j = 0; j < g->n; j++) {
			struct point a = g->p[j], b = g->p[j + 1 < g->n ? j + 1 : 0];
			struct point *both[] = { &a, &b };

			for (int k = 0; k < 2; k++) {
				both[k]->x -= both[k]->x > 0 && both[k]->x < size.x ? x : 0;
				both[k]->y -= both[k]->y > 0 && both[k]->y < size.y ? y : 0;
			}
			area += (a.x * b.y - b.x * a.y) / 2;
		}
	}
	return area;
}

static double least_width(
        double width, bool low_cut, bool high_cut, const struct travel *t, int axis)
{
	if (low_cut == high_cut)
		return width;
	return low_cut ? width + t->least[axis] : width - t->most[axis];
}

/* Whether a piece stays a rectangle of more than half its slab both ways, the kerf taken off: no
 * two such come from one slab. */
static bool fills_slab(
        const struct trial *t, const struct piece *p, const struct travel *way, double kerf)
{
	static const struct travel none;
	struct point size = laid_size(&t->paving.sections[p->section].laid, p->spot);
	double x = p->box.x1 - p->box.x0, y = p->box.y1 - p->box.y0;

	if (p->shape.count > 1 || p->shape.rings[0].n != 4 || p->area_um2 < (x - 1) * (y - 1))
		return false;
	way = p->section ? &none : way;
	x = least_width(x, !(p->sides & SIDE_LEFT), !(p->sides & SIDE_RIGHT), way, 0);
	y = least_width(y, !(p->sides & SIDE_BOTTOM), !(p->sides & SIDE_TOP), way, 1);
	return x > (size.x - kerf) / 2 && y > (size.y - kerf) / 2;
}

/* The most that pieces which fill their slabs need at least, or by area: its least is at a corner
 * of the patch, since it is linear along each axis. */
static enum status least_cuts(struct start_search *s, struct arena *work, const struct trial *t,
        const struct travel *way, struct cut_total *totals, struct error *err)
{
	const struct paving *v = &t->paving;
	const struct laying *laid = &v->sections[0].laid;
	double *area = arena_alloc(work, 4 * v->stock_count, sizeof *area);

	if (!area)
		return error_memory(err);
	for (size_t i = 0; i < v->piece_count; i++) {
		const struct piece *p = &v->pieces[i];
		double *a = area + 4 * p->stock;

		if (!counted(p))
			continue;
		for (int k = 0; k < 4; k++)
			a[k] += p->section
			                ? p->area_um2
			                : moved_area(laid, p, k & 1 ? way->most[0] : way->least[0],
			                          k & 2 ? way->most[1] : way->least[1]);
		totals[p->stock].bound += fills_slab(t, p, way, (double)s->t->plan.laying.kerf_um);
	}
	for (size_t i = 0; i < v->stock_count; i++) {
		const double *a = area + 4 * i;
		size_t slabs = slabs_for(fmin(fmin(a[0], a[1]), fmin(a[2], a[3])), &v->stocks[i]);

		if (slabs > totals[i].bound)
			totals[i].bound = slabs;
	}
	return STATUS_OK;
}

enum status patch_least(struct start_search *s, struct arena *work, const struct trial *t,
        const struct patch *p, int64_t *slabs, struct error *err)
{
	struct travel way = travel_of(p);
	struct cut_total *totals = arena_alloc(work, t->paving.stock_count, sizeof *totals);
	enum status st;

	if (!totals)
		return error_memory(err);
	st = least_cuts(s, work, t, &way, totals, err);
	return st == STATUS_OK ? order_at_least(s, work, t, totals, slabs, err) : st;
}

enum status trial_least(struct start_search *s, struct arena *work, struct trial *t, int64_t *slabs,
        struct error *err)
{
	static const struct patch still;

	return patch_least(s, work, t, &still, slabs, err);
}

/* Where a side of a piece made by an edge comes to lie so that the piece is least: `up` tells that
 * the piece lies below it. */
static double narrowed(const struct travel *t, int axis, double at, bool up)
{
	return up ? at - t->most[axis] : at - t->least[axis];
}

/* Takes a ring's sides in as far as they go, but on the axes where it only slides; false where
 * nothing sure is left. */
static bool narrow_ring(struct ring *g, const struct ring *from, struct point size,
        const struct travel *t, const bool slides[2])
{
	for (size_t j = 0; j < from->n; j++) {
		struct point a = from->p[j], b = from->p[j + 1 < from->n ? j + 1 : 0];
		struct point *p = &g->p[j], *q = &g->p[j + 1 < from->n ? j + 1 : 0];

		if (a.x == b.x && a.x > 0 && a.x < size.x && !slides[0])
			p->x = q->x = narrowed(t, 0, a.x, b.y > a.y);
		if (a.y == b.y && a.y > 0 && a.y < size.y && !slides[1])
			p->y = q->y = narrowed(t, 1, a.y, b.x < a.x);
	}
	for (size_t j = 0; j < from->n; j++) {
		size_t k = j + 1 < from->n ? j + 1 : 0;
		double was_x = from->p[k].x - from->p[j].x, was_y = from->p[k].y - from->p[j].y,
		       x = g->p[k].x - g->p[j].x, y = g->p[k].y - g->p[j].y;

		if (was_x * x < 0 || was_y * y < 0 || (x == 0 && y == 0))
			return false;
	}
	return true;
}

/* The part of a piece that it has at every move of the patch; false where that cannot be told. */
static enum status narrow_piece(struct arena *work, const struct laying *laid, struct piece *p,
        const struct travel *t, bool *sure, struct error *err)
{
	const bool slides[] = { !(p->sides & (SIDE_LEFT | SIDE_RIGHT)),
		!(p->sides & (SIDE_BOTTOM | SIDE_TOP)) };
	struct point size = laid_size(laid, p->spot);
	struct ring *rings = arena_alloc(work, p->shape.count, sizeof *rings);

	if (!rings)
		return error_memory(err);
	*sure = true;
	for (size_t i = 0; i < p->shape.count; i++) {
		const struct ring *from = &p->shape.rings[i];

		rings[i] = *from;
		rings[i].p = arena_alloc(work, from->n, sizeof *from->p);
		if (!rings[i].p)
			return error_memory(err);
		memcpy(rings[i].p, from->p, from->n * sizeof *from->p);
		*sure = *sure && narrow_ring(&rings[i], from, size, t, slides);
	}
	p->shape.rings = rings;
	p->box = points_box(rings[0].p, rings[0].n);
	p->area_um2 = region_area_um2(&p->shape);
	return STATUS_OK;
}

/* The pieces of the paving, as narrow as they get; those that are not sure are left out. With
 * `fits_hold` they keep their shapes, and only their areas tell that they may be less. */
static enum status narrow_pieces(struct arena *work, const struct trial *t,
        const struct travel *way, bool fits_hold, struct paving *out, struct error *err)
{
	const struct laying *laid = &t->paving.sections[0].laid;

	*out = t->paving;
	out->piece_count = 0;
	out->pieces = arena_alloc(work, t->paving.piece_count, sizeof *out->pieces);
	if (!out->pieces)
		return error_memory(err);
	for (size_t i = 0; i < t->paving.piece_count; i++) {
		struct piece *p = &out->pieces[out->piece_count];
		bool sure = true;
		enum status st = STATUS_OK;

		*p = t->paving.pieces[i];
		if (!counted(p))
			continue;
		if (!p->section)
			st = narrow_piece(work, laid, p, way, &sure, err);
		if (st != STATUS_OK)
			return st;
		if (fits_hold) {
			p->shape = t->paving.pieces[i].shape;
			p->box = t->paving.pieces[i].box;
			p->area_um2 = sure ? p->area_um2 : 0;
			sure = true;
		}
		out->piece_count += sure;
	}
	return STATUS_OK;
}

enum status patch_least_by_plan(struct start_search *s, struct arena *work, const struct trial *t,
        const struct patch *p, bool fits_hold, int64_t *slabs, struct error *err)
{
	struct travel way = travel_of(p);
	struct paving narrow, planned;
	struct cutplan cuts;
	enum status st;

	if ((st = narrow_pieces(work, t, &way, fits_hold, &narrow, err)) == STATUS_OK &&
	        (st = plan_cuts(s, work, &narrow, &planned, &cuts, err)) == STATUS_OK)
		st = order_at_least(s, work, t, cuts.of_stock, slabs, err);
	return st;
}
