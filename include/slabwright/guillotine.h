/* guillotine.h - rectangles out of as few stock sheets as possible, by cuts from edge to edge.
 *
 * For pieces whose cut sides may face joints: they may lie anywhere on the sheet and be turned by
 * quarter turns where that is allowed, and the blade always travels right across the sheet or the
 * part in hand. Pieces that are polygons are handed in by their bounding boxes: a plan for the
 * boxes is a plan for the pieces, but a bound for the boxes proves nothing about the polygons.
 *
 * The work is an iterator: guillotine_begin has a plan at once (under a millisecond for a hundred
 * pieces), each guillotine_step looks for a better one and for a proof, and the best so far can be
 * had at any time. The same job and seed give the same plans, however the steps are sliced.
 *
 * All lengths are micrometres. x runs along the sheet's length, y along its width, (0, 0) is a
 * corner of the sheet. */
#ifndef SLABWRIGHT_GUILLOTINE_H
#define SLABWRIGHT_GUILLOTINE_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define GUILLOTINE_MOST_PIECES 20000 /* of one job, counts included */
#define GUILLOTINE_NONE SIZE_MAX

/* What the pieces are cut from. The blade takes kerf_um (0 or more) out of the sheet at each cut;
 * what is thinner than the kerf beside a cut is lost with it. */
struct guillotine_stock {
	int64_t length_um, width_um, kerf_um;
};

struct guillotine_piece {
	int64_t length_um, width_um; /* as it lies when not turned */
	size_t count; /* how many of it; 0 asks for none */
	bool turns; /* may lie turned by a quarter turn */
};

/* A rectangle of a sheet. While cutting it is a part in hand; cut across, it leaves two others. */
struct guillotine_part {
	int64_t x_um, y_um, length_um, width_um; /* its lower left corner on the sheet, and size */
	size_t piece; /* index of the finished piece that it is, else GUILLOTINE_NONE */
	bool turned; /* that piece lies a quarter turn round */

	/* A part that is cut: first keeps its lower left corner, second lies beyond the kerf, and
	 * is GUILLOTINE_NONE where the blade leaves nothing. A part that is neither cut nor a
	 * piece is an offcut. */
	size_t first, second; /* indices into the plan's parts, both above the part's own */
	bool upright; /* the blade travels along y, else along x */
	int64_t cut_um; /* x (upright) or y where the blade's slot begins; it is one kerf wide */
};

/* The parts form a tree for each sheet; taken from a sheet's first part on, they tell the cutting
 * order: each part is listed before what is cut from it. */
struct guillotine_plan {
	struct guillotine_part *parts;
	size_t part_count;
	size_t *sheets; /* each sheet's whole, an index into parts */
	size_t sheet_count;
	size_t bound; /* no plan needs fewer sheets: proven */
	const char *reason; /* what proves the bound; static text */
};

struct guillotine;

/* Starts a job and makes a first plan. Refuses (STATUS_PLAN) sizes that are not positive or over 1
 * km, a negative kerf, a piece that does not fit the sheet, and more than GUILLOTINE_MOST_PIECES.
 * Everything, *out too, lives in the arena; the pieces are copied. The seed chooses among searches
 * that are equally good. */
enum status guillotine_begin(struct arena *mem, const struct guillotine_stock *stock,
        const struct guillotine_piece *pieces, size_t count, uint64_t seed, struct guillotine **out,
        struct error *err);

/* Searches on for about `work` units (one unit: one place looked at for one piece, some
 * nanoseconds). False when nothing is left to do: the best plan needs no more sheets than the
 * bound. Never fails, needs no memory. */
bool guillotine_step(struct guillotine *job, uint64_t work);

/* The best so far. */
size_t guillotine_sheets(const struct guillotine *job);
size_t guillotine_bound(const struct guillotine *job);

/* Writes out the best plan so far into an arena (the job's or another). */
enum status guillotine_best(const struct guillotine *job, struct arena *mem,
        struct guillotine_plan *out, struct error *err);

#endif
