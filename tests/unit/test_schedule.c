/* The order of work: by hand, over a weekend, and whatever the job. */
#include "slabwright/schedule.h"

#include "chance.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

static struct arena mem;
static struct plan_costs costs;
static struct labour labour;
static struct schedule s;
static struct error err;
static char words[48];

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

static void hours(enum task task, int64_t centi)
{
	labour.tasks[task].hours_centi = centi;
	labour.hours_centi += centi;
}

static void plan_it(void)
{
	ck_assert_msg(
	        schedule_of_labour(&mem, &costs, &labour, &s, &err) == STATUS_OK, "%s", err.text);
}

static const char *when(int64_t moment)
{
	return schedule_print(words, sizeof words, &s, moment);
}

static void assert_slot(
        size_t at, const char *from, const char *to, enum activity activity, bool waits)
{
	ck_assert_uint_lt(at, s.slot_count);
	ck_assert_str_eq(when(s.slots[at].from), from);
	ck_assert_str_eq(when(s.slots[at].to), to);
	ck_assert_int_eq(s.slots[at].activity, activity);
	ck_assert_int_eq(s.slots[at].waits, waits);
}

/* Two people, 8 to 16. Thursday: edging 8 h of both, ready at 16:00; it hardens 72 h, to Sunday
 * 16:00. Friday: 4 h of walls, 2 h of steps, then nothing may go on. Monday: laying 6 h, jointing 1
 * h, clearing 1 h. */
START_TEST(a_haunch_hardens_over_the_weekend)
{
	costs.start_date = "2026-12-03";
	labour.haunched = true;
	hours(TASK_EDGING, 1600);
	hours(TASK_WALL, 800);
	hours(TASK_STEP, 400);
	hours(TASK_LAY, 900);
	hours(TASK_BEDDING, 300);
	hours(TASK_JOINT, 200);
	hours(TASK_CLEAR, 200);
	plan_it();
	ck_assert_uint_eq(s.slot_count, 7);
	assert_slot(0, "2026-12-03 08:00", "2026-12-03 16:00", ACTIVITY_EDGING, false);
	assert_slot(1, "2026-12-04 08:00", "2026-12-04 12:00", ACTIVITY_WALLS, false);
	assert_slot(2, "2026-12-04 12:00", "2026-12-04 14:00", ACTIVITY_STEPS, false);
	assert_slot(3, "2026-12-04 14:00", "2026-12-04 16:00", ACTIVITY_LAYING, true);
	ck_assert_str_eq(s.slots[3].reason, "the haunch of the edging hardens");
	assert_slot(4, "2026-12-07 08:00", "2026-12-07 14:00", ACTIVITY_LAYING, false);
	assert_slot(5, "2026-12-07 14:00", "2026-12-07 15:00", ACTIVITY_JOINTING, false);
	assert_slot(6, "2026-12-07 15:00", "2026-12-07 16:00", ACTIVITY_CLEARING, false);
	ck_assert_uint_eq(s.hold_count, 1);
	ck_assert_str_eq(when(s.holds[0].until), "2026-12-06 16:00");
	ck_assert_uint_eq(s.worked_days, 3);
	ck_assert_int_eq(s.calendar_days, 5);
	ck_assert_int_eq(s.crew_minutes, 3 * 480 - 120);
	ck_assert_int_eq(s.days[1].hours_centi, 1200);
	ck_assert_str_eq(
	        schedule_print_day(words, sizeof words, &s, s.days[2].number), "Monday 2026-12-07");
}
END_TEST

/* The same without a date: the third day is not Saturday but a day like others, and the crew waits.
 */
START_TEST(without_a_date_there_are_no_weekends)
{
	labour.haunched = true;
	hours(TASK_EDGING, 1600);
	hours(TASK_LAY, 100);
	plan_it();
	assert_slot(0, "day 1, 08:00", "day 1, 16:00", ACTIVITY_EDGING, false);
	assert_slot(1, "day 2, 08:00", "day 2, 16:00", ACTIVITY_LAYING, true);
	assert_slot(2, "day 3, 08:00", "day 3, 16:00", ACTIVITY_LAYING, true);
	assert_slot(3, "day 4, 08:00", "day 4, 16:00", ACTIVITY_LAYING, true);
	assert_slot(4, "day 5, 08:00", "day 5, 08:30", ACTIVITY_LAYING, false);
}
END_TEST

/* The walls have hardened on day 2 at 8:00: filling goes on until the slabs may be laid at 10:00,
 * and again when they are. */
START_TEST(what_goes_before_takes_over_when_it_may)
{
	labour.haunched = true;
	costs.crew = 1;
	costs.haunch_hold_minutes = 24 * 60;
	costs.wall_hold_minutes = 60;
	hours(TASK_EDGING, 200); /* 8 to 10 */
	hours(TASK_WALL, 600); /* 10 to 16 */
	hours(TASK_LAY, 300);
	hours(TASK_FILL, 400);
	plan_it();
	ck_assert_uint_eq(s.slot_count, 5);
	assert_slot(2, "day 2, 08:00", "day 2, 10:00", ACTIVITY_FILLING, false);
	assert_slot(3, "day 2, 10:00", "day 2, 13:00", ACTIVITY_LAYING, false);
	assert_slot(4, "day 2, 13:00", "day 2, 15:00", ACTIVITY_FILLING, false);
}
END_TEST

START_TEST(edging_without_bed_or_haunch_holds_nothing_up)
{
	hours(TASK_EDGING, 200);
	hours(TASK_LAY, 200);
	plan_it();
	assert_slot(1, "day 1, 09:00", "day 1, 10:00", ACTIVITY_LAYING, false);
	ck_assert_uint_eq(s.hold_count, 0);
}
END_TEST

START_TEST(what_is_not_in_the_job_waits_for_nothing)
{
	hours(TASK_JOINT, 200);
	hours(TASK_CLEAR, 200); /* there is no sealing that would wait for the joints */
	plan_it();
	assert_slot(1, "day 1, 09:00", "day 1, 10:00", ACTIVITY_CLEARING, false);
}
END_TEST

START_TEST(sealing_waits_until_the_joints_have_hardened)
{
	hours(TASK_JOINT, 200);
	hours(TASK_SEAL, 200);
	plan_it();
	assert_slot(1, "day 1, 09:00", "day 1, 16:00", ACTIVITY_SEALING, true);
	ck_assert_str_eq(s.slots[1].reason, "the joints harden");
	assert_slot(3, "day 2, 09:00", "day 2, 10:00", ACTIVITY_SEALING, false);
}
END_TEST

START_TEST(a_start_date_that_is_none_is_refused)
{
	static const char *const bad[] = { "2026-02-30", "2025-02-29", "2026-13-01", "1 May 2026" };

	hours(TASK_CLEAR, 100);
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
		costs.start_date = bad[i];
		ck_assert_int_eq(schedule_of_labour(&mem, &costs, &labour, &s, &err), STATUS_PLAN);
		ck_assert_ptr_nonnull(strstr(err.text, bad[i]));
		ck_assert_ptr_nonnull(strstr(err.text, "give one like"));
	}
}
END_TEST

START_TEST(a_start_on_a_weekend_is_put_off_to_monday)
{
	costs.start_date = "2026-12-05";
	hours(TASK_CLEAR, 100);
	plan_it();
	assert_slot(0, "2026-12-07 08:00", "2026-12-07 08:30", ACTIVITY_CLEARING, false);
	ck_assert_ptr_nonnull(strstr(s.notes[0], "weekend"));
}
END_TEST

START_TEST(work_without_end_is_refused)
{
	hours(TASK_DIG, INT64_C(3660) * 8 * 2 * 100 + 100);
	ck_assert_int_eq(schedule_of_labour(&mem, &costs, &labour, &s, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "3660 days"));
	labour.tasks[TASK_DIG].hours_centi = 100;
	costs.start_date = "9999-12-31";
	hours(TASK_CLEAR, 3000);
	ck_assert_int_eq(schedule_of_labour(&mem, &costs, &labour, &s, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "year 9999"));
}
END_TEST

START_TEST(a_day_of_all_hours_ends_at_midnight)
{
	costs.day_minutes = 24 * 60;
	costs.crew = 1;
	hours(TASK_DIG, 2500);
	plan_it();
	ck_assert_uint_eq(s.day_count, 2);
	ck_assert_int_eq(s.slots[0].to - s.slots[0].from, 1440);
	ck_assert_int_eq(s.slots[1].to - s.slots[1].from, 60);
}
END_TEST

START_TEST(weather_is_told_of_what_is_in_the_job)
{
	hours(TASK_JOINT, 100);
	plan_it();
	ck_assert_uint_eq(s.note_count, 2); /* no date; joints */
	ck_assert_ptr_nonnull(strstr(s.notes[1], "joint filling"));
	labour.tasks[TASK_DIG].fault = "no ground levels";
	hours(TASK_WALL, 100);
	plan_it();
	ck_assert_ptr_nonnull(strstr(s.notes[1], "dig: no ground levels"));
	ck_assert_ptr_nonnull(strstr(s.notes[2], "3 C when it is getting colder"));
}
END_TEST

/* --- whatever the job --- */

static void random_job(struct chance *d)
{
	static const char *const starts[] = { "", "2026-11-27", "2028-02-28", "2026-12-05" };

	setup();
	costs.start_date = starts[chance_int(d, 0, 3)];
	costs.crew = chance_int(d, 1, 5);
	costs.day_minutes = chance_int(d, 0, 9) ? chance_int(d, 300, 600) : chance_int(d, 30, 1440);
	costs.haunch_hold_minutes = chance_int(d, 0, 6000);
	costs.wall_hold_minutes = chance_int(d, 0, 12000);
	costs.joint_hold_minutes = chance_int(d, 0, 3000);
	labour.haunched = chance_int(d, 0, 3);
	labour.channels = chance_int(d, 0, 1);
	for (int i = 0; i < TASKS; i++)
		if (chance_int(d, 0, 2))
			hours((enum task)i, chance_int(d, 1, 4000));
}

/* Whether anyone before it in the chain, over what is not in the job, ends after this moment. */
static void check_before(enum activity a, enum activity through, int64_t from)
{
	for (size_t i = 0; i < activity_link_count; i++) {
		const struct activity_link *l = &activity_links[i];
		int64_t hold = 0;

		if (l->after != through)
			continue;
		if (!s.activities[l->before].crew_minutes) {
			check_before(a, l->before, from);
			continue;
		}
		if (through == a && l->hold == HOLD_HAUNCH && labour.haunched)
			hold = costs.haunch_hold_minutes;
		if (through == a && l->hold == HOLD_CHANNEL && labour.channels)
			hold = costs.haunch_hold_minutes;
		if (through == a && l->hold == HOLD_WALL)
			hold = costs.wall_hold_minutes;
		if (through == a && l->hold == HOLD_JOINT)
			hold = costs.joint_hold_minutes;
		ck_assert_int_ge(from, s.activities[l->before].to + hold);
	}
}

static void check_slots(void)
{
	int64_t minutes[ACTIVITIES] = { 0 }, centi[ACTIVITIES] = { 0 }, last = 0;

	for (size_t i = 0; i < s.slot_count; i++) {
		const struct schedule_slot *k = &s.slots[i];
		int64_t day = k->from / DAY_MINUTES, begins = day * DAY_MINUTES + s.begins;

		ck_assert_int_ge(k->from, last);
		ck_assert_int_gt(k->to, k->from);
		ck_assert_int_eq(s.days[k->day].number, day);
		ck_assert(k->from >= begins && k->to <= begins + costs.day_minutes);
		/* 2026-11-27 was a Friday, 2028-02-28 and what 2026-12-05 is put off to Mondays. */
		if (s.dated)
			ck_assert_int_lt(
			        (day + (strcmp(costs.start_date, "2026-11-27") ? 0 : 4)) % 7, 5);
		last = k->to;
		if (k->waits) {
			ck_assert_str_ne(k->reason, "");
			continue;
		}
		minutes[k->activity] += k->to - k->from;
		centi[k->activity] += k->hours_centi;
		check_before(k->activity, k->activity, k->from);
	}
	for (int a = 0; a < ACTIVITIES; a++) {
		int64_t want = 0;

		for (int t = 0; t < TASKS; t++)
			if ((int)activity_of((enum task)t) == a)
				want += labour.tasks[t].hours_centi;
		ck_assert_int_eq(centi[a], want);
		ck_assert_int_eq(minutes[a], s.activities[a].crew_minutes);
		ck_assert_int_lt(
		        llabs(minutes[a] * costs.crew * 100 - want * 60), costs.crew * 100);
	}
}

/* While it waits nothing at all could have gone on; and nothing is left undone between. */
static void check_waits(void)
{
	for (size_t i = 0; i < s.slot_count; i++) {
		const struct schedule_slot *k = &s.slots[i];
		bool other = false;

		if (!k->waits)
			continue;
		for (size_t h = 0; h < s.hold_count; h++)
			other = other || (s.holds[h].from <= k->from && s.holds[h].until >= k->to &&
			                         s.holds[h].after == k->activity);
		ck_assert_msg(other, "waits from %ld for nothing", (long)k->from);
	}
}

START_TEST(no_job_breaks_the_order_of_work)
{
	struct chance d = chance_new(chance_seed("schedule", 5));

	for (int i = 0; i < 5000 / ONE_OF; i++) {
		int64_t placed = 0;

		random_job(&d);
		plan_it();
		check_slots();
		check_waits();
		for (size_t k = 0; k < s.day_count; k++)
			placed += s.days[k].hours_centi;
		ck_assert_int_eq(placed, labour.hours_centi);
		arena_reset(&mem);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("schedule");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, a_haunch_hardens_over_the_weekend);
	tcase_add_test(tc, without_a_date_there_are_no_weekends);
	tcase_add_test(tc, what_goes_before_takes_over_when_it_may);
	tcase_add_test(tc, edging_without_bed_or_haunch_holds_nothing_up);
	tcase_add_test(tc, what_is_not_in_the_job_waits_for_nothing);
	tcase_add_test(tc, sealing_waits_until_the_joints_have_hardened);
	tcase_add_test(tc, a_start_date_that_is_none_is_refused);
	tcase_add_test(tc, a_start_on_a_weekend_is_put_off_to_monday);
	tcase_add_test(tc, work_without_end_is_refused);
	tcase_add_test(tc, a_day_of_all_hours_ends_at_midnight);
	tcase_add_test(tc, weather_is_told_of_what_is_in_the_job);
	tcase_add_test(tc, no_job_breaks_the_order_of_work);
	return suite_run("schedule", tc);
}
