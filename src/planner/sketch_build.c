/* sketch_build.c - planters and flights of steps in the sketch, to scale. */
#include "actions.h"
#include "sketch.h"

#include <math.h>
#include <stdio.h>

static void outline(const struct sketch *s, const struct point *p, size_t count, bool closed,
        const struct stroke *stroke)
{
	for (size_t i = 0; i + (closed ? 0 : 1) < count; i++)
		sketch_stroke(s, p[i], p[(i + 1) % count], stroke);
}

/* Cells within a unit's four corners. */
static void fill_unit(const struct sketch *s, const struct point ring[4])
{
	double x0 = ring[0].x, x1 = x0, y0 = ring[0].y, y1 = y0;

	for (size_t i = 1; i < 4; i++) {
		x0 = fmin(x0, ring[i].x);
		x1 = fmax(x1, ring[i].x);
		y0 = fmin(y0, ring[i].y);
		y1 = fmax(y1, ring[i].y);
	}
	for (int row = sketch_row(s, y1); row <= sketch_row(s, y0); row++) {
		for (int col = sketch_col(s, x0); col <= sketch_col(s, x1); col++) {
			double x = sketch_x(s, col), y = sketch_y(s, row);
			bool in = true;

			for (size_t i = 0; i < 4 && in; i++) {
				struct point a = ring[i], b = ring[(i + 1) % 4];

				in = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x) >= 0;
			}
			if (in)
				sketch_mark(
				        s, row, col, glyph(s->app->ascii, GLYPH_CUT), STYLE_CUT);
		}
	}
}

/* Of the chosen planter: nothing, upright joints on its outer face, or each block. */
enum blocks_look { BLOCKS_NONE, BLOCKS_JOINTS, BLOCKS_RINGS };

static enum blocks_look blocks_look(const struct app *app, const struct planter_result *r)
{
	int64_t half = app->view.cell_um / 2;

	if (app->place != AT_PLANTERS || !r || !r->ready || r->planter->block.length_um < 4 * half)
		return BLOCKS_NONE;
	return r->planter->block.width_um >= 3 * half ? BLOCKS_RINGS : BLOCKS_JOINTS;
}

bool blocks_shown(const struct app *app)
{
	size_t at = planter_here(app);

	return at < app->t.planters.count &&
	       blocks_look(app, &app->t.planters.items[at]) != BLOCKS_NONE;
}

/* The blocks of the chosen planter, in the courses asked for. */
static void blocks(const struct sketch *s, const struct planter_result *r)
{
	bool even = s->app->even_courses && r->planter->courses > 1;
	const struct planter_course *c = &r->courses[even ? 1 : 0];
	struct stroke joint = stroke_plain(s->app->ascii, STYLE_STRONG);

	if (blocks_look(s->app, r) == BLOCKS_RINGS) {
		for (size_t i = 0; i < c->unit_count; i++) {
			struct point ring[4];

			planter_unit_ring(r, &c->units[i], ring);
			if (c->units[i].piece == UNIT_CUT)
				fill_unit(s, ring);
			outline(s, ring, 4, true, &joint);
		}
		return;
	}
	for (size_t i = 0; i < c->joint_count; i++) {
		struct point p = planter_point(r, c->joints[i].leg, c->joints[i].u_um, 0);

		if (c->joints[i].leaf == 0)
			sketch_mark(s, sketch_row(s, p.y), sketch_col(s, p.x), L'+', STYLE_KEY);
	}
}

/* The wall's faces; of one that cannot be built its run alone. */
static void planter(const struct sketch *s, size_t number)
{
	const struct plan_planter *plan = &s->app->plan.planters[number];
	const struct planter_result *r =
	        number < s->app->t.planters.count ? &s->app->t.planters.items[number] : NULL;
	bool here = s->app->place == AT_PLANTERS && number == planter_here(s->app);
	struct stroke face = stroke_plain(s->app->ascii, here ? STYLE_STRONG : STYLE_EDGE),
	              inner = stroke_plain(s->app->ascii, STYLE_QUIET);
	double x = 0, y = 0;
	char label[80];

	for (size_t i = 0; i < plan->count; i++) {
		const struct plan_point *a = &plan->points[i],
		                        *b = &plan->points[(i + 1) % plan->count];

		x += (double)a->x_um / (double)plan->count;
		y += (double)a->y_um / (double)plan->count;
		if (plan->closed || i + 1 < plan->count)
			sketch_stroke(s, (struct point){ (double)a->x_um, (double)a->y_um },
			        (struct point){ (double)b->x_um, (double)b->y_um }, &face);
	}
	for (size_t i = 0; r && r->ready && i < r->leg_count; i++) {
		double v = (double)r->width_um, from = r->corners[r->legs[i].from].half_tan * v,
		       to = (double)r->legs[i].length_um - r->corners[r->legs[i].to].half_tan * v;

		inner.under = true;
		sketch_stroke(s, planter_point(r, i, from, v), planter_point(r, i, to, v), &inner);
	}
	if (here && blocks_look(s->app, r) != BLOCKS_NONE)
		blocks(s, r);
	snprintf(label, sizeof label, "planter %zu", number + 1);
	sketch_label(s, sketch_row(s, y), sketch_col(s, x) - 4, label,
	        here ? STYLE_STRONG : STYLE_NUMBER);
}

/* Every nosing, and an arrow down. */
static void flight(const struct sketch *s, size_t number)
{
	const struct plan_steps *plan = &s->app->plan.steps[number];
	const struct flight *f =
	        number < s->app->t.steps.count ? &s->app->t.steps.flights[number] : NULL;
	bool here = s->app->place == AT_STEPS && number == flight_here(s->app);
	struct stroke stroke = stroke_plain(s->app->ascii, here ? STYLE_STRONG : STYLE_EDGE);
	double angle = (double)plan->toward_udeg / 1e6 * acos(-1) / 180, dx = cos(angle),
	       dy = sin(angle), half = (double)plan->width_um / 2, run;
	struct point corner[4];
	char label[80];

	run = f && !f->fault ? (double)f->run_um : (double)plan->going_um;
	for (size_t i = 0; i < 4; i++) {
		double side = i == 0 || i == 3 ? half : -half, along = i < 2 ? 0 : run;

		corner[i] = (struct point){ (double)plan->x_um + dx * along - dy * side,
			(double)plan->y_um + dy * along + dx * side };
	}
	outline(s, corner, 4, true, &stroke);
	for (int64_t k = 1; f && !f->fault && k + 1 < f->risers; k++) {
		double along = (double)(k * plan->going_um);

		sketch_stroke(s,
		        (struct point){ corner[0].x + dx * along, corner[0].y + dy * along },
		        (struct point){ corner[1].x + dx * along, corner[1].y + dy * along },
		        &stroke);
	}
	snprintf(label, sizeof label, "steps %zu down", number + 1);
	if (!sketch_label(s, sketch_row(s, (double)plan->y_um + dy * run / 2),
	            sketch_col(s, (double)plan->x_um + dx * run / 2) - 6, label,
	            here ? STYLE_STRONG : STYLE_NUMBER))
		sketch_label(s, sketch_row(s, (double)plan->y_um + dy * (run + 3e5)),
		        sketch_col(s, (double)plan->x_um + dx * (run + 3e5)) - 6, label,
		        here ? STYLE_STRONG : STYLE_NUMBER);
}

void build_draw(const struct sketch *s)
{
	for (size_t i = 0; i < s->app->plan.planter_count; i++)
		planter(s, i);
	for (size_t i = 0; i < s->app->plan.steps_count; i++)
		flight(s, i);
}
