/* stance_push.c - rectangles pushed apart, see stance.h.
 *
 * All ways to part them by cuts along the slab's sides are gone through, or all ways to say of
 * every two which comes first and in which direction; each time they are pushed as far down and
 * left as that allows, until one leaves its range. */
#include "sawn.h"
#include "stance.h"

#include <check.h>
#include <string.h>

struct pushed {
	const struct stance *const *s;
	double kerf, move[SOURCE_PIECES][2];
	int count, relation[SOURCE_PIECES][SOURCE_PIECES]; /* 1: i before j in x, 2: in y; 0: no */
};

static double low_side(const struct pushed *t, int i, int axis)
{
	return t->move[i][axis] + (axis ? t->s[i]->box.y0 : t->s[i]->box.x0);
}

static double high_side(const struct pushed *t, int i, int axis)
{
	return t->move[i][axis] + (axis ? t->s[i]->box.y1 : t->s[i]->box.x1);
}

/* Pushes all as far to the low end as their relations allow; false where one leaves its range. */
static bool push(struct pushed *t, int axis)
{
	bool moved = true;

	for (int i = 0; i < t->count; i++)
		t->move[i][axis] = t->s[i]->lo[axis];
	while (moved) {
		moved = false;
		for (int i = 0; i < t->count; i++)
			for (int j = 0; j < t->count; j++) {
				double by = high_side(t, i, axis) + t->kerf - low_side(t, j, axis);

				if (t->relation[i][j] != axis + 1 || by < 1e-4)
					continue;
				t->move[j][axis] += by;
				if (t->move[j][axis] > t->s[j]->hi[axis] + 1e-3)
					return false;
				moved = true;
			}
	}
	return true;
}

/* Goes through the relations of the pairs from (i, j) on. */
static bool relate_pairs(struct pushed *t, int i, int j)
{
	if (i + 1 == t->count)
		return true;
	if (j == t->count)
		return relate_pairs(t, i + 1, i + 2);
	for (int r = 0; r < 4; r++) {
		int axis = r / 2;

		t->relation[i][j] = r % 2 ? 0 : axis + 1;
		t->relation[j][i] = r % 2 ? axis + 1 : 0;
		if (push(t, axis) && relate_pairs(t, i, j + 1))
			return true;
		t->relation[i][j] = t->relation[j][i] = 0;
	}
	return false;
}

static void set_relations(struct pushed *t, unsigned before, unsigned behind, int relation)
{
	for (int i = 0; i < t->count; i++)
		for (int j = 0; j < t->count; j++)
			if (before >> i & 1 && behind >> j & 1)
				t->relation[i][j] = relation;
}

/* Goes through the ways to cut the sets up, each into single pieces: a cut has those before it and
 * those behind it. */
static bool cut_up(struct pushed *t, const unsigned *sets, int n)
{
	unsigned rest[SOURCE_PIECES + 1], set;

	while (n && !(sets[n - 1] & (sets[n - 1] - 1)))
		n--;
	if (!n)
		return true;
	set = sets[n - 1];
	memcpy(rest, sets, (size_t)n * sizeof *rest);
	for (unsigned one = (set - 1) & set; one; one = (one - 1) & set)
		for (int axis = 0; axis < 2; axis++) {
			rest[n - 1] = one;
			rest[n] = set & ~one;
			set_relations(t, rest[n - 1], rest[n], axis + 1);
			if (push(t, axis) && cut_up(t, rest, n + 1))
				return true;
			set_relations(t, rest[n - 1], rest[n], 0);
		}
	return false;
}

/* What was found is looked at again by the hulls. */
static void check_pushed(GEOSContextHandle_t g, struct pushed *p)
{
	GEOSGeometry *placed[SOURCE_PIECES];

	push(p, 0);
	push(p, 1);
	for (int i = 0; i < p->count; i++)
		placed[i] = stance_set_down(g, p->s[i], p->move[i][0], p->move[i][1]);
	ck_assert(sawn_apart(g, (const GEOSGeometry *const *)placed, p->count, p->kerf / 1000));
	for (int i = 0; i < p->count; i++)
		GEOSGeom_destroy_r(g, placed[i]);
}

bool stances_push_apart(GEOSContextHandle_t g, const struct stance *const *stances, int count,
        double kerf, bool by_cuts)
{
	struct pushed p = { .s = stances, .kerf = kerf, .count = count };
	unsigned all = (1U << count) - 1;

	if (!by_cuts)
		return relate_pairs(&p, 0, 1);
	if (!cut_up(&p, &all, 1))
		return false;
	check_pushed(g, &p);
	return true;
}
