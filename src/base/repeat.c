/* repeat.c - whether a repeat tiles, and whether a mix can be laid.
 *
 * A repeat tiles when its slabs, moved by every combination of the two steps, never overlap and
 * their areas add up to that of the steps' parallelogram: then there is room for nothing else. All
 * in whole micrometres, so exactly. */
#include "slabwright/plan.h"

static const int64_t LEAST_UM = 20000, MOST_UM = 5000000, MOST_SEED = 1000000000;

static bool in_reach(int64_t length, int64_t width)
{
	return length >= LEAST_UM && length <= MOST_UM && width >= LEAST_UM && width <= MOST_UM;
}

static bool lie_over(
        const struct repeat_slab *a, const struct repeat_slab *b, int64_t dx, int64_t dy)
{
	return a->x_um < b->x_um + dx + b->length_um && b->x_um + dx < a->x_um + a->length_um &&
	       a->y_um < b->y_um + dy + b->width_um && b->y_um + dy < a->y_um + a->width_um;
}

/* Whether slab b, moved by any steps but none for itself, overlaps slab a. Only steps that can
 * bring the two together are tried. */
static bool overlap(const struct plan_repeat *r, size_t first, size_t second)
{
	const struct repeat_slab *a = &r->slabs[first], *b = &r->slabs[second];
	int64_t low = (a->y_um - b->y_um - b->width_um) / r->step_y_um - 1;
	int64_t high = (a->y_um + a->width_um - b->y_um) / r->step_y_um + 1;

	for (int64_t k = low; k <= high; k++) {
		int64_t shift = k * r->slant_um;
		int64_t left = (a->x_um - b->x_um - b->length_um - shift) / r->step_x_um - 1;
		int64_t right = (a->x_um + a->length_um - b->x_um - shift) / r->step_x_um + 1;

		for (int64_t i = left; i <= right; i++)
			if ((first != second || i || k) &&
			        lie_over(a, b, shift + i * r->step_x_um, k * r->step_y_um))
				return true;
	}
	return false;
}

enum status repeat_check(const struct plan_repeat *r, const char *place, struct error *err)
{
	double area = 0, whole;

	if (!r->count || r->count > REPEAT_SLABS)
		return error_set(err, STATUS_PLAN,
		        "%srepeat: mixed bond needs a repeat of 1 to %d slabs", place,
		        REPEAT_SLABS);
	if (r->step_x_um < LEAST_UM || r->step_y_um < LEAST_UM || r->step_x_um > 20 * UM_PER_M ||
	        r->step_y_um > 20 * UM_PER_M || r->slant_um < -20 * UM_PER_M ||
	        r->slant_um > 20 * UM_PER_M)
		return error_set(
		        err, STATUS_PLAN, "%srepeat: give steps from 20 mm to 20 m", place);
	for (size_t i = 0; i < r->count; i++) {
		const struct repeat_slab *s = &r->slabs[i];

		if (!in_reach(s->length_um, s->width_um))
			return error_set(err, STATUS_PLAN,
			        "%srepeat.slabs[%zu]: give sides from 20 mm to 5 m", place, i);
		if (s->x_um < -20 * UM_PER_M || s->x_um > 20 * UM_PER_M ||
		        s->y_um < -20 * UM_PER_M || s->y_um > 20 * UM_PER_M)
			return error_set(err, STATUS_PLAN,
			        "%srepeat.slabs[%zu]: lies more than 20 m out", place, i);
		area += (double)s->length_um * (double)s->width_um;
	}
	for (size_t i = 0; i < r->count; i++)
		for (size_t j = i; j < r->count; j++)
			if (overlap(r, i, j))
				return error_set(err, STATUS_PLAN,
				        "%srepeat: slabs %zu and %zu overlap when the repeat is "
				        "repeated; it does not "
				        "tile",
				        place, i + 1, j + 1);
	whole = (double)r->step_x_um * (double)r->step_y_um;
	if (area != whole)
		return error_set(err, STATUS_PLAN,
		        "%srepeat: its slabs cover %.6f m2 of the %.6f m2 it repeats by; it leaves "
		        "gaps and does not tile",
		        place, area * 1e-12, whole * 1e-12);
	return STATUS_OK;
}

enum status mix_check(const struct plan_mix *m, const char *place, struct error *err)
{
	if (!m->count || m->count > MIX_SIZES)
		return error_set(err, STATUS_PLAN, "%smix: coursed random bond needs 1 to %d sizes",
		        place, MIX_SIZES);
	if (m->seed < 0 || m->seed > MOST_SEED)
		return error_set(err, STATUS_PLAN,
		        "%smix.seed: give a whole number from 0 to 1000000000", place);
	for (size_t i = 0; i < m->count; i++) {
		const struct mix_size *s = &m->sizes[i];

		if (!in_reach(s->length_um, s->width_um))
			return error_set(err, STATUS_PLAN,
			        "%smix.sizes[%zu]: give sides from 20 mm to 5 m", place, i);
		if (s->share < 1 || s->share > 1000000)
			return error_set(err, STATUS_PLAN,
			        "%smix.sizes[%zu].share: give from 1 to 1000000", place, i);
		for (size_t j = 0; j < i; j++)
			if (m->sizes[j].length_um == s->length_um &&
			        m->sizes[j].width_um == s->width_um)
				return error_set(err, STATUS_PLAN,
				        "%smix.sizes[%zu]: this size is there twice", place, i);
	}
	return STATUS_OK;
}
