/* Sheets for programs: what their JSON holds. */
#include "slabwright/sheet.h"

#include "json_read.h"
#include "sheets.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

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
		{ 700 * MM, 320 * MM, 0, EDGE_OPEN, 0, 0 },
		{ 800 * MM, 320 * MM, 0, EDGE_OPEN, 0, 0 },
		{ 800 * MM, 380 * MM, 0, EDGE_OPEN, 0, 0 },
		{ 700 * MM, 380 * MM, 0, EDGE_OPEN, 0, 0 },
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
	out = sheet_unfolded(&w, sheet_cuts);
	ck_assert_ptr_nonnull(strstr(out, "; hole, corners: 100 20, "));
	free(out);
	done();
}
END_TEST

/* 3 x 2 m, two falls of 20 away from y = 1 m; a channel along edge 1, a gully in the corner of two
 * kerbs along edges 3 and 4, a fall of 5 to the right on top. */
START_TEST(water_in_every_form_tells_channels_gullies_and_lines)
{
	static struct plan_channel channel;
	static struct plan_gully gully = { "yard gully", 2960000, 1960000, 0 };
	double turn = atan2(20, 5) * 180 / M_PI, fall = hypot(20, 5);
	struct plan_plane planes[2] = {
		{ 0, 1 * M, 0, llround(turn * 1e6), llround(fall * 1000) },
		{ 0, 1 * M, 0, llround(-turn * 1e6), llround(fall * 1000) },
	};
	static struct rain_row rain = { 5, 90 * MM };
	char *out;

	worked_rectangle(&w, 3 * M, 2 * M);
	w.plan.water.rain = (struct plan_rain){ "a test's", "by hand", &rain, 1, 0 };
	w.plan.water.runoff_ppm = 800000;
	channel_init(&channel);
	channel.name = "slot";
	w.plan.water.channels = &channel;
	w.plan.water.gullies = &gully;
	w.plan.water.channel_count = w.plan.water.gully_count = 1;
	w.plan.surface =
	        (struct plan_surface){ .envelope = ENVELOPE_MIN, .planes = planes, .count = 2 };
	w.plan.rings[0].nodes[0].channel = 1;
	w.plan.rings[0].nodes[2].kind = w.plan.rings[0].nodes[1].kind = EDGE_KERB;
	w.plan.edging[EDGE_KERB].top_um = 40 * MM;
	work_out_plan(&w);
	out = written(sheet_water, SHEET_JSON);
	ck_assert(json_is_valid(out));
	assert_number(out, "$.channels[0].edges[0].edge", 1);
	assert_string(out, "$.channels[0].name", "slot");
	assert_number(out, "$.gullies[0].area_m2", 0);
	assert_string(out, "$.lines[0].kind", "ridge");
	assert_number(out, "$.lines[0].high[1]", 1000);
	assert_string(out, "$.held[0].end.kind", "channel");
	/* Each half of 3 m2 loses to the right edge a triangle 1 m high and 0.25 m wide. */
	ck_assert_double_eq_tol(json_number(out, "$.channels[0].area_m2"), 3 - 0.125, 1e-6);
	ck_assert_double_eq_tol(json_number(out, "$.channels[0].ends_m2"), 3, 1e-6);
	ck_assert_double_eq_tol(json_number(out, "$.gullies[0].ends_m2"), 3, 1e-6);
	/* 0.8 x 90 mm/h x 3 m2 = 216 l/h. */
	ck_assert_double_eq_tol(json_number(out, "$.channels[0].flow_l_s"), 0.06, 1e-6);
	ck_assert_double_eq_tol(json_number(out, "$.channels[0].edges[0].flow_l_s"), 0.0575, 1e-6);
	ck_assert_double_eq_tol(json_number(out, "$.drained_m2"), 6, 1e-6);
	free(out);
	out = sheet_unfolded(&w, sheet_water);
	ck_assert_ptr_nonnull(strstr(out, "ridge of planes 1 and 2"));
	ck_assert_ptr_nonnull(strstr(out, "3.000 m2: 0.06 l/s"));
	ck_assert_ptr_nonnull(
	        strstr(out, "at 90.0 mm/h, of which 80 % run off (a test's; by hand)"));
	ck_assert_ptr_nonnull(strstr(out, "edge 1 (open) takes 2.875 m2, into channel 1"));
	ck_assert_ptr_nonnull(strstr(out, "gully 1 (yard gully) takes 0.000 m2, and with"));
	free(out);
	out = written(sheet_water, SHEET_CSV);
	ck_assert_ptr_nonnull(strstr(out, "channel,1,slot,2.875"));
	ck_assert_ptr_nonnull(strstr(out, "end,1,gully,3.000"));
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
	assert_string(json, "$.points[2].name", "corner 3");
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

/* 3.60 x 1.20 m of a 600 mm slab beside two of 300: eight and sixteen. A sliver is narrower than
 * 149.25 mm of the one, 74.25 of the other. */
START_TEST(several_sizes_are_told_apart)
{
	struct repeat_slab slabs[] = { { 0, 0, 600000, 600000 }, { 600000, 0, 300000, 300000 },
		{ 600000, 300000, 300000, 300000 } };
	char *json, *text;

	worked_rectangle(&w, 3600000, 1200000);
	w.plan.laying.slab.name = "not laid";
	w.plan.laying.bond = BOND_MIXED;
	w.plan.laying.repeat = (struct plan_repeat){ "by hand", 900000, 600000, 0, slabs, 3 };
	work_out_plan(&w);
	json = sheet_written(&w, sheet_takeoff, SHEET_JSON);
	assert_number(json, "$.laying.sizes[0].whole", 8);
	assert_number(json, "$.laying.sizes[0].sliver_width", 149.25);
	assert_number(json, "$.laying.sizes[1].sliver_width", 74.25);
	assert_number(json, "$.order.sizes[0].slabs", 9);
	assert_number(json, "$.order.sizes[1].slabs", 17);
	assert_number(json, "$.order.slabs", 26);
	assert_string(json, "$.laying.sliver_width", "null");
	assert_string(json, "$.laying.slab.name", "null");
	assert_string(json, "$.laying.slab.work_length", "null");
	free(json);
	text = sheet_written(&w, sheet_takeoff, SHEET_CSV);
	ck_assert_ptr_nonnull(strstr(text, "order,slabs of 597 x 597 mm,9,"));
	ck_assert_ptr_null(strstr(text, "not laid"));
	ck_assert_ptr_null(strstr(text, "slab length"));
	free(text);
	text = sheet_unfolded(&w, sheet_takeoff);
	ck_assert_ptr_null(strstr(text, "not laid"));
	ck_assert_ptr_nonnull(strstr(text, "597 x 597 mm: 8 whole, 0 cut"));
	ck_assert_ptr_nonnull(strstr(text, "297 x 297 mm: 17 (16 needed, 1 for breakage)"));
	ck_assert_ptr_nonnull(strstr(text, "a quarter of their slab's shorter side"));
	free(text);
	done();
}
END_TEST

START_TEST(a_mix_fills_its_own_packs_and_not_those_of_a_slab)
{
	struct mix_size sizes[] = { { 600000, 600000, 2 }, { 300000, 600000, 3 } };
	char *json, *text;

	worked_rectangle(&w, 3600000, 1200000);
	w.plan.laying.slab.pack = 10;
	w.plan.laying.bond = BOND_COURSED_RANDOM;
	w.plan.laying.mix = (struct plan_mix){ .sizes = sizes, .count = 2, .seed = 1 };
	work_out_plan(&w);
	json = sheet_written(&w, sheet_takeoff, SHEET_JSON);
	assert_string(json, "$.order.pack", "null");
	ck_assert_double_gt(json_number(json, "$.order.packs"), 0);
	free(json);
	text = sheet_written(&w, sheet_takeoff, SHEET_CSV);
	ck_assert_ptr_nonnull(strstr(text, "order,packs of the mix,"));
	free(text);
	text = sheet_unfolded(&w, sheet_takeoff);
	ck_assert_ptr_nonnull(strstr(text, "packs of the mix: "));
	ck_assert_ptr_null(strstr(text, "whole packs"));
	free(text);
	done();
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("sheet json");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, the_takeoff_in_json_holds_every_promised_figure);
	tcase_add_test(tc, the_cuts_in_json_name_every_cut_piece_once_with_its_shape);
	tcase_add_test(tc, a_piece_with_a_hole_shows_it_in_every_form);
	tcase_add_test(tc, water_in_every_form_tells_channels_gullies_and_lines);
	tcase_add_test(tc, water_in_json_drains_the_whole_area_and_names_edges_from_1);
	tcase_add_test(tc, levels_in_json_give_the_staff_reading_of_every_node);
	tcase_add_test(tc, without_an_instrument_the_members_are_null);
	tcase_add_test(tc, without_a_fall_no_level_is_made_up);
	tcase_add_test(tc, several_sizes_are_told_apart);
	tcase_add_test(tc, a_mix_fills_its_own_packs_and_not_those_of_a_slab);
	return suite_run("sheet json", tc);
}
