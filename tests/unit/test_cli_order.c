/* The whole order of the demo job from the shell, held to sums by hand. */
#include "json_read.h"
#include "program.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct output o;

static void setup(void)
{
	program_folder();
}

/* The demo's outline: corners in mm, one edge bent outward by 350, less a square of 452. */
static double area_by_hand(void)
{
	static const double at[][2] = { { 0, 0 }, { 6235, 0 }, { 6248, 3920 }, { 5035, 5120 },
		{ 1480, 5108 }, { 0, 5085 } };
	double twice = 0, chord = hypot(6248 - 5035, 5120 - 3920), rise = 350;
	double radius = (chord * chord / 4 + rise * rise) / (2 * rise),
	       angle = 2 * asin(chord / 2 / radius);

	for (int i = 0; i < 6; i++) {
		const double *a = at[i], *b = at[(i + 1) % 6];

		twice += a[0] * b[1] - b[0] * a[1];
	}
	return (twice / 2 + radius * radius * (angle - sin(angle)) / 2 - 452.0 * 452) * 1e-6;
}

static double line(const char *json, int at, const char *what, const char *member)
{
	char path[60], *word;

	snprintf(path, sizeof path, "$.lines[%d].what", at);
	word = json_string(json, path);
	ck_assert_str_eq(word, what);
	free(word);
	snprintf(path, sizeof path, "$.lines[%d].%s", at, member);
	return json_number(json, path);
}

START_TEST(the_demo_job_by_hand)
{
	char demo[400];
	double area = area_by_hand(), sub_base = area * 0.1 * 1.05 / 0.8 * 1700,
	       bedding = area * 0.04 * 1.1 / 0.85 * 1600;

	snprintf(demo, sizeof demo, "%s/demo.json", getenv("SHARE"));
	RUN(&o, "import", demo);
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
	RUN(&o, "order", "Invented example/Back courtyard/A stretcher", "--as", "json");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_double_eq_tol(area, 31.387, 0.0005);
	ck_assert_double_eq_tol(line(o.out, 0, "membrane", "needed"), area * 1.15, 1e-6);
	ck_assert_double_eq_tol(line(o.out, 1, "sub-base", "needed_kg"), sub_base, 1e-3);
	ck_assert_double_eq_tol(line(o.out, 1, "sub-base", "buy"), 9, 1e-9); /* 7003 / 850 = 8.2 */
	ck_assert_double_eq_tol(line(o.out, 2, "bedding", "needed_kg"), bedding, 1e-3);
	ck_assert_double_eq_tol(line(o.out, 2, "bedding", "buy"), 4, 1e-9); /* 2600 / 850 = 3.1 */
	/* joints of 3 mm take 1 - 597 x 297 / (600 x 300) = 1.5 % of the area, 50 mm deep; less
	 * along the edges, where there is none */
	ck_assert_double_eq_tol(line(o.out, 3, "jointing", "net"), area * 0.01495 * 0.05, 0.0015);
	/* kerb: (150 x 100 + 100 x 75 / 2) mm2 along 6.98 m of edges, more on the outside of arc
	 * and corners, 150 kg a m3; the planter's footing 200 kg a m3 and mortar as its sheet says
	 */
	ck_assert_double_eq_tol(line(o.out, 4, "cement", "parts[0].quantity"), 6.98 * 0.01875 * 150,
	        0.03 * 6.98 * 0.01875 * 150);
	ck_assert_double_eq_tol(line(o.out, 4, "cement", "buy"), 7, 1e-9); /* 169 / 25 = 6.8 */
	/* 185 slabs of 597 x 297 x 50 at 2300 kg/m3 and 7.40 */
	ck_assert_double_eq_tol(line(o.out, 11, "slabs", "buy"), 185, 1e-9);
	ck_assert_double_eq_tol(
	        line(o.out, 11, "slabs", "mass_kg"), 185 * 0.597 * 0.297 * 0.05 * 2300, 1e-3);
	ck_assert_double_eq_tol(line(o.out, 11, "slabs", "price"), 136900, 1e-9);
	ck_assert_double_eq_tol(line(o.out, 12, "edging", "price"), 8 * 490, 1e-9);
	program_done(&o);
	RUN(&o, "order", "Invented example/Back courtyard/C bordered");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "under the border along edge"));
	program_done(&o);
}
END_TEST

START_TEST(the_order_of_what_is_not_there_is_refused)
{
	RUN(&o, "order", "Nobody/Nothing/A");
	ck_assert_int_ne(o.status, 0);
	ck_assert_str_eq(o.out, "");
	program_done(&o);
	RUN(&o, "order");
	ck_assert_int_eq(o.status, 2);
	program_done(&o);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("order");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, the_demo_job_by_hand);
	tcase_add_test(t, the_order_of_what_is_not_there_is_refused);
	return suite_run("order from the shell", t);
}
