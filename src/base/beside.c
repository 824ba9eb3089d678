/* beside.c - what a plan holds beside the paving itself: water, site, planters, steps. Defaults and
 * words. */
#include "parts.h"

#define MM UM_PER_MM

static const char *const outlets[] = { "first", "last", "both" };
static const char *const mixes[] = { "stabilised sand", "lean concrete" };
static const char *const builds[] = { "units", "built" };
static const char *const profiles[] = { "straight", "tapered", "tongue" };

const char *channel_outlet_name(enum channel_outlet outlet)
{
	return outlets[outlet];
}

int channel_outlet_parse(const char *word)
{
	return find_word(outlets, 3, word);
}

const char *bed_mix_name(enum bed_mix mix)
{
	return mixes[mix];
}

int bed_mix_parse(const char *word)
{
	return find_word(mixes, 2, word);
}

const char *steps_build_name(enum steps_build build)
{
	return builds[build];
}

int steps_build_parse(const char *word)
{
	return find_word(builds, 2, word);
}

const char *edging_profile_name(enum edging_profile profile)
{
	return profiles[profile];
}

int edging_profile_parse(const char *word)
{
	return find_word(profiles, 3, word);
}

void water_init(struct plan_water *water)
{
	*water = (struct plan_water){
		.rain = { .name = "", .source = "" },
		.runoff_ppm = 1000000,
		.voids_ppm = 300000,
		.soakaway = { .voids_ppm = 950000 },
	};
}

void channel_init(struct plan_channel *channel)
{
	*channel = (struct plan_channel){
		.name = "",
		.width_um = 100 * MM,
		.depth_um = 100 * MM,
		.roughness_ppm = 12000,
		.outlet = OUTLET_LAST,
	};
}

void soakaway_init(struct plan_soakaway *soakaway)
{
	*soakaway = (struct plan_soakaway){
		.has = true,
		.length_um = 1500 * MM,
		.width_um = 1000 * MM,
		.depth_um = 1000 * MM,
		.voids_ppm = 950000,
		.soil_nm_s = 10000,
	};
}

void site_init(struct plan_site *site)
{
	*site = (struct plan_site){
		.book = { .allow_um = 5 * MM, .adjust = true },
		.earth = { .over_dig_um = 150 * MM,
		        .bulking_ppm = 250000,
		        .compaction_ppm = 100000 },
	};
}

void planter_init(struct plan_planter *planter)
{
	*planter = (struct plan_planter){
		.name = "",
		.block = { .name = "",
		        .length_um = 440 * MM,
		        .width_um = 100 * MM,
		        .height_um = 215 * MM,
		        .joint_um = 10 * MM,
		        .price_minor = -1 },
		.leaves = 1,
		.courses = 2,
		.tie_um = 900 * MM,
		.cap_name = "",
		.cap_fixing_um = 1800 * MM,
		.cap_price_minor = -1,
		.footing_width_um = 300 * MM,
		.footing_depth_um = 150 * MM,
		.footing = MIX_LEAN_CONCRETE,
		.cement_kg_m3 = 200,
		.fill_um = 350 * MM,
		.gravel_um = 50 * MM,
		.weep_um = 1000 * MM,
		.soil_kg_m3 = 1800,
		.friction_udeg = 30000000,
		.base_friction_ppm = 500000,
	};
}

void steps_init(struct plan_steps *steps)
{
	*steps = (struct plan_steps){
		.name = "",
		.width_um = 1200 * MM,
		.going_um = 300 * MM,
		.build = STEPS_UNITS,
		.unit_name = "",
		.unit_length_um = 1200 * MM,
		.unit_depth_um = 350 * MM,
		.unit_height_um = 150 * MM,
		.unit_price_minor = -1,
		.bed_um = 30 * MM,
		.tread_fall_um_per_m = 15000,
	};
}
