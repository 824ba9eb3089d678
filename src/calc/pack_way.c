/* pack_way.c - the best way to fill one unit: a bounded knapsack, by trying.
 *
 * Items stand in order of value for their size. As many as fit are taken from the front; then the
 * last one taken is given back and what follows is tried without it, unless even the ratio of the
 * next item could not make the best so far better. */
#include "pack1d.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_SIZES = 200000, SETTLE_SLICE = 200000 };

bool knapsack_init(struct knapsack *k, struct arena *mem, size_t kinds)
{
	*k = (struct knapsack){ .mem = mem };
	k->item = arena_alloc(mem, kinds, sizeof *k->item);
	k->take = arena_alloc(mem, kinds, sizeof *k->take);
	k->best_take = arena_alloc(mem, kinds, sizeof *k->best_take);
	k->least = arena_alloc(mem, kinds + 1, sizeof *k->least);
	k->taken = arena_alloc(mem, kinds, sizeof *k->taken);
	return k->item && k->take && k->best_take && k->least && k->taken;
}

void knapsack_start(struct knapsack *k)
{
	k->count = 0;
}

void knapsack_add(struct knapsack *k, size_t kind, int64_t size, int64_t value, int64_t most)
{
	/* The ratio is a little too large, so that rounding never hides a better way. */
	if (most > 0)
		k->item[k->count++] = (struct way_item){ size, value, most,
			(double)value / (double)size * (1 + 1e-12), (uint32_t)kind };
}

static int by_ratio(const void *a, const void *b)
{
	const struct way_item *x = a, *y = b;

	if (x->ratio != y->ratio)
		return x->ratio > y->ratio ? -1 : 1;
	return x->kind < y->kind ? -1 : x->kind > y->kind;
}

/* What items from `at` on, in fractions and as many as there are, could be worth. */
static int64_t value_in_fractions(const struct knapsack *k, int64_t room)
{
	double value = 0;

	for (size_t i = 0; i < k->count && room > 0; i++) {
		int64_t size = k->item[i].size * k->item[i].most;

		value += (double)(size < room ? size : room) * k->item[i].ratio;
		room -= size;
	}
	return (int64_t)value + 1;
}

/* A unit being filled: what is taken so far, and the item to look at next. */
struct trying {
	int64_t rest, value;
	size_t at, depth;
};

/* Whether taking what is left of the items might come to more than the best. */
static bool hopeful(const struct knapsack *k, const struct trying *t)
{
	return t->at < k->count && t->rest >= k->least[t->at] &&
	       (double)t->value + (double)t->rest * k->item[t->at].ratio >= (double)k->best + 1;
}

static void go_on(struct knapsack *k, struct trying *t)
{
	for (; hopeful(k, t); t->at++) {
		const struct way_item *item = &k->item[t->at];
		int64_t n;

		k->work += 4;
		if (t->rest < item->size)
			continue;
		n = t->rest / item->size;
		n = n < item->most ? n : item->most;
		k->take[t->at] = n;
		k->taken[t->depth++] = t->at;
		t->rest -= n * item->size;
		t->value += n * item->value;
	}
	if (t->value > k->best) {
		k->best = t->value;
		memcpy(k->best_take, k->take, k->count * sizeof *k->take);
	}
}

/* Gives back until there is something to try again; false when all is tried. */
static bool go_back(struct knapsack *k, struct trying *t)
{
	while (t->depth) {
		size_t last = k->taken[t->depth - 1];
		const struct way_item *item = &k->item[last];
		bool again;

		k->work += 4;
		k->take[last]--;
		t->rest += item->size;
		t->value -= item->value;
		t->at = last + 1;
		again = hopeful(k, t);
		if (!again) { /* and less of this item helps still less */
			t->rest += k->take[last] * item->size;
			t->value -= k->take[last] * item->value;
			k->take[last] = 0;
		}
		t->depth -= k->take[last] == 0;
		if (again)
			return true;
	}
	return false;
}

void knapsack_solve(struct knapsack *k, int64_t room, int64_t floor, int64_t tries)
{
	struct trying t = { .rest = room };
	int64_t stop = k->work + tries;

	qsort(k->item, k->count, sizeof *k->item, by_ratio);
	k->least[k->count] = INT64_MAX;
	for (size_t i = k->count; i-- > 0;)
		k->least[i] = k->item[i].size < k->least[i + 1] ? k->item[i].size : k->least[i + 1];
	memset(k->take, 0, k->count * sizeof *k->take);
	memset(k->best_take, 0, k->count * sizeof *k->best_take);
	k->work += (int64_t)k->count * 16;
	k->best = floor;
	do {
		go_on(k, &t);
	} while (k->work < stop && go_back(k, &t));
	k->limit = k->best;
	if (t.depth) {
		int64_t most = value_in_fractions(k, room);

		k->limit = most > k->best ? most : k->best;
	}
}

/* --- by sizes --- */

/* The items in lots of 1, 2, 4 ..., of which any number of pieces can be put together. */
static size_t count_lots(const struct knapsack *k)
{
	size_t lots = 0;

	for (size_t i = 0; i < k->count; i++)
		for (int64_t left = k->item[i].most, lot = 1; left > 0; left -= lot, lot *= 2)
			lots++;
	return lots;
}

/* What the lots taken come to, from the last lot of the last item back. */
static void trace(struct knapsack *k)
{
	int64_t rest = k->small_room;
	size_t lot = k->lot_count;

	memset(k->best_take, 0, k->count * sizeof *k->best_take);
	k->best = 0;
	for (size_t i = k->count; i-- > 0;) {
		const struct way_item *item = &k->item[i];
		int64_t n = 1;

		while (2 * n <= item->most)
			n *= 2;
		for (; n; n /= 2) { /* this lot has n, the last one what those before it leave */
			int64_t times = item->most - (n - 1) < n ? item->most - (n - 1) : n;

			lot--;
			if (!(k->lots[lot * k->words + (size_t)rest / 64] >> rest % 64 & 1))
				continue;
			k->best_take[i] += times;
			k->best += times * item->value;
			rest -= times * item->size;
		}
	}
}

/* Takes one lot into account: best[r] is the most that r holds. taken, if not NULL, has a bit for
 * each r with which the lot is used. */
static void use_lot(int64_t *best, int64_t room, int64_t size, int64_t value, uint64_t *taken)
{
	for (int64_t r = room; r >= size; r--)
		if (best[r - size] + value > best[r]) {
			best[r] = best[r - size] + value;
			if (taken)
				taken[r / 64] |= UINT64_C(1) << r % 64;
		}
}

/* Room for so many, all zero; kept for the next time. */
static void *make_room(struct arena *mem, void *old, size_t count, size_t *room, size_t size)
{
	if (count > *room) {
		old = arena_alloc(mem, count, size);
		*room = old ? count : 0;
	} else {
		memset(old, 0, count * size);
	}
	return old;
}

bool knapsack_settle(struct knapsack *k, int64_t room, int64_t most_work)
{
	int64_t step = 1;

	k->lot_count = count_lots(k);
	while ((double)k->lot_count * (double)(room / step + 1) > (double)most_work ||
	        room / step > MOST_SIZES)
		step *= 2;
	k->step = step;
	k->small_room = room / step;
	k->words = (size_t)k->small_room / 64 + 1;
	k->at_item = k->at_lot = 0;
	k->by_size = make_room(
	        k->mem, k->by_size, (size_t)k->small_room + 1, &k->size_room, sizeof *k->by_size);
	if (step == 1)
		k->lots = make_room(
		        k->mem, k->lots, k->lot_count * k->words, &k->lot_room, sizeof *k->lots);
	return k->by_size && (step > 1 || k->lots);
}

bool knapsack_settle_step(struct knapsack *k)
{
	int64_t stop = k->work + SETTLE_SLICE, found;

	for (; k->at_item < k->count && k->work < stop; k->at_item++) {
		const struct way_item *item = &k->item[k->at_item];

		for (int64_t left = item->most, n = 1; left > 0; left -= n, n *= 2, k->at_lot++) {
			int64_t times = n < left ? n : left;

			use_lot(k->by_size, k->small_room, times * item->size / k->step,
			        times * item->value,
			        k->step == 1 ? k->lots + k->at_lot * k->words : NULL);
			k->work += k->small_room;
		}
	}
	if (k->at_item < k->count)
		return false;
	found = k->by_size[k->small_room];
	if (found < k->limit)
		k->limit = found > k->best ? found : k->best;
	if (k->step == 1 && found > k->best)
		trace(k);
	return true;
}
