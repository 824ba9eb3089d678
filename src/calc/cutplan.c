/* cutplan.c - pairs of pieces by maximum matching, then slabs saved by giving their pieces to
 * others.
 *
 * Very many pieces are planned batch by batch in laying order; such a plan is sound, but only the
 * area and the corners bound it. */
#include "slabwright/cutplan.h"

#include "bound.h"
#include "rough.h"
#include "slabwright/guillotine.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BATCH = 2000, MERGE_TRIES = 60000, ROUGH_WORK = 40000 };

/* Pieces of a batch that come from one slab. */
struct bundle {
	size_t member[SOURCE_PIECES]; /* of the batch */
	struct cut_place place[SOURCE_PIECES];
	int count;
	double area;
	int corners;
};

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
	        !stock_holds(&p->stock, b->area + s->area) || *tries <= 0)
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

/* A plan on its way: where the places of its next slab go; there is room for every piece. */
struct making {
	struct arena *mem;
	struct cutplan *plan;
	struct cut_place *room;
};

static void write_sources(
        const struct batch *p, struct bundle *bundles, size_t count, struct making *m)
{
	size_t kept = 0;

	for (size_t i = 0; i < count; i++)
		if (bundles[i].count) {
			bundles[kept] = bundles[i];
			sort_members(&bundles[kept++]);
		}
	qsort(bundles, kept, sizeof *bundles, by_first_member);
	for (size_t i = 0; i < kept; i++) {
		struct cut_source *s = &m->plan->sources[m->plan->slabs++];

		s->count = bundles[i].count;
		s->place = m->room;
		m->room += s->count;
		for (int k = 0; k < s->count; k++) {
			s->place[k] = bundles[i].place[k];
			s->place[k].piece = p->piece[bundles[i].member[k]];
		}
	}
}

/* Plans one batch; what it adds to area and corners is for the bounds. */
static enum status plan_batch(struct batch *p, bool only, struct making *m, struct error *err)
{
	size_t *mate = arena_alloc(p->work, p->count, sizeof *mate), pairs, count;
	struct bundle *bundles;
	enum status st;

	if (!mate)
		return error_memory(err);
	if ((st = batch_find_classes(p, err)) != STATUS_OK ||
	        (st = batch_test_fits(p, err)) != STATUS_OK ||
	        (st = batch_match(p, NULL, mate, &pairs, err)) != STATUS_OK)
		return st;
	bundles = arena_alloc(p->work, p->count, sizeof *bundles);
	if (!bundles)
		return error_memory(err);
	count = bundle_pairs(p, mate, bundles);
	if (only && (st = prove_by_pairs(p, count, m->plan, err)) != STATUS_OK)
		return st;
	merge_bundles(p, bundles, count, only ? m->plan->bound : 0);
	write_sources(p, bundles, count, m);
	return STATUS_OK;
}

/* The bounds that need no pairs. */
static void prove_by_sums(const struct batch *p, struct cutplan *plan)
{
	size_t corners = 0;
	double area = 0;

	for (size_t i = 0; i < p->count; i++) {
		area += p->pieces[p->piece[i]].area_um2;
		corners += (size_t)piece_corners(&p->pieces[p->piece[i]], &p->stock);
	}
	raise_bound(plan, (size_t)ceil(area / (p->stock.length * p->stock.width) - 1e-9),
	        "area: the pieces together cover that many slabs");
	raise_bound(plan, (corners + 3) / 4, "corners: the pieces need that many slabs' corners");
}

/* Under the rough rule: takes the packing of the boxes where it needs fewer slabs. */
static enum status try_rough(
        const struct batch *p, size_t number, struct making *m, struct error *err)
{
	struct arena work = { 0 };
	struct guillotine *job;
	struct cut_source *sources;
	size_t count = 0;
	enum status st = rough_begin(&work, p, &job, err);

	if (st == STATUS_OK) {
		guillotine_step(job, ROUGH_WORK);
		if (guillotine_sheets(job) < m->plan->slabs)
			st = rough_sources(job, p, number, m->mem, &sources, &count, err);
	}
	if (st == STATUS_OK && count) {
		memcpy(m->plan->sources, sources, count * sizeof *sources);
		m->plan->slabs = count;
	}
	arena_free(&work);
	return st;
}

/* Plans the pieces of one stock. */
static enum status plan_stock(struct arena *work, const struct piece *pieces, size_t piece_count,
        size_t number, const struct cut_stock *from, struct making *m, struct error *err)
{
	struct batch all = { .pieces = pieces, .stock = stock_of(from) };
	size_t *list;
	enum status st = cut_pieces(work, pieces, piece_count, number, &list, &all.count, err);

	if (st != STATUS_OK)
		return st;
	all.piece = list;
	prove_by_sums(&all, m->plan);
	for (size_t at = 0; st == STATUS_OK && at < all.count; at += BATCH) {
		struct arena own = { 0 };
		struct batch p = all;

		p.work = &own;
		p.piece += at;
		p.count = all.count - at < BATCH ? all.count - at : BATCH;
		st = plan_batch(&p, all.count <= BATCH, m, err);
		arena_free(&own);
	}
	if (st == STATUS_OK && from->edges == RULE_ROUGH && all.count > 1 && all.count <= BATCH)
		st = try_rough(&all, number, m, err);
	for (size_t i = 0; i < m->plan->slabs; i++)
		m->plan->sources[i].stock = number;
	return st;
}

enum status cutplan_make(struct arena *mem, const struct piece *pieces, size_t piece_count,
        const struct cut_stock *stocks, size_t stock_count, struct cutplan *out, struct error *err)
{
	static const char nothing[] = "there is nothing to cut";
	struct arena work = { 0 };
	struct making m = { .mem = mem, .room = arena_alloc(mem, piece_count, sizeof *m.room) };
	int stocks_cut = 0;
	enum status st = STATUS_OK;

	*out = (struct cutplan){ .reason = nothing,
		.sources = arena_alloc(mem, piece_count, sizeof *out->sources),
		.of_stock = arena_alloc(mem, stock_count, sizeof *out->of_stock) };
	if (!out->sources || !out->of_stock || !m.room)
		return error_memory(err);
	for (size_t i = 0; i < stock_count && st == STATUS_OK; i++) {
		struct cutplan part = { .sources = out->sources + out->slabs, .reason = nothing };

		m.plan = &part;
		st = plan_stock(&work, pieces, piece_count, i, &stocks[i], &m, err);
		out->of_stock[i] = (struct cut_total){ part.slabs, part.bound, part.reason };
		out->slabs += part.slabs;
		out->bound += part.bound;
		if (part.slabs)
			out->reason =
			        stocks_cut++ ? "the bounds of the slabs, added up" : part.reason;
	}
	arena_free(&work);
	return st;
}
