/* From costs to the price: by hand, to the cent, and what is not known. */
#include "slabwright/price.h"

#include "chance.h"
#include "plans.h"
#include "suite.h"

#include <string.h>

#define MM UM_PER_MM

__extension__ typedef __int128 wide;

static struct arena mem;
static struct plan_costs costs;
static struct labour labour;
static struct materials materials;
static struct price price;
static struct error err;

static void setup(void)
{
	costs_init(&costs);
	memset(&labour, 0, sizeof labour);
	memset(&materials, 0, sizeof materials);
	for (int i = 0; i < TASKS; i++)
		labour.tasks[i].parts = labour.tasks[i].fault = "";
}

static void teardown(void)
{
	arena_free(&mem);
}

static void work(enum task task, double quantity)
{
	struct labour_task *k = &labour.tasks[task];

	k->quantity = quantity;
	k->hours_centi = labour_hours_centi(quantity, costs.task_minutes_milli[task]);
	k->parts = "by hand";
	labour.hours_centi += k->hours_centi;
}

static void price_it(void)
{
	ck_assert_msg(price_of_labour(&mem, &costs, &labour, &materials, &price, &err) == STATUS_OK,
	        "%s", err.text);
}

static const struct price_line *line_of(enum cost_group group, const char *what)
{
	for (size_t i = 0; i < price.count; i++)
		if (price.lines[i].group == group && strcmp(price.lines[i].what, what) == 0)
			return &price.lines[i];
	ck_abort_msg("no line \"%s\"", what);
	return NULL;
}

/* 13.33 h x 38.00 = 506.54; 7 x 62.00 = 434.00; 1.5 x 45.00 = 67.50; 2 x 210.00 = 420.00. */
static void small_job(void)
{
	static struct material_line stone = { .name = "stone",
		.unit = "m3",
		.net = 3,
		.needed = 3.15,
		.sold = SOLD_BULK_BAG,
		.buy = 7,
		.buy_words = "7 bulk bags of 850 kg",
		.each_minor = 6200,
		.price_minor = 43400 };
	static struct plan_hire plate = { "plate", 1500, TASK_SUB_BASE, 4500 };
	static struct plan_extra skip = { "skip", "pieces", 2000, 21000 };

	materials.lines = &stone;
	materials.count = 1;
	costs.wage_minor = 3800;
	costs.hire = &plate;
	costs.hire_count = 1;
	costs.extras = &skip;
	costs.extra_count = 1;
	work(TASK_LAY, 20);
}

START_TEST(a_small_job_by_hand)
{
	small_job();
	costs.margin_ppm = 150000;
	costs.discount_ppm = 20000;
	costs.tax_ppm = 210000;
	price_it();
	ck_assert_uint_eq(price.count, 4);
	ck_assert_int_eq(line_of(COST_LABOUR, "laying")->amount_minor, 50654);
	ck_assert_str_eq(line_of(COST_LABOUR, "laying")->formula, "13.33 h x 38.00");
	ck_assert_str_eq(line_of(COST_LABOUR, "laying")->from, "20.000 m2 x 40 min (by hand)");
	ck_assert_str_eq(
	        line_of(COST_MATERIALS, "stone")->formula, "7 bulk bags of 850 kg x 62.00");
	ck_assert_str_eq(line_of(COST_HIRE, "plate")->formula, "1.5 days x 45.00");
	ck_assert_int_eq(price.group_minor[COST_HIRE], 6750);
	ck_assert_int_eq(price.costs_minor, 142804);
	ck_assert_int_eq(price.margin_minor, 21421); /* 214.206 */
	ck_assert_int_eq(price.discount_minor, 3285); /* of 1642.25: 32.845, half away from 0 */
	ck_assert_int_eq(price.rounding_minor, -40); /* 1609.40 to 1609 */
	ck_assert_int_eq(price.before_tax_minor, 160900);
	ck_assert_int_eq(price.tax_minor, 33789);
	ck_assert_int_eq(price.total_minor, 194689);
	ck_assert_uint_eq(price.unknown, 0);
}
END_TEST

START_TEST(without_whole_money_nothing_is_rounded_but_the_lines)
{
	small_job();
	costs.whole_money = false;
	price_it();
	ck_assert_int_eq(price.rounding_minor, 0);
	ck_assert_int_eq(price.total_minor, 142804);
}
END_TEST

START_TEST(half_a_whole_rounds_up)
{
	static struct plan_extra half = { "half", "", 1000, 12350 };

	costs.extras = &half;
	costs.extra_count = 1;
	price_it();
	ck_assert_int_eq(price.rounding_minor, 50);
	ck_assert_int_eq(price.total_minor, 12400);
}
END_TEST

START_TEST(an_unknown_price_is_told_and_never_taken_as_nothing)
{
	static struct plan_extra odd = { "odd job", "h", 1000, -1 };

	small_job();
	costs.extras = &odd;
	costs.wage_minor = -1;
	labour.tasks[TASK_DIG].fault = "no ground levels; take some";
	price_it();
	ck_assert_uint_eq(price.unknown, 3);
	ck_assert_int_eq(price.costs_minor, 43400 + 6750);
	ck_assert_str_eq(line_of(COST_LABOUR, "dig")->fault, "no ground levels; take some");
	ck_assert_ptr_nonnull(strstr(line_of(COST_EXTRAS, "odd job")->fault, "price is not known"));
	ck_assert_str_eq(line_of(COST_LABOUR, "laying")->formula, "13.33 h, price not known");
	ck_assert_int_eq(line_of(COST_LABOUR, "laying")->amount_minor, -1);
}
END_TEST

/* 16.1 h of one person are 8.05 h of two: two days of 8 h. */
START_TEST(plant_is_hired_for_the_whole_days_of_its_task)
{
	static struct plan_hire hire[] = { { "plate", 0, TASK_SUB_BASE, 4500 },
		{ "digger", 0, TASK_DIG, -1 } };

	costs.hire = hire;
	costs.hire_count = 2;
	costs.wage_minor = 100;
	work(TASK_SUB_BASE, 6.44); /* x 150 min = 16.1 h */
	price_it();
	ck_assert_int_eq(line_of(COST_HIRE, "plate")->quantity_milli, 2000);
	ck_assert_int_eq(line_of(COST_HIRE, "plate")->amount_minor, 9000);
	/* nothing to dig: no digger, whatever it costs */
	ck_assert_int_eq(line_of(COST_HIRE, "digger")->amount_minor, 0);
	ck_assert_uint_eq(price.unknown, 0);
}
END_TEST

START_TEST(a_price_beyond_all_money_is_refused)
{
	static struct plan_extra much[2] = { { "much", "", 1000000000, 100000000000 },
		{ "more", "", 1000000000, 100000000000 } };

	costs.extras = much;
	costs.extra_count = 2;
	ck_assert_int_eq(
	        price_of_labour(&mem, &costs, &labour, &materials, &price, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "look at prices"));
	labour.tasks[TASK_LAY].hours_centi = 1000000000000;
	costs.extra_count = 0;
	costs.wage_minor = 100000000000;
	ck_assert_int_eq(
	        price_of_labour(&mem, &costs, &labour, &materials, &price, &err), STATUS_PLAN);
}
END_TEST

/* rounded is n / by, half away from 0 (n is not negative). */
static bool is_rounded(int64_t rounded, wide n, int64_t by)
{
	wide over = 2 * ((wide)rounded * by - n);

	return over > -by && over <= by;
}

static void random_lines(struct chance *d, struct material_line *m, struct plan_hire *h,
        struct plan_extra *x, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		int64_t each = chance_int(d, 0, 4) ? chance_int(d, 0, 99999) : -1;
		int64_t buy = chance_int(d, 0, 300);

		m[i] = (struct material_line){ .name = "m",
			.unit = "kg",
			.buy = buy,
			.buy_words = "some",
			.sold = SOLD_LOOSE,
			.each_minor = each,
			.price_minor = line_price_minor(buy * 100, each) };
		h[i] = (struct plan_hire){ "h", chance_int(d, 0, 1) ? chance_int(d, 1, 9999) : 0,
			(enum task)chance_int(d, 0, TASKS - 1),
			chance_int(d, 0, 4) ? chance_int(d, 0, 99999) : -1 };
		x[i] = (struct plan_extra){ "x", "", chance_int(d, 0, 99999),
			chance_int(d, 0, 4) ? chance_int(d, 0, 99999) : -1 };
	}
}

static void check_sums(void)
{
	int64_t sum = 0, net;
	size_t unknown = 0;

	for (size_t i = 0; i < price.count; i++) {
		const struct price_line *l = &price.lines[i];

		if (*l->fault) {
			ck_assert_int_eq(l->amount_minor, -1);
			unknown++;
			continue;
		}
		sum += l->amount_minor;
		if (l->quantity_milli)
			ck_assert(is_rounded(
			        l->amount_minor, (wide)l->quantity_milli * l->each_minor, 1000));
		else
			ck_assert_int_eq(l->amount_minor, 0);
	}
	ck_assert_uint_eq(price.unknown, unknown);
	ck_assert_int_eq(price.costs_minor, sum);
	ck_assert(is_rounded(price.margin_minor, (wide)sum * costs.margin_ppm, 1000000));
	net = sum + price.margin_minor;
	ck_assert(is_rounded(price.discount_minor, (wide)net * costs.discount_ppm, 1000000));
	net -= price.discount_minor;
	ck_assert(costs.whole_money ? price.rounding_minor > -50 && price.rounding_minor <= 50
	                            : price.rounding_minor == 0);
	net += price.rounding_minor;
	ck_assert(!costs.whole_money || net % 100 == 0);
	ck_assert_int_eq(price.before_tax_minor, net);
	ck_assert(is_rounded(price.tax_minor, (wide)net * costs.tax_ppm, 1000000));
	ck_assert_int_eq(price.total_minor, sum + price.margin_minor - price.discount_minor +
	                                            price.rounding_minor + price.tax_minor);
}

START_TEST(sums_are_right_to_the_cent_under_every_rounding)
{
	struct chance d = chance_new(chance_seed("price", 77));

	for (int i = 0; i < 20000 / ONE_OF; i++) {
		struct material_line m[6];
		struct plan_hire h[6];
		struct plan_extra x[6];

		setup();
		random_lines(&d, m, h, x, 6);
		materials = (struct materials){ .lines = m, .count = (size_t)chance_int(&d, 0, 6) };
		costs.hire = h;
		costs.hire_count = (size_t)chance_int(&d, 0, 6);
		costs.extras = x;
		costs.extra_count = (size_t)chance_int(&d, 0, 6);
		costs.wage_minor = chance_int(&d, -1, 9999);
		costs.margin_ppm = chance_int(&d, 0, 500000);
		costs.discount_ppm = chance_int(&d, 0, 20) * 5000;
		costs.tax_ppm = chance_int(&d, 0, 300) * 1000;
		costs.whole_money = chance_int(&d, 0, 1);
		for (int t = 0; t < TASKS; t++)
			if (chance_int(&d, 0, 1))
				work((enum task)t, chance_real(&d, 0, 50));
		price_it();
		check_sums();
		arena_reset(&mem);
	}
}
END_TEST

/* --- where the quantities come from --- */

static struct worked w;

static double quantity(const struct labour *l, enum task task)
{
	ck_assert_str_eq(l->tasks[task].fault, "");
	return l->tasks[task].quantity;
}

/* 4 x 3 m, a kerb along one side of 4 m, ground level 0.2 m over the formation's slab: the dig is
 * the earth's own; the rest by hand. */
START_TEST(quantities_are_those_of_the_plan)
{
	static struct plan_spot level = { "", 0, 0, 0 };
	static struct plan_channel channel;
	struct labour l;

	worked_rectangle(&w, 4000 * MM, 3000 * MM);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 0);
	channel_init(&channel);
	channel.name = "";
	channel.x2_um = 2500 * MM;
	w.plan.water.channels = &channel;
	w.plan.water.channel_count = 1;
	w.plan.water.soakaway.has = true;
	w.plan.laying.bond = BOND_STACK;
	w.plan.rings[0].nodes[0].kind = EDGE_KERB;
	w.plan.edging[EDGE_KERB].unit_um = 1000 * MM;
	w.plan.edging[EDGE_KERB].haunch_um = 100 * MM;
	w.plan.site.spots = &level;
	w.plan.site.spot_count = 1;
	w.plan.site.earth.topsoil_um = 50 * MM;
	w.plan.site.earth.over_dig_um = 0;
	w.plan.costs.materials[MATERIAL_SEALER].used = true;
	work_out_plan(&w);
	ck_assert_msg(labour_work_out(&w.mem, &w.t, &l, &err) == STATUS_OK, "%s", err.text);
	ck_assert_double_eq_tol(quantity(&l, TASK_STRIP), 12 * 0.05, 1e-9);
	/* slab 50, bedding 40, sub-base 100, less 50 of topsoil */
	ck_assert_double_eq_tol(quantity(&l, TASK_DIG), 12 * 0.14, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_CART), 12 * 0.19 * 1.25, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_MEMBRANE), 12, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_SUB_BASE), 1.2, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_EDGING), 4, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_DRAINS), 12.5, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_BEDDING), 12, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_LAY), 12, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_JOINT), 12, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_SEAL), 12, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_CUT), (double)w.t.laid.cut, 1e-9);
	ck_assert_double_eq_tol(quantity(&l, TASK_CLEAR), 1, 1e-9);
	ck_assert_double_eq(quantity(&l, TASK_WALL), 0);
	ck_assert(l.haunched && l.channels);
	ck_assert_str_eq(l.tasks[TASK_EDGING].parts, "kerb: 4.000 m");
	worked_done(&w);
}
END_TEST

/* A soldier course of 200 x 100 all along one side of 4 m, butted at both ends: 4 m of it. */
START_TEST(a_border_along_an_edge_is_as_long_as_the_edge)
{
	static struct plan_border border;
	struct labour l;

	worked_rectangle(&w, 4000 * MM, 3000 * MM);
	border_init(&border);
	w.plan.borders = &border;
	w.plan.border_count = 1;
	w.plan.rings[0].nodes[0].border = 1;
	work_out_plan(&w);
	ck_assert_int_eq(labour_work_out(&w.mem, &w.t, &l, &err), STATUS_OK);
	ck_assert_double_eq_tol(quantity(&l, TASK_BORDER), 4, 1e-6);
	ck_assert_double_eq_tol(quantity(&l, TASK_LAY), 12 - 4 * 0.2, 1e-6);
	/* no ground levels: the dig is not known, and said so */
	ck_assert_str_ne(l.tasks[TASK_DIG].fault, "");
	ck_assert_str_ne(l.tasks[TASK_CART].fault, "");
	worked_done(&w);
}
END_TEST

START_TEST(planters_and_steps_are_counted_piece_by_piece)
{
	static struct plan_point box[4] = { { 0, 0 }, { 2690 * MM, 0 }, { 2690 * MM, 1340 * MM },
		{ 0, 1340 * MM } };
	static struct plan_planter wall;
	static struct plan_steps flights[2];
	struct labour l;

	worked_rectangle(&w, 6000 * MM, 3000 * MM);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 0);
	planter_init(&wall);
	wall.points = box;
	wall.count = 4;
	wall.closed = true;
	w.plan.planters = &wall;
	w.plan.planter_count = 1;
	steps_init(&flights[0]);
	flights[0].bottom_um = -330 * MM;
	flights[1] = flights[0];
	flights[1].build = STEPS_BUILT;
	flights[1].tread_um = 50 * MM;
	flights[1].risers = 2;
	w.plan.steps = flights;
	w.plan.steps_count = 2;
	work_out_plan(&w);
	ck_assert_int_eq(labour_work_out(&w.mem, &w.t, &l, &err), STATUS_OK);
	ck_assert_msg(w.t.planters.items[0].ready, "%s", w.t.planters.items[0].fault.text);
	ck_assert_double_eq(
	        quantity(&l, TASK_WALL), (double)(w.t.planters.items[0].courses[0].unit_count +
	                                          w.t.planters.items[0].courses[1].unit_count));
	ck_assert_double_gt(quantity(&l, TASK_FILL), 0);
	ck_assert_ptr_null(w.t.steps.flights[0].fault);
	ck_assert_ptr_null(w.t.steps.flights[1].fault);
	ck_assert_double_eq(quantity(&l, TASK_STEP), (double)w.t.steps.flights[0].risers + 2);
	worked_done(&w);
}
END_TEST

START_TEST(a_take_off_that_is_not_ready_has_no_price)
{
	struct takeoff t = { .ready = false };

	error_set(&t.fault, STATUS_PLAN, "the outline is open");
	ck_assert_int_eq(price_work_out(&mem, &t, &materials, &price, &err), STATUS_PLAN);
	ck_assert_str_eq(err.text, "the outline is open");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("price");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_small_job_by_hand);
	tcase_add_test(tc, without_whole_money_nothing_is_rounded_but_the_lines);
	tcase_add_test(tc, half_a_whole_rounds_up);
	tcase_add_test(tc, an_unknown_price_is_told_and_never_taken_as_nothing);
	tcase_add_test(tc, plant_is_hired_for_the_whole_days_of_its_task);
	tcase_add_test(tc, a_price_beyond_all_money_is_refused);
	tcase_add_test(tc, sums_are_right_to_the_cent_under_every_rounding);
	tcase_add_test(tc, quantities_are_those_of_the_plan);
	tcase_add_test(tc, a_border_along_an_edge_is_as_long_as_the_edge);
	tcase_add_test(tc, planters_and_steps_are_counted_piece_by_piece);
	tcase_add_test(tc, a_take_off_that_is_not_ready_has_no_price);
	return suite_run("price", tc);
}
