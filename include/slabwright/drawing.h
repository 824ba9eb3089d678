/* drawing.h - a take-off drawn on paper: sheets to a true scale, as PDF, SVG or PNG.
 *
 * Every sheet is one or more pages of the same size, lying, with a title block. Text takes the
 * system's fonts. The same take-off, options and date give the same bytes. */
#ifndef SLABWRIGHT_DRAWING_H
#define SLABWRIGHT_DRAWING_H

#include "slabwright/takeoff.h"

enum paper { PAPER_A4, PAPER_A3, PAPER_LETTER };
enum drawing_form { DRAWING_PDF, DRAWING_SVG, DRAWING_PNG };

struct drawing_options {
	const char *client, *job; /* any text; "" where there is none */
	const char *date; /* year-month-day: 2024-05-31 */
	const char *only; /* name of the one sheet wanted; NULL: all of them */
	enum paper paper;
	enum drawing_form form;
	int64_t scale; /* 50 for 1:50; 0: the largest usual one that fits */
	double dots_per_inch; /* of PNG; 0: 150 */
};

/* Reads what an option says: a paper's name, a scale like 1:50, a calendar date, and the form that
 * a file's ending stands for. STATUS_USAGE, naming what there is. */
enum status paper_parse(const char *word, enum paper *paper, struct error *err);
enum status scale_parse(const char *text, int64_t *scale, struct error *err);
enum status date_check(const char *text, struct error *err);
enum status drawing_form_of(const char *path, enum drawing_form *form, struct error *err);

/* Name and title of the sheets there are, from 0; NULL behind the last. */
const char *drawing_sheet_name(size_t at);
const char *drawing_sheet_title(size_t at);

/* Draws the sheets into the file, or of SVG and PNG each page into one of its own: FILE.svg,
 * FILE-2.svg and so on. Everything is written beside its place first and moved there at the end: a
 * fault leaves what was there. *pages is how many there are.
 *
 * STATUS_PLAN with the take-off's fault when it is not ready, or where the file cannot be written;
 * STATUS_USAGE for a sheet that is not there, or a scale at which the plan does not fit the paper.
 */
enum status drawing_write(const char *path, const struct takeoff *t,
        const struct drawing_options *options, size_t *pages, struct error *err);

/* How many pages of a longer drawing that was written there before still lie beside one of so many
 * pages: FILE-4.svg and those that follow it without a gap, beside three. They are left alone. 0
 * for a PDF. */
size_t drawing_left_over(const char *path, enum drawing_form form, size_t pages);

/* A text as it stands on a page: the middle of its box, half its sides, mm from the page's upper
 * left corner, and how far it is turned, clockwise. */
struct drawn_text {
	size_t page; /* from 1 */
	const char *words; /* as drawn, but for what an ellipsis stands for */
	double x, y, half_width, half_height, turn_rad;
};
typedef void drawn_text_fn(void *context, const struct drawn_text *text);

/* Goes over all text of the sheets without drawing them; refuses what drawing_write refuses. *width
 * and *height are the page's, mm. */
enum status drawing_texts(const struct takeoff *t, const struct drawing_options *options,
        drawn_text_fn *say, void *context, double *width, double *height, struct error *err);

#endif
