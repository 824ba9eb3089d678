/* guillotine_search.c - ruin and mend: some pieces are taken off a few sheets and put back,
 * together with those that lie on none, where they fit best. What gets worse is undone, unless it
 * is no worse than some rounds ago (late acceptance). The aim is a plan with one sheet fewer than
 * the best; what is to be brought to nothing is the area of the pieces left over.
 *
 * After the ruin-and-recreate heuristics of Schrimpf et al. (2000) and, for guillotine trees with a
 * goal, of Gardeyn and Wauters (2022); from memory. */
#include "guillotine_search.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct queued {
	uint32_t kind;
	double key;
};

static uint64_t draw(struct search *s)
{
	uint64_t z = s->state += UINT64_C(0x9E3779B97F4A7C15);

	z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
	z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
	return z ^ (z >> 31);
}

static uint32_t draw_below(struct search *s, uint32_t n)
{
	return (uint32_t)((draw(s) >> 32) * n >> 32);
}

static double draw_real(struct search *s)
{
	return (double)(draw(s) >> 11) / 9007199254740992.0;
}

enum status sheet_search_init(struct search *s, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t kind_count, uint64_t seed, struct error *err)
{
	enum status st;

	*s = (struct search){ .kind_count = kind_count, .state = seed };
	for (uint32_t i = 0; i < kind_count; i++)
		s->pieces += kinds[i].count;
	if ((st = packing_init(&s->now, mem, stock, kinds, s->pieces, err)) != STATUS_OK ||
	        (st = packing_init(&s->best, mem, stock, kinds, s->pieces, err)) != STATUS_OK)
		return st;
	s->pool = arena_alloc(mem, s->pieces, sizeof *s->pool);
	s->kept_pool = arena_alloc(mem, s->pieces, sizeof *s->kept_pool);
	s->queue = arena_alloc(mem, s->pieces, sizeof *s->queue);
	s->failed = arena_alloc(mem, kind_count, sizeof *s->failed);
	return s->pool && s->kept_pool && s->queue && s->failed ? STATUS_OK : error_memory(err);
}

/* --- mending --- */

enum order { BY_AREA, BY_LONG_SIDE, BY_LENGTH, BY_WIDTH, BY_PERIMETER, BY_CHANCE, ORDERS };

/* How early a piece is placed; large comes first. */
static double key_of(const struct kind *k, enum order order)
{
	double x = (double)k->size[AXIS_X], y = (double)k->size[AXIS_Y];

	switch (order) {
	case BY_AREA:
		return x * y;
	case BY_LONG_SIDE:
		return fmax(x, y);
	case BY_LENGTH:
		return x;
	case BY_WIDTH:
		return y;
	case BY_PERIMETER:
		return x + y;
	default:
		return 1;
	}
}

static int by_key(const void *a, const void *b)
{
	const struct queued *p = a, *q = b;

	if (p->key != q->key)
		return p->key > q->key ? -1 : 1;
	return p->kind < q->kind ? -1 : p->kind > q->kind;
}

/* Queues the pool; noise from 0 on shuffles the order. */
static void queue_pool(struct search *s, enum order order, double noise)
{
	for (uint32_t i = 0; i < s->pool_count; i++) {
		double key = key_of(&s->now.kinds[s->pool[i]], order);

		if (order == BY_CHANCE)
			key = draw_real(s);
		else if (noise > 0)
			key *= 1 + noise * draw_real(s);
		s->queue[i] = (struct queued){ s->pool[i], key };
	}
	qsort(s->queue, s->pool_count, sizeof *s->queue, by_key);
}

/* The best place on the sheets there are; of empty ones the first will do. */
static bool find_spot(
        struct search *s, uint32_t kind, const struct taste *taste, double blink, struct spot *spot)
{
	struct packing *p = &s->now;
	uint32_t empty = p->sheet_count;
	bool found = false;

	*spot = (struct spot){ .score = INFINITY };
	for (uint32_t i = 0; i < p->sheet_count; i++) {
		if (p->sheets[i].root == NO_NODE) {
			if (empty == p->sheet_count)
				empty = i;
		} else if (p->sheets[i].area + p->kinds[kind].area <= p->stock_area &&
		           (blink <= 0 || draw_real(s) >= blink)) {
			found |= packing_look(p, i, kind, taste, spot);
		}
	}
	if (!found && empty < p->sheet_count)
		found = packing_look(p, empty, kind, taste, spot);
	return found;
}

/* Places the queued pieces; those that find no place are the pool, or open sheets. */
static void place_queued(struct search *s, const struct taste *taste, double blink, bool open)
{
	uint32_t n = s->pool_count;

	memset(s->failed, 0, s->kind_count * sizeof *s->failed);
	s->pool_count = 0;
	for (uint32_t i = 0; i < n; i++) {
		uint32_t kind = s->queue[i].kind;
		struct spot spot;

		if (!s->failed[kind] && find_spot(s, kind, taste, blink, &spot)) {
			packing_place(&s->now, kind, &spot);
		} else if (open) {
			spot = (struct spot){ .score = INFINITY };
			packing_look(&s->now, packing_open(&s->now), kind, taste, &spot);
			packing_place(&s->now, kind, &spot);
		} else {
			s->failed[kind] = true;
			s->pool[s->pool_count++] = kind;
		}
	}
}

/* --- first plans --- */

static void fill_pool(struct search *s)
{
	s->pool_count = 0;
	for (uint32_t k = 0; k < s->kind_count; k++)
		for (uint32_t i = 0; i < s->now.kinds[k].count; i++)
			s->pool[s->pool_count++] = k;
}

void search_construct(struct search *s)
{
	static const struct {
		enum order order;
		struct taste taste;
	} tries[] = {
		{ BY_AREA, { 1, 0, 1, { 1, 2 } } },
		{ BY_LONG_SIDE, { 1, 0, 1, { 1, 2 } } },
		{ BY_WIDTH, { 1, 0, 1, { 1, 2 } } },
		{ BY_LENGTH, { 1, 0, 1, { 1, 2 } } },
	};
	static const uint64_t most_work = 60000;

	for (size_t i = 0; i < sizeof tries / sizeof *tries; i++) {
		packing_clear(&s->now);
		fill_pool(s);
		queue_pool(s, tries[i].order, 0);
		place_queued(s, &tries[i].taste, 0, true);
		if (i == 0 || s->now.sheet_count < s->best.sheet_count)
			packing_copy(&s->best, &s->now);
		if (s->now.work > most_work)
			break;
	}
}

/* --- the hunt --- */

static double cost_of(const struct search *s)
{
	double cost = 0;

	for (uint32_t i = 0; i < s->pool_count; i++)
		cost += (double)s->now.kinds[s->pool[i]].area;
	return cost / (double)s->now.stock_area;
}

/* Takes the emptiest sheet away; its pieces join the pool. */
static void give_up_sheet(struct search *s)
{
	struct packing *p = &s->now;
	uint32_t least = 0;

	for (uint32_t i = 1; i < p->sheet_count; i++)
		if (p->sheets[i].area < p->sheets[least].area)
			least = i;
	if (p->sheets[least].root != NO_NODE)
		s->pool_count +=
		        packing_take(p, least, p->sheets[least].root, s->pool + s->pool_count);
	packing_close(p, least);
}

static void remember(struct search *s)
{
	s->cost = cost_of(s);
	for (size_t i = 0; i < MEMORY; i++)
		s->memory[i] = s->cost;
}

void search_aim(struct search *s)
{
	packing_copy(&s->now, &s->best);
	s->pool_count = 0;
	give_up_sheet(s);
	remember(s);
}

/* A node of a sheet, each as likely as any other. */
static uint32_t draw_node(struct search *s, uint32_t sheet)
{
	const struct packing *p = &s->now;
	uint32_t root = p->sheets[sheet].root, chosen = root, seen = 0;

	for (uint32_t x = root; x != NO_NODE; x = node_after(p, root, x))
		if (draw_below(s, ++seen) == 0)
			chosen = x;
	return chosen;
}

static void ruin_sheet(struct search *s, uint32_t sheet, uint32_t goal)
{
	struct packing *p = &s->now;
	uint32_t taken = 0;

	while (taken < goal && p->sheets[sheet].root != NO_NODE) {
		uint32_t n = packing_take(p, sheet, draw_node(s, sheet), s->pool + s->pool_count);

		s->pool_count += n;
		taken += n;
	}
	packing_measure(p, sheet);
}

static void ruin(struct search *s)
{
	struct packing *p = &s->now;
	uint32_t sheets = 1 + draw_below(s, 3);

	for (uint32_t i = 0; i < sheets && p->sheet_count; i++) {
		uint32_t sheet = draw_below(s, p->sheet_count);
		uint32_t all = p->sheets[sheet].pieces;

		if (!all)
			continue;
		ruin_sheet(
		        s, sheet, draw_below(s, 3) ? 1 + draw_below(s, all < 10 ? all : 10) : all);
	}
}

static void mend(struct search *s)
{
	double level = draw_real(s);
	struct taste taste = { 1, draw_real(s), draw_real(s), { level, 1 - level } };
	enum order order = (enum order)draw_below(s, ORDERS);

	queue_pool(s, order, 0.3 * draw_real(s));
	place_queued(s, &taste, 0.02, false);
}

bool search_round(struct search *s)
{
	double *old = &s->memory[s->round++ % MEMORY], cost;
	uint32_t kept = s->pool_count;

	memcpy(s->kept_pool, s->pool, kept * sizeof *s->pool);
	packing_mark(&s->now);
	ruin(s);
	mend(s);
	cost = cost_of(s);
	if (cost <= s->cost || cost <= *old) {
		s->cost = cost;
	} else {
		packing_undo(&s->now);
		memcpy(s->pool, s->kept_pool, kept * sizeof *s->pool);
		s->pool_count = kept;
	}
	*old = s->cost;
	if (s->pool_count)
		return false;
	packing_copy(&s->best, &s->now);
	return true;
}
