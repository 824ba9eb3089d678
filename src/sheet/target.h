/* target.h - where pages go: a PDF, or an SVG or PNG each. Files are written beside their places,
 * and moved there together. */
#ifndef SHEET_TARGET_H
#define SHEET_TARGET_H

#include "slabwright/drawing.h"

#include <cairo.h>
#include <stdio.h>

#define MM_PER_INCH 25.4

struct outfile {
	char *path; /* where it goes, links followed */
	char *beside; /* where it is written; NULL when it is no more */
	FILE *to;
};

struct target {
	const char *path;
	const struct drawing_options *options;
	double width, height; /* of a page, mm */
	struct outfile *files;
	size_t count;
	cairo_surface_t *surface;
	cairo_t *cr;
};

/* Opens a page of the target: *cr draws in mm. It is the target's. */
enum status target_page(
        struct target *t, const char *title, size_t page, cairo_t **cr, struct error *err);
enum status target_page_end(struct target *t, struct error *err);
/* Finishes and moves all files to their places; or takes away what was written. */
enum status target_keep(struct target *t, struct error *err);
void target_drop(struct target *t);

/* outfile.c */
enum status outfile_open(struct outfile *f, const char *path, struct error *err);
/* Writes it out to the disk and closes it; it is still beside its place. */
enum status outfile_finish(struct outfile *f, struct error *err);
enum status outfile_move(struct outfile *f, struct error *err);
/* Removes what was not moved, and frees. */
void outfile_done(struct outfile *f);

#endif
