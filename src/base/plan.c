/* plan.c - defaults, words, copies, and the limits of single values. */
#include "slabwright/plan.h"

#include "parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const edge_kinds[EDGE_KINDS] = {
	"house wall",
	"kerb",
	"haunch",
	"planter",
	"steps",
	"existing paving",
	"open",
};

static const char *const bonds[BONDS] = {
	"stack",
	"stretcher",
	"herringbone",
	"basketweave",
	"mixed",
	"coursed random",
};

int find_word(const char *const *words, int count, const char *word)
{
	for (int i = 0; i < count; i++)
		if (strcmp(words[i], word) == 0)
			return i;
	return -1;
}

const char *edge_kind_name(enum edge_kind kind)
{
	return edge_kinds[kind];
}

int edge_kind_parse(const char *word)
{
	return find_word(edge_kinds, EDGE_KINDS, word);
}

const char *bond_name(enum bond bond)
{
	return bonds[bond];
}

int bond_parse(const char *word)
{
	return find_word(bonds, BONDS, word);
}

bool slab_alike(const struct plan_slab *a, const struct plan_slab *b)
{
	return a->thickness_um == b->thickness_um && a->directional == b->directional &&
	       a->pack == b->pack && a->density_kg_m3 == b->density_kg_m3 &&
	       a->price_minor == b->price_minor && strcmp(a->name, b->name) == 0;
}

void plan_init(struct plan *plan)
{
	*plan = (struct plan){
		.name = "",
		.laying = {
			.slab = {
				.name = "",
				.length_um = 600 * UM_PER_MM,
				.width_um = 300 * UM_PER_MM,
				.thickness_um = 50 * UM_PER_MM,
				.joint_um = 3 * UM_PER_MM,
				.size = SIZE_COORDINATING,
				.pack = 1,
				.price_minor = -1,
			},
			.bond = BOND_STRETCHER,
			.offset = 0.5,
			.kerf_um = 3 * UM_PER_MM,
			.fill_width_um = 10 * UM_PER_MM,
			.sliver_width_um = SLIVER_WIDTH_DEFAULT,
			.edges = RULE_FINISHED,
			.breakage_ppm = 20000,
			.repeat = { .name = "" },
		},
		.surface = { .envelope = ENVELOPE_MAX, .fixed_name = "" },
		.ground = { .bedding_um = 40 * UM_PER_MM, .sub_base_um = 100 * UM_PER_MM },
		.rule_set = "none",
	};
	for (int i = 0; i < EDGE_KINDS; i++)
		plan->edging[i] = (struct plan_edging){ .name = "", .price_minor = -1 };
	water_init(&plan->water);
	site_init(&plan->site);
	costs_init(&plan->costs);
}

void *copy_items(struct arena *mem, const void *items, size_t count, size_t size)
{
	void *to = arena_alloc(mem, count, size);

	if (to && count)
		memcpy(to, items, count * size);
	return to;
}

bool laying_copy(struct arena *mem, const struct plan_laying *from, struct plan_laying *to)
{
	struct plan_laying l = *from;

	l.slab.name = arena_text(mem, from->slab.name);
	l.repeat.name = arena_text(mem, from->repeat.name);
	l.repeat.slabs =
	        copy_items(mem, from->repeat.slabs, from->repeat.count, sizeof *l.repeat.slabs);
	l.mix.sizes = copy_items(mem, from->mix.sizes, from->mix.count, sizeof *l.mix.sizes);
	*to = l;
	return l.slab.name && l.repeat.name && l.repeat.slabs && l.mix.sizes;
}

enum status plan_copy(
        struct arena *mem, const struct plan *from, struct plan *to, struct error *err)
{
	struct plan p = *from;

	p.name = arena_text(mem, from->name);
	p.rule_set = arena_text(mem, from->rule_set);
	p.surface.fixed_name = arena_text(mem, from->surface.fixed_name);
	p.surface.planes = copy_items(
	        mem, from->surface.planes, from->surface.count, sizeof *p.surface.planes);
	p.rings = copy_items(mem, from->rings, from->ring_count, sizeof *p.rings);
	if (!laying_copy(mem, &from->laying, &p.laying) ||
	        !borders_copy(mem, from->borders, from->border_count, &p.borders) ||
	        !zones_copy(mem, from->zones, from->zone_count, &p.zones) ||
	        !water_copy(mem, &from->water, &p.water) || !site_copy(mem, &from->site, &p.site) ||
	        !planters_copy(mem, from->planters, from->planter_count, &p.planters) ||
	        !steps_copy(mem, from->steps, from->steps_count, &p.steps) ||
	        !costs_copy(mem, &from->costs, &p.costs) || !p.name || !p.rule_set ||
	        !p.laying.slab.name || !p.surface.fixed_name || !p.surface.planes || !p.rings)
		return error_memory(err);
	for (size_t i = 0; i < p.ring_count; i++) {
		struct plan_ring *r = &p.rings[i];

		r->nodes = copy_items(mem, from->rings[i].nodes, r->count, sizeof *r->nodes);
		if (!r->nodes)
			return error_memory(err);
	}
	for (int i = 0; i < EDGE_KINDS; i++) {
		p.edging[i].name = arena_text(mem, from->edging[i].name);
		if (!p.edging[i].name)
			return error_memory(err);
	}
	*to = p;
	return STATUS_OK;
}

char *bond_print(char *buf, size_t size, const struct plan_laying *laying)
{
	const char *along = laying->along == ALONG_Y ? " along y" : "";
	char offset[40];

	if (laying->bond == BOND_STRETCHER)
		snprintf(buf, size, "%s %s%s", bond_name(laying->bond),
		        fraction_print(offset, sizeof offset, laying->offset), along);
	else
		snprintf(buf, size, "%s",
		        laying->bond == BOND_BASKETWEAVE ? "basket weave"
		                                         : bond_name(laying->bond));
	return buf;
}

struct slab_size slab_size(const struct plan_slab *slab)
{
	struct slab_size s = { slab->length_um, slab->width_um, slab->length_um, slab->width_um };

	if (slab->size == SIZE_COORDINATING) {
		s.length_um -= slab->joint_um;
		s.width_um -= slab->joint_um;
	} else {
		s.pitch_x_um += slab->joint_um;
		s.pitch_y_um += slab->joint_um;
	}
	return s;
}

int64_t sliver_width_um(const struct plan_laying *laying, int64_t length_um, int64_t width_um)
{
	int64_t quarter = (length_um < width_um ? length_um : width_um) / 4;

	if (laying->sliver_width_um != SLIVER_WIDTH_DEFAULT)
		return laying->sliver_width_um;
	return quarter > 50 * UM_PER_MM ? quarter : 50 * UM_PER_MM;
}

bool bond_of_one_slab(enum bond bond)
{
	return bond != BOND_MIXED && bond != BOND_COURSED_RANDOM;
}

enum status check_limits(
        const struct limit *limits, size_t count, const char *place, struct error *err)
{
	for (size_t i = 0; i < count; i++) {
		const struct limit *l = &limits[i];
		char is[40], least[40], most[40];

		if (l->value >= l->least && l->value <= l->most)
			continue;
		return error_set(err, STATUS_PLAN,
		        "%s%s: %s mm is out of reach; give from %s to %s mm", place, l->name,
		        mm_print(is, sizeof is, l->value), mm_print(least, sizeof least, l->least),
		        mm_print(most, sizeof most, l->most));
	}
	return STATUS_OK;
}

enum status slab_check(const struct plan_slab *s, const char *place, struct error *err)
{
	const int64_t mm = UM_PER_MM;
	const struct limit limits[] = {
		{ "slab.length", s->length_um, 20 * mm, 5000 * mm },
		{ "slab.width", s->width_um, 20 * mm, 5000 * mm },
		{ "slab.thickness", s->thickness_um, 5 * mm, 1000 * mm },
		{ "slab.joint", s->joint_um, 0, 100 * mm },
	};
	struct slab_size size = slab_size(s);
	enum status st = check_limits(limits, sizeof limits / sizeof *limits, place, err);

	if (st != STATUS_OK)
		return st;
	if (size.length_um < 10 * mm || size.width_um < 10 * mm)
		return error_set(err, STATUS_PLAN,
		        "%sslab.joint: the joint leaves less than 10 mm of the slab; give a "
		        "narrower joint",
		        place);
	if (s->pack < 1 || s->pack > 100000)
		return error_set(
		        err, STATUS_PLAN, "%sslab.pack: give from 1 to 100000 slabs a pack", place);
	if (s->density_kg_m3 < 0 || s->density_kg_m3 > 20000)
		return error_set(
		        err, STATUS_PLAN, "%sslab.density: give from 0 to 20000 kg/m3", place);
	if (s->price_minor < -1 || s->price_minor > INT64_C(100000000000))
		return error_set(
		        err, STATUS_PLAN, "%sslab.price: give from 0 to 1000000000", place);
	return STATUS_OK;
}

enum status offset_check(double offset, const char *place, struct error *err)
{
	if (offset >= 0 && offset < 1)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "%soffset: the shift of a course is a fraction from 0 up to but not 1, like 0.5",
	        place);
}

enum status laying_check(const struct plan_laying *laying, const char *place, struct error *err)
{
	const int64_t mm = UM_PER_MM;
	const struct limit limits[] = {
		{ "start.x", laying->start_x_um, -COORD_LIMIT_UM, COORD_LIMIT_UM },
		{ "start.y", laying->start_y_um, -COORD_LIMIT_UM, COORD_LIMIT_UM },
		{ "kerf", laying->kerf_um, 0, 20 * mm },
		{ "fill_width", laying->fill_width_um, 0, 200 * mm },
		{ "sliver_width",
		        laying->sliver_width_um == SLIVER_WIDTH_DEFAULT ? 0
		                                                        : laying->sliver_width_um,
		        0, 5000 * mm },
	};
	enum status st;

	if ((st = slab_check(&laying->slab, place, err)) != STATUS_OK ||
	        (st = check_limits(limits, sizeof limits / sizeof *limits, place, err)) !=
	                STATUS_OK ||
	        (st = offset_check(laying->offset, place, err)) != STATUS_OK)
		return st;
	if (llabs(laying->rotation_udeg) > 360 * UDEG_PER_DEG)
		return error_set(
		        err, STATUS_PLAN, "%srotation: give degrees from -360 to 360", place);
	if (laying->breakage_ppm < 0 || laying->breakage_ppm > 500000)
		return error_set(
		        err, STATUS_PLAN, "%sbreakage: give an allowance from 0 to 50 %%", place);
	for (int i = 0; i < EDGE_KINDS; i++)
		if (laying->edge_joint_um[i] < 0 || laying->edge_joint_um[i] > 100 * mm)
			return error_set(err, STATUS_PLAN,
			        "%sedge_joints.%s: give from 0 to 100 mm", place,
			        edge_kind_name((enum edge_kind)i));
	if ((laying->bond == BOND_MIXED || laying->repeat.count) &&
	        (st = repeat_check(&laying->repeat, place, err)) != STATUS_OK)
		return st;
	if (laying->bond == BOND_COURSED_RANDOM || laying->mix.count)
		st = mix_check(&laying->mix, place, err);
	return st;
}

enum status surface_check(const struct plan_surface *surface, const char *place, struct error *err)
{
	if (surface->count > SURFACE_PLANES)
		return error_set(err, STATUS_PLAN, "%splanes: %zu of them; give at most %d", place,
		        surface->count, SURFACE_PLANES);
	for (size_t i = 0; i < surface->count; i++) {
		const struct plan_plane *p = &surface->planes[i];
		const struct limit limits[] = {
			{ "x", p->x_um, -COORD_LIMIT_UM, COORD_LIMIT_UM },
			{ "y", p->y_um, -COORD_LIMIT_UM, COORD_LIMIT_UM },
			{ "level", p->level_um, -COORD_LIMIT_UM, COORD_LIMIT_UM },
		};
		char where[200];
		enum status st;

		snprintf(where, sizeof where, "%splanes[%zu].", place, i);
		st = check_limits(limits, sizeof limits / sizeof *limits, where, err);
		if (st != STATUS_OK)
			return st;
		if (p->fall_um_per_m < 0 || p->fall_um_per_m > 500 * UM_PER_MM)
			return error_set(err, STATUS_PLAN,
			        "%sfall: give from 0 to 500 mm per m (1:2); turn the direction "
			        "round for a fall "
			        "the other way",
			        where);
		if (llabs(p->toward_udeg) > 360 * UDEG_PER_DEG)
			return error_set(
			        err, STATUS_PLAN, "%stoward: give degrees from -360 to 360", where);
	}
	const struct limit limits[] = {
		{ "fixed.x", surface->has_fixed ? surface->fixed_x_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
		{ "fixed.y", surface->has_fixed ? surface->fixed_y_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
		{ "fixed.level", surface->has_fixed ? surface->fixed_level_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
		{ "damp_proof_course", surface->has_dpc ? surface->dpc_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
	};

	return check_limits(limits, sizeof limits / sizeof *limits, place, err);
}

enum status ground_check(const struct plan_ground *ground, const char *place, struct error *err)
{
	const struct limit limits[] = {
		{ "bedding", ground->bedding_um, 0, 2000 * UM_PER_MM },
		{ "sub_base", ground->sub_base_um, 0, 2000 * UM_PER_MM },
		{ "benchmark", ground->has_instrument ? ground->benchmark_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
		{ "backsight", ground->has_instrument ? ground->backsight_um : 0, -COORD_LIMIT_UM,
		        COORD_LIMIT_UM },
	};

	return check_limits(limits, sizeof limits / sizeof *limits, place, err);
}
