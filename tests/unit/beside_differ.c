/* beside_differ.c - water, site, planters and steps of two plans side by side, member by member. */
#include "unit/beside.h"

#include <string.h>

static bool text_differs(const char *a, const char *b)
{
	return strcmp(a ? a : "", b ? b : "") != 0;
}

static bool row_differs(const struct rain_row *a, const struct rain_row *b)
{
	return a->minutes != b->minutes || a->um_per_h != b->um_per_h;
}

static bool channel_differs(const struct plan_channel *a, const struct plan_channel *b)
{
	return text_differs(a->name, b->name) || a->x1_um != b->x1_um || a->y1_um != b->y1_um ||
	       a->x2_um != b->x2_um || a->y2_um != b->y2_um || a->width_um != b->width_um ||
	       a->depth_um != b->depth_um || a->fall_um_per_m != b->fall_um_per_m ||
	       a->roughness_ppm != b->roughness_ppm || a->outlet != b->outlet;
}

static bool gully_differs(const struct plan_gully *a, const struct plan_gully *b)
{
	return text_differs(a->name, b->name) || a->x_um != b->x_um || a->y_um != b->y_um ||
	       a->capacity_ml_s != b->capacity_ml_s;
}

static bool reading_differs(const struct plan_reading *a, const struct plan_reading *b)
{
	return text_differs(a->name, b->name) || a->backsight_um != b->backsight_um ||
	       a->intermediate_um != b->intermediate_um || a->foresight_um != b->foresight_um ||
	       a->has_place != b->has_place || a->x_um != b->x_um || a->y_um != b->y_um;
}

static bool spot_differs(const struct plan_spot *a, const struct plan_spot *b)
{
	return text_differs(a->name, b->name) || a->x_um != b->x_um || a->y_um != b->y_um ||
	       a->level_um != b->level_um;
}

static bool peg_differs(const struct plan_peg *a, const struct plan_peg *b)
{
	return text_differs(a->name, b->name) || a->x_um != b->x_um || a->y_um != b->y_um;
}

static bool measured_differs(const struct plan_measured *a, const struct plan_measured *b)
{
	return text_differs(a->name, b->name) || a->x_um != b->x_um || a->y_um != b->y_um ||
	       a->has_level != b->has_level || a->has_place != b->has_place ||
	       a->level_um != b->level_um || a->at_x_um != b->at_x_um || a->at_y_um != b->at_y_um;
}

static bool point_differs(const struct plan_point *a, const struct plan_point *b)
{
	return a->x_um != b->x_um || a->y_um != b->y_um;
}

static bool block_differs(const struct plan_block *a, const struct plan_block *b)
{
	return text_differs(a->name, b->name) || a->length_um != b->length_um ||
	       a->width_um != b->width_um || a->height_um != b->height_um ||
	       a->joint_um != b->joint_um || a->has_half != b->has_half ||
	       a->has_corner != b->has_corner || a->density_kg_m3 != b->density_kg_m3 ||
	       a->price_minor != b->price_minor;
}

static bool steps_differs(const struct plan_steps *a, const struct plan_steps *b)
{
	return text_differs(a->name, b->name) || text_differs(a->unit_name, b->unit_name) ||
	       a->x_um != b->x_um || a->y_um != b->y_um || a->toward_udeg != b->toward_udeg ||
	       a->width_um != b->width_um || a->bottom_um != b->bottom_um ||
	       a->has_top != b->has_top || a->top_um != b->top_um || a->risers != b->risers ||
	       a->going_um != b->going_um || a->build != b->build ||
	       a->unit_length_um != b->unit_length_um || a->unit_depth_um != b->unit_depth_um ||
	       a->unit_height_um != b->unit_height_um ||
	       a->unit_density_kg_m3 != b->unit_density_kg_m3 ||
	       a->unit_price_minor != b->unit_price_minor || a->tread_um != b->tread_um ||
	       a->overhang_um != b->overhang_um || a->bed_um != b->bed_um ||
	       a->tread_fall_um_per_m != b->tread_fall_um_per_m || a->landing_um != b->landing_um ||
	       a->flank_um != b->flank_um;
}

static bool soakaway_differs(const struct plan_soakaway *a, const struct plan_soakaway *b)
{
	return a->x_um != b->x_um || a->y_um != b->y_um || a->length_um != b->length_um ||
	       a->width_um != b->width_um || a->depth_um != b->depth_um ||
	       a->voids_ppm != b->voids_ppm || a->soil_nm_s != b->soil_nm_s;
}

static bool baseline_differs(const struct plan_baseline *a, const struct plan_baseline *b)
{
	return a->x1_um != b->x1_um || a->y1_um != b->y1_um || a->x2_um != b->x2_um ||
	       a->y2_um != b->y2_um;
}

static bool rows_differ(const struct plan_rain *a, const struct plan_rain *b)
{
	if (a->count != b->count)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (row_differs(&a->rows[i], &b->rows[i]))
			return true;
	return false;
}

static bool channels_differ(const struct plan_water *a, const struct plan_water *b)
{
	if (a->channel_count != b->channel_count)
		return true;
	for (size_t i = 0; i < a->channel_count; i++)
		if (channel_differs(&a->channels[i], &b->channels[i]))
			return true;
	return false;
}

static bool gullies_differ(const struct plan_water *a, const struct plan_water *b)
{
	if (a->gully_count != b->gully_count)
		return true;
	for (size_t i = 0; i < a->gully_count; i++)
		if (gully_differs(&a->gullies[i], &b->gullies[i]))
			return true;
	return false;
}

static bool readings_differ(const struct plan_book *a, const struct plan_book *b)
{
	if (a->count != b->count)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (reading_differs(&a->readings[i], &b->readings[i]))
			return true;
	return false;
}

static bool spots_differ(const struct plan_site *a, const struct plan_site *b)
{
	if (a->spot_count != b->spot_count)
		return true;
	for (size_t i = 0; i < a->spot_count; i++)
		if (spot_differs(&a->spots[i], &b->spots[i]))
			return true;
	return false;
}

static bool pegs_differ(const struct plan_site *a, const struct plan_site *b)
{
	if (a->peg_count != b->peg_count)
		return true;
	for (size_t i = 0; i < a->peg_count; i++)
		if (peg_differs(&a->pegs[i], &b->pegs[i]))
			return true;
	return false;
}

static bool measured_differ(const struct plan_site *a, const struct plan_site *b)
{
	if (a->measured_count != b->measured_count)
		return true;
	for (size_t i = 0; i < a->measured_count; i++)
		if (measured_differs(&a->measured[i], &b->measured[i]))
			return true;
	return false;
}

static bool points_differ(const struct plan_planter *a, const struct plan_planter *b)
{
	if (a->count != b->count)
		return true;
	for (size_t i = 0; i < a->count; i++)
		if (point_differs(&a->points[i], &b->points[i]))
			return true;
	return false;
}

static bool wall_differs(const struct plan_planter *a, const struct plan_planter *b)
{
	return text_differs(a->name, b->name) || text_differs(a->cap_name, b->cap_name) ||
	       a->closed != b->closed || a->leaves != b->leaves || a->courses != b->courses ||
	       a->base_um != b->base_um || a->tie_um != b->tie_um || a->cap_um != b->cap_um ||
	       a->cap_fixing_um != b->cap_fixing_um || a->cap_price_minor != b->cap_price_minor ||
	       a->footing_width_um != b->footing_width_um ||
	       a->footing_depth_um != b->footing_depth_um || a->footing != b->footing ||
	       a->cement_kg_m3 != b->cement_kg_m3 || a->fill_um != b->fill_um ||
	       a->gravel_um != b->gravel_um || a->weep_um != b->weep_um || a->liner != b->liner ||
	       a->soil_kg_m3 != b->soil_kg_m3 || a->friction_udeg != b->friction_udeg ||
	       a->back_slope_udeg != b->back_slope_udeg || a->surcharge_pa != b->surcharge_pa ||
	       a->base_friction_ppm != b->base_friction_ppm || a->bearing_pa != b->bearing_pa;
}

static bool planter_differs(const struct plan_planter *a, const struct plan_planter *b)
{
	return wall_differs(a, b) || points_differ(a, b) || block_differs(&a->block, &b->block);
}

static bool planters_differ(const struct plan *a, const struct plan *b)
{
	if (a->planter_count != b->planter_count)
		return true;
	for (size_t i = 0; i < a->planter_count; i++)
		if (planter_differs(&a->planters[i], &b->planters[i]))
			return true;
	return false;
}

static bool flights_differ(const struct plan *a, const struct plan *b)
{
	if (a->steps_count != b->steps_count)
		return true;
	for (size_t i = 0; i < a->steps_count; i++)
		if (steps_differs(&a->steps[i], &b->steps[i]))
			return true;
	return false;
}

static bool water_differs(const struct plan_water *a, const struct plan_water *b)
{
	return text_differs(a->rain.name, b->rain.name) ||
	       text_differs(a->rain.source, b->rain.source) || a->rain.minutes != b->rain.minutes ||
	       a->runoff_ppm != b->runoff_ppm || a->permeable != b->permeable ||
	       a->surface_nm_s != b->surface_nm_s || a->voids_ppm != b->voids_ppm ||
	       a->soil_nm_s != b->soil_nm_s || a->soakaway.has != b->soakaway.has;
}

static bool site_differs(const struct plan_site *a, const struct plan_site *b)
{
	return a->book.start_um != b->book.start_um || a->book.has_close != b->book.has_close ||
	       a->book.close_um != b->book.close_um || a->book.allow_um != b->book.allow_um ||
	       a->book.adjust != b->book.adjust || a->earth.over_dig_um != b->earth.over_dig_um ||
	       a->earth.topsoil_um != b->earth.topsoil_um ||
	       a->earth.bulking_ppm != b->earth.bulking_ppm ||
	       a->earth.compaction_ppm != b->earth.compaction_ppm ||
	       a->baseline.has != b->baseline.has;
}

const char *beside_differs(const struct plan *a, const struct plan *b)
{
	const struct plan_water *wa = &a->water, *wb = &b->water;
	const struct plan_site *sa = &a->site, *sb = &b->site;

	return water_differs(wa, wb)                                                ? "the water"
	       : rows_differ(&wa->rain, &wb->rain)                                  ? "the rain"
	       : channels_differ(wa, wb)                                            ? "the channels"
	       : gullies_differ(wa, wb)                                             ? "the gullies"
	       : wa->soakaway.has && soakaway_differs(&wa->soakaway, &wb->soakaway) ? "the soakaway"
	       : site_differs(sa, sb)                                               ? "the site"
	       : readings_differ(&sa->book, &sb->book)                              ? "the book"
	       : spots_differ(sa, sb)                                               ? "the ground"
	       : pegs_differ(sa, sb)                                                ? "the pegs"
	       : measured_differ(sa, sb) ? "what was measured"
	       : sa->baseline.has && baseline_differs(&sa->baseline, &sb->baseline) ? "the baseline"
	       : planters_differ(a, b)                                              ? "the planters"
	       : flights_differ(a, b)                                               ? "the steps"
	                              : costs_differ(&a->costs, &b->costs);
}
