/* guillotine_bound.c - area, dual feasible functions, and pieces that cannot share a sheet.
 *
 * A dual feasible function f of a side C maps sizes to [0, 1] so that sizes adding up to C or less
 * get values adding up to 1 or less. With one for each side, the sum over a sheet's pieces of f of
 * one size times g of the other is 1 or less (Fekete and Schepers), so the sum over all pieces
 * bounds the sheets. Used are the size itself, leaving out the small and filling up with the large
 * (Martello and Toth), and counting in steps (Carlier, Clautiaux and Moukrim); from memory.
 *
 * A piece that may turn counts as the lesser of its two ways. On a square sheet every plan is also
 * a plan turned over its diagonal, so there each piece may count as half of both.
 *
 * The bounds hold for any plan without overlap, whether it can be cut from edge to edge or not. */
#include "guillotine_bound.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_STEPS = 48, MOST_FUNCTIONS = 2 * MOST_STEPS + 1 };

enum function { BY_SIZE, WITHOUT_SMALL, BY_STEPS };

/* A sum of a great many roundings is right to 1 part in 10^9: what is not more counts as equal. */
static size_t rounded_up(double sum)
{
	return (size_t)ceil(sum - sum * 1e-9);
}

static void raise_bound(struct bound *b, size_t least, const char *reason)
{
	if (least > b->least) {
		b->least = least;
		b->reason = reason;
	}
}

static double value_of(enum function f, int64_t side, int64_t step, int64_t size)
{
	int64_t steps;

	if (f == BY_SIZE)
		return (double)size / (double)side;
	if (f == WITHOUT_SMALL)
		return size < step ? 0 : size > side - step ? 1 : (double)size / (double)side;
	steps = side / step;
	if (2 * size == side)
		return 0.5;
	if (2 * size > side)
		return 1 - (double)((side - size) / step) / (double)steps;
	return (double)(size / step) / (double)steps;
}

static int by_size(const void *a, const void *b)
{
	int64_t p = *(const int64_t *)a, q = *(const int64_t *)b;

	return p < q ? -1 : p > q;
}

/* The steps worth trying: where some size's value jumps. At most MOST_STEPS, spread evenly. */
static size_t list_steps(struct bound *b, int axis)
{
	int64_t side = b->stock[axis], *steps = b->steps;
	size_t n = 0, kept = 0;

	for (uint32_t k = 0; k < b->kind_count; k++)
		for (int turned = 0; turned < 2; turned++) {
			int64_t size = b->kinds[k].size[axis ^ turned];
			int64_t step = 2 * size > side ? side - size : size;

			if (step > 0 && 2 * step <= side)
				steps[n++] = step;
			if (2 * size > side && step > 0 && 2 * (step + 1) <= side)
				steps[n++] = step + 1;
		}
	qsort(steps, n, sizeof *steps, by_size);
	for (size_t i = 0; i < n; i++)
		if (!kept || steps[i] != steps[kept - 1])
			steps[kept++] = steps[i];
	if (kept <= MOST_STEPS)
		return kept;
	for (size_t i = 0; i < MOST_STEPS; i++)
		steps[i] = steps[i * (kept - 1) / (MOST_STEPS - 1)];
	return MOST_STEPS;
}

static void add_function(struct bound *b, int axis, enum function f, int64_t step)
{
	double *w = b->weights[axis] + (size_t)b->functions[axis]++ * 2 * b->kind_count;

	for (uint32_t k = 0; k < b->kind_count; k++)
		for (int turned = 0; turned < 2; turned++) {
			int64_t size = b->kinds[k].size[axis ^ turned];

			/* A way that does not fit is never weighed. */
			w[2 * k + (uint32_t)turned] =
			        size > b->stock[axis] ? 1 : value_of(f, b->stock[axis], step, size);
		}
}

enum status bound_init(struct bound *b, struct arena *mem, const int64_t stock[AXES],
        const struct kind *kinds, uint32_t kind_count, struct error *err)
{
	size_t sizes = 2 * (size_t)kind_count; /* each kind has one for each way it lies */
	double area = 0, whole = (double)stock[AXIS_X] * (double)stock[AXIS_Y];

	*b = (struct bound){ .kinds = kinds, .kind_count = kind_count };
	b->steps = arena_alloc(mem, 2 * sizes, sizeof *b->steps);
	b->chosen = arena_alloc(mem, kind_count, sizeof *b->chosen);
	if (!b->steps || !b->chosen)
		return error_memory(err);
	for (int axis = 0; axis < AXES; axis++) {
		b->stock[axis] = stock[axis];
		b->weights[axis] = arena_alloc(mem, sizes * MOST_FUNCTIONS, sizeof(double));
		if (!b->weights[axis])
			return error_memory(err);
	}
	for (uint32_t k = 0; k < kind_count; k++)
		area += kinds[k].count * ((double)kinds[k].area / whole);
	b->reason = "there is nothing to cut";
	raise_bound(b, rounded_up(area), "area: the pieces and their cuts fill that many sheets");
	return STATUS_OK;
}

static void list_functions(struct bound *b, uint64_t *work)
{
	for (int axis = 0; axis < AXES; axis++) {
		size_t n = list_steps(b, axis);

		add_function(b, axis, BY_SIZE, 0);
		for (size_t i = 0; i < n; i++) {
			add_function(b, axis, WITHOUT_SMALL, b->steps[i]);
			add_function(b, axis, BY_STEPS, b->steps[i]);
		}
		*work += 4 * b->functions[axis] * (b->kind_count + 1);
	}
}

/* One function along x with every one along y. */
static void weigh(struct bound *b, uint32_t f, uint64_t *work)
{
	const double *v = b->weights[AXIS_X] + (size_t)f * 2 * b->kind_count;
	bool square = b->stock[AXIS_X] == b->stock[AXIS_Y];

	for (uint32_t g = 0; g < b->functions[AXIS_Y]; g++) {
		const double *w = b->weights[AXIS_Y] + (size_t)g * 2 * b->kind_count;
		double lesser = 0, half = 0;

		for (uint32_t k = 0; k < b->kind_count; k++) {
			double lying = v[2 * k] * w[2 * k], turned = v[2 * k + 1] * w[2 * k + 1];
			double n = b->kinds[k].count;

			lesser += n * (b->kinds[k].ways == 2 ? fmin(lying, turned) : lying);
			half += n * (lying + turned) / 2;
		}
		raise_bound(b, rounded_up(lesser),
		        "weights: pieces weighed by dual feasible functions of their sides fill "
		        "that many sheets");
		if (square)
			raise_bound(b, rounded_up(half),
			        "weights: pieces weighed by dual feasible functions of their "
			        "sides, half for each way they lie, fill that many sheets");
	}
	*work += b->functions[AXIS_Y] * (b->kind_count / 4 + 1);
}

static bool can_share(const struct bound *b, const struct kind *a, const struct kind *c)
{
	for (int i = 0; i < a->ways; i++)
		for (int j = 0; j < c->ways; j++)
			for (int axis = 0; axis < AXES; axis++)
				if (a->size[axis ^ i] + c->size[axis ^ j] <= b->stock[axis])
					return true;
	return false;
}

/* Pieces of which no two can share a sheet, gathered greedily from one kind on: its own, then the
 * largest that are strange to all so far. Kinds come by falling area. */
static void gather_strangers(struct bound *b, uint32_t start, uint64_t *work)
{
	size_t n = can_share(b, &b->kinds[start], &b->kinds[start]) ? 1 : b->kinds[start].count;

	for (uint32_t k = 0; k < b->kind_count; k++) {
		bool strange = k != start && !can_share(b, &b->kinds[k], &b->kinds[start]);

		for (uint32_t j = 0; strange && j < k; j++)
			strange = !b->chosen[j] || !can_share(b, &b->kinds[k], &b->kinds[j]);
		b->chosen[k] = strange;
		if (strange)
			n += can_share(b, &b->kinds[k], &b->kinds[k]) ? 1 : b->kinds[k].count;
		*work += k + 1;
	}
	raise_bound(b, n, "pairs: of that many pieces no two can come from one sheet");
}

bool bound_step(struct bound *b, uint64_t *work)
{
	if (!b->functions[AXIS_X])
		list_functions(b, work);
	if (b->next < b->functions[AXIS_X])
		weigh(b, b->next, work);
	else if (b->next - b->functions[AXIS_X] < b->kind_count)
		gather_strangers(b, b->next - b->functions[AXIS_X], work);
	else
		return false;
	b->next++;
	return true;
}
