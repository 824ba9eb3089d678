/* one_planter.c - see one_planter.h. */
#include "one_planter.h"

#include <math.h>

struct one_planter one;

void one_setup(void)
{
	plan_init(&one.plan);
	planter_init(&one.planter);
	one.planter.points = one.points;
	one.planter.block = (struct plan_block){ .name = "",
		.length_um = 390 * MM,
		.width_um = 190 * MM,
		.height_um = 190 * MM,
		.joint_um = 10 * MM,
		.density_kg_m3 = 2000,
		.price_minor = -1 };
	one.plan.planters = &one.planter;
	one.plan.planter_count = 1;
}

void one_teardown(void)
{
	arena_free(&one.mem);
}

void one_run(bool closed, size_t n, const double *mm)
{
	one.planter.closed = closed;
	one.planter.count = n;
	for (size_t i = 0; i < n; i++)
		one.points[i] = (struct plan_point){ llround(mm[2 * i] * 1000),
			llround(mm[2 * i + 1] * 1000) };
}

const struct planter_result *one_result(void)
{
	static const struct rules none = { .name = "none" };

	ck_assert_int_eq(planters_work_out(&one.mem, &one.plan, &none, &one.out, NULL), STATUS_OK);
	return &one.out.items[0];
}

const struct planter_result *one_work_out(void)
{
	const struct planter_result *r = one_result();

	ck_assert_msg(r->ready, "%s", r->fault.text);
	return r;
}

void ck_near(double got_um, double mm)
{
	ck_assert_double_eq_tol(got_um, mm * 1000, 0.6);
}
