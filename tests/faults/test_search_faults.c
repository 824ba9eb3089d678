/* A search for the least slabs whose memory ends at any request, and what it takes where it has
 * much to do. The arena's functions are wrapped when this program is linked. */
#include "oracle/random_plan.h"
#include "oracle/sawn.h"
#include "plans.h"
#include "suite.h"
#include "unit/hand_pieces.h"

#include "slabwright/sawing.h"
#include "slabwright/takeoff.h"

#include <stdio.h>
#include <string.h>

static struct {
	int at; /* which request fails, from 0; negative: none */
	bool on; /* and all that follow */
	int seen, hits;
	size_t bytes;
} memory = { .at = -1 };

void *__real_arena_alloc(struct arena *mem, size_t count, size_t size);
void *__real_arena_grow(
        struct arena *mem, void *items, size_t count, size_t *capacity, size_t size);
void *__wrap_arena_alloc(struct arena *mem, size_t count, size_t size);
void *__wrap_arena_grow(
        struct arena *mem, void *items, size_t count, size_t *capacity, size_t size);

static bool fails(void)
{
	int n = memory.seen++;

	if (memory.at < 0 || n < memory.at || (n > memory.at && !memory.on))
		return false;
	memory.hits++;
	return true;
}

void *__wrap_arena_alloc(struct arena *mem, size_t count, size_t size)
{
	memory.bytes += count * size;
	return fails() ? NULL : __real_arena_alloc(mem, count, size);
}

/* A request only where the array moves. */
void *__wrap_arena_grow(struct arena *mem, void *items, size_t count, size_t *capacity, size_t size)
{
	size_t before = *capacity;
	void *grown;

	if (count >= before && fails())
		return NULL;
	grown = __real_arena_grow(mem, items, count, capacity, size);
	if (*capacity != before)
		memory.bytes += *capacity * size;
	return grown;
}

static void start(int at, bool on)
{
	memory.at = at;
	memory.on = on;
	memory.seen = memory.hits = 0;
	memory.bytes = 0;
}

/* Two stocks of rectangles, one of them on square slabs, and one of skew pieces, of which it is not
 * sure which go together: all that the search does. */
enum { STOCKS = 3, OF_EACH = 12, PIECES = STOCKS * OF_EACH };

static void some_pieces(struct arena *mem, struct cut_stock *stocks, struct piece *pieces)
{
	stocks[0] = hand_stock(600, 300, 3);
	stocks[1] = hand_stock(400, 400, 2);
	stocks[2] = hand_stock(600, 300, 3);
	for (int i = 0; i < PIECES; i++) {
		size_t stock = (size_t)i / OF_EACH;
		double a = 120 + 11 * (i % OF_EACH), b = 90 + 7 * (i % OF_EACH);

		if (stock < 2)
			pieces[i] = hand_rectangle(mem, &stocks[stock], i % 3 ? 0 : 5, 0, a, b);
		else
			pieces[i] = hand_piece(mem, &stocks[stock], 4,
			        (double[]){ 0, 0, a, 0, a - 40, b, 0, b + 9 });
		pieces[i].stock = stock;
	}
}

/* A slab for each piece, with the bounds of the plan that is made at first. */
static struct cutplan poor_plan(
        struct arena *mem, const struct cut_stock *stocks, const struct piece *pieces)
{
	struct cutplan plan = hand_plan(mem, pieces, PIECES, STOCKS), made;

	ck_assert_int_eq(cutplan_make(mem, pieces, PIECES, stocks, STOCKS, &made, NULL), STATUS_OK);
	for (size_t i = 0; i < STOCKS; i++)
		plan.of_stock[i].bound = made.of_stock[i].bound;
	plan.bound = made.bound;
	return plan;
}

/* Searches with the request number `at` failing; whether one did fail. The plan is whole, and no
 * worse than before; what is claimed is no more than what is so. */
static bool search_once(GEOSContextHandle_t g, int at, bool on, const struct cutplan *right)
{
	struct arena mem = { 0 };
	struct cut_stock stocks[STOCKS];
	struct piece pieces[PIECES];
	struct cutplan plan;
	struct cut_search *search;
	const struct cutplan *best;
	struct error err = { 0 };
	enum status st;
	int steps = 0;

	some_pieces(&mem, stocks, pieces);
	plan = poor_plan(&mem, stocks, pieces);
	start(at, on);
	st = cut_search_begin(&mem, pieces, PIECES, stocks, STOCKS, &plan, &search, &err);
	while (st == STATUS_OK && cut_search_step(search, 5000))
		ck_assert_int_lt(++steps, 100000);
	memory.at = -1;
	if (st != STATUS_OK) {
		ck_assert_int_eq(st, STATUS_MEMORY);
		ck_assert_uint_gt(strlen(err.text), 10);
		ck_assert_int_gt(memory.hits, 0);
	} else {
		best = cut_search_best(search);
		sawn_check(g, best, pieces, PIECES, stocks, STOCKS);
		for (size_t i = 0; i < STOCKS; i++) {
			ck_assert_uint_le(best->of_stock[i].slabs, plan.of_stock[i].slabs);
			ck_assert_uint_ge(best->of_stock[i].slabs, right->of_stock[i].slabs);
			ck_assert_uint_ge(best->of_stock[i].bound, plan.of_stock[i].bound);
			ck_assert_uint_le(best->of_stock[i].bound, right->of_stock[i].slabs);
		}
		ck_assert(memory.hits || best->slabs == right->slabs);
	}
	arena_free(&mem);
	return memory.hits > 0;
}

START_TEST(memory_that_ends_leaves_the_plan_so_far)
{
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	struct cut_stock stocks[STOCKS];
	struct piece pieces[PIECES];
	struct cutplan plan;
	struct cut_search *search;
	int at = 0;

	some_pieces(&mem, stocks, pieces);
	plan = poor_plan(&mem, stocks, pieces);
	ck_assert_int_eq(
	        cut_search_begin(&mem, pieces, PIECES, stocks, STOCKS, &plan, &search, NULL),
	        STATUS_OK);
	while (cut_search_step(search, 5000))
		;
	ck_assert_uint_lt(cut_search_best(search)->slabs, plan.slabs);
	while (search_once(g, at, _i, cut_search_best(search)))
		at++;
	printf("%d requests failed, %s\n", at, _i ? "and all that follow" : "one at a time");
	ck_assert_int_gt(at, 100);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

/* The same in a take-off: its cuts and order are those before the search, or better ones. */
START_TEST(memory_that_ends_leaves_the_take_off_as_it_was)
{
	struct rules rules = { .name = "none" };
	bool failed = true;

	for (int at = 0; failed; at++) {
		struct arena mem = { 0 };
		struct plan plan = plan_by_hand(
		        &mem, 5, (double[]){ 0, 0, 6100, 0, 6100, 3110, 2030, 3910, 0, 3110 });
		struct takeoff t;
		size_t slabs;
		int64_t whole, needed;

		ck_assert_int_eq(takeoff_plan(&mem, &plan, &rules, &t, NULL), STATUS_OK);
		ck_assert(t.ready);
		slabs = t.cuts.slabs;
		whole = t.order.needed - (int64_t)slabs;
		start(at, _i);
		while (takeoff_improve(&mem, &t, 3000))
			;
		memory.at = -1;
		failed = memory.hits > 0;
		needed = t.order.needed;
		ck_assert(t.searched);
		ck_assert_uint_le(t.cuts.slabs, slabs);
		ck_assert_uint_le(t.cuts.bound, t.cuts.slabs);
		ck_assert_int_eq(needed, whole + (int64_t)t.cuts.slabs);
		ck_assert(!takeoff_improve(&mem, &t, 3000));
		arena_free(&mem);
		ck_assert(at > 10 || failed);
	}
}
END_TEST

/* Two pieces in each other's notch. */
START_TEST(memory_that_ends_leaves_no_half_saw_order)
{
	struct cut_stock stock = hand_stock(600, 400, 3);
	struct cut_place places[2] = { { .piece = 0 }, { .piece = 1 } };
	struct cut_source source = { .place = places, .count = 2 };
	enum status st = STATUS_MEMORY;
	int failed = -1;

	for (int at = 0; st != STATUS_OK; at++, failed++) {
		struct arena mem = { 0 };
		struct piece pieces[2];
		struct saw_order order;
		struct error err = { 0 };

		pieces[0] = hand_piece(&mem, &stock, 6,
		        (double[]){ 0, 0, 600, 0, 600, 150, 200, 150, 200, 400, 0, 400 });
		pieces[1] = hand_rectangle(&mem, &stock, 300, 200, 300, 200);
		start(at, true);
		st = saw_order_make(&mem, pieces, &stock, &source, &order, &err);
		ck_assert(st == (memory.hits ? STATUS_MEMORY : STATUS_OK));
		ck_assert(st == STATUS_OK || *err.text);
		start(-1, false);
		arena_free(&mem);
	}
	ck_assert_int_gt(failed, 10);
}
END_TEST

/* A planter's memory: either all of it is there, or it is said. */
START_TEST(planters_without_memory_say_so)
{
	static struct plan_point corners[] = { { 0, 0 }, { 30000000, 0 }, { 30000000, 9000000 },
		{ 0, 9000000 } };
	struct rules rules = { .name = "none" };
	bool failed = true;

	for (int at = 0; failed; at++) {
		struct arena mem = { 0 };
		struct plan plan;
		struct plan_planter planter;
		struct planters_result out;
		struct error err = { 0 };
		enum status st;

		plan_init(&plan);
		planter_init(&planter);
		planter.points = corners;
		planter.count = 4;
		planter.closed = true;
		planter.cap_um = 2500000;
		plan.planters = &planter;
		plan.planter_count = 1;
		start(at, _i);
		st = planters_work_out(&mem, &plan, &rules, &out, &err);
		failed = memory.hits > 0;
		memory.at = -1;
		ck_assert_int_eq(st, failed ? STATUS_MEMORY : STATUS_OK);
		ck_assert_int_eq(err.status, st);
		ck_assert(failed || out.items[0].ready);
		arena_free(&mem);
		ck_assert(at > 10 || failed);
	}
}
END_TEST

enum { HARD_STOCKS = 60, HARD_PIECES = 700, HARD_SHAPES = 100, MOST_MB = 200 };

/* Very many stocks, each with as much to search as there may be: no more than 200 MB in all. */
START_TEST(a_search_of_many_hard_stocks_stays_within_its_memory)
{
	static struct piece pieces[HARD_STOCKS * HARD_PIECES];
	struct cut_stock stocks[HARD_STOCKS];
	struct arena mem = { 0 };
	struct cutplan plan;
	struct cut_search *search;
	size_t reached = 0;

	for (size_t i = 0; i < HARD_STOCKS; i++) {
		stocks[i] = hand_stock(600, 300, 3);
		hand_hard_pieces(
		        &mem, &stocks[i], HARD_SHAPES, &pieces[i * HARD_PIECES], HARD_PIECES);
		for (size_t k = 0; k < HARD_PIECES; k++)
			pieces[i * HARD_PIECES + k].stock = i;
	}
	plan = hand_plan(&mem, pieces, HARD_STOCKS * HARD_PIECES, HARD_STOCKS);
	start(-1, false);
	ck_assert_int_eq(cut_search_begin(&mem, pieces, HARD_STOCKS * HARD_PIECES, stocks,
	                         HARD_STOCKS, &plan, &search, NULL),
	        STATUS_OK);
	while (cut_search_step(search, 100000))
		;
	for (size_t i = 0; i < HARD_STOCKS; i++)
		reached += cut_search_best(search)->of_stock[i].slabs < HARD_PIECES;
	printf("%zu MB, %zu of %d stocks searched\n", memory.bytes / 1000000, reached, HARD_STOCKS);
	ck_assert_uint_lt(memory.bytes, (size_t)MOST_MB * 1000000);
	ck_assert_uint_gt(reached, 2);
	arena_free(&mem);
}
END_TEST

/* Round patios of some hundred cut pieces, laid at odd angles. */
START_TEST(a_search_of_skew_pieces_takes_little)
{
	struct chance c = chance_new(chance_seed("a_search_of_skew_pieces_takes_little", 12));

	for (int job = 0; job < 4; job++) {
		struct arena mem = { 0 };
		struct plan plan = round_plan(&mem, 40, 3600, &c);
		struct rules rules = { .name = "none" };
		struct takeoff t;

		plan.laying.rotation_udeg = chance_int(&c, 1, 89999999);
		if (job % 2)
			plan.laying.slab.width_um = plan.laying.slab.length_um;
		ck_assert_int_eq(takeoff_plan(&mem, &plan, &rules, &t, NULL), STATUS_OK);
		ck_assert_msg(t.ready, "%s", t.fault.text);
		start(-1, false);
		while (takeoff_improve(&mem, &t, 100000))
			;
		printf("%ld pieces: %zu MB\n", (long)t.laid.cut, memory.bytes / 1000000);
		ck_assert_int_gt(t.laid.cut, 500);
		ck_assert_uint_lt(memory.bytes, (size_t)MOST_MB * 1000000);
		arena_free(&mem);
	}
}
END_TEST

/* Planes that make valleys, a gully, a channel, a planter that holds water, and warnings of them.
 */
static void wet_yard(struct arena *mem, struct plan *plan)
{
	static struct plan_plane planes[] = { { 3000000, 2000000, 0, 80000000, 15000 },
		{ 3000000, 2000000, 0, 300000000, 25000 },
		{ 3000000, 2000000, -10000, 180000000, 20000 } };
	static struct plan_gully gullies[] = { { "", 1000000, 1456000, 0 },
		{ "", 5000000, 3000000, 0 } };
	static struct plan_channel channel;

	*plan = plan_by_hand(mem, 4, (double[]){ 0, 0, 6000, 0, 6000, 4000, 0, 4000 });
	opening_by_hand(mem, plan, 3, (double[]){ 4000, 1000, 5000, 1000, 5000, 2000 });
	for (int i = 0; i < 3; i++)
		plan->rings[1].nodes[i].kind = EDGE_PLANTER;
	plan->surface.planes = planes;
	plan->surface.count = 3;
	channel_init(&channel);
	channel.x1_um = 500000;
	channel.y1_um = channel.x2_um = channel.y2_um = 3500000;
	plan->water.channels = &channel;
	plan->water.channel_count = 1;
	plan->water.gullies = gullies;
	plan->water.gully_count = 2;
}

START_TEST(water_without_memory_is_told)
{
	static const struct rules none = { .name = "none" };
	struct arena mem = { 0 }, work = { 0 };
	struct plan plan;
	int at = 0;

	start(-1, false);
	wet_yard(&mem, &plan);
	for (;; at++) {
		struct surface_result out;
		struct error err = { 0 };
		enum status st;

		start(at, _i);
		st = surface_work_out(&work, &plan, &none, &out, &err);
		arena_reset(&work);
		if (!memory.hits) {
			ck_assert_int_eq(st, STATUS_OK);
			break;
		}
		ck_assert_int_eq(st, STATUS_MEMORY);
	}
	ck_assert_int_gt(at, 50);
	start(-1, false);
	arena_free(&work);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("faults of the search");

	tcase_set_timeout(t, 300);
	tcase_add_loop_test(t, memory_that_ends_leaves_the_plan_so_far, 0, 2);
	tcase_add_loop_test(t, memory_that_ends_leaves_the_take_off_as_it_was, 0, 2);
	tcase_add_test(t, memory_that_ends_leaves_no_half_saw_order);
	tcase_add_loop_test(t, planters_without_memory_say_so, 0, 2);
	tcase_add_test(t, a_search_of_many_hard_stocks_stays_within_its_memory);
	tcase_add_test(t, a_search_of_skew_pieces_takes_little);
	tcase_add_loop_test(t, water_without_memory_is_told, 0, 2);
	return suite_run("faults of the search", t);
}
