/* The limits of the rule sets that come with the program, at the edges their sources give. */
#include "slabwright/sheet.h"
#include "slabwright/store.h"

#include "plans.h"
#include "program.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct store *store;

static void setup(void)
{
	struct error err = { 0 };

	program_folder();
	ck_assert_msg(store_open(&store, program_path("rules.slabs"), STORE_MAY_CREATE,
	                      getenv("SLABWRIGHT_SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
}

static void teardown(void)
{
	store_close(store);
	store = NULL;
	program_folder_remove();
}

/* A small plan under that rule set, at level 0, falling like this. */
static void with_fall(struct worked *w, const char *rule_set, const char *fall)
{
	struct error err = { 0 };
	int64_t um_per_m;

	ck_assert_int_eq(fall_parse(fall, &um_per_m, &err), STATUS_OK);
	worked_rectangle(w, 3 * UM_PER_M, 2 * UM_PER_M);
	worked_set_fall(w, 0, 90 * UDEG_PER_DEG, um_per_m);
	ck_assert_msg(store_rules(store, rule_set, &w->mem, &w->rules, &err) == STATUS_OK, "%s",
	        err.text);
	work_out_plan(w);
}

static bool warns(const struct worked *w, enum warning_code code, const char *source)
{
	for (size_t i = 0; i < w->t.surface.warning_count; i++)
		if (w->t.surface.warnings[i].code == code)
			return strstr(w->t.surface.warnings[i].text, source) != NULL;
	return false;
}

static const struct {
	const char *rule_set, *fall;
	enum warning_code code;
	bool warned;
	const char *source;
} falls[] = {
	/* International Residential Code, R401.3 exception: 2 % away from the building within 10
	 * ft; text as quoted on an inspectors' forum. */
	{ "US model codes", "1.99 %", WARN_FALL_UNDER, true, "R401.3" },
	{ "US model codes", "2.00 %", WARN_FALL_UNDER, false, "R401.3" },
	/* Approved Document M, volume 1: 1:20 to 1:12 is ramped (designingbuildings.co.uk,
	   "Gradients"). */
	{ "UK guidance", "1:20", WARN_FALL_OVER, false, "Approved Document M" },
	{ "UK guidance", "1:19", WARN_FALL_OVER, true, "Approved Document M" },
	/* 1:80 for flags: from memory of practice, so the program calls it common practice. */
	{ "UK guidance", "1:80", WARN_FALL_UNDER, false, "common practice" },
	{ "UK guidance", "1:81", WARN_FALL_UNDER, true, "common practice" },
	{ "none", "1:1000", WARN_FALL_UNDER, false, "" },
	{ "none", "1:2", WARN_FALL_OVER, false, "" },
};

START_TEST(a_fall_is_warned_of_from_the_limit_on)
{
	struct worked w;

	with_fall(&w, falls[_i].rule_set, falls[_i].fall);
	ck_assert_int_eq(warns(&w, falls[_i].code, falls[_i].source), falls[_i].warned);
	worked_done(&w);
}
END_TEST

static const struct {
	const char *rule_set;
	int64_t under_um; /* how far the paving lies under the damp-proof course */
	bool warned;
	const char *source;
} courses[] = {
	/* NHBC Standards 10.2.6 (2021), as read at nhbc-standards.co.uk: paving against a home at
	 * least 150 mm below the damp-proof course. */
	{ "UK guidance", 150000, false, "" },
	{ "UK guidance", 149900, true, "10.2.6" },
	/* Common practice, no source. */
	{ "Benelux common practice", 149900, true, "common practice" },
	{ "none", 1000, false, "" },
	{ "none", -1000, true, "above" },
};

START_TEST(paving_is_warned_of_from_the_limit_under_the_damp_proof_course_on)
{
	struct worked w;

	/* Falls away from the wall along the lower edge. */
	with_fall(&w, courses[_i].rule_set, "1:60");
	w.plan.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	w.plan.surface.has_dpc = true;
	w.plan.surface.dpc_um = courses[_i].under_um;
	work_out_plan(&w);
	ck_assert_int_eq(warns(&w, WARN_NEAR_DPC, courses[_i].source), courses[_i].warned);
	ck_assert(!warns(&w, WARN_WATER_TO_WALL, ""));
	worked_done(&w);
}
END_TEST

static const struct {
	const char *rule_set;
	double along; /* the valley's fall, mm per m */
	bool warned;
	const char *source;
} valleys[] = {
	/* HEC-22, 3rd edition, 2009, section 4.2.2: gutter grades of 0.5 % and more are desirable.
	 */
	{ "US model codes", 5.01, false, "" },
	{ "US model codes", 4.99, true, "HEC-22" },
	/* Common practice, no source. */
	{ "UK guidance", 10.1, false, "" },
	{ "UK guidance", 9.9, true, "common practice" },
};

START_TEST(a_valley_is_warned_of_from_the_limit_on)
{
	double along = valleys[_i].along, toward = atan2(along, 40) * 180 / M_PI;
	struct plan_plane planes[2] = {
		{ 1500000, 0, 0, llround(toward * 1e6), llround(hypot(along, 40) * 1000) },
		{ 1500000, 0, 0, llround((180 - toward) * 1e6), llround(hypot(along, 40) * 1000) },
	};
	struct worked w;

	with_fall(&w, valleys[_i].rule_set, "1:60");
	w.plan.surface.planes = planes;
	w.plan.surface.count = 2;
	work_out_plan(&w);
	ck_assert_int_eq(warns(&w, WARN_VALLEY_UNDER, valleys[_i].source), valleys[_i].warned);
	worked_done(&w);
}
END_TEST

static void find_lifting(void *found, const char *text)
{
	if (strncmp(text, "Lifting", 7) == 0)
		snprintf(found, 400, "%s", text);
}

static const struct {
	const char *rule_set;
	double kg;
	const char *said; /* "" for no caution */
} lifts[] = {
	/* Health and Safety Executive, INDG143: 25 kg at knuckle to elbow height close to the body,
	 * a filter for assessment and no legal limit (figures as quoted on a training page). */
	{ "UK guidance", 25.0, "" },
	{ "UK guidance", 25.1, "INDG143" },
	/* NIOSH 94-110: load constant 51 lb, 23 kg. */
	{ "US model codes", 23.0, "" },
	{ "US model codes", 23.1, "94-110" },
	{ "none", 10.0, "names no limit" },
};

START_TEST(a_slab_over_the_limit_is_not_for_one_person)
{
	struct worked w;
	char said[400] = "";
	struct plan_slab *s;

	/* A slab of 1 m2 and 1000 kg/m3 weighs 1 kg a mm. */
	with_fall(&w, lifts[_i].rule_set, "1:50");
	s = &w.plan.laying.slab;
	s->length_um = s->width_um = UM_PER_M;
	s->size = SIZE_WORK;
	s->thickness_um = llround(lifts[_i].kg * 1000);
	s->density_kg_m3 = 1000;
	work_out_plan(&w);
	ck_assert_double_eq_tol(w.t.order.slab_mass_kg, lifts[_i].kg, 1e-9);
	sheet_cautions(&w.t, find_lifting, said);
	if (*lifts[_i].said)
		ck_assert_msg(strstr(said, lifts[_i].said) != NULL, "%s", said);
	else
		ck_assert_str_eq(said, "");
	worked_done(&w);
}
END_TEST

START_TEST(every_limit_names_its_source)
{
	struct store_names names;
	struct arena mem = { 0 };

	ck_assert_int_eq(store_rule_sets(store, &mem, &names, NULL), STATUS_OK);
	ck_assert_uint_ge(names.count, 4);
	for (size_t i = 0; i < names.count; i++) {
		struct rules rules;

		ck_assert_int_eq(store_rules(store, names.items[i], &mem, &rules, NULL), STATUS_OK);
		for (size_t k = 0; k < rules.count; k++) {
			ck_assert_uint_gt(strlen(rules.items[k].source), 10);
			ck_assert_uint_gt(strlen(rules.items[k].unit), 0);
		}
	}
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("limits");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_loop_test(
	        tc, a_fall_is_warned_of_from_the_limit_on, 0, (int)(sizeof falls / sizeof *falls));
	tcase_add_loop_test(tc, paving_is_warned_of_from_the_limit_under_the_damp_proof_course_on,
	        0, (int)(sizeof courses / sizeof *courses));
	tcase_add_loop_test(tc, a_valley_is_warned_of_from_the_limit_on, 0,
	        (int)(sizeof valleys / sizeof *valleys));
	tcase_add_loop_test(tc, a_slab_over_the_limit_is_not_for_one_person, 0,
	        (int)(sizeof lifts / sizeof *lifts));
	tcase_add_test(tc, every_limit_names_its_source);
	return suite_run("published limits", tc);
}
