/* parts.c - a few borders and zones. */
#include "unit/parts.h"

#include <stdio.h>

static struct plan_node corners[] = { { 0, 0, 0, EDGE_KERB, 0, 0 },
	{ 6000000, 0, 0, EDGE_KERB, 0, 0 }, { 6000000, 4000000, 250000, EDGE_STEPS, 0, 0 } };
static struct repeat_slab lone_slab = { 0, 0, 600000, 300000 };
static struct mix_size lone_size = { 450000, 300000, 7 };

struct parts some_parts(void)
{
	struct parts p;

	for (int i = 0; i < 3; i++) {
		border_init(&p.borders[i]);
		p.borders[i].slab.name = i ? "Sett" : "";
		p.borders[i].slab.length_um += i * 40000;
		zone_init(&p.zones[i]);
		p.zones[i].name = i ? "Bed" : "Path";
		p.zones[i].ring = (struct plan_ring){ corners, 3, i != 1 };
		p.zones[i].level_um = i * -1500;
	}
	p.borders[1].lay = BORDER_STRETCHER;
	p.borders[1].deep = 2;
	p.zones[0].laying.bond = BOND_MIXED;
	p.zones[0].laying.repeat = (struct plan_repeat){ "One", 600000, 300000, 0, &lone_slab, 1 };
	p.zones[1].laying.bond = BOND_COURSED_RANDOM;
	p.zones[1].laying.mix = (struct plan_mix){ 5, &lone_size, 1 };
	p.zones[2].paved = false;
	return p;
}

struct edit borders_edit(struct parts *p, size_t count)
{
	return (struct edit){ .type = EDIT_BORDERS,
		.label = "borders",
		.borders = p->borders,
		.border_count = count };
}

struct edit zones_edit(struct parts *p, size_t count)
{
	return (struct edit){
		.type = EDIT_ZONES, .label = "zones", .zones = p->zones, .zone_count = count
	};
}

struct edit evening_step(struct parts *p, int step)
{
	static const int64_t named[] = { 2, 3, 1 };
	struct edit e = { .ring_value = { corners, 3, true } };

	if (step == 0)
		e.type = EDIT_RING_INSERT;
	else if (step == 1)
		e = borders_edit(p, 3);
	else if (step == 2)
		e = zones_edit(p, 3);
	else if (step < 6)
		e = (struct edit){ .type = step == 5 ? EDIT_NODE_INSERT : EDIT_NODE_SET,
			.at = (size_t)step - 3,
			.node = { step * 1000, -step, 0, EDGE_KERB, named[step - 3] } };
	else
		e = step == 6 ? zones_edit(p, 1) : (struct edit){ .type = EDIT_NODE_DELETE };
	snprintf(e.label, sizeof e.label, "step %d", step);
	return e;
}
