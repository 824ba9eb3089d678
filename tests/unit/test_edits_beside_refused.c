/* Edits of water, site, planters, steps, edging and channels along edges that cannot stand. */
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/stores.h"

#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

static void edit(struct store *s, int64_t variant, struct edit e)
{
	struct error err = { 0 };

	ck_assert_msg(store_edit(s, variant, &e, &err) == STATUS_OK, "%s", err.text);
}

static struct plan spoilt;
static struct plan_ring two_rings[2];

static struct edit far_reading(void)
{
	spoilt.site.book.readings[2].backsight_um = 20000001;
	return beside_edit(&spoilt, 1);
}
static struct edit bad_peg_name(void)
{
	spoilt.site.pegs[0].name = "\xFF";
	return beside_edit(&spoilt, 1);
}
static struct edit too_many_pegs(void)
{
	static struct plan_peg many[SITE_ITEMS + 1];

	spoilt.site.pegs = many;
	spoilt.site.peg_count = SITE_ITEMS + 1;
	return beside_edit(&spoilt, 1);
}
static struct edit far_measured(void)
{
	spoilt.site.measured[1].at_y_um = -COORD_LIMIT_UM - 1;
	return beside_edit(&spoilt, 1);
}
static struct edit bad_outlet(void)
{
	spoilt.water.channels[0].outlet = (enum channel_outlet)3;
	return beside_edit(&spoilt, 0);
}
static struct edit long_rain_name(void)
{
	static char name[202];

	memset(name, 'a', 201);
	spoilt.water.rain.name = name;
	return beside_edit(&spoilt, 0);
}
static struct edit too_few_channels(void)
{
	spoilt.water.channel_count = 1;
	return beside_edit(&spoilt, 0);
}
static struct edit other_count_of_rings(void)
{
	struct edit e = beside_edit(&spoilt, 0);

	e.type = EDIT_DRAINS;
	e.rings = two_rings;
	e.ring_count = 2;
	return e;
}
static struct edit no_such_channel(void)
{
	struct edit e = { .type = EDIT_NODE_SET, .at = 2, .node = beside_corners[2] };

	e.node.channel = 3;
	return e;
}
static struct edit negative_channel(void)
{
	struct edit e = no_such_channel();

	e.node.channel = -1;
	return e;
}
static struct edit ring_with_no_such_channel(void)
{
	static struct plan_node node = { .channel = 9 };

	return (struct edit){
		.type = EDIT_RING_INSERT, .ring = 1, .ring_value = { &node, 1, true }
	};
}
static struct edit bad_mix(void)
{
	spoilt.planters[1].footing = (enum bed_mix)2;
	return beside_edit(&spoilt, 2);
}
static struct edit bad_cap_name(void)
{
	spoilt.planters[0].cap_name = "\xC3";
	return beside_edit(&spoilt, 2);
}
static struct edit cheap_block(void)
{
	spoilt.planters[0].block.price_minor = -2;
	return beside_edit(&spoilt, 2);
}
static struct edit too_many_planters(void)
{
	static struct plan_planter many[PLANTERS + 1];

	spoilt.planters = many;
	spoilt.planter_count = PLANTERS + 1;
	return beside_edit(&spoilt, 2);
}
static struct edit bad_build(void)
{
	spoilt.steps[1].build = (enum steps_build)2;
	return beside_edit(&spoilt, 3);
}
static struct edit bad_unit_name(void)
{
	spoilt.steps[0].unit_name = "\xFF";
	return beside_edit(&spoilt, 3);
}
static struct edit kerb_with(struct plan_edging edging)
{
	edging.unit_um = 900000;
	edging.price_minor = -1;
	return (struct edit){ .type = EDIT_EDGING, .at = EDGE_KERB, .edging = edging };
}
static struct edit bad_profile(void)
{
	return kerb_with((struct plan_edging){ .profile = (enum edging_profile)3 });
}
static struct edit held_too_high(void)
{
	return kerb_with((struct plan_edging){ .height_um = 150000, .held_um = 150001 });
}

static const struct {
	struct edit (*spoil)(void);
	const char *words;
} spoils[] = {
	{ far_reading, "site.book.readings[2].back: 20000.001 mm is out of reach" },
	{ bad_peg_name, "site.pegs[0].name: not UTF-8" },
	{ too_many_pegs, "site.pegs: 2001 of them; give at most 2000" },
	{ far_measured, "site.measured[1].at.y: -1000000.001 mm is out of reach" },
	{ bad_outlet, "water.channels[0].outlet: there is no such one" },
	{ long_rain_name, "water.rain.name: 201 bytes long; give at most 200" },
	{ too_few_channels, "ring 1, edge 2: it names channel 2, and the plan has 1" },
	{ other_count_of_rings, "2 rings: the plan has 1" },
	{ no_such_channel, "ring 1, edge 3: it names channel 3, and the plan has 2" },
	{ negative_channel, "ring 1, edge 3: it names channel -1" },
	{ ring_with_no_such_channel, "ring 2, edge 1: it names channel 9" },
	{ bad_mix, "planters[1].footing.mix: there is no such one" },
	{ bad_cap_name, "planters[0].cap.name: not UTF-8" },
	{ cheap_block, "planters[0].block.price: -0.02 is out of reach; give from 0 to" },
	{ too_many_planters, "planters: 17 of them; give at most 16" },
	{ bad_build, "steps[1].build: there is no such one" },
	{ bad_unit_name, "steps[0].unit.name: not UTF-8" },
	{ bad_profile, "edging.profile: there is no such one" },
	{ held_too_high, "edging.held: give from 0 up to the height of the unit" },
};

START_TEST(an_edit_that_cannot_stand_changes_nothing)
{
	struct store *s = store_in_folder("p.slabs");
	struct plan all = plan_with_all_beside();
	struct error err = { 0 };
	int64_t variant = empty_variant(s), undo, redo;
	struct edit e;
	char *before, *after;

	for (int i = 0; i < 5; i++)
		edit(s, variant, beside_step(&all, i));
	before = exported(s, variant);
	spoilt = plan_with_all_beside();
	e = spoils[_i].spoil();
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, spoils[_i].words) != NULL, "\"%s\" does not say \"%s\"",
	        err.text, spoils[_i].words);
	after = exported(s, variant);
	ck_assert_str_eq(before, after);
	ck_assert_int_eq(store_undo_depth(s, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 5);
	free(before);
	free(after);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("beside");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(
	        t, an_edit_that_cannot_stand_changes_nothing, 0, sizeof spoils / sizeof *spoils);
	return suite_run("edits beside the paving refused", t);
}
