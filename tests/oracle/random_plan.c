#include "random_plan.h"

#include <math.h>
#include <stdlib.h>

static struct plan_ring ring_of(struct arena *mem, size_t n)
{
	return (struct plan_ring){ arena_alloc(mem, n, sizeof(struct plan_node)), n, true };
}

/* Corners at growing angles about a centre: never crosses itself. */
static struct plan_ring star(struct arena *mem, struct chance *c, size_t n, double cx, double cy,
        double least, double most)
{
	struct plan_ring r = ring_of(mem, n);

	for (size_t i = 0; i < n; i++) {
		double a = 2 * M_PI * ((double)i + chance_real(c, 0.05, 0.95)) / (double)n;
		double d = chance_real(c, least, most);

		r.nodes[i] = (struct plan_node){ .x_um = llround(cx + d * cos(a)),
			.y_um = llround(cy + d * sin(a)),
			.kind = (enum edge_kind)chance_int(c, 0, EDGE_KINDS - 1) };
	}
	return r;
}

/* A skyline over a straight base, on a grid that often coincides with slab edges. */
static struct plan_ring skyline(struct arena *mem, struct chance *c, size_t steps)
{
	struct plan_ring r = ring_of(mem, 2 * steps + 2);
	int64_t grid = (int64_t[]){ 1000, 50000, 150000, 300000 }[chance_int(c, 0, 3)];
	int64_t x = 0, reach = 9000000 / (int64_t)steps / grid, low = 1000000 / grid,
	        high = 8000000 / grid, y = 0;
	size_t n = 0;

	r.nodes[n++] = (struct plan_node){ .x_um = 0, .y_um = 0 };
	for (size_t i = 0; i < steps; i++) {
		int64_t was = y;

		do
			y = chance_int(c, low > 0 ? low : 1, high) * grid;
		while (y == was);
		r.nodes[n++] = (struct plan_node){ .x_um = x, .y_um = y };
		x += chance_int(c, 1, reach > 1 ? reach : 1) * grid;
		r.nodes[n++] = (struct plan_node){ .x_um = x, .y_um = y };
	}
	r.nodes[n++] = (struct plan_node){ .x_um = x, .y_um = 0 };
	return r;
}

static struct plan_ring box_ring(struct arena *mem, int64_t x, int64_t y, int64_t w, int64_t h)
{
	struct plan_ring r = ring_of(mem, 4);

	for (int i = 0; i < 4; i++)
		r.nodes[i] = (struct plan_node){ .x_um = x + (i == 1 || i == 2 ? w : 0),
			.y_um = y + (i > 1 ? h : 0),
			.kind = EDGE_OPEN };
	return r;
}

static void bend(struct chance *c, struct plan_ring *r)
{
	for (size_t i = 0; i < r->count; i++) {
		struct plan_node *a = &r->nodes[i], *b = &r->nodes[(i + 1) % r->count];
		double chord = hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));

		if (chance_int(c, 0, 2) == 0)
			a->rise_um = llround(chord * chance_real(c, -0.2, 0.4));
	}
}

struct plan_laying random_laying(struct chance *c, int64_t spread_um)
{
	static const int64_t sizes[][2] = { { 600, 300 }, { 600, 600 }, { 450, 450 }, { 900, 600 },
		{ 400, 400 }, { 300, 300 }, { 215, 103 }, { 200, 100 }, { 333, 250 } };
	static const double offsets[] = { 0, 0.5, 1.0 / 3, 0.25, 2.0 / 3, 0.2 };
	static const int64_t turns[] = { 0, 0, 90, 45, 180, 270, 30, -17 };
	const int64_t *size = sizes[chance_int(c, 0, 8)];
	struct plan plan;
	struct plan_laying l;

	plan_init(&plan);
	l = plan.laying;
	l.slab.length_um = size[0] * UM_PER_MM;
	l.slab.width_um = size[1] * UM_PER_MM;
	l.slab.joint_um = chance_int(c, 0, 10) * UM_PER_MM;
	l.slab.size = chance_int(c, 0, 1) ? SIZE_WORK : SIZE_COORDINATING;
	l.slab.directional = chance_int(c, 0, 4) == 0;
	l.bond = chance_int(c, 0, 1) ? BOND_STRETCHER : BOND_STACK;
	l.offset = offsets[chance_int(c, 0, 5)];
	l.rotation_udeg = chance_int(c, 0, 3) ? turns[chance_int(c, 0, 7)] * UDEG_PER_DEG
	                                      : chance_int(c, -180000000, 180000000);
	/* On a skewed pattern whose start is a corner of the outline, a corner can lie on a slab's
	 * side but for the rounding of the turn, and whether two parts hang together there is
	 * anyone's guess: not asked. */
	if (chance_int(c, 0, 2) || l.rotation_udeg % (90 * UDEG_PER_DEG)) {
		l.start_x_um = chance_int(c, -spread_um, spread_um);
		l.start_y_um = chance_int(c, -spread_um, spread_um);
	}
	return l;
}

static struct repeat_slab pinwheel[] = { { 0, 0, 400000, 400000 }, { 400000, 0, 200000, 200000 } };
static struct repeat_slab two_by_side[] = { { 0, 0, 600000, 600000 }, { 600000, 0, 300000, 300000 },
	{ 600000, 300000, 300000, 300000 } };
static struct repeat_slab three_sizes[] = { { 0, 0, 400000, 600000 }, { 400000, 0, 400000, 400000 },
	{ 400000, 400000, 400000, 200000 } };
static const struct plan_repeat repeats[] = {
	{ "pinwheel", 1000000, 200000, 400000, pinwheel, 2 },
	{ "one beside two", 900000, 600000, 300000, two_by_side, 3 },
	{ "three sizes", 800000, 600000, 200000, three_sizes, 3 },
};
static struct mix_size mix[] = { { 600000, 400000, 4 }, { 400000, 400000, 4 },
	{ 250000, 400000, 3 }, { 600000, 200000, 3 }, { 350000, 200000, 3 },
	{ 200000, 200000, 2 } };

void random_bond(struct chance *c, struct plan_laying *l, int choice)
{
	static const int64_t widths[] = { 100000, 103000, 150000, 300000 };
	int64_t w = widths[chance_int(c, 0, 3)];

	if (choice == 1) {
		l->bond = BOND_STRETCHER;
		l->along = ALONG_Y;
	}
	if (choice == 5) {
		l->bond = BOND_MIXED;
		l->repeat = repeats[chance_int(c, 0, 2)];
	}
	if (choice == 6) {
		l->bond = BOND_COURSED_RANDOM;
		l->mix = (struct plan_mix){ chance_int(c, 1, 1000000), mix, 6 };
	}
	if (choice < 2 || choice > 4)
		return;
	l->bond = choice == 2 ? BOND_HERRINGBONE : BOND_BASKETWEAVE;
	l->slab.size = SIZE_COORDINATING;
	l->slab.width_um = w;
	l->slab.length_um = choice == 4 ? 3 * w : 2 * w;
}

struct plan random_plan(struct arena *mem, struct chance *c, enum outline_style style)
{
	for (;;) {
		struct plan p;
		size_t openings = style == STYLE_OPENINGS ? (size_t)chance_int(c, 1, 4) : 0;

		plan_init(&p);
		p.rings = arena_alloc(mem, 1 + openings, sizeof *p.rings);
		if (style == STYLE_RECTILINEAR || (style == STYLE_OPENINGS && chance_int(c, 0, 1)))
			p.rings[0] = skyline(mem, c, (size_t)chance_int(c, 1, 6));
		else
			p.rings[0] = star(mem, c, (size_t)chance_int(c, 3, 24), 0, 0, 1.2e6, 5e6);
		if (style == STYLE_ARCS)
			bend(c, &p.rings[0]);
		for (p.ring_count = 1; p.ring_count <= openings; p.ring_count++) {
			int64_t x = chance_int(c, -4000, 8000) * UM_PER_MM,
			        y = chance_int(c, -4000, 6000) * UM_PER_MM;

			if (chance_int(c, 0, 1))
				p.rings[p.ring_count] =
				        box_ring(mem, x, y, chance_int(c, 30, 1200) * UM_PER_MM,
				                chance_int(c, 30, 1200) * UM_PER_MM);
			else
				p.rings[p.ring_count] = star(mem, c, (size_t)chance_int(c, 3, 8),
				        (double)x, (double)y, 5e4, 6e5);
		}
		p.laying = random_laying(c, 700000);
		if (outline_check(&p, NULL) == STATUS_OK)
			return p;
	}
}

static const struct plan_node *any_corner(struct chance *c, const struct plan *plan)
{
	const struct plan_ring *r = &plan->rings[chance_int(c, 0, (int64_t)plan->ring_count - 1)];

	return &r->nodes[chance_int(c, 0, (int64_t)r->count - 1)];
}

static struct plan_ring box_on_corners(struct arena *mem, struct chance *c, const struct plan *plan)
{
	int64_t x0 = any_corner(c, plan)->x_um, x1 = any_corner(c, plan)->x_um,
	        y0 = any_corner(c, plan)->y_um, y1 = any_corner(c, plan)->y_um;

	if (chance_int(c, 0, 3) == 0)
		y1 += chance_int(c, -3000, 3000) * UM_PER_MM;
	return box_ring(mem, x0, y0, x1 - x0, y1 - y0);
}

static struct plan_ring changed_outline(
        struct arena *mem, struct chance *c, const struct plan *plan)
{
	const struct plan_ring *from = &plan->rings[0];
	struct plan_ring r = ring_of(mem, from->count);

	r.count = 0;
	for (size_t i = 0; i < from->count; i++) {
		struct plan_node n = from->nodes[i];
		const struct plan_node *next = &from->nodes[(i + 1) % from->count];
		double part = chance_real(c, 0.05, 0.95);
		int64_t choice = chance_int(c, 0, 9);

		if (choice == 0)
			continue;
		if (choice == 1 && n.rise_um == 0) {
			n.x_um += llround((double)(next->x_um - n.x_um) * part);
			n.y_um += llround((double)(next->y_um - n.y_um) * part);
		}
		if (choice == 2) {
			n.x_um += chance_int(c, -500000, 500000);
			n.y_um += chance_int(c, -500000, 500000);
		}
		r.nodes[r.count++] = n;
	}
	return r;
}

struct plan_ring random_zone(
        struct arena *mem, struct chance *c, const struct plan *plan, enum zone_style style)
{
	for (;;) {
		struct plan_zone zone = { .name = "" };
		struct plan alone = { .zones = &zone, .zone_count = 1 };
		const struct plan_node *near = any_corner(c, plan);

		if (style == ZONE_BOX)
			zone.ring = box_on_corners(mem, c, plan);
		else if (style == ZONE_OUTLINE)
			zone.ring = changed_outline(mem, c, plan);
		else
			zone.ring = star(mem, c, (size_t)chance_int(c, 3, 12),
			        (double)near->x_um + chance_real(c, -2e6, 2e6),
			        (double)near->y_um + chance_real(c, -2e6, 2e6), 2e5, 3e6);
		if (style == ZONE_ARCS)
			bend(c, &zone.ring);
		if (zone_rings_check(&alone, NULL) == STATUS_OK)
			return zone.ring;
	}
}

void random_add_zone(struct arena *mem, struct chance *c, struct plan *plan)
{
	struct plan_zone *zones = arena_alloc(mem, plan->zone_count + 1, sizeof *zones);
	int64_t step = chance_int(c, 0, 1) ? 300000 : 1000;
	int64_t x = chance_int(c, -4000000 / step, 9000000 / step) * step;
	int64_t y = chance_int(c, -4000000 / step, 9000000 / step) * step;
	int64_t w = chance_int(c, 400000 / step, 5000000 / step) * step;
	int64_t h = chance_int(c, 400000 / step, 4000000 / step) * step;
	int64_t slant = chance_int(c, 0, 2) ? 0 : chance_int(c, 0, 500) * 1000;
	struct plan_zone *z;

	for (size_t i = 0; i < plan->zone_count; i++)
		zones[i] = plan->zones[i];
	z = &zones[plan->zone_count];
	zone_init(z);
	z->ring.nodes = arena_alloc(mem, 4, sizeof *z->ring.nodes);
	z->ring.count = 4;
	for (int i = 0; i < 4; i++) {
		z->ring.nodes[i].x_um = x + (i == 1 || i == 2 ? w : 0) + (i > 1 ? slant : 0);
		z->ring.nodes[i].y_um = y + (i > 1 ? h : 0);
	}
	z->laying = random_laying(c, 3000000);
	random_bond(c, &z->laying, (int)chance_int(c, 0, BOND_CHOICES - 1));
	z->paved = chance_int(c, 0, 4) > 0;
	plan->zones = zones;
	plan->zone_count++;
}

void random_add_borders(struct arena *mem, struct chance *c, struct plan *plan)
{
	plan->borders = arena_alloc(mem, 2, sizeof *plan->borders);
	plan->border_count = 2;
	for (int i = 0; i < 2; i++) {
		struct plan_border *b = &plan->borders[i];

		border_init(b);
		b->lay = chance_int(c, 0, 1) ? BORDER_SOLDIER : BORDER_STRETCHER;
		b->corners = chance_int(c, 0, 1) ? CORNER_MITRED : CORNER_BUTTED;
		b->slab.length_um = chance_int(c, 10, 30) * 10000;
		b->slab.width_um = chance_int(c, 5, 10) * 10000;
	}
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++)
			plan->rings[i].nodes[j].border = chance_int(c, 0, 2);
}

struct plan random_scribble(struct arena *mem, struct chance *c, size_t n, int64_t size_um)
{
	struct plan p;

	plan_init(&p);
	p.rings = arena_alloc(mem, 1, sizeof *p.rings);
	p.ring_count = 1;
	p.rings[0] = ring_of(mem, n);
	for (size_t i = 0; i < n; i++)
		p.rings[0].nodes[i] =
		        (struct plan_node){ .x_um = chance_int(c, 0, size_um / 10000) * 10000,
			        .y_um = chance_int(c, 0, size_um / 10000) * 10000 };
	return p;
}

struct plan round_plan(struct arena *mem, size_t corners, double area_m2, struct chance *c)
{
	struct plan p;
	double radius = sqrt(area_m2 / M_PI) * 1e6;

	plan_init(&p);
	p.rings = arena_alloc(mem, 1, sizeof *p.rings);
	p.ring_count = 1;
	p.rings[0] = star(mem, c, corners, 0, 0, radius * 0.85, radius * 1.15);
	return p;
}

static GEOSGeometry *linear_ring(GEOSContextHandle_t g, const struct point *p, size_t n)
{
	GEOSCoordSequence *s = GEOSCoordSeq_create_r(g, (unsigned)n + 1, 2);

	for (size_t i = 0; i <= n; i++)
		GEOSCoordSeq_setXY_r(g, s, (unsigned)i, p[i % n].x / 1000, p[i % n].y / 1000);
	return GEOSGeom_createLinearRing_r(g, s);
}

GEOSGeometry *geos_polygon(GEOSContextHandle_t g, const struct point *p, size_t n)
{
	return GEOSGeom_createPolygon_r(g, linear_ring(g, p, n), NULL, 0);
}

GEOSGeometry *geos_region(GEOSContextHandle_t g, const struct region *region)
{
	GEOSGeometry *holes[64];

	for (size_t i = 1; i < region->count; i++)
		holes[i - 1] = linear_ring(g, region->rings[i].p, region->rings[i].n);
	return GEOSGeom_createPolygon_r(g, linear_ring(g, region->rings[0].p, region->rings[0].n),
	        holes, (unsigned)region->count - 1);
}

GEOSGeometry *geos_parts(GEOSContextHandle_t g, const struct region *region)
{
	GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r(g);

	for (int holes = 0; holes < 2; holes++)
		for (size_t i = 0; i < region->count; i++) {
			const struct ring *r = &region->rings[i];
			GEOSGeometry *ring, *next;

			if ((ring_polygon_area(r->p, r->n) < 0) != (holes == 1))
				continue;
			ring = geos_polygon(g, r->p, r->n);
			next = holes ? GEOSDifference_r(g, all, ring) : GEOSUnion_r(g, all, ring);
			GEOSGeom_destroy_r(g, ring);
			GEOSGeom_destroy_r(g, all);
			all = next;
		}
	return all;
}
