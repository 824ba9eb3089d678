/* Random planters, laid out by the computation and looked at again from the blocks' corners alone.
 *
 * Nothing here knows how courses are chosen: blocks are rectangles in the plan that must not
 * overlap, must fill the wall but for its joints, must take turns on every corner, and must lap.
 * And where a plain search over first units finds a layout without faults, so must the computation.
 */
#include "chance.h"
#include "plans.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

enum { CASES = 1000, MOST = 400, STEPS = 40 };

static const double NEAR = 0.51; /* um */

struct wall {
	struct plan plan;
	struct plan_planter planter;
	struct plan_point points[16];
	struct planters_result out;
	const struct planter_result *r;
};

/* Runs by their turns: each letter is a leg, then l or r. A closed one ends where it began. */
static const struct {
	const char *turns;
	bool closed;
} shapes[] = {
	{ "", false },
	{ "l", false },
	{ "r", false },
	{ "ll", false },
	{ "lr", false },
	{ "rr", false },
	{ "lrl", false },
	{ "llll", true },
	{ "lllrll", true },
	{ "rrrr", true },
};

/* --- building one --- */

static int64_t any_leg(struct chance *c, int64_t wide)
{
	return 2 * wide + chance_int(c, 100, 4000) * (chance_int(c, 0, 1) ? MM : 997);
}

/* An L's ring has two legs that follow from the others. */
static void close_ring(struct plan_point *p, size_t n, int64_t a, int64_t b, int64_t c, int64_t d)
{
	const struct plan_point box[] = { { 0, 0 }, { a, 0 }, { a, b }, { 0, b } };
	const struct plan_point ell[] = { { 0, 0 }, { a + c, 0 }, { a + c, b }, { a, b },
		{ a, b + d }, { 0, b + d } };

	memcpy(p, n == 4 ? box : ell, n * sizeof *p);
}

static void turn_points(struct plan_point *p, size_t n, int quarters)
{
	for (int q = 0; q < quarters; q++)
		for (size_t i = 0; i < n; i++)
			p[i] = (struct plan_point){ -p[i].y_um, p[i].x_um };
}

static void any_run(struct chance *c, struct wall *w, int64_t wide)
{
	size_t shape = (size_t)chance_int(c, 0, sizeof shapes / sizeof *shapes - 1);
	const char *turns = shapes[shape].turns;
	struct plan_planter *p = &w->planter;
	int64_t x = 0, y = 0, dx = 1, dy = 0;

	p->closed = shapes[shape].closed;
	p->count = strlen(turns) + (p->closed ? 0 : 2);
	if (p->closed) {
		close_ring(w->points, p->count, any_leg(c, wide), any_leg(c, wide),
		        any_leg(c, wide), any_leg(c, wide));
	} else {
		for (size_t i = 0; i < p->count; i++) {
			int64_t leg = any_leg(c, wide), was = dx;

			w->points[i] = (struct plan_point){ x, y };
			x += dx * leg;
			y += dy * leg;
			if (i + 2 < p->count) {
				dx = turns[i] == 'l' ? -dy : dy;
				dy = turns[i] == 'l' ? was : -was;
			}
		}
	}
	if (turns[0] == 'r' && p->closed) /* drawn clockwise */
		for (size_t i = 0; i < p->count; i++)
			w->points[i].x_um = -w->points[i].x_um;
	turn_points(w->points, p->count, (int)chance_int(c, 0, 3));
	p->points = w->points;
}

static void any_wall(struct chance *c, struct wall *w)
{
	static const int64_t joints[] = { 0, 0, 3, 5, 10, 12 };
	struct plan_block *k = &w->planter.block;

	memset(w, 0, sizeof *w);
	plan_init(&w->plan);
	planter_init(&w->planter);
	k->length_um = chance_int(c, 200, 600) * MM;
	k->width_um = k->length_um * chance_int(c, 15, 70) / 100;
	k->joint_um = joints[chance_int(c, 0, 5)] * MM;
	k->has_half = chance_int(c, 0, 1);
	k->has_corner = chance_int(c, 0, 1);
	w->planter.leaves = chance_int(c, 1, 4) == 1 ? 2 : 1;
	w->planter.courses = chance_int(c, 2, 7);
	any_run(c, w, 2 * k->width_um + k->joint_um);
	w->plan.planters = &w->planter;
	w->plan.planter_count = 1;
}

static void work_out_wall(struct arena *mem, struct wall *w)
{
	static const struct rules none = { .name = "none" };

	ck_assert_int_eq(planters_work_out(mem, &w->plan, &none, &w->out, NULL), STATUS_OK);
	w->r = &w->out.items[0];
	ck_assert_msg(w->r->ready, "%s", w->r->fault.text);
}

/* --- the wall's own geometry, from its points --- */

static bool is_reversed(const struct wall *w)
{
	return w->planter.closed && w->r->legs[0].to != 0 && w->r->corners[1].point != 1;
}

static struct point corner_point(const struct wall *w, size_t corner)
{
	const struct plan_point *p = &w->points[w->r->corners[corner].point];

	return (struct point){ (double)p->x_um, (double)p->y_um };
}

static struct point way_of_leg(const struct wall *w, size_t leg, double *length)
{
	size_t n = w->planter.count;
	struct point a = corner_point(w, leg), b = corner_point(w, (leg + 1) % n);

	*length = fabs(b.x - a.x) + fabs(b.y - a.y);
	return (struct point){ (b.x - a.x) / *length, (b.y - a.y) / *length };
}

/* +1 left, -1 right, 0 at an end. */
static int turn_at(const struct wall *w, size_t corner)
{
	size_t n = w->planter.count;
	double l;
	struct point a, b;

	if (!w->planter.closed && (corner == 0 || corner + 1 == n))
		return 0;
	a = way_of_leg(w, (corner + n - 1) % n, &l);
	b = way_of_leg(w, corner, &l);
	return a.x * b.y - a.y * b.x > 0 ? 1 : -1;
}

static size_t legs_of(const struct wall *w)
{
	return w->planter.closed ? w->planter.count : w->planter.count - 1;
}

static double leaf_v(const struct wall *w, int leaf)
{
	return leaf ? (double)(w->planter.block.width_um + w->planter.block.joint_um) : 0;
}

/* --- rectangles --- */

struct brick {
	struct box box;
	size_t leg;
	double from, to; /* along its leg */
	double length;
};

static struct brick brick_of(const struct wall *w, const struct planter_unit *u)
{
	struct point q[4], a = corner_point(w, u->leg), way;
	struct brick b = { .leg = u->leg, .length = (double)u->length_um };
	double l, us[4];

	planter_unit_ring(w->r, u, q);
	b.box = points_box(q, 4);
	way = way_of_leg(w, u->leg, &l);
	for (int i = 0; i < 4; i++)
		us[i] = (q[i].x - a.x) * way.x + (q[i].y - a.y) * way.y;
	b.from = fmin(us[0], us[2]);
	b.to = fmax(us[0], us[2]);
	return b;
}

static size_t bricks_of(const struct wall *w, int course, int leaf, struct brick *out)
{
	const struct planter_course *c = &w->r->courses[course];
	size_t n = 0;

	for (size_t i = 0; i < c->unit_count; i++)
		if (c->units[i].leaf == leaf) {
			ck_assert_uint_lt(n, MOST);
			out[n++] = brick_of(w, &c->units[i]);
		}
	return n;
}

static void check_apart(const struct brick *b, size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++)
			ck_assert_msg(b[i].box.x1 <= b[j].box.x0 + NEAR ||
			                      b[j].box.x1 <= b[i].box.x0 + NEAR ||
			                      b[i].box.y1 <= b[j].box.y0 + NEAR ||
			                      b[j].box.y1 <= b[i].box.y0 + NEAR,
			        "blocks %zu and %zu overlap", i, j);
}

/* Length times width of the leaf, by the corners' squares. */
static double leaf_um2(const struct wall *w, int leaf)
{
	double wide = (double)w->planter.block.width_um, sum = 0, l;

	for (size_t i = 0; i < legs_of(w); i++) {
		way_of_leg(w, i, &l);
		sum += l;
	}
	for (size_t i = 0; i < w->planter.count; i++)
		sum -= turn_at(w, i) * (2 * leaf_v(w, leaf) + wide);
	return sum * wide;
}

/* Blocks and one joint between each two neighbours are all of the leaf. */
static void check_full(const struct wall *w, int leaf, const struct brick *b, size_t n)
{
	double wide = (double)w->planter.block.width_um, sum = 0;

	for (size_t i = 0; i < n; i++) {
		double area = (b[i].box.x1 - b[i].box.x0) * (b[i].box.y1 - b[i].box.y0);

		ck_assert_double_eq_tol(area, b[i].length * wide, 1e3);
		ck_assert_double_le(b[i].length, (double)w->planter.block.length_um);
		sum += area;
	}
	sum += (double)(w->planter.closed ? n : n - 1) * (double)w->planter.block.joint_um * wide;
	ck_assert_double_eq_tol(sum, leaf_um2(w, leaf), (double)n * wide);
}

/* Along a leg each block begins one joint behind the one before. */
static void check_gaps(const struct wall *w, const struct brick *b, size_t n)
{
	for (size_t i = 1; i < n; i++)
		if (b[i].leg == b[i - 1].leg)
			ck_assert_double_eq_tol(
			        b[i].from - b[i - 1].to, (double)w->planter.block.joint_um, NEAR);
}

static struct point corner_square(const struct wall *w, size_t corner, int leaf)
{
	double l, v = leaf_v(w, leaf) + (double)w->planter.block.width_um / 2;
	struct point p = corner_point(w, corner), way = way_of_leg(w, corner, &l);
	int turn = turn_at(w, corner);

	return (struct point){ p.x - v * way.y + turn * v * way.x,
		p.y + v * way.x + turn * v * way.y };
}

static const struct brick *brick_on(const struct brick *b, size_t n, struct point p)
{
	const struct brick *found = NULL;

	for (size_t i = 0; i < n; i++)
		if (p.x > b[i].box.x0 && p.x < b[i].box.x1 && p.y > b[i].box.y0 &&
		        p.y < b[i].box.y1) {
			ck_assert_ptr_null(found);
			found = &b[i];
		}
	return found;
}

static void check_corners(const struct wall *w, int leaf, const struct brick *odd, size_t n,
        const struct brick *even, size_t m)
{
	for (size_t i = 0; i < w->planter.count; i++) {
		struct point at = corner_square(w, i, leaf);
		const struct brick *a, *b;

		if (!turn_at(w, i))
			continue;
		a = brick_on(odd, n, at);
		b = brick_on(even, m, at);
		ck_assert_msg(a && b && a->leg != b->leg, "corner %zu does not interlock", i);
	}
}

/* --- laps --- */

/* Upright joints that stand across a leg, from its blocks and what they end on. */
static size_t joints_on(
        const struct wall *w, const struct brick *b, size_t n, size_t leg, int leaf, double *out)
{
	double l, joint = (double)w->planter.block.joint_um, lo = INFINITY, hi = -INFINITY;
	size_t count = 0;
	int first = turn_at(w, leg), last = turn_at(w, (leg + 1) % w->planter.count);
	double in0 = first * leaf_v(w, leaf), in1 = last * leaf_v(w, leaf),
	       wide = (double)w->planter.block.width_um;

	way_of_leg(w, leg, &l);
	for (size_t i = 0; i < n; i++) {
		if (b[i].leg != leg)
			continue;
		if (b[i].from > lo)
			out[count++] = b[i].from - joint / 2;
		lo = fmin(lo, b[i].from);
		hi = fmax(hi, b[i].to);
	}
	/* A leg that has no corner block ends a joint before the other one's. */
	if (first && lo > in0 - (first < 0 ? wide : 0) + NEAR)
		out[count++] = lo - joint / 2;
	if (last && hi < l - in1 + (last < 0 ? wide : 0) - NEAR)
		out[count++] = hi + joint / 2;
	return count;
}

static double least_lap(const struct wall *w, int leaf, const struct brick *odd, size_t n,
        const struct brick *even, size_t m)
{
	static double a[MOST], b[MOST];
	double least = INFINITY;

	for (size_t leg = 0; leg < legs_of(w); leg++) {
		size_t p = joints_on(w, odd, n, leg, leaf, a),
		       q = joints_on(w, even, m, leg, leaf, b);

		for (size_t i = 0; i < p; i++)
			for (size_t j = 0; j < q; j++)
				least = fmin(least, fabs(a[i] - b[j]));
	}
	return least;
}

/* --- is there a layout without faults at all? --- */

struct row {
	double joints[64];
	int count;
	bool good;
};

/* A course from `from` to `to`, its first unit so long; own: a corner's block at that end. */
static void make_row(const struct wall *w, double from, double to, const bool own[2],
        const bool ends_on[2], double first, struct row *r)
{
	const struct plan_block *k = &w->planter.block;
	double whole = (double)k->length_um, joint = (double)k->joint_um,
	       least = (double)(k->length_um / 4), wide = (double)k->width_um, u = from,
	       size = fmin(first, to - from);

	r->count = 0;
	r->good = size >= least + (own[0] ? wide : 0);
	if (ends_on[0])
		r->joints[r->count++] = from - joint / 2;
	while (u + size < to - NEAR && r->count < 60) {
		u += size;
		r->joints[r->count++] = u + joint / 2;
		u += joint;
		size = fmin(whole, to - u);
		r->good = r->good && size >= least;
	}
	r->good = r->good && size >= least + (own[1] ? wide : 0);
	if (ends_on[1])
		r->joints[r->count++] = to + joint / 2;
}

static bool rows_lap(const struct wall *w, const struct row *a, const struct row *b)
{
	double least = (double)(w->planter.block.length_um / 4);

	for (int i = 0; i < a->count; i++)
		for (int j = 0; j < b->count; j++)
			if (fabs(a->joints[i] - b->joints[j]) < least)
				return false;
	return true;
}

/* owns[end][course]: whether this leg has the block there. */
static bool leg_can(const struct wall *w, size_t leg, int leaf, bool owns[2][2])
{
	static struct row rows[2][STEPS + 1];
	double l, wide = (double)w->planter.block.width_um,
	          step = (double)w->planter.block.length_um / STEPS,
	          joint = (double)w->planter.block.joint_um;
	int turn[2] = { turn_at(w, leg), turn_at(w, (leg + 1) % w->planter.count) };

	way_of_leg(w, leg, &l);
	for (int c = 0; c < 2; c++) {
		double in[2];
		bool own[2], on[2];

		for (int e = 0; e < 2; e++) {
			own[e] = turn[e] && owns[e][c];
			on[e] = turn[e] && !owns[e][c];
			in[e] = turn[e] * leaf_v(w, leaf) - (turn[e] < 0 ? wide : 0) +
			        (on[e] ? wide + joint : 0);
		}
		if (l / (double)w->planter.block.length_um > 50)
			return false;
		for (int i = 1; i <= STEPS; i++)
			make_row(w, in[0], l - in[1], own, on, i * step, &rows[c][i]);
	}
	for (int i = 1; i <= STEPS; i++)
		for (int j = 1; rows[0][i].good && j <= STEPS; j++)
			if (rows[1][j].good && rows_lap(w, &rows[0][i], &rows[1][j]))
				return true;
	return false;
}

static bool all_legs_can(const struct wall *w, unsigned turns)
{
	size_t n = w->planter.count;

	for (size_t leg = 0; leg < legs_of(w); leg++)
		for (int leaf = 0; leaf < w->planter.leaves; leaf++) {
			bool a = turns >> leg & 1, z = turns >> (leg + 1) % n & 1;
			/* A corner's bit: the leg that comes in has it in odd courses. */
			bool owns[2][2] = { { !a, a }, { z, !z } };

			if (!leg_can(w, leg, leaf, owns))
				return false;
		}
	return true;
}

static bool a_faultless_layout_exists(const struct wall *w)
{
	for (unsigned turns = 0; turns < 1u << w->planter.count; turns++)
		if (all_legs_can(w, turns))
			return true;
	return false;
}

/* --- the test --- */

struct tally {
	int faultless, half_bond, found, drawn_clockwise;
};

static void check_wall(const struct wall *w, struct tally *tally)
{
	static struct brick bricks[2][MOST];
	double lap = INFINITY, least = (double)w->r->least_lap_um;
	bool good;

	for (int leaf = 0; leaf < w->r->leaf_count; leaf++) {
		size_t n[2];

		for (int k = 0; k < 2; k++) {
			n[k] = bricks_of(w, k, leaf, bricks[k]);
			check_apart(bricks[k], n[k]);
			check_full(w, leaf, bricks[k], n[k]);
			check_gaps(w, bricks[k], n[k]);
		}
		check_corners(w, leaf, bricks[0], n[0], bricks[1], n[1]);
		lap = fmin(lap, least_lap(w, leaf, bricks[0], n[0], bricks[1], n[1]));
	}
	ck_assert_int_eq(w->r->has_lap, isfinite(lap));
	if (w->r->has_lap)
		ck_assert_double_eq_tol(w->r->lap_um, lap, NEAR);
	good = lap >= least - NEAR && !w->r->blocks.too_short;
	tally->faultless += good;
	tally->half_bond += w->r->half_bond;
	tally->drawn_clockwise += is_reversed(w);
	if (good || !a_faultless_layout_exists(w))
		return;
	ck_abort_msg("a layout without faults exists; the one chosen laps by %.1f mm, %d short",
	        w->r->lap_um / 1000, (int)w->r->blocks.too_short);
}

START_TEST(random_walls_are_full_interlocked_and_lapped)
{
	struct chance c = chance_new(chance_seed("planters", 20261125));
	struct tally tally = { 0 };

	for (int i = 0; i < CASES / ONE_OF; i++) {
		struct arena mem = { 0 };
		struct wall w;

		any_wall(&c, &w);
		work_out_wall(&mem, &w);
		check_wall(&w, &tally);
		arena_free(&mem);
	}
	printf("planters: of %d walls %d without faults, %d in half bond, %d drawn clockwise\n",
	        CASES / ONE_OF, tally.faultless, tally.half_bond, tally.drawn_clockwise);
	/* Few walls have legs too short to lap at all. */
	ck_assert_int_gt(tally.faultless, CASES / ONE_OF * 8 / 10);
	ck_assert_int_gt(tally.drawn_clockwise, 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planter bond");

	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, random_walls_are_full_interlocked_and_lapped);
	return suite_run("planter bond", tc);
}
