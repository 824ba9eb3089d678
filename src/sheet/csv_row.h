/* csv_row.h - rows of CSV (RFC 4180), built cell by cell. A text cell that a spreadsheet would take
 * for a formula gets an apostrophe in front; numbers are written as numbers, with a decimal point
 * and no thousands sign. The separator is written before every cell but the first. */
#ifndef SHEET_CSV_ROW_H
#define SHEET_CSV_ROW_H

#include "form.h"

struct row {
	FILE *to;
	bool started;
};

void row_separate(struct row *r); /* before a cell that the caller writes */
void row_text(struct row *r, const char *text);
void row_int(struct row *r, int64_t n);
void row_real(struct row *r, double value, int decimals);
void row_mm(struct row *r, double um);
void row_empty(struct row *r);
void row_end(struct row *r);
void row_header(struct row *r, const char *const *names, size_t count);

/* A row of section, figure, value and unit. */
void count_row(struct row *r, const char *section, const char *figure, int64_t n);
void real_row(
        struct row *r, const char *section, const char *figure, double value, const char *unit);
void mm_row(struct row *r, const char *section, const char *figure, double um);
void text_row(struct row *r, const char *section, const char *figure, const char *text);

#define ROW_HEADER(r, ...)                                                                         \
	row_header((r), (const char *const[]){ __VA_ARGS__ },                                      \
	        sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(char *))

#endif
