/* Cut plans held to two independent programs: a validator that knows only the definition and
 * measures with GEOS, and GLPK, which finds the greatest number of pairs as an integer program. */
#include "random_plan.h"
#include "saw_steps.h"
#include "sawn.h"
#include "suite.h"

#include <glpk.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum {
	PLANS = 2000 / ONE_OF,
	SEARCHED = 12 /* each so many plans */,
	GRAPHS = 200,
	SMALL_JOBS = 200,
	MOST_SMALL = 14
};

/* Searches on from a plan to the end. */
static const struct cutplan *search_on(struct arena *mem, const struct plan *plan,
        const struct paving *laid, const struct cutplan *cuts)
{
	struct cut_search *search;

	ck_assert_int_eq(paving_search(mem, laid, &plan->laying, cuts, &search, NULL), STATUS_OK);
	while (cut_search_step(search, 100000))
		;
	return cut_search_best(search);
}

static enum status lay(
        struct arena *mem, const struct plan *plan, struct paving *laid, struct cutplan *cuts)
{
	struct region region;
	enum status st = region_from_plan(mem, plan, &region, NULL);

	if (st == STATUS_OK)
		st = paving_lay(mem, plan, &region, plan_area_m2(plan), laid, NULL);
	return st == STATUS_OK ? paving_cuts(mem, laid, &plan->laying, cuts, NULL) : st;
}

START_TEST(every_plan_can_be_cut)
{
	struct chance c = chance_new(chance_seed("every_plan_can_be_cut", 31) + (uint64_t)_i);
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	size_t saved = 0, proven = 0, more = 0, in_the_end = 0, jobs = 0, most = 0;

	for (int job = 0; job < PLANS / STYLES / (_i < STYLES ? 2 : 8); job++) {
		struct plan plan = random_plan(&mem, &c, (enum outline_style)(_i % STYLES));
		struct paving laid;
		struct cutplan cuts;
		struct cut_stock *stocks;
		const struct cutplan *better;

		random_bond(&c, &plan.laying, _i / STYLES);
		plan.laying.edges = chance_int(&c, 0, 9) ? RULE_FINISHED : RULE_ROUGH;
		plan.laying.kerf_um = chance_int(&c, 0, 5) * UM_PER_MM;
		ck_assert_int_eq(lay(&mem, &plan, &laid, &cuts), STATUS_OK);
		stocks = sawn_stocks(&mem, &laid, &plan.laying);
		sawn_check(g, &cuts, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		better = job % SEARCHED ? &cuts : search_on(&mem, &plan, &laid, &cuts);
		sawn_check(g, better, laid.pieces, laid.piece_count, stocks, laid.stock_count);
		ck_assert_uint_le(better->slabs, cuts.slabs);
		ck_assert_uint_ge(better->bound, cuts.bound);
		saved += (size_t)laid.cut - cuts.slabs;
		more += cuts.slabs - better->slabs;
		proven += cuts.bound == cuts.slabs;
		in_the_end += better->bound == better->slabs;
		most = better->slabs - better->bound > most ? better->slabs - better->bound : most;
		jobs++;
		arena_reset(&mem);
	}
	printf("style and bond %d: %zu slabs saved at once, %zu more by the search; %zu of %zu "
	       "plans "
	       "proven least, %zu in the end; at most %zu over\n",
	        _i, saved, more, proven, jobs, in_the_end, most);
	printf("sawn in order: %ld cuts across, %ld notches, %ld curves, %ld openings; %ld ground "
	       "out\n",
	        saw_steps_done[SAW_ACROSS], saw_steps_done[SAW_NOTCH], saw_steps_done[SAW_CURVE],
	        saw_steps_done[SAW_OPENING], saw_steps_ground);
	ck_assert_uint_gt(saved, 0);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

/* --- GLPK --- */

/* The greatest number of disjoint edges of a graph given by its matrix: maximise the sum of x over
 * edges, with at most one at each vertex and x zero or one. */
static int pairs_by_glpk(size_t n, const bool *linked)
{
	glp_prob *p = glp_create_prob();
	glp_iocp how;
	int edges = 0, answer;

	glp_term_out(GLP_OFF);
	glp_set_obj_dir(p, GLP_MAX);
	if (n)
		glp_add_rows(p, (int)n);
	for (size_t i = 0; i < n; i++)
		glp_set_row_bnds(p, (int)i + 1, GLP_UP, 0, 1);
	for (size_t i = 0; i < n; i++)
		for (size_t j = i + 1; j < n; j++) {
			int rows[3] = { 0, (int)i + 1, (int)j + 1 };
			double ones[3] = { 0, 1, 1 };

			if (!linked[i * n + j])
				continue;
			glp_add_cols(p, 1);
			edges++;
			glp_set_col_kind(p, edges, GLP_BV);
			glp_set_obj_coef(p, edges, 1);
			glp_set_mat_col(p, edges, 2, rows, ones);
		}
	if (!edges) {
		glp_delete_prob(p);
		return 0;
	}
	glp_init_iocp(&how);
	how.presolve = GLP_ON;
	ck_assert_int_eq(glp_intopt(p, &how), 0);
	answer = (int)lround(glp_mip_obj_val(p));
	glp_delete_prob(p);
	return answer;
}

START_TEST(matching_is_as_large_as_glpk_finds)
{
	struct chance c = chance_new(chance_seed("matching_is_as_large_as_glpk_finds", 8));
	struct arena mem = { 0 };

	for (int job = 0; job < GRAPHS; job++) {
		size_t n = (size_t)chance_int(&c, 1, 18), pairs, count = 0, first[20],
		       neighbours[400], mate[20];
		double density = chance_real(&c, 0.05, 0.6);
		bool linked[400] = { 0 };

		for (size_t i = 0; i < n; i++)
			for (size_t j = i + 1; j < n; j++)
				linked[i * n + j] = linked[j * n + i] =
				        chance_real(&c, 0, 1) < density;
		for (size_t i = 0; i < n; i++) {
			first[i] = count;
			for (size_t j = 0; j < n; j++)
				if (linked[i * n + j])
					neighbours[count++] = j;
		}
		first[n] = count;
		ck_assert_int_eq(
		        graph_matching(&mem, n, first, neighbours, mate, &pairs, NULL), STATUS_OK);
		for (size_t i = 0; i < n; i++)
			if (mate[i] != SIZE_MAX) {
				ck_assert_uint_eq(mate[mate[i]], i);
				ck_assert(linked[i * n + mate[i]]);
			}
		ck_assert_int_eq((int)pairs, pairs_by_glpk(n, linked));
		arena_reset(&mem);
	}
	arena_free(&mem);
}
END_TEST

/* Whether two pieces fit one slab, found by trying: every turn, and where a piece may slide, many
 * places. */
static bool fit_by_trying(GEOSContextHandle_t g, const struct piece *a, const struct piece *b,
        const struct plan_laying *l, const struct paving *laid)
{
	enum { STEPS = 4 };
	double length = (double)laid->stocks[0].length_um, width = (double)laid->stocks[0].width_um;
	int turns = l->slab.directional ? 1 : length == width ? 4 : 2;
	static const int turn_of_step[4] = { 0, 180, 90, 270 };
	const struct piece *both[2] = { a, b };
	GEOSGeometry *tried[2][4 * (STEPS + 1) * (STEPS + 1)];
	int count[2] = { 0, 0 };
	bool fits = false;

	for (int k = 0; k < 2; k++)
		for (int t = 0; t < turns; t++) {
			const struct ring *r = &both[k]->shape.rings[0];
			int turn = turn_of_step[t];
			struct point home = turn == 180   ? (struct point){ length, width }
			                    : turn == 90  ? (struct point){ width, 0 }
			                    : turn == 270 ? (struct point){ 0, length }
			                                  : (struct point){ 0, 0 };
			bool fixed_x = both[k]->sides & (SIDE_LEFT | SIDE_RIGHT);
			bool fixed_y = both[k]->sides & (SIDE_BOTTOM | SIDE_TOP);
			struct point *p = malloc(r->n * sizeof *p);
			struct box box;

			if (turn == 90 || turn == 270) {
				bool swap = fixed_x;

				fixed_x = fixed_y;
				fixed_y = swap;
			}
			for (size_t i = 0; i < r->n; i++)
				p[i] = sawn_corner(r->p[i], turn, home);
			box = points_box(p, r->n);
			for (int sx = 0; sx <= (fixed_x ? 0 : STEPS); sx++)
				for (int sy = 0; sy <= (fixed_y ? 0 : STEPS); sy++) {
					double dx = fixed_x ? 0
					                    : -box.x0 + (length - box.x1 + box.x0) *
					                                        sx / STEPS;
					double dy = fixed_y ? 0
					                    : -box.y0 + (width - box.y1 + box.y0) *
					                                        sy / STEPS;
					struct point *q = malloc(r->n * sizeof *q);

					for (size_t i = 0; i < r->n; i++)
						q[i] = (struct point){ p[i].x + dx, p[i].y + dy };
					tried[k][count[k]++] = geos_polygon(g, q, r->n);
					free(q);
				}
			free(p);
		}
	for (int i = 0; i < count[0] && !fits; i++)
		for (int j = 0; j < count[1] && !fits; j++) {
			double gap;

			GEOSDistance_r(g, tried[0][i], tried[1][j], &gap);
			fits = gap >= fmax((double)l->kerf_um / 1000, 1e-3) - 1e-6;
		}
	for (int k = 0; k < 2; k++)
		for (int i = 0; i < count[k]; i++)
			GEOSGeom_destroy_r(g, tried[k][i]);
	return fits;
}

static bool is_convex(const struct ring *r)
{
	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n], c = r->p[(i + 2) % r->n];

		if ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) < 0)
			return false;
	}
	return true;
}

START_TEST(small_jobs_need_as_few_slabs_as_glpk_finds)
{
	struct chance c =
	        chance_new(chance_seed("small_jobs_need_as_few_slabs_as_glpk_finds", 1717));
	GEOSContextHandle_t g = GEOS_init_r();
	struct arena mem = { 0 };
	int paired = 0, exact = 0, merged = 0;

	for (int job = 0; exact < SMALL_JOBS;) {
		struct plan plan =
		        random_plan(&mem, &c, (enum outline_style)chance_int(&c, 0, STYLES - 1));
		const struct piece *cut[MOST_SMALL];
		bool linked[MOST_SMALL * MOST_SMALL] = { 0 };
		struct paving laid;
		struct cutplan cuts;
		size_t n = 0;
		bool notches = false, slides = false, more = false;
		int ours, glpk;

		/* Large slabs on a small patio: few pieces. */
		plan.laying.slab.length_um = chance_int(&c, 12, 25) * 100000;
		plan.laying.slab.width_um = chance_int(&c, 0, 2) ? chance_int(&c, 12, 25) * 100000
		                                                 : plan.laying.slab.length_um;
		plan.laying.kerf_um = chance_int(&c, 1, 5) * UM_PER_MM;
		ck_assert_int_eq(lay(&mem, &plan, &laid, &cuts), STATUS_OK);
		if (laid.cut < 2 || laid.cut > MOST_SMALL) {
			arena_reset(&mem);
			continue;
		}
		for (size_t i = 0; i < laid.piece_count; i++)
			if (laid.pieces[i].kind != PIECE_MADE_UP)
				cut[n++] = &laid.pieces[i];
		for (size_t i = 0; i < n; i++)
			for (size_t j = i + 1; j < n; j++)
				linked[i * n + j] =
				        fit_by_trying(g, cut[i], cut[j], &plan.laying, &laid);
		/* Both try some places of a piece that slides past notches, not the same ones:
		 * there ours must be as good. */
		ours = (int)(n - cuts.slabs);
		glpk = pairs_by_glpk(n, linked);
		for (size_t i = 0; i < n; i++) {
			notches = notches || !is_convex(&cut[i]->shape.rings[0]);
			slides = slides || !(cut[i]->sides & (SIDE_LEFT | SIDE_RIGHT)) ||
			         !(cut[i]->sides & (SIDE_BOTTOM | SIDE_TOP));
		}
		notches = notches && slides;
		for (size_t i = 0; i < cuts.slabs; i++)
			more = more || cuts.sources[i].count > 2;
		/* More than pairs save more. */
		ck_assert_msg(more || notches ? ours >= glpk : ours == glpk,
		        "job %d: %zu pieces, %d pairs, GLPK %d", job, n, ours, glpk);
		exact += !notches && !more;
		merged += more && ours > glpk;
		paired += ours;
		job++;
		arena_reset(&mem);
	}
	printf("%d of the jobs took fewer slabs than pairs allow\n", merged);
	ck_assert_int_gt(paired, SMALL_JOBS / 2);
	ck_assert_int_gt(merged, 0);
	arena_free(&mem);
	GEOS_finish_r(g);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("cut plans");

	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, every_plan_can_be_cut, 0, STYLES * BOND_CHOICES);
	tcase_add_test(tc, matching_is_as_large_as_glpk_finds);
	tcase_add_test(tc, small_jobs_need_as_few_slabs_as_glpk_finds);
	return suite_run("cut plans against GEOS and GLPK", tc);
}
