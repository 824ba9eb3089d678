/* guillotine_plan.c - the cuts of each sheet, in order.
 *
 * A row is cut off node by node from its lower left end on, each first to its size along the row,
 * then across it; what is left of the part after the last node is an offcut. */
#include "guillotine_plan.h"

/* A node and the part that it is to be cut from; a row is cut from its node `from` on. */
struct pending {
	uint32_t node, from;
	size_t part;
};

struct writer {
	const struct packing *packing;
	const bool *flipped;
	int64_t kerf;
	struct guillotine_plan *out;
	struct pending *pending;
	size_t pending_count;
};

static size_t add_part(struct writer *w, int64_t x, int64_t y, int64_t length, int64_t width)
{
	w->out->parts[w->out->part_count] = (struct guillotine_part){ .x_um = x,
		.y_um = y,
		.length_um = length,
		.width_um = width,
		.piece = GUILLOTINE_NONE,
		.first = GUILLOTINE_NONE,
		.second = GUILLOTINE_NONE };
	return w->out->part_count++;
}

static void push(struct writer *w, uint32_t node, uint32_t from, size_t part)
{
	w->pending[w->pending_count++] = (struct pending){ node, from, part };
}

/* Cuts a part at `size` along an axis; the first part's index. What is thinner than the kerf behind
 * it is lost. */
static size_t cut(struct writer *w, size_t part, int along, int64_t size)
{
	struct guillotine_part *p = &w->out->parts[part];
	int64_t left = (along == AXIS_X ? p->length_um : p->width_um) - size - w->kerf;

	p->upright = along == AXIS_X;
	p->cut_um = (p->upright ? p->x_um : p->y_um) + size;
	if (p->upright) {
		p->first = add_part(w, p->x_um, p->y_um, size, p->width_um);
		if (left > 0)
			p->second = add_part(w, p->cut_um + w->kerf, p->y_um, left, p->width_um);
	} else {
		p->first = add_part(w, p->x_um, p->y_um, p->length_um, size);
		if (left > 0)
			p->second = add_part(w, p->x_um, p->cut_um + w->kerf, p->length_um, left);
	}
	return p->first;
}

/* The same part, or what is kept of it once it is no longer than `size` along the axis. */
static size_t trim(struct writer *w, size_t part, int along, int64_t size)
{
	const struct guillotine_part *p = &w->out->parts[part];

	return (along == AXIS_X ? p->length_um : p->width_um) > size ? cut(w, part, along, size)
	                                                             : part;
}

static void write_piece(struct writer *w, const struct node *n, size_t part)
{
	const struct kind *k = &w->packing->kinds[n->kind];

	part = trim(w, part, AXIS_X, n->size[AXIS_X] - w->kerf);
	part = trim(w, part, AXIS_Y, n->size[AXIS_Y] - w->kerf);
	w->out->parts[part].piece = k->piece;
	w->out->parts[part].turned = n->turned != w->flipped[n->kind];
}

/* One node off the row; the rest of the row from the rest of the part. */
static void write_row(struct writer *w, const struct pending *at, const struct node *row)
{
	uint32_t node = at->from;
	size_t part =
	        trim(w, at->part, row->along, w->packing->nodes[node].size[row->along] - w->kerf);

	if (w->packing->nodes[node].next != NO_NODE)
		push(w, at->node, w->packing->nodes[node].next, w->out->parts[at->part].second);
	push(w, node, w->packing->nodes[node].first, part);
}

static void write_sheet(struct writer *w, uint32_t root, size_t part)
{
	push(w, root, w->packing->nodes[root].first, part);
	while (w->pending_count) {
		struct pending at = w->pending[--w->pending_count];
		const struct node *n = &w->packing->nodes[at.node];

		if (n->along == AXES)
			write_piece(w, n, at.part);
		else
			write_row(w, &at, n);
	}
}

enum status packing_write(const struct packing *p, const struct guillotine_stock *stock,
        const bool *flipped, struct arena *mem, struct guillotine_plan *out, struct error *err)
{
	struct writer w = { .packing = p, .flipped = flipped, .kerf = stock->kerf_um, .out = out };

	/* A node is cut off by two cuts or fewer (a piece by three), of two parts each. */
	out->parts = arena_alloc(
	        mem, 6 * (size_t)p->node_count + p->sheet_count + 1, sizeof *out->parts);
	out->sheets = arena_alloc(mem, (size_t)p->sheet_count + 1, sizeof *out->sheets);
	w.pending = arena_alloc(mem, 2 * (size_t)p->node_count + 1, sizeof *w.pending);
	if (!out->parts || !out->sheets || !w.pending)
		return error_memory(err);
	out->part_count = 0;
	out->sheet_count = p->sheet_count;
	for (uint32_t i = 0; i < p->sheet_count; i++) {
		out->sheets[i] = add_part(&w, 0, 0, stock->length_um, stock->width_um);
		write_sheet(&w, p->sheets[i].root, out->sheets[i]);
	}
	return STATUS_OK;
}
