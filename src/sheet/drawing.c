/* drawing.c - the sheets there are, and going over them twice: to count the pages, then to draw
 * them. */
#include "sheets.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>
#include <strings.h>

/* has: whether there is anything to draw; NULL: always. */
struct sheet_kind {
	const char *name, *title;
	sheet_draw_fn *draw;
	bool (*has)(const struct takeoff *t);
};

static bool has_setout(const struct takeoff *t)
{
	return t->site.has_setout;
}

static bool has_water(const struct takeoff *t)
{
	return t->surface.has_plane;
}

static bool has_planters(const struct takeoff *t)
{
	return t->planters.count > 0;
}

static bool has_steps(const struct takeoff *t)
{
	return t->steps.count > 0;
}

static bool has_edging(const struct takeoff *t)
{
	return t->kerbs.count > 0;
}

static bool has_dig(const struct takeoff *t)
{
	return t->earth.ready && t->earth.ground.level_count > 0;
}

static bool has_built(const struct takeoff *t)
{
	return t->site.has_built;
}

static const struct sheet_kind sheets[] = {
	{ "plan", "Plan", draw_plan, NULL },
	{ "setout", "Setting out", draw_setout, has_setout },
	{ "dig", "Ground and dig", draw_dig, has_dig },
	{ "levels", "Levels", draw_levels, NULL },
	{ "water", "Water", draw_water, has_water },
	{ "edging", "Edging", draw_edging, has_edging },
	{ "planters", "Planters", draw_planters, has_planters },
	{ "steps", "Steps", draw_steps, has_steps },
	{ "laying", "Laying plan", draw_laying, NULL },
	{ "cuts", "Cut list", draw_cuts, NULL },
	{ "built", "As built", draw_built, has_built },
	{ "order", "Order", draw_order, NULL },
};

enum { SHEETS = sizeof sheets / sizeof *sheets };

static const struct paper_size {
	const char *name;
	double width, height; /* lying, mm */
} papers[] = {
	[PAPER_A4] = { "A4", 297, 210 },
	[PAPER_A3] = { "A3", 420, 297 },
	[PAPER_LETTER] = { "Letter", 279.4, 215.9 },
};

enum { PAPERS = sizeof papers / sizeof *papers };

const char *drawing_sheet_name(size_t at)
{
	return at < SHEETS ? sheets[at].name : NULL;
}

const char *drawing_sheet_title(size_t at)
{
	return at < SHEETS ? sheets[at].title : NULL;
}

enum status paper_parse(const char *word, enum paper *paper, struct error *err)
{
	for (int i = 0; i < PAPERS; i++)
		if (strcasecmp(word, papers[i].name) == 0) {
			*paper = (enum paper)i;
			return STATUS_OK;
		}
	return error_set(
	        err, STATUS_USAGE, "There is no paper \"%s\" here: A4, A3 or Letter.", word);
}

enum status scale_parse(const char *text, int64_t *scale, struct error *err)
{
	const char *digits = strncmp(text, "1:", 2) == 0 ? text + 2 : text;
	size_t n = strspn(digits, "0123456789");

	*scale = 0;
	for (size_t i = 0; i < n && n <= 5; i++)
		*scale = *scale * 10 + (digits[i] - '0');
	if (!n || digits[n] || *scale < 1 || *scale > 10000)
		return error_set(err, STATUS_USAGE,
		        "\"%s\" is no scale; write it like 1:50, from 1:1 to 1:10000.", text);
	return STATUS_OK;
}

static int days_in(int year, int month)
{
	static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
	bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

	return month == 2 && leap ? 29 : days[month - 1];
}

enum status date_check(const char *text, struct error *err)
{
	static const char shape[] = "dddd-dd-dd";
	int part[3] = { 0 }, at = 0;
	bool good = strlen(text) == sizeof shape - 1;

	for (size_t i = 0; good && i < sizeof shape - 1; i++) {
		bool digit = text[i] >= '0' && text[i] <= '9';

		good = shape[i] == 'd' ? digit : text[i] == '-';
		if (shape[i] != 'd')
			at++;
		else if (good)
			part[at] = part[at] * 10 + (text[i] - '0');
	}
	if (!good || part[1] < 1 || part[1] > 12 || part[2] < 1 ||
	        part[2] > days_in(part[0], part[1]))
		return error_set(err, STATUS_USAGE,
		        "\"%s\" is no date; write year-month-day, like 2024-05-31.", text);
	return STATUS_OK;
}

enum status drawing_form_of(const char *path, enum drawing_form *form, struct error *err)
{
	static const char *const endings[] = { ".pdf", ".svg", ".png" };
	size_t length = strlen(path);

	for (int i = 0; i < 3; i++)
		if (length > 4 && strcasecmp(path + length - 4, endings[i]) == 0) {
			*form = (enum drawing_form)i;
			return STATUS_OK;
		}
	return error_set(err, STATUS_USAGE,
	        "--to %s: a drawing goes into a file whose name ends in .pdf, .svg or .png.", path);
}

int64_t sheet_scale(struct drawing *d, const struct box *plan, double width, double height)
{
	int64_t best = scale_fitting(plan, width, height), asked = d->options->scale;

	if (!asked)
		return best;
	if (scale_mm(asked, plan->x1 - plan->x0) <= width &&
	        scale_mm(asked, plan->y1 - plan->y0) <= height)
		return asked;
	if (d->status == STATUS_OK)
		d->status = error_set(d->err, STATUS_USAGE,
		        "At 1:%" PRId64 " the plan needs %.0f x %.0f mm of paper, and %s leaves "
		        "%.0f x %.0f mm; take --scale 1:%" PRId64 " or larger paper.",
		        asked, scale_mm(asked, plan->x1 - plan->x0),
		        scale_mm(asked, plan->y1 - plan->y0), papers[d->options->paper].name, width,
		        height, best);
	return best;
}

const char *metre_words(struct drawing *d, double um)
{
	char text[40];

	return page_print(d, "%s",
	        length_print_bare(text, sizeof text, llround(um / 1000) * UM_PER_MM, UNIT_M));
}

const char *mm_words(struct drawing *d, double um)
{
	return page_print(d, "%lld", llround(um / 1000));
}

static enum status refuse_sheet(const char *name, struct error *err)
{
	char all[400] = "";

	for (int i = 0; i < SHEETS; i++)
		snprintf(all + strlen(all), sizeof all - strlen(all), "%s%s",
		        i == 0           ? ""
		        : i + 1 < SHEETS ? ", "
		                         : " and ",
		        sheets[i].name);
	return error_set(err, STATUS_USAGE, "There is no sheet \"%s\"; there are %s.", name, all);
}

static bool is_drawn(const struct takeoff *t, const struct sheet_kind *kind)
{
	return !kind->has || kind->has(t);
}

static enum status check_options(
        const struct takeoff *t, const struct drawing_options *o, struct error *err)
{
	enum status st = date_check(o->date, err);
	const struct sheet_kind *only = NULL;

	for (int i = 0; i < SHEETS && o->only; i++)
		if (strcmp(o->only, sheets[i].name) == 0)
			only = &sheets[i];
	if (st == STATUS_OK && o->only && !only)
		st = refuse_sheet(o->only, err);
	if (st == STATUS_OK && !t->ready)
		st = error_set(err, STATUS_PLAN, "%s", t->fault.text);
	if (st == STATUS_OK && only && !is_drawn(t, only))
		st = error_set(err, STATUS_PLAN,
		        "The plan has nothing for the sheet \"%s\"; leave --only out to draw what "
		        "there is.",
		        o->only);
	return st;
}

/* Fonts without hinting: the same measures at every resolution. */
static bool open_text(struct drawing *d, PangoFontMap **map)
{
	cairo_font_options_t *options = cairo_font_options_create();

	*map = pango_cairo_font_map_new();
	d->pango = pango_font_map_create_context(*map);
	cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
	cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
	cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
	pango_cairo_context_set_font_options(d->pango, options);
	cairo_font_options_destroy(options);
	pango_context_set_round_glyph_positions(d->pango, FALSE);
	d->layout = pango_layout_new(d->pango);
	pango_layout_set_single_paragraph_mode(d->layout, TRUE);
	pango_layout_set_wrap(d->layout, PANGO_WRAP_WORD_CHAR);
	d->font = pango_font_description_from_string("Sans");
	return d->font != NULL;
}

static void close_text(struct drawing *d, PangoFontMap *map)
{
	pango_font_description_free(d->font);
	g_object_unref(d->layout);
	g_object_unref(d->pango);
	g_object_unref(map);
}

static void draw_all(struct drawing *d)
{
	d->page = 0;
	for (int i = 0; i < SHEETS && d->status == STATUS_OK; i++)
		if (is_drawn(d->t, &sheets[i]) &&
		        (!d->options->only || strcmp(d->options->only, sheets[i].name) == 0))
			sheets[i].draw(d, sheets[i].title);
	page_end(d);
}

/* Goes over the sheets: once to count, then with what is to be told or drawn. */
static enum status go_over(struct drawing *d)
{
	PangoFontMap *map;
	struct target *target = d->target;
	drawn_text_fn *say = d->say;

	d->width = papers[d->options->paper].width;
	d->height = papers[d->options->paper].height;
	open_text(d, &map);
	d->target = NULL;
	d->say = NULL;
	draw_all(d);
	d->pages = d->page;
	d->target = target;
	d->say = say;
	if (d->status == STATUS_OK)
		draw_all(d);
	close_text(d, map);
	arena_free(&d->page_mem);
	arena_free(&d->last_mem);
	arena_free(&d->mem);
	return d->status;
}

enum status drawing_write(const char *path, const struct takeoff *t,
        const struct drawing_options *options, size_t *pages, struct error *err)
{
	struct target target = { .path = path,
		.options = options,
		.width = papers[options->paper].width,
		.height = papers[options->paper].height };
	struct drawing d = { .t = t, .options = options, .target = &target, .err = err };
	enum status st = check_options(t, options, err);

	if (st == STATUS_OK)
		st = go_over(&d);
	if (st == STATUS_OK)
		st = target_keep(&target, err);
	target_drop(&target);
	*pages = d.page;
	return st;
}

enum status drawing_texts(const struct takeoff *t, const struct drawing_options *options,
        drawn_text_fn *say, void *context, double *width, double *height, struct error *err)
{
	struct drawing d = {
		.t = t, .options = options, .say = say, .say_context = context, .err = err
	};
	enum status st = check_options(t, options, err);

	*width = papers[options->paper].width;
	*height = papers[options->paper].height;
	return st == STATUS_OK ? go_over(&d) : st;
}
