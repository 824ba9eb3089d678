/* Sheets: what they hold, and that hostile text stays text. */
#include "slabwright/sheet.h"

#include "json_read.h"
#include "plans.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

typedef enum status sheet_writer(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
static sheet_writer *const sheets[] = { sheet_takeoff, sheet_cuts, sheet_water, sheet_levels };

static struct worked w;

/* A patio with something of everything: kinds, an arc, an opening, a fall, an instrument. */
static void make_patio(void)
{
	const struct plan_node outline[] = {
		{ 0, 0, 0, EDGE_HOUSE_WALL },
		{ 5 * M, 0, 0, EDGE_KERB },
		{ 5 * M, 4 * M, 300 * MM, EDGE_HAUNCH },
		{ 0, 4 * M, 0, EDGE_PLANTER },
	};
	const struct plan_node drain[] = {
		{ 2 * M, 2 * M, 0, EDGE_OPEN },
		{ 2450 * MM, 2 * M, 0, EDGE_OPEN },
		{ 2450 * MM, 2450 * MM, 0, EDGE_OPEN },
		{ 2 * M, 2450 * MM, 0, EDGE_OPEN },
	};

	worked_init(&w, outline, 4);
	worked_add_opening(&w, drain, 4);
	worked_set_fall(&w, 0, 90 * UDEG_PER_DEG, 15000);
	w.plan.laying.start_x_um = 123 * MM;
	w.plan.laying.slab.name = "Test flag";
	w.plan.laying.slab.density_kg_m3 = 2300;
	w.plan.laying.slab.price_minor = 1250;
	w.plan.ground.has_instrument = true;
	w.plan.ground.benchmark_um = 0;
	w.plan.ground.backsight_um = 1345 * MM;
	w.plan.edging[EDGE_KERB] = (struct plan_edging){ "kerb", 915 * MM, 3 * MM };
	work_out_plan(&w);
}

static void done(void)
{
	worked_done(&w);
}

/* What a sheet writes, to be freed. */
static char *written(sheet_writer *sheet, enum sheet_form form)
{
	char *text = NULL;
	size_t size;
	FILE *to = open_memstream(&text, &size);
	struct error err = { 0 };

	ck_assert_ptr_nonnull(to);
	ck_assert_msg(sheet(to, &w.t, form, &err) == STATUS_OK, "%s", err.text);
	fclose(to);
	ck_assert_uint_eq(strlen(text), size);
	return text;
}

static void assert_string(const char *json, const char *path, const char *want)
{
	char *is = json_string(json, path);

	ck_assert_msg(is && strcmp(is, want) == 0, "%s is %s", path, is ? is : "not there");
	free(is);
}

static void assert_number(const char *json, const char *path, double want)
{
	double is = json_number(json, path);

	ck_assert_msg(fabs(is - want) <= 1e-9 * fmax(1, fabs(want)), "%s is %.17g, not %.17g", path,
	        is, want);
}

START_TEST(the_takeoff_in_json_holds_every_promised_figure)
{
	char *json;

	make_patio();
	json = written(sheet_takeoff, SHEET_JSON);
	ck_assert(json_is_valid(json));
	assert_number(json, "$.area_m2", w.t.area_m2);
	assert_number(json, "$.perimeter_m", w.t.perimeter_m);
	assert_number(json, "$.laying.whole", (double)w.t.laid.whole);
	assert_number(json, "$.laying.cut", (double)w.t.laid.cut);
	assert_number(json, "$.laying.sliver", (double)w.t.laid.sliver);
	assert_number(json, "$.laying.made_up", (double)w.t.laid.made_up);
	assert_number(json, "$.laying.pieces_area_m2", w.t.laid.pieces_area_m2);
	assert_number(json, "$.cutplan.slabs", (double)w.t.cuts.slabs);
	assert_number(json, "$.cutplan.bound", (double)w.t.cuts.bound);
	assert_string(json, "$.cutplan.reason", w.t.cuts.reason);
	assert_number(json, "$.order.slabs", (double)w.t.order.slabs);
	assert_number(json, "$.order.allowance", (double)w.t.order.allowance);
	assert_number(json, "$.order.rule_of_thumb", (double)w.t.order.rule_of_thumb);
	assert_number(json, "$.order.price_minor", (double)(w.t.order.slabs * 1250));
	assert_string(json, "$.edges[0].kind", "house wall");
	assert_number(json, "$.edges[0].length_m", 5);
	assert_string(json, "$.edges[1].unit_name", "kerb");
	ck_assert_int_eq(json_length(json, "$.edges"), 5);
	ck_assert_int_gt(json_length(json, "$.cautions"), 3);
	free(json);
	done();
}
END_TEST

/* Rings are checked by area with the cross products of the printed corners. */
static double printed_ring_area(const char *json, const char *path)
{
	int n = json_length(json, path);
	double sum = 0, x0 = 0, y0 = 0, x1, y1, first_x = 0, first_y = 0;
	char at[200];

	ck_assert_int_ge(n, 3);
	for (int i = 0; i <= n; i++) {
		snprintf(at, sizeof at, "%s[%d][0]", path, i % n);
		x1 = json_number(json, at);
		snprintf(at, sizeof at, "%s[%d][1]", path, i % n);
		y1 = json_number(json, at);
		if (i)
			sum += x0 * y1 - x1 * y0;
		else
			first_x = x1, first_y = y1;
		x0 = x1, y0 = y1;
	}
	ck_assert(x0 == first_x && y0 == first_y);
	return sum / 2;
}

START_TEST(the_cuts_in_json_name_every_cut_piece_once_with_its_shape)
{
	char *json, path[100];
	bool *seen;
	int pieces = 0;

	make_patio();
	json = written(sheet_cuts, SHEET_JSON);
	seen = calloc(w.t.laid.piece_count, sizeof *seen);
	ck_assert_ptr_nonnull(seen);
	ck_assert(json_is_valid(json));
	ck_assert_int_eq(json_length(json, "$.sources"), (int)w.t.cuts.slabs);
	for (int s = 0; s < (int)w.t.cuts.slabs; s++) {
		snprintf(path, sizeof path, "$.sources[%d].pieces", s);
		for (int k = 0, n = json_length(json, path); k < n; k++, pieces++) {
			const struct piece *p;
			double area = 0;
			int id;

			snprintf(path, sizeof path, "$.sources[%d].pieces[%d].id", s, k);
			id = (int)json_number(json, path);
			ck_assert(id >= 1 && (size_t)id <= w.t.laid.piece_count && !seen[id - 1]);
			seen[id - 1] = true;
			p = &w.t.laid.pieces[id - 1];
			ck_assert_int_ne(p->kind, PIECE_MADE_UP);
			snprintf(path, sizeof path, "$.sources[%d].pieces[%d].ring", s, k);
			area = printed_ring_area(json, path);
			for (size_t h = 1; h < p->shape.count; h++) {
				snprintf(path, sizeof path, "$.sources[%d].pieces[%d].holes[%zu]",
				        s, k, h - 1);
				area += printed_ring_area(json, path);
			}
			ck_assert_double_eq_tol(area, p->area_um2 / 1e6, 0.01);
			snprintf(path, sizeof path, "$.sources[%d].pieces[%d].turn", s, k);
			ck_assert_int_eq((int)json_number(json, path) % 90, 0);
			snprintf(path, sizeof path, "$.sources[%d].pieces[%d].at", s, k);
			ck_assert_int_eq(json_length(json, path), 2);
		}
	}
	ck_assert_int_eq(pieces, (int)w.t.laid.cut);
	free(seen);
	free(json);
	done();
}
END_TEST

/* A pipe that comes up in the middle of a slab. */
START_TEST(a_piece_with_a_hole_shows_it_in_every_form)
{
	const struct plan_node pipe[] = {
		{ 700 * MM, 320 * MM, 0, EDGE_OPEN },
		{ 800 * MM, 320 * MM, 0, EDGE_OPEN },
		{ 800 * MM, 380 * MM, 0, EDGE_OPEN },
		{ 700 * MM, 380 * MM, 0, EDGE_OPEN },
	};
	char *out;

	worked_rectangle(&w, 3 * M, 2 * M);
	worked_add_opening(&w, pipe, 4);
	w.plan.laying.bond = BOND_STACK;
	work_out_plan(&w);
	out = written(sheet_cuts, SHEET_JSON);
	ck_assert(json_is_valid(out));
	assert_number(out, "$.sources[0].pieces[0].course", 1);
	assert_number(out, "$.sources[0].pieces[0].index", 1);
	ck_assert_int_eq(json_length(out, "$.sources[0].pieces[0].holes"), 1);
	ck_assert_double_eq_tol(
	        printed_ring_area(out, "$.sources[0].pieces[0].holes[0]"), -6000, 1e-6);
	ck_assert_double_eq_tol(
	        printed_ring_area(out, "$.sources[0].pieces[0].ring"), 597 * 297, 1e-6);
	free(out);
	out = written(sheet_cuts, SHEET_CSV);
	ck_assert_ptr_nonnull(strstr(out, "\"POLYGON((0 0, 597 0, 597 297, 0 297, 0 0),(100 20, "));
	free(out);
	out = written(sheet_cuts, SHEET_TEXT);
	ck_assert_ptr_nonnull(strstr(out, "; hole, corners: 100 20, "));
	free(out);
	done();
}
END_TEST

START_TEST(water_in_json_drains_the_whole_area_and_names_edges_from_1)
{
	char *json, path[60];
	double sum = 0;
	int n;

	make_patio();
	json = written(sheet_water, SHEET_JSON);
	ck_assert(json_is_valid(json));
	n = json_length(json, "$.catchments");
	ck_assert_int_gt(n, 0);
	for (int i = 0; i < n; i++) {
		snprintf(path, sizeof path, "$.catchments[%d].area_m2", i);
		sum += json_number(json, path);
		snprintf(path, sizeof path, "$.catchments[%d].edge", i);
		ck_assert_int_ge((int)json_number(json, path), 1);
		snprintf(path, sizeof path, "$.catchments[%d].flow_l_s", i);
		assert_string(json, path, "null");
	}
	ck_assert_double_eq_tol(sum, w.t.area_m2, 1e-4 * w.t.area_m2); /* the arc is flattened */
	assert_number(json, "$.catchments[0].edge", 3);
	assert_string(json, "$.catchments[0].kind", "haunch");
	assert_number(json, "$.catchments[0].from[0]", 5000);
	assert_number(json, "$.catchments[0].to[0]", 0);
	ck_assert_int_eq(json_length(json, "$.channels"), 0);
	ck_assert_int_eq(json_length(json, "$.gullies"), 0);
	ck_assert_int_ge(json_length(json, "$.warnings"), 0);
	assert_string(
	        json, "$.note", "no rain is chosen, so areas are given and no flow is worked out");
	free(json);
	done();
}
END_TEST

START_TEST(levels_in_json_give_the_staff_reading_of_every_node)
{
	char *json;

	make_patio();
	json = written(sheet_levels, SHEET_JSON);
	ck_assert(json_is_valid(json));
	assert_number(json, "$.instrument.height", 1345);
	ck_assert_int_eq(json_length(json, "$.points"), 8);
	assert_string(json, "$.points[2].name", "node 3");
	assert_number(json, "$.points[2].level", -60);
	assert_number(json, "$.points[2].staff", 1405);
	assert_number(json, "$.points[2].formation", -60 - 50 - 40 - 100);
	free(json);
	done();
}
END_TEST

START_TEST(without_an_instrument_the_members_are_null)
{
	char *json, *text;

	make_patio();
	w.plan.ground.has_instrument = false;
	work_out_plan(&w);
	json = written(sheet_levels, SHEET_JSON);
	assert_string(json, "$.instrument.height", "null");
	assert_string(json, "$.points[0].staff", "null");
	text = written(sheet_levels, SHEET_TEXT);
	ck_assert_ptr_nonnull(strstr(text, "No instrument is set up"));
	free(text);
	free(json);
	done();
}
END_TEST

START_TEST(without_a_fall_no_level_is_made_up)
{
	char *json, *text;

	worked_rectangle(&w, 3 * M, 2 * M);
	work_out_plan(&w);
	json = written(sheet_takeoff, SHEET_JSON);
	assert_string(json, "$.surface.fall", "null");
	assert_string(json, "$.surface.highest", "null");
	text = written(sheet_levels, SHEET_TEXT);
	ck_assert_ptr_nonnull(strstr(text, "fall: none is set"));
	ck_assert_ptr_null(strstr(text, "highest"));
	free(text);
	text = written(sheet_water, SHEET_TEXT);
	ck_assert_ptr_null(strstr(text, "drained"));
	free(text);
	free(json);
	done();
}
END_TEST

START_TEST(the_text_says_figures_proof_and_cautions)
{
	static const char *const said[] = { "area to pave: ", "whole slabs: ", "cut pieces: ",
		"slabs to order: ", "rule of thumb (area over slab, plus 5 %): ",
		"price of the slabs: ", "kerb: 4.000 m on 1 edge; kerb of 915 mm: 5 to buy",
		"fall: 15 mm/m (1.5 %, 1:67) toward 90 degrees (up)", "proof: ", "buried services",
		"cut wet", "Local codes", "slab weighs 20.", "Rule set: none" };
	char *text;

	make_patio();
	text = written(sheet_takeoff, SHEET_TEXT);
	for (size_t i = 0; i < sizeof said / sizeof *said; i++)
		ck_assert_msg(
		        strstr(text, said[i]) != NULL, "\"%s\" is not said in\n%s", said[i], text);
	free(text);
	done();
}
END_TEST

START_TEST(the_cut_sheet_places_every_piece_on_its_slab)
{
	char *text;
	int pieces = 0;

	make_patio();
	text = written(sheet_cuts, SHEET_TEXT);
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
	text = written(sheet_takeoff, SHEET_TEXT);
	ck_assert_ptr_null(strstr(text, "Lifting"));
	free(text);
	lift.number = 20000;
	text = written(sheet_takeoff, SHEET_TEXT);
	ck_assert_ptr_nonnull(strstr(text, "over the 20 kg for one person (a test's own limit)"));
	free(text);
	done();
}
END_TEST

/* Splits a CSV text into the fields of its rows as RFC 4180 says; counts rows and checks widths. */
static int csv_rows(const char *csv, int *width)
{
	int rows = 0, fields = 1;

	*width = 0;
	for (const char *c = csv; *c; c++) {
		if (*c == '"') {
			for (c++; *c != '"' || c[1] == '"'; c++) {
				ck_assert_msg(*c, "a quote is not closed");
				c += *c == '"';
			}
			ck_assert(c[1] == ',' || c[1] == '\r');
		} else if (*c == ',') {
			fields++;
		} else if (*c == '\r') {
			ck_assert_int_eq(c[1], '\n');
			c++;
			ck_assert(*width == 0 || *width == fields);
			*width = fields;
			rows++;
			fields = 1;
		} else {
			ck_assert_msg(*c != '\n', "a line ends without CR");
		}
	}
	ck_assert_int_eq(fields, 1);
	return rows;
}

START_TEST(every_csv_is_well_formed)
{
	static const int widths[] = { 4, 12, 6, 6 };
	int width;
	char *csv;

	make_patio();
	for (int i = 0; i < 4; i++) {
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

int main(void)
{
	Suite *suite = suite_create("sheet");
	TCase *tc = tcase_create("sheet");
	SRunner *runner = srunner_create(suite);
	int failed;

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_takeoff_in_json_holds_every_promised_figure);
	tcase_add_test(tc, the_cuts_in_json_name_every_cut_piece_once_with_its_shape);
	tcase_add_test(tc, a_piece_with_a_hole_shows_it_in_every_form);
	tcase_add_test(tc, water_in_json_drains_the_whole_area_and_names_edges_from_1);
	tcase_add_test(tc, levels_in_json_give_the_staff_reading_of_every_node);
	tcase_add_test(tc, without_an_instrument_the_members_are_null);
	tcase_add_test(tc, without_a_fall_no_level_is_made_up);
	tcase_add_test(tc, the_text_says_figures_proof_and_cautions);
	tcase_add_test(tc, the_cut_sheet_places_every_piece_on_its_slab);
	tcase_add_test(tc, the_lifting_caution_follows_the_limit);
	tcase_add_test(tc, every_csv_is_well_formed);
	tcase_add_loop_test(tc, a_name_is_no_formula_in_a_spreadsheet, 0,
	        (int)(sizeof hostile / sizeof *hostile));
	tcase_add_test(tc, a_long_hostile_name_keeps_its_quotes_and_characters);
	tcase_add_test(tc, control_characters_never_reach_the_terminal);
	tcase_add_test(tc, a_plan_that_is_not_ready_gives_its_fault_and_writes_nothing);
	tcase_add_test(tc, money_is_printed_from_its_minor_unit);
	suite_add_tcase(suite, tc);
	srunner_run_all(runner, CK_NORMAL);
	failed = srunner_ntests_failed(runner);
	srunner_free(runner);
	return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
