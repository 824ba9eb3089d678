/* csv.c - sheets for spreadsheets, by RFC 4180: a header row, CRLF, quotes doubled.
 *
 * A text cell that a spreadsheet would take for a formula gets an apostrophe in front; numbers are
 * written as numbers, with a decimal point and no thousands sign. A row is built cell by cell; the
 * separator is written before every cell but the first. */
#include "form.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

struct row {
	FILE *to;
	bool started;
};

static void separate(struct row *r)
{
	if (r->started)
		fputc(',', r->to);
	r->started = true;
}

static void end_row(struct row *r)
{
	fputs("\r\n", r->to);
	r->started = false;
}

static void text_cell(struct row *r, const char *text)
{
	bool formula = *text && strchr("=+-@\t\r\n", *text) != NULL;

	separate(r);
	if (!formula && !strpbrk(text, "\",\r\n")) {
		sheet_put_text(r->to, text);
		return;
	}
	fputs(formula ? "\"'" : "\"", r->to);
	for (const char *rest = text; *rest;) {
		char part[64];
		size_t n = 0;

		/* Cut where a character begins, so that none is taken apart. */
		while (*rest && n < sizeof part - 6) {
			if (*rest == '"')
				part[n++] = '"';
			do
				part[n++] = *rest++;
			while (((unsigned char)*rest & 0xC0) == 0x80 && n < sizeof part - 1);
		}
		part[n] = '\0';
		sheet_put_text(r->to, part);
	}
	fputc('"', r->to);
}

static void int_cell(struct row *r, int64_t n)
{
	separate(r);
	fprintf(r->to, "%" PRId64, n);
}

static void real_cell(struct row *r, double value, int decimals)
{
	separate(r);
	fprintf(r->to, "%.*f", decimals, value);
}

static void mm_cell(struct row *r, double um)
{
	char mm[40];

	separate(r);
	fputs(mm_print(mm, sizeof mm, llround(um)), r->to);
}

static void empty_cell(struct row *r)
{
	separate(r);
}

static void header(struct row *r, const char *const *names, size_t count)
{
	for (size_t i = 0; i < count; i++)
		text_cell(r, names[i]);
	end_row(r);
}

#define HEADER(r, ...)                                                                             \
	header((r), (const char *const[]){ __VA_ARGS__ },                                          \
	        sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(char *))

/* section, figure, value, unit */

static void count_row(struct row *r, const char *section, const char *figure, int64_t n)
{
	text_cell(r, section);
	text_cell(r, figure);
	int_cell(r, n);
	empty_cell(r);
	end_row(r);
}

static void real_row(
        struct row *r, const char *section, const char *figure, double value, const char *unit)
{
	text_cell(r, section);
	text_cell(r, figure);
	real_cell(r, value, 6);
	text_cell(r, unit);
	end_row(r);
}

static void mm_row(struct row *r, const char *section, const char *figure, double um)
{
	text_cell(r, section);
	text_cell(r, figure);
	mm_cell(r, um);
	text_cell(r, "mm");
	end_row(r);
}

static void text_row(struct row *r, const char *section, const char *figure, const char *text)
{
	text_cell(r, section);
	text_cell(r, figure);
	text_cell(r, text);
	empty_cell(r);
	end_row(r);
}

static void money_row(struct row *r, const char *figure, int64_t minor)
{
	char money[40];

	if (minor < 0)
		return;
	text_cell(r, "order");
	text_cell(r, figure);
	separate(r);
	fputs(money_print(money, sizeof money, minor), r->to);
	text_cell(r, "money");
	end_row(r);
}

static void laying_rows(struct row *r, const struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;

	if (bond_of_one_slab(l->bond)) {
		text_row(r, "laying", "slab name", l->slab.name);
		mm_row(r, "laying", "slab length, work size",
		        (double)slab_size(&l->slab).length_um);
		mm_row(r, "laying", "slab width, work size", (double)slab_size(&l->slab).width_um);
	}
	mm_row(r, "laying", "slab thickness", (double)l->slab.thickness_um);
	mm_row(r, "laying", "joint", (double)l->slab.joint_um);
	text_row(r, "laying", "bond", bond_name(l->bond));
	count_row(r, "laying", "whole", t->laid.whole);
	count_row(r, "laying", "cut", t->laid.cut);
	count_row(r, "laying", "sliver", t->laid.sliver);
	count_row(r, "laying", "made up", t->laid.made_up);
	real_row(r, "laying", "pieces area", t->laid.pieces_area_m2, "m2");
}

/* The paving's parts, where there are several. */
static void section_rows(struct row *r, const struct paving *p)
{
	for (size_t i = 0; i < p->section_count && p->section_count > 1; i++) {
		const struct section *s = &p->sections[i];

		real_row(r, s->name, "area", s->area_m2, "m2");
		count_row(r, s->name, "whole", s->laid.whole);
		count_row(r, s->name, "cut", s->laid.cut);
		count_row(r, s->name, "sliver", s->laid.sliver);
		count_row(r, s->name, "made up", s->laid.made_up);
		if (s->curved)
			mm_row(r, s->name, "joint at the wide end", s->wide_joint_um);
		if (s->kind == SECTION_ZONE) {
			mm_row(r, s->name, "level over the surface", (double)s->level_um);
			real_row(r, s->name, "edges within the paving", s->shared_m, "m");
		}
	}
}

static void order_rows(struct row *r, const struct takeoff *t)
{
	const struct order *o = &t->order;

	count_row(r, "cut plan", "slabs", (int64_t)t->cuts.slabs);
	count_row(r, "cut plan", "bound", (int64_t)t->cuts.bound);
	text_row(r, "cut plan", "reason", t->cuts.reason);
	count_row(r, "order", "needed", o->needed);
	count_row(r, "order", "allowance", o->allowance);
	count_row(r, "order", "slabs", o->slabs);
	count_row(r, "order", "rule of thumb", o->rule_of_thumb);
	if (o->packs)
		count_row(r, "order", "packs of the mix", o->packs);
	for (size_t i = 0; i < o->line_count && o->line_count > 1; i++) {
		const struct order_line *s = &o->lines[i];
		char figure[320], l[40], w[40];

		snprintf(figure, sizeof figure, "slabs of %s x %s mm%s%s",
		        mm_print(l, sizeof l, s->length_um), mm_print(w, sizeof w, s->width_um),
		        *s->slab->name ? ", " : "", s->slab->name);
		count_row(r, "order", figure, s->slabs);
	}
	money_row(r, "price", o->price_minor);
	money_row(r, "price by the rule of thumb", o->thumb_price_minor);
	if (o->mass_kg > 0) {
		real_row(r, "order", "mass of a slab", o->slab_mass_kg, "kg");
		real_row(r, "order", "mass", o->mass_kg, "kg");
	}
}

static void edge_rows(struct row *r, const struct edging_result *edging)
{
	for (size_t i = 0; i < edging->count; i++) {
		const struct edging_line *e = &edging->lines[i];
		const char *kind = edge_kind_name(e->kind);

		real_row(r, kind, "length", e->length_m, "m");
		count_row(r, kind, "edges", (int64_t)e->edges);
		if (!e->unit_um)
			continue;
		text_row(r, kind, "unit", e->unit_name);
		mm_row(r, kind, "unit length", (double)e->unit_um);
		count_row(r, kind, "units whole", e->whole);
		count_row(r, kind, "units cut", e->cut);
		count_row(r, kind, "units to buy", e->units);
		count_row(r, kind, "units at least", e->bound);
		text_row(r, kind, "proof", e->reason);
		mm_row(r, kind, "least piece", (double)e->least_um);
		count_row(r, kind, "edges with two cut pieces", e->shared);
		count_row(r, kind, "pieces shorter than the least", e->too_short);
	}
}

static void caution_row(void *context, const char *text)
{
	text_row(context, "caution", "", text);
}

static void warning_rows(struct row *r, const struct surface_result *s)
{
	for (size_t i = 0; i < s->warning_count; i++)
		text_row(r, "warning", warning_code_name(s->warnings[i].code), s->warnings[i].text);
}

void csv_takeoff(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	HEADER(&r, "section", "figure", "value", "unit");
	text_row(&r, "variant", "name", t->plan.name);
	real_row(&r, "outline", "area", t->area_m2, "m2");
	real_row(&r, "outline", "perimeter", t->perimeter_m, "m");
	real_row(&r, "outline", "edges of openings", t->opening_edges_m, "m");
	laying_rows(&r, t);
	section_rows(&r, &t->laid);
	order_rows(&r, t);
	edge_rows(&r, &t->edging);
	if (t->surface.has_plane) {
		mm_row(&r, "surface", "fall per m", (double)t->surface.fall_um_per_m);
		mm_row(&r, "surface", "highest level", t->surface.highest_um);
		mm_row(&r, "surface", "lowest level", t->surface.lowest_um);
	}
	warning_rows(&r, &t->surface);
	sheet_cautions(t, caution_row, &r);
}

static void put_ring(FILE *to, const struct ring *ring, const char *before)
{
	char x[40], y[40];

	fputs(before, to);
	for (size_t i = 0; i <= ring->n; i++) {
		const struct point *p = &ring->p[i % ring->n];

		fprintf(to, "%s%s %s", i ? ", " : "", mm_print(x, sizeof x, llround(p->x)),
		        mm_print(y, sizeof y, llround(p->y)));
	}
	fputc(')', to);
}

/* The piece's outline as well-known text, always quoted. */
static void shape_cell(struct row *r, const struct region *shape)
{
	separate(r);
	fputs("\"POLYGON(", r->to);
	for (size_t i = 0; i < shape->count; i++)
		put_ring(r->to, &shape->rings[i], i ? ",(" : "(");
	fputs(")\"", r->to);
}

void csv_cuts(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	HEADER(&r, "slab", "slab_length_mm", "slab_width_mm", "piece", "kind", "course", "index",
	        "part", "turn_deg", "at_x_mm", "at_y_mm", "length_mm", "width_mm", "area_m2",
	        "outline", "section");
	for (size_t i = 0; i < t->cuts.slabs; i++)
		for (int k = 0; k < t->cuts.sources[i].count; k++) {
			const struct cut_place *c = &t->cuts.sources[i].place[k];
			const struct piece *p = &t->laid.pieces[c->piece];
			const struct stock_slab *stock = &t->laid.stocks[p->stock];

			int_cell(&r, (int64_t)i + 1);
			mm_cell(&r, (double)stock->length_um);
			mm_cell(&r, (double)stock->width_um);
			int_cell(&r, (int64_t)c->piece + 1);
			text_cell(&r, piece_kind_name(p->kind));
			int_cell(&r, p->spot.course);
			int_cell(&r, p->spot.index);
			int_cell(&r, p->spot.part);
			int_cell(&r, c->turn);
			mm_cell(&r, c->at.x);
			mm_cell(&r, c->at.y);
			mm_cell(&r, p->box.x1 - p->box.x0);
			mm_cell(&r, p->box.y1 - p->box.y0);
			real_cell(&r, p->area_um2 / 1e12, 6);
			shape_cell(&r, &p->shape);
			text_cell(&r, section_of_piece(&t->laid, p)->name);
			end_row(&r);
		}
}

void csv_water(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	struct row r = { to, false };

	HEADER(&r, "record", "edge", "kind", "area_m2", "flow_l_s", "text");
	for (size_t i = 0; i < s->catchment_count; i++) {
		text_cell(&r, "catchment");
		int_cell(&r, (int64_t)s->catchments[i].edge + 1);
		text_cell(&r, edge_kind_name(s->catchments[i].kind));
		real_cell(&r, s->catchments[i].area_m2, 6);
		empty_cell(&r);
		text_cell(&r, NO_RAIN);
		end_row(&r);
	}
	for (size_t i = 0; i < s->warning_count; i++) {
		text_cell(&r, "warning");
		empty_cell(&r);
		text_cell(&r, warning_code_name(s->warnings[i].code));
		empty_cell(&r);
		empty_cell(&r);
		text_cell(&r, s->warnings[i].text);
		end_row(&r);
	}
}

void csv_levels(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	HEADER(&r, "name", "x_mm", "y_mm", "level_mm", "formation_mm", "staff_mm");
	for (size_t i = 0; i < t->surface.point_count; i++) {
		const struct level_point *p = &t->surface.points[i];

		text_cell(&r, p->name);
		mm_cell(&r, (double)p->x_um);
		mm_cell(&r, (double)p->y_um);
		mm_cell(&r, p->level_um);
		mm_cell(&r, p->formation_um);
		if (p->has_staff)
			mm_cell(&r, p->staff_um);
		else
			empty_cell(&r);
		end_row(&r);
	}
}
