/* guillotine.c - the iterator: a plan at once, then proofs, then better plans.
 *
 * With a kerf on every piece and one on the sheet, in both directions, the job is the same job
 * without a kerf: the last cut of a row may fall off the edge. Each of the caller's
 * lines is a kind. */
#include "slabwright/guillotine.h"

#include "guillotine_bound.h"
#include "guillotine_plan.h"
#include "guillotine_search.h"

#include <inttypes.h>
#include <stdlib.h>

static const int64_t MOST_UM = INT64_C(1000000000);

struct guillotine {
	struct guillotine_stock stock;
	struct kind *kinds; /* by falling area */
	bool *flipped; /* by kind: its size is the piece's with the sides swapped */
	uint32_t kind_count;
	struct bound bound;
	struct search search;
	bool proving, hunting;
};

static enum status check_stock(const struct guillotine_stock *stock, struct error *err)
{
	if (stock->length_um <= 0 || stock->width_um <= 0 || stock->length_um > MOST_UM ||
	        stock->width_um > MOST_UM)
		return error_set(err, STATUS_PLAN,
		        "the sheet to cut from measures %" PRId64 " by %" PRId64
		        " um; give it sides over 0 and up to 1 km",
		        stock->length_um, stock->width_um);
	if (stock->kerf_um < 0 || stock->kerf_um > MOST_UM)
		return error_set(err, STATUS_PLAN,
		        "the kerf is %" PRId64 " um; it must be 0 or more, and up to 1 km",
		        stock->kerf_um);
	return STATUS_OK;
}

static bool fits(const struct guillotine_stock *stock, int64_t length, int64_t width)
{
	return length <= stock->length_um && width <= stock->width_um;
}

static enum status check_piece(const struct guillotine_stock *stock,
        const struct guillotine_piece *p, size_t index, struct error *err)
{
	if (p->length_um <= 0 || p->width_um <= 0)
		return error_set(err, STATUS_PLAN,
		        "piece %zu to cut measures %" PRId64 " by %" PRId64
		        " um; give it sides over 0",
		        index + 1, p->length_um, p->width_um);
	if (fits(stock, p->length_um, p->width_um) ||
	        (p->turns && fits(stock, p->width_um, p->length_um)))
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "piece %zu, %" PRId64 " by %" PRId64 " um, does not fit the sheet of %" PRId64
	        " by %" PRId64 " um%s; choose a larger sheet or divide the piece",
	        index + 1, p->length_um, p->width_um, stock->length_um, stock->width_um,
	        !p->turns && fits(stock, p->width_um, p->length_um) ? " unless it may be turned"
	                                                            : "");
}

static enum status check(const struct guillotine_stock *stock,
        const struct guillotine_piece *pieces, size_t count, struct error *err)
{
	enum status st = check_stock(stock, err);
	size_t all = 0;

	for (size_t i = 0; st == STATUS_OK && i < count; i++) {
		if (!pieces[i].count)
			continue;
		st = check_piece(stock, &pieces[i], i, err);
		if (pieces[i].count > GUILLOTINE_MOST_PIECES - all)
			return error_set(err, STATUS_PLAN,
			        "over %d pieces to cut from sheets; divide the job",
			        GUILLOTINE_MOST_PIECES);
		all += pieces[i].count;
	}
	return st;
}

static int by_area(const void *a, const void *b)
{
	const struct kind *p = a, *q = b;

	if (p->area != q->area)
		return p->area > q->area ? -1 : 1;
	return p->piece < q->piece ? -1 : p->piece > q->piece;
}

static enum status make_kinds(struct guillotine *g, struct arena *mem,
        const struct guillotine_piece *pieces, size_t count, struct error *err)
{
	int64_t kerf = g->stock.kerf_um;

	g->kinds = arena_alloc(mem, count + 1, sizeof *g->kinds);
	g->flipped = arena_alloc(mem, count + 1, sizeof *g->flipped);
	if (!g->kinds || !g->flipped)
		return error_memory(err);
	for (size_t i = 0; i < count; i++) {
		const struct guillotine_piece *p = &pieces[i];
		bool lying = fits(&g->stock, p->length_um, p->width_um);
		struct kind *k = &g->kinds[g->kind_count];

		if (!p->count)
			continue;
		k->size[AXIS_X] = (lying ? p->length_um : p->width_um) + kerf;
		k->size[AXIS_Y] = (lying ? p->width_um : p->length_um) + kerf;
		k->area = k->size[AXIS_X] * k->size[AXIS_Y];
		k->ways = lying && p->turns && p->length_um != p->width_um &&
		                          fits(&g->stock, p->width_um, p->length_um)
		                  ? 2
		                  : 1;
		k->count = (uint32_t)p->count;
		k->piece = i;
		g->kind_count++;
	}
	qsort(g->kinds, g->kind_count, sizeof *g->kinds, by_area);
	for (uint32_t k = 0; k < g->kind_count; k++)
		g->flipped[k] =
		        g->kinds[k].size[AXIS_X] - kerf != pieces[g->kinds[k].piece].length_um;
	return STATUS_OK;
}

enum status guillotine_begin(struct arena *mem, const struct guillotine_stock *stock,
        const struct guillotine_piece *pieces, size_t count, uint64_t seed, struct guillotine **out,
        struct error *err)
{
	struct guillotine *g = arena_alloc(mem, 1, sizeof *g);
	int64_t sheet[AXES] = { stock->length_um + stock->kerf_um,
		stock->width_um + stock->kerf_um };
	enum status st;

	if (!g)
		return error_memory(err);
	g->stock = *stock;
	if ((st = check(stock, pieces, count, err)) != STATUS_OK ||
	        (st = make_kinds(g, mem, pieces, count, err)) != STATUS_OK ||
	        (st = bound_init(&g->bound, mem, sheet, g->kinds, g->kind_count, err)) !=
	                STATUS_OK ||
	        (st = sheet_search_init(
	                 &g->search, mem, sheet, g->kinds, g->kind_count, seed, err)) != STATUS_OK)
		return st;
	search_construct(&g->search);
	g->proving = true;
	*out = g;
	return STATUS_OK;
}

bool guillotine_step(struct guillotine *g, uint64_t work)
{
	uint64_t spent = 0, start = g->search.now.work;

	while (guillotine_sheets(g) > guillotine_bound(g)) {
		if (spent + g->search.now.work - start >= work)
			return true;
		if (g->proving) {
			g->proving = bound_step(&g->bound, &spent);
		} else if (!g->hunting) {
			search_aim(&g->search);
			g->hunting = true;
		} else {
			g->hunting = !search_round(&g->search);
		}
	}
	return false;
}

size_t guillotine_sheets(const struct guillotine *g)
{
	return g->search.best.sheet_count;
}

size_t guillotine_bound(const struct guillotine *g)
{
	return g->bound.least;
}

enum status guillotine_best(const struct guillotine *g, struct arena *mem,
        struct guillotine_plan *out, struct error *err)
{
	*out = (struct guillotine_plan){ .bound = g->bound.least, .reason = g->bound.reason };
	return packing_write(&g->search.best, &g->stock, g->flipped, mem, out, err);
}
