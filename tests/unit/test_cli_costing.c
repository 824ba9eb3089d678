/* The commands price, quotation and days, from an imported plan; CSV and iCalendar read by readers
 * of this test's own. */
#include "json_read.h"
#include "program.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct output o;

/* 4 x 3 m with a haunched kerb along 4 m, ground 50 mm under the surface. */
static void import_job(const char *job, const char *costs)
{
	char text[2400];

	snprintf(text, sizeof text,
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"%s\"},\"variants\":[{\"name\":\"A\",\"uuid\":"
	        "\"11111111-2222-4333-8444-555555555555\",\"outline\":{\"nodes\":[{\"x\":0,\"y\":0,"
	        "\"kind\":\"kerb\"},{\"x\":4000,\"y\":0},{\"x\":4000,\"y\":3000},{\"x\":0,\"y\":"
	        "3000}]},\"laying\":{\"slab\":{\"name\":\"=flag, \\\"grey\\\"\",\"length\":600,"
	        "\"width\":300,\"thickness\":50,\"joint\":3,\"size\":\"coordinating\",\"price\":2}}"
	        ","
	        "\"surface\":{\"planes\":[{\"x\":0,\"y\":0,\"level\":0,\"toward\":90,\"fall\":10}]}"
	        ",\"edging\":[{\"kind\":\"kerb\",\"name\":\"kerb\",\"unit\":1000,\"joint\":0,"
	        "\"depth\":50,\"height\":150,\"haunch\":100,\"held\":75,\"strip\":100}],"
	        "\"site\":{\"ground\":[{\"x\":0,\"y\":0,\"level\":-50}]},\"costs\":{%s}}]}",
	        job, costs);
	program_write("plan.json", text);
	RUN(&o, "import", program_path("plan.json"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	program_done(&o);
}

#define COSTS                                                                                      \
	"\"labour\":{\"wage\":38},\"margin\":0.15,\"tax\":0.21,\"start\":\"2026-12-03\",\"hire\":" \
	"[{\"name\":\"wacker plate\",\"task\":\"sub-base\",\"price\":45}],\"extras\":[{\"name\":"  \
	"\"skip, large\",\"unit\":\"pieces\",\"price\":210}]"

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	program_done(&o);
	program_folder_remove();
}

static void run_as(const char *command, const char *form)
{
	if (strcmp(command, "price") == 0)
		RUN(&o, command, "Ann/Yard/A", "--as", form);
	else
		RUN(&o, command, "Ann/Yard/A", "--as", form, "--date", "2026-11-25");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_str_eq(o.err, "");
}

/* --- a reader of CSV (RFC 4180): fields of rows, in place --- */

enum { ROWS = 200, FIELDS = 12 };

struct csv {
	char *field[ROWS][FIELDS];
	int fields[ROWS], rows;
};

static char *read_field(char *c, char **field)
{
	char *to;

	if (*c != '"') {
		*field = c;
		while (*c != ',' && *c != '\r')
			ck_assert(*c++ != '\0');
		return c;
	}
	*field = to = ++c;
	for (;; c++) {
		ck_assert(*c != '\0');
		if (*c == '"' && *++c != '"')
			break;
		*to++ = *c;
	}
	*to = '\0';
	return c;
}

static struct csv read_csv(char *text)
{
	struct csv csv = { .rows = 0 };

	for (char *c = text; *c; csv.rows++) {
		for (int last = 0; !last;) {
			char end;

			ck_assert_int_lt(csv.fields[csv.rows], FIELDS);
			c = read_field(c, &csv.field[csv.rows][csv.fields[csv.rows]++]);
			end = *c;
			*c++ = '\0';
			last = end == '\r';
			ck_assert(last ? *c == '\n' : end == ',');
			c += last;
		}
		ck_assert_int_eq(csv.fields[csv.rows], csv.fields[0]);
	}
	return csv;
}

/* Money as its digits; fails for what is not whole.cents. */
static long cents(const char *money)
{
	const char *point = strchr(money, '.');

	ck_assert_msg(point && strlen(point) == 3, "\"%s\" is no money", money);
	return atol(money) * 100 + (*money == '-' ? -1 : 1) * atol(point + 1);
}

static long step(const struct csv *csv, const char *name)
{
	for (int i = 0; i < csv->rows; i++)
		if (strcmp(csv->field[i][0], "price") == 0 && strcmp(csv->field[i][1], name) == 0)
			return cents(csv->field[i][5]);
	ck_abort_msg("no row \"%s\"", name);
	return 0;
}

START_TEST(the_cost_sheet_as_csv_adds_up_to_the_cent)
{
	struct csv csv;
	long sum = 0;
	int unknown = 0;

	import_job("Yard", COSTS);
	run_as("price", "csv");
	csv = read_csv(o.out);
	for (int i = 1; i < csv.rows && strcmp(csv.field[i][0], "price") != 0; i++) {
		char *amount = csv.field[i][5];

		unknown += !*amount;
		ck_assert_int_eq(*amount == '\0', *csv.field[i][9] != '\0');
		if (!*amount)
			continue;
		sum += cents(amount);
		/* quantity x price is the amount, to the half cent */
		ck_assert_double_eq_tol(atof(csv.field[i][2]) * (double)cents(csv.field[i][4]),
		        (double)cents(amount), 0.5000001);
	}
	ck_assert_int_gt(unknown, 0);
	ck_assert_int_eq(step(&csv, "costs"), sum);
	ck_assert_int_eq(step(&csv, "before tax"), sum + step(&csv, "margin on costs") +
	                                                   step(&csv, "discount") +
	                                                   step(&csv, "rounding to whole money"));
	ck_assert_int_eq(step(&csv, "before tax") % 100, 0);
	ck_assert_int_eq(step(&csv, "total"), step(&csv, "before tax") + step(&csv, "tax"));
	program_done(&o);
}
END_TEST

/* 12 m2 of laying at 40 min, one crew's wage of 38.00 an hour: 8 h, 304.00. Clearing 4 h, 152.00.
 */
START_TEST(the_cost_sheet_tells_each_line)
{
	import_job("Yard", COSTS);
	run_as("price", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "  laying: 8 h x 38.00 = 304.00\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "    12.000 m2 x 40 min (field: 12.000 m2)\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "  clearing up: 4 h x 38.00 = 152.00\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "  wacker plate: 1 day x 45.00 = 45.00\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "  skip, large: 1 pieces x 210.00 = 210.00\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "lines whose price is not known\n"));
	ck_assert_ptr_nonnull(
	        strstr(o.out, "materials, crushed stone 0-40: its price is not known"));
	program_done(&o);
	run_as("price", "json");
	ck_assert(json_is_valid(o.out));
	ck_assert_double_eq(json_number(o.out, "$.groups_minor.extras"), 21000);
	ck_assert_double_eq(json_number(o.out, "$.total_minor"),
	        json_number(o.out, "$.before_tax_minor") + json_number(o.out, "$.tax_minor"));
	program_done(&o);
}
END_TEST

START_TEST(a_quotation_is_whole_money_until_a_day_and_tells_no_rates)
{
	long before, tax, total;
	struct csv csv;
	char *until;

	import_job("Yard", COSTS ",\"valid_days\":10");
	run_as("quotation", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "  for: Ann\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "  date: 2026-11-25\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "  holds until: 2026-12-05\n"));
	ck_assert_ptr_nonnull(strstr(o.out, "12.00 m2 of slabs"));
	ck_assert_ptr_nonnull(strstr(o.out, "kerb: 4.00 m of kerb"));
	ck_assert_ptr_nonnull(strstr(o.out, "Not in the price yet"));
	ck_assert_ptr_null(strstr(o.out, "38.00"));
	ck_assert_ptr_null(strstr(o.out, "45.00"));
	ck_assert_ptr_null(strstr(o.out, "margin"));
	program_done(&o);
	run_as("quotation", "json");
	before = (long)json_number(o.out, "$.before_tax_minor");
	tax = (long)json_number(o.out, "$.tax_minor");
	total = (long)json_number(o.out, "$.total_minor");
	ck_assert_int_eq(before % 100, 0);
	ck_assert_int_eq(before + tax, total);
	ck_assert_int_eq(tax, before / 100 * 21);
	until = json_string(o.out, "$.valid_until");
	ck_assert_str_eq(until, "2026-12-05");
	free(until);
	program_done(&o);
	run_as("quotation", "csv");
	csv = read_csv(o.out);
	ck_assert_str_eq(csv.field[csv.rows - 1][1], "total");
	ck_assert_int_eq(cents(csv.field[csv.rows - 1][2]), total);
	program_done(&o);
}
END_TEST

START_TEST(the_day_plan_in_three_forms)
{
	struct csv csv;
	double hours = 0, total;

	import_job("Yard", COSTS);
	run_as("days", "json");
	total = json_number(o.out, "$.person_hours");
	program_done(&o);
	run_as("days", "csv");
	csv = read_csv(o.out);
	ck_assert_str_eq(csv.field[1][2], "2026-12-03 08:00");
	for (int i = 1; i < csv.rows; i++)
		hours += atof(csv.field[i][5]);
	ck_assert_double_eq_tol(hours, total, 1e-6);
	program_done(&o);
	run_as("days", "text");
	ck_assert_ptr_nonnull(strstr(o.out, "\nThursday 2026-12-03, "));
	ck_assert_ptr_nonnull(strstr(o.out, "waiting: the haunch of the edging hardens"));
	ck_assert_ptr_nonnull(strstr(o.out, "\nHardening\n"));
	program_done(&o);
}
END_TEST

/* --- a reader of iCalendar (RFC 5545) --- */

/* Takes the folds out (3.1), in place; no line may be over 75 octets, and none may end otherwise
 * than in CR and LF. */
static void unfold(char *text)
{
	char *to = text;
	int octets = 0;

	for (const char *c = text; *c; c++) {
		ck_assert_msg(*c != '\n', "a line ends without CR");
		if (*c != '\r') {
			ck_assert_int_le(++octets, 75);
			*to++ = *c;
			continue;
		}
		ck_assert(*++c == '\n');
		octets = 0;
		if (c[1] == ' ') {
			c++;
			octets = 1;
		} else {
			*to++ = '\n';
		}
	}
	*to = '\0';
}

/* The value of a property of the event that begins at `event`; fails where it is not there once. */
static const char *value(const char *event, const char *name)
{
	static char found[8][600];
	static int at;
	const char *end = strstr(event, "\nEND:VEVENT"), *line = event, *hit = NULL;
	size_t n = strlen(name);

	ck_assert_ptr_nonnull(end);
	while ((line = strchr(line, '\n')) && line < end) {
		line++;
		if (strncmp(line, name, n) == 0 && line[n] == ':') {
			ck_assert_msg(!hit, "%s is there twice", name);
			hit = line + n + 1;
		}
	}
	ck_assert_msg(hit, "an event has no %s", name);
	at = (at + 1) % 8;
	snprintf(found[at], sizeof found[at], "%.*s", (int)strcspn(hit, "\n"), hit);
	return found[at];
}

static bool is_time(const char *text)
{
	static const char shape[] = "ddddddddTdddddd";

	if (strlen(text) != sizeof shape - 1)
		return false;
	for (size_t i = 0; text[i]; i++)
		if (shape[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != shape[i])
			return false;
	return true;
}

START_TEST(the_calendar_is_read_back)
{
	static const char tail[] = "END:VEVENT\nEND:VCALENDAR\n";
	char seen[60][100], path[300];
	int events = 0;
	bool waits = false;

	/* a long name, with what must be escaped, and letters of several bytes all along */
	import_job(
	        "Gro\xC3\xB6\xC3\x9F"
	        "er; Hof, \xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6\xC3\xBC"
	        "\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4"
	        "\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6\xC3\xBC\xC3\xA4\xC3\xB6",
	        COSTS);
	RUN(&o, "list");
	o.out[strcspn(o.out, "\n")] = '\0';
	snprintf(path, sizeof path, "%s", o.out);
	program_done(&o);
	RUN(&o, "days", path, "--as", "ics", "--date", "2026-11-25");
	ck_assert_msg(o.status == 0, "%s", o.err);
	unfold(o.out);
	ck_assert(strncmp(o.out, "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:", 35) == 0);
	ck_assert_str_eq(o.out + strlen(o.out) - strlen(tail), tail);
	for (const char *e = strstr(o.out, "BEGIN:VEVENT"); e;
	        e = strstr(e + 1, "BEGIN:VEVENT"), events++) {
		const char *start = value(e, "DTSTART"), *end = value(e, "DTEND");
		const char *summary = value(e, "SUMMARY");

		ck_assert_str_eq(value(e, "DTSTAMP"), "20261125T000000Z");
		ck_assert_msg(is_time(start) && is_time(end), "%s, %s", start, end);
		ck_assert_int_lt(strcmp(start, end), 0);
		ck_assert_ptr_nonnull(strstr(summary, "er\\; Hof\\, \xC3\xA4"));
		ck_assert_int_lt(events, 60);
		snprintf(seen[events], sizeof *seen, "%s", value(e, "UID"));
		ck_assert(strncmp(seen[events], "11111111-2222-4333-8444-555555555555-", 37) == 0);
		for (int i = 0; i < events; i++)
			ck_assert_str_ne(seen[i], seen[events]);
		waits = waits || strstr(summary, "haunch of the edging hardens");
		if (!events)
			ck_assert_str_eq(start, "20261203T080000");
	}
	ck_assert_int_gt(events, 5);
	ck_assert(waits);
	program_done(&o);
}
END_TEST

START_TEST(a_calendar_without_a_start_date_is_refused)
{
	import_job("Yard", "\"tax\":0.21");
	RUN(&o, "days", "Ann/Yard/A", "--as", "ics");
	assert_refused(&o, 1, "has no start date; give one in its costs");
	RUN(&o, "price", "Ann/Yard/A", "--as", "ics");
	assert_refused(&o, 2, "figures come as text, csv or json");
	RUN(&o, "days", "Ann/Yard/A", "--as", "pdf");
	assert_refused(&o, 2, "days also as ics");
	RUN(&o, "quotation", "Ann/Yard/A", "--date", "2026-02-30");
	assert_refused(&o, 2, "\"2026-02-30\" is no date");
	RUN(&o, "price", "Ann/Yard/A", "--date", "2026-02-28");
	assert_refused(&o, 2, "--date goes with the commands sheet, quotation and days");
}
END_TEST

START_TEST(a_start_date_that_is_none_does_not_get_in)
{
	program_write("bad.json",
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"Yard\"},\"variants\":[{\"name\":\"A\",\"costs\":{\"start\":"
	        "\"2026-02-30\"}}]}");
	RUN(&o, "import", program_path("bad.json"));
	assert_refused(&o, 1, "costs.start: not a day of the calendar");
}
END_TEST

START_TEST(a_variant_without_an_outline_has_neither_price_nor_days)
{
	program_write("bare.json",
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Ann\"},"
	        "\"job\":{\"title\":\"Yard\"},\"variants\":[{\"name\":\"A\"}]}");
	RUN(&o, "import", program_path("bare.json"));
	program_done(&o);
	RUN(&o, "price", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: ");
	RUN(&o, "quotation", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: ");
	RUN(&o, "days", "Ann/Yard/A");
	assert_refused(&o, 1, "Ann/Yard/A: ");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("cli costing");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_cost_sheet_as_csv_adds_up_to_the_cent);
	tcase_add_test(tc, the_cost_sheet_tells_each_line);
	tcase_add_test(tc, a_quotation_is_whole_money_until_a_day_and_tells_no_rates);
	tcase_add_test(tc, the_day_plan_in_three_forms);
	tcase_add_test(tc, the_calendar_is_read_back);
	tcase_add_test(tc, a_calendar_without_a_start_date_is_refused);
	tcase_add_test(tc, a_start_date_that_is_none_does_not_get_in);
	tcase_add_test(tc, a_variant_without_an_outline_has_neither_price_nor_days);
	return suite_run("cli costing", tc);
}
