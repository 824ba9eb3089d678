/* The sheet of the dig: its figures in every form, and its cautions. */
#include "slabwright/sheet.h"

#include "json_read.h"
#include "sheets.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

static struct worked w;

/* The patio with a slope of ground over its fall, and a point far lower; 100 mm of topsoil. */
static struct plan_spot levels[] = { { "", 0, 0, 0 }, { "gate", 5 * M, 0, 50 * MM },
	{ "", 5 * M, 4 * M, 20 * MM }, { "", 0, 4 * M, -200 * MM } };

static void make_patio(void)
{
	worked_patio(&w);
	w.plan.site.spots = levels;
	w.plan.site.spot_count = 4;
	w.plan.site.earth.topsoil_um = 100 * MM;
	work_out_plan(&w);
}

static void done(void)
{
	worked_done(&w);
}

static void says(const char *text, const char *const *said, size_t count)
{
	for (size_t i = 0; i < count; i++)
		ck_assert_msg(
		        strstr(text, said[i]) != NULL, "\"%s\" is not said in\n%s", said[i], text);
}

#define SAYS(text, ...)                                                                            \
	says((text), (const char *const[]){ __VA_ARGS__ },                                         \
	        sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(char *))

START_TEST(the_text_says_volumes_parts_layers_and_cautions)
{
	char *text, volume[80];

	make_patio();
	text = sheet_unfolded(&w, sheet_dig);
	SAYS(text, "Dig of variant \"A\"", "ground levels: 4 (the ground runs straight",
	        "over-dig: 150 mm beyond the outline",
	        "extrapolated: ", "topsoil, kept apart: ", "(100 mm all over)",
	        "deepest: ", "bulking 25 %",
	        "field: ", "over-dig beside field: ", "sub-base: ", "bedding: ", "Cautions",
	        "plan, locate, then dig safely, in that order", "HSG47", "not under its footing");
	snprintf(volume, sizeof volume, "to dig under it: %.3f m3", w.t.earth.cut_m3);
	SAYS(text, volume);
	ck_assert_ptr_null(strstr(text, "may fall in"));
	free(text);
	text = sheet_unfolded(&w, sheet_takeoff);
	SAYS(text, "\nGround\n", "to cart away, loose: ", "sub-base, compacted: ");
	free(text);
	done();
}
END_TEST

START_TEST(programs_read_the_same_figures)
{
	const struct earth_result *e = &w.t.earth;
	char *json, *csv;

	make_patio();
	json = sheet_written(&w, sheet_dig, SHEET_JSON);
	ck_assert(json_is_valid(json));
	ck_assert_double_eq_tol(json_number(json, "$.area_m2"), e->area_m2, 1e-9);
	ck_assert_double_eq_tol(json_number(json, "$.in_ground.cut_m3"), e->cut_m3, 1e-9);
	ck_assert_double_eq_tol(json_number(json, "$.loose.cut_m3"), e->cut_m3 * 1.25, 1e-9);
	ck_assert_double_eq_tol(json_number(json, "$.deepest.depth"), e->deepest_um / 1000, 1e-6);
	ck_assert_double_eq_tol(
	        json_number(json, "$.layers.bedding.volume_m3"), w.t.area_m2 * 0.04, 1e-9);
	ck_assert_double_eq_tol(
	        json_number(json, "$.parts[1].topsoil_m3"), e->over_dig_m2 * 0.1, 1e-9);
	free(json);
	json = sheet_written(&w, sheet_takeoff, SHEET_JSON);
	ck_assert_double_eq_tol(json_number(json, "$.dig.in_ground.cut_m3"), e->cut_m3, 1e-9);
	free(json);
	csv = sheet_written(&w, sheet_dig, SHEET_CSV);
	SAYS(csv, "section,figure,value,unit\r\n", "ground,levels,4,\r\n", "in the ground,dig,",
	        "\r\nover-dig beside field,area,", "caution,,");
	free(csv);
	csv = sheet_written(&w, sheet_takeoff, SHEET_CSV);
	SAYS(csv, "\r\nin the ground,dig,", "\"layer, compacted\",bedding,");
	free(csv);
	done();
}
END_TEST

START_TEST(without_levels_the_dig_is_refused_and_the_take_off_says_why)
{
	struct error err = { 0 };
	char *text;

	worked_patio(&w);
	ck_assert_int_eq(sheet_dig(stderr, &w.t, SHEET_TEXT, &err), STATUS_PLAN);
	SAYS(err.text, "no ground levels");
	text = sheet_unfolded(&w, sheet_takeoff);
	SAYS(text, "dig: not worked out: there are no ground levels", "bedding, compacted: ");
	free(text);
	text = sheet_written(&w, sheet_takeoff, SHEET_JSON);
	ck_assert(json_is_valid(text));
	SAYS(text, "\"ready\": false", "there are no ground levels");
	free(text);
	text = sheet_written(&w, sheet_takeoff, SHEET_CSV);
	SAYS(text, "dig,not worked out,there are no ground levels");
	free(text);
	done();
}
END_TEST

/* Deeper than 1.2 m, common practice. */
START_TEST(a_deep_dig_is_warned_of)
{
	struct plan_spot high = { "", 2 * M, 1 * M, 1011 * MM };
	char *text;

	worked_patio(&w);
	worked_set_fall(&w, 0, 0, 0);
	w.plan.site.spots = &high;
	w.plan.site.spot_count = 1;
	work_out_plan(&w);
	text = sheet_unfolded(&w, sheet_dig);
	SAYS(text, "the dig is up to 1.20 m deep", "slope or shore them");
	free(text);
	high.level_um = 1009 * MM;
	work_out_plan(&w);
	text = sheet_unfolded(&w, sheet_dig);
	ck_assert_ptr_null(strstr(text, "slope or shore"));
	free(text);
	done();
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("dig sheet");

	tcase_add_test(tc, the_text_says_volumes_parts_layers_and_cautions);
	tcase_add_test(tc, programs_read_the_same_figures);
	tcase_add_test(tc, without_levels_the_dig_is_refused_and_the_take_off_says_why);
	tcase_add_test(tc, a_deep_dig_is_warned_of);
	return suite_run("dig sheet", tc);
}
