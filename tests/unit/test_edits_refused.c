/* Edits of border courses and zones that cannot stand. */
#include "program.h"
#include "suite.h"
#include "unit/parts.h"
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

#define BEYOND_UM (COORD_LIMIT_UM + 1)

static void seventeen(struct parts *p, struct edit *e)
{
	static struct plan_border many[BORDERS + 1];

	for (size_t i = 0; i <= BORDERS; i++)
		many[i] = p->borders[0];
	e->borders = many;
	e->border_count = BORDERS + 1;
}
static void short_border(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[1].slab.length_um = 19000;
}
static void three_courses(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[2].deep = 3;
}
static void narrow_joint(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[0].widest_joint_um = 2999;
}
static void offset_one(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[0].offset = 1;
}
static void bad_lay(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[0].lay = (enum border_lay)2;
}
static void bad_corners(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[0].corners = (enum border_corner)2;
}
static void bad_begin(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[1].begin = (enum border_begin)2;
}
static void bad_size(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[1].slab.size = (enum size_meaning)2;
}
static void bad_border_name(struct parts *p, struct edit *e)
{
	(void)e;
	p->borders[2].slab.name = "\xFF";
}
static void too_few(struct parts *p, struct edit *e)
{
	(void)p;
	e->border_count = 1;
}
static void no_such_border(struct parts *p, struct edit *e)
{
	(void)p;
	*e = (struct edit){ .type = EDIT_NODE_SET, .at = 1, .node = { .border = 4 } };
}
static void border_under_0(struct parts *p, struct edit *e)
{
	(void)p;
	*e = (struct edit){ .type = EDIT_NODE_INSERT, .at = 3, .node = { .border = -1 } };
}
static void ring_with_no_such_border(struct parts *p, struct edit *e)
{
	static struct plan_node node = { .border = 5 };

	(void)p;
	*e = (struct edit){ .type = EDIT_RING_INSERT, .ring = 1, .ring_value = { &node, 1, true } };
}
static void ring_set_to_no_such_border(struct parts *p, struct edit *e)
{
	ring_with_no_such_border(p, e);
	e->type = EDIT_RING_SET;
	e->ring = 0;
}
static void thirty_three(struct parts *p, struct edit *e)
{
	static struct plan_zone many[ZONES + 1];

	for (size_t i = 0; i <= ZONES; i++)
		many[i] = p->zones[2];
	*e = (struct edit){ .type = EDIT_ZONES, .zones = many, .zone_count = ZONES + 1 };
}
static void high(struct parts *p, struct edit *e)
{
	p->zones[2].level_um = 1000001;
	*e = zones_edit(p, 3);
}
static void bad_zone_name(struct parts *p, struct edit *e)
{
	p->zones[1].name = "\xC3";
	*e = zones_edit(p, 3);
}
static void far_zone(struct parts *p, struct edit *e)
{
	static struct plan_node node = { .y_um = -BEYOND_UM };

	p->zones[1].ring = (struct plan_ring){ &node, 1, true };
	*e = zones_edit(p, 3);
}
static void unlayable_zone(struct parts *p, struct edit *e)
{
	p->zones[0].laying.repeat.count = 0;
	*e = zones_edit(p, 3);
}
static void bad_zone_bond(struct parts *p, struct edit *e)
{
	p->zones[1].laying.bond = BONDS;
	*e = zones_edit(p, 3);
}
static void bad_zone_along(struct parts *p, struct edit *e)
{
	p->zones[1].laying.along = (enum along)2;
	*e = zones_edit(p, 3);
}
static void bad_zone_slab_name(struct parts *p, struct edit *e)
{
	p->zones[1].laying.slab.name = "\xFF";
	*e = zones_edit(p, 3);
}
static void bad_zone_repeat_name(struct parts *p, struct edit *e)
{
	p->zones[0].laying.repeat.name = "\xFF";
	*e = zones_edit(p, 3);
}
static void many_corners(struct parts *p, struct edit *e)
{
	enum { MOST = 100000 };
	static struct plan_node nodes[MOST];

	/* Three are the outline's. */
	p->zones[0].ring = (struct plan_ring){ nodes, MOST - 2, true };
	*e = zones_edit(p, 1);
}

static const struct {
	void (*spoil)(struct parts *p, struct edit *e);
	const char *words;
} spoils[] = {
	{ seventeen, "borders: 17 of them; give at most 16" },
	{ short_border, "borders[1].slab.length: 19 mm is out of reach" },
	{ three_courses, "borders[2].deep: give 1 or 2 courses" },
	{ narrow_joint, "borders[0].widest_joint: 2.999 mm is out of reach" },
	{ offset_one, "borders[0].offset" },
	{ bad_lay, "borders[0]: there is no such way to lay it" },
	{ bad_corners, "borders[0]: there is no such" },
	{ bad_begin, "borders[1]: there is no such" },
	{ bad_size, "borders[1]: there is no such" },
	{ bad_border_name, "borders[2].slab.name: not UTF-8" },
	{ too_few, "ring 1, edge 3: it names border 2, and the plan has 1" },
	{ no_such_border, "ring 1, edge 2: it names border 4, and the plan has 3" },
	{ border_under_0, "ring 1, edge 4: it names border -1" },
	{ ring_with_no_such_border, "ring 2, edge 1: it names border 5" },
	{ ring_set_to_no_such_border, "ring 1, edge 1: it names border 5" },
	{ thirty_three, "zones: 33 of them; give at most 32" },
	{ high, "zones[2].level: 1000.001 mm is out of reach" },
	{ bad_zone_name, "zones[1].name: not UTF-8" },
	{ far_zone, "zone 2, corner 1: y of -1000000.001 mm is out of reach" },
	{ unlayable_zone, "zones[0].laying.repeat: mixed bond needs" },
	{ bad_zone_bond, "zones[1].laying.bond: there is no such bond" },
	{ bad_zone_along, "zones[1].laying.bond: there is no such bond, direction" },
	{ bad_zone_slab_name, "zones[1].laying.slab.name: not UTF-8" },
	{ bad_zone_repeat_name, "zones[0].laying.repeat.name: not UTF-8" },
	{ many_corners, "the plan would have 100001 corners" },
};

START_TEST(borders_and_zones_that_cannot_stand_change_nothing)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	struct parts p = some_parts(), spoilt = some_parts();
	int64_t variant = empty_variant(s), undo, redo;
	struct edit e;
	char *before, *after;

	for (int i = 0; i < 3; i++)
		edit(s, variant, evening_step(&p, i));
	e = (struct edit){ .type = EDIT_NODE_SET, .at = 2, .node = { .border = 2 } };
	edit(s, variant, e);
	before = exported(s, variant);
	e = borders_edit(&spoilt, 3);
	spoils[_i].spoil(&spoilt, &e);
	ck_assert_int_eq(store_edit(s, variant, &e, &err), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, spoils[_i].words) != NULL, "\"%s\" does not say \"%s\"",
	        err.text, spoils[_i].words);
	after = exported(s, variant);
	ck_assert_str_eq(before, after);
	ck_assert_int_eq(store_undo_depth(s, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 4);
	free(before);
	free(after);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("refusals");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, borders_and_zones_that_cannot_stand_change_nothing, 0,
	        sizeof spoils / sizeof *spoils);
	return suite_run("edits refused", t);
}
