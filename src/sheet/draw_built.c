/* draw_built.c - as built: every measured point with how far it is off, and what is out of
 * tolerance marked by shape and word. */
#include "label.h"
#include "plan_page.h"
#include "sheets.h"

#include <math.h>

static const double SIDE_MM = 96;

static bool has_surface(const struct takeoff *t)
{
	return t->plan.surface.count > 0;
}

static bool has_level(const struct takeoff *t, const struct asbuilt_point *p)
{
	return p->measured->has_level && has_surface(t);
}

static bool is_uneven(const struct asbuilt *a, size_t point)
{
	for (size_t i = 0; i < a->gap_count; i++)
		if (a->gaps[i].at == point && a->gaps[i].over_um > 0)
			return true;
	for (size_t i = 0; i < a->puddle_count; i++)
		if (a->puddles[i].at == point && a->puddles[i].over_um > 0)
			return true;
	return false;
}

static bool is_out(const struct asbuilt *a, size_t point)
{
	return a->points[point].level_over_um > 0 || a->points[point].place_over_um > 0 ||
	       is_uneven(a, point);
}

static const char *signed_words(struct drawing *d, double um)
{
	return page_print(d, "%s%s", um >= 50 ? "+" : "", tenth_words(d, um));
}

/* "+3", "7.5 off", and OUT in front where a tolerance is passed; "OUT uneven" where it is that of a
 * straightedge or of a puddle. */
static const char *off_words(struct drawing *d, size_t point)
{
	const struct asbuilt *a = &d->t->site.built;
	const struct asbuilt_point *p = &a->points[point];
	const char *level = has_level(d->t, p) ? signed_words(d, p->level_off_um) : "";
	const char *place = p->measured->has_place
	                            ? page_print(d, "%s off", tenth_words(d, p->place_off_um))
	                            : "";

	return page_print(d, "%s%s%s%s%s", is_out(a, point) ? "OUT " : "",
	        is_uneven(a, point) ? "uneven " : "", level, *level && *place ? ", " : "", place);
}

static struct point point_on_paper(const struct view *v, const struct asbuilt_point *p)
{
	return view_point(
	        v, (struct point){ (double)p->measured->x_um, (double)p->measured->y_um });
}

static bool is_puddle(const struct asbuilt *a, size_t point)
{
	for (size_t i = 0; i < a->puddle_count; i++)
		if (a->puddles[i].at == point)
			return true;
	return false;
}

static void mark_point(struct drawing *d, const struct view *v, size_t i)
{
	const struct asbuilt *a = &d->t->site.built;
	struct point at = point_on_paper(v, &a->points[i]);

	if (is_out(a, i)) {
		mark_triangle(d, at, 1.7, true);
	} else {
		page_disc(d, at, 0.9, 1);
		page_circle(d, at, 0.9, PEN_MEDIUM);
		taken_add(&d->taken, &(struct patch){ at, 0.9, 0.9, 0 }, TAKEN_AREA);
	}
	if (is_puddle(a, i))
		page_circle(d, at, 2.6, PEN_DASHED);
}

static void name_point(struct drawing *d, const struct view *v, size_t i)
{
	const struct asbuilt_point *p = &d->t->site.built.points[i];
	struct label l = { .text = { page_print(d, "%zu", i + 1), .size = SIZE_NOTE, .bold = true },
		.at = point_on_paper(v, p),
		.clear = 2.6,
		.reach = 18,
		.leader = true,
		.gap = 2.5,
		.ringed = true,
		.after = off_words(d, i) };

	l.prefer = atan2(v->paper.y - l.at.y, v->paper.x - l.at.x);
	if (label_place(d, &l))
		return;
	l.after = is_out(&d->t->site.built, i) ? "OUT" : NULL;
	label_place(d, &l);
}

/* --- tables --- */

static void say_rule(struct flow *f, const char *what, const struct rule *rule)
{
	if (rule)
		flow_line(f, "%s: %s mm (%s).", what, tenth_words(f->d, (double)rule->number),
		        rule->source);
	else
		flow_line(f, "%s: the rule set names no tolerance.", what);
}

static const char *over_words(struct drawing *d, const struct asbuilt_point *p)
{
	if (p->level_over_um > 0)
		return page_print(d, "OUT by %s, level", tenth_words(d, p->level_over_um));
	if (p->place_over_um > 0)
		return page_print(d, "OUT by %s, place", tenth_words(d, p->place_over_um));
	return "";
}

static void list_points(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "no.", 7, ALIGN_RIGHT },
		{ "point", 22, ALIGN_LEFT },
		{ "plan", 13, ALIGN_RIGHT },
		{ "level", 12, ALIGN_RIGHT },
		{ "place", 11, ALIGN_RIGHT },
		{ "", 31, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	const struct asbuilt *a = &d->t->site.built;
	struct table t = table_begin(f, columns, 6, SIZE_NOTE);

	for (size_t i = 0; i < a->count; i++) {
		const struct asbuilt_point *p = &a->points[i];

		TABLE_ROW(&t, page_print(d, "%zu", i + 1), page_clean(d, p->name),
		        has_level(d->t, p) ? tenth_words(d, p->planned_um) : "-",
		        has_level(d->t, p) ? signed_words(d, p->level_off_um) : "-",
		        p->measured->has_place ? tenth_words(d, p->place_off_um) : "-",
		        over_words(d, p));
	}
	table_end(&t);
}

static void list_gaps(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "under", 11, ALIGN_LEFT },
		{ "point", 22, ALIGN_LEFT },
		{ "from - to", 16, ALIGN_LEFT },
		{ "gap", 12, ALIGN_RIGHT },
		{ "", 35, ALIGN_LEFT },
	};
	struct drawing *d = f->d;
	const struct asbuilt *a = &d->t->site.built;
	struct table t = table_begin(f, columns, 5, SIZE_NOTE);

	for (size_t i = 0; i < a->straightedge_count; i++)
		say_rule(f,
		        page_print(d, "Under %.0f m straightedge",
		                a->straightedges[i].length_um / 1e6),
		        a->straightedges[i].rule);
	for (size_t i = 0; i < a->gap_count; i++) {
		const struct asbuilt_gap *g = &a->gaps[i];

		TABLE_ROW(&t,
		        page_print(d, "%.0f m", a->straightedges[g->straightedge].length_um / 1e6),
		        page_clean(d, a->points[g->at].name),
		        page_print(d, "%zu - %zu", g->from + 1, g->to + 1),
		        tenth_words(d, fabs(g->gap_um)),
		        page_print(d, "%s%s%s", g->gap_um < 0 ? "hollow" : "hump",
		                g->over_um > 0 ? ", OUT by " : "",
		                g->over_um > 0 ? tenth_words(d, g->over_um) : ""));
	}
	table_end(&t);
}

static void list_puddles(struct flow *f)
{
	struct drawing *d = f->d;
	const struct asbuilt *a = &d->t->site.built;

	for (size_t i = 0; i < a->puddle_count; i++)
		flow_line(f, "Water stands at %s (dashed circle), up to %s mm deep%s%s.",
		        page_clean(d, a->points[a->puddles[i].at].name),
		        tenth_words(d, a->puddles[i].depth_um),
		        a->puddles[i].over_um > 0 ? ", OUT by " : "",
		        a->puddles[i].over_um > 0 ? tenth_words(d, a->puddles[i].over_um) : "");
}

static void list_four(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "corners", 20, ALIGN_LEFT },
		{ "as built", 20, ALIGN_RIGHT },
		{ "planned", 20, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct asbuilt *a = &d->t->site.built;
	struct table t = table_begin(f, columns, 3, SIZE_NOTE);

	if (!a->has_four)
		return;
	flow_heading(f, "Sides and diagonals", 12);
	for (int i = 0; i < 4; i++)
		TABLE_ROW(&t, page_print(d, "%d - %d", i + 1, (i + 1) % 4 + 1),
		        metre_words(d, a->sides_um[i]), metre_words(d, a->planned_sides_um[i]));
	for (int i = 0; i < 2; i++)
		TABLE_ROW(&t, page_print(d, "%d - %d", i + 1, i + 3),
		        metre_words(d, a->diagonals_um[i]),
		        metre_words(d, a->planned_diagonals_um[i]));
	table_end(&t);
}

static void say_result(struct flow *f)
{
	const struct asbuilt *a = &f->d->t->site.built;
	size_t fails = a->level_fails + a->place_fails + a->gap_fails + a->puddle_fails;

	if (fails)
		flow_line(f,
		        "Out of tolerance: %zu levels, %zu places, %zu under a straightedge, %zu "
		        "puddles.",
		        a->level_fails, a->place_fails, a->gap_fails, a->puddle_fails);
	else
		flow_line(f, "Nothing measured is out of a tolerance that the rule set names.");
	flow_line(f, "Contract and local codes come before these tolerances.");
}

void draw_built(struct drawing *d, const char *title)
{
	const struct asbuilt *a = &d->t->site.built;
	struct box shown = plan_box(d->t);
	struct plan_page page;
	struct flow flow;

	for (size_t i = 0; i < a->count; i++)
		box_hold(&shown, (double)a->points[i].measured->x_um,
		        (double)a->points[i].measured->y_um);
	plan_page_begin(d, &page, title, &shown, SIDE_MM);
	edges_draw_plain(d, &page.view, PEN_OUTLINE);
	for (size_t i = 0; i < a->count; i++)
		mark_point(d, &page.view, i);
	for (size_t i = 0; i < a->count; i++)
		name_point(d, &page.view, i);
	flow = plan_page_flow(d, &page);
	flow_heading(&flow, "Result", 12);
	say_result(&flow);
	flow_line(&flow, "Circle: within tolerance. Black triangle and OUT: not. Level: measured "
	                 "less planned, mm, + too high; place: how far off, mm.");
	flow_space(&flow, 1);
	flow_heading(&flow, "Points", 16);
	say_rule(&flow, "Levels, either way", a->level_rule);
	say_rule(&flow, "Places", a->place_rule);
	if (!has_surface(d->t))
		flow_line(&flow, "No fall is set, so levels are not compared.");
	list_points(&flow);
	if (has_surface(d->t)) {
		flow_heading(&flow, "Flatness", 12);
		list_gaps(&flow);
		list_puddles(&flow);
	}
	list_four(&flow);
}
