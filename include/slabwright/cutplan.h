/* cutplan.h - which piece is cut from which slab, and how few slabs that takes.
 *
 * Finished-edge rule: every side of a piece that faces a joint lies on the matching edge of the
 * slab it is cut from; where no side fixes a direction the piece may slide in it. Pieces keep the
 * kerf between them. First two pieces a slab, by maximum matching (Edmonds) over the pairs that fit
 * together; then slabs are saved whose pieces fit with those of others, three or four to a slab. */
#ifndef SLABWRIGHT_CUTPLAN_H
#define SLABWRIGHT_CUTPLAN_H

#include "slabwright/lay.h"

#define SOURCE_PIECES 4

/* A piece turned by `turn` degrees anticlockwise about its position's (0, 0) and then moved by `at`
 * (um) lies where it is cut from the source slab, whose lower left corner is (0, 0) and whose
 * length runs along x. */
struct cut_place {
	size_t piece; /* index into laying.pieces */
	int turn; /* 0, 90, 180, 270 */
	struct point at;
};

struct cut_source {
	struct cut_place place[SOURCE_PIECES];
	int count;
	int size; /* of the pattern's sizes */
};

/* What the slabs of one size take. */
struct cut_size {
	size_t slabs, bound;
	const char *reason;
};

struct cutplan {
	struct cut_source *sources; /* size by size, in laying order of their first piece */
	struct cut_size of_size[PATTERN_PARTS];
	size_t slabs;
	size_t bound; /* no plan needs fewer slabs: proven */
	const char *reason; /* what proves the bound */
};

/* Plans the cuts of all pieces that are cut (not the made-up ones). */
enum status cutplan_make(struct arena *mem, const struct laying *laid,
        const struct plan_laying *laying, struct cutplan *out, struct error *err);

/* Maximum matching of a general graph given by adjacency lists: mate[v] is v's partner or SIZE_MAX.
 * neighbours[first[v]] .. neighbours[first[v + 1] - 1] are v's. Returns STATUS_MEMORY when there is
 * none. */
enum status graph_matching(struct arena *mem, size_t n, const size_t *first,
        const size_t *neighbours, size_t *mate, size_t *pairs, struct error *err);

#endif
