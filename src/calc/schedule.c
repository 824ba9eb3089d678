/* schedule.c - see schedule.h. From moment to moment: who may work now, and until when nothing else
 * changes: the end of the day, of the activity, or the moment at which one that goes before it may
 * begin. */
#include "schedule_parts.h"
#include "slabwright/calendar.h"
#include "slabwright/takeoff.h"

#include <inttypes.h>
#include <stdio.h>

enum { MOST_DAYS = 3660, BEGINS = 8 * 60 }; /* the crew begins at 8 (common practice) */
#define NOBODY ACTIVITIES

struct planning {
	struct arena *mem;
	struct schedule *s;
	int64_t hold_minutes[HOLD_JOINT + 1];
	int64_t left[ACTIVITIES]; /* crew's minutes */
	int64_t now;
	size_t slot_room, day_room;
};

static bool in_job(const struct planning *p, enum activity a)
{
	return p->s->activities[a].crew_minutes > 0;
}

/* When an activity may begin; SCHEDULE_NEVER as long as one before it has not ended. One that is
 * not in the job waits for no hardening: it is passed over as soon as those before it have ended.
 */
static int64_t ready_at(const struct planning *p, enum activity a, enum hold *waits)
{
	int64_t at = 0;

	*waits = HOLD_NONE;
	for (size_t i = 0; i < activity_link_count; i++) {
		const struct activity_link *l = &activity_links[i];
		enum hold hold = l->hold;
		int64_t from;

		if (l->after != a)
			continue;
		if (!in_job(p, l->before))
			from = ready_at(p, l->before, &hold);
		else if (p->left[l->before])
			from = SCHEDULE_NEVER;
		else
			from = p->s->activities[l->before].to +
			       (in_job(p, a) ? p->hold_minutes[hold] : 0);
		if (from == SCHEDULE_NEVER)
			return from;
		if (from > at) {
			at = from;
			*waits = hold;
		}
	}
	return at;
}

static bool is_workday(const struct schedule *s, int64_t day)
{
	return !s->dated || calendar_weekday(s->first_day + day) < 5;
}

/* Moves on to the next moment of work, if this is none. */
static void go_to_work(struct planning *p)
{
	const struct schedule *s = p->s;
	int64_t day = p->now / DAY_MINUTES, at = p->now % DAY_MINUTES;

	if (is_workday(s, day) && at >= s->begins && at < s->begins + s->day_minutes)
		return;
	if (at >= s->begins + s->day_minutes)
		day++;
	while (!is_workday(s, day))
		day++;
	p->now = day * DAY_MINUTES + s->begins;
}

/* The first activity that may go on; NOBODY for none. *next, at first the end of the day, comes
 * down to the moment at which another may begin that goes before it; *waits is then why the
 * earliest of them may not yet, and *awaited which. */
static enum activity choose(
        const struct planning *p, int64_t *next, enum hold *waits, enum activity *awaited)
{
	int64_t earliest = INT64_MAX;

	for (enum activity a = 0; a < ACTIVITIES; a++) {
		enum hold hold;
		int64_t at;

		if (!p->left[a] || (at = ready_at(p, a, &hold)) == SCHEDULE_NEVER)
			continue;
		if (at <= p->now)
			return a;
		if (at < earliest) {
			earliest = at;
			*waits = hold;
			*awaited = a;
		}
		if (at < *next)
			*next = at;
	}
	return NOBODY;
}

static struct schedule_day *day_of_now(struct planning *p)
{
	struct schedule *s = p->s;
	int64_t number = p->now / DAY_MINUTES;
	struct schedule_day *days;

	if (s->day_count && s->days[s->day_count - 1].number == number)
		return &s->days[s->day_count - 1];
	days = arena_grow(p->mem, s->days, s->day_count, &p->day_room, sizeof *days);
	if (!days)
		return NULL;
	s->days = days;
	days[s->day_count] = (struct schedule_day){ .number = number, .first_slot = s->slot_count };
	return &days[s->day_count++];
}

static enum status put_slot(struct planning *p, const struct schedule_slot *slot, struct error *err)
{
	struct schedule *s = p->s;
	struct schedule_day *day = day_of_now(p);
	struct schedule_slot *slots =
	        arena_grow(p->mem, s->slots, s->slot_count, &p->slot_room, sizeof *slots);

	if (!day || !slots)
		return error_memory(err);
	s->slots = slots;
	slots[s->slot_count] = *slot;
	slots[s->slot_count++].day = s->day_count - 1;
	day->slot_count++;
	day->hours_centi += slot->hours_centi;
	s->worked_days += !slot->waits && day->hours_centi == slot->hours_centi;
	return STATUS_OK;
}

/* Hours of one person up to the minute at which so many are left. */
static int64_t hours_done(const struct schedule_activity *a, int64_t left)
{
	return a->hours_centi * (a->crew_minutes - left) / a->crew_minutes;
}

static enum status work(struct planning *p, enum activity a, int64_t next, struct error *err)
{
	struct schedule_activity *k = &p->s->activities[a];
	int64_t before = hours_done(k, p->left[a]);
	struct schedule_slot slot = { .from = p->now, .activity = a, .reason = "" };

	if (next > p->now + p->left[a])
		next = p->now + p->left[a];
	if (k->from == SCHEDULE_NEVER)
		k->from = p->now;
	p->left[a] -= next - p->now;
	if (!p->left[a])
		k->to = next;
	slot.to = next;
	slot.hours_centi = hours_done(k, p->left[a]) - before;
	return put_slot(p, &slot, err);
}

static enum status wait(
        struct planning *p, enum hold hold, enum activity awaited, int64_t next, struct error *err)
{
	struct schedule_slot slot = { .from = p->now,
		.to = next,
		.waits = true,
		.activity = awaited,
		.reason = schedule_hold_words(hold) };

	return put_slot(p, &slot, err);
}

static enum status step(struct planning *p, struct error *err)
{
	const struct schedule *s = p->s;
	enum activity awaited = NOBODY, a;
	enum hold hold = HOLD_NONE;
	enum status st;
	int64_t next;

	go_to_work(p);
	next = p->now - p->now % DAY_MINUTES + s->begins + s->day_minutes;
	a = choose(p, &next, &hold, &awaited);
	if (a == NOBODY) {
		st = wait(p, hold, awaited, next, err);
	} else {
		st = work(p, a, next, err);
		next = s->slots ? s->slots[s->slot_count - 1].to : next;
	}
	p->now = next;
	return st;
}

static bool is_left(const struct planning *p)
{
	for (int i = 0; i < ACTIVITIES; i++)
		if (p->left[i])
			return true;
	return false;
}

static enum status put_holds(struct planning *p, struct error *err)
{
	struct schedule *s = p->s;

	s->holds = arena_alloc(p->mem, activity_link_count, sizeof *s->holds);
	if (!s->holds)
		return error_memory(err);
	for (size_t i = 0; i < activity_link_count; i++) {
		const struct activity_link *l = &activity_links[i];
		int64_t minutes = p->hold_minutes[l->hold];

		if (!minutes || !in_job(p, l->before) || !in_job(p, l->after))
			continue;
		s->holds[s->hold_count++] = (struct schedule_hold){
			.hold = l->hold,
			.words = schedule_hold_words(l->hold),
			.after = l->after,
			.from = s->activities[l->before].to,
			.until = s->activities[l->before].to + minutes,
		};
	}
	return STATUS_OK;
}

static enum status begin(struct planning *p, const struct plan_costs *costs,
        const struct labour *labour, struct error *err)
{
	struct schedule *s = p->s;
	int64_t most = MOST_DAYS * costs->day_minutes;

	p->hold_minutes[HOLD_HAUNCH] = labour->haunched ? costs->haunch_hold_minutes : 0;
	p->hold_minutes[HOLD_CHANNEL] = labour->channels ? costs->haunch_hold_minutes : 0;
	p->hold_minutes[HOLD_WALL] = costs->wall_hold_minutes;
	p->hold_minutes[HOLD_JOINT] = costs->joint_hold_minutes;
	for (int i = 0; i < TASKS; i++)
		s->activities[activity_of((enum task)i)].hours_centi +=
		        labour->tasks[i].hours_centi;
	for (int i = 0; i < ACTIVITIES; i++) {
		struct schedule_activity *a = &s->activities[i];

		a->from = a->to = SCHEDULE_NEVER;
		a->crew_minutes = p->left[i] = labour_crew_minutes(a->hours_centi, costs->crew);
		s->hours_centi += a->hours_centi;
		s->crew_minutes += a->crew_minutes;
	}
	if (s->crew_minutes > most)
		return error_set(err, STATUS_PLAN,
		        "The work comes to over %d days; look at the crew and the minutes a unit "
		        "of "
		        "the tasks.",
		        MOST_DAYS);
	return STATUS_OK;
}

/* The first day of work from the start date on. */
static enum status set_start(struct schedule *s, const struct plan_costs *costs, struct error *err)
{
	s->dated = *costs->start_date != '\0';
	if (!s->dated)
		return STATUS_OK;
	if (!date_valid(costs->start_date))
		return error_set(err, STATUS_PLAN,
		        "The start date \"%s\" is no day of the calendar; give one like "
		        "\"2026-11-25\", or none.",
		        costs->start_date);
	s->first_day = calendar_day(costs->start_date);
	if (calendar_weekday(s->first_day) >= 5)
		schedule_note(s, "The start date is a weekend: work begins on the Monday after.");
	while (calendar_weekday(s->first_day) >= 5)
		s->first_day++;
	return STATUS_OK;
}

static enum status put_notes(struct planning *p, const struct labour *labour, struct error *err)
{
	struct schedule *s = p->s;

	if (!s->dated)
		schedule_note(s, "Without a start date days are only numbered, and there are no "
		                 "weekends among them.");
	for (int i = 0; i < TASKS; i++) {
		const struct labour_task *k = &labour->tasks[i];
		const char *text;

		if (!*k->fault)
			continue;
		text = arena_print(
		        p->mem, "Not planned in full: %s: %s.", task_name((enum task)i), k->fault);
		if (!text)
			return error_memory(err);
		schedule_note(s, text);
	}
	schedule_note_limits(s);
	return STATUS_OK;
}

static enum status finish(struct planning *p, const struct labour *labour, struct error *err)
{
	struct schedule *s = p->s;
	enum status st = put_holds(p, err);

	if (st != STATUS_OK)
		return st;
	if (s->day_count)
		s->calendar_days = s->days[s->day_count - 1].number + 1;
	if (s->dated && s->first_day + s->calendar_days > CALENDAR_LAST_DAY)
		return error_set(err, STATUS_PLAN,
		        "The work goes on beyond the year 9999; look at the start date.");
	return put_notes(p, labour, err);
}

enum status schedule_of_labour(struct arena *mem, const struct plan_costs *costs,
        const struct labour *labour, struct schedule *out, struct error *err)
{
	struct planning p = { .mem = mem, .s = out };
	enum status st;

	*out = (struct schedule){ .crew = costs->crew, .day_minutes = costs->day_minutes };
	out->begins = BEGINS + costs->day_minutes <= DAY_MINUTES ? BEGINS
	                                                         : DAY_MINUTES - costs->day_minutes;
	st = set_start(out, costs, err);
	if (st == STATUS_OK)
		st = begin(&p, costs, labour, err);
	while (st == STATUS_OK && is_left(&p))
		st = step(&p, err);
	return st == STATUS_OK ? finish(&p, labour, err) : st;
}

enum status schedule_work_out(
        struct arena *mem, const struct takeoff *t, struct schedule *out, struct error *err)
{
	struct labour labour;
	enum status st = labour_work_out(mem, t, &labour, err);

	if (st != STATUS_OK)
		return st;
	return schedule_of_labour(mem, &t->plan.costs, &labour, out, err);
}

char *schedule_print_day(char *buf, size_t size, const struct schedule *s, int64_t day)
{
	char date[16];

	if (s->dated)
		snprintf(buf, size, "%s %s", calendar_weekday_name(s->first_day + day),
		        calendar_print(date, sizeof date, s->first_day + day));
	else
		snprintf(buf, size, "day %" PRId64, day + 1);
	return buf;
}

char *schedule_print(char *buf, size_t size, const struct schedule *s, int64_t moment)
{
	int64_t day = moment / DAY_MINUTES, at = moment % DAY_MINUTES;
	char date[16];

	if (s->dated)
		snprintf(buf, size, "%s %02" PRId64 ":%02" PRId64,
		        calendar_print(date, sizeof date, s->first_day + day), at / 60, at % 60);
	else
		snprintf(buf, size, "day %" PRId64 ", %02" PRId64 ":%02" PRId64, day + 1, at / 60,
		        at % 60);
	return buf;
}
