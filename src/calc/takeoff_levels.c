/* takeoff_levels.c - the level sheet's points: those of the surface, then pegs, ends of kerbs,
 * corners of planters and nosings of steps. */
#include "takeoff_parts.h"

#include <math.h>
#include <string.h>

struct list {
	struct arena *mem;
	const struct plan *plan;
	struct level_point *points;
	size_t count;
};

/* One more point: its level, and the level that is dug to under it. False when memory is gone. */
static bool add(
        struct list *l, const char *name, double x, double y, double level_um, double dug_um)
{
	const struct plan_ground *g = &l->plan->ground;

	if (!name)
		return false;
	l->points[l->count++] = (struct level_point){ .name = name,
		.x_um = llround(x),
		.y_um = llround(y),
		.level_um = level_um,
		.formation_um = dug_um,
		.has_staff = g->has_instrument,
		.staff_um = g->has_instrument ? (double)instrument_height_um(g) - level_um : 0 };
	return true;
}

static bool add_pegs(struct list *l)
{
	const struct plan_site *site = &l->plan->site;

	for (size_t i = 0; l->plan->surface.count && i < site->peg_count; i++) {
		double x = (double)site->pegs[i].x_um, y = (double)site->pegs[i].y_um;

		if (!add(l, site->pegs[i].name, x, y, surface_level_um(&l->plan->surface, x, y),
		            formation_level_um(l->plan, x, y)))
			return false;
	}
	return true;
}

/* The corner at an end of an edge, by ring and number, in words. */
static const char *end_name(struct list *l, const char *kind, size_t ring, size_t at)
{
	return ring ? arena_print(l->mem, "%s top, opening %zu corner %zu", kind, ring, at + 1)
	            : arena_print(l->mem, "%s top, corner %zu", kind, at + 1);
}

/* Both ends of each edge of the kind; a corner that two such edges share comes once. */
static bool add_kerb(struct list *l, const struct kerb_line *line)
{
	const char *kind = edge_kind_name(line->kind);

	for (size_t i = 0; i < line->run_count; i++) {
		const struct kerb_run *run = &line->runs[i];
		const struct plan_ring *r;
		size_t ring = 0, at = 0, before, next;

		if (!plan_edge_find(l->plan, run->edge, &ring, &at))
			continue;
		r = &l->plan->rings[ring];
		before = (at + r->count - 1) % r->count;
		next = (at + 1) % r->count;
		if (r->nodes[before].kind != line->kind &&
		        !add(l, end_name(l, kind, ring, at), (double)r->nodes[at].x_um,
		                (double)r->nodes[at].y_um, run->from_um, run->from_trench_um))
			return false;
		if (!add(l, end_name(l, kind, ring, next), (double)r->nodes[next].x_um,
		            (double)r->nodes[next].y_um, run->to_um, run->to_trench_um))
			return false;
	}
	return true;
}

/* The wall's top, and the bottom of its footing. */
static bool add_planter(struct list *l, const struct planter_result *r, size_t number)
{
	double dug;

	if (!r->ready)
		return true;
	dug = (double)(r->planter->base_um - r->planter->footing_depth_um);
	for (size_t i = 0; i < r->corner_count; i++) {
		const struct planter_corner *c = &r->corners[i];

		if (!add(l,
		            arena_print(l->mem, "planter %zu top, corner %zu", number + 1,
		                    c->point + 1),
		            (double)c->x_um, (double)c->y_um, (double)r->top_um, dug))
			return false;
	}
	return true;
}

/* Every nosing, and what is dug to under its row. */
static bool add_flight(struct list *l, const struct flight *f, size_t number)
{
	const struct plan_steps *s = f->steps;
	double dx, dy;

	turn_of(s->toward_udeg, &dx, &dy);
	for (size_t i = f->fault ? 0 : f->row_count; i-- > 0;) {
		const struct step_row *row = &f->rows[i];
		double along = (double)((f->risers - 1 - (int64_t)i) * s->going_um);

		if (!add(l, arena_print(l->mem, "steps %zu nosing %zu", number + 1, i + 1),
		            (double)s->x_um + dx * along, (double)s->y_um + dy * along,
		            (double)row->level_um, (double)(row->underside_um - s->bed_um)))
			return false;
	}
	return true;
}

static size_t most_points(const struct takeoff *t)
{
	size_t n = t->surface.point_count + t->plan.site.peg_count;

	for (size_t i = 0; i < t->kerbs.count; i++)
		n += 2 * t->kerbs.lines[i].run_count;
	for (size_t i = 0; i < t->planters.count; i++)
		n += t->planters.items[i].corner_count;
	for (size_t i = 0; i < t->steps.count; i++)
		n += t->steps.flights[i].row_count;
	return n;
}

enum status takeoff_levels(struct arena *mem, struct takeoff *t, struct error *err)
{
	struct list l = { .mem = mem, .plan = &t->plan };
	bool ok;

	l.points = arena_alloc(mem, most_points(t), sizeof *l.points);
	if (!l.points)
		return error_memory(err);
	l.count = t->surface.point_count;
	if (l.count)
		memcpy(l.points, t->surface.points, l.count * sizeof *l.points);
	ok = add_pegs(&l);
	for (size_t i = 0; ok && i < t->kerbs.count; i++)
		ok = add_kerb(&l, &t->kerbs.lines[i]);
	for (size_t i = 0; ok && i < t->planters.count; i++)
		ok = add_planter(&l, &t->planters.items[i], i);
	for (size_t i = 0; ok && i < t->steps.count; i++)
		ok = add_flight(&l, &t->steps.flights[i], i);
	if (!ok)
		return error_memory(err);
	t->levels = l.points;
	t->level_count = l.count;
	return STATUS_OK;
}
