/* The claim that a cut plan is the least possible, held to a program that goes through all ways to
 * group the pieces of small jobs; and the plans of many jobs after the search, held to the rules of
 * the saw. */
#include "random_plan.h"
#include "sawn.h"
#include "slab_sets.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Searches on from a plan to the end, some looks at a time; bounds never fall and slabs never rise.
 */
static const struct cutplan *search_on(struct arena *mem, const struct piece *pieces, size_t count,
        const struct cut_stock *stocks, size_t stock_count, const struct cutplan *first)
{
	struct cut_search *search;
	const struct cutplan *best;
	size_t slabs = first->slabs, bound = first->bound;
	bool more = true;

	ck_assert_int_eq(
	        cut_search_begin(mem, pieces, count, stocks, stock_count, first, &search, NULL),
	        STATUS_OK);
	while (more) {
		more = cut_search_step(search, 100000);
		best = cut_search_best(search);
		ck_assert_uint_le(best->slabs, slabs);
		ck_assert_uint_ge(best->bound, bound);
		slabs = best->slabs;
		bound = best->bound;
	}
	return cut_search_best(search);
}

/* --- jobs of pieces made by hand --- */

enum job_kind { JOB_RECTANGLES, JOB_STRIPS, JOB_CORNERS, JOB_SKEW, JOB_NOTCHED, JOB_KINDS };

static double on_grid(struct chance *c, double least, double most, double grid)
{
	return floor(chance_real(c, least, most) / grid) * grid;
}

/* What of a ring lies to the left of the line from a to b. */
static size_t clip(
        const struct point *p, size_t n, struct point a, struct point b, struct point *out)
{
	size_t count = 0;

	for (size_t i = 0; i < n; i++) {
		struct point u = p[i], v = p[(i + 1) % n];
		double s = (b.x - a.x) * (u.y - a.y) - (b.y - a.y) * (u.x - a.x);
		double t = (b.x - a.x) * (v.y - a.y) - (b.y - a.y) * (v.x - a.x);

		if (s >= 0)
			out[count++] = u;
		if ((s > 0 && t < 0) || (s < 0 && t > 0)) {
			double part = s / (s - t);

			out[count++] = (struct point){ u.x + (v.x - u.x) * part,
				u.y + (v.y - u.y) * part };
			/* On the slab's sides exactly. */
			if (u.x == v.x)
				out[count - 1].x = u.x;
			if (u.y == v.y)
				out[count - 1].y = u.y;
		}
	}
	return count;
}

/* A rectangle somewhere on the slab; most reach one or two of its sides. */
static size_t rectangle(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, grid, 0.9 * l, grid), b = on_grid(c, grid, 0.9 * w, grid);
	double x = 0, y = 0;
	int64_t where = chance_int(c, 0, 9);

	if (where == 0) /* all the length, or all the width */
		a = l;
	if (where == 1)
		b = w;
	if (a < l)
		x = (double[]){ 0, l - a, on_grid(c, 0, l - a, grid) }[chance_int(c, 0, 2)];
	if (b < w)
		y = (double[]){ 0, w - b, on_grid(c, 0, w - b, grid) }[chance_int(c, 0, 2)];
	p[0] = (struct point){ x, y };
	p[1] = (struct point){ x + a, y };
	p[2] = (struct point){ x + a, y + b };
	p[3] = (struct point){ x, y + b };
	return 4;
}

/* A part of the slab, or of a rectangle on it, with one or two slanted sides; now and then a line
 * through the middle halves the slab. */
static size_t skew(struct chance *c, double l, double w, double grid, struct point *p)
{
	struct point from[8];
	size_t n = 4;
	bool halved = chance_int(c, 0, 5) == 0;

	rectangle(c, l, w, grid, from);
	if (halved || chance_int(c, 0, 1))
		memcpy(from, (struct point[]){ { 0, 0 }, { l, 0 }, { l, w }, { 0, w } },
		        4 * sizeof *from);
	for (int64_t cuts = halved ? 1 : chance_int(c, 1, 2); cuts > 0; cuts--) {
		double turn = chance_real(c, 0, 2 * M_PI);
		struct box box = points_box(from, n);
		struct point a = { chance_real(c, box.x0, box.x1), chance_real(c, box.y0, box.y1) };

		if (halved)
			a = (struct point){ l / 2, w / 2 };
		n = clip(from, n, a, (struct point){ a.x + cos(turn), a.y + sin(turn) }, p);
		memcpy(from, p, n * sizeof *p);
	}
	return n;
}

/* The slab less a corner. */
static size_t notched(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, 0.2 * l, 0.8 * l, grid), b = on_grid(c, 0.2 * w, 0.8 * w, grid);

	p[0] = (struct point){ 0, 0 };
	p[1] = (struct point){ l, 0 };
	p[2] = (struct point){ l, b };
	p[3] = (struct point){ a, b };
	p[4] = (struct point){ a, w };
	p[5] = (struct point){ 0, w };
	return 6;
}

/* A rectangle in a corner of the slab: four in turn may lie round about its middle so that only
 * slanted cuts part them. */
static size_t cornered(struct chance *c, double l, double w, double grid, struct point *p)
{
	double a = on_grid(c, 0.1 * l, 0.8 * l, grid) + grid;
	double b = on_grid(c, 0.1 * w, 0.8 * w, grid) + grid;
	double x = chance_int(c, 0, 1) ? 0 : l - a, y = chance_int(c, 0, 1) ? 0 : w - b;

	p[0] = (struct point){ x, y };
	p[1] = (struct point){ x + a, y };
	p[2] = (struct point){ x + a, y + b };
	p[3] = (struct point){ x, y + b };
	return 4;
}

static unsigned sides_of(const struct ring *r, double l, double w)
{
	unsigned sides = 0;

	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n];

		if (hypot(b.x - a.x, b.y - a.y) < 1)
			continue;
		sides |= a.x == 0 && b.x == 0 ? SIDE_LEFT : 0;
		sides |= a.x == l && b.x == l ? SIDE_RIGHT : 0;
		sides |= a.y == 0 && b.y == 0 ? SIDE_BOTTOM : 0;
		sides |= a.y == w && b.y == w ? SIDE_TOP : 0;
	}
	return sides;
}

static struct cut_stock random_stock(struct chance *c)
{
	static const int64_t sizes[][2] = { { 600, 300 }, { 597, 297 }, { 450, 450 }, { 600, 600 },
		{ 400, 300 }, { 300, 300 } };
	const int64_t *size = sizes[chance_int(c, 0, 5)];

	return (struct cut_stock){ .length_um = size[0] * UM_PER_MM,
		.width_um = size[1] * UM_PER_MM,
		.kerf_um = chance_int(c, 0, 5) * UM_PER_MM,
		.directional = chance_int(c, 0, 4) == 0,
		.edges = chance_int(c, 0, 3) ? RULE_FINISHED : RULE_ROUGH };
}

static struct piece random_piece(
        struct arena *mem, struct chance *c, const struct cut_stock *s, enum job_kind kind)
{
	static const double grids[] = { 1000, 10000, 50000 };
	double grid = grids[chance_int(c, 0, 2)];
	struct piece piece = { .kind = PIECE_CUT, .standing = chance_int(c, 0, 3) == 0 };
	double l = (double)(piece.standing ? s->width_um : s->length_um);
	double w = (double)(piece.standing ? s->length_um : s->width_um);
	struct ring *r = arena_alloc(mem, 1, sizeof *r);

	r->p = arena_alloc(mem, 8, sizeof *r->p);
	do {
		if (kind == JOB_NOTCHED && chance_int(c, 0, 2) == 0)
			r->n = notched(c, l, w, grid, r->p);
		else if (kind == JOB_CORNERS)
			r->n = cornered(c, l, w, 1000, r->p);
		else if (kind >= JOB_SKEW && chance_int(c, 0, 3))
			r->n = skew(c, l, w, grid, r->p);
		else
			r->n = rectangle(c, l, w, grid, r->p);
		piece.area_um2 = r->n < 3 ? 0 : ring_polygon_area(r->p, r->n);
	} while (piece.area_um2 < 4e8);
	piece.shape = (struct region){ r, 1 };
	piece.box = points_box(r->p, r->n);
	piece.sides = sides_of(r, l, w);
	return piece;
}

/* Strips that nearly, or just, make up the slab together with the kerfs between them. */
static size_t strips(struct arena *mem, struct chance *c, const struct cut_stock *s,
        struct piece *pieces, size_t room)
{
	size_t n = (size_t)chance_int(c, 2, (int64_t)room), done = 0;
	double length = (double)s->length_um, width = (double)s->width_um;

	while (done < n) {
		int parts = (int)chance_int(c, 2, SOURCE_PIECES);
		double left = length, short_of = (double)(chance_int(c, 0, 2) * 1000 - 1000);

		for (int i = 0; i < parts && done < n; i++) {
			struct piece p = random_piece(mem, c, s, JOB_RECTANGLES);
			struct ring *r = &p.shape.rings[0];
			double a = i + 1 < parts ? on_grid(c, 0.2 * left, 0.6 * left, 1000)
			                         : left + short_of;
			double x = (double[]){ 0, length - a, 1000 }[chance_int(c, 0, 2)];
			double y0 = chance_int(c, 0, 1) ? 0 : 1000, y1 = width - 1000;

			if (a < 2000 || x + a > length || x < 0)
				continue;
			p.standing = false;
			r->p[0] = (struct point){ x, y0 };
			r->p[1] = (struct point){ x + a, y0 };
			r->p[2] = (struct point){ x + a, y1 };
			r->p[3] = (struct point){ x, y1 };
			p.area_um2 = ring_polygon_area(r->p, 4);
			p.box = points_box(r->p, 4);
			p.sides = sides_of(r, length, width);
			pieces[done++] = p;
			left -= a + (double)s->kerf_um;
		}
	}
	return n;
}

/* --- what is counted --- */

struct tally {
	int jobs, claimed, equal, over, unsure, missed, saved;
};

static unsigned member_of(const struct set_job *job, const struct piece *piece)
{
	unsigned i = 0;

	while (job->pieces[i] != piece)
		i++;
	return i;
}

/* Holds the plan of a stock, whose sources are given, to all ways to group its pieces. */
static void hold_to_sets(struct set_job *job, const struct piece *pieces,
        const struct cut_source *sources, const struct cut_total *first,
        const struct cut_total *last, int number, struct tally *t)
{
	unsigned shown[MOST_IN_SETS] = { 0 };
	bool claimed = last->slabs == last->bound;
	struct fewest f;

	for (size_t i = 0; i < last->slabs; i++)
		for (int k = 0; k < sources[i].count; k++)
			shown[i] |= 1U << member_of(job, &pieces[sources[i].place[k].piece]);
	job->shown = shown;
	job->shown_count = last->slabs;
	f = fewest_slabs(job);
	ck_assert_msg(last->bound <= f.enough,
	        "job %d: at least %zu are said to be needed (%s), %zu will do", number, last->bound,
	        last->reason, f.enough);
	ck_assert_msg(last->slabs >= f.least, "job %d: %zu slabs, though %zu are needed", number,
	        last->slabs, f.least);
	ck_assert(!claimed || last->slabs == f.enough);
	t->jobs++;
	t->claimed += claimed;
	t->unsure += f.least < f.enough;
	t->missed += f.missed;
	t->equal += !claimed && last->slabs == f.enough;
	t->over += last->slabs > f.enough;
	t->saved += (int)(first->slabs - last->slabs);
}

static void print_tally(const char *what, const struct tally *t)
{
	printf("%s: %d jobs; %d claimed least; of the others %d as few as by trying all, %d more; "
	       "%d where trying is not sure, with %d sets it missed; the search saved %d slabs\n",
	        what, t->jobs, t->claimed, t->equal, t->over, t->unsure, t->missed, t->saved);
}

START_TEST(pieces_by_chance_need_as_few_slabs_as_are_claimed)
{
	static const char *const names[] = { "rectangles", "strips", "corners", "skew", "notched" };
	static const int jobs[] = { 400, 200, 3000, 100, 80 };
	struct chance c = chance_new(
	        chance_seed("pieces_by_chance_need_as_few_slabs_as_are_claimed", 4) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	struct tally t = { 0 };

	for (int job = 0; job < jobs[_i]; job++) {
		struct cut_stock stock = random_stock(&c);
		size_t n = (size_t)chance_int(&c, 2,
		        _i == JOB_CORNERS ? 5
		        : _i < JOB_SKEW   ? MOST_IN_SETS
		                          : 8);
		struct piece pieces[MOST_IN_SETS];
		const struct piece *list[MOST_IN_SETS];
		struct cutplan first;
		struct cut_total before;
		const struct cutplan *last;

		if (_i == JOB_STRIPS)
			n = strips(&mem, &c, &stock, pieces, MOST_IN_SETS);
		else
			for (size_t i = 0; i < n; i++)
				pieces[i] =
				        i && chance_int(&c, 0, 3) == 0
				                ? pieces[chance_int(&c, 0, (int64_t)i - 1)]
				                : random_piece(&mem, &c, &stock, (enum job_kind)_i);
		for (size_t i = 0; i < n; i++)
			list[i] = &pieces[i];
		ck_assert_int_eq(cutplan_make(&mem, pieces, n, &stock, 1, &first, NULL), STATUS_OK);
		before = first.of_stock[0];
		last = search_on(&mem, pieces, n, &stock, 1, &first);
		sawn_check(g, &first, pieces, n, &stock, 1);
		sawn_check(g, last, pieces, n, &stock, 1);
		hold_to_sets(
		        &(struct set_job){ .g = g, .stock = &stock, .pieces = list, .count = n },
		        pieces, last->sources, &before, &last->of_stock[0], job, &t);
		arena_reset(&mem);
	}
	print_tally(names[_i], &t);
	ck_assert_int_gt(t.claimed, t.jobs / 10);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

/* --- jobs of whole plans --- */

/* Lays a plan by chance of slabs with sides from `least` to `most` dm, and plans its cuts. */
static struct plan laid_plan(struct arena *mem, struct chance *c, enum outline_style style,
        int64_t least, int64_t most, struct paving *laid, struct cutplan *first)
{
	struct plan plan = random_plan(mem, c, style);
	struct plan_laying *l = &plan.laying;
	struct region region;

	l->slab.length_um = chance_int(c, least, most) * 100000;
	l->slab.width_um =
	        chance_int(c, 0, 2) ? chance_int(c, least, most) * 100000 : l->slab.length_um;
	l->kerf_um = chance_int(c, 0, 5) * UM_PER_MM;
	l->edges = chance_int(c, 0, 5) ? RULE_FINISHED : RULE_ROUGH;
	ck_assert_int_eq(region_from_plan(mem, &plan, &region, NULL), STATUS_OK);
	ck_assert_int_eq(
	        paving_lay(mem, &plan, &region, plan_area_m2(&plan), laid, NULL), STATUS_OK);
	ck_assert_int_eq(paving_cuts(mem, laid, l, first, NULL), STATUS_OK);
	return plan;
}

static const struct cutplan *search_laid(struct arena *mem, const struct plan *plan,
        const struct paving *laid, const struct cutplan *first, struct cut_stock **stocks)
{
	*stocks = sawn_stocks(mem, laid, &plan->laying);
	return search_on(mem, laid->pieces, laid->piece_count, *stocks, laid->stock_count, first);
}

/* Styles of small jobs: skylines with openings along the pattern, and any. */
START_TEST(small_plans_need_as_few_slabs_as_are_claimed)
{
	enum { ALONG, ANY };
	static const char *const names[] = { "plans along the pattern", "plans of any outline" };
	static const int jobs[] = { 150, 80 };
	struct chance c = chance_new(
	        chance_seed("small_plans_need_as_few_slabs_as_are_claimed", 61) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	struct tally t = { 0 };

	while (t.jobs < jobs[_i]) {
		struct paving laid;
		struct cutplan first;
		const struct cutplan *last;
		const struct piece *list[MOST_IN_SETS];
		struct cut_stock *stocks;
		struct plan plan = laid_plan(&mem, &c,
		        _i == ANY              ? (enum outline_style)chance_int(&c, 0, STYLES - 1)
		        : chance_int(&c, 0, 1) ? STYLE_RECTILINEAR
		                               : STYLE_OPENINGS,
		        12, 25, &laid, &first);
		size_t n = 0;

		if (laid.cut < 2 || laid.cut > MOST_IN_SETS ||
		        (_i == ALONG && plan.laying.rotation_udeg % (90 * UDEG_PER_DEG))) {
			arena_reset(&mem);
			continue;
		}
		last = search_laid(&mem, &plan, &laid, &first, &stocks);
		sawn_check(g, last, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		for (size_t i = 0; i < laid.piece_count; i++)
			if (laid.pieces[i].kind != PIECE_MADE_UP)
				list[n++] = &laid.pieces[i];
		hold_to_sets(
		        &(struct set_job){ .g = g, .stock = stocks, .pieces = list, .count = n },
		        laid.pieces, last->sources, first.of_stock, last->of_stock, t.jobs, &t);
		arena_reset(&mem);
	}
	print_tally(names[_i], &t);
	ck_assert_int_gt(t.claimed, t.jobs / 2);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

START_TEST(every_searched_plan_can_be_sawn)
{
	enum { PLANS = 2000, MOST_CUT = 20 }; /* more take the search too long */
	struct chance c = chance_new(chance_seed("every_searched_plan_can_be_sawn", 17));
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	size_t saved = 0, least_before = 0, least = 0, pieces = 0, of_three = 0;

	for (int job = 0; job < PLANS;) {
		struct paving laid;
		struct cutplan first;
		const struct cutplan *last;
		struct cut_stock *stocks;
		struct plan plan = laid_plan(
		        &mem, &c, (enum outline_style)(job % STYLES), 8, 20, &laid, &first);

		if (laid.cut > MOST_CUT) {
			arena_reset(&mem);
			continue;
		}
		job++;
		last = search_laid(&mem, &plan, &laid, &first, &stocks);
		sawn_check(g, last, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		for (size_t i = 0; i < last->slabs; i++)
			of_three += last->sources[i].count > 2;
		pieces += (size_t)laid.cut;
		saved += first.slabs - last->slabs;
		least_before += first.slabs == first.bound;
		least += last->slabs == last->bound;
		arena_reset(&mem);
	}
	printf("%d plans, %zu pieces: %zu slabs give three or four, %zu saved by the search; %zu "
	       "plans proven least at once, %zu in the end\n",
	        PLANS, pieces, of_three, saved, least_before, least);
	ck_assert_uint_gt(of_three, 0);
	ck_assert_uint_gt(saved, 0);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("least slabs");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, pieces_by_chance_need_as_few_slabs_as_are_claimed, 0, JOB_KINDS);
	tcase_add_loop_test(tc, small_plans_need_as_few_slabs_as_are_claimed, 0, 2);
	tcase_add_test(tc, every_searched_plan_can_be_sawn);
	return suite_run("least slabs", tc);
}
