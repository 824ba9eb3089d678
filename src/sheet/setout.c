/* setout.c - setting out in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <math.h>
#include <stdlib.h>

struct setout_sheet {
	const struct plan *plan;
	const struct setout *s;
};

/* A tape is read to the millimetre. */
static const char *taped(char buf[40], double um)
{
	return length_print(buf, 40, llround(um / 1000) * 1000, UNIT_M);
}

static const char *side_of(double offset_um)
{
	if (fabs(offset_um) < 0.5 * UM_PER_MM)
		return "on";
	return offset_um > 0 ? "left" : "right";
}

static void name_baseline(char *buf, size_t size, const struct setout_sheet *what)
{
	char edge[64];

	if (what->s->chosen)
		snprintf(buf, size, "%s%s",
		        plan_edge_words(edge, sizeof edge, what->plan, what->s->edge),
		        what->s->house_wall ? " (house wall)" : "");
	else
		snprintf(buf, size, "as laid out");
}

/* --- text --- */

static void text_baseline(FILE *to, const struct setout_sheet *what)
{
	const struct setout *s = what->s;
	char name[100], l[40], x0[40], y0[40], x1[40], y1[40];

	name_baseline(name, sizeof name, what);
	fputs("Baseline\n", to);
	text_line(to, "baseline", "%s, %s long", name, taped(l, s->length_um));
	text_line(to, "first end", "at x %s, y %s", taped(x0, s->first.x), taped(y0, s->first.y));
	text_line(
	        to, "second end", "at x %s, y %s", taped(x1, s->second.x), taped(y1, s->second.y));
	fputs("  \"Along\" is measured from the first end, \"left\" and \"right\" square from the "
	      "baseline, looking from the first end to the second; all level, not down the "
	      "slope.\n",
	        to);
}

static void text_points(FILE *to, const struct setout *s)
{
	char along[40], off[40], first[40], second[40];

	fputs("\nPoints\n", to);
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[i];

		fputs("  ", to);
		sheet_put_text(to, p->name);
		fprintf(to, ": along %s, ", taped(along, p->chainage_um));
		if (fabs(p->offset_um) < 0.5 * UM_PER_MM)
			fputs("on the line", to);
		else
			fprintf(to, "%s %s", side_of(p->offset_um), taped(off, fabs(p->offset_um)));
		fprintf(to, "; tapes %s and %s%s\n", taped(first, p->tie_first_um),
		        taped(second, p->tie_second_um),
		        p->weak_tie && fabs(p->offset_um) >= 0.5 * UM_PER_MM
		                ? " (cross too flat: use along and square)"
		                : "");
	}
}

static void text_running(FILE *to, const struct setout *s)
{
	char along[40];

	fputs("\nRunning dimensions along the baseline\n", to);
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[s->running[i]];

		fprintf(to, "  %s  ", taped(along, p->chainage_um));
		sheet_put_text(to, p->name);
		fputc('\n', to);
	}
}

static bool is_rectangle(const struct plan *plan, const struct setout *s)
{
	const struct plan_ring *r = &plan->rings[0];
	size_t square = 0;

	for (size_t i = 0; i < s->triple_count; i++)
		square += s->triples[i].ring == 0;
	return r->count == 4 && square == 4;
}

/* What a difference of 10 mm between the diagonals of a rectangle means at its shorter side. */
static void text_out_of_square(FILE *to, const struct plan *plan)
{
	double a = edge_length_um(&plan->rings[0], 0), b = edge_length_um(&plan->rings[0], 1),
	       shorter = fmin(a, b);
	char side[40];

	fprintf(to,
	        "  Measure opposite sides too: equal diagonals alone prove nothing. Diagonals that "
	        "differ by 10 mm mean %.1f mm out of square over %s.\n",
	        out_of_square_rad(a, b, 10000, 0) * shorter / UM_PER_MM, taped(side, shorter));
}

static void text_diagonals(FILE *to, const struct setout_sheet *what)
{
	const struct setout *s = what->s;
	char l[40];

	if (!s->diagonal_count)
		return;
	fputs("\nDiagonals between corners of the outline\n", to);
	for (size_t i = 0; i < s->diagonal_count; i++) {
		const struct setout_diagonal *d = &s->diagonals[i];

		fprintf(to, "  corner %zu to corner %zu: %s%s\n", d->from + 1, d->to + 1,
		        taped(l, d->length_um), d->check ? ", a check" : "");
	}
	if (is_rectangle(what->plan, s))
		text_out_of_square(to, what->plan);
}

static void corner_name(char *buf, size_t size, const struct setout_triple *t)
{
	if (t->ring == 0)
		snprintf(buf, size, "corner %zu", t->at + 1);
	else
		snprintf(buf, size, "opening %zu corner %zu", t->ring, t->at + 1);
}

static void text_triples(FILE *to, const struct setout_sheet *what)
{
	char name[60], in[40], out[40], across[40];

	if (!what->s->triple_count)
		return;
	fputs("\n3-4-5 at square corners\n", to);
	for (size_t i = 0; i < what->s->triple_count; i++) {
		const struct setout_triple *t = &what->s->triples[i];
		size_t count = what->plan->rings[t->ring].count;
		int64_t leads = t->leg_4_leads ? t->leg_4_um : t->leg_3_um,
		        comes = t->leg_4_leads ? t->leg_3_um : t->leg_4_um;

		corner_name(name, sizeof name, t);
		fprintf(to, "  %s: %s toward corner %zu, %s toward corner %zu, %s across\n", name,
		        taped(in, (double)comes), (t->at + count - 1) % count + 1,
		        taped(out, (double)leads), (t->at + 1) % count + 1,
		        taped(across, (double)t->long_5_um));
	}
}

static void text_arcs(FILE *to, const struct setout_sheet *what)
{
	char name[64], chord[40], rise[40], radius[40], along[40], off[40];

	for (size_t i = 0; i < what->s->arc_count; i++) {
		const struct setout_arc *a = &what->s->arcs[i];

		if (i == 0)
			fputs("\nArcs: offsets from the chord, square from it\n", to);
		fprintf(to, "  %s: chord %s, rise %s %s, radius %s;",
		        plan_edge_words(name, sizeof name, what->plan, a->edge),
		        taped(chord, a->chord_um), taped(rise, fabs(a->rise_um)),
		        a->rise_um > 0 ? "outward" : "inward", taped(radius, a->radius_um));
		for (size_t k = 0; k < a->count; k++)
			fprintf(to, "%s at %s %s", k ? "," : "",
			        taped(along, a->offsets[k].along_um),
			        taped(off, fabs(a->offsets[k].offset_um)));
		fputc('\n', to);
	}
}

static void text_setout(FILE *to, const void *what)
{
	const struct setout_sheet *s = what;

	text_heading(to, s->plan, "Setting out");
	text_baseline(to, s);
	text_points(to, s->s);
	text_running(to, s->s);
	text_diagonals(to, s);
	text_triples(to, s);
	text_arcs(to, s);
	fputs("\nCautions\n", to);
	text_caution(to, "Pegs and pins: have buried services located and marked before any is "
	                 "driven.");
}

/* --- CSV --- */

static void cells_mm(struct row *r, const double *um, size_t from, size_t count, size_t of)
{
	for (size_t i = 0; i < of; i++)
		if (i >= from && i < from + count)
			row_mm(r, um[i - from]);
		else
			row_empty(r);
	row_end(r);
}

enum { CELLS = 7 };

/* What a row tells, its name, and its cells from the from-th on. */
#define CSV_CELLS(r, what, name, from, ...)                                                        \
	do {                                                                                       \
		const double cells_[] = { __VA_ARGS__ };                                           \
		row_text((r), (what));                                                             \
		row_text((r), (name));                                                             \
		cells_mm((r), cells_, (from), sizeof cells_ / sizeof *cells_, CELLS);              \
	} while (0)

static void csv_points(struct row *r, const struct setout *s)
{
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[i];

		CSV_CELLS(r, p->is_peg ? "peg" : "point", p->name, 0, p->x_um, p->y_um,
		        p->chainage_um, p->offset_um, p->tie_first_um, p->tie_second_um);
	}
}

static void csv_proofs(struct row *r, const struct setout_sheet *what)
{
	const struct setout *s = what->s;
	char name[100];

	for (size_t i = 0; i < s->diagonal_count; i++) {
		const struct setout_diagonal *d = &s->diagonals[i];

		snprintf(name, sizeof name, "corner %zu to corner %zu", d->from + 1, d->to + 1);
		CSV_CELLS(r, d->check ? "check diagonal" : "diagonal", name, 6, d->length_um);
	}
	for (size_t i = 0; i < s->triple_count; i++) {
		const struct setout_triple *t = &s->triples[i];

		corner_name(name, sizeof name, t);
		CSV_CELLS(r, "3-4-5", name, 4, (double)(t->leg_4_leads ? t->leg_3_um : t->leg_4_um),
		        (double)(t->leg_4_leads ? t->leg_4_um : t->leg_3_um), (double)t->long_5_um);
	}
	for (size_t i = 0; i < s->arc_count; i++)
		for (size_t k = 0; k < s->arcs[i].count; k++)
			CSV_CELLS(r, "arc",
			        plan_edge_words(name, sizeof name, what->plan, s->arcs[i].edge), 2,
			        s->arcs[i].offsets[k].along_um, s->arcs[i].offsets[k].offset_um);
}

static void csv_setout(FILE *to, const void *what)
{
	const struct setout_sheet *s = what;
	struct row r = { .to = to };
	char name[100];

	ROW_HEADER(&r, "what", "name", "x_mm", "y_mm", "along_mm", "offset_mm", "first_mm",
	        "second_mm", "length_mm");
	name_baseline(name, sizeof name, s);
	CSV_CELLS(&r, "baseline first", name, 0, s->s->first.x, s->s->first.y);
	CSV_CELLS(&r, "baseline second", name, 0, s->s->second.x, s->s->second.y, s->s->length_um,
	        0, s->s->length_um, 0, s->s->length_um);
	csv_points(&r, s->s);
	csv_proofs(&r, s);
}

/* --- JSON --- */

static void put_mm(struct json *j, const char *key, double um)
{
	json_mm(j, key, llround(um));
}

static void put_point(struct json *j, const char *key, struct point p)
{
	json_array_tight(j, key);
	put_mm(j, NULL, p.x);
	put_mm(j, NULL, p.y);
	json_end(j);
}

static void json_baseline(struct json *j, const struct setout_sheet *what)
{
	char name[100];

	name_baseline(name, sizeof name, what);
	json_object_tight(j, "baseline");
	json_text(j, "name", name);
	put_point(j, "first", what->s->first);
	put_point(j, "second", what->s->second);
	put_mm(j, "length", what->s->length_um);
	json_end(j);
}

static void json_points(struct json *j, const struct setout *s)
{
	json_array(j, "points");
	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[i];

		json_object_tight(j, NULL);
		json_text(j, "name", p->name);
		put_mm(j, "x", p->x_um);
		put_mm(j, "y", p->y_um);
		put_mm(j, "along", p->chainage_um);
		put_mm(j, "offset", p->offset_um);
		json_text(j, "side", side_of(p->offset_um));
		put_mm(j, "tape_first", p->tie_first_um);
		put_mm(j, "tape_second", p->tie_second_um);
		json_bool(j, "weak", p->weak_tie);
		json_bool(j, "peg", p->is_peg);
		json_end(j);
	}
	json_end(j);
	json_array_tight(j, "running");
	for (size_t i = 0; i < s->point_count; i++)
		json_int(j, NULL, (int64_t)s->running[i]);
	json_end(j);
}

static void json_diagonals(struct json *j, const struct setout *s)
{
	json_array(j, "diagonals");
	for (size_t i = 0; i < s->diagonal_count; i++) {
		const struct setout_diagonal *d = &s->diagonals[i];

		json_object_tight(j, NULL);
		json_int(j, "from", (int64_t)d->from + 1);
		json_int(j, "to", (int64_t)d->to + 1);
		put_mm(j, "length", d->length_um);
		json_bool(j, "check", d->check);
		json_end(j);
	}
	json_end(j);
}

static void json_triples(struct json *j, const struct setout *s)
{
	char name[60];

	json_array(j, "triples");
	for (size_t i = 0; i < s->triple_count; i++) {
		const struct setout_triple *t = &s->triples[i];

		corner_name(name, sizeof name, t);
		json_object_tight(j, NULL);
		json_text(j, "corner", name);
		json_mm(j, "before", t->leg_4_leads ? t->leg_3_um : t->leg_4_um);
		json_mm(j, "after", t->leg_4_leads ? t->leg_4_um : t->leg_3_um);
		json_mm(j, "across", t->long_5_um);
		json_end(j);
	}
	json_end(j);
}

static void json_arcs(struct json *j, const struct setout *s)
{
	json_array(j, "arcs");
	for (size_t i = 0; i < s->arc_count; i++) {
		const struct setout_arc *a = &s->arcs[i];

		json_object(j, NULL);
		json_int(j, "edge", (int64_t)a->edge + 1);
		put_mm(j, "chord", a->chord_um);
		put_mm(j, "rise", a->rise_um);
		put_mm(j, "radius", a->radius_um);
		json_array_tight(j, "offsets");
		for (size_t k = 0; k < a->count; k++)
			put_point(j, NULL,
			        (struct point){ a->offsets[k].along_um, a->offsets[k].offset_um });
		json_end(j);
		json_end(j);
	}
	json_end(j);
}

static void json_setout(struct json *j, const void *what)
{
	const struct setout_sheet *s = what;

	json_object(j, NULL);
	json_text(j, "variant", s->plan->name);
	json_baseline(j, s);
	json_points(j, s->s);
	json_diagonals(j, s->s);
	json_triples(j, s->s);
	json_arcs(j, s->s);
	json_end(j);
}

enum status sheet_setout(FILE *to, const struct plan *plan, const struct setout *s,
        enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_setout, csv_setout, json_setout };
	struct setout_sheet what = { plan, s };

	return sheet_write(to, &forms, &what, form, err);
}
