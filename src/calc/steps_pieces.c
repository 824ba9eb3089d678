/* steps_pieces.c - every unit, riser piece and tread slab of a flight, and how many are bought.
 *
 * Across the width a row takes whole units and cut pieces at its ends, turned about from row to row
 * so that joints do not line up. The cut pieces of all rows come from as few units as the packing
 * finds. */
#include "steps_parts.h"

#include "slabwright/edging.h"

#include <math.h>

enum { PACK_WORK = 500000, MOST_PIECES = 20000 };

/* A row's pieces from the left. */
struct across {
	int64_t *length_um;
	size_t count;
	struct edging_split split;
};

static enum status split_width(const struct steps_job *job, const struct plan_steps *s,
        struct across *out, struct error *err)
{
	int64_t unit = s->unit_length_um;

	*out = (struct across){ .split = edging_split(s->width_um, unit, 0, unit / 3) };
	out->length_um =
	        arena_alloc(job->mem, (size_t)out->split.whole + 2, sizeof *out->length_um);
	if (!out->length_um)
		return error_memory(err);
	if (out->split.cut > 1)
		out->length_um[out->count++] = out->split.piece_um[1];
	for (int64_t i = 0; i < out->split.whole; i++)
		out->length_um[out->count++] = unit;
	if (out->split.cut)
		out->length_um[out->count++] = out->split.piece_um[0];
	return STATUS_OK;
}

/* --- what is bought --- */

static enum status order_rows(const struct steps_job *job, const struct plan_steps *s,
        const struct edging_split *split, int64_t rows, struct step_order *out, struct error *err)
{
	struct pack_piece pieces[2];
	struct pack_plan plan;
	struct pack *pack;
	enum status st;

	*out = (struct step_order){ .whole = rows * split->whole, .cut = rows * split->cut };
	out->units = out->bound = out->whole;
	if (!out->cut)
		return STATUS_OK;
	for (int i = 0; i < split->cut; i++)
		pieces[i] = (struct pack_piece){ split->piece_um[i], (size_t)rows };
	st = pack_begin(job->mem, pieces, (size_t)split->cut, s->unit_length_um,
	        job->plan->laying.kerf_um, &pack, err);
	if (st == STATUS_OK)
		st = pack_step(pack, PACK_WORK, err);
	if (st == STATUS_OK)
		st = pack_best(pack, &plan, err);
	if (st != STATUS_OK)
		return st;
	out->units += (int64_t)plan.unit_count;
	out->bound += (int64_t)plan.bound;
	return STATUS_OK;
}

/* Treads: rows of whole depth, and a row of strips of which a slab gives several. The strips might
 * come from what the others leave as well, so that only their area bounds them. */
static enum status order_slabs(const struct steps_job *job, struct flight *f,
        const struct edging_split *split, struct error *err)
{
	const struct plan_steps *s = f->steps;
	int64_t kerf = job->plan->laying.kerf_um, treads = f->risers - 1, strips, least;
	int64_t need = s->going_um + s->overhang_um, full = need / s->unit_depth_um;
	int64_t rest = need - full * s->unit_depth_um;
	struct step_order of_strips = { 0 };
	double area = (double)treads * (double)need * (double)s->width_um;
	enum status st;

	f->deep = full + (rest > 0);
	f->last_deep_um = rest;
	st = order_rows(job, s, split, treads * full, &f->slabs, err);
	if (st != STATUS_OK || !rest)
		return st;
	if ((st = order_rows(job, s, split, treads, &of_strips, err)) != STATUS_OK)
		return st;
	strips = (s->unit_depth_um + kerf) / (rest + kerf);
	f->slabs.cut += of_strips.whole + of_strips.cut;
	f->slabs.units += (of_strips.units + strips - 1) / strips;
	least = (int64_t)ceil(area / ((double)s->unit_length_um * (double)s->unit_depth_um) - 1e-9);
	if (least > f->slabs.bound)
		f->slabs.bound = least;
	return STATUS_OK;
}

/* --- where it lies --- */

static struct point place(const struct plan_steps *s, double down_um, double across_um)
{
	double c, n, left = (double)s->width_um / 2 - across_um;

	turn_of(s->toward_udeg, &c, &n);
	return (struct point){ (double)s->x_um + c * down_um - n * left,
		(double)s->y_um + n * down_um + c * left };
}

static void add_row(struct flight *f, size_t row, int64_t front_um, int64_t back_um,
        const struct across *a, struct step_piece like)
{
	int64_t at = 0;

	for (size_t i = 0; i < a->count; i++) {
		struct step_piece *p = &f->pieces[f->piece_count++];
		double front = (double)front_um, back = (double)back_um, from, to;

		*p = like;
		p->row = row;
		p->from_um = at;
		p->length_um = a->length_um[row % 2 ? a->count - 1 - i : i];
		p->cut = p->cut || p->length_um < f->steps->unit_length_um;
		at += p->length_um;
		from = (double)p->from_um;
		to = (double)at;
		p->corner[0] = place(f->steps, front, from);
		p->corner[1] = place(f->steps, front, to);
		p->corner[2] = place(f->steps, back, to);
		p->corner[3] = place(f->steps, back, from);
	}
}

/* Slabs of the tread on a row: whole ones from the nosing, the strip at the back. */
static void add_tread(struct flight *f, size_t row, const struct across *a)
{
	const struct step_row *r = &f->rows[row];
	int64_t at = r->front_um;

	for (int64_t d = 0; d < f->deep; d++) {
		bool strip = f->last_deep_um && d == f->deep - 1;
		int64_t deep = strip ? f->last_deep_um : f->steps->unit_depth_um;

		add_row(f, row, at, at - deep, a,
		        (struct step_piece){ .tread = true, .cut = strip });
		at -= deep;
	}
}

static enum status place_all(
        const struct steps_job *job, struct flight *f, const struct across *a, struct error *err)
{
	bool built = f->steps->build == STEPS_BUILT;
	size_t rows = f->row_count + (built ? (f->row_count - 1) * (size_t)f->deep : 0);

	if (rows > MOST_PIECES / a->count) {
		f->fault = "The flight takes more than 20000 pieces. Take longer units or deeper "
		           "slabs, or part it.";
		return STATUS_OK;
	}
	f->pieces = arena_alloc(job->mem, rows * a->count, sizeof *f->pieces);
	if (!f->pieces)
		return error_memory(err);
	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];

		/* The depth of a riser piece is not known: it shows as its face. */
		add_row(f, i, r->face_um, built ? r->face_um : r->back_um, a,
		        (struct step_piece){ 0 });
		if (built && i + 1 < f->row_count)
			add_tread(f, i, a);
	}
	return STATUS_OK;
}

/* --- the bed --- */

/* Under units, without the strap gaps: over what overlaps as thick as there is room, else as
 * planned. */
static double unit_bed_m3(const struct flight *f, const struct across *a)
{
	const struct plan_steps *s = f->steps;
	double length = 0, section = 0, overlap = fmax(0, (double)f->overlap_um);

	for (size_t i = 0; i < a->count; i++)
		length += fmax(0, (double)(a->length_um[i] - 2 * STEPS_STRAP_UM));
	for (size_t i = 0; i < f->row_count; i++) {
		double over = i ? fmin(overlap, (double)s->unit_depth_um) : 0;
		double bed = fmax(0, (double)f->rows[i].bed_um);
		double rest = i ? (double)s->bed_um : bed;

		section += over * bed + ((double)s->unit_depth_um - over) * rest;
	}
	return section * length * 1e-18;
}

static void set_bed(struct flight *f, const struct across *a)
{
	const struct plan_steps *s = f->steps;

	if (s->build == STEPS_UNITS) {
		f->bed_m3 = unit_bed_m3(f, a);
		return;
	}
	for (size_t i = 0; i + 1 < f->row_count; i++)
		f->bed_m3 += (double)(f->rows[i].front_um - f->rows[i].back_um) *
		             (double)s->width_um * (double)s->bed_um * 1e-18;
}

enum status steps_set_pieces(const struct steps_job *job, struct flight *f, struct error *err)
{
	struct across a;
	enum status st = split_width(job, f->steps, &a, err);

	if (st == STATUS_OK)
		st = order_rows(job, f->steps, &a.split, f->risers, &f->order, err);
	if (st == STATUS_OK && f->steps->build == STEPS_BUILT)
		st = order_slabs(job, f, &a.split, err);
	if (st == STATUS_OK)
		st = place_all(job, f, &a, err);
	if (st == STATUS_OK && !f->fault)
		set_bed(f, &a);
	return st;
}
