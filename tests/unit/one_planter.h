/* one_planter.h - a plan with one planter, for tests: blocks of 390 x 190 x 190 with 10 mm joints,
 * 2000 kg/m3, two courses. */
#ifndef TESTS_ONE_PLANTER_H
#define TESTS_ONE_PLANTER_H

#include "slabwright/planter.h"

#include <check.h>

#define MM UM_PER_MM

extern struct one_planter {
	struct arena mem;
	struct plan plan;
	struct plan_point points[PLANTER_POINTS + 1];
	struct plan_planter planter;
	struct planters_result out;
} one;

void one_setup(void);
void one_teardown(void);

/* Its run, from x, y pairs in mm. */
void one_run(bool closed, size_t n, const double *mm);

#define RUN_OF(...)                                                                                \
	one_run(false, sizeof((double[]){ __VA_ARGS__ }) / sizeof(double) / 2,                     \
	        (double[]){ __VA_ARGS__ })
#define BOX_OF(...)                                                                                \
	one_run(true, sizeof((double[]){ __VA_ARGS__ }) / sizeof(double) / 2,                      \
	        (double[]){ __VA_ARGS__ })

/* Worked out without limits; the second fails the test where it cannot be built. */
const struct planter_result *one_result(void);
const struct planter_result *one_work_out(void);

void ck_near(double got_um, double mm);

#endif
