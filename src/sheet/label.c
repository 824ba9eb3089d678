/* label.c - finding a place for words: ring after ring of places round the point, the preferred way
 * first; the first that is free is taken. */
#include "label.h"

#include <math.h>

enum { WAYS = 16 };

static const double LEADER_FROM_MM = 3, STEP_MM = 1.5, MARGIN_MM = 0.3;

/* The text's box so far from the point that way. */
static struct patch patch_toward(
        const struct patch *text, struct point at, double way, double distance)
{
	struct point reach = patch_reach(text);
	double c = cos(way), s = sin(way);
	/* from the box's middle to its side along the way */
	double out = fmin(fabs(c) > 1e-9 ? reach.x / fabs(c) : INFINITY,
	        fabs(s) > 1e-9 ? reach.y / fabs(s) : INFINITY);
	struct patch p = *text;

	p.at.x = at.x + c * (distance + out);
	p.at.y = at.y + s * (distance + out);
	return p;
}

static bool on_region(const struct label *l, const struct patch *p)
{
	struct point corner[4];

	if (!l->off)
		return false;
	patch_corners(p, corner);
	if (region_contains(l->off, view_back(l->view, p->at)))
		return true;
	for (int i = 0; i < 4; i++)
		if (region_contains(l->off, view_back(l->view, corner[i])))
			return true;
	return false;
}

static struct point nearest_on_box(const struct patch *p, struct point at)
{
	struct point r = patch_reach(p);

	return (struct point){ fmax(p->at.x - r.x, fmin(at.x, p->at.x + r.x)),
		fmax(p->at.y - r.y, fmin(at.y, p->at.y + r.y)) };
}

struct leader {
	struct point from, to;
};

static struct leader leader_of(const struct label *l, const struct patch *p)
{
	struct leader line = { l->at, nearest_on_box(p, l->at) };
	double long_mm = hypot(line.to.x - line.from.x, line.to.y - line.from.y);

	if (l->gap > 0 && long_mm > l->gap) {
		line.from.x += (line.to.x - line.from.x) * l->gap / long_mm;
		line.from.y += (line.to.y - line.from.y) * l->gap / long_mm;
	}
	return line;
}

static bool leader_free(const struct drawing *d, const struct label *l, const struct patch *p)
{
	struct leader line = leader_of(l, p);
	struct patch thin = patch_of_line(line.from, line.to, 0.3);

	return taken_free(&d->taken, &thin, TAKEN_TEXT | TAKEN_AREA);
}

static bool fits(const struct drawing *d, const struct label *l, const struct patch *p, bool leader)
{
	const struct box *within = l->within.x1 > l->within.x0 ? &l->within : &d->frame;
	struct patch around = *p;

	around.along += MARGIN_MM, around.across += MARGIN_MM;
	return patch_within(p, within) && taken_free(&d->taken, &around, TAKEN_ANY) &&
	       !on_region(l, p) && (!leader || leader_free(d, l, p));
}

static void draw_leader(struct drawing *d, const struct label *l, const struct patch *p)
{
	struct leader line = leader_of(l, p);

	page_line(d, line.from, line.to, PEN_HAIR);
	if (!(l->gap > 0))
		page_disc(d, l->at, 0.3, 0);
	taken_add_line(&d->taken, line.from, line.to, TAKEN_LINE);
}

/* The boxes of a label's words, and of all of it. */
struct shape {
	struct text after_text;
	struct patch text, after, whole;
	double radius; /* of the circle; 0 none */
};

static struct shape shape_of(struct drawing *d, const struct label *l)
{
	struct shape s = { .text = text_patch(d, &l->text) };

	s.whole = s.text;
	if (!l->ringed)
		return s;
	s.radius = fmax(s.text.along, s.text.across) + 0.3;
	s.whole.along = s.whole.across = s.radius;
	if (!l->after)
		return s;
	s.after_text = (struct text){ l->after, .size = l->text.size, .on_white = true };
	s.after = text_patch(d, &s.after_text);
	s.whole.along += s.after.along + 0.3;
	return s;
}

static void draw_shape(struct drawing *d, const struct label *l, struct shape *s)
{
	s->text.at = s->whole.at;
	if (l->ringed) {
		struct patch circle;

		s->text.at.x -= s->whole.along - s->radius;
		circle = (struct patch){ s->text.at, s->radius, s->radius, 0 };
		page_disc(d, s->text.at, s->radius, 1);
		page_circle(d, s->text.at, s->radius, PEN_THIN);
		taken_add(&d->taken, &circle, TAKEN_AREA);
	}
	page_text_at(d, &l->text, &s->text);
	if (l->ringed && l->after) {
		s->after.at = s->whole.at;
		s->after.at.x += s->whole.along - s->after.along;
		page_text_at(d, &s->after_text, &s->after);
	}
}

bool label_place(struct drawing *d, const struct label *l)
{
	struct shape s = shape_of(d, l);

	for (double far = l->clear; far <= l->reach; far += STEP_MM)
		for (int i = 0; i < (l->ways ? l->ways : WAYS); i++) {
			/* 0, 1, -1, 2, -2 ... steps off the preferred way */
			int off = (i + 1) / 2 * (i % 2 ? 1 : -1);
			double way = l->prefer + off * 2 * acos(-1) / WAYS;
			bool leader = l->leader && far >= LEADER_FROM_MM;
			struct patch p = patch_toward(&s.whole, l->at, way, far);

			if (!fits(d, l, &p, leader))
				continue;
			s.whole = p;
			if (leader)
				draw_leader(d, l, &p);
			draw_shape(d, l, &s);
			return true;
		}
	return false;
}
