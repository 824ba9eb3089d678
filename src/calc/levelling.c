/* levelling.c - the book line by line: each set-up's height from its backsight, each level from
 * that height. Lengths are whole micrometres, so every sum is exact. */
#include "slabwright/levelling.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

static const int64_t LONGEST_STAFF_UM = 100 * UM_PER_M;

static bool is_read(int64_t reading_um)
{
	return reading_um != NO_READING;
}

static enum status check_reading(int64_t um, size_t line, struct error *err)
{
	char m[40];

	if (!is_read(um) || llabs(um) <= LONGEST_STAFF_UM)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "line %zu of the book: no staff reads %s; check the unit it was typed in", line + 1,
	        length_print(m, sizeof m, um, UNIT_M));
}

/* What a line in the middle of the book needs. */
static enum status check_middle(const struct plan_reading *r, size_t line, struct error *err)
{
	bool back = is_read(r->backsight_um), fore = is_read(r->foresight_um);

	if (back && !fore)
		return error_set(err, STATUS_PLAN,
		        "line %zu of the book: a backsight without a foresight; at a change point "
		        "the staff is read before the instrument is moved and after it, both in "
		        "one line",
		        line + 1);
	if (fore && !back)
		return error_set(err, STATUS_PLAN,
		        "line %zu of the book: a foresight without a backsight; the instrument was "
		        "moved, so read the same point from its new place, in the same line, or "
		        "make it an intermediate sight",
		        line + 1);
	return STATUS_OK;
}

static enum status check_line(const struct plan_book *book, size_t line, struct error *err)
{
	const struct plan_reading *r = &book->readings[line];
	bool back = is_read(r->backsight_um), fore = is_read(r->foresight_um),
	     between = is_read(r->intermediate_um), first = line == 0,
	     last = line + 1 == book->count;
	enum status st;

	if (!back && !fore && !between)
		return error_set(err, STATUS_PLAN,
		        "line %zu of the book: no reading; type one, or delete the line", line + 1);
	if (between && (back || fore))
		return error_set(err, STATUS_PLAN,
		        "line %zu of the book: an intermediate sight beside a backsight or "
		        "foresight; a point is sighted once from each set-up, so keep one of them",
		        line + 1);
	if ((st = check_reading(r->backsight_um, line, err)) != STATUS_OK ||
	        (st = check_reading(r->intermediate_um, line, err)) != STATUS_OK ||
	        (st = check_reading(r->foresight_um, line, err)) != STATUS_OK)
		return st;
	if (first && (!back || fore))
		return error_set(err, STATUS_PLAN,
		        "line 1 of the book: it needs a backsight and nothing else, on the point "
		        "whose level is known");
	if (last && (!fore || back))
		return error_set(err, STATUS_PLAN,
		        "line %zu of the book: the last line needs a foresight and nothing else",
		        line + 1);
	return first || last ? STATUS_OK : check_middle(r, line, err);
}

static enum status check_book(const struct plan_book *book, struct error *err)
{
	enum status st = STATUS_OK;

	if (book->count < 2)
		return error_set(err, STATUS_PLAN,
		        "the levelling book has %s; it begins with a backsight on a point of known "
		        "level and ends with a foresight",
		        book->count ? "one line only" : "no lines");
	for (size_t i = 0; i < book->count && st == STATUS_OK; i++)
		st = check_line(book, i, err);
	return st;
}

/* The reading that ends the way to this point: from the set-up it was first sighted from. */
static int64_t sight_um(const struct plan_reading *r)
{
	if (is_read(r->intermediate_um))
		return r->intermediate_um;
	return is_read(r->foresight_um) ? r->foresight_um : r->backsight_um;
}

static void add_to_set_up(struct book_set_up *s, int64_t reading_um, int64_t level_um)
{
	s->points++;
	s->readings_um += reading_um;
	s->levels_um += level_um;
}

static void reduce_line(const struct plan_book *book, size_t i, struct book_result *out)
{
	const struct plan_reading *r = &book->readings[i];
	struct book_line *line = &out->lines[i];
	struct book_set_up *s = out->set_ups + out->set_up_count;

	line->reading = r;
	if (i == 0) {
		line->reduced_um = book->start_um;
	} else {
		const struct plan_reading *before = &book->readings[i - 1];
		int64_t from = is_read(before->backsight_um) ? before->backsight_um
		                                             : before->intermediate_um;

		line->set_up = out->set_up_count - 1;
		line->reduced_um = s[-1].height_um - sight_um(r);
		line->rise_um = from - sight_um(r);
		*(line->rise_um > 0 ? &out->rises_um : &out->falls_um) += llabs(line->rise_um);
		add_to_set_up(&s[-1], sight_um(r), line->reduced_um);
	}
	if (is_read(r->foresight_um))
		out->foresights_um += r->foresight_um;
	if (!is_read(r->backsight_um))
		return;
	out->backsights_um += r->backsight_um;
	line->has_height = true;
	line->height_um = s->height_um = line->reduced_um + r->backsight_um;
	add_to_set_up(s, r->backsight_um, line->reduced_um);
	out->set_up_count++;
}

static bool sums_agree(const struct book_result *b)
{
	int64_t way = b->last_um - b->first_um;

	for (size_t i = 0; i < b->set_up_count; i++)
		if ((int64_t)b->set_ups[i].points * b->set_ups[i].height_um !=
		        b->set_ups[i].readings_um + b->set_ups[i].levels_um)
			return false;
	return b->backsights_um - b->foresights_um == way && b->rises_um - b->falls_um == way;
}

static void close_book(const struct plan_book *book, struct book_result *b)
{
	int64_t n = (int64_t)b->set_up_count;

	b->first_um = b->lines[0].reduced_um;
	b->last_um = b->lines[b->count - 1].reduced_um;
	b->checks = sums_agree(b);
	b->has_close = book->has_close;
	b->allowed_um = (double)book->allow_um * sqrt((double)n);
	b->misclosure_um = book->has_close ? b->last_um - book->close_um : 0;
	b->within = fabs((double)b->misclosure_um) <= b->allowed_um;
	b->spread = book->has_close && book->adjust;
	for (size_t i = 0; i < b->count; i++) {
		struct book_line *line = &b->lines[i];
		double share = i == 0 ? 0 : (double)(line->set_up + 1) / (double)n;

		if (b->spread)
			line->correction_um = -llround((double)b->misclosure_um * share);
		line->level_um = line->reduced_um + line->correction_um;
	}
}

enum status book_reduce(
        struct arena *mem, const struct plan_book *book, struct book_result *out, struct error *err)
{
	enum status st = check_book(book, err);

	if (st != STATUS_OK)
		return st;
	*out = (struct book_result){
		.lines = arena_alloc(mem, book->count, sizeof *out->lines),
		.set_ups = arena_alloc(mem, book->count, sizeof *out->set_ups),
		.count = book->count,
	};
	if (!out->lines || !out->set_ups)
		return error_memory(err);
	for (size_t i = 0; i < book->count; i++)
		reduce_line(book, i, out);
	close_book(book, out);
	return STATUS_OK;
}

enum status book_spots(struct arena *mem, const struct book_result *book, struct plan_spot **spots,
        size_t *count, struct error *err)
{
	*count = 0;
	if (!(*spots = arena_alloc(mem, book->count, sizeof **spots)))
		return error_memory(err);
	for (size_t i = 0; i < book->count; i++) {
		const struct plan_reading *r = book->lines[i].reading;

		if (r->has_place)
			(*spots)[(*count)++] = (struct plan_spot){ r->name, r->x_um, r->y_um,
				book->lines[i].level_um };
	}
	return STATUS_OK;
}

bool book_instrument(struct arena *mem, const struct plan *plan, struct plan_ground *ground)
{
	struct book_result b;
	const struct book_line *at, *last;

	if (plan->ground.has_instrument ||
	        book_reduce(mem, &plan->site.book, &b, NULL) != STATUS_OK)
		return false;
	for (at = last = &b.lines[b.count - 1]; !at->has_height;)
		at--;
	ground->has_instrument = true;
	ground->benchmark_um = at->reduced_um + last->correction_um;
	ground->backsight_um = at->reading->backsight_um;
	return true;
}

struct three_wires three_wire_mean(double upper, double middle, double lower)
{
	return (struct three_wires){
		.mean = (upper + middle + lower) / 3,
		.upper_half = upper - middle,
		.lower_half = middle - lower,
		.distance = 100 * (upper - lower),
	};
}
