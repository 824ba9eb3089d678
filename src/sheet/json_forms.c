/* json_forms.c - sheets for programs. Lengths and levels in mm, areas in m2; every member is in
 * slabwright(5). */
#include "form.h"
#include "slabwright/json.h"

#include <math.h>

double tidy(double v)
{
	return round(v * 1e9) / 1e9;
}

void real_mm(struct json *j, const char *key, double um)
{
	double mm = round(um * 1000) / 1e6;

	json_real(j, key, mm == 0 ? 0 : mm); /* no minus zero */
}

void point_mm(struct json *j, const char *key, double x, double y)
{
	json_array_tight(j, key);
	real_mm(j, NULL, x);
	real_mm(j, NULL, y);
	json_end(j);
}

void minor_or_null(struct json *j, const char *key, int64_t minor)
{
	if (minor < 0)
		json_null(j, key);
	else
		json_int(j, key, minor);
}

/* The slab of a laying; bonds of several sizes have theirs beside it. */
static void put_slab(struct json *j, const struct plan_laying *l)
{
	const struct plan_slab *s = &l->slab;
	struct slab_size size = slab_size(s);
	const struct {
		const char *name;
		int64_t um;
	} lengths[] = { { "work_length", size.length_um }, { "work_width", size.width_um },
		{ "pitch_x", size.pitch_x_um }, { "pitch_y", size.pitch_y_um } };
	bool one = bond_of_one_slab(l->bond);

	json_object_tight(j, "slab");
	if (one)
		json_text(j, "name", s->name);
	else
		json_null(j, "name");
	for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++)
		if (one)
			json_mm(j, lengths[i].name, lengths[i].um);
		else
			json_null(j, lengths[i].name);
	json_mm(j, "thickness", s->thickness_um);
	json_end(j);
}

static void put_bond(struct json *j, const struct plan_laying *l)
{
	json_text(j, "bond", bond_name(l->bond));
	json_real(j, "offset", l->offset);
	json_text(j, "along", l->along == ALONG_Y ? "y" : "x");
	json_degrees(j, "rotation", l->rotation_udeg);
}

static void put_sizes(struct json *j, const struct section *s)
{
	json_array(j, "sizes");
	for (int i = 0; i < s->laid.pattern.size_count; i++) {
		const struct size_count *n = &s->laid.of_size[i];
		const struct slab_kind *k = &s->laid.pattern.sizes[i];

		json_object_tight(j, NULL);
		json_mm(j, "work_length", k->length_um);
		json_mm(j, "work_width", k->width_um);
		json_mm(j, "sliver_width", sliver_width_um(&s->laying, k->length_um, k->width_um));
		json_int(j, "whole", n->whole);
		json_int(j, "cut", n->cut);
		json_int(j, "sliver", n->sliver);
		json_int(j, "made_up", n->made_up);
		json_end(j);
	}
	json_end(j);
}

static void put_laying(struct json *j, const struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;
	const struct slab_size *size = &t->laid.sections[0].laid.slab;

	json_object(j, "laying");
	json_int(j, "whole", t->laid.whole);
	json_int(j, "cut", t->laid.cut);
	json_int(j, "sliver", t->laid.sliver);
	json_int(j, "made_up", t->laid.made_up);
	json_real(j, "pieces_area_m2", tidy(t->laid.pieces_area_m2));
	put_bond(j, l);
	json_mm(j, "fill_width", l->fill_width_um);
	if (!bond_of_one_slab(l->bond) && l->sliver_width_um == SLIVER_WIDTH_DEFAULT)
		json_null(j, "sliver_width"); /* each size has its own */
	else
		json_mm(j, "sliver_width", sliver_width_um(l, size->length_um, size->width_um));
	put_sizes(j, &t->laid.sections[0]);
	put_slab(j, l);
	json_end(j);
}

static void put_border(struct json *j, const struct plan_border *b, const struct section *s)
{
	json_int(j, "border", (int64_t)s->number + 1);
	json_int(j, "edge", (int64_t)s->edge + 1);
	json_int(j, "course", s->course + 1);
	json_text(j, "lay", border_lay_name(b->lay));
	json_text(j, "corners", border_corner_name(b->corners));
	if (s->curved)
		json_mm(j, "wide_joint", llround(s->wide_joint_um));
	else
		json_null(j, "wide_joint");
	json_bool(j, "wedges", s->wedges);
}

static void put_zone(struct json *j, const struct section *s)
{
	json_int(j, "zone", (int64_t)s->number + 1);
	json_mm(j, "level", s->level_um);
	json_real(j, "shared_m", tidy(s->shared_m));
	if (s->paved)
		put_bond(j, &s->laying);
}

/* The paving's parts: field, border courses, zones. */
static void put_sections(struct json *j, const struct takeoff *t)
{
	static const char *const kinds[] = { "field", "border", "zone" };

	json_array(j, "sections");
	for (size_t i = 0; i < t->laid.section_count; i++) {
		const struct section *s = &t->laid.sections[i];

		json_object(j, NULL);
		json_text(j, "name", s->name);
		json_text(j, "kind", kinds[s->kind]);
		json_bool(j, "paved", s->paved);
		json_real(j, "area_m2", tidy(s->area_m2));
		json_int(j, "whole", s->laid.whole);
		json_int(j, "cut", s->laid.cut);
		json_int(j, "sliver", s->laid.sliver);
		json_int(j, "made_up", s->laid.made_up);
		json_real(j, "pieces_area_m2", tidy(s->laid.pieces_area_m2));
		if (s->kind == SECTION_BORDER)
			put_border(j, &t->plan.borders[s->number], s);
		else if (s->kind == SECTION_ZONE)
			put_zone(j, s);
		if (s->paved) {
			put_sizes(j, s);
			put_slab(j, &s->laying);
		}
		json_end(j);
	}
	json_end(j);
}

static void put_cutplan(struct json *j, const struct cutplan *c)
{
	json_object(j, "cutplan");
	json_int(j, "slabs", (int64_t)c->slabs);
	json_int(j, "bound", (int64_t)c->bound);
	json_text(j, "reason", c->reason);
	json_end(j);
}

static void put_order(struct json *j, const struct takeoff *t)
{
	const struct order *o = &t->order;

	json_object(j, "order");
	json_int(j, "slabs", o->slabs);
	json_int(j, "needed", o->needed);
	json_int(j, "allowance", o->allowance);
	if (o->packs || o->line_count != 1)
		json_null(j, "pack"); /* a mix has packs of its own, and each slab */
	else
		json_int(j, "pack", o->lines[0].slab->pack);
	json_int(j, "rule_of_thumb", o->rule_of_thumb);
	json_array(j, "sizes");
	for (size_t i = 0; i < o->line_count; i++) {
		const struct order_line *s = &o->lines[i];

		json_object_tight(j, NULL);
		json_text(j, "name", s->slab->name);
		json_mm(j, "work_length", s->length_um);
		json_mm(j, "work_width", s->width_um);
		json_int(j, "slabs", s->slabs);
		json_int(j, "needed", s->needed);
		json_int(j, "allowance", s->allowance);
		json_int(j, "left_over", s->left_over);
		json_int(j, "rule_of_thumb", s->rule_of_thumb);
		minor_or_null(j, "price_minor", s->price_minor);
		json_end(j);
	}
	json_end(j);
	json_int(j, "packs", o->packs);
	minor_or_null(j, "price_minor", o->price_minor);
	minor_or_null(j, "rule_of_thumb_price_minor", o->thumb_price_minor);
	if (o->mass_kg > 0) {
		json_real(j, "slab_mass_kg", tidy(o->slab_mass_kg));
		json_real(j, "mass_kg", tidy(o->mass_kg));
	} else {
		json_null(j, "slab_mass_kg");
		json_null(j, "mass_kg");
	}
	json_end(j);
}

/* Which pieces come from which unit. */
static void put_edge_cuts(struct json *j, const struct edging_line *e)
{
	json_array(j, "sources");
	for (size_t u = 0; u < e->cuts.unit_count; u++) {
		json_object_tight(j, NULL);
		json_array(j, "pieces");
		for (size_t i = 0; i < e->cuts.units[u].count; i++) {
			size_t at = e->cuts.piece[e->cuts.units[u].first + i];

			json_object_tight(j, NULL);
			json_int(j, "edge", (int64_t)e->pieces[at].edge + 1);
			json_mm(j, "length", e->pieces[at].length_um);
			json_end(j);
		}
		json_end(j);
		json_end(j);
	}
	json_end(j);
}

static void put_edges(struct json *j, const struct edging_result *edging)
{
	json_array(j, "edges");
	for (size_t i = 0; i < edging->count; i++) {
		const struct edging_line *e = &edging->lines[i];

		json_object_tight(j, NULL);
		json_text(j, "kind", edge_kind_name(e->kind));
		json_real(j, "length_m", tidy(e->length_m));
		json_int(j, "edges", (int64_t)e->edges);
		json_int(j, "outer_corners", (int64_t)e->outer_corners);
		json_int(j, "inner_corners", (int64_t)e->inner_corners);
		if (e->unit_um) {
			json_int(j, "corner_pieces", (int64_t)e->corner_pieces);
			json_text(j, "unit_name", e->unit_name);
			json_mm(j, "unit", e->unit_um);
			json_int(j, "whole", e->whole);
			json_int(j, "cut", e->cut);
			json_int(j, "units", e->units);
			json_int(j, "bound", e->bound);
			json_text(j, "reason", e->reason);
			json_mm(j, "least", e->least_um);
			json_int(j, "shared", e->shared);
			json_int(j, "too_short", e->too_short);
			put_edge_cuts(j, e);
		}
		json_end(j);
	}
	json_end(j);
}

static void put_surface(struct json *j, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;

	json_object_tight(j, "surface");
	if (s->has_plane) {
		json_mm(j, "fall", s->fall_um_per_m);
		json_degrees(j, "toward", s->toward_udeg);
	} else {
		json_null(j, "fall");
		json_null(j, "toward");
	}
	if (s->has_plane) {
		real_mm(j, "highest", s->highest_um);
		real_mm(j, "lowest", s->lowest_um);
	} else {
		json_null(j, "highest");
		json_null(j, "lowest");
	}
	if (s->has_fixed)
		real_mm(j, "over_fixed", s->fixed_difference_um);
	json_end(j);
}

void json_warnings(struct json *j, const struct surface_result *s)
{
	json_array(j, "warnings");
	for (size_t i = 0; i < s->warning_count; i++) {
		json_object_tight(j, NULL);
		json_text(j, "code", warning_code_name(s->warnings[i].code));
		json_text(j, "text", s->warnings[i].text);
		json_end(j);
	}
	json_end(j);
}

static void put_rules(struct json *j, const struct rules *rules)
{
	json_object(j, "rule_set");
	json_text(j, "name", rules->name);
	json_text(j, "place", rules->place);
	json_text(j, "date", rules->date);
	json_array(j, "limits");
	for (size_t i = 0; i < rules->count; i++) {
		json_object_tight(j, NULL);
		json_text(j, "key", rules->items[i].key);
		json_int(j, "number", rules->items[i].number);
		json_text(j, "shown_in", rules->items[i].unit);
		json_text(j, "source", rules->items[i].source);
		json_end(j);
	}
	json_end(j);
	json_end(j);
}

static void put_caution(void *j, const char *text)
{
	json_text(j, NULL, text);
}

void json_takeoff(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_text(j, "variant", t->plan.name);
	json_real(j, "area_m2", tidy(t->area_m2));
	json_real(j, "perimeter_m", tidy(t->perimeter_m));
	json_real(j, "opening_edges_m", tidy(t->opening_edges_m));
	put_laying(j, t);
	put_sections(j, t);
	put_cutplan(j, &t->cuts);
	put_order(j, t);
	put_edges(j, &t->edging);
	json_put_kerbs(j, t);
	json_put_flights(j, t);
	put_surface(j, t);
	json_dig_object(j, t);
	json_warnings(j, &t->surface);
	put_rules(j, &t->rules);
	json_array(j, "cautions");
	sheet_cautions(t, put_caution, j);
	json_end(j);
	json_end(j);
}

static void put_ring(struct json *j, const char *key, const struct ring *ring)
{
	json_array_tight(j, key);
	for (size_t i = 0; i < ring->n; i++)
		point_mm(j, NULL, ring->p[i].x, ring->p[i].y);
	json_end(j);
}

static void put_piece(struct json *j, const struct takeoff *t, const struct cut_place *place)
{
	const struct piece *p = &t->laid.pieces[place->piece];

	json_object_tight(j, NULL);
	json_int(j, "id", (int64_t)place->piece + 1);
	json_text(j, "kind", piece_kind_name(p->kind));
	json_text(j, "section", section_of_piece(&t->laid, p)->name);
	json_int(j, "course", p->spot.course);
	json_int(j, "index", p->spot.index);
	json_int(j, "part", p->spot.part);
	json_bool(j, "standing", p->standing);
	json_int(j, "turn", place->turn);
	point_mm(j, "at", place->at.x, place->at.y);
	point_mm(j, "size", p->box.x1 - p->box.x0, p->box.y1 - p->box.y0);
	json_real(j, "area_m2", p->area_um2 / 1e12);
	put_ring(j, "ring", &p->shape.rings[0]);
	if (p->shape.count > 1) {
		json_array_tight(j, "holes");
		for (size_t i = 1; i < p->shape.count; i++)
			put_ring(j, NULL, &p->shape.rings[i]);
		json_end(j);
	}
	json_end(j);
}

/* The largest rectangle that the slab leaves. */
static void put_left(struct json *j, const struct takeoff *t, const struct cut_source *s)
{
	struct cut_stock stock = paving_stock(&t->laid, &t->plan.laying, s->stock);
	struct box b = cut_leftover(t->laid.pieces, &stock, s);

	json_object_tight(j, "left");
	real_mm(j, "x", b.x0);
	real_mm(j, "y", b.y0);
	real_mm(j, "length", b.x1 - b.x0);
	real_mm(j, "width", b.y1 - b.y0);
	json_end(j);
}

void json_cuts(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_int(j, "slabs", (int64_t)t->cuts.slabs);
	json_int(j, "bound", (int64_t)t->cuts.bound);
	json_text(j, "reason", t->cuts.reason);
	json_mm(j, "kerf", t->plan.laying.kerf_um);
	json_array(j, "sources");
	for (size_t i = 0; i < t->cuts.slabs; i++) {
		const struct cut_source *s = &t->cuts.sources[i];

		json_object(j, NULL);
		json_mm(j, "length", t->laid.stocks[s->stock].length_um);
		json_mm(j, "width", t->laid.stocks[s->stock].width_um);
		json_array(j, "pieces");
		for (int k = 0; k < s->count; k++)
			put_piece(j, t, &s->place[k]);
		json_end(j);
		put_left(j, t, s);
		json_saw(j, t, i);
		json_end(j);
	}
	json_end(j);
	json_end(j);
}

static void put_instrument(struct json *j, const struct plan_ground *g)
{
	json_object_tight(j, "instrument");
	if (g->has_instrument) {
		json_mm(j, "benchmark", g->benchmark_um);
		json_mm(j, "backsight", g->backsight_um);
		json_mm(j, "height", instrument_height_um(g));
	} else {
		json_null(j, "benchmark");
		json_null(j, "backsight");
		json_null(j, "height");
	}
	json_end(j);
}

void json_levels(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	put_instrument(j, &t->plan.ground);
	json_array(j, "points");
	for (size_t i = 0; i < t->level_count; i++) {
		const struct level_point *p = &t->levels[i];

		json_object_tight(j, NULL);
		json_text(j, "name", p->name);
		json_mm(j, "x", p->x_um);
		json_mm(j, "y", p->y_um);
		real_mm(j, "level", p->level_um);
		real_mm(j, "formation", p->formation_um);
		if (p->has_staff)
			real_mm(j, "staff", p->staff_um);
		else
			json_null(j, "staff");
		json_end(j);
	}
	json_end(j);
	json_end(j);
}
