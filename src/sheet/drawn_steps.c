/* drawn_steps.c - see drawn_steps.h. */
#include "drawn_steps.h"

#include "label.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const double AROUND_MM = 16, HEAD_MM = 5, PAVING_UM = 350e3, GROUND_UM = 350e3;

static bool is_built(const struct flight *f)
{
	return f->steps->build == STEPS_BUILT;
}

static double landing(const struct flight *f)
{
	return f->steps->landing_um ? fmin((double)f->steps->landing_um, 1.5e6) : GROUND_UM;
}

static struct box side_box(const struct sketch *k)
{
	const struct flight *f = k->f;
	struct box b = { fmin(k->unit_back, 0) - PAVING_UM, (double)f->bottom_um,
		(double)f->run_um + landing(f), (double)f->top_um };

	for (size_t i = 0; i < f->row_count; i++)
		box_hold(&b, 0, (double)f->rows[i].underside_um);
	return b;
}

static struct box plan_box_of(const struct sketch *k)
{
	const struct flight *f = k->f;
	double half = (double)(f->steps->width_um / 2 + f->steps->flank_um);

	return (struct box){ fmin(k->unit_back, 0) - PAVING_UM, -half,
		(double)f->run_um + landing(f), half };
}

static struct point on_side(const struct sketch *k, double s, double level)
{
	return view_point(&k->up, (struct point){ s, level });
}

/* --- elevation --- */

static void side_shape(
        struct sketch *k, double s0, double s1, double z0, double z1, double fall, bool hatched)
{
	struct drawing *d = k->d;
	struct point p[] = { on_side(k, s0, z0 + fall), on_side(k, s1, z0), on_side(k, s1, z1),
		on_side(k, s0, z1 + fall) };
	struct ring ring = { p, 4, NULL };

	page_fill(d, p, 4, 1);
	if (hatched)
		page_hatch(d, &ring, 1, 2.2, acos(-1) / 4, PEN_HAIR);
	page_path(d, p, 4, true, PEN_OUTLINE);
	for (int i = 0; i < 4; i++)
		taken_add_line(&d->taken, p[i], p[(i + 1) % 4], TAKEN_LINE);
}

/* Units reach back under the next; of a built flight riser pieces show with a tread on each. The
 * depth of a riser piece is not known: it is drawn as deep as a third of the going, open behind. */
static void draw_row(struct sketch *k, size_t i)
{
	const struct flight *f = k->f;
	const struct step_row *r = &f->rows[i];
	double fall = (double)f->steps->tread_fall_um_per_m / 1e6;
	double front = (double)r->front_um, back = (double)r->back_um;

	if (!is_built(f)) {
		double rise = fall * (front - back);

		side_shape(k, back, front, (double)r->underside_um, (double)r->top_um, rise, true);
		return;
	}
	side_shape(k, (double)r->face_um - (double)f->steps->going_um / 3, (double)r->face_um,
	        (double)r->underside_um, (double)r->top_um, 0, true);
	if (r->front_um != r->back_um)
		side_shape(k, back, front, (double)r->level_um - (double)f->steps->tread_um,
		        (double)r->level_um, fall * (front - back), false);
}

static void draw_grounds(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;
	struct box b = side_box(k);
	double thick = (double)d->t->plan.laying.slab.thickness_um;
	double back = is_built(f) ? 0 : (double)f->rows[f->row_count - 1].back_um;
	struct point low[] = { on_side(k, (double)f->run_um, (double)f->bottom_um),
		on_side(k, b.x1, (double)f->bottom_um) };

	if (back > b.x0)
		side_shape(k, b.x0, back, (double)f->top_um - thick, (double)f->top_um, 0, false);
	page_line(d, low[0], low[1], PEN_OUTLINE);
	taken_add_line(&d->taken, low[0], low[1], TAKEN_LINE);
	page_hatch(d,
	        &(struct ring){ (struct point[]){ low[0], low[1], { low[1].x, low[1].y + 1.6 },
	                                { low[0].x, low[0].y + 1.6 } },
	                4, NULL },
	        1, 1.1, acos(-1) / 4, PEN_HAIR);
}

static void dimension_side(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;
	struct box b = side_box(k);
	double right = b.x1, low = (double)f->bottom_um, least = b.y0;

	for (size_t i = 0; i < f->row_count; i++) {
		double level = (double)f->rows[i].level_um;

		dimension_somewhere(d, on_side(k, right, low), on_side(k, right, level), 4,
		        mm_words(d, (double)f->rows[i].riser_um));
		low = level;
	}
	dimension_somewhere(d, on_side(k, right, (double)f->bottom_um),
	        on_side(k, right, (double)f->top_um), 9,
	        page_print(d, "rise %s", mm_words(d, (double)f->rise_um)));
	for (int64_t i = 0; i + 1 < f->risers; i++) {
		double s = (double)(i * f->steps->going_um);

		dimension_somewhere(d, on_side(k, s, least),
		        on_side(k, s + (double)f->steps->going_um, least), 4,
		        mm_words(d, (double)f->steps->going_um));
	}
	if (f->run_um > 0)
		dimension_somewhere(d, on_side(k, 0, least), on_side(k, (double)f->run_um, least),
		        9, page_print(d, "run %s", mm_words(d, (double)f->run_um)));
}

static void name_rows(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;

	for (size_t i = 0; i < f->row_count; i++) {
		const struct step_row *r = &f->rows[i];
		double s = (double)((f->risers - 1 - (int64_t)i) * f->steps->going_um);
		struct label l = { .text = { page_print(d, "%zu", i + 1), .size = SIZE_NOTE,
			                   .bold = true },
			.at = on_side(k, s, (double)r->level_um),
			.clear = 1.2,
			.reach = 14,
			.leader = true,
			.gap = 0.4,
			.ringed = true,
			.after = mm_words(d, (double)r->level_um),
			.prefer = -acos(-1) / 3 };

		label_place(d, &l);
	}
	if (f->rows[0].sunk_um > 0)
		words_beside(d, on_side(k, (double)f->run_um, (double)f->rows[0].underside_um),
		        page_print(d, "sunk %s", mm_words(d, (double)f->rows[0].sunk_um)),
		        SIZE_NOTE, acos(-1) / 4);
	words_beside(d, on_side(k, (double)f->run_um + landing(f) / 2, (double)f->bottom_um),
	        page_print(d, "foot %s", mm_words(d, (double)f->bottom_um)), SIZE_NOTE,
	        -acos(-1) / 2);
}

/* --- plan --- */

/* A point of the plan in the flight's own frame, and that on paper. */
static struct point on_plan(const struct sketch *k, struct point p)
{
	const struct plan_steps *s = k->f->steps;
	double c, n, x = p.x - (double)s->x_um, y = p.y - (double)s->y_um;

	turn_of(s->toward_udeg, &c, &n);
	return view_point(&k->down, (struct point){ x * c + y * n, y * c - x * n });
}

static void draw_pieces(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;

	for (size_t i = f->piece_count; i-- > 0;) {
		const struct step_piece *piece = &f->pieces[i];
		struct point p[4];
		struct ring ring = { p, 4, NULL };

		for (int c = 0; c < 4; c++)
			p[c] = on_plan(k, piece->corner[c]);
		if (piece->cut)
			page_hatch(d, &ring, 1, 1.8, acos(-1) / 4, PEN_HAIR);
		page_path(d, p, 4, true, piece->tread || !is_built(f) ? PEN_MEDIUM : PEN_THIN);
	}
}

static void draw_sides(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;
	double half = (double)f->steps->width_um / 2, flank = (double)f->steps->flank_um;
	struct point a, b;

	for (int i = 0; i < f->risers; i++) {
		double s = (double)(i * f->steps->going_um);

		a = view_point(&k->down, (struct point){ s, half });
		b = view_point(&k->down, (struct point){ s, -half });
		page_line(d, a, b, PEN_OUTLINE);
	}
	for (int side = -1; side <= 1 && flank > 0; side += 2) {
		struct point p[] = { { 0, side * half }, { (double)f->run_um, side * half },
			{ (double)f->run_um, side * (half + flank) },
			{ 0, side * (half + flank) } };
		struct ring ring = { p, 4, NULL };

		for (int c = 0; c < 4; c++)
			p[c] = view_point(&k->down, p[c]);
		page_hatch(d, &ring, 1, 1.4, -acos(-1) / 4, PEN_HAIR);
		page_path(d, p, 4, true, PEN_MEDIUM);
	}
}

static void dimension_plan(struct sketch *k)
{
	struct drawing *d = k->d;
	const struct flight *f = k->f;
	struct box b = plan_box_of(k);
	double half = (double)f->steps->width_um / 2, middle = (double)f->run_um / 2;
	struct point tail = view_point(&k->down, (struct point){ 0, 0 }),
	             tip = view_point(
	                     &k->down, (struct point){ (double)f->run_um + GROUND_UM / 2, 0 });

	page_line(d, tail, tip, PEN_THIN);
	page_disc(d, tail, 0.6, 0);
	page_arrow_head(d, tip, 0, 3);
	taken_add_line(&d->taken, tail, tip, TAKEN_LINE);
	dimension_somewhere(d, view_point(&k->down, (struct point){ b.x1, -half }),
	        view_point(&k->down, (struct point){ b.x1, half }), 4,
	        mm_words(d, (double)f->steps->width_um));
	words_beside(d, tip, "down", SIZE_NOTE, 0);
	if (f->steps->flank_um)
		words_beside(d, view_point(&k->down, (struct point){ middle, half }),
		        page_print(d, "flank %s", mm_words(d, (double)f->steps->flank_um)),
		        SIZE_NOTE, -acos(-1) / 2);
}

/* --- both --- */

static void put_caption(struct drawing *d, const char *words, const struct box *room)
{
	struct text t = { words, .size = SIZE_BODY, .bold = true };

	page_text(d, &t, ALIGN_LEFT, room->x0 + 1, room->y0 + 1);
}

void sketch_elevation(struct sketch *k)
{
	put_caption(k->d, "side elevation", &k->up_room);
	draw_grounds(k);
	for (size_t i = 0; i < k->f->row_count; i++)
		draw_row(k, i);
	dimension_side(k);
	name_rows(k);
}

void sketch_plan(struct sketch *k)
{
	put_caption(k->d, "plan", &k->down_room);
	draw_pieces(k);
	draw_sides(k);
	dimension_plan(k);
}

static struct view view_under_head(int64_t scale, const struct box *shown, struct box room)
{
	room.y0 += HEAD_MM;
	return view_centred(scale, shown, &room);
}

void sketch_set_up(
        struct sketch *k, struct drawing *d, const struct flight *f, const struct box *room)
{
	double w = room->x1 - room->x0 - 2 * AROUND_MM, h = room->y1 - room->y0;
	struct box up, down;
	int64_t both, alone;

	*k = (struct sketch){ .d = d, .f = f, .up_room = *room, .down_room = *room };
	for (size_t r = 0; r < f->row_count; r++)
		k->unit_back = fmin(k->unit_back, (double)f->rows[r].back_um);
	up = side_box(k), down = plan_box_of(k);
	both = scale_fitting(&(struct box){ 0, 0, fmax(up.x1 - up.x0, down.x1 - down.x0),
	                             up.y1 - up.y0 + down.y1 - down.y0 },
	        w, h - 4 * AROUND_MM - 2 * HEAD_MM);
	alone = scale_fitting(&up, w, h - 2 * AROUND_MM - HEAD_MM);
	k->together = both == alone;
	if (k->together)
		k->up_room.y1 = k->down_room.y0 =
		        room->y0 + scale_mm(both, up.y1 - up.y0) + 2 * AROUND_MM + HEAD_MM;
	k->up = view_under_head(alone, &up, k->up_room);
	k->down = view_under_head(both, &down, k->down_room);
	k->down.paper.x = k->up.paper.x;
}

void sketch_plan_alone(struct sketch *k, const struct box *room)
{
	struct box shown = plan_box_of(k);

	k->down_room = *room;
	k->down = view_under_head(scale_fitting(&shown, room->x1 - room->x0 - 2 * AROUND_MM,
	                                  room->y1 - room->y0 - 2 * AROUND_MM - HEAD_MM),
	        &shown, *room);
}
