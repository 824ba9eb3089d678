/* edges.c - edges of the paving, each kind with a line style of its own that tells it apart in
 * black and white: what stands beyond the edge is drawn outside it. */
#include "view.h"

#include <math.h>

enum beyond { NOTHING, SLANTS, BLOCKS };

struct edge_look {
	enum pen pen; /* of the edge itself */
	double beside[2]; /* lines beside it, mm outward; 0 none */
	enum pen beside_pen;
	enum beyond beyond; /* marks up to the mm given */
	double marks_apart, marks_long;
};

static const struct edge_look looks[EDGE_KINDS] = {
	[EDGE_HOUSE_WALL] = { PEN_HEAVY, { 0, 0 }, PEN_THIN, SLANTS, 1.5, 1.9 },
	[EDGE_KERB] = { PEN_OUTLINE, { 1.1, 0 }, PEN_MEDIUM, NOTHING, 0, 0 },
	[EDGE_HAUNCH] = { PEN_OUTLINE, { 1.1, 0 }, PEN_DASHED, NOTHING, 0, 0 },
	[EDGE_PLANTER] = { PEN_OUTLINE, { 1.7, 0 }, PEN_MEDIUM, BLOCKS, 3.4, 1.7 },
	[EDGE_STEPS] = { PEN_OUTLINE, { 1.0, 2.0 }, PEN_THIN, NOTHING, 0, 0 },
	[EDGE_EXISTING_PAVING] = { PEN_OUTLINE, { 1.1, 0 }, PEN_CHAIN, NOTHING, 0, 0 },
	[EDGE_OPEN] = { PEN_OUTLINE, { 0, 0 }, PEN_THIN, NOTHING, 0, 0 },
};

/* The way outward from a stretch of an edge: the paving lies to its left in the plan, and on paper,
 * where y runs down, to the left as seen. */
static struct point outward(struct point a, struct point b)
{
	double length = hypot(b.x - a.x, b.y - a.y);

	if (length <= 0)
		return (struct point){ 0, 0 };
	return (struct point){ -(b.y - a.y) / length, (b.x - a.x) / length };
}

static struct point moved(struct point p, struct point way, double by)
{
	return (struct point){ p.x + way.x * by, p.y + way.y * by };
}

/* The path moved outward, corners taken to the mean of their sides. */
static struct path beside(struct drawing *d, const struct path *path, double by)
{
	struct path out = { arena_alloc(&d->page_mem, path->n + 1, sizeof *out.p), path->n };

	if (!out.p) {
		page_fail_memory(d);
		out.n = 0;
	}
	for (size_t i = 0; i < out.n; i++) {
		size_t a = i ? i - 1 : 0, b = i + 1 < path->n ? i + 1 : i;

		out.p[i] = moved(path->p[i], outward(path->p[a], path->p[b]), by);
	}
	return out;
}

static void draw_marks(struct drawing *d, const struct path *path, const struct edge_look *look)
{
	double next = look->marks_apart / 2, along = 0;

	for (size_t i = 0; i + 1 < path->n; i++) {
		struct point a = path->p[i], b = path->p[i + 1], out = outward(a, b);
		struct point way = { -out.y, out.x };
		double length = hypot(b.x - a.x, b.y - a.y);

		/* way runs back along the edge, so slants lean alike whichever way it goes */
		for (; next <= along + length; next += look->marks_apart) {
			struct point foot = moved(a, way, along - next), tip;

			tip = moved(foot, out, look->marks_long);
			if (look->beyond == SLANTS)
				tip = moved(tip, way, look->marks_long);
			page_line(d, foot, tip, PEN_THIN);
		}
		along += length;
	}
}

static void draw_path(struct drawing *d, const struct path *path, enum edge_kind kind)
{
	const struct edge_look *look = &looks[kind];

	if (look->beyond != NOTHING)
		draw_marks(d, path, look);
	for (int i = 0; i < 2; i++) {
		struct path side;

		if (look->beside[i] <= 0)
			continue;
		side = beside(d, path, look->beside[i]);
		page_path(d, side.p, side.n, false, look->beside_pen);
	}
	page_path(d, path->p, path->n, false, look->pen);
}

/* What the style of an edge covers. */
static void take_path(struct drawing *d, const struct path *path)
{
	struct path side = beside(d, path, EDGE_REACH_MM / 2);

	for (size_t i = 0; i + 1 < side.n; i++) {
		struct patch p = patch_of_line(side.p[i], side.p[i + 1], EDGE_REACH_MM);

		taken_add(&d->taken, &p, TAKEN_LINE);
		taken_add_line(&d->taken, path->p[i], path->p[i + 1], TAKEN_LINE);
	}
}

void edges_draw(struct drawing *d, const struct view *v)
{
	const struct plan *plan = &d->t->plan;
	size_t count = plan_edge_count(plan), ring, at;

	for (size_t e = 0; e < count; e++) {
		struct path path = view_edge(d, v, e);

		if (!path.n || !plan_edge_find(plan, e, &ring, &at))
			continue;
		draw_path(d, &path, plan->rings[ring].nodes[at].kind);
		take_path(d, &path);
	}
}

void edges_draw_plain(struct drawing *d, const struct view *v, enum pen pen)
{
	struct ring *rings = view_region(d, v, &d->t->region);

	for (size_t i = 0; rings && i < d->t->region.count; i++) {
		page_path(d, rings[i].p, rings[i].n, true, pen);
		for (size_t k = 0; k < rings[i].n; k++)
			taken_add_line(&d->taken, rings[i].p[k], rings[i].p[(k + 1) % rings[i].n],
			        TAKEN_LINE);
	}
}

bool edges_have(const struct plan *plan, enum edge_kind kind)
{
	for (size_t k = 0; k < plan->ring_count; k++)
		for (size_t i = 0; i < plan->rings[k].count; i++)
			if (plan->rings[k].nodes[i].kind == kind)
				return true;
	return false;
}

double edges_key(struct drawing *d, double x, double y, double width)
{
	static const double SAMPLE_MM = 14, LINE_MM = 5.4, CELL_MM = 40;
	double at_x = x, at_y = y;

	for (int k = 0; k < EDGE_KINDS; k++) {
		enum edge_kind kind = (enum edge_kind)k;
		struct path path = { (struct point[2]){ { at_x + SAMPLE_MM, at_y + 1.4 },
			                     { at_x, at_y + 1.4 } },
			2 };
		struct text words = { edge_kind_name(kind), .size = SIZE_NOTE };

		if (!edges_have(&d->t->plan, kind))
			continue;
		if (at_x + CELL_MM > x + width) {
			at_x = x;
			at_y += LINE_MM;
		}
		path.p[0] = (struct point){ at_x, at_y + 1.4 };
		path.p[1] = (struct point){ at_x + SAMPLE_MM, at_y + 1.4 };
		draw_path(d, &path, kind);
		page_text(d, &words, ALIGN_LEFT, at_x + SAMPLE_MM + 2, at_y + 0.2);
		at_x += CELL_MM;
	}
	return at_y + LINE_MM - y;
}
