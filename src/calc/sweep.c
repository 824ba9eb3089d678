/* sweep.c - what of a part of one plane drains to which sink.
 *
 * The part comes turned so that the water runs along +x. Between two neighbouring heights of its
 * corners it falls into trapezia; the water of each runs to its right side, and that is a piece of
 * one edge, or a channel that lies across it. Trapezia between the same sides grow together. Where
 * the left side is a line from which water of another plane comes, the track is told where that
 * goes. */
#include "drains.h"

#include <math.h>
#include <stdlib.h>

/* An edge, lower end (x0, y0), upper end (x1, y1). */
struct reach {
	double y0, y1, x0, x1;
	int track, sink;
};

/* A side of a trapezium: where it runs, and what it does with water from its left. */
struct side {
	const struct reach *reach;
	int sink;
};

struct trapezium {
	struct side left, right;
	double y0, y1, left0, right0, left1, right1; /* x at y0 and y1 */
	double area;
};

struct sweep {
	struct drains *d;
	size_t part;
	double c, s; /* of the turn */
	int all; /* the sink of everything, or NOWHERE */
	struct reach *reaches, *slits;
	size_t reach_count, slit_count;
	double *heights;
	size_t height_count;
	const struct reach **active;
	size_t active_count;
	struct side *sides; /* from left to right between two edges */
	struct trapezium *open, *grown;
	size_t open_count, grown_count;
};

static double x_at(const struct reach *r, double y)
{
	return r->x0 + (r->x1 - r->x0) * ((y - r->y0) / (r->y1 - r->y0));
}

static int by_lower_end(const void *a, const void *b)
{
	const struct reach *r = a, *s = b;

	return r->y0 < s->y0 ? -1 : r->y0 > s->y0;
}

static int by_value(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

static struct point turned(const struct sweep *w, struct point p)
{
	return (struct point){ p.x * w->c + p.y * w->s, p.y * w->c - p.x * w->s };
}

static struct point back(const struct sweep *w, double x, double y)
{
	return (struct point){ x * w->c - y * w->s, x * w->s + y * w->c };
}

/* Adds what is not level; level edges take no water. */
static void add_reach(
        struct reach *to, size_t *count, struct point a, struct point b, int track, int sink)
{
	if (a.y < b.y)
		to[(*count)++] = (struct reach){ a.y, b.y, a.x, b.x, track, sink };
	else if (a.y > b.y)
		to[(*count)++] = (struct reach){ b.y, a.y, b.x, a.x, track, sink };
}

/* Heights where a channel crosses an edge or another channel, so that between heights none do. */
static void add_crossings(struct sweep *w, const struct reach *r)
{
	for (size_t i = 0; i < w->slit_count; i++) {
		const struct reach *s = &w->slits[i];
		double y0 = fmax(r->y0, s->y0), y1 = fmin(r->y1, s->y1), d0, d1;

		if (r == s || y0 >= y1)
			continue;
		d0 = x_at(r, y0) - x_at(s, y0);
		d1 = x_at(r, y1) - x_at(s, y1);
		if ((d0 > 0) != (d1 > 0))
			w->heights[w->height_count++] = y0 + (y1 - y0) * (d0 / (d0 - d1));
	}
}

static void collect_slits(struct sweep *w)
{
	const struct plan_water *water = &w->d->plan->water;

	for (size_t i = 0; i < water->channel_count; i++) {
		const struct plan_channel *c = &water->channels[i];
		struct point a = { (double)c->x1_um, (double)c->y1_um },
		             b = { (double)c->x2_um, (double)c->y2_um };

		if (w->d->by_edge[i])
			continue;
		add_reach(w->slits, &w->slit_count, turned(w, a), turned(w, b), NOWHERE,
		        (int)(w->d->rim_count + i));
		w->heights[w->height_count++] = turned(w, a).y;
		w->heights[w->height_count++] = turned(w, b).y;
	}
}

static enum status collect(struct sweep *w, struct error *err)
{
	struct drain_part *part = &w->d->parts[w->part];
	size_t n = 0, slits = w->all == NOWHERE ? w->d->plan->water.channel_count : 0;
	struct arena *mem = w->d->mem;

	for (size_t i = 0; i < part->count; i++)
		n += part->rings[i].n;
	w->reaches = arena_alloc(mem, n, sizeof *w->reaches);
	w->active = arena_alloc(mem, n, sizeof(const struct reach *));
	w->slits = arena_alloc(mem, slits, sizeof *w->slits);
	w->heights = arena_alloc(mem, (n + slits) * (slits + 1) + 2 * slits, sizeof *w->heights);
	w->sides = arena_alloc(mem, slits + 2, sizeof *w->sides);
	w->open = arena_alloc(mem, (n / 2 + 1) * (slits + 1), sizeof *w->open);
	w->grown = arena_alloc(mem, (n / 2 + 1) * (slits + 1), sizeof *w->grown);
	if (!w->reaches || !w->active || !w->slits || !w->heights || !w->sides || !w->open ||
	        !w->grown)
		return error_memory(err);
	if (slits)
		collect_slits(w);
	for (size_t i = 0; i < part->count; i++) {
		const struct drain_ring *r = &part->rings[i];

		for (size_t j = 0; j < r->n; j++) {
			const struct drain_corner *at = &r->at[j];
			struct point a = turned(w, at->p),
			             b = turned(w, r->at[j + 1 < r->n ? j + 1 : 0].p);

			w->heights[w->height_count++] = a.y;
			add_reach(w->reaches, &w->reach_count, a, b, at->track, at->sink);
		}
	}
	for (size_t i = 0; i < w->reach_count; i++)
		add_crossings(w, &w->reaches[i]);
	for (size_t i = 0; i < w->slit_count; i++)
		add_crossings(w, &w->slits[i]);
	qsort(w->reaches, w->reach_count, sizeof *w->reaches, by_lower_end);
	qsort(w->heights, w->height_count, sizeof *w->heights, by_value);
	return STATUS_OK;
}

/* Keeps the edges that run through a band in order along x at its middle. */
static void sort_active(const struct reach **active, size_t n, double middle)
{
	for (size_t i = 1; i < n; i++) {
		const struct reach *r = active[i];
		double x = x_at(r, middle);
		size_t j = i;

		for (; j && x_at(active[j - 1], middle) > x; j--)
			active[j] = active[j - 1];
		active[j] = r;
	}
}

/* The sides between two edges: these, and the channels between them; one that runs within a
 * millimetre of an edge, outside, runs along it. */
static size_t find_sides(
        struct sweep *w, const struct reach *left, const struct reach *right, double y0, double y1)
{
	double middle = (y0 + y1) / 2, x0 = x_at(left, middle), x1 = x_at(right, middle);
	size_t n = 0;

	w->sides[n++] = (struct side){ left, NOWHERE };
	for (size_t i = 0; i < w->slit_count; i++) {
		const struct reach *slit = &w->slits[i];
		double x;
		size_t j = n;

		if (slit->y0 > y0 || slit->y1 < y1)
			continue;
		x = x_at(slit, middle);
		if (x < x0 - CORNER_UM || x > x1 + CORNER_UM)
			continue;
		for (; j > 1 && x_at(w->sides[j - 1].reach, middle) > x; j--)
			w->sides[j] = w->sides[j - 1];
		w->sides[j] = (struct side){ x < x0 ? left : x > x1 ? right : slit, slit->sink };
		n++;
	}
	w->sides[n++] = (struct side){ right, w->all == NOWHERE ? right->sink : w->all };
	return n;
}

static struct trapezium trapezium_between(
        const struct side *left, const struct side *right, double y0, double y1)
{
	struct trapezium t = { .left = *left,
		.right = *right,
		.y0 = y0,
		.y1 = y1,
		.left0 = x_at(left->reach, y0),
		.left1 = x_at(left->reach, y1),
		.right0 = x_at(right->reach, y0),
		.right1 = x_at(right->reach, y1) };

	t.area = (t.right0 - t.left0 + t.right1 - t.left1) / 2 * (y1 - y0);
	return t;
}

/* Puts the finished trapezium to its sink, and tells the track on its left. */
static bool finish(struct sweep *w, const struct trapezium *t)
{
	struct drains *d = w->d;
	struct drain_piece *piece;
	struct point a = back(w, t->left0, t->y0), b = back(w, t->left1, t->y1);
	int sink = t->right.sink, track = t->left.sink == NOWHERE ? t->left.reach->track : NOWHERE;

	/* Slivers too thin for the plane beyond to have a part. */
	if (sink == NOWHERE)
		sink = nearest_rim_edge(d, back(w, t->right0, t->y0));
	d->sinks[sink].area_um2 += t->area;
	if (track >= (int)d->edges) {
		double from = track_place(&d->tracks[track], a),
		       to = track_place(&d->tracks[track], b);

		if (!add_span(d, (size_t)track,
		            (struct span){ fmin(from, to), fmax(from, to), sink }))
			return false;
	}
	piece = arena_grow(d->mem, d->pieces, d->piece_count, &d->piece_room, sizeof *piece);
	if (!piece)
		return false;
	d->pieces = piece;
	piece[d->piece_count++] = (struct drain_piece){
		{ { a, back(w, t->right0, t->y0), back(w, t->right1, t->y1), b } }, sink
	};
	return true;
}

static bool same_side(const struct side *a, const struct side *b)
{
	return a->reach == b->reach && a->sink == b->sink;
}

/* Lets the trapezium from the band below grow into this one, if there is one between its sides. */
static void grow(struct sweep *w, struct trapezium *t)
{
	for (size_t i = 0; i < w->open_count; i++) {
		struct trapezium *under = &w->open[i];

		if (under->y1 != t->y0 || !same_side(&under->left, &t->left) ||
		        !same_side(&under->right, &t->right))
			continue;
		t->y0 = under->y0;
		t->left0 = under->left0;
		t->right0 = under->right0;
		t->area += under->area;
		*under = w->open[--w->open_count];
		return;
	}
}

static bool finish_open(struct sweep *w)
{
	for (size_t i = 0; i < w->open_count; i++)
		if (!finish(w, &w->open[i]))
			return false;
	w->open_count = 0;
	return true;
}

static bool drain_band(struct sweep *w, double y0, double y1)
{
	struct trapezium *swap = w->open;

	sort_active(w->active, w->active_count, (y0 + y1) / 2);
	w->grown_count = 0;
	for (size_t i = 0; i + 1 < w->active_count; i += 2) {
		size_t n = find_sides(w, w->active[i], w->active[i + 1], y0, y1);

		for (size_t k = 0; k + 1 < n; k++) {
			struct trapezium t =
			        trapezium_between(&w->sides[k], &w->sides[k + 1], y0, y1);

			grow(w, &t);
			w->grown[w->grown_count++] = t;
		}
	}
	if (!finish_open(w))
		return false;
	w->open = w->grown;
	w->open_count = w->grown_count;
	w->grown = swap;
	return true;
}

enum status sweep_part(struct drains *d, size_t part, struct error *err)
{
	struct sweep w = { .d = d, .part = part, .all = d->parts[part].sink };
	const struct plan_plane *plane = &d->plan->surface.planes[d->parts[part].of->plane];
	enum status st;
	size_t next = 0;

	turn_of(plane->toward_udeg, &w.c, &w.s);
	if ((st = collect(&w, err)) != STATUS_OK)
		return st;
	for (size_t h = 0; h + 1 < w.height_count; h++) {
		double y0 = w.heights[h], y1 = w.heights[h + 1];
		size_t kept = 0;

		if (y0 == y1)
			continue;
		for (size_t i = 0; i < w.active_count; i++)
			if (w.active[i]->y1 > y0)
				w.active[kept++] = w.active[i];
		for (w.active_count = kept; next < w.reach_count && w.reaches[next].y0 <= y0;
		        next++)
			w.active[w.active_count++] = &w.reaches[next];
		if (!drain_band(&w, y0, y1))
			return error_memory(err);
	}
	return finish_open(&w) ? STATUS_OK : error_memory(err);
}
