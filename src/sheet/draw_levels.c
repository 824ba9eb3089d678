/* draw_levels.c - levels: every point with finished level, formation and staff readings, beside a
 * plan that shows where they are. */
#include "label.h"
#include "sheets.h"
#include "table.h"

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

/* Those of the paving; pegs, kerbs, walls and steps are found by their names. */
static void draw_points(struct drawing *d, const struct view *v, const struct box *room)
{
	const struct surface_result *s = &d->t->surface;
	struct box plan = region_box(&d->t->region);

	for (size_t i = 0; i < s->point_count; i++)
		page_disc(d,
		        view_point(v, (struct point){ (double)s->points[i].x_um,
		                              (double)s->points[i].y_um }),
		        0.6, 0);
	for (size_t i = 0; i < s->point_count; i++) {
		struct label l = { .text = { page_print(d, "%zu", i + 1), .size = SIZE_NOTE,
			                   .bold = true },
			.at = view_point(v, (struct point){ (double)s->points[i].x_um,
			                            (double)s->points[i].y_um }),
			.clear = 1,
			.reach = 9,
			.leader = true,
			.within = *room };
		struct point middle = view_point(
		        v, (struct point){ (plan.x0 + plan.x1) / 2, (plan.y0 + plan.y1) / 2 });

		l.prefer = atan2(l.at.y - middle.y, l.at.x - middle.x);
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
	v = view_centred(
	        scale_fitting(&plan, room.x1 - room.x0 - 20, room.y1 - room.y0 - 20), &plan, &room);
	page_begin(d, &head);
	edges_draw_plain(d, &v, PEN_OUTLINE);
	draw_points(d, &v, &room);
	flow = flow_begin(d, &head, &side);
	flow_heading(&flow, "Points", 20);
	say_surface(&flow);
	say_instrument(&flow);
	flow_space(&flow, 1);
	list_points(&flow);
}
