/* patch.c - see patch.h. */
#include "patch.h"

#include <math.h>
#include <string.h>

static const double CELL_MM = 8;

void taken_clear(struct taken *taken, struct arena *mem)
{
	memset(taken, 0, sizeof *taken);
	taken->mem = mem;
}

struct point patch_reach(const struct patch *p)
{
	double c = fabs(cos(p->turn)), s = fabs(sin(p->turn));

	return (struct point){ p->along * c + p->across * s, p->along * s + p->across * c };
}

void patch_corners(const struct patch *p, struct point out[4])
{
	static const int side[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
	double c = cos(p->turn), s = sin(p->turn);

	for (int i = 0; i < 4; i++) {
		double u = side[i][0] * p->along, v = side[i][1] * p->across;

		out[i] = (struct point){ p->at.x + u * c - v * s, p->at.y + u * s + v * c };
	}
}

/* Whether the axes of a part them. */
static bool axes_part(const struct patch *a, const struct patch *b)
{
	double dx = b->at.x - a->at.x, dy = b->at.y - a->at.y;
	double c = cos(a->turn), s = sin(a->turn);
	double rc = fabs(cos(b->turn - a->turn)), rs = fabs(sin(b->turn - a->turn));

	return fabs(dx * c + dy * s) >= a->along + b->along * rc + b->across * rs ||
	       fabs(dy * c - dx * s) >= a->across + b->along * rs + b->across * rc;
}

bool patches_touch(const struct patch *a, const struct patch *b)
{
	return !axes_part(a, b) && !axes_part(b, a);
}

bool patch_within(const struct patch *p, const struct box *box)
{
	struct point r = patch_reach(p);

	return p->at.x - r.x >= box->x0 && p->at.x + r.x <= box->x1 && p->at.y - r.y >= box->y0 &&
	       p->at.y + r.y <= box->y1;
}

struct patch patch_of_line(struct point a, struct point b, double width)
{
	return (struct patch){ { (a.x + b.x) / 2, (a.y + b.y) / 2 },
		hypot(b.x - a.x, b.y - a.y) / 2, width / 2, atan2(b.y - a.y, b.x - a.x) };
}

static int cell_of(double mm)
{
	double at = floor(mm / CELL_MM);

	return at < 0 ? 0 : at >= TAKEN_CELLS ? TAKEN_CELLS - 1 : (int)at;
}

struct span {
	int x0, x1, y0, y1;
};

static struct span cells_of(struct point at, struct point reach)
{
	return (struct span){ cell_of(at.x - reach.x), cell_of(at.x + reach.x),
		cell_of(at.y - reach.y), cell_of(at.y + reach.y) };
}

static bool add_link(struct taken *t, size_t item, size_t *first)
{
	struct taken_link *links =
	        arena_grow(t->mem, t->links, t->link_count, &t->link_room, sizeof *links);

	if (!links)
		return false;
	t->links = links;
	links[t->link_count] = (struct taken_link){ item, *first };
	*first = ++t->link_count;
	return true;
}

void taken_add(struct taken *t, const struct patch *patch, unsigned kind)
{
	struct taken_item *items = arena_grow(t->mem, t->items, t->count, &t->room, sizeof *items);
	struct point reach = patch_reach(patch);
	struct span s = cells_of(patch->at, reach);

	if (!items) {
		t->failed = true;
		return;
	}
	t->items = items;
	items[t->count] = (struct taken_item){ *patch, kind, reach };
	for (int x = s.x0; x <= s.x1; x++)
		for (int y = s.y0; y <= s.y1; y++)
			if (!add_link(t, t->count, &t->first[x][y]))
				t->failed = true;
	t->count++;
}

void taken_add_line(struct taken *t, struct point a, struct point b, unsigned kind)
{
	int parts = (int)fmin(ceil(hypot(b.x - a.x, b.y - a.y) / CELL_MM), 200);

	for (int i = 0; i < parts; i++) {
		double from = (double)i / parts, to = (double)(i + 1) / parts;
		struct patch p = patch_of_line(
		        (struct point){ a.x + (b.x - a.x) * from, a.y + (b.y - a.y) * from },
		        (struct point){ a.x + (b.x - a.x) * to, a.y + (b.y - a.y) * to }, 0.3);

		taken_add(t, &p, kind);
	}
}

static bool hits(
        const struct taken_item *item, const struct patch *p, struct point reach, unsigned kinds)
{
	return (item->kind & kinds) && fabs(item->patch.at.x - p->at.x) < item->reach.x + reach.x &&
	       fabs(item->patch.at.y - p->at.y) < item->reach.y + reach.y &&
	       patches_touch(&item->patch, p);
}

bool taken_free(const struct taken *t, const struct patch *p, unsigned kinds)
{
	struct point reach = patch_reach(p);
	struct span s = cells_of(p->at, reach);

	for (int x = s.x0; x <= s.x1; x++)
		for (int y = s.y0; y <= s.y1; y++)
			for (size_t i = t->first[x][y]; i; i = t->links[i - 1].next)
				if (hits(&t->items[t->links[i - 1].item], p, reach, kinds))
					return false;
	return true;
}
