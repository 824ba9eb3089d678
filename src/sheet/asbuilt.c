/* asbuilt.c - what was built against the plan, in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <math.h>

struct asbuilt_sheet {
	const struct plan *plan;
	const struct asbuilt *a;
};

static const char *tenths(char buf[40], double um)
{
	return mm_print(buf, 40, llround(um / 100) * 100);
}

/* --- text --- */

/* " - FAILS by 1.5 mm", or nothing. */
static void text_over(FILE *to, double over_um)
{
	char mm[40];

	if (over_um > 0)
		fprintf(to, " - FAILS by %s mm", tenths(mm, over_um));
}

static void text_rule(FILE *to, const char *label, const struct rule *rule)
{
	char mm[40];

	if (rule)
		text_line(to, label, "%s mm either way (%s)", mm_print(mm, sizeof mm, rule->number),
		        rule->source);
	else
		text_line(to, label, "the rule set names no tolerance");
}

static void text_point(FILE *to, const struct asbuilt_point *p, bool has_surface)
{
	const struct plan_measured *m = p->measured;
	char is[40], plan[40], off[40];

	fputs("  ", to);
	sheet_put_text(to, p->name);
	fputc(':', to);
	if (m->has_level && has_surface) {
		fprintf(to, " level %s mm, planned %s mm, %s mm %s",
		        mm_print(is, sizeof is, m->level_um), tenths(plan, p->planned_um),
		        tenths(off, fabs(p->level_off_um)),
		        p->level_off_um < 0 ? "too low" : "too high");
		text_over(to, p->level_over_um);
	}
	if (m->has_place) {
		fprintf(to, "%s %s mm off its place", m->has_level && has_surface ? ";" : "",
		        tenths(off, p->place_off_um));
		text_over(to, p->place_over_um);
	}
	fputc('\n', to);
}

static void text_gap(FILE *to, const struct asbuilt *a, const struct asbuilt_gap *g)
{
	char gap[40];

	fputs("  ", to);
	sheet_put_text(to, a->points[g->at].name);
	fprintf(to, ", %.0f m straightedge from ",
	        a->straightedges[g->straightedge].length_um / 1e6);
	sheet_put_text(to, a->points[g->from].name);
	fputs(" to ", to);
	sheet_put_text(to, a->points[g->to].name);
	fprintf(to, ": %s mm %s", tenths(gap, fabs(g->gap_um)), g->gap_um < 0 ? "hollow" : "hump");
	text_over(to, g->over_um);
	fputc('\n', to);
}

static void text_flatness(FILE *to, const struct asbuilt *a)
{
	char label[60];

	fputs("\nFlatness\n", to);
	if (!a->straightedge_count)
		fputs("  The rule set names no straightedge.\n", to);
	for (size_t i = 0; i < a->straightedge_count; i++) {
		const struct asbuilt_straightedge *e = &a->straightedges[i];

		snprintf(label, sizeof label, "under %.0f m", e->length_um / 1e6);
		text_rule(to, label, e->rule);
		if (!e->tried)
			fputs("  No three measured points lie in a line of that length.\n", to);
	}
	for (size_t i = 0; i < a->gap_count; i++)
		text_gap(to, a, &a->gaps[i]);
}

static void text_puddles(FILE *to, const struct asbuilt *a)
{
	char depth[40];

	if (!a->puddle_count && !a->puddle_rule)
		return;
	fputs("\nStanding water\n", to);
	if (a->puddle_rule)
		text_line(to, "allowed", "%s mm deep (%s)",
		        mm_print(depth, sizeof depth, a->puddle_rule->number),
		        a->puddle_rule->source);
	if (a->puddle_area_rule)
		text_line(to, "area", "%.3g m2 at most (%s); look an hour after rain",
		        (double)a->puddle_area_rule->number / 1000, a->puddle_area_rule->source);
	if (!a->puddle_count)
		fputs("  The measured levels leave none.\n", to);
	for (size_t i = 0; i < a->puddle_count; i++) {
		fputs("  ", to);
		sheet_put_text(to, a->points[a->puddles[i].at].name);
		fprintf(to, ": up to %s mm deep", tenths(depth, a->puddles[i].depth_um));
		text_over(to, a->puddles[i].over_um);
		fputc('\n', to);
	}
}

static void text_four(FILE *to, const struct asbuilt *a)
{
	char is[40], planned[40];

	if (!a->has_four)
		return;
	fputs("\nSides and diagonals as built\n", to);
	for (int i = 0; i < 6; i++) {
		bool side = i < 4;
		double um = side ? a->sides_um[i] : a->diagonals_um[i - 4],
		       plan = side ? a->planned_sides_um[i] : a->planned_diagonals_um[i - 4];

		fprintf(to, "  corner %d to corner %d: %s m, planned %s m\n", side ? i + 1 : i - 3,
		        side ? (i + 1) % 4 + 1 : i - 1,
		        length_print_bare(is, sizeof is, llround(um / 1000) * 1000, UNIT_M),
		        length_print_bare(
		                planned, sizeof planned, llround(plan / 1000) * 1000, UNIT_M));
	}
}

static void text_verdict(FILE *to, const struct asbuilt *a)
{
	size_t fails = a->level_fails + a->place_fails + a->gap_fails + a->puddle_fails;

	fputs("\nResult\n", to);
	if (fails)
		text_line(to, "out of tolerance",
		        "%zu levels, %zu places, %zu under a straightedge, %zu puddles",
		        a->level_fails, a->place_fails, a->gap_fails, a->puddle_fails);
	else
		fputs("  Nothing measured is out of a tolerance that the rule set names.\n", to);
	fputs("  Contract and local codes come before these tolerances.\n", to);
}

static bool has_surface(const struct asbuilt_sheet *s)
{
	return s->plan->surface.count > 0;
}

static void text_asbuilt(FILE *to, const void *what)
{
	const struct asbuilt_sheet *s = what;
	const struct asbuilt *a = s->a;

	text_heading(to, s->plan, "As built");
	fputs("Points\n", to);
	if (!has_surface(s))
		fputs("  No fall is set, so levels are not compared.\n", to);
	text_rule(to, "levels", a->level_rule);
	text_rule(to, "places", a->place_rule);
	for (size_t i = 0; i < a->count; i++)
		text_point(to, &a->points[i], has_surface(s));
	if (has_surface(s)) {
		text_flatness(to, a);
		text_puddles(to, a);
	}
	text_four(to, a);
	text_verdict(to, a);
}

/* --- CSV --- */

static void csv_result(struct row *r, const char *what, const char *name, const char *from,
        const char *to, double off_um, double over_um, const struct rule *rule)
{
	row_text(r, what);
	row_text(r, name);
	row_text(r, from);
	row_text(r, to);
	row_mm(r, off_um);
	if (rule)
		row_mm(r, (double)rule->number);
	else
		row_empty(r);
	row_mm(r, over_um);
	row_end(r);
}

static void csv_asbuilt(FILE *to, const void *what)
{
	const struct asbuilt_sheet *s = what;
	const struct asbuilt *a = s->a;
	struct row r = { .to = to };

	ROW_HEADER(&r, "what", "name", "from", "to", "off_mm", "allowed_mm", "over_mm");
	for (size_t i = 0; i < a->count; i++) {
		const struct asbuilt_point *p = &a->points[i];

		if (p->measured->has_level && has_surface(s))
			csv_result(&r, "level", p->name, "", "", p->level_off_um, p->level_over_um,
			        a->level_rule);
		if (p->measured->has_place)
			csv_result(&r, "place", p->name, "", "", p->place_off_um, p->place_over_um,
			        a->place_rule);
	}
	for (size_t i = 0; i < a->gap_count; i++) {
		const struct asbuilt_gap *g = &a->gaps[i];
		const struct asbuilt_straightedge *e = &a->straightedges[g->straightedge];

		csv_result(&r, e->length_um > 2.5e6 ? "flatness 3 m" : "flatness 2 m",
		        a->points[g->at].name, a->points[g->from].name, a->points[g->to].name,
		        g->gap_um, g->over_um, e->rule);
	}
	for (size_t i = 0; i < a->puddle_count; i++)
		csv_result(&r, "puddle", a->points[a->puddles[i].at].name, "", "",
		        a->puddles[i].depth_um, a->puddles[i].over_um, a->puddle_rule);
}

/* --- JSON --- */

static void put_mm(struct json *j, const char *key, double um, bool known)
{
	if (known)
		json_mm(j, key, llround(um));
	else
		json_null(j, key);
}

static void json_rule(struct json *j, const char *key, const struct rule *rule)
{
	if (!rule) {
		json_null(j, key);
		return;
	}
	json_object_tight(j, key);
	json_real(j, "value", (double)rule->number / 1000);
	json_text(j, "unit", rule->unit);
	json_text(j, "source", rule->source);
	json_end(j);
}

static void json_asbuilt_points(struct json *j, const struct asbuilt_sheet *s)
{
	json_array(j, "points");
	for (size_t i = 0; i < s->a->count; i++) {
		const struct asbuilt_point *p = &s->a->points[i];
		bool level = p->measured->has_level && has_surface(s),
		     place = p->measured->has_place;

		json_object_tight(j, NULL);
		json_text(j, "name", p->name);
		json_mm(j, "x", p->measured->x_um);
		json_mm(j, "y", p->measured->y_um);
		put_mm(j, "planned", p->planned_um, has_surface(s));
		put_mm(j, "level_off", p->level_off_um, level);
		put_mm(j, "level_over", p->level_over_um, level && s->a->level_rule);
		put_mm(j, "place_off", p->place_off_um, place);
		put_mm(j, "place_over", p->place_over_um, place && s->a->place_rule);
		json_end(j);
	}
	json_end(j);
}

static void json_gaps(struct json *j, const struct asbuilt *a)
{
	json_array(j, "flatness");
	for (size_t i = 0; i < a->gap_count; i++) {
		const struct asbuilt_gap *g = &a->gaps[i];

		json_object_tight(j, NULL);
		put_mm(j, "straightedge", a->straightedges[g->straightedge].length_um, true);
		json_text(j, "name", a->points[g->at].name);
		json_text(j, "from", a->points[g->from].name);
		json_text(j, "to", a->points[g->to].name);
		put_mm(j, "gap", g->gap_um, true);
		put_mm(j, "over", g->over_um, true);
		json_end(j);
	}
	json_end(j);
}

static void json_puddles(struct json *j, const struct asbuilt *a)
{
	json_array(j, "puddles");
	for (size_t i = 0; i < a->puddle_count; i++) {
		json_object_tight(j, NULL);
		json_text(j, "name", a->points[a->puddles[i].at].name);
		put_mm(j, "depth", a->puddles[i].depth_um, true);
		put_mm(j, "over", a->puddles[i].over_um, a->puddle_rule != NULL);
		json_end(j);
	}
	json_end(j);
}

static void json_list(struct json *j, const char *key, const double *um, size_t count)
{
	json_array_tight(j, key);
	for (size_t i = 0; i < count; i++)
		put_mm(j, NULL, um[i], true);
	json_end(j);
}

static void json_asbuilt(struct json *j, const void *what)
{
	const struct asbuilt_sheet *s = what;
	const struct asbuilt *a = s->a;

	json_object(j, NULL);
	json_text(j, "variant", s->plan->name);
	json_bool(j, "passes", asbuilt_passes(a));
	json_object(j, "tolerances");
	json_rule(j, "level", a->level_rule);
	json_rule(j, "place", a->place_rule);
	for (size_t i = 0; i < a->straightedge_count; i++)
		json_rule(j, a->straightedges[i].length_um > 2.5e6 ? "flatness_3m" : "flatness_2m",
		        a->straightedges[i].rule);
	json_rule(j, "puddle_depth", a->puddle_rule);
	json_rule(j, "puddle_area", a->puddle_area_rule);
	json_end(j);
	json_asbuilt_points(j, s);
	json_gaps(j, a);
	json_puddles(j, a);
	if (a->has_four) {
		json_list(j, "sides", a->sides_um, 4);
		json_list(j, "diagonals", a->diagonals_um, 2);
	}
	json_end(j);
}

enum status sheet_asbuilt(FILE *to, const struct plan *plan, const struct asbuilt *a,
        enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_asbuilt, csv_asbuilt, json_asbuilt };
	struct asbuilt_sheet s = { plan, a };

	return sheet_write(to, &forms, &s, form, err);
}
