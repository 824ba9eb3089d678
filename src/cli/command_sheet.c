/* command_sheet.c - the sheets on paper. */
#include "command.h"
#include "slabwright/drawing.h"

#include <string.h>

static enum status read_options(const struct run *run, struct drawing_options *o, struct error *err)
{
	const struct request *r = run->request;
	enum status st;

	if (!r->to || !*r->to)
		return error_set(err, STATUS_USAGE,
		        "sheet needs --to FILE after it: where the drawing goes, a name ending in "
		        ".pdf, .svg or .png.");
	if ((st = drawing_form_of(r->to, &o->form, err)) != STATUS_OK)
		return st;
	if (r->paper && (st = paper_parse(r->paper, &o->paper, err)) != STATUS_OK)
		return st;
	if (r->scale && (st = scale_parse(r->scale, &o->scale, err)) != STATUS_OK)
		return st;
	o->only = r->only;
	o->date = r->date ? r->date : run->env->date;
	return date_check(o->date ? o->date : "", err);
}

/* Pages of a longer drawing are not taken away: they may be wanted, or be someone else's. */
static void tell_left_over(const char *path, enum drawing_form form, size_t pages)
{
	size_t n = drawing_left_over(path, form, pages);

	if (n == 1)
		printf("Page file %zu of an earlier, longer drawing still lies beside it; remove "
		       "it "
		       "if it is not wanted.\n",
		        pages + 1);
	else if (n)
		printf("Page files %zu to %zu of an earlier, longer drawing still lie beside it; "
		       "remove them if they are not wanted.\n",
		        pages + 1, pages + n);
}

enum status command_sheet(struct run *run, struct error *err)
{
	const struct request *r = run->request;
	struct drawing_options options = { .paper = PAPER_A4 };
	struct store_place place;
	struct takeoff t;
	size_t pages;
	enum status st = read_options(run, &options, err);

	if (st == STATUS_OK)
		st = work_out_place(run, &place, &t, err);
	if (st != STATUS_OK)
		return st;
	options.client = place.client_name;
	options.job = place.job_title;
	st = drawing_write(r->to, &t, &options, &pages, err);
	if (st != STATUS_OK)
		return t.ready ? st : error_place(err, st, r->arguments[0]);
	fputs("Wrote ", stdout);
	sheet_put_text(stdout, r->to);
	if (pages > 1 && options.form != DRAWING_PDF)
		printf(" and, numbered from 2, the other pages: %zu together.\n", pages);
	else
		printf(", %zu page%s.\n", pages, pages == 1 ? "" : "s");
	tell_left_over(r->to, options.form, pages);
	return STATUS_OK;
}
