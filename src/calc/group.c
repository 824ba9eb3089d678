/* group.c - placing a few pieces on one slab, by trying.
 *
 * Piece after piece is set in each of its poses; where it may slide, it is pushed to the ends of
 * its range and against the pieces that lie already. Then the saw must be able to part them: some
 * straight line has pieces on both hands and the kerf between them, and so on in each part
 * (parting.h). */
#include "group.h"

#include "parting.h"

#include <math.h>
#include <stdlib.h>

struct placed {
	const struct pose *pose;
	struct point move;
};

struct group {
	const struct stock *stock;
	const struct shape *const *shapes;
	int count;
	struct placed placed[SOURCE_PIECES];
	bool sawn; /* the saw must be able to part them */
	int *tries;
};

enum {
	MOST_PLACES = 2 + 2 * SOURCE_PIECES,
	MOST_SLANTED = 32, /* corners of pieces between which slanted lines are sought */
};

static int add_place(double *list, int n, double move, double lo, double hi)
{
	if (move < lo || move > hi)
		return n;
	for (int i = 0; i < n; i++)
		if (fabs(list[i] - move) < 1)
			return n;
	list[n] = move;
	return n + 1;
}

/* Moves along one axis worth a try: the ends of the range, and against each piece that lies. */
static int list_places(
        const struct group *g, int at, const struct pose *p, enum axis axis, double *list)
{
	bool x = axis == AXIS_X;
	double lo = x ? p->x_lo : p->y_lo, hi = x ? p->x_hi : p->y_hi, kerf = g->stock->kerf;
	int n = 0;

	if (!(x ? p->slides_x : p->slides_y)) {
		list[0] = 0;
		return 1;
	}
	n = add_place(list, n, lo, lo, hi);
	n = add_place(list, n, hi, lo, hi);
	for (int i = 0; i < at; i++) {
		const struct placed *q = &g->placed[i];
		double q0 = x ? q->pose->box.x0 + q->move.x : q->pose->box.y0 + q->move.y;
		double q1 = x ? q->pose->box.x1 + q->move.x : q->pose->box.y1 + q->move.y;

		n = add_place(list, n, q1 + kerf - (x ? p->box.x0 : p->box.y0), lo, hi);
		n = add_place(list, n, q0 - kerf - (x ? p->box.x1 : p->box.y1), lo, hi);
	}
	return n;
}

/* Only saves time: pieces that overlap cannot be sawn apart either. */
static bool clear_of_others(const struct group *g, int at, const struct pose *p, struct point move)
{
	for (int i = 0; i < at; i++)
		if (!poses_apart(g->stock, g->placed[i].pose, g->placed[i].move, p, move,
		            g->shapes[i]->convex && g->shapes[at]->convex))
			return false;
	return true;
}

/* Whether cuts right across part the pieces told by the list from each other. */
static bool parts_all(const struct group *g, const struct lying *lying, int *list, int count)
{
	struct parting_line line;
	int below;

	if (count < 2)
		return true;
	below = parting_find(lying, list, count, g->stock->kerf, MOST_SLANTED, &line);
	return below && parts_all(g, lying, list, below) &&
	       parts_all(g, lying, list + below, count - below);
}

static bool can_be_sawn(const struct group *g)
{
	struct lying lying[SOURCE_PIECES];
	int list[SOURCE_PIECES];

	for (int i = 0; i < g->count; i++) {
		const struct pose *p = g->placed[i].pose;

		list[i] = i;
		lying[i] = (struct lying){ p->corner, p->normal, p->n, g->placed[i].move };
	}
	return parts_all(g, lying, list, g->count);
}

static bool place_from(struct group *g, int at)
{
	const struct shape *s;

	if (at == g->count)
		return !g->sawn || can_be_sawn(g);
	s = g->shapes[at];
	/* The slab may be turned as a whole, so the first piece keeps its turn. */
	for (int t = 0; t < (at ? s->poses : 1); t++) {
		const struct pose *p = &s->pose[t];
		double xs[MOST_PLACES], ys[MOST_PLACES];
		int nx = list_places(g, at, p, AXIS_X, xs), ny = list_places(g, at, p, AXIS_Y, ys);

		for (int i = 0; i < nx * ny; i++) {
			struct point move = { xs[i / ny], ys[i % ny] };

			if (--*g->tries <= 0)
				return false;
			if (!clear_of_others(g, at, p, move))
				continue;
			g->placed[at] = (struct placed){ p, move };
			if (place_from(g, at + 1))
				return true;
		}
	}
	return false;
}

/* Places the group's shapes. */
static bool place_all(struct group *g)
{
	double area = 0;
	int corners = 0;

	for (int i = 0; i < g->count; i++) {
		area += g->shapes[i]->area;
		corners += g->shapes[i]->corners;
	}
	return stock_holds(g->stock, area) && corners <= 4 && *g->tries > 0 && place_from(g, 0);
}

bool group_fits(const struct stock *stock, const struct shape *const *shapes, int count,
        struct cut_place *places, int *tries)
{
	struct group g = {
		.stock = stock, .shapes = shapes, .count = count, .sawn = true, .tries = tries
	};

	if (!place_all(&g))
		return false;
	for (int i = 0; i < count; i++) {
		const struct placed *p = &g.placed[i];

		places[i].turn = p->pose->turn;
		places[i].at =
		        (struct point){ p->pose->at.x + p->move.x, p->pose->at.y + p->move.y };
	}
	return true;
}

bool group_lies_apart(
        const struct stock *stock, const struct shape *const *shapes, int count, int *tries)
{
	struct group g = { .stock = stock, .shapes = shapes, .count = count, .tries = tries };

	return place_all(&g);
}
