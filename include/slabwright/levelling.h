/* levelling.h - a levelling book reduced.
 *
 * By height of collimation: the instrument's height is the level of the point its backsight is on
 * plus that reading, and a point's level is that height less what the staff reads on it. Rise and
 * fall are worked out beside it, from reading to reading within a set-up. A set-up is one standing
 * of the instrument: from a backsight to the next foresight. Where the last point's level is known,
 * the misclosure is what comes out for it less that, and the same part of it is taken off for every
 * set-up that a point is away from the start. */
#ifndef SLABWRIGHT_LEVELLING_H
#define SLABWRIGHT_LEVELLING_H

#include "slabwright/plan.h"

/* One line of the book, worked out. */
struct book_line {
	const struct plan_reading *reading;
	size_t set_up; /* from which the point was sighted, from 0; a change point's is the one
	                  before */
	bool has_height; /* the line has a backsight */
	int64_t height_um; /* then: level of the line of sight from here on, not corrected */
	int64_t rise_um; /* from the line before; negative: fall. 0 in the first line */
	int64_t reduced_um; /* level as read */
	int64_t correction_um; /* to add; 0 where nothing is spread */
	int64_t level_um; /* reduced and corrected */
};

/* All readings of one set-up against their levels: so many times its height is the sum of the
 * readings and of the reduced levels, a check of the intermediate sights too. */
struct book_set_up {
	int64_t height_um;
	size_t points; /* sighted, its backsight's among them */
	int64_t readings_um, levels_um; /* sums */
};

struct book_result {
	struct book_line *lines;
	size_t count;
	struct book_set_up *set_ups;
	size_t set_up_count;
	int64_t backsights_um, foresights_um, rises_um, falls_um; /* sums */
	int64_t first_um, last_um; /* reduced */
	bool checks; /* backsights less foresights, rises less falls, and last less first agree, and
	                every set-up's sums do */
	bool has_close;
	int64_t misclosure_um; /* last reduced less known */
	double allowed_um; /* times root of the set-ups */
	bool within; /* true too where there is nothing to close on */
	bool spread; /* the misclosure is spread over the levels */
};

/* Refuses (STATUS_PLAN), naming the line from 1 and the remedy: fewer than two lines; a first line
 * without backsight or a last one without foresight; a backsight without foresight or the other way
 * round in between; an intermediate sight beside another; a line without a reading; a reading
 * beyond 100 m. Lines live in mem; the book must outlive them. */
enum status book_reduce(struct arena *mem, const struct plan_book *book, struct book_result *out,
        struct error *err);

/* Those lines that have a place, as levels of the ground. STATUS_MEMORY. */
enum status book_spots(struct arena *mem, const struct book_result *book, struct plan_spot **spots,
        size_t *count, struct error *err);

/* The instrument as the book leaves it: benchmark and backsight of the last set-up, the benchmark
 * corrected as the points sighted from it are. False, and nothing set, where the plan has an
 * instrument of its own or its book cannot be reduced. */
bool book_instrument(struct arena *mem, const struct plan *plan, struct plan_ground *ground);

/* Three wires read on a staff: their mean is the reading; the half intervals show a misreading when
 * they differ, and the staff's distance is a hundred times the interval in most instruments. */
struct three_wires {
	double mean, upper_half, lower_half, distance;
};
struct three_wires three_wire_mean(double upper, double middle, double lower);

#endif
