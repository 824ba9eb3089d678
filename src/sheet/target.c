/* target.c - see target.h. */
#include "target.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cairo-pdf.h>
#include <cairo-svg.h>

static const double POINTS_PER_INCH = 72, DOTS_DEFAULT = 150;

static cairo_status_t put_bytes(void *to, const unsigned char *bytes, unsigned length)
{
	return fwrite(bytes, 1, length, to) == length ? CAIRO_STATUS_SUCCESS
	                                              : CAIRO_STATUS_WRITE_ERROR;
}

/* FILE.svg for the first page, FILE-2.svg for the second. */
static char *page_path_of(const char *path, size_t page)
{
	const char *slash = strrchr(path, '/'), *dot = strrchr(path, '.');
	size_t length = strlen(path) + 32;
	char *out = malloc(length);

	if (!out)
		return NULL;
	if (!dot || (slash && dot < slash))
		dot = path + strlen(path);
	if (page == 1)
		snprintf(out, length, "%s", path);
	else
		snprintf(out, length, "%.*s-%zu%s", (int)(dot - path), path, page, dot);
	return out;
}

size_t drawing_left_over(const char *path, enum drawing_form form, size_t pages)
{
	size_t n = 0;

	for (bool there = form != DRAWING_PDF; there;) {
		char *page = page_path_of(path, pages + n + 1);

		there = page && access(page, F_OK) == 0;
		n += there;
		free(page);
	}
	return n;
}

static enum status open_file(struct target *t, size_t page, struct error *err)
{
	struct outfile *files = realloc(t->files, (t->count + 1) * sizeof *files);
	char *path = page_path_of(t->path, page);
	enum status st;

	if (files)
		t->files = files;
	if (!files || !path) {
		free(path);
		return error_memory(err);
	}
	st = outfile_open(&files[t->count++], path, err);
	free(path);
	return st;
}

/* One figure of the date as the file's own time; no clock is asked. */
static void set_facts(struct target *t, const char *title)
{
	char when[32];

	snprintf(when, sizeof when, "%.10sT00:00:00Z", t->options->date);
	cairo_pdf_surface_set_metadata(t->surface, CAIRO_PDF_METADATA_CREATE_DATE, when);
	cairo_pdf_surface_set_metadata(t->surface, CAIRO_PDF_METADATA_MOD_DATE, when);
	cairo_pdf_surface_set_metadata(t->surface, CAIRO_PDF_METADATA_TITLE, title);
	cairo_pdf_surface_set_metadata(t->surface, CAIRO_PDF_METADATA_CREATOR, "Slabwright");
}

static double dots_per_mm(const struct target *t)
{
	double dots = t->options->dots_per_inch;

	return (dots > 0 ? dots : DOTS_DEFAULT) / MM_PER_INCH;
}

/* Makes the surface and how many of its units a mm is. */
static double make_surface(struct target *t, const char *title)
{
	FILE *to = t->files[t->count - 1].to;
	double dots = dots_per_mm(t), points = POINTS_PER_INCH / MM_PER_INCH;

	switch (t->options->form) {
	case DRAWING_PNG:
		t->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24,
		        (int)lround(t->width * dots), (int)lround(t->height * dots));
		return dots;
	case DRAWING_SVG:
		t->surface =
		        cairo_svg_surface_create_for_stream(put_bytes, to, t->width, t->height);
		cairo_svg_surface_set_document_unit(t->surface, CAIRO_SVG_UNIT_MM);
		return 1;
	case DRAWING_PDF:
		break;
	}
	if (!t->surface) {
		t->surface = cairo_pdf_surface_create_for_stream(
		        put_bytes, to, t->width * points, t->height * points);
		set_facts(t, title);
	}
	return points;
}

static enum status surface_status(struct target *t, cairo_status_t status, struct error *err)
{
	if (status == CAIRO_STATUS_SUCCESS)
		return STATUS_OK;
	if (status == CAIRO_STATUS_NO_MEMORY)
		return error_memory(err);
	return error_set(err, STATUS_PLAN, "%s cannot be written: %s.", t->path,
	        cairo_status_to_string(status));
}

enum status target_page(
        struct target *t, const char *title, size_t page, cairo_t **cr, struct error *err)
{
	enum status st = STATUS_OK;
	double unit;

	if (t->options->form != DRAWING_PDF || !t->count)
		st = open_file(t, page, err);
	if (st != STATUS_OK)
		return st;
	unit = make_surface(t, title);
	*cr = t->cr = cairo_create(t->surface);
	cairo_set_source_rgb(t->cr, 1, 1, 1);
	if (t->options->form != DRAWING_PDF)
		cairo_paint(t->cr);
	cairo_scale(t->cr, unit, unit);
	return surface_status(t, cairo_status(t->cr), err);
}

static cairo_status_t surface_finish(struct target *t)
{
	cairo_status_t status;

	cairo_surface_finish(t->surface);
	status = cairo_surface_status(t->surface);
	cairo_surface_destroy(t->surface);
	t->surface = NULL;
	return status;
}

enum status target_page_end(struct target *t, struct error *err)
{
	cairo_status_t status;

	cairo_show_page(t->cr);
	status = cairo_status(t->cr);
	cairo_destroy(t->cr);
	t->cr = NULL;
	if (status == CAIRO_STATUS_SUCCESS && t->options->form == DRAWING_PNG)
		status = cairo_surface_write_to_png_stream(
		        t->surface, put_bytes, t->files[t->count - 1].to);
	if (status == CAIRO_STATUS_SUCCESS && t->options->form != DRAWING_PDF)
		status = surface_finish(t);
	return surface_status(t, status, err);
}

enum status target_keep(struct target *t, struct error *err)
{
	enum status st = STATUS_OK;

	if (t->surface)
		st = surface_status(t, surface_finish(t), err);
	for (size_t i = 0; st == STATUS_OK && i < t->count; i++)
		st = outfile_finish(&t->files[i], err);
	for (size_t i = 0; st == STATUS_OK && i < t->count; i++)
		st = outfile_move(&t->files[i], err);
	return st;
}

void target_drop(struct target *t)
{
	if (t->cr)
		cairo_destroy(t->cr);
	if (t->surface)
		surface_finish(t);
	for (size_t i = 0; i < t->count; i++)
		outfile_done(&t->files[i]);
	free(t->files);
	t->files = NULL;
	t->count = 0;
}
