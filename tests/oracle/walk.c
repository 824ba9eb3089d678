#include "walk.h"

#include <math.h>

static void start_course(struct walk *w)
{
	struct point zero =
	        pattern_corner(w->p, (struct slab_spot){ w->spot.part, w->spot.course, 0 });
	double step = (double)w->p->step_x_um,
	       from = w->p->along_y ? w->box.y0 - zero.y : w->box.x0 - zero.x;
	double to = w->p->along_y ? w->box.y1 - zero.y : w->box.x1 - zero.x;

	w->spot.index = (int64_t)floor(from / step) - 1;
	w->last_index = (int64_t)ceil(to / step);
}

struct walk walk_start(const struct pattern *p, struct box box)
{
	double from = p->along_y ? box.x0 : box.y0, to = p->along_y ? box.x1 : box.y1;
	struct walk w = { .p = p, .box = box };

	w.spot.course = (int64_t)floor(from / (double)p->step_y_um) - 4;
	w.last_course = (int64_t)ceil(to / (double)p->step_y_um) + 1;
	start_course(&w);
	return w;
}

bool walk_on(struct walk *w)
{
	if (++w->spot.index <= w->last_index)
		return true;
	if (++w->spot.part == w->p->count) {
		w->spot.part = 0;
		w->spot.course++;
	}
	start_course(w);
	return w->spot.course <= w->last_course;
}
