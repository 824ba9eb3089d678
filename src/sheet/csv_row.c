/* csv_row.c - see csv_row.h. */
#include "csv_row.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

void row_separate(struct row *r)
{
	if (r->started)
		fputc(',', r->to);
	r->started = true;
}

void row_end(struct row *r)
{
	fputs("\r\n", r->to);
	r->started = false;
}

void row_text(struct row *r, const char *text)
{
	bool formula = *text && strchr("=+-@\t\r\n", *text) != NULL;

	row_separate(r);
	if (!formula && !strpbrk(text, "\",\r\n")) {
		sheet_put_text(r->to, text);
		return;
	}
	fputs(formula ? "\"'" : "\"", r->to);
	for (const char *rest = text; *rest;) {
		char part[64];
		size_t n = 0;

		/* Cut where a character begins, so that none is taken apart. */
		while (*rest && n < sizeof part - 6) {
			if (*rest == '"')
				part[n++] = '"';
			do
				part[n++] = *rest++;
			while (((unsigned char)*rest & 0xC0) == 0x80 && n < sizeof part - 1);
		}
		part[n] = '\0';
		sheet_put_text(r->to, part);
	}
	fputc('"', r->to);
}

void row_int(struct row *r, int64_t n)
{
	row_separate(r);
	fprintf(r->to, "%" PRId64, n);
}

void row_real(struct row *r, double value, int decimals)
{
	row_separate(r);
	fprintf(r->to, "%.*f", decimals, value);
}

void row_mm(struct row *r, double um)
{
	char mm[40];

	row_separate(r);
	fputs(mm_print(mm, sizeof mm, llround(um)), r->to);
}

void row_empty(struct row *r)
{
	row_separate(r);
}

void row_header(struct row *r, const char *const *names, size_t count)
{
	for (size_t i = 0; i < count; i++)
		row_text(r, names[i]);
	row_end(r);
}
