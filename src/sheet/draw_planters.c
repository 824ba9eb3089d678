/* draw_planters.c - planters: for each a plan of its odd and even courses, an elevation of each
 * leg, and the tables; see drawn_planter.h for what is drawn. */
#include "drawn_planter.h"
#include "planters.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const double COLUMN_MM = 86;

static const char *number(struct drawing *d, int64_t n)
{
	return page_print(d, "%" PRId64, n);
}

static void list_blocks(struct flow *f, const struct planter_result *r)
{
	static const struct table_column columns[] = {
		{ "blocks", 32, ALIGN_LEFT },
		{ "whole", 13, ALIGN_RIGHT },
		{ "half", 13, ALIGN_RIGHT },
		{ "corner", 14, ALIGN_RIGHT },
		{ "cut", 13, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct planter_blocks *b = &r->blocks;
	struct table t = table_begin(f, columns, 5, SIZE_NOTE);

	for (int k = 0; k < 2; k++) {
		const struct planter_course *c = &r->courses[k];

		if (c->times)
			TABLE_ROW(&t,
			        page_print(d, "%s course (%" PRId64 " of them)", course_name(k),
			                c->times),
			        number(d, c->whole), number(d, c->half), number(d, c->corner),
			        number(d, c->cut));
	}
	TABLE_ROW(&t, "laid in all", number(d, b->whole), number(d, b->half), number(d, b->corner),
	        number(d, b->cut));
	table_row_bold(&t, (const char *const[]){ "to buy", number(d, b->buy_whole),
	                           number(d, b->buy_half), number(d, b->buy_corner), "" });
	table_end(&t);
}

/* "2 of 440 into 215, 200": blocks that are cut alike. */
static const char *pieces_words(struct drawing *d, const struct planter_blocks *b, size_t unit)
{
	const struct pack_unit *u = &b->pack.units[unit];
	const char *words = "";

	for (size_t k = 0; k < u->count; k++)
		words = page_print(d, "%s%s%s", words, k ? " + " : "",
		        tenth_words(d, (double)b->cuts[b->pack.piece[u->first + k]].length_um));
	return words;
}

static void list_cuts(struct flow *f, const struct planter_result *r)
{
	static const struct table_column columns[] = {
		{ "blocks", 13, ALIGN_RIGHT },
		{ "each cut into, mm", 72, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	const struct planter_blocks *b = &r->blocks;
	struct table t = table_begin(f, columns, 2, SIZE_NOTE);

	for (size_t i = 0; i < b->pack.unit_count;) {
		size_t n = alike_units(&b->pack, i);

		TABLE_ROW(&t, page_print(d, "%zu", n), pieces_words(d, b, i));
		i += n;
	}
	table_end(&t);
	if (b->too_short)
		flow_line(f, "Cut shorter than a quarter of the block: %" PRId64 ".", b->too_short);
}

/* In paragraphs that a column takes. */
static void say_places(struct flow *f, const char *what, size_t leg, const double *u, size_t count)
{
	enum { A_TIME = 60 };

	struct drawing *d = f->d;

	for (size_t from = 0; from < count; from += A_TIME) {
		const char *words = "";

		for (size_t i = from; i < count && i < from + A_TIME; i++)
			words = page_print(
			        d, "%s%s%s", words, i > from ? ", " : "", tenth_words(d, u[i]));
		flow_paragraph(
		        f, page_print(d, "Leg %zu, %s at %s mm.", leg + 1, what, words), SIZE_NOTE);
	}
}

/* Those of one leg, in the page's memory. */
static double *places(struct drawing *d, size_t most)
{
	double *u = arena_alloc(&d->page_mem, most + 1, sizeof *u);

	if (!u)
		page_fail_memory(d);
	return u;
}

static void list_ties(struct flow *f, const struct planter_result *r)
{
	struct drawing *d = f->d;

	if (!r->tie_count)
		return;
	flow_heading(f, "Ties", 8);
	flow_line(f, "%" PRId64 " ties, at most %s mm apart; places from the leg's first corner.",
	        r->tie_count, tenth_words(d, r->tie_um));
	for (size_t leg = 0; leg < r->leg_count; leg++)
		for (int k = 0; k < 2 && r->courses[k].times; k++) {
			const struct planter_course *c = &r->courses[k];
			double *u = places(d, c->tie_count);
			size_t n = 0;

			for (size_t i = 0; u && i < c->tie_count; i++)
				if (c->ties[i].leg == leg)
					u[n++] = c->ties[i].u_um;
			if (u)
				say_places(f, k ? "even courses" : "odd courses", leg, u, n);
		}
}

static void list_cap(struct flow *f, const struct planter_result *r)
{
	static const struct table_column columns[] = {
		{ "profile on leg", 26, ALIGN_LEFT },
		{ "from mm", 20, ALIGN_RIGHT },
		{ "length mm", 22, ALIGN_RIGHT },
		{ "", 17, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	const struct planter_cap *c = &r->cap;
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);

	if (!c->piece_count)
		return;
	flow_heading(f, "Profile on top", 12);
	flow_line(f, "%s%s%" PRId64 " of %s mm; %zu fixings, at most %s mm apart.",
	        page_clean(d, r->planter->cap_name), *r->planter->cap_name ? ": " : "", c->units,
	        mm_words(d, (double)r->planter->cap_um), c->fixing_count,
	        tenth_words(d, c->spacing_um));
	for (size_t i = 0; i < c->piece_count; i++)
		TABLE_ROW(&t, page_print(d, "%zu", c->pieces[i].leg + 1),
		        tenth_words(d, c->pieces[i].from_um),
		        tenth_words(d, (double)c->pieces[i].length_um),
		        c->pieces[i].whole ? "whole" : "cut");
	table_end(&t);
}

static void list_corners(struct flow *f, const struct planter_result *r)
{
	static const struct table_column columns[] = {
		{ "corner", 14, ALIGN_RIGHT },
		{ "surface", 18, ALIGN_RIGHT },
		{ "wall shows", 19, ALIGN_RIGHT },
		{ "under it", 16, ALIGN_RIGHT },
		{ "staff, top", 18, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, columns, 5, SIZE_NOTE);

	flow_heading(f, "Levels", 12);
	flow_line(f, "String line level at %s; the first course stands on %s.",
	        tenth_words(d, (double)r->top_um), tenth_words(d, (double)r->planter->base_um));
	if (!r->has_surface) {
		flow_line(f, "The finished surface has no plane yet.");
		return;
	}
	for (size_t i = 0; i < r->corner_count; i++) {
		const struct planter_corner *c = &r->corners[i];

		TABLE_ROW(&t, page_print(d, "%zu", c->point + 1), tenth_words(d, c->surface_um),
		        tenth_words(d, c->reveal_um),
		        page_print(d, "%" PRId64 " courses", c->courses_under),
		        r->has_staff ? tenth_words(d, c->staff_um) : "-");
	}
	table_end(&t);
}

static void say_fill(struct flow *f, const struct planter_result *r)
{
	flow_heading(f, "Footing and fill", 8);
	flow_line(f, "Footing %s x %s mm, %.3f m3 of %s, %.0f kg of cement.",
	        mm_words(f->d, (double)r->planter->footing_width_um),
	        mm_words(f->d, (double)r->planter->footing_depth_um), r->footing_m3,
	        bed_mix_name(r->planter->footing), r->cement_kg);
	flow_line(f, "Gravel %.3f m3, soil %.3f m3 in place (%.3f m3 loose)%s.", r->fill.gravel_m3,
	        r->fill.soil_m3, r->fill.soil_loose_m3,
	        r->fill.liner_m2 > 0 ? page_print(f->d, ", liner %.2f m2", r->fill.liner_m2) : "");
	if (r->fill.weep_count)
		flow_line(f, "%zu drainage holes in the first course.", r->fill.weep_count);
	if (r->block_kg > 0)
		flow_line(f, "One block weighs %.1f kg%s; the wall %.0f kg.", r->block_kg,
		        r->heavy ? ", over the limit for one person" : "", r->wall_kg);
}

static void say_wall(struct flow *f, const struct wall_result *w)
{
	static const struct table_column columns[] = {
		{ "at", 30, ALIGN_LEFT },
		{ "soil m", 16, ALIGN_RIGHT },
		{ "overturning", 20, ALIGN_RIGHT },
		{ "sliding", 18, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);

	flow_heading(f, "Soil held", 12);
	flow_paragraph(f, page_clean(d, w->reason), SIZE_NOTE);
	for (size_t i = 0; w->worked_out && i < w->count; i++) {
		const struct wall_level *at = &w->levels[i];

		TABLE_ROW(&t,
		        at->course ? page_print(d, "bed under course %" PRId64, at->course)
		                   : "bottom of footing",
		        page_print(d, "%.3f", at->height_m),
		        page_print(d, "%.2f", at->forces.fs_overturning),
		        page_print(d, "%.2f", at->forces.fs_sliding));
	}
	table_end(&t);
	if (w->worked_out)
		flow_line(f, "Factors asked for: overturning %.2f, sliding %.2f.",
		        w->limits.fs_overturning, w->limits.fs_sliding);
	flow_paragraph(f, WALL_CAUTION, SIZE_NOTE);
}

static void say_wall_shape(struct flow *f, const struct planter_result *r)
{
	struct drawing *d = f->d;
	const struct plan_block *b = &r->planter->block;

	flow_heading(f, "Wall", 8);
	flow_line(f,
	        "%s%s %s x %s x %s mm, joint %s mm; %" PRId64
	        " courses, %s mm high, %s mm wide, %.3f m along its middle.",
	        page_clean(d, b->name), *b->name ? "," : "Blocks",
	        tenth_words(d, (double)b->length_um), tenth_words(d, (double)b->width_um),
	        tenth_words(d, (double)b->height_um), tenth_words(d, (double)b->joint_um),
	        r->planter->courses, tenth_words(d, (double)r->height_um),
	        tenth_words(d, (double)r->width_um), r->middle_m);
	if (r->has_lap)
		flow_line(f, "Least lap %s mm, at least %s asked for%s.", tenth_words(d, r->lap_um),
		        tenth_words(d, (double)r->least_lap_um),
		        r->lap_um < (double)r->least_lap_um ? ": it CANNOT be kept" : "");
	flow_line(f, "Plans: slanting lines one way are corner blocks, crossed ones cut blocks, "
	             "with their longer length; H is a half. Elevations, as seen from outside: "
	             "dots between blocks are ties, circles drainage holes, arrows fixings of "
	             "the profile, whose height is not to scale; crossed out is the other leg's "
	             "block; dashed the finished surface.");
}

static void say_planter(struct flow *f, const struct planter_result *r)
{
	say_wall_shape(f, r);
	flow_heading(f, "Blocks", 14);
	list_blocks(f, r);
	if (r->blocks.pack.unit_count)
		list_cuts(f, r);
	list_ties(f, r);
	list_cap(f, r);
	list_corners(f, r);
	say_fill(f, r);
	say_wall(f, &r->wall);
}

static const char *planter_part(struct drawing *d, size_t i)
{
	const char *name = d->t->planters.items[i].planter->name;
	const char *part = arena_print(&d->mem, "planter %zu%s%s", i + 1, *name ? ": " : "", name);

	if (!part)
		page_fail_memory(d);
	return part ? part : "";
}

static void draw_one(struct drawing *d, const char *title, size_t i)
{
	const struct planter_result *r = &d->t->planters.items[i];
	struct page_head head = { title, planter_part(d, i), NULL, NULL };
	struct shelf shelf;
	struct flow flow;

	if (!r->ready) {
		page_begin(d, &head);
		flow = flow_across(d, &head, &d->frame, 130);
		flow_line(&flow, "It cannot be built: %s", page_clean(d, r->fault.text));
		return;
	}
	shelf_begin(d, &shelf, title, head.part, planter_scale(d, r));
	for (int k = 0; k < 2; k++)
		if (r->courses[k].times)
			planter_course_draw(&shelf, r, k);
	if (planter_leg_scale(d, r) != shelf.view.scale)
		shelf_begin(d, &shelf, title, head.part, planter_leg_scale(d, r));
	for (size_t leg = 0; leg < r->leg_count; leg++)
		planter_leg_draw(&shelf, r, leg);
	flow = shelf_flow(&shelf, COLUMN_MM);
	say_planter(&flow, r);
}

void draw_planters(struct drawing *d, const char *title)
{
	for (size_t i = 0; i < d->t->planters.count; i++)
		draw_one(d, title, i);
}
