/* drawn_water.c - see drawn_water.h. */
#include "drawn_water.h"

#include "label.h"
#include "plan_falls.h"
#include "plan_page.h"
#include "sheets.h"

#include <math.h>
#include <stdlib.h>

static const double LEAST_M2 = 1e-4;

/* --- areas --- */

/* A list of areas may go on over many pages, so that it lives as long as the drawing. */
static const char *kept(struct drawing *d, const char *words)
{
	const char *out = arena_text(&d->mem, words);

	if (!out)
		page_fail_memory(d);
	return out ? out : "";
}

static const char *letter_of(struct drawing *d, size_t i)
{
	if (i < 26)
		return kept(d, page_print(d, "%c", (char)('A' + i)));
	return kept(d, page_print(d, "%c%zu", (char)('A' + i % 26), i / 26 + 1));
}

const char *drain_edge_words(struct drawing *d, size_t edge)
{
	char words[64];
	size_t ring, at;

	plan_edge_words(words, sizeof words, &d->t->plan, edge);
	if (plan_edge_find(&d->t->plan, edge, &ring, &at) && ring)
		return page_print(d, "%s, no. %zu", words, edge + 1);
	return page_print(d, "%s", words);
}

static void add_area(struct drawing *d, struct drain_area *areas, size_t *count, const char *place,
        const struct water_area *area)
{
	if (area->area_m2 >= LEAST_M2)
		areas[(*count)++] = (struct drain_area){ .place = kept(d, place), .area = *area };
}

static void add_edges(struct drawing *d, struct drain_area *areas, size_t *count)
{
	const struct surface_result *s = &d->t->surface;

	for (size_t i = 0; i < s->catchment_count; i++) {
		const struct catchment *c = &s->catchments[i];

		add_area(d, areas, count,
		        page_print(d, "%s (%s)%s", drain_edge_words(d, c->edge),
		                edge_kind_name(c->kind),
		                c->channel ? page_print(d, ", channel %d", (int)c->channel) : ""),
		        &(struct water_area){ c->area_m2, c->pieces, c->piece_count });
	}
}

/* A channel along edges takes what reaches these; told there. */
static bool lies_along_edges(const struct plan *p, size_t channel)
{
	for (size_t k = 0; k < p->ring_count; k++)
		for (size_t i = 0; i < p->rings[k].count; i++)
			if (p->rings[k].nodes[i].channel == (int64_t)channel + 1)
				return true;
	return false;
}

struct drain_area *drain_areas(struct drawing *d, size_t *count)
{
	const struct surface_result *s = &d->t->surface;
	size_t most = s->catchment_count + s->channel_count + s->gully_count + s->pond_count;
	struct drain_area *areas = arena_alloc(&d->mem, most + 1, sizeof *areas);

	*count = 0;
	if (!areas) {
		page_fail_memory(d);
		return NULL;
	}
	add_edges(d, areas, count);
	for (size_t i = 0; i < s->channel_count; i++)
		if (!lies_along_edges(&d->t->plan, i))
			add_area(d, areas, count, page_print(d, "channel %zu", i + 1),
			        &s->channels[i].first);
	for (size_t i = 0; i < s->gully_count; i++)
		add_area(d, areas, count, page_print(d, "gully %zu", i + 1), &s->gullies[i].first);
	for (size_t i = 0; i < s->pond_count; i++)
		add_area(d, areas, count, page_print(d, "STANDS at %s", s->ponds[i].place),
		        &s->ponds[i].first);
	for (size_t i = 0; i < *count; i++)
		areas[i].letter = letter_of(d, i);
	return areas;
}

/* --- patterns --- */

static const struct fill {
	double turn_deg, apart;
	bool crossed;
} fills[] = {
	{ 45, 2.4, false },
	{ -45, 2.4, false },
	{ 0, 2, false },
	{ 90, 2, false },
	{ 45, 4, true },
	{ 0, 3.4, true },
	{ 20, 5, false },
	{ -70, 5, false },
};

enum { FILLS = sizeof fills / sizeof *fills };

static struct ring *pieces_on_paper(
        struct drawing *d, const struct view *v, const struct water_area *a)
{
	struct ring *rings = arena_alloc(&d->page_mem, a->piece_count + 1, sizeof *rings);

	if (!rings)
		page_fail_memory(d);
	for (size_t i = 0; rings && i < a->piece_count; i++) {
		struct ring four = { a->pieces[i].p, 4, NULL };

		rings[i] = view_ring(d, v, &four);
	}
	return rings;
}

static void fill_area(
        struct drawing *d, const struct view *v, const struct drain_area *a, size_t number)
{
	const struct fill *p = &fills[number % FILLS];
	struct ring *rings = d->cr ? pieces_on_paper(d, v, &a->area) : NULL;

	if (!rings)
		return;
	page_hatch(
	        d, rings, a->area.piece_count, p->apart, p->turn_deg * acos(-1) / 180, PEN_FAINT);
	if (p->crossed)
		page_hatch(d, rings, a->area.piece_count, p->apart,
		        (p->turn_deg + 90) * acos(-1) / 180, PEN_FAINT);
}

/* In its largest piece. */
static struct point middle_of(const struct water_area *a)
{
	struct point best = a->piece_count ? a->pieces[0].p[0] : (struct point){ 0, 0 };
	double most = -1;

	for (size_t i = 0; i < a->piece_count; i++) {
		const struct point *p = a->pieces[i].p;
		double area = fabs(ring_polygon_area(p, 4));

		if (area <= most)
			continue;
		most = area;
		best = (struct point){ (p[0].x + p[1].x + p[2].x + p[3].x) / 4,
			(p[0].y + p[1].y + p[2].y + p[3].y) / 4 };
	}
	return best;
}

static void name_area(struct drawing *d, const struct view *v, const struct drain_area *a)
{
	struct label l = { .text = { .size = SIZE_BODY, .bold = true, .on_white = true },
		.at = view_point(v, middle_of(&a->area)),
		.reach = 40,
		.leader = true };

	l.text.words = page_print(d, "%s %.2f m2", a->letter, a->area.area_m2);
	if (label_place(d, &l))
		return;
	l.text.words = a->letter;
	label_place(d, &l);
}

/* --- contours --- */

enum { MOST_CONTOURS = 15 };

/* The smallest of 1, 2, 5 times a power of ten that gives no more than 15 levels. */
static int64_t contour_interval(const struct surface_result *s)
{
	static const int64_t steps[] = { 1, 2, 5 };
	double span = s->highest_um - s->lowest_um;

	for (int64_t ten = 100; ten <= 100 * UM_PER_M; ten *= 10)
		for (int i = 0; i < 3; i++)
			if (span / (double)(ten * steps[i]) <= MOST_CONTOURS)
				return ten * steps[i];
	return 0;
}

static void name_contour(struct drawing *d, const struct view *v, const struct contour *c)
{
	struct point a = view_point(v, c->a), b = view_point(v, c->b);
	double turn = atan2(b.y - a.y, b.x - a.x), half = acos(-1) / 2;
	struct text t = { tenth_words(d, c->level_um), .size = SIZE_LEAST, .grey = true,
		.on_white = true };
	struct patch p;

	t.turn = turn > half ? turn - 2 * half : turn <= -half ? turn + 2 * half : turn;
	p = text_patch(d, &t);
	if (2 * p.along + 4 > hypot(b.x - a.x, b.y - a.y))
		return;
	for (double part = 0.3; part < 0.9; part += 0.2) {
		p.at = (struct point){ a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part };
		if (patch_within(&p, &d->frame) && taken_free(&d->taken, &p, TAKEN_ANY)) {
			page_text_at(d, &t, &p);
			return;
		}
	}
}

static int64_t draw_contours(
        struct drawing *d, const struct view *v, struct contour **list, size_t *count)
{
	int64_t apart = contour_interval(&d->t->surface);
	struct error err;
	enum status st;

	*count = 0;
	if (!apart)
		return 0;
	st = surface_contours(
	        &d->page_mem, &d->t->plan.surface, &d->t->region, apart, list, count, &err);
	if (st == STATUS_MEMORY)
		page_fail_memory(d);
	if (st != STATUS_OK)
		*count = 0;
	for (size_t i = 0; i < *count; i++)
		page_line(d, view_point(v, (*list)[i].a), view_point(v, (*list)[i].b), PEN_THIN);
	return *count ? apart : 0;
}

/* --- drains --- */

static void draw_channel(struct drawing *d, struct point a, struct point b, double width_mm)
{
	double length = hypot(b.x - a.x, b.y - a.y), half = fmax(width_mm, 1.2) / 2;
	struct point across;
	struct point box[4];

	if (!(length > 0))
		return;
	across = (struct point){ -(b.y - a.y) / length * half, (b.x - a.x) / length * half };
	box[0] = (struct point){ a.x + across.x, a.y + across.y };
	box[1] = (struct point){ b.x + across.x, b.y + across.y };
	box[2] = (struct point){ b.x - across.x, b.y - across.y };
	box[3] = (struct point){ a.x - across.x, a.y - across.y };
	page_fill(d, box, 4, 0.75);
	page_path(d, box, 4, true, PEN_MEDIUM);
	taken_add_line(&d->taken, a, b, TAKEN_LINE);
}

static void draw_edge_channel(struct drawing *d, const struct view *v, size_t edge, double mm)
{
	struct path path = view_edge(d, v, edge);

	for (size_t i = 0; i + 1 < path.n; i++)
		draw_channel(d, path.p[i], path.p[i + 1], mm);
}

static struct point draw_channel_number(struct drawing *d, const struct view *v, size_t i)
{
	const struct plan *p = &d->t->plan;
	const struct plan_channel *c = &p->water.channels[i];
	double mm = scale_mm(v->scale, (double)c->width_um);
	struct point a = view_point(v, (struct point){ (double)c->x1_um, (double)c->y1_um }),
	             b = view_point(v, (struct point){ (double)c->x2_um, (double)c->y2_um });
	bool found = false;

	for (size_t k = 0; k < p->ring_count; k++)
		for (size_t n = 0; n < p->rings[k].count; n++) {
			const struct plan_ring *r = &p->rings[k];
			const struct plan_node *from = &r->nodes[n],
			                       *to = &r->nodes[(n + 1) % r->count];

			if (from->channel != (int64_t)i + 1)
				continue;
			draw_edge_channel(d, v, plan_edge_number(p, k, n), mm);
			if (!found) {
				a = view_point(v,
				        (struct point){ (double)from->x_um, (double)from->y_um });
				b = view_point(
				        v, (struct point){ (double)to->x_um, (double)to->y_um });
			}
			found = true;
		}
	if (!found)
		draw_channel(d, a, b, mm);
	return (struct point){ (a.x + b.x) / 2, (a.y + b.y) / 2 };
}

static struct box soakaway_box(const struct plan_soakaway *s)
{
	double x = (double)s->x_um, y = (double)s->y_um, w = (double)s->length_um / 2,
	       h = (double)s->width_um / 2;

	return (struct box){ x - w, y - h, x + w, y + h };
}

static struct point draw_soakaway(struct drawing *d, const struct view *v)
{
	struct box b = soakaway_box(&d->t->plan.water.soakaway);
	struct point low = view_point(v, (struct point){ b.x0, b.y0 }),
	             high = view_point(v, (struct point){ b.x1, b.y1 });
	struct box on = { low.x, high.y, high.x, low.y };

	page_box(d, &on, PEN_DASHED);
	page_line(d, (struct point){ on.x0, on.y0 }, (struct point){ on.x1, on.y1 }, PEN_HAIR);
	page_line(d, (struct point){ on.x0, on.y1 }, (struct point){ on.x1, on.y0 }, PEN_HAIR);
	taken_add(&d->taken,
	        &(struct patch){ { (on.x0 + on.x1) / 2, (on.y0 + on.y1) / 2 }, (on.x1 - on.x0) / 2,
	                (on.y1 - on.y0) / 2, 0 },
	        TAKEN_AREA);
	return (struct point){ (on.x0 + on.x1) / 2, on.y1 };
}

static void mark_gully(struct drawing *d, struct point p)
{
	struct box b = { p.x - 1.3, p.y - 1.3, p.x + 1.3, p.y + 1.3 };

	page_fill(d,
	        (struct point[]){ { b.x0, b.y0 }, { b.x1, b.y0 }, { b.x1, b.y1 }, { b.x0, b.y1 } },
	        4, 1);
	page_box(d, &b, PEN_OUTLINE);
	page_line(d, (struct point){ b.x0, p.y }, (struct point){ b.x1, p.y }, PEN_THIN);
	page_line(d, (struct point){ p.x, b.y0 }, (struct point){ p.x, b.y1 }, PEN_THIN);
	taken_add(&d->taken, &(struct patch){ p, 1.3, 1.3, 0 }, TAKEN_AREA);
}

static void mark_pond(struct drawing *d, struct point p)
{
	static const double WIDE_MM = 1.8;

	for (int i = -1; i <= 1; i++)
		page_line(d, (struct point){ p.x - WIDE_MM + abs(i), p.y + i },
		        (struct point){ p.x + WIDE_MM - abs(i), p.y + i }, PEN_OUTLINE);
	taken_add(&d->taken, &(struct patch){ p, WIDE_MM, 1.4, 0 }, TAKEN_AREA);
}

static struct point gully_at(const struct view *v, const struct plan_gully *g)
{
	return view_point(v, (struct point){ (double)g->x_um, (double)g->y_um });
}

static void draw_drains(struct drawing *d, const struct view *v, struct point *channels)
{
	const struct plan_water *w = &d->t->plan.water;
	const struct surface_result *s = &d->t->surface;

	for (size_t i = 0; i < w->channel_count; i++)
		channels[i] = draw_channel_number(d, v, i);
	for (size_t i = 0; i < w->gully_count; i++)
		mark_gully(d, gully_at(v, &w->gullies[i]));
	for (size_t i = 0; i < s->pond_count; i++)
		if (s->ponds[i].area_m2 >= LEAST_M2)
			mark_pond(d, view_point(v, s->ponds[i].at));
	if (w->soakaway.has)
		channels[w->channel_count] = draw_soakaway(d, v);
}

static void name_drains(struct drawing *d, const struct view *v, const struct point *channels)
{
	const struct plan_water *w = &d->t->plan.water;
	const struct surface_result *s = &d->t->surface;

	for (size_t i = 0; i < s->pond_count; i++)
		if (s->ponds[i].area_m2 >= LEAST_M2)
			words_beside(d, view_point(v, s->ponds[i].at), "water stands", SIZE_NOTE,
			        acos(-1) / 2);
	for (size_t i = 0; i < w->gully_count; i++)
		words_beside(d, gully_at(v, &w->gullies[i]), page_print(d, "gully %zu", i + 1),
		        SIZE_NOTE, -acos(-1) / 4);
	for (size_t i = 0; i < w->channel_count; i++)
		words_beside(d, channels[i], page_print(d, "channel %zu", i + 1), SIZE_NOTE,
		        acos(-1) / 2);
	if (w->soakaway.has)
		words_beside(d, channels[w->channel_count], "soakaway", SIZE_NOTE, acos(-1) / 2);
}

/* --- all --- */

static void number_edges(struct drawing *d, const struct view *v)
{
	for (size_t e = 0; e < plan_edge_count(&d->t->plan); e++) {
		struct path path = view_edge(d, v, e);
		struct point a, b;
		struct label l = { .text = { page_print(d, "%zu", e + 1), .size = SIZE_NOTE },
			.clear = EDGE_REACH_MM + 0.4,
			.reach = 9,
			.ways = 5 };

		if (path.n < 2)
			continue;
		a = path.p[(path.n - 1) / 2], b = path.p[(path.n - 1) / 2 + 1];
		l.at = (struct point){ (a.x + b.x) / 2, (a.y + b.y) / 2 };
		l.prefer = atan2(b.x - a.x, -(b.y - a.y)); /* to the right of the way along */
		label_place(d, &l);
	}
}

void drain_hold(const struct takeoff *t, struct box *shown)
{
	const struct plan_water *w = &t->plan.water;

	for (size_t i = 0; i < w->channel_count; i++)
		if (!lies_along_edges(&t->plan, i)) {
			box_hold(shown, (double)w->channels[i].x1_um, (double)w->channels[i].y1_um);
			box_hold(shown, (double)w->channels[i].x2_um, (double)w->channels[i].y2_um);
		}
	for (size_t i = 0; i < w->gully_count; i++)
		box_hold(shown, (double)w->gullies[i].x_um, (double)w->gullies[i].y_um);
	if (w->soakaway.has) {
		struct box b = soakaway_box(&w->soakaway);

		box_hold(shown, b.x0, b.y0);
		box_hold(shown, b.x1, b.y1);
	}
}

int64_t drain_draw(
        struct drawing *d, const struct view *v, const struct drain_area *areas, size_t count)
{
	struct contour *contours = NULL;
	struct point names[CHANNELS + 1];
	size_t contour_count;
	int64_t apart;

	for (size_t i = 0; i < count; i++)
		fill_area(d, v, &areas[i], i);
	apart = draw_contours(d, v, &contours, &contour_count);
	edges_draw(d, v);
	draw_drains(d, v, names);
	draw_falls(d, v);
	for (size_t i = 0; i < count; i++)
		name_area(d, v, &areas[i]);
	name_drains(d, v, names);
	number_edges(d, v);
	for (size_t i = 0; i < contour_count; i++)
		name_contour(d, v, &contours[i]);
	return apart;
}
