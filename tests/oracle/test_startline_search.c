/* Start lines against every start of a fine grid, and against starts by chance.
 *
 * Outlines are small, of small slabs, so that a grid of 1 mm over a repeat of the bond holds about
 * a thousand starts; each is taken off as the plan with that start. */
#include "chance.h"
#include "oracle/random_plan.h"
#include "slabwright/startline.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ROUNDS = 60 / ONE_OF, SAMPLED = ONE_OF > 1 ? 1 : 3 };

static const struct rules no_rules = { .name = "none" };

struct figures {
	int64_t slivers, slabs, cuts, smallest_um;
};

/* The shorter side of the narrowest cut piece of the field. */
static int64_t smallest(const struct takeoff *t)
{
	const struct laying *laid = &t->laid.sections[0].laid;
	double least = INFINITY;

	for (size_t i = 0; i < laid->piece_count; i++) {
		const struct piece *p = &laid->pieces[i];

		if (p->kind != PIECE_MADE_UP)
			least = fmin(least, fmin(p->box.x1 - p->box.x0, p->box.y1 - p->box.y0));
	}
	return isinf(least) ? START_NO_PIECE : llround(least);
}

/* The cut plan is searched for fewer slabs, as the ranking does, but where there are more than
 * `slivers` anyway. */
static struct figures figures_at(
        struct arena *mem, const struct plan *plan, int64_t x, int64_t y, int64_t slivers)
{
	struct plan moved = *plan;
	struct takeoff t;
	struct error err;

	moved.laying.start_x_um = x;
	moved.laying.start_y_um = y;
	ck_assert_int_eq(takeoff_plan(mem, &moved, &no_rules, &t, &err), STATUS_OK);
	ck_assert_msg(t.ready, "%s", t.fault.text);
	for (int i = 0; i < 10 && t.laid.sliver <= slivers && t.cuts.slabs > t.cuts.bound; i++)
		takeoff_improve(mem, &t, 20000);
	return (struct figures){ t.laid.sliver, t.order.slabs, t.laid.cut, smallest(&t) };
}

static int compare_counts(struct figures a, struct figures b)
{
	if (a.slivers != b.slivers)
		return a.slivers < b.slivers ? -1 : 1;
	if (a.slabs != b.slabs)
		return a.slabs < b.slabs ? -1 : 1;
	return a.cuts < b.cuts ? -1 : a.cuts > b.cuts;
}

static void search(struct arena *mem, const struct plan *plan, bool turns, struct start_list *list)
{
	struct takeoff *t = arena_alloc(mem, 1, sizeof *t);
	struct start_search *s;
	struct error err;

	ck_assert_int_eq(takeoff_plan(mem, plan, &no_rules, t, &err), STATUS_OK);
	ck_assert_msg(t->ready, "%s", t->fault.text);
	ck_assert_int_eq(startline_begin(mem, t, turns, &s, &err), STATUS_OK);
	for (int i = 0; !startline_done(s) && i < 80; i++)
		ck_assert_int_eq(startline_step(s, 100000, &err), STATUS_OK);
	startline_best(s, list);
	ck_assert_uint_gt(list->count, 0);
}

/* The figures of the rows are those of the plan with that start, and rows are in order. */
static void rows_hold(const struct plan *plan, const struct start_list *list)
{
	struct figures before = { 0 };

	for (size_t i = 0; i < list->count; i++) {
		const struct start_row *r = &list->rows[i];
		struct arena mem = { 0 };
		struct plan turned = *plan;
		struct figures f;

		turned.laying.rotation_udeg =
		        startline_rotation(plan->laying.rotation_udeg, r->turn_udeg);
		f = figures_at(&mem, &turned, r->x_um, r->y_um, r->slivers);
		ck_assert_int_eq(f.slivers, r->slivers);
		ck_assert_int_eq(f.slabs, r->slabs);
		ck_assert_int_eq(f.cuts, r->cuts);
		ck_assert_int_eq(f.smallest_um, r->smallest_um);
		ck_assert(!i || compare_counts(before, f) <= 0);
		before = f;
		arena_free(&mem);
	}
}

static void describe(uint64_t seed, int round, const struct plan *p)
{
	fprintf(stderr, "seed %llu round %d: slab %.1f x %.1f joint %.1f %s offset %g along %d\n",
	        (unsigned long long)seed, round, (double)p->laying.slab.length_um / 1e3,
	        (double)p->laying.slab.width_um / 1e3, (double)p->laying.slab.joint_um / 1e3,
	        bond_name(p->laying.bond), p->laying.offset, (int)p->laying.along);
	for (size_t i = 0; i < p->rings[0].count; i++)
		fprintf(stderr, "  %.1f %.1f\n", (double)p->rings[0].nodes[i].x_um / 1e3,
		        (double)p->rings[0].nodes[i].y_um / 1e3);
}

/* A skyline of whole millimetres, up to about a quarter of a metre. */
static void random_skyline(struct arena *mem, struct chance *c, struct plan *plan)
{
	size_t steps = (size_t)chance_int(c, 1, 3), n = 0;
	struct plan_ring *r = arena_alloc(mem, 1, sizeof *r);
	int64_t x = 0, y = 0, was;

	*r = (struct plan_ring){ arena_alloc(mem, 2 * steps + 2, sizeof *r->nodes), 2 * steps + 2,
		true };
	r->nodes[n++] = (struct plan_node){ .x_um = 0 };
	for (size_t i = 0; i < steps; i++) {
		was = y;
		do
			y = chance_int(c, 40, 220) * UM_PER_MM;
		while (y == was);
		r->nodes[n++] = (struct plan_node){ .x_um = x, .y_um = y };
		x += chance_int(c, 30, 280 / (int64_t)steps) * UM_PER_MM;
		r->nodes[n++] = (struct plan_node){ .x_um = x, .y_um = y };
	}
	r->nodes[n++] = (struct plan_node){ .x_um = x };
	plan->rings = r;
	plan->ring_count = 1;
}

static void random_small_laying(struct chance *c, struct plan_laying *l)
{
	static const int64_t sizes[][2] = { { 40, 20 }, { 50, 25 }, { 48, 32 }, { 44, 30 },
		{ 40, 40 }, { 36, 36 } };
	const int64_t *size = sizes[chance_int(c, 0, 5)];

	l->slab.length_um = size[0] * UM_PER_MM;
	l->slab.width_um = size[1] * UM_PER_MM;
	l->slab.joint_um = chance_int(c, 0, 3) * UM_PER_MM;
	l->slab.pack = chance_int(c, 0, 2) ? 1 : 5;
	l->slab.directional = chance_int(c, 0, 3) == 0;
	l->bond = chance_int(c, 0, 2) ? BOND_STACK : BOND_STRETCHER;
	l->offset = chance_int(c, 0, 1) ? 0.5 : 0.25;
	l->along = chance_int(c, 0, 3) ? ALONG_X : ALONG_Y;
	l->fill_width_um = chance_int(c, 0, 3) * UM_PER_MM;
	l->sliver_width_um = chance_int(c, 5, 15) * UM_PER_MM;
	l->start_x_um = chance_int(c, -300, 300) * UM_PER_MM;
	l->start_y_um = chance_int(c, -300, 300) * UM_PER_MM;
}

/* No start of the grid is better; nor are its pieces wider, but for the grain, or where they may be
 * turned the width that is proven. */
static void none_better(
        uint64_t seed, int round, const struct plan *plan, const struct start_row *best)
{
	struct slab_size size = slab_size(&plan->laying.slab);
	bool turn = !plan->laying.slab.directional && size.length_um == size.width_um;
	int64_t play = turn ? START_WIDTH_UM : START_GRAIN_UM;
	struct figures ours = { best->slivers, best->slabs, best->cuts, best->smallest_um };

	for (int64_t y = 0; y < size.pitch_y_um; y += UM_PER_MM)
		for (int64_t x = 0; x < size.pitch_x_um; x += UM_PER_MM) {
			struct arena mem = { 0 };
			struct figures f = figures_at(&mem, plan, x, y, ours.slivers);
			int c = compare_counts(f, ours);
			bool wider = f.smallest_um - play > ours.smallest_um;

			if (c < 0 || (c == 0 && wider))
				describe(seed, round, plan);
			ck_assert_msg(c >= 0,
			        "start %.1f %.1f: %lld slivers %lld slabs %lld cuts, "
			        "not %lld %lld %lld",
			        (double)x / 1e3, (double)y / 1e3, (long long)f.slivers,
			        (long long)f.slabs, (long long)f.cuts, (long long)ours.slivers,
			        (long long)ours.slabs, (long long)ours.cuts);
			ck_assert_msg(c || !wider, "start %.1f %.1f: smallest %lld, not %lld",
			        (double)x / 1e3, (double)y / 1e3, (long long)f.smallest_um,
			        (long long)ours.smallest_um);
			arena_free(&mem);
		}
}

START_TEST(no_start_of_a_fine_grid_is_better_than_an_exact_answer)
{
	uint64_t seed = chance_seed("startline grid", 20260801);
	struct chance c = chance_new(seed);
	int exact = 0;

	for (int i = 0; i < ROUNDS; i++) {
		struct arena mem = { 0 };
		struct plan plan;
		struct start_list list;

		plan_init(&plan);
		plan.name = "A";
		random_skyline(&mem, &c, &plan);
		random_small_laying(&c, &plan.laying);
		search(&mem, &plan, false, &list);
		rows_hold(&plan, &list);
		ck_assert(!list.exact || list.least_slabs == list.rows[0].slabs);
		if (list.exact) {
			exact++;
			none_better(seed, i, &plan, &list.rows[0]);
		}
		arena_free(&mem);
	}
	ck_assert_int_ge(exact, ROUNDS / 3);
}
END_TEST

static const struct plan_node *any_corner(struct chance *c, const struct plan *plan)
{
	return &plan->rings[0].nodes[chance_int(c, 0, (int64_t)plan->rings[0].count - 1)];
}

/* Outlines with slanting edges, arcs and openings, any bond; starts between two corners. */
START_TEST(two_hundred_starts_by_chance_have_no_fewer_slivers_or_slabs)
{
	uint64_t seed = chance_seed("startline chance", 20260802);
	struct chance c = chance_new(seed);

	for (int i = 0; i < SAMPLED; i++) {
		struct arena mem = { 0 };
		struct plan plan =
		        random_plan(&mem, &c, (enum outline_style)chance_int(&c, 0, STYLES - 1));
		struct start_list list;
		struct figures ours;

		random_bond(&c, &plan.laying, (int)chance_int(&c, 0, BOND_CHOICES - 1));
		search(&mem, &plan, false, &list);
		rows_hold(&plan, &list);
		ours = (struct figures){ list.rows[0].slivers, list.rows[0].slabs,
			list.rows[0].cuts, 0 };
		for (int k = 0; k < 200; k++) {
			struct arena one = { 0 };
			const struct plan_node *a = any_corner(&c, &plan),
			                       *b = any_corner(&c, &plan);
			double part = chance_real(&c, 0, 1);
			int64_t x = a->x_um + llround(part * (double)(b->x_um - a->x_um)),
			        y = a->y_um + llround(part * (double)(b->y_um - a->y_um));
			struct figures f = figures_at(&one, &plan, x, y, ours.slivers);

			f.cuts = ours.cuts; /* slivers and slabs are compared */

			ck_assert_msg(compare_counts(f, ours) >= 0,
			        "seed %llu round %d: start %lld %lld: %lld %lld %lld, not %lld "
			        "%lld %lld",
			        (unsigned long long)seed, i, (long long)x, (long long)y,
			        (long long)f.slivers, (long long)f.slabs, (long long)f.cuts,
			        (long long)ours.slivers, (long long)ours.slabs,
			        (long long)ours.cuts);
			arena_free(&one);
		}
		arena_free(&mem);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("startline");

	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, no_start_of_a_fine_grid_is_better_than_an_exact_answer);
	tcase_add_test(tc, two_hundred_starts_by_chance_have_no_fewer_slivers_or_slabs);
	return suite_run("startline", tc);
}
