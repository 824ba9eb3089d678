/* envelope.c - the highest or lowest of planes, and the steepest way down on it.
 *
 * Where planes of a max meet, every mean of their gradients is a subgradient, and water follows the
 * shortest of these: of one plane, between two (their valley), or none (a low point). On a min it
 * follows the steepest of the planes. */
#include "envelope.h"

#include <math.h>

/* Planes nearer than this in level are taken to meet at a point; falls under FLAT are none. */
static const double MEET_UM = 1e-3, FLAT = 1e-12;
enum { ACTIVE = 16 };
static const double PI = 3.14159265358979323846;

struct gradient gradient_of(const struct plan_plane *p)
{
	double fall = (double)p->fall_um_per_m * 1e-6;
	struct gradient g;

	turn_of(p->toward_udeg, &g.x, &g.y);
	g.x *= -fall;
	g.y *= -fall;
	g.level = (double)p->level_um - (g.x * (double)p->x_um + g.y * (double)p->y_um);
	return g;
}

double gradient_level(const struct gradient *g, struct point p)
{
	return g->x * p.x + g->y * p.y + g->level;
}

static double steepness(const struct gradient *g)
{
	return hypot(g->x, g->y);
}

bool planes_line(enum envelope envelope, const struct gradient *a, const struct gradient *b,
        struct meeting_line *out)
{
	double x = a->x - b->x, y = a->y - b->y, n = hypot(x, y),
	       way = envelope == ENVELOPE_MAX ? 1 : -1;

	if (n < FLAT)
		return false;
	out->across = (struct point){ way * x / n, way * y / n };
	out->offset_um = way * (b->level - a->level) / n;
	return true;
}

/* Where water crosses it goes on to the gentler plane of a max, to the steeper one of a min: that
 * puts the planes in an order in which no water comes back. */
enum meeting planes_meet(enum envelope envelope, const struct gradient *a, const struct gradient *b)
{
	struct meeting_line line;
	double up_a, up_b;
	bool down_to_b;

	if (!planes_line(envelope, a, b, &line))
		return MEET_NEVER;
	/* Uphill from a's side toward b's. */
	up_a = -(a->x * line.across.x + a->y * line.across.y);
	up_b = -(b->x * line.across.x + b->y * line.across.y);
	down_to_b = (steepness(a) > steepness(b)) == (envelope == ENVELOPE_MAX);
	if (up_a < -FLAT && up_b < -FLAT && down_to_b)
		return MEET_INTO_SECOND;
	if (up_a > FLAT && up_b > FLAT && !down_to_b)
		return MEET_INTO_FIRST;
	return envelope == ENVELOPE_MAX ? MEET_VALLEY : MEET_RIDGE;
}

/* Whether (x, y) is the shortest mean of the gradients: none of them lies on the near side. */
static bool shortest(const struct gradient *g, size_t n, double x, double y)
{
	for (size_t i = 0; i < n; i++)
		if (x * (g[i].x - x) + y * (g[i].y - y) < -FLAT)
			return false;
	return true;
}

/* The mean of two gradients that is nearest to level. */
static struct point nearest_mean(const struct gradient *a, const struct gradient *b)
{
	double dx = b->x - a->x, dy = b->y - a->y, n = dx * dx + dy * dy,
	       t = n > 0 ? -(a->x * dx + a->y * dy) / n : 0;

	t = fmin(fmax(t, 0), 1);
	return (struct point){ a->x + t * dx, a->y + t * dy };
}

static struct descent down_max(const struct gradient *g, const size_t *of, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (steepness(&g[i]) > FLAT && shortest(g, n, g[i].x, g[i].y))
			return (struct descent){ 1, of[i], of[i], -g[i].x, -g[i].y };
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++) {
			struct point m = nearest_mean(&g[i], &g[j]);

			if (hypot(m.x, m.y) > FLAT && shortest(g, n, m.x, m.y))
				return (struct descent){ 2, of[i], of[j], -m.x, -m.y };
		}
	return (struct descent){ .a = of[0], .b = of[0] };
}

static struct descent down_min(const struct gradient *g, const size_t *of, size_t n)
{
	size_t best = 0;

	for (size_t i = 1; i < n; i++)
		if (steepness(&g[i]) > steepness(&g[best]))
			best = i;
	return (struct descent){ steepness(&g[best]) > FLAT, of[best], of[best], -g[best].x,
		-g[best].y };
}

struct descent descent_at(
        enum envelope envelope, const struct gradient *planes, size_t count, struct point p)
{
	double way = envelope == ENVELOPE_MAX ? 1 : -1, best = -INFINITY;
	struct gradient active[ACTIVE];
	size_t of[ACTIVE], n = 0;

	for (size_t i = 0; i < count; i++)
		best = fmax(best, way * gradient_level(&planes[i], p));
	for (size_t i = 0; i < count && n < ACTIVE; i++)
		if (way * gradient_level(&planes[i], p) > best - MEET_UM) {
			active[n] = planes[i];
			of[n++] = i;
		}
	if (!n)
		return (struct descent){ 0 };
	return envelope == ENVELOPE_MAX ? down_max(active, of, n) : down_min(active, of, n);
}

double surface_level_um(const struct plan_surface *surface, double x_um, double y_um)
{
	double level = 0;

	for (size_t i = 0; i < surface->count; i++) {
		struct gradient g = gradient_of(&surface->planes[i]);
		double z = gradient_level(&g, (struct point){ x_um, y_um });

		if (i == 0 || (surface->envelope == ENVELOPE_MAX ? z > level : z < level))
			level = z;
	}
	return level;
}

/* Of more planes than fit, those that do not show there go out first. */
struct surface_fall surface_fall_at(const struct plan_surface *surface, double x_um, double y_um)
{
	struct point p = { x_um, y_um };
	double level = surface_level_um(surface, x_um, y_um), toward;
	struct gradient g[ACTIVE];
	size_t of[ACTIVE], n = 0;
	struct descent d;

	for (size_t i = 0; i < surface->count && n < ACTIVE; i++) {
		g[n] = gradient_of(&surface->planes[i]);
		of[n] = i;
		n += fabs(gradient_level(&g[n], p) - level) < MEET_UM;
	}
	if (!n)
		return (struct surface_fall){ 0 };
	d = descent_at(surface->envelope, g, n, p);
	toward = atan2(d.y, d.x) * 180 / PI;
	return (struct surface_fall){ .um_per_m = hypot(d.x, d.y) * 1e6,
		.toward_deg = toward < 0 ? toward + 360 : toward,
		.plane = of[d.a],
		.in_valley = d.planes == 2 };
}
