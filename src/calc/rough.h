/* rough.h - inside the computation: under the rough rule, the pieces' bounding boxes packed by cuts
 * from edge to edge. */
#ifndef SLABWRIGHT_CALC_ROUGH_H
#define SLABWRIGHT_CALC_ROUGH_H

#include "batch.h"

struct guillotine;

/* Starts with the pieces of a batch, which must be prepared; a first plan is there at once. */
enum status rough_begin(
        struct arena *mem, const struct batch *batch, struct guillotine **out, struct error *err);

/* The best plan so far as slabs, in laying order; *sources and all in it live in mem. */
enum status rough_sources(const struct guillotine *job, const struct batch *batch, size_t stock,
        struct arena *mem, struct cut_source **sources, size_t *count, struct error *err);

/* Puts a slab's pieces, and slabs, in laying order. */
void sort_sources(struct cut_source *sources, size_t count);

#endif
