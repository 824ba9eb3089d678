/* flights.c - flights of steps in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

static const char *check_unit(const struct step_check *c)
{
	return c->rule->unit;
}

/* --- text --- */

static void put_name(FILE *to, const struct takeoff *t, size_t i)
{
	const char *name = t->plan.steps[i].name;

	fprintf(to, "Flight %zu", i + 1);
	if (*name) {
		fputs(", ", to);
		sheet_put_text(to, name);
	}
}

static void put_checks(FILE *to, const struct flight *f)
{
	for (size_t i = 0; i < f->check_count; i++) {
		const struct step_check *c = &f->checks[i];

		fprintf(to, "  %s: %s %.1f, %s %g %s (", c->obeyed ? "obeyed" : "BROKEN", c->what,
		        c->is / 1000, c->least ? "at least" : "at most",
		        (double)c->rule->number / 1000, check_unit(c));
		sheet_put_text(to, c->rule->source);
		fputs(")\n", to);
	}
	if (!f->check_count)
		text_line(to, "limits", "none in the rule set");
}

static void put_figures(FILE *to, const struct flight *f)
{
	char a[40], b[40], c[40];

	text_line(to, "risers", "%" PRId64 " of %.1f mm, %s", f->risers, f->riser_um / 1000,
	        f->chosen ? "chosen" : "as set");
	text_line(to, "going", "%s mm; two risers and a going %.1f mm, pitch %.2f degrees",
	        mm_print(a, sizeof a, f->steps->going_um), f->pace_um / 1000, f->pitch_deg);
	text_line(to, "run", "%s mm from the top nosing to the bottom one; width %s mm",
	        mm_print(a, sizeof a, f->run_um), mm_print(b, sizeof b, f->steps->width_um));
	text_line(to, "treads fall", "%s mm to the front, which is part of each riser",
	        mm_print(c, sizeof c, f->tread_fall_um));
}

static void put_rows(FILE *to, const struct flight *f)
{
	char level[40], under[40], seen[40], sunk[40], bed[40];

	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];

		fprintf(to, "  row %zu%s: nosing %s mm, underside %s mm, %s mm show, bed %s mm",
		        i + 1, i == 0 ? " (bottom)" : "",
		        mm_print(level, sizeof level, r->level_um),
		        mm_print(under, sizeof under, r->underside_um),
		        mm_print(seen, sizeof seen, r->visible_um),
		        mm_print(bed, sizeof bed, r->bed_um));
		if (r->sunk_um)
			fprintf(to, ", sunk %s mm", mm_print(sunk, sizeof sunk, r->sunk_um));
		fputc('\n', to);
	}
}

static void put_order(FILE *to, const char *what, const struct step_order *o)
{
	fprintf(to, "  %s: %" PRId64 " to buy (%" PRId64 " laid whole, %" PRId64 " cut piece%s; ",
	        what, o->units, o->whole, o->cut, o->cut == 1 ? "" : "s");
	if (o->units <= o->bound)
		fputs("least possible)\n", to);
	else
		fprintf(to, "may be over by %" PRId64 ")\n", o->units - o->bound);
}

static void put_bought(FILE *to, const struct flight *f)
{
	const struct plan_steps *s = f->steps;
	bool built = s->build == STEPS_BUILT;
	char words[400], a[40], b[40], c[40];

	fputs("  of: ", to);
	if (*s->unit_name) {
		sheet_put_text(to, s->unit_name);
		fputs(", ", to);
	}
	mm_print(a, sizeof a, s->unit_length_um);
	mm_print(b, sizeof b, s->unit_depth_um);
	if (built)
		fprintf(to, "slabs %s x %s x %s mm on riser pieces %s mm long and %g mm high\n", a,
		        b, mm_print(c, sizeof c, s->tread_um), a, (double)s->unit_height_um / 1000);
	else
		fprintf(to, "units %s x %s x %s mm\n", a, b,
		        mm_print(c, sizeof c, s->unit_height_um));
	put_order(to, built ? "riser pieces" : "units", &f->order);
	if (built && f->risers > 1)
		put_order(to, "tread slabs", &f->slabs);
	text_line(to, "mass of one", "%s", handling_print(words, sizeof words, &f->handling));
	if (f->mass_kg > 0)
		text_line(to, "mass of all to buy", "%.0f kg", f->mass_kg);
	if (f->price_minor >= 0)
		text_line(to, "price", "%s", money_print(a, sizeof a, f->price_minor));
	if (!built && f->risers > 1)
		text_line(to, "overlap", "%s mm of each unit under the next",
		        mm_print(a, sizeof a, f->overlap_um));
	text_line(to, "bed", "%.3f m3", f->bed_m3);
	if (f->landing_m2 > 0)
		text_line(to, "landing at the foot", "%.3f m2", f->landing_m2);
	if (f->flank_m > 0)
		text_line(to, "flank walls", "2, each %.3f m long, %.3f m2 of side over the foot",
		        f->flank_m, f->flank_m2);
}

static void put_rise(FILE *to, const struct flight *f)
{
	char a[40], b[40], c[40];

	text_line(to, "rise", "%s mm, from %s mm at the foot to %s mm at the top",
	        mm_print(a, sizeof a, f->rise_um), mm_print(b, sizeof b, f->bottom_um),
	        mm_print(c, sizeof c, f->top_um));
}

static void put_flight(FILE *to, const struct takeoff *t, size_t i)
{
	const struct flight *f = &t->steps.flights[i];

	put_name(to, t, i);
	fputc('\n', to);
	if (f->fault) {
		text_line(to, "cannot be worked out", "%s", f->fault);
		return;
	}
	put_rise(to, f);
	put_figures(to, f);
	put_checks(to, f);
	put_rows(to, f);
	put_bought(to, f);
	for (size_t n = 0; n < f->note_count; n++)
		text_line(to, "note", "%s", f->notes[n]);
}

void text_steps(FILE *to, const struct takeoff *t)
{
	text_title(to, t, "Steps");
	if (!t->steps.count)
		fputs("  The plan has no steps.\n", to);
	for (size_t i = 0; i < t->steps.count; i++) {
		put_flight(to, t, i);
		fputc('\n', to);
	}
	if (t->steps.count) {
		fputs("Rule set: ", to);
		sheet_put_text(to, t->rules.name);
		fputs("\nLocal codes and licensed practice come before every figure given here.\n",
		        to);
	}
}

void text_put_flights(FILE *to, const struct takeoff *t)
{
	if (!t->steps.count)
		return;
	fputs("\nSteps\n", to);
	for (size_t i = 0; i < t->steps.count; i++) {
		const struct flight *f = &t->steps.flights[i];

		fputs("  ", to);
		put_name(to, t, i);
		if (f->fault)
			fprintf(to, ": cannot be worked out. %s\n", f->fault);
		else
			fprintf(to,
			        ": %" PRId64 " risers of %.1f mm, going %g mm, %s; %" PRId64
			        " %s to buy\n",
			        f->risers, f->riser_um / 1000, (double)f->steps->going_um / 1000,
			        f->obeys ? "obeys the rule set" : "breaks a limit of the rule set",
			        f->order.units,
			        f->steps->build == STEPS_BUILT ? "riser pieces" : "units");
	}
}

/* --- CSV: flight, item, figure, value, unit --- */

struct sink {
	struct row row;
	int64_t flight;
	const char *item;
};

static void begin_figure(struct sink *s, const char *figure)
{
	row_int(&s->row, s->flight);
	row_text(&s->row, s->item);
	row_text(&s->row, figure);
}

static void words(struct sink *s, const char *figure, const char *text)
{
	begin_figure(s, figure);
	row_text(&s->row, text);
	row_empty(&s->row);
	row_end(&s->row);
}

static void length(struct sink *s, const char *figure, double um)
{
	begin_figure(s, figure);
	row_mm(&s->row, um);
	row_text(&s->row, "mm");
	row_end(&s->row);
}

static void count(struct sink *s, const char *figure, int64_t n)
{
	begin_figure(s, figure);
	row_int(&s->row, n);
	row_empty(&s->row);
	row_end(&s->row);
}

static void number(struct sink *s, const char *figure, double value, const char *unit)
{
	begin_figure(s, figure);
	row_real(&s->row, value, 6);
	row_text(&s->row, unit);
	row_end(&s->row);
}

static void order_rows(struct sink *s, const char *item, const struct step_order *o)
{
	s->item = item;
	count(s, "to buy", o->units);
	count(s, "at least", o->bound);
	count(s, "whole", o->whole);
	count(s, "cut", o->cut);
}

static void figure_rows(struct sink *s, const struct flight *f)
{
	s->item = "";
	length(s, "rise", (double)f->rise_um);
	count(s, "risers", f->risers);
	length(s, "riser", f->riser_um);
	length(s, "going", (double)f->steps->going_um);
	length(s, "two risers and a going", f->pace_um);
	number(s, "pitch", f->pitch_deg, "degrees");
	length(s, "run", (double)f->run_um);
	length(s, "fall of a tread", (double)f->tread_fall_um);
	words(s, "obeys", f->obeys ? "yes" : "no");
	words(s, "lifted by", lift_class_name(f->handling.lift));
	if (f->handling.kg > 0)
		number(s, "mass of one", f->handling.kg, "kg");
	number(s, "bed", f->bed_m3, "m3");
	number(s, "landing", f->landing_m2, "m2");
	number(s, "flank wall length", f->flank_m, "m");
	number(s, "flank wall side", f->flank_m2, "m2");
	words(s, "handrail", f->handrail ? "yes" : "no");
	words(s, "guarded sides", f->guard ? "yes" : "no");
}

static void row_rows(struct sink *s, const struct flight *f)
{
	char item[40];

	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];

		snprintf(item, sizeof item, "row %zu", i + 1);
		s->item = item;
		length(s, "nosing", (double)r->level_um);
		length(s, "riser", (double)r->riser_um);
		length(s, "shows", (double)r->visible_um);
		length(s, "sunk", (double)r->sunk_um);
		length(s, "bed", (double)r->bed_um);
		length(s, "underside", (double)r->underside_um);
		length(s, "from the top nosing", (double)r->front_um);
	}
	s->item = "";
}

static void flight_rows(struct sink *s, const struct flight *f)
{
	figure_rows(s, f);
	for (size_t i = 0; i < f->check_count; i++) {
		s->item = f->checks[i].rule->key;
		words(s, f->checks[i].what, f->checks[i].obeyed ? "obeyed" : "broken");
	}
	row_rows(s, f);
	order_rows(s, f->steps->build == STEPS_BUILT ? "riser pieces" : "units", &f->order);
	if (f->steps->build == STEPS_BUILT)
		order_rows(s, "tread slabs", &f->slabs);
	s->item = "";
	for (size_t i = 0; i < f->note_count; i++)
		words(s, "note", f->notes[i]);
}

void csv_steps(FILE *to, const struct takeoff *t)
{
	struct sink s = { .row = { to, false }, .item = "" };

	ROW_HEADER(&s.row, "flight", "item", "figure", "value", "unit");
	for (size_t i = 0; i < t->steps.count; i++) {
		s.flight = (int64_t)i + 1;
		s.item = "";
		words(&s, "name", t->plan.steps[i].name);
		if (t->steps.flights[i].fault)
			words(&s, "fault", t->steps.flights[i].fault);
		else
			flight_rows(&s, &t->steps.flights[i]);
	}
}

/* --- JSON --- */

static void json_checks(struct json *j, const struct flight *f)
{
	json_array(j, "checks");
	for (size_t i = 0; i < f->check_count; i++) {
		const struct step_check *c = &f->checks[i];

		json_object_tight(j, NULL);
		json_text(j, "key", c->rule->key);
		json_text(j, "what", c->what);
		json_real(j, "is", tidy(c->is / 1000));
		json_real(j, "limit", (double)c->rule->number / 1000);
		json_text(j, "unit", check_unit(c));
		json_bool(j, "obeyed", c->obeyed);
		json_text(j, "source", c->rule->source);
		json_end(j);
	}
	json_end(j);
}

static void json_rows(struct json *j, const struct flight *f)
{
	json_array(j, "rows");
	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];

		json_object_tight(j, NULL);
		json_mm(j, "nosing", r->level_um);
		json_mm(j, "riser", r->riser_um);
		json_mm(j, "shows", r->visible_um);
		json_mm(j, "sunk", r->sunk_um);
		json_mm(j, "bed", r->bed_um);
		json_mm(j, "top", r->top_um);
		json_mm(j, "underside", r->underside_um);
		json_mm(j, "front", r->front_um);
		json_mm(j, "back", r->back_um);
		json_mm(j, "face", r->face_um);
		json_end(j);
	}
	json_end(j);
}

static void json_pieces(struct json *j, const struct flight *f)
{
	json_array(j, "pieces");
	for (size_t i = 0; i < f->piece_count; i++) {
		const struct step_piece *p = &f->pieces[i];

		json_object_tight(j, NULL);
		json_int(j, "row", (int64_t)p->row + 1);
		json_bool(j, "tread", p->tread);
		json_bool(j, "cut", p->cut);
		json_mm(j, "from", p->from_um);
		json_mm(j, "length", p->length_um);
		json_array_tight(j, "ring");
		for (int k = 0; k < 4; k++)
			point_mm(j, NULL, p->corner[k].x, p->corner[k].y);
		json_end(j);
		json_end(j);
	}
	json_end(j);
}

static void json_order(struct json *j, const char *key, const struct step_order *o)
{
	json_object_tight(j, key);
	json_int(j, "units", o->units);
	json_int(j, "bound", o->bound);
	json_int(j, "whole", o->whole);
	json_int(j, "cut", o->cut);
	json_end(j);
}

static void json_stack(struct json *j, const struct flight *f)
{
	json_object_tight(j, "stacked");
	json_int(j, "risers", f->stack.risers);
	json_mm(j, "riser", f->stack.riser_um);
	json_mm(j, "bottom", f->stack.bottom_um);
	json_mm(j, "sunk", f->stack.sunk_um);
	json_bool(j, "even", f->stack.even);
	json_end(j);
}

static void json_figures(struct json *j, const struct flight *f)
{
	json_int(j, "risers", f->risers);
	json_bool(j, "chosen", f->chosen);
	real_mm(j, "riser", f->riser_um);
	json_mm(j, "going", f->steps->going_um);
	real_mm(j, "two_r_plus_g", f->pace_um);
	json_real(j, "pitch", tidy(f->pitch_deg));
	json_mm(j, "run", f->run_um);
	json_mm(j, "width", f->steps->width_um);
	json_mm(j, "tread_fall", f->tread_fall_um);
	json_bool(j, "obeys", f->obeys);
	json_bool(j, "handrail", f->handrail);
	json_bool(j, "guard", f->guard);
	if (f->other_risers)
		json_int(j, "other_risers", f->other_risers);
	else
		json_null(j, "other_risers");
}

static void json_built(struct json *j, const struct flight *f)
{
	json_text(j, "build", steps_build_name(f->steps->build));
	if (f->steps->build == STEPS_UNITS) {
		json_mm(j, "overlap", f->overlap_um);
		json_stack(j, f);
		json_order(j, "units", &f->order);
	} else {
		json_order(j, "riser_pieces", &f->order);
		json_order(j, "tread_slabs", &f->slabs);
	}
	json_handling(j, "unit", &f->handling);
	json_real(j, "mass_kg", tidy(f->mass_kg));
	json_real(j, "bed_m3", tidy(f->bed_m3));
	json_real(j, "landing_m2", tidy(f->landing_m2));
	json_real(j, "flank_m", tidy(f->flank_m));
	json_real(j, "flank_m2", tidy(f->flank_m2));
	minor_or_null(j, "price_minor", f->price_minor);
}

static void json_flight(struct json *j, const struct flight *f)
{
	json_object(j, NULL);
	json_text(j, "name", f->steps->name);
	json_text(j, "fault", f->fault);
	if (!f->fault) {
		json_mm(j, "top", f->top_um);
		json_mm(j, "foot", f->bottom_um);
		json_mm(j, "rise", f->rise_um);
		json_figures(j, f);
		json_checks(j, f);
		json_rows(j, f);
		json_built(j, f);
		json_pieces(j, f);
	}
	json_array(j, "notes");
	for (size_t i = 0; i < f->note_count; i++)
		json_text(j, NULL, f->notes[i]);
	json_end(j);
	json_end(j);
}

void json_put_flights(struct json *j, const struct takeoff *t)
{
	json_array(j, "steps");
	for (size_t i = 0; i < t->steps.count; i++)
		json_flight(j, &t->steps.flights[i]);
	json_end(j);
}

void json_steps(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_put_flights(j, t);
	json_end(j);
}
