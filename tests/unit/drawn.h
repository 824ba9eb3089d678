/* drawn.h - jobs of every kind, to be drawn. */
#ifndef TESTS_UNIT_DRAWN_H
#define TESTS_UNIT_DRAWN_H

#include "../oracle/random_plan.h"
#include "slabwright/drawing.h"

/* Job number `number`: bonds, outlines, openings, borders, zones, falls and fixed points by turns;
 * some are tiny, some some 60 m across. Worked out; lives in mem. */
struct takeoff drawn_job(struct arena *mem, struct chance *c, int number);

/* A4, some date, short names; all sheets. */
struct drawing_options drawn_options(void);

/* Writes it; fails the test where that is refused. */
void drawn_write(const char *path, const struct takeoff *t, const struct drawing_options *o);
/* A file's bytes, to be freed. */
char *drawn_read(const char *path, size_t *length);
/* What a program says of a file, to be freed: "pdftotext '%s' -". */
char *drawn_said_by(const char *program, const char *path);
/* Whether the SVG has a stretch of line from (x, y) to (x + dx, y), either way. */
bool svg_has_level_line(const char *svg, double dx);

#endif
