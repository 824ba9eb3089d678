/* cutplan.h - which piece is cut from which slab, and how few slabs that takes.
 *
 * Finished-edge rule: every side of a piece that faces a joint lies on the matching edge of the
 * slab it is cut from; where no side fixes a direction the piece may slide in it. Pieces keep the
 * kerf between them. Two pieces a slab, by maximum matching (Edmonds) over the pairs that fit
 * together. */
#ifndef SLABWRIGHT_CUTPLAN_H
#define SLABWRIGHT_CUTPLAN_H

#include "slabwright/lay.h"

#define SOURCE_PIECES 2

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
};

struct cutplan {
	struct cut_source *sources; /* in laying order of their first piece */
	size_t slabs;
	size_t bound; /* no plan needs fewer slabs: proven */
	const char *reason; /* what proves the bound */
};

/* Plans the cuts of all pieces that are cut (not the made-up ones). */
enum status cutplan_make(struct arena *mem, const struct laying *laid,
        const struct plan_laying *laying, struct cutplan *out, struct error *err);

/* Whether two pieces can come from one slab; if so *a and *b say how (piece indices are not set).
 */
bool cut_pair_fits(const struct piece *pa, const struct piece *pb, const struct plan_laying *laying,
        struct cut_place *a, struct cut_place *b);

/* Maximum matching of a general graph given by adjacency lists: mate[v] is v's partner or SIZE_MAX.
 * neighbours[first[v]] .. neighbours[first[v + 1] - 1] are v's. Returns STATUS_MEMORY when there is
 * none. */
enum status graph_matching(struct arena *mem, size_t n, const size_t *first,
        const size_t *neighbours, size_t *mate, size_t *pairs, struct error *err);

#endif
