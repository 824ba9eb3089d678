/* cutplan.h - which piece is cut from which slab, and how few slabs that takes.
 *
 * Finished-edge rule: every side of a piece that faces a joint lies on the matching edge of the
 * slab it is cut from; where no side fixes a direction the piece may slide in it. Pieces keep the
 * kerf between them. First two pieces a slab, by maximum matching (Edmonds) over the pairs that fit
 * together; then slabs are saved whose pieces fit with those of others, three or four to a slab.
 * Under the rough rule, where pieces may lie anywhere, packing their bounding boxes by cuts from
 * edge to edge (guillotine.h) is tried too, and the better plan taken. */
#ifndef SLABWRIGHT_CUTPLAN_H
#define SLABWRIGHT_CUTPLAN_H

#include "slabwright/lay.h"

#define SOURCE_PIECES 4

/* A piece turned by `turn` degrees anticlockwise about its position's (0, 0) and then moved by `at`
 * (um) lies where it is cut from the source slab, whose lower left corner is (0, 0) and whose
 * length runs along x. */
struct cut_place {
	size_t piece; /* index into the pieces planned */
	int turn; /* 0, 90, 180, 270 */
	struct point at;
};

struct cut_source {
	struct cut_place *place;
	int count; /* under the finished-edge rule SOURCE_PIECES at most */
	size_t stock; /* which slab it is */
};

/* A slab that pieces are cut from: the slab itself, um, and what the saw may do. */
struct cut_stock {
	int64_t length_um, width_um, kerf_um;
	bool directional;
	enum edge_rule edges;
};

/* What the pieces of one stock take. */
struct cut_total {
	size_t slabs, bound;
	const char *reason;
};

struct cutplan {
	struct cut_source *sources; /* stock by stock, in laying order of their first piece */
	struct cut_total *of_stock;
	size_t slabs;
	size_t bound; /* no plan needs fewer slabs: proven */
	const char *reason; /* what proves the bound */
};

/* Plans the cuts of all pieces that are cut (not the made-up ones), each from its own stock. */
enum status cutplan_make(struct arena *mem, const struct piece *pieces, size_t piece_count,
        const struct cut_stock *stocks, size_t stock_count, struct cutplan *out, struct error *err);

/* A point, and a box, turned and moved as a place says. */
struct point place_point(struct point p, const struct cut_place *place);
struct box place_box(const struct box *box, const struct cut_place *place);

/* The largest rectangle that a cut slab leaves, on it: clear of the pieces' boxes, and of the kerf
 * round them. All zeroes where it leaves none. */
struct box cut_leftover(
        const struct piece *pieces, const struct cut_stock *stock, const struct cut_source *source);

/* A search for better plans and better bounds than cutplan_make's, stock by stock: every group of
 * two to four pieces that one slab yields is found, then the fewest groups that hold all pieces. It
 * leaves stocks alone that have very many shapes, and looks at no more than some ten million
 * groupings of each; it takes 200 MB at the most, and leaves the stocks alone for which they do not
 * reach. */
struct cut_search;

/* The arrays and *plan must outlive the search, which lives in mem. */
enum status cut_search_begin(struct arena *mem, const struct piece *pieces, size_t piece_count,
        const struct cut_stock *stocks, size_t stock_count, const struct cutplan *plan,
        struct cut_search **out, struct error *err);

/* Goes on for about so many looks at a grouping (a million takes some tenths of a second); false
 * when there is nothing left to do, or no memory. */
bool cut_search_step(struct cut_search *search, int64_t looks);

/* The best so far: no more slabs than the plan it began with, no lower bounds. Its arrays are good
 * until the next step. */
const struct cutplan *cut_search_best(const struct cut_search *search);

/* Maximum matching of a general graph given by adjacency lists: mate[v] is v's partner or SIZE_MAX.
 * neighbours[first[v]] .. neighbours[first[v + 1] - 1] are v's. Returns STATUS_MEMORY when there is
 * none. */
enum status graph_matching(struct arena *mem, size_t n, const size_t *first,
        const size_t *neighbours, size_t *mate, size_t *pairs, struct error *err);

#endif
