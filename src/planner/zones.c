/* zones.c - the rings of zones among the others, the part worked on, and edits of zones. */
#include "zones.h"

#include "slabwright/edit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

size_t zone_of_ring(const struct plan *plan, size_t ring)
{
	return ring >= plan->ring_count && ring < plan_ring_total(plan) ? ring - plan->ring_count
	                                                                : SIZE_MAX;
}

size_t rings_here(const struct app *app)
{
	return app->stage == AT_OUTLINE ? plan_ring_total(&app->plan) : app->plan.ring_count;
}

bool step_corner(const struct app *app, bool forth, size_t *ring, size_t *at)
{
	size_t rings = rings_here(app);
	const struct plan_ring *r = plan_ring_at(&app->plan, *ring);

	if (r && forth && *at + 1 < r->count) {
		(*at)++;
		return true;
	}
	if (r && !forth && *at > 0 && *at < r->count) {
		(*at)--;
		return true;
	}
	for (size_t i = 0; i < rings; i++) {
		*ring = (*ring + (forth ? 1 : rings - 1)) % rings;
		r = plan_ring_at(&app->plan, *ring);
		*at = forth || !r->count ? 0 : r->count - 1;
		if (r->count)
			return true;
	}
	return false;
}

char *ring_words(const struct plan *plan, size_t ring, char buf[40])
{
	size_t zone = zone_of_ring(plan, ring);

	if (zone != SIZE_MAX)
		snprintf(buf, 40, "zone %zu", zone + 1);
	else if (ring)
		snprintf(buf, 40, "opening %zu", ring);
	else
		snprintf(buf, 40, "the outline");
	return buf;
}

char *of_zone(const struct plan *plan, size_t ring, char buf[40])
{
	size_t zone = zone_of_ring(plan, ring);

	buf[0] = '\0';
	if (zone != SIZE_MAX)
		snprintf(buf, 40, " of zone %zu", zone + 1);
	return buf;
}

/* --- the part worked on --- */

size_t zone_here(const struct app *app)
{
	size_t part = app->view.part;

	return part && part <= app->plan.zone_count ? part - 1 : SIZE_MAX;
}

const struct plan_laying *laying_here(const struct app *app)
{
	size_t zone = zone_here(app);

	return zone == SIZE_MAX ? &app->plan.laying : &app->plan.zones[zone].laying;
}

bool paved_here(const struct app *app)
{
	size_t zone = zone_here(app);

	return zone == SIZE_MAX || app->plan.zones[zone].paved;
}

bool slabs_here(struct app *app)
{
	if (!paved_here(app))
		app_refuse(app, "Zone %zu has no slabs: i gives it some, p goes back to the field.",
		        zone_here(app) + 1);
	return paved_here(app);
}

void keep_part_in_range(struct app *app)
{
	size_t zone = zone_here(app);

	if (zone == SIZE_MAX || !app->plan.zones[zone].ring.closed)
		app->view.part = 0;
}

const char *zone_title(struct app *app, size_t zone)
{
	const char *name = zone == SIZE_MAX ? "" : app->plan.zones[zone].name, *words;

	if (zone == SIZE_MAX)
		return "Field";
	words = arena_print(&app->frame_mem, "Zone %zu%s%s", zone + 1, *name ? ", " : "", name);
	return words ? words : "";
}

/* Sections count the zones that were worked out: not one that is being drawn. */
const struct section *zone_section(const struct app *app, size_t zone)
{
	const struct paving *p = &app->t.laid;
	size_t number = 0;

	if (!app->t.ready || zone >= app->plan.zone_count || !app->plan.zones[zone].ring.closed)
		return NULL;
	for (size_t i = 0; i < zone; i++)
		number += app->plan.zones[i].ring.closed;
	for (size_t i = 0; i < p->section_count; i++)
		if (p->sections[i].kind == SECTION_ZONE && p->sections[i].number == number)
			return &p->sections[i];
	return NULL;
}

/* --- edits --- */

bool edit_zones(struct app *app, const char *label, struct plan_zone *zones, size_t count)
{
	struct edit e = { .type = EDIT_ZONES, .zones = zones, .zone_count = count };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}

bool edit_zone(struct app *app, const char *label, size_t at, const struct plan_zone *zone)
{
	size_t count = app->plan.zone_count;
	struct arena mem = { 0 };
	struct plan_zone *zones = arena_alloc(&mem, count, sizeof *zones);
	bool done = false;

	if (!zones) {
		app_refuse(app, "No memory is left for that.");
	} else {
		memcpy(zones, app->plan.zones, count * sizeof *zones);
		zones[at] = *zone;
		done = edit_zones(app, label, zones, count);
	}
	arena_free(&mem);
	return done;
}

static bool same_slab(const struct plan_laying *a, const struct plan_laying *b)
{
	const struct plan_slab *s = &a->slab, *t = &b->slab;

	return bond_of_one_slab(a->bond) == bond_of_one_slab(b->bond) &&
	       s->length_um == t->length_um && s->width_um == t->width_um &&
	       s->joint_um == t->joint_um && s->size == t->size && slab_alike(s, t);
}

/* Gives the zones that have the slab of `was` another; false where one could not be set. */
static bool slab_in_zones(struct app *app, const char *label, const struct plan_laying *was,
        const struct plan_slab *slab, bool *any)
{
	size_t count = app->plan.zone_count;
	struct arena mem = { 0 };
	struct plan_zone *zones = arena_alloc(&mem, count, sizeof *zones);
	char words[80];
	bool done = true;

	snprintf(words, sizeof words, "%s, in zones", label);
	for (size_t i = 0; zones && i < count; i++) {
		zones[i] = app->plan.zones[i];
		if (!zones[i].paved || !same_slab(&zones[i].laying, was))
			continue;
		zones[i].laying.slab = *slab;
		*any = true;
	}
	if (zones && *any)
		done = edit_zones(app, words, zones, count);
	arena_free(&mem);
	return done;
}

bool edit_slab_everywhere(struct app *app, const char *label, const struct plan_laying *laying)
{
	struct arena mem = { 0 };
	struct plan_laying was, now, field;
	bool in_field, in_zones = false, done = false;

	/* What the plan holds goes with each edit. */
	if (laying_copy(&mem, laying_here(app), &was) && laying_copy(&mem, laying, &now) &&
	        laying_copy(&mem, &app->plan.laying, &field)) {
		in_field = same_slab(&field, &was);
		field.slab = now.slab;
		done = slab_in_zones(app, label, &was, &now.slab, &in_zones) &&
		       (!in_field || edit_field(app, label, &field));
		if (done && in_field && in_zones)
			app_say(app, "Set for this slab in the field and in zones.");
	} else {
		app_refuse(app, "No memory is left for that.");
	}
	arena_free(&mem);
	return done;
}

/* --- places --- */

static int by_size(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

/* Where edges cross the height y, from the left. */
static size_t crossings(const struct region *r, double y, double *x)
{
	size_t count = 0;

	for (size_t i = 0; i < r->count; i++) {
		const struct ring *g = &r->rings[i];

		for (size_t j = 0; j < g->n; j++) {
			struct point a = g->p[j], b = g->p[(j + 1) % g->n];

			if ((a.y > y) != (b.y > y))
				x[count++] = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
		}
	}
	qsort(x, count, sizeof *x, by_size);
	return count;
}

bool region_middle(struct arena *mem, const struct region *r, struct point *at, double *width_um)
{
	static const int eighths[] = { 4, 3, 5, 2, 6, 1, 7 }; /* from the middle outwards */
	struct box box = r->count ? region_box(r) : (struct box){ 0 };
	size_t edges = 0;
	double *x;

	for (size_t i = 0; i < r->count; i++)
		edges += r->rings[i].n;
	x = arena_alloc(mem, edges + 1, sizeof *x);
	*width_um = 0;
	for (size_t k = 0; x && k < sizeof eighths / sizeof *eighths; k++) {
		double y = box.y0 + (box.y1 - box.y0) * eighths[k] / 8;
		size_t count = crossings(r, y, x);

		for (size_t i = 0; i + 1 < count; i += 2) {
			if (x[i + 1] - x[i] <= *width_um * 1.1) /* the middle is better for less */
				continue;
			*width_um = x[i + 1] - x[i];
			*at = (struct point){ (x[i] + x[i + 1]) / 2, y };
		}
	}
	return *width_um > 0;
}

static bool polygon_of(struct arena *mem, const struct plan_ring *from, struct region *out)
{
	struct ring *ring = arena_alloc(mem, 1, sizeof *ring);

	if (!ring || !(ring->p = arena_alloc(mem, from->count + 1, sizeof *ring->p)))
		return false;
	ring->n = from->count;
	ring->edge = NULL;
	for (size_t i = 0; i < ring->n; i++)
		ring->p[i] =
		        (struct point){ (double)from->nodes[i].x_um, (double)from->nodes[i].y_um };
	*out = (struct region){ .rings = ring, .count = 1 };
	return ring->n > 0;
}

bool zone_region(const struct app *app, struct arena *mem, size_t zone, struct region *out)
{
	const struct section *s = zone_section(app, zone);

	if (!s)
		return polygon_of(mem, &app->plan.zones[zone].ring, out);
	*out = s->region;
	return true;
}

bool zone_outline(const struct app *app, struct arena *mem, size_t zone, struct ring *out)
{
	return zone_section(app, zone) &&
	       ring_flatten(mem, &app->plan.zones[zone].ring, out, NULL) == STATUS_OK;
}
