/* sheets.h - a patio with something of everything, and what a sheet writes of it. */
#ifndef TESTS_SHEETS_H
#define TESTS_SHEETS_H

#include "slabwright/sheet.h"

#include "plans.h"

typedef enum status sheet_writer(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

enum { SHEETS = 5 };
extern sheet_writer *const sheets[SHEETS]; /* take-off, cuts, courses, water, levels */

/* Kinds of edges, an arc, an opening, a fall, an instrument, a kerb bought by the piece; worked
 * out. */
void worked_patio(struct worked *w);

/* What a sheet writes, to be freed; fails the test when it refuses. */
char *sheet_written(const struct worked *w, sheet_writer *sheet, enum sheet_form form);

/* The text of a sheet, with its folded lines joined again; to be freed. */
char *sheet_unfolded(const struct worked *w, sheet_writer *sheet);

/* Splits a CSV text into the fields of its rows as RFC 4180 says; counts rows and checks widths. */
int csv_rows(const char *csv, int *width);

#endif
