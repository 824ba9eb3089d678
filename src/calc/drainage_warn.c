/* drainage_warn.c - what does not hold, each with its place and its remedy. */
#include "drainage.h"

#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

/* What the sheets show of a figure decides nothing: a hair over a limit is taken as on it. */
static const double HAIR = 1e-9;

static const char *const code_names[] = { "channel-over", "channel-no-length", "gully-over",
	"gully-unknown", "kerb-over", "soakaway-small", "soakaway-slow", "soakaway-near",
	"soil-slow", "rain-short", "surface-slow", "sub-base-small", "sub-base-slow",
	"front-garden" };

const char *drainage_code_name(enum drainage_code code)
{
	return code_names[code];
}

struct finder {
	struct arena *mem;
	const struct plan *plan;
	const struct drainage_areas *areas;
	const struct rules *rules;
	struct drainage *d;
	bool failed; /* memory is gone */
};

__attribute__((format(printf, 4, 5))) static void warn(
        struct finder *f, enum drainage_code code, const char *place, const char *format, ...)
{
	char text[600];
	struct drainage_warning *w = &f->d->warnings[f->d->warning_count];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	w->code = code;
	w->place = arena_text(f->mem, place);
	w->text = arena_text(f->mem, text);
	if (w->place && w->text)
		f->d->warning_count++;
	else
		f->failed = true;
}

/* The rule's number in its own unit; false where there is no such rule. */
static bool limit_of(const struct finder *f, const char *key, double *limit, const char **source)
{
	const struct rule *r = rules_find(f->rules, key);

	if (!r)
		return false;
	*limit = (double)r->number / 1000;
	*source = r->source;
	return true;
}

static void look_at_channels(struct finder *f)
{
	for (size_t i = 0; i < f->d->channel_count; i++) {
		const struct channel_result *c = &f->d->channels[i];
		char remedy[160];

		if (c->length_m <= 0) {
			warn(f, DRAINAGE_CHANNEL_NO_LENGTH, c->name,
			        "%.80s has no length: no edge names it and its two points are one. "
			        "Lay it along an edge, or move one of them.",
			        c->name);
			continue;
		}
		if (c->depths.freeboard_m >= -HAIR)
			continue;
		if (c->least_outlets)
			snprintf(remedy, sizeof remedy,
			        "Make it wider, deeper or steeper, or give it %d outlet%s%s.",
			        c->least_outlets, c->least_outlets == 1 ? "" : "s",
			        c->least_outlets == 1 ? " at its end"
			                              : ", each in the middle of an equal part");
		else
			snprintf(remedy, sizeof remedy, "Make it wider, deeper or steeper.");
		warn(f, DRAINAGE_CHANNEL_OVER, c->name,
		        "%.80s runs over: %.2f l/s reach it and it takes %.2f l/s. %s", c->name,
		        c->flow_l_s, c->capacity_l_s, remedy);
	}
}

static void look_at_gullies(struct finder *f)
{
	for (size_t i = 0; i < f->d->gully_count; i++) {
		const struct gully_result *g = &f->d->gullies[i];

		if (g->flow_l_s <= 0)
			continue;
		if (g->capacity_l_s <= 0)
			warn(f, DRAINAGE_GULLY_UNKNOWN, g->name,
			        "%.80s: %.2f l/s reach it, and what it takes is not known. Take "
			        "its capacity from the maker's sheet.",
			        g->name, g->flow_l_s);
		else if (g->flow_l_s > g->capacity_l_s * (1 + HAIR))
			warn(f, DRAINAGE_GULLY_OVER, g->name,
			        "%.80s takes %.2f l/s, and %.2f l/s reach it. Take a larger one, "
			        "or lead part of the water to another.",
			        g->name, g->capacity_l_s, g->flow_l_s);
	}
}

static void look_at_kerbs(struct finder *f)
{
	for (size_t i = 0; i < f->d->kerb_count; i++) {
		const struct kerb_flow *k = &f->d->kerbs[i];
		double upstand = f->areas->edges[i].upstand_m;
		char name[64];

		if (!k->runs || upstand <= 0 || k->depth_m <= upstand * (1 + HAIR))
			continue;
		plan_edge_words(name, sizeof name, f->plan, k->edge);
		warn(f, DRAINAGE_KERB_OVER, name,
		        "Water along %s stands %.0f mm deep at its low end, and the edge is only "
		        "%.0f mm high. Collect it on the way, or raise the edge.",
		        name, k->depth_m * 1000, upstand * 1000);
	}
}

static void look_at_soil(struct finder *f, const char *place, int64_t soil_nm_s)
{
	double least, mm_per_h = (double)soil_nm_s * 3600e-6;
	const char *source;

	if (limit_of(f, "soil_rate_min", &least, &source) && mm_per_h < least * (1 - HAIR))
		warn(f, DRAINAGE_SOIL_SLOW, place,
		        "The soil under the %s takes %.2f mm/h, less than %.2f mm/h (%s). Test it "
		        "on site; if it holds, lead the water elsewhere as local codes allow.",
		        place, mm_per_h, least, source);
}

/* What holds for both stores. */
static void look_at_store(struct finder *f, const struct storage_result *s, const char *place,
        enum drainage_code small, enum drainage_code slow)
{
	double most;
	const char *source;

	if (s->needed_m3 > s->given_m3 * (1 + HAIR))
		warn(f, small, place,
		        "The %s stores %.2f m3, and %" PRId64
		        " minutes of rain need %.2f m3. Make it "
		        "larger; have the soil tested on site.",
		        place, s->given_m3, s->worst_minutes, s->needed_m3);
	if (s->needed_m3 > 0 && s->worst_minutes == s->rows[s->count - 1].minutes)
		warn(f, DRAINAGE_RAIN_SHORT, place,
		        "The %s still fills at the longest rain of the table, %" PRId64
		        " minutes: it may "
		        "need more. Add longer durations to the table.",
		        place, s->worst_minutes);
	if (!limit_of(f, "half_empty", &most, &source) || s->half_empty_h <= most * (1 + HAIR))
		return;
	if (isinf(s->half_empty_h))
		warn(f, slow, place,
		        "The %s never empties: its soil takes no water. It has to be half empty in "
		        "%.0f hours (%s); lead the water elsewhere.",
		        place, most, source);
	else
		warn(f, slow, place,
		        "The %s is half empty after %.1f hours, later than %.0f hours (%s). Make "
		        "its sides larger, or lead water elsewhere.",
		        place, s->half_empty_h, most, source);
}

static void look_at_soakaway(struct finder *f)
{
	double least;
	const char *source;

	if (!f->d->soakaway.has)
		return;
	look_at_soil(f, "soakaway", f->plan->water.soakaway.soil_nm_s);
	look_at_store(
	        f, &f->d->soakaway, "soakaway", DRAINAGE_SOAKAWAY_SMALL, DRAINAGE_SOAKAWAY_SLOW);
	if (!limit_of(f, "soakaway_distance", &least, &source) ||
	        f->d->to_house_m * 1000 >= least - 0.5e-3)
		return;
	warn(f, DRAINAGE_SOAKAWAY_NEAR, "soakaway",
	        "The soakaway lies %.2f m from the house wall, nearer than %.1f m (%s). Move it "
	        "away; local codes decide, and keep off boundaries, roads and trees too.",
	        f->d->to_house_m, least / 1000, source);
}

static void look_at_sub_base(struct finder *f)
{
	const struct plan_water *w = &f->plan->water;
	double takes = (double)w->surface_nm_s * 3600e-6;

	if (!f->d->sub_base.has)
		return;
	if (f->d->mm_per_h > takes * (1 + HAIR))
		warn(f, DRAINAGE_SURFACE_SLOW, "permeable surface",
		        "The permeable surface takes %.1f mm/h and it rains %.1f mm/h: the rest "
		        "runs off. Choose a more open joint, and keep it clean.",
		        takes, f->d->mm_per_h);
	look_at_soil(f, "sub-base", w->soil_nm_s);
	look_at_store(
	        f, &f->d->sub_base, "sub-base", DRAINAGE_SUB_BASE_SMALL, DRAINAGE_SUB_BASE_SLOW);
}

/* A planning limit on hard paving in front of a house: it holds where the water is neither let
 * through nor led into the ground of the plot. */
static void look_at_planning(struct finder *f)
{
	const struct plan_water *w = &f->plan->water;
	double most;
	const char *source;

	if (w->permeable || w->soakaway.has || !limit_of(f, "front_garden_area", &most, &source) ||
	        f->areas->paving_m2 <= most + 1e-6)
		return;
	warn(f, DRAINAGE_FRONT_GARDEN, "paving",
	        "%.2f m2 of hard paving without a soakaway. If it lies between the front of a "
	        "house and a road, over %.0f m2 needs planning permission unless the water goes "
	        "into the ground of the plot (%s). Ask the local authority.",
	        f->areas->paving_m2, most, source);
}

enum status drainage_find_warnings(struct arena *mem, const struct plan *plan,
        const struct drainage_areas *areas, const struct rules *rules, struct drainage *d,
        struct error *err)
{
	struct finder f = { .mem = mem, .plan = plan, .areas = areas, .rules = rules, .d = d };
	size_t room = d->channel_count + d->gully_count + d->kerb_count + 12;

	if (!(d->warnings = arena_alloc(mem, room, sizeof *d->warnings)))
		return error_memory(err);
	look_at_channels(&f);
	look_at_gullies(&f);
	look_at_kerbs(&f);
	look_at_soakaway(&f);
	look_at_sub_base(&f);
	look_at_planning(&f);
	return f.failed ? error_memory(err) : STATUS_OK;
}
