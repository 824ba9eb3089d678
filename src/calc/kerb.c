/* kerb.c - sections, beds and string lines of the edging. See kerb.h for the geometry. */
#include "slabwright/kerb.h"

#include "slabwright/surface.h"

#include <math.h>
#include <stdio.h>

enum { HELD_OF_HEIGHT = 3 }; /* at least a third: common practice, no source */

bool kerb_dams(const struct plan *plan, enum edge_kind kind)
{
	const struct plan_edging *e = &plan->edging[kind];

	return kind == EDGE_PLANTER || (e->height_um > 0 && e->top_um > 0);
}

/* --- section --- */

static int64_t foot_um(const struct plan_edging *e)
{
	return e->profile == PROFILE_TAPERED ? e->foot_um : e->depth_um;
}

static enum status check_section(
        const struct plan_edging *e, enum edge_kind kind, struct error *err)
{
	const char *name = edge_kind_name(kind);
	char place[60];

	if (e->held_um > e->height_um)
		return error_set(err, STATUS_PLAN,
		        "Edging of %s edges: the unit is %g mm high, less than the %g mm that the "
		        "haunch holds. Take a higher unit, or hold at most its height.",
		        name, (double)e->height_um / 1000, (double)e->held_um / 1000);
	if (e->unit_um && !e->depth_um)
		return error_set(err, STATUS_PLAN,
		        "Edging of %s edges: the unit's depth across the run is not known, so "
		        "neither is its bed. Give the depth.",
		        name);
	if (e->profile == PROFILE_TAPERED && e->foot_um < e->depth_um)
		return error_set(err, STATUS_PLAN,
		        "Edging of %s edges: a tapered unit is wider at its foot than at its top "
		        "of %g mm, but the foot is %g mm. Give the foot's width.",
		        name, (double)e->depth_um / 1000, (double)e->foot_um / 1000);
	snprintf(place, sizeof place, "Edging of %s edges: ", name);
	return edging_check(e, place, err);
}

enum status kerb_section(
        const struct plan *plan, enum edge_kind kind, struct kerb_section *out, struct error *err)
{
	const struct plan_edging *e = &plan->edging[kind];
	int64_t foot = foot_um(e), sides = e->haunch_um ? e->haunch_both ? 2 : 1 : 0;
	enum status st = check_section(e, kind, err);

	*out = (struct kerb_section){ 0 };
	if (st != STATUS_OK)
		return st;
	out->unit_m2 = (double)(e->depth_um + foot) / 2 * (double)e->height_um * 1e-12;
	out->strip_width_um = foot + sides * e->strip_beyond_um;
	out->strip_m2 = (double)out->strip_width_um * (double)e->strip_um * 1e-12;
	out->haunch_m2 = (double)sides * (double)e->haunch_um * (double)e->held_um / 2 * 1e-12;
	out->least_held_um = (e->height_um + HELD_OF_HEIGHT - 1) / HELD_OF_HEIGHT;
	out->held = sides && e->held_um >= out->least_held_um;
	out->top_um = e->top_um;
	out->underside_um = e->top_um - e->height_um;
	out->trench_um = out->underside_um - e->strip_um;
	return STATUS_OK;
}

/* First moments about the edge, m3: of the strip, and of both haunches. */
static double strip_moment(const struct plan_edging *e, const struct kerb_section *s)
{
	double inner = e->haunch_um && e->haunch_both ? -(double)e->strip_beyond_um : 0;

	return s->strip_m2 * (inner + (double)s->strip_width_um / 2) * 1e-6;
}

static double haunch_moment(const struct plan_edging *e)
{
	double half = (double)e->haunch_um * (double)e->held_um / 2 * 1e-12;
	double foot = (double)foot_um(e);
	double face = foot - (foot - (double)e->depth_um) * (double)e->held_um /
	                             (double)e->height_um; /* outer side at the held height */
	double outer = (foot + foot + (double)e->haunch_um + face) / 3;
	double inner = e->haunch_both ? -(double)e->haunch_um / 3 : 0;

	return half * (outer + inner) * 1e-6;
}

/* --- volumes --- */

/* Length of the kind's edges, m, and by how much they turn: sum of arcs and 2 tan(t / 2). */
static void measure(const struct plan *plan, enum edge_kind kind, double *length_m, double *turn)
{
	*length_m = *turn = 0;
	for (size_t i = 0; i < plan->ring_count; i++) {
		const struct plan_ring *r = &plan->rings[i];

		for (size_t j = 0; r->closed && j < r->count; j++) {
			if (r->nodes[j].kind != kind)
				continue;
			*length_m += edge_length_um(r, j) * 1e-6;
			*turn += edging_arc_rad(r, j, i > 0);
			if (edging_meets_own(r, j))
				*turn += 2 * edging_corner_growth(r, j, i > 0);
		}
	}
}

static void add_bags(struct kerb_mix *mix)
{
	mix->bags = (int64_t)ceil(mix->cement_kg / CEMENT_BAG_KG - 1e-9);
}

static void fill_volumes(const struct plan *plan, struct kerb_line *k)
{
	const struct plan_edging *e = k->edging;
	double turn;

	measure(plan, k->kind, &k->length_m, &turn);
	k->strip_m3 =
	        fmax(0, k->section.strip_m2 * k->length_m + strip_moment(e, &k->section) * turn);
	k->haunch_m3 = fmax(0, k->section.haunch_m2 * k->length_m + haunch_moment(e) * turn);
	k->mix.m3 = k->strip_m3 + k->haunch_m3;
	k->mix.cement_kg = k->mix.m3 * (double)e->cement_kg_m3;
	add_bags(&k->mix);
}

static void fill_unit(
        const struct rules *rules, const struct edging_line *line, struct kerb_line *k)
{
	const struct plan_edging *e = k->edging;

	k->has_unit = e->unit_um > 0;
	if (!k->has_unit)
		return;
	k->cover_um = e->unit_um + e->joint_um;
	k->unit_kg = k->section.unit_m2 * (double)e->unit_um * 1e-6 * (double)e->density_kg_m3;
	k->mass_kg = k->unit_kg * (double)line->units;
	k->handling = handling_of(rules, k->unit_kg);
}

/* --- string lines --- */

/* The middle of an arc: out from the chord's middle by its rise. */
static struct point arc_middle(const struct plan_ring *r, size_t at)
{
	const struct plan_node *a = &r->nodes[at], *b = &r->nodes[(at + 1) % r->count];
	double dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um);
	double out = (double)a->rise_um / hypot(dx, dy);

	if (ring_signed_area2_um2(r) < 0)
		out = -out;
	return (struct point){ ((double)a->x_um + (double)b->x_um) / 2 + dy * out,
		((double)a->y_um + (double)b->y_um) / 2 - dx * out };
}

static void fill_run(const struct plan *plan, const struct kerb_line *k, size_t ring, size_t at,
        struct kerb_run *run)
{
	const struct plan_surface *s = &plan->surface;
	const struct plan_ring *r = &plan->rings[ring];
	const struct plan_node *a = &r->nodes[at], *b = &r->nodes[(at + 1) % r->count];
	double instrument = (double)instrument_height_um(&plan->ground);
	double top = (double)k->section.top_um;
	double dig = (double)(k->section.top_um - k->section.trench_um);

	run->length_m = edge_length_um(r, at) * 1e-6;
	run->from_um = surface_level_um(s, (double)a->x_um, (double)a->y_um) + top;
	run->to_um = surface_level_um(s, (double)b->x_um, (double)b->y_um) + top;
	run->curved = a->rise_um != 0;
	if (run->curved) {
		struct point m = arc_middle(r, at);

		run->middle_x_um = llround(m.x);
		run->middle_y_um = llround(m.y);
		run->middle_um = surface_level_um(s, m.x, m.y) + top;
	}
	run->fall_um_per_m = (run->from_um - run->to_um) / run->length_m;
	run->from_trench_um = run->from_um - dig;
	run->to_trench_um = run->to_um - dig;
	run->has_staff = plan->ground.has_instrument;
	run->from_staff_um = instrument - run->from_um;
	run->to_staff_um = instrument - run->to_um;
	run->middle_staff_um = instrument - run->middle_um;
	run->dams = kerb_dams(plan, k->kind);
}

static enum status fill_runs(
        struct arena *mem, const struct plan *plan, struct kerb_line *k, struct error *err)
{
	if (!plan->surface.count)
		return STATUS_OK;
	k->runs = arena_alloc(mem, plan_edge_count(plan), sizeof *k->runs);
	if (!k->runs)
		return error_memory(err);
	for (size_t i = 0, edge = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++, edge++) {
			struct kerb_run *run = &k->runs[k->run_count];

			if (!plan->rings[i].closed || plan->rings[i].nodes[j].kind != k->kind)
				continue;
			run->edge = edge;
			fill_run(plan, k, i, j, run);
			k->run_count++;
		}
	return STATUS_OK;
}

/* --- notes --- */

static enum status note(struct kerb_line *k, const char *text, struct error *err)
{
	if (!text)
		return error_memory(err);
	k->notes[k->note_count++] = text;
	return STATUS_OK;
}

static enum status fill_notes(
        struct arena *mem, const struct plan *plan, struct kerb_line *k, struct error *err)
{
	const struct plan_edging *e = k->edging;
	const struct kerb_section *s = &k->section;
	int64_t haunch_top = s->underside_um + e->held_um;
	enum status st = STATUS_OK;

	if (!s->held)
		st = note(k,
		        arena_print(mem,
		                "%s: at least %.0f mm, a third of its height, ought to be held "
		                "(common practice). Reach the haunch higher.",
		                e->haunch_um ? "The haunch holds too little of it"
		                             : "No haunch holds it",
		                ceil((double)s->least_held_um / 1000)),
		        err);
	if (st == STATUS_OK && e->haunch_um && e->haunch_um > e->strip_beyond_um)
		st = note(k,
		        arena_print(mem,
		                "The haunch is %g mm wide at its foot, but the strip reaches only "
		                "%g mm beyond the unit: the rest of it stands on the ground. Widen "
		                "the strip.",
		                (double)e->haunch_um / 1000, (double)e->strip_beyond_um / 1000),
		        err);
	if (st == STATUS_OK && e->haunch_um && e->haunch_both &&
	        haunch_top > -plan->laying.slab.thickness_um)
		st = note(k,
		        arena_print(mem,
		                "The inner haunch ends %g mm under the surface, within the slab of "
		                "%g mm: hold less on the inner side.",
		                (double)-haunch_top / 1000,
		                (double)plan->laying.slab.thickness_um / 1000),
		        err);
	else if (st == STATUS_OK && e->haunch_um && haunch_top > 0)
		st = note(k,
		        arena_text(mem,
		                "The haunch stands up over the finished surface and will be seen."),
		        err);
	if (st == STATUS_OK && k->kind != EDGE_PLANTER && kerb_dams(plan, k->kind))
		st = note(k,
		        arena_print(mem,
		                "Its top stands %g mm over the surface: water that reaches it is "
		                "held. See which edges take water.",
		                (double)e->top_um / 1000),
		        err);
	return st;
}

/* --- all kinds --- */

static enum status fill_line(struct arena *mem, const struct plan *plan, const struct rules *rules,
        const struct edging_line *line, struct kerb_line *k, struct error *err)
{
	struct error why = { 0 };
	enum status st;

	*k = (struct kerb_line){ .kind = line->kind, .edging = &plan->edging[line->kind] };
	if (kerb_section(plan, line->kind, &k->section, &why) != STATUS_OK) {
		k->fault = arena_text(mem, why.text);
		return k->fault ? STATUS_OK : error_memory(err);
	}
	fill_volumes(plan, k);
	fill_unit(rules, line, k);
	st = fill_notes(mem, plan, k, err);
	return st == STATUS_OK ? fill_runs(mem, plan, k, err) : st;
}

enum status kerb_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        const struct edging_result *edging, struct kerb_result *out, struct error *err)
{
	enum status st = STATUS_OK;

	*out = (struct kerb_result){ 0 };
	out->lines = arena_alloc(mem, edging->count, sizeof *out->lines);
	if (!out->lines)
		return error_memory(err);
	for (size_t i = 0; i < edging->count && st == STATUS_OK; i++) {
		const struct edging_line *line = &edging->lines[i];
		struct kerb_line *k = &out->lines[out->count];

		if (!plan->edging[line->kind].height_um)
			continue;
		st = fill_line(mem, plan, rules, line, k, err);
		out->by_mix[k->edging->bed].m3 += k->mix.m3;
		out->by_mix[k->edging->bed].cement_kg += k->mix.cement_kg;
		out->count++;
	}
	add_bags(&out->by_mix[MIX_STABILISED_SAND]);
	add_bags(&out->by_mix[MIX_LEAN_CONCRETE]);
	return st;
}
