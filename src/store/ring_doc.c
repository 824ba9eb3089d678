/* ring_doc.c - outlines, openings and their corners as JSON. */
#include "plan_doc.h"
#include "plan_rows.h"

#include <stddef.h>

static const char *kind_word(int value)
{
	return edge_kind_name((enum edge_kind)value);
}

const struct words kind_words = { kind_word, edge_kind_parse, EDGE_KINDS, "kind of edge" };

#define NODE(member) .at = offsetof(struct plan_node, member)
enum { CORNER = 3 }; /* the first fields: the corner alone, for a ring whose edges have no kinds */
static const struct field node_fields[] = {
	{ "x", FIELD_MM, FIELD_REQUIRED, NODE(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, NODE(y_um) },
	{ "rise", FIELD_MM, 0, NODE(rise_um) },
	{ "kind", FIELD_WORD, 0, NODE(kind), &kind_words },
	{ "border", FIELD_WHOLE, FIELD_POSITIVE, NODE(border) },
	{ "channel", FIELD_WHOLE, FIELD_POSITIVE, NODE(channel) },
};
const struct shape node_shape = SHAPE(node_fields);
static const struct shape corner_shape = { node_fields, CORNER };
const struct plan_node node_defaults = { .kind = EDGE_OPEN };

static enum status ring_nodes_read(
        struct reader *r, const struct doc *from, const struct shape *shape, struct plan_ring *ring)
{
	enum status st = doc_want_array(r, from, MOST_CORNERS);

	if (st != STATUS_OK)
		return st;
	ring->nodes = arena_alloc(r->mem, from->count, sizeof *ring->nodes);
	if (!ring->nodes)
		return error_memory(r->err);
	ring->count = 0;
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next) {
		ring->nodes[ring->count] = node_defaults;
		st = doc_read(r, d, shape, &ring->nodes[ring->count++]);
	}
	return st;
}

static void ring_nodes_write(
        struct json *j, const char *name, const struct shape *shape, const struct plan_ring *ring)
{
	json_array(j, name);
	for (size_t i = 0; i < ring->count; i++) {
		json_object_tight(j, NULL);
		doc_write(j, shape, &ring->nodes[i], &node_defaults);
		json_end(j);
	}
	json_end(j);
}

static enum status nodes_read(struct reader *r, const struct doc *from, void *to)
{
	return ring_nodes_read(r, from, &node_shape, to);
}

static void nodes_write(struct json *j, const char *name, const void *from)
{
	ring_nodes_write(j, name, &node_shape, from);
}

enum status corners_read(struct reader *r, const struct doc *from, void *to)
{
	return ring_nodes_read(r, from, &corner_shape, to);
}

void corners_write(struct json *j, const char *name, const void *from)
{
	ring_nodes_write(j, name, &corner_shape, from);
}

#define RING(member) .at = offsetof(struct plan_ring, member)
static const struct field ring_fields[] = {
	{ "closed", FIELD_BOOL, 0, RING(closed) },
	{ "nodes", FIELD_OWN, FIELD_REQUIRED, 0, .read = nodes_read, .write = nodes_write },
};
const struct shape ring_shape = SHAPE(ring_fields);
const struct plan_ring ring_defaults = { .closed = true };

/* An opening: an array of corners, or an object that can also say that it is not closed. */
static enum status ring_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_ring *ring = to;

	*ring = ring_defaults;
	return from->type == DOC_ARRAY ? nodes_read(r, from, to)
	                               : doc_read(r, from, &ring_shape, to);
}

static void ring_write(struct json *j, const char *name, const void *from)
{
	const struct plan_ring *ring = from;

	if (ring->closed) {
		nodes_write(j, name, from);
		return;
	}
	json_object(j, name);
	doc_write(j, &ring_shape, ring, &ring_defaults);
	json_end(j);
}

static enum status openings_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan *plan = to;
	enum status st = doc_want_array(r, from, MOST_RINGS);
	struct plan_ring *rings;

	if (st != STATUS_OK)
		return st;
	rings = arena_alloc(r->mem, from->count + 1, sizeof *rings);
	if (!rings)
		return error_memory(r->err);
	rings[0] = plan->rings[0];
	plan->rings = rings;
	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next)
		st = ring_read(r, d, &rings[plan->ring_count++]);
	return st;
}

static void openings_write(struct json *j, const char *name, const void *from)
{
	const struct plan *plan = from;

	if (plan->ring_count < 2)
		return;
	json_array(j, name);
	for (size_t i = 1; i < plan->ring_count; i++)
		ring_write(j, NULL, &plan->rings[i]);
	json_end(j);
}

static enum status outer_closed_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan *plan = to;

	if (from->type != DOC_BOOL)
		return doc_refuse(
		        r, from, "neither true nor false; give one of them, without quotes");
	plan->rings[0].closed = from->truth;
	return STATUS_OK;
}

static void outer_closed_write(struct json *j, const char *name, const void *from)
{
	const struct plan *plan = from;

	if (!plan->rings[0].closed)
		json_bool(j, name, false);
}

static enum status outer_nodes_read(struct reader *r, const struct doc *from, void *to)
{
	return nodes_read(r, from, &((struct plan *)to)->rings[0]);
}

static void outer_nodes_write(struct json *j, const char *name, const void *from)
{
	nodes_write(j, name, &((const struct plan *)from)->rings[0]);
}

static const struct field outline_fields[] = {
	{ "closed", FIELD_OWN, 0, 0, .read = outer_closed_read, .write = outer_closed_write },
	{ "nodes", FIELD_OWN, FIELD_REQUIRED, 0, .read = outer_nodes_read,
	        .write = outer_nodes_write },
	{ "openings", FIELD_OWN, 0, 0, .read = openings_read, .write = openings_write },
};
static const struct shape outline_shape = SHAPE(outline_fields);

enum status outline_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan *plan = to;

	plan->rings = arena_alloc(r->mem, 1, sizeof *plan->rings);
	if (!plan->rings)
		return error_memory(r->err);
	plan->rings[0] = ring_defaults;
	plan->ring_count = 1;
	return doc_read(r, from, &outline_shape, plan);
}

void outline_write(struct json *j, const char *name, const void *from)
{
	const struct plan *plan = from;

	if (!plan->ring_count)
		return;
	json_object(j, name);
	doc_write(j, &outline_shape, plan, plan);
	json_end(j);
}
