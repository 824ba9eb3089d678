/* act_book.c - the levelling book, and levels of the ground. */
#include "actions.h"
#include "site_list.h"

#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* --- the levelling book --- */

#define READING(member) .offset = offsetof(struct plan_reading, member)
static const struct form_value book_columns[] = {
	{ .name = "point",
	        .hint = "What the staff stands on: benchmark, path, a, b ...",
	        .value = VALUE_TEXT,
	        READING(name) },
	{ .name = "back",
	        .hint = "Backsight, metres: the first reading after the instrument was set up "
	                "anew. Empty: it was not.",
	        .value = VALUE_SIGHT,
	        READING(backsight_um) },
	{ .name = "inter",
	        .hint = "Intermediate sight, metres: 1,52. Empty: this point has a foresight.",
	        .value = VALUE_SIGHT,
	        READING(intermediate_um) },
	{ .name = "fore",
	        .hint = "Foresight, metres: the last reading before the instrument moves.",
	        .value = VALUE_SIGHT,
	        READING(foresight_um) },
	{ .name = "across ; up",
	        .hint = "Metres, where the point lies: its level is one of the ground then. Empty: "
	                "not in the plan.",
	        .value = VALUE_PLACE,
	        .optional = true,
	        READING(x_um) },
};

static void book_open(void *item)
{
	struct plan_reading *r = item;

	if (!r->has_place)
		r->x_um = r->y_um = NO_READING;
}

static void book_settle(void *item)
{
	struct plan_reading *r = item;

	r->has_place = r->x_um != NO_READING;
	if (!r->has_place)
		r->x_um = r->y_um = 0;
}

static const struct site_list book_list = {
	"book line",
	offsetof(struct plan_site, book.readings),
	offsetof(struct plan_site, book.count),
	sizeof(struct plan_reading),
	book_open,
	book_settle,
};

/* What a new line's point is called: the benchmark, then as the crew counts on from the line
 * before: "b" after "a", "peg 4" after "peg 3". */
static const char *next_name(struct app *app)
{
	const struct plan_book *book = &app->plan.site.book;
	const char *last = book->count ? book->readings[book->count - 1].name : "";
	size_t n = strlen(last), digits = 0;
	const char *name;

	if (!book->count)
		return "benchmark";
	while (digits < n && digits < 6 && last[n - digits - 1] >= '0' &&
	        last[n - digits - 1] <= '9')
		digits++;
	if (digits)
		name = arena_print(&app->frame_mem, "%.*s%d", (int)(n - digits), last,
		        atoi(last + n - digits) + 1);
	else if (n == 1 && strchr("abcdefghijklmnopqrstuvwxyABCDEFGHIJKLMNOPQRSTUVWXY", *last))
		name = arena_print(&app->frame_mem, "%c", *last + 1);
	else
		name = book->count == 1 ? "1" : "";
	return name ? name : "";
}

static void book_fresh(struct app *app, void *thing)
{
	struct plan_reading r = { .name = next_name(app),
		.backsight_um = NO_READING,
		.intermediate_um = NO_READING,
		.foresight_um = NO_READING,
		.x_um = NO_READING,
		.y_um = NO_READING };

	memcpy(thing, &r, sizeof r);
}

/* As a line is booked: the first point has a backsight, others an intermediate sight and perhaps a
 * place, or else a foresight and, where the instrument moves on from there, a backsight. */
static size_t book_next(const struct app *app, size_t row, size_t column)
{
	enum { POINT, BACK, INTER, FORE, PLACE, LINE_DONE };
	struct plan_reading r = { .intermediate_um = NO_READING };

	if (row < site_rows(app))
		site_get(app, row, &r);
	switch (column) {
	case POINT:
		return row == 0 ? BACK : INTER;
	case INTER:
		return r.intermediate_um == NO_READING ? FORE : PLACE;
	case FORE:
		return BACK;
	default:
		return LINE_DONE;
	}
}

static void book_note(const struct app *app, size_t row, int note, char *buf, size_t size)
{
	const struct book_result *b = &app->t.site.book;

	buf[0] = '\0';
	if (!app->t.site.has_book || row >= b->count)
		return;
	if (note == 0 && b->lines[row].has_height)
		snprintf(buf, size, "%.3f", (double)b->lines[row].height_um / 1e6);
	if (note == 1)
		snprintf(buf, size, "%.3f", (double)b->lines[row].level_um / 1e6);
}

static void book_foot(const struct app *app, char *buf, size_t size)
{
	const struct book_result *b = &app->t.site.book;

	if (!app->t.site.has_book)
		crew_words(buf, size, app->t.site.book_fault.text);
	else if (!b->has_close)
		snprintf(buf, size,
		        "Backsights %.3f less foresights %.3f is %.3f: the rise from first to last "
		        "point. No known level to close on.",
		        (double)b->backsights_um / 1e6, (double)b->foresights_um / 1e6,
		        (double)(b->backsights_um - b->foresights_um) / 1e6);
	else
		snprintf(buf, size, "Misclosure %+.1f mm over %zu set-up%s; %.1f mm is allowed%s",
		        (double)b->misclosure_um / 1000, b->set_up_count,
		        b->set_up_count == 1 ? "" : "s", b->allowed_um / 1000,
		        !b->within  ? ". It is too much: level the run again."
		        : b->spread ? "; it is spread over them."
		                    : ".");
}

static const struct table book_table = {
	.title = "Levelling book, in metres",
	.item = "line",
	.empty = "Type a line for each time the staff was read. The first line is the benchmark, "
	         "with a backsight. A point where the instrument was moved has a foresight and, in "
	         "the same line, the next backsight. The last line has a foresight.",
	.columns = book_columns,
	.count = sizeof book_columns / sizeof book_columns[0],
	.size = sizeof(struct plan_reading),
	.list = &book_list,
	.rows = site_rows,
	.get = site_get,
	.fresh = book_fresh,
	.put = site_put,
	.drop = site_drop,
	.next = book_next,
	.notes = { "height", "level" },
	.note = book_note,
	.foot = book_foot,
};

static void type_book(struct app *app)
{
	table_open(app, &book_table);
}

/* --- what the book starts and ends with --- */

static const char *const no_yes[] = { "no", "yes" };

static bool closes(const void *thing)
{
	return ((const struct plan_book *)thing)->has_close;
}

#define BOOK(member) .offset = offsetof(struct plan_book, member)
static const struct form_value book_values[] = {
	{ .name = "Readings",
	        .hint = "a line for each sight",
	        .value = VALUE_DO,
	        .run = type_book },
	{ .name = "Level of the first point",
	        .hint = "Metres over the datum: the benchmark's.",
	        .value = VALUE_M,
	        BOOK(start_um) },
	{ .name = "The last point's level is known",
	        .value = VALUE_SWITCH,
	        BOOK(has_close),
	        .words = no_yes,
	        .word_count = 2 },
	{ .name = "Level of the last point",
	        .hint = "Metres over the datum, to close on.",
	        .value = VALUE_M,
	        BOOK(close_um),
	        .has = closes },
	{ .name = "Misclosure allowed",
	        .hint = "Millimetres, times the root of the set-ups; 5 is common practice.",
	        .value = VALUE_MM,
	        BOOK(allow_um),
	        .has = closes },
	{ .name = "Spread it over the set-ups",
	        .value = VALUE_SWITCH,
	        BOOK(adjust),
	        .words = no_yes,
	        .word_count = 2,
	        .has = closes },
};

static bool book_form_get(struct app *app, void *thing, char title[120])
{
	memcpy(thing, &app->plan.site.book, sizeof app->plan.site.book);
	snprintf(title, 120, "Levelling book, %zu line%s", app->plan.site.book.count,
	        app->plan.site.book.count == 1 ? "" : "s");
	return true;
}

static bool book_form_put(struct app *app, const void *thing, const char *what)
{
	struct plan_site site = app->plan.site;
	char label[80];

	memcpy(&site.book, thing, sizeof site.book);
	snprintf(label, sizeof label, "levelling book: %s", what);
	return edit_site(app, label, &site);
}

static const struct form book_form = { book_values, sizeof book_values / sizeof book_values[0],
	sizeof(struct plan_book), book_form_get, book_form_put };

void act_book(struct app *app, int key)
{
	(void)key;
	form_open(app, &book_form);
}

/* --- levels of the ground --- */

#define SPOT(member) .offset = offsetof(struct plan_spot, member)
static const struct form_value spot_columns[] = {
	{ .name = "point", .hint = "A name, or empty.", .value = VALUE_TEXT, SPOT(name) },
	{ .name = "across ; up",
	        .hint = "Metres. The cursor's place is offered.",
	        .value = VALUE_PLACE,
	        SPOT(x_um) },
	{ .name = "level m",
	        .hint = "Metres over the datum, of the ground as it was found.",
	        .value = VALUE_M,
	        SPOT(level_um) },
};

static const struct site_list spot_list = {
	"ground level",
	offsetof(struct plan_site, spots),
	offsetof(struct plan_site, spot_count),
	sizeof(struct plan_spot),
	NULL,
	NULL,
};

static void spot_fresh(struct app *app, void *thing)
{
	struct plan_spot s = { .name = "", .x_um = app->view.x_um, .y_um = app->view.y_um };

	memcpy(thing, &s, sizeof s);
}

static const struct table spot_table = {
	.title = "Levels of the ground, as it was found",
	.item = "point",
	.empty = "Type a place and the ground's level there. Lines of the levelling book that lie "
	         "in the plan count too.",
	.columns = spot_columns,
	.count = sizeof spot_columns / sizeof spot_columns[0],
	.size = sizeof(struct plan_spot),
	.list = &spot_list,
	.rows = site_rows,
	.get = site_get,
	.fresh = spot_fresh,
	.put = site_put,
	.drop = site_drop,
	.next = table_next_column,
};

void act_spots(struct app *app, int key)
{
	(void)key;
	table_open(app, &spot_table);
}

static bool spot_here_done(struct app *app, const char *text)
{
	struct plan_spot s;

	spot_fresh(app, &s);
	return typed_length(app, text, UNIT_M, &s.level_um) && site_add(app, &spot_list, &s);
}

void act_spot_here(struct app *app, int key)
{
	(void)key;
	prompt_open(app, "Level of the ground at the cursor", "Metres over the datum: -0,12.", "",
	        spot_here_done);
}

/* --- what is dug --- */

#define EARTH(member) .offset = offsetof(struct plan_earth, member)
static const struct form_value earth_values[] = {
	{ .name = "Dig beyond the outline",
	        .hint = "Millimetres of room to work, 0 to 10000, where no wall or paving stands.",
	        .value = VALUE_MM,
	        EARTH(over_dig_um) },
	{ .name = "Topsoil",
	        .hint = "Millimetres, 0 to 2000, stripped first and kept apart; 0 none.",
	        .value = VALUE_MM,
	        EARTH(topsoil_um) },
	{ .name = "Bulking",
	        .hint = "Percent by which what is dug grows, 0 to 200: sand 10, clay 30 (common "
	                "practice).",
	        .value = VALUE_PERCENT,
	        EARTH(bulking_ppm) },
	{ .name = "Compaction",
	        .hint = "Percent by which loose fill shrinks when compacted, 0 to 90.",
	        .value = VALUE_PERCENT,
	        EARTH(compaction_ppm) },
};

static bool earth_get(struct app *app, void *thing, char title[120])
{
	memcpy(thing, &app->plan.site.earth, sizeof app->plan.site.earth);
	snprintf(title, 120, "What is dug");
	return true;
}

static bool earth_put(struct app *app, const void *thing, const char *what)
{
	struct plan_site site = app->plan.site;
	char label[80];

	memcpy(&site.earth, thing, sizeof site.earth);
	snprintf(label, sizeof label, "digging: %s", what);
	return edit_site(app, label, &site);
}

static const struct form earth_form = { earth_values, sizeof earth_values / sizeof earth_values[0],
	sizeof(struct plan_earth), earth_get, earth_put };

void act_earth(struct app *app, int key)
{
	(void)key;
	form_open(app, &earth_form);
}
