/* days.c - the day plan in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>

struct days_sheet {
	const struct takeoff *t;
	const struct schedule *s;
};

#define HOURS(centi) (centi) / 100, (centi) % 100
#define HOURS_FORMAT "%" PRId64 ".%02" PRId64

static const char *clock_print(char buf[8], int64_t moment)
{
	int64_t at = moment % DAY_MINUTES;

	snprintf(buf, 8, "%02d:%02d", (int)(at / 60), (int)(at % 60));
	return buf;
}

/* An end at midnight is that of the day before. */
static const char *end_print(char buf[8], int64_t moment)
{
	return moment % DAY_MINUTES ? clock_print(buf, moment) : "24:00";
}

/* --- text --- */

static void text_slot(FILE *to, const struct schedule_slot *slot)
{
	char from[8], end[8];

	fprintf(to, "  %s-%s ", clock_print(from, slot->from), end_print(end, slot->to));
	if (slot->waits)
		fprintf(to, "waiting: %s; next is %s\n", slot->reason,
		        activity_name(slot->activity));
	else
		fprintf(to, "%s, " HOURS_FORMAT " person-hours\n", activity_name(slot->activity),
		        HOURS(slot->hours_centi));
}

static void text_holds(FILE *to, const struct schedule *s)
{
	char from[48], until[48];

	if (!s->hold_count)
		return;
	fputs("\nHardening\n", to);
	for (size_t i = 0; i < s->hold_count; i++) {
		const struct schedule_hold *h = &s->holds[i];

		fprintf(to, "  %s: from %s to %s; %s waits for it\n", h->words,
		        schedule_print(from, sizeof from, s, h->from),
		        schedule_print(until, sizeof until, s, h->until), activity_name(h->after));
	}
}

static void text_days(FILE *to, const void *what)
{
	const struct days_sheet *d = what;
	const struct schedule *s = d->s;
	char day[48];

	text_title(to, d->t, "Day plan");
	text_line(to, "crew", "%" PRId64 ", each " HOURS_FORMAT " hours a day", s->crew,
	        HOURS(s->day_minutes * 100 / 60));
	text_line(to, "work", HOURS_FORMAT " person-hours, " HOURS_FORMAT " days of the crew",
	        HOURS(s->hours_centi), HOURS(s->crew_minutes * 100 / s->day_minutes));
	text_line(to, "days", "%zu with work, %" PRId64 " from first to last", s->worked_days,
	        s->calendar_days);
	for (size_t i = 0; i < s->day_count; i++) {
		const struct schedule_day *k = &s->days[i];

		fprintf(to, "\n%c%s, " HOURS_FORMAT " person-hours\n",
		        schedule_print_day(day, sizeof day, s, k->number)[0] == 'd' ? 'D' : day[0],
		        day + 1, HOURS(k->hours_centi));
		for (size_t at = 0; at < k->slot_count; at++)
			text_slot(to, &s->slots[k->first_slot + at]);
	}
	text_holds(to, s);
	fputs("\nMind\n", to);
	for (size_t i = 0; i < s->note_count; i++) {
		fputs("  ", to);
		sheet_put_text(to, s->notes[i]);
		fputc('\n', to);
	}
}

/* --- CSV --- */

static void csv_days(FILE *to, const void *what)
{
	const struct days_sheet *d = what;
	const struct schedule *s = d->s;
	struct row r = { to, false };
	char from[48], until[48];

	ROW_HEADER(&r, "kind", "day", "from", "to", "activity", "person_hours", "reason");
	for (size_t i = 0; i < s->slot_count; i++) {
		const struct schedule_slot *slot = &s->slots[i];

		row_text(&r, slot->waits ? "waiting" : "work");
		row_int(&r, s->days[slot->day].number + 1);
		row_text(&r, schedule_print(from, sizeof from, s, slot->from));
		row_text(&r, schedule_print(until, sizeof until, s, slot->to));
		row_text(&r, activity_name(slot->activity));
		row_real(&r, (double)slot->hours_centi / 100, 2);
		row_text(&r, slot->reason);
		row_end(&r);
	}
	for (size_t i = 0; i < s->hold_count; i++) {
		const struct schedule_hold *h = &s->holds[i];

		row_text(&r, "hardening");
		row_int(&r, h->from / DAY_MINUTES + 1);
		row_text(&r, schedule_print(from, sizeof from, s, h->from));
		row_text(&r, schedule_print(until, sizeof until, s, h->until));
		row_text(&r, activity_name(h->after));
		row_empty(&r);
		row_text(&r, h->words);
		row_end(&r);
	}
}

/* --- JSON --- */

static void json_moment(struct json *j, const char *key, const struct schedule *s, int64_t moment)
{
	char words[48];

	json_text(j, key, schedule_print(words, sizeof words, s, moment));
}

static void json_activities(struct json *j, const struct schedule *s)
{
	json_array(j, "activities");
	for (int i = 0; i < ACTIVITIES; i++) {
		const struct schedule_activity *a = &s->activities[i];

		if (!a->crew_minutes)
			continue;
		json_object_tight(j, NULL);
		json_text(j, "activity", activity_name((enum activity)i));
		json_real(j, "person_hours", (double)a->hours_centi / 100);
		json_int(j, "crew_minutes", a->crew_minutes);
		json_moment(j, "from", s, a->from);
		json_moment(j, "to", s, a->to);
		json_end(j);
	}
	json_end(j);
}

static void json_slot(struct json *j, const struct schedule *s, const struct schedule_slot *slot)
{
	json_object_tight(j, NULL);
	json_moment(j, "from", s, slot->from);
	json_moment(j, "to", s, slot->to);
	json_bool(j, "waiting", slot->waits);
	json_text(j, "activity", activity_name(slot->activity));
	json_real(j, "person_hours", (double)slot->hours_centi / 100);
	json_text(j, "reason", slot->waits ? slot->reason : NULL);
	json_end(j);
}

static void json_day_list(struct json *j, const struct schedule *s)
{
	char words[48];

	json_array(j, "days");
	for (size_t i = 0; i < s->day_count; i++) {
		const struct schedule_day *k = &s->days[i];

		json_object(j, NULL);
		json_int(j, "number", k->number + 1);
		json_text(j, "day", schedule_print_day(words, sizeof words, s, k->number));
		json_real(j, "person_hours", (double)k->hours_centi / 100);
		json_array(j, "slots");
		for (size_t at = 0; at < k->slot_count; at++)
			json_slot(j, s, &s->slots[k->first_slot + at]);
		json_end(j);
		json_end(j);
	}
	json_end(j);
}

static void json_days(struct json *j, const void *what)
{
	const struct days_sheet *d = what;
	const struct schedule *s = d->s;

	json_object(j, NULL);
	json_text(j, "variant", d->t->plan.name);
	json_int(j, "crew", s->crew);
	json_int(j, "day_minutes", s->day_minutes);
	json_real(j, "person_hours", (double)s->hours_centi / 100);
	json_real(j, "crew_days", (double)s->crew_minutes / (double)s->day_minutes);
	json_int(j, "worked_days", (int64_t)s->worked_days);
	json_int(j, "calendar_days", s->calendar_days);
	json_activities(j, s);
	json_day_list(j, s);
	json_array(j, "holds");
	for (size_t i = 0; i < s->hold_count; i++) {
		json_object_tight(j, NULL);
		json_text(j, "what", s->holds[i].words);
		json_moment(j, "from", s, s->holds[i].from);
		json_moment(j, "until", s, s->holds[i].until);
		json_text(j, "waits", activity_name(s->holds[i].after));
		json_end(j);
	}
	json_end(j);
	json_array(j, "notes");
	for (size_t i = 0; i < s->note_count; i++)
		json_text(j, NULL, s->notes[i]);
	json_end(j);
	json_end(j);
}

enum status sheet_days(FILE *to, const struct takeoff *t, const struct schedule *schedule,
        enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_days, csv_days, json_days };
	struct days_sheet d = { t, schedule };

	return sheet_write(to, &forms, &d, form, err);
}
