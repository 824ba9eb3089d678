/* draw_plan.c - the plan: outline with dimensions and edge kinds, openings, parts of the paving,
 * fall, levels at corners, the fixed point; beside it every edge in a table. */
#include "label.h"
#include "plan_facts.h"
#include "plan_falls.h"
#include "sheets.h"
#include "slabwright/sheet.h"

#include <inttypes.h>
#include <math.h>

static const double SIDE_MM = 84, AROUND_MM = 17;

/* Middle of an edge's chord on paper, and its chord. */
static double chord_of(const struct path *path)
{
	struct point a = path->p[0], b = path->p[path->n - 1];

	return hypot(b.x - a.x, b.y - a.y);
}

/* How far the path reaches to the right of its chord. */
static double bulge_of(const struct path *path)
{
	struct point a = path->p[0], b = path->p[path->n - 1];
	double chord = chord_of(path), most = 0;

	for (size_t i = 1; chord > 0 && i + 1 < path->n; i++) {
		double dx = path->p[i].x - a.x, dy = path->p[i].y - a.y;

		most = fmax(most, (dy * (b.x - a.x) - dx * (b.y - a.y)) / chord);
	}
	return most;
}

static void dimension_edge(struct drawing *d, const struct view *v, size_t edge)
{
	static const double offs[] = { 6.5, 11, 15.5, -5, -9 };
	struct path path = view_edge(d, v, edge);
	size_t ring, at;
	const struct plan_ring *r;
	const struct plan_node *a, *b;
	const char *over, *under;
	double chord;

	if (!path.n || !plan_edge_find(&d->t->plan, edge, &ring, &at))
		return;
	r = &d->t->plan.rings[ring];
	a = &r->nodes[at], b = &r->nodes[(at + 1) % r->count];
	chord = hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
	over = metre_words(d, chord);
	under = edge_kind_name(a->kind);
	if (a->rise_um) {
		over = page_print(d, "chord %s", over);
		under = page_print(d, "arc %s, rise %s", metre_words(d, edge_length_um(r, at)),
		        metre_words(d, fabs((double)a->rise_um)));
	}
	for (size_t i = 0; i < sizeof offs / sizeof *offs; i++) {
		double off = offs[i] > 0 ? offs[i] + bulge_of(&path) : offs[i];

		if (dimension_draw(d, path.p[0], path.p[path.n - 1], off, over, under) ||
		        (a->rise_um && dimension_draw(d, path.p[0], path.p[path.n - 1], off,
		                               metre_words(d, chord), "")))
			return;
	}
}

/* Where an edge's first corner lies on paper, and the way into the paving there. */
static struct point corner_at(
        struct drawing *d, const struct view *v, size_t ring, size_t at, double *inward)
{
	const struct plan_ring *r = &d->t->plan.rings[ring];
	const struct plan_node *before = &r->nodes[(at + r->count - 1) % r->count];
	const struct plan_node *node = &r->nodes[at], *after = &r->nodes[(at + 1) % r->count];
	struct point p = view_point(v, (struct point){ (double)node->x_um, (double)node->y_um });
	double ax = (double)(after->x_um - node->x_um), ay = (double)(after->y_um - node->y_um);
	double bx = (double)(node->x_um - before->x_um), by = (double)(node->y_um - before->y_um);
	double la = hypot(ax, ay), lb = hypot(bx, by);
	double left = (ring_signed_area2_um2(r) < 0) == (ring == 0) ? -1 : 1;
	/* left of both edges, which is inside */
	double nx = -(ay / la + by / lb) * left, ny = (ax / la + bx / lb) * left;

	*inward = atan2(-ny, nx);
	return p;
}

/* Into the paving if there is a place; else anywhere. */
static bool place_inward(struct drawing *d, struct label *l)
{
	l->ways = 9;
	if (label_place(d, l))
		return true;
	l->ways = 0;
	return label_place(d, l);
}

/* The corner's number, and behind it its level. */
static void mark_corner(struct drawing *d, const struct view *v, size_t ring, size_t at)
{
	const struct plan_node *n = &d->t->plan.rings[ring].nodes[at];
	double inward;
	struct point p = corner_at(d, v, ring, at, &inward);
	struct label l = {
		.text = { page_print(d, "%zu", plan_edge_number(&d->t->plan, ring, at) + 1),
		        .size = SIZE_NOTE, .bold = true },
		.at = p,
		.clear = 1.2,
		.reach = 16,
		.leader = true,
		.ringed = true,
		.prefer = inward,
	};

	page_disc(d, p, 0.5, 0);
	if (d->t->surface.has_plane)
		l.after = mm_words(
		        d, surface_level_um(&d->t->plan.surface, (double)n->x_um, (double)n->y_um));
	if (place_inward(d, &l))
		return;
	l.after = NULL;
	place_inward(d, &l);
}

static void mark_corners(struct drawing *d, const struct view *v)
{
	const struct plan *p = &d->t->plan;

	for (size_t k = 0; k < p->ring_count; k++)
		for (size_t i = 0; i < p->rings[k].count; i++)
			mark_corner(d, v, k, i);
}

/* Both diagonals of an opening's box, cut to it. */
static void cross_opening(struct drawing *d, const struct ring *ring)
{
	page_hatch(d, ring, 1, 2.5, acos(-1) / 4, PEN_HAIR);
	page_hatch(d, ring, 1, 2.5, -acos(-1) / 4, PEN_HAIR);
}

static void draw_openings(struct drawing *d, const struct view *v)
{
	for (size_t i = 1; i < d->t->region.count; i++) {
		struct ring r = view_ring(d, v, &d->t->region.rings[i]);

		cross_opening(d, &r);
	}
}

static struct point middle_of(const struct region *region)
{
	struct box b = region_box(region);
	struct point best = { (b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2 };

	/* the first point of a coarse net that lies inside, from the middle on */
	for (int i = 0; i < 81 && !region_contains(region, best); i++) {
		static const double net[] = { 5, 4, 6, 3, 7, 2, 8, 1, 9 };

		best.x = b.x0 + (b.x1 - b.x0) * net[i % 9] / 10;
		best.y = b.y0 + (b.y1 - b.y0) * net[i / 9] / 10;
	}
	return best;
}

static void draw_sections(struct drawing *d, const struct view *v)
{
	for (size_t i = 1; i < d->t->laid.section_count; i++) {
		const struct section *s = &d->t->laid.sections[i];
		struct ring *rings = view_region(d, v, &s->region);

		for (size_t k = 0; rings && k < s->region.count; k++)
			page_path(d, rings[k].p, rings[k].n, true,
			        s->kind == SECTION_ZONE ? PEN_DASHED : PEN_THIN);
	}
}

static void name_zones(struct drawing *d, const struct view *v)
{
	for (size_t i = 1; i < d->t->laid.section_count; i++) {
		const struct section *s = &d->t->laid.sections[i];
		struct label l = { .text = { s->name, .size = SIZE_NOTE, .room = 40,
			                   .on_white = true },
			.clear = 0,
			.reach = 22,
			.leader = true };

		if (s->kind != SECTION_ZONE || !s->region.count)
			continue;
		l.at = view_point(v, middle_of(&s->region));
		label_place(d, &l);
	}
}

static struct point fixed_at(const struct drawing *d, const struct view *v)
{
	const struct plan_surface *s = &d->t->plan.surface;

	return view_point(v, (struct point){ (double)s->fixed_x_um, (double)s->fixed_y_um });
}

static void mark_fixed(struct drawing *d, const struct view *v)
{
	struct point p = fixed_at(d, v);

	if (!d->t->plan.surface.has_fixed)
		return;
	page_circle(d, p, 1.3, PEN_MEDIUM);
	page_line(d, (struct point){ p.x - 2, p.y }, (struct point){ p.x + 2, p.y }, PEN_MEDIUM);
	page_line(d, (struct point){ p.x, p.y - 2 }, (struct point){ p.x, p.y + 2 }, PEN_MEDIUM);
	taken_add(&d->taken, &(struct patch){ p, 1.8, 1.8, 0 }, TAKEN_AREA);
}

static void name_fixed(struct drawing *d, const struct view *v)
{
	const struct plan_surface *s = &d->t->plan.surface;
	struct label l = { .text = { .size = SIZE_NOTE, .room = 60, .on_white = true },
		.at = fixed_at(d, v),
		.clear = 2.6,
		.reach = 30,
		.leader = true,
		.gap = 2.3,
		.prefer = -acos(-1) / 2 };

	if (!s->has_fixed)
		return;
	l.text.words = page_print(d, "fixed at %s%s%s", mm_words(d, (double)s->fixed_level_um),
	        *s->fixed_name ? ": " : "", page_clean(d, s->fixed_name));
	label_place(d, &l);
}

/* What the figures at corners are. */
static double corners_key(struct drawing *d, double x, double y)
{
	struct text number = { "1", .size = SIZE_NOTE, .bold = true };
	struct text words = { "corner 1", .size = SIZE_NOTE };

	page_circle(d, (struct point){ x + 2, y + 1.6 }, 1.7, PEN_THIN);
	page_text(d, &number, ALIGN_MIDDLE, x + 2, y + 0.3);
	page_text(d, &words, ALIGN_LEFT, x + 16, y + 0.3);
	if (d->t->surface.has_plane) {
		number = (struct text){ "-150", .size = SIZE_NOTE };
		words.words = "finished level, mm";
		page_text(d, &number, ALIGN_LEFT, x + 40, y + 0.3);
		page_text(d, &words, ALIGN_LEFT, x + 50, y + 0.3);
	}
	return 5.4;
}

void draw_plan(struct drawing *d, const char *title)
{
	struct box plan = region_box(&d->t->region), room, side;
	struct view v = { 0, { 0, 0 }, { 0, 0 } };
	struct page_head head = { title, "", &v, NULL };
	struct flow flow;

	d->frame = furniture_frame(d->width, d->height);
	side = room = d->frame;
	side.x0 = side.x1 - SIDE_MM;
	room.x1 = side.x0 - 4;
	v.scale = sheet_scale(
	        d, &plan, room.x1 - room.x0 - 2 * AROUND_MM, room.y1 - room.y0 - 2 * AROUND_MM);
	v = view_centred(v.scale, &plan, &room);
	page_begin(d, &head);
	side.y0 += edges_key(d, side.x0, side.y0 + 1, SIDE_MM);
	side.y0 += corners_key(d, side.x0, side.y0) + 3;
	d->frame.x1 = room.x1;
	draw_openings(d, &v);
	draw_sections(d, &v);
	edges_draw(d, &v);
	for (size_t e = 0; e < plan_edge_count(&d->t->plan); e++)
		dimension_edge(d, &v, e);
	mark_fixed(d, &v);
	mark_corners(d, &v);
	name_fixed(d, &v);
	draw_falls(d, &v);
	name_zones(d, &v);
	d->frame = furniture_frame(d->width, d->height);
	flow = flow_begin(d, &head, &side);
	flow_heading(&flow, "Edges", 12);
	plan_list_edges(&flow);
	plan_list_facts(&flow);
}
