/* The sheets for the site, read back with pdftotext: each row of the take-off stands on a line of
 * its own. Figures are formatted here, from the take-off. */
#include "drawn.h"
#include "drawn_beside.h"
#include "plans.h"
#include "program.h"
#include "sheets.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

static struct worked w;
static char *text; /* of the sheet read last */

/* --- a patio with everything beside it --- */

static void add_water(struct plan *p)
{
	static struct rain_row rows[] = { { 5, 75000 }, { 15, 50500 }, { 60, 21125 } };
	static struct plan_channel channel;
	static struct plan_gully gully = { "by the tree", 2500000, 3900000, 500 };

	water_init(&p->water);
	channel_init(&channel);
	channel.name = "at the planter";
	channel.fall_um_per_m = 3000;
	p->water.rain = (struct plan_rain){ "Somewhere", "invented", rows, 3, 10 };
	p->water.channels = &channel, p->water.channel_count = 1;
	p->water.gullies = &gully, p->water.gully_count = 1;
	soakaway_init(&p->water.soakaway);
	p->water.soakaway.x_um = 8 * M, p->water.soakaway.y_um = 6 * M;
	p->rings[0].nodes[2].channel = 1;
}

static void add_site(struct plan *p)
{
	static struct plan_spot spots[] = { { "", -M, -M, -120 * MM }, { "", 7 * M, -M, -150 * MM },
		{ "", 7 * M, 6 * M, -500 * MM }, { "", -M, 6 * M, -90 * MM } };
	static struct plan_peg pegs[] = { { "P1", -500 * MM, -500 * MM } };
	static struct plan_measured measured[] = {
		{ "corner 1", 0, 0, true, true, 2 * MM, 3 * MM, 0 },
		{ "corner 2", 5 * M, 0, true, true, -9 * MM, 5 * M, 15 * MM },
		{ "corner 3", 5 * M, 4 * M, true, false, -55 * MM, 0, 0 },
	};

	site_init(&p->site);
	p->site.spots = spots, p->site.spot_count = 4;
	p->site.pegs = pegs, p->site.peg_count = 1;
	p->site.measured = measured, p->site.measured_count = 3;
}

static void add_built(struct plan *p)
{
	static struct plan_point points[] = { { 6 * M, 0 }, { 8310 * MM, 0 },
		{ 8310 * MM, 1240 * MM }, { 6 * M, 1240 * MM } };
	static struct plan_planter planter;
	static struct plan_steps steps;

	planter_init(&planter);
	planter.name = "herbs";
	planter.points = points, planter.count = 4, planter.closed = true;
	planter.courses = 3;
	planter.block.density_kg_m3 = 2000;
	planter.cap_um = M, planter.cap_name = "Coping";
	planter.base_um = -250 * MM;
	p->planters = &planter, p->planter_count = 1;
	steps_init(&steps);
	steps.name = "to the lawn";
	steps.x_um = 2500 * MM, steps.y_um = 4 * M;
	steps.toward_udeg = 90 * UDEG_PER_DEG;
	steps.has_top = true, steps.top_um = -60 * MM, steps.bottom_um = -560 * MM;
	steps.unit_density_kg_m3 = 2300;
	p->steps = &steps, p->steps_count = 1;
	p->edging[EDGE_KERB] = (struct plan_edging){ .name = "kerb",
		.unit_um = 915 * MM,
		.joint_um = 3 * MM,
		.depth_um = 80 * MM,
		.height_um = 200 * MM,
		.top_um = 15 * MM,
		.cement_kg_m3 = 150,
		.strip_um = 120 * MM,
		.strip_beyond_um = 90 * MM,
		.haunch_um = 110 * MM,
		.held_um = 70 * MM,
		.density_kg_m3 = 2300,
		.price_minor = -1 };
}

static void setup(void)
{
	program_folder();
	worked_patio(&w);
	add_water(&w.plan);
	add_site(&w.plan);
	add_built(&w.plan);
	w.rules = drawn_limits;
	work_out_plan(&w);
	text = NULL;
}

static void teardown(void)
{
	free(text);
	worked_done(&w);
	program_folder_remove();
}

static void read_sheet(const char *name)
{
	struct drawing_options o = drawn_options();

	o.only = name;
	free(text);
	drawn_write(program_path("s.pdf"), &w.t, &o);
	text = drawn_said_by("pdftotext -layout '%s' -", program_path("s.pdf"));
}

/* --- what its lines say --- */

/* Whether the words stand on a line, one behind the other, each with blanks about it. */
static bool on_line(const char *line, size_t length, const char *const *words)
{
	const char *at = line;

	for (; *words; words++) {
		size_t n = strlen(*words);

		while ((at = strstr(at, *words)) && at + n <= line + length &&
		        ((at > line && at[-1] != ' ' && at[-1] != '\f') ||
		                (at[n] != ' ' && at[n] != '\n')))
			at++;
		if (!at || at + n > line + length)
			return false;
		at += n;
	}
	return true;
}

static void find_line(const char *const *words)
{
	for (const char *line = text; line && *line;) {
		const char *end = strchr(line, '\n');
		size_t length = end ? (size_t)(end - line) : strlen(line);

		if (on_line(line, length, words))
			return;
		line = end ? end + 1 : NULL;
	}
	ck_abort_msg(
	        "no line with \"%s\" \"%s\" in:\n%s", words[0], words[1] ? words[1] : "", text);
}

#define LINE(...) find_line((const char *const[]){ __VA_ARGS__, NULL })

static void assert_says(const char *words)
{
	ck_assert_msg(strstr(text, words) != NULL, "\"%s\" is not in:\n%s", words, text);
}

/* Figures as text, a few at a time. */
static char *next_room(void)
{
	static char rooms[16][64];
	static int next;

	return rooms[next++ % 16];
}

static const char *number(const char *format, double value)
{
	char *to = next_room();

	snprintf(to, 64, format, value);
	return to;
}

static const char *metres(double um)
{
	return number("%.3f", (double)llround(um / 1000) / 1000);
}

static const char *whole_mm(double um)
{
	return number("%.0f", (double)llround(um / 1000));
}

/* To the tenth, without a zero behind the point. */
static const char *tenths(double um)
{
	long long t = llround(um / 100);

	return number(t % 10 ? "%.1f" : "%.0f", (double)t / 10);
}

static const char *count(int64_t n)
{
	return number("%.0f", (double)n);
}

/* --- sheet by sheet --- */

START_TEST(setting_out_has_every_point_and_diagonal)
{
	const struct setout *s = &w.t.site.setout;
	bool has_peg = false;

	ck_assert(w.t.site.has_setout);
	read_sheet("setout");
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[i];

		has_peg |= p->is_peg;
		LINE(count((int64_t)i + 1), p->name, metres(p->chainage_um),
		        fabs(p->offset_um) < 500 ? "on" : metres(fabs(p->offset_um)),
		        metres(p->tie_first_um));
	}
	ck_assert(has_peg);
	ck_assert_uint_gt(s->diagonal_count, 0);
	for (size_t i = 0; i < s->diagonal_count; i++)
		LINE("corner", count((int64_t)s->diagonals[i].from + 1), "to", "corner",
		        count((int64_t)s->diagonals[i].to + 1), metres(s->diagonals[i].length_um));
	for (size_t i = 0; i < s->triple_count; i++)
		LINE(metres((double)s->triples[i].long_5_um));
	ck_assert_uint_eq(s->arc_count, 1);
	for (size_t i = 0; i < s->arcs[0].count; i++)
		LINE(metres(s->arcs[0].offsets[i].along_um),
		        metres(s->arcs[0].offsets[i].offset_um));
	/* the staff on corner 1, by the level sheet */
	ck_assert_str_eq(w.t.levels[0].name, "corner 1");
	LINE("corner", "1", "0.000", "on", whole_mm(w.t.levels[0].staff_um));
}
END_TEST

START_TEST(the_water_plan_has_areas_ends_drains_and_warnings)
{
	const struct surface_result *s = &w.t.surface;
	const struct drainage *d = &w.t.drainage;

	read_sheet("water");
	ck_assert(d->has_rain && d->soakaway.has);
	for (size_t i = 0; i < s->catchment_count; i++) {
		double m2 = s->catchments[i].area_m2;

		if (m2 >= 1e-4)
			LINE(number("%.3f", m2),
			        number("%.2f", d->runoff * d->mm_per_h * m2 / 3600));
	}
	for (size_t i = 0; i < s->end_count; i++)
		if (s->ends[i].area_m2 >= 1e-4)
			LINE(number("%.3f", s->ends[i].area_m2));
	LINE("1", "at", "the", "planter", number("%.2f", d->channels[0].length_m),
	        number("%.2f", d->channels[0].flow_l_s),
	        number("%.2f", d->channels[0].capacity_l_s),
	        whole_mm((double)w.plan.water.channels[0].depth_um),
	        whole_mm(d->channels[0].depths.deepest_m * 1e6));
	LINE("1", "by", "the", "tree", number("%.3f", d->gullies[0].area_m2));
	LINE("Soakaway:", "needed", number("%.2f", d->soakaway.needed_m3), "given",
	        number("%.2f", d->soakaway.given_m3));
	ck_assert_uint_gt(s->warning_count + d->warning_count, 0);
	for (size_t i = 0; i < s->warning_count; i++) {
		char begin[24];

		snprintf(begin, sizeof begin, "%s", s->warnings[i].text);
		assert_says(begin);
	}
}
END_TEST

static void check_legs(const struct planter_result *r)
{
	for (size_t i = 0; i < r->leg_count; i++) {
		LINE("leg", number("%.0f,", (double)i + 1), "corner");
		assert_says(metres((double)r->legs[i].length_um));
	}
	for (int k = 0; k < 2; k++)
		for (size_t i = 0; i < r->courses[k].tie_count; i++)
			assert_says(tenths(r->courses[k].ties[i].u_um));
}

START_TEST(planters_have_blocks_cuts_ties_profile_and_the_check)
{
	const struct planter_result *r = &w.t.planters.items[0];

	ck_assert_msg(r->ready, "%s", r->fault.text);
	read_sheet("planters");
	LINE("laid", "in", "all", count(r->blocks.whole), count(r->blocks.half),
	        count(r->blocks.corner), count(r->blocks.cut));
	LINE("to", "buy", count(r->blocks.buy_whole), count(r->blocks.buy_half),
	        count(r->blocks.buy_corner));
	ck_assert_uint_gt(r->blocks.cut_count, 0);
	for (size_t i = 0; i < r->blocks.cut_count; i++)
		assert_says(tenths((double)r->blocks.cuts[i].length_um));
	check_legs(r);
	for (size_t i = 0; i < r->cap.piece_count; i++)
		LINE(count((int64_t)r->cap.pieces[i].leg + 1), tenths(r->cap.pieces[i].from_um),
		        tenths((double)r->cap.pieces[i].length_um),
		        r->cap.pieces[i].whole ? "whole" : "cut");
	for (size_t i = 0; i < r->corner_count; i++)
		LINE(count((int64_t)r->corners[i].point + 1), tenths(r->corners[i].surface_um),
		        tenths(r->corners[i].reveal_um));
	ck_assert(r->wall.worked_out);
	for (size_t i = 0; i < r->wall.count; i++)
		LINE(number("%.3f", r->wall.levels[i].height_m),
		        number("%.2f", r->wall.levels[i].forces.fs_overturning),
		        number("%.2f", r->wall.levels[i].forces.fs_sliding));
	assert_says("ask an engineer");
}
END_TEST

START_TEST(steps_have_rows_limits_order_and_lifting)
{
	const struct flight *f = &w.t.steps.flights[0];

	ck_assert_msg(!f->fault, "%s", f->fault);
	read_sheet("steps");
	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];

		LINE(count((int64_t)i + 1), tenths((double)r->level_um),
		        tenths((double)r->riser_um), tenths((double)r->underside_um),
		        tenths((double)r->visible_um));
		assert_says(whole_mm((double)r->riser_um));
	}
	for (size_t i = 0; i < f->check_count; i++)
		LINE(number("%.1f", f->checks[i].is / 1000),
		        f->checks[i].obeyed ? "obeyed" : "BROKEN");
	LINE("Units:", count(f->order.units), "to", "buy");
	LINE("Lifting,", number("%.1f", f->handling.kg), "kg,");
	LINE("rise", whole_mm((double)f->rise_um));
	LINE("run", whole_mm((double)f->run_um));
}
END_TEST

START_TEST(edging_has_its_section_and_string_lines)
{
	const struct kerb_line *k = &w.t.kerbs.lines[0];
	struct drawing_options o = drawn_options();
	size_t length;
	char *svg;

	ck_assert_uint_eq(w.t.kerbs.count, 1);
	ck_assert_uint_gt(k->run_count, 0);
	read_sheet("edging");
	for (size_t i = 0; i < k->run_count; i++)
		LINE("edge", count((int64_t)k->runs[i].edge + 1), metres(k->runs[i].length_m * 1e6),
		        tenths(k->runs[i].from_um), whole_mm(k->runs[i].from_staff_um),
		        tenths(k->runs[i].to_um), whole_mm(k->runs[i].to_staff_um));
	assert_says("top 15 mm over the finished surface");
	for (int i = 0; i < 5; i++) {
		static const int sides[] = { 80, 200, 120, 110, 70 };

		LINE(count(sides[i]));
	}
	LINE(number("%.3f", k->mix.m3), "m3", "compacted,", number("%.1f", k->mix.cement_kg));
	/* drawn true: at 1:5 the unit's foot of 80 mm is 16 mm */
	LINE("scale", "1:5");
	o.only = "edging", o.form = DRAWING_SVG;
	drawn_write(program_path("s.svg"), &w.t, &o);
	svg = drawn_read(program_path("s.svg"), &length);
	ck_assert(svg_has_level_line(svg, 16));
	free(svg);
}
END_TEST

START_TEST(ground_and_dig_has_levels_and_volumes)
{
	const struct earth_result *e = &w.t.earth;

	ck_assert_msg(e->ready, "%s", e->fault.text);
	read_sheet("dig");
	for (size_t i = 0; i < e->ground.level_count; i++)
		LINE(whole_mm(e->ground.level_um[i]));
	for (size_t i = 0; i < w.t.surface.point_count; i++)
		LINE("F", whole_mm(w.t.surface.points[i].formation_um));
	LINE("to", "dig", "under", "it", number("%.3f", e->cut_m3),
	        number("%.3f", e->cut_loose_m3));
	LINE("compacted", number("%.3f", e->fill_m3), number("%.3f", e->fill_loose_m3));
	for (size_t i = 0; i < e->part_count; i++)
		LINE(number("%.3f", e->parts[i].area_m2), number("%.3f", e->parts[i].cut_m3),
		        number("%.3f", e->parts[i].fill_m3));
	LINE("sub-base", number("%.3f", e->sub_base.area_m2),
	        number("%.3f", e->sub_base.volume_m3));
}
END_TEST

/* "3.5," */
static const char *out_by(double um)
{
	char *to = next_room();

	snprintf(to, 64, "%.60s,", tenths(um));
	return to;
}

START_TEST(as_built_marks_what_is_out_by_word)
{
	const struct asbuilt *a = &w.t.site.built;
	size_t out = 0;

	ck_assert(w.t.site.has_built);
	read_sheet("built");
	for (size_t i = 0; i < a->count; i++) {
		const struct asbuilt_point *p = &a->points[i];

		LINE(count((int64_t)i + 1), p->name, tenths(p->planned_um));
		if (p->level_over_um > 0)
			LINE("OUT", "by", out_by(p->level_over_um), "level");
		out += p->level_over_um > 0 || p->place_over_um > 0;
	}
	ck_assert_uint_gt(out, 0);
	ck_assert_uint_lt(out, a->count);
}
END_TEST

START_TEST(the_level_sheet_marks_pegs_on_its_plan)
{
	size_t peg = w.t.surface.point_count, found = 0;
	const char *number_of = count((int64_t)peg + 1);
	size_t n = strlen(number_of);

	ck_assert_str_eq(w.t.levels[peg].name, "P1");
	read_sheet("levels");
	for (const char *at = text; (at = strstr(at, number_of)); at++)
		found += at > text && at[-1] == ' ' && (at[n] == ' ' || at[n] == '\n');
	ck_assert_uint_ge(found, 2); /* in the list, and on the plan */
	assert_says("Triangles on the plan are pegs");
}
END_TEST

START_TEST(what_the_job_has_not_has_no_page)
{
	struct drawing_options o = drawn_options();
	struct error err;
	size_t pages;

	worked_done(&w);
	worked_rectangle(&w, 5 * M, 4 * M);
	work_out_plan(&w);
	read_sheet(NULL);
	assert_says("Setting out");
	ck_assert_ptr_null(strstr(text, "Planters"));
	ck_assert_ptr_null(strstr(text, "Steps"));
	ck_assert_ptr_null(strstr(text, "Ground and dig"));
	ck_assert_ptr_null(strstr(text, "As built"));
	ck_assert_ptr_null(strstr(text, "Where the water goes"));
	o.only = "planters";
	ck_assert_int_eq(drawing_write(program_path("n.pdf"), &w.t, &o, &pages, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "nothing for the sheet \"planters\""));
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drawing for the site");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, setting_out_has_every_point_and_diagonal);
	tcase_add_test(tc, the_water_plan_has_areas_ends_drains_and_warnings);
	tcase_add_test(tc, planters_have_blocks_cuts_ties_profile_and_the_check);
	tcase_add_test(tc, steps_have_rows_limits_order_and_lifting);
	tcase_add_test(tc, edging_has_its_section_and_string_lines);
	tcase_add_test(tc, ground_and_dig_has_levels_and_volumes);
	tcase_add_test(tc, as_built_marks_what_is_out_by_word);
	tcase_add_test(tc, the_level_sheet_marks_pegs_on_its_plan);
	tcase_add_test(tc, what_the_job_has_not_has_no_page);
	return suite_run("drawing for the site", tc);
}
