/* guillotine_tree.c - a sheet as a tree that is not yet cut.
 *
 * A row lays its nodes side by side along one axis; what lies in it are pieces, or rows along the
 * other axis. Any such tree whose root is no larger than the sheet can be cut from edge to edge,
 * and any plan of such cuts is such a tree. Nothing says where in a row the spare room is, so a
 * piece may be put beside any node as long as the row, and all it lies in, stay within their rooms:
 * that is the same as pushing the others aside.
 *
 * The representation is after the insertion heuristics for guillotine bin packing of Fleszar
 * (2013), from memory. */
#include "guillotine_tree.h"

#include <string.h>

enum status packing_init(struct packing *p, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t pieces, struct error *err)
{
	size_t most = 2 * (size_t)pieces; /* rows have two nodes or more */

	*p = (struct packing){ .kinds = kinds, .free = NO_NODE };
	p->stock[AXIS_X] = stock[AXIS_X];
	p->stock[AXIS_Y] = stock[AXIS_Y];
	p->stock_area = stock[AXIS_X] * stock[AXIS_Y];
	p->nodes = arena_alloc(mem, most, sizeof *p->nodes);
	p->stamps = arena_alloc(mem, most, sizeof *p->stamps);
	p->undo = arena_alloc(mem, most, sizeof *p->undo);
	p->sheets = arena_alloc(mem, pieces, sizeof *p->sheets);
	p->sheet_stamps = arena_alloc(mem, pieces, sizeof *p->sheet_stamps);
	p->touched = arena_alloc(mem, pieces, sizeof *p->touched);
	p->touched_old = arena_alloc(mem, pieces, sizeof *p->touched_old);
	if (!p->nodes || !p->stamps || !p->undo || !p->sheets || !p->sheet_stamps || !p->touched ||
	        !p->touched_old)
		return error_memory(err);
	packing_mark(p);
	return STATUS_OK;
}

void packing_mark(struct packing *p)
{
	if (++p->stamp == 0) {
		memset(p->stamps, 0, p->node_count * sizeof *p->stamps);
		memset(p->sheet_stamps, 0, p->sheet_count * sizeof *p->sheet_stamps);
		p->stamp = 1;
	}
	p->undo_count = p->sheet_undo_count = 0;
	p->marked_node_count = p->node_count;
	p->marked_free = p->free;
}

void packing_undo(struct packing *p)
{
	while (p->undo_count) {
		const struct undo *u = &p->undo[--p->undo_count];

		p->nodes[u->index] = u->node;
	}
	while (p->sheet_undo_count) {
		p->sheet_undo_count--;
		p->sheets[p->touched[p->sheet_undo_count]] = p->touched_old[p->sheet_undo_count];
	}
	p->node_count = p->marked_node_count;
	p->free = p->marked_free;
	packing_mark(p);
}

/* A node that is about to be changed. */
static struct node *change(struct packing *p, uint32_t x)
{
	if (p->stamps[x] != p->stamp) {
		p->stamps[x] = p->stamp;
		p->undo[p->undo_count++] = (struct undo){ x, p->nodes[x] };
	}
	return &p->nodes[x];
}

static struct sheet *change_sheet(struct packing *p, uint32_t s)
{
	if (p->sheet_stamps[s] != p->stamp) {
		p->sheet_stamps[s] = p->stamp;
		p->touched[p->sheet_undo_count] = s;
		p->touched_old[p->sheet_undo_count++] = p->sheets[s];
	}
	return &p->sheets[s];
}

void packing_clear(struct packing *p)
{
	p->sheet_count = p->node_count = 0;
	p->free = NO_NODE;
	packing_mark(p);
}

void packing_copy(struct packing *to, const struct packing *from)
{
	memcpy(to->nodes, from->nodes, from->node_count * sizeof *to->nodes);
	memcpy(to->sheets, from->sheets, from->sheet_count * sizeof *to->sheets);
	to->node_count = from->node_count;
	to->sheet_count = from->sheet_count;
	to->free = from->free;
	packing_mark(to);
}

uint32_t packing_open(struct packing *p)
{
	p->sheets[p->sheet_count] = (struct sheet){ .root = NO_NODE };
	return p->sheet_count++;
}

void packing_close(struct packing *p, uint32_t sheet)
{
	p->sheets[sheet] = p->sheets[--p->sheet_count];
	packing_mark(p);
}

static uint32_t new_node(struct packing *p)
{
	uint32_t x = p->free;

	if (x != NO_NODE) {
		p->free = p->nodes[x].next;
	} else {
		x = p->node_count++;
	}
	*change(p, x) = (struct node){ .parent = NO_NODE,
		.first = NO_NODE,
		.last = NO_NODE,
		.next = NO_NODE,
		.prev = NO_NODE,
		.along = AXES };
	return x;
}

static void free_node(struct packing *p, uint32_t x)
{
	change(p, x)->next = p->free;
	p->free = x;
}

/* --- links --- */

static void append(struct packing *p, uint32_t row, uint32_t x)
{
	struct node *n = change(p, x), *r = change(p, row);

	n->parent = row;
	n->prev = r->last;
	n->next = NO_NODE;
	if (r->last != NO_NODE)
		change(p, r->last)->next = x;
	else
		r->first = x;
	r->last = x;
}

static void unlink_node(struct packing *p, uint32_t x)
{
	const struct node n = p->nodes[x];

	if (n.prev != NO_NODE)
		change(p, n.prev)->next = n.next;
	else
		change(p, n.parent)->first = n.next;
	if (n.next != NO_NODE)
		change(p, n.next)->prev = n.prev;
	else
		change(p, n.parent)->last = n.prev;
}

/* Puts y where x is in its row, or at the root of the sheet. */
static void replace(struct packing *p, uint32_t sheet, uint32_t x, uint32_t y)
{
	const struct node n = p->nodes[x];
	struct node *new = change(p, y);

	new->parent = n.parent;
	new->prev = n.prev;
	new->next = n.next;
	if (n.parent == NO_NODE) {
		change_sheet(p, sheet)->root = y;
		return;
	}
	if (n.prev != NO_NODE)
		change(p, n.prev)->next = y;
	else
		change(p, n.parent)->first = y;
	if (n.next != NO_NODE)
		change(p, n.next)->prev = y;
	else
		change(p, n.parent)->last = y;
}

uint32_t node_after(const struct packing *p, uint32_t root, uint32_t x)
{
	if (p->nodes[x].first != NO_NODE)
		return p->nodes[x].first;
	while (x != root && p->nodes[x].next == NO_NODE)
		x = p->nodes[x].parent;
	return x == root ? NO_NODE : p->nodes[x].next;
}

/* --- sizes --- */

/* Adds a node's size to its row's. */
static void add_size(struct packing *p, uint32_t row, const struct node *x)
{
	struct node *r = change(p, row);
	int across = !r->along;

	r->size[r->along] += x->size[r->along];
	if (r->size[across] < x->size[across])
		r->size[across] = x->size[across];
}

static void measure_sizes(struct packing *p, uint32_t root)
{
	uint32_t x = root;

	for (;;) {
		while (p->nodes[x].first != NO_NODE) {
			struct node *row = change(p, x);

			row->size[AXIS_X] = row->size[AXIS_Y] = 0;
			x = row->first;
		}
		while (x != root && p->nodes[x].next == NO_NODE) {
			add_size(p, p->nodes[x].parent, &p->nodes[x]);
			x = p->nodes[x].parent;
		}
		if (x == root)
			return;
		add_size(p, p->nodes[x].parent, &p->nodes[x]);
		x = p->nodes[x].next;
	}
}

static void measure_rooms(struct packing *p, uint32_t root)
{
	struct node *r = change(p, root);

	r->room[AXIS_X] = p->stock[AXIS_X];
	r->room[AXIS_Y] = p->stock[AXIS_Y];
	for (uint32_t x = node_after(p, root, root); x != NO_NODE; x = node_after(p, root, x)) {
		const struct node *row = &p->nodes[p->nodes[x].parent];
		int along = row->along, across = !along;
		struct node *n = change(p, x);

		n->room[along] = n->size[along] + row->room[along] - row->size[along];
		n->room[across] = row->room[across];
	}
}

void packing_measure(struct packing *p, uint32_t sheet)
{
	uint32_t root = p->sheets[sheet].root;

	if (root == NO_NODE)
		return;
	measure_sizes(p, root);
	measure_rooms(p, root);
}

/* --- placing and taking --- */

void packing_place(struct packing *p, uint32_t kind, const struct spot *spot)
{
	const struct kind *k = &p->kinds[kind];
	struct sheet *s = change_sheet(p, spot->sheet);
	uint32_t x = new_node(p);

	p->nodes[x].kind = kind;
	p->nodes[x].turned = spot->turned;
	p->nodes[x].size[AXIS_X] = k->size[spot->turned];
	p->nodes[x].size[AXIS_Y] = k->size[!spot->turned];
	s->area += k->area;
	s->pieces++;
	if (spot->node == NO_NODE) {
		s->root = x;
	} else if (p->nodes[spot->node].along == spot->along) {
		append(p, spot->node, x);
	} else {
		uint32_t row = new_node(p);

		p->nodes[row].along = spot->along;
		replace(p, spot->sheet, spot->node, row);
		append(p, row, spot->node);
		append(p, row, x);
	}
	packing_measure(p, spot->sheet);
}

/* A row left with one node gives it its own place, and where that is a row too it joins the one
 * around. */
static void dissolve(struct packing *p, uint32_t sheet, uint32_t row)
{
	uint32_t only = p->nodes[row].first, outer = p->nodes[row].parent;

	if (p->nodes[only].next != NO_NODE)
		return;
	replace(p, sheet, row, only);
	free_node(p, row);
	if (outer == NO_NODE || p->nodes[only].along != p->nodes[outer].along)
		return;
	unlink_node(p, only);
	for (uint32_t x = p->nodes[only].first, next; x != NO_NODE; x = next) {
		next = p->nodes[x].next;
		append(p, outer, x);
	}
	free_node(p, only);
}

uint32_t packing_take(struct packing *p, uint32_t sheet, uint32_t node, uint32_t *out)
{
	struct sheet *s = change_sheet(p, sheet);
	uint32_t row = p->nodes[node].parent, n = 0;

	if (row == NO_NODE)
		s->root = NO_NODE;
	else
		unlink_node(p, node);
	for (uint32_t x = node, next; x != NO_NODE; x = next) {
		next = node_after(p, node, x);
		if (p->nodes[x].along == AXES) {
			s->area -= p->kinds[p->nodes[x].kind].area;
			s->pieces--;
			out[n++] = p->nodes[x].kind;
		}
	}
	/* Freed from the last on, as freeing overwrites the links. */
	for (uint32_t x = node; x != NO_NODE;) {
		uint32_t up = p->nodes[x].parent, next = p->nodes[x].next;

		if (p->nodes[x].first != NO_NODE) {
			x = p->nodes[x].first;
			continue;
		}
		free_node(p, x);
		if (x == node)
			break;
		if (next != NO_NODE) {
			x = next;
		} else {
			change(p, up)->first = NO_NODE;
			x = up;
		}
	}
	if (s->root == NO_NODE)
		s->area = 0;
	else if (row != NO_NODE)
		dissolve(p, sheet, row);
	return n;
}
