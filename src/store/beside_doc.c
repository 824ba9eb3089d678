/* beside_doc.c - water and site as JSON. */
#include "plan_doc.h"

#include <stddef.h>

/* --- water --- */

static const char *outlet_word(int value)
{
	return channel_outlet_name((enum channel_outlet)value);
}

static const struct words outlet_words = { outlet_word, channel_outlet_parse, 3,
	"outlet of a channel" };
_Static_assert(sizeof(enum channel_outlet) == sizeof(int), "words are kept as int");

#define ROW(member) .at = offsetof(struct rain_row, member)
static const struct field row_fields[] = {
	{ "minutes", FIELD_WHOLE, FIELD_REQUIRED, ROW(minutes) },
	{ "mm_per_h", FIELD_THOUSAND, FIELD_REQUIRED, ROW(um_per_h) },
};
static const struct shape row_shape = SHAPE(row_fields);
static const struct list row_list = LIST(row_shape, struct plan_rain, RAIN_ROWS, rows, count);

#define RAIN(member) .at = offsetof(struct plan_rain, member)
static const struct field rain_fields[] = {
	{ "name", FIELD_TEXT, 0, RAIN(name) },
	{ "source", FIELD_TEXT, 0, RAIN(source) },
	{ "rows", FIELD_LIST, FIELD_TIGHT, RAIN(rows), .list = &row_list },
	{ "minutes", FIELD_WHOLE, 0, RAIN(minutes) },
};
const struct shape rain_shape = SHAPE(rain_fields);

#define POINT(member) .at = offsetof(struct plan_point, member)
static const struct field point_fields[] = {
	{ "x", FIELD_MM, FIELD_REQUIRED, POINT(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, POINT(y_um) },
};
const struct shape point_shape = SHAPE(point_fields);

/* Two members that lie as those of a point do. */
#define AS_POINT(type, x, y)                                                                       \
	_Static_assert(offsetof(struct type, y) - offsetof(struct type, x) ==                      \
	                       offsetof(struct plan_point, y_um),                                  \
	        "x and y lie as in a point")
AS_POINT(plan_channel, x1_um, y1_um);
AS_POINT(plan_channel, x2_um, y2_um);
AS_POINT(plan_baseline, x1_um, y1_um);
AS_POINT(plan_baseline, x2_um, y2_um);
AS_POINT(plan_measured, at_x_um, at_y_um);

#define CHANNEL(member) .at = offsetof(struct plan_channel, member)
static const struct field channel_fields[] = {
	{ "name", FIELD_TEXT, 0, CHANNEL(name) },
	{ "from", FIELD_OBJECT, 0, CHANNEL(x1_um), .shape = &point_shape },
	{ "to", FIELD_OBJECT, 0, CHANNEL(x2_um), .shape = &point_shape },
	{ "width", FIELD_MM, FIELD_ALWAYS, CHANNEL(width_um) },
	{ "depth", FIELD_MM, FIELD_ALWAYS, CHANNEL(depth_um) },
	{ "fall", FIELD_THOUSAND, FIELD_ALWAYS, CHANNEL(fall_um_per_m) },
	{ "roughness", FIELD_SHARE, FIELD_ALWAYS, CHANNEL(roughness_ppm) },
	{ "outlet", FIELD_WORD, FIELD_ALWAYS, CHANNEL(outlet), &outlet_words },
};
static const struct shape channel_shape = SHAPE(channel_fields);
static const struct list channel_list =
        LIST(channel_shape, struct plan_water, CHANNELS, channels, channel_count);

static void channel_begin(void *item)
{
	channel_init(item);
}

#define GULLY(member) .at = offsetof(struct plan_gully, member)
static const struct field gully_fields[] = {
	{ "name", FIELD_TEXT, 0, GULLY(name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, GULLY(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, GULLY(y_um) },
	{ "capacity", FIELD_THOUSAND, 0, GULLY(capacity_ml_s) },
};
static const struct shape gully_shape = SHAPE(gully_fields);
static const struct list gully_list =
        LIST(gully_shape, struct plan_water, CHANNELS, gullies, gully_count);

static void gully_begin(void *item)
{
	((struct plan_gully *)item)->name = "";
}

#define SOAKAWAY(member) .at = offsetof(struct plan_soakaway, member)
static const struct field soakaway_fields[] = {
	{ "x", FIELD_MM, FIELD_REQUIRED, SOAKAWAY(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, SOAKAWAY(y_um) },
	{ "length", FIELD_MM, FIELD_ALWAYS, SOAKAWAY(length_um) },
	{ "width", FIELD_MM, FIELD_ALWAYS, SOAKAWAY(width_um) },
	{ "depth", FIELD_MM, FIELD_ALWAYS, SOAKAWAY(depth_um) },
	{ "voids", FIELD_SHARE, FIELD_ALWAYS, SOAKAWAY(voids_ppm) },
	{ "soil_rate", FIELD_RATE, FIELD_ALWAYS, SOAKAWAY(soil_nm_s) },
};
static const struct shape soakaway_shape = SHAPE(soakaway_fields);

static void soakaway_begin(void *soakaway)
{
	soakaway_init(soakaway);
}

#define WATER(member) .at = offsetof(struct plan_water, member)
static const struct field water_fields[] = {
	{ "rain", FIELD_OBJECT, 0, WATER(rain), .shape = &rain_shape },
	{ "runoff", FIELD_SHARE, 0, WATER(runoff_ppm) },
	{ "permeable", FIELD_BOOL, 0, WATER(permeable) },
	{ "surface_rate", FIELD_RATE, 0, WATER(surface_nm_s) },
	{ "base_voids", FIELD_SHARE, 0, WATER(voids_ppm) },
	{ "soil_rate", FIELD_RATE, 0, WATER(soil_nm_s) },
	{ "channels", FIELD_LIST, FIELD_TIGHT, WATER(channels), .list = &channel_list,
	        .init = channel_begin },
	{ "gullies", FIELD_LIST, FIELD_TIGHT, WATER(gullies), .list = &gully_list,
	        .init = gully_begin },
	{ "soakaway", FIELD_OBJECT, FIELD_HAS | FIELD_TIGHT, WATER(soakaway),
	        .shape = &soakaway_shape, .has = offsetof(struct plan_water, soakaway.has),
	        .init = soakaway_begin },
};
const struct shape water_shape = SHAPE(water_fields);

/* --- site --- */

#define READING(member) .at = offsetof(struct plan_reading, member)
#define HAS_PLACE .has = offsetof(struct plan_reading, has_place)
static const struct field reading_fields[] = {
	{ "name", FIELD_TEXT, 0, READING(name) },
	{ "back", FIELD_MM, 0, READING(backsight_um) },
	{ "inter", FIELD_MM, 0, READING(intermediate_um) },
	{ "fore", FIELD_MM, 0, READING(foresight_um) },
	{ "x", FIELD_MM, FIELD_HAS, READING(x_um), HAS_PLACE },
	{ "y", FIELD_MM, FIELD_HAS, READING(y_um), HAS_PLACE },
};
static const struct shape reading_shape = SHAPE(reading_fields);
static const struct list reading_list =
        LIST(reading_shape, struct plan_book, SITE_ITEMS, readings, count);

static void reading_begin(void *item)
{
	*(struct plan_reading *)item = (struct plan_reading){ .name = "",
		.backsight_um = NO_READING,
		.intermediate_um = NO_READING,
		.foresight_um = NO_READING };
}

static enum status reading_read(struct reader *r, const struct doc *from, void *to)
{
	enum status st = doc_read(r, from, &reading_shape, to);

	return st == STATUS_OK ? doc_both(r, from, "x", "y", NULL) : st;
}

#define BOOK(member) .at = offsetof(struct plan_book, member)
static const struct field book_fields[] = {
	{ "start", FIELD_MM, 0, BOOK(start_um) },
	{ "close", FIELD_MM, FIELD_HAS, BOOK(close_um),
	        .has = offsetof(struct plan_book, has_close) },
	{ "allow", FIELD_MM, 0, BOOK(allow_um) },
	{ "adjust", FIELD_BOOL, 0, BOOK(adjust) },
	{ "readings", FIELD_LIST, FIELD_TIGHT, BOOK(readings), .list = &reading_list,
	        .init = reading_begin, .read = reading_read },
};
static const struct shape book_shape = SHAPE(book_fields);

#define SPOT(member) .at = offsetof(struct plan_spot, member)
static const struct field spot_fields[] = {
	{ "name", FIELD_TEXT, 0, SPOT(name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, SPOT(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, SPOT(y_um) },
	{ "level", FIELD_MM, FIELD_REQUIRED, SPOT(level_um) },
};
static const struct shape spot_shape = SHAPE(spot_fields);
static const struct list spot_list =
        LIST(spot_shape, struct plan_site, SITE_ITEMS, spots, spot_count);

static void spot_begin(void *item)
{
	((struct plan_spot *)item)->name = "";
}

#define EARTH(member) .at = offsetof(struct plan_earth, member)
static const struct field earth_fields[] = {
	{ "over_dig", FIELD_MM, 0, EARTH(over_dig_um) },
	{ "topsoil", FIELD_MM, 0, EARTH(topsoil_um) },
	{ "bulking", FIELD_SHARE, 0, EARTH(bulking_ppm) },
	{ "compaction", FIELD_SHARE, 0, EARTH(compaction_ppm) },
};
static const struct shape earth_shape = SHAPE(earth_fields);

#define BASELINE(member) .at = offsetof(struct plan_baseline, member)
static const struct field baseline_fields[] = {
	{ "from", FIELD_OBJECT, FIELD_REQUIRED, BASELINE(x1_um), .shape = &point_shape },
	{ "to", FIELD_OBJECT, FIELD_REQUIRED, BASELINE(x2_um), .shape = &point_shape },
};
static const struct shape baseline_shape = SHAPE(baseline_fields);

#define PEG(member) .at = offsetof(struct plan_peg, member)
static const struct field peg_fields[] = {
	{ "name", FIELD_TEXT, 0, PEG(name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, PEG(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, PEG(y_um) },
};
static const struct shape peg_shape = SHAPE(peg_fields);
static const struct list peg_list = LIST(peg_shape, struct plan_site, SITE_ITEMS, pegs, peg_count);

static void peg_begin(void *item)
{
	((struct plan_peg *)item)->name = "";
}

#define MEASURED(member) .at = offsetof(struct plan_measured, member)
static const struct field measured_fields[] = {
	{ "name", FIELD_TEXT, 0, MEASURED(name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, MEASURED(x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, MEASURED(y_um) },
	{ "level", FIELD_MM, FIELD_HAS, MEASURED(level_um),
	        .has = offsetof(struct plan_measured, has_level) },
	{ "at", FIELD_OBJECT, FIELD_HAS, MEASURED(at_x_um), .shape = &point_shape,
	        .has = offsetof(struct plan_measured, has_place) },
};
static const struct shape measured_shape = SHAPE(measured_fields);
static const struct list measured_list =
        LIST(measured_shape, struct plan_site, SITE_ITEMS, measured, measured_count);

static void measured_begin(void *item)
{
	((struct plan_measured *)item)->name = "";
}

#define SITE(member) .at = offsetof(struct plan_site, member)
static const struct field site_fields[] = {
	{ "book", FIELD_OBJECT, 0, SITE(book), .shape = &book_shape },
	{ "ground", FIELD_LIST, FIELD_TIGHT, SITE(spots), .list = &spot_list, .init = spot_begin },
	{ "earth", FIELD_OBJECT, FIELD_TIGHT, SITE(earth), .shape = &earth_shape },
	{ "baseline", FIELD_OBJECT, FIELD_HAS | FIELD_TIGHT, SITE(baseline),
	        .shape = &baseline_shape, .has = offsetof(struct plan_site, baseline.has) },
	{ "pegs", FIELD_LIST, FIELD_TIGHT, SITE(pegs), .list = &peg_list, .init = peg_begin },
	{ "measured", FIELD_LIST, FIELD_TIGHT, SITE(measured), .list = &measured_list,
	        .init = measured_begin },
};
const struct shape site_shape = SHAPE(site_fields);
