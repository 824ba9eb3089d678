/* pack_first.c - plans in one pass over the pieces, and bounds by counting.
 *
 * First fit and best fit take the pieces from the longest on. Full fit takes the longest left and
 * fills its unit as full as the others can. */
#include "pack1d.h"

#include <string.h>

bool filled_init(struct filled *f, struct arena *mem, size_t pieces)
{
	*f = (struct filled){ 0 };
	f->kind = arena_alloc(mem, pieces, sizeof *f->kind);
	f->first = arena_alloc(mem, pieces + 1, sizeof *f->first);
	return f->kind && f->first;
}

void filled_clear(struct filled *f)
{
	f->units = f->pieces = 0;
}

void filled_add(struct filled *f, size_t kind, int64_t times)
{
	while (times-- > 0)
		f->kind[f->pieces++] = (uint32_t)kind;
}

void filled_close(struct filled *f)
{
	f->first[++f->units] = f->pieces;
}

void filled_copy(struct filled *to, const struct filled *from)
{
	memcpy(to->kind, from->kind, from->pieces * sizeof *to->kind);
	memcpy(to->first, from->first, (from->units + 1) * sizeof *to->first);
	to->pieces = from->pieces;
	to->units = from->units;
}

bool first_init(struct first *q, struct arena *mem, const struct load *load, size_t pieces,
        struct knapsack *sack)
{
	*q = (struct first){ .load = load, .sack = sack };
	q->left = arena_alloc(mem, load->kinds, sizeof *q->left);
	q->spare = arena_alloc(mem, pieces, sizeof *q->spare);
	q->unit_of = arena_alloc(mem, pieces, sizeof *q->unit_of);
	q->start = arena_alloc(mem, pieces + 1, sizeof *q->start);
	return q->left && q->spare && q->unit_of && q->start;
}

/* Adds the units 0 .. used - 1 that unit_of gives the pieces of count[] to. */
static void gather(struct first *q, const int64_t *count, size_t used, struct filled *to)
{
	size_t piece = 0;

	memset(q->start, 0, (used + 1) * sizeof *q->start);
	for (size_t k = 0; k < q->load->kinds; k++)
		for (int64_t i = 0; i < count[k]; i++)
			q->start[q->unit_of[piece++] + 1]++;
	for (size_t u = 0; u < used; u++) {
		q->start[u + 1] += q->start[u];
		to->first[to->units + u + 1] = to->pieces + q->start[u + 1];
	}
	piece = 0;
	for (size_t k = 0; k < q->load->kinds; k++)
		for (int64_t i = 0; i < count[k]; i++)
			to->kind[to->pieces + q->start[q->unit_of[piece++]]++] = (uint32_t)k;
	to->pieces += piece;
	to->units += used;
	q->work += 8 * (int64_t)(piece + used);
}

void first_fit(struct first *q, const int64_t *count, struct filled *to)
{
	size_t used = 0, piece = 0;

	for (size_t k = 0; k < q->load->kinds; k++)
		for (size_t i = 0, u = 0; i < (size_t)count[k]; i++) {
			while (u < used && q->spare[u] < q->load->size[k]) {
				u++;
				q->work++;
			}
			if (u == used)
				q->spare[used++] = q->load->room;
			q->spare[u] -= q->load->size[k];
			q->unit_of[piece++] = u;
		}
	gather(q, count, used, to);
}

void best_fit(struct first *q, const int64_t *count, struct filled *to)
{
	size_t used = 0, piece = 0;

	for (size_t k = 0; k < q->load->kinds; k++)
		for (int64_t i = 0; i < count[k]; i++) {
			size_t best = used;

			for (size_t u = 0; u < used; u++)
				if (q->spare[u] >= q->load->size[k] &&
				        (best == used || q->spare[u] < q->spare[best]))
					best = u;
			q->work += (int64_t)used;
			if (best == used)
				q->spare[used++] = q->load->room;
			q->spare[best] -= q->load->size[k];
			q->unit_of[piece++] = best;
		}
	gather(q, count, used, to);
}

void full_fit(struct first *q, const int64_t *count, int64_t tries, struct filled *to)
{
	const struct load *load = q->load;
	struct knapsack *sack = q->sack;

	memcpy(q->left, count, load->kinds * sizeof *q->left);
	for (size_t k = 0; k < load->kinds; k++)
		while (q->left[k]) {
			filled_add(to, k, 1);
			q->left[k]--;
			knapsack_start(sack);
			for (size_t i = k; i < load->kinds; i++)
				knapsack_add(sack, i, load->size[i], load->size[i], q->left[i]);
			knapsack_solve(sack, load->room - load->size[k], 0, tries);
			for (size_t i = 0; i < sack->count; i++) {
				filled_add(to, sack->item[i].kind, sack->best_take[i]);
				q->left[sack->item[i].kind] -= sack->best_take[i];
			}
			filled_close(to);
		}
}

size_t bound_by_length(const struct load *load, const int64_t *count)
{
	int64_t sum = 0;

	for (size_t k = 0; k < load->kinds; k++)
		sum += load->size[k] * count[k];
	return (size_t)((sum + load->room - 1) / load->room);
}

/* For each size s up to half a unit: two pieces over half a unit never share one; those over room -
 * s leave no use for pieces of s and more; and what of the pieces from s to a half finds no room
 * beside the others takes further units (the bound L2 of Martello and Toth, Discrete Applied
 * Mathematics 28, 1990; from memory). */
size_t bound_by_long_pieces(const struct load *load, const int64_t *count)
{
	size_t big = 0, from;
	int64_t halves = 0, beside = 0, small = 0, best;

	for (; big < load->kinds && 2 * load->size[big] > load->room; big++)
		halves += count[big];
	best = halves;
	from = big; /* big pieces from here on may share with pieces of s */
	for (size_t s = big; s < load->kinds; s++) {
		int64_t over;

		small += load->size[s] * count[s];
		while (from && load->size[from - 1] <= load->room - load->size[s]) {
			from--;
			beside += (load->room - load->size[from]) * count[from];
		}
		over = small > beside ? (small - beside + load->room - 1) / load->room : 0;
		best = halves + over > best ? halves + over : best;
	}
	return (size_t)best;
}
