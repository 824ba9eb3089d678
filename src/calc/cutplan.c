/* cutplan.c - pairs of pieces by maximum matching, and what proves how few slabs will do.
 *
 * Pieces alike in shape and sides form a class, so fits are tested between classes only. Very many
 * pieces are matched batch by batch in laying order; such a plan is sound, but only the area and
 * the corners bound it.
 *
 * Bounds: the pieces' area over a slab's; the slab corners they take up over four; a set of pieces
 * of which no two fit one slab; and the matching itself where no slab can yield three. */
#include "slabwright/cutplan.h"

#include "group.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BATCH = 2000, MERGE_TRIES = 60000 };

struct class
{
	struct shape shape;
	size_t count;
};

/* One batch. */
struct batch {
	struct arena work;
	const struct laying *laid;
	struct stock stock;
	struct class *classes;
	size_t class_count;
	bool *fits; /* class_count x class_count */
	const size_t *piece; /* cut pieces, by laying order: index into laid->pieces */
	size_t *class_of; /* of each of those */
	size_t count;
};

static int compare_real(double a, double b)
{
	return a < b ? -1 : a > b;
}

/* A coordinate without the rounding of a turn. */
static double settled(double um)
{
	return round(um * 1000);
}

/* Order by shape, so that like pieces become neighbours. */
static int by_shape(const void *a, const void *b)
{
	const struct piece *p = *(const struct piece *const *)a,
	                   *q = *(const struct piece *const *)b;
	const struct ring *r = &p->shape.rings[0], *s = &q->shape.rings[0];
	int c;

	if (p->standing != q->standing)
		return p->standing ? 1 : -1;
	if (p->sides != q->sides)
		return p->sides < q->sides ? -1 : 1;
	if (p->shape.count != q->shape.count)
		return p->shape.count < q->shape.count ? -1 : 1;
	if (r->n != s->n)
		return r->n < s->n ? -1 : 1;
	for (size_t i = 0; i < r->n; i++)
		if ((c = compare_real(settled(r->p[i].x), settled(s->p[i].x))) != 0 ||
		        (c = compare_real(settled(r->p[i].y), settled(s->p[i].y))) != 0)
			return c;
	return 0;
}

static enum status find_classes(struct batch *p, struct error *err)
{
	const struct piece **order = arena_alloc(&p->work, p->count, sizeof(const struct piece *));
	size_t *rank =
	        arena_alloc(&p->work, p->piece[p->count - 1] - p->piece[0] + 1, sizeof *rank);

	p->class_of = arena_alloc(&p->work, p->count, sizeof *p->class_of);
	p->classes = arena_alloc(&p->work, p->count, sizeof *p->classes);
	if (!order || !rank || !p->class_of || !p->classes)
		return error_memory(err);
	for (size_t i = 0; i < p->count; i++)
		order[i] = &p->laid->pieces[p->piece[i]];
	qsort(order, p->count, sizeof(const struct piece *), by_shape);
	for (size_t i = 0; i < p->count; i++) {
		if (!i || by_shape(&order[i - 1], &order[i]) != 0) {
			struct class *c = &p->classes[p->class_count++];
			enum status st = shape_make(&p->work, &p->stock, order[i], &c->shape, err);

			if (st != STATUS_OK)
				return st;
		}
		p->classes[p->class_count - 1].count++;
		rank[(size_t)(order[i] - p->laid->pieces) - p->piece[0]] = p->class_count - 1;
	}
	for (size_t i = 0; i < p->count; i++)
		p->class_of[i] = rank[p->piece[i] - p->piece[0]];
	return STATUS_OK;
}

static bool classes_fit(const struct batch *p, size_t a, size_t b)
{
	return p->fits[a * p->class_count + b];
}

static enum status test_fits(struct batch *p, struct error *err)
{
	size_t n = p->class_count;

	p->fits = arena_alloc(&p->work, n, n);
	if (!p->fits)
		return error_memory(err);
	for (size_t a = 0; a < n; a++)
		for (size_t b = a; b < n; b++)
			p->fits[a * n + b] = p->fits[b * n + a] = shapes_fit(
			        &p->stock, &p->classes[a].shape, &p->classes[b].shape, NULL, NULL);
	return STATUS_OK;
}

/* Matches the batch's pieces, leaving out those marked in skip (may be NULL). */
static enum status match(
        struct batch *p, const bool *skip, size_t *mate, size_t *pairs, struct error *err)
{
	size_t n = p->count, edges = 0, *first = arena_alloc(&p->work, n + 1, sizeof *first),
	       *neighbours = NULL;

	if (!first)
		return error_memory(err);
	for (int fill = 0; fill < 2; fill++) {
		if (fill && !(neighbours = arena_alloc(&p->work, edges, sizeof *neighbours)))
			return error_memory(err);
		edges = 0;
		for (size_t i = 0; i < n; i++) {
			first[i] = edges;
			for (size_t j = 0; j < n; j++) {
				if (i == j || (skip && (skip[i] || skip[j])) ||
				        !classes_fit(p, p->class_of[i], p->class_of[j]))
					continue;
				if (fill)
					neighbours[edges] = j;
				edges++;
			}
		}
		first[n] = edges;
	}
	return graph_matching(&p->work, n, first, neighbours, mate, pairs, err);
}

/* --- bounds --- */

/* Whether a piece of class a could share a slab with two others, as far as corners, areas and pairs
 * tell. */
static bool in_triple(const struct batch *p, size_t a)
{
	const struct class *c = p->classes;
	double room = p->stock.length * p->stock.width;

	for (size_t b = 0; b < p->class_count; b++) {
		if (!classes_fit(p, a, b) || (a == b && c[a].count < 2))
			continue;
		for (size_t d = b; d < p->class_count; d++) {
			size_t need = 1 + (size_t)(d == a) + (size_t)(b == a);

			if (!classes_fit(p, a, d) || !classes_fit(p, b, d) ||
			        (d == b && c[b].count < 2) || c[a].count < need)
				continue;
			if (c[a].shape.area + c[b].shape.area + c[d].shape.area <= room &&
			        c[a].shape.corners + c[b].shape.corners + c[d].shape.corners <= 4)
				return true;
		}
	}
	return false;
}

/* Three pieces share a slab only if one takes at most one corner. Without all such pieces that
 * could be the third, no slab holds three of what is left, and the matching of those is exact. */
static enum status bound_by_matching(struct batch *p, size_t *bound, bool *whole, struct error *err)
{
	bool *skip = arena_alloc(&p->work, p->count, sizeof *skip);
	bool *third = arena_alloc(&p->work, p->class_count, sizeof *third);
	size_t *mate = arena_alloc(&p->work, p->count, sizeof *mate), left = p->count, pairs;
	enum status st;

	if (!skip || !third || !mate)
		return error_memory(err);
	for (size_t i = 0; i < p->class_count; i++)
		third[i] = p->classes[i].shape.corners < 2 && in_triple(p, i);
	for (size_t i = 0; i < p->count; i++) {
		skip[i] = third[p->class_of[i]];
		left -= skip[i];
	}
	*whole = left == p->count;
	if (*whole || !left) {
		*bound = 0;
		return STATUS_OK;
	}
	st = match(p, skip, mate, &pairs, err);
	*bound = st == STATUS_OK ? left - pairs : 0;
	return st;
}

/* A set of pieces of which no two fit one slab, gathered greedily, the least sociable first. */
static enum status bound_by_strangers(struct batch *p, size_t *bound, struct error *err)
{
	size_t n = p->class_count, *friends = arena_alloc(&p->work, n, sizeof *friends);
	bool *gone = arena_alloc(&p->work, n, sizeof *gone);

	*bound = 0;
	if (!friends || !gone)
		return error_memory(err);
	for (size_t a = 0; a < n; a++)
		for (size_t b = 0; b < n; b++)
			friends[a] += classes_fit(p, a, b) ? p->classes[b].count : 0;
	for (;;) {
		size_t best = n;

		for (size_t a = 0; a < n; a++)
			if (!gone[a] && (best == n || friends[a] < friends[best]))
				best = a;
		if (best == n)
			return STATUS_OK;
		gone[best] = true;
		*bound += classes_fit(p, best, best) ? 1 : p->classes[best].count;
		for (size_t b = 0; b < n; b++)
			gone[b] = gone[b] || classes_fit(p, best, b);
	}
}

/* Interlocking pieces that slide are not pushed through every place, and without a kerf they might
 * touch all along a notch, which is not told from overlapping: pairs that do not fit prove nothing
 * then. */
static bool pairs_prove(const struct batch *p)
{
	for (size_t i = 0; i < p->class_count; i++) {
		const struct shape *s = &p->classes[i].shape;

		if (!s->convex && (p->stock.kerf < 1 || s->pose[0].slides_x || s->pose[0].slides_y))
			return false;
	}
	return true;
}

static void raise_bound(struct cutplan *plan, size_t bound, const char *reason)
{
	if (bound > plan->bound) {
		plan->bound = bound;
		plan->reason = reason;
	}
}

/* Bounds by pairs, for a job that is one batch. */
static enum status prove_by_pairs(
        struct batch *p, size_t matched, struct cutplan *plan, struct error *err)
{
	size_t bound = 0;
	bool whole = false;
	enum status st;

	if (!pairs_prove(p) || plan->bound >= matched)
		return STATUS_OK;
	if ((st = bound_by_strangers(p, &bound, err)) != STATUS_OK)
		return st;
	raise_bound(plan, bound, "pairs: of that many pieces no two come from one slab");
	if (plan->bound >= matched)
		return STATUS_OK;
	if ((st = bound_by_matching(p, &bound, &whole, err)) != STATUS_OK)
		return st;
	if (whole)
		raise_bound(plan, matched,
		        "pairs: no slab yields three of the pieces, and they cannot be paired "
		        "better");
	else
		raise_bound(plan, bound,
		        "pairs: leaving aside pieces that might be a third from one slab, the "
		        "others "
		        "cannot be paired better");
	return STATUS_OK;
}

/* --- the plan --- */

/* Pieces of a batch that come from one slab. */
struct bundle {
	size_t member[SOURCE_PIECES]; /* of the batch */
	struct cut_place place[SOURCE_PIECES];
	int count;
	double area;
	int corners;
};

static const struct shape *shape_of(const struct batch *p, size_t member)
{
	return &p->classes[p->class_of[member]].shape;
}

static void measure(const struct batch *p, struct bundle *b)
{
	b->area = 0;
	b->corners = 0;
	for (int i = 0; i < b->count; i++) {
		b->area += shape_of(p, b->member[i])->area;
		b->corners += shape_of(p, b->member[i])->corners;
	}
}

/* Singles and pairs, as matched. */
static size_t bundle_pairs(const struct batch *p, const size_t *mate, struct bundle *bundles)
{
	size_t n = 0;

	for (size_t i = 0; i < p->count; i++) {
		struct bundle *b = &bundles[n];
		size_t j = mate[i];

		if (j != SIZE_MAX && j < i)
			continue;
		*b = (struct bundle){
			.member = { i }, .place = { shape_home(shape_of(p, i)) }, .count = 1
		};
		if (j != SIZE_MAX) {
			shapes_fit(&p->stock, shape_of(p, i), shape_of(p, j), &b->place[0],
			        &b->place[1]);
			b->member[b->count++] = j;
		}
		measure(p, b);
		n++;
	}
	return n;
}

/* Adds a piece to a bundle where all of it still comes from one slab. */
static bool take_in(const struct batch *p, struct bundle *b, size_t member, int *tries)
{
	const struct shape *s = shape_of(p, member), *shapes[SOURCE_PIECES];
	struct bundle grown = *b;

	if (b->count == SOURCE_PIECES || b->corners + s->corners > 4 ||
	        b->area + s->area > p->stock.length * p->stock.width || *tries <= 0)
		return false;
	for (int i = 0; i < b->count; i++) {
		if (!classes_fit(p, p->class_of[b->member[i]], p->class_of[member]))
			return false;
		shapes[i] = shape_of(p, b->member[i]);
	}
	shapes[b->count] = s;
	grown.member[grown.count++] = member;
	if (!group_fits(&p->stock, shapes, grown.count, grown.place, tries))
		return false;
	measure(p, &grown);
	*b = grown;
	return true;
}

/* Gives all pieces of bundle `from` to others; false, and nothing changed, where one finds no room.
 */
static bool dissolve(
        const struct batch *p, struct bundle *bundles, size_t count, size_t from, int *tries)
{
	struct bundle kept[SOURCE_PIECES];
	size_t host[SOURCE_PIECES];
	int done = 0;

	for (; done < bundles[from].count; done++) {
		size_t h = count;

		/* The fullest come first: what is nearly used up is used up. */
		while (h-- > 0) {
			kept[done] = bundles[h];
			if (h != from && bundles[h].count &&
			        take_in(p, &bundles[h], bundles[from].member[done], tries))
				break;
		}
		if (h == SIZE_MAX)
			break;
		host[done] = h;
	}
	if (done == bundles[from].count) {
		bundles[from].count = 0;
		return true;
	}
	while (done-- > 0)
		bundles[host[done]] = kept[done];
	return false;
}

static int by_area(const void *a, const void *b)
{
	const struct bundle *x = a, *y = b;

	if (x->area != y->area)
		return x->area < y->area ? -1 : 1;
	return x->member[0] < y->member[0] ? -1 : x->member[0] > y->member[0];
}

static int by_first_member(const void *a, const void *b)
{
	const struct bundle *x = a, *y = b;

	return x->member[0] < y->member[0] ? -1 : x->member[0] > y->member[0];
}

/* Puts the members in laying order. */
static void sort_members(struct bundle *b)
{
	for (int i = 1; i < b->count; i++)
		for (int j = i; j && b->member[j] < b->member[j - 1]; j--) {
			struct cut_place place = b->place[j];
			size_t member = b->member[j];

			b->place[j] = b->place[j - 1];
			b->member[j] = b->member[j - 1];
			b->place[j - 1] = place;
			b->member[j - 1] = member;
		}
}

/* Saves slabs by giving the pieces of the emptiest to others, as long as that goes on. */
static void merge_bundles(const struct batch *p, struct bundle *bundles, size_t count, size_t least)
{
	int tries = MERGE_TRIES;
	size_t left = count;
	bool saved = true;

	qsort(bundles, count, sizeof *bundles, by_area);
	while (saved && left > least && tries > 0) {
		saved = false;
		for (size_t i = 0; i < count && left > least; i++)
			if (bundles[i].count && dissolve(p, bundles, count, i, &tries)) {
				saved = true;
				left--;
			}
	}
}

static void write_sources(
        const struct batch *p, struct bundle *bundles, size_t count, struct cutplan *plan)
{
	size_t kept = 0;

	for (size_t i = 0; i < count; i++)
		if (bundles[i].count) {
			bundles[kept] = bundles[i];
			sort_members(&bundles[kept++]);
		}
	qsort(bundles, kept, sizeof *bundles, by_first_member);
	for (size_t i = 0; i < kept; i++) {
		struct cut_source *s = &plan->sources[plan->slabs++];

		s->count = bundles[i].count;
		for (int k = 0; k < s->count; k++) {
			s->place[k] = bundles[i].place[k];
			s->place[k].piece = p->piece[bundles[i].member[k]];
		}
	}
}

/* Plans one batch; what it adds to area and corners is for the bounds. */
static enum status plan_batch(struct batch *p, bool only, struct cutplan *plan, struct error *err)
{
	size_t *mate = arena_alloc(&p->work, p->count, sizeof *mate), pairs, count;
	struct bundle *bundles;
	enum status st;

	if (!mate)
		return error_memory(err);
	if ((st = find_classes(p, err)) != STATUS_OK || (st = test_fits(p, err)) != STATUS_OK ||
	        (st = match(p, NULL, mate, &pairs, err)) != STATUS_OK)
		return st;
	bundles = arena_alloc(&p->work, p->count, sizeof *bundles);
	if (!bundles)
		return error_memory(err);
	count = bundle_pairs(p, mate, bundles);
	if (only && (st = prove_by_pairs(p, count, plan, err)) != STATUS_OK)
		return st;
	merge_bundles(p, bundles, count, only ? plan->bound : 0);
	write_sources(p, bundles, count, plan);
	return STATUS_OK;
}

/* The indices of the cut pieces of a size, and the bounds that need no pairs. */
static enum status list_pieces(struct arena *work, const struct laying *laid, int size,
        const struct stock *stock, size_t **pieces, size_t *count, struct cutplan *plan,
        struct error *err)
{
	size_t *list = *pieces =
	        arena_alloc(work, (size_t)laid->of_size[size].cut, sizeof **pieces);
	size_t corners = 0;
	double area = 0;

	*count = 0;
	if (!list)
		return error_memory(err);
	for (size_t i = 0; i < laid->piece_count; i++) {
		const struct piece *piece = &laid->pieces[i];

		if (piece->size != size ||
		        (piece->kind != PIECE_CUT && piece->kind != PIECE_SLIVER))
			continue;
		list[(*count)++] = i;
		area += piece->area_um2;
		corners += (size_t)piece_corners(piece, stock);
	}
	raise_bound(plan, (size_t)ceil(area / (stock->length * stock->width) - 1e-9),
	        "area: the pieces together cover that many slabs");
	raise_bound(plan, (corners + 3) / 4, "corners: the pieces need that many slabs' corners");
	return STATUS_OK;
}

/* Plans the pieces of one size. */
static enum status plan_size(struct arena *work, const struct laying *laid, int size,
        const struct plan_laying *laying, struct cutplan *plan, struct error *err)
{
	struct stock stock = stock_of(laying, &laid->pattern.sizes[size]);
	size_t *pieces, count;
	enum status st = list_pieces(work, laid, size, &stock, &pieces, &count, plan, err);

	for (size_t from = 0; st == STATUS_OK && from < count; from += BATCH) {
		struct batch p = { .laid = laid, .stock = stock, .piece = pieces + from };

		p.count = count - from < BATCH ? count - from : BATCH;
		st = plan_batch(&p, count <= BATCH, plan, err);
		arena_free(&p.work);
	}
	for (size_t i = 0; i < plan->slabs; i++)
		plan->sources[i].size = size;
	return st;
}

enum status cutplan_make(struct arena *mem, const struct laying *laid,
        const struct plan_laying *laying, struct cutplan *out, struct error *err)
{
	static const char nothing[] = "there is nothing to cut";
	struct arena work = { 0 };
	int sizes_cut = 0;
	enum status st = STATUS_OK;

	*out = (struct cutplan){ .reason = nothing };
	out->sources = arena_alloc(mem, (size_t)laid->cut, sizeof *out->sources);
	if (!out->sources)
		return error_memory(err);
	for (int i = 0; i < laid->pattern.size_count && st == STATUS_OK; i++) {
		struct cutplan part = { .sources = out->sources + out->slabs, .reason = nothing };

		st = plan_size(&work, laid, i, laying, &part, err);
		out->of_size[i] = (struct cut_size){ part.slabs, part.bound, part.reason };
		out->slabs += part.slabs;
		out->bound += part.bound;
		if (part.slabs)
			out->reason =
			        sizes_cut++ ? "the bounds of the sizes, added up" : part.reason;
	}
	arena_free(&work);
	return st;
}
