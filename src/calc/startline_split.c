/* startline_split.c - which pieces fit one slab over a patch of starts, and where to split it.
 *
 * Under the finished-edge rule two pieces come from one slab where a width of the one, a width of
 * the other and the kerf go into its side. A move up an axis widens what is cut at the low side and
 * narrows what is cut at the high one, each by as much. So two pieces begin to fit, or cease to, at
 * one move along an axis where both widths are along it and change the same way; and on a slanting
 * line of moves where a piece is turned by 90 degrees and they are not along the same axis. */
#include "startsearch.h"

#include <math.h>

enum { MOST_WIDTHS = 64 };

/* How wide a piece is along an axis, or part of it: at + way * move, with way 1 or -1. */
struct width {
	double at;
	int way;
};
struct widths {
	struct width item[MOST_WIDTHS];
	size_t count;
	bool too_many;
};

static void add_width(struct widths *w, double at, int way)
{
	for (size_t i = 0; i < w->count; i++)
		if (w->item[i].way == way && fabs(w->item[i].at - at) < 1)
			return;
	if (w->count == MOST_WIDTHS)
		w->too_many = true;
	else
		w->item[w->count++] = (struct width){ at, way };
}

/* Of a piece with a notch, every side made by an edge may be what counts, for either part. */
static void add_sides(struct widths *w, const struct piece *p, int axis, double length)
{
	for (size_t k = 0; k < p->shape.count; k++)
		for (size_t j = 0; j < p->shape.rings[k].n; j++) {
			struct point c = p->shape.rings[k].p[j];
			double at = axis ? c.y : c.x;

			if (at > 0 && at < length) {
				add_width(w, at, -1);
				add_width(w, length - at, 1);
			}
		}
}

static void find_widths(const struct section *field, int axis, struct widths *out)
{
	*out = (struct widths){ .count = 0 };
	for (size_t i = 0; i < field->laid.piece_count; i++) {
		const struct piece *p = &field->laid.pieces[i];
		struct point size = laid_size(&field->laid, p->spot);
		double length = axis ? size.y : size.x,
		       width = axis ? p->box.y1 - p->box.y0 : p->box.x1 - p->box.x0;
		bool low = p->sides & (unsigned)(axis ? SIDE_BOTTOM : SIDE_LEFT),
		     high = p->sides & (unsigned)(axis ? SIDE_TOP : SIDE_RIGHT);

		if (p->kind == PIECE_MADE_UP)
			continue;
		if (p->shape.count > 1 || p->shape.rings[0].n != 4)
			add_sides(out, p, axis, length);
		else if (low != high)
			add_width(out, width, high ? 1 : -1);
	}
}

static void offer(struct split *best, const struct patch *p, int axis, double first)
{
	double lo = (double)p->lo.um[axis], hi = (double)p->hi.um[axis],
	       off = fabs(first - (lo + hi) / 2) / (hi - lo);

	if (first <= lo || first > hi || (best->found && off >= best->off_middle))
		return;
	*best = (struct split){ axis, (int64_t)first, off, true };
}

/* Splits a patch where a width that changes by `way` for each um has `room` more: at the last move
 * before it is used up, or the first where it is there. */
static void offer_room(struct split *best, const struct patch *p, int axis, int way, double room)
{
	double at = (double)p->at.um[axis];

	offer(best, p, axis, way > 0 ? at + floor(room / way) + 1 : at + ceil(room / way));
}

/* Moves along the axis at which two pieces begin to fit a slab of the length, or cease to. */
static void offer_fits(struct split *best, const struct patch *p, int axis,
        const struct widths *widths, const struct widths *still, double room)
{
	for (size_t i = 0; i < widths->count; i++) {
		const struct width *a = &widths->item[i];

		for (size_t j = i; j < widths->count; j++)
			if (widths->item[j].way == a->way)
				offer_room(best, p, axis, 2 * a->way,
				        room - a->at - widths->item[j].at);
		for (size_t j = 0; still && j < still->count; j++)
			offer_room(best, p, axis, a->way, room - a->at - still->item[j].at);
	}
}

/* Ways of moving that make more pieces fit. */
struct pulls {
	bool way[2][2]; /* by axis: down, up */
	bool any;
};

/* A slanting line x * sx + y * sy = at of moves from p->at, at and beyond which two pieces fit. */
static void cross(struct pulls *pulls, const struct patch *p, int sx, int sy, double at)
{
	double x0 = (double)(p->lo.um[0] - p->at.um[0]), x1 = (double)(p->hi.um[0] - p->at.um[0]),
	       y0 = (double)(p->lo.um[1] - p->at.um[1]), y1 = (double)(p->hi.um[1] - p->at.um[1]);
	double least = (sx > 0 ? x0 : -x1) + (sy > 0 ? y0 : -y1),
	       most = (sx > 0 ? x1 : -x0) + (sy > 0 ? y1 : -y0);

	if (at <= least || at > most)
		return;
	pulls->any = true;
	pulls->way[0][sx > 0] = true;
	pulls->way[1][sy > 0] = true;
}

static void cross_all(
        struct pulls *pulls, const struct patch *p, const struct widths widths[2], double room)
{
	for (size_t i = 0; i < widths[0].count; i++)
		for (size_t j = 0; j < widths[1].count; j++) {
			const struct width *a = &widths[0].item[i], *b = &widths[1].item[j];

			cross(pulls, p, -a->way, -b->way, a->at + b->at - room);
		}
}

/* Whether some piece is cut on both sides of an axis that the patch extends along: it can lie
 * between two others, and sums of three come in. */
static bool has_middles(const struct laying *laid, const bool wide[2])
{
	for (size_t i = 0; i < laid->piece_count; i++) {
		const struct piece *q = &laid->pieces[i];

		if (q->kind != PIECE_MADE_UP &&
		        ((wide[0] && !(q->sides & (SIDE_LEFT | SIDE_RIGHT))) ||
		                (wide[1] && !(q->sides & (SIDE_BOTTOM | SIDE_TOP)))))
			return true;
	}
	return false;
}

static void offer_all(const struct start_search *s, const struct patch *p,
        const struct pattern *pattern, const struct widths widths[2], const bool wide[2],
        struct split *best)
{
	for (int axis = 0; axis < 2; axis++)
		for (int i = 0; i < pattern->count && wide[axis]; i++) {
			struct point size = pattern_size(pattern, i);
			bool turned = s->pieces_turn && !wide[1 - axis];

			offer_fits(best, p, axis, &widths[axis], turned ? &widths[1 - axis] : NULL,
			        (axis ? size.y : size.x) - (double)s->t->plan.laying.kerf_um);
		}
}

struct fits fits_within(const struct start_search *s, const struct patch *p, const struct trial *t)
{
	const struct section *field = &t->paving.sections[0];
	const struct pattern *pattern = &field->laid.pattern;
	const bool wide[] = { p->lo.um[0] < p->hi.um[0], p->lo.um[1] < p->hi.um[1] };
	struct fits out = { .corner = p->at };
	struct pulls pulls = { .any = false };
	struct widths widths[2];

	find_widths(field, 0, &widths[0]);
	find_widths(field, 1, &widths[1]);
	offer_all(s, p, pattern, widths, wide, &out.at);
	if (!s->by_sums || out.at.found || widths[0].too_many || widths[1].too_many ||
	        has_middles(&field->laid, wide))
		return out;
	if (s->pieces_turn && wide[0] && wide[1])
		cross_all(&pulls, p, widths,
		        pattern_size(pattern, 0).x - (double)s->t->plan.laying.kerf_um);
	out.hold = !pulls.any;
	out.dominated = pulls.any && !(pulls.way[0][0] && pulls.way[0][1]) &&
	                !(pulls.way[1][0] && pulls.way[1][1]);
	for (int axis = 0; axis < 2 && out.dominated; axis++)
		out.corner.um[axis] = pulls.way[axis][1] ? p->hi.um[axis] : p->lo.um[axis];
	return out;
}

struct split split_in_halves(const struct patch *p)
{
	int axis = p->hi.um[1] - p->lo.um[1] > p->hi.um[0] - p->lo.um[0];
	int64_t width = p->hi.um[axis] - p->lo.um[axis];

	return (struct split){ axis, p->lo.um[axis] + width / 2 + 1, 0, width > START_WIDTH_UM };
}
