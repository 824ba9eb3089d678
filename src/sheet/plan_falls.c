/* plan_falls.c - see plan_falls.h. */
#include "plan_falls.h"

#include "label.h"

#include <math.h>

static const double LONG_MM = 22, SHORT_MM = 12;

struct arrow {
	struct point tail, tip;
	double turn;
};

static struct arrow arrow_at(struct point at, int64_t toward_udeg, double long_mm)
{
	double turn = -(double)toward_udeg * acos(-1) / 180e6;
	double c = cos(turn) * long_mm / 2, s = sin(turn) * long_mm / 2;

	return (struct arrow){ { at.x - c, at.y - s }, { at.x + c, at.y + s }, turn };
}

/* The fall in words close to its arrow, all of it or only the first figure; else farther off, with
 * a line. */
static void name_fall(
        struct drawing *d, int64_t um_per_m, struct point at, const struct arrow *arrow)
{
	char fall[80], mm[40];
	struct label l = { .text = { .size = SIZE_BODY, .on_white = true },
		.at = at,
		.clear = 1.8,
		.reach = 5,
		.prefer = arrow->turn + acos(-1) / 2 };

	l.text.words = page_print(d, "%s", fall_print(fall, sizeof fall, um_per_m));
	if (label_place(d, &l))
		return;
	l.text.words = page_print(d, "%s mm/m", mm_print(mm, sizeof mm, um_per_m));
	if (label_place(d, &l))
		return;
	l.reach = 30;
	l.leader = true;
	label_place(d, &l);
}

/* In a free place within the part, with the fall in words beside it. */
static bool put_arrow(struct drawing *d, const struct view *v, const struct surface_part *part,
        struct point at, double long_mm)
{
	const struct plan_plane *plane = &d->t->plan.surface.planes[part->plane];
	struct arrow a = arrow_at(at, plane->toward_udeg, long_mm);
	struct patch line = patch_of_line(a.tail, a.tip, 3);

	if (!taken_free(&d->taken, &line, TAKEN_ANY) ||
	        !region_contains(&part->region, view_back(v, a.tail)) ||
	        !region_contains(&part->region, view_back(v, a.tip)))
		return false;
	taken_add(&d->taken, &line, TAKEN_LINE);
	page_line(d, a.tail,
	        (struct point){ a.tip.x - (a.tip.x - a.tail.x) * 0.15,
	                a.tip.y - (a.tip.y - a.tail.y) * 0.15 },
	        PEN_OUTLINE);
	page_arrow_head(d, a.tip, a.turn, long_mm / 5);
	name_fall(d, plane->fall_um_per_m, at, &a);
	return true;
}

/* From the middle of the part outward, a long arrow rather than a short one. */
static void draw_fall(struct drawing *d, const struct view *v, const struct surface_part *part)
{
	static const double net[] = { 0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1 };
	static const double sizes[] = { LONG_MM, SHORT_MM };
	struct box b = region_box(&part->region);

	if (!d->t->plan.surface.planes[part->plane].fall_um_per_m)
		return;
	for (int i = 0; i < 2 * 81; i++) {
		struct point at = { b.x0 + (b.x1 - b.x0) * net[i % 81 / 9],
			b.y0 + (b.y1 - b.y0) * net[i % 9] };

		if (put_arrow(d, v, part, view_point(v, at), sizes[i / 81]))
			return;
	}
}

static void draw_meeting(struct drawing *d, const struct view *v, const struct surface_line *line)
{
	struct point a = view_point(v, line->high), b = view_point(v, line->low);
	struct label words = {
		.text = { line_kind_name(line->kind), .size = SIZE_NOTE, .on_white = true },
		.at = { (a.x + b.x) / 2, (a.y + b.y) / 2 },
		.clear = 0.8,
		.reach = 12,
	};

	page_line(d, a, b, PEN_CHAIN);
	taken_add_line(&d->taken, a, b, TAKEN_LINE);
	if (line->kind != LINE_CHANGE)
		label_place(d, &words);
}

void draw_falls(struct drawing *d, const struct view *v)
{
	const struct surface_shape *shape = &d->t->surface.shape;

	for (size_t i = 0; i < shape->line_count; i++)
		draw_meeting(d, v, &shape->lines[i]);
	for (size_t i = 0; i < shape->part_count; i++)
		draw_fall(d, v, &shape->parts[i]);
}
