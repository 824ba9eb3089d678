/* courses.c - the laying sheet: what lies in each course, from left to right, and each piece to cut
 * with its label, its size, the slab it comes from and a small sketch. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

/* The cut slab of each piece, from 1; 0 for none. */
static size_t *slabs_of_pieces(const struct takeoff *t)
{
	size_t *slab = calloc(t->laid.piece_count + 1, sizeof *slab);

	for (size_t i = 0; slab && i < t->cuts.slabs; i++)
		for (int k = 0; k < t->cuts.sources[i].count; k++)
			slab[t->cuts.sources[i].place[k].piece] = i + 1;
	return slab;
}

/* What a form knows while it goes over the runs. */
struct telling {
	const struct takeoff *t;
	const struct section *section;
	const size_t *slab;
	FILE *to;
	struct json *json;
	int64_t course;
	bool begun;
};

static size_t number_of(const struct telling *t, const struct piece *p)
{
	return (size_t)(p - t->t->laid.pieces) + 1;
}

/* Whether a piece is the first to be laid of those from its cut slab. */
static bool begins_slab(const struct telling *t, const struct piece *p)
{
	size_t slab = t->slab[number_of(t, p) - 1];

	return slab && t->t->cuts.sources[slab - 1].place[0].piece + 1 == number_of(t, p);
}

static void tell_all(struct telling *t, laid_run_fn *visit, const struct section *s)
{
	t->section = s;
	t->begun = false;
	if (s->paved)
		laid_runs(&s->laid, &s->frame_region, visit, t);
}

/* --- text --- */

static void text_run(void *context, const struct laid_run *run)
{
	struct telling *t = context;
	const struct piece *p = run->piece;

	if (!t->begun || run->course != t->course)
		fprintf(t->to, "%s  course %" PRId64 ": ", t->begun ? "\n" : "", run->course);
	else
		fputs(", ", t->to);
	t->begun = true;
	t->course = run->course;
	if (!p)
		fprintf(t->to, "%" PRId64 " whole", run->last - run->first + 1);
	else if (p->kind == PIECE_MADE_UP)
		fprintf(t->to, "%ld mm made up in the joint",
		        whole_mm(fmin(p->box.x1 - p->box.x0, p->box.y1 - p->box.y0)));
	else
		fprintf(t->to, "piece %zu%s", number_of(t, p), piece_part_words(p));
}

enum { SKETCH_COLUMNS = 24, SKETCH_ROWS = 12 };

/* The slab position as dots, the piece in it as hashes; rows are twice as high as columns wide. */
static void put_sketch(FILE *to, const struct telling *t, const struct piece *p)
{
	struct point size = laid_size(&t->section->laid, p->spot);
	double step = fmax(size.x / SKETCH_COLUMNS, size.y / 2 / SKETCH_ROWS);
	int columns = (int)ceil(size.x / step - 1e-6), rows = (int)ceil(size.y / step / 2 - 1e-6);

	for (int row = rows - 1; row >= 0; row--) {
		fputs("      ", to);
		for (int col = 0; col < columns; col++) {
			struct point at = { (col + 0.5) * size.x / columns,
				(row + 0.5) * size.y / rows };

			fputc(region_contains(&p->shape, at) ? '#' : '.', to);
		}
		if (row == 0)
			fprintf(to, "  %ld high, %ld wide", whole_mm(p->box.y1 - p->box.y0),
			        whole_mm(p->box.x1 - p->box.x0));
		fputc('\n', to);
	}
}

static void put_piece(FILE *to, const struct telling *t, const struct piece *p)
{
	size_t number = number_of(t, p);

	fprintf(to, "    piece %zu: %s, %ld x %ld mm, course %" PRId64 " slab %" PRId64 "%s",
	        number, piece_kind_name(p->kind), whole_mm(p->box.x1 - p->box.x0),
	        whole_mm(p->box.y1 - p->box.y0), p->spot.course, p->spot.index,
	        piece_part_words(p));
	if (t->slab[number - 1])
		fprintf(to, ", from cut slab %zu", t->slab[number - 1]);
	text_corners(to, p);
	fputc('\n', to);
	put_sketch(to, t, p);
	if (begins_slab(t, p))
		text_saw(to, t->t, t->slab[number - 1] - 1, "      ");
}

static void text_section(struct telling *t, const struct section *s)
{
	fputs("\n", t->to);
	sheet_put_text(t->to, s->name);
	fputc('\n', t->to);
	tell_all(t, text_run, s);
	fputs(t->begun ? "\n" : s->paved ? "  nothing is laid here\n" : "  no slabs\n", t->to);
	for (size_t i = 0; i < s->laid.piece_count; i++)
		if (s->laid.pieces[i].kind != PIECE_MADE_UP)
			put_piece(t->to, t, &s->laid.pieces[i]);
}

void text_courses(FILE *to, const struct takeoff *t)
{
	struct telling telling = { .t = t, .slab = slabs_of_pieces(t), .to = to };

	text_title(to, t, "Laying sheet");
	fputs("  Courses from the start line; from left to right along each. In a sketch # is the "
	      "piece, . what is cut off its slab.\n",
	        to);
	fprintf(to, "  Cut slabs: %s.\n", SAW_WORDS);
	for (size_t i = 0; telling.slab && i < t->laid.section_count; i++)
		text_section(&telling, &t->laid.sections[i]);
	free((void *)telling.slab);
}

/* --- CSV --- */

static void csv_piece(struct row *r, const struct telling *t, const struct piece *p)
{
	size_t slab = t->slab[number_of(t, p) - 1];

	row_text(r, piece_kind_name(p->kind));
	row_int(r, (int64_t)number_of(t, p));
	row_mm(r, p->box.x1 - p->box.x0);
	row_mm(r, p->box.y1 - p->box.y0);
	if (slab)
		row_int(r, (int64_t)slab);
	else
		row_empty(r);
	if (begins_slab(t, p))
		csv_saw(r, t->t, slab - 1);
	else
		row_empty(r);
}

static void csv_run(void *context, const struct laid_run *run)
{
	struct telling *t = context;
	struct row r = { t->to, false };

	row_text(&r, t->section->name);
	row_int(&r, run->course);
	row_int(&r, run->first);
	row_int(&r, run->last);
	if (run->piece) {
		csv_piece(&r, t, run->piece);
	} else {
		row_text(&r, "whole");
		for (int i = 0; i < 5; i++)
			row_empty(&r);
	}
	row_end(&r);
}

void csv_courses(FILE *to, const struct takeoff *t)
{
	struct telling telling = { .t = t, .slab = slabs_of_pieces(t), .to = to };
	struct row r = { to, false };

	ROW_HEADER(&r, "section", "course", "first", "last", "what", "piece", "length_mm",
	        "width_mm", "cut_slab", "saw");
	for (size_t i = 0; telling.slab && i < t->laid.section_count; i++)
		tell_all(&telling, csv_run, &t->laid.sections[i]);
	free((void *)telling.slab);
}

/* --- JSON --- */

static void json_run(void *context, const struct laid_run *run)
{
	struct telling *t = context;
	const struct piece *p = run->piece;

	json_object_tight(t->json, NULL);
	json_int(t->json, "course", run->course);
	json_int(t->json, "first", run->first);
	json_int(t->json, "last", run->last);
	json_text(t->json, "what", p ? piece_kind_name(p->kind) : "whole");
	if (p) {
		size_t number = number_of(t, p);

		json_int(t->json, "piece", (int64_t)number);
		if (t->slab[number - 1])
			json_int(t->json, "cut_slab", (int64_t)t->slab[number - 1]);
	}
	json_end(t->json);
}

void json_courses(struct json *j, const struct takeoff *t)
{
	struct telling telling = { .t = t, .slab = slabs_of_pieces(t), .json = j };

	if (!telling.slab) {
		j->failed = true;
		return;
	}
	json_object(j, NULL);
	json_array(j, "sections");
	for (size_t i = 0; i < t->laid.section_count; i++) {
		json_object(j, NULL);
		json_text(j, "name", t->laid.sections[i].name);
		json_array(j, "runs");
		tell_all(&telling, json_run, &t->laid.sections[i]);
		json_end(j);
		json_end(j);
	}
	json_end(j);
	json_array(j, "cut_slabs");
	for (size_t i = 0; i < t->cuts.slabs; i++) {
		json_object(j, NULL);
		json_int(j, "cut_slab", (int64_t)i + 1);
		json_saw(j, t, i);
		json_end(j);
	}
	json_end(j);
	json_end(j);
	free((void *)telling.slab);
}
