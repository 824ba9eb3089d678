/* surface_split.c - the parts of a region where each plane shows, and the lines between them.
 *
 * A plane shows on one side of each line where it meets another, so its part is what is left of the
 * region after one cut for each other plane. */
#include "envelope.h"

#include <math.h>
#include <stdlib.h>

static const double LEAST_LINE_UM = 1e-3, SAME_UM = 1e-3;

const char *line_kind_name(enum line_kind kind)
{
	static const char *const names[] = { "ridge", "valley", "change" };

	return names[kind];
}

/* The region turned so that `along` is the direction of x; back with the turn the other way. */
static enum status turn_to(struct arena *mem, const struct region *from, struct point along,
        struct region *out, struct error *err)
{
	*out = (struct region){ arena_alloc(mem, from->count, sizeof *out->rings), from->count };
	if (!out->rings && from->count)
		return error_memory(err);
	for (size_t i = 0; i < from->count; i++) {
		const struct ring *r = &from->rings[i];
		struct ring *to = &out->rings[i];

		*to = (struct ring){ arena_alloc(mem, r->n, sizeof *to->p), r->n, r->edge };
		if (!to->p)
			return error_memory(err);
		for (size_t j = 0; j < r->n; j++)
			to->p[j] = (struct point){ r->p[j].x * along.x + r->p[j].y * along.y,
				r->p[j].y * along.x - r->p[j].x * along.y };
	}
	return STATUS_OK;
}

static void name_cut(struct region *r, int label)
{
	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; r->rings[i].edge && j < r->rings[i].n; j++)
			if (r->rings[i].edge[j] == EDGE_OF_CUT)
				r->rings[i].edge[j] = label;
}

/* Takes off what lies beyond the line; `label` for the edges that makes. */
static enum status cut_off(struct arena *mem, struct region *part, const struct meeting_line *line,
        int label, struct error *err)
{
	struct region turned, kept;
	struct box b;
	enum status st = turn_to(mem, part, line->across, &turned, err);

	if (st != STATUS_OK || !part->count)
		return st;
	b = region_box(&turned);
	if (b.x0 >= line->offset_um)
		return STATUS_OK;
	if (b.x1 <= line->offset_um) {
		part->count = 0;
		return STATUS_OK;
	}
	st = region_band(mem, &turned, AXIS_X, line->offset_um, INFINITY, &kept, err);
	if (st != STATUS_OK)
		return st;
	name_cut(&kept, label);
	return turn_to(mem, &kept, (struct point){ line->across.x, -line->across.y }, part, err);
}

/* Whether a plane lies under a parallel one everywhere, or is the same as one before it. */
static bool is_covered(const struct plan_surface *s, const struct gradient *g, size_t plane)
{
	double way = s->envelope == ENVELOPE_MAX ? 1 : -1;

	for (size_t i = 0; i < s->count; i++) {
		struct meeting_line line;
		double over = (g[i].level - g[plane].level) * way;

		if (i != plane && !planes_line(s->envelope, &g[plane], &g[i], &line) &&
		        (fabs(over) < SAME_UM ? i < plane : over > 0))
			return true;
	}
	return false;
}

/* Cuts the part down to where the plane shows. Planes that show nowhere make no cuts. */
static enum status split_part(struct arena *mem, const struct plan_surface *s,
        const struct gradient *g, size_t plane, struct region *part, struct error *err)
{
	for (size_t j = 0; j < s->count && part->count; j++) {
		struct meeting_line line;
		enum status st;

		if (j == plane || is_covered(s, g, j) ||
		        !planes_line(s->envelope, &g[plane], &g[j], &line))
			continue;
		if ((st = cut_off(mem, part, &line, EDGE_OF_PLANE(j), err)) != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static bool is_level(const struct gradient *g)
{
	return g->x == 0 && g->y == 0;
}

/* Beside a level plane the fall changes, and no more: water runs on to it and stands, or there is
 * none on it that could part. */
static enum line_kind kind_of(const struct gradient *a, const struct gradient *b, enum meeting meet)
{
	if (is_level(a) || is_level(b) || meet == MEET_INTO_FIRST || meet == MEET_INTO_SECOND)
		return LINE_CHANGE;
	return meet == MEET_VALLEY ? LINE_VALLEY : LINE_RIDGE;
}

static struct surface_line line_between(const struct plan_surface *s, const struct gradient *g,
        size_t a, size_t b, struct point p, struct point q)
{
	enum meeting meet = planes_meet(s->envelope, &g[a], &g[b]);
	double zp = gradient_level(&g[a], p), zq = gradient_level(&g[a], q);
	bool p_high = zp >= zq, max = s->envelope == ENVELOPE_MAX,
	     turned = meet == MEET_INTO_FIRST || (max ? is_level(&g[a]) : is_level(&g[b]));

	return (struct surface_line){
		.kind = kind_of(&g[a], &g[b], meet),
		.planes = { turned ? b : a, turned ? a : b },
		.high = p_high ? p : q,
		.low = p_high ? q : p,
		.high_um = fmax(zp, zq),
		.low_um = fmin(zp, zq),
		.fall_um_per_m = fabs(zp - zq) / hypot(q.x - p.x, q.y - p.y) * 1e6,
	};
}

static size_t count_edges(const struct surface_shape *shape)
{
	size_t n = 0;

	for (size_t i = 0; i < shape->part_count; i++)
		for (size_t k = 0; k < shape->parts[i].region.count; k++)
			n += shape->parts[i].region.rings[k].n;
	return n;
}

static void find_lines(const struct plan_surface *s, const struct gradient *g,
        const struct surface_part *part, struct surface_shape *out)
{
	for (size_t k = 0; k < part->region.count; k++) {
		const struct ring *r = &part->region.rings[k];

		for (size_t j = 0; r->edge && j < r->n; j++) {
			struct point p = r->p[j], q = r->p[j + 1 < r->n ? j + 1 : 0];
			int beyond = EDGE_OF_PLANE(r->edge[j]); /* its own inverse */

			if (r->edge[j] >= EDGE_OF_PLANE(part->plane) ||
			        hypot(q.x - p.x, q.y - p.y) < LEAST_LINE_UM)
				continue;
			out->lines[out->line_count++] =
			        line_between(s, g, part->plane, (size_t)beyond, p, q);
		}
	}
}

enum status surface_split(struct arena *mem, const struct plan_surface *surface,
        const struct region *region, struct surface_shape *out, struct error *err)
{
	size_t n = surface->count;
	struct gradient *g = arena_alloc(mem, n, sizeof *g);

	*out = (struct surface_shape){ .parts = arena_alloc(mem, n, sizeof *out->parts) };
	if (n && (!g || !out->parts))
		return error_memory(err);
	for (size_t i = 0; i < n; i++)
		g[i] = gradient_of(&surface->planes[i]);
	for (size_t i = 0; i < n; i++) {
		struct surface_part *part = &out->parts[out->part_count];
		enum status st;

		if (is_covered(surface, g, i))
			continue;
		*part = (struct surface_part){ .plane = i, .region = *region };
		if ((st = split_part(mem, surface, g, i, &part->region, err)) != STATUS_OK)
			return st;
		part->area_m2 = region_area_um2(&part->region) * 1e-12;
		out->part_count += part->region.count > 0;
	}
	out->lines = arena_alloc(mem, count_edges(out) + 1, sizeof *out->lines);
	if (!out->lines)
		return error_memory(err);
	for (size_t i = 0; i < out->part_count; i++)
		find_lines(surface, g, &out->parts[i], out);
	return STATUS_OK;
}
