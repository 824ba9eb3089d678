/* laying_labels.c - numbers of pieces and courses on the laying plan; see laying.h.
 *
 * A piece is numbered in itself where the number fits, upright or along the pattern; else beside
 * the paving with a line to it. What finds no place is left to the list behind the drawing. */
#include "laying.h"

#include <inttypes.h>
#include <math.h>

bool piece_is_cut(const struct piece *p)
{
	return p->kind == PIECE_CUT || p->kind == PIECE_SLIVER;
}

static double upright(double turn)
{
	double half = acos(-1);

	turn = fmod(turn, half);
	if (turn > half / 2 - 1e-6)
		turn -= half;
	if (turn < -half / 2 - 1e-6)
		turn += half;
	return turn;
}

/* How the piece's slab is turned on paper. */
static double turn_of_piece(const struct laying_sheet *l, const struct piece *p)
{
	const struct section *s = section_of_piece(&l->d->t->laid, p);
	struct point at = laid_corner(&s->laid, p->spot);
	struct point a = view_point(&l->view, plan_from_section(s, at));
	struct point b =
	        view_point(&l->view, plan_from_section(s, (struct point){ at.x + 10000, at.y }));

	return atan2(b.y - a.y, b.x - a.x);
}

/* On the whole, or on nothing: a number that is half seen helps nobody. */
static bool label_inside(
        struct laying_sheet *l, const struct piece *p, const char *words, const struct ring *rings)
{
	static const double sizes[] = { 2.5, 2.1, SIZE_LEAST };
	struct point middle = rings_middle(rings, p->shape.count);
	double pattern = turn_of_piece(l, p), quarter = acos(-1) / 2;
	double turns[] = { 0, upright(pattern), upright(pattern + quarter), -quarter };

	for (int i = 0; i < 12; i++) {
		struct text t = { words, .size = sizes[i / 4], .turn = turns[i % 4] };
		struct patch box = text_patch(l->d, &t), tight;

		box.at = middle;
		tight = box;
		tight.across *= 0.78; /* letters leave some of the line's height free */
		if (!patch_within(&box, &l->window) || !rings_hold(&tight, rings, p->shape.count) ||
		        !taken_free(&l->d->taken, &box, TAKEN_TEXT))
			continue;
		page_text_at(l->d, &t, &box);
		return true;
	}
	return false;
}

/* The way on paper from a point to the nearest edge of the paving. */
static double way_out(const struct laying_sheet *l, struct point at)
{
	const struct region *g = &l->d->t->region;
	struct point from = view_back(&l->view, at), best;
	double distance;

	best = rings_nearest(g->rings, g->count, from, &distance);
	return atan2(from.y - best.y, best.x - from.x);
}

static bool label_outside(
        struct laying_sheet *l, const char *words, const struct ring *rings, size_t n, bool far)
{
	struct label label = { .text = { words, .size = SIZE_LEAST },
		.at = rings_middle(rings, n),
		.clear = 1.5,
		.reach = far ? 24 : 12,
		.leader = true,
		.ways = far ? 0 : 7,
		.off = &l->d->t->region,
		.view = &l->view,
		.within = l->window };

	if (label.at.x < l->window.x0 || label.at.x > l->window.x1 || label.at.y < l->window.y0 ||
	        label.at.y > l->window.y1)
		return false;
	label.prefer = way_out(l, label.at);
	return label_place(l->d, &label);
}

enum pass { PASS_INSIDE, PASS_OUTSIDE, PASS_FAR };

static void label_pass(struct laying_sheet *l, enum pass pass, bool *here)
{
	struct drawing *d = l->d;

	for (size_t i = 0; i < d->t->laid.piece_count; i++) {
		const struct piece *p = &d->t->laid.pieces[i];
		const char *words;
		struct ring *rings;

		if (!piece_is_cut(p) || here[i])
			continue;
		words = page_print(d, p->kind == PIECE_SLIVER ? "%zu!" : "%zu", i + 1);
		rings = piece_on_paper(d, &l->view, p);
		if (!rings)
			return;
		if (!laying_in_window(l, &rings[0]))
			continue;
		here[i] = pass == PASS_INSIDE ? label_inside(l, p, words, rings)
		                              : label_outside(l, words, rings, p->shape.count,
		                                        pass == PASS_FAR);
		l->labelled[i] = l->labelled[i] || here[i];
	}
}

void laying_label_pieces(struct laying_sheet *l)
{
	bool *here = arena_alloc(&l->d->page_mem, l->d->t->laid.piece_count + 1, sizeof *here);

	if (!here) {
		page_fail_memory(l->d);
		return;
	}
	label_pass(l, PASS_INSIDE, here);
	label_pass(l, PASS_OUTSIDE, here);
	label_pass(l, PASS_FAR, here);
}

/* --- courses --- */

struct courses {
	struct laying_sheet *sheet;
	const struct section *section;
	int64_t last;
	bool begun;
};

/* Size of the slab a run begins with. */
static struct point size_of_first(const struct laying *laid, const struct laid_run *run)
{
	const struct random_course *c = laid->courses;
	struct slab_spot spot = { 0, run->course, run->first };

	if (run->piece)
		return laid_size(laid, run->piece->spot);
	if (!laid->pattern.count) {
		c += run->course - c->number;
		spot.part = c->size[run->first];
	}
	return laid_size(laid, spot);
}

static void label_course(void *context, const struct laid_run *run)
{
	struct courses *c = context;
	const struct laying *laid = &c->section->laid;
	struct laying_sheet *l = c->sheet;
	struct point size, at, next, a, b;
	struct label label = { .text = { .size = SIZE_LEAST, .grey = true },
		.clear = 0.8,
		.reach = 20,
		.ways = 1,
		.off = &l->d->t->region,
		.view = &l->view,
		.within = l->window };

	if (c->begun && run->course == c->last)
		return;
	c->begun = true;
	c->last = run->course;
	size = size_of_first(laid, run);
	at = laid_corner(laid,
	        run->piece ? run->piece->spot : (struct slab_spot){ 0, run->course, run->first });
	if (laid->pattern.along_y)
		at.x += size.x / 2, at.y += run->piece ? run->piece->box.y0 : 0;
	else
		at.y += size.y / 2, at.x += run->piece ? run->piece->box.x0 : 0;
	next = at;
	*(laid->pattern.along_y ? &next.y : &next.x) += 10000;
	a = view_point(&l->view, plan_from_section(c->section, at));
	b = view_point(&l->view, plan_from_section(c->section, next));
	label.at = a;
	label.prefer = atan2(a.y - b.y, a.x - b.x);
	label.text.words = page_print(l->d, "c%" PRId64, run->course);
	if (a.x > l->window.x0 && a.x < l->window.x1 && a.y > l->window.y0 && a.y < l->window.y1)
		label_place(l->d, &label);
}

void laying_label_courses(struct laying_sheet *l)
{
	const struct paving *p = &l->d->t->laid;

	for (size_t i = 0; i < p->section_count; i++) {
		struct courses c = { l, &p->sections[i], 0, false };

		if (c.section->paved && c.section->kind != SECTION_BORDER)
			laid_runs(&c.section->laid, &c.section->frame_region, label_course, &c);
	}
}
