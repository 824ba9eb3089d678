/* book.c - the levelling book in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <math.h>
#include <stdlib.h>

struct book_sheet {
	const struct plan *plan;
	const struct book_result *book;
};

static const char *metres(char buf[40], int64_t um)
{
	return um == NO_READING ? "" : length_print_bare(buf, 40, um, UNIT_M);
}

/* --- text --- */

static void text_book_line(FILE *to, const struct book_line *l, size_t number)
{
	const struct plan_reading *r = l->reading;
	char back[40], between[40], fore[40], height[40], rise[40], reduced[40], off[40], level[40];

	fprintf(to, "%3zu %6s %6s %6s %7s %6s %7s %5s %7s  ", number, metres(back, r->backsight_um),
	        metres(between, r->intermediate_um), metres(fore, r->foresight_um),
	        l->has_height ? metres(height, l->height_um) : "",
	        number > 1 ? metres(rise, l->rise_um) : "", metres(reduced, l->reduced_um),
	        l->correction_um ? mm_print(off, sizeof off, l->correction_um) : "",
	        metres(level, l->level_um));
	sheet_put_text(to, r->name ? r->name : "");
	fputc('\n', to);
}

static void text_sums(FILE *to, const struct book_result *b)
{
	char x[40], y[40], z[40];

	text_line(to, "backsights less foresights", "%s - %s = %s m", metres(x, b->backsights_um),
	        metres(y, b->foresights_um), metres(z, b->backsights_um - b->foresights_um));
	text_line(to, "rises less falls", "%s - %s = %s m", metres(x, b->rises_um),
	        metres(y, b->falls_um), metres(z, b->rises_um - b->falls_um));
	text_line(to, "last less first level", "%s - %s = %s m", metres(x, b->last_um),
	        metres(y, b->first_um), metres(z, b->last_um - b->first_um));
	text_line(to, "sums", "%s",
	        b->checks ? "agree, and so do each set-up's readings and levels with its height"
	                  : "do not agree");
	text_line(to, "set-ups", "%zu", b->set_up_count);
}

static void text_closing(FILE *to, const struct book_result *b)
{
	char mm[40], allowed[40];

	if (!b->has_close) {
		fputs("  The book does not end on a point of known level, so nothing shows a "
		      "misread staff between. Go back to the first point, or to another one "
		      "known.\n",
		        to);
		return;
	}
	text_line(to, "misclosure", "%s mm; allowed %s mm, so it is %s",
	        mm_print(mm, sizeof mm, b->misclosure_um),
	        mm_print(allowed, sizeof allowed, llround(b->allowed_um / 100) * 100),
	        b->within ? "within" : "over");
	if (!b->within)
		fputs("  Warning: the book does not close. Look for a misread or miswritten line, "
		      "and level again; the levels are not to be built by.\n",
		        to);
	if (b->spread)
		fputs("  The misclosure is taken off evenly over the set-ups.\n", to);
}

static void text_book(FILE *to, const void *what)
{
	const struct book_sheet *s = what;
	const struct book_result *b = s->book;

	text_heading(to, s->plan, "Levelling book");
	fputs("  Readings and levels in m, correction in mm; a fall is a negative rise, a staff "
	      "held upside down reads negative.\n\n",
	        to);
	fprintf(to, "%3s %6s %6s %6s %7s %6s %7s %5s %7s  %s\n", "no.", "back", "inter", "fore",
	        "height", "rise", "reduced", "corr", "level", "point");
	for (size_t i = 0; i < b->count; i++)
		text_book_line(to, &b->lines[i], i + 1);
	fputs("\nChecks\n", to);
	text_sums(to, b);
	text_closing(to, b);
}

/* --- CSV --- */

static void cell_mm(struct row *r, int64_t um, bool known)
{
	if (known)
		row_mm(r, (double)um);
	else
		row_empty(r);
}

static void csv_book(FILE *to, const void *what)
{
	const struct book_sheet *s = what;
	struct row r = { .to = to };

	ROW_HEADER(&r, "line", "name", "backsight_mm", "intermediate_mm", "foresight_mm",
	        "height_mm", "rise_mm", "fall_mm", "reduced_mm", "correction_mm", "level_mm",
	        "x_mm", "y_mm");
	for (size_t i = 0; i < s->book->count; i++) {
		const struct book_line *l = &s->book->lines[i];
		const struct plan_reading *p = l->reading;

		row_int(&r, (int64_t)i + 1);
		row_text(&r, p->name ? p->name : "");
		cell_mm(&r, p->backsight_um, p->backsight_um != NO_READING);
		cell_mm(&r, p->intermediate_um, p->intermediate_um != NO_READING);
		cell_mm(&r, p->foresight_um, p->foresight_um != NO_READING);
		cell_mm(&r, l->height_um, l->has_height);
		cell_mm(&r, l->rise_um, i > 0 && l->rise_um >= 0);
		cell_mm(&r, -l->rise_um, i > 0 && l->rise_um < 0);
		row_mm(&r, (double)l->reduced_um);
		row_mm(&r, (double)l->correction_um);
		row_mm(&r, (double)l->level_um);
		cell_mm(&r, p->x_um, p->has_place);
		cell_mm(&r, p->y_um, p->has_place);
		row_end(&r);
	}
}

/* --- JSON --- */

static void member_mm(struct json *j, const char *key, int64_t um, bool known)
{
	if (known)
		json_mm(j, key, um);
	else
		json_null(j, key);
}

static void json_book_line(struct json *j, const struct book_line *l, bool first)
{
	const struct plan_reading *p = l->reading;

	json_object_tight(j, NULL);
	json_text(j, "name", p->name ? p->name : "");
	member_mm(j, "backsight", p->backsight_um, p->backsight_um != NO_READING);
	member_mm(j, "intermediate", p->intermediate_um, p->intermediate_um != NO_READING);
	member_mm(j, "foresight", p->foresight_um, p->foresight_um != NO_READING);
	member_mm(j, "height", l->height_um, l->has_height);
	member_mm(j, "rise", l->rise_um, !first);
	json_mm(j, "reduced", l->reduced_um);
	json_mm(j, "correction", l->correction_um);
	json_mm(j, "level", l->level_um);
	member_mm(j, "x", p->x_um, p->has_place);
	member_mm(j, "y", p->y_um, p->has_place);
	json_end(j);
}

static void json_book(struct json *j, const void *what)
{
	const struct book_sheet *s = what;
	const struct book_result *b = s->book;

	json_object(j, NULL);
	json_text(j, "variant", s->plan->name);
	json_array(j, "lines");
	for (size_t i = 0; i < b->count; i++)
		json_book_line(j, &b->lines[i], i == 0);
	json_end(j);
	json_int(j, "set_ups", (int64_t)b->set_up_count);
	json_object_tight(j, "sums");
	json_mm(j, "backsights", b->backsights_um);
	json_mm(j, "foresights", b->foresights_um);
	json_mm(j, "rises", b->rises_um);
	json_mm(j, "falls", b->falls_um);
	json_bool(j, "agree", b->checks);
	json_end(j);
	member_mm(j, "misclosure", b->misclosure_um, b->has_close);
	member_mm(j, "allowed", llround(b->allowed_um), b->has_close);
	json_bool(j, "within", b->within);
	json_bool(j, "spread", b->spread);
	json_end(j);
}

enum status sheet_book(FILE *to, const struct plan *plan, const struct book_result *book,
        enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_book, csv_book, json_book };
	struct book_sheet s = { plan, book };

	return sheet_write(to, &forms, &s, form, err);
}
