/* cover.c - the least number of patterns, by linear programming and depth-first search.
 *
 * First the linear program (patterns by fractions) is solved by the simplex method with a dense
 * inverse of the basis. Its dual values, one a class, weigh what is still to be covered: no pattern
 * weighs more than 1, so their sum, rounded up, bounds the patterns still needed. The values are
 * scaled down until that holds for every pattern as computed, so the bound stands whatever the
 * rounding. Then the search takes the class that the fewest patterns hold, tries each of them, the
 * heaviest first, and goes back where the bound leaves no hope of fewer. It runs twice: first with
 * the whole parts of the linear program's patterns taken as given, which leaves little and finds
 * good answers soon; then without. */
#include "cover_lp.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double SURE = 1e-6;
enum {
	MOST_LISTED = 2000000, /* in the lists of all levels: 32 MB */
};

struct ranked {
	size_t pattern;
	double weight; /* as it would be used */
};

/* One level of the search: patterns that hold its class, and which of them is tried next. */
struct level {
	int class;
	size_t first, count, next; /* in the cover's lists; `next` counts from `first` */
	size_t rank; /* of the pattern that is used */
	struct cover_pattern used; /* on the way down from here */
};

enum stage { STAGE_LP, STAGE_REST, STAGE_SEARCH, STAGE_DONE };

struct cover {
	struct arena *mem;
	int classes;
	const int *demand;
	struct cover_pattern *patterns; /* singles first, by class */
	size_t pattern_count;
	enum stage stage;
	struct cover_lp lp;
	/* the search */
	double *weight; /* of a class: scaled duals */
	size_t *first, *holding; /* patterns that hold a class: holding[first[c]] ... */
	size_t *rank; /* of each pattern, the heaviest first */
	int *left;
	int64_t items_left;
	int64_t owed; /* looks taken beyond those that were given */
	struct level *levels; /* as many as `known`: deeper is never better */
	struct ranked *lists; /* of the levels in use, one behind the other */
	size_t lists_room;
	size_t depth, given; /* levels in use; the first of them are not searched */
	struct cover_pattern *best;
	size_t best_count, known, bound;
};

/* --- from the program to the search --- */

/* From the duals as they stand: weights of the classes, and the bound. */
static void weigh(struct cover *c)
{
	double heaviest = 1, sum = 0;

	for (int j = 0; j < c->classes; j++)
		c->weight[j] = fmax(0, c->lp.y[j]);
	for (size_t p = 0; p < c->pattern_count; p++)
		heaviest = fmax(heaviest, pattern_value(c->weight, &c->patterns[p]));
	for (int j = 0; j < c->classes; j++) {
		c->weight[j] /= heaviest;
		sum += c->weight[j] * c->demand[j];
	}
	c->bound = (size_t)fmax(1, ceil(sum - SURE));
}

/* --- the search --- */

static double weight_left(const struct cover *c)
{
	double sum = 0;

	for (int j = 0; j < c->classes; j++)
		sum += c->weight[j] * c->left[j];
	return sum;
}

/* The pattern without what is not needed any more. */
static struct cover_pattern as_used(const struct cover *c, size_t pattern)
{
	const struct cover_pattern *p = &c->patterns[pattern];
	struct cover_pattern used = { .count = 0 };

	for (int i = 0; i < p->count; i++) {
		int same = 0;

		for (int k = 0; k < used.count; k++)
			same += used.item[k] == p->item[i];
		if (same < c->left[p->item[i]])
			used.item[used.count++] = p->item[i];
	}
	return used;
}

static int heavier(const void *a, const void *b)
{
	const struct ranked *p = a, *q = b;

	if (p->weight != q->weight)
		return p->weight > q->weight ? -1 : 1;
	return p->pattern < q->pattern ? -1 : p->pattern > q->pattern;
}

/* The class to be covered next: the one with the fewest patterns, of these the heaviest. */
static int next_class(const struct cover *c)
{
	int best = -1;
	size_t least = 0;

	for (int j = 0; j < c->classes; j++) {
		size_t n = c->first[j + 1] - c->first[j];

		if (c->left[j] &&
		        (best < 0 || n < least || (n == least && c->weight[j] > c->weight[best]))) {
			best = j;
			least = n;
		}
	}
	return best;
}

/* Makes the lists long enough; false when memory is gone, or they would be too long. */
static bool make_room(struct cover *c, size_t need)
{
	if (need > MOST_LISTED)
		return false;
	while (c->lists_room < need) {
		struct ranked *grown =
		        arena_grow(c->mem, c->lists, c->lists_room, &c->lists_room, sizeof *grown);

		if (!grown)
			return false;
		c->lists = grown;
	}
	return true;
}

/* Opens a level for the class to be covered next. Where the level before was for the same class,
 * only patterns that rank behind its pattern are tried: the others came before it there. False when
 * there is no room for its list. */
static bool open_level(struct cover *c, int64_t *looks)
{
	struct level *l = &c->levels[c->depth];
	const struct level *before = c->depth > c->given ? l - 1 : NULL;
	struct ranked *list;
	size_t least = 0;

	l->class = next_class(c);
	if (before && before->class == l->class)
		least = before->rank;
	l->first = before ? before->first + before->count : 0;
	l->count = l->next = 0;
	if (!make_room(c, l->first + c->first[l->class + 1] - c->first[l->class]))
		return false;
	list = c->lists + l->first;
	for (size_t i = c->first[l->class]; i < c->first[l->class + 1]; i++) {
		size_t p = c->holding[i];
		struct cover_pattern used = as_used(c, p);

		if (c->rank[p] >= least)
			list[l->count++] = (struct ranked){ p, pattern_value(c->weight, &used) };
	}
	qsort(list, l->count, sizeof *list, heavier);
	*looks -= (int64_t)l->count;
	c->depth++;
	return true;
}

static void take(struct cover *c, const struct cover_pattern *used, int by)
{
	for (int i = 0; i < used->count; i++)
		c->left[used->item[i]] -= by;
	c->items_left -= by * used->count;
}

static void keep_best(struct cover *c)
{
	c->best_count = c->depth;
	for (size_t i = 0; i < c->depth; i++)
		c->best[i] = c->levels[i].used;
}

static size_t fewest(const struct cover *c)
{
	return c->best_count ? c->best_count : c->known;
}

/* Tries the next pattern of the deepest level, or goes back from it. False when the search has
 * ended. */
static bool search_on(struct cover *c, int64_t *looks)
{
	struct level *l = &c->levels[c->depth - 1];

	--*looks;
	if (l->used.count) {
		take(c, &l->used, -1);
		l->used.count = 0;
	}
	while (l->next < l->count) {
		const struct ranked *next = &c->lists[l->first + l->next];
		struct cover_pattern used = as_used(c, next->pattern);
		double still = weight_left(c) - next->weight;

		/* The others weigh less, so they leave no fewer. */
		if (c->depth + (size_t)fmax(0, ceil(still - SURE)) >= fewest(c))
			break;
		l->rank = c->rank[next->pattern];
		l->used = used;
		l->next++;
		take(c, &used, 1);
		if (!c->items_left) {
			keep_best(c);
			return fewest(c) > c->bound;
		}
		if (c->depth + 1 < fewest(c))
			return open_level(c, looks);
		take(c, &used, -1);
		l->used.count = 0;
	}
	return --c->depth > c->given;
}

/* --- the iterator --- */

static bool rank_patterns(struct cover *c)
{
	struct ranked *all = arena_alloc(c->mem, c->pattern_count, sizeof *all);

	c->rank = arena_alloc(c->mem, c->pattern_count, sizeof *c->rank);
	if (!all || !c->rank)
		return false;
	for (size_t p = 0; p < c->pattern_count; p++)
		all[p] = (struct ranked){ p, pattern_value(c->weight, &c->patterns[p]) };
	qsort(all, c->pattern_count, sizeof *all, heavier);
	for (size_t i = 0; i < c->pattern_count; i++)
		c->rank[all[i].pattern] = i;
	return true;
}

/* Takes the whole parts of the linear program's patterns. */
static void give_whole_parts(struct cover *c)
{
	for (int i = 0; i < c->classes; i++)
		for (double n = c->lp.basis[i] < 0 ? 0 : c->lp.x[i] + SURE; n >= 1; n -= 1) {
			struct cover_pattern used = as_used(c, (size_t)c->lp.basis[i]);

			if (!used.count || c->depth + 1 >= c->known)
				return;
			c->levels[c->depth++].used = used;
			take(c, &used, 1);
		}
}

static void take_back_given(struct cover *c)
{
	while (c->given > 0) {
		struct level *l = &c->levels[--c->given];

		take(c, &l->used, -1);
		l->used.count = 0;
	}
	c->depth = 0;
}

/* From the program to the search; false when there is no need of one, or no memory. */
static bool start_search(struct cover *c, int64_t *looks)
{
	weigh(c);
	if (c->bound >= c->known || !rank_patterns(c))
		return false;
	c->levels = arena_alloc(c->mem, c->known, sizeof *c->levels);
	c->best = arena_alloc(c->mem, c->known, sizeof *c->best);
	if (!c->levels || !c->best)
		return false;
	give_whole_parts(c);
	c->given = c->depth;
	c->stage = STAGE_REST;
	if (c->items_left)
		return open_level(c, looks);
	keep_best(c);
	return true;
}

/* The search of a stage has ended: by all its ways tried, or by an answer as good as the bound. */
static void next_stage(struct cover *c, int64_t *looks)
{
	bool more = fewest(c) > c->bound;

	if (more && c->depth == c->given && c->stage == STAGE_REST) {
		take_back_given(c);
		c->stage = STAGE_SEARCH;
		if (open_level(c, looks))
			return;
	} else if (more && c->depth == c->given) {
		c->bound = fewest(c);
	}
	c->stage = STAGE_DONE;
}

bool cover_step(struct cover *c, int64_t looks)
{
	looks -= c->owed;
	while (looks > 0 && c->stage != STAGE_DONE) {
		if (c->stage == STAGE_LP) {
			looks -= (int64_t)c->pattern_count + c->classes * c->classes;
			if (!cover_lp_step(&c->lp) && !start_search(c, &looks))
				c->stage = STAGE_DONE;
		} else if (c->depth == c->given || !search_on(c, &looks)) {
			next_stage(c, &looks);
		}
	}
	c->owed = looks < 0 ? -looks : 0;
	return c->stage != STAGE_DONE;
}

void cover_take_room(struct cover *c, struct cover *over)
{
	c->lists = over->lists;
	c->lists_room = over->lists_room;
	over->lists = NULL;
	over->lists_room = 0;
	over->stage = STAGE_DONE;
}

size_t cover_bound(const struct cover *c)
{
	return c->bound;
}

size_t cover_best(const struct cover *c, const struct cover_pattern **chosen, size_t *count)
{
	*chosen = c->best;
	*count = c->best_count;
	return fewest(c);
}

/* Which patterns hold each class. */
static bool list_holding(struct cover *c)
{
	size_t all = 0;

	for (int fill = 0; fill < 2; fill++) {
		if (fill && !(c->holding = arena_alloc(c->mem, all, sizeof *c->holding)))
			return false;
		all = 0;
		for (int j = 0; j < c->classes; j++) {
			c->first[j] = all;
			for (size_t p = 0; p < c->pattern_count; p++) {
				bool holds = false;

				for (int i = 0; i < c->patterns[p].count; i++)
					holds = holds || c->patterns[p].item[i] == j;
				if (holds && fill)
					c->holding[all] = p;
				all += holds;
			}
		}
		c->first[c->classes] = all;
	}
	return true;
}

enum status cover_begin(struct arena *mem, int classes, const int *demand,
        const struct cover_pattern *patterns, size_t pattern_count, size_t known,
        struct cover **out, struct error *err)
{
	struct cover *c = arena_alloc(mem, 1, sizeof *c);
	size_t n = (size_t)classes;

	if (!(*out = c))
		return error_memory(err);
	*c = (struct cover){ .mem = mem,
		.classes = classes,
		.demand = demand,
		.patterns = arena_alloc(mem, n + pattern_count, sizeof *c->patterns),
		.pattern_count = n + pattern_count,
		.weight = arena_alloc(mem, n, sizeof *c->weight),
		.first = arena_alloc(mem, n + 1, sizeof *c->first),
		.left = arena_alloc(mem, n, sizeof *c->left),
		.known = known,
		.bound = 1 };
	if (!c->patterns || !c->weight || !c->first || !c->left)
		return error_memory(err);
	for (int j = 0; j < classes; j++) {
		c->patterns[j] = (struct cover_pattern){ .item = { j }, .count = 1 };
		c->left[j] = demand[j];
		c->items_left += demand[j];
	}
	if (pattern_count)
		memcpy(c->patterns + n, patterns, pattern_count * sizeof *patterns);
	if (!list_holding(c))
		return error_memory(err);
	return cover_lp_begin(mem, &c->lp, classes, demand, c->patterns, c->pattern_count, err);
}
