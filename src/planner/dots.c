/* dots.c - slabs drawn with braille dots, where lines are too coarse for them.
 *
 * A column holds two dots side by side and a row four over each other, so that dots are a quarter
 * of a cell apart both ways. A dot stands where its middle lies in another slab than that of the
 * dot on its left or below it: between the two is a joint. The sketch is drawn from below, a row of
 * dots at a time. */
#include "sketch.h"
#include "zones.h"

#include <string.h>

enum { ACROSS = 2, UP = 4, KINDS = PIECE_MADE_UP + 1 };
enum { LARGE = 8 }; /* dots along the shorter side of a slab that leaves columns without a joint */

/* What is drawn in one column. */
struct tally {
	unsigned char dots; /* by their numbers, as glyph_dots takes them */
	unsigned char laid, of_kind[KINDS]; /* how many of the eight middles */
};

struct dots {
	const struct sketch *s;
	struct spotter spotter;
	double step; /* from dot to dot, um */
	int count; /* dots across the sketch */
	struct spot *here, *below; /* this row and the one under it; [0] is left of the sketch */
	struct tally *tallies;
	bool large;
};

static bool joint_between(const struct dots *d, const struct spot *a, const struct spot *b)
{
	if (!a->section || !b->section || spot_same(a, b))
		return false;
	return a->section != b->section || spot_view(&d->spotter, a)->look != LOOK_MARKS;
}

/* A joint that rises to the right is met twice, above it by one dot and beside it by the next: the
 * second is left out, so that it looks as thin as one that falls. */
static bool stands(const struct dots *d, int i)
{
	const struct spot *here = &d->here[i], *left = &d->here[i - 1], *below = &d->below[i],
	                  *corner = &d->below[i - 1];

	if (joint_between(d, here, below))
		return true;
	return joint_between(d, here, left) &&
	       !(joint_between(d, left, corner) && spot_same(here, corner));
}

/* Goes up to the row of dots at height y. */
static void next_row(struct dots *d, double y)
{
	double x = sketch_x(d->s, 0) - 1.5 * d->step;
	struct spot *was = d->below;

	d->below = d->here;
	d->here = was;
	spot_line(&d->spotter, x, y, d->step, d->count + 1, d->here, d->below);
}

/* Adds the row of dots to the columns; `up` is its place in them, 0 the lowest. */
static void count_row(struct dots *d, int up)
{
	static const unsigned char number[UP][ACROSS] = { { 7, 8 }, { 3, 6 }, { 2, 5 }, { 1, 4 } };

	for (int i = 1; i <= d->count; i++) {
		struct tally *t = &d->tallies[(i - 1) / ACROSS];

		if (!d->here[i].section)
			continue;
		t->laid++;
		t->of_kind[spot_kind(&d->here[i])]++;
		if (stands(d, i))
			t->dots |= (unsigned char)(1u << (number[up][(i - 1) % ACROSS] - 1));
	}
}

/* The kind that takes at least half of the column; among those that are not whole, the commonest.
 */
static enum piece_kind kind_of(const struct tally *t)
{
	int kind = PIECE_CUT;

	if (2 * t->of_kind[PIECE_WHOLE] > t->laid)
		return PIECE_WHOLE;
	for (int i = PIECE_SLIVER; i < KINDS; i++)
		if (t->of_kind[i] > t->of_kind[kind])
			kind = i;
	return (enum piece_kind)kind;
}

/* Pieces fill their columns; the joints between large ones are left. */
static void put_column(const struct dots *d, int row, int col, const struct tally *t)
{
	enum piece_kind kind = kind_of(t);

	if (!t->laid)
		return;
	if (kind != PIECE_WHOLE && !(d->large && t->dots))
		slabs_fill(d->s, row, col, kind);
	else
		area_put(&d->s->area, row, col, glyph_dots(t->dots), STYLE_JOINT);
}

void dots_draw(const struct sketch *s)
{
	size_t cols = (size_t)s->area.cols, across = cols * ACROSS + 1;
	struct dots d = { .s = s,
		.spotter = spotter_of(s->app, s->mem, s->area.cols * ACROSS + 1),
		.step = (double)s->app->view.cell_um / UP,
		.count = s->area.cols * ACROSS };

	d.large = (double)slabs_shorter_um(laying_here(s->app)) >= LARGE * d.step;
	d.here = arena_alloc(s->mem, across, sizeof *d.here);
	d.below = arena_alloc(s->mem, across, sizeof *d.below);
	d.tallies = arena_alloc(s->mem, cols + 1, sizeof *d.tallies);
	if (!d.spotter.views || !d.here || !d.below || !d.tallies)
		return;
	next_row(&d, sketch_y(s, s->area.rows) + 1.5 * d.step); /* the highest under the sketch */
	for (int row = s->area.rows - 1; row >= 0; row--) {
		memset(d.tallies, 0, cols * sizeof *d.tallies);
		for (int up = 0; up < UP; up++) {
			next_row(&d, sketch_y(s, row) + (up - 1.5) * d.step);
			count_row(&d, up);
		}
		for (int col = 0; col < s->area.cols; col++)
			put_column(&d, row, col, &d.tallies[col]);
	}
}
