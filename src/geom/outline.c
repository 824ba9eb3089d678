/* outline.c - whether an outline can be paved or a zone's ring can stand, and if not, which edges
 * stand in the way.
 *
 * The flattened rings have whole coordinates, so whether two edges touch is decided exactly, in 128
 * bits. Edges are sorted by their left end and each is compared with those that begin before it
 * ends. */
#include "slabwright/geom.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

__extension__ typedef __int128 wide;

static const double FINE_CHORD_UM = 5;

struct span {
	int64_t ax, ay, bx, by, left, right, low, high;
	size_t ring, at; /* straight edge `at` of flattened ring `ring` */
	size_t ring_edges;
	int edge; /* the plan's edge number */
};

/* "edge 3 (4.150 m)" or "edge 2 of opening 1 (0.450 m)". */
static void name_edge(const struct plan *plan, size_t ring, size_t at, char *buf, size_t size)
{
	char words[64], length[40];

	length_print(length, sizeof length,
	        (int64_t)llround(edge_length_um(&plan->rings[ring], at) / 1000) * 1000, UNIT_M);
	snprintf(buf, size, "%s (%s)", edge_words(words, sizeof words, ring, at), length);
}

/* `whole` is what the plan's first ring is called: "the outline". */
static void name_ring(const char *whole, size_t ring, char *buf, size_t size)
{
	if (ring == 0)
		snprintf(buf, size, "%s", whole);
	else
		snprintf(buf, size, "opening %zu", ring);
}

static enum status check_edge(
        const struct plan *plan, const char *whole, size_t ring, size_t at, struct error *err)
{
	const struct plan_ring *r = &plan->rings[ring];
	const struct plan_node *a = &r->nodes[at], *b = &r->nodes[at + 1 < r->count ? at + 1 : 0];
	double chord = hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
	char who[40], name[100];

	name_ring(whole, ring, who, sizeof who);
	if (llabs(a->x_um) > COORD_LIMIT_UM || llabs(a->y_um) > COORD_LIMIT_UM)
		return error_set(err, STATUS_PLAN,
		        "corner %zu of %s lies more than 1 km from the origin; check the length "
		        "typed",
		        at + 1, who);
	name_edge(plan, ring, at, name, sizeof name);
	if (chord > 0 && chord < 1000)
		return error_set(err, STATUS_PLAN,
		        "edge %zu of %s is less than 1 mm long; delete one of the corners at its "
		        "ends",
		        at + 1, who);
	if (chord == 0)
		return error_set(err, STATUS_PLAN,
		        "%s has no length: corners %zu and %zu of %s lie on one spot; delete one "
		        "of them",
		        name, at + 1, at + 1 < r->count ? at + 2 : (size_t)1, who);
	if (fabs((double)a->rise_um) > chord)
		return error_set(err, STATUS_PLAN,
		        "%s rises more than the %.3f m between its ends; give a smaller rise", name,
		        chord * 1e-6);
	return STATUS_OK;
}

static enum status check_ring(
        const struct plan *plan, const char *whole, size_t ring, struct error *err)
{
	const struct plan_ring *r = &plan->rings[ring];
	bool arc = false;
	char who[40];

	name_ring(whole, ring, who, sizeof who);
	if (!r->closed)
		return error_set(err, STATUS_PLAN,
		        "%s is not closed yet: drop its corners, then close it", who);
	for (size_t i = 0; i < r->count; i++)
		arc = arc || r->nodes[i].rise_um != 0;
	if (r->count < (arc ? 2 : 3))
		return error_set(err, STATUS_PLAN,
		        "%s has %zu corner%s; it needs three, or two and an arc", who, r->count,
		        r->count == 1 ? "" : "s");
	for (size_t i = 0; i < r->count; i++) {
		enum status st = check_edge(plan, whole, ring, i, err);

		if (st != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

static int by_left(const void *a, const void *b)
{
	const struct span *s = a, *t = b;

	return s->left < t->left ? -1 : s->left > t->left;
}

static int sign(wide v)
{
	return v > 0 ? 1 : v < 0 ? -1 : 0;
}

static int turn_to(const struct span *s, int64_t x, int64_t y)
{
	return sign((wide)(s->bx - s->ax) * (y - s->ay) - (wide)(s->by - s->ay) * (x - s->ax));
}

static bool within(const struct span *s, int64_t x, int64_t y)
{
	return x >= s->left && x <= s->right && y >= s->low && y <= s->high;
}

static bool touch(const struct span *s, const struct span *t)
{
	int a = turn_to(s, t->ax, t->ay), b = turn_to(s, t->bx, t->by);
	int c = turn_to(t, s->ax, s->ay), d = turn_to(t, s->bx, s->by);

	if (a != b && c != d && a * b <= 0 && c * d <= 0)
		return true;
	return (!a && within(s, t->ax, t->ay)) || (!b && within(s, t->bx, t->by)) ||
	       (!c && within(t, s->ax, s->ay)) || (!d && within(t, s->bx, s->by));
}

/* Two neighbours share a corner; they are at fault only where the second runs back over the first.
 */
static bool folds_back(const struct span *first, const struct span *second)
{
	wide along = (wide)(first->bx - first->ax) * (second->bx - second->ax) +
	             (wide)(first->by - first->ay) * (second->by - second->ay);

	return turn_to(first, second->bx, second->by) == 0 && along < 0;
}

static bool at_fault(const struct span *s, const struct span *t)
{
	if (s->ring == t->ring) {
		if ((s->at + 1) % s->ring_edges == t->at)
			return folds_back(s, t);
		if ((t->at + 1) % s->ring_edges == s->at)
			return folds_back(t, s);
	}
	return touch(s, t);
}

static enum status name_crossing(
        const struct plan *plan, const struct span *s, const struct span *t, struct error *err)
{
	int low = s->edge < t->edge ? s->edge : t->edge,
	    high = s->edge < t->edge ? t->edge : s->edge;
	size_t r0 = 0, a0 = 0, r1 = 0, a1 = 0;
	char first[100], second[100];

	plan_edge_find(plan, (size_t)low, &r0, &a0);
	plan_edge_find(plan, (size_t)high, &r1, &a1);
	name_edge(plan, r0, a0, first, sizeof first);
	name_edge(plan, r1, a1, second, sizeof second);
	if (low == high)
		return error_set(err, STATUS_PLAN, "%s crosses itself; give a smaller rise", first);
	if (r0 != r1 && r0 == 0)
		return error_set(err, STATUS_PLAN,
		        "opening %zu leaves the outline: %s meets %s; move it inside", r1, second,
		        first);
	return error_set(err, STATUS_PLAN,
	        "%s and %s cross or touch; move a corner so that they come apart", first, second);
}

static enum status make_spans(struct arena *mem, const struct region *flat, struct span **out,
        size_t *count, struct error *err)
{
	size_t n = 0;
	struct span *spans;

	for (size_t i = 0; i < flat->count; i++)
		n += flat->rings[i].n;
	*count = 0;
	*out = spans = arena_alloc(mem, n, sizeof *spans);
	if (!spans)
		return error_memory(err);
	for (size_t i = 0; i < flat->count; i++) {
		const struct ring *r = &flat->rings[i];

		for (size_t j = 0; j < r->n; j++) {
			struct point a = r->p[j], b = r->p[j + 1 < r->n ? j + 1 : 0];

			spans[(*count)++] = (struct span){
				.ax = (int64_t)a.x,
				.ay = (int64_t)a.y,
				.bx = (int64_t)b.x,
				.by = (int64_t)b.y,
				.left = (int64_t)fmin(a.x, b.x),
				.right = (int64_t)fmax(a.x, b.x),
				.low = (int64_t)fmin(a.y, b.y),
				.high = (int64_t)fmax(a.y, b.y),
				.ring = i,
				.at = j,
				.ring_edges = r->n,
				.edge = r->edge[j],
			};
		}
	}
	qsort(spans, *count, sizeof *spans, by_left);
	return STATUS_OK;
}

static enum status check_crossings(
        const struct plan *plan, const struct span *spans, size_t count, struct error *err)
{
	for (size_t i = 0; i < count; i++)
		for (size_t j = i + 1; j < count && spans[j].left <= spans[i].right; j++)
			if (spans[i].low <= spans[j].high && spans[j].low <= spans[i].high &&
			        at_fault(&spans[i], &spans[j]))
				return name_crossing(plan, &spans[i], &spans[j], err);
	return STATUS_OK;
}

/* Which way a ring runs is told by its corners; arcs that bulge in so far that they pass each other
 * would make another side its inside. */
static enum status check_inside_out(const char *whole, const struct region *flat, struct error *err)
{
	for (size_t i = 0; i < flat->count; i++) {
		double area = ring_polygon_area(flat->rings[i].p, flat->rings[i].n);
		char who[40];

		name_ring(whole, i, who, sizeof who);
		if (i == 0 ? area <= 0 : area >= 0)
			return error_set(err, STATUS_PLAN,
			        "the arcs turn %s inside out; give them smaller rises", who);
	}
	return STATUS_OK;
}

/* With no edges crossing, one corner tells where a ring lies. */
static enum status check_nesting(const struct region *flat, struct error *err)
{
	for (size_t i = 1; i < flat->count; i++) {
		struct point p = flat->rings[i].p[0];

		if (!points_contain(flat->rings[0].p, flat->rings[0].n, p))
			return error_set(err, STATUS_PLAN,
			        "opening %zu lies outside the outline; move it inside", i);
		for (size_t j = 1; j < flat->count; j++)
			if (i != j && points_contain(flat->rings[j].p, flat->rings[j].n, p))
				return error_set(err, STATUS_PLAN,
				        "opening %zu lies inside opening %zu; delete one of them",
				        i, j);
	}
	return STATUS_OK;
}

static enum status check_flat(
        const struct plan *plan, const char *whole, const struct region *flat, struct error *err)
{
	struct arena mem = { 0 };
	struct span *spans = NULL;
	size_t count = 0;
	enum status st = make_spans(&mem, flat, &spans, &count, err);

	if (st == STATUS_OK)
		st = check_crossings(plan, spans, count, err);
	if (st == STATUS_OK)
		st = check_inside_out(whole, flat, err);
	if (st == STATUS_OK)
		st = check_nesting(flat, err);
	arena_free(&mem);
	return st;
}

enum status region_check(const struct plan *plan, const struct region *flat, struct error *err)
{
	return check_flat(plan, "the outline", flat, err);
}

static bool has_arcs(const struct plan *plan)
{
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++)
			if (plan->rings[i].nodes[j].rise_um)
				return true;
	return false;
}

static enum status check_rings(const struct plan *plan, const char *whole, struct error *err)
{
	struct arena mem = { 0 };
	struct region flat;
	enum status st = STATUS_OK;

	for (size_t i = 0; i < plan->ring_count && st == STATUS_OK; i++)
		st = check_ring(plan, whole, i, err);
	/* As it is laid, and so finely that an arc that runs over its neighbour close to their
	 * corner shows. */
	for (int i = 0; i < (has_arcs(plan) ? 2 : 1) && st == STATUS_OK; i++) {
		st = region_flatten(&mem, plan, i ? FINE_CHORD_UM : ARC_CHORD_ERROR_UM, &flat, err);
		if (st == STATUS_OK)
			st = check_flat(plan, whole, &flat, err);
	}
	arena_free(&mem);
	return st;
}

enum status outline_check(const struct plan *plan, struct error *err)
{
	if (!plan->ring_count || !plan->rings[0].count)
		return error_set(err, STATUS_PLAN,
		        "there is no outline yet: drop its corners, then close it");
	return check_rings(plan, "the outline", err);
}

enum status zone_rings_check(const struct plan *plan, struct error *err)
{
	for (size_t i = 0; i < plan->zone_count; i++) {
		/* A ring is checked as the outline of a plan of its own. */
		const struct plan alone = { .rings = &plan->zones[i].ring, .ring_count = 1 };
		struct error why;
		enum status st = check_rings(&alone, "its ring", &why);

		if (st == STATUS_PLAN)
			return error_set(err, st, "zone %zu \"%s\": %s", i + 1, plan->zones[i].name,
			        why.text);
		if (st != STATUS_OK)
			return error_memory(err);
	}
	return STATUS_OK;
}

enum status plan_rings_check(const struct plan *plan, struct error *err)
{
	enum status st = outline_check(plan, err);

	return st == STATUS_OK ? zone_rings_check(plan, err) : st;
}
