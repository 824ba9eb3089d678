/* draw_setout.c - setting out: the baseline, every point with chainage, offset and staff reading,
 * diagonals, and the tables for two tapes, square corners and arcs. */
#include "label.h"
#include "plan_page.h"
#include "sheets.h"

#include <math.h>
#include <string.h>

static const struct table_column columns[] = {
	{ "no.", 7, ALIGN_RIGHT },
	{ "point", 38, ALIGN_LEFT },
	{ "along", 12, ALIGN_RIGHT },
	{ "square", 15, ALIGN_RIGHT },
	{ "tape A", 13, ALIGN_RIGHT },
	{ "tape B", 13, ALIGN_RIGHT },
	{ "staff", 10, ALIGN_RIGHT },
};

enum { COLUMNS = sizeof columns / sizeof *columns };

static bool same_place(double x0, double y0, double x1, double y1)
{
	return fabs(x0 - x1) < 2 && fabs(y0 - y1) < 2;
}

/* "kerb end at corner 3" is told as "kerb top, corner 3", at the corner itself. */
static bool is_kerb_of(const struct setout_point *p, const struct level_point *l)
{
	static const char end[] = "kerb end at ";
	const char *top = strstr(l->name, " top, ");

	return strncmp(p->name, end, sizeof end - 1) == 0 && top &&
	       strncmp(l->name, "planter", 7) != 0 &&
	       strcmp(top + 6, p->name + sizeof end - 1) == 0;
}

/* At the ends of a flight's top nosing the staff stands on it. */
static const struct flight *flight_at(const struct takeoff *t, const struct setout_point *p)
{
	for (size_t i = 0; i < t->steps.count; i++) {
		const struct plan_steps *s = t->steps.flights[i].steps;
		double c, n, half = (double)s->width_um / 2;

		turn_of(s->toward_udeg, &c, &n);
		for (int side = -1; side <= 1; side += 2)
			if (!t->steps.flights[i].fault &&
			        same_place((double)s->x_um - n * half * side,
			                (double)s->y_um + c * half * side, p->x_um, p->y_um))
				return &t->steps.flights[i];
	}
	return NULL;
}

/* Of the level sheet's point of that name, else of one at that place: "1345"; "" without one. */
static const char *staff_words(struct drawing *d, const struct setout_point *p)
{
	const struct takeoff *t = d->t;
	const struct flight *flight = flight_at(t, p);
	const struct level_point *found = NULL;
	bool named = false;

	for (size_t i = 0; i < t->level_count; i++) {
		const struct level_point *l = &t->levels[i];
		bool here = same_place((double)l->x_um, (double)l->y_um, p->x_um, p->y_um);
		bool its = (here && strcmp(l->name, p->name) == 0) || is_kerb_of(p, l);

		if (l->has_staff && (its ? !named : here && !found)) {
			found = l;
			named = its;
		}
	}
	if (!found && flight && t->plan.ground.has_instrument)
		return mm_words(
		        d, (double)(instrument_height_um(&t->plan.ground) - flight->top_um));
	return found ? mm_words(d, found->staff_um) : "";
}

static const char *square_words(struct drawing *d, double offset_um)
{
	if (fabs(offset_um) < 0.5 * UM_PER_MM)
		return "on";
	return page_print(d, "%s %s", metre_words(d, fabs(offset_um)), offset_um > 0 ? "L" : "R");
}

static struct point on_paper(const struct view *v, const struct setout_point *p)
{
	return view_point(v, (struct point){ p->x_um, p->y_um });
}

/* --- drawing --- */

static void end_mark(struct drawing *d, struct point at, const char *letter, double way)
{
	struct label l = { .text = { letter, .size = SIZE_HEAD, .bold = true },
		.at = at,
		.clear = 3,
		.reach = 20,
		.leader = true,
		.gap = 1.5,
		.prefer = way };

	page_circle(d, at, 1.2, PEN_MEDIUM);
	label_place(d, &l);
}

static void draw_baseline(struct drawing *d, const struct view *v)
{
	const struct setout *s = &d->t->site.setout;
	struct point a = view_point(v, s->first), b = view_point(v, s->second);
	double way = atan2(b.y - a.y, b.x - a.x);

	page_line(d, a, b, PEN_CHAIN);
	taken_add_line(&d->taken, a, b, TAKEN_LINE);
	end_mark(d, a, "A", way + acos(-1));
	end_mark(d, b, "B", way);
}

static struct point corner_on_paper(const struct drawing *d, const struct view *v, size_t corner)
{
	const struct plan_node *n = &d->t->plan.rings[0].nodes[corner];

	return view_point(v, (struct point){ (double)n->x_um, (double)n->y_um });
}

static void draw_diagonals(struct drawing *d, const struct view *v)
{
	const struct setout *s = &d->t->site.setout;

	for (size_t i = 0; i < s->diagonal_count; i++)
		page_line(d, corner_on_paper(d, v, s->diagonals[i].from),
		        corner_on_paper(d, v, s->diagonals[i].to),
		        s->diagonals[i].check ? PEN_FAINT_DASHED : PEN_HAIR);
}

static bool along_diagonal(
        struct drawing *d, struct point a, struct point b, const char *words, double part)
{
	double turn = atan2(b.y - a.y, b.x - a.x), half = acos(-1) / 2;
	struct text t = { words, .size = SIZE_LEAST, .grey = true, .on_white = true };
	struct patch p;

	t.turn = turn > half ? turn - 2 * half : turn <= -half ? turn + 2 * half : turn;
	p = text_patch(d, &t);
	p.at = (struct point){ a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part };
	if (2 * p.along + 4 > hypot(b.x - a.x, b.y - a.y) || !patch_within(&p, &d->frame) ||
	        !taken_free(&d->taken, &p, TAKEN_ANY))
		return false;
	page_text_at(d, &t, &p);
	return true;
}

static void name_diagonals(struct drawing *d, const struct view *v)
{
	static const double parts[] = { 0.35, 0.65, 0.25, 0.75, 0.5, 0.15, 0.85 };
	const struct setout *s = &d->t->site.setout;

	for (size_t i = 0; i < s->diagonal_count; i++) {
		struct point a = corner_on_paper(d, v, s->diagonals[i].from),
		             b = corner_on_paper(d, v, s->diagonals[i].to);
		const char *words = metre_words(d, s->diagonals[i].length_um);

		for (size_t k = 0; k < sizeof parts / sizeof *parts; k++)
			if (along_diagonal(d, a, b, words, parts[k]))
				break;
	}
}

/* A small square in the corner. */
static void mark_square(struct drawing *d, const struct view *v, const struct setout_triple *t)
{
	static const double SIDE_MM = 2.4;
	const struct plan_ring *r = &d->t->plan.rings[t->ring];
	const struct plan_node *n[3] = { &r->nodes[(t->at + r->count - 1) % r->count],
		&r->nodes[t->at], &r->nodes[(t->at + 1) % r->count] };
	struct point p[3], in, out;

	for (int i = 0; i < 3; i++)
		p[i] = view_point(v, (struct point){ (double)n[i]->x_um, (double)n[i]->y_um });
	in = (struct point){ p[0].x - p[1].x, p[0].y - p[1].y };
	out = (struct point){ p[2].x - p[1].x, p[2].y - p[1].y };
	for (int i = 0; i < 2; i++) {
		struct point *w = i ? &out : &in;
		double length = hypot(w->x, w->y);

		if (length < 2 * SIDE_MM)
			return;
		w->x *= SIDE_MM / length, w->y *= SIDE_MM / length;
	}
	page_path(d,
	        (struct point[]){ { p[1].x + in.x, p[1].y + in.y },
	                { p[1].x + in.x + out.x, p[1].y + in.y + out.y },
	                { p[1].x + out.x, p[1].y + out.y } },
	        3, false, PEN_THIN);
}

static void mark_points(struct drawing *d, const struct view *v)
{
	const struct setout *s = &d->t->site.setout;

	for (size_t i = 0; i < s->point_count; i++) {
		struct point p = on_paper(v, &s->points[i]);

		if (s->points[i].is_peg)
			mark_triangle(d, p, 1.3, false);
		else
			page_disc(d, p, 0.6, 0);
	}
}

/* Number in a circle, and "along / square / staff" behind it where there is room. */
static void name_point(struct drawing *d, const struct view *v, size_t i, struct point middle)
{
	const struct setout_point *p = &d->t->site.setout.points[i];
	const char *staff = staff_words(d, p);
	struct label l = { .text = { page_print(d, "%zu", i + 1), .size = SIZE_NOTE, .bold = true },
		.at = on_paper(v, p),
		.clear = p->is_peg ? 2.2 : 1.4,
		.reach = 16,
		.leader = true,
		.gap = p->is_peg ? 2 : 1.2,
		.ringed = true };

	l.after = page_print(d, "%s / %s%s%s", metre_words(d, p->chainage_um),
	        square_words(d, p->offset_um), *staff ? " / " : "", staff);
	l.prefer = atan2(l.at.y - middle.y, l.at.x - middle.x);
	if (label_place(d, &l))
		return;
	l.after = NULL;
	l.reach = 30;
	label_place(d, &l);
}

/* --- tables --- */

static void say_baseline(struct flow *f)
{
	struct drawing *d = f->d;
	const struct setout *s = &d->t->site.setout;
	char edge[64];

	flow_line(f, "Baseline A to B: %s, %s m long.",
	        s->chosen ? page_print(d, "%s%s",
	                            plan_edge_words(edge, sizeof edge, &d->t->plan, s->edge),
	                            s->house_wall ? " (house wall)" : "")
	                  : "as laid out",
	        metre_words(d, s->length_um));
	flow_line(f, "\"along\" is measured from A, \"square\" square from the baseline: L left, R "
	             "right, looking from A to B. Tapes are from A and from B; \"!\" marks where "
	             "they cross too flat: use along and square. All level, not down the slope. "
	             "Beside a point: along / square / staff.");
}

static void list_points(struct flow *f)
{
	struct drawing *d = f->d;
	const struct setout *s = &d->t->site.setout;
	struct table t = table_begin(f, columns, COLUMNS, SIZE_NOTE);

	for (size_t i = 0; i < s->point_count; i++) {
		const struct setout_point *p = &s->points[i];
		bool weak = p->weak_tie && fabs(p->offset_um) >= 0.5 * UM_PER_MM;
		const char *staff = staff_words(d, p);

		TABLE_ROW(&t, page_print(d, "%zu", i + 1),
		        p->is_peg ? page_print(d, "peg %s", page_clean(d, p->name)) : p->name,
		        metre_words(d, p->chainage_um), square_words(d, p->offset_um),
		        metre_words(d, p->tie_first_um),
		        page_print(d, "%s%s", metre_words(d, p->tie_second_um), weak ? "!" : ""),
		        *staff ? staff : "-");
	}
	table_end(&t);
}

static void list_diagonals(struct flow *f)
{
	static const struct table_column diagonal[] = {
		{ "diagonal", 40, ALIGN_LEFT },
		{ "length", 18, ALIGN_RIGHT },
		{ "", 30, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	const struct setout *s = &d->t->site.setout;
	struct table t = table_begin(f, diagonal, 3, SIZE_NOTE);

	if (!s->diagonal_count)
		return;
	flow_heading(f, "Diagonals", 12);
	for (size_t i = 0; i < s->diagonal_count; i++)
		TABLE_ROW(&t,
		        page_print(d, "corner %zu to corner %zu", s->diagonals[i].from + 1,
		                s->diagonals[i].to + 1),
		        metre_words(d, s->diagonals[i].length_um),
		        s->diagonals[i].check ? "check (dashed)" : "");
	table_end(&t);
	flow_line(f, "Measure opposite sides too: equal diagonals alone prove nothing.");
}

static void list_triples(struct flow *f)
{
	static const struct table_column triple[] = {
		{ "3-4-5 at corner", 25, ALIGN_LEFT },
		{ "in", 12, ALIGN_RIGHT },
		{ "toward", 16, ALIGN_RIGHT },
		{ "out", 12, ALIGN_RIGHT },
		{ "toward", 16, ALIGN_RIGHT },
		{ "across", 14, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct setout *s = &d->t->site.setout;
	struct table t = table_begin(f, triple, 6, SIZE_NOTE);

	if (!s->triple_count)
		return;
	flow_heading(f, "Square corners", 12);
	for (size_t i = 0; i < s->triple_count; i++) {
		const struct setout_triple *k = &s->triples[i];
		size_t n = d->t->plan.rings[k->ring].count;

		TABLE_ROW(&t,
		        k->ring ? page_print(d, "%zu of opening %zu", k->at + 1, k->ring)
		                : page_print(d, "%zu", k->at + 1),
		        metre_words(d, (double)(k->leg_4_leads ? k->leg_3_um : k->leg_4_um)),
		        page_print(d, "%zu", (k->at + n - 1) % n + 1),
		        metre_words(d, (double)(k->leg_4_leads ? k->leg_4_um : k->leg_3_um)),
		        page_print(d, "%zu", (k->at + 1) % n + 1),
		        metre_words(d, (double)k->long_5_um));
	}
	table_end(&t);
}

static void list_arc(struct flow *f, const struct setout_arc *a)
{
	static const struct table_column offsets[] = {
		{ "along chord", 25, ALIGN_RIGHT },
		{ "square from it", 30, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, offsets, 2, SIZE_NOTE);
	char edge[64];

	flow_need(f, 16);
	flow_line(f, "Arc, %s: chord %s, rise %s %s, radius %s.",
	        plan_edge_words(edge, sizeof edge, &d->t->plan, a->edge),
	        metre_words(d, a->chord_um), metre_words(d, fabs(a->rise_um)),
	        a->rise_um > 0 ? "outward" : "inward", metre_words(d, a->radius_um));
	for (size_t i = 0; i < a->count; i++)
		TABLE_ROW(&t, metre_words(d, a->offsets[i].along_um),
		        metre_words(d, fabs(a->offsets[i].offset_um)));
	table_end(&t);
}

void draw_setout(struct drawing *d, const char *title)
{
	const struct setout *s = &d->t->site.setout;
	struct box shown = plan_box(d->t);
	struct point middle;
	struct plan_page page;
	struct flow flow;

	box_hold(&shown, s->first.x, s->first.y);
	box_hold(&shown, s->second.x, s->second.y);
	for (size_t i = 0; i < s->point_count; i++)
		box_hold(&shown, s->points[i].x_um, s->points[i].y_um);
	plan_page_begin(d, &page, title, &shown, table_width(columns, COLUMNS));
	middle = page.view.paper;
	draw_diagonals(d, &page.view);
	edges_draw_plain(d, &page.view, PEN_OUTLINE);
	for (size_t i = 0; i < s->triple_count; i++)
		mark_square(d, &page.view, &s->triples[i]);
	mark_points(d, &page.view);
	draw_baseline(d, &page.view);
	for (size_t i = 0; i < s->point_count; i++)
		name_point(d, &page.view, i, middle);
	name_diagonals(d, &page.view);
	flow = plan_page_flow(d, &page);
	flow_heading(&flow, "Points", 20);
	say_baseline(&flow);
	list_points(&flow);
	list_diagonals(&flow);
	list_triples(&flow);
	for (size_t i = 0; i < s->arc_count; i++)
		list_arc(&flow, &s->arcs[i]);
	flow_line(&flow, "Pegs and pins: have buried services located and marked before any is "
	                 "driven.");
}
