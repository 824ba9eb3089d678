/* schedule.h - in which order the work is done, how long it takes, and what must harden between.
 *
 * One crew works at one thing at a time: at each moment at the first activity, in the order of enum
 * activity, that may go on. An activity may go on when those before it have ended, and what must
 * harden has hardened; one that is not in the job is passed over, and waits for no hardening. So
 * what can be done while a haunch hardens is done then, and put by again when the slabs may be
 * laid. Where nothing may go on, the crew waits, and the reason is told.
 *
 * Work is done on days of the plan's minutes from BEGINS on, Monday to Friday from the plan's start
 * date; without one on day 1, 2 and so on, weekends left out of account. What hardens does so day
 * and night. Who comes before whom is common practice, without a source; edging first, then
 * planters, then steps, then slabs. */
#ifndef SLABWRIGHT_SCHEDULE_H
#define SLABWRIGHT_SCHEDULE_H

#include "slabwright/labour.h"

enum activity {
	ACTIVITY_STRIP,
	ACTIVITY_DIG,
	ACTIVITY_CART,
	ACTIVITY_MEMBRANE,
	ACTIVITY_SUB_BASE,
	ACTIVITY_DRAINS,
	ACTIVITY_EDGING,
	ACTIVITY_WALLS,
	ACTIVITY_STEPS,
	ACTIVITY_LAYING, /* bedding, laying, borders and cutting together */
	ACTIVITY_JOINTING,
	ACTIVITY_SEALING,
	ACTIVITY_FILLING, /* of planters */
	ACTIVITY_CLEARING,
	ACTIVITIES,
};
const char *activity_name(enum activity activity); /* "laying slabs" */
enum activity activity_of(enum task task);

enum hold { HOLD_NONE, HOLD_HAUNCH, HOLD_CHANNEL, HOLD_WALL, HOLD_JOINT };

/* What must have ended before an activity, and what must have hardened since. */
struct activity_link {
	enum activity before, after;
	enum hold hold;
};
extern const struct activity_link activity_links[];
extern const size_t activity_link_count;

/* Moments are minutes from midnight before the schedule's first day. */
#define DAY_MINUTES 1440
#define SCHEDULE_NEVER INT64_MIN

struct schedule_activity {
	int64_t hours_centi; /* of one person, hundredths; 0: not in the job */
	int64_t crew_minutes; /* the crew's, whole ones */
	int64_t from, to; /* when it begins and has ended */
};

/* From when to when one thing is done, or waited, on one day. */
struct schedule_slot {
	size_t day; /* number in the schedule's days */
	int64_t from, to;
	bool waits;
	enum activity activity; /* at work; or which is waited for */
	int64_t hours_centi; /* of one person; an activity's slots add up to it */
	const char *reason; /* of waiting: "the haunch of the edging hardens"; else "" */
};

struct schedule_day {
	int64_t number; /* 0 the first day, counted through the calendar */
	size_t first_slot, slot_count;
	int64_t hours_centi;
};

struct schedule_hold {
	enum hold hold;
	const char *words; /* "the haunch of the edging hardens" */
	enum activity after; /* what waits for it */
	int64_t from, until;
};

struct schedule {
	bool dated; /* there is a start date */
	int64_t first_day; /* calendar.h; 0 without a date */
	int64_t crew, day_minutes, begins; /* people; minutes a day; of the day */
	struct schedule_activity activities[ACTIVITIES];
	struct schedule_day *days; /* those on which the crew works or waits */
	size_t day_count;
	struct schedule_slot *slots; /* in order of time */
	size_t slot_count;
	struct schedule_hold *holds; /* in order of their links */
	size_t hold_count;
	int64_t hours_centi; /* of one person, all together */
	int64_t crew_minutes; /* the crew's, waiting left out */
	size_t worked_days; /* on which something is done */
	int64_t calendar_days; /* from the first to the last, both counted */
	const char *notes[24]; /* weather and other limits, what is not in the plan: sentences */
	size_t note_count;
};

/* Refuses (STATUS_PLAN) what labour_work_out refuses, a start date that is none, and work of over
 * 3660 days or beyond the year 9999. Everything in *out lives in mem. STATUS_MEMORY. */
enum status schedule_work_out(
        struct arena *mem, const struct takeoff *t, struct schedule *out, struct error *err);
/* The same of work that is known already. */
enum status schedule_of_labour(struct arena *mem, const struct plan_costs *costs,
        const struct labour *labour, struct schedule *out, struct error *err);

/* "2026-12-01 08:00", "day 3, 08:00"; or the day alone, "Tuesday 2026-12-01", "day 3". Returns buf;
 * 40 bytes are enough. */
char *schedule_print(char *buf, size_t size, const struct schedule *s, int64_t moment);
char *schedule_print_day(char *buf, size_t size, const struct schedule *s, int64_t day);

#endif
