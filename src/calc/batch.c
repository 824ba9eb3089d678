/* batch.c - pieces in classes, so that fits are tested between classes only. */
#include "batch.h"

#include <math.h>
#include <stdlib.h>

static int compare_real(double a, double b)
{
	return a < b ? -1 : a > b;
}

/* A coordinate without the rounding of a turn. */
static double settled(double um)
{
	return round(um * 1000);
}

/* Order by shape, so that like pieces become neighbours. */
static int by_shape(const void *a, const void *b)
{
	const struct piece *p = *(const struct piece *const *)a,
	                   *q = *(const struct piece *const *)b;
	const struct ring *r = &p->shape.rings[0], *s = &q->shape.rings[0];
	int c;

	if (p->standing != q->standing)
		return p->standing ? 1 : -1;
	if (p->sides != q->sides)
		return p->sides < q->sides ? -1 : 1;
	if (p->shape.count != q->shape.count)
		return p->shape.count < q->shape.count ? -1 : 1;
	if (r->n != s->n)
		return r->n < s->n ? -1 : 1;
	for (size_t i = 0; i < r->n; i++)
		if ((c = compare_real(settled(r->p[i].x), settled(s->p[i].x))) != 0 ||
		        (c = compare_real(settled(r->p[i].y), settled(s->p[i].y))) != 0)
			return c;
	return 0;
}

enum status batch_find_classes(struct batch *p, struct error *err)
{
	const struct piece **order = arena_alloc(p->work, p->count, sizeof(const struct piece *));
	size_t *rank = arena_alloc(p->work, p->piece[p->count - 1] - p->piece[0] + 1, sizeof *rank);

	p->class_of = arena_alloc(p->work, p->count, sizeof *p->class_of);
	p->classes = arena_alloc(p->work, p->count, sizeof *p->classes);
	if (!order || !rank || !p->class_of || !p->classes)
		return error_memory(err);
	for (size_t i = 0; i < p->count; i++)
		order[i] = &p->pieces[p->piece[i]];
	qsort(order, p->count, sizeof(const struct piece *), by_shape);
	for (size_t i = 0; i < p->count; i++) {
		if (!i || by_shape(&order[i - 1], &order[i]) != 0) {
			struct class *c = &p->classes[p->class_count++];
			enum status st = shape_make(p->work, &p->stock, order[i], &c->shape, err);

			if (st != STATUS_OK)
				return st;
		}
		p->classes[p->class_count - 1].count++;
		rank[(size_t)(order[i] - p->pieces) - p->piece[0]] = p->class_count - 1;
	}
	for (size_t i = 0; i < p->count; i++)
		p->class_of[i] = rank[p->piece[i] - p->piece[0]];
	return STATUS_OK;
}

bool classes_fit(const struct batch *p, size_t a, size_t b)
{
	return p->fits[a * p->class_count + b];
}

enum status batch_test_fits(struct batch *p, struct error *err)
{
	size_t n = p->class_count;

	p->fits = arena_alloc(p->work, n, n);
	if (!p->fits)
		return error_memory(err);
	for (size_t a = 0; a < n; a++)
		for (size_t b = a; b < n; b++)
			p->fits[a * n + b] = p->fits[b * n + a] = shapes_fit(
			        &p->stock, &p->classes[a].shape, &p->classes[b].shape, NULL, NULL);
	return STATUS_OK;
}

enum status batch_match(
        struct batch *p, const bool *skip, size_t *mate, size_t *pairs, struct error *err)
{
	size_t n = p->count, edges = 0, *first = arena_alloc(p->work, n + 1, sizeof *first),
	       *neighbours = NULL;

	if (!first)
		return error_memory(err);
	for (int fill = 0; fill < 2; fill++) {
		if (fill && !(neighbours = arena_alloc(p->work, edges, sizeof *neighbours)))
			return error_memory(err);
		edges = 0;
		for (size_t i = 0; i < n; i++) {
			first[i] = edges;
			for (size_t j = 0; j < n; j++) {
				if (i == j || (skip && (skip[i] || skip[j])) ||
				        !classes_fit(p, p->class_of[i], p->class_of[j]))
					continue;
				if (fill)
					neighbours[edges] = j;
				edges++;
			}
		}
		first[n] = edges;
	}
	return graph_matching(p->work, n, first, neighbours, mate, pairs, err);
}

const struct shape *shape_of(const struct batch *p, size_t member)
{
	return &p->classes[p->class_of[member]].shape;
}

bool batch_pairs_prove(const struct batch *p)
{
	for (size_t a = 0; a < p->class_count; a++)
		for (size_t b = a; b < p->class_count; b++)
			if (!classes_fit(p, a, b) && (a != b || p->classes[a].count > 1) &&
			        !misfit_is_sure(
			                &p->stock, &p->classes[a].shape, &p->classes[b].shape))
				return false;
	return true;
}

static bool is_cut(const struct piece *piece)
{
	return piece->kind == PIECE_CUT || piece->kind == PIECE_SLIVER;
}

enum status cut_pieces(struct arena *mem, const struct piece *pieces, size_t piece_count,
        size_t stock, size_t **list, size_t *count, struct error *err)
{
	*count = 0;
	for (size_t i = 0; i < piece_count; i++)
		*count += is_cut(&pieces[i]) && pieces[i].stock == stock;
	*list = arena_alloc(mem, *count, sizeof **list);
	if (!*list)
		return error_memory(err);
	for (size_t i = 0, at = 0; i < piece_count; i++)
		if (is_cut(&pieces[i]) && pieces[i].stock == stock)
			(*list)[at++] = i;
	return STATUS_OK;
}
