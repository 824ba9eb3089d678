/* planter_shape.c - a planter's run: corners, legs, and whether it can stand at all. */
#include "planter_parts.h"

#include <math.h>

static const double STRAIGHT_DEG = 0.01, SQUARE_DEG = 0.25, SHARPEST_TURN_DEG = 135;

static const int64_t LEAST_LEG_UM = 1000;

struct point planter_point(const struct planter_result *r, size_t leg, double u_um, double v_um)
{
	const struct planter_leg *l = &r->legs[leg];
	const struct planter_corner *c = &r->corners[l->from];

	return (struct point){ (double)c->x_um + u_um * l->way_x - v_um * l->way_y,
		(double)c->y_um + u_um * l->way_y + v_um * l->way_x };
}

void planter_unit_ring(
        const struct planter_result *r, const struct planter_unit *unit, struct point out[4])
{
	const struct planter_leaf *leaf = &r->leaves[unit->leaf];

	out[0] = planter_point(r, unit->leg, unit->from_out_um, (double)leaf->v0_um);
	out[1] = planter_point(r, unit->leg, unit->to_out_um, (double)leaf->v0_um);
	out[2] = planter_point(r, unit->leg, unit->to_in_um, (double)leaf->v1_um);
	out[3] = planter_point(r, unit->leg, unit->from_in_um, (double)leaf->v1_um);
}

/* --- corners --- */

static bool runs_clockwise(const struct plan_planter *p)
{
	double twice = 0;

	for (size_t i = 1; i + 1 < p->count; i++) {
		const struct plan_point *o = &p->points[0], *a = &p->points[i],
		                        *b = &p->points[i + 1];

		twice += (double)(a->x_um - o->x_um) * (double)(b->y_um - o->y_um) -
		         (double)(b->x_um - o->x_um) * (double)(a->y_um - o->y_um);
	}
	return twice < 0;
}

static double turn_deg(
        const struct plan_point *a, const struct plan_point *b, const struct plan_point *c)
{
	double ax = (double)(b->x_um - a->x_um), ay = (double)(b->y_um - a->y_um);
	double bx = (double)(c->x_um - b->x_um), by = (double)(c->y_um - b->y_um);

	return atan2(ax * by - ay * bx, ax * bx + ay * by) * 180 / M_PI;
}

/* The plan's point that is number i of the run. */
static size_t point_of(const struct plan_planter *p, bool turned, size_t i)
{
	return turned && i ? p->count - i : i;
}

static void set_turn(struct planter_corner *c, double deg)
{
	c->turn_udeg = llround(deg * 1e6);
	c->turn = fabs(fabs(deg) - 90) <= SQUARE_DEG ? PLANTER_SQUARE : PLANTER_MITRE;
	c->half_tan = c->turn == PLANTER_SQUARE ? copysign(1, deg) : tan(deg * M_PI / 360);
}

static enum status too_sharp(struct planter_work *w, size_t point, double deg)
{
	return error_set(w->err, STATUS_PLAN,
	        "corner %zu: the legs meet at %.1f degrees; blocks cannot turn a corner sharper "
	        "than 45 degrees. Move the corner, or cut it off by a short leg",
	        point + 1, 180 - fabs(deg));
}

static enum status too_close(struct planter_work *w, size_t point)
{
	return error_set(w->err, STATUS_PLAN,
	        "corner %zu lies on the corner before it; delete one of them", point + 1);
}

static double distance_um(const struct plan_point *a, const struct plan_point *b)
{
	return hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
}

static enum status find_corners(struct planter_work *w)
{
	const struct plan_planter *p = w->p;
	struct planter_result *r = w->r;
	bool turned = p->closed && runs_clockwise(p);

	for (size_t i = 0; i < p->count; i++) {
		size_t point = point_of(p, turned, i);
		const struct plan_point
		        *at = &p->points[point],
		        *last = &p->points[point_of(p, turned, (i + p->count - 1) % p->count)],
		        *next = &p->points[point_of(p, turned, (i + 1) % p->count)];
		bool end = !p->closed && (i == 0 || i + 1 == p->count);
		struct planter_corner *c = &r->corners[r->corner_count];
		double deg = end ? 0 : turn_deg(last, at, next);

		if ((i || p->closed) && distance_um(last, at) < (double)LEAST_LEG_UM)
			return too_close(w, point);
		*c = (struct planter_corner){ .point = point, .x_um = at->x_um, .y_um = at->y_um };
		if (!end && fabs(deg) < STRAIGHT_DEG)
			continue;
		if (fabs(deg) > SHARPEST_TURN_DEG + 1e-6)
			return too_sharp(w, point, deg);
		if (!end)
			set_turn(c, deg);
		r->corner_count++;
	}
	return STATUS_OK;
}

/* --- legs --- */

static enum status refuse_leg(struct planter_work *w, const struct planter_leg *l, const char *why)
{
	const struct planter_result *r = w->r;

	return error_set(w->err, STATUS_PLAN,
	        "the leg from corner %zu to corner %zu is %.0f mm long and the wall %.0f mm wide: "
	        "%s; give a longer leg, a narrower block or one leaf",
	        r->corners[l->from].point + 1, r->corners[l->to].point + 1,
	        (double)l->length_um / 1000, (double)r->width_um / 1000, why);
}

static enum status find_legs(struct planter_work *w)
{
	struct planter_result *r = w->r;

	for (size_t i = 0; i < r->leg_count; i++) {
		struct planter_leg *l = &r->legs[i];
		const struct planter_corner *a = &r->corners[i],
		                            *b = &r->corners[(i + 1) % r->corner_count];
		double dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um),
		       length = hypot(dx, dy);

		*l = (struct planter_leg){ .from = i,
			.to = (i + 1) % r->corner_count,
			.length_um = llround(length),
			.way_x = dx / length,
			.way_y = dy / length };
		l->inside_um = length - (double)r->width_um * (a->half_tan + b->half_tan);
		if (l->length_um < r->width_um)
			return refuse_leg(w, l, "it is shorter than the wall is wide");
		if (l->inside_um <= 0)
			return refuse_leg(w, l, "nothing is left of its inside");
	}
	return STATUS_OK;
}

static void find_leaves(struct planter_work *w)
{
	struct planter_result *r = w->r;
	int64_t width = w->p->block.width_um, second = width + w->p->block.joint_um;

	r->leaf_count = (int)w->p->leaves;
	r->leaves[0] = (struct planter_leaf){ 0, width };
	r->leaves[1] = (struct planter_leaf){ second, second + width };
	r->width_um = r->leaves[r->leaf_count - 1].v1_um;
}

/* --- crossing itself --- */

struct side {
	struct point a, b;
	size_t leg;
	size_t ring, at; /* place in its ring, to know neighbours */
};

static double cross(struct point a, struct point b, struct point c)
{
	return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static bool meet(const struct side *s, const struct side *t)
{
	double a = cross(s->a, s->b, t->a), b = cross(s->a, s->b, t->b),
	       c = cross(t->a, t->b, s->a), d = cross(t->a, t->b, s->b);

	if (fmax(s->a.x, s->b.x) < fmin(t->a.x, t->b.x) ||
	        fmax(t->a.x, t->b.x) < fmin(s->a.x, s->b.x) ||
	        fmax(s->a.y, s->b.y) < fmin(t->a.y, t->b.y) ||
	        fmax(t->a.y, t->b.y) < fmin(s->a.y, s->b.y))
		return false;
	return a * b <= 0 && c * d <= 0;
}

static size_t put_sides(const struct planter_result *r, bool inner, size_t ring, size_t at,
        struct side *sides, size_t count)
{
	for (size_t i = 0; i < r->leg_count; i++) {
		const struct planter_leg *l = &r->legs[i];
		double v = inner ? (double)r->width_um : 0;

		sides[count++] = (struct side){ .leg = i,
			.ring = ring,
			.at = inner && !r->planter->closed ? at + r->leg_count - 1 - i : at + i,
			.a = planter_point(r, i, v * r->corners[l->from].half_tan, v),
			.b = planter_point(
			        r, i, (double)l->length_um - v * r->corners[l->to].half_tan, v) };
	}
	return count;
}

/* A closed wall has two rings; an open one has one, that goes round its ends. */
static size_t gather_sides(const struct planter_result *r, struct side *sides)
{
	bool closed = r->planter->closed;
	size_t n = put_sides(r, false, 0, 0, sides, 0);

	if (!closed)
		sides[n++] = (struct side){ planter_point(r, r->leg_count - 1,
			                            (double)r->legs[r->leg_count - 1].length_um, 0),
			planter_point(r, r->leg_count - 1,
			        (double)r->legs[r->leg_count - 1].length_um, (double)r->width_um),
			r->leg_count - 1, 0, r->leg_count };
	n = put_sides(r, true, closed ? 1 : 0, closed ? 0 : r->leg_count + 1, sides, n);
	if (!closed)
		sides[n++] = (struct side){ planter_point(r, 0, 0, (double)r->width_um),
			planter_point(r, 0, 0, 0), 0, 0, 2 * r->leg_count + 1 };
	return n;
}

static bool neighbours(const struct planter_result *r, const struct side *s, const struct side *t)
{
	size_t n = r->planter->closed ? r->leg_count : 2 * r->leg_count + 2;
	size_t apart = s->at > t->at ? s->at - t->at : t->at - s->at;

	return s->ring == t->ring && (apart <= 1 || apart + 1 >= n);
}

static enum status check_crossings(struct planter_work *w)
{
	const struct planter_result *r = w->r;
	struct side *sides = arena_alloc(w->mem, 2 * r->leg_count + 2, sizeof *sides);
	size_t n;

	if (!sides)
		return error_memory(w->err);
	n = gather_sides(r, sides);
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++)
			if (!neighbours(r, &sides[i], &sides[j]) && meet(&sides[i], &sides[j]))
				return error_set(w->err, STATUS_PLAN,
				        "the walls of the legs that leave corner %zu and corner "
				        "%zu "
				        "cross or touch; move a corner so that they come apart",
				        r->corners[r->legs[sides[i].leg].from].point + 1,
				        r->corners[r->legs[sides[j].leg].from].point + 1);
	return STATUS_OK;
}

static void find_inside(struct planter_work *w)
{
	struct planter_result *r = w->r;
	double v = (double)r->width_um, x0 = INFINITY, y0 = INFINITY, x1 = -INFINITY,
	       y1 = -INFINITY;

	r->middle_m = planter_line_um(r, v / 2) * 1e-6;
	for (size_t i = 0; r->planter->closed && i < r->leg_count; i++) {
		struct point p = planter_point(r, i, v * r->corners[i].half_tan, v);

		x0 = fmin(x0, p.x);
		x1 = fmax(x1, p.x);
		y0 = fmin(y0, p.y);
		y1 = fmax(y1, p.y);
	}
	if (r->planter->closed) {
		r->inside_x_um = x1 - x0;
		r->inside_y_um = y1 - y0;
	}
}

double planter_line_um(const struct planter_result *r, double v_um)
{
	double sum = 0;

	for (size_t i = 0; i < r->leg_count; i++)
		sum += (double)r->legs[i].length_um;
	for (size_t i = 0; i < r->corner_count; i++)
		sum -= 2 * v_um * r->corners[i].half_tan;
	return sum;
}

enum status planter_shape(struct planter_work *w)
{
	struct planter_result *r = w->r;
	enum status st;

	r->corners = arena_alloc(w->mem, w->p->count + 1, sizeof *r->corners);
	r->legs = arena_alloc(w->mem, w->p->count, sizeof *r->legs);
	if (!r->corners || !r->legs)
		return error_memory(w->err);
	find_leaves(w);
	if ((st = find_corners(w)) != STATUS_OK)
		return st;
	if (r->corner_count < (w->p->closed ? 3 : 2))
		return error_set(w->err, STATUS_PLAN,
		        "a closed planter needs three corners or more; this one is a line");
	r->leg_count = w->p->closed ? r->corner_count : r->corner_count - 1;
	if ((st = find_legs(w)) != STATUS_OK)
		return st;
	find_inside(w);
	return check_crossings(w);
}

/* --- where leaves end --- */

struct planter_bound planter_bound(
        const struct planter_work *w, size_t corner, bool leaving, bool odd, int leaf)
{
	const struct planter_corner *c = &w->r->corners[corner];
	const struct planter_leaf *l = &w->r->leaves[leaf];
	double joint = (double)w->p->block.joint_um, t = c->half_tan;
	struct planter_bound b = { .out_um = t * (double)l->v0_um, .in_um = t * (double)l->v1_um };
	bool own = (c->first_goes_on == odd) != leaving;
	double longest;

	if (c->turn == PLANTER_END) {
		b.end = true;
	} else if (c->turn == PLANTER_SQUARE) {
		/* Of the corner's square the side away from the leg, or toward it. */
		b.out_um = fmin(b.out_um, b.in_um);
		b.out_um += own ? 0 : (double)(l->v1_um - l->v0_um) + joint;
		b.in_um = b.out_um;
		b.corner = own;
		b.joint = !own;
	} else {
		double half = joint / 2 * sqrt(1 + t * t);

		b.out_um += half;
		b.in_um += half;
		b.mitre = true;
	}
	/* The longer side is a whole number of um. */
	longest = fmin(b.out_um, b.in_um);
	b.longest_um = (int64_t)ceil(longest - 1e-6);
	b.out_um += (double)b.longest_um - longest;
	b.in_um += (double)b.longest_um - longest;
	return b;
}
