/* planters_csv.c - planters for spreadsheets: a record a row. */
#include "csv_row.h"
#include "planters.h"

#include <math.h>

/* planter, record, course, leg, leaf, what, from_mm, length_mm, value, unit, text */
struct record {
	size_t planter;
	const char *name, *course, *what;
	size_t leg; /* from 1; 0 none */
	int leaf; /* likewise */
	bool has_from, has_length, has_value;
	double from_um, length_um, value;
	const char *unit, *text;
};

static void number_or_empty(struct row *r, int64_t n)
{
	if (n)
		row_int(r, n);
	else
		row_empty(r);
}

static void mm_or_empty(struct row *r, bool known, double um)
{
	if (known)
		row_mm(r, um);
	else
		row_empty(r);
}

static void put_record(struct row *r, const struct record *c)
{
	row_int(r, (int64_t)c->planter + 1);
	row_text(r, c->name);
	row_text(r, c->course ? c->course : "");
	number_or_empty(r, (int64_t)c->leg);
	number_or_empty(r, c->leaf);
	row_text(r, c->what ? c->what : "");
	mm_or_empty(r, c->has_from, c->from_um);
	mm_or_empty(r, c->has_length, c->length_um);
	if (c->has_value && isfinite(c->value))
		row_real(r, c->value, 6);
	else
		row_empty(r);
	row_text(r, c->unit ? c->unit : "");
	row_text(r, c->text ? c->text : "");
	row_end(r);
}

static void figure(struct row *r, size_t planter, const char *what, double value, const char *unit)
{
	struct record c = { .planter = planter, .name = "figure", .what = what };

	c.has_value = true;
	c.value = value;
	c.unit = unit;
	put_record(r, &c);
}

static void unit_records(struct row *r, const struct planter_result *p, size_t planter)
{
	for (int k = 0; k < 2; k++) {
		const struct planter_course *c = &p->courses[k];

		for (size_t i = 0; i < c->unit_count && c->times; i++) {
			const struct planter_unit *u = &c->units[i];

			put_record(r, &(struct record){ .planter = planter,
			                      .name = "unit",
			                      .course = course_name(k),
			                      .leg = u->leg + 1,
			                      .leaf = u->leaf + 1,
			                      .what = planter_piece_name(u->piece),
			                      .has_from = true,
			                      .from_um = fmin(u->from_out_um, u->from_in_um),
			                      .has_length = true,
			                      .length_um = (double)u->length_um,
			                      .text = u->corner ? "corner"
			                              : u->end  ? "end"
			                                        : "" });
		}
		for (size_t i = 0; i < c->tie_count; i++)
			put_record(r, &(struct record){ .planter = planter,
			                      .name = "tie",
			                      .course = course_name(k),
			                      .leg = c->ties[i].leg + 1,
			                      .what = tie_place_name(c->ties[i].place),
			                      .has_from = true,
			                      .from_um = c->ties[i].u_um });
	}
}

static void spot_records(struct row *r, size_t planter, const char *name,
        const struct planter_spot *spots, size_t count)
{
	for (size_t i = 0; i < count; i++)
		put_record(r, &(struct record){ .planter = planter,
		                      .name = name,
		                      .leg = spots[i].leg + 1,
		                      .has_from = true,
		                      .from_um = spots[i].u_um });
}

static void figure_records(struct row *r, const struct planter_result *p, size_t n)
{
	const struct planter_blocks *b = &p->blocks;

	figure(r, n, "wall width", (double)p->width_um / 1000, "mm");
	figure(r, n, "wall height", (double)p->height_um / 1000, "mm");
	figure(r, n, "least lap", p->has_lap ? p->lap_um / 1000 : NAN, "mm");
	figure(r, n, "blocks whole", (double)b->whole, "");
	figure(r, n, "blocks corner", (double)b->corner, "");
	figure(r, n, "blocks half", (double)b->half, "");
	figure(r, n, "blocks cut", (double)b->cut, "");
	figure(r, n, "whole blocks to buy", (double)b->buy_whole, "");
	figure(r, n, "half blocks to buy", (double)b->buy_half, "");
	figure(r, n, "corner blocks to buy", (double)b->buy_corner, "");
	figure(r, n, "ties", (double)p->tie_count, "");
	figure(r, n, "mortar", p->mortar_m3, "m3");
	figure(r, n, "mass of a block", p->block_kg > 0 ? p->block_kg : NAN, "kg");
	figure(r, n, "mass of the wall", p->block_kg > 0 ? p->wall_kg : NAN, "kg");
	figure(r, n, "cap lengths to buy", (double)p->cap.units, "");
	figure(r, n, "footing", p->footing_m3, "m3");
	figure(r, n, "cement", p->cement_kg, "kg");
	figure(r, n, "gravel", p->fill.gravel_m3, "m3");
	figure(r, n, "soil loose", p->fill.soil_loose_m3, "m3");
	figure(r, n, "liner", p->fill.liner_m2, "m2");
	figure(r, n, "level of the top", (double)p->top_um / 1000, "mm");
	figure(r, n, "least reveal", p->has_surface ? p->least_reveal_um / 1000 : NAN, "mm");
	figure(r, n, "most reveal", p->has_surface ? p->most_reveal_um / 1000 : NAN, "mm");
}

static void wall_records(struct row *r, const struct wall_result *w, size_t n)
{
	if (w->worked_out) {
		figure(r, n, "active coefficient", w->levels[0].thrust.ka, "");
		figure(r, n, "least factor against overturning",
		        w->levels[w->overturning].forces.fs_overturning, "");
		figure(r, n, "least factor against sliding",
		        w->levels[w->sliding].forces.fs_sliding, "");
		figure(r, n, "pressure under the footing",
		        w->levels[0].forces.topples ? NAN : w->levels[0].forces.pressure_most_pa,
		        "Pa");
	}
	put_record(r, &(struct record){ .planter = n,
	                      .name = "held soil",
	                      .what = wall_verdict_name(w->verdict),
	                      .text = w->reason });
	put_record(r, &(struct record){ .planter = n, .name = "caution", .text = WALL_CAUTION });
}

void csv_planters(FILE *to, const struct takeoff *t)
{
	struct row r = { to, false };

	ROW_HEADER(&r, "planter", "record", "courses", "leg", "leaf", "what", "from_mm",
	        "length_mm", "value", "unit", "text");
	for (size_t i = 0; i < t->planters.count; i++) {
		const struct planter_result *p = &t->planters.items[i];

		put_record(&r, &(struct record){ .planter = i,
		                       .name = p->ready ? "planter" : "fault",
		                       .text = p->ready ? p->planter->name : p->fault.text });
		if (!p->ready)
			continue;
		figure_records(&r, p, i);
		unit_records(&r, p, i);
		for (size_t k = 0; k < p->cap.piece_count; k++)
			put_record(&r, &(struct record){ .planter = i,
			                       .name = "cap piece",
			                       .leg = p->cap.pieces[k].leg + 1,
			                       .what = p->cap.pieces[k].whole ? "whole" : "cut",
			                       .has_from = true,
			                       .from_um = p->cap.pieces[k].from_um,
			                       .has_length = true,
			                       .length_um = (double)p->cap.pieces[k].length_um });
		spot_records(&r, i, "cap fixing", p->cap.fixings, p->cap.fixing_count);
		spot_records(&r, i, "drainage hole", p->fill.weeps, p->fill.weep_count);
		wall_records(&r, &p->wall, i);
	}
}
