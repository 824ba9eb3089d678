/* ical.c - the day plan as iCalendar (RFC 5545), for the calendar of a telephone. Times are local:
 * what RFC 5545 calls floating. */
#include "form.h"
#include "slabwright/calendar.h"
#include "slabwright/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_OCTETS = 75 };

struct ical {
	FILE *to; /* where lines are gathered, before they are folded */
	const struct schedule *s;
	const struct letter_head *head;
};

/* A value of type TEXT: what has a meaning is escaped, and no control character is left. */
static void put_escaped(FILE *to, const char *text)
{
	for (const char *c = text; *c; c++) {
		if (*c == '\\' || *c == ';' || *c == ',')
			fputc('\\', to);
		if (*c == '\n')
			fputs("\\n", to);
		else
			fputc((unsigned char)*c < 0x20 || *c == 0x7F ? ' ' : *c, to);
	}
}

static const char *day_digits(char buf[12], const struct schedule *s, int64_t moment)
{
	char date[16];

	calendar_print(date, sizeof date, s->first_day + moment / DAY_MINUTES);
	snprintf(buf, 12, "%.4s%.2s%.2s", date, date + 5, date + 8);
	return buf;
}

static void put_time(const struct ical *c, const char *name, int64_t moment)
{
	char day[12];
	int at = (int)(moment % DAY_MINUTES);

	fprintf(c->to, "%s:%sT%02d%02d00\n", name, day_digits(day, c->s, moment), at / 60, at % 60);
}

/* An identifier no other event has: of the variant, of what is done, the how-manieth of it. */
static void begin_event(const struct ical *c, const char *what, int number)
{
	const char *d = c->head->date;

	fputs("BEGIN:VEVENT\nUID:", c->to);
	put_escaped(c->to, c->head->id);
	fputc('-', c->to);
	for (const char *w = what; *w; w++)
		fputc(*w == ' ' ? '-' : *w, c->to);
	fprintf(c->to, "-%d\nDTSTAMP:%.4s%.2s%.2sT000000Z\n", number, d, d + 5, d + 8);
}

static void put_place(const struct ical *c)
{
	put_escaped(c->to, c->head->client);
	fputs(" / ", c->to);
	put_escaped(c->to, c->head->job);
}

static void put_slot(const struct ical *c, const struct schedule_slot *slot, int number)
{
	begin_event(c, activity_name(slot->activity), number);
	put_time(c, "DTSTART", slot->from);
	put_time(c, "DTEND", slot->to);
	fprintf(c->to, "SUMMARY:%s: ", activity_name(slot->activity));
	put_place(c);
	fprintf(c->to,
	        "\nDESCRIPTION:%" PRId64 ".%02" PRId64 " person-hours\\, a crew of %" PRId64
	        "\nEND:VEVENT\n",
	        slot->hours_centi / 100, slot->hours_centi % 100, c->s->crew);
}

static void put_hold(const struct ical *c, const struct schedule_hold *h, int number)
{
	begin_event(c, "hardening", number);
	put_time(c, "DTSTART", h->from);
	put_time(c, "DTEND", h->until);
	fprintf(c->to, "SUMMARY:%s: ", h->words);
	put_place(c);
	fprintf(c->to, "\nDESCRIPTION:%s waits for it\nTRANSP:TRANSPARENT\nEND:VEVENT\n",
	        activity_name(h->after));
}

static void put_calendar(const struct ical *c)
{
	int times[ACTIVITIES] = { 0 };

	fputs("BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Slabwright//Day plan//EN\n", c->to);
	for (size_t i = 0; i < c->s->slot_count; i++) {
		const struct schedule_slot *slot = &c->s->slots[i];

		if (!slot->waits)
			put_slot(c, slot, ++times[slot->activity]);
	}
	for (size_t i = 0; i < c->s->hold_count; i++)
		put_hold(c, &c->s->holds[i], (int)c->s->holds[i].hold);
	fputs("END:VCALENDAR\n", c->to);
}

/* Lines end in CR and LF; what is longer than 75 octets goes on after a blank, and no character is
 * taken apart. Bytes that are no UTF-8 come out as marks. */
static void write_lines(FILE *to, const char *text)
{
	int on_line = 0;

	while (*text) {
		size_t n = utf8_sequence((const unsigned char *)text, strlen(text));
		const char *bytes = n ? text : "\xEF\xBF\xBD";
		int octets = n ? (int)n : 3;

		if (*text == '\n') {
			fputs("\r\n", to);
			on_line = 0;
			text++;
			continue;
		}
		if (on_line + octets > LINE_OCTETS) {
			fputs("\r\n ", to);
			on_line = 1;
		}
		fwrite(bytes, 1, (size_t)octets, to);
		on_line += octets;
		text += n ? n : 1;
	}
}

enum status sheet_calendar(FILE *to, const struct takeoff *t, const struct schedule *schedule,
        const struct letter_head *head, struct error *err)
{
	struct ical c = { NULL, schedule, head };
	char *text = NULL;
	size_t size;
	bool failed;

	if (!schedule->dated)
		return error_set(err, STATUS_PLAN,
		        "A calendar needs days, and the variant \"%s\" has no start date; give one "
		        "in its costs, \"start\": \"2026-12-01\".",
		        t->plan.name);
	if (!schedule->slot_count)
		return error_set(err, STATUS_PLAN,
		        "There is no work to put into a calendar; look at the minutes a unit of "
		        "the tasks.");
	c.to = open_memstream(&text, &size);
	if (!c.to)
		return error_memory(err);
	put_calendar(&c);
	failed = ferror(c.to);
	failed = fclose(c.to) != 0 || failed;
	if (!failed)
		write_lines(to, text);
	free(text);
	return failed ? error_memory(err) : STATUS_OK;
}
