/* sketch_zones.c - the names of zones in the sketch.
 *
 * A name stands where the zone is widest; where that is too narrow for it, "zone 2" does. */
#include "sketch.h"
#include "zones.h"

#include <stdio.h>

/* Whether it is the zone that is worked on here. */
static bool is_here(const struct app *app, size_t zone)
{
	return app->place == AT_OUTLINE ? zone_of_ring(&app->plan, app->view.ring) == zone
	                                : zone_here(app) == zone;
}

/* What names the zone in at most `columns`: its name or its number, in brackets where it is worked
 * on and they fit too. */
static const char *name_words(const struct sketch *s, size_t zone, int columns)
{
	bool brackets = is_here(s->app, zone) && s->app->place != AT_OUTLINE;
	const char *words[3] = { s->app->plan.zones[zone].name };
	bool ascii = s->app->ascii;
	int i = 0;

	words[1] = arena_print(s->mem, "zone %zu", zone + 1);
	words[2] = arena_print(s->mem, "z%zu", zone + 1);
	if (!words[1] || !words[2])
		return NULL;
	while (i < 2 && (!*words[i] || text_columns(words[i], ascii) > columns))
		i++;
	return brackets && text_columns(words[i], ascii) + 2 <= columns
	               ? arena_print(s->mem, "[%s]", words[i])
	               : words[i];
}

static void put_name(const struct sketch *s, size_t zone)
{
	static const int rows[] = { 0, -1, 1, -2, 2 };
	struct region region;
	struct point middle;
	double width;
	const char *words;
	int row, col;

	if (!zone_region(s->app, s->mem, zone, &region) ||
	        !region_middle(s->mem, &region, &middle, &width))
		return;
	words = name_words(s, zone, (int)(width * 2 / (double)s->app->view.cell_um) - 1);
	if (!words)
		return;
	row = sketch_row(s, middle.y);
	col = sketch_col(s, middle.x) - text_columns(words, s->app->ascii) / 2;
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
		if (sketch_label(s, row + rows[i], col, words,
		            is_here(s->app, zone) ? STYLE_STRONG : STYLE_NUMBER))
			return;
}

void sketch_zone_names(const struct sketch *s)
{
	enum place place = s->app->place;

	if (place != AT_OUTLINE && !app_has_slabs(place))
		return;
	for (size_t z = 0; z < s->app->plan.zone_count; z++)
		put_name(s, z);
}
