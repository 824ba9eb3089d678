/* Water, site, planters, steps and edging in documents. */
#include "json_read.h"
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

static struct plan imported_plan(struct store *s, const char *json, struct arena *mem)
{
	struct plan plan;
	struct error err = { 0 };

	ck_assert_msg(
	        store_plan(s, imported(s, json), mem, &plan, &err) == STATUS_OK, "%s", err.text);
	return plan;
}

static void water_is(const struct plan *p)
{
	const struct plan_water *w = &p->water;

	ck_assert_int_eq(p->rings[0].nodes[0].channel, 1);
	ck_assert_int_eq(p->rings[0].nodes[1].channel, 2);
	ck_assert_int_eq(p->rings[0].nodes[2].channel, 0);
	ck_assert_str_eq(w->rain.name, "Somewhere");
	ck_assert_str_eq(w->rain.source, "invented");
	ck_assert_int_eq(w->rain.minutes, 10);
	ck_assert_uint_eq(w->rain.count, 2);
	ck_assert_int_eq(w->rain.rows[0].um_per_h, 75000);
	ck_assert_int_eq(w->rain.rows[1].minutes, 15);
	ck_assert_int_eq(w->rain.rows[1].um_per_h, 50125);
	ck_assert_int_eq(w->runoff_ppm, 900000);
	ck_assert(w->permeable);
	ck_assert_int_eq(w->surface_nm_s, 45000);
	ck_assert_int_eq(w->voids_ppm, 250000);
	ck_assert_int_eq(w->soil_nm_s, 1);
	ck_assert_uint_eq(w->channel_count, 2);
	ck_assert_int_eq(w->channels[0].width_um, 100000);
	ck_assert_int_eq(w->channels[0].outlet, OUTLET_LAST);
	ck_assert_str_eq(w->channels[1].name, "Drain");
	ck_assert_int_eq(w->channels[1].x1_um, 1000);
	ck_assert_int_eq(w->channels[1].y2_um, 4000);
	ck_assert_int_eq(w->channels[1].width_um, 150000);
	ck_assert_int_eq(w->channels[1].depth_um, 80500);
	ck_assert_int_eq(w->channels[1].fall_um_per_m, 5000);
	ck_assert_int_eq(w->channels[1].roughness_ppm, 11000);
	ck_assert_int_eq(w->channels[1].outlet, OUTLET_BOTH);
	ck_assert_uint_eq(w->gully_count, 1);
	ck_assert_int_eq(w->gullies[0].capacity_ml_s, 1250);
	ck_assert(w->soakaway.has);
	ck_assert_int_eq(w->soakaway.y_um, -8000);
	ck_assert_int_eq(w->soakaway.length_um, 2000000);
	ck_assert_int_eq(w->soakaway.width_um, 1000000); /* left out */
	ck_assert_int_eq(w->soakaway.depth_um, 900000);
	ck_assert_int_eq(w->soakaway.voids_ppm, 300000);
	ck_assert_int_eq(w->soakaway.soil_nm_s, 12345);
}

static void site_is(const struct plan_site *t)
{
	const struct plan_reading *r = t->book.readings;

	ck_assert_int_eq(t->book.start_um, 106366000);
	ck_assert(t->book.has_close && !t->book.adjust);
	ck_assert_int_eq(t->book.close_um, 105263000);
	ck_assert_int_eq(t->book.allow_um, 6000);
	ck_assert_uint_eq(t->book.count, 3);
	ck_assert_str_eq(r[0].name, "BM");
	ck_assert_int_eq(r[0].backsight_um, 1216000);
	ck_assert(r[0].intermediate_um == NO_READING && r[0].foresight_um == NO_READING);
	ck_assert(!r[0].has_place && r[1].has_place && !r[2].has_place);
	ck_assert_int_eq(r[1].intermediate_um, -25000);
	ck_assert_int_eq(r[1].y_um, 10000);
	ck_assert_int_eq(r[2].backsight_um, 0);
	ck_assert_int_eq(r[2].foresight_um, 484000);
	ck_assert_uint_eq(t->spot_count, 2);
	ck_assert_int_eq(t->spots[0].level_um, -412500);
	ck_assert_str_eq(t->spots[1].name, "lawn");
	ck_assert_int_eq(t->earth.over_dig_um, 200000);
	ck_assert_int_eq(t->earth.topsoil_um, 120000);
	ck_assert_int_eq(t->earth.bulking_ppm, 300000);
	ck_assert_int_eq(t->earth.compaction_ppm, 50000);
	ck_assert(t->baseline.has);
	ck_assert_int_eq(t->baseline.y1_um, 1000);
	ck_assert_int_eq(t->baseline.x2_um, 2000);
	ck_assert_uint_eq(t->peg_count, 1);
	ck_assert_int_eq(t->pegs[0].x_um, 13000);
	ck_assert_uint_eq(t->measured_count, 2);
	ck_assert(t->measured[0].has_level && t->measured[0].has_place);
	ck_assert(!t->measured[1].has_level && !t->measured[1].has_place);
	ck_assert_int_eq(t->measured[0].level_um, -1500);
	ck_assert_int_eq(t->measured[0].at_x_um, 2500);
	ck_assert_int_eq(t->measured[0].at_y_um, -1000);
}

static void planters_are(const struct plan *plan)
{
	const struct plan_planter *p = &plan->planters[1];

	ck_assert_uint_eq(plan->planter_count, 2);
	ck_assert_uint_eq(plan->planters[0].count, 2);
	ck_assert_int_eq(plan->planters[0].block.length_um, 440000);
	ck_assert_int_eq(plan->planters[0].cap_price_minor, -1);
	ck_assert_str_eq(p->name, "Box");
	ck_assert_uint_eq(p->count, 3);
	ck_assert_int_eq(p->points[2].y_um, 1200000);
	ck_assert(p->closed && p->liner && p->block.has_half && p->block.has_corner);
	ck_assert_str_eq(p->block.name, "Block");
	ck_assert_int_eq(p->block.height_um, 190000);
	ck_assert_int_eq(p->block.joint_um, 0);
	ck_assert_int_eq(p->block.density_kg_m3, 1400);
	ck_assert_int_eq(p->block.price_minor, 245);
	ck_assert_int_eq(p->leaves, 2);
	ck_assert_int_eq(p->courses, 3);
	ck_assert_int_eq(p->base_um, -250000);
	ck_assert_int_eq(p->tie_um, 600000);
	ck_assert_str_eq(p->cap_name, "Cap");
	ck_assert_int_eq(p->cap_um, 1000000);
	ck_assert_int_eq(p->cap_fixing_um, 900000);
	ck_assert_int_eq(p->cap_price_minor, 1200);
	ck_assert_int_eq(p->footing_width_um, 400000);
	ck_assert_int_eq(p->footing_depth_um, 200000);
	ck_assert_int_eq(p->footing, MIX_STABILISED_SAND);
	ck_assert_int_eq(p->cement_kg_m3, 150);
	ck_assert_int_eq(p->fill_um, 500000);
	ck_assert_int_eq(p->gravel_um, 80000);
	ck_assert_int_eq(p->weep_um, 1500000);
	ck_assert_int_eq(p->soil_kg_m3, 1700);
	ck_assert_int_eq(p->friction_udeg, 28500000);
	ck_assert_int_eq(p->back_slope_udeg, 10000000);
	ck_assert_int_eq(p->surcharge_pa, 2500);
	ck_assert_int_eq(p->base_friction_ppm, 450000);
	ck_assert_int_eq(p->bearing_pa, 100000);
}

static void steps_are(const struct plan *plan)
{
	const struct plan_steps *t = &plan->steps[1];

	ck_assert_uint_eq(plan->steps_count, 2);
	ck_assert_int_eq(plan->steps[0].bottom_um, -500000);
	ck_assert(!plan->steps[0].has_top);
	ck_assert_int_eq(plan->steps[0].unit_depth_um, 350000);
	ck_assert_str_eq(t->name, "Lawn");
	ck_assert_int_eq(t->y_um, 20000);
	ck_assert_int_eq(t->toward_udeg, 90000000);
	ck_assert_int_eq(t->width_um, 1500000);
	ck_assert_int_eq(t->bottom_um, -690000);
	ck_assert(t->has_top);
	ck_assert_int_eq(t->top_um, -226500);
	ck_assert_int_eq(t->risers, 3);
	ck_assert_int_eq(t->going_um, 320000);
	ck_assert_int_eq(t->build, STEPS_BUILT);
	ck_assert_str_eq(t->unit_name, "Riser");
	ck_assert_int_eq(t->unit_length_um, 1000000);
	ck_assert_int_eq(t->unit_depth_um, 60000);
	ck_assert_int_eq(t->unit_height_um, 150000);
	ck_assert_int_eq(t->unit_density_kg_m3, 2300);
	ck_assert_int_eq(t->unit_price_minor, 620);
	ck_assert_int_eq(t->tread_um, 50000);
	ck_assert_int_eq(t->overhang_um, 20000);
	ck_assert_int_eq(t->bed_um, 25000);
	ck_assert_int_eq(t->tread_fall_um_per_m, 12500);
	ck_assert_int_eq(t->landing_um, 1200000);
	ck_assert_int_eq(t->flank_um, 215000);
}

static void kerb_is(const struct plan_edging *e)
{
	ck_assert_int_eq(e->depth_um, 50000);
	ck_assert_int_eq(e->corner_um, 200000);
	ck_assert_int_eq(e->profile, PROFILE_TAPERED);
	ck_assert_int_eq(e->foot_um, 62500);
	ck_assert_int_eq(e->height_um, 150000);
	ck_assert_int_eq(e->top_um, -5000);
	ck_assert_int_eq(e->bed, MIX_LEAN_CONCRETE);
	ck_assert_int_eq(e->cement_kg_m3, 180);
	ck_assert_int_eq(e->strip_um, 100000);
	ck_assert_int_eq(e->strip_beyond_um, 80000);
	ck_assert_int_eq(e->haunch_um, 120000);
	ck_assert_int_eq(e->held_um, 50000);
	ck_assert(e->haunch_both);
	ck_assert_int_eq(e->density_kg_m3, 2300);
	ck_assert_int_eq(e->price_minor, 610);
}

START_TEST(every_member_is_read_exactly)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan p = imported_plan(s, beside_document, &mem);

	water_is(&p);
	site_is(&p.site);
	planters_are(&p);
	steps_are(&p);
	kerb_is(&p.edging[EDGE_KERB]);
	ck_assert_int_eq(p.edging[EDGE_PLANTER].price_minor, -1);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(what_is_left_out_has_the_defaults)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct plan_channel channel;
	struct plan_planter planter;
	struct plan_steps steps;
	struct plan read, said, none;

	read = said = imported_plan(s,
	        ONE("\"water\":{\"channels\":[{\"to\":{\"x\":1,\"y\":2}}],\"soakaway\":{\"x\":0,"
	            "\"y\":0}},"
	            "\"site\":{},\"planters\":[{\"points\":[{\"x\":0,\"y\":0},{\"x\":1,\"y\":0}]}],"
	            "\"steps\":[{\"x\":0,\"y\":0,\"bottom\":0}]"),
	        &mem);
	plan_init(&none);
	channel_init(&channel);
	channel.x2_um = 1000;
	channel.y2_um = 2000;
	planter_init(&planter);
	planter.points = read.planters[0].points;
	planter.count = 2;
	steps_init(&steps);
	said.water = none.water;
	said.water.channels = &channel;
	said.water.channel_count = 1;
	soakaway_init(&said.water.soakaway);
	said.site = none.site;
	said.planters = &planter;
	said.steps = &steps;
	ck_assert_uint_eq(read.planter_count + read.steps_count, 2);
	ck_assert_ptr_null(plans_differ(&read, &said));
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_plan_with_nothing_beside_it_says_nothing_of_it)
{
	static const char *const members[] = { "water", "site", "planters", "steps", "channel",
		"edging" };
	struct store *s = store_in_folder("p.slabs");
	char *json = exported(s,
	        imported(s,
	                ONE("\"outline\":{\"nodes\":[{\"x\":1,\"y\":2,\"channel\":0}]},\"water\":{"
	                    "\"rain\":{},\"channels\":[]},\"site\":{\"book\":{},\"ground\":[],"
	                    "\"earth\":{\"over_dig\":150}},\"planters\":[],\"steps\":[],"
	                    "\"edging\":[{\"kind\":\"kerb\",\"unit\":0}]")));

	for (size_t i = 0; i < sizeof members / sizeof *members; i++)
		ck_assert_msg(!strstr(json, members[i]), "%s", json);
	free(json);
	store_close(s);
}
END_TEST

START_TEST(a_document_that_was_exported_comes_back_byte_for_byte)
{
	struct store *a = store_in_folder("a.slabs"), *b = store_in_folder("b.slabs");
	char *first = exported_job(a, imported(a, beside_document)), *second;

	ck_assert(json_is_valid(first));
	ck_assert_int_eq(json_length(first, "$.variants[0].water.channels"), 2);
	ck_assert_int_eq(json_length(first, "$.variants[0].site.book.readings"), 3);
	ck_assert_int_eq(json_length(first, "$.variants[0].planters[1].points"), 3);
	second = exported_job(b, imported(b, first));
	ck_assert_str_eq(first, second);
	free(first);
	free(second);
	store_close(a);
	store_close(b);
}
END_TEST

/* To the nanometre a second, however it is written. */
START_TEST(every_rate_comes_back_exactly)
{
	struct chance d = chance_new(chance_seed("rates", 17));
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	int64_t variant = empty_variant(s);
	struct edit e = { .type = EDIT_WATER };
	struct plan p;

	water_init(&e.water);
	for (int i = 0; i < 1000 / ONE_OF; i++) {
		e.water.surface_nm_s = chance_int(&d, 0, i % 2 ? 100000000 : 1000);
		ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_OK);
		ck_assert_int_eq(store_plan(s, variant, &mem, &p, &err), STATUS_OK);
		ck_assert_int_eq(p.water.surface_nm_s, e.water.surface_nm_s);
		arena_reset(&mem);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* What the comparison that tells whether another program has changed the plan must see. */
static void sees(const struct plan *a, const struct plan *b, bool differ, const char *what)
{
	bool same;

	ck_assert(store_plans_same(a, b, &same));
	ck_assert_msg(same != differ, "%s", what);
	ck_assert_msg((plans_differ(a, b) != NULL) == differ, "%s", what);
}

START_TEST(plans_that_differ_beside_the_paving_are_not_the_same)
{
	struct plan a = plan_with_all_beside(), b;
	struct arena mem = { 0 };
	struct error err = { 0 };

	a.edging[EDGE_KERB].unit_um = 900000;
	ck_assert_int_eq(plan_copy(&mem, &a, &b, &err), STATUS_OK);
	sees(&a, &b, false, "a copy");
#define SEES(member, value)                                                                        \
	do {                                                                                       \
		struct plan c;                                                                     \
		ck_assert_int_eq(plan_copy(&mem, &a, &c, &err), STATUS_OK);                        \
		c.member = value;                                                                  \
		sees(&a, &c, true, #member);                                                       \
	} while (0)
	SEES(water.rain.name, "Elsewhere");
	SEES(water.rain.source, "");
	SEES(water.rain.rows[2].um_per_h, 1);
	SEES(water.rain.count, 2);
	SEES(water.rain.minutes, 0);
	SEES(water.runoff_ppm, 0);
	SEES(water.permeable, false);
	SEES(water.surface_nm_s, 0);
	SEES(water.voids_ppm, 1);
	SEES(water.soil_nm_s, 2);
	SEES(water.channel_count, 1);
	SEES(water.channels[1].y1_um, 7);
	SEES(water.channels[0].outlet, OUTLET_FIRST);
	SEES(water.channels[0].roughness_ppm, 12000);
	SEES(water.gullies[0].capacity_ml_s, 0);
	SEES(water.gully_count, 0);
	SEES(water.soakaway.has, false);
	SEES(water.soakaway.soil_nm_s, 1);
	SEES(site.book.start_um, 0);
	SEES(site.book.has_close, false);
	SEES(site.book.close_um, 1);
	SEES(site.book.allow_um, 5000);
	SEES(site.book.adjust, true);
	SEES(site.book.readings[0].backsight_um, NO_READING);
	SEES(site.book.readings[3].x_um, 1);
	SEES(site.book.readings[3].has_place, false);
	SEES(site.spots[1].level_um, 0);
	SEES(site.earth.bulking_ppm, 250000);
	SEES(site.baseline.has, false);
	SEES(site.baseline.y2_um, 0);
	SEES(site.pegs[0].name, "P2");
	SEES(site.measured[1].at_x_um, 0);
	SEES(site.measured[0].has_level, false);
	SEES(costs.crew, 4);
	SEES(costs.currency, "USD");
	SEES(costs.materials[MATERIAL_GRAVEL].used, false);
	SEES(costs.hire[1].price_minor, 0);
	SEES(costs.extra_count, 0);
	SEES(planter_count, 1);
	SEES(planters[0].points[2].x_um, 1);
	SEES(planters[0].closed, false);
	SEES(planters[0].block.joint_um, 0);
	SEES(planters[1].cap_fixing_um, 0);
	SEES(planters[0].footing, MIX_STABILISED_SAND);
	SEES(planters[0].bearing_pa, 0);
	SEES(steps_count, 1);
	SEES(steps[1].has_top, false);
	SEES(steps[1].top_um, 0);
	SEES(steps[0].build, STEPS_BUILT);
	SEES(steps[0].unit_height_um, 160000);
	SEES(steps[0].flank_um, 1);
	SEES(edging[EDGE_KERB].held_um, 1);
	SEES(edging[EDGE_KERB].haunch_both, true);
	SEES(edging[EDGE_KERB].price_minor, 0);
	SEES(edging[EDGE_KERB].bed, MIX_LEAN_CONCRETE);
	arena_free(&mem);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("beside");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, every_member_is_read_exactly);
	tcase_add_test(t, what_is_left_out_has_the_defaults);
	tcase_add_test(t, a_plan_with_nothing_beside_it_says_nothing_of_it);
	tcase_add_test(t, a_document_that_was_exported_comes_back_byte_for_byte);
	tcase_add_test(t, every_rate_comes_back_exactly);
	tcase_add_test(t, plans_that_differ_beside_the_paving_are_not_the_same);
	return suite_run("exchange beside the paving", t);
}
