/* kerbs.c - how the edging stands, in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

/* --- text --- */

static void put_mix(FILE *to, const char *label, const struct kerb_mix *mix)
{
	text_line(to, label, "%.3f m3 compacted; %.1f kg of cement, %" PRId64 " bag%s of %d kg",
	        mix->m3, mix->cement_kg, mix->bags, mix->bags == 1 ? "" : "s", CEMENT_BAG_KG);
}

static void put_over(FILE *to, const char *label, int64_t um)
{
	char mm[40];

	text_line(to, label, "%s mm %s the finished surface",
	        mm_print(mm, sizeof mm, um < 0 ? -um : um), um < 0 ? "under" : "over");
}

static void put_section(FILE *to, const struct kerb_line *k)
{
	const struct plan_edging *e = k->edging;
	const struct kerb_section *s = &k->section;
	char a[40], b[40];

	put_over(to, "top", s->top_um);
	put_over(to, "underside", s->underside_um);
	put_over(to, "bottom of the trench", s->trench_um);
	text_line(to, "base strip", "%s x %s mm", mm_print(a, sizeof a, s->strip_width_um),
	        mm_print(b, sizeof b, e->strip_um));
	if (e->haunch_um)
		text_line(to, "haunch", "%s mm wide at its foot, %s mm up the unit, %s",
		        mm_print(a, sizeof a, e->haunch_um), mm_print(b, sizeof b, e->held_um),
		        e->haunch_both ? "on both sides" : "on the outer side");
	text_line(to, "held", "%s mm; a third of its height is %s mm (common practice)",
	        mm_print(a, sizeof a, e->haunch_um ? e->held_um : 0),
	        mm_print(b, sizeof b, s->least_held_um));
	text_line(
	        to, "per metre of run", "strip %.4f m3, haunch %.4f m3", s->strip_m2, s->haunch_m2);
	put_mix(to, bed_mix_name(e->bed), &k->mix);
}

static void put_unit(FILE *to, const struct kerb_line *k)
{
	char words[400], mm[40];

	if (!k->has_unit)
		return;
	text_line(to, "profile", "%s; a unit covers %s mm", edging_profile_name(k->edging->profile),
	        mm_print(mm, sizeof mm, k->cover_um));
	text_line(to, "mass of a unit", "%s", handling_print(words, sizeof words, &k->handling));
	if (k->mass_kg > 0)
		text_line(to, "mass of all to buy", "%.0f kg", k->mass_kg);
}

static void put_level(FILE *to, const char *what, double um, bool has_staff, double staff_um)
{
	fprintf(to, "%s %.1f mm", what, um / 1000);
	if (has_staff)
		fprintf(to, " (staff %.1f mm)", staff_um / 1000);
}

static void put_run(FILE *to, const struct takeoff *t, const struct kerb_run *r)
{
	char words[64];

	fprintf(to, "  string along %s, %.3f m: ",
	        plan_edge_words(words, sizeof words, &t->plan, r->edge), r->length_m);
	put_level(to, "top from", r->from_um, r->has_staff, r->from_staff_um);
	if (r->curved)
		put_level(to, " over", r->middle_um, r->has_staff, r->middle_staff_um);
	put_level(to, r->curved ? " in the middle to" : " to", r->to_um, r->has_staff,
	        r->to_staff_um);
	fprintf(to, ", falls %.1f mm/m; trench %.1f to %.1f mm%s\n",
	        r->fall_um_per_m == 0 ? 0 : r->fall_um_per_m / 1000, r->from_trench_um / 1000,
	        r->to_trench_um / 1000, r->dams ? "; stands over the surface" : "");
}

static void put_line(FILE *to, const struct takeoff *t, const struct kerb_line *k)
{
	fprintf(to, "%s edges", edge_kind_name(k->kind));
	if (*k->edging->name) {
		fputs(": ", to);
		sheet_put_text(to, k->edging->name);
	}
	fputc('\n', to);
	if (k->fault) {
		text_line(to, "cannot be worked out", "%s", k->fault);
		return;
	}
	text_line(to, "length", "%.3f m", k->length_m);
	put_section(to, k);
	put_unit(to, k);
	for (size_t i = 0; i < k->note_count; i++)
		text_line(to, "note", "%s", k->notes[i]);
	for (size_t i = 0; i < k->run_count; i++)
		put_run(to, t, &k->runs[i]);
	if (!k->run_count)
		text_line(to, "string lines", "none, as the surface has no levels; set a fall");
}

static void put_mixes(FILE *to, const struct kerb_result *kerbs)
{
	for (int i = 0; i < 2; i++)
		if (kerbs->by_mix[i].m3 > 0)
			put_mix(to, bed_mix_name((enum bed_mix)i), &kerbs->by_mix[i]);
}

void text_edging(FILE *to, const struct takeoff *t)
{
	text_title(to, t, "Edging");
	if (!t->kerbs.count)
		fputs("  No edging has a height, so none has a bed. Give its height and bed.\n",
		        to);
	for (size_t i = 0; i < t->kerbs.count; i++) {
		put_line(to, t, &t->kerbs.lines[i]);
		fputc('\n', to);
	}
	if (t->kerbs.count) {
		fputs("Beds and haunches together\n", to);
		put_mixes(to, &t->kerbs);
		fputs("\nA green haunch takes no load: no plate and no wheel beside it until it "
		      "has "
		      "hardened.\n",
		        to);
	}
}

void text_put_kerbs(FILE *to, const struct takeoff *t)
{
	if (!t->kerbs.count)
		return;
	fputs("\nBeds and haunches of the edging\n", to);
	put_mixes(to, &t->kerbs);
	for (size_t i = 0; i < t->kerbs.count; i++) {
		const struct kerb_line *k = &t->kerbs.lines[i];

		if (k->fault)
			text_line(to, "cannot be worked out", "%s", k->fault);
		for (size_t n = 0; n < k->note_count; n++)
			text_line(to, edge_kind_name(k->kind), "%s", k->notes[n]);
	}
}

/* --- CSV: kind, record, edge, figure, value, unit --- */

struct sink {
	struct row row;
	const char *kind, *record;
	int64_t edge; /* 0 none */
};

static void begin_figure(struct sink *s, const char *figure)
{
	row_text(&s->row, s->kind);
	row_text(&s->row, s->record);
	if (s->edge)
		row_int(&s->row, s->edge);
	else
		row_empty(&s->row);
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

static void number(struct sink *s, const char *figure, double value, const char *unit)
{
	begin_figure(s, figure);
	row_real(&s->row, value, 6);
	row_text(&s->row, unit);
	row_end(&s->row);
}

static void mix_rows(struct sink *s, const struct kerb_mix *mix)
{
	number(s, "volume", mix->m3, "m3");
	number(s, "cement", mix->cement_kg, "kg");
	begin_figure(s, "cement bags");
	row_int(&s->row, mix->bags);
	row_text(&s->row, "bags of 25 kg");
	row_end(&s->row);
}

static void section_rows(struct sink *s, const struct kerb_line *k)
{
	s->record = "section";
	number(s, "length", k->length_m, "m");
	length(s, "top over surface", (double)k->section.top_um);
	length(s, "underside over surface", (double)k->section.underside_um);
	length(s, "trench over surface", (double)k->section.trench_um);
	length(s, "strip width", (double)k->section.strip_width_um);
	length(s, "least held", (double)k->section.least_held_um);
	number(s, "strip per metre", k->section.strip_m2, "m3/m");
	number(s, "haunch per metre", k->section.haunch_m2, "m3/m");
	number(s, "strip", k->strip_m3, "m3");
	number(s, "haunch", k->haunch_m3, "m3");
	words(s, "mix", bed_mix_name(k->edging->bed));
	mix_rows(s, &k->mix);
	if (k->has_unit) {
		words(s, "profile", edging_profile_name(k->edging->profile));
		length(s, "unit covers", (double)k->cover_um);
		words(s, "lifted by", lift_class_name(k->handling.lift));
		if (k->unit_kg > 0) {
			number(s, "unit mass", k->unit_kg, "kg");
			number(s, "mass", k->mass_kg, "kg");
		}
	}
	for (size_t i = 0; i < k->note_count; i++)
		words(s, "note", k->notes[i]);
}

static void run_rows(struct sink *s, const struct kerb_run *r)
{
	s->record = "string";
	s->edge = (int64_t)r->edge + 1;
	number(s, "length", r->length_m, "m");
	length(s, "top from", r->from_um);
	length(s, "top to", r->to_um);
	if (r->curved)
		length(s, "top in the middle", r->middle_um);
	number(s, "fall", r->fall_um_per_m / 1000, "mm/m");
	length(s, "trench from", r->from_trench_um);
	length(s, "trench to", r->to_trench_um);
	if (r->has_staff) {
		length(s, "staff from", r->from_staff_um);
		length(s, "staff to", r->to_staff_um);
	}
	s->edge = 0;
}

void csv_edging(FILE *to, const struct takeoff *t)
{
	struct sink s = { .row = { to, false } };

	ROW_HEADER(&s.row, "kind", "record", "edge", "figure", "value", "unit");
	for (size_t i = 0; i < t->kerbs.count; i++) {
		const struct kerb_line *k = &t->kerbs.lines[i];

		s.kind = edge_kind_name(k->kind);
		s.record = "section";
		if (k->fault) {
			words(&s, "fault", k->fault);
			continue;
		}
		section_rows(&s, k);
		for (size_t n = 0; n < k->run_count; n++)
			run_rows(&s, &k->runs[n]);
	}
	for (int i = 0; i < 2; i++) {
		s.kind = "";
		s.record = bed_mix_name((enum bed_mix)i);
		if (t->kerbs.by_mix[i].m3 > 0)
			mix_rows(&s, &t->kerbs.by_mix[i]);
	}
}

/* --- JSON --- */

void json_handling(struct json *j, const char *key, const struct handling *h)
{
	json_object_tight(j, key);
	if (h->kg > 0)
		json_real(j, "kg", tidy(h->kg));
	else
		json_null(j, "kg");
	json_text(j, "lifted_by", lift_class_name(h->lift));
	json_text(j, "source", h->source);
	json_end(j);
}

static void json_mix(struct json *j, const char *key, const char *name, const struct kerb_mix *mix)
{
	json_object_tight(j, key);
	json_text(j, "mix", name);
	json_real(j, "volume_m3", tidy(mix->m3));
	json_real(j, "cement_kg", tidy(mix->cement_kg));
	json_int(j, "bags", mix->bags);
	json_int(j, "bag_kg", CEMENT_BAG_KG);
	json_end(j);
}

static void json_section(struct json *j, const struct kerb_line *k)
{
	const struct kerb_section *s = &k->section;

	json_object_tight(j, "section");
	json_mm(j, "top", s->top_um);
	json_mm(j, "underside", s->underside_um);
	json_mm(j, "trench", s->trench_um);
	json_mm(j, "strip_width", s->strip_width_um);
	json_mm(j, "least_held", s->least_held_um);
	json_bool(j, "held", s->held);
	json_real(j, "unit_m2", tidy(s->unit_m2));
	json_real(j, "strip_m2", tidy(s->strip_m2));
	json_real(j, "haunch_m2", tidy(s->haunch_m2));
	json_end(j);
	json_real(j, "strip_m3", tidy(k->strip_m3));
	json_real(j, "haunch_m3", tidy(k->haunch_m3));
	json_mix(j, "bed", bed_mix_name(k->edging->bed), &k->mix);
}

static void json_run(struct json *j, const struct kerb_run *r)
{
	json_object_tight(j, NULL);
	json_int(j, "edge", (int64_t)r->edge + 1);
	json_real(j, "length_m", tidy(r->length_m));
	real_mm(j, "from", r->from_um);
	real_mm(j, "to", r->to_um);
	if (r->curved) {
		real_mm(j, "middle", r->middle_um);
		point_mm(j, "middle_at", (double)r->middle_x_um, (double)r->middle_y_um);
	}
	real_mm(j, "fall", r->fall_um_per_m);
	real_mm(j, "trench_from", r->from_trench_um);
	real_mm(j, "trench_to", r->to_trench_um);
	if (r->has_staff) {
		real_mm(j, "staff_from", r->from_staff_um);
		real_mm(j, "staff_to", r->to_staff_um);
		if (r->curved)
			real_mm(j, "staff_middle", r->middle_staff_um);
	}
	json_bool(j, "over_surface", r->dams);
	json_end(j);
}

static void json_line(struct json *j, const struct kerb_line *k)
{
	json_object(j, NULL);
	json_text(j, "kind", edge_kind_name(k->kind));
	json_text(j, "name", k->edging->name);
	json_text(j, "fault", k->fault);
	if (!k->fault) {
		json_real(j, "length_m", tidy(k->length_m));
		json_section(j, k);
		if (k->has_unit) {
			json_text(j, "profile", edging_profile_name(k->edging->profile));
			json_mm(j, "covers", k->cover_um);
			json_handling(j, "unit", &k->handling);
			json_real(j, "mass_kg", tidy(k->mass_kg));
		}
	}
	json_array(j, "notes");
	for (size_t i = 0; i < k->note_count; i++)
		json_text(j, NULL, k->notes[i]);
	json_end(j);
	json_array(j, "strings");
	for (size_t i = 0; i < k->run_count; i++)
		json_run(j, &k->runs[i]);
	json_end(j);
	json_end(j);
}

void json_put_kerbs(struct json *j, const struct takeoff *t)
{
	json_array(j, "edging");
	for (size_t i = 0; i < t->kerbs.count; i++)
		json_line(j, &t->kerbs.lines[i]);
	json_end(j);
	json_array(j, "edging_beds");
	for (int i = 0; i < 2; i++)
		if (t->kerbs.by_mix[i].m3 > 0)
			json_mix(j, NULL, bed_mix_name((enum bed_mix)i), &t->kerbs.by_mix[i]);
	json_end(j);
}

void json_edging(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_put_kerbs(j, t);
	json_end(j);
}
