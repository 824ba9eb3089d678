/* matching.c - maximum matching of a general graph, by Edmonds' blossoms.
 *
 * From each free vertex a breadth-first search grows an alternating tree; an edge between two even
 * vertices of the tree closes an odd cycle (a blossom), which is shrunk onto its base; an edge to a
 * free vertex ends the search, and the path to it is turned over. A greedy matching comes first, so
 * few searches are left. */
#include "slabwright/cutplan.h"

#include <stdint.h>
#include <string.h>

static const size_t NONE = SIZE_MAX;

struct search {
	size_t n;
	const size_t *first, *neighbours;
	size_t *mate, *parent, *base, *queue;
	size_t head, tail;
	bool *even; /* reached at even depth */
	bool *in_flower; /* scratch: bases inside the blossom being shrunk */
	size_t *stamp; /* scratch: which search for a common base saw a vertex last */
	size_t stamps;
	size_t *touched; /* vertices of the present tree, to be cleared after it */
	size_t touched_count;
};

static void touch(struct search *s, size_t v)
{
	s->touched[s->touched_count++] = v;
}

/* The nearest base that lies on the way from both a and b to the root. */
static size_t common_base(struct search *s, size_t a, size_t b)
{
	s->stamps++;
	for (;;) {
		a = s->base[a];
		s->stamp[a] = s->stamps;
		if (s->mate[a] == NONE)
			break;
		a = s->parent[s->mate[a]];
	}
	for (b = s->base[b]; s->stamp[b] != s->stamps; b = s->base[s->parent[s->mate[b]]])
		;
	return b;
}

/* Marks the bases from v down to the blossom's base, and turns the parents along that way round. */
static void mark_way(struct search *s, size_t v, size_t base, size_t child)
{
	while (s->base[v] != base) {
		size_t m = s->mate[v];

		s->in_flower[s->base[v]] = s->in_flower[s->base[m]] = true;
		s->parent[v] = child;
		child = m;
		v = s->parent[m];
	}
}

static void shrink(struct search *s, size_t v, size_t w)
{
	size_t base = common_base(s, v, w);

	for (size_t i = 0; i < s->touched_count; i++)
		s->in_flower[s->base[s->touched[i]]] = false;
	mark_way(s, v, base, w);
	mark_way(s, w, base, v);
	for (size_t i = 0; i < s->touched_count; i++) {
		size_t u = s->touched[i];

		if (!s->in_flower[s->base[u]])
			continue;
		s->base[u] = base;
		if (!s->even[u]) {
			s->even[u] = true;
			s->queue[s->tail++] = u;
		}
	}
}

/* Grows a tree from root; the free vertex it reaches, or NONE. */
static size_t grow(struct search *s, size_t root)
{
	s->head = s->tail = 0;
	s->even[root] = true;
	touch(s, root);
	s->queue[s->tail++] = root;
	while (s->head < s->tail) {
		size_t v = s->queue[s->head++];

		for (size_t e = s->first[v]; e < s->first[v + 1]; e++) {
			size_t w = s->neighbours[e];

			if (s->base[v] == s->base[w] || s->mate[v] == w)
				continue;
			if (w == root || (s->mate[w] != NONE && s->parent[s->mate[w]] != NONE)) {
				shrink(s, v, w);
			} else if (s->parent[w] == NONE) {
				s->parent[w] = v;
				touch(s, w);
				if (s->mate[w] == NONE)
					return w;
				s->even[s->mate[w]] = true;
				touch(s, s->mate[w]);
				s->queue[s->tail++] = s->mate[w];
			}
		}
	}
	return NONE;
}

static void turn_path(struct search *s, size_t v)
{
	while (v != NONE) {
		size_t p = s->parent[v], next = s->mate[p];

		s->mate[v] = p;
		s->mate[p] = v;
		v = next;
	}
}

static void clear_tree(struct search *s)
{
	for (size_t i = 0; i < s->touched_count; i++) {
		size_t v = s->touched[i];

		s->parent[v] = NONE;
		s->base[v] = v;
		s->even[v] = false;
	}
	s->touched_count = 0;
}

static void match_greedily(struct search *s)
{
	for (size_t v = 0; v < s->n; v++)
		for (size_t e = s->first[v]; s->mate[v] == NONE && e < s->first[v + 1]; e++) {
			size_t w = s->neighbours[e];

			if (w != v && s->mate[w] == NONE) {
				s->mate[v] = w;
				s->mate[w] = v;
			}
		}
}

enum status graph_matching(struct arena *mem, size_t n, const size_t *first,
        const size_t *neighbours, size_t *mate, size_t *pairs, struct error *err)
{
	struct search s = { .n = n, .first = first, .neighbours = neighbours, .mate = mate };

	s.parent = arena_alloc(mem, n, sizeof *s.parent);
	s.base = arena_alloc(mem, n, sizeof *s.base);
	s.queue = arena_alloc(mem, n, sizeof *s.queue);
	s.stamp = arena_alloc(mem, n, sizeof *s.stamp);
	s.touched = arena_alloc(mem, 2 * n, sizeof *s.touched);
	s.even = arena_alloc(mem, n, sizeof *s.even);
	s.in_flower = arena_alloc(mem, n, sizeof *s.in_flower);
	if (!s.parent || !s.base || !s.queue || !s.stamp || !s.touched || !s.even || !s.in_flower)
		return error_memory(err);
	for (size_t v = 0; v < n; v++) {
		mate[v] = s.parent[v] = NONE;
		s.base[v] = v;
	}
	match_greedily(&s);
	for (size_t v = 0; v < n; v++) {
		if (mate[v] != NONE)
			continue;
		turn_path(&s, grow(&s, v));
		clear_tree(&s);
	}
	*pairs = 0;
	for (size_t v = 0; v < n; v++)
		*pairs += mate[v] != NONE && mate[v] > v;
	return STATUS_OK;
}
