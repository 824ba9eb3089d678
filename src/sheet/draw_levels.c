/* draw_levels.c - levels: every point with finished level, formation and staff readings, beside a
 * plan that shows where they are. */
#include "label.h"
#include "plan_page.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const struct table_column columns[] = {
	{ "no.", 10, ALIGN_RIGHT },
	{ "point", 40, ALIGN_LEFT },
	{ "x", 15, ALIGN_RIGHT },
	{ "y", 15, ALIGN_RIGHT },
	{ "finished", 17, ALIGN_RIGHT },
	{ "staff", 14, ALIGN_RIGHT },
	{ "formation", 19, ALIGN_RIGHT },
	{ "staff", 14, ALIGN_RIGHT },
};

enum { COLUMNS = sizeof columns / sizeof *columns };

static void list_points(struct flow *f)
{
	struct drawing *d = f->d;
	double height = (double)instrument_height_um(&d->t->plan.ground);
	struct table t = table_begin(f, columns, COLUMNS, SIZE_BODY);

	for (size_t i = 0; i < d->t->level_count; i++) {
		const struct level_point *p = &d->t->levels[i];

		TABLE_ROW(&t, page_print(d, "%zu", i + 1), p->name, metre_words(d, (double)p->x_um),
		        metre_words(d, (double)p->y_um), mm_words(d, p->level_um),
		        p->has_staff ? mm_words(d, p->staff_um) : "-", mm_words(d, p->formation_um),
		        p->has_staff ? mm_words(d, height - p->formation_um) : "-");
	}
	table_end(&t);
}

static void say_instrument(struct flow *f)
{
	struct drawing *d = f->d;
	const struct plan_ground *g = &d->t->plan.ground;

	if (g->has_instrument)
		flow_paragraph(f,
		        page_print(d,
		                "Benchmark %s, backsight %s: height of instrument %s. A staff "
		                "reading is the height of instrument less the level. Set up anew: "
		                "read the benchmark, and correct every reading by the difference.",
		                mm_words(d, (double)g->benchmark_um),
		                mm_words(d, (double)g->backsight_um),
		                mm_words(d, (double)instrument_height_um(g))),
		        SIZE_NOTE);
	else
		flow_paragraph(
		        f, "No instrument is set up, so there are no staff readings.", SIZE_NOTE);
}

static void say_plane(struct flow *f, const struct surface_part *part)
{
	struct drawing *d = f->d;
	const struct plan_surface *s = &d->t->plan.surface;
	char fall[80];

	flow_paragraph(f,
	        page_print(d, "%s: fall %s, water runs %s on the plan.",
	                s->count > 1 ? page_print(d, "Plane %zu", part->plane + 1) : "Surface",
	                fall_print(fall, sizeof fall, s->planes[part->plane].fall_um_per_m),
	                compass_name(s->planes[part->plane].toward_udeg)),
	        SIZE_NOTE);
}

static const char *fixed_words(struct drawing *d, double difference_um)
{
	if (llround(difference_um / 1000) == 0)
		return "meets it to the mm";
	return page_print(d, "lies %s mm %s it", mm_words(d, fabs(difference_um)),
	        difference_um < 0 ? "below" : "above");
}

static void say_surface(struct flow *f)
{
	struct drawing *d = f->d;
	const struct takeoff *t = d->t;
	const struct surface_result *s = &t->surface;

	if (!s->has_plane) {
		flow_paragraph(
		        f, "No fall is set, so there are no levels. Set a fall first.", SIZE_BODY);
		return;
	}
	for (size_t i = 0; i < s->shape.part_count; i++)
		say_plane(f, &s->shape.parts[i]);
	flow_paragraph(f,
	        page_print(d,
	                "All in mm over the datum; x and y in m. Formation: %s bedding and %s "
	                "sub-base under the slab. Highest is %s at %s, lowest %s at %s.",
	                mm_words(d, (double)t->plan.ground.bedding_um),
	                mm_words(d, (double)t->plan.ground.sub_base_um), s->highest_name,
	                mm_words(d, s->highest_um), s->lowest_name, mm_words(d, s->lowest_um)),
	        SIZE_NOTE);
	if (s->has_fixed)
		flow_paragraph(f,
		        page_print(d, "%s: the surface %s.",
		                *t->plan.surface.fixed_name
		                        ? page_clean(d, t->plan.surface.fixed_name)
		                        : "Fixed point",
		                fixed_words(d, s->fixed_difference_um)),
		        SIZE_NOTE);
	for (size_t i = 0; i < s->warning_count; i++)
		flow_paragraph(f, page_print(d, "Warning: %s", s->warnings[i].text), SIZE_NOTE);
}

static struct point level_at(const struct drawing *d, const struct view *v, size_t i)
{
	const struct level_point *p = &d->t->levels[i];

	return view_point(v, (struct point){ (double)p->x_um, (double)p->y_um });
}

/* Whether a point of the sheet is one of the plan's pegs: they come after those of the surface. */
static bool is_peg(const struct takeoff *t, size_t i)
{
	return t->surface.has_plane && i >= t->surface.point_count &&
	       i < t->surface.point_count + t->plan.site.peg_count;
}

/* Tops of kerbs and walls may stand on a corner that is there already. */
static bool stands_alone(const struct takeoff *t, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (t->levels[k].x_um == t->levels[i].x_um &&
		        t->levels[k].y_um == t->levels[i].y_um)
			return false;
	return true;
}

static void draw_points(struct drawing *d, const struct view *v, const struct box *room)
{
	const struct takeoff *t = d->t;

	for (size_t i = 0; i < t->level_count; i++)
		if (is_peg(t, i))
			mark_triangle(d, level_at(d, v, i), 1.2, false);
		else
			page_disc(d, level_at(d, v, i), 0.6, 0);
	for (size_t i = 0; i < t->level_count; i++) {
		struct label l = { .text = { page_print(d, "%zu", i + 1), .size = SIZE_NOTE,
			                   .bold = true },
			.at = level_at(d, v, i),
			.clear = is_peg(t, i) ? 2.2 : 1,
			.gap = is_peg(t, i) ? 2 : 0,
			.reach = 9,
			.leader = true,
			.within = *room };

		l.prefer = atan2(l.at.y - v->paper.y, l.at.x - v->paper.x);
		if (stands_alone(t, i))
			label_place(d, &l);
	}
}

void draw_levels(struct drawing *d, const char *title)
{
	struct box plan = region_box(&d->t->region), room, side;
	struct view v;
	struct page_head head = { title, "", &v, NULL };
	struct flow flow;

	d->frame = furniture_frame(d->width, d->height);
	room = side = d->frame;
	side.x1 = side.x0 + table_width(columns, COLUMNS);
	room.x0 = side.x1 + 6;
	for (size_t i = 0; i < d->t->level_count; i++)
		box_hold(&plan, (double)d->t->levels[i].x_um, (double)d->t->levels[i].y_um);
	v = view_centred(
	        scale_fitting(&plan, room.x1 - room.x0 - 20, room.y1 - room.y0 - 20), &plan, &room);
	page_begin(d, &head);
	edges_draw_plain(d, &v, PEN_OUTLINE);
	draw_points(d, &v, &room);
	flow = flow_begin(d, &head, &side);
	flow_heading(&flow, "Points", 20);
	say_surface(&flow);
	say_instrument(&flow);
	if (d->t->surface.has_plane && d->t->plan.site.peg_count)
		flow_paragraph(&flow, "Triangles on the plan are pegs.", SIZE_NOTE);
	flow_space(&flow, 1);
	list_points(&flow);
}
