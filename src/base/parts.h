/* parts.h - inside base: what the checks and copies of a plan's parts share. */
#ifndef SLABWRIGHT_BASE_PARTS_H
#define SLABWRIGHT_BASE_PARTS_H

#include "slabwright/plan.h"
#include "slabwright/text.h"

/* Copies count items; NULL only when memory is gone. */
void *copy_items(struct arena *mem, const void *items, size_t count, size_t size);

/* The place of a word in a list; -1 for one that is not there. */
int find_word(const char *const *words, int count, const char *word);

/* One value that must lie between two limits, all in um. */
struct limit {
	const char *name;
	int64_t value, least, most;
};
enum status check_limits(
        const struct limit *limits, size_t count, const char *place, struct error *err);

/* A member of a struct and what it may be, for tables. */
struct measure {
	double scale; /* how many of the value kept make one of the number shown */
	const char *unit; /* " mm" */
};
extern const struct measure in_mm, in_degrees, in_mm_per_m, in_mm_per_h, in_l_s, in_m_s, in_kg_m3,
        in_kn_m2, in_kg, in_m2, in_litres, in_minutes, as_thousandths, as_share, as_whole,
        as_price; /* -1, unknown, is fine for a price */
extern const struct measure as_word, as_text; /* an enum from least to most; a name */

struct range {
	const char *name;
	size_t at; /* offset in the struct */
	int64_t least, most;
	const struct measure *in;
};

/* Refuses (STATUS_PLAN) the first member of the struct at `from` that is out of its range. */
enum status check_ranges(const struct range *ranges, size_t count, const void *from,
        const char *place, struct error *err);

/* Refuses more than `most` items of a list. */
enum status check_count(
        const char *name, size_t count, size_t most, const char *place, struct error *err);

/* What laying_check refuses in a slab, and in a course's offset. */
enum status slab_check(const struct plan_slab *slab, const char *place, struct error *err);
enum status offset_check(double offset, const char *place, struct error *err);

#endif
