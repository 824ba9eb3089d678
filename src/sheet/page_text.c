/* page_text.c - the one way text gets on a page; see page.h. */
#include "page.h"

#include "slabwright/sheet.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>

/* Text is set in units of a twentieth of a mm, so that letters are large to the font. */
static const double UNITS_PER_MM = 20;
static const double GREY = 0.35;

const char *page_print(struct drawing *d, const char *format, ...)
{
	va_list args, again;
	int length;
	char *out;

	va_start(args, format);
	va_copy(again, args);
	length = vsnprintf(NULL, 0, format, args);
	va_end(args);
	out = length < 0 ? NULL : arena_alloc(&d->page_mem, (size_t)length + 1, 1);
	if (out)
		vsnprintf(out, (size_t)length + 1, format, again);
	else
		page_fail_memory(d);
	va_end(again);
	return out ? out : "";
}

static bool is_plain(const char *words)
{
	for (; *words; words++)
		if (*words < ' ' || *words > '~')
			return false;
	return true;
}

const char *page_clean(struct drawing *d, const char *words)
{
	char *text = NULL;
	size_t size;
	FILE *memory;
	const char *out = words;

	if (is_plain(words))
		return words;
	memory = open_memstream(&text, &size);
	if (memory)
		sheet_put_text(memory, words);
	if (!memory || fclose(memory) != 0) {
		page_fail_memory(d);
		out = "";
	} else {
		out = page_print(d, "%s", text);
	}
	free(text);
	return out;
}

/* Sets the layout for a text; its box in mm. */
static struct box lay_out(struct drawing *d, const struct text *t)
{
	PangoRectangle ink, logical;
	double unit = UNITS_PER_MM * PANGO_SCALE;

	pango_font_description_set_weight(
	        d->font, t->bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
	pango_font_description_set_absolute_size(d->font, t->size * unit);
	pango_layout_set_font_description(d->layout, d->font);
	pango_layout_set_text(d->layout, page_clean(d, t->words), -1);
	pango_layout_set_width(d->layout, t->room > 0 ? (int)lround(t->room * unit) : -1);
	pango_layout_set_ellipsize(
	        d->layout, t->room > 0 && !t->wraps ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
	pango_layout_get_extents(d->layout, &ink, &logical);
	return (struct box){ logical.x / unit, logical.y / unit, (logical.x + logical.width) / unit,
		(logical.y + logical.height) / unit };
}

struct patch text_patch(struct drawing *d, const struct text *t)
{
	struct box b = lay_out(d, t);

	return (struct patch){ { 0, 0 }, (b.x1 - b.x0) / 2, (b.y1 - b.y0) / 2, t->turn };
}

static void tell(struct drawing *d, const struct text *t, const struct patch *place)
{
	struct drawn_text told = { d->page, page_clean(d, t->words), place->at.x, place->at.y,
		place->along, place->across, place->turn };

	if (d->say)
		d->say(d->say_context, &told);
}

static void wipe(struct drawing *d, const struct patch *place)
{
	struct point corner[4];

	patch_corners(place, corner);
	page_fill(d, corner, 4, 1);
}

void page_text_at(struct drawing *d, const struct text *t, const struct patch *place)
{
	struct box b;

	taken_add(&d->taken, place, TAKEN_TEXT);
	tell(d, t, place);
	if (!d->cr)
		return;
	if (t->on_white)
		wipe(d, place);
	b = lay_out(d, t);
	cairo_save(d->cr);
	cairo_translate(d->cr, place->at.x, place->at.y);
	cairo_rotate(d->cr, place->turn);
	cairo_scale(d->cr, 1 / UNITS_PER_MM, 1 / UNITS_PER_MM);
	cairo_move_to(d->cr, -(b.x0 + b.x1) / 2 * UNITS_PER_MM, -(b.y0 + b.y1) / 2 * UNITS_PER_MM);
	cairo_set_source_rgb(d->cr, t->grey ? GREY : 0, t->grey ? GREY : 0, t->grey ? GREY : 0);
	pango_cairo_show_layout(d->cr, d->layout);
	cairo_restore(d->cr);
	cairo_new_path(d->cr);
}

double page_text(struct drawing *d, const struct text *t, enum align align, double x, double y)
{
	struct patch p;

	if (!*t->words)
		return 0;
	p = text_patch(d, t);
	p.at.x = align == ALIGN_LEFT ? x + p.along : align == ALIGN_RIGHT ? x - p.along : x;
	p.at.y = y + p.across;
	page_text_at(d, t, &p);
	return 2 * p.across;
}
