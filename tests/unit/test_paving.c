/* The paving taken apart: border courses, zones, and what they leave; counted by hand. */
#include "plans.h"
#include "suite.h"

#include <math.h>

static struct arena mem;

static void setup(void)
{
	mem = (struct arena){ 0 };
}

static void teardown(void)
{
	arena_free(&mem);
}

/* The message that refuses the plan. */
static const char *refusal(const struct plan *p)
{
	struct rules rules = { .name = "none" };
	struct takeoff *t = arena_alloc(&mem, 1, sizeof *t);

	ck_assert_int_eq(takeoff_plan(&mem, p, &rules, t, NULL), STATUS_OK);
	ck_assert(!t->ready);
	return t->fault.text;
}

/* A rectangle of whole 600 x 300 slabs, coordinating, in stack bond. */
static struct plan rectangle(double width_mm, double height_mm)
{
	struct plan p = plan_by_hand(
	        &mem, 4, (double[]){ 0, 0, width_mm, 0, width_mm, height_mm, 0, height_mm });

	p.laying.bond = BOND_STACK;
	return p;
}

/* A border of soldiers, 200 x 100, along all edges. */
static struct plan_border *border_all_round(struct plan *p)
{
	p->borders = arena_alloc(&mem, 1, sizeof *p->borders);
	border_init(p->borders);
	p->border_count = 1;
	for (size_t i = 0; i < p->ring_count; i++)
		for (size_t j = 0; j < p->rings[i].count; j++)
			p->rings[i].nodes[j].border = 1;
	return p->borders;
}

static struct plan_zone *add_zone(struct plan *p, size_t n, const double *mm)
{
	struct plan ring = plan_by_hand(&mem, n, mm);
	struct plan_zone *zones = arena_alloc(&mem, p->zone_count + 1, sizeof *zones);

	for (size_t i = 0; i < p->zone_count; i++)
		zones[i] = p->zones[i];
	zone_init(&zones[p->zone_count]);
	zones[p->zone_count].ring = ring.rings[0];
	zones[p->zone_count].laying.bond = BOND_STACK;
	p->zones = zones;
	return &zones[p->zone_count++];
}

static const struct section *border_of(const struct takeoff *t, size_t edge, int course)
{
	for (size_t i = 0; i < t->laid.section_count; i++)
		if (t->laid.sections[i].kind == SECTION_BORDER &&
		        t->laid.sections[i].edge == edge && t->laid.sections[i].course == course)
			return &t->laid.sections[i];
	ck_abort_msg("no border along edge %zu", edge);
	return NULL;
}

static double areas_together(const struct takeoff *t)
{
	double sum = 0;

	for (size_t i = 0; i < t->laid.section_count; i++)
		sum += t->laid.sections[i].area_m2;
	return sum;
}

/* Of each side's soldiers every 100 mm, the two at each end are cut by the mitre; the field is 2.6
 * m x 1.6 m. */
START_TEST(a_mitred_border_cuts_the_slabs_at_its_ends)
{
	struct plan p = rectangle(3000, 2000);
	struct takeoff t;

	border_all_round(&p);
	t = take_off_laid(&mem, &p);
	ck_assert_uint_eq(t.laid.section_count, 5);
	ck_assert_int_eq(border_of(&t, 0, 0)->laid.whole, 26);
	ck_assert_int_eq(border_of(&t, 0, 0)->laid.cut, 4);
	ck_assert_int_eq(border_of(&t, 1, 0)->laid.whole, 16);
	ck_assert_double_eq_tol(border_of(&t, 0, 0)->area_m2, (3.0 + 2.6) / 2 * 0.2, 1e-12);
	ck_assert_double_eq_tol(t.laid.sections[0].area_m2, 2.6 * 1.6, 1e-12);
	ck_assert_double_eq_tol(areas_together(&t), 6, 1e-12);
	ck_assert_str_eq(border_of(&t, 2, 0)->name, "border along edge 3");
}
END_TEST

/* Each run goes through to the corner at its end and begins behind the one before: 2.8 m and 1.8 m
 * of whole soldiers. */
START_TEST(a_butted_border_of_whole_slabs_cuts_none)
{
	struct plan p = rectangle(3000, 2000);
	struct takeoff t;

	border_all_round(&p)->corners = CORNER_BUTTED;
	t = take_off_laid(&mem, &p);
	for (size_t e = 0; e < 4; e++) {
		ck_assert_int_eq(border_of(&t, e, 0)->laid.whole, e % 2 ? 18 : 28);
		ck_assert_int_eq(border_of(&t, e, 0)->laid.cut, 0);
	}
	ck_assert_double_eq_tol(areas_together(&t), 6, 1e-12);
}
END_TEST

/* Two stretcher courses of 100 mm each, butted, along one side of 3 m only: 15 whole slabs in the
 * first, in the second 14 and two halves. */
START_TEST(the_second_course_shifts_by_half_a_slab)
{
	struct plan p = rectangle(3000, 2000);
	struct takeoff t;

	*border_all_round(&p) = (struct plan_border){ .slab = p.borders[0].slab,
		.lay = BORDER_STRETCHER,
		.deep = 2,
		.offset = 0.5,
		.widest_joint_um = 15000 };
	for (size_t j = 1; j < 4; j++)
		p.rings[0].nodes[j].border = 0;
	t = take_off_laid(&mem, &p);
	ck_assert_uint_eq(t.laid.section_count, 3);
	ck_assert_int_eq(border_of(&t, 0, 0)->laid.whole, 15);
	ck_assert_int_eq(border_of(&t, 0, 0)->laid.cut, 0);
	ck_assert_int_eq(border_of(&t, 0, 1)->laid.whole, 14);
	ck_assert_int_eq(border_of(&t, 0, 1)->laid.cut, 2);
	ck_assert_str_eq(border_of(&t, 0, 1)->name, "border along edge 1, course 2");
	ck_assert_double_eq_tol(t.laid.sections[0].area_m2, 3 * 1.8, 1e-12);
}
END_TEST

/* 3.05 m of 200 mm stretchers. From the corner: 15 whole and 50 mm (less nothing: the run ends at
 * the edge). From the middle: a slab's middle there leaves 7 whole each side and 25 mm; a joint
 * there leaves 7 each side and 125 mm. */
START_TEST(from_the_middle_both_ends_are_long)
{
	struct plan p = rectangle(3050, 2000);
	struct takeoff t;
	const struct section *s;

	border_all_round(&p);
	p.borders[0].lay = BORDER_STRETCHER;
	p.borders[0].begin = BEGIN_MIDDLE;
	for (size_t j = 1; j < 4; j++)
		p.rings[0].nodes[j].border = 0;
	t = take_off_laid(&mem, &p);
	s = border_of(&t, 0, 0);
	ck_assert_int_eq(s->laid.whole, 14);
	ck_assert_int_eq(s->laid.cut, 2);
	for (int i = 0; i < 2; i++)
		ck_assert_double_eq_tol(
		        s->laid.pieces[i].box.x1 - s->laid.pieces[i].box.x0, 123500, 1);
	p.borders[0].begin = BEGIN_CORNER;
	t = take_off_laid(&mem, &p);
	s = border_of(&t, 0, 0);
	ck_assert_int_eq(s->laid.whole, 15);
	ck_assert_int_eq(s->laid.cut, 1);
	ck_assert_double_eq_tol(s->laid.pieces[0].box.x1 - s->laid.pieces[0].box.x0, 50000, 1);
}
END_TEST

/* Soldiers outside a square opening of 1 m: inner corners stand out, so with butted corners each
 * run is 1.2 m of whole slabs. */
START_TEST(a_border_runs_round_an_opening)
{
	struct plan p = rectangle(6000, 3000);
	struct takeoff t;
	double taken = 0;

	opening_by_hand(&mem, &p, 4, (double[]){ 2000, 1000, 3000, 1000, 3000, 2000, 2000, 2000 });
	border_all_round(&p)->corners = CORNER_BUTTED;
	for (size_t j = 0; j < 4; j++)
		p.rings[0].nodes[j].border = 0;
	t = take_off_laid(&mem, &p);
	for (size_t e = 4; e < 8; e++) {
		ck_assert_int_eq(border_of(&t, e, 0)->laid.whole, 12);
		ck_assert_int_eq(border_of(&t, e, 0)->laid.cut, 0);
		taken += border_of(&t, e, 0)->area_m2;
	}
	ck_assert_double_eq_tol(taken, 1.4 * 1.4 - 1, 1e-12);
	ck_assert_double_eq_tol(t.laid.sections[0].area_m2, 18 - 1.4 * 1.4, 1e-9);
	ck_assert_str_eq(border_of(&t, 4, 0)->name, "border along edge 1 of opening 1");
}
END_TEST

/* A half round of 2 m radius on a 4 m side, soldiers along it. Measured along the inner 1.8 m:
 * pi * 1800 / 100 = 56.5 slabs, whose joints open from 3 to 100 * 2 / 1.8 - 97 = 14.1 mm outside.
 * Where only 10 mm are allowed they are cut to wedges: pi * 2000 / 100 = 62.8 of them. */
START_TEST(on_a_curve_joints_open_or_slabs_are_cut_to_wedges)
{
	struct plan p = plan_by_hand(&mem, 4, (double[]){ 0, 0, 4000, 0, 4000, 3000, 0, 3000 });
	struct takeoff t;
	const struct section *s;

	p.laying.bond = BOND_STACK;
	p.rings[0].nodes[2].rise_um = 2000000;
	border_all_round(&p);
	for (size_t j = 0; j < 4; j++)
		p.rings[0].nodes[j].border = j == 2;
	t = take_off_laid(&mem, &p);
	s = border_of(&t, 2, 0);
	ck_assert(s->curved && !s->wedges);
	ck_assert_double_eq_tol(s->wide_joint_um, 100e3 * 2 / 1.8 - 97e3, 20);
	ck_assert_int_eq(s->laid.whole, 56);
	ck_assert_int_eq(s->laid.cut, 1);
	p.borders[0].widest_joint_um = 10000;
	t = take_off_laid(&mem, &p);
	s = border_of(&t, 2, 0);
	ck_assert(s->wedges);
	ck_assert_int_eq(s->laid.whole, 0);
	ck_assert_int_eq(s->laid.cut, 63);
	/* 97 mm wide outside, and at the slab's other end, 197 mm in, 100 * 1.803 / 2 - 3. */
	ck_assert_double_eq_tol(
	        s->laid.pieces[1].area_um2, (97e3 + (100e3 * 1.803 / 2 - 3e3)) / 2 * 197e3, 1e6);
	ck_assert_uint_eq(s->laid.pieces[1].sides, SIDE_BOTTOM | SIDE_TOP);
}
END_TEST

/* A strip of 300 x 300 slabs along the lower side of 6 m x 3 m: 40 of them, and 80 left of the 100.
 */
START_TEST(a_zone_has_its_own_slab)
{
	struct plan p = rectangle(6000, 3000);
	struct plan_zone *z =
	        add_zone(&p, 4, (double[]){ -500, -500, 6500, -500, 6500, 600, -500, 600 });
	struct takeoff t;

	z->name = "strip";
	z->laying.slab.length_um = 300000;
	p.laying.slab.price_minor = 700;
	z->laying.slab.price_minor = 400;
	t = take_off_laid(&mem, &p);
	ck_assert_uint_eq(t.laid.section_count, 2);
	ck_assert_str_eq(t.laid.sections[1].name, "zone 1, strip");
	ck_assert_int_eq(t.laid.sections[1].laid.whole, 40);
	ck_assert_int_eq(t.laid.sections[0].laid.whole, 80);
	ck_assert_int_eq(t.laid.cut, 0);
	ck_assert_double_eq_tol(t.laid.sections[1].area_m2, 3.6, 1e-12);
	ck_assert_double_eq_tol(t.laid.sections[1].shared_m, 6, 1e-12);
	ck_assert_uint_eq(t.order.line_count, 2);
	ck_assert_int_eq(t.order.lines[0].slabs, 82);
	ck_assert_int_eq(t.order.lines[1].slabs, 41);
	ck_assert_int_eq(t.order.price_minor, 82 * 700 + 41 * 400);
	ck_assert_int_eq(t.order.lines[0].rule_of_thumb, 84);
	ck_assert_int_eq(t.order.lines[1].rule_of_thumb, 42);
	z->laying.slab.price_minor = -1;
	t = take_off_laid(&mem, &p);
	ck_assert_int_eq(t.order.price_minor, -1);
}
END_TEST

/* The field 5.7 m wide and a zone beside it 0.9 m wide, both of one slab: in each of ten courses
 * the field ends with 300 mm of a slab and the zone begins with 297 mm, which come from one slab of
 * 597. Apart, two of 300 do not, so ten and five are needed. */
START_TEST(offcuts_serve_every_section_of_the_same_slab)
{
	struct plan p = rectangle(6600, 3000);
	struct plan_zone *z =
	        add_zone(&p, 4, (double[]){ 5700, 0, 6600, 0, 6600, 3000, 5700, 3000 });
	struct takeoff t;

	z->laying.start_x_um = 6000000;
	p.laying.kerf_um = 0;
	t = take_off_laid(&mem, &p);
	ck_assert_int_eq(t.laid.sections[0].laid.cut, 10);
	ck_assert_int_eq(t.laid.sections[1].laid.cut, 10);
	ck_assert_uint_eq(t.laid.stock_count, 1);
	ck_assert_uint_eq(t.cuts.slabs, 10);
	z->laying.slab.thickness_um = 60000; /* no longer the same */
	t = take_off_laid(&mem, &p);
	ck_assert_uint_eq(t.laid.stock_count, 2);
	ck_assert_uint_eq(t.cuts.slabs, 15);
}
END_TEST

START_TEST(a_zone_without_slabs_takes_none)
{
	struct plan p = rectangle(6000, 3000);
	struct takeoff t;

	add_zone(&p, 4, (double[]){ 1200, 600, 2400, 600, 2400, 1500, 1200, 1500 })->paved = false;
	t = take_off_laid(&mem, &p);
	ck_assert_int_eq(t.laid.whole, 100 - 2 * 3);
	ck_assert_int_eq(t.laid.cut, 0);
	ck_assert_double_eq_tol(t.laid.sections[1].shared_m, 2 * (1.2 + 0.9), 1e-12);
	ck_assert_uint_eq(t.order.line_count, 1);
	ck_assert_int_eq(t.order.rule_of_thumb, (int64_t)ceil((18 - 1.2 * 0.9) / 0.18 * 1.05));
}
END_TEST

/* Two zones side by side: the edge between them counts once. */
START_TEST(a_common_edge_of_two_zones_counts_once)
{
	struct plan p = rectangle(6000, 3000);
	struct takeoff t;

	add_zone(&p, 4, (double[]){ 0, 0, 1200, 0, 1200, 3000, 0, 3000 });
	add_zone(&p, 4, (double[]){ 1200, 0, 2400, 0, 2400, 3000, 1200, 3000 });
	t = take_off_laid(&mem, &p);
	ck_assert_double_eq_tol(
	        t.laid.sections[1].shared_m + t.laid.sections[2].shared_m, 6, 1e-12);
	ck_assert_double_eq_tol(areas_together(&t), 18, 1e-12);
}
END_TEST

START_TEST(what_cannot_be_parted_is_refused_by_name)
{
	struct plan p = rectangle(6000, 3000);
	struct plan q = rectangle(300, 3000);
	struct plan_zone *z;

	add_zone(&p, 4, (double[]){ 0, 0, 1200, 0, 1200, 3000, 0, 3000 });
	z = add_zone(&p, 4, (double[]){ 1100, 0, 2400, 0, 2400, 3000, 1100, 3000 });
	z->name = "gravel";
	ck_assert_str_eq(refusal(&p),
	        "zone 2, gravel overlaps zone 1 by 0.300 m2; move the corners "
	        "of one of them");
	z->ring = plan_by_hand(&mem, 3, (double[]){ 7000, 0, 8000, 0, 8000, 1000 }).rings[0];
	ck_assert_str_eq(refusal(&p), "zone 2, gravel has no part in the paving; move its corners "
	                              "onto it, or delete it");
	z->ring = plan_by_hand(&mem, 3, (double[]){ 4000, 0, 5000, 0, 5000, 1000 }).rings[0];
	z->laying.bond = BOND_HERRINGBONE;
	z->laying.slab.length_um = 500000;
	ck_assert_ptr_nonnull(strstr(refusal(&p), "zone 2, gravel: herringbone wants"));
	border_all_round(&q);
	ck_assert_ptr_nonnull(
	        strstr(refusal(&q), "the border along edge 4 is wider than the paving"));
	q.rings[0].nodes[2].border = 2;
	ck_assert_ptr_nonnull(strstr(refusal(&q), "edge 3: it names border 2"));
}
END_TEST

/* A border at the house wall stands off it by the gap left there. */
START_TEST(a_border_lies_inside_the_gap)
{
	struct plan p = rectangle(3000, 2000);
	struct takeoff t;

	border_all_round(&p);
	for (size_t j = 1; j < 4; j++)
		p.rings[0].nodes[j].border = 0;
	p.rings[0].nodes[0].kind = EDGE_HOUSE_WALL;
	p.laying.edge_joint_um[EDGE_HOUSE_WALL] = 10000;
	t = take_off_laid(&mem, &p);
	ck_assert_ptr_null(section_at(&t.laid, (struct point){ 1500e3, 5e3 }));
	ck_assert_ptr_eq(section_at(&t.laid, (struct point){ 1500e3, 15e3 }), border_of(&t, 0, 0));
	ck_assert_int_eq(border_of(&t, 0, 0)->laid.whole, 30);
	ck_assert_double_eq_tol(t.laid.sections[0].area_m2, 6 - 0.6, 1e-12);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("paving");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, a_mitred_border_cuts_the_slabs_at_its_ends);
	tcase_add_test(tc, a_butted_border_of_whole_slabs_cuts_none);
	tcase_add_test(tc, the_second_course_shifts_by_half_a_slab);
	tcase_add_test(tc, from_the_middle_both_ends_are_long);
	tcase_add_test(tc, a_border_runs_round_an_opening);
	tcase_add_test(tc, on_a_curve_joints_open_or_slabs_are_cut_to_wedges);
	tcase_add_test(tc, a_zone_has_its_own_slab);
	tcase_add_test(tc, offcuts_serve_every_section_of_the_same_slab);
	tcase_add_test(tc, a_zone_without_slabs_takes_none);
	tcase_add_test(tc, a_common_edge_of_two_zones_counts_once);
	tcase_add_test(tc, what_cannot_be_parted_is_refused_by_name);
	tcase_add_test(tc, a_border_lies_inside_the_gap);
	return suite_run("the paving's parts", tc);
}
