/* startsearch.h - inside the computation: the parts of the search for start lines.
 *
 * A move is how far a start lies from the plan's own, um along the axes of the pattern frame. */
#ifndef SLABWRIGHT_CALC_STARTSEARCH_H
#define SLABWRIGHT_CALC_STARTSEARCH_H

#include "slabwright/startline.h"

struct move {
	int64_t um[2]; /* along AXIS_X, AXIS_Y */
};

/* What starts are ranked by. */
struct merit {
	int64_t slivers, slabs, cuts, smallest_um, balance_um;
};

/* The narrowest cut pieces of the field across one axis, START_NO_PIECE for none. A move up the
 * axis widens those cut at their low side and narrows those cut at the high one. */
struct spread {
	int64_t low, high;
	int64_t rest; /* of pieces cut at neither side, or at both: a move leaves them as wide */
};

/* Stretches of moves along one axis: by turns a single place where counts change, and what lies
 * between it and the next. */
struct stretch {
	int64_t lo, hi; /* moves, both ends in */
	int64_t slivers; /* no start here has fewer, whatever the other axis does */
};

/* The bond as it lies, or turned. */
struct start_frame {
	int64_t turn_udeg;
	struct plan_laying laying; /* turned, with the plan's start */
	struct pattern pattern;
	struct region region; /* of the field, in the pattern frame of the plan's start */
	int64_t repeat_um[2]; /* a move by it changes nothing, or by it and some of the other axis
	                       */
	int64_t from_um[2]; /* the least move worth trying */
	int64_t whole_um[2]; /* the widest slab */
	struct stretch *stretches[2]; /* by slivers; of exact search */
	size_t count[2];
	int64_t *places[2]; /* moves where counts change, of the edges that run along an axis */
	size_t place_count[2];
};

/* A start in the list. */
struct ranked {
	struct merit merit;
	struct move move;
	size_t frame;
	bool searched; /* its cut plan, for fewer slabs */
};

/* Moves of which all have the same pieces, save for their widths. */
struct patch {
	struct merit merit; /* no start among them is better */
	size_t frame;
	struct move lo, hi; /* both in */
	struct move at; /* the one whose pieces are widest and best balanced */
	struct spread spread[2]; /* there */
	bool bounded; /* by a cut plan */
	bool fits_hold; /* pieces that fit one slab at one start do so at all */
	int64_t attained; /* some start has so few slabs; INT64_MAX: none tried */
};

/* Pairs of stretches, in the order of the fewest slivers they can have. */
struct walk {
	int64_t level, next; /* slivers; of the pairs after those; -1: there are none */
	size_t frame, ix, iy, iy_end;
	bool inside;
};

/* The stretch to be bounded next. */
struct bounding {
	size_t frame, at;
	enum axis axis;
};
struct strips;

enum sample_stage { SAMPLE_GRID, SAMPLE_FINE, SAMPLE_PLANS };
struct sampling {
	enum sample_stage stage;
	int level; /* of the grid: cells halve from one to the next */
	size_t frame, at; /* next of the grid */
	struct ranked rows[START_ROWS]; /* being refined */
	size_t row_count, row;
	int64_t step_um;
	int way;
	bool moved;
	struct ranked centre;
};

struct start_search {
	struct arena *mem;
	const struct takeoff *t;
	struct start_frame frames[2];
	size_t frame_count;
	const bool *of_field; /* by stocks: the field takes it */
	struct ranked list[START_ROWS];
	size_t count;
	struct ranked now;
	bool exact_way, done, failed;
	/* Pieces fit one slab by sums of two widths: none is set down anywhere, and none comes from
	 * elsewhere than the field. pieces_turn: by 90 degrees too, so that one width may be along
	 * x and the other along y. */
	bool by_sums, pieces_turn;
	int64_t tried, work; /* work: left of this slice */
	/* exact */
	struct bounding bounding;
	struct strips *strips;
	bool bounded; /* all stretches are */
	struct walk walk;
	struct patch *heap;
	size_t heap_count, heap_room;
	bool doubted; /* some start could be better, for all the bounds say: */
	struct merit doubt;
	bool any_patch;
	struct merit best_patch;
	/* sampled */
	struct sampling sampling;
	int64_t grid_um, fine_um;
};

/* --- startline_frame.c --- */

/* Prepares a frame: its region, pattern and places. *along: every edge runs along an axis. */
enum status frame_make(struct start_search *s, int64_t turn_udeg, struct start_frame *f,
        bool *along, struct error *err);
/* Whether the bond turned by 90 degrees is another one. */
bool frame_turn_matters(const struct plan_laying *laying);
/* The move that comes to the same and is nearest to none; its start is within reach where one is.
 */
struct move frame_nearest(const struct start_frame *f, struct move m);
/* The start that a move gives, in the plan. */
void frame_start(const struct start_frame *f, struct move m, int64_t *x_um, int64_t *y_um);

/* --- startline_stretch.c --- */

bool stretches_fit(const struct start_frame *f); /* false: they would be too many */
/* Cuts the moves of the frames into stretches and bounds them, one at a time; *ready: all are. */
enum status stretches_step(struct start_search *s, bool *ready, struct error *err);
void walk_begin(struct start_search *s);
/* The next pair of stretches; false when there is none. */
bool walk_next(struct start_search *s, size_t *frame, size_t *ix, size_t *iy);

/* --- startline_try.c --- */

/* A start laid. */
struct trial {
	struct paving paving;
	struct merit merit; /* slabs: first no more than a bound by area */
	struct spread spread[2];
	struct paving planned; /* the same with only the pieces that `cuts` plans */
	struct cutplan cuts; /* once planned */
};
enum status trial_lay(struct start_search *s, struct arena *work, size_t frame, struct move m,
        struct trial *out, struct error *err);
/* Plans its cuts, and where that is not proven least, searches for fewer slabs within limits:
 * merit.slabs is what is ordered then. */
enum status trial_search(
        struct start_search *s, struct arena *work, struct trial *t, struct error *err);
enum status trial_plan(
        struct start_search *s, struct arena *work, struct trial *t, struct error *err);
/* No fewer slabs than *slabs are ordered at this start: by areas and large pieces; and by what is
 * proven of its cut plan once it has one. */
enum status trial_least(struct start_search *s, struct arena *work, struct trial *t, int64_t *slabs,
        struct error *err);
enum status trial_proven(struct start_search *s, struct arena *work, struct trial *t,
        int64_t *slabs, struct error *err);
/* Nor at any start of the patch, of whose starts t is the one at patch->at: by areas and large
 * pieces; and by a cut plan of pieces as narrow as any start has them, or where it is known that
 * pieces which fit one slab at this start do so at all, and no others, by a cut plan of these
 * pieces with the least areas. */
enum status patch_least(struct start_search *s, struct arena *work, const struct trial *t,
        const struct patch *p, int64_t *slabs, struct error *err);
enum status patch_least_by_plan(struct start_search *s, struct arena *work, const struct trial *t,
        const struct patch *p, bool fits_hold, int64_t *slabs, struct error *err);
/* From spreads to merit.smallest_um and balance_um. */
void merit_of_spreads(const struct start_frame *f, const struct spread spread[2], struct merit *m);
void spreads_of(const struct section *field, struct spread spread[2]);

/* --- startline_split.c --- */

/* Where to split a patch: moves along the axis up to first - 1, and from there on. */
struct split {
	int axis;
	int64_t first;
	double off_middle;
	bool found;
};

/* Which pieces fit one slab over a patch. */
struct fits {
	struct split at; /* a move along one axis at which two begin to fit, or cease to */
	bool hold; /* the same at all starts */
	bool dominated; /* at `corner` all fit that do so at any start */
	struct move corner;
};
struct fits fits_within(const struct start_search *s, const struct patch *p, const struct trial *t);
/* found is false where that is not worth while. */
struct split split_in_halves(const struct patch *p);

/* --- startline_list.c --- */

int merit_compare(const struct merit *a, const struct merit *b); /* < 0: a is better */
/* Whether a start of that merit would come into the list. */
bool list_wants(const struct start_search *s, const struct merit *m);
void list_take(struct start_search *s, const struct ranked *row);
/* Lays and plans a start and takes it in, unless its bound rules it out. Its cut plan is the first
 * one. */
enum status list_try(struct start_search *s, size_t frame, struct move m, struct merit *merit,
        struct error *err);

/* Searches the cut plan of a row for fewer slabs; false in *any when all rows are searched. */
enum status list_search(struct start_search *s, bool *any, struct error *err);

/* --- startline_exact.c, startline_sample.c --- */

enum status exact_step(struct start_search *s, struct error *err);
int64_t exact_least_slabs(const struct start_search *s); /* 0: not known yet */
bool exact_proven(const struct start_search *s);
void sample_begin(struct start_search *s);
enum status sample_step(struct start_search *s, struct error *err);

#endif
