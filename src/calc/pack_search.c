/* pack_search.c - every way of filling one unit after another.
 *
 * Some unit holds the longest piece left: each way to complete that unit is tried, the fullest
 * first (bin completion, after Korf, AAAI 2002). A way is left out where another serves as well:
 * where a piece left over would still fit, or would fit in place of one or two shorter ones. In
 * all, no more room may be wasted than the units have over, and no more of the value than they
 * could hold. */
#include "pack1d.h"

#include <stdlib.h>
#include <string.h>

enum { LISTING_WORK = 1000000 };

bool search_init(
        struct search *s, struct arena *mem, const struct load *load, size_t pieces, size_t ways)
{
	*s = (struct search){ .mem = mem, .load = load, .most_ways = ways };
	s->left = arena_alloc(mem, load->kinds, sizeof *s->left);
	s->taken = arena_alloc(mem, load->kinds, sizeof *s->taken);
	s->value = arena_alloc(mem, load->kinds, sizeof *s->value);
	s->changed = arena_alloc(mem, load->kinds, sizeof *s->changed);
	s->size_after = arena_alloc(mem, load->kinds + 1, sizeof *s->size_after);
	s->value_after = arena_alloc(mem, load->kinds + 1, sizeof *s->value_after);
	s->ratio_after = arena_alloc(mem, load->kinds + 1, sizeof *s->ratio_after);
	s->level = arena_alloc(mem, pieces + 1, sizeof *s->level);
	return s->left && s->taken && s->value && s->changed && s->size_after && s->value_after &&
	       s->ratio_after && s->level;
}

void search_start(struct search *s, const int64_t *count, size_t units, const int64_t *value,
        int64_t value_limit)
{
	const struct load *load = s->load;
	int64_t units_left = (int64_t)units;

	memcpy(s->left, count, load->kinds * sizeof *s->left);
	memset(s->taken, 0, load->kinds * sizeof *s->taken);
	s->slack = units_left * load->room;
	s->loss = units_left * value_limit;
	s->value_limit = value ? value_limit : 0;
	s->ratio_after[load->kinds] = 0;
	for (size_t k = load->kinds; k-- > 0;) {
		double ratio;

		s->value[k] = value ? value[k] : 0;
		s->slack -= count[k] * load->size[k];
		s->loss -= count[k] * s->value[k];
		ratio = (double)s->value[k] / (double)load->size[k] * (1 + 1e-12);
		s->ratio_after[k] = ratio > s->ratio_after[k + 1] ? ratio : s->ratio_after[k + 1];
	}
	s->depth = s->way_count = s->share_count = 0;
	s->units = units;
	s->all = true;
	s->started = false;
}

/* --- the ways of one unit --- */

/* A unit being filled: its longest piece, the longest of all left, is in it from the start. */
struct listing {
	size_t kind, smallest; /* the longest left and the shortest */
	int64_t rest, value;
	size_t at, depth; /* kind to look at next; s->changed[0] .. are in the unit */
};

static int64_t left_of(const struct search *s, size_t k)
{
	return s->left[k] - s->taken[k];
}

/* Whether a piece not taken, longer than kind `at` and from `least` to `most` long, is left. */
static bool is_left(
        const struct search *s, const struct listing *l, size_t at, int64_t least, int64_t most)
{
	for (size_t k = at; k-- > l->kind && s->load->size[k] <= most;)
		if (s->load->size[k] >= least && left_of(s, k) > 0)
			return true;
	return false;
}

/* Whether another way serves as well as this one. */
static bool is_needless(const struct search *s, const struct listing *l)
{
	const int64_t *size = s->load->size;

	if (is_left(s, l, l->smallest + 1, 0, l->rest))
		return true;
	for (size_t i = 0; i < l->depth; i++) {
		size_t a = s->changed[i];

		if (is_left(s, l, a, size[a], size[a] + l->rest))
			return true;
		for (size_t j = i; j < l->depth; j++) {
			size_t b = s->changed[j];

			if ((i != j || s->taken[a] > 1) &&
			        is_left(s, l, a, size[a] + size[b], size[a] + size[b] + l->rest))
				return true;
		}
	}
	return false;
}

/* Whether the rest can still be filled well enough from kind l->at on. */
static bool can_fill(const struct search *s, const struct listing *l)
{
	int64_t value = s->value_after[l->at];
	double most = (double)l->rest * s->ratio_after[l->at];

	if (l->rest - s->size_after[l->at] > s->slack)
		return false;
	if (!s->value_limit)
		return true;
	if (most + 1 < (double)value)
		value = (int64_t)most + 1;
	return l->value + value >= s->value_limit - s->loss;
}

/* Lists the way; false where the list is full or memory is gone, and ways are passed over. */
static bool keep_way(struct search *s, const struct listing *l)
{
	struct search_way *ways =
	        arena_grow(s->mem, s->ways, s->way_count, &s->way_room, sizeof *ways);

	s->all = s->all && ways && s->way_count < s->most_ways;
	if (!ways || s->way_count >= s->most_ways)
		return false;
	s->ways = ways;
	ways[s->way_count] =
	        (struct search_way){ s->share_count, l->depth, l->rest, s->value_limit - l->value };
	for (size_t i = 0; i < l->depth; i++) {
		struct way_share *shares = arena_grow(
		        s->mem, s->shares, s->share_count, &s->share_room, sizeof *shares);

		s->all = s->all && shares;
		if (!shares)
			return false;
		s->shares = shares;
		shares[s->share_count++] =
		        (struct way_share){ s->changed[i], (uint32_t)s->taken[s->changed[i]] };
	}
	s->way_count++;
	return true;
}

/* Takes as many as fit from here on; false where the unit would not be full enough. */
static bool take_on(struct search *s, struct listing *l)
{
	const struct load *load = s->load;

	for (; l->at <= l->smallest && l->rest >= load->size[l->smallest]; l->at++) {
		int64_t n = left_of(s, l->at);

		s->work += 2;
		if (!n || load->size[l->at] > l->rest)
			continue;
		if (!can_fill(s, l))
			return false;
		n = l->rest / load->size[l->at] < n ? l->rest / load->size[l->at] : n;
		if (l->at > l->kind)
			s->changed[l->depth++] = (uint32_t)l->at;
		s->taken[l->at] += n;
		l->rest -= n * load->size[l->at];
		l->value += n * s->value[l->at];
	}
	l->at = load->kinds;
	return can_fill(s, l);
}

/* Gives one back, to go on behind it; false when all is tried. */
static bool give_back(struct search *s, struct listing *l)
{
	while (l->depth > 1 || s->taken[l->kind] > 1) {
		size_t last = s->changed[l->depth - 1];

		s->work += 2;
		s->taken[last]--;
		l->rest += s->load->size[last];
		l->value -= s->value[last];
		l->depth -= s->taken[last] == 0;
		l->at = last + 1;
		if (can_fill(s, l))
			return true;
	}
	return false;
}

static int fullest_first(const void *a, const void *b)
{
	const struct search_way *x = a, *y = b;

	if (x->slack != y->slack)
		return x->slack < y->slack ? -1 : 1;
	return x->first < y->first ? -1 : x->first > y->first;
}

static void sum_after(struct search *s)
{
	size_t n = s->load->kinds;

	s->size_after[n] = s->value_after[n] = 0;
	for (size_t k = n; k-- > 0;) {
		s->size_after[k] = s->size_after[k + 1] + left_of(s, k) * s->load->size[k];
		s->value_after[k] = s->value_after[k + 1] + left_of(s, k) * s->value[k];
	}
	s->work += 4 * (int64_t)n;
}

/* Lists the ways to fill a unit with the longest piece left, which there is. */
static void list_ways(struct search *s)
{
	struct search_level *level = &s->level[s->depth++];
	struct listing l = { .smallest = s->load->kinds - 1 };
	int64_t stop = s->work + LISTING_WORK;

	while (!s->left[l.kind])
		l.kind++;
	while (!s->left[l.smallest])
		l.smallest--;
	level->first = level->next = s->way_count;
	level->share = s->share_count;
	l.at = l.kind;
	l.rest = s->load->room - s->load->size[l.kind];
	l.value = s->value[l.kind];
	s->taken[l.kind] = 1;
	s->changed[l.depth++] = (uint32_t)l.kind;
	sum_after(s);
	do {
		if (take_on(s, &l) && !is_needless(s, &l) && !keep_way(s, &l))
			break;
		if (s->work > stop) {
			s->all = false;
			break;
		}
	} while (give_back(s, &l));
	for (size_t i = 0; i < l.depth; i++)
		s->taken[s->changed[i]] = 0;
	level->end = s->way_count;
	if (level->end > level->first)
		qsort(s->ways + level->first, level->end - level->first, sizeof *s->ways,
		        fullest_first);
}

/* --- one unit after another --- */

static void use_way(struct search *s, const struct search_way *w, int64_t times)
{
	for (size_t i = 0; i < w->count; i++)
		s->left[s->shares[w->first + i].kind] -= times * s->shares[w->first + i].count;
	s->slack -= times * w->slack;
	s->loss -= times * w->loss;
}

static bool all_packed(const struct search *s)
{
	for (size_t k = 0; k < s->load->kinds; k++)
		if (s->left[k])
			return false;
	return true;
}

/* Goes to the next way there is, back up where a level has none left; false when none is. */
static bool next_way(struct search *s)
{
	while (s->depth) {
		struct search_level *level = &s->level[s->depth - 1];

		if (level->next > level->first)
			use_way(s, &s->ways[level->next - 1], -1);
		if (level->next < level->end) {
			use_way(s, &s->ways[level->next++], 1);
			return true;
		}
		s->way_count = level->first;
		s->share_count = level->share;
		s->depth--;
	}
	return false;
}

enum search_state search_step(struct search *s, int64_t work)
{
	int64_t stop = s->work + work;

	if (!s->started) {
		s->started = true;
		if (s->slack < 0 || s->loss < 0)
			return SEARCH_NONE;
		list_ways(s);
	}
	while (s->work < stop) {
		if (!next_way(s))
			return s->all ? SEARCH_NONE : SEARCH_GAVE_UP;
		if (all_packed(s))
			return SEARCH_FOUND;
		if (s->depth < s->units &&
		        bound_by_long_pieces(s->load, s->left) <= s->units - s->depth)
			list_ways(s);
		s->work += 4 * (int64_t)s->load->kinds;
	}
	return SEARCH_GOING;
}

void search_take(const struct search *s, struct filled *to)
{
	for (size_t d = 0; d < s->depth; d++) {
		const struct search_way *w = &s->ways[s->level[d].next - 1];

		for (size_t i = 0; i < w->count; i++)
			filled_add(to, s->shares[w->first + i].kind, s->shares[w->first + i].count);
		filled_close(to);
	}
}
