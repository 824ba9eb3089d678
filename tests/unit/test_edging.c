/* Edging on plans whose answers can be worked out on paper. */
#include "plans.h"
#include "suite.h"

#include "slabwright/edging.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MM UM_PER_MM

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

static void all_kerb(struct plan_ring *r)
{
	for (size_t i = 0; i < r->count; i++)
		r->nodes[i].kind = EDGE_KERB;
}

/* A plan of one ring of kerbs. */
static struct plan kerbs(size_t n, const double *mm, int64_t unit_mm, int64_t joint_mm)
{
	struct plan p = plan_by_hand(&mem, n, mm);

	all_kerb(&p.rings[0]);
	p.edging[EDGE_KERB] = (struct plan_edging){
		.name = "kerb", .unit_um = unit_mm * MM, .joint_um = joint_mm * MM
	};
	return p;
}

/* Only the first edge is kerb; it is that long. */
static struct plan one_kerb(double mm, int64_t unit_mm, int64_t joint_mm)
{
	struct plan p = kerbs(4, (double[]){ 0, 0, mm, 0, mm, 500, 0, 500 }, unit_mm, joint_mm);

	for (size_t i = 1; i < 4; i++)
		p.rings[0].nodes[i].kind = EDGE_OPEN;
	return p;
}

enum { ANY = 1 }; /* um: any piece will do */

static struct edging_line work_out(const struct plan *p, int64_t least_um, int64_t depth_um)
{
	struct plan plan = *p;
	struct plan_edging *kerb = &plan.edging[EDGE_KERB];
	struct edging_search *s;
	struct edging_result out;

	kerb->least_um = least_um;
	kerb->depth_um = depth_um;
	kerb->mitred = depth_um > 0;
	ck_assert_int_eq(edging_begin(&mem, &plan, 3 * MM, &s, NULL), STATUS_OK);
	for (int i = 0; i < 1000 && !edging_done(s); i++)
		ck_assert_int_eq(edging_step(s, 1000000, NULL), STATUS_OK);
	ck_assert_int_eq(edging_best(s, &out, NULL), STATUS_OK);
	for (size_t i = 0; i < out.count; i++)
		if (out.lines[i].kind == EDGE_KERB)
			return out.lines[i];
	ck_abort_msg("no kerb");
}

static void check_cuts(
        const struct edging_line *line, int64_t whole, size_t count, const int64_t *um)
{
	ck_assert_int_eq(line->whole, whole);
	ck_assert_int_eq(line->cut, (int64_t)count);
	for (size_t i = 0; i < count; i++)
		ck_assert_int_eq(line->pieces[i].length_um, um[i]);
}

/* 3.1 m in metres: 3 and 100 mm, or 2, 766.667 and 333.333. */
START_TEST(the_last_unit_is_ground_so_that_no_piece_is_too_short)
{
	struct plan p = one_kerb(3100, 1000, 0);
	struct edging_line line = work_out(&p, 0 /* a third */, 0);

	check_cuts(&line, 2, 2, (int64_t[]){ 766667, 333333 });
	ck_assert_int_eq(line.least_um, 333333);
	ck_assert_int_eq(line.shared, 1);
	ck_assert_int_eq(line.too_short, 0);
	ck_assert_int_eq(line.units, 4);
	ck_assert_int_eq(line.bound, 4);
	line = work_out(&p, ANY, 0);
	check_cuts(&line, 3, 1, (int64_t[]){ 100000 });
	ck_assert_int_eq(line.shared, 0);
	ck_assert_int_eq(line.too_short, 0);
	ck_assert_int_eq(line.units, 4);
}
END_TEST

START_TEST(a_piece_of_just_the_least_length_stays)
{
	struct plan p = one_kerb(3250, 1000, 0);
	struct edging_line line = work_out(&p, 250 * MM, 0);

	check_cuts(&line, 3, 1, (int64_t[]){ 250000 });
	line = work_out(&p, 250 * MM + 1, 0);
	check_cuts(&line, 2, 2, (int64_t[]){ 999999, 250001 });
}
END_TEST

/* Joints: 3 x 1005 mm and 100 mm; the joint between the two that share stays. */
START_TEST(sharing_keeps_the_joint)
{
	struct plan p = one_kerb(3 * 1005 + 100, 1000, 5);
	struct edging_line line = work_out(&p, 300 * MM, 0);

	check_cuts(&line, 2, 2, (int64_t[]){ 800000, 300000 });
}
END_TEST

START_TEST(pieces_that_cannot_be_helped_are_counted)
{
	struct plan p = one_kerb(200, 1000, 0);
	struct edging_line line = work_out(&p, 0 /* a third */, 0);

	check_cuts(&line, 0, 1, (int64_t[]){ 200000 });
	ck_assert_int_eq(line.too_short, 1);
	/* 1100 mm are not two pieces of 600. */
	p = one_kerb(1100, 1000, 0);
	line = work_out(&p, 600 * MM, 0);
	check_cuts(&line, 1, 1, (int64_t[]){ 100000 });
	ck_assert_int_eq(line.too_short, 1);
	ck_assert_int_eq(line.shared, 0);
	/* But 1200 are. */
	p = one_kerb(1200, 1000, 0);
	line = work_out(&p, 600 * MM, 0);
	check_cuts(&line, 0, 2, (int64_t[]){ 600000, 600000 });
	ck_assert_int_eq(line.too_short, 0);
}
END_TEST

/* Treads of 6, 5, 4, 4, 3 and 2 m of which every other edge, the riser, is open: from units of 12
 * m, longest first into the first that has room, takes three; 6 + 4 + 2 and 5 + 4 + 3 take two. */
static struct plan stairs(void)
{
	static const double treads[] = { 6000, 5000, 4000, 4000, 3000, 2000 };
	double mm[32], x = 0;
	size_t n = 0;
	struct plan p;

	for (size_t i = 0; i < 6; i++)
		for (int end = 0; end < 2; end++) {
			x += end * treads[i];
			mm[n++] = x;
			mm[n++] = 400 * (double)i;
		}
	mm[n++] = x;
	mm[n++] = 9000;
	mm[n++] = 0;
	mm[n++] = 9000;
	p = kerbs(n / 2, mm, 12000, 0);
	for (size_t i = 0; i < n / 2; i++)
		p.rings[0].nodes[i].kind = i < 12 && i % 2 == 0 ? EDGE_KERB : EDGE_OPEN;
	return p;
}

START_TEST(cut_pieces_come_from_as_few_units_as_can_be)
{
	struct plan p = stairs();
	struct edging_result out;
	struct edging_line line;
	int64_t length = 0;

	ck_assert_int_eq(edging_work_out(&mem, &p, 0, &out, NULL), STATUS_OK);
	line = out.lines[0];
	ck_assert_int_eq(line.kind, EDGE_KERB);
	ck_assert_int_eq(line.cut, 6);
	ck_assert_int_eq(line.units, 2);
	ck_assert_int_eq(line.bound, 2);
	ck_assert(strstr(line.reason, "length: ") != NULL);
	ck_assert_uint_eq(line.cuts.unit_count, 2);
	for (size_t i = 0; i < 3; i++) {
		const struct edging_piece *piece = &line.pieces[line.cuts.piece[i]];

		length += piece->length_um;
		ck_assert_uint_eq(piece->edge % 2, 0); /* treads */
	}
	ck_assert_int_eq(length, 12000 * MM);
	/* The blade takes more than nothing, and three are needed. */
	ck_assert_int_eq(edging_work_out(&mem, &p, 1, &out, NULL), STATUS_OK);
	ck_assert_int_eq(out.lines[0].units, 3);
	ck_assert_int_eq(out.lines[0].bound, 3);
	ck_assert_str_eq(out.lines[1].reason, ""); /* open edges: nothing is bought */
	ck_assert_int_eq(out.lines[1].units, 0);
}
END_TEST

/* --- mitres --- */

static const double FOUR_SIDES[] = { 0, 0, 1000, 0, 1000, 1000, 0, 1000 };

START_TEST(outer_corners_are_mitred_whichever_way_the_ring_runs)
{
	struct plan p = kerbs(4, FOUR_SIDES, 1200, 0);
	struct plan q = kerbs(4, (double[]){ 0, 0, 0, 1000, 1000, 1000, 1000, 0 }, 1200, 0);
	struct edging_line line;

	for (size_t i = 0; i < 4; i++) {
		ck_assert_int_eq(edging_mitre_um(&p.rings[0], i, false, 80 * MM), 80 * MM);
		ck_assert_int_eq(edging_mitre_um(&q.rings[0], i, false, 80 * MM), 80 * MM);
		/* An opening's kerb stands inside it: its corners are inner ones. */
		ck_assert_int_eq(edging_mitre_um(&p.rings[0], i, true, 80 * MM), 0);
		ck_assert_int_eq(edging_mitre_um(&q.rings[0], i, true, 80 * MM), 0);
	}
	line = work_out(&p, ANY, 100 * MM); /* 1000 and 100 at either end: a unit */
	check_cuts(&line, 4, 0, NULL);
	line = work_out(&p, ANY, 0);
	check_cuts(&line, 0, 4, (int64_t[]){ 1000000, 1000000, 1000000, 1000000 });
}
END_TEST

START_TEST(a_corner_to_another_kind_is_not_mitred)
{
	struct plan p = kerbs(4, FOUR_SIDES, 1200, 0);
	struct edging_line line;

	p.rings[0].nodes[2].kind = p.rings[0].nodes[3].kind = EDGE_OPEN;
	line = work_out(&p, ANY, 100 * MM);
	check_cuts(&line, 0, 2, (int64_t[]){ 1100000, 1100000 });
}
END_TEST

/* An L: the corner at (2, 1) turns away from the paving. The other way about in an opening. */
START_TEST(inner_corners_need_no_allowance)
{
	struct plan p = kerbs(6,
	        (double[]){ 0, 0, 3000, 0, 3000, 1000, 2000, 1000, 2000, 3000, 0, 3000 }, 1000, 0);

	for (size_t i = 0; i < 6; i++) {
		ck_assert_int_eq(
		        edging_mitre_um(&p.rings[0], i, false, 50 * MM), i == 3 ? 0 : 50 * MM);
		ck_assert_int_eq(
		        edging_mitre_um(&p.rings[0], i, true, 50 * MM), i == 3 ? 50 * MM : 0);
	}
}
END_TEST

/* depth * tan(turn / 2): an eighth of a turn gives 0.41421; a corner of 60 degrees turns by 120,
 * tan 60 = 1.73205; one of about 11 turns by 169 and is cut like one of 30: tan 75 = 3.73205. */
START_TEST(the_allowance_follows_the_angle)
{
	struct plan p = kerbs(4, (double[]){ 0, 0, 1000, 0, 2000, 1000, 0, 1000 }, 1000, 0);
	struct plan q = kerbs(3, (double[]){ 0, 0, 1000, 0, 500, 866.025 }, 1000, 0);
	struct plan r = kerbs(3, (double[]){ 0, 0, 5000, 0, 5000, 1000 }, 1000, 0);

	ck_assert_int_eq(edging_mitre_um(&p.rings[0], 1, false, 100 * MM), 41421);
	ck_assert_int_eq(edging_mitre_um(&q.rings[0], 1, false, 100 * MM), 173205);
	ck_assert_int_eq(edging_mitre_um(&r.rings[0], 0, false, 100 * MM), 373205);
}
END_TEST

/* A half circle on a side that goes on straight: no corner. A quarter circle between two sides that
 * leave it at right angles to its chord's ends: the tangent decides, not the chord. */
START_TEST(arcs_meet_by_their_tangents)
{
	struct plan p = kerbs(4, (double[]){ 0, 0, 2000, 0, 2000, 1000, 0, 1000 }, 1000, 0);
	struct plan_ring *r = &p.rings[0];

	r->nodes[1].rise_um = 500 * MM; /* the half circle at the right end */
	ck_assert_int_le(llabs(edging_mitre_um(r, 1, false, 100 * MM)), 1);
	ck_assert_int_le(llabs(edging_mitre_um(r, 2, false, 100 * MM)), 1);
	ck_assert_int_eq(edging_mitre_um(r, 3, false, 100 * MM), 100 * MM);
	/* Inward by so much that the arc begins at 45 degrees to its chord: a turn of 135. */
	r->nodes[1].rise_um = -llround(500000 * tan(22.5 * 3.14159265358979 / 180));
	ck_assert_int_le(llabs(edging_mitre_um(r, 1, false, 100 * MM) - 241421), 1);
	/* Two half circles have no corners. */
	p = kerbs(2, (double[]){ 0, 0, 1000, 0 }, 1000, 0);
	p.rings[0].nodes[0].rise_um = p.rings[0].nodes[1].rise_um = 500 * MM;
	ck_assert_int_eq(edging_mitre_um(&p.rings[0], 0, false, 100 * MM), 0);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("edging");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, the_last_unit_is_ground_so_that_no_piece_is_too_short);
	tcase_add_test(tc, a_piece_of_just_the_least_length_stays);
	tcase_add_test(tc, sharing_keeps_the_joint);
	tcase_add_test(tc, pieces_that_cannot_be_helped_are_counted);
	tcase_add_test(tc, cut_pieces_come_from_as_few_units_as_can_be);
	tcase_add_test(tc, outer_corners_are_mitred_whichever_way_the_ring_runs);
	tcase_add_test(tc, a_corner_to_another_kind_is_not_mitred);
	tcase_add_test(tc, inner_corners_need_no_allowance);
	tcase_add_test(tc, the_allowance_follows_the_angle);
	tcase_add_test(tc, arcs_meet_by_their_tangents);
	return suite_run("edging", tc);
}
