/* frame.c - one frame, from the state. */
#include "frame.h"

#include "actions.h"
#include "form.h"
#include "pane.h"
#include "sketch.h"

#include <stdio.h>
#include <string.h>

static const char *doing(struct app *app, char buf[64])
{
	size_t draft = app->variant ? draft_ring(&app->plan) : SIZE_MAX;

	if (app->prompt.on)
		return "typing";
	if (app->mode == MODE_CARRY)
		snprintf(buf, 64, "carrying corner %zu", app->view.at + 1);
	else if (app->mode == MODE_NUDGE)
		snprintf(buf, 64, "moving the start line");
	else if (app->place == AT_OUTLINE && draft != SIZE_MAX)
		snprintf(buf, 64, "drawing, saved");
	else
		snprintf(buf, 64, "saved");
	return buf;
}

static int path_part(const struct app *app, const struct area *a, int col, int width,
        const char *name, bool first)
{
	if (!name || !*name || width < 4)
		return col;
	if (!first) {
		area_put(a, 0, col + 1, glyph(app->ascii, GLYPH_PATH), STYLE_QUIET);
		col += 3;
	}
	return col + area_text(a, 0, col, width - (first ? 0 : 3), STYLE_TITLE, name);
}

static void draw_top(struct app *app, const struct area *a)
{
	char buf[64];
	const char *state = doing(app, buf);
	int room = (a->cols - 4 - (int)strlen(state)) / 3, col = 1;

	if (app->place == AT_CLIENTS || app->place == AT_JOBS) {
		area_text(a, 0, 1, a->cols - 2, STYLE_TITLE, "Slabwright");
	} else {
		col = path_part(app, a, col, room, app->names.client_name, true);
		col = path_part(app, a, col, room, app->names.job_title, col == 1);
		path_part(app, a, col, room, app->names.variant_name, col == 1);
	}
	area_text_right(a, 0, 0, a->cols - 1, STYLE_QUIET, state);
}

/* Whether a planter cannot be built, or does not hold its soil. */
static bool wall_warns(const struct planters_result *r)
{
	for (size_t i = 0; i < r->count; i++)
		if (!r->items[i].ready || r->items[i].wall.verdict == WALL_FAILS ||
		        r->items[i].wall.verdict == WALL_ENGINEER)
			return true;
	return false;
}

/* Whether a flight cannot be worked out, or breaks a limit of the rule set. */
static bool steps_warn(const struct steps_result *r)
{
	for (size_t i = 0; i < r->count; i++)
		if (r->flights[i].fault || !r->flights[i].obeys)
			return true;
	return false;
}

/* Whether a stage has something to look at: warnings about the water, slivers, walls, steps. */
static bool warns(const struct app *app, enum place stage)
{
	if (!app->variant || !app->t.ready)
		return false;
	return (stage == AT_FALLS &&
	               (app->t.surface.warning_count || app->t.drainage.warning_count)) ||
	       (stage == AT_LAYING && app->t.laid.sliver) ||
	       (stage == AT_PLANTERS && wall_warns(&app->t.planters)) ||
	       (stage == AT_STEPS && steps_warn(&app->t.steps));
}

static int stage_gap(int cols)
{
	return cols >= 104 ? 3 : 2;
}

/* In a narrow window the stages before the one you are at give way. */
static int first_stage(const struct app *app, int cols)
{
	int first = 0, width = 2;

	for (int i = 0; i <= (int)app->stage; i++)
		width += (int)strlen(place_name((enum place)i)) + stage_gap(cols);
	for (; first < (int)app->stage && width + 2 > cols; first++)
		width -= (int)strlen(place_name((enum place)first)) + stage_gap(cols);
	return first;
}

/* The stages, the one you are at in brackets, and a mark on those that have a warning. */
static void draw_stages(struct app *app, const struct area *a)
{
	int col = 0, first = first_stage(app, a->cols);

	if (!app_has_sketch(app->place)) {
		if (app->place == AT_HELP || app->place == AT_COMPARE || app->place == AT_ELEVATION)
			area_text(a, 0, 1, a->cols - 2, STYLE_STRONG, place_name(app->place));
		return;
	}
	if (first) {
		area_put(a, 0, 0, L'<', STYLE_QUIET);
		col = 1;
	}
	for (int i = first; i < STAGES; i++) {
		bool here = i == (int)app->stage;
		enum style style = here ? STYLE_HERE : STYLE_PLAIN;
		const char *name = place_name((enum place)i);
		int width = (int)strlen(name);

		if (col + width + 2 > a->cols) {
			area_put(a, 0, a->cols - 1, L'>', STYLE_QUIET);
			return;
		}
		area_text(a, 0, col + 1, width, style, name);
		if (here) {
			area_put(a, 0, col, L'[', style);
			area_put(a, 0, col + 1 + width, L']', style);
		}
		if (!here && warns(app, (enum place)i))
			area_put(a, 0, col + 1 + width, L'!', STYLE_WARN);
		col += width + stage_gap(a->cols);
	}
}

static void draw_sketch(struct app *app, const struct layout *lay)
{
	struct sketch s;

	view_settle(app);
	sketch_rulers(app, lay);
	if (!sketch_begin(app, &lay->canvas, &s))
		return;
	sketch_grid(&s);
	if (app_has_slabs(app->place))
		slabs_draw(&s);
	sketch_edges(&s);
	if (app_has_slabs(app->place))
		slabs_mark_narrow(&s);
	build_draw(&s);
	if (app->place == AT_FALLS)
		water_draw(&s);
	site_draw(&s);
	sketch_corners(&s);
	sketch_cursor(&s);
}

static void draw_too_small(struct app *app)
{
	struct area all = cells_all(&app->cells);
	const char *next, *text = "Slabwright needs a window of 60 columns and 16 rows. Make it "
	                          "larger; all is saved.";

	for (int row = 0; *text && row < all.rows; row++, text = next) {
		size_t n = text_wrap(text, all.cols, app->ascii, &next);
		char line[120];

		snprintf(line, sizeof line, "%.*s", (int)n, text);
		area_text(&all, row, 0, all.cols, STYLE_PLAIN, line);
	}
}

void frame_draw(struct app *app)
{
	struct layout lay;

	arena_reset(&app->frame_mem);
	if (!cells_resize(&app->cells, app->rows, app->cols))
		return;
	app->cells.ascii = app->ascii;
	layout_of(app, &lay);
	if (!lay.fits) {
		draw_too_small(app);
		return;
	}
	draw_top(app, &lay.top);
	draw_stages(app, &lay.stages);
	if (app->place == AT_HELP)
		help_draw(app, &lay.body);
	else if (app->place == AT_COMPARE)
		compare_draw(app, &lay.body);
	else if (app->place == AT_TABLE)
		table_draw(app, &lay.body);
	else if (app->place == AT_ELEVATION)
		elevation_draw(app, &lay.body);
	else if (!app_has_sketch(app->place) || app->place == AT_VARIANTS)
		list_draw(app, &lay.body, list_here(app));
	else
		draw_sketch(app, &lay);
	if (app_has_sketch(app->place))
		pane_draw(app, &lay.pane);
	foot_draw(app, &lay);
}
