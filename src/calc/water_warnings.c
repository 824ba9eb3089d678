/* water_warnings.c - what is wrong with surface and water: place and remedy, in words. */
#include "water_warnings.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double STEP_TO_SEE_UM = 2000, LEAST_AREA_M2 = 5e-3 /* less shows as 0.00 */,
                    LEAST_SHOWN_M2 = 1e-6, LEAST_VALLEY_UM = 10000, LEVEL_SLACK_UM = 0.5;

static const char *const code_names[] = { "no-fall", "fall-under", "fall-over", "water-to-wall",
	"held-back", "step-to-fixed", "low-point", "plane-hidden", "valley-under", "gully-dry",
	"channel-dry", "near-dpc" };

const char *warning_code_name(enum warning_code code)
{
	return code_names[code];
}

struct writer {
	const struct drains *d;
	const struct plan *plan;
	const struct rules *rules;
	struct arena *mem;
	struct surface_result *out;
	size_t room;
};

/* Appends a warning; false where text is NULL or memory gone. */
static bool warn(struct writer *w, enum warning_code code, const char *text)
{
	struct warning *grown = arena_grow(
	        w->mem, w->out->warnings, w->out->warning_count, &w->room, sizeof *grown);

	if (!text || !grown)
		return false;
	w->out->warnings = grown;
	grown[w->out->warning_count++] = (struct warning){ code, text };
	return true;
}

/* --- falls --- */

static double shown_m2(const struct surface_result *out, size_t plane)
{
	for (size_t i = 0; i < out->shape.part_count; i++)
		if (out->shape.parts[i].plane == plane)
			return out->shape.parts[i].area_m2;
	return 0;
}

static bool warn_of_limits(struct writer *w, const char *what, int64_t fall)
{
	const struct rule *least = rules_find(w->rules, "fall_min"),
	                  *most = rules_find(w->rules, "fall_max");
	char is[80], limit[80];

	fall_print(is, sizeof is, fall);
	if (least && fall < least->number)
		return warn(w, WARN_FALL_UNDER,
		        arena_print(w->mem,
		                "The fall of %s%s is under the least of %s (%s). Make it steeper.",
		                is, what, fall_print(limit, sizeof limit, least->number),
		                least->source));
	if (most && fall > most->number)
		return warn(w, WARN_FALL_OVER,
		        arena_print(w->mem,
		                "The fall of %s%s is over the most of %s (%s). Make it gentler.",
		                is, what, fall_print(limit, sizeof limit, most->number),
		                most->source));
	return true;
}

static bool warn_of_plane(struct writer *w, size_t i)
{
	const struct plan_surface *s = &w->plan->surface;
	int64_t fall = s->planes[i].fall_um_per_m;
	char of[40] = "";

	if (shown_m2(w->out, i) < LEAST_SHOWN_M2)
		return warn(w, WARN_PLANE_HIDDEN,
		        arena_print(w->mem,
		                "Plane %zu shows nowhere: the others lie %s it all over the "
		                "paving. "
		                "Change its level or fall, or take it away.",
		                i + 1, s->envelope == ENVELOPE_MAX ? "above" : "below"));
	if (s->count > 1)
		snprintf(of, sizeof of, " of plane %zu", i + 1);
	if (fall == 0 && s->count > 1)
		return warn(w, WARN_NO_FALL,
		        arena_print(w->mem,
		                "Plane %zu is level: water stands on it. Give it a fall.", i + 1));
	if (fall == 0)
		return warn(w, WARN_NO_FALL,
		        arena_text(w->mem,
		                "The surface is level: water stands on it. Give it a fall."));
	return warn_of_limits(w, of, fall);
}

static bool warn_of_planes(struct writer *w)
{
	for (size_t i = 0; i < w->plan->surface.count; i++)
		if (!warn_of_plane(w, i))
			return false;
	return true;
}

/* A valley with a channel along it may be as gentle as it likes. */
static bool warn_of_valleys(struct writer *w)
{
	const struct rule *least = rules_find(w->rules, "valley_fall_min");

	for (size_t i = 0; least && i < w->out->shape.line_count; i++) {
		const struct surface_line *l = &w->out->shape.lines[i];
		struct point middle = { (l->high.x + l->low.x) / 2, (l->high.y + l->low.y) / 2 };
		int64_t fall = llround(l->fall_um_per_m);
		char is[80], limit[80];

		if (l->kind != LINE_VALLEY || fall >= least->number ||
		        hypot(l->high.x - l->low.x, l->high.y - l->low.y) < LEAST_VALLEY_UM ||
		        channel_near(w->d, middle) != NOWHERE)
			continue;
		if (!warn(w, WARN_VALLEY_UNDER,
		            arena_print(w->mem,
		                    "The valley of planes %zu and %zu, from %s to %s, falls %s, "
		                    "under the least of %s (%s). Make the planes run more along "
		                    "it, or lay a channel in it.",
		                    l->planes[0] + 1, l->planes[1] + 1,
		                    place_words(w->mem, w->plan, l->high),
		                    place_words(w->mem, w->plan, l->low),
		                    fall_print(is, sizeof is, fall),
		                    fall_print(limit, sizeof limit, least->number), least->source)))
			return false;
	}
	return true;
}

/* --- edges --- */

/* "edge 3 (6.20 m)" */
static char *edge_place(char *buf, size_t size, const struct plan *plan, size_t edge)
{
	char name[64];
	size_t ring = 0, at = 0;

	plan_edge_find(plan, edge, &ring, &at);
	snprintf(buf, size, "%s (%.2f m)", plan_edge_words(name, sizeof name, plan, edge),
	        edge_length_um(&plan->rings[ring], at) * 1e-6);
	return buf;
}

static const char *named(struct arena *mem, const char *what, size_t number, const char *name)
{
	return name && *name ? arena_print(mem, "%s %zu (%s)", what, number + 1, name)
	                     : arena_print(mem, "%s %zu", what, number + 1);
}

static const char *end_words(struct writer *w, const struct water_end *end)
{
	const struct plan_water *water = &w->plan->water;
	char edge[80];
	const char *name;

	switch (end->kind) {
	case END_EDGE:
		return arena_print(w->mem, "leaves over %s",
		        plan_edge_words(edge, sizeof edge, w->plan, end->number));
	case END_CHANNEL:
		name = named(w->mem, "channel", end->number, water->channels[end->number].name);
		break;
	case END_GULLY:
		name = named(w->mem, "gully", end->number, water->gullies[end->number].name);
		break;
	default:
		return arena_print(w->mem, "stands at %s", w->out->ponds[end->number].place);
	}
	return name ? arena_print(w->mem, "goes into %s", name) : NULL;
}

/* "it runs along it and leaves over edge 4", "1.20 m2 of it leaves over ..., 0.90 m2 stands at ..."
 */
static const char *run_words(struct writer *w, size_t edge)
{
	const struct surface_result *out = w->out;
	const char *words = "";
	size_t n = 0;

	for (size_t i = 0; i < out->held_count; i++)
		n += out->held[i].edge == edge && out->held[i].end.area_m2 >= LEAST_AREA_M2;
	for (size_t i = 0; i < out->held_count && words; i++) {
		const struct water_end *end = &out->held[i].end;
		const char *one;

		if (out->held[i].edge != edge || end->area_m2 < LEAST_AREA_M2)
			continue;
		one = end_words(w, end);
		if (one && n == 1)
			return arena_print(w->mem, "it runs along it and %s", one);
		words = one ? arena_print(w->mem, "%s%s%.2f m2 of it %s", words, *words ? ", " : "",
		                      end->area_m2, one)
		            : NULL;
	}
	return words;
}

static const char *held_words(struct writer *w, const struct catchment *c)
{
	int64_t top = w->plan->edging[c->kind].top_um;
	const char *runs = run_words(w, c->edge);
	char place[120], high[40];

	if (!runs)
		return NULL;
	edge_place(place, sizeof place, w->plan, c->edge);
	if (c->kind == EDGE_PLANTER)
		return arena_print(w->mem,
		        "The planter along %s holds back water from %.2f m2: %s. Turn the fall, or "
		        "leave it a way out.",
		        place, c->area_m2, runs);
	return arena_print(w->mem,
	        "The %s along %s stands %s mm above the surface and holds back water from %.2f m2: "
	        "%s. Set it flush there, turn the fall, or leave gaps.",
	        edge_kind_name(c->kind), place, mm_print(high, sizeof high, top), c->area_m2, runs);
}

static bool warn_of_edges(struct writer *w)
{
	for (size_t i = 0; i < w->out->catchment_count; i++) {
		const struct catchment *c = &w->out->catchments[i];
		char place[120];

		if (c->channel || c->area_m2 < LEAST_AREA_M2)
			continue;
		if (c->kind == EDGE_HOUSE_WALL &&
		        !warn(w, WARN_WATER_TO_WALL,
		                arena_print(w->mem,
		                        "Water from %.2f m2 runs to the house wall along %s. Turn "
		                        "the fall away from the house, or collect it before the "
		                        "wall.",
		                        c->area_m2,
		                        edge_place(place, sizeof place, w->plan, c->edge))))
			return false;
		if (c->kind != EDGE_HOUSE_WALL && edge_holds_water(w->plan, c->kind) &&
		        !warn(w, WARN_HELD_BACK, held_words(w, c)))
			return false;
	}
	return true;
}

/* --- ponds, gullies, channels --- */

static bool warn_of_ponds(struct writer *w)
{
	for (size_t i = 0; i < w->out->pond_count; i++) {
		const struct pond *p = &w->out->ponds[i];

		/* A level plane has been told of. */
		if (p->area_m2 < LEAST_AREA_M2 || p->level_plane)
			continue;
		if (!warn(w, WARN_LOW_POINT,
		            arena_print(w->mem,
		                    p->held ? "Water from %.2f m2 stands at %s, held by the edges "
		                              "there. Set a gully or channel there, or leave it a "
		                              "way out."
		                            : "Water from %.2f m2 comes to a low point at %s and "
		                              "has no way out. Set a gully there, or change the "
		                              "planes so that it falls to an edge.",
		                    p->area_m2, p->place)))
			return false;
	}
	return true;
}

static bool warn_of_dry(struct writer *w)
{
	const struct plan_water *water = &w->plan->water;

	for (size_t i = 0; i < water->gully_count; i++)
		if (w->out->gullies[i].area_m2 < LEAST_AREA_M2 &&
		        !warn(w, WARN_GULLY_DRY,
		                arena_print(w->mem,
		                        "No water reaches %s at %s. Set it in a valley or at a low "
		                        "point.",
		                        named(w->mem, "gully", i, water->gullies[i].name),
		                        place_words(w->mem, w->plan,
		                                (struct point){ (double)water->gullies[i].x_um,
		                                        (double)water->gullies[i].y_um }))))
			return false;
	for (size_t i = 0; i < water->channel_count; i++)
		if (w->out->channels[i].area_m2 < LEAST_AREA_M2 &&
		        !warn(w, WARN_CHANNEL_DRY,
		                arena_print(w->mem,
		                        "No water reaches %s. Lay it across the fall or along a "
		                        "low edge.",
		                        named(w->mem, "channel", i, water->channels[i].name))))
			return false;
	return true;
}

/* --- levels --- */

static bool warn_of_fixed(struct writer *w)
{
	double d = w->out->fixed_difference_um;
	const char *name = w->plan->surface.fixed_name;

	if (!w->out->has_fixed || fabs(d) <= STEP_TO_SEE_UM)
		return true;
	return warn(w, WARN_STEP_TO_FIXED,
	        arena_print(w->mem,
	                "The paving lies %.0f mm %s %s: a step to trip over. Raise or lower the "
	                "plane.",
	                fabs(d) / 1000, d > 0 ? "above" : "below",
	                *name ? name : "the fixed point"));
}

/* The highest point of the surface along an edge, in *at. */
static double highest_along(const struct drains *d, int edge, struct point *at)
{
	double high = -INFINITY;

	for (size_t i = 0; i < d->rim_count; i++)
		for (size_t k = 0; k < 2 && d->rim[i].edge == edge; k++) {
			const struct rim_point *p = &d->rim[k ? d->rim[i].next : i];

			if (p->level_um > high) {
				high = p->level_um;
				*at = p->p;
			}
		}
	return high;
}

static bool warn_of_dpc_along(struct writer *w, size_t edge, const struct rule *rule)
{
	struct point at = { 0, 0 };
	double under = (double)w->plan->surface.dpc_um - highest_along(w->d, (int)edge, &at),
	       least = rule ? (double)rule->number : 0;
	char place[120], is[40], limit[40];
	const char *where;

	if (under >= least - LEVEL_SLACK_UM)
		return true;
	edge_place(place, sizeof place, w->plan, edge);
	mm_print(is, sizeof is, llround(fabs(under) / 100) * 100);
	if (!(where = place_words(w->mem, w->plan, at)))
		return false;
	if (!rule)
		return warn(w, WARN_NEAR_DPC,
		        arena_print(w->mem,
		                "At %s on %s the surface lies %s mm above the damp-proof course. "
		                "Lower the paving there.",
		                where, place, is));
	return warn(w, WARN_NEAR_DPC,
	        arena_print(w->mem,
	                "At %s on %s the surface lies %s mm %s the damp-proof course; it has to "
	                "lie "
	                "at least %s mm under it (%s). Lower the paving there.",
	                where, place, is, under < 0 ? "above" : "under",
	                mm_print(limit, sizeof limit, rule->number), rule->source));
}

static bool warn_of_dpc(struct writer *w)
{
	const struct rule *rule = rules_find(w->rules, "below_dpc_min");

	for (size_t r = 0, e = 0; w->plan->surface.has_dpc && r < w->plan->ring_count; r++)
		for (size_t i = 0; i < w->plan->rings[r].count; i++, e++)
			if (w->plan->rings[r].nodes[i].kind == EDGE_HOUSE_WALL &&
			        !warn_of_dpc_along(w, e, rule))
				return false;
	return true;
}

enum status water_warnings(const struct drains *d, const struct rules *rules,
        struct surface_result *out, struct error *err)
{
	struct writer w = { d, d->plan, rules, d->mem, out, 0 };

	return warn_of_planes(&w) && warn_of_valleys(&w) && warn_of_edges(&w) &&
	                       warn_of_ponds(&w) && warn_of_dry(&w) && warn_of_dpc(&w) &&
	                       warn_of_fixed(&w)
	               ? STATUS_OK
	               : error_memory(err);
}
