/* slab_sets.c - see slab_sets.h.
 *
 * Rectangles in given turns: all ways to part them by cuts along the slab's sides are gone through,
 * and the pieces pushed as far down and left as the cuts allow; that is exact. They may also be
 * parted by slanted cuts. Then every two are still apart in x or in y by the kerf over root 2:
 * where no such places are found, whichever of two comes first, there is none. All else is tried:
 * piece after piece, in every order and turn, at the ends of its slide, on a grid, and where it
 * meets the hull of some that lie already. */
#include "slab_sets.h"

#include "sawn.h"
#include "stance.h"

#include <check.h>
#include <glpk.h>
#include <math.h>
#include <string.h>

enum { GRID = 4, HALVINGS = 30, MOST_MOVES = 128, MOST_LOOKS = 500 };

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

/* How far the stance, moved, is from a polygon that lies. */
static double gap(
        struct trial *t, const struct stance *s, double dx, double dy, const GEOSGeometry *other)
{
	GEOSGeometry *here = stance_set_down(t->g, s, dx, dy);
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
	if (t->count == 2)
		for (int i = 0; i < at; i++) /* into a notch */
			n = add_meetings(t, moves, n, l, t->placed[i]);
	return n;
}

static bool place_next(struct trial *t, int at);

static bool try_place(struct trial *t, int at, const struct stance *s, double dx, double dy)
{
	bool done = true;

	t->looks--;
	t->placed[at] = stance_set_down(t->g, s, dx, dy);
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

/* Whether rectangles can be pushed apart, in any turns of those from the n-th on. */
static bool push_turned(
        const struct trial *t, const struct stance **s, int n, double kerf, bool by_cuts)
{
	if (n == t->count)
		return stances_push_apart(t->g, s, n, kerf, by_cuts);
	/* The slab may be turned with all that lies on it. */
	for (int turn = 0; turn < (n ? t->turns : 1); turn++) {
		s[n] = &t->stance[n][turn];
		if (push_turned(t, s, n + 1, kerf, by_cuts))
			return true;
	}
	return false;
}

static enum yields try_all(struct trial *t)
{
	const struct stance *s[SOURCE_PIECES];

	if (t->rectangles) {
		if (push_turned(t, s, 0, t->kerf, true))
			return YIELDS;
		if (!push_turned(t, s, 0, t->kerf / sqrt(2), false))
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

			stance_make(stock, pieces[i], turns[k], s);
			t.rectangles = t.rectangles && stance_is_rectangle(s);
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

/* Whether one piece more may come with the set. */
static bool may_grow(const unsigned char *yields, size_t count, unsigned set, enum yields at_least)
{
	for (size_t i = 0; i < count; i++)
		if (!(set >> i & 1) && yields[set | 1U << i] >= at_least)
			return true;
	return false;
}

/* Gives the program a column for each set that does, but for parts of others. */
static void add_sets(glp_prob *p, const unsigned char *yields, size_t count, enum yields at_least)
{
	for (unsigned set = 1; set < 1U << count; set++) {
		int rows[MOST_IN_SETS + 1], n = 0, column;
		double ones[MOST_IN_SETS + 1];

		if (yields[set] < at_least || may_grow(yields, count, set, at_least))
			continue;
		for (size_t i = 0; i < count; i++)
			if (set >> i & 1) {
				rows[++n] = (int)i + 1;
				ones[n] = 1;
			}
		column = glp_add_cols(p, 1);
		glp_set_col_kind(p, column, GLP_BV);
		glp_set_obj_coef(p, column, 1);
		glp_set_mat_col(p, column, n, rows, ones);
	}
}

/* The fewest of the sets from which all pieces come, as an integer program: each piece in one set
 * or more. */
static size_t fewest_by_glpk(const unsigned char *yields, size_t count, enum yields at_least)
{
	glp_prob *p = glp_create_prob();
	glp_iocp how;
	size_t fewest;

	glp_term_out(GLP_OFF);
	glp_set_obj_dir(p, GLP_MIN);
	glp_add_rows(p, (int)count);
	for (int i = 1; i <= (int)count; i++)
		glp_set_row_bnds(p, i, GLP_LO, 1, 0);
	add_sets(p, yields, count, at_least);
	glp_init_iocp(&how);
	how.presolve = GLP_ON;
	ck_assert_int_eq(glp_intopt(p, &how), 0);
	ck_assert_int_eq(glp_mip_status(p), GLP_OPT);
	fewest = (size_t)lround(glp_mip_obj_val(p));
	glp_delete_prob(p);
	return fewest;
}

struct fewest fewest_slabs(const struct set_job *job)
{
	unsigned char yields[1U << MOST_IN_SETS] = { YIELDS };
	struct fewest f;

	ck_assert_uint_le(job->count, MOST_IN_SETS);
	try_sets(job, yields);
	f.missed = take_shown(job, yields);
	f.enough = fewest_by_glpk(yields, job->count, YIELDS);
	f.least = fewest_by_glpk(yields, job->count, YIELDS_PERHAPS);
	return f;
}
