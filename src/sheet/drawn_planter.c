/* drawn_planter.c - see drawn_planter.h. */
#include "drawn_planter.h"

#include "label.h"
#include "planters.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const double AROUND_MM = 13, HEAD_MM = 6, CAP_MM = 1.6, ABOVE_MM = 5, BELOW_MM = 12,
                    LEG_LEAST_MM = 56;

static void put_head(struct drawing *d, const struct box *room, const char *words)
{
	struct text t = { words, .size = SIZE_BODY, .bold = true, .room = room->x1 - room->x0 - 2 };

	page_text(d, &t, ALIGN_LEFT, room->x0 + 1, room->y0 + 0.5);
}

/* --- courses from above --- */

static struct box course_box(const struct planter_result *r)
{
	struct box b = { (double)r->corners[0].x_um, (double)r->corners[0].y_um,
		(double)r->corners[0].x_um, (double)r->corners[0].y_um };

	for (size_t i = 0; i < r->corner_count; i++)
		box_hold(&b, (double)r->corners[i].x_um, (double)r->corners[i].y_um);
	for (size_t i = 0; i < r->courses[0].unit_count; i++) {
		struct point p[4];

		planter_unit_ring(r, &r->courses[0].units[i], p);
		for (int k = 0; k < 4; k++)
			box_hold(&b, p[k].x, p[k].y);
	}
	return b;
}

/* u of a leg from end to end, with the other legs' blocks. */
static void leg_span(const struct planter_result *r, size_t leg, double *from, double *to)
{
	const struct planter_leg *l = &r->legs[leg];
	double wide = (double)(r->leaves[0].v1_um - r->leaves[0].v0_um);

	*from = fmin(0, wide * r->corners[l->from].half_tan);
	*to = (double)l->length_um - fmin(0, wide * r->corners[l->to].half_tan);
}

static double leg_bottom(const struct planter_result *r)
{
	return (double)(r->planter->base_um - r->planter->footing_depth_um);
}

int64_t planter_scale(struct drawing *d, const struct planter_result *r)
{
	struct box page = furniture_frame(d->width, d->height), b = course_box(r);

	return scale_fitting(&b, (page.x1 - page.x0) / 2 - 2 * AROUND_MM,
	        page.y1 - page.y0 - 2 * AROUND_MM - HEAD_MM);
}

/* Size of a leg's place, mm. */
static struct point leg_place(const struct planter_result *r, size_t leg, int64_t scale)
{
	double from, to;

	leg_span(r, leg, &from, &to);
	return (struct point){ fmax(scale_mm(scale, to - from) + 2 * AROUND_MM, LEG_LEAST_MM),
		scale_mm(scale, (double)r->top_um - leg_bottom(r)) + ABOVE_MM + BELOW_MM +
		        HEAD_MM };
}

/* Whether all legs stand on one page at that scale, put there as a shelf is filled. */
static bool legs_fit(struct drawing *d, const struct planter_result *r, int64_t scale, bool all)
{
	struct box page = furniture_frame(d->width, d->height);
	double w = page.x1 - page.x0, h = page.y1 - page.y0, x = 0, y = 0, row = 0;

	for (size_t i = 0; i < r->leg_count; i++) {
		struct point size = leg_place(r, i, scale);

		if (x + size.x > w || !all)
			x = 0, y += all ? row : 0, row = 0;
		x += size.x, row = fmax(row, size.y);
		if (size.x > w || y + row > h)
			return false;
	}
	return true;
}

int64_t planter_leg_scale(struct drawing *d, const struct planter_result *r)
{
	int64_t most = planter_scale(d, r);

	for (int64_t scale = scale_after(0); scale && scale < most; scale = scale_after(scale))
		if (legs_fit(d, r, scale, true))
			return scale;
	for (; scale_after(most) && !legs_fit(d, r, most, false);)
		most = scale_after(most);
	return most;
}

static void draw_unit(struct drawing *d, const struct view *v, const struct planter_result *r,
        const struct planter_unit *u)
{
	struct point p[4];
	struct ring ring = { p, 4, NULL };

	planter_unit_ring(r, u, p);
	for (int k = 0; k < 4; k++)
		p[k] = view_point(v, p[k]);
	if (u->corner || u->piece == UNIT_CUT)
		page_hatch(d, &ring, 1, 1.3, acos(-1) / 4, PEN_HAIR);
	if (u->piece == UNIT_CUT)
		page_hatch(d, &ring, 1, 1.3, -acos(-1) / 4, PEN_HAIR);
	page_path(d, p, 4, true, PEN_MEDIUM);
	for (int k = 0; k < 4; k++)
		taken_add_line(&d->taken, p[k], p[(k + 1) % 4], TAKEN_LINE);
}

/* Beside the wall, off its middle: a line leads in. */
static void name_unit(struct drawing *d, const struct view *v, const struct planter_result *r,
        const struct planter_unit *u)
{
	struct point p[4], outward;
	struct label l = { .text = { .size = SIZE_LEAST, .on_white = true },
		.clear = 0.8,
		.reach = 12,
		.leader = true };

	if (u->piece == UNIT_WHOLE)
		return;
	planter_unit_ring(r, u, p);
	for (int k = 0; k < 4; k++)
		p[k] = view_point(v, p[k]);
	l.at = (struct point){ (p[0].x + p[1].x + p[2].x + p[3].x) / 4,
		(p[0].y + p[1].y + p[2].y + p[3].y) / 4 };
	outward = (struct point){ p[0].x + p[1].x - 2 * l.at.x, p[0].y + p[1].y - 2 * l.at.y };
	l.prefer = atan2(outward.y, outward.x);
	l.text.words = u->piece == UNIT_HALF
	                       ? page_print(d, "H %s", tenth_words(d, (double)u->length_um))
	                       : tenth_words(d, (double)u->length_um);
	label_place(d, &l);
}

static void mark_ties(struct drawing *d, const struct view *v, const struct planter_result *r,
        const struct planter_course *c)
{
	for (size_t i = 0; i < c->tie_count; i++) {
		struct point p = view_point(v,
		        planter_point(r, c->ties[i].leg, c->ties[i].u_um, (double)r->width_um / 2));

		page_disc(d, p, 0.45, 0);
	}
}

static void name_corners(struct drawing *d, const struct view *v, const struct planter_result *r)
{
	for (size_t i = 0; i < r->corner_count; i++) {
		const struct planter_corner *c = &r->corners[i];
		struct label l = { .text = { page_print(d, "%zu", c->point + 1), .size = SIZE_NOTE,
			                   .bold = true },
			.at = view_point(v, (struct point){ (double)c->x_um, (double)c->y_um }),
			.clear = 1,
			.reach = 8,
			.leader = true,
			.gap = 0.4,
			.ringed = true };

		l.prefer = atan2(l.at.y - v->paper.y, l.at.x - v->paper.x);
		label_place(d, &l);
	}
}

static void dimension_legs(struct drawing *d, const struct view *v, const struct planter_result *r)
{
	for (size_t i = 0; i < r->leg_count; i++) {
		const struct planter_leg *l = &r->legs[i];
		struct point a = view_point(v, planter_point(r, i, 0, 0)),
		             b = view_point(v, planter_point(r, i, (double)l->length_um, 0));

		dimension_somewhere(d, a, b, 6, metre_words(d, (double)l->length_um));
	}
}

void planter_course_draw(struct shelf *shelf, const struct planter_result *r, int pattern)
{
	struct drawing *d = shelf->d;
	const struct planter_course *c = &r->courses[pattern];
	struct box b = course_box(r), page = furniture_frame(d->width, d->height), room;
	double w = scale_mm(shelf->view.scale, b.x1 - b.x0) + 2 * AROUND_MM,
	       h = scale_mm(shelf->view.scale, b.y1 - b.y0) + 2 * AROUND_MM + HEAD_MM;
	struct view v;

	room = shelf_take(shelf, fmin(fmax(w, 62), (page.x1 - page.x0) / 2), h);
	put_head(d, &room,
	        page_print(d, "%s courses from above (%" PRId64 " of them)", course_name(pattern),
	                c->times));
	room.y0 += HEAD_MM;
	d->frame = room;
	v = view_centred(shelf->view.scale, &b, &room);
	for (size_t i = 0; i < c->unit_count; i++)
		draw_unit(d, &v, r, &c->units[i]);
	mark_ties(d, &v, r, c);
	dimension_legs(d, &v, r);
	name_corners(d, &v, r);
	for (size_t i = 0; i < c->unit_count; i++)
		name_unit(d, &v, r, &c->units[i]);
}

/* --- legs from outside --- */

struct leg_view {
	struct drawing *d;
	const struct planter_result *r;
	size_t leg;
	struct view v;
	double from, to; /* u */
};

static struct point on_leg(const struct leg_view *k, double u, double z)
{
	return view_point(&k->v, (struct point){ u, z });
}

static void cross_out(const struct leg_view *k, double u0, double u1, double z0, double z1)
{
	page_line(k->d, on_leg(k, u0, z0), on_leg(k, u1, z1), PEN_HAIR);
	page_line(k->d, on_leg(k, u0, z1), on_leg(k, u1, z0), PEN_HAIR);
}

/* What the leg's own units leave of a course at either end is the other legs'. */
static void draw_course(const struct leg_view *k, int64_t number)
{
	const struct planter_result *r = k->r;
	const struct planter_course *c = planter_course(r, number);
	double z0 = (double)planter_course_um(r, number),
	       z1 = z0 + (double)r->planter->block.height_um, first = k->to, last = k->from;

	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];
		double a = u->from_out_um, b = u->to_out_um;
		struct point p[] = { on_leg(k, a, z0), on_leg(k, b, z0), on_leg(k, b, z1),
			on_leg(k, a, z1) };
		struct ring ring = { p, 4, NULL };

		if (u->leg != k->leg || u->leaf != 0)
			continue;
		first = fmin(first, a), last = fmax(last, b);
		if (u->piece == UNIT_CUT) {
			page_hatch(k->d, &ring, 1, 1.3, acos(-1) / 4, PEN_HAIR);
			page_hatch(k->d, &ring, 1, 1.3, -acos(-1) / 4, PEN_HAIR);
		}
		page_path(k->d, p, 4, true, PEN_THIN);
	}
	if (first - k->from > 1000)
		cross_out(k, k->from, first, z0, z1);
	if (k->to - last > 1000)
		cross_out(k, last, k->to, z0, z1);
	for (size_t i = 0; i < c->tie_count; i++)
		if (c->ties[i].leg == k->leg)
			page_disc(k->d, on_leg(k, c->ties[i].u_um, (z0 + z1) / 2), 0.5, 0);
}

static void draw_wall_around(const struct leg_view *k)
{
	struct drawing *d = k->d;
	const struct planter_result *r = k->r;
	double base = (double)r->planter->base_um, top = (double)r->top_um, low = leg_bottom(r);
	struct point wall[] = { on_leg(k, k->from, base), on_leg(k, k->to, base),
		on_leg(k, k->to, top), on_leg(k, k->from, top) };
	struct point foot[] = { on_leg(k, k->from, low), on_leg(k, k->to, low), wall[1], wall[0] };
	struct ring ring = { foot, 4, NULL };

	if (low < base) {
		page_hatch(d, &ring, 1, 1.6, -acos(-1) / 4, PEN_HAIR);
		page_path(d, foot, 4, true, PEN_THIN);
	}
	page_path(d, wall, 4, true, PEN_OUTLINE);
	taken_add(&d->taken,
	        &(struct patch){ { (wall[0].x + wall[1].x) / 2, (foot[0].y + wall[2].y) / 2 },
	                (wall[1].x - wall[0].x) / 2, (foot[0].y - wall[2].y) / 2, 0 },
	        TAKEN_AREA);
}

static void draw_cap(const struct leg_view *k)
{
	struct drawing *d = k->d;
	const struct planter_cap *c = &k->r->cap;
	double y = on_leg(k, 0, (double)k->r->top_um).y;

	for (size_t i = 0; i < c->piece_count; i++) {
		struct box b = { on_leg(k, c->pieces[i].from_um, 0).x, y - CAP_MM,
			on_leg(k, c->pieces[i].to_um, 0).x, y };

		if (c->pieces[i].leg == k->leg) {
			page_box(d, &b, PEN_MEDIUM);
			taken_add_line(&d->taken, (struct point){ b.x0, y - CAP_MM / 2 },
			        (struct point){ b.x1, y - CAP_MM / 2 }, TAKEN_LINE);
		}
	}
	for (size_t i = 0; i < c->fixing_count; i++)
		if (c->fixings[i].leg == k->leg) {
			struct point tip = { on_leg(k, c->fixings[i].u_um, 0).x, y - CAP_MM };

			page_arrow_head(d, tip, acos(-1) / 2, 1.8);
			taken_add_line(
			        &d->taken, (struct point){ tip.x, tip.y - 1.8 }, tip, TAKEN_LINE);
		}
}

static void draw_weeps(const struct leg_view *k)
{
	const struct planter_result *r = k->r;
	double z = (double)(r->planter->base_um + r->planter->block.height_um / 6);

	for (size_t i = 0; i < r->fill.weep_count; i++)
		if (r->fill.weeps[i].leg == k->leg) {
			struct point p = on_leg(k, r->fill.weeps[i].u_um, z);

			page_disc(k->d, p, 0.6, 1);
			page_circle(k->d, p, 0.6, PEN_MEDIUM);
		}
}

/* Of the finished surface along the leg, as far as it lies within the drawing. */
static void draw_surface(const struct leg_view *k)
{
	enum { PARTS = 24 };

	struct drawing *d = k->d;
	const struct planter_result *r = k->r;
	const struct planter_leg *l = &r->legs[k->leg];
	double low = leg_bottom(r), high = (double)r->top_um, last = NAN;
	struct point end = { 0, 0 };

	for (int i = 0; r->has_surface && i <= PARTS; i++) {
		double u = (double)l->length_um * i / PARTS;
		struct point p = planter_point(r, k->leg, u, 0), at;
		double z = surface_level_um(&d->t->plan.surface, p.x, p.y);
		bool inside = z >= low && z <= high;

		at = on_leg(k, u, z);
		if (inside && !isnan(last)) {
			page_line(d, end, at, PEN_DASHED);
			taken_add_line(&d->taken, end, at, TAKEN_LINE);
		}
		last = inside ? z : NAN;
		end = at;
		if (inside && i == PARTS)
			words_beside(d, at, mm_words(d, z), SIZE_LEAST, 0);
	}
}

static void name_courses(const struct leg_view *k)
{
	struct drawing *d = k->d;
	const struct planter_result *r = k->r;
	double pitch = scale_mm(
	        k->v.scale, (double)(r->planter->block.height_um + r->planter->block.joint_um));
	int64_t step = (int64_t)ceil(SIZE_LEAST * 1.5 / fmax(pitch, 0.01));

	for (int64_t c = 1; c <= r->planter->courses; c += step) {
		double z =
		        (double)planter_course_um(r, c) + (double)r->planter->block.height_um / 2;
		struct point p = on_leg(k, k->from, z);
		struct text t = { page_print(d, "%" PRId64, c), .size = SIZE_LEAST };

		page_text(d, &t, ALIGN_RIGHT, p.x - 1, p.y - SIZE_LEAST * 0.65);
	}
}

static void dimension_leg(const struct leg_view *k)
{
	struct drawing *d = k->d;
	const struct planter_result *r = k->r;
	double low = leg_bottom(r);

	dimension_somewhere(d, on_leg(k, 0, low), on_leg(k, (double)r->legs[k->leg].length_um, low),
	        5, metre_words(d, (double)r->legs[k->leg].length_um));
	dimension_somewhere(d, on_leg(k, k->to, (double)r->planter->base_um),
	        on_leg(k, k->to, (double)r->top_um), 8, mm_words(d, (double)r->height_um));
}

void planter_leg_draw(struct shelf *shelf, const struct planter_result *r, size_t leg)
{
	struct drawing *d = shelf->d;
	struct leg_view k = { .d = d, .r = r, .leg = leg };
	struct box b = { 0, leg_bottom(r), 0, (double)r->top_um }, room;
	struct point size = leg_place(r, leg, shelf->view.scale);

	leg_span(r, leg, &k.from, &k.to);
	b.x0 = k.from, b.x1 = k.to;
	room = shelf_take(shelf, size.x, size.y);
	put_head(d, &room,
	        page_print(d, "leg %zu, corner %zu to %zu", leg + 1,
	                r->corners[r->legs[leg].from].point + 1,
	                r->corners[r->legs[leg].to].point + 1));
	room.y0 += HEAD_MM;
	d->frame = room;
	room.y0 += ABOVE_MM, room.y1 -= BELOW_MM;
	k.v = view_centred(shelf->view.scale, &b, &room);
	draw_wall_around(&k);
	for (int64_t c = 1; c <= r->planter->courses; c++)
		draw_course(&k, c);
	draw_weeps(&k);
	draw_cap(&k);
	draw_surface(&k);
	name_courses(&k);
	dimension_leg(&k);
}
