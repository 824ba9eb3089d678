/* sheet.h - a take-off as something to read: text for people, CSV (RFC 4180) and JSON for programs.
 */
#ifndef SLABWRIGHT_SHEET_H
#define SLABWRIGHT_SHEET_H

#include "slabwright/asbuilt.h"
#include "slabwright/levelling.h"
#include "slabwright/price.h"
#include "slabwright/schedule.h"
#include "slabwright/setout.h"
#include "slabwright/startline.h"

#include <stdio.h>

enum sheet_form { SHEET_TEXT, SHEET_CSV, SHEET_JSON };

/* Each writes to `to`; a failed write shows in ferror(to). STATUS_PLAN with the take-off's fault
 * when it is not ready: nothing is written then. Pieces, nodes and edges are numbered from 1 over
 * the whole plan, as on the screen. */
enum status sheet_takeoff(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_cuts(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
/* The laying sheet: course by course, with every piece to cut. */
enum status sheet_courses(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_water(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_levels(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

/* Ground and dig; STATUS_PLAN also where they could not be worked out. */
enum status sheet_dig(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
/* How the edging stands: sections, beds, string lines; and flights of steps. */
enum status sheet_edging(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_steps(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
/* Planters, block by block. They need neither outline nor laying: a take-off that is not ready has
 * them too. */
enum status sheet_planters(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

/* All that is bought and carted away, supplier by supplier; every line with its formula. */
enum status sheet_order(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

/* The ranking of start lines for the take-off's variant. */
enum status sheet_startlines(FILE *to, const struct takeoff *t, const struct start_list *list,
        enum sheet_form form, struct error *err);

/* Setting out, the levelling book and what was built, of a plan. */
enum status sheet_setout(FILE *to, const struct plan *plan, const struct setout *s,
        enum sheet_form form, struct error *err);
enum status sheet_book(FILE *to, const struct plan *plan, const struct book_result *book,
        enum sheet_form form, struct error *err);
enum status sheet_asbuilt(FILE *to, const struct plan *plan, const struct asbuilt *a,
        enum sheet_form form, struct error *err);

/* The cost sheet, for the crew: every line, and the way from costs to the price. */
enum status sheet_price(FILE *to, const struct takeoff *t, const struct price *price,
        enum sheet_form form, struct error *err);

/* What a quotation or a calendar is headed with. */
struct letter_head {
	const char *client, *job;
	const char *date; /* year-month-day, of the letter; must be one that date_valid takes */
	const char *id; /* of a calendar: what no other variant has, a UUID */
};

/* The quotation, for the client: what is built, what is in the price and what is not, the price and
 * until when it holds. No costs, no rates. */
enum status sheet_quotation(FILE *to, const struct takeoff *t, const struct price *price,
        const struct letter_head *head, enum sheet_form form, struct error *err);

/* The day plan; and as iCalendar (RFC 5545): an event for each stretch of work and for what
 * hardens, in local time. STATUS_PLAN for a calendar of a schedule without dates, or without work.
 */
enum status sheet_days(FILE *to, const struct takeoff *t, const struct schedule *schedule,
        enum sheet_form form, struct error *err);
enum status sheet_calendar(FILE *to, const struct takeoff *t, const struct schedule *schedule,
        const struct letter_head *head, struct error *err);

/* How sure a ranking is, in a sentence or two: proven, sampled how finely, still going on. Returns
 * buf; 200 bytes are enough. */
char *start_words(char *buf, size_t size, const struct start_list *list);

/* What can hurt someone in this plan, from its own figures. say is called once a caution, with a
 * sentence that is good until say returns. */
typedef void caution_fn(void *context, const char *text);
void sheet_cautions(const struct takeoff *t, caution_fn *say, void *context);

/* What ordering by the rule of thumb would come to, beside the slabs needed, the breakage allowance
 * and the order: "3 slabs short of those needed", "1 slab too many". Returns buf; 120 bytes are
 * enough. */
char *thumb_print(char *buf, size_t size, const struct order *order);

/* Writes text that came from people: control characters, what turns the writing direction, and
 * bytes that are not UTF-8 come out as U+FFFD. */
void sheet_put_text(FILE *to, const char *text);

/* Money in minor units as whole.cents, without a currency sign. Returns buf. */
char *money_print(char *buf, size_t size, int64_t minor);

#endif
