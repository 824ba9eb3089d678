/* plans.c - see plans.h. */
#include "plans.h"

#include <check.h>
#include <string.h>

static struct plan_ring copy_ring(struct arena *mem, const struct plan_node *corners, size_t count)
{
	struct plan_ring r = { arena_alloc(mem, count, sizeof *corners), count, true };

	ck_assert_ptr_nonnull(r.nodes);
	memcpy(r.nodes, corners, count * sizeof *corners);
	return r;
}

void worked_init(struct worked *w, const struct plan_node *corners, size_t count)
{
	memset(w, 0, sizeof *w);
	plan_init(&w->plan);
	w->plan.name = "A";
	w->rules.name = "none";
	w->plan.rings = arena_alloc(&w->mem, 8, sizeof *w->plan.rings);
	ck_assert_ptr_nonnull(w->plan.rings);
	w->plan.rings[0] = copy_ring(&w->mem, corners, count);
	w->plan.ring_count = 1;
}

void worked_rectangle(struct worked *w, int64_t width_um, int64_t height_um)
{
	const struct plan_node corners[] = {
		{ 0, 0, 0, EDGE_OPEN },
		{ width_um, 0, 0, EDGE_OPEN },
		{ width_um, height_um, 0, EDGE_OPEN },
		{ 0, height_um, 0, EDGE_OPEN },
	};

	worked_init(w, corners, 4);
}

void worked_add_opening(struct worked *w, const struct plan_node *corners, size_t count)
{
	ck_assert_uint_lt(w->plan.ring_count, 8);
	w->plan.rings[w->plan.ring_count++] = copy_ring(&w->mem, corners, count);
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
