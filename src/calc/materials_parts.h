/* materials_parts.h - inside calc: the lines of an order while they are being put together. */
#ifndef SLABWRIGHT_CALC_MATERIALS_PARTS_H
#define SLABWRIGHT_CALC_MATERIALS_PARTS_H

#include "slabwright/takeoff.h"

extern const char PRACTICE[]; /* "common practice" */

struct open_line {
	struct material_line line;
	size_t room; /* for parts */
};

/* `failed` once memory is gone: then all else is left undone. */
struct making {
	struct arena *mem;
	const struct takeoff *t;
	const struct plan_costs *costs;
	struct open_line bulk[MATERIALS];
	struct open_line *pieces;
	size_t piece_count, piece_room;
	const char **notes;
	size_t note_count, note_room;
	bool failed;
};

/* What a part is for and how it was worked out; texts in the arena, NULL where memory was gone. */
struct reason {
	const char *what, *formula, *source;
};

/* Adds a part; nothing for a quantity of 0 or a material that is not used. */
void take_bulk(struct making *m, enum material which, double quantity, struct reason why);

/* A sort of piece: alike ones come into one line, which is given back (NULL: no memory). What is
 * bought of it is the sum, unless line->buy says otherwise. */
struct piece_sort {
	enum goods goods;
	const char *name;
	double kg; /* 0 unknown */
	int64_t price_minor;
	const char *note;
};
struct material_line *take_pieces(
        struct making *m, const struct piece_sort *sort, double count, struct reason why);

void take_note(struct making *m, const char *note); /* in the arena, or constant */

/* What is under and on the paving, and what is dug. */
void take_layers(struct making *m);
void take_earth(struct making *m);
/* Stabilised sand, lean concrete and mortar, as cement, sand and aggregate. */
void take_mixes(struct making *m);
/* What is bought by the piece; planters also where the paving is not ready. */
void take_paving_goods(struct making *m);
void take_planter_goods(struct making *m);

/* Loads for the plan's vehicle. STATUS_MEMORY. */
enum status haul_work_out(struct arena *mem, const struct material_line *lines, size_t count,
        bool away, int64_t payload_g, struct haul *out, struct error *err);

#endif
