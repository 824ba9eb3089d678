/* leftover.c - what a cut slab leaves. */
#include "slabwright/cutplan.h"

#include <math.h>

struct point place_point(struct point p, const struct cut_place *place)
{
	struct point t = p;

	switch (place->turn) {
	case 90:
		t = (struct point){ -p.y, p.x };
		break;
	case 180:
		t = (struct point){ -p.x, -p.y };
		break;
	case 270:
		t = (struct point){ p.y, -p.x };
		break;
	}
	return (struct point){ t.x + place->at.x, t.y + place->at.y };
}

struct box place_box(const struct box *b, const struct cut_place *place)
{
	struct point p = place_point((struct point){ b->x0, b->y0 }, place),
	             q = place_point((struct point){ b->x1, b->y1 }, place);

	return (struct box){ fmin(p.x, q.x), fmin(p.y, q.y), fmax(p.x, q.x), fmax(p.y, q.y) };
}

/* A slab and what the blade must keep off: the boxes of its pieces, a kerf larger all round. */
struct cut_slab {
	const struct piece *pieces;
	const struct cut_source *source;
	double length, width, kerf;
};

static struct box taken(const struct cut_slab *s, int i)
{
	const struct cut_place *p = &s->source->place[i];
	struct box b = place_box(&s->pieces[p->piece].box, p);

	return (struct box){ b.x0 - s->kerf, b.y0 - s->kerf, b.x1 + s->kerf, b.y1 + s->kerf };
}

static double area_of(const struct box *b)
{
	return (b->x1 - b->x0) * (b->y1 - b->y0);
}

/* The highest gap between what is taken in the stretch from x0 to x1; each gap begins at the slab's
 * lower side or at the top of a piece. */
static struct box widest_gap(const struct cut_slab *s, double x0, double x1)
{
	struct box best = { x0, 0, x1, 0 };

	for (int i = -1; i < s->source->count; i++) {
		double low = i < 0 ? 0 : taken(s, i).y1, high = s->width;
		bool covered = false;

		for (int k = 0; k < s->source->count; k++) {
			struct box b = taken(s, k);

			if (b.x1 <= x0 || b.x0 >= x1)
				continue;
			covered = covered || (b.y0 < low && b.y1 > low);
			if (b.y0 >= low)
				high = fmin(high, b.y0);
		}
		if (!covered && high - low > best.y1 - best.y0)
			best = (struct box){ x0, low, x1, high };
	}
	return best;
}

struct box cut_leftover(
        const struct piece *pieces, const struct cut_stock *stock, const struct cut_source *source)
{
	struct cut_slab s = { pieces, source, (double)stock->length_um, (double)stock->width_um,
		(double)stock->kerf_um };
	struct box best = { 0, 0, 0, 0 };

	for (int i = -1; i < source->count; i++)
		for (int k = -1; k < source->count; k++) {
			double x0 = i < 0 ? 0 : taken(&s, i).x1;
			double x1 = k < 0 ? s.length : taken(&s, k).x0;
			struct box gap;

			if (x1 <= x0)
				continue;
			gap = widest_gap(&s, x0, x1);
			if (area_of(&gap) > area_of(&best))
				best = gap;
		}
	return best;
}
