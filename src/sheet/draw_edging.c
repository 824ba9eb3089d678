/* draw_edging.c - edging: the section of each kind to scale, with unit, strip, haunch and paving;
 * and the string lines. */
#include "label.h"
#include "plan_page.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const double PAVING_UM = 250e3, AROUND_MM = 24, HEAD_MM = 7;

/* The shapes of a section, x outward from the paving, z up from the unit's underside; um. */
struct shapes {
	const struct kerb_line *k;
	double foot, depth, height, strip, strip_x0, strip_x1, haunch, held, surface;
	double slab, bedding, sub_base; /* thicknesses of the paving */
	struct box box;
};

static struct shapes shapes_of(const struct takeoff *t, const struct kerb_line *k)
{
	const struct plan_edging *e = k->edging;
	struct shapes s = { .k = k,
		.depth = (double)e->depth_um,
		.height = (double)e->height_um,
		.strip = (double)e->strip_um,
		.haunch = (double)e->haunch_um,
		.held = (double)e->held_um,
		.surface = -(double)k->section.underside_um,
		.slab = (double)t->plan.laying.slab.thickness_um,
		.bedding = (double)t->plan.ground.bedding_um,
		.sub_base = (double)t->plan.ground.sub_base_um };

	s.foot = e->profile == PROFILE_TAPERED ? (double)e->foot_um : s.depth;
	s.strip_x0 = e->haunch_both && e->haunch_um ? -(double)e->strip_beyond_um : 0;
	s.strip_x1 = s.strip_x0 + (double)k->section.strip_width_um;
	s.box = (struct box){ fmin(-PAVING_UM, s.strip_x0), fmin(-s.strip, s.surface - s.slab),
		fmax(fmax(s.strip_x1, s.depth), s.foot + s.haunch), fmax(s.height, s.surface) };
	box_hold(&s.box, 0, s.surface - s.slab - s.bedding - s.sub_base);
	if (e->haunch_both)
		box_hold(&s.box, -s.haunch, 0);
	return s;
}

static struct point at(const struct view *v, double x, double z)
{
	return view_point(v, (struct point){ x, z });
}

/* A shape in white with an outline, hatched where asked. */
static void shape(struct drawing *d, const struct view *v, const struct point *um, size_t n,
        double apart, double turn_deg, enum pen pen)
{
	struct point p[8] = { { 0 } };
	struct ring ring = { p, n, NULL };

	for (size_t i = 0; i < n; i++)
		p[i] = view_point(v, um[i]);
	page_fill(d, p, n, 1);
	if (apart > 0)
		page_hatch(d, &ring, 1, apart, turn_deg * acos(-1) / 180, PEN_HAIR);
	page_path(d, p, n, true, pen);
	for (size_t i = 0; i < n; i++)
		taken_add_line(&d->taken, p[i], p[(i + 1) % n], TAKEN_LINE);
}

static void layer(struct drawing *d, const struct view *v, const struct shapes *s, double top,
        double thick, double apart, double turn_deg)
{
	struct point p[] = { { s->box.x0, top - thick }, { 0, top - thick }, { 0, top },
		{ s->box.x0, top } };

	if (thick > 0)
		shape(d, v, p, 4, apart, turn_deg, PEN_THIN);
}

static void draw_shapes(struct drawing *d, const struct view *v, const struct shapes *s)
{
	double up = s->foot + (s->depth - s->foot) * (s->height > 0 ? s->held / s->height : 0);
	struct point strip[] = { { s->strip_x0, -s->strip }, { s->strip_x1, -s->strip },
		{ s->strip_x1, 0 }, { s->strip_x0, 0 } };
	struct point haunch[] = { { s->foot, 0 }, { s->foot + s->haunch, 0 }, { up, s->held } };
	struct point inner[] = { { -s->haunch, 0 }, { 0, 0 }, { 0, s->held } };
	struct point unit[] = { { 0, 0 }, { s->foot, 0 }, { s->depth, s->height },
		{ 0, s->height } };

	layer(d, v, s, s->surface - s->slab - s->bedding, s->sub_base, 2.2, 90);
	layer(d, v, s, s->surface - s->slab, s->bedding, 1.2, 0);
	layer(d, v, s, s->surface, s->slab, 0, 0);
	if (s->strip > 0)
		shape(d, v, strip, 4, 1.6, -45, PEN_MEDIUM);
	if (s->haunch > 0 && s->held > 0) {
		shape(d, v, haunch, 3, 1.6, -45, PEN_MEDIUM);
		if (s->k->edging->haunch_both)
			shape(d, v, inner, 3, 1.6, -45, PEN_MEDIUM);
	}
	shape(d, v, unit, 4, 3, 45, PEN_OUTLINE);
}

static void draw_dimensions(struct drawing *d, const struct view *v, const struct shapes *s)
{
	double right = s->box.x1, low = s->box.y0, high = s->box.y1;

	if (s->haunch > 0 && s->held > 0)
		dimension_somewhere(
		        d, at(v, right, 0), at(v, right, s->held), 5, mm_words(d, s->held));
	if (s->strip > 0)
		dimension_somewhere(
		        d, at(v, right, -s->strip), at(v, right, 0), 5, mm_words(d, s->strip));
	dimension_somewhere(
	        d, at(v, right, 0), at(v, right, s->height), 10, mm_words(d, s->height));
	dimension_somewhere(d, at(v, s->depth, high), at(v, 0, high), 5, mm_words(d, s->depth));
	if (s->foot > s->depth)
		dimension_somewhere(d, at(v, 0, low), at(v, s->foot, low), 5, mm_words(d, s->foot));
	if (s->haunch > 0)
		dimension_somewhere(d, at(v, s->foot, low), at(v, s->foot + s->haunch, low), 5,
		        mm_words(d, s->haunch));
	if (s->strip > 0)
		dimension_somewhere(d, at(v, s->strip_x0, low), at(v, s->strip_x1, low), 10,
		        mm_words(d, s->strip_x1 - s->strip_x0));
}

/* In its middle where it is so wide and high; else beside it. */
static void name_shape(struct drawing *d, const struct view *v, const char *words, double x,
        double z, double wide_um, double high_um)
{
	struct text t = { words, .size = SIZE_NOTE, .on_white = true };
	struct patch p = text_patch(d, &t);

	p.at = at(v, x, z);
	if (2 * p.along + 0.6 < scale_mm(v->scale, wide_um) &&
	        2 * p.across < scale_mm(v->scale, high_um) && taken_free(&d->taken, &p, TAKEN_TEXT))
		page_text_at(d, &t, &p);
	else
		words_beside(d, p.at, words, SIZE_NOTE, -acos(-1) / 5);
}

static void name_shapes(struct drawing *d, const struct view *v, const struct shapes *s)
{
	double left = acos(-1);
	struct point out = at(v, s->box.x0, 0);

	name_shape(d, v, "unit", s->depth / 2, s->height * 0.6, s->depth, s->height);
	if (s->haunch > 0 && s->held > 0)
		name_shape(d, v, "haunch", s->foot + s->haunch / 3, s->held / 3, s->haunch / 2,
		        s->held / 2);
	if (s->strip > 0)
		name_shape(d, v, "base strip", (s->strip_x0 + s->strip_x1) / 2, -s->strip / 2,
		        s->strip_x1 - s->strip_x0, s->strip);
	out.y = at(v, 0, s->surface - s->slab / 2).y;
	words_beside(d, out, "slab", SIZE_NOTE, left);
	out.y = at(v, 0, s->surface - s->slab - s->bedding / 2).y;
	if (s->bedding > 0)
		words_beside(d, out, "bedding", SIZE_NOTE, left);
	out.y = at(v, 0, s->surface - s->slab - s->bedding - s->sub_base / 2).y;
	if (s->sub_base > 0)
		words_beside(d, out, "sub-base", SIZE_NOTE, left);
}

/* "20 mm over the finished surface". */
static const char *over_words(struct drawing *d, int64_t um)
{
	if (!um)
		return "level with the finished surface";
	return page_print(d, "%s mm %s the finished surface", tenth_words(d, fabs((double)um)),
	        um < 0 ? "under" : "over");
}

static const char *kind_words(struct drawing *d, const struct kerb_line *k)
{
	return page_print(d, "%s%s%s", edge_kind_name(k->kind), *k->edging->name ? ": " : "",
	        page_clean(d, k->edging->name));
}

static void draw_section(struct shelf *shelf, const struct shapes *s)
{
	struct drawing *d = shelf->d;
	double w = scale_mm(shelf->view.scale, s->box.x1 - s->box.x0) + 2 * AROUND_MM,
	       h = scale_mm(shelf->view.scale, s->box.y1 - s->box.y0) + 2 * AROUND_MM + HEAD_MM;
	struct box room = shelf_take(shelf, w, h);
	struct text head = { kind_words(d, s->k), .size = SIZE_BODY, .bold = true,
		.room = room.x1 - room.x0 - 4 };
	struct text top = { page_print(d, "top %s", over_words(d, s->k->section.top_um)),
		.size = SIZE_NOTE, .room = room.x1 - room.x0 - 4 };
	struct view v;
	double y = room.y0 + 1;

	y += page_text(d, &head, ALIGN_LEFT, room.x0 + 1, y);
	page_text(d, &top, ALIGN_LEFT, room.x0 + 1, y);
	room.y0 += HEAD_MM;
	v = view_centred(shelf->view.scale, &s->box, &room);
	draw_shapes(d, &v, s);
	draw_dimensions(d, &v, s);
	name_shapes(d, &v, s);
}

/* --- words --- */

static void say_line(struct flow *f, const struct kerb_line *k)
{
	struct drawing *d = f->d;
	const struct plan_edging *e = k->edging;
	char words[400];

	flow_heading(f, kind_words(d, k), 8);
	if (k->fault) {
		flow_line(f, "Cannot be worked out: %s", k->fault);
		return;
	}
	flow_line(f, "%.3f m. Held %s mm of its height; a third is %s mm (common practice).",
	        k->length_m, mm_words(d, e->haunch_um ? (double)e->held_um : 0),
	        mm_words(d, (double)k->section.least_held_um));
	flow_line(f,
	        "Bed and haunch, %s: %.3f m3 compacted, %.1f kg of cement, %" PRId64
	        " bag%s of %d kg.",
	        bed_mix_name(e->bed), k->mix.m3, k->mix.cement_kg, k->mix.bags,
	        k->mix.bags == 1 ? "" : "s", CEMENT_BAG_KG);
	if (k->has_unit)
		flow_line(f, "One unit: %s.", handling_print(words, sizeof words, &k->handling));
	for (size_t i = 0; i < k->note_count; i++)
		flow_paragraph(f, k->notes[i], SIZE_NOTE);
}

static const char *staff(struct drawing *d, const struct kerb_run *r, double um)
{
	return r->has_staff ? mm_words(d, um) : "-";
}

static void list_strings(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "string at edge", 23, ALIGN_LEFT },
		{ "m", 13, ALIGN_RIGHT },
		{ "from", 13, ALIGN_RIGHT },
		{ "staff", 12, ALIGN_RIGHT },
		{ "to", 13, ALIGN_RIGHT },
		{ "staff", 12, ALIGN_RIGHT },
		{ "falls", 13, ALIGN_RIGHT },
		{ "trench", 25, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct kerb_result *k = &d->t->kerbs;
	struct table t = table_begin(f, columns, 8, SIZE_NOTE);
	char edge[64];

	flow_heading(f, "String lines", 14);
	flow_line(f, "Top of the unit from the edge's first corner to its last, mm over the datum; "
	             "staff readings; falls in mm/m; trench: bottom of the strip.");
	for (size_t i = 0; i < k->count; i++)
		for (size_t n = 0; n < k->lines[i].run_count; n++) {
			const struct kerb_run *r = &k->lines[i].runs[n];

			TABLE_ROW(&t, plan_edge_words(edge, sizeof edge, &d->t->plan, r->edge),
			        metre_words(d, r->length_m * 1e6), tenth_words(d, r->from_um),
			        staff(d, r, r->from_staff_um), tenth_words(d, r->to_um),
			        staff(d, r, r->to_staff_um), tenth_words(d, r->fall_um_per_m),
			        page_print(d, "%s to %s", mm_words(d, r->from_trench_um),
			                mm_words(d, r->to_trench_um)));
			if (r->curved)
				TABLE_ROW(&t, "its middle", "", tenth_words(d, r->middle_um),
				        staff(d, r, r->middle_staff_um), "", "", "", "");
		}
	table_end(&t);
}

static bool has_strings(const struct kerb_result *k)
{
	for (size_t i = 0; i < k->count; i++)
		if (k->lines[i].run_count)
			return true;
	return false;
}

/* At which every section fits a third of the page. */
static int64_t section_scale(struct drawing *d)
{
	struct box page = furniture_frame(d->width, d->height);
	const struct kerb_result *k = &d->t->kerbs;
	int64_t scale = 0;

	for (size_t i = 0; i < k->count; i++) {
		struct shapes s = shapes_of(d->t, &k->lines[i]);
		int64_t fits = scale_fitting(&s.box, (page.x1 - page.x0) / 2 - 2 * AROUND_MM,
		        page.y1 - page.y0 - 2 * AROUND_MM - HEAD_MM);

		if (!k->lines[i].fault && fits > scale)
			scale = fits;
	}
	return scale;
}

void draw_edging(struct drawing *d, const char *title)
{
	const struct kerb_result *k = &d->t->kerbs;
	int64_t scale = section_scale(d);
	struct page_head head = { title, "", NULL, NULL };
	struct shelf shelf;
	struct flow flow;

	if (scale) {
		shelf_begin(d, &shelf, title, "", scale);
		for (size_t i = 0; i < k->count; i++)
			if (!k->lines[i].fault) {
				struct shapes s = shapes_of(d->t, &k->lines[i]);

				draw_section(&shelf, &s);
			}
		flow = shelf_flow(&shelf, 124);
	} else {
		page_begin(d, &head);
		flow = flow_across(d, &head, &d->frame, 124);
	}
	for (size_t i = 0; i < k->count; i++)
		say_line(&flow, &k->lines[i]);
	if (has_strings(k))
		list_strings(&flow);
	else
		flow_line(&flow, "No string lines, as the surface has no levels; set a fall.");
	flow_line(&flow, "A green haunch takes no load: no plate and no wheel beside it until it "
	                 "has hardened.");
}
