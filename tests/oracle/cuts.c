/* cuts.c - see cuts.h. */
#include "cuts.h"

#include <stdlib.h>
#include <string.h>

static bool same(
        const struct guillotine_part *p, int64_t x, int64_t y, int64_t length, int64_t width)
{
	return p->x_um == x && p->y_um == y && p->length_um == length && p->width_um == width;
}

static bool is_cut(const struct guillotine_part *p)
{
	return p->first != GUILLOTINE_NONE;
}

static const char *cut_fault(const struct guillotine_plan *plan, size_t at, int64_t kerf)
{
	const struct guillotine_part *p = &plan->parts[at];
	int64_t begin = p->upright ? p->x_um : p->y_um;
	int64_t end = begin + (p->upright ? p->length_um : p->width_um);
	int64_t beyond = p->cut_um + kerf;
	const struct guillotine_part *first = &plan->parts[p->first], *second = NULL;

	if (p->piece != GUILLOTINE_NONE)
		return "a finished piece is cut";
	if (p->cut_um <= begin || p->cut_um >= end)
		return "a cut lies outside its part";
	if (p->first <= at || p->first >= plan->part_count)
		return "a part comes before what it is cut from";
	if (p->upright ? !same(first, p->x_um, p->y_um, p->cut_um - begin, p->width_um)
	               : !same(first, p->x_um, p->y_um, p->length_um, p->cut_um - begin))
		return "the part before a cut is not what the cut leaves";
	if (p->second == GUILLOTINE_NONE)
		return beyond < end ? "the part beyond a cut is missing" : NULL;
	if (p->second <= at || p->second >= plan->part_count || p->second == p->first)
		return "the part beyond a cut is not one of its own";
	second = &plan->parts[p->second];
	if (beyond >= end ||
	        (p->upright ? !same(second, beyond, p->y_um, end - beyond, p->width_um)
	                    : !same(second, p->x_um, beyond, p->length_um, end - beyond)))
		return "the part beyond a cut is not what the cut leaves";
	return NULL;
}

static const char *piece_fault(const struct guillotine_part *p,
        const struct guillotine_piece *pieces, size_t count, size_t *done)
{
	const struct guillotine_piece *piece;

	if (p->piece >= count)
		return "a piece that nobody asked for";
	piece = &pieces[p->piece];
	done[p->piece]++;
	if (p->turned && !piece->turns)
		return "a piece is turned that may not be";
	if (p->length_um != (p->turned ? piece->width_um : piece->length_um) ||
	        p->width_um != (p->turned ? piece->length_um : piece->width_um))
		return "a piece has not its size";
	return NULL;
}

static bool too_near(const struct guillotine_part *p, const struct guillotine_part *q, int64_t kerf)
{
	return p->x_um < q->x_um + q->length_um + kerf && q->x_um < p->x_um + p->length_um + kerf &&
	       p->y_um < q->y_um + q->width_um + kerf && q->y_um < p->y_um + p->width_um + kerf;
}

/* Walks the parts of one sheet, marking them, and lists its pieces. */
static const char *sheet_fault(const struct guillotine_stock *stock,
        const struct guillotine_piece *pieces, size_t count, const struct guillotine_plan *plan,
        size_t sheet, size_t *done, bool *seen, const struct guillotine_part **found, size_t *stack)
{
	size_t waiting = 0, n = 0;
	const char *fault = NULL;

	if (sheet >= plan->part_count ||
	        !same(&plan->parts[sheet], 0, 0, stock->length_um, stock->width_um))
		return "a sheet is not a whole sheet";
	stack[waiting++] = sheet;
	while (waiting && !fault) {
		size_t at = stack[--waiting];
		const struct guillotine_part *p = &plan->parts[at];

		if (seen[at])
			return "a part is cut out twice";
		seen[at] = true;
		if (is_cut(p)) {
			if (!(fault = cut_fault(plan, at, stock->kerf_um))) {
				if (p->second != GUILLOTINE_NONE)
					stack[waiting++] = p->second;
				stack[waiting++] = p->first;
			}
		} else if (p->piece != GUILLOTINE_NONE) {
			fault = piece_fault(p, pieces, count, done);
			found[n++] = p;
		}
	}
	if (!n && !fault)
		return "a sheet yields no piece";
	for (size_t i = 0; i < n && !fault; i++) {
		const struct guillotine_part *p = found[i];

		if (p->x_um < 0 || p->y_um < 0 || p->x_um + p->length_um > stock->length_um ||
		        p->y_um + p->width_um > stock->width_um)
			return "a piece sticks out of the sheet";
		for (size_t j = 0; j < i; j++)
			if (too_near(p, found[j], stock->kerf_um))
				return "two pieces are nearer than the kerf";
	}
	return fault;
}

const char *cuts_fault(const struct guillotine_stock *stock, const struct guillotine_piece *pieces,
        size_t count, const struct guillotine_plan *plan)
{
	size_t *done = calloc(count + 1, sizeof *done);
	size_t *stack = calloc(plan->part_count + 1, sizeof *stack);
	bool *seen = calloc(plan->part_count + 1, sizeof *seen);
	const struct guillotine_part **found =
	        calloc(plan->part_count + 1, sizeof(const struct guillotine_part *));
	const char *fault = NULL;

	if (plan->bound > plan->sheet_count)
		fault = "the bound is above the plan";
	for (size_t i = 0; i < plan->sheet_count && !fault; i++)
		fault = sheet_fault(
		        stock, pieces, count, plan, plan->sheets[i], done, seen, found, stack);
	for (size_t i = 0; i < plan->part_count && !fault; i++)
		if (!seen[i])
			fault = "a part belongs to no sheet";
	for (size_t i = 0; i < count && !fault; i++)
		if (done[i] != pieces[i].count)
			fault = "a piece is not there as often as asked for";
	free(done);
	free(stack);
	free(seen);
	free(found);
	return fault;
}

/* --- brute force --- */

struct boxes {
	int64_t (*size)[2];
	size_t count, room;
};

/* Adds the size of a block where no block as small is known. */
static void add_box(struct boxes *b, int64_t length, int64_t width)
{
	size_t kept = 0;

	for (size_t i = 0; i < b->count; i++)
		if (b->size[i][0] <= length && b->size[i][1] <= width)
			return;
	for (size_t i = 0; i < b->count; i++)
		if (b->size[i][0] < length || b->size[i][1] < width) {
			b->size[kept][0] = b->size[i][0];
			b->size[kept++][1] = b->size[i][1];
		}
	b->count = kept;
	if (b->count == b->room) {
		b->room = b->room * 2 + 8;
		b->size = realloc(b->size, b->room * sizeof *b->size);
	}
	b->size[b->count][0] = length;
	b->size[b->count++][1] = width;
}

static int64_t larger(int64_t a, int64_t b)
{
	return a > b ? a : b;
}

static void join(struct boxes *to, const struct boxes *a, const struct boxes *b, int64_t kerf)
{
	for (size_t i = 0; i < a->count; i++)
		for (size_t j = 0; j < b->count; j++) {
			const int64_t *p = a->size[i], *q = b->size[j];

			add_box(to, p[0] + kerf + q[0], larger(p[1], q[1]));
			add_box(to, larger(p[0], q[0]), p[1] + kerf + q[1]);
		}
}

size_t cuts_by_brute_force(
        const struct guillotine_stock *stock, const struct guillotine_piece *pieces, size_t count)
{
	struct boxes boxes[1 << MOST_BRUTE] = { 0 };
	size_t sheets[1 << MOST_BRUTE] = { 0 }, sets = (size_t)1 << count;

	for (size_t set = 1; set < sets; set++) {
		struct boxes *b = &boxes[set];
		bool one = false;

		for (size_t i = 0; i < count; i++)
			if (set == (size_t)1 << i) {
				add_box(b, pieces[i].length_um, pieces[i].width_um);
				if (pieces[i].turns)
					add_box(b, pieces[i].width_um, pieces[i].length_um);
			}
		/* All ways to part the set in two, by the first and by the last cut alike. */
		for (size_t sub = (set - 1) & set; sub > (set ^ sub); sub = (sub - 1) & set)
			join(b, &boxes[sub], &boxes[set ^ sub], stock->kerf_um);
		for (size_t i = 0; i < b->count; i++)
			one = one || (b->size[i][0] <= stock->length_um &&
			                     b->size[i][1] <= stock->width_um);
		sheets[set] = one ? 1 : count;
		for (size_t sub = (set - 1) & set; sub && !one; sub = (sub - 1) & set)
			if (sheets[sub] + sheets[set ^ sub] < sheets[set])
				sheets[set] = sheets[sub] + sheets[set ^ sub];
	}
	for (size_t set = 0; set < sets; set++)
		free(boxes[set].size);
	return count ? sheets[sets - 1] : 0;
}
