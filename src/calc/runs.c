/* runs.c - a laying told course by course. */
#include "slabwright/lay.h"

#include <math.h>

struct telling {
	const struct laying *laid;
	const struct region *region;
	laid_run_fn *visit;
	void *context;
	struct laid_run whole; /* being gathered; first > last: none */
};

static void tell_whole(struct telling *t)
{
	if (t->whole.first <= t->whole.last)
		t->visit(t->context, &t->whole);
	t->whole = (struct laid_run){ .first = 1, .last = 0 };
}

static void tell_pieces(struct telling *t, const struct piece *pieces, size_t count)
{
	tell_whole(t);
	for (size_t i = 0; i < count; i++) {
		struct laid_run run = { pieces[i].spot.course, pieces[i].spot.index,
			pieces[i].spot.index, &pieces[i] };

		t->visit(t->context, &run);
	}
}

/* One position: its pieces, or one more whole slab, or nothing. */
static void tell_spot(struct telling *t, struct slab_spot spot)
{
	size_t count;
	const struct piece *pieces = pieces_at(t->laid, spot, &count);
	struct point corner, size;

	if (pieces) {
		tell_pieces(t, pieces, count);
		return;
	}
	corner = laid_corner(t->laid, spot);
	size = laid_size(t->laid, spot);
	if (!region_contains(
	            t->region, (struct point){ corner.x + size.x / 2, corner.y + size.y / 2 })) {
		tell_whole(t);
		return;
	}
	if (t->whole.first > t->whole.last)
		t->whole = (struct laid_run){ spot.course, spot.index, spot.index, NULL };
	t->whole.last = spot.index;
}

/* Rows of equal slabs: all positions that the region's box reaches. */
static void tell_rows(struct telling *t)
{
	const struct pattern *p = &t->laid->pattern;
	struct box b = region_box(t->region);
	double x0 = p->along_y ? b.y0 : b.x0, x1 = p->along_y ? b.y1 : b.x1;
	double y0 = p->along_y ? b.x0 : b.y0, y1 = p->along_y ? b.x1 : b.y1;
	double step_x = (double)p->step_x_um, step_y = (double)p->step_y_um;
	int64_t first = (int64_t)floor((y0 - (double)p->parts[0].y_um) / step_y) - 1;
	int64_t last = (int64_t)floor((y1 - (double)p->parts[0].y_um) / step_y) + 1;

	for (int64_t k = first; k <= last; k++) {
		double from = (double)p->parts[0].x_um + pattern_shift(p, k);

		for (int64_t i = (int64_t)floor((x0 - from) / step_x) - 1;
		        i <= (int64_t)floor((x1 - from) / step_x) + 1; i++)
			tell_spot(t, (struct slab_spot){ 0, k, i });
		tell_whole(t);
	}
}

static void tell_courses(struct telling *t)
{
	for (size_t k = 0; k < t->laid->course_count; k++) {
		const struct random_course *c = &t->laid->courses[k];

		for (size_t i = 0; i < c->count; i++)
			tell_spot(t, (struct slab_spot){ c->size[i], c->number, (int64_t)i });
		tell_whole(t);
	}
}

void laid_runs(const struct laying *laid, const struct region *frame_region, laid_run_fn *visit,
        void *context)
{
	struct telling t = { laid, frame_region, visit, context, { .first = 1, .last = 0 } };

	if (!frame_region->count)
		return;
	if (laid->course_count)
		tell_courses(&t);
	else if (laid->pattern.count == 1)
		tell_rows(&t);
	else
		tell_pieces(&t, laid->pieces, laid->piece_count);
}
