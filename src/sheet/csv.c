/* csv.c - sheets for spreadsheets, by RFC 4180: a header row, CRLF, quotes doubled. */
#include "csv_row.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

void count_row(struct row *r, const char *section, const char *figure, int64_t n)
{
	row_text(r, section);
	row_text(r, figure);
	row_int(r, n);
	row_empty(r);
	row_end(r);
}

void real_row(
        struct row *r, const char *section, const char *figure, double value, const char *unit)
{
	row_text(r, section);
	row_text(r, figure);
	row_real(r, value, 6);
	row_text(r, unit);
	row_end(r);
}

void mm_row(struct row *r, const char *section, const char *figure, double um)
{
	row_text(r, section);
	row_text(r, figure);
	row_mm(r, um);
	row_text(r, "mm");
	row_end(r);
}

void text_row(struct row *r, const char *section, const char *figure, const char *text)
{
	row_text(r, section);
	row_text(r, figure);
	row_text(r, text);
	row_empty(r);
	row_end(r);
}

static void money_row(struct row *r, const char *figure, int64_t minor)
{
	char money[40];

	if (minor < 0)
		return;
	row_text(r, "order");
	row_text(r, figure);
	row_separate(r);
	fputs(money_print(money, sizeof money, minor), r->to);
	row_text(r, "money");
	row_end(r);
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
		count_row(r, kind, "outer corners", (int64_t)e->outer_corners);
		count_row(r, kind, "inner corners", (int64_t)e->inner_corners);
		if (!e->unit_um)
			continue;
		count_row(r, kind, "corner pieces", (int64_t)e->corner_pieces);
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

	ROW_HEADER(&r, "section", "figure", "value", "unit");
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
	csv_dig_rows(&r, t);
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
	row_separate(r);
	fputs("\"POLYGON(", r->to);
	for (size_t i = 0; i < shape->count; i++)
		put_ring(r->to, &shape->rings[i], i ? ",(" : "(");
	fputs(")\"", r->to);
}

void csv_cuts(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	ROW_HEADER(&r, "slab", "slab_length_mm", "slab_width_mm", "piece", "kind", "course",
	        "index", "part", "turn_deg", "at_x_mm", "at_y_mm", "length_mm", "width_mm",
	        "area_m2", "outline", "section", "saw");
	for (size_t i = 0; i < t->cuts.slabs; i++)
		for (int k = 0; k < t->cuts.sources[i].count; k++) {
			const struct cut_place *c = &t->cuts.sources[i].place[k];
			const struct piece *p = &t->laid.pieces[c->piece];
			const struct stock_slab *stock = &t->laid.stocks[p->stock];

			row_int(&r, (int64_t)i + 1);
			row_mm(&r, (double)stock->length_um);
			row_mm(&r, (double)stock->width_um);
			row_int(&r, (int64_t)c->piece + 1);
			row_text(&r, piece_kind_name(p->kind));
			row_int(&r, p->spot.course);
			row_int(&r, p->spot.index);
			row_int(&r, p->spot.part);
			row_int(&r, c->turn);
			row_mm(&r, c->at.x);
			row_mm(&r, c->at.y);
			row_mm(&r, p->box.x1 - p->box.x0);
			row_mm(&r, p->box.y1 - p->box.y0);
			row_real(&r, p->area_um2 / 1e12, 6);
			shape_cell(&r, &p->shape);
			row_text(&r, section_of_piece(&t->laid, p)->name);
			if (k)
				row_empty(&r);
			else
				csv_saw(&r, t, i);
			row_end(&r);
		}
}

void csv_levels(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	ROW_HEADER(&r, "name", "x_mm", "y_mm", "level_mm", "formation_mm", "staff_mm");
	for (size_t i = 0; i < t->level_count; i++) {
		const struct level_point *p = &t->levels[i];

		row_text(&r, p->name);
		row_mm(&r, (double)p->x_um);
		row_mm(&r, (double)p->y_um);
		row_mm(&r, p->level_um);
		row_mm(&r, p->formation_um);
		if (p->has_staff)
			row_mm(&r, p->staff_um);
		else
			row_empty(&r);
		row_end(&r);
	}
}
