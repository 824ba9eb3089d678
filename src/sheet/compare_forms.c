/* compare_forms.c - the comparison of variants in three forms. */
#include "csv_row.h"

#include "slabwright/compare.h"
#include "slabwright/json.h"

#include <math.h>
#include <string.h>

struct comparison {
	const char *job;
	const struct compare_column *columns;
	size_t count;
};

/* --- text: blocks of a few columns, so that lines are not folded --- */

enum { TEXT_COLUMNS = 3, TEXT_NAME = 18, TEXT_WIDTH = 19 };

/* The value behind what it deserves to be called. */
static void print_cell(const struct comparison *c, size_t figure, size_t column, char cell[64])
{
	const char *best = compare_best(c->columns, c->count, figure, column);

	snprintf(cell, 64, "%s%s%.*s", best ? best : "", best ? " " : "", 48,
	        c->columns[column].values[figure].text);
}

static void put_block(FILE *to, const struct comparison *c, size_t first)
{
	size_t end = first + TEXT_COLUMNS < c->count ? first + TEXT_COLUMNS : c->count;
	char cell[64];

	fprintf(to, "  %-*s", TEXT_NAME, "");
	for (size_t i = first; i < end; i++)
		fprintf(to, " %*zu", TEXT_WIDTH, i + 1);
	fputc('\n', to);
	for (size_t f = 0; f < COMPARE_FIGURES; f++) {
		fprintf(to, "%c %-*s", compare_differs(c->columns, c->count, f) ? '*' : ' ',
		        TEXT_NAME, compare_name(f));
		for (size_t i = first; i < end; i++) {
			print_cell(c, f, i, cell);
			fprintf(to, " %*s", TEXT_WIDTH, cell);
		}
		fputc('\n', to);
	}
}

static void text(FILE *to, const void *what)
{
	const struct comparison *c = what;

	fputs("Variants of \"", to);
	sheet_put_text(to, c->job);
	fputs("\" side by side; * marks what differs\n", to);
	for (size_t i = 0; i < c->count; i++) {
		fprintf(to, "  %zu: ", i + 1);
		sheet_put_text(to, c->columns[i].name);
		fputc('\n', to);
	}
	for (size_t i = 0; i < c->count; i += TEXT_COLUMNS) {
		fputc('\n', to);
		put_block(to, c, i);
	}
}

/* --- CSV: a row a figure --- */

static void csv(FILE *to, const void *what)
{
	const struct comparison *c = what;
	struct row r = { to, false };

	row_text(&r, "figure");
	row_text(&r, "differs");
	for (size_t i = 0; i < c->count; i++) {
		char best[240];

		snprintf(best, sizeof best, "%s: best", c->columns[i].name);
		row_text(&r, c->columns[i].name);
		row_text(&r, best);
	}
	row_end(&r);
	for (size_t f = 0; f < COMPARE_FIGURES; f++) {
		row_text(&r, compare_key(f));
		row_text(&r, compare_differs(c->columns, c->count, f) ? "yes" : "no");
		for (size_t i = 0; i < c->count; i++) {
			const struct compare_value *v = &c->columns[i].values[f];
			const char *best = compare_best(c->columns, c->count, f, i);

			if (isnan(v->number))
				row_text(&r, v->text);
			else
				row_real(&r, v->number, v->number == rint(v->number) ? 0 : 3);
			row_text(&r, best ? best : "");
		}
		row_end(&r);
	}
}

/* --- JSON --- */

static void put_value(struct json *j, size_t figure, const struct compare_value *v)
{
	if (!isnan(v->number))
		json_real(j, compare_key(figure), tidy(v->number));
	else
		json_text(j, compare_key(figure), v->text);
}

static void put_column(struct json *j, const struct comparison *c, size_t column)
{
	const struct compare_column *v = &c->columns[column];

	json_object(j, NULL);
	json_text(j, "name", v->name);
	json_bool(j, "ready", v->ready);
	json_object(j, "figures");
	for (size_t f = 0; f < COMPARE_FIGURES; f++)
		put_value(j, f, &v->values[f]);
	json_end(j);
	json_object_tight(j, "best");
	for (size_t f = 0; f < COMPARE_FIGURES; f++) {
		const char *best = compare_best(c->columns, c->count, f, column);

		if (best)
			json_text(j, compare_key(f), best);
	}
	json_end(j);
	json_end(j);
}

static void json(struct json *j, const void *what)
{
	const struct comparison *c = what;

	json_object(j, NULL);
	json_text(j, "job", c->job);
	json_array_tight(j, "differ");
	for (size_t f = 0; f < COMPARE_FIGURES; f++)
		if (compare_differs(c->columns, c->count, f))
			json_text(j, NULL, compare_key(f));
	json_end(j);
	json_array(j, "variants");
	for (size_t i = 0; i < c->count; i++)
		put_column(j, c, i);
	json_end(j);
	json_end(j);
}

enum status sheet_compare(FILE *to, const char *job, const struct compare_column *columns,
        size_t count, enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text, csv, json };
	const struct comparison c = { job, columns, count };

	return sheet_write(to, &forms, &c, form, err);
}
