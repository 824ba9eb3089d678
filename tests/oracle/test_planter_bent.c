/* Random planters whose legs meet at odd angles: blocks are quadrangles that must not overlap and
 * must fill the wall but for its joints. */
#include "apart.h"
#include "chance.h"
#include "suite.h"

#include "slabwright/planter.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM UM_PER_MM

enum { CASES = 1000, MOST = 400 };

struct wall {
	struct plan plan;
	struct plan_planter planter;
	struct plan_point points[8];
	struct planters_result out;
	const struct planter_result *r;
};

/* Legs that turn by anything up to 125 degrees, now and then by 90. */
static void any_bent_run(struct chance *c, struct wall *w)
{
	struct plan_planter *p = &w->planter;
	double way = chance_real(c, 0, 2 * M_PI), x = 0, y = 0;

	p->closed = false;
	p->count = (size_t)chance_int(c, 3, 6);
	for (size_t i = 0; i < p->count; i++) {
		double leg = chance_real(c, 1e6, 5e6);

		w->points[i] = (struct plan_point){ llround(x), llround(y) };
		x += leg * cos(way);
		y += leg * sin(way);
		way += chance_int(c, 0, 3) ? chance_real(c, -125, 125) * M_PI / 180 : M_PI / 2;
	}
	p->points = w->points;
}

static void any_bent_wall(struct chance *c, struct wall *w)
{
	struct plan_block *k = &w->planter.block;

	memset(w, 0, sizeof *w);
	plan_init(&w->plan);
	planter_init(&w->planter);
	k->length_um = chance_int(c, 200, 600) * MM;
	k->width_um = k->length_um / 4;
	k->joint_um = chance_int(c, 3, 15) * MM; /* with none, blocks that touch could not be told
	                                            from blocks that overlap */
	w->planter.leaves = chance_int(c, 1, 2);
	any_bent_run(c, w);
	w->plan.planters = &w->planter;
	w->plan.planter_count = 1;
}

/* Blocks, as quadrangles, keep the joint between them, but for the 0.25 degrees by which a square
 * corner may miss; with their joints they are the leaf. Legs that are no neighbours may come as
 * close as they like, short of touching. */
static void check_bent(const struct wall *w, int course, int leaf)
{
	static struct point q[MOST][4];
	static size_t legs[MOST];
	const struct planter_course *c = &w->r->courses[course];
	double v0 = (double)w->r->leaves[leaf].v0_um, wide = (double)w->planter.block.width_um,
	       joint = (double)w->planter.block.joint_um, least = joint - (v0 + wide) * 0.0045 - 2,
	       area = 0, line = 0;
	size_t n = 0;

	for (size_t i = 0; i < c->unit_count; i++) {
		if (c->units[i].leaf != leaf)
			continue;
		planter_unit_ring(w->r, &c->units[i], q[n]);
		area += ring_polygon_area(q[n], 4);
		ck_assert_double_gt(ring_polygon_area(q[n], 4), 0);
		for (size_t j = 0; j < n; j++)
			ck_assert_double_ge(convex_gap(q[j], 4, q[n], 4),
			        c->units[i].leg <= legs[j] + 1 ? least : -1);
		legs[n] = c->units[i].leg;
		n++;
	}
	for (size_t i = 0; i < c->joint_count; i++) {
		double t = w->r->corners[w->r->legs[c->joints[i].leg].from].half_tan;

		if (c->joints[i].leaf == leaf)
			area += joint * wide * (c->joints[i].mitre ? sqrt(1 + t * t) : 1);
	}
	for (size_t i = 0; i < w->r->leg_count; i++)
		line += (double)w->r->legs[i].length_um;
	for (size_t i = 0; i < w->r->corner_count; i++)
		line -= w->r->corners[i].half_tan * (2 * v0 + wide);
	ck_assert_double_eq_tol(area / (line * wide), 1, 1e-4);
}

START_TEST(random_bent_walls_are_full_and_keep_their_joints)
{
	static const struct rules none = { .name = "none" };
	struct chance c = chance_new(chance_seed("bent planters", 20261126));
	int built = 0;

	for (int i = 0; i < CASES / ONE_OF; i++) {
		struct arena mem = { 0 };
		struct wall w;

		any_bent_wall(&c, &w);
		ck_assert_int_eq(planters_work_out(&mem, &w.plan, &none, &w.out, NULL), STATUS_OK);
		w.r = &w.out.items[0];
		built += w.r->ready;
		for (int k = 0; w.r->ready && k < 2; k++)
			for (int leaf = 0; leaf < w.r->leaf_count; leaf++)
				check_bent(&w, k, leaf);
		arena_free(&mem);
	}
	printf("planters: of %d bent walls %d can be built\n", CASES / ONE_OF, built);
	ck_assert_int_gt(built, CASES / ONE_OF / 3);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("planter bent");

	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, random_bent_walls_are_full_and_keep_their_joints);
	return suite_run("planter bent", tc);
}
