/* Flights of steps whose answers can be worked out on paper, and random ones that must hang
 * together. */
#include "chance.h"
#include "plans.h"
#include "suite.h"

#include "slabwright/steps.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct arena mem;
static struct plan plan;
static struct plan_steps steps;
static struct rules rules;

static void setup(void)
{
	plan_init(&plan);
	steps_init(&steps);
	steps.has_top = true;
	steps.tread_fall_um_per_m = 0;
	steps.unit_density_kg_m3 = 2400;
	plan.steps = &steps;
	plan.steps_count = 1;
	rules = (struct rules){ .name = "none" };
}

static void teardown(void)
{
	arena_free(&mem);
}

static struct flight work_out(void)
{
	struct steps_result out;

	ck_assert_int_eq(steps_work_out(&mem, &plan, &rules, &out, NULL), STATUS_OK);
	ck_assert_uint_eq(out.count, plan.steps_count);
	return out.flights[0];
}

static struct flight good(void)
{
	struct flight f = work_out();

	ck_assert_msg(!f.fault, "%s", f.fault);
	return f;
}

static bool noted(const struct flight *f, const char *words)
{
	for (size_t i = 0; i < f->note_count; i++)
		if (strstr(f->notes[i], words))
			return true;
	return false;
}

static void assert_noted(const struct flight *f, const char *words)
{
	ck_assert_msg(noted(f, words), "no note says: %s", words);
}

static void assert_fault(const char *words)
{
	struct flight f = work_out();

	ck_assert_msg(f.fault && strstr(f.fault, words), "%s", f.fault ? f.fault : "no fault");
}

/* --- units --- */

/* A fact of the trade (common practice, no source): a unit 150 mm high makes a rise of 180 mm, on
 * 30 mm of bed. */
START_TEST(a_unit_of_150_makes_a_riser_of_180)
{
	struct flight f;

	steps.top_um = 540 * MM;
	f = good();
	ck_assert_int_eq(f.risers, 3);
	for (int i = 0; i < 3; i++) {
		ck_assert_int_eq(f.rows[i].level_um, 180 * (i + 1) * MM);
		ck_assert_int_eq(f.rows[i].visible_um, 180 * MM);
		ck_assert_int_eq(f.rows[i].bed_um, 30 * MM);
		ck_assert_int_eq(f.rows[i].sunk_um, 0);
		ck_assert_int_eq(f.rows[i].underside_um, (180 * i + 30) * MM);
	}
	ck_assert_int_eq(f.other_risers, 0);
	ck_assert_int_eq(f.stack.risers, 3);
	ck_assert_int_eq(f.stack.bottom_um, 180 * MM);
	ck_assert(!noted(&f, "Stacked"));
	assert_noted(&f, "The bottom unit ends 30 mm over the level of the foot");
	assert_noted(&f, "take one of 180 mm or more for the bottom row");
}
END_TEST

/* Rows by hand: 2 risers of 160, units 350 deep going 300, falling 15 mm/m: 4.5 mm a tread. */
START_TEST(the_fall_of_a_tread_is_part_of_the_riser)
{
	struct flight f;

	steps.top_um = 320 * MM;
	steps.risers = 2;
	steps.tread_fall_um_per_m = 15000;
	f = good();
	ck_assert(!f.chosen);
	ck_assert_int_eq(f.tread_fall_um, 4500);
	ck_assert_int_eq(f.rows[0].riser_um, 160 * MM);
	ck_assert_int_eq(f.rows[0].visible_um, 160 * MM);
	ck_assert_int_eq(f.rows[1].riser_um, 160 * MM);
	ck_assert_int_eq(f.rows[1].visible_um, 155500);
	ck_assert_int_eq(f.rows[1].bed_um, 5500);
	ck_assert_int_eq(f.run_um, 300 * MM);
	ck_assert_int_eq(f.overlap_um, 50 * MM);
	ck_assert_int_eq(f.rows[0].front_um, 300 * MM);
	ck_assert_int_eq(f.rows[0].back_um, -50 * MM);
	ck_assert_int_eq(f.rows[1].front_um, 0);
	ck_assert_int_eq(f.rows[1].back_um, -350 * MM);
	assert_noted(&f, "The bed is only 5.5 mm instead of 30 mm");
}
END_TEST

/* 500 mm of rise in units of 150 on 10 mm: 3 x 160 and 20 left, so the stacked bottom unit would
 * sink 130. In equal risers 3 x 166.667, each bed 16.667. */
START_TEST(a_unit_that_does_not_divide_the_rise_is_told_both_ways)
{
	struct flight f;

	steps.top_um = 500 * MM;
	steps.bed_um = 10 * MM;
	f = good();
	ck_assert_int_eq(f.risers, 3);
	ck_assert_int_eq(f.rows[2].riser_um, 166667);
	ck_assert_int_eq(f.rows[0].riser_um, 166666);
	ck_assert_int_eq(f.rows[2].bed_um, 16667);
	ck_assert_int_eq(f.stack.risers, 4);
	ck_assert_int_eq(f.stack.riser_um, 160 * MM);
	ck_assert_int_eq(f.stack.bottom_um, 20 * MM);
	ck_assert_int_eq(f.stack.sunk_um, 130 * MM);
	ck_assert(!f.stack.even);
	assert_noted(&f,
	        "Stacked as they come, 4 units rise 160 mm each, but the bottom one 20 mm, "
	        "sunk by 130 mm: uneven");
	/* 635: the bottom one shows 155 of 160. Within 5 mm where the rule set allows that. */
	steps.top_um = 635 * MM;
	rules.items = &(struct rule){ "riser_spread_max", 5000, "mm", "a test's own limit" };
	rules.count = 1;
	f = good();
	ck_assert_int_eq(f.stack.bottom_um, 155 * MM);
	assert_noted(&f, "but the bottom one 155 mm: near enough"); /* on its bed: none is sunk */
	ck_assert(f.stack.even);
	rules.items[0].number = 4999;
	f = good();
	ck_assert(!f.stack.even);
}
END_TEST

/* A unit of 200 for one riser of 150: 50 mm go into the ground. */
START_TEST(a_unit_higher_than_its_riser_sinks)
{
	struct flight f;

	steps.top_um = 150 * MM;
	steps.unit_height_um = 200 * MM;
	steps.risers = 1;
	f = good();
	ck_assert_int_eq(f.rows[0].sunk_um, 50 * MM);
	ck_assert_int_eq(f.rows[0].visible_um, 150 * MM);
	ck_assert_int_eq(f.rows[0].underside_um, -50 * MM);
	ck_assert_int_eq(f.rows[0].bed_um, 30 * MM); /* under it */
	assert_noted(&f, "The bottom unit sinks 50 mm into the ground; 150 mm of the riser show");
	assert_noted(&f, "A single step is easily missed");
	/* Two of them going less than their depth would stand in one another. */
	steps.top_um = 300 * MM;
	steps.risers = 2;
	f = good();
	ck_assert_int_eq(f.rows[1].bed_um, -50 * MM);
	assert_noted(&f, "they would stand in one another by 50 mm");
	assert_noted(&f, "a going of 350 mm or more");
	ck_assert_int_eq(
	        f.other_risers, 1); /* one riser of 300 is over 200 and the bed, yet fits */
	/* Going their depth, each stands in the ground behind the one before. */
	steps.going_um = 350 * MM;
	f = good();
	ck_assert_int_eq(f.rows[1].sunk_um, 50 * MM);
	ck_assert_int_eq(f.rows[1].bed_um, 30 * MM);
	assert_noted(&f, "each unit sinks 50 mm behind the tread before it");
}
END_TEST

START_TEST(a_unit_too_low_for_its_riser_wants_another)
{
	struct flight f;

	steps.top_um = 420 * MM;
	steps.risers = 2;
	f = good();
	ck_assert_int_eq(f.rows[1].bed_um, 60 * MM);
	assert_noted(&f, "a bed of 60 mm would be needed");
	steps.top_um = 400 * MM; /* 50: just not too thick */
	f = good();
	ck_assert(!noted(&f, "would be needed"));
	assert_noted(&f, "The bed is 50 mm instead of 30 mm");
	/* 3 risers of 180 would suit better than the 2 of 270. */
	steps.top_um = 540 * MM;
	f = good();
	ck_assert_int_eq(f.other_risers, 3);
	assert_noted(&f, "3 risers of 180.0 mm would suit the unit better");
}
END_TEST

START_TEST(units_overlap_by_a_least)
{
	struct flight f;

	steps.top_um = 360 * MM;
	steps.going_um = 330 * MM;
	f = good();
	ck_assert_int_eq(f.overlap_um, 20 * MM);
	ck_assert(!noted(&f, "lie under the next"));
	steps.going_um = 331 * MM;
	f = good();
	assert_noted(&f, "Only 19 mm of a unit lie under the next");
	steps.going_um = 360 * MM;
	f = good();
	ck_assert_int_eq(f.overlap_um, -10 * MM);
	assert_noted(&f, "leave 10 mm of each tread open");
}
END_TEST

/* 3 rows 2.7 m wide of units of 1 m: 2 and a piece of 0.7, none under a third. 3 pieces of 0.7 take
 * a unit each. */
START_TEST(units_across_the_width_are_counted_and_cut)
{
	struct flight f;

	steps.top_um = 540 * MM;
	steps.width_um = 2700 * MM;
	steps.unit_length_um = 1000 * MM;
	steps.unit_price_minor = 4500;
	f = good();
	ck_assert_int_eq(f.order.whole, 6);
	ck_assert_int_eq(f.order.cut, 3);
	ck_assert_int_eq(f.order.units, 9);
	ck_assert_int_eq(f.order.bound, 9);
	ck_assert_int_eq(f.price_minor, 9 * 4500);
	/* 1 x 0.35 x 0.15 x 2400 */
	ck_assert_double_eq_tol(f.handling.kg, 126, 1e-9);
	ck_assert_double_eq_tol(f.mass_kg, 9 * 126, 1e-9);
	/* The cut end changes sides. */
	ck_assert_uint_eq(f.piece_count, 9);
	ck_assert_int_eq(f.pieces[0].length_um, 1000 * MM);
	ck_assert_int_eq(f.pieces[2].length_um, 700 * MM);
	ck_assert(f.pieces[2].cut && !f.pieces[0].cut);
	ck_assert_int_eq(f.pieces[3].length_um, 700 * MM);
	/* 2.1 m: 1, and 0.767 and 0.333 in place of a piece of 0.1. */
	steps.width_um = 2100 * MM;
	f = good();
	ck_assert_int_eq(f.order.whole, 3);
	ck_assert_int_eq(f.order.cut, 6);
	ck_assert_int_eq(f.pieces[0].length_um, 333333);
	ck_assert_int_eq(f.pieces[2].length_um, 766667);
	/* 2.49 m: pieces of 0.49, of which two come from a unit less 3 mm of kerf. */
	steps.width_um = 2490 * MM;
	f = good();
	ck_assert_int_eq(f.order.units, 6 + 2);
	ck_assert_int_eq(f.order.bound, 8);
}
END_TEST

/* Straps: 50 mm at each end without bed (common practice, no source). Bed by hand: bottom row 350 x
 * 30, upper rows 50 x 30 of overlap and 300 x 30 behind it, over 1.2 m less 0.1. */
START_TEST(the_bed_leaves_room_for_straps)
{
	struct flight f;

	steps.top_um = 540 * MM;
	f = good();
	ck_assert_double_eq_tol(f.bed_m3, 3 * 0.350 * 0.030 * 1.1, 1e-12);
	assert_noted(&f, "Stop the bed 50 mm short of both ends");
	rules.items = &(struct rule){ "lift_one_person", 200000, "kg", "a test's own limit" };
	rules.count = 1;
	f = good();
	ck_assert_int_eq(f.handling.lift, LIFT_ONE);
	ck_assert(!noted(&f, "straps"));
}
END_TEST

/* Treads at 180 and 360 over a run of 600: 0.3 x (0.18 + 0.36). */
START_TEST(sides_and_landing_are_measured)
{
	struct flight f;

	steps.top_um = 540 * MM;
	steps.flank_um = 100 * MM;
	steps.landing_um = 900 * MM;
	f = good();
	ck_assert_double_eq_tol(f.flank_m, 0.6, 1e-12);
	ck_assert_double_eq_tol(f.flank_m2, 0.162, 1e-12);
	ck_assert_double_eq_tol(f.landing_m2, 1.08, 1e-12);
	assert_noted(&f, "Build the flank walls after the units");
}
END_TEST

/* --- built up --- */

/* Risers of 170: 40 mm tread on 20 of bed on a piece of 110. The upper piece is 110 too. */
static void make_built(void)
{
	steps.build = STEPS_BUILT;
	steps.top_um = 510 * MM;
	steps.tread_um = 40 * MM;
	steps.bed_um = 20 * MM;
	steps.unit_height_um = 110 * MM;
	steps.unit_length_um = 600 * MM;
	steps.unit_depth_um = 320 * MM;
	steps.overhang_um = 20 * MM;
	steps.width_um = 1200 * MM;
}

START_TEST(piece_bed_and_tread_make_the_riser)
{
	struct flight f;

	make_built();
	f = good();
	ck_assert_int_eq(f.risers, 3);
	ck_assert_int_eq(f.rows[0].top_um, 110 * MM);
	ck_assert_int_eq(f.rows[0].underside_um, 0);
	ck_assert_int_eq(f.rows[1].underside_um, 170 * MM); /* on the tread */
	ck_assert_int_eq(f.rows[1].sunk_um, 0);
	ck_assert_int_eq(f.rows[1].bed_um, 20 * MM);
	ck_assert_int_eq(f.rows[1].face_um, 300 * MM - 20 * MM);
	ck_assert_int_eq(f.rows[0].front_um - f.rows[0].back_um, 320 * MM);
	ck_assert_int_eq(f.rows[0].back_um, f.rows[1].face_um); /* tread up to the next riser */
	ck_assert_int_eq(f.order.units, 6); /* 3 rows of 2 pieces */
	ck_assert_int_eq(f.slabs.units, 4); /* 2 treads of 2 slabs */
	ck_assert_int_eq(f.slabs.bound, 4);
	ck_assert_int_eq(f.last_deep_um, 0);
	ck_assert_uint_eq(f.piece_count, 6 + 4);
	ck_assert_double_eq_tol(f.bed_m3, 2 * 0.32 * 1.2 * 0.02, 1e-12);
	ck_assert_double_eq_tol(f.handling.kg, 0.6 * 0.32 * 0.04 * 2400, 1e-9);
	ck_assert(!noted(&f, "bed"));
	/* 10 mm lower: the bed grows, and the piece stays on the tread. */
	steps.unit_height_um = 100 * MM;
	f = good();
	ck_assert_int_eq(f.rows[1].bed_um, 30 * MM);
	ck_assert_int_eq(f.rows[1].underside_um, 170 * MM);
	assert_noted(&f, "The bed is 30 mm instead of 20 mm");
	/* 15 mm higher: it sinks behind the tread, and needs no cutting. */
	steps.unit_height_um = 125 * MM;
	steps.risers = 3;
	f = good();
	ck_assert_int_eq(f.rows[1].sunk_um, 15 * MM);
	ck_assert_int_eq(f.rows[1].underside_um, 155 * MM);
	assert_noted(&f, "each riser piece sinks 15 mm behind the tread before it");
	assert_noted(&f, "The bottom riser piece sinks 15 mm into the ground");
}
END_TEST

/* Treads 320 deep of slabs 250 deep: a whole row and strips of 70, of which a slab gives three with
 * 3 mm of kerf. 2 treads of 2 slabs: 4 and 4 strips from 2. */
START_TEST(a_deep_tread_takes_a_strip)
{
	struct flight f;

	make_built();
	steps.unit_depth_um = 250 * MM;
	f = good();
	ck_assert_int_eq(f.deep, 2);
	ck_assert_int_eq(f.last_deep_um, 70 * MM);
	ck_assert_int_eq(f.slabs.whole, 4);
	ck_assert_int_eq(f.slabs.cut, 4);
	ck_assert_int_eq(f.slabs.units, 6);
	ck_assert_int_eq(f.slabs.bound, 6); /* 0.768 m2 over 0.15: 5.12 */
	ck_assert_uint_eq(f.piece_count, 6 + 8);
}
END_TEST

/* --- levels and bad input --- */

START_TEST(the_paving_gives_the_top_level)
{
	struct plan_plane plane = { 0, 0, 600 * MM, 90 * UDEG_PER_DEG, 15000 };
	struct flight f;

	plan.surface.planes = &plane;
	plan.surface.count = 1;
	steps.has_top = false;
	steps.y_um = 4 * UM_PER_M;
	f = good();
	ck_assert_int_eq(f.top_um, 540 * MM);
	ck_assert_int_eq(f.rise_um, 540 * MM);
	plan.surface.count = 0;
	assert_fault("The paving has no levels");
}
END_TEST

START_TEST(steps_that_cannot_be_are_explained)
{
	steps.top_um = steps.bottom_um = 20 * MM;
	assert_fault("Steps with no rise: top and foot both lie at 20 mm.");
	steps.bottom_um = 170 * MM;
	assert_fault("rise the wrong way: the foot at 170 mm lies 150 mm over the top at 20 mm");
	steps.bottom_um = -520 * MM;
	steps.going_um = 49 * MM;
	assert_fault("going: 49 mm is out of reach; give from 50 to 5000 mm");
	steps.going_um = 300 * MM;
	steps.unit_depth_um = 0;
	assert_fault("unit.depth: 0 mm is out of reach");
	steps.unit_depth_um = 350 * MM;
	steps.risers = 101;
	assert_fault("risers: 101 is out of reach");
	steps.risers = 0;
	steps.build = STEPS_BUILT;
	assert_fault("need the thickness of the tread");
	steps.build = STEPS_UNITS;
	steps.width_um = 50000 * MM;
	steps.unit_length_um = 100 * MM;
	steps.risers = 100;
	assert_fault("more than 20000 pieces");
	rules.items = &(struct rule){ "riser_max", 200000, "mm", "a test's own limit" };
	rules.count = 1;
	steps.risers = 0;
	steps.bottom_um = -30 * UM_PER_M;
	assert_fault("takes more than 100 risers");
}
END_TEST

START_TEST(a_faulty_flight_leaves_the_take_off_alone)
{
	struct worked w;

	worked_rectangle(&w, 3 * UM_PER_M, 2 * UM_PER_M);
	steps.top_um = 0;
	w.plan.steps = &steps;
	w.plan.steps_count = 1;
	work_out_plan(&w);
	ck_assert_uint_eq(w.t.steps.count, 1);
	ck_assert_ptr_nonnull(w.t.steps.flights[0].fault);
	ck_assert_int_gt(w.t.order.slabs, 0);
	worked_done(&w);
}
END_TEST

/* With a going in the way the number still is the fewest whose riser obeys, and the going that
 * would obey is told: 170 mm, two of them and 550 to 700 leave 210 to 360. */
START_TEST(the_going_that_obeys_is_told)
{
	struct rule items[] = {
		{ "riser_max", 170000, "mm", "a test's own limit" },
		{ "two_r_plus_g_min", 550000, "mm", "a test's own limit" },
		{ "two_r_plus_g_max", 700000, "mm", "a test's own limit" },
	};
	struct flight f;

	rules.items = items;
	rules.count = 3;
	steps.top_um = 510 * MM;
	steps.going_um = 150 * MM;
	f = good();
	ck_assert_int_eq(f.risers, 3);
	ck_assert(!f.obeys);
	ck_assert_int_eq(f.going_least_um, 210 * MM);
	ck_assert_int_eq(f.going_most_um, 360 * MM);
	assert_noted(&f, "With risers of 170.0 mm a going of 210.0 to 360.0 mm obeys");
	/* 400 mm: 3 x 170 gives 740; 5 of 102 give 604. 4 of 127.5 give 655. */
	steps.going_um = 400 * MM;
	f = good();
	ck_assert_int_eq(f.risers, 4);
	ck_assert(f.obeys);
}
END_TEST

/* --- random --- */

static void check_levels(const struct flight *f)
{
	int64_t sum = 0, low = INT64_MAX, high = 0;

	for (size_t i = 0; i < f->row_count; i++) {
		sum += f->rows[i].riser_um;
		low = f->rows[i].riser_um < low ? f->rows[i].riser_um : low;
		high = f->rows[i].riser_um > high ? f->rows[i].riser_um : high;
		ck_assert_int_eq(f->rows[i].level_um, f->bottom_um + sum);
	}
	ck_assert_int_eq(sum, f->rise_um);
	ck_assert_int_le(high - low, 1);
	ck_assert_int_eq(f->rows[f->row_count - 1].level_um, f->top_um);
}

/* Every row fills the width without gap or overlap, and lies where s and the width say. */
static void check_pieces(const struct flight *f)
{
	const struct plan_steps *s = f->steps;
	double turn = (double)s->toward_udeg * 1e-6 * M_PI / 180;

	for (size_t i = 0; i < f->piece_count;) {
		const struct step_piece *first = &f->pieces[i], *p = first;
		int64_t at = 0;

		for (; i < f->piece_count && (at == 0 || f->pieces[i].from_um > 0); i++) {
			p = &f->pieces[i];
			ck_assert_uint_eq(p->row, first->row);
			ck_assert_int_eq(p->from_um, at);
			ck_assert_int_gt(p->length_um, 0);
			ck_assert_int_le(p->length_um, s->unit_length_um);
			at += p->length_um;
		}
		ck_assert_int_ge(at, s->width_um - 1);
		ck_assert_int_le(at, s->width_um);
		/* From the middle of the top nosing, down along the way and to the left of it. */
		double x = first->corner[0].x - (double)s->x_um,
		       y = first->corner[0].y - (double)s->y_um;

		ck_assert_double_eq_tol(
		        -x * sin(turn) + y * cos(turn), (double)s->width_um / 2, 0.01);
		if (!first->tread && s->build == STEPS_UNITS)
			ck_assert_double_eq_tol(x * cos(turn) + y * sin(turn),
			        (double)f->rows[first->row].front_um, 0.01);
		/* The right end is a width away. */
		ck_assert_double_eq_tol(hypot(p->corner[1].x - first->corner[0].x,
		                                p->corner[1].y - first->corner[0].y),
		        (double)s->width_um, 1.5);
	}
}

/* Units in side view: a unit stands over the one below by just its bed, which is never negative
 * unless a note says so. */
static void check_stack(const struct flight *f)
{
	for (size_t i = 1; i < f->row_count; i++) {
		const struct step_row *up = &f->rows[i], *low = &f->rows[i - 1];
		int64_t room = up->underside_um - low->top_um - f->tread_fall_um;

		ck_assert_int_eq(low->front_um - up->front_um, f->steps->going_um);
		if (f->overlap_um <= 0)
			continue;
		ck_assert_int_eq(up->bed_um, room);
		if (room < 0)
			ck_assert(noted(f, "stand in one another") || i + 1 < f->row_count);
	}
}

START_TEST(random_flights_hang_together)
{
	enum { FLIGHTS = 5000 };
	struct chance c = chance_new(chance_seed("random_flights_hang_together", 20251125));
	struct rule items[] = {
		{ "riser_min", 120000, "mm", "a test's own limit" },
		{ "riser_max", 200000, "mm", "a test's own limit" },
	};
	int worked = 0;

	for (int n = 0; n < FLIGHTS / ONE_OF; n++) {
		struct flight f;

		steps_init(&steps);
		steps.build = chance_int(&c, 0, 1) ? STEPS_UNITS : STEPS_BUILT;
		steps.has_top = true;
		steps.bottom_um = chance_int(&c, -1000000, 1000000);
		steps.top_um = steps.bottom_um + chance_int(&c, 1, 3000000);
		steps.x_um = chance_int(&c, -9000000, 9000000);
		steps.y_um = chance_int(&c, -9000000, 9000000);
		steps.toward_udeg = chance_int(&c, 0, 359999999);
		steps.risers = chance_int(&c, 0, 3) ? 0 : chance_int(&c, 1, 20);
		steps.width_um = chance_int(&c, 600000, 3000000);
		steps.going_um = chance_int(&c, 200000, 450000);
		steps.unit_length_um = chance_int(&c, 300000, 1500000);
		steps.unit_depth_um = chance_int(&c, 150000, 450000);
		steps.unit_height_um = chance_int(&c, 60000, 220000);
		steps.tread_um = 40000;
		steps.overhang_um = chance_int(&c, 0, 30000);
		steps.bed_um = chance_int(&c, 0, 40000);
		steps.tread_fall_um_per_m = chance_int(&c, 0, 20000);
		rules.items = items;
		rules.count = (size_t)chance_int(&c, 0, 2);
		f = work_out();
		if (f.fault)
			continue;
		worked++;
		check_levels(&f);
		check_pieces(&f);
		if (steps.build == STEPS_UNITS)
			check_stack(&f);
		ck_assert_int_ge(f.order.units, f.order.bound);
		ck_assert_int_ge(f.slabs.units, f.slabs.bound);
		if (n % 500 == 0)
			arena_free(&mem);
	}
	ck_assert_int_gt(worked, FLIGHTS / ONE_OF / 2);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("steps");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, a_unit_of_150_makes_a_riser_of_180);
	tcase_add_test(tc, the_fall_of_a_tread_is_part_of_the_riser);
	tcase_add_test(tc, a_unit_that_does_not_divide_the_rise_is_told_both_ways);
	tcase_add_test(tc, a_unit_higher_than_its_riser_sinks);
	tcase_add_test(tc, a_unit_too_low_for_its_riser_wants_another);
	tcase_add_test(tc, units_overlap_by_a_least);
	tcase_add_test(tc, units_across_the_width_are_counted_and_cut);
	tcase_add_test(tc, the_bed_leaves_room_for_straps);
	tcase_add_test(tc, sides_and_landing_are_measured);
	tcase_add_test(tc, piece_bed_and_tread_make_the_riser);
	tcase_add_test(tc, a_deep_tread_takes_a_strip);
	tcase_add_test(tc, the_paving_gives_the_top_level);
	tcase_add_test(tc, steps_that_cannot_be_are_explained);
	tcase_add_test(tc, a_faulty_flight_leaves_the_take_off_alone);
	tcase_add_test(tc, the_going_that_obeys_is_told);
	tcase_add_test(tc, random_flights_hang_together);
	return suite_run("steps", tc);
}
