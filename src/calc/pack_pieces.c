/* pack_pieces.c - pieces as they were given, made into kinds, and plans of kinds made into plans of
 * pieces. */
#include "pack1d.h"

#include <inttypes.h>
#include <stdlib.h>

static enum status check(const struct pack_piece *pieces, size_t kinds, int64_t unit_um,
        int64_t kerf_um, struct error *err)
{
	size_t total = 0;

	if (unit_um < 1 || unit_um > PACK_LONGEST_UM)
		return error_set(err, STATUS_PLAN,
		        "unit: %" PRId64 " um long; give from 1 um to 1 km", unit_um);
	if (kerf_um < 0 || kerf_um > PACK_LONGEST_UM)
		return error_set(
		        err, STATUS_PLAN, "kerf: %" PRId64 " um; give from 0 to 1 km", kerf_um);
	for (size_t i = 0; i < kinds; i++) {
		if (pieces[i].length_um < 1 || pieces[i].length_um > unit_um)
			return error_set(err, STATUS_PLAN,
			        "piece %zu: %" PRId64 " um long, but its unit is %" PRId64
			        " um; give a longer unit or cut the piece in two",
			        i + 1, pieces[i].length_um, unit_um);
		if (pieces[i].count > PACK_MOST_PIECES ||
		        (total += pieces[i].count) > PACK_MOST_PIECES)
			return error_set(err, STATUS_PLAN,
			        "piece %zu: more than %d pieces together; plan them in parts",
			        i + 1, PACK_MOST_PIECES);
	}
	return STATUS_OK;
}

static int longest_first(const void *a, const void *b)
{
	const struct given *x = a, *y = b;

	if (x->size != y->size)
		return x->size > y->size ? -1 : 1;
	return x->index < y->index ? -1 : x->index > y->index;
}

/* Sorts the pieces and makes kinds of those alike. */
static bool make_kinds(struct pieces *p, struct arena *mem, const struct pack_piece *pieces,
        size_t kinds, int64_t kerf_um)
{
	p->given = arena_alloc(mem, kinds, sizeof *p->given);
	p->size = arena_alloc(mem, kinds, sizeof *p->size);
	p->count = arena_alloc(mem, kinds, sizeof *p->count);
	if (!p->given || !p->size || !p->count)
		return false;
	for (size_t i = 0; i < kinds; i++) {
		p->total += pieces[i].count;
		if (pieces[i].count)
			p->given[p->given_count++] =
			        (struct given){ pieces[i].length_um + kerf_um, i, pieces[i].count };
	}
	qsort(p->given, p->given_count, sizeof *p->given, longest_first);
	for (size_t i = 0; i < p->given_count; i++) {
		if (!p->kinds || p->size[p->kinds - 1] != p->given[i].size)
			p->size[p->kinds++] = p->given[i].size;
		p->count[p->kinds - 1] += (int64_t)p->given[i].count;
	}
	return true;
}

enum status pieces_take(struct pieces *p, struct arena *mem, const struct pack_piece *pieces,
        size_t kinds, int64_t unit_um, int64_t kerf_um, struct error *err)
{
	enum status st = check(pieces, kinds, unit_um, kerf_um, err);

	*p = (struct pieces){ 0 };
	if (st != STATUS_OK)
		return st;
	return make_kinds(p, mem, pieces, kinds, kerf_um) ? STATUS_OK : error_memory(err);
}

/* Of units those with longer pieces first, and alike ones together. */
struct unit_order {
	const uint32_t *kind;
	size_t first, count;
};

static int by_kinds(const void *a, const void *b)
{
	const struct unit_order *x = a, *y = b;

	for (size_t i = 0; i < x->count && i < y->count; i++)
		if (x->kind[i] != y->kind[i])
			return x->kind[i] < y->kind[i] ? -1 : 1;
	if (x->count != y->count)
		return x->count < y->count ? -1 : 1;
	return x->first < y->first ? -1 : x->first > y->first;
}

static int by_kind(const void *a, const void *b)
{
	const uint32_t *x = a, *y = b;

	return *x < *y ? -1 : *x > *y;
}

/* The next piece of a kind as it was given. */
static size_t draw_given(const struct pieces *p, size_t *next, size_t *used, size_t kind)
{
	size_t g = next[kind];

	if (used[kind] == p->given[g].count) {
		g = ++next[kind];
		used[kind] = 0;
	}
	used[kind]++;
	return p->given[g].index;
}

/* Puts the units' kinds, and then the units, in order. */
static void order_units(struct filled *f, struct unit_order *order)
{
	for (size_t u = 0; u < f->units; u++) {
		order[u] = (struct unit_order){ f->kind + f->first[u], f->first[u],
			f->first[u + 1] - f->first[u] };
		qsort(f->kind + f->first[u], order[u].count, sizeof *f->kind, by_kind);
	}
	qsort(order, f->units, sizeof *order, by_kinds);
}

enum status pieces_write_plan(const struct pieces *p, struct arena *mem, struct filled *f,
        struct pack_plan *out, struct error *err)
{
	struct unit_order *order = arena_alloc(mem, f->units, sizeof *order);
	size_t *next = arena_alloc(mem, p->kinds, sizeof *next), n = 0;
	size_t *used = arena_alloc(mem, p->kinds, sizeof *used);

	out->unit_count = f->units;
	out->units = arena_alloc(mem, f->units, sizeof *out->units);
	out->piece = arena_alloc(mem, p->total, sizeof *out->piece);
	if (!order || !next || !used || !out->units || !out->piece)
		return error_memory(err);
	for (size_t g = 1, k = 0; g < p->given_count; g++)
		if (p->given[g].size != p->given[g - 1].size)
			next[++k] = g;
	order_units(f, order);
	for (size_t u = 0; u < f->units; u++) {
		out->units[u] = (struct pack_unit){ n, order[u].count };
		for (size_t i = 0; i < order[u].count; i++)
			out->piece[n++] = draw_given(p, next, used, order[u].kind[i]);
	}
	return STATUS_OK;
}
