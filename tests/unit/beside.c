/* beside.c - water, site, planters and steps of all sorts. */
#include "unit/beside.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

static void *items(struct arena *mem, size_t count, size_t size)
{
	void *p = arena_alloc(mem, count, size);

	ck_assert_ptr_nonnull(p);
	return p;
}

static const char *random_name(struct chance *d)
{
	static const char *const names[] = { "", "A", "Gully \"by\" \xC3\xA9\n", "peg 12" };

	return names[chance_int(d, 0, 3)];
}

static int64_t anywhere(struct chance *d)
{
	return chance_int(d, 0, 9)   ? chance_int(d, -20000000, 20000000)
	       : chance_int(d, 0, 1) ? COORD_LIMIT_UM
	                             : -COORD_LIMIT_UM;
}

/* Now and then none. */
static size_t some(struct chance *d, size_t most)
{
	return chance_int(d, 0, 2) ? (size_t)chance_int(d, 1, (int64_t)most) : 0;
}

static void random_channel(struct chance *d, struct plan_channel *c)
{
	*c = (struct plan_channel){
		.name = random_name(d),
		.x1_um = chance_int(d, -9000000, 0),
		.y1_um = anywhere(d),
		.x2_um = chance_int(d, 1, 9000000),
		.y2_um = anywhere(d),
		.width_um = chance_int(d, 20000, 2000000),
		.depth_um = chance_int(d, 10000, 2000000),
		.fall_um_per_m = chance_int(d, 0, 500000),
		.roughness_ppm = chance_int(d, 5000, 100000),
		.outlet = (enum channel_outlet)chance_int(d, 0, 2),
	};
}

struct plan_water random_water(struct chance *d, struct arena *mem, size_t channels)
{
	struct plan_water w = {
		.rain = { .name = random_name(d),
		        .source = random_name(d),
		        .minutes = chance_int(d, 0, 120) },
		.runoff_ppm = chance_int(d, 0, 1000000),
		.permeable = chance_int(d, 0, 1),
		.surface_nm_s = chance_int(d, 0, 100000000),
		.voids_ppm = chance_int(d, 0, 1000000),
		.soil_nm_s = chance_int(d, 0, 10000000),
		.channel_count = channels + some(d, CHANNELS - channels),
		.gully_count = some(d, CHANNELS),
		.soakaway = { .has = chance_int(d, 0, 1),
		        .x_um = anywhere(d),
		        .y_um = anywhere(d),
		        .length_um = chance_int(d, 100000, 50000000),
		        .width_um = chance_int(d, 100000, 50000000),
		        .depth_um = chance_int(d, 100000, 10000000),
		        .voids_ppm = chance_int(d, 10000, 1000000),
		        .soil_nm_s = chance_int(d, 1, 10000000) },
	};

	w.rain.count = some(d, RAIN_ROWS);
	w.rain.rows = items(mem, w.rain.count, sizeof *w.rain.rows);
	for (size_t i = 0; i < w.rain.count; i++)
		w.rain.rows[i] = (struct rain_row){ (int64_t)i * 3000 + chance_int(d, 1, 3000),
			chance_int(d, 1, 1000000) };
	w.channels = items(mem, w.channel_count, sizeof *w.channels);
	for (size_t i = 0; i < w.channel_count; i++)
		random_channel(d, &w.channels[i]);
	w.gullies = items(mem, w.gully_count, sizeof *w.gullies);
	for (size_t i = 0; i < w.gully_count; i++)
		w.gullies[i] = (struct plan_gully){ random_name(d), anywhere(d), anywhere(d),
			chance_int(d, 0, 1000000) };
	return w;
}

static int64_t random_sight(struct chance *d)
{
	return chance_int(d, 0, 1) ? NO_READING : chance_int(d, -20000000, 20000000);
}

static void random_book(struct chance *d, struct arena *mem, struct plan_book *b)
{
	*b = (struct plan_book){ .count = some(d, 40),
		.start_um = anywhere(d),
		.has_close = chance_int(d, 0, 1),
		.allow_um = chance_int(d, 0, 1000000),
		.adjust = chance_int(d, 0, 1) };
	b->close_um = b->has_close ? anywhere(d) : 0;
	b->readings = items(mem, b->count, sizeof *b->readings);
	for (size_t i = 0; i < b->count; i++) {
		struct plan_reading *r = &b->readings[i];

		*r = (struct plan_reading){ .name = random_name(d),
			.backsight_um = random_sight(d),
			.intermediate_um = random_sight(d),
			.foresight_um = random_sight(d),
			.has_place = chance_int(d, 0, 1) };
		r->x_um = r->has_place ? anywhere(d) : 0;
		r->y_um = r->has_place ? anywhere(d) : 0;
	}
}

static void random_measured(struct chance *d, struct plan_measured *m)
{
	*m = (struct plan_measured){ .name = random_name(d),
		.x_um = anywhere(d),
		.y_um = anywhere(d),
		.has_level = chance_int(d, 0, 1),
		.has_place = chance_int(d, 0, 1) };
	m->level_um = m->has_level ? anywhere(d) : 0;
	m->at_x_um = m->has_place ? anywhere(d) : 0;
	m->at_y_um = m->has_place ? anywhere(d) : 0;
}

struct plan_site random_site(struct chance *d, struct arena *mem)
{
	struct plan_site s = {
		.earth = { chance_int(d, 0, 10000000), chance_int(d, 0, 2000000),
		        chance_int(d, 0, 2000000), chance_int(d, 0, 900000) },
		.baseline = { chance_int(d, 0, 1), 0, anywhere(d), 1 + chance_int(d, 0, 1000),
		        anywhere(d) },
		.spot_count = some(d, 50),
		.peg_count = some(d, 20),
		.measured_count = some(d, 20),
	};

	random_book(d, mem, &s.book);
	s.spots = items(mem, s.spot_count, sizeof *s.spots);
	for (size_t i = 0; i < s.spot_count; i++)
		s.spots[i] =
		        (struct plan_spot){ random_name(d), anywhere(d), anywhere(d), anywhere(d) };
	s.pegs = items(mem, s.peg_count, sizeof *s.pegs);
	for (size_t i = 0; i < s.peg_count; i++)
		s.pegs[i] = (struct plan_peg){ random_name(d), anywhere(d), anywhere(d) };
	s.measured = items(mem, s.measured_count, sizeof *s.measured);
	for (size_t i = 0; i < s.measured_count; i++)
		random_measured(d, &s.measured[i]);
	return s;
}

static void random_planter(struct chance *d, struct arena *mem, struct plan_planter *p)
{
	*p = (struct plan_planter){
		.name = random_name(d),
		.closed = chance_int(d, 0, 1),
		.block = { random_name(d), chance_int(d, 20000, 2000000),
		        chance_int(d, 20000, 2000000), chance_int(d, 20000, 2000000),
		        chance_int(d, 0, 100000), chance_int(d, 0, 1), chance_int(d, 0, 1),
		        chance_int(d, 0, 20000), chance_int(d, -1, 100000) },
		.leaves = chance_int(d, 1, 2),
		.courses = chance_int(d, 1, 20),
		.base_um = anywhere(d),
		.tie_um = chance_int(d, 0, 3000000),
		.cap_name = random_name(d),
		.cap_um = chance_int(d, 0, 6000000),
		.cap_fixing_um = chance_int(d, 0, 3000000),
		.cap_price_minor = chance_int(d, -1, 100000),
		.footing_width_um = chance_int(d, 0, 5000000),
		.footing_depth_um = chance_int(d, 0, 5000000),
		.footing = (enum bed_mix)chance_int(d, 0, 1),
		.cement_kg_m3 = chance_int(d, 0, 1000),
		.fill_um = chance_int(d, 0, 10000000),
		.gravel_um = chance_int(d, 0, 10000000),
		.weep_um = chance_int(d, 0, 3000000),
		.liner = chance_int(d, 0, 1),
		.soil_kg_m3 = chance_int(d, 500, 3000),
		.friction_udeg = chance_int(d, 1000000, 60000000),
		.back_slope_udeg = chance_int(d, 0, 60000000),
		.surcharge_pa = chance_int(d, 0, 1000000),
		.base_friction_ppm = chance_int(d, 0, 2000000),
		.bearing_pa = chance_int(d, 0, 10000000),
	};
	p->count = (size_t)chance_int(d, 3, PLANTER_POINTS);
	p->points = items(mem, p->count, sizeof *p->points);
	for (size_t i = 0; i < p->count; i++)
		p->points[i] = (struct plan_point){ (int64_t)i * 1000 + chance_int(d, 0, 999),
			anywhere(d) };
}

void random_planters(struct chance *d, struct arena *mem, struct edit *e)
{
	e->planter_count = some(d, chance_int(d, 0, 9) ? 3 : PLANTERS);
	e->planters = items(mem, e->planter_count, sizeof *e->planters);
	for (size_t i = 0; i < e->planter_count; i++)
		random_planter(d, mem, &e->planters[i]);
}

static void random_flight(struct chance *d, struct plan_steps *s)
{
	*s = (struct plan_steps){
		.name = random_name(d),
		.x_um = anywhere(d),
		.y_um = anywhere(d),
		.toward_udeg = chance_int(d, -360000000, 360000000),
		.width_um = chance_int(d, 100000, 9000000),
		.bottom_um = anywhere(d),
		.has_top = chance_int(d, 0, 1),
		.risers = chance_int(d, 0, 100),
		.going_um = chance_int(d, 50000, 5000000),
		.build = (enum steps_build)chance_int(d, 0, 1),
		.unit_name = random_name(d),
		.unit_length_um = chance_int(d, 20000, 20000000),
		.unit_depth_um = chance_int(d, 20000, 5000000),
		.unit_height_um = chance_int(d, 10000, 2000000),
		.unit_density_kg_m3 = chance_int(d, 0, 20000),
		.unit_price_minor = chance_int(d, -1, 100000),
		.tread_um = chance_int(d, 0, 1000000),
		.overhang_um = chance_int(d, 0, 500000),
		.bed_um = chance_int(d, 0, 500000),
		.tread_fall_um_per_m = chance_int(d, 0, 500000),
		.landing_um = chance_int(d, 0, 9000000),
		.flank_um = chance_int(d, 0, 5000000),
	};
	s->top_um = s->has_top ? anywhere(d) : 0;
}

void random_steps(struct chance *d, struct arena *mem, struct edit *e)
{
	e->steps_count = some(d, chance_int(d, 0, 9) ? 3 : PLANTERS);
	e->steps = items(mem, e->steps_count, sizeof *e->steps);
	for (size_t i = 0; i < e->steps_count; i++)
		random_flight(d, &e->steps[i]);
}

struct plan_edging random_edging(struct chance *d)
{
	struct plan_edging e = { .name = random_name(d),
		.unit_um = chance_int(d, 20000, 3000000),
		.joint_um = chance_int(d, 0, 10000),
		.depth_um = chance_int(d, 1, 300000),
		.mitred = chance_int(d, 0, 1),
		.least_um = chance_int(d, 0, 20000),
		.corner_um = chance_int(d, 0, 2000000),
		.profile = (enum edging_profile)chance_int(d, 0, 2),
		.foot_um = chance_int(d, 0, 300000),
		.height_um = chance_int(d, 0, 2000000),
		.top_um = chance_int(d, -1000000, 1000000),
		.bed = (enum bed_mix)chance_int(d, 0, 1),
		.cement_kg_m3 = chance_int(d, 0, 1000),
		.strip_um = chance_int(d, 0, 1000000),
		.strip_beyond_um = chance_int(d, 0, 1000000),
		.haunch_um = chance_int(d, 0, 2000000),
		.haunch_both = chance_int(d, 0, 1),
		.density_kg_m3 = chance_int(d, 0, 20000),
		.price_minor = chance_int(d, -1, 100000) };

	e.held_um = chance_int(d, 0, e.height_um);
	return e;
}

/* --- by hand --- */

struct plan plan_with_all_beside(void)
{
	static struct rain_row rows[] = { { 5, 75000 }, { 15, 50500 }, { 60, 21125 } };
	static struct plan_channel channels[] = {
		{ "along the house", 0, 0, 6200000, 0, 150000, 120000, 5000, 11000, OUTLET_BOTH },
		{ "", 1000, -2000, 1000, 3000, 100000, 100000, 0, 12000, OUTLET_FIRST },
	};
	static struct plan_gully gullies[] = { { "G1", 100000, 2500, 1250 } };
	static struct plan_reading readings[] = {
		{ "BM", 1216000, NO_READING, NO_READING, false, 0, 0 },
		{ "a", NO_READING, -25500, NO_READING, true, 1500000, 2500000 },
		{ "CP", 1386000, NO_READING, 2508000, false, 0, 0 },
		{ "", NO_READING, NO_READING, 484000, true, 0, 0 },
	};
	static struct plan_spot spots[] = { { "", -1000000, 2000, -412500 },
		{ "lawn", 7000000, 0, -300000 } };
	static struct plan_peg pegs[] = { { "P1", 0, -500000 } };
	static struct plan_measured measured[] = {
		{ "corner 1", 0, 0, true, false, -151000, 0, 0 },
		{ "corner 2", 6235000, 0, false, true, 0, 6237500, -1000 },
	};
	static struct plan_point points[] = { { 0, 0 }, { 3000000, 0 }, { 3000000, 1200000 } };
	static struct plan_planter planters[2];
	static struct plan_steps steps[2];
	struct plan p;

	plan_init(&p);
	p.water = (struct plan_water){ .rain = { "Somewhere", "invented", rows, 3, 10 },
		.runoff_ppm = 900000,
		.permeable = true,
		.surface_nm_s = 45000,
		.voids_ppm = 400000,
		.soil_nm_s = 1,
		.channels = channels,
		.channel_count = 2,
		.gullies = gullies,
		.gully_count = 1,
		.soakaway = { true, 9000000, -3000000, 2000000, 1100000, 900000, 300000, 12345 } };
	p.site = (struct plan_site){ .book = { readings, 4, 106366000, true, 105263500, 6000,
		                             false },
		.spots = spots,
		.spot_count = 2,
		.earth = { 200000, 120000, 300000, 50000 },
		.baseline = { true, -1000, -2000, 6200000, -2000 },
		.pegs = pegs,
		.peg_count = 1,
		.measured = measured,
		.measured_count = 2 };
	for (int i = 0; i < 2; i++) {
		planter_init(&planters[i]);
		steps_init(&steps[i]);
		planters[i].points = points;
		planters[i].count = 3;
		steps[i].bottom_um = -500000 * i;
	}
	planters[0].name = "box";
	planters[0].closed = true;
	planters[0].block.has_half = planters[0].block.has_corner = planters[0].liner = true;
	planters[0].cap_name = "Coping";
	planters[0].cap_um = 1000000;
	planters[0].surcharge_pa = 2500;
	planters[0].bearing_pa = 100500;
	steps[1].name = "to the lawn";
	steps[1].toward_udeg = 90000000;
	steps[1].has_top = true;
	steps[1].top_um = -226000;
	steps[1].build = STEPS_BUILT;
	steps[1].tread_um = 50000;
	p.planters = planters;
	p.steps = steps;
	p.planter_count = p.steps_count = 2;
	p.costs = all_costs();
	return p;
}

struct edit beside_edit(const struct plan *plan, int part)
{
	static const enum edit_type types[] = { EDIT_WATER, EDIT_SITE, EDIT_PLANTERS, EDIT_STEPS,
		EDIT_COSTS };
	struct edit e = { .type = types[part],
		.water = plan->water,
		.site = plan->site,
		.planters = plan->planters,
		.planter_count = plan->planter_count,
		.steps = plan->steps,
		.steps_count = plan->steps_count,
		.costs = plan->costs };

	snprintf(e.label, sizeof e.label, "beside %d", part);
	return e;
}

struct plan_node beside_corners[BESIDE_CORNERS] = { { 0, 0, 0, EDGE_HOUSE_WALL, 0, 1 },
	{ 6000000, 0, 0, EDGE_KERB, 0, 2 }, { 6000000, 4000000, 0, EDGE_OPEN, 0, 0 } };

struct edit beside_step(const struct plan *all, int step)
{
	struct plan none;
	struct edit e = { .type = EDIT_RING_INSERT, .ring_value = { beside_corners, 3, true } };

	plan_init(&none);
	if (step < 4)
		e = beside_edit(all, step);
	else if (step == 5)
		e = (struct edit){ .type = EDIT_NODE_SET, .at = 2, .node = beside_corners[1] };
	else if (step == 6)
		e = (struct edit){ .type = EDIT_NODE_DELETE, .at = 1 };
	else if (step == 7)
		e = (struct edit){ .type = EDIT_NODE_INSERT, .at = 1, .node = beside_corners[0] };
	else if (step > 7)
		e = beside_edit(&none, step - 7);
	snprintf(e.label, sizeof e.label, "step %d", step);
	return e;
}
