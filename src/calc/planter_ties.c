/* planter_ties.c - what goes at places along a wall: ties, the profile on top with its fixings,
 * weep holes. */
#include "planter_parts.h"

#include <math.h>

static const int64_t CAP_WORK = 500000; /* half a millisecond */
static const int64_t FIXING_IN_UM = 50 * UM_PER_MM; /* from a piece's end; common practice */

const char *tie_place_name(enum tie_place place)
{
	static const char *const names[] = { "end", "corner", "between" };

	return names[place];
}

/* --- ties --- */

/* A leg's upright joints in the outer leaf, by u. */
struct joints {
	const struct planter_joint *at;
	size_t count;
};

static struct joints joints_of(const struct planter_course *c, size_t leg)
{
	struct joints j = { NULL, 0 };

	for (size_t i = 0; i < c->joint_count && c->joints[i].leaf == 0; i++) {
		if (c->joints[i].leg != leg)
			continue;
		if (!j.count)
			j.at = &c->joints[i];
		j.count++;
	}
	return j;
}

static void put_tie(struct planter_course *c, size_t leg, double u_um, enum tie_place place)
{
	c->ties[c->tie_count++] = (struct planter_tie){ leg, u_um, place };
}

/* Where the other leg's tie at a corner stands on this leg, when it has none itself. */
static double corner_um(const struct planter_result *r, size_t leg, bool first)
{
	const struct planter_leg *l = &r->legs[leg];
	const struct planter_corner *c = &r->corners[first ? l->from : l->to];
	double in = c->half_tan * (double)(r->leaves[0].v0_um + r->leaves[0].v1_um) / 2;

	return first ? in : (double)l->length_um - in;
}

static bool at_end(const struct planter_result *r, size_t corner)
{
	return r->corners[corner].turn == PLANTER_END;
}

/* From the tie at `last` on, each tie stands at the farthest joint within the spacing, or at the
 * next joint where none is, up to `to`. */
static void tie_between(struct planter_work *w, struct planter_course *c, size_t leg,
        struct joints j, double last, double to)
{
	double most = (double)w->p->tie_um;

	for (size_t i = 0; i < j.count; i++) {
		double u = j.at[i].u_um, next = i + 1 < j.count ? j.at[i + 1].u_um : to;

		if (u <= last || u >= to)
			continue;
		if (fmin(next, to) - last <= most)
			continue;
		put_tie(c, leg, u, TIE_BETWEEN);
		w->r->tie_um = fmax(w->r->tie_um, u - last);
		last = u;
	}
	w->r->tie_um = fmax(w->r->tie_um, to - last);
}

static void tie_leg(struct planter_work *w, struct planter_course *c, size_t leg)
{
	const struct planter_leg *l = &w->r->legs[leg];
	struct joints j = joints_of(c, leg);
	bool first_end = at_end(w->r, l->from), last_end = at_end(w->r, l->to);
	double from = corner_um(w->r, leg, true), to = corner_um(w->r, leg, false);

	if (!j.count)
		return;
	if (first_end || j.at[0].corner) {
		from = j.at[0].u_um;
		put_tie(c, leg, from, first_end ? TIE_END : TIE_CORNER);
	}
	if (last_end || j.at[j.count - 1].corner)
		to = j.at[j.count - 1].u_um;
	if (to <= from)
		return;
	tie_between(w, c, leg, j, from, to);
	if (last_end || j.at[j.count - 1].corner)
		put_tie(c, leg, to, last_end ? TIE_END : TIE_CORNER);
}

enum status planter_ties(struct planter_work *w)
{
	for (int k = 0; k < 2 && w->p->tie_um; k++) {
		struct planter_course *c = &w->r->courses[k];

		c->ties = arena_alloc(w->mem, c->joint_count, sizeof *c->ties);
		if (!c->ties)
			return error_memory(w->err);
		for (size_t i = 0; i < w->r->leg_count && c->times; i++)
			tie_leg(w, c, i);
		w->r->tie_count += (int64_t)c->tie_count * c->times;
	}
	return STATUS_OK;
}

/* --- the cap --- */

static void put_piece(
        struct planter_cap *cap, size_t leg, double from_um, int64_t length_um, int64_t unit_um)
{
	bool whole = length_um == unit_um;

	cap->pieces[cap->piece_count++] = (struct planter_cap_piece){ leg, from_um,
		from_um + (double)length_um, length_um, whole };
	cap->whole += whole;
	cap->cut += !whole;
}

/* Whole lengths and the rest; a rest shorter than a third is shared with the last whole one. */
static void cap_leg(struct planter_work *w, size_t leg)
{
	struct planter_cap *cap = &w->r->cap;
	const struct planter_leg *l = &w->r->legs[leg];
	double wide = (double)w->r->width_um;
	double from = fmin(0, wide * w->r->corners[l->from].half_tan),
	       to = (double)l->length_um - fmin(0, wide * w->r->corners[l->to].half_tan);
	int64_t unit = w->p->cap_um, run = llround(to - from), whole = run / unit,
	        rest = run % unit, least = unit / 3;
	bool shared = rest && rest < least && whole;
	size_t before = cap->piece_count;

	for (int64_t i = 0; i < whole - shared; i++, from += (double)unit)
		put_piece(cap, leg, from, unit, unit);
	if (shared) {
		put_piece(cap, leg, from, unit + rest - least, unit);
		from += (double)(unit + rest - least);
		rest = least;
	}
	if (rest)
		put_piece(cap, leg, from, rest, unit);
	cap->joints += cap->piece_count - before - 1;
}

static enum status pack_cap(struct planter_work *w)
{
	struct planter_cap *cap = &w->r->cap;
	struct pack_piece *pieces = arena_alloc(w->mem, (size_t)cap->cut, sizeof *pieces);
	struct pack_plan plan = { 0 };
	struct pack *pack;
	size_t n = 0;
	enum status st;

	if (!pieces)
		return error_memory(w->err);
	for (size_t i = 0; i < cap->piece_count; i++)
		if (!cap->pieces[i].whole)
			pieces[n++] = (struct pack_piece){ cap->pieces[i].length_um, 1 };
	st = pack_begin(w->mem, pieces, n, w->p->cap_um, w->kerf_um, &pack, w->err);
	if (st == STATUS_OK)
		st = pack_step(pack, CAP_WORK, w->err);
	if (st == STATUS_OK)
		st = pack_best(pack, &plan, w->err);
	cap->units = cap->whole + (int64_t)plan.unit_count;
	cap->bound = cap->whole + (int64_t)plan.bound;
	cap->reason = plan.reason ? plan.reason : "";
	cap->price_minor = w->p->cap_price_minor < 0 ? -1 : cap->units * w->p->cap_price_minor;
	return st;
}

static int64_t inset_of(const struct planter_cap_piece *piece)
{
	return piece->length_um < 4 * FIXING_IN_UM ? piece->length_um / 4 : FIXING_IN_UM;
}

static int64_t spaces_of(const struct planter_work *w, const struct planter_cap_piece *piece)
{
	int64_t between = piece->length_um - 2 * inset_of(piece), most = w->p->cap_fixing_um;

	return most ? (between + most - 1) / most : 1;
}

static enum status fix_cap(struct planter_work *w)
{
	struct planter_cap *cap = &w->r->cap;
	size_t count = 0;

	for (size_t i = 0; i < cap->piece_count; i++)
		count += (size_t)spaces_of(w, &cap->pieces[i]) + 1;
	cap->fixings = arena_alloc(w->mem, count, sizeof *cap->fixings);
	if (!cap->fixings)
		return error_memory(w->err);
	for (size_t i = 0; i < cap->piece_count; i++) {
		const struct planter_cap_piece *p = &cap->pieces[i];
		int64_t n = spaces_of(w, p);
		double in = (double)inset_of(p), step = ((double)p->length_um - 2 * in) / (double)n;

		for (int64_t k = 0; k <= n; k++)
			cap->fixings[cap->fixing_count++] =
			        (struct planter_spot){ p->leg, p->from_um + in + (double)k * step };
		cap->spacing_um = fmax(cap->spacing_um, step);
	}
	return STATUS_OK;
}

enum status planter_cap(struct planter_work *w)
{
	struct planter_cap *cap = &w->r->cap;
	size_t most = 2 * w->r->leg_count;
	enum status st;

	*cap = (struct planter_cap){ .reason = "", .price_minor = -1 };
	if (!w->p->cap_um)
		return STATUS_OK;
	for (size_t i = 0; i < w->r->leg_count; i++)
		most += (size_t)((w->r->legs[i].length_um + 8 * w->r->width_um) / w->p->cap_um);
	cap->pieces = arena_alloc(w->mem, most, sizeof *cap->pieces);
	if (!cap->pieces)
		return error_memory(w->err);
	for (size_t i = 0; i < w->r->leg_count; i++)
		cap_leg(w, i);
	if ((st = pack_cap(w)) != STATUS_OK)
		return st;
	return fix_cap(w);
}

/* --- weep holes --- */

static int64_t weeps_of(const struct planter_work *w, size_t leg)
{
	return (int64_t)ceil(w->r->legs[leg].inside_um / (double)w->p->weep_um - 1e-9);
}

enum status planter_weeps(struct planter_work *w)
{
	struct planter_result *r = w->r;
	struct planter_fill *f = &r->fill;
	int64_t count = 0;

	if (!w->p->weep_um)
		return STATUS_OK;
	for (size_t i = 0; i < r->leg_count; i++)
		count += weeps_of(w, i);
	f->weeps = arena_alloc(w->mem, (size_t)count, sizeof *f->weeps);
	if (!f->weeps)
		return error_memory(w->err);
	for (size_t i = 0; i < r->leg_count; i++) {
		int64_t n = weeps_of(w, i);
		double from = (double)r->width_um * r->corners[r->legs[i].from].half_tan,
		       step = r->legs[i].inside_um / (double)n;

		for (int64_t k = 0; k < n; k++)
			f->weeps[f->weep_count++] =
			        (struct planter_spot){ i, from + ((double)k + 0.5) * step };
	}
	return STATUS_OK;
}
