/* beside_check.c - the limits of single values of a plan's water and site. */
#include "parts.h"

#include <stddef.h>
#include <stdio.h>

#define MM UM_PER_MM
#define M UM_PER_M
#define REACH -COORD_LIMIT_UM, COORD_LIMIT_UM, &in_mm
#define CHECK(ranges, from, place)                                                                 \
	check_ranges(ranges, sizeof(ranges) / sizeof *(ranges), from, place, err)

/* --- water --- */

#define IN(member) offsetof(struct plan_rain, member)
static const struct range rain_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "source", IN(source), 0, 0, &as_text },
	{ "minutes", IN(minutes), 0, 100000, &as_whole },
};
#undef IN

#define IN(member) offsetof(struct plan_water, member)
static const struct range water_ranges[] = {
	{ "runoff", IN(runoff_ppm), 0, 1000000, &as_share },
	{ "surface_rate", IN(surface_nm_s), 0, 100000000, &in_m_s },
	{ "base_voids", IN(voids_ppm), 0, 1000000, &as_share },
	{ "soil_rate", IN(soil_nm_s), 0, 10000000, &in_m_s },
};
static const struct range soakaway_ranges[] = {
	{ "soakaway.x", IN(soakaway.x_um), REACH },
	{ "soakaway.y", IN(soakaway.y_um), REACH },
	{ "soakaway.length", IN(soakaway.length_um), 100 * MM, 50 * M, &in_mm },
	{ "soakaway.width", IN(soakaway.width_um), 100 * MM, 50 * M, &in_mm },
	{ "soakaway.depth", IN(soakaway.depth_um), 100 * MM, 10 * M, &in_mm },
	{ "soakaway.voids", IN(soakaway.voids_ppm), 10000, 1000000, &as_share },
	{ "soakaway.soil_rate", IN(soakaway.soil_nm_s), 1, 10000000, &in_m_s },
};
#undef IN

#define IN(member) offsetof(struct rain_row, member)
static const struct range row_ranges[] = {
	{ "minutes", IN(minutes), 1, 100000, &as_whole },
	{ "mm_per_h", IN(um_per_h), 1, 1000000, &in_mm_per_h },
};
#undef IN

#define IN(member) offsetof(struct plan_channel, member)
static const struct range channel_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "from.x", IN(x1_um), REACH },
	{ "from.y", IN(y1_um), REACH },
	{ "to.x", IN(x2_um), REACH },
	{ "to.y", IN(y2_um), REACH },
	{ "width", IN(width_um), 20 * MM, 2 * M, &in_mm },
	{ "depth", IN(depth_um), 10 * MM, 2 * M, &in_mm },
	{ "fall", IN(fall_um_per_m), 0, 500 * MM, &in_mm_per_m },
	{ "roughness", IN(roughness_ppm), 5000, 100000, &as_share },
	{ "outlet", IN(outlet), OUTLET_FIRST, OUTLET_BOTH, &as_word },
};
#undef IN

#define IN(member) offsetof(struct plan_gully, member)
static const struct range gully_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
	{ "capacity", IN(capacity_ml_s), 0, 1000000, &in_l_s },
};
#undef IN

enum status rain_check(const struct plan_rain *rain, const char *place, struct error *err)
{
	enum status st = CHECK(rain_ranges, rain, place);

	if (st == STATUS_OK)
		st = check_count("rows", rain->count, RAIN_ROWS, place, err);
	for (size_t i = 0; st == STATUS_OK && i < rain->count; i++) {
		char where[200];

		snprintf(where, sizeof where, "%srows[%zu].", place, i);
		st = CHECK(row_ranges, &rain->rows[i], where);
		if (st == STATUS_OK && i && rain->rows[i].minutes <= rain->rows[i - 1].minutes)
			st = error_set(err, STATUS_PLAN,
			        "%sminutes: no more than in the row before; let them grow from row "
			        "to row",
			        where);
	}
	return st;
}

enum status water_check(const struct plan_water *water, const char *place, struct error *err)
{
	enum status st;
	char where[200];

	snprintf(where, sizeof where, "%srain.", place);
	if ((st = CHECK(water_ranges, water, place)) != STATUS_OK ||
	        (st = rain_check(&water->rain, where, err)) != STATUS_OK ||
	        (st = check_count("channels", water->channel_count, CHANNELS, place, err)) !=
	                STATUS_OK ||
	        (st = check_count("gullies", water->gully_count, CHANNELS, place, err)) !=
	                STATUS_OK)
		return st;
	for (size_t i = 0; st == STATUS_OK && i < water->channel_count; i++) {
		snprintf(where, sizeof where, "%schannels[%zu].", place, i);
		st = CHECK(channel_ranges, &water->channels[i], where);
	}
	for (size_t i = 0; st == STATUS_OK && i < water->gully_count; i++) {
		snprintf(where, sizeof where, "%sgullies[%zu].", place, i);
		st = CHECK(gully_ranges, &water->gullies[i], where);
	}
	return st == STATUS_OK && water->soakaway.has ? CHECK(soakaway_ranges, water, place) : st;
}

/* --- site --- */

#define IN(member) offsetof(struct plan_site, member)
static const struct range site_ranges[] = {
	{ "book.start", IN(book.start_um), REACH },
	{ "book.allow", IN(book.allow_um), 0, M, &in_mm },
	{ "earth.over_dig", IN(earth.over_dig_um), 0, 10 * M, &in_mm },
	{ "earth.topsoil", IN(earth.topsoil_um), 0, 2 * M, &in_mm },
	{ "earth.bulking", IN(earth.bulking_ppm), 0, 2000000, &as_share },
	{ "earth.compaction", IN(earth.compaction_ppm), 0, 900000, &as_share },
};
static const struct range close_ranges[] = { { "book.close", IN(book.close_um), REACH } };
static const struct range baseline_ranges[] = {
	{ "baseline.from.x", IN(baseline.x1_um), REACH },
	{ "baseline.from.y", IN(baseline.y1_um), REACH },
	{ "baseline.to.x", IN(baseline.x2_um), REACH },
	{ "baseline.to.y", IN(baseline.y2_um), REACH },
};
#undef IN

#define IN(member) offsetof(struct plan_reading, member)
#define STAFF -20 * M, 20 * M, &in_mm
enum { SIGHTS = 3 }; /* the first ranges; each may be NO_READING */
static const struct range reading_ranges[] = {
	{ "back", IN(backsight_um), STAFF },
	{ "inter", IN(intermediate_um), STAFF },
	{ "fore", IN(foresight_um), STAFF },
	{ "name", IN(name), 0, 0, &as_text },
};
static const struct range reading_place_ranges[] = {
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
};
#undef IN

#define IN(member) offsetof(struct plan_spot, member)
static const struct range spot_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
	{ "level", IN(level_um), REACH },
};
#undef IN

#define IN(member) offsetof(struct plan_peg, member)
static const struct range peg_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
};
#undef IN

#define IN(member) offsetof(struct plan_measured, member)
static const struct range measured_ranges[] = {
	{ "name", IN(name), 0, 0, &as_text },
	{ "x", IN(x_um), REACH },
	{ "y", IN(y_um), REACH },
};
static const struct range measured_level_ranges[] = { { "level", IN(level_um), REACH } };
static const struct range measured_place_ranges[] = {
	{ "at.x", IN(at_x_um), REACH },
	{ "at.y", IN(at_y_um), REACH },
};
#undef IN

static enum status reading_check(
        const struct plan_reading *reading, const char *place, struct error *err)
{
	const int64_t sights[SIGHTS] = { reading->backsight_um, reading->intermediate_um,
		reading->foresight_um };
	enum status st = STATUS_OK;

	for (size_t i = 0; st == STATUS_OK && i < SIGHTS; i++)
		if (sights[i] != NO_READING)
			st = check_ranges(&reading_ranges[i], 1, reading, place, err);
	if (st == STATUS_OK)
		st = check_ranges(&reading_ranges[SIGHTS], 1, reading, place, err);
	return st == STATUS_OK && reading->has_place ? CHECK(reading_place_ranges, reading, place)
	                                             : st;
}

static enum status measured_check(
        const struct plan_measured *measured, const char *place, struct error *err)
{
	enum status st = CHECK(measured_ranges, measured, place);

	if (st == STATUS_OK && measured->has_level)
		st = CHECK(measured_level_ranges, measured, place);
	return st == STATUS_OK && measured->has_place
	               ? CHECK(measured_place_ranges, measured, place)
	               : st;
}

static enum status baseline_check(
        const struct plan_site *site, const char *place, struct error *err)
{
	const struct plan_baseline *b = &site->baseline;

	if (b->x1_um == b->x2_um && b->y1_um == b->y2_um)
		return error_set(err, STATUS_PLAN,
		        "%sbaseline: its two points are one; give two that lie apart", place);
	return CHECK(baseline_ranges, site, place);
}

static enum status site_lists_check(
        const struct plan_site *site, const char *place, struct error *err)
{
	enum status st = STATUS_OK;
	char where[200];

	for (size_t i = 0; st == STATUS_OK && i < site->book.count; i++) {
		snprintf(where, sizeof where, "%sbook.readings[%zu].", place, i);
		st = reading_check(&site->book.readings[i], where, err);
	}
	for (size_t i = 0; st == STATUS_OK && i < site->spot_count; i++) {
		snprintf(where, sizeof where, "%sground[%zu].", place, i);
		st = CHECK(spot_ranges, &site->spots[i], where);
	}
	for (size_t i = 0; st == STATUS_OK && i < site->peg_count; i++) {
		snprintf(where, sizeof where, "%spegs[%zu].", place, i);
		st = CHECK(peg_ranges, &site->pegs[i], where);
	}
	for (size_t i = 0; st == STATUS_OK && i < site->measured_count; i++) {
		snprintf(where, sizeof where, "%smeasured[%zu].", place, i);
		st = measured_check(&site->measured[i], where, err);
	}
	return st;
}

enum status site_check(const struct plan_site *site, const char *place, struct error *err)
{
	enum status st;

	if ((st = CHECK(site_ranges, site, place)) != STATUS_OK ||
	        (site->book.has_close && (st = CHECK(close_ranges, site, place)) != STATUS_OK) ||
	        (site->baseline.has && (st = baseline_check(site, place, err)) != STATUS_OK) ||
	        (st = check_count("book.readings", site->book.count, SITE_ITEMS, place, err)) !=
	                STATUS_OK ||
	        (st = check_count("ground", site->spot_count, SITE_ITEMS, place, err)) !=
	                STATUS_OK ||
	        (st = check_count("pegs", site->peg_count, SITE_ITEMS, place, err)) != STATUS_OK ||
	        (st = check_count("measured", site->measured_count, SITE_ITEMS, place, err)) !=
	                STATUS_OK)
		return st;
	return site_lists_check(site, place, err);
}

/* --- channels and the edges that name them --- */

enum status plan_channels_check(const struct plan *plan, struct error *err)
{
	const struct plan_water *w = &plan->water;
	bool named[CHANNELS] = { false };

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++) {
			int64_t channel = plan->rings[i].nodes[j].channel;

			if (channel < 0 || channel > (int64_t)w->channel_count)
				return error_set(err, STATUS_PLAN,
				        "ring %zu, edge %zu: it names channel %lld, and the plan "
				        "has %zu; name one of them, or 0 for none",
				        i + 1, j + 1, (long long)channel, w->channel_count);
			if (channel && channel <= CHANNELS)
				named[channel - 1] = true;
		}
	for (size_t i = 0; i < w->channel_count && i < CHANNELS; i++) {
		const struct plan_channel *c = &w->channels[i];

		if (named[i] || c->x1_um != c->x2_um || c->y1_um != c->y2_um)
			continue;
		return error_set(err, STATUS_PLAN,
		        "water.channels[%zu]: it lies along no edge, and its two points are one; "
		        "name it at an edge, give it two points that lie apart, or take it away",
		        i);
	}
	return STATUS_OK;
}
