/* startline_exact.c - the search that ends with a proof: best bound first.
 *
 * Pairs of stretches, one along each axis, are laid in the order of the fewest slivers they can
 * have. A pair laid is a patch: all its starts have as many slivers and cuts, its widest pieces and
 * best balance follow from one laying, and the area of its cuts bounds its slabs. The most
 * promising patch is tried at its best start. Where that takes more slabs than the bound, the bound
 * is raised by planning pieces as narrow as any start of the patch has; where it is still lower,
 * the patch is split, best at a move where two of its pieces just fit one slab. */
#include "startsearch.h"

#include <math.h>
#include <stdlib.h>

/* --- the heap: the most promising patch on top --- */

static bool before(const struct patch *a, const struct patch *b)
{
	int c = merit_compare(&a->merit, &b->merit);

	if (c)
		return c < 0;
	if (a->frame != b->frame)
		return a->frame < b->frame;
	if (a->lo.um[0] != b->lo.um[0])
		return a->lo.um[0] < b->lo.um[0];
	return a->lo.um[1] < b->lo.um[1];
}

static enum status heap_push(struct start_search *s, const struct patch *p, struct error *err)
{
	struct patch *h = arena_grow(s->mem, s->heap, s->heap_count, &s->heap_room, sizeof *h);
	size_t i = s->heap_count;

	if (!h)
		return error_memory(err);
	s->heap = h;
	s->heap_count++;
	for (; i && before(p, &h[(i - 1) / 2]); i = (i - 1) / 2)
		h[i] = h[(i - 1) / 2];
	h[i] = *p;
	return STATUS_OK;
}

static struct patch heap_pop(struct start_search *s)
{
	struct patch *h = s->heap, top = h[0], last = h[--s->heap_count];
	size_t n = s->heap_count, i = 0;

	for (;;) {
		size_t child = 2 * i + 1;

		if (child >= n)
			break;
		if (child + 1 < n && before(&h[child + 1], &h[child]))
			child++;
		if (!before(&h[child], &last))
			break;
		h[i] = h[child];
		i = child;
	}
	if (n)
		h[i] = last;
	return top;
}

/* --- patches --- */

static int64_t within(int64_t v, int64_t lo, int64_t hi)
{
	return v < lo ? lo : v > hi ? hi : v;
}

/* How far to go along an axis for its widest and best balanced pieces: until those cut at the low
 * side are as wide as those cut at the high one. */
static int64_t best_way(const struct patch *p, int axis)
{
	const struct spread *s = &p->spread[axis];
	int64_t least = p->lo.um[axis] - p->at.um[axis], most = p->hi.um[axis] - p->at.um[axis];

	if (s->low == START_NO_PIECE && s->high == START_NO_PIECE)
		return within(0, least, most);
	if (s->low == START_NO_PIECE)
		return least;
	if (s->high == START_NO_PIECE)
		return most;
	return within((s->high - s->low) / 2, least, most);
}

/* Puts the patch's start at its best. */
static void settle(const struct start_search *s, struct patch *p)
{
	for (int axis = 0; axis < 2; axis++) {
		struct spread *w = &p->spread[axis];
		int64_t way = best_way(p, axis);

		p->at.um[axis] += way;
		w->low += w->low == START_NO_PIECE ? 0 : way;
		w->high -= w->high == START_NO_PIECE ? 0 : way;
	}
	merit_of_spreads(&s->frames[p->frame], p->spread, &p->merit);
}

static bool is_one_start(const struct patch *p)
{
	return p->lo.um[0] == p->hi.um[0] && p->lo.um[1] == p->hi.um[1];
}

static void doubt(struct start_search *s, const struct patch *p, int64_t slabs)
{
	struct merit m = p->merit;

	m.slabs = slabs;
	if (!s->doubted || merit_compare(&m, &s->doubt) < 0)
		s->doubt = m;
	s->doubted = true;
}

/* --- steps --- */

static enum status push_part(struct start_search *s, struct patch part, struct error *err)
{
	part.bounded = false;
	settle(s, &part);
	return list_wants(s, &part.merit) ? heap_push(s, &part, err) : STATUS_OK;
}

/* A patch too small to split, of which some start has as few slabs as the bound, leaves no doubt
 * but about how wide its pieces are. */
static enum status split_patch(
        struct start_search *s, const struct patch *p, const struct trial *t, struct error *err)
{
	struct patch low = *p, high = *p;
	struct fits fits = fits_within(s, p, t);
	struct split at = fits.at.found ? fits.at : split_in_halves(p);
	enum status st;

	if (!at.found) {
		if (p->merit.slabs < p->attained)
			doubt(s, p, p->merit.slabs);
		return STATUS_OK;
	}
	low.hi.um[at.axis] = at.first - 1;
	high.lo.um[at.axis] = at.first;
	st = push_part(s, low, err);
	return st == STATUS_OK ? push_part(s, high, err) : st;
}

/* Tries a patch at its best start; t lives in work. */
static enum status try_best(struct start_search *s, struct arena *work, const struct patch *p,
        struct trial *t, struct error *err)
{
	struct ranked row = { .move = frame_nearest(&s->frames[p->frame], p->at),
		.frame = p->frame,
		.searched = true };
	enum status st = trial_lay(s, work, p->frame, p->at, t, err);

	if (st == STATUS_OK)
		st = trial_plan(s, work, t, err);
	if (st == STATUS_OK)
		st = trial_search(s, work, t, err);
	row.merit = t->merit;
	if (st == STATUS_OK)
		list_take(s, &row);
	return st;
}

/* The bound at the corner of the patch where every two pieces fit that do so anywhere in it. */
static enum status bound_at_corner(struct start_search *s, struct patch *p, const struct fits *fits,
        int64_t *least, struct error *err)
{
	struct arena work = { 0 };
	struct trial t;
	struct patch corner = *p;
	enum status st;

	corner.at = fits->corner;
	st = try_best(s, &work, &corner, &t, err);
	if (st == STATUS_OK)
		st = trial_proven(s, &work, &t, least, err);
	p->attained = t.merit.slabs;
	arena_free(&work);
	return st;
}

/* Bounds a patch by a cut plan, and puts it back where it still promises something. */
static enum status bound_patch(struct start_search *s, struct patch *p, struct error *err)
{
	struct arena work = { 0 };
	struct trial t;
	struct fits fits;
	int64_t least = 0;
	enum status st = trial_lay(s, &work, p->frame, p->at, &t, err);

	p->bounded = true;
	p->attained = INT64_MAX;
	if (st == STATUS_OK) {
		fits = fits_within(s, p, &t);
		p->fits_hold = fits.hold;
		if (fits.dominated)
			st = bound_at_corner(s, p, &fits, &least, err);
		else
			st = patch_least_by_plan(s, &work, &t, p, fits.hold, &least, err);
	}
	arena_free(&work);
	p->merit.slabs = least > p->merit.slabs ? least : p->merit.slabs;
	return st == STATUS_OK && list_wants(s, &p->merit) ? heap_push(s, p, err) : st;
}

/* After a patch's best start has come out dearer than its bound. What is proven of that start holds
 * for all where the same pieces fit. */
static enum status look_closer(struct start_search *s, struct arena *work, const struct patch *p,
        struct trial *t, struct error *err)
{
	int64_t proven;
	enum status st = trial_proven(s, work, t, &proven, err);

	if (st != STATUS_OK)
		return st;
	if (proven < t->merit.slabs) /* the cut plan may be better than is known */
		doubt(s, p, proven);
	if (is_one_start(p) || p->fits_hold || p->merit.slabs >= proven)
		return STATUS_OK;
	return split_patch(s, p, t, err);
}

static enum status next_patch(struct start_search *s, struct error *err)
{
	struct patch p = heap_pop(s);
	struct arena work = { 0 };
	struct trial t;
	enum status st;

	if (!p.bounded && !is_one_start(&p))
		return bound_patch(s, &p, err);
	st = try_best(s, &work, &p, &t, err);
	if (st == STATUS_OK && t.merit.slabs > p.merit.slabs)
		st = look_closer(s, &work, &p, &t, err);
	arena_free(&work);
	return st;
}

/* Lays a pair of stretches in their middle. */
static enum status lay_pair(struct start_search *s, size_t frame, size_t ix, size_t iy,
        struct patch *p, struct error *err)
{
	const struct start_frame *f = &s->frames[frame];
	const struct stretch *x = &f->stretches[0][ix], *y = &f->stretches[1][iy];
	struct arena work = { 0 };
	struct trial t;
	enum status st;

	*p = (struct patch){ .frame = frame,
		.lo = { { x->lo, y->lo } },
		.hi = { { x->hi, y->hi } },
		.at = { { x->lo + (x->hi - x->lo) / 2, y->lo + (y->hi - y->lo) / 2 } } };
	st = trial_lay(s, &work, frame, p->at, &t, err);
	if (st == STATUS_OK) {
		p->merit = t.merit;
		p->spread[0] = t.spread[0];
		p->spread[1] = t.spread[1];
		st = patch_least(s, &work, &t, p, &p->merit.slabs, err);
	}
	arena_free(&work);
	settle(s, p);
	return st;
}

static enum status next_pair(
        struct start_search *s, size_t frame, size_t ix, size_t iy, struct error *err)
{
	struct patch p;
	struct arena work = { 0 };
	struct trial t;
	enum status st = lay_pair(s, frame, ix, iy, &p, err);

	if (st != STATUS_OK || !list_wants(s, &p.merit))
		return st;
	if (!s->any_patch || merit_compare(&p.merit, &s->best_patch) < 0) {
		s->any_patch = true; /* so that there is something to show early */
		s->best_patch = p.merit;
		st = try_best(s, &work, &p, &t, err);
		arena_free(&work);
	}
	return st == STATUS_OK ? heap_push(s, &p, err) : st;
}

/* Whether pairs not laid yet could come into the list, and before every patch. */
static bool pairs_first(const struct start_search *s)
{
	const struct walk *w = &s->walk;

	if (w->level < 0 ||
	        (s->count == START_ROWS && s->list[s->count - 1].merit.slivers < w->level))
		return false;
	return !s->heap_count || s->heap[0].merit.slivers >= w->level;
}

enum status exact_step(struct start_search *s, struct error *err)
{
	size_t frame, ix, iy;
	enum status st;

	if (!s->bounded) {
		bool ready;

		st = stretches_step(s, &ready, err);
		if (st == STATUS_OK && ready) {
			s->bounded = true;
			walk_begin(s);
		}
		return st;
	}
	if (pairs_first(s) && walk_next(s, &frame, &ix, &iy))
		return next_pair(s, frame, ix, iy, err);
	if (!s->heap_count || !list_wants(s, &s->heap[0].merit)) {
		s->done = true;
		return STATUS_OK;
	}
	return next_patch(s, err);
}

/* Whether nothing is left that could have fewer slivers than the best, or as few and fewer slabs.
 */
static bool settled(const struct start_search *s)
{
	const struct merit *best = &s->list[0].merit, *top;

	if (!s->bounded || s->failed || (s->walk.level >= 0 && s->walk.level <= best->slivers))
		return false;
	if (!s->heap_count)
		return true;
	top = &s->heap[0].merit;
	return top->slivers > best->slivers ||
	       (top->slivers == best->slivers && top->slabs >= best->slabs);
}

int64_t exact_least_slabs(const struct start_search *s)
{
	const struct merit *best = &s->list[0].merit;

	if (!settled(s))
		return 0;
	return s->doubted && s->doubt.slivers == best->slivers && s->doubt.slabs < best->slabs
	               ? s->doubt.slabs
	               : best->slabs;
}

bool exact_proven(const struct start_search *s)
{
	const struct merit *best = &s->list[0].merit;

	return settled(s) && (!s->heap_count || merit_compare(&s->heap[0].merit, best) >= 0) &&
	       (!s->doubted || merit_compare(&s->doubt, best) >= 0);
}
