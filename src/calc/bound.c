/* bound.c - what proves how few slabs will do: a set of pieces of which no two fit one slab; and
 * the matching itself where no slab can yield three. */
#include "bound.h"

/* Whether a piece of class a could share a slab with two others, as far as corners, areas and pairs
 * tell. */
static bool in_triple(const struct batch *p, size_t a)
{
	const struct class *c = p->classes;

	for (size_t b = 0; b < p->class_count; b++) {
		if (!classes_fit(p, a, b) || (a == b && c[a].count < 2))
			continue;
		for (size_t d = b; d < p->class_count; d++) {
			size_t need = 1 + (size_t)(d == a) + (size_t)(b == a);

			if (!classes_fit(p, a, d) || !classes_fit(p, b, d) ||
			        (d == b && c[b].count < 2) || c[a].count < need)
				continue;
			if (stock_holds(&p->stock,
			            c[a].shape.area + c[b].shape.area + c[d].shape.area) &&
			        c[a].shape.corners + c[b].shape.corners + c[d].shape.corners <= 4)
				return true;
		}
	}
	return false;
}

/* Three pieces share a slab only if one takes at most one corner. Without all such pieces that
 * could be the third, no slab holds three of what is left, and the matching of those is exact. */
static enum status bound_by_matching(struct batch *p, size_t *bound, bool *whole, struct error *err)
{
	bool *skip = arena_alloc(p->work, p->count, sizeof *skip);
	bool *third = arena_alloc(p->work, p->class_count, sizeof *third);
	size_t *mate = arena_alloc(p->work, p->count, sizeof *mate), left = p->count, pairs;
	enum status st;

	if (!skip || !third || !mate)
		return error_memory(err);
	for (size_t i = 0; i < p->class_count; i++)
		third[i] = p->classes[i].shape.corners < 2 && in_triple(p, i);
	for (size_t i = 0; i < p->count; i++) {
		skip[i] = third[p->class_of[i]];
		left -= skip[i];
	}
	*whole = left == p->count;
	if (*whole || !left) {
		*bound = 0;
		return STATUS_OK;
	}
	st = batch_match(p, skip, mate, &pairs, err);
	*bound = st == STATUS_OK ? left - pairs : 0;
	return st;
}

/* A set of pieces of which no two fit one slab, gathered greedily, the least sociable first. */
static enum status bound_by_strangers(struct batch *p, size_t *bound, struct error *err)
{
	size_t n = p->class_count, *friends = arena_alloc(p->work, n, sizeof *friends);
	bool *gone = arena_alloc(p->work, n, sizeof *gone);

	*bound = 0;
	if (!friends || !gone)
		return error_memory(err);
	for (size_t a = 0; a < n; a++)
		for (size_t b = 0; b < n; b++)
			friends[a] += classes_fit(p, a, b) ? p->classes[b].count : 0;
	for (;;) {
		size_t best = n;

		for (size_t a = 0; a < n; a++)
			if (!gone[a] && (best == n || friends[a] < friends[best]))
				best = a;
		if (best == n)
			return STATUS_OK;
		gone[best] = true;
		*bound += classes_fit(p, best, best) ? 1 : p->classes[best].count;
		for (size_t b = 0; b < n; b++)
			gone[b] = gone[b] || classes_fit(p, best, b);
	}
}

void raise_bound(struct cutplan *plan, size_t bound, const char *reason)
{
	if (bound > plan->bound) {
		plan->bound = bound;
		plan->reason = reason;
	}
}

enum status prove_by_pairs(struct batch *p, size_t matched, struct cutplan *plan, struct error *err)
{
	size_t bound = 0;
	bool whole = false;
	enum status st;

	if (!batch_pairs_prove(p) || plan->bound >= matched)
		return STATUS_OK;
	if ((st = bound_by_strangers(p, &bound, err)) != STATUS_OK)
		return st;
	raise_bound(plan, bound, "pairs: of that many pieces no two come from one slab");
	if (plan->bound >= matched)
		return STATUS_OK;
	if ((st = bound_by_matching(p, &bound, &whole, err)) != STATUS_OK)
		return st;
	if (whole)
		raise_bound(plan, matched,
		        "pairs: no slab yields three of the pieces, and they cannot be paired "
		        "better");
	else
		raise_bound(plan, bound,
		        "pairs: leaving aside pieces that might be a third from one slab, the "
		        "others "
		        "cannot be paired better");
	return STATUS_OK;
}
