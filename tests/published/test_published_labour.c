/* Output rates, a costing and waiting times, each with its source. Rates of other ages and places
 * are bounds for what comes with the program, not its source. */
#include "slabwright/price.h"
#include "slabwright/schedule.h"

#include "suite.h"

#include <string.h>

#define M3_PER_YD3 0.764554858
#define M2_PER_YD2 0.83612736

static struct arena mem;
static struct plan_costs costs;
static struct labour labour;
static struct materials materials;
static struct price price;
static struct schedule s;

static void setup(void)
{
	costs_init(&costs);
	memset(&labour, 0, sizeof labour);
	for (int i = 0; i < TASKS; i++)
		labour.tasks[i].parts = labour.tasks[i].fault = "";
}

static void teardown(void)
{
	arena_free(&mem);
}

static void work(enum task task, double quantity)
{
	labour.tasks[task].quantity = quantity;
	labour.tasks[task].hours_centi =
	        labour_hours_centi(quantity, costs.task_minutes_milli[task]);
}

static void plan_it(void)
{
	ck_assert_int_eq(schedule_of_labour(&mem, &costs, &labour, &s, NULL), STATUS_OK);
}

static void price_it(void)
{
	ck_assert_int_eq(
	        price_of_labour(&mem, &costs, &labour, &materials, &price, NULL), STATUS_OK);
}

static double usual_hours(enum task task)
{
	struct plan_costs usual;

	costs_init(&usual);
	return (double)usual.task_minutes_milli[task] / 60000;
}

static void assert_between(double hours, double least, double most)
{
	ck_assert_msg(
	        hours >= least && hours <= most, "%g h is not from %g to %g", hours, least, most);
}

/* Encyclopedia of Architecture (1852), "Digging": a man digs and throws 1 yd3 of soft ground an
 * hour, 10 yd3 in a day of 10 hours. */
START_TEST(ten_cubic_yards_are_a_day_of_ten_hours)
{
	costs.crew = 1;
	costs.day_minutes = 600;
	costs.task_minutes_milli[TASK_DIG] = 60000; /* a yd3 */
	work(TASK_DIG, 10);
	plan_it();
	ck_assert_int_eq(s.crew_minutes, 600);
	ck_assert_uint_eq(s.worked_days, 1);
}
END_TEST

/* The same, wheeling: 30 yd3 a day take two fillers and a wheeler for each 20 yd. 2750 yd3 over 120
 * yd at 3 s a man's day: 8 men, 24 s for 30 yd3, 2200 s. */
START_TEST(wheeling_2750_yards_comes_to_110_pounds)
{
	costs.day_minutes = 600;
	costs.task_minutes_milli[TASK_CART] = 8 * 600000 / 30;
	costs.wage_minor = 30; /* hundredths of a shilling an hour: 3 s in ten */
	costs.whole_money = false;
	work(TASK_CART, 2750);
	price_it();
	ck_assert_int_eq(price.total_minor, 220000); /* 2200 s = 110 pounds */
	costs.crew = 8;
	plan_it();
	/* 91 2/3 days */
	ck_assert_int_eq(s.crew_minutes, 55000);
	ck_assert_uint_eq(s.worked_days, 92);
}
END_TEST

/* USDA Bulletin (1916) on brick roads: one paver with five labourers lays 220 yd2 in ten hours. */
START_TEST(six_people_lay_220_square_yards_in_ten_hours)
{
	double hours = 6 * 10.0 / 220; /* a yd2: 0.273; a m2: 0.326 */

	ck_assert_double_eq_tol(hours, 0.273, 0.0005);
	ck_assert_double_eq_tol(hours / M2_PER_YD2, 0.326, 0.0005);
	costs.crew = 6;
	costs.day_minutes = 600;
	costs.task_minutes_milli[TASK_LAY] = 16364; /* 16 4/11 min, to the thousandth */
	work(TASK_LAY, 220);
	plan_it();
	ck_assert_int_eq(s.crew_minutes, 600);
}
END_TEST

/* The same bulletin: cost in cents a yd2 = 1.90 L + 0.213 C + 0.138 S + 0.157 A + 0.040 B, and 10 %
 * on all. The prices L 20, C 150, S 100, A 140, B 1500 are this test's own: 165.73, and 182.30. */
START_TEST(a_square_yard_of_brick_road_by_its_formula)
{
	static struct plan_extra parts[] = { { "labour", "h", 1900, 2000 },
		{ "cement", "barrels", 213, 15000 }, { "sand", "yd3", 138, 10000 },
		{ "aggregate", "yd3", 157, 14000 }, { "brick", "thousands", 40, 150000 } };

	costs.extras = parts;
	costs.extra_count = 5;
	costs.margin_ppm = 100000;
	costs.whole_money = false;
	price_it();
	ck_assert_int_eq(price.costs_minor, 16573);
	ck_assert_int_eq(price.total_minor, 18230);
}
END_TEST

/* Concrete Construction: Methods and Costs (1908): 18 people place 45 yd3 of hand-mixed base in ten
 * hours, 4 h a yd3 (5.23 a m3). */
START_TEST(eighteen_people_place_45_cubic_yards_in_ten_hours)
{
	ck_assert_double_eq_tol(18 * 10 / 45.0 / M3_PER_YD3, 5.23, 0.005);
	costs.crew = 18;
	costs.day_minutes = 600;
	costs.task_minutes_milli[TASK_SUB_BASE] = 4 * 60000;
	work(TASK_SUB_BASE, 45);
	plan_it();
	ck_assert_int_eq(s.crew_minutes, 600);
}
END_TEST

/* Digging by hand: Encyclopedia of Architecture (1852), 1.31 h a m3 of soft ground, 3.9 of strong
 * gravel; an Indian table of labour constants, 0.62 days of 8 h for hard soil over areas: 4.96. */
START_TEST(the_usual_rate_of_digging_lies_among_published_ones)
{
	assert_between(usual_hours(TASK_DIG), 1 / M3_PER_YD3, 0.62 * 8);
	assert_between(usual_hours(TASK_STRIP), 1 / M3_PER_YD3, 0.62 * 8);
}
END_TEST

/* Practical Methods of Sewage Disposal (1910): 40 min to shovel a yd3 of sand into a cart, 0.87 h a
 * m3. Masonry Structures (1921): dig and load sand, 1 to 1 1/2 h a yd3. */
START_TEST(the_usual_rate_of_carting_lies_among_published_ones)
{
	assert_between(usual_hours(TASK_CART), 40.0 / 60 / M3_PER_YD3, 1.5 / M3_PER_YD3);
}
END_TEST

/* UK external-works price book (chapter, DOI 10.1201/9781482285512-50): kerb laid with bedding and
 * a haunch on one side, 0.50 h a m of 150 x 305, 0.44 of 125 x 255, 0.40 of 125 x 150. */
START_TEST(the_usual_rate_of_edging_lies_among_published_ones)
{
	assert_between(usual_hours(TASK_EDGING), 0.40, 0.50);
}
END_TEST

/* An out-turn table: 10 m2 of flagstone floor in mortar a mason's day, 0.8 h a m2. UK price book
 * (chapter, DOI 10.1201/9780203157091-110): blocks 200 x 100 on 50 mm of sand, 1.20 h a m2 in
 * basket weave, 1.50 in herringbone. Slabs are larger than blocks: bedding and laying lie below
 * those. */
START_TEST(the_usual_rate_of_laying_lies_under_that_of_blocks)
{
	double hours = usual_hours(TASK_LAY) + usual_hours(TASK_BEDDING);

	assert_between(hours, 0.6, 1.20);
	ck_assert_double_eq_tol(hours, 0.8, 0.1);
}
END_TEST

/* From memory: spread and compact 100 mm of sub-base, 0.2 to 0.35 h a m2. */
START_TEST(the_usual_rate_of_sub_base_lies_among_those_remembered)
{
	assert_between(usual_hours(TASK_SUB_BASE) / 10, 0.2, 0.35);
}
END_TEST

/* Building Trades Pocketbook: a cement walk is ready for use 24 to 30 h after it is done. From
 * memory: a haunch 3 days before it is loaded, walls that hold soil 7 days before they are filled.
 */
START_TEST(usual_holds_are_the_published_ones)
{
	assert_between((double)costs.joint_hold_minutes / 60, 24, 30);
	ck_assert_int_eq(costs.haunch_hold_minutes, 3 * DAY_MINUTES);
	ck_assert_int_eq(costs.wall_hold_minutes, 7 * DAY_MINUTES);
}
END_TEST

static bool notes_say(const char *text)
{
	for (size_t i = 0; i < s.note_count; i++)
		if (strstr(s.notes[i], text))
			return true;
	return false;
}

/* Masonry clauses of a UK standard-form project specification (2014): cement-gauged mortar not at
 * or below 3 C when falling, nor unless at 1 C and rising. A contractor's site guidance handbook:
 * concrete not delivered under 5 C, air at 2 C or more and rising. UFGS 03701: moist curing of
 * ordinary Portland cement, 7 days. */
START_TEST(limits_of_weather_are_the_published_ones)
{
	work(TASK_WALL, 10);
	plan_it();
	ck_assert(notes_say("not at or below 3 C when it is getting colder, and not below 1 C"));
	ck_assert(notes_say("not delivered colder than 5 C"));
	ck_assert(notes_say("at 2 C or more and getting warmer"));
	ck_assert(notes_say("kept moist for 7 days"));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("published labour");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, ten_cubic_yards_are_a_day_of_ten_hours);
	tcase_add_test(tc, wheeling_2750_yards_comes_to_110_pounds);
	tcase_add_test(tc, six_people_lay_220_square_yards_in_ten_hours);
	tcase_add_test(tc, a_square_yard_of_brick_road_by_its_formula);
	tcase_add_test(tc, eighteen_people_place_45_cubic_yards_in_ten_hours);
	tcase_add_test(tc, the_usual_rate_of_digging_lies_among_published_ones);
	tcase_add_test(tc, the_usual_rate_of_carting_lies_among_published_ones);
	tcase_add_test(tc, the_usual_rate_of_edging_lies_among_published_ones);
	tcase_add_test(tc, the_usual_rate_of_laying_lies_under_that_of_blocks);
	tcase_add_test(tc, the_usual_rate_of_sub_base_lies_among_those_remembered);
	tcase_add_test(tc, usual_holds_are_the_published_ones);
	tcase_add_test(tc, limits_of_weather_are_the_published_ones);
	return suite_run("published labour", tc);
}
