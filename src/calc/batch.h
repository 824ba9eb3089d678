/* batch.h - inside the computation: cut pieces of one stock, sorted into classes that are alike. */
#ifndef SLABWRIGHT_CALC_BATCH_H
#define SLABWRIGHT_CALC_BATCH_H

#include "group.h"

/* Pieces alike in shape and sides. */
struct class
{
	struct shape shape;
	size_t count;
};

/* Pieces of one stock that are planned together. Everything lives in `work`. */
struct batch {
	struct arena *work;
	const struct piece *pieces; /* all that are planned */
	struct stock stock;
	struct class *classes;
	size_t class_count;
	bool *fits; /* class_count x class_count */
	const size_t *piece; /* cut pieces, by laying order: index into pieces */
	size_t *class_of; /* of each of those */
	size_t count;
};

/* Finds the classes; work, pieces, stock, piece and count are set by the caller. Then which of them
 * fit one slab together, all by all. */
enum status batch_find_classes(struct batch *p, struct error *err);
enum status batch_test_fits(struct batch *p, struct error *err);

bool classes_fit(const struct batch *p, size_t a, size_t b);
const struct shape *shape_of(const struct batch *p, size_t member);

/* Matches the batch's pieces by pairs that fit, leaving out those marked in skip (may be NULL):
 * mate[i] is i's partner or SIZE_MAX. */
enum status batch_match(
        struct batch *p, const bool *skip, size_t *mate, size_t *pairs, struct error *err);

/* Whether all pairs that do not fit are sure not to. */
bool batch_pairs_prove(const struct batch *p);

/* The pieces of a stock that are cut, by index: *list in mem. */
enum status cut_pieces(struct arena *mem, const struct piece *pieces, size_t piece_count,
        size_t stock, size_t **list, size_t *count, struct error *err);

#endif
