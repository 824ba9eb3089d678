/* Water over several planes, channels, gullies and holding edges, held to a follower of single
 * drops, to GEOS's areas and to conservation. */
#include "oracle/drops.h"
#include "random_plan.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { PLANS = 1000, DROPS = 120, FEW = 100 };
static const double ASIDE_UM = 300, FINE_UM = 5, ARC_UM = 50000;

static struct arena mem;
static GEOSContextHandle_t g;

static void setup(void)
{
	g = GEOS_init_r();
}

static void teardown(void)
{
	GEOS_finish_r(g);
	arena_free(&mem);
}

static struct point any_point(struct chance *c, const struct region *r)
{
	struct box b = region_box(r);

	for (;;) {
		struct point p = { chance_real(c, b.x0, b.x1), chance_real(c, b.y0, b.y1) };

		if (region_contains(r, p))
			return p;
	}
}

/* One to four planes that meet within the paving, some level, some the same or hidden. */
static void random_surface(struct chance *c, const struct region *r, struct plan_surface *s)
{
	s->envelope = chance_int(c, 0, 2) ? ENVELOPE_MAX : ENVELOPE_MIN;
	s->count = (size_t)chance_int(c, 1, 4);
	s->planes = arena_alloc(&mem, s->count, sizeof *s->planes);
	for (size_t i = 0; i < s->count; i++) {
		struct point p = any_point(c, r);

		s->planes[i] = (struct plan_plane){ llround(p.x), llround(p.y),
			chance_int(c, -20000, 20000),
			chance_int(c, 0, 2) ? chance_int(c, 0, 359999999)
			                    : chance_int(c, 0, 7) * 45 * UDEG_PER_DEG,
			chance_int(c, 0, 19) ? chance_int(c, 5000, 40000) : 0 };
		if (i && chance_int(c, 0, 19) == 0)
			s->planes[i] = s->planes[i - 1];
	}
}

/* Channels across the paving or along edges. */
static void random_channels(struct chance *c, const struct region *r, struct plan *plan)
{
	struct plan_water *w = &plan->water;

	w->channel_count = (size_t)chance_int(c, 0, 2);
	w->channels = arena_alloc(&mem, w->channel_count + 1, sizeof *w->channels);
	for (size_t i = 0; i < w->channel_count; i++) {
		struct point a = any_point(c, r), b = any_point(c, r);
		struct plan_ring *ring = &plan->rings[0];

		channel_init(&w->channels[i]);
		w->channels[i].x1_um = llround(a.x);
		w->channels[i].y1_um = llround(a.y);
		w->channels[i].x2_um = llround(b.x);
		w->channels[i].y2_um = llround(b.y);
		if (chance_int(c, 0, 2) == 0)
			ring->nodes[chance_int(c, 0, (int64_t)ring->count - 1)].channel =
			        (int64_t)i + 1;
	}
}

/* Gullies where lines of the surface run or end, at corners, and anywhere. */
static void random_gullies(struct chance *c, const struct region *r, struct plan *plan)
{
	struct plan_water *w = &plan->water;
	struct surface_shape shape;

	ck_assert_int_eq(surface_split(&mem, &plan->surface, r, &shape, NULL), STATUS_OK);
	w->gully_count = (size_t)chance_int(c, 0, 3);
	w->gullies = arena_alloc(&mem, w->gully_count + 1, sizeof *w->gullies);
	for (size_t i = 0; i < w->gully_count; i++) {
		struct point p = any_point(c, r);
		bool apart = true;

		if (shape.line_count && chance_int(c, 0, 3)) {
			const struct surface_line *l =
			        &shape.lines[chance_int(c, 0, (int64_t)shape.line_count - 1)];
			double t = chance_int(c, 0, 1) ? 1 : chance_real(c, 0, 1);

			p.x = l->high.x + t * (l->low.x - l->high.x) + chance_real(c, -4e4, 4e4);
			p.y = l->high.y + t * (l->low.y - l->high.y) + chance_real(c, -4e4, 4e4);
		} else if (chance_int(c, 0, 1)) {
			p = r->rings[0].p[chance_int(c, 0, (int64_t)r->rings[0].n - 1)];
		}
		/* Of two within reach of one place either may take its water. */
		for (size_t k = 0; k < i; k++)
			apart &= hypot((double)w->gullies[k].x_um - p.x,
			                 (double)w->gullies[k].y_um - p.y) > 2 * GULLY_REACH_UM;
		if (apart)
			w->gullies[i] = (struct plan_gully){ "", llround(p.x), llround(p.y), 0 };
		else
			w->gullies[i] =
			        (struct plan_gully){ "", UM_PER_M * 500, (int64_t)i * UM_PER_M, 0 };
	}
}

static struct plan wet_plan(struct chance *c, enum outline_style style, struct drops *drops)
{
	struct plan plan = random_plan(&mem, c, style);

	for (size_t r = 0; r < plan.ring_count; r++)
		for (size_t i = 0; i < plan.rings[r].count; i++)
			plan.rings[r].nodes[i].kind =
			        (enum edge_kind)chance_int(c, 0, EDGE_KINDS - 1);
	plan.edging[EDGE_KERB].top_um = 50000;
	ck_assert_int_eq(region_flatten(&mem, &plan, FINE_UM, &drops->region, NULL), STATUS_OK);
	random_surface(c, &drops->region, &plan.surface);
	random_channels(c, &drops->region, &plan);
	random_gullies(c, &drops->region, &plan);
	return plan;
}

static struct surface_result work_out(const struct plan *plan)
{
	static const struct rules none = { .name = "none" };
	struct surface_result out;

	ck_assert_int_eq(surface_work_out(&mem, plan, &none, &out, NULL), STATUS_OK);
	return out;
}

static bool lies_in(const struct water_piece *pieces, size_t count, struct point p)
{
	for (size_t i = 0; i < count; i++)
		if (points_contain(pieces[i].p, 4, p))
			return true;
	return false;
}

/* What the result says of the water of a point; false where no piece has it. */
static bool first_in_result(const struct surface_result *out, struct point p, struct drop *first)
{
	for (size_t i = 0; i < out->catchment_count; i++)
		if (lies_in(out->catchments[i].pieces, out->catchments[i].piece_count, p)) {
			*first = (struct drop){ END_EDGE, out->catchments[i].edge, p };
			return true;
		}
	for (size_t i = 0; i < out->channel_count; i++)
		if (lies_in(out->channels[i].first.pieces, out->channels[i].first.piece_count, p)) {
			*first = (struct drop){ END_CHANNEL, i, p };
			return true;
		}
	for (size_t i = 0; i < out->gully_count; i++)
		if (lies_in(out->gullies[i].first.pieces, out->gullies[i].first.piece_count, p)) {
			*first = (struct drop){ END_GULLY, i, p };
			return true;
		}
	for (size_t i = 0; i < out->pond_count; i++)
		if (lies_in(out->ponds[i].first.pieces, out->ponds[i].first.piece_count, p)) {
			*first = (struct drop){ END_POND, i, p };
			return true;
		}
	return false;
}

static bool agree(struct drop a, struct drop b)
{
	return a.kind == b.kind && (a.kind == END_POND || a.number == b.number);
}

/* Whether drops a little aside do the same: else the point lies at a border. */
static bool is_sure(struct drop (*follow)(const struct drops *, struct point),
        const struct drops *d, struct point p, struct drop at)
{
	for (int i = 0; i < 4; i++) {
		struct point aside = { p.x + (i & 1 ? ASIDE_UM : -ASIDE_UM),
			p.y + (i & 2 ? ASIDE_UM : -ASIDE_UM) };

		if (!region_contains(&d->region, aside) || !agree(follow(d, aside), at))
			return false;
	}
	return true;
}

/* Where a level plane shows, or a level valley runs, drops stand that the result gives to a gully
 * there: not asked of the follower. */
static bool has_level(const struct plan *plan, const struct surface_result *out)
{
	for (size_t i = 0; i < plan->surface.count; i++)
		if (plan->surface.planes[i].fall_um_per_m == 0)
			return true;
	for (size_t i = 0; i < out->shape.line_count; i++)
		if (out->shape.lines[i].kind == LINE_VALLEY &&
		        out->shape.lines[i].fall_um_per_m < 10)
			return true;
	return false;
}

static double total_first(const struct surface_result *out)
{
	double sum = 0;

	for (size_t i = 0; i < out->catchment_count; i++)
		sum += out->catchments[i].channel ? 0 : out->catchments[i].area_m2;
	for (size_t i = 0; i < out->channel_count; i++)
		sum += out->channels[i].first.area_m2;
	for (size_t i = 0; i < out->gully_count; i++)
		sum += out->gullies[i].first.area_m2;
	for (size_t i = 0; i < out->pond_count; i++)
		sum += out->ponds[i].first.area_m2;
	return sum;
}

START_TEST(nothing_vanishes)
{
	struct chance c = chance_new(chance_seed("nothing_vanishes", 51) + (uint64_t)_i);

	for (int job = 0; job < PLANS / STYLES / ONE_OF; job++) {
		struct drops d;
		struct plan plan = wet_plan(&c, (enum outline_style)_i, &d);
		struct surface_result out = work_out(&plan);
		double area = plan_area_m2(&plan), ends = 0, parts = 0;

		for (size_t i = 0; i < out.end_count; i++)
			ends += out.ends[i].area_m2;
		for (size_t i = 0; i < out.shape.part_count; i++)
			parts += out.shape.parts[i].area_m2;
		ck_assert_double_eq_tol(total_first(&out) / area, 1, 1e-6);
		ck_assert_double_eq_tol((out.drained_m2 + out.standing_m2) / area, 1, 1e-6);
		ck_assert_double_eq_tol(ends / area, 1, 1e-6);
		ck_assert_double_eq_tol(parts / area, 1, 1e-6);
		arena_reset(&mem);
	}
}
END_TEST

START_TEST(drops_first_reach_what_the_catchments_say)
{
	struct chance c = chance_new(
	        chance_seed("drops_first_reach_what_the_catchments_say", 77) + (uint64_t)_i);
	int asked = 0, sure = 0;

	for (int job = 0; job < PLANS / STYLES / ONE_OF; job++) {
		struct drops d;
		struct plan plan = wet_plan(&c, (enum outline_style)_i, &d);
		struct surface_result out = work_out(&plan);

		d.plan = &plan;
		for (int i = 0; i < DROPS && !has_level(&plan, &out); i++) {
			struct point p = any_point(&c, &d.region);
			struct drop at = drop_first(&d, p), said;

			asked++;
			if (!is_sure(drop_first, &d, p, at))
				continue;
			sure++;
			ck_assert_msg(first_in_result(&out, p, &said),
			        "job %d: no piece at %.0f, %.0f", job, p.x, p.y);
			ck_assert_msg(agree(at, said),
			        "job %d, %.0f, %.0f: a drop reaches %d %zu at %.0f, %.0f; said is "
			        "%d %zu",
			        job, p.x, p.y, at.kind, at.number, at.at.x, at.at.y, said.kind,
			        said.number);
		}
		arena_reset(&mem);
	}
	ck_assert_int_gt(sure, asked * 9 / 10);
}
END_TEST

static GEOSGeometry *geos_piece(const struct water_piece *p)
{
	struct point corners[4];
	size_t n = 0;

	for (int i = 0; i < 4; i++)
		if (!n || hypot(p->p[i].x - corners[n - 1].x, p->p[i].y - corners[n - 1].y) > 1e-6)
			corners[n++] = p->p[i];
	while (n > 1 &&
	        hypot(corners[0].x - corners[n - 1].x, corners[0].y - corners[n - 1].y) < 1e-6)
		n--;
	return n < 3 || ring_polygon_area(corners, n) < 1 ? NULL : geos_polygon(g, corners, n);
}

struct heap {
	GEOSGeometry *items[20000];
	unsigned count;
	double sum_mm2;
};

static void put_pieces(struct heap *h, const struct water_piece *pieces, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		GEOSGeometry *p = geos_piece(&pieces[i]);
		double area;

		if (!p)
			continue;
		ck_assert_uint_lt(h->count, 20000);
		GEOSArea_r(g, p, &area);
		h->sum_mm2 += area;
		h->items[h->count++] = p;
	}
}

static double union_mm2(struct heap *h)
{
	GEOSGeometry *all = GEOSGeom_createCollection_r(
	                     g, GEOS_GEOMETRYCOLLECTION, h->items, h->count),
	             *one = GEOSUnaryUnionPrec_r(g, all, 1e-4);
	double area = 0;

	ck_assert_ptr_nonnull(one);
	GEOSArea_r(g, one, &area);
	GEOSGeom_destroy_r(g, all);
	GEOSGeom_destroy_r(g, one);
	return area;
}

static void drop_pieces(struct heap *h)
{
	for (unsigned i = 0; i < h->count; i++)
		GEOSGeom_destroy_r(g, h->items[i]);
}

/* Each receiver's pieces have its area; all of them together cover the paving once. */
START_TEST(pieces_cover_the_paving_once)
{
	static struct heap h;
	int few = 0;
	struct chance c =
	        chance_new(chance_seed("pieces_cover_the_paving_once", 93) + (uint64_t)_i);

	for (int job = 0; job < PLANS / STYLES / ONE_OF; job++) {
		struct drops d;
		struct plan plan = wet_plan(&c, (enum outline_style)_i, &d);
		struct surface_result out = work_out(&plan);
		double area = plan_area_m2(&plan);

		h.count = 0;
		h.sum_mm2 = 0;
		for (size_t i = 0; i < out.catchment_count; i++) {
			const struct catchment *k = &out.catchments[i];
			double before = h.sum_mm2;

			put_pieces(&h, k->pieces, k->piece_count);
			ck_assert_double_eq_tol(
			        (h.sum_mm2 - before) * 1e-6, k->area_m2, 1e-6 * area);
		}
		for (size_t i = 0; i < out.channel_count; i++)
			if (out.channels[i].first.piece_count) {
				bool edges = false;

				for (size_t k = 0; k < out.catchment_count; k++)
					edges |= out.catchments[k].channel == (int64_t)i + 1;
				if (!edges)
					put_pieces(&h, out.channels[i].first.pieces,
					        out.channels[i].first.piece_count);
			}
		for (size_t i = 0; i < out.gully_count; i++)
			put_pieces(
			        &h, out.gullies[i].first.pieces, out.gullies[i].first.piece_count);
		for (size_t i = 0; i < out.pond_count; i++)
			put_pieces(&h, out.ponds[i].first.pieces, out.ponds[i].first.piece_count);
		ck_assert_double_eq_tol(h.sum_mm2 * 1e-6 / area, 1, 2e-6);
		if (h.count <= FEW)
			ck_assert_double_eq_tol(union_mm2(&h) * 1e-6 / area, 1, 2e-6);
		else
			drop_pieces(&h);
		few += h.count <= FEW;
		arena_reset(&mem);
	}
	ck_assert_int_gt(few, 0);
}
END_TEST

/* Areas that end up at each place, against a share of drops followed to their end. */
START_TEST(drops_end_up_where_the_ends_say)
{
	struct chance c =
	        chance_new(chance_seed("drops_end_up_where_the_ends_say", 15) + (uint64_t)_i);
	int wrong = 0, sure = 0;

	for (int job = 0; job < PLANS / STYLES / ONE_OF; job++) {
		struct drops d;
		struct plan plan = wet_plan(&c, (enum outline_style)_i, &d);
		struct surface_result out;

		for (size_t i = 0; i < plan.surface.count; i++)
			plan.surface.planes[i].toward_udeg = chance_int(&c, 0, 359999999);
		out = work_out(&plan);
		d.plan = &plan;
		for (int i = 0; i < DROPS / 4 && !has_level(&plan, &out); i++) {
			struct point p = any_point(&c, &d.region);
			struct drop at = drop_end(&d, p), first;
			bool known = false;

			if (!is_sure(drop_end, &d, p, at) || !first_in_result(&out, p, &first))
				continue;
			sure++;
			for (size_t k = 0; k < out.end_count; k++)
				known |=
				        out.ends[k].kind == at.kind &&
				        (at.kind == END_POND
				                        ? hypot(out.ponds[out.ends[k].number].at.x -
				                                          at.at.x,
				                                  out.ponds[out.ends[k].number]
				                                                  .at.y -
				                                          at.at.y) < ARC_UM
				                        : out.ends[k].number == at.number);
			/* What the edge that was reached first says of its water. */
			if (first.kind == END_EDGE && at.kind != END_EDGE) {
				bool told = false;

				for (size_t k = 0; k < out.held_count; k++)
					told |= out.held[k].edge == first.number &&
					        out.held[k].end.kind == at.kind;
				known &= told || at.kind == END_CHANNEL;
			}
			if (!known && wrong++ < 5)
				printf("style %d job %d: %.0f, %.0f ends at %d %zu, %.0f, %.0f\n",
				        _i, job, p.x, p.y, at.kind, at.number, at.at.x, at.at.y);
		}
		arena_reset(&mem);
	}
	ck_assert_msg(wrong == 0, "%d of %d", wrong, sure);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drains");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 400);
	tcase_add_loop_test(tc, nothing_vanishes, 0, STYLES);
	tcase_add_loop_test(tc, drops_first_reach_what_the_catchments_say, 0, STYLES);
	tcase_add_loop_test(tc, pieces_cover_the_paving_once, 0, STYLES);
	tcase_add_loop_test(tc, drops_end_up_where_the_ends_say, 0, STYLES);
	return suite_run("drains", tc);
}
