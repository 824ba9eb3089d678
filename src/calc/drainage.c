/* drainage.c - flows to channels, gullies and kerbs, and what is stored under ground. What is wrong
 * with it is found in drainage_warn.c. */
#include "slabwright/drainage.h"

#include "drainage.h"

#include <math.h>

static const double UM_PER_M_REAL = 1e6, NM_PER_M = 1e9, MM_PER_M = 1e3, S_PER_MIN = 60,
                    S_PER_H = 3600;

static double at_or_0(const double *list, size_t i)
{
	return list ? list[i] : 0;
}

static double flow_of(const struct plan *plan, const struct drainage *d, double area_m2)
{
	return runoff_flow_l_s(d->runoff, runoff_mm_per_h(&plan->water, d->mm_per_h), area_m2);
}

/* --- channels --- */

static double channel_length_m(const struct plan *plan, size_t number)
{
	const struct plan_channel *c = &plan->water.channels[number];
	double along = 0;
	bool named = false;

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++)
			if (plan->rings[i].nodes[j].channel == (int64_t)number + 1) {
				named = true;
				along += edge_length_um(&plan->rings[i], j);
			}
	if (!named)
		along = hypot((double)(c->x2_um - c->x1_um), (double)(c->y2_um - c->y1_um));
	return along / UM_PER_M_REAL;
}

static void find_even_flow(const struct channel_run *run, struct channel_result *c)
{
	double depth = c->depths.outlet_m;

	if (run->slope > 0) {
		depth = c->normal_m =
		        channel_normal_depth_m(run->width_m, run->n, run->slope, c->run_flow_l_s);
		c->full_l_s =
		        c->runs * manning_flow_l_s(run->n,
		                          flow_section(run->width_m, 0, run->depth_m), run->slope);
	}
	if (depth > 0)
		c->velocity_m_s = c->run_flow_l_s / MM_PER_M / (run->width_m * depth);
}

static void work_out_channel(const struct plan *plan, const struct drainage_areas *areas,
        const struct drainage *d, size_t number, struct channel_result *c)
{
	const struct plan_channel *p = &plan->water.channels[number];
	struct channel_run run = {
		.width_m = (double)p->width_um / UM_PER_M_REAL,
		.depth_m = (double)p->depth_um / UM_PER_M_REAL,
		.slope = (double)p->fall_um_per_m / UM_PER_M_REAL,
		.n = (double)p->roughness_ppm * 1e-6,
	};

	run.rim_slope = areas->channel_rim_slope ? areas->channel_rim_slope[number] : run.slope;
	c->length_m = channel_length_m(plan, number);
	c->area_m2 = at_or_0(areas->channel_m2, number);
	c->runs = p->outlet == OUTLET_BOTH ? 2 : 1;
	if (c->length_m <= 0)
		return;
	if (d->has_rain) {
		c->flow_l_s = flow_of(plan, d, c->area_m2);
		run.length_m = c->length_m;
		c->least_outlets = channel_least_outlets(&run, c->flow_l_s);
	}
	run.length_m = c->length_m / c->runs;
	c->run_flow_l_s = c->flow_l_s / c->runs;
	c->depths = channel_run_depths(&run, c->run_flow_l_s);
	c->capacity_l_s = c->runs * channel_run_capacity_l_s(&run);
	find_even_flow(&run, c);
}

static enum status work_out_channels(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, struct drainage *d, struct error *err)
{
	size_t n = plan->water.channel_count;

	if (!(d->channels = arena_alloc(mem, n, sizeof *d->channels)))
		return error_memory(err);
	d->channel_count = n;
	for (size_t i = 0; i < n; i++) {
		const char *own = plan->water.channels[i].name;

		d->channels[i].name = own && *own ? own : arena_print(mem, "channel %zu", i + 1);
		if (!d->channels[i].name)
			return error_memory(err);
		work_out_channel(plan, areas, d, i, &d->channels[i]);
	}
	return STATUS_OK;
}

/* --- gullies and kerbs --- */

static enum status work_out_gullies(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, struct drainage *d, struct error *err)
{
	size_t n = plan->water.gully_count;

	if (!(d->gullies = arena_alloc(mem, n, sizeof *d->gullies)))
		return error_memory(err);
	d->gully_count = n;
	for (size_t i = 0; i < n; i++) {
		const struct plan_gully *p = &plan->water.gullies[i];
		struct gully_result *g = &d->gullies[i];

		g->name = p->name && *p->name ? p->name : arena_print(mem, "gully %zu", i + 1);
		if (!g->name)
			return error_memory(err);
		g->area_m2 = at_or_0(areas->gully_m2, i);
		g->flow_l_s = flow_of(plan, d, g->area_m2);
		g->capacity_l_s = (double)p->capacity_ml_s / 1000;
	}
	return STATUS_OK;
}

static enum status work_out_kerbs(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, struct drainage *d, struct error *err)
{
	if (!(d->kerbs = arena_alloc(mem, areas->edge_count, sizeof *d->kerbs)))
		return error_memory(err);
	d->kerb_count = areas->edge_count;
	for (size_t i = 0; i < areas->edge_count; i++) {
		const struct drainage_edge *e = &areas->edges[i];
		struct gutter g = {
			.n = PAVING_ROUGHNESS, .across = e->across, .along = fabs(e->along)
		};
		struct kerb_flow *k = &d->kerbs[i];

		*k = (struct kerb_flow){ .edge = e->edge, .area_m2 = e->area_m2 };
		k->flow_l_s = flow_of(plan, d, e->area_m2);
		k->runs = g.across > 0 && g.along > 0;
		if (!k->runs || k->flow_l_s <= 0)
			continue;
		k->spread_m = gutter_spread_m(&g, k->flow_l_s);
		k->depth_m = gutter_depth_m(&g, k->spread_m);
		k->velocity_m_s = gutter_velocity_m_s(&g, k->spread_m);
	}
	return STATUS_OK;
}

/* --- stores --- */

/* area_m2, given_m3 and out_m3_s are set; c is the share of the rain that runs in. */
static enum status fill_store(struct arena *mem, const struct plan_rain *rain, double c,
        struct storage_result *s, struct error *err)
{
	if (!(s->rows = arena_alloc(mem, rain->count, sizeof *s->rows)))
		return error_memory(err);
	s->has = true;
	s->count = rain->count;
	for (size_t i = 0; i < rain->count; i++) {
		double minutes = (double)rain->rows[i].minutes;
		struct storage_row *r = &s->rows[i];

		r->minutes = rain->rows[i].minutes;
		r->mm_per_h = (double)rain->rows[i].um_per_h / 1000;
		r->in_m3 = soakaway_storage_m3(c, s->area_m2, r->mm_per_h, minutes, 0);
		r->out_m3 = s->out_m3_s * minutes * S_PER_MIN;
		r->needed_m3 = fmax(0, r->in_m3 - r->out_m3);
		if (r->needed_m3 > s->needed_m3) {
			s->needed_m3 = r->needed_m3;
			s->worst_minutes = r->minutes;
		}
	}
	if (s->needed_m3 > 0)
		s->half_empty_h = s->needed_m3 / 2 / s->out_m3_s / S_PER_H;
	return STATUS_OK;
}

static enum status work_out_soakaway(
        struct arena *mem, const struct plan *plan, struct drainage *d, struct error *err)
{
	const struct plan_soakaway *p = &plan->water.soakaway;
	double length = (double)p->length_um / UM_PER_M_REAL,
	       width = (double)p->width_um / UM_PER_M_REAL,
	       depth = (double)p->depth_um / UM_PER_M_REAL;
	struct storage_result *s = &d->soakaway;

	if (!p->has)
		return STATUS_OK;
	for (size_t i = 0; i < d->channel_count; i++)
		s->area_m2 += d->channels[i].area_m2;
	for (size_t i = 0; i < d->gully_count; i++)
		s->area_m2 += d->gullies[i].area_m2;
	s->given_m3 = length * width * depth * (double)p->voids_ppm * 1e-6;
	s->out_m3_s = soakaway_side_m2(length, width, depth) * (double)p->soil_nm_s / NM_PER_M;
	return fill_store(mem, &plan->water.rain, d->runoff, s, err);
}

/* All of the rain on a permeable surface goes into the sub-base; what the surface cannot take is
 * warned of apart. */
static enum status work_out_sub_base(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, struct drainage *d, struct error *err)
{
	const struct plan_water *w = &plan->water;
	struct storage_result *s = &d->sub_base;

	if (!w->permeable)
		return STATUS_OK;
	s->area_m2 = areas->paving_m2;
	s->given_m3 = s->area_m2 * (double)plan->ground.sub_base_um / UM_PER_M_REAL *
	              (double)w->voids_ppm * 1e-6;
	s->out_m3_s = s->area_m2 * (double)w->soil_nm_s / NM_PER_M;
	return fill_store(mem, &w->rain, 1, s, err);
}

/* The pit's length runs along x. A wall is told by the chords of its edge. */
static double distance_to_house_m(const struct plan *plan, const struct region *region)
{
	const struct plan_soakaway *p = &plan->water.soakaway;
	double x = (double)p->x_um, y = (double)p->y_um, dx = (double)p->length_um / 2,
	       dy = (double)p->width_um / 2, least = INFINITY;
	struct point pit[4] = { { x - dx, y - dy }, { x + dx, y - dy }, { x + dx, y + dy },
		{ x - dx, y + dy } };

	for (size_t i = 0; i < region->count; i++) {
		const struct ring *r = &region->rings[i];

		for (size_t j = 0; j < r->n; j++) {
			struct point wall[2] = { r->p[j], r->p[j + 1 < r->n ? j + 1 : 0] };
			size_t ring, at;

			if (r->edge[j] < 0 ||
			        !plan_edge_find(plan, (size_t)r->edge[j], &ring, &at) ||
			        plan->rings[ring].nodes[at].kind != EDGE_HOUSE_WALL)
				continue;
			least = fmin(
			        least, polygons_distance(pit, 4, wall, 2, (struct point){ 0, 0 }));
		}
	}
	return least / UM_PER_M_REAL;
}

enum status drainage_work_out(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, const struct rules *rules, struct drainage *out,
        struct error *err)
{
	const struct plan_water *w = &plan->water;
	struct region region;
	enum status st;

	*out = (struct drainage){
		.has_rain = w->rain.count > 0,
		.mm_per_h = rain_design_mm_per_h(&w->rain),
		.runoff = (double)w->runoff_ppm * 1e-6,
		.to_house_m = INFINITY,
	};
	if ((st = work_out_channels(mem, plan, areas, out, err)) != STATUS_OK ||
	        (st = work_out_gullies(mem, plan, areas, out, err)) != STATUS_OK ||
	        (st = work_out_kerbs(mem, plan, areas, out, err)) != STATUS_OK ||
	        (st = work_out_soakaway(mem, plan, out, err)) != STATUS_OK ||
	        (st = work_out_sub_base(mem, plan, areas, out, err)) != STATUS_OK)
		return st;
	if (w->soakaway.has) {
		if ((st = region_from_plan(mem, plan, &region, err)) != STATUS_OK)
			return st;
		out->to_house_m = distance_to_house_m(plan, &region);
	}
	return drainage_find_warnings(mem, plan, areas, rules, out, err);
}
