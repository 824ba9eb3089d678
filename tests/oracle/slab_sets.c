/* slab_sets.c - see slab_sets.h.
 *
 * Rectangles in given turns: all ways to part them by cuts along the slab's sides are gone through,
 * and the pieces pushed as far down and left as the cuts allow; that is exact. They may also be
 * parted by slanted cuts. Then every two are still apart in x or in y by the kerf over root 2:
 * where no such places are found, whichever of two comes first, there is none. All else is tried:
 * piece after piece, in every order and turn, at the ends of its slide, on a grid, and where it
 * meets the hull of some that lie already. */
#include "slab_sets.h"

#include "random_plan.h"
#include "sawn.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { GRID = 4, HALVINGS = 30, MOST_CORNERS = 400, MOST_MOVES = 128, MOST_LOOKS = 500 };

/* A piece on its slab in some turn, and how far it may move from there; um. */
struct stance {
	size_t n;
	struct point p[MOST_CORNERS];
	struct box box;
	double lo[2], hi[2]; /* moves in x and y */
};

struct trial {
	GEOSContextHandle_t g;
	const struct cut_stock *stock;
	int count, turns;
	struct stance stance[SOURCE_PIECES][4]; /* of each piece and turn */
	bool rectangles, slides;
	double kerf; /* um */
	int looks; /* left */
	/* as placed */
	int order[SOURCE_PIECES];
	GEOSGeometry *placed[SOURCE_PIECES];
};

/* --- stances --- */

static bool on(double a, double b, double line)
{
	return fabs(a - line) < 1e-6 && fabs(b - line) < 1e-6;
}

static void stand(
        const struct cut_stock *stock, const struct piece *piece, int away, struct stance *out)
{
	const struct ring *r = &piece->shape.rings[0];
	double size[2] = { (double)stock->length_um, (double)stock->width_um };
	double l = piece->standing ? size[1] : size[0], w = piece->standing ? size[0] : size[1];
	int turn = (away + (piece->standing ? 270 : 0)) % 360;
	struct point at = { turn == 90    ? w
		            : turn == 180 ? l
		                          : 0,
		turn == 180   ? w
		: turn == 270 ? l
		              : 0 };
	bool held[2] = { false, false };
	int across = turn == 90 || turn == 270;

	ck_assert_uint_le(r->n, MOST_CORNERS);
	out->n = r->n;
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n];

		out->p[i] = sawn_corner(a, turn, at);
		if (stock->edges == RULE_ROUGH || hypot(b.x - a.x, b.y - a.y) < 1)
			continue;
		if (on(a.x, b.x, 0) || on(a.x, b.x, l))
			held[across] = true;
		if (on(a.y, b.y, 0) || on(a.y, b.y, w))
			held[!across] = true;
	}
	out->box = points_box(out->p, out->n);
	out->lo[0] = held[0] ? 0 : -out->box.x0;
	out->hi[0] = held[0] ? 0 : size[0] - out->box.x1;
	out->lo[1] = held[1] ? 0 : -out->box.y0;
	out->hi[1] = held[1] ? 0 : size[1] - out->box.y1;
}

static bool is_rectangle(const struct stance *s)
{
	for (size_t i = 0; i < s->n; i++) {
		struct point a = s->p[i], b = s->p[(i + 1) % s->n];

		if (fabs(a.x - b.x) > 1e-6 && fabs(a.y - b.y) > 1e-6)
			return false;
	}
	return s->n == 4;
}

/* --- rectangles --- */

struct pushed {
	const struct stance *s[SOURCE_PIECES];
	double kerf, move[SOURCE_PIECES][2];
	int count, relation[SOURCE_PIECES][SOURCE_PIECES]; /* 1: i before j in x, 2: in y; 0: no */
};

static double low_side(const struct pushed *t, int i, int axis)
{
	return t->move[i][axis] + (axis ? t->s[i]->box.y0 : t->s[i]->box.x0);
}

static double high_side(const struct pushed *t, int i, int axis)
{
	return t->move[i][axis] + (axis ? t->s[i]->box.y1 : t->s[i]->box.x1);
}

/* Pushes all as far to the low end as their relations allow; false where one leaves its range. */
static bool push(struct pushed *t, int axis)
{
	bool moved = true;

	for (int i = 0; i < t->count; i++)
		t->move[i][axis] = t->s[i]->lo[axis];
	while (moved) {
		moved = false;
		for (int i = 0; i < t->count; i++)
			for (int j = 0; j < t->count; j++) {
				double by = high_side(t, i, axis) + t->kerf - low_side(t, j, axis);

				if (t->relation[i][j] != axis + 1 || by < 1e-4)
					continue;
				t->move[j][axis] += by;
				if (t->move[j][axis] > t->s[j]->hi[axis] + 1e-3)
					return false;
				moved = true;
			}
	}
	return true;
}

/* Goes through the relations of the pairs from (i, j) on. */
static bool relate_pairs(struct pushed *t, int i, int j)
{
	if (i + 1 == t->count)
		return true;
	if (j == t->count)
		return relate_pairs(t, i + 1, i + 2);
	for (int r = 0; r < 4; r++) {
		int axis = r / 2;

		t->relation[i][j] = r % 2 ? 0 : axis + 1;
		t->relation[j][i] = r % 2 ? axis + 1 : 0;
		if (push(t, axis) && relate_pairs(t, i, j + 1))
			return true;
		t->relation[i][j] = t->relation[j][i] = 0;
	}
	return false;
}

static void set_relations(struct pushed *t, unsigned before, unsigned behind, int relation)
{
	for (int i = 0; i < t->count; i++)
		for (int j = 0; j < t->count; j++)
			if (before >> i & 1 && behind >> j & 1)
				t->relation[i][j] = relation;
}

/* Goes through the ways to cut the sets up, each into single pieces: a cut has those before it and
 * those behind it. */
static bool cut_up(struct pushed *t, const unsigned *sets, int n)
{
	unsigned rest[SOURCE_PIECES + 1], set;

	while (n && !(sets[n - 1] & (sets[n - 1] - 1)))
		n--;
	if (!n)
		return true;
	set = sets[n - 1];
	memcpy(rest, sets, (size_t)n * sizeof *rest);
	for (unsigned one = (set - 1) & set; one; one = (one - 1) & set)
		for (int axis = 0; axis < 2; axis++) {
			rest[n - 1] = one;
			rest[n] = set & ~one;
			set_relations(t, rest[n - 1], rest[n], axis + 1);
			if (push(t, axis) && cut_up(t, rest, n + 1))
				return true;
			set_relations(t, rest[n - 1], rest[n], 0);
		}
	return false;
}

static GEOSGeometry *set_down(const struct trial *t, const struct stance *s, double dx, double dy)
{
	struct point p[MOST_CORNERS];

	for (size_t i = 0; i < s->n; i++)
		p[i] = (struct point){ s->p[i].x + dx, s->p[i].y + dy };
	return geos_polygon(t->g, p, s->n);
}

/* What was found is looked at again by the hulls. */
static void check_pushed(const struct trial *t, struct pushed *p)
{
	GEOSGeometry *placed[SOURCE_PIECES];

	push(p, 0);
	push(p, 1);
	for (int i = 0; i < p->count; i++)
		placed[i] = set_down(t, p->s[i], p->move[i][0], p->move[i][1]);
	ck_assert(sawn_apart(t->g, (const GEOSGeometry *const *)placed, p->count, p->kerf / 1000));
	for (int i = 0; i < p->count; i++)
		GEOSGeom_destroy_r(t->g, placed[i]);
}

/* Whether the rectangles, turned as they are, can be pushed apart; by cuts, or else any way. */
static bool push_apart(const struct trial *t, struct pushed *p, bool by_cuts)
{
	unsigned all = (1U << t->count) - 1;

	memset(p->relation, 0, sizeof p->relation);
	p->count = t->count;
	if (!by_cuts)
		return relate_pairs(p, 0, 1);
	if (!cut_up(p, &all, 1))
		return false;
	check_pushed(t, p);
	return true;
}

/* Tries the turns of the pieces from the n-th on. */
static bool push_turned(const struct trial *t, struct pushed *p, int n, bool by_cuts)
{
	if (n == t->count)
		return push_apart(t, p, by_cuts);
	/* The slab may be turned with all that lies on it. */
	for (int turn = 0; turn < (n ? t->turns : 1); turn++) {
		p->s[n] = &t->stance[n][turn];
		if (push_turned(t, p, n + 1, by_cuts))
			return true;
	}
	return false;
}

/* --- anything --- */

/* How far the stance, moved, is from a polygon that lies. */
static double gap(
        struct trial *t, const struct stance *s, double dx, double dy, const GEOSGeometry *other)
{
	GEOSGeometry *here = set_down(t, s, dx, dy);
	double mm;

	GEOSDistance_r(t->g, here, other, &mm);
	GEOSGeom_destroy_r(t->g, here);
	return mm * 1000;
}

struct slide {
	const struct stance *s;
	int axis;
	double other; /* the move in the other direction */
};

static double gap_at(struct trial *t, const struct slide *l, double move, const GEOSGeometry *other)
{
	return l->axis ? gap(t, l->s, l->other, move, other) : gap(t, l->s, move, l->other, other);
}

/* Nearer than that is too near: without a kerf, a thousandth of a micrometre. */
static double least_gap(const struct trial *t)
{
	return fmax(t->kerf, 1e-3);
}

static int add_move(double *moves, int n, double move, const struct slide *l)
{
	if (n == MOST_MOVES || move < l->s->lo[l->axis] || move > l->s->hi[l->axis])
		return n;
	moves[n] = move;
	return n + 1;
}

/* The move nearest to `out` at which the piece comes up to the kerf to the other; it does keep it
 * at `out`, and not at `in`. */
static double meet(
        struct trial *t, const struct slide *l, double in, double out, const GEOSGeometry *other)
{
	for (int i = 0; i < HALVINGS; i++) {
		double middle = (in + out) / 2;

		if (gap_at(t, l, middle, other) >= least_gap(t))
			out = middle;
		else
			in = middle;
	}
	return out;
}

/* Moves at which the piece meets the hull of what lies: along its slide the gap first falls, then
 * grows; steps find where it is too small. */
static int add_meetings(
        struct trial *t, double *moves, int n, const struct slide *l, const GEOSGeometry *other)
{
	enum { STEPS = 12 };
	double lo = l->s->lo[l->axis], hi = l->s->hi[l->axis], step = (hi - lo) / STEPS;
	bool was = gap_at(t, l, lo, other) >= least_gap(t);

	for (int i = 1; i <= STEPS; i++) {
		double here = lo + step * i;
		bool is = gap_at(t, l, here, other) >= least_gap(t);

		if (was && !is)
			n = add_move(moves, n, meet(t, l, here, here - step, other), l);
		if (!was && is)
			n = add_move(moves, n, meet(t, l, here - step, here, other), l);
		was = is;
	}
	return n;
}

static GEOSGeometry *hull_of_placed(struct trial *t, int at, unsigned set)
{
	GEOSGeometry *parts[SOURCE_PIECES], *all, *hull;
	unsigned n = 0;

	for (int i = 0; i < at; i++)
		if (set >> i & 1)
			parts[n++] = GEOSGeom_clone_r(t->g, t->placed[i]);
	all = GEOSGeom_createCollection_r(t->g, GEOS_MULTIPOLYGON, parts, n);
	hull = GEOSConvexHull_r(t->g, all);
	GEOSGeom_destroy_r(t->g, all);
	return hull;
}

static int list_moves(struct trial *t, int at, const struct slide *l, double *moves)
{
	double lo = l->s->lo[l->axis], hi = l->s->hi[l->axis];
	int n = 0;

	if (hi - lo < 1e-6) {
		moves[0] = (lo + hi) / 2;
		return 1;
	}
	for (int i = 0; i <= GRID; i++)
		n = add_move(moves, n, i == GRID ? hi : lo + (hi - lo) * i / GRID, l);
	for (unsigned set = 1; set < 1U << at; set++) {
		GEOSGeometry *hull = hull_of_placed(t, at, set);

		n = add_meetings(t, moves, n, l, hull);
		GEOSGeom_destroy_r(t->g, hull);
	}
	return n;
}

static bool place_next(struct trial *t, int at);

static bool try_place(struct trial *t, int at, const struct stance *s, double dx, double dy)
{
	bool done = true;

	t->looks--;
	t->placed[at] = set_down(t, s, dx, dy);
	for (int i = 0; i < at && done; i++)
		done = sawn_clear(t->g, t->placed[i], t->placed[at], t->kerf / 1000);
	done = done && place_next(t, at + 1);
	GEOSGeom_destroy_r(t->g, t->placed[at]);
	return done;
}

/* Moves in one direction first, and for each of them those in the other. */
static bool try_moves(struct trial *t, int at, const struct stance *s, int first)
{
	double moves[2][MOST_MOVES];
	struct slide one = { s, first, s->lo[!first] }, other = { s, !first, 0 };
	int n = list_moves(t, at, &one, moves[0]);

	for (int i = 0; i < n && t->looks > 0; i++) {
		int m;

		other.other = moves[0][i];
		m = list_moves(t, at, &other, moves[1]);
		for (int k = 0; k < m && t->looks > 0; k++) {
			double a = moves[0][i], b = moves[1][k];

			if (try_place(t, at, s, first ? b : a, first ? a : b))
				return true;
		}
	}
	return false;
}

static bool place_next(struct trial *t, int at)
{
	if (at == t->count)
		return t->count == 2 || sawn_apart(t->g, (const GEOSGeometry *const *)t->placed,
		                                t->count, t->kerf / 1000);
	for (int turn = 0; turn < (at ? t->turns : 1) && t->looks > 0; turn++) {
		const struct stance *s = &t->stance[t->order[at]][turn];
		bool both = s->hi[0] - s->lo[0] > 1e-6 && s->hi[1] - s->lo[1] > 1e-6;

		if (try_moves(t, at, s, 0) || (both && try_moves(t, at, s, 1)))
			return true;
	}
	return false;
}

/* Tries every order of those from the n-th on. */
static bool try_orders(struct trial *t, int n)
{
	if (n == t->count)
		return place_next(t, 0);
	for (int i = n; i < t->count && t->looks > 0; i++) {
		int swap = t->order[n];
		bool done;

		t->order[n] = t->order[i];
		t->order[i] = swap;
		done = try_orders(t, n + 1);
		t->order[i] = t->order[n];
		t->order[n] = swap;
		if (done)
			return true;
		if (!t->slides)
			return false; /* the order is nothing to pieces that stay */
	}
	return false;
}

/* --- the answer --- */

static enum yields try_all(struct trial *t)
{
	struct pushed p = { .kerf = t->kerf };

	if (t->rectangles) {
		if (push_turned(t, &p, 0, true))
			return YIELDS;
		p.kerf = t->kerf / sqrt(2);
		if (!push_turned(t, &p, 0, false))
			return YIELDS_NOT;
	}
	t->looks = MOST_LOOKS;
	if (try_orders(t, 0))
		return YIELDS;
	return t->slides || t->looks <= 0 ? YIELDS_PERHAPS : YIELDS_NOT;
}

enum yields slab_yields(GEOSContextHandle_t g, const struct cut_stock *stock,
        const struct piece *const *pieces, int count)
{
	static const int turns[] = { 0, 180, 90, 270 };
	static struct trial t; /* large */
	double area = 0;

	t = (struct trial){ .g = g,
		.stock = stock,
		.count = count,
		.rectangles = true,
		.kerf = (double)stock->kerf_um,
		.turns = stock->directional                    ? 1
		         : stock->length_um == stock->width_um ? 4
		                                               : 2 };
	for (int i = 0; i < count; i++) {
		t.order[i] = i;
		area += fabs(ring_polygon_area(
		        pieces[i]->shape.rings[0].p, pieces[i]->shape.rings[0].n));
		for (int k = 0; k < t.turns; k++) {
			struct stance *s = &t.stance[i][k];

			stand(stock, pieces[i], turns[k], s);
			t.rectangles = t.rectangles && is_rectangle(s);
			t.slides = t.slides || s->hi[0] - s->lo[0] > 1e-6 ||
			           s->hi[1] - s->lo[1] > 1e-6;
		}
	}
	if (count == 1)
		return YIELDS;
	/* 1 mm2 for the rounding */
	if (area > (double)stock->length_um * (double)stock->width_um + 1e6)
		return YIELDS_NOT;
	return try_all(&t);
}

/* --- all sets --- */

static int members(unsigned set)
{
	int n = 0;

	for (; set; set &= set - 1)
		n++;
	return n;
}

/* No set does of which a part does not. */
static enum yields by_parts(const unsigned char *yields, unsigned set)
{
	enum yields worst = YIELDS;

	for (unsigned left = set; left; left &= left - 1) {
		enum yields part = yields[set & ~(left & -left)];

		worst = part < worst ? part : worst;
	}
	return worst;
}

/* More than four pieces, under the rough rule, of which all parts may do: not tried out. */
static enum yields larger_set(const struct set_job *job, unsigned set)
{
	double area = 0;

	for (size_t i = 0; i < job->count; i++)
		area += set >> i & 1 ? job->pieces[i]->area_um2 : 0;
	return area > (double)job->stock->length_um * (double)job->stock->width_um + 1
	               ? YIELDS_NOT
	               : YIELDS_PERHAPS;
}

static void try_sets(const struct set_job *job, unsigned char *yields)
{
	for (unsigned set = 1; set < 1U << job->count; set++) {
		const struct piece *chosen[SOURCE_PIECES];
		int n = 0;

		if (members(set) > SOURCE_PIECES) {
			if (job->stock->edges == RULE_ROUGH && by_parts(yields, set) != YIELDS_NOT)
				yields[set] = (unsigned char)larger_set(job, set);
			continue;
		}
		for (size_t i = 0; i < job->count; i++)
			if (set >> i & 1)
				chosen[n++] = job->pieces[i];
		if (n == 1 || by_parts(yields, set) != YIELDS_NOT)
			yields[set] = (unsigned char)slab_yields(job->g, job->stock, chosen, n);
	}
}

/* Sets that are shown to do, and parts of those that do. */
static int take_shown(const struct set_job *job, unsigned char *yields)
{
	int missed = 0;

	for (size_t i = 0; i < job->shown_count; i++) {
		unsigned char *y = &yields[job->shown[i]];

		ck_assert_msg(*y != YIELDS_NOT, "set %x comes from one slab, trying says it cannot",
		        job->shown[i]);
		missed += *y == YIELDS_PERHAPS;
		*y = YIELDS;
	}
	for (unsigned set = (1U << job->count) - 1; set; set--)
		for (unsigned left = set; yields[set] == YIELDS && left; left &= left - 1)
			yields[set & ~(left & -left)] = YIELDS;
	return missed;
}

/* The fewest of the sets from which all pieces come, set by set of pieces. */
static size_t fewest_of(const unsigned char *yields, size_t count, enum yields at_least)
{
	static unsigned char fewest[1U << MOST_IN_SETS];

	fewest[0] = 0;
	for (unsigned set = 1; set < 1U << count; set++) {
		unsigned lowest = set & -set;

		fewest[set] = (unsigned char)count;
		for (unsigned part = set; part; part = (part - 1) & set)
			if (part & lowest && yields[part] >= at_least &&
			        fewest[set & ~part] + 1 < fewest[set])
				fewest[set] = (unsigned char)(fewest[set & ~part] + 1);
	}
	return fewest[(1U << count) - 1];
}

struct fewest fewest_slabs(const struct set_job *job)
{
	unsigned char yields[1U << MOST_IN_SETS] = { YIELDS };
	struct fewest f;

	ck_assert_uint_le(job->count, MOST_IN_SETS);
	try_sets(job, yields);
	f.missed = take_shown(job, yields);
	f.enough = fewest_of(yields, job->count, YIELDS);
	f.least = fewest_of(yields, job->count, YIELDS_PERHAPS);
	return f;
}
