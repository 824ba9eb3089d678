/* Sheets for people and spreadsheets: what they say, and that hostile text stays text. */
#include "slabwright/sheet.h"

#include "sheets.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

#define M UM_PER_M

static struct worked w;

static void make_patio(void)
{
	worked_patio(&w);
}

static void done(void)
{
	worked_done(&w);
}

static char *written(sheet_writer *sheet, enum sheet_form form)
{
	return sheet_written(&w, sheet, form);
}

static char *unfolded(sheet_writer *sheet)
{
	return sheet_unfolded(&w, sheet);
}

START_TEST(the_text_says_figures_proof_and_cautions)
{
	static const char *const said[] = { "area to pave: ", "whole slabs: ", "cut pieces: ",
		"slabs to order: ", "rule of thumb (area over slab, plus 5 %): ",
		"price of the slabs: ", "kerb: 4.000 m on 1 edge; kerb of 915 mm: 5 to buy",
		"water runs up on the plan (90 degrees from the right",
		"proof: ", "buried services", "cut wet", "Local codes", "slab weighs 20.",
		"Rule set: none" };
	char *text;

	make_patio();
	text = unfolded(sheet_takeoff);
	for (size_t i = 0; i < sizeof said / sizeof *said; i++)
		ck_assert_msg(
		        strstr(text, said[i]) != NULL, "\"%s\" is not said in\n%s", said[i], text);
	free(text);
	done();
}
END_TEST

/* The fall leads straight up the plan, so the gully's lower side of 0.45 m takes the 2 m before it.
 */
START_TEST(an_edge_of_an_opening_is_called_by_its_own_number)
{
	char *text;

	make_patio();
	text = unfolded(sheet_water);
	ck_assert_msg(
	        strstr(text, "edge 1 of opening 1 (open) takes 0.900 m2") != NULL, "%s", text);
	free(text);
	done();
}
END_TEST

START_TEST(no_line_of_a_text_runs_off_the_screen)
{
	make_patio();
	w.plan.name = "caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 "
	              "caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 "
	              "caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 caf\xC3\xA9 "
	              "caf\xC3\xA9 caf\xC3\xA9";
	work_out_plan(&w);
	for (int i = 0; i < SHEETS; i++) {
		char *text = written(sheets[i], SHEET_TEXT), *joined = unfolded(sheets[i]);
		int characters = 0, longest = 0;

		for (const char *c = text; *c; c++) {
			characters = *c == '\n' ? 0 : characters + ((*c & 0xC0) != 0x80);
			longest = characters > longest ? characters : longest;
		}
		ck_assert_int_le(longest, 80);
		ck_assert_int_gt(longest, 70);
		ck_assert_ptr_nonnull(strstr(joined, w.plan.name));
		free(joined);
		free(text);
	}
	done();
}
END_TEST

START_TEST(a_word_longer_than_a_line_stays_whole)
{
	char name[160] = "", *text, *end;

	memset(name, 'x', 120);
	strcpy(name + 120, " and a word");
	make_patio();
	w.plan.name = name;
	work_out_plan(&w);
	text = written(sheet_takeoff, SHEET_TEXT);
	end = strstr(text, "xxx");
	ck_assert_ptr_nonnull(end);
	ck_assert_uint_eq(strspn(end, "x"), 120);
	ck_assert_int_eq(strncmp(end + 120, "\n    and a word\"\n", 17), 0);
	free(text);
	done();
}
END_TEST

START_TEST(the_cut_sheet_places_every_piece_on_its_slab)
{
	char *text;
	int pieces = 0;

	make_patio();
	text = unfolded(sheet_cuts);
	for (char *at = strstr(text, "cut from x "); at; at = strstr(at + 1, "cut from x ")) {
		int x0, x1, y0, y1;

		ck_assert_int_eq(sscanf(at, "cut from x %d to %d, y %d to %d of the slab", &x0, &x1,
		                         &y0, &y1),
		        4);
		ck_assert(x0 >= 0 && x0 < x1 && x1 <= 597);
		ck_assert(y0 >= 0 && y0 < y1 && y1 <= 297);
		pieces++;
	}
	ck_assert_int_eq(pieces, (int)w.t.laid.cut);
	free(text);
	done();
}
END_TEST

START_TEST(the_lifting_caution_follows_the_limit)
{
	struct rule lift = { "lift_one_person", 25000, "kg", "a test's own limit" };
	char *text;

	make_patio();
	w.rules.items = &lift;
	w.rules.count = 1;
	work_out_plan(&w);
	text = unfolded(sheet_takeoff);
	ck_assert_ptr_null(strstr(text, "Lifting"));
	free(text);
	lift.number = 20000;
	text = unfolded(sheet_takeoff);
	ck_assert_ptr_nonnull(strstr(text, "over the 20 kg for one person (a test's own limit)"));
	free(text);
	done();
}
END_TEST

START_TEST(every_csv_is_well_formed)
{
	static const int widths[] = { 4, 17, 10, 6, 6 };
	int width;
	char *csv;

	make_patio();
	for (int i = 0; i < SHEETS; i++) {
		csv = written(sheets[i], SHEET_CSV);
		ck_assert_int_gt(csv_rows(csv, &width), 1);
		ck_assert_int_eq(width, widths[i]);
		free(csv);
	}
	csv = written(sheet_cuts, SHEET_CSV);
	ck_assert_int_eq(csv_rows(csv, &width), (int)w.t.laid.cut + 1);
	free(csv);
	done();
}
END_TEST

static const struct {
	const char *name, *cell;
} hostile[] = {
	{ "=1+1", "variant,name,\"'=1+1\"," },
	{ "+A1", "variant,name,\"'+A1\"," },
	{ "-A1", "variant,name,\"'-A1\"," },
	{ "@SUM(A1)", "variant,name,\"'@SUM(A1)\"," },
	{ "=\"x\",y", "variant,name,\"'=\"\"x\"\",y\"," },
	{ "\t=1", "variant,name,\"'\xEF\xBF\xBD=1\"," },
	{ "say \"hi\"", "variant,name,\"say \"\"hi\"\"\"," },
	{ "a,b", "variant,name,\"a,b\"," },
	{ "a\r\nb", "variant,name,\"a\xEF\xBF\xBD\xEF\xBF\xBD"
	            "b\"," },
	{ "plain = 1", "variant,name,plain = 1," },
	{ "caf\xC3\xA9", "variant,name,caf\xC3\xA9," },
};

START_TEST(a_name_is_no_formula_in_a_spreadsheet)
{
	char *csv;
	int width;

	worked_rectangle(&w, 3 * M, 2 * M);
	w.plan.name = hostile[_i].name;
	work_out_plan(&w);
	csv = written(sheet_takeoff, SHEET_CSV);
	ck_assert_msg(
	        strstr(csv, hostile[_i].cell) != NULL, "%s is not in\n%s", hostile[_i].cell, csv);
	ck_assert_int_gt(csv_rows(csv, &width), 1);
	free(csv);
	done();
}
END_TEST

START_TEST(a_long_hostile_name_keeps_its_quotes_and_characters)
{
	char name[200], *csv;
	int width;

	memset(name, 0, sizeof name);
	for (int i = 0; i < 180; i += 3)
		memcpy(name + i, i % 2 ? "\"\xC3\xA9" : ",\"=", 3);
	worked_rectangle(&w, 3 * M, 2 * M);
	w.plan.name = name;
	work_out_plan(&w);
	csv = written(sheet_takeoff, SHEET_CSV);
	ck_assert_int_gt(csv_rows(csv, &width), 1);
	ck_assert_ptr_null(strstr(csv, "\xEF\xBF\xBD"));
	free(csv);
	done();
}
END_TEST

START_TEST(control_characters_never_reach_the_terminal)
{
	static const char name[] = "A\x1b[31mred\x07\x7f\xC2\x9B"
	                           "2J\xE2\x80\xAE\xFF\xC3(";
	char *out;

	make_patio();
	w.plan.name = name;
	w.plan.laying.slab.name = name;
	w.plan.edging[EDGE_KERB].name = name;
	work_out_plan(&w);
	for (int i = 0; i < 4; i++)
		for (int form = SHEET_TEXT; form <= SHEET_CSV; form++) {
			out = written(sheets[i], (enum sheet_form)form);
			ck_assert_ptr_null(strchr(out, 0x1b));
			ck_assert_ptr_null(strchr(out, 0x07));
			ck_assert_ptr_null(strchr(out, 0x7f));
			ck_assert_ptr_null(strchr(out, '\xFF'));
			ck_assert_ptr_null(strstr(out, "\xC2\x9B"));
			ck_assert_ptr_null(strstr(out, "\xE2\x80\xAE"));
			free(out);
		}
	out = written(sheet_takeoff, SHEET_TEXT);
	ck_assert_ptr_nonnull(strstr(out, "[31mred"));
	free(out);
	out = written(sheet_takeoff, SHEET_JSON);
	ck_assert_ptr_null(strchr(out, 0x1b));
	ck_assert_ptr_nonnull(strstr(out, "\\u001b[31m"));
	free(out);
	done();
}
END_TEST

START_TEST(a_plan_that_is_not_ready_gives_its_fault_and_writes_nothing)
{
	struct error err = { 0 };

	worked_rectangle(&w, 3 * M, 2 * M);
	w.plan.rings[0].closed = false;
	ck_assert_int_eq(takeoff_plan(&w.mem, &w.plan, &w.rules, &w.t, NULL), STATUS_OK);
	ck_assert(!w.t.ready);
	for (int i = 0; i < 4; i++)
		for (int form = SHEET_TEXT; form <= SHEET_JSON; form++) {
			char *text = NULL;
			size_t size = 0;
			FILE *to = open_memstream(&text, &size);

			ck_assert_int_eq(
			        sheets[i](to, &w.t, (enum sheet_form)form, &err), STATUS_PLAN);
			fclose(to);
			ck_assert_uint_eq(size, 0);
			ck_assert_str_eq(err.text, w.t.fault.text);
			free(text);
		}
	done();
}
END_TEST

START_TEST(money_is_printed_from_its_minor_unit)
{
	char buf[40];

	ck_assert_str_eq(money_print(buf, sizeof buf, 0), "0.00");
	ck_assert_str_eq(money_print(buf, sizeof buf, 5), "0.05");
	ck_assert_str_eq(money_print(buf, sizeof buf, 123456), "1234.56");
	ck_assert_str_eq(money_print(buf, sizeof buf, -5), "-0.05");
	ck_assert_str_eq(money_print(buf, sizeof buf, INT64_MIN), "-92233720368547758.08");
}
END_TEST

/* needed, allowance, to order, rule of thumb */
static const struct {
	struct order order;
	const char *said;
} rules[] = {
	{ { .needed = 134, .allowance = 7, .slabs = 141, .rule_of_thumb = 133 },
	        "1 slab short of those needed" },
	{ { .needed = 134, .allowance = 3, .slabs = 137, .rule_of_thumb = 130 },
	        "4 slabs short of those needed" },
	{ { .needed = 134, .allowance = 7, .slabs = 141, .rule_of_thumb = 135 },
	        "leaves 1 for breakage in place of 7" },
	{ { .needed = 134, .allowance = 3, .slabs = 137, .rule_of_thumb = 134 },
	        "leaves 0 for breakage in place of 3" },
	{ { .needed = 134, .allowance = 3, .slabs = 140, .rule_of_thumb = 138 },
	        "2 short of whole packs" },
	{ { .needed = 134, .allowance = 3, .slabs = 137, .rule_of_thumb = 137 }, "just as many" },
	{ { .needed = 134, .allowance = 3, .slabs = 137, .rule_of_thumb = 138 },
	        "1 slab too many" },
	{ { .needed = 134, .allowance = 3, .slabs = 137, .rule_of_thumb = 150 },
	        "13 slabs too many" },
};

START_TEST(the_rule_of_thumb_is_short_only_of_what_is_needed)
{
	char words[120];

	ck_assert_ptr_nonnull(
	        strstr(thumb_print(words, sizeof words, &rules[_i].order), rules[_i].said));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("sheet text");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_text_says_figures_proof_and_cautions);
	tcase_add_test(tc, an_edge_of_an_opening_is_called_by_its_own_number);
	tcase_add_test(tc, no_line_of_a_text_runs_off_the_screen);
	tcase_add_test(tc, a_word_longer_than_a_line_stays_whole);
	tcase_add_test(tc, the_cut_sheet_places_every_piece_on_its_slab);
	tcase_add_test(tc, the_lifting_caution_follows_the_limit);
	tcase_add_test(tc, every_csv_is_well_formed);
	tcase_add_loop_test(tc, a_name_is_no_formula_in_a_spreadsheet, 0,
	        (int)(sizeof hostile / sizeof *hostile));
	tcase_add_test(tc, a_long_hostile_name_keeps_its_quotes_and_characters);
	tcase_add_test(tc, control_characters_never_reach_the_terminal);
	tcase_add_test(tc, a_plan_that_is_not_ready_gives_its_fault_and_writes_nothing);
	tcase_add_loop_test(tc, the_rule_of_thumb_is_short_only_of_what_is_needed, 0,
	        (int)(sizeof rules / sizeof *rules));
	tcase_add_test(tc, money_is_printed_from_its_minor_unit);
	return suite_run("sheet text", tc);
}
