/* draw_dig.c - ground and dig: the levels found and the triangles between them, the formation, and
 * what is dug, filled and brought in. */
#include "label.h"
#include "plan_page.h"
#include "sheets.h"
#include "slabwright/sheet.h"

#include <math.h>

static const double SIDE_MM = 92;

static struct point ground_on_paper(const struct drawing *d, const struct view *v, size_t i)
{
	const struct plan_point *p = &d->t->earth.ground.points[i];

	return view_point(v, (struct point){ (double)p->x_um, (double)p->y_um });
}

static void draw_triangles(struct drawing *d, const struct view *v)
{
	const struct mesh *m = &d->t->earth.ground.mesh;

	for (size_t i = 0; i < m->triangle_count; i++) {
		struct point p[3];

		for (int k = 0; k < 3; k++)
			p[k] = ground_on_paper(d, v, m->triangles[i].corner[k]);
		page_path(d, p, 3, true, PEN_HAIR);
	}
}

static void draw_spots(struct drawing *d, const struct view *v)
{
	const struct ground *g = &d->t->earth.ground;

	for (size_t i = 0; i < g->level_count; i++)
		mark_cross(d, ground_on_paper(d, v, i), 0.9);
	for (size_t i = 0; i < g->level_count; i++)
		words_beside(d, ground_on_paper(d, v, i), mm_words(d, g->level_um[i]), SIZE_NOTE,
		        -acos(-1) / 4);
}

static void name_formation(struct drawing *d, const struct view *v)
{
	const struct surface_result *s = &d->t->surface;

	for (size_t i = 0; i < s->point_count; i++)
		page_disc(d,
		        view_point(v, (struct point){ (double)s->points[i].x_um,
		                              (double)s->points[i].y_um }),
		        0.6, 0);
	for (size_t i = 0; i < s->point_count; i++) {
		const struct level_point *p = &s->points[i];
		struct label l = { .text = { page_print(d, "F %s", mm_words(d, p->formation_um)),
			                   .size = SIZE_NOTE, .bold = true, .on_white = true },
			.at = view_point(v, (struct point){ (double)p->x_um, (double)p->y_um }),
			.clear = 1.4,
			.reach = 18,
			.leader = true,
			.gap = 0.8 };

		l.prefer = atan2(v->paper.y - l.at.y, v->paper.x - l.at.x);
		label_place(d, &l);
	}
}

static void mark_extreme(
        struct drawing *d, const struct view *v, const char *what, double um, double x, double y)
{
	struct label l = { .text = { .size = SIZE_NOTE, .on_white = true },
		.at = view_point(v, (struct point){ x, y }),
		.clear = 2.5,
		.reach = 16,
		.leader = true,
		.gap = 2.4,
		.prefer = acos(-1) / 2 };

	if (um <= 0)
		return;
	page_circle(d, l.at, 1.6, PEN_MEDIUM);
	l.text.words = page_print(d, "%s %s", what, mm_words(d, um));
	label_place(d, &l);
	taken_add(&d->taken, &(struct patch){ l.at, 1.6, 1.6, 0 }, TAKEN_AREA);
}

static double margin_of(const struct takeoff *t)
{
	return t->earth.over_dig_m2 > 0 ? (double)t->plan.site.earth.over_dig_um : 0;
}

/* --- tables --- */

static void say_ground(struct flow *f)
{
	struct drawing *d = f->d;
	const struct earth_result *e = &d->t->earth;

	flow_line(f,
	        "Crosses: levels of the ground as found, %zu of them%s. F: formation at corners. "
	        "All in mm over the datum.",
	        e->ground.level_count,
	        e->ground.kind == GROUND_MESH ? "; the ground runs straight between three" : "");
	if (margin_of(d->t) > 0)
		flow_line(f,
		        "Dug %s mm beyond the outline, but not beyond house walls and existing "
		        "paving: %.3f m2 more.",
		        mm_words(d, margin_of(d->t)), e->over_dig_m2);
	if (e->extrapolated_m2 > 0)
		flow_line(f,
		        "%.3f m2 lie beyond the levels, up to %.2f m; there the nearest level is "
		        "taken. Measure levels farther out.",
		        e->extrapolated_m2, e->farthest_um * 1e-6);
}

static const char *volume(struct drawing *d, double m3)
{
	return page_print(d, "%.3f", m3);
}

static void list_volumes(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "volumes, m3", 40, ALIGN_LEFT },
		{ "in the ground", 24, ALIGN_RIGHT },
		{ "loose", 22, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct earth_result *e = &d->t->earth;
	const struct plan_earth *p = &d->t->plan.site.earth;
	struct table t = table_begin(f, columns, 3, SIZE_NOTE);

	TABLE_ROW(&t, "topsoil, kept apart", volume(d, e->topsoil_m3),
	        volume(d, e->topsoil_loose_m3));
	TABLE_ROW(&t, "to dig under it", volume(d, e->cut_m3), volume(d, e->cut_loose_m3));
	TABLE_ROW(&t, "to fill, compacted", volume(d, e->fill_m3), volume(d, e->fill_loose_m3));
	TABLE_ROW(&t, "of these beyond the outline", volume(d, e->over_dig_m3), "");
	if (e->fill_m3 > 0 && e->cut_m3 > 0) {
		TABLE_ROW(&t, "left over, dug as fill", "", volume(d, e->surplus_loose_m3));
		TABLE_ROW(&t, "missing, dug as fill", "", volume(d, e->missing_loose_m3));
	}
	table_end(&t);
	flow_line(f, "Bulking %g %%, compaction %g %%, topsoil %s mm deep.",
	        (double)p->bulking_ppm / 10000, (double)p->compaction_ppm / 10000,
	        mm_words(d, (double)p->topsoil_um));
}

static void list_parts(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "part", 34, ALIGN_LEFT },
		{ "m2", 13, ALIGN_RIGHT },
		{ "deep mm", 15, ALIGN_RIGHT },
		{ "dig m3", 14, ALIGN_RIGHT },
		{ "fill m3", 14, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct earth_result *e = &d->t->earth;
	struct table t = table_begin(f, columns, 5, SIZE_NOTE);

	for (size_t i = 0; i < e->part_count; i++) {
		const struct earth_part *p = &e->parts[i];

		TABLE_ROW(&t, page_clean(d, p->name), volume(d, p->area_m2),
		        mm_words(d, p->depth_um), volume(d, p->cut_m3), volume(d, p->fill_m3));
	}
	table_end(&t);
	flow_line(f, "Deep: formation under the finished surface.");
}

static void list_layers(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "layer, compacted", 34, ALIGN_LEFT },
		{ "m2", 15, ALIGN_RIGHT },
		{ "mm", 13, ALIGN_RIGHT },
		{ "m3", 16, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct earth_result *e = &d->t->earth;
	const struct earth_layer *layers[] = { &e->sub_base, &e->bedding };
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);

	for (int i = 0; i < 2; i++)
		TABLE_ROW(&t, i ? "bedding" : "sub-base", volume(d, layers[i]->area_m2),
		        mm_words(d, (double)layers[i]->depth_um), volume(d, layers[i]->volume_m3));
	if (e->unpaved_m3 > 0)
		TABLE_ROW(&t, "in zones without slabs", "", "", volume(d, e->unpaved_m3));
	table_end(&t);
}

void draw_dig(struct drawing *d, const char *title)
{
	const struct earth_result *e = &d->t->earth;
	struct box shown = plan_box(d->t);
	struct plan_page page;
	struct flow flow;

	for (size_t i = 0; i < e->ground.level_count; i++)
		box_hold(
		        &shown, (double)e->ground.points[i].x_um, (double)e->ground.points[i].y_um);
	plan_page_begin(d, &page, title, &shown, SIDE_MM);
	draw_triangles(d, &page.view);
	edges_draw_plain(d, &page.view, PEN_OUTLINE);
	mark_extreme(d, &page.view, "deepest", e->deepest_um, e->deepest_x_um, e->deepest_y_um);
	mark_extreme(
	        d, &page.view, "highest fill", e->highest_um, e->highest_x_um, e->highest_y_um);
	draw_spots(d, &page.view);
	name_formation(d, &page.view);
	flow = plan_page_flow(d, &page);
	flow_heading(&flow, "Ground", 12);
	say_ground(&flow);
	flow_space(&flow, 1);
	flow_heading(&flow, "Dig and fill", 14);
	list_volumes(&flow);
	list_parts(&flow);
	flow_heading(&flow, "Layers", 14);
	list_layers(&flow);
	flow_line(&flow, "Before digging: have buried services located and marked, and dig by hand "
	                 "near them.");
}
