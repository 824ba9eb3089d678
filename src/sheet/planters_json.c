/* planters_json.c - planters for programs, in JSON. */
#include "planters.h"
#include "slabwright/json.h"

#include <math.h>

static void json_um(struct json *j, const char *key, double um)
{
	json_mm(j, key, llround(um));
}

static void um_or_null(struct json *j, const char *key, double um, bool known)
{
	if (known)
		json_um(j, key, um);
	else
		json_null(j, key);
}

static void real_or_null(struct json *j, const char *key, double value, bool known)
{
	if (known)
		json_real(j, key, value);
	else
		json_null(j, key);
}

static void price_or_null(struct json *j, int64_t minor)
{
	if (minor < 0)
		json_null(j, "price");
	else
		json_int(j, "price", minor);
}

/* --- shape --- */

static void json_corners(struct json *j, const struct planter_result *r)
{
	json_array(j, "corners");
	for (size_t i = 0; i < r->corner_count; i++) {
		const struct planter_corner *c = &r->corners[i];

		json_object_tight(j, NULL);
		json_int(j, "corner", (int64_t)c->point + 1);
		json_mm(j, "x", c->x_um);
		json_mm(j, "y", c->y_um);
		json_text(j, "kind", planter_turn_name(c->turn));
		json_degrees(j, "turn", c->turn_udeg);
		um_or_null(j, "surface", c->surface_um, r->has_surface);
		um_or_null(j, "reveal", c->reveal_um, r->has_surface);
		if (r->has_surface)
			json_int(j, "courses_under", c->courses_under);
		else
			json_null(j, "courses_under");
		um_or_null(j, "staff", c->staff_um, r->has_staff);
		json_end(j);
	}
	json_end(j);
	json_array(j, "legs");
	for (size_t i = 0; i < r->leg_count; i++) {
		const struct planter_leg *l = &r->legs[i];

		json_object_tight(j, NULL);
		json_int(j, "from", (int64_t)r->corners[l->from].point + 1);
		json_int(j, "to", (int64_t)r->corners[l->to].point + 1);
		json_mm(j, "length", l->length_um);
		json_um(j, "inside", l->inside_um);
		json_end(j);
	}
	json_end(j);
}

static void json_shape(struct json *j, const struct planter_result *r)
{
	json_mm(j, "width", r->width_um);
	json_mm(j, "height", r->height_um);
	json_real(j, "middle_m", r->middle_m);
	um_or_null(j, "inside_x", r->inside_x_um, r->planter->closed);
	um_or_null(j, "inside_y", r->inside_y_um, r->planter->closed);
	json_corners(j, r);
	um_or_null(j, "least_lap", r->lap_um, r->has_lap);
	json_mm(j, "least_lap_asked", r->least_lap_um);
	json_bool(j, "half_bond", r->half_bond);
}

/* --- courses --- */

static void json_unit(struct json *j, const struct planter_result *r, const struct planter_unit *u)
{
	struct point ring[4];

	planter_unit_ring(r, u, ring);
	json_object_tight(j, NULL);
	json_int(j, "leg", (int64_t)u->leg + 1);
	json_int(j, "leaf", u->leaf + 1);
	json_text(j, "what", planter_piece_name(u->piece));
	json_bool(j, "corner", u->corner);
	json_bool(j, "end", u->end);
	json_mm(j, "length", u->length_um);
	json_um(j, "from", fmin(u->from_out_um, u->from_in_um));
	json_um(j, "to", fmax(u->to_out_um, u->to_in_um));
	json_array(j, "ring");
	for (int i = 0; i < 4; i++) {
		json_array(j, NULL);
		json_um(j, NULL, ring[i].x);
		json_um(j, NULL, ring[i].y);
		json_end(j);
	}
	json_end(j);
	json_end(j);
}

static void json_course(struct json *j, const struct planter_result *r, int pattern)
{
	const struct planter_course *c = &r->courses[pattern];

	json_object(j, NULL);
	json_text(j, "courses", course_name(pattern));
	json_int(j, "times", c->times);
	json_int(j, "whole", c->whole);
	json_int(j, "corner", c->corner);
	json_int(j, "half", c->half);
	json_int(j, "cut", c->cut);
	json_array(j, "units");
	for (size_t i = 0; i < c->unit_count; i++)
		json_unit(j, r, &c->units[i]);
	json_end(j);
	json_array(j, "ties");
	for (size_t i = 0; i < c->tie_count; i++) {
		json_object_tight(j, NULL);
		json_int(j, "leg", (int64_t)c->ties[i].leg + 1);
		json_um(j, "at", c->ties[i].u_um);
		json_text(j, "place", tie_place_name(c->ties[i].place));
		json_end(j);
	}
	json_end(j);
	json_end(j);
}

/* --- what to buy --- */

static void put_cuts(struct json *j, const struct planter_blocks *b)
{
	json_array(j, "cuts");
	for (size_t i = 0; i < b->pack.unit_count;) {
		const struct pack_unit *u = &b->pack.units[i];
		size_t n = alike_units(&b->pack, i);

		json_object_tight(j, NULL);
		json_int(j, "blocks", (int64_t)n);
		json_array(j, "lengths");
		for (size_t k = 0; k < u->count; k++)
			json_mm(j, NULL, b->cuts[b->pack.piece[u->first + k]].length_um);
		json_end(j);
		json_end(j);
		i += n;
	}
	json_end(j);
}

static void json_blocks(struct json *j, const struct planter_result *r)
{
	const struct planter_blocks *b = &r->blocks;

	json_object(j, "blocks");
	json_int(j, "whole", b->whole);
	json_int(j, "corner", b->corner);
	json_int(j, "half", b->half);
	json_int(j, "cut", b->cut);
	json_int(j, "too_short", b->too_short);
	json_int(j, "buy_whole", b->buy_whole);
	json_int(j, "buy_half", b->buy_half);
	json_int(j, "buy_corner", b->buy_corner);
	json_int(j, "bound", b->buy_at_least);
	json_text(j, "reason", b->reason);
	price_or_null(j, b->price_minor);
	put_cuts(j, b);
	json_end(j);
	json_int(j, "ties", r->tie_count);
	json_um(j, "tie_spacing", r->tie_um);
	json_real(j, "mortar_m3", r->mortar_m3);
	real_or_null(j, "block_kg", r->block_kg, r->block_kg > 0);
	real_or_null(j, "wall_kg", r->wall_kg, r->block_kg > 0);
	real_or_null(j, "wall_kg_m", r->wall_kg_m, r->block_kg > 0);
	json_bool(j, "over_lift_limit", r->heavy);
}

static void json_spots(
        struct json *j, const char *key, const struct planter_spot *spots, size_t count)
{
	json_array(j, key);
	for (size_t i = 0; i < count; i++) {
		json_object_tight(j, NULL);
		json_int(j, "leg", (int64_t)spots[i].leg + 1);
		json_um(j, "at", spots[i].u_um);
		json_end(j);
	}
	json_end(j);
}

static void json_cap(struct json *j, const struct planter_result *r)
{
	const struct planter_cap *c = &r->cap;

	if (!c->piece_count) {
		json_null(j, "cap");
		return;
	}
	json_object(j, "cap");
	json_int(j, "units", c->units);
	json_int(j, "bound", c->bound);
	json_text(j, "reason", c->reason);
	json_int(j, "whole", c->whole);
	json_int(j, "cut", c->cut);
	json_int(j, "joints", (int64_t)c->joints);
	price_or_null(j, c->price_minor);
	json_array(j, "pieces");
	for (size_t i = 0; i < c->piece_count; i++) {
		json_object_tight(j, NULL);
		json_int(j, "leg", (int64_t)c->pieces[i].leg + 1);
		json_um(j, "from", c->pieces[i].from_um);
		json_mm(j, "length", c->pieces[i].length_um);
		json_bool(j, "whole", c->pieces[i].whole);
		json_end(j);
	}
	json_end(j);
	json_um(j, "fixing_spacing", c->spacing_um);
	json_spots(j, "fixings", c->fixings, c->fixing_count);
	json_end(j);
}

static void json_fill(struct json *j, const struct planter_result *r)
{
	const struct planter_fill *f = &r->fill;

	json_real(j, "footing_m3", r->footing_m3);
	json_real(j, "cement_kg", r->cement_kg);
	json_real(j, "inside_m2", f->inside_m2);
	json_real(j, "gravel_m3", f->gravel_m3);
	json_real(j, "soil_m3", f->soil_m3);
	json_real(j, "soil_loose_m3", f->soil_loose_m3);
	json_real(j, "liner_m2", f->liner_m2);
	json_spots(j, "drainage_holes", f->weeps, f->weep_count);
}

static void put_levels(struct json *j, const struct planter_result *r)
{
	json_mm(j, "base", r->planter->base_um);
	json_mm(j, "top", r->top_um);
	um_or_null(j, "least_reveal", r->least_reveal_um, r->has_surface);
	um_or_null(j, "most_reveal", r->most_reveal_um, r->has_surface);
	if (r->has_surface) {
		json_int(j, "courses_under", r->courses_under);
		json_int(j, "courses_partly_under", r->courses_partly);
	} else {
		json_null(j, "courses_under");
		json_null(j, "courses_partly_under");
	}
}

/* --- held soil --- */

static void json_level(struct json *j, const struct wall_level *at)
{
	const struct wall_forces *f = &at->forces;

	json_object_tight(j, NULL);
	json_int(j, "course", at->course);
	json_real(j, "soil_m", at->height_m);
	json_real(j, "width_m", at->width_m);
	json_real(j, "thrust_n", at->thrust.soil_n + at->thrust.surcharge_n);
	json_real(j, "thrust_at_m", at->thrust.at_m);
	json_real(j, "fs_overturning", f->fs_overturning);
	json_real(j, "fs_sliding", f->fs_sliding);
	json_real(j, "resultant_m", f->resultant_m);
	json_bool(j, "middle_third", f->kern);
	real_or_null(j, "pressure_pa", f->pressure_most_pa, !f->topples);
	json_end(j);
}

static void json_wall(struct json *j, const struct wall_result *w)
{
	json_object(j, "held_soil");
	json_text(j, "verdict", wall_verdict_name(w->verdict));
	json_text(j, "reason", w->reason);
	json_text(j, "caution", WALL_CAUTION);
	json_real(j, "height_m", w->height_m);
	json_real(j, "soil_over_ground_m", w->fill_m);
	json_real(j, "fs_overturning_asked", w->limits.fs_overturning);
	json_real(j, "fs_sliding_asked", w->limits.fs_sliding);
	real_or_null(
	        j, "active_coefficient", w->worked_out ? w->levels[0].thrust.ka : 0, w->worked_out);
	json_array(j, "beds");
	for (size_t i = 0; i < w->count; i++)
		json_level(j, &w->levels[i]);
	json_end(j);
	json_end(j);
}

static void json_planter(struct json *j, const struct planter_result *r)
{
	json_object(j, NULL);
	json_text(j, "name", r->planter->name);
	json_text(j, "fault", r->ready ? NULL : r->fault.text);
	if (r->ready) {
		json_shape(j, r);
		json_array(j, "patterns");
		for (int k = 0; k < 2; k++)
			if (r->courses[k].times)
				json_course(j, r, k);
		json_end(j);
		json_blocks(j, r);
		json_cap(j, r);
		json_fill(j, r);
		put_levels(j, r);
		json_wall(j, &r->wall);
	}
	json_end(j);
}

void json_planters(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_text(j, "variant", t->plan.name);
	json_array(j, "planters");
	for (size_t i = 0; i < t->planters.count; i++)
		json_planter(j, &t->planters.items[i]);
	json_end(j);
	json_end(j);
}
