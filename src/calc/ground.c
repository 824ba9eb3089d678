/* ground.c - ground levels made one surface: cells, in each of which the level is linear.
 *
 * Within the hull a cell is a triangle. Beyond each side of the hull lies a strip as wide as the
 * side, beyond each corner a wedge between two strips; together they fill the plane. Levels on one
 * line have strips on both sides and a half-plane beyond each end. */
#include "slabwright/earth.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

__extension__ typedef __int128 wide;

double linear_at(const struct linear *f, double x, double y)
{
	return f->value + f->x_slope * (x - f->x) + f->y_slope * (y - f->y);
}

/* --- levels --- */

static const struct plan_spot *place_of(const void *p)
{
	return *(const struct plan_spot *const *)p;
}

/* By place, then as they were given. */
static int by_place(const void *a, const void *b)
{
	const struct plan_spot *s = place_of(a), *t = place_of(b);

	if (s->x_um != t->x_um)
		return s->x_um < t->x_um ? -1 : 1;
	if (s->y_um != t->y_um)
		return s->y_um < t->y_um ? -1 : 1;
	return s < t ? -1 : s > t;
}

/* "ground level 3" or "ground level 3 (by the tree)". */
static char *level_words(
        char *buf, size_t size, const struct plan_spot *all, const struct plan_spot *level)
{
	size_t number = (size_t)(level - all) + 1;

	if (level->name && *level->name)
		snprintf(buf, size, "ground level %zu (%.60s)", number, level->name);
	else
		snprintf(buf, size, "ground level %zu", number);
	return buf;
}

static enum status check_reach(const struct plan_spot *levels, size_t count, struct error *err)
{
	char words[120];

	for (size_t i = 0; i < count; i++) {
		const struct plan_spot *s = &levels[i];

		level_words(words, sizeof words, levels, s);
		if (llabs(s->x_um) > COORD_LIMIT_UM || llabs(s->y_um) > COORD_LIMIT_UM)
			return error_set(err, STATUS_PLAN,
			        "%s lies more than 1 km from the origin; check its place", words);
		if (llabs(s->level_um) > COORD_LIMIT_UM)
			return error_set(err, STATUS_PLAN,
			        "%s is more than 1 km above or below the datum; check it", words);
	}
	return STATUS_OK;
}

static enum status refuse_pair(const struct plan_spot *all, const struct plan_spot *s,
        const struct plan_spot *t, struct error *err)
{
	char one[120], other[120], x[40], y[40], mm[40];

	return error_set(err, STATUS_PLAN,
	        "%s and %s lie at one place, x %s, y %s, but %s mm apart in level; correct or "
	        "delete one of them",
	        level_words(one, sizeof one, all, s), level_words(other, sizeof other, all, t),
	        length_print(x, sizeof x, s->x_um, UNIT_M),
	        length_print(y, sizeof y, s->y_um, UNIT_M),
	        mm_print(mm, sizeof mm, llabs(s->level_um - t->level_um)));
}

/* Each place once. */
static enum status gather(struct arena *mem, const struct plan_spot *levels, size_t count,
        struct ground *g, struct error *err)
{
	const struct plan_spot **order = arena_alloc(mem, count, sizeof *order);

	g->points = arena_alloc(mem, count, sizeof *g->points);
	g->level_um = arena_alloc(mem, count, sizeof *g->level_um);
	if (!order || !g->points || !g->level_um)
		return error_memory(err);
	for (size_t i = 0; i < count; i++)
		order[i] = &levels[i];
	qsort(order, count, sizeof *order, by_place);
	for (size_t i = 0; i < count; i++) {
		const struct plan_spot *s = order[i], *before = i ? order[i - 1] : NULL;

		if (before && before->x_um == s->x_um && before->y_um == s->y_um) {
			if (before->level_um != s->level_um)
				return refuse_pair(levels, before, s, err);
			continue;
		}
		g->points[g->level_count] = (struct plan_point){ s->x_um, s->y_um };
		g->level_um[g->level_count++] = (double)s->level_um;
	}
	return STATUS_OK;
}

/* --- cells --- */

/* From one point to another. */
struct leg {
	double x, y; /* where it begins */
	double ux, uy, length; /* way, of length 1 */
};

static struct leg leg_of(const struct ground *g, size_t from, size_t to)
{
	struct plan_point p = g->points[from], q = g->points[to];
	double dx = (double)(q.x_um - p.x_um), dy = (double)(q.y_um - p.y_um);
	double length = hypot(dx, dy);

	return (struct leg){ (double)p.x_um, (double)p.y_um, dx / length, dy / length, length };
}

/* Distance along a leg's way from where it begins (ends), and to the left of it. */
static struct linear along_from(const struct leg *l)
{
	return (struct linear){ l->x, l->y, 0, l->ux, l->uy };
}

static struct linear back_from_end(const struct leg *l)
{
	return (struct linear){ l->x, l->y, l->length, -l->ux, -l->uy };
}

static struct linear left_of(const struct leg *l)
{
	return (struct linear){ l->x, l->y, 0, -l->uy, l->ux };
}

static struct linear backward(struct linear f)
{
	return (struct linear){ f.x, f.y, -f.value, -f.x_slope, -f.y_slope };
}

static struct ground_cell *add_cell(struct ground *g)
{
	struct ground_cell *c = &g->cells[g->cell_count++];

	*c = (struct ground_cell){ .box = { -DBL_MAX, -DBL_MAX, DBL_MAX, DBL_MAX },
		.beyond = true };
	return c;
}

static void set_range(struct ground_cell *c, double a, double b)
{
	c->lowest_um = fmin(a, b);
	c->highest_um = fmax(a, b);
}

/* Level across a leg. */
static void set_along(
        const struct ground *g, struct ground_cell *c, const struct leg *l, size_t from, size_t to)
{
	double rise = (g->level_um[to] - g->level_um[from]) / l->length;

	c->level = (struct linear){ l->x, l->y, g->level_um[from], rise * l->ux, rise * l->uy };
	set_range(c, g->level_um[from], g->level_um[to]);
}

static void set_level(const struct ground *g, struct ground_cell *c, size_t at)
{
	c->level = (struct linear){ (double)g->points[at].x_um, (double)g->points[at].y_um,
		g->level_um[at], 0, 0 };
	c->round = true;
	set_range(c, g->level_um[at], g->level_um[at]);
}

static void add_strip(struct ground *g, size_t from, size_t to, bool both_sides)
{
	struct ground_cell *c = add_cell(g);
	struct leg l = leg_of(g, from, to);

	c->side[c->sides++] = along_from(&l);
	c->side[c->sides++] = back_from_end(&l);
	c->away = backward(left_of(&l));
	if (!both_sides)
		c->side[c->sides++] = c->away;
	set_along(g, c, &l, from, to);
}

/* Beyond the corner between two legs. */
static void add_wedge(struct ground *g, size_t before, size_t at, size_t after)
{
	struct leg in = leg_of(g, before, at), out = leg_of(g, at, after);
	struct ground_cell *c = add_cell(g);

	c->side[c->sides++] = backward(back_from_end(&in));
	c->side[c->sides++] = backward(along_from(&out));
	set_level(g, c, at);
}

static void add_triangle(struct ground *g, const struct mesh_triangle *t)
{
	struct ground_cell *c = add_cell(g);
	struct plan_point p[3];
	struct point corners[3];
	double x1, y1, z1, x2, y2, z2, twice;

	c->beyond = false;
	for (int k = 0; k < 3; k++) {
		struct leg l = leg_of(g, t->corner[k], t->corner[(k + 1) % 3]);

		p[k] = g->points[t->corner[k]];
		corners[k] = (struct point){ (double)p[k].x_um, (double)p[k].y_um };
		c->side[c->sides++] = left_of(&l);
	}
	c->box = points_box(corners, 3);
	x1 = corners[1].x - corners[0].x;
	y1 = corners[1].y - corners[0].y;
	z1 = g->level_um[t->corner[1]] - g->level_um[t->corner[0]];
	x2 = corners[2].x - corners[0].x;
	y2 = corners[2].y - corners[0].y;
	z2 = g->level_um[t->corner[2]] - g->level_um[t->corner[0]];
	/* Of a triangle that is nearly a line only whole numbers tell the area. */
	twice = (double)((wide)(p[1].x_um - p[0].x_um) * (p[2].y_um - p[0].y_um) -
	                 (wide)(p[2].x_um - p[0].x_um) * (p[1].y_um - p[0].y_um));
	c->level = (struct linear){ corners[0].x, corners[0].y, g->level_um[t->corner[0]],
		(z1 * y2 - z2 * y1) / twice, (x1 * z2 - x2 * z1) / twice };
	set_range(
	        c, fmin(0, fmin(z1, z2)) + c->level.value, fmax(0, fmax(z1, z2)) + c->level.value);
}

static void cells_of_mesh(struct ground *g)
{
	const struct mesh *m = &g->mesh;

	for (size_t i = 0; i < m->triangle_count; i++)
		add_triangle(g, &m->triangles[i]);
	for (size_t i = 0; i < m->hull_count; i++) {
		size_t at = m->hull[i], after = m->hull[(i + 1) % m->hull_count],
		       before = m->hull[(i + m->hull_count - 1) % m->hull_count];

		add_strip(g, at, after, false);
		add_wedge(g, before, at, after);
	}
}

static void cells_of_line(struct ground *g)
{
	const struct mesh *m = &g->mesh;
	size_t last = m->hull_count - 1;
	struct leg first = leg_of(g, m->hull[0], m->hull[1]),
	           end = leg_of(g, m->hull[last - 1], m->hull[last]);
	struct ground_cell *c;

	for (size_t i = 0; i < last; i++)
		add_strip(g, m->hull[i], m->hull[i + 1], true);
	c = add_cell(g);
	c->side[c->sides++] = backward(along_from(&first));
	set_level(g, c, m->hull[0]);
	c = add_cell(g);
	c->side[c->sides++] = backward(back_from_end(&end));
	set_level(g, c, m->hull[last]);
}

enum status ground_make(struct arena *mem, const struct plan_spot *levels, size_t count,
        struct ground *out, struct error *err)
{
	enum status st = check_reach(levels, count, err);

	*out = (struct ground){ 0 };
	if (st != STATUS_OK || !count)
		return st;
	if ((st = gather(mem, levels, count, out, err)) != STATUS_OK ||
	        (st = mesh_make(mem, out->points, out->level_count, &out->mesh, err)) != STATUS_OK)
		return st;
	out->kind = out->mesh.triangle_count ? GROUND_MESH
	            : out->level_count > 1   ? GROUND_LINE
	                                     : GROUND_ONE;
	out->cells = arena_alloc(
	        mem, out->mesh.triangle_count + 2 * out->mesh.hull_count + 2, sizeof *out->cells);
	if (!out->cells)
		return error_memory(err);
	if (out->kind == GROUND_MESH)
		cells_of_mesh(out);
	else if (out->kind == GROUND_LINE)
		cells_of_line(out);
	else
		set_level(out, add_cell(out), 0);
	return STATUS_OK;
}

/* --- one point --- */

/* How far within a cell's sides, or outside them where negative. */
static double depth_in(const struct ground_cell *c, double x, double y)
{
	double least = DBL_MAX;

	for (int i = 0; i < c->sides; i++)
		least = fmin(least, linear_at(&c->side[i], x, y));
	return least;
}

double ground_cell_beyond(const struct ground_cell *cell, double x, double y)
{
	if (!cell->beyond)
		return 0;
	return cell->round ? hypot(x - cell->level.x, y - cell->level.y)
	                   : fabs(linear_at(&cell->away, x, y));
}

double ground_level_um(const struct ground *ground, double x_um, double y_um, double *beyond)
{
	const struct ground_cell *best = NULL;
	double deepest = 0, level;

	if (beyond)
		*beyond = 0;
	for (size_t i = 0; i < ground->cell_count; i++) {
		const struct ground_cell *c = &ground->cells[i];
		double depth = depth_in(c, x_um, y_um);

		if (!best || depth > deepest) {
			best = c;
			deepest = depth;
		}
	}
	if (!best)
		return 0;
	if (beyond)
		*beyond = ground_cell_beyond(best, x_um, y_um);
	level = linear_at(&best->level, x_um, y_um);
	return fmin(best->highest_um, fmax(best->lowest_um, level));
}
