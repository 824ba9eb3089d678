/* pack1d.h - what the parts of the packing share.
 *
 * Inside, a piece's size is its length and a kerf, a unit's room its length and a kerf, and pieces
 * of one size are a kind; kinds stand in order of size, the largest first. */
#ifndef CALC_PACK1D_H
#define CALC_PACK1D_H

#include "slabwright/pack.h"

struct load {
	size_t kinds;
	const int64_t *size; /* of each kind, strictly decreasing */
	int64_t room;
};

/* Units filled so far: unit u holds the kinds kind[first[u]] .. kind[first[u + 1] - 1]. */
struct filled {
	uint32_t *kind;
	size_t *first; /* one more than there are units */
	size_t units, pieces;
};

/* Room for that many pieces, each perhaps in a unit of its own. */
bool filled_init(struct filled *f, struct arena *mem, size_t pieces);
void filled_add(struct filled *f, size_t kind, int64_t times); /* to the unit being filled */
void filled_close(struct filled *f); /* that unit is complete */
void filled_clear(struct filled *f);
void filled_copy(struct filled *to, const struct filled *from);

/* --- pack_pieces.c: pieces as they were given --- */

struct given {
	int64_t size;
	size_t index, count;
};

struct pieces {
	struct given *given; /* in order of size, the largest first */
	size_t given_count, total;
	int64_t *size, *count; /* of each kind */
	size_t kinds;
};

/* Checks the pieces as pack_begin says, and makes kinds of them. */
enum status pieces_take(struct pieces *p, struct arena *mem, const struct pack_piece *pieces,
        size_t kinds, int64_t unit_um, int64_t kerf_um, struct error *err);
/* Writes units of kinds as units of pieces; the kinds within a unit are put in order. */
enum status pieces_write_plan(const struct pieces *p, struct arena *mem, struct filled *f,
        struct pack_plan *out, struct error *err);

/* --- pack_way.c: the best way to fill one unit --- */

struct way_item {
	int64_t size, value, most; /* of a piece; and how many of them there are */
	double ratio; /* value over size */
	uint32_t kind;
};

/* A bounded knapsack. Items are added, then solved once. */
struct knapsack {
	struct arena *mem;
	struct way_item *item;
	size_t count;
	int64_t *take, *best_take; /* of each item, in the order of item[] */
	int64_t *least; /* smallest size from here on */
	size_t *taken; /* which items are taken, in order */
	int64_t best, limit; /* best value; and a value no way exceeds */
	int64_t *by_size; /* best value for each room */
	uint64_t *lots; /* which lots are used with it */
	size_t size_room, lot_room;
	size_t lot_count, words, at_item, at_lot; /* how far settling has come */
	int64_t step, small_room;
	int64_t work; /* steps taken, added up over all calls */
};

bool knapsack_init(struct knapsack *k, struct arena *mem, size_t kinds);
void knapsack_start(struct knapsack *k);
void knapsack_add(struct knapsack *k, size_t kind, int64_t size, int64_t value, int64_t most);

/* Finds the way of greatest value over `floor` (k->best, k->best_take; best is floor and nothing is
 * taken where there is none). After `tries` steps it stops with what it has: then k->limit may be
 * larger than k->best. */
void knapsack_solve(struct knapsack *k, int64_t room, int64_t floor, int64_t tries);

/* Where that stopped early: the greatest value by sizes, in steps until one says true. With
 * most_work for all sizes and items it is exact; else sizes are taken a little smaller, and only
 * k->limit is lowered. The first is false when memory is gone. */
bool knapsack_settle(struct knapsack *k, int64_t room, int64_t most_work);
bool knapsack_settle_step(struct knapsack *k);

/* --- pack_first.c: quick plans and quick bounds --- */

struct first {
	const struct load *load;
	int64_t *left; /* of each kind, to be packed; used up */
	int64_t *spare; /* of each unit being filled */
	size_t *unit_of, *start; /* of each piece; of each unit */
	struct knapsack *sack;
	int64_t work;
};

bool first_init(struct first *q, struct arena *mem, const struct load *load, size_t pieces,
        struct knapsack *sack);

/* Each adds units to `to` that hold all pieces of count[]. */
void first_fit(struct first *q, const int64_t *count, struct filled *to);
void best_fit(struct first *q, const int64_t *count, struct filled *to);
void full_fit(struct first *q, const int64_t *count, int64_t tries, struct filled *to);

/* Bounds by length, and by long pieces. */
size_t bound_by_length(const struct load *load, const int64_t *count);
size_t bound_by_long_pieces(const struct load *load, const int64_t *count);

/* --- pack_price.c: units in fractions --- */

struct way_share {
	uint32_t kind, count;
};

struct way {
	size_t first, count; /* its shares */
	bool usable; /* holds no more of any kind than are left */
};

#define PRICE_ONE (INT64_C(1) << 30)

enum price_state { PRICE_GOING, PRICE_BEST, PRICE_NO_MEMORY };

struct price {
	struct arena *mem;
	const struct load *load;
	struct knapsack *sack;
	size_t m; /* kinds */
	const int64_t *left;
	double *inverse, *x, *pi, *column, *demand; /* m x m, then m each */
	double *cost; /* of each place of the basis */
	int32_t *basis; /* ways, and what stands for other columns */
	uint32_t *spot;
	int64_t *remain; /* of each kind */
	struct way_share *shares;
	size_t share_count, share_room;
	struct way *ways;
	size_t way_count, way_room;
	size_t bound; /* proven, for what was left when the demand was set */
	int64_t *value, *proof,
	        value_limit; /* the values that prove it, and the most a unit holds of them */
	double proven; /* the bound before rounding up */
	double total; /* units in fractions */
	bool settling; /* the knapsack is being settled */
	int64_t settle_work; /* that may be spent to settle what trying leaves open */
	int64_t work;
	size_t pivots;
};

bool price_init(struct price *p, struct arena *mem, const struct load *load, struct knapsack *sack);
/* Starts anew for these pieces, some of every kind; they must stay until the next demand. */
bool price_demand(struct price *p, const int64_t *left);
/* Adds the ways of a plan to those known. */
bool price_know(struct price *p, const struct filled *f);
/* Goes on from where it stands with other pieces left. */
void price_change_demand(struct price *p, const int64_t *left);
enum price_state price_step(struct price *p);

/* --- pack_basis.c: its basis --- */

/* Bring a way, or more than is needed of a kind, into the basis, which gains so much a unit of it;
 * false where nothing stops it, which only rounding can bring about. */
bool basis_enter_way(struct price *p, size_t at, double gain);
bool basis_enter_surplus(struct price *p, size_t kind, double gain);
/* Fits the basis to the demand. Where ways would be used less than nothing, one dear column stands
 * in for all of these and soon leaves again. */
void basis_settle(struct price *p);
/* Room to keep a basis, and a copy of it, either way. */
bool basis_save_init(struct price *to, const struct price *p, struct arena *mem);
void basis_copy(struct price *to, const struct price *from, size_t m);

/* --- pack_search.c: all ways, one unit after another --- */

enum search_state { SEARCH_GOING, SEARCH_FOUND, SEARCH_NONE, SEARCH_GAVE_UP };

struct search_level {
	size_t first, next, end; /* its ways among those listed; which comes next */
	size_t share; /* where their shares begin */
};

struct search_way {
	size_t first, count; /* its shares */
	int64_t slack, loss;
};

struct search {
	struct arena *mem;
	const struct load *load;
	int64_t *left, *taken, *value;
	int64_t *size_after, *value_after; /* of all that is left from a kind on */
	double *ratio_after; /* greatest value for size from a kind on */
	uint32_t *changed; /* scratch */
	struct search_level *level;
	size_t depth, units;
	int64_t slack, loss; /* that may still be wasted */
	int64_t value_limit;
	struct search_way *ways;
	struct way_share *shares;
	size_t way_count, way_room, most_ways, share_count, share_room;
	bool started, all; /* begun; no way was passed over */
	int64_t work;
};

/* Room to pack that many pieces, with at most that many ways listed at a time. */
bool search_init(
        struct search *s, struct arena *mem, const struct load *load, size_t pieces, size_t ways);
/* To pack count[] in so many units. value[] of which no unit holds more than value_limit help to
 * see what is in vain; NULL: none. */
void search_start(struct search *s, const int64_t *count, size_t units, const int64_t *value,
        int64_t value_limit);
enum search_state search_step(struct search *s, int64_t work);
void search_take(const struct search *s, struct filled *to); /* what was found */

/* --- pack_dive.c: whole units out of units in fractions --- */

enum dive_state { DIVE_GOING, DIVE_FOUND, DIVE_FAILED, DIVE_NO_MEMORY };

struct dive {
	const struct load *load;
	struct price *price, top; /* prices of all pieces */
	struct first *first;
	struct search bottom;
	int64_t *left;
	struct filled out, tried;
	size_t aim, dives;
	uint64_t mix;
	double noise, enough;
};

bool dive_init(
        struct dive *d, struct arena *mem, struct price *price, struct first *first, size_t pieces);
void dive_top(struct dive *d); /* the prices are those of all pieces */
void dive_start(struct dive *d, const int64_t *count, size_t aim);
enum dive_state dive_step(struct dive *d); /* found: the plan is d->out */

#endif
