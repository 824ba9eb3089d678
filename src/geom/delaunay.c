/* delaunay.c - points joined to triangles.
 *
 * Points are taken from left to right. Each is joined to the sides of the hull that it sees; then
 * sides whose two triangles do not suit are flipped, and so on outward, until all suit. With points
 * on one circle it counts as a little farther out the farther right a point is, which makes the
 * answer the only one. */
#include "slabwright/mesh.h"

#include "snap.h"

#include <stdlib.h>

struct making {
	const struct spot *p; /* in order */
	struct mesh_triangle *t;
	size_t count;
	size_t *next, *before; /* along the hull, anticlockwise */
	size_t *of_side; /* triangle of the hull's side that leaves a point */
	size_t *stack, depth; /* sides to look at: three times a triangle plus the corner opposite
	                       */
	bool *stacked;
};

struct ranked {
	struct spot at;
	size_t number;
};

static int by_place(const void *a, const void *b)
{
	const struct ranked *p = a, *q = b;

	return spot_order(p->at, q->at);
}

static wide turn(const struct making *m, size_t a, size_t b, size_t c)
{
	return spot_turn(m->p[a], m->p[b], m->p[c]);
}

static wide square(int64_t dx, int64_t dy)
{
	return (wide)dx * dx + (wide)dy * dy;
}

/* Positive where d lies within the circle about a, b, c, which run anticlockwise; 0 on it. Twice
 * the area of a triangle within 1 km of the origin is at most 4e18 um2 and the square of a side
 * 8e18, so three of their products stay under 1e38, and 128 bits hold 1.7e38. */
static wide in_circle(struct spot a, struct spot b, struct spot c, struct spot d)
{
	return square(a.x - d.x, a.y - d.y) * spot_turn(d, b, c) +
	       square(b.x - d.x, b.y - d.y) * spot_turn(d, c, a) +
	       square(c.x - d.x, c.y - d.y) * spot_turn(d, a, b);
}

static void look_at(struct making *m, size_t triangle, size_t k)
{
	size_t side = 3 * triangle + k;

	if (m->stacked[side])
		return;
	m->stacked[side] = true;
	m->stack[m->depth++] = side;
}

static size_t opposite(const struct mesh_triangle *t, size_t beside)
{
	return t->beside[0] == beside ? 0 : t->beside[1] == beside ? 1 : 2;
}

/* Whether the side of t opposite its corner k has to be flipped: the far corner lies within the
 * circle, or on it and one of the two that the new side would join is the leftmost. Numbers of
 * points are in order. */
static bool suits_not(const struct making *m, size_t triangle, size_t k, size_t *far)
{
	const struct mesh_triangle *t = &m->t[triangle];
	size_t other = t->beside[k], a, b, c, d;
	wide in;

	if (other == MESH_NONE)
		return false;
	*far = opposite(&m->t[other], triangle);
	a = t->corner[k];
	b = t->corner[(k + 1) % 3];
	c = t->corner[(k + 2) % 3];
	d = m->t[other].corner[*far];
	in = in_circle(m->p[a], m->p[b], m->p[c], m->p[d]);
	return in > 0 || (in == 0 && (a < d ? a : d) < (b < c ? b : c));
}

/* What lay beside one triangle now lies beside another; on the hull, the side that leaves a point
 * is told. */
static void put_beside(struct making *m, size_t outer, size_t was, size_t is, size_t from)
{
	if (outer == MESH_NONE)
		m->of_side[from] = is;
	else
		m->t[outer].beside[opposite(&m->t[outer], was)] = is;
}

/* The side b-c between a, b, c and d, c, b becomes a-d. */
static void flip(struct making *m, size_t one, size_t k, size_t far)
{
	struct mesh_triangle *t = &m->t[one];
	size_t two = t->beside[k];
	struct mesh_triangle *u = &m->t[two];
	size_t a = t->corner[k], b = t->corner[(k + 1) % 3], c = t->corner[(k + 2) % 3];
	size_t d = u->corner[far];
	size_t ca = t->beside[(k + 1) % 3], ab = t->beside[(k + 2) % 3];
	size_t bd = u->beside[(far + 1) % 3], dc = u->beside[(far + 2) % 3];

	*t = (struct mesh_triangle){ { a, b, d }, { bd, two, ab } };
	*u = (struct mesh_triangle){ { a, d, c }, { dc, ca, one } };
	put_beside(m, bd, two, one, b);
	put_beside(m, ca, one, two, c);
	look_at(m, one, 0);
	look_at(m, one, 2);
	look_at(m, two, 0);
	look_at(m, two, 1);
}

static void settle(struct making *m)
{
	while (m->depth) {
		size_t side = m->stack[--m->depth], far;

		m->stacked[side] = false;
		if (suits_not(m, side / 3, side % 3, &far))
			flip(m, side / 3, side % 3, far);
	}
}

static void link_hull(struct making *m, size_t from, size_t to, size_t triangle)
{
	m->next[from] = to;
	m->before[to] = from;
	m->of_side[from] = triangle;
}

/* The first point off the line of the first two, joined to all of those before it. */
static void begin(struct making *m, size_t apex)
{
	bool left = turn(m, 0, 1, apex) > 0;
	size_t sides = apex - 1;

	for (size_t i = 0; i < sides; i++) {
		size_t a = left ? i : apex - 1 - i, b = left ? i + 1 : apex - 2 - i;

		m->t[i] = (struct mesh_triangle){ { a, b, apex },
			{ i + 1 < sides ? i + 1 : MESH_NONE, i ? i - 1 : MESH_NONE, MESH_NONE } };
		link_hull(m, a, b, i);
		look_at(m, i, 0);
	}
	m->count = sides;
	link_hull(m, left ? apex - 1 : 0, apex, sides - 1);
	link_hull(m, apex, left ? 0 : apex - 1, 0);
	settle(m);
}

/* A point farther right than all before it; the last of those is on the hull and seen from it. */
static void add(struct making *m, size_t v)
{
	size_t from = v - 1, a, last = MESH_NONE;

	while (turn(m, m->before[from], from, v) < 0)
		from = m->before[from];
	for (a = from; turn(m, a, m->next[a], v) < 0; a = m->next[a]) {
		size_t n = m->next[a], beyond = m->of_side[a], t = m->count++;

		m->t[t] = (struct mesh_triangle){ { n, a, v }, { last, MESH_NONE, beyond } };
		if (last == MESH_NONE)
			m->of_side[from] = t;
		else
			m->t[last].beside[1] = t;
		for (int k = 0; k < 3; k++)
			if (m->t[beyond].corner[k] != a && m->t[beyond].corner[k] != n)
				m->t[beyond].beside[k] = t;
		look_at(m, t, 0);
		look_at(m, t, 2);
		last = t;
	}
	link_hull(m, from, v, m->of_side[from]);
	link_hull(m, v, a, last);
	settle(m);
}

static bool make_room(struct arena *mem, struct making *m, size_t count)
{
	size_t triangles = 2 * count;

	m->t = arena_alloc(mem, triangles, sizeof *m->t);
	m->next = arena_alloc(mem, count, sizeof *m->next);
	m->before = arena_alloc(mem, count, sizeof *m->before);
	m->of_side = arena_alloc(mem, count, sizeof *m->of_side);
	m->stack = arena_alloc(mem, 3 * triangles, sizeof *m->stack);
	m->stacked = arena_alloc(mem, 3 * triangles, sizeof *m->stacked);
	return m->t && m->next && m->before && m->of_side && m->stack && m->stacked;
}

/* Numbers of points in order become those that the caller gave. */
static void hand_out(
        const struct making *m, const struct ranked *ranked, size_t count, struct mesh *out)
{
	size_t at = 0;

	for (size_t i = 0; i < m->count; i++)
		for (int k = 0; k < 3; k++)
			m->t[i].corner[k] = ranked[m->t[i].corner[k]].number;
	out->triangles = m->t;
	out->triangle_count = m->count;
	if (!m->count)
		for (; out->hull_count < count; out->hull_count++)
			out->hull[out->hull_count] = ranked[out->hull_count].number;
	while (out->hull_count == 0 || (m->count && at != 0)) {
		out->hull[out->hull_count++] = ranked[at].number;
		at = m->next[at];
	}
}

enum status mesh_make(struct arena *mem, const struct plan_point *points, size_t count,
        struct mesh *out, struct error *err)
{
	struct ranked *ranked = arena_alloc(mem, count, sizeof *ranked);
	struct spot *p = arena_alloc(mem, count, sizeof *p);
	struct making m = { .p = p };
	size_t apex = 2;

	*out = (struct mesh){ .hull = arena_alloc(mem, count, sizeof *out->hull) };
	if (!ranked || !p || !out->hull || !make_room(mem, &m, count))
		return error_memory(err);
	if (!count)
		return STATUS_OK;
	for (size_t i = 0; i < count; i++)
		ranked[i] = (struct ranked){ { points[i].x_um, points[i].y_um }, i };
	qsort(ranked, count, sizeof *ranked, by_place);
	for (size_t i = 0; i < count; i++)
		p[i] = ranked[i].at;
	while (apex < count && turn(&m, 0, 1, apex) == 0)
		apex++;
	if (apex < count)
		begin(&m, apex);
	for (size_t v = apex + 1; v < count; v++)
		add(&m, v);
	hand_out(&m, ranked, count, out);
	return STATUS_OK;
}
