/* random_pieces.h - jobs of pieces by chance that no outline need have made. */
#ifndef TESTS_ORACLE_RANDOM_PIECES_H
#define TESTS_ORACLE_RANDOM_PIECES_H

#include "chance.h"
#include "slabwright/cutplan.h"

/* Rectangles anywhere; strips that just make up a slab, or just do not; corners; pieces with
 * slanted sides, among them halves of slabs; the same with notches. */
enum job_kind { JOB_RECTANGLES, JOB_STRIPS, JOB_CORNERS, JOB_SKEW, JOB_NOTCHED, JOB_KINDS };

struct cut_stock random_stock(struct chance *c);

/* Two pieces up to `most` of one stock, some of them alike; they live in mem. */
size_t random_pieces(struct arena *mem, struct chance *c, const struct cut_stock *stock,
        enum job_kind kind, struct piece *pieces, size_t most);

#endif
