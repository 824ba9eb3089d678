/* walk.c - every slab of the paving, for drawing. */
#include "sheets.h"

#include <math.h>

static bool is_whole(const struct section *s, struct slab_spot spot)
{
	struct point corner = laid_corner(&s->laid, spot), size = laid_size(&s->laid, spot);
	size_t pieces;

	return !pieces_at(&s->laid, spot, &pieces) &&
	       region_contains(&s->frame_region,
	               (struct point){ corner.x + size.x / 2, corner.y + size.y / 2 });
}

/* Courses and slabs of one part of the repeat that can reach the box, which is turned as the
 * pattern's courses run. */
static void walk_part(
        const struct section *s, int part, const struct box *b, slab_fn *visit, void *context)
{
	const struct pattern *p = &s->laid.pattern;
	const struct pattern_part *k = &p->parts[part];
	double longest = (double)(k->length_um > k->width_um ? k->length_um : k->width_um);
	double step_x = (double)p->step_x_um, step_y = (double)p->step_y_um;
	int64_t last = (int64_t)ceil((b->y1 - (double)k->y_um) / step_y);

	for (int64_t c = (int64_t)floor((b->y0 - (double)k->y_um - longest) / step_y); c <= last;
	        c++) {
		double shift = pattern_shift(p, c) + (double)k->x_um;
		int64_t end = (int64_t)ceil((b->x1 - shift) / step_x);

		for (int64_t i = (int64_t)floor((b->x0 - shift - longest) / step_x); i <= end;
		        i++) {
			struct slab_spot spot = { part, c, i };

			if (is_whole(s, spot))
				visit(context, s, spot);
		}
	}
}

static void walk_random(const struct section *s, slab_fn *visit, void *context)
{
	for (size_t c = 0; c < s->laid.course_count; c++) {
		const struct random_course *course = &s->laid.courses[c];

		for (size_t i = 0; i < course->count; i++) {
			struct slab_spot spot = { course->size[i], course->number, (int64_t)i };

			if (is_whole(s, spot))
				visit(context, s, spot);
		}
	}
}

static void walk_section(const struct section *s, slab_fn *visit, void *context)
{
	struct box b;

	if (!s->paved || !s->frame_region.count)
		return;
	if (!s->laid.pattern.count) {
		walk_random(s, visit, context);
		return;
	}
	b = region_box(&s->frame_region);
	if (s->laid.pattern.along_y)
		b = (struct box){ b.y0, b.x0, b.y1, b.x1 };
	for (int k = 0; k < s->laid.pattern.count; k++)
		walk_part(s, k, &b, visit, context);
}

void whole_slabs(const struct takeoff *t, slab_fn *visit, void *context)
{
	for (size_t i = 0; i < t->laid.section_count; i++)
		walk_section(&t->laid.sections[i], visit, context);
}

/* On a curve sides bend: each in so many parts. */
enum { BENT_PARTS = 6 };

static struct ring corners_on_paper(struct drawing *d, const struct view *v,
        const struct section *s, struct point at, const struct point *p, size_t n)
{
	size_t parts = s->curved ? BENT_PARTS : 1;
	struct ring out = { arena_alloc(&d->page_mem, n * parts + 1, sizeof *out.p), 0, NULL };

	if (!out.p)
		page_fail_memory(d);
	for (size_t i = 0; out.p && i < n; i++)
		for (size_t k = 0; k < parts; k++) {
			double f = (double)k / (double)parts;
			struct point a = p[i], b = p[(i + 1) % n];

			out.p[out.n++] = view_point(v,
			        plan_from_section(s, (struct point){ at.x + a.x + (b.x - a.x) * f,
			                                     at.y + a.y + (b.y - a.y) * f }));
		}
	return out;
}

struct ring slab_on_paper(
        struct drawing *d, const struct view *v, const struct section *s, struct slab_spot spot)
{
	struct point size = laid_size(&s->laid, spot);

	return corners_on_paper(d, v, s, laid_corner(&s->laid, spot),
	        (struct point[]){ { 0, 0 }, { size.x, 0 }, { size.x, size.y }, { 0, size.y } }, 4);
}

struct ring *piece_on_paper(struct drawing *d, const struct view *v, const struct piece *p)
{
	const struct section *s = section_of_piece(&d->t->laid, p);
	struct point at = laid_corner(&s->laid, p->spot);
	struct ring *out = arena_alloc(&d->page_mem, p->shape.count + 1, sizeof *out);

	if (!out)
		page_fail_memory(d);
	for (size_t i = 0; out && i < p->shape.count; i++)
		out[i] = corners_on_paper(d, v, s, at, p->shape.rings[i].p, p->shape.rings[i].n);
	return out;
}
