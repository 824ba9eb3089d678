/* plans.c - see plans.h. */
#include "plans.h"

#include <check.h>
#include <math.h>
#include <string.h>

void plan_add_ring(
        struct arena *mem, struct plan *plan, const struct plan_node *corners, size_t count)
{
	struct plan_ring *rings = arena_alloc(mem, plan->ring_count + 1, sizeof *rings);
	struct plan_ring r = { arena_alloc(mem, count, sizeof *corners), count, true };

	ck_assert(rings && r.nodes);
	memcpy(r.nodes, corners, count * sizeof *corners);
	if (plan->ring_count)
		memcpy(rings, plan->rings, plan->ring_count * sizeof *rings);
	rings[plan->ring_count++] = r;
	plan->rings = rings;
}

void opening_by_hand(struct arena *mem, struct plan *plan, size_t n, const double *mm)
{
	struct plan_node corners[32];

	ck_assert_uint_le(n, 32);
	for (size_t i = 0; i < n; i++)
		corners[i] = (struct plan_node){ .x_um = llround(mm[2 * i] * 1000),
			.y_um = llround(mm[2 * i + 1] * 1000),
			.kind = EDGE_OPEN,
			0 };
	plan_add_ring(mem, plan, corners, n);
}

struct plan plan_by_hand(struct arena *mem, size_t n, const double *mm)
{
	struct plan p;

	plan_init(&p);
	opening_by_hand(mem, &p, n, mm);
	return p;
}

struct takeoff take_off_laid(struct arena *mem, const struct plan *plan)
{
	static const struct rules none = { .name = "none" };
	struct takeoff t;

	ck_assert_int_eq(takeoff_plan(mem, plan, &none, &t, NULL), STATUS_OK);
	ck_assert_msg(t.ready, "%s", t.fault.text);
	return t;
}

void worked_init(struct worked *w, const struct plan_node *corners, size_t count)
{
	memset(w, 0, sizeof *w);
	plan_init(&w->plan);
	w->plan.name = "A";
	w->rules.name = "none";
	plan_add_ring(&w->mem, &w->plan, corners, count);
}

void worked_rectangle(struct worked *w, int64_t width_um, int64_t height_um)
{
	const struct plan_node corners[] = {
		{ 0, 0, 0, EDGE_OPEN, 0, 0 },
		{ width_um, 0, 0, EDGE_OPEN, 0, 0 },
		{ width_um, height_um, 0, EDGE_OPEN, 0, 0 },
		{ 0, height_um, 0, EDGE_OPEN, 0, 0 },
	};

	worked_init(w, corners, 4);
}

void worked_add_opening(struct worked *w, const struct plan_node *corners, size_t count)
{
	plan_add_ring(&w->mem, &w->plan, corners, count);
}

void worked_set_fall(struct worked *w, int64_t level_um, int64_t toward_udeg, int64_t um_per_m)
{
	w->plan.surface.planes = arena_alloc(&w->mem, 1, sizeof *w->plan.surface.planes);
	ck_assert_ptr_nonnull(w->plan.surface.planes);
	w->plan.surface.planes[0] = (struct plan_plane){ 0, 0, level_um, toward_udeg, um_per_m };
	w->plan.surface.count = 1;
}

void work_out_plan(struct worked *w)
{
	struct error err = { 0 };

	ck_assert_int_eq(takeoff_plan(&w->mem, &w->plan, &w->rules, &w->t, &err), STATUS_OK);
	ck_assert_msg(w->t.ready, "%s", w->t.fault.text);
}

void worked_done(struct worked *w)
{
	arena_free(&w->mem);
}
