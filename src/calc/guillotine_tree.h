/* guillotine_tree.h - inside the computation: sheets as trees of rows and columns.
 *
 * Here every size is a piece's or the sheet's own plus one kerf: in those the kerf is nothing. */
#ifndef SLABWRIGHT_CALC_GUILLOTINE_TREE_H
#define SLABWRIGHT_CALC_GUILLOTINE_TREE_H

#include "slabwright/guillotine.h"

#define NO_NODE UINT32_MAX

enum { AXIS_X, AXIS_Y, AXES };

/* Pieces of one size. */
struct kind {
	int64_t size[AXES]; /* as they lie when not turned, by axis */
	int64_t area; /* um2 */
	int ways; /* 2 where turning is allowed, fits and makes a difference, else 1 */
	uint32_t count;
	size_t piece; /* index among the caller's pieces */
};

/* A piece, or a row of nodes side by side along an axis whose parent is a row along the other. */
struct node {
	int64_t size[AXES]; /* what it covers */
	int64_t room[AXES]; /* what it may cover while all others stay as they are */
	uint32_t parent, first, last, next, prev; /* next also links what is free */
	uint32_t kind; /* of a piece */
	uint8_t along; /* the axis of a row; AXES for a piece */
	bool turned;
};

struct sheet {
	uint32_t root; /* NO_NODE when empty */
	uint32_t pieces;
	int64_t area; /* of its pieces */
};

/* What a change overwrote. */
struct undo {
	uint32_t index;
	struct node node;
};

struct packing {
	int64_t stock[AXES];
	int64_t stock_area;
	const struct kind *kinds;
	struct node *nodes;
	struct sheet *sheets;
	uint32_t sheet_count, node_count; /* nodes ever used */
	uint32_t free; /* first of the nodes given back */

	/* Since the last packing_mark: the nodes changed, and the sheets as they were. */
	struct undo *undo;
	uint32_t *stamps, *sheet_stamps, stamp;
	uint32_t undo_count, sheet_undo_count;
	uint32_t *touched; /* sheets */
	struct sheet *touched_old;
	uint32_t marked_node_count, marked_free;

	uint64_t work; /* units spent */
};

/* What counts against a place: room left over along and across the row there, and how far the piece
 * is lower or higher than what it lies beside; on an empty sheet, room left over by axis. */
struct taste {
	double along, across, step, empty[AXES];
};

/* A place for a piece: beside a node, along an axis. */
struct spot {
	uint32_t sheet, node;
	uint8_t along;
	bool turned;
	double score;
};

/* Room for `pieces` in as many sheets. */
enum status packing_init(struct packing *p, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t pieces, struct error *err);

/* Forgets all sheets. */
void packing_clear(struct packing *p);
/* to becomes as from is; both were made for the same pieces. */
void packing_copy(struct packing *to, const struct packing *from);

/* What is done from here on can be undone, but for sheets added and closed. */
void packing_mark(struct packing *p);
void packing_undo(struct packing *p);

/* Adds an empty sheet at the end. */
uint32_t packing_open(struct packing *p);
/* Takes an empty sheet away; the last one gets its number. */
void packing_close(struct packing *p, uint32_t sheet);

/* The best place on a sheet for a piece of a kind, where it is better than spot->score. */
bool packing_look(struct packing *p, uint32_t sheet, uint32_t kind, const struct taste *taste,
        struct spot *spot);
void packing_place(struct packing *p, uint32_t kind, const struct spot *spot);

/* Takes a node off its sheet and writes the kinds of its pieces to out; how many. The sheet must be
 * measured before it is looked at again. */
uint32_t packing_take(struct packing *p, uint32_t sheet, uint32_t node, uint32_t *out);
/* Brings sizes and rooms up to date. */
void packing_measure(struct packing *p, uint32_t sheet);

/* The node after x of the tree under root, parents first; NO_NODE at the end. */
uint32_t node_after(const struct packing *p, uint32_t root, uint32_t x);

#endif
