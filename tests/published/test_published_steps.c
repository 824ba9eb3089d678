/* Steps against published limits, at their very edges, through the rule sets that come with the
 * program.
 *
 * Approved Document K, HM Government, 2013: table 1.1 with its notes, paragraphs 1.40 and 1.41, as
 * reproduced by a maker of stairs. International Residential Code, ICC, 2018: R311.7.1, R311.7.5.1,
 * R311.7.5.2, as a county's building department restates them. Architectural Barriers Act
 * Standards, 504.2, as drawn in the federal guide; it has the figures of International Building
 * Code 1011.5.2 (that clause number from memory). Edge cases between the limits were derived from
 * them by hand. */
#include "slabwright/sheet.h"
#include "slabwright/store.h"

#include "plans.h"
#include "program.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM(x) ((int64_t)llround((x)*1000.0))
#define INCH 25.4

static const char PRIVATE[] = "UK guidance", UTILITY[] = "UK guidance, utility stair",
                  GENERAL[] = "UK guidance, general access", IRC[] = "US model codes",
                  IBC[] = "US model codes, public access", BENELUX[] = "Benelux common practice";

static struct store *store;
static struct arena mem;
static struct rules rules;
static struct plan_steps steps;

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
	arena_free(&mem);
	program_folder_remove();
}

static void use(const char *rule_set)
{
	struct error err = { 0 };

	ck_assert_msg(
	        store_rules(store, rule_set, &mem, &rules, &err) == STATUS_OK, "%s", err.text);
}

/* A flight of that rise and going; risers 0: chosen. Wide and with a landing as any set wants. */
static struct flight flight(int64_t rise_um, int64_t going_um, int64_t risers)
{
	struct plan plan;
	struct steps_result out;

	plan_init(&plan);
	steps_init(&steps);
	steps.has_top = true;
	steps.top_um = rise_um;
	steps.going_um = going_um;
	steps.risers = risers;
	steps.width_um = MM(1500);
	steps.landing_um = MM(1500);
	plan.steps = &steps;
	plan.steps_count = 1;
	ck_assert_int_eq(steps_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert_uint_eq(out.count, 1);
	return out.flights[0];
}

/* The keys of the limits that are broken, with a blank between. */
static const char *broken(const struct flight *f)
{
	static char text[300];

	ck_assert_msg(!f->fault, "%s", f->fault);
	*text = '\0';
	for (size_t i = 0; i < f->check_count; i++)
		if (!f->checks[i].obeyed) {
			strcat(text, *text ? " " : "");
			strcat(text, f->checks[i].rule->key);
		}
	ck_assert_int_eq(f->obeys, !*text);
	return text;
}

/* One riser, so that riser and rise are one. */
static const struct {
	const char *rule_set;
	double riser_mm, going_mm;
	const char *broken;
} singles[] = {
	/* S-K1: private stair, rise 150 to 220, going 220 to 300, pitch at most 42 degrees. */
	{ PRIVATE, 150, 300, "" },
	{ PRIVATE, 149.999, 300, "riser_min" },
	{ PRIVATE, 220, 250, "" },
	{ PRIVATE, 220.001, 250, "riser_max" },
	{ PRIVATE, 165, 220, "" }, /* 36.87 degrees */
	{ PRIVATE, 170, 219.999, "going_min" },
	{ PRIVATE, 150, 300.001, "going_max" },
	/* S-K2: utility stair, 150 to 190, 250 to 400. */
	{ UTILITY, 190, 250, "" },
	{ UTILITY, 190.001, 250, "riser_max" },
	{ UTILITY, 190, 249.999, "going_min" },
	{ UTILITY, 150, 400, "" },
	{ UTILITY, 150, 400.001, "going_max two_r_plus_g_max" },
	/* S-K3: general access stair, 150 to 170, 250 to 400. */
	{ GENERAL, 170, 250, "" },
	{ GENERAL, 170.001, 250, "riser_max" },
	{ GENERAL, 149.999, 400, "riser_min" },
	{ GENERAL, 150, 400, "" },
	/* S-K4: two rises and a going, 550 to 700. */
	{ PRIVATE, 150, 250, "" },
	{ PRIVATE, 150, 249.999, "two_r_plus_g_min" },
	{ PRIVATE, 200, 300, "" },
	{ PRIVATE, 200.001, 300, "two_r_plus_g_max" },
	/* S-E1: 660 and both in range, but 45 degrees. */
	{ PRIVATE, 220, 220, "pitch_max" },
	/* S-E2: 42.04 and 41.92 degrees. */
	{ PRIVATE, 220, 244, "pitch_max" },
	{ PRIVATE, 220, 245, "" },
	/* S-E3: 740. */
	{ PRIVATE, 220, 300, "two_r_plus_g_max" },
	/* S-E4: 520. */
	{ PRIVATE, 150, 220, "two_r_plus_g_min" },
	/* S-E5: 590 and 34.22 degrees. S-E6: 600 and 26.57, in all three groups. */
	{ GENERAL, 170, 250, "" },
	{ PRIVATE, 150, 300, "" },
	{ UTILITY, 150, 300, "" },
	{ GENERAL, 150, 300, "" },
	/* S-IRC1 and S-E12: 7 3/4 in, which is 196.85 mm though 196 is printed. S-IRC2: 10 in. */
	{ IRC, 7.75 * INCH, 10 * INCH, "" },
	{ IRC, 7.75 * INCH + 0.001, 10 * INCH, "riser_max" },
	{ IRC, 7.75 * INCH, 10 * INCH - 0.001, "going_min" },
	{ IRC, 20, 2000, "" }, /* neither a least riser nor a greatest tread */
	/* S-IBC1: riser of 4 in (100 mm) to 7 in (180 mm), tread of 11 in (280 mm) and more: both
	 * units are printed, and what obeys one of them passes. */
	{ IBC, 4 * INCH, 11 * INCH, "" },
	{ IBC, 100, 280, "" },
	{ IBC, 99.999, 280, "riser_min" },
	{ IBC, 7 * INCH, 11 * INCH, "" },
	{ IBC, 180, 280, "" },
	{ IBC, 180.001, 280, "riser_max" },
	{ IBC, 150, 11 * INCH - 0.001, "going_min" },
	/* Common practice, no source. */
	{ BENELUX, 150, 300, "" },
	{ BENELUX, 119.999, 400, "riser_min" },
	{ BENELUX, 190.001, 275, "riser_max" },
};

START_TEST(a_limit_is_broken_from_its_edge_on)
{
	struct flight f;

	use(singles[_i].rule_set);
	f = flight(MM(singles[_i].riser_mm), MM(singles[_i].going_mm), 1);
	ck_assert_str_eq(broken(&f), singles[_i].broken);
}
END_TEST

START_TEST(the_pitch_is_the_published_one)
{
	use(PRIVATE);
	ck_assert_double_eq_tol(flight(MM(220), MM(220), 1).pitch_deg, 45.00, 0.005);
	ck_assert_double_eq_tol(flight(MM(220), MM(244), 1).pitch_deg, 42.04, 0.005);
	ck_assert_double_eq_tol(flight(MM(220), MM(245), 1).pitch_deg, 41.92, 0.005);
	ck_assert_double_eq_tol(flight(MM(220), MM(300), 1).pitch_deg, 36.25, 0.005);
	ck_assert_double_eq_tol(flight(MM(170), MM(250), 1).pitch_deg, 34.22, 0.005);
	ck_assert_double_eq_tol(flight(MM(150), MM(300), 1).pitch_deg, 26.57, 0.005);
	ck_assert_double_eq_tol(flight(MM(220), MM(245), 1).pace_um, 685000, 1e-6);
}
END_TEST

static const struct {
	const char *rule_set;
	double rise_mm, going_mm;
	int64_t risers;
	double riser_mm;
} numbers[] = {
	/* S-E7 */
	{ PRIVATE, 660, 250, 3, 220 },
	{ PRIVATE, 661, 250, 4, 165.25 },
	/* S-E8, the half that has an answer */
	{ GENERAL, 510, 250, 3, 170 },
	/* S-E9: 23.25 in; 23.30 in is one riser more. */
	{ IRC, 23.25 * INCH, 254, 3, 7.75 * INCH },
	{ IRC, 23.30 * INCH, 254, 4, 5.825 * INCH },
	/* S-E10 */
	{ IRC, 30 * INCH, 254, 4, 7.5 * INCH },
};

START_TEST(the_fewest_risers_that_obey_are_chosen)
{
	struct flight f;

	use(numbers[_i].rule_set);
	f = flight(MM(numbers[_i].rise_mm), MM(numbers[_i].going_mm), 0);
	ck_assert_str_eq(broken(&f), "");
	ck_assert(f.chosen);
	ck_assert_int_eq(f.risers, numbers[_i].risers);
	ck_assert_double_eq_tol(f.riser_um, numbers[_i].riser_mm * 1000, 0.5);
}
END_TEST

/* S-E8: 511 mm, general access: 3 risers reach 510, 4 of 127.75 are too low. */
START_TEST(no_whole_number_is_said_and_not_rounded)
{
	struct flight f;

	use(GENERAL);
	f = flight(MM(511), MM(250), 0);
	ck_assert_ptr_nonnull(f.fault);
	ck_assert_int_eq(f.risers, 0);
	ck_assert_ptr_nonnull(strstr(f.fault, "No whole number of equal risers of 150 to 170 mm"));
	ck_assert_ptr_nonnull(strstr(f.fault, "3 reach 450 to 510 mm, 4 reach 600 to 680 mm"));
	ck_assert_ptr_nonnull(strstr(f.fault, "Lift the foot by 1 mm or lower it by 89 mm"));
	/* Set by hand it is worked out, and the limit shown. */
	f = flight(MM(511), MM(250), 4);
	ck_assert_str_eq(broken(&f), "riser_min two_r_plus_g_min");
	ck_assert_double_eq_tol(f.riser_um, 127750, 1e-9);
	/* Less than one riser. */
	f = flight(MM(100), MM(250), 0);
	ck_assert_ptr_nonnull(strstr(f.fault, "less than the least riser of 150 mm"));
}
END_TEST

/* S-E11 and S-IRC3: within 3/8 in. */
START_TEST(risers_of_a_flight_may_differ_by_so_much)
{
	const int64_t pass[] = { MM(7.00 * INCH), MM(7.25 * INCH), MM(7.375 * INCH) };
	const int64_t fail[] = { MM(7.00 * INCH), MM(7.38 * INCH) };

	use(IRC);
	ck_assert(risers_alike(&rules, pass, 3));
	ck_assert(!risers_alike(&rules, fail, 2));
	use("none");
	ck_assert(risers_alike(&rules, fail, 2));
}
END_TEST

/* S-IRC4: 36 in. The other widths and the landings are common practice. */
START_TEST(width_and_landing_have_a_least)
{
	struct plan plan;
	struct steps_result out;

	use(IRC);
	flight(MM(7 * INCH), MM(300), 0);
	plan_init(&plan);
	plan.steps = &steps;
	plan.steps_count = 1;
	steps.width_um = MM(36 * INCH);
	steps.landing_um = 0; /* none: nothing to check */
	ck_assert_int_eq(steps_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert_str_eq(broken(out.flights), "");
	steps.width_um--;
	steps.landing_um = MM(36 * INCH) - 1;
	ck_assert_int_eq(steps_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert_str_eq(broken(out.flights), "step_width_min landing_min");
}
END_TEST

/* S-K6: dwellings, sides with a drop of more than 600 mm. S-K7: elsewhere from two risers on. */
START_TEST(sides_are_guarded_from_the_published_drop_on)
{
	use(PRIVATE);
	ck_assert(!flight(MM(600), MM(250), 3).guard);
	ck_assert(flight(MM(600.001), MM(250), 3).guard);
	use(GENERAL);
	ck_assert(!flight(MM(160), MM(300), 1).guard);
	ck_assert(flight(MM(320), MM(300), 2).guard);
	use("none");
	ck_assert(!flight(MM(3000), MM(300), 18).guard);
}
END_TEST

/* Handrails: from memory, so common practice: three risers in the UK, four in the US. */
START_TEST(a_handrail_is_wanted_from_so_many_risers_on)
{
	use(PRIVATE);
	ck_assert(!flight(MM(320), MM(300), 2).handrail);
	ck_assert(flight(MM(480), MM(300), 3).handrail);
	use(IRC);
	ck_assert(!flight(MM(480), MM(300), 3).handrail);
	ck_assert(flight(MM(640), MM(300), 4).handrail);
}
END_TEST

/* S-IRC5: places amend the code, some to 8 1/4 in and a tread of 9 in. A rule set is data. */
START_TEST(a_local_amendment_is_a_rule_set_of_its_own)
{
	struct rule items[] = {
		{ "riser_max", MM(8.25 * INCH), "mm", "a place's own amendment" },
		{ "going_min", MM(9 * INCH), "mm", "a place's own amendment" },
	};
	struct flight f;

	use(IRC);
	f = flight(MM(8.25 * INCH), MM(9 * INCH), 1);
	ck_assert_str_eq(broken(&f), "riser_max going_min");
	rules = (struct rules){ .name = "amended", .items = items, .count = 2 };
	f = flight(MM(8.25 * INCH), MM(9 * INCH), 1);
	ck_assert_str_eq(broken(&f), "");
	f = flight(MM(8.25 * INCH) + 1, MM(9 * INCH), 1);
	ck_assert_str_eq(broken(&f), "riser_max");
}
END_TEST

/* What is only remembered goes by no publication's name. */
START_TEST(remembered_limits_are_called_common_practice)
{
	static const struct {
		const char *rule_set, *key;
	} remembered[] = {
		{ PRIVATE, "flight_rise_max" }, /* S-M2 */
		{ PRIVATE, "step_width_min" }, /* S-M2 */
		{ PRIVATE, "handrail_risers" }, /* S-M2 */
		{ PRIVATE, "landing_min" },
		{ IRC, "handrail_risers" },
		{ IRC, "guard_drop" },
		{ IBC, "riser_spread_max" },
		{ BENELUX, "riser_max" },
		{ PRIVATE, "lift_two_people" },
	};

	for (size_t i = 0; i < sizeof remembered / sizeof *remembered; i++) {
		const struct rule *rule;

		use(remembered[i].rule_set);
		rule = rules_find(&rules, remembered[i].key);
		ck_assert_ptr_nonnull(rule);
		ck_assert_ptr_eq(strstr(rule->source, "common practice"), rule->source);
	}
}
END_TEST

/* --- masses --- */

static const struct {
	double l, w, h;
	int64_t density;
	double kg, tolerance;
	enum lift_class uk;
} masses[] = {
	/* H-5: a standard precast kerb weighs about 67 kg (Health and Safety Executive, CIS57,
	 * Handling kerbs); its size from memory, the product derived. */
	{ 915, 125, 255, 2300, 67.08, 0.005, LIFT_AID },
	/* H-6, derived: volume times 2400 kg/m3. Two people: common practice, 33.3 kg. */
	{ 450, 450, 38, 2400, 18.5, 0.05, LIFT_ONE },
	{ 600, 300, 50, 2400, 21.6, 0.05, LIFT_ONE },
	{ 900, 600, 22, 2400, 28.5, 0.05, LIFT_TWO },
	{ 600, 600, 38, 2400, 32.8, 0.05, LIFT_TWO },
	{ 600, 600, 50, 2400, 43.2, 0.05, LIFT_AID },
	{ 900, 600, 50, 2400, 64.8, 0.05, LIFT_AID },
	{ 900, 600, 50, 0, 0, 0, LIFT_UNKNOWN },
};

START_TEST(masses_are_the_published_ones)
{
	double kg = block_mass_kg(
	        MM(masses[_i].l), MM(masses[_i].w), MM(masses[_i].h), masses[_i].density);

	use(PRIVATE);
	ck_assert_double_eq_tol(kg, masses[_i].kg, masses[_i].tolerance + 1e-12);
	ck_assert_int_eq(handling_of(&rules, kg).lift, masses[_i].uk);
	use("none");
	ck_assert_int_eq(handling_of(&rules, kg).lift, kg > 0 ? LIFT_NO_LIMIT : LIFT_UNKNOWN);
}
END_TEST

/* H-1: 25.0 kg raises no flag, 25.1 does; a limit is compared to the gram. */
START_TEST(one_person_lifts_up_to_the_limit)
{
	struct handling h;
	char words[400];

	use(PRIVATE);
	ck_assert_int_eq(handling_of(&rules, 25.0).lift, LIFT_ONE);
	ck_assert_int_eq(handling_of(&rules, 25.0004).lift, LIFT_ONE);
	ck_assert_int_eq(handling_of(&rules, 25.001).lift, LIFT_TWO);
	h = handling_of(&rules, 25.1);
	ck_assert_int_eq(h.lift, LIFT_TWO);
	ck_assert_ptr_nonnull(strstr(handling_print(words, sizeof words, &h), "INDG143"));
	/* Two people lift two thirds of both together, where the set does not say (common
	 * practice). */
	rules.items = &(struct rule){ "lift_one_person", 30000, "kg", "a test's own limit" };
	rules.count = 1;
	ck_assert_int_eq(handling_of(&rules, 40.0).lift, LIFT_TWO);
	ck_assert_int_eq(handling_of(&rules, 40.001).lift, LIFT_AID);
}
END_TEST

#define COUNT(a) ((int)(sizeof(a) / sizeof *(a)))

int main(void)
{
	TCase *tc = tcase_create("steps");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_loop_test(tc, a_limit_is_broken_from_its_edge_on, 0, COUNT(singles));
	tcase_add_test(tc, the_pitch_is_the_published_one);
	tcase_add_loop_test(tc, the_fewest_risers_that_obey_are_chosen, 0, COUNT(numbers));
	tcase_add_test(tc, no_whole_number_is_said_and_not_rounded);
	tcase_add_test(tc, risers_of_a_flight_may_differ_by_so_much);
	tcase_add_test(tc, width_and_landing_have_a_least);
	tcase_add_test(tc, sides_are_guarded_from_the_published_drop_on);
	tcase_add_test(tc, a_handrail_is_wanted_from_so_many_risers_on);
	tcase_add_test(tc, a_local_amendment_is_a_rule_set_of_its_own);
	tcase_add_test(tc, remembered_limits_are_called_common_practice);
	tcase_add_loop_test(tc, masses_are_the_published_ones, 0, COUNT(masses));
	tcase_add_test(tc, one_person_lifts_up_to_the_limit);
	return suite_run("published steps", tc);
}
