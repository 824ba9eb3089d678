/* drawn_beside.c - see drawn_beside.h. */
#include "drawn_beside.h"

#include "slabwright/surface.h"

#include <check.h>
#include <math.h>

static struct rule limits[] = { { "level_tolerance", 6000, "mm", "test limits, table 1" },
	{ "place_tolerance", 10000, "mm", "test limits, table 2" },
	{ "flatness_3m", 3000, "mm",
	        "test limits, table 3, with a long title that has to be folded" },
	{ "flatness_2m", 2500, "mm", "test limits" }, { "puddle_depth", 5000, "mm", "test limits" },
	{ "riser_max", 180000, "mm", "test limits" }, { "riser_min", 100000, "mm", "test limits" },
	{ "going_min", 280000, "mm", "test limits" },
	{ "pitch_max", 33000, "degrees", "test limits" },
	{ "lift_one_person", 25000, "kg", "test limits" },
	{ "soakaway_distance", 5000000, "m", "test limits" },
	{ "wall_height_max", 600000, "mm", "test limits" } };

const struct rules drawn_limits = {
	.name = "test limits", .items = limits, .count = sizeof limits / sizeof *limits
};

static struct box outline_box(const struct plan *p)
{
	const struct plan_ring *r = &p->rings[0];
	struct box b = { INFINITY, INFINITY, -INFINITY, -INFINITY };

	for (size_t i = 0; i < r->count; i++) {
		b.x0 = fmin(b.x0, (double)r->nodes[i].x_um);
		b.x1 = fmax(b.x1, (double)r->nodes[i].x_um);
		b.y0 = fmin(b.y0, (double)r->nodes[i].y_um);
		b.y1 = fmax(b.y1, (double)r->nodes[i].y_um);
	}
	return b;
}

/* Between the sides, or as far beyond them. */
static int64_t across(struct chance *c, double from, double to, double beyond)
{
	double wide = to - from;

	return llround(chance_real(c, from - beyond * wide, to + beyond * wide) / 1000) * 1000;
}

static void *list(struct arena *mem, size_t count, size_t size)
{
	void *items = arena_alloc(mem, count + 1, size);

	ck_assert_ptr_nonnull(items);
	return items;
}

static void add_channels(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	struct plan_water *w = &p->water;

	w->channel_count = (size_t)chance_int(c, 0, 3);
	w->channels = list(mem, w->channel_count, sizeof *w->channels);
	for (size_t i = 0; i < w->channel_count; i++) {
		struct plan_channel *h = &w->channels[i];

		channel_init(h);
		h->name = i ? "" : "along the garden room, under the grating";
		h->x1_um = across(c, b->x0, b->x1, 0), h->y1_um = across(c, b->y0, b->y1, 0);
		h->x2_um = across(c, b->x0, b->x1, 0), h->y2_um = across(c, b->y0, b->y1, 0) + 5000;
		if (i == 0)
			p->rings[0]
			        .nodes[chance_int(c, 0, (int64_t)p->rings[0].count - 1)]
			        .channel = 1;
	}
	w->gully_count = (size_t)chance_int(c, 0, 3);
	w->gullies = list(mem, w->gully_count, sizeof *w->gullies);
	for (size_t i = 0; i < w->gully_count; i++)
		w->gullies[i] = (struct plan_gully){ "G", across(c, b->x0, b->x1, 0),
			across(c, b->y0, b->y1, 0), chance_int(c, 0, 2) * 300 };
}

static void add_water(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	static struct rain_row rows[] = { { 5, 75000 }, { 15, 50500 }, { 60, 21125 } };
	struct plan_water *w = &p->water;

	water_init(w);
	if (chance_int(c, 0, 3))
		w->rain = (struct plan_rain){ "Somewhere", "invented", rows, 3, 10 };
	add_channels(mem, c, p, b);
	if (!chance_int(c, 0, 2))
		return;
	soakaway_init(&w->soakaway);
	w->soakaway.x_um = across(c, b->x0, b->x1, 0.3);
	w->soakaway.y_um = across(c, b->y0, b->y1, 0.3);
}

static void add_ground(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	struct plan_site *s = &p->site;

	s->spot_count = (size_t)chance_int(c, 0, 3) * (size_t)chance_int(c, 1, 7);
	s->spots = list(mem, s->spot_count, sizeof *s->spots);
	for (size_t i = 0; i < s->spot_count; i++)
		s->spots[i] = (struct plan_spot){ "", across(c, b->x0, b->x1, 0.2) + (int64_t)i,
			across(c, b->y0, b->y1, 0.2), chance_int(c, -600, -100) * 1000 };
	s->earth.topsoil_um = chance_int(c, 0, 1) * 100000;
	s->peg_count = (size_t)chance_int(c, 0, 5);
	s->pegs = list(mem, s->peg_count, sizeof *s->pegs);
	for (size_t i = 0; i < s->peg_count; i++)
		s->pegs[i] = (struct plan_peg){ i % 2 ? "by the apple tree" : "P",
			across(c, b->x0, b->x1, 0.2), across(c, b->y0, b->y1, 0.2) };
	if (chance_int(c, 0, 1))
		s->baseline = (struct plan_baseline){ true, across(c, b->x0, b->x1, 0.1),
			llround(b->y0) - 400000, llround(b->x1) + 500000, llround(b->y0) - 300000 };
}

static void add_measured(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	struct plan_site *s = &p->site;
	int spread = (int)chance_int(c, 1, 12);

	s->measured_count = (size_t)chance_int(c, 0, 2) * 7;
	s->measured = list(mem, s->measured_count, sizeof *s->measured);
	for (size_t i = 0; i < s->measured_count; i++) {
		struct plan_measured *m = &s->measured[i];
		const struct plan_node *n = &p->rings[0].nodes[i % p->rings[0].count];
		bool corner = i < p->rings[0].count;

		*m = (struct plan_measured){ .name = corner ? "corner" : "",
			.x_um = corner ? n->x_um : across(c, b->x0, b->x1, 0),
			.y_um = corner ? n->y_um : across(c, b->y0, b->y1, 0),
			.has_level = i % 5 != 3,
			.has_place = corner };
		if (p->surface.count)
			m->level_um = llround(
			        surface_level_um(&p->surface, (double)m->x_um, (double)m->y_um));
		m->level_um += chance_int(c, -spread, spread) * 1000;
		m->at_x_um = m->x_um + chance_int(c, -spread, spread) * 1000;
		m->at_y_um = m->y_um + chance_int(c, -spread, spread) * 1000;
	}
}

static void set_run(
        struct arena *mem, struct chance *c, struct plan_planter *r, const struct box *b, int kind)
{
	static const double runs[][5][2] = {
		{ { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 }, { 0, 0 } },
		{ { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 0 }, { 0, 0 } },
		{ { 0, 0 }, { 1, 0 }, { 1, 0.5 }, { 2, 0.5 }, { 2, 1.5 } },
		{ { 0, 0 }, { 1.3, 0 }, { 1.8, 0.6 }, { 1.2, 1.4 }, { 0.1, 1.2 } },
		{ { 0, 0 }, { 3, 0.4 }, { 0, 0 }, { 0, 0 }, { 0, 0 } },
	};
	static const size_t counts[] = { 4, 3, 5, 5, 2 };
	int64_t x = llround(b->x1) + 300000, y = across(c, b->y0, b->y1, 0),
	        w = chance_int(c, 18, 60) * 100000, h = chance_int(c, 18, 40) * 100000;

	r->closed = kind == 0 || kind == 3;
	r->count = counts[kind];
	r->points = list(mem, r->count, sizeof *r->points);
	for (size_t i = 0; i < r->count; i++)
		r->points[i] = (struct plan_point){
			x + llround(runs[kind][i][0] * (double)w / 1000) * 1000,
			y + llround(runs[kind][i][1] * (double)h / 1000) * 1000
		};
}

static void add_planters(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	p->planter_count = (size_t)chance_int(c, 0, 2);
	p->planters = list(mem, p->planter_count, sizeof *p->planters);
	for (size_t i = 0; i < p->planter_count; i++) {
		struct plan_planter *r = &p->planters[i];

		planter_init(r);
		r->name = i ? "" : "herbs beside the kitchen door, as the client wants them to be";
		set_run(mem, c, r, b, (int)chance_int(c, 0, 4));
		r->courses = chance_int(c, 1, 9);
		r->leaves = chance_int(c, 1, 2);
		r->block.has_half = chance_int(c, 0, 1);
		r->block.has_corner = chance_int(c, 0, 1);
		r->block.density_kg_m3 = 2000;
		r->base_um = chance_int(c, -500, 0) * 1000;
		r->cap_um = chance_int(c, 0, 1) * 1000000;
		r->cap_name = "Coping";
		r->liner = true;
	}
}

static void add_flights(struct arena *mem, struct chance *c, struct plan *p, const struct box *b)
{
	p->steps_count = (size_t)chance_int(c, 0, 2);
	p->steps = list(mem, p->steps_count, sizeof *p->steps);
	for (size_t i = 0; i < p->steps_count; i++) {
		struct plan_steps *s = &p->steps[i];

		steps_init(s);
		s->name = i ? "" : "to the lawn";
		s->x_um = across(c, b->x0, b->x1, 0);
		s->y_um = llround(b->y1);
		s->toward_udeg = chance_int(c, -180, 180) * UDEG_PER_DEG;
		s->width_um = chance_int(c, 8, 60) * 100000;
		s->has_top = true;
		s->top_um = -150000;
		s->bottom_um = s->top_um - chance_int(c, 20, 260) * 10000;
		s->landing_um = chance_int(c, 0, 1) * 1200000;
		s->flank_um = chance_int(c, 0, 1) * 200000;
		s->unit_density_kg_m3 = 2300;
		if (chance_int(c, 0, 1)) {
			s->build = STEPS_BUILT;
			s->unit_length_um = 600000, s->unit_depth_um = 300000;
			s->unit_height_um = 110000, s->tread_um = 40000, s->overhang_um = 20000;
		}
	}
}

static void add_edging(struct chance *c, struct plan *p)
{
	for (int k = EDGE_KERB; k <= EDGE_PLANTER; k++) {
		struct plan_edging *e = &p->edging[k];

		if (!chance_int(c, 0, 2))
			continue;
		*e = (struct plan_edging){ .name = "edging stone with a long name",
			.unit_um = 915000,
			.joint_um = 3000,
			.depth_um = chance_int(c, 5, 20) * 10000,
			.profile = (enum edging_profile)chance_int(c, 0, 2),
			.height_um = chance_int(c, 10, 45) * 10000,
			.top_um = chance_int(c, -3, 15) * 10000,
			.cement_kg_m3 = 200,
			.strip_um = chance_int(c, 0, 2) * 100000,
			.strip_beyond_um = 100000,
			.haunch_um = chance_int(c, 0, 2) * 100000,
			.haunch_both = chance_int(c, 0, 1),
			.density_kg_m3 = 2300,
			.price_minor = -1 };
		e->held_um = e->height_um / 2;
		if (e->profile == PROFILE_TAPERED)
			e->foot_um = e->depth_um + 30000;
	}
}

void add_beside(struct arena *mem, struct chance *c, struct plan *p, int number)
{
	struct box b = outline_box(p);

	site_init(&p->site);
	if (number % 4 == 0)
		return;
	add_water(mem, c, p, &b);
	add_ground(mem, c, p, &b);
	add_measured(mem, c, p, &b);
	add_planters(mem, c, p, &b);
	add_flights(mem, c, p, &b);
	add_edging(c, p);
}
