/* snap.c - straight edges cut on whole um where they meet, by snap rounding.
 *
 * Every corner and every crossing, rounded, makes the square of one um about it hot; an edge that
 * runs through a hot square bends to its middle. So no corner changes sides, and what lies closer
 * together than a um coincides. Bent edges can run through squares they missed before: rounds are
 * made until none does. All is decided exactly, in 128 bits.
 *
 * A square has its left and lower border but not its right and upper one, which is how crossings
 * are rounded. */
#include "snap.h"

#include <math.h>
#include <stdlib.h>

enum { ROUNDS = 64 }; /* 1 or 2 are usual */

int spot_order(struct spot p, struct spot q)
{
	if (p.x != q.x)
		return p.x < q.x ? -1 : 1;
	return p.y < q.y ? -1 : p.y > q.y;
}

wide spot_turn(struct spot p, struct spot q, struct spot r)
{
	return (wide)(q.x - p.x) * (r.y - p.y) - (wide)(q.y - p.y) * (r.x - p.x);
}

static int by_order(const void *a, const void *b)
{
	const struct spot *p = a, *q = b;

	return spot_order(*p, *q);
}

static int by_first_end(const void *a, const void *b)
{
	const struct stretch *s = a, *t = b;

	return spot_order(s->a, t->a);
}

static bool append(struct arena *mem, struct stretches *to, struct stretch s)
{
	struct stretch *items = arena_grow(mem, to->items, to->count, &to->room, sizeof *items);

	if (!items)
		return false;
	to->items = items;
	items[to->count++] = s;
	return true;
}

static struct spot whole_um(struct point p)
{
	return (struct spot){ llround(p.x), llround(p.y) };
}

enum status stretches_add(struct arena *mem, struct stretches *to, const struct ring *ring, int way,
        int of, struct error *err)
{
	for (size_t i = 0; i < ring->n; i++) {
		struct spot p = whole_um(ring->p[i]),
		            q = whole_um(ring->p[i + 1 < ring->n ? i + 1 : 0]);
		int order = spot_order(p, q);
		struct stretch s = { .a = order < 0 ? p : q,
			.b = order < 0 ? q : p,
			.way = order < 0 ? way : -way,
			.of = of,
			.edge = ring->edge ? ring->edge[i] : 0 };

		if (order && !append(mem, to, s))
			return error_memory(err);
	}
	return STATUS_OK;
}

static int64_t lower(const struct stretch *s)
{
	return s->a.y < s->b.y ? s->a.y : s->b.y;
}

static int64_t upper(const struct stretch *s)
{
	return s->a.y > s->b.y ? s->a.y : s->b.y;
}

/* n / d to the nearest whole number, halves upwards. */
static int64_t rounded(wide n, wide d)
{
	wide twice = d < 0 ? -2 * d : 2 * d, sum = (d < 0 ? -2 * n : 2 * n) + twice / 2;
	wide q = sum / twice;

	return (int64_t)(sum % twice < 0 ? q - 1 : q);
}

/* Where two stretches cross between their ends. */
static bool crossing(const struct stretch *s, const struct stretch *t, struct spot *at)
{
	wide a = spot_turn(t->a, t->b, s->a), b = spot_turn(t->a, t->b, s->b), c, d;

	if (!a || !b || (a > 0) == (b > 0))
		return false;
	c = spot_turn(s->a, s->b, t->a);
	d = spot_turn(s->a, s->b, t->b);
	if (!c || !d || (c > 0) == (d > 0))
		return false;
	at->x = s->a.x + rounded((s->b.x - s->a.x) * a, a - b);
	at->y = s->a.y + rounded((s->b.y - s->a.y) * a, a - b);
	return true;
}

/* Whether the stretch runs through the square about a spot within its box. Of a slanted one, the
 * square's corners lie up to |dx| + |dy| from where its middle lies, in units of twice the turn;
 * where one is only touched it must be the lower left. */
static bool runs_through(const struct stretch *s, struct spot p)
{
	int64_t dx = s->b.x - s->a.x, dy = s->b.y - s->a.y, farthest = dx + llabs(dy);
	wide off;

	if (p.y < lower(s) || p.y > upper(s))
		return false;
	if (!dx || !dy)
		return true;
	off = 2 * spot_turn(s->a, s->b, p);
	return (off < farthest && off > -farthest) || (dy < 0 && off == dx - dy);
}

/* The middles of hot squares, in order. */
struct spots {
	struct spot *items;
	size_t count, room;
};

static bool add_spot(struct arena *mem, struct spots *to, struct spot p)
{
	struct spot *items = arena_grow(mem, to->items, to->count, &to->room, sizeof *items);

	if (!items)
		return false;
	to->items = items;
	items[to->count++] = p;
	return true;
}

/* The stretches are in order of their first ends. */
static bool add_crossings(struct arena *mem, const struct stretches *s, struct spots *to)
{
	for (size_t i = 0; i < s->count; i++) {
		const struct stretch *a = &s->items[i];
		int64_t low = lower(a), high = upper(a);

		for (size_t j = i + 1; j < s->count && s->items[j].a.x <= a->b.x; j++) {
			const struct stretch *b = &s->items[j];
			struct spot at;

			if (lower(b) <= high && upper(b) >= low && crossing(a, b, &at) &&
			        !add_spot(mem, to, at))
				return false;
		}
	}
	return true;
}

static bool find_spots(struct arena *mem, const struct stretches *s, struct spots *to)
{
	size_t kept = 0;

	for (size_t i = 0; i < s->count; i++)
		if (!add_spot(mem, to, s->items[i].a) || !add_spot(mem, to, s->items[i].b))
			return false;
	if (!add_crossings(mem, s, to))
		return false;
	if (to->count)
		qsort(to->items, to->count, sizeof *to->items, by_order);
	for (size_t i = 0; i < to->count; i++)
		if (!kept || spot_order(to->items[kept - 1], to->items[i]) != 0)
			to->items[kept++] = to->items[i];
	to->count = kept;
	return true;
}

static size_t first_at_x(const struct spots *hot, int64_t x)
{
	size_t from = 0, to = hot->count;

	while (from < to) {
		size_t middle = from + (to - from) / 2;

		if (hot->items[middle].x < x)
			from = middle + 1;
		else
			to = middle;
	}
	return from;
}

/* Appends the part of a stretch from where the last one ended to a hot spot. Bent, a stretch that
 * falls can turn upright and so stand the other way in order. */
static bool append_part(
        struct arena *mem, struct stretches *to, struct stretch s, struct spot last, struct spot at)
{
	bool turned = spot_order(last, at) > 0;

	s.a = turned ? at : last;
	s.b = turned ? last : at;
	s.way = turned ? -s.way : s.way;
	return append(mem, to, s);
}

/* Cuts one stretch at all hot squares it runs through, in the order in which it does: by x, and
 * among those of one x upwards or, where it falls, downwards. */
static bool cut_stretch(
        struct arena *mem, const struct stretch *s, const struct spots *hot, struct stretches *to)
{
	struct spot last = s->a;

	for (size_t i = first_at_x(hot, s->a.x), end = i; i < hot->count; i = end) {
		if (hot->items[i].x > s->b.x)
			break;
		while (end < hot->count && hot->items[end].x == hot->items[i].x)
			end++;
		for (size_t k = i; k < end; k++) {
			struct spot p = hot->items[s->b.y < s->a.y ? end - 1 - (k - i) : k];

			if (!runs_through(s, p) || spot_order(last, p) == 0)
				continue;
			if (!append_part(mem, to, *s, last, p))
				return false;
			last = p;
		}
	}
	return true;
}

static enum status refuse(struct spot at, struct error *err)
{
	char x[40], y[40];

	return error_set(err, STATUS_PLAN,
	        "edges near x %s, y %s lie too close together to be told apart; move a corner "
	        "there by 1 mm",
	        length_print(x, sizeof x, at.x, UNIT_M), length_print(y, sizeof y, at.y, UNIT_M));
}

enum status stretches_cut(struct arena *mem, struct stretches *s, struct error *err)
{
	struct spot near = { 0 };

	for (int round = 0; round < ROUNDS; round++) {
		struct spots hot = { 0 };
		struct stretches cut = { 0 };

		if (s->count)
			qsort(s->items, s->count, sizeof *s->items, by_first_end);
		if (!find_spots(mem, s, &hot))
			return error_memory(err);
		for (size_t i = 0; i < s->count; i++) {
			size_t before = cut.count;

			if (!cut_stretch(mem, &s->items[i], &hot, &cut))
				return error_memory(err);
			if (cut.count > before + 1)
				near = s->items[i].a;
		}
		if (cut.count == s->count)
			return STATUS_OK;
		*s = cut;
	}
	return refuse(near, err);
}
