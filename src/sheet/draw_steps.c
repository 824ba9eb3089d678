/* draw_steps.c - steps: each flight drawn, see drawn_steps.h, with its rows, limits, order and
 * lifting in words. */
#include "drawn_steps.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

static const double SIDE_MM = 104;

static void list_rows(struct flow *f, const struct flight *k)
{
	static const struct table_column columns[] = {
		{ "row", 8, ALIGN_RIGHT },
		{ "nosing", 15, ALIGN_RIGHT },
		{ "riser", 13, ALIGN_RIGHT },
		{ "under", 15, ALIGN_RIGHT },
		{ "shows", 13, ALIGN_RIGHT },
		{ "bed", 12, ALIGN_RIGHT },
		{ "sunk", 12, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, columns, 7, SIZE_NOTE);

	for (size_t i = 0; i < k->row_count; i++) {
		const struct step_row *r = &k->rows[i];

		TABLE_ROW(&t, page_print(d, "%zu", i + 1), tenth_words(d, (double)r->level_um),
		        tenth_words(d, (double)r->riser_um),
		        tenth_words(d, (double)r->underside_um),
		        tenth_words(d, (double)r->visible_um), tenth_words(d, (double)r->bed_um),
		        r->sunk_um ? tenth_words(d, (double)r->sunk_um) : "-");
	}
	table_end(&t);
	flow_line(f, "Rows from the bottom, built in this order; mm over the datum.");
}

static bool told_before(const struct flight *k, size_t i)
{
	for (size_t n = 0; n < i; n++)
		if (strcmp(k->checks[n].rule->source, k->checks[i].rule->source) == 0)
			return true;
	return false;
}

static void say_checks(struct flow *f, const struct flight *k)
{
	static const struct table_column columns[] = {
		{ "limit", 36, ALIGN_LEFT },
		{ "is", 14, ALIGN_RIGHT },
		{ "asked for", 25, ALIGN_RIGHT },
		{ "", 16, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);
	const char *sources = "";

	if (!k->check_count) {
		flow_line(f, "The rule set has no limits for steps.");
		return;
	}
	for (size_t i = 0; i < k->check_count; i++) {
		const struct step_check *c = &k->checks[i];

		TABLE_ROW(&t, c->what, page_print(d, "%.1f", c->is / 1000),
		        page_print(d, "%s %g %s", c->least ? "least" : "most",
		                (double)c->rule->number / 1000,
		                strcmp(c->rule->unit, "degrees") == 0 ? "deg" : c->rule->unit),
		        c->obeyed ? "obeyed" : "BROKEN");
	}
	table_end(&t);
	for (size_t i = 0; i < k->check_count; i++)
		if (!told_before(k, i))
			sources = page_print(d, "%s%s%s", sources, *sources ? "; " : "",
			        page_clean(d, k->checks[i].rule->source));
	flow_paragraph(f, sources, SIZE_LEAST);
}

static void say_order(struct flow *f, const char *what, const struct step_order *o)
{
	flow_line(f, "%s: %" PRId64 " to buy (%" PRId64 " laid whole, %" PRId64 " cut piece%s%s).",
	        what, o->units, o->whole, o->cut, o->cut == 1 ? "" : "s",
	        o->units <= o->bound ? "; least possible" : "");
}

static void say_bought(struct flow *f, const struct flight *k)
{
	struct drawing *d = f->d;
	const struct plan_steps *s = k->steps;
	bool built = s->build == STEPS_BUILT;
	char words[400];

	flow_line(f, "%s%s%s %s x %s x %s mm.", page_clean(d, s->unit_name),
	        *s->unit_name ? ": " : "", built ? "Slabs" : "Units",
	        mm_words(d, (double)s->unit_length_um), mm_words(d, (double)s->unit_depth_um),
	        mm_words(d, (double)(built ? s->tread_um : s->unit_height_um)));
	say_order(f, built ? "Riser pieces" : "Units", &k->order);
	if (built && k->risers > 1)
		say_order(f, "Tread slabs", &k->slabs);
	flow_line(f, "Lifting, one %s: %s.", steps_piece_name(s),
	        handling_print(words, sizeof words, &k->handling));
	flow_line(f, "Bed %.3f m3%s.", k->bed_m3,
	        k->mass_kg > 0 ? page_print(d, "; %.0f kg to buy in all", k->mass_kg) : "");
	if (!built && k->risers > 1)
		flow_line(f, "Each unit lies %s mm under the next.",
		        tenth_words(d, (double)k->overlap_um));
}

static void say_notes(struct flow *f, const struct flight *k)
{
	for (size_t i = 0; i < k->note_count; i++)
		flow_paragraph(f, k->notes[i], SIZE_NOTE);
}

static void say_flight(struct flow *f, const struct flight *k)
{
	struct drawing *d = f->d;

	flow_heading(f, "Figures", 12);
	flow_line(f,
	        "Rise %s mm, from %s at the foot to %s at the top: %" PRId64
	        " risers of %s mm, %s.",
	        tenth_words(d, (double)k->rise_um), tenth_words(d, (double)k->bottom_um),
	        tenth_words(d, (double)k->top_um), k->risers, tenth_words(d, k->riser_um),
	        k->chosen ? "chosen" : "as set");
	flow_line(f,
	        "Going %s mm, two risers and a going %s mm, pitch %.1f degrees; treads fall "
	        "%s mm to the front.",
	        tenth_words(d, (double)k->steps->going_um), tenth_words(d, k->pace_um),
	        k->pitch_deg, tenth_words(d, (double)k->tread_fall_um));
	list_rows(f, k);
	flow_heading(f, "Order and lifting", 8);
	say_bought(f, k);
	say_notes(f, k);
	flow_line(f, "Local codes and licensed practice come before every figure given here.");
	flow_heading(f, "Limits", 8);
	say_checks(f, k);
}

static const char *flight_part(struct drawing *d, size_t i)
{
	const char *name = d->t->plan.steps[i].name;
	const char *part = arena_print(&d->mem, "flight %zu%s%s", i + 1, *name ? ": " : "", name);

	if (!part)
		page_fail_memory(d);
	return part ? part : "";
}

static void draw_flight(struct drawing *d, const char *title, size_t i)
{
	const struct flight *f = &d->t->steps.flights[i];
	struct box frame = furniture_frame(d->width, d->height), room = frame, side = frame;
	struct sketch k;
	struct page_head head = { title, flight_part(d, i), &k.up, NULL };
	struct flow flow;

	side.x0 = side.x1 - SIDE_MM, room.x1 = side.x0 - 4;
	sketch_set_up(&k, d, f, &room);
	page_begin(d, &head);
	d->frame = room;
	sketch_elevation(&k);
	if (k.together)
		sketch_plan(&k);
	d->frame = frame;
	flow = flow_begin(d, &head, &side);
	say_flight(&flow, f);
	if (k.together)
		return;
	sketch_plan_alone(&k, &frame);
	head.view = &k.down;
	page_begin(d, &head);
	sketch_plan(&k);
}

static void draw_fault(struct drawing *d, const char *title, size_t i)
{
	struct page_head head = { title, flight_part(d, i), NULL, NULL };
	struct flow flow;

	page_begin(d, &head);
	flow = flow_across(d, &head, &d->frame, 130);
	flow_line(&flow, "Cannot be worked out: %s", d->t->steps.flights[i].fault);
}

void draw_steps(struct drawing *d, const char *title)
{
	for (size_t i = 0; i < d->t->steps.count; i++)
		if (d->t->steps.flights[i].fault || !d->t->steps.flights[i].row_count)
			draw_fault(d, title, i);
		else
			draw_flight(d, title, i);
}
